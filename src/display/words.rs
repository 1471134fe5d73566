//! Which words do both ways of showing a screen share? Times, keys and fixed words.

use std::borrow::Cow;

use textwrap::{Options, WordSeparator, WordSplitter, WrapAlgorithm};

use counterpoise_core::practice::emergency::LOCAL_NUMBER;
use counterpoise_core::practice::session::screen::{Item, KeyHint, Moment};
use counterpoise_core::units::Millis;

/// Between calls. The same whether a cue is near, far or blank: nothing on the screen may tell.
pub(crate) const LISTEN: &str = "LISTEN";
/// To the partner, between items: the same whether a cue is near, far or blank.
pub(crate) const HOLD: &str = "HOLD";
/// To the partner, in the last two seconds.
pub(crate) const LOOK_UP: &str = "LOOK UP";
/// To the partner, at the moment.
pub(crate) const NOW: &str = "NOW";
/// To the partner, before one of the two pushes that open a session's.
pub(crate) const FOR_PRACTICE: &str = "FOR PRACTICE";
/// Today's floor course.
pub(crate) const COURSE: &str = "Today's course";
/// In plain lines, instead of a slow target.
pub(crate) const NEEDS_SCREEN: &str =
    "The dot needs the full screen: practice without --plain. Look ahead until the call that ends it.";
/// Before the first number of the count.
pub(crate) const GET_READY: &str = "GET READY";
/// The work is paused.
pub(crate) const PAUSED: &str = "PAUSED";
/// A rest is on.
pub(crate) const REST: &str = "REST";
/// The rest has run out.
pub(crate) const REST_OVER: &str = "REST OVER";
/// An emergency: `CALL 112`.
pub(crate) fn call(number: Option<&str>) -> String {
    format!("CALL {}", number.map_or_else(|| LOCAL_NUMBER.to_uppercase(), str::to_owned))
}

/// Nobody answered for a while.
pub(crate) const ALL_RIGHT: &str = "Are you all right? Press any key.";

/// Whole seconds, rounded up: "0" only when there is nothing left.
pub(crate) fn seconds(left: Millis) -> u32 {
    left.0.div_ceil(1000)
}

/// A time as it is said: `34 s`, `2 min 5 s`.
pub(crate) fn time(left: Millis) -> String {
    match (seconds(left) / 60, seconds(left) % 60) {
        (0, s) => format!("{s} s"),
        (m, 0) => format!("{m} min"),
        (m, s) => format!("{m} min {s} s"),
    }
}

/// What the partner is to do and where to, part by part.
pub(crate) fn task(item: &Item) -> Vec<String> {
    let ball = item.ball.map(|ball| ball.phrase().words().to_owned());
    [Some(item.words.clone()), item.toward.clone(), ball].into_iter().flatten().collect()
}

/// Where the partner's hand goes, how firmly, and whether it is for practice; empty where no hand does anything.
pub(crate) fn hand(item: &Item) -> Vec<String> {
    let practice = item.practice.then(|| FOR_PRACTICE.to_owned());
    [item.hand.clone(), item.strength.clone(), practice].into_iter().flatten().collect()
}

/// The time to the moment: "in 3 s".
pub(crate) fn countdown(moment: Moment) -> String {
    match moment {
        Moment::In(seconds) => format!("in {seconds} s"),
        Moment::LookUp => LOOK_UP.to_owned(),
        Moment::Now => NOW.to_owned(),
    }
}

/// The patches of a course, each with its place: `1. blue mat`.
pub(crate) fn course(patches: &[String]) -> Vec<String> {
    (1..).zip(patches).map(|(place, patch)| format!("{place}. {patch}")).collect()
}

/// `34 s left`.
pub(crate) fn left(left: Millis) -> String {
    format!("{} left", time(left))
}

/// `34 s of rest left`.
pub(crate) fn rest_left(left: Millis) -> String {
    format!("{} of rest left", time(left))
}

/// `Without a key, the set ends in 1 min 50 s.`
pub(crate) fn ends_in(left: Millis) -> String {
    format!("Without a key, the set ends in {}.", time(left))
}

/// `S or Esc: stop`.
pub(crate) fn key(hint: &KeyHint) -> String {
    format!("{}: {}", hint.key, hint.does)
}

/// The question that comes when nobody answered, and what to do: the first part is large.
pub(crate) fn all_right() -> (&'static str, &'static str) {
    ALL_RIGHT.split_once("? ").map_or((ALL_RIGHT, ""), |(ask, to_do)| (&ALL_RIGHT[..=ask.len()], to_do))
}

/// `1   very easy`, the keys in a column as wide as the widest.
pub(crate) fn answers(answers: &[KeyHint]) -> Vec<String> {
    let wide = answers.iter().map(|answer| answer.key.chars().count()).max().unwrap_or(0);
    answers.iter().map(|answer| format!("{:wide$}   {}", answer.key, answer.does)).collect()
}

/// Breaks a text into lines of at most `width` columns; a word longer than that is cut, never lost.
pub(crate) fn wrap(text: &str, width: usize) -> Vec<String> {
    let lines = textwrap::wrap(text, between_words(width.max(1)));
    lines.into_iter().map(Cow::into_owned).filter(|line| !line.is_empty()).collect()
}

/// Lines of at most so many columns that break at blanks only: not in a date, an option or a path.
pub(crate) fn between_words(width: usize) -> Options<'static> {
    Options::new(width)
        .word_separator(WordSeparator::AsciiSpace)
        .word_splitter(WordSplitter::NoHyphenation)
        .wrap_algorithm(WrapAlgorithm::FirstFit)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_time_never_reads_zero_while_some_is_left() {
        assert_eq!(left(Millis(1)), "1 s left");
        assert_eq!(left(Millis(60_000)), "1 min left");
        assert_eq!(left(Millis(124_001)), "2 min 5 s left");
        assert_eq!(left(Millis(0)), "0 s left");
    }

    #[test]
    fn wrapping_keeps_every_letter_and_the_width() {
        let text = "Rest both hands on the counter, incomprehensibilities included.";
        for width in 1..80 {
            let lines = wrap(text, width);
            assert!(lines.iter().all(|line| line.chars().count() <= width), "{width}: {lines:?}");
            assert_eq!(lines.concat().replace(' ', ""), text.replace(' ', ""), "{width}");
        }
        assert_eq!(wrap("one two three", 7), ["one two", "three"]);
    }
}
