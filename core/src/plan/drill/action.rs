//! What a cue asks for, with the safety rules that depend on it. They are functions of the action, so a new drill
//! file cannot get around them.

use super::need::Need;
use super::unlock::UnlockName;
use crate::units::Millis;
use crate::words;

/// What a cue asks for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Action {
    /// Shift the weight toward a side, feet in place.
    Shift,
    /// Rise on the toes and come down.
    RaiseHeels,
    /// Reach toward a side and come back.
    Reach,
    /// Step toward a side and come back.
    Step,
    /// Stand up from a chair, stand, and sit down.
    Rise,
    /// Hold the stance.
    Hold,
    /// Bring the feet together for a few seconds.
    NarrowStance,
    /// Turn the head and come back.
    TurnHead,
    /// Close the eyes for a few seconds, standing in place.
    CloseEyes,
    /// Follow with the eyes what a partner moves.
    Follow,
    /// Follow with the eyes the target on the screen.
    Watch,
    /// A partner touches a shoulder; look around toward it.
    Touch,
    /// A partner pushes.
    Push,
    /// A partner pushes lightly while the person walks.
    Nudge,
    /// A partner pulls at a belt.
    Tug,
    /// A partner throws a ball to be caught.
    Toss,
    /// Throw a ball against a wall and catch it.
    Throw,
    /// A partner slides the base under the feet.
    Slide,
    /// A partner tilts the base under the feet.
    Tilt,
    /// Stand still while walking, then go on.
    Stop,
    /// Walk faster or slower.
    ChangePace,
    /// Turn around while walking.
    TurnRound,
    /// A partner blocks the way; walk around.
    GoRound,
    /// Walk to the next patch of a course.
    NextPatch,
    /// At most three steps with the eyes closed, beside a wall.
    BlindSteps,
}

words! {
    Action {
        Shift => "shift",
        RaiseHeels => "raise heels",
        Reach => "reach",
        Step => "step",
        Rise => "rise",
        Hold => "hold",
        NarrowStance => "narrow stance",
        TurnHead => "turn head",
        CloseEyes => "close eyes",
        Follow => "follow",
        Watch => "watch",
        Touch => "touch",
        Push => "push",
        Nudge => "nudge",
        Tug => "tug",
        Toss => "toss",
        Throw => "throw",
        Slide => "slide",
        Tilt => "tilt",
        Stop => "stop",
        ChangePace => "change pace",
        TurnRound => "turn round",
        GoRound => "go round",
        NextPatch => "next patch",
        BlindSteps => "blind steps",
    }
}

impl Action {
    /// The least time to the cue before and to the cue after it (`gap`); for a span, from its end.
    ///
    /// 4 s: at least 2.2 s to regain balance after a lateral disturbance (BMC Geriatrics 2020, 01650-4, table 2,
    /// mean + 2 SD \[derived\]), plus time to reset \[judgment\]. 10 s for what a partner does to the person: pushes came
    /// 1 to 3 a minute in Kurz 2016 \[read\]; the rest \[judgment\]: a step has a way back, after a turn the head must
    /// settle, a ball has to be fetched. Eyes closed: 3 s before and 5 s after nothing else may come; 8 s keep both.
    pub const fn shortest_gap(self) -> Millis {
        Millis::from_secs(match self {
            Self::Shift | Self::RaiseHeels | Self::Reach | Self::Hold | Self::NarrowStance | Self::Watch => 4,
            Self::Step | Self::Stop | Self::ChangePace => 6,
            Self::TurnHead
            | Self::CloseEyes
            | Self::Follow
            | Self::Touch
            | Self::TurnRound
            | Self::GoRound
            | Self::NextPatch => 8,
            Self::Rise
            | Self::Push
            | Self::Nudge
            | Self::Tug
            | Self::Slide
            | Self::Tilt
            | Self::BlindSteps => 10,
            Self::Toss | Self::Throw => 12,
        })
    }

    /// What somebody must have watched before it is practiced, whatever its direction.
    pub const fn unlocks(self) -> &'static [UnlockName] {
        match self {
            Self::Push | Self::Tug => &[UnlockName::Pushes],
            Self::Nudge => &[UnlockName::Pushes, UnlockName::Walking],
            Self::Slide | Self::Tilt => &[UnlockName::Surface],
            Self::Stop | Self::ChangePace | Self::TurnRound | Self::GoRound => &[UnlockName::Walking],
            Self::NextPatch => &[UnlockName::Surface, UnlockName::Walking],
            Self::CloseEyes => &[UnlockName::EyesClosed],
            Self::BlindSteps => &[UnlockName::Walking, UnlockName::EyesClosed],
            Self::Shift
            | Self::RaiseHeels
            | Self::Reach
            | Self::Step
            | Self::Rise
            | Self::Hold
            | Self::NarrowStance
            | Self::TurnHead
            | Self::Follow
            | Self::Watch
            | Self::Touch
            | Self::Toss
            | Self::Throw => &[],
        }
    }

    /// Whether it is done to the person from outside: a push, a tug, a ball, a moving base, a touch. Never with the
    /// eyes closed, nor near it.
    pub const fn is_disturbance(self) -> bool {
        self.is_push() || matches!(self, Self::Toss | Self::Throw | Self::Slide | Self::Tilt | Self::Touch)
    }

    /// Whether a partner's hand moves the person. It has a strength, nothing audible goes before it, and a set holds
    /// at most six.
    pub const fn is_push(self) -> bool {
        matches!(self, Self::Push | Self::Nudge | Self::Tug)
    }

    /// Whether a partner throws a ball, of which there may be two.
    pub const fn is_toss(self) -> bool {
        matches!(self, Self::Toss)
    }

    /// Whether a ball is caught.
    pub const fn is_ball(self) -> bool {
        matches!(self, Self::Toss | Self::Throw)
    }

    /// Whether it has a duration, so that its end is called too.
    pub const fn is_span(self) -> bool {
        matches!(
            self,
            Self::Hold
                | Self::NarrowStance
                | Self::CloseEyes
                | Self::BlindSteps
                | Self::Rise
                | Self::Stop
                | Self::Watch
        )
    }

    /// Whether the eyes are closed during it.
    pub const fn closes_eyes(self) -> bool {
        matches!(self, Self::CloseEyes | Self::BlindSteps)
    }

    /// Whether it cannot be done alone.
    pub const fn needs_partner(self) -> bool {
        matches!(
            self,
            Self::Push
                | Self::Nudge
                | Self::Tug
                | Self::Toss
                | Self::Slide
                | Self::Tilt
                | Self::Touch
                | Self::Follow
                | Self::GoRound
                | Self::NextPatch
                | Self::BlindSteps
        )
    }

    /// Whether it is shown on the screen, so that a sound file alone is not enough.
    pub const fn needs_screen(self) -> bool {
        matches!(self, Self::Watch)
    }

    /// Whether the person walks.
    pub const fn is_walking(self) -> bool {
        matches!(
            self,
            Self::Nudge
                | Self::Stop
                | Self::ChangePace
                | Self::TurnRound
                | Self::GoRound
                | Self::NextPatch
                | Self::BlindSteps
        )
    }

    /// What must be in place before it.
    pub const fn needs(self) -> Option<Need> {
        match self {
            Self::Rise => Some(Need::ChairAgainstWall),
            Self::Slide | Self::Tilt => Some(Need::OwnBase),
            _ if self.is_walking() => Some(Need::FreeStretch),
            _ => None,
        }
    }
}
