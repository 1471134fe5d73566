//! What a field of a prescription file is: its kind, its range, its words. The fields themselves stand in `fields`.

use std::fmt;

use jiff::civil::Date;

use super::limits::{Limit, Unit};
use crate::plan::drill::{Drill, Form, Need, UnlockName};
use crate::words;

/// One field of a prescription file: everything that reading, the gate, writing, the guided form and the documentation
/// need to know of it.
pub struct Field {
    /// Its name in the file.
    pub name: &'static str,
    /// Where it stands.
    pub place: Place,
    /// What is written there.
    pub kind: Kind,
    /// Whether a file without it is refused.
    pub needed: bool,
    /// What it is, for the documentation.
    pub what: &'static str,
    /// What leaving it out means, where that is no plain default.
    pub left_out: &'static str,
    /// The range of a number, of each number of a list.
    pub limit: Option<Limit>,
    /// A text in one line: how many characters it has at least.
    pub characters: Option<usize>,
    /// Whether a rule of the gate checks the range, because another field decides about it.
    pub is_ruled: bool,
    /// What else it must keep to, for the documentation; the range, if this is empty.
    pub bounds: &'static str,
    /// Where its bounds come from, unless the limit says so.
    pub origin: &'static str,
    /// The words that can be written, with what they mean.
    pub choices: &'static [Choice],
    /// What the two numbers of a pair are.
    pub pair: &'static str,
    /// An example of its value; by its kind, if this is empty.
    pub example: &'static str,
    /// The comment beside it in a file that is written.
    pub note: &'static str,
    /// Its place among the questions of the guided form; 0 if it is not asked.
    pub rank: u8,
    /// Whether it is asked at once when a drill is added, or in the first pass.
    pub is_first: bool,
    /// Whether its page shows how many calls and how much practice it comes to.
    pub is_dose: bool,
    /// Its name in the form.
    pub label: &'static str,
    /// The question in the form, and what the answer means for practice.
    pub question: &'static str,
    /// More about the answer, where no limit says it.
    pub why: &'static str,
    /// What to type.
    pub prompt: &'static str,
    /// A value in words, at `{}`.
    pub said: &'static str,
    /// No value, in words.
    pub unset: &'static str,
    /// What is typed for no value.
    pub clears: &'static [&'static str],
}

/// A word that a field can have.
#[derive(Debug)]
pub struct Choice {
    /// As it is written.
    pub word: &'static str,
    /// The comment beside it in a file that is written.
    pub note: &'static str,
    /// As the form offers it.
    pub offer: &'static str,
    /// As the form says that it is chosen.
    pub said: &'static str,
}

/// Where a field stands in the file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Place {
    /// Before the first section.
    Top,
    /// In each `[[drills]]`.
    Drill,
    /// In each `[[unlocks]]`.
    Unlock,
    /// In `[limits]`.
    Limits,
    /// In `[suitability]`.
    Suitability,
}

impl Place {
    /// The sections, in the order in which they are written.
    pub const SECTIONS: [Self; 4] = [Self::Drill, Self::Unlock, Self::Limits, Self::Suitability];

    /// The key of the section; empty before the first.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Top => "",
            Self::Drill => "drills",
            Self::Unlock => "unlocks",
            Self::Limits => "limits",
            Self::Suitability => "suitability",
        }
    }

    /// Its header as it is written.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Top => "the prescription",
            Self::Drill => "[[drills]]",
            Self::Unlock => "[[unlocks]]",
            Self::Limits => "[limits]",
            Self::Suitability => "[suitability]",
        }
    }
}

impl Field {
    /// A field of which nothing is said yet.
    pub(super) const fn at(place: Place) -> Self {
        Self {
            name: "",
            place,
            kind: Kind::Text,
            needed: false,
            what: "",
            left_out: "",
            limit: None,
            characters: None,
            is_ruled: false,
            bounds: "",
            origin: "",
            choices: &[],
            pair: "",
            example: "",
            note: "",
            rank: 0,
            is_first: false,
            is_dose: false,
            label: "",
            question: "",
            why: "",
            prompt: "",
            said: "{}",
            unset: "",
            clears: &[],
        }
    }

    /// The unit of its numbers.
    pub fn unit(&self) -> Unit {
        let by_name = if self.name.ends_with("_ms") { Unit::Millis } else { Unit::Count };
        self.limit.map_or(by_name, |limit| limit.unit)
    }

    /// The whole line, for example.
    pub fn example(&self) -> String {
        let value = match (self.example, self.kind) {
            ("", Kind::Integer) if self.unit() == Unit::Millis => {
                "60000 (milliseconds, without a decimal point)"
            }
            ("", kind) => kind.example(),
            (example, _) => example,
        };
        format!("{} = {value}", self.name)
    }

    /// Where its bounds come from.
    pub fn origin(&self) -> &'static str {
        match (self.origin, self.limit, self.characters) {
            ("", Some(limit), _) => limit.origin,
            ("", _, Some(_)) => "judgment",
            (origin, ..) => origin,
        }
    }
}

/// A section's values, by their fields.
pub trait Sheet {
    /// The rows of its fields, in the order in which they are written.
    const FIELDS: &[&Field];

    /// Every default; what must be given is empty.
    fn blank() -> Self;

    /// The value of a field; `None` if its line is left out.
    fn value(&self, field: &Field) -> Option<Value>;

    /// Sets a field to a value; `None` leaves it out. `false` if the field cannot have it.
    fn set(&mut self, field: &Field, value: Option<Value>) -> bool;

    /// The fields that the guided form asks for, in its order.
    fn asked() -> Vec<&'static Field> {
        let mut asked: Vec<_> = Self::FIELDS.iter().copied().filter(|field| field.rank > 0).collect();
        asked.sort_by_key(|field| field.rank);
        asked
    }
}

impl fmt::Debug for Field {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name)
    }
}

impl PartialEq for Field {
    fn eq(&self, other: &Self) -> bool {
        (self.name, self.place) == (other.name, other.place)
    }
}

impl Eq for Field {}

/// A kind of value in the file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// Text in quotation marks.
    Text,
    /// An integer, without a decimal point.
    Integer,
    /// True or false.
    Boolean,
    /// A local date.
    Date,
    /// A list of texts.
    Texts,
    /// A list of integers.
    Integers,
    /// One section, in single brackets.
    Section,
    /// A section that may be repeated, in double brackets.
    Sections,
}

impl fmt::Display for Kind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Text => "text in quotation marks",
            Self::Integer => "a whole number",
            Self::Boolean => "true or false",
            Self::Date => "a date",
            Self::Texts => "a list of texts in quotation marks",
            Self::Integers => "a list of whole numbers",
            Self::Section => "a section",
            Self::Sections => "one or more sections",
        })
    }
}

impl Kind {
    const fn example(self) -> &'static str {
        match self {
            Self::Text => "\"...\"",
            Self::Integer => "3",
            Self::Boolean => "true",
            Self::Date => "2026-11-02",
            Self::Texts => "[\"left\", \"right\", \"forward\"]",
            Self::Integers => "[1, 1, 2]",
            Self::Section | Self::Sections => "",
        }
    }
}

/// A value of any kind.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Value {
    /// A text.
    Text(String),
    /// A number.
    Integer(i64),
    /// True or false.
    Boolean(bool),
    /// A day.
    Date(Date),
    /// Texts.
    Texts(Vec<String>),
    /// Numbers.
    Integers(Vec<i64>),
}

/// As TOML writes it. What a person typed cannot become anything else than a text.
impl fmt::Display for Value {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let text = |words: &String| toml::Value::String(words.clone()).to_string();
        match self {
            Self::Text(words) => f.write_str(&text(words)),
            Self::Integer(number) => write!(f, "{number}"),
            Self::Boolean(yes) => write!(f, "{yes}"),
            Self::Date(day) => write!(f, "{day}"),
            Self::Texts(texts) => write!(f, "[{}]", texts.iter().map(text).collect::<Vec<_>>().join(", ")),
            Self::Integers(numbers) => write!(f, "{numbers:?}"),
        }
    }
}

/// Why a value of the right kind is none of its field's.
pub(super) enum Wrong {
    /// Not of the field's kind.
    Kind,
    /// Not one of these words.
    Word(String, Vec<&'static str>),
    /// So many numbers where two are needed.
    Count(usize),
}

/// A type that a field can have.
pub(super) trait Typed: Sized {
    const KIND: Kind;
    fn of(value: Value) -> Result<Self, Wrong>;
    /// `None` if its line is left out.
    fn value(&self) -> Option<Value>;
    /// What stands for a needed value that is not given yet.
    fn blank() -> Self;
}

/// Where the values of a section come from.
pub(super) trait Source {
    type Error;
    /// The value of a field; `None` if it is left out.
    fn take<T: Typed>(&mut self, field: &'static Field) -> Result<Option<T>, Self::Error>;
    /// What a needed value is that is left out.
    fn missing<T: Typed>(&self, field: &'static Field) -> Result<T, Self::Error>;
}

/// A section in which nothing is given.
pub(super) struct Nothing;

impl Source for Nothing {
    type Error = std::convert::Infallible;

    fn take<T: Typed>(&mut self, _: &'static Field) -> Result<Option<T>, Self::Error> {
        Ok(None)
    }

    fn missing<T: Typed>(&self, _: &'static Field) -> Result<T, Self::Error> {
        Ok(T::blank())
    }
}

macro_rules! typed {
    ($($type:ty => $kind:ident, $blank:expr;)+) => {$(
        impl Typed for $type {
            const KIND: Kind = Kind::$kind;

            fn of(value: Value) -> Result<Self, Wrong> {
                if let Value::$kind(value) = value { Ok(value) } else { Err(Wrong::Kind) }
            }

            fn value(&self) -> Option<Value> {
                Some(Value::$kind(self.clone()))
            }

            fn blank() -> Self {
                $blank
            }
        }
    )+};
}

typed! {
    String => Text, String::new();
    i64 => Integer, 0;
    Date => Date, jiff::civil::date(2000, 1, 1);
    Vec<String> => Texts, Vec::new();
    Vec<i64> => Integers, Vec::new();
}

impl Typed for bool {
    const KIND: Kind = Kind::Boolean;

    fn of(value: Value) -> Result<Self, Wrong> {
        if let Value::Boolean(yes) = value { Ok(yes) } else { Err(Wrong::Kind) }
    }

    fn value(&self) -> Option<Value> {
        self.then_some(Value::Boolean(true))
    }

    fn blank() -> Self {
        false
    }
}

impl Typed for [i64; 2] {
    const KIND: Kind = Kind::Integers;

    fn of(value: Value) -> Result<Self, Wrong> {
        Vec::of(value)?.try_into().map_err(|numbers: Vec<i64>| Wrong::Count(numbers.len()))
    }

    fn value(&self) -> Option<Value> {
        self.to_vec().value()
    }

    fn blank() -> Self {
        [0, 0]
    }
}

impl<T: Typed> Typed for Option<T> {
    const KIND: Kind = T::KIND;

    fn of(value: Value) -> Result<Self, Wrong> {
        T::of(value).map(Some)
    }

    fn value(&self) -> Option<Value> {
        self.as_ref()?.value()
    }

    fn blank() -> Self {
        None
    }
}

/// Something that a file names by a word.
trait Named: Copy {
    fn all() -> Vec<Self>;
    fn word(self) -> &'static str;
}

fn named<T: Named>(word: String) -> Result<T, Wrong> {
    let all = T::all();
    let found = all.iter().copied().find(|one| one.word() == word);
    found.ok_or_else(|| Wrong::Word(word, all.into_iter().map(T::word).collect()))
}

macro_rules! named {
    ($($type:ty: $all:expr;)+) => {$(
        impl Named for $type {
            fn all() -> Vec<Self> {
                $all
            }

            fn word(self) -> &'static str {
                self.name()
            }
        }

        impl Typed for $type {
            const KIND: Kind = Kind::Text;

            fn of(value: Value) -> Result<Self, Wrong> {
                named(String::of(value)?)
            }

            fn value(&self) -> Option<Value> {
                Some(Value::Text(self.name().to_owned()))
            }

            fn blank() -> Self {
                Self::all()[0]
            }
        }
    )+};
}

named! {
    &'static Drill: Drill::all().iter().collect();
    Form: Self::ALL.to_vec();
    UnlockName: Self::ALL.to_vec();
    DrillOrder: Self::ALL.to_vec();
    GapShape: Self::ALL.to_vec();
    SequenceName: Self::ALL.to_vec();
}

/// What is in place: of a partner a drill's form says enough.
impl Typed for Vec<Need> {
    const KIND: Kind = Kind::Texts;

    fn of(value: Value) -> Result<Self, Wrong> {
        let need = |word: String| {
            let known = || Need::ALL.iter().copied().filter(|need| *need != Need::Partner);
            let found = known().find(|need| need.name() == word);
            found.ok_or_else(|| Wrong::Word(word, known().map(Need::name).collect()))
        };
        Vec::<String>::of(value)?.into_iter().map(need).collect()
    }

    fn value(&self) -> Option<Value> {
        let words = self.iter().map(|need| need.name().to_owned()).collect();
        (!self.is_empty()).then_some(Value::Texts(words))
    }

    fn blank() -> Self {
        Vec::new()
    }
}

/// The order of the drills within a session.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DrillOrder {
    /// As the file lists them.
    AsWritten,
    /// Drawn for each session; a warm-up drill stays first.
    Drawn,
}

/// How gaps are spread, as the file names it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum GapShape {
    /// Short ones more often.
    Flat,
    /// All equally often.
    Even,
}

/// How directions follow each other, as the file names it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SequenceName {
    /// Each drawn independently.
    Open,
    /// All about equally often.
    Covered,
}

words! {
    DrillOrder {
        AsWritten => "as written",
        Drawn => "drawn",
    }
    GapShape {
        Flat => "flat",
        Even => "even",
    }
    SequenceName {
        Open => "open",
        Covered => "covered",
    }
}
