//! Years of practice by people who answer at random, clocks set wrong and practices broken off included. Whatever they
//! do, the rules hold. The model here counts by itself: it shares only the types with what it checks.

use std::collections::BTreeMap;

use jiff::civil::Date;
use jiff::{SignedDuration, ToSpan, ZonedDateTime};
use proptest::prelude::*;
use rand::rngs::ChaCha12Rng;
use rand::{RngExt, SeedableRng};

use super::restrictions::is_free_of_unlocks;
use crate::course::past::sample::{clean, on};
use crate::course::past::{Barrier, Lifted, Past, PastSession};
use crate::course::progression::{Barriers, Decision, Fitness, LadderState, Next, too_hard};
use crate::health::lock::Lock;
use crate::health::readiness::{Check, Item, Today, Verdict};
use crate::health::yes_no::YesNoNotSure;
use crate::plan::drill::{Form, Support};
use crate::plan::prescription::Prescription;
use crate::record::{Effort, Given, Numbered, SessionEnd, SetEnd, Steadiness, Symptom, WhyStopped, YesNo};

/// One person's history as the model keeps it.
#[derive(Default)]
struct Model {
    /// Minutes of work begun on each day, and the numbers of the sets.
    days: BTreeMap<Date, Vec<u8>>,
    /// The last event that holds for 48 hours: by the clock, or the latest moment seen before if the clock was behind
    /// it. A clock that is slow and shows nothing of it cannot be found out by anybody.
    held_at: Option<i64>,
    /// The latest moment of any clock so far.
    seen: i64,
    locked: bool,
    /// A fall that nobody has cleared.
    fallen: bool,
    /// The days of grabs, and whether each was cleared.
    grabs: Vec<(Date, bool)>,
    /// Whether the last practice had anything that lowers, and its steps.
    last_was_bad: bool,
    last_steps: Vec<u8>,
    clean: u32,
    sessions: usize,
}

impl Model {
    /// Whether another grab is at most 28 days away from this one.
    fn is_paired(&self, nth: usize) -> bool {
        let day = self.grabs[nth].0;
        let near = |other: &Date| (other.duration_since(day).as_hours() / 24).abs() <= 28;
        (0..self.grabs.len()).any(|other| other != nth && near(&self.grabs[other].0))
    }

    fn is_restricted(&self) -> bool {
        self.fallen || (0..self.grabs.len()).any(|nth| !self.grabs[nth].1 && self.is_paired(nth))
    }
}

/// What can be prescribed in a test: the drills, where they start, and their ceilings.
fn prescription(days_a_week: u8, starts: [u8; 2]) -> Prescription {
    let text = format!(
        r#"
        schema = "counterpoise.prescription/1"
        title = "Years"
        issued_on = 2026-11-01
        days_a_week = {days_a_week}
        weeks = 52
        review_after_sessions = 24
        [[drills]]
        drill = "counter-reach"
        sets = 2
        work_ms = 60000
        step = {}
        ceiling = 4
        gap_ms = [5000, 15000]
        directions = ["left", "right", "forward"]
        [[drills]]
        drill = "quick-steps"
        sets = 1
        work_ms = 60000
        step = {}
        ceiling = 3
        gap_ms = [6000, 15000]
        directions = ["left", "right", "forward"]
    "#,
        starts[0], starts[1]
    );
    Prescription::read("years.toml", text.as_bytes()).unwrap()
}

/// Walks `days` days. `calm` of 100 practices are clean.
pub(super) fn walk(
    seed: u64,
    prescription: &Prescription,
    days: i32,
    calm: u32,
    tests_below: usize,
) -> (Past, u32) {
    let rng = &mut ChaCha12Rng::seed_from_u64(seed);
    let mut past = Past::default();
    let mut model = Model::default();
    let mut ups = 0;
    let start = on(jiff::civil::date(2026, 11, 2), 9);
    let fitness = Fitness { suitability: None, tests_below, ..Fitness::default() };
    for day in 0..days {
        for _ in 0..rng.random_range(1..=3) {
            let real =
                start.saturating_add(day.days()) + SignedDuration::from_mins(rng.random_range(0..12 * 60));
            // One clock in thirty is wrong, by up to three days back.
            let wrong = if rng.random_range(0..30) == 0 { rng.random_range(0..72) } else { 0 };
            let now: ZonedDateTime = &real - SignedDuration::from_hours(wrong);
            let now_ms = now.timestamp().as_millisecond();
            let next = Next::of(&past, prescription, &fitness, &now);
            check_steps(&next, prescription, tests_below);
            if model.is_restricted() {
                assert!(is_free_of_unlocks(&next, prescription), "guarded, seed {seed}, day {day}");
            }
            if rng.random_range(0..60) == 0 {
                clear(&mut past, &now, &mut model);
                continue;
            }
            if !next.is_open() {
                if next.decision == Decision::Locked && rng.random_range(0..10) == 0 {
                    clear(&mut past, &now, &mut model);
                }
                continue;
            }
            assert!(!model.locked, "practice under a lock, seed {seed}, day {day}");
            if let Some(held) = model.held_at {
                let since = now_ms.max(model.seen) - held;
                assert!(since >= 48 * 3_600_000, "practice within a hold, seed {seed}, day {day}");
            }
            check_change(&next, &model, prescription, seed);
            ups += u32::from(next.decision == Decision::Up);

            let today = prescription.at_steps(&next.steps).unwrap();
            let steps: Vec<u8> = next.steps.iter().flatten().copied().collect();
            let mut session = clean(&today, &now, &steps);
            session.id = format!("{day} {}", past.sessions.len());
            session.seen_before = past.latest();
            session.sets_whole = Some(session.sets_planned);
            session.sets.retain(|set| set.number >= next.first_set);
            session.given = given(&next, prescription);
            let finishing = next.first_set > 1;
            let steps: Vec<u8> = next.steps.iter().map(|step| step.unwrap_or(0)).collect();
            let bad = practice(rng, &mut session, calm, &past, &mut model);
            model.seen = model.seen.max(session.ended.as_millisecond());
            let begun: Vec<u8> = session.sets.iter().map(|set| set.number).collect();
            if !begun.is_empty() {
                let known = model.days.entry(session.day).or_default();
                assert!(known.is_empty() || finishing, "a second session on {}, seed {seed}", session.day);
                for number in begun {
                    assert!(!known.contains(&number), "set {number} twice on {}, seed {seed}", session.day);
                    known.push(number);
                }
                let is_clean = !bad && session.end == Some(SessionEnd::Finished) && !finishing;
                model.clean = if is_clean && (steps == model.last_steps || model.clean == 0) {
                    model.clean + 1
                } else {
                    u32::from(is_clean)
                };
                model.last_was_bad = bad;
                model.last_steps = steps;
                model.sessions += usize::from(!finishing);
            }
            past.sessions.push(session);
        }
    }
    check_weeks(&model, prescription, seed);
    (past, ups)
}

/// No step above a ceiling, a limit of the person, or below the first; the warm-up stays.
fn check_steps(next: &Next, prescription: &Prescription, tests_below: usize) {
    assert_eq!(next.steps[0], Some(1));
    for (plan, step) in prescription.drills().iter().zip(&next.steps) {
        let too_hard = next.state == Some(LadderState::TooHard);
        let Some(step) = *step else {
            assert!(tests_below >= 2 || too_hard || !next.restrictions.is_empty());
            continue;
        };
        if too_hard {
            assert!(plan.conditions_at(step).support.lightness() <= Support::TwoHands.lightness());
            assert!(plan.targets().iter().all(|target| !target.action.is_push()));
            assert_ne!(next.then, Decision::Up);
        }
        assert!((1..=plan.ceiling()).contains(&step));
        if tests_below == 1 {
            assert!(step <= 3 && plan.drill().ladder()[usize::from(step) - 1].support.is_resting());
        }
    }
    assert!(prescription.at_steps(&next.steps).is_some(), "it can be drawn");
}

/// One setting up at most, only after two clean sessions, and none after a bad one.
fn check_change(next: &Next, model: &Model, prescription: &Prescription, seed: u64) {
    if model.last_steps.is_empty() {
        return;
    }
    // What was left out comes back at its first step.
    let back = model.last_steps.iter().zip(&next.steps).filter(|(before, _)| **before == 0);
    assert!(back.into_iter().all(|(_, now)| now.unwrap_or(1) == 1), "back above step 1, seed {seed}");
    let ups: i32 = model
        .last_steps
        .iter()
        .zip(&next.steps)
        .filter(|(before, _)| **before > 0)
        .map(|(before, now)| i32::from(now.unwrap_or(0)) - i32::from(*before))
        .filter(|by| *by > 0)
        .sum();
    assert!(ups <= 1, "{ups} settings up at once, seed {seed}");
    if ups == 1 {
        assert!(!model.last_was_bad, "up after a bad session, seed {seed}");
        assert!(model.clean >= 2, "up after {} clean sessions, seed {seed}", model.clean);
        assert!(
            model.sessions < usize::from(prescription.review_after_sessions()),
            "up past a review, seed {seed}"
        );
    }
}

/// Any seven days hold at most as many practices as a week may.
fn check_weeks(model: &Model, prescription: &Prescription, seed: u64) {
    let days: Vec<Date> = model.days.keys().copied().collect();
    for (at, first) in days.iter().enumerate() {
        let in_seven = days[at..].iter().take_while(|day| **day < first.saturating_add(7.days())).count();
        assert!(
            in_seven <= usize::from(prescription.days_a_week()),
            "{in_seven} from {first} on, seed {seed}"
        );
    }
}

fn given(next: &Next, prescription: &Prescription) -> Vec<Given> {
    let plans = prescription.drills().iter().zip(&next.steps);
    plans.filter_map(|(plan, step)| Some(Given::of(plan, (*step)?))).collect()
}

/// A clinician clears everything that is locked now.
fn clear(past: &mut Past, now: &ZonedDateTime, model: &mut Model) {
    let barriers = Barriers::of(past, now.timestamp(), now.date());
    for locked in barriers.locks {
        past.lifted.push(Lifted { session: locked.session, what: Barrier::Lock(locked.what) });
    }
    for found in barriers.restrictions {
        past.lifted.push(Lifted { session: found.session, what: Barrier::Restriction(found.what) });
    }
    if let Some((session, _)) = too_hard(past, None) {
        past.lifted.push(Lifted { session, what: Barrier::TooHard });
    }
    (model.locked, model.fallen) = (false, false);
    let paired: Vec<bool> = (0..model.grabs.len()).map(|nth| model.is_paired(nth)).collect();
    model.grabs.iter_mut().zip(paired).for_each(|(grab, paired)| grab.1 |= paired);
}

/// What the person does and answers. Gives whether it was bad: something after which no step may go up.
fn practice(
    rng: &mut ChaCha12Rng,
    session: &mut PastSession,
    calm: u32,
    past: &Past,
    model: &mut Model,
) -> bool {
    let calm = rng.random_range(0..100) < calm;
    let mut check =
        Check::new(Today { unwell_last_time: super::super::unwell_last_time(past), ..Today::default() });
    while let Some(asked) = check.asked() {
        let good = asked.good();
        let others = YesNoNotSure::ALL.iter().copied().filter(|answer| *answer != good).collect::<Vec<_>>();
        let is_good = calm || rng.random_range(0..36) > 0;
        check.reply(if is_good { good } else { others[rng.random_range(0..2)] });
    }
    let readiness = check.readiness();
    session.ready = check.answers().to_vec();
    model.locked |= !readiness.locks.is_empty();
    model.fallen |=
        session.ready.iter().any(|(item, answer)| *item == Item::Fall && *answer != YesNoNotSure::No);
    let ended_ms = session.ended.as_millisecond().max(model.seen);
    if readiness.verdict == Verdict::NotToday {
        session.sets.clear();
        session.end = Some(SessionEnd::NotToday);
        session.ended = session.begun;
        if !readiness.holds.is_empty() {
            model.held_at = Some(session.ended.as_millisecond().max(model.seen));
        }
        return false;
    }
    if calm {
        return readiness.lower;
    }
    let last = session.sets.len() - 1;
    let place = rng.random_range(0..=last);
    match rng.random_range(0..8) {
        0 => {
            session.sets[place].grabbed = Some(YesNo::Yes);
            session.sets.truncate(place + 1);
            session.end = Some(SessionEnd::Grabbed);
            model.grabs.push((session.day, false));
            if session.sets[place].form == Form::Alone {
                model.held_at = Some(ended_ms);
            }
        }
        1 => {
            session.sets[place].end = Some(SetEnd::Fell);
            session.sets.truncate(place + 1);
            session.end = Some(SessionEnd::Fell);
            model.fallen = true;
            session.hurt = [Some(YesNo::No), Some(YesNo::Yes), None][rng.random_range(0..3)];
            match session.hurt {
                Some(YesNo::No) => model.held_at = Some(ended_ms),
                _ => model.locked = true,
            }
        }
        2 => session.sets[place].effort = Effort::numbered(10),
        3 => session.sets[place].steadiness = Some(Steadiness::LostBalance),
        4 => {
            session.sets[place].unwell = Some(YesNo::Yes);
            session.sets.truncate(place + 1);
            session.end = Some(SessionEnd::Unwell);
            session.symptom = Symptom::numbered(rng.random_range(0..7));
            model.locked |= session.symptom.is_some_and(|symptom| symptom <= Symptom::Faint);
            model.held_at = Some(ended_ms);
        }
        5 => {
            session.sets[place].end = Some(SetEnd::Stopped);
            session.sets.truncate(place + 1);
            session.end = Some(SessionEnd::StoppedUnsteady);
            session.why_stopped = Some(WhyStopped::Unsteady);
        }
        6 => {
            // The door bell, or the power: it may be finished.
            session.sets[place].end = Some(SetEnd::Interrupted);
            session.sets.truncate(place + 1);
            session.end = Some(
                [SessionEnd::Interrupted, SessionEnd::StoppedOther, SessionEnd::Closed]
                    [rng.random_range(0..3)],
            );
            return readiness.lower;
        }
        _ => {
            // A gentler practice with an answer left out.
            session.sets.iter_mut().for_each(|set| set.step = (set.step - 1).max(1));
            session.sets[place].effort = None;
        }
    }
    true
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 8, ..ProptestConfig::default() })]

    #[test]
    fn no_path_of_years_exceeds_a_limit_doubles_a_day_steps_up_after_a_bad_session_or_practices_under_a_lock(
        seed in any::<u64>(),
        days_a_week in 1_u8..=6,
        starts in (1_u8..=4, 1_u8..=3),
        calm in 0_u32..=100,
        tests_below in 0_usize..=3,
    ) {
        let prescription = prescription(days_a_week, [starts.0, starts.1]);
        walk(seed, &prescription, 750, calm, tests_below);
    }
}

/// The walk must meet what it is about: otherwise its silence proves nothing.
#[test]
fn the_years_hold_ups_downs_locks_clearances_interruptions_and_holds() {
    let prescription = prescription(6, [1, 1]);
    let (mut ups, mut locks, mut finished) = (0, 0, 0);
    for seed in 0..6 {
        let (past, up) = walk(seed, &prescription, 400, 60, 0);
        ups += up;
        locks +=
            past.lifted.iter().filter(|lifted| matches!(lifted.what, Barrier::Lock(Lock::FallHurt))).count();
        finished += past.sittings().iter().filter(|sitting| sitting.sessions().count() > 1).count();
        assert!(past.sessions.len() > 30, "{} sessions", past.sessions.len());
    }
    assert!(ups >= 6, "{ups} steps up");
    assert!(locks >= 6, "{locks} locks cleared");
    assert!(finished >= 3, "{finished} interrupted practices finished");
}
