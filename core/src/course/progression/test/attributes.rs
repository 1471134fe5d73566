//! On a ladder of version 2 no step beyond the limits of a person is ever given, whatever was practiced.

use proptest::prelude::*;

use super::{Fitness, Next, at, clean, on, past};
use crate::health::bounds::Bounds;
use crate::health::suitability::{By, Finding, Suitability, Topic, Why};
use crate::plan::drill::{Drill, Form, LadderStep, UnlockName, trial};
use crate::plan::prescription::{Draft, DraftDrill, DrillOrder, Prescription, SCHEMA, Unlock};

/// One drill on the second version of its ladder, at this step and ceiling, with all that it needs.
fn prescription(drill: &'static Drill, form: Form, step: u8, ceiling: u8, named: bool) -> Prescription {
    let issued_on = at(1).date();
    let keys: Vec<String> = drill.ladders()[1].nameable().map(|(key, _)| key.to_owned()).collect();
    let (ladder, named_steps) = (Some(2), Some(keys).filter(|_| named));
    let mut plan = DraftDrill::new(drill, form);
    plan = DraftDrill { ladder, named_steps, step: step.into(), ceiling: ceiling.into(), sets: 2, ..plan };
    if plan.reaches_a_spell() {
        (plan.tested_hold_ms, plan.spell_ms) = (Some(30_000), Some(11_000));
    }
    plan.confirmed = plan.needs();
    let partner = if form == Form::Partner { "K." } else { "" };
    let unlock = |name: &UnlockName| Unlock {
        name: *name,
        watched_by: "K. L.".to_owned(),
        on: issued_on,
        partner: partner.to_owned(),
        therapist_present: false,
    };
    let draft = Draft {
        schema: SCHEMA.to_owned(),
        title: "t".to_owned(),
        issued_by: "K. L.".to_owned(),
        issued_on,
        days_a_week: 3,
        weeks: 12,
        review_after_sessions: 24,
        rest_ms: 60_000,
        order: DrillOrder::AsWritten,
        precautions: Vec::new(),
        drills: vec![plan],
        unlocks: UnlockName::ALL.iter().map(unlock).collect(),
        effort_at_most: 6,
        accepted_because: None,
        accepts: Vec::new(),
    };
    Prescription::read_with(trial::drills(), "t.toml", draft.to_toml().as_bytes()).unwrap()
}

/// The rule once more, from the words that the person reads and those of the drill files.
fn is_within(said: &str, step: LadderStep, form: Form, named: bool) -> bool {
    let (stance, support) = (step.stance.to_string(), step.support.to_string());
    let both_rest = ["two hands", "hands on the chair", "chair"].contains(&support.as_str());
    let one_rests = support == "one hand";
    let cautious = said.contains("Up to step 3");
    if !cautious && !said.contains("Up to step 1") {
        return true;
    }
    let feet = match stance.as_str() {
        "seated" | "feet apart" => true,
        "feet together" => cautious,
        "semi-tandem" => cautious && (both_rest || (one_rests && named)),
        _ => false,
    };
    let hands = both_rest || (one_rests && said.contains("One hand always rests"));
    let most = if cautious { 3 } else { 1 };
    let plain = step.surface.to_string() == "firm" && step.second_task.is_none() && step.parts <= most;
    feet && hands && plain && form == Form::Alone && said.contains("Only what you practice alone")
}

proptest! {
    #[test]
    fn no_step_beyond_the_limits_is_ever_given(
        drill in proptest::sample::select(trial::with_second().collect::<Vec<_>>()),
        partner: bool,
        (start, room, practiced) in (0_u8..5, 0_u8..5, proptest::collection::vec(0_u8..5, 0..4)),
        named: bool,
        tests_below in 0_usize..4,
        answers in proptest::collection::vec((proptest::sample::select(Topic::ALL), any::<bool>()), 0..3),
    ) {
        let form = if partner { Form::Partner } else { Form::Alone };
        prop_assume!(drill.forms().contains(&form));
        let steps = drill.ladders()[1].steps().len() as u8;
        let start = start % steps + 1;
        let ceiling = (start + room).min(steps);
        let prescription = prescription(drill, form, start, ceiling, named);
        // Clean practices at whatever steps, every other day: progression goes up where it can.
        let place = prescription.drills().len() - 1;
        let sessions = practiced.iter().zip(0_i64..).map(|(step, nth)| {
            let day = at(2).date().saturating_add(jiff::ToSpan::days(2 * nth));
            let mut steps = vec![1; place + 1];
            steps[place] = if place == 0 { 1 } else { step % ceiling + 1 };
            clean(&prescription, &on(day, 10), &steps)
        });
        let past = past(sessions);
        let fine = Topic::questions(true).map(|topic| (topic, Finding::Fine));
        let found = |agreed| if agreed { Finding::Lifted(By::Consent) } else { Finding::Warning(Why::Yes) };
        let given = answers.iter().map(|(topic, agreed)| (*topic, found(*agreed)));
        let answers: Vec<_> = fine.chain(given).collect();
        let suitability = Suitability::of(&answers, true);
        let fitness = Fitness { suitability: Some(suitability), tests_below, ..Fitness::default() };
        let next = Next::of(&past, &prescription, &fitness, &at(20));
        let said = fitness.bounds().unwrap_or(Bounds::STEP_ONE).to_string();
        for (plan, step) in prescription.drills().iter().zip(&next.steps).skip(1) {
            let Some(step) = *step else { continue };
            prop_assert!((1..=plan.ceiling()).contains(&step));
            for step in 1..=step {
                let conditions = plan.conditions_at(step);
                prop_assert!(is_within(&said, conditions, plan.form(), named), "{said} step {step}: {conditions:?}");
            }
        }
        prop_assert!(prescription.at_steps(&next.steps).is_some());
    }
}

/// Every limit, every step of every second ladder: what is left, by hand.
#[test]
fn what_each_limit_leaves_of_each_second_ladder() {
    let left = |bounds: Bounds, drill: &Drill, named: bool| {
        let ladder = &drill.ladders()[1];
        let keys: Vec<String> = ladder.keys().iter().filter(|_| named).cloned().collect();
        let form = drill.forms()[0];
        bounds.highest_step(ladder, form, drill.targets(), u8::MAX, &keys).unwrap_or(0)
    };
    let found: Vec<(&str, [u8; 5])> = trial::with_second()
        .map(|drill| {
            let at = |bounds, named| left(bounds, drill, named);
            let cautious = (at(Bounds::CAUTIOUS, false), at(Bounds::CAUTIOUS, true));
            let narrow = (at(Bounds::STEP_ONE, true), at(Bounds::BOTH_HANDS, true));
            (drill.name(), [at(Bounds::OPEN, false), cautious.0, cautious.1, narrow.0, narrow.1])
        })
        .collect();
    // No limit; "up to step 3", the same with the step named; "step 1", the same with both hands at rest.
    assert_eq!(
        found,
        [
            ("counter-shift", [5, 3, 4, 1, 1]),
            ("counter-reach", [4, 2, 3, 1, 0]),
            ("steady-holds", [4, 1, 2, 0, 0]),
            ("combined-reaches", [4, 3, 3, 1, 0]),
            ("quick-steps", [3, 1, 1, 1, 0]),
            ("counter-walk", [2, 0, 0, 0, 0]),
            ("moving-base", [2, 0, 0, 0, 0]),
        ]
    );
}

#[test]
fn the_limits_are_said_by_their_attributes() {
    let drill = trial::with_second().find(|drill| drill.name() == "counter-reach").unwrap();
    let prescription = prescription(drill, Form::Alone, 1, 3, false);
    let fitness = Fitness { suitability: None, tests_below: 1, ..Fitness::default() };
    let next = Next::of(&past([]), &prescription, &fitness, &at(2));
    let said: Vec<String> = next.reasons.iter().map(ToString::to_string).collect();
    assert_eq!(
        said.last().unwrap(),
        "Where your program uses a newer ladder, your limits are: one hand at the least, feet together at the narrowest, \
         firm at the softest, nothing else done at the same time."
    );
}
