//! Balance tests from outside: results as the contract says, kept and shown, led on a pipe, and what follows from them.

use serde_json::{Value, json};
use std::path::Path;

use crate::run::run_with;

fn printed(folder: &Path, arguments: &[&str]) -> String {
    let output = run_with(folder, arguments, "");
    assert_eq!(output.status.code(), Some(0), "{arguments:?}: {}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).unwrap()
}

fn found(folder: &Path, arguments: &str) -> Value {
    let words: Vec<&str> = ["assess", "score"].into_iter().chain(arguments.split(' ')).collect();
    serde_json::from_str(&printed(folder, &[&words[..], &["--format", "json"]].concat())).unwrap()
}

#[test]
fn a_result_is_scored_as_the_contract_says() {
    let place = tempfile::tempdir().unwrap();
    for (arguments, finding, cut_off) in [
        ("four-stage --age 72 --sex female --result 9.4", "below", json!(10)),
        ("four-stage --age 72 --sex female --result 10", "not below", json!(10)),
        ("one-leg --age 72 --sex female --result 5", "not below", json!(5)),
        ("chair-stand --age 72 --sex male --result 11", "below", json!(12)),
        ("chair-stand --age 72 --sex female --result 11", "not below", json!(10)),
        ("chair-stand --age 95 --sex female --result 11", "no published norm", json!(null)),
        ("timed-up-and-go --age 72 --sex male --result 12", "below", json!(12)),
        ("five-rises --age 72 --sex male --result 15", "not below", json!(15)),
        ("five-rises --result unable", "below", json!(15)),
    ] {
        let found = found(place.path(), arguments);
        assert_eq!(found["schema"], "counterpoise.finding/1");
        assert_eq!((&found["finding"], &found["cut_off"]), (&json!(finding), &cut_off), "{arguments}");
        assert!(found["source"].as_str().unwrap().ends_with(']'), "{arguments}");
    }
    assert!(!place.path().join("data").exists(), "nothing is kept unless asked for");
    for (arguments, fact) in [
        (&["one-leg", "--result", "-3"][..], "\"-3\" is not a valid result"),
        (&["chair-stand", "--result", "9.4"], "\"9.4\" is not a valid result"),
        (&["four-stage", "--result", "11"], "11 is out of range"),
        (&["one-leg", "--result", "3", "--age", "17"], "\"17\" is not an age in whole years"),
    ] {
        let output = run_with(place.path(), &[&["assess", "score"], arguments].concat(), "");
        let said = String::from_utf8(output.stderr).unwrap();
        assert_eq!(output.status.code(), Some(1), "{said}");
        assert!(said.contains(fact) && said.contains("Hint: "), "{said}");
    }
    assert_eq!(
        run_with(place.path(), &["assess", "score", "jump", "--result", "3"], "").status.code(),
        Some(2)
    );
}

#[test]
fn results_are_kept_shown_and_narrow_the_steps() {
    let place = tempfile::tempdir().unwrap();
    let folder = place.path();
    let keep = |test: &str, result: &str, on: &str| {
        printed(folder, &["assess", "score", test, "--result", result, "--keep", "--by", "K. L.", "--on", on])
    };
    assert!(keep("one-leg", "4.9", "2026-10-05").contains("It is in the journal."));
    let next = || -> Value { serde_json::from_str(&printed(folder, &["next", "--format", "json"])).unwrap() };
    let reasons = |next: &Value| next["reasons"].to_string();
    assert!(reasons(&next()).contains("Up to step 3"), "{:#}", next());
    keep("timed-up-and-go", "14", "2026-10-05");
    assert!(reasons(&next()).contains("Both hands always rest"), "{:#}", next());
    assert_eq!(next()["left_out"], json!(["counter-reach"]), "a drill that rests one hand only");
    // A later result of the same test holds; the older one stays in the list.
    keep("timed-up-and-go", "11", "2026-11-02");
    assert!(!reasons(&next()).contains("Both hands"), "{:#}", next());
    let shown = printed(folder, &["assess", "results"]);
    for line in [
        "2026-10-05    14.0 s  slower than the published cut-off, elsewhere",
        "2026-11-02    11.0 s  within the published cut-off, elsewhere",
        "the noise of the test",
    ] {
        assert!(shown.contains(line), "{shown}");
    }
    assert!(shown.lines().all(|line| line.chars().count() <= 80), "{shown}");
    let shown = shown.split_whitespace().collect::<Vec<_>>().join(" ");
    // What follows is what every page of results cautions about.
    let (results, _) = shown.split_once(" Local codes").unwrap();
    assert!(
        results.ends_with("One hand always rests on the counter."),
        "it ends with what it means: {shown}"
    );
    assert!(printed(folder, &["next", "--on", "2030-01-01"]).contains("can be done again, since 2026-11-30"));
    let output = run_with(
        folder,
        &["assess", "score", "one-leg", "--result", "8", "--keep", "--on", "2999-01-01"],
        "",
    );
    assert_eq!(output.status.code(), Some(1), "a day that lies ahead");
}

/// Every question about health, answered so that nothing stands in the way.
fn answer_about_health(folder: &Path) {
    assert!(run_with(folder, &["suitability"], &"n\n".repeat(36)).status.success());
}

#[test]
fn on_an_empty_folder_health_is_asked_about_first_and_a_lock_refuses_the_test() {
    let place = tempfile::tempdir().unwrap();
    let arguments = ["assess", "one-leg", "--plain", "--silent"];
    let asked = run_with(place.path(), &arguments, "");
    let said = String::from_utf8(asked.stdout).unwrap();
    assert!(said.contains("come the questions about your health") && said.contains("1 of 36"), "{said}");
    assert!(asked.status.code() == Some(1) && !said.contains("somebody beside you"), "{said}");
    // The first, the heart, is a yes, and no clinician has agreed: no test.
    let heart = format!("y\nn\n{}y\n", "n\n".repeat(35));
    let refused = run_with(place.path(), &arguments, &heart);
    assert_eq!(refused.status.code(), Some(1));
    let said = String::from_utf8(refused.stdout).unwrap();
    assert!(said.contains("36 of 36") && !said.contains("somebody beside you"), "{said}");
    // Answered once, it is not asked again.
    let healthy = tempfile::tempdir().unwrap();
    let led = run_with(healthy.path(), &arguments, &"n\n".repeat(36));
    assert!(String::from_utf8(led.stdout).unwrap().contains("somebody beside you"));
    let again = run_with(healthy.path(), &arguments, "");
    assert!(!String::from_utf8(again.stdout).unwrap().contains("of 36"));
}

#[test]
fn a_test_is_led_on_a_pipe_and_the_end_of_input_keeps_nothing() {
    let place = tempfile::tempdir().unwrap();
    answer_about_health(place.path());
    let arguments = ["assess", "one-leg", "--plain", "--silent"];
    // Alone, all true; then the input ends in the middle.
    let output = run_with(place.path(), &arguments, "n\nn\nn\nn\nn\nn\nn\nn\ny\n\n");
    let said = String::from_utf8(output.stdout).unwrap();
    assert!(output.status.success() && said.contains("Beside the counter"), "{said}");
    assert!(printed(place.path(), &["assess", "results"]).contains("No balance test has been saved yet"));
    let output = run_with(place.path(), &["assess", "five-rises", "--plain", "--silent"], "n\n\n");
    assert!(String::from_utf8(output.stdout).unwrap().contains("Ask somebody to come"));
}

#[test]
fn under_a_lock_no_test_is_taken() {
    let place = tempfile::tempdir().unwrap();
    // Thirty-six questions about suitability; yes to the first, the heart, and no doctor agreed.
    let answers: String =
        format!("yn{}", "n".repeat(35)).chars().map(|letter| format!("{letter}\n")).collect();
    assert!(run_with(place.path(), &["suitability"], &answers).status.success());
    let output = run_with(place.path(), &["assess", "--plain", "--silent"], "2\n");
    assert_eq!(output.status.code(), Some(1));
    assert!(String::from_utf8(output.stderr).unwrap().contains("talk to a clinician before you practice"));
}
