//! What was handed over is in the journal or in a rescue file, in order, whatever the disk does.

use std::fs;
use std::sync::mpsc;
use std::time::Duration;

use proptest::prelude::*;
use rusqlite::Connection;
use tempfile::tempdir;

use super::super::sample::{answer, any_session, expected, heard, id, moment, open, session, told};
use super::super::{Folder, Journal, JournalError, Lock, Notice, rescue};
use super::{Status, Writer};
use counterpoise_core::record::{Entry, Line, Question, SessionEnd, SessionRecord};

const LONG: Duration = Duration::from_secs(60);

fn now() -> jiff::ZonedDateTime {
    "2026-11-02T09:40:00-05:00[America/New_York]".parse().unwrap()
}

/// The session of these tests, as it is written.
fn lines() -> Vec<Line> {
    told(id(1), &session())
}

/// Its beginning.
fn first() -> Line {
    lines().remove(0)
}

/// A line that can never be written: the journal has its id with something else.
fn impossible() -> Line {
    Line { entry: answer(None, Question::Effort, Some(9)).into(), ..first() }
}

fn wait_for_news(writer: &mut Writer) -> Status {
    loop {
        match writer.status() {
            Some(status) => return status,
            None => std::thread::sleep(Duration::from_millis(5)),
        }
    }
}

#[test]
fn an_entry_that_was_waited_for_is_on_the_disk() {
    let place = tempdir().unwrap();
    let folder = Folder::open_in(place.path()).unwrap();
    let mut writer = Writer::start(open(&folder), id(1)).unwrap();
    writer.hand_over(first(), None);
    assert!(writer.keep_and_wait(&now(), answer(None, Question::Ready, Some(1)), LONG));
    let seen = Journal::look(&folder).unwrap().find("last").unwrap();
    assert_eq!(seen.answers.len(), 1, "another window sees it at once");
    assert_eq!(seen.answers[0].answer.question(), Question::Ready);
    let end = Entry::SessionEnded { at: moment(600_000), why: SessionEnd::NotToday };
    assert!(writer.keep_and_wait(&now(), end, LONG));
    assert_eq!(writer.status(), None);
    let closed = writer.close();
    assert_eq!((closed.not_saved, &closed.rescue, &closed.lost), (0, &None, &None));
    assert_eq!(closed.journal.unwrap().find("last").unwrap().end.unwrap().why, SessionEnd::NotToday);
}

#[test]
fn while_the_file_is_held_entries_wait_and_are_then_written() {
    let place = tempdir().unwrap();
    let folder = Folder::open_in(place.path()).unwrap();
    let journal = open(&folder);
    journal.db.busy_timeout(Duration::ZERO).unwrap();
    let other = Connection::open(folder.journal_file()).unwrap();
    let mut writer = Writer::start(journal, id(1)).unwrap();

    other.execute_batch("BEGIN EXCLUSIVE").unwrap();
    for line in lines() {
        writer.hand_over(line, None);
    }
    let Status::NotSaved { reason } = wait_for_news(&mut writer) else { panic!("it cannot be saved") };
    assert!(reason.contains("locked"), "{reason}");
    other.execute_batch("COMMIT").unwrap();
    assert_eq!(wait_for_news(&mut writer), Status::Saved);
    let kept = writer.close().journal.unwrap().find("last").unwrap();
    assert_eq!(kept, expected(&id(1), &session()));
}

#[test]
fn what_cannot_be_written_is_rescued_and_taken_in_at_the_next_opening() {
    let place = tempdir().unwrap();
    let folder = Folder::open_in(place.path()).unwrap();
    let journal = open(&folder);
    journal.db.busy_timeout(Duration::ZERO).unwrap();
    let other = Connection::open(folder.journal_file()).unwrap();
    let mut writer = Writer::start(journal, id(1)).unwrap();
    let (front, back) = (lines()[..5].to_vec(), lines()[5..].to_vec());
    for line in front {
        let (done, ready) = mpsc::sync_channel(1);
        writer.hand_over(line, Some(done));
        ready.recv_timeout(LONG).unwrap();
    }
    other.execute_batch("BEGIN EXCLUSIVE").unwrap();
    for line in back {
        writer.hand_over(line, None);
    }
    let closed = writer.close();
    let rescue = closed.rescue.clone().unwrap();
    assert_eq!((closed.not_saved, &closed.lost), (session().len() - 5, &None));
    assert_eq!(rescue, folder.path().join("rescue-01010101-1.json"));
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        assert_eq!(fs::metadata(&rescue).unwrap().permissions().mode() & 0o777, 0o600);
    }
    other.execute_batch("COMMIT").unwrap();
    drop(closed);

    let (journal, notices) = Journal::open(folder.lock().unwrap()).unwrap();
    assert_eq!(notices, [Notice::Rescued(rescue.clone())], "and nothing is left to interrupt");
    assert_eq!(journal.find("last").unwrap(), expected(&id(1), &session()));
    assert!(!rescue.exists());
    assert!(folder.path().join("rescue-01010101-1.json.imported").exists());
}

#[test]
fn a_disk_that_fills_in_a_session_loses_nothing() {
    let place = tempdir().unwrap();
    let folder = Folder::open_in(place.path()).unwrap();
    drop(open(&folder));
    let pages = fs::metadata(folder.journal_file()).unwrap().len() / 4096;
    let (journal, _) = Journal::open_within(folder.lock().unwrap(), Some(pages as u32)).unwrap();
    journal.db.execute("INSERT INTO room VALUES (zeroblob(250000))", []).unwrap();
    let mut writer = Writer::start(journal, id(1)).unwrap();
    writer.hand_over(first(), None);
    let answers = 3_000;
    for _ in 0..answers {
        writer.keep(&now(), answer(None, Question::Effort, Some(5)));
    }
    let Status::NotSaved { reason } = wait_for_news(&mut writer) else { panic!("it cannot be saved") };
    assert!(reason.contains("full"), "{reason}");
    let closed = writer.close();
    assert!(closed.not_saved > 0 && closed.rescue.is_some(), "{closed:?}");
    drop(closed);
    Connection::open(folder.journal_file()).unwrap().execute("DELETE FROM room", []).unwrap();
    let kept = open(&folder).find("last").unwrap();
    assert_eq!(kept.answers.len(), answers);
}

#[test]
fn a_journal_that_was_moved_away_is_noticed() {
    let place = tempdir().unwrap();
    let folder = Folder::open_in(place.path()).unwrap();
    let mut writer = Writer::start(open(&folder), id(1)).unwrap();
    let (done, ready) = mpsc::sync_channel(1);
    writer.hand_over(first(), Some(done));
    ready.recv_timeout(LONG).unwrap();
    let moved = place.path().join("moved");
    fs::rename(folder.journal_file(), &moved).unwrap();
    for line in &lines()[1..] {
        writer.hand_over(line.clone(), None);
    }
    let closed = writer.close();
    assert_eq!(closed.not_saved, session().len(), "also the first is not where the journal should be");
    drop(closed);
    fs::rename(&moved, folder.journal_file()).unwrap();
    assert_eq!(open(&folder).find("last").unwrap(), expected(&id(1), &session()));
}

/// A journal that is deleted, emptied, or gone with its folder takes what was in it along. The rescue file has all of it.
#[test]
fn a_rescue_file_stands_alone() {
    type Loss = fn(&Folder);
    let losses: [Loss; 3] = [
        |folder| fs::remove_file(folder.journal_file()).unwrap(),
        |folder| fs::write(folder.journal_file(), "").unwrap(),
        |folder| fs::remove_dir_all(folder.path()).unwrap(),
    ];
    for (nth, lose) in losses.into_iter().enumerate() {
        for kept in [1, 7, session().len()] {
            let place = tempdir().unwrap();
            let folder = Folder::open_in(place.path().join("ada")).unwrap();
            let mut writer = Writer::start(open(&folder), id(1)).unwrap();
            for (number, line) in lines().into_iter().enumerate() {
                if number == kept {
                    lose(&folder);
                }
                let (done, ready) = mpsc::sync_channel(1);
                writer.hand_over(line, Some(done));
                if number < kept {
                    ready.recv_timeout(LONG).unwrap();
                }
            }
            if kept == lines().len() {
                lose(&folder);
            }
            let closed = writer.close();
            let rescue = closed.rescue.clone().unwrap_or_else(|| panic!("{nth} {kept}: {closed:?}"));
            assert_eq!(rescue.parent(), Some(folder.path()), "{nth} {kept}");
            drop(closed);
            let (journal, notices) = Journal::open(folder.lock().unwrap()).unwrap();
            assert!(notices.contains(&Notice::Rescued(rescue)), "{nth} {kept}: {notices:?}");
            assert_eq!(journal.find("last").unwrap(), expected(&id(1), &session()), "{nth} {kept}");
        }
    }
}

#[test]
fn a_rescue_file_that_was_being_written_when_the_program_ended_is_taken_in() {
    let place = tempdir().unwrap();
    let folder = Folder::open_in(place.path()).unwrap();
    drop(open(&folder));
    let spare = folder.path().join("rescue-spare");
    let size = fs::metadata(&spare).unwrap().len();
    let whole = rescue::write(&folder, id(1), &lines()).unwrap();
    assert!(!spare.exists(), "its bytes are the rescue file's");
    // The text is written, and the file neither cut to its length nor renamed.
    let mut bytes = fs::read(&whole).unwrap();
    bytes.resize(size as usize, 0);
    fs::write(&spare, bytes).unwrap();
    fs::remove_file(whole).unwrap();
    let (journal, notices) = Journal::open(folder.lock().unwrap()).unwrap();
    assert_eq!(notices, [Notice::Rescued(folder.path().join("rescue-cut-off-1.json"))]);
    assert_eq!(journal.find("last").unwrap(), expected(&id(1), &session()));
    assert_eq!(fs::metadata(&spare).unwrap().len(), size, "there is another one");
}

#[test]
fn an_entry_that_can_never_be_written_does_not_hold_up_the_rest() {
    let place = tempdir().unwrap();
    let folder = Folder::open_in(place.path()).unwrap();
    let mut writer = Writer::start(open(&folder), id(1)).unwrap();
    let mut lines = lines();
    lines.insert(4, impossible());
    for line in lines {
        writer.hand_over(line, None);
    }
    assert!(matches!(wait_for_news(&mut writer), Status::NotSaved { .. }));
    let closed = writer.close();
    assert_eq!(closed.not_saved, 1);
    assert_eq!(closed.journal.unwrap().find("last").unwrap(), expected(&id(1), &session()));
    let (journal, notices) = Journal::open(folder.lock().unwrap()).unwrap();
    assert!(matches!(&notices[..], [Notice::SetAside { file, .. }] if file.exists()), "{notices:?}");
    drop(journal);
    let (_, notices) = Journal::open(folder.lock().unwrap()).unwrap();
    assert_eq!(notices, [], "nobody is told twice");
}

#[test]
fn after_an_entry_was_set_aside_nothing_says_saved_again() {
    let place = tempdir().unwrap();
    let folder = Folder::open_in(place.path()).unwrap();
    let journal = open(&folder);
    journal.db.busy_timeout(Duration::ZERO).unwrap();
    let mut writer = Writer::start(journal, id(1)).unwrap();
    writer.hand_over(first(), None);
    writer.hand_over(impossible(), None);
    assert!(matches!(wait_for_news(&mut writer), Status::NotSaved { .. }));
    let effort = || answer(None, Question::Effort, Some(5));
    // The second is written only after the thread has said everything that there was to say about the first.
    assert!(writer.keep_and_wait(&now(), effort(), LONG) && writer.keep_and_wait(&now(), effort(), LONG));
    assert_eq!(writer.status(), None, "not everything that was handed over is on the disk");
    // A disk that comes back does not make it so either.
    let other = Connection::open(folder.journal_file()).unwrap();
    other.execute_batch("BEGIN EXCLUSIVE").unwrap();
    assert!(!writer.keep_and_wait(&now(), effort(), Duration::from_millis(50)));
    other.execute_batch("COMMIT").unwrap();
    assert!(writer.keep_and_wait(&now(), effort(), LONG) && writer.keep_and_wait(&now(), effort(), LONG));
    assert_eq!(writer.status(), None);
    let closed = writer.close();
    assert_eq!((closed.not_saved, closed.rescue.is_some()), (1, true), "it is in the rescue file");
}

#[test]
fn an_entry_that_does_not_fit_does_not_keep_the_others_of_its_rescue_file_out() {
    let place = tempdir().unwrap();
    let folder = Folder::open_in(place.path()).unwrap();
    let mut lines = lines();
    lines.insert(4, impossible());
    // There is no third set: this one is kept, and has no place.
    let heard = told(id(1), &[heard(3, 0, 1, 1)]);
    lines.extend(heard);
    drop(open(&folder));
    let file = rescue::write(&folder, id(1), &lines).unwrap();

    let (journal, notices) = Journal::open(folder.lock().unwrap()).unwrap();
    let last = journal.find("last").unwrap();
    assert!(last.is_doubtful);
    assert_eq!(SessionRecord { is_doubtful: false, ..last }, expected(&id(1), &session()));
    let [Notice::SetAside { file: aside, reason }, Notice::Unread(unread)] = &notices[..] else {
        panic!("{notices:?}")
    };
    assert!(unread.contains("the beginning of set 3 is missing"), "{unread}");
    assert!(reason.starts_with("2 of its 20 entries do not fit into the journal"), "{reason}");
    assert_eq!(*aside, folder.path().join("rescue-01010101-1.json.set-aside"));
    assert!(aside.exists() && !file.exists(), "what does not fit is still there to be looked at");
    assert!(notices[0].to_string().contains(&*aside.to_string_lossy()), "{}", notices[0]);
}

#[test]
fn a_broken_rescue_file_is_set_aside_and_locks() {
    let place = tempdir().unwrap();
    let folder = Folder::open_in(place.path()).unwrap();
    drop(open(&folder));
    let file = folder.path().join("rescue-00000000-1.json");
    fs::write(&file, "{\"schema\": \"counterpoise.rescue/1\",\n \"session\": 7}").unwrap();
    let (journal, notices) = Journal::open(folder.lock().unwrap()).unwrap();
    assert!(journal.contents().unwrap().sessions.is_empty());
    let [Notice::SetAside { file: aside, reason }, barred] = &notices[..] else { panic!("{notices:?}") };
    assert!(aside.exists() && !file.exists() && reason.contains("line 2"), "{reason}");
    assert_eq!(*barred, Notice::Barred(aside.clone()), "nobody knows what it holds");
    drop(journal);
    let (_, again) = Journal::open(folder.lock().unwrap()).unwrap();
    assert_eq!(again[..], notices[1..], "why practice is locked is said each time");
}

/// A folder in place of the file stands for one that cannot be read today.
#[test]
fn a_rescue_file_that_cannot_be_read_now_is_tried_again() {
    let place = tempdir().unwrap();
    let folder = Folder::open_in(place.path()).unwrap();
    drop(open(&folder));
    let file = folder.path().join("rescue-01010101-1.json");
    fs::create_dir(&file).unwrap();
    for _ in 0..2 {
        let (_, notices) = Journal::open(folder.lock().unwrap()).unwrap();
        assert!(
            matches!(&notices[..], [Notice::NotRescued { file: named, .. }] if *named == file),
            "{notices:?}"
        );
    }
    fs::remove_dir(&file).unwrap();
    rescue::write(&folder, id(1), &lines()).unwrap();
    let (journal, notices) = Journal::open(folder.lock().unwrap()).unwrap();
    assert_eq!(notices, [Notice::Rescued(file)]);
    assert_eq!(journal.find("last").unwrap(), expected(&id(1), &session()));
}

/// The lock, once the thread that was left behind has given it back.
fn lock_once_free(folder: &Folder) -> Lock {
    loop {
        match folder.lock() {
            Ok(lock) => return lock,
            Err(_) => std::thread::sleep(Duration::from_millis(5)),
        }
    }
}

/// A write that hangs: the file is held by another, and this connection waits for it for an hour.
#[test]
fn a_disk_that_hangs_does_not_hold_up_the_end_and_nothing_is_lost() {
    let place = tempdir().unwrap();
    let folder = Folder::open_in(place.path()).unwrap();
    let journal = open(&folder);
    journal.db.busy_timeout(Duration::from_secs(3_600)).unwrap();
    let other = Connection::open(folder.journal_file()).unwrap();
    let mut writer = Writer::start(journal, id(1)).unwrap();
    let (front, back) = (lines()[..5].to_vec(), lines()[5..].to_vec());
    for line in front {
        let (done, ready) = mpsc::sync_channel(1);
        writer.hand_over(line, Some(done));
        ready.recv_timeout(LONG).unwrap();
    }
    other.execute_batch("BEGIN EXCLUSIVE").unwrap();
    for line in back {
        writer.hand_over(line, None);
    }
    let closed = writer.close_within(Duration::from_millis(100));
    assert!(closed.journal.is_none() && closed.lost.is_none(), "{closed:?}");
    assert_eq!(closed.not_saved, session().len() - 5);
    let rescue = closed.rescue.unwrap();
    assert_eq!(rescue, folder.path().join("rescue-01010101-1.json"));

    // The disk answers again, and the thread that was left behind goes on: what is there twice is not doubled.
    other.execute_batch("COMMIT").unwrap();
    let (journal, notices) = Journal::open(lock_once_free(&folder)).unwrap();
    assert_eq!(notices, [Notice::Rescued(rescue)]);
    assert_eq!(journal.find("last").unwrap(), expected(&id(1), &session()));
}

/// More entries than the queue holds wait with the caller, and are not forgotten when the thread hangs.
#[test]
fn what_waits_for_a_disk_that_hangs_is_rescued_too() {
    let place = tempdir().unwrap();
    let folder = Folder::open_in(place.path()).unwrap();
    let journal = open(&folder);
    journal.db.busy_timeout(Duration::from_secs(3_600)).unwrap();
    let other = Connection::open(folder.journal_file()).unwrap();
    let mut writer = Writer::start(journal, id(1)).unwrap();
    other.execute_batch("BEGIN EXCLUSIVE").unwrap();
    writer.hand_over(first(), None);
    for _ in 0..super::QUEUE + 100 {
        writer.keep(&now(), answer(None, Question::Effort, Some(5)));
    }
    let closed = writer.close_within(Duration::from_millis(100));
    assert_eq!((closed.not_saved, closed.rescue.is_some()), (super::QUEUE + 101, true), "{:?}", closed.lost);
    other.execute_batch("COMMIT").unwrap();
    drop(lock_once_free(&folder));
}

#[test]
fn a_writer_that_is_dropped_has_written() {
    let place = tempdir().unwrap();
    let folder = Folder::open_in(place.path()).unwrap();
    let mut writer = Writer::start(open(&folder), id(1)).unwrap();
    for line in lines() {
        writer.hand_over(line, None);
    }
    drop(writer);
    assert_eq!(open(&folder).find("last").unwrap(), expected(&id(1), &session()));
}

#[test]
fn a_writer_needs_a_journal_that_may_be_written() -> Result<(), JournalError> {
    let place = tempdir().unwrap();
    let folder = Folder::open_in(place.path())?;
    let mut writer = Writer::start(Journal::look(&folder)?, id(1)).unwrap();
    writer.hand_over(first(), None);
    let closed = writer.close();
    assert_eq!(closed.not_saved, 1);
    assert!(closed.lost.is_some());
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    /// Whatever is held up when, the journal at the next opening is that of an undisturbed writing, and what was
    /// acknowledged was on the disk at that moment.
    #[test]
    fn no_acknowledged_entry_is_ever_lost((id, entries) in any_session(), held in any::<u64>()) {
        let place = tempdir().unwrap();
        let folder = Folder::open_in(place.path()).unwrap();
        let journal = open(&folder);
        journal.db.busy_timeout(Duration::ZERO).unwrap();
        let other = Connection::open(folder.journal_file()).unwrap();
        let mut writer = Writer::start(journal, id).unwrap();
        let mut is_held = false;
        for (number, line) in told(id, &entries).iter().enumerate() {
            let hold = held >> (number % 64) & 1 == 1;
            if hold != is_held {
                other.execute_batch(if hold { "BEGIN EXCLUSIVE" } else { "COMMIT" }).unwrap();
                is_held = hold;
            }
            let (done, ready) = mpsc::sync_channel(1);
            writer.hand_over(line.clone(), Some(done));
            let acknowledged = ready.recv_timeout(Duration::from_millis(2)).is_ok();
            prop_assert!(!(acknowledged && is_held), "nothing can be written while the file is held");
        }
        let closed = writer.close();
        prop_assert_eq!(&closed.lost, &None);
        drop(closed);
        if is_held {
            other.execute_batch("COMMIT").unwrap();
        }
        let kept = open(&folder).find("last").unwrap();
        prop_assert_eq!(kept, expected(&id, &entries));
    }
}
