//! How long it takes to draw a session with tables built, and to build the tables. Figures: `docs/performance.md`.

use std::hint::black_box;

use counterpoise_core::draw::schedule::covered::CoveredSequences;
use counterpoise_core::draw::schedule::{Scheduler, Seed};
use counterpoise_core::plan::gaps::GapTable;
use counterpoise_core::plan::prescription::Prescription;
use criterion::{Criterion, criterion_group, criterion_main};

fn scheduler(text: &str) -> Scheduler {
    let prescription = Prescription::read("bench.toml", text.as_bytes()).expect("it is within the limits");
    Scheduler::new(&prescription).expect("its tables can be built")
}

/// Each draw has a seed of its own, so that sessions of every length take part.
fn draw(criterion: &mut Criterion, name: &str, scheduler: &Scheduler) {
    let seed = Seed::from_bytes([61; 32]);
    let seeds: Vec<Seed> = (0..1024).map(|session| seed.of_session(session)).collect();
    let mut next = seeds.iter().cycle();
    criterion.bench_function(name, |bencher| {
        bencher.iter(|| scheduler.draw(*black_box(next.next().expect("a cycle has no end"))));
    });
}

fn sessions(criterion: &mut Criterion) {
    let ready = Prescription::ready_text("typical").expect("it is built in");
    draw(criterion, "draw/open, typical", &scheduler(ready));
    let eight = include_str!("../tests/golden/eight.toml");
    draw(criterion, "draw/covered, 40 cues, 8 directions, slack 2", &scheduler(eight));
    let open = eight.replace("sequence = \"covered\"\nslack = 2", "sequence = \"open\"");
    draw(criterion, "draw/open, 40 cues, 8 directions", &scheduler(&open));
}

fn tables(criterion: &mut Criterion) {
    criterion.bench_function("tables/covered, 40 cues, 8 directions, slack 2", |bencher| {
        bencher.iter(|| CoveredSequences::new(black_box(8), 2, Some(2), 40).expect("they can be counted"));
    });
    let covered = CoveredSequences::new(8, 2, Some(2), 40).expect("they can be counted");
    println!("tables/covered: {} bytes", covered.bytes());
    let typical = Prescription::ready("typical").expect("it is built in");
    criterion.bench_function("tables/gaps of 5 to 15 s", |bencher| {
        bencher.iter(|| GapTable::new(black_box(typical.drills()[0].gaps())));
    });
    criterion.bench_function("tables/all of typical", |bencher| {
        bencher.iter(|| Scheduler::new(black_box(typical)).expect("its tables can be built"));
    });
}

criterion_group!(benches, sessions, tables);
criterion_main!(benches);
