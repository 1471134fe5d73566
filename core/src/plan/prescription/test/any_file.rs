//! Whatever the bytes: no panic, and what is accepted is within the limits, as code written here finds.

use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::TestRunner;

use super::super::{Prescription, Sequence, Shape};
use super::WHOLE;

/// The hard limits once more, from the design and not from `limits.rs`.
fn assert_within_limits(prescription: &Prescription) {
    assert!((1..=80).contains(&prescription.title().chars().count()));
    assert!((1..=6).contains(&prescription.days_a_week()) && (1..=52).contains(&prescription.weeks()));
    assert!((1..=24).contains(&prescription.review_after_sessions()));
    assert!(prescription.rest().0 >= 45_000);
    assert!((1..=6).contains(&prescription.effort_at_most()));
    assert!(prescription.unlocks().iter().all(|unlock| unlock.on <= prescription.issued_on()));
    assert!(prescription.unlocks().iter().all(|unlock| !unlock.watched_by.is_empty()));
    let unlocked = prescription.unlocks().iter().any(|unlock| unlock.name.name() == "backward");

    let plans = prescription.drills();
    assert_eq!((plans[0].drill().name(), plans[0].step()), ("counter-shift", 1));
    let unlocks = |name: &str, partner: &str| {
        prescription.unlocks().iter().any(|unlock| unlock.name.name() == name && unlock.partner == partner)
    };
    let work = |plan: &super::super::DrillPlan| u32::from(plan.sets()) * plan.work().0;
    assert!(plans.iter().map(work).sum::<u32>() <= 840_000);
    assert!(plans.iter().map(|plan| u32::from(plan.sets())).sum::<u32>() <= 10);
    for plan in plans {
        let (least, greatest) = (plan.gaps().least().0, plan.gaps().greatest().0);
        assert!(plan.sets() >= 1 && (10_000..=120_000).contains(&plan.work().0));
        assert!(least >= 4_000 && greatest <= 60_000 && greatest >= least + 1_000);
        assert!(plan.recover().0 >= 2_000 && 2 * least + plan.recover().0 <= plan.work().0);
        assert!(plan.blank_per_mille() <= 250);
        if let Shape::Flat { rate_thousandths } = plan.gaps().shape() {
            assert!((100..=5_000).contains(&rate_thousandths));
        }
        let steps = plan.drill().ladder().len();
        assert!(plan.step() >= 1 && plan.ceiling() >= plan.step() && usize::from(plan.ceiling()) <= steps);
        assert!(plan.drill().forms().contains(&plan.form()));
        let names: Vec<&str> = plan.targets().iter().map(|target| target.name.as_str()).collect();
        let mut once = names.clone();
        once.sort_unstable();
        once.dedup();
        assert!(!names.is_empty() && once.len() == names.len());
        assert!(names.iter().all(|name| plan.drill().targets().iter().any(|target| target.name == *name)));
        assert!(unlocked || plan.targets().iter().all(|target| !target.direction.name().starts_with("back")));
        let alone = plan.form().name() == "alone";
        for target in plan.targets() {
            assert!(!(alone && target.action.needs_partner()));
            let span = target.span.map_or(0, |span| span.length.0);
            assert!(span <= if target.action.closes_eyes() { 10_000 } else { 30_000 });
            for name in target.action.unlocks() {
                let anybody = plan.partners().iter().any(|partner| unlocks(name.name(), partner));
                assert!(if alone { unlocks(name.name(), "") } else { anybody });
            }
        }
        if let Some((gentlest, firmest)) = plan.strength() {
            assert!(
                firmest.number() <= 2 && firmest.number() - gentlest.number() <= 1,
                "no therapist is there"
            );
            assert!(plan.has_pushes() && least >= 10_000);
        }
        let streaks = match names.len() {
            1 => vec![None],
            2 => vec![Some(3), Some(4)],
            _ => vec![Some(1), Some(2), Some(3)],
        };
        assert!(streaks.contains(&plan.longest_streak()));
        assert_eq!(plan.weights().len(), names.len());
        assert!(plan.weights().iter().all(|weight| (1..=100).contains(weight)));
        if let Sequence::Covered { slack } = plan.sequence() {
            assert!((1..=3).contains(&slack) && names.len() > 1);
            assert!(plan.weights().iter().all(|weight| *weight == 1));
        }
    }
}

/// A refusal must be fit to read: one line, a place, a hint that ends like a sentence or an example.
fn assert_readable(result: Result<Prescription, super::Refusal>) {
    match result {
        Ok(prescription) => assert_within_limits(&prescription),
        Err(refusal) => {
            let text = refusal.to_string();
            assert!(text.contains("(x.toml") && !text.contains('\n') && !text.contains('\u{1b}'), "{text}");
            assert!(!refusal.hint().is_empty() && !refusal.hint().contains('\n'));
        }
    }
}

/// The numbers and words with which a value of `WHOLE` is replaced: ends of limits, and what is no value at all.
fn value() -> impl Strategy<Value = String> {
    prop_oneof![
        any::<i64>().prop_map(|n| n.to_string()),
        (0_u32..20).prop_map(|n| n.to_string()),
        (0_u32..130_000).prop_map(|n| n.to_string()),
        (3_900_u32..30_000, 4_900_u32..62_000).prop_map(|(a, b)| format!("[{a}, {b}]")),
        proptest::collection::vec(0_u32..102, 0..6).prop_map(|list| format!("{list:?}")),
        proptest::sample::subsequence(
            vec!["left", "right", "forward", "back", "up", "forward left", "back right", "down"],
            0..6,
        )
        .prop_map(|list| format!("{list:?}")),
        proptest::sample::select(vec![
            "pushes",
            "quick-steps",
            "steady-holds",
            "called-changes",
            "fast-rises",
            "catching"
        ])
        .prop_map(|name| format!("\"{name}\"")),
        proptest::sample::select(vec![
            "\"partner\"",
            "[\"hold\"]",
            "[\"eyes closed\", \"lean left\"]",
            "[1, 2]",
            "\"K.\""
        ])
        .prop_map(str::to_owned),
        proptest::sample::select(vec![
            "nan",
            "-inf",
            "1.5",
            "true",
            "\"\"",
            "\"open\"",
            "\"covered\"",
            "\"flat\"",
            "\"even\"",
            "\"alone\"",
            "\"counter-reach\"",
            "\"counter-shift\"",
            "2026-04-17",
            "{}",
            "[]",
            "[[1]]",
            "\"\\u001b\"",
        ])
        .prop_map(str::to_owned),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(256))]

    #[test]
    fn random_bytes_never_panic(bytes in proptest::collection::vec(any::<u8>(), 0..400)) {
        assert_readable(Prescription::read("x.toml", &bytes));
    }

    #[test]
    fn a_prescription_with_some_bytes_changed_is_refused_or_within_limits(
        changes in proptest::collection::vec((0..WHOLE.len(), any::<u8>()), 1..4),
        cut in 0..=WHOLE.len(),
        keep in proptest::bool::weighted(0.7),
    ) {
        let mut bytes = WHOLE.as_bytes().to_vec();
        for (at, byte) in changes {
            bytes[at] = byte;
        }
        if !keep {
            bytes.truncate(cut);
        }
        assert_readable(Prescription::read("x.toml", &bytes));
    }

    #[test]
    fn a_prescription_with_other_values_is_refused_or_within_limits(
        changes in proptest::collection::vec((0..WHOLE.lines().count(), value()), 1..4),
        dropped in proptest::collection::vec(0..WHOLE.lines().count(), 0..3),
    ) {
        let mut lines: Vec<String> = WHOLE.lines().map(str::to_owned).collect();
        for (line, value) in changes {
            if let Some((field, _)) = lines[line].clone().split_once(" = ") {
                lines[line] = format!("{field} = {value}");
            }
        }
        for line in dropped {
            lines[line].clear();
        }
        assert_readable(Prescription::read("x.toml", lines.join("\n").as_bytes()));
    }
}

/// Prescriptions whose values lie on either side of the limits, more often within them.
fn plausible() -> impl Strategy<Value = String> {
    let dose = (1_u32..8, 9_000_u32..130_000, 1_500_u32..12_000);
    let gaps = (3_700_u32..12_000, 800_u32..20_000);
    let rest = (0_u32..270, proptest::option::of(2_u32..5), 1_u32..6, 1_u32..6, any::<bool>());
    let directions =
        proptest::sample::subsequence(vec!["left", "right", "forward", "forward left", "back left"], 1..5);
    (dose, gaps, rest, directions).prop_map(|((sets, work, recover), (least, width), rest, directions)| {
        let (blank, streak, step, ceiling, unlocked) = rest;
        let streak = streak.map(|streak| format!("longest_streak = {streak}")).unwrap_or_default();
        let unlock = "[[unlocks]]\nname = \"backward\"\nwatched_by = \"k\"\non = 2025-01-01";
        format!(
            "schema = \"counterpoise.prescription/1\"\ntitle = \"t\"\nissued_on = 2025-01-02\n[[drills]]\n\
             drill = \"counter-reach\"\nsets = {sets}\nwork_ms = {work}\nrecover_ms = {recover}\nstep = {step}\n\
             ceiling = {ceiling}\ngap_ms = [{least}, {}]\nblank_per_mille = {blank}\ndirections = {directions:?}\n\
             {streak}\n{}\n",
            least + width,
            if unlocked { unlock } else { "" },
        )
    })
}

#[test]
fn plausible_prescriptions_are_refused_or_within_limits() {
    let mut runner = TestRunner::deterministic();
    let mut accepted = 0;
    for _ in 0..400 {
        let text = plausible().new_tree(&mut runner).unwrap().current();
        let result = Prescription::read("x.toml", text.as_bytes());
        accepted += u32::from(result.is_ok());
        assert_readable(result);
    }
    assert!((40..=360).contains(&accepted), "both sides are tried: {accepted} of 400 accepted");
}
