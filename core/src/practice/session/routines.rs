//! The warm-up and the cool-down within a session: sentence after sentence until they end. A key asks whether to leave
//! out the rest; without a yes they go on.

use super::after_set::{AfterPhase, AfterSet};
use super::current_set::CurrentSet;
use super::event::Effect;
use super::opening::{Before, Page};
use super::screen::{Body, KeyHint};
use super::{State, Turn, Whole};
use crate::practice::routine::Routine;
use crate::record::{Entry, RoutineEnd, RoutinePart, RoutineRow, SessionEnd, Stamp};
use crate::units::Millis;

/// How long an answer is waited for. Without one the sentence is said again, and the rest follows \[judgment\].
const ASKED_FOR: Millis = Millis(15_000);

/// The routine as this session's precautions leave it.
fn routine(part: RoutinePart, whole: &Whole) -> Routine {
    let all = match part {
        RoutinePart::WarmUp => Routine::warm_up(),
        RoutinePart::CoolDown => Routine::cool_down(),
    };
    all.within(whole.precautions())
}

impl Turn<'_> {
    /// Says a sentence of it, if there is one.
    fn says_item(&mut self, part: RoutinePart, item: usize) -> bool {
        let next = routine(part, self.whole).items().get(item).copied();
        self.effects.extend(next.map(|next| Effect::Say(next.phrase)));
        next.is_some()
    }

    /// Whether the sentence that began then has lasted as long as it is to.
    fn is_item_over(&self, part: RoutinePart, item: usize, since: Millis) -> bool {
        self.now.at - since
            >= routine(part, self.whole).items().get(item).map_or(Millis(0), |item| item.lasts)
    }

    pub(super) fn asks_to_leave_out(&mut self) {
        self.hush();
        self.say("ask.leave-out");
    }

    /// Whether nobody has said that the rest is left out.
    pub(super) fn is_unanswered(&self, since: Millis) -> bool {
        self.now.at - since >= ASKED_FOR
    }

    pub(super) fn routine_over(&mut self, part: RoutinePart, how: RoutineEnd) {
        self.record(Entry::Routine(RoutineRow { part, at: Stamp::from(&self.now.wall), how }));
    }
}

impl Before {
    pub(super) fn begin_warm_up(self: Box<Self>, turn: &mut Turn<'_>) -> State {
        turn.hush();
        self.warm_up(0, turn)
    }

    pub(super) fn warm_up(self: Box<Self>, item: usize, turn: &mut Turn<'_>) -> State {
        if turn.says_item(RoutinePart::WarmUp, item) {
            return self.turn_to(Page::WarmUp { item, since: turn.now.at });
        }
        Self::end_warm_up(RoutineEnd::Done, turn)
    }

    pub(super) fn advance_warm_up(self: Box<Self>, item: usize, since: Millis, turn: &mut Turn<'_>) -> State {
        let over = turn.is_item_over(RoutinePart::WarmUp, item, since);
        if over { self.warm_up(item + 1, turn) } else { State::Before(self) }
    }

    pub(super) fn end_warm_up(how: RoutineEnd, turn: &mut Turn<'_>) -> State {
        turn.routine_over(RoutinePart::WarmUp, how);
        State::make_ready(0, turn)
    }
}

impl CurrentSet {
    pub(super) fn begin_cool_down(mut self, turn: &mut Turn<'_>) -> State {
        self.notes.closing_words = None;
        turn.hush();
        turn.say("end.done");
        self.cool_down(0, turn)
    }

    pub(super) fn cool_down(self, item: usize, turn: &mut Turn<'_>) -> State {
        if turn.says_item(RoutinePart::CoolDown, item) {
            return AfterSet::at(self, AfterPhase::CoolDown { item, since: turn.now.at });
        }
        self.end_cool_down(RoutineEnd::Done, turn)
    }

    pub(super) fn advance_cool_down(self, item: usize, since: Millis, turn: &mut Turn<'_>) -> State {
        if turn.is_item_over(RoutinePart::CoolDown, item, since) {
            return self.cool_down(item + 1, turn);
        }
        AfterSet::at(self, AfterPhase::CoolDown { item, since })
    }

    pub(super) fn end_cool_down(self, how: RoutineEnd, turn: &mut Turn<'_>) -> State {
        turn.routine_over(RoutinePart::CoolDown, how);
        self.end_session(SessionEnd::Finished, None, turn)
    }
}

pub(super) fn leave_out_body(part: RoutinePart, whole: &Whole) -> Body {
    Body::Question {
        ask: format!("Leave out the {}?", routine(part, whole).title().to_lowercase()),
        answers: vec![
            KeyHint::new("Y", "yes, leave it out"),
            KeyHint::new("any other key", "no, go on with it"),
        ],
        asking_again: false,
    }
}

pub(super) fn routine_page(part: RoutinePart, item: usize, whole: &Whole) -> Body {
    let routine = routine(part, whole);
    let sentence = routine.items().get(item).map(|item| item.phrase.words().to_owned());
    Body::Page { title: routine.title().to_owned(), text: sentence.into_iter().collect(), items: Vec::new() }
}
