use rand::rngs::ChaCha12Rng;
use rand::{RngExt, SeedableRng};
use statrs::distribution::{Binomial, DiscreteCDF};

use super::list_file::{List, ListError};
use super::*;
use crate::blocks::Block;

fn list_of(calls: impl IntoIterator<Item = &'static str>) -> List {
    List::read(&calls.into_iter().collect::<Vec<_>>().join("\n")).unwrap()
}

fn judged(list: &List) -> OwnList<'_> {
    OwnList::judge(list, &mut ChaCha12Rng::from_seed([6; 32]))
}

fn told(list: &List) -> String {
    let texts = judged(list).blocks("mine.txt").into_iter().filter_map(|block| match block {
        Block::Text(text) | Block::Heading(text) => Some(text),
        _ => None,
    });
    texts.collect::<Vec<_>>().join("\n")
}

const FOUR: [&str; 4] = ["left", "right", "forward", "back"];

#[test]
fn lists_are_read_as_people_write_them() {
    let read = |text: &str| List::read(text).unwrap();
    let plain = read("left\nRIGHT\n\n# second page\nforward  left   # slowly\nleft\r\n");
    assert_eq!(plain.symbols(), [0, 1, 2, 0]);
    assert_eq!(plain.names()[2].words, "forward left");
    assert_eq!((plain.names()[0].count, plain.names()[2].line), (2, 5));
    assert_eq!(plain.waits(), None);
    assert_eq!(read("left, right; left\tright").symbols(), [0, 1, 0, 1]);
    assert_eq!(read("1. left\n2. right\n10) left").symbols(), [0, 1, 0]);
    for timed in [
        "5 left\n11.5 right\n71 left",
        "0:05 left\n0:11.5, right\n1:11 left",
        "1. 5s left\n2. 11.5 s right\n3. 71 s, left",
    ] {
        assert_eq!(read(timed).waits().unwrap(), [Millis(6_500), Millis(59_500)], "{timed}");
        assert_eq!(read(timed).symbols(), [0, 1, 0], "{timed}");
    }
    assert_eq!(read("7 step left\n9 sit").names()[0].words, "step left", "a word with s is no unit");
}

#[test]
fn what_is_not_a_list_is_refused_with_its_line() {
    let refused = |text: &str| List::read(text).unwrap_err();
    assert_eq!(refused(""), ListError::TooShort { calls: 0 });
    assert_eq!(refused("left"), ListError::TooShort { calls: 1 });
    assert_eq!(refused("left\n5 right"), ListError::SomeTimes { line: 2 });
    assert_eq!(refused("5 left, right"), ListError::SomeTimes { line: 1 });
    assert_eq!(refused("5 left\n7"), ListError::NoDirection { line: 2 });
    let backward = refused("5 left\n4.5 right");
    assert_eq!(backward, ListError::Backward { time: Millis(4_500), before: Millis(5_000), line: 2 });
    assert_eq!(backward.to_string(), "the time 4.5 s does not come after the one before it, 5 s (line 2)");
    let many: String = ('a'..='u').map(|name| format!("{name}\n")).collect();
    assert_eq!(refused(&many), ListError::TooManyNames { name: "u".into(), line: 21 });
    assert!(matches!(refused(&format!("left\n{}", "x".repeat(31))), ListError::LongName { line: 2, .. }));
    assert_eq!(refused(&"left\n".repeat(100_001)), ListError::TooLong { line: 100_001 });
}

/// Fixed beforehand, the guesser is right with exactly 1 / k on lists drawn evenly, so its hits are binomial: of 2,000
/// lists, about 1 in 20 (here at most 7 %) lie outside their own 95 % interval around 1 / k.
#[test]
fn on_lists_drawn_evenly_the_intervals_hold() {
    let mut rng = ChaCha12Rng::from_seed([8; 32]);
    let (mut outside, mut hits, mut guesses) = (0, 0, 0);
    for _ in 0..2_000 {
        let symbols: Vec<u8> = (0..60).map(|_| rng.random_range(0..4)).collect();
        let score = guess_by_habit(&symbols, 4);
        let interval = Interval::of(score.hits(), score.guesses());
        outside += usize::from(interval.low > 0.25 || interval.high < 0.25);
        hits += score.hits();
        guesses += score.guesses();
    }
    assert!(outside <= 140, "{outside}");
    let share = hits as f64 / guesses as f64;
    assert!((share - 0.25).abs() < 5.0 * (0.25 * 0.75 / guesses as f64).sqrt(), "{share}");
}

#[test]
fn habits_are_found() {
    let turns = list_of((0..40).map(|call| FOUR[call % 4]));
    assert!(judged(&turns).hits().low > 0.7, "{:?}", judged(&turns).hits());
    assert!(told(&turns).contains("That is a habit"));
    // Someone who never repeats: the repeats tell before the guesser does.
    let mut rng = ChaCha12Rng::from_seed([2; 32]);
    let mut last = 0;
    let never = list_of((0..60).map(|_| {
        last = (last + rng.random_range(1..4)) % 4;
        FOUR[last]
    }));
    let own = judged(&never);
    assert_eq!(own.repeats().hits, 0);
    // No repeat in 59 steps: twice 0.75^59.
    assert!((own.repeats_p_value() - 2.0 * 0.75_f64.powi(59)).abs() < 1e-12);
    assert!((own.repeat_guess_rate() - 1.0 / 3.0).abs() < 1e-12);
    assert!(told(&never).contains("never bets on one gets about 33.3 of 100"), "{}", told(&never));
}

#[test]
fn of_a_short_list_little_is_said() {
    let short = list_of(["left", "right", "back", "left", "forward", "forward", "right", "back"]);
    let text = told(&short);
    assert!(text.contains("Little can be said"), "{text}");
    assert!(text.contains("they are left out"), "{text}");
    let slip = list_of(["left", "right", "lfet", "left", "right", "right"]);
    assert!(told(&slip).contains("\"lfet\" appears only once (line 3)"));
    let same = list_of(["left"; 9]);
    assert!(told(&same).contains("All 9 calls are the same"));
}

#[test]
fn a_long_even_list_is_compared_with_the_app_and_has_no_habit() {
    let mut rng = ChaCha12Rng::from_seed([4; 32]);
    let even = list_of((0..2_000).map(|_| FOUR[rng.random_range(0..4)]));
    let own = judged(&even);
    let text = told(&even);
    assert!(text.contains("No habit was found."), "{text}");
    let app = own.app();
    assert_eq!(app.longest_streak, 2);
    assert!((app.rule_knowing_rate - 0.266_667).abs() < 1e-5);
    assert!(
        app.range.0 <= app.mean && app.mean <= app.range.1 && app.range.1 - app.range.0 < 0.06,
        "{app:?}"
    );
    let binomial = Binomial::new(0.25, own.hits().of as u64).unwrap();
    let tail = binomial.sf(own.hits().hits as u64 - 1);
    assert!((own.guess_p_value() - tail).abs() < 1e-9);
    assert!(
        judged(&even).blocks("x").iter().any(
            |block| matches!(block, Block::Table(table) if table.rows.len() == 4 && table.head.len() == 4)
        )
    );
}

/// A metronome with a tremor of 0.1 s; then gaps drawn evenly from 5 to 15 s.
#[test]
fn a_rhythm_is_caught_by_a_brace_and_an_even_spread_is_not() {
    let mut rng = ChaCha12Rng::from_seed([3; 32]);
    let mut text = |wait: &mut dyn FnMut(&mut ChaCha12Rng) -> f64| {
        let mut at = 0.0;
        (0..90)
            .map(|call| {
                at += wait(&mut rng);
                format!("{at:.2} {}\n", FOUR[call * 7 % 4])
            })
            .collect::<String>()
    };
    let steady = List::read(&text(&mut |rng| 8.0 + rng.random_range(-0.1..0.1))).unwrap();
    let caught = judged(&steady).catches().unwrap();
    assert!(caught.low > 0.9, "{caught:?}");
    assert!(told(&steady).contains("The timing gives itself away."));
    let even = List::read(&text(&mut |rng| rng.random_range(5.0..15.0))).unwrap();
    let caught = judged(&even).catches().unwrap();
    assert!(caught.low < 0.083 && caught.share < 0.2, "{caught:?}");
    let few = List::read("1 left\n9 right\n20 left").unwrap();
    assert_eq!(judged(&few).catches(), None);
    assert!(told(&few).contains("too few waits"));
}

#[test]
fn the_brace_is_put_in_the_middle_of_what_it_catches() {
    let waits = [5_000, 7_000, 7_100, 7_300, 9_000].map(Millis);
    // 7.0 to 7.3 s are 300 ms apart; of 500 ms, 199 are to spare, 99 of them before.
    assert_eq!(best_brace(&waits), Millis(6_901));
}
