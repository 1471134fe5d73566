//! The ladder of a drill: its steps from gentlest to hardest, each with a key. A ladder that was released never
//! changes; what is to be otherwise becomes its next version.

use serde::Deserialize;
use toml::Spanned;

use super::{LadderStep, SecondTask, Stance, Support, Surface, UnlockName, Vision};

/// One version of a drill's ladder.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Ladder {
    name: String,
    version: u8,
    steps: Vec<LadderStep>,
    keys: Vec<String>,
    watched: Vec<Option<UnlockName>>,
}

/// What is wrong with a ladder, and where.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("line {line}, ladder version {version}{}: {why}", if *step > 0 { format!(", step {step}") } else { String::new() })]
pub struct LadderFlaw {
    /// The line of the file.
    pub line: usize,
    /// The version as it is written.
    pub version: u8,
    /// The step, from 1; 0 is the ladder itself.
    pub step: usize,
    /// The rule.
    pub why: Misstep,
}

/// The rule that a ladder or a step of it breaks.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum Misstep {
    /// The versions do not count 1, 2, 3.
    #[error("the versions of a drill's ladder count from 1 without a gap, so this one must be {0}")]
    Version(u8),
    /// It has no name.
    #[error("`name` is empty")]
    Nameless,
    /// It has no steps.
    #[error("`steps` is an empty list")]
    Stepless,
    /// It differs from the step before in nothing, or in more than one thing.
    #[error("it changes {0} things from the step before; each step changes exactly one")]
    Changes(usize),
    /// It leaves a step out, or is gentler than the one before.
    #[error("{0} does not go on by one from the step before: a step is skipped, or it goes back")]
    Skips(&'static str),
    /// Its key is not made of plain words.
    #[error("the key \"{0}\" must be lower-case words joined by hyphens")]
    Key(String),
    /// Its key is that of another step.
    #[error("the key \"{0}\" already stands for another step of this drill")]
    KeyTwice(String),
    /// No hand rests, and nobody has to watch it first.
    #[error("no hand rests, so it needs an `unlock`: somebody has to watch it first")]
    HandAway,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RawLadder {
    version: u8,
    name: String,
    steps: Vec<Spanned<RawStep>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawStep {
    key: String,
    stance: Stance,
    surface: Surface,
    support: Support,
    vision: Vision,
    second_task: Option<SecondTask>,
    #[serde(default = "one")]
    parts: u8,
    /// What somebody must have watched, in addition to what the conditions need.
    unlock: Option<UnlockName>,
}

const fn one() -> u8 {
    1
}

impl Ladder {
    /// What is made harder along it, in a few words.
    pub fn name(&self) -> &str {
        &self.name
    }
    /// Its version, from 1.
    pub fn version(&self) -> u8 {
        self.version
    }
    /// Its steps, from gentlest to hardest. Step 1 is the first.
    pub fn steps(&self) -> &[LadderStep] {
        &self.steps
    }
    /// The key of each step, in the same order.
    pub fn keys(&self) -> &[String] {
        &self.keys
    }
    /// What somebody must have watched before this step, from 1, is practiced.
    pub fn unlocks(&self, step: u8) -> impl Iterator<Item = UnlockName> {
        let place = usize::from(step) - 1;
        self.steps[place].unlocks().chain(self.watched[place])
    }

    /// The steps that a therapist's file may name, each with its key.
    pub fn nameable(&self) -> impl Iterator<Item = (&str, LadderStep)> {
        let all = self.keys.iter().map(String::as_str).zip(self.steps.iter().copied());
        all.filter(|(_, step)| step.can_be_named())
    }

    /// The steps that practice may come to, with their numbers: from `step`, the one it starts at, to `ceiling`. From
    /// version 2 on the gentler ones too, since a day may lead to each.
    pub fn reachable(&self, step: i64, ceiling: i64) -> impl Iterator<Item = (u8, LadderStep)> {
        let first = if self.version == 1 { step } else { 1 };
        let within = move |(number, _): &(u8, LadderStep)| (first..=ceiling).contains(&i64::from(*number));
        (1..).zip(self.steps.iter().copied()).filter(within)
    }

    /// The ladders of a drill file, of which `text` is the whole.
    pub(super) fn all_of(raw: Vec<Spanned<RawLadder>>, text: &str) -> Result<Vec<Self>, LadderFlaw> {
        let line = |at: usize| text[..at].matches('\n').count() + 1;
        let mut ladders: Vec<Self> = Vec::with_capacity(raw.len());
        for (due, ladder) in (1..).zip(raw) {
            let at = line(ladder.span().start);
            let RawLadder { version, name, steps } = ladder.into_inner();
            let broken = [
                (version != due, Misstep::Version(due)),
                (name.trim().is_empty(), Misstep::Nameless),
                (steps.is_empty(), Misstep::Stepless),
            ];
            if let Some((_, why)) = broken.into_iter().find(|(broken, _)| *broken) {
                return Err(LadderFlaw { line: at, version, step: 0, why });
            }
            let mut ladder = Self { name, version, steps: vec![], keys: vec![], watched: vec![] };
            for step in steps {
                let (at, number) = (line(step.span().start), ladder.steps.len() + 1);
                let refuse = |why| LadderFlaw { line: at, version, step: number, why };
                ladder.add(step.into_inner(), &ladders).map_err(refuse)?;
            }
            ladders.push(ladder);
        }
        Ok(ladders)
    }

    /// Adds a step. The rules about skipping and hands are as old as version 2; version 1 stays as it was released.
    fn add(&mut self, raw: RawStep, earlier: &[Self]) -> Result<(), Misstep> {
        let RawStep { key, stance, surface, support, vision, second_task, parts, unlock } = raw;
        let step = LadderStep { stance, surface, support, vision, second_task, parts };
        let is_word = |word: &str| !word.is_empty() && word.chars().all(|letter| letter.is_ascii_lowercase());
        if !key.split('-').all(is_word) {
            return Err(Misstep::Key(key));
        }
        let other = |ladder: &Self| ladder.step_of(&key).is_some_and(|other| other != step);
        if self.step_of(&key).is_some() || earlier.iter().any(other) {
            return Err(Misstep::KeyTwice(key));
        }
        if let Some(before) = self.steps.last() {
            let changes = before.changes_to(step);
            if changes != 1 {
                return Err(Misstep::Changes(changes));
            }
            if let Some(skips) = before.skips_to(step).filter(|_| self.version > 1) {
                return Err(Misstep::Skips(skips));
            }
        }
        if self.version > 1 && !support.is_resting() && unlock.is_none() {
            return Err(Misstep::HandAway);
        }
        self.steps.push(step);
        self.keys.push(key);
        self.watched.push(unlock);
        Ok(())
    }

    fn step_of(&self, key: &str) -> Option<LadderStep> {
        let place = self.keys.iter().position(|other| other == key)?;
        Some(self.steps[place])
    }
}
