//! A line of the journal: an entry with what tells it from all others, and the one order in which lines are read.

use serde::{Deserialize, Deserializer, Serialize};
use serde_json::Value;

use super::{Entry, Id, careful};

/// The form in which entries are written now. In form 1 readiness was kept as sentences that were true or not; a line of
/// form 0 was kept before lines named what they lift or replace (see [`old`](super::old)).
pub const FORMAT: u32 = 2;

/// One line: the same value is written, exported, imported and folded.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Line {
    /// Tells it from every other line. That of a session's beginning is the session's.
    pub id: Id,
    /// Who wrote it: a journal on one computer, or one sheet that was typed in.
    pub writer: Id,
    /// Orders the lines of a writer.
    pub counter: u64,
    /// When it happened by the writer's clock, in milliseconds since 1970-01-01 UTC. Of what was typed in from a sheet: the
    /// last moment at which it can have happened.
    pub at_ms: i64,
    /// The form of the entry.
    pub format: u32,
    /// The session that it is of; `None` outside of sessions.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub session: Option<Id>,
    /// What happened.
    pub entry: Told,
}

/// What a line tells.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(untagged)]
pub enum Told {
    /// An entry.
    Now(Box<Entry>),
    /// An answer with a number that its question does not have, kept as it came by an earlier version. It counts as the
    /// careful answer; see [`careful`].
    OutOfRange(Value),
    /// Something of a later form, kept as it came. Nothing is decided by it.
    Later(Value),
}

impl Told {
    /// Reads what a line of this form tells.
    ///
    /// # Errors
    /// If the form is known and the entry is not of it.
    pub fn read(format: u32, value: Value) -> Result<Self, serde_json::Error> {
        match format {
            ..=FORMAT => Ok(Self::Now(Box::new(serde_json::from_value(value)?))),
            _ => Ok(Self::Later(value)),
        }
    }

    /// Reads what a line of this form tells that a journal holds already: an answer out of range is let in nowhere, and is
    /// not lost where it is there.
    ///
    /// # Errors
    /// If the form is known and the entry is not of it.
    pub fn read_kept(format: u32, value: Value) -> Result<Self, serde_json::Error> {
        match careful(&value) {
            Some(_) => Ok(Self::read(format, value.clone()).unwrap_or(Self::OutOfRange(value))),
            None => Self::read(format, value),
        }
    }

    /// The entry, unless it is of a later form.
    pub fn entry(&self) -> Option<&Entry> {
        match self {
            Self::Now(entry) => Some(entry),
            Self::OutOfRange(_) | Self::Later(_) => None,
        }
    }
}

impl From<Entry> for Told {
    fn from(entry: Entry) -> Self {
        Self::Now(Box::new(entry))
    }
}

impl<'de> Deserialize<'de> for Line {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        #[derive(Deserialize)]
        #[serde(deny_unknown_fields)]
        struct Raw {
            id: Id,
            writer: Id,
            counter: u64,
            at_ms: i64,
            format: u32,
            #[serde(default)]
            session: Option<Id>,
            entry: Value,
        }
        let Raw { id, writer, counter, at_ms, format, session, entry } = Raw::deserialize(from)?;
        if counter > i64::MAX.cast_unsigned() {
            let what = format_args!("entry {id}: `counter` is {counter}; the most is {}", i64::MAX);
            return Err(serde::de::Error::custom(what));
        }
        let entry = Told::read(format, entry)
            .map_err(|error| serde::de::Error::custom(format_args!("entry {id}: {error}")))?;
        Ok(Self { id, writer, counter, at_ms, format, session, entry })
    }
}

/// Where a line stands among all lines, whichever way they came. The lines of a writer stand in the order of its counter,
/// although its clock was set back: nothing that it wrote was earlier than what it wrote before. Lines of several writers
/// stand in the order of the moments that follow from this.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct Place {
    moment: i64,
    writer: Id,
    counter: u64,
    id: Id,
}

impl Place {
    /// The line's id.
    pub const fn id(&self) -> Id {
        self.id
    }

    /// The place of a line that stands alone.
    pub const fn of(id: Id, at_ms: i64) -> Self {
        Self { moment: at_ms, writer: id, counter: 0, id }
    }
}

/// Lines in their order, each with its place.
pub fn in_order(mut lines: Vec<Line>) -> Vec<(Place, Line)> {
    lines.sort_unstable_by_key(|line| (line.writer, line.counter, line.id));
    let mut latest: Option<(Id, i64)> = None;
    let placed = lines.into_iter().map(|line| {
        let so_far = latest.filter(|(writer, _)| *writer == line.writer).map(|(_, at)| at);
        let moment = so_far.map_or(line.at_ms, |at| at.max(line.at_ms));
        latest = Some((line.writer, moment));
        (Place { moment, writer: line.writer, counter: line.counter, id: line.id }, line)
    });
    let mut placed: Vec<(Place, Line)> = placed.collect();
    placed.sort_unstable_by_key(|(place, _)| *place);
    placed
}
