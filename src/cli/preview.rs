//! The `preview` command: shows the calls of one or more sessions before anybody practices them.

use std::io::Write;

use serde::Serializer as _;

use super::page::{Cautioned, Output, show};
use super::{Failure, Format, source};
use crate::journal::Folder;
use counterpoise_core::blocks::Block;
use counterpoise_core::draw::schedule::Scheduler;
use counterpoise_core::draw::schedule::preview::Preview;
use counterpoise_core::plan::caution::{self, Contents, Surface};

/// The options of `preview`.
#[derive(Debug, Clone, clap::Args)]
#[command(after_help = "Examples:\n  \
    counterpoise preview gentle                  one session, drawn now\n  \
    counterpoise preview gentle --seed HEX       the session of one seed, always the same\n  \
    counterpoise preview gentle --sessions 3 --format json\n\n\
    A session that you have seen no longer surprises you. Practice draws another one.")]
pub(super) struct Arguments {
    /// A ready prescription or a file [default: the one in use, else gentle]
    #[arg(value_name = "PRESCRIPTION")]
    prescription: Option<String>,
    /// The seed, 64 hexadecimal digits [default: a fresh one]
    #[arg(long, value_name = "HEX")]
    seed: Option<String>,
    /// How many sessions, each with its own seed
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(1..=100_000))]
    sessions: Option<u32>,
    /// Output format
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
}

pub(super) fn run(
    arguments: &Arguments,
    folder: impl Fn() -> Result<Folder, Failure>,
    out: &mut impl Write,
) -> Result<Output, Failure> {
    let named = arguments.prescription.as_deref();
    let found = source::find(named, &folder)?;
    // What the person would get: in a folder that can be read, its program's precautions hold.
    let program = folder().ok().and_then(|folder| source::in_use(&folder).ok().flatten());
    let prescription = found.within(program.as_ref()).prescription;
    let (method, seed) = source::replay(arguments.seed.as_deref(), folder)?;
    let scheduler = Scheduler::by(method, &prescription)?;
    let contents = Contents::Of(&prescription);
    let previews = (0..arguments.sessions.unwrap_or(1))
        .map(|i| Preview::of(&prescription, &scheduler.draw(seed.of_session(u64::from(i)))));
    match arguments.format {
        Format::Json => {
            let mut json = serde_json::Serializer::pretty(&mut *out);
            let mut previews = previews.map(|preview| Cautioned::new(preview, Surface::Preview, contents));
            match arguments.sessions {
                // One after the other: many sessions need no more memory than one.
                Some(_) => json.collect_seq(previews)?,
                None => previews.try_for_each(|preview| serde::Serialize::serialize(&preview, &mut json))?,
            }
            writeln!(out)?;
        }
        Format::Text => {
            for (index, preview) in previews.enumerate() {
                let gap = if index > 0 { &[Block::Gap][..] } else { &[] };
                show(&[gap, &[Block::verbatim(&preview.to_string())]].concat(), out)?;
            }
            show(&[vec![Block::Gap], caution::blocks(Surface::Preview, contents)].concat(), out)?;
        }
    }
    Ok(Output::NOTHING)
}
