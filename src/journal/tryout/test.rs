//! A try-out is kept, shown, exported and taken in, and what was seen only grows.

use super::super::sample::{begun, id, keep, moment, open, session};
use super::super::{Folder, export, import};
use super::*;
use counterpoise_core::record::{Line, Seen};

fn tried() -> Vec<Line> {
    let row = TryoutRow { watched_by: "K. L.".into(), partner: "R.".into(), seen: Vec::new() };
    let mut lines = session();
    lines.insert(1, Line::TriedOut(row));
    lines
}

fn seen(what: Seen, words: &str) -> SeenRow {
    SeenRow { what, words: words.to_owned() }
}

#[test]
fn what_was_seen_comes_back_and_goes_to_another_journal() {
    let place = tempfile::tempdir().unwrap();
    let mut here = open(&Folder::open_in(place.path().join("here")).unwrap());
    keep(&mut here, &id(1), &tried());
    here.keep_seen(&id(1), &[seen(Seen::Feet, "one step each time")]).unwrap();
    let first = export_of(&here);
    here.keep_seen(&id(1), &[seen(Seen::Unlocked, "backward")]).unwrap();
    let row = here.find("last").unwrap().tryout.unwrap();
    assert_eq!(row.seen, [seen(Seen::Feet, "one step each time"), seen(Seen::Unlocked, "backward")]);

    let mut there = open(&Folder::open_in(place.path().join("there")).unwrap());
    import::import(&mut there, "first.json", first.as_bytes()).unwrap();
    import::import(&mut there, "then.json", export_of(&here).as_bytes()).unwrap();
    assert_eq!(export_of(&there), export_of(&here), "what was added later is added");
    import::import(&mut there, "first.json", first.as_bytes()).unwrap();
    let other = export_of(&here).replace("one step each time", "two steps");
    let refused = import::import(&mut there, "other.json", other.as_bytes()).unwrap_err();
    assert!(refused.to_string().contains("the try-out differs from the one in this journal"), "{refused}");
}

fn export_of(journal: &Journal) -> String {
    let mut out = Vec::new();
    export::json(journal, &mut out).unwrap();
    String::from_utf8(out).unwrap()
}

#[test]
fn only_a_try_out_has_something_seen_and_only_its_owner_writes_it() {
    let place = tempfile::tempdir().unwrap();
    let folder = Folder::open_in(place.path()).unwrap();
    let mut journal = open(&folder);
    keep(&mut journal, &id(1), &[begun(moment(0))]);
    assert!(journal.keep_seen(&id(1), &[seen(Seen::InWords, "steady")]).is_err(), "a practice is no try-out");
    let mut looking = Journal::look(&folder).unwrap();
    assert!(matches!(looking.keep_seen(&id(1), &[]), Err(JournalError::ReadOnly { .. })));
}

#[test]
fn a_try_out_is_no_sitting() {
    let place = tempfile::tempdir().unwrap();
    let mut journal = open(&Folder::open_in(place.path()).unwrap());
    keep(&mut journal, &id(1), &tried());
    let past = journal.past().unwrap();
    assert_eq!((past.sessions.len(), past.sittings().len()), (1, 0));
}
