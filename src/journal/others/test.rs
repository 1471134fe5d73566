//! Nothing of others is changed by reading it, and nothing of it is lost.

use std::fs;
use std::path::Path;

use rusqlite::Connection;
use tempfile::tempdir;

use super::super::sample::{id, in_memory, keep, session};
use super::super::{Journal, JournalError, export, schema};
use counterpoise_core::course::progression::marks_of;

fn file(path: &Path, version: usize) -> Connection {
    let db = Connection::open(path).unwrap();
    schema::made_by(&db, version).unwrap();
    db.execute_batch(&format!(
        "INSERT INTO sessions (id, begun, begun_ms, title, digest, seed, seed_given, method, voice, sets_planned)
             VALUES ('0123456789abcdef0123456789abcdef', '2026-11-02T09:30:00Z[UTC]', 1793611800000, 't', 'd', '{seed}', 0, 1, 'lower', 1);
         INSERT INTO session_ends (session, ended, ended_ms, why, sets_completed, sets_planned, cues_heard, cues_shown,
             active_ms, not_said) VALUES ('0123456789abcdef0123456789abcdef', '2026-11-02T09:33:00Z[UTC]', 1793611980000, 'fell', 0, 1,
             0, 0, 9000, 0);",
        seed = "07".repeat(32)
    ))
    .unwrap();
    db
}

#[test]
fn a_journal_of_any_earlier_version_is_read_and_left_as_it_is() {
    for version in 1..=7 {
        let place = tempdir().unwrap();
        let path = place.path().join("ab.db");
        drop(file(&path, version));
        let before = fs::read(&path).unwrap();
        let journal = Journal::peek(&path).unwrap();
        let sessions = journal.contents().unwrap().sessions;
        assert_eq!(sessions.len(), 1, "version {version}");
        assert_eq!(sessions[0].end.as_ref().unwrap().why.name(), "fell");
        // A moment in UTC and a digest that is none: what was locked counts all the same.
        let past = journal.trainee().unwrap().past;
        let found = (past.sessions[0].day.to_string(), marks_of(&past.sessions[0]).0.len());
        assert_eq!(found, ("2026-11-02".to_owned(), 1));
        drop(journal);
        assert_eq!(fs::read(&path).unwrap(), before, "version {version}");
        assert_eq!(fs::read_dir(place.path()).unwrap().count(), 1, "nothing is left beside it");
    }
}

#[test]
fn what_is_no_journal_is_refused_with_its_reason() {
    let place = tempdir().unwrap();
    let path = |name: &str| place.path().join(name);
    fs::write(path("empty.db"), b"").unwrap();
    let error = Journal::peek(&path("empty.db")).unwrap_err();
    assert!(matches!(error, JournalError::Empty { .. }) && error.to_string().contains("empty.db is empty"));
    fs::create_dir(path("folder.db")).unwrap();
    let error = Journal::peek(&path("folder.db")).unwrap_err();
    assert!(error.to_string().ends_with("it is no file"), "{error}");
    assert!(matches!(Journal::peek(&path("none.db")), Err(JournalError::Unreadable { .. })));
    let newer = file(&path("newer.db"), 7);
    newer.pragma_update(None, "user_version", 99).unwrap();
    drop(newer);
    assert!(matches!(Journal::peek(&path("newer.db")), Err(JournalError::Newer { found: 99, .. })));
}

/// A copy of a file and its rollback journal, taken in the middle of a transaction, is what a crash leaves.
#[test]
fn a_journal_that_a_crash_left_half_written_is_named_so_and_left() {
    let place = tempdir().unwrap();
    let (path, copy) = (place.path().join("ab.db"), place.path().join("copy.db"));
    let db = file(&path, 7);
    db.execute_batch(
        "PRAGMA cache_size = 1; PRAGMA cache_spill = 1; BEGIN;
         WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 5000)
             INSERT INTO changes SELECT 'at', i, 'what', hex(randomblob(64)) FROM n;
         UPDATE sessions SET title = 'half';",
    )
    .unwrap();
    fs::copy(&path, &copy).unwrap();
    fs::copy(place.path().join("ab.db-journal"), place.path().join("copy.db-journal")).unwrap();
    let before = fs::read(&copy).unwrap();
    let error = Journal::peek(&copy).map(|_| ()).unwrap_err();
    assert!(matches!(error, JournalError::HalfWritten { .. }), "{error}");
    assert_eq!(fs::read(&copy).unwrap(), before);
    assert!(place.path().join("copy.db-journal").exists(), "what undoes it is kept");
}

fn exported(journal: &Journal) -> Vec<u8> {
    let mut out = Vec::new();
    export::json(journal, &mut out).unwrap();
    out
}

fn of(ids: &[u8]) -> Journal {
    let mut journal = in_memory();
    for byte in ids {
        keep(&mut journal, &id(*byte), &session());
    }
    journal
}

#[test]
fn an_export_is_read_as_the_journal_that_it_is_of() {
    let journal = of(&[1, 2]);
    let bytes = exported(&journal);
    let read = Journal::of_export(Path::new("a.json"), &bytes).unwrap();
    assert_eq!(read.contents().unwrap(), journal.contents().unwrap());
    assert_eq!(read.summaries().unwrap(), journal.summaries().unwrap());
    let refused =
        |bytes: &[u8]| Journal::of_export(Path::new("a.json"), bytes).map(|_| ()).unwrap_err().to_string();
    assert!(refused(&bytes[..bytes.len() / 2]).contains("not copied whole"), "cut off on the way");
    let text = String::from_utf8(bytes.clone()).unwrap();
    let other = text.replace("counterpoise.journal/2", "counterpoise.journal/3");
    assert!(refused(other.as_bytes()).contains("this version reads \"counterpoise.journal/2\""));
    let twice = text.replace("\"number\":2", "\"number\":1");
    assert!(
        twice != text && refused(twice.as_bytes()).contains("set 1 begins twice"),
        "{}",
        refused(twice.as_bytes())
    );
}

#[test]
fn journals_of_one_person_are_one_in_whatever_order_they_come() {
    let (laptop, tablet) = (of(&[1, 2]), of(&[2, 3]));
    let ids = |journals: [Journal; 2]| {
        let sessions = Journal::together(&journals).unwrap().contents().unwrap().sessions;
        sessions.iter().map(|session| session.id).collect::<Vec<_>>()
    };
    assert_eq!(ids([laptop, tablet]), [id(1), id(2), id(3)]);
    assert_eq!(ids([of(&[2, 3]), of(&[1, 2])]), [id(1), id(2), id(3)]);
    // The copy of an earlier day, in the middle of a session, and the whole.
    let earlier = || {
        let mut journal = in_memory();
        keep(&mut journal, &id(1), &session()[..5]);
        journal
    };
    for journals in [[earlier(), of(&[1])], [of(&[1]), earlier()]] {
        assert_eq!(Journal::together(&journals).unwrap().contents().unwrap(), of(&[1]).contents().unwrap());
    }
    let text = String::from_utf8(exported(&of(&[1])))
        .unwrap()
        .replace("\"voice\":\"lower\"", "\"voice\":\"higher\"");
    let other = Journal::of_export(Path::new("other.json"), text.as_bytes()).unwrap();
    let error = Journal::together(&[of(&[1]), other]).map(|_| ()).unwrap_err();
    assert!(
        error.to_string().contains("other.json") && error.to_string().contains("differs from the one"),
        "{error}"
    );
}
