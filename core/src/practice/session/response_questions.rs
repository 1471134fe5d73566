//! After a set with pushes the partner goes through them and notes what happened, one key each. A push that is not
//! noted is kept as not noted, never as fine.

use super::after_set::{AfterPhase, AfterSet};
use super::current_set::CurrentSet;
use super::event::Key;
use super::screen::KeyHint;
use super::{State, Turn, Whole};
use crate::record::{Mishap, Question, Response, SetEnd};

impl AfterSet {
    /// What is asked after a set: of a set with pushes the partner first, then the trainee.
    pub(super) fn begin(set: CurrentSet, turn: &mut Turn<'_>) -> State {
        match set.next_to_note() {
            Some(cue) => {
                turn.say("partner.responses");
                Self::at(set, AfterPhase::Walk { cue, sure: None, wait: turn.wait() })
            }
            None => Self::ask_the_trainee(set, turn),
        }
    }

    /// Where the partner noted it, the trainee is not asked about grabs.
    fn ask_the_trainee(set: CurrentSet, turn: &mut Turn<'_>) -> State {
        let known = turn.whole.has_pushes(&set.plan) || set.notes.end == Some(SetEnd::Grabbed);
        Self::ask(set, if known { Question::HeldOn } else { Question::Grabbed }, turn)
    }

    pub(super) fn walk_key(mut self, cue: u16, sure: Option<Mishap>, key: Key, turn: &mut Turn<'_>) -> State {
        let again = |set, sure| Self::at(set, AfterPhase::Walk { cue, sure, wait: turn.wait() });
        match (sure, key) {
            (Some(_), key) if key.is('n') => again(self.set, None),
            (Some(what), key) if key.is('y') => {
                self.set.keep_response(cue, Some(what.response()), turn);
                turn.whole.count(what);
                turn.hush();
                self.set.after_mishap(what, turn)
            }
            (_, key) if key.stops() => self.stop(turn),
            (None, Key::Char(digit @ '0'..='5')) => {
                let response = Response::numbered(digit as u8 - b'0');
                match response.and_then(Response::mishap) {
                    Some(what) => again(self.set, Some(what)),
                    None => self.note_response(cue, response, turn),
                }
            }
            (None, Key::Enter | Key::Char('-')) => self.note_response(cue, None, turn),
            (_, _) => State::AfterSet(Box::new(self)),
        }
    }

    fn note_response(mut self, cue: u16, response: Option<Response>, turn: &mut Turn<'_>) -> State {
        self.set.keep_response(cue, response, turn);
        match self.set.next_to_note() {
            Some(cue) => Self::at(self.set, AfterPhase::Walk { cue, sure: None, wait: turn.wait() }),
            None => {
                turn.hush();
                Self::ask_the_trainee(self.set, turn)
            }
        }
    }
}

impl CurrentSet {
    /// `Push 2 of 4, toward the window, barely: what happened?`
    pub(super) fn ask_for(&self, whole: &Whole, cue: u16) -> String {
        let pushes = self.pushes_asked();
        let nth = 1 + pushes.iter().position(|push| *push == cue).unwrap_or_default();
        let words = self.push_in_words(whole, cue);
        let words = if words.is_empty() { words } else { format!(", {words}") };
        format!("Partner: push {nth} of {}{words}. What happened?", pushes.len())
    }
}

pub(super) fn response_keys() -> Vec<KeyHint> {
    let numbered =
        Response::ALL.iter().map(|response| KeyHint::new(&response.number().to_string(), response.name()));
    numbered.chain([KeyHint::new("-", "I did not note it")]).collect()
}
