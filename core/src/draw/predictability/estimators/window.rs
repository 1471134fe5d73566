//! Guesses the most common symbol of several windows; if two are equally common, the one seen last: SP 800-90B,
//! 6.3.7.

use super::Score;

struct Window {
    length: usize,
    counts: Vec<u32>,
    common: usize,
    right: u32,
}

/// Guesses from the first place that has the shortest window behind it; a longer window takes part once it is full.
pub(super) fn judge(symbols: &[u8], kinds: u8, lengths: &[usize]) -> Score {
    let mut seen = vec![0; usize::from(kinds)];
    let new = |&length: &usize| Window { length, counts: vec![0; usize::from(kinds)], common: 0, right: 0 };
    let mut windows: Vec<Window> = lengths.iter().map(new).collect();
    let mut score = Score::new(kinds);
    let mut winner = 0;
    for (place, &symbol) in symbols.iter().enumerate() {
        let symbol = usize::from(symbol);
        if place >= lengths[0] {
            score.add(windows[winner].common == symbol);
        }
        for index in 0..windows.len() {
            if place >= windows[index].length && windows[index].common == symbol {
                windows[index].right += 1;
                if windows[index].right >= windows[winner].right {
                    winner = index;
                }
            }
        }
        seen[symbol] = place;
        for window in &mut windows {
            window.counts[symbol] += 1;
            let out = place.checked_sub(window.length).map(|first| usize::from(symbols[first]));
            if let Some(out) = out {
                window.counts[out] -= 1;
            }
            if out == Some(window.common) {
                let rank = |&kind: &usize| (window.counts[kind], seen[kind]);
                window.common = (0..seen.len()).max_by_key(rank).expect("there is a kind");
            } else if window.counts[symbol] >= window.counts[window.common] {
                window.common = symbol;
            }
        }
    }
    score
}
