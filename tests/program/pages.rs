//! Whatever a command prints for people fits 80 columns, as a terminal counts them: with a title and a name in a wide script
//! too.

use std::fs;
use std::path::Path;

use clap::CommandFactory;
use counterpoise::cli::Cli;
use counterpoise_core::plan::prescription::Prescription;
use unicode_width::UnicodeWidthStr;

use crate::run::{lines, run_with};

/// Commands and what is typed, in an order in which each has something to say.
const PAGES: [(&[&str], &[&str]); 42] = [
    (&["presets"], &[]),
    (&["use", "wide.toml"], &[]),
    (&["next"], &[]),
    (&["check"], &[]),
    (&["check", "--handout", "with-a-partner"], &[]),
    (&["check", "nowhere.toml"], &[]),
    (&["drills"], &[]),
    (&["drills", "show", "interrupted-walking"], &[]),
    (&["drills", "show", "none"], &[]),
    (&["preview"], &[]),
    (&["preview", "with-a-partner"], &[]),
    (&["audit", "--cues", "1000"], &[]),
    (&["audit", "--sequence", "own.txt"], &[]),
    (&["setup", "--silent"], &["李 練習", "911", "y", "王", "1", "2", "3", "3", "n", "4", "y"]),
    (&["suitability"], &["y", "n", "b", "x"]),
    (&["suitability"], &["n"; 40]),
    (&["suitability", "--show"], &[]),
    (&["assess", "score", "four-stage", "--result", "9.4", "--keep", "--by", "李"], &[]),
    (&["assess", "score", "one-leg", "--result", "minus"], &[]),
    (&["assess", "results"], &[]),
    (&["assess", "one-leg"], &[]),
    (&["track", "--count", "1", "--out", "tracks"], &[]),
    (&["sheet", "--out", "sheet.html"], &[]),
    (&["journal", "list"], &[]),
    (
        &["journal", "add"],
        &["2", "d", "n", "0", "4", "2", "d", "y", "1", "5", "3", "n", "y", "y", "y", "2", "y"],
    ),
    (&["journal", "list"], &[]),
    (&["journal", "show"], &[]),
    (&["journal", "correct"], &["1", "1", "1", "1", "2", "練習", "y"]),
    (&["journal", "show"], &[]),
    (&["next"], &[]),
    (&["progress", "--plain"], &[]),
    (&["program", "--on", "2026-12-01"], &[]),
    (
        &[
            "clear",
            "--by",
            "李",
            "--reason",
            "seen on Thursday, no injury, and everything else is as it was before",
        ],
        &[],
    ),
    (&["clear", "--by", "K.", "--reason", "again"], &[]),
    (&["report"], &[]),
    (&["report", "--whole"], &[]),
    (&["report", "--folder", "."], &[]),
    (&["equipment", "--quiet"], &[]),
    (&["prescribe"], &["", "", "", "", "", "", "", "", "", "", "q", "y"]),
    (&["prescribe", "--try", "--from", "wide.toml"], &["K.", "1", "1", ""]),
    (&["man", "--out", "pages"], &[]),
    (&["journal", "erase"], &["no"]),
];

/// What is not laid out in lines of 80 columns: each line of a practice is one thing to be read out, and a shell reads
/// the completions.
const NOT_PAGES: [&str; 2] = ["practice", "completions"];

fn prepare(place: &Path) {
    let wide = Prescription::ready_text("typical").unwrap();
    let title = wide.lines().find(|line| line.starts_with("title = ")).unwrap();
    let wide = wide.replace(title, &format!("title = \"{}\"", "練習".repeat(40)));
    fs::write(place.join("wide.toml"), wide).unwrap();
    fs::write(place.join("own.txt"), "left\nright\nleft\nleft\nright\nright\nleft\n").unwrap();
}

#[test]
fn every_page_fits_eighty_columns_in_any_script() {
    let place = tempfile::tempdir().unwrap();
    prepare(place.path());
    for (arguments, typed) in PAGES {
        let output = run_with(place.path(), arguments, &lines(typed));
        let shown = [output.stdout, output.stderr].map(|bytes| String::from_utf8(bytes).unwrap());
        assert!(shown.iter().any(|text| !text.trim().is_empty()), "{arguments:?} says something");
        // A path or a digest stays whole, to be copied.
        let is_word = |line: &str| line.is_ascii() && line.split_whitespace().count() < 2;
        // An error that goes to a file is not broken into lines.
        let wide = shown[0].lines().find(|line| line.width() > 80 && !is_word(line));
        assert_eq!(wide, None, "{arguments:?}");
    }
    let commands = Cli::command();
    for command in commands.get_subcommands().map(clap::Command::get_name) {
        let is_seen = PAGES.iter().any(|(arguments, _)| arguments[0] == command);
        assert!(is_seen || NOT_PAGES.contains(&command), "{command} is looked at");
    }
}
