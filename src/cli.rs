//! The command line: which commands are there, and which function runs each? Each command has its own file below.

use std::io::{self, BufWriter, Write};
use std::path::PathBuf;

use clap::{Parser, Subcommand, ValueEnum};

use self::page::Output;
use crate::clock;
use crate::journal::Folder;
use counterpoise_core::words::Printable;

mod assess;
mod audit;
mod check;
mod clear;
mod completions;
mod drills;
mod equipment;
mod face;
mod failure;
mod fault;
mod form;
mod handover;
mod journal;
mod man;
mod missed;
mod next;
mod overview;
mod page;
mod partner;
mod people;
pub mod practice;
mod prescribe;
mod presets;
mod preview;
mod program;
mod progress;
mod report;
mod setup;
mod sheet;
mod sounding;
pub mod source;
mod standing;
mod suitability;
mod track;
mod use_file;

pub use failure::Failure;

/// The command did what was asked.
pub const EXIT_DONE: u8 = 0;
/// The command refused or failed: standard error has `Error:` and `Hint:`.
pub const EXIT_REFUSED: u8 = 1;
/// The command line was not understood (clap's own code).
pub const EXIT_USAGE: u8 = 2;

/// Balance practice whose next cue nobody in the room can predict, within a therapist's limits.
///
/// Without a command it opens the next practice. Your therapist's advice and your local rules come first.
#[derive(Debug, Parser)]
#[command(
    name = "counterpoise",
    version,
    max_term_width = 100,
    disable_help_subcommand = true,
    after_help = "Examples:\n  \
        counterpoise                     practice, alone at the counter\n  \
        counterpoise check gentle        what a prescription will ask for, in plain words\n  \
        counterpoise track gentle --out practice.wav\n                                   \
        a practice for one person as a sound file for a phone\n  \
        counterpoise journal list        what was practiced\n\n\
        Exit codes: 0 done; 1 refused or failed; 2 the command line was not understood."
)]
pub struct Cli {
    /// The folder of one person.
    #[arg(
        long,
        global = true,
        value_name = "DIR",
        help = "Keep one person's data in this folder [default: COUNTERPOISE_DATA, else the usual data folder]"
    )]
    data_dir: Option<PathBuf>,
    /// The name of the person, if several people use this computer.
    #[arg(
        long,
        global = true,
        value_name = "NAME",
        help = "Who practices, if several people use this computer [default: it asks]"
    )]
    person: Option<String>,
    #[command(subcommand)]
    command: Option<Command>,
}

#[derive(Debug, Subcommand)]
enum Command {
    /// Practice now, with voice and screen
    Practice(practice::Arguments),
    /// Set up who practices, whom to call, and the room
    Setup(setup::Arguments),
    /// Show what comes next, at which step, and why
    Next(next::Arguments),
    /// Show the weeks of the program and the month
    Program(program::Arguments),
    /// Answer the health questions, at the start and when something changes
    Suitability(suitability::Arguments),
    /// Take a balance test, or compare a result with the published tables
    Assess(assess::Arguments),
    /// Lift a lock after a clinician has cleared it
    Clear(clear::Arguments),
    /// Show your own practice: this week, what is next, how it is going
    Progress(progress::Arguments),
    /// Write a sheet to print, for practice with tracks away from the computer
    Sheet(sheet::Arguments),
    /// Report what was actually done, for the therapist
    Report(report::Arguments),
    /// Explain a prescription in plain words, or show what is wrong with it
    Check(check::Arguments),
    /// Show how well anybody could predict the calls
    Audit(audit::Arguments),
    /// Write or change a prescription, question by question, or run a try-out
    Prescribe(prescribe::Arguments),
    /// List the ready prescriptions
    Presets(presets::Arguments),
    /// List the kinds of practice, or explain one
    Drills(drills::Arguments),
    /// Show the calls of a session before anybody practices it
    Preview(preview::Arguments),
    /// Write a session as a sound file for any phone
    Track(track::Arguments),
    /// Make a prescription the one that practice opens
    Use(use_file::Arguments),
    /// Show, export, import or correct the journal
    Journal(journal::Arguments),
    /// Check whether sound, screen and journal work here
    Equipment(equipment::Arguments),
    /// Print the completions of a shell
    Completions(completions::Arguments),
    /// Write the manual pages
    Man(man::Arguments),
}

/// An output format.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Format {
    /// For people
    Text,
    /// For other programs
    Json,
}

impl Cli {
    /// The person's folder. It is looked for only if a command needs one.
    fn folder(&self) -> Result<Folder, Failure> {
        people::find(self.data_dir.as_deref(), self.person.as_deref())
    }
}

/// Lines in which nothing is left that a terminal obeys.
pub fn printable(lines: &str) -> String {
    lines.lines().map(|line| format!("{}\n", Printable::of(line))).collect()
}

/// Runs the command. Its output goes to standard output, its notes to standard error.
///
/// # Errors
/// If the command refuses or fails. The failure is for a person to read.
pub fn run(cli: &Cli) -> Result<(), Failure> {
    clock::check()?;
    fault::catch(cli.data_dir.as_deref(), || {
        let mut out = BufWriter::new(io::stdout());
        let folder = || cli.folder();
        let done = |()| Output::NOTHING;
        let output = match &cli.command {
            None => practice::run(&practice::Arguments::default(), &folder()?).map(done),
            Some(Command::Practice(arguments)) => practice::run(arguments, &folder()?).map(done),
            Some(Command::Setup(arguments)) => {
                let data = Folder::find(cli.data_dir.as_deref())?;
                setup::run(*arguments, &data, cli.person.as_deref(), &mut out)
            }
            Some(Command::Next(arguments)) => next::run(arguments, &folder()?),
            Some(Command::Program(arguments)) => program::run(arguments, &folder()?),
            Some(Command::Suitability(arguments)) => suitability::run(*arguments, &folder()?, &mut out),
            Some(Command::Assess(arguments)) => assess::run(arguments, folder),
            Some(Command::Clear(arguments)) => clear::run(arguments, &folder()?, &mut out),
            Some(Command::Progress(arguments)) => progress::run(*arguments, &folder()?),
            Some(Command::Sheet(arguments)) => sheet::run(arguments, &folder()?),
            Some(Command::Report(arguments)) => report::run(arguments, folder, &mut out),
            Some(Command::Check(arguments)) => check::run(arguments, folder),
            Some(Command::Audit(arguments)) => audit::run(arguments, folder),
            Some(Command::Prescribe(arguments)) => prescribe::run(arguments, folder, &mut out).map(done),
            Some(Command::Presets(arguments)) => presets::run(*arguments),
            Some(Command::Drills(arguments)) => drills::run(arguments),
            Some(Command::Preview(arguments)) => preview::run(arguments, folder, &mut out),
            Some(Command::Track(arguments)) => track::run(arguments, folder),
            Some(Command::Use(arguments)) => use_file::run(arguments, &folder()?, &mut out),
            Some(Command::Journal(arguments)) => journal::run(arguments, &folder()?, &mut out),
            Some(Command::Equipment(arguments)) => equipment::run(arguments, &folder(), &mut out),
            Some(Command::Completions(arguments)) => Ok(completions::run(*arguments)),
            Some(Command::Man(arguments)) => man::run(arguments),
        }?;
        out.write_all(&output.into_bytes())?;
        Ok(out.flush()?)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use clap::CommandFactory;

    #[test]
    fn the_command_line_is_sound_and_every_command_has_examples() {
        let command = Cli::command();
        command.clone().debug_assert();
        let mut waiting: Vec<clap::Command> = command.get_subcommands().cloned().collect();
        while let Some(command) = waiting.pop() {
            let below: Vec<clap::Command> = command.get_subcommands().cloned().collect();
            let help = command.get_after_help().map(ToString::to_string).unwrap_or_default();
            assert!(help.contains("Example"), "{} has no example", command.get_name());
            assert!(command.get_about().is_some(), "{} says what it does", command.get_name());
            waiting.extend(below);
        }
    }
}
