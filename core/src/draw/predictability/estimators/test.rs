use super::{Estimator, Score, dictionary, lag, markov, window};

/// The worked examples of SP 800-90B (2018), sections 6.3.7 to 6.3.10, as a public test suite of them has them.
/// The standard rounds the normal quantile to 2.576, which moves the fourth decimal.
#[test]
fn the_worked_examples_of_the_standard_come_out() {
    let lag_example = [1, 0, 2, 1, 0, 2, 0, 2, 0, 1];
    let examples: [(&str, Score, f64); 4] = [
        ("MultiMCW", window::judge(&[1, 2, 1, 0, 2, 1, 1, 2, 2, 0, 0, 0], 3, &[3, 5, 7, 9]), 0.3908),
        ("Lag", lag::judge(&lag_example, 3, 3), 0.735),
        ("MultiMMC", markov::judge(&lag_example[..9], 3, 3, 100_000), 0.0755),
        ("LZ78Y", dictionary::judge(&[1, 0, 2, 1, 0, 2, 0, 2, 0, 1, 0, 2, 1], 3, 4, 65_536), 0.0191),
    ];
    for (name, score, bits) in examples {
        assert!((score.min_entropy_bits() - bits).abs() < 1.5e-4, "{name}: {score:?}");
    }
}

/// A linear congruential generator modulo 2^64 (Knuth's MMIX multiplier), of which the upper 31 bits are used.
struct Congruential(u64);

impl Congruential {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        self.0 >> 33
    }
}

fn independent(kinds: u64, length: usize, seed: u64) -> Vec<u8> {
    let mut rng = Congruential(seed);
    (0..length).map(|_| (rng.next() % kinds) as u8).collect()
}

/// Evenly among the symbols, but never more than `longest` alike in a row.
fn limited(kinds: u64, longest: usize, length: usize, seed: u64) -> Vec<u8> {
    let mut rng = Congruential(seed);
    let (mut last, mut run) = (u64::MAX, 0);
    let next = |_| {
        let symbol = if run >= longest {
            let other = rng.next() % (kinds - 1);
            other + u64::from(other >= last)
        } else {
            rng.next() % kinds
        };
        run = if symbol == last { run + 1 } else { 1 };
        last = symbol;
        symbol as u8
    };
    (0..length).map(next).collect()
}

/// Three times in ten the same again, else one or two further on.
fn sticky(kinds: u64, length: usize, seed: u64) -> Vec<u8> {
    let mut rng = Congruential(seed);
    let mut last = 0;
    let next = |_| {
        let x = rng.next();
        if x % 10 >= 3 {
            last = (last + 1 + (x / 10) % 2) % kinds;
        }
        last as u8
    };
    (0..length).map(next).collect()
}

/// Guesses, hits, longest run of hits and min-entropy that the functions `multi_mcw_test`, `lag_test`,
/// `multi_mmc_test`, `LZ78Y_test` and `predictionEstimate` of NIST's program (`SP800-90B_EntropyAssessment`, version
/// 1.1.5) give for these sequences. They were read in its source, transcribed into one C++ file (Lag without its ring
/// buffers, one path for every alphabet) and run in November 2026. In the last one the dictionaries are full.
#[test]
fn nists_functions_count_the_same_hits() {
    type Figures = [(usize, usize, usize, f64); 4];
    let cases: [(&str, Vec<u8>, u8, Figures); 6] = [
        (
            "independent, 4",
            independent(4, 60_000, 1),
            4,
            [
                (59_937, 14_968, 9, 1.975_492_341_424),
                (59_999, 15_007, 7, 1.973_270_123_198),
                (59_998, 14_994, 8, 1.974_481_533_228),
                (59_983, 15_018, 7, 1.971_842_002_561),
            ],
        ),
        (
            "at most two in a row, 4",
            limited(4, 2, 100_000, 2),
            4,
            [
                (99_937, 24_372, 2, 2.0),
                (99_999, 26_668, 9, 1.887_447_490_961),
                (99_998, 26_621, 8, 1.889_954_833_262),
                (99_983, 26_514, 7, 1.895_496_498_741),
            ],
        ),
        (
            "sticky, 5",
            sticky(5, 30_000, 3),
            5,
            [
                (29_937, 6_120, 9, 2.112_647_880_452),
                (29_999, 9_102, 10, 1.688_509_650_524),
                (29_998, 10_367, 9, 1.503_640_410_269),
                (29_983, 10_378, 9, 1.501_416_127_335),
            ],
        ),
        (
            "independent, 2",
            independent(2, 20_000, 4),
            2,
            [
                (19_937, 9_954, 13, 0.975_980_417_326),
                (19_999, 10_053, 14, 0.966_397_586_815),
                (19_998, 10_015, 11, 0.971_692_018_244),
                (19_983, 9_931, 14, 0.982_553_248_621),
            ],
        ),
        (
            "independent, 20",
            independent(20, 40_000, 5),
            20,
            [
                (39_937, 2_019, 3, 4.227_596_628_083),
                (39_999, 1_970, 3, 4.264_283_834_572),
                (39_998, 2_040, 3, 4.215_282_116_897),
                (39_983, 2_037, 3, 4.216_806_017_487),
            ],
        ),
        (
            "at most two in a row, 3",
            limited(3, 2, 400_000, 6),
            3,
            [
                (399_937, 131_213, 2, 1.584_962_500_721),
                (399_999, 150_196, 11, 1.405_592_220_718),
                (399_998, 150_212, 12, 1.405_435_584_033),
                (399_983, 150_392, 11, 1.403_661_037_698),
            ],
        ),
    ];
    for (sequence, symbols, kinds, figures) in cases {
        for (estimator, (guesses, hits, longest, bits)) in Estimator::ALL.into_iter().zip(figures) {
            let score = estimator.judge(&symbols, kinds).unwrap();
            let found = (score.guesses(), score.hits(), score.longest_run());
            assert_eq!(found, (guesses, hits, longest), "{sequence}: {estimator:?}");
            assert!((score.min_entropy_bits() - bits).abs() < 1e-9, "{sequence}: {estimator:?} {score:?}");
        }
    }
}

#[test]
fn too_short_a_sequence_is_not_judged() {
    for estimator in Estimator::ALL {
        let symbols = vec![1; estimator.least()];
        assert_eq!(estimator.judge(&symbols[1..], 2), None);
        assert!(estimator.judge(&symbols, 2).is_some_and(|score| score.guesses() >= 1), "{estimator:?}");
    }
}
