//! What method 1 draws, byte by byte. If this fails, either the change is a mistake, or `METHOD` needs a new number
//! and these files a new name. Words of cues may change, so they are left out.

use std::path::Path;

use counterpoise::drill::Side;
use counterpoise::prescription::Prescription;
use counterpoise::schedule::{Call, METHOD, Scheduler, Seed};

const SEED: &str = "3b1f0c5a9e7d2846513c0f7e6a9b8d4217253649586a7b8c9dadbecfe0f10213";

/// One line a cue or blank: session, set, drill, side, offset, gap, phrase; then the word of the sound check.
fn drawn(scheduler: &Scheduler, seed: Seed) -> String {
    let mut lines = Vec::new();
    for session in 0..2 {
        for set in scheduler.draw(seed.of_session(session)).sets() {
            let side = match set.side() {
                None => "",
                Some(Side::Left) => "left",
                Some(Side::Right) => "right",
            };
            for cue in set.cues() {
                let phrase = cue.call().map(Call::phrase_ids).unwrap_or_default();
                let (number, drill) = (set.number(), set.drill().name());
                let (at, gap) = (cue.at().0, cue.gap().0);
                lines.push(format!(
                    r#"  [{session}, {number}, "{drill}", "{side}", {at}, {gap}, "{phrase}"]"#
                ));
            }
        }
    }
    let set = scheduler.draw(seed).sets()[1].clone();
    for cue in scheduler.after_pause(seed, &set, 3, set.cues()[1].at(), 2).cues() {
        let phrase = cue.call().map(Call::phrase_ids).unwrap_or_default();
        lines.push(format!(r#"  ["pause 3 after cue 1 of set 2", {}, "{phrase}"]"#, cue.at().0));
    }
    lines.push(format!(r#"  ["word", {}]"#, scheduler.draw(seed).check_word(7)));
    format!("[\n{}\n]\n", lines.join(",\n"))
}

#[test]
fn method_1_draws_its_golden_bytes() {
    assert_eq!(METHOD, 1, "a new method has golden files of its own");
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/golden");
    let seed = Seed::from_hex(SEED).expect("64 digits");
    for name in ["open", "covered", "eight"] {
        let file = folder.join(name).with_extension("toml");
        let text = std::fs::read(&file).expect("the prescription is there");
        let prescription = Prescription::read(name, &text).expect("the prescription is within the limits");
        let scheduler = Scheduler::new(&prescription).expect("its tables can be built");
        let drawn = drawn(&scheduler, seed);
        let golden = std::fs::read_to_string(folder.join(name).with_extension("json")).unwrap_or_default();
        if drawn != golden {
            let other = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name).with_extension("json");
            std::fs::write(&other, drawn).expect("the folder for temporary files can be written");
            panic!("{name}.json is not what is drawn: compare it with {}", other.display());
        }
    }
}
