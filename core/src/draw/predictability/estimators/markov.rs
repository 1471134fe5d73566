//! Guesses what most often followed the last symbols, for contexts of several lengths: SP 800-90B, 6.3.9.
//!
//! Each length is gone through by itself: a context is numbered by the number of the context one shorter and the symbol
//! before it, so that no text is ever compared and a whole length fits into two tables.

use super::{Best, NONE, Score};

/// No guess was made.
const SILENT: u8 = u8::MAX;

/// Guesses from the third symbol on, with the length of context, up to `longest`, that has been right most often.
///
/// Each length keeps at most `entries` pairs of a context and a symbol that followed it. A length whose context is new
/// says nothing, and neither does any longer one.
pub(super) fn judge(symbols: &[u8], kinds: u8, longest: usize, entries: usize) -> Score {
    let mut guesses = vec![SILENT; symbols.len() * longest];
    // The empty context is number 0 everywhere.
    let mut contexts = vec![0; symbols.len()];
    let mut known = 1;
    for length in 1..=longest.min(symbols.len() - 1) {
        let column = guesses.iter_mut().skip(length - 1).step_by(longest);
        known = go_through(symbols, kinds, length, entries, known, &mut contexts, column);
    }
    let mut score = Score::new(kinds);
    let mut right = vec![0_u32; longest];
    let mut winner = 0;
    for (place, &symbol) in symbols.iter().enumerate().skip(2) {
        let row = &guesses[place * longest..(place + 1) * longest];
        match row[winner] {
            SILENT => score.pass(),
            guess => score.add(guess == symbol),
        }
        for (index, &guess) in row.iter().enumerate().take_while(|(_, guess)| **guess != SILENT) {
            if guess == symbol {
                right[index] += 1;
                if right[index] >= right[winner] {
                    winner = index;
                }
            }
        }
    }
    score
}

/// Writes the guesses of one length. `contexts` holds, for each place, the number of the context one shorter, of which
/// `known` are known, and afterwards that of this length. Gives how many of this length are known.
fn go_through<'a>(
    symbols: &[u8],
    kinds: u8,
    length: usize,
    entries: usize,
    known: usize,
    contexts: &mut [u32],
    guesses: impl Iterator<Item = &'a mut u8>,
) -> usize {
    let kinds = usize::from(kinds);
    let mut longer = vec![NONE; known * kinds];
    let mut counts: Vec<u32> = Vec::new();
    let mut bests: Vec<Best> = Vec::new();
    let mut pairs = 0;
    for (place, guess) in guesses.enumerate() {
        let shorter = contexts[place];
        contexts[place] = NONE;
        if place < length {
            continue;
        }
        let symbol = symbols[place];
        let unused = NONE;
        let slot = match shorter {
            NONE => None,
            shorter => Some(&mut longer[shorter as usize * kinds + usize::from(symbols[place - length])]),
        };
        let context = slot.as_deref().copied().unwrap_or(unused);
        if context != NONE {
            *guess = bests[context as usize].symbol;
        } else if pairs >= entries {
            continue;
        }
        let context = match (context, slot) {
            (NONE, None) => {
                // It is counted, but never found again: nothing leads to it.
                pairs += 1;
                continue;
            }
            (NONE, Some(slot)) => {
                *slot = bests.len() as u32;
                bests.push(Best::default());
                counts.resize(counts.len() + kinds, 0);
                *slot
            }
            (context, _) => context,
        };
        contexts[place] = context;
        let count = &mut counts[context as usize * kinds + usize::from(symbol)];
        if *count == 0 {
            if pairs >= entries {
                continue;
            }
            pairs += 1;
        }
        *count += 1;
        bests[context as usize].note(symbol, *count);
    }
    bests.len()
}
