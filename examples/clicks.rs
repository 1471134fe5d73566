//! Clicks on exact frames of the default sound output, for measuring a machine: record them with another program
//! and compare. Prints what the output says of itself, and every event with its moment.
//!
//! `cargo run --release --example clicks -- SECONDS [GAP_MS]`

use std::time::{Duration, Instant};

use counterpoise::audio::{Clip, CueEvent, Frame, OutputEvent, device};
use counterpoise_core::units::Millis;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let number = |n| std::env::args().nth(n).map(|text| text.parse::<u32>()).transpose();
    let (seconds, gap) = (number(1)?.unwrap_or(60), number(2)?.unwrap_or(500));
    let begun = Instant::now();
    let mut output = device::open(None)?;
    println!("{:8.3} open", begun.elapsed().as_secs_f64());
    let click = Clip::new((0..48).map(|n| if n < 24 { 24_000 } else { -24_000 }).collect::<Vec<_>>());
    let start = output.now() + output.rate().frames(Millis(2_000));
    let at = |n: u32| start + output.rate().frames(Millis(n * gap));
    let frames: Vec<Frame> = (0..seconds * 1_000 / gap).map(at).collect();
    for (id, &at) in (0..).zip(&frames) {
        output.play(id, click.clone(), at);
    }
    let (mut exact, mut late) = (0, 0);
    while begun.elapsed() < Duration::from_secs(u64::from(seconds) + 3) {
        match output.poll() {
            Some(OutputEvent::Cue(CueEvent::Started { wanted, at, .. })) if wanted == at => exact += 1,
            Some(OutputEvent::Cue(CueEvent::Started { .. })) => late += 1,
            Some(OutputEvent::Cue(CueEvent::Finished { .. })) => {}
            Some(event) => println!("{:8.3} {event:?} at {:?}", begun.elapsed().as_secs_f64(), output.now()),
            None => std::thread::sleep(Duration::from_millis(5)),
        }
    }
    println!(
        "{:8.3} {exact} on their frame, {late} late; {:?}",
        begun.elapsed().as_secs_f64(),
        output.facts()
    );
    Ok(())
}
