//! What a command draws on: the whole terminal, or plain lines; and pages that are only read there.

use std::io::{self, IsTerminal};
use std::time::Duration;

use super::Failure;
use super::page::show;
use crate::display::plain::Plain;
use crate::display::terminal::{self, Terminal};
use crate::display::{Face, Input};
use counterpoise_core::blocks::Block;
use counterpoise_core::practice::session::Key;
use counterpoise_core::practice::session::screen::{Body, KeyHint, Screen};

/// How long a question waits for a key before the loop looks around.
const LOOK: Duration = Duration::from_millis(20);

/// The whole terminal, or plain lines where they are asked for. `command` is named where there is no terminal to draw on.
///
/// # Errors
/// If there is no terminal, and no plain lines are asked for.
pub(super) fn open(plain: bool, command: &str) -> Result<Face, Failure> {
    if plain {
        return Ok(Face::Plain(Plain::start()));
    }
    if io::stdin().is_terminal() && io::stdout().is_terminal() && !terminal::is_utf8() {
        // Large letters and arrows would be other characters there.
        let note = "Note: this terminal's language setting has no large letters (LANG is not UTF-8), so these are lines.";
        show(&[Block::line(note)], &mut io::stderr())?;
        return Ok(Face::Plain(Plain::start()));
    }
    if !(io::stdin().is_terminal() && io::stdout().is_terminal()) {
        return Err(Failure::new(
            "there is no terminal to draw on",
            format!("For pipes and screen readers: counterpoise {command} --plain"),
        ));
    }
    if terminal::is_dumb() {
        return Err(Failure::new(
            "this terminal can only write lines (TERM is dumb)",
            format!("For lines of text: counterpoise {command} --plain"),
        ));
    }
    Terminal::enter().map(Face::Screen).map_err(|error| no_terminal(&error))
}

/// The terminal failed.
pub(super) fn no_terminal(error: &io::Error) -> Failure {
    Failure::new(
        format!("the terminal cannot be used ({error})"),
        "Try another terminal window, or plain lines: counterpoise practice --plain",
    )
}

/// Shows the pages one after another. `command` is named where there is no terminal to draw on.
///
/// # Errors
/// If there is no terminal, or it fails.
pub(super) fn read(command: &str, pages: impl IntoIterator<Item = Body>) -> Result<(), Failure> {
    terminal::watch_signals().map_err(|error| no_terminal(&error))?;
    let mut face = open(false, command)?;
    for body in pages {
        if !read_page(&mut face, body)? {
            break;
        }
    }
    Ok(())
}

/// Shows what is asked until `screen` has nothing more to ask, and gives each key to `key`; `false` if the person leaves.
///
/// # Errors
/// If the terminal fails, or whatever `key` says.
pub(super) fn answered<T>(
    face: &mut Face,
    asked: &mut T,
    screen: impl Fn(&T) -> Option<Screen>,
    mut key: impl FnMut(&mut T, Key) -> Result<(), Failure>,
) -> Result<bool, Failure> {
    while let Some(shown) = screen(asked) {
        face.show(&shown).map_err(|error| no_terminal(&error))?;
        match face.poll(LOOK) {
            Input::Key(pressed) if !pressed.stops() => key(asked, pressed)?,
            Input::Nothing if !terminal::close_requested() => {}
            _ => return Ok(false),
        }
    }
    Ok(true)
}

/// Shows one page until a key; `false` if the person leaves. Plain lines wait for nobody.
///
/// # Errors
/// If the terminal fails.
pub(super) fn read_page(face: &mut Face, body: Body) -> Result<bool, Failure> {
    let screen = Screen {
        place: String::new(),
        body,
        keys: vec![KeyHint::new("any key", "go on"), KeyHint::new("S or Esc", "leave")],
        notices: Vec::new(),
    };
    face.show(&screen).map_err(|error| no_terminal(&error))?;
    while let Face::Screen(_) = face {
        match face.poll(Duration::from_millis(100)) {
            Input::Key(key) => return Ok(!key.stops()),
            Input::Close => return Ok(false),
            Input::Nothing if terminal::close_requested() => return Ok(false),
            Input::Nothing => face.show(&screen).map_err(|error| no_terminal(&error))?,
        }
    }
    Ok(true)
}
