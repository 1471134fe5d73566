//! The `audit` command: how well could anybody predict a prescription's calls, or a list that somebody made up? It draws
//! the sessions and runs the guessers in parallel; `predictability` computes the results.

use std::fs::File;
use std::io::{self, IsTerminal, Read};
use std::path::{Path, PathBuf};
use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread;

use clap::ValueEnum;
use indicatif::{ProgressBar, ProgressStyle};
use serde::Serialize;

use super::page::{Output, html};
use super::{Failure, source};
use crate::journal::Folder;
use counterpoise_core::blocks::Block;
use counterpoise_core::draw::predictability::{
    Audit, Foresight, Learning, List, OwnList, SecondDraw, SequenceCollector, Task, audit_page,
};
use counterpoise_core::draw::schedule::{Method, Scheduler, Seed};
use counterpoise_core::plan::caution::{self, Contents, Surface};
use counterpoise_core::plan::counts::CueCounts;
use counterpoise_core::plan::gaps::GapTable;
use counterpoise_core::plan::prescription::Prescription;

/// The most sessions that are drawn for a drill that is hardly ever reached: as many as `preview` may draw.
const MOST_SESSIONS: u64 = 100_000;

/// The most bytes of a list that are read: 100,000 calls have about 2 MB.
const LIST_BYTES: u64 = 8 << 20;

/// The most guessers that run in parallel: each takes up to 30 MB.
const MOST_THREADS: usize = 4;

/// The options of `audit`.
#[derive(Debug, Clone, clap::Args)]
#[command(after_help = "Examples:\n  \
    counterpoise audit gentle                           words, charts and tables\n  \
    counterpoise audit balance.toml --format html > audit.html\n                                                      \
    the same as a page for a browser\n  \
    counterpoise audit balance.toml --format json       every figure, for other programs\n  \
    counterpoise audit --sequence mine.txt              a list that somebody made up\n\n\
    docs/audit.md has every formula, threshold and source.")]
pub(super) struct Arguments {
    /// A ready prescription or a file [default: the one in use, else gentle]
    #[arg(value_name = "PRESCRIPTION")]
    prescription: Option<String>,
    /// A list of directions instead, one per line, each with or without a time before it
    #[arg(long, value_name = "FILE", conflicts_with_all = ["prescription", "cues"])]
    sequence: Option<PathBuf>,
    /// The seed of the sessions, 64 hexadecimal digits [default: a fresh one]
    #[arg(long, value_name = "HEX")]
    seed: Option<String>,
    /// How many calls of each drill the learners get
    #[arg(long, value_name = "N", default_value_t = 100_000, value_parser = clap::value_parser!(u32).range(1_000..=1_000_000))]
    cues: u32,
    /// Output format
    #[arg(long, value_enum, default_value_t = Form::Text)]
    format: Form,
}

/// An output format of the audit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Form {
    /// For people
    Text,
    /// For other programs
    Json,
    /// A page for a browser, with pictures, in one file
    Html,
}

pub(super) fn run(
    arguments: &Arguments,
    folder: impl Fn() -> Result<Folder, Failure>,
) -> Result<Output, Failure> {
    let (method, seed) = source::replay(arguments.seed.as_deref(), &folder)?;
    if let Some(path) = &arguments.sequence {
        return sequence(path, seed, arguments.format);
    }
    let prescription = source::find(arguments.prescription.as_deref(), folder)?.prescription;
    let audit = audit(&prescription, method, seed, arguments.cues as usize)?;
    output(arguments.format, &audit.to_json(), Contents::Of(&prescription), || audit_page::blocks(&audit))
}

/// Judges a list that somebody made up.
fn sequence(path: &Path, seed: Seed, form: Form) -> Result<Output, Failure> {
    let read = File::open(path).and_then(|file| {
        let mut text = String::new();
        file.take(LIST_BYTES).read_to_string(&mut text).map(|_| text)
    });
    let text = read.map_err(|error| {
        Failure::new(
            format!("the list {} cannot be read: {error}", path.display()),
            "Name a plain text file with one direction on each line",
        )
    })?;
    let list = List::read(&text)
        .map_err(|error| Failure::new(format!("{}: {error}", path.display()), error.hint()))?;
    let own = OwnList::judge(&list, &mut seed.stream(0));
    let name = path.file_name().unwrap_or(path.as_os_str()).to_string_lossy();
    output(form, &own.to_json(), Contents::Nothing, || own.blocks(&name))
}

fn output(
    form: Form,
    json: &impl Serialize,
    about: Contents<'_>,
    blocks: impl FnOnce() -> Vec<Block>,
) -> Result<Output, Failure> {
    let page = || [blocks(), caution::blocks(Surface::Audit, about)].concat();
    match form {
        Form::Json => Output::json_of(json, Surface::Audit, about),
        Form::Text => Ok(page().into()),
        Form::Html => Ok(Output::Bytes(html::of(&page()).into_bytes())),
    }
}

fn audit(prescription: &Prescription, method: Method, seed: Seed, cues: usize) -> Result<Audit<'_>, Failure> {
    let scheduler = Scheduler::by(method, prescription)?;
    let bar = if io::stderr().is_terminal() { ProgressBar::new(100) } else { ProgressBar::hidden() };
    bar.set_style(
        ProgressStyle::with_template("{msg} {wide_bar} {percent} %").expect("the template is sound"),
    );
    bar.set_message("Counting");
    let mut foresight = Foresight::of(prescription, &scheduler, &CueCounts::of(prescription));
    let bounds: Vec<_> = foresight.drills().iter().map(|drill| drill.moment.bounds.clone()).collect();
    let mut drawn = SequenceCollector::new(prescription, &bounds, cues);
    bar.set_message("Drawing");
    while !drawn.is_full() && drawn.sessions() < MOST_SESSIONS {
        drawn.add(&scheduler.draw(seed.of_session(drawn.sessions())));
        if drawn.sessions().is_multiple_of(256) {
            bar.set_position((drawn.share() * 20.0) as u64);
        }
    }
    let sessions = drawn.sessions();
    let sequences = drawn.into_sequences();
    let second_draws = (0..)
        .zip(prescription.drills())
        .map(|(drill, plan)| SecondDraw::of(&GapTable::new(plan.gaps()), seed, drill))
        .collect();
    foresight.play(&sequences);
    bar.set_message("Guessing");
    let learning = side_by_side(&Task::all(&sequences), |done, of| {
        bar.set_position((20 + done * 80 / of) as u64);
    });
    bar.finish_and_clear();
    Ok(Audit { prescription, foresight, seed, sessions, second_draws, sequences, learning })
}

/// Runs every task, as many at a time as there are cores. The results are in the order of the tasks.
fn side_by_side(tasks: &[Task<'_>], progress: impl Fn(usize, usize) + Sync) -> Vec<Learning> {
    let threads = thread::available_parallelism().map_or(1, usize::from).min(MOST_THREADS);
    let next = AtomicUsize::new(0);
    let results = Mutex::new(vec![None; tasks.len()]);
    thread::scope(|scope| {
        for _ in 0..threads {
            scope.spawn(|| {
                while let Some((index, task)) = Some(next.fetch_add(1, Ordering::Relaxed))
                    .and_then(|index| Some((index, tasks.get(index)?)))
                {
                    let result = task.run();
                    let mut results = results.lock().expect("no task ends in a panic");
                    results[index] = Some(result);
                    progress(results.iter().flatten().count(), tasks.len());
                }
            });
        }
    });
    let mut learning: Vec<Learning> =
        results.into_inner().expect("no task ends in a panic").into_iter().flatten().flatten().collect();
    learning.sort_by_key(|one| (one.drill, one.kind as u8, one.estimator as u8));
    learning
}
