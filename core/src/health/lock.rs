//! Locks, holds and restrictions: what only a clinician's clearance lifts, what 48 hours lift, and what leaves a part of a
//! program out. Which of them apply now is decided in `course::progression`.

use jiff::SignedDuration;

use crate::words;

/// How long a hold lasts \[judgment\]. Elapsed time, not days.
pub const HOLD: SignedDuration = SignedDuration::from_hours(48);

/// Two grabs at most this many days apart restrict \[judgment\].
pub const GRAB_DAYS: u8 = 28;

/// What locks practice until a clinician clears it \[judgment: after the stop lists of public-health guidance\].
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Lock {
    /// A fall that hurt, or that was not reported as harmless.
    FallHurt,
    /// A knock to the head.
    HeadKnock,
    /// The person fainted, or nearly did.
    Faint,
    /// Chest pain or pressure.
    Chest,
    /// Badly short of breath.
    Breath,
    /// New weakness or numbness, or trouble speaking or seeing.
    Nerve,
    /// Dizziness that did not pass within five minutes.
    Dizziness,
    /// Felt unwell in a practice, and did not report afterwards that it passed.
    Unwell,
    /// Something that may have locked, and of which it is not known what it was: a damaged record, a file that was set aside.
    Lost,
}

/// What holds practice for 48 hours and lowers it by one step \[judgment\].
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Hold {
    /// A fall without injury.
    Fall,
    /// Grabbed hold or nearly fell, alone.
    Grab,
    /// Dizziness that passed within five minutes.
    Dizziness,
    /// Felt unwell in a practice.
    Unwell,
}

/// What leaves out everything that needs an unlock, tosses and wall throws, until a therapist clears it. The rest of the
/// program goes on, and time lifts none \[judgment\].
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Restriction {
    /// A fall, in practice or in daily life, hurt or not.
    Fall,
    /// Two grabs or near falls in practice, at most [`GRAB_DAYS`] apart. Near falls in daily life do not count.
    Grabs,
}

words! {
    Restriction {
        Fall => "limits after a fall",
        Grabs => "limits after two grabs or near falls in 28 days",
    }
    Lock {
        FallHurt => "a fall that may have hurt",
        HeadKnock => "a knock to the head",
        Faint => "fainting",
        Chest => "chest pain or pressure",
        Breath => "bad shortness of breath",
        Nerve => "new weakness, numbness, or trouble speaking or seeing",
        Dizziness => "dizziness that did not pass in five minutes",
        Unwell => "feeling unwell, and nobody said that it passed",
        Lost => "an answer that was not kept whole",
    }
    Hold {
        Fall => "a fall without injury",
        Grab => "grabbing hold or nearly falling, alone",
        Dizziness => "dizziness that passed",
        Unwell => "feeling unwell in a practice",
    }
}

impl Lock {
    /// Whether the first words are: sit down, call now.
    pub const fn is_emergency(self) -> bool {
        matches!(self, Self::Chest | Self::Breath | Self::Nerve)
    }

    /// What to do, said after the fact that the lock names. What to do at once after a sign of an emergency belongs to its own
    /// page.
    pub const fn advice(self) -> &'static str {
        match self {
            Self::HeadKnock => "see a clinician before you practice again, today if you take blood thinners",
            _ => "see a clinician before you practice again",
        }
    }
}

impl Restriction {
    /// What is so until it is cleared, as a sentence to the person.
    pub const fn sentence(self) -> &'static str {
        match self {
            Self::Fall => {
                "There was a fall, so what needs an unlock, tosses and wall throws are left out until your therapist \
                 has cleared them."
            }
            Self::Grabs => {
                "There were two grabs or near falls in 28 days, so what needs an unlock, tosses and wall throws are \
                 left out until your therapist has cleared them."
            }
        }
    }
}

impl Hold {
    /// Whether the therapist should be told.
    pub const fn tell_therapist(self) -> bool {
        matches!(self, Self::Fall)
    }
}
