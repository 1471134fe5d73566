//! A prescription while it is being written: every field can be changed, whether or not the value is allowed. The
//! gate is asked what is still wrong with it.

use super::field::{Field, GapShape, SequenceName, Sheet};
use super::fields::row;
use super::{Prescription, Refusal, limits};
use crate::plan::drill::{Action, Drill, Form, Ladder, Need, Target};
use crate::units::Millis;

pub use super::fields::{Draft, DraftDrill};

mod problems;

pub use problems::{is_pending, problems};

impl Draft {
    /// The draft that this prescription was read from.
    ///
    /// ```
    /// use counterpoise_core::plan::prescription::{Draft, Prescription};
    /// let draft = Draft::of(Prescription::ready("gentle").unwrap());
    /// assert!(draft.problems().is_empty(), "the gate has nothing against it");
    /// let more = Draft { days_a_week: 7, ..draft };
    /// assert_eq!(more.problems()[0].fact(), "`days_a_week` is 7; the most is 6");
    /// ```
    pub fn of(prescription: &Prescription) -> Self {
        prescription.draft.clone()
    }

    /// Everything that the gate has against it, in the gate's words.
    pub fn problems(&self) -> Vec<Refusal> {
        problems(self)
    }

    /// The prescription, if the gate admits it.
    ///
    /// # Errors
    /// The first rule that it breaks.
    pub fn admit(&self) -> Result<Prescription, Refusal> {
        Prescription::read("this prescription", self.to_toml().as_bytes())
    }
}

impl DraftDrill {
    /// A drill that is added: at its first step, with what it may call in this form before anything was watched, gaps
    /// that suit its slowest call, and room in a set for several.
    pub fn new(drill: &'static Drill, form: Form) -> Self {
        let plain = |target: &&Target| !target.direction.is_backward() && target.action.unlocks().is_empty();
        let offered: Vec<&Target> = Self { drill, form, ..Self::blank() }.offered().collect();
        let free: Vec<&Target> = offered.iter().copied().filter(plain).collect();
        let forward = |target: &&Target| !target.direction.is_backward();
        let listed = if free.is_empty() { offered.iter().copied().filter(forward).collect() } else { free };
        let listed = if listed.is_empty() { offered } else { listed };
        let directions = listed.iter().map(|target| target.name.clone()).collect();
        let rate_thousandths = Some(1_250);
        let mut added =
            Self { drill, form, sets: 1, work_ms: 60_000, rate_thousandths, directions, ..Self::blank() };
        added.gap_ms = added.usual_gaps();
        let span = i64::from(added.targets().map(Target::duration).max().unwrap_or_default().0);
        // Room for two of the longest waits, their durations, and recovery.
        let needed = (added.gap_ms[1] + span) * 2 + added.recover_ms;
        added.work_ms = added.work_ms.max((needed + 9_999) / 10_000 * 10_000).min(limits::WORK.most.into());
        added.tidy();
        added
    }

    /// The version of its ladder that its steps are counted on; the first, if the drill has no such version.
    pub fn ladder(&self) -> &'static Ladder {
        let version = self.ladder.and_then(|version| self.drill.ladder_version(version));
        version.unwrap_or(&self.drill.ladders()[0])
    }

    /// The listed targets that the drill has.
    pub fn targets(&self) -> impl Iterator<Item = &'static Target> {
        let drill = self.drill;
        self.directions.iter().filter_map(|name| drill.targets().iter().find(|target| target.name == *name))
    }

    /// The shortest gap that the slowest call allows, in milliseconds.
    pub fn shortest_gap(&self) -> Millis {
        let parts = self.drill.parts().iter().filter_map(|part| part.action);
        let actions = self.targets().map(|target| target.action).chain(parts);
        actions.map(Action::shortest_gap).max().unwrap_or_default()
    }

    /// Whether a partner pushes.
    pub fn has_pushes(&self) -> bool {
        self.targets().any(|target| target.action.is_push())
    }

    /// Gaps that are usual for what it calls: 5 to 15 s; pushes 12 to 40 s.
    pub fn usual_gaps(&self) -> [i64; 2] {
        if self.has_pushes() {
            return [12_000, 40_000];
        }
        let lead = if self.form == Form::Partner { i64::from(self.drill.lead().0) } else { 0 };
        let blind = self.targets().any(|target| target.action.closes_eyes());
        let quiet =
            if blind { self.recover_ms.max(limits::AFTER_EYES_OPEN.0.into()) } else { self.recover_ms };
        let after_lead = if lead > 0 { lead + quiet } else { 0 };
        let least = i64::from(self.shortest_gap().0).max(5_000).max(after_lead);
        [least, least + 10_000]
    }

    /// Removes what no longer applies after an earlier choice, so that no answer is refused for a line that nobody asked
    /// for. Returns what was changed, in words.
    pub fn tidy(&mut self) -> Vec<String> {
        let mut changes = Vec::new();
        let mut change = |happened: bool, text: &str| {
            if happened {
                changes.push(text.to_owned());
            }
        };
        if self.form == Form::Alone {
            let before = self.directions.len();
            let needs = |name: &String| {
                self.drill.targets().iter().any(|t| t.name == *name && t.action.needs_partner())
            };
            let kept: Vec<String> = self.directions.iter().filter(|name| !needs(name)).cloned().collect();
            if !kept.is_empty() {
                self.directions = kept;
            }
            change(self.directions.len() < before, "Calls that need a partner were removed.");
        }
        let count = self.directions.len();
        if self.weights.as_ref().is_some_and(|weights| weights.len() != count) {
            self.weights = None;
            change(true, "Each direction is called equally often again.");
        }
        if count == 1 && self.sequence == SequenceName::Covered {
            self.sequence = SequenceName::Open;
            change(true, "With only one direction, the sequence is now \"open\".");
        }
        if self.sequence == SequenceName::Open {
            self.slack = None;
        } else {
            self.weights = None;
        }
        if self.shape == GapShape::Even {
            self.rate_thousandths = None;
        }
        if self.longest_streak.is_some_and(|streak| count < 2 || !limits::streak(count).allows(streak)) {
            self.longest_streak = None;
            change(true, "The longest streak is back to the usual number.");
        }
        for field in [&row::strength, &row::balls, &row::spell_ms] {
            if !self.suits(field) {
                self.set(field, None);
            }
        }
        let ladder = self.ladder();
        if let Some(named) = &mut self.named_steps {
            let before = named.len();
            named.retain(|key| ladder.version() > 1 && ladder.nameable().any(|(other, _)| other == key));
            change(
                named.len() < before,
                "Steps allowed by name that this ladder does not have were removed.",
            );
            if named.is_empty() {
                self.named_steps = None;
            }
        }
        if self.ceiling < self.step {
            self.ceiling = self.step;
            change(true, "The ceiling was raised to the step.");
        }
        if !self.reaches_a_spell() && self.tested_hold_ms.take().is_some() {
            change(true, "No step is in tandem or on one leg any more, so the tested hold was removed.");
        }
        changes
    }

    /// Whether a field means anything for this drill as it is now.
    pub fn suits(&self, field: &Field) -> bool {
        match field.name {
            "ladder" => self.drill.ladders().len() > 1,
            "named_steps" => self.ladder().version() > 1 && self.ladder().nameable().next().is_some(),
            "form" => self.drill.forms().len() > 1,
            "directions" => self.offered().count() > 1,
            "weights" => self.directions.len() > 1 && self.sequence == SequenceName::Open,
            "rate_thousandths" => self.shape == GapShape::Flat,
            "sequence" | "longest_streak" => self.directions.len() > 1,
            "slack" => self.sequence == SequenceName::Covered,
            "strength" => self.has_pushes(),
            "balls" => self.targets().any(|target| target.action.is_toss()),
            "spell_ms" => self.targets().any(|target| target.span.is_some()),
            "tested_hold_ms" => self.reaches_a_spell(),
            "confirmed" => !self.needs().is_empty(),
            _ => true,
        }
    }

    /// What the drill can call in this form.
    pub fn offered(&self) -> impl Iterator<Item = &'static Target> + use<> {
        let form = self.form;
        let suits = move |target: &&Target| form == Form::Partner || !target.action.needs_partner();
        self.drill.targets().iter().filter(suits)
    }

    /// Whether a step in tandem or on one leg may be reached.
    pub fn reaches_a_spell(&self) -> bool {
        self.ladder().reachable(self.step, self.ceiling).any(|(_, step)| step.stance.is_spell())
    }

    /// What must be confirmed to be in place, for what is listed and the steps that may be reached.
    pub fn needs(&self) -> Vec<Need> {
        let by_step = self.ladder().reachable(self.step, self.ceiling).flat_map(|(_, step)| step.needs());
        let mut needs: Vec<Need> =
            self.targets().filter_map(|target| target.action.needs()).chain(by_step).collect();
        needs.retain(|need| *need != Need::Partner);
        needs.sort_unstable();
        needs.dedup();
        needs
    }
}

#[cfg(test)]
mod test;
