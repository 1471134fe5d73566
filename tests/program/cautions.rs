//! Does every command, in every form, carry the cautions that apply to it? The table below has each command that clap knows
//! with each of its formats; a command or a form that is in neither list is a failure.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use clap::CommandFactory;
use serde_json::Value;

use counterpoise::cli::Cli;
use counterpoise_core::plan::prescription::Seal;

use self::Lands::{Bundle, Errors, File, Json, Jsons, Page};
use self::Needed::{Clinician, Deferral, NoPromise, StopList};
use crate::history;
use crate::run::{PARTNER_SUITS, lines, run_with};

/// A caution, by words that its short and its long form have.
#[derive(Debug, Clone, Copy)]
enum Needed {
    Deferral,
    NoPromise,
    StopList,
    Clinician,
}

impl Needed {
    fn words(self) -> &'static str {
        match self {
            Deferral => {
                "local codes, the local emergency number, your therapist's advice and licensed practice come first"
            }
            NoPromise => "nothing here promises to prevent falls",
            StopList => "stop at once for chest pain",
            Clinician => "see a clinician first",
        }
    }
}

/// What is missing in homes.
const NO_TRIAL: &str = "no trial of it at home without a harness was found";

/// Where somebody practices, or decides what is practiced.
const ALL: &[Needed] = &[Deferral, NoPromise, StopList, Clinician];
/// Where somebody reads what was done.
const READ: &[Needed] = &[Deferral, NoPromise];

/// Where the cautions are.
#[derive(Debug, Clone, Copy)]
enum Lands {
    /// Among what is printed for people.
    Page,
    /// In the field `cautions` of an object.
    Json,
    /// In that of every object of a list.
    Jsons,
    /// In a note of a bundle.
    Bundle,
    /// On standard error, and never in the rows.
    Errors,
    /// In this file.
    File(&'static str),
}

struct Row {
    command: &'static str,
    form: &'static str,
    arguments: &'static str,
    typed: &'static [&'static str],
    needed: &'static [Needed],
    lands: Lands,
    /// Whether it is about the prescription in use, so that the missing evidence belongs there too.
    about: bool,
}

const fn row(
    command: &'static str,
    form: &'static str,
    arguments: &'static str,
    needed: &'static [Needed],
    lands: Lands,
) -> Row {
    Row { command, form, arguments, typed: &[], needed, lands, about: false }
}

const fn about(
    command: &'static str,
    form: &'static str,
    arguments: &'static str,
    needed: &'static [Needed],
    lands: Lands,
) -> Row {
    Row { command, form, arguments, typed: &[], needed, lands, about: true }
}

const ROWS: &[Row] = &[
    Row { typed: &["", "", "", "", "", ""], ..about("practice", "", "practice --plain --silent", ALL, Page) },
    row("setup", "", "setup --silent", ALL, Page),
    about("next", "text", "next", ALL, Page),
    about("next", "json", "next --format json", ALL, Json),
    about("program", "text", "program", ALL, Page),
    about("program", "json", "program --format json", ALL, Json),
    row("suitability", "", "suitability", ALL, Page),
    row("assess", "", "assess --plain --silent", ALL, Page),
    row("assess score", "text", "assess score one-leg --result 8", ALL, Page),
    row("assess score", "json", "assess score one-leg --result 8 --format json", ALL, Json),
    row("assess results", "text", "assess results", ALL, Page),
    row("assess results", "json", "assess results --format json", ALL, Json),
    about("progress", "", "progress", ALL, Page),
    about("sheet", "", "sheet --out sheet.html", ALL, File("sheet.html")),
    about("report", "text", "report", READ, Page),
    about("report", "text", "report --whole", READ, Page),
    about("report", "html", "report --format html", READ, Page),
    about("report", "json", "report --format json", READ, Json),
    about("report", "csv", "report --format csv", READ, Errors),
    about("report", "fhir", "report --format fhir", READ, Bundle),
    row("report", "text", "report --folder .", READ, Page),
    row("report", "html", "report --folder . --format html", READ, Page),
    row("report", "json", "report --folder . --format json", READ, Json),
    row("report", "csv", "report --folder . --format csv", READ, Errors),
    about("check", "text", "check", ALL, Page),
    about("check", "text", "check --handout", ALL, Page),
    about("check", "json", "check --format json", ALL, Json),
    about("audit", "text", "audit --cues 1000", READ, Page),
    about("audit", "json", "audit --cues 1000 --format json", READ, Json),
    about("audit", "html", "audit --cues 1000 --format html", READ, Page),
    row("prescribe", "", "prescribe", ALL, Page),
    about("prescribe", "", "prescribe --try --from mine.toml", ALL, Page),
    row("presets", "text", "presets", ALL, Page),
    row("presets", "json", "presets --format json", ALL, Json),
    row("drills", "text", "drills", ALL, Page),
    row("drills", "json", "drills --format json", ALL, Json),
    row("drills show", "", "drills show counter-reach", ALL, Page),
    about("preview", "text", "preview", ALL, Page),
    about("preview", "json", "preview --format json", ALL, Json),
    about("preview", "json", "preview --sessions 2 --format json", ALL, Jsons),
    row("track", "", "track gentle --out track.wav --cue-sheet track.json", ALL, Page),
    row("track", "", "track gentle --out other.wav --cue-sheet other.json", ALL, File("other.json")),
    row("track", "", "track gentle --out tracks --count 1", ALL, File("tracks/list.txt")),
    about("use", "", "use mine.toml", ALL, Page),
    row("journal list", "", "journal list", READ, Page),
    row("journal show", "", "journal show", READ, Page),
    row("journal export", "json", "journal export", READ, Errors),
    row("journal export", "sessions", "journal export --format sessions", READ, Errors),
    row("journal export", "csv", "journal export --format csv", READ, Errors),
    row("journal import", "", "journal import history.json --same-person", READ, Page),
    row("journal add", "", "journal add", READ, Page),
    row("journal correct", "", "journal correct last --set-aside --reason other", READ, Page),
    row("clear", "", "clear --by K --reason seen", ALL, Page),
];

/// Where nobody acts or decides about practice.
const WITHOUT: [(&str, &str); 4] = [
    ("equipment", "it says what the computer offers"),
    ("completions", "a script for a shell"),
    ("man", "the texts of --help, as files"),
    ("journal erase", "after it nothing is left to decide about"),
];

/// Every command with each of its formats, as clap knows them.
fn known() -> BTreeSet<(String, String)> {
    let mut found = BTreeSet::new();
    let mut waiting: Vec<(String, clap::Command)> = Cli::command()
        .get_subcommands()
        .map(|command| (command.get_name().to_owned(), command.clone()))
        .collect();
    while let Some((path, command)) = waiting.pop() {
        let below = command.get_subcommands();
        waiting.extend(below.map(|inner| (format!("{path} {}", inner.get_name()), inner.clone())));
        if command.is_subcommand_required_set() {
            continue;
        }
        let format = command.get_arguments().find(|argument| argument.get_id() == "format");
        let values = format.map(clap::Arg::get_possible_values).unwrap_or_default();
        let mut forms: Vec<String> = values.iter().map(|value| value.get_name().to_owned()).collect();
        if forms.is_empty() {
            forms.push(String::new());
        }
        found.extend(forms.into_iter().map(|form| (path.clone(), form)));
    }
    found
}

#[test]
fn every_command_and_form_is_in_the_table() {
    let listed: BTreeSet<(String, String)> =
        ROWS.iter().map(|row| (row.command.to_owned(), row.form.to_owned())).collect();
    let without = |path: &str| WITHOUT.iter().any(|(name, _)| *name == path);
    let known = known();
    let missing: Vec<_> = known.iter().filter(|pair| !listed.contains(*pair) && !without(&pair.0)).collect();
    assert!(missing.is_empty(), "in neither list: {missing:?}");
    let gone: Vec<_> = listed.iter().filter(|pair| !known.contains(*pair)).collect();
    assert!(gone.is_empty(), "no such command: {gone:?}");
    for (name, why) in WITHOUT {
        assert!(known.iter().any(|(path, _)| path == name) && !why.is_empty(), "{name}");
    }
}

/// A folder with a prescription of pushes in use, or without one; and an invented history with a lock.
fn home(pushes: bool) -> tempfile::TempDir {
    let place = tempfile::tempdir().unwrap();
    let mut history =
        history::History { number: 3, first: jiff::civil::date(2026, 1, 5), sessions: 3, pushes: false }
            .export();
    history["sessions"][2]["ready"] = serde_json::json!([{ "item": "not fainted", "is_true": false }]);
    fs::write(place.path().join("history.json"), history.to_string()).unwrap();
    let text = if pushes {
        include_str!("../data/pushes.toml")
    } else {
        include_str!("../../presets/prescriptions/gentle.toml")
    };
    fs::write(place.path().join("mine.toml"), Seal::append(text)).unwrap();
    place
}

fn flat(bytes: &[u8]) -> String {
    let text = String::from_utf8_lossy(bytes).replace("&#39;", "'").replace("&#x27;", "'");
    text.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase()
}

/// The texts in which the cautions of a row have to be, one for each that must have them all.
fn texts(row: &Row, place: &Path) -> Vec<String> {
    let arguments: Vec<&str> = row.arguments.split_whitespace().collect();
    let output = run_with(place, &arguments, &lines(row.typed));
    let errors = String::from_utf8_lossy(&output.stderr);
    let json = || -> Value {
        serde_json::from_slice(&output.stdout)
            .unwrap_or_else(|error| panic!("{}: {error}: {errors}", row.arguments))
    };
    let cautions = |value: &Value| {
        flat(
            value["cautions"]
                .as_array()
                .unwrap_or_else(|| panic!("{}: {value}", row.arguments))
                .iter()
                .map(|text| text.as_str().unwrap())
                .collect::<Vec<_>>()
                .join(" ")
                .as_bytes(),
        )
    };
    match row.lands {
        Page => vec![flat(&output.stdout)],
        Json => vec![cautions(&json())],
        Jsons => {
            let list = json();
            let list = list.as_array().unwrap();
            assert_eq!(list.len(), 2, "{}", row.arguments);
            list.iter().map(cautions).collect()
        }
        Bundle => {
            let bundle = json();
            let resources = bundle["entry"].as_array().unwrap().iter().map(|entry| &entry["resource"]);
            let notes: Vec<String> = resources
                .filter(|one| one["resourceType"] == "List")
                .flat_map(|one| one["note"].as_array().unwrap().clone())
                .map(|note| note["text"].as_str().unwrap().to_owned())
                .collect();
            vec![flat(notes.join(" ").as_bytes())]
        }
        Errors => {
            let rows = flat(&output.stdout);
            assert!(
                !rows.is_empty() && READ.iter().all(|one| !rows.contains(one.words())),
                "{}",
                row.arguments
            );
            vec![flat(&output.stderr)]
        }
        File(name) => {
            vec![flat(
                &fs::read(place.join(name))
                    .unwrap_or_else(|error| panic!("{}: {error}: {errors}", row.arguments)),
            )]
        }
    }
}

fn holds(row: &Row, place: &Path, evidence: bool) {
    for text in texts(row, place) {
        for needed in row.needed {
            assert!(text.contains(needed.words()), "{}: no {needed:?} in: {text}", row.arguments);
        }
        assert_eq!(evidence, text.contains(NO_TRIAL), "{}: the missing evidence: {text}", row.arguments);
    }
}

#[test]
fn every_command_in_every_form_carries_what_applies_to_it() {
    let place = home(false);
    for row in ROWS {
        // What is about drills of every kind says it for those that need an unlock.
        let general = ["drills", "prescribe"].contains(&row.command) && !row.about;
        holds(row, place.path(), general);
    }
}

#[test]
fn where_pushes_are_unlocked_the_missing_evidence_is_said() {
    let place = home(true);
    let used = run_with(place.path(), &["use", "mine.toml"], "");
    assert!(used.status.success(), "{}", String::from_utf8_lossy(&used.stderr));
    for row in ROWS.iter().filter(|row| row.about) {
        let text = row.arguments.replace("practice --plain", "practice --partner screen --plain");
        // Whether the partner suits is asked first.
        let before: &[&str] = if text == row.arguments { &[] } else { &PARTNER_SUITS };
        let typed = [before, row.typed].concat().leak();
        let row = Row { arguments: text.leak(), typed, ..*row };
        holds(&row, place.path(), true);
    }
}

#[test]
fn the_first_page_about_the_program_carries_them_all() {
    let page = flat(include_bytes!("../../README.md")).replace("**", "");
    for needed in ALL {
        assert!(page.contains(needed.words()), "{needed:?}");
    }
    assert!(page.contains(NO_TRIAL));
}
