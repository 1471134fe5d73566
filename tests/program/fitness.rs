//! What a person may practice now, as the program says it: histories worked out by hand go in as a journal, and `next`,
//! `program`, `practice`, `track` and `clear` must agree on them. The rules themselves are tested beside their modules.

use std::fs;
use std::path::Path;
use std::process::Output;

use counterpoise_core::plan::prescription::Seal;
use jiff::civil::Date;
use jiff::{ToSpan, ZonedDateTime};
use serde_json::{Value, json};

use crate::run::run_with;

/// The built-in gentle prescription: one set of shifts, two of reaches, of at most step 3.
const GENTLE: &str = include_str!("../../presets/prescriptions/gentle.toml");

fn run(folder: &Path, arguments: &[&str]) -> Output {
    run_with(folder, arguments, "")
}

fn printed(folder: &Path, arguments: &[&str]) -> String {
    let output = run(folder, arguments);
    assert_eq!(output.status.code(), Some(0), "{arguments:?}: {}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).unwrap()
}

fn refused(folder: &Path, arguments: &[&str]) -> (String, String) {
    let output = run(folder, arguments);
    let err = String::from_utf8(output.stderr).unwrap();
    assert_eq!(output.status.code(), Some(1), "{arguments:?}: {err}");
    let (error, hint) = err.trim_end().split_once('\n').unwrap();
    let (error, hint) = (error.strip_prefix("Error: ").unwrap(), hint.strip_prefix("Hint: ").unwrap());
    (error.to_owned(), hint.to_owned())
}

fn next(folder: &Path, on: Date) -> Value {
    let text = printed(folder, &["next", "--on", &on.to_string(), "--format", "json"]);
    let value: Value = serde_json::from_str(&text).unwrap();
    assert_eq!(value["schema"], "counterpoise.next/1");
    value
}

/// A clean session of `gentle` that began at ten in the morning of this day in UTC, with the reaches at `step`.
fn session(day: Date, step: u8) -> Value {
    let id = format!("{:032x}", u128::from(day.day_of_year().unsigned_abs()) * 7919 + 1);
    let moment = |minute: u32| format!("{day}T10:{minute:02}:00+00:00[UTC]");
    let set = |number: u32, drill: &str, step: u8, support: &str| {
        json!({
            "start": {
                "number": number, "begun": moment(number * 3), "drill": drill, "form": "alone", "step": step,
                "stance": "feet apart", "side": null, "surface": "firm", "support": support, "vision": "open",
                "work_ms": 60_000, "recover_ms": 5_000, "rest_ms": 60_000
            },
            "end": { "at": moment(number * 3 + 1), "worked_ms": 60_000, "why": "completed" },
            "plans": [{ "plan": 0, "paused_at_ms": null, "cues": [
                { "cue": 0, "at_ms": 6_000, "gap_ms": 6_000, "blank": false, "action": "reach", "direction": "left",
                  "phrase": "reach.left" }
            ] }],
            "delivered": [{ "cue": 0, "wanted_frame": null, "began_frame": null, "frames_per_second": null,
                "heard_ms": null, "shown_ms": 6_000 }]
        })
    };
    let after = |number: u32| {
        let said = [
            ("grabbed hold or nearly fell", 0),
            ("held on", 0),
            ("effort", 4),
            ("steadiness", 2),
            ("unwell", 0),
        ];
        said.into_iter().zip(0..).map(move |((question, answer), place)| {
            json!({ "place": number * 10 + place, "set": number, "question": question, "answer": answer })
        })
    };
    json!({
        "id": id, "form": "alone",
        "start": {
            "begun": moment(0), "title": "Gentle start at the counter", "digest": digest(),
            "seed": "07".repeat(32), "seed_given": false, "method": 1, "voice": "lower", "device": null,
            "sets_planned": 3
        },
        "end": {
            "at": moment(20), "why": "finished", "sets_completed": 3, "sets_planned": 3, "cues_heard": 0,
            "cues_shown": 3, "active_ms": 180_000, "grabbed": 0, "held_on": 0, "effort": 4, "steadiness": 2,
            "unwell": 0, "not_said": 0
        },
        "answers": (1..=3).flat_map(after).collect::<Vec<Value>>(),
        "sets": [set(1, "counter-shift", 1, "two hands"), set(2, "counter-reach", step, "one hand"),
            set(3, "counter-reach", step, "one hand")]
    })
}

fn digest() -> String {
    counterpoise_core::plan::prescription::Digest::of(GENTLE.as_bytes()).to_string()
}

/// The session with this answer after its last set.
fn but(mut session: Value, question: &str, answer: Value) -> Value {
    let answers = session["answers"].as_array_mut().unwrap();
    let last = answers.iter_mut().rfind(|row| row["question"] == question).unwrap();
    last["answer"] = answer;
    session
}

fn import(folder: &Path, sessions: &[Value]) {
    let export = json!({ "schema": "counterpoise.journal/1", "sessions": sessions, "changes": [] });
    fs::write(folder.join("history.json"), export.to_string()).unwrap();
    printed(folder, &["journal", "import", "history.json"]);
}

fn today() -> Date {
    ZonedDateTime::now().date()
}

fn ago(days: i32) -> Date {
    today().saturating_sub(i64::from(days).days())
}

fn nov(day: i8) -> Date {
    jiff::civil::date(2026, 11, day)
}

#[test]
fn histories_worked_out_by_hand_have_the_expected_decision() {
    // Days with practice, what was said after the last, the day asked about, decision, step of the reaches.
    type Row<'a> = (&'a [i8], Option<(&'a str, Value)>, i8, &'a str, u8);
    let rows: &[Row<'_>] = &[
        (&[], None, 2, "hold", 1),
        (&[2], None, 4, "hold", 1),
        (&[2, 4], None, 6, "up", 2),
        (&[2, 4], Some(("effort", json!(6))), 6, "up", 2),
        (&[2, 4], Some(("effort", json!(8))), 6, "hold", 1),
        (&[2, 4], Some(("effort", Value::Null)), 6, "hold", 1),
        (&[2, 4], Some(("held on", json!(1))), 6, "up", 2),
        (&[2, 4], Some(("held on", json!(2))), 6, "hold", 1),
        (&[2, 4], None, 5, "not due", 2),
        (&[2, 4, 6], None, 8, "not due", 2),
        (&[2, 4], None, 4, "rest", 2),
        (&[2, 4], None, 3, "rest", 2),
        (&[2, 4], None, 18, "up", 2),
        (&[2, 4], None, 19, "hold", 1),
        (&[2, 4], Some(("grabbed hold or nearly fell", json!(1))), 5, "rest", 1),
        (&[2, 4], Some(("grabbed hold or nearly fell", json!(1))), 6, "hold", 1),
    ];
    for (days, said, on, decision, step) in rows {
        let place = tempfile::tempdir().unwrap();
        let mut sessions: Vec<Value> = days.iter().map(|day| session(nov(*day), 1)).collect();
        if let (Some((question, answer)), Some(last)) = (said, sessions.last_mut()) {
            *last = but(last.take(), question, answer.clone());
        }
        import(place.path(), &sessions);
        let found = next(place.path(), nov(*on));
        let row = format!("{days:?}, {said:?}, on the {on}th: {found:#}");
        assert_eq!(found["decision"], *decision, "{row}");
        assert_eq!(found["step"]["step"], *step, "{row}");
        assert_eq!(found["step"]["drill"], "counter-reach", "{row}");
        assert!(!found["reasons"].as_array().unwrap().is_empty(), "{row}");
    }
}

#[test]
fn a_bad_session_at_a_higher_step_goes_down_and_the_step_that_is_said_is_practiced() {
    let place = tempfile::tempdir().unwrap();
    let bad = but(session(nov(4), 3), "steadiness", json!(5));
    import(place.path(), &[session(nov(2), 3), bad]);
    let found = next(place.path(), nov(6));
    assert_eq!((&found["decision"], &found["step"]["step"]), (&json!("down"), &json!(2)));
    assert_eq!(
        found["reasons"][0],
        "You lost your balance (Reaches at the counter), so the next practice starts one step lower."
    );
}

#[test]
fn the_track_follows_the_step() {
    let place = tempfile::tempdir().unwrap();
    import(place.path(), &[session(ago(5), 1), session(ago(3), 1)]);
    assert_eq!(next(place.path(), today())["step"]["step"], 2);
    printed(place.path(), &["track", "gentle", "--out", "t.wav", "--cue-sheet", "t.json"]);
    let sheet = fs::read_to_string(place.path().join("t.json")).unwrap();
    // Step 2 of the reaches stands with the feet together, step 1 with the feet apart (presets/drills/counter-reach.toml).
    assert!(sheet.contains("stance.feet-together"));
    let fresh = tempfile::tempdir().unwrap();
    printed(fresh.path(), &["track", "gentle", "--out", "t.wav", "--cue-sheet", "t.json"]);
    assert!(!fs::read_to_string(fresh.path().join("t.json")).unwrap().contains("stance.feet-together"));
}

#[test]
fn one_practice_a_day_and_a_free_day_can_be_moved_to() {
    let place = tempfile::tempdir().unwrap();
    import(place.path(), &[session(today(), 1)]);
    let practice = ["practice", "gentle", "--plain", "--silent"];
    // A day without practice is no error.
    let said = printed(place.path(), &practice);
    assert!(said.starts_with("Today's practice is done.\nNext: "), "{said}");
    assert_eq!(printed(place.path(), &[&practice[..], &["--move"]].concat()), said);

    let place = tempfile::tempdir().unwrap();
    import(place.path(), &[session(ago(1), 1)]);
    let said = printed(place.path(), &practice);
    assert!(said.starts_with("Today is a rest day.\nNext: "), "{said}");
    assert!(said.contains("To practice today instead: counterpoise practice gentle --move\n"), "{said}");
    let moved = run(place.path(), &[&practice[..], &["--move"]].concat());
    assert_eq!(moved.status.code(), Some(0), "{}", String::from_utf8_lossy(&moved.stderr));
}

/// What is told before practice: one letter a line.
fn tell(folder: &Path, keys: &str) -> String {
    let lines: String =
        keys.chars().map(|key| if key == '\n' { "\n".to_owned() } else { format!("{key}\n") }).collect();
    let output = run_with(folder, &["practice", "gentle", "--plain", "--silent"], &lines);
    assert_eq!(output.status.code(), Some(0), "{}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).unwrap()
}

#[test]
fn chest_pain_locks_practice_and_tracks_until_a_clinician_clears_it() {
    let place = tempfile::tempdir().unwrap();
    fs::create_dir_all(place.path().join("data")).unwrap();
    let settings = "schema = \"counterpoise.settings/1\"\nemergency_number = \"112\"\n";
    fs::write(place.path().join("data/settings.toml"), settings).unwrap();
    // The key after it does not leave the page; L does.
    let told = tell(place.path(), "\n\n\nnnyy.l");
    assert!(told.contains("\nCALL 112\n") && told.contains("NOTICE: Keys here: L."), "{told}");
    for command in [&["practice", "--plain", "--silent"][..], &["track", "--out", "t.wav"]] {
        let (fact, hint) = refused(place.path(), command);
        assert_eq!(
            fact,
            "If you have chest pain or pressure now, call 112; practice stays locked until a clinician has cleared you"
        );
        assert!(hint.contains("counterpoise clear"), "{hint}");
    }
    assert!(!place.path().join("t.wav").exists());
    assert_eq!(
        next(place.path(), today().saturating_add(400.days()))["decision"],
        "locked",
        "time lifts no lock"
    );
    let (fact, _) = refused(place.path(), &["clear", "--by", " ", "--reason", "seen"]);
    assert!(fact.contains("--by"), "{fact}");
    let cleared = printed(place.path(), &["clear", "--by", "Dr. K. L.", "--reason", "seen on Thursday"]);
    assert!(cleared.contains("Lifted: chest pain or pressure"), "{cleared}");
    let barred = next(place.path(), today())["barred"].clone();
    for line in barred.as_array().unwrap() {
        assert!(cleared.contains(line.as_str().unwrap()), "it says what `next` says: {line}");
    }
    let export: Value =
        serde_json::from_str(&printed(place.path(), &["journal", "export", "--format", "sessions"])).unwrap();
    assert_eq!(export["clearances"][0]["who"], "Dr. K. L.");
    assert_eq!(export["clearances"][0]["lifted"][0]["what"], "chest pain or pressure");
    assert_ne!(next(place.path(), today())["decision"], "locked");
    let (fact, _) = refused(place.path(), &["clear", "--by", "Dr. K. L.", "--reason", "again"]);
    assert_eq!(fact, "nothing is locked");
}

#[test]
fn what_is_wrong_with_the_room_can_be_put_right_the_same_day() {
    let place = tempfile::tempdir().unwrap();
    let told = tell(place.path(), "\n\n\nnnnnnnnnnnnyyyyyyyyyy.");
    assert!(told.contains("Put it right, then open Counterpoise again."), "{told}");
    assert_eq!(next(place.path(), today())["decision"], "hold");
    let ill = tempfile::tempdir().unwrap();
    tell(ill.path(), "\n\n\nnnnnnnnnynnnynnn.");
    assert_eq!(next(ill.path(), today())["decision"], "rest");
    assert_eq!(next(ill.path(), today().saturating_add(1.days()))["decision"], "hold");
}

#[test]
fn a_session_keeps_what_was_decided_and_shows_it() {
    let place = tempfile::tempdir().unwrap();
    import(place.path(), &[session(ago(5), 1), session(ago(3), 1)]);
    tell(place.path(), "\n\n\nnnnnnnnnnys");
    let shown = printed(place.path(), &["journal", "show"]);
    assert!(shown.contains("Steps: up"), "{shown}");
    assert!(shown.contains("counter-reach, alone: step 2"), "{shown}");
    let gentler = run_with(
        place.path(),
        &["practice", "gentle", "--plain", "--silent", "--gentler"],
        "n\nn\n\n\n\n\nn\nn\nn\nn\nn\nn\nn\nn\nn\ny\ns\n",
    );
    assert_eq!(gentler.status.code(), Some(0), "{}", String::from_utf8_lossy(&gentler.stderr));
    let export: Value =
        serde_json::from_str(&printed(place.path(), &["journal", "export", "--format", "sessions"])).unwrap();
    let last = export["sessions"].as_array().unwrap().last().unwrap();
    assert_eq!(
        (&last["decided"]["gentler"], &last["decided"]["given"][1]["step"]),
        (&json!(true), &json!(2))
    );
}

#[test]
fn nothing_makes_it_harder() {
    let place = tempfile::tempdir().unwrap();
    for option in ["--harder", "--step", "--steps"] {
        let output = run(place.path(), &["practice", "gentle", "--plain", "--silent", option]);
        assert_eq!(output.status.code(), Some(2), "{option}");
    }
}

#[test]
fn once_a_program_is_in_use_only_it_or_something_gentler_runs() {
    let place = tempfile::tempdir().unwrap();
    let practice = |name: &str| run_with(place.path(), &["practice", name, "--plain", "--silent"], "");
    let track = |name: &str| run(place.path(), &["track", name, "--out", "practice.wav"]);
    assert!(practice("typical").status.success(), "nothing is in use yet");
    printed(place.path(), &["use", "gentle"]);
    for output in [practice("typical"), track("typical")] {
        assert_eq!(output.status.code(), Some(1));
        let said = String::from_utf8(output.stderr).unwrap();
        assert!(said.contains("asks for 5 sets; your program has 3"), "{said}");
        assert!(said.contains("To change it, talk to your therapist."), "{said}");
        assert!(!said.contains("counterpoise use"), "no way round the program is named: {said}");
    }
    fs::write(place.path().join("less.toml"), GENTLE.replace("sets = 2", "sets = 1")).unwrap();
    for output in [practice("gentle"), practice("less.toml"), track("less.toml")] {
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    }
    // A program that cannot be read is no license for anything else.
    fs::write(place.path().join("data/prescription.toml"), "schema = 1").unwrap();
    assert_eq!(practice("gentle").status.code(), Some(1));
}

#[test]
fn only_a_sealed_file_of_an_issuer_replaces_the_program_by_something_harder() {
    let place = tempfile::tempdir().unwrap();
    let kept = || fs::read_to_string(place.path().join("data/prescription.toml")).unwrap();
    let file = |name: &str, text: &str| fs::write(place.path().join(name), text).unwrap();
    let issued = GENTLE.replace("issued_by = \"\"", "issued_by = \"K. L.\"");
    let harder = issued.replace("ceiling = 3", "ceiling = 4");
    assert_ne!(harder, issued);
    let older = harder.replace("issued_on = 20", "issued_on = 19");
    file("own.toml", &issued);
    printed(place.path(), &["use", "own.toml"]);
    file("written.toml", &harder);
    file("nobody.toml", &Seal::append(&harder.replace("K. L.", "")));
    file("changed.toml", &Seal::append(&issued).replace("ceiling = 3", "ceiling = 4"));
    file("older.toml", &Seal::append(&older));
    for name in ["typical", "written.toml", "nobody.toml", "changed.toml", "older.toml"] {
        let output = run_with(place.path(), &["use", name], "y\nyes\ny\n");
        assert_eq!(output.status.code(), Some(1), "{name}: no answer lets it through");
        let said = String::from_utf8(output.stderr).unwrap();
        assert!(
            said.contains("Your program stays as it is. To change it, talk to your therapist."),
            "{said}"
        );
        assert!(!said.contains("counterpoise") && !said.contains("seal"), "{name}: {said}");
        assert_eq!(kept(), issued, "{name}");
    }
    file("gentler.toml", &issued.replace("ceiling = 3", "ceiling = 2"));
    printed(place.path(), &["use", "gentler.toml"]);
    file("sealed.toml", &Seal::append(&harder));
    printed(place.path(), &["use", "sealed.toml"]);
    assert!(kept().contains("ceiling = 4"));
    // Nobody knows what is gentler than a program that cannot be read: a therapist's file is the way on.
    fs::write(place.path().join("data/prescription.toml"), "schema = 1").unwrap();
    assert_eq!(run(place.path(), &["use", "gentle"]).status.code(), Some(1));
    printed(place.path(), &["use", "sealed.toml"]);
}

#[test]
fn suitability_is_asked_kept_and_holds_practice_back() {
    let place = tempfile::tempdir().unwrap();
    let (fact, _) = refused(place.path(), &["suitability"]);
    assert!(fact.contains("nothing was saved"), "the end of input is no answer: {fact}");
    let (fact, _) = refused(place.path(), &["suitability", "--show"]);
    assert!(fact.contains("not been answered"), "{fact}");
    let answer = |letters: &str| {
        let lines: String = letters.chars().map(|letter| format!("{letter}\n")).collect();
        let output = run_with(place.path(), &["suitability"], &lines);
        assert_eq!(output.status.code(), Some(0), "{}", String::from_utf8_lossy(&output.stderr));
        String::from_utf8(output.stdout).unwrap()
    };
    // Thirty-six questions; the heart is the first, and a yes asks whether a doctor agreed. A step back takes an answer back.
    let said = answer(&format!("yn{}", "n".repeat(35)));
    assert!(said.contains("Has your doctor agreed to balance practice?"), "{said}");
    assert!(said.contains("Talk to a clinician first."), "{said}");
    let (fact, hint) = refused(place.path(), &["practice", "--plain", "--silent"]);
    assert_eq!(fact, "You have heart trouble: talk to a clinician before you practice");
    assert!(hint.contains("counterpoise suitability"), "{hint}");
    let cleared =
        printed(place.path(), &["clear", "--by", "Dr. K. L.", "--reason", "blood pressure is treated"]);
    assert!(cleared.contains("Lifted: your answer about heart trouble"), "{cleared}");
    assert_eq!(next(place.path(), today())["decision"], "hold");
    // Not sure is the careful answer; a doctor who agreed lifts the lock.
    assert!(answer(&format!("uu{}", "n".repeat(35))).contains("You are not sure about heart trouble."));
    assert_eq!(next(place.path(), today())["decision"], "locked");
    assert!(answer(&format!("uy{}", "n".repeat(35))).contains("You said your clinician agreed"));
    assert_eq!(next(place.path(), today())["decision"], "hold");
    // Of chest pain nobody asks that: only a clearance lifts it.
    let said = answer(&format!("nny{}", "n".repeat(33)));
    assert!(said.contains("You get chest pain. Only a clinician's clearance lifts this"), "{said}");
    // Not another answer either.
    let said = answer(&format!("ybyb{}", "n".repeat(36)));
    assert!(said.contains("You get chest pain. Only a clinician's clearance lifts this"), "{said}");
    assert_eq!(next(place.path(), today())["decision"], "locked");
    let cleared = printed(place.path(), &["clear", "--by", "Dr. K. L.", "--reason", "seen, nothing found"]);
    assert!(cleared.contains("Lifted: your answer about chest pain"), "{cleared}");
    assert_eq!(next(place.path(), today())["decision"], "hold");
    let said = answer(&"n".repeat(36));
    assert!(said.contains("Go ahead, within these limits. Only what you practice alone."), "{said}");
    let shown = printed(place.path(), &["suitability", "--show"]);
    assert!(shown.lines().count() > 3 && said.contains(shown.lines().next().unwrap()), "{shown}");
    let wrong = run_with(place.path(), &["suitability"], "n\nperhaps\n");
    assert!(String::from_utf8_lossy(&wrong.stderr).contains("\"perhaps\" is not an answer to question 2"));
}

/// The answers to the questions about suitability, good but for the first, with the words that follow it.
fn heart(first: &str) -> String {
    first.chars().chain("n".repeat(35).chars()).map(|letter| format!("{letter}\n")).collect()
}

#[test]
fn a_later_yes_to_an_accepted_topic_asks_whether_it_is_new_or_worse() {
    let place = tempfile::tempdir().unwrap();
    let answer = |letters: &str| {
        let output = run_with(place.path(), &["suitability"], &heart(letters));
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
        String::from_utf8(output.stdout).unwrap().split_whitespace().collect::<Vec<_>>().join(" ")
    };
    let accepts = "\n[[accepts]]\ntopic = \"heart trouble\"\nwho = \"Dr. K.\"\nwhen = 2026-11-20\n";
    let issued = GENTLE.replace("issued_by = \"\"", "issued_by = \"K. L.\"");
    fs::write(place.path().join("own.toml"), format!("{issued}{accepts}")).unwrap();
    printed(place.path(), &["use", "own.toml"]);
    for (letters, decision) in
        [("yn", "hold"), ("yy", "locked"), ("yu", "locked"), ("un", "hold"), ("n", "hold")]
    {
        let said = answer(letters);
        let asked = said.contains("Is this new or worse since 2026-11-20?");
        assert_eq!(asked, letters != "n", "{said}");
        assert!(!said.contains("Has your doctor agreed"), "{said}");
        assert_eq!(next(place.path(), today())["decision"], decision, "{letters}");
    }
    let (_, kept) = (answer("yn"), printed(place.path(), &["journal", "export"]));
    let kept: Value = serde_json::from_str(&kept).unwrap();
    let mut entries = kept["entries"].as_array().unwrap().iter().map(|line| &line["entry"]["suitability"]);
    let last = entries.rfind(|row| row.is_object()).unwrap();
    let answers = last["answers"].as_array().unwrap().iter();
    let row = answers.filter(|row| row["topic"] == "heart trouble").collect::<Vec<_>>();
    assert_eq!(
        row,
        [&json!({ "topic": "heart trouble", "answer": "yes",
            "new_or_worse": { "since": "2026-11-20", "answer": "no" } })]
    );
    let reason =
        "Your program accepts your answer about heart trouble (Dr. K., 2026-11-20). Its limits stay.";
    assert!(next(place.path(), today())["reasons"].as_array().unwrap().contains(&json!(reason)));
}

#[test]
fn clear_asks_about_each_lock_by_itself_and_the_end_of_input_clears_nothing() {
    let place = tempfile::tempdir().unwrap();
    // The heart, the blood pressure and chest pain.
    let lines: String =
        format!("ynyny{}", "n".repeat(33)).chars().map(|letter| format!("{letter}\n")).collect();
    assert!(run_with(place.path(), &["suitability"], &lines).status.success());
    let clear = |typed: &str| run_with(place.path(), &["clear"], typed);
    for early in ["", "y\n", "y\nDr. K.\nseen\n", "y\nDr. K.\nseen\ny\n", "n\nn\n", "y\n\u{1b}\n"] {
        let output = clear(early);
        assert_eq!(output.status.code(), Some(1), "{early:?}");
        let all = printed(place.path(), &["journal", "export"]);
        assert!(!all.contains("locked_by"), "nothing was cleared by {early:?}");
    }
    let said = String::from_utf8(clear("n\nn\nn\n").stdout).unwrap();
    assert!(said.contains("Nothing was cleared.") && said.contains("This still applies:"), "{said}");
    assert_eq!(said.matches("A clinician first, not cleared: ").count(), 3, "{said}");
    let output = clear("n\ny\nDr. K.\npressure is treated\ny\ny\nDr. L.\ntested\nn\n");
    let said = String::from_utf8(output.stdout).unwrap();
    let (listed, after) = said.split_once("Each is asked about by itself").unwrap();
    for topic in ["heart trouble", "blood pressure", "chest pain"] {
        assert!(listed.contains(&format!("your answer about {topic} (")), "{said}");
    }
    assert_eq!(after.matches("Lifted: ").count(), 1, "{said}");
    assert!(after.contains("Lifted: your answer about blood pressure"), "{said}");
    assert!(after.contains("Cleared by Dr. K. on") && after.contains("pressure is treated"), "{said}");
    let barred = next(place.path(), today())["barred"].clone();
    assert_eq!(after.matches("not cleared: ").count(), 2, "{said}");
    assert_eq!(barred.as_array().unwrap().len(), 2);
    for line in barred.as_array().unwrap() {
        assert!(after.contains(line.as_str().unwrap()), "it says what `next` says: {line}");
    }
    assert_eq!(next(place.path(), today())["decision"], "locked");
    let said = printed(place.path(), &["clear", "--by", "Dr. K. L.", "--reason", "all looked at"]);
    assert!(
        said.contains("about heart trouble") && said.contains("about chest pain"),
        "says all it lifts: {said}"
    );
    assert_eq!(next(place.path(), today())["decision"], "hold");
    for half in [["clear", "--by", "K."], ["clear", "--reason", "seen"]] {
        assert_eq!(run(place.path(), &half).status.code(), Some(2), "both or none");
    }
}

#[test]
fn a_therapist_accepts_inside_the_prescription_with_a_reason_that_is_kept() {
    let place = tempfile::tempdir().unwrap();
    let answer = || assert!(run_with(place.path(), &["suitability"], &heart("yn")).status.success());
    answer();
    assert_eq!(next(place.path(), today())["decision"], "locked");
    let accepted = "\n[suitability]\naccepted_because = \"blood pressure treated\"\n";
    fs::write(place.path().join("own.toml"), format!("{GENTLE}{accepted}")).unwrap();
    let (fact, _) = refused(place.path(), &["use", "own.toml"]);
    assert!(fact.contains("`accepted_because` is given, but `issued_by` is empty"), "{fact}");
    // It covers what was answered before the day of issue, and nothing later.
    let issue = |day: Date| {
        let issued = GENTLE.replace("issued_by = \"\"", "issued_by = \"K. L., physical therapist\"");
        let issued = issued.replace("issued_on = 2026-11-25", &format!("issued_on = {day}"));
        fs::write(place.path().join("own.toml"), format!("{issued}{accepted}")).unwrap();
        printed(place.path(), &["use", "own.toml"]);
    };
    issue(today());
    assert_eq!(next(place.path(), today())["decision"], "locked", "answered on the day itself");
    let tomorrow = today().tomorrow().unwrap();
    assert_eq!(next(place.path(), tomorrow)["decision"], "locked");
    let explained = printed(place.path(), &["check", "own.toml"]);
    let explained = explained.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(explained.contains("blood pressure treated"), "{explained}");
    assert!(explained.contains("`accepted_because` covers no answer given on or after"), "{explained}");
    assert!(explained.contains("[[accepts]]"), "{explained}");
}

/// Answers of old, accepted by a program that was issued later.
#[test]
fn what_a_program_accepts_is_kept_with_each_session() {
    let place = tempfile::tempdir().unwrap();
    let accepts = "\n[[accepts]]\ntopic = \"heart trouble\"\nwho = \"Dr. K.\"\nwhen = 2026-11-20\n";
    let issued = GENTLE.replace("issued_by = \"\"", "issued_by = \"K. L.\"");
    fs::write(place.path().join("own.toml"), format!("{issued}{accepts}")).unwrap();
    printed(place.path(), &["use", "own.toml"]);
    assert!(run_with(place.path(), &["suitability"], &heart("yn")).status.success());
    let output =
        run_with(place.path(), &["practice", "--plain", "--silent"], "\n\n\nn\nn\nn\nn\nn\nn\nn\ny\ns\n");
    assert!(output.status.success());
    let shown = printed(place.path(), &["journal", "show"]);
    let shown = shown.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        shown.contains("Your program accepts your answer about heart trouble (Dr. K., 2026-11-20)."),
        "{shown}"
    );
}

#[test]
fn what_was_broken_off_goes_on_with_the_next_set_and_nothing_is_done_twice() {
    let place = tempfile::tempdir().unwrap();
    let now = ZonedDateTime::now();
    // Too near to midnight the practice would have begun yesterday: nothing else changes.
    let begun = now.checked_sub(30.minutes()).unwrap();
    let stamp = |minutes: i64| begun.checked_add(minutes.minutes()).unwrap().to_string();
    let mut broken = session(begun.date(), 1);
    broken["start"]["begun"] = json!(stamp(0));
    broken["sets"].as_array_mut().unwrap().truncate(1);
    broken["sets"][0]["start"]["begun"] = json!(stamp(1));
    broken["sets"][0]["end"]["at"] = json!(stamp(2));
    broken["answers"].as_array_mut().unwrap().truncate(5);
    (broken["end"]["at"], broken["end"]["why"]) = (json!(stamp(3)), json!("program closed"));
    import(place.path(), &[broken]);
    let found = next(place.path(), today());
    assert_eq!((&found["decision"], &found["first_set"]), (&json!("hold"), &json!(2)), "{found:#}");
    let output = run_with(
        place.path(),
        &["practice", "--plain", "--silent"],
        "n\nn\n\n\n\nn\nn\nn\nn\nn\nn\nn\nn\nn\ny\n\ns\nn\n3\n",
    );
    let text = String::from_utf8_lossy(&output.stdout);
    assert!(output.status.success() && text.contains("Set 2 of 3") && !text.contains("Set 1 of 3"), "{text}");
    assert!(text.contains("Next time: the same steps."), "what follows is said at the end: {text}");
}

#[test]
fn the_program_shows_the_month_and_json() {
    let place = tempfile::tempdir().unwrap();
    import(place.path(), &[session(nov(2), 1), session(nov(5), 1)]);
    let shown = printed(place.path(), &["program", "--on", "2026-11-07"]);
    assert!(shown.contains("Week 1 of 12, 3 days a week, 2 done."), "{shown}");
    assert!(shown.contains("November 2026") && shown.contains("2 x") && shown.contains("[7]o"), "{shown}");
    let text = printed(place.path(), &["program", "--on", "2026-11-07", "--format", "json"]);
    let value: Value = serde_json::from_str(&text).unwrap();
    assert_eq!((&value["due"], &value["done"]), (&json!("due"), &json!(["2026-11-02", "2026-11-05"])));
    assert_eq!(value["planned"][0], "2026-11-07");
    assert_eq!(run(place.path(), &["program", "--on", "yesterday"]).status.code(), Some(2));
}
