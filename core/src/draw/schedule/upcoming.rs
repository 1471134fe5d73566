//! The calls of a set, one after another, in the order `open`, drawn as far as they are needed. Their number is
//! known only once the moments are drawn, and the moments may depend on how long each call lasts.

use rand::rngs::ChaCha12Rng;

use super::order::Streak;
use crate::plan::prescription::{DrillPlan, Sequence};
use crate::units::Millis;

/// The calls of one set, as places among the targets of the prescription. For the order `covered` only their
/// duration is known here, which is the same for all.
pub(super) struct UpcomingCalls<'a> {
    plan: &'a DrillPlan,
    rng: ChaCha12Rng,
    /// Each call drawn so far, and the streak after it.
    drawn: Vec<(usize, Streak)>,
    before: Streak,
}

impl<'a> UpcomingCalls<'a> {
    /// The calls of a set, after a streak that runs on from the drill's set before.
    pub(super) fn new(plan: &'a DrillPlan, before: Streak, rng: ChaCha12Rng) -> Self {
        Self { plan, rng, drawn: Vec::new(), before }
    }

    /// How long the set's call `nth` lasts, from 0.
    pub(super) fn duration(&mut self, nth: usize) -> Millis {
        let place = if self.plan.has_equal_durations() { 0 } else { self.place(nth) };
        self.plan.targets()[place].duration()
    }

    /// The first calls, and the streak after them. None in the order `covered`.
    pub(super) fn first(mut self, count: usize) -> (Vec<usize>, Streak) {
        if count == 0 || self.plan.sequence() != Sequence::Open {
            return (Vec::new(), self.before);
        }
        self.place(count - 1);
        let places = self.drawn[..count].iter().map(|(place, _)| *place).collect();
        (places, self.drawn[count - 1].1)
    }

    fn place(&mut self, nth: usize) -> usize {
        while self.drawn.len() <= nth {
            let mut streak = self.drawn.last().map_or(self.before, |(_, streak)| *streak);
            let place = streak.next(self.plan.weights(), self.plan.longest_streak(), &mut self.rng);
            self.drawn.push((place, streak));
        }
        self.drawn[nth].0
    }
}
