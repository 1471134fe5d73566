//! One question: the choices, or the range with its reason and origin, and what to type.

use super::super::draft_text::{number, seconds, step_change, step_text};
use super::super::form_page::options;
use super::Item;
use crate::plan::drill::{Need, Strength, Target, UnlockName};
use crate::plan::prescription::DraftDrill;
use crate::plan::prescription::field::{Field, Kind, Place};
use crate::plan::prescription::limits::{self, Unit};

/// More entries than this are shown in two columns, so that they fit a small terminal.
const ONE_COLUMN: usize = 9;

/// The question about a field, its value `now`, and what belongs to it. Returns what to type.
pub(super) fn details(
    field: &Field,
    plan: Option<&DraftDrill>,
    now: String,
    items: &mut Vec<Item>,
) -> &'static str {
    items.extend([Item::Text(field.question.to_owned()), Item::Gap, Item::Pair("Now", now)]);
    let choices = choices(field, plan);
    let has_choices = !choices.is_empty();
    items.extend((1..).zip(choices).map(|(number, text)| Item::Choice(number.to_string(), text)));
    let limit = match plan {
        Some(plan) if field.name == "longest_streak" => Some(limits::streak(plan.directions.len())),
        _ => field.limit,
    };
    let allowed = match (field.name, plan, limit) {
        (_, _, Some(limit)) => {
            let [least, most] = [limit.least, limit.most].map(|end| number(limit.unit, end.into()));
            Some(format!("{least} to {most}"))
        }
        ("gap_ms", Some(plan), _) => Some(format!(
            "{} (for the slowest of the calls) to {}, at least {} apart",
            plan.shortest_gap(),
            limits::GREATEST_GAP,
            limits::GAP_WIDTH
        )),
        ("strength", ..) => Some(format!(
            "1 to {} at home, the two at most {} apart; 3 and 4 only with the therapist there",
            limits::STRENGTH_AT_HOME,
            limits::STRENGTH_SPREAD
        )),
        _ => field
            .characters
            .map(|least| format!("{least} to {} characters, one line", limits::TEXT_CHARACTERS)),
    };
    let usual = plan.filter(|_| field.name == "gap_ms").map(DraftDrill::usual_gaps);
    let date = (field.kind == Kind::Date).then(|| "year-month-day, such as 2026-11-02, or: today".to_owned());
    let why = limit.map_or(field.why, |limit| limit.why);
    let shows_origin = allowed.is_some() && field.characters.is_none();
    let origin = limit.map_or(field.origin, |limit| limit.origin);
    let said = |text: &str| (!text.is_empty()).then(|| text.to_owned());
    for (label, text) in [
        ("Format", date),
        ("Allowed", allowed),
        ("Usual", usual.map(|[low, high]| format!("{} to {}", seconds(low), seconds(high)))),
        ("Why", said(why)),
        ("Origin", said(origin).filter(|_| shows_origin)),
    ] {
        items.extend(text.map(|text| Item::Pair(label, text)));
    }
    match (field.prompt, field.unit(), field.kind) {
        ("", ..) if has_choices => "A number",
        ("", Unit::Millis, _) => "Seconds",
        ("", Unit::PerMille, _) => "Percent",
        ("", _, Kind::Integer) if field.place == Place::Drill => "A number",
        ("", ..) => "Type another one",
        (prompt, ..) => prompt,
    }
}

/// What can be chosen, as it is offered.
fn choices(field: &Field, plan: Option<&DraftDrill>) -> Vec<String> {
    match (field.name, plan) {
        ("directions", Some(plan)) => {
            let entries: Vec<String> = plan.offered().map(|target| entry(plan, target)).collect();
            let half = if entries.len() > ONE_COLUMN { entries.len().div_ceil(2) } else { entries.len() };
            let width = if half < entries.len() { 32 } else { 0 };
            let line = |place: usize| {
                let beside = entries.get(place + half).filter(|_| half < entries.len());
                let beside =
                    beside.map(|text| format!("{:>3}  {text}", place + half + 1)).unwrap_or_default();
                format!("{:width$}{beside}", entries[place])
            };
            (0..half).map(line).collect()
        }
        ("step" | "ceiling", Some(plan)) => {
            let ladder = plan.ladder().steps();
            let line = |place: usize| {
                let step = ladder[place];
                let what = match place.checked_sub(1) {
                    Some(before) => step_change(ladder[before], step),
                    None => step_text(step),
                };
                format!("{what}{}", watched_first(plan.ladder().unlocks(place as u8 + 1)))
            };
            (0..ladder.len()).map(line).collect()
        }
        ("ladder", Some(plan)) => {
            plan.drill.ladders().iter().map(|ladder| ladder.name().to_owned()).collect()
        }
        ("named_steps", Some(plan)) => {
            let line = |(key, step)| format!("{key}: {}", step_text(step));
            plan.ladder().nameable().map(line).collect()
        }
        ("strength", _) => {
            let all = (1..=4).filter_map(Strength::new);
            all.map(|strength| format!("{strength}: {}", strength.sensation())).collect()
        }
        ("confirmed", Some(plan)) => {
            plan.needs().into_iter().map(|need| Need::sentence(need).to_owned()).collect()
        }
        ("precautions", None) => options(field, plan).into_iter().map(str::to_owned).collect(),
        _ => {
            let offered = options(field, plan);
            let choices = field.choices.iter().filter(|choice| offered.contains(&choice.word));
            choices.map(|choice| choice.offer.to_owned()).collect()
        }
    }
}

/// One thing that may be called: marked where it is, and with what must be watched first.
fn entry(plan: &DraftDrill, target: &Target) -> String {
    let mark = if plan.directions.contains(&target.name) { "x " } else { "- " };
    let backward = target.direction.is_backward().then_some(UnlockName::Backward);
    let needs = target.action.unlocks().iter().copied().chain(backward);
    format!("{mark}{}{}", target.name, watched_first(needs))
}

fn watched_first(needs: impl Iterator<Item = UnlockName>) -> String {
    let needs: Vec<&str> = needs.map(UnlockName::name).collect();
    if needs.is_empty() { String::new() } else { format!("  [watched first: {}]", needs.join(", ")) }
}
