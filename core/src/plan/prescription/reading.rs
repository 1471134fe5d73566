//! From the bytes of a file to a draft and the line of each value. The kinds of values are checked here; ranges and
//! combinations are checked in `gate`.

use std::fmt::Write as _;

use jiff::civil::Date;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::field::{Field, Place, Source};
use super::fields::{Accept, Draft, DraftDrill, Unlock};
use super::limits;
use super::refusal::{Reason, Refusal};
use super::value::{Kind, Typed, Value, Wrong};

/// The lines of a section: its own, and those of its fields.
#[derive(Default)]
pub(super) struct Lines {
    pub section: usize,
    fields: Vec<(&'static str, usize)>,
    pub drills: Vec<Self>,
    pub unlocks: Vec<Self>,
    pub accepts: Vec<Self>,
}

impl Lines {
    /// The line of a field that is given.
    pub(super) fn given(&self, field: &str) -> Option<usize> {
        self.fields.iter().find(|(name, _)| *name == field).map(|(_, line)| *line)
    }

    /// The line of a field; of its section if it is left out.
    pub(super) fn at(&self, field: &str) -> usize {
        self.given(field).unwrap_or(self.section)
    }
}

/// Reads the fields of the file called `name`.
pub(super) fn read(name: &str, bytes: &[u8]) -> Result<(Draft, Lines), Refusal> {
    let whole = |reason| Refusal::new(name, None, reason);
    if bytes.len() > limits::FILE_BYTES {
        return Err(whole(Reason::TooLarge { bytes: bytes.len() }));
    }
    let source = std::str::from_utf8(bytes).map_err(|error| {
        let at = error.valid_up_to();
        let line = line_at(bytes, at);
        Refusal::new(name, Some(line), Reason::NotUtf8 { at: at + 1 })
    })?;
    // A byte order mark is what some editors put at the start; TOML 1.1 allows it.
    let source = source.strip_prefix('\u{feff}').unwrap_or(source);
    let file = File { name, source };
    let table = DeTable::parse(source).map_err(|error| file.not_toml(&error))?;
    if table.get_ref().is_empty() {
        return Err(whole(Reason::Empty));
    }
    let mut top = Section::new(file, Place::Top, None, table.into_inner())?;
    for place in [Place::Limits, Place::Suitability] {
        if let Some(value) = top.table.remove(place.key()) {
            top.inner.push(top.section(place, value, Kind::Section)?);
        }
    }
    let mut draft = Draft::from(&mut top)?;
    if !top.table.contains_key(Place::Drill.key()) {
        return Err(top.absent(Place::Drill.key(), Kind::Sections));
    }
    for mut section in top.sections(Place::Drill)? {
        draft.drills.push(DraftDrill::from(&mut section)?);
        top.lines.drills.push(section.lines);
    }
    for mut section in top.sections(Place::Unlock)? {
        draft.unlocks.push(Unlock::from(&mut section)?);
        top.lines.unlocks.push(section.lines);
    }
    for mut section in top.sections(Place::Accept)? {
        draft.accepts.push(Accept::from(&mut section)?);
        top.lines.accepts.push(section.lines);
    }
    Ok((draft, top.lines))
}

/// The file, for lines and for values as they were written.
#[derive(Clone, Copy)]
struct File<'a> {
    name: &'a str,
    source: &'a str,
}

impl File<'_> {
    fn line(self, at: usize) -> usize {
        line_at(self.source.as_bytes(), at)
    }

    /// The first line of the text in this span, shortened.
    fn written(self, span: std::ops::Range<usize>) -> String {
        const MOST: usize = 40;
        let text = self.source.get(span).unwrap_or_default();
        let line = text.lines().next().unwrap_or_default();
        let short: String = line.chars().take(MOST).map(|c| if c.is_control() { ' ' } else { c }).collect();
        if short.len() < text.len() { format!("{short} ...") } else { short }
    }

    fn not_toml(self, error: &toml::de::Error) -> Refusal {
        let span = error.span();
        let line = span.as_ref().map(|span| self.line(span.start));
        let reason = if error.message().starts_with("duplicate key") {
            Reason::DuplicateKey { key: span.map(|span| self.written(span)).unwrap_or_default() }
        } else {
            Reason::NotToml { message: error.message().lines().next().unwrap_or_default().to_owned() }
        };
        Refusal::new(self.name, line, reason)
    }

    fn wrong_kind(self, field: &'static str, value: &Spanned<DeValue<'_>>, kind: Kind) -> Refusal {
        let mut written = self.written(value.span());
        if kind == Kind::Integer && value.get_ref().is_integer() {
            written.push_str(" (far too large)");
        }
        let reason = Reason::WrongKind { field, written, kind };
        Refusal::new(self.name, Some(self.line(value.span().start)), reason)
    }
}

/// One table of the file, whose fields are taken one by one.
struct Section<'a> {
    file: File<'a>,
    place: Place,
    line: Option<usize>,
    table: DeTable<'a>,
    /// The single sections, if this is the whole file.
    inner: Vec<Self>,
    lines: Lines,
}

impl<'a> Section<'a> {
    /// A table that has no other fields than those of its place.
    fn new(file: File<'a>, place: Place, line: Option<usize>, table: DeTable<'a>) -> Result<Self, Refusal> {
        let fields = Field::ALL.iter().filter(|field| field.place == place).map(|field| field.name);
        let sections = Place::SECTIONS.iter().filter(|_| place == Place::Top).map(|place| place.key());
        let known: Vec<&str> = fields.chain(sections).collect();
        let unknown = table
            .iter()
            .map(|(key, _)| key)
            .filter(|key| !known.contains(&key.get_ref().as_ref()))
            .min_by_key(|key| key.span().start);
        if let Some(key) = unknown {
            let field = file.written(key.span());
            let mut words = String::new();
            for name in known {
                let _ = write!(words, "{}`{name}`", if words.is_empty() { "" } else { ", " });
            }
            let reason = Reason::Unknown { field, place: place.name(), known: words };
            return Err(Refusal::new(file.name, Some(file.line(key.span().start)), reason));
        }
        let lines = Lines { section: line.unwrap_or_default(), ..Lines::default() };
        Ok(Self { file, place, line, table, inner: Vec::new(), lines })
    }

    fn absent(&self, field: &'static str, kind: Kind) -> Refusal {
        Refusal::new(self.file.name, self.line, Reason::Missing { field, place: self.place.name(), kind })
    }

    /// The sections of a list of them.
    fn sections(&mut self, place: Place) -> Result<Vec<Self>, Refusal> {
        let Some(value) = self.table.remove(place.key()) else { return Ok(Vec::new()) };
        self.lines.fields.push((place.key(), self.file.line(value.span().start)));
        if !value.get_ref().is_array() {
            return Err(self.file.wrong_kind(place.key(), &value, Kind::Sections));
        }
        let DeValue::Array(sections) = value.into_inner() else { return Ok(Vec::new()) };
        sections.into_iter().map(|section| self.section(place, section, Kind::Sections)).collect()
    }

    fn section(&self, place: Place, value: Spanned<DeValue<'a>>, kind: Kind) -> Result<Self, Refusal> {
        if !value.get_ref().is_table() {
            return Err(self.file.wrong_kind(place.key(), &value, kind));
        }
        let line = self.file.line(value.span().start);
        let table = if let DeValue::Table(table) = value.into_inner() { table } else { DeTable::new() };
        Section::new(self.file, place, Some(line), table)
    }
}

impl Source for Section<'_> {
    type Error = Refusal;

    fn take<T: Typed>(&mut self, field: &'static Field) -> Result<Option<T>, Refusal> {
        if field.place != self.place {
            let inner = self.inner.iter_mut().find(|inner| inner.place == field.place);
            let Some(inner) = inner else { return Ok(None) };
            let taken = inner.take(field)?;
            self.lines.fields.append(&mut inner.lines.fields);
            return Ok(taken);
        }
        let Some(written) = self.table.remove(field.name) else { return Ok(None) };
        let line = self.file.line(written.span().start);
        self.lines.fields.push((field.name, line));
        let reason = match value(written.get_ref(), field.kind).map_or(Err(Wrong::Kind), T::of) {
            Ok(value) => return Ok(Some(value)),
            Err(Wrong::Kind) => return Err(self.file.wrong_kind(field.name, &written, field.kind)),
            Err(Wrong::Word(word, known)) => Reason::unknown_word(field.name, &word, known),
            Err(Wrong::Count(count)) => Reason::Pair { field: field.name, count, pair: field.pair },
        };
        Err(Refusal::new(self.file.name, Some(line), reason))
    }

    fn missing(&self, field: &'static Field) -> Refusal {
        self.absent(field.name, field.kind)
    }
}

/// The line, from 1, that contains this byte.
fn line_at(bytes: &[u8], at: usize) -> usize {
    bytes[..at.min(bytes.len())].split(|byte| *byte == b'\n').count()
}

/// The value, if it is of this kind.
fn value(value: &DeValue<'_>, kind: Kind) -> Option<Value> {
    Some(match kind {
        Kind::Text => Value::Text(text(value)?),
        Kind::Integer => Value::Integer(integer(value)?),
        Kind::Boolean => Value::Boolean(value.as_bool()?),
        Kind::Date => Value::Date(date(value)?),
        Kind::Texts => Value::Texts(list(value, text)?),
        Kind::Integers => Value::Integers(list(value, integer)?),
        Kind::Section | Kind::Sections => return None,
    })
}

fn text(value: &DeValue<'_>) -> Option<String> {
    value.as_str().map(str::to_owned)
}

fn integer(value: &DeValue<'_>) -> Option<i64> {
    let integer = value.as_integer()?;
    i64::from_str_radix(integer.as_str(), integer.radix()).ok()
}

fn date(value: &DeValue<'_>) -> Option<Date> {
    let moment = value.as_datetime().filter(|m| m.time.is_none() && m.offset.is_none())?;
    let date = moment.date?;
    let (month, day) = (i8::try_from(date.month).ok()?, i8::try_from(date.day).ok()?);
    Date::new(i16::try_from(date.year).ok()?, month, day).ok()
}

fn list<T>(value: &DeValue<'_>, read: impl Fn(&DeValue<'_>) -> Option<T>) -> Option<Vec<T>> {
    value.as_array()?.iter().map(|entry| read(entry.get_ref())).collect()
}
