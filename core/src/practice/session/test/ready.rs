//! The questions of readiness within a session: what their keys lead to, and what is kept.

use super::Walk;
use crate::draw::schedule::{Scheduler, Seed};
use crate::health::lock::Lock;
use crate::health::readiness::{Asked, Item, Readiness, Today};
use crate::health::yes_no::YesNoNotSure::{self, No, NotSure, Yes};
use crate::plan::prescription::Prescription;
use crate::practice::session::screen::Body;
use crate::practice::session::{Event, KnownFall, Preparation, Session};
use crate::record::{Answer, Decided, Decision, Entry, Given, Question, SessionEnd, YesNo};
use crate::units::Millis;

/// The cautions and the health pages, up to the first question of readiness.
const TO_READY: &str = "\n\nnn";

/// The good answer to everything that is asked on a day like any other.
const READY: &str = "nnnnnnny";

fn walk() -> Walk {
    let mut walk = Walk::new(None);
    walk.keys(TO_READY);
    walk
}

fn answers(walk: &Walk) -> Vec<(Item, YesNoNotSure)> {
    let kept = walk.entries().into_iter().filter_map(|entry| match entry {
        Entry::Readied { rows } => Some(rows.iter().map(|row| (row.item, row.answer)).collect()),
        _ => None,
    });
    let kept: Vec<Vec<_>> = kept.collect();
    assert!(kept.len() <= 1, "kept once");
    kept.into_iter().next().unwrap_or_default()
}

/// The good answer to everything but these items, which get the other one, and Y where it is asked again.
fn answer_all_but(walk: &mut Walk, bad: &[Item]) {
    while let Some(asked) = walk.asked() {
        let answer = match asked {
            Asked::One(item) => item.answer_if(!bad.contains(&item)),
            Asked::Page(page) if page.items(Today::default()).iter().any(|item| bad.contains(item)) => {
                NotSure
            }
            Asked::Page(page) => page.good(),
        };
        walk.keys(key(answer));
        if is_asked_again(walk) {
            walk.keys("y");
        }
    }
}

fn key(answer: YesNoNotSure) -> &'static str {
    match answer {
        Yes => "y",
        No => "n",
        NotSure => "u",
    }
}

fn is_asked_again(walk: &Walk) -> bool {
    matches!(walk.body(), Body::Question { ask, .. } if ask.ends_with("Is that right?"))
}

fn page(walk: &Walk) -> (String, String) {
    match walk.body() {
        Body::Page { title, text, .. } => (title, text.join("\n")),
        other => panic!("{other:?}"),
    }
}

#[test]
fn what_is_asked_is_read_aloud_at_a_key_and_an_answer_cuts_it_off() {
    let mut walk = Walk::new(Some("a device"));
    walk.keys(TO_READY).keys("v");
    assert_eq!((walk.said("ready.chest"), walk.said("ready.keys")), (1, 1));
    walk.keys("n");
    assert_eq!(walk.effects.last(), Some(&crate::practice::session::Effect::Hush));
    walk.keys("v");
    assert_eq!((walk.said("ready.chest"), walk.said("ready.breath"), walk.said("ready.keys")), (1, 1, 2));
    walk.keys("nnnnnv");
    assert_eq!((walk.said("ready.any"), walk.said("ready.body.1"), walk.said("ready.body.7")), (1, 1, 1));
    assert_eq!(walk.said("ready.all"), 0);
    walk.keys("nv");
    assert_eq!((walk.said("ready.all"), walk.said("ready.room.1"), walk.said("ready.keys")), (1, 1, 4));
    // What is asked one by one after a page has no words of its own: the key means nothing there.
    walk.keys("nv");
    assert_eq!(walk.said("ready.keys"), 4);
}

#[test]
fn each_answer_is_kept_and_the_good_ones_go_on() {
    let mut walk = walk();
    walk.keys(READY);
    let kept = answers(&walk);
    assert!(kept.iter().all(|(item, answer)| item.is_good(*answer)) && kept.len() > 20);
    assert_eq!(kept[0], (Item::Chest, No));
    let ready = Entry::answered(None, Answer::Ready(Some(YesNo::Yes)));
    assert_eq!(walk.entries().iter().filter(|entry| ***entry == ready).count(), 1);
    assert!(matches!(walk.body(), Body::Page { title, .. } if title.starts_with("Warm-up")));
}

#[test]
fn one_question_is_one_screen_with_three_keys_and_says_how_many_there_are() {
    let mut walk = walk();
    for (nth, item) in Item::SINGLY.into_iter().enumerate() {
        let Body::Question { ask, answers, .. } = walk.body() else { panic!("{:?}", walk.body()) };
        assert_eq!(ask, item.question());
        let keys: Vec<String> = answers.iter().map(|hint| format!("{} {}", hint.key, hint.does)).collect();
        assert_eq!(keys, ["Y yes", "N no", "U not sure"]);
        let place = walk.session().screen(walk.at).place;
        assert_eq!(place, format!("Ready today, {} of 8", nth + 1));
        // Keys of other pages answer nothing.
        walk.keys("ax\n.");
        assert_eq!(walk.asked(), Some(Asked::One(item)));
        walk.keys("n");
    }
    let words = |walk: &Walk| {
        let keys = walk.session().screen(walk.at).keys;
        keys.iter().map(|hint| format!("{} {}", hint.key, hint.does)).collect::<Vec<_>>()
    };
    let leave = "S or Esc leave";
    assert_eq!(words(&walk), ["Y yes, one or more", "N no, none of it", "U not sure", leave]);
    walk.keys("n");
    assert_eq!(words(&walk), ["Y yes, all of it", "N no", "U not sure", leave]);
}

#[test]
fn what_would_lock_is_asked_once_more() {
    let question = "Have you had chest pain or a tight chest since last time?";
    for (key, said) in [("y", "yes"), ("u", "not sure, which counts as yes")] {
        let mut walk = walk();
        walk.keys(key);
        let Body::Question { ask, .. } = walk.body() else { panic!("{:?}", walk.body()) };
        assert_eq!(ask, format!("{question} You answered: {said}. Is that right?"));
        walk.keys("u");
        assert!(is_asked_again(&walk), "only yes or no answers that");
        walk.keys("n");
        assert_eq!(walk.asked(), Some(Asked::One(Item::Chest)), "a wrong key is taken back");
        assert!(walk.ends().is_empty());
    }
    let mut walk = walk();
    walk.keys("yy");
    assert_eq!(walk.ends(), [SessionEnd::NotToday]);
    assert_eq!(Readiness::of(&answers(&walk)).locks, [Lock::Chest]);
    let Body::Emergency { number, text } = walk.body() else { panic!("{:?}", walk.body()) };
    assert_eq!(number.as_deref(), Some("112"));
    assert!(text[0].starts_with("You have had chest pain or a tight chest."), "{text:?}");
    assert_eq!(text[1], "Sit down. If somebody is near, call out for them.");
}

#[test]
fn not_today_says_why_and_whom_to_call() {
    let mut walk = walk();
    answer_all_but(&mut walk, &[Item::Fall, Item::FallRecent]);
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
    answer_all_but(&mut walk, &[Item::Night]);
    let (title, text) = page(&walk);
    assert_eq!(title, "Gentler today");
    assert!(text.starts_with("You slept badly. Take it one step lower today."), "{text}");
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
fn good_answers_stay_at_the_step_that_was_given() {
    let mut walk = with_a_gentler_one(3, 2);
    walk.keys(TO_READY)
        .keys(READY)
        .keys(".y.")
        .wait(Millis(65_100))
        .keys("n021n")
        .wait(Millis(60_000))
        .keys("..");
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
    while walk.asked() != Some(Asked::One(Item::Fall)) {
        walk.keys("n");
    }
    walk.keys("yys");
    assert_eq!(walk.ends(), [SessionEnd::StoppedOther]);
    assert_eq!(answers(&walk).last(), Some(&(Item::Fall, Yes)));
    // A fall of which nobody asked whether it did harm.
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
    assert_eq!(walk.asked(), Some(Asked::One(Item::Chest)));
}

#[test]
fn only_a_step_without_a_resting_hand_asks_for_somebody_in_the_house() {
    let lines = |step| {
        let prescription = Prescription::ready("gentle").unwrap();
        let today = prescription.at_steps(&[Some(1), Some(step)]).unwrap();
        let mut walk = Walk::over(&today, "lower", |session| session);
        walk.on(Event::Sound { device: None });
        walk.keys(TO_READY).keys("nnnnnnn");
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
    walk.keys(TO_READY).keys(READY);
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

#[test]
fn a_fall_that_is_told_and_leaves_the_day_open_leaves_out_what_was_prepared_for_that() {
    let prescription = Prescription::ready("gentle").unwrap();
    let drawn = |step| {
        let scheduler = Scheduler::new(&prescription.at_steps(&[Some(1), step]).unwrap()).unwrap();
        let schedule = scheduler.draw(Seed::from_bytes([41; 32]));
        (scheduler, schedule)
    };
    let drills = |not: &[Item]| {
        let fit = Preparation {
            gentler: Some(drawn(Some(2))),
            after_fall: Some(drawn(None)),
            ..Preparation::default()
        };
        let fit = std::cell::Cell::new(Some(fit));
        let mut walk = Walk::over(prescription, "lower", |session| session.prepare(fit.take().unwrap()));
        walk.on(Event::Sound { device: None });
        walk.keys(TO_READY);
        answer_all_but(&mut walk, not);
        assert_eq!(page(&walk).0, "Gentler today");
        let sets = walk.session().whole.schedule.sets().iter();
        sets.map(|set| set.drill().name().to_owned()).collect::<Vec<_>>()
    };
    assert_eq!(drills(&[Item::Fall]), ["counter-shift"; 3], "a fall without harm, over two days ago");
    assert_eq!(drills(&[Item::Night]), ["counter-shift", "counter-reach", "counter-reach"]);
}

#[test]
fn a_fall_that_may_be_known_already_is_asked_about_once_the_answers_are_kept() {
    let told = |known_fall, bad: &[Item]| {
        let fit = std::cell::Cell::new(Some(Preparation { known_fall, ..Preparation::default() }));
        let mut walk = Walk::over(Prescription::ready("gentle").unwrap(), "lower", |session| {
            session.prepare(fit.take().unwrap())
        });
        walk.on(Event::Sound { device: None });
        walk.keys(TO_READY);
        answer_all_but(&mut walk, bad);
        walk
    };
    let asks = |walk: &Walk| match walk.body() {
        Body::Question { ask, .. } => ask,
        _ => String::new(),
    };
    let day = "2026-11-03".parse().unwrap();
    let [practiced, reported] = [true, false].map(|in_practice| Some(KnownFall { day, in_practice }));
    let ask = "Is this the same fall as on Tuesday, November 3?";
    assert_eq!(asks(&told(practiced, &[Item::Fall])), ask);
    assert_eq!(
        asks(&told(reported, &[Item::Fall])),
        "Is this the fall that you reported on Tuesday, November 3?"
    );
    assert_eq!(
        asks(&told(practiced, &[Item::Fall, Item::FallHurt])),
        ask,
        "one that locks is asked about too"
    );
    assert_eq!(asks(&told(None, &[Item::Fall])), "", "none is known");
    assert_eq!(asks(&told(practiced, &[Item::Night])), "", "none is told");
    assert_eq!(asks(&told(practiced, &[Item::Fall, Item::Chest])), "", "nothing before whom to call");

    for (key, said) in [("y", Yes), ("n", No), ("u", NotSure)] {
        let mut walk = told(practiced, &[Item::Fall]);
        assert!(answers(&walk).contains(&(Item::Fall, Yes)), "kept before it is asked");
        walk.keys("\n x7");
        assert_eq!(asks(&walk), ask, "no other key passes it");
        walk.keys(key);
        assert_eq!(page(&walk).0, "Gentler today", "{key}");
        let same = Entry::answered(None, Answer::SameFall(Some(said)));
        assert_eq!(walk.entries().into_iter().filter(|entry| **entry == same).count(), 1);
    }
    let mut left = told(practiced, &[Item::Fall]);
    left.keys("s");
    assert!(answers(&left).contains(&(Item::Fall, Yes)));
    let asked =
        |entry: &&Entry| matches!(entry, Entry::Answered(row) if row.answer.question() == Question::SameFall);
    assert!(!left.entries().iter().any(asked));
}
