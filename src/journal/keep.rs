//! What is kept in a journal besides the entries of a running session: each call is one commit, all of it or nothing.

use std::fs;
use std::io;

use jiff::ZonedDateTime;
use rusqlite::{Transaction, TransactionBehavior};

use super::lines::{NotKept, Pen, insert, instant};
use super::{Journal, JournalError};
use counterpoise_core::course::past::Lifted;
use counterpoise_core::health::assessment::{Age, Company, Reading, Sex};
use counterpoise_core::plan::prescription::Digest;
use counterpoise_core::record::{
    BalanceRow, Change, ChangeRow, ClearanceRow, Corrected, CorrectionRow, Entry, Id, LiftedRow, Line,
    PrescriptionText, SeenRow, Stamp, SuitabilityRow, Ticked, TopicRow,
};
use counterpoise_core::words::Printable;

impl Journal {
    /// Keeps the answers about suitability. They replace those before, which stay as they are.
    ///
    /// # Errors
    /// If the journal cannot be written.
    pub fn keep_suitability(
        &mut self,
        at: &ZonedDateTime,
        partner: bool,
        answers: &[TopicRow],
    ) -> Result<(), JournalError> {
        let replaces = self.contents()?.suitability.iter().map(|row| row.id).collect();
        let row = SuitabilityRow { at: Stamp::from(at), partner, answers: answers.to_vec(), replaces };
        self.keep(at, None, [Entry::Suitability(row)])
    }

    /// Keeps the answers about the partner alone. They replace those before of the same kind; every other answer stands.
    ///
    /// # Errors
    /// If the journal cannot be written.
    pub fn keep_partner(&mut self, at: &ZonedDateTime, answers: &[TopicRow]) -> Result<(), JournalError> {
        let before = self.contents()?.suitability;
        let replaces = before.iter().filter(|row| row.is_of_partner()).map(|row| row.id).collect();
        let row = SuitabilityRow { at: Stamp::from(at), partner: true, answers: answers.to_vec(), replaces };
        self.keep(at, None, [Entry::Suitability(row)])
    }

    /// Keeps a clearance. It lifts these, as far as is known of them now, and nothing else.
    ///
    /// # Errors
    /// If the journal cannot be written.
    pub fn keep_clearance(
        &mut self,
        at: &ZonedDateTime,
        who: &str,
        reason: &str,
        lifts: &[Lifted],
    ) -> Result<(), JournalError> {
        let contents = self.contents()?;
        let told_by = |lifted: &Lifted| {
            let of = contents.sessions.iter().find(|session| session.id.to_string() == lifted.session);
            of.filter(|_| lifted.what.is_told()).map(|session| session.can_lock.clone()).unwrap_or_default()
        };
        let lifted = lifts.iter().map(|lifted| LiftedRow {
            locked_by: lifted.session.clone(),
            what: lifted.what,
            told_by: told_by(lifted),
        });
        let (who, reason) = (who.to_owned(), reason.to_owned());
        let row = ClearanceRow { at: Stamp::from(at), who, reason, lifted: lifted.collect() };
        let line = self.pen()?.line(instant(at), None, Entry::Cleared(row));
        self.keep_lines(std::slice::from_ref(&line))?;
        self.guard_after(&[line], lifts)
    }

    /// Keeps the result of a balance test.
    ///
    /// # Errors
    /// If the journal cannot be written.
    pub fn keep_balance_test(
        &mut self,
        at: &ZonedDateTime,
        reading: Reading,
        (age, sex): (Option<Age>, Option<Sex>),
        (company, by_whom): (Company, &str),
        stances: Option<u8>,
    ) -> Result<(), JournalError> {
        let row = BalanceRow {
            at: Stamp::from(at),
            test: reading.test(),
            value: reading.value(),
            age: age.map(Age::years),
            sex,
            company,
            by_whom: by_whom.to_owned(),
            stances,
        };
        self.keep(at, None, [Entry::Tested(row)])
    }

    /// Keeps a correction. It replaces the answer or the response that it is about, and every correction of that before.
    ///
    /// # Errors
    /// If the journal cannot be written.
    pub fn keep_correction(&mut self, at: &ZonedDateTime, row: &CorrectionRow) -> Result<(), JournalError> {
        let contents = self.contents()?;
        let about = |row: &CorrectionRow| {
            let what = matches!(row.what, Corrected::Answer | Corrected::Response).then_some(row.what);
            (row.session, what, row.set, row.question, row.cue)
        };
        let before =
            contents.corrections.iter().filter(|before| about(before) == about(row)).map(|row| row.id);
        let told: Vec<Id> =
            contents.session(row.session).map(|session| session.told(row)).unwrap_or_default();
        let row = CorrectionRow { replaces: told.into_iter().chain(before).collect(), ..row.clone() };
        self.keep(at, Some(row.session), [Entry::Corrected(row)])
    }

    /// Keeps an answer about a session that is over.
    ///
    /// # Errors
    /// If the journal cannot be written.
    pub fn keep_answer(
        &mut self,
        at: &ZonedDateTime,
        session: Id,
        answer: counterpoise_core::record::Answer,
    ) -> Result<(), JournalError> {
        let before = self.guard.standing();
        self.keep(at, Some(session), [Entry::answered(None, answer)])?;
        self.settle_marks(session, &before, instant(at))
    }

    /// Keeps what was seen in a try-out, after what was kept of it before.
    ///
    /// # Errors
    /// If the journal cannot be written.
    pub fn keep_seen(
        &mut self,
        at: &ZonedDateTime,
        session: Id,
        seen: &[SeenRow],
    ) -> Result<(), JournalError> {
        self.keep(at, Some(session), [Entry::Seen { seen: seen.to_vec() }])
    }

    /// Keeps a practice from the sheet.
    ///
    /// # Errors
    /// If the journal cannot be written.
    pub fn keep_ticked(&mut self, id: Id, ticked: &Ticked) -> Result<(), JournalError> {
        let mut pen = Pen::fresh(&format!("sheet {id}"));
        let at = instant(&ticked.at);
        let entries = ticked.entries();
        in_range(&entries)?;
        let lines = entries.into_iter().map(|entry| pen.line(at, Some(id), entry));
        self.keep_lines(&lines.collect::<Vec<_>>())
    }

    /// Keeps that somebody said no to a prescription that was offered, so that it is not offered again.
    ///
    /// # Errors
    /// If the journal cannot be written.
    pub fn decline(&mut self, bytes: &[u8], source: &str, at: &ZonedDateTime) -> Result<(), JournalError> {
        self.keep(at, None, [changed(Change::NotTaken, bytes, source, at)])
    }

    /// Makes these bytes the prescription in use, and keeps them. The file of the one before is kept beside it, named by its
    /// digest.
    ///
    /// # Errors
    /// If the folder or the journal cannot be written. The one before is then still in use.
    pub fn adopt(&mut self, bytes: &[u8], source: &str, at: &ZonedDateTime) -> Result<(), JournalError> {
        let Some(folder) = self.folder().cloned() else {
            return Err(JournalError::ReadOnly { path: self.path.clone() });
        };
        let file = folder.prescription_file();
        let digest = Digest::of(bytes);
        match fs::read(&file) {
            Ok(before) if Digest::of(&before) != digest => {
                let name = format!("prescription-{}.toml", Digest::of(&before).short());
                folder.write(&folder.path().join(name), &before)?;
            }
            Err(source) if source.kind() != io::ErrorKind::NotFound => {
                return Err(JournalError::Unreadable { path: file, source });
            }
            _ => {}
        }
        let text = self.unkept_text(bytes)?;
        let entries = text.into_iter().chain([changed(Change::InUse, bytes, source, at)]);
        let mut pen = self.pen()?;
        let lines: Vec<Line> = entries.map(|entry| pen.line(instant(at), None, entry)).collect();
        self.keep_lines_with(&lines, || folder.write(&file, bytes))
    }

    /// The entry that keeps the text of a prescription, unless it is kept already.
    ///
    /// # Errors
    /// If the file cannot be read.
    pub fn unkept_text(&self, bytes: &[u8]) -> Result<Option<Entry>, JournalError> {
        let digest = Digest::of(bytes);
        let known = format!("{{\"prescription\":{{\"digest\":\"{digest}\"%");
        let sql = "SELECT EXISTS (SELECT 1 FROM entries WHERE session IS NULL AND entry LIKE ?)";
        let known = self.consistent(|db| db.query_row(sql, [known], |row| row.get::<_, bool>(0)))?;
        let text = String::from_utf8(bytes.to_vec()).ok().filter(|_| !known);
        Ok(text.map(|text| Entry::Prescription(PrescriptionText { digest, text })))
    }

    /// Closes as interrupted every set and session that a crash or a power cut left open, and says how many sessions that
    /// were. Only called with the lock, since without it the session may still be running elsewhere.
    pub(super) fn close_interrupted(&mut self) -> Result<usize, JournalError> {
        if !self.summaries()?.has_open() {
            return Ok(0);
        }
        let open = self.contents()?;
        let open: Vec<_> = open.sessions.iter().filter(|session| session.end.is_none()).collect();
        let mut pen = self.pen()?;
        let mut lines = Vec::new();
        for session in &open {
            for entry in session.interruption() {
                let at = session.start.begun.ms();
                lines.push(pen.line(at, Some(session.id), entry));
            }
        }
        if !lines.is_empty() {
            self.keep_lines(&lines)?;
        }
        Ok(open.len())
    }

    /// Keeps entries that happened at this moment, all of them or none.
    fn keep(
        &mut self,
        at: &ZonedDateTime,
        session: Option<Id>,
        entries: impl IntoIterator<Item = Entry>,
    ) -> Result<(), JournalError> {
        let entries: Vec<Entry> = entries.into_iter().collect();
        in_range(&entries)?;
        let mut pen = self.pen()?;
        let lines = entries.into_iter().map(|entry| pen.line(instant(at), session, entry));
        self.keep_lines(&lines.collect::<Vec<_>>())
    }

    /// Keeps these lines, all of them or none.
    pub(super) fn keep_lines(&mut self, lines: &[Line]) -> Result<(), JournalError> {
        self.keep_lines_with(lines, || Ok(()))
    }

    /// The same, if this succeeds too before they are kept.
    fn keep_lines_with(
        &mut self,
        lines: &[Line],
        also: impl FnOnce() -> Result<(), JournalError>,
    ) -> Result<(), JournalError> {
        if self.lock.is_none() {
            return Err(JournalError::ReadOnly { path: self.path.clone() });
        }
        let path = self.path.clone();
        let at = |source| JournalError::from_sqlite(&path, source);
        let change = Transaction::new_unchecked(&self.db, TransactionBehavior::Immediate).map_err(at)?;
        for line in lines {
            insert(&change, line).map_err(|error| not_kept(&path, error))?;
        }
        // What bars is in the safety record before the journal has it, and in the journal although it is not.
        let guarded = self.guard_before(&change, lines);
        also()?;
        change.commit().map_err(at)?;
        self.summarize();
        guarded.and_then(|()| self.guard_after(lines, &[]))
    }
}

/// The gate of what is typed in: that of the fold, before anything is kept.
fn in_range(entries: &[Entry]) -> Result<(), JournalError> {
    entries.iter().cloned().try_for_each(|mut entry| entry.range()).map_err(JournalError::OutOfRange)
}

fn changed(what: Change, bytes: &[u8], source: &str, at: &ZonedDateTime) -> Entry {
    // A file can have any name.
    let source = Printable::of(source).to_string();
    Entry::Changed(ChangeRow { at: at.into(), what, source, digest: Digest::of(bytes) })
}

pub(super) fn not_kept(path: &std::path::Path, error: NotKept) -> JournalError {
    match error {
        NotKept::Sqlite(source) => JournalError::from_sqlite(path, source),
        NotKept::Differs(_) => {
            JournalError::NotImported { file: path.display().to_string(), reason: error.to_string() }
        }
    }
}

#[cfg(test)]
mod test;
