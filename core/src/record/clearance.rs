//! What a clinician's clearance can lift, and what one lifted. Which locks stand is found in `course`.

use serde::{Deserialize, Deserializer, Serialize, Serializer};

use crate::health::lock::Lock;

/// Something that a clearance lifted, by name.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Lifted {
    /// The session that locked it; for [`Barrier::Clinician`] the answers, by their id.
    pub session: String,
    /// What.
    pub what: Barrier,
}

/// What a clearance can lift.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Barrier {
    /// A lock.
    Lock(Lock),
    /// A date that lies ahead of the clock: the session was made while the clock was wrong.
    Date,
    /// The answers about suitability said: a clinician first.
    Clinician,
}

impl Barrier {
    /// The plain words.
    ///
    /// ```
    /// use counterpoise_core::{health::lock::Lock, record::Barrier};
    /// for barrier in [Barrier::Date, Barrier::Clinician, Barrier::Lock(Lock::Faint)] {
    ///     assert_eq!(Barrier::from_name(barrier.name()), Some(barrier));
    /// }
    /// ```
    pub const fn name(self) -> &'static str {
        match self {
            Self::Lock(lock) => lock.name(),
            Self::Date => "a date that lies ahead",
            Self::Clinician => "a clinician first",
        }
    }

    /// The one with these words, if there is one.
    pub fn from_name(name: &str) -> Option<Self> {
        let locks = Lock::ALL.iter().map(|lock| Self::Lock(*lock));
        locks.chain([Self::Date, Self::Clinician]).find(|barrier| barrier.name() == name)
    }
}

impl Serialize for Barrier {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_str(self.name())
    }
}

impl<'de> Deserialize<'de> for Barrier {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let name = String::deserialize(from)?;
        Self::from_name(&name)
            .ok_or_else(|| serde::de::Error::custom(format_args!("\"{name}\" is nothing that can be lifted")))
    }
}
