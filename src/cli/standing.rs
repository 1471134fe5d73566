//! How a person stands toward practice now: what the journal knows, and what progression makes of it. The refusals that
//! follow from it are worded here, for every command that starts practice.

use jiff::civil::{Date, Time};
use jiff::{SignedDuration, ToSpan, ZonedDateTime};

use super::Failure;
use super::source::{self, Source};
use crate::journal::{BalanceRow, Folder, Journal, SuitabilityRow};
use counterpoise_core::course::past::{Barrier, Lifted, Past};
use counterpoise_core::course::progression::{Decision, Fitness, Next, Reason};
use counterpoise_core::health::assessment::{Dated, below_now, retest_from};
use counterpoise_core::health::lock::Lock;
use counterpoise_core::health::suitability::Suitability;
use counterpoise_core::plan::prescription::Prescription;
use counterpoise_core::record::{Decided, Given};

/// What is known of the person.
pub(super) struct Known {
    /// What was practiced and cleared.
    pub past: Past,
    /// Suitability and balance tests.
    pub fitness: Fitness,
    /// Results of balance tests, oldest first.
    pub tests: Vec<Dated>,
    /// Every time that suitability was answered, oldest first.
    answered: Vec<SuitabilityRow>,
}

impl Known {
    /// Reads the journal.
    pub(crate) fn of(journal: &Journal) -> Result<Self, Failure> {
        Self::with(journal, journal.past()?)
    }

    /// The same, read fast: the rules decide the same from it, and nothing else does.
    pub(crate) fn recent(journal: &Journal) -> Result<Self, Failure> {
        Self::with(journal, journal.recent_past()?)
    }

    fn with(journal: &Journal, past: Past) -> Result<Self, Failure> {
        let tests = journal.balance_tests()?.iter().filter_map(BalanceRow::dated).collect();
        Ok(Self::made_of(past, tests, journal.suitability()?))
    }

    /// What was known before this day's practice: for one that is typed in later.
    pub(crate) fn before(&self, day: Date) -> Self {
        let mut past = self.past.clone();
        past.sessions.retain(|session| session.day < day);
        let tests = self.tests.iter().filter(|test| test.day <= day).cloned().collect();
        let answered = self.answered.iter().filter(|row| row.at.day().is_none_or(|at| at <= day)).cloned();
        Self::made_of(past, tests, answered.collect())
    }

    fn made_of(past: Past, tests: Vec<Dated>, answered: Vec<SuitabilityRow>) -> Self {
        let cleared = |row: &SuitabilityRow| {
            let lifts =
                |lifted: &Lifted| lifted.what == Barrier::Clinician && lifted.session == row.at.text();
            past.lifted.iter().any(lifts)
        };
        let suitability = answered.last().map(|row| suitability(row, cleared(row)));
        let tests_below = below_now(&tests, None);
        Self { past, fitness: Fitness { suitability, tests_below }, tests, answered }
    }

    /// When suitability was answered last, as it was written.
    pub(crate) fn answered_at(&self) -> Option<&str> {
        self.answered.last().map(|row| row.at.text())
    }

    /// What comes next under this prescription.
    pub(crate) fn next(&self, prescription: &Prescription, now: &ZonedDateTime) -> Next {
        // Whoever issued it by name has looked at the tests until then.
        let reviewed = Some(prescription.issued_on()).filter(|_| !prescription.issued_by().is_empty());
        let suitability = match (self.answered.last(), prescription.accepted_because()) {
            (Some(row), Some(_)) => Some(suitability(row, true)),
            _ => self.fitness.suitability.clone(),
        };
        let fitness = Fitness { suitability, tests_below: below_now(&self.tests, reviewed) };
        Next::of(&self.past, prescription, &fitness, now)
    }
}

/// `agreed`: a clinician, or whoever issued the prescription, accepts what the answers say.
fn suitability(row: &SuitabilityRow, agreed: bool) -> Suitability {
    let answers: Vec<_> = row.answers.iter().map(|row| (row.topic, row.answer)).collect();
    Suitability::of(&answers, row.partner, agreed)
}

/// The offer of balance tests, where the last lies four weeks back or there was none. It never blocks.
pub(super) fn retest(known: &Known, today: Date) -> Option<String> {
    match retest_from(&known.tests) {
        None => Some("Balance tests, if you like: counterpoise assess".to_owned()),
        Some(from) if from <= today => {
            Some(format!("The balance tests can be done again, since {from}: counterpoise assess"))
        }
        Some(_) => None,
    }
}

/// Whether this ISO week has no practice yet, and an earlier one had.
pub(super) fn is_new_week(past: &Past, today: Date) -> bool {
    let week = |day: Date| (day.iso_week_date().year(), day.iso_week_date().week());
    let mut practiced =
        past.sessions.iter().filter(|session| session.is_practice()).map(|session| session.day);
    let earlier = practiced.clone().any(|day| week(day) < week(today));
    earlier && !practiced.any(|day| week(day) == week(today))
}

/// The prescription at these steps.
pub(super) fn at_steps(prescription: &Prescription, steps: &[Option<u8>]) -> Prescription {
    prescription.at_steps(steps).expect("progression stays within the prescription, as its tests prove")
}

/// Refuses what is harder than the program in use. `today`: what was asked for, at the steps of today.
///
/// # Errors
/// If it is harder, or the program in use cannot be read: then nobody knows what is gentler.
pub(super) fn within_program(
    folder: &Folder,
    known: &Known,
    today: &Prescription,
    now: &ZonedDateTime,
) -> Result<(), Failure> {
    let Some(Source { prescription: program, .. }) = source::in_use(folder)? else { return Ok(()) };
    if program.digest() == today.digest() {
        return Ok(());
    }
    let steps = known.next(&program, now).steps;
    today.excess_over(&at_steps(&program, &steps)).map_or(Ok(()), |harder| {
        Err(Failure::new(
            format!("\"{}\" asks for {harder} (\"{}\")", today.title(), program.title()),
            "Practice your program: counterpoise practice. If your therapist gave you a new one: counterpoise use FILE",
        ))
    })
}

/// What is kept of the decision with a session.
pub(super) fn decided(
    next: &Next,
    prescription: &Prescription,
    past: &Past,
    gentler: bool,
    sets_whole: usize,
) -> Decided {
    let given = prescription.drills().iter().zip(&next.steps);
    Decided {
        decision: next.then,
        reasons: next.reasons.iter().map(ToString::to_string).collect(),
        gentler,
        first_set: next.first_set,
        sets_whole: sets_whole as u8,
        seen_before: past.latest(),
        given: given
            .filter_map(|(plan, step)| {
                let drill = plan.drill().name().to_owned();
                Some(Given { drill, form: plan.form(), step: (*step)? })
            })
            .collect(),
    }
}

/// A note where the file in use is not the one that came into use: somebody changed it since.
pub(super) fn altered(journal: &Journal, folder: &Folder) -> Result<Option<String>, Failure> {
    Ok(journal.altered(folder)?.map(|altered| format!("Note: {altered}.")))
}

/// The moment that `--on` means: now on this day, and the end of any other.
pub(super) fn moment(on: Option<Date>, now: &ZonedDateTime) -> ZonedDateTime {
    let Some(day) = on.filter(|day| *day != now.date()) else { return now.clone() };
    // Counted back from the next day: one with a change of clocks has 23 or 25 hours.
    let next = day.saturating_add(1.days()).to_datetime(Time::MIN).to_zoned_datetime(now.time_zone().clone());
    let last = SignedDuration::from_millis(1);
    next.map_or_else(|_| now.clone(), |midnight| midnight.saturating_sub(last))
}

/// Why there is no practice now, and what to do: `Error:` and `Hint:`.
pub(super) fn refusal(next: &Next, emergency: Option<&str>) -> Failure {
    let first = next.reasons.first().map(ToString::to_string).unwrap_or_default();
    let (fact, advice) = match first.split_once(". ") {
        Some((fact, advice)) => (fact.to_owned(), advice.to_owned()),
        None => (first.trim_end_matches('.').to_owned(), String::new()),
    };
    let more = next.reasons.iter().skip(1);
    let more = more.filter(|reason| matches!(reason, Reason::Locked { .. } | Reason::Holding { .. }));
    let fact =
        std::iter::once(fact).chain(more.map(|reason| until_stop(&reason.to_string()))).collect::<Vec<_>>();
    let mut hint = vec![advice];
    match next.decision {
        Decision::Locked => {
            let urgent =
                |reason: &Reason| matches!(reason, Reason::Locked { what } if Lock::is_emergency(*what));
            if next.reasons.iter().any(urgent) {
                hint.extend(emergency.map(|number| format!("Your emergency number: {number}.")));
            }
            hint.push(
                "Once a clinician has cleared you: counterpoise clear --by WHO --reason WHY".to_owned(),
            );
        }
        Decision::NotDue if next.can_be_moved() => {
            hint.push("To move the next practice to today: counterpoise practice --move".to_owned());
        }
        Decision::Rest if next.reasons.iter().any(|reason| matches!(reason, Reason::ClockBack { .. })) => {
            hint.push("If they are right now: counterpoise clear --by WHO --reason WHY".to_owned());
        }
        _ => {}
    }
    hint.retain(|part| !part.is_empty());
    if hint.is_empty() {
        hint.push("See what is planned: counterpoise program".to_owned());
    }
    Failure::new(fact.join("; "), hint.join(" "))
}

fn until_stop(sentence: &str) -> String {
    sentence.split(". ").next().unwrap_or_default().trim_end_matches('.').to_owned()
}

#[cfg(test)]
mod test {
    use super::moment;
    use jiff::ZonedDateTime;
    use jiff::civil::date;

    #[test]
    fn a_week_is_new_until_its_first_practice_and_the_first_of_all_is_none() {
        use super::is_new_week;
        use counterpoise_core::course::past::sample::{clean, on, past, prescription};
        let of = |days: &[&str]| {
            past(days.iter().map(|day| clean(&prescription(), &on(day.parse().unwrap(), 10), &[1, 2, 2])))
        };
        let is_new = |days: &[&str], today: &str| is_new_week(&of(days), today.parse().unwrap());
        assert!(!is_new(&[], "2026-11-02"), "there is no week before it");
        // Monday the 2nd to Sunday the 8th.
        assert!(!is_new(&["2026-11-02"], "2026-11-08"));
        assert!(is_new(&["2026-11-08"], "2026-11-09"));
        // 2026-W53 goes into January.
        assert!(!is_new(&["2026-12-28"], "2027-01-03") && is_new(&["2027-01-03"], "2027-01-04"));
    }

    #[test]
    fn a_day_means_its_end_and_today_means_now() {
        let now: ZonedDateTime = "2026-11-02T09:30:00-05:00[America/New_York]".parse().unwrap();
        assert_eq!(moment(None, &now), now);
        assert_eq!(moment(Some(date(2026, 11, 2)), &now), now);
        let later = moment(Some(date(2026, 11, 4)), &now);
        assert_eq!(later.to_string(), "2026-11-04T23:59:59.999-05:00[America/New_York]");
        // Clocks there go on by an hour on March 8 and back on November 1 (IANA tz database): 23 and 25 hours.
        for (day, end) in
            [(date(2026, 3, 8), "T23:59:59.999-04:00"), (date(2026, 11, 1), "T23:59:59.999-05:00")]
        {
            let last = moment(Some(day), &now);
            assert_eq!((last.date(), last.to_string().contains(end)), (day, true), "{last}");
        }
    }
}
