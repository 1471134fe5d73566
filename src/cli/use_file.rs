//! Makes a prescription the one that practice opens.

use std::io::Write;

use super::wrap::wrapped;
use super::{Failure, source};
use crate::clock::Clock;
use crate::journal::{Folder, Journal};
use crate::schedule::Scheduler;

/// Which prescription.
#[derive(Debug, Clone, clap::Args)]
#[command(after_help = "Examples:\n  \
    counterpoise use balance.toml    from now on plain \"counterpoise\" opens this one\n  \
    counterpoise use gentle          back to a ready one\n\n\
    The file is copied: a later change to it needs another \"use\". The one before is kept beside it.")]
pub(super) struct Arguments {
    /// A file, or a ready prescription
    #[arg(value_name = "FILE")]
    file: String,
}

pub(super) fn run(arguments: &Arguments, folder: &Folder, out: &mut impl Write) -> Result<(), Failure> {
    let source = source::named(&arguments.file)?;
    Scheduler::new(&source.prescription)?;
    let (mut journal, notices) = Journal::open(folder.lock()?)?;
    for notice in notices {
        writeln!(out, "{}", wrapped("", &format!("Note: {notice}.")))?;
    }
    journal.adopt(&source.bytes, &source.name, &Clock::real().wall())?;
    let text = format!("In use now: {} ({}).", source.prescription.title(), source.name);
    writeln!(out, "{}", wrapped("", &text))?;
    Ok(())
}
