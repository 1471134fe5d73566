//! What a journal holds, read back as values: sessions with their sets, cues, answers and summaries. These values are
//! also the form of the export.

use serde::{Deserialize, Serialize};

use super::{
    AdviceRow, AnswerRow, CueRow, DecisionRow, DeliveryRow, DisturbanceRow, Effort, LeftOutRow, MishapRow,
    ReadyRow, Response, ResponseRow, RoutineRow, SessionEnd, SessionId, SessionRow, SetEndRow, SetRow, Stamp,
    Steadiness, Times, TryoutRow, YesNo,
};
use crate::plan::drill::Form;

/// One session, whole.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SessionRecord {
    /// Its id.
    pub id: SessionId,
    /// Partner if any set was done with one; `None` if no set was begun.
    pub form: Option<Form>,
    /// What was known at its beginning.
    pub start: SessionRow,
    /// Its end and summary; `None` while it goes on.
    pub end: Option<SummaryRow>,
    /// Who watched, where it was a supervised try-out, which counts as no practice.
    #[serde(default)]
    pub tryout: Option<TryoutRow>,
    /// What progression decided for it; `None` before that was kept.
    #[serde(default)]
    pub decided: Option<DecisionRow>,
    /// The sentences on the pages of readiness, in order; empty before they were kept.
    #[serde(default)]
    pub ready: Vec<ReadyRow>,
    /// What was asked and answered, in order.
    pub answers: Vec<AnswerRow>,
    /// The sets that were begun.
    pub sets: Vec<SetRecord>,
    /// The sets that were not begun, while the session went on.
    #[serde(default)]
    pub left_out: Vec<LeftOutRow>,
    /// Grabs and falls that a partner reported by a key, in order.
    #[serde(default)]
    pub mishaps: Vec<MishapRow>,
    /// What was advised, in order.
    #[serde(default)]
    pub advised: Vec<AdviceRow>,
    /// The warm-up and the cool-down.
    #[serde(default)]
    pub routines: Vec<RoutineRow>,
    /// The patches of the floor course, in the order in which they were walked; empty where there was none.
    #[serde(default)]
    pub course: Vec<String>,
}

/// One set, whole.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SetRecord {
    /// The set as it began.
    pub start: SetRow,
    /// Its end; `None` while it goes on.
    pub end: Option<SetEndRow>,
    /// The plan it began with, then one after each pause.
    pub plans: Vec<PlanRecord>,
    /// What was heard, shown or asked of a partner.
    pub delivered: Vec<DeliveryRow>,
    /// What happened after each push, as the partner noted it.
    #[serde(default)]
    pub responses: Vec<ResponseRow>,
    /// When the sound was disturbed, in order.
    #[serde(default)]
    pub disturbed: Vec<DisturbanceRow>,
}

/// The cues of a set as planned at its beginning or after a pause.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PlanRecord {
    /// 0 at the beginning, then the number of the pause.
    pub plan: u16,
    /// The work that was done when the pause began.
    pub paused_at_ms: Option<u32>,
    /// The cues, those already called included.
    pub cues: Vec<CueRow>,
}

/// How a session ended, and its figures.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SummaryRow {
    /// When.
    pub at: Stamp,
    /// Why.
    pub why: SessionEnd,
    /// Sets that were done whole.
    pub sets_completed: u32,
    /// Sets that were planned.
    pub sets_planned: u32,
    /// Cues whose clip began.
    pub cues_heard: u32,
    /// Cues that were only shown.
    pub cues_shown: u32,
    /// Work in all.
    pub active_ms: u64,
    /// Whether any set was ended by a grab or a near fall; `None`: not asked, or not said.
    pub grabbed: Option<YesNo>,
    /// The most times held on in a set.
    pub held_on: Option<Times>,
    /// The hardest effort.
    pub effort: Option<Effort>,
    /// The worst steadiness.
    pub steadiness: Option<Steadiness>,
    /// Whether unwell.
    pub unwell: Option<YesNo>,
    /// Questions that were passed over.
    pub not_said: u32,
    /// Cues that a partner was asked for.
    #[serde(default)]
    pub cues_asked: u32,
    /// With a partner: grabs, from responses and mishaps, a push once.
    #[serde(default)]
    pub grabs: u32,
    /// With a partner: falls, in the same way.
    #[serde(default)]
    pub falls: u32,
    /// Pushes whose response the partner noted.
    #[serde(default)]
    pub pushes_noted: u32,
    /// Pushes whose response was not noted, which is never fine.
    #[serde(default)]
    pub pushes_not_noted: u32,
}

/// Something that was changed outside of sessions.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ChangeRow {
    /// When.
    pub at: Stamp,
    /// What.
    pub what: String,
    /// The digest of the file that is now in use.
    pub digest: String,
}

/// Partner if any of these sets was done with one; `None` if there is no set.
pub fn form_of(sets: &[SetRecord]) -> Option<Form> {
    match sets.iter().any(|set| set.start.form == Form::Partner) {
        true => Some(Form::Partner),
        false => sets.first().map(|set| set.start.form),
    }
}

impl SetRecord {
    /// The plan that was in force at the end.
    pub fn last_plan(&self) -> &[CueRow] {
        self.plans.last().map_or(&[], |plan| &plan.cues)
    }

    /// What happened after a push: `None` if nothing was kept of it, `Some(None)` if it was not noted.
    pub fn response_of(&self, cue: u16) -> Option<Option<Response>> {
        self.responses.iter().find(|row| row.cue == cue).map(|row| row.response)
    }

    /// How a cue of the last plan was delivered, if it was.
    pub fn delivery_of(&self, cue: u16) -> Option<&DeliveryRow> {
        self.delivered.iter().find(|delivery| delivery.cue == cue)
    }
}
