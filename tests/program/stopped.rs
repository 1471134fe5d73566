//! What a practice makes of a process that was stopped and goes on, as by a closed lid, and of one that was killed.
#![cfg(unix)]

use std::fs;
use std::io::Write;
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::sync::mpsc::Receiver;
use std::time::{Duration, Instant};

use crate::run::{pieces, run_with};

/// Long enough for a loaded machine; no test asserts on how long anything took.
const PATIENCE: Duration = Duration::from_secs(60);

/// A practice in plain lines without sound.
struct Practice {
    child: Child,
    printed: Receiver<Vec<u8>>,
    so_far: String,
}

impl Practice {
    fn start(folder: &Path) -> Self {
        let mut child = Command::new(env!("CARGO_BIN_EXE_counterpoise"))
            .args(["practice", "gentle", "--plain", "--silent"])
            .env("COUNTERPOISE_DATA", folder.join("data"))
            .current_dir(folder)
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        let printed = pieces(child.stdout.take().unwrap());
        Self { child, printed, so_far: String::new() }
    }

    /// Types these lines.
    fn types(&mut self, lines: &[&str]) -> &mut Self {
        let all: String = lines.iter().map(|line| format!("{line}\n")).collect();
        self.child.stdin.as_mut().unwrap().write_all(all.as_bytes()).unwrap();
        self
    }

    /// Waits until this is printed, and forgets what came before.
    fn until(&mut self, wanted: &str) -> &mut Self {
        let end = Instant::now() + PATIENCE;
        loop {
            if let Some(at) = self.so_far.find(wanted) {
                self.so_far.drain(..at + wanted.len());
                return self;
            }
            match self.printed.recv_timeout(end.saturating_duration_since(Instant::now())) {
                Ok(bytes) => self.so_far.push_str(&String::from_utf8_lossy(&bytes)),
                Err(error) => panic!("{wanted:?} never came ({error}): {}", self.so_far),
            }
        }
    }

    /// To the work of the first set.
    fn reach_the_first_set(&mut self) -> &mut Self {
        self.types(&["", "", "", "n", "n", "n", "n", "n", "n", "n", "n", "n", "y"])
            .until("Warm-up")
            .types(&[".", "y"]);
        self.until("How to stand").types(&["."]).until("LISTEN")
    }

    fn signal(&self, name: &str) {
        let pid = self.child.id().to_string();
        assert!(Command::new("kill").args(["-s", name, &pid]).status().unwrap().success());
    }
}

impl Drop for Practice {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

fn journal(folder: &Path) -> serde_json::Value {
    let output = run_with(folder, &["journal", "export", "--format", "sessions"], "");
    serde_json::from_slice(&output.stdout).unwrap()
}

#[test]
fn a_program_that_was_stopped_in_a_set_ends_it_as_interrupted_and_says_so() {
    let place = tempfile::tempdir().unwrap();
    let mut practice = Practice::start(place.path());
    practice.reach_the_first_set();
    practice.signal("STOP");
    std::thread::sleep(Duration::from_millis(2_500));
    practice.signal("CONT");
    practice.until("The computer slept or stopped, so the set has ended.");
    drop(practice.child.stdin.take());
    practice.child.wait().unwrap();
    let sessions = journal(place.path());
    let end = &sessions["sessions"][0]["sets"][0]["end"];
    assert_eq!(end["why"], "interrupted: the computer slept or stopped", "{sessions:#}");
    assert!(end["worked_ms"].as_u64().unwrap() < 30_000, "only what was done before: {end}");
}

/// Killed in the work of a set: it is not known what happened. The next start asks, one thing at a time, and nothing else
/// comes before it; left unanswered it is asked again, and nothing starts.
#[test]
fn after_a_practice_that_was_killed_the_next_start_asks_before_anything_else() {
    let place = tempfile::tempdir().unwrap();
    let mut practice = Practice::start(place.path());
    practice.reach_the_first_set().signal("KILL");
    drop(practice);
    let next = |lines: &str| {
        let output = run_with(place.path(), &["practice", "gentle", "--plain", "--silent"], lines);
        let [out, err] =
            [&output.stdout, &output.stderr].map(|text| String::from_utf8_lossy(text).into_owned());
        (out, err, output.status.success())
    };
    let (out, err, well) = next("\n\n");
    assert!(out.contains("Your last practice\n\nDid you fall in the practice on "), "{out}");
    assert!(!well && !out.contains("Gentle start") && err.contains("counterpoise practice"), "{out}{err}");
    let (out, _, well) = next("n\n");
    assert!(!well && out.contains("Did you feel unwell in the practice on "), "{out}");
    let (out, _, _) = next("n\n\n");
    assert!(!out.contains("Did you fall"), "what is answered is not asked again: {out}");
    assert!(out.contains("Gentle start at the counter"), "then it begins: {out}");
    let answers = journal(place.path())["sessions"][0]["answers"].clone();
    for question in ["fell in that practice", "felt unwell in that practice"] {
        let kept = answers.as_array().unwrap().iter().find(|answer| answer["question"] == question);
        assert_eq!(kept.unwrap()["answer"], 0, "of the practice that was killed: {answers:#}");
    }
}

#[test]
fn a_fall_that_is_told_at_the_next_start_counts_as_one_in_that_practice() {
    for (lines, said) in [
        ("y\nn\nn\nn\n", "a fall without injury"),
        ("u\nn\nn\nn\n", "a fall without injury"),
        ("y\nu\nn\nn\n", "a fall that may have hurt"),
        ("y\nn\nu\nn\n", "a knock to the head"),
        ("n\nu\n1\n", "chest pain or pressure"),
        ("y\n", "a fall that may have hurt"),
    ] {
        let place = tempfile::tempdir().unwrap();
        let mut practice = Practice::start(place.path());
        practice.reach_the_first_set().signal("KILL");
        drop(practice);
        run_with(place.path(), &["practice", "gentle", "--plain", "--silent"], lines);
        let output = run_with(place.path(), &["next"], "");
        let next = String::from_utf8_lossy(&output.stdout);
        assert!(next.contains(said), "{lines:?}: {next}");
    }
}

/// One decision for every command: a session without an end goes on while somebody practices, else it was interrupted.
#[test]
fn whoever_looks_at_a_practice_that_goes_on_or_was_killed_says_what_the_next_start_says() {
    let place = tempfile::tempdir().unwrap();
    let shown = |arguments: &[&str], lines: &str| {
        let output = run_with(place.path(), arguments, lines);
        String::from_utf8_lossy(&[output.stdout, output.stderr].concat()).into_owned()
    };
    let next =
        || -> serde_json::Value { serde_json::from_str(&shown(&["next", "--format", "json"], "")).unwrap() };
    let mut practice = Practice::start(place.path());
    practice.reach_the_first_set();
    let going_on = "A practice is going on in another window";
    let while_it_goes_on = next();
    assert_eq!(
        (&while_it_goes_on["state"], &while_it_goes_on["offers"]),
        (&"going on".into(), &serde_json::json!([]))
    );
    assert!(while_it_goes_on["said"].as_str().unwrap().starts_with(going_on), "{while_it_goes_on}");
    for command in ["next", "program", "progress", "sheet --out week.html", "track --out today.wav"] {
        let said = shown(&command.split(' ').collect::<Vec<_>>(), "");
        let said = said.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(said.contains(going_on), "{command}: {said}");
    }
    assert!(fs::read_dir(place.path()).unwrap().count() == 1, "only the data");
    assert!(shown(&["journal", "list"], "").contains("going on"));

    practice.signal("KILL");
    drop(practice);
    let looked = shown(&["journal", "list"], "");
    assert!(looked.contains("interrupted") && !looked.contains("going on"), "{looked}");
    let sets = |export: &serde_json::Value| export["sessions"][0]["sets"].clone();
    let export = journal(place.path());
    assert_eq!(export["sessions"][0]["end"]["why"], "interrupted", "{export:#}");
    assert_eq!(next()["state"], "to answer");
    // The next start keeps what was only seen before.
    let asked = shown(&["practice", "gentle", "--plain", "--silent"], "n\nn\n\n");
    assert!(asked.contains("are kept as interrupted") || asked.contains("is kept as interrupted"), "{asked}");
    assert_eq!(shown(&["journal", "list"], ""), looked);
    assert_eq!(sets(&journal(place.path())), sets(&export));
    let after = next();
    assert_eq!(after["state"], "to finish", "{after}");
    let goes_on = after["said"].as_str().unwrap();
    let practice = shown(&["practice", "gentle", "--plain", "--silent"], "");
    assert!(goes_on.contains("it goes on with set ") && practice.contains(goes_on), "{goes_on}: {practice}");
}
