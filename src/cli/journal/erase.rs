//! The `journal erase` command: lists what goes and what stays, and erases after a typed word.

use std::io::{self, BufRead, Write};
use std::path::PathBuf;

use crate::cli::Failure;
use crate::cli::page::show;
use crate::handover;
use crate::journal::{Folder, Journal, erase};
use counterpoise_core::blocks::Block;
use counterpoise_core::words::counted;

/// The options of `journal erase`.
#[derive(Debug, Clone, Copy, clap::Args)]
#[command(
    after_help = "Examples:\n  counterpoise journal erase                the journal; settings and prescription stay\n  counterpoise journal erase --everything   settings and prescription too\n\nLocks and holds go with it: if a clinician has not cleared you, do not practice."
)]
pub(super) struct Arguments {
    /// Also erase the settings and the prescriptions
    #[arg(long)]
    everything: bool,
}

/// The word that confirms.
const WORD: &str = "erase";

pub(super) fn run(
    arguments: Arguments,
    folder: &Folder,
    out: &mut impl Write,
) -> Result<Vec<Block>, Failure> {
    let what = if arguments.everything { erase::What::Everything } else { erase::What::Journal };
    confirm_and_erase(what, folder, &mut io::stdin().lock(), out)
}

/// Lists what goes, and erases it after the word.
fn confirm_and_erase(
    what: erase::What,
    folder: &Folder,
    from: &mut impl BufRead,
    out: &mut impl Write,
) -> Result<Vec<Block>, Failure> {
    let files = erase::files(folder, what)?;
    if files.is_empty() {
        return Err(Failure::new(
            format!("there is nothing to erase in {}", folder.path().display()),
            "To choose another person's folder, use --person or --data-dir.",
        ));
    }
    let lock = folder.lock()?;
    let paths = |paths: &[PathBuf]| {
        Block::Verbatim(paths.iter().map(|path| format!("  {}", path.display())).collect())
    };
    let mut page = vec![Block::line("This erases for good:"), paths(&files)];
    let sessions = Journal::look(folder).and_then(|journal| Ok(journal.contents()?.sessions.len()));
    page.extend(sessions.ok().map(|many| Block::item(format!("with {} in it", counted(many, "practice")))));
    let sticks: Vec<_> = handover::places().iter().map(|place| place.path.join(handover::FOLDER)).collect();
    let copies = erase::copies(folder, &sticks)?;
    if !copies.is_empty() {
        page.push(Block::line("These copies are not erased. Delete them yourself if you want:"));
        page.push(paths(&copies));
    }
    page.extend([
        "Locks and holds go with it. If a clinician has not cleared you, do not practice.",
        "Copies elsewhere are not touched: exports, reports, sheets, tracks, memory sticks, backups. A drive may still have old data.",
        "Type the word erase, then Enter. Anything else erases nothing.",
    ].map(Block::line));
    show(&page, out)?;
    let mut typed = String::new();
    let read = from.read_line(&mut typed);
    if read.is_err() || typed.trim_end_matches(['\r', '\n']) != WORD {
        return Err(Failure::new("nothing was erased", "The word was not typed. Nothing has changed."));
    }
    let count = erase::erase(&lock, what)?;
    Ok(vec![Block::line(format!("Erased: {}.", counted(count, "file")))])
}
