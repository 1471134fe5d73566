//! The values of a draft in the words of the form, and what changed since it was opened.

use super::form_page::{DrillField, PrescriptionField};
use crate::plan::drill::{Form, LadderStep, Need};
use crate::plan::prescription::{Draft, DraftDrill, DrillOrder, Unlock};

/// Seconds, with as many decimals as it takes.
pub(super) fn seconds(ms: i64) -> String {
    format!("{} s", ms as f64 / 1000.0)
}

/// The value of a field of the whole prescription, in words.
pub(super) fn prescription_value(draft: &Draft, whole: PrescriptionField) -> String {
    let or_nobody = |text: &str| if text.is_empty() { "nobody yet".to_owned() } else { text.to_owned() };
    match whole {
        PrescriptionField::Title => draft.title.clone(),
        PrescriptionField::IssuedBy => or_nobody(&draft.issued_by),
        PrescriptionField::IssuedOn => draft.issued_on.to_string(),
        PrescriptionField::Days => draft.days_a_week.to_string(),
        PrescriptionField::Weeks => draft.weeks.to_string(),
        PrescriptionField::Review if draft.review_after_sessions == 1 => "1 session".to_owned(),
        PrescriptionField::Review => format!("{} sessions", draft.review_after_sessions),
        PrescriptionField::Rest => seconds(draft.rest_ms),
        PrescriptionField::Order => match draft.order {
            DrillOrder::AsWritten => "as listed".to_owned(),
            DrillOrder::Drawn => "drawn for each session, the warm-up first".to_owned(),
        },
        PrescriptionField::Effort => format!("{} of 10", draft.effort_at_most),
        PrescriptionField::Accepted => draft.accepted_because.clone().unwrap_or_else(|| "no".to_owned()),
    }
}

/// The value of a field of a drill, in words.
pub(super) fn drill_value(plan: &DraftDrill, ask: DrillField) -> String {
    match ask {
        DrillField::Form => match plan.form {
            Form::Alone => "alone".to_owned(),
            Form::Partner => "with a partner".to_owned(),
        },
        DrillField::Directions => {
            let words = plan.targets().map(|target| target.name.clone());
            words.collect::<Vec<_>>().join(", ")
        }
        DrillField::Weights => match &plan.weights {
            None => "all equally often".to_owned(),
            Some(weights) => {
                let each = plan.directions.iter().zip(weights);
                each.map(|(name, weight)| format!("{name} {weight}")).collect::<Vec<_>>().join(", ")
            }
        },
        DrillField::Step => step(plan, plan.step),
        DrillField::Ceiling => step(plan, plan.ceiling),
        DrillField::Sets => plan.sets.to_string(),
        DrillField::Work => seconds(plan.work_ms),
        DrillField::Recover => seconds(plan.recover_ms),
        DrillField::Gap => format!("{} to {}", seconds(plan.gap_ms[0]), seconds(plan.gap_ms[1])),
        DrillField::Shape => match plan.rate_thousandths {
            Some(_) => "shorter waits more often".to_owned(),
            None => "all waits equally often".to_owned(),
        },
        DrillField::Rate => {
            plan.rate_thousandths.map_or_else(String::new, |rate| (rate as f64 / 1000.0).to_string())
        }
        DrillField::Blanks => format!("{} %", plan.blank_per_mille as f64 / 10.0),
        DrillField::Sequence => match plan.slack {
            None => "each drawn separately".to_owned(),
            Some(_) => "each about equally often".to_owned(),
        },
        DrillField::Slack => plan.slack.map_or_else(String::new, |slack| slack.to_string()),
        DrillField::Streak => match plan.longest_streak {
            Some(streak) => format!("{streak} at most"),
            None => "the usual number".to_owned(),
        },
        DrillField::Strength => {
            let [low, high] = plan.strength.unwrap_or([1, 1]);
            if low == high { low.to_string() } else { format!("{low} to {high}") }
        }
        DrillField::Balls => plan.balls.unwrap_or(1).to_string(),
        DrillField::Spell => plan.spell_ms.map_or_else(|| "the drill's own duration".to_owned(), seconds),
        DrillField::Hold => plan.tested_hold_ms.map_or_else(|| "not timed yet".to_owned(), seconds),
        DrillField::Confirmed => {
            let needs: Vec<&str> = plan.confirmed.iter().map(|need: &Need| need.name()).collect();
            if needs.is_empty() { "nothing confirmed yet".to_owned() } else { needs.join(", ") }
        }
    }
}

/// A step, with its number and its conditions.
fn step(plan: &DraftDrill, number: i64) -> String {
    let step = usize::try_from(number - 1).ok().and_then(|place| plan.ladder.steps().get(place));
    step.map_or_else(|| number.to_string(), |step| format!("{number}: {}", step_text(*step)))
}

/// The conditions of a step, in a few words.
pub(super) fn step_text(step: LadderStep) -> String {
    let mut words = vec![step.stance.to_string(), step.support.to_string()];
    if step.surface != crate::plan::drill::Surface::Firm {
        words.push(step.surface.to_string());
    }
    words.extend(step.second_task.map(|task| format!("{task} at the same time")));
    if step.parts > 1 {
        words.push(format!("up to {} parts in a call", step.parts));
    }
    words.join(", ")
}

/// What a step changes from the one before.
pub(super) fn step_change(from: LadderStep, to: LadderStep) -> String {
    let mut words = Vec::new();
    if from.stance != to.stance {
        words.push(format!("stance: {}", to.stance));
    }
    if from.surface != to.surface {
        words.push(format!("surface: {}", to.surface));
    }
    if from.support != to.support {
        words.push(format!("hands: {}", to.support));
    }
    match (from.second_task, to.second_task) {
        (before, Some(task)) if before != Some(task) => words.push(format!("second task: {task}")),
        (Some(_), None) => words.push("second task: none".to_owned()),
        _ => {}
    }
    if from.parts != to.parts {
        words.push(format!("up to {} parts in a call", to.parts));
    }
    words.join(", ")
}

/// An unlock in a line.
pub(super) fn unlock(unlock: &Unlock) -> String {
    let with =
        if unlock.partner.is_empty() { "alone".to_owned() } else { format!("with {}", unlock.partner) };
    let present = if unlock.therapist_present { ", only while the therapist is there" } else { "" };
    format!("{}, {with}: watched by {} on {}{present}", unlock.name, unlock.watched_by, unlock.on)
}

/// One drill in a line.
pub(super) fn drill(plan: &DraftDrill) -> String {
    let form = if plan.form == Form::Partner { ", with a partner" } else { "" };
    let steps = if plan.step == plan.ceiling {
        format!("step {}", plan.step)
    } else {
        format!("step {} up to {}", plan.step, plan.ceiling)
    };
    let sets = if plan.sets == 1 { "1 set".to_owned() } else { format!("{} sets", plan.sets) };
    format!("{}{form}: {sets} of {}, {steps}", plan.drill.title(), seconds(plan.work_ms))
}

/// What was changed, one line each; empty if nothing was.
pub fn changes(before: &Draft, now: &Draft) -> Vec<String> {
    let mut lines = Vec::new();
    let mut line = |name: &str, before: &str, now: &str| {
        if before != now {
            lines.push(format!("{name}: {before} -> {now}"));
        }
    };
    for whole in PrescriptionField::ALL {
        line(whole.name(), &prescription_value(before, whole), &prescription_value(now, whole));
    }
    let key = |plan: &DraftDrill| plan.drill.name();
    let mut left: Vec<&DraftDrill> = before.drills.iter().collect();
    for plan in &now.drills {
        let Some(place) = left.iter().position(|other| key(other) == key(plan)) else {
            lines.push(format!("Added: {}", drill(plan)));
            continue;
        };
        let other = left.remove(place);
        for ask in DrillField::ALL {
            let (was, is) = (drill_value(other, ask), drill_value(plan, ask));
            if was != is {
                lines.push(format!("{}, {}: {was} -> {is}", plan.drill.title(), lower(ask.name())));
            }
        }
    }
    lines.extend(left.into_iter().map(|plan| format!("Removed: {}", drill(plan))));
    let order = |draft: &Draft| draft.drills.iter().map(key).collect::<Vec<_>>();
    let (mut was, mut is) = (order(before), order(now));
    let moved = was != is;
    was.sort_unstable();
    is.sort_unstable();
    if moved && was == is {
        lines.push("The order of the drills changed.".to_owned());
    }
    let gone = before.unlocks.iter().filter(|other| !now.unlocks.contains(other));
    lines.extend(gone.map(|other| format!("No longer unlocked: {}", unlock(other))));
    let new = now.unlocks.iter().filter(|other| !before.unlocks.contains(other));
    lines.extend(new.map(|other| format!("Unlocked: {}", unlock(other))));
    lines
}

fn lower(name: &str) -> String {
    let mut letters = name.chars();
    letters.next().map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
}
