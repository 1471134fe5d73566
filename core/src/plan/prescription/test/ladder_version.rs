//! A prescription says which version of a ladder it counts its steps on; one that does not say so means the first.

use super::super::{Draft, DrillPlan, Prescription, Reason, Refusal, row};
use crate::plan::counts::CueCounts;
use crate::plan::drill::{UnlockName, trial};
use crate::plan::explanation::Explanation;

const FILE: &str = r#"schema = "counterpoise.prescription/1"
title = "Feet first"
issued_by = "K. L."
issued_on = 2026-11-02

[[drills]]
drill = "counter-reach"
ladder = 2
named_steps = ["semi-tandem-one-hand"]
sets = 2
work_ms = 60000
step = 2
ceiling = 3
gap_ms = [5000, 15000]
directions = ["left", "right", "forward"]
"#;

fn read(text: &str) -> Result<Prescription, Refusal> {
    Prescription::read_with(trial::drills(), "balance.toml", text.as_bytes())
}

/// Stance, surface and support of step 3.
fn words(plan: &DrillPlan) -> String {
    let step = plan.conditions_at(3);
    format!("{}, {}, {}", step.stance, step.surface, step.support)
}

#[track_caller]
fn refuses(from: &str, to: &str, line: usize, fact: &str, hint: &str) {
    assert!(FILE.contains(from), "{from}");
    let refusal = read(&FILE.replacen(from, to, 1)).unwrap_err();
    assert_eq!((refusal.line(), refusal.fact().as_str()), (Some(line), fact));
    assert!(refusal.hint().contains(hint), "{}", refusal.hint());
}

#[test]
fn a_version_counts_the_steps_on_its_ladder_and_none_is_version_1() {
    let second = read(FILE).unwrap();
    let plan = &second.drills()[1];
    assert_eq!((plan.ladder().version(), plan.named_steps()), (2, &["semi-tandem-one-hand".to_owned()][..]));
    assert_eq!(words(plan), "semi-tandem, firm, one hand");
    let without = FILE.replace("ladder = 2\nnamed_steps = [\"semi-tandem-one-hand\"]\n", "");
    for text in
        [without.clone(), FILE.replace("ladder = 2\nnamed_steps = [\"semi-tandem-one-hand\"]", "ladder = 1")]
    {
        let read = read(&text).unwrap();
        let plan = &read.drills()[1];
        assert_eq!((plan.ladder().version(), words(plan)), (1, "feet together, firm, fingertips".into()));
    }
    // The same file without the second ladders reads as it did before there were versions.
    assert_eq!(
        Draft::of(&read(&without).unwrap()).to_toml(),
        Draft::of(&Prescription::read("balance.toml", without.as_bytes()).unwrap()).to_toml()
    );
}

#[test]
fn a_version_that_the_drill_does_not_have_is_refused() {
    let fact = |value| {
        format!(
            "`ladder` is {value}; the ladder of \"counter-reach\" has version 1 (feet and hands in turn), 2 (feet)"
        )
    };
    for value in [0, 3, 258, -1] {
        refuses("ladder = 2", &format!("ladder = {value}"), 8, &fact(value), "delete the line for version 1");
    }
    let built_in = Prescription::read("balance.toml", FILE.as_bytes()).unwrap_err();
    assert_eq!(
        built_in.to_string(),
        "`ladder` is 2; the ladder of \"counter-reach\" has version 1 (feet and hands in turn) (balance.toml, line 8)"
    );
}

#[test]
fn only_a_named_therapist_names_a_step_that_can_be_named() {
    refuses(
        "issued_by = \"K. L.\"",
        "issued_by = \" \"",
        6,
        "`named_steps` is given, but `issued_by` is empty",
        "Write the name",
    );
    refuses(
        "[\"semi-tandem-one-hand\"]",
        "[\"semi-tandem-fingertips\"]",
        9,
        "`named_steps` is \"semi-tandem-fingertips\"; it can be \"semi-tandem-one-hand\"",
        "Choose one of these",
    );
    refuses(
        "[\"semi-tandem-one-hand\"]",
        "[\"semi-tandem-one-hand\", \"semi-tandem-one-hand\"]",
        9,
        "`named_steps` lists \"semi-tandem-one-hand\" twice",
        "only once",
    );
    refuses(
        "ladder = 2\n",
        "",
        8,
        "`named_steps` is only allowed with `ladder` = 2 or above",
        "Delete the line",
    );
}

/// From version 2 on a gentler day may lead to every step below the one to start at, so these are checked too.
#[test]
fn every_step_up_to_the_ceiling_has_been_watched() {
    let hard = FILE.replace("ceiling = 3", "ceiling = 4");
    let refusal = read(&hard).unwrap_err();
    assert!(
        matches!(refusal.reason(), Reason::LockedStep { step: 4, unlock: UnlockName::OneLeg, .. }),
        "no hand rests there: {refusal}"
    );
    let unlock = "\n[[unlocks]]\nname = \"one-leg\"\nwatched_by = \"K. L.\"\non = 2026-11-01\n";
    assert!(read(&format!("{hard}{unlock}")).is_ok());
}

#[test]
fn the_explanation_says_the_version_and_what_is_named() {
    let prescription = read(FILE).unwrap();
    let page = Explanation::of(&prescription, &CueCounts::of(&prescription)).to_string();
    assert!(
        page.split_whitespace().collect::<Vec<_>>().join(" ").contains(
            "From step 2 of 4 on version 2 of its ladder; may go up to step 3, one change at a time. Allowed by name, \
             beyond the person's limits: semi-tandem-one-hand."
        ),
        "{page}"
    );
}

#[test]
fn the_form_writes_what_it_read() {
    let draft = Draft::of(&read(FILE).unwrap());
    let again = read(&draft.to_toml()).unwrap();
    assert_eq!(Draft::of(&again), draft);
    assert_eq!((again.drills()[1].ladder().version(), again.drills()[1].named_steps().len()), (2, 1));
}

#[test]
fn the_form_asks_for_a_version_and_names_only_where_there_are_some() {
    let mut plan = Draft::of(&read(FILE).unwrap()).drills.remove(0);
    assert!(plan.suits(&row::ladder) && plan.suits(&row::named_steps));
    assert!(plan.tidy().is_empty() && plan.named_steps.is_some());
    plan.ladder = None;
    assert_eq!(plan.tidy(), ["Steps allowed by name that this ladder does not have were removed."]);
    assert!(plan.suits(&row::ladder) && !plan.suits(&row::named_steps) && plan.named_steps.is_none());
    let gentle = Draft::of(Prescription::ready("gentle").unwrap());
    assert!(gentle.drills.iter().all(|plan| !plan.suits(&row::ladder) && !plan.suits(&row::named_steps)));
}

#[test]
fn steps_of_two_versions_are_compared_by_what_they_ask_for() {
    let at = |ladder: &str, step: u8| {
        let text = FILE.replace("ladder = 2\nnamed_steps = [\"semi-tandem-one-hand\"]", ladder);
        read(&text.replace("step = 2\nceiling = 3", &format!("step = {step}"))).unwrap()
    };
    let harder = |one: &Prescription, other: &Prescription| one.excess_over(other).is_some();
    // Version 1, step 2 and version 2, step 2 are the same: feet together, one hand.
    assert!(!harder(&at("ladder = 2", 2), &at("", 2)) && !harder(&at("", 2), &at("ladder = 2", 2)));
    // Semi-tandem with one hand and feet together with fingertips: each asks for more than the other in one thing.
    assert!(harder(&at("ladder = 2", 3), &at("", 3)) && harder(&at("", 3), &at("ladder = 2", 3)));
    assert!(!harder(&at("ladder = 2", 1), &at("", 3)));
}
