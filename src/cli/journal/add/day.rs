//! On which day was a practice from a sheet? Not in the future, not long ago, and a day without a practice yet.

use std::io::{BufRead, Write};

use jiff::ZonedDateTime;
use jiff::civil::Date;

use super::spelled;
use crate::cli::Failure;
use crate::cli::form::Form;
use counterpoise_core::course::past::{Past, Sitting};
use counterpoise_core::course::program::days_between;
use counterpoise_core::words::counted;

/// Up to so many days ago, a date needs no confirmation \[judgment: a sheet is for a week, and waits for a few\].
const SURE: i32 = 31;
/// More days ago, a date is refused \[judgment: nobody remembers, and it is most likely a typing error\].
const LONGEST: i32 = 366;

impl<R: BufRead, W: Write> Form<R, W> {
    /// Asks for the day. The hour is not asked, since a sheet does not have it.
    pub(super) fn day(&mut self, past: &Past, now: &ZonedDateTime) -> Result<Date, Failure> {
        let today = now.date();
        loop {
            let ask = "On which day? T for today, 1 for yesterday, 2 for the day before and so on, or the date, such as 2026-11-02.";
            let typed = self.line(ask)?;
            let Some(day) = read(&typed, today) else {
                self.refuse(&format!("\"{typed}\" is not a day"))?;
                continue;
            };
            let ago = days_between(day, today);
            if ago < 0 {
                self.refuse(&format!("{day} is in the future: today is {today}"))?;
            } else if ago > LONGEST {
                self.refuse(&format!("{day} is more than a year ago; only the last year can be typed in"))?;
            } else if (ago <= SURE
                || self.yes(&format!("That is {}, {ago} days ago. Is that right?", spelled(day)))?)
                && self.is_another(past, day)?
            {
                return Ok(day);
            }
        }
    }

    /// Whether the day has no practice yet, or this is a different one.
    fn is_another(&mut self, past: &Past, day: Date) -> Result<bool, Failure> {
        let of_day = |sitting: &Sitting<'_>| sitting.day() == day;
        let sittings = past.sittings();
        let Some(sitting) = sittings.iter().find(|sitting| of_day(sitting)) else { return Ok(true) };
        let by_hand = if sitting.first().by_hand { ", typed in by hand" } else { "" };
        let done = sitting.done().len();
        loop {
            let ask = format!(
                "{} already has a practice: {done} of {} completed{by_hand}. Is this the same one or another? (S the same, A \
                 another one)",
                spelled(day),
                counted(sitting.planned(), "set"),
            );
            match self.line(&ask)?.to_lowercase().as_str() {
                "s" => {
                    return Err(Failure::new(
                        format!("{day} already has that practice, so nothing was saved"),
                        "To correct something in it: counterpoise journal correct",
                    ));
                }
                "a" => {
                    self.add(
                        "Then both are saved. Practice at most once a day: a second practice does not count toward a step up.",
                    )?;
                    return Ok(true);
                }
                other => self.refuse(&format!("\"{other}\" is neither S nor A"))?,
            }
        }
    }
}

/// Reads a day as typed.
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
