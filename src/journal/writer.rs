//! Entries on their way to the disk: handed over without waiting, written by a thread of their own, in order, each
//! in its own commit. What fails is kept and tried again; what is still not written at the end goes to a rescue file,
//! also when a write hangs and never ends.

use std::collections::VecDeque;
use std::path::PathBuf;
use std::sync::mpsc::{self, Receiver, RecvTimeoutError, Sender, SyncSender, TrySendError};
use std::thread;
use std::time::{Duration, Instant};

use super::lines::{NotKept, Pen, insert, instant};
use super::sentry::Sentry;
use super::{Folder, Journal, JournalError, rescue};
use counterpoise_core::record::{Entry, Id, Line};
use jiff::ZonedDateTime;

/// How many entries may wait. A whole session has about three hundred; what does not fit waits with the caller.
const QUEUE: usize = 1024;

/// The first wait before a failed commit is tried again; it doubles up to [`LONGEST_WAIT`].
const FIRST_WAIT: Duration = Duration::from_millis(100);
const LONGEST_WAIT: Duration = Duration::from_secs(5);

/// How long the end of a session waits for the disk. A commit waits for another program for [`BUSY`](super::BUSY) at
/// most, and a slow disk takes a second or two; what takes longer hangs (judgment).
const LONGEST_CLOSE: Duration = Duration::from_secs(10);
/// How long each place for a rescue file is tried: on a disk that hangs it is not written either.
const LONGEST_RESCUE: Duration = Duration::from_secs(3);

/// Keeps the entries of one session.
///
/// ```
/// # use counterpoise::entropy;
/// # use counterpoise::journal::{Folder, Journal, Writer};
/// # let place = tempfile::tempdir().unwrap();
/// let folder = Folder::open_in(place.path()).unwrap();
/// let (journal, _) = Journal::open(folder.lock().unwrap()).unwrap();
/// let writer = Writer::start(journal, entropy::id().unwrap()).unwrap();
/// let closed = writer.close();
/// assert_eq!((closed.not_saved, closed.rescue), (0, None));
/// ```
#[derive(Debug)]
pub struct Writer {
    to: Option<SyncSender<Parcel>>,
    waiting: VecDeque<Parcel>,
    status: Receiver<Status>,
    /// What the thread has not dealt with yet, in order; it may be writing the first.
    unsure: VecDeque<Line>,
    /// How many lines it could never write.
    aside: usize,
    /// Everything that was handed over: a rescue file holds it whole, so that it fits also where the journal is gone.
    all: Vec<Line>,
    /// Whether the next one of `unsure` is in the journal.
    dealt: Receiver<bool>,
    /// What the thread leaves behind.
    closed: Option<Receiver<Closed>>,
    id: Id,
    folder: Option<Folder>,
    pen: Pen,
    sentry: Option<Sentry>,
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
    /// The journal, to go on with; `None` if the writing thread broke down or hangs.
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
    ///
    /// # Errors
    /// If the journal cannot be read.
    pub fn start(journal: Journal, id: Id) -> Result<Self, JournalError> {
        let pen = journal.pen()?;
        let (to, from) = mpsc::sync_channel(QUEUE);
        let (tell, status) = mpsc::channel();
        let (tell_dealt, dealt) = mpsc::channel();
        let (tell_closed, closed) = mpsc::sync_channel(1);
        let folder = journal.folder().cloned();
        let sentry = match journal.guard.file() {
            Some(file) => Some(Sentry::start(file.clone(), id, journal.id()?, tell.clone())),
            None => None,
        };
        let desk = Desk {
            journal,
            id,
            tell,
            dealt: tell_dealt,
            unwritten: VecDeque::new(),
            aside: 0,
            all: Vec::new(),
            failing: None,
            troubled: false,
        };
        // Never joined: a write that hangs would hold up whoever waits for it. If it does, nobody listens to the end.
        thread::spawn(move || {
            let _ = tell_closed.send(desk.run(&from));
        });
        Ok(Self {
            to: Some(to),
            waiting: VecDeque::new(),
            status,
            unsure: VecDeque::new(),
            aside: 0,
            all: Vec::new(),
            dealt,
            closed: Some(closed),
            id,
            folder,
            pen,
            sentry,
        })
    }

    /// Hands an entry over. Returns at once, however slow the disk is.
    pub fn keep(&mut self, at: &ZonedDateTime, entry: Entry) {
        let line = self.pen.line(instant(at), Some(self.id), entry);
        self.hand_over(line, None);
    }

    /// Hands over an entry that is of no session.
    pub fn keep_outside(&mut self, at: &ZonedDateTime, entry: Entry) {
        let line = self.pen.line(instant(at), None, entry);
        self.hand_over(line, None);
    }

    /// Hands an entry over and waits until it is on the disk. `false`: it is not, after `timeout`; it is kept and
    /// tried again all the same.
    #[must_use]
    pub fn keep_and_wait(&mut self, at: &ZonedDateTime, entry: Entry, timeout: Duration) -> bool {
        let (done, ready) = mpsc::sync_channel(1);
        let line = self.pen.line(instant(at), Some(self.id), entry);
        self.hand_over(line, Some(done));
        ready.recv_timeout(timeout).is_ok()
    }

    /// The next news, if there is any.
    pub fn status(&mut self) -> Option<Status> {
        self.pass_on();
        self.status.try_recv().ok()
    }

    /// Writes what is left, or a rescue file, and gives the journal back. Returns although the disk hangs.
    pub fn close(self) -> Closed {
        self.close_within(LONGEST_CLOSE)
    }

    pub(super) fn close_within(mut self, longest: Duration) -> Closed {
        self.finish(longest).expect("only this and the drop, which comes after it, finish a writer")
    }

    pub(super) fn hand_over(&mut self, line: Line, done: Option<SyncSender<()>>) {
        self.unsure.push_back(line.clone());
        self.all.push(line.clone());
        if let Some(sentry) = &mut self.sentry {
            sentry.watch(&self.all);
        }
        self.waiting.push_back(Parcel { line, done });
        self.pass_on();
    }

    /// Puts as much as fits into the queue, in order.
    fn pass_on(&mut self) {
        while let Ok(kept) = self.dealt.try_recv() {
            self.unsure.pop_front();
            self.aside += usize::from(!kept);
        }
        let Some(to) = &self.to else { return };
        while let Some(parcel) = self.waiting.pop_front() {
            if let Err(TrySendError::Full(parcel) | TrySendError::Disconnected(parcel)) = to.try_send(parcel)
            {
                self.waiting.push_front(parcel);
                return;
            }
        }
    }

    /// Waits for the thread, and does without it when it takes too long; `None` the second time.
    fn finish(&mut self, longest: Duration) -> Option<Closed> {
        let closed = self.closed.take()?;
        let until = Instant::now() + longest;
        self.pass_on();
        while !self.waiting.is_empty() && Instant::now() < until {
            thread::sleep(FIRST_WAIT / 10);
            self.pass_on();
        }
        self.to = None;
        let left = until.saturating_duration_since(Instant::now());
        Some(closed.recv_timeout(left).unwrap_or_else(|error| self.abandon(error)))
    }

    /// The thread does not answer, and has not dealt with everything: the session goes to a rescue file. What is in the
    /// journal already, or being written now, is not doubled when it is taken in.
    fn abandon(&mut self, error: RecvTimeoutError) -> Closed {
        self.pass_on();
        let mut closed =
            Closed { journal: None, not_saved: self.aside + self.unsure.len(), rescue: None, lost: None };
        if closed.not_saved > 0 {
            let places =
                self.folder.iter().map(|folder| folder.path().to_owned()).chain([std::env::temp_dir()]);
            closed.rescue = places.into_iter().find_map(|place| rescue_within(place, self.id, &self.all));
            let why = match error {
                RecvTimeoutError::Timeout => "the disk does not answer",
                RecvTimeoutError::Disconnected => "the thread that writes the journal broke down",
            };
            closed.lost = closed.rescue.is_none().then(|| why.to_owned());
        }
        closed
    }
}

/// Writes a rescue file in a thread of its own, which is left behind when it takes too long.
fn rescue_within(place: PathBuf, id: Id, lines: &[Line]) -> Option<PathBuf> {
    let (tell, written) = mpsc::sync_channel(1);
    let lines = lines.to_vec();
    thread::spawn(move || {
        let _ = tell.send(rescue::write_in(&place, id, &lines));
    });
    written.recv_timeout(LONGEST_RESCUE).ok()?.ok()
}

/// A writer that is dropped, by a panic elsewhere for example, still writes what it was given.
impl Drop for Writer {
    fn drop(&mut self) {
        let _ = self.finish(LONGEST_CLOSE);
    }
}

impl Journal {
    /// Keeps one line in a commit of its own.
    fn commit(&mut self, line: &Line) -> Result<(), NotKept> {
        let change = self.db.transaction()?;
        insert(&change, line)?;
        Ok(change.commit()?)
    }
}

/// The other side: what the thread has before it.
struct Desk {
    journal: Journal,
    id: Id,
    tell: Sender<Status>,
    dealt: Sender<bool>,
    unwritten: VecDeque<Parcel>,
    /// How many lines no later try can write: they must not hold up the rest.
    aside: usize,
    /// Everything that came.
    all: Vec<Line>,
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
            let came = next.map(|parcel| self.take(parcel)).is_ok();
            // While commits fail, a new entry is no reason to try sooner than at the time set.
            if !came || self.failing.is_none_or(|(_, again)| again <= Instant::now()) {
                self.write();
            }
            if closing {
                return self.close();
            }
        }
    }

    fn take(&mut self, parcel: Parcel) {
        self.all.push(parcel.line.clone());
        self.unwritten.push_back(parcel);
    }

    /// Writes in order until nothing is left or a commit fails.
    fn write(&mut self) {
        while let Some(parcel) = self.unwritten.front() {
            match self.journal.commit(&parcel.line) {
                Ok(()) => {
                    self.failing = None;
                    // The caller may have left.
                    let _ = self.dealt.send(true);
                    if let Some(Parcel { done: Some(done), .. }) = self.unwritten.pop_front() {
                        // The caller may have stopped waiting.
                        let _ = done.send(());
                    }
                }
                Err(error) if error.is_final() => {
                    self.failing = None;
                    let _ = self.dealt.send(false);
                    self.unwritten.pop_front();
                    self.aside += 1;
                    self.say_not_saved(&error);
                }
                Err(error) => {
                    let wait = self.failing.map_or(FIRST_WAIT, |(wait, _)| (wait * 2).min(LONGEST_WAIT));
                    self.failing = Some((wait, Instant::now() + wait));
                    return self.say_not_saved(&error);
                }
            }
        }
        if self.troubled && self.aside == 0 {
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

    /// The last try has been made. Where the file is gone or empty by now, nothing of the session is in it.
    fn close(mut self) -> Closed {
        let is_gone = !self.journal.path.metadata().is_ok_and(|metadata| metadata.len() > 0);
        let not_saved = if is_gone { self.all.len() } else { self.aside + self.unwritten.len() };
        let mut closed = Closed { journal: None, not_saved, rescue: None, lost: None };
        if not_saved > 0 {
            match self.journal.folder().map(|folder| rescue::write(folder, self.id, &self.all)) {
                Some(Ok(path)) => closed.rescue = Some(path),
                Some(Err(error)) => closed.lost = Some(error.to_string()),
                None => closed.lost = Some("the journal was opened only to look".to_owned()),
            }
        }
        self.journal.summarize();
        closed.journal = Some(self.journal);
        closed
    }
}

#[cfg(test)]
mod test;
