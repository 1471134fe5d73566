//! Lines into the file and out of it. A line is never changed and never removed.

use rusqlite::{Connection, OptionalExtension, Row, params};

use counterpoise_core::record::{Entry, FORMAT, Id, Line, Stamp, Told};

use crate::entropy;

/// Who writes into a journal, and the number of its next line.
#[derive(Debug, Clone)]
pub(super) struct Pen {
    pub(super) writer: Id,
    counter: u64,
}

impl Pen {
    /// That of the file.
    pub(super) fn of(db: &Connection) -> rusqlite::Result<Self> {
        let writer = id(db.query_row("SELECT writer FROM journal", [], |row| row.get(0))?);
        let sql = "SELECT coalesce(max(counter) + 1, 0) FROM entries WHERE writer = ?";
        let counter: i64 = db.query_row(sql, [writer.as_bytes()], |row| row.get(0))?;
        Ok(Self { writer, counter: counter.cast_unsigned() })
    }

    /// A fresh one: of a sheet, which is a writer of its own because it tells of another day than that on which it was
    /// typed in.
    pub(super) fn fresh(seed: &str) -> Self {
        Self { writer: entropy::id().unwrap_or_else(|_| Id::of(seed)), counter: 0 }
    }

    /// The next line. That of a session's beginning has the session's id.
    pub(super) fn line(&mut self, at_ms: i64, session: Option<Id>, entry: Entry) -> Line {
        let Self { writer, counter } = *self;
        self.counter += 1;
        let own = session.filter(|_| matches!(entry, Entry::SessionBegun(_)));
        // Without random numbers no practice begins. Where they fail later, nothing is lost.
        let drawn =
            || entropy::id().unwrap_or_else(|_| Id::of(&format!("{writer} {counter} {at_ms} {entry:?}")));
        let id = own.unwrap_or_else(drawn);
        Line { id, writer, counter, at_ms, format: FORMAT, session, entry: entry.into() }
    }
}

/// Why a line was not kept.
#[derive(Debug, thiserror::Error)]
pub(super) enum NotKept {
    #[error("{0}")]
    Sqlite(#[from] rusqlite::Error),
    #[error("the entry {0} differs from the one in this journal")]
    Differs(Id),
}

impl NotKept {
    /// Whether no later try can succeed, so that what follows must not wait for it.
    pub(super) fn is_final(&self) -> bool {
        use rusqlite::ErrorCode::{ConstraintViolation, TooBig, TypeMismatch};
        match self {
            Self::Differs(_) => true,
            Self::Sqlite(error) => {
                matches!(error.sqlite_error_code(), Some(ConstraintViolation | TooBig | TypeMismatch))
            }
        }
    }
}

const COLUMNS: &str = "id, writer, counter, at_ms, format, session, entry";

/// Adds a line; `false` where it is there already. An earlier try may have reached the disk although it was reported as
/// failed.
pub(super) fn insert(db: &Connection, line: &Line) -> Result<bool, NotKept> {
    let text = serde_json::to_string(&line.entry).expect("what a line tells has text keys only");
    let sql = format!("INSERT INTO entries ({COLUMNS}) VALUES (?, ?, ?, ?, ?, ?, ?) ON CONFLICT DO NOTHING");
    let values = params![
        line.id.as_bytes(),
        line.writer.as_bytes(),
        line.counter.cast_signed(),
        line.at_ms,
        line.format,
        line.session.as_ref().map(Id::as_bytes),
        text
    ];
    if db.prepare_cached(&sql)?.execute(values)? == 1 {
        return Ok(true);
    }
    let sql = format!("SELECT {COLUMNS} FROM entries WHERE id = ?");
    let there = db.prepare_cached(&sql)?.query_row([line.id.as_bytes()], read).optional()?;
    if there.as_ref() == Some(line) { Ok(false) } else { Err(NotKept::Differs(line.id)) }
}

/// Every line, in the order in which they reached the file.
pub(super) fn all(db: &Connection) -> rusqlite::Result<Vec<Line>> {
    let sql = format!("SELECT {COLUMNS} FROM entries ORDER BY rowid");
    db.prepare_cached(&sql)?.query_map([], read)?.collect()
}

/// The lines of the sessions of which something came after this row. Their moments are those that follow from all lines of
/// their writers, so that they stand where they stand among all.
pub(super) fn of_sessions_after(db: &Connection, row: i64) -> rusqlite::Result<Vec<Line>> {
    let sql = "SELECT id, writer, counter, moment, format, session, entry FROM \
               (SELECT *, max(at_ms) OVER (PARTITION BY writer ORDER BY counter, id) AS moment FROM entries) \
               WHERE session IN (SELECT session FROM entries WHERE rowid > ?)";
    db.prepare_cached(sql)?.query_map([row], read)?.collect()
}

/// The row of the last line.
pub(super) fn last_row(db: &Connection) -> rusqlite::Result<i64> {
    db.prepare_cached("SELECT coalesce(max(rowid), 0) FROM entries")?.query_row([], |row| row.get(0))
}

fn read(row: &Row<'_>) -> rusqlite::Result<Line> {
    let format: u32 = row.get(4)?;
    let text = row.get_ref(6)?.as_str()?;
    let broken =
        |error| rusqlite::Error::FromSqlConversionFailure(6, rusqlite::types::Type::Text, Box::new(error));
    let entry = match format {
        ..=FORMAT => serde_json::from_str::<Entry>(text).map(Told::from),
        _ => serde_json::from_str(text).map(Told::Later),
    };
    let entry = entry.or_else(|error| {
        serde_json::from_str(text).and_then(|value| Told::read_kept(format, value)).map_err(|_| error)
    });
    Ok(Line {
        id: id(row.get(0)?),
        writer: id(row.get(1)?),
        counter: row.get::<_, i64>(2)?.cast_unsigned(),
        at_ms: row.get(3)?,
        format,
        session: row.get::<_, Option<[u8; 16]>>(5)?.map(id),
        entry: entry.map_err(broken)?,
    })
}

pub(super) fn id(bytes: [u8; 16]) -> Id {
    Id::from_bytes(bytes)
}

/// The instant of a line that tells of this moment.
pub(super) fn instant(at: &jiff::ZonedDateTime) -> i64 {
    Stamp::from(at).ms()
}
