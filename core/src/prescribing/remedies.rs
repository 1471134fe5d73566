//! Where in the form an open problem can be solved, and what to do about it. The gate's own advice is for people
//! who edit the file by hand.

use super::Form;
use super::form_page::{Page, UnlockEntry};
use crate::plan::drill::Form as Company;
use crate::plan::prescription::{Draft, DraftDrill, Reason, Refusal, row};

impl Form {
    /// The drill whose fault it is: the first of which the gate says the same by itself.
    fn drill_of(&self, reason: &Reason) -> Option<usize> {
        let alone = |plan: &DraftDrill| Draft { drills: vec![plan.clone()], ..self.draft.clone() };
        let says =
            |plan: &DraftDrill| alone(plan).problems().iter().any(|problem| problem.reason() == reason);
        self.draft.drills.iter().position(says)
    }

    /// The page on which a problem can be settled.
    pub(super) fn page_of(&self, reason: &Reason) -> Page {
        let whole = match reason {
            Reason::NothingLeft { .. } | Reason::Twice { field: "precautions", .. } => {
                return Page::PrescriptionField(&row::precautions);
            }
            Reason::AcceptedByNobody { .. } => return Page::PrescriptionField(&row::issued_by),
            Reason::SessionSets { .. } | Reason::SessionWork { .. } | Reason::EmptyList { .. } => {
                Page::Drills
            }
            _ => Page::Overview,
        };
        let Some(place) = self.drill_of(reason) else { return whole };
        let company = self.draft.drills[place].form;
        let of = |ask| Page::DrillField(place, ask);
        match reason {
            Reason::Locked { unlock, .. }
            | Reason::LockedStep { unlock, .. }
            | Reason::UnlockPartner { unlock, .. } => {
                let partner = (company == Company::Alone).then(String::new);
                Page::UnlockEntry(UnlockEntry { name: Some(*unlock), partner, ..UnlockEntry::default() })
            }
            Reason::NoOnePartner { .. } | Reason::StrengthHome { .. } => Page::Unlocks,
            Reason::NotConfirmed { .. } => of(&row::confirmed),
            Reason::Untested { .. } | Reason::HoldLong { .. } => of(&row::tested_hold_ms),
            Reason::OddSets { .. } | Reason::WatchLong { .. } => of(&row::sets),
            Reason::BlindOnFoam { .. } => of(&row::ceiling),
            Reason::Spell { .. } => of(&row::spell_ms),
            Reason::RecoverLong { .. } => of(&row::recover_ms),
            Reason::CoveredUneven => of(&row::sequence),
            Reason::GapShort { .. } | Reason::Lead { .. } => of(&row::gap_ms),
            _ => Page::Drill(place),
        }
    }
}

/// What to do about an open problem, on a page of the form.
pub(super) fn advice(problem: &Refusal) -> String {
    match problem.reason() {
        Reason::Locked { unlock, .. } | Reason::LockedStep { unlock, .. } => format!(
            "Somebody has to watch this person do it first, with {}. Type L, then press Enter, to say who did; or leave it out.",
            unlock.safeguard()
        ),
        Reason::UnlockPartner { alone: true, .. } => {
            "An unlock with a partner does not count for practice alone. Type L, then press Enter, to say who watched it alone.".into()
        }
        Reason::UnlockPartner { alone: false, .. } => {
            "An unlock only counts with the partner who was there. Type L, then press Enter, to name that partner.".into()
        }
        Reason::StrengthHome { .. } => {
            "3 and 4 are only for practice with the therapist there: the unlock \"pushes\" must say so.".into()
        }
        Reason::NotConfirmed { .. } => {
            "It must be in place where this person practices. Type L, then press Enter, to confirm it.".into()
        }
        Reason::Untested { .. } => {
            "Time how long this person holds it, hands hovering, up to 30 s. Type L, then press Enter, to enter the time. Or lower the ceiling."
                .into()
        }
        Reason::HoldLong { most, .. } => format!("Make the hold {most} at most, or lower the ceiling."),
        Reason::CoveredUneven => "For the order of directions, choose \"each drawn separately\".".into(),
        Reason::AcceptedByNobody { .. } => "Only a named person can accept that. Fill in \"Issued by\".".into(),
        Reason::EmptyList { .. } => "Add a drill.".into(),
        _ => problem.hint(),
    }
}
