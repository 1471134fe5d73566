//! What is kept of a session, a set, a cue and an answer: plain values. Not where they are kept (that is
//! `journal`), and not what they lead to (that is `progression`).

use jiff::ZonedDateTime;

use crate::millis::Millis;
use crate::prescription::Digest;
use crate::schedule::{Seed, SetPlan};
use crate::words::words;

/// One line of the journal, in the order in which a session makes them.
#[derive(Debug, Clone, PartialEq)]
pub enum Entry {
    /// A session was opened.
    SessionBegun(SessionBegun),
    /// A set's work begins: the plan, on disk before the first cue.
    SetBegun {
        /// When its work began.
        at: ZonedDateTime,
        /// The set as drawn.
        plan: SetPlan,
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
    },
    /// A cue was heard or shown.
    CueDelivered(CueDelivered),
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
    pub method: u32,
    /// The voice: `lower`, `higher` or `tones`.
    pub voice: String,
    /// Host and device of the sound output; `None` without sound.
    pub device: Option<String>,
    /// How many sets were planned.
    pub sets_planned: u8,
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

/// How a cue reached the trainee.
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
}

/// Why a set ended.
///
/// ```
/// use counterpoise::record::SetEnd;
/// assert_eq!(SetEnd::PausedTooLong.name(), "paused too long");
/// assert_eq!(SetEnd::from_name("completed"), Some(SetEnd::Completed));
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SetEnd {
    /// All of it was done.
    Completed,
    /// The trainee stopped it.
    Stopped,
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
    /// The trainee had to grab hold or nearly fell.
    Grabbed,
    /// A question stayed unanswered.
    NotAnswered,
    /// The first pages said: not today.
    NotToday,
    /// The program was closed.
    Closed,
    /// Found without an end when the journal was opened again.
    Interrupted,
}

/// What is asked.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Question {
    /// None of the reasons to see a clinician first applies: 1 true, 0 not.
    Clinician,
    /// Body, room and phone are ready: 1 true, 0 not.
    Ready,
    /// Which word was heard: 1 the one that was said, 0 another or none.
    SoundCheck,
    /// Had to grab hold, or nearly fell: 1 yes, 0 no.
    Grabbed,
    /// Held on, apart from the resting hand: 0, 1, 2, 3 (three or more).
    HeldOn,
    /// Hardest effort: 1-5 keyed, kept on the 0-10 scale.
    Effort,
    /// Steadiness, 1 steady to 5 lost balance.
    Steadiness,
    /// Unwell: 1 yes, 0 no.
    Unwell,
    /// Why stopped: 1 unwell, 2 unsteady, 3 something else.
    WhyStopped,
}

impl Question {
    /// An answer to this question, in plain words.
    ///
    /// ```
    /// use counterpoise::record::Question;
    /// assert_eq!(Question::HeldOn.say(Some(3)), "3 times or more");
    /// assert_eq!(Question::Grabbed.say(Some(0)), "no");
    /// assert_eq!(Question::Effort.say(None), "not said");
    /// ```
    pub fn say(self, answer: Option<u8>) -> String {
        let Some(answer) = answer else { return "not said".to_owned() };
        match (self, answer) {
            (Self::Clinician | Self::Ready | Self::Grabbed | Self::Unwell, 0) => "no".to_owned(),
            (Self::Clinician | Self::Ready | Self::Grabbed | Self::Unwell, _) => "yes".to_owned(),
            (Self::SoundCheck, 0) => "another word or none was heard".to_owned(),
            (Self::SoundCheck, _) => "the right word was heard".to_owned(),
            (Self::HeldOn, 0) => "not at all".to_owned(),
            (Self::HeldOn, 1) => "once".to_owned(),
            (Self::HeldOn, 2) => "twice".to_owned(),
            (Self::HeldOn, _) => "3 times or more".to_owned(),
            (Self::Effort, _) => format!("{answer} on the scale from 0 to 10"),
            (Self::Steadiness, _) => format!("{answer} on the scale from 1, steady, to 5, lost balance"),
            (Self::WhyStopped, 1) => "felt unwell".to_owned(),
            (Self::WhyStopped, 2) => "felt unsteady".to_owned(),
            (Self::WhyStopped, _) => "something else".to_owned(),
        }
    }
}

words! {
    SetEnd {
        Completed => "completed",
        Stopped => "stopped",
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
        NotAnswered => "not answered",
        NotToday => "not today",
        Closed => "program closed",
        Interrupted => "interrupted",
    }
    Question {
        Clinician => "nothing to see a clinician about",
        Ready => "ready",
        SoundCheck => "sound check",
        Grabbed => "grabbed hold or nearly fell",
        HeldOn => "held on",
        Effort => "effort",
        Steadiness => "steadiness",
        Unwell => "unwell",
        WhyStopped => "why stopped",
    }
}

#[cfg(test)]
mod test {
    use super::{Question, SessionEnd, SetEnd};

    #[test]
    fn words_lead_back_to_what_they_name() {
        for end in SetEnd::ALL {
            assert_eq!(SetEnd::from_name(end.name()), Some(*end));
        }
        for end in SessionEnd::ALL {
            assert_eq!(SessionEnd::from_name(end.name()), Some(*end));
        }
        for question in Question::ALL {
            assert_eq!(Question::from_name(question.name()), Some(*question));
        }
        assert_eq!(SetEnd::from_name("Completed"), None, "words are spelled exactly");
    }
}
