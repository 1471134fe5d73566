//! The stages of each test: how to stand, what is said, how long the watch runs.

use super::{BEGIN, HALF_TIME, STOP};
use crate::health::assessment::{Company, Test};
use crate::plan::phrase::Phrase;
use crate::units::Millis;

/// From the first number to "begin": five numbers, a second each.
pub const LEAD_IN: Millis = Millis(5_000);
/// Alone, balance is held no longer than this \[judgment\]: the cut-offs lie at or below it.
pub const ALONE_LIMIT: Millis = Millis(10_000);
/// With somebody, one leg is stood on no longer than this (Springer et al. 2007 \[second-hand\]).
const ONE_LEG_LIMIT: Millis = Millis(45_000);
/// Rises are counted for this long (CDC, STEADI).
const RISES: Millis = Millis(30_000);
/// Walking and rising that take longer are not done \[judgment\].
const TIMED_LIMIT: Millis = Millis(180_000);

/// One stage of a test.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stage {
    /// The stage in a few words.
    pub title: &'static str,
    /// How to stand or sit, and what to do.
    pub lines: &'static [&'static str],
    /// The phrase that says it.
    pub phrase: &'static str,
    with_somebody: Millis,
    alone: Millis,
}

const HELD_ON: &str = "Beside the counter. Hold on until you stand well; let go at \"begin\". Hold on again whenever you want to.";
const ENDS: &str = "It ends when you hold on, or a foot moves.";

const FOUR: [Stage; 4] = [
    Stage {
        title: "Feet side by side",
        lines: &[HELD_ON, "Put your feet side by side, touching.", ENDS],
        phrase: "assess.side-by-side",
        with_somebody: Millis(10_000),
        alone: ALONE_LIMIT,
    },
    Stage {
        title: "One foot half ahead",
        lines: &[HELD_ON, "Put one foot ahead, so that its heel touches the big toe of the other.", ENDS],
        phrase: "assess.half-ahead",
        with_somebody: Millis(10_000),
        alone: ALONE_LIMIT,
    },
    Stage {
        title: "Heel to toe",
        lines: &[HELD_ON, "Put one foot right before the other, heel to toe.", ENDS],
        phrase: "assess.heel-to-toe",
        with_somebody: Millis(10_000),
        alone: ALONE_LIMIT,
    },
    Stage {
        title: "One leg",
        lines: &[HELD_ON, "Stand on one leg. The other foot touches nothing.", ENDS],
        phrase: "assess.one-leg",
        with_somebody: Millis(10_000),
        alone: ALONE_LIMIT,
    },
];

const ONE: [Stage; 1] = [Stage {
    title: "One leg",
    lines: &[HELD_ON, "Stand on the leg you like. The other foot touches nothing. Eyes open.", ENDS],
    phrase: "assess.one-leg",
    with_somebody: ONE_LEG_LIMIT,
    alone: ALONE_LIMIT,
}];

const CHAIR: [Stage; 1] = [Stage {
    title: "Rises in 30 seconds",
    lines: &[
        "A firm chair without arms, about 43 cm (17 inches) high, its back against the wall.",
        "Sit in the middle, feet flat, arms crossed on your chest.",
        "At \"begin\" stand up whole and sit down again, as often as you can. Count your rises. If you need your arms, it \
         counts as none.",
        "At \"stop\", more than half-way up counts as up.",
    ],
    phrase: "assess.chair",
    with_somebody: RISES,
    alone: RISES,
}];

const WALK: [Stage; 1] = [Stage {
    title: "Up, 3 meters, and back",
    lines: &[
        "A chair, and a mark on the floor 3 m (10 feet) from it. Usual shoes; a walking aid may be used.",
        "Sit back in the chair. At \"begin\" stand up, walk to the mark at your usual pace, turn, walk back, sit down.",
        "Your helper walks beside you, and presses a key when you sit.",
    ],
    phrase: "assess.walk",
    with_somebody: TIMED_LIMIT,
    alone: TIMED_LIMIT,
}];

const FIVE: [Stage; 1] = [Stage {
    title: "Five rises",
    lines: &[
        "A firm chair without arms, its back against the wall. Sit with your arms crossed on your chest.",
        "At \"begin\" stand up whole and sit down, five times, as quickly as you safely can.",
        "Your helper presses a key when you stand the fifth time.",
    ],
    phrase: "assess.five",
    with_somebody: TIMED_LIMIT,
    alone: TIMED_LIMIT,
}];

/// The stages of a test, in order.
pub const fn stages(test: Test) -> &'static [Stage] {
    match test {
        Test::FourStage => &FOUR,
        Test::OneLeg => &ONE,
        Test::ChairStand => &CHAIR,
        Test::TimedUpAndGo => &WALK,
        Test::FiveRises => &FIVE,
    }
}

impl Stage {
    /// How long the watch runs at most.
    pub const fn limit(&self, company: Company) -> Millis {
        match company {
            Company::Alone => self.alone,
            Company::WithSomebody | Company::Elsewhere => self.with_somebody,
        }
    }

    /// What is said when, from the first number on: the lead-in, "begin", and for whoever is alone each second; rises hear
    /// when half the time is over; then "stop".
    pub(super) fn timed_phrases(&self, company: Company) -> Vec<(Millis, Phrase)> {
        let number = |number: u32| Phrase::named(&format!("count.{number}"));
        let seconds = LEAD_IN.0 / 1_000;
        let mut said: Vec<(Millis, Option<Phrase>)> =
            (0..seconds).map(|second| (Millis(second * 1_000), number(seconds - second))).collect();
        said.push((LEAD_IN, Phrase::named(BEGIN)));
        let limit = self.limit(company);
        if self.limit(company) == RISES {
            said.push((LEAD_IN + Millis(limit.0 / 2), Phrase::named(HALF_TIME)));
        } else if company == Company::Alone {
            // The last second is "stop".
            let counted =
                (1..limit.0 / 1_000).map(|second| (LEAD_IN + Millis(second * 1_000), number(second)));
            said.extend(counted);
        }
        said.push((LEAD_IN + limit, Phrase::named(STOP)));
        said.into_iter().filter_map(|(at, phrase)| Some((at, phrase?))).collect()
    }
}
