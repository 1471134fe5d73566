//! The pages of the form and their order.

use jiff::civil::Date;

use crate::plan::drill::{Need, UnlockName};
use crate::plan::health_topic::Topic;
use crate::plan::precaution::Precaution;
use crate::plan::prescription::DraftDrill;
use crate::plan::prescription::field::{Field, Sheet};

/// Where the form is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Page {
    /// From which ready prescription to start.
    Start,
    /// One field of the whole prescription.
    PrescriptionField(&'static Field),
    /// The list of drills.
    Drills,
    /// Which drill to add.
    Add,
    /// One drill, with everything that is set for it.
    Drill(usize),
    /// One field of one drill.
    DrillField(usize, &'static Field),
    /// What was watched.
    Unlocks,
    /// An unlock while it is being entered.
    UnlockEntry(UnlockEntry),
    /// What is accepted of the answers about suitability.
    Accepts,
    /// A topic that is accepted, while it is being entered.
    AcceptEntry(AcceptEntry),
    /// Everything, before it is written.
    Overview,
}

/// An unlock as far as it has been entered.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct UnlockEntry {
    /// The danger that was watched.
    pub name: Option<UnlockName>,
    /// The partner who was there; empty for alone.
    pub partner: Option<String>,
    /// Who watched: a name, initials or a role.
    pub by: Option<String>,
    /// The day it was watched.
    pub on: Option<Date>,
    /// Whether it holds only while the therapist is there; asked of pushes, which may then be firmer.
    pub present: Option<bool>,
}

/// A topic that is accepted, as far as it has been entered.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct AcceptEntry {
    /// The topic.
    pub topic: Option<Topic>,
    /// Who accepts it: a name, initials or a role.
    pub who: Option<String>,
}

/// The topics that can be accepted, in the order in which they are offered.
pub(super) fn acceptable() -> Vec<Topic> {
    Topic::ALL.iter().copied().filter(|topic| topic.can_be_accepted()).collect()
}

/// The next thing that is asked of a drill that is added; the first, after nothing.
pub(super) fn next_for_new_drill(after: Option<&Field>, plan: &DraftDrill) -> Option<&'static Field> {
    let from = after.map_or(0, |after| after.rank);
    DraftDrill::asked().into_iter().find(|field| field.is_first && field.rank > from && plan.suits(field))
}

/// The words or entries that can be chosen for a field, in the order in which they are offered.
pub(super) fn options(field: &Field, plan: Option<&DraftDrill>) -> Vec<&'static str> {
    match (field.name, plan) {
        ("form", Some(plan)) => plan.drill.forms().iter().map(|form| form.name()).collect(),
        ("directions", Some(plan)) => plan.offered().map(|target| target.name.as_str()).collect(),
        ("named_steps", Some(plan)) => plan.ladder().nameable().map(|(key, _)| key).collect(),
        ("precautions", None) => Precaution::ALL.iter().map(|one| one.name()).collect(),
        ("confirmed", Some(plan)) => plan.needs().into_iter().map(Need::name).collect(),
        _ => field.choices.iter().map(|choice| choice.word).collect(),
    }
}
