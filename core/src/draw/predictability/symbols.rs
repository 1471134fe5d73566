//! The calls of drawn sessions as sequences of symbols: directions, classes of waits, and pairs of both. Sessions
//! are added whole and in order, so that anybody can draw the same ones again.

use std::cmp::Reverse;

use super::wait::SLOT;
use crate::draw::schedule::{Call, Schedule, SetPlan};
use crate::plan::drill::Target;
use crate::plan::prescription::{DrillPlan, Prescription};
use crate::units::Millis;

/// Into how many classes waits are put, equally likely as far as a millisecond allows.
pub const CLASSES: u8 = 4;

/// What a sequence is made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Kind {
    /// The direction of each call, as its place in the prescription.
    Direction,
    /// The class of the wait before it.
    Gap,
    /// Class x directions + direction: a tie between the two would show.
    Pair,
}

impl Kind {
    /// All three, in the order of reports.
    pub const ALL: [Self; 3] = [Self::Direction, Self::Gap, Self::Pair];

    /// The word in files.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Direction => "direction",
            Self::Gap => "gap",
            Self::Pair => "pair",
        }
    }
}

/// The calls of one drill, as symbols.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sequence {
    directions: u8,
    bounds: Vec<Millis>,
    called: Vec<u8>,
    classes: Vec<u8>,
    /// How many waits fell into each slot of [`SLOT`], from 0 ms on.
    slots: Vec<u32>,
    /// How many directions the guesser named who plays by the rules of the order `open`.
    named: usize,
}

/// The direction called last in a drill's session, and how often in a row.
type Last = Option<(usize, u8)>;

impl Sequence {
    /// An empty one, for so many directions. Wait class `i` ends below `bounds[i]`; the last has no bound.
    pub fn new(directions: u8, bounds: Vec<Millis>) -> Self {
        Self { directions, bounds, called: Vec::new(), classes: Vec::new(), slots: Vec::new(), named: 0 }
    }

    /// One call more: the wait since the end of the call before it, or since the start of the set, and its direction.
    pub fn add(&mut self, wait: Millis, direction: u8) {
        let slot = (wait.0 / SLOT.0) as usize;
        if slot >= self.slots.len() {
            self.slots.resize(slot + 1, 0);
        }
        self.slots[slot] += 1;
        self.called.push(direction);
        self.classes.push(self.bounds.partition_point(|bound| *bound <= wait) as u8);
    }

    /// How many calls.
    pub fn len(&self) -> usize {
        self.called.len()
    }

    /// Whether there are none.
    pub fn is_empty(&self) -> bool {
        self.called.is_empty()
    }

    /// The share of these calls that the best guesser named right who knows every rule: it names the heaviest direction
    /// that the streak limit allows now. Played, not computed, and only in the order `open`.
    pub fn named_share(&self) -> f64 {
        self.named as f64 / self.len().max(1) as f64
    }

    /// Into how many of the drawn waits each slot of [`SLOT`] got, from 0 ms on.
    pub fn slots(&self) -> &[u32] {
        &self.slots
    }

    /// How many symbols this kind of sequence is made of.
    pub fn kinds(&self, kind: Kind) -> u8 {
        let classes = self.bounds.len() as u8 + 1;
        match kind {
            Kind::Direction => self.directions,
            Kind::Gap => classes,
            Kind::Pair => classes * self.directions,
        }
    }

    /// The symbols of this kind, one for each call.
    pub fn symbols(&self, kind: Kind) -> Vec<u8> {
        match kind {
            Kind::Direction => self.called.clone(),
            Kind::Gap => self.classes.clone(),
            Kind::Pair => {
                let pairs = self.classes.iter().zip(&self.called);
                pairs.map(|(class, direction)| class * self.directions + direction).collect()
            }
        }
    }
}

/// The calls of every drill of a prescription.
#[derive(Debug, Clone)]
pub struct SequenceCollector<'a> {
    prescription: &'a Prescription,
    sequences: Vec<Sequence>,
    calls: usize,
    sessions: u64,
}

impl<'a> SequenceCollector<'a> {
    /// Nothing drawn yet. `bounds` are those of each drill's waits; a drill is full with `calls` calls.
    pub fn new(prescription: &'a Prescription, bounds: &[Vec<Millis>], calls: usize) -> Self {
        let new = |(plan, bounds): (&DrillPlan, &Vec<Millis>)| {
            Sequence::new(plan.targets().len() as u8, bounds.clone())
        };
        let sequences = prescription.drills().iter().zip(bounds).map(new).collect();
        Self { prescription, sequences, calls, sessions: 0 }
    }

    /// Adds the calls of one session; a drill that is full takes no more.
    ///
    /// # Panics
    /// If the session was drawn from another prescription.
    pub fn add(&mut self, session: &Schedule) {
        self.sessions += 1;
        let mut left: Vec<u8> = self.prescription.drills().iter().map(DrillPlan::sets).collect();
        let mut current = None;
        let mut last: Vec<Last> = vec![None; left.len()];
        for set in session.sets() {
            let drill = match current.filter(|drill| left[*drill] > 0) {
                Some(drill) => drill,
                None => {
                    let plans = self.prescription.drills();
                    let due = (0..plans.len()).find(|drill| left[*drill] > 0 && is_of(set, &plans[*drill]));
                    due.expect("every set of a session belongs to a drill of its prescription")
                }
            };
            left[drill] -= 1;
            current = Some(drill);
            let plan = &self.prescription.drills()[drill];
            take(set, plan, &mut self.sequences[drill], self.calls, &mut last[drill]);
        }
    }

    /// How many sessions were taken in.
    pub fn sessions(&self) -> u64 {
        self.sessions
    }

    /// From 0 to 1: how full the emptiest drill is.
    pub fn share(&self) -> f64 {
        let least = self.sequences.iter().map(Sequence::len).min().unwrap_or(0);
        least as f64 / self.calls as f64
    }

    /// Whether every drill is full.
    pub fn is_full(&self) -> bool {
        self.sequences.iter().all(|sequence| sequence.len() >= self.calls)
    }

    /// The calls of each drill, in the order of the prescription.
    pub fn into_sequences(self) -> Vec<Sequence> {
        self.sequences
    }
}

fn is_of(set: &SetPlan, plan: &DrillPlan) -> bool {
    set.drill().name() == plan.drill().name()
        && set.form() == plan.form()
        && set.step() == plan.step()
        && set.work() == plan.work()
}

fn take(set: &SetPlan, plan: &DrillPlan, sequence: &mut Sequence, most: usize, last: &mut Last) {
    let mut before = Millis(0);
    for cue in set.cues() {
        let Some(call) = cue.call() else { continue };
        if sequence.len() >= most {
            return;
        }
        let place = place(call, plan.targets());
        sequence.named += usize::from(guess(plan, *last) == place);
        let run = last.filter(|(before, _)| *before == place).map_or(1, |(_, run)| run.saturating_add(1));
        *last = Some((place, run));
        sequence.add(cue.at() - before, place as u8);
        before = cue.end();
    }
}

/// The heaviest direction that the streak limit allows after `last`; of equals one that lasts the shortest time, since it
/// fits most often, and of these the first.
fn guess(plan: &DrillPlan, last: Last) -> usize {
    let barred = last.filter(|(_, run)| plan.longest_streak().is_some_and(|longest| *run >= longest));
    let allowed = |place: &usize| barred.is_none_or(|(before, _)| before != *place);
    let places = (0..plan.targets().len()).rev().filter(allowed);
    places
        .max_by_key(|place| (plan.weights()[*place], Reverse(plan.targets()[*place].duration())))
        .unwrap_or(0)
}

/// The place of the target that is called. Targets differ in direction, action, span or phrase.
fn place(call: &Call, targets: &[Target]) -> usize {
    let alike = |target: &Target| {
        target.direction == call.direction() && target.action == call.action() && target.span == call.span()
    };
    let said = |target: &Target| target.say.is_none_or(|say| call.say().first() == Some(&say));
    let place = targets.iter().position(|target| alike(target) && said(target));
    place.or_else(|| targets.iter().position(alike)).expect("only prescribed targets are called")
}

#[cfg(test)]
mod test;
