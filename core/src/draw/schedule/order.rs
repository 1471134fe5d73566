//! Which direction comes next, in the order `open`: drawn one by one among those that the streak limit allows now.

use rand::Rng;

use super::chance::below;

/// The direction called last and how often it came in a row. It runs on across blanks and across the sets of a drill.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Streak {
    last: usize,
    run: u8,
}

impl Streak {
    /// Draws the next direction, as its place in `weights`, and counts it.
    ///
    /// The weights of the allowed directions are added up, a number below the sum is drawn, and the directions are
    /// walked in order until their weights exceed it. The draw is made even if only one direction is allowed.
    pub fn next(&mut self, weights: &[u32], longest: Option<u8>, rng: &mut impl Rng) -> usize {
        let full = longest.is_some_and(|longest| self.run >= longest);
        let now = |place: usize| if full && place == self.last { 0 } else { u64::from(weights[place]) };
        let mut x = below(rng, (0..weights.len()).map(now).sum());
        let mut chosen = 0;
        while x >= now(chosen) {
            x -= now(chosen);
            chosen += 1;
        }
        let run = if chosen == self.last { self.run.saturating_add(1) } else { 1 };
        *self = Self { last: chosen, run };
        chosen
    }
}

#[cfg(test)]
mod test;
