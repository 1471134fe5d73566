//! Everything that a report is made of, and which of it belongs to a period. A practice belongs to the day on which it
//! began; an interrupted one includes the session that finished it.

use std::collections::HashMap;

use jiff::civil::Date;
use serde::Serialize;

use crate::course::past::{Barrier, Past, PastSession, Sitting};
use crate::health::assessment::Dated;
use crate::plan::direction::Direction;
use crate::plan::drill::Side;
use crate::plan::precaution::Precaution;
use crate::plan::prescription::{Digest, Prescription, Seal};
use crate::record::{Answer, Identified, LeftOut, Response, SetEnd, SuitabilityRow};
use crate::words;

/// No session that the limits allow is longer \[derived: 14 minutes of work, nine rests of half an hour, and the pages\]:
/// one that is was left standing, or the computer slept.
const LONGEST_MS: i64 = 6 * 3_600_000;

/// Everything that a report is computed from.
#[derive(Debug, Clone, Default)]
pub struct Material {
    /// What was practiced and cleared.
    pub past: Past,
    /// What the rules do not need, for each session of `past`, in the same order.
    pub details: Vec<SessionDetails>,
    /// Clearances: the day, who cleared it, and why.
    pub clearances: Vec<(Date, String, String)>,
    /// What each clearance named, oldest first.
    pub cleared: Vec<Cleared>,
    /// Changes outside of sessions: the day, and what changed.
    pub changes: Vec<(Date, String)>,
    /// Every time that suitability was answered.
    pub answered: Vec<Identified<SuitabilityRow>>,
    /// Each prescription that came into use, oldest first.
    pub programs: Vec<Program>,
    /// Results of balance tests.
    pub tests: Vec<Dated>,
    /// The same sessions as they were kept; `None` where nothing was corrected.
    pub as_kept: Option<Box<Material>>,
}

/// One thing that a clearance named.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Cleared {
    /// The session from which it came, or the answers about suitability.
    pub session: String,
    /// What was cleared.
    pub what: Barrier,
    /// The day.
    pub on: Date,
    /// Who cleared it.
    pub by: String,
}

/// A prescription that came into use.
#[derive(Debug, Clone)]
pub struct Program {
    /// The day.
    pub day: Date,
    /// Where it came from.
    pub source: String,
    /// The digest of its file.
    pub digest: Digest,
    /// It, and what its seal says; `None` where its text was not kept or cannot be read any more.
    pub kept: Option<(Prescription, Seal)>,
}

/// What a report needs of a session beyond what the rules need.
#[derive(Debug, Clone, Default)]
pub struct SessionDetails {
    /// The prescription's title.
    pub title: String,
    /// What the person must not do.
    pub precautions: Vec<Precaution>,
    /// Somebody gave the seed.
    pub seed_given: bool,
    /// The session ran without sound.
    pub silent: bool,
    /// Answers to "Is there a reason to see a clinician first?", but for no.
    pub clinician_first: Vec<Answer>,
    /// Answers about the week, once a week.
    pub weekly: Vec<Answer>,
    /// Questions that were asked and passed over.
    pub not_said: usize,
    /// Sets that were not begun while the session went on, and why.
    pub left_out: Vec<(u8, LeftOut)>,
    /// Corrections, in words with the reason.
    pub corrected: Vec<String>,
    /// Up, hold or down, with the reasons; empty where it was not kept.
    pub why: Vec<String>,
    /// Details of each set, in order.
    pub sets: Vec<SetDetails>,
}

/// What a report needs of a set beyond what the rules need.
#[derive(Debug, Clone, Default)]
pub struct SetDetails {
    /// The foot ahead, where one is.
    pub side: Option<Side>,
    /// Work done, in milliseconds.
    pub worked_ms: u32,
    /// What followed each push that a partner was asked for, with its direction; `None` was not noted, also where the set
    /// was cut off before anybody could.
    pub responses: Vec<(Option<Direction>, Option<Response>)>,
    /// How often the sound was disturbed.
    pub disturbed: usize,
    /// Whether there was a grab or a near fall.
    pub grab: Told,
    /// Whether the person felt unwell after it.
    pub unwell: Told,
}

/// What is known of a question after a set.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Told {
    /// Yes.
    Yes,
    /// No.
    No,
    /// It was asked, and nobody said.
    NotSaid,
    /// It was not asked.
    #[default]
    NotAsked,
}

words! {
    Told {
        Yes => "yes",
        No => "no",
        NotSaid => "not said",
        NotAsked => "not asked",
    }
}

impl Told {
    /// Whether it is known.
    pub const fn is_known(self) -> bool {
        matches!(self, Self::Yes | Self::No)
    }
}

/// The period, both days included.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Period {
    /// The first day of the period.
    pub since: Date,
    /// The last day of the period.
    pub until: Date,
}

impl Period {
    /// Whether this day lies in it.
    pub fn has(self, day: Date) -> bool {
        (self.since..=self.until).contains(&day)
    }
}

/// What a session counts as.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum CountsAs {
    /// An ordinary practice.
    Practice,
    /// A supervised try-out: no practice.
    TryOut,
    /// Set aside by a correction: in no figure.
    SetAside,
    /// Its date is in the future and was set aside by a clearance: in no figure.
    DateSetAside,
    /// It was opened, and no set was begun.
    NoSet,
}

words! {
    CountsAs {
        Practice => "practice",
        TryOut => "supervised try-out",
        SetAside => "set aside",
        DateSetAside => "date set aside",
        NoSet => "no set begun",
    }
}

impl CountsAs {
    /// What this session counts as.
    pub fn of(past: &Past, session: &PastSession) -> Self {
        match session {
            _ if past.is_set_aside(session) => Self::DateSetAside,
            _ if session.discounted => Self::SetAside,
            _ if session.sets.is_empty() => Self::NoSet,
            _ if session.tried_out => Self::TryOut,
            _ => Self::Practice,
        }
    }

    /// Whether sets of this person, on a known date, were done in it: a record system takes nothing else.
    pub const fn belongs_to_person(self) -> bool {
        matches!(self, Self::Practice | Self::TryOut)
    }
}

impl SessionDetails {
    /// How long the whole session took from its first page to its end, questions and rests included, in milliseconds.
    /// `None` where that is not known: typed in by hand, still going on, a clock that was set back, a computer that slept.
    pub fn length_ms(&self, session: &PastSession) -> Option<u64> {
        let length = session.ended.duration_since(session.begun).as_millis();
        let length = i64::try_from(length).ok().filter(|length| (0..=LONGEST_MS).contains(length))?;
        let slept = session.sets.iter().any(|set| matches!(set.end, Some(SetEnd::Slept | SetEnd::Halted)));
        (!session.by_hand && !slept && session.end.is_some()).then_some(length as u64)
    }
}

/// A session with its details.
pub(super) type SessionEntry<'a> = (&'a PastSession, &'a SessionDetails);

/// What belongs to a period.
pub(super) struct PeriodSessions<'a> {
    /// The sessions that began in it, oldest first, but for those whose date was set aside.
    pub sessions: Vec<SessionEntry<'a>>,
    /// The practices that began in it.
    pub practices: Vec<Practice<'a>>,
}

/// One practice: a session in which a set was begun, with the one that finished it where it was interrupted.
pub(super) struct Practice<'a> {
    /// The local day on which it began.
    pub day: Date,
    /// Whether every set was completed.
    pub is_whole: bool,
    /// The session that began it, and the one that finished it.
    pub sessions: Vec<SessionEntry<'a>>,
}

impl<'a> PeriodSessions<'a> {
    pub(super) fn new(material: &'a Material, period: Period) -> Self {
        let past = &material.past;
        let more: HashMap<&str, &SessionDetails> =
            past.sessions.iter().map(|session| session.id.as_str()).zip(&material.details).collect();
        let with_more = |session: &'a PastSession| Some((session, *more.get(session.id.as_str())?));
        let counts = |session: &&PastSession| period.has(session.day) && !past.is_set_aside(session);
        let practice = |sitting: Sitting<'a>| Practice {
            day: sitting.day(),
            is_whole: is_whole(&sitting),
            sessions: sitting.sessions().filter_map(with_more).collect(),
        };
        let practices = past.sittings().into_iter().filter(|sitting| counts(&sitting.first()));
        Self {
            sessions: past.sessions.iter().filter(counts).filter_map(with_more).collect(),
            practices: practices.map(practice).collect(),
        }
    }

    /// The sessions of its practices; supervised try-outs and what was set aside are none.
    pub(super) fn practice_sessions(&self) -> impl Iterator<Item = SessionEntry<'a>> {
        self.practices.iter().flat_map(|practice| practice.sessions.iter().copied())
    }

    /// The sessions that are this person's own: one that was set aside may be somebody else's.
    pub(super) fn own_sessions(&self) -> impl Iterator<Item = SessionEntry<'a>> {
        self.sessions.iter().copied().filter(|(session, _)| !session.discounted)
    }
}

fn is_whole(sitting: &Sitting<'_>) -> bool {
    // Old entries do not record how many sets the full session has; then none were left out.
    let sets = sitting.first().sets_whole.unwrap_or_else(|| sitting.planned());
    sitting.done().len() >= usize::from(sets)
}
