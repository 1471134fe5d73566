//! What a clinician's clearance can lift, and what one lifted. Which locks stand is found in `course`.

use std::borrow::Cow;

use serde::{Deserialize, Deserializer, Serialize, Serializer};

use crate::health::lock::{Lock, Restriction};
use crate::health::suitability::Topic;

/// Something that a clearance lifted, by name.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Lifted {
    /// The session that locked it; for [`Barrier::Topic`] and [`Barrier::Clinician`] the answers, by their id.
    pub session: String,
    /// What.
    pub what: Barrier,
}

/// What a clearance can lift.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Barrier {
    /// A lock.
    Lock(Lock),
    /// What leaves a part of the program out after a fall, or after two grabs.
    Restriction(Restriction),
    /// The gentlest step was too hard: no step up.
    TooHard,
    /// A date that lies ahead of the clock: the session was made while the clock was wrong.
    Date,
    /// The answer to this topic of suitability said: a clinician first.
    Topic(Topic),
    /// All answers about suitability of one time, whatever they said. Clearances were once given like this.
    Clinician,
}

/// What stands before the topic.
const CLINICIAN_FIRST: &str = "a clinician first";

impl Barrier {
    /// Whether a clearance lifts it only as far as it was known: an entry that reports more sets it again.
    pub const fn is_told(self) -> bool {
        matches!(self, Self::Lock(_) | Self::Restriction(_))
    }

    /// The plain words.
    ///
    /// ```
    /// use counterpoise_core::{health::lock::Lock, health::suitability::Topic, record::Barrier};
    /// for barrier in
    ///     [Barrier::Date, Barrier::Clinician, Barrier::Lock(Lock::Faint), Barrier::Topic(Topic::Sight)]
    /// {
    ///     assert_eq!(Barrier::from_name(&barrier.name()), Some(barrier));
    /// }
    /// ```
    pub fn name(self) -> Cow<'static, str> {
        match self {
            Self::Lock(lock) => lock.name().into(),
            Self::Restriction(what) => what.name().into(),
            Self::TooHard => "too hard at the gentlest step".into(),
            Self::Date => "a date that lies ahead".into(),
            Self::Topic(topic) => format!("{CLINICIAN_FIRST}: {topic}").into(),
            Self::Clinician => CLINICIAN_FIRST.into(),
        }
    }

    /// The one with these words, if there is one.
    pub fn from_name(name: &str) -> Option<Self> {
        if let Some(topic) = name.strip_prefix(CLINICIAN_FIRST).and_then(|rest| rest.strip_prefix(": ")) {
            return Topic::from_name(topic).map(Self::Topic);
        }
        let locks = Lock::ALL.iter().map(|lock| Self::Lock(*lock));
        let restrictions = Restriction::ALL.iter().map(|what| Self::Restriction(*what));
        locks
            .chain(restrictions)
            .chain([Self::TooHard, Self::Date, Self::Clinician])
            .find(|barrier| barrier.name() == name)
    }
}

impl Serialize for Barrier {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_str(&self.name())
    }
}

impl<'de> Deserialize<'de> for Barrier {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let name = String::deserialize(from)?;
        Self::from_name(&name)
            .ok_or_else(|| serde::de::Error::custom(format_args!("\"{name}\" is nothing that can be lifted")))
    }
}
