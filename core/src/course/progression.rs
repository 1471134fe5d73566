//! Which step comes next, and why: past sessions, a prescription and a day lead to up, hold, down, rest, locked or not
//! due. One setting changes at a time, and never past a ceiling. All rules are \[judgment\] defaults that a therapist
//! can tighten; `docs/progression.md` has them in one table.
//!
//! ```text
//! past --> barriers (locks, holds) ---------------------------> locked, rest
//!   \----> program (one session a day, the week's days) ------> rest, not due
//!    \---> the steps of the last practice, judged ------------> up, hold, down
//! ```

use jiff::ZonedDateTime;
use jiff::civil::Date;

use crate::course::past::{Past, PastSession, Sitting};
use crate::course::program::{Due, Program, days_between};
use crate::health::bounds::Bounds;
use crate::health::lock::Restriction;
use crate::health::suitability::{By, Finding, Suitability};
use crate::plan::prescription::{DrillPlan, Prescription};

mod barrier;
mod judge;
mod ladder_state;
mod reason;

pub use crate::record::Decision;
use crate::record::{Decided, Given};
pub use barrier::{
    ActiveHold, ActiveLock, ActiveRestriction, Barriers, ends_day, marks_of, restrictions_of,
    unwell_last_time,
};
pub use judge::{Fault, Judgment, Shortfall, judge};
pub use ladder_state::{LadderState, too_hard};
pub use reason::Reason;

/// After more days than this without practice it goes on one step lower \[judgment\].
pub const LAYOFF_DAYS: i32 = 14;
/// Clean sessions in a row, at the same steps, before one setting changes \[judgment\].
pub const CLEAN_IN_A_ROW: usize = 2;

/// What is known of the person apart from what was practiced.
#[derive(Debug, Clone, Default)]
pub struct Fitness {
    /// The answers about suitability; `None` if they were never given. Those that the prescription accepts are taken as
    /// agreed by a clinician.
    pub suitability: Option<Suitability>,
    /// Balance tests whose latest result is below its published cut-off.
    pub tests_below: usize,
    /// The answers about the partner say no to practice with one.
    pub partner_unfit: bool,
}

/// What comes next.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Next {
    /// What to do now.
    pub decision: Decision,
    /// What becomes of the steps at the next practice, whenever it is: up, hold or down.
    pub then: Decision,
    /// Why, in the order in which it should be said.
    pub reasons: Vec<Reason>,
    /// The step of each drill of the prescription at the next practice; `None` leaves the drill out.
    pub steps: Vec<Option<u8>>,
    /// The drill that changes, where one does: its place in the prescription.
    pub changed: Option<usize>,
    /// When the last hold runs out, while one runs.
    pub until: Option<ZonedDateTime>,
    /// The next day, where it is not this one.
    pub next_day: Option<Date>,
    /// The number of the first set to do, where an interrupted session is finished: 1 begins a new one.
    pub first_set: u8,
    /// At which end of its ladders the program is, if at one.
    pub state: Option<LadderState>,
    /// What leaves out everything that needs an unlock, tosses and wall throws, until a therapist clears it; each once.
    pub restrictions: Vec<Restriction>,
}

impl Fitness {
    /// What they leave of a prescription; `None`: talk to a clinician first. Somebody who was
    /// never asked is asked by the pages before each practice, so nothing is left out here.
    pub fn bounds(&self) -> Option<Bounds> {
        let suitability = self.suitability.as_ref().map_or(Some(Bounds::OPEN), Suitability::bounds)?;
        let partner = if self.partner_unfit { Bounds::ALONE } else { Bounds::OPEN };
        Some(suitability.and(Bounds::for_tests_below(self.tests_below)).and(partner))
    }
}

impl Next {
    /// What comes after `past` under `prescription`, `now`.
    ///
    /// ```
    /// use counterpoise_core::course::past::Past;
    /// use counterpoise_core::plan::prescription::Prescription;
    /// use counterpoise_core::course::progression::{Decision, Fitness, Next};
    /// let gentle = Prescription::ready("gentle").unwrap();
    /// let now = "2026-11-02T10:00:00-05:00[America/New_York]".parse().unwrap();
    /// let next = Next::of(&Past::default(), gentle, &Fitness::default(), &now);
    /// assert_eq!((next.decision, next.steps), (Decision::Hold, vec![Some(1), Some(1)]));
    /// assert_eq!(next.reasons[0].to_string(), "This is the first practice of this program.");
    /// ```
    pub fn of(past: &Past, prescription: &Prescription, fitness: &Fitness, now: &ZonedDateTime) -> Self {
        let program = Program::new(past, prescription);
        let bounds = fitness.bounds();
        let barriers = Barriers::of(past, now.timestamp(), now.date());
        let of_person = bounds.unwrap_or(Bounds::STEP_ONE);
        let restricted = if barriers.restrictions.is_empty() { Bounds::OPEN } else { Bounds::NO_UNLOCKS };
        let ladders = Ladders::new(past, prescription, &program, of_person.and(restricted), now.date());
        let leaves_out = ladders.leaves_out_more_than(of_person);
        let mut next = ladders.next();
        next.restrict(&barriers, leaves_out);
        if let Some(bounds) = bounds.filter(|bounds| *bounds != Bounds::OPEN) {
            next.reasons.push(Reason::Bounds { bounds });
            if prescription.drills().iter().any(|plan| plan.ladder().version() > 1) {
                next.reasons.push(Reason::Limits { limits: bounds.limits });
            }
        }
        next.reasons.extend(accepted(prescription, fitness));
        next.apply_due(past, program.due(now.date(), now.timestamp()), now.date());
        next.apply_barriers(&barriers, now);
        if bounds.is_none() {
            let because = fitness.suitability.iter().flat_map(|suitability| &suitability.because);
            let because = because.map(|(topic, found, _)| topic.said(*found)).next().unwrap_or_default();
            next.stop(Decision::Locked, Reason::Clinician { because });
        }
        next
    }

    /// Whether practice may begin now.
    pub fn is_open(&self) -> bool {
        matches!(self.decision, Decision::Up | Decision::Hold | Decision::Down)
    }

    /// The steps of a gentler practice today: each drill one step lower. The person may always choose it.
    pub fn gentler(&self) -> Vec<Option<u8>> {
        self.steps.iter().map(|step| step.map(|step| step.saturating_sub(1).max(1))).collect()
    }

    /// The steps of a gentler practice today after a fall that was told a moment ago: what needs an unlock, tosses and wall
    /// throws are left out too.
    pub fn after_fall(&self, prescription: &Prescription) -> Vec<Option<u8>> {
        let plans = prescription.drills().iter().zip(self.gentler());
        let within =
            |(plan, step): (&DrillPlan, Option<u8>)| Some(step?.min(highest_step(Bounds::NO_UNLOCKS, plan)?));
        plans.map(within).collect()
    }

    /// How many sets the whole session has at these steps.
    pub fn sets_whole(&self, prescription: &Prescription) -> usize {
        let plans = prescription.drills().iter().zip(&self.steps);
        plans.filter(|(_, step)| step.is_some()).map(|(plan, _)| usize::from(plan.sets())).sum()
    }

    /// What is kept of the decision with a session. `past`: what was known when it was made.
    pub fn decided(
        &self,
        prescription: &Prescription,
        past: &Past,
        gentler: bool,
        sets_whole: usize,
    ) -> Decided {
        let given = prescription.drills().iter().zip(&self.steps);
        Decided {
            decision: self.then,
            reasons: self.reasons.iter().map(ToString::to_string).collect(),
            gentler,
            first_set: self.first_set,
            sets_whole: sets_whole as u8,
            seen_before: past.latest(),
            given: given.filter_map(|(plan, step)| Some(Given::of(plan, (*step)?))).collect(),
        }
    }

    /// What is left out until it is cleared; said where it `leaves_out` anything of this program.
    fn restrict(&mut self, barriers: &Barriers, leaves_out: bool) {
        self.restrictions = barriers.restrictions.iter().map(|found| found.what).collect();
        self.restrictions.sort_unstable();
        self.restrictions.dedup();
        let said = self.restrictions.iter().filter(|_| leaves_out);
        self.reasons.extend(said.map(|what| Reason::Restricted { what: *what }));
    }

    fn stop(&mut self, decision: Decision, reason: Reason) {
        self.decision = decision;
        self.reasons.insert(0, reason);
    }

    fn apply_due(&mut self, past: &Past, due: Due, day: Date) {
        let (decision, reason, next) = match due {
            Due::Today => return,
            Due::Finish { .. } => return self.finish(past),
            Due::Done { next } => (Decision::Rest, Reason::DoneToday { next }, next),
            Due::Free { next } => (Decision::NotDue, Reason::FreeDay { next }, next),
            Due::Rest { next } => (Decision::NotDue, Reason::WeekFull { next }, next),
            Due::ClockBack { last } => (Decision::Rest, Reason::ClockBack { last, day }, last),
        };
        self.next_day = Some(next);
        self.stop(decision, reason);
    }

    /// The session of this day continues where it was interrupted. That it is not complete yet is not a reason.
    fn finish(&mut self, past: &Past) {
        let sittings = past.sittings();
        let Some(last) = sittings.iter().max_by_key(|sitting| sitting.last().known()) else { return };
        self.first_set = last.sets().map(|set| set.number).max().unwrap_or(0) + 1;
        self.reasons.retain(|reason| !matches!(reason, Reason::Mixed { .. }));
        self.stop(self.then, Reason::Finish { first_set: self.first_set });
    }

    fn apply_barriers(&mut self, barriers: &Barriers, now: &ZonedDateTime) {
        if let Some(day) = barriers.not_before {
            self.next_day = self.next_day.max(Some(day));
            self.stop(Decision::Rest, Reason::NotTodayAnswered { next: day });
        }
        for hold in &barriers.holds {
            let until = hold.until.to_zoned_datetime(now.time_zone().clone());
            self.next_day = self.next_day.max(Some(until.date()));
            self.until = Some(until.clone());
            self.stop(Decision::Rest, Reason::Holding { what: hold.what, until, today: now.date() });
        }
        for lock in barriers.locks.iter().rev() {
            self.stop(Decision::Locked, Reason::Locked { what: lock.what });
        }
        if !self.is_open() {
            self.first_set = 1;
        }
    }
}

/// Which answers about suitability the prescription accepts: those whose locks would stand without it.
fn accepted(prescription: &Prescription, fitness: &Fitness) -> Vec<Reason> {
    let because = fitness.suitability.iter().flat_map(|suitability| &suitability.because);
    let lifted = |by| move |(_, found, _): &&(_, Finding, _)| *found == Finding::Lifted(by);
    let topics = because.clone().filter(lifted(By::Acceptance)).flat_map(|(topic, ..)| topic.parts());
    let of = |topic| prescription.accepts().iter().find(move |accept| accept.topic == topic);
    let topics = topics.filter_map(of).map(|accept| Reason::AcceptedTopic {
        topic: accept.topic,
        who: accept.who.clone(),
        when: accept.when,
    });
    let mut reasons: Vec<Reason> = topics.collect();
    if because.clone().any(|one| lifted(By::Before)(&one)) {
        let because = prescription.accepted_because().unwrap_or_default().to_owned();
        reasons.push(Reason::Accepted { because });
    }
    reasons
}

/// The prescription at these steps, which progression gave, or a gentler choice.
///
/// # Panics
/// If a step is above its drill's ceiling: progression gives none of those.
pub fn at_steps(prescription: &Prescription, steps: &[Option<u8>]) -> Prescription {
    prescription.at_steps(steps).expect("progression stays within the prescription, as its tests prove")
}

/// The highest step of this drill that the prescription and these bounds leave.
fn highest_step(bounds: Bounds, plan: &DrillPlan) -> Option<u8> {
    bounds.highest_step(plan.ladder(), plan.form(), plan.targets(), plan.ceiling(), plan.named_steps())
}

/// The steps on their way from the last practice to the next.
struct Ladders<'a> {
    past: &'a Past,
    prescription: &'a Prescription,
    program: &'a Program<'a>,
    bounds: Bounds,
    day: Date,
    /// The practices under this prescription, oldest first.
    sittings: Vec<Sitting<'a>>,
    steps: Vec<u8>,
    reasons: Vec<Reason>,
    /// The gentlest step was too hard twice, and nobody has cleared it.
    too_hard: bool,
}

impl<'a> Ladders<'a> {
    fn new(
        past: &'a Past,
        prescription: &'a Prescription,
        program: &'a Program<'a>,
        bounds: Bounds,
        day: Date,
    ) -> Self {
        let mut sittings = past.sittings();
        sittings.retain(|sitting| sitting.first().digest == prescription.digest());
        let steps = prescription.drills().iter().map(|plan| last_step(plan, &sittings)).collect();
        let too_hard = too_hard(past, Some(prescription)).is_some();
        let bounds = if too_hard { bounds.and(Bounds::TOO_HARD) } else { bounds };
        Self { past, prescription, program, bounds, day, sittings, steps, reasons: Vec::new(), too_hard }
    }

    /// Whether the bounds leave less of any drill than these and the state of the ladders would.
    fn leaves_out_more_than(&self, bounds: Bounds) -> bool {
        let bounds = if self.too_hard { bounds.and(Bounds::TOO_HARD) } else { bounds };
        let mut plans = self.prescription.drills().iter().skip(1);
        plans.any(|plan| highest_step(self.bounds, plan) != highest_step(bounds, plan))
    }

    fn next(mut self) -> Next {
        let before = self.steps.clone();
        let lowered = self.lower();
        if !lowered {
            self.raise();
        }
        let changed = (0..before.len()).find(|place| self.steps[*place] != before[*place]);
        if lowered && changed.is_none() {
            self.reasons.push(Reason::Gentlest);
        }
        let state = self.state(lowered || changed.is_some());
        if self.too_hard {
            self.reasons.push(Reason::TooHard);
        }
        let then = match changed {
            None => Decision::Hold,
            Some(_) if lowered => Decision::Down,
            Some(_) => Decision::Up,
        };
        let plans = self.prescription.drills().iter().enumerate();
        let steps = plans.map(|(place, plan)| match place {
            // The warm-up is every session's first drill, at its first step, with both hands resting.
            0 => Some(1),
            _ => self.highest_step(plan).map(|most| self.steps[place].min(most)),
        });
        let steps = steps.collect();
        let reasons = self.reasons;
        Next {
            decision: then,
            then,
            reasons,
            steps,
            changed,
            until: None,
            next_day: None,
            first_set: 1,
            state,
            restrictions: Vec::new(),
        }
    }

    /// At which end of the ladders the program is: too hard at the gentlest step, or clean with no step left to go up.
    fn state(&self, moves: bool) -> Option<LadderState> {
        if self.too_hard {
            return Some(LadderState::TooHard);
        }
        let clean = !moves && clean_in_a_row(&self.sittings, self.prescription) >= CLEAN_IN_A_ROW;
        let plans = self.prescription.drills().iter().enumerate().skip(1);
        let at: Vec<bool> =
            plans.filter_map(|(place, plan)| Some(self.steps[place] >= self.highest_step(plan)?)).collect();
        (clean && !at.is_empty() && at.iter().all(|at| *at)).then_some(LadderState::AtCeiling)
    }

    /// The highest step of this drill that the prescription and the person's limits leave.
    fn highest_step(&self, plan: &DrillPlan) -> Option<u8> {
        highest_step(self.bounds, plan)
    }

    /// Everything that lowers, each by one step. Says whether anything did, at the first step too.
    fn lower(&mut self) -> bool {
        let mut lowered = false;
        if let Some(last) = self.sittings.last() {
            let Judgment { faults, .. } = judge(last, self.prescription);
            if !faults.is_empty() {
                let whole = faults.iter().any(Fault::is_about_person);
                let at: Vec<usize> = (1..self.steps.len())
                    .filter(|place| {
                        let plan = &self.prescription.drills()[*place];
                        whole || faults.iter().any(|fault| fault.is_in(plan.drill().name(), plan.form()))
                    })
                    .collect();
                // What happened in the warm-up lowers everything else: the warm-up itself is the gentlest there is.
                let at = if at.is_empty() { (1..self.steps.len()).collect() } else { at };
                self.lower_steps(&at);
                self.reasons.extend(faults.into_iter().map(|fault| Reason::Fault { fault }));
                lowered = true;
            }
        }
        let all: Vec<usize> = (1..self.steps.len()).collect();
        for told in barrier::reported_since(self.past, self.sittings.last()) {
            self.lower_steps(&all);
            self.reasons.push(Reason::Reported { what: told });
            lowered = true;
        }
        let off = self.sittings.last().map_or(0, |last| days_between(last.day(), self.day));
        if off > LAYOFF_DAYS {
            self.lower_steps(&all);
            self.reasons.push(Reason::Layoff { days: off });
            lowered = true;
        }
        lowered
    }

    fn lower_steps(&mut self, at: &[usize]) {
        for place in at {
            self.steps[*place] = self.steps[*place].saturating_sub(1).max(1);
        }
    }

    /// One step higher in one drill, if two clean sessions in a row say so and nothing speaks against it.
    fn raise(&mut self) {
        let Some(last) = self.sittings.last() else { return self.reasons.push(Reason::FirstPractice) };
        let row = clean_in_a_row(&self.sittings, self.prescription);
        if row < CLEAN_IN_A_ROW {
            let Judgment { shortfalls, .. } = judge(last, self.prescription);
            if shortfalls.is_empty() {
                self.reasons.push(Reason::OneClean);
            }
            self.reasons.extend(shortfalls.into_iter().map(|shortfall| Reason::Mixed { shortfall }));
            return;
        }
        if self.too_hard {
            return;
        }
        let review = self.prescription.review_after_sessions();
        if self.sittings.len() >= usize::from(review) {
            return self.reasons.push(Reason::Review { sessions: self.sittings.len(), review });
        }
        if self.program.is_over(self.day) {
            return self.reasons.push(Reason::ProgramOver { weeks: self.program.weeks() });
        }
        let plans = self.prescription.drills();
        let has_room =
            |place: &usize| self.highest_step(&plans[*place]).is_some_and(|most| self.steps[*place] < most);
        // What comes back is practiced at its first step before it goes up.
        let was_in = |place: &usize| is_part_of(&plans[*place], last);
        let room = (1..plans.len()).filter(has_room).filter(was_in);
        // The gentlest first, so that no drill runs ahead of the others.
        let Some(place) = room.min_by_key(|place| self.steps[*place]) else {
            return self.reasons.push(Reason::AtCeiling);
        };
        let plan = &plans[place];
        let step = self.steps[place];
        let (from, to) = (plan.conditions_at(step), plan.conditions_at(step + 1));
        self.steps[place] += 1;
        self.reasons.push(Reason::Up {
            drill: plan.drill().title().to_owned(),
            step: self.steps[place],
            change: reason::change(from, to),
        });
    }
}

/// The step that progression gave to this drill last, or that was practiced where none was kept; else the one to start at.
/// Never above the ceiling. What was left out comes back at its first step.
fn last_step(plan: &DrillPlan, sittings: &[Sitting<'_>]) -> u8 {
    let is = |drill: &str, form| drill == plan.drill().name() && form == plan.form();
    let mut left_out = false;
    let last = sittings.iter().rev().find_map(|sitting| {
        let given = sitting.first().given.iter().filter(|given| is(&given.drill, given.form));
        let given: Vec<u8> = given.map(|given| given.step).collect();
        let practiced = sitting.sets().filter(|set| is(&set.drill, set.form)).map(|set| set.step);
        // Where a drill is in a prescription twice, the first entry is at the warm-up's step.
        let step = given.into_iter().max().or(practiced.max());
        // An interrupted practice may have been finished without it.
        let lacks = |session: &PastSession| {
            let given = session.given.iter().any(|given| is(&given.drill, given.form));
            let practiced = session.sets.iter().any(|set| is(&set.drill, set.form));
            !(session.given.is_empty() || given || practiced)
        };
        left_out |= sitting.sessions().any(lacks);
        step
    });
    // What lowered the others while it was left out is not known of it.
    let last = if left_out { 1 } else { last.unwrap_or(plan.step()) };
    last.min(plan.ceiling()).max(1)
}

/// Whether this drill was practiced, or was to be: where it was left out, no step of it was.
fn is_part_of(plan: &DrillPlan, sitting: &Sitting<'_>) -> bool {
    let is = |drill: &str, form| drill == plan.drill().name() && form == plan.form();
    let given = |session: &PastSession| {
        session.given.is_empty() || session.given.iter().any(|given| is(&given.drill, given.form))
    };
    sitting.sets().any(|set| is(&set.drill, set.form)) || sitting.sessions().all(given)
}

/// How many of the last sessions were clean, at the same steps as the last of them.
fn clean_in_a_row(sittings: &[Sitting<'_>], prescription: &Prescription) -> usize {
    let steps = |sitting: &Sitting<'_>| -> Vec<Option<u8>> {
        let one = std::slice::from_ref(sitting);
        let plans = prescription.drills().iter();
        plans.map(|plan| is_part_of(plan, sitting).then(|| last_step(plan, one))).collect()
    };
    let Some(last) = sittings.last() else { return 0 };
    let same = sittings
        .iter()
        .rev()
        .take_while(|sitting| judge(sitting, prescription).is_clean() && steps(sitting) == steps(last));
    // A day has one practice. A second one, typed in or merged from another computer, counts toward nothing.
    let mut days: Vec<Date> = same.map(Sitting::day).collect();
    days.dedup();
    days.len()
}

#[cfg(test)]
mod test;
