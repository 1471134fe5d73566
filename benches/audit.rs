//! How long an audit takes: the four prediction estimators over 100,000 and 1,000,000 symbols, and what is computed
//! without drawing. Figures: `docs/performance.md`.

use std::hint::black_box;
use std::time::Instant;

use counterpoise_core::draw::predictability::{Estimator, Foresight, Kind, SequenceCollector};
use counterpoise_core::draw::schedule::{Scheduler, Seed};
use counterpoise_core::plan::counts::CueCounts;
use counterpoise_core::plan::prescription::Prescription;
use criterion::{Criterion, criterion_group, criterion_main};

/// The calls of the second drill of `typical`, which has five directions.
fn drawn(kind: Kind, calls: usize) -> (Vec<u8>, u8) {
    let prescription = Prescription::ready("typical").expect("it is built in");
    let scheduler = Scheduler::new(prescription).expect("its tables can be built");
    let foresight = Foresight::of(prescription, &scheduler, &CueCounts::of(prescription));
    let bounds: Vec<_> = foresight.drills().iter().map(|drill| drill.moment.bounds.clone()).collect();
    let mut drawn = SequenceCollector::new(prescription, &bounds, calls);
    while !drawn.is_full() {
        drawn.add(&scheduler.draw(Seed::from_bytes([11; 32]).of_session(drawn.sessions())));
    }
    let sequence = &drawn.into_sequences()[1];
    (sequence.symbols(kind), sequence.kinds(kind))
}

fn estimators(criterion: &mut Criterion) {
    for kind in [Kind::Direction, Kind::Pair] {
        let (symbols, kinds) = drawn(kind, 100_000);
        for estimator in Estimator::ALL {
            let name = format!("{}, 100,000 {}s of {kinds}", estimator.name(), kind.name());
            criterion.bench_function(&name, |bencher| {
                bencher.iter(|| estimator.judge(black_box(&symbols), kinds));
            });
        }
    }
    // All four one after the other, once: NIST's own program is timed the same way, on the same sequence.
    for calls in [100_000, 200_000, 1_000_000] {
        let (symbols, kinds) = drawn(Kind::Direction, calls);
        let begun = Instant::now();
        for estimator in Estimator::ALL {
            black_box(estimator.judge(&symbols, kinds));
        }
        println!("all four, {calls} directions of {kinds}, once: {:.0?}", begun.elapsed());
    }
}

fn foreseen(criterion: &mut Criterion) {
    let covered = include_str!("../tests/golden/eight.toml");
    let covered = Prescription::read("eight.toml", covered.as_bytes()).expect("it is within the limits");
    for (name, prescription) in [
        ("typical", Prescription::ready("typical").expect("it is built in")),
        ("covered, 8 directions", &covered),
    ] {
        let scheduler = Scheduler::new(prescription).expect("its tables can be built");
        let counts = CueCounts::of(prescription);
        criterion.bench_function(&format!("foresight of {name}"), |bencher| {
            bencher.iter(|| Foresight::of(black_box(prescription), &scheduler, &counts));
        });
    }
}

criterion_group! {
    name = benches;
    config = Criterion::default().sample_size(10);
    targets = estimators, foreseen
}
criterion_main!(benches);
