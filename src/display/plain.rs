//! How is a [`Screen`] written line by line, for a screen reader, a log or a pipe? Only what changed, each thing once.

use std::io::{self, BufRead, IsTerminal, Read, Write};
use std::sync::mpsc::{self, Receiver, RecvTimeoutError};
use std::thread;
use std::time::{Duration, Instant};

use super::keys::{Gate, Press};
use super::terminal::close_requested;
use super::{Input, words};
use counterpoise_core::practice::session::Key;
use counterpoise_core::practice::session::screen::{Body, Item, KeyHint, Moment, Screen};
use counterpoise_core::units::Millis;
use counterpoise_core::words::Printable;

/// Time left is said at steps of this many seconds: more would talk over the cues.
const STEP: u32 = 30;

/// How long a signal may wait to be seen.
const SLICE: Duration = Duration::from_millis(100);

/// Plain lines out, one key a line in.
#[derive(Debug)]
pub struct Plain {
    lines: Lines,
    typed: Receiver<Vec<u8>>,
    /// Where lines are typed by hand, a held Enter key gives empty ones.
    held: Option<Gate>,
}

impl Plain {
    /// Starts to read standard input.
    pub fn start() -> Self {
        let (send, typed) = mpsc::sync_channel(64);
        // Never joined: it ends with the input, or with the process.
        thread::spawn(move || {
            let mut input = io::stdin().lock();
            while let Ok(Some(line)) = line(&mut input) {
                if send.send(line).is_err() {
                    break;
                }
            }
        });
        Self { lines: Lines::default(), typed, held: io::stdin().is_terminal().then(Gate::default) }
    }

    /// Writes what changed since the last screen.
    ///
    /// # Errors
    ///
    /// Standard output cannot be written.
    pub fn show(&mut self, screen: &Screen) -> io::Result<()> {
        if self.lines.last.is_none() {
            write(&[HOW_TO_TYPE.to_owned()])?;
        }
        write(&self.lines.after(screen))
    }

    /// The next line, however long that takes, for questions that are no keys; `None` at the end of input or when the
    /// program is asked to close, which is never an answer.
    pub fn next_line(&mut self) -> Option<String> {
        loop {
            match self.typed.recv_timeout(SLICE) {
                Ok(line) => return Some(String::from_utf8_lossy(&line).into_owned()),
                Err(RecvTimeoutError::Timeout) if !close_requested() => {}
                Err(_) => return None,
            }
        }
    }

    /// Waits for a line, at most this long. The end of input is [`Input::Close`], and never an answer.
    pub fn poll(&mut self, timeout: Duration) -> Input {
        let until = Instant::now() + timeout;
        loop {
            if close_requested() {
                return Input::Close;
            }
            let left = until.saturating_duration_since(Instant::now());
            match self.typed.recv_timeout(left.min(SLICE)) {
                Ok(line) => match key(&String::from_utf8_lossy(&line)) {
                    Some(key) if counts(&mut self.held, key, Instant::now()) => return Input::Key(key),
                    None if write(&[ONE_KEY.to_owned()]).is_err() => return Input::Close,
                    Some(_) | None => {}
                },
                Err(RecvTimeoutError::Timeout) if left <= SLICE => return Input::Nothing,
                Err(RecvTimeoutError::Timeout) => {}
                Err(RecvTimeoutError::Disconnected) => return Input::Close,
            }
        }
    }
}

/// Whether a line counts: of all keys only Enter, held, gives line after line.
fn counts(held: &mut Option<Gate>, key: Key, now: Instant) -> bool {
    let gate = held.as_mut().filter(|_| key == Key::Enter);
    gate.is_none_or(|gate| gate.admit(&[Press::Key(key)], now).is_some())
}

/// The first line of all.
const HOW_TO_TYPE: &str = "Type one key, then Enter. For \"any key\" Enter alone is enough.";

/// The answer to a line that is not one key.
const ONE_KEY: &str = "Not taken. Type one key, then Enter. \"stop\" stops, and \"esc\" is the Escape key.";

/// Of a line longer than this only the beginning is kept: it is refused anyway.
const LONGEST: u64 = 256;

/// The next line, with its end; `None` at the end of input.
fn line(input: &mut impl BufRead) -> io::Result<Option<Vec<u8>>> {
    let mut line = Vec::new();
    input.by_ref().take(LONGEST).read_until(b'\n', &mut line)?;
    let mut rest = line.clone();
    while rest.len() as u64 == LONGEST && rest.last() != Some(&b'\n') {
        rest.clear();
        input.by_ref().take(LONGEST).read_until(b'\n', &mut rest)?;
    }
    Ok(Some(line).filter(|line| !line.is_empty()))
}

fn write(lines: &[String]) -> io::Result<()> {
    if lines.is_empty() {
        return Ok(());
    }
    let mut out = io::stdout().lock();
    for line in lines {
        writeln!(out, "{}", Printable::of(line))?;
    }
    out.flush()
}

/// The key that a typed line stands for; `None` when it is more than one.
fn key(line: &str) -> Option<Key> {
    let line = line.trim_end_matches(['\r', '\n']);
    let mut letters = line.chars();
    match (letters.next(), letters.next()) {
        (None, _) => Some(Key::Enter),
        (Some('\u{1b}'), None) => Some(Key::Escape),
        (Some(letter), None) => Some(Key::Char(letter)),
        _ => {
            let word = line.trim();
            if word.eq_ignore_ascii_case("esc") || word.eq_ignore_ascii_case("escape") {
                return Some(Key::Escape);
            }
            if word.eq_ignore_ascii_case("stop") {
                return Some(Key::Char('S'));
            }
            let mut letters = word.chars();
            letters.next().filter(|_| letters.next().is_none()).map(Key::Char)
        }
    }
}

/// The lines so far, to find out what is new; pure.
#[derive(Debug, Default)]
pub struct Lines {
    last: Option<Screen>,
    /// The latest call of this set: it is said once, even when a pause comes between.
    cue: Option<u16>,
    /// How near the partner's item was, when it was said last.
    moment: Option<Moment>,
    /// The step of the time left that was said last.
    step: u32,
}

impl Lines {
    /// The lines to say for this screen after those before it.
    pub fn after(&mut self, screen: &Screen) -> Vec<String> {
        let last = self.last.replace(screen.clone());
        let last = last.as_ref();
        if last == Some(screen) {
            return Vec::new();
        }
        let mut lines = Vec::new();
        let known = |notice: &&String| last.is_some_and(|last| last.notices.contains(notice));
        lines.extend(
            screen.notices.iter().filter(|notice| !known(notice)).map(|notice| format!("NOTICE: {notice}")),
        );
        if !screen.place.is_empty() && last.is_none_or(|last| last.place != screen.place) {
            lines.push(screen.place.clone());
        }
        self.body(last.map(|last| &last.body), &screen.body, &mut lines);
        // A new page is read without a look back at the one before.
        let turned = |last: &Screen| matches!(screen.body, Body::Page { .. }) && last.body != screen.body;
        if !screen.keys.is_empty() && last.is_none_or(|last| last.keys != screen.keys || turned(last)) {
            lines.push(keys(&screen.keys));
        }
        lines
    }

    fn body(&mut self, last: Option<&Body>, body: &Body, lines: &mut Vec<String>) {
        let entered = last.is_none_or(|last| std::mem::discriminant(last) != std::mem::discriminant(body));
        if matches!(
            body,
            Body::Page { .. } | Body::Emergency { .. } | Body::Question { .. } | Body::Rest { .. }
        ) {
            self.cue = None;
        }
        match body {
            Body::Page { title, text, items } if last != Some(body) => {
                lines.extend([String::new(), title.clone()]);
                lines.extend(text.iter().cloned());
                lines.extend(items.iter().map(|item| format!("- {item}")));
            }
            Body::Question { ask, answers, asking_again } if last != Some(body) => {
                let mut before = last.cloned();
                if let Some(Body::Question { asking_again, .. }) = &mut before {
                    *asking_again = true;
                }
                if *asking_again {
                    lines.push(words::ALL_RIGHT.to_owned());
                }
                let said_already = *asking_again && ask == words::ALL_RIGHT;
                if before.as_ref() != Some(body) && !said_already {
                    lines.extend([String::new(), ask.clone()]);
                    lines.extend(words::answers(answers));
                }
            }
            Body::Course { patches } if last != Some(body) => {
                lines.push(words::COURSE.to_owned());
                lines.extend(words::course(patches));
            }
            Body::Emergency { number, text } if last != Some(body) => {
                lines.extend([String::new(), words::call(number.as_deref())]);
                lines.extend(text.iter().cloned());
            }
            Body::Page { .. } | Body::Emergency { .. } | Body::Question { .. } | Body::Course { .. } => {}
            Body::Count { number, standing } => {
                let before = match last {
                    Some(Body::Count { number, .. }) => Some(*number),
                    _ => None,
                };
                if entered {
                    lines.extend(standing.iter().cloned());
                }
                if before != Some(*number) {
                    lines.push(
                        number.map_or_else(|| words::GET_READY.to_owned(), |number| number.to_string()),
                    );
                }
            }
            Body::Work { call, left, .. } => {
                if entered && call.is_none() {
                    lines.push(words::LISTEN.to_owned());
                }
                if let Some(call) = call.as_ref().filter(|call| self.cue != Some(call.cue)) {
                    self.cue = Some(call.cue);
                    lines.push(format!("{} ({})", call.words, call.direction.name()));
                }
                self.time(*left, entered, words::left, lines);
            }
            Body::Partner { item, left, .. } => {
                let told = matches!(last, Some(Body::Partner { item: Some(_), .. }));
                if item.is_none() && (entered || told) {
                    lines.push(words::HOLD.to_owned());
                }
                if let Some(item) = item {
                    self.item(item, lines);
                }
                self.time(*left, entered, words::left, lines);
            }
            Body::Follow { left, .. } => {
                if entered {
                    lines.push(words::NEEDS_SCREEN.to_owned());
                }
                self.time(*left, entered, words::left, lines);
            }
            Body::Paused { left, ends_in } => {
                if entered {
                    lines.extend([words::PAUSED.to_owned(), words::left(*left)]);
                }
                self.time(*ends_in, entered, words::ends_in, lines);
            }
            Body::Rest { left, next, .. } => {
                let over = *left == Millis(0);
                let was_over = matches!(last, Some(Body::Rest { left: Millis(0), .. }));
                if over && !was_over {
                    lines.push(words::REST_OVER.to_owned());
                } else if !over {
                    self.time(*left, entered, words::rest_left, lines);
                }
                if !matches!(last, Some(Body::Rest { next: before, .. }) if before == next) {
                    lines.push(next.clone());
                }
            }
        }
    }

    /// What the partner is to do, whole, once; then each moment of it.
    fn item(&mut self, item: &Item, lines: &mut Vec<String>) {
        let is_new = self.cue != Some(item.cue);
        let counts = matches!(item.moment, Moment::In(_));
        if is_new {
            let all = [words::task(item), words::hand(item)].concat();
            lines.push(format!("{} ({})", all.join(", "), item.direction.name()));
        }
        if is_new || (!counts && self.moment != Some(item.moment)) {
            lines.push(words::countdown(item.moment));
        }
        (self.cue, self.moment) = (Some(item.cue), Some(item.moment));
    }

    /// Says a time on entry, and then whenever a whole step has gone by.
    fn time(&mut self, left: Millis, entered: bool, say: fn(Millis) -> String, lines: &mut Vec<String>) {
        let step = words::seconds(left).div_ceil(STEP);
        if entered || step < self.step {
            lines.push(say(left));
        }
        self.step = step;
    }
}

fn keys(keys: &[KeyHint]) -> String {
    format!("Keys: {}", keys.iter().map(words::key).collect::<Vec<_>>().join("    "))
}

#[cfg(test)]
mod test;
