//! Why a prescription is refused: what was found and where, what the limit is, and what to do about it.

use std::fmt;

use thiserror::Error;

use super::field::{Field, Kind, Place};
use super::limits::{self, Limit, Unit};
use crate::plan::drill::{Need, UnlockName};
use crate::plan::health_topic::Topic;
use crate::units::Millis;
use crate::words::Printable;

/// A prescription that was not accepted. `Display` is the fact with its place; [`Refusal::hint`] is the advice.
///
/// ```
/// use counterpoise_core::plan::prescription::Prescription;
/// let file = b"schema = \"counterpoise.prescription/1\"\ntitle = 3\n";
/// let refusal = Prescription::read("balance.toml", file).unwrap_err();
/// assert_eq!(refusal.to_string(), "`title` is 3; it must be text in quotation marks (balance.toml, line 2)");
/// assert_eq!(refusal.hint(), "Write it like this: title = \"At the counter\"");
/// ```
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Refusal {
    file: String,
    line: Option<usize>,
    reason: Box<Reason>,
}

impl Refusal {
    pub(super) fn new(file: &str, line: Option<usize>, reason: Reason) -> Self {
        Self { file: file.to_owned(), line, reason: Box::new(reason) }
    }

    /// What was seen, and the limit: a lower-case phrase without its place.
    pub fn fact(&self) -> String {
        self.reason.to_string()
    }

    /// What to do about it: a sentence or two.
    pub fn hint(&self) -> String {
        self.reason.hint()
    }

    /// The file, as it was named.
    pub fn file(&self) -> &str {
        &self.file
    }

    /// The line, from 1; `None` if the fact is about the whole file.
    pub fn line(&self) -> Option<usize> {
        self.line
    }

    /// Which rule was broken.
    pub fn reason(&self) -> &Reason {
        &self.reason
    }
}

impl fmt::Display for Refusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} ({}", self.reason, self.file)?;
        if let Some(line) = self.line {
            write!(f, ", line {line}")?;
        }
        f.write_str(")")
    }
}

impl std::error::Error for Refusal {}

/// The rule that a prescription breaks.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
#[allow(missing_docs, reason = "the fact of each says its condition and its values")]
pub enum Reason {
    #[error("the file has {bytes} bytes; the most is {} (256 KiB)", limits::FILE_BYTES)]
    TooLarge { bytes: usize },
    #[error("the file is empty")]
    Empty,
    #[error("the file is not UTF-8 text: byte {at} is not part of a character")]
    NotUtf8 { at: usize },
    #[error("the file is not valid TOML: {message}")]
    NotToml { message: String },
    #[error("`{key}` is given twice")]
    DuplicateKey { key: String },
    #[error("`{field}` is not a field of {place}")]
    Unknown { field: String, place: &'static str, known: String },
    #[error("`{field}` is missing in {place}")]
    Missing { field: &'static str, place: &'static str, kind: Kind },
    #[error("`{field}` is {written}; it must be {kind}")]
    WrongKind { field: &'static str, written: String, kind: Kind },
    #[error("{}", out_of_range(limit, *value, field))]
    OutOfRange { field: &'static str, value: i64, limit: Limit },
    #[error("`schema` is \"{written}\"; this version reads \"{}\"", super::SCHEMA)]
    Schema { written: String },
    #[error("`{field}` is empty")]
    EmptyText { field: &'static str },
    #[error("`{field}` is given, but `issued_by` is empty")]
    AcceptedByNobody { field: &'static str },
    #[error("`topic` is \"{topic}\", which a prescription cannot accept")]
    NotAcceptable { topic: Topic },
    #[error("`when` is {when}, after `issued_on`, which is {issued_on}")]
    AcceptLater { when: String, issued_on: String },
    #[error("`{field}` has {length} characters; the most is {}", limits::TEXT_CHARACTERS)]
    LongText { field: &'static str, length: usize },
    #[error("`{field}` contains a character that cannot be shown: {character:?}")]
    Unprintable { field: &'static str, character: char },
    #[error("`{field}` is \"{written}\"; it can be {known}")]
    UnknownWord { field: &'static str, written: String, known: String },
    #[error("`{field}` is an empty list")]
    EmptyList { field: &'static str },
    #[error("`{field}` lists \"{entry}\" twice")]
    Twice { field: &'static str, entry: String },
    #[error("`form` is \"{form}\"; \"{drill}\" is only offered as {offered}")]
    Form { form: &'static str, drill: String, offered: String },
    #[error("`directions` lists \"{direction}\"; \"{drill}\" has {known}")]
    Direction { direction: &'static str, drill: String, known: String },
    #[error("`directions` lists \"{entry}\", which is locked: {}", unlock.why())]
    Locked { entry: String, unlock: UnlockName },
    #[error("`{field}` is {value}, and step {step} of \"{drill}\" is locked: {}", unlock.why())]
    LockedStep { field: &'static str, value: u8, step: u8, drill: String, unlock: UnlockName },
    #[error("the unlock \"{}\" {}", unlock.name(), if *alone { "names a partner, but the drill is prescribed alone" } else { "names no partner, but the drill is prescribed with one" })]
    UnlockPartner { unlock: UnlockName, alone: bool },
    #[error("no single partner has all the unlocks that \"{drill}\" needs here")]
    NoOnePartner { drill: String },
    #[error("`directions` lists \"{entry}\", which needs a partner, but `form` is \"alone\"")]
    NeedsPartner { entry: String },
    #[error("`directions` lists \"{entry}\" for practice alone, but step {step} is on a soft base")]
    BlindOnFoam { entry: String, step: u8 },
    #[error("\"{drill}\" needs {} here, but `confirmed` does not list it", with_article(*need))]
    NotConfirmed { drill: String, need: Need },
    #[error("`weights` has {weights} numbers for {directions} directions")]
    WeightCount { weights: usize, directions: usize },
    #[error("`{field}` is only allowed with {with}")]
    OnlyWith { field: &'static str, with: &'static str },
    #[error("`strength` is given, but \"{drill}\" has no pushes")]
    Strength { drill: String },
    #[error("`strength` is [{low}, {high}]; both must be 1 to 4, the gentler one first")]
    StrengthRange { low: i64, high: i64 },
    #[error("`strength` is [{low}, {high}]; the two may be at most 1 apart")]
    StrengthSpread { low: i64, high: i64 },
    #[error("`strength` goes up to {high}; the most at home is {}", limits::STRENGTH_AT_HOME)]
    StrengthHome { high: i64 },
    #[error("`balls` is given, but no partner throws a ball in \"{drill}\"")]
    Balls { drill: String },
    #[error("`spell_ms` is given, but no direction listed here has a duration")]
    NoSpan,
    #[error("`spell_ms` is {}; \"{entry}\" must last {} to {}", Unit::Millis.show(*value), Millis(*least), Millis(*most))]
    Spell { value: i64, entry: String, least: u32, most: u32 },
    #[error("step {step} of \"{drill}\" is {stance}, but `tested_hold_ms` is missing")]
    Untested { step: u8, drill: String, stance: &'static str },
    #[error("a hold of {spell} is too long in {stance}: the most is 80 % of `tested_hold_ms`, {most}")]
    HoldLong { spell: Millis, stance: &'static str, most: Millis },
    #[error(
        "`sets` is {sets}, but step {step} has a left and a right side: one side would get more practice"
    )]
    OddSets { sets: u8, step: u8 },
    #[error("the sets of \"{drill}\" add up to {work} of work; the most is {}", limits::WATCHING)]
    WatchLong { drill: String, work: Millis },
    #[error(
        "the partner is told {lead} ahead, but the shortest gap in `gap_ms` leaves only {room} after {quiet} of quiet"
    )]
    Lead { lead: Millis, room: Millis, quiet: Millis },
    #[error("`sequence` is \"covered\", but the directions listed have different durations")]
    CoveredUneven,
    #[error("`{field}` has {count} numbers; it needs two, {pair}")]
    Pair { field: &'static str, count: usize, pair: &'static str },
    #[error("`gap_ms` is [{least}, {greatest}]; the shortest gap must be below the longest")]
    GapReversed { least: i64, greatest: i64 },
    #[error("the shortest gap in `gap_ms` is {}; the least for \"{action}\" is {}", Unit::Millis.show(*value), Unit::Millis.show((*least).into()))]
    GapShort { value: i64, action: &'static str, least: u32 },
    #[error("the longest gap in `gap_ms` is {}; the most is {}", Unit::Millis.show(*value), Unit::Millis.show(limits::GREATEST_GAP.0.into()))]
    GapLong { value: i64 },
    #[error("the range of `gap_ms` is {} wide; the least is {}", Unit::Millis.show(*value), Unit::Millis.show(limits::GAP_WIDTH.0.into()))]
    GapNarrow { value: i64 },
    #[error("a gap of {} is too long for the set: twice the shortest gap{} plus `recover_ms` is {}, but `work_ms` is only {}", Unit::Millis.show(*least), if *span { " and duration" } else { "" }, Unit::Millis.show(*needed), Unit::Millis.show(*work))]
    GapTooLongForSet { least: i64, span: bool, needed: i64, work: i64 },
    #[error("{} of 100 sets would hold fewer than {} calls{} and be drawn again; the most is {}", tenths(*per_million), limits::LEAST_REAL_CUES, if *pushes { " or more than 6 pushes" } else { "" }, limits::REDRAW_MOST * 100.0)]
    Redraws { per_million: u32, pushes: bool },
    #[error("`recover_ms` is {}; the most is `work_ms`, {}", Unit::Millis.show(*value), Unit::Millis.show(*work))]
    RecoverLong { value: i64, work: i64 },
    #[error("`{field}` is {value}; the ladder of \"{drill}\" has {steps} steps")]
    Ladder { field: &'static str, value: i64, drill: String, steps: usize },
    #[error("`ladder` is {value}; the ladder of \"{drill}\" has version {known}")]
    LadderVersion { value: i64, drill: String, known: String },
    #[error("`named_steps` is given, but `issued_by` is empty")]
    NamedByNobody,
    #[error("`ceiling` is {ceiling}, below `step`, which is {step}")]
    CeilingBelowStep { ceiling: i64, step: i64 },
    #[error("`longest_streak` is {value}, but only one direction is listed")]
    StreakOfOne { value: i64 },
    #[error("`longest_streak` is 1 with two directions, which leaves no choice: they would simply alternate")]
    StreakNoChoice,
    #[error("`longest_streak` is 2 with two directions; the least is 3")]
    StreakGuessable,
    #[error("`sequence` is \"covered\", but only one direction is listed")]
    CoveredOne,
    #[error("the session has {sets} sets{}; the most is {}", warm_up_words(*warm_up), limits::SETS.most)]
    SessionSets { sets: u32, warm_up: bool },
    #[error("the sets of a session add up to {work} of work{}; the most is {} (14 min)", warm_up_words(*warm_up), limits::ACTIVE)]
    SessionWork { work: Millis, warm_up: bool },
    #[error("`precautions` ({precautions}) leave none of the drills")]
    NothingLeft { precautions: String },
    #[error("`on` is {on}, after `issued_on`, which is {issued_on}")]
    UnlockLater { on: String, issued_on: String },
}

impl Reason {
    /// A word that is not among those that a field can have, fit for a message.
    pub(super) fn unknown_word<'w>(
        field: &'static str,
        word: &str,
        known: impl IntoIterator<Item = &'w str>,
    ) -> Self {
        Self::UnknownWord { field, written: shown(word), known: words(known) }
    }

    #[expect(clippy::too_many_lines, reason = "one hint for each reason")]
    fn hint(&self) -> String {
        match self {
            Self::TooLarge { .. } => "A prescription is a page or two of text. Is this the right file?".into(),
            Self::Empty => "Start from the example in docs/prescription.md.".into(),
            Self::NotUtf8 { .. } => "Save it as plain text in UTF-8.".into(),
            Self::NotToml { .. } => {
                "Write `name = value` on each line, with text in quotation marks and lists in [ ]. See docs/prescription.md.".into()
            }
            Self::DuplicateKey { key } => format!("Keep one line with `{key}` and delete the other."),
            Self::Unknown { known, .. } => format!("The fields here are {known}."),
            Self::Missing { field, .. } => format!("Add it, for example: {}", example(field)),
            Self::WrongKind { field, .. } | Self::Pair { field, .. } => format!("Write it like this: {}", example(field)),
            Self::OutOfRange { limit, .. } => limit.why.into(),
            Self::Schema { .. } => format!("Write: schema = \"{}\"", super::SCHEMA),
            Self::EmptyText { field } => format!("Write something a person can read, for example: {}", example(field)),
            Self::NotAcceptable { topic } if topic.needs_clearance() => {
                "A clinician's clearance, given after the answer, lifts it: counterpoise clear. Delete the section.".into()
            }
            Self::NotAcceptable { topic } if topic.locks() => format!(
                "It is now asked about in parts. Write a section for each that you accept: {}.",
                words(topic.parts().filter(|part| part.can_be_accepted()).map(Topic::name))
            ),
            Self::NotAcceptable { .. } => {
                "It locks nothing, and its limits always stay. Delete the section.".into()
            }
            Self::AcceptLater { .. } => "It is accepted on or before the day of issue. Correct one of the two dates.".into(),
            Self::AcceptedByNobody { .. } => "Only a named therapist can accept a person whose suitability answers say to see a clinician first. Write the name in `issued_by`.".into(),
            Self::LongText { .. } => "Shorten it to fit on one line of a screen.".into(),
            Self::Unprintable { .. } => "Use letters, digits, spaces and punctuation on one line.".into(),
            Self::UnknownWord { .. } => "Choose one of these, spelled exactly as shown.".into(),
            Self::EmptyList { field: "drills" } => "Add a [[drills]] section; see docs/prescription.md.".into(),
            Self::EmptyList { .. } => "List at least one direction, for example: directions = [\"left\", \"right\", \"forward\"]".into(),
            Self::Twice { field: "directions", .. } => "List each direction only once. To call one more often, give it a weight.".into(),
            Self::Twice { .. } => "List each one only once.".into(),
            Self::Form { offered, .. } => format!("Write: form = \"{offered}\""),
            Self::Direction { .. } => "Leave it out, or choose another drill.".into(),
            Self::Locked { unlock, .. } => format!(
                "Somebody has to watch this person do it first, with {}. Then add [[unlocks]] with name = \"{}\", watched_by and on; or leave the direction out.",
                unlock.safeguard(),
                unlock.name()
            ),
            Self::LockedStep { unlock, step, .. } => format!(
                "Somebody has to watch this person do it first, with {}. Then add [[unlocks]] with name = \"{}\", watched_by and on; or stay below step {step}.",
                unlock.safeguard(),
                unlock.name()
            ),
            Self::UnlockPartner { alone: true, .. } => {
                "An unlock with a partner does not count for practice alone. When somebody has watched it alone, add an unlock with partner = \"\".".into()
            }
            Self::UnlockPartner { alone: false, .. } => {
                "An unlock only counts with the partner who was there. Write that partner's name or initials: partner = \"...\"".into()
            }
            Self::NoOnePartner { .. } => {
                "Add the missing unlock for one of the partners, or leave out what needs it.".into()
            }
            Self::NeedsPartner { .. } => "Write form = \"partner\" if the drill offers it, or leave the direction out.".into(),
            Self::BlindOnFoam { .. } => "Alone, the eyes may be closed only on firm ground. Lower `ceiling`, or leave the direction out.".into(),
            Self::NotConfirmed { need, .. } => format!(
                "This must be in place where the person practices. If it is, add: confirmed = [\"{}\"]. The app asks again before each session.",
                need.name()
            ),
            Self::WeightCount { .. } => "Give one number for each direction, in the same order, or leave `weights` out.".into(),
            Self::OnlyWith { field, .. } => format!("Delete the line with `{field}`, or change the other field."),
            Self::Strength { .. } => "Delete the line: only drills with pushes have it.".into(),
            Self::StrengthRange { .. } => "1 is barely felt, 4 firm. Write it like this: strength = [1, 2]".into(),
            Self::StrengthSpread { .. } => "A push should never be much firmer than the ones before. Write it like this: strength = [1, 2]".into(),
            Self::StrengthHome { .. } => {
                "3 and 4 are only for practice with the therapist present: the unlock \"pushes\" must say therapist_present = true.".into()
            }
            Self::Balls { .. } => "Delete the line: only drills in which a partner throws a ball have it.".into(),
            Self::NoSpan => "Delete the line: only calls such as holds, closed eyes, rises and stops have a duration.".into(),
            Self::Spell { .. } => "Leave the line out to use the drill's own duration.".into(),
            Self::Untested { .. } => {
                "Time how long this person holds it, hands hovering, up to 30 s, and write: tested_hold_ms = 9000; or lower `ceiling`.".into()
            }
            Self::HoldLong { most, .. } => format!("Write spell_ms = {} or less, or lower `ceiling`.", most.0),
            Self::OddSets { .. } => "Write an even number of sets, so that both sides get the same practice.".into(),
            Self::WatchLong { .. } => "Two minutes a session is enough for the eyes. Remove sets or make them shorter.".into(),
            Self::Lead { .. } => {
                "The partner watches the person until a call is over and is told the next one only then. Make the shortest gap longer.".into()
            }
            Self::CoveredUneven => "The number of calls would depend on which ones come. Write sequence = \"open\".".into(),
            Self::GapReversed { .. } => "Write the shorter one first, like this: gap_ms = [5000, 15000]".into(),
            Self::GapShort { .. } => "It takes at least 2.2 s to regain balance, plus time to reset. 5 s (5000) is usual.".into(),
            Self::GapLong { .. } => "A longer wait is no harder to predict and leaves less practice. 15 s (15000) is usual.".into(),
            Self::GapNarrow { .. } => "Calls at nearly equal intervals are soon easy to predict. [5000, 15000] is usual.".into(),
            Self::GapTooLongForSet { .. } => "Make the gaps shorter or the set longer, so that at least two calls fit.".into(),
            Self::Redraws { pushes: true, .. } => {
                "A set has two to six pushes. To get more, make the set longer; to get fewer, make the gaps longer.".into()
            }
            Self::Redraws { .. } => {
                "If few sets have room for two calls, their timing is easy to guess. Make the set longer, the gaps shorter or the blanks fewer.".into()
            }
            Self::RecoverLong { .. } => "This is the quiet time at the end of a set; 5 s (5000) is usual.".into(),
            Self::Ladder { .. } => "Choose a step of the ladder, counted from 1, the gentlest.".into(),
            Self::LadderVersion { .. } => "Write one of these numbers, or delete the line for version 1.".into(),
            Self::NamedByNobody => {
                "Only a named therapist can name a step beyond a person's limits. Write the name in `issued_by`.".into()
            }
            Self::CeilingBelowStep { .. } => "The ceiling is the highest step that practice may reach. It must be `step` or above.".into(),
            Self::StreakOfOne { .. } => "Delete the line, or list more directions.".into(),
            Self::StreakNoChoice => "Write 3, or list more directions.".into(),
            Self::StreakGuessable => {
                "A person who knows the rule would guess 67 of 100 directions right. Write 3, or list more directions.".into()
            }
            Self::CoveredOne => "Write sequence = \"open\", or list more directions.".into(),
            Self::SessionSets { .. } => "Remove sets.".into(),
            Self::SessionWork { .. } => "Remove sets or make them shorter.".into(),
            Self::NothingLeft { .. } => "Prescribe a drill that this person may do, such as \"counter-shift\" or \"steady-holds\".".into(),
            Self::UnlockLater { .. } => {
                "Somebody must watch it on or before the day of issue. Correct one of the two dates.".into()
            }
        }
    }
}

/// How a field or a section is written.
fn example(name: &str) -> String {
    match Place::SECTIONS.into_iter().find(|place| place.key() == name) {
        Some(section) => format!("{} on its own line, with its fields below", section.name()),
        None => Field::named(name).map(Field::example).unwrap_or_default(),
    }
}

/// A word from the file, fit for a message.
pub(super) fn shown(word: &str) -> String {
    Printable::of(&word.chars().take(limits::TEXT_CHARACTERS).collect::<String>()).to_string()
}

pub(super) fn words<'w>(known: impl IntoIterator<Item = &'w str>) -> String {
    known.into_iter().map(|word| format!("\"{word}\"")).collect::<Vec<_>>().join(", ")
}

fn out_of_range(limit: &Limit, value: i64, field: &str) -> String {
    let (side, bound) =
        if value < i64::from(limit.least) { ("least", limit.least) } else { ("most", limit.most) };
    format!("`{field}` is {}; the {side} is {}", limit.unit.show(value), limit.unit.show(bound.into()))
}

fn with_article(need: Need) -> String {
    let article = if need == Need::OwnBase { "an" } else { "a" };
    format!("{article} {need}")
}

fn tenths(per_million: u32) -> String {
    format!("{:.1}", f64::from(per_million) / 10_000.0)
}

fn warm_up_words(added: bool) -> &'static str {
    if added { ", with the built-in warm-up of 1 set of 60 s" } else { "" }
}
