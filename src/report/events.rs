//! What went wrong in or since practice, what was locked and cleared, and what was changed: dated sentences, in order.

use jiff::Timestamp;
use jiff::civil::Date;
use serde::Serialize;

use super::{Inside, Material, Period};
use crate::past::Past;
use crate::progression::Barriers;
use crate::readiness::{Item, Readiness};
use crate::record::{Mishap, Question, Response, SessionEnd, SetEnd};

/// One thing on one day.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Event {
    /// The local day.
    pub day: Date,
    /// What, in a few words.
    pub what: String,
}

pub(super) fn of(material: &Material, inside: &Inside<'_>, period: Period) -> Vec<Event> {
    let mut events = Vec::new();
    for (session, more) in &inside.sessions {
        let mut add = |what: String| events.push(Event { day: session.day, what });
        for what in &more.corrected {
            add(format!("corrected: {what}"));
        }
        if session.discounted {
            continue;
        }
        if session.tried_out {
            add("supervised try-out, which counts as no practice".to_owned());
        }
        for (item, _) in session.ready.iter().filter(|(item, is_true)| !is_true && is_told(*item)) {
            add(format!("told before practice, not true: {}", item.sentence()));
        }
        let readiness = Readiness::of(&session.ready);
        if session.end == Some(SessionEnd::NotToday) {
            add(format!("not today ({} reasons)", readiness.reasons.len()));
        }
        for set in &session.sets {
            let place = format!("set {}, {}, step {}", set.number, set.drill, set.step);
            let responded = |wanted| set.responses.contains(&Some(wanted));
            if set.mishaps.contains(&Mishap::Fall)
                || responded(Response::Fell)
                || set.end == Some(SetEnd::Fell)
            {
                add(format!("fell ({place})"));
            }
            if set.grabbed == Some(1) || set.mishaps.contains(&Mishap::Grab) || responded(Response::Grabbed) {
                add(format!("grabbed hold or nearly fell ({place})"));
            }
            if set.steadiness == Some(5) {
                add(format!("lost balance ({place})"));
            }
        }
        if session.end == Some(SessionEnd::Unwell) || session.sets.iter().any(|set| set.unwell == Some(1)) {
            let what = Question::Symptom.say(session.symptom);
            add(format!("felt unwell: {what}"));
        }
        if let Some(end @ (SessionEnd::StoppedUnsteady | SessionEnd::NotAnswered | SessionEnd::Interrupted)) =
            session.end
        {
            add(end.name().to_owned());
        }
    }
    let inside = |day: &Date| (period.since..=period.until).contains(day);
    // Every lock that ever stood: without what was lifted.
    let never_lifted = Past { sessions: material.past.sessions.clone(), lifted: Vec::new() };
    let locks = Barriers::of(&never_lifted, Timestamp::MIN, Date::MIN).locks;
    events.extend(
        locks
            .iter()
            .filter(|lock| inside(&lock.day))
            .map(|lock| Event { day: lock.day, what: format!("locked: {}", lock.what) }),
    );
    events.extend(
        material
            .clearances
            .iter()
            .filter(|(day, ..)| inside(day))
            .map(|(day, who, why)| Event { day: *day, what: format!("cleared by {who}: {why}") }),
    );
    events.extend(
        material
            .changes
            .iter()
            .filter(|(day, _)| inside(day))
            .map(|(day, what)| Event { day: *day, what: what.clone() }),
    );
    events.sort_by_key(|event| event.day);
    events
}

/// Of the sentences of a day those that are about the person, and not about the room.
fn is_told(item: Item) -> bool {
    matches!(
        item,
        Item::Chest
            | Item::Breath
            | Item::Nerve
            | Item::Dizzy
            | Item::DizzyPassed
            | Item::Faint
            | Item::Fall
            | Item::FallUnhurt
            | Item::Head
            | Item::Pain
            | Item::Sore
            | Item::Ill
            | Item::Medicine
            | Item::UnwellPassed
    )
}
