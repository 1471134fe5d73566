//! The topics, their sentences, and what each leads to. All of it \[judgment\]; the topics are those of public-health
//! lists and trial exclusions \[read / second-hand\].

use super::{Answer, Effect};
use crate::health::bounds::Bounds;
use crate::words;

/// Something that decides whether, and how, a person begins. Its name is what the journal keeps.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Topic {
    /// A heart or blood-pressure condition.
    Heart,
    /// Chest pain at any time.
    ChestPain,
    /// Blackouts or dizziness.
    Blackouts,
    /// Faint on rising.
    Rising,
    /// A recent fall with pain or trouble walking.
    FallPain,
    /// A recent fracture or operation.
    Operation,
    /// Weak bones, or one that broke easily.
    Bones,
    /// A stroke, Parkinson's or multiple sclerosis.
    Nerves,
    /// The inner ear, or numb feet.
    InnerEar,
    /// Blood thinners.
    Thinners,
    /// Medicine that makes drowsy, or opioids.
    Drowsy,
    /// Blood sugar that drops too low.
    Sugar,
    /// Sight that glasses do not correct.
    Sight,
    /// A joint replacement and its limits.
    Joint,
    /// Pain or dizziness when the head turns.
    Neck,
    /// Pain when standing.
    Pain,
    /// Memory, and following what is said.
    Memory,
    /// Getting up from the floor.
    Floor,
    /// A walking aid indoors.
    Aid,
    /// Alone in the house.
    House,
    /// First key question: a fall in the last 12 months.
    FallYear,
    /// A severe fall, or two.
    FallSevere,
    /// Second key question: unsteady.
    Unsteady,
    /// Third key question: worried about falling.
    Worried,
    /// The partner's strength.
    PartnerStrength,
    /// The partner's own balance.
    PartnerBalance,
    /// The partner's back.
    PartnerBack,
    /// Practiced with the therapist.
    PartnerTaught,
    /// The trainee's consent.
    Consent,
}

words! {
    Topic {
        Heart => "heart or blood pressure",
        ChestPain => "chest pain",
        Blackouts => "blackouts or dizziness",
        Rising => "faint on rising",
        FallPain => "recent fall with pain",
        Operation => "recent fracture or operation",
        Bones => "weak bones",
        Nerves => "stroke, Parkinson's or multiple sclerosis",
        InnerEar => "inner ear or numb feet",
        Thinners => "blood thinners",
        Drowsy => "medicine that makes drowsy",
        Sugar => "low sugar",
        Sight => "sight",
        Joint => "joint replacement",
        Neck => "neck",
        Pain => "pain",
        Memory => "memory",
        Floor => "getting up from the floor",
        Aid => "walking aid indoors",
        House => "alone in the house",
        FallYear => "fall in 12 months",
        FallSevere => "severe or repeated falls",
        Unsteady => "unsteady",
        Worried => "worried about falling",
        PartnerStrength => "partner's strength",
        PartnerBalance => "partner's balance",
        PartnerBack => "partner's back",
        PartnerTaught => "practiced with the therapist",
        Consent => "consent",
    }
}

impl Topic {
    /// The topics to ask about, in order; those about a partner only where one is wanted.
    pub fn questions(partner: bool) -> impl Iterator<Item = Self> {
        Self::ALL.iter().copied().filter(move |topic| partner || !topic.is_about_partner())
    }

    /// Whether it is asked only where practice with a partner is wanted.
    pub const fn is_about_partner(self) -> bool {
        matches!(
            self,
            Self::PartnerStrength
                | Self::PartnerBalance
                | Self::PartnerBack
                | Self::PartnerTaught
                | Self::Consent
        )
    }

    /// Whether a clinician can agree to it, so that the third answer is offered.
    pub const fn can_be_agreed(self) -> bool {
        matches!(self.leads_to(Answer::NotTrue), Effect::Clinician)
    }

    /// The sentence that is true in the good case.
    pub const fn sentence(self) -> &'static str {
        match self {
            Self::Heart => "I have no heart trouble and no high or low blood pressure.",
            Self::ChestPain => "I do not get chest pain.",
            Self::Blackouts => "I do not get dizzy and do not black out.",
            Self::Rising => "I do not feel faint when I stand up.",
            Self::FallPain => "I have not had a fall that still hurts or makes it hard to walk.",
            Self::Operation => "I have not broken a bone or had an operation in the last six months.",
            Self::Bones => "My bones are not weak. I have not broken one in a small fall.",
            Self::Nerves => "I have not had a stroke, and have no illness such as Parkinson's or MS.",
            Self::InnerEar => "My inner ear is well, and my feet are not numb.",
            Self::Thinners => "I do not take blood thinners.",
            Self::Drowsy => "I take no pills that make me sleepy, and no strong pain pills.",
            Self::Sugar => "My blood sugar does not drop too low.",
            Self::Sight => "I see well, with my glasses if I need them.",
            Self::Joint => "I have no new hip or knee, or I know what I must not do with it.",
            Self::Neck => "I can turn my head without pain and without feeling dizzy.",
            Self::Pain => "I can stand and move for ten minutes without bad pain.",
            Self::Memory => "I can follow and keep in mind what I am told.",
            Self::Floor => "If I were on the floor, I could get up by myself.",
            Self::Aid => "I walk at home without a stick, a frame or a hand to hold.",
            Self::House => "Somebody else is at home when I practice.",
            Self::FallYear => "I have not had a fall in the last 12 months.",
            Self::FallSevere => {
                "I have not had two falls in a year. No fall took me to a doctor, or left me on the floor for an hour."
            }
            Self::Unsteady => "I feel steady when I stand and walk.",
            Self::Worried => "I am not worried that I might fall.",
            Self::PartnerStrength => "My partner is strong enough to steady me.",
            Self::PartnerBalance => "My partner stands and walks steadily.",
            Self::PartnerBack => "My partner has a good back and no bad shoulder.",
            Self::PartnerTaught => "A therapist has shown us both what to do, and has seen us do it.",
            Self::Consent => "I want my partner to do this with me, and I can say stop at any time.",
        }
    }

    /// What is so when it is not true.
    pub const fn fact(self) -> &'static str {
        match self {
            Self::Heart => "You have heart trouble, or high or low blood pressure.",
            Self::ChestPain => "You get chest pain.",
            Self::Blackouts => "You get dizzy or black out.",
            Self::Rising => "You feel faint when you stand up.",
            Self::FallPain => "You have had a fall that still hurts or makes it hard to walk.",
            Self::Operation => "You have broken a bone or had an operation in the last six months.",
            Self::Bones => "Your bones are weak, or one broke in a small fall.",
            Self::Nerves => "You have had a stroke, or have an illness such as Parkinson's or MS.",
            Self::InnerEar => "Your inner ear is not well, or your feet are numb.",
            Self::Thinners => "You take blood thinners.",
            Self::Drowsy => "You take pills that make you sleepy, or strong pain pills.",
            Self::Sugar => "Your blood sugar drops too low at times.",
            Self::Sight => "You do not see well, even with glasses.",
            Self::Joint => "You have a new joint and do not know what you must not do with it.",
            Self::Neck => "Turning your head hurts or makes you dizzy.",
            Self::Pain => "Standing and moving hurts badly.",
            Self::Memory => "It is hard to follow or keep in mind what you are told.",
            Self::Floor => "You could not get up from the floor by yourself.",
            Self::Aid => "You walk at home with a stick, a frame or a hand to hold.",
            Self::House => "You are alone at home when you practice.",
            Self::FallYear => "You have had a fall in the last 12 months.",
            Self::FallSevere => "You have had two falls in a year, or a bad one.",
            Self::Unsteady => "You feel unsteady when you stand or walk.",
            Self::Worried => "You are worried that you might fall.",
            Self::PartnerStrength => "Your partner is not strong enough to steady you.",
            Self::PartnerBalance => "Your partner is not steady.",
            Self::PartnerBack => "Your partner has a bad back or shoulder.",
            Self::PartnerTaught => "No therapist has shown you both what to do and seen you do it.",
            Self::Consent => "You do not want your partner to do this with you, or cannot say stop.",
        }
    }

    /// What an answer leads to.
    pub const fn leads_to(self, answer: Answer) -> Effect {
        use Effect::{Advice, Clinician, None, Within};
        let agreed = match answer {
            Answer::True => return None,
            Answer::Agreed => true,
            Answer::NotTrue => false,
        };
        match self {
            Self::Heart | Self::Operation | Self::Pain if agreed => None,
            Self::Joint if agreed => Advice("Keep to what you were told for the new joint."),
            // A push or a missed catch can break a bone or bleed.
            Self::Bones | Self::Thinners if agreed => Within(Bounds::ALONE),
            Self::ChestPain | Self::Blackouts | Self::FallPain | Self::Nerves | Self::InnerEar if agreed => {
                Within(Bounds::CAUTIOUS)
            }
            Self::Drowsy | Self::FallSevere if agreed => Within(Bounds::CAUTIOUS),
            Self::Rising if agreed => Within(Bounds { no_rises: true, ..Bounds::CAUTIOUS }),
            Self::Sight | Self::Memory if agreed => Within(Bounds::STEP_ONE),
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
            | Self::FallSevere => Clinician,
            Self::Sugar => Advice("Eat first, and keep something sweet in reach."),
            Self::Neck => Within(Bounds { no_head_turns: true, ..Bounds::OPEN }),
            Self::Floor | Self::Aid => Within(Bounds::STEP_ONE),
            Self::House | Self::FallYear | Self::Unsteady => Within(Bounds::CAUTIOUS),
            Self::Worried => Advice("A balance test shows where you stand: counterpoise assess"),
            Self::PartnerStrength
            | Self::PartnerBalance
            | Self::PartnerBack
            | Self::PartnerTaught
            | Self::Consent => Within(Bounds::ALONE),
        }
    }
}
