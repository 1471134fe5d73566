//! After a set with pushes the partner goes through them and notes what happened, one key each. A push that is not
//! noted is kept as not noted, never as fine.

use super::event::{Effect, Key, Now};
use super::screen::KeyHint;
use super::{Effects, Phase, Session, Wait, say};
use crate::record::{Entry, Mishap, Question, Response, ResponseRow};

impl Session {
    /// What is asked after a set: of a set with pushes the partner first, then the trainee.
    pub(super) fn ask_after_set(&mut self, now: &Now, effects: &mut Effects) {
        match self.next_to_note() {
            Some(cue) => {
                effects.push(say("partner.responses"));
                self.phase = Phase::Walk { cue, sure: None, wait: Wait::from(now.at) };
            }
            None => self.ask_the_trainee(now, effects),
        }
    }

    /// Where the partner noted it, the trainee is not asked about grabs.
    fn ask_the_trainee(&mut self, now: &Now, effects: &mut Effects) {
        let known = self.has_pushes() || self.set_end == Some(crate::record::SetEnd::Grabbed);
        self.ask(now, if known { Question::HeldOn } else { Question::Grabbed }, effects);
    }

    /// The places of the pushes that the partner was asked for in this set, in order: at most six.
    pub(super) fn pushes_asked(&self) -> Vec<u16> {
        let asked = (0..).zip(self.plan.cues()).take(self.next_cue);
        let pushes = asked.filter(|(_, cue)| cue.call().is_some_and(|call| call.action().is_push()));
        pushes.map(|(place, _)| place).collect()
    }

    fn next_to_note(&self) -> Option<u16> {
        self.pushes_asked().into_iter().find(|cue| !self.noted_pushes.contains(cue))
    }

    pub(super) fn walk_key(
        &mut self,
        now: &Now,
        cue: u16,
        sure: Option<Mishap>,
        key: Key,
        effects: &mut Effects,
    ) {
        let again = |sure| Phase::Walk { cue, sure, wait: Wait::from(now.at) };
        match (sure, key) {
            (Some(_), key) if key.is('n') => self.phase = again(None),
            (Some(what), key) if key.is('y') => {
                self.keep_response(cue, Some(what.response()), effects);
                self.count(what);
                effects.push(Effect::Hush);
                self.after_mishap(now, what, effects);
            }
            (_, key) if key.stops() => self.stop(now, effects),
            (None, Key::Char(digit @ '0'..='5')) => {
                let response = Response::numbered(digit as u8 - b'0');
                match response.and_then(Response::mishap) {
                    Some(what) => self.phase = again(Some(what)),
                    None => self.note_response(now, cue, response, effects),
                }
            }
            (None, Key::Enter | Key::Char('-')) => self.note_response(now, cue, None, effects),
            (_, _) => {}
        }
    }

    fn note_response(&mut self, now: &Now, cue: u16, response: Option<Response>, effects: &mut Effects) {
        self.keep_response(cue, response, effects);
        match self.next_to_note() {
            Some(cue) => self.phase = Phase::Walk { cue, sure: None, wait: Wait::from(now.at) },
            None => {
                effects.push(Effect::Hush);
                self.ask_the_trainee(now, effects);
            }
        }
    }

    pub(super) fn keep_response(&mut self, cue: u16, response: Option<Response>, effects: &mut Effects) {
        if !self.noted_pushes.contains(&cue) {
            self.noted_pushes.push(cue);
            effects.push(Effect::Record(Entry::Responded {
                set: self.plan.number(),
                response: ResponseRow { cue, response },
            }));
        }
    }

    /// What will not be asked any more is kept as not noted.
    pub(super) fn note_the_rest(&mut self, effects: &mut Effects) {
        while let Some(cue) = self.next_to_note() {
            self.keep_response(cue, None, effects);
        }
    }

    /// `Push 2 of 4, toward the window, barely: what happened?`
    pub(super) fn ask_for(&self, cue: u16) -> String {
        let pushes = self.pushes_asked();
        let nth = 1 + pushes.iter().position(|push| *push == cue).unwrap_or_default();
        let words = self.push_in_words(cue);
        let words = if words.is_empty() { words } else { format!(", {words}") };
        format!("Partner: push {nth} of {}{words}. What happened?", pushes.len())
    }

    pub(super) fn response_keys() -> Vec<KeyHint> {
        let hint = |key: &str, does: &str| KeyHint { key: key.to_owned(), does: does.to_owned() };
        let numbered =
            Response::ALL.iter().map(|response| hint(&response.number().to_string(), response.name()));
        numbered.chain([hint("-", "I did not note it")]).collect()
    }
}
