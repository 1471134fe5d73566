mod accepted;
mod any_file;
mod ladder_version;
mod refused;
mod safety;

use std::collections::BTreeSet;

use super::field::{Field, Kind, Place, Sheet, Value};
use super::{Accept, Draft, DraftDrill, Prescription, READY, Refusal, Unlock, limits};
use crate::plan::drill::{Drill, Form, UnlockName};
use crate::plan::health_topic::Topic;

/// Every field given, with figures of its own. Lines are counted from 1.
const WHOLE: &str = r#"schema = "counterpoise.prescription/1"
title = "Second month"
issued_by = "Ward 4"
issued_on = 2026-04-17
days_a_week = 4
weeks = 9
review_after_sessions = 10
rest_ms = 70000
order = "drawn"

[[drills]]
drill = "counter-shift"
form = "alone"
sets = 2
work_ms = 55000
recover_ms = 6000
step = 1
ceiling = 4
gap_ms = [4500, 12500]
shape = "flat"
rate_thousandths = 900
blank_per_mille = 120
directions = ["left", "right", "forward left"]
weights = [2, 2, 1]
sequence = "open"
longest_streak = 3

[[drills]]
drill = "counter-reach"
sets = 3
work_ms = 65000
step = 2
ceiling = 5
gap_ms = [6000, 11000]
shape = "even"
directions = ["left", "right", "back", "back left"]
sequence = "covered"
slack = 2

[[unlocks]]
name = "backward"
watched_by = "initials"
on = 2026-04-10
partner = ""

[limits]
effort_at_most = 5
"#;

fn read(text: &str) -> Result<Prescription, Refusal> {
    Prescription::read("balance.toml", text.as_bytes())
}

/// `WHOLE` with the first `from` replaced: void if it does not stand there.
fn changed(from: &str, to: &str) -> String {
    assert!(WHOLE.contains(from), "{from} stands in the file");
    WHOLE.replacen(from, to, 1)
}

#[test]
fn every_ready_prescription_is_read_and_needs_no_unlock() {
    let names: Vec<&str> = Prescription::ready_names().collect();
    assert_eq!(names[..2], ["gentle", "typical"], "the default first");
    for (name, text) in READY {
        let prescription = read(text).unwrap();
        assert!(prescription.unlocks().is_empty(), "{name}");
        assert!(prescription.drills()[0].drill().is_warm_up(), "{name}");
        assert_eq!(Prescription::ready(name).unwrap().digest(), prescription.digest(), "{name}");
        assert!(prescription.drills().iter().all(|plan| plan.line() > 0), "{name} brings its own warm-up");
        assert!(prescription.drills().iter().all(|plan| plan.ceiling() <= 3), "{name}: step 3 at most");
    }
    let on_disk =
        std::fs::read_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/../presets/prescriptions")).unwrap().count();
    assert_eq!(on_disk, READY.len(), "a file that is not listed is not built in");
}

/// The page a therapist reads: its example is read, and every drill stands on it.
#[test]
fn the_documented_format_is_the_one_that_is_read() {
    let page = include_str!("../../../../docs/prescription.md");
    let example = page.split("```toml\n").nth(1).and_then(|rest| rest.split("```").next()).unwrap();
    let prescription = Prescription::read("docs/prescription.md", example.as_bytes()).unwrap();
    assert_eq!(prescription.drills().len(), 2);
    assert_eq!(prescription.effort_at_most(), 5);
    for drill in Drill::all() {
        let row = page.lines().find(|line| line.starts_with(&format!("| `{}`", drill.name())));
        let row = row.unwrap_or_else(|| panic!("{} is described", drill.name()));
        let cell = |place: usize| row.split('|').nth(place).unwrap().trim();
        assert_eq!(cell(2) == "yes", drill.forms().contains(&Form::Alone), "{row}");
        assert_eq!(cell(3) == "yes", drill.forms().contains(&Form::Partner), "{row}");
        let targets = drill.targets().iter().flat_map(|target| target.action.unlocks()).copied();
        let backward = drill.targets().iter().any(|target| target.direction.is_backward());
        let steps = drill.ladder().iter().flat_map(|step| step.unlocks());
        let all = targets.chain(steps).chain(backward.then_some(UnlockName::Backward));
        let all: BTreeSet<UnlockName> = all.collect();
        for unlock in UnlockName::ALL {
            let named = cell(4).contains(&format!("`{unlock}`"));
            assert_eq!(named, all.contains(unlock), "{unlock} in {row}");
        }
    }
}

/// The rows of the table that the page shows for the fields of one place.
fn documented(place: Place) -> String {
    let shown = |field: &&Field| {
        let blank = match place {
            Place::Drill => DraftDrill::blank().value(field),
            Place::Unlock => Unlock::blank().value(field),
            Place::Accept => Accept::blank().value(field),
            _ => Draft::blank().value(field),
        };
        let left_out = match (field.needed, field.left_out, blank) {
            (true, ..) => "refused".to_owned(),
            (_, "", Some(Value::Text(text))) if text.is_empty() => "empty".to_owned(),
            (_, "", Some(default)) => format!("`{default}`"),
            (_, words, _) => words.to_owned(),
        };
        let range = field.limit.map(|limit| format!("{} to {}", limit.least, limit.most));
        let range = range.filter(|_| field.bounds.is_empty());
        let text = field.characters.map(|least| {
            format!(
                "{}{} characters, one line",
                if least > 0 { "1 to " } else { "" },
                limits::TEXT_CHARACTERS
            )
        });
        let said = Some(field.bounds.to_owned()).filter(|bounds| !bounds.is_empty());
        let bounds: Vec<String> = [range, text, said].into_iter().flatten().collect();
        let cells = [
            format!("`{}`", field.name),
            field.what.to_owned(),
            left_out,
            bounds.join("; "),
            field.origin().to_owned(),
        ];
        format!("| {} |\n", cells.join(" | ")).replace("|  |", "| |").replace("|  |", "| |")
    };
    let rows: String =
        Field::ALL.iter().copied().filter(|field| field.place == place).map(|field| shown(&field)).collect();
    format!(
        "| field | what it is | left out | hard limit | origin |\n| --- | --- | --- | --- | --- |\n{rows}"
    )
}

/// The topics that a prescription can accept are listed on the page.
#[test]
fn the_documented_topics_are_those_that_can_be_accepted() {
    let page = include_str!("../../../../docs/prescription.md");
    let topics: Vec<String> = Topic::ALL
        .iter()
        .filter(|topic| topic.can_be_accepted())
        .map(|topic| format!("`\"{topic}\"`"))
        .collect();
    let flat = page.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(flat.contains(&topics.join(", ")), "docs/prescription.md must list {}", topics.join(", "));
}

/// Each table of fields on the page is the one in `fields.rs`, word for word.
#[test]
fn the_documented_fields_are_those_of_the_table() {
    let page = include_str!("../../../../docs/prescription.md");
    for place in [Place::Top, Place::Drill, Place::Unlock, Place::Accept, Place::Limits, Place::Suitability] {
        let table = documented(place);
        assert!(page.contains(&table), "docs/prescription.md must have this for {}:\n{table}", place.name());
    }
}

#[test]
fn every_field_has_what_is_needed_to_ask_and_to_explain() {
    let mut names = BTreeSet::new();
    for field in Field::ALL {
        assert!(names.insert(field.name), "`{}` is the name of one field", field.name);
        assert!(!field.what.is_empty() && field.example().starts_with(field.name), "{field:?}");
        if field.rank > 0 {
            assert!(!field.label.is_empty() && field.question.ends_with(['?', '.']), "{field:?}");
        }
        // A number that nothing bounds would be cast as it is.
        let is_number = matches!(field.kind, Kind::Integer | Kind::Integers);
        assert!(!is_number || field.limit.is_some() || !field.bounds.is_empty(), "{field:?}");
    }
    let ranks = |fields: Vec<&Field>| fields.iter().map(|field| usize::from(field.rank)).collect::<Vec<_>>();
    assert_eq!(ranks(Draft::asked()), (1..=Draft::asked().len()).collect::<Vec<_>>());
    assert_eq!(ranks(DraftDrill::asked()), (1..=DraftDrill::asked().len()).collect::<Vec<_>>());
}
