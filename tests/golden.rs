//! What each method draws, byte by byte. If this fails, either the change is a mistake, or it needs the next `Method`, and
//! that one its own golden files. Words of cues may change, so they are left out.

#[path = "golden/lines.rs"]
mod lines;

use counterpoise_core::draw::schedule::{Method, Seed};
use counterpoise_core::plan::prescription::Prescription;

const SEED: &str = include_str!("golden/seed.txt");

#[test]
fn every_method_draws_its_golden_bytes() {
    for method in Method::ALL {
        draws_its_golden_bytes(*method);
    }
}

fn draws_its_golden_bytes(method: Method) {
    let folder = match method {
        Method::One => "tests/golden",
    };
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join(folder);
    let seed = Seed::from_hex(SEED.trim_end()).expect("64 digits");
    for name in ["open", "covered", "eight", "attributes"] {
        let file = folder.join(name).with_extension("toml");
        let text = std::fs::read(&file).expect("the prescription is there");
        let prescription = Prescription::read(name, &text).expect("the prescription is within the limits");
        let drawn = lines::of(method, name, &prescription, seed).expect("its tables can be built");
        let golden = std::fs::read_to_string(folder.join(name).with_extension("json")).unwrap_or_default();
        if drawn != golden {
            let other = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).join(name).with_extension("json");
            std::fs::write(&other, drawn).expect("the folder for temporary files can be written");
            panic!("{name}.json is not what is drawn: compare it with {}", other.display());
        }
    }
}
