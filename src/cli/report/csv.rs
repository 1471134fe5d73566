//! What is a report in a spreadsheet (RFC 4180)? First a row for each change of the program, then one for each time that
//! suitability was answered and something was not good, then one for each session. A text that would run as a formula gets
//! an apostrophe in front.

use std::io;

use crate::journal::export::text;
use counterpoise_core::plan::prescription::Prescription;
use counterpoise_core::record::{Numbered, Question, SetEnd};
use counterpoise_core::report::{
    Consequence, CountsAs, Material, NotGood, Period, Told, Unanswered, Week, before_practice, changes,
    of_session, suitability, unanswered_in,
};

const COLUMNS: [&str; 27] = [
    "day",
    "incidents",
    "what_followed",
    "not_asked",
    "not_said",
    "program_changed",
    "not_good",
    "week",
    "session",
    "prescription",
    "digest",
    "counts_as",
    "typed_in",
    "ended",
    "sets_planned",
    "sets_done",
    "active_ms",
    "session_ms",
    "calls",
    "steps",
    "effort",
    "steadiness",
    "held_on",
    "grabbed",
    "unwell",
    "what_felt_wrong",
    "sound_disturbed",
];

/// The row of something that is no session: its day, what it counts as, and one more cell.
fn row(day: &str, counts_as: &str, column: &str, words: &str) -> [String; COLUMNS.len()] {
    COLUMNS.map(|name| match name {
        "day" => day.to_owned(),
        "counts_as" => counts_as.to_owned(),
        _ if name == column => text(words),
        _ => String::new(),
    })
}

/// Answers that were not good, each with what it led to.
fn in_words(not_good: &[NotGood]) -> String {
    let words = |one: &NotGood| format!("{} [{}]", one.said(), one.consequences());
    not_good.iter().map(words).collect::<Vec<_>>().join("; ")
}

/// The rows, with their head.
pub(super) fn of(material: &Material, in_use: &Prescription, period: Period) -> io::Result<Vec<u8>> {
    let mut csv = csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(Vec::new());
    csv.write_record(COLUMNS)?;
    for change in changes(material, in_use, period) {
        let day = change.day.map(|day| day.to_string()).unwrap_or_default();
        csv.write_record(row(&day, "program changed", "program_changed", &change.words()))?;
    }
    let answers = suitability(material, in_use, period);
    for together in answers.chunk_by(|one, other| one.at == other.at) {
        let words = in_words(together);
        csv.write_record(row(&together[0].day.to_string(), "suitability answered", "not_good", &words))?;
    }
    let inside = material.past.sessions.iter().zip(&material.details);
    for (session, more) in inside.filter(|(session, _)| period.has(session.day)) {
        let numbers = |question| session.sets.iter().filter_map(move |set| set.number_of(question));
        let worst = |question| numbers(question).max().map(|value| value.to_string()).unwrap_or_default();
        let done = session.sets.iter().filter(|set| set.end == Some(SetEnd::Completed)).count();
        let active: u64 = more.sets.iter().map(|set| u64::from(set.worked_ms)).sum();
        let calls: u32 = session.sets.iter().map(|set| u32::from(set.cues)).sum();
        let mut steps: Vec<String> = Vec::new();
        for set in &session.sets {
            let step = format!("{} {} {}", set.drill, set.form, set.step);
            if !steps.contains(&step) {
                steps.push(step);
            }
        }
        // A question without an answer is an empty cell, not 0.
        let held_on = numbers(Question::HeldOn).reduce(|a, b| a + b);
        let found = of_session(material, session, more);
        let incidents: Vec<String> =
            found.iter().map(|one| format!("{}: {} ({})", one.kind, one.what, one.place)).collect();
        let mut followed: Vec<String> = Vec::new();
        for words in found.iter().flat_map(|one| &one.followed).map(Consequence::words) {
            if !followed.contains(&words) {
                followed.push(words);
            }
        }
        let unanswered = unanswered_in(session, more);
        let without = |told: Told| {
            let of = |set: &Unanswered| {
                let asked = [(set.grab, "grab or near fall"), (set.unwell, "felt unwell")];
                let what: Vec<&str> =
                    asked.into_iter().filter(|(one, _)| *one == told).map(|(_, what)| what).collect();
                (!what.is_empty()).then(|| format!("{}: {}", set.place, what.join(" and ")))
            };
            unanswered.iter().filter_map(of).collect::<Vec<_>>().join("; ")
        };
        csv.write_record([
            session.day.to_string(),
            text(&incidents.join("; ")),
            text(&followed.join("; ")),
            text(&without(Told::NotAsked)),
            text(&without(Told::NotSaid)),
            String::new(),
            text(&in_words(&before_practice(material, session, more))),
            Week::name_of(session.day),
            text(&session.id),
            text(&more.title),
            session.digest.to_string(),
            CountsAs::of(&material.past, session).name().to_owned(),
            u8::from(session.by_hand).to_string(),
            session.end.map(|end| text(end.name())).unwrap_or_default(),
            session.sets_planned.to_string(),
            done.to_string(),
            active.to_string(),
            more.length_ms(session).map(|length| length.to_string()).unwrap_or_default(),
            if session.by_hand { String::new() } else { calls.to_string() },
            text(&steps.join("; ")),
            worst(Question::Effort),
            worst(Question::Steadiness),
            held_on.map(|times| times.to_string()).unwrap_or_default(),
            worst(Question::Grabbed),
            worst(Question::Unwell),
            session.symptom.map(|symptom| text(&symptom.words())).unwrap_or_default(),
            more.sets.iter().map(|set| set.disturbed).sum::<usize>().to_string(),
        ])?;
    }
    csv.into_inner().map_err(csv::IntoInnerError::into_error)
}
