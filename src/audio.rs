//! Sound: how are clips played on exact frames of a stream's clock?
//!
//! ```text
//! voice, tone -> Clip        Desk  ==cues==>   Renderer  --samples-->  device | paced | wav
//!                (control)   Desk  <=reports=  Renderer    (audio)
//! ```
//!
//! There are three parties. The [`Desk`] sends cues and reads reports. The [`Renderer`] counts frames and mixes, and never
//! allocates, locks or waits. It is called by a sound card ([`device`]), a steady thread ([`paced`]), or a loop that
//! writes a file ([`wav`]). The practice command has an [`Output`]: a desk together with a device.
//!
//! ```no_run
//! use counterpoise::audio::{Bank, CueEvent, OutputEvent, Voice, device};
//! # fn main() -> Result<(), Box<dyn std::error::Error>> {
//! let mut output = device::open(None)?;
//! let bank = Bank::load(output.rate(), Voice::Lower, ["reach.left"])?;
//! let at = output.now() + output.rate().frames(counterpoise_core::units::Millis(500));
//! output.play(1, bank.get("reach.left").ok_or("just loaded")?, at);
//! while !matches!(output.poll(), Some(OutputEvent::Cue(CueEvent::Finished { id: 1 }))) {}
//! # Ok(())
//! # }
//! ```

mod anchor;
mod clip;
pub mod decode;
pub mod desk;
pub mod device;
mod output;
pub mod paced;
pub mod renderer;
mod speaker;
mod supervisor;
pub mod tone;
pub mod voice;
pub mod wav;

pub use clip::Clip;
pub use counterpoise_core::units::{Frame, Frames, SampleRate};
pub use desk::{CueEvent, Desk};
pub use output::{Facts, Output, OutputEvent};
pub use renderer::Renderer;
pub use speaker::{LEAD_IN, Speaker};
pub use voice::{Bank, BankError, Voice};
pub use wav::{WavError, render_wav};

/// Why a sound output could not be used.
#[derive(Debug, thiserror::Error)]
pub enum AudioError {
    /// The system has no sound system that can be used.
    #[error("this computer's sound system could not be used ({why})")]
    NoHost {
        /// The system's message.
        why: String,
    },
    /// The device is not there or could not be opened.
    #[error("no sound output could be opened: {device} ({why})")]
    NoDevice {
        /// The device that was tried.
        device: String,
        /// The system's message.
        why: String,
    },
    /// The device that was asked for is not listed.
    #[error("there is no sound output named {id}")]
    NoSuchDevice {
        /// The id as it was given.
        id: String,
    },
    /// Another program has the device.
    #[error("another program is using the sound device ({device})")]
    Busy {
        /// The device.
        device: String,
    },
    /// The device takes only samples in a format that is not supported.
    #[error("{device} takes only {format} samples")]
    Format {
        /// The device.
        device: String,
        /// The sample format that it takes.
        format: String,
    },
    /// The system starts no more threads.
    #[error("the sound could not be started: {0}")]
    Thread(std::io::Error),
}

impl AudioError {
    /// What to try, as one or two sentences.
    ///
    /// ```
    /// use counterpoise::audio::device;
    /// let Err(error) = device::open(Some("nowhere")) else { panic!() };
    /// assert_eq!(error.to_string(), "there is no sound output named nowhere");
    /// assert!(error.hint().contains("counterpoise equipment"));
    /// ```
    pub fn hint(&self) -> &'static str {
        match self {
            Self::NoHost { .. } | Self::NoDevice { .. } => {
                "plug in or turn on headphones or a speaker, or choose an output with --device. \
                 Practice also runs on the screen alone, and \"counterpoise track\" writes a file for a phone."
            }
            Self::NoSuchDevice { .. } | Self::Format { .. } => {
                "\"counterpoise equipment\" lists the outputs; give one of the names in its first column to --device"
            }
            Self::Busy { .. } => "close the other program, or choose another output with --device",
            Self::Thread(_) => "close some programs and try again",
        }
    }
}
