//! A grab and a fall in a set with a partner. Each has its own key; the session asks for confirmation before it acts.

use super::after_set::{AfterFell, AfterSet};
use super::current_set::CurrentSet;
use super::event::Key;
use super::set::{InSet, SetPhase};
use super::{State, Turn};
use crate::record::{Advice, AdviceRow, Entry, LeftOut, Mishap, MishapRow, Question, SetEnd};
use crate::units::Millis;

/// A grab this soon after a push was asked for is what happened after it: no two pushes are nearer \[judgment\].
const AFTER_A_PUSH: Millis = Millis(10_000);

impl InSet {
    /// What this key says of a set with a partner, from the way to stand on.
    pub(super) fn mishap_of(&self, key: Key) -> Option<Mishap> {
        match self.phase {
            SetPhase::Course { .. } | SetPhase::LeftOut { .. } | SetPhase::Mishap { .. } => None,
            _ if !self.set.is_with_partner() => None,
            _ if key.is('g') => Some(Mishap::Grab),
            _ if key.is('f') => Some(Mishap::Fall),
            _ => None,
        }
    }

    /// Everything stops at once; then it is asked whether it was the right key.
    pub(super) fn ask_about_mishap(mut self, what: Mishap, turn: &mut Turn<'_>) -> State {
        let worked = self.worked(turn.now.at);
        turn.hush();
        if let (Some(worked), SetPhase::Work { .. }) = (worked, self.phase) {
            self.set.deliver_due_cues(worked, turn);
            self.set.close_span(worked, turn);
        }
        turn.say(match what {
            Mishap::Grab => "partner.grab",
            Mishap::Fall => "partner.fall",
        });
        self.to(SetPhase::Mishap { what, worked, wait: turn.wait() })
    }

    pub(super) fn confirm_mishap(
        mut self,
        what: Mishap,
        worked: Option<Millis>,
        key: Key,
        turn: &mut Turn<'_>,
    ) -> State {
        if key.is('n') {
            turn.hush();
            let state = self.to(match worked {
                Some(worked) => SetPhase::Paused { worked, since: turn.now.at },
                None => SetPhase::Stand { wait: turn.wait() },
            });
            let lost = turn.whole.is_without_output();
            if lost { state.break_off(SetEnd::SoundLost, turn) } else { state }
        } else if key.stops() {
            self.stop(turn)
        } else if key.is('y') {
            turn.hush();
            self.set.keep_mishap(what, worked, turn);
            if let Some(worked) = worked {
                self.record_end(worked, what.set_end(), turn);
            }
            self.set.after_mishap(what, turn)
        } else {
            State::InSet(Box::new(self))
        }
    }
}

impl CurrentSet {
    /// Keeps it, and as the response to the push that was just asked for.
    pub(super) fn keep_mishap(&mut self, what: Mishap, worked: Option<Millis>, turn: &mut Turn<'_>) {
        let at = worked.unwrap_or_default();
        let cue = self.pushes_asked().last().copied().filter(|cue| {
            let asked = self.plan.cues()[usize::from(*cue)].at();
            worked.is_some() && at - asked <= AFTER_A_PUSH && !self.noted_pushes.contains(cue)
        });
        turn.record(Entry::Mishap(MishapRow { set: self.number(), at_ms: at.0, what, cue }));
        if let Some(cue) = cue {
            self.keep_response(cue, Some(what.response()), turn);
        }
        turn.whole.count(what);
    }

    /// What follows from it: after a fall and after the second grab the end, after the first grab a rest and advice.
    pub(super) fn after_mishap(self, what: Mishap, turn: &mut Turn<'_>) -> State {
        match what {
            Mishap::Fall => AfterSet::after_fall(self, turn),
            Mishap::Grab => AfterSet::ask_fell(self, AfterFell::Grab, turn),
        }
    }

    /// After a grab that was no fall.
    pub(super) fn after_grab(mut self, turn: &mut Turn<'_>) -> State {
        if turn.whole.ended_by.is_some() {
            self.note_the_rest(turn);
            AfterSet::ask(self, Question::Unwell, turn)
        } else {
            self.advise_one_step_lower(turn);
            if self.notes.end.is_some() {
                return AfterSet::begin(self, turn);
            }
            // The set had not begun.
            self.leave_out(LeftOut::Grabbed, turn);
            AfterSet::ask(self, Question::Unwell, turn)
        }
    }

    pub(super) fn advise_one_step_lower(&mut self, turn: &mut Turn<'_>) {
        self.notes.step_lower_advised = true;
        turn.record(Entry::Advised(AdviceRow { set: self.number(), advice: Advice::OneStepLower }));
        turn.say("partner.step-lower");
    }
}
