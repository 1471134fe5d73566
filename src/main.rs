//! The program: read the command line, run the command, tell what went wrong, end with an exit code.
#![forbid(unsafe_code)]

use std::io::{IsTerminal, Write};
use std::process::ExitCode;

use clap::Parser;
use counterpoise::cli::{self, Cli, EXIT_DONE, EXIT_REFUSED};

fn main() -> ExitCode {
    let cli = match Cli::try_parse() {
        Ok(cli) => cli,
        Err(usage) => {
            // Help, the version and usage errors; where they cannot be printed there is nobody to tell.
            let _ = usage.print();
            return ExitCode::from(usage.exit_code() as u8);
        }
    };
    match cli::run(&cli) {
        Ok(()) => ExitCode::from(EXIT_DONE),
        Err(failure) if failure.is_closed_pipe() => ExitCode::from(EXIT_DONE),
        Err(failure) => {
            let mut err = std::io::stderr().lock();
            let told = failure.told(err.is_terminal());
            let _ = writeln!(err, "{told}");
            ExitCode::from(EXIT_REFUSED)
        }
    }
}
