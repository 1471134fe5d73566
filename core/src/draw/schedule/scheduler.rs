//! Draws the cues of one session: the tables of a prescription, built once, and what a seed draws from them. `seed`
//! lists the random streams; the draws of gaps, blanks and directions have their own modules.

use super::attributes::Extras;
use super::chance::below;
use super::covered::{CoveredSequences, TooMany};
use super::gap_draw;
use super::moments::{self, FEWEST_CUES, Moment, Rules};
use super::order::Streak;
use super::upcoming::UpcomingCalls;
use super::{Call, Cue, Method, Schedule, Seed, SetPlan, inspect};
use crate::plan::drill::{Facing, Side, Stance, Strength};
use crate::plan::gaps::GapTable;
use crate::plan::limb;
use crate::plan::prescription::{DrillOrder, DrillPlan, Prescription, Sequence, limits};
use crate::units::Millis;

/// The most real cues of a session; after this many it calls no more.
const MOST_CUES: usize = limits::SESSION_CUES as usize;

/// Draws sessions from one prescription. The tables are built once; a draw only reads them.
///
/// ```
/// use counterpoise_core::plan::prescription::Prescription;
/// use counterpoise_core::draw::schedule::{Scheduler, Seed};
/// let scheduler = Scheduler::new(Prescription::ready("gentle").unwrap()).unwrap();
/// let session = scheduler.draw(Seed::from_bytes([7; 32]));
/// assert_eq!(session, scheduler.draw(Seed::from_bytes([7; 32])), "a seed replays its session");
/// assert_ne!(session.sets(), scheduler.draw(Seed::from_bytes([8; 32])).sets());
///
/// let set = &session.sets()[1];
/// let later = scheduler.after_pause(session.seed(), set, 1, set.cues()[0].at(), 1);
/// assert_eq!(later.cues()[0], set.cues()[0], "what was called stays");
/// ```
#[derive(Debug, Clone)]
pub struct Scheduler {
    method: Method,
    prescription: Prescription,
    drills: Vec<DrillTables>,
}

#[derive(Debug, Clone)]
struct DrillTables {
    gaps: GapTable,
    calls: Vec<Call>,
    covered: Option<CoveredSequences>,
}

/// Why sessions cannot be drawn from a prescription that is otherwise within its limits.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum ScheduleError {
    /// The tables of the order `covered` would be too large.
    #[error(
        "{drill}: the sequence \"covered\" with {directions} directions and slack {slack} needs more memory than it \
         may take (drill on line {line})"
    )]
    CoveredTooLarge {
        /// The title of the drill.
        drill: &'static str,
        /// How many directions.
        directions: usize,
        /// The slack of the sequence.
        slack: u8,
        /// The line of the file on which the drill begins.
        line: usize,
    },
    /// The sequences of the order `covered` are too many to be counted exactly.
    #[error(
        "{drill}: the sequence \"covered\" with {directions} directions and slack {slack} has too many sequences to \
         count them exactly (drill on line {line})"
    )]
    CoveredUncountable {
        /// The title of the drill.
        drill: &'static str,
        /// How many directions.
        directions: usize,
        /// The slack of the sequence.
        slack: u8,
        /// The line of the file on which the drill begins.
        line: usize,
    },
}

impl ScheduleError {
    /// What to try.
    pub fn hint(&self) -> &'static str {
        "use fewer directions or a slack of 1 or 2, or set `sequence` to \"open\""
    }
}

/// A set with its drawn moments and, in the order `open`, its drawn calls.
struct DrawnSet {
    slot: Slot,
    moments: Vec<Moment>,
    redraws: u16,
    /// Of each real cue, its place among the targets of the prescription.
    places: Vec<usize>,
}

/// A set's place in a session, before anything of it is drawn.
#[derive(Debug, Clone, Copy)]
struct Slot {
    number: u8,
    /// The place of its drill in the prescription, from 0.
    drill: usize,
    /// Which of the drill's sets, from 0.
    nth: u8,
}

impl Scheduler {
    /// Builds the tables. Only few sets will be drawn again, since the gate refuses anything else.
    ///
    /// # Errors
    /// If the sequences of the order `covered` cannot be counted.
    pub fn new(prescription: &Prescription) -> Result<Self, ScheduleError> {
        Self::by(Method::NEWEST, prescription)
    }

    /// The same for the recipe of a kept session, to draw it again.
    ///
    /// # Errors
    /// As for [`Scheduler::new`].
    pub fn by(method: Method, prescription: &Prescription) -> Result<Self, ScheduleError> {
        let drills = prescription.drills().iter().map(DrillTables::new).collect::<Result<_, _>>()?;
        Ok(Self { method, prescription: prescription.clone(), drills })
    }

    /// The session of this seed, which never changes.
    ///
    /// Moments come first, set by set. The 40th real cue is the session's last: what would follow is left out, and a
    /// set that this would leave with fewer than two real cues is left out whole, so a session may end with the 39th.
    /// Then what is called, drill by drill. If calls have different durations, they are drawn from the same stream in the
    /// same order, and each attempt at a set starts that stream from its beginning.
    pub fn draw(&self, seed: Seed) -> Schedule {
        // The next method begins here, and in `after_pause`.
        let Method::One = self.method;
        let mut sets = Vec::new();
        let mut cues_left = MOST_CUES;
        let mut streaks = vec![Streak::default(); self.drills.len()];
        for slot in self.slots(seed) {
            let mut upcoming =
                UpcomingCalls::new(self.plan_of(slot), streaks[slot.drill], seed.order(slot.number));
            let (mut moments, redraws) =
                self.rules(slot.drill).draw(seed, slot.number, |nth| upcoming.duration(nth));
            if cues_left < FEWEST_CUES {
                break;
            }
            moments::keep_real(&mut moments, cues_left);
            cues_left -= moments::real(&moments);
            let (places, streak) = upcoming.first(moments::real(&moments));
            streaks[slot.drill] = streak;
            sets.push(DrawnSet { slot, moments, redraws, places });
        }
        for block in sets.chunk_by_mut(|a, b| a.slot.drill == b.slot.drill) {
            if let Some(covered) = &self.drills[block[0].slot.drill].covered {
                let cues = block.iter().map(|set| moments::real(&set.moments)).sum();
                let mut places = covered.draw(cues, &mut seed.order(block[0].slot.number)).into_iter();
                for set in block {
                    set.places = places.by_ref().take(moments::real(&set.moments)).collect();
                }
            }
        }
        let mut pushes = 0;
        let plans = sets.iter().map(|set| self.plan(seed, set, &mut pushes)).collect();
        let schedule = Schedule { method: self.method, seed, sets: plans };
        debug_assert_eq!(inspect::inspect(&self.prescription, &schedule), Ok(()), "seed {seed}");
        schedule
    }

    /// The rest of a set, replanned after its pause number `pause`, counted from 1.
    ///
    /// `elapsed` is the work done when the pause began, and `next` the place of the first cue not yet called. Cues
    /// already called stay as they are. A fresh gap from `elapsed` on is drawn from the pause's own stream; the gaps
    /// after it, the directions and the blanks follow as planned. Whatever would then come later than work less
    /// recovery is dropped; nothing is added if time is left. Offsets go on counting from the start of the work with
    /// the pause taken out, and each cue's gap stays the work time since the entry before it, so the first one may be
    /// longer than the prescription's greatest. What lasted when the pause began ended with it.
    ///
    /// # Panics
    /// If `set` has a number that no set drawn by this scheduler has.
    pub fn after_pause(
        &self,
        seed: Seed,
        set: &SetPlan,
        pause: u16,
        elapsed: Millis,
        next: usize,
    ) -> SetPlan {
        let Method::One = self.method;
        let slot = self.slots(seed).into_iter().find(|slot| slot.number == set.number);
        let rules = self.rules(slot.expect("the set was drawn from this prescription and seed").drill);
        let (called, planned) = set.cues.split_at(next.min(set.cues.len()));
        let mut cues = called.to_vec();
        if let Some(last) = cues.last_mut() {
            last.end_by(elapsed);
        }
        let mut before = cues.last().map_or(Millis(0), Cue::end);
        let fresh = elapsed.max(before) + gap_draw::draw(rules.gaps, &mut seed.pause(set.number, pause));
        for (index, cue) in planned.iter().enumerate() {
            let at = if index == 0 { fresh } else { before + cue.gap };
            let cue = Cue { at, gap: at - before, call: cue.call.clone() };
            if cue.end() > rules.latest {
                break;
            }
            before = cue.end();
            cues.push(cue);
        }
        SetPlan { cues, ..set.clone() }
    }

    /// The set with its pushes for practice decided now that it is given: those from the cue number `next` on that are
    /// among the session's first are the gentlest, and announced as practice, even where a set before it that was to have
    /// them was not given. `given`: the session's pushes before them.
    ///
    /// # Panics
    /// As [`Self::after_pause`].
    #[must_use]
    pub fn for_practice_first(&self, seed: Seed, set: &SetPlan, given: usize, next: usize) -> SetPlan {
        let slot = self.slots(seed).into_iter().find(|slot| slot.number == set.number);
        let plan = self.plan_of(slot.expect("the set was drawn from this prescription and seed"));
        let (gentlest, _) = plan.strength().unwrap_or((Strength::GENTLEST, Strength::GENTLEST));
        let mut set = set.clone();
        let calls = set.cues.iter_mut().skip(next).filter_map(|cue| cue.call.as_mut());
        let pushes = calls.filter(|call| call.action.is_push());
        for call in pushes.take(limits::PRACTICE_PUSHES.saturating_sub(given)) {
            call.make_practice(gentlest);
        }
        set
    }

    /// The prescription that it draws from.
    pub fn prescription(&self) -> &Prescription {
        &self.prescription
    }

    /// The counted sequences of drill number `drill` of the prescription, from 0, if its order is `covered`.
    pub fn covered_sequences(&self, drill: usize) -> Option<&CoveredSequences> {
        self.drills.get(drill)?.covered.as_ref()
    }

    /// Every set in the order of the session. If the order of the drills is drawn, the drills after the warm-up are
    /// shuffled from the last down: each changes places with one not above it, drawn evenly (Fisher and Yates 1938).
    /// Then those in which the person walks follow the others, so that walking comes last, and the floor is cleared once.
    fn slots(&self, seed: Seed) -> Vec<Slot> {
        let plans = self.prescription.drills();
        let mut drills: Vec<usize> = (0..plans.len()).collect();
        if self.prescription.order() == DrillOrder::Drawn {
            let mut rng = seed.drills();
            for place in (2..drills.len()).rev() {
                drills.swap(place, 1 + below(&mut rng, place as u64) as usize);
            }
            drills[1..].sort_by_key(|drill| plans[*drill].drill().is_walking());
        }
        let sets = drills.into_iter().flat_map(|drill| (0..plans[drill].sets()).map(move |nth| (drill, nth)));
        (1..).zip(sets).map(|(number, (drill, nth))| Slot { number, drill, nth }).collect()
    }

    fn rules(&self, drill: usize) -> Rules<'_> {
        self.drills[drill].rules(&self.prescription.drills()[drill])
    }

    fn plan_of(&self, slot: Slot) -> &DrillPlan {
        &self.prescription.drills()[slot.drill]
    }

    /// The set, with the attributes drawn for each call: how firm, which ball, which parts. `pushes` counts those of
    /// the session so far.
    fn plan(&self, seed: Seed, set: &DrawnSet, pushes: &mut usize) -> SetPlan {
        let DrawnSet { slot, moments, redraws, places } = set;
        let plan = self.plan_of(*slot);
        let mut extras = Extras::new(seed, slot.number, plan);
        let mut places = places.iter();
        let cues = moments.iter().map(|&Moment { at, gap, blank, .. }| {
            let place = if blank { None } else { places.next() };
            let call = place.map(|place| {
                let mut call = self.drills[slot.drill].calls[*place].clone();
                extras.add(&mut call, pushes);
                call
            });
            Cue { at, gap, call }
        });
        SetPlan {
            cues: cues.collect(),
            moves: limb::phrases(plan.targets(), plan.parts(), plan.conditions()),
            precautions: self.prescription.precautions(),
            number: slot.number,
            drill: plan.drill(),
            ladder: plan.ladder(),
            form: plan.form(),
            step: plan.step(),
            conditions: plan.conditions(),
            facing: facing(plan, slot.nth),
            side: side(plan.conditions().stance, slot.nth),
            balls: plan.balls(),
            work: plan.work(),
            recover: plan.recover(),
            rest: self.prescription.rest(),
            redraws: *redraws,
        }
    }
}

impl DrillTables {
    fn new(plan: &DrillPlan) -> Result<Self, ScheduleError> {
        let calls = plan.targets().iter().map(|target| Call::of(target, plan.form(), plan.drill().lead()));
        let mut tables = Self { gaps: GapTable::new(plan.gaps()), calls: calls.collect(), covered: None };
        let rules = tables.rules(plan);
        if let Sequence::Covered { slack } = plan.sequence() {
            let duration = plan.targets()[0].duration();
            let most_a_set = rules.latest.0 / (rules.gaps.least() + duration).0.max(1);
            let most = (most_a_set as usize * usize::from(plan.sets())).min(MOST_CUES);
            let (drill, directions, line) = (plan.drill().title(), plan.targets().len(), plan.line());
            let covered = CoveredSequences::new(directions, slack, plan.longest_streak(), most).map_err(
                |why| match why {
                    TooMany::States => ScheduleError::CoveredTooLarge { drill, directions, slack, line },
                    TooMany::Sequences => {
                        ScheduleError::CoveredUncountable { drill, directions, slack, line }
                    }
                },
            )?;
            tables.covered = Some(covered);
        }
        Ok(tables)
    }

    fn rules(&self, plan: &DrillPlan) -> Rules<'_> {
        Rules {
            gaps: &self.gaps,
            latest: plan.work() - plan.recover(),
            most_real: plan.most_calls() as usize,
            blank_per_mille: plan.blank_per_mille(),
        }
    }
}

/// The foot ahead in the drill's set `nth`, from 0: left first and then in turn, so that both sides get equally many
/// sets, or the left one more.
fn side(stance: Stance, nth: u8) -> Option<Side> {
    let side = if nth.is_multiple_of(2) { Side::Left } else { Side::Right };
    stance.has_sides().then_some(side)
}

/// Where the counter is in the drill's set `nth`, from 0: in turn, set by set. With a stance of two sides every second
/// set, so that each foot meets each side.
fn facing(plan: &DrillPlan, nth: u8) -> Facing {
    let facings = plan.drill().facings();
    let turn = if plan.conditions().stance.has_sides() { nth / 2 } else { nth };
    facings[usize::from(turn) % facings.len()]
}

#[cfg(test)]
mod test;
