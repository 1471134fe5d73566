//! Reports from outside: one screen, a page to print, rows for a spreadsheet, values for other programs, all of invented
//! histories.

use std::fs;
use std::path::Path;
use std::process::{Command, Output};

use counterpoise_core::plan::prescription::Seal;
use serde_json::Value;

use crate::{eventful, history};

fn run(folder: &Path, arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_counterpoise"))
        .args(arguments)
        .env("COUNTERPOISE_DATA", folder.join("data"))
        .current_dir(folder)
        .output()
        .unwrap()
}

fn printed(folder: &Path, arguments: &[&str]) -> String {
    let output = run(folder, arguments);
    assert_eq!(output.status.code(), Some(0), "{arguments:?}: {}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).unwrap()
}

/// A folder with twenty weeks of an invented person who is also pushed.
fn filled() -> tempfile::TempDir {
    let place = tempfile::tempdir().unwrap();
    let history =
        history::History { number: 5, first: jiff::civil::date(2025, 11, 3), sessions: 40, pushes: true };
    fs::write(place.path().join("history.json"), history.export().to_string()).unwrap();
    printed(place.path(), &["journal", "import", "history.json"]);
    place
}

const UNTIL: [&str; 2] = ["--until", "2026-02-28"];

#[test]
fn the_summary_fits_one_screen_and_everything_fits_its_width() {
    let place = filled();
    let brief = printed(place.path(), &[&["report"], &UNTIL[..]].concat());
    assert!(brief.lines().count() <= 24, "{} lines\n{brief}", brief.lines().count());
    let whole = printed(place.path(), &[&["report", "--whole"], &UNTIL[..]].concat());
    for line in brief.lines().chain(whole.lines()) {
        assert!(line.chars().count() <= 80, "{line}");
    }
    for heading in [
        "Week by week",
        "What followed pushes",
        "Own ratings",
        "Steps, and why",
        "Balance tests",
        "How to read",
    ] {
        assert!(whole.contains(heading), "{heading}");
    }
    assert!(
        run(place.path(), &["report", "--since", "2026-03-01", "--until", "2026-02-28"]).status.code()
            == Some(1)
    );
}

#[test]
fn the_json_has_the_documented_fields_and_its_sums_agree() {
    let place = filled();
    let text = printed(place.path(), &[&["report", "--format", "json"], &UNTIL[..]].concat());
    let report: Value = serde_json::from_str(&text).unwrap();
    assert_eq!(report["schema"], "counterpoise.report/1");
    let documentation = include_str!("../../docs/report.md");
    fn names(value: &Value, found: &mut Vec<String>) {
        match value {
            Value::Object(fields) => {
                for (name, value) in fields {
                    found.push(name.clone());
                    names(value, found);
                }
            }
            Value::Array(values) => values.iter().for_each(|value| names(value, found)),
            _ => {}
        }
    }
    let mut found = Vec::new();
    names(&report, &mut found);
    for name in found {
        assert!(documentation.contains(&format!("`{name}`")), "docs/report.md does not explain `{name}`");
    }
    let weeks = report["dose"]["weeks"].as_array().unwrap();
    let sum = |field: &str| weeks.iter().map(|week| week[field].as_u64().unwrap()).sum::<u64>();
    for field in ["days", "sets", "active_ms", "cues", "days_prescribed"] {
        assert_eq!(report["dose"][field].as_u64(), Some(sum(field)), "{field}");
    }
    assert_eq!(report["dose"]["days"], 40);
}

#[test]
fn a_spreadsheet_reads_a_row_a_session_and_runs_nothing() {
    let place = tempfile::tempdir().unwrap();
    let history =
        history::History { number: 6, first: jiff::civil::date(2026, 1, 5), sessions: 4, pushes: false };
    let mut export = history.export();
    export["sessions"][0]["start"]["title"] = "=HYPERLINK(\"x\"), \"quoted\"".into();
    fs::write(place.path().join("history.json"), export.to_string()).unwrap();
    printed(place.path(), &["journal", "import", "history.json"]);
    let text = printed(place.path(), &["report", "--format", "csv", "--until", "2026-02-28"]);
    assert!(text.ends_with("\r\n"), "RFC 4180");
    let mut rows = csv::Reader::from_reader(text.as_bytes());
    assert_eq!(rows.headers().unwrap().iter().nth(1), Some("incidents"), "after the day they stand first");
    assert_eq!(rows.headers().unwrap().len(), 27);
    let rows: Vec<csv::StringRecord> = rows.records().map(Result::unwrap).collect();
    assert_eq!(rows.len(), 4);
    assert_eq!(&rows[0][9], "'=HYPERLINK(\"x\"), \"quoted\"");
    assert_eq!((&rows[0][0], &rows[0][7]), ("2026-01-05", "2026-W02"));
    // And as a page: nothing of it runs, and nothing is fetched.
    let page = printed(place.path(), &["report", "--format", "html", "--until", "2026-02-28"]);
    let page = page.replace("xmlns=\"http://www.w3.org/2000/svg\"", "");
    for loads in ["<script", "http://", "https://", "src=", "@import", "url("] {
        assert!(!page.contains(loads), "{loads}");
    }
}

#[test]
fn a_page_says_everything_and_escapes_what_it_was_given() {
    let place = filled();
    let own =
        history::GENTLE.replace("title = \"Gentle start at the counter\"", "title = '<b>&\"start\"</b>'");
    fs::write(place.path().join("own.toml"), own).unwrap();
    printed(place.path(), &["use", "own.toml"]);
    let path = place.path().join("report.html");
    let written = printed(place.path(), &["report", "--format", "html", "--out", "report.html"]);
    assert_eq!(written.trim(), "report.html");
    let page = fs::read_to_string(&path).unwrap();
    assert!(
        page.starts_with("<!doctype html>\n<html lang=\"en\">") && page.contains("@media print"),
        "{page}"
    );
    assert!(page.contains("&lt;b&gt;&amp;") && !page.contains("<b>&"), "{page}");
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        assert_eq!(fs::metadata(&path).unwrap().permissions().mode() & 0o777, 0o600, "its owner's only");
    }
    // The report goes back on the stick that the prescription came on.
    let stick = place.path().join("stick");
    fs::create_dir(&stick).unwrap();
    let output = Command::new(env!("CARGO_BIN_EXE_counterpoise"))
        .args(["report", "--format", "html", "--to-stick"])
        .env("COUNTERPOISE_DATA", place.path().join("data"))
        .env("COUNTERPOISE_STICK", &stick)
        .output()
        .unwrap();
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    let there: Vec<_> =
        fs::read_dir(stick.join("counterpoise")).unwrap().map(|entry| entry.unwrap().path()).collect();
    assert_eq!(there.len(), 1);
    assert_eq!(fs::read_to_string(&there[0]).unwrap(), page);
    // What is there is left as it is.
    let again = run(place.path(), &["report", "--format", "html", "--out", "report.html"]);
    assert_eq!(again.status.code(), Some(1));
    assert_eq!(fs::read_to_string(&path).unwrap(), page);
    let nowhere = run(place.path(), &["report", "--out", "nowhere/report.txt"]);
    assert!(String::from_utf8(nowhere.stderr).unwrap().contains("cannot be written"));
}

#[test]
fn who_has_practiced_nothing_has_a_report_too() {
    let place = tempfile::tempdir().unwrap();
    let brief = printed(place.path(), &["report"]);
    assert!(brief.contains("Practice: 0 of"), "{brief}");
    assert!(!place.path().join("data").exists(), "looking makes nothing");
    for form in ["html", "json", "csv"] {
        printed(place.path(), &["report", "--format", form]);
    }
}

/// A folder with an invented history in which everything happens, and its export.
fn eventful() -> (tempfile::TempDir, Value) {
    let place = tempfile::tempdir().unwrap();
    let first = jiff::civil::date(2025, 11, 3);
    let history = history::History { number: 9, first, sessions: 40, pushes: true };
    let (export, prescription) = eventful::eventful(history);
    fs::write(place.path().join("history.json"), export.to_string()).unwrap();
    printed(place.path(), &["journal", "import", "history.json"]);
    fs::write(place.path().join("data/prescription.toml"), prescription).unwrap();
    (place, export)
}

fn report_of(folder: &Path, arguments: &[&str]) -> Value {
    let text = printed(folder, &[&["report", "--format", "json"], arguments].concat());
    serde_json::from_str(&text).unwrap()
}

/// The places of all objects within a value, as JSON pointers.
fn objects(value: &Value, at: &str, found: &mut Vec<String>) {
    match value {
        Value::Object(fields) => {
            found.push(at.to_owned());
            fields.iter().for_each(|(name, value)| objects(value, &format!("{at}/{name}"), found));
        }
        Value::Array(values) => {
            values.iter().enumerate().for_each(|(nth, value)| objects(value, &format!("{at}/{nth}"), found));
        }
        _ => {}
    }
}

#[test]
fn the_json_is_as_its_schema_says_and_the_schema_knows_every_field() {
    let schema: Value = serde_json::from_str(include_str!("../../docs/report.schema.json")).unwrap();
    assert!(jsonschema::meta::is_valid(&schema), "a JSON Schema of 2020-12");
    let validator = jsonschema::validator_for(&schema).unwrap();
    let check = |report: &Value| {
        let wrong: Vec<String> = validator
            .iter_errors(report)
            .map(|error| format!("{}: {error}", error.instance_path()))
            .collect();
        assert!(wrong.is_empty(), "{wrong:#?}");
    };
    let empty = tempfile::tempdir().unwrap();
    check(&report_of(empty.path(), &[]));
    check(&report_of(filled().path(), &UNTIL));
    let (place, _) = eventful();
    let rich = report_of(place.path(), &["--since", "2025-11-01", "--until", "2026-05-31"]);
    check(&rich);
    // Everything that can be in it is in it, so that nothing of the schema goes untried.
    for list in [
        "incidents",
        "unanswered",
        "program_changes",
        "not_good",
        "prescriptions",
        "events",
        "ladder",
        "tests",
        "remarks",
    ] {
        assert!(!rich[list].as_array().unwrap().is_empty(), "{list}");
    }
    assert!(!rich["responses"]["trend"].is_null() && !rich["responses"]["groups"][0]["support"].is_null());
    // A field more or a field less, wherever it is, is refused.
    let mut places = Vec::new();
    objects(&rich, "", &mut places);
    for at in places {
        let mut more = rich.clone();
        more.pointer_mut(&at).unwrap().as_object_mut().unwrap().insert("another".to_owned(), 1.into());
        assert!(!validator.is_valid(&more), "a field that the schema does not know, in {at:?}");
        let names: Vec<String> = rich.pointer(&at).unwrap().as_object().unwrap().keys().cloned().collect();
        for name in names {
            let mut less = rich.clone();
            less.pointer_mut(&at).unwrap().as_object_mut().unwrap().remove(&name);
            assert!(!validator.is_valid(&less), "without `{name}`, in {at:?}");
        }
    }
}

#[test]
fn pushes_of_a_set_that_was_cut_off_are_not_noted_and_never_lost() {
    let place = tempfile::tempdir().unwrap();
    let first = jiff::civil::date(2026, 1, 5);
    let mut export = history::History { number: 6, first, sessions: 4, pushes: true }.export();
    let sessions = export["sessions"].as_array_mut().unwrap();
    let pushes = |session: &Value| {
        let sets = session["sets"].as_array().unwrap().iter();
        sets.filter(|set| set["start"]["drill"] == "pushes")
            .map(|set| set["delivered"].as_array().unwrap().len())
            .sum::<usize>()
    };
    let all: usize = sessions.iter().map(pushes).sum();
    let cut = sessions.iter_mut().find(|session| pushes(session) > 0).unwrap();
    let lost = pushes(cut);
    cut["sets"][2]["responses"] = serde_json::json!([]);
    cut["sets"][2]["end"]["why"] = "interrupted".into();
    cut["end"]["why"] = "interrupted".into();
    cut["answers"].as_array_mut().unwrap().retain(|row| row["set"] != 3);
    cut["answers"][0]["answer"] = Value::Null;
    fs::write(place.path().join("history.json"), export.to_string()).unwrap();
    printed(place.path(), &["journal", "import", "history.json"]);
    let report = report_of(place.path(), &UNTIL);
    let count = |field: &str| report["responses"][field].as_u64().unwrap() as usize;
    assert_eq!(count("noted") + count("not_noted"), all);
    assert!(count("not_noted") >= lost && lost > 0);
    // What was never asked after that set is nothing that was passed over; the one that was is.
    assert_eq!(report["ratings"]["not_said"], 1);
}

#[test]
fn the_rows_say_what_each_session_counts_as_and_how_long_it_was() {
    let (place, export) = eventful();
    let period = ["--since", "2025-11-01", "--until", "2026-05-31"];
    let text = printed(place.path(), &[&["report", "--format", "csv"], &period[..]].concat());
    let mut rows = csv::Reader::from_reader(text.as_bytes());
    let head = rows.headers().unwrap().clone();
    let column = |name: &str| head.iter().position(|column| column == name).unwrap();
    let rows: Vec<csv::StringRecord> = rows.records().map(Result::unwrap).collect();
    // First what is no session: the changes of the program, and the answers about suitability.
    let others = ["program changed", "suitability answered"];
    let (others, rows): (Vec<_>, Vec<_>) =
        rows.into_iter().partition(|row| others.contains(&&row[column("counts_as")]));
    assert_eq!(others.len(), 5);
    assert_eq!(rows.len(), export["sessions"].as_array().unwrap().len());
    for what in ["practice", "supervised try-out", "set aside", "date set aside", "no set begun"] {
        assert!(rows.iter().any(|row| &row[column("counts_as")] == what), "{what}");
    }
    for row in &rows {
        let by_hand = &row[column("typed_in")] == "1";
        assert!(
            !by_hand || (row[column("session_ms")].is_empty() && row[column("calls")].is_empty()),
            "{row:?}"
        );
        assert!(by_hand || row[column("calls")].parse::<u32>().is_ok(), "{row:?}");
        // Numbers stay numbers.
        for name in ["sets_planned", "sets_done", "active_ms", "typed_in", "sound_disturbed"] {
            assert!(row[column(name)].parse::<u64>().is_ok(), "{name}: {row:?}");
        }
        for name in ["session_ms", "effort", "steadiness", "held_on", "grabbed", "unwell"] {
            assert!(
                row[column(name)].is_empty() || row[column(name)].parse::<u64>().is_ok(),
                "{name}: {row:?}"
            );
        }
    }
    assert!(rows.iter().any(|row| &row[column("session_ms")] == "1200000"));
    let report = report_of(place.path(), &period);
    let sum = |name: &str| {
        let practices = rows.iter().filter(|row| &row[column("counts_as")] == "practice");
        practices.filter_map(|row| row[column(name)].parse::<u64>().ok()).sum::<u64>()
    };
    assert_eq!(report["dose"]["session_ms"].as_u64(), Some(sum("session_ms")));
    assert_eq!(report["dose"]["active_ms"].as_u64(), Some(sum("active_ms")));
    assert_eq!(report["dose"]["by_hand"].as_u64(), Some(sum("typed_in")));
    // A record system gets what this person did, and nothing that was set aside.
    let bundle = printed(place.path(), &[&["report", "--format", "fhir"], &period[..]].concat());
    let bundle: Value = serde_json::from_str(&bundle).unwrap();
    let entries = bundle["entry"].as_array().unwrap().iter();
    let procedures = entries.filter(|entry| entry["resource"]["resourceType"] == "Procedure").count();
    let own = ["practice", "supervised try-out"];
    assert_eq!(procedures, rows.iter().filter(|row| own.contains(&&row[column("counts_as")])).count());
}

#[test]
fn days_are_those_of_the_place_where_it_happened_and_all_of_it_fits_its_width() {
    let (place, _) = eventful();
    let text = printed(
        place.path(),
        &["report", "--format", "csv", "--since", "2025-11-01", "--until", "2026-05-31"],
    );
    let mut rows = csv::Reader::from_reader(text.as_bytes());
    let rows: Vec<csv::StringRecord> = rows.records().map(Result::unwrap).collect();
    // The session of number 17 was at ten in New York and at midnight of the next day in Tokyo, where it happened.
    let at = |id: &str| rows.iter().find(|row| row[8].ends_with(id)).unwrap()[0].to_owned();
    let plain =
        history::History { number: 9, first: jiff::civil::date(2025, 11, 3), sessions: 40, pushes: true };
    let plain = plain.export();
    let begun = plain["sessions"][17]["start"]["begun"].as_str().unwrap().to_owned();
    let day: jiff::civil::Date = begun[..10].parse().unwrap();
    assert_eq!(at("00012"), day.tomorrow().unwrap().to_string(), "{begun}");
    let brief = printed(place.path(), &["report", "--until", "2026-05-31"]);
    assert!(brief.lines().count() <= 23, "{brief}");
    assert!(brief.contains("Review: DUE"), "{brief}");
    let whole = printed(place.path(), &["report", "--whole", "--until", "2026-05-31"]);
    assert!(whole.contains("not today (1 reason)"), "{whole}");
    for line in brief.lines().chain(whole.lines()) {
        assert!(line.chars().count() <= 80, "{line}");
    }
}

/// Every form of the report of such a history, after a therapist's harder program came into use today.
fn every_form_after_a_change() -> (String, Vec<(&'static str, String)>) {
    let (place, _) = eventful();
    let folder = place.path();
    let own = fs::read_to_string(folder.join("data/prescription.toml")).unwrap();
    let days = |days: &str, title: &str| {
        let text = own.replace("days_a_week = 3", &format!("days_a_week = {days}"));
        text.replace("title = \"Gentle start at the counter\"", &format!("title = \"{title}\""))
    };
    fs::write(folder.join("easier.toml"), days("2", "Two days")).unwrap();
    fs::write(folder.join("harder.toml"), Seal::append(&days("4", "Four days"))).unwrap();
    for file in ["easier.toml", "harder.toml"] {
        printed(folder, &["use", file]);
    }
    let form = |name: &'static str, more: &[&str]| {
        let arguments = [&["report", "--since", "2025-11-01"], more].concat();
        (name, printed(folder, &arguments).split_whitespace().collect::<Vec<_>>().join(" "))
    };
    let forms = vec![
        form("brief", &[]),
        form("whole", &["--whole"]),
        form("html", &["--format", "html"]),
        form("json", &["--format", "json"]),
        form("csv", &["--format", "csv"]),
        form("fhir", &["--format", "fhir"]),
    ];
    let today = counterpoise::clock::Clock::real().wall().date().to_string();
    (today, forms)
}

/// The places of these texts, which must follow each other.
fn in_order(name: &str, form: &str, texts: &[&str]) {
    let mut from = 0;
    for text in texts {
        let found = form[from..].find(text);
        from += found.unwrap_or_else(|| panic!("{name}: {text:?} after {:?}\n{form}", &form[..from]));
    }
}

#[test]
#[expect(clippy::too_many_lines, reason = "one list for each form")]
fn falls_stand_first_in_every_form_then_the_change_of_the_program_then_what_was_not_good() {
    let (today, forms) = every_form_after_a_change();
    let of = |name: &str| &forms.iter().find(|(form, _)| *form == name).unwrap().1;
    let change = "\"Four days\" (harder.toml; issued by K. L., sealed) instead of \"Two days\". Harder: 4 days a week; the \
                  one before has 2.";
    in_order(
        "brief",
        of("brief"),
        &[
            "2025-11-01 to",
            "Falls, grabs, near falls, symptoms: fall",
            "not asked or not said after",
            "The last fall: ",
            "limits after a fall (not cleared)",
            &format!("Program changed: {today}: {change}"),
            "NOW: ",
            "Answers that were not good: ",
            "Practice: ",
        ],
    );
    let fall = [
        "2025-11-21",
        "fell",
        "set 3, pushes, step 1",
        "locked: a fall that may have hurt",
        "cleared by K. L. on 2025-11-22",
    ];
    for name in ["whole", "html"] {
        // The words of the page, without its tags.
        let form = of(name);
        let body = form[form.find("<body").unwrap_or(0)..].replace("</t", " </t");
        let words = body.split('<').map(|part| part.split_once('>').map_or(part, |(_, words)| words));
        let form = &words.collect::<String>().replace("&quot;", "\"");
        let form = &form.split_whitespace().collect::<Vec<_>>().join(" ");
        in_order(name, form, &[&["Falls, grabs, near falls and symptoms"], &fall[..]].concat());
        in_order(
            name,
            form,
            &[
                "Falls, grabs, near falls and symptoms",
                "Sets of which it is not known",
                "not asked",
                "Changes of the program",
                &today,
                change,
                "Practice: ",
                "Answers that were not good",
                "chest pain: yes",
                "a clinician first (cleared by Dr. A. B. on ",
                "Week by week",
            ],
        );
    }
    in_order(
        "json",
        of("json"),
        &[
            "\"until\":",
            "\"incidents\":",
            "\"unanswered\":",
            "\"not asked\"",
            "\"program_changes\":",
            &format!("\"day\": \"{today}\", \"source\": \"harder.toml\""),
            "\"issued_by\": \"K. L.\", \"is_sealed\": true",
            "\"before_title\": \"Two days\"",
            "\"harder\": \"4 days a week; the one before has 2\"",
            "\"not_good\":",
            "\"about\": \"chest pain\"",
            "\"by\": \"Dr. A. B.\"",
            "\"prescription\":",
        ],
    );
    let csv = of("csv");
    in_order("csv", csv, &["day,incidents,what_followed,not_asked,not_said,program_changed,not_good,week,"]);
    in_order(
        "csv",
        csv,
        &[
            &change.replace('"', "\"\""),
            "chest pain: yes [a clinician first (cleared by Dr. A. B. on ",
            "fall: fell (set 3, pushes, step 1)",
            "locked: a fall that may have hurt (cleared by K. L. on 2025-11-22)",
        ],
    );
    let bundle: Value = serde_json::from_str(of("fhir")).unwrap();
    let kind = |entry: &Value| {
        let resource = &entry["resource"];
        match resource["code"]["text"].as_str() {
            Some("Fall" | "Grab or near fall" | "Symptom") => 1,
            Some("Grab, near fall or symptom in a set") => 2,
            Some("Change of the program of balance practice") => 3,
            Some(text) if text.starts_with("Answer that was not good") => 4,
            _ if resource["resourceType"] == "Patient" => 0,
            _ => 5,
        }
    };
    let kinds: Vec<i32> = bundle["entry"].as_array().unwrap().iter().map(kind).collect();
    assert_eq!(kinds[..2], [0, 1]);
    assert!(kinds.is_sorted(), "{kinds:?}");
    for kind in 1..=5 {
        assert!(kinds.contains(&kind), "{kind}: {kinds:?}");
    }
    let all = of("fhir");
    for words in [
        "a clinician first (cleared by Dr. A. B. on ",
        "locked: a fall that may have hurt (cleared by K. L. on 2025-11-22)",
        "not asked",
    ] {
        assert!(all.contains(words), "{words}");
    }
    assert!(all.contains(&change.replace('"', "\\\"")), "{all}");
}
