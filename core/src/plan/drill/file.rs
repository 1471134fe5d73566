//! The format of a drill file: raw TOML, then the checks that turn it into a [`Drill`].

use serde::Deserialize;
use thiserror::Error;
use toml::Spanned;

use super::hazards::{self, Rule};
use super::ladders::{LadderFlaw, RawLadder};
use super::{
    Action, Drill, DrillCaution, Facing, Form, Ladder, Movement, Part, Span, Support, Target, Trains,
};
use crate::plan::direction::Direction;
use crate::plan::phrase::Phrase;
use crate::units::Millis;

/// The `schema` of a drill file.
pub(super) const SCHEMA: &str = "counterpoise.drill/1";

/// Why a drill file was refused. These files are built in, so the message is for the person who adds a drill.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
#[error("drill `{file}`: {why}")]
pub struct DrillError {
    file: String,
    why: Flaw,
}

/// What is wrong with a drill file.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum Flaw {
    /// The text is not TOML, or a field is missing, unknown or of the wrong kind.
    #[error("{0}")]
    Text(String),
    /// `schema` is another one.
    #[error("`schema` is \"{0}\"; this version reads \"{SCHEMA}\"")]
    Schema(String),
    /// `name` is not the name of the file.
    #[error("`name` is \"{0}\"; it must be the name of the file")]
    Name(String),
    /// A text that a person needs is empty.
    #[error("`{0}` is empty")]
    Empty(&'static str),
    /// A list that must hold something is empty.
    #[error("`{0}` is an empty list")]
    Nothing(&'static str),
    /// A list holds an entry twice.
    #[error("`{field}` lists \"{entry}\" twice")]
    Twice {
        /// The field with the list.
        field: &'static str,
        /// The entry that is there twice.
        entry: String,
    },
    /// No such phrase in `sounds/phrases.toml`, or one of the wrong kind.
    #[error("\"{0}\" is not {1} in sounds/phrases.toml")]
    Phrase(String, &'static str),
    /// A ladder breaks a rule.
    #[error(transparent)]
    Ladder(#[from] LadderFlaw),
    /// A caution forbids what the drill itself asks for.
    #[error("the caution \"{caution}\" forbids to {movement}, which \"{call}\" asks for")]
    Contradiction {
        /// The caution.
        caution: String,
        /// What it forbids.
        movement: Movement,
        /// The call.
        call: String,
    },
    /// A caution that forbids something is about some actions, and does not say which.
    #[error("the caution \"{0}\" must name what it is about")]
    Unnamed(String),
    /// It breaks a rule of safety.
    #[error("{0}")]
    Unsafe(Rule),
    /// A warm-up drill must begin with both hands resting.
    #[error("a warm-up drill must begin with both hands resting")]
    WarmUp,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawDrill {
    schema: String,
    name: String,
    title: String,
    about: String,
    forms: Vec<Form>,
    kit: Vec<String>,
    facings: Vec<Facing>,
    behind: String,
    fixed_support: String,
    trains: Trains,
    evidence: String,
    #[serde(rename = "honesty")]
    limitation: Option<String>,
    instruction: String,
    /// The instruction with two balls in play.
    instruction_two: Option<String>,
    prepare: Option<String>,
    #[serde(default)]
    partner_does: Vec<String>,
    #[serde(default)]
    lead_ms: u32,
    #[serde(default)]
    warm_up: bool,
    cautions: Vec<DrillCaution>,
    targets: Vec<RawTarget>,
    #[serde(default)]
    parts: Vec<RawPart>,
    ladders: Vec<Spanned<RawLadder>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawTarget {
    /// If left out, the name of the direction.
    name: Option<String>,
    direction: Direction,
    action: Action,
    phrase: Option<String>,
    tell: Option<String>,
    hand: Option<String>,
    span: Option<RawSpan>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawSpan {
    length_ms: u32,
    close: String,
    #[serde(default)]
    count: u8,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawPart {
    kind: String,
    phrase: String,
    action: Option<Action>,
    #[serde(default)]
    directions: Vec<Direction>,
}

impl Drill {
    /// Reads the drill file called `name`.
    ///
    /// # Errors
    /// The text is not such a file, names a phrase that does not exist, offers no fixed support or clear space, or
    /// has a ladder that skips a step, repeats a key or takes the hand away without an unlock.
    ///
    /// ```
    /// use counterpoise_core::plan::drill::Drill;
    /// let error = Drill::from_toml("my-drill", "title = 3").unwrap_err();
    /// assert!(error.to_string().starts_with("drill `my-drill`: "));
    /// ```
    pub fn from_toml(name: &str, text: &str) -> Result<Self, DrillError> {
        parse(name, text).map_err(|why| DrillError { file: name.to_owned(), why })
    }
}

impl DrillError {
    /// What is wrong with the file.
    pub fn flaw(&self) -> &Flaw {
        &self.why
    }
}

fn parse(name: &str, text: &str) -> Result<Drill, Flaw> {
    let raw: RawDrill = toml::from_str(text).map_err(|error| Flaw::Text(error.to_string()))?;
    if raw.schema != SCHEMA {
        return Err(Flaw::Schema(raw.schema));
    }
    if raw.name != name {
        return Err(Flaw::Name(raw.name));
    }
    // A drill that cannot offer a fixed support and clear space behind is not offered at all.
    let texts = [
        ("title", &raw.title),
        ("about", &raw.about),
        ("behind", &raw.behind),
        ("fixed_support", &raw.fixed_support),
        ("evidence", &raw.evidence),
    ];
    if let Some((field, _)) = texts.into_iter().find(|(_, text)| text.trim().is_empty()) {
        return Err(Flaw::Empty(field));
    }
    for (field, count) in [
        ("forms", raw.forms.len()),
        ("facings", raw.facings.len()),
        ("kit", raw.kit.len()),
        ("cautions", raw.cautions.len()),
        ("targets", raw.targets.len()),
        ("ladders", raw.ladders.len()),
    ] {
        if count == 0 {
            return Err(Flaw::Nothing(field));
        }
    }
    if raw.kit.iter().any(|kit| kit.trim().is_empty()) {
        return Err(Flaw::Empty("kit"));
    }
    if raw.cautions.iter().any(|caution| caution.text().trim().is_empty()) {
        return Err(Flaw::Empty("cautions"));
    }
    for (index, form) in raw.forms.iter().enumerate() {
        if raw.forms[..index].contains(form) {
            return Err(Flaw::Twice { field: "forms", entry: form.name().to_owned() });
        }
    }
    let instruction = phrase(raw.instruction, false)?;
    let instruction_two = raw.instruction_two.map(|id| phrase(id, false)).transpose()?;
    let prepare = raw.prepare.map(|id| phrase(id, false)).transpose()?;
    let ladders = Ladder::all_of(raw.ladders, text)?;
    if raw.warm_up && ladders.iter().any(|ladder| ladder.steps()[0].support != Support::TwoHands) {
        return Err(Flaw::WarmUp);
    }
    let drill = Drill {
        name: raw.name,
        title: raw.title,
        about: raw.about,
        forms: raw.forms,
        kit: raw.kit,
        facings: raw.facings,
        behind: raw.behind,
        fixed_support: raw.fixed_support,
        trains: raw.trains,
        evidence: raw.evidence,
        limitation: raw.limitation,
        instruction,
        instruction_two,
        prepare,
        partner_does: raw.partner_does,
        lead: Millis(raw.lead_ms),
        warm_up: raw.warm_up,
        cautions: raw.cautions,
        targets: targets(raw.targets)?,
        parts: raw.parts.into_iter().map(part).collect::<Result<_, _>>()?,
        ladders,
    };
    hazards::check(&drill).map_err(Flaw::Unsafe)?;
    for caution in &drill.cautions {
        if !caution.names_its_actions() {
            return Err(Flaw::Unnamed(caution.text().to_owned()));
        }
        if let Some((movement, target)) = caution.contradiction(&drill) {
            let (caution, call) = (caution.text().to_owned(), target.name.clone());
            return Err(Flaw::Contradiction { caution, movement, call });
        }
    }
    Ok(drill)
}

fn phrase(id: String, is_cue: bool) -> Result<Phrase, Flaw> {
    let kind = if is_cue { "a cue" } else { "an announcement" };
    Phrase::named(&id).filter(|phrase| phrase.is_cue() == is_cue).ok_or(Flaw::Phrase(id, kind))
}

fn targets(raw: Vec<RawTarget>) -> Result<Vec<Target>, Flaw> {
    let mut targets: Vec<Target> = Vec::with_capacity(raw.len());
    for raw in raw {
        let cue = |id: Option<String>| id.map(|id| phrase(id, true)).transpose();
        let target = Target {
            name: raw.name.unwrap_or_else(|| raw.direction.name().to_owned()),
            direction: raw.direction,
            action: raw.action,
            say: cue(raw.phrase)?,
            tell: raw.tell.map(|id| phrase(id, false)).transpose()?,
            hand: raw.hand.map(|id| phrase(id, false)).transpose()?,
            span: raw.span.map(span).transpose()?,
        };
        if targets.iter().any(|earlier| earlier.name == target.name) {
            return Err(Flaw::Twice { field: "targets", entry: target.name });
        }
        // Nobody can distinguish two calls with the same words, unless a partner shows which one it is.
        let said = |say: &Phrase| targets.iter().any(|other| other.tell.is_none() && other.say == Some(*say));
        if let Some(say) = target.say.filter(said) {
            return Err(Flaw::Twice { field: "targets", entry: say.id().to_owned() });
        }
        targets.push(target);
    }
    Ok(targets)
}

fn span(raw: RawSpan) -> Result<Span, Flaw> {
    let RawSpan { length_ms, close, count } = raw;
    Ok(Span { length: Millis(length_ms), close: phrase(close, true)?, count })
}

fn part(raw: RawPart) -> Result<Part, Flaw> {
    let RawPart { kind, phrase: id, action, directions } = raw;
    Ok(Part { kind, phrase: phrase(id, true)?, action, directions })
}
