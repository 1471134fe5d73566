//! A real disk that is full from the first call on: a file system of 2 MB, which this test mounts for a child of its own, with
//! the folder and the folder for temporary files on it. Where nothing may be mounted, no file of the child may grow any more.
#![cfg(target_os = "linux")]

use std::fs::{self, File};
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::time::Duration;

use counterpoise::journal::{Closed, Folder, Journal, JournalError, Notice, Writer};
use counterpoise_core::draw::schedule::{Schedule, Scheduler, Seed};
use counterpoise_core::health::lock::Lock;
use counterpoise_core::health::readiness::Item;
use counterpoise_core::health::yes_no::YesNoNotSure;
use counterpoise_core::plan::place::Room;
use counterpoise_core::plan::prescription::Prescription;
use counterpoise_core::record::{
    Answer, Channel, Delivery, Drawn, Entry, Id, Question, SessionBegun, SessionEnd, SetEnd, Symptom,
};
use counterpoise_core::units::Millis;
use jiff::ZonedDateTime;
use rusqlite::Connection;

/// What the child is told: where its disk is.
const DISK: &str = "COUNTERPOISE_FULL_DISK";
const SIZE: u64 = 2 * 1024 * 1024;
const LONG: Duration = Duration::from_secs(60);

/// Runs the child named so on a disk of its own. Mounted in a name space of the child, it goes with it.
fn on_a_small_disk(child: &str) {
    let place = tempfile::tempdir().unwrap();
    let mount =
        "mount -t tmpfs -o size=2m none \"$COUNTERPOISE_FULL_DISK\" && echo mounted && exec \"$0\" \"$@\"";
    let capped = "trap '' XFSZ; echo capped; exec \"$0\" \"$@\"";
    let ways: [(&[&str], &str); 3] =
        [(&["unshare", "-m"], mount), (&["unshare", "-rm"], mount), (&["env"], capped)];
    for (by, script) in ways {
        let mut command = Command::new(by[0]);
        command.args(&by[1..]).args(["sh", "-c", script]).arg(std::env::current_exe().unwrap());
        command.args(["--exact", "--ignored", "--nocapture", "--test-threads=1", child]);
        let run = command.env(DISK, place.path()).env("TMPDIR", place.path()).output();
        let Ok(run) = run else { continue };
        let (said, wrong) = (String::from_utf8_lossy(&run.stdout), String::from_utf8_lossy(&run.stderr));
        if !(said.starts_with("mounted") || said.starts_with("capped")) {
            continue;
        }
        println!("{child}: {}", said.lines().next().unwrap_or_default());
        assert!(run.status.success() && said.contains("1 passed"), "{said}{wrong}");
        return;
    }
    eprintln!("not run: nothing can be mounted here, and no shell limits a file");
    assert!(std::env::var_os("CI").is_none(), "not run");
}

/// The child's disk.
fn disk() -> PathBuf {
    std::env::var_os(DISK).expect("it is run as a child by the other tests").into()
}

/// Leaves no byte on the disk. Where it could not be mounted, nothing of this process may be longer than the journal is.
struct Full(PathBuf);

impl Full {
    fn fill(disk: &Path, folder: &Folder) -> Self {
        let path = disk.join("filled");
        let mut file = File::create(&path).unwrap();
        for block in [64 * 1024, 4096, 1] {
            let bytes = vec![1; block];
            let mut written = 0;
            while file.write_all(&bytes).is_ok() {
                written += block as u64;
                if written > 2 * SIZE {
                    drop(file);
                    fs::remove_file(&path).unwrap();
                    let longest = folder.journal_file().metadata().unwrap().len();
                    let limit = format!("--fsize={longest}:unlimited");
                    let id = std::process::id().to_string();
                    assert!(Command::new("prlimit").args(["--pid", &id, &limit]).status().unwrap().success());
                    return Self(path);
                }
            }
        }
        fs::write(disk.join("one-more"), b"more").unwrap_err();
        let _ = fs::remove_file(disk.join("one-more"));
        Self(path)
    }

    fn free(self) {
        if fs::remove_file(&self.0).is_err() {
            let id = std::process::id().to_string();
            let limits = ["--pid", &id, "--fsize=unlimited:unlimited"];
            assert!(Command::new("prlimit").args(limits).status().unwrap().success());
        }
    }
}

/// How many bytes the files of the folder take on the disk.
fn taken(folder: &Folder) -> u64 {
    use std::os::unix::fs::MetadataExt;
    let files = fs::read_dir(folder.path()).unwrap().map(|entry| entry.unwrap().metadata().unwrap());
    files.map(|metadata| metadata.blocks() * 512).sum()
}

fn now() -> ZonedDateTime {
    "2026-11-02T09:30:00-05:00[America/New_York]".parse().unwrap()
}

fn drawn() -> (&'static Prescription, Schedule) {
    let prescription = Prescription::ready("typical").unwrap();
    (prescription, Scheduler::new(prescription).unwrap().draw(Seed::from_bytes([7; 32])))
}

fn id() -> Id {
    Id::from_bytes([1; 16])
}

/// Everything up to the first call.
fn begin(writer: &mut Writer) {
    let (prescription, schedule) = drawn();
    let begun = SessionBegun {
        begun: (&now()).into(),
        title: prescription.title().to_owned(),
        digest: prescription.digest(),
        sets_planned: schedule.sets().len() as u8,
        precautions: Vec::new(),
        drawn: Some(Drawn {
            seed: Seed::from_bytes([7; 32]),
            seed_given: false,
            method: schedule.method().number(),
            voice: "lower".to_owned(),
            device: None,
        }),
    };
    writer.keep(&now(), Entry::SessionBegun(begun));
    writer.keep(&now(), Entry::readied(&[(Item::Light, YesNoNotSure::Yes)]));
    let first = Entry::set_begun(&now(), &schedule.sets()[0], Channel::Trainee, Room::default());
    assert!(writer.keep_and_wait(&now(), first, LONG));
}

/// Everything from the first call on: every cue and end of every set, planned anew after pauses, every answer, and at the
/// end "chest". Whether what waits for the disk is on it in time is passed to `wait`.
fn practice(writer: &mut Writer, longest: Duration, wait: impl Fn(bool)) {
    let (prescription, schedule) = drawn();
    let scheduler = Scheduler::new(prescription).unwrap();
    for set in schedule.sets() {
        let number = set.number();
        if number > 1 {
            wait(writer.keep_and_wait(
                &now(),
                Entry::set_begun(&now(), set, Channel::Trainee, Room::default()),
                longest,
            ));
        }
        for pause in 1..=4 {
            let at = Millis(1_000 * u32::from(pause));
            let anew = scheduler.after_pause(Seed::from_bytes([7; 32]), set, pause, at, 0);
            writer.keep(&now(), Entry::replanned(pause, at, &anew, Room::default()));
        }
        for (cue, _) in (0..).zip(set.cues()) {
            let how = Delivery::Heard { wanted: 48_000, began: 48_000, rate: 48_000 };
            writer.keep(&now(), Entry::delivered(number, cue, how));
        }
        let end = Entry::set_ended(number, &now(), Millis(60_000), SetEnd::Completed);
        wait(writer.keep_and_wait(&now(), end, longest));
        for question in [Question::Grabbed, Question::HeldOn, Question::Effort, Question::Steadiness] {
            writer
                .keep(&now(), Entry::answered(Some(number), Answer::from_number(question, Some(1)).unwrap()));
        }
    }
    writer.keep(&now(), Entry::answered(None, Answer::Symptom(Some(Symptom::Chest))));
    let end = Entry::SessionEnded { at: (&now()).into(), why: SessionEnd::Unwell };
    wait(writer.keep_and_wait(&now(), end, longest));
}

/// All of it is in the journal, and the lock stands.
fn assert_whole(folder: &Folder) {
    let journal = Journal::look(folder).unwrap();
    let kept = journal.find("last").unwrap();
    let (_, schedule) = drawn();
    assert_eq!(kept.sets.len(), schedule.sets().len());
    for (set, plan) in kept.sets.iter().zip(schedule.sets()) {
        assert_eq!((set.delivered.len(), set.plans.len()), (plan.cues().len(), 5));
        assert_eq!(set.end.as_ref().unwrap().why, SetEnd::Completed);
    }
    let locks = journal.trainee().unwrap().barriers(&now()).locks;
    assert!(locks.iter().any(|lock| lock.what == Lock::Chest), "{locks:?}");
}

fn open(folder: &Folder) -> (Journal, Vec<Notice>) {
    Journal::open(folder.lock().unwrap()).unwrap()
}

#[test]
#[ignore = "run as a child by `a_practice_is_kept_whole_on_a_disk_that_is_full_from_its_first_call_on`"]
fn child_practices() {
    let disk = disk();
    let folder = Folder::open_in(disk.join("ada")).unwrap();
    let mut writer = Writer::start(open(&folder).0, id()).unwrap();
    begin(&mut writer);
    let full = Full::fill(&disk, &folder);
    let before = taken(&folder);
    practice(&mut writer, LONG, |kept| assert!(kept, "it is not on the disk"));
    let Closed { not_saved, rescue, lost, .. } = writer.close();
    assert_eq!((not_saved, rescue, lost), (0, None, None));
    assert_eq!(taken(&folder), before, "not one new block");
    assert_whole(&folder);
    full.free();
    assert_eq!(open(&folder).1, []);
    assert_whole(&folder);
}

#[test]
fn a_practice_is_kept_whole_on_a_disk_that_is_full_from_its_first_call_on() {
    on_a_small_disk("child_practices");
}

#[test]
#[ignore = "run as a child by `a_rescue_file_is_written_on_a_disk_that_is_full`"]
fn child_is_rescued() {
    let disk = disk();
    let folder = Folder::open_in(disk.join("ada")).unwrap();
    let mut writer = Writer::start(open(&folder).0, id()).unwrap();
    begin(&mut writer);
    let full = Full::fill(&disk, &folder);
    let other = Connection::open(folder.journal_file()).unwrap();
    other.execute_batch("BEGIN EXCLUSIVE").unwrap();
    practice(&mut writer, Duration::ZERO, |_| {});
    let Closed { not_saved, rescue, lost, journal } = writer.close();
    assert!(not_saved > 0, "the journal was held");
    assert_eq!((rescue.unwrap().parent(), lost), (Some(folder.path()), None));
    drop(journal);
    other.execute_batch("COMMIT").unwrap();
    drop(other);
    // Still full: what is missing is taken in, and that there is no room for the next practice is said.
    let refused = Journal::open(folder.lock().unwrap()).map(|_| ()).unwrap_err();
    assert!(matches!(refused, JournalError::Full { .. }), "{refused:?}");
    full.free();
    open(&folder);
    assert_whole(&folder);
}

#[test]
fn a_rescue_file_is_written_on_a_disk_that_is_full() {
    on_a_small_disk("child_is_rescued");
}
