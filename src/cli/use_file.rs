//! The `use` command: makes a prescription the one that practice opens.

use std::io::Write;

use super::page::Output;
use super::{Failure, handover, source, standing};
use crate::clock::Clock;
use crate::journal::Folder;
use counterpoise_core::blocks::Block;
use counterpoise_core::draw::schedule::Scheduler;
use counterpoise_core::plan::caution::{self, Contents, Surface};
use counterpoise_core::plan::prescription::Seal;

/// The options of `use`.
#[derive(Debug, Clone, clap::Args)]
#[command(after_help = "Examples:\n  \
    counterpoise use balance.toml    from now on plain \"counterpoise\" opens this one\n  \
    counterpoise use gentle          back to a ready one\n  \
    counterpoise use --from-stick    one on a memory stick; it asks before it takes it\n\n\
    While a program is in use, only a sealed file of a named issuer can replace it by something harder.\n\
    The file is copied, so run \"use\" again after you change it. The previous one is kept next to it.")]
pub(super) struct Arguments {
    /// A file, or a ready prescription
    #[arg(value_name = "FILE", required_unless_present = "from_stick")]
    file: Option<String>,
    /// Look for prescriptions on a memory stick, and ask
    #[arg(long, conflicts_with = "file")]
    from_stick: bool,
}

pub(super) fn run(arguments: &Arguments, folder: &Folder, out: &mut impl Write) -> Result<Output, Failure> {
    let Some(file) = &arguments.file else { return handover::take(folder, out) };
    let source = source::named(file)?;
    Scheduler::new(&source.prescription)?;
    let mut journal = standing::open(folder, out)?;
    let now = Clock::real().wall();
    let known = standing::known(&journal)?;
    standing::may_replace(folder, &known, (&source.bytes, &source.prescription), &now)?;
    let mut page = Vec::new();
    if Seal::of(&source.bytes) == Seal::Broken {
        page.push(Block::line("Note: this file was changed after it was issued: the digest in its last line does not match. It is within the limits and is used as it is."));
    }
    page.extend(standing::altered(&journal, folder)?);
    journal.adopt(&source.bytes, &source.name, &now)?;
    page.push(Block::line(format!("In use now: {} ({}).", source.prescription.title(), source.name)));
    page.extend(caution::blocks(Surface::Use, Contents::Of(&source.prescription)));
    Ok(page.into())
}
