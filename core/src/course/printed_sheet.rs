//! A sheet that was printed some days before its practice is typed in: at which steps it can be, and from which steps
//! practice goes on.

use jiff::{ToSpan, ZonedDateTime};

use crate::course::trainee::Trainee;
use crate::plan::prescription::{DrillPlan, Prescription};
use crate::record::Given;

/// So many days a sheet is used, the one on which it is printed among them: it says "this week".
pub const WEEK: i64 = 7;

/// The highest step that a sheet used at `at` can have for each drill: nothing above what any day of its week gave.
/// `then`: the steps of that day.
pub fn most(
    trainee: &Trainee,
    prescription: &Prescription,
    at: &ZonedDateTime,
    then: &[Option<u8>],
) -> Vec<Option<u8>> {
    let mut most = then.to_vec();
    for earlier in 1..WEEK {
        let printed = at.saturating_sub(earlier.days());
        let steps = trainee.before(printed.date()).next(prescription, &printed).steps;
        for (most, step) in most.iter_mut().zip(steps) {
            *most = (*most).max(step);
        }
    }
    most
}

/// What the steps of the sheet make of what progression gives: where the sheet was above it, printed before it went down,
/// practice goes on from the lower one.
pub fn given(prescription: &Prescription, printed: &[Option<u8>], then: &[Option<u8>]) -> Vec<Given> {
    let plans = prescription.drills().iter().zip(printed.iter().zip(then));
    let lower = |(plan, (printed, then)): (&DrillPlan, (&Option<u8>, &Option<u8>))| {
        let step = match (printed, then) {
            (Some(printed), Some(then)) => *printed.min(then),
            (step, None) | (None, step) => (*step)?,
        };
        Some(Given::of(plan, step))
    };
    plans.filter_map(lower).collect()
}
