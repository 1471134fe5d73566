//! Which key was pressed? Decodes the bytes that a terminal sends, and ignores what is not a key press.

use std::time::{Duration, Instant};

use counterpoise_core::practice::session::Key;

/// Two of the same key nearer than this are one held key (keyboards repeat every 30 to 100 ms; judgment).
const HELD: Duration = Duration::from_millis(150);

/// A held key repeats for the first time no later than this after it was pressed (250 to 660 ms as systems come
/// \[memory\]). Within it the same key does not count again: a finger that rests on a key answers one question only.
const FIRST_REPEAT: Duration = Duration::from_millis(700);

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

/// Decodes bytes into key presses. A sequence may come in pieces.
#[derive(Debug, Default)]
pub struct KeyDecoder {
    begun: Vec<u8>,
}

impl KeyDecoder {
    /// Decodes the presses in these bytes, in order.
    pub fn decode(&mut self, bytes: &[u8]) -> Vec<Press> {
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

    /// Whether a sequence is incomplete. The Escape key itself looks like the beginning of one.
    pub fn is_incomplete(&self) -> bool {
        !self.begun.is_empty()
    }

    /// Ends an incomplete sequence, after nothing followed for a moment.
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

/// Separates intended presses from a held key, a pasted text and a cat on the keyboard.
#[derive(Debug, Default)]
pub struct Gate {
    last: Option<Last>,
}

/// A key, when it came last, and when it last counted.
#[derive(Debug, Clone, Copy)]
struct Last {
    key: Key,
    came: Instant,
    counted: Instant,
}

impl Gate {
    /// The press that counts, of those that came together: a request to close, else one to stop, else the first.
    /// A pasted text is so one key. The same key again too soon after itself is held, and does not count; a request to
    /// stop counts always, and another key at once.
    pub fn admit(&mut self, together: &[Press], now: Instant) -> Option<Press> {
        if together.contains(&Press::Close) {
            return Some(Press::Close);
        }
        let stop = together.iter().copied().find(|press| matches!(press, Press::Key(key) if key.stops()));
        let press = stop.or(together.first().copied())?;
        let Press::Key(key) = press else { return Some(press) };
        let before = self.last.filter(|last| last.key == key);
        let held = before.is_some_and(|last| {
            now.saturating_duration_since(last.came) < HELD
                || now.saturating_duration_since(last.counted) < FIRST_REPEAT
        });
        let counts = !held || key.stops();
        let counted = before.filter(|_| !counts).map_or(now, |last| last.counted);
        self.last = Some(Last { key, came: now, counted });
        counts.then_some(press)
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn keys(bytes: &[u8]) -> Vec<Press> {
        let mut reader = KeyDecoder::default();
        let mut presses = reader.decode(bytes);
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
        let mut reader = KeyDecoder::default();
        assert!(!reader.decode(&endless).is_empty());
        assert!(!reader.is_incomplete());
    }

    proptest! {
        #[test]
        fn bytes_in_pieces_are_the_same_presses(bytes in proptest::collection::vec(prop_oneof![any::<u8>(), Just(ESCAPE), Just(b'[')], 0..40), at in 0..40_usize) {
            let at = at.min(bytes.len());
            let mut reader = KeyDecoder::default();
            let mut presses = reader.decode(&bytes[..at]);
            presses.extend(reader.decode(&bytes[at..]));
            presses.extend(reader.end());
            prop_assert_eq!(presses, keys(&bytes));
        }
    }

    /// Which of the presses of one key count, pressed at these times (ms).
    fn counted(key: Key, times: &[u64]) -> Vec<u64> {
        let (mut gate, start) = (Gate::default(), Instant::now());
        let mut counts = |ms| gate.admit(&[Press::Key(key)], start + Duration::from_millis(ms)).is_some();
        times.iter().copied().filter(|ms| counts(*ms)).collect()
    }

    /// The delays and rates are the ends of what systems offer or come with \[memory\]: 250 ms (Linux console, Windows at
    /// its shortest), 500 ms (Windows, GNOME), 660 ms (X.Org); 11 to 33 a second.
    #[test]
    fn a_held_key_is_one_press_however_long_it_is_held() {
        for delay in [250, 500, 660] {
            for step in [30, 40, 90] {
                let times: Vec<u64> = [0].into_iter().chain((delay..20_000).step_by(step)).collect();
                assert_eq!(counted(Key::Enter, &times), [0], "after {delay} ms, every {step} ms");
            }
        }
    }

    #[test]
    fn the_same_key_counts_again_soon_and_another_one_at_once() {
        assert_eq!(counted(Key::Char('a'), &[0, 700]), [0, 700]);
        assert_eq!(
            counted(Key::Char('a'), &[0, 400, 720]),
            [0, 720],
            "a press that was not taken delays nothing"
        );
        let (mut gate, start) = (Gate::default(), Instant::now());
        let mut at = |key, ms| gate.admit(&[Press::Key(key)], start + Duration::from_millis(ms)).is_some();
        assert!(at(Key::Enter, 0) && at(Key::Char(' '), 1) && at(Key::Enter, 2) && at(Key::Other, 3));
    }

    #[test]
    fn a_stop_is_never_taken_for_a_held_key() {
        for stop in [Key::Escape, Key::Char('s'), Key::Char('S')] {
            assert_eq!(counted(stop, &[0, 30, 60, 500]), [0, 30, 60, 500]);
        }
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
