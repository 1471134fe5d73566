//! How long the first calls of a set last in all, without the waits between them.

use std::collections::BTreeMap;

use crate::plan::drill::Target;
use crate::plan::prescription::DrillPlan;
use crate::units::Millis;

/// `durations[n]`: how long the first `n` calls of a set last in all, each length with its chance, for `n` up to the first
/// that cannot fit. One length where all calls last equally long; else as the streak limit lets them follow each other,
/// beginning anew with each set.
pub fn call_durations(plan: &DrillPlan) -> Vec<Vec<(Millis, f64)>> {
    let lengths: Vec<Millis> = plan.targets().iter().map(Target::duration).collect();
    let room = (plan.work() - plan.recover()).0;
    let most = (room / plan.gaps().least().0.max(1)) as usize + 1;
    if plan.has_equal_durations() {
        let length = lengths[0].0;
        return (0..=most as u32).map(|calls| vec![(Millis(calls * length), 1.0)]).collect();
    }
    let weights: Vec<f64> = plan.weights().iter().map(|weight| f64::from(*weight)).collect();
    let longest = plan.longest_streak().map_or(usize::MAX, usize::from);
    // By what came last, how often in a row, and how long all has lasted.
    let mut states: BTreeMap<(usize, usize, u32), f64> = BTreeMap::from([((usize::MAX, 0, 0), 1.0)]);
    let mut durations = vec![vec![(Millis(0), 1.0)]];
    for _ in 0..most {
        let mut next = BTreeMap::new();
        for ((last, run, total), chance) in states {
            let allowed = |place: &usize| !(*place == last && run >= longest);
            let whole: f64 = (0..weights.len()).filter(allowed).map(|place| weights[place]).sum();
            for place in (0..weights.len()).filter(allowed) {
                let run = if place == last { run + 1 } else { 1 };
                let total = total.saturating_add(lengths[place].0).min(room + 1);
                *next.entry((place, run, total)).or_insert(0.0) += chance * weights[place] / whole;
            }
        }
        states = next;
        let mut totals: BTreeMap<u32, f64> = BTreeMap::new();
        for ((_, _, total), chance) in &states {
            *totals.entry(*total).or_insert(0.0) += chance;
        }
        durations.push(totals.into_iter().map(|(total, chance)| (Millis(total), chance)).collect());
    }
    durations
}
