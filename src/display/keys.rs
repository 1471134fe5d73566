//! Which key was pressed? From the bytes that a terminal sends, and with what is no key press left out. Pure.
//! Not what a key means (that is [`crate::session`]), nor how the bytes are read (that is
//! [`super::terminal`]).

use std::time::{Duration, Instant};

use crate::session::Key;

/// Two of the same key nearer than this are one held key (keyboards repeat every 30 to 100 ms; judgment).
const HELD: Duration = Duration::from_millis(150);

/// Longer than any key's own sequence: what is longer is not waited for.
const LONGEST: usize = 64;

/// What a terminal sent.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Press {
    /// A key.
    Key(Key),
    /// Ctrl-C or Ctrl-\: nothing else reaches a program that holds the terminal.
    Close,
    /// Ctrl-L: the screen may be spoiled.
    Repaint,
}

/// Bytes in, presses out. A sequence may come in pieces.
#[derive(Debug, Default)]
pub struct Bytes {
    begun: Vec<u8>,
}

impl Bytes {
    /// The presses in these bytes, in order.
    pub fn take(&mut self, bytes: &[u8]) -> Vec<Press> {
        self.begun.extend_from_slice(bytes);
        let mut presses = Vec::new();
        let mut used = 0;
        while let Some((length, press)) = first(&self.begun[used..]) {
            used += length;
            presses.extend(press);
        }
        self.begun.drain(..used);
        presses
    }

    /// Whether a sequence has begun: the Escape key itself looks like the beginning of one.
    pub fn has_begun(&self) -> bool {
        !self.begun.is_empty()
    }

    /// What has begun is all there is: nothing followed for a moment.
    pub fn end(&mut self) -> Option<Press> {
        let begun = std::mem::take(&mut self.begun);
        match begun.as_slice() {
            [ESCAPE] => Some(Press::Key(Key::Escape)),
            [ESCAPE, ..] => Some(Press::Key(Key::Other)),
            // Nothing, or half a letter: not UTF-8.
            _ => None,
        }
    }
}

const ESCAPE: u8 = 0x1b;

/// The first press and how many bytes it took; `None` when more bytes must come.
fn first(bytes: &[u8]) -> Option<(usize, Option<Press>)> {
    let key = |key| Some(Press::Key(key));
    Some(match *bytes.first()? {
        ESCAPE => return sequence(bytes),
        0x03 | 0x1c => (1, Some(Press::Close)),
        // Ctrl-Z would leave a set running with nobody at it; NUL is no key.
        0x00 | 0x1a => (1, None),
        0x0c => (1, Some(Press::Repaint)),
        b'\r' | b'\n' => (1, key(Key::Enter)),
        0x01..=0x1f | 0x7f => (1, key(Key::Other)),
        letter @ 0x20..=0x7e => (1, key(Key::Char(letter as char))),
        lead => {
            let length = match lead {
                0xc2..=0xdf => 2,
                0xe0..=0xef => 3,
                0xf0..=0xf4 => 4,
                _ => return Some((1, None)),
            };
            let letter = bytes.get(..length)?;
            match std::str::from_utf8(letter).ok().and_then(|letter| letter.chars().next()) {
                Some(letter) => (length, key(Key::Char(letter))),
                None => (1, None),
            }
        }
    })
}

/// A sequence after Escape (ECMA-48): arrows, function keys, a presenter's remote, reports.
fn sequence(bytes: &[u8]) -> Option<(usize, Option<Press>)> {
    let other = |length| Some((length, Some(Press::Key(Key::Other))));
    match *bytes.get(1)? {
        ESCAPE => Some((1, Some(Press::Key(Key::Escape)))),
        b'[' => {
            // The Linux console sends F1 to F5 as `ESC [ [ A` to `E`.
            let from = if bytes.get(2) == Some(&b'[') { 3 } else { 2 };
            let Some(end) =
                bytes[from.min(bytes.len())..].iter().position(|byte| !(0x20..=0x3f).contains(byte))
            else {
                return if bytes.len() > LONGEST { other(bytes.len()) } else { None };
            };
            let end = from + end;
            match bytes[end] {
                // The window was chosen or left: no key.
                b'I' | b'O' if end == 2 => Some((end + 1, None)),
                0x40..=0x7e => other(end + 1),
                _ => other(end),
            }
        }
        b'O' => bytes.get(2).and_then(|_| other(3)),
        _ => other(2),
    }
}

/// Tells presses that a person meant from a held key, a pasted text and a cat.
#[derive(Debug, Default)]
pub struct Gate {
    last: Option<(Key, Instant)>,
}

impl Gate {
    /// The press that counts, of those that came together: a request to close, else one to stop, else the first.
    /// A pasted text is so one key. The same key again too soon after itself is held, and does not count.
    pub fn admit(&mut self, together: &[Press], now: Instant) -> Option<Press> {
        if together.contains(&Press::Close) {
            return Some(Press::Close);
        }
        let stop = together.iter().copied().find(|press| matches!(press, Press::Key(key) if key.stops()));
        let press = stop.or(together.first().copied())?;
        let Press::Key(key) = press else { return Some(press) };
        let last = self.last.replace((key, now));
        let held = last.is_some_and(|(before, at)| before == key && now.saturating_duration_since(at) < HELD);
        (!held).then_some(press)
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn keys(bytes: &[u8]) -> Vec<Press> {
        let mut reader = Bytes::default();
        let mut presses = reader.take(bytes);
        presses.extend(reader.end());
        presses
    }

    /// The sequences are those of `xterm` ("`XTerm` Control Sequences", PC-style function keys) and of the Linux console
    /// (`console_codes(4)`, `infocmp linux`).
    #[test]
    fn each_key_is_one_press() {
        use Press::Key as P;
        assert_eq!(keys(b"s"), [P(Key::Char('s'))]);
        assert_eq!(keys(b"\r"), [P(Key::Enter)]);
        assert_eq!(keys(b"\x1b"), [P(Key::Escape)]);
        assert_eq!(keys("é".as_bytes()), [P(Key::Char('é'))]);
        for (name, bytes) in [
            ("up", &b"\x1b[A"[..]),
            ("up, application", b"\x1bOA"),
            ("page down, a presenter's remote", b"\x1b[6~"),
            ("F5", b"\x1b[15~"),
            ("ctrl-shift-right", b"\x1b[1;6C"),
            ("F1 on the console", b"\x1b[[A"),
            ("alt-y is not y", b"\x1by"),
            ("backspace", b"\x7f"),
            ("ctrl-y is not y", b"\x19"),
            ("tab", b"\t"),
            ("alt-[ with nothing after it", b"\x1b["),
            ("alt-shift-o with nothing after it", b"\x1bO"),
        ] {
            assert_eq!(keys(bytes), [P(Key::Other)], "{name}");
        }
        assert_eq!(keys(b"\x03"), [Press::Close]);
        assert_eq!(keys(b"\x1c"), [Press::Close]);
        assert_eq!(keys(b"\x0c"), [Press::Repaint]);
        for (name, bytes) in [
            ("ctrl-z", &b"\x1a"[..]),
            ("NUL", b"\0"),
            ("the window was chosen", b"\x1b[I"),
            ("not UTF-8", b"\xff\xc3"),
        ] {
            assert_eq!(keys(bytes), [], "{name}");
        }
        assert_eq!(keys(b"\x1b\x1b"), [P(Key::Escape), P(Key::Escape)]);
        assert_eq!(keys(b"n\x1b[Bn"), [P(Key::Char('n')), P(Key::Other), P(Key::Char('n'))]);
    }

    #[test]
    fn a_sequence_without_an_end_is_not_waited_for_for_ever() {
        let endless = [&b"\x1b["[..], &[b'1'; 200]].concat();
        let mut reader = Bytes::default();
        assert!(!reader.take(&endless).is_empty());
        assert!(!reader.has_begun());
    }

    proptest! {
        #[test]
        fn bytes_in_pieces_are_the_same_presses(bytes in proptest::collection::vec(prop_oneof![any::<u8>(), Just(ESCAPE), Just(b'[')], 0..40), at in 0..40_usize) {
            let at = at.min(bytes.len());
            let mut reader = Bytes::default();
            let mut presses = reader.take(&bytes[..at]);
            presses.extend(reader.take(&bytes[at..]));
            presses.extend(reader.end());
            prop_assert_eq!(presses, keys(&bytes));
        }
    }

    #[test]
    fn a_held_key_is_one_press_however_long_it_is_held() {
        let mut gate = Gate::default();
        let start = Instant::now();
        let mut at = |key, ms| gate.admit(&[Press::Key(key)], start + Duration::from_millis(ms)).is_some();
        assert!(at(Key::Enter, 0));
        for ms in (30..3000).step_by(30) {
            assert!(!at(Key::Enter, ms));
        }
        assert!(at(Key::Escape, 3000), "another key counts at once");
        assert!(at(Key::Enter, 3010));
        assert!(!at(Key::Enter, 3159));
        assert!(at(Key::Enter, 3309));
    }

    #[test]
    fn a_pasted_text_is_one_key_and_a_stop_in_it_is_not_lost() {
        let at = Instant::now();
        let admitted = |text: &[u8]| Gate::default().admit(&keys(text), at);
        assert_eq!(admitted(b"yny\rny"), Some(Press::Key(Key::Char('y'))));
        assert_eq!(admitted(b"yn\x1b"), Some(Press::Key(Key::Escape)));
        assert_eq!(admitted(b"y\x1bn\x03"), Some(Press::Close));
        assert_eq!(admitted(b""), None);
    }
}
