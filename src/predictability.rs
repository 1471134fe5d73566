//! How well could anybody foresee the calls of a prescription, or of a list that somebody made up? Exact where the rules
//! can be counted, and what a learner makes of drawn calls beside it. Nothing here draws a session or shows a page.
//!
//! ```text
//! gap table --> wait --> delivered -----\
//! rules ------> rule --> calls ----------+--> foresight --> verdict --\
//!                                        |                            +--> audit (JSON), report (a page of blocks)
//! drawn sessions --> drawn --> estimators --> learned ---------------/
//! a list --> own
//! ```
//!
//! `docs/audit.md` has the formulas, the thresholds and their sources.

pub mod audit;
pub mod besides;
pub mod calls;
pub mod delivered;
pub mod drawn;
pub mod estimators;
pub mod foresight;
pub mod interval;
pub mod lasting;
pub mod learned;
pub mod own;
pub mod report;
pub mod rule;
pub mod verdict;
pub mod wait;

pub use audit::Audit;
pub use calls::Calls;
pub use delivered::Delivered;
pub use drawn::{Drawn, Kind, Sequence};
pub use estimators::{Estimator, Score};
pub use foresight::Foresight;
pub use interval::Interval;
pub use learned::{Learned, Task};
pub use own::{List, ListError, Own};
pub use rule::{Foreseen, Rule};
pub use wait::{Brace, SLOT, Wait, least_expected_hazard};
