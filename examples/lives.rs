//! Lives whole lives of practice without waiting: `cargo run --release --example lives -- SEED LIVES WEEKS`. A life that breaks a
//! promise ends the run, and the line before it is how to live it again.

use std::error::Error;
use std::path::PathBuf;
use std::sync::Mutex;
use std::sync::atomic::{AtomicU64, Ordering};
use std::thread;
use std::time::Instant;

#[path = "../tests/lives/life.rs"]
mod life;

use life::{Life, Tally};

fn main() -> Result<(), Box<dyn Error>> {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let [seed, lives, weeks] = &arguments[..] else { return Err("SEED LIVES WEEKS".into()) };
    let (seed, lives, weeks): (u64, u64, u64) = (seed.parse()?, lives.parse()?, weeks.parse()?);
    // In memory, where there is such a place: a disk would be waited for at each entry.
    let shared = PathBuf::from("/dev/shm");
    let place = if shared.is_dir() { tempfile::tempdir_in(shared)? } else { tempfile::tempdir()? };
    let (next, all, began) = (AtomicU64::new(seed), Mutex::new(Tally::default()), Instant::now());
    let work = || {
        loop {
            let seed_of_this = next.fetch_add(1, Ordering::Relaxed);
            if seed_of_this >= seed + lives {
                return;
            }
            let path = place.path().to_owned();
            let ended = thread::spawn(move || Life::new(seed_of_this, &path).live(weeks)).join();
            let Ok(tally) = ended else {
                eprintln!(
                    "To live it again: cargo run --release --example lives -- {seed_of_this} 1 {weeks}"
                );
                std::process::exit(1);
            };
            *all.lock().expect("no thread fails while it has it") += tally;
        }
    };
    thread::scope(|scope| {
        for _ in 0..thread::available_parallelism().map_or(1, std::num::NonZero::get) {
            scope.spawn(work);
        }
    });
    println!(
        "{:?} in {:.0} s",
        all.lock().expect("no thread fails while it has it"),
        began.elapsed().as_secs_f64()
    );
    Ok(())
}
