use serde_json::Value;

use super::*;
use crate::draw::schedule::{Scheduler, Seed};

const OPEN: &str = include_str!("../../../../../tests/golden/open.toml");

fn preview() -> (Schedule, Preview) {
    let prescription =
        Prescription::read("test.toml", OPEN.as_bytes()).expect("the file is within the limits");
    let schedule =
        Scheduler::new(&prescription).expect("its tables can be built").draw(Seed::from_bytes([9; 32]));
    let preview = Preview::of(&prescription, &schedule);
    (schedule, preview)
}

/// The keys of every object, in the order in which they are written.
fn keys(json: &str) -> Vec<&str> {
    json.split('"')
        .skip(1)
        .step_by(2)
        .zip(json.split('"').skip(2).step_by(2))
        .filter(|(_, after)| after.starts_with(':'))
        .map(|(key, _)| key)
        .collect()
}

#[test]
fn fields_have_the_names_and_the_order_of_the_contract() {
    let (_, preview) = preview();
    let json = serde_json::to_string(&preview).expect("a preview is plain data");
    let keys = keys(&json);
    assert_eq!(keys[..6], ["schema", "prescription", "title", "digest", "seed", "method"]);
    let set = [
        "sets",
        "number",
        "drill",
        "form",
        "step",
        "stance",
        "side",
        "surface",
        "support",
        "vision",
        "second_task",
        "facing",
        "work_ms",
        "rest_ms",
        "cues",
    ];
    assert_eq!(keys[6..21], set);
    let cue = [
        "at_ms",
        "until_ms",
        "gap_ms",
        "action",
        "direction",
        "strength",
        "blank",
        "phrase",
        "say",
        "show",
        "tell",
        "lead_ms",
    ];
    assert_eq!(keys[21..33], cue);
    assert_eq!(keys[33..45], cue);
}

#[test]
fn values_are_those_of_the_session() {
    let (schedule, preview) = preview();
    let json = serde_json::to_value(&preview).expect("a preview is plain data");
    assert_eq!(json["schema"], "counterpoise.session/1");
    assert_eq!(json["method"], 1);
    assert_eq!(json["seed"], "09".repeat(32));
    let digest = json["prescription"]["digest"].as_str().expect("a string");
    assert!(digest.len() == 71 && digest.starts_with("sha256:"), "{digest}");
    let sets = json["sets"].as_array().expect("a list");
    assert_eq!(sets.len(), schedule.sets().len());
    assert_eq!(sets[0]["form"], "alone");
    assert_eq!(sets[0]["stance"], "feet apart");
    assert_eq!(sets[0]["support"], "two hands");
    assert_eq!(sets[0]["facing"], "counter ahead");
    assert_eq!((&sets[0]["work_ms"], &sets[0]["rest_ms"]), (&47_300.into(), &51_700.into()));
    let semi_tandem = sets.iter().find(|set| set["stance"] == "semi-tandem").expect("step 4 is semi-tandem");
    assert_eq!(semi_tandem["side"], "left");
    let mut blanks = 0;
    for (set, plan) in sets.iter().zip(schedule.sets()) {
        for (cue, planned) in set["cues"].as_array().expect("a list").iter().zip(plan.cues()) {
            assert_eq!((&cue["at_ms"], &cue["gap_ms"]), (&planned.at().0.into(), &planned.gap().0.into()));
            assert_eq!(cue["blank"], planned.is_blank());
            assert_eq!(
                (&cue["until_ms"], &cue["tell"], &cue["lead_ms"]),
                (&Value::Null, &Value::Null, &0.into())
            );
            let texts = ["action", "direction", "phrase", "say", "show"].map(|field| cue[field].as_str());
            blanks += usize::from(planned.is_blank());
            assert_eq!(
                texts,
                match planned.call() {
                    None => [None; 5],
                    Some(call) => [
                        Some(call.action().name()),
                        Some(call.direction().name()),
                        Some(call.say()[0].id()),
                        Some(call.say()[0].words()),
                        Some(call.show()),
                    ],
                }
            );
        }
    }
    assert!(blanks > 0, "this session has blanks");
}

#[test]
fn people_read_one_line_a_cue() {
    let (schedule, preview) = preview();
    let text = preview.to_string();
    assert!(text.starts_with("Golden, open\n\nSet 1 of 6: Weight shifts at the counter, step 1\n"), "{text}");
    assert!(text.contains("the left foot half a step ahead"), "{text}");
    assert!(text.contains("  Work 47.3 s, "), "{text}");
    let cues: usize = schedule.sets().iter().map(|set| set.cues().len()).sum();
    let blanks = schedule.sets().iter().flat_map(SetPlan::cues).filter(|cue| cue.is_blank()).count();
    assert_eq!(text.matches("- no call").count(), blanks);
    assert_eq!(text.lines().count(), 1 + schedule.sets().len() * 4 + cues + 3);
    assert!(text.ends_with("is predictable.\n"));
}
