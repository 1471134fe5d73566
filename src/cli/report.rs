//! The `report` command: one person's report on one screen, in full, as a page to print, or for other programs.

use std::io::{self, Write};
use std::path::{Path, PathBuf};

use clap::ValueEnum;
use jiff::civil::Date;

use super::handover;
use super::overview::{self, Overview};
use super::page::{html, text};
use super::standing;
use super::wrap::{first_lines, wrapped};
use super::{Failure, source};
use crate::clock::Clock;
use crate::journal::{Folder, Journal};
use counterpoise_core::course::program::moment;
use counterpoise_core::course::progression::Reason;
use counterpoise_core::draw::predictability::{Foresight, findings};
use counterpoise_core::draw::schedule::Scheduler;
use counterpoise_core::plan::counts::CueCounts;
use counterpoise_core::report::overview::{Order, State};
use counterpoise_core::report::{FEW, Material, Period, Report, blocks, summary, title};

mod csv;
mod fhir;

/// The options of `report`.
#[derive(Debug, Clone, clap::Args)]
#[command(after_help = "Examples:\n  \
    counterpoise report                             one screen, since the prescription was issued\n  \
    counterpoise report --whole                     everything, week by week\n  \
    counterpoise report --format html --out report.html   a page to print, on A4 or Letter\n  \
    counterpoise report --format html --to-stick    the same, written to the memory stick\n  \
    counterpoise report --folder clinic --sort state      many people: who practices, who stopped, who is locked\n  \
    counterpoise report --since 2026-11-01 --until 2026-11-30 --format csv\n\n\
    It stays on this computer. No single test predicts falls, and small numbers say little.")]
pub(super) struct Arguments {
    /// The first day [default: the day on which the prescription was issued, or the first practice before it]
    #[arg(long, value_name = "YYYY-MM-DD")]
    since: Option<Date>,
    /// The last day [default: today]
    #[arg(long, value_name = "YYYY-MM-DD", alias = "on")]
    until: Option<Date>,
    /// Everything, instead of one screen
    #[arg(long)]
    whole: bool,
    /// Output format
    #[arg(long, value_enum, default_value_t = Form::Text)]
    format: Form,
    /// An overview of many people: the folder that contains their folders
    #[arg(long, value_name = "DIR", conflicts_with_all = ["since", "whole"])]
    folder: Option<PathBuf>,
    /// The order of the overview
    #[arg(long, value_enum, default_value_t = By::Name, requires = "folder")]
    sort: By,
    /// In the overview, only people in this state
    #[arg(long, value_name = "STATE", requires = "folder", value_parser = state)]
    only: Option<State>,
    /// Write to the memory stick, for the therapist
    #[arg(long, conflicts_with_all = ["out", "folder"])]
    to_stick: bool,
    /// Write to this new file instead of the screen
    #[arg(long, value_name = "FILE")]
    out: Option<PathBuf>,
}

/// An output format of the report.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Form {
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

/// The order of an overview.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum By {
    /// By the name of the folder
    Name,
    /// By the last practice, the oldest first
    Last,
    /// By state
    State,
}

fn state(name: &str) -> Result<State, String> {
    let names = || State::ALL.iter().map(|state| state.name()).collect::<Vec<_>>().join(", ");
    State::from_name(name).ok_or_else(|| format!("it can be: {}", names()))
}

fn overview(arguments: &Arguments, place: &Path, out: &mut impl Write) -> Result<(), Failure> {
    let form = match arguments.format {
        Form::Text => overview::Form::Text,
        Form::Json => overview::Form::Json,
        Form::Csv => overview::Form::Csv,
        Form::Html => overview::Form::Html,
        Form::Fhir => {
            return Err(Failure::new(
                "an overview cannot be written as FHIR",
                "Choose --format text, html, json or csv. For one person: counterpoise report --format fhir",
            ));
        }
    };
    let order = match arguments.sort {
        By::Name => Order::Name,
        By::Last => Order::Last,
        By::State => Order::State,
    };
    let now = moment(arguments.until, &Clock::real().wall());
    let overview = Overview::of(place, &now, (order, arguments.only))?;
    match &arguments.out {
        None => overview.write(form, out)?,
        Some(path) => {
            let mut written = Vec::new();
            overview.write(form, &mut written)?;
            new_file(path, &written)?;
            writeln!(out, "{}", path.display())?;
            out.flush()?;
        }
    }
    // The readable journals are printed first.
    overview.whole()
}

pub(super) fn run(
    arguments: &Arguments,
    folder: impl FnOnce() -> Result<Folder, Failure>,
    out: &mut impl Write,
) -> Result<(), Failure> {
    if let Some(place) = &arguments.folder {
        return overview(arguments, place, out);
    }
    let folder = &folder()?;
    let journal = Journal::look(folder)?;
    let material = Material::of(&journal.contents()?);
    let (report, period) = report(arguments, folder, &journal, &material)?;
    let mut written = Vec::new();
    match arguments.format {
        Form::Text if arguments.whole => text::write(&blocks(&report), &mut written)?,
        Form::Text => brief(&report, &mut written)?,
        Form::Html => html::write(&blocks(&report), &mut written)?,
        Form::Json => {
            serde_json::to_writer_pretty(&mut written, &report)?;
            written.push(b'\n');
        }
        Form::Csv => csv::write(&material, period, &mut written)?,
        Form::Fhir => {
            serde_json::to_writer_pretty(&mut written, &fhir::bundle(journal.id()?, &material, period))?;
            written.push(b'\n');
        }
    }
    if arguments.to_stick {
        let ending = match arguments.format {
            Form::Text => "txt",
            Form::Html => "html",
            Form::Json => "json",
            Form::Csv => "csv",
            Form::Fhir => "fhir.json",
        };
        return handover::put(&format!("report-{}", period.until), ending, &written, out);
    }
    match &arguments.out {
        None => out.write_all(&written)?,
        Some(path) => {
            new_file(path, &written)?;
            writeln!(out, "{}", path.display())?;
        }
    }
    Ok(())
}

/// The lines of a terminal of 24 rows, without the one for the next command.
const SCREEN: usize = 23;

/// Prints one screen of 80 by 24. If there is too much, long paragraphs are cut, and then the least urgent ones are left
/// out. The whole report has everything.
fn brief(report: &Report, out: &mut impl Write) -> io::Result<()> {
    let end = "Everything: counterpoise report --whole. To print: --format html --out FILE";
    let said = summary(report);
    let set = |cut: bool| {
        let most = |lines: usize| if cut { lines } else { usize::MAX };
        let title = first_lines(&wrapped("", &title(report)), most(1));
        let said = said.iter().map(|said| first_lines(&wrapped("  ", &said.text), most(said.max_lines)));
        [title].into_iter().chain(said).chain([FEW, end].map(|text| wrapped("", text))).collect::<Vec<_>>()
    };
    let height = |texts: &[String]| texts.iter().map(|text| text.lines().count()).sum::<usize>();
    let mut texts = set(false);
    if height(&texts) > SCREEN {
        texts = set(true);
        for place in (0..said.len()).rev().filter(|place| said[*place].is_optional) {
            if height(&texts) > SCREEN {
                texts[place + 1].clear();
            }
        }
    }
    texts.iter().filter(|text| !text.is_empty()).try_for_each(|text| writeln!(out, "{text}"))
}

fn report(
    arguments: &Arguments,
    folder: &Folder,
    journal: &Journal,
    material: &Material,
) -> Result<(Report, Period), Failure> {
    let prescription = source::find(None, || Ok(folder.clone()))?.prescription;
    let now = moment(arguments.until, &Clock::real().wall());
    let first = material.past.sessions.iter().map(|session| session.day).min();
    let since = arguments.since.unwrap_or_else(|| {
        let issued = prescription.issued_on();
        // A ready prescription was issued long before anybody used it, so the report begins with the first practice.
        match first {
            Some(first) if first > issued || prescription.issued_by().is_empty() => first,
            _ => issued,
        }
    });
    let until = now.date();
    if since > until {
        return Err(Failure::new(
            format!("`--since` is {since}, which is after {until}, the last day"),
            "Give the first day before the last, for example: --since 2026-11-01 --until 2026-11-30",
        ));
    }
    let next = standing::known(journal)?.next(&prescription, &now);
    let bars = |reason: &&Reason| {
        matches!(reason, Reason::Locked { .. } | Reason::Clinician { .. } | Reason::Holding { .. })
    };
    let barred = next.reasons.iter().filter(bars).map(ToString::to_string).collect();
    let scheduler = Scheduler::new(&prescription)?;
    let foresight = Foresight::of(&prescription, &scheduler, &CueCounts::of(&prescription));
    let period = Period { since, until };
    Ok((Report::of(material, &prescription, period, findings::summary(&foresight), barred), period))
}

/// Writes a new file that only its owner can read.
pub(super) fn new_file(path: &Path, bytes: &[u8]) -> Result<(), Failure> {
    let refuse = |error: &io::Error| {
        if error.kind() == io::ErrorKind::AlreadyExists {
            return Failure::new(
                format!("{} already exists", path.display()),
                "Name a new file. The existing one was not changed.",
            );
        }
        Failure::new(
            format!("{} cannot be written: {error}", path.display()),
            "Check that the folder exists and has space. No partial file was kept.",
        )
    };
    let mut options = std::fs::OpenOptions::new();
    options.write(true).create_new(true);
    #[cfg(unix)]
    {
        use std::os::unix::fs::OpenOptionsExt;
        options.mode(0o600);
    }
    let mut file = options.open(path).map_err(|error| refuse(&error))?;
    let written = file.write_all(bytes).and_then(|()| file.sync_all());
    written.map_err(|error| {
        // A partial report must not be kept.
        let _ = std::fs::remove_file(path);
        refuse(&error)
    })
}

#[cfg(test)]
mod test;
