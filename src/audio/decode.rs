//! How do the bytes of a FLAC file become a clip at the stream's rate? Never on the audio thread, since decoding and
//! converting take time and memory.

use std::io::Cursor;

use rodio::{Decoder, Source};
use rubato::audioadapter_buffers::owned::InterleavedOwned;
use rubato::{Fft, FixedSync, Resampler};

use super::clip::Clip;
use counterpoise_core::units::{Frames, SampleRate};

/// Why a sound could not be read.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum DecodeError {
    /// The bytes are not a FLAC file, or not a readable one.
    #[error("not a readable FLAC file ({0})")]
    Unreadable(String),
    /// There is more than one channel.
    #[error("{0} channels where one is expected")]
    Channels(u16),
    /// The end, or a damaged part, is missing.
    #[error("damaged or cut short: {found} of {expected} frames")]
    Incomplete {
        /// Frames that the file's head promises.
        expected: u64,
        /// Frames that could be read.
        found: u64,
    },
    /// The rate could not be converted.
    #[error("cannot be converted from {from} to {to} ({why})")]
    Rate {
        /// The rate of the file.
        from: SampleRate,
        /// The rate of the stream.
        to: SampleRate,
        /// The converter's message.
        why: String,
    },
}

/// The sound of a mono FLAC file, converted to `rate` if it has another one. Its onset is that of the file.
///
/// # Errors
/// If the file cannot be read whole, or is not mono.
pub fn flac(bytes: impl AsRef<[u8]> + Send + Sync + 'static, rate: SampleRate) -> Result<Clip, DecodeError> {
    let length = bytes.as_ref().len() as u64;
    let decoder = Decoder::builder()
        .with_data(Cursor::new(bytes))
        .with_byte_len(length)
        .with_hint("flac")
        .build()
        .map_err(|error| DecodeError::Unreadable(error.to_string()))?;
    if decoder.channels().get() != 1 {
        return Err(DecodeError::Channels(decoder.channels().get()));
    }
    let from = SampleRate::new(decoder.sample_rate().get())
        .ok_or_else(|| DecodeError::Unreadable("a rate of 0 Hz".to_owned()))?;
    let promised = decoder.total_duration();
    // 16-bit samples come back exactly: a 32-bit float holds 24 bits.
    let samples: Vec<i16> = decoder.map(|sample| (sample * 32_768.0).round() as i16).collect();
    if let Some(promised) = promised {
        let expected = (promised.as_secs_f64() * f64::from(from.hz())).round() as u64;
        if expected != samples.len() as u64 {
            return Err(DecodeError::Incomplete { expected, found: samples.len() as u64 });
        }
    }
    let clip = Clip::new(samples);
    if from == rate {
        return Ok(clip);
    }
    let onset = (clip.onset().0 * u64::from(rate.hz()) + u64::from(from.hz()) / 2) / u64::from(from.hz());
    Ok(Clip::with_onset(convert(clip.samples(), from, rate)?, Frames(onset)))
}

/// `samples` at another rate, by a windowed-sinc filter: what is no longer representable is removed, not folded down.
///
/// # Errors
/// If the converter refuses the pair of rates.
pub fn convert(samples: &[i16], from: SampleRate, to: SampleRate) -> Result<Vec<i16>, DecodeError> {
    if from == to || samples.is_empty() {
        return Ok(samples.to_vec());
    }
    let refused = |why: &dyn std::fmt::Display| DecodeError::Rate { from, to, why: why.to_string() };
    let length = samples.len();
    let input: Vec<f32> = samples.iter().copied().map(f32::from).collect();
    let input = InterleavedOwned::new_from(input, 1, length).map_err(|error| refused(&error))?;
    let mut converter = Fft::<f32>::new(from.hz() as usize, to.hz() as usize, 1024, 1, FixedSync::Both)
        .map_err(|error| refused(&error))?;
    let output = converter.process_all(&input, length, None).map_err(|error| refused(&error))?;
    // `as` stops at the ends of the range.
    Ok(output.take_data().into_iter().map(|sample| sample.round() as i16).collect())
}

#[cfg(test)]
mod test;
