//! How is the whole terminal used: entered, drawn on, read from, and restored whatever happens?
//!
//! On Unix the bytes are read in a thread of their own and not by crossterm 0.29: that reads the end of a terminal
//! that has hung up for ever, and after half a sequence (Alt-[) it waits for the other half without a limit.

use std::env;
use std::io::{self, BufWriter, Stdout, stdout};
use std::panic;
use std::sync::Once;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{Receiver, RecvTimeoutError};
use std::time::{Duration, Instant};

use crossterm::cursor::{Hide, Show};
use crossterm::terminal::{
    BeginSynchronizedUpdate, Clear, ClearType, EndSynchronizedUpdate, EnterAlternateScreen,
    LeaveAlternateScreen, disable_raw_mode, enable_raw_mode,
};
use crossterm::{execute, queue};
use ratatui::backend::{Backend, CrosstermBackend};
use ratatui::buffer::{Buffer, Cell};
use ratatui::layout::Rect;
use ratatui::style::Modifier;

use super::keys::{Gate, KeyDecoder, Press};
use super::{Input, view};
use counterpoise_core::practice::session::screen::{Body, Screen};
use counterpoise_core::units::Millis;

/// How long a signal may wait to be seen.
const SLICE: Duration = Duration::from_millis(100);

/// When only the time left has changed, it is drawn this often at most: ten times a second look steady.
const STEADY: Duration = Duration::from_millis(100);

/// A slow target is drawn this often at most. The practice looks about every 20 ms, so that it moves 20 to 25 times a second,
/// by a cell at most.
const SMOOTH: Duration = Duration::from_millis(30);

/// Escape alone is the key when nothing follows for this long (a terminal sends a sequence in one piece, a slow line
/// in several; judgment).
const ALONE: Duration = Duration::from_millis(40);

/// No terminal has more columns or rows: one that claims 65,535 of each would take gigabytes to draw \[judgment\].
const MOST_CELLS: u16 = 2_000;

/// Used when a terminal does not say how large it is.
const USUAL: (u16, u16) = (80, 24);

/// Whether the terminal is ours now. A process has one.
static TAKEN: AtomicBool = AtomicBool::new(false);

/// The whole terminal: raw, on its alternate screen, the cursor hidden. Given back when dropped, or on a panic.
///
/// After it is dropped the process reads nothing more from standard input: the reading thread may still take a key.
#[derive(Debug)]
pub struct Terminal {
    out: CrosstermBackend<BufWriter<Stdout>>,
    /// What the terminal shows; of size zero if that is not known.
    stands: Buffer,
    /// What was drawn last, without its times, and when.
    drawn: Option<(Screen, Instant)>,
    typed: Receiver<source::Typed>,
    bytes: KeyDecoder,
    gate: Gate,
}

impl Terminal {
    /// Takes the terminal.
    ///
    /// # Errors
    ///
    /// There is no terminal, or it cannot be set up; it is then as it was.
    pub fn enter() -> io::Result<Self> {
        give_back_on_panic();
        signals::watch_size()?;
        if let Err(error) = take() {
            give_back();
            return Err(error);
        }
        Ok(Self {
            out: CrosstermBackend::new(BufWriter::new(stdout())),
            stands: Buffer::empty(Rect::ZERO),
            drawn: None,
            typed: source::open(),
            bytes: KeyDecoder::default(),
            gate: Gate::default(),
        })
    }

    /// Draws the screen, if it or the size of the terminal has changed, and only what has changed of it.
    ///
    /// # Errors
    ///
    /// The terminal cannot be written, or a panic has given it back.
    pub fn show(&mut self, screen: &Screen) -> io::Result<()> {
        if !TAKEN.load(Ordering::SeqCst) {
            return Err(io::Error::other("the terminal was given back"));
        }
        if signals::continued() {
            // Other programs may have used the terminal while we were stopped.
            disable_raw_mode()?;
            take()?;
            self.drawn = None;
        }
        let (still, now) = (timeless(screen), Instant::now());
        let resized = signals::resized();
        let every = pace(&screen.body);
        let stands =
            |(last, at): &(Screen, Instant)| *last == still && every.is_none_or(|every| now - *at < every);
        if !resized && self.drawn.as_ref().is_some_and(stands) {
            return Ok(());
        }
        let area = if resized || self.drawn.is_none() { size()? } else { self.stands.area };
        let anew = self.drawn.is_none() || area != self.stands.area;
        if anew || self.drawn.as_ref().is_none_or(|(last, _)| *last != still) {
            // Every cell is written, without clearing first: nothing strange stays, nothing flashes, and whoever reads
            // along (a screen reader, a log of the terminal) gets whole words.
            let mut unlike_any = Cell::EMPTY;
            unlike_any.modifier = Modifier::HIDDEN;
            self.stands = Buffer::filled(area, unlike_any);
        }
        let mut next = Buffer::empty(area);
        view::draw_in(screen, area, &mut next);
        let changed = self.stands.diff(&next);
        if anew || !changed.is_empty() {
            queue!(self.out, BeginSynchronizedUpdate)?;
            if anew {
                queue!(self.out, Clear(ClearType::All))?;
            }
            self.out.draw(changed.into_iter())?;
            queue!(self.out, EndSynchronizedUpdate)?;
            Backend::flush(&mut self.out)?;
        }
        self.stands = next;
        self.drawn = Some((still, now));
        Ok(())
    }

    /// Waits for a key, at most this long (a little longer after half a key).
    pub fn poll(&mut self, timeout: Duration) -> Input {
        let until = Instant::now() + timeout;
        loop {
            if close_requested() || !TAKEN.load(Ordering::SeqCst) {
                return Input::Close;
            }
            let left = until.saturating_duration_since(Instant::now());
            match self.typed.recv_timeout(left.min(SLICE)) {
                Ok(typed) => {
                    let presses = self.together(&typed);
                    match self.gate.admit(&presses, Instant::now()) {
                        Some(Press::Key(key)) => return Input::Key(key),
                        Some(Press::Close) => return Input::Close,
                        Some(Press::Repaint) => self.drawn = None,
                        None => {}
                    }
                }
                Err(RecvTimeoutError::Timeout) if left <= SLICE => return Input::Nothing,
                Err(RecvTimeoutError::Timeout) => {}
                Err(RecvTimeoutError::Disconnected) => return Input::Close,
            }
        }
    }

    /// Everything that has come by now, and the end of a key that has begun.
    fn together(&mut self, typed: &source::Typed) -> Vec<Press> {
        let mut presses = source::presses(typed, &mut self.bytes);
        loop {
            let more = if self.bytes.is_incomplete() {
                self.typed.recv_timeout(ALONE).ok()
            } else {
                // The end of input is found again by the next wait.
                self.typed.try_recv().ok()
            };
            let Some(typed) = more else { break };
            presses.extend(source::presses(&typed, &mut self.bytes));
        }
        presses.extend(self.bytes.end());
        presses
    }
}

impl Drop for Terminal {
    fn drop(&mut self) {
        give_back();
    }
}

/// The screen without the times that run by themselves.
fn timeless(screen: &Screen) -> Screen {
    let mut still = screen.clone();
    match &mut still.body {
        Body::Work { left, .. } | Body::Partner { left, .. } | Body::Rest { left, .. } => *left = Millis(0),
        Body::Follow { across_per_mille, down_per_mille, left, .. } => {
            (*across_per_mille, *down_per_mille, *left) = (0, 0, Millis(0));
        }
        Body::Paused { left, ends_in } => (*left, *ends_in) = (Millis(0), Millis(0)),
        Body::Page { .. }
        | Body::Emergency { .. }
        | Body::Question { .. }
        | Body::Count { .. }
        | Body::Course { .. } => {}
    }
    still
}

/// How often it is drawn when nothing but a running time, or the place of a slow target, has changed; `None` where
/// nothing runs.
const fn pace(body: &Body) -> Option<Duration> {
    match body {
        Body::Work { .. } | Body::Partner { .. } | Body::Rest { .. } | Body::Paused { .. } => Some(STEADY),
        Body::Follow { .. } => Some(SMOOTH),
        Body::Page { .. }
        | Body::Emergency { .. }
        | Body::Question { .. }
        | Body::Count { .. }
        | Body::Course { .. } => None,
    }
}

fn size() -> io::Result<Rect> {
    let (width, height) = believed(crossterm::terminal::size()?);
    Ok(Rect::new(0, 0, width, height))
}

/// The size that a terminal says it has; the usual one where it says nothing that a terminal can have.
pub fn believed(said: (u16, u16)) -> (u16, u16) {
    let can_be = |cells: u16| (1..=MOST_CELLS).contains(&cells);
    if can_be(said.0) && can_be(said.1) { said } else { USUAL }
}

fn take() -> io::Result<()> {
    TAKEN.store(true, Ordering::SeqCst);
    enable_raw_mode()?;
    execute!(stdout(), EnterAlternateScreen, Hide)
}

/// As far as it goes: there may be no terminal any more. Does nothing the second time.
fn give_back() {
    if TAKEN.swap(false, Ordering::SeqCst) {
        let _ = execute!(stdout(), EndSynchronizedUpdate, Show, LeaveAlternateScreen);
        let _ = disable_raw_mode();
    }
}

/// The message of a panic, in whichever thread, is read on the ordinary screen; the practice then closes.
fn give_back_on_panic() {
    static ONCE: Once = Once::new();
    ONCE.call_once(|| {
        let before = panic::take_hook();
        panic::set_hook(Box::new(move |info| {
            give_back();
            before(info);
        }));
    });
}

/// Where the keys come from.
#[cfg(unix)]
mod source {
    use std::io::{self, Read};
    use std::sync::mpsc::{self, Receiver};
    use std::thread;

    use super::{KeyDecoder, Press};

    /// What one read gave.
    pub(crate) type Typed = Vec<u8>;

    /// Reads until the terminal hangs up (nothing or an error is read), which closes the channel.
    pub(crate) fn open() -> Receiver<Typed> {
        let (tell, typed) = mpsc::sync_channel(64);
        // Never joined: a read ends only with a key or with the terminal.
        thread::spawn(move || {
            let mut input = io::stdin().lock();
            let mut bytes = [0; 1024];
            loop {
                match input.read(&mut bytes) {
                    Ok(length @ 1..) if tell.send(bytes[..length].to_vec()).is_ok() => {}
                    Err(error) if error.kind() == io::ErrorKind::Interrupted => {}
                    _ => return,
                }
            }
        });
        typed
    }

    pub(crate) fn presses(typed: &Typed, bytes: &mut KeyDecoder) -> Vec<Press> {
        bytes.decode(typed)
    }
}

/// Where the keys come from: on Windows the console tells events, not bytes.
#[cfg(not(unix))]
mod source {
    use std::sync::mpsc::{self, Receiver};
    use std::thread;

    use crossterm::event::{self, Event, KeyCode, KeyEvent, KeyEventKind, KeyModifiers};

    use super::{KeyDecoder, Press};
    use counterpoise_core::practice::session::Key;

    pub type Typed = Event;

    pub fn open() -> Receiver<Typed> {
        let (tell, typed) = mpsc::sync_channel(64);
        thread::spawn(move || while event::read().is_ok_and(|event| tell.send(event).is_ok()) {});
        typed
    }

    /// A key is its press; its release and its repeats are nothing.
    pub fn presses(typed: &Typed, _: &mut KeyDecoder) -> Vec<Press> {
        let Event::Key(KeyEvent { code, modifiers, kind: KeyEventKind::Press, .. }) = *typed else {
            return vec![];
        };
        // AltGr, with which some keyboards type letters, is both at once.
        let altered = modifiers.contains(KeyModifiers::CONTROL) != modifiers.contains(KeyModifiers::ALT);
        vec![match code {
            KeyCode::Char('c' | 'C') if altered && modifiers.contains(KeyModifiers::CONTROL) => Press::Close,
            KeyCode::Char(_) if altered => Press::Key(Key::Other),
            KeyCode::Char(letter) => Press::Key(Key::Char(letter)),
            KeyCode::Enter => Press::Key(Key::Enter),
            KeyCode::Esc => Press::Key(Key::Escape),
            _ => Press::Key(Key::Other),
        }]
    }
}

#[cfg(unix)]
mod signals {
    use std::io;
    use std::sync::atomic::{AtomicBool, Ordering};
    use std::sync::{Arc, LazyLock};

    use signal_hook::consts::{SIGCONT, SIGHUP, SIGINT, SIGTERM, SIGWINCH};

    /// A flag that signals raise, watched from its first use.
    struct Flag {
        raised: Arc<AtomicBool>,
        watched: Result<(), io::ErrorKind>,
    }

    impl Flag {
        fn of(signals: &[i32]) -> Self {
            let raised = Arc::default();
            let watch = |signal: &i32| signal_hook::flag::register(*signal, Arc::clone(&raised)).map(drop);
            let watched = signals.iter().try_for_each(watch).map_err(|error| error.kind());
            Self { raised, watched }
        }
    }

    static CLOSE: LazyLock<Flag> = LazyLock::new(|| Flag::of(&[SIGTERM, SIGHUP, SIGINT]));
    static RESIZED: LazyLock<Flag> = LazyLock::new(|| Flag::of(&[SIGWINCH]));
    static CONTINUED: LazyLock<Flag> = LazyLock::new(|| Flag::of(&[SIGCONT]));

    pub(crate) fn watch() -> io::Result<()> {
        CLOSE.watched.map_err(io::Error::from)
    }

    pub(crate) fn close_requested() -> bool {
        CLOSE.raised.load(Ordering::Relaxed)
    }

    pub(crate) fn watch_size() -> io::Result<()> {
        RESIZED.watched.and(CONTINUED.watched).map_err(io::Error::from)
    }

    pub(crate) fn resized() -> bool {
        RESIZED.raised.swap(false, Ordering::Relaxed)
    }

    pub(crate) fn continued() -> bool {
        CONTINUED.raised.swap(false, Ordering::Relaxed)
    }
}

#[cfg(not(unix))]
mod signals {
    pub fn watch() -> std::io::Result<()> {
        Ok(())
    }

    pub fn close_requested() -> bool {
        false
    }

    pub fn watch_size() -> std::io::Result<()> {
        Ok(())
    }

    /// Nothing tells: looked at each time.
    pub fn resized() -> bool {
        true
    }

    pub fn continued() -> bool {
        false
    }
}

/// Whether the terminal shows more than ASCII, as far as the environment says: the first of these that is set decides, as in
/// POSIX. Where none is set nobody said otherwise.
pub fn is_utf8() -> bool {
    let set = ["LC_ALL", "LC_CTYPE", "LANG"].into_iter().filter_map(env::var_os);
    has_utf8(set.map(|value| value.to_string_lossy().into_owned()).find(|value| !value.is_empty()).as_deref())
}

/// Windows and macOS show it without a locale.
fn has_utf8(locale: Option<&str>) -> bool {
    let Some(locale) = locale.filter(|_| cfg!(target_os = "linux")) else { return true };
    let locale = locale.to_ascii_lowercase();
    locale.contains("utf-8") || locale.contains("utf8")
}

/// Whether the terminal says that it can only write lines: `TERM` is `dumb`.
pub fn is_dumb() -> bool {
    env::var_os("TERM").is_some_and(|term| term == "dumb")
}

/// From now on a request to end (SIGTERM, SIGHUP, SIGINT) is noted instead of ending the process at once, so that the
/// set is recorded and the terminal given back. Once is enough; more do nothing. Does nothing on Windows.
///
/// # Errors
///
/// The system does not let us.
pub fn watch_signals() -> io::Result<()> {
    signals::watch()
}

/// Whether a signal asked us to end since [`watch_signals`].
pub fn close_requested() -> bool {
    signals::close_requested()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_size_that_no_terminal_has_is_not_known() {
        for said in [(0, 24), (80, 0), (65_535, 65_535), (80, 65_535), (2_001, 24)] {
            assert_eq!(believed(said), USUAL, "{said:?}");
        }
        for said in [(80, 24), (1, 1), (2_000, 2_000)] {
            assert_eq!(believed(said), said);
        }
    }

    #[cfg(target_os = "linux")]
    #[test]
    fn only_utf_8_has_large_letters() {
        for locale in ["C", "POSIX", "en_US", "en_US.ISO-8859-1", "de_DE@euro", "C.ANSI_X3.4-1968"] {
            assert!(!has_utf8(Some(locale)), "{locale}");
        }
        for locale in ["C.UTF-8", "en_US.utf8", "de_DE.UTF-8@euro"] {
            assert!(has_utf8(Some(locale)), "{locale}");
        }
        assert!(has_utf8(None), "nobody said otherwise");
    }

    #[test]
    fn only_the_running_time_is_drawn_at_leisure() {
        let work = |left, place: &str| Screen {
            place: place.into(),
            body: Body::Work { call: None, left: Millis(left), whole: Millis(60_000) },
            keys: vec![],
            notices: vec![],
        };
        assert_eq!(timeless(&work(59_980, "Set 1")), timeless(&work(3, "Set 1")));
        assert_ne!(timeless(&work(3, "Set 2")), timeless(&work(3, "Set 1")));
        let mut noticed = work(3, "Set 1");
        noticed.notices.push("NOT SAVED".into());
        assert_ne!(timeless(&noticed), timeless(&work(3, "Set 1")));
    }
}
