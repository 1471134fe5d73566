//! Writes a prescription with a therapist, page by page, and puts the file where it is wanted: whole or not at all, and
//! never over another one without a yes. Not what is asked and what is allowed (that is `prescribing` and the gate).

use std::fs;
use std::io::{self, IsTerminal, Write};
use std::path::{Path, PathBuf};

use crossterm::cursor::MoveTo;
use crossterm::terminal::{Clear, ClearType};

use super::Failure;
use super::source;
use super::wrap::{WIDTH, hanging, wrapped};
use crate::clock::Clock;
use crate::display::plain::Plain;
use crate::display::terminal;
use crate::handover;
use crate::journal::Folder;
use crate::journal::folder::write_beside;
use counterpoise_core::plan::prescription::{Digest, Draft, Prescription, Seal};
use counterpoise_core::prescribing::{Figures, Form, Item, Outcome, View, changes};

mod tryout;

/// From which one, and where to.
#[derive(Debug, Clone, clap::Args)]
#[command(after_help = "Examples:\n  \
    counterpoise prescribe                       a new one, from a ready prescription\n  \
    counterpoise prescribe --from balance.toml   change one; what is not asked for stays\n  \
    counterpoise prescribe --try --from balance.toml   watch single steps in the room, and unlock them\n\n\
    Each answer is one line and Enter, from a keyboard or a file. Nothing is written before the end.\n\
    Local codes and licensed practice come first. Nothing here promises to prevent falls.")]
pub(super) struct Arguments {
    /// Change this prescription: a file, or a ready one
    #[arg(long, value_name = "FILE")]
    from: Option<String>,
    /// Where it is written [default: asked at the end]
    #[arg(long, value_name = "FILE", conflicts_with = "try_out")]
    out: Option<PathBuf>,
    /// A supervised try-out in the room: run single drills and steps, note what was seen, write the unlocks
    #[arg(long = "try", requires = "from")]
    try_out: bool,
    /// In a try-out: calls on the screen only, no sound
    #[arg(long, requires = "try_out")]
    silent: bool,
    /// In a try-out: plain lines in place of a full screen
    #[arg(long, requires = "try_out")]
    plain: bool,
}

pub(super) fn run(
    arguments: &Arguments,
    folder: impl FnOnce() -> Result<Folder, Failure>,
    out: &mut impl Write,
) -> Result<(), Failure> {
    let mut desk =
        Desk { plain: None, out, keyboard: io::stdin().is_terminal() && io::stdout().is_terminal() };
    let today = Clock::real().wall().date();
    if arguments.try_out {
        let named = arguments.from.as_deref().unwrap_or_default();
        return tryout::run(
            &tryout::Wishes { named, silent: arguments.silent, plain: arguments.plain },
            &folder()?,
            today,
            &mut desk,
        );
    }
    let source = arguments.from.as_deref().map(source::named).transpose()?;
    let mut form = match &source {
        Some(source) => Form::edit(&source.prescription, today),
        None => Form::new(today),
    };
    if source.as_ref().is_some_and(|source| Seal::of(&source.bytes) == Seal::Broken) {
        desk.say("Note: this file was changed after it was issued (its last line names another digest). What stands in it now is shown.")?;
        desk.pause()?;
    }
    fill_in(&mut form, &mut desk)?;
    let given = arguments.out.clone().or_else(|| file_of(source.as_ref()));
    let (path, digest) = keep(form.draft(), arguments.out.as_deref(), given, &mut desk)?;
    desk.say(&format!("Written: {} (digest {}).", path.display(), digest.short()))?;
    if arguments.from.is_some() {
        let changed = changes(form.opened(), form.draft());
        desk.say(if changed.is_empty() { "Nothing was changed." } else { "What was changed:" })?;
        for line in &changed {
            desk.lines(&wrapped("  ", line))?;
        }
    }
    let name = path.display();
    desk.say(&format!("A hand-out in plain words: counterpoise check --handout {name}"))?;
    desk.say(&format!("On the person's computer: counterpoise use {name}; or bring it on a memory stick, where practice offers it when it starts."))
}

/// The file that was opened; a ready prescription is none.
fn file_of(source: Option<&source::Source>) -> Option<PathBuf> {
    source
        .filter(|source| Prescription::ready(&source.name).is_none())
        .map(|source| PathBuf::from(&source.name))
}

/// Page after page, until it is to be written.
fn fill_in(form: &mut Form, desk: &mut Desk<'_, impl Write>) -> Result<(), Failure> {
    let (mut shown, mut shown_for): (Option<Figures>, Option<Draft>) = (None, None);
    loop {
        let fresh = shown_for.as_ref() != Some(form.draft());
        let figures = match fresh {
            true => form.draft().admit().ok().and_then(|admitted| Figures::of(&admitted).ok()),
            false => shown.clone(),
        };
        let before = shown.take().filter(|_| fresh);
        desk.show(&form.view(figures.as_ref(), before.as_ref()))?;
        (shown, shown_for) = (figures, Some(form.draft().clone()));
        let line = desk.read()?.ok_or_else(not_finished)?;
        match form.answer(&line) {
            Outcome::Page => {}
            Outcome::Write => return Ok(()),
            Outcome::Leave => return Err(not_finished()),
        }
        // Lines that were meant for other questions must not answer this one.
        if let Some((fact, hint)) = form.refusal()
            && !desk.keyboard
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

/// Asks where to, and writes. A file that is there is replaced only after a yes.
fn keep(
    draft: &Draft,
    named: Option<&Path>,
    usual: Option<PathBuf>,
    desk: &mut Desk<'_, impl Write>,
) -> Result<(PathBuf, Digest), Failure> {
    let file = format!("{}.toml", handover::file_stem(&draft.title));
    let usual = usual.unwrap_or_else(|| PathBuf::from(&file));
    let mut named = named.map(Path::to_owned);
    loop {
        let path = match named.take() {
            Some(path) => path,
            None => where_to(&usual, &file, desk)?,
        };
        let path = if path.is_dir() { path.join(&file) } else { path };
        if fs::symlink_metadata(&path).is_ok() {
            desk.say(&format!("{} is there already. Replace it? (Y yes; Enter no)", path.display()))?;
            if !desk.yes()? {
                if !desk.keyboard {
                    return Err(not_finished());
                }
                continue;
            }
        }
        match write(draft, &path) {
            Ok(digest) => return Ok((path, digest)),
            Err(failure) if desk.keyboard => {
                desk.say(&format!("Error: {}", failure.fact()))?;
                desk.say(&format!("Hint: {}", failure.hint()))?;
            }
            Err(failure) => return Err(failure),
        }
    }
}

fn where_to(usual: &Path, file: &str, desk: &mut Desk<'_, impl Write>) -> Result<PathBuf, Failure> {
    let sticks = handover::places();
    desk.say("Where is it written? A file or a folder.")?;
    desk.say(&format!("  Enter: {}", usual.display()))?;
    for (number, stick) in (1..).zip(&sticks) {
        desk.say(&format!("  {number}: on the memory stick {} ({})", stick.name, stick.path.display()))?;
    }
    let line = desk.read()?.ok_or_else(not_finished)?;
    let line = line.trim();
    let stick = line.parse::<usize>().ok().and_then(|number| sticks.get(number.checked_sub(1)?));
    Ok(match stick {
        Some(stick) => stick.folder().map_err(|error| not_written(&stick.path, &error))?.join(file),
        None if line.is_empty() => usual.to_owned(),
        None => PathBuf::from(line),
    })
}

/// Writes the sealed file, whole or not at all. The gate reads what is written once more.
fn write(draft: &Draft, path: &Path) -> Result<Digest, Failure> {
    let text = Seal::append(&draft.to_toml());
    let read = Prescription::read(&path.display().to_string(), text.as_bytes())?;
    write_beside(path, text.as_bytes()).map_err(|error| not_written(path, &error))?;
    Ok(read.digest())
}

fn not_written(path: &Path, error: &io::Error) -> Failure {
    Failure::new(
        format!("{} cannot be written: {error}", path.display()),
        "Nothing was left there. Name another place, or make room.",
    )
}

/// Where questions are put and answered.
struct Desk<'a, W: Write> {
    /// Who reads standard input, once a session has begun to: it keeps on reading.
    plain: Option<Plain>,
    out: &'a mut W,
    /// Somebody types and reads: a page begins on an empty screen, and a wrong answer is asked again.
    keyboard: bool,
}

impl<W: Write> Desk<'_, W> {
    /// One page.
    fn show(&mut self, view: &View) -> Result<(), Failure> {
        if self.keyboard && !terminal::is_dumb() {
            crossterm::queue!(self.out, Clear(ClearType::All), MoveTo(0, 0))?;
        } else {
            writeln!(self.out)?;
        }
        self.lines(&page(view))
    }

    fn say(&mut self, text: &str) -> Result<(), Failure> {
        let indent = if text.starts_with("  ") { "  " } else { "" };
        self.lines(&wrapped(indent, text))
    }

    fn lines(&mut self, text: &str) -> Result<(), Failure> {
        writeln!(self.out, "{}", text.trim_end_matches('\n'))?;
        Ok(self.out.flush()?)
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
            self.say("Enter goes on.")?;
            self.read()?;
        }
        Ok(())
    }
}

/// A page as text of the usual width.
fn page(view: &View) -> String {
    let mut lines = vec![wrapped("", &view.heading), String::new()];
    for item in &view.items {
        lines.push(match item {
            Item::Text(text) => wrapped("  ", text),
            Item::Pair(label, text) => hanging(&format!("  {label:<9}"), text),
            Item::Choice(key, text) => hanging(&format!("  {key:>3}  "), text),
            Item::Gap => String::new(),
        });
    }
    lines.push(String::new());
    lines.push(keys(&view.keys));
    lines.join("\n") + "\n"
}

/// What can be typed, in lines that break between two keys and not within one.
fn keys(text: &str) -> String {
    let mut lines = String::new();
    let mut column = 0;
    for key in text.split("  ").map(str::trim).filter(|key| !key.is_empty()) {
        let length = key.chars().count();
        if column > 0 && column + 3 + length <= WIDTH {
            lines.push_str("   ");
            column += 3 + length;
        } else {
            if column > 0 {
                lines.push('\n');
            }
            column = length;
        }
        lines.push_str(key);
    }
    lines
}

#[cfg(test)]
mod test;
