//! What precautions leave of a prescription: calls, parts, steps and drills that they rule out are taken away before
//! anything is drawn, for practice and for everything else that goes by the prescription.

use std::fmt;

use super::set_counts::redraw_share_above;
use super::{DrillPlan, Prescription, Sequence, gate, limits};
use crate::plan::drill::{Drill, Part, Trains};
use crate::plan::precaution::Precautions;
use crate::units::Millis;

/// What precautions took from one drill.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Narrowing {
    /// The drill.
    pub drill: &'static Drill,
    /// What was taken.
    pub what: Taken,
    /// The precautions that took it.
    pub because: Precautions,
}

/// What precautions take.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Taken {
    /// The whole drill.
    Drill,
    /// These calls, in their words.
    Calls(Vec<String>),
    /// These parts of its calls, in their words.
    Parts(Vec<String>),
    /// Every step above this one.
    StepsAbove(u8),
}

/// A fact with a full stop.
impl fmt::Display for Narrowing {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (title, because) = (self.drill.title(), self.because);
        match &self.what {
            Taken::Drill => write!(f, "{title}: left out ({because})."),
            Taken::Calls(words) => write!(f, "{title}: not called: {} ({because}).", words.join(", ")),
            Taken::Parts(words) => write!(f, "{title}: not added: {} ({because}).", words.join(", ")),
            Taken::StepsAbove(step) => write!(f, "{title}: step {step} at most ({because})."),
        }
    }
}

impl Prescription {
    /// What the person must not do: every drill is already within it.
    pub fn precautions(&self) -> Precautions {
        self.precautions
    }

    /// What the precautions took from it.
    pub fn narrowings(&self) -> &[Narrowing] {
        &self.narrowings
    }

    /// The same prescription for somebody with these precautions too. The digest stays that of the file.
    ///
    /// ```
    /// use counterpoise_core::plan::precaution::{Precaution, Precautions};
    /// use counterpoise_core::plan::prescription::Prescription;
    /// let gentle = Prescription::ready("gentle").unwrap();
    /// let within = gentle.within(Precautions::of(&[Precaution::LeftArmDown]));
    /// let called: Vec<&str> = within.drills()[1].targets().iter().map(|target| target.name.as_str()).collect();
    /// assert_eq!(called, ["right", "forward right"], "straight ahead either hand may reach");
    /// ```
    #[must_use]
    pub fn within(&self, precautions: Precautions) -> Self {
        let mut narrowed = self.clone();
        if !precautions.without(self.precautions).is_empty() {
            narrowed.precautions = self.precautions | precautions;
            narrowed.narrow();
        }
        narrowed
    }

    /// Takes away what the precautions rule out. The first drill stays a warm-up at its first step: where the prescription's
    /// own is ruled out, the built-in one takes its place.
    pub(super) fn narrow(&mut self) {
        let precautions = self.precautions;
        if precautions.is_empty() {
            return;
        }
        let whole = std::mem::take(&mut self.drills);
        self.drills =
            whole.into_iter().filter_map(|plan| plan.narrowed(precautions, &mut self.narrowings)).collect();
        let is_warm_up = |plan: &DrillPlan| plan.drill.is_warm_up() && plan.step == 1;
        if !self.drills.first().is_some_and(is_warm_up) {
            let warm_up = gate::built_in_warm_up().narrowed(precautions, &mut Vec::new());
            self.drills
                .insert(0, warm_up.expect("leaning forward with both hands at rest is never ruled out"));
            let is_over = |drills: &[DrillPlan]| {
                let work = drills.iter().map(|plan| u32::from(plan.sets) * plan.work.0).sum();
                let sets: u32 = drills.iter().map(|plan| u32::from(plan.sets)).sum();
                Millis(work) > limits::ACTIVE || sets > limits::SETS.most
            };
            while self.drills.len() > 1 && is_over(&self.drills) {
                self.drills.pop();
            }
        }
    }
}

impl DrillPlan {
    /// What the precautions leave of it; `None` if that is nothing, or no longer what the drill is for. What was taken is
    /// added to `taken`.
    pub(super) fn narrowed(mut self, precautions: Precautions, taken: &mut Vec<Narrowing>) -> Option<Self> {
        let drill = self.drill;
        let mut take = |what, because| taken.push(Narrowing { drill, what, because });

        let steps = || self.ladder.steps().iter().take(self.ceiling.into());
        // A step beyond one that is ruled out is not reached.
        let highest = steps().take_while(|step| (step.ruled_out_by() & precautions).is_empty()).count() as u8;
        let by_steps = steps().nth(highest.into()).map_or(Precautions::NONE, |step| step.ruled_out_by());
        if highest == 0 {
            take(Taken::Drill, by_steps & precautions);
            return None;
        }
        if highest < self.ceiling {
            take(Taken::StepsAbove(highest), by_steps & precautions);
            self.ceiling = highest;
            self.step = self.step.min(highest);
        }

        let calls = self.targets.len();
        let disturbs = |plan: &Self| plan.targets.iter().any(|target| target.action.is_disturbance());
        let is_left = |plan: &Self, nth: usize| (plan.targets[nth].ruled_out_by() & precautions).is_empty();
        let (kept, gone): (Vec<usize>, Vec<usize>) = (0..calls).partition(|nth| is_left(&self, *nth));
        let gone_by = gone
            .iter()
            .fold(Precautions::NONE, |all, nth| all | (self.targets[*nth].ruled_out_by() & precautions));
        let words: Vec<String> = gone.iter().map(|nth| self.targets[*nth].words()).collect();
        self.weights = kept.iter().map(|nth| self.weights[*nth]).collect();
        self.targets = kept.iter().map(|nth| self.targets[*nth].clone()).collect();
        let is_empty = self.targets.is_empty() || (drill.trains() == Trains::Reactive && !disturbs(&self));
        if is_empty {
            take(Taken::Drill, gone_by);
            return None;
        }
        if !gone.is_empty() {
            self.longest_streak = match (self.longest_streak, self.targets.len()) {
                (_, 1) | (None, _) => None,
                (Some(streak), left) => Some(streak.max(limits::streak(left).least as u8)),
            };
            if self.targets.len() == 1 {
                self.sequence = Sequence::Open;
            }
            if redraw_share_above(limits::REDRAW_MOST, &self).is_some() {
                take(Taken::Drill, gone_by);
                return None;
            }
            take(Taken::Calls(words), gone_by);
        }
        if !self.has_pushes() {
            self.strength = None;
        }
        if !self.targets.iter().any(|target| target.action.is_toss()) {
            self.balls = 1;
        }
        self.narrow_parts(precautions, &mut take);
        Some(self)
    }

    /// Each part keeps the directions toward which it may still be added.
    fn narrow_parts(&mut self, precautions: Precautions, take: &mut impl FnMut(Taken, Precautions)) {
        let mut because = Precautions::NONE;
        let mut gone = Vec::new();
        let parts = std::mem::take(&mut self.parts);
        for mut part in parts {
            let suited = self.targets.iter().map(|target| target.direction).filter(|way| part.suits(*way));
            let (kept, ruled_out): (Vec<_>, Vec<_>) =
                suited.partition(|way| (part.ruled_out_by(*way) & precautions).is_empty());
            if ruled_out.is_empty() {
                self.parts.push(part);
                continue;
            }
            because =
                ruled_out.iter().fold(because, |all, way| all | (part.ruled_out_by(*way) & precautions));
            let words = part.phrase.words();
            if kept.is_empty() {
                gone.push(words.to_owned());
            } else {
                let ways: Vec<&str> = ruled_out.iter().map(|way| way.name()).collect();
                gone.push(format!("{words} ({})", ways.join(", ")));
                part = Part { directions: kept, ..part };
                self.parts.push(part);
            }
        }
        if !gone.is_empty() {
            take(Taken::Parts(gone), because);
        }
    }
}

#[cfg(test)]
mod test;
