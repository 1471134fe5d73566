//! What a journal keeps. One thing that happens is an [`Entry`]; with its id, its writer and its instant it is a [`Line`],
//! which is what is written, exported and imported. One fold makes everything of the lines that they tell
//! ([`Contents`]). Where lines are kept is the program's business, and what they lead to is decided in `course`.

use crate::units::Millis;
use crate::words;

mod answer_kinds;
mod clearance;
mod contents;
mod correction;
mod decision;
mod entry;
mod hand_entry;
mod id;
mod interruption;
mod kept;
mod line;
pub mod old;
mod partner;
mod question;
mod ranges;
mod row;
pub mod safety_record;
mod stamp;
mod tryout;

#[cfg(any(test, feature = "sample"))]
pub mod sample;

pub use answer_kinds::{
    Confidence, Effort, Heard, Numbered, Soreness, Steadiness, Symptom, Times, WhyStopped, YesNo,
    YesNoNotSure,
};
pub use clearance::{Barrier, Lifted};
pub use contents::{Contents, Misfit, lifted};
pub use correction::Right;
pub use decision::{Decided, Decision, Given};
pub use entry::Entry;
pub use hand_entry::{SetTicked, Ticked};
pub use id::Id;
pub use kept::{Figures, Identified, PlanRecord, SessionRecord, SetRecord};
pub use line::{FORMAT, Line, Place, Told, in_order};
pub use partner::{Advice, LeftOut, Mishap, Response};
pub use question::{Answer, NotAnAnswer, Question};
pub use ranges::{careful, first_hidden};
pub use row::{
    AdviceRow, AnswerRow, BalanceRow, Change, ChangeRow, ClearanceRow, Corrected, CorrectionRow, CueRow,
    DeliveryRow, DisturbanceRow, Drawn, LadderRow, LeftOutRow, LiftedRow, MishapRow, PrescriptionText,
    ReadyRow, ResponseRow, RoutineRow, SessionBegun, SetEndRow, SetRow, SuitabilityRow, TopicRow, WorseRow,
};
pub use safety_record::{Mark, SafetyRecord, What};
pub use stamp::{Stamp, instant};
pub use tryout::{Seen, SeenRow, TriedOut};

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
    /// The computer slept, or its clock jumped, as it was kept before [`Self::Halted`].
    Slept,
    /// The computer slept, or the program was stopped: for too long nobody watched the time.
    Halted,
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
        Halted => "interrupted: the computer slept or stopped",
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
