//! The overview of journals as they are collected: files that came back on a memory stick, exports, journals of earlier
//! versions, the same person twice, and everything that a folder of a thousand names may hold besides.
#![cfg(unix)]

use std::fs;
use std::io::{Read, Write};
use std::os::unix::fs::{MetadataExt, PermissionsExt, symlink};
use std::os::unix::process::CommandExt;
use std::path::Path;
use std::process::{Command, Output};

use counterpoise::journal::import::import;
use counterpoise::journal::{Folder, Journal, export};
use jiff::civil::date;
use portable_pty::{CommandBuilder, PtySize, native_pty_system};
use serde_json::{Value, json};

use crate::history;

const ON: &str = "2026-01-20";

fn invented(number: u64, sessions: usize) -> Value {
    history::History { number, first: date(2026, 1, 5), sessions, pushes: false }.export()
}

/// The bytes of a journal's file with this in it, and those of its export.
fn kept(export: &Value) -> (Vec<u8>, Vec<u8>) {
    let place = tempfile::tempdir().unwrap();
    let folder = Folder::open_in(place.path()).unwrap();
    let (mut journal, _) = Journal::open(folder.lock().unwrap()).unwrap();
    import(&mut journal, "invented", export.to_string().as_bytes()).unwrap();
    let mut exported = Vec::new();
    export::json(&journal, &mut exported).unwrap();
    drop(journal);
    (fs::read(folder.journal_file()).unwrap(), exported)
}

fn run(place: &Path, arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_counterpoise"))
        .args(["report", "--folder", "clinic", "--on", ON])
        .args(arguments)
        .current_dir(place)
        .output()
        .unwrap()
}

fn json_of(output: &Output) -> Value {
    serde_json::from_slice(&output.stdout)
        .unwrap_or_else(|error| panic!("{error}: {}", String::from_utf8_lossy(&output.stderr)))
}

fn column<'a>(value: &'a Value, list: &str, field: &str) -> Vec<&'a str> {
    value[list].as_array().unwrap().iter().map(|one| one[field].as_str().unwrap()).collect()
}

fn person<'a>(value: &'a Value, name: &str) -> &'a Value {
    value["people"].as_array().unwrap().iter().find(|one| one["name"] == name).unwrap()
}

#[test]
fn files_and_exports_are_read_as_folders_are() {
    let place = tempfile::tempdir().unwrap();
    let clinic = place.path().join("clinic");
    fs::create_dir_all(clinic.join("stick/counterpoise")).unwrap();
    fs::create_dir(clinic.join("own")).unwrap();
    let write = |name: &str, bytes: &[u8]| fs::write(clinic.join(name), bytes).unwrap();
    let mut fell = invented(3, 4);
    fell["sessions"][3]["end"]["why"] = json!("fell");
    let theirs = "schema = \"counterpoise.prescription/1\"\ntitle = \"Theirs\"\nissued_on = 2026-01-01\n\n[[drills]]\n\
                  drill = \"counter-shift\"\nsets = 1\nwork_ms = 60000\ngap_ms = [5000, 15000]\ndirections = [\"left\", \"right\"]\n";
    let under = |number: u64, digest: &str| {
        let mut export = invented(number, 4);
        for session in export["sessions"].as_array_mut().unwrap() {
            session["start"]["digest"] = json!(digest);
        }
        export
    };
    let digest = counterpoise_core::plan::prescription::Digest::of(theirs.as_bytes()).to_string();
    let unknown = "sha256:".to_owned() + &"ab".repeat(32);
    write("ab.db", &kept(&invented(1, 4)).0);
    write("stick/counterpoise/journal-2026-01-19.json", &kept(&invented(2, 4)).1);
    write("own/journal.sqlite", &kept(&fell).0);
    write("own/prescription.toml", history::GENTLE.as_bytes());
    write("t.SQLITE", &kept(&under(5, &digest)).0);
    write("theirs.toml", theirs.as_bytes());
    write("u.json", &kept(&under(6, &unknown)).1);
    // What is somebody else's is passed over.
    write("notes.json", b"{ \"schema\": \"something else\" }");
    write("._ab.db", b"laid there by another system");
    write("list.txt", b"names");
    let output = run(place.path(), &["--format", "json"]);
    let value = json_of(&output);
    assert!(output.status.success(), "{value:#}");
    let names = column(&value, "people", "name");
    assert_eq!(names, ["ab.db", "own", "stick/counterpoise/journal-2026-01-19.json", "t.SQLITE", "u.json"]);
    for name in &names {
        assert_eq!(person(&value, name)["practices"], 4, "{name}");
        assert_eq!(person(&value, name)["also"], json!([]));
    }
    assert_eq!(person(&value, "own")["states"][0], "locked");
    assert_eq!(
        person(&value, "t.SQLITE")["because"].as_str().map(|said| said.contains("not here")),
        Some(false)
    );
    assert!(person(&value, "u.json")["next"].is_null(), "its prescription is nowhere");
    let text = String::from_utf8(run(place.path(), &[]).stdout).unwrap();
    assert!(text.contains("reviews and steps are not shown: u.json"), "{text}");
    assert!(text.lines().all(|line| line.chars().count() <= 80), "{text}");
}

#[test]
fn an_export_tells_the_same_as_the_file_that_it_is_of() {
    let place = tempfile::tempdir().unwrap();
    let mut told = Vec::new();
    for name in ["a.db", "a.json"] {
        let clinic = place.path().join("clinic");
        fs::create_dir(&clinic).unwrap();
        let (file, exported) = kept(&invented(7, 9));
        fs::write(clinic.join(name), if name == "a.db" { file } else { exported }).unwrap();
        let mut value = json_of(&run(place.path(), &["--format", "json"]));
        value["people"][0]["name"] = json!("");
        told.push(value);
        fs::remove_dir_all(clinic).unwrap();
    }
    assert_eq!(told[0], told[1]);
}

#[test]
fn the_same_person_twice_is_said_and_counted_once_and_no_lock_is_lost() {
    let place = tempfile::tempdir().unwrap();
    let clinic = place.path().join("clinic");
    fs::create_dir_all(clinic.join("ab")).unwrap();
    let write = |name: &str, bytes: &[u8]| fs::write(clinic.join(name), bytes).unwrap();
    let (file, _) = kept(&invented(1, 4));
    write("ab/journal.sqlite", &file);
    write("ab on the stick.db", &file);
    // Later, on another computer: two more practices, and in the last of them a fall.
    let mut later = invented(1, 6);
    later["sessions"][5]["end"]["why"] = json!("fell");
    write("ab later.json", &kept(&later).1);
    write("cd.db", &kept(&invented(2, 4)).0);
    // It has practices of cd and says something else about one.
    let mut other = invented(2, 4);
    other["sessions"][1]["start"]["voice"] = json!("higher");
    write("cd changed.json", &kept(&other).1);
    let output = run(place.path(), &["--format", "json"]);
    assert_eq!(output.status.code(), Some(1), "what contradicts is told");
    let value = json_of(&output);
    assert_eq!(column(&value, "people", "name"), ["ab", "cd changed.json"]);
    let ab = person(&value, "ab");
    assert_eq!(ab["also"], json!(["ab later.json", "ab on the stick.db"]));
    assert_eq!((&ab["practices"], &ab["states"][0]), (&json!(6), &json!("locked")));
    assert_eq!(column(&value, "skipped", "name"), ["cd.db"]);
    assert!(
        column(&value, "skipped", "why")[0].contains("shares practices with cd changed.json"),
        "{value:#}"
    );
    let text = String::from_utf8(run(place.path(), &[]).stdout).unwrap();
    assert!(text.contains("Counted once: ab is also in ab later.json; ab on the stick.db"), "{text}");
    let rows = run(place.path(), &["--format", "csv"]).stdout;
    let mut rows = csv::Reader::from_reader(&rows[..]);
    let first = rows.records().next().unwrap().unwrap();
    assert_eq!(&first[7], "ab later.json; ab on the stick.db");
}

#[test]
fn a_journal_of_an_earlier_version_is_read_and_stays_as_it_is() {
    let place = tempfile::tempdir().unwrap();
    let path = place.path().join("clinic/old.db");
    fs::create_dir(path.parent().unwrap()).unwrap();
    let db = rusqlite::Connection::open(&path).unwrap();
    db.execute_batch(include_str!("../../src/journal/schema/1.sql")).unwrap();
    db.execute_batch(
        "PRAGMA application_id = 1131368559; PRAGMA user_version = 1;
         INSERT INTO sessions VALUES ('0a0a0a0a0a0a0a0a0a0a0a0a0a0a0a0a', '2026-01-19T09:30:00+00:00[UTC]', 1768815000000, 't',
             'sha256:' || lower(hex(zeroblob(32))), 's', 0, 1, 'lower', NULL, 1);
         INSERT INTO sets VALUES ('0a0a0a0a0a0a0a0a0a0a0a0a0a0a0a0a', 1, '2026-01-19T09:31:00+00:00[UTC]', 1768815060000,
             'counter-reach', 'alone', 1, 'feet apart', NULL, 'firm', 'two hands', 'open', 60000, 5000, 60000);
         INSERT INTO session_ends VALUES ('0a0a0a0a0a0a0a0a0a0a0a0a0a0a0a0a', '2026-01-19T09:33:00+00:00[UTC]', 1768815180000,
             'fell', 0, 1, 1, 1, 60000, NULL, NULL, NULL, NULL, NULL, 0);",
    )
    .unwrap();
    drop(db);
    let before = fs::read(&path).unwrap();
    let output = run(place.path(), &["--format", "json"]);
    let value = json_of(&output);
    assert!(output.status.success(), "{value:#}");
    assert_eq!(
        person(&value, "old.db")["states"][0],
        "locked",
        "a fall of which nobody said that it did not hurt"
    );
    assert_eq!(fs::read(&path).unwrap(), before);
    assert_eq!(fs::read_dir(path.parent().unwrap()).unwrap().count(), 1);
}

#[test]
fn whatever_else_lies_there_is_named_harmlessly_and_holds_nothing_up() {
    let place = tempfile::tempdir().unwrap();
    let clinic = place.path().join("clinic");
    fs::create_dir_all(clinic.join("shut")).unwrap();
    let write = |name: &str, bytes: &[u8]| fs::write(clinic.join(name), bytes).unwrap();
    let (file, exported) = kept(&invented(1, 4));
    let evil = "ab\n\u{1b}[2J\u{1b}]0;title\u{7}\u{202e}";
    write(&format!("{evil}.db"), &file);
    write("empty.db", b"");
    write("empty.json", b"");
    write("cut.json", &exported[..exported.len() / 2]);
    write(&format!("{evil}.sqlite"), &b"a shopping list, longer than the header of a database".repeat(9));
    let rescue = b"{ \"schema\": \"counterpoise.rescue/1\", \"session\": \"\", \"lines\": [] }";
    write("rescue-01010101-1.json", rescue);
    let made =
        Command::new("mkfifo").arg(clinic.join("pipe.db")).arg(clinic.join("pipe.json")).status().unwrap();
    assert!(made.success());
    symlink(&clinic, clinic.join("around")).unwrap();
    symlink(clinic.join("itself"), clinic.join("itself")).unwrap();
    symlink("nowhere", clinic.join("dangling.db")).unwrap();
    // A folder elsewhere, over two links: it is looked into once.
    fs::create_dir(place.path().join("elsewhere")).unwrap();
    fs::write(place.path().join("elsewhere/cd.db"), kept(&invented(2, 4)).0).unwrap();
    symlink(place.path().join("elsewhere"), clinic.join("link 1")).unwrap();
    symlink(place.path().join("elsewhere"), clinic.join("link 2")).unwrap();
    fs::write(clinic.join("shut/journal.sqlite"), &file).unwrap();
    fs::set_permissions(clinic.join("shut"), fs::Permissions::from_mode(0o000)).unwrap();
    let output = as_anybody(place.path(), &["report", "--folder", "clinic", "--on", ON, "--format", "json"]);
    let text = as_anybody(place.path(), &["report", "--folder", "clinic", "--on", ON]);
    fs::set_permissions(clinic.join("shut"), fs::Permissions::from_mode(0o700)).unwrap();
    let value = json_of(&output);
    let shown = "ab\\n\\u{1b}[2J\\u{1b}]0;title\\u{7}\\u{202e}";
    let people = column(&value, "people", "name");
    assert_eq!(people.len(), 2, "{value:#}");
    assert_eq!(people[0], format!("{shown}.db"));
    assert!(people[1].starts_with("link ") && people[1].ends_with("/cd.db"));
    let mut skipped = column(&value, "skipped", "name");
    skipped.sort_unstable();
    let sqlite = format!("{shown}.sqlite");
    let mut expected = vec![
        "cut.json",
        "dangling.db",
        "empty.db",
        "empty.json",
        "itself",
        "pipe.db",
        "pipe.json",
        "rescue-01010101-1.json",
        "shut",
        &sqlite,
    ];
    expected.sort_unstable();
    assert_eq!(skipped, expected, "{value:#}");
    for bytes in [&output.stdout, &output.stderr, &text.stdout, &text.stderr] {
        let said = std::str::from_utf8(bytes).unwrap();
        let obeyed = |sign: char| sign.is_control() && sign != '\n' || sign == '\u{202e}';
        assert!(!said.contains(obeyed), "{said}");
        assert!(said.lines().all(|line| !line.starts_with('\u{1b}')));
    }
    assert_eq!(output.status.code(), Some(1));
}

/// The program as somebody who is not root: nobody else is kept out of a folder.
fn as_anybody(place: &Path, arguments: &[&str]) -> Output {
    let program = Path::new(env!("CARGO_BIN_EXE_counterpoise"));
    if fs::metadata("/proc/self").map_or(1, |own| own.uid()) != 0 {
        return Command::new(program).args(arguments).current_dir(place).output().unwrap();
    }
    // Where the program was built may be a folder that is root's alone.
    let copy = place.join("counterpoise");
    if !copy.exists() {
        fs::copy(program, &copy).unwrap();
        fs::set_permissions(&copy, fs::Permissions::from_mode(0o755)).unwrap();
        fs::set_permissions(place, fs::Permissions::from_mode(0o755)).unwrap();
    }
    let mut command = Command::new(copy);
    command.args(arguments).current_dir(place).uid(65_534).gid(65_534).output().unwrap()
}

#[test]
fn a_page_to_print_escapes_everything_and_has_no_script() {
    let place = tempfile::tempdir().unwrap();
    let clinic = place.path().join("clinic");
    fs::create_dir(&clinic).unwrap();
    let evil = "<script>alert('a')&amp;\"";
    for number in 0..40 {
        let sessions = 1 + number as usize % 4;
        fs::write(clinic.join(format!("{number:02}.db")), kept(&invented(number, sessions)).0).unwrap();
    }
    fs::write(clinic.join(format!("{evil}.db")), kept(&invented(50, 5)).0).unwrap();
    fs::write(clinic.join(format!("{evil}.sqlite")), b"").unwrap();
    let output = run(place.path(), &["--format", "html", "--out", "page.html", "--sort", "last"]);
    assert_eq!(output.status.code(), Some(1), "one is named");
    assert_eq!(output.stdout, b"page.html\n");
    let path = place.path().join("page.html");
    assert_eq!(fs::metadata(&path).unwrap().mode() & 0o777, 0o600, "for its owner only");
    let page = fs::read_to_string(&path).unwrap();
    assert!(!page.contains("<script") && !page.contains("src=") && !page.contains("http"), "{page}");
    // Long words may be broken on paper, and days stand on one line.
    let whole = page;
    let page = whole.replace("<wbr>", "").replace("<span class=\"short\">", "").replace("</span>", "");
    assert_eq!(page.matches("&lt;script&gt;alert(").count(), 3, "as a person, as skipped, and why");
    assert!(page.contains(">Last practice</th>"));
    assert!(page.contains("Sorted by last practice, the oldest first"));
    let cells: Vec<&str> = page.split("<tr><th scope=\"row\"").skip(1).collect();
    assert_eq!(cells.len(), 42);
    let days: Vec<&str> = cells[..41].iter().map(|row| row.split("<td").nth(2).unwrap()).collect();
    assert!(days.is_sorted() && days[0] != days[40], "{days:?}");
    let again = run(place.path(), &["--format", "html", "--out", "page.html"]);
    assert!(String::from_utf8(again.stderr).unwrap().contains("page.html already exists"));
    assert_eq!(fs::read_to_string(&path).unwrap(), whole);
}

/// Each journal is held by a writer, so that reading takes its whole patience for each: there is time to press Ctrl-C.
#[test]
fn progress_is_shown_and_ctrl_c_ends_it_with_nothing_written() {
    let place = tempfile::tempdir().unwrap();
    let clinic = place.path().join("clinic");
    fs::create_dir(&clinic).unwrap();
    let (file, _) = kept(&invented(1, 1));
    let held: Vec<rusqlite::Connection> = (0..40)
        .map(|number| {
            let path = clinic.join(format!("{number}.db"));
            fs::write(&path, &file).unwrap();
            let db = rusqlite::Connection::open(path).unwrap();
            db.execute_batch("BEGIN EXCLUSIVE").unwrap();
            db
        })
        .collect();
    for number in 0..10_000 {
        fs::write(clinic.join(format!("{number:05}.db")), b"").unwrap();
    }
    let pair = native_pty_system().openpty(PtySize::default()).unwrap();
    let mut command = CommandBuilder::new(env!("CARGO_BIN_EXE_counterpoise"));
    command.args(["report", "--folder", "clinic", "--on", ON, "--format", "html", "--out", "page.html"]);
    command.cwd(place.path());
    let mut child = pair.slave.spawn_command(command).unwrap();
    drop(pair.slave);
    let (mut screen, mut keys) =
        (pair.master.try_clone_reader().unwrap(), pair.master.take_writer().unwrap());
    let (mut seen, mut block) = (String::new(), [0; 4_096]);
    while !seen.contains("Reading journals") || !seen.contains("of 10040") {
        let read = screen.read(&mut block).unwrap_or(0);
        assert!(read > 0, "it ended before: {seen}");
        seen.push_str(&String::from_utf8_lossy(&block[..read]));
    }
    keys.write_all(b"\x03").unwrap();
    let ended = child.wait().unwrap();
    assert!(!ended.success() && ended.signal().is_some(), "{ended:?}");
    assert!(!place.path().join("page.html").exists());
    for db in &held {
        db.execute_batch("ROLLBACK").unwrap();
    }
    drop(held);
    for number in 0..40 {
        assert_eq!(fs::read(clinic.join(format!("{number}.db"))).unwrap(), file);
    }
}
