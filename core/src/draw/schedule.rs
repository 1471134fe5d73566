//! From a prescription and a seed to the cues of a session at their offsets.

use crate::plan::drill::{Drill, Facing, Form, Ladder, LadderStep, Side};
use crate::plan::phrase::Phrase;
use crate::plan::precaution::Precautions;
use crate::units::Millis;

mod attributes;
pub mod call;
pub mod chance;
pub mod covered;
pub mod floor_order;
pub mod gap_draw;
pub mod inspect;
mod method;
pub mod moments;
pub mod order;
pub mod path;
pub mod preview;
#[cfg(any(test, feature = "sample"))]
pub mod sample;
pub mod scheduler;
pub mod seed;
mod upcoming;

pub use call::{Call, Utterance};
pub use method::{Method, UnknownMethod};
pub use scheduler::{ScheduleError, Scheduler};
pub use seed::{Seed, SeedError};

/// The cues of one session: what [`Scheduler::draw`] makes of a prescription and a seed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Schedule {
    method: Method,
    seed: Seed,
    sets: Vec<SetPlan>,
}

/// One set: work between two rests.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SetPlan {
    number: u8,
    drill: &'static Drill,
    ladder: &'static Ladder,
    form: Form,
    step: u8,
    conditions: LadderStep,
    facing: Facing,
    side: Option<Side>,
    balls: u8,
    work: Millis,
    recover: Millis,
    rest: Millis,
    redraws: u16,
    moves: Vec<Phrase>,
    precautions: Precautions,
    cues: Vec<Cue>,
}

/// One instruction at one moment of a set, or a blank: a moment at which nothing is called, on purpose.
///
/// Only a [`Scheduler`] makes these, and only from a checked prescription.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Cue {
    at: Millis,
    gap: Millis,
    call: Option<Call>,
}

impl Schedule {
    /// The recipe that drew it, and draws it again.
    pub fn method(&self) -> Method {
        self.method
    }
    /// The seed that replays it.
    pub fn seed(&self) -> Seed {
        self.seed
    }
    /// The sets, in order; the first is the warm-up.
    pub fn sets(&self) -> &[SetPlan] {
        &self.sets
    }
    /// Which of `of` words the sound check says, from 0: drawn from its own random stream. `of` must not be 0.
    pub fn check_word(&self, of: u8) -> u8 {
        chance::below(&mut self.seed.sound_check(), u64::from(of)) as u8
    }
    /// The sets from this number on: an interrupted session is finished.
    #[must_use]
    pub fn from_set(mut self, number: u8) -> Self {
        self.sets.retain(|set| set.number >= number);
        self
    }
    /// The first `count` sets only: leaving sets out shifts nothing in the others.
    #[must_use]
    pub fn only_first(mut self, count: usize) -> Self {
        self.sets.truncate(count);
        self
    }
}

impl SetPlan {
    /// Its number in the session, from 1.
    pub fn number(&self) -> u8 {
        self.number
    }
    /// The drill that is practiced in it.
    pub fn drill(&self) -> &'static Drill {
        self.drill
    }
    /// Alone or with a partner.
    pub fn form(&self) -> Form {
        self.form
    }
    /// The version of the drill's ladder that the step is counted on.
    pub fn ladder(&self) -> &'static Ladder {
        self.ladder
    }
    /// The ladder step, from 1.
    pub fn step(&self) -> u8 {
        self.step
    }
    /// The conditions of that step.
    pub fn conditions(&self) -> LadderStep {
        self.conditions
    }
    /// How the trainee faces the counter.
    pub fn facing(&self) -> Facing {
        self.facing
    }
    /// The foot that is ahead or carries the person, for a stance with two sides.
    pub fn side(&self) -> Option<Side> {
        self.side
    }
    /// How many balls are in play: 2 if one is named aloud as it leaves the hand.
    pub fn balls(&self) -> u8 {
        self.balls
    }
    /// What is said before it: which hand or leg moves.
    pub fn moves(&self) -> &[Phrase] {
        &self.moves
    }
    /// What the person must not do.
    pub fn precautions(&self) -> Precautions {
        self.precautions
    }
    /// Every phrase that the set may say during its work, to the trainee or the partner, places of the room apart.
    pub fn phrases(&self) -> Vec<Phrase> {
        self.cues.iter().filter_map(Cue::call).flat_map(Call::phrases).collect()
    }
    /// How long the work lasts.
    pub fn work(&self) -> Millis {
        self.work
    }
    /// How long before the end of the work the last cue may come.
    pub fn recover(&self) -> Millis {
        self.recover
    }
    /// The least rest after it.
    pub fn rest(&self) -> Millis {
        self.rest
    }
    /// How many draws of this set were thrown away because they held fewer than two cues.
    pub fn redraws(&self) -> u16 {
        self.redraws
    }
    /// The cues and blanks, in order.
    pub fn cues(&self) -> &[Cue] {
        &self.cues
    }
}

impl Cue {
    /// The offset from the start of the set's work.
    pub fn at(&self) -> Millis {
        self.at
    }
    /// The end of what it calls, for a span.
    pub fn until(&self) -> Option<Millis> {
        Some(self.at + self.call.as_ref()?.span?.length)
    }
    /// Shortens a span that would end after `elapsed`, when it was broken off.
    fn end_by(&mut self, elapsed: Millis) {
        if let Some(span) = self.call.as_mut().and_then(|call| call.span.as_mut()) {
            span.length = span.length.min(elapsed - self.at);
        }
    }
    /// When the next gap begins: at the end of a span, otherwise at the cue itself.
    pub fn end(&self) -> Millis {
        self.until().unwrap_or(self.at)
    }
    /// The time since the previous cue or blank, for a span since its end, or since the start.
    pub fn gap(&self) -> Millis {
        self.gap
    }
    /// What is called; `None` for a blank.
    pub fn call(&self) -> Option<&Call> {
        self.call.as_ref()
    }
    /// Whether nothing is called.
    pub fn is_blank(&self) -> bool {
        self.call.is_none()
    }
}
