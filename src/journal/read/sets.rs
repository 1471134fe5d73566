//! The sets of a session, read back whole: their plans, what was delivered, what happened after it.

use rusqlite::{Connection, OptionalExtension, Row, params};

use super::super::table::{all, checked, checked_or_null};
use counterpoise_core::record::{
    CueRow, DeliveryRow, DisturbanceRow, PlanRecord, ResponseRow, SetEndRow, SetRecord, SetRow,
};

pub(super) fn sets(db: &Connection, id: &str) -> rusqlite::Result<Vec<SetRecord>> {
    let sql = "SELECT number, begun, drill, form, step, stance, side, surface, support, vision, \
               work_ms, recover_ms, rest_ms, channel, facing, second_task FROM sets WHERE session = ? \
               ORDER BY number";
    let starts = all(db, sql, [id], |row| {
        Ok(SetRow {
            number: row.get(0)?,
            begun: checked(row, 1)?,
            drill: row.get(2)?,
            form: checked(row, 3)?,
            step: row.get(4)?,
            stance: checked(row, 5)?,
            side: checked_or_null(row, 6)?,
            surface: checked(row, 7)?,
            support: checked(row, 8)?,
            vision: checked(row, 9)?,
            work_ms: row.get(10)?,
            recover_ms: row.get(11)?,
            rest_ms: row.get(12)?,
            channel: checked_or_null(row, 13)?,
            facing: checked_or_null(row, 14)?,
            second_task: checked_or_null(row, 15)?,
            ladder: None,
        })
    })?;
    starts
        .into_iter()
        .map(|start| {
            let number = start.number;
            Ok(SetRecord {
                end: set_end(db, id, number)?,
                plans: plans(db, id, number)?,
                delivered: deliveries(db, id, number)?,
                responses: responses(db, id, number)?,
                disturbed: disturbances(db, id, number)?,
                start,
            })
        })
        .collect()
}

fn set_end(db: &Connection, id: &str, set: u8) -> rusqlite::Result<Option<SetEndRow>> {
    let sql = "SELECT ended, worked_ms, why FROM set_ends WHERE session = ? AND set_number = ?";
    let read =
        |row: &Row<'_>| Ok(SetEndRow { at: checked(row, 0)?, worked_ms: row.get(1)?, why: checked(row, 2)? });
    db.prepare_cached(sql)?.query_row(params![id, set], read).optional()
}

fn plans(db: &Connection, id: &str, set: u8) -> rusqlite::Result<Vec<PlanRecord>> {
    let sql = "SELECT plan, paused_at_ms FROM plans WHERE session = ? AND set_number = ? ORDER BY plan";
    let plans: Vec<(u16, Option<u32>)> =
        all(db, sql, params![id, set], |row| Ok((row.get(0)?, row.get(1)?)))?;
    plans
        .into_iter()
        .map(|(plan, paused_at_ms)| Ok(PlanRecord { plan, paused_at_ms, cues: cues(db, id, set, plan)? }))
        .collect()
}

fn cues(db: &Connection, id: &str, set: u8, plan: u16) -> rusqlite::Result<Vec<CueRow>> {
    let sql = "SELECT cue, at_ms, gap_ms, blank, action, direction, phrase, until_ms, strength, ball, tell, \
               practice FROM cues WHERE session = ? AND set_number = ? AND plan = ? ORDER BY cue";
    all(db, sql, params![id, set, plan], |row| {
        Ok(CueRow {
            cue: row.get(0)?,
            at_ms: row.get(1)?,
            gap_ms: row.get(2)?,
            blank: row.get(3)?,
            action: checked_or_null(row, 4)?,
            direction: checked_or_null(row, 5)?,
            phrase: row.get(6)?,
            until_ms: row.get(7)?,
            strength: row.get(8)?,
            ball: checked_or_null(row, 9)?,
            tell: row.get(10)?,
            practice: row.get(11)?,
        })
    })
}

fn deliveries(db: &Connection, id: &str, set: u8) -> rusqlite::Result<Vec<DeliveryRow>> {
    let sql = "SELECT cue, wanted_frame, began_frame, frames_per_second, heard_ms, shown_ms, asked_ms \
               FROM deliveries WHERE session = ? AND set_number = ? ORDER BY cue";
    all(db, sql, params![id, set], |row| {
        Ok(DeliveryRow {
            cue: row.get(0)?,
            wanted_frame: row.get(1)?,
            began_frame: row.get(2)?,
            frames_per_second: row.get(3)?,
            heard_ms: row.get(4)?,
            shown_ms: row.get(5)?,
            asked_ms: row.get(6)?,
        })
    })
}

fn responses(db: &Connection, id: &str, set: u8) -> rusqlite::Result<Vec<ResponseRow>> {
    let sql = "SELECT cue, response FROM responses WHERE session = ? AND set_number = ? ORDER BY cue";
    all(db, sql, params![id, set], |row| {
        Ok(ResponseRow { cue: row.get(0)?, response: checked_or_null(row, 1)? })
    })
}

fn disturbances(db: &Connection, id: &str, set: u8) -> rusqlite::Result<Vec<DisturbanceRow>> {
    let sql =
        "SELECT place, at_ms, how FROM disturbances WHERE session = ? AND set_number = ? ORDER BY place";
    all(db, sql, params![id, set], |row| {
        Ok(DisturbanceRow { place: row.get(0)?, at_ms: row.get(1)?, how: checked(row, 2)? })
    })
}
