//! What was exported comes back; what is broken, foreign or contradicts is refused whole.

use proptest::prelude::*;
use serde_json::{Value, json};
use tempfile::tempdir;

use super::super::keep::Try;
use super::super::sample::{
    any_session, begun, expected, id, in_memory, keep, moment, open, session, with_partner,
};
use super::super::{Corrected, CorrectionRow, Folder, Journal, JournalError, export, rescue};
use super::{Imported, import};
use counterpoise_core::course::past::{Barrier, Lifted};
use counterpoise_core::health::lock::Lock;
use counterpoise_core::health::suitability::{Answer, Topic};
use counterpoise_core::record::{Line, SessionEnd};

fn exported(journal: &Journal) -> String {
    let mut out = Vec::new();
    export::json(journal, &mut out).unwrap();
    String::from_utf8(out).unwrap()
}

fn here() -> (tempfile::TempDir, Journal) {
    let place = tempdir().unwrap();
    let journal = open(&Folder::open_in(place.path()).unwrap());
    (place, journal)
}

fn sample() -> String {
    let mut journal = in_memory();
    keep(&mut journal, &id(1), &session());
    keep(&mut journal, &id(2), &session()[..5]);
    exported(&journal)
}

#[test]
fn what_is_imported_twice_is_there_once() {
    let (_place, mut journal) = here();
    journal.adopt(b"one", "a.toml", &"2026-11-02T09:30:00Z[UTC]".parse().unwrap()).unwrap();
    let text = exported(&journal).replace("\"sessions\": []", &sample_sessions());
    let done = import(&mut journal, "a.json", text.as_bytes()).unwrap();
    assert_eq!(done, Imported { added: 2, known: 0 });
    let once = exported(&journal);
    let done = import(&mut journal, "a.json", text.as_bytes()).unwrap();
    assert_eq!(done.to_string(), "0 sessions added, 2 already there.");
    assert_eq!(exported(&journal), once);
    assert_eq!(journal.changes().unwrap().len(), 1);
}

fn sample_sessions() -> String {
    let value: Value = serde_json::from_str(&sample()).unwrap();
    format!("\"sessions\": {}", value["sessions"])
}

#[test]
fn an_export_from_before_disturbances_were_kept_is_taken_in() {
    let mut lines = session();
    lines.retain(|line| !matches!(line, Line::SoundDisturbed { .. }));
    let mut journal = in_memory();
    keep(&mut journal, &id(1), &lines);
    let mut earlier: Value = serde_json::from_str(&exported(&journal)).unwrap();
    for set in earlier["sessions"][0]["sets"].as_array_mut().unwrap() {
        assert!(set.as_object_mut().unwrap().remove("disturbed").is_some());
    }
    let (_place, mut journal) = here();
    import(&mut journal, "a.json", earlier.to_string().as_bytes()).unwrap();
    assert_eq!(journal.find("last").unwrap(), expected(&id(1), &lines));
}

/// What has no value in an earlier export is left out of it: an export from then is one without these fields.
fn without_what_came_with_partners(value: &mut Value) {
    const LATER: [&str; 18] = [
        "left_out",
        "mishaps",
        "advised",
        "routines",
        "course",
        "responses",
        "channel",
        "facing",
        "second_task",
        "until_ms",
        "strength",
        "ball",
        "tell",
        "practice",
        "asked_ms",
        "cues_asked",
        "pushes_noted",
        "pushes_not_noted",
    ];
    match value {
        Value::Array(list) => list.iter_mut().for_each(without_what_came_with_partners),
        Value::Object(map) => {
            map.retain(|name, _| {
                !LATER.contains(&name.as_str()) && !["grabs", "falls"].contains(&name.as_str())
            });
            map.values_mut().for_each(without_what_came_with_partners);
        }
        _ => {}
    }
}

#[test]
fn an_export_from_before_partners_is_taken_in() {
    let mut earlier: Value = serde_json::from_str(&sample()).unwrap();
    without_what_came_with_partners(&mut earlier);
    let (_place, mut journal) = here();
    import(&mut journal, "a.json", earlier.to_string().as_bytes()).unwrap();
    let mut again: Value = serde_json::from_str(&exported(&journal)).unwrap();
    without_what_came_with_partners(&mut again);
    assert_eq!(again, earlier);
    let done = import(&mut journal, "a.json", earlier.to_string().as_bytes()).unwrap();
    assert_eq!(done, Imported { added: 0, known: 2 });
}

#[test]
fn a_session_with_a_partner_comes_back_whole_and_a_contradiction_is_refused() {
    let mut there = in_memory();
    keep(&mut there, &id(3), &with_partner());
    let text = exported(&there);
    let (_place, mut journal) = here();
    import(&mut journal, "a.json", text.as_bytes()).unwrap();
    let session = journal.find("last").unwrap();
    assert_eq!(session, expected(&id(3), &with_partner()));
    let end = session.end.unwrap();
    assert_eq!((end.cues_asked, end.grabs, end.falls), (3, 1, 0), "a push that was grabbed at counts once");
    assert_eq!((end.pushes_noted, end.pushes_not_noted), (2, 1));
    for (path, other, said) in [
        ("/sets/0/responses/0/response", json!("feet in place"), "set 1"),
        ("/mishaps/0/what", json!("fell"), "a grab or a fall"),
        ("/left_out/0/why", json!("sound not heard"), "a set that was left out"),
        ("/routines/0/how", json!("skipped"), "a warm-up or cool-down"),
        ("/course/0", json!("floor"), "its floor course"),
        ("/sets/0/plans/0/cues/0/strength", json!(2), "set 1"),
    ] {
        let mut changed: Value = serde_json::from_str(&text).unwrap();
        let place = format!("/sessions/0{path}");
        assert_ne!(changed.pointer(&place), Some(&other), "{path}");
        *changed.pointer_mut(&place).expect(path) = other;
        let error = import(&mut journal, "b.json", changed.to_string().as_bytes()).unwrap_err().to_string();
        assert!(error.contains(said), "{path}: {error}");
    }
}

#[test]
fn two_journals_become_one() {
    let (_place, mut journal) = here();
    keep(&mut journal, &id(9), &session());
    import(&mut journal, "a.json", sample().as_bytes()).unwrap();
    assert_eq!(journal.ids().unwrap(), [id(1), id(2), id(9)]);
}

#[test]
fn a_file_that_knows_more_of_a_session_completes_it() {
    let (_place, mut journal) = here();
    keep(&mut journal, &id(1), &session()[..5]);
    super::super::interrupted::close(&mut journal.db).unwrap();
    assert_eq!(journal.find("last").unwrap().end.unwrap().why, SessionEnd::Interrupted);
    import(&mut journal, "a.json", sample().as_bytes()).unwrap();
    assert_eq!(journal.find("01010101").unwrap(), expected(&id(1), &session()));

    let mut cut = in_memory();
    keep(&mut cut, &id(1), &session()[..5]);
    super::super::interrupted::close(&mut cut.db).unwrap();
    let before = exported(&journal);
    import(&mut journal, "cut.json", exported(&cut).as_bytes()).unwrap();
    assert_eq!(exported(&journal), before, "a file that knows less takes nothing away");
}

#[test]
fn what_is_broken_or_foreign_is_refused_with_its_place_and_changes_nothing() {
    let (_place, mut journal) = here();
    keep(&mut journal, &id(9), &session());
    let before = exported(&journal);
    let whole: Value = serde_json::from_str(&sample()).unwrap();
    let with = |path: &str, value: Value| {
        let mut changed = whole.clone();
        *changed.pointer_mut(path).unwrap() = value;
        serde_json::to_string_pretty(&changed).unwrap()
    };
    let set = "/sessions/0/sets/0";
    let twice = whole.pointer("/sessions/0/sets/0").unwrap().clone();
    let cases = [
        (String::new(), "line 1"),
        (sample()[..900].to_owned(), "line"),
        ("[1, 2]".to_owned(), "line 1"),
        (with("/schema", json!("counterpoise.journal/2")), "counterpoise.journal/2"),
        (with("/schema", json!(1)), "line"),
        (with("/sessions/1/id", json!("7")), "not a session's id"),
        (with("/sessions/1/start/seed", json!("00")), "64"),
        (with("/sessions/1/start/begun", json!("yesterday")), "\"yesterday\" is not a date"),
        (with(&format!("{set}/end/why"), json!("tired")), "\"tired\" is not one of \"completed\""),
        (with(&format!("{set}/start/stance"), json!("headstand")), "headstand"),
        (with(&format!("{set}/plans/0/cues/0/at_ms"), json!(-1)), "-1"),
        (with(&format!("{set}/plans/0/cues/0/at_ms"), json!(1.5)), "1.5"),
        (with(&format!("{set}/plans/0/cues/0/blank"), json!(true)), "do not fit together"),
        (with(&format!("{set}/plans/0/cues/1/cue"), json!(0)), "set 1"),
        (with(&format!("{set}/delivered/0/heard_ms"), json!(null)), "do not fit together"),
        (with(&format!("{set}/start"), json!({"number": 1})), "missing field"),
        (with("/sessions/0/sets/1", twice), "set 1"),
    ];
    for (text, said) in cases {
        let error = import(&mut journal, "x.json", text.as_bytes()).expect_err(said);
        assert!(error.to_string().starts_with("x.json cannot be imported: "), "{error}");
        assert!(error.to_string().contains(said), "{said}: {error}");
        assert_eq!(exported(&journal), before, "{error}");
    }
}

#[test]
fn a_file_that_contradicts_the_journal_is_refused() {
    let (_place, mut journal) = here();
    let mut other = session();
    other[3] = super::super::sample::heard(1, 0, 293_904, 293_905);
    keep(&mut journal, &id(1), &other);
    let error = import(&mut journal, "x.json", sample().as_bytes()).unwrap_err();
    assert!(error.to_string().contains("set 1 differs from the one in this journal"), "{error}");
    assert_eq!(journal.ids().unwrap(), [id(1)]);
}

#[test]
fn a_rescue_file_from_elsewhere_is_imported_too() {
    let (place, mut journal) = here();
    keep(&mut journal, &id(1), &session()[..5]);
    super::super::interrupted::close(&mut journal.db).unwrap();
    let folder = Folder::open_in(place.path()).unwrap();
    let file = rescue::write(&folder, &id(1), &session()[5..]).unwrap();
    let text = std::fs::read(file).unwrap();
    for _ in 0..2 {
        let done = import(&mut journal, "rescue.json", &text).unwrap();
        assert_eq!(done, Imported { added: 0, known: 1 });
        assert_eq!(journal.find("last").unwrap(), expected(&id(1), &session()));
    }
    let whole = std::fs::read(rescue::write(&folder, &id(2), &session()).unwrap()).unwrap();
    assert_eq!(import(&mut journal, "rescue.json", &whole).unwrap(), Imported { added: 1, known: 0 });
}

#[test]
fn a_rescue_file_of_which_a_part_fits_is_taken_in_as_far_as_it_does_and_says_so() {
    let (place, mut journal) = here();
    let folder = Folder::open_in(place.path()).unwrap();
    let mut lines = session();
    lines.push(super::super::sample::heard(3, 0, 1, 1));
    let text = std::fs::read(rescue::write(&folder, &id(1), &lines).unwrap()).unwrap();
    let error = import(&mut journal, "rescue.json", &text).unwrap_err();
    assert!(
        error.to_string().starts_with("rescue.json was imported in part: 1 of its 19 entries"),
        "{error}"
    );
    assert!(error.hint().starts_with("Keep the file"), "{}", error.hint());
    assert_eq!(journal.find("last").unwrap(), expected(&id(1), &session()));
}

#[test]
fn a_journal_opened_to_look_takes_nothing_in() {
    let place = tempdir().unwrap();
    let mut journal = Journal::look(&Folder::open_in(place.path()).unwrap()).unwrap();
    assert!(import(&mut journal, "x.json", sample().as_bytes()).is_err());
}

#[test]
fn an_unended_session_stays_so() {
    let (_place, mut journal) = here();
    import(&mut journal, "a.json", sample().as_bytes()).unwrap();
    assert_eq!(journal.find("0202").unwrap().end, None);
    let more = Line::SessionEnded { at: moment(300_000), why: SessionEnd::Closed };
    journal.commit(&id(2), &more, Try::First).unwrap();
    keep(&mut journal, &id(3), &[begun(moment(1))]);
}

#[test]
fn a_clearance_or_an_answer_that_was_added_to_by_hand_is_refused() {
    let (_place, mut journal) = here();
    let at = "2026-11-02T08:00:00Z[UTC]".parse().unwrap();
    let lock = |session: &str| Lifted { session: session.into(), what: Barrier::Lock(Lock::Faint) };
    journal.keep_clearance(&at, "K. L.", "seen", &[lock("one")]).unwrap();
    let answers: Vec<(Topic, Answer)> = Topic::questions(false).map(|topic| (topic, Answer::True)).collect();
    journal.keep_suitability(&at, false, &answers).unwrap();
    let text = exported(&journal);
    let more = text.replace("\"locked_by\": \"one\",", "\"locked_by\": \"two\",");
    let other = text.replacen("\"answer\": \"true\"", "\"answer\": \"not true\"", 1);
    let fewer = text.replace("\"partner\": false", "\"partner\": true");
    for (changed, said) in [(more, "the clearance"), (other, "suitability"), (fewer, "suitability")] {
        assert_ne!(changed, text);
        let error = import(&mut journal, "x.json", changed.as_bytes()).unwrap_err().to_string();
        assert!(error.contains(said) && error.contains("2026-11-02"), "{error}");
        assert_eq!(exported(&journal), text, "no lock more is lifted");
    }
    import(&mut journal, "x.json", text.as_bytes()).unwrap();
    assert_eq!(exported(&journal), text);
}

#[test]
fn a_full_disk_takes_nothing_in_and_loses_nothing() {
    let place = tempdir().unwrap();
    let folder = Folder::open_in(place.path()).unwrap();
    let mut journal = open(&folder);
    keep(&mut journal, &id(200), &session());
    let before = exported(&journal);
    drop(journal);
    let mut much = in_memory();
    for byte in 0..199 {
        keep(&mut much, &id(byte), &session());
    }
    let pages = std::fs::metadata(folder.journal_file()).unwrap().len() / 4096;
    let (mut journal, _) = Journal::open_within(folder.lock().unwrap(), Some(pages as u32)).unwrap();
    let error = import(&mut journal, "much.json", exported(&much).as_bytes()).unwrap_err();
    assert!(matches!(error, JournalError::Full { .. }), "{error}");
    assert!(error.hint().contains("Free some space"), "{}", error.hint());
    assert_eq!(exported(&journal), before);
    drop(journal);
    let mut journal = open(&folder);
    assert_eq!(import(&mut journal, "much.json", exported(&much).as_bytes()).unwrap().added, 199);
}

/// What one computer knows: of each session so many lines, whether it was closed there, and corrections and a clearance of
/// its own. `parity` keeps the moments of two computers apart.
fn computer(sessions: &[(u8, Vec<Line>, usize)], closed: bool, corrected: &[u8], parity: i64) -> String {
    let mut journal = in_memory();
    for (byte, lines, known) in sessions {
        keep(&mut journal, &id(*byte), &lines[..*known]);
    }
    if closed {
        super::super::interrupted::close(&mut journal.db).unwrap();
    }
    let known: Vec<u8> = sessions.iter().filter(|(_, _, known)| *known > 0).map(|(byte, ..)| *byte).collect();
    for (nth, which) in (0_i64..).zip(corrected).filter(|_| !known.is_empty()) {
        let session = id(known[usize::from(*which) % known.len()]);
        let what = [Corrected::SetAside, Corrected::CountsAgain][usize::from(*which) % 2];
        let row = CorrectionRow {
            at: moment(2 * nth + parity),
            session,
            what,
            set: None,
            question: None,
            cue: None,
            right: None,
            reason: "x".into(),
        };
        super::super::correction::insert_correction(&journal.db, &row).unwrap();
    }
    exported(&journal)
}

#[test]
fn of_two_ends_that_were_found_missing_the_later_stays_in_either_order() {
    // The sample's first set is cut off after its first call on one computer, and after its second on the other.
    let [less, more] = [4, 5].map(|known| computer(&[(1, session(), known)], true, &[], 0));
    let (one, other) = (merged(&[&less, &more]), merged(&[&more, &less]));
    assert_eq!(one, other);
    let end = |text: &str| {
        let value: Value = serde_json::from_str(text).unwrap();
        value["sessions"][0]["sets"][0]["end"]["worked_ms"].clone()
    };
    assert_eq!([end(&less), end(&more), end(&one.0)], [json!(6_123), json!(21_501), json!(21_501)]);
}

/// A new journal that took in these, one after the other.
fn merged(files: &[&str]) -> (String, counterpoise_core::course::past::Past) {
    let (_place, mut journal) = here();
    for file in files {
        import(&mut journal, "a.json", file.as_bytes()).unwrap();
    }
    (exported(&journal), journal.past().unwrap())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

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
            let each = sessions.iter().map(|(byte, ((_, lines), cut, more, laptop_knows_more))| {
                let less = cut.index(lines.len() + 1);
                let other = more.map_or(0, |more| (less + more).min(lines.len()));
                (*byte, lines.clone(), if is_laptop == *laptop_knows_more { other } else { less })
            });
            each.collect::<Vec<_>>()
        };
        let laptop = computer(&known(true), closed.0, &corrected.0, 0);
        let tablet = computer(&known(false), closed.1, &corrected.1, 1);
        let once = merged(&[&laptop, &tablet]);
        prop_assert_eq!(&merged(&[&tablet, &laptop]), &once, "in the other order");
        prop_assert_eq!(&merged(&[&laptop, &tablet, &tablet, &laptop]), &once, "twice");
        prop_assert_eq!(&merged(&[&once.0, &laptop]), &once, "what was merged, merged again");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(32))]

    #[test]
    fn an_export_imported_into_an_empty_journal_is_exported_byte_for_byte(
        sessions in prop::collection::hash_map(any::<u8>(), any_session(), 0..4)
    ) {
        let mut first = in_memory();
        for (byte, (_, lines)) in &sessions {
            keep(&mut first, &id(*byte), lines);
        }
        let text = exported(&first);
        let (_place, mut second) = here();
        import(&mut second, "a.json", text.as_bytes()).unwrap();
        prop_assert_eq!(exported(&second), text);
    }
}
