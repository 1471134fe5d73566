//! All sessions as a table that fits 80 columns, for people.

use std::io::Write;

use super::{Journal, JournalError};
use counterpoise_core::record::SessionRecord;

/// Writes one line a session, oldest first.
///
/// # Errors
/// If the journal cannot be read or `out` cannot be written.
pub fn list(journal: &Journal, out: &mut impl Write) -> Result<(), JournalError> {
    let sessions = journal.contents()?.sessions;
    if sessions.is_empty() {
        writeln!(out, "Nothing has been practiced yet.")?;
        return Ok(());
    }
    writeln!(
        out,
        "{:8}  {:16}  {:>8}  {:>5}  {:>5}  How it ended",
        "Session", "Begun", "Sets", "Calls", "Work"
    )?;
    for session in &sessions {
        writeln!(out, "{}", line(session).trim_end())?;
    }
    Ok(())
}

fn line(session: &SessionRecord) -> String {
    let (id, start) = (session.id.short(), &session.start);
    // What was typed in has a day and no hour.
    let day = start.begun.day().filter(|_| start.is_by_hand());
    let begun = day.map_or_else(|| start.begun.minute(), |day| day.to_string());
    match &session.end {
        Some(end) => {
            let sets = format!("{} of {}", end.sets_completed, end.sets_planned);
            let cues = end.cues_heard + end.cues_shown;
            format!("{id}  {begun:16}  {sets:>8}  {cues:>5}  {:>5}  {}", minutes(end.active_ms), end.why)
        }
        None => format!("{id}  {begun:16}  {:>8}  {:>5}  {:>5}  no end yet", "", "", ""),
    }
}

/// Minutes and seconds, rounded down: `3:07`.
pub(crate) fn minutes(ms: u64) -> String {
    format!("{}:{:02}", ms / 60_000, ms / 1000 % 60)
}
