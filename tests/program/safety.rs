//! Is every hazard in `docs/safety.md` held back by something that is there, and by a test that runs? The page and the
//! code are kept in step here. Whether a test fails without its control is for whoever changes either to see.

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
        let [hazard, control, places, tests] = cells[..] else { panic!("a row has four cells: {line}") };
        let tests = tests.split("; ").map(|test| {
            let (file, name) = test.split_once("`: ").unwrap_or_else(|| panic!("`file`: name, not {test}"));
            (file.trim_start_matches('`').to_owned(), name.trim().to_owned())
        });
        Row {
            hazard: hazard.to_owned(),
            control: control.to_owned(),
            places: quoted(places),
            tests: tests.collect(),
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

/// Everything that is wrong with the page, in words.
fn faults(page: &str, root: &Path) -> Vec<String> {
    let mut faults = Vec::new();
    for Row { hazard, control, places, tests } in rows(page) {
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

#[test]
fn every_hazard_has_a_control_that_is_there_and_a_test_that_runs() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let faults = faults(PAGE, root);
    assert!(faults.is_empty(), "{faults:#?}");
    assert!(rows(PAGE).len() >= 40);
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

#[test]
fn a_page_that_is_out_of_step_is_found_out() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let row = |place: &str, test: &str| format!("| a hazard | a control | {place} | {test} |\n");
    let good =
        row("`core/src/health/lock.rs`", "`core/src/health/bounds.rs`: every_row_of_the_rule_for_tests");
    assert!(faults(&good, root).is_empty());
    for bad in [
        row("`src/lok.rs`", "`core/src/health/bounds.rs`: every_row_of_the_rule_for_tests"),
        row("", "`core/src/health/bounds.rs`: every_row_of_the_rule_for_tests"),
        row("`core/src/health/lock.rs`", "`core/src/health/bounds.rs`: every_row_of_the_rule_for_test"),
        row("`core/src/health/lock.rs`", "`src/bound.rs`: every_row_of_the_rule_for_tests"),
        // It is there, but it is not run by itself.
        row("`core/src/health/lock.rs`", "`src/journal/test.rs`: child_that_is_killed"),
        // A function, but no test.
        row("`core/src/health/lock.rs`", "`core/src/health/bounds.rs`: most"),
    ] {
        assert_eq!(faults(&bad, root).len(), 1, "{bad}");
    }
}
