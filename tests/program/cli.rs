//! The program as a person runs it: exit codes, what is printed, what is written. What each module computes is tested
//! beside it; here the wiring is.

use std::fs;
use std::io::Read as _;
use std::ops::Range;
use std::path::Path;
use std::process::{Command, Output, Stdio};

use serde_json::Value;
use tempfile::TempDir;

use crate::run::{PARTNER_SUITS, lines, run_with};

const SEED: &str = "8f1d0c77a2b64e95317fd0c8be4a6620915c3ee7d84b02fa6617c9d35ab0e214";

/// The program, with a person's folder of its own.
fn counterpoise(folder: &Path) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_counterpoise"));
    command.env("COUNTERPOISE_DATA", folder.join("data")).env_remove("NO_COLOR").stdin(Stdio::null());
    command.current_dir(folder);
    command
}

fn run(folder: &Path, arguments: &[&str]) -> Output {
    counterpoise(folder).args(arguments).output().unwrap()
}

fn printed(folder: &Path, arguments: &[&str]) -> String {
    let output = run(folder, arguments);
    assert_eq!(output.status.code(), Some(0), "{arguments:?}: {}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).unwrap()
}

/// Runs what must be refused; gives the fact and the hint.
fn refused(folder: &Path, arguments: &[&str]) -> (String, String) {
    facts(&run(folder, arguments))
}

fn facts(output: &Output) -> (String, String) {
    let err = String::from_utf8(output.stderr.clone()).unwrap();
    assert_eq!(output.status.code(), Some(1), "{err}");
    let (error, hint) = err.split_once('\n').unwrap();
    let fact = error.strip_prefix("Error: ").unwrap_or_else(|| panic!("{err}"));
    let hint = hint.strip_prefix("Hint: ").unwrap_or_else(|| panic!("{err}")).trim_end();
    assert!(!fact.is_empty() && !hint.is_empty() && !hint.contains('\n'), "{err}");
    (fact.to_owned(), hint.to_owned())
}

fn json(text: &str) -> Value {
    serde_json::from_str(text).unwrap()
}

fn keys(value: &Value) -> Vec<&str> {
    value.as_object().unwrap().keys().map(String::as_str).collect()
}

fn place() -> TempDir {
    tempfile::tempdir().unwrap()
}

#[test]
fn a_refused_prescription_names_file_line_value_and_limit() {
    let place = place();
    let gentle = include_str!("../../presets/prescriptions/gentle.toml");
    fs::write(place.path().join("own.toml"), gentle.replacen("work_ms = 60000", "work_ms = 131000", 1))
        .unwrap();
    let line = 1 + gentle.lines().position(|line| line.starts_with("work_ms")).unwrap();
    for command in ["check", "preview", "use"] {
        let (fact, _) = refused(place.path(), &[command, "own.toml"]);
        for part in ["131000", "120000", &format!("(own.toml, line {line})")] {
            assert!(fact.contains(part), "{command}: {fact}");
        }
    }
    let (fact, hint) = refused(place.path(), &["check", "gentel"]);
    assert!(fact.contains("`gentel`") && hint.contains("gentle, typical"), "{fact} {hint}");
    fs::File::create(place.path().join("huge.toml")).unwrap().set_len(5_000_000_000).unwrap();
    let (fact, _) = refused(place.path(), &["check", "huge.toml"]);
    for part in ["5000000000", "262144", "huge.toml"] {
        assert!(fact.contains(part), "{fact}");
    }
    let (fact, _) = refused(place.path(), &["check", "."]);
    assert!(fact.contains("cannot be read"), "{fact}");
    let (fact, _) = refused(place.path(), &["preview", "gentle", "--seed", "12ab"]);
    assert!(fact.contains("4 characters") && fact.contains("64"), "{fact}");
}

#[test]
fn a_usage_error_ends_with_2_and_help_with_0() {
    let place = place();
    for wrong in [&["jump"][..], &["track", "gentle"], &["preview", "--sessions", "0"], &["check", "--loud"]]
    {
        let output = run(place.path(), wrong);
        assert_eq!(output.status.code(), Some(2), "{wrong:?}");
        assert!(output.stdout.is_empty() && !output.stderr.is_empty(), "{wrong:?}");
    }
    let seven = run(place.path(), &["track", "gentle", "--count", "7", "--out", "tracks"]);
    assert_eq!(seven.status.code(), Some(2));
    for command in [
        "practice",
        "check",
        "presets",
        "drills",
        "preview",
        "track",
        "use",
        "equipment",
        "completions",
        "man",
    ] {
        let help = printed(place.path(), &[command, "--help"]);
        assert!(help.contains("Example") && help.contains(&format!("counterpoise {command}")), "{help}");
    }
    assert!(printed(place.path(), &["--version"]).starts_with("counterpoise "));
}

#[test]
fn check_explains_in_lines_that_fit_and_as_json() {
    let place = place();
    let text = printed(place.path(), &["check", "typical"]);
    assert!(text.lines().all(|line| line.chars().count() <= 78), "{text}");
    assert!(text.contains("Cautions") && text.contains("12 weeks"), "{text}");
    let check = json(&printed(place.path(), &["check", "typical", "--format", "json"]));
    assert_eq!(check["schema"], "counterpoise.check/1");
    assert_eq!((&check["sets"], &check["active_ms"]), (&Value::from(5), &Value::from(300_000)));
    let calls = &check["calls"];
    let mean = calls["mean_thousandths"].as_u64().unwrap();
    let range = calls["low"].as_u64().unwrap() * 1000..=calls["high"].as_u64().unwrap() * 1000;
    assert!(range.contains(&mean), "{calls}");
}

#[test]
fn presets_and_drills_are_listed_as_the_contract_says() {
    let place = place();
    let presets = json(&printed(place.path(), &["presets", "--format", "json"]));
    assert_eq!(keys(&presets), ["cautions", "prescriptions", "schema"]);
    assert_eq!(presets["schema"], "counterpoise.presets/1");
    assert_eq!(presets["prescriptions"][0]["name"], "gentle");
    assert_eq!(keys(&presets["prescriptions"][0]), ["name", "title"]);
    let drills = json(&printed(place.path(), &["drills", "--format", "json"]));
    assert_eq!(drills["schema"], "counterpoise.drills/1");
    let reach = drills["drills"].as_array().unwrap().iter().find(|drill| drill["name"] == "counter-reach");
    assert_eq!(*reach.unwrap(), json(r#"{"name":"counter-reach","forms":["alone"],"unlocks":[]}"#));
    for name in ["presets", "drills"] {
        assert!(printed(place.path(), &[name]).lines().all(|line| line.chars().count() <= 78));
    }
}

#[test]
fn a_preview_for_people_fits_a_terminal_of_80_columns() {
    let place = place();
    let text = printed(place.path(), &["preview", "typical", "--seed", SEED, "--sessions", "2"]);
    assert!(text.lines().all(|line| line.chars().count() <= 78), "{text}");
    assert!(text.contains("Set 5 of 5") && text.contains(&format!("Seed {SEED}")), "{text}");
}

#[test]
fn a_preview_has_the_keys_of_the_contract_and_replays() {
    let place = place();
    let arguments = ["preview", "gentle", "--seed", SEED, "--format", "json"];
    let text = printed(place.path(), &arguments);
    assert_eq!(text, printed(place.path(), &arguments));
    let session = json(&text);
    assert_eq!(keys(&session), ["cautions", "method", "prescription", "schema", "seed", "sets"]);
    assert_eq!(session["seed"], SEED);
    let set = &session["sets"][0];
    let of_set = [
        "cues",
        "drill",
        "facing",
        "form",
        "number",
        "rest_ms",
        "second_task",
        "side",
        "stance",
        "step",
        "support",
        "surface",
        "vision",
        "work_ms",
    ];
    assert_eq!(keys(set), of_set);
    let of_cue = [
        "action",
        "at_ms",
        "blank",
        "direction",
        "gap_ms",
        "lead_ms",
        "phrase",
        "say",
        "show",
        "strength",
        "tell",
        "until_ms",
    ];
    assert_eq!(keys(&set["cues"][0]), of_cue);

    let three = json(&printed(place.path(), &[&arguments[..], &["--sessions", "3"]].concat()));
    let three = three.as_array().unwrap();
    assert_eq!((three.len(), &three[0]), (3, &session));
    let seed = three[2]["seed"].as_str().unwrap();
    let alone = json(&printed(place.path(), &["preview", "gentle", "--seed", seed, "--format", "json"]));
    assert_eq!(alone, three[2], "each session replays from its own seed");

    let drawn = || json(&printed(place.path(), &["preview", "--format", "json"]))["seed"].clone();
    assert_ne!(drawn(), drawn(), "without a seed a fresh one is drawn");
}

/// The onset is the first sample above -60 dB of full scale, the definition of the contract.
#[test]
fn every_onset_of_a_track_is_found_in_its_samples_with_silence_before_and_nothing_between() {
    let place = place();
    // Every drill that can be done alone by ear without an unlock.
    let every = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/data/alone.toml");
    for (name, voice) in [
        (every, "lower"),
        (every, "higher"),
        ("typical", "lower"),
        ("typical", "higher"),
        ("typical", "tones"),
        ("steps-and-rises", "lower"),
        ("reach-and-look", "lower"),
    ] {
        let arguments = ["track", name, "--seed", SEED, "--out", "a.wav", "--cue-sheet", "a.json"];
        printed(place.path(), &[&arguments[..], &["--voice", voice]].concat());
        let session = json(&printed(place.path(), &["preview", name, "--seed", SEED, "--format", "json"]));
        let sheet = json(&fs::read_to_string(place.path().join("a.json")).unwrap());
        let wav = hound::WavReader::open(place.path().join("a.wav")).unwrap();
        let (spec, length) = (wav.spec(), wav.len() as usize);
        assert_eq!((spec.sample_rate, spec.bits_per_sample, spec.channels), (48_000, 16, 1));
        // Bytes, because a track has thirty million samples, and silence is compared in whole stretches.
        let mut bytes = Vec::new();
        wav.into_inner().read_to_end(&mut bytes).unwrap();
        assert_eq!(bytes.len(), 2 * length, "the samples, and nothing after them");
        let sample = |frame: usize| i16::from_le_bytes([bytes[2 * frame], bytes[2 * frame + 1]]);
        let is_silent = |frames: Range<usize>| {
            let silence = [0; 4_096];
            bytes[2 * frames.start..2 * frames.end]
                .chunks(silence.len())
                .all(|part| *part == silence[..part.len()])
        };
        assert_eq!(sheet["schema"], "counterpoise.track/1");
        assert_eq!(sheet["frames"].as_u64().unwrap() as usize, length);
        let events = sheet["events"].as_array().unwrap();

        // The sheet explains every sample that is not silent, and each event begins as it says.
        let mut silent_from = 0;
        for event in events {
            let frame = event["frame"].as_u64().unwrap() as usize;
            let end = frame + event["duration_frames"].as_u64().unwrap() as usize;
            assert!(frame >= silent_from + 480, "{event}");
            assert!(is_silent(silent_from..frame), "before {event}");
            assert!(sample(frame).unsigned_abs() >= 33, "the onset of {event} is {}", sample(frame));
            silent_from = end;
        }
        assert!(is_silent(silent_from..length));

        // What lasts is on the sheet to its end: what sounds in it, and the end 48 frames a millisecond from the start.
        let lasting = events.iter().filter(|event| !event["then"].is_null());
        assert_eq!(lasting.clone().count() > 0, name == "steps-and-rises" || name == every);
        for event in lasting {
            let close = event["then"].as_array().unwrap().last().unwrap();
            let end = close["frame"].as_u64().unwrap() + close["duration_frames"].as_u64().unwrap();
            assert_eq!(event["frame"].as_u64().unwrap() + event["duration_frames"].as_u64().unwrap(), end);
            let (set, cue) = (event["set"].as_u64().unwrap(), event["cue"].as_u64().unwrap());
            let cue = &session["sets"][set as usize - 1]["cues"][cue as usize];
            let span = cue["until_ms"].as_u64().unwrap() - cue["at_ms"].as_u64().unwrap();
            assert_eq!(close["frame"].as_u64().unwrap(), event["frame"].as_u64().unwrap() + 48 * span);
            assert_eq!(close["say"], cue["close"]);
        }

        // The cues are those of the session, 48 frames a millisecond from the start of each set; nothing else is there.
        let sets = session["sets"].as_array().unwrap();
        let starts = sheet["sets"].as_array().unwrap();
        assert_eq!(sets.len(), starts.len());
        for (set, start) in sets.iter().zip(starts) {
            assert_eq!(set["number"], start["number"]);
            let start = start["start_frame"].as_u64().unwrap();
            let end = start + 48 * set["work_ms"].as_u64().unwrap();
            let planned: Vec<(u64, &Value, &str)> = set["cues"]
                .as_array()
                .unwrap()
                .iter()
                .filter(|cue| cue["blank"] == false)
                .map(|cue| (start + 48 * cue["at_ms"].as_u64().unwrap(), &cue["phrase"], "cue"))
                .collect();
            let inside: Vec<(u64, &Value, &str)> = events
                .iter()
                .map(|event| {
                    (event["frame"].as_u64().unwrap(), &event["phrase"], event["kind"].as_str().unwrap())
                })
                .filter(|(frame, ..)| (start..end).contains(frame))
                .collect();
            assert_eq!(inside, planned);
        }
        let opening: Vec<&str> =
            events.iter().take(7).map(|event| event["phrase"].as_str().unwrap()).collect();
        assert!(opening.contains(&"track.cannot-stop") && opening.contains(&"practice.stop-list"));
    }
}

#[test]
fn a_partner_is_asked_for_where_one_is_needed_and_only_there() {
    let place = place();
    let partner = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/data/partner.toml");
    let practice = |arguments: &[&str]| {
        let arguments = [&["practice", "--plain", "--silent"], arguments].concat();
        // Whether the partner suits is asked first.
        facts(&run_with(place.path(), &arguments, &lines(&PARTNER_SUITS)))
    };
    for name in [partner, "with-a-partner"] {
        let (fact, hint) = practice(&[name]);
        assert!(fact.contains(" needs a partner: "), "{fact}");
        assert!(hint.contains("--partner screen") && hint.contains("--partner earbud"), "{hint}");
    }
    // The first of its drills is named: their order is drawn.
    let (fact, _) = practice(&["with-a-partner"]);
    let first = fact.strip_prefix("\"Ball, eyes and steps with a partner\" needs a partner: ");
    assert!(["catching", "following an object", "quick steps"].contains(&first.unwrap()), "{fact}");
    // The warm-up alone needs nobody.
    let warm_up = run(place.path(), &["practice", "with-a-partner", "--plain", "--silent", "--sets", "1"]);
    assert_eq!(warm_up.status.code(), Some(0), "{}", String::from_utf8_lossy(&warm_up.stderr));

    for channel in ["screen", "earbud"] {
        let (fact, hint) = practice(&["gentle", "--partner", channel]);
        assert!(fact.contains("nothing for a partner to do"), "{fact}");
        assert!(hint.contains(&format!("Leave out --partner {channel}")), "{hint}");
    }
    assert_eq!(run(place.path(), &["practice", "--partner", "phone"]).status.code(), Some(2));
    // An earbud needs sound, and a tone cannot tell a partner anything.
    let (fact, hint) = practice(&[partner, "--partner", "earbud"]);
    assert!(fact.contains("earbud") && hint.contains("--partner screen"), "{fact} {hint}");
    let tones = ["practice", partner, "--plain", "--partner", "earbud", "--voice", "tones"];
    let output = run(place.path(), &tones);
    let told = String::from_utf8_lossy(&output.stderr).replace('\n', " ");
    assert!(told.contains("The lower voice speaks in the earbud."), "{told}");
}

#[test]
fn practice_with_a_partner_asks_whether_the_partner_suits_first_and_a_refusal_says_why() {
    let arguments = ["practice", "with-a-partner", "--partner", "screen", "--plain", "--silent"];
    let asked = |place: &Path, input: &[&str]| run_with(place, &arguments, &lines(input));
    let shown = |output: &Output| String::from_utf8_lossy(&output.stdout).into_owned();
    let first = "Is your partner strong enough to steady you?";

    let place = place();
    let (fact, hint) = facts(&asked(place.path(), &["y", "maybe", "y", "n"]));
    assert!(fact.contains("nothing was saved") && hint.contains("next to you"), "{fact} {hint}");
    let output = asked(place.path(), &PARTNER_SUITS);
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    let page = shown(&output);
    let (asked_at, begun_at) = (page.find(first), page.find("Ball, eyes and steps"));
    assert!(asked_at.is_some() && asked_at < begun_at, "{page}");
    assert!(!shown(&asked(place.path(), &[])).contains(first), "asked once");
    // The other questions are neither answered nor left out by it.
    let result = refused(place.path(), &["suitability", "--show"]).0;
    assert!(result.contains("not been answered"), "{result}");

    for (nth, good) in PARTNER_SUITS.iter().enumerate() {
        let place = tempfile::tempdir().unwrap();
        let mut answers = PARTNER_SUITS;
        answers[nth] = if nth % 3 == 0 {
            "u"
        } else if *good == "y" {
            "n"
        } else {
            "y"
        };
        let (fact, hint) = facts(&asked(place.path(), &answers));
        assert!(fact.starts_with("no practice with a partner: "), "{fact}");
        assert!(hint.contains("suitability --partner"), "{hint}");
        assert_eq!(facts(&asked(place.path(), &[])).0, fact, "kept, and said again without asking");
        let alone = run(place.path(), &["practice", "gentle", "--plain", "--silent"]);
        assert!(alone.status.success(), "alone is open: {}", String::from_utf8_lossy(&alone.stderr));
    }
}

#[test]
fn tracks_of_one_seed_are_the_same_bytes_and_a_folder_of_them_has_a_list() {
    let place = place();
    let bytes = |name: &str| fs::read(place.path().join(name)).unwrap();
    printed(place.path(), &["track", "gentle", "--seed", SEED, "--out", "a.wav", "--cue-sheet", "a.json"]);
    let said = printed(place.path(), &["track", "gentle", "--seed", SEED, "--count", "2", "--out", "many"]);
    assert!(said.contains("many"), "{said}");
    assert!(bytes("a.wav") == bytes("many/track-1.wav") && bytes("a.json") == bytes("many/track-1.json"));
    assert!(bytes("many/track-1.wav") != bytes("many/track-2.wav"));
    let list = String::from_utf8(bytes("many/list.txt")).unwrap();
    assert!(list.contains("track-1.wav") && list.contains("track-2.wav") && list.contains(SEED), "{list}");
    assert!(list.lines().all(|line| line.chars().count() <= 78), "{list}");
    assert_eq!(fs::read_dir(place.path().join("many")).unwrap().count(), 5, "nothing half written is left");
}

#[test]
fn a_track_that_cannot_be_written_or_must_not_be_is_refused_and_leaves_nothing() {
    let place = place();
    fs::write(place.path().join("file"), "kept").unwrap();
    for arguments in [
        &["track", "gentle", "--out", "file/a.wav"][..],
        &["track", "gentle", "--count", "2", "--out", "file"],
        &["track", "gentle", "--count", "2", "--out", "file/below"],
        &["track", "gentle", "--out", "no/such/folder/a.wav"],
    ] {
        let (fact, _) = refused(place.path(), arguments);
        let out = arguments.last().unwrap();
        assert!(fact.contains("could not write") && fact.contains(out), "{fact}");
    }
    for arguments in [
        &["track", "gentle", "--out", "a.wav", "--cue-sheet", "no/such/folder/a.json"][..],
        &["track", "gentle", "--out", "a.wav", "--cue-sheet", "file"],
        &["track", "gentle", "--out", "file"],
    ] {
        let (fact, _) = refused(place.path(), arguments);
        assert!(fact.contains(arguments.last().unwrap()), "{fact}");
    }
    let (fact, _) = refused(place.path(), &["track", "gentle", "--out", "a.wav", "--cue-sheet", "a.wav"]);
    assert!(fact.contains("cannot both be"), "{fact}");
    let gentle = include_str!("../../presets/prescriptions/gentle.toml");
    let unlock = "[[unlocks]]\nname = \"backward\"\nwatched_by = \"MK\"\non = 2026-11-02\n";
    fs::write(place.path().join("own.toml"), format!("{gentle}\n{unlock}")).unwrap();
    let (fact, _) = refused(place.path(), &["track", "own.toml", "--out", "a.wav"]);
    assert!(fact.contains("backward"), "{fact}");
    let mut names: Vec<_> =
        fs::read_dir(place.path()).unwrap().map(|entry| entry.unwrap().file_name()).collect();
    names.sort();
    assert_eq!(names, ["file", "own.toml"]);
    assert_eq!(fs::read_to_string(place.path().join("file")).unwrap(), "kept");
}

#[cfg(unix)]
#[test]
fn a_track_that_is_stopped_leaves_nothing_half_written() {
    let place = place();
    let mut command = counterpoise(place.path());
    command.args(["track", "typical", "--count", "6", "--out", "many"]).stderr(Stdio::piped());
    let child = command.spawn().unwrap();
    let names = || -> Vec<String> {
        let entries = fs::read_dir(place.path().join("many")).into_iter().flatten();
        entries.map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect()
    };
    let begun = |name: &String| name.starts_with(".track") && name.contains(".wav");
    let patience = std::time::Instant::now() + std::time::Duration::from_secs(60);
    while !names().iter().any(begun) {
        assert!(std::time::Instant::now() < patience, "no track was begun");
        std::thread::sleep(std::time::Duration::from_millis(2));
    }
    assert!(Command::new("kill").args(["-s", "TERM", &child.id().to_string()]).status().unwrap().success());
    let (fact, hint) = facts(&child.wait_with_output().unwrap());
    assert!(fact.contains("was stopped") && hint.contains("No partial file was kept"), "{fact} {hint}");
    assert!(!names().iter().any(|name| name.contains(".part")), "{:?}", names());
}

/// `/dev/full` is Linux's own test for programs that ignore a full disk.
#[cfg(target_os = "linux")]
#[test]
fn a_full_disk_is_told_and_a_device_is_not_replaced() {
    use std::os::unix::fs::FileTypeExt;
    let place = place();
    for arguments in
        [&["presets"][..], &["check"], &["preview"], &["journal", "export"], &["completions", "bash"]]
    {
        let full = fs::File::options().write(true).open("/dev/full").unwrap();
        let (fact, _) = facts(&counterpoise(place.path()).args(arguments).stdout(full).output().unwrap());
        assert!(fact.contains("No space left"), "{arguments:?}: {fact}");
    }
    let (fact, _) = refused(place.path(), &["track", "gentle", "--out", "/dev/full"]);
    assert!(fact.contains("/dev/full"), "{fact}");
    assert!(fs::metadata("/dev/full").unwrap().file_type().is_char_device());
}

#[test]
fn a_reader_that_goes_away_is_no_failure() {
    let place = place();
    let mut command = counterpoise(place.path());
    command.args(["preview", "--sessions", "2000"]).stdout(Stdio::piped()).stderr(Stdio::piped());
    let mut child = command.spawn().unwrap();
    drop(child.stdout.take());
    let output = child.wait_with_output().unwrap();
    assert_eq!(output.status.code(), Some(0));
    assert_eq!(String::from_utf8_lossy(&output.stderr), "");
}

#[test]
fn a_floor_course_needs_patches_of_the_persons_own() {
    let place = place();
    fs::write(place.path().join("course.toml"), include_str!("../data/course.toml")).unwrap();
    let practice = ["practice", "course.toml", "--plain", "--silent", "--partner", "screen"];
    let (fact, hint) = facts(&run_with(place.path(), &practice, &lines(&PARTNER_SUITS)));
    assert!(
        fact.contains("patches")
            && hint.contains("settings.toml")
            && hint.contains("3 to 8")
            && hint.contains("doormat"),
        "{fact} {hint}"
    );
    let settings =
        "schema = \"counterpoise.settings/1\"\npatches = [\"doormat\", \"folded blanket\", \"low board\"]\n";
    fs::create_dir_all(place.path().join("data")).unwrap();
    fs::write(place.path().join("data/settings.toml"), settings).unwrap();
    let output = run(place.path(), &practice);
    assert_eq!(output.status.code(), Some(0), "{}", String::from_utf8_lossy(&output.stderr));
}

#[test]
fn an_empty_folder_has_an_empty_journal_and_looking_makes_nothing() {
    let place = place();
    assert!(printed(place.path(), &["journal", "list"]).starts_with("Nothing has been practiced yet.\n"));
    let (_, hint) = refused(place.path(), &["journal", "show", "3f2a"]);
    assert!(hint.contains("journal list"), "{hint}");
    let export = printed(place.path(), &["journal", "export"]);
    assert_eq!(json(&export)["schema"], "counterpoise.journal/2");
    assert_eq!(printed(place.path(), &["journal", "export", "--format", "csv"]).lines().count(), 1);
    assert!(!place.path().join("data").exists(), "to look makes no folder");
    fs::write(place.path().join("export.json"), &export).unwrap();
    assert!(printed(place.path(), &["journal", "import", "export.json"]).contains("0 sessions added"));
    let (fact, _) = refused(place.path(), &["journal", "import", "nothing.json"]);
    assert!(fact.contains("nothing.json"), "{fact}");
}

#[test]
fn a_prescription_in_use_is_what_the_other_commands_mean_and_is_journaled() {
    let place = place();
    let title = |arguments: &[&str]| json(&printed(place.path(), arguments))["prescription"]["title"].clone();
    assert_eq!(title(&["check", "--format", "json"]), "Gentle start at the counter");
    let own = include_str!("../../presets/prescriptions/typical.toml").replace("Usual practice", "For Ada");
    fs::write(place.path().join("ada.toml"), own).unwrap();
    assert!(printed(place.path(), &["use", "ada.toml"]).contains("For Ada at the counter"));
    fs::remove_file(place.path().join("ada.toml")).unwrap();
    assert_eq!(title(&["preview", "--format", "json"]), "For Ada at the counter");
    let export = json(&printed(place.path(), &["journal", "export", "--format", "sessions"]));
    assert_eq!(export["changes"][0]["what"], "prescription in use");
    assert!(export["changes"][0]["source"].as_str().unwrap().contains("ada.toml"), "{export}");
    let other = place.path().join("other");
    let there = ["--data-dir", other.to_str().unwrap(), "check", "--format", "json"];
    assert_eq!(title(&there), "Gentle start at the counter", "--data-dir is another person");
}

#[test]
fn without_a_home_what_needs_no_folder_works() {
    let place = place();
    let homeless = |arguments: &[&str]| {
        counterpoise(place.path())
            .env_remove("HOME")
            .env_remove("COUNTERPOISE_DATA")
            .env_remove("XDG_DATA_HOME")
            .args(arguments)
            .output()
            .unwrap()
    };
    for arguments in [&["presets"][..], &["check", "gentle"], &["preview", "gentle", "--seed", SEED]] {
        assert_eq!(homeless(arguments).status.code(), Some(0), "{arguments:?}");
    }
}

/// Runs a command as someone whom permissions bind: they do not bind root, who becomes nobody for it.
#[cfg(target_os = "linux")]
fn as_anybody(folder: &Path, program: &Path, arguments: &[&str]) -> Command {
    use std::os::unix::fs::MetadataExt;
    let is_root = fs::metadata("/proc/self").unwrap().uid() == 0;
    let mut command = if is_root {
        let mut command = Command::new("setpriv");
        command.args(["--reuid", "65534", "--regid", "65534", "--clear-groups", "--"]).arg(program);
        command
    } else {
        Command::new(program)
    };
    // Sound libraries complain of a home in which they cannot write.
    command.args(arguments).current_dir(folder).env("HOME", folder.join("elsewhere")).stdin(Stdio::null());
    command
}

#[cfg(target_os = "linux")]
#[test]
fn a_folder_that_may_not_be_written_is_told_before_practice_and_nothing_in_it_changes() {
    use std::os::unix::fs::PermissionsExt;
    let set = |path: &Path, mode| fs::set_permissions(path, fs::Permissions::from_mode(mode)).unwrap();
    let place = place();
    let (folder, program) = (place.path(), place.path().join("counterpoise"));
    // Where the program lies nobody may be allowed to look.
    fs::copy(env!("CARGO_BIN_EXE_counterpoise"), &program).unwrap();
    set(folder, 0o755);
    printed(folder, &["use", "typical"]);
    let (data, home) = (folder.join("data"), folder.join("home"));
    fs::create_dir(&home).unwrap();
    fs::write(folder.join("export.json"), printed(folder, &["journal", "export"])).unwrap();
    fs::create_dir(folder.join("elsewhere")).unwrap();
    set(&folder.join("elsewhere"), 0o777);
    let files = || -> Vec<(std::path::PathBuf, Vec<u8>)> {
        let mut paths: Vec<_> = fs::read_dir(&data).unwrap().map(|entry| entry.unwrap().path()).collect();
        paths.sort();
        paths.into_iter().map(|path| (path.clone(), fs::read(path).unwrap())).collect()
    };
    let before = files();
    for (path, _) in &before {
        set(path, 0o444);
    }
    set(&data, 0o555);
    set(&home, 0o555);

    let touched = as_anybody(folder, Path::new("touch"), &["data/probe"]).output();
    let touched = touched.expect("as root this test needs setpriv (Debian: util-linux)");
    assert!(!touched.status.success(), "here permissions bind nobody, and nothing would be tested");

    let there = |arguments: &[&str]| {
        let arguments = [&["--data-dir", "data"], arguments].concat();
        as_anybody(folder, &program, &arguments).output().unwrap()
    };
    let correct = ["journal", "correct", "last", "--set-aside", "--reason", "x"];
    for arguments in [
        &["practice", "--plain", "--silent"][..],
        &["use", "gentle"],
        &["journal", "add"],
        &["journal", "import", "export.json"],
        &correct,
        &["journal", "erase"],
    ] {
        let output = there(arguments);
        let (fact, hint) = facts(&output);
        assert!(fact.contains("cannot be written") && hint.contains("--data-dir"), "{arguments:?}: {fact}");
        assert!(output.stdout.is_empty(), "no page came before the refusal");
    }
    let list = there(&["journal", "list"]);
    assert!(String::from_utf8(list.stdout).unwrap().starts_with("Nothing has been practiced yet.\n"));
    let check = there(&["check"]);
    assert!(String::from_utf8(check.stdout).unwrap().starts_with("Usual practice"));
    let told = there(&["equipment", "--quiet", "--device", "no-such-output"]);
    assert!(facts(&told).0.starts_with("one thing"));

    let homeless = |arguments: &[&str]| {
        let mut command = as_anybody(folder, &program, arguments);
        command.env("HOME", &home).env_remove("XDG_DATA_HOME").env_remove("COUNTERPOISE_DATA");
        command.output().unwrap()
    };
    let (fact, hint) = facts(&homeless(&["practice", "--plain", "--silent"]));
    assert!(fact.contains("cannot be a folder") && hint.contains("--data-dir"), "{fact} {hint}");
    assert_eq!(homeless(&["journal", "list"]).status.code(), Some(0));

    set(&data, 0o755);
    set(&home, 0o755);
    assert!(files() == before);
    assert_eq!(fs::read_dir(&home).unwrap().count(), 0);
}

#[test]
fn equipment_finds_no_fault_in_no_sound_and_names_what_keeps_practice_from_being_saved() {
    let place = place();
    let told = printed(place.path(), &["equipment", "--quiet", "--device", "no-such-output"]);
    assert!(told.contains("No sound: ") && told.contains("The journal is in order"), "{told}");
    assert!(told.lines().all(|line| line.chars().count() <= 78), "{told}");
    let without = counterpoise(place.path())
        .args(["equipment", "--quiet", "--device", "no-such-output"])
        .env("NO_COLOR", "1")
        .output()
        .unwrap();
    assert_eq!(String::from_utf8(without.stdout).unwrap(), told, "the screens have no color to speak of");
    assert!(!place.path().join("data").exists(), "to look makes no folder");
    fs::create_dir(place.path().join("data")).unwrap();
    fs::write(place.path().join("data/journal.sqlite"), "not a journal, but longer than nothing").unwrap();
    fs::write(
        place.path().join("data/settings.toml"),
        "schema = \"counterpoise.settings/1\"\nvoice = \"loud\"\n",
    )
    .unwrap();
    let output = run(place.path(), &["equipment", "--quiet", "--device", "no-such-output"]);
    assert!(facts(&output).0.starts_with("2 things keep practice from starting"));
    let told = String::from_utf8(output.stdout).unwrap();
    assert!(told.contains("is not a Counterpoise journal") && told.contains("line 2"), "{told}");
}

#[test]
fn completions_and_manual_pages_know_every_command() {
    let place = place();
    for shell in ["bash", "zsh", "fish", "powershell", "elvish"] {
        let text = printed(place.path(), &["completions", shell]);
        assert!(text.contains("practice") && text.contains("cue-sheet"), "{shell}");
    }
    printed(place.path(), &["man", "--out", "man/man1"]);
    for page in ["counterpoise.1", "counterpoise-track.1", "counterpoise-journal-export.1"] {
        let text = fs::read_to_string(place.path().join("man/man1").join(page)).unwrap();
        assert!(text.contains(".SH NAME"), "{page}");
    }
    fs::write(place.path().join("file"), "").unwrap();
    let (fact, _) = refused(place.path(), &["man", "--out", "file/man"]);
    assert!(fact.contains("file/man"), "{fact}");
}

#[test]
fn an_audit_has_the_contracts_keys_and_the_same_seed_gives_the_same_figures() {
    let place = place();
    let arguments = ["audit", "typical", "--seed", SEED, "--cues", "2000", "--format", "json"];
    let text = printed(place.path(), &arguments);
    assert_eq!(
        text,
        printed(place.path(), &arguments),
        "a seed replays an audit, however many cores take part"
    );
    let audit = json(&text);
    assert_eq!(audit["schema"], "counterpoise.audit/1");
    let has = |value: &Value, names: &[&str]| {
        for name in names {
            assert!(!value[*name].is_null(), "{name} in {value}");
        }
    };
    for drill in audit["drills"].as_array().unwrap() {
        has(drill, &["name", "form", "directions", "cues", "chance", "guess_rate", "guess_rate_error"]);
        has(drill, &["by_position", "entropy_bits", "limit_bits"]);
        assert!(drill["guess_rate"].as_f64() >= drill["chance"].as_f64());
    }
    for when in audit["when"].as_array().unwrap() {
        has(when, &["name", "slot_ms", "hazard", "brace_200_ms", "brace_500_ms", "brace_1000_ms"]);
        has(
            when,
            &["expected_hazard", "optimum", "density_square", "designed", "without_blanks", "edge", "clock"],
        );
        assert_eq!(when["without_blanks"]["hazard"].as_array().unwrap().len(), 50, "10 s in slots of 200 ms");
    }
    let estimators = audit["estimators"].as_array().unwrap();
    assert_eq!(estimators.len(), 2 * 3 * 4, "drills, sequences, estimators");
    for estimator in estimators {
        has(estimator, &["sequence", "drill", "name", "n", "hits", "hit_rate", "min_entropy_bits"]);
        assert_eq!(estimator["leak"], false, "{estimator}");
    }
}

/// The learners get exactly the calls that `preview` shows for the same seed: here all directions of one drill are
/// counted in the preview, and the estimator says how many it was given.
#[test]
fn an_audit_is_of_the_sessions_that_preview_shows() {
    let place = place();
    let audit = json(&printed(
        place.path(),
        &["audit", "gentle", "--seed", SEED, "--cues", "1000", "--format", "json"],
    ));
    let sessions = audit["sessions"].to_string();
    let previews = json(&printed(
        place.path(),
        &["preview", "gentle", "--seed", SEED, "--sessions", &sessions, "--format", "json"],
    ));
    let calls = |upto: usize| {
        let sets = previews.as_array().unwrap()[..upto]
            .iter()
            .flat_map(|session| session["sets"].as_array().unwrap());
        let shifts = sets.filter(|set| set["drill"] == "counter-shift");
        shifts.flat_map(|set| set["cues"].as_array().unwrap()).filter(|cue| cue["blank"] == false).count()
    };
    let drawn = previews.as_array().unwrap().len();
    assert!(calls(drawn) >= 1000 && calls(drawn - 1) < 1000, "no session more than needed");
    assert_eq!(audit["drills"][0]["cues_drawn"], 1000);
    let lag = audit["estimators"].as_array().unwrap().iter().find(|one| one["name"] == "lag").unwrap();
    assert_eq!(lag["n"], 999);
}

#[test]
fn an_audit_is_a_page_without_script_and_a_text_of_eighty_columns() {
    let place = place();
    let two =
        include_str!("../../presets/prescriptions/gentle.toml").replacen("title = \"", "title = \"<b>&", 1);
    fs::write(place.path().join("own.toml"), two).unwrap();
    let page = printed(place.path(), &["audit", "own.toml", "--cues", "1000", "--format", "html"]);
    for forbidden in ["<script", "http-equiv", "src=", "href=", "<b>", "@import", "url("] {
        assert!(!page.contains(forbidden), "{forbidden}");
    }
    assert!(
        page.starts_with("<!doctype html>")
            && page.contains("&lt;b&gt;&amp;")
            && page.contains("lang=\"en\"")
    );
    let (pictures, words, tables) =
        (page.matches("<svg ").count(), page.matches("<desc ").count(), page.matches("<table>").count());
    assert!(pictures >= 4 && words == pictures && tables >= pictures, "{pictures} {words} {tables}");
    // Its marks are well balanced: every figure, table and paragraph is closed.
    for mark in ["figure", "table", "p", "h1", "h2", "svg", "details", "tr", "td", "main", "html"] {
        let opened = page.matches(&format!("<{mark}>")).count() + page.matches(&format!("<{mark} ")).count();
        assert_eq!(opened, page.matches(&format!("</{mark}>")).count(), "{mark}");
    }
    let text = printed(place.path(), &["audit", "own.toml", "--cues", "1000"]);
    assert!(text.lines().all(|line| line.chars().count() <= 80), "{text}");
    let words = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(words.contains("22.5 of 100 directions right") && words.contains("no leak was found"), "{text}");
}

#[test]
fn check_says_in_a_line_how_well_calls_can_be_foreseen_and_what_would_help() {
    let place = place();
    let check = printed(place.path(), &["check", "gentle"]);
    let words = check.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(words.contains(
        "A guesser who knows every rule but not the seed gets 22.5 of 100 directions right; chance is 21.7."
    ));
    assert!(words.contains("More: counterpoise audit gentle"));
    let two = include_str!("../../presets/prescriptions/gentle.toml")
        .replace(
            "directions = [\"forward\", \"left\", \"right\", \"forward left\", \"forward right\"]",
            "directions = [\"left\", \"right\"]",
        )
        .replace("longest_streak = 2", "longest_streak = 3");
    let two = two.replacen("longest_streak = 3", "longest_streak = 2", 1);
    fs::write(place.path().join("two.toml"), two).unwrap();
    let warned = json(&printed(place.path(), &["check", "two.toml", "--format", "json"]));
    let warnings = warned["warnings"].to_string();
    assert!(
        warnings.contains("with two directions") && warnings.contains("A third direction helps most"),
        "{warnings}"
    );
    assert!(warned["foreseen"].as_str().unwrap().contains("of 100"));
}

#[test]
fn a_list_that_somebody_made_up_is_judged_or_refused_with_its_line() {
    let place = place();
    let list: String = (0..80)
        .map(|call| format!("{} {}\n", 6 + call * 6, ["left", "right", "forward"][call % 3]))
        .collect();
    fs::write(place.path().join("mine.txt"), list).unwrap();
    let judged = json(&printed(
        place.path(),
        &["audit", "--sequence", "mine.txt", "--seed", SEED, "--format", "json"],
    ));
    assert_eq!(judged["schema"], "counterpoise.audit-sequence/1");
    assert_eq!((judged["calls"].as_u64(), judged["guess"]["n"].as_u64()), (Some(80), Some(79)));
    assert!(judged["guess"]["low"].as_f64().unwrap() > 0.8, "turns are a habit: {judged}");
    assert!(judged["when"]["caught"]["low"].as_f64().unwrap() > 0.9, "and so is a steady beat: {judged}");
    assert!(judged["app"]["guess_high"].as_f64().unwrap() < 0.6);
    let text = printed(place.path(), &["audit", "--sequence", "mine.txt"]);
    assert!(text.contains("mine.txt: can anybody predict it?") && text.contains("That is a habit"), "{text}");
    assert!(text.lines().all(|line| line.chars().count() <= 80));
    printed(place.path(), &["audit", "--sequence", "mine.txt", "--format", "html"]);
    fs::write(place.path().join("bad.txt"), "5 left\n4 right\n").unwrap();
    let (fact, _) = refused(place.path(), &["audit", "--sequence", "bad.txt"]);
    assert!(fact.contains("bad.txt") && fact.contains("line 2") && fact.contains("4 s"), "{fact}");
    refused(place.path(), &["audit", "--sequence", "none.txt"]);
    let usage = run(place.path(), &["audit", "gentle", "--sequence", "mine.txt"]);
    assert_eq!(usage.status.code(), Some(2));
}

#[test]
fn a_journal_is_erased_only_after_the_exact_word() {
    use std::io::Write as _;
    let place = tempfile::tempdir().unwrap();
    let erase = |arguments: &[&str], typed: &str| {
        let mut child = Command::new(env!("CARGO_BIN_EXE_counterpoise"))
            .args([&["journal", "erase"], arguments].concat())
            .env("COUNTERPOISE_DATA", place.path().join("data"))
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        let _ = child.stdin.take().unwrap().write_all(typed.as_bytes());
        child.wait_with_output().unwrap()
    };
    let nothing = erase(&[], "erase\n");
    assert!(String::from_utf8(nothing.stderr).unwrap().contains("there is nothing to erase"));
    printed(place.path(), &["use", "gentle"]);
    let journal = place.path().join("data/journal.sqlite");
    for typed in ["", "\n", "Erase\n", "erase it\n", " erase\n", "yes\n"] {
        let output = erase(&[], typed);
        assert_eq!(output.status.code(), Some(1), "{typed:?}");
        assert!(String::from_utf8(output.stderr).unwrap().contains("nothing was erased"));
        assert!(journal.exists());
    }
    let output = erase(&[], "erase\n");
    let said = String::from_utf8(output.stdout).unwrap();
    assert!(output.status.success() && said.contains("Locks and holds go with it"), "{said}");
    assert!(!journal.exists() && place.path().join("data/prescription.toml").exists());
    assert!(erase(&["--everything"], "erase\n").status.success());
    assert!(!place.path().join("data/prescription.toml").exists());
}
