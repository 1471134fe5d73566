//! A person's folder: who may open it, what is refused, what a crash leaves.

use std::fs;
use std::io::{BufRead, BufReader};
use std::path::Path;
use std::process::{Command, Stdio};

use rusqlite::Connection;
use tempfile::tempdir;

use super::sample::{begun, id, keep, moment, open, session, set, told};
use super::{Folder, Journal, JournalError, Notice, Writer};
use counterpoise_core::draw::schedule::{Call, Method, Scheduler, Seed};
use counterpoise_core::plan::drill::Drill;
use counterpoise_core::plan::place::Room;
use counterpoise_core::plan::prescription::{Digest, Prescription};
use counterpoise_core::record::{
    ChangeRow, Channel, Drawn, Entry, Id, Line, Numbered, SessionBegun, SessionEnd, SetEnd, Times,
};
use counterpoise_core::units::Millis;

fn folder(path: &Path) -> Folder {
    Folder::open_in(path).unwrap()
}

fn ids(journal: &Journal) -> Vec<Id> {
    journal.contents().unwrap().sessions.iter().map(|session| session.id).collect()
}

fn refusal(folder: &Folder) -> JournalError {
    Journal::open(folder.lock().unwrap()).map(|_| ()).unwrap_err()
}

#[test]
fn a_second_window_is_told_so_and_can_still_look() {
    let place = tempdir().unwrap();
    let folder = folder(&place.path().join("ada"));
    let mut first = open(&folder);
    keep(&mut first, &id(1), &session()[..4]);

    let error = folder.lock().unwrap_err();
    let said = format!(
        "another Counterpoise window (process {}) is open with this journal ({})",
        std::process::id(),
        folder.path().display()
    );
    assert_eq!(error.to_string(), said);
    assert_eq!(Journal::look(&folder).unwrap().find("last").unwrap().end, None, "not closed by looking");

    drop(first);
    let (_, notices) = Journal::open(folder.lock().unwrap()).unwrap();
    assert_eq!(notices, [Notice::Interrupted(1)]);
}

#[test]
fn looking_changes_nothing_and_makes_nothing() {
    let place = tempdir().unwrap();
    let folder = folder(&place.path().join("ada"));
    let journal = Journal::look(&folder).unwrap();
    assert!(journal.contents().unwrap().sessions.is_empty());
    assert!(matches!(journal.find("last"), Err(JournalError::NoSuchSession(_))));
    assert!(!folder.path().exists());

    keep(&mut open(&folder), &id(1), &session());
    let mut journal = Journal::look(&folder).unwrap();
    let line = &told(id(2), &[begun(moment(0))])[0];
    let refused = super::lines::insert(&journal.db, line).unwrap_err();
    assert!(refused.to_string().contains("readonly"), "{refused}");
    let error = journal.adopt(b"", "x.toml", &"2026-11-02T09:30:00Z[UTC]".parse().unwrap()).unwrap_err();
    assert!(matches!(error, JournalError::ReadOnly { .. }));
}

#[cfg(unix)]
#[test]
fn only_the_owner_can_read() {
    use std::os::unix::fs::PermissionsExt;
    let mode = |path: &Path| fs::metadata(path).unwrap().permissions().mode() & 0o777;
    let place = tempdir().unwrap();
    let folder = folder(&place.path().join("of/ada"));
    let mut journal = open(&folder);
    journal.adopt(b"title = 1", "x.toml", &"2026-11-02T09:30:00Z[UTC]".parse().unwrap()).unwrap();
    let fault = folder.write_fault("somewhere").unwrap();
    assert_eq!(mode(folder.path()), 0o700);
    for file in [&folder.journal_file(), &folder.prescription_file(), &folder.path().join("lock"), &fault] {
        assert_eq!(mode(file), 0o600, "{}", file.display());
    }
    assert_ne!(folder.write_fault("elsewhere").unwrap(), fault, "one fault does not overwrite another");
    assert_eq!(fs::read_to_string(fault).unwrap(), "somewhere");
}

#[test]
fn a_place_that_cannot_be_a_folder_is_refused() {
    let place = tempdir().unwrap();
    let file = place.path().join("file");
    fs::write(&file, "mine").unwrap();
    for path in [file.clone(), file.join("ada")] {
        let error = Folder::open_in(&path).unwrap_err();
        assert!(error.to_string().starts_with(&format!("{} cannot be a folder", path.display())), "{error}");
        assert!(error.hint().contains("--data-dir"));
    }
    assert_eq!(fs::read_to_string(&file).unwrap(), "mine");
    // Even root cannot make a folder there.
    #[cfg(target_os = "linux")]
    assert!(matches!(folder(Path::new("/proc/ada")).lock(), Err(JournalError::NotAFolder { .. })));
}

#[test]
fn a_file_that_is_not_our_journal_is_left_as_it_was() {
    let other = |sql: &str| {
        let place = tempdir().unwrap();
        let path = place.path().join("other");
        Connection::open(&path).unwrap().execute_batch(sql).unwrap();
        fs::read(path).unwrap()
    };
    let files = [
        b"Dear diary, this is more than sixteen bytes long, and it is no database at all.\n".repeat(40),
        b"short".to_vec(),
        other("CREATE TABLE mine (a)"),
        other("PRAGMA application_id = 7; PRAGMA user_version = 1"),
        other("PRAGMA user_version = 1"),
    ];
    for bytes in files {
        let place = tempdir().unwrap();
        let folder = folder(place.path());
        fs::write(folder.journal_file(), &bytes).unwrap();
        let error = refusal(&folder);
        assert!(matches!(error, JournalError::NotOurs { .. }), "{error:?}");
        assert!(matches!(Journal::look(&folder), Err(JournalError::NotOurs { .. })));
        assert_eq!(fs::read(folder.journal_file()).unwrap(), bytes);
    }
}

#[test]
fn a_journal_of_a_newer_version_is_left_as_it_was() {
    let place = tempdir().unwrap();
    let folder = folder(place.path());
    drop(open(&folder));
    Connection::open(folder.journal_file()).unwrap().pragma_update(None, "user_version", 99).unwrap();
    let before = fs::read(folder.journal_file()).unwrap();
    assert!(matches!(refusal(&folder), JournalError::Newer { found: 99, .. }));
    assert!(matches!(Journal::look(&folder), Err(JournalError::Newer { found: 99, .. })));
    assert_eq!(fs::read(folder.journal_file()).unwrap(), before);
}

#[test]
fn a_damaged_journal_is_refused() {
    let place = tempdir().unwrap();
    let folder = folder(place.path());
    drop(open(&folder));
    let mut bytes = fs::read(folder.journal_file()).unwrap();
    bytes[100..600].fill(0xff);
    fs::write(folder.journal_file(), &bytes).unwrap();
    let error = refusal(&folder);
    assert!(matches!(error, JournalError::Damaged { .. }), "{error:?}");
    assert_eq!(fs::read(folder.journal_file()).unwrap(), bytes);
}

#[test]
fn a_full_disk_is_told_before_practice_starts() {
    let place = tempdir().unwrap();
    let folder = folder(place.path());
    let error = Journal::open_within(folder.lock().unwrap(), Some(4)).map(|_| ()).unwrap_err();
    assert!(matches!(error, JournalError::Full { .. }), "no room for the tables: {error:?}");
    keep(&mut open(&folder), &id(1), &session());
    // What is free in the file is not enough once it was used up.
    Connection::open(folder.journal_file()).unwrap().execute_batch("VACUUM").unwrap();
    let error = Journal::open_within(folder.lock().unwrap(), Some(40)).map(|_| ()).unwrap_err();
    assert!(matches!(error, JournalError::Full { .. }), "no room for a session: {error:?}");
    assert_eq!(ids(&Journal::look(&folder).unwrap()), [id(1)], "what was kept is there");
}

#[test]
fn a_session_fits_into_a_journal_although_the_disk_is_full_by_then() {
    let place = tempdir().unwrap();
    let folder = folder(place.path());
    drop(open(&folder));
    let pages = fs::metadata(folder.journal_file()).unwrap().len() / 4096;
    let (mut journal, _) = Journal::open_within(folder.lock().unwrap(), Some(pages as u32)).unwrap();
    keep(&mut journal, &id(1), &session());
    assert_eq!(journal.find("last").unwrap().sets.len(), 2);
}

#[test]
fn a_commit_is_on_the_disk_before_it_returns() {
    let place = tempdir().unwrap();
    let journal = open(&folder(place.path()));
    let pragma = |name| journal.db.pragma_query_value(None, name, |row| row.get::<_, i64>(0)).unwrap();
    // https://www.sqlite.org/pragma.html#pragma_synchronous: EXTRA is 3.
    assert_eq!(pragma("synchronous"), 3);
    let mode: String = journal.db.pragma_query_value(None, "journal_mode", |row| row.get(0)).unwrap();
    assert_eq!(mode, "persist");
}

#[test]
fn a_session_without_an_end_becomes_interrupted_at_its_last_sign() {
    let place = tempdir().unwrap();
    let folder = folder(place.path());
    let mut journal = open(&folder);
    // Cut off in the second set, whose last sign is the cue heard at 14.001 s of its work.
    keep(&mut journal, &id(1), &session()[..13]);
    keep(&mut journal, &id(2), &[begun(moment(500_000))]);
    keep(&mut journal, &id(3), &[begun(moment(600_000)), set(1, moment(660_000))]);
    drop(journal);

    let (journal, notices) = Journal::open(folder.lock().unwrap()).unwrap();
    assert_eq!(notices, [Notice::Interrupted(3)]);
    let ends: Vec<_> = journal.contents().unwrap().sessions.into_iter().map(|one| one.end.unwrap()).collect();
    assert!(ends.iter().all(|end| end.why == SessionEnd::Interrupted));
    let times: Vec<_> = ends.into_iter().map(|end| end.at).collect();
    assert_eq!(times, [moment(214_001), moment(500_000), moment(660_000)]);
    let first = journal.find(&id(1).short()).unwrap();
    let end = first.sets[1].end.clone().unwrap();
    assert_eq!((end.why, end.worked_ms, end.at), (SetEnd::Interrupted, 14_001, moment(214_001)));
    assert_eq!(first.sets[0].end.as_ref().unwrap().why, SetEnd::Completed, "what had ended is as it was");
    drop(journal);
    assert_eq!(Journal::open(folder.lock().unwrap()).unwrap().1, [], "once");
}

#[test]
fn the_summary_is_counted_from_what_is_kept() {
    let place = tempdir().unwrap();
    let mut journal = open(&folder(place.path()));
    keep(&mut journal, &id(1), &session());
    let end = journal.find("last").unwrap().end.unwrap();
    assert_eq!((end.sets_completed, end.sets_planned), (1, 2));
    assert_eq!((end.cues_heard, end.cues_shown, end.active_ms), (4, 0, 62_000));
    assert_eq!((end.held_on, end.effort.map(Numbered::number)), (Some(Times::Twice), Some(7)));
    assert_eq!((end.steadiness, end.not_said), (None, 1));
    assert_eq!((end.grabbed, end.unwell), (None, None), "not asked is not no");
}

#[test]
fn nothing_is_overwritten() {
    let place = tempdir().unwrap();
    let mut journal = open(&folder(place.path()));
    keep(&mut journal, &id(1), &session());
    let before = journal.find("last").unwrap();
    for line in told(id(1), &session()) {
        assert!(!super::lines::insert(&journal.db, &line).unwrap(), "what is there twice is there once");
        let other = Line { at_ms: line.at_ms + 1, ..line.clone() };
        let refused = super::lines::insert(&journal.db, &other).unwrap_err();
        assert!(refused.is_final() && refused.to_string().contains(&line.id.to_string()), "{refused}");
    }
    assert_eq!(journal.find("last").unwrap(), before);
}

#[test]
fn a_session_is_found_by_the_first_digits_of_its_id() {
    let place = tempdir().unwrap();
    let mut journal = open(&folder(place.path()));
    for (byte, start) in [(0x1a, 3_000), (0x1b, 1_000), (0x2c, 2_000)] {
        keep(&mut journal, &id(byte), &[begun(moment(start))]);
    }
    assert_eq!(journal.find("last").unwrap().id, id(0x1a), "the newest, not the last written");
    assert_eq!(journal.find("1B").unwrap().id, id(0x1b));
    assert!(matches!(journal.find("1"), Err(JournalError::Ambiguous(_))));
    for none in ["", "3", "lastt", &"2c".repeat(17)] {
        assert!(matches!(journal.find(none), Err(JournalError::NoSuchSession(_))), "{none:?}");
    }
}

#[test]
fn another_prescription_is_copied_journaled_and_the_one_before_is_kept() {
    let place = tempdir().unwrap();
    let folder = folder(place.path());
    let mut journal = open(&folder);
    let at = |text: &str| text.parse().unwrap();
    journal.adopt(b"one", "a.toml", &at("2026-11-02T09:30:00-05:00[America/New_York]")).unwrap();
    journal.adopt(b"one", "a.toml", &at("2026-11-02T09:31:00-05:00[America/New_York]")).unwrap();
    journal.adopt(b"two", "b.toml", &at("2026-11-02T09:32:00-05:00[America/New_York]")).unwrap();
    assert_eq!(fs::read(folder.prescription_file()).unwrap(), b"two");
    // printf one | sha256sum
    assert_eq!(fs::read(folder.path().join("prescription-7692c3ad.toml")).unwrap(), b"one");
    let changes = journal.changes().unwrap();
    let whats: Vec<_> = changes.iter().map(ChangeRow::sentence).collect();
    let said = ["prescription in use: a.toml", "prescription in use: a.toml", "prescription in use: b.toml"];
    assert_eq!(whats, said);
    assert_eq!(changes[2].at.minute(), "2026-11-02 09:32");
    let texts = journal.contents().unwrap().prescriptions;
    let texts: Vec<_> = texts.iter().map(|kept| (kept.digest, kept.text.as_str())).collect();
    assert_eq!(
        texts,
        ["one", "two"].map(|text| (Digest::of(text.as_bytes()), text)),
        "each once, as it was written"
    );
}

/// Writes sessions without end, and says after each entry that it is on the disk.
#[test]
#[ignore = "run as a child by `what_was_acknowledged_survives_a_kill`"]
fn child_that_is_killed() {
    let journal = open(&folder(Path::new(&std::env::var("COUNTERPOISE_TEST_FOLDER").unwrap())));
    for byte in 0..=u8::MAX {
        for (number, line) in told(id(byte), &session()).iter().enumerate() {
            super::lines::insert(&journal.db, line).unwrap();
            println!("kept {byte} {number}");
        }
    }
}

#[test]
fn what_was_acknowledged_survives_a_kill() {
    for kept in [1, 4, 13, 17, 29] {
        let place = tempdir().unwrap();
        let mut child = Command::new(std::env::current_exe().unwrap())
            .args(["--exact", "--ignored", "--nocapture", "journal::test::child_that_is_killed"])
            .env("COUNTERPOISE_TEST_FOLDER", place.path())
            .stdout(Stdio::piped())
            .spawn()
            .unwrap();
        let lines = BufReader::new(child.stdout.take().unwrap()).lines().map(Result::unwrap);
        let acknowledged = lines.filter(|line| line.starts_with("kept")).take(kept).count();
        // SIGKILL on Unix.
        child.kill().unwrap();
        child.wait().unwrap();
        assert_eq!(acknowledged, kept);

        let whole = session().len();
        let journal = open(&folder(place.path()));
        let sessions = journal.contents().unwrap().sessions;
        assert!(sessions.len() >= kept.div_ceil(whole), "after {kept}");
        assert!(sessions.iter().all(|one| one.end.is_some()));
        let heard_there: usize =
            sessions.iter().flat_map(|one| &one.sets).map(|set| set.delivered.len()).sum();
        let heard_in = |entries: &[Entry]| {
            entries.iter().filter(|entry| matches!(entry, Entry::CueDelivered { .. })).count()
        };
        let heard_before = kept / whole * heard_in(&session()) + heard_in(&session()[..kept % whole]);
        assert!(heard_there >= heard_before, "{heard_there} of {heard_before} after {kept}");
    }
}

#[test]
fn where_nothing_names_a_folder_the_way_to_name_one_is_told() {
    let error = Folder::of(None).unwrap_err();
    assert_eq!(error.to_string(), "there is no home folder to keep the journal in");
    assert!(error.hint().starts_with("Name a folder with --data-dir"), "{}", error.hint());
}

#[test]
fn what_is_kept_of_a_drawn_session_is_what_was_drawn() {
    for (name, prescription) in Prescription::all_ready() {
        let place = tempdir().unwrap();
        let scheduler = Scheduler::new(prescription).unwrap();
        let seed = Seed::from_bytes([0x5d; 32]);
        let schedule = scheduler.draw(seed);
        let at: jiff::ZonedDateTime = "2026-11-02T09:30:00-05:00[America/New_York]".parse().unwrap();
        let mut writer = Writer::start(open(&folder(place.path())), id(1)).unwrap();
        let begun = SessionBegun {
            begun: (&at).into(),
            title: prescription.title().to_owned(),
            digest: prescription.digest(),
            sets_planned: schedule.sets().len() as u8,
            precautions: Vec::new(),
            drawn: Some(Drawn {
                seed,
                seed_given: true,
                method: Method::NEWEST.number(),
                voice: "lower".to_owned(),
                device: None,
            }),
        };
        writer.keep(&at, Entry::SessionBegun(begun));
        let mut again = Vec::new();
        for plan in schedule.sets() {
            writer.keep(&at, Entry::set_begun(&at, plan, Channel::Trainee, Room::default()));
            let paused_at = plan.cues()[0].at() + Millis(1_500);
            let anew = scheduler.after_pause(seed, plan, 1, paused_at, 1);
            writer.keep(&at, Entry::replanned(1, paused_at, &anew, Room::default()));
            again.push((paused_at, anew));
        }
        let journal = writer.close().journal.unwrap();
        let kept = journal.find("last").unwrap();

        let drawn = kept.start.drawn.as_ref().unwrap();
        assert_eq!(drawn.seed, seed, "{name}");
        assert_eq!(kept.start.digest, prescription.digest());
        assert_eq!(kept.sets.len(), schedule.sets().len());
        for ((set, plan), (paused_at, anew)) in kept.sets.iter().zip(schedule.sets()).zip(&again) {
            assert_eq!((set.start.number, set.start.step), (plan.number(), plan.step()));
            assert_eq!(set.start.drill, plan.drill().name());
            assert_eq!((set.start.stance, set.start.side), (plan.conditions().stance, plan.side()));
            assert_eq!(
                (set.start.support, set.start.vision),
                (plan.conditions().support, plan.conditions().vision)
            );
            let times = (set.start.work_ms, set.start.recover_ms, set.start.rest_ms);
            assert_eq!(times, (plan.work().0, plan.recover().0, plan.rest().0));
            assert_eq!(set.plans[1].paused_at_ms, Some(paused_at.0));
            for (rows, cues) in [(&set.plans[0].cues, plan.cues()), (&set.plans[1].cues, anew.cues())] {
                assert_eq!(rows.len(), cues.len());
                for (row, cue) in rows.iter().zip(cues) {
                    let call = cue.call();
                    assert_eq!((row.at_ms, row.gap_ms, row.blank), (cue.at().0, cue.gap().0, cue.is_blank()));
                    assert_eq!(row.action, call.map(Call::action));
                    assert_eq!(row.direction, call.map(Call::direction));
                    assert_eq!(row.phrase, call.map(Call::phrase_ids));
                }
            }
            assert_eq!(set.delivered, [], "nothing is heard because it was planned");
        }
        // From the journal alone the session can be drawn again.
        assert_eq!(scheduler.draw(drawn.seed), schedule);
    }
}

/// The tables have no columns for what `SetRow::ladder` and `GivenRow::ladder` keep from version 2 on. Whoever releases a
/// second version of a ladder gives them some first.
#[test]
fn no_released_ladder_has_a_version_that_the_tables_do_not_keep() {
    assert!(Drill::all().iter().all(|drill| drill.ladders().len() == 1));
}
