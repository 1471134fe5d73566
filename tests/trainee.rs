//! What is for the person who practices: the own progress and the sheet to print, from outside.

use std::fs;
use std::path::Path;
use std::process::{Command, Output, Stdio};

#[path = "history/mod.rs"]
mod history;

fn run(folder: &Path, arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_counterpoise"))
        .args(arguments)
        .env("COUNTERPOISE_DATA", folder.join("data"))
        .current_dir(folder)
        .stdin(Stdio::null())
        .output()
        .unwrap()
}

fn printed(folder: &Path, arguments: &[&str]) -> String {
    let output = run(folder, arguments);
    assert_eq!(output.status.code(), Some(0), "{arguments:?}: {}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).unwrap()
}

#[test]
fn progress_is_told_in_plain_lines() {
    let place = tempfile::tempdir().unwrap();
    let nothing = printed(place.path(), &["progress"]);
    assert!(nothing.contains("Your first practice is before you"), "{nothing}");
    assert!(!place.path().join("data").exists(), "looking makes nothing");
    let history =
        history::History { number: 2, first: jiff::civil::date(2026, 1, 5), sessions: 20, pushes: false };
    fs::write(place.path().join("history.json"), history.export().to_string()).unwrap();
    printed(place.path(), &["journal", "import", "history.json"]);
    let told = printed(place.path(), &["progress", "--on", "2026-02-20"]);
    for heading in ["This week", "What is next", "What got easier"] {
        assert!(told.contains(heading), "{told}");
    }
    assert!(told.contains("Reaches at the counter: at first feet apart, one hand; now "), "{told}");
    assert!(told.lines().all(|line| line.chars().count() <= 80), "{told}");
}

#[test]
fn a_sheet_is_written_once_for_its_owner_and_not_under_a_lock() {
    let place = tempfile::tempdir().unwrap();
    let said = printed(place.path(), &["sheet", "--out", "sheet.html"]);
    assert!(said.contains("journal add"), "{said}");
    let page = fs::read_to_string(place.path().join("sheet.html")).unwrap();
    assert!(page.starts_with("<!doctype html>") && page.contains("local codes") || page.contains("Local codes"));
    assert!(page.contains("promises to prevent falls") && page.contains("What was done"));
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        let mode = fs::metadata(place.path().join("sheet.html")).unwrap().permissions().mode();
        assert_eq!(mode & 0o777, 0o600);
    }
    assert_eq!(run(place.path(), &["sheet", "--out", "sheet.html"]).status.code(), Some(1), "never written over");
    assert!(printed(place.path(), &["sheet"]).starts_with("practice-sheet-"), "a name of its own");
    let mut history =
        history::History { number: 2, first: jiff::civil::date(2026, 1, 5), sessions: 1, pushes: false }.export();
    history["sessions"][0]["ready"] = serde_json::json!([{ "item": "not fainted", "is_true": false }]);
    fs::write(place.path().join("history.json"), history.to_string()).unwrap();
    printed(place.path(), &["journal", "import", "history.json"]);
    let locked = run(place.path(), &["sheet", "--out", "locked.html"]);
    assert!(String::from_utf8(locked.stderr).unwrap().contains("clinician"));
    assert!(!place.path().join("locked.html").exists());
}
