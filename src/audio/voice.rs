//! Which sounds are there? The built-in voices, clip by clip, and the tones. A bank has those that one session may need, in
//! memory and at the stream's rate.

use std::collections::BTreeMap;
use std::fmt;

use super::clip::Clip;
use super::decode::{self, DecodeError};
use super::tone;
use counterpoise_core::units::SampleRate;

/// The recordings of one phrase.
struct Spoken {
    id: &'static str,
    /// Whether it is called during a set.
    cue: bool,
    lower: &'static [u8],
    higher: &'static [u8],
}

/// Written by `build.rs` from `sounds/`: every phrase with its clips, ordered by id.
static SPOKEN: &[Spoken] = include!(concat!(env!("OUT_DIR"), "/spoken.rs"));

/// The voice of the calls.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Voice {
    /// The lower voice.
    Lower,
    /// The higher voice.
    Higher,
    /// No voice: a tone for a cue, a double tone for anything else.
    Tones,
}

impl Voice {
    /// All of them, in the order in which they are offered.
    pub const ALL: [Self; 3] = [Self::Lower, Self::Higher, Self::Tones];

    /// Its name in settings and options.
    ///
    /// ```
    /// use counterpoise::audio::Voice;
    /// assert_eq!(Voice::from_name("higher"), Some(Voice::Higher));
    /// assert_eq!(Voice::Higher.name(), "higher");
    /// ```
    pub const fn name(self) -> &'static str {
        match self {
            Self::Lower => "lower",
            Self::Higher => "higher",
            Self::Tones => "tones",
        }
    }

    /// The voice of this name.
    pub fn from_name(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|voice| voice.name() == name)
    }

    /// The FLAC file of a phrase in this voice. None if there is no such phrase, or if the voice is tones.
    pub fn flac(self, id: &str) -> Option<&'static [u8]> {
        let spoken = spoken(id)?;
        match self {
            Self::Lower => Some(spoken.lower),
            Self::Higher => Some(spoken.higher),
            Self::Tones => None,
        }
    }
}

impl fmt::Display for Voice {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

fn spoken(id: &str) -> Option<&'static Spoken> {
    SPOKEN.binary_search_by(|spoken| spoken.id.cmp(id)).ok().map(|index| &SPOKEN[index])
}

/// The ids of all phrases that have clips, in order.
pub fn ids() -> impl Iterator<Item = &'static str> {
    SPOKEN.iter().map(|spoken| spoken.id)
}

/// Why a bank could not be loaded. Both are bugs of the program.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum BankError {
    /// There is no clip of this id.
    #[error("there is no recording of the phrase {0}")]
    NoClip(String),
    /// The built-in clip is damaged.
    #[error("the recording of {id} in the {voice} voice cannot be used: {source}")]
    Damaged {
        /// The id of the phrase.
        id: String,
        /// The voice of the recording.
        voice: Voice,
        /// Why it could not be decoded.
        source: DecodeError,
    },
}

/// Sounds by phrase id, in memory and at the stream's rate. A second of speech takes 96 kB: load only what the session may
/// say, and decode in advance what is placed on frames.
///
/// ```
/// use counterpoise::audio::{Bank, SampleRate, Voice};
/// let bank = Bank::load(SampleRate::HZ_48000, Voice::Lower, ["set.over"]).unwrap();
/// assert!(bank.get("set.over").unwrap().length().0 > 10_000);
/// assert_eq!(bank.get("count.1"), None, "it was not asked for");
/// assert!(Bank::load(SampleRate::HZ_48000, Voice::Lower, ["no.such.phrase"]).is_err());
/// ```
#[derive(Debug, Clone)]
pub struct Bank {
    rate: SampleRate,
    voice: Voice,
    moment: Clip,
    /// Clips that are decoded already.
    clips: BTreeMap<&'static str, Clip>,
    /// FLAC bytes that are decoded each time they are asked for.
    later: BTreeMap<&'static str, &'static [u8]>,
}

impl Bank {
    /// Decodes the clips of these phrases. It takes about a millisecond for each second of speech, more at another
    /// rate than 48 kHz: do it behind a screen.
    ///
    /// # Errors
    /// If a phrase has no clip, or its clip is damaged.
    pub fn load<I, S>(rate: SampleRate, voice: Voice, ids: I) -> Result<Self, BankError>
    where
        I: IntoIterator<Item = S>,
        S: AsRef<str>,
    {
        Self::lean(rate, voice, ids, |_| true)
    }

    /// As [`load`](Self::load), but decodes only what has to be `at_hand`. The rest is decoded each time it is asked
    /// for: what is said around the sets is long, and said once.
    ///
    /// ```
    /// use counterpoise::audio::{Bank, SampleRate, Voice};
    /// let both = ["reach.left", "practice.stop-list"];
    /// let lean = Bank::lean(SampleRate::HZ_48000, Voice::Lower, both, |id| id.starts_with("reach")).unwrap();
    /// let whole = Bank::load(SampleRate::HZ_48000, Voice::Lower, both).unwrap();
    /// assert!(both.iter().all(|id| lean.get(id).is_some() && lean.get(id) == whole.get(id)));
    /// ```
    ///
    /// # Errors
    /// As [`load`](Self::load), of what is at hand. A test decodes every clip there is.
    pub fn lean<I, S>(
        rate: SampleRate,
        voice: Voice,
        ids: I,
        at_hand: impl Fn(&str) -> bool,
    ) -> Result<Self, BankError>
    where
        I: IntoIterator<Item = S>,
        S: AsRef<str>,
    {
        let (alert, notice) = (tone::alert(rate), tone::notice(rate));
        let (mut clips, mut later) = (BTreeMap::new(), BTreeMap::new());
        for id in ids {
            let id = id.as_ref();
            let spoken = spoken(id).ok_or_else(|| BankError::NoClip(id.to_owned()))?;
            if clips.contains_key(spoken.id) || later.contains_key(spoken.id) {
                continue;
            }
            let clip = match voice.flac(id) {
                Some(bytes) if at_hand(id) => decode::flac(bytes, rate)
                    .map_err(|source| BankError::Damaged { id: id.to_owned(), voice, source })?,
                Some(bytes) => {
                    later.insert(spoken.id, bytes);
                    continue;
                }
                None if spoken.cue => alert.clone(),
                None => notice.clone(),
            };
            clips.insert(spoken.id, clip);
        }
        Ok(Self { rate, voice, moment: tone::moment(rate), clips, later })
    }

    /// The same phrases at another rate (another device came back).
    ///
    /// # Errors
    /// As [`load`](Self::load).
    pub fn at_rate(&self, rate: SampleRate) -> Result<Self, BankError> {
        let ids = self.clips.keys().chain(self.later.keys());
        Self::lean(rate, self.voice, ids, |id| self.clips.contains_key(id))
    }

    /// The clip of a phrase: a handle, cheap to copy, if it is at hand; else it is decoded now.
    pub fn get(&self, id: &str) -> Option<Clip> {
        let decoded = || decode::flac(*self.later.get(id)?, self.rate).ok();
        self.clips.get(id).cloned().or_else(decoded)
    }

    /// The tone that says "now" to a partner; in every bank.
    pub fn moment(&self) -> Clip {
        self.moment.clone()
    }

    /// The rate of its clips.
    pub fn rate(&self) -> SampleRate {
        self.rate
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use counterpoise_core::plan::phrase::Phrase;

    #[test]
    fn every_phrase_has_a_clip_in_each_voice_that_decodes_whole() {
        let rate = SampleRate::HZ_48000;
        let known: Vec<_> = Phrase::all().map(Phrase::id).collect();
        assert_eq!(ids().collect::<Vec<_>>(), known, "build.rs and phrase.rs read the same list");
        for voice in Voice::ALL {
            let bank = Bank::load(rate, voice, ids()).unwrap();
            for id in &known {
                let clip = bank.get(id).unwrap();
                assert!(clip.length().0 > 4_800, "{id} in {voice}: {:?}", clip.length());
            }
        }
    }

    #[test]
    fn every_clip_begins_within_5_ms_where_the_manifest_says() {
        let manifest: toml::Table = include_str!("../../sounds/manifest.toml").parse().unwrap();
        let rows = manifest["clip"].as_array().unwrap();
        assert!(rows.len() >= 2 * ids().count());
        for row in rows {
            let (id, voice) = (row["phrase"].as_str().unwrap(), row["voice"].as_str().unwrap());
            let voice = Voice::from_name(voice).unwrap();
            let Some(bytes) = voice.flac(id) else { panic!("{id}: in the manifest, not in the list") };
            let clip = decode::flac(bytes, SampleRate::HZ_48000).unwrap();
            let number = |key: &str| row[key].as_integer().unwrap() as u64;
            assert_eq!(
                (clip.onset().0, clip.length().0),
                (number("onset_frame"), number("frames")),
                "{id} {voice}"
            );
            assert!(clip.onset().0 <= 240, "{id} {voice}: {:?}", clip.onset());
        }
    }

    #[test]
    fn tones_are_one_sound_for_every_cue_and_another_for_the_rest() {
        let bank = Bank::load(SampleRate::HZ_48000, Voice::Tones, ids()).unwrap();
        let sounds =
            |cue| Phrase::all().filter(move |p| p.is_cue() == cue).map(|p| bank.get(p.id()).unwrap());
        let (cue, other) = (sounds(true).next().unwrap(), sounds(false).next().unwrap());
        assert_ne!(cue, other);
        assert!(sounds(true).all(|clip| clip == cue));
        assert!(sounds(false).all(|clip| clip == other));
        assert_eq!(Voice::Tones.flac("set.over"), None);
        assert!(Voice::ALL.iter().all(|v| Voice::from_name(v.name()) == Some(*v)));
        assert_eq!(Voice::from_name("loud"), None);
    }
}
