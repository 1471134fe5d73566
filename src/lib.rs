//! Counterpoise: balance practice whose next cue nobody in the room can predict, within a therapist's limits.
//!
//! ```text
//! prescription (TOML) --> schedule (cues at offsets) --> session (events in, effects out) --> voice, screen, track
//!                                                            |
//!                                                            v
//!              program, progression <-- past <-- journal <-- record
//! ```
//!
//! Read in this order: [`prescription`], [`schedule`], [`session`], [`audio::renderer`], then the practice command
//! in [`cli`]. The first group of modules is values in, values out; `audio` is pure but real-time; the rest touches
//! one outside thing each. `tests/laws.rs` keeps it so.
#![forbid(unsafe_code)]

// Core: values in, values out.
pub mod assessment;
pub mod bounds;
pub mod caution;
pub mod direction;
pub mod drill;
pub mod guide;
pub mod lock;
pub mod millis;
pub mod overview;
pub mod page;
pub mod past;
pub mod phrase;
pub mod place;
pub mod placing;
pub mod predictability;
pub mod prescribing;
pub mod prescription;
pub mod program;
pub mod progress;
pub mod progression;
pub mod readiness;
pub mod record;
pub mod report;
pub mod routine;
pub mod schedule;
pub mod session;
pub mod standing;
pub mod suitability;
pub mod track;
mod words;

// Sound: pure but real-time.
pub mod audio;

// Shell: one outside thing each.
pub mod cli;
pub mod clock;
pub mod display;
pub mod entropy;
pub mod handover;
pub mod journal;
pub mod practice;
pub mod settings;
