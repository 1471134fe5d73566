//! The `journal` command: shows, exports, imports, corrects and erases the journal.

use std::io::{self, Write};

use clap::{Subcommand, ValueEnum};
use jiff::ZonedDateTime;

use super::page::{Output, show};
use super::standing::{self, Position};
use super::{Failure, handover, source};
use crate::clock::Clock;
use crate::journal::{Folder, Journal, export};
use counterpoise_core::blocks::Block;
use counterpoise_core::plan::caution::{self, Contents, Surface};

mod add;
mod correct;
mod erase;
mod import;
mod list;
pub(super) mod questions;
mod scale;
mod show;

/// The options of `journal`.
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
    /// List the sessions, one line each, oldest first
    #[command(after_help = "Example:\n  counterpoise journal list")]
    List,
    /// Show one session in full: what was planned and what was heard
    #[command(
        after_help = "Examples:\n  counterpoise journal show          the newest\n  counterpoise journal show 3f2a     the one whose id begins with 3f2a"
    )]
    Show {
        /// The beginning of a session's id, as `journal list` shows it
        #[arg(value_name = "SESSION", default_value = "last")]
        session: String,
    },
    /// Export the whole journal for other programs, to standard output
    #[command(
        after_help = "Examples:\n  counterpoise journal export > backup.json\n  counterpoise journal export --format csv > practice.csv\n  counterpoise journal export --to-stick                 for the therapist, on a memory stick"
    )]
    Export {
        /// Only json can be imported again; sessions is for other programs, csv for a spreadsheet
        #[arg(long, value_enum, default_value_t = ExportFormat::Json)]
        format: ExportFormat,
        /// Write to the memory stick instead of standard output
        #[arg(long)]
        to_stick: bool,
    },
    /// Import what `journal export` wrote, without duplicates
    Import(import::Arguments),
    /// Type in a practice with a track, from the sheet
    #[command(after_help = "Example:\n  counterpoise journal add")]
    Add,
    /// Correct an entry with a new one and a reason; without options it asks
    Correct(correct::Arguments),
    /// Erase the journal for good, after a typed word
    Erase(erase::Arguments),
}

/// What an export contains.
const EXPORT_NOTE: &str = "Note: this contains the whole journal: every practice, the answers about health, falls and medicine, balance \
                           tests, and clearances. It has no name unless you typed one. Give it only to people you want to see it.";

#[derive(Debug, Clone, Copy, ValueEnum)]
enum ExportFormat {
    /// Everything, entry by entry
    Json,
    /// The sessions, put together from the entries, as JSON
    Sessions,
    /// One line per cue
    Csv,
}

/// What follows from an entry that was typed in or corrected, if practice is now locked or held. The entry is saved already,
/// so an error here is left to `counterpoise next`.
fn consequence(journal: &Journal, folder: &Folder, now: &ZonedDateTime) -> Vec<Block> {
    let mut page = Vec::new();
    if let (Ok(known), Ok(found)) = (standing::known(journal), source::find(None, || Ok(folder.clone())))
        && let Ok(position) = Position::of(folder, &known, &found.prescription, None, now)
        && position.standing.state().is_barred()
    {
        page.extend(position.lines().into_iter().chain(position.offered()).map(Block::line));
    }
    page.push(Block::line("To see what comes next: counterpoise next"));
    page
}

fn write_export(format: ExportFormat, folder: &Folder, out: &mut impl Write) -> Result<(), Failure> {
    let journal = Journal::look(folder)?;
    match format {
        ExportFormat::Json => export::json(&journal, out)?,
        ExportFormat::Sessions => export::sessions(&journal, out)?,
        ExportFormat::Csv => export::csv(&journal, out)?,
    }
    Ok(())
}

pub(super) fn run(arguments: &Arguments, folder: &Folder, out: &mut impl Write) -> Result<Output, Failure> {
    let cautions = || caution::blocks(Surface::Record, Contents::Nothing);
    Ok(match &arguments.action {
        Action::List => {
            [list::page(&Journal::look(folder)?.contents()?.sessions), cautions()].concat().into()
        }
        Action::Show { session } => {
            [show::page(&Journal::look(folder)?, session)?, cautions()].concat().into()
        }
        Action::Export { format, to_stick: false } => {
            write_export(*format, folder, out)?;
            out.flush()?;
            // On standard error, so that a file has only the export.
            let _ = show(&[vec![Block::line(EXPORT_NOTE)], cautions()].concat(), &mut io::stderr());
            Output::NOTHING
        }
        Action::Export { format, to_stick: true } => {
            let mut bytes = Vec::new();
            write_export(*format, folder, &mut bytes)?;
            let day = Clock::real().wall().date();
            let (what, ending) = match format {
                ExportFormat::Json => ("journal", "json"),
                ExportFormat::Sessions => ("sessions", "json"),
                ExportFormat::Csv => ("journal", "csv"),
            };
            handover::put(&format!("{what}-{day}"), ending, &bytes)?.into()
        }
        Action::Add => add::run(folder, out)?.into(),
        Action::Correct(arguments) => [correct::run(arguments, folder, out)?, cautions()].concat().into(),
        Action::Erase(arguments) => erase::run(*arguments, folder, out)?.into(),
        Action::Import(arguments) => [import::run(arguments, folder, out)?, cautions()].concat().into(),
    })
}
