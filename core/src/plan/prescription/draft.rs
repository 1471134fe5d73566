//! A prescription while it is being written: every field can be changed, whether or not the value is allowed. The
//! gate is asked what is still wrong with it.

use jiff::civil::Date;

use super::{DrillOrder, DrillPlan, Prescription, Refusal, Sequence, Shape, Unlock, limits};
use crate::plan::drill::{Action, Drill, Form, Ladder, Need, Target};
use crate::units::Millis;

mod problems;

pub use problems::{is_pending, problems};

/// A prescription being written. Numbers are as they will be written to the file, whether or not they are within the limits.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Draft {
    /// The title that the person sees.
    pub title: String,
    /// Who issues it; may be empty.
    pub issued_by: String,
    /// The day of issue.
    pub issued_on: Date,
    /// Days of practice a week.
    pub days_a_week: i64,
    /// Weeks that the program lasts.
    pub weeks: i64,
    /// Sessions until a therapist reviews it.
    pub review_after_sessions: i64,
    /// Rest after a set, in milliseconds.
    pub rest_ms: i64,
    /// The order of the drills.
    pub order: DrillOrder,
    /// The drills. A built-in warm-up is not among them.
    pub drills: Vec<DraftDrill>,
    /// What somebody has watched, in the order of the file.
    pub unlocks: Vec<Unlock>,
    /// Effort above which nothing steps up.
    pub effort_at_most: i64,
    /// Why the person may begin although the answers about suitability say "a clinician first".
    pub accepted_because: Option<String>,
}

/// One drill of a draft.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DraftDrill {
    /// The built-in drill.
    pub drill: &'static Drill,
    /// The version of its ladder.
    pub ladder: &'static Ladder,
    /// The keys of the steps that are named for this person.
    pub named_steps: Vec<String>,
    /// Alone or with a partner.
    pub form: Form,
    /// Sets a session.
    pub sets: i64,
    /// Work of a set, in milliseconds.
    pub work_ms: i64,
    /// Quiet time that ends a set, in milliseconds.
    pub recover_ms: i64,
    /// The ladder step to start at, from 1.
    pub step: i64,
    /// The highest ladder step that practice may reach.
    pub ceiling: i64,
    /// The shortest and the longest gap, in milliseconds.
    pub gap_ms: [i64; 2],
    /// How strongly short gaps prevail, in thousandths; `None` for the shape "even".
    pub rate_thousandths: Option<i64>,
    /// The chance of a blank, in thousandths.
    pub blank_per_mille: i64,
    /// What is called, by the names that the drill gives.
    pub directions: Vec<String>,
    /// The weight of each direction; `None` if all are called equally often.
    pub weights: Option<Vec<i64>>,
    /// The slack of the sequence "covered"; `None` for "open".
    pub slack: Option<i64>,
    /// How often one direction may come in a row; `None` for the default.
    pub longest_streak: Option<i64>,
    /// The gentlest and the firmest push, from 1 to 4.
    pub strength: Option<[i64; 2]>,
    /// Balls in play; `None` where none are thrown.
    pub balls: Option<i64>,
    /// The duration of calls that last, in milliseconds; `None` for the drill's own.
    pub spell_ms: Option<i64>,
    /// How long the person was timed holding the stance, in milliseconds.
    pub tested_hold_ms: Option<i64>,
    /// What is confirmed to be in place.
    pub confirmed: Vec<Need>,
}

impl Draft {
    /// The draft that would be written as this prescription.
    ///
    /// ```
    /// use counterpoise_core::plan::prescription::{Draft, Prescription};
    /// let draft = Draft::of(Prescription::ready("gentle").unwrap());
    /// assert!(draft.problems().is_empty(), "the gate has nothing against it");
    /// let more = Draft { days_a_week: 7, ..draft };
    /// assert_eq!(more.problems()[0].fact(), "`days_a_week` is 7; the most is 6");
    /// ```
    pub fn of(prescription: &Prescription) -> Self {
        Self {
            title: prescription.title().to_owned(),
            issued_by: prescription.issued_by().to_owned(),
            issued_on: prescription.issued_on(),
            days_a_week: prescription.days_a_week().into(),
            weeks: prescription.weeks().into(),
            review_after_sessions: prescription.review_after_sessions().into(),
            rest_ms: prescription.rest().0.into(),
            order: prescription.order(),
            drills: prescription.drills().iter().filter(|plan| plan.line() > 0).map(DraftDrill::of).collect(),
            unlocks: prescription.unlocks().to_vec(),
            effort_at_most: prescription.effort_at_most().into(),
            accepted_because: prescription.accepted_because().map(str::to_owned),
        }
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
    fn of(plan: &DrillPlan) -> Self {
        let (flat, covered) = (plan.gaps().shape(), plan.sequence());
        let own = |target: &Target| {
            let same = |other: &&Target| other.name == target.name;
            plan.drill().targets().iter().find(same).and_then(|target| target.span).map(|span| span.length)
        };
        // All calls that last get the same duration; if it is the drill's own, none was given.
        let given =
            plan.targets().iter().filter_map(|target| target.span.map(|span| (own(target), span.length)));
        let given =
            given.filter(|(own, length)| *own != Some(*length)).map(|(_, length)| length.0.into()).next();
        let even_weights = plan.weights().iter().all(|weight| *weight == 1);
        Self {
            drill: plan.drill(),
            ladder: plan.ladder(),
            named_steps: plan.named_steps().to_vec(),
            form: plan.form(),
            sets: plan.sets().into(),
            work_ms: plan.work().0.into(),
            recover_ms: plan.recover().0.into(),
            step: plan.step().into(),
            ceiling: plan.ceiling().into(),
            gap_ms: [plan.gaps().least().0.into(), plan.gaps().greatest().0.into()],
            rate_thousandths: match flat {
                Shape::Flat { rate_thousandths } => Some(rate_thousandths.into()),
                Shape::Even => None,
            },
            blank_per_mille: plan.blank_per_mille().into(),
            directions: plan.targets().iter().map(|target| target.name.clone()).collect(),
            weights: (!even_weights)
                .then(|| plan.weights().iter().map(|weight| i64::from(*weight)).collect()),
            slack: match covered {
                Sequence::Open => None,
                Sequence::Covered { slack } => Some(slack.into()),
            },
            longest_streak: plan.longest_streak().map(i64::from),
            strength: plan.strength().map(|(low, high)| [low.number().into(), high.number().into()]),
            balls: (plan.balls() > 1).then_some(plan.balls().into()),
            spell_ms: given,
            tested_hold_ms: plan.tested_hold().map(|hold| hold.0.into()),
            confirmed: plan.confirmed().to_vec(),
        }
    }

    /// A drill that is added: at its first step, with what it may call in this form before anything was watched, gaps
    /// that suit its slowest call, and room in a set for several.
    pub fn new(drill: &'static Drill, form: Form) -> Self {
        let suits = |target: &&Target| form == Form::Partner || !target.action.needs_partner();
        let plain = |target: &&Target| !target.direction.is_backward() && target.action.unlocks().is_empty();
        let offered: Vec<&Target> = drill.targets().iter().filter(suits).collect();
        let free: Vec<&Target> = offered.iter().copied().filter(plain).collect();
        let forward = |target: &&Target| !target.direction.is_backward();
        let listed = if free.is_empty() { offered.iter().copied().filter(forward).collect() } else { free };
        let listed = if listed.is_empty() { offered } else { listed };
        let directions = listed.iter().map(|target| target.name.clone()).collect();
        let mut added = Self {
            drill,
            ladder: &drill.ladders()[0],
            named_steps: Vec::new(),
            form,
            sets: 1,
            work_ms: 60_000,
            recover_ms: 5_000,
            step: 1,
            ceiling: 1,
            gap_ms: [5_000, 15_000],
            rate_thousandths: Some(1_250),
            blank_per_mille: 100,
            directions,
            weights: None,
            slack: None,
            longest_streak: None,
            strength: None,
            balls: None,
            spell_ms: None,
            tested_hold_ms: None,
            confirmed: Vec::new(),
        };
        added.gap_ms = added.usual_gaps();
        let span = i64::from(added.targets().map(Target::duration).max().unwrap_or_default().0);
        // Room for two of the longest waits, their durations, and recovery.
        let needed = (added.gap_ms[1] + span) * 2 + added.recover_ms;
        added.work_ms = added.work_ms.max((needed + 9_999) / 10_000 * 10_000).min(limits::WORK.most.into());
        added.tidy();
        added
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
        if count == 1 && self.slack.take().is_some() {
            change(true, "With only one direction, the sequence is now \"open\".");
        }
        if self.longest_streak.is_some_and(|streak| count < 2 || !limits::streak(count).allows(streak)) {
            self.longest_streak = None;
            change(true, "The longest streak is back to the usual number.");
        }
        if !self.has_pushes() {
            self.strength = None;
        }
        if !self.targets().any(|target| target.action.is_toss()) {
            self.balls = None;
        }
        if !self.targets().any(|target| target.span.is_some()) {
            self.spell_ms = None;
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

    /// Whether a step in tandem or on one leg may be reached.
    pub fn reaches_a_spell(&self) -> bool {
        self.ladder.reachable(self.step, self.ceiling).any(|(_, step)| step.stance.is_spell())
    }

    /// What must be confirmed to be in place, for what is listed and the steps that may be reached.
    pub fn needs(&self) -> Vec<Need> {
        let by_step = self.ladder.reachable(self.step, self.ceiling).flat_map(|(_, step)| step.needs());
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
