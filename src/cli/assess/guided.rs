//! Runs a guided balance test: one loop that passes keys, sound and time to the guide in the core, and does what it says.

use std::io::Write as _;
use std::time::Duration;

use crate::audio::{Bank, Voice, device};
use crate::cli::face;
use crate::cli::page::{Output, show};
use crate::cli::standing::{self, Position};
use crate::cli::{Failure, source, suitability};
use crate::clock::Clock;
use crate::display::terminal;
use crate::display::{Face, Input};
use crate::journal::{Folder, Journal, JournalError};
use crate::practice::Sound;
use crate::settings::Settings;
use counterpoise_core::blocks::Block;
use counterpoise_core::course::trainee::{Trainee, reviewed_on};
use counterpoise_core::health::assessment::Test;
use counterpoise_core::plan::caution::{self, Contents, Surface};
use counterpoise_core::plan::prescription::Prescription;
use counterpoise_core::practice::guide::{Effect, Event, Guide, Kept};
use counterpoise_core::practice::session::screen::Body;
use counterpoise_core::practice::session::{Event as SoundEvent, Key, LONGEST_GAP};
use counterpoise_core::units::Millis;

/// How long the loop waits for a key before it looks at sound and time again.
const LOOK: Duration = Duration::from_millis(20);

/// The options of the guided test.
#[derive(Debug, Clone, Default, clap::Args)]
#[group(skip)]
pub(in crate::cli) struct Arguments {
    /// Which test [default: choose]
    #[arg(value_name = "TEST", value_parser = super::parse_test)]
    test: Option<Test>,
    /// Plain lines instead of a full screen
    #[arg(long)]
    plain: bool,
    /// No sound: numbers on the screen only
    #[arg(long)]
    silent: bool,
}

pub(super) fn run(arguments: &Arguments, folder: &Folder) -> Result<Output, Failure> {
    let settings = Settings::load(folder)?;
    let (known, _) = allowed(&Journal::look(folder)?, folder, &Clock::real())?;
    if known.fitness.suitability.is_none() {
        ask_about_health(folder)?;
    }
    let mut journal = standing::open(folder, &mut std::io::stderr())?;
    let mut clock = Clock::real();
    let (known, prescription) = allowed(&journal, folder, &clock)?;
    terminal::watch_signals().map_err(|error| face::no_terminal(&error))?;
    let mut face = face::open(arguments.plain, "assess")?;
    if !face::read_page(&mut face, cautions())? {
        return Ok(Output::NOTHING);
    }
    let mut guide = Guide::new(arguments.test, settings.emergency_number.clone())
        .also_calling(settings.contact.as_deref())
        .within(prescription.precautions())
        .knowing(&known.tests, reviewed_on(&prescription), clock.wall().date());
    face.show(&guide.screen(clock.now(), false)).map_err(|error| face::no_terminal(&error))?;
    let mut sound = if arguments.silent { None } else { sound(&settings) };
    let mut not_kept = None;
    // Opening the sound is no gap in a test.
    clock.gap();
    while !guide.is_over() {
        let events = look(&mut face, &mut sound, &mut clock);
        for event in events {
            for effect in guide.on(clock.now(), event) {
                if let Some(placed) = perform(effect, &mut sound, &clock, &mut journal, &mut not_kept) {
                    guide.on(clock.now(), placed);
                }
            }
        }
        face.show(&guide.screen(clock.now(), not_kept.is_some()))
            .map_err(|error| face::no_terminal(&error))?;
    }
    drop(face);
    match not_kept {
        Some(error) => Err(error.into()),
        None => Ok(Output::NOTHING),
    }
}

/// What is read before the first question.
fn cautions() -> Body {
    let lines = caution::lines(Surface::Assess, Contents::Nothing);
    Body::page("Before a balance test", &lines.iter().map(String::as_str).collect::<Vec<_>>(), &[])
}

/// Nobody takes a test who never answered the questions about health.
fn ask_about_health(folder: &Folder) -> Result<(), Failure> {
    let mut out = std::io::stdout();
    let first = "Before the first balance test come the questions about your health.";
    show(&[Block::line(first), Block::Gap], &mut out)?;
    let answered = suitability::run(suitability::Arguments::default(), folder, &mut out)?;
    Ok(out.write_all(&answered.into_bytes())?)
}

/// While practice is locked or held, no test is taken either. Otherwise what is known of the person, and the prescription.
fn allowed(journal: &Journal, folder: &Folder, clock: &Clock) -> Result<(Trainee, Prescription), Failure> {
    let prescription = source::find(None, || Ok(folder.clone()))?.prescription;
    let known = standing::known(journal)?;
    Position::of(folder, &known, &prescription, None, &clock.wall())?.allow_any()?;
    Ok((known, prescription))
}

/// Without sound the test is led by the screen.
fn sound(settings: &Settings) -> Option<Sound> {
    let output = device::open(settings.device.as_deref()).ok()?;
    let voice = if settings.voice == Voice::Tones { Voice::Lower } else { settings.voice };
    let phrases = Guide::phrases();
    let bank = Bank::load(output.rate(), voice, phrases.iter().map(|phrase| phrase.id())).ok()?;
    Some(Sound::new(output, bank))
}

fn look(face: &mut Face, sound: &mut Option<Sound>, clock: &mut Clock) -> Vec<Event> {
    let mut events = match face.poll(LOOK) {
        Input::Key(key) => vec![Event::Key(key)],
        Input::Close => vec![Event::Close],
        Input::Nothing => Vec::new(),
    };
    let lost = |event: &SoundEvent| matches!(event, SoundEvent::SoundLost | SoundEvent::SoundDisturbed(_));
    let disturbed = sound.as_mut().is_some_and(|sound| sound.events().iter().any(lost));
    // A test whose numbers may have been heard late is not valid.
    if disturbed || clock.gap() > LONGEST_GAP {
        events.push(Event::Key(Key::Escape));
    }
    if terminal::close_requested() {
        events.push(Event::Close);
    }
    events.push(Event::Tick);
    events
}

fn perform(
    effect: Effect,
    sound: &mut Option<Sound>,
    clock: &Clock,
    journal: &mut Journal,
    not_kept: &mut Option<JournalError>,
) -> Option<Event> {
    match (effect, sound) {
        (Effect::Say(phrase), Some(sound)) => sound.say(phrase),
        (Effect::Hush, Some(sound)) => sound.hush(),
        (Effect::Time(phrases), Some(sound)) => {
            return Some(Event::Placed { zero: clock.now() + sound.time(&phrases) });
        }
        (Effect::Time(_), None) => return Some(Event::Placed { zero: clock.now() + Millis(0) }),
        (Effect::Keep(Kept { reading, age, sex, company, stances }), _) => {
            let kept = journal.keep_balance_test(&clock.wall(), reading, (age, sex), (company, ""), stances);
            *not_kept = kept.err();
        }
        (Effect::Say(_) | Effect::Hush, None) | (Effect::Leave, _) => {}
    }
    None
}
