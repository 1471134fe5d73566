//! What is for the person who practices: the own progress and the sheet to print, from outside.

use std::fs;
use std::path::Path;
use std::process::Output;

use crate::history;
use crate::run::{lines, run_with};

fn run(folder: &Path, arguments: &[&str]) -> Output {
    run_with(folder, arguments, "")
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
    assert!(nothing.contains("This is your first practice."), "{nothing}");
    assert!(!place.path().join("data").exists(), "looking makes nothing");
    let history =
        history::History { number: 2, first: jiff::civil::date(2026, 1, 5), sessions: 20, pushes: false };
    fs::write(place.path().join("history.json"), history.export().to_string()).unwrap();
    printed(place.path(), &["journal", "import", "history.json"]);
    let told = printed(place.path(), &["progress", "--on", "2026-02-20"]);
    for heading in ["This week", "What is next", "How it is going"] {
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
    assert!(
        page.starts_with("<!doctype html>") && page.contains("local codes") || page.contains("Local codes")
    );
    assert!(page.contains("promises to prevent falls") && page.contains("What was done"));
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        let mode = fs::metadata(place.path().join("sheet.html")).unwrap().permissions().mode();
        assert_eq!(mode & 0o777, 0o600);
    }
    assert_eq!(
        run(place.path(), &["sheet", "--out", "sheet.html"]).status.code(),
        Some(1),
        "never written over"
    );
    assert!(printed(place.path(), &["sheet"]).starts_with("practice-sheet-"), "a name of its own");
    let mut history =
        history::History { number: 2, first: jiff::civil::date(2026, 1, 5), sessions: 1, pushes: false }
            .export();
    history["sessions"][0]["ready"] = serde_json::json!([{ "item": "not fainted", "is_true": false }]);
    fs::write(place.path().join("history.json"), history.to_string()).unwrap();
    printed(place.path(), &["journal", "import", "history.json"]);
    let locked = run(place.path(), &["sheet", "--out", "locked.html"]);
    assert!(String::from_utf8(locked.stderr).unwrap().contains("clinician"));
    assert!(!place.path().join("locked.html").exists());
}

/// One set of shifts and two of reaches, each done whole and easy.
const SET: [&str; 5] = ["d", "n", "0", "4", "2"];

fn add(folder: &Path, answers: &[&str]) -> Output {
    typed(folder, &["journal", "add"], answers)
}

/// Runs a command that asks, and types these answers.
fn typed(folder: &Path, arguments: &[&str], answers: &[&str]) -> Output {
    run_with(folder, arguments, &lines(answers))
}

/// Days that do not turn into tomorrow while a test runs.
fn days_ago(days: i64) -> String {
    jiff::ZonedDateTime::now().date().saturating_sub(jiff::Span::new().days(days)).to_string()
}

fn ids(folder: &Path) -> Vec<String> {
    let export: serde_json::Value =
        serde_json::from_str(&printed(folder, &["journal", "export", "--format", "sessions"])).unwrap();
    let sessions = export["sessions"].as_array().unwrap();
    sessions.iter().map(|session| session["id"].as_str().unwrap().to_owned()).collect()
}

fn whole<'a>(day: &'a str, after: &[&'a str]) -> Vec<&'a str> {
    [&[day][..], &SET, &SET, &SET, after].concat()
}

#[test]
fn a_practice_with_a_track_is_typed_in_and_the_same_rules_follow() {
    let place = tempfile::tempdir().unwrap();
    let folder = place.path();
    // Two clean days step up, as two practices would have.
    let days = [12, 10, 8].map(days_ago);
    for day in &days[..2] {
        let output = add(folder, &whole(day, &["n", "n", "y"]));
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    }
    let next = |on: &str| -> serde_json::Value {
        serde_json::from_str(&printed(folder, &["next", "--on", on, "--format", "json"])).unwrap()
    };
    assert_eq!(next(&days[2])["decision"], "up");
    let shown = printed(folder, &["journal", "show"]);
    assert!(shown.contains("typed in by hand: practice with a track"), "{shown}");
    assert!(
        shown.contains(&format!("{}; the hour is not known", days[1])) && !shown.contains("23:59"),
        "{shown}"
    );
    let list = printed(folder, &["journal", "list"]);
    assert!(list.contains(&days[0]) && !list.contains("23:59"), "{list}");
    let report = printed(folder, &["report", "--on", &days[2]]);
    let report = report.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(report.contains("Practice: 2 of") && report.contains("typed in 2."), "{report}");
    assert!(!report.contains("without sound"), "{report}");
    let twice = add(folder, &[&days[1], "s"]);
    assert!(String::from_utf8(twice.stderr).unwrap().contains("already has that practice"));
    // A fall that is typed in locks just the same, and what to do is said at once. The sheet of that day has another step.
    let answers = whole("y", &["y", "y", "n", "y"]);
    let fell = add(folder, &[&[days[2].as_str()][..], &answers].concat());
    let said = String::from_utf8(fell.stdout).unwrap();
    assert!(fell.status.success(), "{}", String::from_utf8_lossy(&fell.stderr));
    assert!(said.contains("The sheet of that day should say:"), "{said}");
    assert!(
        said.contains("Practice is locked after a fall that may have hurt:")
            && said.contains("counterpoise clear"),
        "{said}"
    );
    assert_eq!(next(&days_ago(-30))["decision"], "locked");
}

#[test]
fn nothing_is_typed_in_by_halves() {
    let place = tempfile::tempdir().unwrap();
    let day = days_ago(12);
    let good = whole(&day, &["n", "n", "y"]);
    for end in 0..good.len() {
        let output = add(place.path(), &good[..end]);
        assert_eq!(output.status.code(), Some(1), "{end} answers");
        assert!(printed(place.path(), &["journal", "list"]).contains("No"), "{end}");
    }
    for (at, bad, said) in [
        (0, "2999-01-01", "is in the future"),
        (0, "yesterday", "is not a day"),
        (1, "x", "is not D, B or N"),
        (3, "4", "not a whole number from 0 to 3"),
        (4, "11", "not a whole number from 0 to 10"),
        (5, "0", "not a whole number from 1 to 5"),
        (16, "perhaps", "neither Y nor N"),
        (18, "n", "nothing was saved"),
    ] {
        let mut answers = good.clone();
        answers[at] = bad;
        let output = add(place.path(), &answers);
        assert!(String::from_utf8(output.stderr).unwrap().contains(said), "{bad}");
        assert!(printed(place.path(), &["journal", "list"]).contains("No"), "{bad}");
    }
    let none = add(place.path(), &[&day, "n", "n", "n"]);
    assert!(String::from_utf8(none.stderr).unwrap().contains("no set was done"));
}

#[test]
fn a_correction_is_a_new_entry_and_both_stay_visible() {
    let place = tempfile::tempdir().unwrap();
    let folder = place.path();
    let mut export =
        history::History { number: 9, first: jiff::civil::date(2026, 1, 5), sessions: 3, pushes: true }
            .export();
    export["sessions"][2]["answers"][0]["answer"] = serde_json::json!(1);
    fs::write(folder.join("history.json"), export.to_string()).unwrap();
    printed(folder, &["journal", "import", "history.json"]);
    let correct = |arguments: &[&str]| run(folder, &[&["journal", "correct"], arguments].concat());
    let done = |arguments: &[&str]| {
        let output = correct(arguments);
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    };
    let report = || -> serde_json::Value {
        serde_json::from_str(&printed(folder, &["report", "--on", "2026-02-01", "--format", "json"])).unwrap()
    };
    let before = report();
    done(&[
        "last",
        "--set",
        "1",
        "--question",
        "grabbed hold or nearly fell",
        "--right",
        "0",
        "--reason",
        "wrong key",
    ]);
    let shown = printed(folder, &["journal", "show"]);
    assert!(shown.contains("Corrected on ") && shown.contains("wrong key"), "{shown}");
    let kept = shown.lines().any(|line| line.contains("grabbed hold or nearly fell") && line.contains("yes"));
    assert!(kept, "what was kept stays: {shown}");
    let after = report();
    let grabs = |report: &serde_json::Value| {
        report["events"].to_string().matches("grabbed hold or nearly fell (set").count()
    };
    assert_eq!((grabs(&before), grabs(&after)), (1, 0));
    assert_eq!((&before["dose"]["corrected"], &after["dose"]["corrected"]), (&0.into(), &1.into()));
    done(&["last", "--set-aside", "--reason", "a test run"]);
    let aside = report();
    assert_eq!((&aside["dose"]["set_aside"], &aside["dose"]["days"]), (&1.into(), &2.into()));
    assert!(aside["events"].to_string().contains("a test run"));
    // Both counts stand in the report: what was kept, and what is right.
    assert_eq!(before["as_kept"], serde_json::Value::Null);
    for count in ["days", "sessions", "sets", "cues"] {
        assert_eq!(aside["as_kept"][count], before["dose"][count], "{count}");
    }
    assert!(aside["dose"]["sets"].as_u64() < aside["as_kept"]["sets"].as_u64());
    let whole = printed(folder, &["report", "--on", "2026-02-01", "--whole"]);
    assert!(whole.contains("As recorded, and after corrections"), "{whole}");
    // It goes along to another computer, once.
    let exported = printed(folder, &["journal", "export"]);
    fs::write(folder.join("all.json"), &exported).unwrap();
    let there = tempfile::tempdir().unwrap();
    for _ in 0..2 {
        printed(there.path(), &["journal", "import", folder.join("all.json").to_str().unwrap()]);
        assert_eq!(
            printed(there.path(), &["journal", "export", "--format", "sessions"]),
            printed(folder, &["journal", "export", "--format", "sessions"])
        );
    }
    for (arguments, said) in [
        (&["last", "--reason", "x"][..], "not every question was answered, and nothing was corrected"),
        (&["last", "--set", "1", "--reason", "x"], "nothing to correct was named"),
        (&["--set-aside", "--reason", "x"], "no practice to correct was named"),
        (&["last", "--set-aside"], "no reason was given"),
        (&["last", "--set-aside", "--reason", "x"], "already set aside"),
        (&["0", "--counts-again", "--reason", "x"], "more than one"),
        (
            &["last", "--set", "1", "--question", "effort", "--right", "11", "--reason", "x"],
            "\"11\" is not an answer",
        ),
        (
            &["last", "--set", "9", "--question", "effort", "--right", "1", "--reason", "x"],
            "this was not asked",
        ),
        (
            &["last", "--set", "1", "--question", "mood", "--right", "1", "--reason", "x"],
            "\"mood\" is not a question",
        ),
        (&["last", "--set", "1", "--push", "1", "--right", "fell", "--reason", "x"], "has no push 1"),
        (&["last", "--set-aside", "--reason", " "], "the reason is empty"),
        (&["ffff", "--set-aside", "--reason", "x"], "ffff"),
    ] {
        let output = correct(arguments);
        let err = String::from_utf8(output.stderr).unwrap();
        assert!(output.status.code() == Some(1) && err.contains(said), "{arguments:?}: {err}");
    }
}

/// The report as values.
fn reported(folder: &Path) -> serde_json::Value {
    let text = printed(folder, &["report", "--on", "2026-02-01", "--format", "json"]);
    serde_json::from_str(&text).unwrap()
}

#[test]
fn without_options_a_correction_is_asked_for_and_a_practice_that_was_set_aside_counts_again() {
    let place = tempfile::tempdir().unwrap();
    let folder = place.path();
    let export =
        history::History { number: 9, first: jiff::civil::date(2026, 1, 5), sessions: 12, pushes: true }
            .export();
    fs::write(folder.join("history.json"), export.to_string()).unwrap();
    printed(folder, &["journal", "import", "history.json"]);
    let before = printed(folder, &["journal", "export", "--format", "sessions"]);
    let sessions = |text: &str| serde_json::from_str::<serde_json::Value>(text).unwrap()["sessions"].clone();
    let ask = |answers: &[&str]| typed(folder, &["journal", "correct"], answers);
    // Older ones, the oldest; an answer; after the second set; the effort; 7, because.
    let answers = ["o", "12", "1", "2", "3", "7", "a wrong key", "y"];
    for end in 0..answers.len() {
        let output = ask(&answers[..end]);
        let err = String::from_utf8(output.stderr).unwrap();
        assert!(output.status.code() == Some(1) && err.contains("nothing was corrected"), "{end}: {err}");
    }
    assert_eq!(
        printed(folder, &["journal", "export", "--format", "sessions"]),
        before,
        "nothing is corrected by halves"
    );
    let done = ask(&answers);
    let said = String::from_utf8(done.stdout).unwrap();
    assert!(done.status.success(), "{}", String::from_utf8_lossy(&done.stderr));
    assert!(said.contains("Mon 2026-01-05") && said.contains("effort after set 2: 7 on the scale"), "{said}");
    assert!(said.lines().all(|line| line.chars().count() <= 80), "{said}");
    // A response; then the whole practice; then it counts again.
    for (answers, says) in [
        (&["o", "12", "2", "1", "5", "seen again", "y"][..], "response to push 1 after set 3: fell"),
        (&["o", "12", "3", "not me", "y"], "set aside, and counts as no practice (not me)"),
        (&["o", "12", "3", "it was me", "y"], "counts again, after it was set aside (it was me)"),
    ] {
        let days = reported(folder)["dose"]["days"].as_u64().unwrap();
        let done = ask(answers);
        let said = String::from_utf8(done.stdout).unwrap().split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(said.contains(says), "{answers:?}: {said}{}", String::from_utf8_lossy(&done.stderr));
        let now = &reported(folder)["dose"];
        let expected = match says.split(',').next() {
            Some("set aside") => days - 1,
            Some("counts again") => days + 1,
            _ => days,
        };
        assert_eq!((now["days"].as_u64(), &now["corrected"]), (Some(expected), &1.into()), "{says}");
    }
    for (answers, says) in [
        (&["13"][..], "is not one of the numbers"),
        (&["1", "4"], "not a whole number from 1 to 3"),
        (&["1", "1", "1", "3", "11"], "is not one of these answers"),
        (&["o", "12", "1", "2", "3", "7"], "that is already the entry"),
        (&["o", "12", "2", "1", "6"], "is not one of these"),
        (&["1", "3", ""], "the reason is empty"),
        (&["1", "3", "up\u{1b}[A"], "cannot be shown"),
        (&["1", "3", "because", "n"], "nothing was corrected"),
    ] {
        let err = String::from_utf8(ask(answers).stderr).unwrap();
        assert!(err.contains(says), "{answers:?}: {err}");
    }
    let after = printed(folder, &["journal", "export", "--format", "sessions"]);
    assert_eq!(sessions(&after), sessions(&before), "what was kept is as it was");
    assert_eq!(
        serde_json::from_str::<serde_json::Value>(&after).unwrap()["corrections"].as_array().unwrap().len(),
        4
    );
}

#[test]
fn what_was_typed_in_is_corrected_answer_by_answer_and_a_day_has_one_practice_that_counts() {
    let place = tempfile::tempdir().unwrap();
    let folder = place.path();
    let day = days_ago(9);
    let kept =
        |output: Output| assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    kept(add(folder, &whole(&day, &["n", "n", "y"])));
    let first = ids(folder).remove(0);
    kept(typed(
        folder,
        &["journal", "correct"],
        &["1", "1", "3", "4", "5", "another line of the sheet", "y"],
    ));
    let shown = printed(folder, &["journal", "show"]);
    assert!(shown.contains("steadiness after set 3: 5 on the scale"), "{shown}");
    kept(run(folder, &["journal", "correct", "last", "--set-aside", "--reason", "another day"]));
    kept(add(folder, &whole(&day, &["n", "n", "y"])));
    let again = run(folder, &["journal", "correct", &first, "--counts-again", "--reason", "both"]);
    let err = String::from_utf8(again.stderr).unwrap();
    assert!(err.contains("another practice that counts"), "{err}");
    let second = ids(folder).into_iter().find(|id| *id != first).unwrap();
    kept(run(folder, &["journal", "correct", &second, "--set-aside", "--reason", "twice"]));
    kept(run(folder, &["journal", "correct", &first, "--counts-again", "--reason", "it was that day"]));
}

#[test]
fn a_correction_lifts_no_lock() {
    let place = tempfile::tempdir().unwrap();
    let folder = place.path();
    let mut export =
        history::History { number: 9, first: jiff::civil::date(2026, 1, 5), sessions: 1, pushes: false }
            .export();
    export["sessions"][0]["ready"] = serde_json::json!([{ "item": "not fainted", "is_true": false }]);
    fs::write(folder.join("history.json"), export.to_string()).unwrap();
    printed(folder, &["journal", "import", "history.json"]);
    let decision = || -> serde_json::Value {
        let text = printed(folder, &["next", "--on", "2026-02-01", "--format", "json"]);
        serde_json::from_str::<serde_json::Value>(&text).unwrap()["decision"].clone()
    };
    assert_eq!(decision(), "locked");
    let correct = ["journal", "correct", "last", "--set-aside", "--reason", "somebody else's"];
    let said = String::from_utf8(run(folder, &correct).stdout).unwrap();
    assert!(said.contains("Practice is locked after fainting"), "said at once: {said}");
    assert_eq!(decision(), "locked", "only a clinician's clearance lifts it");
    let overview = printed(folder, &["report", "--folder", "data", "--on", "2026-02-01"]);
    assert!(overview.contains("locked"), "{overview}");
    assert!(printed(folder, &["clear", "--by", "K. L.", "--reason", "seen"]).contains("Lifted"));
    assert_ne!(decision(), "locked");
}
