//! The set that is being worked at or asked about: its plan, which cues were delivered, and what the screen says of it.

use super::event::{Channel, Effect};
use super::{State, Turn, Whole};
use crate::draw::schedule::path::Path;
use crate::draw::schedule::{Call, Cue, SetPlan};
use crate::plan::drill::{Action, Form};
use crate::plan::phrase::Phrase;
use crate::record::{Delivery, Entry, LeftOut, LeftOutRow, Response, ResponseRow, SetEnd, Stamp};
use crate::units::Millis;

/// What the screen says of a set until the next one.
#[derive(Debug, Clone, Default)]
pub(super) struct Notes {
    /// The words that close a call that was cut off; shown until the next set or the end of the pause.
    pub(super) closing_words: Option<Phrase>,
    /// How often the sound was disturbed.
    pub(super) disturbed: u16,
    /// One step lower was advised after it.
    pub(super) step_lower_advised: bool,
    /// It was said after it that the person did not fall.
    pub(super) fall_denied: bool,
    /// How it ended, once it has.
    pub(super) end: Option<SetEnd>,
}

#[derive(Debug)]
pub(super) struct CurrentSet {
    /// Its place in the schedule.
    pub(super) index: usize,
    pub(super) plan: SetPlan,
    /// Where the slow target is.
    pub(super) path: Path,
    /// Pauses so far.
    pub(super) pauses: u16,
    /// The first cue that was not delivered yet; counts what a silent practice has shown.
    pub(super) next_cue: usize,
    /// The pushes whose response is kept.
    pub(super) noted_pushes: Vec<u16>,
    pub(super) notes: Notes,
}

impl CurrentSet {
    pub(super) fn new(index: usize, whole: &Whole) -> Self {
        let plan = whole.schedule.sets()[index].clone();
        let path = Path::new(whole.schedule.seed(), plan.number(), plan.work());
        let (pauses, next_cue, noted_pushes, notes) = (0, 0, Vec::new(), Notes::default());
        Self { index, plan, path, pauses, next_cue, noted_pushes, notes }
    }

    pub(super) fn number(&self) -> u8 {
        self.plan.number()
    }

    pub(super) fn is_with_partner(&self) -> bool {
        self.plan.form() == Form::Partner
    }

    pub(super) fn is_last(&self, whole: &Whole) -> bool {
        self.index + 1 == whole.schedule.sets().len()
    }

    /// The next set, or the cool-down.
    pub(super) fn go_on(self, turn: &mut Turn<'_>) -> State {
        if self.is_last(turn.whole) {
            self.begin_cool_down(turn)
        } else {
            State::make_ready(self.index + 1, turn)
        }
    }

    pub(super) fn leave_out(&self, why: LeftOut, turn: &mut Turn<'_>) {
        let (set, at) = (self.number(), Stamp::from(&turn.now.wall));
        turn.record(Entry::SetLeftOut(LeftOutRow { set, at, why }));
    }

    /// Decides which of the pushes still to come are for practice.
    pub(super) fn decide_practice(&mut self, whole: &Whole) {
        let (seed, given) = (whole.schedule.seed(), whole.pushes_given);
        self.plan = whole.scheduler.for_practice_first(seed, &self.plan, given, self.next_cue);
    }

    /// Counts what is due by now. Without sound, keeps what the screen has begun to show; with a partner, what the
    /// partner's screen has asked for.
    pub(super) fn deliver_due_cues(&mut self, elapsed: Millis, turn: &mut Turn<'_>) {
        while let Some(cue) = self.plan.cues().get(self.next_cue).filter(|cue| cue.at() <= elapsed) {
            if let Some(call) = cue.call() {
                turn.whole.pushes_given += usize::from(call.action().is_push());
                let (at, silent) = (elapsed, turn.whole.silent);
                let how = match turn.whole.channel(&self.plan) {
                    Channel::Trainee if silent => Some(Delivery::Shown { at }),
                    Channel::PartnerScreen if silent || call.say().is_empty() => Some(Delivery::Asked { at }),
                    // What sounds is kept when it is heard.
                    Channel::Trainee | Channel::PartnerScreen | Channel::PartnerEarbud => None,
                };
                let entry = |how| Entry::delivered(self.number(), self.next_cue as u16, how);
                turn.effects.extend(how.map(entry).map(Effect::Record));
            }
            self.next_cue += 1;
        }
    }

    /// "Open your eyes": what lasts is closed at once and aloud when it is broken off, and the words stay on the screen.
    pub(super) fn close_span(&mut self, worked: Millis, turn: &mut Turn<'_>) {
        let mut begun = self.plan.cues().iter().take(self.next_cue);
        let lasts = begun.rfind(|cue| cue.until().is_some_and(|until| worked < until));
        if let Some(span) = lasts.and_then(Cue::call).and_then(Call::span) {
            turn.effects.push(Effect::Say(span.close));
            self.notes.closing_words = Some(span.close);
        }
    }

    /// The places of the pushes that the partner was asked for in this set, in order: at most six.
    pub(super) fn pushes_asked(&self) -> Vec<u16> {
        let asked = (0..).zip(self.plan.cues()).take(self.next_cue);
        let pushes = asked.filter(|(_, cue)| cue.call().map(Call::action).is_some_and(Action::is_push));
        pushes.map(|(place, _)| place).collect()
    }

    pub(super) fn next_to_note(&self) -> Option<u16> {
        self.pushes_asked().into_iter().find(|cue| !self.noted_pushes.contains(cue))
    }

    pub(super) fn keep_response(&mut self, cue: u16, response: Option<Response>, turn: &mut Turn<'_>) {
        if !self.noted_pushes.contains(&cue) {
            self.noted_pushes.push(cue);
            turn.record(Entry::Responded { set: self.number(), response: ResponseRow { cue, response } });
        }
    }

    /// What will not be asked any more is kept as not noted.
    pub(super) fn note_the_rest(&mut self, turn: &mut Turn<'_>) {
        while let Some(cue) = self.next_to_note() {
            self.keep_response(cue, None, turn);
        }
    }
}
