//! Looks at the journal, writes it out, and takes it in. Not how it is kept (that is `journal`).

use std::io::{self, Write};

use clap::{Subcommand, ValueEnum};
use jiff::ZonedDateTime;

use super::standing;
use super::wrap::wrapped;
use super::{Failure, handover, source};
use crate::clock::Clock;
use crate::journal::{Folder, Journal, export, list};
use crate::settings::Settings;

mod add;
pub(super) mod asked;
mod correct;
mod erase;
mod import;
mod scale;
mod show;

/// What to do with the journal.
#[derive(Debug, Clone, clap::Args)]
#[command(after_help = "Examples:\n  \
    counterpoise journal list\n  \
    counterpoise journal show\n  \
    counterpoise journal export > backup.json")]
pub(super) struct Arguments {
    #[command(subcommand)]
    action: Action,
}

#[derive(Debug, Clone, Subcommand)]
enum Action {
    /// One line for each session, oldest first
    #[command(after_help = "Example:\n  counterpoise journal list")]
    List,
    /// One session in full: what was planned beside what was heard
    #[command(
        after_help = "Examples:\n  counterpoise journal show          the newest\n  counterpoise journal show 3f2a     the one whose id begins so"
    )]
    Show {
        /// The beginning of a session's id, as `journal list` shows it
        #[arg(value_name = "SESSION", default_value = "last")]
        session: String,
    },
    /// The whole journal for other programs, to standard output
    #[command(
        after_help = "Examples:\n  counterpoise journal export > backup.json\n  counterpoise journal export --format csv > practice.csv\n  counterpoise journal export --to-stick                 for the therapist, on a memory stick"
    )]
    Export {
        /// JSON can be imported again; CSV is for a spreadsheet
        #[arg(long, value_enum, default_value_t = ExportFormat::Json)]
        format: ExportFormat,
        /// Onto the memory stick, in place of standard output
        #[arg(long)]
        to_stick: bool,
    },
    /// Take in what `journal export` wrote; what is known already is not doubled
    Import(import::Arguments),
    /// Type in a practice with a track, from the sheet
    #[command(after_help = "Example:\n  counterpoise journal add")]
    Add,
    /// Correct an entry by a new one, with a reason; without options it asks
    Correct(correct::Arguments),
    /// Erase the journal for good, after a typed word
    Erase(erase::Arguments),
}

/// What an export holds.
const HOLDS: &str = "Note: this holds the whole journal: every practice, what was answered about health, falls and medicine, balance \
                     tests, and who cleared it. No name, unless you typed one. Give it only to whom you want to see it.";

#[derive(Debug, Clone, Copy, ValueEnum)]
enum ExportFormat {
    /// Everything
    Json,
    /// One line for each cue
    Csv,
}

/// What follows from what was typed in or corrected: at once where practice is locked or held now. It is kept by then, so
/// what cannot be found out here is left to `counterpoise next`.
fn follows(
    journal: &Journal,
    folder: &Folder,
    now: &ZonedDateTime,
    out: &mut impl Write,
) -> Result<(), Failure> {
    if let (Ok(known), Ok(found)) = (standing::known(journal), source::find(None, || Ok(folder.clone()))) {
        let next = known.next(&found.prescription, now);
        if next.is_barred() {
            let number = Settings::load(folder).ok().and_then(|settings| settings.emergency_number);
            let refusal = standing::refusal(&next, number.as_deref());
            writeln!(out, "{}", wrapped("", &format!("{}.", refusal.fact())))?;
            writeln!(out, "{}", wrapped("", refusal.hint()))?;
        }
    }
    writeln!(out, "What follows from it: counterpoise next")?;
    Ok(())
}

fn written(format: ExportFormat, folder: &Folder, out: &mut impl Write) -> Result<(), Failure> {
    let journal = Journal::look(folder)?;
    match format {
        ExportFormat::Json => export::json(&journal, out)?,
        ExportFormat::Csv => export::csv(&journal, out)?,
    }
    Ok(())
}

pub(super) fn run(arguments: &Arguments, folder: &Folder, out: &mut impl Write) -> Result<(), Failure> {
    match &arguments.action {
        Action::List => list::list(&Journal::look(folder)?, out)?,
        Action::Show { session } => show::show(&Journal::look(folder)?, session, out)?,
        Action::Export { format, to_stick: false } => {
            written(*format, folder, out)?;
            out.flush()?;
            // On standard error, so that a file of it is only that.
            let _ = writeln!(io::stderr(), "{}", wrapped("", HOLDS));
        }
        Action::Export { format, to_stick: true } => {
            let mut bytes = Vec::new();
            written(*format, folder, &mut bytes)?;
            let day = Clock::real().wall().date();
            let ending = if matches!(format, ExportFormat::Json) { "json" } else { "csv" };
            handover::put(&format!("journal-{day}"), ending, &bytes, out)?;
        }
        Action::Add => add::run(folder, out)?,
        Action::Correct(arguments) => correct::run(arguments, folder, out)?,
        Action::Erase(arguments) => erase::run(*arguments, folder, out)?,
        Action::Import(arguments) => import::run(arguments, folder, out)?,
    }
    Ok(())
}
