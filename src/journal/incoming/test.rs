//! What a file is, what it holds, and whose it seems to be.

use serde_json::{Value, json};
use tempfile::tempdir;

use super::super::sample::{id, in_memory, keep, moment, open, session, told};
use super::super::{Folder, Journal, JournalError, export, rescue};
use super::Incoming;
use counterpoise_core::health::suitability::{Answer, Reply, Topic};
use counterpoise_core::plan::prescription::{Digest, Prescription};
use counterpoise_core::record::{Entry, TopicRow};
use counterpoise_core::words::Printable;

/// The sample session, under this prescription.
fn under(digest: Digest) -> Vec<Entry> {
    let mut lines = session();
    let Some(Entry::SessionBegun(row)) = lines.first_mut() else { unreachable!("as it is made") };
    row.digest = digest;
    lines
}

fn ready() -> Digest {
    Prescription::ready("gentle").unwrap().digest()
}

fn file(journal: &Journal) -> Vec<u8> {
    let mut out = Vec::new();
    export::json(journal, &mut out).unwrap();
    out
}

/// An export of one session with this id, under this prescription.
fn export_of(byte: u8, digest: Digest) -> Vec<u8> {
    let mut journal = in_memory();
    keep(&mut journal, &id(byte), &under(digest));
    file(&journal)
}

fn is_foreign(bytes: &[u8], journal: &Journal) -> bool {
    Incoming::read("x.json", bytes).unwrap().seems_foreign(journal).unwrap()
}

#[test]
fn a_file_that_shares_nothing_seems_to_be_somebody_elses() {
    let place = tempdir().unwrap();
    let mut here = open(&Folder::open_in(place.path()).unwrap());
    let (own, other) = (Digest::of(b"for Ada"), Digest::of(b"for Ben"));
    assert!(!is_foreign(&export_of(9, other), &here), "an empty journal is nobody's yet");
    keep(&mut here, &id(1), &under(own));
    assert!(is_foreign(&export_of(9, other), &here));
    assert!(!is_foreign(&export_of(9, own), &here), "a prescription of their own");
    assert!(!is_foreign(&export_of(1, own), &here), "a session");
    assert!(!is_foreign(&file(&in_memory()), &here), "nothing in it");
    keep(&mut here, &id(2), &under(ready()));
    assert!(is_foreign(&export_of(9, ready()), &here), "everybody has the ready ones");
    // Whatever else the same journal wrote, before its first practice too.
    let answers = [TopicRow::new(Topic::questions(false).next().unwrap(), Reply::new(Answer::No))];
    let elsewhere = tempdir().unwrap();
    let mut there = open(&Folder::open_in(elsewhere.path()).unwrap());
    there.keep_suitability(&"2026-11-02T08:00:00Z[UTC]".parse().unwrap(), false, &answers).unwrap();
    let text = file(&there);
    assert!(is_foreign(&text, &here));
    super::super::import::import(&mut here, "there.json", &text).unwrap();
    there.keep_suitability(&"2026-11-03T08:00:00Z[UTC]".parse().unwrap(), false, &answers).unwrap();
    assert!(!is_foreign(&file(&there), &here));
}

/// A title, a device, a reason: whatever a terminal would obey is let in nowhere, and the refusal itself has nothing of it.
#[test]
fn text_that_a_terminal_would_obey_is_refused_with_its_entry() {
    for hostile in ["\u{1b}[2J", "\u{7}", "\u{9b}31m", "\u{202e}exe", "\u{200b}", "\rover it"] {
        let mut journal = in_memory();
        let mut lines = session();
        let Some(Entry::SessionBegun(row)) = lines.first_mut() else { unreachable!("as it is made") };
        row.title = format!("One{hostile}");
        keep(&mut journal, &id(1), &lines);
        let exported = file(&journal);
        let text = String::from_utf8(exported.clone()).unwrap();
        assert!(text.lines().all(|line| Printable::first_hidden(line).is_none()), "{hostile:?}");
        let error = Incoming::read("x.json", &exported).unwrap_err();
        assert!(error.to_string().contains("entry 01010101010101010101010101010101: "), "{error}");
        let failure = crate::cli::Failure::from(error);
        assert_eq!(Printable::first_hidden(failure.fact()), None);
        // What this computer rescued is taken in at the next start, whatever the device was called; from elsewhere it is not.
        let place = tempdir().unwrap();
        let path = rescue::write_in(place.path(), id(1), &told(id(1), &lines)).unwrap();
        let rescued = Incoming::read("x.json", &std::fs::read(path).unwrap()).unwrap();
        let mut here = open(&Folder::open_in(place.path().join("data")).unwrap());
        assert!(super::super::import::take_in(&mut here, &rescued).is_err());
        assert!(here.contents().unwrap().is_empty());
    }
    // An end of a line is no order to a terminal, and is written out in print.
    let mut journal = in_memory();
    let mut lines = session();
    let Some(Entry::SessionBegun(row)) = lines.first_mut() else { unreachable!("as it is made") };
    row.title = "two\n\tlines".to_owned();
    keep(&mut journal, &id(1), &lines);
    assert!(Incoming::read("x.json", &file(&journal)).is_ok());
}

#[test]
fn a_rescue_file_of_an_unknown_session_seems_to_be_somebody_elses_too() {
    let (place, elsewhere) = (tempdir().unwrap(), tempdir().unwrap());
    let mut here = open(&Folder::open_in(place.path()).unwrap());
    keep(&mut here, &id(1), &under(ready()));
    let foreign = |byte: u8, entries: &[Entry]| {
        let path = rescue::write_in(elsewhere.path(), id(byte), &told(id(byte), entries)).unwrap();
        is_foreign(&std::fs::read(path).unwrap(), &here)
    };
    assert!(!foreign(1, &session()[5..]), "the rest of a session that is here");
    assert!(foreign(9, &under(ready())) && foreign(9, &session()[5..]));
}

#[test]
fn what_a_file_holds_is_said_so_that_a_person_knows_it_again() {
    let holds = |bytes: &[u8]| Incoming::read("x.json", bytes).unwrap().holds().to_string();
    assert_eq!(holds(&file(&in_memory())), "no practice");
    assert_eq!(holds(&export_of(1, ready())), "1 practice, of 2026-11-02, by \"=Month, \"one\"\"");
    let mut many = in_memory();
    keep(&mut many, &id(1), &under(ready()));
    for nth in 0..6 {
        let mut entries = session();
        let Some(Entry::SessionBegun(row)) = entries.first_mut() else { unreachable!("as it is made") };
        row.begun = moment(i64::from(nth) * 86_400_000);
        row.title = format!("T{nth}\u{1b}[2J");
        keep(&mut many, &id(10 + nth), &entries);
    }
    assert_eq!(
        many.holds().unwrap().to_string(),
        "7 practices, from 2026-11-02 to 2026-11-07, by \"=Month, \"one\"\", \"T0\\u{1b}[2J\", \"T1\\u{1b}[2J\", \"T2\\u{1b}[2J\" and others",
        "nothing that a terminal obeys"
    );
}

#[test]
fn each_wrong_file_is_named_for_what_it_is() {
    let whole = export_of(1, ready());
    let mut added: Value = serde_json::from_slice(&whole).unwrap();
    added["mood"] = json!("good");
    let schema = |schema: &str| json!({ "schema": schema }).to_string().into_bytes();
    for (bytes, said, later) in [
        (Vec::new(), "is empty", false),
        (b" \n".to_vec(), "is empty", false),
        (whole[..whole.len() / 2].to_vec(), "ends in the middle", false),
        (b"session,set\r\n1,2\r\n".to_vec(), "no export: not JSON", false),
        (vec![0; 4_096], "no export: not JSON", false),
        (schema("counterpoise.report/1"), "its `schema` is \"counterpoise.report/1\"", false),
        (schema("counterpoise.journal/3"), "a later version", true),
        (added.to_string().into_bytes(), "unknown field `mood`", false),
    ] {
        let error = Incoming::read("x.json", &bytes).unwrap_err();
        let text = error.to_string();
        assert!(text.starts_with("x.json cannot be imported: ") && text.contains(said), "{text}");
        assert_eq!(matches!(error, JournalError::FromLater { .. }), later, "{text}");
        assert!(error.hint().contains("Nothing was imported"), "{}", error.hint());
    }
}

#[test]
fn an_export_that_a_shell_wrote_in_its_own_encoding_is_read() {
    let whole = export_of(1, ready());
    let text = std::str::from_utf8(&whole).unwrap();
    let marked = [&[0xEF, 0xBB, 0xBF][..], &whole].concat();
    let wide: Vec<u8> = [0xFEFF].into_iter().chain(text.encode_utf16()).flat_map(u16::to_le_bytes).collect();
    for bytes in [marked, wide.clone()] {
        assert_eq!(Incoming::read("x.json", &bytes).unwrap().holds().practices, 1);
    }
    assert!(Incoming::read("x.json", &wide[..wide.len() - 501]).is_err());
}
