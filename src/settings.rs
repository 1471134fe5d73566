//! What did a person choose in setup? Voice, sound output, whom to call, how far away the screen is, and what is on each
//! side: one file, checked when it is read.

use std::io;
use std::str;

use serde::Deserialize;
use toml::Spanned;

use crate::audio::Voice;
use crate::journal::{Folder, JournalError};
use counterpoise_core::draw::schedule::floor_order;
use counterpoise_core::plan::place::{Place, Room};
use counterpoise_core::words;
use counterpoise_core::words::Printable;

mod refusal;

pub use refusal::{Reason, SettingsError};

/// The schema of the settings file.
pub const SCHEMA: &str = "counterpoise.settings/1";

/// The most bytes a settings file may have; a full one has about 500 \[judgment\].
pub const FILE_BYTES: usize = 64 * 1024;
/// The most characters of a text, so that it fits on one line of a screen \[judgment\].
pub const TEXT_CHARACTERS: usize = 40;
/// An example of the patches of a floor course, as a line of the file.
pub const PATCHES_EXAMPLE: &str = "patches = [\"doormat\", \"folded blanket\", \"low board\"]";
/// The word for a value that is not known.
const UNKNOWN: &str = "unknown";
/// The least and the greatest distance of the screen, in meters \[judgment\].
pub const SCREEN_DISTANCE_M: (u8, u8) = (1, 10);

/// The glasses that a person wears to walk.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Glasses {
    /// No glasses.
    None,
    /// One strength, for the distance.
    Distance,
    /// For reading only: not worn in practice.
    Reading,
    /// Two or more strengths in one lens: they blur the floor \[judgment, after public-health guidance\].
    Multifocal,
}

words! {
    Glasses {
        None => "none",
        Distance => "distance",
        Reading => "reading only",
        Multifocal => "bifocals or varifocals",
    }
}

/// A person's settings. A value of this type passed the gate.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Settings {
    /// A name, initials or a symbol; `None` if only one person practices here.
    pub name: Option<String>,
    /// The voice, or tones, of the calls.
    pub voice: Voice,
    /// The sound output; `None` lets the system choose.
    pub device: Option<String>,
    /// The emergency number; `None` if the person does not know it. It is never assumed.
    pub emergency_number: Option<String>,
    /// Who else to call: a name and a number.
    pub contact: Option<String>,
    /// The glasses worn to walk; `None` if never asked.
    pub glasses: Option<Glasses>,
    /// Whether hearing aids are worn; `None` if never asked.
    pub hearing_aids: Option<bool>,
    /// The distance of the screen from the person, in meters.
    pub screen_distance_m: u8,
    /// What is on each side of the person, who faces the counter; `None` if never asked.
    pub sides: Option<Room>,
    /// The person's names for the patches of the floor course: none, or 3 to 8.
    pub patches: Vec<String>,
}

impl Default for Settings {
    fn default() -> Self {
        Self {
            name: None,
            voice: Voice::Lower,
            device: None,
            emergency_number: None,
            contact: None,
            glasses: None,
            hearing_aids: None,
            screen_distance_m: 3,
            sides: None,
            patches: Vec::new(),
        }
    }
}

/// The file as written, with the position of each checked value.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Raw {
    schema: Spanned<String>,
    name: Option<Spanned<String>>,
    contact: Option<Spanned<String>>,
    glasses: Option<Spanned<String>>,
    hearing_aids: Option<bool>,
    voice: Option<Spanned<String>>,
    device: Option<Spanned<String>>,
    emergency_number: Option<Spanned<String>>,
    screen_distance_m: Option<Spanned<i64>>,
    patches: Option<Spanned<Vec<Spanned<String>>>>,
    sides: Option<RawSides>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawSides {
    left: Option<Spanned<String>>,
    right: Option<Spanned<String>>,
    behind: Option<Spanned<String>>,
}

impl Settings {
    /// Reads the bytes of the file called `name`. A setting that is missing has its default.
    ///
    /// ```
    /// use counterpoise::{audio::Voice, settings::Settings};
    /// let file = b"schema = \"counterpoise.settings/1\"\nvoice = \"higher\"\n";
    /// assert_eq!(Settings::read("settings.toml", file).unwrap().voice, Voice::Higher);
    ///
    /// let error = Settings::read("settings.toml", b"schema = \"counterpoise.settings/1\"\nvoice = \"loud\"\n").unwrap_err();
    /// assert_eq!(error.to_string(), "`voice` is \"loud\"; it can be lower, higher or tones (settings.toml, line 2)");
    /// ```
    ///
    /// # Errors
    /// If the file is too large, not text, not TOML, or holds an unknown field or a value outside its range.
    pub fn read(name: &str, bytes: &[u8]) -> Result<Self, SettingsError> {
        let refuse = |line, reason| SettingsError::new(name, line, reason);
        if bytes.len() > FILE_BYTES {
            return Err(refuse(None, Reason::TooLarge { bytes: bytes.len() }));
        }
        let line_of = |at: usize| Some(1 + bytes[..at].iter().filter(|byte| **byte == b'\n').count());
        let text = str::from_utf8(bytes).map_err(|error| {
            refuse(line_of(error.valid_up_to()), Reason::NotUtf8 { at: error.valid_up_to() + 1 })
        })?;
        let raw: Raw = toml::from_str(text).map_err(|error| {
            let line = error.span().and_then(|span| line_of(span.start.min(bytes.len())));
            let message = error.message().lines().collect::<Vec<_>>().join(", ");
            refuse(line, Reason::NotSettings { message })
        })?;
        let at = |value: &Spanned<String>, reason| refuse(line_of(value.span().start), reason);
        let line_text = |field: &'static str, value: Option<Spanned<String>>| -> Result<_, SettingsError> {
            let Some(value) = value else { return Ok(None) };
            plain(field, value.get_ref()).map_err(|reason| at(&value, reason))?;
            Ok(Some(value.into_inner()))
        };
        if raw.schema.get_ref() != SCHEMA {
            return Err(at(&raw.schema, Reason::Schema { written: raw.schema.get_ref().clone() }));
        }
        let mut settings = Self {
            name: line_text("name", raw.name)?,
            device: line_text("device", raw.device)?,
            contact: line_text("contact", raw.contact)?,
            hearing_aids: raw.hearing_aids,
            ..Self::default()
        };
        if let Some(glasses) = raw.glasses {
            let unknown = || at(&glasses, Reason::Glasses { written: glasses.get_ref().clone() });
            settings.glasses = Some(Glasses::from_name(glasses.get_ref()).ok_or_else(unknown)?);
        }
        if let Some(voice) = raw.voice {
            let unknown = || at(&voice, Reason::Voice { written: voice.get_ref().clone() });
            settings.voice = Voice::from_name(voice.get_ref()).ok_or_else(unknown)?;
        }
        if let Some(number) = raw.emergency_number {
            phone(number.get_ref()).map_err(|reason| at(&number, reason))?;
            settings.emergency_number = Some(number.into_inner()).filter(|number| number != UNKNOWN);
        }
        if let Some(distance) = raw.screen_distance_m {
            let (least, most) = SCREEN_DISTANCE_M;
            let value = *distance.get_ref();
            settings.screen_distance_m = u8::try_from(value)
                .ok()
                .filter(|meters| (least..=most).contains(meters))
                .ok_or_else(|| refuse(line_of(distance.span().start), Reason::Distance { value }))?;
        }
        if let Some(sides) = raw.sides {
            let place = |field: &'static str, value: Option<Spanned<String>>| -> Result<_, SettingsError> {
                let Some(value) = value.filter(|value| value.get_ref() != UNKNOWN) else { return Ok(None) };
                let unknown = || Reason::Place { field, written: value.get_ref().clone() };
                Place::from_name(value.get_ref()).map(Some).ok_or_else(|| at(&value, unknown()))
            };
            settings.sides = Some(Room {
                left: place("left", sides.left)?,
                right: place("right", sides.right)?,
                behind: place("behind", sides.behind)?,
            });
        }
        if let Some(patches) = raw.patches {
            let line = line_of(patches.span().start);
            for patch in patches.into_inner() {
                let line = line_of(patch.span().start);
                plain("patches", patch.get_ref()).map_err(|reason| refuse(line, reason))?;
                if settings.patches.contains(patch.get_ref()) {
                    let reason = Reason::PatchTwice { written: patch.into_inner() };
                    return Err(refuse(line, reason));
                }
                settings.patches.push(patch.into_inner());
            }
            let count = settings.patches.len();
            if count != 0 && !(floor_order::FEWEST..=floor_order::MOST).contains(&count) {
                return Err(refuse(line, Reason::Patches { count }));
            }
        }
        Ok(settings)
    }

    /// The settings of this folder; the defaults if it has none.
    ///
    /// # Errors
    /// If the file exists but cannot be read or has an error. It is never ignored.
    pub fn load(folder: &Folder) -> Result<Self, SettingsError> {
        let path = folder.settings_file();
        let name = path.display().to_string();
        match std::fs::read(&path) {
            Ok(bytes) => Self::read(&name, &bytes),
            Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(Self::default()),
            Err(error) => {
                Err(SettingsError::new(&name, None, Reason::Unreadable { message: error.to_string() }))
            }
        }
    }

    /// Writes them into this folder, completely or not at all.
    ///
    /// # Errors
    /// If the folder cannot be written. What was there is then unchanged.
    pub fn save(&self, folder: &Folder) -> Result<(), JournalError> {
        folder.write(&folder.settings_file(), self.to_toml().as_bytes())
    }

    /// The file's text, with a comment at each setting.
    pub fn to_toml(&self) -> String {
        let quoted = |text: &str| toml::Value::from(text).to_string();
        let or_example = |name: &str, value: &Option<String>, example: &str| match value {
            Some(value) => format!("{name} = {}\n", quoted(value)),
            None => format!("# {name} = {}\n", quoted(example)),
        };
        let mut file =
            format!("schema = {}\n\n# Who practices: a name, initials or a symbol.\n", quoted(SCHEMA));
        file += &or_example("name", &self.name, "A.");
        file += "# lower, higher or tones\n";
        file += &format!("voice = {}\n", quoted(self.voice.name()));
        file += "# The sound output; `counterpoise equipment` lists them. Without this line, the system chooses.\n";
        file += &or_example("device", &self.device, "name of the output");
        file += "# Whom to call in an emergency, or \"unknown\".\n";
        let number = self.emergency_number.as_deref().unwrap_or(UNKNOWN);
        file += &format!("emergency_number = {}\n", quoted(number));
        file += "# Who else to call: a name and a number.\n";
        file += &or_example("contact", &self.contact, "a name and a number");
        let glasses = Glasses::ALL.iter().map(|glasses| glasses.name()).collect::<Vec<_>>().join(", ");
        file +=
            &format!("# Your glasses for walking: {glasses}. Do not step in lenses with two strengths.\n");
        file += &match self.glasses {
            Some(glasses) => format!("glasses = {}\n", quoted(glasses.name())),
            None => format!("# glasses = {}\n", quoted(Glasses::Distance.name())),
        };
        file += "# Whether you wear hearing aids.\n";
        file += &match self.hearing_aids {
            Some(worn) => format!("hearing_aids = {worn}\n"),
            None => "# hearing_aids = true\n".to_owned(),
        };
        file += "# How far away the screen is, in meters.\n";
        file += &format!("screen_distance_m = {}\n", self.screen_distance_m);
        file += "# The patches of your floor course, three to eight, each with its own name.\n";
        let patches: Vec<String> = self.patches.iter().map(|patch| quoted(patch)).collect();
        file += &match patches.is_empty() {
            true => format!("# {PATCHES_EXAMPLE}\n"),
            false => format!("patches = [{}]\n", patches.join(", ")),
        };
        let places = Place::ALL.iter().map(|place| place.name()).collect::<Vec<_>>().join(", ");
        file += &format!(
            "\n# What is on each side of you when you face the counter, or \"unknown\":\n# {places}.\n"
        );
        let side = |name: &str, place: Option<Place>| {
            format!("{name} = {}\n", quoted(place.map_or(UNKNOWN, Place::name)))
        };
        match self.sides {
            None => file + "# [sides]\n# left = \"window\"\n# right = \"door\"\n# behind = \"table\"\n",
            Some(room) => {
                let sides = [("left", room.left), ("right", room.right), ("behind", room.behind)];
                file + "[sides]\n" + &sides.map(|(name, place)| side(name, place)).concat()
            }
        }
    }
}

/// Checks a text: not empty, one line, short enough, and printable.
fn plain(field: &'static str, text: &str) -> Result<(), Reason> {
    let characters = text.chars().count();
    if text.trim().is_empty() {
        Err(Reason::Empty { field })
    } else if characters > TEXT_CHARACTERS {
        Err(Reason::Long { field, characters })
    } else if let Some(character) = Printable::first_hidden(text) {
        Err(Reason::Unprintable { field, character })
    } else {
        Ok(())
    }
}

/// Checks a phone number: at least two digits, and the characters people write between them, or `unknown`.
fn phone(text: &str) -> Result<(), Reason> {
    plain("emergency_number", text)?;
    let dialed = |character: char| character.is_ascii_digit() || "+-.() *#".contains(character);
    let digits = text.chars().filter(char::is_ascii_digit).count();
    if text == UNKNOWN || (digits >= 2 && text.chars().all(dialed)) {
        Ok(())
    } else {
        Err(Reason::Number { written: text.to_owned() })
    }
}

#[cfg(test)]
mod test;
