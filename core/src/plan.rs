//! What may be practiced: a prescription within its limits, the drills it names, and the words used to call them.

pub mod caution;
pub mod convolution;
pub mod counts;
pub mod direction;
pub mod drill;
pub mod explanation;
pub mod gaps;
pub mod health_topic;
pub mod limb;
pub mod phrase;
pub mod place;
pub mod precaution;
pub mod prescription;
