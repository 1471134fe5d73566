//! "Is anything hurt?" and "Why did you stop?": which keys count, at both, key by key. What decides what follows is
//! answered before anything ends, so no key that stops a practice elsewhere leads past them.

use super::Walk;
use crate::plan::prescription::Prescription;
use crate::practice::session::screen::Body;
use crate::practice::session::{Channel, Event, Key};
use crate::record::{Entry, Question, SessionEnd};
use crate::units::Millis;

/// One drill that a partner watches, so that a fall has a key.
const WATCHED: &str = r#"
schema = "counterpoise.prescription/1"
title = "Watched steps"
issued_on = 2026-11-02

[[drills]]
drill = "quick-steps"
form = "partner"
sets = 1
work_ms = 60000
gap_ms = [9000, 16000]
directions = ["forward", "left", "right"]
"#;

/// Alone in the first set, stopped: the reason is asked.
fn stopped() -> Walk {
    let mut walk = Walk::new(None);
    walk.walk_to_the_counter();
    walk.keys(".").wait(Millis(12_000)).keys("s");
    walk
}

/// With a partner, after a fall: it is asked whether anything is hurt.
fn fallen() -> Walk {
    let watched = Prescription::read("watched.toml", WATCHED.as_bytes()).unwrap();
    let mut walk = Walk::over(&watched, "lower", |session| session.with_partner(Channel::Trainee, None));
    walk.on(Event::Sound { device: None });
    // Before it comes the warm-up, alone.
    walk.walk_to_set(2).keys("fy");
    walk
}

fn asked(walk: &Walk) -> String {
    match walk.body() {
        Body::Question { ask, .. } => ask,
        other => panic!("{other:?}"),
    }
}

/// Every key there is on a keyboard, as the session knows them.
fn every_key() -> impl Iterator<Item = Key> {
    (' '..='~').map(Key::Char).chain([Key::Enter, Key::Escape, Key::Other])
}

/// What is kept as the answer, for each key that counts. Any other key changes nothing at all.
fn counting(question: Question, ask: &str, walk_there: fn() -> Walk) -> Vec<(Key, Option<u8>)> {
    let mut counting = Vec::new();
    for key in every_key() {
        let mut walk = walk_there();
        assert_eq!(asked(&walk), ask);
        let effects = walk.on(Event::Key(key));
        let answer = walk.entries().into_iter().find_map(|entry| match entry {
            Entry::Answered(row) if row.answer.question() == question => Some(row.answer.number()),
            _ => None,
        });
        match answer {
            Some(answer) => counting.push((key, answer)),
            None => {
                assert_eq!(
                    (asked(&walk).as_str(), &effects[..], walk.ends()),
                    (ask, &[][..], vec![]),
                    "{key:?}"
                );
            }
        }
    }
    counting
}

#[test]
fn only_the_three_reasons_and_rather_not_say_answer_why_somebody_stopped() {
    let found = counting(Question::WhyStopped, "Why did you stop?", stopped);
    let reasons = [('1', 1), ('2', 2), ('3', 3)].map(|(key, kept)| (Key::Char(key), Some(kept)));
    assert_eq!(found, [&reasons[..], &[(Key::Enter, None)]].concat());
}

#[test]
fn only_yes_no_and_rather_not_say_answer_whether_anything_is_hurt() {
    let found = counting(Question::Hurt, "Is anything hurt, or was there a knock to the head?", fallen);
    let answers = [('N', 0), ('Y', 1), ('n', 0), ('y', 1)].map(|(key, kept)| (Key::Char(key), Some(kept)));
    assert_eq!(found, [&answers[..], &[(Key::Enter, None)]].concat());
}

/// Who would rather not say has not said that nothing is hurt: it is kept as not said, and it was a fall.
#[test]
fn a_fall_is_a_fall_whatever_is_answered_or_not() {
    for key in [Key::Char('y'), Key::Char('n'), Key::Enter] {
        let mut walk = fallen();
        walk.on(Event::Key(key));
        assert_eq!(walk.ends(), [SessionEnd::Fell], "{key:?}");
    }
    let mut left = fallen();
    left.on(Event::Close);
    assert_eq!(left.ends(), [SessionEnd::Fell], "a terminal that is closed then too");
}
