//! How many real cues a session will have: exact chances, nothing drawn.

use super::prescription::Prescription;
use super::prescription::limits::SESSION_CUES;
use super::prescription::set_counts::SetCounts;

/// The counts of a session: those of its sets, added, and cut at the session's last cue.
///
/// ```
/// use counterpoise_core::plan::prescription::Prescription;
/// use counterpoise_core::plan::counts::CueCounts;
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
        let plans: Vec<SetCounts> = prescription.drills().iter().map(SetCounts::of).collect();
        let mut session = vec![1.0];
        for (plan, counts) in prescription.drills().iter().zip(&plans) {
            for _ in 0..plan.sets() {
                session = sum(&session, counts.chances(), usize::from(SESSION_CUES));
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

    /// The chance that a session reaches its last allowed cue, after which there are no more calls.
    pub fn cap_chance(&self) -> f64 {
        self.session.get(usize::from(SESSION_CUES)).copied().unwrap_or(0.0)
    }
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
