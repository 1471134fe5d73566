//! How soon does a practice stand on the screen, and what does it cost this computer while it runs? The program itself,
//! on a pseudo-terminal of 80 by 24, over whatever sound output there is. Linux only: it reads `/proc`.
//!
//! `cargo bench --bench practice`

use std::io::{Read, Write};
use std::path::Path;
use std::process::Command;
use std::sync::mpsc::{self, Receiver};
use std::time::{Duration, Instant};
use std::{fs, thread};

use portable_pty::{Child, CommandBuilder, MasterPty, PtySize, native_pty_system};

const PROGRAM: &str = env!("CARGO_BIN_EXE_counterpoise");
/// Starts of each kind: enough for a median that a busy machine does not move much.
const STARTS: usize = 40;
/// A word of the first page.
const FIRST: &str = "go on";
/// From the first page to the work: two pages, four confirmations, no sound check, and the key that starts the set.
const KEYS: &[u8] = b"\r\raaaag  ";
/// A held key is not taken twice; this is slow enough to be meant.
const BETWEEN: Duration = Duration::from_secs(1);
/// "Find your place", the count of five, and the first call.
const INTO_WORK: Duration = Duration::from_secs(15);
/// How long the work is watched.
const WATCHED: Duration = Duration::from_secs(30);

/// The program on a terminal of its own.
struct Practice {
    begun: Instant,
    child: Box<dyn Child + Send + Sync>,
    _master: Box<dyn MasterPty + Send>,
    keyboard: Box<dyn Write + Send>,
    written: Receiver<Vec<u8>>,
}

impl Practice {
    fn start(folder: &Path) -> Self {
        let size = PtySize { rows: 24, cols: 80, pixel_width: 0, pixel_height: 0 };
        let pair = native_pty_system().openpty(size).expect("a pseudo-terminal");
        let mut command = CommandBuilder::new(PROGRAM);
        command.args(["practice", "--data-dir"]);
        command.arg(folder);
        command.env("TERM", "xterm-256color");
        let begun = Instant::now();
        let child = pair.slave.spawn_command(command).expect("the program starts");
        drop(pair.slave);
        let mut reader = pair.master.try_clone_reader().expect("the terminal's other side");
        let keyboard = pair.master.take_writer().expect("the terminal's keyboard");
        let (tell, written) = mpsc::channel();
        thread::spawn(move || {
            let mut bytes = [0; 4096];
            while let Ok(length @ 1..) = reader.read(&mut bytes) {
                if tell.send(bytes[..length].to_vec()).is_err() {
                    return;
                }
            }
        });
        Self { begun, child, _master: pair.master, keyboard, written }
    }

    /// From the start of the process to the words of the first page.
    fn first_frame(&mut self) -> Duration {
        let mut so_far = Vec::new();
        loop {
            so_far.extend(self.written.recv_timeout(Duration::from_secs(30)).expect("a first page"));
            if String::from_utf8_lossy(&so_far).contains(FIRST) {
                return self.begun.elapsed();
            }
        }
    }

    fn key(&mut self, key: u8) {
        self.keyboard.write_all(&[key]).and_then(|()| self.keyboard.flush()).expect("a key");
        thread::sleep(BETWEEN);
    }

    fn id(&self) -> u32 {
        self.child.process_id().expect("a running program")
    }
}

impl Drop for Practice {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// Start of a process that only says its version, to its end: what no program of this size can do without.
fn version() -> Duration {
    let begun = Instant::now();
    let output = Command::new(PROGRAM).arg("--version").output().expect("the program starts");
    assert!(output.status.success());
    begun.elapsed()
}

fn median_and_worst(mut times: Vec<Duration>) -> (Duration, Duration) {
    times.sort_unstable();
    (times[times.len() / 2], times[times.len() - 1])
}

/// A line of `/proc/ID/status` that gives kibibytes.
fn kibibytes(id: u32, field: &str) -> u64 {
    let status = fs::read_to_string(format!("/proc/{id}/status")).expect("a running program");
    let line = status.lines().find_map(|line| line.strip_prefix(field)).expect("a field of proc(5)");
    line.trim_start_matches(':').trim().trim_end_matches(" kB").parse().expect("a number")
}

/// User and system time of all threads, in clock ticks of a hundredth of a second (`proc(5)`; `getconf CLK_TCK` is 100
/// on every Linux that runs today).
fn ticks(id: u32) -> u64 {
    let stat = fs::read_to_string(format!("/proc/{id}/stat")).expect("a running program");
    // The name may hold spaces; behind its bracket, user and system time are the 12th and 13th field.
    let fields: Vec<&str> = stat.rsplit(')').next().unwrap_or_default().split_whitespace().collect();
    fields[11].parse::<u64>().expect("a number") + fields[12].parse::<u64>().expect("a number")
}

fn main() {
    if !cfg!(target_os = "linux") {
        println!("Not run: this reads /proc, which only Linux has.");
        return;
    }
    let folder = || tempfile::tempdir().expect("a folder for a journal");
    let usual = folder();
    // Side by side, in turns, so that what else the machine does falls on all.
    let (mut first, mut usually, mut least) = (Vec::new(), Vec::new(), Vec::new());
    for _ in 0..STARTS {
        let new = folder();
        first.push(Practice::start(new.path()).first_frame());
        usually.push(Practice::start(usual.path()).first_frame());
        least.push(version());
    }
    let (bare, _) = median_and_worst(least);
    for (what, times) in [("a journal that is there", usually), ("a new journal", first)] {
        let (frame, worst) = median_and_worst(times);
        let ratio = frame.as_secs_f64() / bare.as_secs_f64();
        println!("first page, {what}: median {frame:.1?}, worst {worst:.1?}; {ratio:.1} times `--version`");
    }
    println!("`--version`: median {bare:.1?}; {STARTS} starts each");

    let mut practice = Practice::start(usual.path());
    practice.first_frame();
    for key in KEYS {
        practice.key(*key);
    }
    thread::sleep(INTO_WORK);
    let id = practice.id();
    let (before, begun) = (ticks(id), Instant::now());
    thread::sleep(WATCHED);
    let used = (ticks(id) - before) as f64 / 100.0;
    println!(
        "in a set:   {:.1} % of one core over {WATCHED:.0?}",
        100.0 * used / begun.elapsed().as_secs_f64()
    );
    println!(
        "            {:.1} MB resident, {:.1} MB at most so far",
        kibibytes(id, "VmRSS") as f64 * 1024.0 / 1e6,
        kibibytes(id, "VmHWM") as f64 * 1024.0 / 1e6
    );
    let screen: Vec<u8> = practice.written.try_iter().flatten().collect();
    let silent = String::from_utf8_lossy(&screen).contains("NO SOUND");
    println!("            {}", if silent { "without a sound output" } else { "with sound" });
}
