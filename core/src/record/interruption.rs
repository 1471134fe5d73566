//! How a session ended that a crash or a power cut left open: dated by the last thing that was kept of it.

use super::{DeliveryRow, SessionRecord, SetEnd, SetEndRow, SetRecord, Stamp};

/// The ends that a session lacks.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Interruption {
    /// When it was interrupted, as far as is known.
    pub at: Stamp,
    /// The ends of its sets that have none, by their numbers.
    pub sets: Vec<(u8, SetEndRow)>,
}

impl Interruption {
    /// Of a session without an end.
    pub fn of(session: &SessionRecord) -> Self {
        let (mut at, mut sets) = (session.start.begun.clone(), Vec::new());
        for set in &session.sets {
            let end = set.end.clone().unwrap_or_else(|| {
                let end = last_sign(set);
                sets.push((set.start.number, end.clone()));
                end
            });
            if end.at.ms() > at.ms() {
                at = end.at;
            }
        }
        Self { at, sets }
    }
}

/// The work that is known to have been done: up to the last cue delivered or the last pause. How long the pauses
/// were is not kept, so that the moment may be too early; it is never too late.
fn last_sign(set: &SetRecord) -> SetEndRow {
    let delivered = set.delivered.iter().map(DeliveryRow::at_ms);
    let paused = set.plans.iter().filter_map(|plan| plan.paused_at_ms);
    let worked_ms = delivered.chain(paused).max().unwrap_or(0);
    SetEndRow { at: set.start.begun.plus(i64::from(worked_ms)), worked_ms, why: SetEnd::Interrupted }
}
