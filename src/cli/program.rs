//! The `program` command: which week is it, what is due, and what does the month look like?

use jiff::ToSpan;
use jiff::civil::Date;
use serde::Serialize;

use super::page::Output;
use super::standing::{self, Position};
use super::{Failure, Format, source};
use crate::clock::Clock;
use crate::journal::{Folder, Journal};
use counterpoise_core::blocks::Block;
use counterpoise_core::course::program::{Mark, Program, moment};
use counterpoise_core::course::standing::State;
use counterpoise_core::plan::caution::{self, Contents, Surface};
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
    state: &'static str,
    due: &'static str,
    next_day: Option<Date>,
    done: Vec<Date>,
    planned: Vec<Date>,
}

pub(super) fn run(arguments: &Arguments, folder: &Folder) -> Result<Output, Failure> {
    let prescription = source::for_person(arguments.prescription.as_deref(), folder)?.prescription;
    let known = standing::known(&Journal::look(folder)?)?;
    let now = moment(arguments.on, &Clock::real().wall());
    let day = now.date();
    let position = Position::of(folder, &known, &prescription, arguments.prescription.as_deref(), &now)?;
    let state = position.standing.state();
    let program = Program::new(&known.past, &prescription);
    // Under a lock no day is planned, neither on the page nor in the calendar.
    let month = program.month(day, state.is_next_known());
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
            let mut page: Vec<Block> = [prescription.title(), &place].map(Block::line).into();
            page.extend(position.lines().into_iter().map(Block::line));
            page.extend([Block::Gap, Block::verbatim(&month.to_string())]);
            page.extend(caution::blocks(Surface::Program, Contents::Of(&prescription)));
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
                state: state.name(),
                due: match state {
                    State::EmergencyLock | State::Locked => "locked",
                    State::Hold | State::NotToday | State::GoingOn | State::ToAnswer => "rest",
                    State::WrongDate => "clock set back",
                    State::DoneToday => "done",
                    State::WeekDone => "week done",
                    State::RestDay => "free",
                    State::ToFinish => "finish",
                    State::Due => "due",
                },
                next_day: position.standing.next_day(),
                done: days(Mark::Done),
                planned: days(Mark::Planned),
            };
            Output::json_of(&answer, Surface::Program, Contents::Of(&prescription))
        }
    }
}
