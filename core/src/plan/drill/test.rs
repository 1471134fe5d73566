use super::{
    Drill, FILES, Flaw, Form, LadderFlaw, LadderStep, Misstep, Stance, Support, Surface, UnlockName, Vision,
};

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
        for pair in drill.ladders().iter().flat_map(|ladder| ladder.steps().windows(2)) {
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

/// What is wrong with the ladder of `reach()`, whose first step is on line 66.
fn misstep(text: &str, version: u8, step: usize, line: usize, why: &Misstep) {
    let expected = LadderFlaw { line, version, step, why: why.clone() };
    assert_eq!(flaw(text), Flaw::Ladder(expected));
}

/// `reach()` with a second version of its ladder, of which `steps` are the steps.
fn second(steps: &[&str]) -> String {
    let steps: Vec<String> =
        steps.iter().map(|step| format!("    {{ {step}, vision = \"open\" }},\n")).collect();
    format!("{}\n[[ladders]]\nversion = 2\nname = \"hands\"\nsteps = [\n{}]\n", reach(), steps.concat())
}

const APART_TWO: &str =
    r#"key = "apart-two-hands", stance = "feet apart", surface = "firm", support = "two hands""#;
const APART_ONE: &str =
    r#"key = "apart-one-hand", stance = "feet apart", surface = "firm", support = "one hand""#;

#[test]
fn a_ladder_step_that_changes_two_things_or_none_is_refused() {
    let two = changed(
        "stance = \"feet together\", surface = \"firm\", support = \"one hand\"",
        "stance = \"feet together\", surface = \"firm\", support = \"fingertips\"",
    );
    misstep(&two, 1, 2, 67, &Misstep::Changes(2));
    let none = changed("stance = \"feet together\"", "stance = \"feet apart\"");
    misstep(&none, 1, 2, 67, &Misstep::Changes(0));
    assert_eq!(
        Drill::from_toml("counter-reach", &two).unwrap_err().to_string(),
        "drill `counter-reach`: line 67, ladder version 1, step 2: it changes 2 things from the step before; each step \
         changes exactly one"
    );
}

#[test]
fn a_key_is_plain_words_and_stands_for_one_step() {
    for odd in ["", "Apart", "apart one hand", "apart--one-hand", "apart-1"] {
        let text = changed("key = \"together-one-hand\"", &format!("key = \"{odd}\""));
        misstep(&text, 1, 2, 67, &Misstep::Key(odd.to_owned()));
    }
    let twice = changed("key = \"together-one-hand\"", "key = \"apart-one-hand\"");
    misstep(&twice, 1, 2, 67, &Misstep::KeyTwice("apart-one-hand".to_owned()));
    // A later version keeps the key of a step that it keeps, and gives it to no other.
    let drill = Drill::from_toml("counter-reach", &second(&[APART_TWO, APART_ONE])).unwrap();
    assert_eq!(drill.ladders()[1].keys(), ["apart-two-hands", "apart-one-hand"]);
    let other = second(&[&APART_TWO.replace("apart-two-hands", "apart-one-hand")]);
    misstep(&other, 2, 1, 77, &Misstep::KeyTwice("apart-one-hand".to_owned()));
}

#[test]
fn from_version_2_on_no_step_is_skipped_and_no_hand_is_taken_away_unwatched() {
    let semi_tandem =
        APART_ONE.replace("apart-one-hand", "semi-tandem-one-hand").replace("feet apart", "semi-tandem");
    misstep(&second(&[APART_ONE, &semi_tandem]), 2, 2, 78, &Misstep::Skips("the stance"));
    misstep(&second(&[APART_ONE, APART_TWO]), 2, 2, 78, &Misstep::Skips("the support"));
    let fingertips = APART_ONE.replace("one-hand", "fingertips").replace("one hand", "fingertips");
    misstep(&second(&[APART_ONE, &fingertips]), 2, 2, 78, &Misstep::HandAway);
    let watched = format!("{fingertips}, unlock = \"one-leg\"");
    let drill = Drill::from_toml("counter-reach", &second(&[APART_ONE, &watched])).unwrap();
    let unlocks: Vec<UnlockName> = drill.ladders()[1].unlocks(2).collect();
    assert_eq!(unlocks, [UnlockName::OneLeg]);
}

#[test]
fn the_versions_of_a_ladder_count_from_1_and_each_has_a_name_and_steps() {
    let at = |text: &str, version, line, why| misstep(text, version, 0, line, &why);
    at(&changed("version = 1", "version = 2"), 2, 62, Misstep::Version(1));
    at(&second(&[APART_ONE]).replace("version = 2", "version = 3"), 3, 73, Misstep::Version(2));
    at(&second(&[APART_ONE]).replace("\"hands\"", "\" \""), 2, 73, Misstep::Nameless);
    at(&second(&[]), 2, 73, Misstep::Stepless);
}

#[test]
fn the_orders_of_stance_surface_and_support_have_no_gap() {
    let counts = |ranks: Vec<u8>| {
        let mut distinct = ranks;
        distinct.dedup();
        distinct.iter().copied().eq(0..distinct.len() as u8)
    };
    assert!(counts(Stance::ALL.iter().map(|stance| stance.narrowness()).collect()));
    assert!(counts(Surface::ALL.iter().map(|surface| surface.softness()).collect()));
    assert!(counts(Support::ALL.iter().map(|support| support.lightness()).collect()));
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
    let targets = &text[text.find("[[targets]]").unwrap()..text.find("[[ladders]]").unwrap()];
    let head = &text[..text.find("[[targets]]").unwrap()];
    let ladder = &text[text.find("[[ladders]]").unwrap()..];
    assert_eq!(flaw(&format!("targets = []\n{head}{ladder}")), Flaw::Nothing("targets"));
    assert_eq!(flaw(&format!("ladders = []\n{head}{targets}")), Flaw::Nothing("ladders"));
    assert_eq!(flaw(&changed("forms = [\"alone\"]", "forms = []")), Flaw::Nothing("forms"));
}

#[test]
fn unknown_fields_names_and_schemas_are_refused() {
    assert!(matches!(flaw(&changed("kit =", "kits =")), Flaw::Text(why) if why.contains("kits")));
    assert_eq!(flaw(&changed("drill/1", "drill/2")), Flaw::Schema("counterpoise.drill/2".into()));
    assert_eq!(flaw(&changed("name = \"counter-reach\"", "name = \"reach\"")), Flaw::Name("reach".into()));
    assert_eq!(flaw(&changed("warm_up = false", "warm_up = true")), Flaw::WarmUp);
}
