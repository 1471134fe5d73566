//! The emergency page: that it is spoken until a key hushes it, that no such key leaves it, and whom it names.

use super::{Effect, Event, Key, Walk};
use crate::plan::phrase::Phrase;
use crate::practice::emergency::Contacts;
use crate::practice::session::screen::Body;
use crate::record::SessionEnd;
use crate::units::Millis;

/// In the first set, stopped: chest pain. The session has come to its last page.
fn chest_pain(device: Option<&str>) -> Walk {
    let mut walk = Walk::new(device);
    walk.walk_to_the_counter();
    if device.is_some() {
        walk.past_the_check();
    }
    walk.keys(".").wait(Millis(12_000)).keys("sn11");
    assert_eq!(walk.ends(), [SessionEnd::Unwell]);
    walk
}

fn warnings(walk: &Walk) -> Vec<Vec<&'static str>> {
    let ids = |phrases: &Vec<Phrase>| phrases.iter().map(|phrase| phrase.id()).collect();
    walk.effects
        .iter()
        .filter_map(|effect| if let Effect::Warn(all) = effect { Some(ids(all)) } else { None })
        .collect()
}

fn keys(walk: &Walk) -> Vec<String> {
    walk.session().screen(walk.at).keys.into_iter().map(|hint| hint.key).collect()
}

const ALOUD: [&str; 5] = ["emergency.call", "count.1", "count.1", "count.2", "emergency.then"];

#[test]
fn it_is_spoken_digit_by_digit_and_repeated_until_a_press_hushes_it_and_no_such_press_leaves_it() {
    let every_key = (' '..='~').map(Key::Char).chain([Key::Enter, Key::Escape, Key::Other]);
    for key in every_key {
        let mut walk = chest_pain(Some("a device"));
        assert!(warnings(&walk).is_empty(), "the page is on the screen first");
        let page = walk.body();
        assert!(matches!(&page, Body::Emergency { number, .. } if number.as_deref() == Some("112")));
        walk.wait(Millis(100));
        assert_eq!(warnings(&walk), [ALOUD]);
        walk.wait(Millis(60_000));
        let spoken = warnings(&walk);
        assert!(spoken.len() > 2 && spoken.iter().all(|said| *said == ALOUD), "again and again: {spoken:?}");
        assert_eq!(keys(&walk), ["any key"]);
        assert_eq!(walk.on(Event::Key(key)), [Effect::Hush], "{key:?}");
        assert_eq!(walk.body(), page, "it stays");
        walk.wait(Millis(60_000));
        assert_eq!(warnings(&walk).len(), spoken.len(), "and is silent");
        assert_eq!(keys(&walk), ["V", "L"]);
    }
}

#[test]
fn once_it_is_hushed_only_its_own_key_leaves_it() {
    let mut walk = chest_pain(Some("a device"));
    walk.wait(Millis(100)).keys(".");
    for key in (' '..='~').map(Key::Char).chain([Key::Enter, Key::Escape, Key::Other]) {
        if !matches!(key, Key::Char('l' | 'L' | 'v' | 'V')) {
            assert_eq!(walk.on(Event::Key(key)), [], "{key:?}");
        }
    }
    let notices = walk.session().screen(walk.at).notices;
    assert!(notices.contains(&"Keys here: V, L.".to_owned()), "{notices:?}");
    let before = warnings(&walk).len();
    walk.keys("v").wait(Millis(100));
    assert_eq!(warnings(&walk).len(), before + 1, "it is said again");
    walk.keys("l");
    assert!(!walk.effects.contains(&Effect::Leave), "this press only hushes it");
    walk.keys("l");
    assert_eq!(walk.effects.last(), Some(&Effect::Leave));
    let mut closed = chest_pain(Some("a device"));
    closed.on(Event::Close);
    assert_eq!(closed.effects.last(), Some(&Effect::Leave), "a closed terminal holds nobody");
}

#[test]
fn without_an_output_the_page_is_silent_and_still_has_a_key_of_its_own() {
    let mut walk = chest_pain(None);
    walk.wait(Millis(60_000));
    assert!(warnings(&walk).is_empty());
    assert_eq!(keys(&walk), ["L"]);
    walk.keys(".s\u{1b}\n");
    assert!(!walk.effects.contains(&Effect::Leave));
    walk.keys("L");
    assert_eq!(walk.effects.last(), Some(&Effect::Leave));
}

/// A sign of the heart or a stroke that is reported before practice leads to the same page.
#[test]
fn before_practice_the_same_signs_lead_to_the_same_page() {
    let mut walk = Walk::new(Some("a device"));
    walk.keys("\n\nnnyy");
    let Body::Emergency { number, text } = walk.body() else { panic!("{:?}", walk.body()) };
    assert_eq!(number.as_deref(), Some("112"));
    assert_eq!(
        text[0],
        "You have had chest pain or a tight chest. If it was over before today, call your doctor today instead."
    );
    walk.wait(Millis(100));
    assert_eq!(warnings(&walk), [ALOUD]);
}

#[test]
fn an_unknown_number_is_the_local_one_and_the_contact_is_named() {
    let contacts = Contacts { emergency: None, other: Some("Ann, 555 0100".to_owned()) };
    let mut walk = Walk::new(Some("a device"));
    walk.session = walk.session.take().map(|mut session| {
        session.whole.contacts = contacts;
        session
    });
    walk.walk_to_the_counter();
    walk.past_the_check().keys(".").wait(Millis(12_000)).keys("sn13").wait(Millis(100));
    let Body::Emergency { number: None, text } = walk.body() else { panic!("{:?}", walk.body()) };
    assert!(text.contains(&"Then call: Ann, 555 0100".to_owned()), "{text:?}");
    assert_eq!(warnings(&walk), [["emergency.local", "emergency.then"]]);
}
