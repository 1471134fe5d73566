//! Which clips go into the program? Writes a table of every phrase of `sounds/phrases.toml` with the bytes of its
//! clip in each voice, and stops the build, naming the file, when a clip is missing. It does not look inside them.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::{env, fs};

const VOICES: [&str; 2] = ["lower", "higher"];

fn main() {
    println!("cargo::rerun-if-changed=sounds");
    let root = PathBuf::from(env::var_os("CARGO_MANIFEST_DIR").expect("cargo sets it"));
    let out = PathBuf::from(env::var_os("OUT_DIR").expect("cargo sets it")).join("spoken.rs");
    match table(&root.join("sounds")) {
        Ok(text) => fs::write(&out, text).expect("cargo's own output folder can be written"),
        Err(fact) => {
            println!("cargo::error={fact}");
        }
    }
}

/// The table as Rust source, ordered by id.
fn table(sounds: &Path) -> Result<String, String> {
    let list = sounds.join("phrases.toml");
    let text = fs::read_to_string(&list).map_err(|error| format!("{}: {error}", list.display()))?;
    let file: toml::Table = text.parse().map_err(|error| format!("{}: {error}", list.display()))?;
    let mut phrases: Vec<(&str, bool)> = Vec::new();
    for (group, value) in &file {
        if let Some(entries) = value.as_table() {
            phrases.extend(entries.keys().map(|id| (id.as_str(), group == "cue")));
        }
    }
    phrases.sort_unstable();
    let mut rows = String::from("&[\n");
    for (id, cue) in phrases {
        write!(rows, "    Spoken {{ id: {id:?}, cue: {cue}").expect("a String takes everything");
        for voice in VOICES {
            let clip = sounds.join(voice).join(format!("{id}.flac"));
            if !clip.is_file() {
                return Err(format!(
                    "sounds/{voice}/{id}.flac is missing: the phrase {id} needs a clip in each voice; sounds/make_voices.py makes it"
                ));
            }
            let path = clip.to_str().ok_or_else(|| format!("{} is not UTF-8", clip.display()))?;
            write!(rows, ", {voice}: include_bytes!({path:?})").expect("a String takes everything");
        }
        rows.push_str(" },\n");
    }
    rows.push(']');
    Ok(rows)
}
