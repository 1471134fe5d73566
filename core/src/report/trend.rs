//! Whether something goes up or down over sessions: the median of all slopes between two of them (Theil 1950, Sen
//! 1968), with Sen's interval. One bad day moves it little.

use serde::Serialize;

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

/// The quantile of the normal distribution that leaves 2.5 % above it.
const Z: f64 = 1.959_963_984_540_054;

/// The slope of `values`, in order, a step; `None` with fewer than two. Agrees with `scipy.stats.theilslopes`.
///
/// ```
/// use counterpoise_core::report::theil_sen;
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
