//! A drawn session for others to read: the JSON of `counterpoise.session/1`, and plain text for people.

use std::fmt;

use serde::Serialize;

use super::call::joined;
use super::{Cue, Method, Schedule, SetPlan};
use crate::plan::direction::Direction;
use crate::plan::drill::{
    Action, Ball, Facing, Form, SecondTask, Side, Stance, Strength, Support, Surface, Vision,
};
use crate::plan::phrase::Phrase;
use crate::plan::prescription::Prescription;
use crate::units::Millis;

/// The name and number of the format. Fields may be added; none is renamed without a new number.
pub const SCHEMA: &str = "counterpoise.session/1";

/// One session: serialized it is the contract's JSON, displayed it is for people.
///
/// ```
/// use counterpoise_core::plan::prescription::Prescription;
/// use counterpoise_core::draw::schedule::preview::Preview;
/// use counterpoise_core::draw::schedule::{Scheduler, Seed};
/// let prescription = Prescription::ready("gentle").unwrap();
/// let session = Scheduler::new(prescription).unwrap().draw(Seed::from_bytes([7; 32]));
/// let preview = Preview::of(prescription, &session);
/// let json = serde_json::to_string(&preview).unwrap();
/// assert!(json.starts_with(r#"{"schema":"counterpoise.session/1","prescription":{"title":"#));
/// assert!(preview.to_string().contains("Set 1 of 3"));
/// ```
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Preview {
    schema: &'static str,
    prescription: PrescriptionName,
    seed: String,
    method: Method,
    sets: Vec<PreviewSet>,
}

#[derive(Debug, Clone, PartialEq, Serialize)]
struct PrescriptionName {
    title: String,
    digest: String,
}

#[derive(Debug, Clone, PartialEq, Serialize)]
struct PreviewSet {
    number: u8,
    drill: &'static str,
    #[serde(skip)]
    title: &'static str,
    #[serde(skip)]
    standing: String,
    form: Form,
    /// The version of the drill's ladder, from version 2 on.
    #[serde(skip_serializing_if = "Option::is_none")]
    ladder: Option<u8>,
    step: u8,
    stance: Stance,
    side: Option<Side>,
    surface: Surface,
    support: Support,
    vision: Vision,
    second_task: Option<SecondTask>,
    facing: Facing,
    work_ms: Millis,
    rest_ms: Millis,
    cues: Vec<PreviewCue>,
}

#[derive(Debug, Clone, PartialEq, Serialize)]
struct PreviewCue {
    at_ms: Millis,
    /// The end of a span.
    until_ms: Option<Millis>,
    gap_ms: Millis,
    action: Option<&'static str>,
    direction: Option<Direction>,
    /// How firm a push is, from 1 to 4.
    strength: Option<u8>,
    blank: bool,
    /// The ids of the phrases called, otherwise of those for the partner, joined by `+`.
    phrase: Option<String>,
    say: Option<String>,
    show: Option<String>,
    /// The words for the partner, with directions instead of places.
    tell: Option<String>,
    /// How long before the moment the partner is told.
    lead_ms: Millis,
    /// What is called at the end of a span.
    #[serde(skip_serializing_if = "Option::is_none")]
    close: Option<&'static str>,
    /// The ball to catch, of two.
    #[serde(skip_serializing_if = "Option::is_none")]
    ball: Option<Ball>,
    /// One of the two pushes that are announced as practice.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    practice: bool,
}

impl Preview {
    /// The preview of a session drawn from this prescription.
    pub fn of(prescription: &Prescription, schedule: &Schedule) -> Self {
        Self {
            schema: SCHEMA,
            prescription: PrescriptionName {
                title: prescription.title().to_owned(),
                digest: prescription.digest().to_string(),
            },
            seed: schedule.seed().to_string(),
            method: schedule.method(),
            sets: schedule.sets().iter().map(PreviewSet::of).collect(),
        }
    }
}

impl PreviewSet {
    fn of(set: &SetPlan) -> Self {
        let conditions = set.conditions();
        Self {
            number: set.number(),
            drill: set.drill().name(),
            title: set.drill().title(),
            standing: format!(
                "{} {}",
                conditions.posture(),
                conditions.stance_text(set.facing(), set.side())
            ),
            form: set.form(),
            ladder: Some(set.ladder().version()).filter(|version| *version > 1),
            step: set.step(),
            stance: conditions.stance,
            side: set.side(),
            surface: conditions.surface,
            support: conditions.support,
            vision: conditions.vision,
            second_task: conditions.second_task,
            facing: set.facing(),
            work_ms: set.work(),
            rest_ms: set.rest(),
            cues: set.cues().iter().map(PreviewCue::of).collect(),
        }
    }
}

impl PreviewCue {
    fn of(cue: &Cue) -> Self {
        let call = cue.call();
        let words = |phrases: &[Phrase]| {
            (!phrases.is_empty()).then(|| joined(phrases.iter().map(|phrase| phrase.words()), ", "))
        };
        Self {
            at_ms: cue.at(),
            until_ms: cue.until(),
            gap_ms: cue.gap(),
            action: call.map(|call| Action::name(call.action())),
            direction: call.map(super::Call::direction),
            strength: call.and_then(super::Call::strength).map(Strength::number),
            blank: cue.is_blank(),
            phrase: call.map(super::Call::phrase_ids),
            say: call.and_then(|call| words(call.say())),
            show: call.map(|call| call.show().to_owned()),
            tell: call.and_then(|call| words(&call.partner_phrases_without_room())),
            lead_ms: call.map_or(Millis(0), super::Call::lead),
            close: call.and_then(super::Call::span).map(|span| span.close.words()),
            ball: call.and_then(super::Call::ball),
            practice: call.is_some_and(super::Call::is_practice),
        }
    }
}

/// Plain lines, one a cue.
impl fmt::Display for Preview {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(f, "{}", self.prescription.title)?;
        for set in &self.sets {
            let calls = set.cues.iter().filter(|cue| !cue.blank).count();
            writeln!(f, "\nSet {} of {}: {}, step {}", set.number, self.sets.len(), set.title, set.step)?;
            writeln!(f, "  {}.", set.standing)?;
            writeln!(f, "  Work {}, {calls} calls; then rest at least {}.", set.work_ms, set.rest_ms)?;
            for cue in &set.cues {
                write!(f, "  {:>9}  ", format!("{:.3} s", cue.at_ms.as_secs_f64()))?;
                match (&cue.show, cue.direction) {
                    (Some(show), Some(direction)) => write!(f, "{} {show}", direction.arrow())?,
                    _ => write!(f, "- no call")?,
                }
                match (cue.until_ms, cue.close) {
                    (Some(until), Some(close)) => {
                        writeln!(f, ", to {:.3} s: {}", until.as_secs_f64(), close.to_uppercase())?;
                    }
                    _ => writeln!(f)?,
                }
                if let Some(tell) = cue.tell.as_ref().filter(|tell| cue.say.as_ref() != Some(tell)) {
                    writeln!(f, "{:13}to the partner, {} before: {tell}", "", cue.lead_ms)?;
                }
            }
        }
        writeln!(f, "\nSeed {} draws this session again (method {}).", self.seed, self.method)?;
        writeln!(f, "Practice with a seed that somebody has seen is predictable.")
    }
}

#[cfg(test)]
mod test;
