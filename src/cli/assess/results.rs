//! The `assess results` command: one person's results over time.

use std::io::Write;

use serde::Serialize;

use super::{Format, no_prediction, score::capital};
use crate::cli::Failure;
use crate::cli::wrap::wrapped;
use crate::journal::{Folder, Journal};
use counterpoise_core::health::assessment::{
    Company, Dated, RETEST_WEEKS, Test, Trend, Verdict, retest_from, score,
};
use counterpoise_core::record::BalanceRow;

/// The options of `assess results`.
#[derive(Debug, Clone, clap::Args)]
#[command(after_help = "Examples:\n  \
    counterpoise assess results\n  \
    counterpoise assess results --format json")]
pub(in crate::cli) struct Arguments {
    /// Output format
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
}

#[derive(Serialize)]
struct Results {
    schema: &'static str,
    tests: Vec<OfTest>,
}

#[derive(Serialize)]
struct OfTest {
    test: Test,
    results: Vec<One>,
    change: Vec<String>,
}

#[derive(Serialize)]
struct One {
    day: String,
    /// Tenths of a second, or rises; `null` is unable.
    value: Option<u32>,
    company: Company,
    finding: Verdict,
}

pub(super) fn run(arguments: &Arguments, folder: &Folder, out: &mut impl Write) -> Result<(), Failure> {
    let rows = Journal::look(folder)?.contents()?.tests;
    let dated: Vec<Dated> = rows.iter().filter_map(BalanceRow::dated).collect();
    let trends = Trend::all(&dated);
    match arguments.format {
        Format::Json => {
            let tests = trends.iter().map(of_test).collect();
            serde_json::to_writer_pretty(&mut *out, &Results { schema: "counterpoise.tests/1", tests })?;
            writeln!(out)?;
        }
        Format::Text => text(&trends, &dated, out)?,
    }
    Ok(())
}

fn of_test(trend: &Trend) -> OfTest {
    let one = |dated: &Dated| One {
        day: dated.day.to_string(),
        value: dated.reading.value(),
        company: dated.company,
        finding: score(dated.reading, dated.age, dated.sex).verdict,
    };
    OfTest { test: trend.test, results: trend.results.iter().map(one).collect(), change: trend.sentences() }
}

fn text(trends: &[Trend], dated: &[Dated], out: &mut impl Write) -> Result<(), Failure> {
    if trends.is_empty() {
        writeln!(out, "No balance test has been saved yet. To take one: counterpoise assess")?;
        return Ok(());
    }
    for trend in trends {
        writeln!(out, "{}", capital(trend.test.title()))?;
        for dated in &trend.results {
            let finding = score(dated.reading, dated.age, dated.sex).verdict;
            let company = dated.company;
            writeln!(out, "  {}  {:>8}  {finding}, {company}", dated.day, dated.reading.to_string())?;
        }
        let latest = trend.latest();
        let finding = score(latest.reading, latest.age, latest.sex);
        writeln!(out, "{}", wrapped("  ", &finding.sentence(trend.test)))?;
        for sentence in trend.sentences() {
            writeln!(out, "{}", wrapped("  ", &sentence))?;
        }
    }
    if let Some(day) = retest_from(dated) {
        let text = format!("The tests can be repeated every {RETEST_WEEKS} weeks, next from {day}.");
        writeln!(out, "{}", wrapped("", &text))?;
    }
    no_prediction(out)
}
