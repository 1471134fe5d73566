//! Practices made by hand, for tests of the rules. A session is clean unless it is changed.
#![allow(clippy::missing_panics_doc, reason = "it is called by tests only")]

use jiff::civil::Date;
use jiff::{SignedDuration, ToSpan, ZonedDateTime};

use super::{FallAnswers, Incidents, Past, PastSession, PastSet};
use crate::plan::drill::Form;
use crate::plan::prescription::Prescription;
use crate::record::{Effort, Numbered, SessionEnd, SetEnd, Steadiness, Times, YesNo};

/// New York, ten in the morning of a day in November 2026, when clocks there do not change after the 1st.
pub fn at(day: i8) -> ZonedDateTime {
    on(jiff::civil::date(2026, 11, 1).saturating_add(i64::from(day - 1).days()), 10)
}

/// New York, at this full hour of the day.
///
/// # Panics
/// Without the rules of that time zone.
pub fn on(day: Date, hour: i8) -> ZonedDateTime {
    day.at(hour, 0, 0, 0).in_tz("America/New_York").unwrap()
}

/// One hand-made prescription: warm-up, then reaches and quick steps, two sets each, from step 2 on.
///
/// # Panics
/// If it is outside the limits.
pub fn prescription() -> Prescription {
    let text = r#"
        schema = "counterpoise.prescription/1"
        title = "Reaches and steps"
        issued_on = 2026-11-01

        [[drills]]
        drill = "counter-reach"
        sets = 2
        work_ms = 60000
        step = 2
        ceiling = 4
        gap_ms = [5000, 15000]
        directions = ["left", "right", "forward"]

        [[drills]]
        drill = "quick-steps"
        sets = 2
        work_ms = 60000
        step = 2
        ceiling = 3
        gap_ms = [6000, 15000]
        directions = ["left", "right", "forward"]
    "#;
    Prescription::read("test.toml", text.as_bytes()).unwrap()
}

/// A clean session of 20 minutes under `prescription`, at these steps of its drills.
pub fn clean(prescription: &Prescription, begun: &ZonedDateTime, steps: &[u8]) -> PastSession {
    let mut number = 0;
    let mut sets = Vec::new();
    for (plan, step) in prescription.drills().iter().zip(steps) {
        for _ in 0..plan.sets() {
            number += 1;
            sets.push(PastSet {
                number,
                drill: plan.drill().name().to_owned(),
                form: plan.form(),
                step: *step,
                end: Some(SetEnd::Completed),
                cues: 5,
                grabbed: Some(YesNo::No),
                held_on: Some(Times::Never),
                effort: Effort::numbered(4),
                steadiness: Some(Steadiness::ALittleUnsteady),
                unwell: Some(YesNo::No),
                responses: Vec::new(),
                mishaps: Vec::new(),
                grabs_by_key: 0,
                advised_lower: false,
                fell_asked: false,
                fell_said: None,
            });
        }
    }
    PastSession {
        id: format!("session of {begun}"),
        day: begun.date(),
        begun: begun.timestamp(),
        ended: begun.timestamp() + SignedDuration::from_mins(20),
        seen_before: None,
        digest: prescription.digest(),
        end: Some(SessionEnd::Finished),
        sets_planned: number,
        sets_whole: None,
        sets,
        tried_out: false,
        ready: Vec::new(),
        given: Vec::new(),
        hurt: None,
        told: FallAnswers::default(),
        unwell_then: None,
        same_fall: None,
        why_stopped: None,
        symptom: None,
        before_set: Vec::new(),
        by_hand: false,
        date_cleared: None,
        doubtful: false,
        discounted: false,
        locked_before: Vec::new(),
        held_before: Vec::new(),
        incidents_before: Incidents::default(),
    }
}

impl PastSession {
    /// The session with one thing changed.
    #[must_use]
    pub fn but(mut self, change: impl FnOnce(&mut Self)) -> Self {
        change(&mut self);
        self
    }
    /// The sets of this drill.
    pub fn of<'a>(&'a mut self, drill: &'a str) -> impl Iterator<Item = &'a mut PastSet> {
        self.sets.iter_mut().filter(move |set| set.drill == drill)
    }
    /// Broken off after this many sets, as the program was closed.
    #[must_use]
    pub fn broken_off_after(self, sets: usize) -> Self {
        self.but(|session| {
            session.sets.truncate(sets);
            session.end = Some(SessionEnd::Closed);
        })
    }
}

impl PastSet {
    /// With a partner.
    pub fn with_partner(&mut self) -> &mut Self {
        self.form = Form::Partner;
        self
    }
}

/// A past of these sessions, with no lock lifted.
pub fn past(sessions: impl IntoIterator<Item = PastSession>) -> Past {
    Past { sessions: sessions.into_iter().collect(), ..Past::default() }
}
