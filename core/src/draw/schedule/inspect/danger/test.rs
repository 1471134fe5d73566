//! A checker that cannot fail proves nothing: each danger is planted in a session that was right.

use super::super::{Fault, Rule, inspect};
use super::{Danger, in_place, is_ruled_out, of_cue};
use crate::draw::schedule::{Call, Cue, Schedule, Scheduler, Seed, SetPlan};
use crate::plan::direction::Direction;
use crate::plan::drill::{Action, Drill, Form, SecondTask, Strength, Surface};
use crate::plan::phrase::Phrase;
use crate::plan::precaution::{Precaution, Precautions};
use crate::plan::prescription::Prescription;
use crate::units::Millis;

const HEAD: &str = "schema = \"counterpoise.prescription/1\"\ntitle = \"planted\"\nissued_on = 2026-03-09\n";

fn drawn(drill: &str, unlocks: &[&str], partner: &str) -> (Prescription, Schedule) {
    let mut text = format!("{HEAD}[[drills]]\n{drill}");
    for name in unlocks {
        text += &format!(
            "[[unlocks]]\nname = \"{name}\"\nwatched_by = \"tests\"\non = 2026-03-01\npartner = \"{partner}\"\n"
        );
    }
    let prescription =
        Prescription::read("planted.toml", text.as_bytes()).unwrap_or_else(|why| panic!("{why}\n{text}"));
    let schedule = Scheduler::new(&prescription).unwrap().draw(Seed::from_bytes([5; 32]));
    (prescription, schedule)
}

fn pushes() -> (Prescription, Schedule) {
    drawn(
        "drill = \"pushes\"\nform = \"partner\"\nsets = 3\nwork_ms = 120000\ngap_ms = [12000, 40000]\nblank_per_mille = 0\n\
         directions = [\"left\", \"right\", \"forward\"]\nstrength = [1, 2]\n",
        &["pushes"],
        "K.",
    )
}

fn changes() -> (Prescription, Schedule) {
    drawn(
        "drill = \"called-changes\"\nsets = 3\nwork_ms = 120000\ngap_ms = [8000, 14000]\nblank_per_mille = 0\n\
         directions = [\"eyes closed\", \"lean left\", \"lean right\"]\n",
        &["eyes-closed"],
        "",
    )
}

fn throws() -> (Prescription, Schedule) {
    drawn(
        "drill = \"catching\"\nform = \"partner\"\nsets = 2\nwork_ms = 120000\ngap_ms = [12000, 20000]\nballs = 2\n\
         directions = [\"high left\", \"low right\", \"low left\"]\n",
        &[],
        "",
    )
}

fn holds() -> (Prescription, Schedule) {
    drawn(
        "drill = \"steady-holds\"\nsets = 2\nwork_ms = 90000\nstep = 7\ngap_ms = [5000, 9000]\ndirections = [\"hold\"]\n\
         spell_ms = 8000\ntested_hold_ms = 10000\n",
        &["one-leg"],
        "",
    )
}

fn reaches() -> (Prescription, Schedule) {
    drawn(
        "drill = \"combined-reaches\"\nsets = 3\nwork_ms = 120000\nstep = 2\ngap_ms = [6000, 9000]\n\
         directions = [\"forward\", \"left\", \"right\"]\n",
        &[],
        "",
    )
}

/// What the whole checker finds in a session that was right, after `spoil` changed the first call of this action.
#[track_caller]
fn found(
    session: (Prescription, Schedule),
    action: &str,
    spoil: impl FnOnce(&mut Schedule, usize, usize),
) -> Danger {
    let (prescription, mut schedule) = session;
    assert_eq!(inspect(&prescription, &schedule), Ok(()));
    let (set, cue) = first(&schedule, action);
    spoil(&mut schedule, set, cue);
    match inspect(&prescription, &schedule) {
        Err(Fault::Cue { rule: Rule::Safety(danger), .. } | Fault::Danger { danger, .. }) => danger,
        other => panic!("another finding: {other:?}"),
    }
}

/// The place of the first call of this action.
#[track_caller]
fn first(schedule: &Schedule, action: &str) -> (usize, usize) {
    let is = |cue: &Cue| cue.call().is_some_and(|call| call.action().name() == action);
    let place = |(set, plan): (usize, &SetPlan)| Some((set, plan.cues().iter().position(is)?));
    schedule.sets().iter().enumerate().find_map(place).unwrap_or_else(|| panic!("{action} is called"))
}

fn call(schedule: &mut Schedule, set: usize, cue: usize) -> &mut Call {
    schedule.sets[set].cues[cue].call.as_mut().expect("it calls")
}

/// What is found about one cue by itself, where the rules of drawing would be found broken first.
fn about(
    session: (Prescription, Schedule),
    action: &str,
    spoil: impl FnOnce(&mut SetPlan, usize),
) -> Option<Danger> {
    let (prescription, mut schedule) = session;
    let (set, cue) = first(&schedule, action);
    let plan = &prescription.drills()[1];
    assert_eq!(of_cue(plan, &schedule.sets[set], cue), None);
    spoil(&mut schedule.sets[set], cue);
    of_cue(plan, &schedule.sets[set], cue).or_else(|| of_cue(plan, &schedule.sets[set], cue + 1))
}

/// What is found about the sets as a whole, whatever the rules of drawing say.
fn whole(prescription: &Prescription, schedule: &Schedule) -> Option<Danger> {
    match super::inspect(prescription, schedule.sets()) {
        Err(Fault::Danger { danger, .. }) => Some(danger),
        _ => None,
    }
}

#[test]
fn what_is_wrong_with_a_push_is_found() {
    let push = |spoil: fn(&mut Call)| found(pushes(), "push", |s, set, cue| spoil(call(s, set, cue)));
    assert_eq!(push(|call| call.say.push(Phrase::own("reach.left"))), Danger::Announced);
    assert_eq!(push(|call| call.strength = Strength::new(3)), Danger::Strength);
    assert_eq!(push(|call| call.strength = None), Danger::Strength);
    assert_eq!(push(|call| call.strength = Strength::new(2)), Danger::Practice);
    assert_eq!(push(|call| call.practice = false), Danger::Practice);
    assert_eq!(push(|call| call.lead = Millis(2_900)), Danger::Lead);
    assert_eq!(push(|call| call.lead = Millis(36_000)), Danger::Lead);
    let late = found(pushes(), "push", |s, _, _| {
        call(s, 3, 0).practice = true;
    });
    assert_eq!(late, Danger::Practice, "later pushes are not for practice");
    let many = found(pushes(), "push", |s, _, _| {
        let calls: Vec<Call> =
            (1..4).flat_map(|set| &s.sets[set].cues).filter_map(|cue| cue.call.clone()).collect();
        let gentle =
            |call: &Call| Call { strength: Some(Strength::GENTLEST), practice: false, ..call.clone() };
        let kinds = [
            calls.iter().find(|c| c.direction() == Direction::Left),
            calls.iter().find(|c| c.direction() == Direction::Right),
        ];
        let [left, right] = kinds.map(|call| gentle(call.expect("both sides are pushed")));
        s.sets[3].cues = (1..=7)
            .map(|nth| Cue {
                at: Millis(nth * 12_000),
                gap: Millis(12_000),
                call: Some(if nth % 2 == 0 { left.clone() } else { right.clone() }),
            })
            .collect();
    });
    assert_eq!(many, Danger::ManyPushes);
}

#[test]
fn what_is_wrong_with_closed_eyes_is_found() {
    let long = found(changes(), "close eyes", |s, set, cue| {
        call(s, set, cue).span.as_mut().expect("it lasts").length = Millis(10_001);
    });
    assert_eq!(long, Danger::Blind);
    let endless = about(changes(), "close eyes", |set, cue| set.cues[cue].call.as_mut().unwrap().span = None);
    assert_eq!(endless, Some(Danger::Blind));
    let soft = about(changes(), "close eyes", |set, _| set.conditions.surface = Surface::Foam);
    assert_eq!(soft, Some(Danger::Blind));
    let soon_before = about(changes(), "close eyes", |set, cue| set.cues[cue].gap = Millis(2_999));
    assert_eq!(soon_before, Some(Danger::NearClosedEyes));
    let soon_after = about(changes(), "close eyes", |set, cue| {
        let opened = set.cues[cue].end();
        set.cues[cue + 1].at = opened + Millis(4_999);
    });
    assert_eq!(soon_after, Some(Danger::NearClosedEyes));
}

#[test]
fn what_is_wrong_with_balls_and_parts_is_found() {
    assert_eq!(found(throws(), "toss", |s, set, cue| call(s, set, cue).ball = None), Danger::Ball);
    let one = about(throws(), "toss", |set, _| set.balls = 1);
    assert_eq!(one, Some(Danger::Ball));
    let reach = |added: &'static [&str]| {
        found(reaches(), "reach", move |s, set, cue| {
            let call = call(s, set, cue);
            call.say.truncate(1);
            call.say.extend(added.iter().map(|id| Phrase::own(id)));
        })
    };
    assert_eq!(reach(&["part.high", "part.knees"]), Danger::Parts, "step 2 allows two parts in all");
    assert_eq!(reach(&["lean.left"]), Danger::Parts, "no part of this drill");
    let turned = about(reaches(), "reach", |set, cue| {
        let call = set.cues[cue].call.as_mut().unwrap();
        call.direction = Direction::Forward;
        call.say = vec![Phrase::own("reach.forward"), Phrase::own("part.turn")];
    });
    assert_eq!(turned, Some(Danger::Parts), "there is no side to turn to");
}

#[test]
fn what_nobody_watched_or_confirmed_is_found() {
    let (prescription, mut schedule) = pushes();
    assert_eq!(whole(&prescription, &schedule), None);
    let (unlocked_alone, _) = changes();
    assert_eq!(whole(&unlocked_alone, &schedule), Some(Danger::Locked), "another prescription");
    let (set, cue) = first(&schedule, "push");
    call(&mut schedule, set, cue).direction = Direction::BackLeft;
    assert_eq!(whole(&prescription, &schedule), Some(Danger::Locked), "backward");

    let (prescription, mut schedule) = throws();
    schedule.sets[1].form = Form::Alone;
    assert_eq!(whole(&prescription, &schedule), Some(Danger::Alone));

    let (prescription, mut schedule) = reaches();
    assert!(in_place(&prescription.drills()[1], &schedule.sets[1]));
    schedule.sets[1].drill = Drill::named("counter-walk").unwrap();
    assert!(!in_place(&prescription.drills()[1], &schedule.sets[1]), "no free stretch is confirmed");
    schedule.sets[1].drill = prescription.drills()[1].drill();
    schedule.sets[2].conditions.surface = Surface::Foam;
    assert!(!in_place(&prescription.drills()[1], &schedule.sets[2]), "no base is confirmed");
    schedule.sets[2].conditions.surface = Surface::Firm;
    let (set, cue) = first(&schedule, "reach");
    call(&mut schedule, set, cue).action = Action::Rise;
    assert_eq!(whole(&prescription, &schedule), Some(Danger::NotConfirmed), "no chair is confirmed");
    call(&mut schedule, set, cue).action = Action::Reach;
    schedule.sets[2].conditions.second_task = Some(SecondTask::Talk);
    assert_eq!(whole(&prescription, &schedule), Some(Danger::Locked), "a second task");
}

#[test]
fn what_is_wrong_with_a_hold_or_with_watching_is_found() {
    let (prescription, mut schedule) = holds();
    assert_eq!(whole(&prescription, &schedule), None);
    let (set, cue) = first(&schedule, "hold");
    call(&mut schedule, set, cue).span.as_mut().expect("it lasts").length = Millis(8_001);
    assert_eq!(whole(&prescription, &schedule), Some(Danger::Hold), "80 % of 10 s are 8 s");

    let text =
        "drill = \"slow-target\"\nsets = 2\nwork_ms = 60000\ngap_ms = [5000, 8000]\ndirections = [\"dot\"]\n";
    let (prescription, mut schedule) = drawn(text, &[], "");
    assert_eq!(whole(&prescription, &schedule), None, "two minutes are allowed");
    schedule.sets.push(schedule.sets[2].clone());
    assert_eq!(whole(&prescription, &schedule), Some(Danger::Watching));
}

#[test]
fn what_a_precaution_rules_out_is_found() {
    let session = || {
        let (free, schedule) = reaches();
        let within = free.within(Precautions::of(&[Precaution::LeftArmDown]));
        assert_eq!(whole(&free, &schedule), None);
        (within, schedule)
    };
    let (within, schedule) = session();
    assert_eq!(whole(&within, &schedule), Some(Danger::Precaution), "a reach to the left");
    let drawn = Scheduler::new(&within).unwrap().draw(Seed::from_bytes([5; 32]));
    assert_eq!(inspect(&within, &drawn), Ok(()));
    for one in Precaution::ALL {
        let (free, schedule) = pushes();
        let within = Precautions::of(&[*one]);
        let call = schedule.sets[1].cues[0].call().unwrap();
        assert!(!is_ruled_out(&free, call, &schedule.sets[1]));
        assert!(is_ruled_out(&free.within(within), call, &schedule.sets[1]), "a push in spite of {one}");
    }
}

/// Both lists of what each call asks for, which share no code, agree about every call of every drill at every step.
#[test]
fn the_second_list_of_limbs_agrees_with_the_first() {
    let (gentle, schedule) = (Prescription::ready("gentle").unwrap(), reaches().1);
    let seen = schedule.sets[1].cues[0].call().unwrap();
    for drill in Drill::all() {
        for (target, step) in
            drill.targets().iter().flat_map(|one| drill.ladder().iter().map(move |at| (one, *at)))
        {
            let set = SetPlan { drill, conditions: step, ..schedule.sets[1].clone() };
            let (action, direction) = (target.action, target.direction);
            let say = target.say.into_iter().collect();
            let call = Call { action, direction, say, ..seen.clone() };
            for one in Precaution::ALL {
                let first = (target.ruled_out_by() | step.ruled_out_by()).has(*one);
                let second = is_ruled_out(&gentle.within(Precautions::of(&[*one])), &call, &set);
                assert_eq!(first, second, "{}: {} and {one}", drill.name(), target.name);
            }
        }
    }
}
