//! The `progress` command: this week, what is next, and how it is going, in large letters.

use std::io::{self, IsTerminal};

use jiff::civil::Date;

use super::face;
use super::page::Output;
use super::standing::{self, Position};
use super::{Failure, source};
use crate::clock::Clock;
use crate::journal::{Folder, Journal};
use counterpoise_core::blocks::Block;
use counterpoise_core::course::program::moment;
use counterpoise_core::course::progress::Progress;
use counterpoise_core::plan::caution::{self, Contents, Surface};
use counterpoise_core::practice::session::screen::Body;

/// The options of `progress`.
#[derive(Debug, Clone, Copy, clap::Args)]
#[command(after_help = "Examples:\n  \
    counterpoise progress           large on the whole terminal; press any key for the next page\n  \
    counterpoise progress --plain   as lines of text\n\n\
    It is for you: no scores, and no comparison with anyone.")]
pub(super) struct Arguments {
    /// The day to look at [default: today]
    #[arg(long, value_name = "YYYY-MM-DD")]
    on: Option<Date>,
    /// Plain lines instead of a full screen
    #[arg(long)]
    plain: bool,
}

pub(super) fn run(arguments: Arguments, folder: &Folder) -> Result<Output, Failure> {
    let prescription = source::find(None, || Ok(folder.clone()))?.prescription;
    let known = standing::known(&Journal::look(folder)?)?;
    let now = moment(arguments.on, &Clock::real().wall());
    let position = Position::of(folder, &known, &prescription, None, &now)?;
    let progress =
        Progress::of(&known.past, &prescription, &position.standing, position.number(), now.date());
    if arguments.plain || !(io::stdin().is_terminal() && io::stdout().is_terminal()) {
        let part = |(heading, lines): (&str, &[String])| {
            std::iter::once(Block::line(heading)).chain(lines.iter().map(Block::item)).collect::<Vec<_>>()
        };
        let mut page = progress.parts().map(part).concat();
        page.extend(caution::blocks(Surface::Progress, Contents::Of(&prescription)));
        return Ok(page.into());
    }
    let cautions = caution::lines(Surface::Progress, Contents::Of(&prescription));
    let page = |(heading, lines): (&str, &[String])| {
        let lines: Vec<&str> = lines.iter().map(String::as_str).collect();
        Body::page(heading, &lines, &[])
    };
    face::read(
        "progress",
        progress.parts().into_iter().chain([("In every practice", &cautions[..])]).map(page),
    )?;
    Ok(Output::NOTHING)
}
