//! What method 1 draws, byte by byte. If this fails, either the change is a mistake, or `METHOD` needs a new number
//! and these files a new name. Words of cues may change, so they are left out.

#[path = "golden/lines.rs"]
mod lines;

use counterpoise_core::draw::schedule::{METHOD, Seed};
use counterpoise_core::plan::prescription::Prescription;

const SEED: &str = include_str!("golden/seed.txt");

#[test]
fn method_1_draws_its_golden_bytes() {
    assert_eq!(METHOD, 1, "a new method has golden files of its own");
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/golden");
    let seed = Seed::from_hex(SEED.trim_end()).expect("64 digits");
    for name in ["open", "covered", "eight", "attributes"] {
        let file = folder.join(name).with_extension("toml");
        let text = std::fs::read(&file).expect("the prescription is there");
        let prescription = Prescription::read(name, &text).expect("the prescription is within the limits");
        let drawn = lines::of(name, &prescription, seed).expect("its tables can be built");
        let golden = std::fs::read_to_string(folder.join(name).with_extension("json")).unwrap_or_default();
        if drawn != golden {
            let other = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).join(name).with_extension("json");
            std::fs::write(&other, drawn).expect("the folder for temporary files can be written");
            panic!("{name}.json is not what is drawn: compare it with {}", other.display());
        }
    }
}
