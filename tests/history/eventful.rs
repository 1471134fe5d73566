//! An invented history in which everything happens that a journal can hold: every end of a set and of a session, falls, grabs,
//! locks and clearances, corrections, sheets typed in, try-outs, travel, a practice over midnight, a program that ends. Nobody real.

use counterpoise_core::health::suitability::Topic;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use jiff::{ToSpan, ZonedDateTime};
use serde_json::{Value, json};

use crate::history::{GENTLE, History};

/// The prescription that comes into use after some practices: it is issued by somebody, and its six weeks pass.
pub(crate) fn issued(on: Date) -> String {
    GENTLE
        .replace("issued_by = \"\"", "issued_by = \"K. L.\"")
        .replace("issued_on = 2026-11-25", &format!("issued_on = {on}"))
        .replace("weeks = 12", "weeks = 6")
        .replace("review_after_sessions = 12", "review_after_sessions = 10")
}

/// The day on which it is issued: that of the tenth practice.
pub(crate) fn issued_on(export: &Value) -> Date {
    moment(&export["sessions"][9]["start"]["begun"]).date()
}

/// The export of such a history, and the prescription that is in use at its end.
pub(crate) fn eventful(history: History) -> (Value, String) {
    let mut export = History { pushes: true, ..history }.export();
    let prescription = issued(issued_on(&export));
    let digest = counterpoise_core::plan::prescription::Digest::of(prescription.as_bytes()).to_string();
    let mut week = String::new();
    let mut sessions = Vec::new();
    let mut besides = Besides::default();
    for (nth, mut session) in export["sessions"].as_array().unwrap().iter().cloned().enumerate() {
        if nth >= 9 {
            session["start"]["digest"] = json!(digest);
        }
        for (set, side) in session["sets"].as_array_mut().unwrap().iter_mut().zip(["left", "right", "left"]) {
            (set["start"]["stance"], set["start"]["side"]) = (json!("semi-tandem"), json!(side));
        }
        session["ready"] = ready(&[]);
        let iso = moment(&session["start"]["begun"]).date().iso_week_date();
        let iso = format!("{}-{}", iso.year(), iso.week());
        if iso != week {
            week = iso;
            for (place, (question, answer)) in
                [("nearly fell in daily life", nth % 3), ("confidence", 1 + nth % 5), ("soreness", nth % 4)]
                    .into_iter()
                    .enumerate()
            {
                let answer = if nth % 7 == 3 { Value::Null } else { json!(answer) };
                let row = json!({ "place": place, "set": null, "question": question, "answer": answer });
                session["answers"].as_array_mut().unwrap().push(row);
            }
        }
        sessions.extend(happens(nth, session, &mut besides));
    }
    export["sessions"] = sessions.into();
    export["clearances"] = besides.clearances.into();
    export["corrections"] = besides.corrections.into();
    export["tests"] = besides.tests.into();
    export["changes"] = besides.changes.into();
    export["suitability"] = besides.suitability.into();
    (export, prescription)
}

/// What stands beside sessions.
#[derive(Default)]
struct Besides {
    clearances: Vec<Value>,
    corrections: Vec<Value>,
    tests: Vec<Value>,
    changes: Vec<Value>,
    suitability: Vec<Value>,
}

/// What happens in the practice of this number, which may become two.
#[expect(clippy::too_many_lines, reason = "a list of everything that can happen")]
fn happens(nth: usize, mut session: Value, besides: &mut Besides) -> Vec<Value> {
    let at = |session: &Value, days: i64| {
        let begun = moment(&session["start"]["begun"]);
        begun.checked_add(days.days()).unwrap().checked_add(1.hour()).unwrap().to_string()
    };
    let clear = |session: &Value, what: &str| {
        let lifted = json!([{ "locked_by": session["id"], "what": what }]);
        json!({ "at": at(session, 1), "who": "K. L.", "reason": "seen", "lifted": lifted })
    };
    let correct = |session: &Value, what: &str, rest: [Value; 4]| {
        let [set, question, cue, right] = rest;
        json!({ "at": at(session, 2), "session": session["id"], "what": what, "set": set, "question": question,
            "cue": cue, "right": right, "reason": "wrong key" })
    };
    let sets = session["sets"].as_array().unwrap().len();
    match nth % 26 {
        1 => {
            // Cut off by a crash: nobody went through the pushes.
            cut(&mut session, sets - 1, "interrupted", "interrupted");
            session["sets"][sets - 1]["responses"] = json!([]);
        }
        2 => {
            say(&mut session, 1, "effort", Value::Null);
            let what = "prescription in use: gentle";
            let gentle = counterpoise_core::plan::prescription::Digest::of(GENTLE.as_bytes()).to_string();
            let at = at(&session, 0);
            if besides.suitability.is_empty() {
                besides.changes.push(json!({ "at": at, "what": what, "digest": gentle }));
            }
            besides.suitability.push(answered_as_sentences(&at));
        }
        3 if besides.tests.is_empty() => besides.tests = tests(&at(&session, 0)),
        4 if sets == 3 => return over_midnight(session),
        5 => {
            session["start"]["voice"] = json!("typed in by hand");
            session["decided"]["sets_whole"] = json!(3);
            for set in session["sets"].as_array_mut().unwrap() {
                (set["delivered"], set["responses"]) = (json!([]), json!([]));
                set["plans"] = json!([{ "plan": 0, "paused_at_ms": null, "cues": [] }]);
            }
        }
        6 => {
            let seen = json!([{ "what": "feet", "words": "one step" }]);
            session["tryout"] = json!({ "watched_by": "K. L.", "partner": "A", "seen": seen });
        }
        7 => {
            let not = [
                ("not fallen", false),
                ("the fall did no harm", true),
                ("the fall was over two days ago", false),
            ];
            session["ready"] = ready(&not);
            nothing_begun(&mut session, "not today");
        }
        8 => {
            session["sets"][sets - 1]["end"]["why"] = json!("fell");
            session["end"]["why"] = json!("fell");
            say(&mut session, sets, "hurt or a knock to the head", json!(1));
            besides.clearances.push(clear(&session, "a fall that may have hurt"));
        }
        9 => {
            session["end"]["why"] = json!("felt unwell");
            say(&mut session, sets, "unwell", json!(1));
            say(&mut session, sets, "what felt wrong", json!(5));
            session["ready"] = ready(&[("good light", false)]);
        }
        10 => {
            session["left_out"] = json!([{ "set": 3, "at": at(&session, 0), "why": "grabbed or steadied" }]);
            let grab =
                json!({ "place": 700, "set": 3, "at_ms": 0, "what": "grabbed or steadied", "cue": null });
            session["mishaps"] = json!([grab]);
            session["advised"] = json!([{ "place": 701, "set": 2, "advice": "one step lower" }]);
            drop_set(&mut session, 3);
        }
        11 => {
            session["start"]["seed_given"] = json!(true);
            session["start"]["device"] = json!("a loudspeaker");
            session["sets"][0]["disturbed"] = json!([{ "place": 1, "at_ms": 100, "how": "stuttered" }, { "place": 2, "at_ms": 200, "how": "stuttered" }]);
        }
        12 => cut(&mut session, sets - 1, "stopped", "stopped for another reason"),
        13 => session["sets"][1]["end"]["why"] = json!("paused too long"),
        14 => besides.corrections.push(correct(
            &session,
            "set aside",
            [Value::Null, Value::Null, Value::Null, Value::Null],
        )),
        15 => {
            let right = [json!(1), json!("effort"), Value::Null, json!("8")];
            besides.corrections.push(correct(&session, "answer", right));
            if sets == 3 {
                let right = [json!(3), Value::Null, json!(0), json!("touched support")];
                let mut later = correct(&session, "response", right);
                shift(&mut later, 1);
                besides.corrections.push(later);
            }
        }
        16 => session["sets"][0]["end"]["why"] = json!("computer slept"),
        17 => elsewhere(&mut session, "Asia/Tokyo"),
        18 => {
            let id = session["id"].as_str().unwrap().replacen('0', "f", 1);
            let mut ahead = session.clone();
            shift(&mut ahead, 30 * 24 * 60);
            ahead["id"] = json!(id);
            besides.clearances.push(clear(&ahead, "a date that lies ahead"));
            return vec![session, ahead];
        }
        19 => {
            session["sets"][0]["end"]["why"] = json!("sound lost");
            session["sets"][1]["end"]["why"] = json!("refused");
        }
        20 => {
            session["end"]["why"] = json!("not answered");
            let what = "prescription in use: own.toml";
            besides
                .changes
                .push(json!({ "at": at(&session, 1), "what": what, "digest": session["start"]["digest"] }));
        }
        21 => {
            session["end"]["why"] = json!("grabbed hold or nearly fell");
            say(&mut session, 1, "grabbed hold or nearly fell", json!(1));
            say(&mut session, 2, "steadiness", json!(5));
        }
        22 => {
            session["end"]["why"] = json!("stopped, felt unsteady");
            let answers = answered(&at(&session, 0));
            let lifted = json!([{ "locked_by": answers["at"], "what": "a clinician first: chest pain" }]);
            let at = at(&session, 3);
            besides
                .clearances
                .push(json!({ "at": at, "who": "Dr. A. B.", "reason": "seen", "lifted": lifted }));
            besides.suitability.push(answers);
        }
        23 => {
            session["decided"]["sets_whole"] = json!(5);
            session["ready"] = ready(&[("not sore", false), ("slept well", false)]);
        }
        24 => nothing_begun(&mut session, "program closed"),
        _ => {}
    }
    vec![session]
}

fn moment(value: &Value) -> ZonedDateTime {
    value.as_str().unwrap().parse().unwrap()
}

/// The pages of readiness, all true but for these.
fn ready(not: &[(&str, bool)]) -> Value {
    let all = ["no chest pain", "not fallen", "not sore", "slept well", "good light"];
    let rows = all.iter().filter(|item| not.iter().all(|(name, _)| name != *item)).map(|item| (*item, true));
    rows.chain(not.iter().copied())
        .map(|(item, is_true)| json!({ "item": item, "is_true": is_true }))
        .collect()
}

fn say(session: &mut Value, set: usize, question: &str, answer: Value) {
    let answers = session["answers"].as_array_mut().unwrap();
    match answers.iter_mut().find(|row| row["set"] == set && row["question"] == question) {
        Some(row) => row["answer"] = answer,
        None => {
            let place = 800 + answers.len();
            answers.push(json!({ "place": place, "set": set, "question": question, "answer": answer }));
        }
    }
}

/// The set and the session end before their end, and nothing is asked after the set.
fn cut(session: &mut Value, place: usize, set: &str, end: &str) {
    session["sets"][place]["end"]["why"] = json!(set);
    session["sets"][place]["end"]["worked_ms"] = json!(41_000);
    session["end"]["why"] = json!(end);
    let number = place + 1;
    session["answers"].as_array_mut().unwrap().retain(|row| row["set"] != number);
}

fn drop_set(session: &mut Value, number: usize) {
    session["sets"].as_array_mut().unwrap().retain(|set| set["start"]["number"] != number);
    session["answers"].as_array_mut().unwrap().retain(|row| row["set"] != number);
    let partner = session["sets"].as_array().unwrap().iter().any(|set| set["start"]["form"] == "partner");
    session["form"] = json!(if partner { "partner" } else { "alone" });
}

fn nothing_begun(session: &mut Value, end: &str) {
    (session["sets"], session["form"], session["end"]["why"]) = (json!([]), Value::Null, json!(end));
    session["answers"].as_array_mut().unwrap().retain(|row| row["set"].is_null());
}

/// Closed after half of it at a quarter to midnight, and finished after midnight.
fn over_midnight(mut first: Value) -> Vec<Value> {
    let mut second = first.clone();
    drop_set(&mut first, 3);
    cut(&mut first, 1, "program closed", "program closed");
    first["end"]["at"] = first["sets"][1]["end"]["at"].clone();
    shift(&mut first, 13 * 60 + 40);
    drop_set(&mut second, 1);
    drop_set(&mut second, 2);
    second["id"] = json!(second["id"].as_str().unwrap().replacen('0', "e", 1));
    second["decided"]["first_set"] = json!(3);
    second["answers"].as_array_mut().unwrap().retain(|row| !row["set"].is_null());
    shift(&mut second, 14 * 60 + 20);
    vec![first, second]
}

fn each_moment(value: &mut Value, change: &impl Fn(ZonedDateTime) -> ZonedDateTime) {
    match value {
        Value::String(text) => {
            if let Some(at) = text.parse::<ZonedDateTime>().ok().filter(|_| text.contains('[')) {
                *text = change(at).to_string();
            }
        }
        Value::Array(values) => values.iter_mut().for_each(|value| each_moment(value, change)),
        Value::Object(fields) => fields.values_mut().for_each(|value| each_moment(value, change)),
        _ => {}
    }
}

fn shift(session: &mut Value, minutes: i64) {
    each_moment(session, &|at| at.checked_add(minutes.minutes()).unwrap());
}

/// The same moments, on the clock of another place.
fn elsewhere(session: &mut Value, zone: &str) {
    let zone = TimeZone::get(zone).unwrap();
    each_moment(session, &|at| at.with_time_zone(zone.clone()));
}

/// One result of each test, and a second of two of them.
fn tests(at: &str) -> Vec<Value> {
    let of = |test: &str, value: Option<u32>, days: i64| {
        let at = at.parse::<ZonedDateTime>().unwrap().checked_add(days.days()).unwrap().to_string();
        json!({ "at": at, "test": test, "value": value, "age": 78, "sex": "female", "company": "with somebody", "by_whom": "" })
    };
    vec![
        of("four-stage", Some(100), 0),
        of("one-leg", Some(42), 0),
        of("chair-stand", Some(9), 0),
        of("timed-up-and-go", Some(131), 0),
        of("five-rises", None, 0),
        of("one-leg", Some(61), 28),
        of("chair-stand", Some(11), 28),
    ]
}

/// Suitability as it once was: sentences that are true in the good case.
fn answered_as_sentences(at: &str) -> Value {
    let is_old = |topic: &&Topic| topic.whole() == **topic && !topic.is_about_partner();
    let answer = |topic: &Topic| match topic {
        Topic::Bones => "not true, clinician agreed",
        Topic::Blackouts | Topic::Neck | Topic::House => "not true",
        _ => "true",
    };
    let answers = Topic::ALL.iter().filter(is_old);
    let answers = answers.map(|topic| json!({ "topic": topic.name(), "answer": answer(topic) }));
    json!({ "at": at, "partner": false, "answers": answers.collect::<Vec<_>>() })
}

/// Suitability as it is asked now, with every kind of answer; one question is left out.
fn answered(at: &str) -> Value {
    let asked = Topic::questions(true).filter(|topic| *topic != Topic::Worried);
    let answer = |topic: Topic| match topic {
        Topic::PainPills => json!({ "topic": topic.name(), "answer": "not sure", "clinician_agreed": "yes" }),
        Topic::Sight => json!({ "topic": topic.name(), "answer": "yes", "clinician_agreed": "not sure" }),
        Topic::Surgery => json!({ "topic": topic.name(), "answer": "yes",
            "new_or_worse": { "since": "2025-11-03", "answer": "no" } }),
        Topic::ChestPain | Topic::Sugar | Topic::FallYear => {
            json!({ "topic": topic.name(), "answer": "yes" })
        }
        Topic::NeckDizzy => json!({ "topic": topic.name(), "answer": "not sure" }),
        topic if topic.is_good_if_yes() => json!({ "topic": topic.name(), "answer": "yes" }),
        topic => json!({ "topic": topic.name(), "answer": "no" }),
    };
    json!({ "at": at, "partner": true, "answers": asked.map(answer).collect::<Vec<_>>() })
}
