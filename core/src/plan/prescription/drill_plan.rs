//! One drill of a prescription with its ranges and dose, after the gate has checked it.

use super::limits;
use crate::plan::drill::{Drill, Form, Ladder, LadderStep, Need, Part, Strength, Target};
use crate::plan::gaps::GapRange;
use crate::units::Millis;

/// One drill with its ranges and dose.
#[derive(Debug, Clone)]
pub struct DrillPlan {
    pub(super) drill: &'static Drill,
    pub(super) ladder: &'static Ladder,
    pub(super) named_steps: Vec<String>,
    pub(super) form: Form,
    pub(super) sets: u8,
    pub(super) work: Millis,
    pub(super) recover: Millis,
    pub(super) step: u8,
    pub(super) ceiling: u8,
    pub(super) gaps: GapRange,
    pub(super) blank_per_mille: u16,
    pub(super) targets: Vec<Target>,
    pub(super) parts: Vec<Part>,
    pub(super) weights: Vec<u32>,
    pub(super) sequence: Sequence,
    pub(super) longest_streak: Option<u8>,
    pub(super) strength: Option<(Strength, Strength)>,
    pub(super) balls: u8,
    pub(super) tested_hold: Option<Millis>,
    pub(super) confirmed: Vec<Need>,
    pub(super) partners: Vec<String>,
    pub(super) line: usize,
}

/// How directions follow each other.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sequence {
    /// Drawn one by one among those that the streak limit allows now.
    Open,
    /// Drawn among all sequences in which every direction comes about equally often.
    Covered {
        /// How far each direction's count may lie below `floor(n / k)` or above `ceil(n / k)`.
        slack: u8,
    },
}

impl DrillPlan {
    /// The built-in drill that it is about.
    pub fn drill(&self) -> &'static Drill {
        self.drill
    }
    /// The version of its ladder that the steps are counted on.
    pub fn ladder(&self) -> &'static Ladder {
        self.ladder
    }
    /// The keys of the steps that the therapist's file names.
    pub fn named_steps(&self) -> &[String] {
        &self.named_steps
    }
    /// Alone or with a partner.
    pub fn form(&self) -> Form {
        self.form
    }
    /// Sets a session.
    pub fn sets(&self) -> u8 {
        self.sets
    }
    /// How long a set works.
    pub fn work(&self) -> Millis {
        self.work
    }
    /// How long before the end of the work the last cue may come.
    pub fn recover(&self) -> Millis {
        self.recover
    }
    /// The ladder step to start at, from 1.
    pub fn step(&self) -> u8 {
        self.step
    }
    /// The highest step that progression may reach.
    pub fn ceiling(&self) -> u8 {
        self.ceiling
    }
    /// The conditions at `step`.
    pub fn conditions(&self) -> LadderStep {
        self.conditions_at(self.step)
    }
    /// The conditions at this step of its ladder.
    ///
    /// # Panics
    /// If the ladder has no such step.
    pub fn conditions_at(&self, step: u8) -> LadderStep {
        self.ladder.steps()[usize::from(step) - 1]
    }
    /// The range of gaps between cues, with its shape.
    pub fn gaps(&self) -> GapRange {
        self.gaps
    }
    /// The chance of a blank, given that the last event was not one, in thousandths.
    pub fn blank_per_mille(&self) -> u16 {
        self.blank_per_mille
    }
    /// What may be called, in the order of the prescription.
    pub fn targets(&self) -> &[Target] {
        &self.targets
    }
    /// The parts that may be added to its calls: those of the drill, less what precautions rule out.
    pub fn parts(&self) -> &[Part] {
        &self.parts
    }
    /// The weight of each target; all 1 unless given.
    pub fn weights(&self) -> &[u32] {
        &self.weights
    }
    /// How directions follow each other.
    pub fn sequence(&self) -> Sequence {
        self.sequence
    }
    /// How often one direction may come in a row; no limit when there is only one.
    pub fn longest_streak(&self) -> Option<u8> {
        self.longest_streak
    }
    /// The gentlest and the firmest push; `None` where nothing is pushed.
    pub fn strength(&self) -> Option<(Strength, Strength)> {
        self.strength
    }
    /// How many balls are in play: 2 if one is named aloud as it leaves the hand, else 1.
    pub fn balls(&self) -> u8 {
        self.balls
    }
    /// How long the person was timed holding the stance, where tandem or one-leg stances are practiced.
    pub fn tested_hold(&self) -> Option<Millis> {
        self.tested_hold
    }
    /// What the prescription says is in place where the person practices.
    pub fn confirmed(&self) -> &[Need] {
        &self.confirmed
    }
    /// With whom it was watched, for a drill with a partner that needs an unlock: only with one of these. Empty where
    /// nothing had to be watched: any partner who read what the drill says.
    pub fn partners(&self) -> &[String] {
        &self.partners
    }
    /// The drill's cautions that are about something which this plan contains.
    pub fn cautions(&self) -> impl Iterator<Item = &'static str> {
        let stances = || self.reachable().map(|(_, step)| step.stance);
        let all = self.drill.cautions().iter();
        all.filter(move |caution| caution.applies(&self.targets, stances()))
            .map(crate::plan::drill::DrillCaution::text)
    }
    /// Whether a partner pushes, so that a set has at most six calls.
    pub fn has_pushes(&self) -> bool {
        self.targets.iter().any(|target| target.action.is_push())
    }
    /// The most calls of one set: six where a partner pushes, otherwise as many as fit.
    pub fn most_calls(&self) -> u32 {
        if self.has_pushes() { limits::SET_PUSHES } else { u32::MAX }
    }
    /// Whether all targets have the same duration, so that the moments do not depend on which ones come.
    pub fn has_equal_durations(&self) -> bool {
        self.targets.windows(2).all(|pair| pair[0].duration() == pair[1].duration())
    }
    /// The conditions of every step from where it starts to its ceiling, with their numbers.
    pub fn reachable(&self) -> impl Iterator<Item = (u8, LadderStep)> {
        self.ladder.reachable(self.step.into(), self.ceiling.into())
    }
    /// The line of the file on which this drill begins, for messages; 0 for the built-in warm-up.
    pub fn line(&self) -> usize {
        self.line
    }
}
