//! How the steps of each drill went, and why each changed.

use jiff::civil::Date;
use serde::Serialize;

use super::form_words;
use super::material::PeriodSessions;
use crate::plan::drill::Form;

/// A step that progression gave, where it differs from the one before.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct LadderChange {
    /// The local day of the change.
    pub day: Date,
    /// The drill, with its form.
    pub drill: String,
    /// The step before; `None` for the first step of a drill.
    pub from: Option<u8>,
    /// The step from that day on.
    pub to: u8,
    /// The reasons, in the words the person was given.
    pub why: Vec<String>,
}

pub(super) fn of(inside: &PeriodSessions<'_>) -> Vec<LadderChange> {
    let mut last: Vec<(&str, Form, u8)> = Vec::new();
    let mut changes = Vec::new();
    for (session, more) in inside.practice_sessions() {
        for given in &session.given {
            let known = last.iter_mut().find(|(drill, form, _)| *drill == given.drill && *form == given.form);
            let from = known.as_ref().map(|(.., step)| *step);
            if from == Some(given.step) {
                continue;
            }
            match known {
                Some((.., step)) => *step = given.step,
                None => last.push((&given.drill, given.form, given.step)),
            }
            let drill = format!("{}, {}", given.drill, form_words(given.form));
            let why = if from.is_some() { more.why.clone() } else { Vec::new() };
            changes.push(LadderChange { day: session.day, drill, from, to: given.step, why });
        }
    }
    changes
}
