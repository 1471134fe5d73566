//! The `program` command: which week is it, what is due, and what does the month look like?

use jiff::ToSpan;
use jiff::civil::Date;
use serde::Serialize;

use super::page::Output;
use super::standing;
use super::{Failure, Format, source};
use crate::clock::Clock;
use crate::journal::{Folder, Journal};
use counterpoise_core::blocks::Block;
use counterpoise_core::course::program::{Due, Mark, Program, moment};
use counterpoise_core::course::progression::Decision;
use counterpoise_core::plan::caution;
use counterpoise_core::words::counted;

/// The options of `program`.
#[derive(Debug, Clone, clap::Args)]
#[command(after_help = "Examples:\n  \
    counterpoise program                     this month\n  \
    counterpoise program --on 2026-12-01     the month of another day\n  \
    counterpoise program --format json")]
pub(super) struct Arguments {
    /// A ready prescription or a file [default: the one in use, else gentle]
    #[arg(value_name = "PRESCRIPTION")]
    prescription: Option<String>,
    /// The day to look at [default: today]
    #[arg(long, value_name = "YYYY-MM-DD")]
    on: Option<Date>,
    /// Output format
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
}

#[derive(Serialize)]
struct Answer {
    schema: &'static str,
    on: Date,
    began: Option<Date>,
    week: u32,
    weeks: u8,
    days_a_week: u8,
    done_this_week: usize,
    due: &'static str,
    next_day: Option<Date>,
    done: Vec<Date>,
    planned: Vec<Date>,
}

pub(super) fn run(arguments: &Arguments, folder: &Folder) -> Result<Output, Failure> {
    let prescription = source::find(arguments.prescription.as_deref(), || Ok(folder.clone()))?.prescription;
    let known = standing::known(&Journal::look(folder)?)?;
    let now = moment(arguments.on, &Clock::real().wall());
    let (day, next) = (now.date(), known.next(&prescription, &now));
    let program = Program::new(&known.past, &prescription);
    let due = program.due(day, now.timestamp());
    let month = program.month(day);
    let (week, weeks) = (program.week(day), program.weeks());
    // Today's own practice counts, once it is done.
    let done_this_week = program.done_this_week(day.saturating_add(1.days()));
    match arguments.format {
        Format::Text => {
            let days = prescription.days_a_week();
            let place = if program.is_over(day) {
                match weeks {
                    1 => "The program's 1 week has passed.".to_owned(),
                    weeks => format!("The program's {weeks} weeks have passed."),
                }
            } else {
                let days = counted(days, "day");
                format!("Week {week} of {weeks}, {days} a week, {done_this_week} done.")
            };
            let said = match next.decision {
                Decision::Up | Decision::Hold | Decision::Down if matches!(due, Due::Finish { .. }) => {
                    "The interrupted practice can be finished now.".to_owned()
                }
                Decision::Up | Decision::Hold | Decision::Down => "Practice is due.".to_owned(),
                _ => next.reasons.first().map(ToString::to_string).unwrap_or_default(),
            };
            let mut page: Vec<Block> = [prescription.title(), &place, &said].map(Block::line).into();
            page.extend([Block::Gap, Block::verbatim(&month.to_string())]);
            page.extend([caution::FIRST, caution::NO_PROMISE].map(Block::line));
            Ok(page.into())
        }
        Format::Json => {
            let days = |mark| month.days().filter(|(_, other)| *other == mark).map(|(day, _)| day).collect();
            let answer = Answer {
                schema: "counterpoise.program/1",
                on: day,
                began: program.began(),
                week,
                weeks,
                days_a_week: prescription.days_a_week(),
                done_this_week,
                due: match (next.decision, due) {
                    (Decision::Locked, _) => "locked",
                    (_, Due::ClockBack { .. }) => "clock set back",
                    (Decision::Rest, Due::Done { .. }) => "done",
                    (Decision::Rest, _) => "rest",
                    (_, Due::Today) => "due",
                    (_, Due::Finish { .. }) => "finish",
                    (_, Due::Done { .. }) => "done",
                    (_, Due::Free { .. }) => "free",
                    (_, Due::Rest { .. }) => "week done",
                },
                next_day: next.next_day,
                done: days(Mark::Done),
                planned: days(Mark::Planned),
            };
            Output::json(&answer)
        }
    }
}
