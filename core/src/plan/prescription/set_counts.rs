//! How many real cues one set will have, and how often it is drawn again: exact chances, nothing drawn.
//!
//! Blanks do not move the moments, so two things are computed separately. First, the chance that k gaps fit into a set,
//! next to the durations of the calls, by convolution of the gap table with itself on its own grid of one millisecond.
//! Then, of k events, the chance that r are real, by going through the events one by one and adding up durations. Calls
//! with different durations are followed through the streak limit; the only thing left out is that a streak may continue
//! from the set before. The convolutions use a fast Fourier transform in double precision: errors stay below 1e-9, as a
//! test against direct sums shows.

use std::collections::BTreeSet;

use realfft::RealFftPlanner;

use super::drill_plan::DrillPlan;
use super::limits::LEAST_REAL_CUES;
use crate::plan::convolution::convolve;
use crate::plan::drill::Target;
use crate::plan::gaps::{GapRange, GapTable};
use crate::units::Millis;

/// The counts of one set.
#[derive(Debug, Clone, PartialEq)]
pub struct SetCounts {
    redraw_share: f64,
    real: Vec<f64>,
}

impl SetCounts {
    /// The share of drawn sets that break the count rule and are drawn again, from 0 to 1.
    pub fn redraw_share(&self) -> f64 {
        self.redraw_share
    }

    /// The counts of one set of this plan.
    pub fn of(plan: &DrillPlan) -> Self {
        SetRules::of(plan).all_counts()
    }

    /// The chance of each number of real cues, from 0 on, in a set that is kept.
    pub fn chances(&self) -> &[f64] {
        &self.real
    }
}

/// The rules of drawing a set that affect how many cues it has.
#[derive(Debug, Clone)]
struct SetRules {
    /// The weight of each millisecond from `least` on.
    weights: Vec<u64>,
    least: Millis,
    /// Every cue must have ended by this offset.
    until: Millis,
    blank_per_mille: u16,
    least_real: u32,
    most_real: u32,
    calls: Chain,
}

/// Which call follows which, as far as they last differently long: the chain of "which one, and how often in a row".
/// Where all calls last equally long it has one state.
#[derive(Debug, Clone)]
struct Chain {
    /// For each state, the states that may follow: which, with what chance, and how long that call lasts.
    next: Vec<Vec<(usize, f64, Millis)>>,
}

impl Chain {
    fn of(lengths: &[Millis], weights: &[u32], longest_streak: Option<u8>) -> Self {
        if lengths.windows(2).all(|pair| pair[0] == pair[1]) {
            return Self { next: vec![vec![(0, 1.0, lengths[0])]] };
        }
        let most = usize::from(longest_streak.unwrap_or(1));
        // State 0 is the beginning; a call at `place` for the run-th time in a row is 1 + place x most + run - 1.
        let state = |place: usize, run: usize| 1 + place * most + run.min(most) - 1;
        let from = |last: Option<(usize, usize)>| {
            let allowed = |place: usize| last.is_none_or(|(before, run)| before != place || run < most);
            let whole: u32 =
                (0..weights.len()).filter(|place| allowed(*place)).map(|place| weights[place]).sum();
            (0..weights.len())
                .filter(|place| allowed(*place))
                .map(|place| {
                    let run = last.filter(|(before, _)| *before == place).map_or(1, |(_, run)| run + 1);
                    (state(place, run), f64::from(weights[place]) / f64::from(whole), lengths[place])
                })
                .collect()
        };
        let others = (0..weights.len()).flat_map(|place| (1..=most).map(move |run| Some((place, run))));
        Self { next: [None].into_iter().chain(others).map(from).collect() }
    }
}

impl SetRules {
    fn of(plan: &DrillPlan) -> Self {
        let lengths: Vec<Millis> = plan.targets().iter().map(Target::duration).collect();
        Self {
            weights: weights(plan.gaps()),
            least: plan.gaps().least(),
            until: plan.work() - plan.recover(),
            blank_per_mille: plan.blank_per_mille(),
            least_real: LEAST_REAL_CUES,
            most_real: plan.most_calls(),
            calls: Chain::of(&lengths, plan.weights(), plan.longest_streak()),
        }
    }

    fn lengths(&self) -> impl Iterator<Item = Millis> {
        self.calls.next.iter().flatten().map(|(_, _, length)| *length)
    }

    /// Every total duration that the calls of a set may have, shortest first, as far as it fits.
    fn totals(&self) -> Vec<u32> {
        let lengths: BTreeSet<u32> =
            self.lengths().map(|length| length.0).filter(|length| *length > 0).collect();
        let mut totals = BTreeSet::from([0]);
        let mut waiting = vec![0];
        while let Some(total) = waiting.pop() {
            for longer in lengths.iter().map(|length| total + length).filter(|longer| *longer <= self.until.0)
            {
                if totals.insert(longer) {
                    waiting.push(longer);
                }
            }
        }
        totals.into_iter().collect()
    }

    /// The chance of each number of real cues, from the chances that k gaps fit together with the total duration of the calls.
    ///
    /// Whether an event fits does not depend on what comes after it, and an event that fits has all before it fit. So
    /// each way of calls and blanks is gone through once, and a set ends with event k by the chance that k fits less
    /// the chance that k + 1 fits too.
    fn real(&self, fits: &[Vec<f64>], totals: &[u32]) -> Vec<f64> {
        let blank = f64::from(self.blank_per_mille) / 1000.0;
        let (states, counts) = (self.calls.next.len(), fits.len() + 1);
        let place = |state: usize, was_blank: bool, count: usize, total: usize| {
            ((state * 2 + usize::from(was_blank)) * counts + count) * totals.len() + total
        };
        let mut real = vec![0.0; fits.len()];
        real[0] = 1.0;
        let mut now = vec![0.0; states * 2 * counts * totals.len()];
        now[place(0, false, 0, 0)] = 1.0;
        for (k, fit) in fits.iter().enumerate().skip(1) {
            let mut after = vec![0.0; now.len()];
            for state in 0..states {
                for was_blank in [false, true] {
                    for count in 0..k.min(counts) {
                        for total in 0..totals.len() {
                            let chance = now[place(state, was_blank, count, total)];
                            if chance <= 0.0 {
                                continue;
                            }
                            let mut step = |to: usize, into: usize, chance: f64, total: usize| {
                                after[to] += chance;
                                real[count] -= chance * fit[total];
                                real[into] += chance * fit[total];
                            };
                            let silent = if was_blank { 0.0 } else { chance * blank };
                            if silent > 0.0 {
                                step(place(state, true, count, total), count, silent, total);
                            }
                            for &(next, share, length) in &self.calls.next[state] {
                                // What does not fit at all ends the set.
                                let Ok(total) = totals.binary_search(&(totals[total] + length.0)) else {
                                    continue;
                                };
                                let chance = (chance - silent) * share;
                                step(place(next, false, count + 1, total), count + 1, chance, total);
                            }
                        }
                    }
                }
            }
            now = after;
        }
        real
    }

    fn all_counts(&self) -> SetCounts {
        let totals = self.totals();
        let fits = chances_to_fit(&self.weights, self.least, self.until, usize::MAX, &totals);
        self.counts(&self.real(&fits, &totals))
    }

    fn redraw_share_above(&self, limit: f64) -> Option<f64> {
        let totals = self.totals();
        let share = if self.most_real < u32::MAX {
            // Where a set may also hold too many, all of it has to be known.
            self.all_counts().redraw_share
        } else {
            // More events never leave fewer real cues, so the events that fit for certain bound the share from above.
            let longest =
                self.least + Millis(self.weights.len() as u32 - 1) + self.lengths().max().unwrap_or_default();
            let all_fit = vec![vec![1.0; totals.len()]; (self.until.0 / longest.0) as usize + 1];
            if self.too_few(&self.real(&all_fit, &totals)) <= limit {
                return None;
            }
            // With blanks never in a row, twice as many events hold enough real cues for certain.
            let enough = 2 * self.least_real as usize;
            let fits = chances_to_fit(&self.weights, self.least, self.until, enough, &totals);
            self.too_few(&self.real(&fits, &totals))
        };
        (share > limit).then_some(share)
    }

    fn too_few(&self, real: &[f64]) -> f64 {
        real.iter().take(self.least_real as usize).sum::<f64>().clamp(0.0, 1.0)
    }

    fn counts(&self, real: &[f64]) -> SetCounts {
        let allowed = |count: usize| (self.least_real as usize..=self.most_real as usize).contains(&count);
        let kept: f64 =
            real.iter().enumerate().filter(|(count, _)| allowed(*count)).map(|(_, chance)| chance).sum();
        let redraw_share = (1.0 - kept).clamp(0.0, 1.0);
        let real = real
            .iter()
            .enumerate()
            .map(|(count, chance)| if !allowed(count) || kept <= 0.0 { 0.0 } else { chance / kept })
            .collect();
        SetCounts { redraw_share, real }
    }
}

/// The counts of a set whose gaps are `least` + i ms with the chance `weights[i]` over the sum of all, and whose calls
/// last no time.
///
/// The first gap runs from the start of the work. An event by `until` counts; the first that would come later
/// ends the set. An event is blank with `blank_per_mille` thousandths, given that the one before was not. A set with
/// fewer than `least_real` real cues is drawn again.
pub fn counts_of_gaps(
    weights: &[u64],
    least: Millis,
    until: Millis,
    blank_per_mille: u16,
    least_real: u32,
) -> SetCounts {
    let weights = weights.to_vec();
    let calls = Chain::of(&[Millis(0)], &[1], None);
    SetRules { weights, least, until, blank_per_mille, least_real, most_real: u32::MAX, calls }.all_counts()
}

/// The share of sets that are drawn again, if it is above `limit`: [`SetCounts::redraw_share`] for less work.
pub fn redraw_share_above(limit: f64, plan: &DrillPlan) -> Option<f64> {
    SetRules::of(plan).redraw_share_above(limit)
}

/// The weight of each millisecond from the shortest gap to just below the longest, as they are drawn.
fn weights(gaps: GapRange) -> Vec<u64> {
    GapTable::new(gaps).weights().collect()
}

/// The chance that k gaps, and `totals[i]` beside them, end by `until`, for k = 0, 1 ... up to `most` or to the first
/// that cannot even alone.
fn chances_to_fit(
    weights: &[u64],
    least: Millis,
    until: Millis,
    most: usize,
    totals: &[u32],
) -> Vec<Vec<f64>> {
    let whole: u64 = weights.iter().sum();
    let one: Vec<f64> = weights.iter().map(|weight| *weight as f64 / whole as f64).collect();
    let (least, until) = (least.0 as usize, until.0 as usize);
    let mut planner = RealFftPlanner::new();
    let mut fits = vec![totals.iter().map(|total| f64::from(u8::from(*total as usize <= until))).collect()];
    // `ends[i]`: the chance that the gaps so far end at k x least + i; ends past `until` are left out.
    let mut ends = vec![1.0];
    for k in 1..=most {
        let Some(room) = until.checked_sub(k * least) else { break };
        ends = if k == 1 { one.clone() } else { convolve(&mut planner, &ends, &one, room + 1) };
        ends.truncate(room + 1);
        let mut running = 0.0;
        let sums: Vec<f64> = ends
            .iter()
            .map(|chance| {
                running += chance;
                running
            })
            .collect();
        let fit = |total: &u32| match room.checked_sub(*total as usize) {
            None => 0.0,
            Some(room) if k * (one.len() - 1) <= room => 1.0,
            Some(room) => sums.get(room).copied().unwrap_or(running).clamp(0.0, 1.0),
        };
        fits.push(totals.iter().map(fit).collect());
    }
    fits
}

#[cfg(test)]
mod test;
