//! What a prescription means in plain words: what will happen, how much practice it is, and what to take care of.
//! It is for the person who prescribes; a shortfall of dose is not shown to the trainee.

use std::fmt;

use jiff::civil::Date;

use super::counts::CueCounts;
use super::prescription::limits::{self, REDRAW_WARNING, SESSION_CUES, SET_UP};
use super::prescription::set_counts::SetCounts;
use super::prescription::{DrillOrder, DrillPlan, Prescription, UnlockName};
use crate::plan::caution::{self, Contents, Surface};
use crate::plan::drill::Trains;
use crate::plan::phrase::Phrase;
use crate::units::Millis;

mod drill_lines;
mod handout;

/// Hours in all, below which no program of perturbations reduced falls: a 2025 preprint of 25 trials, not peer reviewed
/// \[read\]. For balance exercise the published dose is 3 hours a week (Sherrington 2020 \[read\]).
pub const HOURS_THAT_HELPED: u32 = 6;

/// The explanation of one prescription. `Display` gives all of it, one paragraph a line.
///
/// ```
/// use counterpoise_core::plan::explanation::Explanation;
/// use counterpoise_core::plan::prescription::Prescription;
/// use counterpoise_core::plan::counts::CueCounts;
/// let prescription = Prescription::ready("gentle").unwrap();
/// let counts = CueCounts::of(prescription);
/// let explanation = Explanation::of(prescription, &counts);
/// assert_eq!(explanation.dose().weeks_by_active(), 40);
/// assert!(explanation.to_string().contains("3 days a week for 12 weeks"));
/// ```
#[derive(Debug, Clone, Copy)]
pub struct Explanation<'a> {
    prescription: &'a Prescription,
    counts: &'a CueCounts,
}

/// A part of the explanation.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Part {
    /// The heading above its lines.
    pub heading: String,
    /// Its paragraphs, each to be wrapped to the width.
    pub lines: Vec<String>,
}

/// How much practice a prescription is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Dose {
    /// One session with warm-up, getting into place and rests: what trials count.
    pub session: Millis,
    /// The work of one session alone.
    pub active: Millis,
    /// Sessions a week.
    pub days_a_week: u8,
    /// Weeks prescribed.
    pub weeks: u8,
}

/// Something that is allowed but deserves a second look.
#[derive(Debug, Clone, PartialEq)]
pub enum Warning {
    /// Many sets hold fewer than two cues and are drawn again, which makes their timing easier to predict.
    ManyRedraws {
        /// The drill's title.
        drill: String,
        /// From 0 to 1.
        share: f64,
    },
    /// Some sessions reach the most cues of a session and end in silence.
    ManyCues {
        /// The chance, from 0 to 1.
        share: f64,
    },
    /// The program is over before it reaches six hours.
    ShortOfSixHours {
        /// Weeks needed, by session time.
        needed: u32,
        /// The weeks that are prescribed.
        weeks: u8,
    },
    /// What is accepted of suitability is written in the older form, which later answers outdate.
    OldAcceptance {
        /// The day of issue: what was answered on it or later is not covered.
        issued_on: Date,
    },
}

impl Dose {
    /// Weeks to six hours, by session time.
    pub fn weeks_by_session(self) -> u32 {
        self.weeks_to_six_hours(self.session)
    }

    /// Weeks to six hours, by active time.
    pub fn weeks_by_active(self) -> u32 {
        self.weeks_to_six_hours(self.active)
    }

    fn weeks_to_six_hours(self, a_session: Millis) -> u32 {
        (HOURS_THAT_HELPED * 3_600_000).div_ceil(a_session.0 * u32::from(self.days_a_week))
    }

    fn minutes_a_week(self, a_session: Millis) -> String {
        decimal(f64::from(a_session.0) * f64::from(self.days_a_week) / 60_000.0)
    }
}

impl<'a> Explanation<'a> {
    /// The explanation of `prescription`, whose counts are `counts`.
    pub fn of(prescription: &'a Prescription, counts: &'a CueCounts) -> Self {
        Self { prescription, counts }
    }

    /// How much practice it is.
    pub fn dose(&self) -> Dose {
        let plans = self.prescription.drills();
        let sets: u32 = plans.iter().map(|plan| u32::from(plan.sets())).sum();
        let active = Millis(plans.iter().map(|plan| u32::from(plan.sets()) * plan.work().0).sum());
        let session = active + Millis(sets * SET_UP.0 + (sets - 1) * self.prescription.rest().0);
        Dose {
            session,
            active,
            days_a_week: self.prescription.days_a_week(),
            weeks: self.prescription.weeks(),
        }
    }

    /// What deserves a second look.
    pub fn warnings(&self) -> Vec<Warning> {
        let redraws = self.plans().filter(|(_, counts)| counts.redraw_share() > REDRAW_WARNING).map(
            |(plan, counts)| Warning::ManyRedraws {
                drill: plan.drill().title().to_owned(),
                share: counts.redraw_share(),
            },
        );
        let mut warnings: Vec<Warning> = redraws.collect();
        if self.counts.cap_chance() > REDRAW_WARNING {
            warnings.push(Warning::ManyCues { share: self.counts.cap_chance() });
        }
        let (needed, weeks) = (self.dose().weeks_by_session(), self.prescription.weeks());
        if needed > u32::from(weeks) {
            warnings.push(Warning::ShortOfSixHours { needed, weeks });
        }
        if self.prescription.accepted_because().is_some() {
            warnings.push(Warning::OldAcceptance { issued_on: self.prescription.issued_on() });
        }
        warnings
    }

    /// All parts, in reading order.
    pub fn parts(&self) -> Vec<Part> {
        self.parts_with(None, Vec::new())
    }

    /// All parts, with one that is computed elsewhere before the dose, and more lines that deserve a second look.
    pub fn parts_with(&self, part: Option<Part>, second_looks: Vec<String>) -> Vec<Part> {
        let mut parts = vec![self.outline()];
        parts.extend(
            self.plans()
                .enumerate()
                .map(|(index, (plan, counts))| drill_lines::part(index == 0, plan, counts)),
        );
        parts.push(self.calls());
        parts.extend(part);
        parts.push(self.dose_part());
        let lines: Vec<String> = self.warnings().iter().map(Warning::to_string).chain(second_looks).collect();
        if !lines.is_empty() {
            parts.push(Part { heading: "Worth a second look".into(), lines });
        }
        parts.extend(self.cautions());
        parts
    }

    /// The sheet for the person who practices: no figures of guessing, and no shortfall of dose.
    ///
    /// ```
    /// use counterpoise_core::plan::explanation::Explanation;
    /// use counterpoise_core::plan::prescription::Prescription;
    /// use counterpoise_core::plan::counts::CueCounts;
    /// let prescription = Prescription::ready("gentle").unwrap();
    /// let counts = CueCounts::of(prescription);
    /// let sheet = Explanation::of(prescription, &counts).handout();
    /// assert!(sheet.iter().any(|part| part.heading == "Stop"));
    /// ```
    pub fn handout(&self) -> Vec<Part> {
        handout::parts(self)
    }

    /// When to stop, for the same sheet.
    pub fn when_to_stop() -> Part {
        handout::stop()
    }

    /// What is done this week, how it surprises and what to take care of: the handout without what comes later.
    pub fn this_week(&self) -> Vec<Part> {
        handout::week(self)
    }

    fn plans(&self) -> impl Iterator<Item = (&'a DrillPlan, &'a SetCounts)> {
        self.prescription.drills().iter().zip(self.counts.plans())
    }

    fn outline(&self) -> Part {
        let prescription = self.prescription;
        let by = if prescription.issued_by().is_empty() {
            String::new()
        } else {
            format!(" by {}", prescription.issued_by())
        };
        let sets: u32 = prescription.drills().iter().map(|plan| u32::from(plan.sets())).sum();
        let mut lines = vec![
            format!("Written{by} on {}.", prescription.issued_on()),
            format!(
                "{} a session, warm-up included; one session a day, {} a week for {}.",
                count(sets, "set"),
                count(prescription.days_a_week().into(), "day"),
                count(prescription.weeks().into(), "week"),
            ),
            format!("At least {} of rest after each set, with a chair at hand.", prescription.rest()),
            format!(
                "A therapist looks again after {}. Nothing steps up when effort was above {} of 10{}.",
                count(prescription.review_after_sessions().into(), "session"),
                prescription.effort_at_most(),
                // Rises and quick steps are meant to be vigorous, unless the limit is lowered.
                if prescription.effort_at_most() < limits::EFFORT.most as u8 {
                    ""
                } else {
                    ", in rises and quick steps above 8"
                },
            ),
        ];
        if prescription.order() == DrillOrder::Drawn {
            lines.push(
                "The warm-up comes first; the other drills come in an order drawn for each session, walking last.".into(),
            );
        }
        if !prescription.precautions().is_empty() {
            lines.push(format!("Precautions, in every practice: {}.", prescription.precautions()));
            lines.push("Pushes, balls and moving bases are left out with any of them.".into());
            lines.extend(prescription.narrowings().iter().map(ToString::to_string));
        }
        if let Some(because) = prescription.accepted_because() {
            lines.push(format!(
                "Suitability answers that say \"a clinician first\" are accepted if given before {}: {because}. A later yes is not.",
                prescription.issued_on()
            ));
        }
        for accept in prescription.accepts() {
            let (topic, who, when) = (accept.topic, &accept.who, accept.when);
            lines.push(format!(
                "Accepted: {topic}, by {who} on {when}. Its limits stay; a later yes is asked about again."
            ));
        }
        for unlock in prescription.unlocks() {
            let with =
                if unlock.partner.is_empty() { String::new() } else { format!(" with {}", unlock.partner) };
            let (name, watched_by, on) = (unlock.name.name(), &unlock.watched_by, unlock.on);
            let present = if unlock.therapist_present { ", only while the therapist is there" } else { "" };
            lines.push(format!("Unlocked: {name}{with}, watched by {watched_by} on {on}{present}."));
        }
        Part { heading: prescription.title().to_owned(), lines }
    }

    fn calls(&self) -> Part {
        let (low, high) = self.counts.range();
        let most = format!("After call number {SESSION_CUES} a session calls no more.");
        let mean = decimal(self.counts.mean());
        let lines = vec![
            format!(
                "A session gives {mean} calls on average; 95 sessions in 100 give {low} to {high}. {most}"
            ),
            format!(
                "A set always gives at least {}; one that was drawn with fewer is drawn again.",
                count(limits::LEAST_REAL_CUES, "call"),
            ),
        ];
        Part { heading: "How many calls".into(), lines }
    }

    fn dose_part(&self) -> Part {
        let dose = self.dose();
        let line = |what: &str, a_session: Millis, weeks: u32| {
            let minutes = decimal(f64::from(a_session.0) / 60_000.0);
            let a_week = dose.minutes_a_week(a_session);
            let weeks = count(weeks, "week");
            format!(
                "{what}: {minutes} min a session, {a_week} min a week; {HOURS_THAT_HELPED} hours after {weeks}."
            )
        };
        let lines = vec![
            line("With warm-up, getting into place and rests", dose.session, dose.weeks_by_session()),
            line("Practice alone", dose.active, dose.weeks_by_active()),
            "Why six hours: in a 2025 preprint of 25 trials of pushes and slips, not peer reviewed, only programs of at least 6 hours in all reduced falls. For balance exercise the published dose is 3 hours a week. Trials count time with warm-up and rests."
                .into(),
        ];
        Part { heading: "How much practice".into(), lines }
    }

    fn cautions(&self) -> [Part; 2] {
        let [mut cautions, clinician] = self.caution_parts(Surface::Check, "Cautions");
        let lines = &mut cautions.lines;
        lines.push(Phrase::own("practice.ignore").words().to_owned());
        if self.prescription.unlocks_name(UnlockName::Backward) {
            lines.push(
                "Reaching back: only with a wall or a second counter within half a step behind.".into(),
            );
        }
        if self.plans().all(|(plan, _)| plan.drill().trains() == Trains::Voluntary) {
            lines.push(
                "A voice alone trains a movement that the person chooses. Only a real disturbance from outside trains a reaction."
                    .into(),
            );
        } else {
            lines.push(Trains::Reactive.limitation().to_owned());
        }
        [cautions, clinician]
    }

    /// The cautions of a surface: the statements under this heading, and the list under its own.
    fn caution_parts(&self, surface: Surface, heading: &str) -> [Part; 2] {
        let mut parts = [heading, ""].map(|heading| Part { heading: heading.to_owned(), lines: Vec::new() });
        for (_, statement) in caution::statements(surface, Contents::Of(self.prescription)) {
            match statement.items {
                [] => parts[0].lines.push(statement.text),
                items => {
                    parts[1].heading = statement.text;
                    parts[1].lines.extend(items.iter().map(|item| (*item).to_owned()));
                }
            }
        }
        parts
    }
}

impl fmt::Display for Warning {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::OldAcceptance { issued_on } => write!(
                f,
                "`accepted_because` covers no answer given on or after {issued_on}. Name each topic instead, in a section [[accepts]] with topic, who and when."
            ),
            Self::ManyRedraws { drill, share } => write!(
                f,
                "{drill}: {} of 100 sets hold fewer than two calls and are drawn again, which makes the timing of the others easier to predict. Longer sets or shorter gaps help.",
                decimal(share * 100.0)
            ),
            Self::ManyCues { share } => write!(
                f,
                "{} of 100 sessions reach {SESSION_CUES} calls and end in silence. Fewer or shorter sets help.",
                decimal(share * 100.0)
            ),
            Self::ShortOfSixHours { needed, weeks } => write!(
                f,
                "Session time adds up to {HOURS_THAT_HELPED} hours after {}, and {weeks} are prescribed. More days or sets help, if they suit this person.",
                count(*needed, "week"),
            ),
        }
    }
}

impl fmt::Display for Explanation<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (index, part) in self.parts().iter().enumerate() {
            if index > 0 {
                writeln!(f)?;
            }
            writeln!(f, "{}", part.heading)?;
            for line in &part.lines {
                writeln!(f, "{line}")?;
            }
        }
        Ok(())
    }
}

/// One decimal at most: `3`, `15.2`; what is above zero and would round to it is `under 0.1`.
fn decimal(value: f64) -> String {
    let rounded = (value * 10.0).round() / 10.0;
    if rounded == 0.0 && value > 1e-9 { "under 0.1".into() } else { rounded.abs().to_string() }
}

fn count(number: u32, noun: &str) -> String {
    if number == 1 { format!("1 {noun}") } else { format!("{number} {noun}s") }
}

#[cfg(test)]
mod test;
