//! What an accepted prescription holds.

use jiff::civil::date;

use super::super::{DrillOrder, DrillPlan, Sequence, Shape, UnlockName};
use super::{WHOLE, changed, read};
use crate::plan::direction::Direction;
use crate::plan::drill::{Form, Support};
use crate::units::Millis;

#[test]
fn every_field_is_kept() {
    let prescription = read(WHOLE).unwrap();
    assert_eq!(prescription.title(), "Second month");
    assert_eq!(prescription.issued_by(), "Ward 4");
    assert_eq!(prescription.issued_on(), date(2026, 4, 17));
    assert_eq!((prescription.days_a_week(), prescription.weeks()), (4, 9));
    assert_eq!(prescription.review_after_sessions(), 10);
    assert_eq!(prescription.rest(), Millis(70_000));
    assert_eq!(prescription.order(), DrillOrder::Drawn);
    assert_eq!(prescription.effort_at_most(), 5);
    let [unlock] = prescription.unlocks() else { panic!() };
    assert_eq!((unlock.name, unlock.watched_by.as_str()), (UnlockName::Backward, "initials"));
    assert_eq!((unlock.on, unlock.partner.as_str()), (date(2026, 4, 10), ""));

    let [shift, reach] = prescription.drills() else { panic!() };
    assert_eq!((shift.drill().name(), shift.form(), shift.line()), ("counter-shift", Form::Alone, 11));
    assert_eq!((shift.sets(), shift.work(), shift.recover()), (2, Millis(55_000), Millis(6_000)));
    assert_eq!((shift.step(), shift.ceiling()), (1, 4));
    assert_eq!((shift.gaps().least(), shift.gaps().greatest()), (Millis(4_500), Millis(12_500)));
    assert_eq!(shift.gaps().shape(), Shape::Flat { rate_thousandths: 900 });
    assert_eq!((shift.blank_per_mille(), shift.weights()), (120, &[2, 2, 1][..]));
    let directions: Vec<Direction> = shift.targets().iter().map(|target| target.direction).collect();
    assert_eq!(directions, [Direction::Left, Direction::Right, Direction::ForwardLeft]);
    assert_eq!((shift.sequence(), shift.longest_streak()), (Sequence::Open, Some(3)));

    assert_eq!((reach.drill().name(), reach.line()), ("counter-reach", 28));
    assert_eq!(reach.gaps().shape(), Shape::Even);
    assert_eq!(reach.sequence(), Sequence::Covered { slack: 2 });
    assert_eq!(reach.conditions().support, Support::OneHand);
}

#[test]
fn what_is_left_out_takes_its_default() {
    let prescription = read(
        r#"
schema = "counterpoise.prescription/1"
title = "  Short  "
issued_on = 2024-02-29
[[drills]]
drill = "counter-shift"
sets = 1
work_ms = 50000
gap_ms = [4000, 9000]
directions = ["left", "right"]
[[drills]]
drill = "counter-shift"
sets = 1
work_ms = 50000
gap_ms = [4000, 9000]
directions = ["up"]
[[drills]]
drill = "counter-reach"
sets = 1
work_ms = 50000
gap_ms = [4000, 9000]
directions = ["left", "right", "forward"]
sequence = "covered"
"#,
    )
    .unwrap();
    assert_eq!((prescription.title(), prescription.issued_by()), ("Short", ""));
    assert_eq!((prescription.days_a_week(), prescription.weeks()), (3, 12));
    assert_eq!((prescription.review_after_sessions(), prescription.rest()), (12, Millis(60_000)));
    assert_eq!((prescription.order(), prescription.effort_at_most()), (DrillOrder::AsWritten, 6));
    let [two, one, three] = prescription.drills() else { panic!() };
    for plan in [two, one, three] {
        assert_eq!(
            (plan.form(), plan.step(), plan.ceiling()),
            (Form::Alone, 1, 1),
            "no step up unless it says so"
        );
        assert_eq!((plan.recover(), plan.blank_per_mille()), (Millis(5_000), 100));
        assert_eq!(plan.gaps().shape(), Shape::Flat { rate_thousandths: 1_250 });
        assert!(plan.weights().iter().all(|weight| *weight == 1));
        assert_eq!(plan.weights().len(), plan.targets().len());
    }
    assert_eq!([two, one, three].map(DrillPlan::longest_streak), [Some(3), None, Some(2)]);
    assert_eq!((two.sequence(), three.sequence()), (Sequence::Open, Sequence::Covered { slack: 1 }));
}

#[test]
fn a_warm_up_with_both_hands_resting_always_comes_first() {
    let begins_harder = changed("step = 1", "step = 2");
    let begins_with_reaches = {
        let reach = WHOLE.find("[[drills]]\ndrill = \"counter-reach\"").unwrap();
        let unlocks = WHOLE.find("[[unlocks]]").unwrap();
        let shift = WHOLE.find("[[drills]]").unwrap();
        format!("{}{}{}{}", &WHOLE[..shift], &WHOLE[reach..unlocks], &WHOLE[shift..reach], &WHOLE[unlocks..])
    };
    for (text, plans) in [(WHOLE.to_owned(), 2), (begins_harder, 3), (begins_with_reaches, 3)] {
        let prescription = read(&text).unwrap();
        assert_eq!(prescription.drills().len(), plans);
        let first = &prescription.drills()[0];
        assert!(first.drill().is_warm_up() && first.step() == 1);
        assert_eq!(first.conditions().support, Support::TwoHands);
        if plans == 3 {
            assert_eq!((first.line(), first.sets(), first.work()), (0, 1, Millis(60_000)));
            let directions: Vec<&str> =
                first.targets().iter().map(|target| target.direction.name()).collect();
            assert_eq!(directions, ["left", "right", "forward"]);
            assert_eq!((first.longest_streak(), first.ceiling()), (Some(2), 1));
        }
    }
}

#[test]
fn a_changed_byte_changes_the_digest_and_line_ends_do_not_matter() {
    let unix = read(WHOLE).unwrap();
    let windows = read(&format!("\u{feff}{}", WHOLE.replace('\n', "\r\n"))).unwrap();
    assert_eq!(windows.title(), unix.title());
    assert_eq!(windows.drills()[1].line(), unix.drills()[1].line());
    assert_ne!(windows.digest(), unix.digest());
    assert_eq!(read(WHOLE).unwrap().digest(), unix.digest());
}

/// Both sides of every limit; the far side is refused with a text that `refused` checks.
#[test]
fn both_ends_of_every_range_are_allowed_and_nothing_past_them() {
    for (field, least, most) in [
        ("days_a_week = 4", 1, 6),
        ("weeks = 9", 1, 52),
        ("review_after_sessions = 10", 1, 24),
        ("rest_ms = 70000", 45_000, 1_800_000),
        ("recover_ms = 6000", 2_000, 46_000),
        ("rate_thousandths = 900", 100, 5_000),
        ("blank_per_mille = 120", 0, 250),
        ("longest_streak = 3", 1, 3),
        ("effort_at_most = 5", 1, 6),
        ("slack = 2", 1, 3),
        ("step = 1", 1, 4),
        ("ceiling = 4", 1, 5),
        ("sets = 2", 1, 7),
    ] {
        let (name, _) = field.split_once(" = ").unwrap();
        let text = |value: i64| changed(field, &format!("{name} = {value}"));
        // `recover_ms` is bounded by the room for two calls, as `refused` shows; that many sets are drawn again.
        if name != "recover_ms" {
            assert!(read(&text(most)).is_ok(), "{name} = {most}: {:?}", read(&text(most)).err());
        }
        assert!(read(&text(least)).is_ok(), "{name} = {least}: {:?}", read(&text(least)).err());
        for value in [least - 1, most + 1, i64::MIN, i64::MAX] {
            assert!(read(&text(value)).is_err(), "{name} = {value}");
        }
    }
}

#[test]
fn gaps_sets_and_texts_are_allowed_up_to_their_ends() {
    let gap = |pair: &str| changed("[4500, 12500]", pair);
    assert!(read(&gap("[4000, 5000]")).is_ok());
    for pair in ["[3999, 5000]", "[4000, 4999]", "[5000, 5000]", "[5001, 5000]", "[-1, 5000]"] {
        assert!(read(&gap(pair)).is_err(), "{pair}");
    }
    let long = |pair: &str| gap(pair).replace("work_ms = 55000", "work_ms = 120000");
    assert!(read(&long("[20000, 60000]")).is_ok());
    assert!(read(&long("[20000, 60001]")).is_err());

    let work = |value: u32| changed("work_ms = 65000", &format!("work_ms = {value}"));
    assert!(read(&work(120_000)).is_ok());
    assert!(read(&work(120_001)).is_err());

    let title = |length: usize| changed("Second month", &"é".repeat(length));
    assert!(read(&title(80)).is_ok() && read(&title(1)).is_ok());
    assert!(read(&title(81)).is_err() && read(&title(0)).is_err());

    let weights = |weight: i64| changed("[2, 2, 1]", &format!("[1, {weight}, 1]"));
    assert!(read(&weights(1)).is_ok() && read(&weights(100)).is_ok());
    assert!(read(&weights(0)).is_err() && read(&weights(101)).is_err() && read(&weights(-1)).is_err());
}

/// 2 x 55 s and 3 x 65 s are 305 s; 14 minutes are 840 s, 10 sets the most.
#[test]
fn a_session_may_reach_ten_sets_and_fourteen_minutes() {
    let sets = |count: u32, work: u32| {
        changed("sets = 3\nwork_ms = 65000", &format!("sets = {count}\nwork_ms = {work}"))
    };
    assert!(read(&sets(8, 91_250)).is_ok(), "10 sets and 110 + 730 = 840 s");
    assert!(read(&sets(8, 91_251)).is_err());
    assert!(read(&sets(9, 30_000)).is_err());
    // With the built-in warm-up: 60 + 110 + 670 s, 1 + 2 + 7 sets.
    let with = |count: u32, work: u32| sets(count, work).replacen("step = 1", "step = 2", 1);
    assert!(read(&with(7, 95_714)).is_ok());
    assert!(read(&with(7, 95_715)).is_err());
    assert!(read(&with(8, 40_000)).is_err());
}

#[test]
fn a_work_of_ten_seconds_needs_calls_that_nearly_always_fit() {
    // 4 to 5 s, twice, and 2 s to come back are 12 s at most: every set fits two calls. In 10 s only a few do.
    let short = |work: u32, blanks: u32| {
        changed("work_ms = 55000\nrecover_ms = 6000", &format!("work_ms = {work}\nrecover_ms = 2000"))
            .replace("[4500, 12500]", "[4000, 5000]")
            .replace("blank_per_mille = 120", &format!("blank_per_mille = {blanks}"))
    };
    assert!(read(&short(12_000, 0)).is_ok());
    assert!(read(&short(10_000, 0)).unwrap_err().fact().contains("drawn again"));
    assert!(read(&short(9_999, 0)).unwrap_err().fact().contains("`work_ms` is 9999"));
}

#[test]
fn two_directions_may_have_a_streak_of_three_or_four() {
    let two = |streak: u32| {
        changed("[\"left\", \"right\", \"forward left\"]", "[\"left\", \"right\"]")
            .replace("weights = [2, 2, 1]\n", "")
            .replace("longest_streak = 3", &format!("longest_streak = {streak}"))
    };
    assert!(read(&two(3)).is_ok() && read(&two(4)).is_ok());
    assert!(read(&two(2)).is_err() && read(&two(5)).is_err() && read(&two(0)).is_err());
}
