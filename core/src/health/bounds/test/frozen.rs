//! What limits leave of version 1 of every ladder, as it was when ladders got versions: `tests/data/limits.txt`. No
//! file, limit or journal from then may come to meet a condition that it did not meet before.

use std::fmt::Write as _;
use std::path::Path;

use super::super::{Bounds, Limits};
use crate::plan::drill::{Drill, Form, Ladder, LadderStep, Target};
use crate::plan::prescription::Prescription;

const DATA: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../tests/data");

/// Every limit that answers and tests can lead to, in the order of the columns of the file.
fn every_limit() -> Vec<Bounds> {
    let levels = [Bounds::OPEN, Bounds::CAUTIOUS, Bounds::STEP_ONE, Bounds::BOTH_HANDS];
    let flags = [false, true];
    let mut all = Vec::new();
    for level in levels {
        for alone in flags {
            for no_head_turns in flags {
                let limits = Limits { alone, ..level.limits };
                let of = |no_rises| Bounds { limits, no_head_turns, no_rises, ..Bounds::OPEN };
                all.extend(flags.map(of));
            }
        }
    }
    all
}

/// The highest step under each limit, `-` where the drill is left out.
fn row(ladder: &Ladder, form: Form, targets: &[Target], ceiling: u8) -> String {
    let highest =
        every_limit().into_iter().map(|limit| limit.highest_step(ladder, form, targets, ceiling, &[]));
    highest.map(|step| step.map_or("-".to_owned(), |step| step.to_string())).collect()
}

/// The prescriptions that are built in and those of the tests, by name.
fn every_file() -> Vec<(String, Prescription)> {
    let ready = Prescription::all_ready().iter().map(|(name, ready)| ((*name).to_owned(), ready.clone()));
    let mut files: Vec<(String, Prescription)> = ready.collect();
    for folder in ["", "journals", "../golden"] {
        let folder = Path::new(DATA).join(folder);
        let mut paths: Vec<_> = std::fs::read_dir(folder).unwrap().map(|file| file.unwrap().path()).collect();
        paths.sort();
        for path in paths.iter().filter(|path| path.extension().is_some_and(|end| end == "toml")) {
            let (name, text) =
                (path.strip_prefix(DATA).unwrap().display(), std::fs::read_to_string(path).unwrap());
            if text.contains("counterpoise.prescription/1") {
                files.push((name.to_string(), Prescription::read("a file", text.as_bytes()).unwrap()));
            }
        }
    }
    files
}

fn frozen(file: &str) -> Vec<String> {
    let text = std::fs::read_to_string(Path::new(DATA).join(file)).unwrap();
    text.lines().filter(|line| !line.starts_with('#')).map(str::to_owned).collect()
}

#[test]
fn limits_leave_of_version_1_what_they_left_before() {
    let mut now = String::new();
    for drill in Drill::all() {
        for form in drill.forms() {
            let row = row(&drill.ladders()[0], *form, drill.targets(), drill.ladder().len() as u8);
            let _ = writeln!(now, "{row} {} {form}", drill.name());
        }
    }
    for (name, prescription) in every_file() {
        for plan in prescription.drills() {
            let row = row(plan.ladder(), plan.form(), plan.targets(), plan.ceiling());
            let _ = writeln!(now, "{row} {} {} in {name}", plan.drill().name(), plan.form());
        }
    }
    let now: Vec<&str> = now.lines().collect();
    let frozen = frozen("limits.txt");
    for line in &frozen {
        assert!(now.contains(&line.as_str()), "no longer so: {line}");
    }
    let drills = |line: &&str| !line.contains(" in ");
    for line in now.iter().copied().filter(drills) {
        assert!(frozen.iter().any(|old| old == line), "another drill or form, or another result: {line}");
    }
}

#[test]
fn no_released_step_changes_its_key_or_its_conditions() {
    let mut now = Vec::new();
    for drill in Drill::all() {
        for ladder in drill.ladders() {
            for ((number, step), key) in (1..).zip(ladder.steps()).zip(ladder.keys()) {
                let LadderStep { stance, surface, support, vision, second_task, parts } = step;
                let task = second_task.map_or("no second task", |task| task.name());
                now.push(format!(
                    "{} {}.{number} {key}: {stance}, {surface}, {support}, {vision}, {task}, {parts}",
                    drill.name(),
                    ladder.version()
                ));
            }
        }
    }
    assert_eq!(now, frozen("ladders.txt"), "a released step never changes; those of a new version are added");
}

/// No field of a set says which ladder it was on, so it is version 1.
#[test]
fn every_set_of_every_export_is_on_a_step_of_version_1() {
    let mut sets = 0;
    for version in 1..=7 {
        let path = Path::new(DATA).join(format!("exports/{version}.json"));
        let export: serde_json::Value = serde_json::from_slice(&std::fs::read(path).unwrap()).unwrap();
        let sessions = export["sessions"].as_array().unwrap().iter();
        for set in sessions.flat_map(|session| session["sets"].as_array().unwrap()) {
            let start = &set["start"];
            let drill = Drill::named(start["drill"].as_str().unwrap()).unwrap();
            let step = drill.ladder()[start["step"].as_u64().unwrap() as usize - 1];
            let words = |name: &str| start[name].as_str().unwrap_or_default().to_owned();
            assert_eq!(
                [words("stance"), words("surface"), words("support"), words("second_task")],
                [
                    step.stance.to_string(),
                    step.surface.to_string(),
                    step.support.to_string(),
                    step.second_task.map(|task| task.to_string()).unwrap_or_default()
                ],
                "{start}"
            );
            sets += 1;
        }
    }
    assert_eq!(sets, 103);
}
