//! The conditions under which a drill is done: feet, floor, hands, eyes, second task, and where the counter is.

use super::need::Need;
use super::unlock::UnlockName;
use crate::words;

/// The position of the feet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Stance {
    /// Sitting on a chair.
    Seated,
    /// About hip width.
    FeetApart,
    /// Side by side, touching.
    FeetTogether,
    /// One foot half a step ahead of the other; which one is the set's `side`.
    SemiTandem,
    /// One foot in a line before the other; which one is the set's `side`.
    Tandem,
    /// On one leg; which one is the set's `side`.
    OneLeg,
    /// Walking slowly, along the counter or wall.
    Walking,
}

/// What is under the feet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Surface {
    /// A firm floor.
    Firm,
    /// A soft base.
    Foam,
    /// A course of firm and soft patches.
    Patches,
}

/// What the hands rest on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Support {
    /// The chair that the person sits on.
    Chair,
    /// Both hands push on the chair.
    HandsOnChair,
    /// Both hands rest on the counter.
    TwoHands,
    /// One hand rests on it.
    OneHand,
    /// The fingertips touch it.
    Fingertips,
    /// The hands are just above it.
    Hovering,
    /// The hands are free, the counter within a hand's reach.
    Beside,
}

/// Eyes open or closed. No ladder closes them: closed eyes are a call of a few seconds, with a called end.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Vision {
    /// The eyes are open.
    Open,
}

/// What is done at the same time.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum SecondTask {
    /// Talking.
    Talk,
    /// Carrying something light.
    Carry,
    /// Counting aloud.
    Count,
}

/// The foot that is ahead, or that carries the person on one leg.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Side {
    /// The trainee's left.
    Left,
    /// The trainee's right.
    Right,
}

/// How the trainee faces the counter.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Facing {
    /// The counter is ahead.
    CounterAhead,
    /// The counter is at the left.
    CounterLeft,
    /// The counter is at the right.
    CounterRight,
    /// The counter is at either side, and stays there.
    CounterBeside,
    /// A bare wall is ahead, the counter at either side.
    WallAhead,
    /// The screen is ahead.
    ScreenAhead,
}

words! {
    Stance {
        Seated => "seated",
        FeetApart => "feet apart",
        FeetTogether => "feet together",
        SemiTandem => "semi-tandem",
        Tandem => "tandem",
        OneLeg => "one leg",
        Walking => "walking",
    }
    Surface {
        Firm => "firm",
        Foam => "foam",
        Patches => "patches",
    }
    Support {
        Chair => "chair",
        HandsOnChair => "hands on the chair",
        TwoHands => "two hands",
        OneHand => "one hand",
        Fingertips => "fingertips",
        Hovering => "hands hovering",
        Beside => "beside",
    }
    Vision {
        Open => "open",
    }
    SecondTask {
        Talk => "talk",
        Carry => "carry",
        Count => "count",
    }
    Side {
        Left => "left",
        Right => "right",
    }
    Facing {
        CounterAhead => "counter ahead",
        CounterLeft => "counter at the left",
        CounterRight => "counter at the right",
        CounterBeside => "counter beside",
        WallAhead => "wall ahead",
        ScreenAhead => "screen ahead",
    }
}

impl Stance {
    /// Its place in the order from widest to narrowest, from 0. Walking is narrower than any stance: each step is on one
    /// leg for a moment \[judgment\].
    pub const fn narrowness(self) -> u8 {
        match self {
            Self::Seated => 0,
            Self::FeetApart => 1,
            Self::FeetTogether => 2,
            Self::SemiTandem => 3,
            Self::Tandem => 4,
            Self::OneLeg => 5,
            Self::Walking => 6,
        }
    }

    /// Whether left and right are two stances, which take turns.
    pub const fn has_sides(self) -> bool {
        matches!(self, Self::SemiTandem | Self::Tandem | Self::OneLeg)
    }

    /// Whether it is held for a few seconds only, limited by the person's own tested hold, with the foot down in between.
    pub const fn is_spell(self) -> bool {
        matches!(self, Self::Tandem | Self::OneLeg)
    }
}

impl Surface {
    /// Its place in the order from firm to changing, from 0.
    pub const fn softness(self) -> u8 {
        match self {
            Self::Firm => 0,
            Self::Foam => 1,
            Self::Patches => 2,
        }
    }
}

impl Support {
    /// Its place in the order from most support to least, from 0. A chair holds no less than two hands do.
    pub const fn lightness(self) -> u8 {
        match self {
            Self::Chair | Self::HandsOnChair | Self::TwoHands => 0,
            Self::OneHand => 1,
            Self::Fingertips => 2,
            Self::Hovering => 3,
            Self::Beside => 4,
        }
    }

    /// Whether a hand always rests on something fixed.
    pub const fn is_resting(self) -> bool {
        self.lightness() <= Self::OneHand.lightness()
    }
}

/// One step of a ladder: the conditions under which the drill is done.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct LadderStep {
    /// The position of the feet.
    pub stance: Stance,
    /// What is under the feet.
    pub surface: Surface,
    /// What the hands rest on.
    pub support: Support,
    /// Eyes open or closed.
    pub vision: Vision,
    /// What is done at the same time.
    pub second_task: Option<SecondTask>,
    /// The most parts of one call, in a drill whose calls have several.
    pub parts: u8,
}

impl LadderStep {
    /// How many things differ in `next`. A ladder changes one at a time; the parts of a call grow one at a time. Standing
    /// up from the chair changes stance and support together, and counts as one.
    pub(super) fn changes_to(self, next: Self) -> usize {
        let Self { stance, surface, support, vision, second_task, parts } = self;
        let differ = [
            stance != next.stance,
            surface != next.surface,
            support != next.support && (stance == Stance::Seated) == (next.stance == Stance::Seated),
            vision != next.vision,
            second_task != next.second_task,
        ];
        differ.into_iter().filter(|differs| *differs).count() + usize::from(parts.abs_diff(next.parts))
    }

    /// Whether a therapist's file may name it for somebody whose limits else end at feet together \[judgment\].
    pub fn can_be_named(self) -> bool {
        self.stance == Stance::SemiTandem && self.support == Support::OneHand
    }

    /// What does not go on by one from this step to `next`; `None` where the one thing that changes does.
    pub(super) fn skips_to(self, next: Self) -> Option<&'static str> {
        let goes_on = |before: u8, after: u8| after == before || after == before + 1;
        let gets_up = self.stance == Stance::Seated && next.stance != Stance::Seated;
        let skipped = self
            .beside(next)
            .into_iter()
            .find(|(_, before, after)| !goes_on(*before, *after))
            .map(|(what, ..)| what);
        skipped.filter(|what| !(gets_up && *what == "the support"))
    }

    /// Whether anything in it is harder than in `other`.
    pub fn asks_for_more_than(self, other: Self) -> bool {
        self.beside(other).into_iter().any(|(_, mine, others)| mine > others)
    }

    /// Each thing that a step sets, with its place in its order here and in `other`.
    fn beside(self, other: Self) -> [(&'static str, u8, u8); 5] {
        let Vision::Open = self.vision;
        [
            ("the stance", self.stance.narrowness(), other.stance.narrowness()),
            ("the surface", self.surface.softness(), other.surface.softness()),
            ("the support", self.support.lightness(), other.support.lightness()),
            ("the second task", self.second_task.is_some().into(), other.second_task.is_some().into()),
            ("the number of parts", self.parts, other.parts),
        ]
    }

    /// The verb for the posture: `Stand with`, `Sit with`, `Walk with`.
    pub const fn posture(self) -> &'static str {
        match self.stance {
            Stance::Seated => "Sit with",
            Stance::Walking => "Walk with",
            Stance::FeetApart
            | Stance::FeetTogether
            | Stance::SemiTandem
            | Stance::Tandem
            | Stance::OneLeg => "Stand with",
        }
    }

    /// How the person stands, in words that continue [`LadderStep::posture`].
    pub fn stance_text(self, facing: Facing, side: Option<Side>) -> String {
        let feet = match (self.stance, side) {
            (Stance::FeetApart, _) => "feet apart",
            (Stance::FeetTogether, _) => "feet together",
            (Stance::SemiTandem, None) => "one foot half a step ahead",
            (Stance::SemiTandem, Some(Side::Right)) => "the right foot half a step ahead",
            (Stance::SemiTandem, Some(Side::Left)) => "the left foot half a step ahead",
            (Stance::Tandem, None) => "one foot in a line before the other",
            (Stance::Tandem, Some(Side::Right)) => "the right foot in a line before the left",
            (Stance::Tandem, Some(Side::Left)) => "the left foot in a line before the right",
            (Stance::OneLeg, None) => "one leg carrying you in each hold",
            (Stance::OneLeg, Some(Side::Right)) => "the right leg carrying you in each hold",
            (Stance::OneLeg, Some(Side::Left)) => "the left leg carrying you in each hold",
            (Stance::Seated, _) => "both feet",
            (Stance::Walking, _) => "slow steps",
        };
        let floor = match self.surface {
            Surface::Firm => "a firm floor",
            Surface::Foam => "a soft base",
            Surface::Patches => "firm and soft patches",
        };
        let hands = match self.support {
            Support::Chair => "your back against the chair",
            Support::HandsOnChair => "both hands on the chair",
            Support::TwoHands => "both hands resting on the counter",
            Support::OneHand => "one hand resting on the counter",
            Support::Fingertips => "the fingertips on the counter",
            Support::Hovering => "the hands just above the counter",
            Support::Beside => "the hands free and the counter within their reach",
        };
        let eyes = match self.vision {
            Vision::Open => "eyes open",
        };
        let facing = match facing {
            Facing::CounterAhead => "the counter ahead",
            Facing::CounterLeft => "the counter at your left",
            Facing::CounterRight => "the counter at your right",
            Facing::CounterBeside => "the counter beside you",
            Facing::WallAhead => "a bare wall ahead and the counter beside you",
            Facing::ScreenAhead => "the screen ahead",
        };
        let task = match self.second_task {
            None => "",
            Some(SecondTask::Talk) => ", talking all the while",
            Some(SecondTask::Carry) => ", carrying something light",
            Some(SecondTask::Count) => ", counting aloud all the while",
        };
        let parts = match self.parts {
            0 | 1 => String::new(),
            most => format!("; a call has up to {most} parts"),
        };
        format!("{facing}, {feet} on {floor}, {hands}, {eyes}{task}{parts}")
    }

    /// What somebody must have watched before this step is practiced.
    pub fn unlocks(self) -> impl Iterator<Item = UnlockName> {
        let stance = match self.stance {
            Stance::Tandem | Stance::OneLeg => Some(UnlockName::OneLeg),
            Stance::Walking => Some(UnlockName::Walking),
            Stance::Seated | Stance::FeetApart | Stance::FeetTogether | Stance::SemiTandem => None,
        };
        let surface = match self.surface {
            Surface::Firm => None,
            Surface::Foam | Surface::Patches => Some(UnlockName::Surface),
        };
        [stance, surface, self.second_task.map(|_| UnlockName::SecondTask)].into_iter().flatten()
    }

    /// What must be in place for this step.
    pub fn needs(self) -> impl Iterator<Item = Need> {
        let stretch = (self.stance == Stance::Walking).then_some(Need::FreeStretch);
        let base = (self.surface == Surface::Foam).then_some(Need::OwnBase);
        [stretch, base].into_iter().flatten()
    }
}
