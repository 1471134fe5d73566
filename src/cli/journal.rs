//! Looks at the journal, writes it out, and takes it in. Not how it is kept (that is `journal`).

use std::fs::File;
use std::io::{self, BufRead, Read, Write};
use std::path::{Path, PathBuf};

use clap::{Subcommand, ValueEnum};

use super::wrap::wrapped;
use super::{Failure, handover};
use crate::clock::Clock;
use crate::journal::{Folder, Journal, JournalError, erase, export, import, list, show};

mod add;
mod correct;
mod scale;

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
    #[command(after_help = "Example:\n  counterpoise journal import backup.json")]
    Import {
        /// A file that `journal export --format json` wrote
        #[arg(value_name = "FILE")]
        file: PathBuf,
    },
    /// Type in a practice with a track, from the sheet
    #[command(after_help = "Example:\n  counterpoise journal add")]
    Add,
    /// Correct an entry by a new one, with a reason; without options it asks
    Correct(correct::Arguments),
    /// Erase the journal for good, after a typed word
    #[command(
        after_help = "Examples:\n  counterpoise journal erase                the journal; settings and prescription stay\n  counterpoise journal erase --everything   those too\n\nLocks and holds go with it: if a clinician has not cleared you, do not practice."
    )]
    Erase {
        /// The settings and the prescriptions too
        #[arg(long)]
        everything: bool,
    },
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

/// The most that is read of what is no file and may have no end (`/dev/zero`): the exports of a lifetime.
const LONGEST: u64 = 1 << 28;

fn read(path: &Path) -> io::Result<Vec<u8>> {
    let file = File::open(path)?;
    let longest = if file.metadata()?.is_file() { u64::MAX } else { LONGEST };
    let mut bytes = Vec::new();
    file.take(longest).read_to_end(&mut bytes)?;
    Ok(bytes)
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
        Action::Erase { everything } => {
            let what = if *everything { erase::What::Everything } else { erase::What::Journal };
            erased(what, folder, &mut io::stdin().lock(), out)?;
        }
        Action::Import { file } => {
            let name = file.display().to_string();
            let bytes =
                read(file).map_err(|source| JournalError::Unreadable { path: file.clone(), source })?;
            let (mut journal, notices) = Journal::open(folder.lock()?)?;
            for notice in notices {
                writeln!(out, "{}", wrapped("", &format!("Note: {notice}.")))?;
            }
            writeln!(out, "{}", import::import(&mut journal, &name, &bytes)?)?;
        }
    }
    Ok(())
}

/// What has to be typed, exactly so.
const WORD: &str = "erase";

/// Says what would go, and erases it after the word.
fn erased(
    what: erase::What,
    folder: &Folder,
    from: &mut impl BufRead,
    out: &mut impl Write,
) -> Result<(), Failure> {
    let files = erase::files(folder, what)?;
    if files.is_empty() {
        return Err(Failure::new(
            format!("there is nothing to erase in {}", folder.path().display()),
            "Another person's folder is named with --person or --data-dir.",
        ));
    }
    let lock = folder.lock()?;
    writeln!(out, "{}", wrapped("", "This erases for good:"))?;
    for file in &files {
        writeln!(out, "  {}", file.display())?;
    }
    let sessions = Journal::look(folder).and_then(|journal| Ok(journal.ids()?.len()));
    if let Ok(sessions) = sessions {
        writeln!(out, "  with {sessions} practices in it")?;
    }
    for text in [
        "Locks and holds go with it. If a clinician has not cleared you, do not practice.",
        "Copies are not touched: exports, reports, tracks, memory sticks, backups. A drive may keep old bytes of its own accord.",
        "Type the word erase, then Enter. Anything else keeps everything.",
    ] {
        writeln!(out, "{}", wrapped("", text))?;
    }
    out.flush()?;
    let mut typed = String::new();
    let read = from.read_line(&mut typed);
    if read.is_err() || typed.trim_end_matches(['\r', '\n']) != WORD {
        return Err(Failure::new("nothing was erased", "The word was not typed. Everything is as it was."));
    }
    let count = erase::erase(&lock, what)?;
    writeln!(out, "Erased: {count} files.")?;
    Ok(())
}
