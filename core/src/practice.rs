//! One session: its states and questions, which sound belongs on which frame, warm-up and cool-down, balance tests led
//! by voice, whom to call in an emergency, and the same practice as a track.

pub mod emergency;
pub mod guide;
pub mod missed;
pub mod partner_questions;
pub mod placing;
pub mod pose;
pub mod routine;
pub mod session;
pub mod track;
