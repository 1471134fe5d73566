//! Where a problem that is open can be settled, and what to do about it in the words of the form: the gate's own advice is for
//! whoever edits the file. Not what is open (that is the gate's).

use super::Form;
use super::form_page::{DrillField, Page, PrescriptionField, UnlockEntry};
use crate::plan::drill::Form as Company;
use crate::plan::prescription::{Draft, DraftDrill, Reason, Refusal};

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
            Reason::AcceptedByNobody => return Page::PrescriptionField(PrescriptionField::IssuedBy),
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
            Reason::NotConfirmed { .. } => of(DrillField::Confirmed),
            Reason::Untested { .. } | Reason::HoldLong { .. } => of(DrillField::Hold),
            Reason::OddSets { .. } | Reason::WatchLong { .. } => of(DrillField::Sets),
            Reason::BlindOnFoam { .. } => of(DrillField::Ceiling),
            Reason::Spell { .. } => of(DrillField::Spell),
            Reason::RecoverLong { .. } => of(DrillField::Recover),
            Reason::CoveredUneven => of(DrillField::Sequence),
            Reason::GapShort { .. } | Reason::Lead { .. } => of(DrillField::Gap),
            _ => Page::Drill(place),
        }
    }
}

/// What to do about an open problem, on a page of the form.
pub(super) fn advice(problem: &Refusal) -> String {
    match problem.reason() {
        Reason::Locked { unlock, .. } | Reason::LockedStep { unlock, .. } => format!(
            "Somebody has to watch this person do it first, with {}. L, then Enter, asks who did; or leave it out.",
            unlock.safeguard()
        ),
        Reason::UnlockPartner { alone: true, .. } => {
            "What was watched with a partner is not unlocked alone. L, then Enter, asks who watched it alone.".into()
        }
        Reason::UnlockPartner { alone: false, .. } => {
            "An unlock holds with the partner who was there. L, then Enter, asks with whom it was watched.".into()
        }
        Reason::StrengthHome { .. } => {
            "3 and 4 are for practice with the therapist there: the unlock \"pushes\" must say so.".into()
        }
        Reason::NotConfirmed { .. } => {
            "There must be one where this person practices. L, then Enter, asks whether there is.".into()
        }
        Reason::Untested { .. } => {
            "Time how long this person holds it, hands hovering, up to 30 s; L, then Enter, asks for it. Or lower the ceiling."
                .into()
        }
        Reason::HoldLong { most, .. } => format!("Let what lasts be {most} at most, or lower the ceiling."),
        Reason::CoveredUneven => "Let each direction be drawn anew.".into(),
        Reason::AcceptedByNobody => "Only somebody with a name can accept that: fill in \"Issued by\".".into(),
        Reason::EmptyList { .. } => "Add a drill.".into(),
        _ => problem.hint(),
    }
}
