//! What was practiced, as far as the rules ask: plain values, made from what the journal kept.

use jiff::civil::Date;
use jiff::{SignedDuration, Timestamp};
use serde::{Deserialize, Serialize};

use crate::health::lock::{GRAB_DAYS, Hold, Lock};
use crate::health::readiness::Item;
use crate::plan::drill::Form;
use crate::plan::prescription::Digest;
use crate::record::{
    ClearanceRow, Effort, Given, Id, Mishap, Response, SessionEnd, SetEnd, Steadiness, Symptom, Times,
    WhyStopped, YesNo, YesNoNotSure, lifted,
};

pub use crate::record::{Barrier, Lifted};
pub use incidents::Incidents;

/// How long an interrupted session may be finished after it was broken off \[judgment\].
pub const FINISH_WITHIN: SignedDuration = SignedDuration::from_hours(2);

/// Everything that was practiced, oldest first, and what was cleared.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Past {
    /// The sessions that were opened, also those that ended before their first set.
    pub sessions: Vec<PastSession>,
    /// What a clearance lifted.
    pub lifted: Vec<Lifted>,
    /// Days of which nothing but the safety record says that an answer ended practice.
    pub closed_days: Vec<Date>,
    /// When dates were cleared, by session, also of sessions of which only the safety record knows.
    pub dates_cleared: Vec<(String, (Timestamp, Date))>,
}

/// One session.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[expect(clippy::struct_excessive_bools, reason = "each is a fact of its own")]
pub struct PastSession {
    /// Tells it from others.
    pub id: String,
    /// The local date on which it began.
    pub day: Date,
    /// When it began.
    pub begun: Timestamp,
    /// The last moment that is known of it.
    pub ended: Timestamp,
    /// The latest moment that the journal knew when it began: later than `begun` if the clock was set back.
    pub seen_before: Option<Timestamp>,
    /// The prescription's digest.
    pub digest: Digest,
    /// Why it ended; `None` while it goes on.
    pub end: Option<SessionEnd>,
    /// How many sets were planned. A session that finishes an interrupted one counts those of both.
    pub sets_planned: u8,
    /// How many sets the whole session has, before some were left away; `None` where it was not kept.
    pub sets_whole: Option<u8>,
    /// The sets that were begun.
    pub sets: Vec<PastSet>,
    /// Whether it was a supervised try-out: it counts as no practice, and what happened in it locks and holds all the
    /// same.
    pub tried_out: bool,
    /// What was answered to the questions of readiness.
    pub ready: Vec<(Item, YesNoNotSure)>,
    /// The steps that progression gave, before a gentler choice; empty where none was kept.
    pub given: Vec<Given>,
    /// After a fall: hurt or a knock to the head, where both were one question; `None` not said.
    pub hurt: Option<YesNo>,
    /// What was answered about a fall with three answers.
    pub told: FallAnswers,
    /// Asked at the next start: felt unwell in it.
    pub unwell_then: Option<YesNoNotSure>,
    /// Whether the fall that was reported before it was known already.
    pub same_fall: Option<YesNoNotSure>,
    /// Why the trainee stopped.
    pub why_stopped: Option<WhyStopped>,
    /// Typed in by hand, from a sheet: its hour is not known, and it stands at the end of its day.
    pub by_hand: bool,
    /// When a clearance set its date aside, and on which day. It is found with the clearances, and not kept beside the lines.
    #[serde(skip)]
    pub date_cleared: Option<(Timestamp, Date)>,
    /// An entry of it does not fit: a value out of range, or one that contradicts another. It never counts as fine.
    pub doubtful: bool,
    /// Set aside by a correction, as somebody else's or a test run: it counts as no practice.
    pub discounted: bool,
    /// What it locked before it was corrected: a correction lifts no lock.
    pub locked_before: Vec<Lock>,
    /// What it held before it was corrected: a correction shortens no hold.
    pub held_before: Vec<Hold>,
    /// What went wrong in it before it was corrected: a correction takes no fall and no grab away.
    pub incidents_before: Incidents,
    /// What felt wrong; `None` not asked or not said.
    pub symptom: Option<Symptom>,
    /// Grabs and falls before a set that was then not begun, with its number.
    pub before_set: Vec<(u8, Mishap)>,
}

/// One set that was begun.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct PastSet {
    /// Its number in the session.
    pub number: u8,
    /// The drill's name.
    pub drill: String,
    /// Alone or with a partner.
    pub form: Form,
    /// The ladder step.
    pub step: u8,
    /// Why it ended; `None` while it goes on.
    pub end: Option<SetEnd>,
    /// Calls that were heard, shown or asked for.
    pub cues: u16,
    /// Grabbed hold or nearly fell; `None` not asked or not said.
    pub grabbed: Option<YesNo>,
    /// Times held on beyond what the step allows.
    pub held_on: Option<Times>,
    /// Hardest effort.
    pub effort: Option<Effort>,
    /// How steady.
    pub steadiness: Option<Steadiness>,
    /// Unwell.
    pub unwell: Option<YesNo>,
    /// What followed each push; `None` was not noted.
    pub responses: Vec<Option<Response>>,
    /// Grabs and falls that were reported by a key.
    pub mishaps: Vec<Mishap>,
    /// Those grabs of them that are no response to a push.
    pub grabs_by_key: u8,
    /// The rules advised one step lower.
    pub advised_lower: bool,
    /// Whether it was asked after it if the person fell.
    pub fell_asked: bool,
    /// What was said to that.
    pub fell_said: Option<YesNoNotSure>,
}

/// What was asked and answered about a fall in a practice; `None` not asked or not said.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub struct FallAnswers {
    /// Where no set had begun: it was asked whether the person fell.
    pub asked: bool,
    /// What was said to that.
    pub fell: Option<YesNoNotSure>,
    /// Asked at the next start: fell in it.
    pub fell_then: Option<YesNoNotSure>,
    /// Hurt in the fall.
    pub hurt: Option<YesNoNotSure>,
    /// Hit the head.
    pub head: Option<YesNoNotSure>,
}

impl Past {
    /// These sessions with these clearances. `can_lock`: the entries of a session that can lock.
    pub fn cleared<'a>(
        mut sessions: Vec<PastSession>,
        clearances: &[ClearanceRow],
        can_lock: impl Fn(&str) -> &'a [Id],
    ) -> Self {
        let mut dates_cleared = Vec::new();
        for row in clearances {
            let dates = row.lifted.iter().filter(|lifted| lifted.what == Barrier::Date);
            for lifted in dates {
                let of = sessions.iter_mut().find(|session| session.id == lifted.locked_by);
                dates_cleared
                    .extend(row.at.day().map(|day| (lifted.locked_by.clone(), (row.at.instant(), day))));
                if let (Some(session), Some(day)) = (of, row.at.day()) {
                    session.date_cleared = session.date_cleared.max(Some((row.at.instant(), day)));
                }
            }
        }
        Self { sessions, lifted: lifted(clearances, can_lock), dates_cleared, ..Self::default() }
    }

    /// From when the hours of a hold of this session count, and the day on which nothing is due any more. A clearance of its
    /// date shortens no hold: when it was nobody knows, but it was before the clearance, and before that the clock was wrong.
    pub fn counts_from(&self, session: &PastSession) -> (Timestamp, Date) {
        if !self.is_set_aside(session) {
            return (session.known(), session.day);
        }
        let (at, day) = session.date_cleared.unwrap_or((session.known(), session.day));
        let before = self.sessions.iter().take_while(|other| other.id != session.id);
        let known = before.filter(|other| !self.is_set_aside(other)).map(PastSession::known).max();
        (known.map_or(at, |known| known.max(at)), day)
    }

    /// The latest moment that is known, later dates that were set aside not counted.
    pub fn latest(&self) -> Option<Timestamp> {
        self.sessions.iter().filter(|session| !self.is_set_aside(session)).map(PastSession::known).max()
    }

    /// Whether the ISO week of this day has no practice yet, and an earlier one had.
    pub fn is_new_week(&self, today: Date) -> bool {
        let week = |day: Date| (day.iso_week_date().year(), day.iso_week_date().week());
        let practices = self.sessions.iter().filter(|session| session.is_practice());
        let mut days = practices.map(|session| session.day);
        let earlier = days.clone().any(|day| week(day) < week(today));
        earlier && !days.any(|day| week(day) == week(today))
    }

    /// Whether there was a grab in practice at most [`GRAB_DAYS`] before this day. A date that is not known counts as near.
    pub fn has_grab_near(&self, day: Date) -> bool {
        self.sessions.iter().any(|session| session.incidents().grabs > 0 && self.is_near(session, day))
    }

    /// Whether what happened in this session counts toward two grabs with what happened on this day.
    fn is_near(&self, session: &PastSession, day: Date) -> bool {
        let apart = SignedDuration::from_hours(24 * i64::from(GRAB_DAYS));
        self.is_set_aside(session) || session.day.duration_since(day).abs() <= apart
    }

    /// Whether this session has one of two grabs at most [`GRAB_DAYS`] apart. Grabs that were cleared count with a later
    /// one.
    pub fn has_two_grabs(&self, session: &PastSession) -> bool {
        let grabs = session.incidents().grabs;
        let another = || {
            let others = self.sessions.iter().filter(|other| other.id != session.id);
            others
                .filter(|other| other.incidents().grabs > 0)
                .any(|other| self.is_set_aside(session) || self.is_near(other, session.day))
        };
        grabs > 1 || (grabs == 1 && another())
    }

    /// Whether the date of this session was set aside.
    pub fn is_set_aside(&self, session: &PastSession) -> bool {
        self.is_lifted(session, Barrier::Date)
    }

    /// Whether a clearance lifted this.
    pub fn is_lifted(&self, session: &PastSession, what: Barrier) -> bool {
        self.lifted.iter().any(|lifted| lifted.session == session.id && lifted.what == what)
    }

    /// The sessions in which a set was begun, one value a day's practice: an interrupted session and the one that
    /// finished it are one.
    pub fn sittings(&self) -> Vec<Sitting<'_>> {
        let mut sittings: Vec<Sitting<'_>> = Vec::new();
        for session in self.sessions.iter().filter(|session| session.is_practice()) {
            match sittings.last_mut() {
                Some(last) if last.is_finished_by(session) => last.sessions.push(session),
                _ => sittings.push(Sitting { sessions: vec![session] }),
            }
        }
        sittings
    }
}

impl PastSession {
    /// The latest moment that was known when it ended. A clock set back makes it no earlier.
    pub fn known(&self) -> Timestamp {
        self.seen_before.unwrap_or(self.ended).max(self.ended)
    }

    /// Whether a set was begun in it, and it counts: no try-out, and not set aside.
    pub fn is_practice(&self) -> bool {
        !(self.sets.is_empty() || self.tried_out || self.discounted)
    }

    /// Whether it was broken off by something that counts against nobody, so that it may be finished. When one that was typed
    /// in was broken off nobody knows.
    pub fn may_be_finished(&self) -> bool {
        !self.by_hand
            && matches!(
                self.end,
                Some(SessionEnd::Closed | SessionEnd::Interrupted | SessionEnd::StoppedOther)
            )
    }

    /// Whether all its sets were alone.
    pub fn is_alone(&self) -> bool {
        self.sets.iter().all(|set| set.form == Form::Alone)
    }
}

/// One day's practice: one session, or an interrupted one with what finished it. Never empty.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sitting<'a> {
    sessions: Vec<&'a PastSession>,
}

impl<'a> Sitting<'a> {
    /// The session that began it.
    pub fn first(&self) -> &'a PastSession {
        self.sessions[0]
    }
    /// The session that ended it.
    pub fn last(&self) -> &'a PastSession {
        self.sessions[self.sessions.len() - 1]
    }
    /// Its sessions.
    pub fn sessions(&self) -> impl Iterator<Item = &'a PastSession> {
        self.sessions.iter().copied()
    }
    /// The local date on which it began.
    pub fn day(&self) -> Date {
        self.first().day
    }
    /// All sets that were begun.
    pub fn sets(&self) -> impl Iterator<Item = &'a PastSet> {
        self.sessions.iter().flat_map(|session| session.sets.iter())
    }
    /// The numbers of the sets that were done whole.
    pub fn done(&self) -> Vec<u8> {
        let whole = self.sets().filter(|set| set.end == Some(SetEnd::Completed));
        whole.map(|set| set.number).collect()
    }
    /// The sets that were to be done. A session that finishes another plans only what was left.
    pub fn planned(&self) -> u8 {
        self.first().sets_planned
    }
    /// Whether it may still be finished at `now`: broken off for a reason that counts against nobody, with sets left,
    /// no more than two hours ago, and the clock not set back.
    pub fn may_be_finished(&self, now: Timestamp) -> bool {
        let since = now.duration_since(self.last().known());
        let in_time = (SignedDuration::ZERO..=FINISH_WITHIN).contains(&since);
        in_time && self.last().may_be_finished() && self.sets_left()
    }

    fn sets_left(&self) -> bool {
        // A set that was begun is not done again: its work would be doubled.
        let begun = self.sets().map(|set| set.number).max().unwrap_or(0);
        begun < self.planned()
    }

    fn is_finished_by(&self, session: &PastSession) -> bool {
        let begun = self.sets().map(|set| set.number).max().unwrap_or(0);
        session.digest == self.first().digest
            && self.may_be_finished(session.begun)
            && session.sets.iter().all(|set| set.number > begun)
    }
}

mod incidents;
mod kept_session;

#[cfg(any(test, feature = "sample"))]
pub mod sample;

#[cfg(test)]
mod test;
