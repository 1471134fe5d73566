//! Invented histories of practice, as the export of a journal: for the tests of reports and overviews, and for timing them.
//! Nobody real. Each is made from its number alone.

use jiff::ToSpan;
use jiff::civil::Date;
use rand::rngs::ChaCha12Rng;
use rand::{RngExt, SeedableRng};
use serde_json::{Value, json};

/// The prescription that they practice under, and its file.
pub(crate) const GENTLE: &str = include_str!("../../presets/prescriptions/gentle.toml");

/// One invented history.
#[derive(Debug, Clone, Copy)]
pub(crate) struct History {
    /// Everything is drawn from it.
    pub number: u64,
    /// The day of the first practice.
    pub first: Date,
    /// How many practices.
    pub sessions: usize,
    /// Whether the third set is one of pushes, with responses.
    pub pushes: bool,
}

impl History {
    /// The whole export.
    pub(crate) fn export(&self) -> Value {
        let mut rng = ChaCha12Rng::seed_from_u64(self.number);
        let mut day = self.first;
        let mut sessions = Vec::new();
        let mut step = 1;
        for nth in 0..self.sessions {
            if nth % 8 == 7 && step < 3 {
                step += 1;
            }
            sessions.push(self.session(&mut rng, nth, day, step));
            let rest: i64 = if rng.random_range(0..12) == 0 { 7 } else { [2, 2, 3][nth % 3] };
            day = day.saturating_add(rest.days());
        }
        json!({ "schema": "counterpoise.journal/1", "sessions": sessions, "changes": [] })
    }

    #[expect(clippy::too_many_lines, reason = "one invented session, as an export has it")]
    fn session(&self, rng: &mut ChaCha12Rng, nth: usize, day: Date, step: u8) -> Value {
        // New York, so that clocks change on the way.
        let begun = day.at(10, 0, 0, 0).in_tz("America/New_York").unwrap();
        let moment = |minute: i64| begun.checked_add(minute.minutes()).unwrap().to_string();
        let id = format!("{:032x}", (u128::from(self.number) << 64) + nth as u128 + 1);
        let broken_off = rng.random_range(0..15) == 0;
        let count = if broken_off { 2 } else { 3 };
        let mut sets = Vec::new();
        let mut answers = Vec::new();
        let (mut hardest, mut worst, mut held_most, mut shown, mut asked, mut active) =
            (0, 0, 0, 0, 0, 0_u64);
        let (mut noted, mut not_noted) = (0, 0);
        for number in 1..=count {
            let cut = broken_off && number == count;
            let push = self.pushes && number == 3;
            let worked: u32 = if cut { rng.random_range(5_000..55_000) } else { 60_000 };
            let mut cues = Vec::new();
            let mut delivered = Vec::new();
            let mut responses = Vec::new();
            let mut at = 0_u32;
            for cue in 0_u32..6 {
                let gap = if push { 10_000 } else { rng.random_range(6_000..12_000) };
                at += gap;
                if at > 55_000 {
                    break;
                }
                let direction = ["left", "right", "forward"][rng.random_range(0..3)];
                let action = if push { "push" } else { "reach" };
                let hand = if push { "+hand.shoulder-blade" } else { "" };
                let phrase = if push { Value::Null } else { json!(format!("reach.{direction}")) };
                let phrase = if push { json!(format!("push.{direction}{hand}")) } else { phrase };
                let strength = if push { json!(1) } else { Value::Null };
                cues.push(json!({ "cue": cue, "at_ms": at, "gap_ms": gap, "blank": false, "action": action,
                    "direction": direction, "phrase": phrase, "strength": strength }));
                if at > worked {
                    continue;
                }
                let frame = Value::Null;
                let (heard, told) = if push { (Value::Null, json!(at)) } else { (json!(at), Value::Null) };
                delivered.push(json!({ "cue": cue, "wanted_frame": frame, "began_frame": frame,
                    "frames_per_second": frame, "heard_ms": null, "shown_ms": heard, "asked_ms": told }));
                if push {
                    asked += 1;
                    let response = match rng.random_range(0..20) {
                        0 => Value::Null,
                        1 => json!("touched support"),
                        2 | 3 => json!("two or more steps"),
                        4..=10 => json!("one step"),
                        _ => json!("feet in place"),
                    };
                    if response.is_null() {
                        not_noted += 1;
                    } else {
                        noted += 1;
                    }
                    responses.push(json!({ "cue": cue, "response": response }));
                } else {
                    shown += 1;
                }
            }
            let (drill, form, support) = match (number, push) {
                (1, _) => ("counter-shift", "alone", "two hands"),
                (_, true) => ("pushes", "partner", "hands hovering"),
                _ => ("counter-reach", "alone", "one hand"),
            };
            let drill_step = if number == 1 || push { 1 } else { step };
            let why = if cut { "program closed" } else { "completed" };
            active += u64::from(worked);
            sets.push(json!({
                "start": {
                    "number": number, "begun": moment(i64::from(number) * 3), "drill": drill, "form": form,
                    "step": drill_step, "stance": "feet apart", "side": null, "surface": "firm", "support": support,
                    "vision": "open", "work_ms": 60_000, "recover_ms": 5_000, "rest_ms": 60_000
                },
                "end": { "at": moment(i64::from(number) * 3 + 1), "worked_ms": worked, "why": why },
                "plans": [{ "plan": 0, "paused_at_ms": null, "cues": cues }],
                "delivered": delivered, "responses": responses,
            }));
            if cut {
                continue;
            }
            let (held, effort, steady) = (
                u8::from(rng.random_range(0..6) == 0),
                [2, 4, 4, 6][rng.random_range(0..4)],
                rng.random_range(1..=3),
            );
            (hardest, worst, held_most) = (hardest.max(effort), worst.max(steady), held_most.max(held));
            let said = [
                ("grabbed hold or nearly fell", 0),
                ("held on", held),
                ("effort", effort),
                ("steadiness", steady),
                ("unwell", 0),
            ];
            for (place, (question, answer)) in said.into_iter().enumerate() {
                answers.push(json!({ "place": usize::from(number) * 10 + place, "set": number, "question": question, "answer": answer }));
            }
        }
        let whole = count - u8::from(broken_off);
        json!({
            "id": id, "form": if self.pushes && count == 3 { "partner" } else { "alone" },
            "start": {
                "begun": moment(0), "title": "Gentle start at the counter",
                "digest": counterpoise_core::plan::prescription::Digest::of(GENTLE.as_bytes()).to_string(),
                "seed": "07".repeat(32), "seed_given": false, "method": 1, "voice": "lower", "device": null,
                "sets_planned": 3
            },
            "end": {
                "at": moment(20), "why": if broken_off { "program closed" } else { "finished" },
                "sets_completed": whole, "sets_planned": 3, "cues_heard": 0, "cues_shown": shown, "cues_asked": asked,
                "active_ms": active, "grabbed": 0, "held_on": held_most, "effort": hardest, "steadiness": worst,
                "unwell": 0, "not_said": 0, "grabs": 0, "falls": 0, "pushes_noted": noted, "pushes_not_noted": not_noted
            },
            "decided": {
                "decision": if nth % 8 == 7 { "up" } else { "hold" }, "reasons": ["As it was decided."], "gentler": false,
                "first_set": 1, "sets_whole": 3, "seen_before_ms": null,
                "given": [{ "drill": "counter-shift", "form": "alone", "step": 1 },
                    { "drill": "counter-reach", "form": "alone", "step": step }]
            },
            "answers": answers, "sets": sets
        })
    }
}
