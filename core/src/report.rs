//! What was really done: past sessions and a day lead to the figures that a therapist decides from. Few observations
//! give no percentage, and nothing is scored or ranked.

use jiff::civil::Date;
use serde::Serialize;

use crate::course::progression::LadderState;
use crate::health::assessment::{Dated, Verdict};
use crate::plan::drill::Form;
use crate::plan::precaution::Precaution;
use crate::plan::prescription::{Digest, Prescription};

mod adverse_events;
mod answers;
mod changes;
mod dose;
mod events;
mod figures;
mod ladder;
mod material;
pub mod overview;
mod ratings;
mod raw_material;
mod responses;
mod summary;
mod uncorrected;
mod whole_report;

pub use crate::course::trend::{FEWEST_FOR_TREND, Slope, theil_sen};
pub use adverse_events::{
    Clearing, Consequence, Incident, Unanswered, incidents, of_session, unanswered, unanswered_in,
};
pub use answers::{Asked, NotGood, before_practice, not_good, suitability};
pub use changes::{ProgramChange, changes};
pub use dose::{Dose, Week};
pub use events::{Event, Kind};
pub use ladder::LadderChange;
pub use material::{Cleared, CountsAs, Material, Period, Program, SessionDetails, SetDetails, Told};
pub use ratings::Ratings;
pub use responses::{Group, Responses, Share};
pub use summary::{Paragraph, summary};
pub use uncorrected::Counts;
pub use whole_report::{blocks, title};

use material::PeriodSessions;

/// The name and version of the JSON format.
pub const SCHEMA: &str = "counterpoise.report/1";

/// Fewer observations than this give counts and no percentage \[judgment\]: the exact 95 % interval of 5 of 10 reaches from
/// 19 to 81 %; with fewer it says next to nothing.
pub const FEWEST_FOR_SHARE: usize = 10;

/// One person's report.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Report {
    /// The name and version of the format, always [`SCHEMA`].
    pub schema: &'static str,
    /// The days that the report covers.
    #[serde(flatten)]
    pub period: Period,
    /// Falls, grabs, near falls and symptoms, with what followed.
    pub incidents: Vec<Incident>,
    /// Sets of which it is not known whether there was a grab, or whether the person felt unwell.
    pub unanswered: Vec<Unanswered>,
    /// Programs that came into use in the period, and the last one before it.
    pub program_changes: Vec<ProgramChange>,
    /// Every answer about health, and before practice, that was not good.
    pub not_good: Vec<NotGood>,
    /// At which end of its ladders the program is now, if at one.
    pub state: Option<LadderState>,
    /// The prescription in use.
    pub prescription: IssuedPrescription,
    /// Other prescriptions of the period, with the day of their first session.
    pub prescriptions: Vec<PrescriptionUse>,
    /// Sessions, sets, minutes and cues, in all and by week.
    pub dose: Dose,
    /// What followed pushes.
    pub responses: Responses,
    /// Effort, steadiness, holding on.
    pub ratings: Ratings,
    /// The counts before any correction; `None` where nothing was corrected.
    pub as_kept: Option<Counts>,
    /// What went wrong, or was done about it, in order.
    pub events: Vec<Event>,
    /// What bars practice now, as sentences.
    pub barred: Vec<String>,
    /// Days since the prescription was issued, and sessions under it of those after which a therapist looks again.
    pub review: Review,
    /// How the steps went, and why.
    pub ladder: Vec<LadderChange>,
    /// Each balance test over time.
    pub tests: Vec<TestLine>,
    /// What the audit says of how predictable the prescription in use is.
    pub foreseen: String,
    /// Why the therapist accepts what suitability would not, if so.
    pub accepted_because: Option<String>,
    /// Sentences that apply to this report.
    pub remarks: Vec<&'static str>,
}

/// The head of the prescription in use.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct IssuedPrescription {
    /// The title in its file.
    pub title: String,
    /// Who issued it; may be empty.
    pub issued_by: String,
    /// The day on which it was issued.
    pub issued_on: Date,
    /// The last day of its weeks, counted from the first practice under it; `None` before that.
    pub ends_on: Option<Date>,
    /// The digest of its file.
    pub digest: String,
    /// What the person must not do, in every practice.
    pub precautions: Vec<Precaution>,
}

/// A prescription that was practiced.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct PrescriptionUse {
    /// The day of its first session in the period.
    pub from: Date,
    /// Its title then.
    pub title: String,
    /// The digest of its file.
    pub digest: String,
    /// Practices in the period.
    pub sessions: usize,
}

/// Whether a therapist should look again.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Review {
    /// Days since the prescription was issued; where nobody issued it, since the first practice under it.
    pub days: i32,
    /// Practices under it, in all.
    pub sessions: usize,
    /// Practices after which a therapist looks again.
    pub due_after: u16,
    /// Whether it is due.
    pub is_due: bool,
}

/// One balance test over time.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct TestLine {
    /// The name of the test.
    pub test: &'static str,
    /// Day and result, oldest first.
    pub results: Vec<(Date, String)>,
    /// Whether the latest is below its published cut-off.
    pub verdict: Verdict,
    /// What the latest is worth, with its source.
    pub finding: String,
    /// What changed, compared with the noise of the test.
    pub change: Vec<String>,
}

/// Adverse events in trials.
pub const ADVERSE: &str = "In trials more people had adverse events with such training than without (29 % against 20 %; review of 29 \
                           trials, Phys Ther, PMID 37651698 [read]). Ask about falls, pain and soreness.";
/// Why few observations give no percentage.
pub const FEW: &str = "Small numbers say little: no percentage is given for few observations.";
/// What is known of six hours of practice.
pub const SIX_HOURS: &str = "Of programs with pushes and slips, only those of six hours or more in all reduced falls: a 2025 preprint of \
                             25 trials, not peer reviewed [read]. For balance exercise the published dose is 3 hours a week \
                             (Sherrington 2020 [read, abstract]). This is not a promise for one person.";

impl Report {
    /// The report of `period` under the prescription in use. `foreseen`: what the audit says of it, in a sentence. `barred`:
    /// what bars practice now, as sentences. `state`: the end of the ladders at which the program is now.
    pub fn of(
        material: &Material,
        prescription: &Prescription,
        period: Period,
        foreseen: String,
        barred: Vec<String>,
        state: Option<LadderState>,
    ) -> Self {
        let inside = PeriodSessions::new(material, period);
        let mut remarks = vec![FEW, ADVERSE, SIX_HOURS];
        if !material.tests.is_empty() {
            remarks.push(crate::health::assessment::NO_SINGLE_TEST);
        }
        Self {
            schema: SCHEMA,
            period,
            incidents: incidents(material, period),
            unanswered: unanswered(material, period),
            program_changes: changes(material, prescription, period),
            not_good: not_good(material, prescription, period),
            state,
            prescription: IssuedPrescription {
                title: prescription.title().to_owned(),
                issued_by: prescription.issued_by().to_owned(),
                issued_on: prescription.issued_on(),
                ends_on: crate::course::program::Program::new(&material.past, prescription).ends_on(),
                digest: prescription.digest().to_string(),
                precautions: prescription.precautions().iter().collect(),
            },
            prescriptions: used(&inside),
            dose: Dose::of(&inside, &material.past, prescription, period),
            responses: Responses::of(&inside),
            ratings: Ratings::of(&inside),
            as_kept: Counts::as_kept(material, prescription, period),
            events: events::of(material, &inside, period),
            barred,
            review: review(material, prescription, period),
            ladder: ladder::of(&inside),
            tests: tests(material, period),
            foreseen,
            accepted_because: prescription.accepted_because().map(str::to_owned),
            remarks,
        }
    }
}

fn used(inside: &PeriodSessions<'_>) -> Vec<PrescriptionUse> {
    let mut used: Vec<PrescriptionUse> = Vec::new();
    for practice in &inside.practices {
        let Some((session, more)) = practice.sessions.first() else { continue };
        let digest = session.digest.to_string();
        match used.iter_mut().find(|used| used.digest == digest) {
            Some(used) => used.sessions += 1,
            None => used.push(PrescriptionUse {
                from: practice.day,
                title: more.title.clone(),
                digest,
                sessions: 1,
            }),
        }
    }
    used
}

fn review(material: &Material, prescription: &Prescription, period: Period) -> Review {
    let digest: Digest = prescription.digest();
    let sittings = material.past.sittings();
    let under = |sitting: &&crate::course::past::Sitting<'_>| {
        sitting.first().digest == digest && sitting.day() <= period.until
    };
    let sessions = sittings.iter().filter(under).count();
    let due_after = prescription.review_after_sessions();
    // Nobody issued a ready prescription, so its time begins with the first practice.
    let first = sittings
        .iter()
        .filter(|sitting| sitting.first().digest == digest)
        .map(crate::course::past::Sitting::day)
        .min();
    let issued = match prescription.issued_by() {
        "" => first.unwrap_or(period.until),
        _ => prescription.issued_on(),
    };
    let days = crate::course::program::days_between(issued, period.until).max(0);
    Review { days, sessions, due_after, is_due: sessions >= usize::from(due_after) }
}

fn tests(material: &Material, period: Period) -> Vec<TestLine> {
    use crate::health::assessment::{Trend, score};
    let until: Vec<Dated> =
        material.tests.iter().filter(|dated| dated.day <= period.until).cloned().collect();
    let line = |trend: &Trend| {
        let latest = trend.latest();
        let finding = score(latest.reading, latest.age, latest.sex);
        TestLine {
            test: trend.test.name(),
            results: trend.results.iter().map(|dated| (dated.day, dated.reading.to_string())).collect(),
            verdict: finding.verdict,
            finding: finding.sentence(trend.test),
            change: trend.sentences(),
        }
    };
    Trend::all(&until).iter().map(line).collect()
}

/// "alone" or "with a partner", after a drill's name.
fn form_words(form: Form) -> &'static str {
    match form {
        Form::Alone => "alone",
        Form::Partner => "with a partner",
    }
}

#[cfg(test)]
mod test;
