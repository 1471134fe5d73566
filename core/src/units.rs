//! Lengths and positions in whole milliseconds and in frames. Moments of a day are the shell's to read.

mod frame;
mod millis;

pub use frame::{Frame, Frames, SampleRate};
pub use millis::Millis;
