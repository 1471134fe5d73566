//! How a session ended that a crash or a power cut left open: dated by the last thing that was kept of it.

use super::{DeliveryRow, Entry, SessionEnd, SessionRecord, SetEnd, SetEndRow, SetRecord};

impl SessionRecord {
    /// The session with the ends that it lacks, where nothing more can come.
    pub fn interrupt(&mut self) {
        for entry in self.interruption() {
            match entry {
                Entry::SetEnded { set, end } => {
                    if let Some(one) = self.sets.iter_mut().find(|one| one.start.number == set) {
                        one.end = Some(end);
                    }
                }
                Entry::SessionEnded { at, why } => self.end = Some(self.figures(at, why)),
                _ => {}
            }
        }
    }

    /// The ends that it lacks, of its sets and its own, where nothing more can come.
    pub fn interruption(&self) -> Vec<Entry> {
        let (mut at, mut entries) = (self.start.begun.clone(), Vec::new());
        for set in &self.sets {
            let end = set.end.clone().unwrap_or_else(|| {
                let end = last_sign(set);
                entries.push(Entry::SetEnded { set: set.start.number, end: end.clone() });
                end
            });
            if end.at.ms() > at.ms() {
                at = end.at;
            }
        }
        entries.push(Entry::SessionEnded { at, why: SessionEnd::Interrupted });
        entries
    }
}

/// The work that is known to have been done: up to the last cue delivered or the last pause. How long the pauses
/// were is not kept, so that the moment may be too early; it is never too late.
fn last_sign(set: &SetRecord) -> SetEndRow {
    let delivered = set.delivered.iter().map(DeliveryRow::at_ms);
    let paused = set.plans.iter().filter_map(|plan| plan.paused_at_ms);
    let worked_ms = delivered.chain(paused).max().unwrap_or(0).min(set.start.work_ms);
    SetEndRow { at: set.start.begun.plus(i64::from(worked_ms)), worked_ms, why: SetEnd::Interrupted }
}
