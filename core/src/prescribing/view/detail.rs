//! The details of one question about a drill: the choices, or the range with its reason and origin, and what to
//! type.

use super::super::draft_text::{seconds, step_change, step_text};
use super::super::form_page::{DrillField, offered};
use super::Item;
use crate::plan::drill::{Form as Company, Strength, Target, UnlockName};
use crate::plan::prescription::DraftDrill;
use crate::plan::prescription::limits::{self, Limit, Unit};

/// More entries than this are shown in two columns, so that they fit a small terminal.
const ONE_COLUMN: usize = 9;

/// Range, reason and origin of a hard limit, in the unit that people use.
pub(super) fn limit(limit: Limit, items: &mut Vec<Item>) {
    items.push(Item::Pair(
        "Allowed",
        format!("{} to {}", shown(limit, limit.least), shown(limit, limit.most)),
    ));
    items.push(Item::Pair("Why", limit.why.to_owned()));
    items.push(Item::Pair("Origin", limit.origin.to_owned()));
}

fn shown(limit: Limit, value: u32) -> String {
    match limit.unit {
        Unit::Count if limit.field == "rate_thousandths" => (f64::from(value) / 1000.0).to_string(),
        Unit::Count => value.to_string(),
        Unit::Millis => seconds(value.into()),
        Unit::PerMille => format!("{} %", f64::from(value) / 10.0),
    }
}

pub(super) fn text_limit(least: usize, items: &mut Vec<Item>) {
    let most = limits::TEXT_CHARACTERS;
    items.push(Item::Pair("Allowed", format!("{least} to {most} characters, one line")));
}

/// What belongs to one question, and what to type.
#[expect(clippy::too_many_lines, reason = "one arm a question")]
pub(super) fn details(plan: &DraftDrill, ask: DrillField, items: &mut Vec<Item>) -> &'static str {
    let mut choice = |number: usize, text: String| items.push(Item::Choice(number.to_string(), text));
    match ask {
        DrillField::Form => {
            for (number, form) in (1..).zip(plan.drill.forms()) {
                choice(
                    number,
                    if *form == Company::Alone { "alone".into() } else { "with a partner".into() },
                );
            }
            "A number"
        }
        DrillField::Directions => {
            let entries: Vec<String> = offered(plan).map(|target| entry(plan, target)).collect();
            let half = if entries.len() > ONE_COLUMN { entries.len().div_ceil(2) } else { entries.len() };
            for number in 1..=half {
                let beside = entries.get(number - 1 + half).filter(|_| half < entries.len());
                let beside = beside.map(|text| format!("{:>3}  {text}", number + half)).unwrap_or_default();
                let width = if half < entries.len() { 32 } else { 0 };
                choice(number, format!("{:width$}{beside}", entries[number - 1]));
            }
            "The numbers of all that may be called, such as: 1 2 4; or: all"
        }
        DrillField::Weights => {
            limit(limits::WEIGHT, items);
            "Such as: 2 1 1; or: even"
        }
        DrillField::Step | DrillField::Ceiling => {
            let ladder = plan.ladder.steps();
            for (number, step) in (1..).zip(ladder) {
                let what =
                    if number == 1 { step_text(*step) } else { step_change(ladder[number - 2], *step) };
                let needs: Vec<&str> = plan.ladder.unlocks(number as u8).map(UnlockName::name).collect();
                let locked = if needs.is_empty() {
                    String::new()
                } else {
                    format!("  [watched first: {}]", needs.join(", "))
                };
                choice(number, format!("{what}{locked}"));
            }
            "A step"
        }
        DrillField::Sets => limit_and_prompt(limits::SETS, items, "A number"),
        DrillField::Work => limit_and_prompt(limits::WORK, items, "Seconds"),
        DrillField::Recover => limit_and_prompt(limits::RECOVER, items, "Seconds"),
        DrillField::Gap => {
            let (least, most) = (plan.shortest_gap(), limits::GREATEST_GAP);
            items.push(Item::Pair(
                "Allowed",
                format!(
                    "{least} (for the slowest of the calls) to {most}, at least {} apart",
                    limits::GAP_WIDTH
                ),
            ));
            let [low, high] = plan.usual_gaps();
            items.push(Item::Pair("Usual", format!("{} to {}", seconds(low), seconds(high))));
            items.push(Item::Pair(
                "Why",
                "Up to 2.2 s to regain balance, plus time to reset. Longer is no harder to predict.".into(),
            ));
            items.push(Item::Pair("Origin", "2.2 s: BMC Geriatrics 2020, 01650-4, table 2 [derived]; 5 to 15 s: common practice, no source; ends: judgment".into()));
            "Two numbers of seconds, such as: 5 15"
        }
        DrillField::Shape => {
            choice(
                1,
                "shorter waits more often, so that waiting gives away as little as possible (usual)".into(),
            );
            choice(2, "all waits equally often: no single moment is a better guess than another".into());
            "A number"
        }
        DrillField::Rate => limit_and_prompt(limits::RATE_THOUSANDTHS, items, "A number"),
        DrillField::Blanks => limit_and_prompt(limits::BLANKS, items, "Percent"),
        DrillField::Sequence => {
            choice(1, "each drawn separately: counting reveals nothing (usual)".into());
            choice(
                2,
                "each about equally often: an equal share of practice, and a little easier to guess".into(),
            );
            "A number"
        }
        DrillField::Slack => limit_and_prompt(limits::SLACK, items, "A number"),
        DrillField::Streak => limit_and_prompt(limits::streak(plan.directions.len()), items, "A number"),
        DrillField::Strength => {
            for number in 1..=4 {
                let Some(strength) = Strength::new(number) else { continue };
                choice(number.into(), format!("{strength}: {}", strength.sensation()));
            }
            let most = limits::STRENGTH_AT_HOME;
            items.push(Item::Pair(
                "Allowed",
                format!(
                    "1 to {most} at home, the two at most {} apart; 3 and 4 only with the therapist there",
                    limits::STRENGTH_SPREAD
                ),
            ));
            items.push(Item::Pair("Origin", "judgment".into()));
            "Such as: 1; or: 1 2"
        }
        DrillField::Balls => limit_and_prompt(limits::BALLS, items, "1 or 2"),
        DrillField::Spell => {
            limit_and_prompt(limits::SPELL, items, "Seconds; or: own, for the drill's own duration")
        }
        DrillField::Hold => limit_and_prompt(limits::TESTED_HOLD, items, "Seconds"),
        DrillField::Confirmed => {
            for (number, need) in (1..).zip(plan.needs()) {
                choice(number, need.sentence().to_owned());
            }
            "The numbers of what is in place; or: none"
        }
    }
}

/// One thing that may be called: marked where it is, and with what must be watched first.
fn entry(plan: &DraftDrill, target: &Target) -> String {
    let mark = if plan.directions.contains(&target.name) { "x " } else { "- " };
    let mut needs: Vec<&str> = target.action.unlocks().iter().map(|name| name.name()).collect();
    needs.extend(target.direction.is_backward().then_some(UnlockName::Backward.name()));
    let locked =
        if needs.is_empty() { String::new() } else { format!("  [watched first: {}]", needs.join(", ")) };
    format!("{mark}{}{locked}", target.name)
}

fn limit_and_prompt(limit_of_it: Limit, items: &mut Vec<Item>, type_it: &'static str) -> &'static str {
    limit(limit_of_it, items);
    type_it
}
