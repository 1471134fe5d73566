//! How well could a guesser do?
pub mod delivered;
pub mod estimators;
pub mod rule;
pub mod wait;

pub use delivered::Delivered;
pub use estimators::{Estimator, Score};
pub use rule::{Foreseen, Rule};
pub use wait::{Brace, SLOT, Wait, least_expected_hazard};
