//! How is a [`Screen`] shown, and how are keys read? Large on a terminal, or as plain lines.
//!
//! ```text
//! Screen --> view  (cells; pure)  --> terminal --> eyes 3 m away
//!        \-> plain (lines; pure)  --> stdout   --> a screen reader, a log, a pipe
//! ```

use std::io;
use std::time::Duration;

use counterpoise_core::practice::session::Key;
use counterpoise_core::practice::session::screen::Screen;

pub mod big;
mod callout;
mod capitals;
pub mod chart;
pub mod dot;
pub mod keys;
pub mod plain;
pub mod svg;
pub mod terminal;
pub mod view;
pub(crate) mod words;

/// The input from the person in front of the screen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Input {
    /// Nothing within the time given.
    Nothing,
    /// A key was pressed.
    Key(Key),
    /// End of input, a lost terminal, Ctrl-C, or a signal to close.
    Close,
}

/// One of the two ways to show a screen.
#[derive(Debug)]
pub enum Face {
    /// Large, on the whole terminal.
    Screen(terminal::Terminal),
    /// Line by line.
    Plain(plain::Plain),
}

impl Face {
    /// Shows the screen; costs nothing when it has not changed.
    ///
    /// # Errors
    ///
    /// The terminal or the output cannot be written.
    pub fn show(&mut self, screen: &Screen) -> io::Result<()> {
        match self {
            Self::Screen(terminal) => terminal.show(screen),
            Self::Plain(plain) => plain.show(screen),
        }
    }

    /// Waits for a key, at most this long.
    pub fn poll(&mut self, timeout: Duration) -> Input {
        match self {
            Self::Screen(terminal) => terminal.poll(timeout),
            Self::Plain(plain) => plain.poll(timeout),
        }
    }
}

#[cfg(test)]
mod test;
