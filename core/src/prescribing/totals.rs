//! What a prescription comes to, in three lines at the foot of a page: calls, guessing, dose. The figures are the
//! same as those of `check`, from the same functions.

use crate::draw::predictability::{Foresight, findings};
use crate::draw::schedule::{ScheduleError, Scheduler};
use crate::plan::counts::CueCounts;
use crate::plan::explanation::Explanation;
use crate::plan::prescription::Prescription;
use crate::words::counted;

/// The consequences of a prescription.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Figures {
    /// Calls a session.
    pub calls: String,
    /// How well somebody who knows the rules, but not the seed, could predict them.
    pub foresight: String,
    /// How much practice it is.
    pub dose: String,
    /// What deserves a second look.
    pub second_looks: Vec<String>,
}

impl Figures {
    /// The figures of a prescription.
    ///
    /// # Errors
    /// If nothing can be drawn from it.
    ///
    /// ```
    /// use counterpoise_core::prescribing::Figures;
    /// use counterpoise_core::plan::prescription::Prescription;
    /// let figures = Figures::of(Prescription::ready("typical").unwrap())?;
    /// assert_eq!(figures.calls, "25.7 a session; 21 to 30 in 95 of 100 sessions");
    /// # Ok::<(), counterpoise_core::draw::schedule::ScheduleError>(())
    /// ```
    pub fn of(prescription: &Prescription) -> Result<Self, ScheduleError> {
        let scheduler = Scheduler::new(prescription)?;
        let counts = CueCounts::of(prescription);
        let explanation = Explanation::of(prescription, &counts);
        let foresight = Foresight::of(prescription, &scheduler, &counts);
        let (low, high) = counts.range();
        let guess = match (foresight.guess_rate(), foresight.chance()) {
            (Some(rate), Some(chance)) => {
                format!("{} of 100 directions (chance {})", findings::of_100(rate), findings::of_100(chance))
            }
            _ => "one direction: only the timing surprises".to_owned(),
        };
        let brace = findings::of_100(foresight.half_second_brace());
        let dose = explanation.dose();
        let minutes = |ms: f64| tenths(ms / 60_000.0);
        let session = f64::from(dose.session.0);
        let week = session * f64::from(dose.days_a_week);
        let cautions = findings::cautions(&foresight);
        Ok(Self {
            calls: format!("{} a session; {low} to {high} in 95 of 100 sessions", tenths(counts.mean())),
            foresight: format!("{guess}; one brace of 0.5 s catches {brace}"),
            dose: format!(
                "{} min a session, {} a week; 6 hours after {} ({} given)",
                minutes(session),
                minutes(week),
                counted(dose.weeks_by_session() as usize, "week"),
                dose.weeks
            ),
            second_looks: explanation
                .warnings()
                .iter()
                .map(ToString::to_string)
                .chain(cautions.iter().map(ToString::to_string))
                .collect(),
        })
    }
}

fn tenths(value: f64) -> String {
    ((value * 10.0).round() / 10.0).to_string()
}
