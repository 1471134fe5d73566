//! The `clear` command: lifts locks after a clinician has cleared the person, and records who and why.

use std::io::{BufRead, Write};

use jiff::ZonedDateTime;

use super::Failure;
use super::form::Form;
use super::page::Output;
use super::source::{self, Source};
use super::standing;
use crate::clock::Clock;
use crate::journal::Folder;
use counterpoise_core::blocks::Block;
use counterpoise_core::course::past::{Barrier, Lifted};
use counterpoise_core::course::progression::ActiveHold;
use counterpoise_core::course::standing::Standing;
use counterpoise_core::course::trainee::{Clearable, Trainee};
use counterpoise_core::plan::caution::{self, Contents, Surface};
use counterpoise_core::plan::prescription::Prescription;
use counterpoise_core::record::Stamp;
use counterpoise_core::words::Printable;

/// The most characters of a name or a reason \[judgment\].
const LONGEST: usize = 200;

/// The options of `clear`.
#[derive(Debug, Clone, clap::Args)]
#[command(after_help = "Examples:\n  \
    counterpoise clear      lists what is locked, and asks about each by itself\n  \
    counterpoise clear --by \"Dr. K. L.\" --reason \"seen on Thursday, no injury\"\n\n\
    With --by and --reason this lifts every present lock, and prints each. The clearance is recorded in the journal with \
    its date. A hold of 48 hours is not lifted: it ends by itself.\n\
    Clear a lock only when a clinician has said so. For chest pain, sudden weakness or trouble speaking, call your local \
    emergency number.")]
pub(super) struct Arguments {
    /// The clinician who cleared the person: a name, initials or a role
    #[arg(long, value_name = "WHO", requires = "reason")]
    by: Option<String>,
    /// Why practice may go on
    #[arg(long, value_name = "WHY", requires = "by")]
    reason: Option<String>,
}

pub(super) fn run(arguments: &Arguments, folder: &Folder, out: &mut impl Write) -> Result<Output, Failure> {
    let given = match (&arguments.by, &arguments.reason) {
        (Some(who), Some(why)) => Some((
            required_line("`--by`", "who cleared it", who)?.to_owned(),
            required_line("`--reason`", "why", why)?.to_owned(),
        )),
        _ => None,
    };
    let now = Clock::real().wall();
    let mut journal = standing::open(folder, out)?;
    let known = standing::known(&journal)?;
    let all = known.clearable(&now);
    if all.is_empty() {
        let until =
            |hold: &ActiveHold| Stamp::from(&hold.until.to_zoned_datetime(now.time_zone().clone())).minute();
        let holds = known.barriers(&now).holds;
        let held = holds
            .last()
            .map(|hold| format!("The 48-hour hold after {} ends by itself at {}.", hold.what, until(hold)));
        let hint = held.unwrap_or_else(|| "See what comes next: counterpoise next".to_owned());
        return Err(Failure::new("nothing is locked", hint));
    }
    // What is cleared together has one entry.
    let clearances = match given {
        Some((who, why)) => vec![(who, why, all)],
        None => ask(all, Form::new(&mut *out, "nothing was cleared", "counterpoise clear"))?,
    };
    let mut page: Vec<Block> = Vec::new();
    for (who, why, cleared) in clearances {
        let (lines, lifts): (Vec<String>, Vec<Lifted>) =
            cleared.into_iter().map(|found| (line("Lifted", &found), found.lifted)).unzip();
        journal.keep_clearance(&now, &who, &why, &lifts)?;
        page.extend(lines.into_iter().map(Block::line));
        page.push(Block::line(format!("Cleared by {who} on {}: {why}", now.date())));
    }
    if page.is_empty() {
        page.push(Block::line("Nothing was cleared."));
    }
    page.extend(enforced(&standing::known(&journal)?, folder, &now)?);
    page.push(Block::line("See what comes next: counterpoise next"));
    page.extend(caution::blocks(Surface::Clearance, Contents::Nothing));
    Ok(page.into())
}

/// What is enforced from now on, as every page says it. The clearance is kept by then, whatever became of the program's file.
fn enforced(known: &Trainee, folder: &Folder, now: &ZonedDateTime) -> Result<Vec<Block>, Failure> {
    let Source { prescription, .. } =
        source::for_person(None, folder).or_else(|_| source::named(Prescription::all_ready()[0].0))?;
    let barred = Standing::of(known, &prescription, now).for_therapist();
    let heading = match barred.is_empty() {
        true => "Nothing bars practice now.",
        false => "This still applies:",
    };
    Ok(std::iter::once(heading.to_owned()).chain(barred).map(Block::line).collect())
}

/// Lists everything that is locked, and asks about each by itself. Nothing is kept before the last answer, so that the end
/// of input clears nothing.
fn ask<R: BufRead, W: Write>(
    all: Vec<Clearable>,
    mut form: Form<R, W>,
) -> Result<Vec<(String, String, Vec<Clearable>)>, Failure> {
    form.say("Locked now:")?;
    for found in &all {
        form.add(fact(found))?;
    }
    form.say(
        "Each is asked about by itself. Say yes only where a clinician has said that practice may go on.",
    )?;
    let mut clearances = Vec::new();
    for found in all {
        if !form.yes(&format!("{}: has a clinician cleared this?", fact(&found)))? {
            continue;
        }
        let who = told(&mut form, "Who cleared it? A name, initials or a role.", "who cleared it")?;
        let why = told(&mut form, "Why may practice go on?", "why")?;
        if form.yes(&format!("Cleared by {who}, because: {why}. Is that right?"))? {
            clearances.push((who, why, vec![found]));
        }
    }
    Ok(clearances)
}

/// A line that says something.
fn told<R: BufRead, W: Write>(form: &mut Form<R, W>, ask: &str, what: &str) -> Result<String, Failure> {
    loop {
        let typed = form.line(ask)?;
        match required_line("this", what, &typed) {
            Ok(text) => return Ok(text.to_owned()),
            Err(error) => form.refuse(error.fact())?,
        }
    }
}

/// What is locked, with its day.
fn fact(found: &Clearable) -> String {
    let day = found.day.map(|day| day.to_string()).unwrap_or_default();
    match found.lifted.what {
        Barrier::Lock(lock) => format!("{lock} ({day})"),
        Barrier::Restriction(_) | Barrier::TooHard => format!("{} ({day})", found.lifted.what.name()),
        Barrier::Date => format!("the practice dated {day}, which is in the future"),
        Barrier::Topic(topic) => format!("your answer about {topic} ({day})"),
        Barrier::Clinician => "your answers: talk to a clinician first".to_owned(),
    }
}

/// The line that is printed for it.
fn line(verb: &str, found: &Clearable) -> String {
    match found.lifted.what {
        Barrier::Date if verb == "Lifted" => format!("Set aside: {}", fact(found)),
        _ => format!("{verb}: {}", fact(found)),
    }
}

/// The trimmed text of an option: one line, not empty, not too long.
fn required_line<'a>(option: &str, what: &str, text: &'a str) -> Result<&'a str, Failure> {
    let text = text.trim();
    let length = text.chars().count();
    if text.is_empty() || Printable::first_hidden(text).is_some() {
        return Err(Failure::new(
            format!("{option} must be one line that says {what}"),
            "Write one line. It is saved in the journal and appears in the report.",
        ));
    }
    if length > LONGEST {
        return Err(Failure::new(
            format!("{option} has {length} characters; the most is {LONGEST}"),
            "One line is enough.",
        ));
    }
    Ok(text)
}
