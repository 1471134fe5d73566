//! What the rules need of a journal, small enough to be kept beside it. It equals what the fold makes of all its lines; a
//! test holds that.

use serde::{Deserialize, Serialize};

use crate::course::history::corrected;
use crate::course::past::{Past, PastSession};
use crate::course::trainee::Trainee;
use crate::record::{BalanceRow, ChangeRow, ClearanceRow, Contents, Id, Identified, Place, SuitabilityRow};

/// The form of a summary, and the rules by which it is made. Kept ones of another number are made anew. Count it up whenever
/// the same lines lead to another summary.
pub const FOLD: u32 = 6;

/// One session as the rules see it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Summary {
    /// Where it stands among the sessions.
    pub place: Place,
    /// The session.
    pub session: PastSession,
    /// The entries that can tell of something that locks or holds.
    pub can_lock: Vec<Id>,
}

/// What was kept outside of sessions, as far as the rules ask for it.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
pub struct Outside {
    /// The answers about suitability.
    pub suitability: Vec<Identified<SuitabilityRow>>,
    /// Clearances.
    pub clearances: Vec<ClearanceRow>,
    /// Balance tests.
    pub tests: Vec<BalanceRow>,
    /// Prescriptions that came into use or were not taken.
    pub changes: Vec<ChangeRow>,
    /// What is kept and not read, in sentences: what is of a later form, and what does not fit together.
    pub unread: Vec<String>,
}

/// The summary of a journal.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Summaries {
    /// Of each session, in their order.
    pub sessions: Vec<Summary>,
    /// Of the rest.
    pub outside: Outside,
}

impl Summaries {
    /// What these contents come to.
    pub fn of(contents: &Contents) -> Self {
        let summary = |record| {
            let (session, _) = corrected(record, &contents.corrections)?;
            Some(Summary { place: record.place, session, can_lock: record.can_lock.clone() })
        };
        Self {
            sessions: contents.sessions.iter().filter_map(summary).collect(),
            outside: Outside {
                suitability: contents.suitability.clone(),
                clearances: contents.clearances.clone(),
                tests: contents.tests.clone(),
                changes: contents.changes.clone(),
                unread: contents.unread(),
            },
        }
    }

    /// Puts new summaries of sessions into the place of older ones.
    pub fn replace(&mut self, newer: Vec<Summary>) {
        self.sessions.retain(|old| newer.iter().all(|new| new.session.id != old.session.id));
        self.sessions.extend(newer);
        self.sessions.sort_by_key(|summary| summary.place);
    }

    /// Whether a session has no end.
    pub fn has_open(&self) -> bool {
        self.sessions.iter().any(|summary| summary.session.end.is_none())
    }

    /// What is known of the person.
    pub fn trainee(self) -> Trainee {
        let (sessions, can_lock): (Vec<PastSession>, Vec<Vec<Id>>) =
            self.sessions.into_iter().map(|summary| (summary.session, summary.can_lock)).unzip();
        let names: Vec<String> = sessions.iter().map(|session| session.id.clone()).collect();
        let past = Past::cleared(sessions, &self.outside.clearances, |session| {
            names.iter().position(|name| name == session).map_or(&[][..], |nth| &can_lock[nth])
        });
        Trainee::new(past, &self.outside.tests, self.outside.suitability)
    }
}
