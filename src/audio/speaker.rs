//! When is the next sentence said? Clips are placed one after the other, with a short pause between.
//!
//! A clip that is said through is heard to its end, even after a hush: the words that end a hold.

use super::clip::Clip;
use super::output::Output;
use counterpoise_core::units::Frame;
use counterpoise_core::units::Millis;

/// The pause between the end of one clip and the onset of the next.
const BREATH: Millis = Millis(250);

/// The time from asking to the first onset: a few blocks of any device, so that no clip is late.
pub const LEAD_IN: Millis = Millis(200);

/// Says announcements in order. It stores no clips: each is handed to the output at once, with its frame.
#[derive(Debug, Clone, Copy, Default)]
pub struct Speaker {
    /// The frame at which the last clip ends.
    ends: Frame,
    /// The frame at which the last clip that a hush does not cut off ends.
    through: Frame,
}

impl Speaker {
    /// Says `clip` after all earlier ones, and returns the frame at which it ends.
    pub fn say(&mut self, output: &mut Output, id: u32, clip: Clip) -> Frame {
        let at = self.follow(output, &clip);
        output.play(id, clip, at);
        self.ends
    }

    /// As [`say`](Self::say), and no [`hush`](Self::hush) cuts it off.
    pub fn say_through(&mut self, output: &mut Output, id: u32, clip: Clip) -> Frame {
        let at = self.follow(output, &clip);
        output.play_through(id, clip, at);
        self.through = self.ends;
        self.ends
    }

    /// The frame of the onset of `clip`, after all earlier ones.
    fn follow(&mut self, output: &Output, clip: &Clip) -> Frame {
        let at = self.next(output);
        self.ends = at + (clip.length() - clip.onset());
        at
    }

    /// The frame at which something asked for now would be heard.
    pub fn next(&self, output: &Output) -> Frame {
        let rate = output.rate();
        (output.now() + rate.frames(LEAD_IN)).max(self.ends + rate.frames(BREATH))
    }

    /// Whether everything has been said, or never will be because the sound is lost.
    pub fn is_done(&self, output: &Output) -> bool {
        output.is_lost() || output.now() >= self.ends
    }

    /// Whether everything that is said through has been said, or never will be because the sound is lost.
    pub fn is_through(&self, output: &Output) -> bool {
        output.is_lost() || output.now() >= self.through
    }

    /// Cuts off everything that sounds or waits on this output, except clips that are said through.
    pub fn hush(&mut self, output: &mut Output) {
        output.hush();
        self.ends = self.through;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::audio::paced::{self, Link};
    use crate::audio::{CueEvent, Frames, OutputEvent, SampleRate};
    use std::time::Duration;

    #[test]
    fn sentences_follow_each_other_with_a_breath_between() {
        let mut output = paced::start(SampleRate::HZ_48000, 200.0, |_, _| Link::Up).unwrap();
        let (mut speaker, clip) = (Speaker::default(), Clip::new(vec![900; 24_000]));
        let ends: Vec<_> = (0..3).map(|id| speaker.say(&mut output, id, clip.clone())).collect();
        assert!(!speaker.is_done(&output));
        let mut onsets = Vec::new();
        while onsets.len() < 3 {
            match output.poll() {
                Some(OutputEvent::Cue(CueEvent::Started { id, wanted, at })) => {
                    assert_eq!((wanted, id as usize), (at, onsets.len()), "on its frame, in order");
                    onsets.push(at);
                }
                _ => std::thread::sleep(Duration::from_millis(1)),
            }
        }
        for (onset, end) in onsets[1..].iter().zip(&ends) {
            assert_eq!(*onset - *end, Frames(12_000));
        }
        while !speaker.is_done(&output) {
            std::thread::sleep(Duration::from_millis(1));
        }
        speaker.say(&mut output, 9, clip);
        assert!(!speaker.is_done(&output));
        speaker.hush(&mut output);
        assert!(speaker.is_done(&output));
    }

    #[test]
    fn what_is_said_through_is_heard_to_its_end_and_what_follows_waits_for_it() {
        let mut output = paced::start(SampleRate::HZ_48000, 100.0, |_, _| Link::Up).unwrap();
        let (mut speaker, clip) = (Speaker::default(), Clip::new(vec![900; 48_000]));
        speaker.say(&mut output, 1, clip.clone());
        speaker.hush(&mut output);
        let ends = speaker.say_through(&mut output, 2, clip.clone());
        speaker.say(&mut output, 3, clip.clone());
        speaker.hush(&mut output);
        assert!(!speaker.is_through(&output));
        let next = speaker.say(&mut output, 4, clip) - Frames(48_000);
        let mut finished = Vec::new();
        while finished.last() != Some(&4) {
            match output.poll() {
                Some(OutputEvent::Cue(CueEvent::Finished { id })) => finished.push(id),
                Some(OutputEvent::Cue(CueEvent::Started { id: 4, wanted, at })) => {
                    assert_eq!((wanted, at), (next, next));
                }
                _ => std::thread::sleep(Duration::from_millis(1)),
            }
        }
        assert_eq!((finished, next - ends), (vec![2, 4], Frames(12_000)));
        assert!(speaker.is_through(&output) && speaker.is_done(&output));
    }
}
