//! How long does sound take to make? A 30-minute track against writing the same silence with hound (side by side,
//! alternating, so that both meet the same disk), one callback's block, and loading a session's clips.

use std::hint::black_box;
use std::ops::ControlFlow;
use std::path::Path;
use std::time::{Duration, Instant};

use counterpoise::audio::{Bank, CueEvent, Frame, Frames, SampleRate, Voice, desk, render_wav, voice};
use criterion::Criterion;

const RATE: SampleRate = SampleRate::HZ_48000;
const TRACK: u64 = 30 * 60 * 48_000;

fn silence(path: &Path) {
    let spec = hound::WavSpec {
        channels: 1,
        sample_rate: RATE.hz(),
        bits_per_sample: 16,
        sample_format: hound::SampleFormat::Int,
    };
    let mut writer = hound::WavWriter::create(path, spec).unwrap();
    for _ in 0..TRACK / 48_000 {
        let mut samples = writer.get_i16_writer(48_000);
        (0..48_000).for_each(|_| samples.write_sample(0_i16));
        samples.flush().unwrap();
    }
    writer.finalize().unwrap();
}

fn track(path: &Path, bank: &Bank) {
    // A cue every 8 s, and nothing but speech for a third of the time.
    let cues =
        (0..TRACK / 384_000 - 1).map(|n| (bank.get("reach.left").unwrap(), Frame(n * 384_000 + 9_600)));
    let speech =
        (0..TRACK / 384_000 - 1).map(|n| (bank.get("rest.over").unwrap(), Frame(n * 384_000 + 150_000)));
    render_wav(path, RATE, Frames(TRACK), cues.chain(speech), |_| ControlFlow::Continue(())).unwrap();
}

fn median(mut times: Vec<Duration>) -> Duration {
    times.sort_unstable();
    times[times.len() / 2]
}

fn compare(bank: &Bank) {
    let folder = tempfile::tempdir().unwrap();
    let timed = |work: &dyn Fn(&Path)| {
        let path = folder.path().join("a.wav");
        let _ = std::fs::remove_file(&path);
        let begun = Instant::now();
        work(&path);
        begun.elapsed()
    };
    let (mut plain, mut ours) = (Vec::new(), Vec::new());
    for _ in 0..7 {
        plain.push(timed(&silence));
        ours.push(timed(&|path| track(path, bank)));
    }
    let (plain, ours) = (median(plain), median(ours));
    let ratio = ours.as_secs_f64() / plain.as_secs_f64();
    println!("30-minute track: {ours:.0?}; the same of silence by hound: {plain:.0?}; ratio {ratio:.2}");
}

fn main() {
    let bank = Bank::load(RATE, Voice::Lower, ["reach.left", "rest.over"]).unwrap();
    compare(&bank);
    let mut criterion = Criterion::default().configure_from_args().sample_size(20);
    criterion.bench_function("a block of 2,048 frames, one cue sounding", |bench| {
        let (mut desk, mut renderer) = desk::pair(RATE);
        let mut out = [0; 2_048];
        let clip = bank.get("reach.left").unwrap();
        desk.play(0, clip.clone(), desk.now());
        bench.iter(|| {
            if let Some(CueEvent::Finished { .. }) = desk.poll() {
                desk.play(0, clip.clone(), desk.now());
            }
            renderer.render(black_box(&mut out));
        });
    });
    criterion.bench_function("load every clip of a voice", |bench| {
        bench.iter(|| Bank::load(RATE, Voice::Lower, voice::ids()).unwrap());
    });
    let cd = SampleRate::new(44_100).unwrap();
    criterion.bench_function("load every clip of a voice at 44,100 Hz", |bench| {
        bench.iter(|| Bank::load(cd, Voice::Lower, voice::ids()).unwrap());
    });
    criterion.final_summary();
}
