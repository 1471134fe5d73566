//! What somebody can predict who knows every rule of a prescription but not the seed. Everything here is computed;
//! nothing is drawn.

use super::attribute_guess::{self, AttributeGuess};
use super::calls::Calls;
use super::conditioned_waits::{ConditionedWaits, Set};
use super::durations::call_durations;
use super::rule::Rule;
use super::symbols::{CLASSES, Sequence};
use super::wait::Wait;
use crate::draw::schedule::Scheduler;
use crate::plan::counts::CueCounts;
use crate::plan::gaps::GapTable;
use crate::plan::prescription::{self, DrillPlan, Prescription};
use crate::units::Millis;

/// What can be predicted about each drill.
///
/// ```
/// use counterpoise_core::draw::predictability::Foresight;
/// use counterpoise_core::plan::prescription::Prescription;
/// use counterpoise_core::draw::schedule::Scheduler;
/// use counterpoise_core::plan::counts::CueCounts;
/// let prescription = Prescription::ready("typical").unwrap();
/// let scheduler = Scheduler::new(prescription).unwrap();
/// let foresight = Foresight::of(prescription, &scheduler, &CueCounts::of(prescription));
/// let reaches = &foresight.drills()[1];
/// assert!(reaches.direction.guess_rate - reaches.direction.chance < 0.01, "five directions");
/// assert!(foresight.half_second_brace() < 0.09);
/// ```
#[derive(Debug, Clone)]
pub struct Foresight {
    drills: Vec<Drill>,
}

/// What can be predicted about one drill.
#[derive(Debug, Clone)]
pub struct Drill {
    /// Its name in files.
    pub name: &'static str,
    /// Its name for people.
    pub title: &'static str,
    /// Alone or with a partner, as in files.
    pub form: &'static str,
    /// Its calls in a session, on average.
    pub calls: f64,
    /// How well its directions can be predicted.
    pub direction: DirectionForesight,
    /// How well each attribute of a call can be guessed.
    pub attributes: Vec<AttributeGuess>,
    /// How well its timing can be predicted.
    pub moment: MomentForesight,
}

/// How well directions can be named before they are called.
#[derive(Debug, Clone, PartialEq)]
pub struct DirectionForesight {
    /// How many there are.
    pub directions: usize,
    /// The share named right by chance alone.
    pub chance: f64,
    /// The share that the best guesser names right.
    pub guess_rate: f64,
    /// Its standard error; 0 where it is computed.
    pub error: f64,
    /// The same in an endless sequence; `None` for `covered`.
    pub long_run: Option<f64>,
    /// The share of a set's first, second ... call.
    pub by_position: Vec<f64>,
    /// The share of the drill's first, second ... call of the session.
    pub by_call: Vec<f64>,
    /// The share of the drill's last call of the session.
    pub last_call: f64,
    /// Bits of entropy a call.
    pub entropy_bits: f64,
    /// The most that the longest streak allows.
    pub limit_bits: f64,
    /// Whether every direction comes about equally often.
    pub covered: bool,
    /// Whether the computed share is exact: not if calls last differently long, since then how many there will be
    /// depends on which they are.
    pub exact: bool,
    /// How often one direction may come in a row.
    pub longest_streak: Option<u8>,
}

/// How well the timing of calls can be predicted.
#[derive(Debug, Clone)]
pub struct MomentForesight {
    /// From one moment to the next, blank or not, as drawn.
    pub gap: Wait,
    /// From one call to the next, as drawn.
    pub drawn: Wait,
    /// From one call to the next, as heard.
    pub heard: ConditionedWaits,
    /// The ends of the classes of waits: the quartiles of what is heard.
    pub bounds: Vec<Millis>,
    /// The longest gap, which no gap reaches.
    pub greatest_gap: Millis,
    /// The chance of a blank.
    pub blank: f64,
    /// Whether a set has a limit on calls: then the figures for a guesser with a clock are upper bounds.
    pub bounded: bool,
}

impl Foresight {
    /// What can be predicted about a prescription. `scheduler` and `counts` are those of the same prescription.
    pub fn of(prescription: &Prescription, scheduler: &Scheduler, counts: &CueCounts) -> Self {
        let calls = Calls::of(prescription, counts);
        let plans = prescription.drills().iter().zip(calls).enumerate();
        let drills = plans.map(|(index, (plan, calls))| {
            let rule = match (plan.sequence(), scheduler.covered_sequences(index)) {
                (prescription::Sequence::Covered { .. }, Some(sequences)) => {
                    Rule::Covered { sequences, kinds: plan.targets().len(), longest: plan.longest_streak() }
                }
                _ => Rule::Open { weights: plan.weights(), longest: plan.longest_streak() },
            };
            Drill {
                name: plan.drill().name(),
                title: plan.drill().title(),
                form: plan.form().name(),
                calls: calls.mean(),
                direction: DirectionForesight::of(plan, &rule, &calls),
                attributes: attribute_guess::of(prescription, index, &calls),
                moment: MomentForesight::of(plan, &calls),
            }
        });
        Self { drills: drills.collect() }
    }

    /// Uses the share of a guesser played over drawn calls where it cannot be computed exactly.
    pub fn play(&mut self, sequences: &[Sequence]) {
        for (drill, drawn) in self.drills.iter_mut().zip(sequences) {
            if !drill.direction.exact && !drawn.is_empty() {
                let share = drawn.named_share();
                drill.direction.guess_rate = share;
                drill.direction.error = (share * (1.0 - share) / drawn.len() as f64).sqrt();
            }
        }
    }

    /// Each drill, in the order of the prescription.
    pub fn drills(&self) -> &[Drill] {
        &self.drills
    }

    /// The drills, to be changed by a test.
    #[cfg(test)]
    pub(super) fn drills_for_test(&mut self) -> &mut [Drill] {
        &mut self.drills
    }

    /// The share of directions that the best guesser names right, over all drills with more than one; `None` if there
    /// is no such drill.
    pub fn guess_rate(&self) -> Option<f64> {
        self.share(|drill| drill.direction.directions > 1, |drill| drill.direction.guess_rate)
    }

    /// The share of the same directions that chance alone names right.
    pub fn chance(&self) -> Option<f64> {
        self.share(|drill| drill.direction.directions > 1, |drill| drill.direction.chance)
    }

    /// The share of all calls that one brace of half a second catches, at best.
    pub fn half_second_brace(&self) -> f64 {
        self.share(|_| true, |drill| drill.moment.heard.all.brace(Millis(500)).chance).unwrap_or(0.0)
    }

    fn share(&self, counts: impl Fn(&Drill) -> bool, of: impl Fn(&Drill) -> f64) -> Option<f64> {
        let drills: Vec<&Drill> = self.drills.iter().filter(|drill| counts(drill)).collect();
        let calls: f64 = drills.iter().map(|drill| drill.calls).sum();
        (calls > 0.0).then(|| drills.iter().map(|drill| drill.calls * of(drill)).sum::<f64>() / calls)
    }
}

impl DirectionForesight {
    fn of(plan: &DrillPlan, rule: &Rule<'_>, calls: &Calls) -> Self {
        let hits = rule.hit_chances(&calls.lengths);
        Self {
            directions: rule.kinds(),
            chance: 1.0 / rule.kinds() as f64,
            guess_rate: calls.share(&hits),
            error: 0.0,
            long_run: rule.long_run_hits(),
            by_position: calls.by_position(&hits),
            by_call: calls.by_call(&hits),
            last_call: calls.last_call(&hits),
            entropy_bits: rule.entropy_bits(&calls.lengths),
            limit_bits: rule.limit_bits(),
            covered: matches!(rule, Rule::Covered { .. }),
            exact: plan.has_equal_durations(),
            longest_streak: plan.longest_streak(),
        }
    }
}

impl MomentForesight {
    fn of(plan: &DrillPlan, calls: &Calls) -> Self {
        let blank = f64::from(plan.blank_per_mille()) / 1000.0;
        let gap = Wait::gap(&GapTable::new(plan.gaps()));
        let drawn = gap.with_blanks(blank);
        let durations = call_durations(plan);
        let set = Set {
            until: plan.work() - plan.recover(),
            durations: &durations,
            most: plan.most_calls() as usize,
        };
        let heard = ConditionedWaits::new(&drawn, set, &calls.open);
        let bounds = (1..CLASSES).map(|class| heard.all.quantile(f64::from(class) / f64::from(CLASSES)));
        Self {
            bounds: bounds.collect(),
            bounded: plan.has_pushes(),
            gap,
            drawn,
            heard,
            greatest_gap: plan.gaps().greatest(),
            blank,
        }
    }

    /// The slots between the shortest and the longest gap, for the least expected hazard.
    pub fn slots(&self) -> usize {
        (self.greatest_gap - self.gap.from()).0.div_ceil(super::SLOT.0) as usize
    }
}

#[cfg(test)]
mod test;
