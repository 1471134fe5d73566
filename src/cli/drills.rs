//! Lists the kinds of practice.

use std::io::Write;

use serde::Serialize;

use super::wrap::wrapped;
use super::{Failure, Format};
use crate::drill::{Drill, Form, Target, Trains};

/// What can be asked of the list.
#[derive(Debug, Clone, Copy, clap::Args)]
#[command(after_help = "Examples:\n  counterpoise drills\n  counterpoise drills --format json")]
pub(super) struct Arguments {
    /// How it is printed
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
}

#[derive(Serialize)]
struct List {
    schema: &'static str,
    drills: Vec<Item>,
}

#[derive(Serialize)]
struct Item {
    name: &'static str,
    forms: &'static [Form],
    /// What somebody must have watched before the drill is practiced at all: nothing, for every drill so far.
    unlocks: &'static [&'static str],
}

pub(super) fn run(arguments: Arguments, out: &mut impl Write) -> Result<(), Failure> {
    match arguments.format {
        Format::Json => {
            let item =
                |drill: &'static Drill| Item { name: drill.name(), forms: drill.forms(), unlocks: &[] };
            let list =
                List { schema: "counterpoise.drills/1", drills: Drill::all().iter().map(item).collect() };
            serde_json::to_writer_pretty(&mut *out, &list)?;
            writeln!(out)?;
        }
        Format::Text => {
            for (index, drill) in Drill::all().iter().enumerate() {
                if index > 0 {
                    writeln!(out)?;
                }
                describe(drill, out)?;
            }
        }
    }
    Ok(())
}

fn describe(drill: &Drill, out: &mut impl Write) -> Result<(), Failure> {
    let forms: Vec<&str> = drill.forms().iter().map(|form| form.name()).collect();
    let calls: Vec<String> = drill.targets().iter().map(Target::words).collect();
    let trains = match drill.trains() {
        Trains::Voluntary => "a movement that the person chooses to make",
        Trains::Reactive => "a reaction to a real disturbance",
    };
    writeln!(out, "{}: {} ({})", drill.name(), drill.title(), forms.join(" or "))?;
    for line in [
        drill.about().to_owned(),
        format!("Trains {trains}."),
        format!("Can call: {}.", calls.join(", ")),
        format!("Needs: {}.", drill.kit().join(", ")),
        format!("Steps, from gentlest to hardest: {}.", drill.ladder().len()),
    ] {
        writeln!(out, "{}", wrapped("  ", &line))?;
    }
    Ok(())
}
