//! Does the README promise only what is so? Its commands are run in an empty folder, and its figures are compared with the
//! program's own.

use std::fs;
use std::path::Path;

use counterpoise_core::health::assessment::RETEST_WEEKS;
use counterpoise_core::plan::prescription::{Prescription, UnlockName};
use counterpoise_core::practice::session::LOOK_UP;

use crate::history;
use crate::run::run_with;

const README: &str = include_str!("../../README.md");

/// Commands that are run another way here, and why.
const OTHERWISE: [(&str, &str, &str); 5] = [
    ("practice --gentler", "practice --gentler --plain --silent", "without a terminal and sound"),
    (
        "practice with-a-partner --partner screen",
        "practice with-a-partner --partner screen --plain --silent",
        "without a terminal and sound",
    ),
    ("assess", "assess --plain --silent", "without a terminal and sound"),
    ("audit typical", "audit typical --cues 1000", "fewer calls for its learners, for time"),
    ("setup", "setup --silent", "without sound"),
];

/// Commands that ask before they do anything: without an answer they refuse, and say what was not done.
const ASKING: [&str; 6] = [
    "setup",
    "suitability",
    "prescribe",
    "journal correct",
    "assess",
    "practice with-a-partner --partner screen",
];

/// Commands that are not run here, and why.
const NOT_RUN: [(&str, &str); 2] = [
    ("sh scripts/needs.sh && cargo run --release", "it builds the program: `.ci/run` runs it"),
    ("sh scripts/needs.sh && cargo test", "it runs these tests: `.ci/run` runs it"),
];

/// The lines of the blocks of commands, without what is said about them.
fn commands() -> Vec<&'static str> {
    let blocks = README.split("```sh\n").skip(1).map(|rest| rest.split("```").next().unwrap());
    blocks.flat_map(str::lines).map(|line| line.split(" #").next().unwrap().trim()).collect()
}

#[test]
fn every_command_of_the_readme_does_what_it_is_said_to_do() {
    let place = tempfile::tempdir().unwrap();
    let folder = place.path();
    fs::write(folder.join("my-prescription.toml"), include_str!("../../presets/prescriptions/gentle.toml"))
        .unwrap();
    let history =
        history::History { number: 2, first: jiff::civil::date(2026, 1, 5), sessions: 3, pushes: false }
            .export();
    fs::write(folder.join("history.json"), history.to_string()).unwrap();
    assert!(run_with(folder, &["journal", "import", "history.json"], "").status.success());
    fs::create_dir(folder.join("clinic")).unwrap();
    fs::copy(folder.join("history.json"), folder.join("clinic/somebody.json")).unwrap();
    let mut run = 0;
    for line in commands() {
        if NOT_RUN.iter().any(|(command, _)| *command == line) {
            continue;
        }
        let command = line
            .strip_prefix("counterpoise ")
            .unwrap_or_else(|| panic!("not a command of the program: {line}"));
        let other = OTHERWISE.iter().find(|(written, ..)| *written == command);
        let arguments: Vec<&str> = other.map_or(command, |(_, run, _)| run).split_whitespace().collect();
        let output = run_with(folder, &arguments, "");
        let errors = String::from_utf8_lossy(&output.stderr).into_owned();
        if ASKING.contains(&command) {
            assert_eq!(output.status.code(), Some(1), "{line}: {errors}");
            assert!(errors.contains("nothing was") || errors.contains("not saved"), "{line}: {errors}");
        } else {
            assert_eq!(output.status.code(), Some(0), "{line}: {errors}");
            assert!(!output.stdout.is_empty(), "{line}");
        }
        run += 1;
    }
    assert!(run > 20, "{run} commands");
    assert!(folder.join("week.wav").exists(), "the track");
}

#[test]
fn the_figures_of_the_readme_are_those_of_the_program() {
    let says = |text: &str| {
        let flat = README.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(flat.contains(text), "the README does not say \"{text}\"");
    };
    let manifest: toml::Table = include_str!("../../Cargo.toml").parse().unwrap();
    let version = manifest["workspace"]["package"]["rust-version"].as_str().unwrap();
    says(&format!("Rust {} or later", version.trim_end_matches(".0")));
    says(&format!("every {RETEST_WEEKS} weeks"));
    assert_eq!(LOOK_UP.0, 2_000);
    says("Two seconds before the moment it says LOOK UP");
    // Held by tests of the rules: `core/src/course/progression/test.rs`.
    says("only after two clean sessions");
    says("held for 48 hours");
    says("No ready prescription has one");
    for (name, ready) in Prescription::all_ready() {
        assert!(UnlockName::ALL.iter().all(|unlock| !ready.unlocks_name(*unlock)), "{name}");
    }
    let picture = README.split("```text\n").nth(1).unwrap().split("```").next().unwrap();
    says("This is a terminal of 80 columns and 24 lines");
    assert!(
        picture.lines().count() <= 24 && picture.lines().all(|line| line.chars().count() <= 80),
        "{picture}"
    );
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let named = README.split('`').skip(1).step_by(2).filter(|name| {
        name.starts_with("docs/") || Path::new(name).extension().is_some_and(|kind| kind == "md")
    });
    let mut seen = 0;
    for file in named {
        assert!(root.join(file).is_file(), "there is no {file}");
        seen += 1;
    }
    assert!(seen > 10, "{seen} files");
}

/// What was promised once and is not so.
#[test]
fn what_is_not_so_is_said_nowhere() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut pages = vec![root.join("README.md")];
    pages.extend(fs::read_dir(root.join("docs")).unwrap().map(|entry| entry.unwrap().path()));
    for page in pages {
        let text = fs::read_to_string(&page).unwrap().split_whitespace().collect::<Vec<_>>().join(" ");
        for claim in
            ["journal holds no name", "same practice as a sound file", "use two folders", "name is not kept"]
        {
            assert!(!text.contains(claim), "{}: {claim}", page.display());
        }
    }
    let place = tempfile::tempdir().unwrap();
    for drill in ["following", "catching", "pushes"] {
        let shown = run_with(place.path(), &["drills", "show", drill], "");
        let text = String::from_utf8(shown.stdout).unwrap();
        let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
        let calls = text.split("Calls: ").nth(1).unwrap().split(". ").next().unwrap();
        let mut each: Vec<&str> = calls.split(if calls.contains(';') { "; " } else { ", " }).collect();
        let count = each.len();
        each.sort_unstable();
        each.dedup();
        assert_eq!(each.len(), count, "{drill}: {calls}");
    }
}
