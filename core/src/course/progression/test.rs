use jiff::{SignedDuration, ToSpan, ZonedDateTime};

use super::{Barriers, Decision, Fault, Fitness, Next, Reason, Shortfall, judge};
use crate::course::past::sample::{at, clean, on, past, prescription};
use crate::course::past::{Barrier, Lifted, Past, PastSession, PastSet};
use crate::health::bounds::Bounds;
use crate::health::lock::{Hold, Lock};
use crate::health::readiness::Item;
use crate::health::suitability::{By, Finding, Suitability, Topic, Why};
use crate::health::yes_no::YesNoNotSure::{self, No, Yes};
use crate::plan::drill::{Drill, Form};
use crate::plan::prescription::Prescription;
use crate::record::{
    ClearanceRow, Effort, Given, LiftedRow, Mishap, Numbered, Response, SessionEnd, SetEnd, Stamp,
    Steadiness, Symptom, Times, WhyStopped, YesNo,
};

mod attributes;
mod restrictions;
mod years;

/// The prescription of all histories here: warm-up, reaches from step 2 to 4, quick steps from step 2 to 3, of which one
/// set each of 60 s and two, two. Every set of a clean session has 5 calls: 25 in all.
fn next_on(past: &Past, day: i8) -> Next {
    Next::of(past, &prescription(), &Fitness::default(), &at(day))
}

/// A clean session on this day of November at the steps to start at.
fn session(day: i8) -> PastSession {
    clean(&prescription(), &at(day), &[1, 2, 2])
}

/// What becomes of the steps after two sessions, the first of them clean, on the 2nd and 4th, asked on the 6th.
fn after(second: PastSession) -> Next {
    next_on(&past([session(2), second]), 6)
}

fn changed(change: impl FnOnce(&mut PastSession)) -> Next {
    after(session(4).but(change))
}

fn is_clean(session: PastSession) -> bool {
    judge(&past([session]).sittings()[0], &prescription()).is_clean()
}

// Up.

#[test]
fn two_clean_sessions_in_a_row_change_one_setting_and_say_which() {
    // By hand: both sessions clean at steps 2 and 2. The first drill of the two at the lowest step is the reaches: from
    // feet together, one hand, to feet together, fingertips.
    let next = next_on(&past([session(2), session(4)]), 6);
    assert_eq!((next.decision, next.then, next.changed), (Decision::Up, Decision::Up, Some(1)));
    assert_eq!(next.steps, [Some(1), Some(3), Some(2)]);
    assert_eq!(
        next.reasons[0].to_string(),
        "Two clean sessions in a row, so Reaches at the counter goes up to step 3: the support changes from one hand to \
         fingertips. Everything else stays the same."
    );
}

#[test]
fn one_clean_session_is_not_enough_and_neither_are_two_with_another_between() {
    let next = next_on(&past([session(2)]), 4);
    assert_eq!((next.decision, next.reasons), (Decision::Hold, vec![Reason::OneClean]));
    let mixed = session(4).but(|session| session.sets[1].held_on = None);
    let next = next_on(&past([session(2), mixed, session(6)]), 9);
    assert_eq!((next.decision, next.reasons), (Decision::Hold, vec![Reason::OneClean]));
}

#[test]
fn two_clean_practices_of_one_day_count_once() {
    let second =
        |day| clean(&prescription(), &at(day).saturating_add(SignedDuration::from_hours(5)), &[1, 2, 2]);
    let next = next_on(&past([session(2), second(2)]), 4);
    assert_eq!((next.decision, next.reasons), (Decision::Hold, vec![Reason::OneClean]));
    assert_eq!(next_on(&past([session(2), second(2), session(4)]), 6).decision, Decision::Up);
}

#[test]
fn after_a_step_up_two_more_clean_sessions_are_needed_and_the_other_drill_follows() {
    // By hand: 2,2 clean twice -> 3,2. One clean at 3,2 -> stays. Two -> the quick steps, which are now the lower: 3,3.
    let up = |day| clean(&prescription(), &at(day), &[1, 3, 2]);
    let next = next_on(&past([session(2), session(4), up(6)]), 9);
    assert_eq!((next.decision, next.steps), (Decision::Hold, vec![Some(1), Some(3), Some(2)]));
    let next = next_on(&past([session(2), session(4), up(6), up(9)]), 11);
    assert_eq!((next.decision, next.steps), (Decision::Up, vec![Some(1), Some(3), Some(3)]));
    // Then the reaches again, to their ceiling of 4; then nothing.
    let top = |day| clean(&prescription(), &at(day), &[1, 3, 3]);
    let next = next_on(&past([top(2), top(4)]), 6);
    assert_eq!(next.steps, [Some(1), Some(4), Some(3)]);
    let highest = |day| clean(&prescription(), &at(day), &[1, 4, 3]);
    let next = next_on(&past([highest(2), highest(4)]), 6);
    assert_eq!((next.decision, next.reasons), (Decision::Hold, vec![Reason::AtCeiling]));
}

#[test]
fn a_step_above_the_ceiling_in_the_past_comes_down_to_it() {
    let wild = |day| clean(&prescription(), &at(day), &[1, 5, 5]);
    let next = next_on(&past([wild(2), wild(4)]), 6);
    assert_eq!(next.steps, [Some(1), Some(4), Some(3)]);
}

#[test]
fn the_first_practice_begins_where_the_prescription_says() {
    let next = next_on(&Past::default(), 2);
    assert_eq!((next.decision, next.reasons), (Decision::Hold, vec![Reason::FirstPractice]));
    assert_eq!(next.steps, [Some(1), Some(2), Some(2)]);
    // Sessions under another prescription give no steps to this one.
    let other = Prescription::ready("gentle").unwrap();
    let elsewhere = [2, 4].map(|day| clean(other, &at(day), &[1, 1]));
    assert_eq!(next_on(&past(elsewhere), 6).steps, [Some(1), Some(2), Some(2)]);
}

// Clean or mixed: each bound on both sides.

#[test]
fn all_prescribed_sets_are_done_whole() {
    let next = changed(|session| session.sets[4].end = Some(SetEnd::Refused));
    assert_eq!(next.decision, Decision::Hold);
    assert_eq!(next.reasons, [Reason::Mixed { shortfall: Shortfall::Sets { done: 4, planned: 5 } }]);
    assert_eq!(next.reasons[0].to_string(), "You completed 4 of 5 sets. The step stays the same.");
    // Only the first sets were asked for: less than prescribed.
    let fewer = changed(|session| {
        session.sets.truncate(3);
        session.sets_planned = 3;
    });
    assert_eq!(fewer.reasons, [Reason::Mixed { shortfall: Shortfall::Sets { done: 3, planned: 5 } }]);
    // Drills left out for the person's limits are not missing.
    let limited = changed(|session| {
        session.sets.truncate(3);
        (session.sets_planned, session.sets_whole) = (3, Some(3));
    });
    assert_eq!(limited.then, Decision::Up);
    let ended = changed(|session| session.end = Some(SessionEnd::StoppedOther));
    assert_eq!(ended.reasons, [Reason::Mixed { shortfall: Shortfall::Ended }]);
}

#[test]
fn every_question_is_answered() {
    type Forget = fn(&mut PastSet);
    let forget: [Forget; 5] = [
        |set| set.grabbed = None,
        |set| set.held_on = None,
        |set| set.effort = None,
        |set| set.steadiness = None,
        |set| set.unwell = None,
    ];
    for forget in forget {
        let next = changed(|session| forget(&mut session.sets[3]));
        assert_eq!(next.reasons, [Reason::Mixed { shortfall: Shortfall::Unanswered }]);
        assert_eq!(next.decision, Decision::Hold);
    }
}

#[test]
fn eight_of_ten_responses_are_noted_and_eight_of_ten_of_those_are_one_step_at_most() {
    use Response::{InPlace, MoreSteps, OneStep, Touched};
    let pushed = |responses: Vec<Option<Response>>| {
        judge(
            &past([session(4).but(|session| session.sets[1].responses = responses)]).sittings()[0],
            &prescription(),
        )
    };
    let noted = |noted: usize, of: usize| {
        let mut responses = vec![Some(InPlace); noted];
        responses.resize(of, None);
        responses
    };
    assert!(pushed(noted(8, 10)).is_clean());
    assert_eq!(pushed(noted(7, 10)).shortfalls, [Shortfall::Unnoted { noted: 7, of: 10 }]);
    assert!(pushed(noted(4, 5)).is_clean());
    assert_eq!(pushed(noted(3, 4)).shortfalls, [Shortfall::Unnoted { noted: 3, of: 4 }], "75 of 100");
    // Four good ones between two that are not: no two of four in a row.
    let spread = |bad: Response| {
        let good = [Some(OneStep), Some(InPlace), Some(OneStep), Some(InPlace)];
        let mut responses = vec![Some(bad)];
        responses.extend(good);
        responses.push(Some(bad));
        responses.extend(good);
        responses
    };
    assert!(pushed(spread(MoreSteps)).is_clean(), "8 of 10");
    assert!(pushed(spread(Touched)).is_clean());
    let mut seven_of_nine = spread(Touched);
    seven_of_nine.pop();
    assert_eq!(pushed(seven_of_nine).shortfalls, [Shortfall::Steps { good: 7, of: 9 }], "77 of 100");
}

#[test]
fn held_on_at_most_once_in_fifteen_calls_and_twice_above() {
    let held = |calls: [u16; 5], times: [u8; 5]| {
        judge(
            &past([session(4).but(|session| {
                for (set, (cues, held)) in session.sets.iter_mut().zip(calls.into_iter().zip(times)) {
                    (set.cues, set.held_on) = (cues, Times::numbered(held));
                }
            })])
            .sittings()[0],
            &prescription(),
        )
        .shortfalls
    };
    assert_eq!(held([3; 5], [0, 1, 0, 0, 0]), []);
    assert_eq!(held([3; 5], [0, 1, 0, 1, 0]), [Shortfall::HeldOn { times: 2, most: 1 }]);
    assert_eq!(held([4, 3, 3, 3, 3], [0, 1, 0, 1, 0]), [], "16 calls");
    assert_eq!(held([4, 3, 3, 3, 3], [0, 2, 0, 1, 0]), [Shortfall::HeldOn { times: 3, most: 2 }]);
}

#[test]
fn effort_is_six_at_most_and_eight_in_rises_and_quick_steps() {
    let effort = |drill: &str, effort: u8| {
        let session = session(4)
            .but(|session| session.of(drill).take(1).for_each(|set| set.effort = Effort::numbered(effort)));
        judge(&past([session]).sittings()[0], &prescription())
    };
    assert!(effort("counter-reach", 6).is_clean());
    assert_eq!(effort("counter-reach", 7).shortfalls, [Shortfall::Effort { effort: 7, most: 6 }]);
    assert!(effort("counter-reach", 8).faults.is_empty(), "once is no fault");
    assert!(effort("quick-steps", 8).is_clean());
    assert_eq!(effort("quick-steps", 9).shortfalls, [Shortfall::Effort { effort: 9, most: 8 }]);
    assert!(!effort("quick-steps", 9).faults.is_empty());
    // A rise is one too.
    let rises = Prescription::read(
        "test.toml",
        br#"
        schema = "counterpoise.prescription/1"
        title = "Rises"
        issued_on = 2026-11-01
        [[drills]]
        drill = "fast-rises"
        sets = 2
        work_ms = 90000
        gap_ms = [10000, 20000]
        directions = ["up"]
        confirmed = ["chair against a wall"]
        "#,
    )
    .unwrap();
    let rise = clean(&rises, &at(2), &[1, 1]).but(|session| session.sets[1].effort = Effort::numbered(8));
    assert!(judge(&past([rise]).sittings()[0], &rises).is_clean());
}

#[test]
fn a_therapist_can_tighten_the_effort_for_every_drill() {
    let text = r#"
        schema = "counterpoise.prescription/1"
        title = "Steps"
        issued_on = 2026-11-01
        [[drills]]
        drill = "quick-steps"
        sets = 2
        work_ms = 60000
        gap_ms = [6000, 15000]
        directions = ["left", "right", "forward"]
        [limits]
        effort_at_most = 4
    "#;
    let tight = Prescription::read("test.toml", text.as_bytes()).unwrap();
    let effort = |effort| {
        let session =
            clean(&tight, &at(2), &[1, 1]).but(|session| session.sets[1].effort = Effort::numbered(effort));
        judge(&past([session]).sittings()[0], &tight).is_clean()
    };
    assert!(effort(4));
    assert!(!effort(5));
}

#[test]
fn mean_steadiness_is_three_at_most() {
    let steady = |steady: [u8; 5]| {
        is_clean(session(4).but(|session| {
            for (set, steady) in session.sets.iter_mut().zip(steady) {
                set.steadiness = Steadiness::numbered(steady);
            }
        }))
    };
    assert!(steady([3, 3, 3, 3, 3]));
    assert!(steady([2, 3, 3, 3, 4]), "15 of 5 sets");
    assert!(!steady([3, 3, 3, 3, 4]), "16 of 5 sets");
}

#[test]
fn a_gentler_choice_is_no_step_toward_up_and_lowers_nothing() {
    let given = |step| Given { drill: "counter-reach".to_owned(), form: Form::Alone, step, ladder: None };
    let gentler = changed(|session| {
        session.given = vec![given(2)];
        session.of("counter-reach").for_each(|set| set.step = 1);
    });
    assert_eq!(gentler.decision, Decision::Hold);
    assert_eq!(gentler.reasons, [Reason::Mixed { shortfall: Shortfall::Gentler }]);
    assert_eq!(gentler.steps, [Some(1), Some(2), Some(2)], "the step that was given stays");
    assert_eq!(gentler.gentler(), [Some(1), Some(1), Some(1)]);
}

// Down: each bound on both sides.

#[test]
fn two_of_any_four_responses_in_a_row_lower_and_two_of_five_do_not() {
    use Response::{InPlace, MoreSteps, OneStep, Touched};
    let lowered = |responses: &[Option<Response>]| {
        let next = changed(|session| session.sets[1].responses = responses.to_vec());
        (next.decision == Decision::Down, next.steps[1])
    };
    let [good, bad] = [Some(OneStep), Some(MoreSteps)];
    assert_eq!(
        lowered(&[good, bad, good, good, bad]),
        (true, Some(1)),
        "places 2 and 5 are two of four in a row"
    );
    assert_eq!(lowered(&[bad, good, good, good, bad, good]), (false, Some(2)), "places 1 and 5 are not");
    assert_eq!(lowered(&[bad, good, good, bad]), (true, Some(1)));
    assert_eq!(lowered(&[bad, Some(Touched)]), (true, Some(1)), "touched support is worse than two steps");
    assert_eq!(lowered(&[bad]), (false, Some(2)));
    // What was not noted is skipped: the places of those that were noted count.
    assert_eq!(lowered(&[bad, None, None, None, bad, Some(InPlace)]), (true, Some(1)));
    // And a step higher than before is worse than in place, but not a fault.
    assert_eq!(lowered(&[good, good, good, good]), (false, Some(3)), "clean twice");
}

#[test]
fn three_of_the_first_five_always_hold_two_of_four_in_a_row() {
    for pattern in 0_u8..32 {
        let bad = |place: u8| pattern >> place & 1 == 1;
        if (0..5).filter(|place| bad(*place)).count() >= 3 {
            let two_of_four = (0..2).any(|from| (from..from + 4).filter(|place| bad(*place)).count() >= 2);
            assert!(two_of_four, "{pattern:05b}");
        }
    }
}

#[test]
fn effort_lowers_at_nine_once_and_at_seven_twice_except_in_quick_steps() {
    let effort = |drill: &'static str, efforts: [u8; 2]| {
        let next = changed(|session| {
            session.of(drill).zip(efforts).for_each(|(set, effort)| set.effort = Effort::numbered(effort));
        });
        (next.decision, next.steps)
    };
    let same = vec![Some(1), Some(2), Some(2)];
    assert_eq!(effort("counter-reach", [9, 4]), (Decision::Down, vec![Some(1), Some(1), Some(2)]));
    assert_eq!(effort("counter-reach", [8, 4]), (Decision::Hold, same.clone()));
    assert_eq!(effort("counter-reach", [7, 7]), (Decision::Down, vec![Some(1), Some(1), Some(2)]));
    assert_eq!(effort("counter-reach", [7, 6]), (Decision::Hold, same));
    assert_eq!(effort("quick-steps", [8, 8]).0, Decision::Up, "vigorous, as quick steps are meant to be");
    assert_eq!(effort("quick-steps", [9, 4]), (Decision::Down, vec![Some(1), Some(2), Some(1)]));
}

#[test]
fn steadiness_lowers_at_four_twice_and_at_five_once() {
    let steady = |places: &[(usize, u8)]| {
        let next = changed(|session| {
            for (set, steady) in places {
                session.sets[*set].steadiness = Steadiness::numbered(*steady);
            }
        });
        (next.decision, next.steps[1], next.steps[2])
    };
    assert_eq!(steady(&[(1, 5)]), (Decision::Down, Some(1), Some(2)), "set 2 is a reach");
    assert_eq!(steady(&[(1, 4)]).0, Decision::Up, "once, and steady on the average");
    assert_eq!(steady(&[(1, 4), (2, 4)]), (Decision::Down, Some(1), Some(2)));
    assert_eq!(steady(&[(1, 4), (3, 4)]), (Decision::Down, Some(1), Some(1)), "one in each drill");
    assert_eq!(steady(&[(0, 5)]), (Decision::Down, Some(1), Some(1)), "the warm-up has nothing below it");
}

#[test]
fn down_from_the_first_step_stays_there_and_says_so() {
    let low = clean(&prescription(), &at(4), &[1, 1, 1])
        .but(|session| session.sets[1].steadiness = Some(Steadiness::LostBalance));
    let next = next_on(&past([low]), 6);
    assert_eq!((next.decision, next.steps.as_slice()), (Decision::Hold, &[Some(1), Some(1), Some(1)][..]));
    assert_eq!(next.reasons.last(), Some(&Reason::Gentlest));
}

#[test]
fn more_than_fourteen_days_off_are_one_step_lower_once() {
    let past = past([session(2), session(4)]);
    // The 18th is 14 days after the 4th, the 19th 15.
    assert_eq!(next_on(&past, 18).decision, Decision::Up);
    let next = next_on(&past, 19);
    assert_eq!((next.decision, next.steps), (Decision::Down, vec![Some(1), Some(1), Some(1)]));
    assert_eq!(next.reasons, [Reason::Layoff { days: 15 }]);
    assert_eq!(
        next.reasons[0].to_string(),
        "The last practice was 15 days ago (more than 14), so the next practice starts one step lower."
    );
    let long = Next::of(&past, &prescription(), &Fitness::default(), &on(jiff::civil::date(2027, 11, 4), 10));
    assert_eq!(long.steps, [Some(1), Some(1), Some(1)], "one step for a year too");
    assert_eq!(long.then, Decision::Down);
}

#[test]
fn a_stop_for_the_door_counts_against_nobody_and_for_being_unsteady_lowers() {
    let other = changed(|session| {
        session.sets.truncate(4);
        session.sets[3].end = Some(SetEnd::Stopped);
        (session.end, session.why_stopped) = (Some(SessionEnd::StoppedOther), Some(WhyStopped::Other));
    });
    assert_eq!((other.then, other.steps), (Decision::Hold, vec![Some(1), Some(2), Some(2)]));
    let unsteady = changed(|session| {
        session.sets.truncate(4);
        session.sets[3].end = Some(SetEnd::Stopped);
        (session.end, session.why_stopped) = (Some(SessionEnd::StoppedUnsteady), Some(WhyStopped::Unsteady));
    });
    assert_eq!((unsteady.then, unsteady.steps), (Decision::Down, vec![Some(1), Some(2), Some(1)]));
}

// Holds and locks.

/// A session on the 4th that ended at 10:20 with a grab, alone.
fn grabbed() -> PastSession {
    session(4).but(|session| {
        session.sets.truncate(2);
        session.sets[1].grabbed = Some(YesNo::Yes);
        session.end = Some(SessionEnd::Grabbed);
    })
}

fn next_at(past: &Past, at: &ZonedDateTime) -> Next {
    Next::of(past, &prescription(), &Fitness::default(), at)
}

#[test]
fn a_grab_alone_holds_for_48_hours_and_lowers_its_drill() {
    let past = past([session(2), grabbed()]);
    let until = at(6) + SignedDuration::from_mins(20);
    let next = next_at(&past, &(&until - SignedDuration::from_millis(1)));
    assert_eq!((next.decision, next.then, next.until), (Decision::Rest, Decision::Down, Some(until.clone())));
    assert_eq!(
        next.reasons[0],
        Reason::Holding { what: Hold::Grab, until: until.clone(), today: at(6).date() }
    );
    assert_eq!(
        next.reasons[0].to_string(),
        "Rest until Friday, November 6, 10:20, after grabbing hold or nearly falling, alone."
    );
    let next = next_at(&past, &until);
    assert_eq!((next.decision, next.steps), (Decision::Down, vec![Some(1), Some(1), Some(2)]));
}

/// The response that led to it was corrected, so that no grab is on record any more.
#[test]
fn one_step_lower_that_was_advised_lowers_and_is_called_no_grab() {
    let advised = session(4).but(|session| session.sets[1].advised_lower = true);
    let past = past([session(2), advised]);
    let next = next_on(&past, 7);
    assert_eq!((next.decision, next.steps), (Decision::Down, vec![Some(1), Some(1), Some(2)]));
    assert_eq!(
        next.reasons[0].to_string(),
        "One step lower was advised (Reaches at the counter), so the next practice starts one step lower."
    );
}

#[test]
fn what_happens_before_a_set_that_is_then_not_begun_locks_and_lowers_too() {
    let before = |what| {
        session(4).but(|session| {
            session.sets.truncate(2);
            (session.end, session.before_set) = (Some(SessionEnd::Interrupted), vec![(3, what)]);
        })
    };
    let fell = next_on(&past([session(2), before(Mishap::Fall)]), 30);
    assert_eq!(fell.reasons[0], Reason::Locked { what: Lock::FallHurt }, "nobody said that it was harmless");
    let grabbed = next_on(&past([session(2), before(Mishap::Grab)]), 7);
    assert_eq!((grabbed.decision, grabbed.steps), (Decision::Down, vec![Some(1), Some(1), Some(1)]));
    assert_eq!(
        grabbed.reasons[0].to_string(),
        "There was a grab before set 3, so the next practice starts one step lower."
    );
    // No set was begun at all.
    let none = |what, hurt| {
        before(what).but(|session| {
            session.sets.clear();
            session.hurt = hurt;
        })
    };
    for (what, hurt) in [(Mishap::Fall, Some(YesNo::No)), (Mishap::Grab, None)] {
        let next = next_on(&past([session(2), none(what, hurt)]), 7);
        assert_eq!((next.decision, next.steps), (Decision::Down, vec![Some(1), Some(1), Some(1)]), "{what}");
    }
}

#[test]
fn with_a_partner_a_grab_holds_nothing_and_lowers() {
    let helped = session(4).but(|session| {
        session.sets.iter_mut().skip(1).for_each(|set| {
            set.with_partner();
        });
        session.sets[1].mishaps = vec![Mishap::Grab];
        session.sets[1].advised_lower = true;
    });
    let judged = judge(&past([helped.clone()]).sittings()[0], &prescription());
    assert!(matches!(&judged.faults[..], [Fault::Grabbed(place)] if place.form == Form::Partner));
    let next = after(helped);
    assert_eq!(next.decision, Decision::Down);
    assert!(next.reasons.iter().all(|reason| !matches!(reason, Reason::Holding { .. })));
}

#[test]
fn a_fall_without_injury_holds_and_lowers_everything_and_any_other_fall_locks() {
    let fell = |hurt| {
        session(4).but(|session| {
            session.sets.truncate(2);
            session.sets[1].end = Some(SetEnd::Fell);
            session.sets[1].mishaps = vec![Mishap::Fall];
            (session.end, session.hurt) = (Some(SessionEnd::Fell), hurt);
        })
    };
    let unhurt = past([session(2), fell(Some(YesNo::No))]);
    let next = next_on(&unhurt, 5);
    assert_eq!((next.decision, next.then), (Decision::Rest, Decision::Down));
    assert!(next.reasons[0].to_string().ends_with("tell your therapist."));
    assert_eq!(next_on(&unhurt, 7).steps, [Some(1), Some(1), Some(1)]);
    for hurt in [Some(YesNo::Yes), None] {
        let next = next_on(&past([session(2), fell(hurt)]), 28);
        assert_eq!(next.decision, Decision::Locked, "{hurt:?}, however long ago");
        assert_eq!(next.reasons[0], Reason::Locked { what: Lock::FallHurt });
    }
}

fn told(day: i8, answers: &[(Item, YesNoNotSure)]) -> PastSession {
    session(day).but(|session| {
        session.id = format!("told on the {day}th");
        session.sets.clear();
        session.end = Some(SessionEnd::NotToday);
        session.ended = session.begun;
        session.ready = answers.to_vec();
    })
}

#[test]
fn every_lock_stands_until_it_is_lifted_by_name() {
    let rows = [
        (Item::Chest, Lock::Chest),
        (Item::Breath, Lock::Breath),
        (Item::Nerve, Lock::Nerve),
        (Item::Faint, Lock::Faint),
        (Item::Head, Lock::HeadKnock),
        (Item::Fall, Lock::FallHurt),
        (Item::Dizzy, Lock::Dizziness),
        (Item::UnwellPassed, Lock::Unwell),
    ];
    let careful = |(item, lock): (Item, Lock)| {
        [item.answer_if(false), YesNoNotSure::NotSure].map(|answer| (item, answer, lock))
    };
    for (item, answer, lock) in rows.into_iter().flat_map(careful) {
        let locked = past([session(2), told(4, &[(item, answer)])]);
        let next = next_on(&locked, 30);
        assert_eq!(
            (next.decision, &next.reasons[0]),
            (Decision::Locked, &Reason::Locked { what: lock }),
            "{item}"
        );
        assert!(next.reasons[0].to_string().contains("clinician"), "{item}: whom to see");
        let lift = |session: &str, what| Past {
            lifted: vec![Lifted { session: session.to_owned(), what: Barrier::Lock(what) }],
            ..locked.clone()
        };
        assert!(next_on(&lift("told on the 4th", lock), 30).is_open(), "{item}");
        let another = if lock == Lock::Chest { Lock::Breath } else { Lock::Chest };
        assert_eq!(next_on(&lift("told on the 4th", another), 30).decision, Decision::Locked, "{item}");
        assert_eq!(next_on(&lift("another session", lock), 30).decision, Decision::Locked, "{item}");
    }
}

#[test]
fn an_old_lock_after_chest_or_stroke_signs_begins_with_whom_to_call_if_they_are_there_now() {
    for lock in [Lock::Chest, Lock::Breath, Lock::Nerve] {
        let (locked, begins) = (Reason::Locked { what: lock }, format!("If you have {lock} now, call "));
        let said = |number| locked.said(number);
        assert!(lock.is_emergency());
        assert!(said(None).starts_with(&(begins.clone() + "your local emergency number;")), "{}", said(None));
        assert!(said(Some("555-0100")).starts_with(&(begins + "555-0100;")), "{}", said(Some("555-0100")));
    }
}

#[test]
fn dizziness_that_passed_holds_from_when_it_was_told_and_lowers_everything() {
    let past = past([session(2), told(4, &[(Item::Dizzy, Yes), (Item::DizzyPassed, Yes)])]);
    let until = at(6);
    assert_eq!(next_at(&past, &(&until - SignedDuration::from_millis(1))).decision, Decision::Rest);
    let next = next_at(&past, &until);
    assert_eq!((next.decision, next.steps), (Decision::Down, vec![Some(1), Some(1), Some(1)]));
    assert_eq!(next.reasons, [Reason::Reported { what: Hold::Dizziness }]);
    assert_eq!(
        next.reasons[0].to_string(),
        "You reported dizziness that passed, so the next practice starts one step lower."
    );
}

#[test]
fn a_fall_of_more_than_two_days_ago_lowers_and_holds_nothing() {
    let answers = [(Item::Fall, Yes), (Item::FallHurt, No), (Item::FallRecent, No)];
    // It was told on the pages of a practice that then took place, one step lower on that day.
    let next = after(session(4).but(|session| session.ready = answers.to_vec()));
    assert_eq!((next.decision, next.steps), (Decision::Down, vec![Some(1), Some(1), Some(1)]));
    // After another practice it has done its part.
    let next = next_on(
        &past([
            session(2),
            session(4).but(|session| session.ready = answers.to_vec()),
            clean(&prescription(), &at(6), &[1, 1, 1]),
        ]),
        9,
    );
    assert_eq!((next.decision, next.reasons), (Decision::Hold, vec![Reason::OneClean]));
}

#[test]
fn not_today_stands_for_the_day_unless_it_could_be_put_right() {
    let ill = past([session(2), told(4, &[(Item::Ill, Yes)])]);
    assert_eq!(next_on(&ill, 4).decision, Decision::Rest);
    assert!(next_on(&ill, 5).is_open());
    let dark = past([session(2), told(4, &[(Item::Light, No)])]);
    assert!(next_on(&dark, 4).is_open(), "the light can be switched on");
    let tired = past([session(2), told(4, &[(Item::Night, Yes)])]);
    assert!(next_on(&tired, 4).is_open(), "gentler is not never");
}

#[test]
fn a_clock_set_back_makes_no_hold_shorter() {
    // The grab was at 10:20 on the 4th. The clock now says the 1st; then it is put right again.
    let past = past([session(2), grabbed()]);
    assert_eq!(next_at(&past, &on(jiff::civil::date(2026, 10, 20), 10)).decision, Decision::Rest);
    assert_eq!(next_at(&past, &at(5)).decision, Decision::Rest);
    // A session that is dated later ends no hold before the clock shows its end: the clock may have been ahead.
    let lower = clean(&prescription(), &at(9), &[1, 1, 2]);
    let later = crate::course::past::sample::past([session(2), grabbed(), lower]);
    assert_eq!(next_at(&later, &at(5)).decision, Decision::Rest);
    assert!(Barriers::of(&later, at(7).timestamp(), at(7).date()).holds.is_empty());
    assert!(matches!(next_at(&later, &at(7)).reasons[0], Reason::ClockBack { .. }));
    // A grab that was kept while the clock was ten days slow, as the journal knew: it counts from the latest moment known.
    let slow = grabbed().but(|session| {
        let true_moment = session.ended;
        session.begun -= SignedDuration::from_hours(240);
        session.ended -= SignedDuration::from_hours(240);
        session.day = session.day.saturating_sub(10.days());
        session.seen_before = Some(true_moment);
    });
    let past = crate::course::past::sample::past([session(2), slow]);
    assert_eq!(next_at(&past, &at(5)).decision, Decision::Rest, "36 hours and a little");
    assert_ne!(next_at(&past, &at(7)).decision, Decision::Rest);
}

/// The clock was a day ahead at a grab, and was put right. Whenever its date is set aside, 48 hours go by after that at least.
#[test]
fn a_clearance_of_a_date_shortens_no_hold() {
    let grab = grabbed();
    let (id, right) = (grab.id.clone(), grab.ended - SignedDuration::from_hours(24));
    let zone = jiff::tz::TimeZone::get("America/New_York").unwrap();
    let cleared_after = |hours: i64| {
        let at = (right + SignedDuration::from_hours(hours)).to_zoned_datetime(zone.clone());
        let lifted = LiftedRow { locked_by: id.clone(), what: Barrier::Date, told_by: Vec::new() };
        let (who, reason) = ("Dr. K.".to_owned(), "the clock was wrong".to_owned());
        let row = ClearanceRow { at: Stamp::from(&at), who, reason, lifted: vec![lifted] };
        (Past::cleared(vec![session(2), grab.clone()], &[row], |_| &[]), at)
    };
    for hours in [0, 1, 20, 23] {
        let (past, at) = cleared_after(hours);
        let held = |since: i64| {
            let now = at.saturating_add(SignedDuration::from_hours(since));
            !Barriers::of(&past, now.timestamp(), now.date()).holds.is_empty()
        };
        assert!([0, 1, 25 - hours, 47].into_iter().all(held), "{hours}");
        assert!(!held(48), "{hours}: it ends by itself");
    }
    // A clock that is behind at the clearance: it was not before what the journal knew.
    let (past, _) = cleared_after(-24 * 30);
    let known = past.sessions[0].known();
    let until = Barriers::of(&past, known, past.sessions[0].day).holds[0].until;
    assert_eq!(until, known + SignedDuration::from_hours(48));
    // "Not today" stays that day too.
    let stayed = grab.clone().but(|session| {
        session.sets.clear();
        (session.end, session.ready) = (None, vec![(Item::Ill, Item::Ill.answer_if(false))]);
    });
    let (mut past, at) = cleared_after(3);
    past.sessions[1] = PastSession { date_cleared: past.sessions[1].date_cleared, ..stayed };
    let barriers = Barriers::of(&past, at.timestamp(), at.date());
    assert_eq!(barriers.not_before, Some(at.date().tomorrow().unwrap()));
}

#[test]
fn a_hold_that_runs_out_does_not_open_the_same_day_twice() {
    // Grabbed on the 4th at 10:20; on the 6th it is due again, and once it is done it is done.
    let lower = clean(&prescription(), &(at(6) + SignedDuration::from_mins(30)), &[1, 1, 2]);
    let past = past([session(2), grabbed(), lower]);
    assert_eq!(next_at(&past, &on(jiff::civil::date(2026, 11, 6), 22)).decision, Decision::Rest);
}

#[test]
fn unwell_in_a_practice_holds_lowers_and_is_asked_about_next_time() {
    let unwell = session(4).but(|session| {
        session.sets.truncate(2);
        session.sets[1].unwell = Some(YesNo::Yes);
        session.end = Some(SessionEnd::Unwell);
    });
    let past = past([session(2), unwell]);
    assert_eq!(next_on(&past, 5).decision, Decision::Rest);
    assert_eq!(next_on(&past, 7).steps, [Some(1), Some(1), Some(1)]);
    assert!(super::unwell_last_time(&past));
    // In the warm-up, before the first set, too.
    let early = session(4).but(|session| {
        session.sets.clear();
        (session.end, session.why_stopped) = (Some(SessionEnd::Unwell), Some(WhyStopped::Unwell));
    });
    let early = crate::course::past::sample::past([session(2), early]);
    assert_eq!(next_on(&early, 5).decision, Decision::Rest);
    assert_eq!(next_on(&early, 7).steps, [Some(1), Some(1), Some(1)]);
    let mut answered = past.clone();
    answered.sessions.push(told(7, &[(Item::UnwellPassed, Yes), (Item::Light, No)]));
    assert!(!super::unwell_last_time(&answered));
    assert!(!super::unwell_last_time(&crate::course::past::sample::past([session(2)])));
}

#[test]
fn what_felt_wrong_in_a_practice_locks_or_holds() {
    let felt = |symptom| {
        past([
            session(2),
            session(4).but(|session| {
                session.sets.truncate(1);
                session.sets[0].unwell = Some(YesNo::Yes);
                (session.end, session.symptom) = (Some(SessionEnd::Unwell), symptom);
            }),
        ])
    };
    for (symptom, lock) in [
        (Symptom::Chest, Lock::Chest),
        (Symptom::Breath, Lock::Breath),
        (Symptom::Nerve, Lock::Nerve),
        (Symptom::Faint, Lock::Faint),
    ] {
        let next = next_on(&felt(Some(symptom)), 30);
        assert_eq!(next.decision, Decision::Locked, "{symptom:?}: time lifts no lock");
        assert!(next.reasons.contains(&Reason::Locked { what: lock }), "{symptom:?}");
    }
    for symptom in [None, Some(Symptom::Dizzy), Some(Symptom::Other)] {
        assert_eq!(next_on(&felt(symptom), 5).decision, Decision::Rest, "{symptom:?}: held for 48 hours");
        assert_eq!(next_on(&felt(symptom), 7).decision, Decision::Down, "{symptom:?}");
        assert!(super::unwell_last_time(&felt(symptom)), "and asked about");
    }
}

// What keeps it from going up without stopping it.

#[test]
fn a_review_that_is_due_stops_stepping_up_and_never_blocks() {
    let history = |sessions: i8| past((0..sessions).map(|nth| session(2 + nth)));
    let asked = |sessions: i8| next_on(&history(sessions), 3 + sessions + 3);
    assert_eq!(asked(11).then, Decision::Up);
    let next = asked(12);
    assert_eq!((next.then, next.is_open()), (Decision::Hold, true));
    assert_eq!(next.reasons, [Reason::Review { sessions: 12, review: 12 }]);
    assert_eq!(asked(13).then, Decision::Hold);
    // It still goes down.
    let mut past = history(12);
    past.sessions[11].sets[1].steadiness = Some(Steadiness::LostBalance);
    assert_eq!(next_on(&past, 18).decision, Decision::Down);
}

#[test]
fn when_the_weeks_have_passed_it_goes_on_and_not_up() {
    // Begun on November 2; the twelve weeks end with January 24, 2027.
    let day = |month, day| on(jiff::civil::date(2027, month, day), 10);
    let sessions = [at(2), day(1, 20), day(1, 22)].map(|at| clean(&prescription(), &at, &[1, 2, 2]));
    let past = past(sessions);
    assert_eq!(next_at(&past, &day(1, 24)).then, Decision::Up);
    let over = next_at(&past, &day(1, 25));
    assert_eq!((over.decision, over.reasons), (Decision::Hold, vec![Reason::ProgramOver { weeks: 12 }]));
}

#[test]
fn tests_below_their_cut_off_narrow_the_steps_and_the_drills() {
    let with = |tests_below| {
        Next::of(
            &past([session(2), session(4)]),
            &prescription(),
            &Fitness { suitability: None, tests_below, ..Fitness::default() },
            &at(6),
        )
    };
    assert_eq!(with(0).steps, [Some(1), Some(3), Some(2)]);
    // One: a hand rests, so reaches stop at step 2 and quick steps at step 1.
    let one = with(1);
    assert_eq!((one.decision, one.steps), (Decision::Hold, vec![Some(1), Some(2), Some(1)]));
    assert_eq!(one.reasons, [Reason::AtCeiling, Reason::Bounds { bounds: Bounds::CAUTIOUS }]);
    // Two: both hands rest, which leaves the warm-up.
    assert_eq!(with(2).steps, [Some(1), None, None]);
}

#[test]
fn a_clinician_first_is_a_lock_with_its_reason() {
    let fitness = |found| {
        let answers: Vec<(Topic, Finding)> = Topic::questions(false)
            .map(|topic| (topic, if topic == Topic::ThinBones { found } else { Finding::Fine }))
            .collect();
        Fitness { suitability: Some(Suitability::of(&answers, false)), tests_below: 0, ..Fitness::default() }
    };
    let (locked, cleared) = (fitness(Finding::Warning(Why::Yes)), fitness(Finding::Lifted(By::Clearance)));
    let next = Next::of(&Past::default(), &prescription(), &locked, &at(2));
    assert_eq!(next.decision, Decision::Locked);
    assert_eq!(
        next.reasons[0].to_string(),
        "Your bones are thin or weak: talk to a clinician before you practice."
    );
    assert!(Next::of(&Past::default(), &prescription(), &cleared, &at(2)).is_open());
}

// The same day.

#[test]
fn an_interrupted_session_goes_on_at_its_steps_with_the_set_after_it() {
    let broken = session(4).broken_off_after(2);
    let soon = at(4) + SignedDuration::from_mins(60);
    let next = next_at(&past([session(2), broken.clone()]), &soon);
    assert_eq!((next.decision, next.first_set), (Decision::Hold, 3));
    assert_eq!(next.steps, [Some(1), Some(2), Some(2)]);
    assert_eq!(
        next.reasons.iter().map(ToString::to_string).collect::<Vec<_>>(),
        ["The last practice was interrupted; it goes on with set 3."]
    );
    let late = at(4) + SignedDuration::from_mins(141);
    let next = next_at(&past([session(2), broken]), &late);
    assert_eq!((next.decision, next.first_set), (Decision::Rest, 1));
}

#[test]
fn a_free_day_can_be_moved_to_and_a_full_week_cannot() {
    let next = next_on(&past([session(2)]), 3);
    assert_eq!((next.decision, next.next_day), (Decision::NotDue, Some(jiff::civil::date(2026, 11, 4))));
    assert!(matches!(next.reasons[0], Reason::FreeDay { .. }));
    let full = next_on(&past([session(2), session(4), session(6)]), 8);
    assert_eq!(full.decision, Decision::NotDue);
    assert!(matches!(full.reasons[0], Reason::WeekFull { .. }));
    assert!(!full.reasons.iter().any(|reason| matches!(reason, Reason::FreeDay { .. })));
}

#[test]
fn a_lock_is_said_before_a_hold_and_that_before_the_day() {
    let past = past([session(2), grabbed(), told(4, &[(Item::Head, Yes), (Item::Ill, Yes)])]);
    let next = next_on(&past, 4);
    assert_eq!(next.decision, Decision::Locked);
    let at = |is: fn(&Reason) -> bool| next.reasons.iter().position(is).unwrap();
    let lock = at(|reason| matches!(reason, Reason::Locked { .. }));
    let hold = at(|reason| matches!(reason, Reason::Holding { .. }));
    let day = at(|reason| matches!(reason, Reason::NotTodayAnswered { .. }));
    assert!(lock < hold && hold < day);
}

#[test]
fn every_step_of_every_ladder_has_words_for_its_change() {
    for drill in Drill::all() {
        for pair in drill.ladder().windows(2) {
            for (from, to) in [(pair[0], pair[1]), (pair[1], pair[0])] {
                assert!(!super::reason::change(from, to).is_empty(), "{}", drill.name());
            }
        }
    }
}

#[test]
fn a_try_out_counts_as_no_practice_and_locks_and_holds_all_the_same() {
    let tried = session(2).but(|session| session.tried_out = true);
    let past = Past { sessions: vec![tried.clone()], ..Past::default() };
    let next = Next::of(&past, &prescription(), &Fitness::default(), &at(2));
    assert!(next.is_open(), "{:?}", next.reasons);
    assert_eq!(next.reasons, [Reason::FirstPractice]);

    let fell = tried.but(|session| session.end = Some(SessionEnd::Fell));
    let past = Past { sessions: vec![fell], ..Past::default() };
    let next = Next::of(&past, &prescription(), &Fitness::default(), &at(2));
    assert_eq!(next.decision, Decision::Locked);
}
