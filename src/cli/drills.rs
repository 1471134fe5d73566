//! The `drills` command: lists the drills, or explains one with its evidence and what it does not train.

use std::collections::BTreeSet;

use serde::Serialize;

use super::page::Output;
use super::{Failure, Format};
use counterpoise_core::blocks::Block;
use counterpoise_core::plan::caution::{self, Contents, Surface};
use counterpoise_core::plan::drill::{
    Drill, DrillCaution, Form, Ladder, LadderStep, Target, Trains, UnlockName,
};

/// The options of `drills`.
#[derive(Debug, Clone, clap::Args)]
#[command(
    args_conflicts_with_subcommands = true,
    after_help = "Examples:\n  \
        counterpoise drills                    every drill in a few lines\n  \
        counterpoise drills show quick-steps   one of them: kit, steps, evidence, cautions\n  \
        counterpoise drills --format json"
)]
pub(super) struct Arguments {
    #[command(subcommand)]
    action: Option<Action>,
    /// Output format
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
}

#[derive(Debug, Clone, clap::Subcommand)]
enum Action {
    /// Explain one drill
    #[command(after_help = "Example:\n  counterpoise drills show counter-reach")]
    Show {
        /// The drill
        #[arg(value_name = "NAME")]
        name: String,
    },
}

#[derive(Serialize)]
struct List {
    schema: &'static str,
    drills: Vec<Item>,
}

#[derive(Serialize)]
struct Item {
    name: &'static str,
    forms: &'static [Form],
    /// What somebody must have watched before the drill is practiced at all.
    unlocks: Vec<UnlockName>,
}

pub(super) fn run(arguments: &Arguments) -> Result<Output, Failure> {
    if let Some(Action::Show { name }) = &arguments.action {
        return Drill::named(name).map_or_else(|| Err(unknown(name)), |drill| Ok(show(drill).into()));
    }
    match arguments.format {
        Format::Json => {
            let item = |drill: &'static Drill| Item {
                name: drill.name(),
                forms: drill.forms(),
                unlocks: drill.unlocks(),
            };
            let drills = Drill::all().iter().map(item).collect();
            let list = List { schema: "counterpoise.drills/1", drills };
            Output::json_of(&list, Surface::Drills, Contents::Everything)
        }
        Format::Text => {
            let mut page: Vec<Block> = Drill::all().iter().flat_map(describe).collect();
            page.push(Block::Gap);
            page.extend(caution::blocks(Surface::Drills, Contents::Everything));
            Ok(page.into())
        }
    }
}

fn unknown(name: &str) -> Failure {
    let known: Vec<&str> = Drill::all().iter().map(Drill::name).collect();
    Failure::new(
        format!("there is no drill called \"{name}\""),
        format!("choose one of {}", known.join(", ")),
    )
}

/// A few lines: what happens, what it trains, what it needs.
fn describe(drill: &Drill) -> impl Iterator<Item = Block> + use<> {
    let mut lines = vec![
        drill.about().to_owned(),
        format!("Trains {}.", trains(drill)),
        format!("Calls: {}.", join_list(drill.targets().iter().map(Target::words))),
        format!("Needs: {}.", drill.kit().join(", ")),
    ];
    lines.extend(unlock_sentence(drill));
    lines.push(format!("Steps, from gentlest to hardest: {}.", drill.ladder().len()));
    Block::section(heading(drill), lines)
}

/// Everything in the drill's file, and what follows from it.
fn show(drill: &Drill) -> Vec<Block> {
    let mut page: Vec<Block> = Block::section(heading(drill), [drill.about()]).collect();
    let facings: Vec<&str> = drill.facings().iter().map(|facing| facing.name()).collect();
    let turns = if facings.len() > 1 { ", set by set" } else { "" };
    let mut place = vec![
        format!("Needs: {}.", drill.kit().join(", ")),
        format!("Where the person stands: {}{turns}.", facings.join(", then ")),
        format!("Behind: {}.", drill.behind()),
        format!("Fixed support: {}.", drill.fixed_support()),
    ];
    let form = drill.forms().last().copied().unwrap_or(Form::Alone);
    let needs = drill.needs(form, drill.ladder()[0]);
    place.extend(needs.iter().map(|need| format!("Asked before the first set: {}", need.sentence())));
    page.extend(Block::section("What is needed", place));

    let mut calls = vec![format!("Calls: {}.", join_list(drill.targets().iter().map(Target::words)))];
    if !drill.parts().is_empty() {
        let parts = drill.parts().iter().map(|part| part.phrase.words().to_owned());
        calls.push(format!("Parts that may be added to a call: {}.", join_list(parts)));
    }
    calls.extend(drill.targets().iter().filter_map(span_sentence));
    let shortest =
        drill.targets().iter().map(|target| target.action.shortest_gap()).max().unwrap_or_default();
    calls.push(format!("Time between two calls: at least {shortest}, for the slowest of them."));
    calls.extend(unlock_sentence(drill));
    calls.extend(drill.targets().iter().filter_map(|target| extra_unlock_sentence(drill, target)));
    page.extend(Block::section("Calls", calls));

    if drill.forms().contains(&Form::Partner) {
        let mut lines = drill.partner_does().to_vec();
        lines.push(format!("The partner gets the instructions {} before each moment.", drill.lead()));
        page.extend(Block::section("What the partner does", lines));
    }
    for ladder in drill.ladders() {
        let version = match ladder.version() {
            1 => String::new(),
            version => format!(" on version {version} of the ladder ({})", ladder.name()),
        };
        let steps = (1..).zip(ladder.steps()).map(|(number, step)| rung(drill, ladder, number, *step));
        let title = format!("Steps{version}, from gentlest to hardest; each changes one thing");
        page.extend(Block::section(&title, steps));
    }
    let evidence =
        [drill.evidence().to_owned(), format!("Trains {}.", trains(drill)), drill.limitation().to_owned()];
    page.extend(Block::section("What is known about it", evidence));
    page.extend(Block::section("Cautions", drill.cautions().iter().map(DrillCaution::text)));
    page.push(Block::heading("In every practice"));
    page.extend(caution::blocks(Surface::DrillShown, Contents::Drill(drill)));
    page
}

fn heading(drill: &Drill) -> String {
    let forms: Vec<&str> = drill.forms().iter().map(|form| form.name()).collect();
    format!("{}: {} ({})", drill.name(), drill.title(), forms.join(" or "))
}

fn trains(drill: &Drill) -> &'static str {
    match drill.trains() {
        Trains::Voluntary => "a movement that the person chooses to make",
        Trains::Reactive => "a reaction to a real disturbance",
    }
}

/// A list, separated by semicolons if an item has a comma.
fn join_list(words: impl Iterator<Item = String>) -> String {
    let mut words: Vec<String> = words.collect();
    // Several directions may have one call.
    let mut said = BTreeSet::new();
    words.retain(|one| said.insert(one.clone()));
    words.join(if words.iter().any(|words| words.contains(',')) { "; " } else { ", " })
}

fn names(unlocks: &[UnlockName]) -> String {
    unlocks.iter().map(|unlock| unlock.name()).collect::<Vec<_>>().join(", ")
}

/// The unlocks that every call of the drill needs.
fn unlock_sentence(drill: &Drill) -> Option<String> {
    let unlocks = drill.unlocks();
    (!unlocks.is_empty()).then(|| {
        format!("Locked until somebody has watched this person do it. Unlocks: {}.", names(&unlocks))
    })
}

/// The unlocks that one call needs in addition to those of the drill.
fn extra_unlock_sentence(drill: &Drill, target: &Target) -> Option<String> {
    let always = drill.unlocks();
    let backward = target.direction.is_backward().then_some(UnlockName::Backward);
    let needed = target.action.unlocks().iter().copied().chain(backward);
    let more: Vec<UnlockName> = needed.filter(|unlock| !always.contains(unlock)).collect();
    let partner = target.action.needs_partner() && drill.forms().contains(&Form::Alone);
    let with = if partner { ", and only with a partner" } else { "" };
    (!more.is_empty()).then(|| format!("\"{}\" also needs: {}{with}.", target.name, names(&more)))
}

/// How long a call lasts, and how it ends.
fn span_sentence(target: &Target) -> Option<String> {
    let span = target.span?;
    let counted = if span.count > 0 { format!(", counted aloud to {}", span.count) } else { String::new() };
    Some(format!("\"{}\" lasts {}{counted}, then: {}.", target.words(), span.length, span.close.words()))
}

fn rung(drill: &Drill, ladder: &Ladder, number: u8, step: LadderStep) -> String {
    let always = drill.unlocks();
    let more: Vec<UnlockName> = ladder.unlocks(number).filter(|unlock| !always.contains(unlock)).collect();
    let unlocks = if more.is_empty() { String::new() } else { format!(" Unlock: {}.", names(&more)) };
    format!("{number}. {} {}.{unlocks}", step.posture(), step.stance_text(drill.facings()[0], None))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_later_ladder_is_shown_with_its_version_its_name_and_its_unlocks() {
        let second = include_str!("../../tests/data/ladders-2.toml");
        let second = second.split("# drill: ").find_map(|part| part.strip_prefix("counter-reach")).unwrap();
        let first = include_str!("../../presets/drills/counter-reach.toml");
        let drill = Drill::from_toml("counter-reach", &format!("{first}\n{second}")).unwrap();
        let page = crate::cli::page::text::of(&show(&drill));
        let (before, after) = page.split_once("Steps on version 2 of the ladder (feet), from").unwrap();
        assert!(before.contains("Steps, from gentlest to hardest") && before.contains("\n  5. Stand with"));
        assert!(after.contains("\n  4. Stand with") && after.contains("Unlock: one-leg."), "{after}");
    }
}
