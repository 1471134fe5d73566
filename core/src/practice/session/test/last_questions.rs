//! "Did you fall?", "Are you hurt?", "Did you hit your head?" and "Why did you stop?": which keys count, key by key. What decides what follows is
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

/// Alone in the first set, stopped: it is asked whether the person fell.
fn stopped() -> Walk {
    let mut walk = Walk::new(None);
    walk.walk_to_the_counter();
    walk.keys(".").wait(Millis(12_000)).keys("s");
    walk
}

/// Who did not fall is asked for the reason.
fn not_fallen() -> Walk {
    let mut walk = stopped();
    walk.keys("n");
    walk
}

/// Who is hurt or not is asked about the head.
fn hurt_or_not() -> Walk {
    let mut walk = fallen();
    walk.keys("n");
    walk
}

/// With a partner, after a fall: it is asked whether the person is hurt.
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
    let found = counting(Question::WhyStopped, "Why did you stop?", not_fallen);
    let reasons = [('1', 1), ('2', 2), ('3', 3)].map(|(key, kept)| (Key::Char(key), Some(kept)));
    assert_eq!(found, [&reasons[..], &[(Key::Enter, None)]].concat());
}

#[test]
fn only_yes_no_not_sure_and_rather_not_say_answer_what_is_asked_of_a_fall() {
    let answers = [('N', 0), ('U', 2), ('Y', 1), ('n', 0), ('u', 2), ('y', 1)];
    let answers = answers.map(|(key, kept)| (Key::Char(key), Some(kept)));
    let all = [&answers[..], &[(Key::Enter, None)]].concat();
    assert_eq!(counting(Question::Fell, "Did you fall?", stopped), all);
    assert_eq!(counting(Question::FallHurt, "Are you hurt?", fallen), all);
    assert_eq!(counting(Question::Head, "Did you hit your head?", hurt_or_not), all);
}

/// Who would rather not say has not said that nothing is hurt: it is kept as not said, and it was a fall.
#[test]
fn a_fall_is_a_fall_whatever_is_answered_or_not() {
    let answers = [Key::Char('y'), Key::Char('n'), Key::Char('u'), Key::Enter];
    for (hurt, head) in answers.iter().flat_map(|hurt| answers.map(|head| (*hurt, head))) {
        let mut walk = fallen();
        walk.on(Event::Key(hurt));
        walk.on(Event::Key(head));
        assert_eq!(walk.ends(), [SessionEnd::Fell], "{hurt:?} {head:?}");
    }
    let mut left = fallen();
    left.on(Event::Close);
    assert_eq!(left.ends(), [SessionEnd::Fell], "a terminal that is closed then too");
}
