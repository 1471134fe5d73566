//! The kinds of practice: what each asks for, where a person stands, and its ladder from gentlest to hardest.
//! Read from `presets/drills/`, which is built in. Not what a therapist allows of it (that is `prescription`).

use std::fmt;
use std::sync::LazyLock;

use serde::{Deserialize, Serialize};

use crate::direction::Direction;
use crate::millis::Millis;
use crate::phrase::Phrase;

mod text;

pub use text::{DrillError, Flaw};

/// The drill files that are built in, gentlest first. To add a drill, add a file and a line here.
const FILES: [(&str, &str); 2] = [
    ("counter-shift", include_str!("../presets/drills/counter-shift.toml")),
    ("counter-reach", include_str!("../presets/drills/counter-reach.toml")),
];

/// Who is needed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Form {
    /// The trainee, with the app.
    Alone,
    /// The trainee and a partner within reach.
    Partner,
}

impl Form {
    /// The word in files.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Alone => "alone",
            Self::Partner => "partner",
        }
    }
}

/// What a cue asks for. Each has the shortest gap that may follow or precede it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Action {
    /// Shift the weight toward a side, feet in place.
    #[serde(rename = "shift")]
    Shift,
    /// Rise on the toes and come down.
    #[serde(rename = "raise heels")]
    RaiseHeels,
    /// Reach toward a side and come back.
    #[serde(rename = "reach")]
    Reach,
}

impl Action {
    /// The word in files and on screens.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Shift => "shift",
            Self::RaiseHeels => "raise heels",
            Self::Reach => "reach",
        }
    }

    /// The least time from one cue to the next (`gap`).
    ///
    /// 4 s: at least 2.2 s to regain balance after a lateral disturbance (BMC Geriatrics 2020, 01650-4, table 2,
    /// mean + 2 SD \[derived\]), plus time to reset \[judgment\].
    pub const fn shortest_gap(self) -> Millis {
        match self {
            Self::Shift | Self::RaiseHeels | Self::Reach => Millis(4_000),
        }
    }
}

/// How the feet stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Stance {
    /// About hip width.
    #[serde(rename = "feet apart")]
    FeetApart,
    /// Side by side, touching.
    #[serde(rename = "feet together")]
    FeetTogether,
    /// One foot half a step ahead of the other; which one is the set's `side`.
    #[serde(rename = "semi-tandem")]
    SemiTandem,
}

/// What is under the feet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Surface {
    /// A floor.
    #[serde(rename = "firm")]
    Firm,
}

/// What the hands rest on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Support {
    /// Both hands rest on the counter.
    #[serde(rename = "two hands")]
    TwoHands,
    /// One hand rests on it.
    #[serde(rename = "one hand")]
    OneHand,
    /// The fingertips touch it.
    #[serde(rename = "fingertips")]
    Fingertips,
    /// The hands are just above it.
    #[serde(rename = "hands hovering")]
    Hovering,
}

/// Eyes open or closed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Vision {
    /// Eyes open.
    #[serde(rename = "open")]
    Open,
}

/// The foot that is ahead.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Side {
    /// The trainee's left.
    Left,
    /// The trainee's right.
    Right,
}

/// Whether a drill trains a chosen movement or a reaction to a real disturbance. The app says which.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Trains {
    /// A called movement: a voluntary reach, shift or step.
    Voluntary,
    /// A reaction to a push, tug, caught ball or moving base.
    Reactive,
}

/// One thing that a drill may call: a direction, the action that goes there, and how it is said.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Target {
    /// Where.
    pub direction: Direction,
    /// What to do.
    pub action: Action,
    /// How it is said.
    pub phrase: Phrase,
}

impl Target {
    /// The words on the screen, in capitals: `REACH LEFT`.
    pub fn show(&self) -> String {
        self.phrase.words().to_uppercase()
    }
}

/// One step of a ladder: the conditions under which the drill is done.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LadderStep {
    /// How the feet stand.
    pub stance: Stance,
    /// What is under the feet.
    pub surface: Surface,
    /// What the hands rest on.
    pub support: Support,
    /// Eyes open or closed.
    pub vision: Vision,
}

impl LadderStep {
    /// How many things differ in `next`. A ladder changes one at a time.
    fn changes_to(self, next: Self) -> usize {
        let Self { stance, surface, support, vision } = self;
        [stance != next.stance, surface != next.surface, support != next.support, vision != next.vision]
            .into_iter()
            .filter(|differs| *differs)
            .count()
    }
}

/// One kind of practice.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Drill {
    name: String,
    title: String,
    about: String,
    forms: Vec<Form>,
    kit: Vec<String>,
    facing: Facing,
    behind: String,
    fixed_support: String,
    trains: Trains,
    evidence: String,
    instruction: Phrase,
    warm_up: bool,
    cautions: Vec<String>,
    targets: Vec<Target>,
    ladder: Vec<LadderStep>,
}

/// How the trainee faces the counter.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Facing {
    /// The counter is ahead.
    #[serde(rename = "counter ahead")]
    CounterAhead,
}

impl Drill {
    /// The built-in drill with this name.
    ///
    /// ```
    /// use counterpoise::drill::Drill;
    /// assert_eq!(Drill::named("counter-reach").unwrap().title(), "Reaches at the counter");
    /// assert_eq!(Drill::named("no such drill"), None);
    /// ```
    pub fn named(name: &str) -> Option<&'static Self> {
        Self::all().iter().find(|drill| drill.name == name)
    }
    /// Every built-in drill, gentlest first.
    pub fn all() -> &'static [Self] {
        static DRILLS: LazyLock<Vec<Drill>> = LazyLock::new(|| {
            let read = |(name, text): &(&str, &str)| {
                Drill::from_toml(name, text).expect("every built-in drill file is sound, as a test proves")
            };
            FILES.iter().map(read).collect()
        });
        &DRILLS
    }
    /// Its name in files.
    pub fn name(&self) -> &str {
        &self.name
    }
    /// Its name for people.
    pub fn title(&self) -> &str {
        &self.title
    }
    /// What happens, in a sentence or two.
    pub fn about(&self) -> &str {
        &self.about
    }
    /// Alone, with a partner, or both.
    pub fn forms(&self) -> &[Form] {
        &self.forms
    }
    /// What is needed.
    pub fn kit(&self) -> &[String] {
        &self.kit
    }
    /// How the trainee faces the counter.
    pub fn facing(&self) -> Facing {
        self.facing
    }
    /// What must be behind the trainee.
    pub fn behind(&self) -> &str {
        &self.behind
    }
    /// The fixed support within a hand's reach.
    pub fn fixed_support(&self) -> &str {
        &self.fixed_support
    }
    /// Voluntary or reactive.
    pub fn trains(&self) -> Trains {
        self.trains
    }
    /// Where it comes from.
    pub fn evidence(&self) -> &str {
        &self.evidence
    }
    /// What is said before its sets.
    pub fn instruction(&self) -> Phrase {
        self.instruction
    }
    /// Whether its first step serves as a warm-up.
    pub fn is_warm_up(&self) -> bool {
        self.warm_up
    }
    /// What to take care of.
    pub fn cautions(&self) -> &[String] {
        &self.cautions
    }
    /// What it may call.
    pub fn targets(&self) -> &[Target] {
        &self.targets
    }
    /// Its steps, from gentlest to hardest.
    pub fn ladder(&self) -> &[LadderStep] {
        &self.ladder
    }
}

/// The words of files and screens, for each thing that a ladder sets.
macro_rules! say {
    ($($kind:ident { $($variant:ident => $words:literal),+ $(,)? })+) => {$(
        impl fmt::Display for $kind {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str(match self { $(Self::$variant => $words),+ })
            }
        }
    )+};
}

say! {
    Stance { FeetApart => "feet apart", FeetTogether => "feet together", SemiTandem => "semi-tandem" }
    Surface { Firm => "firm" }
    Support { TwoHands => "two hands", OneHand => "one hand", Fingertips => "fingertips", Hovering => "hands hovering" }
    Vision { Open => "open" }
    Facing { CounterAhead => "counter ahead" }
}

#[cfg(test)]
mod test;
