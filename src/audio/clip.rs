//! What is one sound in memory? Its samples, and the place in them at which it begins to be heard.

use std::sync::Arc;

use counterpoise_core::units::{Frame, Frames, SampleRate};

/// A sample is heard from this size on: -60 dB below full scale (32,768), the definition of the cue sheet.
const AUDIBLE: u16 = 33;

/// A mono sound at the stream's rate. A copy is a handle: the samples are shared.
///
/// ```
/// use counterpoise::audio::{Clip, Frame, Frames};
/// let clip = Clip::new(vec![0, 3, -9000, 12]);
/// assert_eq!(clip.onset(), Frames(2), "the first sample above -60 dB");
/// assert_eq!(clip.start_for(Frame(100)), Frame(98), "so that the onset is at frame 100");
/// ```
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Clip {
    samples: Arc<[i16]>,
    onset: Frames,
}

impl Clip {
    /// The sound of these samples. Its onset is the first sample above -60 dB of full scale; silence has it at 0.
    pub fn new(samples: impl Into<Arc<[i16]>>) -> Self {
        let samples = samples.into();
        let onset = samples.iter().position(|sample| sample.unsigned_abs() >= AUDIBLE).unwrap_or(0);
        Self { samples, onset: Frames(onset as u64) }
    }

    /// The sound of these samples, whose onset is known: a converter's filter rings a little before it.
    pub(super) fn with_onset(samples: impl Into<Arc<[i16]>>, onset: Frames) -> Self {
        let samples = samples.into();
        let onset = onset.min(Frames(samples.len().saturating_sub(1) as u64));
        Self { samples, onset }
    }

    /// The samples.
    pub fn samples(&self) -> &[i16] {
        &self.samples
    }

    /// From the first sample to the first one that is heard.
    pub fn onset(&self) -> Frames {
        self.onset
    }

    /// From the first sample to the end.
    pub fn length(&self) -> Frames {
        Frames(self.samples.len() as u64)
    }

    /// The frame of the first sample if the onset is at `at`.
    pub fn start_for(&self, at: Frame) -> Frame {
        at - self.onset
    }

    /// How long it lasts at `rate`.
    pub fn duration(&self, rate: SampleRate) -> std::time::Duration {
        rate.duration(self.length())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_onset_is_the_first_sample_above_minus_60_db() {
        assert!(20.0 * (f64::from(AUDIBLE) / 32_768.0).log10() > -60.0);
        assert!(20.0 * (f64::from(AUDIBLE - 1) / 32_768.0).log10() < -60.0);
        assert_eq!(Clip::new(vec![0, 32, -32, -33, 9]).onset(), Frames(3));
        assert_eq!(Clip::new(vec![i16::MIN]).onset(), Frames(0));
        assert_eq!(Clip::new(vec![0; 9]).onset(), Frames(0));
    }
}
