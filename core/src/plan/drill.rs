//! The kinds of practice: what each asks for, how the person stands, and its ladder from gentlest to hardest. They
//! are read from `presets/drills/`, which is built in.

use std::sync::LazyLock;

use crate::plan::phrase::Phrase;
use crate::units::Millis;
use crate::words;

mod action;
mod conditions;
mod drill_caution;
mod file;
pub mod hazards;
mod ladders;
mod need;
mod target;
mod unlock;

pub use action::Action;
pub use conditions::{Facing, LadderStep, SecondTask, Side, Stance, Support, Surface, Vision};
pub use drill_caution::{DrillCaution, Movement};
pub use file::{DrillError, Flaw};
pub use ladders::{Ladder, LadderFlaw, Misstep};
pub use need::Need;
pub use target::{Ball, Instruction, Part, Span, Strength, Target, direction_phrase};
pub use unlock::UnlockName;

/// The drill files that are built in, gentlest first. To add a drill, add a file and a line here.
const FILES: [(&str, &str); 18] = [
    ("counter-shift", include_str!("../../../presets/drills/counter-shift.toml")),
    ("counter-reach", include_str!("../../../presets/drills/counter-reach.toml")),
    ("steady-holds", include_str!("../../../presets/drills/steady-holds.toml")),
    ("head-turns", include_str!("../../../presets/drills/head-turns.toml")),
    ("slow-target", include_str!("../../../presets/drills/slow-target.toml")),
    ("following", include_str!("../../../presets/drills/following.toml")),
    ("shoulder-looks", include_str!("../../../presets/drills/shoulder-looks.toml")),
    ("combined-reaches", include_str!("../../../presets/drills/combined-reaches.toml")),
    ("quick-steps", include_str!("../../../presets/drills/quick-steps.toml")),
    ("fast-rises", include_str!("../../../presets/drills/fast-rises.toml")),
    ("called-changes", include_str!("../../../presets/drills/called-changes.toml")),
    ("wall-throws", include_str!("../../../presets/drills/wall-throws.toml")),
    ("catching", include_str!("../../../presets/drills/catching.toml")),
    ("counter-walk", include_str!("../../../presets/drills/counter-walk.toml")),
    ("floor-course", include_str!("../../../presets/drills/floor-course.toml")),
    ("moving-base", include_str!("../../../presets/drills/moving-base.toml")),
    ("pushes", include_str!("../../../presets/drills/pushes.toml")),
    ("interrupted-walking", include_str!("../../../presets/drills/interrupted-walking.toml")),
];

/// Whether a drill is done alone or with a partner.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Form {
    /// The trainee, with the app.
    Alone,
    /// The trainee and a partner within reach.
    Partner,
}

/// Whether a drill trains a chosen movement or a reaction to a real disturbance. The app says which.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Trains {
    /// A called movement: a voluntary reach, shift or step.
    Voluntary,
    /// A reaction to a push, tug, caught ball or moving base.
    Reactive,
}

words! {
    Form {
        Alone => "alone",
        Partner => "partner",
    }
    Trains {
        Voluntary => "voluntary",
        Reactive => "reactive",
    }
}

/// The missing evidence, after what it is about.
macro_rules! no_trial_at_home {
    () => {
        "No trial of it at home without a harness was found: that is a gap in the evidence, not evidence of safety."
    };
}

/// The missing evidence for what is done to a person from outside, for walking, and for a soft base.
pub const NO_TRIAL_AT_HOME: &str = no_trial_at_home!();

impl Trains {
    /// What such a drill does not train, in one sentence.
    pub const fn limitation(self) -> &'static str {
        match self {
            Self::Voluntary => {
                "A called movement trains a movement that the person chooses, not a reaction to a real disturbance."
            }
            Self::Reactive => {
                concat!("A real disturbance trains a reaction. ", no_trial_at_home!())
            }
        }
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
    facings: Vec<Facing>,
    behind: String,
    fixed_support: String,
    trains: Trains,
    evidence: String,
    limitation: Option<String>,
    instruction: Phrase,
    instruction_two: Option<Phrase>,
    prepare: Option<Phrase>,
    partner_does: Vec<String>,
    lead: Millis,
    warm_up: bool,
    cautions: Vec<DrillCaution>,
    targets: Vec<Target>,
    parts: Vec<Part>,
    ladders: Vec<Ladder>,
}

impl Drill {
    /// The built-in drill with this name.
    ///
    /// ```
    /// use counterpoise_core::plan::drill::Drill;
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
    /// The small kit that is needed, in words.
    pub fn kit(&self) -> &[String] {
        &self.kit
    }
    /// How the trainee faces the counter; more than one take turns, set by set.
    pub fn facings(&self) -> &[Facing] {
        &self.facings
    }
    /// What must be behind the trainee.
    pub fn behind(&self) -> &str {
        &self.behind
    }
    /// The fixed support within a hand's reach.
    pub fn fixed_support(&self) -> &str {
        &self.fixed_support
    }
    /// Whether it trains a chosen movement or a reaction.
    pub fn trains(&self) -> Trains {
        self.trains
    }
    /// The evidence for it, with its source.
    pub fn evidence(&self) -> &str {
        &self.evidence
    }
    /// What it does not train, where its kind alone does not say so.
    pub fn limitation(&self) -> &str {
        self.limitation.as_deref().unwrap_or(self.trains.limitation())
    }
    /// The phrase spoken before its sets, for this number of balls in play.
    pub fn instruction(&self, balls: u8) -> Phrase {
        self.instruction_two.filter(|_| balls == 2).unwrap_or(self.instruction)
    }
    /// The phrase spoken when it follows another drill: the kit to put in place.
    pub fn prepare(&self) -> Option<Phrase> {
        self.prepare
    }
    /// What the partner does, sentence by sentence, for the set-up page.
    pub fn partner_does(&self) -> &[String] {
        &self.partner_does
    }
    /// How long before a cue the partner is told, in the form with a partner.
    pub fn lead(&self) -> Millis {
        self.lead
    }
    /// Whether its first step serves as a warm-up.
    pub fn is_warm_up(&self) -> bool {
        self.warm_up
    }
    /// What to take care of, whatever of it a prescription contains.
    pub fn cautions(&self) -> &[DrillCaution] {
        &self.cautions
    }
    /// Everything that it may call.
    pub fn targets(&self) -> &[Target] {
        &self.targets
    }
    /// Whether the person walks over patches on the floor, which the settings name.
    pub fn is_over_patches(&self) -> bool {
        self.targets.iter().any(|target| target.action == Action::NextPatch)
    }
    /// The parts that may be added to its calls.
    pub fn parts(&self) -> &[Part] {
        &self.parts
    }
    /// The steps of its first ladder, from gentlest to hardest.
    pub fn ladder(&self) -> &[LadderStep] {
        self.ladders[0].steps()
    }
    /// This version of its ladder, if there is one.
    pub fn ladder_version(&self, version: i64) -> Option<&Ladder> {
        self.ladders.iter().find(|ladder| i64::from(ladder.version()) == version)
    }
    /// Every version of its ladder, oldest first. A version never changes once it was released.
    pub fn ladders(&self) -> &[Ladder] {
        &self.ladders
    }
    /// What somebody must have watched before it is practiced at all: what its first step needs, and what all of its
    /// calls need. A harder step or a single call may need more.
    pub fn unlocks(&self) -> Vec<UnlockName> {
        let all =
            |name: &UnlockName| self.targets.iter().all(|target| target.action.unlocks().contains(name));
        let step = |name: &UnlockName| self.ladder()[0].unlocks().any(|other| other == *name);
        UnlockName::ALL.iter().copied().filter(|name| all(name) || step(name)).collect()
    }
    /// What must be in place before it is practiced in this form at this step.
    pub fn needs(&self, form: Form, step: LadderStep) -> Vec<Need> {
        let partner = (form == Form::Partner).then_some(Need::Partner);
        let actions = self.targets.iter().filter_map(|target| target.action.needs());
        let mut needs: Vec<Need> = actions.chain(step.needs()).chain(partner).collect();
        needs.sort_unstable();
        needs.dedup();
        needs
    }
    /// Whether the person walks in it.
    pub fn is_walking(&self) -> bool {
        self.targets.iter().any(|target| target.action.is_walking())
    }
}

#[cfg(test)]
mod test;
#[cfg(test)]
pub(crate) mod trial;
