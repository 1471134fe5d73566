//! Writes journals of invented people into a folder, each in a folder of its own, to look at reports and to time overviews:
//! `cargo run --release --example histories -- FOLDER COUNT SESSIONS [pushes]`. Nothing that is there is touched.

use std::error::Error;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU64, Ordering};
use std::thread;

use counterpoise::journal::import::import;
use counterpoise::journal::{Folder, Journal};

#[path = "../tests/history/mod.rs"]
mod history;
#[path = "../tests/history/lived.rs"]
mod lived;

type Done = Result<(), Box<dyn Error + Send + Sync>>;

fn write(place: &Path, number: u64, sessions: usize, pushes: bool) -> Done {
    let folder = Folder::open_in(place.join(format!("{number:05}")))?;
    let first = jiff::civil::date(2025, 11, 3);
    let mut export = history::History { number, first, sessions, pushes }.export();
    lived::lived(&mut export, number);
    let (mut journal, _) = Journal::open(folder.lock()?)?;
    import(&mut journal, "invented", export.to_string().as_bytes())?;
    Ok(())
}

fn main() -> Done {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let [place, count, sessions, rest @ ..] = &arguments[..] else {
        return Err("FOLDER COUNT SESSIONS [pushes]".into());
    };
    let (place, count, sessions): (PathBuf, u64, usize) = (place.into(), count.parse()?, sessions.parse()?);
    let next = AtomicU64::new(0);
    let work = || -> Done {
        loop {
            let number = next.fetch_add(1, Ordering::Relaxed);
            if number >= count {
                return Ok(());
            }
            write(&place, number, sessions, !rest.is_empty())?;
        }
    };
    thread::scope(|scope| {
        let threads = thread::available_parallelism().map_or(1, usize::from);
        let workers: Vec<_> = (0..threads).map(|_| scope.spawn(work)).collect();
        workers.into_iter().try_for_each(|worker| worker.join().expect("an error is a value here"))
    })
}
