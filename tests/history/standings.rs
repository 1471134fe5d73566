//! Invented histories of every reason why practice is possible now or not, as exports of a journal. Nobody real. Each is made
//! relative to a moment, so that it can be looked at on any day.

use jiff::{ToSpan, ZonedDateTime};
use serde_json::{Value, json};

use crate::history::GENTLE;

/// What happened to one person up to a moment.
pub(crate) struct History {
    /// In a few words.
    pub what: &'static str,
    /// The export of the journal.
    pub export: Value,
}

/// Everything that is known of one person, as it is put together.
struct Person<'a> {
    now: &'a ZonedDateTime,
    export: Value,
}

const DAY: i64 = 24 * 60;
const HOUR: i64 = 60;

impl Person<'_> {
    fn moment(&self, minutes: i64) -> String {
        self.now.checked_sub(minutes.minutes()).unwrap().to_string()
    }

    /// A clean practice that began so many minutes ago, at this step of the reaches; changed by `change`.
    fn practiced(mut self, minutes_ago: i64, step: u8, change: impl FnOnce(&mut Value)) -> Self {
        let nth = self.export["sessions"].as_array().unwrap().len();
        let mut session = json!({
            "id": format!("{:032x}", nth + 1),
            "form": "alone",
            "start": {
                "begun": self.moment(minutes_ago), "title": "Gentle start at the counter",
                "digest": counterpoise_core::plan::prescription::Digest::of(GENTLE.as_bytes()).to_string(),
                "seed": "07".repeat(32), "seed_given": false, "method": 1, "voice": "lower", "device": null,
                "sets_planned": 3
            },
            "end": { "at": self.moment(minutes_ago - 15), "why": "finished", "sets_completed": 3, "sets_planned": 3,
                "cues_heard": 0, "cues_shown": 0, "cues_asked": 0, "active_ms": 180_000, "grabbed": 0, "held_on": 0,
                "effort": 4, "steadiness": 2, "unwell": 0, "not_said": 0, "grabs": 0, "falls": 0, "pushes_noted": 0,
                "pushes_not_noted": 0 },
            "decided": { "decision": "hold", "reasons": [], "gentler": false, "first_set": 1, "sets_whole": 3,
                "seen_before_ms": null, "given": [{ "drill": "counter-shift", "form": "alone", "step": 1 },
                    { "drill": "counter-reach", "form": "alone", "step": step }] },
            "answers": [], "sets": []
        });
        for number in 1..=3_u8 {
            let (drill, step, support) = if number == 1 {
                ("counter-shift", 1, "two hands")
            } else {
                ("counter-reach", step, "one hand")
            };
            let minutes = minutes_ago - 4 * i64::from(number);
            session["sets"].as_array_mut().unwrap().push(json!({
                "start": { "number": number, "begun": self.moment(minutes), "drill": drill, "form": "alone",
                    "step": step, "stance": "feet apart", "side": null, "surface": "firm", "support": support,
                    "vision": "open", "work_ms": 60_000, "recover_ms": 5_000, "rest_ms": 60_000 },
                "end": { "at": self.moment(minutes - 1), "worked_ms": 60_000, "why": "completed" },
                "plans": [{ "plan": 0, "paused_at_ms": null, "cues": [] }], "delivered": [], "responses": []
            }));
            for (question, answer) in [
                ("grabbed hold or nearly fell", 0),
                ("held on", 0),
                ("effort", 4),
                ("steadiness", 2),
                ("unwell", 0),
            ] {
                say(&mut session, i64::from(number), question, answer);
            }
        }
        change(&mut session);
        self.export["sessions"].as_array_mut().unwrap().push(session);
        self
    }

    /// Practices every other day, the last of them so many minutes ago.
    fn practiced_often(self, times: i64, last: i64, step: u8) -> Self {
        (0..times).rev().fold(self, |person, nth| person.practiced(last + 2 * DAY * nth, step, |_| ()))
    }

    /// The pages before practice were answered so, and no set was begun.
    fn said(self, minutes_ago: i64, items: &[(&str, bool)]) -> Self {
        self.practiced(minutes_ago, 1, |session| {
            (session["sets"], session["answers"]) = (json!([]), json!([]));
            (session["form"], session["end"]["why"]) = (Value::Null, json!("not today"));
            ready(session, items);
        })
    }

    /// Whatever a session locked is cleared, by these words.
    fn cleared(mut self, minutes_ago: i64, session: usize, what: &str) -> Self {
        let at = self.moment(minutes_ago);
        let id = self.export["sessions"][session]["id"].clone();
        let row = json!({ "at": at, "who": "K. L.", "reason": "seen", "lifted": [{ "locked_by": id, "what": what }] });
        self.export["clearances"].as_array_mut().unwrap().push(row);
        self
    }

    /// The questions about suitability, all of them good but these.
    fn suitable(mut self, minutes_ago: i64, not: &[(&str, &str)]) -> Self {
        use counterpoise_core::health::suitability::Topic;
        // An export of the first form has the sentences of then.
        let of_then = |topic: &&Topic| topic.whole() == **topic && !topic.is_about_partner();
        let answers: Vec<Value> = Topic::ALL
            .iter()
            .filter(of_then)
            .map(|topic| {
                let answer =
                    not.iter().find(|(name, _)| *name == topic.name()).map_or("true", |(_, answer)| answer);
                json!({ "topic": topic.name(), "answer": answer })
            })
            .collect();
        let at = self.moment(minutes_ago);
        let row = json!({ "at": at, "partner": false, "answers": answers });
        self.export["suitability"].as_array_mut().unwrap().push(row);
        self
    }

    /// A balance test with this value.
    fn tested(mut self, minutes_ago: i64, test: &str, value: u32) -> Self {
        let at = self.moment(minutes_ago);
        let row = json!({ "at": at, "test": test, "value": value, "age": 78, "sex": "female",
            "company": "with somebody", "by_whom": "" });
        self.export["tests"].as_array_mut().unwrap().push(row);
        self
    }
}

fn say(session: &mut Value, set: i64, question: &str, answer: i64) {
    let answers = session["answers"].as_array_mut().unwrap();
    answers.retain(|row| row["set"] != set || row["question"] != question);
    let place = answers.len();
    answers.push(json!({ "place": place, "set": set, "question": question, "answer": answer }));
}

fn ready(session: &mut Value, items: &[(&str, bool)]) {
    session["ready"] =
        items.iter().map(|(item, is_true)| json!({ "item": item, "is_true": is_true })).collect();
}

/// It ended in this set, for this reason, and nothing is asked after it.
fn ended(session: &mut Value, set: usize, why: &str, session_why: &str) {
    session["sets"].as_array_mut().unwrap().truncate(set);
    session["sets"][set - 1]["end"]["why"] = json!(why);
    session["end"]["why"] = json!(session_why);
    session["answers"].as_array_mut().unwrap().retain(|row| row["set"].as_u64() < Some(set as u64));
}

/// It was stopped after its second set for something that counts against nobody.
fn stopped_for_the_door(session: &mut Value) {
    session["sets"].as_array_mut().unwrap().truncate(2);
    session["answers"].as_array_mut().unwrap().retain(|row| row["set"] != 3);
    session["end"]["why"] = json!("stopped for another reason");
    say(session, 2, "why stopped", 3);
}

fn fell(session: &mut Value, hurt: Option<i64>) {
    ended(session, 2, "fell", "fell");
    if let Some(hurt) = hurt {
        say(session, 2, "hurt or a knock to the head", hurt);
    }
}

fn unwell(session: &mut Value, symptom: i64) {
    session["end"]["why"] = json!("felt unwell");
    say(session, 3, "unwell", 1);
    say(session, 3, "what felt wrong", symptom);
}

fn grabbed(session: &mut Value) {
    say(session, 3, "grabbed hold or nearly fell", 1);
    session["end"]["why"] = json!("grabbed hold or nearly fell");
}

/// Some practices long ago and a lock since, by a page before practice.
fn locked_by<'a>(person: Person<'a>, items: &[(&str, bool)]) -> Person<'a> {
    person.practiced(9 * DAY, 2, |_| ()).said(5 * DAY, items)
}

/// The histories up to `now`.
#[expect(clippy::too_many_lines, reason = "a list of everything that can be the reason")]
pub(crate) fn all(now: &ZonedDateTime) -> Vec<History> {
    let new = || Person {
        now,
        export: json!({ "schema": "counterpoise.journal/1", "sessions": [], "changes": [], "suitability": [],
            "clearances": [], "tests": [] }),
    };
    const NO_FALL: (&str, bool) = ("not fallen", false);
    let list: Vec<(&'static str, Person<'_>)> = vec![
        ("Nothing yet.", new()),
        ("Questions about health answered, all well; no practice yet.", new().suitable(HOUR, &[])),
        ("One practice, two days ago.", new().practiced(2 * DAY, 2, |_| ())),
        ("Two clean practices in a row, the last two days ago.", new().practiced_often(2, 2 * DAY, 2)),
        ("One practice, yesterday.", new().practiced(DAY, 2, |_| ())),
        ("Practiced an hour ago.", new().practiced_often(2, HOUR, 2)),
        ("Three practices in the last five days.", new().practiced_often(3, DAY, 2)),
        (
            "Stopped for the door half an hour ago, one set left.",
            new().practiced(30, 2, stopped_for_the_door),
        ),
        (
            "Broken off half an hour ago, one set left.",
            new().practiced(30, 2, |s| ended(s, 2, "program closed", "program closed")),
        ),
        (
            "Broken off three hours ago.",
            new().practiced(3 * HOUR, 2, |s| ended(s, 2, "program closed", "program closed")),
        ),
        ("No practice for 20 days.", new().practiced_often(2, 20 * DAY, 2)),
        ("Twelve practices; a review is due.", new().practiced_often(12, 2 * DAY, 2)),
        (
            "The program's weeks have passed.",
            new().practiced(90 * DAY, 2, |_| ()).practiced_often(2, 2 * DAY, 2),
        ),
        ("Every drill at its ceiling, two clean practices.", new().practiced_often(2, 2 * DAY, 3)),
        (
            "One balance test below its cut-off.",
            new().practiced(2 * DAY, 2, |_| ()).tested(3 * DAY, "chair-stand", 6),
        ),
        (
            "Two balance tests below their cut-offs.",
            new().practiced(2 * DAY, 2, |_| ()).tested(3 * DAY, "chair-stand", 6).tested(
                3 * DAY,
                "five-rises",
                180,
            ),
        ),
        ("Very hard in the last practice.", new().practiced(2 * DAY, 2, |s| say(s, 3, "effort", 10))),
        (
            "Chest pain reported before practice, five days ago.",
            locked_by(new(), &[("no chest pain", false)]),
        ),
        (
            "Chest pain reported an hour ago.",
            new().practiced(2 * DAY, 2, |_| ()).said(HOUR, &[("no chest pain", false)]),
        ),
        ("Badly short of breath, five days ago.", locked_by(new(), &[("breathing as usual", false)])),
        (
            "New weakness or numbness, five days ago.",
            locked_by(new(), &[("no new weakness or numbness", false)]),
        ),
        ("Fainted, five days ago.", locked_by(new(), &[("not fainted", false)])),
        ("A knock to the head, five days ago.", locked_by(new(), &[("no knock to the head", false)])),
        (
            "A fall at home that hurt, five days ago.",
            locked_by(new(), &[NO_FALL, ("the fall did no harm", false)]),
        ),
        (
            "Dizzy for more than five minutes, five days ago.",
            locked_by(new(), &[("not dizzy", false), ("dizziness passed in five minutes", false)]),
        ),
        (
            "Unwell in the last practice, and it did not pass.",
            new().practiced(9 * DAY, 2, |s| unwell(s, 6)).said(5 * DAY, &[("feeling unwell passed", false)]),
        ),
        ("A fall in practice that hurt, five days ago.", new().practiced(5 * DAY, 2, |s| fell(s, Some(1)))),
        ("A fall in practice; whether it hurt was not said.", new().practiced(5 * DAY, 2, |s| fell(s, None))),
        ("Chest pain in practice, five days ago.", new().practiced(5 * DAY, 2, |s| unwell(s, 1))),
        ("Nearly fainted in practice, five days ago.", new().practiced(5 * DAY, 2, |s| unwell(s, 4))),
        (
            "A fall that hurt, and then chest pain.",
            new().practiced(9 * DAY, 2, |s| fell(s, Some(1))).said(5 * DAY, &[("no chest pain", false)]),
        ),
        (
            "A knock to the head five days ago, and a grab yesterday.",
            locked_by(new(), &[("no knock to the head", false)]).practiced(DAY, 2, grabbed),
        ),
        (
            "Fainted and knocked the head; the fainting is cleared.",
            locked_by(new(), &[("not fainted", false), ("no knock to the head", false)])
                .cleared(DAY, 1, "fainting"),
        ),
        (
            "Fainted; cleared yesterday.",
            locked_by(new(), &[("not fainted", false)]).cleared(DAY, 1, "fainting"),
        ),
        ("A fall in practice without injury, yesterday.", new().practiced(DAY, 2, |s| fell(s, Some(0)))),
        (
            "A fall in practice without injury, three days ago.",
            new().practiced(3 * DAY, 2, |s| fell(s, Some(0))),
        ),
        (
            "A fall at home without injury, three days before the last practice.",
            new().practiced(2 * DAY, 2, |s| {
                ready(
                    s,
                    &[NO_FALL, ("the fall did no harm", true), ("the fall was over two days ago", true)],
                );
            }),
        ),
        ("Grabbed hold in practice, yesterday.", new().practiced(DAY, 2, grabbed)),
        (
            "Grabbed hold in two practices of the last four weeks.",
            new().practiced(12 * DAY, 2, grabbed).practiced(5 * DAY, 1, grabbed),
        ),
        (
            "Two very hard practices at the gentlest step.",
            new()
                .practiced(5 * DAY, 1, |s| say(s, 3, "effort", 10))
                .practiced(2 * DAY, 1, |s| say(s, 3, "effort", 10)),
        ),
        (
            "Dizzy yesterday for less than five minutes.",
            new()
                .practiced(3 * DAY, 2, |_| ())
                .said(DAY, &[("not dizzy", false), ("dizziness passed in five minutes", true)]),
        ),
        ("Felt unwell in practice, yesterday.", new().practiced(DAY, 2, |s| unwell(s, 6))),
        (
            "A fall without injury the day before yesterday, and a grab yesterday.",
            new().practiced(DAY + 20 * HOUR, 2, |s| fell(s, Some(0))).practiced(DAY, 2, grabbed),
        ),
        ("Ill today.", new().practiced(2 * DAY, 2, |_| ()).said(HOUR, &[("not ill", false)])),
        ("Ill yesterday.", new().practiced(3 * DAY, 2, |_| ()).said(DAY, &[("not ill", false)])),
        (
            "The last practice is dated five days ahead.",
            new().practiced(2 * DAY, 2, |_| ()).practiced(-5 * DAY, 2, |_| ()),
        ),
        (
            "Chest pain five days ago, and a practice dated ahead.",
            locked_by(new(), &[("no chest pain", false)]).practiced(-5 * DAY, 2, |_| ()),
        ),
        ("Weak bones, and no clinician asked.", new().suitable(DAY, &[("weak bones", "not true")])),
        (
            "Heart trouble; the clinician agreed.",
            new().suitable(DAY, &[("heart or blood pressure", "not true, clinician agreed")]),
        ),
        (
            "Weak bones, and fainted five days ago.",
            locked_by(new(), &[("not fainted", false)]).suitable(DAY, &[("weak bones", "not true")]),
        ),
    ];
    list.into_iter().map(|(what, person)| History { what, export: person.export }).collect()
}
