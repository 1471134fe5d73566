//! The `next` command: what is the next practice, at which steps, and why?

use jiff::civil::Date;
use serde::Serialize;

use super::page::{Output, help};
use super::standing::{self, Position};
use super::{Failure, Format, source};
use crate::clock::Clock;
use crate::journal::{Folder, Journal};
use counterpoise_core::blocks::Block;
use counterpoise_core::course::program::moment;
use counterpoise_core::course::progression::{Decision, LadderState, Next};
use counterpoise_core::health::lock::Restriction;
use counterpoise_core::plan::caution;
use counterpoise_core::plan::drill::{Form, LadderStep, SecondTask, Stance, Support, Surface, Vision};
use counterpoise_core::plan::prescription::{DrillPlan, Prescription, Taken};

/// The options of `next`.
#[derive(Debug, Clone, clap::Args)]
#[command(after_help = help("Examples:\n  \
    counterpoise next                      what comes next, and why\n  \
    counterpoise next --on 2026-12-01      the same on another day, if nothing is practiced until then\n  \
    counterpoise next --format json"))]
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
    /// Where the person stands, the one strongest reason as a sentence, and the commands that would be accepted now.
    state: &'static str,
    said: String,
    offers: Vec<String>,
    /// All locks and holds, for the therapist.
    barred: Vec<String>,
    /// The sentence, where practice is not open, and what decided the steps.
    reasons: Vec<String>,
    /// The drill that changes; where none does, the first after the warm-up.
    step: Option<Step>,
    steps: Vec<Step>,
    left_out: Vec<&'static str>,
    /// The end of the ladders at which the program is.
    ladder_state: Option<LadderState>,
    /// What leaves out everything that needs an unlock, tosses and wall throws.
    restrictions: Vec<Restriction>,
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
    let prescription = source::for_person(arguments.prescription.as_deref(), folder)?.prescription;
    let journal = Journal::look(folder)?;
    let known = standing::known(&journal)?;
    let altered = match arguments.prescription {
        Some(_) => None,
        None => standing::altered(&journal, folder)?,
    };
    let now = moment(arguments.on, &Clock::real().wall());
    let position = Position::of(folder, &known, &prescription, arguments.prescription.as_deref(), &now)?;
    if arguments.format == Format::Json {
        let answer = answer(&position, &prescription, now.date(), altered.is_some());
        return Output::json_of(&answer, caution::Surface::Next, caution::Contents::Of(&prescription));
    }
    let mut page: Vec<Block> = altered.into_iter().collect();
    page.extend(text(&position, &prescription));
    page.extend(caution::blocks(caution::Surface::Next, caution::Contents::Of(&prescription)));
    Ok(page.into())
}

fn answer(position: &Position, prescription: &Prescription, on: Date, changed: bool) -> Answer {
    let standing = &position.standing;
    let next = &standing.next;
    let plans = prescription.drills();
    let of = |place: usize| next.steps[place].map(|step| Step::of(&plans[place], step));
    let first = next.changed.or_else(|| (1..plans.len()).find(|place| next.steps[*place].is_some()));
    let left_out = plans.iter().zip(&next.steps).filter(|(_, step)| step.is_none());
    let ruled_out = prescription.narrowings().iter().filter(|taken| taken.what == Taken::Drill);
    let ruled_out = ruled_out.map(|taken| taken.drill.name());
    Answer {
        schema: "counterpoise.next/1",
        on,
        decision: next.decision,
        then: next.then,
        state: standing.state().name(),
        said: standing.said(position.number()),
        offers: position.commands(),
        barred: standing.for_therapist(),
        reasons: (!standing.state().is_open())
            .then(|| standing.said(position.number()))
            .into_iter()
            .chain(standing.about_steps())
            .collect(),
        step: of(first.unwrap_or(0)),
        steps: (0..plans.len()).filter_map(of).collect(),
        left_out: left_out.map(|(plan, _)| plan.drill().name()).chain(ruled_out).collect(),
        ladder_state: next.state,
        restrictions: next.restrictions.clone(),
        until: standing.until().map(ToString::to_string),
        next_day: standing.next_day(),
        first_set: next.first_set,
        prescription_changed: changed,
    }
}

fn text(position: &Position, prescription: &Prescription) -> Vec<Block> {
    let standing = &position.standing;
    let next = &standing.next;
    let mut page = vec![Block::line(prescription.title())];
    page.extend(position.lines().into_iter().map(Block::line));
    if standing.state().is_next_known() {
        page.push(Block::line(match next.then {
            Decision::Up => "Up: one step higher in one drill.",
            Decision::Down => "Down: one step lower.",
            _ => "Hold: the same steps.",
        }));
        page.extend(standing.about_steps().into_iter().map(Block::item));
        page.push(Block::line(if next.is_open() { "Steps" } else { "Steps at the next practice" }));
        page.extend(steps(next, prescription).map(Block::item));
        page.extend(prescription.narrowings().iter().map(|taken| Block::item(taken.to_string())));
    }
    page.extend(position.offered().map(Block::line));
    page
}

fn steps(next: &Next, prescription: &Prescription) -> impl Iterator<Item = String> {
    let plans = prescription.drills().iter().zip(&next.steps).enumerate();
    plans.map(|(place, (plan, step))| {
        let title = plan.drill().title();
        match step {
            None => format!("{title}: left out for now"),
            Some(step) if place == 0 => {
                let LadderStep { stance, support, .. } = plan.conditions_at(*step);
                format!("{title}, the warm-up: always step {step}, {stance}, {support}")
            }
            Some(step) => {
                let LadderStep { stance, support, .. } = plan.conditions_at(*step);
                format!("{title}: step {step} of at most {}, {stance}, {support}", plan.ceiling())
            }
        }
    })
}
