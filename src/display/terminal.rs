//! How is the whole terminal taken, drawn on, listened to, and given back whatever happens?
//! Not what is drawn (that is [`super::view`]).
//!
//! Keys are read in a thread of their own: once a terminal has hung up, crossterm 0.29 reads its end for ever and
//! does not return. The thread gives a sign of life, and a reader that gives none for a while is a lost terminal.

use std::io::{self, Stdout, stdout};
use std::mem::ManuallyDrop;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{self, Receiver, RecvTimeoutError, Sender};
use std::sync::{Arc, Once};
use std::time::{Duration, Instant};
use std::{panic, thread};

use crossterm::cursor::{Hide, Show};
use crossterm::event::{self, Event, KeyCode, KeyEvent, KeyEventKind, KeyModifiers};
use crossterm::execute;
use crossterm::terminal::{EnterAlternateScreen, LeaveAlternateScreen, disable_raw_mode, enable_raw_mode};
use ratatui::backend::CrosstermBackend;
use ratatui::layout::Size;

use super::{Input, view};
use crate::session::Key;
use crate::session::screen::Screen;

/// Two of the same key nearer than this are one held key (keyboards repeat every 30 to 100 ms; judgment).
const HELD: Duration = Duration::from_millis(150);

/// How often the reading thread gives a sign of life, and how long a signal may wait to be seen.
const SLICE: Duration = Duration::from_millis(100);

/// A reader silent for this long, while we waited for it, reads a lost terminal (judgment).
const LOST: Duration = Duration::from_secs(3);

/// The whole terminal: raw, on its alternate screen, the cursor hidden. Given back when dropped, or on a panic.
#[derive(Debug)]
pub struct Terminal {
    /// Not dropped: ratatui 0.30 would then write to standard error that the cursor cannot be shown, and after a
    /// hang-up that is a panic. [`give_back`] does it instead.
    cells: ManuallyDrop<ratatui::Terminal<CrosstermBackend<Stdout>>>,
    shown: Option<(Screen, Size)>,
    heard: Receiver<Heard>,
    stop: Arc<AtomicBool>,
    held: Held,
    silent: Duration,
}

/// What the reading thread tells.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Heard {
    Alive,
    Key(Key),
    Close,
}

impl Terminal {
    /// Takes the terminal.
    ///
    /// # Errors
    ///
    /// There is no terminal, or it cannot be set up; it is then as it was.
    pub fn enter() -> io::Result<Self> {
        give_back_on_panic();
        enable_raw_mode()?;
        let taken = execute!(stdout(), EnterAlternateScreen, Hide)
            .and_then(|()| ratatui::Terminal::new(CrosstermBackend::new(stdout())));
        let cells = match taken {
            Ok(cells) => ManuallyDrop::new(cells),
            Err(error) => {
                give_back();
                return Err(error);
            }
        };
        let (tell, heard) = mpsc::channel();
        let stop = Arc::new(AtomicBool::new(false));
        let asked = Arc::clone(&stop);
        // Never joined: on a lost terminal it does not come back, and ends with the process.
        thread::spawn(move || read(&tell, &asked));
        Ok(Self { cells, shown: None, heard, stop, held: Held::default(), silent: Duration::ZERO })
    }

    /// Draws the screen, if it or the size of the terminal has changed.
    ///
    /// # Errors
    ///
    /// The terminal cannot be written.
    pub fn show(&mut self, screen: &Screen) -> io::Result<()> {
        let size = self.cells.size()?;
        if self.shown.as_ref().is_some_and(|(shown, at)| shown == screen && *at == size) {
            return Ok(());
        }
        self.cells.draw(|frame| view::draw(screen, frame))?;
        self.shown = Some((screen.clone(), size));
        Ok(())
    }

    /// Waits for a key, at most this long.
    pub fn poll(&mut self, timeout: Duration) -> Input {
        let until = Instant::now() + timeout;
        loop {
            if close_asked() || self.silent > LOST {
                return Input::Close;
            }
            let now = Instant::now();
            let wait = until.saturating_duration_since(now).min(SLICE);
            match self.heard.recv_timeout(wait) {
                Ok(heard) => {
                    self.silent = Duration::ZERO;
                    match heard {
                        Heard::Key(key) if self.held.is_new(key, Instant::now()) => return Input::Key(key),
                        Heard::Close => return Input::Close,
                        Heard::Key(_) | Heard::Alive => {}
                    }
                }
                // Only what was really waited for: the process may have been stopped or the machine asleep.
                Err(RecvTimeoutError::Timeout) => self.silent += wait,
                Err(RecvTimeoutError::Disconnected) => return Input::Close,
            }
            if Instant::now() >= until {
                return Input::Nothing;
            }
        }
    }
}

impl Drop for Terminal {
    fn drop(&mut self) {
        self.stop.store(true, Ordering::Relaxed);
        give_back();
    }
}

/// Reads events until told to stop, or until nothing more can come.
fn read(tell: &Sender<Heard>, stop: &AtomicBool) {
    while !stop.load(Ordering::Relaxed) {
        let heard = match event::poll(SLICE) {
            Ok(false) => Heard::Alive,
            Ok(true) => event::read().map_or(Heard::Close, |event| meaning(&event)),
            Err(_) => Heard::Close,
        };
        if tell.send(heard).is_err() || heard == Heard::Close {
            return;
        }
    }
}

/// What an event means here. A key is its press; its release and its repeats are nothing.
fn meaning(event: &Event) -> Heard {
    match event {
        Event::Key(KeyEvent { code, modifiers, kind: KeyEventKind::Press, .. }) => match code {
            KeyCode::Char('c' | 'C') if modifiers.contains(KeyModifiers::CONTROL) => Heard::Close,
            KeyCode::Char(_) if modifiers.intersects(KeyModifiers::CONTROL | KeyModifiers::ALT) => {
                Heard::Key(Key::Other)
            }
            KeyCode::Char(letter) => Heard::Key(Key::Char(*letter)),
            KeyCode::Enter => Heard::Key(Key::Enter),
            KeyCode::Esc => Heard::Key(Key::Escape),
            _ => Heard::Key(Key::Other),
        },
        _ => Heard::Alive,
    }
}

/// Tells a held key from a new press.
#[derive(Debug, Default)]
struct Held {
    last: Option<(Key, Instant)>,
}

impl Held {
    /// Whether this is a new press: another key, or the same one after a pause.
    fn is_new(&mut self, key: Key, now: Instant) -> bool {
        let last = self.last.replace((key, now));
        last.is_none_or(|(before, at)| before != key || now.saturating_duration_since(at) >= HELD)
    }
}

/// As far as it goes: there may be no terminal any more.
fn give_back() {
    let _ = execute!(stdout(), Show, LeaveAlternateScreen);
    let _ = disable_raw_mode();
}

/// The message of a panic is read on the ordinary screen.
fn give_back_on_panic() {
    static ONCE: Once = Once::new();
    ONCE.call_once(|| {
        let before = panic::take_hook();
        panic::set_hook(Box::new(move |info| {
            if crossterm::terminal::is_raw_mode_enabled().unwrap_or(false) {
                give_back();
            }
            before(info);
        }));
    });
}

#[cfg(unix)]
mod signals {
    use std::io;
    use std::sync::atomic::{AtomicBool, Ordering};
    use std::sync::{Arc, LazyLock};

    use signal_hook::consts::{SIGHUP, SIGINT, SIGTERM};

    static ASKED: LazyLock<Arc<AtomicBool>> = LazyLock::new(Arc::default);
    static WATCHED: LazyLock<Result<(), io::ErrorKind>> = LazyLock::new(|| {
        for signal in [SIGTERM, SIGHUP, SIGINT] {
            signal_hook::flag::register(signal, Arc::clone(&ASKED)).map_err(|error| error.kind())?;
        }
        Ok(())
    });

    pub fn watch() -> io::Result<()> {
        (*WATCHED).map_err(io::Error::from)
    }

    pub fn asked() -> bool {
        ASKED.load(Ordering::Relaxed)
    }
}

#[cfg(not(unix))]
mod signals {
    pub fn watch() -> std::io::Result<()> {
        Ok(())
    }

    pub fn asked() -> bool {
        false
    }
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
pub fn close_asked() -> bool {
    signals::asked()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn press(code: KeyCode, modifiers: KeyModifiers) -> Heard {
        meaning(&Event::Key(KeyEvent::new(code, modifiers)))
    }

    #[test]
    fn only_a_press_is_a_key() {
        assert_eq!(press(KeyCode::Char('s'), KeyModifiers::NONE), Heard::Key(Key::Char('s')));
        assert_eq!(press(KeyCode::Char('S'), KeyModifiers::SHIFT), Heard::Key(Key::Char('S')));
        assert_eq!(press(KeyCode::Enter, KeyModifiers::NONE), Heard::Key(Key::Enter));
        assert_eq!(press(KeyCode::Esc, KeyModifiers::NONE), Heard::Key(Key::Escape));
        assert_eq!(
            press(KeyCode::PageDown, KeyModifiers::NONE),
            Heard::Key(Key::Other),
            "a presenter's remote"
        );
        for kind in [KeyEventKind::Release, KeyEventKind::Repeat] {
            let event = KeyEvent::new_with_kind(KeyCode::Enter, KeyModifiers::NONE, kind);
            assert_eq!(meaning(&Event::Key(event)), Heard::Alive);
        }
        assert_eq!(meaning(&Event::Resize(80, 24)), Heard::Alive);
    }

    #[test]
    fn control_c_closes_and_no_other_control_key_is_its_letter() {
        assert_eq!(press(KeyCode::Char('c'), KeyModifiers::CONTROL), Heard::Close);
        assert_eq!(press(KeyCode::Char('y'), KeyModifiers::CONTROL), Heard::Key(Key::Other));
        assert_eq!(press(KeyCode::Char('y'), KeyModifiers::ALT), Heard::Key(Key::Other));
    }

    #[test]
    fn a_held_key_is_one_press_however_long_it_is_held() {
        let mut held = Held::default();
        let start = Instant::now();
        let at = |ms| start + Duration::from_millis(ms);
        assert!(held.is_new(Key::Enter, at(0)));
        for ms in (30..3000).step_by(30) {
            assert!(!held.is_new(Key::Enter, at(ms)));
        }
        assert!(held.is_new(Key::Escape, at(3000)), "another key is never dropped");
        assert!(held.is_new(Key::Enter, at(3010)));
        assert!(held.is_new(Key::Enter, at(3160)));
    }

    #[test]
    fn a_reader_that_is_gone_closes() {
        let (tell, heard) = mpsc::channel();
        let stop = AtomicBool::new(false);
        drop(heard);
        // Returns: the loop ends when nobody listens any more (or when there is no terminal to read).
        read(&tell, &stop);
    }
}
