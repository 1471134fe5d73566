//! The `track` command: writes sessions as sound files for any phone, each with its cue sheet, completely or not at all.

use std::collections::BTreeMap;
use std::fs::{self, File};
use std::io::{self, IsTerminal, Read};
use std::ops::ControlFlow;
use std::path::{Path, PathBuf};
use std::time::Duration;

use indicatif::{ProgressBar, ProgressStyle};

use super::page::{Output, show, text};
use super::report::write_private;
use super::standing::{self, Position};
use super::{Failure, source};
use crate::audio::{Bank, Clip, Frames, Voice, render_wav};
use crate::clock::Clock;
use crate::display::terminal;
use crate::journal::{Folder, Journal};
use counterpoise_core::blocks::Block;
use counterpoise_core::course::progression::at_steps;
use counterpoise_core::draw::schedule::{Schedule, Scheduler, SetPlan};
use counterpoise_core::plan::caution::{self, Contents, Surface};
use counterpoise_core::plan::phrase::Phrase;
use counterpoise_core::plan::prescription::Prescription;
use counterpoise_core::practice::track::sheet::{self, Sheet};
use counterpoise_core::practice::track::{self, RATE, Track};
use counterpoise_core::words::counted;

/// The options of `track`.
#[derive(Debug, Clone, clap::Args)]
#[command(after_help = "Examples:\n  \
    counterpoise track gentle --out practice.wav\n  \
    counterpoise track gentle --out practice.wav --cue-sheet practice.json\n  \
    counterpoise track balance.toml --count 6 --out tracks\n                               \
    six different tracks in a folder, with a list to print\n\n\
    A track cannot see or stop anyone. It has only drills for one person, and none that needs an unlock.\n\
    You learn a track that you hear often: change tracks, or practice with \"counterpoise\".")]
pub(super) struct Arguments {
    /// A ready prescription or a file [default: the one in use, else gentle]
    #[arg(value_name = "PRESCRIPTION")]
    prescription: Option<String>,
    /// The seed, 64 hexadecimal digits [default: a fresh one]
    #[arg(long, value_name = "HEX")]
    seed: Option<String>,
    /// The sound file (WAV); with --count, a folder
    #[arg(long, value_name = "PLACE")]
    out: PathBuf,
    /// Also write what is on the track, as JSON; with --count every track gets one
    #[arg(long, value_name = "FILE", conflicts_with = "count")]
    cue_sheet: Option<PathBuf>,
    /// How many different tracks to write, at most 6
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u8).range(1..=6))]
    count: Option<u8>,
    /// The voice; with tones a call has no direction, and the lower voice says the rest
    #[arg(long, value_parser = ["lower", "higher", "tones"], default_value = "lower")]
    voice: String,
}

/// A session with its clips, ready to be written.
struct Made {
    schedule: Schedule,
    track: Track,
    clips: BTreeMap<Phrase, Clip>,
}

pub(super) fn run(
    arguments: &Arguments,
    folder: impl Fn() -> Result<Folder, Failure>,
) -> Result<Output, Failure> {
    let found = folder();
    let named = arguments.prescription.as_deref();
    let prescription = match &found {
        Ok(folder) => source::for_person(named, folder),
        Err(_) => source::find(named, || found.clone()),
    };
    let prescription = prescription?.prescription;
    track::check(&prescription)?;
    let found = match found {
        Ok(folder) => Some(folder),
        Err(error) if error.is_no_home() => None,
        // It is not known whose locks and steps apply.
        Err(error) => return Err(error),
    };
    let prescription = at_todays_steps(prescription, arguments.prescription.as_deref(), found.as_ref())?;
    // So that Ctrl-C leaves no partial track. Where signals cannot be watched, it does.
    let _ = terminal::watch_signals();
    let (method, seed) = source::replay(arguments.seed.as_deref(), folder)?;
    let voice = Voice::from_name(&arguments.voice).expect("the command line allows only the names of voices");
    let scheduler = Scheduler::by(method, &prescription)?;
    let write = |made: &Made, wav: &Path, json: Option<&Path>| -> Result<(), Failure> {
        let sheet = Sheet::of(&prescription, &made.schedule, voice.name(), &made.track);
        let mut text = serde_json::to_vec_pretty(&sheet)?;
        text.push(b'\n');
        // The small file first, under another name: if there is no space for it, no track is left without it.
        let sheet = json.map(|json| Staged::write(json, &text, is_sheet)).transpose()?;
        render(made, wav)?;
        sheet.map_or(Ok(()), Staged::place)
    };
    let mut page = match arguments.count {
        None => {
            let json = arguments.cue_sheet.as_deref();
            if json == Some(&arguments.out) {
                return Err(Failure::new(
                    format!("the track and its cue sheet cannot both be {}", arguments.out.display()),
                    "Name another file with --cue-sheet, such as practice.json",
                ));
            }
            let made = make(scheduler.draw(seed), voice)?;
            write(&made, &arguments.out, json)?;
            vec![
                Block::line(format!("{} ({} long)", arguments.out.display(), minutes(made.track.length()))),
                Block::line(format!("Seed {}", made.schedule.seed())),
            ]
        }
        Some(count) => {
            let place = &arguments.out;
            fs::create_dir_all(place).map_err(|error| not_written(place, &error))?;
            let mut list = heading(&prescription);
            for nth in 1..=count {
                let made = make(scheduler.draw(seed.of_session(u64::from(nth - 1))), voice)?;
                let name = format!("track-{nth}.wav");
                write(&made, &place.join(&name), Some(&place.join(format!("track-{nth}.json"))))?;
                list.extend(entry(&name, &made));
            }
            Staged::write(&place.join("list.txt"), text::of(&list).as_bytes(), is_list)?.place()?;
            let tracks = if count == 1 { "One track".to_owned() } else { format!("{count} tracks") };
            vec![Block::line(format!("{tracks} and a list to print (list.txt) are in {}", place.display()))]
        }
    };
    page.extend(caution::blocks(Surface::Track, Contents::Of(&prescription)));
    page.push(Block::line(caution::WHAT_IT_IS));
    if voice == Voice::Tones {
        let text = "Note: a tone does not say the direction. The directions are only on the cue sheet.";
        show(&[Block::line(text)], &mut io::stderr())?;
    }
    Ok(page.into())
}

/// The steps and locks of practice apply to tracks too. On a computer without a person's folder nobody practices, and the
/// prescription's own steps apply.
fn at_todays_steps(
    prescription: Prescription,
    named: Option<&str>,
    folder: Option<&Folder>,
) -> Result<Prescription, Failure> {
    let Some(folder) = folder else { return Ok(prescription) };
    let (known, now) = (standing::known(&Journal::look(folder)?)?, Clock::real().wall());
    let position = Position::of(folder, &known, &prescription, named, &now)?;
    position.allow_any()?;
    let today = at_steps(&prescription, &position.standing.next.steps);
    position.within_program(&known, &today, &now)?;
    Ok(today)
}

fn make(schedule: Schedule, voice: Voice) -> Result<Made, Failure> {
    let (cues, said): (Vec<Phrase>, Vec<Phrase>) =
        track::phrases(&schedule).into_iter().partition(|phrase| phrase.is_cue());
    // Tones cannot say a caution.
    let speaker = if voice == Voice::Tones { Voice::Lower } else { voice };
    let mut clips = BTreeMap::new();
    for (voice, phrases) in [(voice, cues), (speaker, said)] {
        let bank = Bank::load(RATE, voice, phrases.iter().map(|phrase| phrase.id()))?;
        clips.extend(
            phrases.into_iter().filter_map(|phrase| Some((phrase, from_onset(&bank.get(phrase.id())?)))),
        );
    }
    let lengths = clips.iter().map(|(phrase, clip)| (*phrase, clip.length())).collect();
    let track = Track::of(&schedule, &lengths);
    Ok(Made { schedule, track, clips })
}

/// The clip from its onset on. The part before is below -60 dB and at most a few milliseconds; without it the
/// silence before an event is digital up to its very frame.
fn from_onset(clip: &Clip) -> Clip {
    Clip::new(&clip.samples()[clip.onset().0 as usize..])
}

fn render(made: &Made, path: &Path) -> Result<(), Failure> {
    only_ours(path, is_sound)?;
    let bar = if io::stderr().is_terminal() { ProgressBar::new(100) } else { ProgressBar::hidden() };
    bar.set_style(
        ProgressStyle::with_template("{msg} {wide_bar} {percent} %").expect("the template is sound"),
    );
    bar.set_message(format!("Writing {}", path.display()));
    bar.enable_steady_tick(Duration::from_millis(250));
    let plays = made.track.events().iter().map(|event| (made.clips[&event.phrase].clone(), event.at));
    let written = render_wav(path, RATE, made.track.length(), plays, |share| {
        bar.set_position((share * 100.0) as u64);
        if terminal::close_requested() { ControlFlow::Break(()) } else { ControlFlow::Continue(()) }
    });
    bar.finish_and_clear();
    Ok(written?)
}

/// Checks that `path` may be replaced: nothing is there, or a file of the same kind. Otherwise a device such as
/// `/dev/full`, or a prescription of somebody who mixed up two names, would be overwritten.
fn only_ours(path: &Path, is_ours: fn(&[u8]) -> bool) -> Result<(), Failure> {
    let refuse = |what: &str| {
        Err(Failure::new(
            format!("{} already exists and {what}", path.display()),
            "Name a new file, such as practice.wav. The existing one was not changed.",
        ))
    };
    match fs::metadata(path) {
        Ok(there) if !there.is_file() => refuse("is not a file"),
        Ok(_) => {
            let mut head = Vec::new();
            let read = File::open(path).and_then(|file| file.take(HEAD).read_to_end(&mut head));
            read.map_err(|error| not_written(path, &error))?;
            if head.is_empty() || is_ours(&head) { Ok(()) } else { refuse("is another kind of file") }
        }
        Err(_) => Ok(()),
    }
}

/// How many bytes of a file are read to find out its kind.
const HEAD: u64 = 4096;

fn is_sound(head: &[u8]) -> bool {
    head.starts_with(b"RIFF")
}

fn is_sheet(head: &[u8]) -> bool {
    String::from_utf8_lossy(head).contains(sheet::SCHEMA)
}

fn is_list(head: &[u8]) -> bool {
    String::from_utf8_lossy(head).contains(TICK_OFF)
}

/// A file that is written under another name. It is deleted unless it is put in its place.
struct Staged<'a> {
    beside: PathBuf,
    path: &'a Path,
}

impl<'a> Staged<'a> {
    fn write(path: &'a Path, bytes: &[u8], is_ours: fn(&[u8]) -> bool) -> Result<Self, Failure> {
        only_ours(path, is_ours)?;
        let name = path.file_name().unwrap_or_default().to_string_lossy();
        let beside = path.with_file_name(format!(".{name}.{}.part", std::process::id()));
        write_private(&beside, bytes).map_err(|error| not_written(path, &error))?;
        Ok(Self { beside, path })
    }

    fn place(self) -> Result<(), Failure> {
        fs::rename(&self.beside, self.path).map_err(|error| not_written(self.path, &error))
    }
}

impl Drop for Staged<'_> {
    fn drop(&mut self) {
        // After it was put in its place, and where it could not be written, there is nothing.
        let _ = fs::remove_file(&self.beside);
    }
}

fn not_written(path: &Path, error: &io::Error) -> Failure {
    Failure::new(
        format!("could not write {}: {error}", path.display()),
        "Choose another place, or free some space there.",
    )
}

/// A line of every list, by which a list is recognized.
const TICK_OFF: &str = "Take another track each time. Tick it off when it is done:";

fn heading(prescription: &Prescription) -> Vec<Block> {
    let said = ["practice.advice", "track.ready", "track.cannot-stop"];
    let said = said.map(|id| Phrase::own(id).words().to_owned());
    let mut list = vec![Block::line(prescription.title()), Block::Gap];
    list.extend(said.into_iter().map(Block::line));
    list.extend(caution::blocks(Surface::Track, Contents::Of(prescription)));
    list.push(Block::line(caution::WHAT_IT_IS));
    for drill in caution::of_drills(prescription) {
        list.push(Block::line(format!("{}:", drill.title)));
        list.extend(drill.lines.into_iter().map(Block::item));
    }
    list.extend([Block::Gap, Block::line(TICK_OFF)]);
    list
}

fn entry(name: &str, made: &Made) -> [Block; 2] {
    let sets = made.schedule.sets();
    let calls = sets.iter().flat_map(SetPlan::cues).filter(|cue| !cue.is_blank()).count();
    let entry = format!(
        "[ ]  {name}   {}, {}, {}   Date: ______________\n     Seed {}",
        counted(sets.len(), "set"),
        counted(calls, "call"),
        minutes(made.track.length()),
        made.schedule.seed(),
    );
    [Block::Gap, Block::verbatim(&entry)]
}

fn minutes(length: Frames) -> String {
    let seconds = RATE.duration(length).as_secs();
    format!("{}:{:02} min", seconds / 60, seconds % 60)
}
