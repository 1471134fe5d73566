//! How well the best guesser names what is drawn for a call in addition to its direction: how firm a push is, which
//! ball is thrown, which parts a reach has. That guesser knows every rule and, for parts, the direction.

use std::collections::BTreeMap;

use super::calls::Calls;
use super::rule::Rule;
use crate::plan::drill::{Part, Strength};
use crate::plan::prescription::limits::PRACTICE_PUSHES;
use crate::plan::prescription::{DrillOrder, DrillPlan, Prescription};

/// How well an attribute of a call can be guessed.
#[derive(Debug, Clone, PartialEq)]
pub struct AttributeGuess {
    /// The attribute: `strength`, `ball` or `parts`.
    pub what: &'static str,
    /// How many values it can have.
    pub kinds: usize,
    /// The share named right by chance alone.
    pub chance: f64,
    /// The share that the best guesser names right.
    pub guess_rate: f64,
}

/// Every attribute that is drawn in drill number `drill` of a prescription.
pub(super) fn of(prescription: &Prescription, drill: usize, calls: &Calls) -> Vec<AttributeGuess> {
    let plan = &prescription.drills()[drill];
    let strength = plan.has_pushes().then(|| strength(prescription, drill, calls));
    let ball = (plan.balls() == 2 && plan.targets().iter().any(|target| target.action.is_toss()))
        .then_some(AttributeGuess { what: "ball", kinds: 2, chance: 0.5, guess_rate: 0.5 });
    let parts = (!plan.parts().is_empty()).then(|| parts(plan));
    [strength, ball, parts].into_iter().flatten().collect()
}

/// One of the strengths allowed, evenly; but a session's first pushes are the gentlest, and everybody knows it.
fn strength(prescription: &Prescription, drill: usize, calls: &Calls) -> AttributeGuess {
    let (gentlest, firmest) =
        prescription.drills()[drill].strength().unwrap_or((Strength::GENTLEST, Strength::GENTLEST));
    let kinds = usize::from(firmest.number() - gentlest.number()) + 1;
    let chance = 1.0 / kinds as f64;
    // Every set holds at least as many calls as there are practice pushes, so the first drill with pushes has them all.
    let pushed = |other: &usize| prescription.drills()[*other].has_pushes();
    let others = (0..prescription.drills().len()).filter(pushed);
    let first = match prescription.order() {
        DrillOrder::AsWritten => f64::from(u8::from(others.min() == Some(drill))),
        DrillOrder::Drawn => 1.0 / others.count() as f64,
    };
    let practice = (first * PRACTICE_PUSHES as f64 / calls.mean()).min(1.0);
    AttributeGuess { what: "strength", kinds, chance, guess_rate: practice + (1.0 - practice) * chance }
}

/// How many parts, evenly up to as many as the step allows; then which kinds, and of each which, evenly. What can be
/// added depends on the direction, which the guesser knows.
fn parts(plan: &DrillPlan) -> AttributeGuess {
    let rule = Rule::Open { weights: plan.weights(), longest: plan.longest_streak() };
    let (mut rate, mut chance, mut kinds) = (0.0, 0.0, 0);
    for (target, share) in plan.targets().iter().zip(rule.long_run_shares()) {
        let suitable: Vec<&Part> = plan.parts().iter().filter(|part| part.suits(target.direction)).collect();
        let mut sizes: BTreeMap<&str, usize> = BTreeMap::new();
        for part in &suitable {
            *sizes.entry(part.kind.as_str()).or_insert(0) += 1;
        }
        let sizes: Vec<usize> = sizes.into_values().collect();
        let most = usize::from(plan.conditions().parts).saturating_sub(1).min(sizes.len());
        // Every choice of `count` kinds is equally likely, and in it every choice of parts.
        let (mut best, mut choices) = (0.0_f64, 0);
        for count in 0..=most {
            let sets = subsets(&sizes, count);
            for parts in &sets {
                let each = 1.0 / (most + 1) as f64 / sets.len() as f64 / *parts as f64;
                best = best.max(each);
                choices += parts;
            }
        }
        rate += share * best;
        chance += share / choices as f64;
        kinds = kinds.max(choices);
    }
    AttributeGuess { what: "parts", kinds, chance, guess_rate: rate }
}

/// For every choice of `count` kinds, in how many ways one part of each can be chosen.
fn subsets(sizes: &[usize], count: usize) -> Vec<usize> {
    match (sizes.split_first(), count) {
        (_, 0) => vec![1],
        (None, _) => Vec::new(),
        (Some((size, rest)), _) => {
            let with = subsets(rest, count - 1).into_iter().map(|ways| ways * size);
            with.chain(subsets(rest, count)).collect()
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn choices_of_parts_are_counted_by_kind() {
        assert_eq!(subsets(&[2, 3, 1], 0), [1]);
        assert_eq!(subsets(&[2, 3, 1], 1), [2, 3, 1]);
        assert_eq!(subsets(&[2, 3, 1], 2), [6, 2, 3]);
        assert_eq!(subsets(&[2], 2), Vec::<usize>::new());
    }
}
