//! What a balance test's result is worth: on the worse side of a published cut-off, not so, or without a norm; and whether a
//! change is larger than the noise of the test. It never predicts falls. How a test is run is in `practice::guide`.

use std::fmt;
use std::str::FromStr;

use crate::plan::precaution::{Precaution, Precautions};
use crate::words;

mod comparison;
mod tables;

pub use comparison::{Dated, RETEST_WEEKS, Trend, retest_from, tests_below_cut_off};
pub use tables::{NO_SINGLE_TEST, Source};

/// A test that a person can do at home or a therapist can do.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Test {
    /// Feet side by side, half a foot ahead, heel to toe, one leg: up to 10 s each. The result is how long heel to toe
    /// was held.
    FourStage,
    /// How long one leg is stood on, eyes open.
    OneLeg,
    /// How often somebody stands up from a chair in 30 s, arms crossed.
    ChairStand,
    /// Up from a chair, 3 m, around, back, and down.
    TimedUpAndGo,
    /// How long five rises from a chair take, arms crossed.
    FiveRises,
}

/// Whether a result is on the worse side of a published cut-off.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Verdict {
    /// On the worse side.
    Below,
    /// On the better side, or at it where the source has it so.
    NotBelow,
    /// The source has no value for this age.
    NoNorm,
}

/// The sex for which a table has its columns.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Sex {
    /// Female.
    Female,
    /// Male.
    Male,
}

/// Who was there during a test.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Company {
    /// Alone: the program counted, and the last number heard was keyed in.
    Alone,
    /// Somebody else held the key.
    WithSomebody,
    /// Elsewhere, and typed in.
    Elsewhere,
}

words! {
    Test {
        FourStage => "four-stage",
        OneLeg => "one-leg",
        ChairStand => "chair-stand",
        TimedUpAndGo => "timed-up-and-go",
        FiveRises => "five-rises",
    }
    Verdict {
        Below => "below",
        NotBelow => "not below",
        NoNorm => "no published norm",
    }
    Sex {
        Female => "female",
        Male => "male",
    }
    Company {
        Alone => "alone",
        WithSomebody => "with somebody",
        Elsewhere => "elsewhere",
    }
}

/// What a result counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unit {
    /// Tenths of a second.
    Tenths,
    /// Whole rises from a chair.
    Rises,
}

/// An age in whole years, 18 to 120.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Age(u8);

/// A test's result: within what the test can give, or "unable".
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Reading {
    test: Test,
    value: Option<u32>,
}

/// Why something is no result or no age.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum ReadingError {
    /// Not a number, or with more than one decimal.
    #[error("\"{written}\" is not a valid result for {}: give {}", test.title(), test.expected_input())]
    Form {
        /// The test that the result is for.
        test: Test,
        /// What was written.
        written: String,
    },
    /// Outside what the test can give.
    #[error("{written} is out of range for {}: give {}", test.title(), test.expected_input())]
    Range {
        /// The test that the result is for.
        test: Test,
        /// What was written.
        written: String,
    },
    /// The text is not an age from 18 to 120.
    #[error("\"{written}\" is not an age in whole years from 18 to 120")]
    Age {
        /// What was written.
        written: String,
    },
}

impl Test {
    /// How people call it.
    pub const fn title(self) -> &'static str {
        match self {
            Self::FourStage => "the 4-Stage Balance Test",
            Self::OneLeg => "standing on one leg",
            Self::ChairStand => "the 30-Second Chair Stand",
            Self::TimedUpAndGo => "the Timed Up and Go",
            Self::FiveRises => "five rises from a chair",
        }
    }

    /// What its result counts.
    pub const fn unit(self) -> Unit {
        match self {
            Self::ChairStand => Unit::Rises,
            Self::FourStage | Self::OneLeg | Self::TimedUpAndGo | Self::FiveRises => Unit::Tenths,
        }
    }

    /// The least and the most that it can give, in its unit \[judgment\]; the four stages end at 10 s (CDC).
    pub const fn range(self) -> (u32, u32) {
        match self {
            Self::FourStage => (0, 100),
            Self::OneLeg => (0, 3_000),
            Self::ChairStand => (0, 60),
            Self::TimedUpAndGo | Self::FiveRises => (10, 6_000),
        }
    }

    /// Whether a larger result is the better one.
    pub const fn more_is_better(self) -> bool {
        matches!(self, Self::FourStage | Self::OneLeg | Self::ChairStand)
    }

    /// Whether a helper must press the key: nobody can do so while walking or rising for time.
    pub const fn needs_helper(self) -> bool {
        matches!(self, Self::TimedUpAndGo | Self::FiveRises)
    }

    /// The precautions that rule it out: stages with one foot ahead and on one leg load each leg in turn, rises are done with
    /// the arms crossed and bend the trunk, and the timed walk turns around \[judgment\].
    pub const fn ruled_out_by(self) -> Precautions {
        use Precaution as P;
        match self {
            Self::FourStage | Self::OneLeg => {
                Precautions::of(&[P::NoLeftStep, P::NoRightStep, P::NoLeftWeight, P::NoRightWeight])
            }
            Self::ChairStand | Self::FiveRises => {
                Precautions::of(&[P::LeftArmDown, P::RightArmDown, P::NoBending])
            }
            Self::TimedUpAndGo => Precautions::of(&[
                P::NoLeftStep,
                P::NoRightStep,
                P::NoLeftWeight,
                P::NoRightWeight,
                P::NoHeadTurns,
                P::NoBending,
            ]),
        }
    }

    /// What a result looks like.
    pub const fn expected_input(self) -> &'static str {
        match self {
            Self::FourStage => "seconds held heel to toe, 0 to 10, such as 9.4, or unable",
            Self::OneLeg => "seconds, 0 to 300, such as 9.4, or unable",
            Self::ChairStand => {
                "rises in 30 seconds, 0 to 60, such as 11 (0 if the arms were used), or unable"
            }
            Self::TimedUpAndGo | Self::FiveRises => "seconds, 1 to 600, such as 11.8, or unable",
        }
    }
}

impl Age {
    /// The age in years.
    pub const fn years(self) -> u8 {
        self.0
    }
}

impl TryFrom<u8> for Age {
    type Error = ReadingError;

    fn try_from(years: u8) -> Result<Self, ReadingError> {
        let is_age = (18..=120).contains(&years);
        if is_age { Ok(Self(years)) } else { Err(ReadingError::Age { written: years.to_string() }) }
    }
}

impl FromStr for Age {
    type Err = ReadingError;

    fn from_str(written: &str) -> Result<Self, ReadingError> {
        let refuse = |_| ReadingError::Age { written: written.to_owned() };
        written.parse::<u8>().map_err(refuse)?.try_into()
    }
}

impl Reading {
    /// The result in its test's unit; `None` is "unable".
    ///
    /// # Errors
    /// If the test cannot give it.
    pub fn new(test: Test, value: Option<u32>) -> Result<Self, ReadingError> {
        let (least, most) = test.range();
        match value {
            Some(value) if !(least..=most).contains(&value) => {
                Err(ReadingError::Range { test, written: with_unit(test, value) })
            }
            value => Ok(Self { test, value }),
        }
    }

    /// Reads "9.4", "11" or "unable".
    ///
    /// ```
    /// use counterpoise_core::health::assessment::{Reading, Test};
    /// let held = Reading::read(Test::FourStage, "9.4")?;
    /// assert_eq!((held.value(), held.to_string()), (Some(94), "9.4 s".to_owned()));
    /// assert!(Reading::read(Test::FourStage, "10.1").is_err(), "the test ends at 10 s");
    /// assert!(Reading::read(Test::ChairStand, "9.4").is_err(), "rises are counted");
    /// # Ok::<(), counterpoise_core::health::assessment::ReadingError>(())
    /// ```
    ///
    /// # Errors
    /// If the text has another form, or the test cannot give that result.
    pub fn read(test: Test, written: &str) -> Result<Self, ReadingError> {
        let written = written.trim();
        if written == "unable" {
            return Ok(Self { test, value: None });
        }
        let form = || ReadingError::Form { test, written: written.to_owned() };
        let digits =
            |text: &str| !text.is_empty() && text.len() <= 4 && text.bytes().all(|b| b.is_ascii_digit());
        let number = |text: &str| {
            if digits(text) { text.parse::<u32>().map_err(|_| form()) } else { Err(form()) }
        };
        let value = match (test.unit(), written.split_once('.')) {
            (Unit::Rises, None) => number(written)?,
            (Unit::Tenths, None) => number(written)? * 10,
            (Unit::Tenths, Some((whole, tenth))) if tenth.len() == 1 => number(whole)? * 10 + number(tenth)?,
            _ => return Err(form()),
        };
        Self::new(test, Some(value)).map_err(|_| ReadingError::Range { test, written: written.to_owned() })
    }

    /// The test that gave the result.
    pub const fn test(self) -> Test {
        self.test
    }

    /// The value in the test's unit; `None` is "unable".
    pub const fn value(self) -> Option<u32> {
        self.value
    }
}

/// The value with its unit.
fn with_unit(test: Test, value: u32) -> String {
    match test.unit() {
        Unit::Tenths => format!("{}.{} s", value / 10, value % 10),
        Unit::Rises if value == 1 => "1 rise".to_owned(),
        Unit::Rises => format!("{value} rises"),
    }
}

impl fmt::Display for Reading {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.value {
            Some(value) => f.write_str(&with_unit(self.test, value)),
            None => f.write_str("unable"),
        }
    }
}

/// What a result means, by the published tables.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Finding {
    /// Below, not below, or no norm.
    pub verdict: Verdict,
    /// The cut-off, in the test's unit; `None` without a norm.
    pub cut_off: Option<u32>,
    /// Where it is from.
    pub source: Source,
    /// What else is published about such a result, each with its source; and what the source does not cover.
    pub notes: Vec<String>,
}

/// Holds a result against the published tables. `sex` and `age` are needed where the table has columns and rows for them;
/// without them there is no norm.
///
/// ```
/// use counterpoise_core::health::assessment::{Reading, Sex, Test, Verdict, score};
/// let rises = Reading::read(Test::ChairStand, "11")?;
/// let finding = score(rises, Some("72".parse()?), Some(Sex::Male));
/// assert_eq!((finding.verdict, finding.cut_off), (Verdict::Below, Some(12)));
/// let older = score(rises, Some("95".parse()?), Some(Sex::Male));
/// assert_eq!(older.verdict, Verdict::NoNorm, "the table ends at 94");
/// # Ok::<(), counterpoise_core::health::assessment::ReadingError>(())
/// ```
pub fn score(reading: Reading, age: Option<Age>, sex: Option<Sex>) -> Finding {
    let test = reading.test();
    let (cut_off, source) = tables::cut_off(test, age, sex);
    let verdict = match (cut_off, reading.value()) {
        (None, _) => Verdict::NoNorm,
        (Some(_), None) => Verdict::Below,
        (Some(cut_off), Some(value)) => {
            if tables::is_worse(test, value, cut_off) {
                Verdict::Below
            } else {
                Verdict::NotBelow
            }
        }
    };
    Finding { verdict, cut_off, source, notes: tables::notes(reading, age) }
}

impl Verdict {
    /// On which side of the cut-off, in the words of the test: a time is slower, a count fewer, a hold shorter.
    ///
    /// ```
    /// use counterpoise_core::health::assessment::{Test, Verdict};
    /// assert_eq!(Verdict::Below.words(Test::TimedUpAndGo), "slower than the published cut-off");
    /// assert_eq!(Verdict::NotBelow.words(Test::ChairStand), "reaches the published cut-off");
    /// ```
    pub const fn words(self, test: Test) -> &'static str {
        match (self, test) {
            (Self::Below, Test::TimedUpAndGo | Test::FiveRises) => "slower than the published cut-off",
            (Self::Below, Test::ChairStand) => "fewer than the published cut-off",
            (Self::Below, Test::FourStage | Test::OneLeg) => "shorter than the published cut-off",
            (Self::NotBelow, Test::TimedUpAndGo | Test::FiveRises) => "within the published cut-off",
            (Self::NotBelow, Test::ChairStand | Test::FourStage | Test::OneLeg) => {
                "reaches the published cut-off"
            }
            (Self::NoNorm, _) => "no published norm for this age and sex",
        }
    }
}

impl Finding {
    /// In a sentence, with the cut-off and its source.
    pub fn sentence(&self, test: Test) -> String {
        let (words, source) = (self.verdict.words(test), self.source);
        let words = words[..1].to_uppercase() + &words[1..];
        match self.cut_off {
            Some(cut_off) => {
                let past_it = if self.verdict == Verdict::NotBelow { "past it: " } else { "" };
                format!("{words} ({past_it}{}; {source}).", tables::cut_off_words(test, cut_off))
            }
            None => format!("There is {}{} ({source}).", words[..1].to_lowercase(), &words[1..]),
        }
    }
}

#[cfg(test)]
mod test;
