//! The rules, the drawing and the record of a practice: values in, values out.
//!
//! Nothing here reads a clock, a file, the environment, a terminal, a thread or the system's random numbers: the time,
//! the seed and what was kept are arguments. So the program in the terminal and a page in a browser draw, ask, decide
//! and report alike.
//!
//! The rooms, each above those that it uses:
//!
//! ```text
//! report        what was done, for a therapist; many people at a glance
//! prescribing   a prescription written question by question
//! course        from one practice to the next: past, trainee, program, progression, progress
//! practice      one session: its states and questions, its routines, balance tests, tracks
//! record        what is kept of a session
//! health        may this person practice, and within which limits
//! draw          a plan and a seed -> cues at offsets; how well a guesser could do
//! plan          what may be practiced: prescription, drills, limits, directions, phrases
//! blocks, units what every page is made of; milliseconds and frames
//! ```
//!
//! Read in this order: [`plan::prescription`], [`draw::schedule`], [`practice::session`], [`course::progression`].
#![forbid(unsafe_code)]

pub mod blocks;
pub mod course;
pub mod draw;
pub mod health;
pub mod plan;
pub mod practice;
pub mod prescribing;
pub mod record;
pub mod report;
pub mod units;
pub mod words;
