//! The program around `counterpoise-core`: one outside thing each.
//!
//! ```text
//! prescription (TOML) --> schedule (cues at offsets) --> session (events in, effects out) --> voice, screen, track
//!                                                            |
//!                                                            v
//!              program, progression <-- past <-- journal <-- record
//! ```
//!
//! What is decided, is decided in `counterpoise_core`. Here are sound ([`audio`], pure but real-time), the terminal
//! ([`display`]), the journal's file ([`journal`]), the clock, the system's random numbers, and the commands ([`cli`]).
//! `tests/laws.rs` keeps it so.
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
