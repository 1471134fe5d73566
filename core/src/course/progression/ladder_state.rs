//! At which end of its ladders a program is: too hard at the gentlest step, where only a therapist leads on, or at its
//! ceiling, where nothing is left to go up.

use jiff::civil::Date;

use super::judge::{Fault, faults};
use crate::course::past::{Barrier, Past, Sitting};
use crate::plan::drill::Form;
use crate::plan::prescription::Prescription;
use crate::words;

/// So many practices with a fault that no lower step can answer \[judgment\].
const TOO_HARD_PRACTICES: u8 = 2;

/// An end of the ladders.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum LadderState {
    /// Two practices had a fault at the first step: pushes are left out, everything else is done seated or with both hands
    /// at rest, and no step goes up until a therapist has looked.
    TooHard,
    /// Every drill is at the highest step that the prescription and the person's limits allow, and the last practices were
    /// clean.
    AtCeiling,
}

words! {
    LadderState {
        TooHard => "too hard at the gentlest step",
        AtCeiling => "at its ceiling",
    }
}

impl LadderState {
    /// What it means, as sentences to the person.
    pub const fn sentence(self) -> &'static str {
        match self {
            Self::TooHard => {
                "Two practices were too hard at the gentlest step. Now you sit, or rest both hands, and nobody pushes. \
                 Talk to your therapist before the next step up."
            }
            Self::AtCeiling => "Every drill is at its highest allowed step. The step stays the same.",
        }
    }

    /// What it means, to a therapist.
    pub const fn to_therapist(self) -> &'static str {
        match self {
            Self::TooHard => {
                "Two practices had faults at the gentlest step. Pushes and nudges are left out, and the rest is done \
                 seated or with both hands resting. No step goes up until a clearance or a prescription issued by name."
            }
            Self::AtCeiling => {
                "Every drill is at its highest allowed step, and the last practices were clean. A higher ceiling needs \
                 a new prescription."
            }
        }
    }
}

/// The practice that made it too hard at the gentlest step, and its day; `None` where it is not. A clearance of that
/// practice begins the count again, and so does a `prescription` that somebody issued by name on a later day.
pub fn too_hard(past: &Past, prescription: Option<&Prescription>) -> Option<(String, Date)> {
    let reviewed = prescription.filter(|one| !one.issued_by().is_empty()).map(Prescription::issued_on);
    let is_before = |day: Date| reviewed.is_some_and(|reviewed| day < reviewed);
    let (mut practices, mut last) = (0_u8, None::<(String, Date)>);
    for sitting in past.sittings().iter().filter(|sitting| is_too_hard_at_the_gentlest(sitting)) {
        if last.as_ref().is_some_and(|(_, day)| is_before(*day) && !is_before(sitting.day())) {
            (practices, last) = (0, None);
        }
        practices = practices.saturating_add(1);
        if practices >= TOO_HARD_PRACTICES {
            last = Some((sitting.last().id.clone(), sitting.day()));
        }
        if past.is_lifted(sitting.last(), Barrier::TooHard) {
            (practices, last) = (0, None);
        }
    }
    last.filter(|(_, day)| !is_before(*day))
}

/// Whether the practice had a fault that no lower step can answer.
fn is_too_hard_at_the_gentlest(sitting: &Sitting<'_>) -> bool {
    let steps = steps_of(sitting);
    let at_first = |fault: &Fault| {
        let hit: Vec<u8> = match fault.drill() {
            Some(at) => steps.iter().filter(|(place, _)| *place == at).map(|(_, step)| *step).collect(),
            None => Vec::new(),
        };
        // What is about the person, or happened in the warm-up, lowers every other drill.
        let hit = if hit.is_empty() { steps.iter().map(|(_, step)| *step).collect() } else { hit };
        hit.iter().all(|step| *step <= 1)
    };
    faults(sitting).iter().any(at_first)
}

/// The drills of a practice but the warm-up, each with the step at which it was due, or practiced where that was lower.
fn steps_of<'a>(sitting: &'a Sitting<'a>) -> Vec<((&'a str, Form), u8)> {
    let given = sitting.first().given.iter().map(|given| ((given.drill.as_str(), given.form), given.step));
    let mut all: Vec<((&str, Form), u8)> = given.collect();
    if all.is_empty() {
        all = sitting.sets().map(|set| ((set.drill.as_str(), set.form), set.step)).collect();
        all.dedup();
    }
    if all.is_empty() {
        return all;
    }
    let (warm_up, _) = all.remove(0);
    for (drill, step) in &mut all {
        let done = sitting.sets().filter(|set| *drill != warm_up && (set.drill.as_str(), set.form) == *drill);
        *step = done.map(|set| set.step).min().map_or(*step, |least| least.min(*step));
    }
    all
}
