//! The `presets` command: lists the ready prescriptions, the default first.

use serde::Serialize;

use super::page::Output;
use super::{Failure, Format};
use counterpoise_core::blocks::Block;
use counterpoise_core::plan::caution::{self, Contents, Surface};
use counterpoise_core::plan::prescription::Prescription;

/// The options of `presets`.
#[derive(Debug, Clone, Copy, clap::Args)]
#[command(
    after_help = "Examples:\n  counterpoise presets\n  counterpoise check gentle    what one of them asks for"
)]
pub(super) struct Arguments {
    /// Output format
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
}

#[derive(Serialize)]
struct List {
    schema: &'static str,
    prescriptions: Vec<Item>,
}

#[derive(Serialize)]
struct Item {
    name: &'static str,
    title: &'static str,
}

pub(super) fn run(arguments: Arguments) -> Result<Output, Failure> {
    let items = Prescription::all_ready().iter().map(|(name, ready)| Item { name, title: ready.title() });
    if arguments.format == Format::Json {
        let prescriptions = items.collect();
        let list = List { schema: "counterpoise.presets/1", prescriptions };
        return Output::json_of(&list, Surface::Presets, Contents::Nothing);
    }
    let marks = std::iter::once(" (the default)").chain(std::iter::repeat(""));
    let line = |(Item { name, title }, mark)| Block::fact(name, format!("{title}{mark}"));
    let mut page: Vec<Block> = items.zip(marks).map(line).collect();
    page.extend(caution::blocks(Surface::Presets, Contents::Nothing));
    Ok(page.into())
}
