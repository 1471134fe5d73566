//! Turns a typed line into a value: an exact decimal number, a date, or entries of a list; or says why it cannot.

use jiff::civil::Date;
use thiserror::Error;

use crate::plan::prescription::field::{Field, Kind, Value};
use crate::plan::prescription::limits::Unit;

/// Why a line is not understood, before the gate is asked.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum InputError {
    /// Not a number.
    #[error("\"{0}\" is not a number")]
    Number(String),
    /// More decimals than are kept.
    #[error("\"{0}\" has too many decimals")]
    TooFine(String),
    /// Not the pair that is asked for.
    #[error("\"{0}\" is not two numbers")]
    Pair(String),
    /// Not a date.
    #[error("\"{0}\" is not a date")]
    Date(String),
    /// Not one of the choices on the page.
    #[error("\"{0}\" is not one of the choices here")]
    Choice(String),
    /// Neither yes nor no.
    #[error("\"{0}\" is not yes or no")]
    YesOrNo(String),
    /// Nothing was typed where something is needed.
    #[error("nothing was typed, but this needs an answer")]
    Nothing,
}

impl InputError {
    /// What to type.
    pub const fn hint(&self) -> &'static str {
        match self {
            Self::Number(_) => "Type a number, such as 3 or 7.5.",
            Self::TooFine(_) => "Use at most three decimals, or one for a percentage.",
            Self::Pair(_) => "Type the smaller one and then the larger one, such as 5 15.",
            Self::Date(_) => "Type year-month-day, such as 2026-11-02, or the word today.",
            Self::Choice(_) => "Type a number from the list.",
            Self::YesOrNo(_) => "Type yes or no.",
            Self::Nothing => "Type an answer, or B to go back.",
        }
    }
}

/// A value, or why the line is not understood.
pub(super) type Parsed<T> = Result<T, InputError>;

/// The value that a line gives to a field; `None` if it clears it. `options` is what can be chosen.
pub(super) fn typed(field: &Field, line: &str, today: Date, options: &[&str]) -> Parsed<Option<Value>> {
    if is_word(line, field.clears) || (!field.clears.is_empty() && text(line).is_empty()) {
        return Ok(None);
    }
    let number = |word: &str| match field.unit() {
        Unit::Count => count(word),
        Unit::Millis => millis(word),
        Unit::PerMille => tenths(word),
        Unit::Thousandths => decimal(word.trim(), 3),
    };
    Ok(Some(match field.kind {
        Kind::Text if !options.is_empty() => Value::Text(options[numbered(line, options.len())?].to_owned()),
        Kind::Date => Value::Date(date(line, today)?),
        Kind::Boolean => Value::Boolean(yes(line)?),
        Kind::Integer => Value::Integer(number(line)?),
        Kind::Integers if field.pair.is_empty() => Value::Integers(numbers(line)?),
        Kind::Integers => Value::Integers(match numbers(line).unwrap_or_default()[..] {
            // One number of the scale stands for both.
            [only] if field.unit() == Unit::Count => vec![only, only],
            _ => pair(line, number)?.to_vec(),
        }),
        Kind::Texts => Value::Texts(chosen(line, options)?),
        Kind::Text | Kind::Section | Kind::Sections => Value::Text(text(line)),
    }))
}

pub(super) fn yes(line: &str) -> Parsed<bool> {
    match line.to_lowercase().as_str() {
        "y" | "yes" => Ok(true),
        "n" | "no" | "" => Ok(false),
        _ => Err(InputError::YesOrNo(line.to_owned())),
    }
}

fn is_word(line: &str, words: &[&str]) -> bool {
    words.contains(&line.to_lowercase().as_str())
}

/// What was typed; quotation marks around it are for what would otherwise be a word of the form.
pub(super) fn text(line: &str) -> String {
    let inner = line.strip_prefix('"').and_then(|line| line.strip_suffix('"'));
    inner.unwrap_or(line).trim().to_owned()
}

/// The text, or `None` for `-`, `none` and `no`, which clear it.
pub(super) fn or_none(line: &str) -> Option<String> {
    let text = text(line);
    (!text.is_empty() && !is_word(line, &["-", "none", "no"])).then_some(text)
}

pub(super) fn date(line: &str, today: Date) -> Parsed<Date> {
    if is_word(line, &["today"]) {
        return Ok(today);
    }
    line.parse().map_err(|_| InputError::Date(line.to_owned()))
}

/// The place, from 0, of a number from 1 to `many`.
pub(super) fn numbered(line: &str, many: usize) -> Parsed<usize> {
    let number: Option<usize> = line.trim().parse().ok();
    let place = number.and_then(|number| number.checked_sub(1)).filter(|place| *place < many);
    place.ok_or_else(|| InputError::Choice(line.to_owned()))
}

/// Entries by their numbers or names: `1 2 5`, `left, right`, `all`.
fn chosen(line: &str, names: &[&str]) -> Parsed<Vec<String>> {
    if is_word(line, &["all"]) {
        return Ok(names.iter().map(|name| (*name).to_owned()).collect());
    }
    let by_name = || {
        let entry = |word: &str| names.iter().find(|name| **name == word.trim().to_lowercase());
        line.split(',').map(|word| entry(word).map(|name| (*name).to_owned())).collect::<Option<Vec<_>>>()
    };
    if let Some(named) = by_name() {
        return Ok(named);
    }
    let words = line.split([',', ' ']).filter(|word| !word.is_empty());
    words.map(|word| Ok(names[numbered(word, names.len())?].to_owned())).collect()
}

/// `value` times ten to the power of `places`, exactly; a number too large for anything becomes the largest there is,
/// which the gate refuses.
fn decimal(word: &str, places: usize) -> Parsed<i64> {
    let no_number = || InputError::Number(word.to_owned());
    let (sign, digits) = word.strip_prefix('-').map_or((1, word), |digits| (-1, digits));
    let (whole, fraction) = digits.split_once('.').unwrap_or((digits, ""));
    let all_digits = |text: &str| text.bytes().all(|byte| byte.is_ascii_digit());
    if (whole.is_empty() && fraction.is_empty()) || !all_digits(whole) || !all_digits(fraction) {
        return Err(no_number());
    }
    let fraction = fraction.trim_end_matches('0');
    if fraction.len() > places {
        return Err(InputError::TooFine(word.to_owned()));
    }
    let written = format!("{whole}{fraction:0<places$}");
    Ok(sign * written.parse::<i64>().unwrap_or(i64::from(u32::MAX)))
}

fn count(line: &str) -> Parsed<i64> {
    decimal(line.trim(), 0).map_err(|error| match error {
        InputError::TooFine(word) => InputError::Number(word),
        other => other,
    })
}

/// Seconds, or minutes with `min` behind them.
fn millis(line: &str) -> Parsed<i64> {
    let line = line.trim().to_lowercase();
    for (unit, times) in [("min", 60), ("m", 60), ("sec", 1), ("s", 1)] {
        if let Some(number) = line.strip_suffix(unit) {
            return Ok(decimal(number.trim(), 3)?.saturating_mul(times));
        }
    }
    decimal(&line, 3)
}

/// Percent, as thousandths.
fn tenths(line: &str) -> Parsed<i64> {
    decimal(line.trim().trim_end_matches('%').trim(), 1)
}

fn numbers(line: &str) -> Parsed<Vec<i64>> {
    line.split([',', ' ']).filter(|word| !word.is_empty()).map(count).collect()
}

/// `5 15`, `5 to 15`, `5-15`.
fn pair(line: &str, read: impl Fn(&str) -> Parsed<i64>) -> Parsed<[i64; 2]> {
    let line = line.to_lowercase().replace(" to ", " ").replace(" s", "s");
    let words: Vec<&str> = line.split([',', ' ', '-']).filter(|word| !word.is_empty()).collect();
    match words[..] {
        [low, high] => Ok([read(low)?, read(high)?]),
        _ => Err(InputError::Pair(line)),
    }
}

#[cfg(test)]
mod test {
    use super::*;

    #[test]
    fn numbers_are_read_exactly_or_not_at_all() {
        for (typed, ms) in [
            ("60", 60_000),
            ("7.5", 7_500),
            ("1 min", 60_000),
            ("0.001", 1),
            ("5s", 5_000),
            (".5", 500),
            ("-1", -1_000),
        ] {
            assert_eq!(millis(typed), Ok(ms), "{typed}");
        }
        assert_eq!(millis("7.5005"), Err(InputError::TooFine("7.5005".into())));
        for wrong in ["", ".", "one", "1e3", "--1", "1.2.3", "∞", "NaN"] {
            assert!(millis(wrong).is_err(), "{wrong}");
        }
        assert_eq!(
            count("99999999999999999999999"),
            Ok(i64::from(u32::MAX)),
            "far too large, for the gate to refuse"
        );
        assert_eq!(tenths("12.5 %"), Ok(125));
        for typed in ["5 15", "5 to 15", "5-15", "5, 15", "5 s to 15 s"] {
            assert_eq!(pair(typed, millis), Ok([5_000, 15_000]), "{typed}");
        }
    }

    #[test]
    fn entries_are_chosen_by_number_or_name() {
        let names = ["left", "forward left", "up"];
        for typed in ["1 2", "1,2", "left, forward left"] {
            assert_eq!(chosen(typed, &names).unwrap(), ["left", "forward left"], "{typed}");
        }
        assert_eq!(chosen("all", &names).unwrap().len(), 3);
        assert!(
            chosen("4", &names).is_err()
                && chosen("0", &names).is_err()
                && chosen("left, down", &names).is_err()
        );
    }
}
