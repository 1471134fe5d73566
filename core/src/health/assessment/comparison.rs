//! A person's own results over time: what changed, whether that is more than the noise of the test, and how many tests
//! are below their cut-off now.

use jiff::ToSpan;
use jiff::civil::Date;

use super::{Age, Company, Reading, Sex, Source, Test, Verdict, score, with_unit};

/// Weeks after the last test until a retest is offered \[judgment\].
pub const RETEST_WEEKS: i64 = 4;

/// One result, as it was kept.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Dated {
    /// The local day.
    pub day: Date,
    /// The result, in the unit of its test.
    pub reading: Reading,
    /// The age then, where it was given.
    pub age: Option<Age>,
    /// The sex, where it was given.
    pub sex: Option<Sex>,
    /// Who was there during the test.
    pub company: Company,
}

/// The smallest change that is more than measurement error at 95 %, in the test's unit, where a value is known.
const fn noise(test: Test) -> Option<(u32, Source)> {
    match test {
        Test::OneLeg => Some((
            241,
            Source {
                name: "Goldberg et al. 2011, Gait Posture 33:737: 25 adults of 60 to 89",
                tag: "second-hand, abstract",
            },
        )),
        // 1 to 4 months apart, as a retest at home is; 2.5 s within one visit (Goldberg et al. 2012 [read, abstract]).
        Test::FiveRises => Some((
            46,
            Source {
                name: "Donoghue et al. 2019, BMJ Open 9:e030475: 128 adults of 50 or over, 1 to 4 months apart",
                tag: "read, abstract",
            },
        )),
        Test::TimedUpAndGo => Some((
            21,
            Source {
                name: "Donoghue et al. 2019, BMJ Open 9:e030475: 128 adults of 50 or over, 1 to 4 months apart",
                tag: "read, abstract",
            },
        )),
        Test::FourStage | Test::ChairStand => None,
    }
}

/// The latest result of a test beside the one before it and the first.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Trend {
    /// The test whose results these are.
    pub test: Test,
    /// All results, oldest first; at least one.
    pub results: Vec<Dated>,
}

impl Trend {
    /// One for each test that has a result, in the order of [`Test::ALL`].
    pub fn all(results: &[Dated]) -> Vec<Self> {
        let of = |test: &Test| {
            let mut results: Vec<Dated> =
                results.iter().filter(|dated| dated.reading.test() == *test).cloned().collect();
            results.sort_by_key(|dated| dated.day);
            (!results.is_empty()).then_some(Self { test: *test, results })
        };
        Test::ALL.iter().filter_map(of).collect()
    }

    /// The latest result.
    pub fn latest(&self) -> &Dated {
        &self.results[self.results.len() - 1]
    }

    /// What changed since the first and since the one before, and whether that exceeds the noise of the test. Empty for a single
    /// result.
    pub fn sentences(&self) -> Vec<String> {
        let Some(before) = self.results.len().checked_sub(2).map(|place| &self.results[place]) else {
            return Vec::new();
        };
        let mut said = vec![self.change("the time before", before)];
        if self.results.len() > 2 {
            said.push(self.change("the first time", &self.results[0]));
        }
        said.push(match noise(self.test) {
            Some((least, source)) => format!(
                "Only a change of {} or more is larger than the noise of the test ({source}); for one person it may \
                 take more.",
                with_unit(self.test, least)
            ),
            None => "How large a change must be to exceed the noise of this test is not known.".to_owned(),
        });
        said
    }

    fn change(&self, since: &str, before: &Dated) -> String {
        let (now, then) = (self.latest().reading, before.reading);
        let head = format!("{now} now, {then} {since} ({})", before.day);
        let (Some(new), Some(old)) = (now.value(), then.value()) else { return format!("{head}.") };
        let size = new.abs_diff(old);
        let better = (new > old) == self.test.more_is_better();
        match noise(self.test) {
            _ if size == 0 => format!("{head}: the same."),
            Some((least, _)) if size >= least && better => {
                format!("{head}: better, by more than the noise of the test.")
            }
            Some((least, _)) if size >= least => {
                format!("{head}: worse, by more than the noise of the test.")
            }
            Some(_) => format!("{head}: a change within the noise of the test."),
            None => format!("{head}: a change of {}.", with_unit(self.test, size)),
        }
    }
}

/// How many tests are below their cut-off, by the latest result of each. Two or more count as one once a therapist has
/// looked at them: `reviewed`, the day on which the prescription was issued, is not before any of them.
///
/// ```
/// use counterpoise_core::health::assessment::{Company, Dated, Reading, Test, tests_below_cut_off};
/// let of = |test, written| Dated {
///     day: "2026-11-02".parse().unwrap(),
///     reading: Reading::read(test, written).unwrap(),
///     age: None,
///     sex: None,
///     company: Company::WithSomebody,
/// };
/// let results = [of(Test::OneLeg, "4.9"), of(Test::TimedUpAndGo, "12"), of(Test::FourStage, "10")];
/// assert_eq!(tests_below_cut_off(&results, None), 2);
/// assert_eq!(tests_below_cut_off(&results, Some("2026-11-01".parse().unwrap())), 2);
/// assert_eq!(tests_below_cut_off(&results, Some("2026-11-02".parse().unwrap())), 1);
/// ```
pub fn tests_below_cut_off(results: &[Dated], reviewed: Option<Date>) -> usize {
    let trends = Trend::all(results);
    let below: Vec<&Dated> = trends
        .iter()
        .map(Trend::latest)
        .filter(|dated| score(dated.reading, dated.age, dated.sex).verdict == Verdict::Below)
        .collect();
    let seen = |dated: &&Dated| reviewed.is_some_and(|reviewed| reviewed >= dated.day);
    if below.len() > 1 && below.iter().all(seen) { 1 } else { below.len() }
}

/// The day from which a retest is offered, where there was a test \[judgment: every 4 weeks\].
pub fn retest_from(results: &[Dated]) -> Option<Date> {
    let last = results.iter().map(|dated| dated.day).max()?;
    Some(last.saturating_add(RETEST_WEEKS.weeks()))
}
