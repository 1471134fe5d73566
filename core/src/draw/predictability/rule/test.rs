use super::Rule;

/// Limits of streak-limited sequences and "draw evenly among the allowed": bits and best guess. The limits for two
/// symbols are the classical capacities of run-length-limited codes; the rest derived apart from this program.
const TABLE: [(usize, u8, f64, f64, f64); 10] = [
    (2, 2, 0.694_242, 0.666_667, 0.6667),
    (2, 3, 0.879_146, 0.857_143, 0.5714),
    (2, 4, 0.946_777, 0.933_333, 0.5333),
    (3, 2, 1.449_984, 1.438_722, 0.3750),
    (4, 1, 1.584_963, 1.584_963, 0.3333),
    (4, 2, 1.922_688, 1.916_993, 0.2667),
    (4, 3, 1.982_354, 1.980_236, 0.2540),
    (8, 1, 2.807_355, 2.807_355, 0.1429),
    (8, 2, 2.979_565, 2.978_595, 0.1270),
    (8, 3, 2.997_520, 2.997_361, 0.1252),
];

#[test]
fn entropies_limits_and_rates_are_the_known_ones() {
    for (kinds, longest, limit, bits, hits) in TABLE {
        let weights = vec![1; kinds];
        let rule = Rule::Open { weights: &weights, longest: Some(longest) };
        assert!((rule.limit_bits() - limit).abs() < 1e-6, "{kinds} {longest}: {}", rule.limit_bits());
        assert!((rule.entropy_bits(&[]) - bits).abs() < 1e-6, "{kinds} {longest}");
        assert!((rule.long_run_hits().unwrap() - hits).abs() < 5.1e-5, "{kinds} {longest}");
    }
}

/// By hand, two symbols and at most two in a row: 1/2, 1/2, then after a pair (chance 1/2) certain.
#[test]
fn the_first_calls_of_a_session_are_harder_than_the_later_ones() {
    let rule = Rule::Open { weights: &[1, 1], longest: Some(2) };
    let foreseen = rule.hit_chances(&[0.0, 0.0, 0.0, 0.0, 1.0]);
    let hits: Vec<f64> = (0..4).map(|place| foreseen.hit(4, place)).collect();
    assert_eq!(hits[..3], [0.5, 0.5, 0.75]);
    // Pairs before the fourth: 0 1 1 or 1 0 0, of the six sequences: 1/4 + 1/4 = 1/2 of the chance; 0 0 1 and such not.
    assert!((hits[3] - 0.625).abs() < 1e-15);
}

/// Weights 3 and 1, at most three in a row: by a walk over every sequence of five.
#[test]
fn weights_agree_with_a_walk_over_every_sequence() {
    fn walk(weights: &[u32], longest: usize, so_far: &mut Vec<usize>, chance: f64, hits: &mut [f64]) {
        if so_far.len() == hits.len() {
            return;
        }
        let run = so_far.iter().rev().take_while(|symbol| Some(*symbol) == so_far.last()).count();
        let barred = (run == longest).then(|| so_far[so_far.len() - 1]);
        let allowed: Vec<usize> = (0..weights.len()).filter(|symbol| Some(*symbol) != barred).collect();
        let total: u32 = allowed.iter().map(|symbol| weights[*symbol]).sum();
        let share = |symbol: usize| f64::from(weights[symbol]) / f64::from(total);
        hits[so_far.len()] += chance * allowed.iter().map(|symbol| share(*symbol)).fold(0.0, f64::max);
        for symbol in allowed {
            so_far.push(symbol);
            walk(weights, longest, so_far, chance * share(symbol), hits);
            so_far.pop();
        }
    }
    for (weights, longest) in [(vec![3, 1], 3), (vec![5, 2, 2], 2), (vec![1, 1, 9, 1], 1)] {
        let mut hits = [0.0; 7];
        walk(&weights, longest, &mut Vec::new(), 1.0, &mut hits);
        let foreseen =
            Rule::Open { weights: &weights, longest: Some(longest as u8) }.hit_chances(&[0.125; 8]);
        for (place, hit) in hits.into_iter().enumerate() {
            assert!((foreseen.hit(7, place) - hit).abs() < 1e-12, "{weights:?}, place {place}");
        }
    }
}

#[test]
fn one_symbol_is_always_known_and_no_limit_leaves_everything() {
    let one = Rule::Open { weights: &[7], longest: None };
    assert_eq!((one.long_run_hits(), one.entropy_bits(&[]), one.limit_bits()), (Some(1.0), 0.0, 0.0));
    let free = Rule::Open { weights: &[1, 1, 1, 1], longest: None };
    assert!((free.entropy_bits(&[]) - 2.0).abs() < 1e-12);
    assert!((free.limit_bits() - 2.0).abs() < 1e-12);
}
