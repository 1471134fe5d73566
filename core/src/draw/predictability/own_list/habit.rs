//! A guesser for short lists: it looks for the habits that people have, and uses the one that has been right most
//! often. It is fixed before it sees a list, so each guess at an evenly drawn list is right with a chance of
//! exactly 1 / kinds.

use super::super::estimators::Score;

/// How many calls back it looks for a rhythm.
const LAGS: usize = 8;

/// What the guesser knows so far.
struct History {
    kinds: usize,
    counts: Vec<u32>,
    /// What followed one call, and what followed two.
    after_one: Vec<u32>,
    after_two: Vec<u32>,
    /// Where each came last, counted from 1.
    last: Vec<usize>,
}

/// The guesser's score. It guesses from the second call on.
///
/// Its habits: the most common so far; what most often followed the last call; what most often followed the last two;
/// the one not called for longest; the same as 1, 2 ... 8 calls ago. Whichever has been right most often is used; of
/// equals, the one that was right last.
pub fn guess_by_habit(symbols: &[u8], kinds: u8) -> Score {
    let kinds = usize::from(kinds);
    let mut seen = History {
        kinds,
        counts: vec![0; kinds],
        after_one: vec![0; kinds * kinds],
        after_two: vec![0; kinds * kinds * kinds],
        last: vec![0; kinds],
    };
    let mut right = [0_u32; 4 + LAGS];
    let mut winner = 0;
    let mut score = Score::new(kinds as u8);
    for (place, &symbol) in symbols.iter().enumerate() {
        if place > 0 {
            let guesses = seen.guesses(&symbols[..place]);
            score.add(guesses[winner] == usize::from(symbol));
            for (habit, guess) in guesses.into_iter().enumerate() {
                if guess == usize::from(symbol) {
                    right[habit] += 1;
                    if right[habit] >= right[winner] {
                        winner = habit;
                    }
                }
            }
        }
        seen.note(&symbols[..=place]);
    }
    score
}

impl History {
    /// One guess for each habit; a habit that has seen nothing yet takes the most common.
    fn guesses(&self, before: &[u8]) -> [usize; 4 + LAGS] {
        let back = |calls: usize| Some(usize::from(*before.get(before.len().checked_sub(calls)?)?));
        let common = most(&self.counts);
        let followed =
            |counts: &[u32]| if counts.iter().all(|count| *count == 0) { common } else { most(counts) };
        let row = |table: &[u32], context: usize| {
            followed(&table[context * self.kinds..(context + 1) * self.kinds])
        };
        let after_one = back(1).map_or(common, |one| row(&self.after_one, one));
        let after_two = match (back(2), back(1)) {
            (Some(two), Some(one)) => row(&self.after_two, two * self.kinds + one),
            _ => common,
        };
        let longest_ago = (0..self.kinds).min_by_key(|kind| self.last[*kind]).unwrap_or(common);
        let mut guesses = [common; 4 + LAGS];
        guesses[1] = after_one;
        guesses[2] = after_two;
        guesses[3] = longest_ago;
        for calls in 1..=LAGS {
            guesses[3 + calls] = back(calls).unwrap_or(common);
        }
        guesses
    }

    fn note(&mut self, so_far: &[u8]) {
        let back = |calls: usize| {
            let place = so_far.len().checked_sub(calls)?;
            so_far.get(place).map(|symbol| usize::from(*symbol))
        };
        let Some(now) = back(1) else { return };
        self.counts[now] += 1;
        self.last[now] = so_far.len();
        if let Some(one) = back(2) {
            self.after_one[one * self.kinds + now] += 1;
            if let Some(two) = back(3) {
                self.after_two[(two * self.kinds + one) * self.kinds + now] += 1;
            }
        }
    }
}

/// The place of the greatest count; the first of equals.
fn most(counts: &[u32]) -> usize {
    let mut best = 0;
    for (place, count) in counts.iter().enumerate() {
        if *count > counts[best] {
            best = place;
        }
    }
    best
}
