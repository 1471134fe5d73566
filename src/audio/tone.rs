//! How do the tones sound? One for every cue, a double one for everything else, and a soft one that tells a partner "now".
//! They are calculated, for people who prefer a tone to a voice.
//!
//! Old ears lose the high notes first, and a pure note may be inaudible to an ear or in a room. So the tones have a
//! fundamental of 500-1000 Hz with harmonics, nothing above 2 kHz (ISO 24501:2010 and MIL-STD-1472E, by way of
//! `docs/audio.md`), at least 200 ms, and edges of 10-20 % of the pulse (rationale of IEC 60601-1-8), so
//! that nothing clicks or startles.

use std::f64::consts::TAU;

use super::clip::Clip;
use counterpoise_core::units::SampleRate;

/// One pulse of sound.
struct Pulse {
    /// Its lowest note, in Hz.
    fundamental: f64,
    /// The strength of each harmonic, the fundamental first.
    harmonics: &'static [f64],
    /// How long it lasts, in seconds.
    length: f64,
    /// How long it takes to rise and to fall, as a share of the length.
    edge: f64,
    /// Peak of the fundamental, of full scale. Chosen so that the tone's loudest 400 ms are as loud as the clips'
    /// (-20 LUFS; `tests/program/loudness.rs`).
    level: f64,
}

/// For any cue: 659 Hz (an E), with two harmonics.
const ALERT: Pulse =
    Pulse { fundamental: 659.26, harmonics: &[1.0, 0.5, 0.35], length: 0.6, edge: 0.1, level: ALERT_LEVEL };

/// For anything else, twice: 523 Hz (a C), rounder and softer at its edges.
const NOTICE: Pulse =
    Pulse { fundamental: 523.25, harmonics: &[1.0, 0.3], length: 0.2, edge: 0.2, level: NOTICE_LEVEL };

/// "Now", in a partner's ear: 587 Hz (a D), short, and 6 LU softer than the rest (-26 LUFS), so that somebody who has a hand
/// on a person is not startled \[judgment\].
const MOMENT: Pulse =
    Pulse { fundamental: 587.33, harmonics: &[1.0, 0.3], length: 0.2, edge: 0.2, level: MOMENT_LEVEL };

const ALERT_LEVEL: f64 = 0.1195;
const NOTICE_LEVEL: f64 = 0.176;
const MOMENT_LEVEL: f64 = 0.1173;

/// Between the two notices, in seconds.
const PAUSE: f64 = 0.08;
/// Silence after them, in seconds: several in a row are told apart and counted by ear (five times the pause within;
/// judgment), and one still ends within a second.
const AFTER: f64 = 0.4;

/// The tone for any cue.
pub fn alert(rate: SampleRate) -> Clip {
    let mut samples = Vec::new();
    ALERT.sound(rate, &mut samples);
    Clip::new(samples)
}

/// The double tone for announcements and counts: it ends within a second, so that counts stay apart.
pub fn notice(rate: SampleRate) -> Clip {
    let mut samples = Vec::new();
    NOTICE.sound(rate, &mut samples);
    samples.resize(samples.len() + (PAUSE * f64::from(rate.hz())) as usize, 0);
    NOTICE.sound(rate, &mut samples);
    samples.resize(samples.len() + (AFTER * f64::from(rate.hz())) as usize, 0);
    Clip::new(samples)
}

/// The tone that says "now" to a partner: after the words, at the moment itself.
pub fn moment(rate: SampleRate) -> Clip {
    let mut samples = Vec::new();
    MOMENT.sound(rate, &mut samples);
    Clip::new(samples)
}

impl Pulse {
    fn sound(&self, rate: SampleRate, out: &mut Vec<i16>) {
        let hz = f64::from(rate.hz());
        let frames = (self.length * hz) as usize;
        for frame in 0..frames {
            let turn = TAU * self.fundamental * frame as f64 / hz;
            let wave: f64 =
                (1..).zip(self.harmonics).map(|(n, strength)| strength * (f64::from(n) * turn).sin()).sum();
            let sample = wave * self.level * self.envelope(frame as f64 / frames as f64);
            out.push((sample * 32_767.0).round() as i16);
        }
    }

    /// A raised cosine up and down: from 0 to 1 at share `at` of the pulse.
    fn envelope(&self, at: f64) -> f64 {
        let from_edge = at.min(1.0 - at) / self.edge;
        if from_edge >= 1.0 { 1.0 } else { 0.5 - 0.5 * (from_edge * TAU / 2.0).cos() }
    }
}

#[cfg(test)]
mod tests {
    use realfft::RealFftPlanner;

    use super::*;

    /// Power in each bin of 1 Hz (a second of samples, zeros behind the clip).
    fn spectrum(clip: &Clip, rate: SampleRate) -> Vec<f64> {
        let mut input: Vec<f64> = clip.samples().iter().map(|&s| f64::from(s) / 32_768.0).collect();
        input.resize(rate.hz() as usize, 0.0);
        let plan = RealFftPlanner::new().plan_fft_forward(input.len());
        let mut output = plan.make_output_vec();
        plan.process(&mut input, &mut output).unwrap();
        output.iter().map(realfft::num_complex::Complex::norm_sqr).collect()
    }

    #[test]
    fn the_strongest_note_lies_between_500_and_1000_hz_and_nothing_counts_above_2_khz() {
        for hz in [22_050, 44_100, 48_000, 96_000] {
            let rate = SampleRate::new(hz).unwrap();
            for (name, clip) in [("alert", alert(rate)), ("notice", notice(rate)), ("moment", moment(rate))] {
                let power = spectrum(&clip, rate);
                let strongest = (0..power.len()).max_by(|&a, &b| power[a].total_cmp(&power[b])).unwrap();
                assert!((500..=1000).contains(&strongest), "{name} at {hz}: {strongest} Hz");
                let (all, above): (f64, f64) = (power.iter().sum(), power[2_000..].iter().sum());
                assert!(10.0 * (above / all).log10() < -30.0, "{name} at {hz}: {}", above / all);
                let harmonics: f64 = power[900..2_000].iter().sum();
                assert!(10.0 * (harmonics / all).log10() > -20.0, "{name} at {hz} is not a bare note");
            }
        }
    }

    #[test]
    fn a_tone_is_long_enough_and_its_edges_are_soft() {
        for pulse in [&ALERT, &NOTICE, &MOMENT] {
            assert!(pulse.length >= 0.2);
            assert!((0.1..=0.2).contains(&pulse.edge));
            let (mut samples, rate) = (Vec::new(), SampleRate::HZ_48000);
            pulse.sound(rate, &mut samples);
            let peak = samples.iter().map(|s| s.unsigned_abs()).max().unwrap();
            let edge = (pulse.edge * samples.len() as f64) as usize;
            // Half way up the rise the envelope is at one half; a tenth of the way it is at 2.4 %.
            let start = samples[..edge / 10].iter().chain(&samples[samples.len() - edge / 10..]);
            assert!(start.map(|s| s.unsigned_abs()).max().unwrap() < peak / 20);
        }
    }

    #[test]
    fn the_two_tones_differ_in_length_and_rhythm() {
        let rate = SampleRate::HZ_48000;
        // In ms; what is shorter is within a wave or its edge.
        let silences = |clip: &Clip| -> Vec<usize> {
            let inside = &clip.samples()[clip.onset().0 as usize..];
            inside.split(|&s| s != 0).map(|run| run.len() / 48).filter(|ms| *ms >= 10).collect()
        };
        assert_eq!(silences(&notice(rate)), [80, 400], "two pulses, and what tells them from the next two");
        assert_eq!(silences(&alert(rate)), [0; 0], "one pulse");
        assert!(notice(rate).length() < rate.frames(counterpoise_core::units::Millis(1000)));
    }
}
