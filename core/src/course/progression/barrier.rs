//! What bars practice now: locks that nobody has cleared, holds that have not run out, and "not today" for the rest of
//! a day; and what leaves a part of the program out until a therapist clears it. They are derived from the record each time, so none can be lost.

use jiff::civil::Date;
use jiff::{Timestamp, ToSpan};

use crate::course::past::{Barrier, Past, PastSession, Sitting};
use crate::health::lock::{HOLD, Hold, Lock, Restriction};
use crate::health::readiness::{Readiness, Verdict};
use crate::record::Symptom;

/// A lock, and the session that set it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ActiveLock {
    /// What locked practice.
    pub what: Lock,
    /// The session's id.
    pub session: String,
    /// The local day of that session.
    pub day: Date,
}

/// A restriction, and the session that set it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ActiveRestriction {
    /// What it comes from.
    pub what: Restriction,
    /// The session's id.
    pub session: String,
    /// The local day of that session.
    pub day: Date,
}

/// A hold that is running.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ActiveHold {
    /// What holds practice.
    pub what: Hold,
    /// When it runs out.
    pub until: Timestamp,
}

/// Everything that bars practice.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Barriers {
    /// Locks that no clinician has cleared, oldest first.
    pub locks: Vec<ActiveLock>,
    /// What leaves a part of the program out, oldest first.
    pub restrictions: Vec<ActiveRestriction>,
    /// Holds that have not run out.
    pub holds: Vec<ActiveHold>,
    /// After "not today": the first day on which practice may be due again.
    pub not_before: Option<Date>,
}

impl Barriers {
    /// What bars practice at `now`. A clock that was set back makes no hold shorter: it runs from the latest moment that was
    /// known, and until the clock shows its end, whatever is dated later.
    pub fn of(past: &Past, now: Timestamp, today: Date) -> Self {
        let mut barriers = Self::default();
        for session in &past.sessions {
            let Marks { locks, holds } = Marks::of(session);
            barriers.locks.extend(
                locks
                    .into_iter()
                    .filter(|lock| !past.is_lifted(session, Barrier::Lock(*lock)))
                    .map(|what| ActiveLock { what, session: session.id.clone(), day: session.day }),
            );
            barriers.restrictions.extend(
                restrictions_of(past, session)
                    .filter(|what| !past.is_lifted(session, Barrier::Restriction(*what)))
                    .map(|what| ActiveRestriction { what, session: session.id.clone(), day: session.day }),
            );
            let (since, day) = past.counts_from(session);
            let until = since.saturating_add(HOLD).unwrap_or(Timestamp::MAX);
            if now < until {
                barriers.holds.extend(holds.into_iter().map(|what| ActiveHold { what, until }));
            }
            if stays_a_day(session) {
                // Nothing is due on that day any more, whatever is answered the second time.
                let next = day.saturating_add(1.days());
                barriers.not_before = barriers.not_before.max((today < next).then_some(next));
            }
        }
        for day in &past.closed_days {
            let next = day.saturating_add(1.days());
            barriers.not_before = barriers.not_before.max((today < next).then_some(next));
        }
        barriers.holds.sort_by_key(|hold| hold.until);
        barriers
    }
}

/// What this session restricts by itself or, for grabs, together with others.
pub fn restrictions_of(past: &Past, session: &PastSession) -> impl Iterator<Item = Restriction> + use<> {
    let fell = session.incidents().fell.then_some(Restriction::Fall);
    let grabs = past.has_two_grabs(session).then_some(Restriction::Grabs);
    fell.into_iter().chain(grabs)
}

/// "Not today" for a reason that cannot be put right at once.
fn stays_a_day(session: &PastSession) -> bool {
    let readiness = Readiness::of(&session.ready);
    readiness.verdict == Verdict::NotToday
        && readiness
            .reasons
            .iter()
            .any(|reason| reason.verdict == Verdict::NotToday && !reason.can_be_put_right())
}

/// Whether an answer in it ended practice for its day.
pub fn ends_day(session: &PastSession) -> bool {
    use crate::record::SessionEnd::{Fell, Grabbed, NotAnswered, StoppedUnsteady, Unwell};
    stays_a_day(session)
        || matches!(session.end, Some(Fell | Grabbed | NotAnswered | StoppedUnsteady | Unwell))
}

/// What one session locks and holds.
struct Marks {
    locks: Vec<Lock>,
    holds: Vec<Hold>,
}

impl Marks {
    fn of(session: &PastSession) -> Self {
        let Readiness { mut locks, mut holds, .. } = Readiness::of(&session.ready);
        if session.fell() {
            match &session.fall_locks()[..] {
                [] => holds.push(Hold::Fall),
                more => locks.extend(more),
            }
        }
        locks.extend(session.symptom.and_then(Symptom::lock));
        locks.extend(&session.locked_before);
        if session.near_fall_alone() {
            holds.push(Hold::Grab);
        }
        if session.felt_unwell() {
            holds.push(Hold::Unwell);
        }
        holds.extend(&session.held_before);
        Self { locks, holds }
    }
}

/// What this session locks and holds by itself.
pub fn marks_of(session: &PastSession) -> (Vec<Lock>, Vec<Hold>) {
    let Marks { locks, holds } = Marks::of(session);
    (locks, holds)
}

/// What the person reported on the readiness pages since the last practice under this prescription, that practice's own
/// pages included: each lowers by one step. Before the first practice nothing is lowered: the step to start at is the
/// therapist's.
pub(super) fn reported_since(past: &Past, last: Option<&Sitting<'_>>) -> Vec<Hold> {
    let Some(last) = last else { return Vec::new() };
    let from = past.sessions.iter().position(|session| session.id == last.first().id).unwrap_or(0);
    let told = past.sessions[from..].iter().filter_map(|session| {
        let Readiness { locks, holds, lower, .. } = Readiness::of(&session.ready);
        // What happened in a practice with sets is a fault of the practice, and counted there.
        let no_sets = session.sets.is_empty();
        // The same fall lowers once.
        let fell = session.reports_new_fall()
            && (lower || holds.contains(&Hold::Fall) || locks.contains(&Lock::FallHurt));
        [
            (Hold::Fall, fell || no_sets && session.fell()),
            (Hold::Dizziness, holds.contains(&Hold::Dizziness)),
            (Hold::Unwell, no_sets && session.felt_unwell()),
            (Hold::Grab, no_sets && session.near_fall()),
        ]
        .into_iter()
        .find_map(|(what, happened)| happened.then_some(what))
    });
    told.collect()
}

/// Whether the person felt unwell in the last practice, and has not reported since that it passed.
pub fn unwell_last_time(past: &Past) -> bool {
    use crate::health::readiness::Item;
    let unwell = |session: &PastSession| Marks::of(session).holds.contains(&Hold::Unwell);
    let Some(at) = past.sessions.iter().rposition(unwell) else { return false };
    !past.sessions[at + 1..]
        .iter()
        .any(|session| session.ready.iter().any(|(item, _)| *item == Item::UnwellPassed))
}
