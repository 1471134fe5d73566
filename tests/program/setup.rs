//! Set-up from outside: one line an answer, nothing kept before the last, several people on one computer; and the cautions
//! on every surface that starts practice.

use std::fs;
use std::path::Path;
use std::process::{Command, Output, Stdio};

use crate::run::{PARTNER_SUITS, lines};

fn run_in(home: &Path, arguments: &[&str], input: &str) -> Output {
    use std::io::Write;
    let mut child = Command::new(env!("CARGO_BIN_EXE_counterpoise"))
        .args(arguments)
        .env_remove("COUNTERPOISE_DATA")
        .env("HOME", home)
        .env("XDG_DATA_HOME", home.join("share"))
        .env("APPDATA", home.join("share"))
        .current_dir(home)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let _ = child.stdin.take().unwrap().write_all(input.as_bytes());
    child.wait_with_output().unwrap()
}

fn printed(home: &Path, arguments: &[&str], input: &str) -> String {
    let output = run_in(home, arguments, input);
    assert_eq!(output.status.code(), Some(0), "{arguments:?}: {}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).unwrap()
}

fn refused(home: &Path, arguments: &[&str], input: &str) -> String {
    let output = run_in(home, arguments, input);
    let said = String::from_utf8(output.stderr).unwrap();
    assert_eq!(output.status.code(), Some(1), "{arguments:?}: {said}");
    assert!(said.contains("Error: ") && said.contains("Hint: "), "{said}");
    said
}

/// Name, emergency number, whether it was read back right, contact, left, right, behind, distance, hearing aids, glasses, the room.
const ANSWERS: [&str; 11] = ["Ada", "911", "y", "Ben, 555 0100", "1", "2", "0", "2", "y", "4", "y"];

fn answers(changes: &[(usize, &str)]) -> String {
    let mut answers = ANSWERS;
    for (place, answer) in changes {
        answers[*place] = answer;
    }
    answers.map(|answer| format!("{answer}\n")).concat()
}

/// Everything in a folder, for "nothing was changed".
fn files(folder: &Path) -> Vec<String> {
    let mut found = Vec::new();
    let mut waiting = vec![folder.to_owned()];
    while let Some(path) = waiting.pop() {
        for entry in fs::read_dir(&path).into_iter().flatten().flatten() {
            if entry.path().is_dir() {
                waiting.push(entry.path());
            } else {
                found.push(entry.path().display().to_string());
            }
        }
    }
    found.sort();
    found
}

fn settings(home: &Path) -> std::path::PathBuf {
    let found = files(home).into_iter().find(|file| file.ends_with("settings.toml"));
    found.expect("the settings are there").into()
}

#[test]
fn what_is_answered_is_kept_and_what_is_passed_over_stays() {
    let home = tempfile::tempdir().unwrap();
    let said = printed(home.path(), &["setup", "--silent"], &answers(&[]));
    assert!(
        said.contains("lenses with two strengths") && said.contains("counterpoise suitability"),
        "{said}"
    );
    let kept = fs::read_to_string(settings(home.path())).unwrap();
    for line in [
        "name = \"Ada\"",
        "emergency_number = \"911\"",
        "contact = \"Ben, 555 0100\"",
        "left = \"window\"",
        "right = \"door\"",
        "behind = \"unknown\"",
        "screen_distance_m = 2",
        "hearing_aids = true",
        "glasses = \"bifocals or varifocals\"",
    ] {
        assert!(kept.contains(line), "{line}\n{kept}");
    }
    // Empty lines leave everything as it is; only the room has to be looked at again.
    printed(home.path(), &["setup", "--silent"], "\n\n\n\n\n\n\n\n\ny\n");
    assert_eq!(fs::read_to_string(settings(home.path())).unwrap(), kept);
    let changed = printed(home.path(), &["setup", "--silent"], "\nu\n-\n\n\n\n\n\n2\ny\n");
    assert!(changed.contains("Press Enter to keep: 911"), "{changed}");
    let now = fs::read_to_string(settings(home.path())).unwrap();
    assert!(
        now.contains("emergency_number = \"unknown\"")
            && now.contains("# contact")
            && now.contains("\"distance\"")
    );
    assert!(changed.lines().all(|line| line.chars().count() <= 80), "{changed}");
}

#[test]
fn the_emergency_number_is_filled_in_or_said_to_be_unknown_and_never_assumed() {
    let home = tempfile::tempdir().unwrap();
    for number in ["", "my daughter", "9"] {
        let said = refused(home.path(), &["setup", "--silent"], &answers(&[(1, number)]));
        assert!(said.contains("emergency_number"), "{said}");
        assert!(files(home.path()).is_empty(), "nothing was kept");
    }
    let unknown = answers(&[(1, "U")]).replacen("y\n", "", 1);
    let said = printed(home.path(), &["setup", "--silent"], &unknown);
    assert!(
        said.split_whitespace().collect::<Vec<_>>().join(" ").contains("call your local emergency number"),
        "{said}"
    );
    assert!(fs::read_to_string(settings(home.path())).unwrap().contains("emergency_number = \"unknown\""));
}

#[test]
fn the_emergency_number_is_read_back_digit_by_digit_and_a_no_asks_for_it_again() {
    let home = tempfile::tempdir().unwrap();
    let corrected = answers(&[(1, "119\nn\n911")]);
    let said = printed(home.path(), &["setup", "--silent"], &corrected);
    for ask in ["CALL 1 1 9. Is that right?", "CALL 9 1 1. Is that right?"] {
        assert!(said.contains(ask), "{ask}\n{said}");
    }
    assert!(fs::read_to_string(settings(home.path())).unwrap().contains("emergency_number = \"911\""));
}

/// A prescription may be in order while nobody knows whom to call.
#[test]
fn check_flags_an_unknown_emergency_number_once_there_are_settings() {
    let home = tempfile::tempdir().unwrap();
    let check = |named: &[&str]| printed(home.path(), &[&["check"][..], named].concat(), "");
    let flag = "The emergency number is unknown.";
    assert!(!check(&["gentle"]).contains(flag), "nobody is set up here");
    let unknown = answers(&[(1, "U")]).replacen("y\n", "", 1);
    printed(home.path(), &["setup", "--silent"], &unknown);
    for named in [&[][..], &["gentle"]] {
        assert!(check(named).contains(flag), "{}", check(named));
        let json: serde_json::Value =
            serde_json::from_str(&check(&[named, &["--format", "json"]].concat())).unwrap();
        assert!(json["warnings"].to_string().contains(flag), "{json}");
    }
    printed(home.path(), &["setup", "--silent"], &answers(&[]));
    assert!(!check(&[]).contains(flag));
}

#[test]
fn nothing_is_kept_before_the_last_answer() {
    let whole = answers(&[]);
    for end in whole.char_indices().filter(|(_, sign)| *sign == '\n').map(|(at, _)| at + 1) {
        if end == whole.len() {
            break;
        }
        let home = tempfile::tempdir().unwrap();
        let said = refused(home.path(), &["setup", "--silent"], &whole[..end]);
        assert!(said.contains("nothing was changed"), "{said}");
        assert!(files(home.path()).is_empty());
    }
    for (place, answer) in
        [(4, "10"), (4, "window"), (7, "0"), (7, "11"), (8, "perhaps"), (9, "5"), (10, "maybe")]
    {
        let home = tempfile::tempdir().unwrap();
        let said = refused(home.path(), &["setup", "--silent"], &answers(&[(place, answer)]));
        assert!(said.contains(answer), "{said}");
        assert!(files(home.path()).is_empty());
    }
}

#[test]
fn two_people_on_one_computer_have_a_journal_each_and_nobody_practices_as_somebody_else() {
    let home = tempfile::tempdir().unwrap();
    let home = home.path();
    printed(home, &["setup", "--silent"], &answers(&[(0, "")]));
    printed(home, &["assess", "score", "one-leg", "--result", "4", "--keep"], "");
    // Whoever was here until now is asked for a name, so that both can be told apart.
    let said = refused(home, &["setup", "--new", "--silent"], &format!("Ada\n{}", answers(&[(0, "ada")])));
    assert!(said.contains("has that name"), "{said}");
    printed(home, &["setup", "--new", "--silent"], &answers(&[(0, "*")]));
    // Now nobody is meant without a name.
    for arguments in [&["next"][..], &["track", "gentle", "--out", "x.wav"], &["journal", "list"]] {
        let said = refused(home, arguments, "");
        assert!(said.contains("2 people practice here") && said.contains("Ada, *"), "{said}");
    }
    assert!(!home.join("x.wav").exists(), "nobody knows whose locks hold");
    assert!(printed(home, &["assess", "results", "--person", "ADA"], "").contains("4.0 s"));
    assert!(printed(home, &["assess", "results", "--person", "*"], "").contains("No balance test"));
    assert!(refused(home, &["next", "--person", "Eve"], "").contains("nobody called \"Eve\""));
    for (person, title) in [("*", "*: Gentle start"), ("ada", "Ada: Gentle start")] {
        let said = printed(home, &["practice", "--plain", "--silent", "--person", person], "");
        assert!(said.contains(title), "{said}");
    }
    // A third; and no name stands in a path.
    printed(home, &["setup", "--new", "--silent"], &answers(&[(0, "Cy")]));
    assert!(refused(home, &["next"], "").contains("Ada, *, Cy"));
    assert!(
        files(home).iter().all(|file| !file.contains("Ada") && !file.contains("Cy")),
        "{:?}",
        files(home)
    );
}

#[test]
fn names_with_dots_spaces_and_any_letters_are_peoples_and_folders_names() {
    let home = tempfile::tempdir().unwrap();
    let home = home.path();
    let names = ["A.", "Mary Ann", "Jürgen Ö.", "李", "dots..."];
    for (nth, name) in names.iter().enumerate() {
        let arguments: &[&str] =
            if nth == 0 { &["setup", "--silent"] } else { &["setup", "--new", "--silent"] };
        printed(home, arguments, &answers(&[(0, name)]));
    }
    let taken = refused(home, &["setup", "--new", "--silent"], &answers(&[(0, "mary  ann")]));
    assert!(taken.contains("has that name"), "{taken}");
    assert!(refused(home, &["next"], "").contains("They are: A., Mary Ann, Jürgen Ö., 李, dots..."));
    for (nth, typed) in ["a.", " mary  ann", "JÜRGEN ö.", "李", "Dots..."].into_iter().enumerate() {
        let said = printed(home, &["practice", "--plain", "--silent", "--person", typed], "");
        assert!(said.contains(&format!("{}: Gentle start", names[nth])), "{typed}: {said}");
    }
    // And a clinic's folders are called so.
    for name in names {
        let folder = home.join("clinic").join(name);
        fs::create_dir_all(&folder).unwrap();
        let folder = folder.to_str().unwrap().to_owned();
        let said = printed(
            home,
            &["--data-dir", &folder, "assess", "score", "one-leg", "--result", "4", "--keep"],
            "",
        );
        assert!(!said.is_empty() && home.join("clinic").join(name).join("journal.sqlite").exists(), "{name}");
    }
    let overview = printed(home, &["report", "--folder", "clinic"], "");
    assert!(names.iter().all(|name| overview.contains(name)), "{overview}");
}

#[test]
fn every_surface_that_starts_practice_says_what_comes_first_and_promises_nothing() {
    let home = tempfile::tempdir().unwrap();
    let home = home.path();
    let flat = |text: String| text.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase();
    let first =
        "local codes, the local emergency number, your therapist's advice and licensed practice come first";
    let track = ["track", "gentle", "--out", "a.wav", "--cue-sheet", "a.json"];
    let mut surfaces = vec![
        ("practice", printed(home, &["practice", "--plain", "--silent"], "")),
        (
            "practice with a partner",
            printed(
                home,
                &["practice", "with-a-partner", "--partner", "screen", "--plain", "--silent"],
                &lines(&PARTNER_SUITS),
            ),
        ),
        ("next", printed(home, &["next"], "")),
        ("program", printed(home, &["program"], "")),
        ("check", printed(home, &["check", "gentle"], "")),
        ("track", printed(home, &track, "")),
        ("setup", String::from_utf8(run_in(home, &["setup"], "").stdout).unwrap()),
    ];
    surfaces.push(("cue sheet", fs::read_to_string(home.join("a.json")).unwrap()));
    printed(home, &["track", "gentle", "--out", "tracks", "--count", "1"], "");
    surfaces.push(("list of tracks", fs::read_to_string(home.join("tracks/list.txt")).unwrap()));
    for (name, text) in surfaces {
        let text = flat(text);
        assert!(text.contains(first), "{name}: {text}");
        assert!(text.contains("nothing here promises to prevent falls"), "{name}: {text}");
    }
}

#[test]
fn who_is_new_is_told_of_the_set_up_once() {
    let home = tempfile::tempdir().unwrap();
    let first = |home: &Path| printed(home, &["practice", "--plain", "--silent"], "");
    assert!(first(home.path()).contains("counterpoise setup"));
    printed(home.path(), &["setup", "--silent"], &answers(&[]));
    assert!(!first(home.path()).contains("counterpoise setup"));
}
