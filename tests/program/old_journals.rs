//! Are journals and exports of every earlier version read as they were kept? Builds of those versions wrote the files in
//! `tests/data/journals` and `tests/data/exports`; the README there says which builds, how, and what each file holds.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use counterpoise::journal::{Folder, Journal};
use counterpoise_core::course::trainee::Trainee;
use counterpoise_core::health::suitability::{Answer, By, Finding, Outcome, Reply, Suitability, Topic};
use counterpoise_core::health::yes_no::YesNoNotSure;
use counterpoise_core::plan::prescription::Prescription;
use counterpoise_core::record::{Contents, FORMAT, Id, Identified, Line, SuitabilityRow, TopicRow, old};
use rusqlite::Connection;
use serde_json::{Value, json};

use crate::run::run_with;
use counterpoise_core::words::Printable;

/// The dumps, the exports and the two prescriptions of the invented person.
const DATA: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/data");

/// From this version on a journal holds practice with a partner: a grab, two falls, and the lock after the second.
const PARTNER: i64 = 3;

/// The day after the last practice, and a day long after every hold has run out.
const DAYS: [&str; 2] = ["2026-02-05", "2026-04-01"];

/// What is counted: its table, and where it stands in an export.
const COUNTED: [(&str, &str); 19] = [
    ("sessions", "sessions"),
    ("sets", "sessions.sets"),
    ("cues", "sessions.sets.plans.cues"),
    ("deliveries", "sessions.sets.delivered"),
    ("disturbances", "sessions.sets.disturbed"),
    ("answers", "sessions.answers"),
    ("responses", "sessions.sets.responses"),
    ("mishaps", "sessions.mishaps"),
    ("left_out", "sessions.left_out"),
    ("advice", "sessions.advised"),
    ("routines", "sessions.routines"),
    ("readiness", "sessions.ready"),
    ("seen", "sessions.seen"),
    ("changes", "changes"),
    ("suitability", "suitability.answers"),
    ("clearances", "clearances"),
    ("lifted", "clearances.lifted"),
    ("balance_tests", "tests"),
    ("corrections", "corrections"),
];

/// How many of each there are, counted when the journals were made.
const KEPT: [[usize; COUNTED.len()]; 7] = [
    [9, 11, 27, 17, 0, 47, 0, 0, 0, 0, 0, 0, 0, 1, 0, 0, 0, 0, 0],
    [9, 11, 30, 18, 2, 47, 0, 0, 0, 0, 0, 0, 0, 1, 0, 0, 0, 0, 0],
    [9, 15, 36, 25, 2, 72, 3, 3, 1, 1, 10, 0, 0, 2, 0, 0, 0, 0, 0],
    [10, 15, 36, 26, 2, 71, 3, 3, 1, 1, 12, 200, 0, 2, 29, 2, 2, 0, 0],
    [10, 15, 36, 26, 2, 72, 3, 3, 1, 1, 12, 221, 0, 2, 29, 2, 2, 2, 0],
    [12, 18, 39, 29, 2, 89, 3, 3, 1, 1, 14, 243, 3, 2, 29, 2, 2, 2, 0],
    [12, 18, 40, 29, 2, 101, 3, 3, 1, 1, 14, 243, 3, 2, 29, 2, 2, 2, 6],
];

/// What happened on which day, as far as it locks, holds or lifts, from which version to which.
const HAPPENED: [(i64, i64, &str, &str); 15] = [
    (1, 7, "2026-01-07", "grab"),
    (1, 7, "2026-01-07", "hold"),
    (1, 7, "2026-01-12", "unwell"),
    (1, 4, "2026-01-12", "hold"),
    // What felt wrong is asked from the fifth version on, and a chest that hurts locks.
    (5, 7, "2026-01-12", "lock"),
    (5, 7, "2026-01-13", "clearance"),
    (4, 4, "2026-01-16", "lock"),
    (4, 4, "2026-01-17", "clearance"),
    (3, 7, "2026-01-26", "grab"),
    (3, 7, "2026-01-30", "fall"),
    (3, 7, "2026-01-30", "hold"),
    (6, 7, "2026-02-02", "try-out"),
    (3, 7, "2026-02-04", "fall"),
    // The power went before anybody said whether it did harm.
    (3, 7, "2026-02-04", "lock"),
    (1, 7, "2026-01-16", "not today"),
];

/// One version's journal and exports.
struct Old {
    version: i64,
    dump: String,
    json: String,
    csv: String,
}

/// Every version's, oldest first.
fn old_journals(data: &Path) -> Result<Vec<Old>, String> {
    let read = |path: String| {
        fs::read_to_string(data.join(&path)).map_err(|error| format!("{path} cannot be read: {error}"))
    };
    let mut found = Vec::new();
    for entry in fs::read_dir(data.join("journals")).unwrap() {
        let name = entry.unwrap().file_name().into_string().unwrap();
        let Some(stem) = name.strip_suffix(".sql") else { continue };
        found.push(Old {
            version: stem.parse().map_err(|_| format!("{name} names no version"))?,
            dump: read(format!("journals/{name}"))?,
            json: read(format!("exports/{stem}.json"))?,
            csv: read(format!("exports/{stem}.csv"))?,
        });
    }
    found.sort_unstable_by_key(|old| old.version);
    match (1..=KEPT.len() as i64).find(|version| found.iter().all(|old| old.version != *version)) {
        Some(missing) => Err(format!("there is no journal of version {missing}")),
        None if found.len() > KEPT.len() => Err("nobody said what the newest journal holds".to_owned()),
        None => Ok(found),
    }
}

impl Old {
    /// A folder in which a person of that time practiced with this prescription in use.
    fn folder(&self) -> tempfile::TempDir {
        let place = tempfile::tempdir().unwrap();
        fs::create_dir(place.path().join("data")).unwrap();
        let in_use = if self.version < PARTNER { "alone.toml" } else { "partner.toml" };
        let file = Path::new(DATA).join("journals").join(in_use);
        fs::copy(file, place.path().join("data/prescription.toml")).unwrap();
        place
    }

    /// The same with the journal, after somebody altered it so.
    fn journal(&self, alteration: Option<&str>) -> tempfile::TempDir {
        let place = self.folder();
        let db = journal_of(place.path());
        db.execute_batch(&self.dump).unwrap();
        if let Some(alteration) = alteration {
            assert!(db.execute(alteration, []).unwrap() > 0, "version {}: {alteration}", self.version);
        }
        place
    }

    /// The same with what this export said, taken in twice.
    fn taken_in(&self) -> tempfile::TempDir {
        let place = self.folder();
        fs::write(place.path().join("old.json"), &self.json).unwrap();
        let sessions = self.kept()[0];
        for said in [
            format!("{sessions} sessions added, 0 already there."),
            format!("0 sessions added, {sessions} already there."),
        ] {
            let printed = printed(place.path(), &["journal", "import", "old.json"]);
            assert!(printed.lines().any(|line| line == said), "version {}: {printed}", self.version);
        }
        place
    }

    fn kept(&self) -> [usize; COUNTED.len()] {
        KEPT[self.version as usize - 1]
    }

    fn is_locked(&self) -> bool {
        self.version >= PARTNER
    }
}

fn journal_of(folder: &Path) -> Connection {
    Connection::open(folder.join("data/journal.sqlite")).unwrap()
}

fn version_of(folder: &Path) -> i64 {
    journal_of(folder).pragma_query_value(None, "user_version", |row| row.get(0)).unwrap()
}

fn printed(folder: &Path, arguments: &[&str]) -> String {
    let output = run_with(folder, arguments, "");
    assert_eq!(output.status.code(), Some(0), "{arguments:?}: {}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).unwrap()
}

fn value(folder: &Path, arguments: &[&str]) -> Value {
    serde_json::from_str(&printed(folder, arguments)).unwrap()
}

/// Opens practice as the hint says that an older journal needs, answers what is asked about a practice that was cut off, and
/// leaves at the first page; what was refused, or nothing.
fn opened(folder: &Path) -> String {
    let output = run_with(folder, &["practice", "--plain", "--silent"], "n\nn\n");
    let said = String::from_utf8(output.stderr).unwrap();
    let refused = said.lines().skip_while(|line| !line.starts_with("Error: ")).collect::<Vec<_>>().join("\n");
    assert_eq!(output.status.code(), Some(i32::from(!refused.is_empty())), "{said}");
    refused
}

/// What today's program reads in a folder.
struct Look {
    refused: String,
    list: String,
    show: String,
    next: [Value; DAYS.len()],
    report: Value,
    json: Value,
    csv: String,
}

fn look(folder: &Path) -> Look {
    // What is answered now is not what was kept then.
    run_with(folder, &["practice", "--plain", "--silent"], "");
    let answered = tempfile::tempdir().unwrap();
    fs::create_dir(answered.path().join("data")).unwrap();
    for entry in fs::read_dir(folder.join("data")).unwrap() {
        let entry = entry.unwrap();
        fs::copy(entry.path(), answered.path().join("data").join(entry.file_name())).unwrap();
    }
    Look {
        refused: opened(answered.path()),
        list: printed(folder, &["journal", "list"]),
        show: printed(folder, &["journal", "show", "last"]),
        next: DAYS.map(|day| value(folder, &["next", "--on", day, "--format", "json"])),
        report: value(folder, &["report", "--format", "json", "--until", DAYS[1]]),
        json: value(folder, &["journal", "export", "--format", "sessions"]),
        csv: printed(folder, &["journal", "export", "--format", "csv"]),
    }
}

/// Everything below this path of names, through every list on the way.
fn count(value: &Value, path: &str) -> usize {
    let (name, rest) = path.split_once('.').map_or((path, None), |(name, rest)| (name, Some(rest)));
    let values = match &value[name] {
        Value::Array(values) => &values[..],
        Value::Null => &[],
        one => std::slice::from_ref(one),
    };
    rest.map_or(values.len(), |rest| values.iter().map(|value| count(value, rest)).sum())
}

/// Every field of an old export must be there with the same value, and what was not kept then must say nothing now. Where
/// a session or a set had no end, it is kept as interrupted (`docs/journal.md`).
fn compare(at: &str, old: &Value, new: &Value, found: &mut Vec<String>) {
    match (old, new) {
        (Value::Object(old), Value::Object(new)) => {
            for (name, value) in old {
                match new.get(name) {
                    Some(now) => compare(&format!("{at}.{name}"), value, now, found),
                    // What says nothing is left out now.
                    None if is_nothing(value) => {}
                    None => found.push(format!("{at}.{name} is gone")),
                }
            }
            // Ids, and what they name, follow from what was kept.
            let derived = |name: &str| ["id", "replaces", "told_by", "locked_by"].contains(&name);
            let is_added = |name: &String, value: &Value| {
                !(old.contains_key(name) || is_nothing(value) || derived(name))
            };
            let added = new.iter().filter(|(name, value)| is_added(name, value));
            found.extend(added.map(|(name, value)| format!("{at}.{name} is {value} and was not kept")));
        }
        (Value::Array(old), Value::Array(new)) => {
            if old.len() != new.len() {
                found.push(format!("{at}: {} entries of {}", new.len(), old.len()));
            }
            for (nth, (old, new)) in old.iter().zip(new).enumerate() {
                compare(&format!("{at}[{nth}]"), old, new, found);
            }
        }
        (Value::Null, end) if at.rsplit('.').next() == Some("end") && end["why"] == "interrupted" => {}
        _ if old == new => {}
        _ => found.push(format!("{at} was {old} and is {new}")),
    }
}

/// Whether a value says that there is nothing.
fn is_nothing(value: &Value) -> bool {
    match value {
        Value::Null => true,
        Value::Bool(is) => !is,
        Value::Number(number) => number.as_u64() == Some(0),
        Value::String(text) => text.is_empty(),
        Value::Array(values) => values.is_empty(),
        Value::Object(_) => false,
    }
}

/// The same for rows of a spreadsheet. A cell that it would take for a number has an apostrophe since.
fn compare_rows(old: &str, new: &str, found: &mut Vec<String>) {
    let rows = |text: &str| -> (csv::StringRecord, Vec<csv::StringRecord>) {
        let mut reader = csv::Reader::from_reader(text.as_bytes());
        (reader.headers().unwrap().clone(), reader.records().map(Result::unwrap).collect())
    };
    let ((names, old), (new_names, new)) = (rows(old), rows(new));
    if old.len() != new.len() {
        found.push(format!("{} rows of {}", new.len(), old.len()));
    }
    for (column, name) in names.iter().enumerate() {
        let Some(place) = new_names.iter().position(|now| now == name) else {
            found.push(format!("the column {name} is gone"));
            continue;
        };
        for (line, (old, new)) in old.iter().zip(&new).enumerate() {
            let (was, is) = (&old[column], &new[place]);
            // What was cut off has got an end since.
            let is_end = was.is_empty() && ["session_why", "set_why", "worked_ms"].contains(&name);
            if was != is && format!("'{was}") != is && !is_end {
                found.push(format!("{name} in row {line} was {was:?} and is {is:?}"));
            }
        }
    }
}

/// An old export with everything in the place that it has in the sessions of today.
fn in_the_form_of_today(json: &str) -> Value {
    let mut export: Value = serde_json::from_str(json).unwrap();
    export["schema"] = SESSIONS.into();
    for session in export["sessions"].as_array_mut().unwrap() {
        answers_as_now(session);
        let start = session["start"].as_object_mut().unwrap();
        let drawn: serde_json::Map<String, Value> = ["seed", "seed_given", "method", "voice", "device"]
            .map(|name| (name.to_owned(), start.remove(name).unwrap()))
            .into_iter()
            .collect();
        let by_hand = drawn["voice"] == "typed in by hand";
        start.insert("drawn".to_owned(), if by_hand { Value::Null } else { drawn.into() });
        if let Some(tryout) = session["tryout"].as_object_mut() {
            session["seen"] = tryout.remove("seen").unwrap();
        }
    }
    for change in export["changes"].as_array_mut().unwrap() {
        let (what, source) = change["what"].as_str().unwrap().split_once(": ").unwrap();
        (change["source"], change["what"]) = (source.into(), what.into());
    }
    // The moment of answers about suitability stood for them before they had an id.
    for clearance in export.get_mut("clearances").and_then(Value::as_array_mut).into_iter().flatten() {
        for lifted in clearance["lifted"].as_array_mut().unwrap() {
            if lifted["what"] == "a clinician first" {
                lifted.as_object_mut().unwrap().remove("locked_by").unwrap();
            }
        }
    }
    without_places(&mut export);
    export
}

/// The schema of the sessions of today.
const SESSIONS: &str = "counterpoise.sessions/2";

/// A sentence that was true or not, the question that is asked now, and what "true" answered it.
const SENTENCES: [(&str, &str, &str); 32] = [
    ("no chest pain", "chest pain", "no"),
    ("breathing as usual", "badly short of breath", "no"),
    ("no new weakness or numbness", "sign of a stroke", "no"),
    ("not dizzy", "dizzy", "no"),
    ("dizziness passed in five minutes", "dizziness passed in five minutes", "yes"),
    ("not fainted", "fainted", "no"),
    ("not fallen", "fell", "no"),
    ("the fall did no harm", "hurt by the fall", "no"),
    ("the fall was over two days ago", "fall in the last two days", "no"),
    ("no knock to the head", "head knock", "no"),
    ("no new pain", "new pain", "no"),
    ("not sore", "sore", "no"),
    ("not ill", "ill", "no"),
    ("slept well", "slept badly", "no"),
    ("no alcohol", "alcohol today", "no"),
    ("no new medicine", "new medicine", "no"),
    ("the new medicine is no trouble", "new medicine agreed", "yes"),
    ("feeling unwell passed", "what was felt last time has passed", "yes"),
    ("counter fixed", "counter fixed", "yes"),
    ("nothing hot or sharp", "hot and sharp things out of reach", "yes"),
    ("floor dry and clear", "floor dry and clear", "yes"),
    ("good light", "good light", "yes"),
    ("clear floor or wall behind", "clear floor or wall behind", "yes"),
    ("firm shoes", "firm shoes", "yes"),
    ("glasses and hearing aids", "glasses and hearing aids", "yes"),
    ("phone in reach", "phone in reach", "yes"),
    ("chair and water in reach", "chair and water in reach", "yes"),
    ("somebody in the house", "somebody in the house", "yes"),
    ("partner within reach", "partner within reach", "yes"),
    ("partner well", "partner well", "yes"),
    ("partner knows where hands go", "partner knows where hands go", "yes"),
    ("both willing", "both willing", "yes"),
];

/// What an old sentence answers now: its question, and yes or no.
fn sentence_as_now(item: &str, is_true: bool) -> (&'static str, &'static str) {
    let (_, question, answer) = SENTENCES.iter().find(|(sentence, ..)| *sentence == item).unwrap();
    let other = if *answer == "no" { "yes" } else { "no" };
    (question, if is_true { answer } else { other })
}

/// Readiness and the reasons to see a clinician first as they are asked now, with the same meaning.
fn answers_as_now(session: &mut Value) {
    for row in session.get_mut("ready").and_then(Value::as_array_mut).into_iter().flatten() {
        let (item, answer) =
            sentence_as_now(row["item"].as_str().unwrap(), row["is_true"].as_bool().unwrap());
        *row = serde_json::json!({ "item": item, "answer": answer });
    }
    for row in session["answers"].as_array_mut().unwrap() {
        if row["question"] == "nothing to see a clinician about" {
            row["question"] = "a reason to see a clinician first".into();
            row["answer"] = (1 - row["answer"].as_u64().unwrap()).into();
        }
    }
}

/// A number ordered what its writer's counter orders now.
fn without_places(value: &mut Value) {
    match value {
        Value::Array(list) => list.iter_mut().for_each(without_places),
        Value::Object(fields) => {
            fields.remove("place");
            fields.values_mut().for_each(without_places);
        }
        _ => {}
    }
}

/// Whatever today's program reads otherwise than it was kept, in the journal itself and in what was taken in.
fn differences(old: &Old, kept: &Look, taken_in: &Look) -> Vec<String> {
    let mut found = Vec::new();
    compare("", &in_the_form_of_today(&old.json), &kept.json, &mut found);
    compare_rows(&old.csv, &kept.csv, &mut found);
    for ((table, path), expected) in COUNTED.iter().zip(old.kept()) {
        let counted = count(&kept.json, path);
        if counted != expected {
            found.push(format!("{table}: {counted} of {expected}"));
        }
    }
    let sessions = kept.json["sessions"].as_array().unwrap();
    if sessions.iter().any(|session| session["end"].is_null()) {
        found.push("a session has no end".to_owned());
    }
    for session in sessions {
        let id = &session["id"].as_str().unwrap()[..8];
        let why = session["end"]["why"].as_str().unwrap_or_default();
        if !kept.list.lines().any(|line| line.starts_with(id) && line.ends_with(why)) {
            found.push(format!("{id} is not in the list"));
        }
    }
    let last = sessions.last().unwrap()["id"].as_str().unwrap();
    if !kept.show.starts_with(&format!("Session {last}\n")) {
        found.push(format!("{last} is not shown as the last"));
    }
    locks(old, kept, &mut found);
    both_ways(kept, taken_in, &mut found);
    found
}

/// What holds and locks, and what was lifted.
fn locks(old: &Old, look: &Look, found: &mut Vec<String>) {
    let mut expected: Vec<(&str, &str)> = HAPPENED
        .iter()
        .filter(|(from, to, ..)| (*from..=*to).contains(&old.version))
        .map(|(_, _, day, kind)| (*day, *kind))
        .collect();
    expected.sort_unstable();
    let kinds: Vec<&str> = HAPPENED.iter().map(|(.., kind)| *kind).collect();
    let events = look.report["events"].as_array().unwrap().iter();
    let mut told: Vec<(&str, &str)> = events
        .map(|event| (event["day"].as_str().unwrap(), event["kind"].as_str().unwrap()))
        .filter(|(_, kind)| kinds.contains(kind))
        .collect();
    told.sort_unstable();
    if told != expected {
        found.push(format!("the report tells of {told:?}, and it was {expected:?}"));
    }
    let is_locked = |next: &Value| {
        next["decision"] == "locked" && next["reasons"][0].to_string().contains("a fall that may have hurt")
    };
    let refused = look
        .refused
        .starts_with("Error: Practice is locked after a fall that may have hurt: see a clinician");
    if look.next.iter().any(|next| is_locked(next) != old.is_locked()) || refused != old.is_locked() {
        found.push(format!("locked: {refused}, {:?}", look.next.each_ref().map(is_locked)));
    }
}

/// What was taken in from an export is what is in the journal, and leads to the same.
fn both_ways(kept: &Look, taken_in: &Look, found: &mut Vec<String>) {
    let of = |look: &Look, id: &Value| {
        let sessions = look.json["sessions"].as_array().unwrap();
        sessions.iter().find(|session| session["id"] == *id).cloned().unwrap_or_default()
    };
    for session in kept.json["sessions"].as_array().unwrap() {
        if of(taken_in, &session["id"]) != *session {
            found.push(format!("session {} was not taken in as it is", session["id"]));
        }
    }
    for (what, same) in [
        ("export", kept.json == taken_in.json),
        ("CSV", kept.csv == taken_in.csv),
        ("list", kept.list == taken_in.list),
        ("last session", kept.show == taken_in.show),
        ("report", kept.report == taken_in.report),
        ("next practice", kept.next == taken_in.next),
        ("refusal", kept.refused == taken_in.refused),
    ] {
        if !same {
            found.push(format!("the {what} is another one after an import"));
        }
    }
}

fn all() -> Vec<Old> {
    old_journals(Path::new(DATA)).unwrap()
}

#[test]
fn every_version_has_a_journal() {
    let all = all();
    let place = all[0].folder();
    opened(place.path());
    let message =
        "whoever changes the tables adds a journal of the version before: tests/data/journals/README.md";
    assert_eq!(version_of(place.path()), all.last().unwrap().version + 1, "{message}");
    for old in &all {
        // The last session of each was cut off.
        let export: Value = serde_json::from_str(&old.json).unwrap();
        assert!(export["sessions"].as_array().unwrap().last().unwrap()["end"].is_null());
        let place = old.journal(None);
        assert_eq!(version_of(place.path()), old.version);
        let db = journal_of(place.path());
        for ((table, _), kept) in COUNTED.iter().zip(old.kept()) {
            let known = "SELECT count(*) FROM sqlite_schema WHERE type = 'table' AND name = ?1";
            let known: bool = db.query_row(known, [table], |row| row.get(0)).unwrap();
            let rows: i64 = if known {
                db.query_row(&format!("SELECT count(*) FROM {table}"), [], |row| row.get(0)).unwrap()
            } else {
                0
            };
            assert_eq!(rows, kept as i64, "{table} of version {}", old.version);
        }
    }
}

#[test]
fn a_missing_version_is_noticed() {
    let place = tempfile::tempdir().unwrap();
    for part in ["journals", "exports"] {
        fs::create_dir(place.path().join(part)).unwrap();
        for entry in fs::read_dir(Path::new(DATA).join(part)).unwrap() {
            let entry = entry.unwrap();
            fs::copy(entry.path(), place.path().join(part).join(entry.file_name())).unwrap();
        }
    }
    assert_eq!(old_journals(place.path()).map(|all| all.len()), Ok(KEPT.len()));
    fs::remove_file(place.path().join("exports/2.json")).unwrap();
    let why = old_journals(place.path()).map(|all| all.len()).unwrap_err();
    assert!(why.starts_with("exports/2.json cannot be read"), "{why}");
    fs::remove_file(place.path().join("journals/2.sql")).unwrap();
    let why = old_journals(place.path()).map(|all| all.len());
    assert_eq!(why, Err("there is no journal of version 2".to_owned()));
}

#[test]
fn an_older_journal_is_read_as_it_is_and_copied_before_anything_is_rewritten() {
    for old in all() {
        let place = old.journal(None);
        let file = place.path().join("data/journal.sqlite");
        let before = fs::read(&file).unwrap();
        let looks = [
            &["journal", "list"][..],
            &["journal", "show", "last"],
            &["journal", "export"],
            &["next"],
            &["report", "--format", "json"],
        ];
        let looked: Vec<String> = looks.iter().map(|arguments| printed(place.path(), arguments)).collect();
        assert_eq!(fs::read(&file).unwrap(), before, "version {}", old.version);
        let said = run_with(place.path(), &["practice", "--plain", "--silent"], "");
        let said = String::from_utf8(said.stderr).unwrap().split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(said.contains("the journal is in a new form now; as it was, it is kept in"), "{said}");
        assert_eq!(version_of(place.path()), KEPT.len() as i64 + 1);
        let copy = file.with_file_name(format!("journal.sqlite.version-{}", old.version));
        let kept = Connection::open(&copy).unwrap();
        let tables = |db: &Connection| -> Vec<String> {
            let mut read =
                db.prepare("SELECT sql FROM sqlite_schema WHERE sql NOT NULL ORDER BY name").unwrap();
            read.query_map([], |row| row.get(0)).unwrap().map(Result::unwrap).collect()
        };
        let original = old.journal(None);
        assert_eq!(tables(&kept), tables(&journal_of(original.path())), "version {}", old.version);
        drop(kept);
        // What was cut off has an end since, so what is left to compare is what was not.
        let again = printed(place.path(), &["journal", "list"]);
        assert_eq!(again.lines().count(), looked[0].lines().count());
        let erased = run_with(place.path(), &["journal", "erase"], "erase\n");
        assert_eq!(erased.status.code(), Some(0), "{}", String::from_utf8_lossy(&erased.stderr));
        assert!(!copy.exists() && !file.exists(), "the copy is erased too");
    }
}

#[test]
fn journals_and_exports_of_every_version_are_read_as_they_were_kept() {
    for old in all() {
        let (journal, taken_in) = (old.journal(None), old.taken_in());
        let (kept, imported) = (look(journal.path()), look(taken_in.path()));
        assert_eq!(differences(&old, &kept, &imported), [""; 0], "version {}", old.version);
    }
}

/// How often each answer stands in a list of them, by its question.
fn tally(rows: impl Iterator<Item = (String, String)>) -> BTreeMap<(String, String), usize> {
    rows.fold(BTreeMap::new(), |mut counted, row| {
        *counted.entry(row).or_default() += 1;
        counted
    })
}

/// The answers to this list of every session.
fn all_of<'a>(export: &'a Value, list: &str) -> impl Iterator<Item = &'a Value> {
    let sessions = export["sessions"].as_array().unwrap().iter();
    let list = list.to_owned();
    sessions.flat_map(move |session| session[list.as_str()].as_array().into_iter().flatten())
}

/// "No chest pain: true" is "chest pain: no", and the other way around, in the journal itself and in its export.
#[test]
fn an_old_true_is_a_new_no_in_every_version() {
    let text = |value: &Value| value.as_str().unwrap().to_owned();
    for old in all() {
        let before: Value = serde_json::from_str(&old.json).unwrap();
        let expected = tally(all_of(&before, "ready").map(|row| {
            let (item, answer) = sentence_as_now(row["item"].as_str().unwrap(), row["is_true"] == true);
            (item.to_owned(), answer.to_owned())
        }));
        let count: usize = expected.values().sum();
        assert_eq!(count > 100, old.version >= 4, "version {}", old.version);
        let clinician = |export: &Value, question: &str, number: u64| {
            let rows = all_of(export, "answers").filter(|row| row["question"] == question);
            rows.filter(|row| row["answer"] == number).count()
        };
        let asked = clinician(&before, "nothing to see a clinician about", 1);
        assert!(asked >= usize::from(old.version < 4) * 8, "version {}", old.version);
        for place in [old.journal(None), old.taken_in()] {
            let now = value(place.path(), &["journal", "export", "--format", "sessions"]);
            let found = tally(all_of(&now, "ready").map(|row| (text(&row["item"]), text(&row["answer"]))));
            assert_eq!(found, expected, "version {}", old.version);
            assert_eq!(clinician(&now, "a reason to see a clinician first", 0), asked);
            assert_eq!(
                clinician(&now, "a reason to see a clinician first", 1),
                clinician(&before, "nothing to see a clinician about", 0)
            );
            assert_eq!(clinician(&now, "nothing to see a clinician about", 1), 0);
        }
    }
}

/// The answers about suitability of these contents, as they count today under a program that accepts nothing.
fn suitability(contents: &Contents) -> Option<Suitability> {
    let gentle = Prescription::ready("gentle").unwrap();
    Trainee::of(contents).suitability_under(gentle, jiff::civil::date(2026, 12, 1))
}

/// The same of the questions that are asked now: good answers, but to the parts of this topic if its sentence was not true.
fn asked_now(topic: Topic, said: &str) -> Option<Suitability> {
    let answer = |asked: Topic| {
        let is_good = asked.whole() != topic || said == "true";
        let yes = is_good == asked.is_good_if_yes();
        let reply = Reply::new(if yes { Answer::Yes } else { Answer::No });
        let agreed = (!is_good && said.ends_with("agreed")).then_some(YesNoNotSure::Yes);
        TopicRow::new(asked, Reply { agreed, ..reply })
    };
    let answers = Topic::questions(true).map(answer).collect();
    let at = serde_json::from_value("2026-01-03T17:00:00-05:00[America/New_York]".into()).unwrap();
    let row = SuitabilityRow { at, partner: true, answers, replaces: Vec::new() };
    let id = Id::of("asked now");
    suitability(&Contents { suitability: vec![Identified { id, row }], ..Contents::default() })
}

/// The sentences that there were, 29 of them.
fn sentences() -> Vec<Topic> {
    let mut all: Vec<Topic> = Topic::questions(true).map(Topic::whole).collect();
    all.dedup();
    assert_eq!(all.len(), 29);
    all
}

/// What a sentence led to that was not true: to a clinician first and nothing else, or to the limits of its question now.
fn means_the_same(topic: Topic, said: &str, found: &Suitability, at: &str) {
    let now = asked_now(topic, said).unwrap();
    assert_eq!(found.outcome, now.outcome, "{at}: {topic}: {said}");
    assert_eq!(found.because.is_empty(), said == "true", "{at}: {topic}: {said}: {:?}", found.because);
    assert!(found.because.iter().all(|(of, ..)| *of == topic), "{at}: {topic}: {said}: {:?}", found.because);
    if said == "not true" && topic.locks() {
        assert_eq!(found.outcome, Outcome::Clinician, "{at}: {topic}");
    }
}

/// "I have no heart trouble: true" is "Do you have heart trouble? No", and the other way around, for each sentence of each
/// version, in the journal itself and in its export. A good answer then is all good now; no other answer is.
#[test]
fn an_old_true_about_suitability_is_a_new_no_in_every_version() {
    for old in all() {
        let version = format!("version {}", old.version);
        let place = old.journal(None);
        let read = || {
            Journal::look(&Folder::open_in(place.path().join("data")).unwrap()).unwrap().contents().unwrap()
        };
        let export: Value = serde_json::from_str(&old.json).unwrap();
        let taken_in =
            |export: &Value| Contents::of(old::lines_of_export(export.to_string().as_bytes()).unwrap());
        if old.version < 4 {
            // Nothing was asked, and nothing counts as answered.
            assert!(suitability(&read()).is_none() && suitability(&taken_in(&export)).is_none(), "{version}");
            continue;
        }
        // As it was kept: one sentence was not true, and the answers were cleared.
        for contents in [read(), taken_in(&export)] {
            let kept = suitability(&contents).unwrap();
            assert_eq!(kept.because.len(), 1, "{version}: {:?}", kept.because);
            assert_eq!(kept.because[0].0, Topic::Heart);
            assert_eq!(kept.because[0].1, Finding::Lifted(By::Clearance));
        }
        let db = journal_of(place.path());
        db.execute("DELETE FROM lifted", []).unwrap();
        for topic in sentences() {
            for said in ["true", "not true", "not true, clinician agreed"] {
                db.execute("UPDATE suitability SET answer = 'true'", []).unwrap();
                let set = "UPDATE suitability SET answer = ?1 WHERE topic = ?2";
                assert_eq!(db.execute(set, [said, topic.name()]).unwrap(), 1, "{version}: {topic}");
                means_the_same(topic, said, &suitability(&read()).unwrap(), &version);
                let mut export = export.clone();
                export["clearances"] = Value::Array(Vec::new());
                for row in export["suitability"][0]["answers"].as_array_mut().unwrap() {
                    row["answer"] = if row["topic"] == topic.name() { said.into() } else { "true".into() };
                }
                let at = format!("the export of {version}");
                means_the_same(topic, said, &suitability(&taken_in(&export)).unwrap(), &at);
            }
        }
    }
}

/// The entries of each form, up to the one that is written now.
#[test]
fn a_sentence_about_suitability_means_the_same_in_entries_of_every_form() {
    for form in 0..=FORMAT {
        for topic in sentences() {
            for said in ["true", "not true", "not true, clinician agreed"] {
                let answer = |of: Topic| if of == topic { said } else { "true" };
                let answers =
                    sentences().into_iter().map(|of| json!({ "topic": of.name(), "answer": answer(of) }));
                let row = json!({ "at": "2026-01-03T17:00:00-05:00[America/New_York]", "partner": true,
                    "answers": answers.collect::<Vec<_>>() });
                let line = json!({ "id": "1".repeat(32), "writer": "2".repeat(32), "counter": 1, "at_ms": 1,
                    "format": form, "entry": { "suitability": row } });
                let line: Line = serde_json::from_value(line).unwrap();
                let found = suitability(&Contents::of(vec![line.clone()])).unwrap();
                means_the_same(topic, said, &found, &format!("form {form}"));
                // It is written as it was read.
                let again = serde_json::to_value(&line).unwrap();
                assert_eq!(again["entry"]["suitability"]["answers"].as_array().unwrap().len(), 29);
                assert!(
                    again["entry"]["suitability"]["answers"].to_string().contains(&format!("\"{said}\""))
                );
            }
        }
    }
}

/// Else a journal that was brought up to date before and one that is now would hold everything twice after a merge.
#[test]
fn the_lines_of_an_old_journal_keep_their_ids() {
    let ids = fs::read_to_string(Path::new(DATA).join("exports/readied-ids.txt")).unwrap();
    for old in all() {
        let version = format!("{} ", old.version);
        let expected: Vec<&str> = ids.lines().filter_map(|line| line.strip_prefix(&version)).collect();
        let now = value(old.journal(None).path(), &["journal", "export", "--format", "json"]);
        let entries = now["entries"].as_array().unwrap().iter();
        let readied = entries.filter(|entry| entry["entry"].get("readied").is_some());
        let mut found: Vec<&str> = readied
            .inspect(|entry| {
                let rows = entry["entry"]["readied"]["rows"].as_array().unwrap();
                assert!(
                    rows.iter().all(|row| row["is_true"].is_boolean()),
                    "an entry stays as it was written"
                );
            })
            .map(|entry| entry["id"].as_str().unwrap())
            .collect();
        found.sort_unstable();
        assert_eq!(found, expected, "version {}", old.version);
        assert_eq!(found.is_empty(), old.version < 4);
    }
}

/// What the last build before form 2 wrote on form 1, and the sessions that it made of it.
#[test]
fn entries_of_form_1_are_read_with_the_same_meaning() {
    let read = |name: &str| fs::read_to_string(Path::new(DATA).join("exports").join(name)).unwrap();
    let (written, sessions) = (read("form-1.json"), read("form-1.sessions.json"));
    let place = tempfile::tempdir().unwrap();
    fs::write(place.path().join("form-1.json"), &written).unwrap();
    printed(place.path(), &["journal", "import", "form-1.json"]);
    let mut expected: Value = serde_json::from_str(&sessions).unwrap();
    expected["schema"] = SESSIONS.into();
    expected["sessions"].as_array_mut().unwrap().iter_mut().for_each(answers_as_now);
    let now = value(place.path(), &["journal", "export", "--format", "sessions"]);
    assert_eq!(now, expected);
    assert_eq!(all_of(&now, "ready").count(), 40);
    // What it is written as stays, and so it is the same on another computer that has it already.
    let again = value(place.path(), &["journal", "export", "--format", "json"]);
    let before: Value = serde_json::from_str(&written).unwrap();
    assert_eq!(again["entries"], before["entries"]);
    // A chest that hurt locks, as it did then.
    let next = value(place.path(), &["next", "--on", "2027-02-01", "--format", "json"]);
    assert_eq!(next["decision"], "locked");
    let reasons: Vec<String> = next["reasons"]
        .as_array()
        .unwrap()
        .iter()
        .map(|reason| reason.as_str().unwrap().to_owned())
        .collect();
    assert!(reasons[0].starts_with("If you have chest pain or pressure now, call "), "{reasons:?}");
}

#[test]
fn a_lock_of_an_old_journal_is_lifted_by_a_clearance_and_by_nothing_else() {
    for old in all() {
        for place in [old.journal(None), old.taken_in()] {
            let folder = place.path();
            assert_eq!(!opened(folder).is_empty(), old.is_locked(), "version {}", old.version);
            let clear = ["clear", "--by", "Dr. A. B.", "--reason", "seen, nothing found"];
            let cleared = run_with(folder, &clear, "");
            // Each of them has something that waits for a clearance, if only for the next step up.
            let lifted = String::from_utf8_lossy(&cleared.stdout).into_owned();
            assert!(
                cleared.status.success() && lifted.contains("Lifted: "),
                "version {}: {lifted}",
                old.version
            );
            assert_eq!(
                lifted.contains("a fall that may have hurt"),
                old.is_locked(),
                "version {}: {lifted}",
                old.version
            );
            // Sets with a partner want one, which is asked for only when nothing is locked any more.
            let still = opened(folder);
            let wants_partner = still.contains("needs a partner") && old.version >= PARTNER;
            assert!(still.is_empty() || wants_partner, "version {}: {still}", old.version);
            let next = value(folder, &["next", "--format", "json"]);
            assert_ne!(next["decision"], "locked", "version {}", old.version);
        }
    }
}

/// Alterations, each with the version whose journal it is made in: the one that brought what it alters.
const ALTERATIONS: [(i64, &str); 17] = [
    (1, "DELETE FROM answers WHERE question = 'unwell' AND answer = 1"),
    (1, "UPDATE answers SET answer = 0 WHERE question = 'grabbed hold or nearly fell'"),
    (1, "UPDATE session_ends SET why = 'finished' WHERE why = 'grabbed hold or nearly fell'"),
    (1, "UPDATE cues SET gap_ms = gap_ms + 1 WHERE cue = 1"),
    (1, "UPDATE deliveries SET began_frame = began_frame + 1 WHERE cue = 0 AND began_frame > 0"),
    (1, "UPDATE sessions SET seed_given = 0"),
    (1, "DELETE FROM changes"),
    (2, "DELETE FROM disturbances WHERE how = 'stuttered'"),
    (3, "DELETE FROM mishaps WHERE what = 'fell'"),
    (3, "UPDATE responses SET response = 'feet in place' WHERE response IS NULL"),
    (3, "UPDATE left_out SET why = 'sound not heard'"),
    (4, "UPDATE readiness SET is_true = 1 - is_true WHERE nth = 0"),
    (4, "DELETE FROM lifted"),
    (4, "UPDATE decisions SET sets_whole = sets_whole + 1"),
    (5, "UPDATE balance_tests SET value = NULL"),
    (6, "DELETE FROM seen WHERE what = 'feet'"),
    (7, "DELETE FROM corrections WHERE what = 'counts again'"),
];

#[test]
fn every_alteration_of_an_old_journal_is_noticed() {
    for old in all() {
        let taken_in = old.taken_in();
        let imported = look(taken_in.path());
        for (_, alteration) in ALTERATIONS.iter().filter(|(version, _)| *version == old.version) {
            let journal = old.journal(Some(alteration));
            let found = differences(&old, &look(journal.path()), &imported);
            assert!(!found.is_empty(), "version {}: {alteration}", old.version);
        }
    }
}

/// Every text that somebody can put into a journal, and what a terminal would obey of it.
#[test]
fn no_text_of_a_journal_reaches_the_terminal_as_it_came() {
    const HOSTILE: &str = r"\u001b[2J\u0007\u009b31m\u202e\u200b";
    let old = all().pop().unwrap();
    let place = old.journal(None);
    opened(place.path());
    let db = journal_of(place.path());
    for field in
        ["title", "device", "reason", "who", "watched_by", "words", "by_whom", "source", "voice", "drill"]
    {
        // The start of the value of each.
        let with = format!(r#""{field}":"{HOSTILE}"#);
        db.execute("UPDATE entries SET entry = replace(entry, ?1, ?2)", (format!(r#""{field}":""#), with))
            .unwrap();
    }
    db.execute_batch("DELETE FROM summarized").unwrap();
    drop(db);
    let mut seen = 0;
    for arguments in [
        &["journal", "list"][..],
        &["journal", "show"],
        &["journal", "export"],
        &["journal", "export", "--format", "sessions"],
        &["journal", "export", "--format", "csv"],
        &["journal", "correct", "last"],
        &["report"],
        &["report", "--format", "json"],
        &["report", "--format", "csv"],
        &["report", "--format", "html"],
        &["report", "--format", "fhir"],
        &["report", "--folder", "."],
        &["next"],
        &["next", "--format", "json"],
        &["program"],
        &["progress"],
        &["clear"],
        &["journal", "import", "\u{1b}[31mred.json"],
        &["check", "\u{1b}]0;title\u{7}"],
        &["use", "\u{202e}txt.toml"],
        &["\u{1b}[31mred"],
        &["--\u{9b}31m"],
        &["report", "--format", "\u{1b}[31m"],
        &["practice", "--plain", "--silent"],
    ] {
        let output = run_with(place.path(), arguments, "");
        for bytes in [output.stdout, output.stderr] {
            let text = String::from_utf8(bytes).unwrap().replace('\r', "");
            let hidden = text.lines().find(|line| Printable::first_hidden(line).is_some());
            assert_eq!(hidden, None, "{arguments:?}");
            seen += text.matches("[2J").count();
        }
    }
    assert!(seen > 20, "it is shown, and written out: {seen}");
}

#[test]
fn an_altered_export_is_noticed() {
    for mut old in all() {
        let journal = old.journal(None);
        let kept = look(journal.path());
        let (why, other) = ("\"why\": \"grabbed hold or nearly fell\"", "\"why\": \"finished\"");
        assert!(old.json.contains(why) && old.csv.contains("counter-reach"), "version {}", old.version);
        old.json = old.json.replacen(why, other, 1);
        let taken_in = old.taken_in();
        let found = differences(&old, &kept, &look(taken_in.path()));
        let named = |part: &str| found.iter().any(|line| line.contains(part));
        assert!(named(".end.why was \"finished\""), "version {}: {found:?}", old.version);
        assert!(named("was not taken in as it is"), "version {}: {found:?}", old.version);
        let mut rows = Vec::new();
        compare_rows(&old.csv.replacen("counter-reach", "counter-shift", 1), &kept.csv, &mut rows);
        assert_eq!(rows.len(), 1, "version {}: {rows:?}", old.version);
    }
}
