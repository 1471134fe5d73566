//! The `equipment` command: do sound, screen and journal work here? It changes nothing.

use std::fs::{self, File};
use std::io::{self, IsTerminal, Write};
use std::path::Path;
use std::thread;
use std::time::Duration;

use super::Failure;
use super::page::{Output, show};
use crate::audio::{Bank, CueEvent, Frame, OutputEvent, Speaker, Voice, device};
use crate::clock::Clock;
use crate::display::terminal;
use crate::journal::{Folder, Journal};
use crate::settings::Settings;
use counterpoise_core::blocks::Block;
use counterpoise_core::units::Millis;
use counterpoise_core::words::counted;

/// How long the sound output is watched in one round.
const WATCH: Millis = Millis(2_000);
/// How long it may take to start, before its frames are counted.
const SETTLE: Millis = Millis(500);
/// How many rounds it is watched while it does not keep time: a sleeping output may take seconds to wake.
const ROUNDS: u32 = 3;
/// How far the number of frames may be off, in percent \[judgment\]: a few blocks. A device that plays to nobody may run
/// through a set in a second.
const PACE: u64 = 10;
/// How often the output is polled.
const POLL: Duration = Duration::from_millis(20);
/// The phrase that is played.
const SENTENCE: &str = "practice.hello";

/// The options of `equipment`.
#[derive(Debug, Clone, clap::Args)]
#[command(after_help = "Examples:\n  \
    counterpoise equipment                     plays a sentence and reports what works\n  \
    counterpoise equipment --quiet             the same without sound\n  \
    counterpoise equipment --device ID         tries another output from its list")]
pub(super) struct Arguments {
    /// Measure without playing anything
    #[arg(long)]
    quiet: bool,
    /// The sound output [default: the one in the settings, else the system's]
    #[arg(long, value_name = "ID")]
    device: Option<String>,
}

pub(super) fn run(
    arguments: &Arguments,
    folder: &Result<Folder, Failure>,
    out: &mut impl Write,
) -> Result<Output, Failure> {
    let settings = folder.as_ref().ok().map(Settings::load);
    let chosen = match &settings {
        Some(Ok(settings)) => settings.device.clone(),
        _ => None,
    };
    show(&sound(arguments.device.clone().or(chosen).as_deref(), arguments.quiet)?, out)?;
    let mut page = vec![Block::Gap];
    page.extend(Block::section("Screen", screen()));
    page.push(Block::heading("Journal and settings"));
    let mut findings = Vec::new();
    match folder {
        Ok(folder) => {
            page.push(Block::item(format!("Folder: {}", folder.path().display())));
            findings.extend([writable(folder), journal(folder)]);
        }
        Err(failure) => findings.push(Err(failure.clone())),
    }
    findings.extend(settings.map(|settings| {
        let settings = settings.map_err(Failure::from)?;
        Ok(format!("The settings are in order; voice: {}.", settings.voice.name()))
    }));
    let problems = findings.iter().filter(|finding| finding.is_err()).count();
    page.extend(findings.into_iter().flat_map(finding));
    if problems == 0 {
        return Ok(page.into());
    }
    show(&page, out)?;
    Err(Failure::new(
        match problems {
            1 => "one thing keeps practice from starting".to_owned(),
            _ => format!("{problems} things keep practice from starting"),
        },
        "See the lines above that begin with PROBLEM.",
    ))
}

/// A hint may end with a command or a path, and then has no stop of its own.
fn sentence(hint: &str) -> String {
    let ends = hint.ends_with(['.', '!', '?']);
    format!("{hint}{}", if ends { "" } else { "." })
}

/// What is in order, or the problem and what to try.
fn finding(finding: Result<String, Failure>) -> Vec<Block> {
    match finding {
        Ok(text) => vec![Block::item(text)],
        Err(failure) => {
            [format!("PROBLEM: {}.", failure.fact()), sentence(failure.hint())].map(Block::item).into()
        }
    }
}

/// No sound output is no problem: practice then runs on the screen.
fn sound(id: Option<&str>, quiet: bool) -> Result<Vec<Block>, Failure> {
    let lines = match device::open(id) {
        Ok(mut output) => measure(&mut output, quiet)?,
        Err(error) => vec![format!("No sound: {error}."), sentence(Failure::from(error).hint())],
    };
    let mut page: Vec<Block> = Block::section("Sound", lines).collect();
    match device::list() {
        Ok(listed) if listed.is_empty() => page.push(Block::item("The system lists no sound outputs.")),
        Ok(listed) => {
            page.push(Block::item("Outputs that the system lists (for --device):"));
            let name = |name: &str| name.lines().collect::<Vec<_>>().join(", ");
            let line = |output: &device::OutputDevice| format!("    {}: {}", output.id, name(&output.name));
            page.push(Block::Verbatim(listed.iter().map(line).collect()));
        }
        Err(error) => page.push(Block::item(format!("The outputs cannot be listed: {error}."))),
    }
    Ok(page)
}

fn measure(output: &mut crate::audio::Output, quiet: bool) -> Result<Vec<String>, Failure> {
    let bank = Bank::load(output.rate(), Voice::Lower, [SENTENCE])?;
    if let Some(clip) = bank.get(SENTENCE).filter(|_| !quiet) {
        Speaker::default().say(output, 0, clip);
    }
    let clock = Clock::real();
    let mut seen = Seen::default();
    seen.watch(output, &clock, SETTLE);
    let (mut rounds, mut pace);
    rounds = 0;
    loop {
        rounds += 1;
        (seen.breaks, pace) = (0, Pace::of(output, &clock));
        seen.watch(output, &clock, WATCH);
        pace.end(output, &clock);
        if seen.lost || rounds == ROUNDS || (pace.is_kept() && (quiet || seen.said)) {
            break;
        }
    }
    let facts = output.facts();
    let mut lines = vec![
        format!("Output: {} ({}), through {}.", facts.device, facts.id, facts.host),
        format!("Rate: {}; block: {} frames.", facts.rate, facts.block),
        facts.lead.map_or_else(
            || "Delay: not reported by the device.".to_owned(),
            |lead| {
                let lead = lead.as_millis();
                format!("Delay, as the device estimates it: {lead} ms. A wireless speaker or a television adds more.")
            },
        ),
    ];
    lines.push(if seen.lost {
        "The output was lost during the test.".to_owned()
    } else if !pace.is_kept() {
        let Pace { taken, due, .. } = pace;
        format!(
            "It does not keep time: it took {taken} frames instead of {due}. Choose another output with --device."
        )
    } else if seen.breaks > 0 {
        format!("It had {} in {WATCH}. Close other programs.", counted(seen.breaks, "break"))
    } else if rounds > 1 {
        format!("It was slow to start, and then ran for {WATCH} without a break.")
    } else {
        format!("It ran for {WATCH} without a break.")
    });
    if seen.said {
        lines.push(
            "A sentence was played. If you did not hear it, check the volume and the cable.".to_owned(),
        );
    } else if !quiet {
        lines.push("The sentence was cut short.".to_owned());
    }
    Ok(lines)
}

/// What happened on an output while it was watched.
#[derive(Default)]
struct Seen {
    breaks: u32,
    lost: bool,
    said: bool,
}

impl Seen {
    fn watch(&mut self, output: &mut crate::audio::Output, clock: &Clock, length: Millis) {
        let end = clock.now() + length;
        while clock.now() < end && !self.lost {
            while let Some(event) = output.poll() {
                match event {
                    OutputEvent::Xrun => self.breaks += 1,
                    OutputEvent::Lost => self.lost = true,
                    OutputEvent::Cue(CueEvent::Finished { .. }) => self.said = true,
                    _ => {}
                }
            }
            thread::sleep(POLL);
        }
    }
}

/// The frames that an output took, and those that were due.
struct Pace {
    from: (Frame, Millis),
    taken: u64,
    due: u64,
}

impl Pace {
    fn of(output: &crate::audio::Output, clock: &Clock) -> Self {
        Self { from: (output.now(), clock.now()), taken: 0, due: 0 }
    }

    fn end(&mut self, output: &crate::audio::Output, clock: &Clock) {
        let (frame, at) = self.from;
        self.taken = (output.now() - frame).0;
        self.due = output.rate().frames(clock.now() - at).0;
    }

    fn is_kept(&self) -> bool {
        self.taken.abs_diff(self.due) * 100 <= self.due * PACE
    }
}

fn screen() -> Vec<String> {
    let own = str::to_owned;
    if !(io::stdin().is_terminal() && io::stdout().is_terminal()) {
        return vec![own("Not a terminal: practice needs --plain here.")];
    }
    if terminal::is_dumb() {
        return vec![own(
            "A terminal that can only write lines (TERM is dumb): practice needs --plain here.",
        )];
    }
    let mut lines = match crossterm::terminal::size() {
        Ok(said) if terminal::believed(said) != said => {
            vec![format!(
                "The terminal says that it has {} columns and {} rows: its size is not known.",
                said.0, said.1
            )]
        }
        Ok((columns, rows)) => {
            let small = (columns < 80 || rows < 24)
                .then(|| own("Pages may be cut off. Make the window at least 80 by 24."));
            let size = format!("Terminal of {columns} columns and {rows} rows.");
            std::iter::once(size).chain(small).collect()
        }
        Err(error) => vec![format!("The size of the terminal is not known ({error}).")],
    };
    lines.push(own("Large letters are made of these characters: █▛▜▙▟▀▄▌▐"));
    lines.push(own("If you do not see blocks here, use another font, or practice with --plain."));
    lines
}

/// Bytes that the disk must have room for: twice as many as a practice needs to start.
const ROOM: usize = 512 * 1024;

/// Tries to write a file in the folder or, if it does not exist yet, in the one that will contain it.
fn writable(folder: &Folder) -> Result<String, Failure> {
    let there = folder.path().is_dir();
    let place = folder.path().ancestors().find(|path| path.is_dir()).unwrap_or(Path::new("."));
    let probe = place.join(format!(".counterpoise-equipment-{}", std::process::id()));
    let written = File::create_new(&probe).and_then(|mut file| {
        file.write_all(&vec![0; ROOM])?;
        file.sync_all()
    });
    // If it could not be created, there is nothing to remove.
    let _ = fs::remove_file(&probe);
    written.map_err(|error| {
        let hint = match error.kind() {
            io::ErrorKind::StorageFull => "Free some disk space.",
            _ => "Make the folder writable, or name another one with --data-dir DIR.",
        };
        Failure::new(format!("{} cannot be written: {error}", place.display()), hint)
    })?;
    Ok(if there {
        "The folder can be written.".to_owned()
    } else {
        "The folder does not exist yet. It will be created at the first practice.".to_owned()
    })
}

fn journal(folder: &Folder) -> Result<String, Failure> {
    let sessions = Journal::look(folder)?.contents()?.sessions.len();
    Ok(match sessions {
        0 => "The journal is in order; nothing has been practiced yet.".to_owned(),
        sessions => format!("The journal is in order and has {}.", counted(sessions, "session")),
    })
}
