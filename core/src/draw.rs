//! From a plan and a seed to cues at offsets, and how well a guesser could predict them.

pub mod predictability;
pub mod schedule;
