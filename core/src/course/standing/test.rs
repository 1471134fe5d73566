//! What holds of every standing, over years of invented practice in which anything can happen.

use jiff::{SignedDuration, ToSpan, ZonedDateTime};
use proptest::prelude::*;

use super::{Offer, Standing, State, Surroundings};
use crate::course::past::sample::{clean, on, prescription};
use crate::course::past::{Past, PastSession};
use crate::course::progression::{Decision, Reason};
use crate::course::trainee::Trainee;
use crate::health::lock::Lock;
use crate::health::readiness::Item;
use crate::record::{Mishap, SessionEnd, SetEnd, Symptom, WhyStopped, YesNo, YesNoNotSure};

/// What can happen in a practice, in the order of the numbers that are drawn.
const EVENTS: [fn(&mut PastSession); 16] = [
    |_| (),
    |session| (session.end, session.symptom) = (Some(SessionEnd::Unwell), Some(Symptom::Chest)),
    |session| (session.end, session.symptom) = (Some(SessionEnd::Unwell), Some(Symptom::Nerve)),
    |session| (session.end, session.symptom) = (Some(SessionEnd::Unwell), Some(Symptom::Faint)),
    |session| (session.end, session.hurt) = (Some(SessionEnd::Fell), Some(YesNo::Yes)),
    |session| (session.end, session.hurt) = (Some(SessionEnd::Fell), Some(YesNo::No)),
    |session| (session.end, session.hurt) = (Some(SessionEnd::Fell), None),
    |session| session.before_set = vec![(2, Mishap::Fall)],
    |session| session.sets[1].grabbed = Some(YesNo::Yes),
    |session| session.end = Some(SessionEnd::Grabbed),
    |session| session.sets[2].unwell = Some(YesNo::Yes),
    |session| session.locked_before = vec![Lock::HeadKnock],
    |session| session.why_stopped = Some(WhyStopped::Unsteady),
    |session| {
        session.sets.truncate(2);
        session.sets[1].end = Some(SetEnd::Closed);
        session.end = Some(SessionEnd::Closed);
    },
    |session| session.ready = vec![(Item::Ill, YesNoNotSure::Yes)],
    |session| session.sets.clear(),
];

/// So many days and hours after the one before, this happened.
fn history() -> impl Strategy<Value = Vec<(i64, i64, usize)>> {
    // Most practices are clean.
    let event = prop_oneof![3 => Just(0_usize), 1 => 1..EVENTS.len()];
    proptest::collection::vec((0..9_i64, 0..10_i64, event), 0..40)
}

fn past(history: &[(i64, i64, usize)]) -> (Past, ZonedDateTime) {
    let mut now = on(jiff::civil::date(2026, 1, 5), 8);
    let mut past = Past::default();
    for (days, hours, event) in history {
        now = now.checked_add(days.days()).unwrap().checked_add(SignedDuration::from_hours(*hours)).unwrap();
        let session = clean(&prescription(), &now, &[1, 2, 2]).but(EVENTS[*event]);
        let id = format!("session {}", past.sessions.len());
        past.sessions.push(session.but(|session| session.id = id));
    }
    (past, now)
}

fn trainee(past: &Past) -> Trainee {
    Trainee::new(past.clone(), &[], Vec::new())
}

const OF_A_DATE: [&str; 9] =
    ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday", "Next:", "Rest until"];

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    #[test]
    fn nothing_weaker_is_said_beside_something_stronger(history in history(), later in 0..200_i64) {
        let (past, last) = past(&history);
        let now = last.checked_add(SignedDuration::from_hours(later)).unwrap();
        let (known, prescription) = (trainee(&past), prescription());
        let standing = Standing::of(&known, &prescription, &now);
        let offers = standing.offers(&known, &prescription, Surroundings::default());
        let state = standing.state();
        // The strongest of all reasons is the one that is said.
        for other in standing.next.reasons.iter().filter_map(State::of) {
            prop_assert!(state <= other, "{state} is said, and {other} is true");
        }
        let said = standing.said(None);
        prop_assert!(said.ends_with('.') && said.matches(". ").count() == 0, "one sentence: {said}");
        prop_assert!(said.split(' ').count() <= 30, "{said}");
        let lines = standing.lines(None).join(" ");
        let practices = |offer: &Offer| matches!(offer, Offer::Practice { .. } | Offer::Gentler { .. });
        let moves = |offer: &Offer| matches!(offer, Offer::Move { .. });
        let forms = |offer: &Offer| matches!(offer, Offer::Assess(_) | Offer::Track | Offer::Sheet);
        if state == State::ToAnswer {
            prop_assert!(standing.next_day().is_none() && standing.about_steps().is_empty());
        }
        if state.is_locked() {
            prop_assert!(OF_A_DATE.iter().all(|word| !lines.contains(word)), "{lines}");
            prop_assert!(standing.next_day().is_none() && standing.until().is_none());
            prop_assert!(standing.about_steps().is_empty() && offers.contains(&Offer::Clear));
        }
        let is_asked = state == State::ToAnswer;
        let is_free = standing.next.decision == Decision::NotDue
            && standing.next.reasons.iter().any(|reason| matches!(reason, Reason::FreeDay { .. }));
        let is_barred = standing.next.reasons.iter().filter_map(State::of).any(State::is_barred);
        prop_assert_eq!(offers.iter().any(practices), is_asked || state.is_open() && standing.next.is_open());
        prop_assert_eq!(offers.iter().any(moves), !is_asked && is_free);
        prop_assert_eq!(offers.iter().any(forms), !is_asked && !is_barred);
        prop_assert_eq!(is_asked, !is_barred && past.to_ask_about().is_some());
        // While a practice goes on in another window, nothing weaker is said, and nothing else would be accepted.
        let mut busy = known;
        busy.going_on = true;
        let standing = Standing::of(&busy, &prescription, &now);
        prop_assert_eq!(standing.state(), state.min(State::GoingOn));
        prop_assert_eq!(standing.offers(&busy, &prescription, Surroundings::default()), Vec::new());
        prop_assert!(!standing.state().is_some_open() && !standing.state().is_open());
    }

    #[test]
    fn clearing_one_thing_takes_one_line_from_the_therapist_and_opens_nothing_else(history in history()) {
        let (mut past, last) = past(&history);
        let now = last.checked_add(1.hour()).unwrap();
        let prescription = prescription();
        loop {
            let known = trainee(&past);
            let before = Standing::of(&known, &prescription, &now).for_therapist();
            let Some(first) = known.clearable(&now).into_iter().next() else { break };
            past.lifted.push(first.lifted);
            let after = Standing::of(&trainee(&past), &prescription, &now);
            prop_assert_eq!(after.for_therapist().len(), before.len() - 1, "{:?}", before);
            prop_assert!(after.for_therapist().iter().all(|line| before.contains(line)));
            let locks = after.for_therapist().iter().filter(|line| line.starts_with("Locked")).count();
            prop_assert_eq!(after.state().is_locked(), locks > 0);
        }
    }
}
