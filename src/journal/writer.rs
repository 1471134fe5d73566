//! Entries on their way to the disk: handed over without waiting, written by a thread of their own, in order, each
//! in its own commit. What fails is kept and tried again; what is still not written at the end goes to a rescue file.

use std::collections::VecDeque;
use std::path::PathBuf;
use std::sync::mpsc::{self, Receiver, RecvTimeoutError, Sender, SyncSender, TrySendError};
use std::thread::{self, JoinHandle};
use std::time::{Duration, Instant};

use super::keep::{NotKept, Try};
use super::row::{Line, SessionId};
use super::{Journal, rescue};
use crate::record::Entry;

/// How many entries may wait. A whole session has about three hundred; what does not fit waits with the caller.
const QUEUE: usize = 1024;

/// The first wait before a failed commit is tried again; it doubles up to [`LONGEST_WAIT`].
const FIRST_WAIT: Duration = Duration::from_millis(100);
const LONGEST_WAIT: Duration = Duration::from_secs(5);

/// Keeps the entries of one session.
///
/// ```
/// # use counterpoise::journal::{Folder, Journal, SessionId, Writer};
/// # use counterpoise::record::{Entry, Question};
/// # let place = tempfile::tempdir().unwrap();
/// let folder = Folder::open_in(place.path()).unwrap();
/// let (journal, _) = Journal::open(folder.lock().unwrap()).unwrap();
/// let writer = Writer::start(journal, SessionId::random().unwrap());
/// let closed = writer.close();
/// assert_eq!((closed.not_saved, closed.rescue), (0, None));
/// ```
#[derive(Debug)]
pub struct Writer {
    to: Option<SyncSender<Parcel>>,
    waiting: VecDeque<Parcel>,
    status: Receiver<Status>,
    thread: Option<JoinHandle<Closed>>,
    places: u32,
}

/// Whether everything that was handed over is on the disk.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Status {
    /// An entry could not be written; it is kept and tried again.
    NotSaved {
        /// Why.
        reason: String,
    },
    /// Everything is on the disk again.
    Saved,
}

/// What became of a session's entries.
#[derive(Debug)]
pub struct Closed {
    /// The journal, to go on with; `None` if the writing thread broke down.
    pub journal: Option<Journal>,
    /// How many entries are not in the journal.
    pub not_saved: usize,
    /// The file that holds them; the next opening takes it in if it lies in the person's folder.
    pub rescue: Option<PathBuf>,
    /// Why there is no rescue file although there should be one.
    pub lost: Option<String>,
}

#[derive(Debug)]
pub(super) struct Parcel {
    line: Line,
    done: Option<SyncSender<()>>,
}

impl Writer {
    /// Starts the thread that writes the entries of session `id`.
    pub fn start(journal: Journal, id: SessionId) -> Self {
        let (to, from) = mpsc::sync_channel(QUEUE);
        let (tell, status) = mpsc::channel();
        let desk = Desk {
            journal,
            id,
            tell,
            unwritten: VecDeque::new(),
            aside: Vec::new(),
            failing: None,
            troubled: false,
        };
        let thread = thread::spawn(move || desk.run(&from));
        Self { to: Some(to), waiting: VecDeque::new(), status, thread: Some(thread), places: 0 }
    }

    /// Hands an entry over. Returns at once, however slow the disk is.
    pub fn keep(&mut self, entry: &Entry) {
        let line = self.line(entry);
        self.hand_over(line, None);
    }

    /// Hands an entry over and waits until it is on the disk. `false`: it is not, after `timeout`; it is kept and
    /// tried again all the same.
    #[must_use]
    pub fn keep_and_wait(&mut self, entry: &Entry, timeout: Duration) -> bool {
        let (done, ready) = mpsc::sync_channel(1);
        let line = self.line(entry);
        self.hand_over(line, Some(done));
        ready.recv_timeout(timeout).is_ok()
    }

    /// The next news, if there is any.
    pub fn status(&mut self) -> Option<Status> {
        self.pass_on();
        self.status.try_recv().ok()
    }

    /// Writes what is left, or a rescue file, and gives the journal back.
    pub fn close(mut self) -> Closed {
        self.finish().unwrap_or(Closed {
            journal: None,
            not_saved: self.waiting.len(),
            rescue: None,
            lost: Some("the thread that writes the journal broke down".to_owned()),
        })
    }

    fn line(&mut self, entry: &Entry) -> Line {
        let place = self.places;
        self.places += 1;
        Line::from_entry(entry, place)
    }

    pub(super) fn hand_over(&mut self, line: Line, done: Option<SyncSender<()>>) {
        self.waiting.push_back(Parcel { line, done });
        self.pass_on();
    }

    /// Puts as much as fits into the queue, in order.
    fn pass_on(&mut self) {
        let Some(to) = &self.to else { return };
        while let Some(parcel) = self.waiting.pop_front() {
            if let Err(TrySendError::Full(parcel) | TrySendError::Disconnected(parcel)) = to.try_send(parcel)
            {
                self.waiting.push_front(parcel);
                return;
            }
        }
    }

    /// Waits for the thread; `None` if it broke down, or was waited for before.
    fn finish(&mut self) -> Option<Closed> {
        if let Some(to) = self.to.take() {
            while let Some(parcel) = self.waiting.pop_front() {
                if let Err(mpsc::SendError(parcel)) = to.send(parcel) {
                    self.waiting.push_front(parcel);
                    break;
                }
            }
        }
        self.thread.take()?.join().ok()
    }
}

/// A writer that is dropped, by a panic elsewhere for example, still writes what it was given.
impl Drop for Writer {
    fn drop(&mut self) {
        let _ = self.finish();
    }
}

/// The other side: what the thread has before it.
struct Desk {
    journal: Journal,
    id: SessionId,
    tell: Sender<Status>,
    unwritten: VecDeque<Parcel>,
    /// What no later try can write: it must not hold up the rest.
    aside: Vec<Line>,
    /// Set while commits fail: how long to wait, and when to try again.
    failing: Option<(Duration, Instant)>,
    /// The last news was [`Status::NotSaved`].
    troubled: bool,
}

impl Desk {
    fn run(mut self, from: &Receiver<Parcel>) -> Closed {
        loop {
            let next = match self.failing {
                Some((_, again)) => from.recv_timeout(again.saturating_duration_since(Instant::now())),
                None => from.recv().map_err(|_| RecvTimeoutError::Disconnected),
            };
            let closing = next.as_ref().is_err_and(|error| *error == RecvTimeoutError::Disconnected);
            let came = next.map(|parcel| self.unwritten.push_back(parcel)).is_ok();
            // While commits fail, a new entry is no reason to try sooner than at the time set.
            if !came || self.failing.is_none_or(|(_, again)| again <= Instant::now()) {
                self.write();
            }
            if closing {
                return self.close();
            }
        }
    }

    /// Writes in order until nothing is left or a commit fails.
    fn write(&mut self) {
        while let Some(parcel) = self.unwritten.front() {
            let which = if self.failing.is_some() { Try::Again } else { Try::First };
            match self.journal.commit(&self.id, &parcel.line, which) {
                Ok(()) => {
                    self.failing = None;
                    if let Some(Parcel { done: Some(done), .. }) = self.unwritten.pop_front() {
                        // The caller may have stopped waiting.
                        let _ = done.send(());
                    }
                }
                Err(error) if error.is_final() => {
                    self.failing = None;
                    self.aside.extend(self.unwritten.pop_front().map(|parcel| parcel.line));
                    self.say_not_saved(&error);
                }
                Err(error) => {
                    let wait = self.failing.map_or(FIRST_WAIT, |(wait, _)| (wait * 2).min(LONGEST_WAIT));
                    self.failing = Some((wait, Instant::now() + wait));
                    return self.say_not_saved(&error);
                }
            }
        }
        if self.troubled && self.aside.is_empty() {
            self.troubled = false;
            // The caller may have left.
            let _ = self.tell.send(Status::Saved);
        }
    }

    fn say_not_saved(&mut self, error: &NotKept) {
        if !self.troubled {
            self.troubled = true;
            let _ = self.tell.send(Status::NotSaved { reason: error.to_string() });
        }
    }

    /// The last try has been made.
    fn close(self) -> Closed {
        let mut lines = self.aside;
        lines.extend(self.unwritten.into_iter().map(|parcel| parcel.line));
        let mut closed = Closed { journal: None, not_saved: lines.len(), rescue: None, lost: None };
        if !lines.is_empty() {
            match self.journal.folder().map(|folder| rescue::write(folder, &self.id, &lines)) {
                Some(Ok(path)) => closed.rescue = Some(path),
                Some(Err(error)) => closed.lost = Some(error.to_string()),
                None => closed.lost = Some("the journal was opened only to look".to_owned()),
            }
        }
        closed.journal = Some(self.journal);
        closed
    }
}

#[cfg(test)]
mod test;
