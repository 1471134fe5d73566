//! Which day a practice from a sheet was on: one that has come, not long ago, and has no practice yet.

use std::io::{BufRead, Write};

use jiff::ZonedDateTime;
use jiff::civil::Date;

use super::spelled;
use crate::cli::Failure;
use crate::cli::form::Form;
use counterpoise_core::course::past::{Past, Sitting};
use counterpoise_core::course::program::days_between;

/// Up to so many days ago nothing is asked about a date \[judgment: a sheet is for a week, and lies for a few\].
const SURE: i32 = 31;
/// From more days ago nothing is typed in \[judgment: nobody remembers, and it is most likely a slip\].
const LONGEST: i32 = 366;

impl<R: BufRead, W: Write> Form<R, W> {
    /// The day. Its hour is not asked: a sheet has none.
    pub(super) fn day(&mut self, past: &Past, now: &ZonedDateTime) -> Result<Date, Failure> {
        let today = now.date();
        loop {
            let ask = "On which day? T for today, 1 for yesterday, 2 for the day before and so on, or the date, such as 2026-11-02.";
            let typed = self.line(ask)?;
            let Some(day) = read(&typed, today) else {
                self.refuse(&format!("\"{typed}\" is no day"))?;
                continue;
            };
            let ago = days_between(day, today);
            if ago < 0 {
                self.refuse(&format!("{day} lies ahead: today is {today}"))?;
            } else if ago > LONGEST {
                self.refuse(&format!(
                    "{day} is more than a year ago; the journal takes in what was done since"
                ))?;
            } else if (ago <= SURE
                || self.yes(&format!("That is {}, {ago} days ago. Is that right?", spelled(day)))?)
                && self.is_another(past, day)?
            {
                return Ok(day);
            }
        }
    }

    /// Whether the day has no practice yet, or this one is another than those that it has.
    fn is_another(&mut self, past: &Past, day: Date) -> Result<bool, Failure> {
        let of_day = |sitting: &Sitting<'_>| sitting.day() == day;
        let sittings = past.sittings();
        let Some(sitting) = sittings.iter().find(|sitting| of_day(sitting)) else { return Ok(true) };
        let by_hand = if sitting.first().by_hand { ", typed in by hand" } else { "" };
        let done = sitting.done().len();
        loop {
            let ask = format!(
                "{} has a practice already: {done} of {} sets done whole{by_hand}. Is it the same one, or another? (S the same, \
                 A another one)",
                spelled(day),
                sitting.planned(),
            );
            match self.line(&ask)?.to_lowercase().as_str() {
                "s" => {
                    return Err(Failure::new(
                        format!("{day} has that practice already, so nothing was kept"),
                        "If something in it is wrong: counterpoise journal correct",
                    ));
                }
                "a" => {
                    self.say(
                        "  Both are kept then. Practice once a day at most: a second one counts toward no step up.",
                    )?;
                    return Ok(true);
                }
                other => self.refuse(&format!("\"{other}\" is neither S nor A"))?,
            }
        }
    }
}

/// A day as it is typed.
fn read(typed: &str, today: Date) -> Option<Date> {
    if typed.eq_ignore_ascii_case("t") {
        return Some(today);
    }
    match typed.parse::<u16>() {
        Ok(ago) if ago > 0 && i32::from(ago) <= LONGEST => {
            today.checked_sub(jiff::Span::new().days(i64::from(ago))).ok()
        }
        _ => typed.parse().ok(),
    }
}
