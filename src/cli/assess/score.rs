//! The `assess score` command: compares one result with the published tables, and saves it if asked to.

use jiff::civil::{Date, Time};
use serde::Serialize;

use super::Format;
use crate::cli::Failure;
use crate::cli::page::Output;
use crate::cli::standing;
use crate::clock::Clock;
use crate::journal::Folder;
use counterpoise_core::blocks::Block;
use counterpoise_core::health::assessment::{
    Age, Company, Finding, NO_SINGLE_TEST, Reading, Sex, Test, Unit, Verdict, score,
};
use counterpoise_core::health::bounds::Bounds;
use counterpoise_core::plan::caution::{self, Contents, Surface};
use counterpoise_core::words::Printable;

/// The most characters of a name \[judgment\].
const LONGEST: usize = 200;

/// The options of `assess score`.
#[derive(Debug, Clone, clap::Args)]
#[command(after_help = "TEST is one of\n  \
    four-stage        seconds held heel to toe, 0 to 10 (the third stage; less than 10 is shorter than the cut-off)\n  \
    one-leg           seconds on one leg, eyes open\n  \
    chair-stand       rises in 30 seconds, arms crossed; 0 if the arms were used; needs --age and --sex\n  \
    timed-up-and-go   seconds for up, 3 m, around, back and down\n  \
    five-rises        seconds for five rises, arms crossed\n\n\
    Examples:\n  \
    counterpoise assess score four-stage --result 9.4\n  \
    counterpoise assess score chair-stand --age 72 --sex male --result 11\n  \
    counterpoise assess score five-rises --result unable --format json\n  \
    counterpoise assess score one-leg --result 8 --keep --by \"K. L.\" --on 2026-11-02")]
pub(in crate::cli) struct Arguments {
    /// Which test
    #[arg(value_name = "TEST", value_parser = super::parse_test)]
    test: Test,
    /// Age in years
    #[arg(long, value_name = "YEARS")]
    age: Option<String>,
    /// Which column of the table
    #[arg(long, value_parser = ["female", "male"])]
    sex: Option<String>,
    /// The result: seconds (with or without a tenth, such as 9.4), a count, or unable
    #[arg(long, value_name = "RESULT", allow_hyphen_values = true)]
    result: String,
    /// Save it in the journal, as taken elsewhere
    #[arg(long)]
    keep: bool,
    /// Who took it
    #[arg(long, value_name = "WHO", requires = "keep")]
    by: Option<String>,
    /// The day on which it was taken [default: today]
    #[arg(long, value_name = "YYYY-MM-DD", requires = "keep")]
    on: Option<Date>,
    /// Output format
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
}

#[derive(Serialize)]
struct Found {
    schema: &'static str,
    test: Test,
    /// Seconds or a count; `null` is unable.
    result: Option<serde_json::Number>,
    finding: Verdict,
    cut_off: Option<serde_json::Number>,
    source: String,
    notes: Vec<String>,
}

/// Seconds with a tenth only where there is one; a count as it is.
fn number(test: Test, value: u32) -> serde_json::Number {
    match test.unit() {
        Unit::Tenths if !value.is_multiple_of(10) => {
            serde_json::Number::from_f64(f64::from(value) / 10.0).expect("a tenth of a count is finite")
        }
        Unit::Tenths => (value / 10).into(),
        Unit::Rises => value.into(),
    }
}

pub(super) fn run(
    arguments: &Arguments,
    folder: impl FnOnce() -> Result<Folder, Failure>,
) -> Result<Output, Failure> {
    let reading = Reading::read(arguments.test, &arguments.result)?;
    let age = arguments.age.as_deref().map(str::parse::<Age>).transpose()?;
    let sex = arguments.sex.as_deref().and_then(Sex::from_name);
    let finding = score(reading, age, sex);
    if arguments.keep {
        keep(arguments, reading, (age, sex), &folder()?)?;
    }
    if arguments.format == Format::Json {
        return Output::json_of(&answer(reading, &finding), Surface::Score, Contents::Nothing);
    }
    let mut page = vec![
        Block::line(format!("{}: {reading}.", capital(arguments.test.title()))),
        Block::line(finding.sentence(arguments.test)),
    ];
    page.extend(finding.notes.iter().map(Block::item));
    let kept = match arguments.keep {
        true => "It is in the journal.",
        false => "It was not saved. To save it: add --keep.",
    };
    let practice = Bounds::said_of_tests(usize::from(finding.verdict == Verdict::Below));
    page.extend([NO_SINGLE_TEST, kept, &practice].map(Block::line));
    page.extend(caution::blocks(Surface::Score, Contents::Nothing));
    Ok(page.into())
}

fn answer(reading: Reading, finding: &Finding) -> Found {
    let test = reading.test();
    Found {
        schema: "counterpoise.finding/1",
        test,
        result: reading.value().map(|value| number(test, value)),
        finding: finding.verdict,
        cut_off: finding.cut_off.map(|value| number(test, value)),
        source: finding.source.to_string(),
        notes: finding.notes.clone(),
    }
}

fn keep(
    arguments: &Arguments,
    reading: Reading,
    person: (Option<Age>, Option<Sex>),
    folder: &Folder,
) -> Result<(), Failure> {
    let by = arguments.by.as_deref().unwrap_or("").trim();
    if by.chars().count() > LONGEST || Printable::first_hidden(by).is_some() {
        return Err(Failure::new(
            format!("`--by` must be one line of at most {LONGEST} characters"),
            "A name, initials or a role is enough.",
        ));
    }
    let now = Clock::real().wall();
    let at = match arguments.on {
        Some(day) if day > now.date() => {
            return Err(Failure::new(
                format!("`--on` is {day}, which is after today, {}", now.date()),
                "Give the day on which the test was taken. Is the computer's date right?",
            ));
        }
        Some(day) if day < now.date() => {
            // The hour is not known: noon.
            day.to_datetime(Time::constant(12, 0, 0, 0))
                .to_zoned_datetime(now.time_zone().clone())
                .unwrap_or(now)
        }
        _ => now,
    };
    let mut journal = standing::open(folder, &mut std::io::stderr())?;
    Ok(journal.keep_balance_test(&at, reading, person, (Company::Elsewhere, by), None)?)
}

pub(super) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
