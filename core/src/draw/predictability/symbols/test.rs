use super::*;
use crate::draw::schedule::{Scheduler, Seed};

#[test]
fn symbols_are_the_calls_of_sessions_in_order() {
    let prescription = Prescription::ready("typical").unwrap();
    let scheduler = Scheduler::new(prescription).unwrap();
    let bounds = vec![vec![Millis(7_000), Millis(9_000), Millis(12_000)]; 2];
    let mut drawn = SequenceCollector::new(prescription, &bounds, 100);
    let seed = Seed::from_bytes([3; 32]);
    let (mut called, mut waits) = (Vec::new(), Vec::new());
    while !drawn.is_full() {
        let session = scheduler.draw(seed.of_session(drawn.sessions()));
        for set in session.sets().iter().filter(|set| set.drill().name() == "counter-reach") {
            let mut before = 0;
            for cue in set.cues().iter().filter(|cue| !cue.is_blank()) {
                called.push(cue.call().unwrap().direction());
                waits.push(cue.at().0 - before);
                before = cue.at().0;
            }
        }
        drawn.add(&session);
    }
    assert!((drawn.share() - 1.0).abs() < 1e-9);
    let sequences = drawn.into_sequences();
    assert_eq!(sequences.iter().map(Sequence::len).collect::<Vec<_>>(), [100, 100]);
    let targets = prescription.drills()[1].targets();
    let reaches = &sequences[1];
    for (place, symbol) in reaches.symbols(Kind::Direction).into_iter().enumerate() {
        assert_eq!(targets[usize::from(symbol)].direction, called[place]);
        let class = match waits[place] {
            0..7_000 => 0,
            7_000..9_000 => 1,
            9_000..12_000 => 2,
            _ => 3,
        };
        assert_eq!(reaches.symbols(Kind::Gap)[place], class);
        assert_eq!(reaches.symbols(Kind::Pair)[place], class * 5 + symbol);
    }
    assert_eq!(reaches.slots().iter().sum::<u32>(), 100);
    assert_eq!(reaches.slots()[..25].iter().sum::<u32>(), 0, "no wait is below 5 s");
    assert_eq!(
        (reaches.kinds(Kind::Direction), reaches.kinds(Kind::Gap), reaches.kinds(Kind::Pair)),
        (5, 4, 20)
    );
}
