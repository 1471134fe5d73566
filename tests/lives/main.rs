//! Whole lives of practice, bounded here; `cargo run --release --example lives -- SEED LIVES WEEKS` lives more of them.

mod life;

use life::{Life, Tally};

#[test]
fn in_no_life_is_anything_lost_shortened_or_contradicted() {
    let place = tempfile::tempdir().unwrap();
    let mut all = Tally::default();
    // Of these, 1 once broke a promise: a hold was over while a practice was dated ahead of the clock.
    for seed in 0..6 {
        println!("seed {seed}");
        all += Life::new(seed, place.path()).live(10);
    }
    // A life in which nothing happens proves nothing.
    assert!(all.sessions > 60 && all.sets > 60 && all.kills > 0 && all.barred > 0 && all.lost > 0, "{all:?}");
}
