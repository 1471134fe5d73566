mod accepted;
mod any_file;
mod ladder_version;
mod refused;
mod safety;

use std::collections::BTreeSet;

use super::{Prescription, READY, Refusal};
use crate::plan::drill::{Drill, Form, UnlockName};

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

/// The page a therapist reads: its example is read, and every field and every range stands on it.
#[test]
fn the_documented_format_is_the_one_that_is_read() {
    let page = include_str!("../../../../docs/prescription.md");
    let example = page.split("```toml\n").nth(1).and_then(|rest| rest.split("```").next()).unwrap();
    let prescription = Prescription::read("docs/prescription.md", example.as_bytes()).unwrap();
    assert_eq!(prescription.drills().len(), 2);
    assert_eq!(prescription.effort_at_most(), 5);
    for limit in super::limits::RANGES {
        let range = format!("{} to {}", limit.least, limit.most);
        let row = page.lines().find(|line| line.starts_with(&format!("| `{}`", limit.field)));
        let row = row.or_else(|| page.lines().find(|line| line.starts_with(&format!("`{}`:", limit.field))));
        let row = row.unwrap_or_else(|| panic!("`{}` is described", limit.field));
        let own_end = limit.field == "recover_ms" && row.contains("2000 to `work_ms`");
        assert!(row.contains(&range) || own_end, "{row}\nwithout {range}");
    }
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
    for field in super::fields::every_field() {
        assert!(
            page.contains(&format!("`{field}`")) || page.contains(&format!("[{field}]")),
            "{field} is described"
        );
    }
}
