//! Since when a session has been waiting for a key that must come, and what it does when none comes.

use super::Turn;
use crate::units::Millis;

/// How long an answer is waited for before it is asked again aloud \[judgment\].
pub const ANSWER_WAIT: Millis = Millis(90_000);
/// How long after each of the two repeats. Help should not come later than it must \[judgment\].
pub const REPEAT_WAIT: Millis = Millis(30_000);
/// How often it is asked again \[judgment\].
const REPEATS: u8 = 2;

/// Waiting for a key.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Wait {
    since: Millis,
    again: u8,
}

impl Wait {
    pub(super) fn from(since: Millis) -> Self {
        Self { since, again: 0 }
    }

    /// "Are you all right?" was asked, and nobody has answered yet.
    pub(super) fn is_asking(self) -> bool {
        self.again > 0
    }

    /// "Are you all right? Press any key": that key says yes, and is no answer to anything else.
    pub(super) fn is_confirmed(&mut self, now: Millis) -> bool {
        let asked = self.is_asking();
        if asked {
            *self = Self::from(now);
        }
        asked
    }

    /// Asks again aloud what stays unanswered. Says whether nobody is waited for any longer.
    pub(super) fn is_over(&mut self, turn: &mut Turn<'_>) -> bool {
        let patience = if self.is_asking() { REPEAT_WAIT } else { ANSWER_WAIT };
        if turn.now.at - self.since < patience {
            return false;
        }
        if self.again < REPEATS {
            *self = Self { since: turn.now.at, again: self.again + 1 };
            turn.say("ask.all-right");
            return false;
        }
        turn.say("fall.guidance");
        true
    }
}
