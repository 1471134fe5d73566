//! What a crash or a power cut left open is closed as interrupted, dated by the last thing that was kept of it.
//! Called only with the lock: a session without an end may be going on elsewhere otherwise.

use rusqlite::{Connection, TransactionBehavior};

use super::keep::{insert_session_end, insert_set_end};
use super::read;
use super::row::SetEndRow;
use super::timestamp::Stamp;
use counterpoise_core::record::{SessionEnd, SetEnd};

/// Closes every set and session without an end, and says how many sessions that were.
pub(super) fn close(db: &mut Connection) -> rusqlite::Result<usize> {
    let change = db.transaction_with_behavior(TransactionBehavior::Immediate)?;
    let mut closed = 0;
    for id in read::ids(&change)? {
        let open = "SELECT NOT EXISTS (SELECT 1 FROM session_ends WHERE session = ?)";
        if !change.prepare_cached(open)?.query_row([id.as_str()], |row| row.get::<_, bool>(0))? {
            continue;
        }
        let session = read::session(&change, &id)?;
        let mut last = session.start.begun.clone();
        let mut later = |at: &Stamp| {
            if at.ms() > last.ms() {
                last = at.clone();
            }
        };
        for set in &session.sets {
            let end = match &set.end {
                Some(end) => end.clone(),
                None => {
                    let end = last_sign(set);
                    insert_set_end(&change, id.as_str(), set.start.number, &end)?;
                    end
                }
            };
            later(&end.at);
        }
        insert_session_end(&change, id.as_str(), &last, SessionEnd::Interrupted)?;
        closed += 1;
    }
    change.commit()?;
    Ok(closed)
}

/// The work that is known to have been done: up to the last cue delivered or the last pause. How long the pauses
/// were is not kept, so that the moment may be too early; it is never too late.
fn last_sign(set: &read::SetRecord) -> SetEndRow {
    let delivered = set.delivered.iter().map(super::row::DeliveryRow::at_ms);
    let paused = set.plans.iter().filter_map(|plan| plan.paused_at_ms);
    let worked_ms = delivered.chain(paused).max().unwrap_or(0);
    SetEndRow { at: set.start.begun.plus(i64::from(worked_ms)), worked_ms, why: SetEnd::Interrupted }
}
