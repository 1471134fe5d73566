//! The `assess results` command: one person's results over time.

use jiff::civil::Date;
use serde::Serialize;

use super::{Format, score::capital};
use crate::cli::page::Output;
use crate::cli::{Failure, source};
use crate::journal::{Folder, Journal};
use counterpoise_core::blocks::Block;
use counterpoise_core::course::trainee::reviewed_on;
use counterpoise_core::health::assessment::{
    Company, Dated, NO_SINGLE_TEST, RETEST_WEEKS, Test, Trend, Verdict, retest_from, score,
    tests_below_cut_off,
};
use counterpoise_core::health::bounds::Bounds;
use counterpoise_core::plan::caution::{self, Contents, Surface};
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

pub(super) fn run(arguments: &Arguments, folder: &Folder) -> Result<Output, Failure> {
    let rows = Journal::look(folder)?.contents()?.tests;
    let dated: Vec<Dated> = rows.iter().filter_map(BalanceRow::dated).collect();
    let trends = Trend::all(&dated);
    match arguments.format {
        Format::Json => {
            let tests = trends.iter().map(of_test).collect();
            let results = Results { schema: "counterpoise.tests/1", tests };
            Output::json_of(&results, Surface::AssessResults, Contents::Nothing)
        }
        Format::Text => {
            let prescription = source::find(None, || Ok(folder.clone()))?.prescription;
            let mut page = text(&trends, &dated, reviewed_on(&prescription));
            page.extend(caution::blocks(Surface::AssessResults, Contents::Nothing));
            Ok(page.into())
        }
    }
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

fn text(trends: &[Trend], dated: &[Dated], reviewed: Option<Date>) -> Vec<Block> {
    if trends.is_empty() {
        return vec![Block::line("No balance test has been saved yet. To take one: counterpoise assess")];
    }
    let mut page = Vec::new();
    for trend in trends {
        page.push(Block::line(capital(trend.test.title())));
        page.push(Block::Verbatim(trend.results.iter().map(line).collect()));
        let latest = trend.latest();
        let finding = score(latest.reading, latest.age, latest.sex).sentence(trend.test);
        page.extend(std::iter::once(finding).chain(trend.sentences()).map(Block::item));
    }
    page.extend(retest_from(dated).map(|day| {
        Block::line(format!("The tests can be repeated every {RETEST_WEEKS} weeks, next from {day}."))
    }));
    page.push(Block::line(NO_SINGLE_TEST));
    page.push(Block::line(Bounds::said_of_tests(tests_below_cut_off(dated, reviewed))));
    page
}

fn line(dated: &Dated) -> String {
    let finding = score(dated.reading, dated.age, dated.sex).verdict.words(dated.reading.test());
    format!("  {}  {:>8}  {finding}, {}", dated.day, dated.reading.to_string(), dated.company)
}
