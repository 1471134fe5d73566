//! What suitability and balance tests leave of a prescription: with whom, with how much support, on which floor, how
//! narrow the feet. They only ever narrow it.

use std::cmp::min_by_key;
use std::fmt;

use crate::plan::drill::{Action, Form, Ladder, LadderStep, Stance, Support, Surface, Target, Vision};

/// The highest step of version 1 of a ladder for somebody with one test below its cut-off, or without a therapist
/// \[judgment\].
pub const CAUTIOUS_STEP: u8 = 3;

/// Under which conditions a person may practice. They are attributes, so that a new version of a ladder cannot change
/// what they mean.
///
/// ```
/// use counterpoise_core::health::bounds::Limits;
/// use counterpoise_core::plan::drill::{Drill, Form};
/// let steps = Drill::named("counter-shift").unwrap().ladder();
/// let allowed = |step: usize, named| Limits::CAUTIOUS.allow(steps[step - 1], Form::Alone, named);
/// assert!(allowed(3, false), "semi-tandem, two hands");
/// assert!(!allowed(4, false) && allowed(4, true), "with one hand only where a therapist's file names it");
/// assert!(!allowed(5, true), "fingertips are no hand at rest");
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Limits {
    /// No drill with a partner.
    pub alone: bool,
    /// The least support.
    pub support: Support,
    /// The narrowest stance.
    pub stance: Stance,
    /// The softest surface.
    pub surface: Surface,
    /// Whether something may be done at the same time.
    pub second_task: bool,
    /// How far a reach may go: the most parts of one call.
    pub reach: u8,
}

impl Limits {
    /// Everything is allowed.
    pub const OPEN: Self = Self {
        alone: false,
        support: Support::Beside,
        stance: Stance::Walking,
        surface: Surface::Patches,
        second_task: true,
        reach: u8::MAX,
    };
    /// Alone, a hand at rest, a firm floor, nothing done at the same time, feet together at the narrowest; three parts of
    /// a call. Under version 1 of a ladder: alone, up to step 3, a hand at rest.
    pub const CAUTIOUS: Self = Self {
        alone: true,
        support: Support::OneHand,
        stance: Stance::FeetTogether,
        surface: Surface::Firm,
        second_task: false,
        reach: 3,
    };
    /// The same with the feet apart and no additional part. Under version 1: alone, at step 1, a hand at rest.
    pub const STEP_ONE: Self = Self { stance: Stance::FeetApart, reach: 1, ..Self::CAUTIOUS };
    /// The same with both hands at rest: weight shifts, heel raises, holds.
    pub const BOTH_HANDS: Self = Self { support: Support::TwoHands, ..Self::STEP_ONE };

    /// Whether somebody with these limits may be given a step with these conditions. `named`: a therapist's file names
    /// this step for this person, which allows a semi-tandem stance with one hand where the limit is feet together.
    ///
    /// All of it is \[judgment\].
    pub fn allow(self, step: LadderStep, form: Form, named: bool) -> bool {
        let LadderStep { stance, surface, support, vision: Vision::Open, second_task, parts } = step;
        let both_rest = support.lightness() <= Support::TwoHands.lightness();
        let just_narrower = self.stance == Stance::FeetTogether
            && stance == Stance::SemiTandem
            && (both_rest || (named && step.can_be_named()));
        !(self.alone && form == Form::Partner)
            && support.lightness() <= self.support.lightness()
            && (stance.narrowness() <= self.stance.narrowness() || just_narrower)
            && surface.softness() <= self.surface.softness()
            && (self.second_task || second_task.is_none())
            && parts <= self.reach
    }

    /// The same for version 1 of a ladder, whose limits are numbers of steps: the narrowest stance says which.
    fn allow_of_version_1(self, number: u8, step: LadderStep, form: Form) -> bool {
        let last = match self.stance {
            Stance::Seated | Stance::FeetApart => 1,
            Stance::FeetTogether | Stance::SemiTandem | Stance::Tandem | Stance::OneLeg => CAUTIOUS_STEP,
            Stance::Walking => u8::MAX,
        };
        !(self.alone && form == Form::Partner)
            && number <= last
            && step.support.lightness() <= self.support.lightness()
    }

    /// Whether nothing beyond the first step of a ladder is left.
    pub fn is_first_step(self) -> bool {
        self.stance.narrowness() <= Stance::FeetApart.narrowness()
    }

    /// The narrower of both, in everything.
    #[must_use]
    pub fn and(self, other: Self) -> Self {
        Self {
            alone: self.alone || other.alone,
            support: min_by_key(self.support, other.support, |support| support.lightness()),
            stance: min_by_key(self.stance, other.stance, |stance| stance.narrowness()),
            surface: min_by_key(self.surface, other.surface, |surface| surface.softness()),
            second_task: self.second_task && other.second_task,
            reach: self.reach.min(other.reach),
        }
    }
}

/// What the limits mean on a ladder whose steps they are compared with: version 2 or above.
impl fmt::Display for Limits {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let task = if self.second_task { "" } else { ", nothing else done at the same time" };
        write!(
            f,
            "{} at the least, {} at the narrowest, {} at the softest{task}.",
            self.support, self.stance, self.surface
        )
    }
}

/// What is left of a prescription: the conditions, and the calls.
///
/// ```
/// use counterpoise_core::health::bounds::{Bounds, Limits};
/// let one_test_below = Bounds::for_tests_below(1);
/// assert_eq!(one_test_below.limits, Limits::CAUTIOUS);
/// assert_eq!(one_test_below.and(Bounds::STEP_ONE), Bounds::STEP_ONE, "the narrower one holds");
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[expect(clippy::struct_excessive_bools, reason = "each leaves out one thing, and any of them may be true")]
pub struct Bounds {
    /// Under which conditions.
    pub limits: Limits,
    /// No drill that turns the head.
    pub no_head_turns: bool,
    /// No drill that rises from a chair.
    pub no_rises: bool,
    /// Nothing that needs an unlock, no tosses, no wall throws.
    pub no_unlocks: bool,
    /// No drill in which a partner's hand moves the person.
    pub no_pushes: bool,
}

impl Bounds {
    /// Nothing is left out.
    pub const OPEN: Self = Self {
        limits: Limits::OPEN,
        no_head_turns: false,
        no_rises: false,
        no_unlocks: false,
        no_pushes: false,
    };
    /// Nothing with a partner.
    pub const ALONE: Self = Self { limits: Limits { alone: true, ..Limits::OPEN }, ..Self::OPEN };
    /// Within [`Limits::STEP_ONE`].
    pub const STEP_ONE: Self = Self { limits: Limits::STEP_ONE, ..Self::OPEN };
    /// Within [`Limits::CAUTIOUS`].
    pub const CAUTIOUS: Self = Self { limits: Limits::CAUTIOUS, ..Self::OPEN };
    /// Nothing that needs an unlock, no tosses, no wall throws: after a fall, or after two grabs \[judgment\].
    pub const NO_UNLOCKS: Self = Self { no_unlocks: true, ..Self::OPEN };
    /// Seated or with both hands at rest, and no pushes: where the gentlest step was too hard \[judgment\].
    pub const TOO_HARD: Self =
        Self { limits: Limits { support: Support::TwoHands, ..Limits::OPEN }, no_pushes: true, ..Self::OPEN };
    /// Within [`Limits::BOTH_HANDS`].
    pub const BOTH_HANDS: Self = Self { limits: Limits::BOTH_HANDS, ..Self::OPEN };

    /// After balance tests \[judgment\]: with one below its cut-off alone, up to step 3, a hand always at rest; with two
    /// or more step 1, both hands at rest, until a therapist reviews. Passing opens nothing.
    pub const fn for_tests_below(tests: usize) -> Self {
        match tests {
            0 => Self::OPEN,
            1 => Self::CAUTIOUS,
            _ => Self::BOTH_HANDS,
        }
    }

    /// What balance tests mean for practice: the last sentence under a result, and never a prognosis.
    ///
    /// ```
    /// use counterpoise_core::health::bounds::Bounds;
    /// assert!(Bounds::said_of_tests(1).ends_with("One hand always rests on the counter."));
    /// assert_eq!(Bounds::said_of_tests(0), "For practice: no limit from balance tests.");
    /// ```
    pub fn said_of_tests(tests_below: usize) -> String {
        match Self::for_tests_below(tests_below) {
            Self::OPEN => "For practice: no limit from balance tests.".to_owned(),
            bounds => format!("For practice: {bounds}"),
        }
    }

    /// The narrower of both, in everything.
    #[must_use]
    pub fn and(self, other: Self) -> Self {
        Self {
            limits: self.limits.and(other.limits),
            no_head_turns: self.no_head_turns || other.no_head_turns,
            no_rises: self.no_rises || other.no_rises,
            no_unlocks: self.no_unlocks || other.no_unlocks,
            no_pushes: self.no_pushes || other.no_pushes,
        }
    }

    /// The highest step of this ladder, from 1 to `ceiling`, that is left where `targets` are called; `None` leaves the
    /// drill out. `named` are the keys of the steps that a therapist's file names.
    pub fn highest_step(
        self,
        ladder: &Ladder,
        form: Form,
        targets: &[Target],
        ceiling: u8,
        named: &[String],
    ) -> Option<u8> {
        let calls = |is: fn(Action) -> bool| targets.iter().any(|target| is(target.action));
        let turns = |action| matches!(action, Action::TurnHead | Action::Touch);
        if (self.no_head_turns && calls(turns)) || (self.no_rises && calls(|action| action == Action::Rise)) {
            return None;
        }
        let is_locked = |target: &Target| target.action.is_ball() || target.unlocks().next().is_some();
        if (self.no_unlocks && targets.iter().any(is_locked)) || (self.no_pushes && calls(Action::is_push)) {
            return None;
        }
        let within = (1..=ceiling).zip(ladder.steps()).zip(ladder.keys());
        // A step beyond one that is not allowed is not reached.
        let watched = |number: u8| self.no_unlocks && ladder.unlocks(number).next().is_some();
        let unlocked = within.take_while(|((number, _), _)| !watched(*number));
        let allowed = unlocked.take_while(|((number, step), key)| match ladder.version() {
            1 => self.limits.allow_of_version_1(*number, **step, form),
            _ => self.limits.allow(**step, form, named.contains(key)),
        });
        allowed.map(|((number, _), _)| number).last()
    }
}

/// The limits as sentences to the person; nothing where there are none.
impl fmt::Display for Bounds {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut said = Vec::new();
        if self.limits.alone {
            said.push("Only what you practice alone.");
        }
        match self.limits.stance {
            Stance::Walking => {}
            _ if self.limits.is_first_step() => said.push("Up to step 1 of each kind of practice."),
            _ => said.push("Up to step 3 of each kind of practice."),
        }
        match self.limits.support {
            Support::Chair | Support::HandsOnChair | Support::TwoHands => {
                said.push("Both hands always rest on the counter.");
            }
            Support::OneHand => said.push("One hand always rests on the counter."),
            Support::Fingertips | Support::Hovering | Support::Beside => {}
        }
        if self.no_head_turns {
            said.push("No turns of the head.");
        }
        if self.no_rises {
            said.push("No getting up from a chair.");
        }
        if self.no_unlocks {
            said.push("Nothing that needs an unlock, no tosses, no wall throws.");
        }
        if self.no_pushes {
            said.push("No pushes, nudges or tugs.");
        }
        f.write_str(&said.join(" "))
    }
}

#[cfg(test)]
mod test;
