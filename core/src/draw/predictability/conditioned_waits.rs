//! The waits that are heard in a set, as opposed to those drawn: a gap that would end too late is never heard, a
//! set with too few calls is drawn again, and a session ends with its last allowed call. So the waits heard are
//! shorter than those drawn.
//!
//! Real calls follow each other like the renewals of a renewal process: each wait is one gap, or two with a blank
//! between, and runs from the end of the call before it. With g the chance of a wait, F(n, x) that of n waits that take
//! at most x together, and T(n) the time that is left for n waits beside n calls (with what these last taken away), a
//! set is kept if it holds 2 to M calls, and its wait number j is heard with length t with the chance
//!
//! g(t) (F(max(j, 2) - 1, T(max(j, 2)) - t) - F(M, T(M + 1) - t)) / (F(2, T(2)) - F(M + 1, T(M + 1))).
//!
//! Exact on the grid of one millisecond; only the convolution rounds, below 1e-9. Where calls last differently long,
//! T(n) is drawn: then it is left out that a streak runs on from the set before, and that a set which is drawn again
//! keeps its calls.

use realfft::RealFftPlanner;

use super::wait::{Wait, best_window};
use crate::plan::convolution::convolve;
use crate::plan::prescription::limits::LEAST_REAL_CUES;
use crate::units::Millis;

const FEWEST: usize = LEAST_REAL_CUES as usize;

/// The waits of one drill as they are heard.
#[derive(Debug, Clone)]
pub struct ConditionedWaits {
    /// The waits before all calls.
    pub all: Wait,
    /// Before the first call of a set; that before the last is distributed alike.
    pub edge: Wait,
    clock: Clock,
}

/// What a guesser who also watches the clock knows: how much of the set is left when the wait begins.
#[derive(Debug, Clone)]
struct Clock {
    /// The chance of each length of the wait that begins the set, times how often it is heard, from 0 ms on.
    first: Vec<f64>,
    /// How often any later wait begins with so much time left, from 0 ms on.
    left: Vec<f64>,
    /// The chance of a wait of at most so long, from 0 ms on.
    within: Vec<f64>,
    /// How many calls there are.
    calls: f64,
}

/// The rules by which a set is kept and ended.
#[derive(Debug, Clone, Copy)]
pub struct Set<'a> {
    /// Every cue must have ended by this offset.
    pub until: Millis,
    /// `durations[n]`: how long `n` calls last in all, each with its chance; the last entry is for all higher counts.
    pub durations: &'a [Vec<(Millis, f64)>],
    /// The most calls; a set with more is drawn again.
    pub most: usize,
}

impl Set<'_> {
    /// The time left for `calls` waits beside as many calls, with its chance.
    fn left(&self, calls: usize) -> impl Iterator<Item = (usize, f64)> {
        let durations = self.durations.get(calls).or(self.durations.last()).into_iter().flatten();
        let until = self.until.0;
        durations.filter_map(move |(length, chance)| Some((until.checked_sub(length.0)? as usize, *chance)))
    }
}

impl ConditionedWaits {
    /// The waits of a drill whose waits are drawn as `drawn`. `open[j]`: how many sets of a session have room for wait
    /// number `j`, from 0, before the session's last call.
    ///
    /// Two calls must fit into a set, and `open[0]` must be above zero.
    pub fn new(drawn: &Wait, set: Set<'_>, open: &[f64]) -> Self {
        let last = set.until.0 as usize;
        // `within[x]`: the chance of a wait of at most x.
        let within = drawn.below_each(set.until + Millis(1)).split_off(1);
        let shortest = drawn.from().0 as usize;
        let room = |wait: usize| open.get(wait).copied().unwrap_or(0.0);
        let mut left = vec![0.0; last + 1];
        // How often the first wait has at least so much time, and how often a set with too many calls would have.
        let (mut second, mut surplus) = (vec![0.0; last + 1], vec![0.0; last + 1]);
        let mut kept = 0.0;
        let mut planner = RealFftPlanner::new();
        // `moments[i]`: the chance that `waits` waits take `waits` x the shortest + i together.
        let mut moments = vec![1.0];
        for waits in 1..=last / shortest {
            let begun = waits * shortest;
            moments = convolve(&mut planner, &moments, drawn.chances(), last - begun + 1);
            moments.truncate(last - begun + 1);
            let fit = |calls: usize, into: &mut Vec<f64>, often: f64| {
                for (time, chance) in set.left(calls) {
                    for (slot, moment) in moments.iter().enumerate() {
                        let Some(rest) = time.checked_sub(begun + slot) else { break };
                        into[rest] += moment * chance * often;
                    }
                }
            };
            let sum = |calls: usize| -> f64 {
                let within = |time: usize| moments.iter().take((time + 1).saturating_sub(begun)).sum::<f64>();
                set.left(calls).map(|(time, chance)| chance * within(time)).sum()
            };
            if waits == FEWEST {
                kept += sum(FEWEST);
            }
            if waits == FEWEST - 1 {
                fit(FEWEST, &mut second, 1.0);
            }
            if waits == set.most {
                fit(waits + 1, &mut surplus, 1.0);
            }
            if set.most.checked_add(1) == Some(waits) {
                kept -= sum(waits);
            }
            if waits < set.most {
                fit(waits + 1, &mut left, room(waits));
            }
        }
        // From "how often so much is left" to "how often at least so much is left".
        let at_least = |left: &[f64]| {
            let mut fitting: Vec<f64> = left.to_vec();
            for time in (0..last).rev() {
                fitting[time] += fitting[time + 1];
            }
            fitting
        };
        let (second, surplus, later) = (at_least(&second), at_least(&surplus), at_least(&left));
        let sets: f64 = (1..set.most.min(open.len())).map(room).sum();
        let g = |time: usize| {
            time.checked_sub(shortest).and_then(|slot| drawn.chances().get(slot)).copied().unwrap_or(0.0)
        };
        let first: Vec<f64> = (0..=last)
            .map(|time| (room(0) * g(time) * (second[time] - surplus[time]) / kept).max(0.0))
            .collect();
        let heard: Vec<f64> = (0..=last)
            .map(|time| first[time] + (g(time) * (later[time] - sets * surplus[time]) / kept).max(0.0))
            .collect();
        for often in &mut left {
            *often /= kept;
        }
        let calls = heard.iter().sum();
        let cut = |weights: &[f64]| {
            let end = weights.iter().rposition(|weight| *weight > 0.0).map_or(shortest + 1, |end| end + 1);
            Wait::new(drawn.from(), weights[shortest..end].to_vec())
        };
        Self { all: cut(&heard), edge: cut(&first), clock: Clock { first, left, within, calls } }
    }

    /// The mean number of calls in a session.
    pub fn calls(&self) -> f64 {
        self.clock.calls
    }

    /// The chance that a brace of this width catches a call, if the guesser also watches the clock and knows that a
    /// set holds two calls and when it ends. If a set has a limit on calls, this is an upper bound.
    pub fn brace_by_the_clock(&self, width: Millis) -> f64 {
        let width = width.0 as usize;
        let Clock { first, left, within, calls } = &self.clock;
        let mut best = 0.0;
        let mut caught = best_window(first, width).1;
        for (time, often) in left.iter().enumerate() {
            let before = time.checked_sub(width).map_or(0.0, |before| within[before]);
            best = f64::max(best, within[time] - before);
            caught += often * best;
        }
        (caught / calls).min(1.0)
    }

    /// The share of waits whose class is named right by a guesser who knows every rule and the clock; an upper bound as
    /// above. Class `i` ends below `bounds[i]`; the last has no bound.
    pub fn class_guess(&self, bounds: &[Millis]) -> f64 {
        let Clock { first, left, within, calls } = &self.clock;
        let ends =
            |upto: usize| bounds.iter().map(move |bound| (bound.0 as usize).min(upto + 1)).chain([upto + 1]);
        let best = |chance: &dyn Fn(usize) -> f64, upto: usize| {
            let mut start = 0;
            ends(upto).fold(0.0, |best, end| {
                let class = chance(end) - chance(start);
                start = end;
                f64::max(best, class)
            })
        };
        let first_below: Vec<f64> = [0.0]
            .into_iter()
            .chain(first.iter().scan(0.0, |below, chance| {
                *below += chance;
                Some(*below)
            }))
            .collect();
        let below = |end: usize| if end == 0 { 0.0 } else { within[end - 1] };
        let mut named = best(&|end| first_below[end], first.len() - 1);
        for (time, often) in left.iter().enumerate().filter(|(_, often)| **often > 0.0) {
            named += often * best(&below, time);
        }
        (named / calls).min(1.0)
    }
}

#[cfg(test)]
mod test;
