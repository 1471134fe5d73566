//! How well could a guesser do?
pub mod estimators;

pub use estimators::{Estimator, Score};
