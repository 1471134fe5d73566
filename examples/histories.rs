//! Writes journals of invented people into a folder, each in a folder of its own, to look at reports and to time overviews:
//! `cargo run --release --example histories -- FOLDER COUNT SESSIONS [pushes]`. Nothing that is there is touched.

use std::error::Error;
use std::path::PathBuf;

use counterpoise::journal::import::import;
use counterpoise::journal::{Folder, Journal};

#[path = "../tests/history/mod.rs"]
mod history;

fn main() -> Result<(), Box<dyn Error>> {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let [place, count, sessions, rest @ ..] = &arguments[..] else {
        return Err("FOLDER COUNT SESSIONS [pushes]".into());
    };
    let (count, sessions): (u64, usize) = (count.parse()?, sessions.parse()?);
    for number in 0..count {
        let folder = Folder::open_in(PathBuf::from(place).join(format!("{number:05}")))?;
        let first = jiff::civil::date(2025, 11, 3);
        let history = history::History { number, first, sessions, pushes: !rest.is_empty() };
        let (mut journal, _) = Journal::open(folder.lock()?)?;
        import(&mut journal, "invented", history.export().to_string().as_bytes())?;
    }
    Ok(())
}
