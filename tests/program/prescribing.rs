//! Prescribing and handing over as a person does it: lines on standard input, files, a folder for a memory stick.

use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

use tempfile::TempDir;

fn counterpoise(folder: &Path) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_counterpoise"));
    command
        .env("COUNTERPOISE_DATA", folder.join("data"))
        .env_remove("COUNTERPOISE_STICK")
        .current_dir(folder);
    command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
    command
}

/// Types these lines, then ends the input.
fn typed(command: &mut Command, lines: &[&str]) -> Output {
    let mut child = command.spawn().unwrap();
    let text: String = lines.iter().map(|line| format!("{line}\n")).collect();
    // A program that has ended does not read on.
    let _ = child.stdin.take().unwrap().write_all(text.as_bytes());
    child.wait_with_output().unwrap()
}

fn prescribe(folder: &Path, arguments: &[&str], lines: &[&str]) -> Output {
    typed(counterpoise(folder).arg("prescribe").args(arguments), lines)
}

fn out(output: &Output) -> String {
    assert_eq!(output.status.code(), Some(0), "{}", err(output));
    String::from_utf8(output.stdout.clone()).unwrap()
}

fn err(output: &Output) -> String {
    String::from_utf8(output.stderr.clone()).unwrap()
}

fn place() -> TempDir {
    tempfile::tempdir().unwrap()
}

/// Everything in a folder, the person's own apart.
fn files(folder: &Path) -> Vec<String> {
    let entries =
        fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().file_name().into_string().unwrap());
    let mut names: Vec<String> = entries.filter(|name| name != "data").collect();
    names.sort();
    names
}

const WALK: [&str; 13] = ["1", "For A., first month", "K. L.", "", "", "", "", "", "", "", "", "w", ""];

/// As many lines as lead to the overview, then W and a file.
fn walk(file: &str) -> Vec<&str> {
    vec!["1", "For A., first month", "K. L.", "", "", "2", "", "", "", "", "", "w", file]
}

#[test]
fn a_prescription_is_written_and_check_reads_it_back() {
    let place = place();
    let said = out(&prescribe(place.path(), &[], &walk("a.toml")));
    assert!(said.contains("Written: a.toml (digest "), "{said}");
    assert!(said.lines().all(|line| line.chars().count() <= 80), "{said}");
    let check = out(&typed(counterpoise(place.path()).args(["check", "a.toml"]), &[]));
    assert!(check.contains("Written by K. L. on "), "{check}");
    assert!(check.contains("2 days a week for"), "{check}");
    let sheet = out(&typed(counterpoise(place.path()).args(["check", "--handout", "a.toml"]), &[]));
    assert!(sheet.contains("Practice on 2 days a week, for 12 weeks."), "{sheet}");
    assert!(sheet.lines().all(|line| line.chars().count() <= 78), "{sheet}");
    assert!(
        !sheet.contains("of 100") && !sheet.contains("six hours") && !sheet.contains("seed"),
        "not for the person"
    );
    assert_eq!(files(place.path()), ["a.toml"], "and nothing beside it");
}

#[test]
fn an_end_of_input_anywhere_leaves_nothing() {
    let place = place();
    let whole = walk("a.toml");
    for end in 0..whole.len() {
        let output = prescribe(place.path(), &[], &whole[..end]);
        assert_eq!(output.status.code(), Some(1), "after {end} lines");
        assert!(err(&output).contains("nothing was written"), "{}", err(&output));
        assert_eq!(files(place.path()), Vec::<String>::new(), "after {end} lines");
    }
}

#[test]
fn a_wrong_answer_on_a_pipe_stops_with_the_gates_words() {
    let place = place();
    let output = prescribe(place.path(), &[], &["1", "", "", "", "", "7", "w", "a.toml"]);
    assert_eq!(output.status.code(), Some(1));
    assert!(
        err(&output).contains("Error: `days_a_week` is 7; the most is 6\nHint: One day a week stays free."),
        "{}",
        err(&output)
    );
    assert_eq!(files(place.path()), Vec::<String>::new());
}

#[test]
fn a_file_that_is_there_is_replaced_only_after_a_yes() {
    let place = place();
    let path = place.path().join("a.toml");
    fs::write(&path, "mine").unwrap();
    for no in [&["no"][..], &[""], &[]] {
        let lines = [&walk("a.toml")[..], no].concat();
        assert_eq!(prescribe(place.path(), &[], &lines).status.code(), Some(1));
        assert_eq!(fs::read_to_string(&path).unwrap(), "mine");
    }
    let lines = [&walk("a.toml")[..], &["yes"]].concat();
    out(&prescribe(place.path(), &[], &lines));
    assert!(fs::read_to_string(&path).unwrap().contains("For A., first month"));
}

#[test]
fn an_edited_one_keeps_what_was_not_asked_and_says_what_changed() {
    let place = place();
    out(&prescribe(place.path(), &[], &WALK.iter().copied().take(12).chain(["a.toml"]).collect::<Vec<_>>()));
    let before = fs::read_to_string(place.path().join("a.toml")).unwrap();
    let said = out(&prescribe(place.path(), &["--from", "a.toml"], &["4", "2", "w", "", "y"]));
    assert!(said.contains("What was changed:\n  Days a week: 3 -> 2\n"), "{said}");
    let after = fs::read_to_string(place.path().join("a.toml")).unwrap();
    let lines = |text: &str| {
        text.lines().filter(|line| !line.starts_with("# seal")).map(str::to_owned).collect::<Vec<_>>()
    };
    let (before, after) = (lines(&before), lines(&after));
    let differ: Vec<_> = before.iter().zip(&after).filter(|(a, b)| a != b).collect();
    assert_eq!((differ.len(), before.len()), (1, after.len()), "{differ:?}");
}

#[test]
fn the_therapists_own_notes_and_order_stay() {
    let place = place();
    let own = include_str!("../../presets/prescriptions/gentle.toml")
        .replace("weeks = 12\n", "  weeks   =12   # until Christmas\n# ask about the dog\n");
    assert!(own.contains("Christmas"));
    fs::write(place.path().join("a.toml"), &own).unwrap();
    out(&prescribe(place.path(), &["--from", "a.toml"], &["5", "8", "w", "", "y"]));
    let written = fs::read_to_string(place.path().join("a.toml")).unwrap();
    let (text, seal) = written.split_at(written.find("# seal: ").unwrap());
    assert_eq!(text, own.replace("weeks   =12", "weeks   =8"));
    assert_eq!(seal.lines().count(), 1);
}

#[cfg(unix)]
#[test]
fn a_place_that_cannot_be_written_is_said_and_nothing_is_left() {
    let place = place();
    for file in ["/dev/full/a.toml", "/proc/a.toml", "no/such/folder/a.toml"] {
        let output = prescribe(place.path(), &[], &walk(file));
        assert_eq!(output.status.code(), Some(1));
        assert!(err(&output).contains("cannot be written"), "{}", err(&output));
    }
    assert_eq!(files(place.path()), Vec::<String>::new());
    // Standard output that is full, as on a full disk: the questions cannot be put, and nothing is written.
    let full = fs::File::options().write(true).open("/dev/full");
    if let Ok(full) = full {
        let mut command = counterpoise(place.path());
        let output = typed(command.arg("prescribe").stdout(full), &walk("a.toml"));
        assert_eq!(output.status.code(), Some(1));
        assert_eq!(files(place.path()), Vec::<String>::new());
    }
}

/// A limit on the size of files stands for a full disk: writing fails in the same place.
#[cfg(unix)]
#[test]
fn a_full_disk_leaves_nothing_half() {
    let place = place();
    let sh = "trap '' XFSZ; ulimit -f 0; exec \"$0\" prescribe";
    let mut command = Command::new("sh");
    command.args(["-c", sh, env!("CARGO_BIN_EXE_counterpoise")]).current_dir(place.path());
    command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
    let output = typed(&mut command, &walk("a.toml"));
    assert_eq!(output.status.code(), Some(1));
    assert!(err(&output).contains("a.toml cannot be written"), "{}", err(&output));
    assert_eq!(files(place.path()), Vec::<String>::new());
}

#[cfg(unix)]
#[test]
fn an_interrupt_leaves_nothing() {
    let place = place();
    let mut child = counterpoise(place.path()).arg("prescribe").spawn().unwrap();
    child.stdin.as_mut().unwrap().write_all(b"1\nFor A.\n").unwrap();
    let killed = Command::new("kill").args(["-INT", &child.id().to_string()]).status().unwrap();
    assert!(killed.success());
    let output = child.wait_with_output().unwrap();
    assert_ne!(output.status.code(), Some(0));
    assert_eq!(files(place.path()), Vec::<String>::new());
}

/// A folder that stands for a stick, with one prescription on it.
fn stick(place: &Path) -> PathBuf {
    let stick = place.join("stick");
    fs::create_dir_all(stick.join("counterpoise")).unwrap();
    out(&prescribe(place, &[], &walk("stick/counterpoise/a.toml")));
    stick
}

fn with_stick(folder: &Path, stick: &Path, arguments: &[&str], lines: &[&str]) -> Output {
    typed(counterpoise(folder).env("COUNTERPOISE_STICK", stick).args(arguments), lines)
}

#[test]
fn a_prescription_on_a_stick_is_taken_after_a_yes_and_never_else() {
    let place = place();
    let stick = stick(place.path());
    let in_use = place.path().join("data/prescription.toml");
    for answer in [&["no"][..], &[""], &[]] {
        let output = with_stick(place.path(), &stick, &["use", "--from-stick"], answer);
        assert_eq!(output.status.code(), Some(1), "{answer:?}");
        assert!(!in_use.exists(), "{answer:?}");
    }
    let said = out(&with_stick(place.path(), &stick, &["use", "--from-stick"], &["yes"]));
    let words = said.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(words.contains("\"For A., first month\", from K. L., issued "), "{said}");
    assert_eq!(fs::read(&in_use).unwrap(), fs::read(stick.join("counterpoise/a.toml")).unwrap());
}

#[test]
fn the_start_offers_a_new_one_once_and_names_what_cannot_be_used() {
    let place = place();
    let stick = stick(place.path());
    let good = fs::read_to_string(stick.join("counterpoise/a.toml")).unwrap();
    fs::write(stick.join("edited.toml"), good.replace("weeks = 12", "weeks = 13")).unwrap();
    fs::write(stick.join("wrong.toml"), good.replace("weeks = 12", "weeks = 99")).unwrap();
    let start = |lines: &[&str]| {
        let output = with_stick(place.path(), &stick, &["practice", "--plain", "--silent"], lines);
        String::from_utf8(output.stdout).unwrap()
    };
    let said = start(&["no"]);
    let words = said.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        words.contains("wrong.toml cannot be used: `weeks` is 99; the most is 52"),
        "the gate's words: {said}"
    );
    assert!(words.contains("Use it from now on?"), "{said}");
    assert!(!place.path().join("data/prescription.toml").exists(), "no is no");
    assert!(!start(&[]).contains("Use it from now on?"), "it is not asked for the same one again");
}

#[test]
fn a_file_that_was_changed_after_it_came_into_use_is_said() {
    let place = place();
    let stick = stick(place.path());
    out(&with_stick(place.path(), &stick, &["use", "--from-stick"], &["yes"]));
    let next = |arguments: &[&str]| out(&typed(counterpoise(place.path()).args(arguments), &[]));
    assert!(!next(&["next"]).contains("is not the one"), "as it was handed over");
    let in_use = place.path().join("data/prescription.toml");
    let text = fs::read_to_string(&in_use).unwrap();
    fs::write(&in_use, text.replace("days_a_week = 2", "days_a_week = 6")).unwrap();
    let words = |text: String| text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        words(next(&["next"])).contains("Note: the prescription in use is not the one that came into use on")
    );
    let json = next(&["next", "--format", "json"]);
    assert!(json.contains("\"prescription_changed\": true"), "{json}");
    assert!(
        words(next(&["use", "gentle"])).contains("is not the one that came into use on"),
        "and when another one comes"
    );
    assert!(!next(&["next"]).contains("is not the one"));
}

#[test]
fn the_journal_goes_back_on_the_stick() {
    let place = place();
    let stick = stick(place.path());
    out(&with_stick(place.path(), &stick, &["use", "--from-stick"], &["yes"]));
    let said = out(&with_stick(place.path(), &stick, &["journal", "export", "--to-stick"], &[]));
    assert!(said.contains("Written: "), "{said}");
    let names = files(&stick.join("counterpoise"));
    assert_eq!(names.len(), 2, "{names:?}");
    let journal = fs::read_to_string(stick.join("counterpoise").join(&names[1])).unwrap();
    assert!(journal.contains("\"counterpoise.journal/2\""));
    let none = place.path().join("none");
    let output = with_stick(place.path(), &none, &["journal", "export", "--to-stick"], &[]);
    assert!(err(&output).contains("no memory stick was found"), "{}", err(&output));
}

#[test]
fn a_try_out_begins_with_a_name_and_writes_into_no_ready_one() {
    let place = place();
    let output = prescribe(place.path(), &["--try", "--from", "gentle", "--plain"], &["K. L."]);
    assert!(err(&output).contains("is a ready prescription"), "{}", err(&output));
    out(&prescribe(place.path(), &[], &walk("a.toml")));
    let output =
        prescribe(place.path(), &["--try", "--from", "a.toml", "--plain"], &["", "2", "1", "6", "y"]);
    assert_eq!(output.status.code(), Some(1));
    assert!(err(&output).contains("nobody was named as watching"), "{}", err(&output));
    let said = String::from_utf8(output.stdout).unwrap();
    assert!(said.contains("It may run drills and steps that"), "the page says what it is: {said}");
    assert!(!place.path().join("data").exists(), "nothing was begun");
}

/// Reads what the program says, and answers each page of it as somebody does to whom nothing happens.
fn walked(child: &mut std::process::Child) -> String {
    use std::io::{BufRead, BufReader};
    let mut input = child.stdin.take().unwrap();
    let mut said = String::new();
    let out = BufReader::new(child.stdout.take().unwrap());
    let mut key = None;
    for line in out.lines() {
        let line = line.unwrap();
        said.push_str(&line);
        said.push('\n');
        // The questions after a set list their answers, one a line; a page has one line of keys below it.
        key = match line.split("  ").next().unwrap_or_default() {
            "Y" if line.contains("leave it out") => Some("y"),
            "N" => Some("n"),
            "0" => Some("0"),
            "1" if !said.contains("Which drill") || said.contains("LISTEN") => Some("1"),
            _ => key,
        };
        if line.starts_with("U   not sure") {
            // The line of keys is the same for each of these, and stands there once.
            key = None;
            let _ = writeln!(input, "n");
        } else if line.starts_with("What did the feet do") {
            for words in ["small sway, soles flat", "nothing", "", "yes"] {
                let _ = writeln!(input, "{words}");
            }
        } else if line.starts_with("Keys: ") && !line.contains("pause") {
            // The good answer to a page: none of what is bad, all of what is good.
            let page = if line.contains("Y: yes, one or more") {
                "n"
            } else if line.contains("Y: yes, all of it") {
                "y"
            } else {
                ""
            };
            let answer = key.take().unwrap_or(page);
            let _ = writeln!(input, "{answer}");
        } else if said.contains("LISTEN") && line.starts_with("Enter ") {
            // Pages after the first question have no line of keys of their own.
            if let Some(answer) = key.take() {
                let _ = writeln!(input, "{answer}");
            }
        }
    }
    said
}

/// A reach backward, which is locked, is watched once in the room, and unlocked with name and date.
#[test]
fn a_try_out_runs_what_is_locked_and_unlocks_it_after_a_yes() {
    let place = place();
    // Reaches in sets of 14 s, so that this takes no longer than it must.
    let lines =
        ["1", "For A.", "K. L.", "", "l", "12", "2", "8", "4 5", "7", "2", "6", "14", "l", "w", "a.toml"];
    out(&prescribe(place.path(), &[], &lines));
    let mut command = counterpoise(place.path());
    command.args(["prescribe", "--try", "--from", "a.toml", "--plain", "--silent"]);
    let mut child = command.spawn().unwrap();
    child.stdin.as_mut().unwrap().write_all(b"K. L.\n2\n1\n6\ny\n").unwrap();
    let said = walked(&mut child);
    let output = child.wait_with_output().unwrap();
    assert_eq!(output.status.code(), Some(0), "{said}\n{}", err(&output));
    assert!(said.contains("Ready today"), "readiness is asked: {said}");
    assert!(said.contains("Unlocked and written: backward (a.toml)."), "{said}");
    let file = fs::read_to_string(place.path().join("a.toml")).unwrap();
    assert!(file.contains("name = \"backward\"\nwatched_by = \"K. L.\"\n"), "{file}");
    let shown = out(&typed(counterpoise(place.path()).args(["journal", "show"]), &[]));
    assert!(shown.contains("A try-out: it does not count as practice. Watched by: K. L."), "{shown}");
    assert!(
        shown.contains("Seen, feet: small sway, soles flat") && shown.contains("Seen, unlocked: backward"),
        "{shown}"
    );
    let next = out(&typed(counterpoise(place.path()).arg("next"), &[]));
    assert!(next.contains("This is the first practice of this program."), "it counts as no practice: {next}");
}
