//! Everything that the gate has against a draft. The gate reports only the first broken rule, so each problem is
//! fixed in a copy and the gate is asked again. The copy is then thrown away.

use super::Draft;
use crate::plan::drill::UnlockName;
use crate::plan::prescription::refusal::Reason;
use crate::plan::prescription::{Prescription, Refusal, Unlock};

/// More rules than a draft can break, so that the loop ends.
const MOST: usize = 200;
/// A made-up name for a person or partner.
const SOMEBODY: &str = "somebody";

/// Everything that the gate has against `draft`. If one refusal hides others, those are
/// reported once it is solved.
pub fn problems(draft: &Draft) -> Vec<Refusal> {
    let mut probe = draft.clone();
    let mut problems: Vec<Refusal> = Vec::new();
    let mut distorted = false;
    for _ in 0..MOST {
        let Err(refusal) = Prescription::read("this prescription", probe.to_toml().as_bytes()) else { break };
        let of_the_probe = distorted
            && matches!(
                refusal.reason(),
                Reason::WatchLong { .. }
                    | Reason::OddSets { .. }
                    | Reason::SessionSets { .. }
                    | Reason::SessionWork { .. }
            );
        let settled = Probe { probe: &mut probe, distorted: &mut distorted }.settle(refusal.reason());
        if !of_the_probe && problems.iter().all(|other| other.reason() != refusal.reason()) {
            problems.push(refusal);
        }
        if !settled {
            break;
        }
    }
    problems
}

/// Whether another answer can solve it, so that the present answer is kept for now: something must be watched,
/// confirmed or timed first, or does not fit together yet.
pub fn is_pending(reason: &Reason) -> bool {
    matches!(
        reason,
        Reason::Locked { .. }
            | Reason::LockedStep { .. }
            | Reason::UnlockPartner { .. }
            | Reason::NoOnePartner { .. }
            | Reason::StrengthHome { .. }
            | Reason::NotConfirmed { .. }
            | Reason::Untested { .. }
            | Reason::HoldLong { .. }
            | Reason::OddSets { .. }
            | Reason::BlindOnFoam { .. }
            | Reason::GapShort { .. }
            | Reason::GapTooLongForSet { .. }
            | Reason::Redraws { .. }
            | Reason::Lead { .. }
            | Reason::WatchLong { .. }
            | Reason::Spell { .. }
            | Reason::RecoverLong { .. }
            | Reason::CoveredUneven
            | Reason::AcceptedByNobody { .. }
            | Reason::SessionSets { .. }
            | Reason::SessionWork { .. }
            | Reason::EmptyList { field: "drills" }
    )
}

struct Probe<'a> {
    probe: &'a mut Draft,
    distorted: &'a mut bool,
}

impl Probe<'_> {
    /// Solves one problem in the copy. `false` if it cannot be solved there; problems behind it stay hidden.
    fn settle(&mut self, reason: &Reason) -> bool {
        let before = self.probe.clone();
        match reason {
            Reason::Locked { unlock, .. }
            | Reason::LockedStep { unlock, .. }
            | Reason::UnlockPartner { unlock, .. } => self.watch(*unlock, false),
            Reason::NoOnePartner { .. } => UnlockName::ALL.iter().for_each(|name| self.watch(*name, false)),
            Reason::StrengthHome { .. } => self.watch(UnlockName::Pushes, true),
            Reason::NotConfirmed { drill, need } => {
                let wanting = |plan: &&mut super::DraftDrill| {
                    plan.drill.name() == drill && !plan.confirmed.contains(need)
                };
                self.probe.drills.iter_mut().filter(wanting).for_each(|plan| plan.confirmed.push(*need));
            }
            Reason::Untested { drill, .. } => {
                let of_it =
                    |plan: &&mut super::DraftDrill| plan.drill.name() == drill && plan.reaches_a_spell();
                let hold = |plan: &mut super::DraftDrill| {
                    plan.tested_hold_ms.get_or_insert(60_000);
                };
                self.probe.drills.iter_mut().filter(of_it).for_each(hold);
            }
            Reason::HoldLong { .. } => {
                let holds = self.probe.drills.iter_mut().filter_map(|plan| plan.tested_hold_ms.as_mut());
                holds.for_each(|hold| *hold = 60_000);
            }
            Reason::AcceptedByNobody { .. } | Reason::NamedByNobody => {
                SOMEBODY.clone_into(&mut self.probe.issued_by);
            }
            // The gate reports the first problem within a drill: remove that drill and check the next one.
            reason if is_pending(reason) => self.leave_out(),
            _ => {}
        }
        *self.probe != before
    }

    fn watch(&mut self, name: UnlockName, therapist_present: bool) {
        for partner in ["", SOMEBODY] {
            let (watched_by, on) = ("somebody".to_owned(), self.probe.issued_on);
            let unlock = Unlock { name, watched_by, on, partner: partner.to_owned(), therapist_present };
            let there = |other: &&mut Unlock| other.name == name && other.partner == partner;
            match self.probe.unlocks.iter_mut().find(there) {
                Some(other) => other.therapist_present |= therapist_present,
                None => self.probe.unlocks.push(unlock),
            }
        }
    }

    /// Removes the first drill that the gate refuses.
    fn leave_out(&mut self) {
        let alone = |plan: &super::DraftDrill| Draft { drills: vec![plan.clone()], ..self.probe.clone() };
        let wrong = |plan: &super::DraftDrill| alone(plan).admit().is_err();
        if let Some(place) = self.probe.drills.iter().position(wrong) {
            *self.distorted = true;
            self.probe.drills.remove(place);
        }
    }
}
