mod every_drill;

use std::fmt::Write;

use proptest::prelude::*;
use statrs::distribution::{ChiSquared, ContinuousCDF};

use super::*;
use crate::draw::schedule::inspect::inspect;
use crate::draw::schedule::preview::Preview;

const OPEN: &str = include_str!("../../../../../tests/golden/open.toml");
const COVERED: &str = include_str!("../../../../../tests/golden/covered.toml");

fn prescription(text: &str) -> Prescription {
    Prescription::read("test.toml", text.as_bytes()).unwrap_or_else(|refusal| panic!("{refusal}"))
}

fn scheduler(text: &str) -> Scheduler {
    Scheduler::new(&prescription(text)).unwrap_or_else(|error| panic!("{error}"))
}

fn bytes(scheduler: &Scheduler, seed: Seed) -> String {
    let preview = Preview::of(scheduler.prescription(), &scheduler.draw(seed));
    serde_json::to_string_pretty(&preview).expect("a preview is plain data") + "\n"
}

#[test]
fn a_session_ends_with_its_40th_real_cue_or_the_one_before() {
    let scheduler = scheduler(COVERED);
    let mut ends = [0; 2];
    for i in 0..300 {
        let schedule = scheduler.draw(Seed::from_bytes([51; 32]).of_session(i));
        let cues: usize =
            schedule.sets().iter().map(|s| s.cues().iter().filter(|c| !c.is_blank()).count()).sum();
        ends[40 - cues] += 1;
        assert!(
            schedule
                .sets()
                .last()
                .is_some_and(|set| set.cues().last().is_some_and(|cue| cues < 40 || !cue.is_blank()))
        );
    }
    assert!(ends[0] > 0 && ends[1] > 0, "both ends are met: {ends:?}");
}

#[test]
fn the_warm_up_stays_first_and_the_others_come_in_every_order_equally() {
    let third = "\n[[drills]]\ndrill = \"counter-reach\"\nsets = 1\nwork_ms = 40700\ngap_ms = [4100, 9300]\ndirections = [\"left\", \"right\", \"forward\"]\n";
    let scheduler = scheduler(&format!("{OPEN}{third}"));
    let mut times = std::collections::HashMap::<Vec<usize>, f64>::new();
    for i in 0..6_000 {
        let slots = scheduler.slots(Seed::from_bytes([52; 32]).of_session(i));
        let drills: Vec<usize> =
            slots.chunk_by(|a, b| a.drill == b.drill).map(|block| block[0].drill).collect();
        assert_eq!(drills[0], 0);
        *times.entry(drills).or_default() += 1.0;
    }
    assert_eq!(times.len(), 6);
    // Chi-square, false alarm 1e-6.
    let square: f64 = times.values().map(|times| (times - 1_000.0).powi(2) / 1_000.0).sum();
    assert!(square < ChiSquared::new(5.0).expect("positive").inverse_cdf(1.0 - 1e-6), "{times:?}");
}

#[test]
fn sides_alternate_within_a_drill_left_first() {
    let schedule = scheduler(OPEN).draw(Seed::from_bytes([53; 32]));
    let sides: Vec<_> = schedule.sets().iter().filter(|set| set.step() == 4).map(SetPlan::side).collect();
    assert_eq!(sides, [Some(Side::Left), Some(Side::Right), Some(Side::Left)]);
    assert!(schedule.sets().iter().filter(|set| set.step() < 4).all(|set| set.side().is_none()));
}

#[test]
fn the_sound_check_word_is_one_of_those_asked_for_and_takes_nothing_from_the_cues() {
    let scheduler = scheduler(OPEN);
    let mut seen = [false; 5];
    for i in 0..200 {
        let schedule = scheduler.draw(Seed::from_bytes([54; 32]).of_session(i));
        seen[usize::from(schedule.check_word(5))] = true;
    }
    assert_eq!(seen, [true; 5]);
}

/// The same prescription with one set less in a drill: every set whose number stays with the same drill keeps its
/// moments to the millisecond.
#[test]
fn leaving_out_a_set_shifts_nothing_in_the_others() {
    let whole = scheduler(OPEN);
    let fewer = scheduler(&OPEN.replace("sets = 2", "sets = 1"));
    let moments = |set: &SetPlan| set.cues().iter().map(|cue| (cue.at(), cue.is_blank())).collect::<Vec<_>>();
    let mut kept = 0;
    for i in 0..100 {
        let seed = Seed::from_bytes([55; 32]).of_session(i);
        let (all, left) = (whole.draw(seed), fewer.draw(seed));
        for (one, other) in all.sets().iter().zip(left.sets()) {
            if (one.drill().name(), one.step()) == (other.drill().name(), other.step()) {
                assert_eq!(moments(one), moments(other));
                kept += 1;
            }
        }
        let first = all.clone().only_first(3);
        assert_eq!(first.sets(), &all.sets()[..3]);
    }
    assert!(kept > 200, "{kept} sets were compared");
}

/// A prescription within the limits, with whatever else a therapist could write.
fn any_prescription() -> impl Strategy<Value = String> {
    let drill = (0usize..2, 1u8..4, 60_000u32..110_000, 2_000u32..6_000, 4_000u32..7_000, 1_000u32..7_000);
    let draw = (0u32..251, 1u32..101, prop::option::of(100u32..5_000), 0u8..3, 2usize..6, 1u8..5);
    (prop::collection::vec((drill, draw), 1..3), prop::bool::ANY).prop_map(|(drills, drawn)| {
        let mut text = String::from(
            "schema = \"counterpoise.prescription/1\"\ntitle = \"any\"\nissued_on = 2026-03-09\n",
        );
        let _ = writeln!(text, "order = \"{}\"", if drawn { "drawn" } else { "as written" });
        for ((drill, sets, work, recover, least, width), (blanks, weight, rate, slack, k, streak)) in drills {
            let (name, directions) = [
                ("counter-shift", ["up", "left", "forward", "right", "forward left"]),
                ("counter-reach", ["right", "forward", "left", "forward right", "forward left"]),
            ][drill];
            let _ = writeln!(text, "[[drills]]\ndrill = \"{name}\"\nsets = {sets}\nwork_ms = {work}");
            let _ = writeln!(text, "recover_ms = {recover}\ngap_ms = [{least}, {}]", least + width);
            let _ = writeln!(text, "blank_per_mille = {blanks}\ndirections = {:?}", &directions[..k]);
            let _ = match rate {
                Some(rate) => writeln!(text, "shape = \"flat\"\nrate_thousandths = {rate}"),
                None => writeln!(text, "shape = \"even\""),
            };
            let streak = if k == 2 { streak.clamp(3, 4) } else { streak.min(3) };
            let _ = writeln!(text, "longest_streak = {streak}");
            let weights: Vec<u32> = (0..k as u32).map(|i| 1 + i * weight % 100).collect();
            let _ = match slack {
                0 => writeln!(text, "sequence = \"open\"\nweights = {weights:?}"),
                slack => writeln!(text, "sequence = \"covered\"\nslack = {slack}"),
            };
        }
        text
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn no_session_of_any_prescription_is_ever_outside_its_limits(text in any_prescription(), seed: [u8; 32]) {
        let scheduler = scheduler(&text);
        for session in 0..16 {
            let schedule = scheduler.draw(Seed::from_bytes(seed).of_session(session));
            prop_assert_eq!(inspect(scheduler.prescription(), &schedule), Ok(()));
        }
    }

    #[test]
    fn every_seed_replays_to_the_same_bytes(text in any_prescription(), seed: [u8; 32]) {
        let seed = Seed::from_bytes(seed);
        prop_assert_eq!(bytes(&scheduler(&text), seed), bytes(&scheduler(&text), seed));
    }

    #[test]
    fn a_pause_keeps_what_was_called_and_shortens_no_gap(
        text in any_prescription(), seed: [u8; 32], pause in 1u16..50, set: prop::sample::Index, next: prop::sample::Index,
        share in 0.0..1.0,
    ) {
        let seed = Seed::from_bytes(seed);
        let scheduler = scheduler(&text);
        let schedule = scheduler.draw(seed);
        let set = set.get(schedule.sets());
        let next = next.index(set.cues().len() + 1);
        // The pause comes between the last cue called and the next one, or the end.
        let from = next.checked_sub(1).map_or(Millis(0), |last| set.cues()[last].at());
        let to = set.cues().get(next).map_or(set.work(), Cue::at);
        let elapsed = from + Millis((f64::from((to - from).0) * share) as u32);
        let again = scheduler.after_pause(seed, set, pause, elapsed, next);
        let plan = &scheduler.prescription().drills()[scheduler.slots(seed)[usize::from(set.number()) - 1].drill];
        prop_assert_eq!(&again.cues()[..next], &set.cues()[..next]);
        prop_assert!(again.cues().len() <= set.cues().len());
        if let Some(first) = again.cues().get(next) {
            prop_assert!(first.at() >= elapsed + plan.gaps().least());
            prop_assert!(first.at() < elapsed + plan.gaps().greatest());
        }
        let mut before = Millis(0);
        for (index, (cue, planned)) in again.cues().iter().zip(set.cues()).enumerate() {
            prop_assert_eq!(cue.call(), planned.call(), "directions and blanks follow as planned");
            prop_assert_eq!(before + cue.gap(), cue.at());
            prop_assert!(cue.gap() >= plan.gaps().least());
            prop_assert!(index <= next || cue.gap() == planned.gap());
            prop_assert!(cue.at() <= plan.work() - plan.recover());
            before = cue.at();
        }
        if let Some(dropped) = set.cues().get(again.cues().len().max(next + 1)) {
            prop_assert!(again.cues().len() <= next || before + dropped.gap() > plan.work() - plan.recover());
        }
        prop_assert_eq!(&again, &scheduler.after_pause(seed, set, pause, elapsed, next), "it replays");
        prop_assert_eq!((again.number(), again.work(), again.side()), (set.number(), set.work(), set.side()));
    }
}
