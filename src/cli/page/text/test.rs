use unicode_width::UnicodeWidthStr;

use super::{WIDTH, fill, of};
use crate::cli::Failure;
use crate::cli::page::html;
use counterpoise_core::blocks::{About, Block, Chart, Plot, Table};

#[test]
fn no_line_is_longer_than_the_width_and_no_word_is_lost() {
    let text = "né on the right side ".repeat(40);
    let lines = fill("  ", "  ", &text);
    assert!(lines.lines().all(|line| line.width() <= WIDTH && line.starts_with("  ")));
    assert!(lines.lines().any(|line| line.width() > WIDTH - 5), "lines are used");
    assert!(lines.split_whitespace().eq(text.split_whitespace()));
    assert_eq!(fill("", "", &"x".repeat(100)).trim_end().len(), 100, "a path stays whole");
    assert_eq!(fill("  ", "  ", ""), "\n");
    let wide = fill("", "", &"練習".repeat(60));
    assert!(wide.lines().all(|line| line.width() <= WIDTH) && wide.lines().count() == 4, "{wide}");
    assert_eq!(wide.replace('\n', ""), "練習".repeat(60));
}

#[test]
fn keys_are_in_one_line_or_in_columns() {
    let keys = |keys: &[String]| of(&[Block::Keys(keys.to_vec())]);
    assert_eq!(keys(&["Y yes", "N no"].map(str::to_owned)), "  Y yes   N no\n");
    let places: Vec<String> = (1..=10).map(|nth| format!("{nth} refrigerator")).collect();
    let lines = keys(&places);
    assert_eq!(lines.lines().count(), 3, "{lines}");
    assert!(lines.lines().all(|line| line.width() <= WIDTH));
    assert!(lines.starts_with("  1 refrigerator    2 refrigerator "), "{lines}");
    let second = lines.lines().nth(1).and_then(|line| line.find('6'));
    assert_eq!(second, lines.find('2'), "one under the other");
    assert_eq!(keys(&["x".repeat(100), "y".to_owned()]).lines().count(), 2);
}

#[test]
fn a_line_that_fits_keeps_its_blanks_and_a_longer_one_its_indent() {
    let long = format!("  {}", "right ".repeat(30));
    let text = of(&[Block::verbatim(&format!("Title\n\n   7.5 s   ← LEFT\n{long}\n"))]);
    assert!(text.starts_with("Title\n\n   7.5 s   ← LEFT\n  right right"), "{text}");
    assert!(text.lines().skip(3).all(|line| line.starts_with("  r") && line.width() <= WIDTH));
}

#[test]
fn a_page_looks_like_this() {
    let owned = |cells: &[&str]| cells.iter().map(|cell| (*cell).to_owned()).collect::<Vec<String>>();
    let about = About { about: "Practice".into(), text: "3 of 3 days.".into(), is_urgent: false };
    let page = [
        Block::heading("Balance"),
        Block::Text("A paragraph of a report.".into()),
        Block::About(about),
        Block::Table(Table::new(
            "Weeks",
            &["week", "days", "how it was"],
            vec![owned(&["王", "3", "good"]), owned(&["2026-W2", "12", "bad"])],
        )),
        Block::heading("Next"),
        Block::line("Hold: the same steps."),
        Block::item("Because."),
        Block::fact("Now", "3"),
        Block::fact("Prescription", "long ".repeat(14)),
        Block::Choice("1".into(), "one".into()),
        Block::Choice("10".into(), "ten".into()),
        Block::Gap,
        Block::Keys(owned(&["Y yes", "N no"])),
    ];
    insta::assert_snapshot!(of(&page), @r"
    Balance
      A paragraph of a report.

      Practice: 3 of 3 days.

      Weeks
      week     days  how it was
      王          3  good
      2026-W2    12  bad

    Next
    Hold: the same steps.
      Because.
      Now           3
      Prescription  long long long long long long long long long long long long
                    long long
       1  one
      10  ten

      Y yes   N no
    ");
}

/// Every kind of block, with the same text in every place of it.
fn with(text: &str) -> Vec<Block> {
    let own = || text.to_owned();
    vec![
        Block::Heading(own()),
        Block::Text(own()),
        Block::About(About { about: own(), text: own(), is_urgent: true }),
        Block::Line(own()),
        Block::Item(own()),
        Block::Fact(own(), own()),
        Block::Choice(own(), own()),
        Block::Keys(vec![own()]),
        Block::Verbatim(vec![own()]),
        Block::Gap,
        Block::Chart(Chart {
            title: own(),
            words: own(),
            across: "week",
            plot: Plot::Bars { bars: vec![(own(), 0.5)], levels: vec![] },
        }),
        Block::Table(Table {
            title: own(),
            head: vec![own(), own()],
            rows: vec![vec![own(), own()]],
            labels: 1,
        }),
    ]
}

#[test]
fn no_writer_prints_a_character_that_is_obeyed_or_not_seen() {
    for hostile in [
        "\u{1b}[2J",
        "\u{9b}1m",
        "a\u{202e}b",
        "\u{2066}",
        "so\u{200b}so",
        "\u{e000}",
        "\u{7f}",
        "\u{feff}",
        "\r",
        "\u{e0041}",
    ] {
        let page = with(hostile);
        let failure = Failure::new(hostile, hostile);
        let hidden = hostile
            .chars()
            .find(|sign| counterpoise_core::words::Printable::first_hidden(&sign.to_string()).is_some());
        let hidden = hidden.expect("each of them has such a character");
        for written in [of(&page), html::of(&page), failure.message(true), failure.message(false)] {
            assert!(!written.contains(hidden), "{hostile:?} in {written}");
        }
    }
}
