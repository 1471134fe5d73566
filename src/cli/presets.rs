//! The `presets` command: lists the ready prescriptions, the default first.

use std::io::Write;

use serde::Serialize;

use super::{Failure, Format};
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

pub(super) fn run(arguments: Arguments, out: &mut impl Write) -> Result<(), Failure> {
    let items = Prescription::all_ready().iter().map(|(name, ready)| Item { name, title: ready.title() });
    match arguments.format {
        Format::Json => {
            let list = List { schema: "counterpoise.presets/1", prescriptions: items.collect() };
            serde_json::to_writer_pretty(&mut *out, &list)?;
            writeln!(out)?;
        }
        Format::Text => {
            for (index, Item { name, title }) in items.enumerate() {
                let default = if index == 0 { " (the default)" } else { "" };
                writeln!(out, "{name:10}  {title}{default}")?;
            }
        }
    }
    Ok(())
}
