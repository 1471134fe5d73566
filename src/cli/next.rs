//! The `next` command: what is the next practice, at which steps, and why?

use jiff::civil::Date;
use serde::Serialize;

use super::page::Output;
use super::standing;
use super::{Failure, Format, source};
use crate::clock::Clock;
use crate::journal::{Folder, Journal};
use counterpoise_core::blocks::Block;
use counterpoise_core::course::program::moment;
use counterpoise_core::course::progression::{Decision, Next};
use counterpoise_core::plan::caution;
use counterpoise_core::plan::drill::{Form, LadderStep, SecondTask, Stance, Support, Surface, Vision};
use counterpoise_core::plan::prescription::{DrillPlan, Prescription};

/// The options of `next`.
#[derive(Debug, Clone, clap::Args)]
#[command(after_help = "Examples:\n  \
    counterpoise next                      what comes next, and why\n  \
    counterpoise next --on 2026-12-01      the same on another day, if nothing is practiced until then\n  \
    counterpoise next --format json\n\n\
    Your therapist's advice and your local rules come first. Nothing here promises to prevent falls.")]
pub(super) struct Arguments {
    /// A ready prescription or a file [default: the one in use, else gentle]
    #[arg(value_name = "PRESCRIPTION")]
    prescription: Option<String>,
    /// The day to look at [default: today]
    #[arg(long, value_name = "YYYY-MM-DD")]
    on: Option<Date>,
    /// Output format
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
}

#[derive(Serialize)]
struct Answer {
    schema: &'static str,
    on: Date,
    decision: Decision,
    /// Up, hold or down at the next practice, whenever it is.
    then: Decision,
    reasons: Vec<String>,
    /// The drill that changes; where none does, the first after the warm-up.
    step: Option<Step>,
    steps: Vec<Step>,
    left_out: Vec<&'static str>,
    /// When the last hold runs out.
    until: Option<String>,
    next_day: Option<Date>,
    first_set: u8,
    /// The file in use is not the one that came into use.
    prescription_changed: bool,
}

#[derive(Serialize, Clone)]
#[expect(clippy::struct_field_names, reason = "the names of the contract")]
struct Step {
    drill: &'static str,
    form: Form,
    step: u8,
    ceiling: u8,
    stance: Stance,
    surface: Surface,
    support: Support,
    vision: Vision,
    second_task: Option<SecondTask>,
    parts: u8,
}

impl Step {
    fn of(plan: &DrillPlan, step: u8) -> Self {
        let LadderStep { stance, surface, support, vision, second_task, parts } = plan.conditions_at(step);
        let (drill, form, ceiling) = (plan.drill().name(), plan.form(), plan.ceiling());
        Self { drill, form, step, ceiling, stance, surface, support, vision, second_task, parts }
    }
}

pub(super) fn run(arguments: &Arguments, folder: &Folder) -> Result<Output, Failure> {
    let prescription = source::find(arguments.prescription.as_deref(), || Ok(folder.clone()))?.prescription;
    let journal = Journal::look(folder)?;
    let known = standing::known(&journal)?;
    let altered = match arguments.prescription {
        Some(_) => None,
        None => standing::altered(&journal, folder)?,
    };
    let now = moment(arguments.on, &Clock::real().wall());
    let next = known.next(&prescription, &now);
    if arguments.format == Format::Json {
        return Output::json(&answer(&next, &prescription, now.date(), altered.is_some()));
    }
    let mut page: Vec<Block> = altered.into_iter().collect();
    page.extend(text(&next, &prescription, known.fitness.suitability.is_some()));
    if next.is_open() {
        page.extend([caution::FIRST, caution::NO_PROMISE].map(Block::line));
    }
    page.extend(standing::retest(&known, now.date()));
    Ok(page.into())
}

fn answer(next: &Next, prescription: &Prescription, on: Date, changed: bool) -> Answer {
    let plans = prescription.drills();
    let of = |place: usize| next.steps[place].map(|step| Step::of(&plans[place], step));
    let first = next.changed.or_else(|| (1..plans.len()).find(|place| next.steps[*place].is_some()));
    let left_out = plans.iter().zip(&next.steps).filter(|(_, step)| step.is_none());
    Answer {
        schema: "counterpoise.next/1",
        on,
        decision: next.decision,
        then: next.then,
        reasons: next.reasons.iter().map(ToString::to_string).collect(),
        step: of(first.unwrap_or(0)),
        steps: (0..plans.len()).filter_map(of).collect(),
        left_out: left_out.map(|(plan, _)| plan.drill().name()).collect(),
        until: next.until.as_ref().map(ToString::to_string),
        next_day: next.next_day,
        first_set: next.first_set,
        prescription_changed: changed,
    }
}

fn text(next: &Next, prescription: &Prescription, suitability_known: bool) -> Vec<Block> {
    let decision = match next.decision {
        Decision::Up => "Up: one step higher in one drill.",
        Decision::Hold => "Hold: the same steps.",
        Decision::Down => "Down: one step lower.",
        Decision::Rest => "Rest: not now.",
        Decision::Locked => "Locked: no practice until a clinician clears you.",
        Decision::NotDue => "Not due today.",
    };
    let mut page: Vec<Block> = [prescription.title(), decision].map(Block::line).into();
    page.extend(next.reasons.iter().map(|reason| Block::item(reason.to_string())));
    page.push(Block::line(if next.is_open() { "Steps" } else { "Steps at the next practice" }));
    for (place, (plan, step)) in prescription.drills().iter().zip(&next.steps).enumerate() {
        let title = plan.drill().title();
        page.push(Block::item(match step {
            None => format!("{title}: left out because of your limits"),
            Some(step) if place == 0 => {
                let LadderStep { stance, support, .. } = plan.conditions_at(*step);
                format!("{title}, the warm-up: always step {step}, {stance}, {support}")
            }
            Some(step) => {
                let LadderStep { stance, support, .. } = plan.conditions_at(*step);
                format!("{title}: step {step} of at most {}, {stance}, {support}", plan.ceiling())
            }
        }));
    }
    if !suitability_known {
        let text = "The questions about your health have not been answered yet: counterpoise suitability";
        page.push(Block::line(text));
    }
    page
}
