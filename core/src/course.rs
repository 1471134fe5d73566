//! From one practice to the next: what was recorded, which day is due, which step comes next, and how it is going.

pub mod history;
pub mod past;
pub mod printed_sheet;
pub mod program;
pub mod progress;
pub mod progression;
pub mod safeguard;
pub mod standing;
pub mod summaries;
pub mod trainee;
pub mod trend;
