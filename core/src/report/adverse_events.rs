//! Falls, grabs, near falls and symptoms, which stand first in every form of a report: when and where, what followed and
//! whether it was cleared; and of which sets it is not known, since nobody asked or nobody said.

use jiff::civil::Date;
use serde::Serialize;

use super::events::{Kind, between_sets, in_set, place};
use super::material::{Material, Period, SessionDetails, Told};
use crate::course::past::{Barrier, PastSession};
use crate::course::progression::{marks_of, restrictions_of};
use crate::health::lock::{Hold, Lock, Restriction};
use crate::health::readiness::{Item, Readiness};
use crate::record::{Answer, Mishap, Numbered};
use crate::words;

/// Where something happened that did not happen in practice.
const DAILY_LIFE: &str = "daily life";

/// One fall, grab, near fall or symptom.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Incident {
    /// The local day of the session in which it happened, or before which it was told.
    pub day: Date,
    /// A fall, a grab or near fall, or a symptom.
    pub kind: Kind,
    /// The set, between which sets, or "daily life".
    pub place: String,
    /// What happened, in a few words.
    pub what: String,
    /// What followed from it.
    pub followed: Vec<Consequence>,
}

/// One thing that followed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Consequence {
    /// What, in a few words.
    pub what: String,
    /// Whether a clearance lifted it.
    pub standing: Clearing,
    /// Who cleared it.
    pub by: Option<String>,
    /// On which day.
    pub on: Option<Date>,
}

/// Whether something that followed was cleared.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Clearing {
    /// Cleared.
    Cleared,
    /// Not cleared.
    NotCleared,
    /// It ends by itself.
    EndsByItself,
    /// The program in use accepts it.
    Accepted,
    /// The person says that a clinician agreed.
    Agreed,
    /// It holds as long as the answer does.
    Holds,
    /// Later answers took its place.
    Replaced,
}

words! {
    Clearing {
        Cleared => "cleared",
        NotCleared => "not cleared",
        EndsByItself => "ends by itself",
        Accepted => "accepted",
        Agreed => "lifted: the person says a clinician agreed",
        Holds => "as long as the answer holds",
        Replaced => "replaced by later answers",
    }
}

/// A set of which it is not known whether something went wrong.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Unanswered {
    /// The local day.
    pub day: Date,
    /// The set.
    pub place: String,
    /// Whether there was a grab or a near fall.
    pub grab: Told,
    /// Whether the person felt unwell.
    pub unwell: Told,
}

impl Incident {
    /// Whether something that followed waits for a clearance.
    pub fn is_open(&self) -> bool {
        self.followed.iter().any(|one| one.standing == Clearing::NotCleared)
    }
}

impl Consequence {
    /// Something that ends by itself.
    pub(super) fn by_itself(what: String) -> Self {
        Self { what, standing: Clearing::EndsByItself, by: None, on: None }
    }

    /// Something that a clearance lifts, which came from this session.
    pub(super) fn clearable(
        material: &Material,
        session: &PastSession,
        what: String,
        barrier: Barrier,
    ) -> Self {
        let cleared = material.past.is_lifted(session, barrier);
        let who = material.cleared.iter().rev().find(|one| one.session == session.id && one.what == barrier);
        let who = who.filter(|_| cleared);
        let standing = if cleared { Clearing::Cleared } else { Clearing::NotCleared };
        Self { what, standing, by: who.map(|one| one.by.clone()), on: who.map(|one| one.on) }
    }

    /// "locked: a fall that may have hurt (cleared by K. L. on 2026-11-10)"
    pub fn words(&self) -> String {
        match (&self.by, self.on) {
            (Some(by), Some(on)) => format!("{} ({} by {by} on {on})", self.what, self.standing),
            (None, Some(on)) => format!("{} ({} on {on})", self.what, self.standing),
            _ => format!("{} ({})", self.what, self.standing),
        }
    }
}

/// The incidents of a period, oldest first, and before them those of earlier days of which something is not cleared: a
/// period that begins with a new program does not hide them.
pub fn incidents(material: &Material, period: Period) -> Vec<Incident> {
    let until = material.past.sessions.iter().zip(&material.details);
    let mut all: Vec<Incident> = until
        .filter(|(session, _)| session.day <= period.until)
        .flat_map(|(session, more)| of_session(material, session, more))
        .filter(|one| period.has(one.day) || one.is_open())
        .collect();
    all.sort_by_key(|incident| incident.day);
    all
}

/// The incidents of one session. One that was set aside may be somebody else's.
pub fn of_session(material: &Material, session: &PastSession, more: &SessionDetails) -> Vec<Incident> {
    if session.discounted {
        return Vec::new();
    }
    // The kind, where, what, and whether anything followed from it.
    let mut found: Vec<(Kind, String, String, bool)> = Vec::new();
    if session.fell_before() {
        let what = if session.reports_new_fall() { "fell" } else { "the same fall, told again" };
        found.push((Kind::Fall, DAILY_LIFE.to_owned(), what.to_owned(), true));
    }
    for answer in &more.weekly {
        if let Answer::NearFalls(Some(times)) = answer
            && times.number() > 0
        {
            found.push((
                Kind::Grab,
                DAILY_LIFE.to_owned(),
                format!("nearly fell in the last week: {}", times.words()),
                false,
            ));
        }
    }
    for (item, answer) in &session.ready {
        if SYMPTOMS.contains(item) && !item.is_good(*answer) {
            let what = format!("reported before practice: {item}: {answer}");
            // New pain keeps nobody from practice for longer than that day.
            found.push((Kind::Unwell, DAILY_LIFE.to_owned(), what, *item != Item::Pain));
        }
    }
    for set in &session.sets {
        found.extend(in_set(set).map(|(kind, what)| (kind, place(set), what.to_owned(), true)));
    }
    for (set, mishap) in &session.before_set {
        let (kind, what) = match mishap {
            Mishap::Fall => (Kind::Fall, "fell"),
            Mishap::Grab => (Kind::Grab, "grabbed or steadied"),
        };
        found.push((kind, format!("before set {set}"), what.to_owned(), true));
    }
    found.extend(between_sets(session).map(|(kind, what, place)| (kind, place, what.to_owned(), true)));
    if session.felt_unwell() {
        let unwell = session.sets.iter().find(|set| set.felt_unwell());
        let place = unwell.or(session.sets.last()).map_or_else(|| "before the first set".to_owned(), place);
        found.push((
            Kind::Unwell,
            place,
            format!("felt unwell: {}", Answer::Symptom(session.symptom).words()),
            true,
        ));
    }
    let followed = consequences(material, session);
    let incident = |(kind, place, what, follows): (Kind, String, String, bool)| {
        let followed = followed.iter().filter(|(of, _)| follows && *of == kind).map(|(_, one)| one.clone());
        Incident { day: session.day, kind, place, what, followed: followed.collect() }
    };
    found.into_iter().map(incident).collect()
}

/// What is reported before practice and is a symptom.
const SYMPTOMS: [Item; 8] = [
    Item::Chest,
    Item::Breath,
    Item::Nerve,
    Item::Dizzy,
    Item::Faint,
    Item::Head,
    Item::Pain,
    Item::UnwellPassed,
];

/// What followed from a session, each with the kind of incident that it comes from.
fn consequences(material: &Material, session: &PastSession) -> Vec<(Kind, Consequence)> {
    let past = &material.past;
    let clearable = |kind, what, barrier| (kind, Consequence::clearable(material, session, what, barrier));
    let by_itself = |kind, what| (kind, Consequence::by_itself(what));
    let (locks, holds) = marks_of(session);
    let mut all = Vec::new();
    for lock in locks {
        let kind = if lock == Lock::FallHurt { Kind::Fall } else { Kind::Unwell };
        all.push(clearable(kind, format!("locked: {lock}"), Barrier::Lock(lock)));
    }
    for hold in holds {
        let kind = match hold {
            Hold::Fall => Kind::Fall,
            Hold::Grab => Kind::Grab,
            Hold::Dizziness | Hold::Unwell => Kind::Unwell,
        };
        all.push(by_itself(kind, format!("held for 48 hours: {hold}")));
    }
    for what in restrictions_of(past, session) {
        let kind = match what {
            Restriction::Fall => Kind::Fall,
            Restriction::Grabs => Kind::Grab,
        };
        all.push(clearable(kind, what.name().to_owned(), Barrier::Restriction(what)));
    }
    let dizzy = Readiness::of(&session.ready).holds.contains(&Hold::Dizziness);
    let lowers = [
        (Kind::Fall, session.fell() || session.fell_before()),
        (Kind::Grab, session.near_fall()),
        (Kind::Unwell, session.felt_unwell() || dizzy),
    ];
    let lowers = lowers.into_iter().filter(|(_, lowers)| *lowers && !session.tried_out);
    all.extend(lowers.map(|(kind, _)| by_itself(kind, "one step lower".to_owned())));
    all
}

/// The sets of a period of which it is not known whether there was a grab, or whether the person felt unwell.
pub fn unanswered(material: &Material, period: Period) -> Vec<Unanswered> {
    let inside = material.past.sessions.iter().zip(&material.details);
    let inside = inside.filter(|(session, _)| period.has(session.day));
    inside.flat_map(|(session, more)| unanswered_in(session, more)).collect()
}

/// The same of one session.
pub fn unanswered_in(session: &PastSession, more: &SessionDetails) -> Vec<Unanswered> {
    if session.discounted {
        return Vec::new();
    }
    let sets = session.sets.iter().zip(&more.sets);
    let unanswered = sets.map(|(set, more)| Unanswered {
        day: session.day,
        place: place(set),
        grab: more.grab,
        unwell: more.unwell,
    });
    unanswered.filter(|set| !(set.grab.is_known() && set.unwell.is_known())).collect()
}
