//! The journal as the rules of progression see it, read fast: the last sessions of each prescription in full, and of all
//! earlier ones what can still lock, count or date. A test holds that the rules decide the same from both. Reports need
//! everything and do not use this.

use std::collections::HashMap;

use rusqlite::{Connection, Row};

use super::table::{all, checked, checked_or_null};
use super::{BY_HAND, Journal, JournalError, Stamp};
use counterpoise_core::course::history::corrected;
use counterpoise_core::course::past::{Lifted, Past, PastSession, PastSet, digest};
use counterpoise_core::health::readiness::Item;
use counterpoise_core::plan::prescription::Digest;
use counterpoise_core::record::{Given, Mishap, Question, Response, SessionId, SetEnd, instant};

/// Of each prescription so many sessions in which a set was begun are read whole \[judgment: generous\]: two clean practices in
/// a row decide, each of two sessions at most.
const WHOLE: usize = 6;

impl Journal {
    /// What the rules need of everything that was practiced, and what was cleared.
    ///
    /// # Errors
    /// If the file cannot be read.
    pub fn recent_past(&self) -> Result<Past, JournalError> {
        self.consistent(|db| {
            let mut sessions = light(db)?;
            let mut seen: HashMap<Digest, usize> = HashMap::new();
            for session in sessions.iter_mut().rev().filter(|session| !session.sets.is_empty()) {
                let of_digest = seen.entry(session.digest).or_default();
                *of_digest += 1;
                if *of_digest <= WHOLE {
                    complete(db, session)?;
                }
            }
            // Corrections are rare: what they are about is read whole.
            let corrections = super::correction::corrections(db)?;
            for session in &mut sessions {
                if corrections.iter().any(|row| row.session.as_str() == session.id) {
                    let Ok(id) = SessionId::try_from(session.id.clone()) else { continue };
                    let record = super::read::session(db, &id)?;
                    if let Some((right, _)) = corrected(&record, &corrections) {
                        *session = right;
                    }
                }
            }
            let clearances = super::fitness::clearances(db)?;
            Ok(Past { sessions, lifted: Lifted::by(&clearances) })
        })
    }
}

/// Adds what was said after sets, what followed pushes, and the steps that were given.
fn complete(db: &Connection, session: &mut PastSession) -> rusqlite::Result<()> {
    let id = session.id.clone();
    let sql = "SELECT drill, form, step FROM given_steps WHERE session = ? ORDER BY nth";
    session.given = all(db, sql, [&id], |row| {
        Ok(Given { drill: row.get(0)?, form: checked(row, 1)?, step: row.get(2)?, ladder: None })
    })?;
    for set in &mut session.sets {
        set.mishaps.clear();
    }
    let sql = "SELECT set_number, question, answer FROM answers WHERE session = ? AND set_number IS NOT NULL ORDER BY place";
    for (number, question, answer) in
        all(db, sql, [&id], |row| Ok((row.get(0)?, checked::<Question>(row, 1)?, row.get(2)?)))?
    {
        session.answer(number, question, answer);
    }
    let mut of = |number: u8, change: &mut dyn FnMut(&mut PastSet)| {
        if let Some(set) = session.sets.iter_mut().find(|set| set.number == number) {
            change(set);
        }
    };
    let sql = "SELECT set_number, response FROM responses WHERE session = ? ORDER BY set_number, cue";
    for (number, response) in
        all(db, sql, [&id], |row| Ok((row.get::<_, u8>(0)?, checked_or_null::<Response>(row, 1)?)))?
    {
        of(number, &mut |set| set.responses.push(response));
    }
    let sql = "SELECT set_number, what FROM mishaps WHERE session = ? ORDER BY place";
    for (number, what) in all(db, sql, [&id], |row| Ok((row.get::<_, u8>(0)?, checked::<Mishap>(row, 1)?)))? {
        of(number, &mut |set| set.mishaps.push(what));
    }
    for number in
        all(db, "SELECT set_number FROM advice WHERE session = ?", [&id], |row| row.get::<_, u8>(0))?
    {
        of(number, &mut |set| set.advised_lower = true);
    }
    let sql = "SELECT set_number, count(*) FROM deliveries d WHERE session = ? AND NOT EXISTS \
               (SELECT 1 FROM cues c WHERE c.session = d.session AND c.set_number = d.set_number AND c.cue = d.cue AND \
               c.blank = 1 AND c.plan = (SELECT max(plan) FROM plans p WHERE p.session = d.session AND \
               p.set_number = d.set_number)) GROUP BY set_number";
    for (number, cues) in all(db, sql, [&id], |row| Ok((row.get::<_, u8>(0)?, row.get::<_, u16>(1)?)))? {
        of(number, &mut |set| set.cues = cues);
    }
    Ok(())
}

/// Every session, with its sets and without what was said after them. A table is read from its beginning to its end: to look
/// each row of another one up in it takes longer.
fn light(db: &Connection) -> rusqlite::Result<Vec<PastSession>> {
    let mut sessions = begun(db)?;
    let place: HashMap<String, usize> =
        sessions.iter().enumerate().map(|(nth, session)| (session.id.clone(), nth)).collect();
    // Rows of a session that is on no day belong to none.
    let of = |row: &Row<'_>| Ok::<_, rusqlite::Error>(place.get(row.get_ref(0)?.as_str()?).copied());
    for (nth, set, ms) in all(
        db,
        "SELECT session, number, drill, form, step, begun_ms FROM sets ORDER BY session, number",
        [],
        |row| {
            Ok((
                of(row)?,
                PastSet::begun(row.get(1)?, row.get(2)?, checked(row, 3)?, row.get(4)?),
                row.get(5)?,
            ))
        },
    )? {
        let Some(session) = nth.map(|nth| &mut sessions[nth]) else { continue };
        session.ended = session.ended.max(instant(ms));
        session.sets.push(set);
    }
    for (nth, number, end, ms) in
        all(db, "SELECT session, set_number, why, ended_ms FROM set_ends", [], |row| {
            Ok((of(row)?, row.get::<_, u8>(1)?, checked::<SetEnd>(row, 2)?, row.get(3)?))
        })?
    {
        let Some(session) = nth.map(|nth| &mut sessions[nth]) else { continue };
        session.ended = session.ended.max(instant(ms));
        if let Some(set) = session.sets.iter_mut().find(|set| set.number == number) {
            set.end = Some(end);
        }
    }
    for (nth, end, ms) in all(db, "SELECT session, why, ended_ms FROM session_ends", [], |row| {
        Ok((of(row)?, checked(row, 1)?, row.get(2)?))
    })? {
        let Some(session) = nth.map(|nth| &mut sessions[nth]) else { continue };
        session.ended = session.ended.max(instant(ms));
        session.end = Some(end);
    }
    for (nth, whole, seen) in
        all(db, "SELECT session, sets_whole, seen_before_ms FROM decisions", [], |row| {
            Ok((of(row)?, row.get(1)?, row.get::<_, Option<i64>>(2)?))
        })?
    {
        let Some(session) = nth.map(|nth| &mut sessions[nth]) else { continue };
        session.sets_whole = whole;
        session.seen_before = seen.map(instant);
    }
    for nth in all(db, "SELECT session FROM tryouts", [], of)?.into_iter().flatten() {
        sessions[nth].tried_out = true;
    }
    // A page whose answers were all good leads nowhere. Further questions are kept with the answer that led to them.
    let sql = "SELECT session, item, is_true FROM readiness WHERE session IN \
               (SELECT session FROM readiness WHERE is_true = 0 OR item = ?) ORDER BY session, nth";
    for (nth, item, is_true) in all(db, sql, [Item::UnwellPassed.name()], |row| {
        Ok((of(row)?, checked::<Item>(row, 1)?, row.get(2)?))
    })? {
        if let Some(nth) = nth {
            sessions[nth].ready.push((item, is_true));
        }
    }
    let sql = "SELECT session, question, answer FROM answers WHERE question IN (?, ?, ?) AND answer IS NOT NULL \
               ORDER BY session, place";
    let asked = [Question::Hurt, Question::WhyStopped, Question::Symptom];
    for (nth, question, answer) in all(db, sql, asked.map(Question::name), |row| {
        Ok((of(row)?, checked::<Question>(row, 1)?, row.get(2)?))
    })? {
        let Some(session) = nth.map(|nth| &mut sessions[nth]) else { continue };
        session.answer(None, question, answer);
    }
    let sql = "SELECT session, set_number FROM mishaps WHERE what = ?1 UNION \
               SELECT session, set_number FROM responses WHERE response = ?2";
    for (nth, number) in all(db, sql, [Mishap::Fall.name(), Response::Fell.name()], |row| {
        Ok((of(row)?, row.get::<_, u8>(1)?))
    })? {
        let Some(session) = nth.map(|nth| &mut sessions[nth]) else { continue };
        if let Some(set) = session.sets.iter_mut().find(|set| set.number == number) {
            set.mishaps.push(Mishap::Fall);
        }
    }
    Ok(sessions)
}

/// What is known of every session from its beginning on, in order.
fn begun(db: &Connection) -> rusqlite::Result<Vec<PastSession>> {
    let sql = "SELECT id, begun, digest, sets_planned, voice FROM sessions ORDER BY begun_ms, id";
    let mut latest: Option<(String, Digest)> = None;
    let sessions = all(db, sql, [], |row| {
        let begun: Stamp = checked(row, 1)?;
        let written = row.get_ref(2)?.as_str()?;
        // Most sessions have the prescription of the one before.
        let digest = match &latest {
            Some((text, digest)) if text == written => *digest,
            _ => digest(written),
        };
        latest = Some((written.to_owned(), digest));
        let by_hand = row.get_ref(4)?.as_str()? == BY_HAND;
        Ok(PastSession::begun(row.get(0)?, &begun, digest, row.get(3)?, by_hand))
    })?;
    Ok(sessions.into_iter().flatten().collect())
}

#[cfg(test)]
mod test {
    use crate::journal::sample::{answer, begun, id, in_memory, keep, moment, set, set_ended};
    use counterpoise_core::record::{Question, SetEnd};

    #[test]
    fn both_readers_take_the_first_that_was_said_where_a_question_was_answered_twice() {
        use Question::{Effort, Grabbed, HeldOn, Hurt, Steadiness, Symptom, Unwell, WhyStopped};
        let said = [
            (Grabbed, [Some(0), Some(1), None]),
            (HeldOn, [None, Some(1), Some(3)]),
            (Effort, [Some(4), Some(9), Some(2)]),
            (Steadiness, [None, Some(5), Some(1)]),
            (Unwell, [Some(1), None, Some(0)]),
            (Hurt, [Some(0), Some(1), Some(1)]),
            (WhyStopped, [None, Some(3), Some(1)]),
            (Symptom, [Some(5), Some(1), None]),
        ];
        let mut answers = Vec::new();
        for (nth, answered) in
            (0..).step_by(8).zip((0..3).map(|nth| said.map(|(what, said)| (what, said[nth]))))
        {
            let rows = (nth..).zip(answered);
            answers.extend(rows.map(|(place, (what, said))| answer(place, Some(1), what, said)));
        }
        // They are read in their order, not in that in which they reached the disk.
        answers.reverse();
        let mut journal = in_memory();
        let set_lines = [
            begun(moment(0)),
            set(1, moment(60_000)),
            set_ended(1, moment(107_000), 47_000, SetEnd::Stopped),
        ];
        keep(&mut journal, &id(1), &set_lines);
        keep(&mut journal, &id(1), &answers);
        let (whole, fast) = (journal.past().unwrap(), journal.recent_past().unwrap());
        assert_eq!(fast, whole);
        let session = &fast.sessions[0];
        assert_eq!((session.hurt, session.why_stopped, session.symptom), (Some(0), Some(3), Some(5)));
        let set = &session.sets[0];
        assert_eq!((set.grabbed, set.held_on, set.effort), (Some(0), Some(1), Some(4)));
        assert_eq!((set.steadiness, set.unwell), (Some(5), Some(1)));
    }
}
