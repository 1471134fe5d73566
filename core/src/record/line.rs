//! One entry as rows: what is kept in one step, and what a rescue file lists.

use serde::{Deserialize, Serialize};

use super::row::cues;
use super::{
    AdviceRow, AnswerRow, CueRow, DecisionRow, DeliveryRow, DisturbanceRow, Entry, LeftOutRow, MishapRow,
    ReadyRow, ResponseRow, RoutineRow, SessionEnd, SessionRow, SetEndRow, SetRow, Stamp, TryoutRow,
};

/// One entry as rows: what the writer keeps in one commit, and a rescue file lists.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Line {
    /// A session was opened.
    SessionBegun(SessionRow),
    /// It is a supervised try-out.
    TriedOut(TryoutRow),
    /// What progression decided for it.
    Decided(DecisionRow),
    /// The pages of readiness were answered.
    Readied {
        /// Each sentence, in order.
        rows: Vec<ReadyRow>,
    },
    /// A set began, with its cues as planned.
    SetBegun {
        /// The set as planned.
        set: SetRow,
        /// Its cues.
        cues: Vec<CueRow>,
    },
    /// The rest of a set was planned again after a pause.
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
    /// A cue was heard, shown or asked for.
    CueDelivered {
        /// The set's number.
        set: u8,
        /// How.
        how: DeliveryRow,
    },
    /// The sound was disturbed.
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
    /// A set was not begun.
    SetLeftOut(LeftOutRow),
    /// What happened after a push.
    Responded {
        /// The set's number.
        set: u8,
        /// What.
        response: ResponseRow,
    },
    /// A grab or a fall.
    Mishap(MishapRow),
    /// Something was advised.
    Advised(AdviceRow),
    /// The warm-up or the cool-down is over.
    Routine(RoutineRow),
    /// The floor course of the day.
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
}

impl Line {
    /// The rows of an entry. `place` counts the session's entries; it orders the answers.
    pub fn from_entry(entry: &Entry, place: u32) -> Self {
        match entry {
            Entry::SessionBegun(begun) => Self::SessionBegun(SessionRow {
                begun: Stamp::from(&begun.at),
                title: begun.title.clone(),
                digest: begun.digest.to_string(),
                seed: begun.seed.to_string(),
                seed_given: begun.seed_given,
                method: begun.method.number(),
                voice: begun.voice.clone(),
                device: begun.device.clone(),
                sets_planned: begun.sets_planned,
            }),
            Entry::TriedOut(tried) => Self::TriedOut(tried.into()),
            Entry::Decided(decided) => Self::Decided(decided.into()),
            Entry::Readied { answers } => {
                let rows = answers.iter().map(|(item, is_true)| ReadyRow { item: *item, is_true: *is_true });
                Self::Readied { rows: rows.collect() }
            }
            Entry::SetBegun { at, plan, channel, room } => {
                Self::SetBegun { set: SetRow::new(Stamp::from(at), plan, *channel), cues: cues(plan, *room) }
            }
            Entry::Replanned { set, pause, paused_at, plan, room } => Self::Replanned {
                set: *set,
                pause: *pause,
                paused_at_ms: paused_at.0,
                cues: cues(plan, *room),
            },
            Entry::SetLeftOut { set, at, why } => {
                Self::SetLeftOut(LeftOutRow { set: *set, at: Stamp::from(at), why: *why })
            }
            Entry::Responded { set, cue, response } => {
                Self::Responded { set: *set, response: ResponseRow { cue: *cue, response: *response } }
            }
            Entry::Mishap { set, at, what, cue } => {
                Self::Mishap(MishapRow { place, set: *set, at_ms: at.0, what: *what, cue: *cue })
            }
            Entry::Advised { set, advice } => Self::Advised(AdviceRow { place, set: *set, advice: *advice }),
            Entry::Routine { part, at, how } => {
                Self::Routine(RoutineRow { part: *part, at: Stamp::from(at), how: *how })
            }
            Entry::Course { patches } => Self::Course { patches: patches.clone() },
            Entry::CueDelivered(delivered) => {
                Self::CueDelivered { set: delivered.set, how: DeliveryRow::new(delivered.cue, delivered.how) }
            }
            Entry::SoundDisturbed { set, at, how } => {
                Self::SoundDisturbed { set: *set, what: DisturbanceRow { place, at_ms: at.0, how: *how } }
            }
            Entry::SetEnded { set, at, worked, why } => Self::SetEnded {
                set: *set,
                end: SetEndRow { at: Stamp::from(at), worked_ms: worked.0, why: *why },
            },
            Entry::Answered { set, question, answer } => {
                Self::Answered(AnswerRow { place, set: *set, question: *question, answer: *answer })
            }
            Entry::SessionEnded { at, why } => Self::SessionEnded { at: Stamp::from(at), why: *why },
        }
    }
}
