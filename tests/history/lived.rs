//! What an invented history has besides, once somebody has practiced with all that is asked: the questions of readiness, the
//! questions of the week, suitability, balance tests and corrections. Nobody real.

use counterpoise_core::health::readiness::{Asked, Check, Item, Today};
use counterpoise_core::health::suitability::Topic;
use counterpoise_core::health::yes_no::YesNoNotSure;
use jiff::civil::DateTime;
use rand::rngs::ChaCha12Rng;
use rand::{RngExt, SeedableRng};
use serde_json::{Value, json};

/// Adds it to the export of history `number`. Everything is drawn from the number.
pub(crate) fn lived(export: &mut Value, number: u64) {
    let mut rng = ChaCha12Rng::seed_from_u64(number ^ 0x11fe);
    let mut corrections = Vec::new();
    let mut tests = Vec::new();
    let mut week = None;
    for (nth, session) in export["sessions"].as_array_mut().unwrap().iter_mut().enumerate() {
        let begun = session["start"]["begun"].as_str().unwrap().to_owned();
        let local: DateTime = begun.parse().unwrap();
        session["ready"] = ready(&mut rng, session["form"] == "partner");
        let this = (local.date().iso_week_date().year(), local.date().iso_week_date().week());
        if week.replace(this).is_some_and(|last| last != this) {
            let asked = [("nearly fell in daily life", 0..3), ("confidence", 1..6), ("soreness", 0..4)];
            let answers = session["answers"].as_array_mut().unwrap();
            for (place, (question, range)) in (1..).zip(asked) {
                let answer = rng.random_range(range);
                answers.push(json!({ "place": place, "set": null, "question": question, "answer": answer }));
            }
        }
        if rng.random_range(0..25) == 0 {
            corrections.push(json!({ "at": session["end"]["at"], "session": session["id"], "what": "answer",
                "set": 1, "question": "effort", "cue": null, "right": "4", "reason": "The wrong key." }));
        }
        if nth % 12 == 0 {
            tests.push(
                json!({ "at": begun, "test": "chair-stand", "value": 9 + nth / 40, "age": 74, "sex": null,
                "company": "alone", "by_whom": "" }),
            );
        }
    }
    // Who has never practiced was asked nothing yet.
    let Some(first) = export["sessions"].get(0).map(|session| session["start"].clone()) else { return };
    let of_then = Topic::ALL.iter().filter(|topic| topic.whole() == **topic);
    let answers: Vec<Value> =
        of_then.map(|topic| json!({ "topic": topic.name(), "answer": "true" })).collect();
    export["suitability"] = json!([{ "at": first["begun"], "partner": true, "answers": answers }]);
    export["changes"] =
        json!([{ "at": first["begun"], "what": "prescription in use: gentle", "digest": first["digest"] }]);
    export["tests"] = json!(tests);
    export["corrections"] = json!(corrections);
}

/// The answers of one day. On most days all are good.
fn ready(rng: &mut ChaCha12Rng, partner: bool) -> Value {
    let today = Today { partner, harder: true, unwell_last_time: false };
    let bad = [Item::Sore, Item::Night, Item::Medicine, Item::House];
    let bad = (rng.random_range(0..12) == 0).then(|| bad[rng.random_range(0..bad.len())]);
    let mut check = Check::new(today);
    while let Some(asked) = check.asked() {
        check.reply(match asked {
            Asked::One(item) => item.answer_if(bad != Some(item)),
            Asked::Page(page) if bad.is_some_and(|bad| page.items(today).contains(&bad)) => {
                YesNoNotSure::NotSure
            }
            Asked::Page(page) => page.good(),
        });
    }
    check
        .answers()
        .iter()
        .map(|(item, answer)| json!({ "item": item.name(), "answer": answer.name() }))
        .collect()
}
