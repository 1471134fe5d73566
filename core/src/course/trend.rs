//! Whether something goes up or down over practices: the median of all slopes between two of them (Theil 1950, Sen
//! 1968), with Sen's interval. One bad day moves it little. The report and the person's own progress go by this rule.

use serde::Serialize;

use crate::course::past::PastSet;
use crate::record::Question;

/// Fewer sessions than this give no trend \[judgment\]: with five, chance alone orders them all one way in 1 of 60.
pub const FEWEST_FOR_TREND: usize = 6;

/// A slope a session, with its 95 % interval.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Slope {
    /// The median slope.
    pub slope: f64,
    /// The lower end of the 95 % interval.
    pub low: f64,
    /// The upper end of the 95 % interval.
    pub high: f64,
    /// The number of sessions it is computed from.
    pub of: usize,
}

/// Which way something goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Way {
    /// It grows.
    Up,
    /// It falls.
    Down,
}

impl Slope {
    /// A trend is called one only where its interval leaves out no change.
    pub fn way(self) -> Option<Way> {
        if self.low > 0.0 {
            Some(Way::Up)
        } else if self.high < 0.0 {
            Some(Way::Down)
        } else {
            None
        }
    }
}

/// The slope of these values, one of each practice; `None` with too few for a trend.
pub fn slope(values: &[f64]) -> Option<Slope> {
    theil_sen(values).filter(|slope| slope.of >= FEWEST_FOR_TREND)
}

/// What a practice says to this question: how often in all where times are asked for, otherwise the hardest or worst of its
/// sets. `None` where nothing was said.
pub fn of_practice<'a>(sets: impl Iterator<Item = &'a PastSet>, question: Question) -> Option<u32> {
    let together = if question == Question::HeldOn { |a, b| a + b } else { u32::max };
    sets.filter_map(|set| set.number_of(question)).reduce(together)
}

/// The quantile of the normal distribution that leaves 2.5 % above it.
const Z: f64 = 1.959_963_984_540_054;

/// The slope of `values`, in order, a step; `None` with fewer than two. Agrees with `scipy.stats.theilslopes`.
///
/// ```
/// use counterpoise_core::course::trend::theil_sen;
/// let line = theil_sen(&[1.0, 2.0, 3.0, 40.0, 5.0, 6.0]).unwrap();
/// assert_eq!(line.slope, 1.0, "one day out of line moves it not at all");
/// assert!(theil_sen(&[1.0]).is_none());
/// ```
pub fn theil_sen(values: &[f64]) -> Option<Slope> {
    let n = values.len();
    let mut slopes: Vec<f64> = (0..n)
        .flat_map(|from| (from + 1..n).map(move |to| (values[to] - values[from]) / (to - from) as f64))
        .collect();
    if slopes.is_empty() {
        return None;
    }
    slopes.sort_by(f64::total_cmp);
    let nt = slopes.len();
    let middle = f64::midpoint(slopes[(nt - 1) / 2], slopes[nt / 2]);
    // Sen's variance of Kendall's statistic, with ties among the values; the moments are all different.
    let length = n as f64;
    let of_group = |k: f64| k * (k - 1.0) * (2.0 * k + 5.0);
    let ties: f64 = groups(values).into_iter().map(|k| of_group(k as f64)).sum();
    let sigma = ((of_group(length) - ties) / 18.0).max(0.0).sqrt();
    let count = nt as f64;
    let high = (f64::midpoint(count, Z * sigma).round_ties_even() as usize).min(nt - 1);
    let low = ((((count - Z * sigma) / 2.0).round_ties_even() as i64 - 1).max(0)) as usize;
    Some(Slope { slope: middle, low: slopes[low], high: slopes[high], of: n })
}

/// How many values are alike, for each that occurs.
fn groups(values: &[f64]) -> Vec<usize> {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    sorted.chunk_by(|a, b| a.total_cmp(b).is_eq()).map(<[f64]>::len).collect()
}
