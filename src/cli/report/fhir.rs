//! What is a report as a FHIR R4 Bundle, for a record system? One Procedure per practice, Observations for times and tests,
//! and a `QuestionnaireResponse` for the answers. Only certain public codes are used (HL7's categories, UCUM's units);
//! everything else is plain text. The patient has no name.

use serde_json::{Value, json};

use counterpoise_core::course::past::PastSession;
use counterpoise_core::health::assessment::{Dated, Unit, score};
use counterpoise_core::plan::caution::{self, Contents, Surface};
use counterpoise_core::plan::prescription::{Digest, Prescription};
use counterpoise_core::record::{Id, Numbered, Question, SessionEnd};
use counterpoise_core::report::{
    CountsAs, Incident, Kind, Material, NotGood, Period, ProgramChange, SessionDetails, Unanswered,
    before_practice, changes, of_session, suitability, unanswered_in,
};

/// HL7's categories of observations.
const CATEGORY: &str = "http://terminology.hl7.org/CodeSystem/observation-category";
const UCUM: &str = "http://unitsofmeasure.org";

/// The bundle of a period.
pub(super) fn bundle(journal: Id, material: &Material, in_use: &Prescription, period: Period) -> Value {
    let patient = patient(journal);
    let mut entries = vec![json!({ "fullUrl": patient, "resource": { "resourceType": "Patient" } })];
    let inside = |day| (period.since..=period.until).contains(&day);
    let mut add = |url: String, mut resource: Value| {
        resource["subject"] = json!({ "reference": patient });
        entries.push(json!({ "fullUrl": url, "resource": resource }));
    };
    let sessions = || material.past.sessions.iter().zip(&material.details);
    let until = || {
        let dated = |(session, _): &(&PastSession, _)| !material.past.is_set_aside(session);
        sessions().filter(|(session, _)| session.day <= period.until).filter(dated)
    };
    for (session, more) in until() {
        for (nth, incident) in of_session(material, session, more).iter().enumerate() {
            if inside(incident.day) || incident.is_open() {
                add(uuid(&["incident", &session.id, &nth.to_string()]), observed(incident));
            }
        }
    }
    for (session, more) in until() {
        for set in unanswered_in(session, more).iter().filter(|set| inside(set.day)) {
            add(uuid(&["unanswered", &session.id, &set.place]), not_known(set));
        }
    }
    for change in changes(material, in_use, period) {
        let day = change.day_words();
        add(uuid(&["program", &patient, &day, &change.digest]), program(&change));
    }
    for answer in suitability(material, in_use, period) {
        add(uuid(&["suitability", &patient, &answer.at.to_string(), &answer.about]), not_good(&answer));
    }
    for (session, more) in until() {
        let answers = before_practice(material, session, more);
        for (nth, answer) in answers.iter().enumerate().filter(|(_, one)| inside(one.day) || one.is_open()) {
            add(uuid(&["before", &session.id, &nth.to_string()]), not_good(answer));
        }
    }
    let belongs = |session: &PastSession| CountsAs::of(&material.past, session).belongs_to_person();
    for (session, more) in sessions().filter(|(session, _)| inside(session.day) && belongs(session)) {
        let parts = [
            ("practice", Some(procedure(session, more))),
            ("time", Some(active_time(session, more))),
            ("answers", answers(session)),
        ];
        for (what, resource) in parts {
            if let Some(resource) = resource {
                add(uuid(&[what, &session.id]), resource);
            }
        }
    }
    for (nth, dated) in material.tests.iter().enumerate().filter(|(_, dated)| inside(dated.day)) {
        let (day, nth) = (dated.day.to_string(), nth.to_string());
        add(uuid(&[&patient, dated.reading.test().title(), &day, &nth]), test(dated));
    }
    let all: Vec<Value> =
        entries.iter().map(|entry| json!({ "item": { "reference": entry["fullUrl"] } })).collect();
    let mut list = list(&all, Contents::Of(in_use));
    list["subject"] = json!({ "reference": patient });
    entries.push(json!({ "fullUrl": uuid(&["list", &patient]), "resource": list }));
    json!({ "resourceType": "Bundle", "type": "collection", "entry": entries })
}

/// The patient's UUID: the same in every report of a journal, and another for another person. It is the journal's id that
/// tells them apart: what is typed in or imported later changes nothing.
fn patient(journal: Id) -> String {
    uuid(&["person", &journal.to_string()])
}

/// A UUID of RFC 9562's version 8, from the SHA-256 of what it stands for: the same things have the same one.
fn uuid(of: &[&str]) -> String {
    let digest = Digest::of(of.join("/").as_bytes()).to_string();
    let digits = digest.trim_start_matches("sha256:");
    format!(
        "urn:uuid:{}-{}-8{}-8{}-{}",
        &digits[..8],
        &digits[8..12],
        &digits[12..15],
        &digits[15..18],
        &digits[18..30]
    )
}

/// What belongs together, with the cautions that apply to it.
fn list(entries: &[Value], about: Contents<'_>) -> Value {
    let notes = caution::lines(Surface::Report, about).into_iter().map(|text| json!({ "text": text }));
    json!({
        "resourceType": "List",
        "status": "current",
        "mode": "snapshot",
        "title": "Report of balance practice",
        "note": notes.collect::<Vec<_>>(),
        "entry": entries,
    })
}

fn procedure(session: &PastSession, more: &SessionDetails) -> Value {
    let whole = session.end == Some(SessionEnd::Finished);
    let outcome = session.end.map_or("not ended", SessionEnd::name);
    let mut notes = vec![json!({ "text": format!("Prescription: {} ({})", more.title, session.digest) })];
    if session.by_hand {
        notes.push(json!({ "text": "Typed in by hand: practice with a track." }));
    }
    if session.tried_out {
        notes.push(json!({ "text": "Supervised try-out; does not count as practice." }));
    }
    let precautions: Vec<&str> = more.precautions.iter().map(|one| one.name()).collect();
    if !precautions.is_empty() {
        notes.push(json!({ "text": format!("Precautions: {}", precautions.join("; ")) }));
    }
    json!({
        "resourceType": "Procedure",
        "status": if whole { "completed" } else { "stopped" },
        "code": { "text": "Balance practice with unpredictable cues" },
        "performedPeriod": { "start": session.begun.to_string(), "end": session.ended.to_string() },
        "outcome": { "text": outcome },
        "note": notes,
    })
}

fn observation(category: &str, what: &str, at: &str, value: &Value) -> Value {
    let mut resource = json!({
        "resourceType": "Observation",
        "status": "final",
        "category": [{ "coding": [{ "system": CATEGORY, "code": category }] }],
        "code": { "text": what },
        "effectiveDateTime": at,
    });
    if let (Value::Object(fields), Value::Object(more)) = (&mut resource, value) {
        fields.extend(more.clone());
    }
    resource
}

/// A fall, a grab, a near fall or a symptom, with what followed.
fn observed(incident: &Incident) -> Value {
    let code = match incident.kind {
        Kind::Fall => "Fall",
        Kind::Grab => "Grab or near fall",
        _ => "Symptom",
    };
    let value = json!({ "valueString": format!("{} ({})", incident.what, incident.place) });
    let mut resource = observation("survey", code, &incident.day.to_string(), &value);
    let notes: Vec<Value> =
        incident.followed.iter().map(|followed| json!({ "text": followed.words() })).collect();
    if !notes.is_empty() {
        resource["note"] = json!(notes);
    }
    resource
}

/// A set of which it is not known whether something went wrong.
fn not_known(set: &Unanswered) -> Value {
    let why = format!("{}: grab or near fall {}, felt unwell {}", set.place, set.grab, set.unwell);
    let value = json!({ "dataAbsentReason": { "text": why } });
    observation("survey", "Grab, near fall or symptom in a set", &set.day.to_string(), &value)
}

/// A program that came into use.
fn program(change: &ProgramChange) -> Value {
    let value = json!({ "valueString": change.words() });
    let mut resource =
        observation("therapy", "Change of the program of balance practice", &change.day_words(), &value);
    if let (None, Value::Object(fields)) = (change.day, &mut resource) {
        fields.remove("effectiveDateTime");
    }
    resource
}

/// An answer that was not good, with what it led to.
fn not_good(answer: &NotGood) -> Value {
    let code = format!("Answer that was not good, {}", answer.asked);
    let value = json!({ "valueString": answer.said() });
    let mut resource = observation("survey", &code, &answer.day.to_string(), &value);
    resource["note"] = json!([{ "text": format!("What it led to: {}", answer.consequences()) }]);
    resource
}

fn active_time(session: &PastSession, more: &SessionDetails) -> Value {
    let active: u64 = more.sets.iter().map(|set| u64::from(set.worked_ms)).sum();
    let quantity =
        json!({ "valueQuantity": { "value": active / 1000, "unit": "s", "system": UCUM, "code": "s" } });
    observation("activity", "Time of balance practice, without rests", &session.begun.to_string(), &quantity)
}

fn answers(session: &PastSession) -> Option<Value> {
    let mut items = Vec::new();
    for set in &session.sets {
        for answer in set.answers() {
            let (question, Some(number)) = (answer.question(), answer.number()) else { continue };
            items.push(json!({
                "linkId": format!("set-{}.{}", set.number, question.name().replace(' ', "-")),
                "text": format!("After set {} ({}, step {}): {}", set.number, set.drill, set.step, question.name()),
                "answer": [{ "valueInteger": number }],
            }));
        }
    }
    if let Some(symptom) = session.symptom {
        items.push(json!({
            "linkId": "what-felt-wrong",
            "text": Question::Symptom.name(),
            "answer": [{ "valueString": symptom.words() }],
        }));
    }
    (!items.is_empty()).then(|| {
        json!({
            "resourceType": "QuestionnaireResponse",
            "status": "completed",
                "authored": session.ended.to_string(),
            "item": items,
        })
    })
}

fn test(dated: &Dated) -> Value {
    let test = dated.reading.test();
    let value = match (dated.reading.value(), test.unit()) {
        (None, _) => json!({ "dataAbsentReason": { "text": "unable" } }),
        (Some(value), Unit::Tenths) => {
            json!({ "valueQuantity": { "value": f64::from(value) / 10.0, "unit": "s", "system": UCUM, "code": "s" } })
        }
        (Some(value), Unit::Rises) => json!({ "valueInteger": value }),
    };
    let mut resource = observation("exam", test.title(), &dated.day.to_string(), &value);
    let finding = score(dated.reading, dated.age, dated.sex);
    resource["interpretation"] = json!([{ "text": finding.sentence(test) }]);
    resource
}

#[cfg(test)]
mod test_of_bundle {
    use super::{Id, bundle, caution, uuid};
    use counterpoise_core::course::past::Past;
    use counterpoise_core::course::past::sample::{at, clean, prescription};
    use counterpoise_core::health::assessment::{Company, Dated, Reading, Test};
    use counterpoise_core::plan::precaution::Precaution;
    use counterpoise_core::record::{SessionEnd, Symptom};
    use counterpoise_core::report::{Material, Period, SessionDetails, SetDetails};

    fn material() -> Material {
        let session = clean(&prescription(), &at(2), &[1, 2, 2]);
        let sets =
            session.sets.iter().map(|_| SetDetails { worked_ms: 60_000, ..SetDetails::default() }).collect();
        let mut stopped = clean(&prescription(), &at(4), &[1, 2, 2]);
        (stopped.end, stopped.symptom, stopped.by_hand) =
            (Some(SessionEnd::Unwell), Some(Symptom::Dizzy), true);
        let dated = |test, written| Dated {
            day: "2026-11-03".parse().unwrap(),
            reading: Reading::read(test, written).unwrap(),
            age: None,
            sex: None,
            company: Company::Elsewhere,
        };
        Material {
            past: Past { sessions: vec![session, stopped], ..Past::default() },
            details: vec![
                SessionDetails {
                    sets,
                    precautions: vec![Precaution::LeftArmDown],
                    ..SessionDetails::default()
                },
                SessionDetails::default(),
            ],
            tests: vec![
                dated(Test::OneLeg, "4.5"),
                dated(Test::ChairStand, "9"),
                dated(Test::FiveRises, "unable"),
            ],
            ..Material::default()
        }
    }

    #[test]
    fn every_resource_has_what_r4_requires_of_it() {
        let period = Period { since: "2026-11-01".parse().unwrap(), until: "2026-11-30".parse().unwrap() };
        let bundle = bundle(Id::of("a journal"), &material(), &prescription(), period);
        let entries = bundle["entry"].as_array().unwrap();
        let mut urls: Vec<&str> = entries.iter().map(|entry| entry["fullUrl"].as_str().unwrap()).collect();
        let count = urls.len();
        urls.sort_unstable();
        urls.dedup();
        assert_eq!(
            (urls.len(), count),
            (17, 17),
            "a patient, a symptom, five sets of which nobody asked, two times three resources, three tests, a list"
        );
        // FHIR R4: what has cardinality 1..1 in each resource.
        for entry in entries {
            let resource = &entry["resource"];
            let required: &[&str] = match resource["resourceType"].as_str().unwrap() {
                "Patient" => &[],
                "Procedure" => &["status", "subject"],
                "Observation" => &["status", "code"],
                "QuestionnaireResponse" => &["status"],
                "List" => &["status", "mode"],
                other => panic!("{other}"),
            };
            assert!(required.iter().all(|field| !resource[field].is_null()), "{resource:#}");
            assert!(!resource.to_string().contains("\"name\""), "no names");
        }
        let of = |kind: &str| -> Vec<&serde_json::Value> {
            entries.iter().map(|entry| &entry["resource"]).filter(|one| one["resourceType"] == kind).collect()
        };
        assert_eq!(
            (&of("Procedure")[0]["status"], &of("Procedure")[1]["status"]),
            (&"completed".into(), &"stopped".into())
        );
        assert_eq!(entries[1]["resource"]["code"]["text"], "Symptom", "what happened stands first");
        for entry in &entries[2..7] {
            assert_eq!(entry["resource"]["code"]["text"], "Grab, near fall or symptom in a set");
        }
        let measured = || {
            of("Observation").into_iter().filter(|one| one["category"][0]["coding"][0]["code"] != "survey")
        };
        let values: Vec<String> = measured().map(|one| one["valueQuantity"]["value"].to_string()).collect();
        assert_eq!(values[2..], ["4.5", "null", "null"]);
        assert_eq!(measured().nth(4).unwrap()["dataAbsentReason"]["text"], "unable");
        assert!(of("Procedure")[0]["note"].to_string().contains("Precautions: left arm stays down"));
        assert!(!of("Procedure")[1]["note"].to_string().contains("Precautions"));
        let list = of("List")[0];
        assert_eq!(list["entry"].as_array().unwrap().len(), count - 1, "everything else is in it");
        assert_eq!(list["note"][0]["text"], caution::FIRST);
        assert_eq!(list["note"][1]["text"], caution::NO_PROMISE);
        assert!(of("QuestionnaireResponse")[1]["item"].to_string().contains("dizzy"));
    }

    #[test]
    fn whatever_is_told_apart_has_a_uuid_of_its_own() {
        let one = uuid(&["practice", "0123456789abcdef0123456789abcdef"]);
        let parts: Vec<&str> = one.strip_prefix("urn:uuid:").unwrap().split('-').collect();
        assert_eq!(parts.iter().map(|part| part.len()).collect::<Vec<_>>(), [8, 4, 4, 4, 12]);
        // RFC 9562: version 8 in the third part, the variant in the fourth.
        assert!(parts[2].starts_with('8') && parts[3].starts_with('8'), "{one}");
        // Ids that differ in any one digit, and resources of one session.
        let mut all = vec![one, uuid(&["time", "0123456789abcdef0123456789abcdef"])];
        for at in 0..32 {
            let mut id = "0123456789abcdef0123456789abcdef".to_owned();
            id.replace_range(at..=at, if at % 16 == 9 { "0" } else { "9" });
            all.push(uuid(&["practice", &id]));
        }
        let count = all.len();
        all.sort_unstable();
        all.dedup();
        assert_eq!(all.len(), count);
    }

    #[test]
    fn two_people_are_two_patients_and_one_person_is_one() {
        let period =
            |since: &str| Period { since: since.parse().unwrap(), until: "2026-11-30".parse().unwrap() };
        let of = |journal: &str, material: &Material, since| {
            bundle(Id::of(journal), material, &prescription(), period(since))["entry"][0]["fullUrl"].clone()
        };
        let one = of("one", &material(), "2026-11-01");
        assert_eq!(one, of("one", &material(), "2026-11-04"), "whatever the period");
        assert_ne!(one, of("other", &material(), "2026-11-01"));
        // A practice of an earlier day is typed in.
        let mut earlier = material();
        let mut typed_in = earlier.past.sessions[0].clone();
        typed_in.begun -= jiff::SignedDuration::from_hours(999);
        typed_in.id = "ab".repeat(16);
        earlier.past.sessions.insert(0, typed_in);
        earlier.details.insert(0, SessionDetails::default());
        assert_eq!(one, of("one", &earlier, "2026-11-01"));
    }
}
