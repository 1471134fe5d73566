//! Sessions as the fold of their entries makes them: with their sets, cues, answers and figures.

use std::borrow::Borrow;
use std::ops::Deref;

use serde::{Deserialize, Serialize};

use super::{
    AdviceRow, Answer, AnswerRow, CueRow, Decided, DeliveryRow, DisturbanceRow, Effort, Id, LeftOutRow,
    Mishap, MishapRow, Place, ReadyRow, Response, ResponseRow, RoutineRow, SeenRow, SessionBegun, SessionEnd,
    SetEnd, SetEndRow, SetRow, Stamp, Steadiness, Times, TriedOut, YesNo,
};
use crate::plan::drill::Form;

/// One session, whole.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct SessionRecord {
    /// Its id.
    pub id: Id,
    /// Partner if any set was done with one; `None` if no set was begun.
    pub form: Option<Form>,
    /// What was known at its beginning.
    pub start: SessionBegun,
    /// Its end and summary; `None` while it goes on.
    pub end: Option<Figures>,
    /// Who watched, where it was a supervised try-out, which counts as no practice.
    pub tryout: Option<TriedOut>,
    /// What was seen in a try-out, in order.
    pub seen: Vec<SeenRow>,
    /// What progression decided for it; `None` before that was kept.
    pub decided: Option<Decided>,
    /// The answers to the questions of readiness, in order; empty before they were kept.
    pub ready: Vec<ReadyRow>,
    /// What was asked and answered, in order.
    pub answers: Vec<Identified<AnswerRow>>,
    /// The sets that were begun.
    pub sets: Vec<SetRecord>,
    /// The sets that were not begun, while the session went on.
    pub left_out: Vec<LeftOutRow>,
    /// Grabs and falls that a partner reported by a key, in order.
    pub mishaps: Vec<MishapRow>,
    /// What was advised, in order.
    pub advised: Vec<AdviceRow>,
    /// The warm-up and the cool-down.
    pub routines: Vec<RoutineRow>,
    /// The patches of the floor course, in the order in which they were walked; empty where there was none.
    pub course: Vec<String>,
    /// The entries that can tell of something that locks or holds: a clearance names them.
    #[serde(skip)]
    pub can_lock: Vec<Id>,
    /// Whether an entry of it does not fit, so that it never counts as fine.
    #[serde(skip)]
    pub is_doubtful: bool,
    /// Where its beginning stands among all lines.
    #[serde(skip)]
    pub place: Place,
}

/// What an entry told, with the id by which others name it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Identified<T> {
    /// The entry's id.
    pub id: Id,
    /// What it told.
    #[serde(flatten)]
    pub row: T,
}

impl<T> Borrow<T> for Identified<T> {
    fn borrow(&self) -> &T {
        &self.row
    }
}

impl<T> Deref for Identified<T> {
    type Target = T;

    fn deref(&self) -> &T {
        &self.row
    }
}

/// One set, whole.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
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
    pub responses: Vec<Identified<ResponseRow>>,
    /// When the sound was disturbed, in order.
    pub disturbed: Vec<DisturbanceRow>,
}

/// The cues of a set as planned at its beginning or after a pause.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct PlanRecord {
    /// 0 at the beginning, then the number of the pause.
    pub plan: u16,
    /// The work that was done when the pause began.
    pub paused_at_ms: Option<u32>,
    /// The cues, those already called included.
    pub cues: Vec<CueRow>,
}

/// How a session ended, and its figures.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Figures {
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
    pub cues_asked: u32,
    /// With a partner: grabs, from responses and mishaps, a push once.
    pub grabs: u32,
    /// With a partner: falls, in the same way.
    pub falls: u32,
    /// Pushes whose response the partner noted.
    pub pushes_noted: u32,
    /// Pushes whose response was not noted, which is never fine.
    pub pushes_not_noted: u32,
}

impl SessionRecord {
    /// A session of which only its beginning is known.
    pub fn begun(place: Place, start: SessionBegun) -> Self {
        Self {
            id: place.id(),
            form: None,
            start,
            end: None,
            tryout: None,
            seen: Vec::new(),
            decided: None,
            ready: Vec::new(),
            answers: Vec::new(),
            sets: Vec::new(),
            left_out: Vec::new(),
            mishaps: Vec::new(),
            advised: Vec::new(),
            routines: Vec::new(),
            course: Vec::new(),
            can_lock: Vec::new(),
            is_doubtful: false,
            place,
        }
    }

    /// Partner if any of the sets was done with one; `None` if there is none.
    pub(super) fn form_of_sets(&self) -> Option<Form> {
        match self.sets.iter().any(|set| set.start.form == Form::Partner) {
            true => Some(Form::Partner),
            false => self.sets.first().map(|set| set.start.form),
        }
    }

    /// The figures of the session, ended so.
    pub(super) fn figures(&self, at: Stamp, why: SessionEnd) -> Figures {
        let ends = || self.sets.iter().filter_map(|set| set.end.as_ref());
        let delivered = || self.sets.iter().flat_map(|set| &set.delivered);
        let responses = || self.sets.iter().flat_map(|set| &set.responses).map(|row| row.response);
        let count = |found: usize| found as u32;
        macro_rules! worst {
            ($question:ident) => {
                self.answers
                    .iter()
                    .filter_map(|row| if let Answer::$question(one) = row.answer { one } else { None })
                    .max()
            };
        }
        let told = |what: Mishap| {
            let noted = responses().filter(|one| *one == Some(what.response())).count();
            // A mishap after a push is also its response.
            let by_key = self.mishaps.iter().filter(|row| row.what == what && row.cue.is_none()).count();
            count(noted + by_key)
        };
        Figures {
            at,
            why,
            sets_completed: count(ends().filter(|end| end.why == SetEnd::Completed).count()),
            sets_planned: self.start.sets_planned.into(),
            cues_heard: count(delivered().filter(|row| row.heard_ms.is_some()).count()),
            cues_shown: count(delivered().filter(|row| row.shown_ms.is_some()).count()),
            active_ms: ends().map(|end| u64::from(end.worked_ms)).sum(),
            grabbed: worst!(Grabbed),
            held_on: worst!(HeldOn),
            effort: worst!(Effort),
            steadiness: worst!(Steadiness),
            unwell: worst!(Unwell),
            not_said: count(self.answers.iter().filter(|row| row.answer.number().is_none()).count()),
            cues_asked: count(delivered().filter(|row| row.asked_ms.is_some()).count()),
            grabs: told(Mishap::Grab),
            falls: told(Mishap::Fall),
            pushes_noted: count(responses().flatten().count()),
            pushes_not_noted: count(responses().filter(Option::is_none).count()),
        }
    }
}

impl SetRecord {
    /// A set as it began.
    pub(super) fn begun(start: SetRow, cues: Vec<CueRow>) -> Self {
        Self {
            start,
            end: None,
            plans: vec![PlanRecord { plan: 0, paused_at_ms: None, cues }],
            delivered: Vec::new(),
            responses: Vec::new(),
            disturbed: Vec::new(),
        }
    }

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
