//! What a person must not do, from a closed list, and what each call, part and ladder step asks of the body. Where it is
//! not sure which limb is used, both count. All of it is \[judgment\]: no source says which limb an action uses.

use std::fmt;
use std::ops::{BitAnd, BitOr};

use crate::plan::direction::Direction;
use crate::plan::drill::{Action, LadderStep, Part, SecondTask, Stance, Support, Surface, Target, Vision};
use crate::plan::limb::Limb;
use crate::plan::phrase::Phrase;
use crate::words;

/// Something that a person must not do.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Precaution {
    /// The left leg takes no step.
    NoLeftStep,
    /// The right leg takes no step.
    NoRightStep,
    /// The left leg never carries the person alone.
    NoLeftWeight,
    /// The right leg never carries the person alone.
    NoRightWeight,
    /// The left arm is not raised or reached with.
    LeftArmDown,
    /// The right arm is not raised or reached with.
    RightArmDown,
    /// The head does not turn, and does not look up.
    NoHeadTurns,
    /// Nothing goes behind the person.
    NothingBackward,
    /// The trunk does not bend or twist.
    NoBending,
}

words! {
    Precaution {
        NoLeftStep => "no step with the left leg",
        NoRightStep => "no step with the right leg",
        NoLeftWeight => "no weight on the left leg alone",
        NoRightWeight => "no weight on the right leg alone",
        LeftArmDown => "left arm stays down",
        RightArmDown => "right arm stays down",
        NoHeadTurns => "no head turns or looking up",
        NothingBackward => "nothing backward",
        NoBending => "no bending or twisting",
    }
}

impl Precaution {
    /// The sentence that is shown and spoken to the person.
    pub fn phrase(self) -> Phrase {
        Phrase::own(match self {
            Self::NoLeftStep => "precaution.left-step",
            Self::NoRightStep => "precaution.right-step",
            Self::NoLeftWeight => "precaution.left-weight",
            Self::NoRightWeight => "precaution.right-weight",
            Self::LeftArmDown => "precaution.left-arm",
            Self::RightArmDown => "precaution.right-arm",
            Self::NoHeadTurns => "precaution.head",
            Self::NothingBackward => "precaution.backward",
            Self::NoBending => "precaution.bending",
        })
    }

    const fn bit(self) -> u16 {
        1 << self as u16
    }
}

/// Several precautions, each once.
///
/// ```
/// use counterpoise_core::plan::precaution::{Precaution, Precautions};
/// let both = Precautions::of(&[Precaution::NoLeftStep, Precaution::NoBending]);
/// assert_eq!(both.to_string(), "no step with the left leg; no bending or twisting");
/// assert!(both.has(Precaution::NoBending) && !both.has(Precaution::NoRightStep));
/// assert!(Precautions::NONE.is_empty());
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Hash)]
pub struct Precautions(u16);

impl Precautions {
    /// None.
    pub const NONE: Self = Self(0);
    /// Every one.
    pub const ALL: Self = Self::of(Precaution::ALL);
    const STEPS: Self = Self::of(&[Precaution::NoLeftStep, Precaution::NoRightStep]);
    const WEIGHT: Self = Self::of(&[Precaution::NoLeftWeight, Precaution::NoRightWeight]);
    const ARMS: Self = Self::of(&[Precaution::LeftArmDown, Precaution::RightArmDown]);
    const HEAD: Self = Self::of(&[Precaution::NoHeadTurns]);
    const BACKWARD: Self = Self::of(&[Precaution::NothingBackward]);
    const BENDING: Self = Self::of(&[Precaution::NoBending]);
    const LEGS: Self = Self::STEPS.and(Self::WEIGHT);

    /// These.
    pub const fn of(list: &[Precaution]) -> Self {
        let (mut all, mut place) = (0, 0);
        while place < list.len() {
            all |= list[place].bit();
            place += 1;
        }
        Self(all)
    }

    const fn and(self, other: Self) -> Self {
        Self(self.0 | other.0)
    }

    /// Whether nothing is ruled out.
    pub const fn is_empty(self) -> bool {
        self.0 == 0
    }

    /// Whether this one is among them.
    pub const fn has(self, one: Precaution) -> bool {
        self.0 & one.bit() != 0
    }

    /// Each of them, in the order of the list.
    pub fn iter(self) -> impl Iterator<Item = Precaution> {
        Precaution::ALL.iter().copied().filter(move |one| self.has(*one))
    }

    /// Those that are not in `others`.
    #[must_use]
    pub const fn without(self, others: Self) -> Self {
        Self(self.0 & !others.0)
    }
}

impl BitOr for Precautions {
    type Output = Self;

    fn bitor(self, other: Self) -> Self {
        self.and(other)
    }
}

impl BitAnd for Precautions {
    type Output = Self;

    fn bitand(self, other: Self) -> Self {
        Self(self.0 & other.0)
    }
}

impl fmt::Display for Precautions {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.iter().map(Precaution::name).collect::<Vec<_>>().join("; "))
    }
}

/// Of a pair of precautions, left and right, the one for this limb.
const fn side(limb: Limb, left: Precaution, right: Precaution) -> Precautions {
    match limb {
        Limb::Left => Precautions::of(&[left]),
        Limb::Right => Precautions::of(&[right]),
        Limb::Both => Precautions::of(&[left, right]),
    }
}

/// The precautions that rule out an action toward a direction.
///
/// What comes from outside (a push, a ball, a moving base) is ruled out by every one: nobody knows what the body does then.
/// A step loads one leg and then the other. A reach goes as far as the feet stay flat, so the trunk leans with it and the
/// leg on that side is loaded. Whoever rises bends forward.
#[expect(clippy::match_same_arms, reason = "one line for each action, whatever it shares with another")]
const fn of_action(action: Action, direction: Direction) -> Precautions {
    use Precautions as P;
    let limb = Limb::toward(direction);
    let weight = match limb {
        // Straight ahead both legs carry, and both feet stay on the floor.
        Limb::Both => P::NONE,
        _ => side(limb, Precaution::NoLeftWeight, Precaution::NoRightWeight),
    };
    let own = match action {
        Action::Shift => weight,
        Action::RaiseHeels | Action::Hold | Action::CloseEyes => P::NONE,
        Action::Reach => {
            let arm = side(limb, Precaution::LeftArmDown, Precaution::RightArmDown);
            arm.and(weight).and(P::BENDING)
        }
        Action::Step => side(limb, Precaution::NoLeftStep, Precaution::NoRightStep).and(P::WEIGHT),
        Action::Rise => P::BENDING,
        Action::NarrowStance => P::LEGS,
        Action::TurnHead => P::HEAD.and(P::BENDING),
        Action::Follow | Action::Watch => P::HEAD,
        Action::Touch => P::HEAD.and(P::BENDING).and(P::BACKWARD),
        Action::Push
        | Action::Nudge
        | Action::Tug
        | Action::Toss
        | Action::Throw
        | Action::Slide
        | Action::Tilt => P::ALL,
        Action::Stop | Action::ChangePace | Action::BlindSteps => P::LEGS,
        Action::TurnRound | Action::GoRound | Action::NextPatch => P::LEGS.and(P::HEAD).and(P::BENDING),
    };
    let toward = match direction {
        Direction::Back => P::BACKWARD,
        // Whoever goes or reaches behind and to a side turns toward it.
        Direction::BackLeft | Direction::BackRight => P::BACKWARD.and(P::BENDING).and(P::HEAD),
        Direction::Up | Direction::HighLeft | Direction::HighRight => match action {
            // Up is where the heels and the person go, not the eyes.
            Action::RaiseHeels | Action::Rise => P::NONE,
            _ => P::HEAD,
        },
        Direction::Down | Direction::LowLeft | Direction::LowRight => P::BENDING,
        Direction::Forward
        | Direction::Left
        | Direction::Right
        | Direction::ForwardLeft
        | Direction::ForwardRight
        | Direction::LeftShoulder
        | Direction::RightShoulder
        | Direction::RoundLeft
        | Direction::RoundRight
        | Direction::InPlace => P::NONE,
    };
    own.and(toward)
}

impl Target {
    /// The precautions that rule it out.
    pub const fn ruled_out_by(&self) -> Precautions {
        of_action(self.action, self.direction)
    }
}

impl Part {
    /// The precautions that rule it out in a call toward `direction`. A kind that nobody has looked at is ruled out by each.
    pub fn ruled_out_by(&self, direction: Direction) -> Precautions {
        match (self.kind.as_str(), self.action) {
            ("step", Some(action)) => of_action(action, direction),
            ("height" | "turn", None) => Precautions::HEAD | Precautions::BENDING,
            ("knees", None) => Precautions::BENDING,
            _ => Precautions::ALL,
        }
    }
}

impl LadderStep {
    /// The precautions that rule it out, whatever is called. With one foot ahead, on one leg and in walking, each leg is
    /// loaded and moved in turn. Where the hands hover, carry or push, both arms work.
    pub const fn ruled_out_by(self) -> Precautions {
        use Precautions as P;
        let Self { stance, surface, support, vision: Vision::Open, second_task, parts: _ } = self;
        let feet = match stance {
            Stance::Seated | Stance::FeetApart | Stance::FeetTogether => P::NONE,
            Stance::SemiTandem | Stance::Tandem | Stance::OneLeg | Stance::Walking => P::LEGS,
        };
        let floor = match surface {
            Surface::Firm | Surface::Foam => P::NONE,
            Surface::Patches => P::LEGS,
        };
        let hands = match support {
            Support::Chair | Support::TwoHands | Support::OneHand | Support::Fingertips | Support::Beside => {
                P::NONE
            }
            Support::HandsOnChair | Support::Hovering => P::ARMS,
        };
        let task = match second_task {
            None | Some(SecondTask::Talk | SecondTask::Count) => P::NONE,
            Some(SecondTask::Carry) => P::ARMS,
        };
        feet.and(floor).and(hands).and(task)
    }
}

#[cfg(test)]
mod test;
