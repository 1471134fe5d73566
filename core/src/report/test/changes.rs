//! A program that came into use in the place of another one stands at the top of the next report.

use super::{material, nov, report_of, said};
use crate::course::past::sample::prescription;
use crate::plan::prescription::{Digest, Prescription, Seal};
use crate::report::{Material, Program, ProgramChange};

fn read(text: &str) -> Prescription {
    Prescription::read("test.toml", text.as_bytes()).unwrap()
}

/// The gentle program of somebody, with this replaced.
fn program(title: &str, from: &str, to: &str) -> Prescription {
    let text = Prescription::ready_text("gentle").unwrap().replace(from, to);
    assert!(text.contains(to));
    let title = format!("title = \"{title}\"");
    read(
        &text
            .replace("title = \"Gentle start at the counter\"", &title)
            .replace("issued_by = \"\"", "issued_by = \"K. L.\""),
    )
}

fn used(day: i8, prescription: &Prescription, seal: Seal) -> Program {
    let source = format!("{}.toml", prescription.title());
    let (digest, kept) = (prescription.digest(), Some((prescription.clone(), seal)));
    Program { day: nov(day), source, digest, kept }
}

fn changes(programs: Vec<Program>, in_use: &Prescription, since: i8, until: i8) -> Vec<ProgramChange> {
    let material = Material { programs, ..material(Vec::new()) };
    report_of(&material, in_use, nov(since), nov(until)).program_changes
}

#[test]
fn a_change_says_what_is_harder_or_easier_who_issued_it_and_when() {
    let (a, b) = (
        program("A", "days_a_week = 3", "days_a_week = 2"),
        program("B", "days_a_week = 3", "days_a_week = 4"),
    );
    let both = vec![used(3, &a, Seal::Whole), used(9, &b, Seal::Whole)];
    let found = changes(both.clone(), &b, 1, 30);
    let words: Vec<String> =
        found.iter().map(|one| format!("{}: {}", one.day_words(), one.words())).collect();
    assert_eq!(
        words,
        [
            "2026-11-03: \"A\" (A.toml; issued by K. L., sealed), the first.",
            "2026-11-09: \"B\" (B.toml; issued by K. L., sealed) instead of \"A\". Harder: 4 days a week; the one \
             before has 2.",
        ]
    );
    let back = changes(vec![used(3, &b, Seal::Whole), used(9, &a, Seal::Broken)], &a, 1, 30);
    assert_eq!(
        back[1].words(),
        "\"A\" (A.toml; issued by K. L., not sealed) instead of \"B\". Easier: the one before has 4 days a week; the one \
         since has 2."
    );
    assert_eq!((back[1].harder.as_deref(), back[1].is_sealed), (None, Some(false)));
    // Its place: right after the falls, before everything else.
    let report = report_of(&Material { programs: both, ..material(Vec::new()) }, &b, nov(1), nov(30));
    let text = said(&report);
    let place = |words: &str| text.find(words).unwrap_or_else(|| panic!("{words}: {text}"));
    assert!(place("Falls, grabs") < place("Program changed: 2026-11-09: \"B\""), "{text}");
    assert_eq!(text.lines().nth(1).map(|line| line.starts_with("Program changed: ")), Some(true), "{text}");
}

#[test]
fn the_last_change_before_the_period_stands_in_it_and_the_same_file_again_is_no_change() {
    let (a, b) = (program("A", "weeks = 12", "weeks = 10"), program("B", "weeks = 12", "weeks = 11"));
    let all = vec![
        used(2, &a, Seal::None),
        used(5, &b, Seal::None),
        used(6, &b, Seal::None),
        used(20, &a, Seal::None),
    ];
    let days = |since, until| -> Vec<i8> {
        let found = changes(all.clone(), &a, since, until);
        found.iter().map(|one| one.day.unwrap().day()).collect()
    };
    assert_eq!(days(1, 30), [2, 5, 20]);
    assert_eq!(days(10, 30), [5, 20]);
    assert_eq!(days(21, 30), [20]);
    assert_eq!(days(10, 15), [5]);
}

#[test]
fn a_file_that_was_changed_without_use_is_a_change_and_one_without_its_text_is_not_called_easier() {
    let a = program("A", "days_a_week = 3", "days_a_week = 2");
    let edited = program("A", "days_a_week = 3", "days_a_week = 6");
    let found = changes(vec![used(3, &a, Seal::Whole)], &edited, 1, 30);
    let last = found.last().unwrap();
    assert_eq!((last.day, last.source.as_str()), (None, "the file was changed without \"use\""));
    assert_eq!(last.harder.as_deref(), Some("6 days a week; the one before has 2"));
    assert_eq!(last.before, Some(a.digest().to_string()));
    let without_text =
        Program { day: nov(4), source: "b.toml".to_owned(), digest: Digest::of(b"b"), kept: None };
    let found = changes(vec![used(3, &a, Seal::Whole), without_text, used(5, &a, Seal::Whole)], &a, 1, 30);
    assert!(
        found[1].words().ends_with("instead of \"A\". Not known whether it is harder."),
        "{}",
        found[1].words()
    );
    assert!(!found[1].is_compared && !found[2].is_compared && found[2].before_title.is_none());
    assert!(changes(Vec::new(), &prescription(), 1, 30).is_empty(), "nothing was put to use");
}
