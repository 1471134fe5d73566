//! How suitability, clearances and balance tests become limits.

use jiff::{SignedDuration, ToSpan, ZonedDateTime};

use super::{Clearable, Retest, Trainee};
use crate::course::past::sample::{at, clean, past, prescription};
use crate::course::past::{Barrier, Lifted, Past};
use crate::course::progression::{Decision, at_steps};
use crate::health::assessment::{Company, Sex, Test};
use crate::health::lock::{Hold, Lock};
use crate::health::readiness::Item;
use crate::health::suitability::{Answer, Outcome, Topic};
use crate::plan::prescription::{Excess, Prescription};
use crate::record::{BalanceRow, Id, Identified, SessionEnd, Stamp, SuitabilityRow, TopicRow};

/// Everything true, but for the first topic.
fn answered(at: &ZonedDateTime, heart: Answer) -> Identified<SuitabilityRow> {
    let answers = Topic::questions(false)
        .map(|topic| TopicRow { topic, answer: if topic == Topic::Heart { heart } else { Answer::True } });
    let at = Stamp::from(at);
    let id = Id::of(at.text());
    Identified {
        id,
        row: SuitabilityRow { at, partner: false, answers: answers.collect(), replaces: Vec::new() },
    }
}

/// The second answers replace the first.
fn then(
    first: &Identified<SuitabilityRow>,
    mut then: Identified<SuitabilityRow>,
) -> Vec<Identified<SuitabilityRow>> {
    then.row.replaces.push(first.id);
    vec![first.clone(), then]
}

/// Rises from a chair in half a minute, at 70: fewer than 10 is below the cut-off for anybody of that age.
fn rises(at: &ZonedDateTime, value: u32) -> BalanceRow {
    BalanceRow {
        at: Stamp::from(at),
        test: Test::ChairStand,
        value: Some(value),
        age: Some(70),
        sex: Some(Sex::Female),
        company: Company::Alone,
        stances: None,
        by_whom: String::new(),
    }
}

fn clinician_lifted(at: &ZonedDateTime) -> Past {
    let lifted = Lifted { session: answered(at, Answer::True).id.to_string(), what: Barrier::Clinician };
    Past { sessions: Vec::new(), lifted: vec![lifted] }
}

fn is_clinician(trainee: &Trainee) -> bool {
    trainee.fitness.suitability.as_ref().is_some_and(|found| found.outcome == Outcome::Clinician)
}

#[test]
fn a_clearance_is_of_the_answers_that_it_was_given_for_and_of_no_later_ones() {
    let (first, later) = (answered(&at(2), Answer::NotTrue), answered(&at(4), Answer::NotTrue));
    assert!(is_clinician(&Trainee::new(Past::default(), &[], vec![first.clone()])));
    let cleared = Trainee::new(clinician_lifted(&at(2)), &[], vec![first.clone()]);
    assert!(!is_clinician(&cleared) && cleared.fitness.bounds().is_some());
    assert!(is_clinician(&Trainee::new(clinician_lifted(&at(2)), &[], then(&first, later.clone()))));
    assert!(!is_clinician(&Trainee::new(clinician_lifted(&at(4)), &[], then(&first, later.clone()))));
    let fine = Trainee::new(Past::default(), &[], then(&later, answered(&at(5), Answer::True)));
    assert!(!is_clinician(&fine), "the last answers count");
    assert_eq!(fine.answered_at(), Some(Stamp::from(&at(5)).text()));
    // Two computers asked, and neither answer knew of the other: each counts, whichever came later.
    for two in [[Answer::NotTrue, Answer::True], [Answer::True, Answer::NotTrue]] {
        let two = vec![answered(&at(4), two[0]), answered(&at(5), two[1])];
        assert!(is_clinician(&Trainee::new(Past::default(), &[], two)));
    }
    let unasked = Trainee::new(Past::default(), &[], Vec::new());
    assert!(unasked.fitness.suitability.is_none() && unasked.answered_at().is_none());
}

#[test]
fn whoever_issued_it_by_name_has_agreed_to_the_answers_and_seen_the_tests_until_then() {
    let text = Prescription::ready_text("gentle").unwrap();
    let named = text.replace("issued_by = \"\"", "issued_by = \"K. L.\"");
    let accepted = format!("{named}\n[suitability]\naccepted_because = \"treated\"\n");
    let read = |text: &str| Prescription::read("test.toml", text.as_bytes()).unwrap();
    let locked = Trainee::new(Past::default(), &[], vec![answered(&at(2), Answer::NotTrue)]);
    assert_eq!(locked.next(&read(text), &at(30)).decision, Decision::Locked);
    assert_eq!(locked.next(&read(&named), &at(30)).decision, Decision::Locked, "a name accepts nothing");
    assert_eq!(locked.next(&read(&accepted), &at(30)).decision, Decision::Hold);
    // It was issued on November 25, 2026.
    let two = |day| {
        let rows = [rises(&at(day), 2), BalanceRow { test: Test::OneLeg, ..rises(&at(day), 10) }];
        Trainee::new(Past::default(), &rows, Vec::new())
    };
    assert_eq!(two(25).fitness.tests_below, 2, "both are below their cut-offs");
    let reasons = |trainee: &Trainee, text: &str| trainee.next(&read(text), &at(30)).reasons;
    assert_eq!(reasons(&two(25), text), reasons(&two(26), text));
    assert_ne!(reasons(&two(25), &named), reasons(&two(25), text), "seen by whoever issued it");
    assert_eq!(reasons(&two(26), &named), reasons(&two(26), text), "taken later");
}

#[test]
fn before_a_day_is_without_its_practice_and_with_its_answers_and_tests() {
    let sessions = [2, 4].map(|day| clean(&prescription(), &at(day), &[1, 2, 2]));
    let rows = [4, 5].map(|day| rises(&at(day), 12));
    let answers = then(&answered(&at(4), Answer::NotTrue), answered(&at(5), Answer::True));
    let trainee = Trainee::new(past(sessions), &rows, answers);
    let counts = |day: i8| {
        let before = trainee.before(at(day).date());
        (
            before.past.sessions.len(),
            before.tests.len(),
            before.answered_at().is_some(),
            is_clinician(&before),
        )
    };
    assert_eq!(counts(3), (1, 0, false, false));
    assert_eq!(counts(4), (1, 1, true, true));
    assert_eq!(counts(5), (2, 2, true, false));
}

#[test]
fn balance_tests_are_offered_at_first_and_again_after_four_weeks() {
    let now = at(2);
    let none = Trainee::default();
    assert_eq!(none.retest(now.date()), Some(Retest::First));
    let once = Trainee::new(Past::default(), &[rises(&now, 12)], Vec::new());
    let again = now.date().saturating_add(28.days());
    assert_eq!(once.retest(again.saturating_sub(1.days())), None);
    assert_eq!(once.retest(again), Some(Retest::Since(again)));
    assert_eq!(once.retest(again.saturating_add(9.days())), Some(Retest::Since(again)));
}

#[test]
fn what_is_asked_for_is_compared_with_the_program_at_the_steps_of_today() {
    let text = Prescription::ready_text("gentle").unwrap();
    let read = |text: &str| Prescription::read("test.toml", text.as_bytes()).unwrap();
    let (program, other) = (read(text), read(&format!("{text}\n# another file\n")));
    let trainee = Trainee::default();
    let steps = trainee.next(&program, &at(30)).steps;
    // The first drill is the warm-up, which stays at its first step.
    let above = |nth, step: u8| step + u8::from(nth > 0);
    let higher: Vec<Option<u8>> =
        steps.iter().enumerate().map(|(nth, step)| step.map(|step| above(nth, step))).collect();
    let harder = |asked: &Prescription, steps: &[Option<u8>]| {
        trainee.harder_than(&program, &at_steps(asked, steps), &at(30))
    };
    assert_eq!(harder(&other, &steps), None);
    let found = harder(&other, &higher);
    assert!(matches!(found, Some(Excess::Range { what: "at a higher step", .. })), "{found:?}");
    // The program itself is at the steps that progression gives, or gentler.
    assert_eq!(harder(&program, &higher), None);
    let typical = Prescription::ready("typical").unwrap();
    assert!(harder(typical, &trainee.next(typical, &at(30)).steps).is_some());
}

#[test]
fn a_clearance_lifts_locks_dates_ahead_and_the_answers_but_no_hold() {
    let told = |day, item| {
        clean(&prescription(), &at(day), &[1, 2, 2]).but(|session| {
            session.ready = vec![(item, item.answer_if(false))];
            session.sets.clear();
        })
    };
    let unwell =
        clean(&prescription(), &at(5), &[1, 2, 2]).but(|session| session.end = Some(SessionEnd::Unwell));
    let (chest, ahead) = (told(2, Item::Chest), clean(&prescription(), &at(20), &[1, 2, 2]));
    let ids = [&chest, &ahead].map(|session| session.id.clone());
    let mut all = past([chest, unwell, ahead]);
    let answers = vec![answered(&at(3), Answer::NotTrue)];
    let now = at(6);
    let clearable = |past: &Past| Trainee::new(past.clone(), &[], answers.clone()).clearable(&now);
    let found = clearable(&all);
    let lifts = |session: &str, what| Lifted { session: session.to_owned(), what };
    let at_answers = answered(&at(3), Answer::True).id.to_string();
    assert_eq!(
        found,
        [
            Clearable { lifted: lifts(&ids[0], Barrier::Lock(Lock::Chest)), day: Some(at(2).date()) },
            Clearable { lifted: lifts(&ids[1], Barrier::Date), day: Some(at(20).date()) },
            Clearable { lifted: lifts(&at_answers, Barrier::Clinician), day: None },
        ]
    );
    all.lifted = found.into_iter().map(|found| found.lifted).collect();
    assert_eq!(clearable(&all), []);
    let cleared = Trainee::new(all, &[], answers);
    let holds =
        |now: &ZonedDateTime| cleared.barriers(now).holds.iter().map(|hold| hold.what).collect::<Vec<_>>();
    assert_eq!(holds(&now), [Hold::Unwell]);
    assert_eq!(holds(&now.saturating_add(SignedDuration::from_hours(48))), []);
}
