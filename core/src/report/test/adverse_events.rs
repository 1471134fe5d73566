//! Falls, grabs, near falls and symptoms: each with its day, place and what followed, first in every form, and none of them
//! leaves the report before it is cleared.

use super::{material, nov, report, said, session};
use crate::blocks::Block;
use crate::course::past::{Barrier, Lifted, PastSession};
use crate::health::lock::{Lock, Restriction};
use crate::health::readiness::Item;
use crate::health::yes_no::YesNoNotSure::{No, NotSure, Yes};
use crate::record::{Answer, Mishap, Numbered, SessionEnd, SetEnd, Symptom, Times, YesNo};
use crate::report::{Cleared, Kind, Material, Told, blocks, summary};

fn fell(day: i8) -> PastSession {
    session(nov(day)).but(|session| {
        session.sets.truncate(2);
        session.sets[1].end = Some(SetEnd::Fell);
        (session.end, session.hurt) = (Some(SessionEnd::Fell), Some(YesNo::Yes));
    })
}

/// Kind, place, words, and what followed of each.
fn told(material: &Material) -> Vec<String> {
    let incidents = report(material, nov(2), nov(30)).incidents;
    let one = |one: &crate::report::Incident| {
        let followed: Vec<String> = one.followed.iter().map(crate::report::Consequence::words).collect();
        format!("{} {} | {} | {} | {}", one.day.day(), one.kind, one.place, one.what, followed.join("; "))
    };
    incidents.iter().map(one).collect()
}

#[test]
fn each_is_listed_with_its_day_its_place_what_followed_and_whether_it_was_cleared() {
    let grabbed = session(nov(6)).but(|session| session.sets[2].grabbed = Some(YesNo::Yes));
    let before_set = session(nov(8)).but(|session| session.before_set = vec![(4, Mishap::Fall)]);
    let unwell = session(nov(10)).but(|session| {
        session.sets[0].unwell = Some(YesNo::Yes);
        (session.end, session.symptom) = (Some(SessionEnd::Unwell), Some(Symptom::Chest));
    });
    let at_home = session(nov(12)).but(|session| {
        session.sets.clear();
        session.end = Some(SessionEnd::NotToday);
        session.ready = vec![
            (Item::Fall, NotSure),
            (Item::FallHurt, No),
            (Item::FallRecent, Yes),
            (Item::Dizzy, Yes),
            (Item::DizzyPassed, Yes),
        ];
    });
    let mut material = material(vec![fell(4), grabbed, before_set, unwell, at_home]);
    material.details[1].weekly = vec![Answer::NearFalls(Times::numbered(2))];
    let first = material.past.sessions[0].id.clone();
    for what in [Barrier::Lock(Lock::FallHurt), Barrier::Restriction(Restriction::Fall)] {
        material.past.lifted.push(Lifted { session: first.clone(), what });
        material.cleared.push(Cleared { session: first.clone(), what, on: nov(5), by: "K. L.".to_owned() });
    }
    assert_eq!(
        told(&material),
        [
            "4 fall | set 2, counter-reach, step 2 | fell | locked: a fall that may have hurt (cleared by K. L. on \
             2026-11-05); limits after a fall (cleared by K. L. on 2026-11-05); one step lower (ends by itself)",
            "6 grab | daily life | nearly fell in the last week: twice | ",
            "6 grab | set 3, counter-reach, step 2 | grabbed hold or nearly fell | held for 48 hours: grabbing hold or \
             nearly falling, alone (ends by itself); one step lower (ends by itself)",
            "8 fall | before set 4 | fell | locked: a fall that may have hurt (not cleared); limits after a fall (not \
             cleared); one step lower (ends by itself)",
            "10 unwell | set 1, counter-shift, step 1 | felt unwell: chest pain or pressure | locked: chest pain or \
             pressure (not cleared); held for 48 hours: feeling unwell in a practice (ends by itself); one step lower \
             (ends by itself)",
            "12 fall | daily life | fell | held for 48 hours: a fall without injury (ends by itself); limits after a \
             fall (not cleared); one step lower (ends by itself)",
            "12 unwell | daily life | reported before practice: dizzy: yes | held for 48 hours: dizziness that passed \
             (ends by itself); one step lower (ends by itself)",
        ]
    );
}

#[test]
fn a_fall_before_the_period_stands_in_the_report_until_everything_of_it_is_cleared() {
    let mut material = material(vec![fell(4), session(nov(20))]);
    let later = |material: &Material| report(material, nov(18), nov(30)).incidents;
    assert_eq!(later(&material)[0].day, nov(4));
    let id = material.past.sessions[0].id.clone();
    material.past.lifted.push(Lifted { session: id.clone(), what: Barrier::Lock(Lock::FallHurt) });
    assert_eq!(later(&material).len(), 1, "the limits after it are not cleared");
    material.past.lifted.push(Lifted { session: id, what: Barrier::Restriction(Restriction::Fall) });
    assert!(later(&material).is_empty());
    let report = report(&material, nov(2), nov(30));
    assert_eq!(report.incidents.len(), 1, "it belongs to that period, cleared or not");
}

#[test]
fn they_stand_before_everything_else_in_the_text_and_a_later_symptom_hides_no_fall() {
    let unwell = session(nov(10)).but(|session| {
        session.sets[0].unwell = Some(YesNo::Yes);
        (session.end, session.symptom) = (Some(SessionEnd::Unwell), Some(Symptom::Dizzy));
    });
    let mut report = report(&material(vec![fell(4), unwell]), nov(2), nov(30));
    report.barred = vec!["Locked since 2026-11-04, not cleared: a fall that may have hurt.".to_owned()];
    let first = said(&report);
    assert!(
        first.starts_with(
            "Falls, grabs, near falls, symptoms: fall 1, symptom 1; not asked or not said after 7 sets. The last fall: \
             2026-11-04, fell (set 2, counter-reach, step 2): locked: a fall that may have hurt (not cleared); limits \
             after a fall (not cleared). The last symptom: 2026-11-10, felt unwell: dizzy (set 1, counter-shift, step 1)."
        ),
        "{first}"
    );
    let blocks = blocks(&report);
    let Block::Heading(heading) = &blocks[1] else { panic!("{:?}", blocks[1]) };
    assert_eq!(heading, "Falls, grabs, near falls and symptoms", "right after the title");
    assert!(matches!(blocks[2], Block::Table(_)));
    assert!(!summary(&report)[0].is_optional);
}

#[test]
fn a_set_that_was_not_asked_about_is_never_taken_for_fine() {
    let mut material = material(vec![session(nov(4))]);
    let sets = material.details[0].sets.iter_mut();
    let all = [
        (Told::No, Told::No),
        (Told::Yes, Told::No),
        (Told::NotAsked, Told::NotAsked),
        (Told::No, Told::NotSaid),
        (Told::NotSaid, Told::Yes),
    ];
    for (set, (grab, unwell)) in sets.zip(all) {
        (set.grab, set.unwell) = (grab, unwell);
    }
    let report = report(&material, nov(2), nov(30));
    let known: Vec<_> =
        report.unanswered.iter().map(|one| (one.place.as_str(), one.grab, one.unwell)).collect();
    assert_eq!(
        known,
        [
            ("set 3, counter-reach, step 2", Told::NotAsked, Told::NotAsked),
            ("set 4, quick-steps, step 2", Told::No, Told::NotSaid),
            ("set 5, quick-steps, step 2", Told::NotSaid, Told::Yes),
        ]
    );
    let first = said(&report);
    assert!(first.contains("none reported; not asked or not said after 3 sets."), "{first}");
    assert_eq!(report.incidents.iter().filter(|one| one.kind == Kind::Fall).count(), 0);
}
