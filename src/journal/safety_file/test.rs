//! The safety record beside the journal, whatever becomes of either.

use std::fs;
use std::path::PathBuf;

use tempfile::{TempDir, tempdir};

use super::super::sample::{answer, begun, id, keep, moment, open, session, told};
use super::super::{Folder, Journal, JournalError, Notice, SafetyNotice, Writer, export, import, rescue};
use super::path_in;
use counterpoise_core::course::past::{Barrier, Lifted};
use counterpoise_core::health::lock::{Hold, Lock};
use counterpoise_core::health::suitability::{Answer as Answered, Reply, Topic};
use counterpoise_core::record::safety_record::{HEADER_BYTES, MARK_BYTES, RECORD_BYTES};
use counterpoise_core::record::{
    Answer, Entry, Line, Question, SafetyRecord, SessionEnd, Symptom, TopicRow, What, YesNoNotSure,
};

const CHEST: Barrier = Barrier::Lock(Lock::Chest);

fn now() -> jiff::ZonedDateTime {
    "2026-11-02T10:00:00-05:00[America/New_York]".parse().unwrap()
}

fn later() -> jiff::ZonedDateTime {
    "2026-12-02T10:00:00-05:00[America/New_York]".parse().unwrap()
}

struct Place {
    _dir: TempDir,
    folder: Folder,
}

impl Place {
    fn new() -> Self {
        let dir = tempdir().unwrap();
        let folder = Folder::open_in(dir.path().join("ada")).unwrap();
        Self { _dir: dir, folder }
    }

    /// A practice that ended with chest pain.
    fn with_chest() -> Self {
        let place = Self::new();
        let mut writer = Writer::start(open(&place.folder), id(1)).unwrap();
        for entry in with_chest() {
            writer.keep(&now(), entry);
        }
        assert_eq!(writer.close().not_saved, 0);
        place
    }

    fn file(&self) -> PathBuf {
        path_in(self.folder.path())
    }

    fn record(&self) -> SafetyRecord {
        SafetyRecord::read(&fs::read(self.file()).unwrap())
    }

    fn standing(&self) -> Vec<What> {
        self.record().standing().iter().map(|mark| mark.what).collect()
    }

    /// The locks a month later, as a practice and as a reader see them, and what was said at the start.
    fn locks(&self) -> (Vec<Lock>, Vec<Notice>) {
        let locks = |journal: &Journal| -> Vec<Lock> {
            let locks = journal.trainee().unwrap().barriers(&later()).locks;
            locks.iter().map(|lock| lock.what).collect()
        };
        let looked = locks(&Journal::look(&self.folder).unwrap());
        let (journal, notices) = Journal::open(self.folder.lock().unwrap()).unwrap();
        assert_eq!(looked, locks(&journal), "who reads and who practices see the same");
        (locks(&journal), notices)
    }

    /// Clears everything that is locked.
    fn clear(&self) {
        let mut journal = open(&self.folder);
        let all: Vec<Lifted> =
            journal.trainee().unwrap().clearable(&later()).into_iter().map(|one| one.lifted).collect();
        assert!(!all.is_empty());
        journal.keep_clearance(&later(), "Dr. K. L.", "seen", &all).unwrap();
    }
}

fn with_chest() -> Vec<Entry> {
    let chest = Entry::answered(None, Answer::Symptom(Some(Symptom::Chest)));
    vec![begun(moment(0)), chest, Entry::SessionEnded { at: moment(60_000), why: SessionEnd::Unwell }]
}

#[test]
fn an_answer_that_locks_is_in_the_record_at_once_although_the_journal_cannot_be_written() {
    let place = Place::new();
    let journal = open(&place.folder);
    journal.db.busy_timeout(std::time::Duration::ZERO).unwrap();
    let other = rusqlite::Connection::open(place.folder.journal_file()).unwrap();
    let mut writer = Writer::start(journal, id(1)).unwrap();
    other.execute_batch("BEGIN EXCLUSIVE").unwrap();
    let [begun, chest, end] = with_chest().try_into().unwrap();
    writer.keep(&now(), begun);
    assert_eq!(place.standing(), []);
    writer.keep(&now(), chest);
    assert_eq!(place.standing(), [What::Bars(CHEST)]);
    writer.keep(&now(), end);
    assert_eq!(place.standing(), [What::Bars(CHEST), What::Holds(Hold::Unwell), What::EndsDay]);
    let first = *place.record().marks().next().unwrap();
    assert_eq!((first.number, first.session, first.day), (1, id(1), now().date()));
    let size = fs::metadata(place.file()).unwrap().len();
    assert_eq!(size, RECORD_BYTES as u64, "in place");
    other.execute_batch("COMMIT").unwrap();
    drop(writer);
}

#[test]
fn a_fall_locks_until_it_is_said_in_the_same_practice_that_it_did_no_harm() {
    let place = Place::new();
    let mut writer = Writer::start(open(&place.folder), id(1)).unwrap();
    let no = Some(YesNoNotSure::No);
    writer.keep(&now(), begun(moment(0)));
    writer.keep(&now(), Entry::answered(None, Answer::Fell(Some(YesNoNotSure::Yes))));
    assert!(place.standing().contains(&What::Bars(Barrier::Lock(Lock::FallHurt))), "{:?}", place.standing());
    writer.keep(&now(), Entry::answered(None, Answer::FallHurt(no)));
    assert!(
        place.standing().contains(&What::Bars(Barrier::Lock(Lock::FallHurt))),
        "the head is not asked about yet"
    );
    writer.keep(&now(), Entry::answered(None, Answer::Head(no)));
    let standing = place.standing();
    assert!(!standing.iter().any(|what| matches!(what, What::Bars(Barrier::Lock(_)))), "{standing:?}");
    assert!(standing.contains(&What::Holds(Hold::Fall)), "{standing:?}");
    writer.keep(&now(), Entry::SessionEnded { at: moment(60_000), why: SessionEnd::Fell });
    assert_eq!(writer.close().not_saved, 0);
    let (locks, notices) = place.locks();
    assert_eq!((locks, notices), (vec![], vec![]));
}

#[test]
fn a_journal_that_is_lost_emptied_or_replaced_takes_no_lock_along() {
    type Loss = fn(&Place, &[u8]);
    let losses: [(Loss, bool); 4] = [
        (|place, _| fs::remove_file(place.folder.journal_file()).unwrap(), true),
        (|place, _| fs::write(place.folder.journal_file(), "").unwrap(), true),
        (|place, before| fs::write(place.folder.journal_file(), before).unwrap(), false),
        (
            |place, _| {
                let other = Place::new();
                drop(open(&other.folder));
                fs::copy(other.folder.journal_file(), place.folder.journal_file()).unwrap();
            },
            true,
        ),
    ];
    for (nth, (lose, is_another)) in losses.into_iter().enumerate() {
        let place = Place::new();
        drop(open(&place.folder));
        let before = fs::read(place.folder.journal_file()).unwrap();
        let mut writer = Writer::start(open(&place.folder), id(1)).unwrap();
        for entry in with_chest() {
            writer.keep(&now(), entry);
        }
        assert_eq!(writer.close().not_saved, 0);
        lose(&place, &before);
        let (locks, notices) = place.locks();
        assert_eq!(locks, [Lock::Chest], "{nth}");
        assert_eq!(
            notices.contains(&Notice::Safety(SafetyNotice::OfAnother)),
            is_another,
            "{nth}: {notices:?}"
        );
        assert!(notices.contains(&Notice::Safety(SafetyNotice::More(vec![CHEST]))), "{nth}: {notices:?}");
        // It stands at each start until somebody clears it.
        assert_eq!(place.locks().0, [Lock::Chest], "{nth}");
        place.clear();
        assert_eq!(place.locks(), (vec![], vec![]), "{nth}");
    }
}

#[test]
fn a_clearance_is_in_the_record_by_the_number_of_its_lock() {
    let place = Place::with_chest();
    assert_eq!(place.locks(), (vec![Lock::Chest], vec![]));
    let number = place.record().marks().find(|mark| mark.what == What::Bars(CHEST)).unwrap().number;
    place.clear();
    assert!(place.record().marks().any(|mark| mark.what == What::Clears(number)));
    assert_eq!(place.locks(), (vec![], vec![]));
    // Neither file alone brings it back.
    fs::remove_file(place.folder.journal_file()).unwrap();
    assert_eq!(place.locks().0, []);
}

/// The journal has it and the record does not: power was lost between the two, or the record is an older copy.
#[test]
fn a_clearance_that_only_the_journal_has_lifts_nothing() {
    let place = Place::with_chest();
    drop(open(&place.folder));
    let before = fs::read(place.file()).unwrap();
    place.clear();
    drop(open(&place.folder));
    fs::write(place.file(), before).unwrap();
    let (locks, notices) = place.locks();
    assert_eq!(locks, [Lock::Chest]);
    let said = [SafetyNotice::Older, SafetyNotice::More(vec![CHEST])].map(Notice::Safety);
    assert_eq!(notices, said);
    place.clear();
    assert_eq!(place.locks(), (vec![], vec![]));
}

#[test]
fn a_record_that_is_missing_is_made_of_the_journal_and_that_it_was_there_is_told() {
    let place = Place::with_chest();
    let journal = open(&place.folder);
    // A journal from before there were records has no sign of one.
    journal.db.execute_batch("DROP TABLE safety").unwrap();
    drop(journal);
    fs::remove_file(place.file()).unwrap();
    assert_eq!(place.locks(), (vec![Lock::Chest], vec![]), "made of an old journal, and nothing to tell");
    assert!(place.standing().contains(&What::Bars(CHEST)));
    fs::remove_file(place.file()).unwrap();
    assert_eq!(place.locks(), (vec![Lock::Chest], vec![Notice::Safety(SafetyNotice::Gone)]));
    assert!(place.standing().contains(&What::Bars(CHEST)));
}

#[test]
fn what_is_torn_or_damaged_locks_until_it_is_cleared() {
    type Damage = fn(&mut Vec<u8>);
    let damages: [Damage; 4] = [
        |bytes| bytes[HEADER_BYTES + 7 * MARK_BYTES] = 1,
        |bytes| bytes[20] ^= 1,
        |bytes| bytes.truncate(HEADER_BYTES + 10),
        |bytes| bytes.fill(0),
    ];
    for (nth, damage) in damages.into_iter().enumerate() {
        let place = Place::new();
        drop(open(&place.folder));
        let mut bytes = fs::read(place.file()).unwrap();
        damage(&mut bytes);
        fs::write(place.file(), bytes).unwrap();
        let (locks, notices) = place.locks();
        // A file that ends in the middle of a mark has two places of which nothing is known.
        let lost = vec![Lock::Lost; if nth == 2 { 2 } else { 1 }];
        assert_eq!(locks, lost, "{nth}");
        assert!(notices.contains(&Notice::Safety(SafetyNotice::Damaged)), "{nth}: {notices:?}");
        let more = lost.iter().copied().map(Barrier::Lock).collect();
        let more = Notice::Safety(SafetyNotice::More(more));
        assert_eq!(place.locks(), (lost, vec![more]), "{nth}: mended, and it stands");
        place.clear();
        assert_eq!(place.locks(), (vec![], vec![]), "{nth}");
    }
}

#[test]
fn a_copy_from_another_folder_brings_its_locks() {
    let (place, other) = (Place::with_chest(), Place::new());
    drop(open(&other.folder));
    fs::copy(place.file(), other.file()).unwrap();
    let (locks, notices) = other.locks();
    assert_eq!(locks, [Lock::Chest]);
    assert!(notices.contains(&Notice::Safety(SafetyNotice::OfAnother)), "{notices:?}");
    other.clear();
    assert_eq!(other.locks(), (vec![], vec![]));
}

#[test]
fn where_no_record_can_be_made_nothing_begins() {
    let place = Place::new();
    drop(open(&place.folder));
    fs::remove_file(place.file()).unwrap();
    fs::create_dir(place.file()).unwrap();
    let refused = Journal::open(place.folder.lock().unwrap()).map(|_| ()).unwrap_err();
    assert!(refused.to_string().contains("safety-record"), "{refused}");
    assert!(Journal::look(&place.folder).is_err(), "and nothing is said about locks");
    #[cfg(unix)]
    {
        fs::remove_dir(place.file()).unwrap();
        let elsewhere = place.folder.path().join("elsewhere");
        fs::write(&elsewhere, "mine").unwrap();
        std::os::unix::fs::symlink(&elsewhere, place.file()).unwrap();
        assert!(matches!(Journal::open(place.folder.lock().unwrap()), Err(JournalError::Unreadable { .. })));
        assert_eq!(fs::read(&elsewhere).unwrap(), b"mine", "no link is followed");
    }
}

#[cfg(unix)]
#[test]
fn only_the_owner_can_read_it_and_it_has_no_word_about_the_person() {
    use std::os::unix::fs::PermissionsExt;
    let place = Place::with_chest();
    assert_eq!(fs::metadata(place.file()).unwrap().permissions().mode() & 0o777, 0o600);
    let bytes = fs::read(place.file()).unwrap();
    let letters = bytes[16..].split(|byte| !byte.is_ascii_alphabetic()).map(<[u8]>::len).max();
    assert!(letters < Some(8), "words of {letters:?} letters");
}

#[test]
fn what_is_answered_or_imported_outside_of_a_practice_is_in_it_before_the_commit() {
    // An answer after the session, by which it locks.
    let place = Place::new();
    let mut journal = open(&place.folder);
    keep(&mut journal, &id(1), &session());
    journal.keep_answer(&now(), id(1), Answer::FellThen(Some(YesNoNotSure::Yes))).unwrap();
    let fall = What::Bars(Barrier::Lock(Lock::FallHurt));
    assert!(place.standing().contains(&fall));
    let no = Some(YesNoNotSure::No);
    journal.keep_answer(&now(), id(1), Answer::FallHurt(no)).unwrap();
    assert!(place.standing().contains(&fall), "the head is not asked about yet");
    journal.keep_answer(&now(), id(1), Answer::Head(no)).unwrap();
    let standing = place.standing();
    assert!(!standing.contains(&fall) && standing.contains(&What::Holds(Hold::Fall)), "{standing:?}");
    drop(journal);
    assert_eq!(place.locks(), (vec![], vec![]));
    // Suitability: a clinician first, then answered anew.
    let place = Place::new();
    let mut journal = open(&place.folder);
    let answers = |heart: Answered| -> Vec<TopicRow> {
        let of = |topic| if topic == Topic::HeartTrouble { heart } else { Answered::No };
        Topic::questions(false).map(|topic| TopicRow::new(topic, Reply::new(of(topic)))).collect()
    };
    let first = What::Bars(Barrier::Clinician);
    journal.keep_suitability(&now(), false, &answers(Answered::Yes)).unwrap();
    assert_eq!(place.standing(), [first]);
    drop(journal);
    let whole = fs::read(place.folder.journal_file()).unwrap();
    fs::remove_file(place.folder.journal_file()).unwrap();
    assert_eq!(place.locks().0, [Lock::Lost], "the answers are gone, and the lock is not");
    fs::write(place.folder.journal_file(), whole).unwrap();
    let mut journal = open(&place.folder);
    journal.keep_suitability(&later(), false, &answers(Answered::No)).unwrap();
    assert_eq!(place.standing(), []);
    drop(journal);
    // An import of a practice that locks.
    let from = Place::with_chest();
    let mut bytes = Vec::new();
    export::json(&Journal::look(&from.folder).unwrap(), &mut bytes).unwrap();
    let place = Place::new();
    import::import(&mut open(&place.folder), "x.json", &bytes).unwrap();
    assert!(place.standing().contains(&What::Bars(CHEST)));
    assert_eq!(
        place.locks(),
        (vec![Lock::Chest], vec![]),
        "its id is that of the journal that was moved here"
    );
    // And of its clearance.
    from.clear();
    let mut bytes = Vec::new();
    export::json(&Journal::look(&from.folder).unwrap(), &mut bytes).unwrap();
    import::import(&mut open(&place.folder), "x.json", &bytes).unwrap();
    assert_eq!(place.locks(), (vec![], vec![]));
}

fn aside(place: &Place) -> Vec<PathBuf> {
    rescue::set_aside(place.folder.path())
}

#[test]
fn a_file_that_was_set_aside_and_may_lock_bars_practice_until_it_is_cleared() {
    let lines: Vec<Line> = told(id(1), &with_chest());
    let without_beginning = lines[1..].to_vec();
    let harmless: Vec<Line> =
        told(id(1), &[begun(moment(0)), answer(None, Question::Effort, Some(5))])[1..].to_vec();
    for (lines, locks) in [(without_beginning, true), (harmless, false)] {
        let place = Place::new();
        drop(open(&place.folder));
        rescue::write(&place.folder, id(1), &lines).unwrap();
        let (journal, notices) = Journal::open(place.folder.lock().unwrap()).unwrap();
        drop(journal);
        let [file] = &aside(&place)[..] else { panic!("{notices:?}") };
        assert_eq!(notices.contains(&Notice::Barred(file.clone())), locks, "{notices:?}");
        let expected = if locks { vec![Lock::Lost] } else { vec![] };
        assert_eq!(place.locks().0, expected);
        if locks {
            let said = Notice::Barred(file.clone()).to_string();
            assert!(said.contains(&*file.to_string_lossy()) && said.contains("counterpoise clear"), "{said}");
            // Also without the record: the file itself bars.
            fs::remove_file(place.file()).unwrap();
            assert_eq!(place.locks().0, [Lock::Lost]);
            place.clear();
            assert_eq!(place.locks().0, []);
            assert!(file.exists(), "it stays where it is");
        }
    }
}

#[test]
fn what_cannot_be_read_of_a_file_that_was_set_aside_may_lock() {
    let place = Place::new();
    drop(open(&place.folder));
    fs::write(place.folder.path().join("rescue-00000000-1.json"), "{\"schema\": 7}").unwrap();
    let notices = Journal::open(place.folder.lock().unwrap()).unwrap().1;
    assert!(notices.iter().any(|notice| matches!(notice, Notice::Barred(_))), "{notices:?}");
    assert_eq!(place.locks().0, [Lock::Lost]);
    place.clear();
    assert_eq!(place.locks().0, []);
}
