//! Guesses the symbol of some calls ago: SP 800-90B, 6.3.8.

use super::Score;

/// Guesses from the second symbol on, with the distance, up to `most`, that has been right most often.
pub(super) fn judge(symbols: &[u8], kinds: u8, most: usize) -> Score {
    let mut places: Vec<Vec<usize>> = vec![Vec::new(); usize::from(kinds)];
    let mut right = vec![0_u32; most + 1];
    let mut score = Score::new(kinds);
    let mut winner = 1;
    for (place, &symbol) in symbols.iter().enumerate() {
        if place > 0 {
            score.add(symbols[place - winner] == symbol);
        }
        let alike = &mut places[usize::from(symbol)];
        for lag in alike.iter().rev().map(|before| place - before).take_while(|lag| *lag <= most) {
            right[lag] += 1;
            if right[lag] >= right[winner] {
                winner = lag;
            }
        }
        alike.push(place);
    }
    score
}
