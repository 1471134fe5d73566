//! How many calls each set of a drill gets, and where they come within the drill: the counts of sets, the session's
//! last allowed call and the order of the drills together. Exact, from the chances in `plan::counts`.

use super::rule::HitChances;
use crate::plan::counts::CueCounts;
use crate::plan::prescription::limits::{LEAST_REAL_CUES, SESSION_CUES};
use crate::plan::prescription::set_counts::SetCounts;
use crate::plan::prescription::{DrillOrder, DrillPlan, Prescription};

const MOST: usize = SESSION_CUES as usize;
const FEWEST: usize = LEAST_REAL_CUES as usize;
/// Chances below this are rounding.
const NOTHING: f64 = 1e-13;

/// The calls of one drill in a session.
#[derive(Debug, Clone, PartialEq)]
pub struct Calls {
    /// How many sets have room for call number `j`, from 0, before the session's last call.
    pub open: Vec<f64>,
    /// The chance of each number of calls, from 0 on.
    pub lengths: Vec<f64>,
    sets: Vec<SetPosition>,
}

/// One possible position of a set among the calls of its drill.
#[derive(Debug, Clone, Copy, PartialEq)]
struct SetPosition {
    /// Calls of the drill before it.
    before: usize,
    /// Calls of the set itself.
    own: usize,
    /// All calls of the drill in the session.
    all: usize,
    /// How many sets of a session have this position, on average.
    often: f64,
}

impl Calls {
    /// The calls of each drill of a prescription, in its order. `counts` are those of the same prescription.
    pub fn of(prescription: &Prescription, counts: &CueCounts) -> Vec<Self> {
        let sets: Vec<u8> = prescription.drills().iter().map(DrillPlan::sets).collect();
        let chances: Vec<&[f64]> = counts.plans().iter().map(SetCounts::chances).collect();
        let whole: Vec<Vec<f64>> =
            chances.iter().zip(&sets).map(|(set, sets)| repeated_sum(set, *sets)).collect();
        let walking: Vec<bool> = prescription.drills().iter().map(|plan| plan.drill().is_walking()).collect();
        (0..sets.len())
            .map(|drill| {
                let used = match prescription.order() {
                    DrillOrder::AsWritten => {
                        whole[..drill].iter().fold(vec![1.0], |used, other| sum(&used, other))
                    }
                    DrillOrder::Drawn => used_before(&whole, drill, &walking),
                };
                Self::after(&used, chances[drill], usize::from(sets[drill]))
            })
            .collect()
    }

    /// The calls of a drill of so many sets, each with these chances of a number of calls, if the chance that `n` calls
    /// came before it is `used[n]`; an entry at the session's most means that many or more.
    fn after(used: &[f64], set: &[f64], sets: usize) -> Self {
        let mut calls = Self { open: vec![0.0; MOST], lengths: vec![0.0; MOST + 1], sets: Vec::new() };
        let mut often = vec![0.0; (MOST + 1).pow(3)];
        for (used, chance) in used.iter().enumerate().filter(|(_, chance)| **chance > NOTHING) {
            let room = MOST.saturating_sub(used);
            calls.within(room, *chance, set, sets, &mut often);
        }
        for length in &mut calls.lengths {
            if *length <= NOTHING {
                *length = 0.0;
            }
        }
        let stands = often.into_iter().enumerate().filter(|(_, often)| *often > NOTHING);
        let side = MOST + 1;
        calls.sets = stands
            .map(|(index, often)| SetPosition {
                before: index / side / side,
                own: index / side % side,
                all: index % side,
                often,
            })
            .collect();
        calls
    }

    /// Adds what happens with room for `room` more calls in the session, which has this chance.
    fn within(&mut self, room: usize, chance: f64, set: &[f64], sets: usize, often: &mut [f64]) {
        let side = MOST + 1;
        // A set that would be left with fewer than two calls is left out, and all after it.
        let runs = |before: usize| room >= before + FEWEST;
        let own = |before: usize| {
            set.iter()
                .enumerate()
                .filter(|(_, chance)| **chance > NOTHING)
                .map(move |(own, chance)| (own.min(room - before), *chance))
        };
        // `later[q][n]`: the chances of all calls, if `n` have come and `q` sets are still to come.
        let mut later: Vec<Vec<Vec<f64>>> = vec![
            (0..side)
                .map(|n| {
                    let mut certain = vec![0.0; side];
                    certain[n] = 1.0;
                    certain
                })
                .collect(),
        ];
        for q in 1..=sets {
            let next = (0..side)
                .map(|n| {
                    if !runs(n) {
                        return later[0][n].clone();
                    }
                    let mut all = vec![0.0; side];
                    for (own, chance) in own(n) {
                        for (total, later) in all.iter_mut().zip(&later[q - 1][n + own]) {
                            *total += chance * later;
                        }
                    }
                    all
                })
                .collect();
            later.push(next);
        }
        for (length, share) in self.lengths.iter_mut().zip(&later[sets][0]) {
            *length += chance * share;
        }
        let mut before = vec![0.0; side];
        before[0] = chance;
        for nth in 0..sets {
            let mut next = vec![0.0; side];
            for (n, chance) in before.iter().enumerate().filter(|(n, chance)| **chance > NOTHING && runs(*n))
            {
                for open in &mut self.open[..room - n] {
                    *open += chance;
                }
                for (own, share) in own(n) {
                    next[n + own] += chance * share;
                    for (all, later) in later[sets - nth - 1][n + own].iter().enumerate() {
                        often[(n * side + own) * side + all] += chance * share * later;
                    }
                }
            }
            before = next;
        }
    }

    /// The mean number of calls.
    pub fn mean(&self) -> f64 {
        self.lengths.iter().enumerate().map(|(length, chance)| length as f64 * chance).sum()
    }

    /// The expected share of calls that are named right.
    pub fn share(&self, chances: &HitChances) -> f64 {
        let named = self.lengths.iter().enumerate().map(|(length, chance)| {
            chance * (0..length).map(|place| chances.hit(length, place)).sum::<f64>()
        });
        named.sum::<f64>() / self.mean()
    }

    /// The share of the first, second ... call of a set that is named right, as long as one set in a thousand has such
    /// a call.
    pub fn by_position(&self, chances: &HitChances) -> Vec<f64> {
        let (mut named, mut called) = (vec![0.0; MOST], vec![0.0; MOST]);
        for set in &self.sets {
            for position in 0..set.own {
                called[position] += set.often;
                named[position] += set.often * chances.hit(set.all, set.before + position);
            }
        }
        let seldom = called[0] / 1000.0;
        let shares = named.iter().zip(&called).take_while(|(_, called)| **called > seldom);
        shares.map(|(named, called)| named / called).collect()
    }

    /// The share of the drill's first, second ... call of the session that is named right, as long as one session in
    /// a thousand has such a call.
    pub fn by_call(&self, chances: &HitChances) -> Vec<f64> {
        (0..MOST)
            .map_while(|place| {
                let long = self.lengths.iter().enumerate().skip(place + 1);
                let (named, called) = long.fold((0.0, 0.0), |(named, called), (length, chance)| {
                    (named + chance * chances.hit(length, place), called + chance)
                });
                (called > 0.001).then(|| named / called)
            })
            .collect()
    }

    /// The share of the drill's last call of the session that is named right.
    pub fn last_call(&self, chances: &HitChances) -> f64 {
        let some = self.lengths.iter().enumerate().skip(1);
        let (named, called) = some.fold((0.0, 0.0), |(named, called), (length, chance)| {
            (named + chance * chances.hit(length, length - 1), called + chance)
        });
        named / called
    }
}

/// The chances of a sum of `times` independent counts.
fn repeated_sum(chances: &[f64], times: u8) -> Vec<f64> {
    (0..times).fold(vec![1.0], |total, _| sum(&total, chances))
}

/// The chances of a sum of two independent counts; everything above the session's most counts as that.
fn sum(a: &[f64], b: &[f64]) -> Vec<f64> {
    let mut sum = vec![0.0; (a.len() + b.len() - 1).min(MOST + 1)];
    for (i, p) in a.iter().enumerate() {
        for (j, q) in b.iter().enumerate() {
            sum[(i + j).min(MOST)] += p * q;
        }
    }
    sum
}

/// The calls before drill `drill` if those after the first come in an order drawn evenly, and those in which the person
/// walks after all others: any number of its own kind stands before it with the same chance, and then any such choice.
fn used_before(whole: &[Vec<f64>], drill: usize, walking: &[bool]) -> Vec<f64> {
    if drill == 0 {
        return vec![1.0];
    }
    let standing = |other: &usize| walking[drill] && !walking[*other];
    let certain =
        (1..whole.len()).filter(standing).fold(whole[0].clone(), |used, other| sum(&used, &whole[other]));
    let others: Vec<&Vec<f64>> = (1..whole.len())
        .filter(|other| *other != drill && walking[*other] == walking[drill])
        .map(|other| &whole[other])
        .collect();
    // `some[size]`: the chances of a sum over a choice of `size` others, added over all such choices.
    let mut some = vec![vec![0.0; MOST + 1]; others.len() + 1];
    some[0][0] = 1.0;
    for other in &others {
        for size in (1..some.len()).rev() {
            let with = sum(&some[size - 1], other);
            for (total, chance) in some[size].iter_mut().zip(with) {
                *total += chance;
            }
        }
    }
    let mut used = vec![0.0; MOST + 1];
    let mut choices = 1.0;
    for (size, sums) in some.iter().enumerate() {
        for (used, chance) in used.iter_mut().zip(sums) {
            *used += chance / choices / some.len() as f64;
        }
        choices = choices * (others.len() - size) as f64 / (size + 1) as f64;
    }
    sum(&used, &certain)
}

#[cfg(test)]
mod test;
