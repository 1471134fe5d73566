//! A month as plain text: which days were practiced, and which are planned. Missed days are not marked, so they count
//! against nobody.

use std::fmt;

use jiff::civil::{Date, Weekday};

/// How a day is marked.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mark {
    /// Neither practiced nor planned.
    None,
    /// There was practice.
    Done,
    /// Practice is planned.
    Planned,
}

/// One month, weeks from Sunday on.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Month {
    today: Date,
    marks: Vec<Mark>,
}

impl Month {
    /// The month of `today`, each day marked by `mark`.
    pub fn new(today: Date, mark: impl Fn(Date) -> Mark) -> Self {
        let first = today.first_of_month();
        let days = first.series(jiff::Span::new().days(1)).take(first.days_in_month() as usize);
        Self { today, marks: days.map(mark).collect() }
    }

    /// Its days with their marks.
    pub fn days(&self) -> impl Iterator<Item = (Date, Mark)> {
        let first = self.today.first_of_month();
        first.series(jiff::Span::new().days(1)).zip(self.marks.iter().copied())
    }
}

impl fmt::Display for Month {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(f, "{}", self.today.strftime("%B %Y"))?;
        writeln!(f, "  Sun   Mon   Tue   Wed   Thu   Fri   Sat")?;
        let before = self.today.first_of_month().weekday().to_sunday_zero_offset();
        let mut line = "      ".repeat(before as usize);
        for (day, mark) in self.days() {
            let number =
                if day == self.today { format!("[{}]", day.day()) } else { format!("{} ", day.day()) };
            let letter = match mark {
                Mark::None => ' ',
                Mark::Done => 'x',
                Mark::Planned => 'o',
            };
            line.push_str(&format!("{number:>5}{letter}"));
            if day.weekday() == Weekday::Saturday || day == self.today.last_of_month() {
                writeln!(f, "{}", line.trim_end())?;
                line.clear();
            }
        }
        write!(f, "x practiced   o planned   [ ] today")
    }
}
