//! The questions that a person is asked, and what each answer means in words.

use crate::words;

/// What is asked.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Question {
    /// None of the reasons to see a clinician first applies: 1 true, 0 not.
    Clinician,
    /// Body, room and phone are ready: 1 true, 0 not.
    Ready,
    /// What the drills need is in place: 1 true, 0 not.
    InPlace,
    /// The partner is ready, knows where hands go, and is one with whom it was watched: 1 true, 0 not.
    PartnerReady,
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
    /// What feels wrong, after unwell: 1 chest, 2 breath, 3 weak, numb, speech or sight, 4 faint, 5 dizzy, 6 something else.
    Symptom,
    /// Once a week: nearly fell in daily life, 0, 1, 2, 3 (three or more).
    NearFalls,
    /// Once a week: how sure of the own balance, 1 not at all to 5 quite.
    Confidence,
    /// Once a week: how sore, 0 not to 3 very.
    Soreness,
    /// After a fall, hurt or a knock to the head: 1 yes, 0 no.
    Hurt,
}

words! {
    Question {
        Clinician => "nothing to see a clinician about",
        Ready => "ready",
        InPlace => "in place",
        PartnerReady => "partner ready",
        SoundCheck => "sound check",
        Grabbed => "grabbed hold or nearly fell",
        HeldOn => "held on",
        Effort => "effort",
        Steadiness => "steadiness",
        Unwell => "unwell",
        WhyStopped => "why stopped",
        Symptom => "what felt wrong",
        NearFalls => "nearly fell in daily life",
        Confidence => "confidence",
        Soreness => "soreness",
        Hurt => "hurt or a knock to the head",
    }
}

impl Question {
    /// Whether this answer can tell of something that locks or holds.
    pub fn can_lock(self, answer: Option<u8>) -> bool {
        match self {
            Self::Grabbed | Self::Unwell | Self::NearFalls => answer.is_some_and(|answer| answer > 0),
            Self::WhyStopped | Self::Symptom | Self::Hurt => answer.is_some(),
            _ => false,
        }
    }

    /// Those that are asked at the first practice of a week, in order.
    pub const WEEKLY: [Self; 3] = [Self::NearFalls, Self::Confidence, Self::Soreness];

    /// An answer to this question, in plain words.
    ///
    /// ```
    /// use counterpoise_core::record::Question;
    /// assert_eq!(Question::HeldOn.say(Some(3)), "3 times or more");
    /// assert_eq!(Question::Grabbed.say(Some(0)), "no");
    /// assert_eq!(Question::Effort.say(None), "not said");
    /// ```
    pub fn say(self, answer: Option<u8>) -> String {
        let Some(answer) = answer else { return "not said".to_owned() };
        match (self, answer) {
            (
                Self::Clinician
                | Self::Ready
                | Self::InPlace
                | Self::PartnerReady
                | Self::Grabbed
                | Self::Unwell
                | Self::Hurt,
                yes,
            ) => if yes == 0 { "no" } else { "yes" }.to_owned(),
            (Self::SoundCheck, 0) => "another word or none was heard".to_owned(),
            (Self::SoundCheck, _) => "the right word was heard".to_owned(),
            (Self::HeldOn | Self::NearFalls, 0) => "not at all".to_owned(),
            (Self::HeldOn | Self::NearFalls, 1) => "once".to_owned(),
            (Self::HeldOn | Self::NearFalls, 2) => "twice".to_owned(),
            (Self::HeldOn | Self::NearFalls, _) => "3 times or more".to_owned(),
            (Self::Confidence, _) => {
                format!("{answer} on the scale from 1, not sure at all, to 5, quite sure")
            }
            (Self::Soreness, _) => format!("{answer} on the scale from 0, not sore, to 3, very sore"),
            (Self::Effort, _) => format!("{answer} on the scale from 0 to 10"),
            (Self::Steadiness, _) => format!("{answer} on the scale from 1, steady, to 5, lost balance"),
            (Self::Symptom, 1) => "chest pain or pressure".to_owned(),
            (Self::Symptom, 2) => "badly short of breath".to_owned(),
            (Self::Symptom, 3) => "weak, numb, or trouble speaking or seeing".to_owned(),
            (Self::Symptom, 4) => "fainted, or nearly".to_owned(),
            (Self::Symptom, 5) => "dizzy".to_owned(),
            (Self::WhyStopped, 1) => "felt unwell".to_owned(),
            (Self::WhyStopped, 2) => "felt unsteady".to_owned(),
            (Self::Symptom | Self::WhyStopped, _) => "something else".to_owned(),
        }
    }
}
