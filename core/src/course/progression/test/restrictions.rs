//! What a fall or two grabs leave out until a therapist clears them, and the two ends of the ladders.

use std::sync::LazyLock;

use proptest::prelude::*;

use super::years::walk;
use super::{Decision, Fitness, Next, Reason, at, clean, next_on, past, prescription, session};
use crate::course::past::{Barrier, Lifted, Past, PastSession};
use crate::course::progression::{LadderState, restrictions_of, too_hard};
use crate::course::trainee::Trainee;
use crate::health::bounds::Bounds;
use crate::health::lock::Restriction;
use crate::health::readiness::Item;
use crate::health::yes_no::YesNoNotSure::{No, Yes};
use crate::plan::drill::{Action, Drill, Form, Support, UnlockName};
use crate::plan::prescription::{Draft, DraftDrill, DrillOrder, Prescription, SCHEMA, Unlock};
use crate::record::{Effort, Mishap, Numbered, Response, SessionEnd, SetEnd, YesNo};

/// Reaches without an unlock, quick steps up to one that needs one, and drills that need one or throw a ball.
pub(super) fn guarded(issued_by: &str, issued_on: i8) -> Prescription {
    let of = |name: &str, form, ceiling| {
        let drill = Drill::named(name).unwrap();
        let mut plan = DraftDrill { sets: 1, ceiling, ..DraftDrill::new(drill, form) };
        plan.confirmed = plan.needs();
        plan
    };
    let drills = vec![
        of("counter-reach", Form::Alone, 3),
        of("quick-steps", Form::Alone, 5),
        of("pushes", Form::Partner, 2),
        of("catching", Form::Partner, 2),
        of("wall-throws", Form::Alone, 2),
    ];
    let unlock = |(name, partner): (&UnlockName, &str)| Unlock {
        name: *name,
        watched_by: "K. L.".to_owned(),
        on: at(1).date(),
        partner: partner.to_owned(),
        therapist_present: false,
    };
    let names = UnlockName::ALL.iter();
    let draft = Draft {
        schema: SCHEMA.to_owned(),
        title: "All that is guarded".to_owned(),
        issued_by: issued_by.to_owned(),
        issued_on: at(issued_on).date(),
        days_a_week: 6,
        weeks: 52,
        review_after_sessions: 24,
        rest_ms: 60_000,
        order: DrillOrder::AsWritten,
        drills,
        unlocks: names.flat_map(|name| [(name, ""), (name, "A.")]).map(unlock).collect(),
        effort_at_most: 6,
        accepted_because: None,
        precautions: Vec::new(),
        accepts: Vec::new(),
    };
    Prescription::read("guarded.toml", draft.to_toml().as_bytes()).unwrap()
}

/// The rule once more: nothing at these steps needs an unlock, and no ball is caught.
pub(super) fn is_free_of_unlocks(next: &Next, prescription: &Prescription) -> bool {
    prescription.drills().iter().zip(&next.steps).all(|(plan, step)| {
        let Some(step) = *step else { return true };
        let calls = plan.targets().iter().all(|target| {
            let ball = matches!(target.action, Action::Toss | Action::Throw);
            !ball && target.action.unlocks().is_empty() && !target.direction.is_backward()
        });
        calls && plan.ladder().unlocks(step).next().is_none()
    })
}

/// The same, issued by nobody: its counts are computed once.
static GUARDED: LazyLock<Prescription> = LazyLock::new(|| guarded("", 1));

fn guarded_session(day: i8) -> PastSession {
    clean(&GUARDED, &at(day), &[1, 1, 5, 1, 1, 1])
}

fn next(past: &Past, day: i8) -> Next {
    Next::of(past, &GUARDED, &Fitness::default(), &at(day))
}

const LEFT_OUT: [Option<u8>; 3] = [None; 3];

#[test]
fn after_any_fall_what_needs_an_unlock_and_every_ball_wait_for_a_clearance_however_long() {
    type Change = fn(&mut PastSession);
    let falls: [Change; 6] = [
        |session| (session.end, session.hurt) = (Some(SessionEnd::Fell), Some(YesNo::No)),
        |session| (session.sets[1].end, session.hurt) = (Some(SetEnd::Fell), Some(YesNo::No)),
        |session| (session.sets[3].responses, session.hurt) = (vec![Some(Response::Fell)], Some(YesNo::No)),
        |session| (session.before_set, session.hurt) = (vec![(6, Mishap::Fall)], Some(YesNo::No)),
        // In daily life, without harm, two days ago or longer, on a day with practice and on one without.
        |session| session.ready = vec![(Item::Fall, Yes), (Item::FallHurt, No), (Item::FallRecent, No)],
        |session| {
            session.ready = vec![(Item::Fall, Yes), (Item::FallHurt, No), (Item::FallRecent, Yes)];
            session.sets.clear();
            session.end = Some(SessionEnd::NotToday);
        },
    ];
    for (nth, fall) in falls.into_iter().enumerate() {
        let mut fallen = past([guarded_session(2), guarded_session(4).but(fall)]);
        for day in [10, 29] {
            let next = next(&fallen, day);
            assert_eq!(next.restrictions, [Restriction::Fall], "{nth}");
            assert_eq!(next.steps[3..], LEFT_OUT, "{nth}");
            assert!(next.steps[1].is_some() && next.steps[2] <= Some(4) && next.steps[2].is_some(), "{nth}");
            assert!(next.is_open(), "the rest goes on: {:?}", next.reasons);
            assert!(next.reasons.contains(&Reason::Restricted { what: Restriction::Fall }), "{nth}");
        }
        let id = fallen.sessions[1].id.clone();
        fallen.lifted = vec![Lifted { session: id, what: Barrier::Restriction(Restriction::Fall) }];
        let cleared = next(&fallen, 10);
        assert!(cleared.restrictions.is_empty() && cleared.steps.iter().all(Option::is_some), "{nth}");
        fallen.sessions.push(guarded_session(12).but(fall));
        assert_eq!(next(&fallen, 29).steps[3..], LEFT_OUT, "a later fall is not cleared: {nth}");
    }
}

#[test]
fn two_grabs_in_28_days_restrict_and_one_or_two_further_apart_do_not() {
    let grab = |session: PastSession| {
        session.but(|session| {
            (session.sets[1].grabbed, session.end) = (Some(YesNo::Yes), Some(SessionEnd::Grabbed));
        })
    };
    let restricted = |past: &Past, day| next(past, day).restrictions == [Restriction::Grabs];
    let one = past([grab(guarded_session(1)), guarded_session(3)]);
    assert!(!restricted(&one, 8));
    let near = past([grab(guarded_session(1)), grab(guarded_session(29))]);
    assert!(restricted(&near, 60), "28 days apart, and time lifts nothing");
    assert!(!restricted(&past([grab(guarded_session(1)), grab(guarded_session(30))]), 60), "29 days apart");
    let twice = guarded_session(1).but(|session| {
        session.sets[3].responses = vec![Some(Response::Grabbed), None, Some(Response::Grabbed)];
    });
    assert!(restricted(&past([twice]), 8), "two in one practice");
    // A grab that is both an answer and a response is one.
    let one = guarded_session(1).but(|session| {
        session.sets[3].responses = vec![Some(Response::Grabbed)];
        (session.sets[3].mishaps, session.sets[3].end) = (vec![Mishap::Grab], Some(SetEnd::Grabbed));
        session.sets[3].grabbed = Some(YesNo::Yes);
    });
    assert!(!restricted(&past([one]), 8));
    // Near falls in daily life are no grabs: they are not even kept with what the rules see.
    let mut cleared = near;
    let ids: Vec<String> = cleared.sessions.iter().map(|session| session.id.clone()).collect();
    let what = Barrier::Restriction(Restriction::Grabs);
    cleared.lifted = ids.into_iter().map(|session| Lifted { session, what }).collect();
    assert!(!restricted(&cleared, 60));
    cleared.sessions.push(grab(guarded_session(40)));
    assert!(restricted(&cleared, 60), "a later grab is the second within 28 days again");
}

#[test]
fn a_clearance_names_every_restriction_and_lifts_no_hold() {
    let fell = guarded_session(4).but(|session| (session.end, session.hurt) = (Some(SessionEnd::Fell), None));
    let trainee = Trainee::new(past([fell]), &[], Vec::new());
    let lifts: Vec<Barrier> = trainee.clearable(&at(5)).into_iter().map(|found| found.lifted.what).collect();
    assert_eq!(lifts[1], Barrier::Restriction(Restriction::Fall), "{lifts:?}");
    assert_eq!(lifts.len(), 2, "and the lock: {lifts:?}");
    for what in lifts {
        assert_eq!(Barrier::from_name(&what.name()), Some(what));
    }
}

#[test]
fn what_was_left_out_comes_back_at_its_first_step() {
    let plan = &*GUARDED;
    let given = |session: &mut PastSession, steps: &[Option<u8>]| {
        let plans = plan.drills().iter().zip(steps);
        session.given =
            plans.filter_map(|(plan, step)| Some(crate::record::Given::of(plan, (*step)?))).collect();
    };
    let before = guarded_session(2).but(|session| given(session, &[1, 1, 1, 2, 2, 2].map(Some)));
    let without = guarded_session(4).but(|session| {
        given(session, &[Some(1), Some(1), Some(1), None, None, None]);
        session.sets.retain(|set| ["counter-shift", "counter-reach", "quick-steps"].contains(&&*set.drill));
    });
    assert_eq!(next(&past([before.clone()]), 6).steps[3..], [Some(2); 3]);
    assert_eq!(next(&past([before, without]), 6).steps[3..], [Some(1); 3]);
}

/// Very hard, at the first steps of everything.
fn too_hard_session(day: i8) -> PastSession {
    clean(&prescription(), &at(day), &[1, 1, 1]).but(|session| session.sets[1].effort = Effort::numbered(10))
}

#[test]
fn two_practices_too_hard_at_the_gentlest_step_rest_both_hands_until_a_therapist_has_looked() {
    assert_eq!(next_on(&past([too_hard_session(2)]), 4).state, None, "once is not twice");
    let hard = past([too_hard_session(2), session(4), too_hard_session(6)]);
    let next = next_on(&hard, 9);
    assert_eq!(next.state, Some(LadderState::TooHard));
    assert_eq!(next.steps, [Some(1), None, None], "neither drill has a step with both hands at rest");
    assert!(next.reasons.contains(&Reason::TooHard));
    // However clean what follows is, nothing goes up.
    let mut clean_after = hard.clone();
    clean_after.sessions.extend([9, 11, 13].map(session));
    assert_ne!(next_on(&clean_after, 16).then, Decision::Up);
    assert_eq!(next_on(&clean_after, 16).state, Some(LadderState::TooHard));
    // A clearance, and then two anew.
    let (id, _) = too_hard(&hard, None).unwrap();
    clean_after.lifted = vec![Lifted { session: id, what: Barrier::TooHard }];
    assert_eq!(next_on(&clean_after, 16).state, None);
    clean_after.sessions.push(too_hard_session(16));
    assert_eq!(next_on(&clean_after, 18).state, None);
    clean_after.sessions.push(too_hard_session(18));
    assert_eq!(next_on(&clean_after, 20).state, Some(LadderState::TooHard));
}

#[test]
fn too_hard_is_a_fault_that_no_lower_step_answers_and_only_a_named_issuer_answers_it() {
    // Reaches at step 2 can go down; quick steps at step 1 cannot.
    let hard_in = |drill: &'static str| {
        move |day| {
            clean(&prescription(), &at(day), &[1, 2, 1])
                .but(|session| session.of(drill).for_each(|set| set.effort = Effort::numbered(10)))
        }
    };
    let of = |drill| past([2, 4].map(hard_in(drill)));
    assert!(too_hard(&of("counter-reach"), None).is_none());
    assert!(too_hard(&of("counter-shift"), None).is_none(), "the warm-up lowers the others");
    assert!(too_hard(&of("quick-steps"), None).is_some());
    let hard = of("quick-steps");
    assert!(too_hard(&hard, Some(&guarded("", 9))).is_some(), "a file that nobody issued is no review");
    assert!(too_hard(&hard, Some(&guarded("K. L.", 1))).is_some(), "issued before it");
    assert!(
        too_hard(&hard, Some(&guarded("K. L.", 4))).is_some(),
        "the last one may be of that day's evening"
    );
    assert!(too_hard(&hard, Some(&guarded("K. L.", 9))).is_none());
}

#[test]
fn pushes_are_left_out_where_the_gentlest_step_was_too_hard() {
    let hard = |day| guarded_session(day).but(|session| session.sets[1].effort = Effort::numbered(10));
    let next = next(&past([hard(2), hard(4)]), 6);
    assert_eq!((next.state, next.steps[3]), (Some(LadderState::TooHard), None));
    let plan = &*GUARDED;
    let rests = next.steps.iter().zip(plan.drills()).filter_map(|(step, plan)| {
        Some(plan.conditions_at((*step)?).support.lightness() <= Support::TwoHands.lightness())
    });
    let pushes = &plan.drills()[3];
    let of = |bounds: Bounds| {
        bounds.highest_step(pushes.ladder(), pushes.form(), pushes.targets(), pushes.ceiling(), &[])
    };
    assert_eq!((of(Bounds::OPEN), of(Bounds { no_pushes: true, ..Bounds::OPEN })), (Some(2), None));
    assert!(rests.into_iter().all(|rests| rests), "{:?}", next.steps);
}

#[test]
fn at_its_ceiling_is_clean_with_no_step_left_and_nothing_less() {
    let top = |day| clean(&prescription(), &at(day), &[1, 4, 3]);
    assert_eq!(next_on(&past([top(2), top(4)]), 6).state, Some(LadderState::AtCeiling));
    assert_eq!(next_on(&past([top(4)]), 6).state, None, "one clean practice");
    let below = |day| clean(&prescription(), &at(day), &[1, 4, 2]);
    assert_eq!(next_on(&past([below(2), below(4)]), 6).state, None);
    let fault = top(4).but(|session| session.sets[1].effort = Effort::numbered(10));
    assert_eq!(next_on(&past([top(2), fault]), 6).state, None);
}

#[test]
fn a_correction_takes_no_fall_and_no_grab_away() {
    let before = guarded_session(2).but(|session| session.incidents_before.fell = true);
    let all = past([before]);
    let what: Vec<Restriction> = restrictions_of(&all, &all.sessions[0]).collect();
    assert_eq!(what, [Restriction::Fall]);
    let aside = guarded_session(2).but(|session| {
        session.sets[1].end = Some(SetEnd::Fell);
        (session.hurt, session.discounted) = (Some(YesNo::No), true);
    });
    assert_eq!(next(&past([aside]), 9).restrictions, [Restriction::Fall], "set aside, as no lock is lifted");
}

#[test]
fn after_a_fall_that_is_told_just_now_the_practice_is_gentler_and_free_of_unlocks() {
    let plan = &*GUARDED;
    let next = next(&past([guarded_session(2)]), 4);
    assert_eq!(next.steps[2..], [Some(5), Some(1), Some(1), Some(1)]);
    let after = next.after_fall(plan);
    assert_eq!(after, [Some(1), Some(1), Some(4), None, None, None]);
    assert!(plan.at_steps(&after).is_some());
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 6, ..ProptestConfig::default() })]

    /// The walk asserts at every moment what must be left out, by a count of its own.
    #[test]
    fn in_no_history_does_anything_guarded_come_before_a_clearance(seed in any::<u64>(), calm in 0_u32..=100) {
        walk(seed, &GUARDED, 400, calm, 0);
    }
}

/// The walk must meet what it is about.
#[test]
fn the_guarded_years_hold_falls_grabs_clearances_and_practices_that_were_too_hard() {
    let (mut falls, mut grabs, mut hard) = (0, 0, 0);
    for seed in 0..4 {
        let (past, _) = walk(seed, &GUARDED, 300, 60, 0);
        let lifted = |what| past.lifted.iter().filter(|lifted| lifted.what == what).count();
        falls += lifted(Barrier::Restriction(Restriction::Fall));
        grabs += lifted(Barrier::Restriction(Restriction::Grabs));
        hard += lifted(Barrier::TooHard);
    }
    assert!(falls >= 4 && grabs >= 2 && hard >= 2, "{falls} falls, {grabs} grabs, {hard} too hard, cleared");
}
