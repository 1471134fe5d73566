//! A row into a table, and rows out of one: what every table of the journal is written and read by.

use counterpoise_core::record::Answer;
use rusqlite::Connection;
use rusqlite::Row;
use rusqlite::types::Type;
use serde::Serialize;
use serde::de::{DeserializeOwned, IntoDeserializer};

/// Whether a row was added; `false` where one with its key was there.
pub(super) type Added = rusqlite::Result<bool>;

pub(super) fn insert(db: &Connection, table_and_columns: &str, values: impl rusqlite::Params) -> Added {
    let columns = table_and_columns.matches(',').count() + 1;
    let marks = vec!["?"; columns].join(", ");
    let sql = format!("INSERT INTO {table_and_columns} VALUES ({marks}) ON CONFLICT DO NOTHING");
    Ok(db.prepare_cached(&sql)?.execute(values)? == 1)
}

/// The plain word that stands for one of the domain's values.
pub(super) fn word<T: Serialize>(value: &T) -> String {
    serde_json::to_value(value)
        .ok()
        .and_then(|value| value.as_str().map(str::to_owned))
        .expect("every value kept as a word is a unit variant, which serde writes as a string")
}

pub(super) fn all<T>(
    db: &Connection,
    sql: &str,
    values: impl rusqlite::Params,
    read: impl FnMut(&Row<'_>) -> rusqlite::Result<T>,
) -> rusqlite::Result<Vec<T>> {
    db.prepare_cached(sql)?.query_map(values, read)?.collect()
}

/// An answer, from the columns of its question and its number.
pub(super) fn answer(row: &Row<'_>, question: usize, number: usize) -> rusqlite::Result<Answer> {
    Answer::from_number(checked(row, question)?, row.get(number)?)
        .map_err(|error| rusqlite::Error::FromSqlConversionFailure(number, Type::Integer, Box::new(error)))
}

/// A number of the file that must be one of the numbers of its question.
pub(super) fn numbered<T: DeserializeOwned>(row: &Row<'_>, column: usize) -> rusqlite::Result<Option<T>> {
    let number: Option<u8> = row.get(column)?;
    let read: Result<Option<T>, serde::de::value::Error> =
        number.map(|number| T::deserialize(number.into_deserializer())).transpose();
    read.map_err(|error| rusqlite::Error::FromSqlConversionFailure(column, Type::Integer, Box::new(error)))
}

/// A text of the file that must be one of the domain's words, an id or a moment.
pub(super) fn checked<T: DeserializeOwned>(row: &Row<'_>, column: usize) -> rusqlite::Result<T> {
    let text: String = row.get(column)?;
    let read: Result<T, serde::de::value::Error> = T::deserialize(text.into_deserializer());
    read.map_err(|error| rusqlite::Error::FromSqlConversionFailure(column, Type::Text, Box::new(error)))
}

pub(super) fn checked_or_null<T: DeserializeOwned>(
    row: &Row<'_>,
    column: usize,
) -> rusqlite::Result<Option<T>> {
    match row.get_ref(column)? {
        rusqlite::types::ValueRef::Null => Ok(None),
        _ => checked(row, column).map(Some),
    }
}
