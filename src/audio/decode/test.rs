use realfft::RealFftPlanner;

use super::*;
use crate::audio::{Voice, voice};

const STUDIO: SampleRate = SampleRate::HZ_48000;

fn word() -> &'static [u8] {
    Voice::Lower.flac("reach.left").unwrap()
}

#[test]
fn what_is_cut_short_or_damaged_is_refused() {
    assert!(flac(word(), STUDIO).unwrap().length().0 > 20_000);
    assert!(matches!(flac(b"RIFF and so on".to_vec(), STUDIO), Err(DecodeError::Unreadable(_))));
    assert!(matches!(flac(Vec::new(), STUDIO), Err(DecodeError::Unreadable(_))));
    let half = word()[..word().len() / 2].to_vec();
    assert!(matches!(flac(half, STUDIO), Err(DecodeError::Incomplete { .. })));
    let mut damaged = word().to_vec();
    let middle = damaged.len() / 2;
    damaged[middle..middle + 64].fill(0xAA);
    assert!(
        matches!(flac(damaged, STUDIO), Err(DecodeError::Incomplete { .. })),
        "each frame carries a checksum"
    );
}

/// Magnitude in dB of full scale of the strongest part within `range` Hz, of the middle second.
fn level(samples: &[i16], rate: SampleRate, range: std::ops::Range<usize>) -> f64 {
    let second = rate.hz() as usize;
    let middle = &samples[samples.len() / 2 - second / 2..][..second];
    // A Hann window, so that a tone stays within its bins.
    let window = |n: usize| 1.0 - (std::f64::consts::TAU * n as f64 / second as f64).cos();
    let mut input: Vec<f64> = (0..).zip(middle).map(|(n, &s)| f64::from(s) / 32_768.0 * window(n)).collect();
    let plan = RealFftPlanner::new().plan_fft_forward(second);
    let mut output = plan.make_output_vec();
    plan.process(&mut input, &mut output).unwrap();
    let strongest = output[range].iter().map(|bin| bin.norm()).fold(0.0, f64::max);
    20.0 * (strongest * 2.0 / second as f64).log10()
}

#[test]
fn a_converted_tone_keeps_its_level_and_its_images_are_60_db_down() {
    for (from, to, tone) in [(24_000, 48_000, 7_000), (48_000, 44_100, 7_000), (48_000, 96_000, 15_000)] {
        let wave = |n: usize| (f64::from(tone) * n as f64 * std::f64::consts::TAU / f64::from(from)).sin();
        let samples: Vec<i16> = (0..from as usize * 2).map(|n| (wave(n) * 16_384.0).round() as i16).collect();
        let (from, to) = (SampleRate::new(from).unwrap(), SampleRate::new(to).unwrap());
        let converted = convert(&samples, from, to).unwrap();
        let tone = tone as usize;
        let kept = level(&converted, to, tone - 5..tone + 5);
        assert!((kept - -6.02).abs() < 0.1, "{from} to {to}: {kept} dB");
        let image =
            level(&converted, to, 20..tone - 20).max(level(&converted, to, tone + 20..to.hz() as usize / 2));
        assert!(image < kept - 60.0, "{from} to {to}: an image at {} dB", image - kept);
    }
    // Too high for the new rate: removed, not folded down.
    let high: Vec<i16> = (0..96_000)
        .map(|n| ((f64::from(n) * 23_000.0 / 48_000.0 * std::f64::consts::TAU).sin() * 16_384.0) as i16)
        .collect();
    let low = convert(&high, STUDIO, SampleRate::new(44_100).unwrap()).unwrap();
    assert!(level(&low, SampleRate::new(44_100).unwrap(), 20..22_050) < -66.0);
}

#[test]
fn conversion_moves_no_sound_by_more_than_a_frame() {
    for hz in [16_000_u32, 44_100, 88_200, 96_000, 192_000] {
        let rate = SampleRate::new(hz).unwrap();
        let place = |frame: usize| frame as f64 * f64::from(hz) / 48_000.0;
        for at in [3, 240, 5_000, 5_001, 47_000] {
            let mut click = vec![0_i16; 48_000];
            click[at] = 30_000;
            let converted = convert(&click, STUDIO, rate).unwrap();
            assert!((converted.len() as f64 - place(48_000)).abs() <= 1.0);
            let peak = (0..converted.len()).max_by_key(|&n| converted[n].unsigned_abs()).unwrap();
            assert!((peak as f64 - place(at)).abs() <= 1.0, "{at} at {hz}: {peak}");
        }
    }
}

#[test]
fn every_clip_keeps_its_onset_at_44_100_hz() {
    let cd = SampleRate::new(44_100).unwrap();
    for id in voice::ids() {
        let bytes = Voice::Higher.flac(id).unwrap();
        let (here, there) = (flac(bytes, STUDIO).unwrap(), flac(bytes, cd).unwrap());
        let (expected, found) = (here.onset().0 as f64 * 44_100.0 / 48_000.0, there.onset().0 as f64);
        assert!((found - expected).abs() <= 0.5, "{id}: {found}, expected {expected}");
        // What rings before it is far below the threshold of hearing beside a word: -54 dB of full scale at most.
        let before = there.samples()[..there.onset().0 as usize].iter().map(|s| s.unsigned_abs()).max();
        assert!(before.unwrap_or(0) < 66, "{id}: {before:?}");
    }
}
