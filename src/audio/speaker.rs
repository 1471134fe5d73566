//! One sentence after the other: places clips on the clock so that they never overlap, with a breath between. Not
//! what is said.

use super::clip::Clip;
use super::frame::Frame;
use super::output::Output;
use crate::millis::Millis;

/// Between the end of one clip and the onset of the next.
const BREATH: Millis = Millis(250);

/// From asking to the first onset: a few blocks of any device, so that nothing is late.
pub const LEAD_IN: Millis = Millis(200);

/// Says announcements in order. It holds no clips: they are on the clock as soon as they are asked for.
#[derive(Debug, Clone, Copy, Default)]
pub struct Speaker {
    /// Where the last of them ends.
    ends: Frame,
}

impl Speaker {
    /// Says `clip` after everything said before, and gives the frame at which it will be over.
    pub fn say(&mut self, output: &mut Output, id: u32, clip: Clip) -> Frame {
        let at = self.next(output);
        self.ends = at + (clip.length() - clip.onset());
        output.play(id, clip, at);
        self.ends
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

    /// Cuts off what is being said, and everything else that sounds or waits on this output.
    pub fn hush(&mut self, output: &mut Output) {
        output.hush();
        self.ends = Frame(0);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::audio::paced::{self, Link};
    use crate::audio::{Frames, OutputEvent, SampleRate};
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
                Some(OutputEvent::Started { id, wanted, at }) => {
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
}
