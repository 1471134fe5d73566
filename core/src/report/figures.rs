//! How a share, a median and a slope are written.

use super::Share;
use super::ratings::Line;
use crate::course::trend::Slope;

/// "33 (82 %, 67-93)", or the count alone where there are too few.
pub(super) fn share(share: Option<Share>, count: usize) -> String {
    match share {
        None => count.to_string(),
        Some(Share { count, share, low, high, .. }) => {
            format!("{count} ({:.0} %, {:.0}-{:.0})", share * 100.0, low * 100.0, high * 100.0)
        }
    }
}

/// The median of a line, or "no answer".
pub(super) fn median(line: &Line) -> String {
    median_text(line.median)
}

/// The same for a bare median.
pub(super) fn median_text(median: Option<f64>) -> String {
    median.map_or_else(|| "no answer".to_owned(), |median| median.to_string())
}

/// The slope of a share as points of 100.
pub(super) fn percent_points(slope: Slope) -> Slope {
    Slope { slope: slope.slope * 100.0, low: slope.low * 100.0, high: slope.high * 100.0, ..slope }
}

/// "+0.52 (+0.10 to +1.00)".
pub(super) fn slope_words(slope: Slope) -> String {
    format!("{:+.2} ({:+.2} to {:+.2})", slope.slope, slope.low, slope.high)
}

/// A trend is given only where its interval excludes no change.
pub(super) fn trend(slope: Option<Slope>, unit: &str) -> String {
    match slope {
        Some(line) if line.way().is_some() => {
            let Slope { slope, low, high, .. } = line;
            format!(" ({slope:+.2}, {low:+.2} to {high:+.2}{unit})")
        }
        Some(_) => " (no clear trend)".to_owned(),
        None => String::new(),
    }
}
