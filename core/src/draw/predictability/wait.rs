//! How long until the next call, as a distribution over milliseconds, and what a guesser could make of it: braces,
//! hazard, density. What the ends of a set do to it is in `conditioned_waits`.

use realfft::RealFftPlanner;

use crate::plan::convolution::convolve;
use crate::plan::gaps::GapTable;
use crate::units::Millis;

/// The slots over which hazards are given.
pub const SLOT: Millis = Millis(200);

/// The distribution of a wait. Slot `i` is a wait of `from` + `i` ms; all chances add up to 1.
///
/// ```
/// use counterpoise_core::units::Millis;
/// use counterpoise_core::draw::predictability::Wait;
/// let even = Wait::new(Millis(5_000), vec![1.0; 10_000]);
/// assert!((even.brace(Millis(500)).chance - 0.05).abs() < 1e-9, "0.5 s of 10 s");
/// assert!((even.mean() - 9.9995).abs() < 1e-9);
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Wait {
    from: Millis,
    chances: Vec<f64>,
}

/// One committed brace: held from `after` on, for its width.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Brace {
    /// The chance that the call falls into it.
    pub chance: f64,
    /// When it begins, since the last call.
    pub after: Millis,
}

impl Wait {
    /// The wait with these weights, of which at least one is above zero.
    pub fn new(from: Millis, weights: Vec<f64>) -> Self {
        let total: f64 = weights.iter().sum();
        let chances = weights.into_iter().map(|weight| weight / total).collect();
        Self { from, chances }
    }

    /// The wait from one moment to the next, blank or not, as it is drawn.
    pub fn gap(table: &GapTable) -> Self {
        Self { from: table.least(), chances: table.chances().collect() }
    }

    /// The wait from one real call to the next if a moment is blank with chance `blank`, given that the one before was
    /// not: one gap, or two.
    #[must_use]
    pub fn with_blanks(&self, blank: f64) -> Self {
        if blank == 0.0 {
            return self.clone();
        }
        let room = 2 * self.chances.len() - 1;
        let twice = convolve(&mut RealFftPlanner::new(), &self.chances, &self.chances, room);
        let mut chances: Vec<f64> = self.chances.iter().map(|chance| chance * (1.0 - blank)).collect();
        let shift = self.from.0 as usize;
        chances.resize(shift + room, 0.0);
        for (slot, chance) in twice.into_iter().enumerate() {
            chances[shift + slot] += chance * blank;
        }
        Self::new(self.from, chances)
    }

    /// The shortest wait.
    pub fn from(&self) -> Millis {
        self.from
    }

    /// The chance of each millisecond from [`Wait::from`] on.
    pub fn chances(&self) -> &[f64] {
        &self.chances
    }

    /// The chance of a wait shorter than `wait`, for every `wait` from 0 to `until`.
    pub(super) fn below_each(&self, until: Millis) -> Vec<f64> {
        let mut below = 0.0;
        let mut slots = self.chances.iter();
        (0..=until.0)
            .map(|wait| {
                if wait > self.from.0 {
                    below += slots.next().copied().unwrap_or(0.0);
                }
                below
            })
            .collect()
    }

    /// The brace of this width that catches the call most often; the earliest of equals.
    pub fn brace(&self, width: Millis) -> Brace {
        let (slot, chance) = best_window(&self.chances, width.0 as usize);
        Brace { chance, after: self.from + Millis(slot as u32) }
    }

    /// The chance of each slot of [`SLOT`], the first beginning at [`Wait::from`].
    pub fn slots(&self) -> Vec<f64> {
        self.chances.chunks(SLOT.0 as usize).map(|slot| slot.iter().sum()).collect()
    }

    /// For each slot, the chance that the call comes in it, given that it has not come before. The last is 1.
    pub fn hazard(&self) -> Vec<f64> {
        let slots = self.slots();
        let mut later = 0.0;
        let mut hazard: Vec<f64> = slots
            .iter()
            .rev()
            .map(|chance| {
                later += chance;
                if later > 0.0 { chance / later } else { 0.0 }
            })
            .collect();
        hazard.reverse();
        hazard
    }

    /// The hazard at the moment of a call, on average: how ready a person who knows every chance would be
    /// by then.
    pub fn expected_hazard(&self) -> f64 {
        self.slots().iter().zip(self.hazard()).map(|(chance, hazard)| chance * hazard).sum()
    }

    /// The integral of the squared density, a second: the density at the moment of a call, on average.
    pub fn density_square(&self) -> f64 {
        1000.0 * self.chances.iter().map(|chance| chance * chance).sum::<f64>()
    }

    /// The mean, in seconds.
    pub fn mean(&self) -> f64 {
        let slots = self.chances.iter().enumerate();
        self.from.as_secs_f64() + slots.map(|(slot, chance)| slot as f64 * chance).sum::<f64>() / 1000.0
    }

    /// The standard deviation, in seconds.
    pub fn standard_deviation(&self) -> f64 {
        let mean = (self.mean() - self.from.as_secs_f64()) * 1000.0;
        let slots = self.chances.iter().enumerate();
        slots.map(|(slot, chance)| (slot as f64 - mean).powi(2) * chance).sum::<f64>().sqrt() / 1000.0
    }

    /// The shortest wait below which at least this share lies.
    pub fn quantile(&self, share: f64) -> Millis {
        let mut below = 0.0;
        let slot = self.chances.iter().position(|chance| {
            below += chance;
            below >= share
        });
        self.from + Millis(slot.map_or(self.chances.len(), |slot| slot + 1) as u32)
    }
}

/// Where the `width` neighbors with the greatest sum begin, and their sum.
pub(super) fn best_window(chances: &[f64], width: usize) -> (usize, f64) {
    let mut sum: f64 = chances.iter().take(width).sum();
    let mut best = (0, sum);
    for (slot, entering) in chances.iter().enumerate().skip(width) {
        sum += entering - chances[slot - width];
        // Rounding is not a better window.
        if sum > best.1 + 1e-12 {
            best = (slot + 1 - width, sum);
        }
    }
    best
}

/// The least expected hazard at the call that any distribution over `slots` slots can have: V(1) = 1,
/// V(n) = V(n-1) - V(n-1)^2 / 4 \[derived: with chance p the call comes in the first of n slots, which costs p^2, and
/// the rest costs (1 - p) V(n-1); p = V(n-1) / 2 is best\].
///
/// ```
/// use counterpoise_core::draw::predictability::least_expected_hazard;
/// assert_eq!(least_expected_hazard(1), 1.0);
/// assert_eq!(least_expected_hazard(2), 0.75);
/// ```
pub fn least_expected_hazard(slots: usize) -> f64 {
    (1..slots).fold(1.0, |value: f64, _| value - value * value / 4.0)
}

#[cfg(test)]
mod test;
