//! What a draft says now, in the words of the form, and what was changed since it was opened. Not the pages (that is `view`).

use super::form_page::{Ask, Whole};
use crate::plan::drill::{Drill, Form, LadderStep, Need};
use crate::plan::prescription::{Draft, DraftDrill, DrillOrder, Unlock};

/// Seconds, with as many decimals as it takes.
pub(super) fn seconds(ms: i64) -> String {
    format!("{} s", ms as f64 / 1000.0)
}

/// What the whole says of this.
pub(super) fn of_whole(draft: &Draft, whole: Whole) -> String {
    let or_nobody = |text: &str| if text.is_empty() { "nobody yet".to_owned() } else { text.to_owned() };
    match whole {
        Whole::Title => draft.title.clone(),
        Whole::IssuedBy => or_nobody(&draft.issued_by),
        Whole::IssuedOn => draft.issued_on.to_string(),
        Whole::Days => draft.days_a_week.to_string(),
        Whole::Weeks => draft.weeks.to_string(),
        Whole::Review => format!("{} sessions", draft.review_after_sessions),
        Whole::Rest => seconds(draft.rest_ms),
        Whole::Order => match draft.order {
            DrillOrder::AsWritten => "as listed".to_owned(),
            DrillOrder::Drawn => "drawn anew for each session, the warm-up first".to_owned(),
        },
        Whole::Effort => format!("{} of 10", draft.effort_at_most),
        Whole::Accepted => draft.accepted_because.clone().unwrap_or_else(|| "no".to_owned()),
    }
}

/// What a drill says of this.
pub(super) fn of_drill(plan: &DraftDrill, ask: Ask) -> String {
    match ask {
        Ask::Form => match plan.form {
            Form::Alone => "alone".to_owned(),
            Form::Partner => "with a partner".to_owned(),
        },
        Ask::Directions => {
            let words = plan.targets().map(|target| target.name.clone());
            words.collect::<Vec<_>>().join(", ")
        }
        Ask::Weights => match &plan.weights {
            None => "all equally often".to_owned(),
            Some(weights) => {
                let each = plan.directions.iter().zip(weights);
                each.map(|(name, weight)| format!("{name} {weight}")).collect::<Vec<_>>().join(", ")
            }
        },
        Ask::Step => step(plan.drill, plan.step),
        Ask::Ceiling => step(plan.drill, plan.ceiling),
        Ask::Sets => plan.sets.to_string(),
        Ask::Work => seconds(plan.work_ms),
        Ask::Recover => seconds(plan.recover_ms),
        Ask::Gap => format!("{} to {}", seconds(plan.gap_ms[0]), seconds(plan.gap_ms[1])),
        Ask::Shape => match plan.rate_thousandths {
            Some(_) => "shorter waits more often".to_owned(),
            None => "all waits equally often".to_owned(),
        },
        Ask::Rate => {
            plan.rate_thousandths.map_or_else(String::new, |rate| (rate as f64 / 1000.0).to_string())
        }
        Ask::Blanks => format!("{} %", plan.blank_per_mille as f64 / 10.0),
        Ask::Sequence => match plan.slack {
            None => "each drawn anew".to_owned(),
            Some(_) => "each about equally often".to_owned(),
        },
        Ask::Slack => plan.slack.map_or_else(String::new, |slack| slack.to_string()),
        Ask::Streak => match plan.longest_streak {
            Some(streak) => format!("{streak} at most"),
            None => "as is usual".to_owned(),
        },
        Ask::Strength => {
            let [low, high] = plan.strength.unwrap_or([1, 1]);
            if low == high { low.to_string() } else { format!("{low} to {high}") }
        }
        Ask::Balls => plan.balls.unwrap_or(1).to_string(),
        Ask::Spell => plan.spell_ms.map_or_else(|| "the drill's own length".to_owned(), seconds),
        Ask::Hold => plan.tested_hold_ms.map_or_else(|| "not timed yet".to_owned(), seconds),
        Ask::Confirmed => {
            let needs: Vec<&str> = plan.confirmed.iter().map(|need: &Need| need.name()).collect();
            if needs.is_empty() { "nothing confirmed yet".to_owned() } else { needs.join(", ") }
        }
    }
}

/// A step by its number and the way the person stands.
fn step(drill: &Drill, number: i64) -> String {
    let step = usize::try_from(number - 1).ok().and_then(|place| drill.ladder().get(place));
    step.map_or_else(|| number.to_string(), |step| format!("{number}: {}", stands(*step)))
}

/// How the person stands on a step.
pub(super) fn stands(step: LadderStep) -> String {
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

/// What a step changes, beside the one before.
pub(super) fn change(from: LadderStep, to: LadderStep) -> String {
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
        (before, Some(task)) if before != Some(task) => words.push(format!("besides: {task}")),
        (Some(_), None) => words.push("besides: nothing".to_owned()),
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
    for whole in Whole::ALL {
        line(whole.name(), &of_whole(before, whole), &of_whole(now, whole));
    }
    let key = |plan: &DraftDrill| plan.drill.name();
    let mut left: Vec<&DraftDrill> = before.drills.iter().collect();
    for plan in &now.drills {
        let Some(place) = left.iter().position(|other| key(other) == key(plan)) else {
            lines.push(format!("Added: {}", drill(plan)));
            continue;
        };
        let other = left.remove(place);
        for ask in Ask::ALL {
            let (was, is) = (of_drill(other, ask), of_drill(plan, ask));
            if was != is {
                lines.push(format!("{}, {}: {was} -> {is}", plan.drill.title(), lower(ask.name())));
            }
        }
    }
    lines.extend(left.into_iter().map(|plan| format!("Taken out: {}", drill(plan))));
    let order = |draft: &Draft| draft.drills.iter().map(key).collect::<Vec<_>>();
    let (mut was, mut is) = (order(before), order(now));
    let moved = was != is;
    was.sort_unstable();
    is.sort_unstable();
    if moved && was == is {
        lines.push("The drills stand in another order.".to_owned());
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
