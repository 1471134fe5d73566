//! A journal goes from one computer to another, is merged, and is erased: from outside, on the worst days too.

use std::fs;
use std::path::Path;
use std::process::{Command, Output, Stdio};

use serde_json::Value;

use crate::history;

fn command(folder: &Path, arguments: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_counterpoise"));
    command.args(arguments).env("COUNTERPOISE_DATA", folder.join("data")).current_dir(folder);
    command.env("COUNTERPOISE_STICK", folder.join("stick")).stdin(Stdio::null());
    command
}

fn run(folder: &Path, arguments: &[&str]) -> Output {
    command(folder, arguments).output().unwrap()
}

fn printed(folder: &Path, arguments: &[&str]) -> String {
    let output = run(folder, arguments);
    assert_eq!(output.status.code(), Some(0), "{arguments:?}: {}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).unwrap()
}

/// What went wrong, in one line, and exit code 1.
fn refused(output: &Output) -> String {
    let err = String::from_utf8_lossy(&output.stderr).split_whitespace().collect::<Vec<_>>().join(" ");
    assert_eq!(output.status.code(), Some(1), "{err}");
    assert!(err.starts_with("Error: ") && err.contains("Hint: "), "{err}");
    err
}

/// A folder with the invented history of this number in it, and its export in `NUMBER.json`.
fn history(folder: &Path, number: u64, sessions: usize) -> String {
    let first = jiff::civil::date(2026, 1, 5);
    let export = history::History { number, first, sessions, pushes: false }.export();
    let name = format!("{number}.json");
    fs::write(folder.join(&name), export.to_string()).unwrap();
    name
}

#[cfg(unix)]
pub(crate) mod terminal {
    use std::io::{Read, Write};
    use std::path::Path;
    use std::thread;

    use portable_pty::{CommandBuilder, PtySize, native_pty_system};

    /// Runs a command on a terminal of 80 by 24, where `typed` is typed; what was shown, and whether it went well.
    pub(crate) fn run(folder: &Path, arguments: &[&str], typed: &str) -> (String, bool) {
        run_on((80, 24), "C.UTF-8", folder, arguments, typed)
    }

    /// The same on a terminal that says it has this size, in this language setting.
    pub(crate) fn run_on(
        (cols, rows): (u16, u16),
        locale: &str,
        folder: &Path,
        arguments: &[&str],
        typed: &str,
    ) -> (String, bool) {
        let size = PtySize { rows, cols, pixel_width: 0, pixel_height: 0 };
        let pair = native_pty_system().openpty(size).unwrap();
        let mut command = CommandBuilder::new(env!("CARGO_BIN_EXE_counterpoise"));
        command.args(arguments);
        command.env("COUNTERPOISE_DATA", folder.join("data"));
        command.env("LC_ALL", locale);
        command.cwd(folder);
        let mut child = pair.slave.spawn_command(command).unwrap();
        drop(pair.slave);
        let mut reader = pair.master.try_clone_reader().unwrap();
        let mut keyboard = pair.master.take_writer().unwrap();
        keyboard.write_all(typed.as_bytes()).unwrap();
        let shown = thread::spawn(move || {
            let (mut shown, mut bytes) = (Vec::new(), [0; 4096]);
            while let Ok(length @ 1..) = reader.read(&mut bytes) {
                shown.extend(&bytes[..length]);
            }
            String::from_utf8_lossy(&shown).into_owned()
        });
        let well = child.wait().unwrap().success();
        drop((keyboard, pair.master));
        (shown.join().unwrap(), well)
    }
}

#[cfg(unix)]
#[test]
fn whose_it_is_is_asked_before_two_peoples_practice_becomes_one() {
    let place = tempfile::tempdir().unwrap();
    let folder = place.path();
    let (own, other) = (history(folder, 1, 4), history(folder, 2, 3));
    // Both practice by the same ready prescription, as everybody may.
    assert!(printed(folder, &["journal", "import", &own]).contains("4 sessions added"));
    let before = printed(folder, &["journal", "export", "--format", "sessions"]);
    let err = refused(&run(folder, &["journal", "import", &other]));
    for part in [
        "may be somebody else's",
        "3 practices, from 2026-01-05 to",
        "this journal has 4 practices",
        "--same-person",
    ] {
        assert!(err.contains(part), "{part}: {err}");
    }
    for typed in ["n\n", "x\nn\n", "\u{4}"] {
        let (shown, well) = terminal::run(folder, &["journal", "import", &other], typed);
        let shown = shown.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(!well && shown.contains("Is this the same person's journal? (Y or N)"), "{shown}");
        assert!(
            shown.contains("Gentle start at the counter") && shown.contains("nothing was imported"),
            "{shown}"
        );
    }
    assert_eq!(printed(folder, &["journal", "export", "--format", "sessions"]), before);
    let (shown, well) = terminal::run(folder, &["journal", "import", &other], "y\n");
    assert!(well && shown.contains("3 sessions added"), "{shown}");
    // Now they share something, and nothing is asked any more; every day of the other's is a day of their own too.
    let said = printed(folder, &["journal", "import", &other]);
    assert!(said.contains("0 sessions added, 3 already there"), "{said}");
    assert!(!said.contains("two practices"), "said once: {said}");
}

#[test]
fn two_journals_of_one_person_are_merged_once_and_a_day_with_two_practices_is_named() {
    let (laptop, tablet) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let one = history(laptop.path(), 1, 3);
    let two = history(tablet.path(), 2, 3);
    printed(laptop.path(), &["journal", "import", &one]);
    printed(tablet.path(), &["journal", "import", &two]);
    let export = |from: &Path, to: &Path| {
        fs::write(to.join("other.json"), printed(from, &["journal", "export"])).unwrap();
    };
    export(tablet.path(), laptop.path());
    let said = printed(laptop.path(), &["journal", "import", "other.json", "--same-person"]);
    assert!(
        said.contains("3 sessions added") && said.contains("2026-01-05 now has two practices that count"),
        "{said}"
    );
    export(laptop.path(), tablet.path());
    let said = printed(tablet.path(), &["journal", "import", "other.json"]);
    assert!(said.contains("3 sessions added, 3 already there"), "what went there and back is known: {said}");
    let both = printed(laptop.path(), &["journal", "export", "--format", "sessions"]);
    assert_eq!(printed(tablet.path(), &["journal", "export", "--format", "sessions"]), both);
    // What is set aside on one computer is so on the other.
    let first: Value = serde_json::from_str(&both).unwrap();
    let id = first["sessions"][0]["id"].as_str().unwrap();
    printed(laptop.path(), &["journal", "correct", id, "--set-aside", "--reason", "the same one"]);
    export(laptop.path(), tablet.path());
    for added in ["0 sessions added, 6 already there", "0 sessions added, 6 already there"] {
        assert!(printed(tablet.path(), &["journal", "import", "other.json"]).contains(added));
    }
    assert_eq!(
        printed(tablet.path(), &["journal", "export", "--format", "sessions"]),
        printed(laptop.path(), &["journal", "export", "--format", "sessions"])
    );
}

#[test]
fn what_is_no_whole_export_is_refused_and_nothing_is_lost() {
    let place = tempfile::tempdir().unwrap();
    let folder = place.path();
    printed(folder, &["journal", "import", &history(folder, 1, 3)]);
    let before = printed(folder, &["journal", "export"]);
    fs::write(folder.join("half.json"), &before[..before.len() / 2]).unwrap();
    fs::write(folder.join("empty.json"), "").unwrap();
    fs::write(folder.join("later.json"), before.replacen("journal/2", "journal/3", 1)).unwrap();
    fs::write(folder.join("table.csv"), printed(folder, &["journal", "export", "--format", "csv"])).unwrap();
    fs::write(folder.join("report.json"), printed(folder, &["report", "--format", "json"])).unwrap();
    // Files with holes: 100 MB and more than any export has, and no room taken on the disk.
    for (name, mega) in [("big.json", 100), ("huge.json", 300)] {
        fs::File::create(folder.join(name)).unwrap().set_len(mega << 20).unwrap();
    }
    for (file, said) in [
        ("half.json", "ends in the middle"),
        ("empty.json", "is empty"),
        ("later.json", "a later version of Counterpoise wrote it"),
        ("table.csv", "no export: not JSON"),
        ("report.json", "its `schema` is \"counterpoise.report/1\""),
        ("big.json", "no export: not JSON"),
        ("huge.json", "more than 256 MiB"),
        ("data", "cannot be read"),
        ("nothing.json", "cannot be read"),
        ("data/journal.sqlite", "no export: not JSON"),
    ] {
        let err = refused(&run(folder, &["journal", "import", file]));
        assert!(err.contains(file) && err.contains(said), "{file}: {err}");
        assert_eq!(printed(folder, &["journal", "export"]), before, "{file}");
    }
    // A file that nothing can be made of makes no folder either.
    let nobody = tempfile::tempdir().unwrap();
    let half = folder.join("half.json");
    refused(&run(nobody.path(), &["journal", "import", half.to_str().unwrap()]));
    assert!(!nobody.path().join("data").exists());
}

/// A limit on the size of files stands for a full disk: writing fails in the same place.
#[cfg(unix)]
#[test]
fn a_full_disk_keeps_what_was_there() {
    let place = tempfile::tempdir().unwrap();
    let folder = place.path();
    printed(folder, &["journal", "import", &history(folder, 1, 2)]);
    let before = printed(folder, &["journal", "export", "--format", "sessions"]);
    let much = history(folder, 3, 80);
    let full = |blocks: u64, arguments: &str| {
        let script = format!("trap '' XFSZ; ulimit -f {blocks}; exec \"$0\" {arguments}");
        let mut shell = Command::new("sh");
        shell.args(["-c", &script, env!("CARGO_BIN_EXE_counterpoise")]).current_dir(folder);
        shell.env("COUNTERPOISE_DATA", folder.join("data")).stdin(Stdio::null()).output().unwrap()
    };
    // Some shells count blocks of 512 bytes, others of 1024: both are less than what would be added.
    let has = fs::metadata(folder.join("data/journal.sqlite")).unwrap().len() / 512 + 8;
    for (blocks, arguments) in [
        (has, format!("journal import {much} --same-person")),
        (0, "journal correct last --set-aside --reason x".to_owned()),
        (0, format!("journal import {much} --same-person")),
    ] {
        let err = refused(&full(blocks, &arguments));
        let told = ["no room left", "The disk could not be written", "cannot be written"];
        assert!(told.iter().any(|one| err.contains(one)), "{arguments}: {err}");
        assert_eq!(printed(folder, &["journal", "export", "--format", "sessions"]), before, "{arguments}");
    }
    assert!(printed(folder, &["journal", "import", &much, "--same-person"]).contains("80 sessions added"));
}

/// Every byte of every file in a folder, and the names.
fn everything_in(folder: &Path) -> Vec<u8> {
    let mut bytes = Vec::new();
    for entry in fs::read_dir(folder).unwrap() {
        let entry = entry.unwrap();
        bytes.extend(entry.file_name().into_encoded_bytes());
        // The lock's file has the number of the process that took it last, and nothing else.
        if entry.file_name() == "lock" {
            let number = fs::read_to_string(entry.path()).unwrap();
            assert!(number.bytes().all(|byte| byte.is_ascii_digit()), "{number}");
        } else {
            bytes.extend(fs::read(entry.path()).unwrap());
        }
    }
    bytes
}

#[test]
fn after_it_was_erased_no_byte_of_it_is_in_the_folder_and_copies_are_named() {
    let place = tempfile::tempdir().unwrap();
    let folder = place.path();
    fs::create_dir(folder.join("stick")).unwrap();
    let name = history(folder, 1, 3);
    printed(folder, &["journal", "import", &name]);
    printed(folder, &["journal", "correct", "last", "--set-aside", "--reason", "a-reason-of-nobody-else"]);
    printed(folder, &["journal", "export", "--to-stick"]);
    let export = printed(folder, &["journal", "export", "--format", "sessions"]);
    let export: Value = serde_json::from_str(&export).unwrap();
    let ids: Vec<&str> =
        export["sessions"].as_array().unwrap().iter().map(|one| one["id"].as_str().unwrap()).collect();
    let data = folder.join("data");
    fs::write(data.join("rescue-00000000-1.json.imported"), ids[0]).unwrap();
    fs::write(data.join("fault-1.txt"), ids[1]).unwrap();
    // Copies that somebody made, beside it and on the stick: named, and theirs to keep.
    fs::write(data.join("journal-backup.json"), "a copy").unwrap();
    let erase = |word: &str| {
        let mut child = command(folder, &["journal", "erase"])
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        let _ = std::io::Write::write_all(&mut child.stdin.take().unwrap(), word.as_bytes());
        child.wait_with_output().unwrap()
    };
    let before = everything_in(&data);
    for word in ["", "y\n", "Erase\n", "erase it\n", " erase\n"] {
        assert!(refused(&erase(word)).contains("nothing was erased"), "{word}");
        assert_eq!(everything_in(&data), before, "{word}");
    }
    let told = erase("erase\n");
    let said = String::from_utf8(told.stdout).unwrap();
    assert!(told.status.success() && said.contains("Erased: 6 files."), "{said}");
    let stick = fs::read_dir(folder.join("stick/counterpoise")).unwrap().next().unwrap().unwrap().path();
    for copy in [data.join("journal-backup.json"), stick] {
        assert!(said.contains(&copy.display().to_string()) && copy.exists(), "{}: {said}", copy.display());
    }
    let left = everything_in(&data);
    let holds = |mark: &str| left.windows(mark.len()).any(|window| window == mark.as_bytes());
    assert!(holds("a copy") && !holds("SQLite format 3"));
    for mark in ids.into_iter().chain(["a-reason-of-nobody-else", "Gentle start", "2026-01-05"]) {
        assert!(!holds(mark), "{mark} is still there");
    }
    assert!(refused(&erase("erase\n")).contains("nothing to erase"));
    assert!(printed(folder, &["journal", "list"]).contains("Nothing has been practiced yet"));
}
