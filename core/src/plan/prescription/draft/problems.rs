//! What the gate still has against a draft, all of it: the gate names the first rule that is broken, so that it is asked
//! again of a copy in which that one is settled. Nothing of the copy is kept, and nothing is judged here.

use super::Draft;
use crate::plan::drill::UnlockName;
use crate::plan::prescription::refusal::Reason;
use crate::plan::prescription::{Prescription, Refusal, Unlock};

/// More rules than a draft can break one after the other, so that asking has an end.
const MOST: usize = 200;
/// A partner whom nobody has.
const SOMEBODY: &str = "somebody";

/// Everything that the gate has against `draft`. Where one refusal hides others that cannot be seen before it is
/// settled, they come once it is.
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

/// Whether another answer can settle it, so that the answer that raised it may stand meanwhile: what must be watched,
/// confirmed or timed first, and what does not fit together yet.
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
            | Reason::AcceptedByNobody
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
    /// Settles one point in the probe. `false`: it cannot be, and what comes behind it is not seen.
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
            Reason::AcceptedByNobody => SOMEBODY.clone_into(&mut self.probe.issued_by),
            // Of what lies within one drill the gate sees the first: it is taken out, and the next drill looked at.
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

    /// Takes out the first drill that the gate has something against.
    fn leave_out(&mut self) {
        let alone = |plan: &super::DraftDrill| Draft { drills: vec![plan.clone()], ..self.probe.clone() };
        let wrong = |plan: &super::DraftDrill| alone(plan).admit().is_err();
        if let Some(place) = self.probe.drills.iter().position(wrong) {
            *self.distorted = true;
            self.probe.drills.remove(place);
        }
    }
}
