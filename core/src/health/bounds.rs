//! What suitability and balance tests leave of a prescription: with whom, up to which step, with which hand at rest.
//! They only ever narrow it.

use std::fmt;

use crate::plan::drill::{Action, Drill, Form, LadderStep, Support, Target};

/// The highest step for somebody with one test below its cut-off, or without a therapist \[judgment\].
pub const CAUTIOUS_STEP: u8 = 3;

/// What is left. Ordered choices narrow from the first to the last.
///
/// ```
/// use counterpoise_core::health::bounds::{Bounds, Hands};
/// let one_test_below = Bounds::for_tests_below(1);
/// assert_eq!((one_test_below.max_step, one_test_below.hands), (3, Hands::OneRests));
/// assert_eq!(one_test_below.and(Bounds::STEP_ONE).max_step, 1, "the narrower one holds");
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Bounds {
    /// No drill with a partner.
    pub alone: bool,
    /// The highest step of any drill; `u8::MAX` is no limit.
    pub max_step: u8,
    /// What the hands do.
    pub hands: Hands,
    /// No drill that turns the head.
    pub no_head_turns: bool,
    /// No drill that rises from a chair.
    pub no_rises: bool,
}

/// What the hands must do at every step.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Hands {
    /// As the step of the drill says.
    AsTheStepSays,
    /// At least one always rests on something fixed.
    OneRests,
    /// Both hands always rest on something fixed.
    BothRest,
}

impl Bounds {
    /// Nothing is left out.
    pub const OPEN: Self = Self {
        alone: false,
        max_step: u8::MAX,
        hands: Hands::AsTheStepSays,
        no_head_turns: false,
        no_rises: false,
    };
    /// Alone, at step 1 of each drill, a hand at rest.
    pub const STEP_ONE: Self = Self { alone: true, max_step: 1, hands: Hands::OneRests, ..Self::OPEN };
    /// Alone, up to step 3, a hand at rest.
    pub const CAUTIOUS: Self =
        Self { alone: true, max_step: CAUTIOUS_STEP, hands: Hands::OneRests, ..Self::OPEN };
    /// Alone, at step 1, both hands at rest: weight shifts, heel raises, holds.
    pub const BOTH_HANDS: Self = Self { hands: Hands::BothRest, ..Self::STEP_ONE };

    /// After balance tests \[judgment\]: with one below its cut-off alone, up to step 3, a hand always at rest; with two
    /// or more step 1, both hands at rest, until a therapist reviews. Passing opens nothing.
    pub const fn for_tests_below(tests: usize) -> Self {
        match tests {
            0 => Self::OPEN,
            1 => Self::CAUTIOUS,
            _ => Self::BOTH_HANDS,
        }
    }

    /// The narrower of both, in everything.
    #[must_use]
    pub fn and(self, other: Self) -> Self {
        Self {
            alone: self.alone || other.alone,
            max_step: self.max_step.min(other.max_step),
            hands: self.hands.max(other.hands),
            no_head_turns: self.no_head_turns || other.no_head_turns,
            no_rises: self.no_rises || other.no_rises,
        }
    }

    /// The highest of the drill's steps, from 1 to `ceiling`, that is left; `None` leaves the drill out.
    pub fn highest_step(self, drill: &Drill, form: Form, targets: &[Target], ceiling: u8) -> Option<u8> {
        let calls = |is: fn(Action) -> bool| targets.iter().any(|target| is(target.action));
        let turns = |action| matches!(action, Action::TurnHead | Action::Touch);
        if (self.alone && form == Form::Partner)
            || (self.no_head_turns && calls(turns))
            || (self.no_rises && calls(|action| action == Action::Rise))
        {
            return None;
        }
        let within = (1..=ceiling.min(self.max_step)).zip(drill.ladder());
        // A step beyond one that is not allowed is not reached.
        within.take_while(|(_, step)| self.allows(**step)).map(|(number, _)| number).last()
    }

    fn allows(self, step: LadderStep) -> bool {
        match self.hands {
            Hands::AsTheStepSays => true,
            Hands::OneRests => step.support.is_resting(),
            Hands::BothRest => {
                matches!(step.support, Support::TwoHands | Support::HandsOnChair | Support::Chair)
            }
        }
    }
}

/// The limits as sentences to the person; nothing where there are none.
impl fmt::Display for Bounds {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut said = Vec::new();
        if self.alone {
            said.push("Only what you practice alone.".to_owned());
        }
        if self.max_step < u8::MAX {
            said.push(format!("Up to step {} of each kind of practice.", self.max_step));
        }
        match self.hands {
            Hands::AsTheStepSays => {}
            Hands::OneRests => said.push("One hand always rests on the counter.".to_owned()),
            Hands::BothRest => said.push("Both hands always rest on the counter.".to_owned()),
        }
        if self.no_head_turns {
            said.push("No turns of the head.".to_owned());
        }
        if self.no_rises {
            said.push("No getting up from a chair.".to_owned());
        }
        f.write_str(&said.join(" "))
    }
}

#[cfg(test)]
mod frozen;

#[cfg(test)]
mod test {
    use super::{Bounds, Hands};
    use crate::plan::drill::{Drill, Form};

    fn most(bounds: Bounds, name: &str, form: Form) -> Option<u8> {
        let drill = Drill::named(name).unwrap();
        bounds.highest_step(drill, form, drill.targets(), drill.ladder().len() as u8)
    }

    #[test]
    fn every_row_of_the_rule_for_tests() {
        // counter-reach: one hand, one hand, fingertips ...; counter-shift: two hands three times, one hand,
        // fingertips; pushes are with a partner.
        assert_eq!(most(Bounds::for_tests_below(0), "counter-reach", Form::Alone), Some(5));
        assert_eq!(most(Bounds::for_tests_below(0), "pushes", Form::Partner), Some(4));
        assert_eq!(most(Bounds::for_tests_below(1), "counter-reach", Form::Alone), Some(2), "a hand rests");
        assert_eq!(most(Bounds::for_tests_below(1), "counter-shift", Form::Alone), Some(3), "step 3 at most");
        assert_eq!(most(Bounds::for_tests_below(1), "pushes", Form::Partner), None);
        for tests in [2, 3, 5] {
            let bounds = Bounds::for_tests_below(tests);
            assert_eq!(most(bounds, "counter-shift", Form::Alone), Some(1));
            assert_eq!(most(bounds, "counter-reach", Form::Alone), None, "one hand does not do");
        }
    }

    #[test]
    fn both_is_never_wider_than_either() {
        let all = [
            Bounds::OPEN,
            Bounds::CAUTIOUS,
            Bounds::STEP_ONE,
            Bounds::BOTH_HANDS,
            Bounds { no_head_turns: true, ..Bounds::OPEN },
            Bounds { no_rises: true, ..Bounds::OPEN },
        ];
        for (one, other) in all.iter().flat_map(|one| all.iter().map(move |other| (*one, *other))) {
            assert_eq!(one.and(other), other.and(one));
            for drill in Drill::all() {
                for form in drill.forms() {
                    let (both, alone) = (one.and(other), most(one, drill.name(), *form));
                    assert!(most(both, drill.name(), *form) <= alone, "{}", drill.name());
                }
            }
        }
        assert_eq!(Bounds::OPEN.and(Bounds::OPEN).hands, Hands::AsTheStepSays);
    }

    #[test]
    fn a_neck_that_must_not_turn_leaves_out_what_turns_it() {
        let stiff = Bounds { no_head_turns: true, ..Bounds::OPEN };
        assert_eq!(most(stiff, "head-turns", Form::Alone), None);
        assert_eq!(most(stiff, "shoulder-looks", Form::Partner), None);
        assert_eq!(most(stiff, "counter-reach", Form::Alone), Some(5));
        let seated = Bounds { no_rises: true, ..Bounds::OPEN };
        assert_eq!(most(seated, "fast-rises", Form::Alone), None);
    }

    #[test]
    fn limits_are_said_and_none_are_silent() {
        assert_eq!(Bounds::OPEN.to_string(), "");
        assert_eq!(
            Bounds::BOTH_HANDS.to_string(),
            "Only what you practice alone. Up to step 1 of each kind of practice. Both hands always rest on the counter."
        );
    }
}
