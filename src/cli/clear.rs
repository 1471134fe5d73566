//! The `clear` command: lifts locks after a clinician has cleared the person, and records who and why.

use std::io::Write;

use super::Failure;
use super::page::Output;
use super::standing;
use crate::clock::Clock;
use crate::journal::Folder;
use counterpoise_core::blocks::Block;
use counterpoise_core::course::past::{Barrier, Lifted};
use counterpoise_core::course::progression::ActiveHold;
use counterpoise_core::course::trainee::Clearable;
use counterpoise_core::record::Stamp;
use counterpoise_core::words::Printable;

/// The most characters of a name or a reason \[judgment\].
const LONGEST: usize = 200;

/// The options of `clear`.
#[derive(Debug, Clone, clap::Args)]
#[command(after_help = "Examples:\n  \
    counterpoise clear --by \"Dr. K. L.\" --reason \"seen on Thursday, no injury\"\n\n\
    This lifts every present lock and records the clearance in the journal with its date. A hold of 48 hours is not \
    lifted: it ends by itself.\n\
    Clear a lock only when a clinician has said so. For chest pain, sudden weakness or trouble speaking, call your local \
    emergency number.")]
pub(super) struct Arguments {
    /// The clinician who cleared the person: a name, initials or a role
    #[arg(long, value_name = "WHO")]
    by: String,
    /// Why practice may go on
    #[arg(long, value_name = "WHY")]
    reason: String,
}

pub(super) fn run(arguments: &Arguments, folder: &Folder, out: &mut impl Write) -> Result<Output, Failure> {
    let who = required_line("--by", "who cleared it", &arguments.by)?;
    let reason = required_line("--reason", "why", &arguments.reason)?;
    let now = Clock::real().wall();
    let mut journal = standing::open(folder, out)?;
    let known = standing::known(&journal)?;
    let holds = known.barriers(&now).holds;
    let until =
        |hold: &ActiveHold| Stamp::from(&hold.until.to_zoned_datetime(now.time_zone().clone())).minute();
    let (lines, lifts): (Vec<String>, Vec<Lifted>) =
        known.clearable(&now).into_iter().map(|found| (line(&found), found.lifted)).unzip();
    if lifts.is_empty() {
        let held = holds
            .last()
            .map(|hold| format!("The 48-hour hold after {} ends by itself at {}.", hold.what, until(hold)));
        let hint = held.unwrap_or_else(|| "See what comes next: counterpoise next".to_owned());
        return Err(Failure::new("nothing is locked", hint));
    }
    journal.keep_clearance(&now, who, reason, &lifts)?;
    let mut page: Vec<Block> = lines.into_iter().map(Block::line).collect();
    page.push(Block::line(format!("Cleared by {who} on {}: {reason}", now.date())));
    page.extend(
        holds.iter().map(|hold| Block::line(format!("Still held until {}: {}.", until(hold), hold.what))),
    );
    page.push(Block::line("See what comes next: counterpoise next"));
    Ok(page.into())
}

/// The line that is printed for something that was lifted.
fn line(found: &Clearable) -> String {
    let day = found.day.map(|day| day.to_string()).unwrap_or_default();
    match found.lifted.what {
        Barrier::Lock(lock) => format!("Lifted: {lock} ({day})"),
        Barrier::Date => format!("Set aside: the practice dated {day}, which is in the future"),
        Barrier::Clinician => "Lifted: talk to a clinician first".to_owned(),
    }
}

/// The trimmed text of an option: one line, not empty, not too long.
fn required_line<'a>(option: &str, what: &str, text: &'a str) -> Result<&'a str, Failure> {
    let text = text.trim();
    let length = text.chars().count();
    if text.is_empty() || Printable::first_hidden(text).is_some() {
        return Err(Failure::new(
            format!("`{option}` must be one line that says {what}"),
            "Write one line. It is saved in the journal and appears in the report.",
        ));
    }
    if length > LONGEST {
        return Err(Failure::new(
            format!("`{option}` has {length} characters; the most is {LONGEST}"),
            "One line is enough.",
        ));
    }
    Ok(text)
}
