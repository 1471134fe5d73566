//! Which settings does a person choose? Asks line by line about the person, the emergency number, the room, hearing and
//! glasses. An empty answer keeps the present setting.

use std::io::{BufRead, Write};
use std::time::{Duration, Instant};

use super::form::Form;
use super::page::{Output, help};
use super::people;
use super::{Failure, sounding};
use crate::audio::Voice;
use crate::entropy;
use crate::journal::Folder;
use crate::practice::Sound;
use crate::settings::{Glasses, SCHEMA, SCREEN_DISTANCE_M, Settings};
use counterpoise_core::blocks::Block;
use counterpoise_core::plan::caution::{self, Contents, Surface};
use counterpoise_core::plan::phrase::Phrase;
use counterpoise_core::plan::place::{Place, Room};
use counterpoise_core::practice::emergency::LOCAL_NUMBER;

/// The phrases of the sound check, one of which is said.
const WORDS: [&str; 4] = ["check.window", "check.garden", "check.kettle", "check.butter"];
/// How long to wait while a word is played.
const HEARD: Duration = Duration::from_millis(1_500);
/// What the room must be like. It is shown in full here, and more briefly before each practice.
const ROOM: [&str; 7] = [
    "The stove is off. Sharp and hot things are put away.",
    "Doors and drawers are shut.",
    "The floor is dry and clear: no rugs, no cables.",
    "Pets and children are out.",
    "The counter is fixed. I hold nothing that slides or tips.",
    "I wear firm shoes, never bare socks.",
    "A phone, water and a firm chair are in reach.",
];

/// The answers to a yes-or-no question.
const YES_OR_NO: [&str; 2] = ["Y yes", "N no"];

/// The options of `setup`.
#[derive(Debug, Clone, Copy, clap::Args)]
#[command(after_help = help("Examples:\n  \
    counterpoise setup              at the start, and when something changes\n  \
    counterpoise setup --new        adds a person on the same computer, with their own journal\n  \
    counterpoise setup --silent     without the sound check\n\n\
    Answer each question with one line, from a keyboard or a file. An empty line keeps the present setting. Nothing is \
    saved until the last answer."))]
pub(super) struct Arguments {
    /// Add a person
    #[arg(long)]
    new: bool,
    /// Skip the sound check
    #[arg(long)]
    silent: bool,
}

pub(super) fn run(
    arguments: Arguments,
    data: &Folder,
    person: Option<&str>,
    out: &mut impl Write,
) -> Result<Output, Failure> {
    let mut form = Form::new(out, "nothing was changed", "counterpoise setup");
    form.show(&caution::blocks(Surface::FirstRun, Contents::Nothing))?;
    form.show(&[Block::line(caution::WHAT_IT_IS)])?;
    let mut first = Settings::load(data)?;
    if arguments.new && first.name.is_none() {
        // Two people can only be told apart if both have a name.
        first.name =
            Some(form.name("Who has practiced here until now? A name, initials or a symbol.", None)?);
        first.save(data)?;
    }
    let people = people::all(data)?;
    let folder = match person {
        _ if arguments.new => people::next_folder(data)?,
        Some(name) => people::named(data, &people, name)?,
        None if people.is_empty() => data.clone(),
        None => people::find(Some(data.path()), None)?,
    };
    let mut settings = Settings::load(&folder)?;
    let taken: Vec<String> =
        people.iter().filter(|other| other.folder != folder).map(|other| other.name.clone()).collect();
    let taken = if arguments.new && taken.is_empty() { first.name.into_iter().collect() } else { taken };
    ask(&mut form, &mut settings, &taken, arguments)?;
    settings.save(&folder)?;
    let next = "Next, answer the questions about your health. Type: counterpoise suitability. To practice after that, type: counterpoise";
    Ok(vec![Block::line("Saved. To change it later: counterpoise setup"), Block::line(next)].into())
}

/// Every question, in order.
fn ask(
    form: &mut Form<impl BufRead, impl Write>,
    settings: &mut Settings,
    taken: &[String],
    arguments: Arguments,
) -> Result<(), Failure> {
    loop {
        let needed = arguments.new || !taken.is_empty();
        let ask =
            "Who practices? A name, initials or a symbol. It appears on this screen and on printed sheets.";
        let name = match needed {
            true => Some(form.name(ask, settings.name.as_deref())?),
            false => form.text("name", ask, settings.name.as_deref())?,
        };
        let is_taken = |name: &String| taken.iter().any(|other| people::is_same(other, name));
        if !name.as_ref().is_some_and(is_taken) {
            settings.name = name;
            break;
        }
        form.refuse("somebody here already has that name")?;
    }
    settings.emergency_number = form.emergency(settings.emergency_number.as_deref())?;
    let ask = "Who else would you call? A name and a number.";
    settings.contact = form.text("contact", ask, settings.contact.as_deref())?;
    let room = settings.sides.unwrap_or_default();
    settings.sides = Some(Room {
        left: form.place("at your left, when you face the counter", room.left)?,
        right: form.place("at your right", room.right)?,
        behind: form.place("behind you", room.behind)?,
    });
    settings.screen_distance_m = form.distance(settings.screen_distance_m)?;
    settings.hearing_aids = form.yes_or_kept("Do you wear hearing aids?", settings.hearing_aids)?;
    if settings.hearing_aids == Some(true) {
        form.add("Put them in now for the sound check, and before each practice.")?;
    }
    if !arguments.silent {
        sound_check(form, settings)?;
    }
    settings.glasses = form.glasses(settings.glasses)?;
    if settings.glasses == Some(Glasses::Multifocal) {
        let text = "Do not step or look down through lenses with two strengths: they blur the floor. Ask your optician for a pair \
                    with one strength, for distance.";
        form.add(text)?;
    }
    form.room()
}

impl<R: BufRead, W: Write> Form<R, W> {
    /// Asks a question with its possible answers; `kept` is the present setting, which an empty line keeps.
    fn question(&mut self, ask: &str, answers: &[&str], kept: Option<&str>) -> Result<String, Failure> {
        let mut question = vec![Block::Gap, Block::line(ask)];
        if !answers.is_empty() {
            question.push(Block::Keys(answers.iter().map(|answer| (*answer).to_owned()).collect()));
        }
        question.extend(kept.map(|kept| Block::item(format!("Press Enter to keep: {kept}"))));
        self.show(&question)?;
        self.read()
    }

    /// Asks for a text that the settings accept.
    fn text(&mut self, field: &str, ask: &str, kept: Option<&str>) -> Result<Option<String>, Failure> {
        loop {
            let typed =
                self.question(ask, &["One line; a dash (-) for none."], Some(kept.unwrap_or("none")))?;
            match typed.as_str() {
                "" => return Ok(kept.map(str::to_owned)),
                "-" => return Ok(None),
                _ => match check_field(field, &typed) {
                    Ok(()) => return Ok(Some(typed)),
                    Err(fact) => self.refuse(&fact)?,
                },
            }
        }
    }

    /// Asks for a name, which is required.
    fn name(&mut self, ask: &str, kept: Option<&str>) -> Result<String, Failure> {
        loop {
            let typed = self.question(ask, &[], kept)?;
            match (typed.as_str(), kept) {
                ("", Some(kept)) => return Ok(kept.to_owned()),
                _ => match check_field("name", &typed) {
                    Ok(()) => return Ok(typed),
                    Err(fact) => self.refuse(&fact)?,
                },
            }
        }
    }

    /// Asks for the emergency number. It can be unknown, and is never assumed.
    fn emergency(&mut self, kept: Option<&str>) -> Result<Option<String>, Failure> {
        loop {
            let ask = "Which number do you call in an emergency, where you live?";
            let typed = self.question(ask, &["The number, or U if you do not know it."], kept)?;
            match (typed.to_lowercase().as_str(), kept) {
                ("", Some(kept)) => return Ok(Some(kept.to_owned())),
                ("u", _) => {
                    let text = format!(
                        "Find it out. Write it by the phone before you practice. For now you will see: call {LOCAL_NUMBER}."
                    );
                    self.add(text)?;
                    return Ok(None);
                }
                _ => match check_field("emergency_number", &typed) {
                    Ok(()) if self.is_read_back_right(&typed)? => return Ok(Some(typed)),
                    Ok(()) => {}
                    Err(fact) => self.refuse(&fact)?,
                },
            }
        }
    }

    /// Reads a number back, digit by digit, as it will be shown and spoken.
    fn is_read_back_right(&mut self, number: &str) -> Result<bool, Failure> {
        let digits: Vec<String> =
            number.chars().filter(|letter| !letter.is_whitespace()).map(String::from).collect();
        let ask =
            format!("In an emergency you will read and hear: CALL {}. Is that right?", digits.join(" "));
        loop {
            let typed = self.question(&ask, &YES_OR_NO, None)?;
            match typed.to_lowercase().as_str() {
                "y" => return Ok(true),
                "n" => return Ok(false),
                _ => self.refuse(&format!("\"{typed}\" is neither Y nor N"))?,
            }
        }
    }

    fn place(&mut self, side: &str, kept: Option<Place>) -> Result<Option<Place>, Failure> {
        let mut places: Vec<String> =
            (1..).zip(Place::ALL).map(|(nth, place)| format!("{nth} {}", place.name())).collect();
        places.push("0 something else".to_owned());
        let answers: Vec<&str> = places.iter().map(String::as_str).collect();
        loop {
            let ask = format!("What is {side}?");
            let typed = self.question(&ask, &answers, Some(kept.map_or("something else", Place::name)))?;
            match typed.parse::<usize>() {
                _ if typed.is_empty() => return Ok(kept),
                Ok(0) => return Ok(None),
                Ok(number) if number <= Place::ALL.len() => return Ok(Some(Place::ALL[number - 1])),
                _ => self.refuse(&format!("\"{typed}\" is not one of these numbers"))?,
            }
        }
    }

    fn distance(&mut self, kept: u8) -> Result<u8, Failure> {
        let (least, most) = SCREEN_DISTANCE_M;
        loop {
            let ask =
                "How far away is the screen, in meters? Put it at eye level, where you do not have to turn.";
            let typed = self.question(ask, &[&format!("{least} to {most}")], Some(&format!("{kept} m")))?;
            match typed.parse::<u8>() {
                _ if typed.is_empty() => return Ok(kept),
                Ok(meters) if (least..=most).contains(&meters) => return Ok(meters),
                _ => self.refuse(&format!("\"{typed}\" is not a whole number from {least} to {most}"))?,
            }
        }
    }

    fn yes_or_kept(&mut self, ask: &str, kept: Option<bool>) -> Result<Option<bool>, Failure> {
        loop {
            let word = kept.map(|yes| if yes { "yes" } else { "no" });
            let typed = self.question(ask, &YES_OR_NO, word)?;
            match typed.to_lowercase().as_str() {
                "" if kept.is_some() => return Ok(kept),
                "y" => return Ok(Some(true)),
                "n" => return Ok(Some(false)),
                _ => self.refuse(&format!("\"{typed}\" is neither Y nor N"))?,
            }
        }
    }

    fn glasses(&mut self, kept: Option<Glasses>) -> Result<Option<Glasses>, Failure> {
        loop {
            let answers =
                ["1 none", "2 one strength, for distance", "3 for reading only", "4 bifocals or varifocals"];
            let typed =
                self.question("Which glasses do you wear when you walk?", &answers, kept.map(Glasses::name))?;
            match typed.parse::<usize>() {
                _ if typed.is_empty() && kept.is_some() => return Ok(kept),
                Ok(number @ 1..=4) => return Ok(Some(Glasses::ALL[number - 1])),
                _ => self.refuse(&format!("\"{typed}\" is not a number from 1 to 4"))?,
            }
        }
    }

    /// Goes through the room once. The same is asked again before each practice.
    fn room(&mut self) -> Result<(), Failure> {
        loop {
            self.show(&[Block::Gap, Block::line("The room, before each practice:")])?;
            self.show(&ROOM.map(|line| Block::item(format!("- {line}"))))?;
            let typed = self.question(
                "Is all of this true, or will you see to it before you practice?",
                &YES_OR_NO,
                None,
            )?;
            match typed.to_lowercase().as_str() {
                "y" => return Ok(()),
                "n" => {
                    return self.add(
                        "Then do not practice in that room. Ask your therapist or somebody who can help.",
                    );
                }
                _ => self.refuse(&format!("\"{typed}\" is neither Y nor N"))?,
            }
        }
    }
}

/// Whether the settings accept this value of a field; else the fact.
fn check_field(field: &str, value: &str) -> Result<(), String> {
    let value = toml::Value::from(value);
    let file = format!("schema = \"{SCHEMA}\"\n{field} = {value}\n");
    Settings::read("settings", file.as_bytes()).map(|_| ()).map_err(|error| error.reason().to_string())
}

/// Plays one of four words, until the person recognizes it or gives up.
fn sound_check(form: &mut Form<impl BufRead, impl Write>, settings: &mut Settings) -> Result<(), Failure> {
    let voice = if settings.voice == Voice::Tones { Voice::Lower } else { settings.voice };
    let phrases: Vec<Phrase> = WORDS.iter().filter_map(|id| Phrase::named(id)).collect();
    let Ok(Some(mut sound)) = sounding::open(settings.device.as_deref(), voice, &phrases) else {
        let text =
            "There is no sound here. The calls will be shown on the screen. See: counterpoise equipment";
        return form.show(&[Block::Gap, Block::line(text)]);
    };
    // Chosen at random, so that somebody who cannot hear it cannot guess it.
    let mut word = usize::from(entropy::seed().map_or(0, |seed| seed.bytes()[0]) % 4);
    loop {
        play(&mut sound, phrases[word]);
        let answers =
            ["1 window", "2 garden", "3 kettle", "4 butter", "0 nothing", "R again", "G go on without sound"];
        let typed = form.question("Which word did you hear?", &answers, None)?;
        match typed.to_lowercase().as_str() {
            "g" => {
                return form.add(
                    "The calls are also shown on the screen. Sound is tried again before each practice.",
                );
            }
            "r" => {}
            typed if typed.parse() == Ok(word + 1) => {
                return form.add("Right. Keep this volume, a little louder than speech.");
            }
            "0" | "1" | "2" | "3" | "4" => {
                form.add(
                    "It was a different word. Turn the sound up, come closer, or put your hearing aids in.",
                )?;
                word = (word + 1) % 4;
            }
            other => form.refuse(&format!("\"{other}\" is not one of the answers"))?,
        }
    }
}

/// Plays a phrase and waits until it is over.
fn play(sound: &mut Sound, phrase: Phrase) {
    sound.say(phrase);
    let until = Instant::now() + HEARD;
    while Instant::now() < until {
        let _ = sound.events();
        std::thread::sleep(Duration::from_millis(20));
    }
}
