//! What went wrong in or since practice, what was locked, held and cleared, and what was changed: dated sentences, in
//! order. Every way in which a set or a session can end is handled here once.

use jiff::civil::Date;
use serde::Serialize;

use super::material::{Material, Period, PeriodSessions, SessionDetails};
use crate::course::past::{PastSession, PastSet};
use crate::course::progression::marks_of;
use crate::health::readiness::{Item, Readiness};
use crate::plan::drill::Form;
use crate::record::{Answer, LeftOut, Mishap, SessionEnd, SetEnd};
use crate::words;

/// One thing on one day.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Event {
    /// The local day.
    pub day: Date,
    /// The kind of event.
    pub kind: Kind,
    /// What happened, in a few words.
    pub what: String,
}

/// Kinds of events.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Kind {
    /// Something was corrected.
    Correction,
    /// A supervised try-out.
    TryOut,
    /// The person reported something on the pages before practice.
    Reported,
    /// The answers before practice led to "not today".
    NotToday,
    /// A fall in practice.
    Fall,
    /// A grab, or nearly a fall.
    Grab,
    /// Balance was lost, by the person's own rating.
    LostBalance,
    /// The person felt unwell in practice.
    Unwell,
    /// A set or a session ended before its end.
    Stop,
    /// A set was left out, or declined.
    LeftOut,
    /// One step lower was advised.
    Advice,
    /// Locked until a clinician clears it.
    Lock,
    /// Held for 48 hours, where nothing is locked.
    Hold,
    /// Cleared by a clinician.
    Clearance,
    /// Something was changed outside of practice.
    Change,
}

words! {
    Kind {
        Correction => "correction",
        TryOut => "try-out",
        Reported => "told",
        NotToday => "not today",
        Fall => "fall",
        Grab => "grab",
        LostBalance => "lost balance",
        Unwell => "unwell",
        Stop => "stop",
        LeftOut => "left out",
        Advice => "advice",
        Lock => "lock",
        Hold => "hold",
        Clearance => "clearance",
        Change => "change",
    }
}

pub(super) fn of(material: &Material, inside: &PeriodSessions<'_>, period: Period) -> Vec<Event> {
    let mut events = Vec::new();
    for (session, more) in &inside.sessions {
        let mut add = |kind, what| events.push(Event { day: session.day, kind, what });
        for what in &more.corrected {
            add(Kind::Correction, format!("corrected: {what}"));
        }
        if !session.discounted {
            of_session(session, more, &mut add);
        }
    }
    // Every lock and hold that ever stood, lifted or not: no correction takes one away.
    for session in material.past.sessions.iter().filter(|session| period.has(session.day)) {
        let mut add = |kind, what| events.push(Event { day: session.day, kind, what });
        let (locks, holds) = marks_of(session);
        for lock in &locks {
            add(Kind::Lock, format!("locked: {lock}"));
        }
        // A lock outlasts any hold of the same session.
        for hold in holds.into_iter().filter(|_| locks.is_empty()) {
            add(Kind::Hold, format!("held for 48 hours: {hold}"));
        }
    }
    let cleared = material.clearances.iter();
    events.extend(cleared.filter(|(day, ..)| period.has(*day)).map(|(day, who, why)| Event {
        day: *day,
        kind: Kind::Clearance,
        what: format!("cleared by {who}: {why}"),
    }));
    let changes = material.changes.iter().filter(|(day, _)| period.has(*day));
    events.extend(changes.map(|(day, what)| Event { day: *day, kind: Kind::Change, what: what.clone() }));
    events.sort_by_key(|event| event.day);
    events
}

fn of_session(session: &PastSession, more: &SessionDetails, add: &mut impl FnMut(Kind, String)) {
    if session.tried_out {
        add(Kind::TryOut, "supervised try-out, not counted as practice".to_owned());
    }
    for (item, answer) in &session.ready {
        if !item.is_good(*answer) && is_about_person(*item) {
            add(Kind::Reported, format!("reported before practice: {item}: {answer}"));
        }
    }
    if let Some(whole) = session.sets_whole.filter(|whole| *whole > session.sets_planned) {
        add(Kind::LeftOut, format!("{} of {whole} sets were chosen at the start", session.sets_planned));
    }
    for set in &session.sets {
        of_set(session, set, add);
    }
    for (set, mishap) in &session.before_set {
        match mishap {
            Mishap::Fall => add(Kind::Fall, format!("fell (before set {set})")),
            Mishap::Grab => add(Kind::Grab, format!("grabbed or steadied (before set {set})")),
        }
    }
    for (set, why) in &more.left_out {
        let why = match why {
            LeftOut::Refused => "declined",
            LeftOut::Grabbed => "after a grab",
            LeftOut::SoundNotHeard => "the sound was not heard",
        };
        add(Kind::LeftOut, format!("set {set} left out: {why}"));
    }
    if session.felt_unwell() {
        add(Kind::Unwell, format!("felt unwell: {}", Answer::Symptom(session.symptom).words()));
    }
    for (kind, what, place) in between_sets(session) {
        add(kind, format!("{what} ({place})"));
    }
    of_end(session, add);
}

/// The fall and the grab of a set.
pub(super) fn in_set(set: &PastSet) -> impl Iterator<Item = (Kind, &'static str)> + use<> {
    let fell = set.fell().then_some((Kind::Fall, "fell"));
    // With a partner every near fall counts as a grab.
    let what = if set.form == Form::Partner { "grabbed or steadied" } else { "grabbed hold or nearly fell" };
    let near = set.near_fall().then_some((Kind::Grab, what));
    fell.into_iter().chain(near)
}

/// A fall or a grab between two sets, and where: neither in a set nor before one that was then not begun.
pub(super) fn between_sets(session: &PastSession) -> impl Iterator<Item = (Kind, &'static str, String)> {
    let fall_listed = session.sets.iter().any(PastSet::fell)
        || session.before_set.iter().any(|(_, what)| *what == Mishap::Fall);
    let grab_listed =
        session.sets.iter().any(PastSet::near_fall) || session.grabs_before_sets().next().is_some();
    let fell = (session.fell() && !fall_listed).then_some((Kind::Fall, "fell"));
    let grabbed = session.end == Some(SessionEnd::Grabbed) && !grab_listed;
    let grabbed = grabbed.then_some((Kind::Grab, "grabbed hold or nearly fell"));
    let place = where_it_ended(session);
    fell.into_iter().chain(grabbed).map(move |(kind, what)| (kind, what, place.clone()))
}

fn of_set(session: &PastSession, set: &PastSet, add: &mut impl FnMut(Kind, String)) {
    let place = place(set);
    for (kind, what) in in_set(set) {
        add(kind, format!("{what} ({place})"));
    }
    if set.lost_balance() {
        add(Kind::LostBalance, format!("lost balance ({place})"));
    }
    if set.advised_lower {
        add(Kind::Advice, format!("one step lower was advised ({place})"));
    }
    let stopped = match set.end {
        // Completed, still going on, or listed above.
        Some(SetEnd::Completed | SetEnd::Fell | SetEnd::Grabbed) | None => None,
        // Each stop is listed once: with the session, where it ended with this set.
        Some(SetEnd::Stopped | SetEnd::Closed | SetEnd::Interrupted)
            if ended_with(session, set) && is_stop(session.end) =>
        {
            None
        }
        Some(
            end @ (SetEnd::Stopped
            | SetEnd::Closed
            | SetEnd::Interrupted
            | SetEnd::Refused
            | SetEnd::PausedTooLong
            | SetEnd::SoundLost
            | SetEnd::Slept
            | SetEnd::Halted),
        ) => Some(end.name()),
    };
    if let Some(how) = stopped {
        add(Kind::Stop, format!("{how} ({place})"));
    }
}

fn of_end(session: &PastSession, add: &mut impl FnMut(Kind, String)) {
    let Some(end) = session.end else { return };
    match end {
        // It ended as planned, or was listed with the symptom, the fall or the grab.
        SessionEnd::Finished | SessionEnd::Unwell | SessionEnd::Fell | SessionEnd::Grabbed => {}
        SessionEnd::NotToday => {
            let reasons = Readiness::of(&session.ready).reasons.len();
            let of = if reasons == 1 { "reason" } else { "reasons" };
            add(Kind::NotToday, format!("not today ({reasons} {of})"));
        }
        SessionEnd::StoppedOther
        | SessionEnd::StoppedUnsteady
        | SessionEnd::NotAnswered
        | SessionEnd::Closed
        | SessionEnd::Interrupted => {
            add(Kind::Stop, format!("{end} ({})", where_it_ended(session)));
        }
    }
}

/// Whether this end is listed as a stop of the session.
fn is_stop(end: Option<SessionEnd>) -> bool {
    matches!(
        end,
        Some(
            SessionEnd::StoppedOther
                | SessionEnd::StoppedUnsteady
                | SessionEnd::NotAnswered
                | SessionEnd::Closed
                | SessionEnd::Interrupted
        )
    )
}

/// The set, its drill and its step.
pub(super) fn place(set: &PastSet) -> String {
    format!("set {}, {}, step {}", set.number, set.drill, set.step)
}

fn ended_with(session: &PastSession, set: &PastSet) -> bool {
    session.sets.last().is_some_and(|last| last.number == set.number)
}

fn where_it_ended(session: &PastSession) -> String {
    match session.sets.last() {
        None => "before the first set".to_owned(),
        Some(set) if set.end == Some(SetEnd::Completed) => format!("after set {}", set.number),
        Some(set) => place(set),
    }
}

/// Of the questions of a day those that are about the person, and not about the room or the partner.
fn is_about_person(item: Item) -> bool {
    match item {
        Item::Chest
        | Item::Breath
        | Item::Nerve
        | Item::Dizzy
        | Item::DizzyPassed
        | Item::Faint
        | Item::Fall
        | Item::FallHurt
        | Item::Head
        | Item::Pain
        | Item::Sore
        | Item::Ill
        | Item::Night
        | Item::Alcohol
        | Item::Medicine
        | Item::MedicineDrowsy
        | Item::MedicineAgreed
        | Item::UnwellPassed => true,
        // The date of a fall is not listed separately.
        Item::FallRecent
        | Item::Counter
        | Item::Firm
        | Item::Hot
        | Item::Shut
        | Item::Floor
        | Item::Light
        | Item::Behind
        | Item::Shoes
        | Item::Aids
        | Item::Phone
        | Item::Chair
        | Item::House
        | Item::PartnerHere
        | Item::PartnerWell
        | Item::PartnerKnows
        | Item::BothWilling => false,
    }
}
