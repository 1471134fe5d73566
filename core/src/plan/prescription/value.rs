//! The kinds of values that a prescription's fields have, and the types behind them.

use std::fmt;

use jiff::civil::Date;

use crate::plan::drill::{Drill, Form, Need, UnlockName};
use crate::plan::health_topic::Topic;
use crate::plan::precaution::Precaution;
use crate::words;

/// A kind of value in the file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[allow(missing_docs, reason = "`Display` says what each is")]
pub enum Kind {
    Text,
    Integer,
    Boolean,
    Date,
    Texts,
    Integers,
    Section,
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
    /// A value of this kind.
    pub(super) const fn example(self) -> &'static str {
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
#[allow(missing_docs, reason = "each is a value of the kind with this name")]
pub enum Value {
    Text(String),
    Integer(i64),
    Boolean(bool),
    Date(Date),
    Texts(Vec<String>),
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

/// Why a field refuses a value, although it is of the right kind.
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

macro_rules! typed {
    ($($type:ty => $kind:ident, $blank:expr, $value:expr;)+) => {$(
        impl Typed for $type {
            const KIND: Kind = Kind::$kind;

            fn of(value: Value) -> Result<Self, Wrong> {
                if let Value::$kind(value) = value { Ok(value) } else { Err(Wrong::Kind) }
            }

            fn value(&self) -> Option<Value> {
                let value: fn(&Self) -> Option<Self> = $value;
                value(self).map(Value::$kind)
            }

            fn blank() -> Self {
                $blank
            }
        }
    )+};
}

typed! {
    String => Text, String::new(), |text| Some(text.clone());
    i64 => Integer, 0, |number| Some(*number);
    bool => Boolean, false, |yes| yes.then_some(true);
    Date => Date, jiff::civil::date(2000, 1, 1), |day| Some(*day);
    Vec<String> => Texts, Vec::new(), |texts| Some(texts.clone());
    Vec<i64> => Integers, Vec::new(), |numbers| Some(numbers.clone());
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

/// What a file names by a word.
macro_rules! named {
    ($($type:ty: $all:expr;)+) => {$(
        impl Typed for $type {
            const KIND: Kind = Kind::Text;

            fn of(value: Value) -> Result<Self, Wrong> {
                let (word, all) = (String::of(value)?, $all);
                let found = all.iter().copied().find(|one| one.name() == word);
                found.ok_or_else(|| Wrong::Word(word, all.iter().map(|one| one.name()).collect()))
            }

            fn value(&self) -> Option<Value> {
                Some(Value::Text(self.name().to_owned()))
            }

            fn blank() -> Self {
                $all[0]
            }
        }
    )+};
}

named! {
    &'static Drill: Drill::all().iter().collect::<Vec<_>>();
    Form: Self::ALL;
    UnlockName: Self::ALL;
    DrillOrder: Self::ALL;
    GapShape: Self::ALL;
    SequenceName: Self::ALL;
}

/// Every topic is read, so that the gate can say why one cannot be accepted; those that can be are named.
impl Typed for Topic {
    const KIND: Kind = Kind::Text;

    fn of(value: Value) -> Result<Self, Wrong> {
        let word = String::of(value)?;
        let known = || Self::ALL.iter().filter(|topic| topic.can_be_accepted()).map(|topic| topic.name());
        Self::from_name(&word).ok_or_else(|| Wrong::Word(word, known().collect()))
    }

    fn value(&self) -> Option<Value> {
        Some(Value::Text(self.name().to_owned()))
    }

    fn blank() -> Self {
        Self::BloodPressure
    }
}

/// A list of what a file names by a word: left out if it is empty.
macro_rules! listed {
    ($($type:ty: $known:expr;)+) => {$(
        impl Typed for Vec<$type> {
            const KIND: Kind = Kind::Texts;

            fn of(value: Value) -> Result<Self, Wrong> {
                let one = |word: String| {
                    let known = || <$type>::ALL.iter().copied().filter($known);
                    let found = known().find(|one| one.name() == word);
                    found.ok_or_else(|| Wrong::Word(word, known().map(<$type>::name).collect()))
                };
                Vec::<String>::of(value)?.into_iter().map(one).collect()
            }

            fn value(&self) -> Option<Value> {
                let words = self.iter().map(|one| one.name().to_owned()).collect();
                (!self.is_empty()).then_some(Value::Texts(words))
            }

            fn blank() -> Self {
                Vec::new()
            }
        }
    )+};
}

listed! {
    // Of a partner a drill's form says enough.
    Need: |need: &Need| *need != Need::Partner;
    Precaution: |_: &Precaution| true;
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
