//! Finds out whether sound, screen and journal work here, and says so plainly. Repairs nothing.

use std::env;
use std::fs::{self, File};
use std::io::{self, IsTerminal, Write};
use std::path::Path;
use std::thread;
use std::time::Duration;

use super::Failure;
use super::wrap::wrapped;
use crate::audio::{Bank, Output, OutputEvent, Speaker, Voice, device};
use crate::clock::Clock;
use crate::journal::{Folder, Journal};
use crate::millis::Millis;
use crate::settings::Settings;

/// How long the sound output is watched.
const WATCH: Millis = Millis(2_500);
/// How long it may take to get going, before its frames are counted.
const SETTLE: Millis = Millis(500);
/// The frames that a device takes are off by no more than a few blocks, in per cent \[judgment\]; one that plays to
/// nobody may run through a set in a second.
const PACE: u64 = 10;
/// How often it is asked.
const POLL: Duration = Duration::from_millis(20);
/// What is said.
const SENTENCE: &str = "practice.hello";

/// What to look at.
#[derive(Debug, Clone, clap::Args)]
#[command(after_help = "Examples:\n  \
    counterpoise doctor                     says a sentence and tells what works\n  \
    counterpoise doctor --quiet             the same without a sound\n  \
    counterpoise doctor --device ID         tries another output of its list")]
pub(super) struct Arguments {
    /// Measure without saying anything
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
) -> Result<(), Failure> {
    let mut problems = 0;
    let settings = folder.as_ref().ok().map(Settings::load);
    let chosen = match &settings {
        Some(Ok(settings)) => settings.device.clone(),
        _ => None,
    };
    sound(arguments.device.clone().or(chosen).as_deref(), arguments.quiet, out)?;
    screen(out)?;
    section("Journal and settings", out)?;
    match folder {
        Ok(folder) => {
            line(&format!("Folder: {}", folder.path().display()), out)?;
            problems += tell(writable(folder), out)?;
            problems += tell(journal(folder), out)?;
        }
        Err(failure) => problems += tell(Err(failure.clone()), out)?,
    }
    if let Some(settings) = settings {
        let ok =
            settings.map(|settings| format!("The settings are in order; voice: {}.", settings.voice.name()));
        problems += tell(ok.map_err(Failure::from), out)?;
    }
    out.flush()?;
    if problems == 0 {
        return Ok(());
    }
    Err(Failure::new(
        format!("{problems} thing(s) keep practice from being saved"),
        "See the lines above that begin with PROBLEM.",
    ))
}

fn section(title: &str, out: &mut impl Write) -> io::Result<()> {
    writeln!(out, "{title}")
}

fn line(text: &str, out: &mut impl Write) -> io::Result<()> {
    writeln!(out, "{}", wrapped("  ", text))
}

/// Prints what is in order, or the problem and what to try; gives the number of problems.
fn tell(finding: Result<String, Failure>, out: &mut impl Write) -> io::Result<u32> {
    match finding {
        Ok(text) => line(&text, out).map(|()| 0),
        Err(failure) => {
            line(&format!("PROBLEM: {}.", failure.fact()), out)?;
            line(failure.hint(), out)?;
            Ok(1)
        }
    }
}

/// No sound output is no problem: practice then runs on the screen.
fn sound(id: Option<&str>, quiet: bool, out: &mut impl Write) -> Result<(), Failure> {
    section("Sound", out)?;
    match device::open(id) {
        Ok(mut output) => measure(&mut output, quiet, out)?,
        Err(error) => {
            line(&format!("Nothing can be heard: {error}."), out)?;
            line("Practice works without sound: the calls then stand on the screen only.", out)?;
            line(Failure::from(error).hint(), out)?;
        }
    }
    match device::list() {
        Ok(listed) if listed.is_empty() => line("The system lists no sound outputs.", out)?,
        Ok(listed) => {
            line("Outputs that the system lists (for --device):", out)?;
            for output in listed {
                writeln!(out, "    {}   {}", output.id, output.name.lines().collect::<Vec<_>>().join(", "))?;
            }
        }
        Err(error) => line(&format!("The outputs cannot be listed: {error}."), out)?,
    }
    writeln!(out)?;
    Ok(())
}

fn measure(output: &mut Output, quiet: bool, out: &mut impl Write) -> Result<(), Failure> {
    let bank = Bank::load(output.rate(), Voice::Lower, [SENTENCE])?;
    if let Some(clip) = bank.get(SENTENCE).filter(|_| !quiet) {
        Speaker::default().say(output, 0, clip);
    }
    let clock = Clock::real();
    let (mut underruns, mut lost, mut said) = (0, false, false);
    let mut from = None;
    while clock.now() < WATCH && !lost {
        if from.is_none() && clock.now() >= SETTLE {
            from = Some((output.now(), clock.now()));
        }
        while let Some(event) = output.poll() {
            match event {
                OutputEvent::Xrun => underruns += 1,
                OutputEvent::Lost => lost = true,
                OutputEvent::Finished { .. } => said = true,
                _ => {}
            }
        }
        thread::sleep(POLL);
    }
    let facts = output.facts();
    line(&format!("Output: {} ({}), through {}.", facts.device, facts.id, facts.host), out)?;
    line(&format!("Rate: {}; block: {} frames.", facts.rate, facts.block), out)?;
    line(
        &match facts.lead {
            Some(lead) => format!(
                "Lead, as the device estimates it: {} ms. A wireless speaker or a television adds to it.",
                lead.as_millis()
            ),
            None => "Lead: the device does not tell.".to_owned(),
        },
        out,
    )?;
    line(
        &match (lost, underruns) {
            (true, _) => "The output was lost while it was tried.".to_owned(),
            (false, 0) => format!("It ran for {WATCH} without a break."),
            (false, breaks) => format!("It had {breaks} break(s) in {WATCH}: close other programs."),
        },
        out,
    )?;
    if let Some((frame, at)) = from.filter(|_| !lost) {
        let planned = output.rate().frames(clock.now() - at).0;
        let taken = (output.now() - frame).0;
        if taken.abs_diff(planned) * 100 > planned * PACE {
            let text = format!(
                "It does not keep time: {taken} frames where {planned} belong. Choose another output with --device."
            );
            line(&text, out)?;
        }
    }
    if said {
        line("A sentence was played. If you did not hear it, check the volume and the cable.", out)?;
    } else if !quiet {
        line("The sentence was not played to its end.", out)?;
    }
    Ok(())
}

fn screen(out: &mut impl Write) -> io::Result<()> {
    section("Screen", out)?;
    if io::stdin().is_terminal() && io::stdout().is_terminal() {
        match crossterm::terminal::size() {
            Ok((columns, rows)) => line(&format!("Terminal of {columns} columns and {rows} rows."), out)?,
            Err(error) => line(&format!("A terminal whose size is not known ({error})."), out)?,
        }
    } else {
        line("Not a terminal: practice needs --plain here.", out)?;
    }
    let set = |name| env::var_os(name).is_some_and(|value| !value.is_empty());
    line(
        if set("NO_COLOR") {
            "Without color, as NO_COLOR asks."
        } else {
            "In color, where the terminal has it."
        },
        out,
    )?;
    writeln!(out)
}

/// Tries it with an empty file, in the folder or, while there is none yet, in the one that it will be made in.
fn writable(folder: &Folder) -> Result<String, Failure> {
    let there = folder.path().is_dir();
    let place = folder.path().ancestors().find(|path| path.is_dir()).unwrap_or(Path::new("."));
    let probe = place.join(format!(".counterpoise-doctor-{}", std::process::id()));
    File::create_new(&probe).and_then(|_| fs::remove_file(&probe)).map_err(|error| {
        Failure::new(
            format!("{} cannot be written: {error}", place.display()),
            "Make the folder writable, or name another one with --data-dir DIR.",
        )
    })?;
    Ok(if there {
        "The folder can be written.".to_owned()
    } else {
        "The folder is not there yet; it can be made, and will be at the first practice.".to_owned()
    })
}

fn journal(folder: &Folder) -> Result<String, Failure> {
    let sessions = Journal::look(folder)?.ids()?.len();
    Ok(match sessions {
        0 => "The journal is in order; nothing has been practiced yet.".to_owned(),
        sessions => format!("The journal is in order and has {sessions} session(s)."),
    })
}
