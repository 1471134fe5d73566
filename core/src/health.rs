//! Whether this person may practice, today and at all, and within which limits.

pub mod assessment;
pub mod bounds;
pub mod lock;
pub mod readiness;
pub mod suitability;
pub mod yes_no;
