//! Reports from outside: one screen, a page to print, rows for a spreadsheet, values for other programs, all of invented
//! histories.

use std::fs;
use std::path::Path;
use std::process::{Command, Output};

use serde_json::Value;

#[path = "history/mod.rs"]
mod history;

fn run(folder: &Path, arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_counterpoise"))
        .args(arguments)
        .env("COUNTERPOISE_DATA", folder.join("data"))
        .current_dir(folder)
        .output()
        .unwrap()
}

fn printed(folder: &Path, arguments: &[&str]) -> String {
    let output = run(folder, arguments);
    assert_eq!(output.status.code(), Some(0), "{arguments:?}: {}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).unwrap()
}

/// A folder with twenty weeks of an invented person who is also pushed.
fn filled() -> tempfile::TempDir {
    let place = tempfile::tempdir().unwrap();
    let history =
        history::History { number: 5, first: jiff::civil::date(2025, 11, 3), sessions: 40, pushes: true };
    fs::write(place.path().join("history.json"), history.export().to_string()).unwrap();
    printed(place.path(), &["journal", "import", "history.json"]);
    place
}

const UNTIL: [&str; 2] = ["--until", "2026-02-28"];

#[test]
fn the_summary_fits_one_screen_and_everything_fits_its_width() {
    let place = filled();
    let brief = printed(place.path(), &[&["report"], &UNTIL[..]].concat());
    assert!(brief.lines().count() <= 24, "{} lines\n{brief}", brief.lines().count());
    let whole = printed(place.path(), &[&["report", "--whole"], &UNTIL[..]].concat());
    for line in brief.lines().chain(whole.lines()) {
        assert!(line.chars().count() <= 80, "{line}");
    }
    for heading in [
        "Week by week",
        "What followed pushes",
        "Own ratings",
        "Steps, and why",
        "Balance tests",
        "How to read",
    ] {
        assert!(whole.contains(heading), "{heading}");
    }
    assert!(
        run(place.path(), &["report", "--since", "2026-03-01", "--until", "2026-02-28"]).status.code()
            == Some(1)
    );
}

#[test]
fn the_json_has_the_documented_fields_and_its_sums_agree() {
    let place = filled();
    let text = printed(place.path(), &[&["report", "--format", "json"], &UNTIL[..]].concat());
    let report: Value = serde_json::from_str(&text).unwrap();
    assert_eq!(report["schema"], "counterpoise.report/1");
    let documentation = include_str!("../docs/report.md");
    fn names(value: &Value, found: &mut Vec<String>) {
        match value {
            Value::Object(fields) => {
                for (name, value) in fields {
                    found.push(name.clone());
                    names(value, found);
                }
            }
            Value::Array(values) => values.iter().for_each(|value| names(value, found)),
            _ => {}
        }
    }
    let mut found = Vec::new();
    names(&report, &mut found);
    for name in found {
        assert!(documentation.contains(&format!("`{name}`")), "docs/report.md does not explain `{name}`");
    }
    let weeks = report["dose"]["weeks"].as_array().unwrap();
    let sum = |field: &str| weeks.iter().map(|week| week[field].as_u64().unwrap()).sum::<u64>();
    for field in ["days", "sets", "active_ms", "cues", "days_prescribed"] {
        assert_eq!(report["dose"][field].as_u64(), Some(sum(field)), "{field}");
    }
    assert_eq!(report["dose"]["days"], 40);
}

#[test]
fn a_spreadsheet_reads_a_row_a_session_and_runs_nothing() {
    let place = tempfile::tempdir().unwrap();
    let history =
        history::History { number: 6, first: jiff::civil::date(2026, 1, 5), sessions: 4, pushes: false };
    let mut export = history.export();
    export["sessions"][0]["start"]["title"] = "=HYPERLINK(\"x\"), \"quoted\"".into();
    fs::write(place.path().join("history.json"), export.to_string()).unwrap();
    printed(place.path(), &["journal", "import", "history.json"]);
    let text = printed(place.path(), &["report", "--format", "csv", "--until", "2026-02-28"]);
    assert!(text.ends_with("\r\n"), "RFC 4180");
    let mut rows = csv::Reader::from_reader(text.as_bytes());
    assert_eq!(rows.headers().unwrap().len(), 18);
    let rows: Vec<csv::StringRecord> = rows.records().map(Result::unwrap).collect();
    assert_eq!(rows.len(), 4);
    assert_eq!(&rows[0][3], "'=HYPERLINK(\"x\"), \"quoted\"");
    assert_eq!((&rows[0][0], &rows[0][1]), ("2026-01-05", "2026-W02"));
    // And as a page: nothing of it runs, and nothing is fetched.
    let page = printed(place.path(), &["report", "--format", "html", "--until", "2026-02-28"]);
    let page = page.replace("xmlns=\"http://www.w3.org/2000/svg\"", "");
    for loads in ["<script", "http://", "https://", "src=", "@import", "url("] {
        assert!(!page.contains(loads), "{loads}");
    }
}

#[test]
fn a_page_says_everything_and_escapes_what_it_was_given() {
    let place = filled();
    let own =
        history::GENTLE.replace("title = \"Gentle start at the counter\"", "title = '<b>&\"start\"</b>'");
    fs::write(place.path().join("own.toml"), own).unwrap();
    printed(place.path(), &["use", "own.toml"]);
    let path = place.path().join("report.html");
    let written = printed(place.path(), &["report", "--format", "html", "--out", "report.html"]);
    assert_eq!(written.trim(), "report.html");
    let page = fs::read_to_string(&path).unwrap();
    assert!(
        page.starts_with("<!doctype html>\n<html lang=\"en\">") && page.contains("@media print"),
        "{page}"
    );
    assert!(page.contains("&lt;b&gt;&amp;") && !page.contains("<b>&"), "{page}");
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        assert_eq!(fs::metadata(&path).unwrap().permissions().mode() & 0o777, 0o600, "its owner's only");
    }
    // The report goes back on the stick that the prescription came on.
    let stick = place.path().join("stick");
    fs::create_dir(&stick).unwrap();
    let output = Command::new(env!("CARGO_BIN_EXE_counterpoise"))
        .args(["report", "--format", "html", "--to-stick"])
        .env("COUNTERPOISE_DATA", place.path().join("data"))
        .env("COUNTERPOISE_STICK", &stick)
        .output()
        .unwrap();
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    let there: Vec<_> =
        fs::read_dir(stick.join("counterpoise")).unwrap().map(|entry| entry.unwrap().path()).collect();
    assert_eq!(there.len(), 1);
    assert_eq!(fs::read_to_string(&there[0]).unwrap(), page);
    // What is there is left as it is.
    let again = run(place.path(), &["report", "--format", "html", "--out", "report.html"]);
    assert_eq!(again.status.code(), Some(1));
    assert_eq!(fs::read_to_string(&path).unwrap(), page);
    let nowhere = run(place.path(), &["report", "--out", "nowhere/report.txt"]);
    assert!(String::from_utf8(nowhere.stderr).unwrap().contains("cannot be written"));
}

#[test]
fn who_has_practiced_nothing_has_a_report_too() {
    let place = tempfile::tempdir().unwrap();
    let brief = printed(place.path(), &["report"]);
    assert!(brief.contains("Practice: 0 of"), "{brief}");
    assert!(!place.path().join("data").exists(), "looking makes nothing");
    for form in ["html", "json", "csv"] {
        printed(place.path(), &["report", "--format", form]);
    }
}
