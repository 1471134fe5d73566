//! What a set makes of the waits in it: a gap that would end too late is never heard, a set with too few calls is drawn
//! again, and a session ends with its last allowed call. So the waits that are heard are shorter than those drawn.
//!
//! Real calls follow each other like the renewals of a renewal process: each wait is one gap, or two with a blank
//! between. With S(m) the moment of real call m, T the last moment at which one may come, g the chance of a wait and
//! G(x) that of one of at most x, the wait number j of a kept set is heard with length t with the chance
//!
//! * j = 1: g(t) G(T - t) / P(S(2) <= T), for a set is kept only if a second call fits;
//! * j >= 2: g(t) P(S(j-1) <= T - t) / P(S(2) <= T).
//!
//! Exact on the grid of one millisecond; only the convolution rounds, below 1e-9.

use realfft::RealFftPlanner;

use super::wait::{Wait, best_window};
use crate::millis::Millis;
use crate::prescription::limits::LEAST_REAL_CUES;
use crate::schedule::count::convolve;

/// The waits of one drill as they are heard.
#[derive(Debug, Clone)]
pub struct Delivered {
    /// Of all calls.
    pub all: Wait,
    /// Before the first call of a set; that before the last is distributed alike.
    pub edge: Wait,
    clock: Clock,
}

/// What somebody knows who also watches the clock: how much of the set is left when the wait begins.
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

impl Delivered {
    /// The waits of a drill whose waits are drawn as `drawn`, in sets whose last call comes at `until` at the latest.
    /// `open[j]`: how many sets of a session have room for wait number `j`, from 0, before the session's last call.
    ///
    /// Two calls must fit between the start and `until`, and `open[0]` must be above zero.
    pub fn new(drawn: &Wait, until: Millis, open: &[f64]) -> Self {
        let last = until.0 as usize;
        // `within[x]`: the chance of a wait of at most x.
        let within: Vec<f64> = {
            let below = drawn.below_each(until + Millis(1));
            below[1..].to_vec()
        };
        let mut weights = vec![0.0; last + 1];
        let mut left = vec![0.0; last + 1];
        let mut planner = RealFftPlanner::new();
        let least = drawn.from().0 as usize;
        // `moments[i]`: the chance that call m comes at m x least + i.
        let mut moments = vec![1.0];
        let mut kept = 1.0;
        for wait in 1.. {
            let begun = wait * least;
            if begun > last {
                break;
            }
            moments = convolve(&mut planner, &moments, drawn.chances(), last - begun + 1);
            moments.truncate(last - begun + 1);
            if wait == LEAST_REAL_CUES as usize {
                kept = moments.iter().sum();
            }
            // Wait number `wait`, from 0, begins at these moments.
            let room = open.get(wait).or(open.last()).copied().unwrap_or(0.0);
            for (slot, chance) in moments.iter().enumerate() {
                left[last - begun - slot] += chance * room;
            }
        }
        for weight in &mut left {
            *weight /= kept;
        }
        // How often a wait begins with at least so much left, which is how often it may be so long.
        let mut fitting = 0.0;
        for time in (0..=last).rev() {
            fitting += left[time];
            weights[time] = fitting;
        }
        let g = |time: usize| {
            time.checked_sub(least).and_then(|slot| drawn.chances().get(slot)).copied().unwrap_or(0.0)
        };
        let first: Vec<f64> =
            (0..=last).map(|time| open[0] * g(time) * within[last - time] / kept).collect();
        let heard: Vec<f64> =
            (0..=last).map(|time| first[time] + g(time) * weights[time]).collect();
        let calls = heard.iter().sum();
        let cut = |weights: &[f64]| {
            let end = weights.iter().rposition(|weight| *weight > 0.0).map_or(least + 1, |end| end + 1);
            Wait::new(drawn.from(), weights[least..end].to_vec())
        };
        Self {
            all: cut(&heard),
            edge: cut(&first),
            clock: Clock { first, left, within, calls },
        }
    }

    /// The mean number of calls in a session.
    pub fn calls(&self) -> f64 {
        self.clock.calls
    }

    /// The chance that a brace of this width catches a call, if whoever braces also watches the clock and knows that a
    /// set holds two calls and when it ends.
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
        caught / calls
    }

    /// The share of waits whose class somebody names who knows every rule and the clock. Class `i` ends below
    /// `bounds[i]`; the last has no bound.
    pub fn class_guess(&self, bounds: &[Millis]) -> f64 {
        let Clock { first, left, within, calls } = &self.clock;
        let ends = |upto: usize| bounds.iter().map(move |bound| (bound.0 as usize).min(upto + 1)).chain([upto + 1]);
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
        named / calls
    }
}

#[cfg(test)]
mod test;
