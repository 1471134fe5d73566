//! One drill of a prescription in plain words: with whom, how, what is called, when, and anything unusual about it.

use super::{Part, count, decimal};
use crate::plan::drill::{Form, Span};
use crate::plan::prescription::set_counts::SetCounts;
use crate::plan::prescription::{DrillPlan, Sequence, Shape, limits};
use crate::units::Millis;

/// What one drill of a prescription asks for; the first is the warm-up.
pub(super) fn part(first: bool, plan: &DrillPlan, counts: &SetCounts) -> Part {
    let drill = plan.drill();
    let warm_up = match (first, plan.line()) {
        (true, 0) => " (the built-in warm-up)",
        (true, _) => " (the warm-up)",
        (false, _) => "",
    };
    let mut lines = vec![
        drill.about().to_owned(),
        format!("{} of {}, {}.", count(plan.sets().into(), "set"), plan.work(), form(plan)),
        format!(
            "{} {}. Behind: {}. Within reach: {}.",
            plan.conditions().posture(),
            plan.conditions().stance_text(drill.facings()[0], None),
            drill.behind(),
            drill.fixed_support(),
        ),
        steps(plan),
        calls(plan),
        gaps(plan),
    ];
    lines.extend(
        [order(plan), spans(plan), firmness(plan), partner(plan), turns(plan), confirmed(plan)]
            .into_iter()
            .flatten(),
    );
    let wrong = match plan.has_pushes() {
        false => format!("fewer than {} calls", limits::LEAST_REAL_CUES),
        true => format!("fewer than {} pushes or more than {}", limits::LEAST_REAL_CUES, limits::SET_PUSHES),
    };
    lines.push(match counts.redraw_share() * 100.0 {
        0.0 => format!("Every set has room for at least {} calls.", limits::LEAST_REAL_CUES),
        share => format!("Of 100 sets, {} would hold {wrong} and are drawn again.", decimal(share)),
    });
    lines.extend(plan.cautions().map(|caution| format!("Take care: {caution}")));
    Part { heading: format!("{}{warm_up}", drill.title()), lines }
}

fn form(plan: &DrillPlan) -> String {
    match (plan.form(), plan.partners()) {
        (Form::Alone, _) => "alone".into(),
        (Form::Partner, []) => "with a partner within reach".into(),
        (Form::Partner, partners) => format!("with {} within reach, and nobody else", partners.join(" or ")),
    }
}

/// Calls with a duration, and how each ends.
fn spans(plan: &DrillPlan) -> Option<String> {
    let spans = plan.targets().iter().filter_map(|target| {
        let Span { length, close, count } = target.span?;
        let counted = if count > 0 { format!(", counted aloud to {count}") } else { String::new() };
        Some(format!("\"{}\" {length}{counted}, then \"{}\"", target.words(), close.words()))
    });
    let spans: Vec<String> = spans.collect();
    (!spans.is_empty())
        .then(|| format!("Timed calls: {}. The next gap starts when a call ends.", spans.join("; ")))
}

fn firmness(plan: &DrillPlan) -> Option<String> {
    let (gentlest, firmest) = plan.strength()?;
    let range = if gentlest == firmest { gentlest.to_string() } else { format!("{gentlest} to {firmest}") };
    Some(format!(
        "Pushes are {range} ({}), at most {} in a set. The first {} of a session are the gentlest and for practice.",
        firmest.sensation(),
        limits::SET_PUSHES,
        limits::PRACTICE_PUSHES,
    ))
}

fn partner(plan: &DrillPlan) -> Option<String> {
    let lead = plan.drill().lead();
    if plan.form() == Form::Alone || lead == Millis(0) {
        return None;
    }
    let balls = match plan.balls() {
        2 => " There are two balls; the one to catch is named aloud as it leaves the hand.",
        _ => "",
    };
    Some(format!("The partner is told {lead} before each moment; the trainee is not.{balls}"))
}

/// How the sets take turns between left and right, and between sides of the counter.
fn turns(plan: &DrillPlan) -> Option<String> {
    let facings = plan.drill().facings();
    let counter = if facings.len() > 1 {
        let names: Vec<&str> = facings.iter().map(|facing| facing.name()).collect();
        format!(" The sets take turns: {}.", names.join(", "))
    } else {
        String::new()
    };
    let sides = match (plan.conditions().stance.has_sides(), plan.sets() / 2) {
        (false, _) => String::new(),
        (true, half) if plan.sets().is_multiple_of(2) => {
            format!(" Left and right take turns: {half} sets each.")
        }
        (true, half) => format!(
            " Left and right take turns, and the left has {} sets, the right {half}: an even number of sets would give both the same.",
            half + 1
        ),
    };
    let line = format!("{counter}{sides}");
    (!line.is_empty()).then(|| line.trim_start().to_owned())
}

fn confirmed(plan: &DrillPlan) -> Option<String> {
    let needs: Vec<&str> = plan.confirmed().iter().map(|need| need.name()).collect();
    (!needs.is_empty())
        .then(|| format!("Confirmed to be in place: {}. The app asks again each time.", needs.join(", ")))
}

fn steps(plan: &DrillPlan) -> String {
    let (step, steps, ceiling) = (plan.step(), plan.ladder().steps().len(), plan.ceiling());
    let on = match plan.ladder().version() {
        1 => String::new(),
        version => format!(" on version {version} of its ladder"),
    };
    let range = if step == ceiling {
        format!("Step {step} of {steps}{on} throughout.")
    } else {
        format!("From step {step} of {steps}{on}; may go up to step {ceiling}, one change at a time.")
    };
    match plan.named_steps() {
        [] => range,
        keys => format!("{range} Allowed by name, beyond the person's limits: {}.", keys.join(", ")),
    }
}

fn calls(plan: &DrillPlan) -> String {
    let even = plan.weights().iter().all(|weight| *weight == plan.weights()[0]);
    let targets = plan.targets().iter().zip(plan.weights());
    let words: Vec<String> = targets
        .map(|(target, weight)| {
            let words = target.words();
            if even { words } else { format!("{words} (weight {weight})") }
        })
        .collect();
    let between = if words.iter().any(|words| words.contains(',')) { "; " } else { ", " };
    format!("Called: {}.", words.join(between))
}

fn gaps(plan: &DrillPlan) -> String {
    let range = plan.gaps();
    let shape = match range.shape() {
        Shape::Flat { .. } => "shorter ones more often, so that waiting gives away as little as possible",
        Shape::Even => "all equally often",
    };
    let blanks = match plan.blank_per_mille() {
        0 => "Every such moment has a call.".to_owned(),
        blanks => format!(
            "With a chance of {} %, such a moment stays silent on purpose, but never two in a row.",
            decimal(f64::from(blanks) / 10.0)
        ),
    };
    format!(
        "From one moment to the next {} to {}, {shape}. {blanks} The last call leaves at least {} to recover.",
        range.least(),
        range.greatest(),
        plan.recover(),
    )
}

fn order(plan: &DrillPlan) -> Option<String> {
    let streak = plan.longest_streak()?;
    let row = match streak {
        1 => "never twice in a row".to_owned(),
        2 => "at most twice in a row".to_owned(),
        more => format!("at most {more} times in a row"),
    };
    Some(match plan.sequence() {
        Sequence::Open => format!("Each direction is drawn anew; the same one comes {row}."),
        Sequence::Covered { slack } => format!(
            "Every direction comes about equally often, up to {slack} more or fewer than an equal share; the same one comes {row}."
        ),
    })
}
