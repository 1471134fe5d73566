//! The overview of many people: what it reads fast leads to the same decisions as everything that is kept, each line agrees
//! with `next` of that person, and what cannot be read is named and left alone.

use std::fs;
use std::path::Path;
use std::process::{Command, Output};

use counterpoise::journal::import::import;
use counterpoise::journal::{Folder, Journal};
use counterpoise_core::course::past::Past;
use counterpoise_core::course::progression::{Fitness, Next};
use counterpoise_core::plan::prescription::Prescription;
use jiff::ToSpan;
use jiff::civil::date;
use rand::rngs::ChaCha12Rng;
use rand::seq::IndexedRandom;
use rand::{RngExt, SeedableRng};
use serde_json::{Value, json};

use crate::{history, lived};

/// An invented history in which much goes wrong: falls, grabs, hard sets, pages that were not all true, symptoms, another
/// prescription in between, sessions in which nothing was begun.
fn troubled(number: u64) -> Value {
    let mut rng = ChaCha12Rng::seed_from_u64(number ^ 0xfee1);
    let first = date(2026, 1, 5);
    let history = history::History {
        number,
        first,
        sessions: rng.random_range(1..40),
        pushes: number.is_multiple_of(2),
    };
    let mut export = history.export();
    lived::lived(&mut export, number);
    let other = "sha256:".to_owned() + &"ab".repeat(32);
    let sessions = export["sessions"].as_array_mut().unwrap();
    let from = rng.random_range(0..40);
    for (nth, session) in sessions.iter_mut().enumerate() {
        if (from..from + 9).contains(&nth) {
            session["start"]["digest"] = json!(other);
        }
        let last = json!(session["sets"].as_array().unwrap().len());
        let answer = |session: &mut Value, question: &str, answer: Value| {
            let answers = session["answers"].as_array_mut().unwrap();
            match answers.iter_mut().rfind(|row| row["question"] == question && row["set"] == last) {
                Some(row) => row["answer"] = answer,
                None => {
                    let place = 900 + answers.len();
                    answers
                        .push(json!({ "place": place, "set": last, "question": question, "answer": answer }));
                }
            }
        };
        let ready = |rows: &[(&str, bool)]| -> Value {
            rows.iter().map(|(item, is_true)| json!({ "item": item, "is_true": is_true })).collect()
        };
        // Every third is calm on most days, so that steps go up too.
        match rng.random_range(0..if number.is_multiple_of(3) { 200 } else { 18 }) {
            0 => {
                session["end"]["why"] = json!("fell");
                answer(
                    session,
                    "hurt or a knock to the head",
                    [json!(0), json!(1), Value::Null].choose(&mut rng).unwrap().clone(),
                );
            }
            1 => answer(session, "grabbed hold or nearly fell", json!(1)),
            2 => answer(session, "effort", json!(10)),
            3 => answer(session, "steadiness", json!(5)),
            4 => answer(session, "effort", Value::Null),
            5 => {
                answer(session, "unwell", json!(1));
                answer(session, "what felt wrong", json!(rng.random_range(1..=6)));
                session["end"]["why"] = json!("felt unwell");
            }
            6 => {
                session["ready"] = ready(&[
                    ("not fallen", false),
                    ("the fall did no harm", rng.random()),
                    ("the fall was over two days ago", rng.random()),
                ]);
            }
            7 => {
                session["ready"] = ready(&[
                    ("no chest pain", true),
                    ("not dizzy", false),
                    ("dizziness passed in five minutes", rng.random()),
                ]);
            }
            8 => session["ready"] = ready(&[("slept well", true), ("not sore", true)]),
            9 => {
                session["sets"] = json!([]);
                session["answers"] = json!([]);
                session["end"]["why"] = json!("not today");
                session["ready"] = ready(&[("not ill", false)]);
            }
            10 => answer(session, "held on", json!(3)),
            11 => {
                session["mishaps"] =
                    json!([{ "place": 990, "set": last, "at_ms": 1, "what": "fell", "cue": null }]);
            }
            12 => session["advised"] = json!([{ "place": 991, "set": last, "advice": "one step lower" }]),
            _ => {}
        }
    }
    export
}

fn filled(folder: &Folder, export: &Value) -> Journal {
    let (mut journal, _) = Journal::open(folder.lock().unwrap()).unwrap();
    import(&mut journal, "invented", export.to_string().as_bytes()).unwrap();
    journal
}

#[test]
fn what_is_read_fast_leads_to_the_same_decisions_as_everything() {
    let place = tempfile::tempdir().unwrap();
    let gentle = Prescription::ready("gentle").unwrap();
    let (mut decisions, mut corrected) = (Vec::new(), 0);
    for number in 0..40 {
        let folder = Folder::open_in(place.path().join(number.to_string())).unwrap();
        let journal = filled(&folder, &troubled(number));
        let contents = journal.contents().unwrap();
        let (whole, fast) = (Past::of(&contents), journal.trainee().unwrap().past);
        assert_eq!(whole, fast, "history {number}");
        let first = whole.sessions.first().map(|session| session.day).unwrap();
        let last = whole.sessions.last().map(|session| session.day).unwrap();
        for (from, after) in [0, 1, 2, 9, 30, 61, 200]
            .map(|after| (first, after))
            .into_iter()
            .chain([1, 2, 3, 4, 15].map(|after| (last, after)))
        {
            let now = from.saturating_add(after.days()).at(20, 0, 0, 0).in_tz("America/New_York").unwrap();
            let (a, b) = (
                Next::of(&whole, gentle, &Fitness::default(), &now),
                Next::of(&fast, gentle, &Fitness::default(), &now),
            );
            assert_eq!(a, b, "history {number}, {after} days after {from}");
            decisions.push(a.decision);
        }
        assert_eq!(whole.sittings().len(), fast.sittings().len());
        corrected += contents.corrections.len();
    }
    assert!(corrected > 10, "{corrected} corrections");
    // The histories must meet what they are about.
    for decision in ["up", "hold", "down", "rest", "locked"] {
        assert!(decisions.iter().any(|found| found.name() == decision), "{decision}");
    }
}

fn run(folder: &Path, arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_counterpoise")).args(arguments).current_dir(folder).output().unwrap()
}

const ON: &str = "2026-03-02";

#[test]
fn each_line_agrees_with_what_is_next_for_that_person() {
    let place = tempfile::tempdir().unwrap();
    for number in 0..30 {
        let folder = Folder::open_in(place.path().join(format!("clinic/{number:02}"))).unwrap();
        drop(filled(&folder, &troubled(number)));
    }
    let overview = |arguments: &[&str]| {
        let output = run(place.path(), &[&["report", "--folder", "clinic", "--on", ON], arguments].concat());
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
        String::from_utf8(output.stdout).unwrap()
    };
    let value: Value = serde_json::from_str(&overview(&["--format", "json"])).unwrap();
    assert_eq!(value["schema"], "counterpoise.overview/1");
    let people = value["people"].as_array().unwrap();
    assert_eq!(people.len(), 30);
    for person in people {
        let name = person["name"].as_str().unwrap();
        let output = run(
            place.path(),
            &["--data-dir", &format!("clinic/{name}"), "next", "--on", ON, "--format", "json"],
        );
        let next: Value = serde_json::from_slice(&output.stdout).unwrap();
        assert_eq!(person["next"], next["decision"], "{name}");
        // The trainee hears the strongest reason; the therapist sees all of them.
        let barred: Vec<&str> =
            next["barred"].as_array().unwrap().iter().map(|line| line.as_str().unwrap()).collect();
        let is_open = ["due", "to finish"].contains(&next["state"].as_str().unwrap());
        let because =
            if barred.is_empty() || is_open { next["reasons"][0].clone() } else { json!(barred.join(" ")) };
        assert_eq!(person["because"], because, "{name}");
        let locked = person["states"].as_array().unwrap().contains(&json!("locked"));
        assert_eq!(locked, next["decision"] == "locked", "{name}");
    }
    let names: Vec<&str> = people.iter().map(|person| person["name"].as_str().unwrap()).collect();
    assert!(names.is_sorted(), "whichever thread read them");
    let text = overview(&[]);
    assert!(text.lines().all(|line| line.chars().count() <= 80), "{text}");
    let locked = overview(&["--only", "locked", "--sort", "last", "--format", "csv"]);
    let mut rows = csv::Reader::from_reader(locked.as_bytes());
    let days: Vec<String> = rows.records().map(|row| row.unwrap()[1].to_owned()).collect();
    assert!(!days.is_empty() && days.is_sorted(), "{days:?}");
}

#[test]
fn what_cannot_be_read_is_named_and_left_as_it_is() {
    let place = tempfile::tempdir().unwrap();
    let file = |name: &str| place.path().join("clinic").join(name).join("journal.sqlite");
    for name in ["good", "newer", "damaged", "empty", "text"] {
        let folder = Folder::open_in(file(name).parent().unwrap()).unwrap();
        drop(filled(&folder, &troubled(3)));
    }
    let bytes = fs::read(file("good")).unwrap();
    let mut newer = bytes.clone();
    // The user_version of an SQLite file stands at byte 60, big-endian (file format, "The Database Header").
    newer[60..64].copy_from_slice(&99_u32.to_be_bytes());
    fs::write(file("newer"), &newer).unwrap();
    fs::write(file("damaged"), &bytes[..bytes.len() / 3]).unwrap();
    fs::write(file("empty"), b"").unwrap();
    fs::write(file("text"), "this is a shopping list, and longer than a header of a database is".repeat(9))
        .unwrap();
    let before: Vec<Vec<u8>> =
        ["newer", "damaged", "empty", "text"].map(|name| fs::read(file(name)).unwrap()).to_vec();
    let output = run(place.path(), &["report", "--folder", "clinic", "--on", ON, "--format", "json"]);
    assert_eq!(output.status.code(), Some(1), "the exit code tells");
    let said = String::from_utf8(output.stderr).unwrap();
    assert!(
        said.contains("4 journals could not be read") && said.contains("They were not changed"),
        "{said}"
    );
    let value: Value = serde_json::from_slice(&output.stdout).unwrap();
    let names = |field: &str| -> Vec<String> {
        value[field].as_array().unwrap().iter().map(|one| one["name"].as_str().unwrap().to_owned()).collect()
    };
    assert_eq!(names("people"), ["good"]);
    assert_eq!(names("skipped"), ["damaged", "empty", "newer", "text"]);
    let after: Vec<Vec<u8>> =
        ["newer", "damaged", "empty", "text"].map(|name| fs::read(file(name)).unwrap()).to_vec();
    assert_eq!(before, after);
    let nobody = run(place.path(), &["report", "--folder", "."]);
    assert!(nobody.status.code() == Some(1), "the folder itself is looked into");
    fs::create_dir(place.path().join("nothing")).unwrap();
    let nobody = run(place.path(), &["report", "--folder", "nothing"]);
    assert!(String::from_utf8(nobody.stderr).unwrap().contains("there is no journal in nothing"));
    let nowhere = run(place.path(), &["report", "--folder", "nowhere"]);
    assert!(String::from_utf8(nowhere.stderr).unwrap().contains("cannot be read"));
}
