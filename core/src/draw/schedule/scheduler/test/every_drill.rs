//! Random prescriptions over every drill in every form, with everything unlocked: what is drawn from them is within every
//! rule of safety, as the checker finds that shares no code with the drawing.

use std::collections::BTreeSet;
use std::fmt::Write as _;

use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::TestRunner;

use super::super::*;
use crate::draw::schedule::inspect::inspect;
use crate::plan::drill::{Drill, Form, Need, UnlockName};

/// One `[[drills]]` section: drawn numbers, to be fitted to the drill.
#[derive(Debug, Clone)]
struct Section {
    drill: &'static Drill,
    form: Form,
    listed: Vec<usize>,
    step: (usize, usize),
    dose: (u8, u32, u32),
    gap: (u32, u32),
    blanks: u32,
    choices: (u8, bool, Option<u32>, u32),
}

fn any_section() -> impl Strategy<Value = Section> {
    let drill = (0..Drill::all().len()).prop_map(|place| &Drill::all()[place]);
    drill.prop_flat_map(|drill| {
        let targets = drill.targets().len();
        let form = prop::sample::select(drill.forms().to_vec());
        let listed = prop::sample::subsequence((0..targets).collect::<Vec<_>>(), 1..=targets).prop_shuffle();
        let step = (0..drill.ladder().len(), 0usize..3);
        let dose = (1u8..4, 60_000u32..=120_000, 2_000u32..6_000);
        let gap = (0u32..9_000, 1_000u32..20_000);
        let choices = (1u8..4, any::<bool>(), prop::option::of(3_000u32..14_000), 4_000u32..40_000);
        (Just(drill), form, listed, step, dose, gap, 0u32..251, choices).prop_map(
            |(drill, form, listed, step, dose, gap, blanks, choices)| Section {
                drill,
                form,
                listed,
                step,
                dose,
                gap,
                blanks,
                choices,
            },
        )
    })
}

fn written(section: &Section) -> String {
    let Section { drill, form, listed, step, dose: (sets, work, recover), gap, blanks, choices } = section;
    let &(strength, several, spell, tested) = choices;
    let targets: Vec<_> = listed
        .iter()
        .map(|place| &drill.targets()[*place])
        .filter(|target| *form == Form::Partner || !target.action.needs_partner())
        .collect();
    let steps = drill.ladder().len();
    let (step, ceiling) = (step.0 + 1, (step.0 + 1 + step.1).min(steps));
    let held = drill.ladder()[step - 1..ceiling].iter().any(|step| step.stance.is_spell());
    let shortest = targets.iter().map(|target| target.action.shortest_gap().0).max().unwrap_or(4_000);
    let parts = if drill.parts().is_empty() { 0 } else { 6_000 };
    let lead = if *form == Form::Partner { drill.lead().0 + 6_000 } else { 0 };
    let least = shortest.max(parts).max(lead) + gap.0 / 3;
    let names: Vec<&str> = targets.iter().map(|target| target.name.as_str()).collect();
    let sets = if held { sets + sets % 2 } else { *sets };
    let mut text = format!("[[drills]]\ndrill = \"{}\"\nform = \"{form}\"\nsets = {sets}\n", drill.name());
    let _ = writeln!(text, "work_ms = {work}\nrecover_ms = {recover}\nstep = {step}\nceiling = {ceiling}");
    let _ = writeln!(text, "gap_ms = [{least}, {}]\nblank_per_mille = {blanks}", least + gap.1);
    let _ = writeln!(text, "directions = {names:?}");
    let needs: Vec<&str> =
        Need::ALL.iter().filter(|need| **need != Need::Partner).map(|need| need.name()).collect();
    let _ = writeln!(text, "confirmed = {needs:?}");
    if targets.iter().any(|target| target.action.is_push()) {
        let _ = writeln!(text, "strength = [{strength}, {}]", strength + u8::from(several));
    }
    if targets.iter().any(|target| target.action.is_toss()) {
        let _ = writeln!(text, "balls = {}", 1 + u8::from(several));
    }
    if let Some(spell) = spell.filter(|_| targets.iter().any(|target| target.span.is_some())) {
        let _ = writeln!(text, "spell_ms = {spell}");
    }
    if held {
        let _ = writeln!(text, "tested_hold_ms = {tested}");
    }
    if several && names.len() > 1 && strength == 1 {
        text.push_str("sequence = \"covered\"\nslack = 2\n");
    }
    text
}

/// Everything unlocked, alone and with one partner, the therapist present.
fn any_prescription() -> impl Strategy<Value = String> {
    (prop::collection::vec(any_section(), 1..4), any::<bool>()).prop_map(|(sections, drawn)| {
        let order = if drawn { "drawn" } else { "as written" };
        let mut text = format!(
            "schema = \"counterpoise.prescription/1\"\ntitle = \"any\"\nissued_on = 2026-03-09\norder = \"{order}\"\n"
        );
        for section in &sections {
            text.push_str(&written(section));
        }
        for (name, partner) in UnlockName::ALL.iter().flat_map(|name| [(name, ""), (name, "K.")]) {
            let _ = writeln!(
                text,
                "[[unlocks]]\nname = \"{name}\"\nwatched_by = \"tests\"\non = 2026-03-01\npartner = \"{partner}\"\ntherapist_present = true"
            );
        }
        text
    })
}

/// After a pause at any moment of any set, inside a span too: what is left keeps its gaps, from the end of the span or
/// from the pause, and nothing ends after the time to recover has begun.
fn assert_a_pause_is_kept(scheduler: &Scheduler, seed: Seed, share: f64) {
    for set in scheduler.draw(seed).sets() {
        let plan = scheduler.plan_of(
            scheduler.slots(seed).into_iter().find(|slot| slot.number == set.number()).expect("it was drawn"),
        );
        let elapsed = Millis((f64::from(set.work().0) * share) as u32);
        let next = set.cues().iter().filter(|cue| cue.at() <= elapsed).count();
        let again = scheduler.after_pause(seed, set, 1, elapsed, next);
        let mut ended = Millis(0);
        for (index, cue) in again.cues().iter().enumerate() {
            assert_eq!(ended + cue.gap(), cue.at(), "set {}", set.number());
            assert!(cue.gap() >= plan.gaps().least());
            assert!(cue.end() <= plan.work() - plan.recover());
            if index < next {
                assert!(cue.end() <= elapsed.max(cue.at()), "what lasted ended with the pause");
            } else if index == next {
                assert!(cue.at() >= elapsed + plan.gaps().least());
            }
            ended = cue.end();
        }
    }
}

#[test]
fn no_session_of_any_drill_is_ever_outside_the_rules_of_safety() {
    let mut runner = TestRunner::deterministic();
    let (mut accepted, mut drawn, mut forms) = (0, BTreeSet::new(), BTreeSet::new());
    for round in 0..160 {
        let text = any_prescription().new_tree(&mut runner).expect("nothing is filtered").current();
        let Ok(prescription) = Prescription::read("any.toml", text.as_bytes()) else { continue };
        let Ok(scheduler) = Scheduler::new(&prescription) else { continue };
        accepted += 1;
        for session in 0..4 {
            let seed = Seed::from_bytes([81; 32]).of_session(round * 4 + session);
            let schedule = scheduler.draw(seed);
            assert_eq!(inspect(&prescription, &schedule), Ok(()), "seed {seed}\n{text}");
            for set in schedule.sets() {
                forms.insert((set.drill().name(), set.form().name()));
                for call in set.cues().iter().filter_map(Cue::call) {
                    drawn.insert((set.drill().name(), call.action().name(), call.direction()));
                }
            }
            assert_a_pause_is_kept(&scheduler, seed, 0.17 * (1.0 + session as f64 % 5.0));
        }
    }
    assert!(accepted >= 40, "{accepted} of 160 prescriptions were within the limits");
    for drill in Drill::all() {
        for form in drill.forms() {
            assert!(forms.contains(&(drill.name(), form.name())), "{} {form} was drawn", drill.name());
        }
        for target in drill.targets() {
            let what = (drill.name(), target.action.name(), target.direction);
            assert!(drawn.contains(&what), "{what:?} was drawn");
        }
    }
}
