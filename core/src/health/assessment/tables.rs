//! The published values, each with its source and how sure it is.

use std::fmt;

use super::{Age, Reading, Sex, Test};

/// No single test says enough.
pub const NO_SINGLE_TEST: &str = "No single test of gait, balance or mobility predicts falls with high certainty (Beck Jepsen \
                                  et al., BMC Geriatrics 2022;22:615, a review of 31 reviews).";

/// Where a value is from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Source {
    /// Author or body, title, year.
    pub name: &'static str,
    /// How sure it is: read, second-hand, memory.
    pub tag: &'static str,
}

impl fmt::Display for Source {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} [{}]", self.name, self.tag)
    }
}

const FOUR_STAGE: Source =
    Source { name: "CDC, STEADI, 4-Stage Balance Test assessment sheet", tag: "second-hand" };
const ONE_LEG: Source =
    Source { name: "Vellas et al. 1997, PMID 9180669: 316 volunteers over 60", tag: "read" };
const CHAIR_STAND: Source =
    Source { name: "CDC, STEADI, 30-Second Chair Stand assessment sheet, 2017", tag: "second-hand" };
const UP_AND_GO: Source =
    Source { name: "CDC, STEADI, Timed Up and Go assessment sheet", tag: "second-hand" };
const FIVE_RISES: Source = Source { name: "EWGSOP2: more than 15 s is low strength", tag: "second-hand" };

/// Fewer rises than this are below average (CDC, STEADI \[second-hand\]): from this age on, men, women. It ends at 94.
const RISES: [(u8, u32, u32); 7] =
    [(60, 14, 12), (65, 12, 11), (70, 12, 10), (75, 11, 10), (80, 10, 9), (85, 8, 8), (90, 7, 4)];
const RISES_END: u8 = 94;

/// Mean of the Timed Up and Go in tenths of a second, from this age on (Bohannon 2006 \[second-hand\]). It ends at 99.
const UP_AND_GO_MEANS: [(u8, u32); 3] = [(60, 81), (70, 92), (80, 113)];
/// Mean time on one leg, eyes open, in tenths of a second, from this age on (Bohannon 2006, 22 studies, 3,484 people
/// \[read\], abstract). It ends at 99.
const ONE_LEG_MEANS: [(u8, u32); 3] = [(60, 270), (70, 172), (80, 85)];
/// The same, 45 s at most (Springer et al. 2007 \[second-hand\]).
const ONE_LEG_MEANS_45: [(u8, u32); 3] = [(60, 270), (70, 150), (80, 60)];
const MEANS_END: u8 = 99;

/// Bands of five rises, in tenths of a second: up to and with (SPPB \[second-hand\]); above the last is the fourth.
const FIVE_RISES_BANDS: [u32; 3] = [111, 136, 166];

fn row<T: Copy>(table: &[(u8, T)], age: Age, end: u8) -> Option<T> {
    let years = age.years();
    let found = table.iter().rev().find(|(from, _)| *from <= years).map(|(_, value)| *value);
    found.filter(|_| years <= end)
}

/// The cut-off in the test's unit, where there is one for this person.
pub(super) fn cut_off(test: Test, age: Option<Age>, sex: Option<Sex>) -> (Option<u32>, Source) {
    match test {
        Test::FourStage => (Some(100), FOUR_STAGE),
        Test::OneLeg => (Some(50), ONE_LEG),
        Test::ChairStand => {
            let of = |(from, men, women): (u8, u32, u32)| (from, (men, women));
            let cut_off = age.zip(sex).and_then(|(age, sex)| {
                let (men, women) = row(&RISES.map(of), age, RISES_END)?;
                Some(if sex == Sex::Male { men } else { women })
            });
            (cut_off, CHAIR_STAND)
        }
        Test::TimedUpAndGo => (Some(120), UP_AND_GO),
        Test::FiveRises => (Some(150), FIVE_RISES),
    }
}

/// Whether the value is on the worse side: at the cut-off only where the source has it so.
pub(super) fn is_worse(test: Test, value: u32, cut_off: u32) -> bool {
    match test {
        // Not held for 10 s; under 5 s; fewer than.
        Test::FourStage | Test::OneLeg | Test::ChairStand => value < cut_off,
        // 12 s or more.
        Test::TimedUpAndGo => value >= cut_off,
        // More than 15 s.
        Test::FiveRises => value > cut_off,
    }
}

pub(super) fn cut_off_words(test: Test, cut_off: u32) -> String {
    match test {
        Test::FourStage => format!("heel to toe held for less than {} s", cut_off / 10),
        Test::OneLeg => format!("less than {} s", cut_off / 10),
        Test::ChairStand => format!("fewer than {cut_off} rises"),
        Test::TimedUpAndGo => format!("{} s or more", cut_off / 10),
        Test::FiveRises => format!("more than {} s", cut_off / 10),
    }
}

fn seconds(tenths: u32) -> String {
    format!("{}.{} s", tenths / 10, tenths % 10)
}

/// What else is published about such a result, and what the source does not cover.
pub(super) fn notes(reading: Reading, age: Option<Age>) -> Vec<String> {
    let mut notes = Vec::new();
    let mean = |table, words: &str, source: &str| {
        let mean = age.and_then(|age| row(table, age, MEANS_END));
        mean.map(|mean| format!("{words} of this age group: {} ({source}).", seconds(mean)))
    };
    match reading.test() {
        Test::FourStage => notes.push(
            "Many people who fall pass this test: of 29 adults aged 50 or over, 77.78 % of those who had fallen passed (IJESAB \
             11(11):58, abstract [read])."
                .to_owned(),
        ),
        Test::OneLeg => {
            notes.extend(mean(&ONE_LEG_MEANS, "Mean", "Bohannon 2006, 22 studies [read, abstract]"));
            notes.extend(mean(&ONE_LEG_MEANS_45, "Mean, with 45 s at most,", "Springer et al. 2007 [second-hand]"));
            if age.is_some_and(|age| age.years() <= 60) {
                notes.push("The cut-off is from people over 60.".to_owned());
            }
        }
        Test::ChairStand => match age {
            None => notes.push("The table has values by age and sex: both are needed.".to_owned()),
            Some(age) if !(60..=RISES_END).contains(&age.years()) => {
                notes.push(format!("The table is for ages 60 to {RISES_END}."));
            }
            Some(_) => {}
        },
        Test::TimedUpAndGo => {
            notes.extend(mean(&UP_AND_GO_MEANS, "Mean", "Bohannon 2006 [second-hand]"));
            if reading.value().is_some_and(|value| value > 150) {
                let text = "Above 15 s, the limit that the World Falls Guidelines 2022 name in place of gait speed [memory].";
                notes.push(text.to_owned());
            }
        }
        Test::FiveRises => {
            let band = match reading.value() {
                None => "unable, the last".to_owned(),
                Some(value) => {
                    let place = FIVE_RISES_BANDS.iter().filter(|most| value > **most).count();
                    ["the first (up to 11.1 s)", "the second (11.2 to 13.6 s)", "the third (13.7 to 16.6 s)", "the fourth (16.7 s or more)"]
                        [place]
                        .to_owned()
                }
            };
            notes.push(format!("Published time band: {band} (SPPB [second-hand])."));
        }
    }
    let outside = |age: Age| !(60..=MEANS_END).contains(&age.years());
    if matches!(reading.test(), Test::OneLeg | Test::TimedUpAndGo) && age.is_some_and(outside) {
        notes.push(format!("The table of means is for ages 60 to {MEANS_END}."));
    }
    notes
}
