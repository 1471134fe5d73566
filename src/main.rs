//! The program: reads the command line, runs the command, prints what went wrong, and ends with an exit code.
#![forbid(unsafe_code)]

use std::io::{IsTerminal, Write};
use std::process::ExitCode;

use clap::Parser;
use counterpoise::cli::{self, Cli, EXIT_DONE, EXIT_REFUSED};

/// A crash must leave no copy of the memory on the disk: what was answered about health would be in it.
fn no_core_file() {
    #[cfg(unix)]
    {
        let none = rustix::process::Rlimit { current: Some(0), maximum: Some(0) };
        // Where it cannot be lowered it is as the system has it, and practice is not refused for that.
        let _ = rustix::process::setrlimit(rustix::process::Resource::Core, none);
    }
}

fn main() -> ExitCode {
    no_core_file();
    let cli = match Cli::try_parse() {
        Ok(cli) => cli,
        Err(usage) => {
            // Help, the version or a usage error. If it cannot be printed, nobody is there to read it.
            let _ = match usage.use_stderr() {
                // It repeats what was typed, which can hold what a terminal obeys.
                true => std::io::stderr().write_all(cli::printable(&usage.render().to_string()).as_bytes()),
                false => usage.print(),
            };
            return ExitCode::from(usage.exit_code() as u8);
        }
    };
    match cli::run(&cli) {
        Ok(()) => ExitCode::from(EXIT_DONE),
        Err(failure) if failure.is_closed_pipe() => ExitCode::from(EXIT_DONE),
        Err(failure) => {
            let mut err = std::io::stderr().lock();
            let _ = writeln!(err, "{}", failure.message(err.is_terminal()));
            ExitCode::from(EXIT_REFUSED)
        }
    }
}
