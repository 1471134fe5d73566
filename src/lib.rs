//! The program around `counterpoise-core`: each module talks to one thing outside, such as the sound card or a file.
//!
//! ```text
//! prescription (TOML) --> schedule (cues at offsets) --> session (events in, effects out) --> voice, screen, track
//!                                                            |
//!                                                            v
//!              program, progression <-- past <-- journal <-- record
//! ```
//!
//! All decisions are made in `counterpoise_core`. The modules here are sound ([`audio`]), the terminal ([`display`]), the
//! journal's file ([`journal`]), the clock, the system's random numbers, and the commands ([`cli`]). `tests/laws.rs`
//! checks this split.
#![forbid(unsafe_code)]

pub mod audio;
pub mod cli;
pub mod clock;
pub mod display;
pub mod entropy;
pub mod handover;
pub mod journal;
pub mod practice;
pub mod settings;
