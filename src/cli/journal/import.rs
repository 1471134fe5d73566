//! Takes in an export or a rescue file, after it was asked whose it is where that is not plain.

use std::io::{self, IsTerminal, Write};
use std::path::{Path, PathBuf};

use jiff::civil::Date;

use crate::cli::Failure;
use crate::cli::form::Form;
use crate::cli::wrap::wrapped;
use crate::journal::incoming::{LONGEST, bytes_of};
use crate::journal::{Folder, Incoming, Journal, JournalError, import};
use crate::settings::Settings;
use counterpoise_core::course::past::Sitting;

/// What is taken in.
#[derive(Debug, Clone, clap::Args)]
#[command(after_help = "Examples:\n  \
    counterpoise journal import backup.json\n  \
    counterpoise journal import tablet.json --same-person     without the question whose it is\n\n\
    What is known already is not doubled. A file that shares nothing with the journal here is probably somebody else's: it is\n\
    asked, and where nobody can be asked it is refused.")]
pub(super) struct Arguments {
    /// A file that `journal export --format json` wrote
    #[arg(value_name = "FILE")]
    file: PathBuf,
    /// It is the same person's, although nothing in it shows that
    #[arg(long)]
    same_person: bool,
}

fn read(path: &Path) -> Result<Vec<u8>, JournalError> {
    let bytes =
        bytes_of(path).map_err(|source| JournalError::Unreadable { path: path.to_owned(), source })?;
    bytes.ok_or_else(|| JournalError::NotImported {
        file: path.display().to_string(),
        reason: format!("it has more than {} MiB, and the export of a lifetime has less", LONGEST >> 20),
    })
}

pub(super) fn run(arguments: &Arguments, folder: &Folder, out: &mut impl Write) -> Result<(), Failure> {
    let name = arguments.file.display().to_string();
    let incoming = Incoming::read(&name, &read(&arguments.file)?)?;
    let (mut journal, notices) = Journal::open(folder.lock()?)?;
    for notice in notices {
        writeln!(out, "{}", wrapped("", &format!("Note: {notice}.")))?;
    }
    if !arguments.same_person && incoming.seems_foreign(&journal)? {
        same_person(&name, &incoming, &journal, folder, out)?;
    }
    let before = twice(&journal)?;
    writeln!(out, "{}", import::take_in(&mut journal, &incoming)?)?;
    for day in twice(&journal)?.iter().filter(|day| !before.contains(day)) {
        let text = format!(
            "Note: {day} has two practices that count now. If they are one and the same, set one aside: counterpoise journal \
             correct"
        );
        writeln!(out, "{}", wrapped("", &text))?;
    }
    Ok(())
}

/// The days with more than one practice that counts.
fn twice(journal: &Journal) -> Result<Vec<Date>, Failure> {
    let past = journal.past()?;
    let mut days: Vec<Date> = past.sittings().iter().map(Sitting::day).collect();
    days.sort_unstable();
    let mut twice: Vec<Date> =
        days.windows(2).filter(|pair| pair[0] == pair[1]).map(|pair| pair[0]).collect();
    twice.dedup();
    Ok(twice)
}

/// Goes on only if somebody says that it is the same person's.
fn same_person(
    name: &str,
    incoming: &Incoming,
    journal: &Journal,
    folder: &Folder,
    out: &mut impl Write,
) -> Result<(), Failure> {
    let (file, here) = (incoming.holds(), journal.holds()?);
    let own = "Somebody else's goes into a folder of its own, with --person NAME or --data-dir DIR.";
    if !io::stdin().is_terminal() {
        return Err(Failure::new(
            format!(
                "{name} shares nothing with this journal, and may be somebody else's: it holds {file}; here: {here}"
            ),
            format!("If both are the same person's, add --same-person. {own}"),
        ));
    }
    let mut form = Form::new(&mut *out, "nothing was taken in", "counterpoise journal import FILE");
    let whose = Settings::load(folder)?
        .name
        .map_or_else(|| "This journal".into(), |who| format!("The journal of {who}"));
    form.say(&format!("{name} shares nothing with the journal here. Two people's practice in one journal would give both wrong steps."))?;
    form.say(&format!("  The file: {file}."))?;
    form.say(&format!("  {whose}: {here}."))?;
    if form.yes("Is this the same person's journal?")? {
        return Ok(());
    }
    Err(Failure::new("nothing was taken in, and the journal is as it was", own))
}
