//! The pages of readiness within a session: what their keys lead to, and what is kept.

use super::Walk;
use crate::draw::schedule::{Scheduler, Seed};
use crate::health::lock::Lock;
use crate::health::readiness::{Item, Readiness};
use crate::plan::prescription::Prescription;
use crate::practice::session::screen::Body;
use crate::practice::session::{Event, Preparation, Session};
use crate::record::{Answer, Decided, Decision, Entry, Given, Question, SessionEnd, YesNo};
use crate::units::Millis;

/// The cautions and the health pages, up to the first page of readiness.
const TO_READY: &str = "\n\naa";

fn walk() -> Walk {
    let mut walk = Walk::new(None);
    walk.keys(TO_READY);
    walk
}

fn answers(walk: &Walk) -> Vec<(Item, bool)> {
    let kept = walk.entries().into_iter().filter_map(|entry| match entry {
        Entry::Readied { rows } => Some(rows.iter().map(|row| (row.item, row.is_true)).collect()),
        _ => None,
    });
    let kept: Vec<Vec<_>> = kept.collect();
    assert!(kept.len() <= 1, "kept once");
    kept.into_iter().next().unwrap_or_default()
}

/// From "something is not" on: X at these sentences, A at all others of the page, and Y where it is asked again.
fn not_true(walk: &mut Walk, not: &[Item]) {
    walk.keys("x");
    while let Some(item) = walk.sentence() {
        if not.contains(&item) {
            walk.keys("x");
            if matches!(walk.body(), Body::Question { ask, .. } if ask.ends_with("Is that right?")) {
                walk.keys("y");
            }
        } else {
            walk.keys("a");
        }
    }
}

fn page(walk: &Walk) -> (String, String) {
    match walk.body() {
        Body::Page { title, text, .. } => (title, text.join("\n")),
        other => panic!("{other:?}"),
    }
}

#[test]
fn a_page_is_read_aloud_at_a_key_and_an_answer_cuts_it_off() {
    let mut walk = Walk::new(Some("a device"));
    walk.keys(TO_READY).keys("v");
    assert_eq!((walk.said("ready.body.1"), walk.said("ready.body.6"), walk.said("ready.intro")), (1, 1, 1));
    assert_eq!(walk.said("ready.room.1"), 0);
    walk.keys("a");
    assert_eq!(walk.effects.last(), Some(&crate::practice::session::Effect::Hush));
    walk.keys("v");
    assert_eq!((walk.said("ready.room.1"), walk.said("ready.intro")), (1, 2));
    // One sentence by itself is short: the key means nothing there.
    walk.keys("xv");
    assert_eq!(walk.said("ready.intro"), 2);
}

#[test]
fn all_true_is_kept_sentence_by_sentence_and_goes_on() {
    let mut walk = walk();
    walk.keys("aa");
    let kept = answers(&walk);
    assert!(kept.iter().all(|(_, yes)| *yes) && kept.len() > 15);
    let ready = Entry::answered(None, Answer::Ready(Some(YesNo::Yes)));
    assert_eq!(walk.entries().iter().filter(|entry| ***entry == ready).count(), 1);
    assert!(matches!(walk.body(), Body::Page { title, .. } if title.starts_with("Warm-up")));
}

#[test]
fn what_would_lock_is_asked_once_more() {
    let mut walk = walk();
    walk.keys("xx");
    let Body::Question { ask, .. } = walk.body() else { panic!("{:?}", walk.body()) };
    assert_eq!(ask, "Not true: \"My chest does not hurt or feel tight.\" Is that right?");
    walk.keys("n");
    assert_eq!(walk.sentence(), Some(Item::Chest), "a wrong key is taken back");
    assert!(walk.ends().is_empty());
    walk.keys("xy");
    assert_eq!(walk.ends(), [SessionEnd::NotToday]);
    assert_eq!(Readiness::of(&answers(&walk)).locks, [Lock::Chest]);
    let Body::Emergency { number, text } = walk.body() else { panic!("{:?}", walk.body()) };
    assert_eq!(number.as_deref(), Some("112"));
    assert!(text[0].starts_with("Your chest hurts or feels tight."), "{text:?}");
    assert_eq!(text[1], "Sit down. If somebody is near, call out for them.");
}

#[test]
fn not_today_says_why_and_whom_to_call() {
    let mut walk = walk();
    not_true(&mut walk, &[Item::Fall, Item::FallPast]);
    assert_eq!(walk.ends(), [SessionEnd::NotToday]);
    assert_eq!(
        page(&walk),
        (
            "Not today".to_owned(),
            "You have had a fall. Rest for 48 hours, and tell your therapist.".to_owned()
        )
    );
}

/// Both sessions are drawn from the same seed.
fn with_a_gentler_one(given: u8, lower: u8) -> Walk {
    let prescription = Prescription::ready("gentle").unwrap();
    let at = |step| prescription.at_steps(&[Some(1), Some(step)]).unwrap();
    let gentler = Scheduler::new(&at(lower)).unwrap();
    let schedule = gentler.draw(Seed::from_bytes([41; 32]));
    let fit = std::cell::Cell::new(Some(Preparation {
        gentler: Some((gentler, schedule)),
        ..Preparation::default()
    }));
    let mut walk = Walk::over(&at(given), "lower", |session| session.prepare(fit.take().unwrap()));
    walk.on(Event::Sound { device: None });
    walk
}

#[test]
fn a_bad_night_is_one_step_lower_today() {
    let mut walk = with_a_gentler_one(3, 2);
    walk.keys(TO_READY);
    not_true(&mut walk, &[Item::Night]);
    walk.keys("a");
    let (title, text) = page(&walk);
    assert_eq!(title, "Gentler today");
    assert!(text.starts_with("You did not sleep well. Take it one step lower today."), "{text}");
    walk.keys("\n.y.").wait(Millis(65_100)).keys("n021n").wait(Millis(60_000)).keys("..").wait(Millis(6_000));
    let steps: Vec<(String, u8)> = walk
        .entries()
        .into_iter()
        .filter_map(|entry| match entry {
            Entry::SetBegun { set, .. } => Some((set.drill.clone(), set.step)),
            _ => None,
        })
        .collect();
    assert_eq!(steps, [("counter-shift".to_owned(), 1), ("counter-reach".to_owned(), 2)]);
}

#[test]
fn all_true_stays_at_the_step_that_was_given() {
    let mut walk = with_a_gentler_one(3, 2);
    walk.keys(TO_READY).keys("aa.y.").wait(Millis(65_100)).keys("n021n").wait(Millis(60_000)).keys("..");
    walk.wait(Millis(6_000));
    let last = walk.entries().into_iter().rev().find_map(|entry| match entry {
        Entry::SetBegun { set, .. } => Some(set.step),
        _ => None,
    });
    assert_eq!(last, Some(3));
}

#[test]
fn whoever_leaves_in_the_middle_has_said_what_was_said() {
    let mut walk = walk();
    walk.keys("x");
    while walk.sentence() != Some(Item::Fall) {
        walk.keys("a");
    }
    walk.keys("xys");
    assert_eq!(walk.ends(), [SessionEnd::StoppedOther]);
    assert_eq!(answers(&walk).last(), Some(&(Item::Fall, false)));
    // A fall of which it was not said that it did no harm.
    assert_eq!(Readiness::of(&answers(&walk)).locks, [Lock::FallHurt]);
}

#[test]
fn what_was_decided_is_kept_first_and_who_answered_about_suitability_is_not_asked_about_health() {
    let decided = Decided {
        decision: Decision::Hold,
        reasons: vec!["One clean session at this step.".to_owned()],
        gentler: false,
        first_set: 1,
        sets_whole: 3,
        seen_before: None,
        given: vec![Given {
            drill: "counter-reach".into(),
            form: crate::plan::drill::Form::Alone,
            step: 1,
            ladder: None,
        }],
    };
    let fit =
        Preparation { decided: Some(decided.clone()), suitability_known: true, ..Preparation::default() };
    let fit = std::cell::Cell::new(Some(fit));
    let prescription = Prescription::ready("gentle").unwrap();
    let with = |session: Session| session.prepare(fit.take().unwrap());
    let mut walk = Walk::over(prescription, "lower", with);
    walk.on(Event::Sound { device: None });
    walk.keys("\n\n");
    assert!(matches!(walk.entries()[..], [Entry::SessionBegun(_), Entry::Decided(kept)] if *kept == decided));
    assert!(matches!(walk.body(), Body::Page { title, .. } if title == "Ready today, page 1 of 2"));
}

#[test]
fn only_a_step_without_a_resting_hand_asks_for_somebody_in_the_house() {
    let lines = |step| {
        let prescription = Prescription::ready("gentle").unwrap();
        let today = prescription.at_steps(&[Some(1), Some(step)]).unwrap();
        let mut walk = Walk::over(&today, "lower", |session| session);
        walk.on(Event::Sound { device: None });
        walk.keys(TO_READY).keys("a");
        let Body::Page { items, .. } = walk.body() else { panic!("{:?}", walk.body()) };
        items
    };
    let asked = |lines: &[String]| lines.iter().any(|line| line == "Somebody else is in the house.");
    assert!(!asked(&lines(2)), "one hand rests");
    assert!(asked(&lines(3)), "fingertips");
}

#[test]
fn at_the_first_practice_of_a_week_the_week_is_asked_about_by_one_key_each() {
    let mut walk = Walk::new(None);
    let weekly = Preparation { weekly: true, ..Preparation::default() };
    walk.session = walk.session.map(|session| session.prepare(weekly));
    walk.keys(TO_READY).keys("aa");
    for (key, begins) in
        [('1', "In the last week"), ('4', "How sure of your balance"), ('0', "How sore were you")]
    {
        let Body::Question { ask, .. } = walk.body() else { panic!("{:?}", walk.body()) };
        assert!(ask.starts_with(begins), "{ask}");
        walk.keys(&key.to_string());
    }
    assert!(!matches!(walk.body(), Body::Question { .. }), "and then the practice");
    let said: Vec<_> = walk
        .entries()
        .into_iter()
        .filter_map(|entry| match entry {
            Entry::Answered(row)
                if row.set.is_none() && Question::WEEKLY.contains(&row.answer.question()) =>
            {
                Some((row.answer.question(), row.answer.number()))
            }
            _ => None,
        })
        .collect();
    let expected =
        [(Question::NearFalls, Some(1)), (Question::Confidence, Some(4)), (Question::Soreness, Some(0))];
    assert_eq!(said, expected);
}
