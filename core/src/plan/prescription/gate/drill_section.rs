//! The gate for one `[[drills]]` section: what must fit the drill, and what must fit together within a set.

use super::Gate;
use super::safety::Steps;
use crate::plan::direction::Direction;
use crate::plan::drill::{Drill, Form, Ladder, Target};
use crate::plan::prescription::field::{GapShape, SequenceName};
use crate::plan::prescription::fields::{DraftDrill, Unlock};
use crate::plan::prescription::limits;
use crate::plan::prescription::reading::Lines;
use crate::plan::prescription::refusal::{Reason, Refusal, words};
use crate::plan::prescription::set_counts::redraw_share_above;
use crate::plan::prescription::{DrillPlan, GapRange, Sequence, Shape};
use crate::units::Millis;

/// Where the shape is `flat` and no rate is given: near the least that a guesser of moments can win \[derived: docs/audit.md\].
const DEFAULT_RATE: u32 = 1_250;

impl Gate<'_> {
    /// The drill, whose ranges are checked, with everything that its fields must fit.
    pub(super) fn drill(
        &self,
        raw: &DraftDrill,
        lines: &Lines,
        unlocks: &[Unlock],
    ) -> Result<DrillPlan, Refusal> {
        let (drill, form) = (raw.drill, raw.form);
        let ladder = self.ladder(raw, lines)?;
        let named_steps = self.named_steps(raw, lines, ladder)?;
        if !drill.forms().contains(&form) {
            let offered = drill.forms().iter().map(|form| form.name()).collect::<Vec<_>>().join(", ");
            let reason = Reason::Form { form: form.name(), drill: drill.name().to_owned(), offered };
            return Err(self.refuse(lines.at("form"), reason));
        }
        let targets = self.targets(raw, lines)?;
        let sequence = self.sequence(raw, lines)?;
        let (sets, work) = (raw.sets as u8, Millis(raw.work_ms as u32));
        let recover = self.recover(raw, lines)?;
        let step = self.step("step", raw.step, lines, (drill, ladder))?;
        let ceiling = self.ceiling(raw, step, lines, ladder)?;
        let strength = self.strength(raw, lines, &targets, unlocks)?;
        let balls = self.balls(raw, lines, &targets)?;
        let targets = self.spells(raw, lines, targets)?;
        let field = ["ceiling", "step"].into_iter().find(|field| lines.given(field).is_some());
        let steps = Steps { drill, ladder, step, ceiling, field, lines };
        let partners = self.watched_partners(form, &targets, &steps, unlocks)?;
        self.confirmed(&raw.confirmed, &targets, &steps)?;
        let tested_hold = self.tested_hold(raw, &targets, &steps)?;
        let gaps = self.gaps(raw, lines, &targets, recover)?;
        let lead = if form == Form::Partner { drill.lead() } else { Millis(0) };
        self.lead(lines.at("gap_ms"), lead, gaps, recover, &targets)?;
        let watched = Millis(u32::from(sets) * work.0);
        if targets.iter().any(|target| target.action.needs_screen()) && watched > limits::WATCHING {
            let reason = Reason::WatchLong { drill: drill.name().to_owned(), work: watched };
            return Err(self.refuse(lines.at("sets"), reason));
        }
        let plan = DrillPlan {
            drill,
            ladder,
            named_steps,
            form,
            sets,
            work,
            recover,
            step,
            ceiling,
            gaps,
            blank_per_mille: raw.blank_per_mille as u16,
            weights: self.weights(raw, lines)?,
            longest_streak: self.streak(raw, lines)?,
            targets,
            parts: drill.parts().to_vec(),
            sequence,
            strength,
            balls,
            tested_hold,
            confirmed: raw.confirmed.clone(),
            partners,
            line: lines.section,
        };
        if sequence != Sequence::Open && !plan.has_equal_durations() {
            return Err(self.refuse(lines.at("sequence"), Reason::CoveredUneven));
        }
        match redraw_share_above(limits::REDRAW_MOST, &plan) {
            None => Ok(plan),
            Some(share) => {
                let (per_million, pushes) = ((share * 1e6).round() as u32, plan.has_pushes());
                Err(self.refuse(lines.at("gap_ms"), Reason::Redraws { per_million, pushes }))
            }
        }
    }

    fn targets(&self, raw: &DraftDrill, lines: &Lines) -> Result<Vec<Target>, Refusal> {
        let (field, drill, line) = ("directions", raw.drill, lines.at("directions"));
        if raw.directions.is_empty() {
            return Err(self.refuse(line, Reason::EmptyList { field }));
        }
        let mut targets: Vec<Target> = Vec::with_capacity(raw.directions.len());
        for name in &raw.directions {
            let offered = || drill.targets().iter().map(|target| target.name.as_str());
            let Some(target) = drill.targets().iter().find(|target| target.name == *name) else {
                let Some(direction) = Direction::from_name(name) else {
                    return Err(self.refuse(line, Reason::unknown_word(field, name, offered())));
                };
                let (drill, known) = (drill.name().to_owned(), words(offered()));
                let reason = Reason::Direction { direction: direction.name(), drill, known };
                return Err(self.refuse(line, reason));
            };
            if targets.iter().any(|earlier| earlier.name == *name) {
                return Err(self.refuse(line, Reason::Twice { field, entry: name.clone() }));
            }
            if raw.form == Form::Alone && target.action.needs_partner() {
                return Err(self.refuse(line, Reason::NeedsPartner { entry: name.clone() }));
            }
            targets.push(target.clone());
        }
        Ok(targets)
    }

    fn sequence(&self, raw: &DraftDrill, lines: &Lines) -> Result<Sequence, Refusal> {
        let (covered, line) = (raw.sequence == SequenceName::Covered, lines.at("slack"));
        if covered && raw.directions.len() == 1 {
            return Err(self.refuse(lines.at("sequence"), Reason::CoveredOne));
        }
        match raw.slack {
            Some(_) if !covered => {
                Err(self.refuse(line, Reason::OnlyWith { field: "slack", with: "sequence = \"covered\"" }))
            }
            Some(slack) => self
                .within("slack", line, slack, limits::SLACK)
                .map(|()| Sequence::Covered { slack: slack as u8 }),
            None if covered => Ok(Sequence::Covered { slack: limits::SLACK.least as u8 }),
            None => Ok(Sequence::Open),
        }
    }

    fn weights(&self, raw: &DraftDrill, lines: &Lines) -> Result<Vec<u32>, Refusal> {
        let directions = raw.directions.len();
        let Some(weights) = &raw.weights else { return Ok(vec![1; directions]) };
        let reason = if raw.sequence != SequenceName::Open {
            Reason::OnlyWith { field: "weights", with: "sequence = \"open\"" }
        } else if weights.len() != directions {
            Reason::WeightCount { weights: weights.len(), directions }
        } else {
            return Ok(weights.iter().map(|weight| *weight as u32).collect());
        };
        Err(self.refuse(lines.at("weights"), reason))
    }

    fn streak(&self, raw: &DraftDrill, lines: &Lines) -> Result<Option<u8>, Refusal> {
        let (directions, line) = (raw.directions.len(), lines.at("longest_streak"));
        let Some(value) = raw.longest_streak else { return Ok(limits::default_streak(directions)) };
        match (directions, value) {
            (1, value) => Err(self.refuse(line, Reason::StreakOfOne { value })),
            (2, 1) => Err(self.refuse(line, Reason::StreakNoChoice)),
            (2, 2) => Err(self.refuse(line, Reason::StreakGuessable)),
            _ => self
                .within("longest_streak", line, value, limits::streak(directions))
                .map(|()| Some(value as u8)),
        }
    }

    fn recover(&self, raw: &DraftDrill, lines: &Lines) -> Result<Millis, Refusal> {
        let (line, value, work) = (lines.at("recover_ms"), raw.recover_ms, raw.work_ms);
        if value > work {
            return Err(self.refuse(line, Reason::RecoverLong { value, work }));
        }
        self.within("recover_ms", line, value, limits::RECOVER).map(|()| Millis(value as u32))
    }

    /// Without a version it is the first, which every file from before has.
    fn ladder(&self, raw: &DraftDrill, lines: &Lines) -> Result<&'static Ladder, Refusal> {
        let (drill, Some(value)) = (raw.drill, raw.ladder) else { return Ok(raw.ladder()) };
        drill.ladder_version(value).ok_or_else(|| {
            let known =
                drill.ladders().iter().map(|ladder| format!("{} ({})", ladder.version(), ladder.name()));
            let (drill, known) = (drill.name().to_owned(), known.collect::<Vec<_>>().join(", "));
            self.refuse(lines.at("ladder"), Reason::LadderVersion { value, drill, known })
        })
    }

    fn named_steps(&self, raw: &DraftDrill, lines: &Lines, ladder: &Ladder) -> Result<Vec<String>, Refusal> {
        let Some(named) = &raw.named_steps else { return Ok(Vec::new()) };
        let (field, line) = ("named_steps", lines.at("named_steps"));
        if ladder.version() == 1 {
            return Err(self.refuse(line, Reason::OnlyWith { field, with: "`ladder` = 2 or above" }));
        }
        let known = || ladder.nameable().map(|(key, _)| key);
        for (place, key) in named.iter().enumerate() {
            if !known().any(|other| other == key) {
                return Err(self.refuse(line, Reason::unknown_word(field, key, known())));
            }
            if named[..place].contains(key) {
                return Err(self.refuse(line, Reason::Twice { field, entry: key.clone() }));
            }
        }
        Ok(named.clone())
    }

    fn step(
        &self,
        field: &'static str,
        value: i64,
        lines: &Lines,
        (drill, ladder): (&'static Drill, &Ladder),
    ) -> Result<u8, Refusal> {
        let steps = ladder.steps().len();
        if usize::try_from(value).is_ok_and(|value| (1..=steps).contains(&value)) {
            return Ok(value as u8);
        }
        let reason = Reason::Ladder { field, value, drill: drill.name().to_owned(), steps };
        Err(self.refuse(lines.at(field), reason))
    }

    /// Without a ceiling, practice stays at its first step.
    fn ceiling(&self, raw: &DraftDrill, step: u8, lines: &Lines, ladder: &Ladder) -> Result<u8, Refusal> {
        let ceiling = self.step("ceiling", raw.ceiling, lines, (raw.drill, ladder))?;
        if ceiling < step {
            let reason = Reason::CeilingBelowStep { ceiling: ceiling.into(), step: step.into() };
            return Err(self.refuse(lines.at("ceiling"), reason));
        }
        Ok(ceiling)
    }

    fn gaps(
        &self,
        raw: &DraftDrill,
        lines: &Lines,
        targets: &[Target],
        recover: Millis,
    ) -> Result<GapRange, Refusal> {
        let [least, greatest] = raw.gap_ms;
        let parts = raw.drill.parts().iter().filter_map(|part| part.action);
        let actions = targets.iter().map(|target| target.action).chain(parts);
        let slowest =
            actions.max_by_key(|action| action.shortest_gap()).expect("a plan has at least one target");
        let shortest = slowest.shortest_gap().0;
        let shortest_span = targets.iter().map(Target::duration).min().unwrap_or_default();
        let needed =
            least.saturating_add(shortest_span.0.into()).saturating_mul(2).saturating_add(recover.0.into());
        let broken = if least >= greatest {
            Some(Reason::GapReversed { least, greatest })
        } else if least < i64::from(shortest) {
            Some(Reason::GapShort { value: least, action: slowest.name(), least: shortest })
        } else if greatest > i64::from(limits::GREATEST_GAP.0) {
            Some(Reason::GapLong { value: greatest })
        } else if greatest - least < i64::from(limits::GAP_WIDTH.0) {
            Some(Reason::GapNarrow { value: greatest - least })
        } else if needed > raw.work_ms {
            Some(Reason::GapTooLongForSet {
                least,
                span: shortest_span > Millis(0),
                needed,
                work: raw.work_ms,
            })
        } else {
            None
        };
        match broken {
            Some(reason) => Err(self.refuse(lines.at("gap_ms"), reason)),
            None => {
                Ok(GapRange::checked(Millis(least as u32), Millis(greatest as u32), self.shape(raw, lines)?))
            }
        }
    }

    fn shape(&self, raw: &DraftDrill, lines: &Lines) -> Result<Shape, Refusal> {
        match (raw.shape, raw.rate_thousandths) {
            (GapShape::Flat, rate) => {
                Ok(Shape::Flat { rate_thousandths: rate.map_or(DEFAULT_RATE, |rate| rate as u32) })
            }
            (GapShape::Even, None) => Ok(Shape::Even),
            (GapShape::Even, Some(_)) => {
                let reason = Reason::OnlyWith { field: "rate_thousandths", with: "shape = \"flat\"" };
                Err(self.refuse(lines.at("rate_thousandths"), reason))
            }
        }
    }

    /// One set of weight shifts with both hands resting, for a prescription that does not begin with a warm-up.
    pub(super) fn built_in_warm_up(&self) -> Result<DrillPlan, Refusal> {
        let drill =
            Drill::named("counter-shift").expect("the built-in warm-up drill is there, as a test proves");
        let directions = ["left", "right", "forward"].map(str::to_owned).to_vec();
        let warm_up = DraftDrill { directions, ..DraftDrill::new(drill, Form::Alone) };
        self.drill(&warm_up, &Lines::default(), &[])
    }
}
