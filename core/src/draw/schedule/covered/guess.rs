//! How often a guesser names the next direction in the order `covered`, if that guesser knows every rule, the
//! number of cues and every direction so far. Exact, from the same counts that sequences are drawn from.

use std::collections::BTreeMap;

use super::{CoveredSequences, MOST_KINDS, Remaining};

/// What matters about a sequence so far: how many calls each kind has left, sorted; how many the last one has; its run.
type GuessState = ([u8; MOST_KINDS], Option<(u8, usize)>);

impl CoveredSequences {
    /// For each of `cues` cues, the chance that the best guess names it.
    ///
    /// ```
    /// use counterpoise_core::draw::schedule::covered::CoveredSequences;
    /// // Two kinds, at most two in a row, each exactly twice: 0011, 0101, 0110 and their mirrors.
    /// let rates = CoveredSequences::new(2, 0, Some(2), 4).unwrap().guess_rates(4);
    /// assert_eq!(rates, [0.5, 4.0 / 6.0, 4.0 / 6.0, 1.0]);
    /// ```
    pub fn guess_rates(&self, cues: usize) -> Vec<f64> {
        if cues == 0 {
            return Vec::new();
        }
        let table = &self.tables[cues % self.kinds];
        let start = (cues.div_ceil(self.kinds) + self.slack) as u8;
        let mut sorted = [0; MOST_KINDS];
        sorted[..self.kinds].fill(start);
        let mut now: BTreeMap<GuessState, f64> = BTreeMap::from([((sorted, None), 1.0)]);
        (0..cues)
            .map(|_| {
                let mut next = BTreeMap::new();
                let mut named = 0.0;
                for ((sorted, last), chance) in &now {
                    let remaining = Remaining { sorted: *sorted, kinds: self.kinds };
                    let rank = self.multisets.rank(&remaining);
                    // Kinds that are alike: those with equally many left, the last one apart.
                    let mut choices = Vec::with_capacity(MOST_KINDS + 1);
                    for group in remaining.groups().iter() {
                        let again = last.filter(|(left, _)| *left == group.left);
                        let others = group.size - usize::from(again.is_some());
                        let mut choose = |alike: usize, run: usize| {
                            let state = self.multisets.after(rank, group, run);
                            let count = state.map_or(0, |state| table[state]);
                            if alike > 0 && count > 0 {
                                choices.push((group.first, group.left, alike, run, count as f64));
                            }
                        };
                        choose(others, 1);
                        if let Some((_, run)) = again.filter(|(_, run)| *run < self.longest) {
                            choose(1, run + 1);
                        }
                    }
                    let total: f64 =
                        choices.iter().map(|(_, _, alike, _, count)| *alike as f64 * count).sum();
                    let best = choices.iter().map(|(.., count)| *count).fold(0.0, f64::max);
                    named += chance * best / total;
                    for (first, left, alike, run, count) in choices {
                        let mut after = *sorted;
                        after[first] -= 1;
                        *next.entry((after, Some((left - 1, run)))).or_insert(0.0) +=
                            chance * alike as f64 * count / total;
                    }
                }
                now = next;
                named
            })
            .collect()
    }
}

#[cfg(test)]
mod test {
    use super::*;

    fn mean(rates: &[f64]) -> f64 {
        rates.iter().sum::<f64>() / rates.len() as f64
    }

    /// A counting guesser over one exactly balanced block, and over looser counts: figures derived apart from this
    /// program, to three decimals.
    #[test]
    fn known_rates_of_counting_guessers() {
        for (kinds, cues, slack, longest, rate) in [
            (4, 12, 0, 1, 0.509),
            (4, 12, 0, 2, 0.450),
            (8, 16, 0, 1, 0.314),
            (8, 16, 0, 2, 0.296),
            (4, 24, 0, 1, 0.479),
            (4, 24, 0, 2, 0.413),
            (4, 12, 1, 2, 0.355),
            (8, 40, 2, 2, 0.171),
        ] {
            let rates = CoveredSequences::new(kinds, slack, Some(longest), cues).unwrap().guess_rates(cues);
            assert!(
                (mean(&rates) - rate).abs() < 5.5e-4,
                "{kinds} {cues} {slack} {longest}: {}",
                mean(&rates)
            );
        }
    }

    /// Every sequence is written down, and the best guess after each beginning is counted by hand.
    #[test]
    fn the_rates_agree_with_writing_every_sequence_down() {
        for (kinds, cues, slack, longest) in
            [(3, 7, 1, 2), (2, 8, 1, 3), (4, 6, 0, 1), (3, 8, 2, 2), (5, 5, 1, 2)]
        {
            let covered = CoveredSequences::new(kinds, slack, Some(longest), cues).unwrap();
            let all: Vec<Vec<usize>> =
                (0..covered.count(cues)).map(|index| covered.sequence(cues, index)).collect();
            for (place, rate) in covered.guess_rates(cues).into_iter().enumerate() {
                let mut after: BTreeMap<&[usize], Vec<usize>> = BTreeMap::new();
                for sequence in &all {
                    after.entry(&sequence[..place]).or_insert_with(|| vec![0; kinds])[sequence[place]] += 1;
                }
                let named: usize = after.values().map(|counts| counts.iter().max().unwrap()).sum();
                assert!((rate - named as f64 / all.len() as f64).abs() < 1e-12, "place {place}");
            }
        }
    }
}
