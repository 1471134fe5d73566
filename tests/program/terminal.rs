//! Is the terminal taken, drawn on and given back on every way out? On a real pseudo-terminal, in a process of its own.
//!
//! Each test starts this test program again, as the one that holds the terminal ([`hold`]); a shell around it compares
//! the terminal's modes before and after with `stty` of the system.
#![cfg(unix)]

use std::io::Write;
use std::path::PathBuf;
use std::process::Command;
use std::sync::mpsc::{self, Receiver};
use std::time::{Duration, Instant};
use std::{env, fs, thread};

use counterpoise::display::Input;
use counterpoise::display::terminal::{Terminal, watch_signals};
use counterpoise_core::plan::direction::Direction;
use counterpoise_core::practice::session::Key;
use counterpoise_core::practice::session::screen::{Body, Screen, ShownCall};
use counterpoise_core::units::Millis;
use portable_pty::{Child, CommandBuilder, MasterPty, PtySize, native_pty_system};

use crate::run::pieces;

/// Names the folder in which the process that holds the terminal tells what it got.
const FOLDER: &str = "COUNTERPOISE_TEST_FOLDER";
/// What it does besides: `panic`, `panic elsewhere`, `no signals`.
const MANNER: &str = "COUNTERPOISE_TEST_MANNER";

/// Long enough for a loaded machine; no test asserts on how long anything took.
const PATIENCE: Duration = Duration::from_secs(30);

fn work(left: u32, call: bool) -> Screen {
    let call = call.then(|| ShownCall { words: "REACH LEFT".into(), direction: Direction::Left, cue: 0 });
    let body = Body::Work { call, left: Millis(left), whole: Millis(60_000) };
    Screen { place: "Set 2 of 3".into(), body, keys: vec![], notices: vec![] }
}

/// Holds the terminal when this process was started for that, and tells what came.
fn hold() {
    let Some(folder) = env::var_os(FOLDER).map(PathBuf::from) else { return };
    let manner = env::var(MANNER).unwrap_or_default();
    fs::write(folder.join("pid"), std::process::id().to_string()).unwrap();
    if manner != "no signals" {
        watch_signals().unwrap();
    }
    let mut told = fs::File::create(folder.join("told")).unwrap();
    let mut terminal = Terminal::enter().unwrap();
    let start = Instant::now();
    loop {
        let left = 60_000 - start.elapsed().as_millis() as u32;
        if terminal.show(&work(left, false)).is_err() {
            writeln!(told, "cannot draw").unwrap();
            break;
        }
        match terminal.poll(Duration::from_millis(20)) {
            Input::Key(Key::Char('p')) if manner == "panic" => panic!("the invariant of the test"),
            Input::Key(Key::Char('p')) if manner == "panic elsewhere" => {
                thread::spawn(|| panic!("the invariant of the test"));
            }
            Input::Key(key) => writeln!(told, "{key:?}").unwrap(),
            Input::Close => {
                writeln!(told, "close").unwrap();
                break;
            }
            Input::Nothing => {}
        }
    }
    drop(terminal);
    std::process::exit(0);
}

/// The other side of the terminal.
struct Watcher {
    folder: tempfile::TempDir,
    master: Option<Box<dyn MasterPty + Send>>,
    keyboard: Option<Box<dyn Write + Send>>,
    written: Receiver<Vec<u8>>,
    so_far: Vec<u8>,
    child: Box<dyn Child + Send + Sync>,
}

impl Watcher {
    /// Starts the test named `test` again on a new terminal.
    fn start(test: &str, manner: &str) -> Self {
        let folder = tempfile::tempdir().unwrap();
        let pair = native_pty_system()
            .openpty(PtySize { rows: 24, cols: 80, pixel_width: 0, pixel_height: 0 })
            .unwrap();
        let ignore = if manner == "no signals" { "trap '' HUP; " } else { "" };
        let script = format!(
            "{ignore}before=$(stty -g); \"$0\" --exact terminal::{test} --nocapture; \
             if [ \"$before\" = \"$(stty -g)\" ]; then echo MODES AS BEFORE; else echo MODES CHANGED; fi"
        );
        let mut command = CommandBuilder::new("sh");
        command.args(["-c", &script]);
        command.arg(env::current_exe().unwrap());
        command.env(FOLDER, folder.path());
        command.env(MANNER, manner);
        command.env("TERM", "xterm-256color");
        let child = pair.slave.spawn_command(command).unwrap();
        drop(pair.slave);
        let written = pieces(pair.master.try_clone_reader().unwrap());
        let keyboard = pair.master.take_writer().unwrap();
        Self { folder, master: Some(pair.master), keyboard: Some(keyboard), written, so_far: vec![], child }
    }

    fn text(&self) -> String {
        String::from_utf8_lossy(&self.so_far).into_owned()
    }

    /// Reads until `wanted` was written after the first `from` bytes.
    fn until(&mut self, from: usize, wanted: &str) {
        let end = Instant::now() + PATIENCE;
        while !String::from_utf8_lossy(&self.so_far[from..]).contains(wanted) {
            let left = end.saturating_duration_since(Instant::now());
            match self.written.recv_timeout(left) {
                Ok(bytes) => self.so_far.extend(bytes),
                Err(error) => panic!("{wanted:?} never came ({error}): {:?}", self.text()),
            }
        }
    }

    fn press(&mut self, bytes: &[u8]) {
        let keyboard = self.keyboard.as_mut().unwrap();
        keyboard.write_all(bytes).unwrap();
        keyboard.flush().unwrap();
    }

    /// Waits until the process has told `wanted`; everything that it told.
    fn told(&self, wanted: &str) -> Vec<String> {
        self.told_any(&[wanted])
    }

    fn told_any(&self, wanted: &[&str]) -> Vec<String> {
        let end = Instant::now() + PATIENCE;
        loop {
            let told = fs::read_to_string(self.folder.path().join("told")).unwrap_or_default();
            if told.lines().any(|line| wanted.contains(&line)) {
                return told.lines().map(str::to_owned).collect();
            }
            assert!(Instant::now() < end, "none of {wanted:?} was told, but {told:?}");
            thread::sleep(Duration::from_millis(10));
        }
    }

    fn signal(&self, name: &str) {
        let pid = fs::read_to_string(self.folder.path().join("pid")).unwrap();
        assert!(Command::new("kill").args(["-s", name, &pid]).status().unwrap().success());
    }

    /// The cursor shows, the ordinary screen is back, and the modes are those from before.
    fn given_back(mut self) -> String {
        self.until(0, "MODES ");
        self.child.wait().unwrap();
        let text = self.text();
        let last =
            |sequence: &str| text.rfind(sequence).unwrap_or_else(|| panic!("no {sequence:?} in {text:?}"));
        assert!(last("\x1b[?1049l") > last("\x1b[?1049h"), "the ordinary screen: {text:?}");
        assert!(last("\x1b[?25h") > last("\x1b[?25l"), "the cursor: {text:?}");
        assert!(text.contains("MODES AS BEFORE"), "{text:?}");
        text
    }
}

#[test]
fn keys_come_one_by_one_and_control_c_gives_the_terminal_back() {
    hold();
    let mut watcher = Watcher::start("keys_come_one_by_one_and_control_c_gives_the_terminal_back", "");
    watcher.until(0, "Set 2 of 3");
    let keys: [(&[u8], &str); 6] = [
        (b"n", "Char('n')"),
        (b"\r", "Enter"),
        (b"\x1b[", "Other"),
        (b"\x1b", "Escape"),
        ("é".as_bytes(), "Char('é')"),
        (b"qwertz", "Char('q')"),
    ];
    for (bytes, key) in keys {
        watcher.press(bytes);
        watcher.told(key);
    }
    watcher.press(b"\x1a");
    watcher.press(b"x");
    watcher.told("Char('x')");
    watcher.press(b"\x03");
    let told = watcher.told("close");
    let wanted: Vec<_> = keys.iter().map(|(_, key)| *key).chain(["Char('x')", "close"]).collect();
    assert_eq!(told, wanted, "a pasted text is one key, and Ctrl-Z none");
    watcher.given_back();
}

#[test]
fn a_signal_closes_and_gives_the_terminal_back() {
    hold();
    for signal in ["TERM", "INT", "HUP"] {
        let mut watcher = Watcher::start("a_signal_closes_and_gives_the_terminal_back", "");
        watcher.until(0, "Set 2 of 3");
        watcher.signal(signal);
        assert_eq!(watcher.told("close"), ["close"], "{signal}");
        watcher.given_back();
    }
}

#[test]
fn a_panic_is_read_on_the_ordinary_screen() {
    hold();
    for manner in ["panic", "panic elsewhere"] {
        let mut watcher = Watcher::start("a_panic_is_read_on_the_ordinary_screen", manner);
        watcher.until(0, "Set 2 of 3");
        watcher.press(b"p");
        let text = watcher.given_back();
        let message = text.find("the invariant of the test").expect("the message of the panic");
        assert!(message > text.find("\x1b[?1049l").unwrap(), "{manner}: {text:?}");
    }
}

#[test]
fn a_closed_terminal_closes() {
    hold();
    for manner in ["", "no signals"] {
        let mut watcher = Watcher::start("a_closed_terminal_closes", manner);
        watcher.until(0, "Set 2 of 3");
        watcher.keyboard = None;
        watcher.master = None;
        // The reading side of the watcher holds the terminal open until its thread sees that nobody listens.
        let (_, nothing) = mpsc::channel();
        watcher.written = nothing;
        watcher.told_any(&["close", "cannot draw"]);
        watcher.child.wait().unwrap();
    }
}

#[test]
fn a_resized_terminal_is_drawn_anew_and_an_unchanged_one_is_left_alone() {
    hold();
    let mut watcher =
        Watcher::start("a_resized_terminal_is_drawn_anew_and_an_unchanged_one_is_left_alone", "");
    watcher.until(0, "Set 2 of 3");
    for (cols, rows) in [(120, 40), (1, 1), (30, 8), (80, 24)] {
        let from = watcher.so_far.len();
        watcher
            .master
            .as_ref()
            .unwrap()
            .resize(PtySize { rows, cols, pixel_width: 0, pixel_height: 0 })
            .unwrap();
        watcher.until(from, "\x1b[2J");
    }
    // A few drawings more: what is written is the seconds and now and then a cell of the bar, never the letters again.
    let from = watcher.so_far.len();
    watcher.until(from, "\x1b[?2026l");
    let after = watcher.so_far.len();
    for _ in 0..4 {
        let before = watcher.so_far.len();
        watcher.until(before, "\x1b[?2026l");
    }
    let drawn = String::from_utf8_lossy(&watcher.so_far[after..]).matches('█').count();
    assert!(drawn < 10, "{drawn} blocks were drawn again");
    watcher.press(b"\x03");
    watcher.given_back();
}
