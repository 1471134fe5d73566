//! How is a page written? As plain text for a terminal of 80 columns, or as one HTML file.

use std::io::{self, Write};

use serde::Serialize;

use super::Failure;
use counterpoise_core::blocks::Block;
use counterpoise_core::plan::caution::{self, Contents, Surface};
use counterpoise_core::words::Printable;

pub(super) mod html;
pub(super) mod text;

/// What a command hands over to be printed.
#[derive(Debug)]
pub(super) enum Output {
    /// A page, for people.
    Page(Vec<Block>),
    /// Bytes for other programs, and what was printed already.
    Bytes(Vec<u8>),
}

impl Output {
    /// A command that printed everything while it ran.
    pub(super) const NOTHING: Self = Self::Bytes(Vec::new());

    /// JSON, with its line end.
    pub(super) fn json(value: &impl Serialize) -> Result<Self, Failure> {
        let text = Printable::json(&serde_json::to_string_pretty(value)?);
        Ok(Self::Bytes((text + "\n").into_bytes()))
    }

    /// JSON with the cautions of its surface as one field more.
    pub(super) fn json_of(
        value: &impl Serialize,
        surface: Surface,
        contents: Contents<'_>,
    ) -> Result<Self, Failure> {
        Self::json(&Cautioned::new(value, surface, contents))
    }

    /// Its bytes, with a page as text.
    pub(super) fn into_bytes(self) -> Vec<u8> {
        match self {
            Self::Page(blocks) => text::of(&blocks).into_bytes(),
            Self::Bytes(bytes) => bytes,
        }
    }
}

/// A value for other programs, with the cautions of its surface.
#[derive(Debug, Serialize)]
pub(super) struct Cautioned<T> {
    #[serde(flatten)]
    value: T,
    cautions: Vec<String>,
}

impl<T: Serialize> Cautioned<T> {
    pub(super) fn new(value: T, surface: Surface, contents: Contents<'_>) -> Self {
        Self { value, cautions: caution::lines(surface, contents) }
    }
}

/// What `--help` says after its examples.
pub(super) fn help(examples: &str) -> String {
    format!("{examples}\n\n{}\n{}", caution::FIRST, caution::NO_PROMISE)
}

impl From<Vec<Block>> for Output {
    fn from(blocks: Vec<Block>) -> Self {
        Self::Page(blocks)
    }
}

/// Prints blocks at once: a question, or a note before a long task.
pub(super) fn show(blocks: &[Block], out: &mut impl Write) -> io::Result<()> {
    out.write_all(text::of(blocks).as_bytes())?;
    out.flush()
}
