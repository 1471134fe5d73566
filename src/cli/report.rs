//! The `report` command: one person's report on one screen, in full, as a page to print, or for other programs.

use std::io::{self, Write};
use std::path::{Path, PathBuf};

use clap::ValueEnum;
use jiff::civil::Date;
use unicode_width::UnicodeWidthStr;

use super::handover;
use super::overview::{Form, Overview};
use super::page::text::WIDTH;
use super::page::{Output, html, show, text};
use super::standing;
use super::{Failure, source};
use crate::clock::Clock;
use crate::journal::{Folder, Journal};
use counterpoise_core::blocks::Block;
use counterpoise_core::course::program::moment;
use counterpoise_core::course::standing::Standing;
use counterpoise_core::draw::predictability::{Foresight, findings};
use counterpoise_core::draw::schedule::Scheduler;
use counterpoise_core::plan::caution::{self, Contents, Surface};
use counterpoise_core::plan::counts::CueCounts;
use counterpoise_core::plan::prescription::Prescription;
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

fn overview(arguments: &Arguments, place: &Path, out: &mut impl Write) -> Result<Output, Failure> {
    let order = match arguments.sort {
        By::Name => Order::Name,
        By::Last => Order::Last,
        By::State => Order::State,
    };
    let now = moment(arguments.until, &Clock::real().wall());
    let overview = Overview::of(place, &now, (order, arguments.only))?;
    // The readable journals are printed first.
    out.write_all(&to_place(overview.output(arguments.format)?, arguments.out.as_deref())?.into_bytes())?;
    out.flush()?;
    overview.whole().map(|()| Output::NOTHING)
}

/// What is printed: the output itself, or the name of the new file that it went to.
fn to_place(output: Output, path: Option<&Path>) -> Result<Output, Failure> {
    let Some(path) = path else { return Ok(output) };
    new_file(path, &output.into_bytes())?;
    Ok(vec![Block::line(path.display().to_string())].into())
}

pub(super) fn run(
    arguments: &Arguments,
    folder: impl FnOnce() -> Result<Folder, Failure>,
    out: &mut impl Write,
) -> Result<Output, Failure> {
    if let Some(place) = &arguments.folder {
        return overview(arguments, place, out);
    }
    let folder = &folder()?;
    let journal = Journal::look(folder)?;
    let material = Material::of(&journal.contents()?);
    let prescription = source::find(None, || Ok(folder.clone()))?.prescription;
    let (report, period) = report(arguments, &prescription, &journal, &material)?;
    let about = Contents::Of(&prescription);
    let page = || [blocks(&report), caution::blocks(Surface::Report, about)].concat();
    let output = match arguments.format {
        Form::Text if arguments.whole => page().into(),
        Form::Text => Output::Bytes(brief(&report, about).into_bytes()),
        Form::Html => Output::Bytes(html::of(&page()).into_bytes()),
        Form::Json => Output::json_of(&report, Surface::Report, about)?,
        Form::Csv => {
            show(&caution::blocks(Surface::Report, about), &mut io::stderr())?;
            Output::Bytes(csv::of(&material, &prescription, period)?)
        }
        Form::Fhir => Output::json(&fhir::bundle(journal.id()?, &material, &prescription, period))?,
    };
    if arguments.to_stick {
        let ending = match arguments.format {
            Form::Text => "txt",
            Form::Html => "html",
            Form::Json => "json",
            Form::Csv => "csv",
            Form::Fhir => "fhir.json",
        };
        let stem = format!("report-{}", period.until);
        return Ok(handover::put(&stem, ending, &output.into_bytes())?.into());
    }
    to_place(output, arguments.out.as_deref())
}

/// The lines of a terminal of 24 rows, without the one for the next command.
const SCREEN: usize = 23;

/// One screen of 80 by 24. If there is too much, long paragraphs are cut, and then the least urgent ones left out. The
/// whole report has everything.
fn brief(report: &Report, about: Contents<'_>) -> String {
    let end = "Everything: counterpoise report --whole. To print: --format html --out FILE";
    let said = summary(report);
    let set = |cut: bool| {
        let most = |lines: usize| if cut { lines } else { usize::MAX };
        let first = |block: Block, lines| first_lines(&text::of(&[block]), most(lines));
        let title = first(Block::line(title(report)), 1);
        let said = said.iter().map(|said| first(said.block.clone(), said.max_lines));
        let few = text::of(&[Block::line(FEW)]);
        let cautions = text::of(&caution::blocks(Surface::Report, about));
        let end = text::of(&[Block::line(end)]);
        [title].into_iter().chain(said).chain([few, cautions, end]).collect::<Vec<_>>()
    };
    let height = |texts: &[String]| texts.iter().map(|text| text.lines().count()).sum::<usize>();
    let mut texts = set(false);
    if height(&texts) > SCREEN {
        let whole = texts;
        texts = set(true);
        for place in (0..said.len()).rev().filter(|place| said[*place].is_optional) {
            if height(&texts) > SCREEN {
                texts[place + 1].clear();
            }
        }
        // What was cut is shown whole where room is left, the first paragraphs first.
        for (place, whole) in whole.into_iter().enumerate().filter(|(_, whole)| !whole.is_empty()) {
            let room = SCREEN.saturating_sub(height(&texts)) + texts[place].lines().count();
            if !texts[place].is_empty() && whole.lines().count() <= room {
                texts[place] = whole;
            }
        }
    }
    texts.concat()
}

/// The first `most` lines of a text that is set, with three dots where more followed.
fn first_lines(text: &str, most: usize) -> String {
    const MORE: &str = " ...";
    if text.lines().count() <= most {
        return text.to_owned();
    }
    let mut lines: Vec<&str> = text.lines().take(most).collect();
    if let Some(last) = lines.last_mut() {
        while last.width() + MORE.len() > WIDTH {
            // Whole words; a word that fills a line is cut.
            let end = last.trim_end().rfind(' ').filter(|end| !last[..*end].trim().is_empty());
            *last = &last[..end.or(last.char_indices().next_back().map(|(at, _)| at)).unwrap_or(0)];
        }
    }
    lines.join("\n") + MORE + "\n"
}

fn report(
    arguments: &Arguments,
    prescription: &Prescription,
    journal: &Journal,
    material: &Material,
) -> Result<(Report, Period), Failure> {
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
    let standing = Standing::of(&standing::known(journal)?, prescription, &now);
    let barred = standing.for_therapist();
    let scheduler = Scheduler::new(prescription)?;
    let foresight = Foresight::of(prescription, &scheduler, &CueCounts::of(prescription));
    let period = Period { since, until };
    let foreseen = findings::summary(&foresight);
    Ok((Report::of(material, prescription, period, foreseen, barred, standing.next.state), period))
}

/// Writes a new file that only its owner can read.
pub(super) fn new_file(path: &Path, bytes: &[u8]) -> Result<(), Failure> {
    write_private(path, bytes).map_err(|error| match error.kind() {
        io::ErrorKind::AlreadyExists => Failure::new(
            format!("{} already exists", path.display()),
            "Name a new file. The existing one was not changed.",
        ),
        _ => Failure::new(
            format!("{} cannot be written: {error}", path.display()),
            "Check that the folder exists and has space. No partial file was kept.",
        ),
    })
}

/// The same, with the error of the system.
pub(super) fn write_private(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let mut options = std::fs::OpenOptions::new();
    options.write(true).create_new(true);
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
    let mut file = options.open(path)?;
    let written = file.write_all(bytes).and_then(|()| file.sync_all());
    if written.is_err() {
        // A partial report must not be kept; the first error is the one to tell.
        let _ = std::fs::remove_file(path);
    }
    written
}

#[cfg(test)]
mod test;
