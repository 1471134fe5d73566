//! The safety rules at the gate: what must have been watched and with whom, what must be in place, how firm pushes
//! may be, and how long a call may last.

use super::Gate;
use crate::plan::drill::{Drill, Form, Ladder, LadderStep, Need, Span, Strength, Target, UnlockName};
use crate::plan::drill::{Surface, hazards};
use crate::plan::prescription::fields::{DraftDrill, Unlock};
use crate::plan::prescription::reading::Lines;
use crate::plan::prescription::refusal::{Reason, Refusal};
use crate::plan::prescription::{GapRange, limits};
use crate::units::Millis;

/// The ladder steps that a plan may reach, and the field that sets the limit.
pub(super) struct Steps<'a> {
    pub drill: &'static Drill,
    pub ladder: &'static Ladder,
    pub step: u8,
    pub ceiling: u8,
    pub field: Option<&'static str>,
    pub lines: &'a Lines,
}

impl Steps<'_> {
    fn all(&self) -> impl Iterator<Item = (u8, LadderStep)> {
        self.ladder.reachable(self.step.into(), self.ceiling.into())
    }

    fn line(&self) -> usize {
        self.field.map_or(self.lines.section, |field| self.lines.at(field))
    }

    fn name(&self) -> String {
        self.drill.name().to_owned()
    }
}

impl Gate<'_> {
    /// Checks that every listed call and every reachable step has been watched: alone for practice alone, with one and
    /// the same partner for practice with a partner. Returns the partners with whom all of it was watched.
    pub(super) fn watched_partners(
        &self,
        form: Form,
        targets: &[Target],
        steps: &Steps<'_>,
        unlocks: &[Unlock],
    ) -> Result<Vec<String>, Refusal> {
        let line = steps.lines.at("directions");
        let alone = form == Form::Alone;
        let fits = |unlock: &Unlock| unlock.partner.is_empty() == alone;
        let mut names = Vec::new();
        let mut check = |unlock: UnlockName, line: usize, locked: Reason| {
            names.push(unlock);
            if unlocks.iter().any(|other| other.name == unlock && fits(other)) {
                Ok(())
            } else if unlocks.iter().any(|other| other.name == unlock) {
                Err(self.refuse(line, Reason::UnlockPartner { unlock, alone }))
            } else {
                Err(self.refuse(line, locked))
            }
        };
        for target in targets {
            for unlock in target.unlocks() {
                check(unlock, line, Reason::Locked { entry: target.name.clone(), unlock })?;
            }
        }
        for (step, _) in steps.all() {
            for unlock in steps.ladder.unlocks(step) {
                let field = steps.field.unwrap_or("step");
                let value = if field == "step" { steps.step } else { steps.ceiling };
                let reason = Reason::LockedStep { field, value, step, drill: steps.name(), unlock };
                check(unlock, steps.line(), reason)?;
            }
        }
        if alone || names.is_empty() {
            return Ok(Vec::new());
        }
        let has = |partner: &str, name: UnlockName| {
            unlocks.iter().any(|unlock| unlock.name == name && unlock.partner == partner)
        };
        let mut partners: Vec<String> =
            unlocks.iter().filter(|unlock| fits(unlock)).map(|u| u.partner.clone()).collect();
        partners.sort_unstable();
        partners.dedup();
        partners.retain(|partner| names.iter().all(|name| has(partner, *name)));
        if partners.is_empty() {
            return Err(self.refuse(steps.lines.section, Reason::NoOnePartner { drill: steps.name() }));
        }
        Ok(partners)
    }

    /// What the prescriber confirms to be in place where the person practices.
    pub(super) fn confirmed(
        &self,
        confirmed: &[Need],
        targets: &[Target],
        steps: &Steps<'_>,
    ) -> Result<(), Refusal> {
        let twice = (1..confirmed.len()).find(|place| confirmed[..*place].contains(&confirmed[*place]));
        if let Some(place) = twice {
            let reason = Reason::Twice { field: "confirmed", entry: confirmed[place].to_string() };
            return Err(self.refuse(steps.lines.at("confirmed"), reason));
        }
        let by_action = targets.iter().filter_map(|target| target.action.needs());
        let by_step = steps.all().flat_map(|(_, step)| step.needs());
        match by_action.chain(by_step).find(|need| !confirmed.contains(need)) {
            Some(need) => {
                Err(self.refuse(steps.lines.section, Reason::NotConfirmed { drill: steps.name(), need }))
            }
            None => Ok(()),
        }
    }

    /// The strength: within the scale, within what is allowed at home, and at most one step apart.
    pub(super) fn strength(
        &self,
        raw: &DraftDrill,
        lines: &Lines,
        targets: &[Target],
        unlocks: &[Unlock],
    ) -> Result<Option<(Strength, Strength)>, Refusal> {
        let pushes = targets.iter().any(|target| target.action.is_push());
        let Some([low, high]) = raw.strength else {
            return Ok(pushes.then_some((Strength::GENTLEST, Strength::GENTLEST)));
        };
        let line = lines.at("strength");
        if !pushes {
            return Err(self.refuse(line, Reason::Strength { drill: raw.drill.name().to_owned() }));
        }
        let number = |value: i64| u8::try_from(value).ok().and_then(Strength::new);
        let (Some(gentlest), Some(firmest)) = (number(low), number(high)) else {
            return Err(self.refuse(line, Reason::StrengthRange { low, high }));
        };
        let present = |unlock: &Unlock| unlock.name == UnlockName::Pushes && unlock.therapist_present;
        let reason = if firmest < gentlest {
            Reason::StrengthRange { low, high }
        } else if firmest.number() - gentlest.number() > limits::STRENGTH_SPREAD {
            Reason::StrengthSpread { low, high }
        } else if firmest.number() > limits::STRENGTH_AT_HOME && !unlocks.iter().any(present) {
            Reason::StrengthHome { high }
        } else {
            return Ok(Some((gentlest, firmest)));
        };
        Err(self.refuse(line, reason))
    }

    pub(super) fn balls(&self, raw: &DraftDrill, lines: &Lines, targets: &[Target]) -> Result<u8, Refusal> {
        if raw.balls.is_some() && !targets.iter().any(|target| target.action.is_toss()) {
            return Err(self.refuse(lines.at("balls"), Reason::Balls { drill: raw.drill.name().to_owned() }));
        }
        Ok(raw.balls.unwrap_or(1) as u8)
    }

    /// The targets, with the duration that the prescription gives to calls that last. The count at the end is shortened to fit.
    pub(super) fn spells(
        &self,
        raw: &DraftDrill,
        lines: &Lines,
        mut targets: Vec<Target>,
    ) -> Result<Vec<Target>, Refusal> {
        let Some(value) = raw.spell_ms else { return Ok(targets) };
        let (length, line) = (Millis(value as u32), lines.at("spell_ms"));
        if targets.iter().all(|target| target.span.is_none()) {
            return Err(self.refuse(line, Reason::NoSpan));
        }
        for target in &mut targets {
            let Some(span) = &mut target.span else { continue };
            let room = (length - hazards::BEFORE_COUNT).0 / 1_000;
            *span = Span { length, count: u32::from(span.count).min(room) as u8, ..*span };
            if !hazards::is_valid_duration(target.action, length, span.count) {
                let (least, most) = (hazards::SHORTEST_SPELL.0, hazards::longest_spell(target.action).0);
                let reason = Reason::Spell { value, entry: target.name.clone(), least, most };
                return Err(self.refuse(line, reason));
            }
        }
        Ok(targets)
    }

    /// Closed eyes alone only on firm ground; tandem and one leg only within the person's own hold, both sides equally.
    pub(super) fn tested_hold(
        &self,
        raw: &DraftDrill,
        targets: &[Target],
        steps: &Steps<'_>,
    ) -> Result<Option<Millis>, Refusal> {
        let (lines, sets) = (steps.lines, raw.sets as u8);
        let blind = targets.iter().find(|target| target.action.closes_eyes());
        let soft = steps.all().find(|(_, step)| step.surface != Surface::Firm);
        if let (Form::Alone, Some(target), Some((step, _))) = (raw.form, blind, soft) {
            return Err(
                self.refuse(lines.at("directions"), Reason::BlindOnFoam { entry: target.name.clone(), step })
            );
        }
        let Some((step, conditions)) = steps.all().find(|(_, step)| step.stance.is_spell()) else {
            return match raw.tested_hold_ms {
                Some(_) => {
                    let (field, with) = ("tested_hold_ms", "steps in tandem or on one leg");
                    Err(self.refuse(lines.at(field), Reason::OnlyWith { field, with }))
                }
                None => Ok(None),
            };
        };
        let stance = conditions.stance.name();
        let Some(tested) = raw.tested_hold_ms else {
            return Err(self.refuse(steps.line(), Reason::Untested { step, drill: steps.name(), stance }));
        };
        let hold = Millis(tested as u32);
        let most = limits::longest_hold(hold);
        let longest = targets.iter().filter_map(|target| target.span).map(|span| span.length).max();
        if let Some(spell) = longest.filter(|spell| *spell > most) {
            return Err(self.refuse(lines.at("tested_hold_ms"), Reason::HoldLong { spell, stance, most }));
        }
        if !sets.is_multiple_of(2) {
            return Err(self.refuse(lines.section, Reason::OddSets { sets, step }));
        }
        Ok(Some(hold))
    }

    /// Checks that the partner can be told between the end of one cue and the next, after the quiet time that recovery
    /// or closed eyes need.
    pub(super) fn lead(
        &self,
        line: usize,
        lead: Millis,
        gaps: GapRange,
        recover: Millis,
        targets: &[Target],
    ) -> Result<(), Refusal> {
        let blind = targets.iter().any(|target| target.action.closes_eyes());
        let quiet = if blind { recover.max(limits::AFTER_EYES_OPEN) } else { recover };
        let room = gaps.least() - quiet;
        if lead > room { Err(self.refuse(line, Reason::Lead { lead, room, quiet })) } else { Ok(()) }
    }
}
