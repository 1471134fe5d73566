//! The values of a draft in the words of the form, and what changed since it was opened.

use crate::plan::drill::{Form, LadderStep};
use crate::plan::prescription::field::{Field, Sheet, Value};
use crate::plan::prescription::limits::{self, Unit};
use crate::plan::prescription::{Accept, Draft, DraftDrill, Unlock};

/// Seconds, with as many decimals as it takes.
pub(super) fn seconds(ms: i64) -> String {
    format!("{} s", ms as f64 / 1000.0)
}

/// A number in the unit that people use.
pub(super) fn number(unit: Unit, value: i64) -> String {
    match unit {
        Unit::Count => value.to_string(),
        Unit::Millis => seconds(value),
        Unit::PerMille => format!("{} %", value as f64 / 10.0),
        Unit::Thousandths => (value as f64 / 1000.0).to_string(),
    }
}

/// The value of a field, in words.
fn value_text(field: &Field, value: Option<Value>) -> String {
    let number = |value: i64| number(field.unit(), value);
    let words = match value {
        Some(Value::Text(word)) => match field.choices.iter().find(|choice| choice.word == word) {
            Some(choice) => choice.said.to_owned(),
            None => word,
        },
        Some(Value::Integer(value)) => number(value),
        Some(Value::Integers(pair)) if pair[0] == pair[1] => number(pair[0]),
        Some(Value::Integers(pair)) => format!("{} to {}", number(pair[0]), number(pair[1])),
        Some(Value::Date(day)) => day.to_string(),
        Some(Value::Texts(entries)) => entries.join(", "),
        Some(Value::Boolean(_)) => "yes".to_owned(),
        None => String::new(),
    };
    match words.as_str() {
        "" => field.unset.to_owned(),
        "1" => field.said.replace("{}", "1").trim_end_matches('s').to_owned(),
        words => field.said.replace("{}", words),
    }
}

/// The value of a field of the whole prescription, in words.
pub(super) fn prescription_value(draft: &Draft, field: &Field) -> String {
    value_text(field, draft.value(field))
}

/// The value of a field of a drill, in words.
pub(super) fn drill_value(plan: &DraftDrill, field: &Field) -> String {
    match (field.name, plan.value(field)) {
        ("step" | "ceiling", Some(Value::Integer(number))) => step(plan, number),
        ("ladder", _) => format!("{}: {}", plan.ladder().version(), plan.ladder().name()),
        ("weights", Some(Value::Integers(weights))) => {
            let each = plan.directions.iter().zip(weights);
            each.map(|(name, weight)| format!("{name} {weight}")).collect::<Vec<_>>().join(", ")
        }
        ("longest_streak", None) => {
            let usual = limits::default_streak(plan.directions.len());
            value_text(field, usual.map(|streak| Value::Integer(streak.into())))
        }
        (_, value) => value_text(field, value),
    }
}

/// A step, with its number and its conditions.
fn step(plan: &DraftDrill, number: i64) -> String {
    let step = usize::try_from(number - 1).ok().and_then(|place| plan.ladder().steps().get(place));
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

/// A topic that is accepted, in a line.
pub(super) fn accept(accept: &Accept) -> String {
    format!("{}: accepted by {} on {}", accept.topic, accept.who, accept.when)
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
    for field in Draft::asked() {
        line(field.label, &prescription_value(before, field), &prescription_value(now, field));
    }
    let key = |plan: &DraftDrill| plan.drill.name();
    let mut left: Vec<&DraftDrill> = before.drills.iter().collect();
    for plan in &now.drills {
        let Some(place) = left.iter().position(|other| key(other) == key(plan)) else {
            lines.push(format!("Added: {}", drill(plan)));
            continue;
        };
        let other = left.remove(place);
        for field in DraftDrill::asked() {
            let (was, is) = (drill_value(other, field), drill_value(plan, field));
            if was != is {
                lines.push(format!("{}, {}: {was} -> {is}", plan.drill.title(), lower(field.label)));
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
    let gone = before.accepts.iter().filter(|other| !now.accepts.contains(other));
    lines.extend(gone.map(|other| format!("No longer accepted: {}", accept(other))));
    let new = now.accepts.iter().filter(|other| !before.accepts.contains(other));
    lines.extend(new.map(|other| format!("Accepted: {}", accept(other))));
    lines
}

fn lower(name: &str) -> String {
    let mut letters = name.chars();
    letters.next().map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
}
