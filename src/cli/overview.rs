//! The overview of a folder of journals: finds them, reads them, and prints one line for each person.

use std::io::{self, IsTerminal};
use std::path::Path;

use clap::ValueEnum;
use indicatif::{ProgressBar, ProgressStyle};
use jiff::ZonedDateTime;
use serde::Serialize;

use super::Failure;
use super::page::{Output, html, show};
use crate::journal::export::text;
use counterpoise_core::blocks::{Block, Table};
use counterpoise_core::course::progression::Decision;
use counterpoise_core::plan::caution::{self, Contents, Surface};
use counterpoise_core::report::overview::{Order, Person, Skipped, State, blocks, heading, sort};
use counterpoise_core::words::counted;

mod find;
mod read;

use find::FolderContents;

/// The most characters of a name in a line for people.
const NAME: usize = 28;

/// An output format of a report and of an overview.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum Form {
    /// For a terminal
    Text,
    /// A page for a browser, to print
    Html,
    /// For other programs
    Json,
    /// For a spreadsheet, one row per session
    Csv,
    /// For a record system: a FHIR R4 bundle
    Fhir,
}

/// Everybody in a folder.
#[derive(Debug)]
pub(super) struct Overview {
    people: Vec<Person>,
    skipped: Vec<Skipped>,
    view: (Order, Option<State>),
    on: jiff::civil::Date,
}

#[derive(Serialize)]
struct Written<'a> {
    schema: &'static str,
    on: jiff::civil::Date,
    people: &'a [Person],
    skipped: &'a [Skipped],
}

impl Overview {
    /// Everybody in `place`, on this day.
    ///
    /// # Errors
    /// If the folder cannot be read, or has no journal. Single journals that cannot be read are listed at the end.
    pub(crate) fn of(
        place: &Path,
        now: &ZonedDateTime,
        (order, only): (Order, Option<State>),
    ) -> Result<Self, Failure> {
        // A huge tree takes long: what it looks at is said before.
        let looks = format!("Looking for journals in {} ...", place.display());
        show(&[Block::line(looks)], &mut io::stderr())?;
        let bar = bar();
        let found = FolderContents::search(place, &mut || bar.inc(1)).map_err(|error| {
            Failure::new(
                format!("the folder {} cannot be read: {error}", place.display()),
                "Name the folder that contains the people's journals: counterpoise report --folder DIR",
            )
        })?;
        if found.sources.is_empty() && found.skipped.is_empty() {
            return Err(Failure::new(
                format!("there is no journal in {}", place.display()),
                "Put each person's data in it: a folder with journal.sqlite, a journal file (.sqlite, .db), or an export \
                 (.json) from `journal export`.",
            ));
        }
        bar.set_position(0);
        bar.set_length(found.sources.len() as u64);
        bar.set_message("Reading journals");
        let (mut people, more) = read::read(&found, now, &|| bar.inc(1));
        bar.finish_and_clear();
        let mut skipped = found.skipped;
        skipped.extend(more);
        skipped.sort_by(|a, b| a.name.cmp(&b.name));
        sort(&mut people, order);
        if let Some(only) = only {
            people.retain(|person| person.states.contains(&only));
        }
        Ok(Self { people, skipped, view: (order, only), on: now.date() })
    }

    /// Its page, or its bytes.
    pub(crate) fn output(&self, form: Form) -> Result<Output, Failure> {
        let Self { people, skipped, view, on } = self;
        Ok(match form {
            Form::Text => {
                let mut page = text_page(people, skipped);
                page.extend(caution::blocks(Surface::Overview, Contents::Nothing));
                page.into()
            }
            Form::Html => {
                let mut page = blocks(people, skipped, *view, *on);
                page.extend(caution::blocks(Surface::Overview, Contents::Nothing));
                Output::Bytes(html::of(&page).into_bytes())
            }
            Form::Json => {
                let written = Written { schema: "counterpoise.overview/1", on: *on, people, skipped };
                return Output::json_of(&written, Surface::Overview, Contents::Nothing);
            }
            Form::Csv => {
                show(&caution::blocks(Surface::Overview, Contents::Nothing), &mut io::stderr())?;
                Output::Bytes(rows(people)?)
            }
            Form::Fhir => {
                return Err(Failure::new(
                    "an overview cannot be written as FHIR",
                    "Choose --format text, html, json or csv. For one person: counterpoise report --format fhir",
                ));
            }
        })
    }

    /// Reports the journals that could not be read.
    ///
    /// # Errors
    /// If there is any.
    pub(crate) fn whole(&self) -> Result<(), Failure> {
        let Some(Skipped { name, why }) = self.skipped.first() else { return Ok(()) };
        Err(match self.skipped.len() {
            1 => Failure::new(
                format!("1 journal could not be read: {name} ({why})"),
                "The others are in the overview. This one was not changed.",
            ),
            more => Failure::new(
                format!("{more} journals could not be read; the first: {name} ({why})"),
                "The others are in the overview. It also lists these, except in CSV. They were not changed.",
            ),
        })
    }
}

fn bar() -> ProgressBar {
    let bar = if io::stderr().is_terminal() { ProgressBar::no_length() } else { ProgressBar::hidden() };
    bar.set_style(
        ProgressStyle::with_template("{msg} {wide_bar} {pos} of {len}").expect("the template is sound"),
    );
    bar.set_message("Looking for journals");
    bar
}

fn text_page(people: &[Person], skipped: &[Skipped]) -> Vec<Block> {
    let row = |person: &Person| {
        vec![
            fitted(&person.name),
            person.last.map_or("-".to_owned(), |day| day.to_string()),
            counted(person.days_in_four_weeks, "day"),
            person.states.iter().map(|state| state.name()).collect::<Vec<_>>().join(", "),
        ]
    };
    let head = ["who", "last", "4 weeks", "state"];
    let mut page = vec![
        Block::line(heading(people)),
        Block::Gap,
        Block::Table(Table { labels: 2, ..Table::new("", &head, people.iter().map(row).collect()) }),
    ];
    let twice = people.iter().filter(|person| !person.also.is_empty());
    page.extend(twice.map(|person| {
        Block::line(format!("Counted once: {} is also in {}", person.name, person.also.join("; ")))
    }));
    let without: Vec<&str> =
        people.iter().filter(|person| person.next.is_none()).map(|person| person.name.as_str()).collect();
    if !without.is_empty() {
        page.push(Block::line(format!(
            "The prescription is not here, so reviews and steps are not shown: {}",
            without.join("; ")
        )));
    }
    page.extend(skipped.iter().map(|Skipped { name, why }| Block::line(format!("Skipped: {name}: {why}"))));
    page
}

/// Shortens a name. Long paths often begin alike, so the end is kept.
fn fitted(name: &str) -> String {
    let length = name.chars().count();
    if length <= NAME {
        return name.to_owned();
    }
    std::iter::once('…').chain(name.chars().skip(length - NAME + 1)).collect()
}

fn rows(people: &[Person]) -> io::Result<Vec<u8>> {
    let mut csv = csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(Vec::new());
    let head = ["who", "last", "days_in_four_weeks", "practices", "states", "next", "because", "also"];
    csv.write_record(head)?;
    for person in people {
        let states = person.states.iter().map(|state| state.name()).collect::<Vec<_>>().join("; ");
        csv.write_record([
            text(&person.name),
            person.last.map(|day| day.to_string()).unwrap_or_default(),
            person.days_in_four_weeks.to_string(),
            person.practices.to_string(),
            states,
            person.next.map_or("", Decision::name).to_owned(),
            text(&person.because),
            text(&person.also.join("; ")),
        ])?;
    }
    csv.into_inner().map_err(csv::IntoInnerError::into_error)
}
