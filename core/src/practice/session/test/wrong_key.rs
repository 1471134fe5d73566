//! A key that does nothing: the page says once which keys count.

use super::{Event, Walk};
use crate::units::Millis;

fn notices(walk: &Walk) -> Vec<String> {
    walk.session().screen(walk.at).notices
}

#[test]
fn a_wrong_key_shows_which_keys_count_until_the_page_is_left() {
    let mut walk = Walk::new(Some("a device"));
    assert_eq!(walk.on(Event::Key(super::Key::Other)), [], "nothing is said");
    assert_eq!(notices(&walk), ["Keys here: Enter, S or Esc."]);
    // Once: another wrong key, and time, change nothing.
    walk.keys("zq").wait(Millis(30_000));
    assert_eq!(notices(&walk), ["Keys here: Enter, S or Esc."]);
    walk.keys("\n");
    assert_eq!(notices(&walk), [""; 0]);
    walk.keys("q");
    assert_eq!(notices(&walk).len(), 1, "the next page says it of its own keys");
}

#[test]
fn a_question_names_its_answers_and_where_any_key_counts_nothing_is_said() {
    let mut walk = Walk::new(Some("a device"));
    walk.walk_to_the_counter();
    walk.keys("q");
    assert_eq!(notices(&walk), ["Keys here: 1, 2, 3, 4, 0, R, G, S or Esc."]);
    walk.past_the_check();
    assert_eq!(notices(&walk), [""; 0]);
    // A key in the work pauses; a second one at once goes on with nothing, and that is on purpose.
    walk.keys(".").wait(Millis(12_000)).keys("..");
    assert_eq!(notices(&walk), [""; 0]);
    walk.keys("sn").keys("x");
    assert_eq!(notices(&walk), ["Keys here: 1, 2, 3, Enter."], "why somebody stopped");
    walk.keys("2");
    assert_eq!(notices(&walk), [""; 0]);
}
