//! A grab and a fall in a set with a partner. Each has its own key; the session asks for confirmation before it acts.

use super::event::{Effect, Key, Now};
use super::{Effects, Phase, Session, Wait, say};
use crate::record::{Advice, AdviceRow, Entry, LeftOut, Mishap, MishapRow, Question, SetEnd};
use crate::units::Millis;

/// A grab this soon after a push was asked for is what happened after it: no two pushes are nearer \[judgment\].
const AFTER_A_PUSH: Millis = Millis(10_000);
/// With a partner the first grab leads to a rest, the second ends the session \[judgment\].
const MOST_GRABS: u8 = 2;

impl Session {
    /// What this key says of a set with a partner.
    pub(super) fn mishap_of(&self, key: Key) -> Option<Mishap> {
        match key {
            _ if !self.is_with_partner() => None,
            _ if key.is('g') => Some(Mishap::Grab),
            _ if key.is('f') => Some(Mishap::Fall),
            _ => None,
        }
    }

    /// Everything stops at once; then it is asked whether it was the right key.
    pub(super) fn ask_about_mishap(&mut self, now: &Now, mishap: Option<Mishap>, effects: &mut Effects) {
        let Some(what) = mishap else { return };
        let worked = self.worked(now);
        effects.push(Effect::Hush);
        if let (Some(worked), Phase::Work { .. }) = (worked, self.phase) {
            self.deliver_due_cues(worked, effects);
            self.close_span(worked, effects);
        }
        effects.push(say(match what {
            Mishap::Grab => "partner.grab",
            Mishap::Fall => "partner.fall",
        }));
        self.phase = Phase::Mishap { what, worked, wait: Wait::from(now.at) };
    }

    pub(super) fn confirm_mishap(
        &mut self,
        now: &Now,
        what: Mishap,
        worked: Option<Millis>,
        key: Key,
        effects: &mut Effects,
    ) {
        if key.is('n') {
            effects.push(Effect::Hush);
            self.phase = match worked {
                Some(worked) => Phase::Paused { worked, since: now.at },
                None => Phase::Stand { wait: Wait::from(now.at) },
            };
            if self.sound_lost && !self.silent {
                self.break_off(now, SetEnd::SoundLost, effects);
            }
        } else if key.stops() {
            self.stop(now, effects);
        } else if key.is('y') {
            effects.push(Effect::Hush);
            self.keep_mishap(what, worked, effects);
            if let Some(worked) = worked {
                self.record_set_end(now, worked, what.set_end(), effects);
            }
            self.after_mishap(now, what, effects);
        }
    }

    /// Keeps it, and as the response to the push that was just asked for.
    fn keep_mishap(&mut self, what: Mishap, worked: Option<Millis>, effects: &mut Effects) {
        let at = worked.unwrap_or_default();
        let cue = self.pushes_asked().last().copied().filter(|cue| {
            let asked = self.plan.cues()[usize::from(*cue)].at();
            worked.is_some() && at - asked <= AFTER_A_PUSH && !self.noted_pushes.contains(cue)
        });
        effects.push(Effect::Record(Entry::Mishap(MishapRow {
            set: self.plan.number(),
            at_ms: at.0,
            what,
            cue,
        })));
        if let Some(cue) = cue {
            self.keep_response(cue, Some(what.response()), effects);
        }
        self.count(what);
    }

    /// If the practice is left before a mishap is confirmed or denied, it is kept: nobody denied it.
    pub(super) fn keep_unconfirmed(&mut self, effects: &mut Effects) {
        match self.phase {
            Phase::Mishap { what, worked, .. } => self.keep_mishap(what, worked, effects),
            Phase::Walk { cue, sure: Some(what), .. } => {
                self.keep_response(cue, Some(what.response()), effects);
                self.count(what);
            }
            _ => {}
        }
    }

    pub(super) fn count(&mut self, what: Mishap) {
        match what {
            Mishap::Fall => self.fell = true,
            Mishap::Grab => self.grabs += 1,
        }
        self.grabbed |= self.grabs >= MOST_GRABS;
    }

    /// What follows from it: after a fall and after the second grab the end, after the first grab a rest and advice.
    pub(super) fn after_mishap(&mut self, now: &Now, what: Mishap, effects: &mut Effects) {
        if what == Mishap::Fall {
            effects.push(say("fall.guidance"));
            self.note_the_rest(effects);
            self.ask(now, Question::Hurt, effects);
        } else if self.grabbed {
            self.note_the_rest(effects);
            self.ask(now, Question::Unwell, effects);
        } else {
            self.advise_one_step_lower(effects);
            if self.set_end.is_some() {
                self.ask_after_set(now, effects);
            } else {
                // The set had not begun.
                self.leave_out(now, LeftOut::Grabbed, effects);
                self.ask(now, Question::Unwell, effects);
            }
        }
    }

    pub(super) fn advise_one_step_lower(&mut self, effects: &mut Effects) {
        self.step_lower_advised = true;
        let (set, advice) = (self.plan.number(), Advice::OneStepLower);
        effects
            .extend([Effect::Record(Entry::Advised(AdviceRow { set, advice })), say("partner.step-lower")]);
    }
}
