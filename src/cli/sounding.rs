//! Which voice speaks in a practice, and from which output.

use std::io;

use super::Failure;
use super::page::show;
use crate::audio::{Bank, SampleRate, Voice, device};
use crate::practice::{self, RoomSound, Sound};
use crate::settings::Settings;
use counterpoise_core::blocks::Block;
use counterpoise_core::plan::phrase::Phrase;
use counterpoise_core::practice::emergency::Contacts;
use counterpoise_core::practice::session::Channel;

/// The voice. A tone cannot tell a partner what to do, so an earbud always has a voice.
pub(super) fn voice(asked_for: Option<&str>, settings: &Settings, partner: Option<Channel>) -> Voice {
    let chosen = asked_for.and_then(Voice::from_name).unwrap_or(settings.voice);
    if chosen == Voice::Tones && partner == Some(Channel::PartnerEarbud) {
        let note = "Note: a tone cannot tell the partner what to do. The lower voice speaks in the earbud.";
        let _ = show(&[Block::line(note)], &mut io::stderr());
        return Voice::Lower;
    }
    chosen
}

/// Opens the sound. Without sound the practice runs on the screen; a damaged clip is an error.
pub(super) fn open(device: Option<&str>, voice: Voice, phrases: &[Phrase]) -> Result<Option<Sound>, Failure> {
    let output = device::open(device)?;
    let bank =
        Bank::lean(output.rate(), voice, phrases.iter().map(|phrase| phrase.id()), practice::is_placed)?;
    let warnings = warnings(output.rate(), voice)?;
    Ok(Some(Sound::new(output, bank).with_warnings(warnings)))
}

/// What is said in an emergency. A tone says no number, so it always has a voice.
fn warnings(rate: SampleRate, voice: Voice) -> Result<Bank, Failure> {
    let voice = if voice == Voice::Tones { Voice::Lower } else { voice };
    let phrases = Contacts::phrases();
    Ok(Bank::lean(rate, voice, phrases.iter().map(|phrase| phrase.id()), |_| false)?)
}

/// Another output than the partner's earbud, for what everybody must hear: the one of the settings, else the system's, else
/// a sound card that the system lists.
pub(super) fn room_sound(earbud: String, chosen: Option<String>, voice: Voice) -> RoomSound {
    RoomSound::Other(Box::new(move || {
        // Of what ALSA lists, most names lead to the same card, or to nothing.
        let is_card = |id: &String| !id.starts_with("alsa:") || id.starts_with("alsa:plughw:");
        let listed = device::list().unwrap_or_default().into_iter().map(|listed| listed.id).filter(is_card);
        let mut candidates =
            [chosen, None].into_iter().chain(listed.map(Some)).filter(|id| id.as_ref() != Some(&earbud));
        let open = |id: Option<String>| {
            device::open(id.as_deref()).ok().filter(|output| output.facts().id != earbud)
        };
        let output = candidates.find_map(open)?;
        let bank = warnings(output.rate(), voice).ok()?;
        Some(Sound::new(output, bank))
    }))
}
