//! How many real cues a set and a session will really hold, and how often a set is drawn again: exact chances,
//! nothing drawn. Not when the cues come (that is the schedule), and not what to think of the numbers (`explain`).
//!
//! Blanks do not move the moments, so the two are computed apart: the chance that k gaps fit into a set, by
//! convolution of the gap table with itself on its own grid of one millisecond; then, of k events, the chance that r
//! are real, by going through them one by one. The convolutions use a fast Fourier transform in double precision:
//! errors stay below 1e-9, as a test against direct sums shows.

use realfft::RealFftPlanner;

use super::gaps::GapTable;
use crate::millis::Millis;
use crate::prescription::limits::{LEAST_REAL_CUES, SESSION_CUES};
use crate::prescription::{DrillPlan, GapRange, Prescription};

/// The counts of one set.
#[derive(Debug, Clone, PartialEq)]
pub struct SetCounts {
    redrawn: f64,
    real: Vec<f64>,
}

impl SetCounts {
    /// The share of drawn sets that break the count rule and are drawn again, from 0 to 1.
    pub fn redrawn(&self) -> f64 {
        self.redrawn
    }

    /// The chance of each number of real cues, from 0 on, in a set that is kept.
    pub fn chances(&self) -> &[f64] {
        &self.real
    }
}

/// The counts of a session: those of its sets, added, and cut at the session's last cue.
///
/// ```
/// use counterpoise::prescription::Prescription;
/// use counterpoise::schedule::count::CueCounts;
/// let counts = CueCounts::of(Prescription::ready("gentle").unwrap());
/// let (low, high) = counts.range();
/// assert!(f64::from(low) < counts.mean() && counts.mean() < f64::from(high));
/// assert!((counts.chances().iter().sum::<f64>() - 1.0).abs() < 1e-9);
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct CueCounts {
    plans: Vec<SetCounts>,
    session: Vec<f64>,
}

impl CueCounts {
    /// The counts of a session of this prescription.
    pub fn of(prescription: &Prescription) -> Self {
        let plans: Vec<SetCounts> = prescription.drills().iter().map(of_plan).collect();
        let mut session = vec![1.0];
        for (plan, counts) in prescription.drills().iter().zip(&plans) {
            for _ in 0..plan.sets() {
                session = sum(&session, &counts.real, usize::from(SESSION_CUES));
            }
        }
        Self { plans, session }
    }

    /// The counts of one set of each drill, in the order of the prescription.
    pub fn plans(&self) -> &[SetCounts] {
        &self.plans
    }

    /// The chance of each number of real cues in a session, from 0 on.
    pub fn chances(&self) -> &[f64] {
        &self.session
    }

    /// The mean number of real cues in a session.
    pub fn mean(&self) -> f64 {
        self.session.iter().enumerate().map(|(count, chance)| count as f64 * chance).sum()
    }

    /// The least and the most real cues of 95 sessions in 100: at most 2.5 % lie below, at most 2.5 % above.
    pub fn range(&self) -> (u16, u16) {
        const TAIL: f64 = 0.025;
        let past = |chances: &mut dyn Iterator<Item = &f64>| {
            let mut below = 0.0;
            chances
                .take_while(|chance| {
                    below += **chance;
                    below <= TAIL
                })
                .count()
        };
        let low = past(&mut self.session.iter());
        let high = self.session.len() - 1 - past(&mut self.session.iter().rev());
        (low as u16, high as u16)
    }

    /// The chance that a session reaches its last allowed cue, after which nothing more is called.
    pub fn capped(&self) -> f64 {
        self.session.get(usize::from(SESSION_CUES)).copied().unwrap_or(0.0)
    }
}

/// The counts of one set of this plan.
fn of_plan(plan: &DrillPlan) -> SetCounts {
    let gaps = plan.gaps();
    redraw_and_counts(
        &weights(gaps),
        gaps.least(),
        plan.work() - plan.recover(),
        plan.blank_per_mille(),
        LEAST_REAL_CUES,
    )
}

/// The counts of a set whose gaps are `least` + i ms with the chance `weights[i]` over the sum of all.
///
/// The first gap runs from the start of the work. An event by `until` counts; the first that would come later
/// ends the set. An event is blank with `blank_per_mille` thousandths, given that the one before was not. A set with
/// fewer than `least_real` real cues is drawn again.
pub fn redraw_and_counts(
    weights: &[u64],
    least: Millis,
    until: Millis,
    blank_per_mille: u16,
    least_real: u32,
) -> SetCounts {
    let fits = chances_to_fit(weights, least, until, usize::MAX);
    let real = real_cues(&fits, blank_per_mille);
    let kept: f64 = real.iter().skip(least_real as usize).sum();
    let redrawn = (1.0 - kept).clamp(0.0, 1.0);
    let real = real
        .into_iter()
        .enumerate()
        .map(|(count, chance)| if count < least_real as usize || kept <= 0.0 { 0.0 } else { chance / kept })
        .collect();
    SetCounts { redrawn, real }
}

/// The share of sets that are drawn again, if it is above `limit`: [`SetCounts::redrawn`] for less work.
pub fn redrawn_above(limit: f64, gaps: GapRange, until: Millis, blank_per_mille: u16) -> Option<f64> {
    let redrawn = |fits: &[f64]| {
        let real = real_cues(fits, blank_per_mille);
        real.iter().take(LEAST_REAL_CUES as usize).sum::<f64>().clamp(0.0, 1.0)
    };
    // More events never leave fewer real cues, so the events that fit for certain bound the share from above.
    let certain = until.0 / (gaps.greatest().0 - 1);
    if redrawn(&vec![1.0; certain as usize + 1]) <= limit {
        return None;
    }
    // With blanks never in a row, twice as many events hold enough real cues for certain.
    let enough = 2 * LEAST_REAL_CUES as usize;
    let share = redrawn(&chances_to_fit(&weights(gaps), gaps.least(), until, enough));
    (share > limit).then_some(share)
}

/// The weight of each millisecond from the shortest gap to just below the longest, as they are drawn.
fn weights(gaps: GapRange) -> Vec<u64> {
    GapTable::new(gaps).weights().collect()
}

/// The chance that k gaps end by `until`, for k = 0, 1 ... up to `most` or to the first that cannot.
fn chances_to_fit(weights: &[u64], least: Millis, until: Millis, most: usize) -> Vec<f64> {
    let total: u64 = weights.iter().sum();
    let one: Vec<f64> = weights.iter().map(|weight| *weight as f64 / total as f64).collect();
    let (least, until) = (least.0 as usize, until.0 as usize);
    let mut planner = RealFftPlanner::new();
    let mut fits = vec![1.0];
    // `ends[i]`: the chance that the gaps so far end at k x least + i; ends past `until` are left out.
    let mut ends = vec![1.0];
    for k in 1..=most {
        let Some(room) = until.checked_sub(k * least) else { break };
        ends = if k == 1 { one.clone() } else { convolve(&mut planner, &ends, &one, room + 1) };
        ends.truncate(room + 1);
        let certain = k * (one.len() - 1) <= room;
        fits.push(if certain { 1.0 } else { ends.iter().sum::<f64>().clamp(0.0, 1.0) });
    }
    fits
}

/// The first `keep` terms of the convolution of `a` and `b`.
pub(crate) fn convolve(planner: &mut RealFftPlanner<f64>, a: &[f64], b: &[f64], keep: usize) -> Vec<f64> {
    let (a, b) = (&a[..a.len().min(keep)], &b[..b.len().min(keep)]);
    let whole = a.len() + b.len() - 1;
    let size = whole.next_power_of_two().max(2);
    let forward = planner.plan_fft_forward(size);
    let spectrum = |terms: &[f64]| {
        let mut input = terms.to_vec();
        input.resize(size, 0.0);
        let mut output = forward.make_output_vec();
        forward.process(&mut input, &mut output).expect("the buffers have the lengths of their plan");
        output
    };
    let (mut product, other) = (spectrum(a), spectrum(b));
    for (term, other) in product.iter_mut().zip(other) {
        *term *= other;
    }
    let mut output = vec![0.0; size];
    planner
        .plan_fft_inverse(size)
        .process(&mut product, &mut output)
        .expect("a product of two real spectra is the spectrum of a real sequence");
    output.truncate(whole.min(keep));
    // Rounding leaves values of the order of 1e-17 on either side of zero.
    for term in &mut output {
        *term = (*term / size as f64).max(0.0);
    }
    output
}

/// The chance of each number of real cues, from the chances that k events fit.
fn real_cues(fits: &[f64], blank_per_mille: u16) -> Vec<f64> {
    let blank = f64::from(blank_per_mille) / 1000.0;
    let mut real = vec![0.0; fits.len()];
    // By the number of real cues so far: the last event was real (or there is none), or it was blank.
    let (mut after_real, mut after_blank) = (vec![1.0], vec![0.0]);
    for k in 0..fits.len() {
        let exactly = fits[k] - fits.get(k + 1).copied().unwrap_or(0.0);
        for count in 0..=k {
            real[count] += exactly * (after_real[count] + after_blank[count]);
        }
        let mut next_real = vec![0.0; k + 2];
        for count in 0..=k {
            next_real[count + 1] = after_real[count] * (1.0 - blank) + after_blank[count];
        }
        after_blank = after_real.iter().map(|chance| chance * blank).chain([0.0]).collect();
        after_real = next_real;
    }
    real
}

/// The chances of a sum of two independent counts, everything above `most` counted as `most`.
fn sum(a: &[f64], b: &[f64], most: usize) -> Vec<f64> {
    let mut sum = vec![0.0; (a.len() + b.len() - 1).min(most + 1)];
    for (i, p) in a.iter().enumerate() {
        for (j, q) in b.iter().enumerate() {
            sum[(i + j).min(most)] += p * q;
        }
    }
    sum
}

#[cfg(test)]
mod test;
