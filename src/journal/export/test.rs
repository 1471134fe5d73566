//! The export's words and cells.

use super::super::sample::{begun, id, in_memory, keep, moment, session, with_partner};
use super::{COLUMNS, csv, sessions, text};
use counterpoise_core::words::Printable;

#[test]
fn the_json_has_the_documented_fields() {
    let mut journal = in_memory();
    keep(&mut journal, &id(1), &session());
    keep(&mut journal, &id(2), &with_partner());
    let mut out = Vec::new();
    sessions(&journal, &mut out).unwrap();
    let value: serde_json::Value = serde_json::from_slice(&out).unwrap();
    assert_eq!(value["schema"], "counterpoise.sessions/2");
    let one = &value["sessions"][0];
    assert_eq!(one["id"], "01".repeat(16));
    assert_eq!(one["form"], "alone");
    assert_eq!(one["start"]["begun"], "2026-11-02T09:30:00-05:00[America/New_York]");
    assert_eq!(one["end"]["why"], "stopped for another reason");
    assert_eq!(one["answers"][1]["question"], "held on");
    let set = &one["sets"][1];
    assert_eq!(set["start"]["stance"], "semi-tandem");
    assert_eq!((&set["end"]["worked_ms"], &set["end"]["why"]), (&15_000.into(), &"stopped".into()));
    assert_eq!(set["plans"][1]["paused_at_ms"], 9_000);
    assert_eq!(set["plans"][1]["cues"][1]["at_ms"], 14_001);
    assert_eq!(set["plans"][0]["cues"][1]["blank"], true);
    assert_eq!(set["delivered"][1]["began_frame"], 672_048);
    assert_eq!(set["delivered"][1]["heard_ms"], 14_001);
    // The contract: integers only.
    fn whole(value: &serde_json::Value) -> bool {
        match value {
            serde_json::Value::Number(number) => number.is_i64() || number.is_u64(),
            serde_json::Value::Array(list) => list.iter().all(whole),
            serde_json::Value::Object(map) => map.values().all(whole),
            _ => true,
        }
    }
    assert!(whole(&value));
    // Every field of the export stands in its documentation.
    fn fields(value: &serde_json::Value, found: &mut Vec<String>) {
        match value {
            serde_json::Value::Array(list) => list.iter().for_each(|value| fields(value, found)),
            serde_json::Value::Object(map) => map.iter().for_each(|(name, value)| {
                found.push(name.clone());
                fields(value, found);
            }),
            _ => {}
        }
    }
    let mut found = Vec::new();
    fields(&value, &mut found);
    let documentation = include_str!("../../../docs/journal.md");
    for name in found.iter().map(String::as_str).chain(COLUMNS) {
        assert!(documentation.contains(&format!("`{name}`")), "docs/journal.md does not explain `{name}`");
    }
}

#[test]
fn the_csv_has_a_row_for_each_cue_and_one_for_a_session_without_sets() {
    let mut journal = in_memory();
    keep(&mut journal, &id(1), &session());
    keep(&mut journal, &id(2), &[begun(moment(500_000))]);
    let mut out = Vec::new();
    csv(&journal, &mut out).unwrap();
    let text = String::from_utf8(out.clone()).unwrap();
    // RFC 4180, 2.1 and 2.7: lines end with CR LF; a quote inside a quoted cell is doubled.
    assert_eq!(text.matches("\r\n").count(), text.matches('\n').count());
    assert!(text.contains("\"'=Month, \"\"one\"\"\""), "and a formula is defused: {text}");
    let mut reader = ::csv::Reader::from_reader(&out[..]);
    assert_eq!(reader.headers().unwrap(), &COLUMNS[..]);
    let rows: Vec<::csv::StringRecord> = reader.records().map(Result::unwrap).collect();
    assert_eq!(rows.len(), 3 + 3 + 1);
    let cell =
        |row: usize, column: &str| &rows[row][COLUMNS.iter().position(|name| *name == column).unwrap()];
    assert_eq!((cell(1, "blank"), cell(1, "direction"), cell(1, "heard_ms")), ("1", "", ""));
    assert_eq!((cell(2, "at_ms"), cell(2, "heard_ms"), cell(2, "late_us")), ("21500", "21501", "1000"));
    assert_eq!((cell(5, "set"), cell(5, "at_ms"), cell(5, "began_frame")), ("2", "20002", ""));
    assert_eq!((cell(4, "disturbances_before"), cell(5, "disturbances_before")), ("0", "1"));
    // This id happens to have no letter.
    assert_eq!((cell(6, "session"), cell(6, "set")), (format!("'{}", id(2)).as_str(), ""));
}

#[test]
fn a_cell_that_a_spreadsheet_would_run_is_defused() {
    // OWASP, "CSV Injection": cells that begin with one of these.
    for start in ["=", "+", "-", "@", "\t", "\r"] {
        let printed = Printable::of(start);
        assert_eq!(
            text(&format!("{start}SUM(A1)")),
            format!("'{printed}SUM(A1)"),
            "and nothing that a terminal obeys"
        );
    }
    // An id without letters, one that reads as a power of ten, a title that reads as a day or a fraction.
    for number in ["12345678901234567890123456789012", "1234e5", "00001", "2026-11-02", "3/4", ".5"] {
        assert_eq!(text(number), format!("'{number}"));
    }
    for words in ["2 sets", "1a2b", "2026-11-02T09:30:00-05:00[America/New_York]", "sha256:12"] {
        assert_eq!(text(words), words);
    }
    assert_eq!(text("reach left"), "reach left");
    assert_eq!(text(""), "");
}
