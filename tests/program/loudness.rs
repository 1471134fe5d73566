//! Is every sound as loud as the next? The meter is the `ebur128` crate, first checked against EBU Tech 3341
//! (table 1, tolerance 0.1 LU; transcribed), then used on every clip and tone.

use std::f64::consts::TAU;

use counterpoise::audio::{Bank, SampleRate, Voice, tone, voice};
use ebur128::{EbuR128, Mode};

/// What the clips are leveled to: the loudest 400 ms, in LUFS (judgment; the manifest says the same).
const TARGET: f64 = -20.0;

/// Samples of a sine of so many dBFS (peak) and seconds.
fn sine(hz: f64, dbfs: f64, seconds: f64) -> impl Iterator<Item = f32> {
    let peak = 10_f64.powf(dbfs / 20.0);
    (0..(seconds * 48_000.0) as u64).map(move |n| (peak * (TAU * hz * n as f64 / 48_000.0).sin()) as f32)
}

/// Momentary, short-term and integrated loudness at the end of these stretches of a 1 kHz sine in both channels.
fn stereo(stretches: &[(f64, f64)]) -> (f64, f64, f64) {
    let mut meter = EbuR128::new(2, 48_000, Mode::M | Mode::S | Mode::I).unwrap();
    for &(dbfs, seconds) in stretches {
        let both: Vec<f32> = sine(1_000.0, dbfs, seconds).flat_map(|sample| [sample, sample]).collect();
        meter.add_frames_f32(&both).unwrap();
    }
    let short = meter.loudness_shortterm().unwrap();
    (meter.loudness_momentary().unwrap(), short, meter.loudness_global().unwrap())
}

fn near(found: f64, expected: f64) -> bool {
    (found - expected).abs() <= 0.1
}

#[test]
fn the_meter_agrees_with_ebu_tech_3341() {
    for level in [-23.0, -33.0] {
        let (momentary, short, integrated) = stereo(&[(level, 20.0)]);
        assert!(near(momentary, level) && near(short, level) && near(integrated, level), "{level}");
    }
    let gated: [&[(f64, f64)]; 3] = [
        &[(-36.0, 10.0), (-23.0, 60.0), (-36.0, 10.0)],
        &[(-72.0, 10.0), (-36.0, 10.0), (-23.0, 60.0), (-36.0, 10.0), (-72.0, 10.0)],
        &[(-26.0, 20.0), (-20.0, 20.1), (-26.0, 20.0)],
    ];
    for stretches in gated {
        let integrated = stereo(stretches).2;
        assert!(near(integrated, -23.0), "{stretches:?}: {integrated}");
    }
    // ITU-R BS.1770: 997 Hz at full scale in one channel reads -3.01.
    let mut meter = EbuR128::new(1, 48_000, Mode::I).unwrap();
    meter.add_frames_f32(&sine(997.0, 0.0, 20.0).collect::<Vec<_>>()).unwrap();
    assert!(near(meter.loudness_global().unwrap(), -3.01));
}

/// The loudest 400 ms in LUFS (silence around the sound counts as such), and the true peak in dB.
fn measure(samples: &[i16]) -> (f64, f64) {
    let mut meter = EbuR128::new(1, 48_000, Mode::M | Mode::TRUE_PEAK).unwrap();
    let silence = vec![0_i16; 19_200];
    let mut loudest = f64::NEG_INFINITY;
    for part in [&silence[..], samples, &silence].into_iter().flat_map(|part| part.chunks(480)) {
        meter.add_frames_i16(part).unwrap();
        loudest = loudest.max(meter.loudness_momentary().unwrap());
    }
    (loudest, 20.0 * meter.true_peak(0).unwrap().log10())
}

/// A tone for somebody who has a hand on a person at that moment (judgment).
#[test]
fn the_tone_that_says_now_is_softer_by_six_units() {
    let (loudest, peak) = measure(tone::moment(SampleRate::HZ_48000).samples());
    assert!(near(loudest, TARGET - 6.0), "{loudest:.2} LUFS");
    assert!(peak <= -7.0, "{peak:.2} dBTP");
}

#[test]
fn every_sound_is_equally_loud_and_none_clips() {
    for voice in Voice::ALL {
        let bank = Bank::load(SampleRate::HZ_48000, voice, voice::ids()).unwrap();
        for id in voice::ids() {
            let (loudest, peak) = measure(bank.get(id).unwrap().samples());
            let allowed = if voice == Voice::Tones { 0.1 } else { 0.5 };
            assert!((loudest - TARGET).abs() <= allowed, "{id}, {voice}: {loudest:.2} LUFS");
            assert!(peak <= -1.0, "{id}, {voice}: {peak:.2} dBTP");
        }
    }
}
