//! The pages of the form and their order.

use jiff::civil::Date;

use crate::plan::drill::{Drill, Form, Target, UnlockName};
use crate::plan::prescription::DraftDrill;

/// Where the form is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Page {
    /// From which ready prescription to start.
    Start,
    /// One field of the whole prescription.
    PrescriptionField(PrescriptionField),
    /// The list of drills.
    Drills,
    /// Which drill to add.
    Add,
    /// One drill, with everything that is set for it.
    Drill(usize),
    /// One field of one drill.
    DrillField(usize, DrillField),
    /// What was watched.
    Unlocks,
    /// An unlock while it is being entered.
    UnlockEntry(UnlockEntry),
    /// Everything, before it is written.
    Overview,
}

/// A field of the whole prescription, with its own page.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PrescriptionField {
    /// The title that the person sees.
    Title,
    /// Who issues it.
    IssuedBy,
    /// The day of issue.
    IssuedOn,
    /// Days a week.
    Days,
    /// Weeks that the program lasts.
    Weeks,
    /// Sessions until a therapist looks again.
    Review,
    /// Rest after a set.
    Rest,
    /// The order of the drills.
    Order,
    /// Effort above which nothing steps up.
    Effort,
    /// Why the person may begin all the same.
    Accepted,
}

/// A field of one drill, with its own page.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DrillField {
    /// Alone or with a partner.
    Form,
    /// What may be called.
    Directions,
    /// How often each.
    Weights,
    /// The step to start at.
    Step,
    /// The highest step.
    Ceiling,
    /// Sets a session.
    Sets,
    /// Work of a set.
    Work,
    /// The quiet time that ends it.
    Recover,
    /// The shortest and the longest gap.
    Gap,
    /// How gaps are spread.
    Shape,
    /// How strongly short gaps prevail.
    Rate,
    /// The share of moments that stay silent.
    Blanks,
    /// How directions follow each other.
    Sequence,
    /// How far a direction's count may differ from an equal share.
    Slack,
    /// One direction in a row.
    Streak,
    /// How firm pushes are.
    Strength,
    /// Balls in play.
    Balls,
    /// The duration of a call that lasts.
    Spell,
    /// How long the person was seen to hold it.
    Hold,
    /// What is in place.
    Confirmed,
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

impl PrescriptionField {
    /// In the order in which they are asked.
    pub const ALL: [Self; 10] = [
        Self::Title,
        Self::IssuedBy,
        Self::IssuedOn,
        Self::Days,
        Self::Weeks,
        Self::Review,
        Self::Rest,
        Self::Order,
        Self::Effort,
        Self::Accepted,
    ];

    /// Its name in a list.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Title => "Title",
            Self::IssuedBy => "Issued by",
            Self::IssuedOn => "Issued on",
            Self::Days => "Days a week",
            Self::Weeks => "Weeks",
            Self::Review => "Review after",
            Self::Rest => "Rest after a set",
            Self::Order => "Order of the drills",
            Self::Effort => "Steps up only if effort was at most",
            Self::Accepted => "Accepted despite \"a clinician first\"",
        }
    }
}

impl DrillField {
    /// In the order in which they are listed.
    pub const ALL: [Self; 20] = [
        Self::Form,
        Self::Directions,
        Self::Weights,
        Self::Step,
        Self::Ceiling,
        Self::Sets,
        Self::Work,
        Self::Recover,
        Self::Gap,
        Self::Shape,
        Self::Rate,
        Self::Blanks,
        Self::Sequence,
        Self::Slack,
        Self::Streak,
        Self::Strength,
        Self::Balls,
        Self::Spell,
        Self::Hold,
        Self::Confirmed,
    ];

    /// What is asked of a drill that is added, before all the rest is shown.
    const NEW_DRILL: [Self; 9] = [
        Self::Form,
        Self::Directions,
        Self::Step,
        Self::Ceiling,
        Self::Sets,
        Self::Work,
        Self::Gap,
        Self::Hold,
        Self::Confirmed,
    ];

    /// Its name in a list.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Form => "Alone or with a partner",
            Self::Directions => "What is called",
            Self::Weights => "How often each is called",
            Self::Step => "Starts at step",
            Self::Ceiling => "May go up to step",
            Self::Sets => "Sets",
            Self::Work => "One set lasts",
            Self::Recover => "Quiet time at its end",
            Self::Gap => "Time between calls",
            Self::Shape => "Short or long waits",
            Self::Rate => "How often waits are short",
            Self::Blanks => "Silent moments",
            Self::Sequence => "Order of directions",
            Self::Slack => "Allowed difference",
            Self::Streak => "One direction in a row",
            Self::Strength => "How firm pushes are",
            Self::Balls => "Balls",
            Self::Spell => "Duration of a hold",
            Self::Hold => "Tested hold",
            Self::Confirmed => "In place at home",
        }
    }

    /// Whether it means anything for this drill as it is now.
    pub fn suits(self, plan: &DraftDrill) -> bool {
        match self {
            Self::Form => plan.drill.forms().len() > 1,
            Self::Directions => offered(plan).count() > 1,
            Self::Weights => plan.directions.len() > 1 && plan.slack.is_none(),
            Self::Rate => plan.rate_thousandths.is_some(),
            Self::Sequence | Self::Streak => plan.directions.len() > 1,
            Self::Slack => plan.slack.is_some(),
            Self::Strength => plan.has_pushes(),
            Self::Balls => plan.targets().any(|target| target.action.is_toss()),
            Self::Spell => plan.targets().any(|target| target.span.is_some()),
            Self::Hold => plan.reaches_a_spell(),
            Self::Confirmed => !plan.needs().is_empty(),
            Self::Step
            | Self::Ceiling
            | Self::Sets
            | Self::Work
            | Self::Recover
            | Self::Gap
            | Self::Shape
            | Self::Blanks => true,
        }
    }

    /// The next thing that is asked of a drill that is added; the first, after nothing.
    pub(super) fn next_for_new_drill(after: Option<Self>, plan: &DraftDrill) -> Option<Self> {
        let all = Self::NEW_DRILL.into_iter();
        let from =
            after.map_or(0, |after| 1 + all.clone().position(|ask| ask == after).unwrap_or(usize::MAX - 1));
        all.skip(from).find(|ask| ask.suits(plan))
    }
}

/// What the drill can call in this form.
pub(super) fn offered(plan: &DraftDrill) -> impl Iterator<Item = &'static Target> {
    let form = plan.form;
    plan.drill.targets().iter().filter(move |target| form == Form::Partner || !target.action.needs_partner())
}

/// The drills in the order in which they are offered.
pub(super) fn drills() -> &'static [Drill] {
    Drill::all()
}
