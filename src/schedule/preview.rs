//! A drawn session as others read it: the JSON of `counterpoise.session/1`, and plain text for people.
//! Not how it is delivered.

use std::fmt;

use serde::Serialize;

use super::{Cue, METHOD, Schedule, SetPlan};
use crate::direction::Direction;
use crate::drill::{Action, Facing, Form, Side, Stance, Support, Surface, Vision};
use crate::millis::Millis;
use crate::prescription::Prescription;

/// The name and number of the format. Fields may be added; none is renamed without a new number.
pub const SCHEMA: &str = "counterpoise.session/1";

/// One session: serialized it is the contract's JSON, displayed it is for people.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Preview {
    schema: &'static str,
    prescription: PrescriptionName,
    seed: String,
    method: u32,
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
    form: Form,
    step: u8,
    stance: Stance,
    side: Option<Side>,
    surface: Surface,
    support: Support,
    vision: Vision,
    /// No drill has one yet.
    second_task: Option<&'static str>,
    facing: Facing,
    work_ms: Millis,
    rest_ms: Millis,
    cues: Vec<PreviewCue>,
}

#[derive(Debug, Clone, PartialEq, Serialize)]
struct PreviewCue {
    at_ms: Millis,
    /// The end of a span; no drill has spans yet.
    until_ms: Option<Millis>,
    gap_ms: Millis,
    action: Option<&'static str>,
    direction: Option<Direction>,
    /// How firm a push is; no drill has pushes yet.
    strength: Option<u8>,
    blank: bool,
    phrase: Option<&'static str>,
    say: Option<&'static str>,
    show: Option<String>,
    /// The partner's line; no drill has one yet.
    tell: Option<&'static str>,
    /// How long before the moment the partner is told.
    lead_ms: Millis,
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
            method: METHOD,
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
            form: set.form(),
            step: set.step(),
            stance: conditions.stance,
            side: set.side(),
            surface: conditions.surface,
            support: conditions.support,
            vision: conditions.vision,
            second_task: None,
            facing: set.drill().facing(),
            work_ms: set.work(),
            rest_ms: set.rest(),
            cues: set.cues().iter().map(PreviewCue::of).collect(),
        }
    }
}

impl PreviewCue {
    fn of(cue: &Cue) -> Self {
        let call = cue.call();
        Self {
            at_ms: cue.at(),
            until_ms: None,
            gap_ms: cue.gap(),
            action: call.map(|call| Action::name(call.action())),
            direction: call.map(super::Call::direction),
            strength: None,
            blank: cue.is_blank(),
            phrase: call.map(|call| call.phrase().id()),
            say: call.map(|call| call.phrase().words()),
            show: call.map(|call| call.show().to_owned()),
            tell: None,
            lead_ms: Millis(0),
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
            writeln!(f, "  Stand with {}.", set.standing())?;
            writeln!(f, "  Work {}, {calls} calls; then rest at least {}.", set.work_ms, set.rest_ms)?;
            for cue in &set.cues {
                write!(f, "  {:>9}  ", format!("{:.3} s", cue.at_ms.as_secs_f64()))?;
                match (&cue.show, cue.direction) {
                    (Some(show), Some(direction)) => writeln!(f, "{} {show}", direction.arrow())?,
                    _ => writeln!(f, "- nothing is called")?,
                }
            }
        }
        writeln!(f, "\nSeed {} draws this session again (method {}).", self.seed, self.method)?;
        writeln!(f, "Practice with a seed that somebody has seen is not unpredictable.")
    }
}

impl PreviewSet {
    fn standing(&self) -> String {
        let feet = match (self.stance, self.side) {
            (Stance::FeetApart, _) => "feet apart",
            (Stance::FeetTogether, _) => "feet together",
            (Stance::SemiTandem, Some(Side::Right)) => "the right foot half a step ahead",
            (Stance::SemiTandem, _) => "the left foot half a step ahead",
        };
        let floor = match self.surface {
            Surface::Firm => "a firm floor",
        };
        let hands = match self.support {
            Support::TwoHands => "both hands resting on the counter",
            Support::OneHand => "one hand resting on the counter",
            Support::Fingertips => "the fingertips on the counter",
            Support::Hovering => "the hands just above the counter",
        };
        let eyes = match self.vision {
            Vision::Open => "eyes open",
        };
        let facing = match self.facing {
            Facing::CounterAhead => "the counter ahead",
        };
        format!("{facing}, {feet} on {floor}, {hands}, {eyes}")
    }
}

#[cfg(test)]
mod test;
