//! The emergency page on a real pseudo-terminal, as a person meets it: it stays whatever is pressed, and leaves by its own key.
#![cfg(unix)]

use std::io::Write;
use std::sync::mpsc::Receiver;
use std::time::{Duration, Instant};

use portable_pty::{CommandBuilder, MasterPty, PtySize, native_pty_system};

use crate::run::pieces;

/// Long enough for a loaded machine; no test asserts on how long anything took.
const PATIENCE: Duration = Duration::from_secs(60);
/// Longer than the time in which the same key does not count again.
const NEXT_KEY: Duration = Duration::from_millis(800);

struct Practice {
    _master: Box<dyn MasterPty + Send>,
    keyboard: Box<dyn Write + Send>,
    drawn: Receiver<Vec<u8>>,
    so_far: String,
}

impl Practice {
    fn press(&mut self, keys: &str) -> &mut Self {
        for key in keys.chars() {
            std::thread::sleep(NEXT_KEY);
            self.keyboard.write_all(key.to_string().as_bytes()).unwrap();
        }
        self
    }

    /// Waits until this stands on the screen. It is drawn anew again and again (Ctrl-L): of a change only what differs is
    /// written.
    fn until(&mut self, wanted: &str) -> &mut Self {
        let end = Instant::now() + PATIENCE;
        loop {
            if self.so_far.contains(wanted) {
                self.so_far.clear();
                return self;
            }
            assert!(Instant::now() < end, "{wanted:?} never came: {:?}", self.so_far);
            match self.drawn.recv_timeout(Duration::from_millis(300)) {
                Ok(bytes) => self.so_far.push_str(&String::from_utf8_lossy(&bytes)),
                Err(_) => self.keyboard.write_all(b"\x0c").unwrap(),
            }
        }
    }
}

#[test]
fn the_emergency_page_stays_whatever_is_pressed_and_leaves_by_its_own_key() {
    for (rows, cols) in [(24, 80), (40, 120)] {
        let place = tempfile::tempdir().unwrap();
        std::fs::create_dir_all(place.path().join("data")).unwrap();
        let settings =
            "schema = \"counterpoise.settings/1\"\nemergency_number = \"112\"\ncontact = \"Ann, 555 0100\"\n";
        std::fs::write(place.path().join("data/settings.toml"), settings).unwrap();
        let pair =
            native_pty_system().openpty(PtySize { rows, cols, pixel_width: 0, pixel_height: 0 }).unwrap();
        let mut command = CommandBuilder::new(env!("CARGO_BIN_EXE_counterpoise"));
        command.args(["practice", "gentle", "--silent"]);
        command.env("COUNTERPOISE_DATA", place.path().join("data"));
        command.env("TERM", "xterm-256color");
        command.cwd(place.path());
        let mut child = pair.slave.spawn_command(command).unwrap();
        drop(pair.slave);
        let drawn = pieces(pair.master.try_clone_reader().unwrap());
        let keyboard = pair.master.take_writer().unwrap();
        let mut practice = Practice { _master: pair.master, keyboard, drawn, so_far: String::new() };
        // To the warm-up, left out after its question; then stopped in the set: no fall, unwell, chest pain.
        practice.until("leave").press("\r  nnnnnnnnny").until("Warm-up").press(".").until("Leave").press("y");
        practice.until("stand").press(" ").until("pause").press("s").until("fall").press("n1");
        practice.until("chest").press("1").until("Then call: Ann, 555 0100");
        practice.until("Unlock").until("clinician").until("L: leave this page");
        practice.press("\r s.").until("Keys").press("q");
        assert!(child.try_wait().unwrap().is_none(), "it is still there");
        practice.press("l");
        assert!(child.wait().unwrap().success());
    }
}
