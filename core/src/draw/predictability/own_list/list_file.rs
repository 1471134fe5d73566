//! A plain list of directions, as people write it.
//!
//! One call a line, or several on a line with commas between them. A call may have its time in front: seconds (`12.5`,
//! `12.5 s`) or minutes and seconds (`1:07`). A number with a point or bracket (`3.`, `3)`) is only a number in the
//! list. Capitals and spaces make no difference; what follows `#` is a note. A direction may have any name.

use crate::units::Millis;

/// The most calls of a list.
const MOST_CALLS: usize = 100_000;
/// The most names of directions \[judgment: more are slips of the pen\].
const MOST_NAMES: usize = 20;
/// The most characters of a name.
const NAME_CHARACTERS: usize = 30;

/// A list that was read: at least two calls, over one to 20 names.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct List {
    names: Vec<Name>,
    symbols: Vec<u8>,
    times: Vec<Millis>,
}

/// A name in a list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Name {
    /// As it is written, in small letters.
    pub words: String,
    /// How often it comes.
    pub count: usize,
    /// The line where it first appears.
    pub line: usize,
}

/// Why a list cannot be judged.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum ListError {
    /// Fewer than two calls.
    #[error("the list has {}; it needs at least 2", if *calls == 1 { "only 1 call" } else { "no calls" })]
    TooShort {
        /// How many calls it has.
        calls: usize,
    },
    /// More calls than are taken in.
    #[error("the list has more than {MOST_CALLS} calls (line {line})")]
    TooLong {
        /// The line of the first call over the limit.
        line: usize,
    },
    /// More names than are taken in.
    #[error(
        "the list has more than {MOST_NAMES} different directions; `{name}` is one too many (line {line})"
    )]
    TooManyNames {
        /// The name over the limit.
        name: String,
        /// The line where it appears.
        line: usize,
    },
    /// A name that is too long to be one.
    #[error("`{name}` is too long for a direction: at most {NAME_CHARACTERS} characters (line {line})")]
    LongName {
        /// The first characters of the name.
        name: String,
        /// The line where it appears.
        line: usize,
    },
    /// A time without a direction.
    #[error("line {line} has a time but no direction")]
    NoDirection {
        /// The line in the list.
        line: usize,
    },
    /// A time that does not come after the one before.
    #[error("the time {time} does not come after the one before it, {before} (line {line})")]
    Backward {
        /// The time that is too early.
        time: Millis,
        /// The time before it.
        before: Millis,
        /// The line in the list.
        line: usize,
    },
    /// Some calls have a time and some have not.
    #[error("some calls have a time and others do not (line {line})")]
    SomeTimes {
        /// The line of the first call that differs.
        line: usize,
    },
}

impl ListError {
    /// What to try, as a lower-case phrase.
    pub fn hint(&self) -> &'static str {
        match self {
            Self::TooShort { .. } => {
                "write one direction on each line, such as \"left\", or several with commas between them"
            }
            Self::TooLong { .. } => "shorten it; part of the list shows as much",
            Self::TooManyNames { .. } => "spell each direction the same way throughout",
            Self::LongName { .. } => {
                "write one direction on each line, or put commas between directions; notes follow #"
            }
            Self::NoDirection { .. } => "write the direction after its time, such as \"12.5 left\"",
            Self::Backward { .. } => {
                "write each time in seconds from the start of the list, or remove all times"
            }
            Self::SomeTimes { .. } => "give every call a time, or remove all times",
        }
    }
}

impl List {
    /// Reads a list.
    ///
    /// # Errors
    /// If there are too few calls or too many, or a line is not understood.
    ///
    /// ```
    /// use counterpoise_core::draw::predictability::List;
    /// let list = List::read("left, right, Left\n# a pause\nforward  left\n").unwrap();
    /// assert_eq!(list.symbols(), [0, 1, 0, 2]);
    /// let timed = List::read("1) 0:05 left\n2) 0:11.5 right\n").unwrap();
    /// assert_eq!(timed.waits().unwrap()[0].0, 6_500);
    /// ```
    pub fn read(text: &str) -> Result<Self, ListError> {
        let mut list = Self { names: Vec::new(), symbols: Vec::new(), times: Vec::new() };
        for (line, text) in (1..).zip(text.trim_start_matches('\u{feff}').lines()) {
            let text = text.split('#').next().unwrap_or_default();
            let (time, text) = leading_time(without_number(text.trim()));
            let mut calls = text.split([',', ';', '\t']).map(str::trim).filter(|call| !call.is_empty());
            match (time, calls.next()) {
                (Some(_), None) => return Err(ListError::NoDirection { line }),
                (None, None) => {}
                (time, Some(first)) => {
                    list.add(time, first, line)?;
                    for call in calls {
                        list.add(None, call, line)?;
                    }
                }
            }
        }
        match list.symbols.len() {
            calls @ 0..2 => Err(ListError::TooShort { calls }),
            _ => Ok(list),
        }
    }

    fn add(&mut self, time: Option<Millis>, call: &str, line: usize) -> Result<(), ListError> {
        let words = call.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase();
        if words.chars().count() > NAME_CHARACTERS {
            let name = words.chars().take(NAME_CHARACTERS).collect();
            return Err(ListError::LongName { name, line });
        }
        if self.symbols.len() == MOST_CALLS {
            return Err(ListError::TooLong { line });
        }
        if !self.symbols.is_empty() && time.is_some() == self.times.is_empty() {
            return Err(ListError::SomeTimes { line });
        }
        if let Some(time) = time {
            if let Some(&before) = self.times.last()
                && time <= before
            {
                return Err(ListError::Backward { time, before, line });
            }
            self.times.push(time);
        }
        let place = match self.names.iter().position(|name| name.words == words) {
            Some(place) => place,
            None if self.names.len() == MOST_NAMES => {
                return Err(ListError::TooManyNames { name: words, line });
            }
            None => {
                self.names.push(Name { words, count: 0, line });
                self.names.len() - 1
            }
        };
        self.names[place].count += 1;
        self.symbols.push(place as u8);
        Ok(())
    }

    /// The names, in the order in which they come.
    pub fn names(&self) -> &[Name] {
        &self.names
    }

    /// Each call, as its place among the names.
    pub fn symbols(&self) -> &[u8] {
        &self.symbols
    }

    /// The time from each call to the next, if the list has times.
    pub fn waits(&self) -> Option<Vec<Millis>> {
        (!self.times.is_empty()).then(|| self.times.windows(2).map(|pair| pair[1] - pair[0]).collect())
    }
}

/// Without the number of the entry in front: `3.` or `3)`.
fn without_number(text: &str) -> &str {
    let digits = text.chars().take_while(char::is_ascii_digit).count();
    let rest = &text[digits..];
    let marked = rest.strip_prefix(')').or_else(|| {
        rest.strip_prefix('.').filter(|rest| rest.is_empty() || rest.starts_with(char::is_whitespace))
    });
    match marked {
        Some(rest) if digits > 0 => rest.trim_start(),
        _ => text,
    }
}

/// The time in front, if there is one, and what follows it.
fn leading_time(text: &str) -> (Option<Millis>, &str) {
    let end =
        text.find(|sign: char| !(sign.is_ascii_digit() || sign == '.' || sign == ':')).unwrap_or(text.len());
    let (time, mut rest) = text.split_at(end);
    let Some(time) = seconds(time) else { return (None, text) };
    // A unit may follow: `12.5 s left`, `12.5s left`.
    let unit = rest.trim_start();
    if let Some(after) = unit.strip_prefix('s')
        && !after.starts_with(char::is_alphabetic)
    {
        rest = after;
    }
    (Some(time), rest.trim_start_matches(|sign: char| sign.is_whitespace() || sign == ',' || sign == ';'))
}

/// `12`, `12.5`, `1:07`, `1:02:03.25`.
fn seconds(text: &str) -> Option<Millis> {
    let mut total = 0.0;
    for part in text.split(':') {
        if !part.starts_with(|sign: char| sign.is_ascii_digit()) {
            return None;
        }
        total = total * 60.0 + part.parse::<f64>().ok()?;
    }
    (total < 4_000_000.0).then_some(Millis((total * 1000.0).round() as u32))
}
