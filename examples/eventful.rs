//! Writes journals of invented people in which everything happens that a journal can hold, each in a folder of its own with its
//! prescription: `cargo run --example eventful -- FOLDER COUNT SESSIONS`. Nothing that is there is touched.

use std::error::Error;
use std::path::PathBuf;

use counterpoise::journal::import::import;
use counterpoise::journal::{Folder, Journal};

#[path = "../tests/history/eventful.rs"]
mod eventful;
#[path = "../tests/history/mod.rs"]
mod history;

fn main() -> Result<(), Box<dyn Error>> {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let [place, count, sessions] = &arguments[..] else {
        return Err("FOLDER COUNT SESSIONS".into());
    };
    let (count, sessions): (u64, usize) = (count.parse()?, sessions.parse()?);
    for number in 0..count {
        let folder = Folder::open_in(PathBuf::from(place).join(format!("{number:05}")))?;
        let first = jiff::civil::date(2025, 11, 3);
        let history = history::History { number, first, sessions, pushes: true };
        let (export, prescription) = eventful::eventful(history);
        let (mut journal, _) = Journal::open(folder.lock()?)?;
        std::fs::write(folder.prescription_file(), prescription)?;
        import(&mut journal, "invented", export.to_string().as_bytes())?;
    }
    Ok(())
}
