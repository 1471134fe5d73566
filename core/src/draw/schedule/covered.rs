//! Which directions come, in the order `covered`: one sequence drawn evenly among *all* those in which no direction
//! comes more often in a row than the streak limit and every direction comes about equally often.
//!
//! With `k` directions, `N` cues and slack `s`, each direction comes at least floor(N/k) - s and at most
//! ceil(N/k) + s times. Sequences are counted exactly, never shuffled until one fits: a number is drawn below the
//! count, and the sequence with that number is read off, directions in the order of the prescription.
//!
//! For counting, directions that may still come equally often are alike, so a state is: how many calls each direction
//! has *left* below its upper bound (a multiset), how many the last one has left, and how long its run is. In this view,
//! only `N mod k` matters for what is allowed at the end, and one table serves every `N` with the same remainder.

use rand::Rng;

use super::chance::below_wide;

mod guess;

/// The most kinds that are supported: no drill has more directions.
const MOST_KINDS: usize = 10;

/// The most states that all tables together may hold (64 MB of counts).
const MOST_STATES: usize = 4 << 20;

/// Every sequence of up to a number of cues, counted.
#[derive(Debug, Clone)]
pub struct CoveredSequences {
    kinds: usize,
    slack: usize,
    longest: usize,
    multisets: Multisets,
    /// One table for each remainder of `N` by the number of kinds.
    tables: Vec<Vec<u128>>,
}

/// Why sequences cannot be counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TooMany {
    /// The tables would hold too many states.
    States,
    /// There are 2^128 sequences or more.
    Sequences,
}

impl CoveredSequences {
    /// Counts the sequences of every length from 1 to `most`, over `kinds` directions, `longest` in a row.
    ///
    /// There is always one: the directions in turn.
    ///
    /// # Errors
    /// If the tables would be too large, or a count does not fit into 128 bits.
    pub fn new(kinds: usize, slack: u8, longest: Option<u8>, most: usize) -> Result<Self, TooMany> {
        let slack = usize::from(slack);
        let longest = longest.map_or(most, usize::from).min(most).max(1);
        let start = |cues: usize| cues.div_ceil(kinds) + slack;
        let multisets = Multisets::new(kinds, start(most), longest).ok_or(TooMany::States)?;
        let mut covered = Self { kinds, slack, longest, multisets, tables: vec![Vec::new(); kinds] };
        for cues in most.saturating_sub(kinds - 1).max(1)..=most {
            covered.tables[cues % kinds] = covered.table(cues);
        }
        if (1..=most).any(|cues| covered.count(cues) == u128::MAX) {
            return Err(TooMany::Sequences);
        }
        Ok(covered)
    }

    /// How many sequences of `cues` cues there are.
    pub fn count(&self, cues: usize) -> u128 {
        Walk::new(self, cues).choices().map(|(_, count)| count).fold(0, u128::saturating_add)
    }

    /// Draws one of them; each kind as its place in the prescription.
    pub fn draw(&self, cues: usize, rng: &mut impl Rng) -> Vec<usize> {
        if cues == 0 {
            return Vec::new();
        }
        self.sequence(cues, below_wide(rng, self.count(cues)))
    }

    /// Sequence number `index` of `cues` cues, in dictionary order.
    pub(super) fn sequence(&self, cues: usize, mut index: u128) -> Vec<usize> {
        let mut walk = Walk::new(self, cues);
        (0..cues)
            .map(|_| {
                let (kind, _) = walk
                    .choices()
                    .find(|&(_, count)| {
                        let here = index < count;
                        if !here {
                            index -= count;
                        }
                        here
                    })
                    .expect("an index below the count leads to a sequence");
                walk.call(kind);
                kind
            })
            .collect()
    }

    /// How many bytes the tables take.
    pub fn bytes(&self) -> usize {
        let counts: usize = self.tables.iter().map(Vec::len).sum();
        counts * size_of::<u128>() + size_of_val(&*self.multisets.offsets)
    }

    /// Counts how each state can be completed, for lengths with the remainder of `cues`, `cues` being the greatest.
    fn table(&self, cues: usize) -> Vec<u128> {
        let start = cues.div_ceil(self.kinds) + self.slack;
        // What may be left of each at the end: from nothing to the whole width between the bounds.
        let width = start - (cues / self.kinds).saturating_sub(self.slack);
        let left_at_end = self.kinds * start - cues;
        let states = self.multisets.states_up_to(start);
        let mut counts = vec![0; states];
        let mut remaining = Remaining { sorted: [0; MOST_KINDS], kinds: self.kinds };
        let mut rank = 0;
        loop {
            let sum = remaining.sum();
            if sum >= left_at_end {
                let groups = remaining.groups();
                for (place, last) in groups.iter().enumerate() {
                    for run in 1..=self.longest {
                        let state = self.multisets.state(rank, place, run);
                        counts[state] = if sum == left_at_end {
                            u128::from(groups.iter().all(|group| usize::from(group.left) <= width))
                        } else {
                            let others = groups.iter().map(|group| {
                                let alike = group.size - usize::from(group.place == last.place);
                                let each =
                                    self.multisets.after(rank, group, 1).map_or(0, |next| counts[next]);
                                each.saturating_mul(alike as u128)
                            });
                            let again = if run < self.longest {
                                self.multisets.after(rank, last, run + 1).map_or(0, |next| counts[next])
                            } else {
                                0
                            };
                            others.fold(again, u128::saturating_add)
                        };
                    }
                }
            }
            rank += 1;
            if !remaining.advance(start) {
                return counts;
            }
        }
    }
}

/// How many calls each kind has left, smallest first.
#[derive(Debug, Clone, Copy)]
struct Remaining {
    sorted: [u8; MOST_KINDS],
    kinds: usize,
}

/// The kinds that have equally many calls left.
#[derive(Debug, Clone, Copy, Default)]
struct Group {
    /// How many calls each has left.
    left: u8,
    /// The place of the first of them among the sorted kinds.
    first: usize,
    /// How many kinds are in the group.
    size: usize,
    /// Which group this is, fewest calls left first.
    place: usize,
    /// Whether the group before has one call fewer left.
    follows: bool,
}

struct Groups {
    all: [Group; MOST_KINDS],
    len: usize,
}

impl std::ops::Deref for Groups {
    type Target = [Group];
    fn deref(&self) -> &[Group] {
        &self.all[..self.len]
    }
}

impl Remaining {
    fn sum(&self) -> usize {
        self.sorted[..self.kinds].iter().map(|&left| usize::from(left)).sum()
    }

    fn groups(&self) -> Groups {
        let mut all = [Group::default(); MOST_KINDS];
        let mut len = 0;
        for (first, &left) in self.sorted[..self.kinds].iter().enumerate() {
            if len > 0 && all[len - 1].left == left {
                all[len - 1].size += 1;
            } else {
                let follows = len > 0 && all[len - 1].left + 1 == left;
                all[len] = Group { left, first, size: 1, place: len, follows };
                len += 1;
            }
        }
        Groups { all, len }
    }

    /// The next multiset in the order of ranks, if all stay within `most`.
    fn advance(&mut self, most: usize) -> bool {
        for i in 0..self.kinds {
            let bound = if i + 1 < self.kinds { usize::from(self.sorted[i + 1]) } else { most };
            if usize::from(self.sorted[i]) < bound {
                self.sorted[i] += 1;
                self.sorted[..i].fill(0);
                return true;
            }
        }
        false
    }
}

/// The numbering of states: multisets by rank, then the last kind's group, then its run.
///
/// The rank of a multiset a(0) <= a(1) <= ... is the sum of C(a(i) + i, i + 1): the combinatorial number system
/// (Knuth, The Art of Computer Programming 4A, 7.2.1.3). Taking one away from any part lowers the rank, so a table
/// filled in order of rank finds every state it needs.
#[derive(Debug, Clone)]
struct Multisets {
    kinds: usize,
    longest: usize,
    /// `choose[i][a]` = C(a + i, i + 1).
    choose: Vec<Vec<usize>>,
    /// The first state of each multiset, and the end of the last.
    offsets: Vec<u32>,
}

impl Multisets {
    /// `None` if the tables of all remainders would hold more than [`MOST_STATES`].
    fn new(kinds: usize, most: usize, longest: usize) -> Option<Self> {
        if kinds > MOST_KINDS || most > usize::from(u8::MAX) {
            return None;
        }
        let mut choose: Vec<Vec<usize>> = vec![(0..=most + 1).collect()];
        for i in 1..kinds {
            let mut total = 0_usize;
            let row = choose[i - 1].iter().map(|&above| {
                total = total.saturating_add(above);
                total
            });
            let row = row.collect();
            choose.push(row);
        }
        let ranks = choose[kinds - 1][most + 1];
        if ranks.saturating_mul(longest).saturating_mul(kinds) > MOST_STATES {
            return None;
        }
        let mut remaining = Remaining { sorted: [0; MOST_KINDS], kinds };
        let mut offsets = vec![0];
        let mut end = 0;
        loop {
            end += remaining.groups().len() * longest;
            offsets.push(end as u32);
            if !remaining.advance(most) {
                break;
            }
        }
        (end * kinds <= MOST_STATES).then_some(Self { kinds, longest, choose, offsets })
    }

    fn rank(&self, remaining: &Remaining) -> usize {
        let sorted = &remaining.sorted[..self.kinds];
        sorted.iter().zip(&self.choose).map(|(&left, row)| row[usize::from(left)]).sum()
    }

    /// How many states have no part above `most`.
    fn states_up_to(&self, most: usize) -> usize {
        self.offsets[self.choose[self.kinds - 1][most + 1]] as usize
    }

    fn state(&self, rank: usize, place: usize, run: usize) -> usize {
        self.offsets[rank] as usize + place * self.longest + run - 1
    }

    /// The state after one of `group` is called, its run then being `run`; `None` if it has no call left.
    fn after(&self, rank: usize, group: &Group, run: usize) -> Option<usize> {
        let left = usize::from(group.left);
        let row = &self.choose[group.first];
        let fewer = left.checked_sub(1)?;
        Some(self.state(rank - row[left] + row[fewer], group.place - usize::from(group.follows), run))
    }
}

/// A sequence up to the calls made so far.
struct Walk<'a> {
    covered: &'a CoveredSequences,
    table: &'a [u128],
    remaining: Remaining,
    left: [u8; MOST_KINDS],
    last: Option<(usize, usize)>,
}

impl<'a> Walk<'a> {
    fn new(covered: &'a CoveredSequences, cues: usize) -> Self {
        let start = [(cues.div_ceil(covered.kinds) + covered.slack) as u8; MOST_KINDS];
        let remaining = Remaining { sorted: start, kinds: covered.kinds };
        Self { covered, table: &covered.tables[cues % covered.kinds], remaining, left: start, last: None }
    }

    /// Each kind, in order, with the number of sequences that go on with it.
    fn choices(&self) -> impl Iterator<Item = (usize, u128)> {
        let multisets = &self.covered.multisets;
        let rank = multisets.rank(&self.remaining);
        let groups = self.remaining.groups();
        (0..self.covered.kinds).map(move |kind| {
            let run = match self.last {
                Some((last, run)) if last == kind => run + 1,
                _ => 1,
            };
            let group = groups.iter().find(|group| group.left == self.left[kind]);
            let group = group.expect("every kind is in a group");
            let next = if run <= self.covered.longest { multisets.after(rank, group, run) } else { None };
            (kind, next.map_or(0, |next| self.table[next]))
        })
    }

    fn call(&mut self, kind: usize) {
        let run = match self.last {
            Some((last, run)) if last == kind => run + 1,
            _ => 1,
        };
        let left = self.left[kind];
        let first = self.remaining.sorted.partition_point(|&other| other < left);
        self.remaining.sorted[first] -= 1;
        self.left[kind] -= 1;
        self.last = Some((kind, run));
    }
}

#[cfg(test)]
mod test;
