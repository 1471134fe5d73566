//! Can a person of twelve read what is asked: whether to practice, at set-up, after sets, once a week? Each is measured by the Flesch-Kincaid grade level: 0.39 words a sentence + 11.8 syllables a word - 15.59 (Kincaid, Fishburne, Rogers
//! and Chissom, "Derivation of New Readability Formulas", Research Branch Report 8-75, 1975). A grade of 6 to 7 is read at
//! 11 to 13 in the United States.
//!
//! Syllables are those of the CMU Pronouncing Dictionary (its vowel sounds, counted), in `tests/data/syllables.txt`. What
//! the dictionary does not have is marked there. The formula knows nothing of whether a word is known: that is for people
//! to judge.

use std::collections::BTreeMap;
use std::io::Write;
use std::process::{Command, Stdio};

use counterpoise_core::health::readiness::{Contact, Item, Page, Reason, Today, Verdict};
use counterpoise_core::health::suitability::{AGREED, NEW_OR_WORSE, Topic};
use counterpoise_core::plan::caution::{self, Contents, Surface};
use counterpoise_core::practice::session::question_lines;
use counterpoise_core::record::Question;

/// Twelve years old.
const TARGET: f64 = 7.0;
fn syllables() -> BTreeMap<&'static str, u32> {
    let table = include_str!("../data/syllables.txt").lines().filter(|line| !line.starts_with('#'));
    let row = |line: &'static str| {
        let mut cells = line.split_whitespace();
        (cells.next().unwrap(), cells.next().unwrap().parse().unwrap())
    };
    table.map(row).collect()
}

fn words(text: &str) -> impl Iterator<Item = String> {
    let inner = |c: char| !(c.is_alphanumeric() || c == '\'');
    text.split(inner).filter(|word| !word.is_empty()).map(str::to_lowercase)
}

/// How many sentences: a colon or a full stop between words ends one; that in "1.5" does not.
fn sentences(text: &str) -> usize {
    let ends = text.char_indices().filter(|(at, sign)| {
        matches!(sign, '.' | '?' | '!' | ':') && text[at + 1..].chars().next().is_none_or(char::is_whitespace)
    });
    ends.count().max(1)
}

fn grade(text: &str, table: &BTreeMap<&str, u32>) -> f64 {
    let all: Vec<String> = words(text).collect();
    let count = |word: &String| {
        *table
            .get(word.as_str())
            .unwrap_or_else(|| panic!("tests/data/syllables.txt does not have \"{word}\" of {text:?}"))
    };
    let (sentences, total) = (sentences(text) as f64, f64::from(all.iter().map(count).sum::<u32>()));
    let words = all.len() as f64;
    0.39 * words / sentences + 11.8 * total / words - 15.59
}

fn pages() -> impl Iterator<Item = (String, Vec<&'static str>)> {
    let today = Today { partner: true, harder: true, unwell_last_time: true };
    Page::ALL.iter().map(move |page| (page.to_string(), page.lines(today)))
}

/// The questions about suitability, and those that follow one.
pub(crate) fn suitability() -> impl Iterator<Item = &'static str> {
    Topic::questions(true).map(Topic::question).chain([AGREED, NEW_OR_WORSE])
}

#[test]
fn the_formula_is_the_published_one() {
    // By hand: "The cat sat on the mat." has 6 words in a sentence and 6 syllables: 2.34 + 11.8 - 15.59 = -1.45.
    let table =
        BTreeMap::from([("the", 1), ("cat", 1), ("sat", 1), ("on", 1), ("mat", 1), ("1", 1), ("5", 1)]);
    assert!((grade("The cat sat on the mat.", &table) - -1.45).abs() < 1e-9);
    assert!((grade("The cat sat. On the mat.", &table) - -2.62).abs() < 1e-9, "two sentences of three");
    assert_eq!(sentences("On the mat (1.5 mats): sat."), 2);
}

#[test]
fn each_question_is_read_at_twelve() {
    let table = syllables();
    let asked = Item::ALL.iter().map(|item| item.question()).chain(suitability());
    let pages = pages().flat_map(|(_, lines)| lines).chain(Page::ALL.iter().map(|page| page.question()));
    let all: Vec<&str> = asked.chain(pages).collect();
    for text in &all {
        let grade = grade(text, &table);
        assert!(grade <= TARGET, "{grade:.1} is the grade of {text:?}");
    }
    assert!(all.len() > 70, "{} sentences", all.len());
    // A check that passes everything is none.
    assert!(grade("Alcohol, operation, stomach, therapist, medicine.", &syllables()) > TARGET);
}

#[test]
fn each_page_and_all_of_suitability_are_read_at_twelve() {
    let table = syllables();
    for (page, lines) in pages() {
        let grade = grade(&lines.join(" "), &table);
        assert!(grade <= TARGET, "{grade:.1} is the grade of the page {page}");
    }
    let all: Vec<&str> = suitability().collect();
    let grade = grade(&all.join(" "), &table);
    assert!(grade <= TARGET, "{grade:.1}");
}

#[test]
fn what_follows_from_an_answer_is_read_at_twelve_too() {
    let table = syllables();
    let mut all = String::new();
    for item in Item::ALL {
        for (verdict, contact) in
            [(Verdict::Gentler, Contact::Nobody), (Verdict::NotToday, Contact::Clinician)]
        {
            all.push_str(&format!("{} ", Reason { item: *item, not_sure: false, verdict, contact }));
        }
    }
    let reasons = grade(&all, &table);
    assert!(reasons <= TARGET, "{reasons:.1}");
    let facts: Vec<&str> = Topic::ALL.iter().map(|topic| topic.fact()).collect();
    let facts = grade(&facts.join(" "), &table);
    assert!(facts <= TARGET, "{facts:.1}");
}

/// After sets, after a stop, what felt wrong, once a week: the question by itself, and with its answers, each of which is a
/// sentence by itself.
#[test]
fn what_is_asked_after_sets_and_once_a_week_is_read_at_twelve() {
    let table = syllables();
    let mut count = 0;
    for question in Question::ALL {
        let page = question_lines(*question);
        let Some(sentence) = page.first() else { continue };
        count += 1;
        for text in [sentence.clone(), page.join(". ").replace("?.", "?")] {
            let grade = grade(&text, &table);
            assert!(grade <= TARGET, "{grade:.1} is the grade of {text:?}");
        }
    }
    assert_eq!(
        count, 14,
        "five after a set, why it was stopped, what felt wrong, four of a fall, three a week"
    );
    assert!(Question::WEEKLY.iter().all(|question| !question_lines(*question).is_empty()));
}

/// The pages of `setup` as the program prints them, a question with its answers each.
pub(crate) fn setup() -> Vec<String> {
    let home = tempfile::tempdir().unwrap();
    let mut child = Command::new(env!("CARGO_BIN_EXE_counterpoise"))
        .args(["--data-dir", "data", "setup", "--silent"])
        .current_dir(home.path())
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    // Name, emergency number unknown, contact, left, right, behind, distance, hearing aids, glasses, the room: the answers
    // that are answered in turn.
    child.stdin.take().unwrap().write_all(b"Ada\nu\n\n1\n2\n0\n2\ny\n4\ny\n").unwrap();
    let output = child.wait_with_output().unwrap();
    assert!(output.status.success());
    let printed = String::from_utf8(output.stdout).unwrap();
    printed.split("\n\n").map(page).collect()
}

/// One page in one line: an answer begins with its number or letter, and is a sentence by itself.
fn page(lines: &str) -> String {
    let mut text = String::new();
    for word in lines.split_whitespace() {
        let key = word.len() == 1 && !["A", "I", "a"].contains(&word);
        let begins = key || word == "Press" || word.starts_with('-');
        if begins && !text.is_empty() && !text.ends_with(['.', '?', ':']) {
            text.push('.');
        }
        text.push(' ');
        text.push_str(word);
    }
    text.trim().to_owned()
}

#[test]
fn the_pages_of_set_up_are_read_at_twelve() {
    let table = syllables();
    let pages = setup();
    assert!(pages.len() > 11, "{pages:#?}");
    for page in &pages {
        // What stands on every surface as it is: it names codes, licensed practice and conditions, whose names are long.
        let mut text = page.clone();
        for (_, statement) in caution::statements(Surface::FirstRun, Contents::Nothing) {
            text = text.replace(&statement.text, "");
            text = statement.items.iter().fold(text, |text, item| text.replace(item, ""));
        }
        let grade = grade(&text, &table);
        assert!(grade <= TARGET, "{grade:.1} is the grade of {text:?}");
    }
    assert!(pages[0].contains(caution::FIRST), "it is there, and nothing else is left out: {}", pages[0]);
}
