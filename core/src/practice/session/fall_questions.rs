//! "Did you fall?", asked at every stop, grab and near fall and after an interruption, and what follows: is anything hurt,
//! and was the head hit. Not sure counts as yes.

use super::after_set::{AfterFell, AfterPhase, AfterSet};
use super::current_set::CurrentSet;
use super::event::Key;
use super::questions::{Reply, reply};
use super::{State, Turn};
use crate::record::{Answer, Entry, Mishap, Question, YesNoNotSure};

impl AfterSet {
    /// Asks whether the person fell, unless that is known.
    pub(super) fn ask_fell(set: CurrentSet, then: AfterFell, turn: &mut Turn<'_>) -> State {
        if turn.whole.ended_by == Some(Mishap::Fall) {
            return Self::after_fall(set, turn);
        }
        if set.notes.fall_denied {
            return Self::not_fallen(set, then, turn);
        }
        turn.say("ask.fell");
        Self::at(set, AfterPhase::Fell { then, wait: turn.wait() })
    }

    pub(super) fn fell_key(mut self, then: AfterFell, key: Key, turn: &mut Turn<'_>) -> State {
        let Reply::Answer(answer) = reply(Question::Fell, key) else {
            return State::AfterSet(Box::new(self));
        };
        turn.hush();
        turn.record(Entry::answered(Some(self.set.number()), answer));
        match answer {
            Answer::Fell(Some(fell)) if fell.may_be_yes() => {
                turn.whole.count(Mishap::Fall);
                Self::after_fall(self.set, turn)
            }
            answer => {
                self.set.notes.fall_denied = answer == Answer::Fell(Some(YesNoNotSure::No));
                Self::not_fallen(self.set, then, turn)
            }
        }
    }

    /// The guidance, then what the fall did.
    pub(super) fn after_fall(mut set: CurrentSet, turn: &mut Turn<'_>) -> State {
        turn.say("fall.guidance");
        set.note_the_rest(turn);
        Self::ask(set, Question::FallHurt, turn)
    }

    fn not_fallen(mut set: CurrentSet, then: AfterFell, turn: &mut Turn<'_>) -> State {
        match then {
            AfterFell::WhyStopped => Self::ask(set, Question::WhyStopped, turn),
            AfterFell::Unwell => Self::ask(set, Question::Unwell, turn),
            AfterFell::Advice => {
                if turn.whole.ended_by.is_none() {
                    set.advise_one_step_lower(turn);
                }
                Self::ask(set, Question::Unwell, turn)
            }
            AfterFell::Grab => set.after_grab(turn),
            AfterFell::Questions => Self::begin(set, turn),
        }
    }
}
