//! The topics of the questions about suitability, and which of them a prescription may accept. What is asked about each,
//! and what an answer leads to, is in `health::suitability`.

use crate::words;

/// Something that decides whether, and how, a person begins. Its name is what files and the journal keep.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[allow(missing_docs, reason = "the words beside each say what it is about")]
pub enum Topic {
    HeartTrouble,
    BloodPressure,
    ChestPain,
    BlackingOut,
    Dizziness,
    Rising,
    FallHurts,
    FallWalking,
    Fracture,
    Surgery,
    ThinBones,
    SmallFall,
    Stroke,
    NerveIllness,
    Ear,
    NumbFeet,
    Thinners,
    SleepyPills,
    PainPills,
    Sugar,
    Sight,
    Joint,
    NeckPain,
    NeckDizzy,
    Pain,
    Following,
    Remembering,
    Floor,
    Aid,
    House,
    FallYear,
    TwoFalls,
    FallDoctor,
    FallHour,
    Unsteady,
    Worried,
    PartnerStrength,
    PartnerBalance,
    PartnerSpine,
    PartnerShoulder,
    PartnerTold,
    PartnerWatched,
    Willing,
    CanStop,
    // Once asked about as one sentence each; now in parts, one idea each. Journals keep them.
    Heart,
    Blackouts,
    FallPain,
    Operation,
    Bones,
    Nerves,
    InnerEar,
    Drowsy,
    Neck,
    Memory,
    FallSevere,
    PartnerBack,
    PartnerTaught,
    Consent,
}

words! {
    Topic {
        HeartTrouble => "heart trouble",
        BloodPressure => "blood pressure",
        ChestPain => "chest pain",
        BlackingOut => "blackouts",
        Dizziness => "dizziness",
        Rising => "faint on rising",
        FallHurts => "fall that still hurts",
        FallWalking => "fall that makes it hard to walk",
        Fracture => "recent fracture",
        Surgery => "recent operation",
        ThinBones => "thin or weak bones",
        SmallFall => "bone broken in a small fall",
        Stroke => "stroke",
        NerveIllness => "Parkinson's, multiple sclerosis or similar",
        Ear => "inner ear",
        NumbFeet => "numb feet",
        Thinners => "blood thinners",
        SleepyPills => "pills that make sleepy",
        PainPills => "strong pain pills",
        Sugar => "low sugar",
        Sight => "sight",
        Joint => "joint replacement",
        NeckPain => "pain on turning the head",
        NeckDizzy => "dizzy on turning the head",
        Pain => "pain",
        Following => "following what is said",
        Remembering => "remembering what is said",
        Floor => "getting up from the floor",
        Aid => "walking aid indoors",
        House => "alone in the house",
        FallYear => "fall in 12 months",
        TwoFalls => "two falls in a year",
        FallDoctor => "fall that needed a doctor",
        FallHour => "an hour on the floor",
        Unsteady => "unsteady",
        Worried => "worried about falling",
        PartnerStrength => "partner's strength",
        PartnerBalance => "partner's balance",
        PartnerSpine => "partner's bad back",
        PartnerShoulder => "partner's bad shoulder",
        PartnerTold => "taught by a therapist",
        PartnerWatched => "watched by a therapist",
        Willing => "wants to practice with the partner",
        CanStop => "can say stop",
        Heart => "heart or blood pressure",
        Blackouts => "blackouts or dizziness",
        FallPain => "recent fall with pain",
        Operation => "recent fracture or operation",
        Bones => "weak bones",
        Nerves => "stroke, Parkinson's or multiple sclerosis",
        InnerEar => "inner ear or numb feet",
        Drowsy => "medicine that makes drowsy",
        Neck => "neck",
        Memory => "memory",
        FallSevere => "severe or repeated falls",
        PartnerBack => "partner's back",
        PartnerTaught => "practiced with the therapist",
        Consent => "consent",
    }
}

impl Topic {
    /// The topic that once stood for this one together with others; itself where it never did.
    #[must_use]
    pub const fn whole(self) -> Self {
        match self {
            Self::HeartTrouble | Self::BloodPressure => Self::Heart,
            Self::BlackingOut | Self::Dizziness => Self::Blackouts,
            Self::FallHurts | Self::FallWalking => Self::FallPain,
            Self::Fracture | Self::Surgery => Self::Operation,
            Self::ThinBones | Self::SmallFall => Self::Bones,
            Self::Stroke | Self::NerveIllness => Self::Nerves,
            Self::Ear | Self::NumbFeet => Self::InnerEar,
            Self::SleepyPills | Self::PainPills => Self::Drowsy,
            Self::NeckPain | Self::NeckDizzy => Self::Neck,
            Self::Following | Self::Remembering => Self::Memory,
            Self::TwoFalls | Self::FallDoctor | Self::FallHour => Self::FallSevere,
            Self::PartnerSpine | Self::PartnerShoulder => Self::PartnerBack,
            Self::PartnerTold | Self::PartnerWatched => Self::PartnerTaught,
            Self::Willing | Self::CanStop => Self::Consent,
            whole => whole,
        }
    }

    /// The topics that are asked about now in the place of this one; itself where nothing changed.
    ///
    /// ```
    /// use counterpoise_core::plan::health_topic::Topic;
    /// let parts: Vec<Topic> = Topic::Heart.parts().collect();
    /// assert_eq!(parts, [Topic::HeartTrouble, Topic::BloodPressure]);
    /// assert!(Topic::ChestPain.parts().eq([Topic::ChestPain]));
    /// assert!(Topic::BloodPressure.parts().eq([Topic::BloodPressure]));
    /// assert!(!Topic::Heart.is_asked() && Topic::HeartTrouble.is_asked());
    /// ```
    pub fn parts(self) -> impl Iterator<Item = Self> {
        let is_part = move |part: &Self| part.is_asked() && (*part == self || part.whole() == self);
        Self::ALL.iter().copied().filter(is_part)
    }

    /// Whether there is a question about it now.
    pub const fn is_asked(self) -> bool {
        !matches!(
            self,
            Self::Heart
                | Self::Blackouts
                | Self::FallPain
                | Self::Operation
                | Self::Bones
                | Self::Nerves
                | Self::InnerEar
                | Self::Drowsy
                | Self::Neck
                | Self::Memory
                | Self::FallSevere
                | Self::PartnerBack
                | Self::PartnerTaught
                | Self::Consent
        )
    }

    /// Whether a yes means: a clinician first.
    pub const fn locks(self) -> bool {
        matches!(
            self.whole(),
            Self::Heart
                | Self::ChestPain
                | Self::Blackouts
                | Self::Rising
                | Self::FallPain
                | Self::Operation
                | Self::Bones
                | Self::Nerves
                | Self::InnerEar
                | Self::Thinners
                | Self::Drowsy
                | Self::Sight
                | Self::Joint
                | Self::Pain
                | Self::Memory
                | Self::FallSevere
        )
    }

    /// Whether only a clinician's clearance, given after the answer, lifts its lock \[judgment\]: neither what the person says
    /// of a clinician nor a prescription does.
    pub const fn needs_clearance(self) -> bool {
        matches!(self.whole(), Self::ChestPain | Self::Blackouts | Self::FallPain)
    }

    /// Whether a prescription may accept it.
    pub const fn can_be_accepted(self) -> bool {
        self.is_asked() && self.locks() && !self.needs_clearance()
    }
}
