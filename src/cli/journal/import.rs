//! The `journal import` command: imports an export or a rescue file. It asks whose it is if that is not clear.

use std::io::{self, IsTerminal, Write};
use std::path::{Path, PathBuf};

use jiff::civil::Date;

use crate::cli::Failure;
use crate::cli::form::Form;
use crate::cli::standing;
use crate::journal::incoming::{LONGEST, bytes_of};
use crate::journal::{Folder, Incoming, Journal, JournalError, import};
use crate::settings::Settings;
use counterpoise_core::blocks::Block;
use counterpoise_core::course::past::Sitting;

/// The options of `journal import`.
#[derive(Debug, Clone, clap::Args)]
#[command(after_help = "Examples:\n  \
    counterpoise journal import backup.json\n  \
    counterpoise journal import tablet.json --same-person     without asking whose it is\n\n\
    Nothing is imported twice. A file that shares nothing with the journal here is probably somebody else's: the command\n\
    asks, and refuses the file if nobody can answer.")]
pub(super) struct Arguments {
    /// A file that `journal export --format json` wrote
    #[arg(value_name = "FILE")]
    file: PathBuf,
    /// Import it as the same person's, although nothing in it shows that
    #[arg(long)]
    same_person: bool,
}

fn read(path: &Path) -> Result<Vec<u8>, JournalError> {
    let bytes =
        bytes_of(path).map_err(|source| JournalError::Unreadable { path: path.to_owned(), source })?;
    bytes.ok_or_else(|| JournalError::NotImported {
        file: path.display().to_string(),
        reason: format!("it has more than {} MiB; even the export of a lifetime is smaller", LONGEST >> 20),
    })
}

pub(super) fn run(
    arguments: &Arguments,
    folder: &Folder,
    out: &mut impl Write,
) -> Result<Vec<Block>, Failure> {
    let name = arguments.file.display().to_string();
    let incoming = Incoming::read(&name, &read(&arguments.file)?)?;
    let mut journal = standing::open(folder, out)?;
    if !arguments.same_person && incoming.seems_foreign(&journal)? {
        same_person(&name, &incoming, &journal, folder, out)?;
    }
    let before = days_with_two(&journal)?;
    let mut page = vec![Block::line(import::take_in(&mut journal, &incoming)?.to_string())];
    for day in days_with_two(&journal)?.iter().filter(|day| !before.contains(day)) {
        page.push(Block::line(format!(
            "Note: {day} now has two practices that count. If they are the same one, set one aside: counterpoise journal \
             correct"
        )));
    }
    Ok(page)
}

/// The days with more than one practice that counts.
fn days_with_two(journal: &Journal) -> Result<Vec<Date>, Failure> {
    let past = journal.trainee()?.past;
    let mut days: Vec<Date> = past.sittings().iter().map(Sitting::day).collect();
    days.sort_unstable();
    let mut twice: Vec<Date> =
        days.windows(2).filter(|pair| pair[0] == pair[1]).map(|pair| pair[0]).collect();
    twice.dedup();
    Ok(twice)
}

/// Goes on only if somebody confirms that it is the same person's.
fn same_person(
    name: &str,
    incoming: &Incoming,
    journal: &Journal,
    folder: &Folder,
    out: &mut impl Write,
) -> Result<(), Failure> {
    let (file, here) = (incoming.holds(), journal.holds()?);
    let own = "Import somebody else's journal into their own folder, with --person NAME or --data-dir DIR.";
    if !io::stdin().is_terminal() {
        return Err(Failure::new(
            format!(
                "{name} shares nothing with this journal and may be somebody else's: it has {file}; this journal has {here}"
            ),
            format!("If both are the same person's, add --same-person. {own}"),
        ));
    }
    let mut form = Form::new(&mut *out, "nothing was imported", "counterpoise journal import FILE");
    let whose = Settings::load(folder)?
        .name
        .map_or_else(|| "This journal".into(), |who| format!("The journal of {who}"));
    form.show(&[
        Block::line(format!("{name} shares nothing with the journal here. Two people's practice in one journal would give both wrong steps.")),
        Block::item(format!("The file: {file}.")),
        Block::item(format!("{whose}: {here}.")),
    ])?;
    if form.yes("Is this the same person's journal?")? {
        return Ok(());
    }
    Err(Failure::new("nothing was imported, and the journal is unchanged", own))
}
