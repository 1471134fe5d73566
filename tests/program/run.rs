//! The program, run from outside as a person runs it. Not what is expected of it.

use std::io::{Read, Write as _};
use std::path::Path;
use std::process::{Command, Output, Stdio};
use std::sync::mpsc::{self, Receiver};

use jiff::tz::TimeZone;
use jiff::{Timestamp, ZonedDateTime};

/// Runs it in this folder, where its data is in `data`, and types these lines.
pub(crate) fn run_with(folder: &Path, arguments: &[&str], input: &str) -> Output {
    typed(Command::new(env!("CARGO_BIN_EXE_counterpoise")).args(arguments), folder, input)
}

/// The same where it is about noon now, so that "an hour ago" is today whenever this runs.
pub(crate) fn run_at_noon(folder: &Path, arguments: &[&str], input: &str) -> Output {
    let mut program = Command::new(env!("CARGO_BIN_EXE_counterpoise"));
    typed(program.args(arguments).env("TZ", noon().time_zone().iana_name().unwrap()), folder, input)
}

/// Now, on the clock of a place where it is about noon.
pub(crate) fn noon() -> ZonedDateTime {
    let now = Timestamp::now();
    // East of Greenwich is below zero in these names.
    let west = i32::from(TimeZone::UTC.to_datetime(now).hour()) - 12;
    now.in_tz(&format!("Etc/GMT{west:+}")).unwrap()
}

fn typed(program: &mut Command, folder: &Path, input: &str) -> Output {
    let mut child = program
        .env("COUNTERPOISE_DATA", folder.join("data"))
        .current_dir(folder)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    // Whoever refuses at once does not read.
    let _ = child.stdin.take().unwrap().write_all(input.as_bytes());
    child.wait_with_output().unwrap()
}

/// The good answers to the questions about the partner, in their order.
pub(crate) const PARTNER_SUITS: [&str; 8] = ["y", "y", "n", "n", "y", "y", "y", "y"];

/// Answers as lines.
pub(crate) fn lines(answers: &[&str]) -> String {
    answers.iter().map(|answer| format!("{answer}\n")).collect()
}

/// What a program writes, in the pieces in which it comes: reading waits nowhere but at the receiver.
pub(crate) fn pieces(mut from: impl Read + Send + 'static) -> Receiver<Vec<u8>> {
    let (tell, pieces) = mpsc::channel();
    std::thread::spawn(move || {
        let mut bytes = [0; 4096];
        while let Ok(length @ 1..) = from.read(&mut bytes) {
            if tell.send(bytes[..length].to_vec()).is_err() {
                return;
            }
        }
    });
    pieces
}
