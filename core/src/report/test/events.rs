//! Every end of a set and of a session is an event, or is told by another one; locks and holds are told although lifted.

use super::{material, nov, report, session};
use crate::course::past::{Barrier, Lifted, PastSession};
use crate::health::lock::Lock;
use crate::health::readiness::Item;
use crate::health::yes_no::YesNoNotSure::{No, Yes};
use crate::record::{LeftOut, Mishap, SessionEnd, SetEnd, Symptom, YesNo};
use crate::report::{Kind, Material};

/// Kinds and words of the events of November.
fn told(material: &Material) -> Vec<(Kind, String)> {
    let events = report(material, nov(2), nov(30)).events;
    events.into_iter().map(|event| (event.kind, event.what)).collect()
}

fn of(session: PastSession) -> Vec<(Kind, String)> {
    told(&material(vec![session]))
}

#[test]
fn a_try_out_is_told_and_counts_as_no_practice() {
    let tried = session(nov(2)).but(|session| session.tried_out = true);
    let report = report(&material(vec![tried]), nov(1), nov(30));
    assert_eq!((report.dose.days, report.dose.sets, report.review.sessions), (0, 0, 0));
    assert_eq!(report.events[0].what, "supervised try-out, not counted as practice");
}

#[test]
fn events_are_dated_and_a_lifted_lock_is_still_told() {
    let fell = session(nov(4)).but(|session| {
        session.sets[1].end = Some(SetEnd::Fell);
        (session.end, session.hurt) = (Some(SessionEnd::Fell), Some(YesNo::Yes));
    });
    let not_today = session(nov(12)).but(|session| {
        session.sets.clear();
        session.end = Some(SessionEnd::NotToday);
        session.ready = vec![(Item::Sore, Yes), (Item::Light, No), (Item::Night, No)];
    });
    let unwell = session(nov(16)).but(|session| {
        session.sets[0].unwell = Some(YesNo::Yes);
        (session.end, session.symptom) = (Some(SessionEnd::Unwell), Some(Symptom::Dizzy));
    });
    let mut material = material(vec![fell, not_today, unwell]);
    let locked = material.past.sessions[0].id.clone();
    material.past.lifted = vec![Lifted { session: locked, what: Barrier::Lock(Lock::FallHurt) }];
    material.clearances = vec![(nov(10), "K. L.".to_owned(), "no injury".to_owned())];
    material.changes = vec![
        (nov(1), "prescription in use: a.toml".to_owned()),
        (nov(11), "prescription in use: b.toml".to_owned()),
    ];
    let events = report(&material, nov(2), nov(30)).events;
    let said: Vec<String> =
        events.iter().map(|event| format!("{} {}: {}", event.day.day(), event.kind, event.what)).collect();
    assert_eq!(
        said,
        [
            "4 fall: fell (set 2, counter-reach, step 2)",
            "4 lock: locked: a fall that may have hurt",
            "10 clearance: cleared by K. L.: no injury",
            "11 change: prescription in use: b.toml",
            "12 told: reported before practice: sore: yes",
            "12 not today: not today (2 reasons)",
            "16 unwell: felt unwell: dizzy",
            "16 hold: held for 48 hours: feeling unwell in a practice",
        ]
    );
}

#[test]
fn every_end_of_a_set_is_told_once() {
    for end in SetEnd::ALL {
        // In the middle of a session that came to its end, and as the last of one.
        let middle = of(session(nov(4)).but(|session| session.sets[1].end = Some(*end)));
        let stopped_with = match end {
            SetEnd::Closed => SessionEnd::Closed,
            SetEnd::Interrupted => SessionEnd::Interrupted,
            SetEnd::Fell => SessionEnd::Fell,
            SetEnd::Grabbed => SessionEnd::Grabbed,
            _ => SessionEnd::StoppedOther,
        };
        let last = of(session(nov(4)).but(|session| {
            session.sets.truncate(2);
            session.sets[1].end = Some(*end);
            session.end = Some(stopped_with);
        }));
        let count = |events: &[(Kind, String)], kind| events.iter().filter(|(of, _)| *of == kind).count();
        let (in_middle, at_last) = match end {
            SetEnd::Completed => (None, Kind::Stop),
            SetEnd::Fell => (Some(Kind::Fall), Kind::Fall),
            SetEnd::Grabbed => (Some(Kind::Grab), Kind::Grab),
            _ => (Some(Kind::Stop), Kind::Stop),
        };
        let all: usize = [Kind::Stop, Kind::Fall, Kind::Grab].iter().map(|kind| count(&middle, *kind)).sum();
        assert_eq!(all, usize::from(in_middle.is_some()), "{end}: {middle:?}");
        assert!(in_middle.is_none_or(|kind| count(&middle, kind) == 1), "{end}: {middle:?}");
        let of_session =
            [SetEnd::Refused, SetEnd::PausedTooLong, SetEnd::SoundLost, SetEnd::Slept, SetEnd::Halted]
                .contains(end);
        assert_eq!(count(&last, at_last), if of_session { 2 } else { 1 }, "{end}: {last:?}");
    }
}

#[test]
fn every_end_of_a_session_is_told_unless_it_came_to_its_end() {
    for end in SessionEnd::ALL {
        let events = of(session(nov(4)).but(|session| {
            session.sets.truncate(2);
            (session.end, session.hurt) = (Some(*end), Some(YesNo::No));
        }));
        let first = match end {
            SessionEnd::Finished => {
                assert!(events.is_empty(), "{events:?}");
                continue;
            }
            SessionEnd::Unwell => (Kind::Unwell, "felt unwell: not said".to_owned()),
            SessionEnd::Fell => (Kind::Fall, "fell (after set 2)".to_owned()),
            SessionEnd::Grabbed => (Kind::Grab, "grabbed hold or nearly fell (after set 2)".to_owned()),
            SessionEnd::NotToday => (Kind::NotToday, "not today (0 reasons)".to_owned()),
            SessionEnd::StoppedOther
            | SessionEnd::StoppedUnsteady
            | SessionEnd::NotAnswered
            | SessionEnd::Closed
            | SessionEnd::Interrupted => (Kind::Stop, format!("{end} (after set 2)")),
        };
        assert_eq!(events[0], first);
    }
    let pages = of(session(nov(4)).but(|session| {
        session.sets.clear();
        session.end = Some(SessionEnd::Closed);
    }));
    assert_eq!(pages, [(Kind::Stop, "program closed (before the first set)".to_owned())]);
    assert!(of(session(nov(4)).but(|session| session.end = None)).is_empty(), "it goes on");
}

#[test]
fn what_was_left_out_or_happened_between_sets_is_told() {
    let mut material = material(vec![session(nov(4)).but(|session| {
        session.sets.truncate(2);
        (session.sets_planned, session.sets_whole) = (3, Some(5));
        session.sets[1].advised_lower = true;
        (session.end, session.hurt) = (Some(SessionEnd::Fell), Some(YesNo::No));
    })]);
    material.details[0].left_out =
        vec![(2, LeftOut::Refused), (3, LeftOut::Grabbed), (4, LeftOut::SoundNotHeard)];
    material.past.sessions[0].before_set = vec![(3, Mishap::Grab), (5, Mishap::Fall)];
    let said: Vec<String> =
        told(&material).into_iter().map(|(kind, what)| format!("{kind}: {what}")).collect();
    assert_eq!(
        said,
        [
            "left out: 3 of 5 sets were chosen at the start",
            "advice: one step lower was advised (set 2, counter-reach, step 2)",
            "grab: grabbed or steadied (before set 3)",
            "fall: fell (before set 5)",
            "left out: set 2 left out: declined",
            "left out: set 3 left out: after a grab",
            "left out: set 4 left out: the sound was not heard",
            "hold: held for 48 hours: a fall without injury",
        ]
    );
}

#[test]
fn a_hold_is_told_where_nothing_is_locked_and_no_correction_takes_it_away() {
    let holds = |change: fn(&mut PastSession)| {
        let events = of(session(nov(4)).but(change));
        events.into_iter().filter(|(kind, _)| *kind == Kind::Hold).map(|(_, what)| what).collect::<Vec<_>>()
    };
    assert_eq!(
        holds(|session| session.sets[1].grabbed = Some(YesNo::Yes)),
        ["held for 48 hours: grabbing hold or nearly falling, alone"]
    );
    assert_eq!(
        holds(|session| session.ready = vec![(Item::Dizzy, Yes), (Item::DizzyPassed, Yes)]),
        ["held for 48 hours: dizziness that passed"]
    );
    let locked = |session: &mut PastSession| {
        session.sets[1].grabbed = Some(YesNo::Yes);
        (session.end, session.symptom) = (Some(SessionEnd::Unwell), Some(Symptom::Chest));
    };
    assert!(holds(locked).is_empty(), "it is locked until somebody clears it");
    let aside = |session: &mut PastSession| {
        session.sets[1].grabbed = Some(YesNo::Yes);
        session.discounted = true;
    };
    assert_eq!(holds(aside).len(), 1, "it stood all the same");
}
