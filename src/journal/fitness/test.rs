use jiff::{Timestamp, ZonedDateTime};

use crate::journal::export::json;
use crate::journal::import::import;

use crate::journal::sample::{
    answer, decided, id, in_memory, keep, moment, open, readied, session, with_partner,
};
use crate::journal::{Folder, Journal, JournalError};
use counterpoise_core::course::past::{Barrier, Lifted};
use counterpoise_core::health::lock::Lock;
use counterpoise_core::health::readiness::Item;
use counterpoise_core::health::suitability::{Answer, Topic};
use counterpoise_core::plan::drill::Form;
use counterpoise_core::record::Line;
use counterpoise_core::record::{Decision, Given, Mishap, Question, Response, SessionEnd, SetEnd};

fn at(text: &str) -> ZonedDateTime {
    text.parse().unwrap()
}

/// A journal with one session that was decided and ready, answers about suitability, and a clearance.
fn filled(place: &std::path::Path) -> Journal {
    let mut journal = open(&Folder::open_in(place).unwrap());
    let mut lines = session();
    lines.insert(1, decided(Decision::Up, Some(1_793_000_000_000)));
    lines.push(readied(&[(Item::Chest, true), (Item::Head, false)]));
    lines.push(answer(90, Some(2), Question::WhyStopped, Some(3)));
    keep(&mut journal, &id(1), &lines);
    let answers = [(Topic::Heart, Answer::Agreed), (Topic::Bones, Answer::NotTrue)];
    let monday = at("2026-11-02T08:00:00-05:00[America/New_York]");
    journal.keep_suitability(&monday, false, &answers).unwrap();
    let lifts = [
        Lifted { session: id(1).to_string(), what: Barrier::Lock(Lock::HeadKnock) },
        Lifted { session: monday.to_string(), what: Barrier::Clinician },
    ];
    let friday = at("2026-11-06T08:00:00-05:00[America/New_York]");
    journal.keep_clearance(&friday, "K. L.", "seen on Thursday", &lifts).unwrap();
    journal
}

fn exported(journal: &Journal) -> String {
    let mut out = Vec::new();
    json(journal, &mut out).unwrap();
    String::from_utf8(out).unwrap()
}

#[test]
fn what_decides_is_exported_and_taken_in_once() {
    let (here, there) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let from = exported(&filled(here.path()));
    let mut journal = open(&Folder::open_in(there.path()).unwrap());
    for _ in 0..2 {
        import(&mut journal, "journal.json", from.as_bytes()).unwrap();
        assert_eq!(exported(&journal), from);
    }
    let documentation = include_str!("../../../docs/journal.md");
    for field in ["decided", "seen_before_ms", "given", "is_true", "topic", "who", "locked_by"] {
        assert!(from.contains(&format!("\"{field}\"")), "{field}");
        assert!(documentation.contains(&format!("`{field}`")), "docs/journal.md does not explain `{field}`");
    }
    // Another decision about the same session is a contradiction.
    let other = from.replace("\"decision\": \"up\"", "\"decision\": \"down\"");
    let refused = import(&mut journal, "journal.json", other.as_bytes()).unwrap_err();
    assert!(refused.to_string().contains("what was decided"), "{refused}");
    let other = from.replace("\"is_true\": false", "\"is_true\": true");
    let refused = import(&mut journal, "journal.json", other.as_bytes()).unwrap_err();
    assert!(refused.to_string().contains("readiness"), "{refused}");
}

#[test]
fn an_export_of_an_earlier_version_has_none_of_it() {
    let mut journal = in_memory();
    keep(&mut journal, &id(1), &session());
    let mut value: serde_json::Value = serde_json::from_str(&exported(&journal)).unwrap();
    let top = value.as_object_mut().unwrap();
    top.remove("suitability");
    top.remove("clearances");
    let first = top["sessions"][0].as_object_mut().unwrap();
    assert_eq!(first.remove("decided"), Some(serde_json::Value::Null));
    assert_eq!(first.remove("ready"), Some(serde_json::json!([])));
    let place = tempfile::tempdir().unwrap();
    let mut new = open(&Folder::open_in(place.path()).unwrap());
    import(&mut new, "journal.json", value.to_string().as_bytes()).unwrap();
    assert_eq!(exported(&new), exported(&journal));
}

#[test]
fn only_a_journal_with_the_lock_is_changed() {
    let moment = at("2026-11-02T08:00:00-05:00[America/New_York]");
    let mut look = in_memory();
    let refused = look.keep_clearance(&moment, "K. L.", "seen", &[]).unwrap_err();
    assert!(matches!(refused, JournalError::ReadOnly { .. }));
    assert!(matches!(look.keep_suitability(&moment, false, &[]), Err(JournalError::ReadOnly { .. })));
}

#[test]
fn the_rules_see_what_was_kept() {
    let place = tempfile::tempdir().unwrap();
    let past = filled(place.path()).past().unwrap();
    let session = &past.sessions[0];
    // Begun on November 2 at half past nine in New York; the last sign is its end after four minutes.
    assert_eq!((session.id.as_str(), session.day), (id(1).as_str(), jiff::civil::date(2026, 11, 2)));
    assert_eq!(session.begun.as_millisecond(), moment(0).ms());
    assert_eq!(session.ended.as_millisecond(), moment(240_000).ms());
    assert_eq!(session.seen_before, Some(Timestamp::from_millisecond(1_793_000_000_000).unwrap()));
    assert_eq!(
        (session.end, session.sets_planned, session.sets_whole),
        (Some(SessionEnd::StoppedOther), 2, Some(2))
    );
    assert_eq!((session.hurt, session.why_stopped), (None, Some(3)));
    assert_eq!(session.ready, [(Item::Chest, true), (Item::Head, false)]);
    assert_eq!(
        session.given,
        [Given { drill: "counter-reach".into(), form: Form::Alone, step: 3, ladder: None }]
    );
    let [one, two] = &session.sets[..] else { panic!("two sets") };
    assert_eq!((one.number, one.step, one.end), (1, 3, Some(SetEnd::Completed)));
    // Cues 0 and 2 were heard; 1 is a blank.
    assert_eq!((one.cues, one.held_on, one.effort, one.steadiness), (2, Some(2), Some(5), None));
    assert_eq!((two.end, two.effort), (Some(SetEnd::Stopped), Some(7)));
    assert!(past.is_lifted(session, Barrier::Lock(Lock::HeadKnock)));
    assert!(!past.is_lifted(session, Barrier::Lock(Lock::Faint)));
}

/// A merge can bring a second answer to one question. Both readers take the first that was said, not the first that was asked.
#[test]
fn both_readers_take_the_first_answer_of_a_question_that_was_answered_twice() {
    let after_a_set =
        [Question::Grabbed, Question::HeldOn, Question::Effort, Question::Steadiness, Question::Unwell];
    let at_the_end = [Question::Hurt, Question::WhyStopped, Question::Symptom];
    let mut lines = session();
    let end = lines.pop().unwrap();
    lines.retain(|line| !matches!(line, Line::Answered(_)));
    for (nth, question) in (0..).zip(after_a_set.into_iter().chain(at_the_end)) {
        let said = [None, Some(1), Some(3), Some(2)];
        let places = (0..).map(|more| 10 * nth + more).zip(said);
        lines.extend(places.map(|(place, said)| answer(place, Some(2), question, said)));
    }
    lines.push(end);
    let mut journal = in_memory();
    keep(&mut journal, &id(1), &lines);
    let (whole, fast) = (journal.past().unwrap(), journal.recent_past().unwrap());
    assert_eq!(whole, fast);
    let session = &fast.sessions[0];
    assert_eq!((session.hurt, session.why_stopped, session.symptom), (Some(1), Some(1), Some(1)));
    let set = &session.sets[1];
    let said = [set.grabbed, set.held_on, set.effort, set.steadiness, set.unwell];
    assert_eq!(said, [Some(1); 5]);
}

#[test]
fn the_rules_see_what_a_partner_noted() {
    let mut journal = in_memory();
    keep(&mut journal, &id(2), &with_partner());
    let past = journal.past().unwrap();
    let set = &past.sessions[0].sets[0];
    assert_eq!((set.form, set.cues, set.advised_lower), (Form::Partner, 3, true));
    assert_eq!(set.mishaps, [Mishap::Grab]);
    assert_eq!(set.responses, [Some(Response::OneStep), None, Some(Response::Grabbed)]);
    assert!(past.sessions[0].given.is_empty() && past.sessions[0].ready.is_empty());
}
