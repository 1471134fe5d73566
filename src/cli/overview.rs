//! The overview of a folder of journals: finds them, reads them two at a time and for reading only, and prints a line each.
//! Not how somebody stands (that is `overview`).

use std::fs;
use std::io::{self, IsTerminal, Write};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread;

use indicatif::{ProgressBar, ProgressStyle};
use jiff::ZonedDateTime;
use serde::Serialize;

use super::standing::Known;
use super::wrap::wrapped;
use super::{Failure, source};
use crate::journal::export::text;
use crate::journal::{Folder, Journal};
use crate::overview::{Order, Person, State, counts, sort};
use crate::prescription::Prescription;

/// How deep folders are looked into: a clinic's folder, a person's, and the others of one computer.
const DEPTH: usize = 3;

/// How the overview is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Form {
    /// For people.
    Text,
    /// For other programs.
    Json,
    /// For a spreadsheet.
    Csv,
}

/// What could not be read, and why.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
struct Skipped {
    name: String,
    why: String,
}

#[derive(Serialize)]
struct Overview<'a> {
    schema: &'static str,
    on: jiff::civil::Date,
    people: &'a [Person],
    skipped: &'a [Skipped],
}

/// Everybody in `place`, on this day.
///
/// # Errors
/// If the folder cannot be read, has no journal, or one of them could not be read: then the others are printed first.
pub(super) fn run(
    place: &Path,
    now: &ZonedDateTime,
    (order, only): (Order, Option<State>),
    form: Form,
    out: &mut impl Write,
) -> Result<(), Failure> {
    let mut folders = Vec::new();
    find(place, DEPTH, &mut folders).map_err(|error| {
        Failure::new(
            format!("the folder {} cannot be read: {error}", place.display()),
            "Name the folder that holds the folders of the people: counterpoise report --folder DIR",
        )
    })?;
    if folders.is_empty() {
        return Err(Failure::new(
            format!("there is no journal in {}", place.display()),
            "Each person has a folder of their own in it, with the file journal.sqlite.",
        ));
    }
    folders.sort_unstable();
    let (mut people, skipped) = read(place, &folders, now);
    sort(&mut people, order);
    if let Some(only) = only {
        people.retain(|person| person.states.contains(&only));
    }
    match form {
        Form::Text => print(&people, &skipped, out)?,
        Form::Json => {
            let overview = Overview {
                schema: "counterpoise.overview/1",
                on: now.date(),
                people: &people,
                skipped: &skipped,
            };
            serde_json::to_writer_pretty(&mut *out, &overview)?;
            writeln!(out)?;
        }
        Form::Csv => rows(&people, out)?,
    }
    out.flush()?;
    match skipped.len() {
        0 => Ok(()),
        1 => Err(Failure::new(
            format!("one journal could not be read: {} ({})", skipped[0].name, skipped[0].why),
            "The others are above. It was left as it is.",
        )),
        more => Err(Failure::new(
            format!("{more} journals could not be read; the first: {} ({})", skipped[0].name, skipped[0].why),
            "The others are above, and --format json names each. They were left as they are.",
        )),
    }
}

/// Every folder with a journal, the place itself too.
fn find(place: &Path, depth: usize, found: &mut Vec<PathBuf>) -> io::Result<()> {
    if place.join("journal.sqlite").exists() {
        found.push(place.to_owned());
    }
    if depth == 0 {
        return Ok(());
    }
    for entry in fs::read_dir(place)? {
        let entry = entry?;
        // A link may lead around in a circle.
        if entry.file_type()?.is_dir() {
            // Whoever's folder may not be read has a journal that may not either: it is named when it is opened.
            let _ = find(&entry.path(), depth - 1, found);
        }
    }
    Ok(())
}

/// Reads them on every processor. The order of the threads changes nothing.
fn read(place: &Path, folders: &[PathBuf], now: &ZonedDateTime) -> (Vec<Person>, Vec<Skipped>) {
    let bar = if io::stderr().is_terminal() {
        ProgressBar::new(folders.len() as u64)
    } else {
        ProgressBar::hidden()
    };
    bar.set_style(
        ProgressStyle::with_template("{msg} {wide_bar} {pos} of {len}").expect("the template is sound"),
    );
    bar.set_message("Reading journals");
    let next = AtomicUsize::new(0);
    let work = || {
        let (mut people, mut skipped) = (Vec::new(), Vec::new());
        while let Some(path) = folders.get(next.fetch_add(1, Ordering::Relaxed)) {
            let name = path.strip_prefix(place).ok().filter(|rest| !rest.as_os_str().is_empty());
            let name = name.unwrap_or(path).display().to_string();
            match one(&name, path, now) {
                Ok(person) => people.push(person),
                Err(failure) => skipped.push(Skipped { name, why: failure.fact().to_owned() }),
            }
            bar.inc(1);
        }
        (people, skipped)
    };
    let threads = thread::available_parallelism().map_or(1, usize::from);
    let (mut people, mut skipped): (Vec<Person>, Vec<Skipped>) = (Vec::new(), Vec::new());
    thread::scope(|scope| {
        let workers: Vec<_> = (0..threads).map(|_| scope.spawn(work)).collect();
        for worker in workers {
            let (found, left) =
                worker.join().expect("reading a journal panics nowhere: its errors are values");
            people.extend(found);
            skipped.extend(left);
        }
    });
    bar.finish_and_clear();
    skipped.sort_by(|a, b| a.name.cmp(&b.name));
    (people, skipped)
}

fn one(name: &str, path: &Path, now: &ZonedDateTime) -> Result<Person, Failure> {
    let folder = Folder::open_in(path)?;
    let own = source::in_use(&folder)?.map(|source| source.prescription);
    let prescription: &Prescription = own.as_ref().unwrap_or(&Prescription::all_ready()[0].1);
    let known = Known::recent(&Journal::peek(&folder)?)?;
    let next = known.next(prescription, now);
    Ok(Person::of(name, &known.past, prescription, &next, now.date()))
}

fn print(people: &[Person], skipped: &[Skipped], out: &mut impl Write) -> io::Result<()> {
    let found: Vec<String> = counts(people)
        .into_iter()
        .filter(|(_, count)| *count > 0)
        .map(|(state, count)| format!("{state} {count}"))
        .collect();
    let head =
        format!("{} people: {}. Who is in several states counts in each.", people.len(), found.join(", "));
    writeln!(out, "{}\n", wrapped("", &head))?;
    let width = people.iter().map(|person| person.name.chars().count()).max().unwrap_or(0).clamp(4, 28);
    writeln!(out, "{:<width$}  {:<10}  {:>7}  how it stands", "who", "last", "4 weeks")?;
    for person in people {
        let name: String = person.name.chars().take(width).collect();
        let last = person.last.map_or("-".to_owned(), |day| day.to_string());
        let states = person.states.iter().map(|state| state.name()).collect::<Vec<_>>().join(", ");
        writeln!(
            out,
            "{name:<width$}  {last:<10}  {:>7}  {states}",
            format!("{} days", person.days_in_four_weeks)
        )?;
    }
    for Skipped { name, why } in skipped {
        writeln!(out, "{}", wrapped("", &format!("Skipped: {name}: {why}")))?;
    }
    Ok(())
}

fn rows(people: &[Person], out: &mut impl Write) -> io::Result<()> {
    let mut csv = csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(out);
    csv.write_record(["who", "last", "days_in_four_weeks", "practices", "states", "next", "because"])?;
    for person in people {
        let states = person.states.iter().map(|state| state.name()).collect::<Vec<_>>().join("; ");
        csv.write_record([
            text(&person.name),
            person.last.map(|day| day.to_string()).unwrap_or_default(),
            person.days_in_four_weeks.to_string(),
            person.practices.to_string(),
            states,
            person.next.name().to_owned(),
            text(&person.because),
        ])?;
    }
    csv.flush()
}
