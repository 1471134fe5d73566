//! The `prescribe` command: a therapist writes or changes a prescription, page by page. The file is written completely or
//! not at all, and replaces another one only after a yes.

use std::fs;
use std::io::{self, IsTerminal, Write};
use std::path::{Path, PathBuf};

use crossterm::cursor::MoveTo;
use crossterm::terminal::{Clear, ClearType};

use super::Failure;
use super::page::{help, show};
use super::source;
use crate::clock::Clock;
use crate::display::plain::Plain;
use crate::display::terminal;
use crate::handover;
use crate::journal::Folder;
use crate::journal::folder::write_beside;
use counterpoise_core::blocks::Block;
use counterpoise_core::plan::caution::{self, Contents, Surface};
use counterpoise_core::plan::prescription::{Digest, Draft, Prescription, Seal};
use counterpoise_core::prescribing::{Figures, Form, Item, Outcome, View, changes};

mod tryout;

/// The options of `prescribe`.
#[derive(Debug, Clone, clap::Args)]
#[command(after_help = help("Examples:\n  \
    counterpoise prescribe                       a new one, from a ready prescription\n  \
    counterpoise prescribe --from balance.toml   change one; the rest of it stays\n  \
    counterpoise prescribe --try --from balance.toml   watch single steps in the room, and unlock them\n\n\
    Answer with one line and Enter, from a keyboard or a file. Nothing is written until the end."))]
pub(super) struct Arguments {
    /// Change this prescription: a file, or a ready one
    #[arg(long, value_name = "FILE")]
    from: Option<String>,
    /// Where to write it [default: it asks at the end]
    #[arg(long, value_name = "FILE", conflicts_with = "try_out")]
    out: Option<PathBuf>,
    /// A supervised try-out in the room: run single drills and steps, note what was seen, write the unlocks
    #[arg(long = "try", requires = "from")]
    try_out: bool,
    /// In a try-out: calls on the screen only, no sound
    #[arg(long, requires = "try_out")]
    silent: bool,
    /// In a try-out: plain lines instead of a full screen
    #[arg(long, requires = "try_out")]
    plain: bool,
}

pub(super) fn run(
    arguments: &Arguments,
    folder: impl FnOnce() -> Result<Folder, Failure>,
    out: &mut impl Write,
) -> Result<(), Failure> {
    let mut console =
        Console { plain: None, out, keyboard: io::stdin().is_terminal() && io::stdout().is_terminal() };
    let today = Clock::real().wall().date();
    if arguments.try_out {
        let named = arguments.from.as_deref().unwrap_or_default();
        return tryout::run(
            &tryout::Options { named, silent: arguments.silent, plain: arguments.plain },
            &folder()?,
            today,
            &mut console,
        );
    }
    let source = arguments.from.as_deref().map(source::named).transpose()?;
    let mut form = match &source {
        Some(source) => Form::edit(&source.prescription, today),
        None => Form::new(today),
    };
    if source.as_ref().is_some_and(|source| Seal::of(&source.bytes) == Seal::Broken) {
        console.say("Note: this file was changed after it was issued (the digest in its last line does not match). Its present content is shown.")?;
        console.pause()?;
    }
    fill_in(&mut form, &mut console)?;
    // A ready prescription is no file of the therapist: its comments are about itself.
    let original = source.as_ref().filter(|source| Prescription::ready(&source.name).is_none());
    let given = arguments.out.clone().or_else(|| original.map(|source| PathBuf::from(&source.name)));
    let text = match original {
        Some(source) => form.draft().to_toml_over(&source.bytes),
        None => form.draft().to_toml(),
    };
    let title = &form.draft().title;
    let (path, digest) = keep(&text, title, arguments.out.as_deref(), given, &mut console)?;
    console.say(&format!("Written: {} (digest {}).", path.display(), digest.short()))?;
    if arguments.from.is_some() {
        let changed = changes(form.opened(), form.draft());
        console.say(if changed.is_empty() { "Nothing was changed." } else { "What was changed:" })?;
        console.show(&changed.into_iter().map(Block::item).collect::<Vec<_>>())?;
    }
    // What was written applies to it: with an unlock, the missing evidence too.
    if let Ok(written) = form.draft().admit() {
        console.show(&caution::blocks(Surface::Prescribe, Contents::Of(&written)))?;
    }
    let name = path.display();
    console.say(&format!("A handout in plain words: counterpoise check --handout {name}"))?;
    console.say(&format!("On the person's computer: counterpoise use {name}. Or bring it on a memory stick: practice offers it at the start."))
}

/// Shows page after page until the person chooses to write the file.
fn fill_in(form: &mut Form, console: &mut Console<'_, impl Write>) -> Result<(), Failure> {
    let (mut shown, mut shown_for): (Option<Figures>, Option<Draft>) = (None, None);
    loop {
        let fresh = shown_for.as_ref() != Some(form.draft());
        let figures = match fresh {
            true => form.draft().admit().ok().and_then(|admitted| Figures::of(&admitted).ok()),
            false => shown.clone(),
        };
        let before = shown.take().filter(|_| fresh);
        console.turn_to(&form.view(figures.as_ref(), before.as_ref()))?;
        (shown, shown_for) = (figures, Some(form.draft().clone()));
        let line = console.read()?.ok_or_else(not_finished)?;
        match form.answer(&line) {
            Outcome::Page => {}
            Outcome::Write => return Ok(()),
            Outcome::Leave => return Err(not_finished()),
        }
        // The next line of a file would answer the wrong question.
        if let Some((fact, hint)) = form.refusal()
            && !console.keyboard
        {
            return Err(Failure::new(fact, format!("{hint} Nothing was written.")));
        }
    }
}

fn not_finished() -> Failure {
    Failure::new(
        "the prescription was not finished, and nothing was written",
        "Start again: counterpoise prescribe",
    )
}

/// Asks for a place and writes the file. An existing file is replaced only after a yes.
fn keep(
    text: &str,
    title: &str,
    named: Option<&Path>,
    usual: Option<PathBuf>,
    console: &mut Console<'_, impl Write>,
) -> Result<(PathBuf, Digest), Failure> {
    let file = format!("{}.toml", handover::file_stem(title));
    let usual = usual.unwrap_or_else(|| PathBuf::from(&file));
    let mut named = named.map(Path::to_owned);
    loop {
        let path = match named.take() {
            Some(path) => path,
            None => where_to(&usual, &file, console)?,
        };
        let path = if path.is_dir() { path.join(&file) } else { path };
        if fs::symlink_metadata(&path).is_ok() {
            console.say(&format!("{} already exists. Replace it? (Y yes; Enter no)", path.display()))?;
            if !console.yes()? {
                if !console.keyboard {
                    return Err(not_finished());
                }
                continue;
            }
        }
        match write(text, &path) {
            Ok(digest) => return Ok((path, digest)),
            Err(failure) if console.keyboard => {
                console.say(&format!("Error: {}", failure.fact()))?;
                console.say(&format!("Hint: {}", failure.hint()))?;
            }
            Err(failure) => return Err(failure),
        }
    }
}

fn where_to(usual: &Path, file: &str, console: &mut Console<'_, impl Write>) -> Result<PathBuf, Failure> {
    let sticks = handover::places();
    let mut ask = vec![
        Block::line("Where should it be written? Type a file or a folder."),
        Block::item(format!("Enter: {}", usual.display())),
    ];
    ask.extend((1..).zip(&sticks).map(|(number, stick): (u32, _)| {
        Block::item(format!("{number}: on the memory stick {} ({})", stick.name, stick.path.display()))
    }));
    console.show(&ask)?;
    let line = console.read()?.ok_or_else(not_finished)?;
    let line = line.trim();
    let stick = line.parse::<usize>().ok().and_then(|number| sticks.get(number.checked_sub(1)?));
    Ok(match stick {
        Some(stick) => stick.folder().map_err(|error| not_written(&stick.path, &error))?.join(file),
        None if line.is_empty() => usual.to_owned(),
        None => PathBuf::from(line),
    })
}

/// Writes the sealed file, completely or not at all, after the gate has read it once more.
fn write(text: &str, path: &Path) -> Result<Digest, Failure> {
    let text = Seal::append(text);
    let read = Prescription::read(&path.display().to_string(), text.as_bytes())?;
    write_beside(path, text.as_bytes()).map_err(|error| not_written(path, &error))?;
    Ok(read.digest())
}

fn not_written(path: &Path, error: &io::Error) -> Failure {
    Failure::new(
        format!("{} cannot be written: {error}", path.display()),
        "No partial file was kept. Choose another place, or free some space.",
    )
}

/// Where questions are asked and answered.
struct Console<'a, W: Write> {
    /// The reader of standard input after a session: its thread keeps on reading.
    plain: Option<Plain>,
    out: &'a mut W,
    /// Whether a person types and reads: then each page begins on an empty screen, and a refused answer is asked again.
    keyboard: bool,
}

impl<W: Write> Console<'_, W> {
    /// Shows one page of the form.
    fn turn_to(&mut self, view: &View) -> Result<(), Failure> {
        if self.keyboard && !terminal::is_dumb() {
            crossterm::queue!(self.out, Clear(ClearType::All), MoveTo(0, 0))?;
        } else {
            self.show(&[Block::Gap])?;
        }
        self.show(&page(view))
    }

    fn show(&mut self, blocks: &[Block]) -> Result<(), Failure> {
        Ok(show(blocks, self.out)?)
    }

    fn say(&mut self, text: &str) -> Result<(), Failure> {
        self.show(&[Block::line(text)])
    }

    /// Asks for one of several things by its number.
    fn choose(&mut self, ask: &str, things: impl Iterator<Item = String>) -> Result<(), Failure> {
        let choices =
            (1..).zip(things).map(|(number, thing): (u32, _)| Block::Choice(number.to_string(), thing));
        self.show(&std::iter::once(Block::line(ask)).chain(choices).collect::<Vec<_>>())
    }

    /// The next line; `None` at the end of input, which is never a yes.
    fn read(&mut self) -> Result<Option<String>, Failure> {
        if self.keyboard {
            write!(self.out, "> ")?;
        }
        self.out.flush()?;
        if let Some(plain) = &mut self.plain {
            return Ok(plain.next_line());
        }
        let mut line = String::new();
        let read = io::stdin().read_line(&mut line).map_err(|error| {
            Failure::new(format!("the answer cannot be read: {error}"), "Nothing was written. Start again.")
        })?;
        Ok((read > 0).then_some(line))
    }

    fn yes(&mut self) -> Result<bool, Failure> {
        Ok(self.read()?.is_some_and(|line| matches!(line.trim().to_lowercase().as_str(), "y" | "yes")))
    }

    fn pause(&mut self) -> Result<(), Failure> {
        if self.keyboard {
            self.say("Press Enter to go on.")?;
            self.read()?;
        }
        Ok(())
    }
}

/// A page of the form.
fn page(view: &View) -> Vec<Block> {
    let mut page = vec![Block::line(&view.heading), Block::Gap];
    page.extend(view.items.iter().map(|item| match item {
        Item::Text(text) => Block::item(text),
        Item::Pair(label, text) => Block::fact(label, text),
        Item::Choice(key, text) => Block::Choice(key.clone(), text.clone()),
        Item::Gap => Block::Gap,
    }));
    let keys = view.keys.split("  ").map(str::trim).filter(|key| !key.is_empty());
    page.extend([Block::Gap, Block::Keys(keys.map(str::to_owned).collect())]);
    page
}

#[cfg(test)]
mod test;
