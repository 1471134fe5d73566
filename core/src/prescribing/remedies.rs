//! Where a point that is open can be settled, and what to do about it in the words of the form: the gate's own advice is for
//! whoever edits the file. Not what is open (that is the gate's).

use super::Form;
use super::form_page::{Ask, Page, Watched, Whole};
use crate::plan::drill::Form as Company;
use crate::plan::prescription::{Draft, DraftDrill, Reason, Refusal};

impl Form {
    /// The drill whose fault it is: the first of which the gate says the same by itself.
    fn drill_of(&self, reason: &Reason) -> Option<usize> {
        let alone = |plan: &DraftDrill| Draft { drills: vec![plan.clone()], ..self.draft.clone() };
        let says = |plan: &DraftDrill| alone(plan).points().iter().any(|point| point.reason() == reason);
        self.draft.drills.iter().position(says)
    }

    /// The page on which a point can be settled.
    pub(super) fn page_of(&self, reason: &Reason) -> Page {
        let whole = match reason {
            Reason::AcceptedByNobody => return Page::Whole(Whole::IssuedBy),
            Reason::SessionSets { .. } | Reason::SessionWork { .. } | Reason::EmptyList { .. } => {
                Page::Drills
            }
            _ => Page::Overview,
        };
        let Some(place) = self.drill_of(reason) else { return whole };
        let company = self.draft.drills[place].form;
        let of = |ask| Page::Of(place, ask);
        match reason {
            Reason::Locked { unlock, .. }
            | Reason::LockedStep { unlock, .. }
            | Reason::UnlockPartner { unlock, .. } => {
                let partner = (company == Company::Alone).then(String::new);
                Page::Watched(Watched { name: Some(*unlock), partner, ..Watched::default() })
            }
            Reason::NoOnePartner { .. } | Reason::StrengthHome { .. } => Page::Unlocks,
            Reason::NotConfirmed { .. } => of(Ask::Confirmed),
            Reason::Untested { .. } | Reason::HoldLong { .. } => of(Ask::Hold),
            Reason::OddSets { .. } | Reason::WatchLong { .. } => of(Ask::Sets),
            Reason::BlindOnFoam { .. } => of(Ask::Ceiling),
            Reason::Spell { .. } => of(Ask::Spell),
            Reason::RecoverLong { .. } => of(Ask::Recover),
            Reason::CoveredUneven => of(Ask::Sequence),
            Reason::GapShort { .. } | Reason::Lead { .. } => of(Ask::Gap),
            _ => Page::Drill(place),
        }
    }
}

/// What to do about an open point, on a page of the form.
pub(super) fn advice(point: &Refusal) -> String {
    match point.reason() {
        Reason::Locked { unlock, .. } | Reason::LockedStep { unlock, .. } => format!(
            "Somebody has to watch this person do it first, with {}. L, then Enter, asks who did; or leave it out.",
            unlock.with()
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
        _ => point.hint(),
    }
}
