//! Is every hazard in `docs/safety.md` held back by something that is there, by a test that runs, and by a mutant that the
//! test kills? The page, the code and `tests/data/mutants.toml` are kept in step here. Whether each test fails with its
//! mutant in place takes a build for each: `scripts/controls.py` does that.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use syn::visit::{self, Visit};

/// The hazards that must stand on the page, by words that their row has.
const MUST: [&str; 15] = [
    "somebody else's journal",
    "too hard a step",
    "fall backward",
    "eyes closed without support",
    "startle",
    "wrong direction",
    "pause or a question that never ends",
    "a lock that gets lost",
    "limit that was edited",
    "wrong file",
    "distraction by the screen",
    "hearing too poor",
    "sight too poor",
    "practice while ill",
    "killed",
];

struct Row {
    hazard: String,
    control: String,
    places: Vec<String>,
    tests: Vec<(String, String)>,
    /// Of each mutant the file and what is so with it in place.
    mutants: Vec<(String, String)>,
}

/// A small change to the code that takes a control away, or a part of it.
struct Mutant {
    control: String,
    file: String,
    says: String,
    find: String,
    replace: String,
    test: String,
}

fn mutants(text: &str) -> Vec<Mutant> {
    let table: toml::Table = text.parse().unwrap();
    let mutant = |entry: &toml::Value| {
        let field = |name: &str| entry[name].as_str().unwrap_or_else(|| panic!("{name}: {entry}")).to_owned();
        assert_eq!(entry.as_table().map(toml::Table::len), Some(6), "nothing else: {entry}");
        Mutant {
            control: field("control"),
            file: field("file"),
            says: field("says"),
            find: field("find"),
            replace: field("replace"),
            test: field("test"),
        }
    };
    assert_eq!(table.keys().collect::<Vec<_>>(), ["mutant"]);
    table["mutant"].as_array().unwrap().iter().map(mutant).collect()
}

/// What stands between backticks.
fn quoted(cell: &str) -> Vec<String> {
    cell.split('`').skip(1).step_by(2).map(str::to_owned).collect()
}

fn rows(page: &str) -> Vec<Row> {
    let is_row =
        |line: &&str| line.starts_with("| ") && !line.starts_with("| hazard") && !line.starts_with("| ---");
    let row = |line: &str| {
        let cells: Vec<&str> = line.trim_matches('|').split(" | ").map(str::trim).collect();
        let [hazard, control, places, tests, mutants] = cells[..] else {
            panic!("a row has five cells: {line}")
        };
        let in_files = |cell: &str| {
            let each = cell.split("; ").map(|part| {
                let (file, said) =
                    part.split_once("`: ").unwrap_or_else(|| panic!("`file`: name, not {part}"));
                (file.trim_start_matches('`').to_owned(), said.trim().to_owned())
            });
            each.collect()
        };
        Row {
            hazard: hazard.to_owned(),
            control: control.to_owned(),
            places: quoted(places),
            tests: in_files(tests),
            mutants: in_files(mutants),
        }
    };
    page.lines().filter(is_row).map(row).collect()
}

/// The tests of a file: functions marked as tests and not as ignored, those inside a `proptest!` too.
#[derive(Default)]
struct Tests(BTreeSet<String>);

impl<'ast> Visit<'ast> for Tests {
    fn visit_item_fn(&mut self, function: &'ast syn::ItemFn) {
        let has = |name| function.attrs.iter().any(|attribute| attribute.path().is_ident(name));
        if has("test") && !has("ignore") {
            self.0.insert(function.sig.ident.to_string());
        }
        visit::visit_item_fn(self, function);
    }

    fn visit_macro(&mut self, called: &'ast syn::Macro) {
        if called.path.is_ident("proptest") {
            let words: Vec<String> =
                called.tokens.clone().into_iter().map(|token| token.to_string()).collect();
            let marked =
                words.windows(4).filter(|four| four[0] == "#" && four[1] == "[test]" && four[2] == "fn");
            self.0.extend(marked.map(|four| four[3].clone()));
        }
    }
}

fn tests_of(source: &str) -> BTreeSet<String> {
    let mut tests = Tests::default();
    tests.visit_file(&syn::parse_file(source).unwrap());
    tests.0
}

/// What the program of tests consists of.
const MODULES: &str = include_str!("main.rs");

/// Whether `cargo test` builds this file, if it is one of `tests/`: those there by themselves, those of `tests/program/` as
/// modules. Whether a file of a crate is built is not looked at here.
fn is_built(file: &str) -> bool {
    let Some(inner) = file.strip_prefix("tests/") else { return true };
    match inner.strip_prefix("program/") {
        Some(module) => {
            let line = format!("mod {};", module.trim_end_matches(".rs"));
            MODULES.lines().any(|other| other == line)
        }
        None => !inner.contains('/'),
    }
}

/// Everything that is wrong with the page and its mutants, in words.
fn faults(page: &str, planted: &str, root: &Path) -> Vec<String> {
    let mut faults = Vec::new();
    let planted = mutants(planted);
    let rows = rows(page);
    for lost in planted.iter().filter(|mutant| rows.iter().all(|row| row.hazard != mutant.control)) {
        faults.push(format!("{}: a mutant of no row", lost.control));
    }
    for Row { hazard, control, places, tests, mutants } in rows {
        let here = planted.iter().filter(|mutant| mutant.control == hazard);
        let listed: Vec<_> = here.clone().map(|mutant| (mutant.file.clone(), mutant.says.clone())).collect();
        if listed != mutants {
            faults.push(format!("{hazard}: the row has the mutants {mutants:?}, the file {listed:?}"));
        }
        for Mutant { file, says, find, replace, test, .. } in here {
            let times = fs::read_to_string(root.join(file)).map_or(0, |text| text.matches(find).count());
            if times != 1 {
                faults.push(format!("{hazard}: {file} has the text of \"{says}\" {times} times, not once"));
            }
            if find == replace {
                faults.push(format!("{hazard}: \"{says}\" changes nothing"));
            }
            if !places.contains(file) {
                faults.push(format!("{hazard}: the control is not said to live in {file}"));
            }
            if tests.iter().all(|(_, name)| name != test) {
                faults.push(format!("{hazard}: {test} is not one of its tests"));
            }
        }
        if control.is_empty() || places.is_empty() {
            faults.push(format!("{hazard}: no control, or nowhere"));
        }
        for place in places.iter().filter(|place| !root.join(place).is_file()) {
            faults.push(format!("{hazard}: there is no {place}"));
        }
        for (file, name) in tests {
            match fs::read_to_string(root.join(&file)) {
                Ok(_) if !is_built(&file) => faults.push(format!("{hazard}: nobody runs {file}")),
                Ok(source) if tests_of(&source).contains(&name) => {}
                Ok(_) => faults.push(format!("{hazard}: {file} has no test {name}")),
                Err(_) => faults.push(format!("{hazard}: there is no {file}")),
            }
        }
    }
    faults
}

const PAGE: &str = include_str!("../../docs/safety.md");
const MUTANTS: &str = include_str!("../data/mutants.toml");

#[test]
fn every_hazard_has_a_control_that_is_there_and_a_test_that_runs() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let faults = faults(PAGE, MUTANTS, root);
    assert!(faults.is_empty(), "{faults:#?}");
    assert!(rows(PAGE).len() >= 40);
    assert!(mutants(MUTANTS).len() >= rows(PAGE).len());
}

#[test]
fn no_file_of_tests_is_left_out() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/program");
    let mut files: Vec<String> = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    files.retain(|file| file != "main.rs");
    for file in &files {
        assert!(is_built(&format!("tests/program/{file}")), "{file} is no module of main.rs: nobody runs it");
    }
    assert!(files.len() > 15 && !is_built("tests/program/spare.rs") && !is_built("tests/history/lived.rs"));
}

#[test]
fn no_hazard_that_must_be_looked_at_is_missing() {
    let hazards: Vec<String> = rows(PAGE).into_iter().map(|row| row.hazard).collect();
    for must in MUST {
        assert!(hazards.iter().any(|hazard| hazard.contains(must)), "{must}");
    }
}

/// One row and its mutant, as they should be.
const ROW: &str = "| a hazard | a control | `core/src/health/lock.rs` | `core/src/health/bounds/test.rs`: \
                   every_row_of_the_rule_for_tests | `core/src/health/lock.rs`: chest pain is none |\n";
const MUTANT: &str = "[[mutant]]\ncontrol = 'a hazard'\nfile = 'core/src/health/lock.rs'\nsays = 'chest pain is none'\n\
                      find = 'Self::Breath | Self::Nerve)'\nreplace = 'Self::Breath)'\n\
                      test = 'every_row_of_the_rule_for_tests'\n";

#[test]
fn a_page_that_is_out_of_step_is_found_out() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    assert!(faults(ROW, MUTANT, root).is_empty());
    let (place, test) = (
        "| `core/src/health/lock.rs` |",
        "`core/src/health/bounds/test.rs`: every_row_of_the_rule_for_tests",
    );
    let two_places = "| `core/src/health/lock.rs`, `src/lok.rs` |";
    for (from, to) in [
        (place, two_places),
        ("| a control |", "|  |"),
        (test, &format!("{test}; `core/src/health/bounds/test.rs`: every_row_of_the_rule_for_test")),
        (test, &format!("{test}; `src/bound.rs`: every_row_of_the_rule_for_tests")),
        // It is there, but it is not run by itself.
        (test, &format!("{test}; `src/journal/test.rs`: child_that_is_killed")),
        // A function, but no test.
        (test, &format!("{test}; `core/src/health/bounds/test.rs`: most")),
    ] {
        let bad = ROW.replace(from, to);
        assert_ne!(bad, ROW, "{from}");
        assert_eq!(faults(&bad, MUTANT, root).len(), 1, "{bad}");
    }
}

#[test]
fn a_mutant_that_is_out_of_step_is_found_out() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    for (from, to, expected) in [
        ("'a hazard'", "'another'", 2),
        ("says = 'chest pain is none'", "says = 'chest pain is one'", 1),
        // What it changes is gone, is there more than once, or stays as it is.
        ("Self::Nerve)", "Self::Heart)", 1),
        ("Self::Breath | Self::Nerve)", "Self::", 1),
        ("'Self::Breath)'", "'Self::Breath | Self::Nerve)'", 1),
        // It changes another file than the one in which the control lives, and so says the row.
        ("file = 'core/src/health/lock.rs'", "file = 'core/src/health/lok.rs'", 3),
        ("test = 'every_row_of_the_rule_for_tests'", "test = 'both_is_never_wider_than_either'", 1),
    ] {
        let bad = MUTANT.replace(from, to);
        assert_ne!(bad, MUTANT, "{from}");
        let found = faults(ROW, &bad, root);
        assert_eq!(found.len(), expected, "{bad}{found:#?}");
    }
    assert_eq!(faults(ROW, "mutant = []", root).len(), 1, "a row without one");
}
