//! The whole journal for other programs: its entries as JSON, which `import` reads back; its sessions as JSON and as CSV, as
//! they are folded from the entries. `docs/journal.md` lists the fields.

use std::io::{self, Write};

use serde::{Deserialize, Serialize};

use super::{Journal, JournalError, lines};
use counterpoise_core::record::{Contents, Id, Line, Response, SessionRecord, SetRecord};
use counterpoise_core::words::Printable;

/// How the form of every export begins, of earlier versions and of later ones.
pub const ANY_SCHEMA: &str = "counterpoise.journal/";
/// The form of the JSON with the entries.
pub const SCHEMA: &str = "counterpoise.journal/2";
/// The form of the JSON with the sessions.
pub const SESSIONS: &str = "counterpoise.sessions/2";

/// A file of entries: a whole journal, or what could not be written of one.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct EntriesFile {
    pub(super) schema: String,
    /// The journal's id.
    pub(super) journal: Option<Id>,
    pub(super) entries: Vec<Line>,
}

/// Writes every entry as JSON, one on a line.
///
/// # Errors
/// If the journal cannot be read or `out` cannot be written.
pub fn json(journal: &Journal, out: &mut impl Write) -> Result<(), JournalError> {
    Ok(write_entries(SCHEMA, Some(journal.id()?), &journal.consistent(lines::all)?, out)?)
}

/// Writes a file of entries.
pub(super) fn write_entries(
    schema: &str,
    journal: Option<Id>,
    lines: &[Line],
    out: &mut impl Write,
) -> io::Result<()> {
    let journal = serde_json::to_string(&journal)?;
    writeln!(out, "{{\"schema\": \"{schema}\", \"journal\": {journal}, \"entries\": [")?;
    for (nth, line) in lines.iter().enumerate() {
        let line = Printable::json(&serde_json::to_string(line)?);
        writeln!(out, "{line}{}", if nth + 1 < lines.len() { "," } else { "" })?;
    }
    writeln!(out, "]}}")
}

/// Writes the sessions, and what was kept outside of them, as JSON.
///
/// # Errors
/// If the journal cannot be read or `out` cannot be written.
pub fn sessions(journal: &Journal, out: &mut impl Write) -> Result<(), JournalError> {
    #[derive(Serialize)]
    struct Sessions<'a> {
        schema: &'a str,
        #[serde(flatten)]
        contents: &'a Contents,
    }
    let contents = journal.contents()?;
    let text = serde_json::to_string_pretty(&Sessions { schema: SESSIONS, contents: &contents });
    writeln!(out, "{}", Printable::json(&text.map_err(io::Error::from)?))?;
    Ok(())
}

const COLUMNS: [&str; 33] = [
    "session",
    "session_begun",
    "session_why",
    "prescription",
    "seed_given",
    "set",
    "set_begun",
    "drill",
    "form",
    "step",
    "worked_ms",
    "set_why",
    "cue",
    "at_ms",
    "gap_ms",
    "blank",
    "action",
    "direction",
    "phrase",
    "wanted_frame",
    "began_frame",
    "frames_per_second",
    "heard_ms",
    "shown_ms",
    "late_us",
    "disturbances_before",
    "until_ms",
    "strength",
    "ball",
    "tell",
    "practice",
    "asked_ms",
    "response",
];

/// Writes one row a cue or blank (those of the set's last plan); a session without sets has one row.
///
/// # Errors
/// If the journal cannot be read or `out` cannot be written.
pub fn csv(journal: &Journal, out: &mut impl Write) -> Result<(), JournalError> {
    // RFC 4180 ends lines with CR LF.
    let mut csv = csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(out);
    csv.write_record(COLUMNS).map_err(failed)?;
    for session in journal.contents()?.sessions {
        let front = session_cells(&session);
        if session.sets.is_empty() {
            let blank = vec![String::new(); COLUMNS.len() - front.len()];
            csv.write_record(front.iter().chain(&blank)).map_err(failed)?;
        }
        for set in &session.sets {
            let middle = set_cells(set);
            for cells in cue_cells(set) {
                csv.write_record(front.iter().chain(&middle).chain(&cells)).map_err(failed)?;
            }
        }
    }
    csv.flush()?;
    Ok(())
}

fn session_cells(session: &SessionRecord) -> Vec<String> {
    vec![
        text(&session.id.to_string()),
        text(session.start.begun.text()),
        session.end.as_ref().map(|end| text(end.why.name())).unwrap_or_default(),
        text(&session.start.title),
        u8::from(session.start.seed_given()).to_string(),
    ]
}

fn set_cells(set: &SetRecord) -> Vec<String> {
    vec![
        set.start.number.to_string(),
        text(set.start.begun.text()),
        text(&set.start.drill),
        text(set.start.form.name()),
        set.start.step.to_string(),
        number(set.end.as_ref().map(|end| end.worked_ms)),
        set.end.as_ref().map(|end| text(end.why.name())).unwrap_or_default(),
    ]
}

fn cue_cells(set: &SetRecord) -> impl Iterator<Item = Vec<String>> {
    set.last_plan().iter().map(|cue| {
        let delivery = set.delivery_of(cue.cue);
        vec![
            cue.cue.to_string(),
            cue.at_ms.to_string(),
            cue.gap_ms.to_string(),
            u8::from(cue.blank).to_string(),
            cue.action.map(|action| text(action.name())).unwrap_or_default(),
            cue.direction.map(|direction| text(direction.name())).unwrap_or_default(),
            cue.phrase.as_deref().map(text).unwrap_or_default(),
            number(delivery.and_then(|delivery| delivery.wanted_frame)),
            number(delivery.and_then(|delivery| delivery.began_frame)),
            number(delivery.and_then(|delivery| delivery.frames_per_second)),
            number(delivery.and_then(|delivery| delivery.heard_ms)),
            number(delivery.and_then(|delivery| delivery.shown_ms)),
            number(delivery.and_then(|delivery| delivery.late_us(cue.at_ms))),
            set.disturbed.iter().filter(|row| row.at_ms <= cue.at_ms).count().to_string(),
            number(cue.until_ms),
            number(cue.strength),
            cue.ball.map(|ball| text(ball.name())).unwrap_or_default(),
            cue.tell.as_deref().map(text).unwrap_or_default(),
            u8::from(cue.practice).to_string(),
            number(delivery.and_then(|delivery| delivery.asked_ms)),
            set.response_of(cue.cue)
                .map(|response| response.map_or("not noted", Response::name).to_owned())
                .unwrap_or_default(),
        ]
    })
}

fn number<T: ToString>(value: Option<T>) -> String {
    value.map(|value| value.to_string()).unwrap_or_default()
}

/// A cell of text. A spreadsheet takes one that begins with `=`, `+`, `-` or `@` for a formula and runs it
/// (OWASP, "CSV Injection"), and one without letters, such as an id of 32 digits, for a number or a day, of which it keeps
/// 15 digits; an apostrophe before it prevents that.
pub(crate) fn text(cell: &str) -> String {
    let runs = cell.starts_with(['=', '+', '-', '@', '\t', '\r', '\n']);
    let counts = cell.starts_with(|first: char| first.is_ascii_digit() || first == '.')
        && (cell.parse::<f64>().is_ok() || !cell.contains(char::is_alphabetic));
    // It may be looked at in a terminal, too.
    let printed = Printable::of(cell);
    if runs || counts { format!("'{printed}") } else { printed.to_string() }
}

fn failed(error: csv::Error) -> JournalError {
    JournalError::Output(error.into())
}

#[cfg(test)]
mod test;
