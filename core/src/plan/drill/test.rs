use super::{Drill, FILES, Flaw, Form, LadderStep, Stance, Support, Surface, Vision};

fn reach() -> String {
    FILES[1].1.to_owned()
}

fn flaw(text: &str) -> Flaw {
    Drill::from_toml("counter-reach", text).unwrap_err().flaw().clone()
}

/// `reach()` with the first `from` replaced: the test is void if nothing was.
fn changed(from: &str, to: &str) -> String {
    let text = reach();
    assert!(text.contains(from), "{from} stands in the file");
    text.replacen(from, to, 1)
}

#[test]
fn every_built_in_drill_parses_and_keeps_its_files_order() {
    let names: Vec<&str> = Drill::all().iter().map(Drill::name).collect();
    assert_eq!(names, FILES.map(|(name, _)| name));
    let on_disk =
        std::fs::read_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/../presets/drills")).unwrap().count();
    assert_eq!(on_disk, FILES.len(), "a file that is not listed is not built in");
}

#[test]
fn every_step_of_every_ladder_changes_one_thing() {
    for drill in Drill::all() {
        for pair in drill.ladder().windows(2) {
            // Counted from the words, not by the loader's own comparison.
            let words = |step: &LadderStep| {
                let seated = step.stance.to_string() == "seated";
                let stance = if seated { "seated".to_owned() } else { format!("{}, standing", step.stance) };
                let task = step.second_task.map(|task| task.to_string()).unwrap_or_default();
                let rest = [step.surface.to_string(), step.vision.to_string(), task, step.parts.to_string()];
                (seated, stance, step.support.to_string(), rest)
            };
            let (before, after) = (words(&pair[0]), words(&pair[1]));
            // Who gets up leaves the chair that carried them: one change.
            let support = before.0 == after.0 && before.2 != after.2;
            let rest = before.3.iter().zip(&after.3).filter(|(a, b)| a != b).count();
            let differ = usize::from(before.1 != after.1) + usize::from(support) + rest;
            assert_eq!(differ, 1, "{}: {pair:?}", drill.name());
            assert!(pair[0].parts.abs_diff(pair[1].parts) <= 1, "{}: one part more at a time", drill.name());
        }
    }
}

#[test]
fn every_drill_offers_a_support_and_clear_space_and_says_who_does_what() {
    for drill in Drill::all() {
        let partner = drill.forms().contains(&Form::Partner);
        assert_eq!(!drill.partner_does().is_empty(), partner, "{}", drill.name());
        assert!(!drill.evidence().is_empty() && !drill.limitation().is_empty(), "{}", drill.name());
        assert!(!drill.fixed_support().is_empty() && !drill.behind().is_empty(), "{}", drill.name());
    }
}

#[test]
fn words_of_a_step_are_those_of_its_file() {
    let step = LadderStep {
        stance: Stance::SemiTandem,
        surface: Surface::Firm,
        support: Support::Hovering,
        vision: Vision::Open,
        second_task: None,
        parts: 1,
    };
    assert_eq!(Drill::named("counter-reach").unwrap().ladder().last(), Some(&step));
    assert_eq!(
        format!("{} {} {} {}", step.stance, step.surface, step.support, step.vision),
        "semi-tandem firm hands hovering open"
    );
}

#[test]
fn a_ladder_step_that_changes_two_things_or_none_is_refused() {
    let two = changed(
        "stance = \"feet together\"\nsurface = \"firm\"\nsupport = \"one hand\"",
        "stance = \"feet together\"\nsurface = \"firm\"\nsupport = \"fingertips\"",
    );
    assert_eq!(flaw(&two), Flaw::Ladder { step: 2, changes: 2 });
    let none = changed("stance = \"feet together\"", "stance = \"feet apart\"");
    assert_eq!(flaw(&none), Flaw::Ladder { step: 2, changes: 0 });
}

#[test]
fn a_drill_without_support_or_space_is_refused() {
    assert_eq!(flaw(&changed("\"the counter, under one hand\"", "\" \"")), Flaw::Empty("fixed_support"));
    assert_eq!(flaw(&changed("\"1.5 m of clear floor, or a wall\"", "\"\"")), Flaw::Empty("behind"));
    assert_eq!(
        flaw(&changed("[\"a kitchen counter or another fixed surface at hip height\"]", "[]")),
        Flaw::Nothing("kit")
    );
}

#[test]
fn phrases_are_known_and_of_the_right_kind() {
    assert_eq!(flaw(&changed("\"reach.left\"", "\"reach.up\"")), Flaw::Phrase("reach.up".into(), "a cue"));
    assert_eq!(flaw(&changed("\"reach.left\"", "\"set.over\"")), Flaw::Phrase("set.over".into(), "a cue"));
    assert_eq!(
        flaw(&changed("\"drill.counter-reach\"", "\"reach.left\"")),
        Flaw::Phrase("reach.left".into(), "an announcement")
    );
}

#[test]
fn directions_and_forms_are_listed_once() {
    assert_eq!(
        flaw(&changed("direction = \"left\"", "direction = \"forward\"")),
        Flaw::Twice { field: "targets", entry: "forward".into() }
    );
    assert_eq!(
        flaw(&changed("\"reach.left\"", "\"reach.forward\"")),
        Flaw::Twice { field: "targets", entry: "reach.forward".into() }
    );
    assert_eq!(
        flaw(&changed("[\"alone\"]", "[\"alone\", \"alone\"]")),
        Flaw::Twice { field: "forms", entry: "alone".into() }
    );
}

#[test]
fn lists_that_must_hold_something_do() {
    let text = reach();
    let targets = &text[text.find("[[targets]]").unwrap()..text.find("[[ladder]]").unwrap()];
    let head = &text[..text.find("[[targets]]").unwrap()];
    let ladder = &text[text.find("[[ladder]]").unwrap()..];
    assert_eq!(flaw(&format!("targets = []\n{head}{ladder}")), Flaw::Nothing("targets"));
    assert_eq!(flaw(&format!("ladder = []\n{head}{targets}")), Flaw::Nothing("ladder"));
    assert_eq!(flaw(&changed("forms = [\"alone\"]", "forms = []")), Flaw::Nothing("forms"));
}

#[test]
fn unknown_fields_names_and_schemas_are_refused() {
    assert!(matches!(flaw(&changed("kit =", "kits =")), Flaw::Text(why) if why.contains("kits")));
    assert_eq!(flaw(&changed("drill/1", "drill/2")), Flaw::Schema("counterpoise.drill/2".into()));
    assert_eq!(flaw(&changed("name = \"counter-reach\"", "name = \"reach\"")), Flaw::Name("reach".into()));
    assert_eq!(flaw(&changed("warm_up = false", "warm_up = true")), Flaw::WarmUp);
}
