//! How well could anybody predict the calls of a prescription, or of a list that somebody made up? Exact where the rules
//! can be counted; beside it, what a learner makes of drawn calls.
//!
//! ```text
//! gap table -> wait -> conditioned_waits ---\
//! rules -----> rule -> calls ----------------+-> foresight -> findings -\
//!                                            |                          +-> audit (JSON), audit_page (blocks)
//! drawn sessions -> symbols -> estimators -> learning ------------------/
//! a list -> own_list
//! ```
//!
//! `docs/audit.md` has the formulas, the thresholds and their sources.

pub mod attribute_guess;
pub mod audit;
pub mod audit_page;
pub mod calls;
pub mod conditioned_waits;
pub mod durations;
pub mod estimators;
pub mod findings;
pub mod foresight;
pub mod interval;
pub mod learning;
pub mod own_list;
pub mod rule;
pub mod second_draw;
pub mod symbols;
pub mod wait;

pub use audit::Audit;
pub use calls::Calls;
pub use conditioned_waits::ConditionedWaits;
pub use estimators::{Estimator, Score};
pub use foresight::Foresight;
pub use interval::Interval;
pub use learning::{Learning, Task};
pub use own_list::{List, ListError, OwnList};
pub use rule::{HitChances, Rule};
pub use second_draw::SecondDraw;
pub use symbols::{Kind, Sequence, SequenceCollector};
pub use wait::{Brace, SLOT, Wait, least_expected_hazard};
