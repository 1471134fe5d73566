//! Closes as interrupted what a crash or a power cut left open. Only called with the lock, since without it the session may
//! still be running elsewhere.

use rusqlite::{Connection, TransactionBehavior};

use super::keep::{insert_session_end, insert_set_end};
use super::read;
use counterpoise_core::record::{Interruption, SessionEnd};

/// Closes every set and session without an end, and says how many sessions that were.
pub(super) fn close(db: &mut Connection) -> rusqlite::Result<usize> {
    let change = db.transaction_with_behavior(TransactionBehavior::Immediate)?;
    let mut closed = 0;
    for id in read::ids(&change)? {
        let open = "SELECT NOT EXISTS (SELECT 1 FROM session_ends WHERE session = ?)";
        if !change.prepare_cached(open)?.query_row([id.as_str()], |row| row.get::<_, bool>(0))? {
            continue;
        }
        let Interruption { at, sets } = Interruption::of(&read::session(&change, &id)?);
        for (number, end) in &sets {
            insert_set_end(&change, id.as_str(), *number, end)?;
        }
        insert_session_end(&change, id.as_str(), &at, SessionEnd::Interrupted)?;
        closed += 1;
    }
    change.commit()?;
    Ok(closed)
}
