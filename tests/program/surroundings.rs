//! What is around the program and not as it should be: a terminal, a language setting, a time zone, other users of the computer.
#![cfg(unix)]

use std::fs;
use std::os::unix::fs::PermissionsExt;
use std::path::Path;
use std::process::{Command, Output, Stdio};
use std::time::{Duration, Instant};

use crate::moving::terminal::run_on;
use crate::run::run_with;

fn program(folder: &Path) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_counterpoise"));
    command.env("COUNTERPOISE_DATA", folder.join("data")).current_dir(folder).stdin(Stdio::null());
    command
}

fn error(output: &Output) -> String {
    String::from_utf8_lossy(&output.stderr).into_owned()
}

#[test]
fn a_language_setting_without_large_letters_gets_lines_and_a_word_about_it() {
    let place = tempfile::tempdir().unwrap();
    for locale in ["C", "POSIX", "en_US.ISO-8859-1", "de_DE@euro"] {
        let (shown, _) = run_on((80, 24), locale, place.path(), &["practice", "--silent"], "stop\r");
        assert!(shown.contains("these are lines"), "{locale}: {shown}");
        assert!(!shown.contains("\u{1b}[?1049h"), "{locale}: it draws nothing");
    }
}

#[test]
fn a_terminal_that_claims_a_size_that_none_has_is_taken_as_unknown() {
    let place = tempfile::tempdir().unwrap();
    let from = Instant::now();
    let (shown, _) = run_on((65_535, 65_535), "C.UTF-8", place.path(), &["practice", "--silent"], "ssss");
    assert!(shown.contains("\u{1b}[?1049h") && shown.contains("\u{1b}[?1049l"), "drawn, and given back");
    assert!(from.elapsed() < Duration::from_secs(20), "{:?}", from.elapsed());
    // The usual size has 24 rows, and each row that is drawn is gone to.
    assert!(shown.contains("\u{1b}[24;1H") && !shown.contains("\u{1b}[25;1H"));
}

#[test]
fn a_time_zone_that_is_a_device_is_a_clear_error_and_no_hang() {
    let place = tempfile::tempdir().unwrap();
    for zone in ["/dev/zero", ":/dev/zero"] {
        let from = Instant::now();
        let output = program(place.path()).arg("next").env("TZ", zone).output().unwrap();
        assert_eq!(output.status.code(), Some(1), "{}", error(&output));
        assert!(
            error(&output).starts_with("Error: the time zone in TZ cannot be used: /dev/zero"),
            "{}",
            error(&output)
        );
        assert!(from.elapsed() < Duration::from_secs(10));
    }
    let output = program(place.path()).arg("next").env("TZ", "America/New_York").output().unwrap();
    assert!(output.status.success(), "{}", error(&output));
}

#[test]
fn a_track_its_cue_sheet_and_a_list_are_for_their_owner_alone() {
    let place = tempfile::tempdir().unwrap();
    let track = ["track", "gentle", "--out", "one.wav", "--cue-sheet", "one.json"];
    assert!(run_with(place.path(), &track, "").status.success());
    let made = run_with(place.path(), &["track", "gentle", "--count", "1", "--out", "tracks"], "");
    assert!(made.status.success(), "{}", error(&made));
    for name in ["one.wav", "one.json", "tracks/track-1.wav", "tracks/track-1.json", "tracks/list.txt"] {
        let bits = fs::metadata(place.path().join(name)).unwrap().permissions().mode();
        assert_eq!(bits & 0o777, 0o600, "{name}");
    }
}

#[test]
fn who_has_the_journal_open_is_named() {
    let place = tempfile::tempdir().unwrap();
    let folder = counterpoise::journal::Folder::open_in(place.path().join("data")).unwrap();
    let _window = folder.lock().unwrap();
    let output = program(place.path()).args(["use", "gentle"]).output().unwrap();
    let said = format!("another Counterpoise window (process {}) is open", std::process::id());
    assert!(error(&output).contains(&said), "{}", error(&output));
}

#[cfg(target_os = "linux")]
#[test]
fn a_crash_leaves_no_copy_of_the_memory() {
    let place = tempfile::tempdir().unwrap();
    let mut command = program(place.path());
    command.args(["practice", "--plain", "--silent"]).stdin(Stdio::piped()).stdout(Stdio::piped());
    let mut child = command.stderr(Stdio::null()).spawn().unwrap();
    // Its first line: it runs by then.
    std::io::Read::read_exact(child.stdout.as_mut().unwrap(), &mut [0]).unwrap();
    let limits = fs::read_to_string(format!("/proc/{}/limits", child.id())).unwrap();
    drop(child.stdin.take());
    child.wait().unwrap();
    let core = limits.lines().find(|line| line.starts_with("Max core file size")).unwrap();
    assert_eq!(core.split_whitespace().skip(4).take(2).collect::<Vec<_>>(), ["0", "0"], "{core}");
}

#[test]
fn a_huge_folder_is_named_before_it_is_searched() {
    let place = tempfile::tempdir().unwrap();
    for nth in 0..3_000 {
        fs::write(place.path().join(format!("{nth}.json")), "{}").unwrap();
    }
    let mut command = program(place.path());
    let mut child = command
        .args(["report", "--folder", "."])
        .stderr(Stdio::piped())
        .stdout(Stdio::null())
        .spawn()
        .unwrap();
    let from = Instant::now();
    let mut first = [0; 12];
    std::io::Read::read_exact(child.stderr.as_mut().unwrap(), &mut first).unwrap();
    assert!(from.elapsed() < Duration::from_secs(2), "{:?}", from.elapsed());
    assert_eq!(&first, b"Looking for ");
    child.wait().unwrap();
}
