//! How well the best guesser does who knows every rule and each call so far, but not the seed: exactly, call by
//! call.
//!
//! It works on symbols: directions, strengths, names of balls or shoulders, whatever is drawn by one of these rules.

use crate::draw::schedule::covered::CoveredSequences;

/// How many steps of a chain are taken at most before it counts as having forgotten its beginning.
const LONG_RUN: usize = 2_000;

/// How symbols follow each other.
#[derive(Debug, Clone, Copy)]
pub enum Rule<'a> {
    /// Drawn one by one by weight, among those that have not come `longest` times in a row.
    Open {
        /// The weight of each symbol.
        weights: &'a [u32],
        /// How often one may come in a row; `None` for no limit.
        longest: Option<u8>,
    },
    /// Drawn evenly among all sequences of a length in which every symbol comes about equally often.
    Covered {
        /// The counted sequences.
        sequences: &'a CoveredSequences,
        /// How many symbols there are.
        kinds: usize,
        /// How often one may come in a row.
        longest: Option<u8>,
    },
}

/// The chance that each call of a sequence is named right, for each length of the sequence.
#[derive(Debug, Clone, PartialEq)]
pub struct HitChances {
    /// `hits[n]`: for a sequence of `n` calls, the chance that each is named right; one entry if the length changes
    /// nothing.
    hits: Vec<Vec<f64>>,
}

impl HitChances {
    /// The chance that call `place`, from 0, of `calls` is named right.
    pub fn hit(&self, calls: usize, place: usize) -> f64 {
        self.hits.get(calls).or(self.hits.last()).map_or(0.0, |hits| hits[place])
    }
}

impl Rule<'_> {
    /// How many symbols there are.
    pub fn kinds(&self) -> usize {
        match self {
            Self::Open { weights, .. } => weights.len(),
            Self::Covered { kinds, .. } => *kinds,
        }
    }

    fn longest(&self) -> Option<u8> {
        match self {
            Self::Open { longest, .. } | Self::Covered { longest, .. } => *longest,
        }
    }

    /// The chance that each call is named right, in sequences whose length `n` has the chance `lengths[n]`. In the order
    /// `covered` the guesser knows how many calls there will be.
    pub fn hit_chances(&self, lengths: &[f64]) -> HitChances {
        let hits = match self {
            Self::Open { weights, longest } => {
                let mut chain = Chain::new(weights, *longest);
                let hits = (1..lengths.len()).map(|_| {
                    let hit = chain.hit();
                    chain.step();
                    hit
                });
                vec![hits.collect()]
            }
            Self::Covered { sequences, .. } => {
                let each = lengths.iter().enumerate();
                // Lengths that do not occur are not worth their tables.
                each.map(
                    |(calls, chance)| {
                        if *chance > 0.0 { sequences.guess_rates(calls) } else { vec![0.0; calls] }
                    },
                )
                .collect()
            }
        };
        HitChances { hits }
    }

    /// The share named right in a sequence without end; `None` for `covered`, whose sequences end.
    pub fn long_run_hits(&self) -> Option<f64> {
        self.in_the_long_run().map(|chain| chain.hit())
    }

    /// The entropy of a call in bits, given all before it, in a sequence without end; for `covered`, the entropy of a
    /// whole sequence over its calls, averaged over its lengths, of which length `n` has the chance `lengths[n]`.
    pub fn entropy_bits(&self, lengths: &[f64]) -> f64 {
        match self {
            Self::Open { .. } => self.in_the_long_run().map_or(0.0, |chain| chain.bits()),
            Self::Covered { sequences, .. } => {
                let lengths = lengths.iter().enumerate().skip(1).filter(|(_, chance)| **chance > 0.0);
                let (bits, calls) = lengths.fold((0.0, 0.0), |(bits, calls), (length, chance)| {
                    (bits + chance * (sequences.count(length) as f64).log2(), calls + chance * length as f64)
                });
                if calls > 0.0 { bits / calls } else { 0.0 }
            }
        }
    }

    /// How often each symbol comes in a sequence without end; evenly for `covered`, whose symbols are alike.
    pub fn long_run_shares(&self) -> Vec<f64> {
        self.in_the_long_run().map_or_else(
            || vec![1.0 / self.kinds() as f64; self.kinds()],
            |chain| chain.states.iter().map(|runs| runs.iter().sum()).collect(),
        )
    }

    fn in_the_long_run(&self) -> Option<Chain<'_>> {
        let Self::Open { weights, longest } = self else { return None };
        Some(Chain::long_run(weights, *longest))
    }

    /// The most entropy a call that any sequence of so many symbols with at most so many in a row can have: log2 of
    /// the greatest x with (k - 1) (1/x + ... + 1/x^r) = 1, which is the Perron eigenvalue of the graph of runs.
    pub fn limit_bits(&self) -> f64 {
        let kinds = self.kinds() as f64;
        let Some(longest) = self.longest() else { return kinds.log2() };
        if kinds < 2.0 {
            return 0.0;
        }
        let runs = |x: f64| (kinds - 1.0) * (1..=longest).map(|run| x.powi(-i32::from(run))).sum::<f64>();
        let (mut low, mut high) = (1.0, kinds);
        for _ in 0..100 {
            let middle = f64::midpoint(low, high);
            if runs(middle) > 1.0 { low = middle } else { high = middle }
        }
        high.log2()
    }
}

/// The state of a sequence before its next call: how likely each last symbol and length of its run is.
#[derive(Debug, Clone)]
struct Chain<'a> {
    weights: &'a [u32],
    longest: Option<u8>,
    /// Nothing has come yet.
    fresh: f64,
    /// By symbol, then by run; without a limit, the last run is for all longer ones too.
    states: Vec<Vec<f64>>,
}

impl<'a> Chain<'a> {
    fn new(weights: &'a [u32], longest: Option<u8>) -> Self {
        let runs = usize::from(longest.unwrap_or(1).max(1));
        Self { weights, longest, fresh: 1.0, states: vec![vec![0.0; runs]; weights.len()] }
    }

    /// The chain when it has forgotten its beginning.
    fn long_run(weights: &'a [u32], longest: Option<u8>) -> Self {
        let mut chain = Self::new(weights, longest);
        for _ in 0..LONG_RUN {
            let before = chain.states.clone();
            chain.step();
            let moved = before.iter().flatten().zip(chain.states.iter().flatten());
            if chain.fresh == 0.0 && moved.map(|(before, after)| (before - after).abs()).sum::<f64>() < 1e-15
            {
                break;
            }
        }
        chain
    }

    /// Every state with its chance and the symbol that may not come next.
    fn standings(&self) -> impl Iterator<Item = (f64, Option<usize>)> {
        let full = self.longest.map(usize::from);
        let states = self.states.iter().enumerate().flat_map(move |(symbol, runs)| {
            let barred = move |run: usize| full.is_some_and(|full| run + 1 >= full).then_some(symbol);
            runs.iter().enumerate().map(move |(run, chance)| (*chance, barred(run)))
        });
        [(self.fresh, None)].into_iter().chain(states)
    }

    fn allowed(&self, barred: Option<usize>) -> impl Iterator<Item = (usize, f64)> {
        let weight = move |symbol: usize| if barred == Some(symbol) { 0 } else { self.weights[symbol] };
        let total: u64 = (0..self.weights.len()).map(|symbol| u64::from(weight(symbol))).sum();
        (0..self.weights.len())
            .map(move |symbol| (symbol, f64::from(weight(symbol)) / total as f64))
            .filter(|(_, chance)| *chance > 0.0)
    }

    fn hit(&self) -> f64 {
        let best = |barred| self.allowed(barred).map(|(_, chance)| chance).fold(0.0, f64::max);
        self.standings().map(|(chance, barred)| chance * best(barred)).sum()
    }

    fn bits(&self) -> f64 {
        let bits = |barred| -> f64 { self.allowed(barred).map(|(_, chance)| -chance * chance.log2()).sum() };
        self.standings().map(|(chance, barred)| chance * bits(barred)).sum()
    }

    fn step(&mut self) {
        let runs = self.states[0].len();
        let mut next = vec![vec![0.0; runs]; self.weights.len()];
        let mut spread = |from: f64, last: Option<(usize, usize)>, barred| {
            if from == 0.0 {
                return;
            }
            for (symbol, chance) in self.allowed(barred) {
                let run = match last {
                    Some((last, run)) if last == symbol => (run + 1).min(runs - 1),
                    _ => 0,
                };
                next[symbol][run] += from * chance;
            }
        };
        let full = self.longest.map(usize::from);
        spread(self.fresh, None, None);
        for (symbol, states) in self.states.iter().enumerate() {
            for (run, chance) in states.iter().enumerate() {
                let barred = full.is_some_and(|full| run + 1 >= full).then_some(symbol);
                spread(*chance, Some((symbol, run)), barred);
            }
        }
        self.fresh = 0.0;
        self.states = next;
    }
}

#[cfg(test)]
mod test;
