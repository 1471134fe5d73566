//! Where a person stands, in every state: the sentences and the offers of `docs/standing.md`, and that every surface of the
//! program says only this, and accepts what is offered and nothing else.

use std::fs;
use std::path::Path;

use counterpoise::journal::Journal;
use counterpoise_core::course::standing::{Standing, State, Surroundings};
use counterpoise_core::plan::prescription::Prescription;
use jiff::ZonedDateTime;
use serde_json::Value;

use crate::run::{noon, run_at_noon};
use crate::standings::{self, History};

const HEAD: &str = "# Where a person stands

Whether practice is possible now is decided in one place, `core/src/course/standing.rs`. Every page and file says only what it
says. The trainee hears the one strongest reason, in one sentence, and the commands that would be accepted now. The therapist
sees all locks and holds, so that clearing one never looks like clearing all.

The order, strongest first: emergency lock, lock, hold, not today, going on, to answer, wrong date, done today, week done, rest day, to finish, due.

\"Going on\" is a practice in another window, which is no history: `tests/program/stopped.rs` has it.

Under a lock nobody is told a date, and nothing weaker is said beside it. \"Call now\" belongs to the moment of the event. An older
lock says \"If you have it now, call\", with the number of the settings.

The histories below are invented. They are looked at on Wednesday, November 25, 2026, at 10:00. This page is written by a test
(`tests/program/standing.rs`), which fails if the page and the program differ.
";

const NUMBER: &str = "555-0100";

fn journal(history: &History) -> Journal {
    Journal::of_export(Path::new("history.json"), history.export.to_string().as_bytes()).unwrap()
}

/// Each history with where it leads, as a page.
fn page() -> String {
    let now: ZonedDateTime = "2026-11-25T10:00:00-05:00[America/New_York]".parse().unwrap();
    let gentle = Prescription::ready("gentle").unwrap();
    let mut page = HEAD.to_owned();
    for (nth, history) in standings::all(&now).iter().enumerate() {
        let known = journal(history).trainee().unwrap();
        let standing = Standing::of(&known, gentle, &now);
        let offers = standing.offers(&known, gentle, Surroundings::default());
        let offers: Vec<String> = offers.iter().map(|offer| format!("`{}`", offer.command(None))).collect();
        let list = |lines: Vec<String>, none: &str| match lines.is_empty() {
            true => none.to_owned(),
            false => lines.join(" "),
        };
        page += &format!(
            "\n## {}. {}\n\n* State: {}\n* To the trainee: {}\n* To the therapist: {}\n* About the steps: {}\n* Offered: {}\n",
            nth + 1,
            history.what.trim_end_matches('.'),
            standing.state(),
            standing.lines(Some(NUMBER)).join(" "),
            list(standing.for_therapist(), "nothing bars practice"),
            list(standing.about_steps(), "nothing"),
            list(vec![offers.join(", ")].into_iter().filter(|text| !text.is_empty()).collect(), "nothing"),
        );
    }
    page
}

#[test]
fn the_page_of_all_states_is_what_the_program_says() {
    let kept = Path::new(env!("CARGO_MANIFEST_DIR")).join("docs/standing.md");
    let page = page();
    if fs::read_to_string(&kept).unwrap_or_default() != page {
        let new = Path::new(env!("CARGO_TARGET_TMPDIR")).join("standing.md");
        fs::write(&new, page).unwrap();
        panic!("docs/standing.md is not what the program says now, which is in {}", new.display());
    }
}

#[test]
fn the_histories_cover_every_state() {
    let now = noon();
    let histories = standings::all(&now);
    assert!(histories.len() >= 40, "{}", histories.len());
    let gentle = Prescription::ready("gentle").unwrap();
    let states: Vec<State> = histories
        .iter()
        .map(|history| Standing::of(&journal(history).trainee().unwrap(), gentle, &now).state())
        .collect();
    // What goes on in another window is no history: `tests/program/stopped.rs` has it.
    for state in State::ALL.iter().filter(|state| **state != State::GoingOn) {
        assert!(states.contains(state), "no history is {state}");
    }
}

/// One text without line breaks, as a reader takes it in.
fn flowing(bytes: &[u8]) -> String {
    String::from_utf8_lossy(bytes).split_whitespace().collect::<Vec<_>>().join(" ")
}

const MONTHS: [&str; 12] = [
    "January",
    "February",
    "March",
    "April",
    "May ",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
];

/// What speaks of another day.
fn names_a_day(text: &str) -> bool {
    let days = ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday", "tomorrow"];
    days.iter().chain(&MONTHS).any(|word| text.contains(word))
}

#[test]
fn every_surface_says_only_the_strongest_reason_and_accepts_what_it_offers() {
    for history in standings::all(&noon()) {
        let place = tempfile::tempdir().unwrap();
        let folder = place.path();
        fs::write(folder.join("history.json"), history.export.to_string()).unwrap();
        let run = |arguments: &[&str]| run_at_noon(folder, arguments, "");
        let what = history.what;
        if history.export["sessions"] != serde_json::json!([])
            || history.export["suitability"] != serde_json::json!([])
        {
            let output = run(&["journal", "import", "history.json"]);
            assert!(output.status.success(), "{what}: {}", flowing(&output.stderr));
        }
        fs::create_dir_all(folder.join("data")).unwrap();
        fs::write(
            folder.join("data/settings.toml"),
            format!("schema = \"counterpoise.settings/1\"\nemergency_number = \"{NUMBER}\"\n"),
        )
        .unwrap();
        let next: Value = serde_json::from_slice(&run(&["next", "--format", "json"]).stdout).unwrap();
        let offers: Vec<&str> =
            next["offers"].as_array().unwrap().iter().map(|offer| offer.as_str().unwrap()).collect();
        let (state, said) =
            (State::from_name(next["state"].as_str().unwrap()).unwrap(), next["said"].as_str().unwrap());
        assert!(said.split(' ').count() <= 30 && said.ends_with('.'), "{what}: {said}");

        // The surfaces that only show something.
        for surface in [&["next"][..], &["program"], &["progress"]] {
            let output = run(surface);
            assert!(output.status.success(), "{what}: {surface:?}: {}", flowing(&output.stderr));
            let text = flowing(&output.stdout);
            assert!(text.contains(said), "{what}: {surface:?}: {text}");
            if state.is_locked() {
                assert!(!text.contains("counterpoise practice"), "{what}: {surface:?}: {text}");
                assert!(!text.contains("counterpoise assess"), "{what}: {surface:?}: {text}");
                // The heading of the calendar is the month of today.
                let of_calendar = surface == ["program"];
                assert!(of_calendar || !names_a_day(&text), "{what}: {surface:?}: {text}");
                assert!(
                    !text.contains("Rest until") && !text.contains("Next:"),
                    "{what}: {surface:?}: {text}"
                );
            }
        }
        if state.is_locked() {
            assert_eq!((&next["next_day"], &next["until"]), (&Value::Null, &Value::Null), "{what}");
        }

        // What is offered is accepted, and what is not offered is refused with the same sentence.
        let practice = ["practice", "--plain", "--silent"];
        for (command, arguments) in [
            ("practice", practice.to_vec()),
            ("practice --move", [&practice[..], &["--move"]].concat()),
            ("assess", vec!["assess", "--plain", "--silent"]),
            ("sheet", vec!["sheet", "--out", "sheet.html"]),
        ] {
            // To move a practice that is due changes nothing.
            if command == "practice --move" && offers.contains(&"practice") {
                continue;
            }
            let copy = tempfile::tempdir().unwrap();
            copy_folder(&folder.join("data"), &copy.path().join("data"));
            let output = run_at_noon(copy.path(), &arguments, "");
            let (out, err) = (flowing(&output.stdout), flowing(&output.stderr));
            // The questions about the last practice are not answered at the end of the input.
            if state == State::ToAnswer && command.starts_with("practice") {
                assert!(out.contains("Did you fall"), "{what}: {command}: {out} {err}");
                continue;
            }
            let refused =
                err.contains(said.trim_end_matches('.')) || out.contains(said) && !out.contains("Enter");
            assert_eq!(!refused, offers.contains(&command), "{what}: {command}: {offers:?}\n{out}\n{err}");
            if state.is_rest() && command == "practice" {
                assert!(
                    output.status.success() && err.is_empty() && out.starts_with(said),
                    "{what}: {out} {err}"
                );
            } else if refused && command != "practice --move" {
                assert_eq!(output.status.code(), Some(1), "{what}: {command}: {out}");
            }
        }
        let report: Value = serde_json::from_slice(&run(&["report", "--format", "json"]).stdout).unwrap();
        assert_eq!(report["barred"], next["barred"], "{what}");
        let clear = run(&["clear", "--by", "K. L.", "--reason", "seen"]);
        assert_eq!(clear.status.success(), offers.contains(&"clear"), "{what}: {}", flowing(&clear.stderr));
    }
}

#[test]
fn what_is_offered_as_a_track_is_written() {
    let now = noon();
    let track = |what: &str| {
        let history = standings::all(&now).into_iter().find(|history| history.what == what).unwrap();
        let place = tempfile::tempdir().unwrap();
        fs::write(place.path().join("history.json"), history.export.to_string()).unwrap();
        assert!(run_at_noon(place.path(), &["journal", "import", "history.json"], "").status.success());
        let next = run_at_noon(place.path(), &["next", "--format", "json"], "");
        let next: Value = serde_json::from_slice(&next.stdout).unwrap();
        let offered = next["offers"].as_array().unwrap().contains(&Value::from("track"));
        let written = run_at_noon(place.path(), &["track", "--out", "practice.wav"], "").status.success();
        assert_eq!((offered, place.path().join("practice.wav").exists()), (written, written), "{what}");
        written
    };
    assert!(track("Practiced an hour ago."));
    assert!(!track("Ill today."));
}

fn copy_folder(from: &Path, to: &Path) {
    fs::create_dir_all(to).unwrap();
    for entry in fs::read_dir(from).unwrap().map(Result::unwrap).filter(|entry| entry.path().is_file()) {
        fs::copy(entry.path(), to.join(entry.file_name())).unwrap();
    }
}
