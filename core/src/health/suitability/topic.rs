//! What is asked about each topic, and what an answer leads to. All of it \[judgment\]; the topics are those of
//! public-health lists and trial exclusions \[read / second-hand\].

use super::{Effect, Finding};
use crate::health::bounds::Bounds;
use crate::health::yes_no::YesNoNotSure;
use crate::plan::health_topic::Topic;

impl Topic {
    /// The topics to ask about, in order; those about a partner only where one is wanted.
    pub fn questions(partner: bool) -> impl Iterator<Item = Self> {
        let asked = move |topic: &Self| topic.is_asked() && (partner || !topic.is_about_partner());
        Self::ALL.iter().copied().filter(asked)
    }

    /// Whether it is asked only where practice with a partner is wanted.
    pub const fn is_about_partner(self) -> bool {
        matches!(
            self.whole(),
            Self::PartnerStrength
                | Self::PartnerBalance
                | Self::PartnerBack
                | Self::PartnerTaught
                | Self::Consent
        )
    }

    /// Whether the person can say that a clinician agreed to practice, so that it is asked.
    pub const fn can_be_agreed(self) -> bool {
        self.locks() && !self.needs_clearance()
    }

    /// Whether yes is the good answer. Elsewhere no is. Not sure is never good.
    pub const fn is_good_if_yes(self) -> bool {
        matches!(
            self.whole(),
            Self::PartnerStrength | Self::PartnerBalance | Self::PartnerTaught | Self::Consent
        )
    }

    /// Whether this is the good answer to its question.
    pub const fn is_good(self, answer: YesNoNotSure) -> bool {
        if self.is_good_if_yes() { answer.is_surely_yes() } else { !answer.may_be_yes() }
    }

    /// The question. Those that are no longer asked have the words in which their answers are read back.
    pub const fn question(self) -> &'static str {
        match self {
            Self::HeartTrouble => "Do you have heart trouble?",
            Self::BloodPressure => "Is your blood pressure too high or too low?",
            Self::ChestPain => "Do you get chest pain?",
            Self::BlackingOut => "Do you ever black out?",
            Self::Dizziness => "Do you get dizzy?",
            Self::Rising => "Do you feel faint when you stand up?",
            Self::FallHurts => "Have you had a fall that still hurts?",
            Self::FallWalking => "Has a fall made it hard for you to walk?",
            Self::Fracture => "Have you broken a bone in the last six months?",
            Self::Surgery => "Have you had surgery in the last six months?",
            Self::ThinBones => "Are your bones thin or weak?",
            Self::SmallFall => "Have you ever broken a bone in a small fall?",
            Self::Stroke => "Have you had a stroke?",
            Self::NerveIllness => "Do you have an illness such as Parkinson's or MS?",
            Self::Ear => "Do you have trouble with your inner ear?",
            Self::NumbFeet => "Are your feet numb?",
            Self::Thinners => "Do you take blood thinners?",
            Self::SleepyPills => "Do you take pills that make you sleepy?",
            Self::PainPills => "Do you take strong pain pills?",
            Self::Sugar => "Does your blood sugar ever drop too low?",
            Self::Sight => "Is it hard for you to see, even with glasses?",
            Self::Joint => "Do you have a new hip or knee that you still need advice about?",
            Self::NeckPain => "Does it hurt to turn your head?",
            Self::NeckDizzy => "Do you get dizzy when you turn your head?",
            Self::Pain => "Does it hurt badly to stand or move for ten minutes?",
            Self::Following => "Is it hard for you to follow what you are told?",
            Self::Remembering => "Is it hard for you to keep in mind what you are told?",
            Self::Floor => "Would you need help to get up from the floor?",
            Self::Aid => "Do you walk at home with a stick, a frame or a hand to hold?",
            Self::House => "Are you alone at home when you practice?",
            Self::FallYear => "Have you had a fall in the last 12 months?",
            Self::TwoFalls => "Have you had two falls or more in a year?",
            Self::FallDoctor => "Have you had to see a doctor after a fall?",
            Self::FallHour => "Has a fall left you on the floor for an hour?",
            Self::Unsteady => "Do you feel unsteady when you stand or walk?",
            Self::Worried => "Are you worried that you might fall?",
            Self::PartnerStrength => "Is your partner strong enough to steady you?",
            Self::PartnerBalance => "Is your partner steady on both feet?",
            Self::PartnerSpine => "Does your partner have a bad back?",
            Self::PartnerShoulder => "Does your partner have a bad shoulder?",
            Self::PartnerTold => "Has a therapist taught you both what to do?",
            Self::PartnerWatched => "Has a therapist watched you both do it?",
            Self::Willing => "Do you want your partner to do this with you?",
            Self::CanStop => "Can you say stop at any time?",
            Self::Heart => "heart trouble, or high or low blood pressure",
            Self::Blackouts => "dizziness or blackouts",
            Self::FallPain => "a fall that still hurts or makes it hard to walk",
            Self::Operation => "a broken bone or surgery in the last six months",
            Self::Bones => "weak bones, or one that broke in a small fall",
            Self::Nerves => "a stroke, or an illness such as Parkinson's or MS",
            Self::InnerEar => "trouble with the inner ear, or numb feet",
            Self::Drowsy => "pills that make sleepy, or strong pain pills",
            Self::Neck => "pain or dizziness on turning the head",
            Self::Memory => "hard to follow or keep in mind what is said",
            Self::FallSevere => "two falls in a year, or a bad one",
            Self::PartnerBack => "a partner with a bad back or shoulder",
            Self::PartnerTaught => "both taught and watched by a therapist",
            Self::Consent => "wants to practice with the partner, and can say stop",
        }
    }

    /// What is so when the answer is not the good one.
    pub const fn fact(self) -> &'static str {
        match self {
            Self::HeartTrouble => "You have heart trouble.",
            Self::BloodPressure => "Your blood pressure is too high or too low.",
            Self::BlackingOut => "You black out at times.",
            Self::Dizziness => "You get dizzy.",
            Self::FallHurts => "You have had a fall that still hurts.",
            Self::FallWalking => "A fall has made it hard for you to walk.",
            Self::Fracture => "You have broken a bone in the last six months.",
            Self::Surgery => "You have had surgery in the last six months.",
            Self::ThinBones => "Your bones are thin or weak.",
            Self::SmallFall => "You have broken a bone in a small fall.",
            Self::Stroke => "You have had a stroke.",
            Self::NerveIllness => "You have an illness such as Parkinson's or MS.",
            Self::Ear => "You have trouble with your inner ear.",
            Self::NumbFeet => "Your feet are numb.",
            Self::SleepyPills => "You take pills that make you sleepy.",
            Self::PainPills => "You take strong pain pills.",
            Self::NeckPain => "It hurts to turn your head.",
            Self::NeckDizzy => "You get dizzy when you turn your head.",
            Self::Following => "It is hard for you to follow what you are told.",
            Self::Remembering => "It is hard for you to keep in mind what you are told.",
            Self::TwoFalls => "You have had two falls or more in a year.",
            Self::FallDoctor => "You have had to see a doctor after a fall.",
            Self::FallHour => "A fall has left you on the floor for an hour.",
            Self::PartnerSpine => "Your partner has a bad back.",
            Self::PartnerShoulder => "Your partner has a bad shoulder.",
            Self::PartnerTold => "A therapist has yet to teach you both what to do.",
            Self::PartnerWatched => "A therapist has yet to watch you both do it.",
            Self::Willing => "You would rather practice alone.",
            Self::CanStop => "It is hard for you to say stop.",
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
            Self::Sight => "It is hard for you to see, even with glasses.",
            Self::Joint => "You have a new hip or knee that you still need advice about.",
            Self::Neck => "Turning your head hurts or makes you dizzy.",
            Self::Pain => "Standing and moving hurts badly.",
            Self::Memory => "It is hard to follow or keep in mind what you are told.",
            Self::Floor => "You would need help to get up from the floor.",
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
    pub const fn leads_to(self, found: Finding) -> Effect {
        use Effect::{Advice, Clinician, None, Within};
        let agreed = match found {
            Finding::Fine => return None,
            Finding::Lifted(_) => true,
            Finding::Warning(_) => false,
        };
        match self.whole() {
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
            Self::Sugar => Advice("Eat first, and keep something sweet in reach."),
            Self::Neck => Within(Bounds { no_head_turns: true, ..Bounds::OPEN }),
            Self::Floor | Self::Aid => Within(Bounds::STEP_ONE),
            Self::House | Self::FallYear | Self::Unsteady => Within(Bounds::CAUTIOUS),
            Self::Worried => Advice("A balance test shows where you stand: counterpoise assess"),
            // Those about a partner, with whom nothing is practiced then.
            Self::PartnerStrength
            | Self::PartnerBalance
            | Self::PartnerBack
            | Self::PartnerTaught
            | Self::Consent => Within(Bounds::ALONE),
            // Every other one.
            _ => Clinician,
        }
    }
}
