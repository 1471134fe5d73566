//! The practice command. Its course is the session's.

use std::io::{self, IsTerminal, Write};

use super::wrap::wrapped;
use super::{Failure, source};
use crate::audio::{Bank, Voice, device};
use crate::clock::Clock;
use crate::display::Face;
use crate::display::plain::Plain;
use crate::display::terminal::{self, Terminal};
use crate::journal::{Folder, Journal, SessionId, Writer};
use crate::phrase::Phrase;
use crate::practice::{self, Done, Sound, World};
use crate::record::SessionBegun;
use crate::schedule::{METHOD, Scheduler};
use crate::session::Session;
use crate::settings::Settings;

/// What can be said about a practice on the command line.
#[derive(Debug, Clone, Default, clap::Args)]
#[command(after_help = "Examples:\n  \
    counterpoise practice                   the prescription in use, else the gentle one\n  \
    counterpoise practice typical --sets 2  the first two sets of a ready prescription\n  \
    counterpoise practice --plain           as lines of text, for a screen reader")]
pub struct Arguments {
    /// A ready prescription or a file [default: the one in use, else gentle]
    #[arg(value_name = "PRESCRIPTION")]
    pub prescription: Option<String>,
    /// Replay the session of this seed (64 hexadecimal digits); it is then no longer unpredictable
    #[arg(long, value_name = "HEX")]
    pub seed: Option<String>,
    /// Only the first so many sets
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u8).range(1..))]
    pub sets: Option<u8>,
    /// Who speaks
    #[arg(long, value_parser = ["lower", "higher", "tones"])]
    pub voice: Option<String>,
    /// The sound output, as `counterpoise doctor` lists it
    #[arg(long, value_name = "ID")]
    pub device: Option<String>,
    /// Plain lines in place of a full screen
    #[arg(long)]
    pub plain: bool,
    /// No sound: calls on the screen only
    #[arg(long)]
    pub silent: bool,
}

/// Runs one practice.
///
/// # Errors
/// If it cannot begin, or something of it could not be kept.
///
/// # Panics
/// Never: a prescription has at least its warm-up set.
pub fn run(arguments: &Arguments, folder: &Folder) -> Result<(), Failure> {
    let source = source::find(arguments.prescription.as_deref(), || Ok(folder.clone()))?;
    let seed = source::seed(arguments.seed.as_deref())?;
    let settings = Settings::load(folder)?;
    let voice = arguments.voice.as_deref().and_then(Voice::from_name).unwrap_or(settings.voice);
    let scheduler = Scheduler::new(&source.prescription)?;
    let whole = scheduler.draw(seed);
    let sets = arguments.sets.map_or(whole.sets().len(), usize::from);
    let schedule = whole.only_first(sets);
    let phrases = Session::phrases(&schedule);
    let clock = Clock::real();
    let begun = SessionBegun {
        at: clock.wall(),
        title: source.prescription.title().to_owned(),
        digest: source.prescription.digest(),
        seed,
        seed_given: arguments.seed.is_some(),
        method: METHOD,
        voice: voice.name().to_owned(),
        device: None,
        sets_planned: schedule.sets().len() as u8,
    };
    let session = Session::new(scheduler, schedule, begun, settings.emergency_number.clone())
        .expect("a prescription has at least its warm-up set, and --sets is at least 1");

    // Whatever is wrong with the journal is said here, before anybody stands at the counter.
    let (journal, notices) = Journal::open(folder.lock()?)?;
    for notice in &notices {
        let _ = writeln!(io::stderr(), "{}", wrapped("", &format!("Note: {notice}.")));
    }
    let id = SessionId::random().map_err(|error| no_chance(&error))?;
    terminal::watch_signals().map_err(|error| no_terminal(&error))?;
    let mut face = face(arguments.plain)?;
    // The first page stands while the sound is opened and the clips are decoded behind it.
    face.show(&session.screen(clock.now())).map_err(|error| no_terminal(&error))?;
    let device = arguments.device.as_deref().or(settings.device.as_deref());
    let sound = if arguments.silent { Ok(None) } else { sound(device, voice, &phrases) };
    let sound = match sound {
        Ok(sound) => sound,
        Err(failure) if arguments.device.is_some() => return Err(failure),
        Err(_) => None,
    };
    let writer = Writer::start(journal, id);
    let world = World { face, sound, clock, writer, close_asked: terminal::close_asked };
    account(&practice::run(world, session), folder)
}

fn face(plain: bool) -> Result<Face, Failure> {
    if plain {
        return Ok(Face::Plain(Plain::start()));
    }
    if !(io::stdin().is_terminal() && io::stdout().is_terminal()) {
        return Err(Failure::new(
            "there is no terminal to draw on",
            "For pipes and screen readers: counterpoise practice --plain",
        ));
    }
    if terminal::is_dumb() {
        return Err(Failure::new(
            "this terminal can only write lines (TERM is dumb)",
            "For lines of text: counterpoise practice --plain",
        ));
    }
    Terminal::enter().map(Face::Screen).map_err(|error| no_terminal(&error))
}

/// No sound is not an error of the practice: it runs on the screen. A damaged clip is.
fn sound(device: Option<&str>, voice: Voice, phrases: &[Phrase]) -> Result<Option<Sound>, Failure> {
    let output = device::open(device)?;
    let bank = Bank::load(output.rate(), voice, phrases.iter().map(|phrase| phrase.id()))?;
    Ok(Some(Sound::new(output, bank)))
}

/// Says what was kept, once the screen is the person's again.
fn account(done: &Done, folder: &Folder) -> Result<(), Failure> {
    if done.kept.not_saved > 0 {
        let what =
            format!("NOT SAVED: {} entries of this practice are not in the journal", done.kept.not_saved);
        let hint = match (&done.kept.rescue, &done.kept.lost) {
            (Some(file), _) if file.parent() == Some(folder.path()) => format!(
                "They are in {}. Make room on the disk and start Counterpoise again: it takes them in.",
                file.display()
            ),
            (Some(file), _) => format!(
                "They are in {0}. Once the disk is in order, take them in with: counterpoise journal import {0}",
                file.display()
            ),
            (None, Some(why)) => format!("They could not be written anywhere else either: {why}."),
            (None, None) => {
                "Make room on the disk, and tell your therapist that this practice was not kept.".to_owned()
            }
        };
        return Err(Failure::new(what, hint));
    }
    if let Err(error) = &done.face {
        return Err(Failure::new(
            format!("the screen could not be drawn any more ({error})"),
            "The practice has ended; what was done is kept. See: counterpoise journal show last",
        ));
    }
    Ok(())
}

fn no_terminal(error: &io::Error) -> Failure {
    Failure::new(
        format!("the terminal cannot be used ({error})"),
        "Try another terminal window, or plain lines: counterpoise practice --plain",
    )
}

fn no_chance(error: &io::Error) -> Failure {
    Failure::new(
        format!("the system has no chance to give ({error})"),
        "Start the computer again, then try once more.",
    )
}
