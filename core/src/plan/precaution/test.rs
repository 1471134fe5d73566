use super::{Precaution, Precautions};
use crate::plan::direction::Direction;
use crate::plan::drill::{Action, Drill, Form, Ladder, LadderStep, Support, Target};

/// What every call of every drill asks of the body, call by call: a change of one is seen here.
#[test]
fn each_call_of_each_drill_is_ruled_out_by_what_it_asks_of_the_body() {
    let of = |drill: &str, target: &str| -> Vec<&str> {
        let drill = Drill::named(drill).unwrap();
        let target = drill.targets().iter().find(|one| one.name == target).unwrap();
        target.ruled_out_by().iter().map(Precaution::name).collect()
    };
    let (left_step, right_step) = ("no step with the left leg", "no step with the right leg");
    let (left_leg, right_leg) = ("no weight on the left leg alone", "no weight on the right leg alone");
    let (left_arm, right_arm) = ("left arm stays down", "right arm stays down");
    let (head, back, bend) = ("no head turns or looking up", "nothing backward", "no bending or twisting");
    for (drill, target, expected) in [
        ("counter-shift", "left", vec![left_leg]),
        ("counter-shift", "forward right", vec![right_leg]),
        ("counter-shift", "forward", vec![]),
        ("counter-shift", "up", vec![]),
        ("counter-reach", "left", vec![left_leg, left_arm, bend]),
        ("counter-reach", "right", vec![right_leg, right_arm, bend]),
        ("counter-reach", "forward", vec![left_arm, right_arm, bend]),
        ("counter-reach", "back", vec![left_arm, right_arm, back, bend]),
        ("counter-reach", "back left", vec![left_leg, left_arm, head, back, bend]),
        ("quick-steps", "left", vec![left_step, left_leg, right_leg]),
        ("quick-steps", "forward", vec![left_step, right_step, left_leg, right_leg]),
        ("quick-steps", "back", vec![left_step, right_step, left_leg, right_leg, back]),
        ("steady-holds", "hold", vec![]),
        ("head-turns", "left", vec![head, bend]),
        ("following", "left", vec![head]),
        ("following", "reach up", vec![left_arm, right_arm, head, bend]),
        ("slow-target", "dot", vec![head]),
        ("shoulder-looks", "left shoulder", vec![head, back, bend]),
        ("fast-rises", "up", vec![bend]),
        ("called-changes", "eyes closed", vec![]),
        ("called-changes", "feet together", vec![left_step, right_step, left_leg, right_leg]),
        ("counter-walk", "stop", vec![left_step, right_step, left_leg, right_leg]),
        ("counter-walk", "turn", vec![left_step, right_step, left_leg, right_leg, head, bend]),
    ] {
        assert_eq!(of(drill, target), expected, "{drill}: {target}");
    }
}

#[test]
fn what_comes_from_outside_is_ruled_out_by_every_precaution() {
    let outside =
        [Action::Push, Action::Nudge, Action::Tug, Action::Slide, Action::Tilt, Action::Toss, Action::Throw];
    for action in outside {
        for direction in Direction::ALL {
            assert_eq!(super::of_action(action, *direction), Precautions::ALL, "{action} {direction}");
        }
    }
}

#[test]
fn a_call_toward_a_side_never_asks_less_of_the_other_side_than_its_mirror() {
    let mirror = |one: Precaution| match one {
        Precaution::NoLeftStep => Precaution::NoRightStep,
        Precaution::NoRightStep => Precaution::NoLeftStep,
        Precaution::NoLeftWeight => Precaution::NoRightWeight,
        Precaution::NoRightWeight => Precaution::NoLeftWeight,
        Precaution::LeftArmDown => Precaution::RightArmDown,
        Precaution::RightArmDown => Precaution::LeftArmDown,
        same @ (Precaution::NoHeadTurns | Precaution::NothingBackward | Precaution::NoBending) => same,
    };
    for action in Action::ALL {
        for direction in Direction::ALL {
            let name = direction.name();
            let other = if name.contains("left") {
                name.replace("left", "right")
            } else {
                name.replace("right", "left")
            };
            let other = Direction::from_name(&other).unwrap();
            let mut turned: Vec<Precaution> =
                super::of_action(*action, *direction).iter().map(mirror).collect();
            turned.sort_unstable();
            let mirrored: Vec<Precaution> = super::of_action(*action, other).iter().collect();
            assert_eq!(turned, mirrored, "{action} {direction}");
        }
    }
}

#[test]
fn each_step_is_ruled_out_by_what_its_stance_and_its_hands_ask() {
    let legs = [
        Precaution::NoLeftStep,
        Precaution::NoRightStep,
        Precaution::NoLeftWeight,
        Precaution::NoRightWeight,
    ];
    let arms = [Precaution::LeftArmDown, Precaution::RightArmDown];
    for step in Drill::all().iter().flat_map(Drill::ladders).flat_map(Ladder::steps) {
        let LadderStep { stance, support, .. } = *step;
        let ruled_out = step.ruled_out_by();
        let uneven = !["seated", "feet apart", "feet together"].contains(&stance.name());
        assert!(legs.iter().all(|leg| ruled_out.has(*leg) == uneven), "{stance}");
        let works = matches!(support, Support::Hovering | Support::HandsOnChair);
        assert!(arms.iter().all(|arm| ruled_out.has(*arm) == works), "{support}");
    }
}

#[test]
fn every_precaution_has_a_sentence_and_a_word_of_its_own() {
    for one in Precaution::ALL {
        assert!(!one.phrase().is_cue() && Precaution::from_name(one.name()) == Some(*one));
        let same = Precaution::ALL.iter().filter(|other| other.phrase() == one.phrase());
        assert_eq!(same.count(), 1, "{one}");
    }
    assert_eq!(Precautions::ALL.iter().count(), Precaution::ALL.len());
}

/// A part of a kind that nobody has looked at would be ruled out by every precaution: the built-in ones are all known.
#[test]
fn each_part_of_each_drill_is_known() {
    for drill in Drill::all() {
        for part in drill.parts() {
            assert_ne!(part.ruled_out_by(Direction::Left), Precautions::ALL, "{}", part.kind);
        }
    }
    let is_alone = |target: &&Target| !target.action.needs_partner();
    assert!(
        Drill::all()
            .iter()
            .filter(|drill| drill.forms().contains(&Form::Alone))
            .all(|drill| { drill.targets().iter().filter(is_alone).count() > 0 })
    );
}
