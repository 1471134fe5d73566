//! What a journal says: one thing that happened, as it is written, exported, imported and folded.

use jiff::ZonedDateTime;
use serde::{Deserialize, Serialize};

use super::{
    AdviceRow, Answer, AnswerRow, BalanceRow, ChangeRow, Channel, ClearanceRow, Corrected, CorrectionRow,
    CueRow, Decided, Delivery, DeliveryRow, Disturbance, DisturbanceRow, LeftOutRow, MishapRow,
    PrescriptionText, ReadyRow, Response, ResponseRow, RoutineRow, SeenRow, SessionBegun, SessionEnd, SetEnd,
    SetEndRow, SetRow, Stamp, SuitabilityRow, TriedOut,
};
use crate::draw::schedule::SetPlan;
use crate::health::readiness::Item;
use crate::health::yes_no::YesNoNotSure;
use crate::plan::place::Room;
use crate::units::Millis;

/// One thing that happened: in a session, in the order in which it makes them, or outside of sessions.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Entry {
    /// A session was opened.
    SessionBegun(SessionBegun),
    /// It is a supervised try-out, which counts as no practice.
    TriedOut(TriedOut),
    /// What was seen in a try-out.
    Seen {
        /// In order.
        seen: Vec<SeenRow>,
    },
    /// What progression decided for it.
    Decided(Decided),
    /// The questions of readiness were answered.
    Readied {
        /// In the order in which they were answered.
        rows: Vec<ReadyRow>,
    },
    /// A set's work begins: the plan, on disk before the first cue.
    SetBegun {
        /// The set as planned.
        set: SetRow,
        /// Its cues and blanks.
        cues: Vec<CueRow>,
    },
    /// A set was not begun at all. The others went on.
    SetLeftOut(LeftOutRow),
    /// The rest of a set was planned anew after a pause; cue numbers go on.
    Replanned {
        /// The set's number.
        set: u8,
        /// Which pause of this set, from 1.
        pause: u16,
        /// The work that was done when it began.
        paused_at_ms: u32,
        /// Those already called, then the new ones.
        cues: Vec<CueRow>,
    },
    /// A cue was heard, shown or asked of a partner.
    CueDelivered {
        /// The set's number.
        set: u8,
        /// How.
        how: DeliveryRow,
    },
    /// The sound was disturbed during a set, and went on.
    SoundDisturbed {
        /// The set's number.
        set: u8,
        /// How.
        what: DisturbanceRow,
    },
    /// A set ended.
    SetEnded {
        /// The set's number.
        set: u8,
        /// Its end.
        end: SetEndRow,
    },
    /// What happened after a push, as the partner noted it at the rest.
    Responded {
        /// The set's number.
        set: u8,
        /// What.
        response: ResponseRow,
    },
    /// The partner grabbed or steadied the trainee, or the trainee fell, as a key said while it happened. Of a push it
    /// is its response as well.
    Mishap(MishapRow),
    /// Something was advised, by rule.
    Advised(AdviceRow),
    /// The warm-up or the cool-down is over.
    Routine(RoutineRow),
    /// The floor course of the day, as the person was shown it.
    Course {
        /// The patches, in the order in which they are walked.
        patches: Vec<String>,
    },
    /// A question was answered, or passed over.
    Answered(AnswerRow),
    /// The session ended.
    SessionEnded {
        /// When.
        at: Stamp,
        /// Why.
        why: SessionEnd,
    },
    /// Something of a session was corrected.
    Corrected(CorrectionRow),
    /// Outside of sessions: the answers about suitability.
    Suitability(SuitabilityRow),
    /// Outside of sessions: a clinician lifted something.
    Cleared(ClearanceRow),
    /// Outside of sessions: the result of a balance test.
    Tested(BalanceRow),
    /// Outside of sessions: a prescription came into use, or was not taken.
    Changed(ChangeRow),
    /// The bytes of a prescription, once for each digest.
    Prescription(PrescriptionText),
}

impl Entry {
    /// A set begins, as it was drawn.
    pub fn set_begun(at: &ZonedDateTime, plan: &SetPlan, channel: Channel, room: Room) -> Self {
        Self::SetBegun { set: SetRow::new(Stamp::from(at), plan, channel), cues: CueRow::all(plan, room) }
    }

    /// The rest of a set as it was drawn after a pause.
    pub fn replanned(pause: u16, paused_at: Millis, plan: &SetPlan, room: Room) -> Self {
        let cues = CueRow::all(plan, room);
        Self::Replanned { set: plan.number(), pause, paused_at_ms: paused_at.0, cues }
    }

    /// A cue of a set was delivered.
    pub fn delivered(set: u8, cue: u16, how: Delivery) -> Self {
        Self::CueDelivered { set, how: DeliveryRow::new(cue, how) }
    }

    /// The questions of readiness were answered.
    pub fn readied(answers: &[(Item, YesNoNotSure)]) -> Self {
        let rows = answers.iter().map(|(item, answer)| ReadyRow::new(*item, *answer));
        Self::Readied { rows: rows.collect() }
    }

    /// The sound was disturbed in a set.
    pub fn disturbed(set: u8, at: Millis, how: Disturbance) -> Self {
        Self::SoundDisturbed { set, what: DisturbanceRow { at_ms: at.0, how } }
    }

    /// A set ended.
    pub fn set_ended(set: u8, at: &ZonedDateTime, worked: Millis, why: SetEnd) -> Self {
        Self::SetEnded { set, end: SetEndRow { at: at.into(), worked_ms: worked.0, why } }
    }

    /// A question was answered, or passed over.
    pub fn answered(set: Option<u8>, answer: Answer) -> Self {
        Self::Answered(AnswerRow { set, answer })
    }

    /// Whether it can tell of something that locks or holds, so that a clearance must name it to lift that. In doubt it
    /// does.
    pub fn can_lock(&self) -> bool {
        match self {
            Self::Readied { rows } => rows.iter().any(|row| !row.is_good() || row.item == Item::UnwellPassed),
            Self::SetEnded { end, .. } => matches!(end.why, SetEnd::Grabbed | SetEnd::Fell),
            Self::Responded { response, .. } => is_mishap(response.response),
            Self::Mishap(_) => true,
            Self::Answered(row) => row.answer.can_lock(),
            Self::SessionEnded { why, .. } => matches!(
                why,
                SessionEnd::Fell
                    | SessionEnd::Unwell
                    | SessionEnd::Grabbed
                    | SessionEnd::StoppedUnsteady
                    | SessionEnd::NotAnswered
            ),
            Self::Corrected(row) => match row.what {
                Corrected::SetAside | Corrected::CountsAgain => false,
                Corrected::Answer => row.answer().is_none_or(Answer::can_lock),
                Corrected::Response => is_mishap(row.response()),
            },
            _ => false,
        }
    }
}

fn is_mishap(response: Option<Response>) -> bool {
    response.and_then(Response::mishap).is_some()
}
