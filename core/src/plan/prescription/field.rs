//! What a field of a prescription file is: its kind, its range, its words. The fields themselves stand in `fields`.

use std::fmt;

use super::limits::{Limit, Unit};
use super::value::Typed;

pub use super::value::{GapShape, Kind, SequenceName, Value};

/// One field of a prescription file: everything that reading, the gate, writing, the guided form and the documentation
/// need to know of it.
#[expect(clippy::struct_excessive_bools, reason = "each is something else that a row says")]
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
    /// As the form says that it is chosen.
    pub said: &'static str,
    /// As the form offers it.
    pub offer: &'static str,
    /// The comment beside it in a file that is written; that of the field, if this is empty.
    pub note: &'static str,
}

/// A word, as the form says that it is chosen, as it offers it, and the comment beside it.
pub(super) const fn choice(
    word: &'static str,
    said: &'static str,
    offer: &'static str,
    note: &'static str,
) -> Choice {
    Choice { word, said, offer, note }
}

/// Where a field stands in the file: before the first section, or in one of them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[allow(missing_docs, reason = "`name` is its header")]
pub enum Place {
    Top,
    Drill,
    Unlock,
    Accept,
    Limits,
    Suitability,
}

impl Place {
    /// The sections, in the order in which they are written.
    pub const SECTIONS: [Self; 5] =
        [Self::Drill, Self::Unlock, Self::Accept, Self::Limits, Self::Suitability];

    /// Its header as it is written.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Top => "the prescription",
            Self::Drill => "[[drills]]",
            Self::Unlock => "[[unlocks]]",
            Self::Accept => "[[accepts]]",
            Self::Limits => "[limits]",
            Self::Suitability => "[suitability]",
        }
    }

    /// The key of the section.
    pub fn key(self) -> &'static str {
        self.name().trim_matches(['[', ']'])
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

/// Where the values of a section come from.
pub(super) trait Source {
    type Error;
    /// The value of a field; `None` if it is left out.
    fn take<T: Typed>(&mut self, field: &'static Field) -> Result<Option<T>, Self::Error>;
    /// Why a needed value cannot be left out.
    fn missing(&self, field: &'static Field) -> Self::Error;
}
