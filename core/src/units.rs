//! Durations and positions in whole milliseconds and in frames. Reading the time of day is left to the program.

mod frame;
mod millis;

pub use frame::{Frame, Frames, SampleRate};
pub use millis::Millis;
