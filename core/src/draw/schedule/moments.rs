//! The moments of one set: when something could be called, and which of them stay blank.

use rand::rngs::ChaCha12Rng;

use super::chance::below;
use super::gap_draw;
use super::seed::Seed;
use crate::plan::gaps::GapTable;
use crate::plan::prescription::limits;
use crate::units::Millis;

/// The fewest real cues that a set may hold; a set with fewer is redrawn whole.
pub const FEWEST_CUES: usize = limits::LEAST_REAL_CUES as usize;

/// One moment of a set.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Moment {
    /// From the start of the work.
    pub at: Millis,
    /// Since the moment before, or since the start.
    pub gap: Millis,
    /// Whether nothing is called.
    pub blank: bool,
    /// How long the call lasts; 0 for most calls, and for a blank.
    pub duration: Millis,
}

/// The rules by which the moments of a set are drawn.
#[derive(Debug, Clone, Copy)]
pub struct Rules<'a> {
    /// The table that gaps are drawn from.
    pub gaps: &'a GapTable,
    /// The last moment at which something may come or end: work less recovery.
    pub latest: Millis,
    /// The most real cues of a set.
    pub most_real: usize,
    /// The chance of a blank after anything but a blank, in thousandths.
    pub blank_per_mille: u16,
}

impl Rules<'_> {
    /// The moments of set `number`, and how many attempts were thrown away before these.
    ///
    /// `duration_of` says how long the set's n-th real cue lasts, from 0: what is called is the same in every attempt.
    ///
    /// The first attempt draws gaps and blanks from a stream each. If it holds fewer than [`FEWEST_CUES`] real cues, or
    /// more than the set may hold, further attempts follow, gap and blank in turn, all from the set's one redraw
    /// stream. How often that happens is computed in `count`; the gate refuses a prescription in which it is more than
    /// one attempt in five.
    pub fn draw(
        &self,
        seed: Seed,
        number: u8,
        mut duration_of: impl FnMut(usize) -> Millis,
    ) -> (Vec<Moment>, u16) {
        let wrong = |moments: &[Moment]| !(FEWEST_CUES..=self.most_real).contains(&real(moments));
        let mut dice = Dice { gaps: seed.gaps(number), blanks: Some(seed.blanks(number)) };
        let mut moments = self.attempt(&mut dice, &mut duration_of);
        let mut redraws = 0_u16;
        if wrong(&moments) {
            dice = Dice { gaps: seed.redraw(number), blanks: None };
            while wrong(&moments) {
                moments = self.attempt(&mut dice, &mut duration_of);
                redraws = redraws.saturating_add(1);
            }
        }
        (moments, redraws)
    }

    /// Gaps run until one would end after the latest moment, or what comes then would; that one is discarded, never
    /// squeezed, so that the chance of a cue in the next moment stays as designed.
    fn attempt(&self, dice: &mut Dice, duration_of: &mut impl FnMut(usize) -> Millis) -> Vec<Moment> {
        let mut moments = Vec::with_capacity((self.latest.0 / self.gaps.least().0.max(1)) as usize);
        let mut ended = Millis(0);
        let mut blank = false;
        let mut called = 0;
        loop {
            let gap = gap_draw::draw(self.gaps, &mut dice.gaps);
            let at = ended + gap;
            if at > self.latest {
                return moments;
            }
            blank = !blank && below(dice.blanks(), 1000) < u64::from(self.blank_per_mille);
            let duration = if blank { Millis(0) } else { duration_of(called) };
            ended = at + duration;
            if ended > self.latest {
                return moments;
            }
            called += usize::from(!blank);
            moments.push(Moment { at, gap, blank, duration });
        }
    }
}

/// How many of the moments call something.
pub fn real(moments: &[Moment]) -> usize {
    moments.iter().filter(|moment| !moment.blank).count()
}

/// Leaves out everything after the real cue number `most`.
pub fn keep_real(moments: &mut Vec<Moment>, most: usize) {
    let mut seen = 0;
    let end = moments.iter().position(|moment| {
        seen += usize::from(!moment.blank);
        seen == most && !moment.blank
    });
    if let Some(end) = end {
        moments.truncate(end + 1);
    }
}

/// Where an attempt draws from: a stream for gaps and one for blanks, or one for both in turn.
struct Dice {
    gaps: ChaCha12Rng,
    blanks: Option<ChaCha12Rng>,
}

impl Dice {
    fn blanks(&mut self) -> &mut ChaCha12Rng {
        self.blanks.as_mut().unwrap_or(&mut self.gaps)
    }
}

#[cfg(test)]
mod test;
