//! Rows into the tables: one line, one commit.

use rusqlite::{Connection, params};

use super::Journal;
use super::fitness::{insert_decision, insert_readiness};
use super::table::{Added, insert, word};
use super::tryout::insert_tryout;
use counterpoise_core::record::{
    AdviceRow, AnswerRow, CueRow, DeliveryRow, DisturbanceRow, LeftOutRow, Line, Mishap, MishapRow, Question,
    Response, ResponseRow, RoutineRow, SessionEnd, SessionId, SessionRow, SetEnd, SetEndRow, SetRow, Stamp,
};

/// Whether a row may be there already.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Try {
    /// It is new: to find it there is a fault of the caller.
    First,
    /// An earlier try may have reached the disk although it was reported as failed, or a file is read again.
    Again,
}

/// Why a line was not kept.
#[derive(Debug, thiserror::Error)]
pub(super) enum NotKept {
    #[error("{0}")]
    Sqlite(#[from] rusqlite::Error),
    #[error("the journal has this entry already, with other content")]
    Twice,
}

impl NotKept {
    /// Whether no later try can succeed, so that what follows must not wait for it.
    pub(super) fn is_final(&self) -> bool {
        use rusqlite::ErrorCode::{ConstraintViolation, TooBig, TypeMismatch};
        match self {
            Self::Twice => true,
            Self::Sqlite(error) => {
                matches!(error.sqlite_error_code(), Some(ConstraintViolation | TooBig | TypeMismatch))
            }
        }
    }
}

impl Journal {
    /// Keeps one line in a commit of its own.
    pub(super) fn commit(&mut self, session: &SessionId, line: &Line, which: Try) -> Result<(), NotKept> {
        let change = self.db.transaction()?;
        keep(&change, session, line, which)?;
        Ok(change.commit()?)
    }
}

/// Keeps one line within the transaction that is open.
pub(super) fn keep(db: &Connection, id: &SessionId, line: &Line, which: Try) -> Result<(), NotKept> {
    let id = id.as_str();
    let added = match line {
        Line::SessionBegun(row) => insert_session(db, id, row)?,
        Line::TriedOut(row) => insert_tryout(db, id, row)?,
        Line::Decided(row) => insert_decision(db, id, row)?,
        Line::Readied { rows } => insert_readiness(db, id, rows)?,
        Line::SetBegun { set, cues } => {
            insert_set(db, id, set)? & insert_plan(db, id, set.number, 0, None, cues)?
        }
        Line::Replanned { set, pause, paused_at_ms, cues } => {
            insert_plan(db, id, *set, *pause, Some(*paused_at_ms), cues)?
        }
        Line::CueDelivered { set, how } => insert_delivery(db, id, *set, how)?,
        Line::SoundDisturbed { set, what } => insert_disturbance(db, id, *set, what)?,
        Line::SetEnded { set, end } => insert_set_end(db, id, *set, end)?,
        Line::SetLeftOut(row) => insert_left_out(db, id, row)?,
        Line::Responded { set, response } => insert_response(db, id, *set, response)?,
        Line::Mishap(row) => insert_mishap(db, id, row)?,
        Line::Advised(row) => insert_advice(db, id, row)?,
        Line::Routine(row) => insert_routine(db, id, row)?,
        Line::Course { patches } => insert_course(db, id, patches)?,
        Line::Answered(row) => insert_answer(db, id, row)?,
        Line::SessionEnded { at, why } => insert_session_end(db, id, at, *why)?,
    };
    if added || which == Try::Again { Ok(()) } else { Err(NotKept::Twice) }
}

pub(super) fn insert_session(db: &Connection, id: &str, row: &SessionRow) -> Added {
    insert(
        db,
        "sessions (id, begun, begun_ms, title, digest, seed, seed_given, method, voice, device, sets_planned)",
        params![
            id,
            row.begun.text(),
            row.begun.ms(),
            row.title,
            row.digest,
            row.seed,
            row.seed_given,
            row.method,
            row.voice,
            row.device,
            row.sets_planned
        ],
    )
}

pub(super) fn insert_set(db: &Connection, id: &str, row: &SetRow) -> Added {
    insert(
        db,
        "sets (session, number, begun, begun_ms, drill, form, step, stance, side, surface, support, vision, \
         work_ms, recover_ms, rest_ms, channel, facing, second_task)",
        params![
            id,
            row.number,
            row.begun.text(),
            row.begun.ms(),
            row.drill,
            word(&row.form),
            row.step,
            word(&row.stance),
            row.side.as_ref().map(word),
            word(&row.surface),
            word(&row.support),
            word(&row.vision),
            row.work_ms,
            row.recover_ms,
            row.rest_ms,
            row.channel.as_ref().map(word),
            row.facing.as_ref().map(word),
            row.second_task.as_ref().map(word)
        ],
    )
}

pub(super) fn insert_plan(
    db: &Connection,
    id: &str,
    set: u8,
    plan: u16,
    paused_at_ms: Option<u32>,
    cues: &[CueRow],
) -> Added {
    let columns = "plans (session, set_number, plan, paused_at_ms)";
    let mut added = insert(db, columns, params![id, set, plan, paused_at_ms])?;
    let columns = "cues (session, set_number, plan, cue, at_ms, gap_ms, blank, action, direction, phrase, \
                   until_ms, strength, ball, tell, practice)";
    for row in cues {
        let values = params![
            id,
            set,
            plan,
            row.cue,
            row.at_ms,
            row.gap_ms,
            row.blank,
            row.action.as_ref().map(word),
            row.direction.as_ref().map(word),
            row.phrase,
            row.until_ms,
            row.strength,
            row.ball.as_ref().map(word),
            row.tell,
            row.practice
        ];
        added &= insert(db, columns, values)?;
    }
    Ok(added)
}

pub(super) fn insert_delivery(db: &Connection, id: &str, set: u8, row: &DeliveryRow) -> Added {
    let DeliveryRow { cue, wanted_frame, began_frame, frames_per_second, heard_ms, shown_ms, asked_ms } = row;
    insert(
        db,
        "deliveries (session, set_number, cue, wanted_frame, began_frame, frames_per_second, heard_ms, shown_ms, \
         asked_ms)",
        params![id, set, cue, wanted_frame, began_frame, frames_per_second, heard_ms, shown_ms, asked_ms],
    )
}

pub(super) fn insert_response(db: &Connection, id: &str, set: u8, row: &ResponseRow) -> Added {
    let columns = "responses (session, set_number, cue, response)";
    insert(db, columns, params![id, set, row.cue, row.response.map(Response::name)])
}

pub(super) fn insert_mishap(db: &Connection, id: &str, row: &MishapRow) -> Added {
    let columns = "mishaps (session, place, set_number, at_ms, what, cue)";
    insert(db, columns, params![id, row.place, row.set, row.at_ms, row.what.name(), row.cue])
}

pub(super) fn insert_left_out(db: &Connection, id: &str, row: &LeftOutRow) -> Added {
    let columns = "left_out (session, set_number, at, at_ms, why)";
    insert(db, columns, params![id, row.set, row.at.text(), row.at.ms(), row.why.name()])
}

pub(super) fn insert_advice(db: &Connection, id: &str, row: &AdviceRow) -> Added {
    let columns = "advice (session, place, set_number, advice)";
    insert(db, columns, params![id, row.place, row.set, row.advice.name()])
}

pub(super) fn insert_routine(db: &Connection, id: &str, row: &RoutineRow) -> Added {
    let columns = "routines (session, part, at, at_ms, how)";
    insert(db, columns, params![id, row.part.name(), row.at.text(), row.at.ms(), row.how.name()])
}

pub(super) fn insert_course(db: &Connection, id: &str, patches: &[String]) -> Added {
    let mut added = true;
    for (nth, patch) in (0_u32..).zip(patches) {
        added &= insert(db, "courses (session, nth, patch)", params![id, nth, patch])?;
    }
    Ok(added)
}

pub(super) fn insert_disturbance(db: &Connection, id: &str, set: u8, row: &DisturbanceRow) -> Added {
    let columns = "disturbances (session, place, set_number, at_ms, how)";
    insert(db, columns, params![id, row.place, set, row.at_ms, row.how.name()])
}

/// An end that becomes known later replaces the one that was only found missing. Of two that were found missing, on two
/// computers, the later stays: it knows more.
pub(super) fn insert_set_end(db: &Connection, id: &str, set: u8, row: &SetEndRow) -> Added {
    let found = SetEnd::Interrupted.name();
    let known = row.why != SetEnd::Interrupted;
    let sql = "DELETE FROM set_ends WHERE session = ? AND set_number = ? AND why = ? AND (? OR (worked_ms, ended_ms) < (?, ?))";
    db.prepare_cached(sql)?.execute(params![id, set, found, known, row.worked_ms, row.at.ms()])?;
    insert(
        db,
        "set_ends (session, set_number, ended, ended_ms, worked_ms, why)",
        params![id, set, row.at.text(), row.at.ms(), row.worked_ms, row.why.name()],
    )
}

pub(super) fn insert_answer(db: &Connection, id: &str, row: &AnswerRow) -> Added {
    let columns = "answers (session, place, set_number, question, answer)";
    insert(db, columns, params![id, row.place, row.set, row.answer.question().name(), row.answer.number()])
}

/// Ends a session: the end and its summary are one row, counted from what is kept.
pub(super) fn insert_session_end(db: &Connection, id: &str, at: &Stamp, why: SessionEnd) -> Added {
    let (found, known) = (SessionEnd::Interrupted.name(), why != SessionEnd::Interrupted);
    let sql = "DELETE FROM session_ends WHERE session = ? AND why = ? AND (? OR ended_ms < ?)";
    db.prepare_cached(sql)?.execute(params![id, found, known, at.ms()])?;
    let sql = format!("{SUMMARY} ON CONFLICT DO NOTHING");
    summarize(db, &sql, id, at, why)
}

/// Counts a session's summary again, after entries that came late; its end stays as it is.
pub(super) fn summarize_again(db: &Connection, id: &str) -> rusqlite::Result<()> {
    let end = super::read::session_end(db, id)?;
    if let Some((at, why)) = end {
        db.prepare_cached("DELETE FROM session_ends WHERE session = ?")?.execute([id])?;
        summarize(db, SUMMARY, id, &at, why)?;
    }
    Ok(())
}

const SUMMARY: &str = "
    INSERT INTO session_ends
    SELECT id, ?2, ?3, ?4,
        (SELECT count(*) FROM set_ends WHERE session = id AND why = ?5),
        sets_planned,
        (SELECT count(heard_ms) FROM deliveries WHERE session = id),
        (SELECT count(shown_ms) FROM deliveries WHERE session = id),
        (SELECT coalesce(sum(worked_ms), 0) FROM set_ends WHERE session = id),
        (SELECT max(answer) FROM answers WHERE session = id AND question = ?6),
        (SELECT max(answer) FROM answers WHERE session = id AND question = ?7),
        (SELECT max(answer) FROM answers WHERE session = id AND question = ?8),
        (SELECT max(answer) FROM answers WHERE session = id AND question = ?9),
        (SELECT max(answer) FROM answers WHERE session = id AND question = ?10),
        (SELECT count(*) - count(answer) FROM answers WHERE session = id),
        (SELECT count(asked_ms) FROM deliveries WHERE session = id),
        (SELECT count(*) FROM responses WHERE session = id AND response = ?11)
            + (SELECT count(*) FROM mishaps WHERE session = id AND what = ?13 AND cue IS NULL),
        (SELECT count(*) FROM responses WHERE session = id AND response = ?12)
            + (SELECT count(*) FROM mishaps WHERE session = id AND what = ?14 AND cue IS NULL),
        (SELECT count(response) FROM responses WHERE session = id),
        (SELECT count(*) - count(response) FROM responses WHERE session = id)
    FROM sessions WHERE id = ?1";

fn summarize(db: &Connection, sql: &str, id: &str, at: &Stamp, why: SessionEnd) -> Added {
    let asked =
        [Question::Grabbed, Question::HeldOn, Question::Effort, Question::Steadiness, Question::Unwell];
    let [grabbed, held_on, effort, steadiness, unwell] = asked.map(Question::name);
    let completed = SetEnd::Completed.name();
    let [response_grab, response_fall] = [Response::Grabbed, Response::Fell].map(Response::name);
    let [grab, fall] = [Mishap::Grab, Mishap::Fall].map(Mishap::name);
    let values = params![
        id,
        at.text(),
        at.ms(),
        why.name(),
        completed,
        grabbed,
        held_on,
        effort,
        steadiness,
        unwell,
        response_grab,
        response_fall,
        grab,
        fall
    ];
    Ok(db.prepare_cached(sql)?.execute(values)? == 1)
}
