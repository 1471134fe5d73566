//! What is kept of a session, a set, a cue and an answer: plain values, as they are made ([`Entry`]), as the rows that
//! are written ([`Line`]), and as they are read back ([`SessionRecord`]). Where they are kept is the program's business,
//! and what they lead to is decided in `course`.

use jiff::ZonedDateTime;

use crate::draw::schedule::{Method, Seed, SetPlan};
use crate::health::readiness::Item;
use crate::plan::place::Room;
use crate::plan::prescription::Digest;
use crate::units::Millis;
use crate::words;

mod clearance;
mod correction;
mod decision;
mod hand_entry;
mod interruption;
mod kept;
mod line;
mod partner;
mod question;
mod row;
mod session_id;
mod stamp;
mod tryout;

#[cfg(any(test, feature = "sample"))]
pub mod sample;

pub use clearance::{Barrier, Lifted};
pub use correction::Right;
pub use decision::{Decided, Decision, Given};
pub use hand_entry::{SetTicked, Ticked};
pub use interruption::Interruption;
pub use kept::{ChangeRow, PlanRecord, SessionRecord, SetRecord, SummaryRow, form_of};
pub use line::Line;
pub use partner::{Advice, LeftOut, Mishap, Response};
pub use question::Question;
pub use row::{
    AdviceRow, AnswerRow, BY_HAND, BalanceRow, ClearanceRow, Corrected, CorrectionRow, CueRow, DecisionRow,
    DeliveryRow, DisturbanceRow, GivenRow, LadderRow, LeftOutRow, LiftedRow, MishapRow, ReadyRow,
    ResponseRow, RoutineRow, SeenRow, SessionRow, SetEndRow, SetRow, SuitabilityRow, TopicRow, TryoutRow,
};
pub use session_id::SessionId;
pub use stamp::{Stamp, instant};
pub use tryout::{Seen, TriedOut};

/// One line of the journal, in the order in which a session makes them.
#[derive(Debug, Clone, PartialEq)]
pub enum Entry {
    /// A session was opened.
    SessionBegun(SessionBegun),
    /// It is a supervised try-out, which counts as no practice.
    TriedOut(TriedOut),
    /// What progression decided for it.
    Decided(Decided),
    /// The pages of readiness were answered: each sentence, and whether it was true.
    Readied {
        /// In the order in which they were answered.
        answers: Vec<(Item, bool)>,
    },
    /// A set's work begins: the plan, on disk before the first cue.
    SetBegun {
        /// When its work began.
        at: ZonedDateTime,
        /// The set as drawn.
        plan: SetPlan,
        /// Whose ear and eye its cues go to.
        channel: Channel,
        /// What is on each side, for the places that the partner is told.
        room: Room,
    },
    /// A set was not begun at all. The others went on.
    SetLeftOut {
        /// The set's number.
        set: u8,
        /// When.
        at: ZonedDateTime,
        /// Why.
        why: LeftOut,
    },
    /// The rest of a set was planned anew after a pause; cue numbers go on.
    Replanned {
        /// The set's number.
        set: u8,
        /// Which pause of this set, from 1.
        pause: u16,
        /// Elapsed work when the pause began.
        paused_at: Millis,
        /// The set, with the cues that are now planned: those already called, then the new ones.
        plan: SetPlan,
        /// What is on each side, for the places that the partner is told.
        room: Room,
    },
    /// A cue was heard or shown.
    CueDelivered(CueDelivered),
    /// The sound was disturbed during a set, and went on.
    SoundDisturbed {
        /// The set's number.
        set: u8,
        /// Elapsed work.
        at: Millis,
        /// How.
        how: Disturbance,
    },
    /// A set ended.
    SetEnded {
        /// The set's number.
        set: u8,
        /// When.
        at: ZonedDateTime,
        /// Elapsed work.
        worked: Millis,
        /// Why.
        why: SetEnd,
    },
    /// What happened after a push, as the partner noted it at the rest.
    Responded {
        /// The set's number.
        set: u8,
        /// The push's place in the set, from 0, blanks counted.
        cue: u16,
        /// What happened; `None` is "not noted", which is never "fine".
        response: Option<Response>,
    },
    /// The partner grabbed or steadied the trainee, or the trainee fell, as a key said while it happened. Of a push it
    /// is its response as well.
    Mishap {
        /// The number of the set, begun or about to begin.
        set: u8,
        /// Elapsed work.
        at: Millis,
        /// What.
        what: Mishap,
        /// The push that it followed, if one had just been asked for.
        cue: Option<u16>,
    },
    /// Something was advised, by rule.
    Advised {
        /// The number of the set after which.
        set: u8,
        /// What.
        advice: Advice,
    },
    /// The warm-up or the cool-down is over.
    Routine {
        /// Which.
        part: RoutinePart,
        /// When.
        at: ZonedDateTime,
        /// How it ended.
        how: RoutineEnd,
    },
    /// The floor course of the day, as the person was shown it.
    Course {
        /// The patches, in the order in which they are walked.
        patches: Vec<String>,
    },
    /// A question was answered, or passed over.
    Answered {
        /// The set it was asked after; `None` before the first set.
        set: Option<u8>,
        /// The question.
        question: Question,
        /// The answer; `None` is "not said".
        answer: Option<u8>,
    },
    /// The session ended.
    SessionEnded {
        /// When.
        at: ZonedDateTime,
        /// Why.
        why: SessionEnd,
    },
}

/// The facts known when a session is opened.
#[derive(Debug, Clone, PartialEq)]
pub struct SessionBegun {
    /// When, with offset and zone. A day is the local date of this.
    pub at: ZonedDateTime,
    /// The prescription's title.
    pub title: String,
    /// The prescription's digest.
    pub digest: Digest,
    /// The seed.
    pub seed: Seed,
    /// Whether somebody gave the seed, so that the practice was not unpredictable.
    pub seed_given: bool,
    /// The drawing recipe.
    pub method: Method,
    /// The voice: `lower`, `higher` or `tones`.
    pub voice: String,
    /// Host and device of the sound output; `None` without sound.
    pub device: Option<String>,
    /// How many sets were planned.
    pub sets_planned: u8,
}

/// Who a practice's cues go to. What each is given of a cue stands in [`call`](crate::draw::schedule::call).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Channel {
    /// The trainee alone: by ear, and on the screen.
    Trainee,
    /// The partner by the screen. What sounds is for the trainee's ear.
    PartnerScreen,
    /// The partner by an earbud: everything that sounds is the partner's, and the trainee hears nothing of it.
    PartnerEarbud,
}

/// One cue as delivered. Planned and heard are kept apart.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CueDelivered {
    /// The set's number.
    pub set: u8,
    /// The cue's place in the set, from 0, blanks counted.
    pub cue: u16,
    /// How.
    pub how: Delivery,
}

/// How a cue reached whom it was for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Delivery {
    /// Its clip began on the renderer's clock. `wanted` and `began` count frames from the set's start.
    Heard {
        /// The frame asked for.
        wanted: u64,
        /// The frame on which it began.
        began: u64,
        /// Frames a second.
        rate: u32,
    },
    /// There was no sound: it was shown on the screen at this offset.
    Shown {
        /// From the start of the work.
        at: Millis,
    },
    /// A partner was asked to do it, or to call it, at this offset. When it came nobody knows.
    Asked {
        /// From the start of the work.
        at: Millis,
    },
}

/// What every session can carry besides its sets.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum RoutinePart {
    /// Before the first set.
    WarmUp,
    /// After the last set.
    CoolDown,
}

/// How a warm-up or a cool-down ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum RoutineEnd {
    /// All of it was said.
    Done,
    /// A key went past it.
    Skipped,
    /// The practice ended in it.
    BrokenOff,
}

/// How the sound was disturbed. It went on, but no longer at the moments that the frames say.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Disturbance {
    /// The device ran out of samples: what followed was heard later than its frame says, by an unknown time.
    Stuttered,
    /// The system moved the sound to another device.
    Moved,
}

/// Why a set ended.
///
/// ```
/// use counterpoise_core::record::SetEnd;
/// assert_eq!(SetEnd::PausedTooLong.name(), "paused too long");
/// assert_eq!(SetEnd::from_name("completed"), Some(SetEnd::Completed));
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SetEnd {
    /// All of it was done.
    Completed,
    /// The trainee stopped it.
    Stopped,
    /// The trainee wanted no more of it. It counts against nobody.
    Refused,
    /// The partner grabbed or steadied the trainee.
    Grabbed,
    /// The trainee fell.
    Fell,
    /// It was paused for more than five minutes.
    PausedTooLong,
    /// The sound was lost.
    SoundLost,
    /// The computer slept, or its clock jumped.
    Slept,
    /// The program was closed.
    Closed,
    /// Found without an end when the journal was opened again.
    Interrupted,
}

/// Why a session ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SessionEnd {
    /// All sets were done or at least begun.
    Finished,
    /// The trainee stopped for a reason that counts against nobody.
    StoppedOther,
    /// The trainee stopped because of feeling unsteady.
    StoppedUnsteady,
    /// The trainee felt unwell.
    Unwell,
    /// The trainee had to grab hold or nearly fell; with a partner, for the second time.
    Grabbed,
    /// The trainee fell.
    Fell,
    /// A question stayed unanswered.
    NotAnswered,
    /// The first pages said: not today.
    NotToday,
    /// The program was closed.
    Closed,
    /// Found without an end when the journal was opened again.
    Interrupted,
}

words! {
    Channel {
        Trainee => "trainee",
        PartnerScreen => "partner's screen",
        PartnerEarbud => "partner's earbud",
    }
    Disturbance {
        Stuttered => "stuttered",
        Moved => "moved to another output",
    }
    RoutinePart {
        WarmUp => "warm-up",
        CoolDown => "cool-down",
    }
    RoutineEnd {
        Done => "done",
        Skipped => "skipped",
        BrokenOff => "broken off",
    }
    SetEnd {
        Completed => "completed",
        Stopped => "stopped",
        Refused => "refused",
        Grabbed => "grabbed or steadied",
        Fell => "fell",
        PausedTooLong => "paused too long",
        SoundLost => "sound lost",
        Slept => "computer slept",
        Closed => "program closed",
        Interrupted => "interrupted",
    }
    SessionEnd {
        Finished => "finished",
        StoppedOther => "stopped for another reason",
        StoppedUnsteady => "stopped, felt unsteady",
        Unwell => "felt unwell",
        Grabbed => "grabbed hold or nearly fell",
        Fell => "fell",
        NotAnswered => "not answered",
        NotToday => "not today",
        Closed => "program closed",
        Interrupted => "interrupted",
    }
}

#[cfg(test)]
mod test {
    use super::{Disturbance, Question, SessionEnd, SetEnd};

    #[test]
    fn words_lead_back_to_what_they_name() {
        for end in SetEnd::ALL {
            assert_eq!(SetEnd::from_name(end.name()), Some(*end));
        }
        for end in SessionEnd::ALL {
            assert_eq!(SessionEnd::from_name(end.name()), Some(*end));
        }
        for how in Disturbance::ALL {
            assert_eq!(Disturbance::from_name(how.name()), Some(*how));
        }
        for question in Question::ALL {
            assert_eq!(Question::from_name(question.name()), Some(*question));
        }
        assert_eq!(SetEnd::from_name("Completed"), None, "words are spelled exactly");
    }
}
