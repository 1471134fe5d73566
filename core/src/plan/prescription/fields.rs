//! The format of a prescription file: TOML becomes raw fields, each with its line. The kinds of values are checked
//! here; ranges and combinations are checked in `gate`.

use jiff::civil::Date;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::limits;
use super::refusal::{Kind, Reason, Refusal};

/// A value with the name and line of its field.
pub(super) struct Field<T> {
    pub name: &'static str,
    pub value: T,
    pub line: usize,
}

/// A prescription as written.
pub(super) struct RawPrescription {
    pub schema: Field<String>,
    pub title: Field<String>,
    pub issued_by: Option<Field<String>>,
    pub issued_on: Field<Date>,
    pub days_a_week: Option<Field<i64>>,
    pub weeks: Option<Field<i64>>,
    pub review_after_sessions: Option<Field<i64>>,
    pub rest_ms: Option<Field<i64>>,
    pub order: Option<Field<String>>,
    pub drills: Field<Vec<RawDrill>>,
    pub unlocks: Vec<RawUnlock>,
    pub effort_at_most: Option<Field<i64>>,
    pub accepted_because: Option<Field<String>>,
}

/// A `[[drills]]` section.
pub(super) struct RawDrill {
    pub line: usize,
    pub drill: Field<String>,
    pub ladder: Option<Field<i64>>,
    pub named_steps: Option<Field<Vec<String>>>,
    pub form: Option<Field<String>>,
    pub sets: Field<i64>,
    pub work_ms: Field<i64>,
    pub recover_ms: Option<Field<i64>>,
    pub step: Option<Field<i64>>,
    pub ceiling: Option<Field<i64>>,
    pub gap_ms: Field<Vec<i64>>,
    pub shape: Option<Field<String>>,
    pub rate_thousandths: Option<Field<i64>>,
    pub blank_per_mille: Option<Field<i64>>,
    pub directions: Field<Vec<String>>,
    pub weights: Option<Field<Vec<i64>>>,
    pub sequence: Option<Field<String>>,
    pub slack: Option<Field<i64>>,
    pub longest_streak: Option<Field<i64>>,
    pub strength: Option<Field<Vec<i64>>>,
    pub balls: Option<Field<i64>>,
    pub spell_ms: Option<Field<i64>>,
    pub tested_hold_ms: Option<Field<i64>>,
    pub confirmed: Option<Field<Vec<String>>>,
}

/// An `[[unlocks]]` section.
pub(super) struct RawUnlock {
    pub name: Field<String>,
    pub watched_by: Field<String>,
    pub on: Field<Date>,
    pub partner: Option<Field<String>>,
    pub therapist_present: Option<Field<bool>>,
}

const PRESCRIPTION_FIELDS: &[&str] = &[
    "schema",
    "title",
    "issued_by",
    "issued_on",
    "days_a_week",
    "weeks",
    "review_after_sessions",
    "rest_ms",
    "order",
    "drills",
    "unlocks",
    "limits",
    "suitability",
];
const DRILL_FIELDS: &[&str] = &[
    "drill",
    "ladder",
    "named_steps",
    "form",
    "sets",
    "work_ms",
    "recover_ms",
    "step",
    "ceiling",
    "gap_ms",
    "shape",
    "rate_thousandths",
    "blank_per_mille",
    "directions",
    "weights",
    "sequence",
    "slack",
    "longest_streak",
    "strength",
    "balls",
    "spell_ms",
    "tested_hold_ms",
    "confirmed",
];
const UNLOCK_FIELDS: &[&str] = &["name", "watched_by", "on", "partner", "therapist_present"];
const LIMIT_FIELDS: &[&str] = &["effort_at_most"];
const SUITABILITY_FIELDS: &[&str] = &["accepted_because"];

/// The name of every field of every section.
#[cfg(test)]
pub(super) fn every_field() -> impl Iterator<Item = &'static str> {
    [PRESCRIPTION_FIELDS, DRILL_FIELDS, UNLOCK_FIELDS, LIMIT_FIELDS, SUITABILITY_FIELDS]
        .into_iter()
        .flatten()
        .copied()
}

/// Reads the fields of the file called `name`.
pub(super) fn read(name: &str, bytes: &[u8]) -> Result<RawPrescription, Refusal> {
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
    let top = Section::new(file, "the prescription", None, table.into_inner(), PRESCRIPTION_FIELDS)?;
    prescription(top)
}

fn prescription(mut top: Section<'_>) -> Result<RawPrescription, Refusal> {
    Ok(RawPrescription {
        schema: top.need("schema", Kind::Text, Section::text)?,
        title: top.need("title", Kind::Text, Section::text)?,
        issued_by: top.text("issued_by")?,
        issued_on: top.need("issued_on", Kind::Date, Section::date)?,
        days_a_week: top.integer("days_a_week")?,
        weeks: top.integer("weeks")?,
        review_after_sessions: top.integer("review_after_sessions")?,
        rest_ms: top.integer("rest_ms")?,
        order: top.text("order")?,
        drills: top.need("drills", Kind::Sections, |top, name| {
            let Some(Field { name, value, line }) = top.sections(name, "[[drills]]", DRILL_FIELDS)? else {
                return Ok(None);
            };
            let value = value.into_iter().map(drill).collect::<Result<_, _>>()?;
            Ok(Some(Field { name, value, line }))
        })?,
        unlocks: match top.sections("unlocks", "[[unlocks]]", UNLOCK_FIELDS)? {
            Some(field) => field.value.into_iter().map(unlock).collect::<Result<_, _>>()?,
            None => Vec::new(),
        },
        effort_at_most: match top.section("limits", "[limits]", LIMIT_FIELDS)? {
            Some(mut limits) => limits.integer("effort_at_most")?,
            None => None,
        },
        accepted_because: match top.section("suitability", "[suitability]", SUITABILITY_FIELDS)? {
            Some(mut suitability) => suitability.text("accepted_because")?,
            None => None,
        },
    })
}

fn drill(mut section: Section<'_>) -> Result<RawDrill, Refusal> {
    Ok(RawDrill {
        line: section.line.unwrap_or(0),
        drill: section.need("drill", Kind::Text, Section::text)?,
        ladder: section.integer("ladder")?,
        named_steps: section.texts("named_steps")?,
        form: section.text("form")?,
        sets: section.need("sets", Kind::Integer, Section::integer)?,
        work_ms: section.need("work_ms", Kind::Integer, Section::integer)?,
        recover_ms: section.integer("recover_ms")?,
        step: section.integer("step")?,
        ceiling: section.integer("ceiling")?,
        gap_ms: section.need("gap_ms", Kind::Integers, Section::integers)?,
        shape: section.text("shape")?,
        rate_thousandths: section.integer("rate_thousandths")?,
        blank_per_mille: section.integer("blank_per_mille")?,
        directions: section.need("directions", Kind::Texts, Section::texts)?,
        weights: section.integers("weights")?,
        sequence: section.text("sequence")?,
        slack: section.integer("slack")?,
        longest_streak: section.integer("longest_streak")?,
        strength: section.integers("strength")?,
        balls: section.integer("balls")?,
        spell_ms: section.integer("spell_ms")?,
        tested_hold_ms: section.integer("tested_hold_ms")?,
        confirmed: section.texts("confirmed")?,
    })
}

fn unlock(mut section: Section<'_>) -> Result<RawUnlock, Refusal> {
    Ok(RawUnlock {
        name: section.need("name", Kind::Text, Section::text)?,
        watched_by: section.need("watched_by", Kind::Text, Section::text)?,
        on: section.need("on", Kind::Date, Section::date)?,
        partner: section.text("partner")?,
        therapist_present: section.boolean("therapist_present")?,
    })
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
}

/// One table of the file, whose fields are taken one by one.
struct Section<'a> {
    file: File<'a>,
    place: &'static str,
    line: Option<usize>,
    table: DeTable<'a>,
}

type FieldResult<T> = Result<Option<Field<T>>, Refusal>;

impl<'a> Section<'a> {
    /// A table that has no other fields than `known`.
    fn new(
        file: File<'a>,
        place: &'static str,
        line: Option<usize>,
        table: DeTable<'a>,
        known: &[&str],
    ) -> Result<Self, Refusal> {
        let unknown = table
            .iter()
            .map(|(key, _)| key)
            .filter(|key| !known.contains(&key.get_ref().as_ref()))
            .min_by_key(|key| key.span().start);
        if let Some(key) = unknown {
            let field = file.written(key.span());
            let known = known.iter().map(|field| format!("`{field}`")).collect::<Vec<_>>().join(", ");
            return Err(Refusal::new(
                file.name,
                Some(file.line(key.span().start)),
                Reason::Unknown { field, place, known },
            ));
        }
        Ok(Self { file, place, line, table })
    }

    fn take<T>(
        &mut self,
        name: &'static str,
        kind: Kind,
        read: impl FnOnce(&DeValue<'a>) -> Option<T>,
    ) -> FieldResult<T> {
        let Some(value) = self.table.remove(name) else { return Ok(None) };
        let line = self.file.line(value.span().start);
        match read(value.get_ref()) {
            Some(value) => Ok(Some(Field { name, value, line })),
            None => Err(self.wrong_kind(name, &value, kind)),
        }
    }

    fn wrong_kind(&self, field: &'static str, value: &Spanned<DeValue<'a>>, kind: Kind) -> Refusal {
        let mut written = self.file.written(value.span());
        if kind == Kind::Integer && value.get_ref().is_integer() {
            written.push_str(" (far too large)");
        }
        let reason = Reason::WrongKind { field, written, kind };
        Refusal::new(self.file.name, Some(self.file.line(value.span().start)), reason)
    }

    fn need<T>(
        &mut self,
        name: &'static str,
        kind: Kind,
        take: impl FnOnce(&mut Self, &'static str) -> FieldResult<T>,
    ) -> Result<Field<T>, Refusal> {
        take(self, name)?.ok_or_else(|| {
            let reason = Reason::Missing { field: name, place: self.place, kind };
            Refusal::new(self.file.name, self.line, reason)
        })
    }

    fn text(&mut self, name: &'static str) -> FieldResult<String> {
        self.take(name, Kind::Text, text)
    }

    fn integer(&mut self, name: &'static str) -> FieldResult<i64> {
        self.take(name, Kind::Integer, integer)
    }

    fn boolean(&mut self, name: &'static str) -> FieldResult<bool> {
        self.take(name, Kind::Boolean, DeValue::as_bool)
    }

    fn texts(&mut self, name: &'static str) -> FieldResult<Vec<String>> {
        self.take(name, Kind::Texts, |value| list(value, text))
    }

    fn integers(&mut self, name: &'static str) -> FieldResult<Vec<i64>> {
        self.take(name, Kind::Integers, |value| list(value, integer))
    }

    fn date(&mut self, name: &'static str) -> FieldResult<Date> {
        self.take(name, Kind::Date, |value| {
            let moment = value.as_datetime().filter(|m| m.time.is_none() && m.offset.is_none())?;
            let date = moment.date?;
            Date::new(
                i16::try_from(date.year).ok()?,
                i8::try_from(date.month).ok()?,
                i8::try_from(date.day).ok()?,
            )
            .ok()
        })
    }

    fn section(
        &mut self,
        name: &'static str,
        place: &'static str,
        known: &[&str],
    ) -> Result<Option<Self>, Refusal> {
        let Some(value) = self.table.remove(name) else { return Ok(None) };
        self.inner(name, place, value, Kind::Section, known).map(Some)
    }

    fn sections(
        &mut self,
        name: &'static str,
        place: &'static str,
        known: &[&str],
    ) -> FieldResult<Vec<Self>> {
        let Some(value) = self.table.remove(name) else { return Ok(None) };
        let line = self.file.line(value.span().start);
        let span = value.span();
        let DeValue::Array(sections) = value.into_inner() else {
            let reason =
                Reason::WrongKind { field: name, written: self.file.written(span), kind: Kind::Sections };
            return Err(Refusal::new(self.file.name, Some(line), reason));
        };
        let value = sections
            .into_iter()
            .map(|section| self.inner(name, place, section, Kind::Sections, known))
            .collect::<Result<_, _>>()?;
        Ok(Some(Field { name, value, line }))
    }

    fn inner(
        &self,
        name: &'static str,
        place: &'static str,
        value: Spanned<DeValue<'a>>,
        kind: Kind,
        known: &[&str],
    ) -> Result<Self, Refusal> {
        let span = value.span();
        let line = self.file.line(span.start);
        let DeValue::Table(table) = value.into_inner() else {
            let reason = Reason::WrongKind { field: name, written: self.file.written(span), kind };
            return Err(Refusal::new(self.file.name, Some(line), reason));
        };
        Section::new(self.file, place, Some(line), table, known)
    }
}

/// The line, from 1, that contains this byte.
fn line_at(bytes: &[u8], at: usize) -> usize {
    bytes[..at.min(bytes.len())].split(|byte| *byte == b'\n').count()
}

fn text(value: &DeValue<'_>) -> Option<String> {
    value.as_str().map(str::to_owned)
}

fn integer(value: &DeValue<'_>) -> Option<i64> {
    let integer = value.as_integer()?;
    i64::from_str_radix(integer.as_str(), integer.radix()).ok()
}

fn list<T>(value: &DeValue<'_>, read: impl Fn(&DeValue<'_>) -> Option<T>) -> Option<Vec<T>> {
    value.as_array()?.iter().map(|entry| read(entry.get_ref())).collect()
}
