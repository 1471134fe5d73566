//! What was exported comes back; what is broken, foreign or contradicts is refused whole.

use proptest::prelude::*;
use serde_json::{Value, json};
use tempfile::tempdir;

use super::super::sample::{
    any_session, expected, exported, heard, id, in_memory, keep, open, session, told, with_partner,
};
use super::super::{Folder, Journal, JournalError, lines, rescue};
use super::{Imported, import};
use counterpoise_core::course::summaries::Summaries;
use counterpoise_core::record::{
    Contents, Corrected, CorrectionRow, FORMAT, Id, Line, SessionEnd, SessionRecord,
};

fn here() -> (tempfile::TempDir, Journal) {
    let place = tempdir().unwrap();
    let journal = open(&Folder::open_in(place.path()).unwrap());
    (place, journal)
}

fn sample() -> Vec<u8> {
    let mut journal = in_memory();
    keep(&mut journal, &id(1), &session());
    keep(&mut journal, &id(2), &session()[..5]);
    exported(&journal)
}

fn ids(journal: &Journal) -> Vec<Id> {
    journal.contents().unwrap().sessions.iter().map(|session| session.id).collect()
}

#[test]
fn what_is_imported_twice_is_there_once() {
    let (_place, mut journal) = here();
    journal.adopt(b"one", "a.toml", &"2026-11-02T09:30:00Z[UTC]".parse().unwrap()).unwrap();
    let done = import(&mut journal, "a.json", &sample()).unwrap();
    assert_eq!(done, Imported { added: 2, known: 0 });
    let once = exported(&journal);
    let done = import(&mut journal, "a.json", &sample()).unwrap();
    assert_eq!(done.to_string(), "0 sessions added, 2 already there.");
    assert_eq!(exported(&journal), once);
    assert_eq!(journal.changes().unwrap().len(), 1);
}

/// A journal is moved by exporting it here and importing it there: it is the same one, and the report tells of the same
/// person. Where something was kept before, both stay what they are.
#[test]
fn an_empty_journal_becomes_the_one_that_is_imported() {
    let (_place, there) = here();
    let mut first = in_memory();
    keep(&mut first, &id(1), &session());
    let (_other_place, mut journal) = here();
    assert_ne!(journal.id().unwrap(), there.id().unwrap(), "each is drawn");
    import(&mut journal, "a.json", &exported(&first)).unwrap();
    assert_eq!(journal.id().unwrap(), first.id().unwrap());
    import(&mut journal, "b.json", &exported(&there)).unwrap();
    assert_eq!(journal.id().unwrap(), first.id().unwrap());
}

#[test]
fn a_session_with_a_partner_comes_back_whole() {
    let mut there = in_memory();
    keep(&mut there, &id(3), &with_partner());
    let (_place, mut journal) = here();
    import(&mut journal, "a.json", &exported(&there)).unwrap();
    let session = journal.find("last").unwrap();
    assert_eq!(session, expected(&id(3), &with_partner()));
    let end = session.end.unwrap();
    assert_eq!((end.cues_asked, end.grabs, end.falls), (3, 1, 0), "a push that was grabbed at counts once");
    assert_eq!((end.pushes_noted, end.pushes_not_noted), (2, 1));
}

#[test]
fn a_file_that_knows_more_of_a_session_completes_it() {
    let (_place, mut journal) = here();
    keep(&mut journal, &id(1), &session()[..5]);
    journal.close_interrupted().unwrap();
    assert_eq!(journal.find("last").unwrap().end.unwrap().why, SessionEnd::Interrupted);
    import(&mut journal, "a.json", &sample()).unwrap();
    let whole = journal.find("01010101").unwrap();
    assert_eq!(whole.end, expected(&id(1), &session()).end);
    assert_eq!(whole.sets, expected(&id(1), &session()).sets);

    let (_other_place, mut cut) = here();
    keep(&mut cut, &id(1), &session()[..5]);
    cut.close_interrupted().unwrap();
    import(&mut journal, "cut.json", &exported(&cut)).unwrap();
    assert_eq!(
        journal.find("01010101").unwrap().sets,
        whole.sets,
        "a file that knows less takes nothing away"
    );
}

/// One line of an export, changed.
fn with(nth: usize, change: impl FnOnce(&mut Value)) -> Vec<u8> {
    let mut value: Value = serde_json::from_slice(&sample()).unwrap();
    change(&mut value["entries"][nth]);
    value.to_string().into_bytes()
}

#[test]
fn what_is_broken_or_foreign_is_refused_with_its_place_and_changes_nothing() {
    let (_place, mut journal) = here();
    keep(&mut journal, &id(9), &session());
    let before = exported(&journal);
    let whole = sample();
    let schema = |schema: Value| {
        let mut value: Value = serde_json::from_slice(&sample()).unwrap();
        value["schema"] = schema;
        value.to_string().into_bytes()
    };
    let set = |path: &'static str, value: Value| {
        move |line: &mut Value| {
            *line.pointer_mut(path).unwrap() = value;
        }
    };
    // The beginning of the first set is the third line; the first cue and its end follow.
    let cases = [
        (Vec::new(), "line 1"),
        (whole[..900].to_owned(), "line"),
        (b"[1, 2]".to_vec(), "line 1"),
        (schema(json!("counterpoise.journal/3")), "counterpoise.journal/3"),
        (schema(json!(1)), "line"),
        (with(1, set("/id", json!("7"))), "is not an id"),
        (with(0, set("/entry/session_begun/drawn/seed", json!("00"))), "64"),
        (with(0, set("/entry/session_begun/begun", json!("yesterday"))), "\"yesterday\" is not a date"),
        (with(2, set("/entry/set_begun/set/stance", json!("headstand"))), "headstand"),
        (with(2, set("/entry/set_begun/cues/0/at_ms", json!(-1))), "-1"),
        (with(2, set("/entry/set_begun/cues/0/at_ms", json!(1.5))), "1.5"),
        (with(2, set("/entry/set_begun/set", json!({"number": 1}))), "missing field"),
        (with(5, set("/entry/set_ended/end/why", json!("tired"))), "\"tired\" is not one of \"completed\""),
        (with(3, set("/entry", json!({"danced": 1}))), "danced"),
        (with(3, set("/session", json!("77".repeat(16)))), "session 7777"),
        (with(3, set("/entry/cue_delivered/set", json!(7))), "the beginning of set 7 is missing"),
        (with(0, set("/session", json!("77".repeat(16)))), "its beginning has another id"),
        // What no practice can have.
        (with(7, set("/entry/answered/answer", json!(99))), "99 is not an answer to \"effort\""),
        (
            with(7, set("/entry/answered", json!({"set": 1, "question": "unwell", "answer": 2}))),
            "2 is not an answer",
        ),
        (
            with(
                7,
                set(
                    "/entry/answered",
                    json!({"set": 1, "question": "grabbed hold or nearly fell", "answer": 7}),
                ),
            ),
            "7 is not an answer",
        ),
        (with(7, set("/entry/answered/set", json!(0))), "there is no set 0"),
        (with(2, set("/entry/set_begun/set/step", json!(255))), "step 255 is not one of"),
        (with(5, set("/entry/set_ended/end/worked_ms", json!(1_000_000_000))), "the most is"),
        (with(5, set("/entry/set_ended/end/at", json!("2026-11-02T14:00:00Z[UTC]"))), "before it begins"),
        (with(3, set("/entry/cue_delivered/how/cue", json!(77))), "was not planned"),
        (with(0, set("/entry/session_begun/sets_planned", json!(1))), "it has 2 sets; 1 were planned"),
    ];
    for (text, said) in cases {
        let error = import(&mut journal, "x.json", &text).expect_err(said);
        assert!(error.to_string().starts_with("x.json cannot be imported: "), "{error}");
        assert!(error.to_string().contains(said), "{said}: {error}");
        assert_eq!(exported(&journal), before, "{error}");
    }
}

#[test]
fn a_file_that_contradicts_the_journal_is_refused() {
    let sample = Contents::of(told(id(1), &session()));
    let line = |nth: usize| told(id(1), &session())[nth].clone();
    let file = |lines: Vec<Line>| {
        let mut out = Vec::new();
        super::super::export::write_entries(super::super::export::SCHEMA, None, &lines, &mut out).unwrap();
        out
    };
    let anew = |line: Line| Line { id: Id::of("another id"), ..line };
    let heard = heard(1, 0, 293_904, 293_905);
    let (set, end) = (line(2), line(17));
    let cases = [
        // Another entry under the same id, whatever differs.
        (Line { at_ms: 7, ..line(3) }, format!("the entry {} differs", line(3).id)),
        (Line { entry: heard.clone().into(), ..line(3) }, format!("the entry {} differs", line(3).id)),
        // The same thing told in another way under an id of its own.
        (anew(Line { entry: heard.into(), ..line(3) }), "cue 0 of set 1 is there twice".to_owned()),
        (
            anew(Line { entry: told(id(1), &with_partner())[3].entry.clone(), ..set }),
            "set 1 begins twice".to_owned(),
        ),
        (
            anew(Line {
                entry: counterpoise_core::record::Entry::SessionEnded {
                    at: super::super::sample::moment(1),
                    why: SessionEnd::Fell,
                }
                .into(),
                ..end
            }),
            "it ends twice".to_owned(),
        ),
    ];
    for (line, said) in cases {
        let (_place, mut journal) = here();
        keep(&mut journal, &id(1), &session());
        let error = import(&mut journal, "x.json", &file(vec![line])).unwrap_err().to_string();
        assert!(error.contains(&said), "{said}: {error}");
        assert_eq!(journal.contents().unwrap().sessions, sample.sessions);
    }
}

#[test]
fn what_is_of_a_later_form_is_taken_in_said_and_given_on() {
    let (place, mut journal) = here();
    let text = with(4, |line| {
        line["format"] = json!(FORMAT + 1);
        line["entry"] = json!({ "danced": { "how": "well" } });
    });
    import(&mut journal, "x.json", &text).unwrap();
    let given_on: Value = serde_json::from_slice(&exported(&journal)).unwrap();
    let taken: Value = serde_json::from_slice(&text).unwrap();
    assert_eq!(given_on["entries"], taken["entries"]);
    drop(journal);
    let folder = Folder::open_in(place.path()).unwrap();
    let notices = Journal::open(folder.lock().unwrap()).unwrap().1;
    let said: Vec<String> = notices.iter().map(ToString::to_string).collect();
    assert!(
        said.iter().any(|notice| notice.starts_with(&format!("1 entry of a later form ({})", FORMAT + 1))),
        "{said:?}"
    );
}

#[test]
fn a_rescue_file_from_elsewhere_is_imported_too() {
    let (place, mut journal) = here();
    let lines = told(id(1), &session());
    keep(&mut journal, &id(1), &session()[..5]);
    journal.close_interrupted().unwrap();
    let folder = Folder::open_in(place.path()).unwrap();
    let file = rescue::write(&folder, id(1), &lines[5..]).unwrap();
    let text = std::fs::read(file).unwrap();
    for _ in 0..2 {
        let done = import(&mut journal, "rescue.json", &text).unwrap();
        assert_eq!(done, Imported { added: 0, known: 1 });
        assert_eq!(journal.find("last").unwrap().sets, expected(&id(1), &session()).sets);
    }
    let whole = rescue::write(&folder, id(2), &told(id(2), &session())).unwrap();
    let whole = std::fs::read(whole).unwrap();
    assert_eq!(import(&mut journal, "rescue.json", &whole).unwrap(), Imported { added: 1, known: 0 });
}

#[test]
fn a_rescue_file_of_which_a_part_fits_is_taken_in_as_far_as_it_does_and_says_so() {
    let (place, mut journal) = here();
    let folder = Folder::open_in(place.path()).unwrap();
    let mut lines = told(id(1), &session());
    lines.extend(told(id(1), &[heard(3, 0, 1, 1)]));
    let text = std::fs::read(rescue::write(&folder, id(1), &lines).unwrap()).unwrap();
    let error = import(&mut journal, "rescue.json", &text).unwrap_err();
    assert!(
        error.to_string().starts_with("rescue.json was imported in part: 1 of its 19 entries"),
        "{error}"
    );
    assert!(error.hint().starts_with("Keep the file"), "{}", error.hint());
    let last = journal.find("last").unwrap();
    assert!(last.is_doubtful, "what has no place counts as not fine");
    assert_eq!(SessionRecord { is_doubtful: false, ..last }, expected(&id(1), &session()));
}

#[test]
fn a_journal_opened_to_look_takes_nothing_in() {
    let place = tempdir().unwrap();
    let mut journal = Journal::look(&Folder::open_in(place.path()).unwrap()).unwrap();
    assert!(import(&mut journal, "x.json", &sample()).is_err());
}

#[test]
fn a_full_disk_takes_nothing_in_and_loses_nothing() {
    let place = tempdir().unwrap();
    let folder = Folder::open_in(place.path()).unwrap();
    let mut journal = open(&folder);
    keep(&mut journal, &id(200), &session());
    let before = exported(&journal);
    drop(journal);
    drop(open(&folder));
    let mut much = in_memory();
    for byte in 0..199 {
        for line in told(id(byte), &session()) {
            lines::insert(&much.db, &line).unwrap();
        }
    }
    much.summarize();
    let pages = std::fs::metadata(folder.journal_file()).unwrap().len() / 4096;
    let (mut journal, _) = Journal::open_within(folder.lock().unwrap(), Some(pages as u32)).unwrap();
    let error = import(&mut journal, "much.json", &exported(&much)).unwrap_err();
    assert!(matches!(error, JournalError::Full { .. }), "{error}");
    assert!(error.hint().contains("Free some space"), "{}", error.hint());
    assert_eq!(exported(&journal), before);
    drop(journal);
    let mut journal = open(&folder);
    assert_eq!(import(&mut journal, "much.json", &exported(&much)).unwrap().added, 199);
}

#[test]
fn two_journals_become_one() {
    let (_place, mut journal) = here();
    keep(&mut journal, &id(9), &session());
    import(&mut journal, "a.json", &sample()).unwrap();
    let mut all = ids(&journal);
    all.sort();
    assert_eq!(all, [id(1), id(2), id(9)]);
}

/// What one computer knows: of each session so many lines, whether it was closed there, and corrections of its own.
fn computer(
    sessions: &[(u8, Vec<counterpoise_core::record::Entry>, usize)],
    closed: bool,
    corrected: &[u8],
) -> Vec<u8> {
    let (_place, mut journal) = here();
    for (byte, entries, known) in sessions {
        keep(&mut journal, &id(*byte), &entries[..*known]);
    }
    if closed {
        journal.close_interrupted().unwrap();
    }
    let known: Vec<u8> = sessions.iter().filter(|(_, _, known)| *known > 0).map(|(byte, ..)| *byte).collect();
    for which in corrected.iter().filter(|_| !known.is_empty()) {
        let session = id(known[usize::from(*which) % known.len()]);
        let what = [Corrected::SetAside, Corrected::CountsAgain][usize::from(*which) % 2];
        // The clock of the one may be years behind that of the other.
        let year = 2020 + i32::from(*which) % 10;
        let at = format!("{year}-11-02T09:30:00Z[UTC]").parse().unwrap();
        journal.keep_correction(&at, &CorrectionRow::new(&at, session, what, "x")).unwrap();
    }
    exported(&journal)
}

#[test]
fn of_two_ends_that_were_found_missing_the_later_stays_in_either_order() {
    // The sample's first set is cut off after its first call on one computer, and after its second on the other.
    let [less, more] = [4, 5].map(|known| computer(&[(1, session(), known)], true, &[]));
    let (one, other) = (merged(&[&less, &more]), merged(&[&more, &less]));
    assert_eq!(one, other);
    let end = |contents: &Contents| contents.sessions[0].sets[0].end.as_ref().unwrap().worked_ms;
    assert_eq!(
        [merged(&[&less]), merged(&[&more]), one].map(|merged| end(&merged.0)),
        [6_123, 21_501, 21_501]
    );
}

/// A new journal that took in these, one after the other.
fn merged(files: &[&[u8]]) -> (Contents, Summaries) {
    let (_place, mut journal) = here();
    for file in files {
        import(&mut journal, "a.json", file).unwrap();
    }
    (journal.contents().unwrap(), journal.summaries().unwrap())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(32))]

    #[test]
    fn two_journals_of_one_person_become_the_same_one_in_either_order_and_as_often_as_one_likes(
        sessions in prop::collection::hash_map(
            any::<u8>(),
            // One knows up to some line, the other a few lines more, or none at all.
            (any_session(), any::<prop::sample::Index>(), prop::option::of(0_usize..5), any::<bool>()),
            1..4,
        ),
        closed in (prop::bool::weighted(0.8), prop::bool::weighted(0.8)),
        corrected in any::<([u8; 2], [u8; 2])>(),
    ) {
        let known = |is_laptop: bool| {
            let each = sessions.iter().map(|(byte, ((_, entries), cut, more, laptop_knows_more))| {
                let less = cut.index(entries.len() + 1);
                let other = more.map_or(0, |more| (less + more).min(entries.len()));
                (*byte, entries.clone(), if is_laptop == *laptop_knows_more { other } else { less })
            });
            each.collect::<Vec<_>>()
        };
        let laptop = computer(&known(true), closed.0, &corrected.0);
        let tablet = computer(&known(false), closed.1, &corrected.1);
        let once = merged(&[&laptop, &tablet]);
        prop_assert_eq!(&merged(&[&tablet, &laptop]), &once, "in the other order");
        prop_assert_eq!(&merged(&[&laptop, &tablet, &tablet, &laptop]), &once, "twice");
    }

    #[test]
    fn an_export_imported_into_an_empty_journal_is_exported_byte_for_byte(
        sessions in prop::collection::hash_map(any::<u8>(), any_session(), 0..4)
    ) {
        let mut first = in_memory();
        for (byte, (_, entries)) in &sessions {
            keep(&mut first, &id(*byte), entries);
        }
        let text = exported(&first);
        let (_place, mut second) = here();
        import(&mut second, "a.json", &text).unwrap();
        prop_assert_eq!(exported(&second), text);
    }
}
