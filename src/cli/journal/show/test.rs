//! A session in plain words: a practice, and a try-out.

use tempfile::tempdir;

use super::page;
use crate::cli::page::text;
use crate::journal::Folder;
use crate::journal::sample::{id, keep, open, session};
use counterpoise_core::record::{Entry, Seen, SeenRow, TriedOut};

#[test]
fn a_session_is_told_in_plain_words() {
    let place = tempdir().unwrap();
    let folder = Folder::open_in(place.path()).unwrap();
    let mut journal = open(&folder);
    keep(&mut journal, &id(0x5e), &session());
    let text = text::of(&page(&journal, "last").unwrap());
    assert!(text.lines().all(|line| line.chars().count() <= 80), "{text}");
    let heard = counterpoise_core::plan::phrase::Phrase::named("reach.forward-left").unwrap().words();
    for expected in [
        "  Ended         2026-11-02 09:34: stopped for another reason",
        "  Sets          1 of 2 completed",
        "Before the first set\n  ready: yes",
        "Set 1: counter-reach, step 3, alone\n  semi-tandem, left foot ahead; firm surface; one hand; eyes open",
        &format!("     1     6.123       6.123   +0.0 ms  {heard}"),
        "     2    13.000                        (nothing, on purpose)",
        &format!("     3    21.500      21.501   +1.0 ms  {heard}"),
        "  held on: twice",
        "  steadiness: not said",
        "  Pause 1 at 9 s; the rest was drawn again",
        "  The sound stuttered at 14.25 s.\n  Calls after that may have been heard later than shown here.",
        &format!("     3    20.002  not called            {heard}"),
    ] {
        assert!(text.contains(expected), "{expected}\nin\n{text}");
    }
}

#[test]
fn a_try_out_names_who_watched_and_what_was_seen() {
    let place = tempdir().unwrap();
    let mut journal = open(&Folder::open_in(place.path()).unwrap());
    let mut entries = session();
    entries.insert(1, Entry::TriedOut(TriedOut { watched_by: "K. L.".into(), partner: "R.".into() }));
    keep(&mut journal, &id(1), &entries);
    let seen = SeenRow { what: Seen::Feet, words: "one step each time".to_owned() };
    let at = "2026-11-02T10:00:00-05:00[America/New_York]".parse().unwrap();
    journal.keep_seen(&at, id(1), &[seen]).unwrap();
    let text = text::of(&page(&journal, "last").unwrap());
    assert!(
        text.contains("A try-out: it does not count as practice. Watched by: K. L.; partner: R."),
        "{text}"
    );
    assert!(text.contains("  Seen, feet: one step each time"), "{text}");
}
