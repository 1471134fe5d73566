//! The range of gaps between cues, its shape, and the weight of each millisecond in it as a whole number. The draw
//! itself is in `draw::schedule::gap_draw`.
//!
//! No floating-point arithmetic takes part in the weights, so that every machine draws the same gaps.

use crate::units::Millis;

/// The range of gaps and how they are spread over it. `least < greatest`, both within the hard limits.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct GapRange {
    least: Millis,
    greatest: Millis,
    shape: Shape,
}

/// How gaps are spread over their range.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shape {
    /// Truncated exponential: the chance of a cue in the next moment stays level for longest.
    Flat {
        /// Rate times range, in thousandths.
        rate_thousandths: u32,
    },
    /// Uniform: no single moment is a better guess than another.
    Even,
}

impl GapRange {
    /// A range that the gate has checked.
    pub(super) const fn checked(least: Millis, greatest: Millis, shape: Shape) -> Self {
        Self { least, greatest, shape }
    }
    /// A range that no gate has seen, for tests.
    #[cfg(test)]
    pub(crate) fn unchecked(least: Millis, greatest: Millis, shape: Shape) -> Self {
        Self { least, greatest, shape }
    }
    /// The shortest gap.
    pub fn least(self) -> Millis {
        self.least
    }
    /// The bound that no gap reaches.
    pub fn greatest(self) -> Millis {
        self.greatest
    }
    /// How gaps are spread over the range.
    pub fn shape(self) -> Shape {
        self.shape
    }
}

/// The weight of the first slot of a `flat` table.
const FIRST_WEIGHT: u64 = 1 << 40;

/// The chances of one range and shape, as whole numbers.
///
/// Slot `i` of `N` = greatest - least is a gap of least + `i` ms; the greatest itself is not reached.
///
/// * `flat`: w\[0\] = 2^40, w\[i+1\] = w\[i\] - floor(w\[i\] c / (1000 N)), c = `rate_thousandths`. One draw takes
///   `x` below the sum of all weights and gives the first slot whose running total exceeds `x`.
/// * `even`: one draw below `N` gives the slot.
#[derive(Debug, Clone)]
pub struct GapTable {
    least: Millis,
    slots: u32,
    shape: Shape,
    /// Running totals of the weights, this slot included; empty for `even`.
    totals: Vec<u64>,
}

impl GapTable {
    /// The table of a checked range.
    pub fn new(range: GapRange) -> Self {
        Self::over(range.least(), range.greatest(), range.shape())
    }

    /// The table of gaps from `least` to just below `greatest`, which must be greater.
    pub fn over(least: Millis, greatest: Millis, shape: Shape) -> Self {
        let slots = (greatest - least).0;
        let totals = match shape {
            Shape::Even => Vec::new(),
            Shape::Flat { rate_thousandths } => running_totals(slots, u64::from(rate_thousandths)),
        };
        Self { least, slots, shape, totals }
    }

    /// The sum of all weights; for `even` the number of slots. What one draw takes a number below.
    pub fn total(&self) -> u64 {
        self.totals.last().copied().unwrap_or(u64::from(self.slots))
    }

    /// The gap that the number `x`, below [`GapTable::total`], means.
    pub fn gap_at(&self, x: u64) -> Millis {
        let slot = match self.shape {
            Shape::Even => x as u32,
            Shape::Flat { .. } => self.totals.partition_point(|&running| running <= x) as u32,
        };
        self.least + Millis(slot)
    }

    /// The shortest gap.
    pub fn least(&self) -> Millis {
        self.least
    }

    /// How many one-millisecond slots there are.
    pub fn slots(&self) -> u32 {
        self.slots
    }

    /// How gaps are spread over the range.
    pub fn shape(&self) -> Shape {
        self.shape
    }

    /// The weight of each slot, in order: its chance is its weight over the sum of all.
    pub fn weights(&self) -> impl Iterator<Item = u64> {
        (0..self.slots as usize).map(|slot| match (self.totals.get(slot), slot) {
            (None, _) => 1,
            (Some(&total), 0) => total,
            (Some(&total), _) => total - self.totals[slot - 1],
        })
    }

    /// The chance of each slot, in order, for what is computed about draws rather than drawn.
    pub fn chances(&self) -> impl Iterator<Item = f64> {
        let total = self.total() as f64;
        self.weights().map(move |weight| weight as f64 / total)
    }
}

fn running_totals(slots: u32, rate_thousandths: u64) -> Vec<u64> {
    let whole = 1000 * u128::from(slots);
    let mut weight = FIRST_WEIGHT;
    let mut total = 0;
    (0..slots)
        .map(|_| {
            total += weight;
            let loss = u128::from(weight) * u128::from(rate_thousandths) / whole;
            weight = weight.saturating_sub(loss as u64);
            total
        })
        .collect()
}
