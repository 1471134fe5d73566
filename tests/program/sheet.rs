//! The sheet and what is typed in from it afterwards: the same questions, in the same words and the same order.

use std::fs;
use std::path::Path;
use std::process::Output;

use crate::run::{lines, run_with};

fn run(folder: &Path, arguments: &[&str], typed: &[&str]) -> Output {
    run_with(folder, arguments, &lines(typed))
}

fn one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The words of a page without its marks.
fn words(html: &str) -> String {
    let body = &html[html.find("<main>").unwrap()..];
    let mut words = String::new();
    let mut inside = true;
    for sign in body.chars() {
        match sign {
            '<' => inside = false,
            '>' => {
                inside = true;
                words.push(' ');
            }
            sign if inside => words.push(sign),
            _ => {}
        }
    }
    one_line(&words.replace("&quot;", "\"").replace("&amp;", "&"))
}

/// Whoever answers "yes" wherever it is asked hears every question.
const ANSWERS: [(&str, &str); 9] = [
    ("On which day?", "2026-02-02"),
    ("(D done in full", "d"),
    ("hold on?", "0"),
    ("at its hardest?", "4"),
    ("How steady", "2"),
    ("What felt wrong?", "5"),
    ("Save it", "y"),
    ("(Y or N)", "y"),
    ("Which step", "1"),
];

#[test]
fn the_sheet_has_a_place_for_every_answer_in_the_order_of_the_questions() {
    let place = tempfile::tempdir().unwrap();
    assert!(run(place.path(), &["sheet", "--out", "sheet.html"], &[]).status.success());
    let sheet = words(&fs::read_to_string(place.path().join("sheet.html")).unwrap());
    // The last question that was asked before the end of input is the next to be answered; nothing is kept before the last.
    let mut typed: Vec<&str> = Vec::new();
    let mut asked: Vec<String> = Vec::new();
    loop {
        let output = run(place.path(), &["journal", "add"], &typed);
        if output.status.success() {
            break;
        }
        let said = String::from_utf8(output.stdout).unwrap();
        let question = one_line(said.split("\n\n").last().unwrap());
        let answer = ANSWERS.iter().find(|(part, _)| question.contains(part));
        typed.push(answer.unwrap_or_else(|| panic!("the sheet has no place for: {question}")).1);
        asked.push(question);
        assert!(asked.len() < 60, "{asked:?}");
    }
    // A day, three sets of five answers, a fall and whether it hurt, unwell and what felt wrong, and whether to keep it.
    assert!(asked.len() > 1 + 3 * 5 + 4, "{asked:#?}");
    let has = |part: &str| sheet.to_lowercase().contains(&part.to_lowercase());
    // A day long ago is asked about once more, by whoever types it in late: that is not on the sheet.
    let late = |question: &&String| question.contains("days ago");
    for question in asked[1..asked.len() - 1].iter().filter(|question| !late(question)) {
        let (words, scale) = question.split_once(['(', '1']).unwrap_or((question, ""));
        let (words, scale) =
            if question.starts_with("Set ") { question.split_once('(').unwrap() } else { (words, scale) };
        for part in words.split(['.', '?', ';']).map(str::trim) {
            assert!(has(part), "\"{part}\" of \"{question}\" is not on the sheet: {sheet}");
        }
        if scale.starts_with('D') {
            assert!(has(scale.trim_end_matches(')')), "{scale}");
        }
    }
    // Each scale from its least number to its most, with the same words at its end.
    for (question, ends) in [
        ("how often did you hold on", ["0", "3"]),
        ("at its hardest", ["2 very easy", "10 very hard"]),
        ("How steady", ["1 steady", "5 lost balance"]),
        ("What felt wrong", ["1 chest", "6 something else"]),
    ] {
        let asked = asked.iter().find(|asked| asked.contains(question)).unwrap();
        let on_sheet = &sheet[sheet.find(question).unwrap()..];
        for end in ends {
            assert!(asked.contains(end), "{asked}");
            assert!(on_sheet[..200].contains(end), "{question}: {on_sheet}");
        }
    }
    // In the order in which they are asked, what is asked of a set stands in the list, and what is asked at the end after it.
    let place_of = |part: &str| sheet.find(part).unwrap_or_else(|| panic!("{part}: {sheet}"));
    let of_a_set = [
        "D done in full",
        "grab hold",
        "how often",
        "How hard",
        "How steady",
        "Did you fall",
        "Did you feel unwell",
    ];
    let asked_at = |part: &str| asked.iter().position(|question| question.contains(part)).unwrap();
    for two in of_a_set.windows(2) {
        assert!(place_of(two[0]) < place_of(two[1]), "{two:?} on the sheet");
        assert!(asked_at(two[0]) < asked_at(two[1]), "{two:?} when typed in");
    }
}
