//! A drill file that breaks a rule is not taken: each rule is broken in a file that was right.

use super::super::{Action, Drill, Flaw, Form};
use super::{Rule, is_valid_duration};
use crate::units::Millis;

fn file(name: &str) -> String {
    let path = format!("{}/../presets/drills/{name}.toml", env!("CARGO_MANIFEST_DIR"));
    std::fs::read_to_string(path).expect("it is built in")
}

/// The rule that the drill breaks after every `from` is replaced: void if it does not stand there.
#[track_caller]
fn broken(name: &str, changes: &[(&str, &str)]) -> Rule {
    let mut text = file(name);
    for (from, to) in changes {
        assert!(text.contains(from), "{from} stands in {name}");
        text = text.replace(from, to);
    }
    match Drill::from_toml(name, &text) {
        Err(error) => match error.flaw() {
            Flaw::Unsafe(rule) => *rule,
            other => panic!("another flaw: {other}"),
        },
        Ok(_) => panic!("{name} was taken with {changes:?}"),
    }
}

#[test]
fn what_needs_a_partner_is_not_offered_alone_and_says_what_the_partner_does() {
    assert_eq!(broken("catching", &[("forms = [\"partner\"]", "forms = [\"alone\"]")]), Rule::Alone);
    let start = "partner_does = [\"Stand beside the person";
    let end = file("steady-holds").lines().find(|line| line.starts_with(start)).unwrap().to_owned();
    assert_eq!(broken("steady-holds", &[(&end, "")]), Rule::PartnerDoes);
}

#[test]
fn nothing_audible_goes_with_a_push_and_everything_else_is_said_to_somebody() {
    let push = "{ direction = \"left\", action = \"push\", tell = \"tell.push\", hand = \"hand.right-hip\" }";
    let said = "{ direction = \"left\", action = \"push\", tell = \"tell.push\", hand = \"hand.right-hip\", phrase = \"lean.left\" }";
    assert_eq!(broken("pushes", &[(push, said)]), Rule::Announced);
    let toss = "{ direction = \"high left\", action = \"toss\", tell = \"tell.toss\" }";
    let said = "{ direction = \"high left\", action = \"toss\", tell = \"tell.toss\", phrase = \"throw.high-left\" }";
    assert_eq!(broken("catching", &[(toss, said)]), Rule::Announced);
    let nobody = "{ direction = \"high left\", action = \"toss\" }";
    assert_eq!(broken("catching", &[(toss, nobody)]), Rule::Silent);
    assert_eq!(broken("head-turns", &[(", phrase = \"head.left\"", "")]), Rule::Lead, "nobody alone is told");
    assert_eq!(broken("pushes", &[(", hand = \"hand.right-hip\"", "")]), Rule::Hand);
    assert_eq!(
        broken("catching", &[("tell = \"tell.toss\"", "tell = \"tell.toss\", hand = \"hand.left-hip\"")]),
        Rule::Hand
    );
    for lead in ["2999", "8001"] {
        assert_eq!(broken("pushes", &[("lead_ms = 7000", &format!("lead_ms = {lead}"))]), Rule::Lead);
    }
}

#[test]
fn what_lasts_has_an_end_in_time() {
    let span = ", span = { length_ms = 11000, close = \"hold.end\", count = 10 }";
    assert_eq!(broken("steady-holds", &[(span, "")]), Rule::Span);
    let lasting = "phrase = \"head.left\", span = { length_ms = 5000, close = \"hold.end\" }";
    assert_eq!(broken("head-turns", &[("phrase = \"head.left\"", lasting)]), Rule::Span);
    assert_eq!(broken("steady-holds", &[("11000", "30001")]), Rule::Length);
    assert_eq!(broken("steady-holds", &[("11000", "10999")]), Rule::Length, "no room before the count");
    assert_eq!(broken("called-changes", &[("length_ms = 6000", "length_ms = 10001")]), Rule::Length);
    assert_eq!(broken("called-changes", &[("length_ms = 6000", "length_ms = 2999")]), Rule::Length);
    for (action, most) in [(Action::CloseEyes, 10_000), (Action::BlindSteps, 10_000), (Action::Hold, 30_000)]
    {
        assert!(
            is_valid_duration(action, Millis(most), 0) && !is_valid_duration(action, Millis(most + 1), 0)
        );
    }
}

#[test]
fn nothing_disturbs_a_person_with_closed_eyes_or_on_hardly_any_base() {
    let push = "{ direction = \"forward\", action = \"push\", tell = \"tell.push\", hand = \"hand.shoulder-blade\" }";
    let blind = "{ direction = \"forward\", action = \"close eyes\", phrase = \"eyes.shut\", span = { length_ms = 6000, close = \"eyes.open\" } }";
    assert_eq!(broken("pushes", &[(push, blind)]), Rule::PushedBlind);
    for name in ["pushes", "catching", "wall-throws", "shoulder-looks"] {
        assert_eq!(broken(name, &[("\"semi-tandem\"", "\"tandem\"")]), Rule::DisturbedOnOneLeg, "{name}");
    }
    for name in ["counter-shift", "counter-reach", "head-turns"] {
        assert_eq!(broken(name, &[("\"semi-tandem\"", "\"one leg\"")]), Rule::NoSpell, "{name}");
    }
    let beside = [("\"fingertips\"", "\"beside\""), ("\"hands hovering\"", "\"beside\"")];
    assert_eq!(
        broken(
            "called-changes",
            &[
                beside[0],
                (
                    "    { key = \"apart-foam-hovering\", stance = \"feet apart\", surface = \"foam\", support = \"hands hovering\", vision = \"open\" },\n",
                    ""
                )
            ]
        ),
        Rule::BlindWithoutSupport
    );
}

#[test]
fn walking_sitting_and_rising_are_what_they_are_called() {
    assert_eq!(broken("counter-walk", &[("\"walking\"", "\"feet apart\"")]), Rule::Walking);
    assert_eq!(broken("head-turns", &[("\"semi-tandem\"", "\"walking\"")]), Rule::Walking);
    let seated = "    { key = \"seated-chair\", stance = \"seated\", surface = \"firm\", support = \"chair\", vision = \"open\" },\n";
    assert_eq!(broken("slow-target", &[(seated, "")]), Rule::NotSeated);
    let hands = "    { key = \"seated-both-on-chair\", stance = \"seated\", surface = \"firm\", support = \"hands on the chair\", vision = \"open\" },\n";
    assert_eq!(broken("fast-rises", &[(hands, "")]), Rule::RiseWithoutHands);
    let chair = "stance = \"feet apart\", surface = \"firm\", support = \"one hand\"";
    let carried = "stance = \"feet apart\", surface = \"firm\", support = \"chair\"";
    assert_eq!(
        broken(
            "following",
            &[
                (chair, carried),
                (
                    "\"feet together\", surface = \"firm\", support = \"one hand\"",
                    "\"feet together\", surface = \"firm\", support = \"chair\""
                ),
                (
                    "    { key = \"together-fingertips\", stance = \"feet together\", surface = \"firm\", support = \"fingertips\", vision = \"open\" },\n",
                    ""
                )
            ]
        ),
        Rule::Chair
    );
}

#[test]
fn parts_and_what_is_trained_are_what_the_calls_are() {
    let knees = ("    { kind = \"knees\", phrase = \"part.knees\" },\n", "");
    let step = ("    { kind = \"step\", phrase = \"part.step\", action = \"step\" },\n", "");
    assert_eq!(
        broken("combined-reaches", &[knees, step]),
        Rule::Parts,
        "two kinds and the call are no four parts"
    );
    assert_eq!(
        broken(
            "head-turns",
            &[
                (" },\n]\n\n[[ladders]]", " },\n]\nparts = []\n\n[[ladders]]"),
                ("vision = \"open\" }", "vision = \"open\", parts = 2 }")
            ]
        ),
        Rule::Parts
    );
    assert_eq!(broken("pushes", &[("trains = \"reactive\"", "trains = \"voluntary\"")]), Rule::Trains);
    assert_eq!(broken("quick-steps", &[("trains = \"voluntary\"", "trains = \"reactive\"")]), Rule::Trains);
    assert_eq!(broken("wall-throws", &[("trains = \"voluntary\"", "trains = \"reactive\"")]), Rule::Trains);
}

/// The table of the design, written a second time.
#[test]
fn every_action_has_the_gap_the_unlock_and_the_partner_of_the_design() {
    for (name, gap, unlocks, disturbs, partner, lasts) in [
        ("shift", 4, &[][..], false, false, false),
        ("raise heels", 4, &[], false, false, false),
        ("reach", 4, &[], false, false, false),
        ("step", 6, &[], false, false, false),
        ("rise", 10, &[], false, false, true),
        ("hold", 4, &[], false, false, true),
        ("narrow stance", 4, &[], false, false, true),
        ("turn head", 8, &[], false, false, false),
        ("close eyes", 8, &["eyes-closed"], false, false, true),
        ("follow", 8, &[], false, true, false),
        ("watch", 4, &[], false, false, true),
        ("touch", 8, &[], true, true, false),
        ("push", 10, &["pushes"], true, true, false),
        ("nudge", 10, &["pushes", "walking"], true, true, false),
        ("tug", 10, &["pushes"], true, true, false),
        ("toss", 12, &[], true, true, false),
        ("throw", 12, &[], true, false, false),
        ("slide", 10, &["surface"], true, true, false),
        ("tilt", 10, &["surface"], true, true, false),
        ("stop", 6, &["walking"], false, false, true),
        ("change pace", 6, &["walking"], false, false, false),
        ("turn round", 8, &["walking"], false, false, false),
        ("go round", 8, &["walking"], false, true, false),
        ("next patch", 8, &["surface", "walking"], false, true, false),
        ("blind steps", 10, &["walking", "eyes-closed"], false, true, true),
    ] {
        let action = Action::from_name(name).unwrap_or_else(|| panic!("{name} is an action"));
        assert_eq!(action.shortest_gap(), Millis::from_secs(gap), "{name}");
        let found: Vec<&str> = action.unlocks().iter().map(|unlock| unlock.name()).collect();
        assert_eq!(found, unlocks, "{name}");
        assert_eq!(
            (action.is_disturbance(), action.needs_partner(), action.is_span()),
            (disturbs, partner, lasts),
            "{name}"
        );
    }
    assert_eq!(Action::ALL.len(), 25, "every action stands in this table");
    // 3 s before closing and 5 s after opening nothing else may come: the gap keeps both.
    for action in Action::ALL.iter().filter(|action| action.closes_eyes()) {
        assert!(action.shortest_gap() >= Millis(5_000), "{action}");
    }
    assert!(
        Drill::all()
            .iter()
            .all(|drill| drill.forms().contains(&Form::Alone) || !drill.partner_does().is_empty())
    );
}
