use super::{Bounds, Limits};
use crate::plan::drill::{Drill, Form};

mod frozen;

fn most(bounds: Bounds, name: &str, form: Form) -> Option<u8> {
    let drill = Drill::named(name).unwrap();
    bounds.highest_step(&drill.ladders()[0], form, drill.targets(), u8::MAX, &[])
}

#[test]
fn every_row_of_the_rule_for_tests() {
    // counter-reach: one hand, one hand, fingertips ...; counter-shift: two hands three times, one hand,
    // fingertips; pushes are with a partner.
    assert_eq!(most(Bounds::for_tests_below(0), "counter-reach", Form::Alone), Some(5));
    assert_eq!(most(Bounds::for_tests_below(0), "pushes", Form::Partner), Some(4));
    assert_eq!(most(Bounds::for_tests_below(1), "counter-reach", Form::Alone), Some(2), "a hand rests");
    assert_eq!(most(Bounds::for_tests_below(1), "counter-shift", Form::Alone), Some(3), "step 3 at most");
    assert_eq!(most(Bounds::for_tests_below(1), "pushes", Form::Partner), None);
    for tests in [2, 3, 5] {
        let bounds = Bounds::for_tests_below(tests);
        assert_eq!(most(bounds, "counter-shift", Form::Alone), Some(1));
        assert_eq!(most(bounds, "counter-reach", Form::Alone), None, "one hand does not do");
    }
}

#[test]
fn both_is_never_wider_than_either() {
    let all = [
        Bounds::OPEN,
        Bounds::CAUTIOUS,
        Bounds::STEP_ONE,
        Bounds::BOTH_HANDS,
        Bounds { no_head_turns: true, ..Bounds::OPEN },
        Bounds { no_rises: true, ..Bounds::OPEN },
    ];
    for (one, other) in all.iter().flat_map(|one| all.iter().map(move |other| (*one, *other))) {
        assert_eq!(one.and(other), other.and(one));
        for drill in Drill::all() {
            for form in drill.forms() {
                let (both, alone) = (one.and(other), most(one, drill.name(), *form));
                assert!(most(both, drill.name(), *form) <= alone, "{}", drill.name());
            }
        }
    }
    assert_eq!(Bounds::OPEN.and(Bounds::OPEN).limits, Limits::OPEN);
}

#[test]
fn a_neck_that_must_not_turn_leaves_out_what_turns_it() {
    let stiff = Bounds { no_head_turns: true, ..Bounds::OPEN };
    assert_eq!(most(stiff, "head-turns", Form::Alone), None);
    assert_eq!(most(stiff, "shoulder-looks", Form::Partner), None);
    assert_eq!(most(stiff, "counter-reach", Form::Alone), Some(5));
    let seated = Bounds { no_rises: true, ..Bounds::OPEN };
    assert_eq!(most(seated, "fast-rises", Form::Alone), None);
}

#[test]
fn limits_are_said_and_none_are_silent() {
    assert_eq!(Bounds::OPEN.to_string(), "");
    assert_eq!(
        Bounds::BOTH_HANDS.to_string(),
        "Only what you practice alone. Up to step 1 of each kind of practice. Both hands always rest on the counter."
    );
}
