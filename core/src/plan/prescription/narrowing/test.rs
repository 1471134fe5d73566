use std::collections::BTreeSet;
use std::fmt::Write as _;

use super::Taken;
use crate::draw::schedule::inspect::inspect;
use crate::draw::schedule::{Cue, Schedule, Scheduler, Seed};
use crate::plan::drill::{Drill, Form, Need, Target, UnlockName};
use crate::plan::precaution::{Precaution, Precautions};
use crate::plan::prescription::{Excess, Prescription, Sequence, limits};

/// Everything that a drill calls in this form, at this step, with everything unlocked, the therapist present.
fn whole(drill: &Drill, form: Form, step: usize) -> Prescription {
    let targets = drill.targets().iter().filter(|one| form == Form::Partner || !one.action.needs_partner());
    // Alone the eyes are closed on firm ground only, and calls with closed eyes are not needed here.
    let soft = drill.ladder()[..step].iter().any(|step| step.surface.name() != "firm");
    let targets: Vec<_> =
        targets.filter(|one| !(soft && form == Form::Alone && one.action.closes_eyes())).collect();
    let names: Vec<&str> = targets.iter().map(|one| one.name.as_str()).collect();
    let needs: Vec<&str> =
        Need::ALL.iter().filter(|need| **need != Need::Partner).map(|need| need.name()).collect();
    let held = drill.ladder()[..step].iter().any(|step| step.stance.is_spell());
    let slowest = targets.iter().map(|one| one.action.shortest_gap().0).max().unwrap();
    let lead = if form == Form::Partner { drill.lead().0 + 6_000 } else { 6_000 };
    let least = slowest.max(lead);
    let mut text = format!(
        "schema = \"counterpoise.prescription/1\"\ntitle = \"whole\"\nissued_on = 2026-03-09\n[[drills]]\n\
         drill = \"{}\"\nform = \"{form}\"\nsets = {}\nwork_ms = 60000\nstep = {step}\nceiling = {step}\n\
         gap_ms = [{least}, {}]\nblank_per_mille = 0\ndirections = {names:?}\nconfirmed = {needs:?}\n",
        drill.name(),
        if held { 2 } else { 1 },
        least + 2_000,
    );
    if held {
        text += "tested_hold_ms = 20000\n";
    }
    for (name, partner) in UnlockName::ALL.iter().flat_map(|name| [(name, ""), (name, "K.")]) {
        let _ = writeln!(
            text,
            "[[unlocks]]\nname = \"{name}\"\nwatched_by = \"tests\"\non = 2026-03-01\npartner = \"{partner}\""
        );
    }
    Prescription::read("whole.toml", text.as_bytes()).unwrap_or_else(|why| panic!("{why}\n{text}"))
}

/// The subset of the list with this number.
fn subset(number: usize) -> Precautions {
    let has = |place: &usize| number >> place & 1 == 1;
    let some: Vec<Precaution> =
        (0..Precaution::ALL.len()).filter(has).map(|at| Precaution::ALL[at]).collect();
    Precautions::of(&some)
}

/// What a drawn session asks of a limb, by the words of its calls and the stance alone.
fn assert_is_kept(schedule: &Schedule, precautions: Precautions) {
    let outside = ["push", "nudge", "tug", "slide", "tilt", "toss", "throw"];
    for set in schedule.sets() {
        assert_eq!(set.precautions(), precautions);
        assert!((set.conditions().ruled_out_by() & precautions).is_empty(), "{}", set.drill().name());
        for call in set.cues().iter().filter_map(Cue::call) {
            let what = call.show();
            assert!(precautions.is_empty() || !outside.contains(&call.action().name()), "{what}");
            let same = |one: &&Target| call.action() == one.action && call.direction() == one.direction;
            let target = set.drill().targets().iter().find(same);
            let ruled_out = target.expect("it calls what the drill has").ruled_out_by();
            assert!((ruled_out & precautions).is_empty(), "{what} is called in spite of {precautions}");
            for said in call.say().iter().skip(1) {
                let part = set.drill().parts().iter().find(|part| part.phrase == *said).unwrap();
                let ruled_out = part.ruled_out_by(call.direction());
                assert!((ruled_out & precautions).is_empty(), "{what} is called in spite of {precautions}");
            }
            // A phrase as it is said, or a word of any phrase.
            let says = |never: &&str| {
                let mut said = call.say().iter().map(|phrase| phrase.words());
                said.any(|words| words == *never || words.split([' ', ',']).any(|word| word == *never))
            };
            for (one, never) in [
                (Precaution::NothingBackward, &["backward"][..]),
                (Precaution::NoHeadTurns, &["look", "high", "turn"]),
                (Precaution::NoBending, &["low", "turn", "reach", "knees"]),
                (Precaution::LeftArmDown, &["reach left", "reach forward left", "reach forward"]),
                (Precaution::RightArmDown, &["reach right", "reach forward right", "reach forward"]),
                (Precaution::NoLeftStep, &["step left", "step forward left", "walk"]),
                (Precaution::NoRightStep, &["step right", "step forward right", "walk"]),
                (Precaution::NoLeftWeight, &["step", "lean left", "walk"]),
                (Precaution::NoRightWeight, &["step", "lean right", "walk"]),
            ] {
                assert!(
                    !precautions.has(one) || !never.iter().any(says),
                    "{what} is called in spite of {one}"
                );
            }
        }
    }
}

/// Every drill at every step meets every one of the 512 subsets: the steps of a drill share them out, and each draws with
/// several seeds.
#[test]
fn no_drawn_call_of_any_drill_needs_what_any_precautions_rule_out() {
    let (mut drawn, mut drills) = (0, BTreeSet::new());
    for drill in Drill::all() {
        let steps: Vec<_> = drill
            .forms()
            .iter()
            .flat_map(|form| (1..=drill.ladder().len()).map(|step| (*form, step)))
            .collect();
        for (nth, (form, step)) in steps.iter().enumerate() {
            let whole = whole(drill, *form, *step);
            for number in (0..1 << Precaution::ALL.len()).filter(|number| number % steps.len() == nth) {
                let precautions = subset(number);
                let within = whole.within(precautions);
                let first = &within.drills()[0];
                assert!(first.drill().is_warm_up() && first.step() == 1, "a warm-up stays first");
                let scheduler = Scheduler::new(&within).unwrap();
                // Single ones, and none, with more seeds.
                let seeds = if precautions.iter().count() < 2 { 5 } else { 1 };
                for seed in 0..seeds {
                    let schedule = scheduler.draw(Seed::from_bytes([7; 32]).of_session(seed));
                    assert_eq!(inspect(&within, &schedule), Ok(()), "{} {precautions}", drill.name());
                    assert_is_kept(&schedule, precautions);
                    drawn += schedule.sets().len();
                    drills.extend(schedule.sets().iter().map(|set| set.drill().name()));
                }
            }
        }
    }
    assert!(drawn > 18 * 512, "{drawn} sets");
    assert_eq!(drills.len(), Drill::all().len(), "every drill is left by some precautions, if only by none");
}

#[test]
fn any_precaution_leaves_out_what_comes_from_outside() {
    for name in ["pushes", "catching", "wall-throws", "moving-base", "interrupted-walking"] {
        let drill = Drill::named(name).unwrap();
        let whole = whole(drill, *drill.forms().last().unwrap(), 1);
        assert!(whole.drills().iter().any(|plan| plan.drill().name() == name));
        for one in Precaution::ALL {
            let within = whole.within(Precautions::of(&[*one]));
            assert!(within.drills().iter().all(|plan| plan.drill().name() != name), "{name}, {one}");
            let said = within.narrowings().iter().find(|taken| taken.drill.name() == name).unwrap();
            assert_eq!(said.what, Taken::Drill);
            assert!(said.to_string().contains(one.name()), "{said}");
        }
    }
}

fn file(precautions: &str, drill: &str, more: &str) -> String {
    format!(
        "schema = \"counterpoise.prescription/1\"\ntitle = \"some\"\nissued_on = 2026-11-02\n{precautions}\n\n\
         [[drills]]\ndrill = \"{drill}\"\nsets = 2\nwork_ms = 60000\ngap_ms = [6000, 12000]\n{more}\n"
    )
}

fn read(text: &str) -> Prescription {
    Prescription::read("some.toml", text.as_bytes()).unwrap_or_else(|why| panic!("{why}\n{text}"))
}

#[test]
fn what_is_left_is_drawn_by_the_rules_of_what_is_left() {
    let four = "directions = [\"left\", \"right\", \"forward\", \"forward right\"]\nweights = [1, 2, 3, 4]\nlongest_streak = 2";
    let plan = |precautions: &str, more: &str| {
        let prescription = read(&file(&format!("precautions = {precautions}"), "counter-reach", more));
        let plan = prescription.drills()[1].clone();
        (plan.targets().iter().map(|one| one.name.clone()).collect::<Vec<_>>(), plan)
    };
    let (called, left) = plan("[\"left arm stays down\"]", four);
    assert_eq!((called.join(" "), left.weights()), ("right forward right".to_owned(), &[2, 4][..]));
    assert_eq!(left.longest_streak(), limits::default_streak(2), "two in a row of two are too easy to guess");
    let (called, left) = plan("[]", four);
    assert_eq!((called.len(), left.longest_streak()), (4, Some(2)));
    let covered = "directions = [\"left\", \"right\", \"forward left\"]\nsequence = \"covered\"";
    let (called, left) = plan("[\"left arm stays down\"]", covered);
    assert_eq!(
        (called.join(" "), left.longest_streak(), left.sequence()),
        ("right".into(), None, Sequence::Open)
    );
}

#[test]
fn a_step_that_a_precaution_rules_out_is_never_reached() {
    let text = |precautions| {
        file(
            precautions,
            "counter-shift",
            "step = 1\nceiling = 5\ndirections = [\"left\", \"right\", \"forward\"]",
        )
    };
    let shifts = read(&text("precautions = [\"no weight on the left leg alone\"]"));
    assert_eq!(shifts.drills()[0].ceiling(), 2, "one foot ahead is step 3");
    let taken = shifts.narrowings().iter().map(ToString::to_string).collect::<Vec<_>>().join(" ");
    assert!(taken.contains("step 2 at most (no weight on the left leg alone)"), "{taken}");
    assert!(taken.contains("not called: lean left (no weight on the left leg alone)"), "{taken}");
    assert!(shifts.at_steps(&[Some(3)]).is_none() && shifts.at_steps(&[Some(1)]).is_some());
}

#[test]
fn what_leaves_nothing_or_is_not_on_the_list_is_refused_with_its_place() {
    let reach = "directions = [\"left\", \"right\", \"forward\"]";
    let refused = |precautions: &str| {
        let text = file(precautions, "counter-reach", reach);
        Prescription::read("some.toml", text.as_bytes()).unwrap_err()
    };
    let nothing = refused("precautions = [\"no bending or twisting\"]");
    assert_eq!(
        nothing.to_string(),
        "`precautions` (no bending or twisting) leave none of the drills (some.toml, line 4)"
    );
    assert!(nothing.hint().contains("counter-shift"));
    let unknown = refused("precautions = [\"no weight on the left leg\"]");
    let said = unknown.to_string();
    assert!(
        said.starts_with("`precautions` is \"no weight on the left leg\"; it can be \"no step with"),
        "{said}"
    );
    assert!(said.ends_with("(some.toml, line 4)"), "{said}");
    for one in Precaution::ALL {
        assert!(said.contains(&format!("\"{one}\"")), "{one}");
    }
    let twice = refused("precautions = [\"nothing backward\", \"nothing backward\"]").to_string();
    assert_eq!(twice, "`precautions` lists \"nothing backward\" twice (some.toml, line 4)");
    assert!(refused("precautions = \"nothing backward\"").to_string().contains("must be a list"));
}

#[test]
fn a_prescription_without_a_precaution_of_the_program_is_harder() {
    let reach = "directions = [\"right\", \"forward right\"]";
    let program = read(&file("precautions = [\"left arm stays down\"]", "counter-reach", reach));
    let free = read(&file("", "counter-reach", reach));
    let missing = Precautions::of(&[Precaution::LeftArmDown]);
    assert_eq!(free.excess_over(&program), Some(Excess::Precautions { missing }));
    assert_eq!(program.excess_over(&free), None);
    assert_eq!(free.within(missing).excess_over(&program), None);
    assert!(free.excess_over(&program).unwrap().to_string().contains("left arm stays down"));
}

#[test]
fn without_precautions_nothing_is_touched() {
    for (name, ready) in Prescription::all_ready() {
        assert!(ready.precautions().is_empty() && ready.narrowings().is_empty(), "{name}");
        assert_eq!(ready.within(Precautions::NONE).digest(), ready.digest());
        for one in 1..1 << Precaution::ALL.len() {
            let within = ready.within(subset(one));
            assert!(within.drills()[0].drill().is_warm_up(), "{name}");
            assert_eq!(within.precautions(), subset(one));
        }
    }
}
