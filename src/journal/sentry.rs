//! Writes into the safety record what a running practice bars, at once and beside the journal: on a thread of its own, so that
//! a disk that hangs holds nobody up.

use std::sync::mpsc::{self, Receiver, Sender, SyncSender};
use std::thread;
use std::time::Duration;

use super::Status;
use super::safety_file::SafetyFile;
use counterpoise_core::course::safeguard::{can_bar, marks_of_lines};
use counterpoise_core::record::{Id, Line, Mark};

/// How long an answer waits until its mark is on the disk before the practice goes on without it (judgment).
const LONGEST_MARK: Duration = Duration::from_millis(500);

/// What is to be written.
struct Task {
    keep: Vec<Mark>,
    clear: Vec<Mark>,
    at_ms: i64,
    done: SyncSender<()>,
}

/// Watches the entries of one session.
#[derive(Debug)]
pub(super) struct Sentry {
    id: Id,
    journal: Id,
    /// What they bar so far.
    marks: Vec<Mark>,
    to: Sender<Task>,
}

impl Sentry {
    /// Starts the thread. What it cannot write is told as not saved.
    pub(super) fn start(file: SafetyFile, id: Id, journal: Id, tell: Sender<Status>) -> Self {
        let (to, from) = mpsc::channel();
        // Never joined, like the journal's: a write that hangs would hold up whoever waits for it.
        thread::spawn(move || write(&file, &from, &tell));
        Self { id, journal, marks: Vec::new(), to }
    }

    /// Writes what these entries bar and those before the last did not, and waits a moment until it is on the disk. What the last
    /// one says was not so, in this same practice, is cleared: a fall locks until it is said that it did no harm.
    pub(super) fn watch(&mut self, all: &[Line]) {
        let Some(last) = all.last() else { return };
        if last.session != Some(self.id) || !can_bar([last]) && self.marks.is_empty() {
            return;
        }
        let now = marks_of_lines(all, self.id, self.journal);
        let without = |some: &[Mark], others: &[Mark]| -> Vec<Mark> {
            some.iter().filter(|mark| others.iter().all(|other| other.what != mark.what)).copied().collect()
        };
        let (keep, clear) = (without(&now, &self.marks), without(&self.marks, &now));
        if keep.is_empty() && clear.is_empty() {
            return;
        }
        self.marks = now;
        let (done, ready) = mpsc::sync_channel(1);
        // Without the thread nobody writes, and that was told.
        if self.to.send(Task { keep, clear, at_ms: last.at_ms, done }).is_ok() {
            let _ = ready.recv_timeout(LONGEST_MARK);
        }
    }
}

/// Writes in order. What fails is tried again with the next, and stands in the way of no other.
fn write(file: &SafetyFile, from: &Receiver<Task>, tell: &Sender<Status>) {
    let mut left: Vec<Mark> = Vec::new();
    while let Ok(Task { mut keep, clear, at_ms, done }) = from.recv() {
        keep.extend(left.drain(..).filter(|mark| clear.iter().all(|other| other.what != mark.what)));
        let written = file.keep(&keep).and_then(|()| file.clear(&clear, at_ms));
        if let Err(error) = written {
            left = keep;
            // The caller may have left.
            let _ = tell.send(Status::NotSaved { reason: error.to_string() });
        }
        // The caller may have stopped waiting.
        let _ = done.send(());
    }
    // The last try: the journal has it too.
    let _ = file.keep(&left);
}
