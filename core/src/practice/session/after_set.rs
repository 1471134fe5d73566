//! After a set, or after a stop: the questions, the rest, and the cool-down after the last set.

use super::current_set::CurrentSet;
use super::event::Key;
use super::{State, Turn, Wait};
use crate::record::{Mishap, Question, RoutineEnd, RoutinePart, SessionEnd};
use crate::units::Millis;

/// Where it goes on where the person did not fall.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum AfterFell {
    /// After a stop: why.
    WhyStopped,
    /// After a near fall alone: whether the person is unwell.
    Unwell,
    /// After a near fall with a partner, told by the trainee: advice where the session goes on, then the same.
    Advice,
    /// After a grab that the partner reported.
    Grab,
    /// After an interruption: all questions.
    Questions,
}

/// How long before its end the end of a rest is announced \[judgment\].
const REST_SOON: Millis = Millis(10_000);

/// A set that is over, or was left.
#[derive(Debug)]
pub(super) struct AfterSet {
    pub(super) set: CurrentSet,
    pub(super) phase: AfterPhase,
}

#[derive(Debug, Clone, Copy)]
pub(super) enum AfterPhase {
    Walk {
        cue: u16,
        sure: Option<Mishap>,
        wait: Wait,
    },
    Fell {
        then: AfterFell,
        wait: Wait,
    },
    Ask {
        question: Question,
        wait: Wait,
    },
    Rest {
        since: Millis,
        announced: bool,
    },
    Rested {
        wait: Wait,
    },
    CoolDown {
        item: usize,
        since: Millis,
    },
    /// A key was pressed in this sentence of the cool-down: it is asked whether to leave out the rest.
    LeaveOutCoolDown {
        item: usize,
        since: Millis,
    },
}

impl AfterSet {
    pub(super) fn at(set: CurrentSet, phase: AfterPhase) -> State {
        State::AfterSet(Box::new(Self { set, phase }))
    }

    pub(super) fn wait(&mut self) -> Option<&mut Wait> {
        match &mut self.phase {
            AfterPhase::Walk { wait, .. }
            | AfterPhase::Fell { wait, .. }
            | AfterPhase::Ask { wait, .. }
            | AfterPhase::Rested { wait } => Some(wait),
            AfterPhase::Rest { .. } | AfterPhase::CoolDown { .. } | AfterPhase::LeaveOutCoolDown { .. } => {
                None
            }
        }
    }

    pub(super) fn tick(self, turn: &mut Turn<'_>) -> State {
        match self.phase {
            AfterPhase::Rest { since, announced } => {
                let left = self.set.plan.rest() - (turn.now.at - since);
                if left == Millis(0) {
                    turn.say("rest.over");
                    turn.say("practice.any-key");
                    return Self::at(self.set, AfterPhase::Rested { wait: turn.wait() });
                }
                let soon = left <= REST_SOON && !announced;
                if soon {
                    turn.say("rest.soon");
                }
                Self::at(self.set, AfterPhase::Rest { since, announced: announced || soon })
            }
            AfterPhase::CoolDown { item, since } => self.set.advance_cool_down(item, since, turn),
            AfterPhase::LeaveOutCoolDown { item, since } if turn.is_unanswered(since) => {
                self.set.cool_down(item, turn)
            }
            phase => Self::at(self.set, phase),
        }
    }

    pub(super) fn key(self, key: Key, turn: &mut Turn<'_>) -> State {
        match self.phase {
            AfterPhase::Ask { question, .. } => self.answer(question, key, turn),
            AfterPhase::Fell { then, .. } => self.fell_key(then, key, turn),
            AfterPhase::Walk { cue, sure, .. } => self.walk_key(cue, sure, key, turn),
            _ if key.stops() => self.stop(turn),
            AfterPhase::CoolDown { item, .. } => {
                turn.asks_to_leave_out();
                Self::at(self.set, AfterPhase::LeaveOutCoolDown { item, since: turn.now.at })
            }
            AfterPhase::LeaveOutCoolDown { item, .. } => {
                turn.hush();
                match key.is('y') {
                    true => self.set.end_cool_down(RoutineEnd::Skipped, turn),
                    false => self.set.cool_down(item, turn),
                }
            }
            AfterPhase::Rested { .. } => self.set.go_on(turn),
            phase @ AfterPhase::Rest { .. } => Self::at(self.set, phase),
        }
    }

    /// After the questions: a rest and the next set, or the end.
    pub(super) fn after_questions(mut self, turn: &mut Turn<'_>) -> State {
        // What was said of this set says nothing of the rest after it.
        self.set.notes.fall_denied = false;
        if turn.whole.ended_by.is_some() {
            turn.say("end.stopped");
            self.end(SessionEnd::Grabbed, turn)
        } else if self.set.is_last(turn.whole) {
            self.set.begin_cool_down(turn)
        } else {
            turn.say("rest.chair");
            Self::at(self.set, AfterPhase::Rest { since: turn.now.at, announced: false })
        }
    }

    /// What was asked of the partner and not noted is kept as such, and a mishap that nobody denied too.
    fn leave(mut self, turn: &mut Turn<'_>) -> CurrentSet {
        if let AfterPhase::Walk { cue, sure: Some(what), .. } = self.phase {
            self.set.keep_response(cue, Some(what.response()), turn);
            turn.whole.count(what);
        }
        if let AfterPhase::CoolDown { .. } | AfterPhase::LeaveOutCoolDown { .. } = self.phase {
            turn.routine_over(RoutinePart::CoolDown, RoutineEnd::BrokenOff);
        }
        self.set.note_the_rest(turn);
        self.set
    }

    pub(super) fn stop(self, turn: &mut Turn<'_>) -> State {
        turn.hush();
        Self::ask_fell(self.leave(turn), AfterFell::WhyStopped, turn)
    }

    pub(super) fn close(self, turn: &mut Turn<'_>) -> State {
        let end = match self.phase {
            AfterPhase::CoolDown { .. } | AfterPhase::LeaveOutCoolDown { .. } => SessionEnd::Finished,
            AfterPhase::Ask { question: Question::Symptom, .. } => SessionEnd::Unwell,
            _ => SessionEnd::Closed,
        };
        self.end(end, turn)
    }

    pub(super) fn end(self, end: SessionEnd, turn: &mut Turn<'_>) -> State {
        self.leave(turn).end_session(end, None, turn)
    }
}
