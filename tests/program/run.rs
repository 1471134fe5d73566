//! The program, run from outside as a person runs it. Not what is expected of it.

use std::io::Write as _;
use std::path::Path;
use std::process::{Command, Output, Stdio};

/// Runs it in this folder, where its data is in `data`, and types these lines.
pub(crate) fn run_with(folder: &Path, arguments: &[&str], input: &str) -> Output {
    let mut child = Command::new(env!("CARGO_BIN_EXE_counterpoise"))
        .args(arguments)
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

/// Answers as lines.
pub(crate) fn lines(answers: &[&str]) -> String {
    answers.iter().map(|answer| format!("{answer}\n")).collect()
}
