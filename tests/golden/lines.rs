//! What the golden files hold: every draw of a prescription as lines of JSON. The test of the program and the draws of a
//! WebAssembly build (`core/examples/golden_draws.rs`) share this file, so both write the same rows.

use counterpoise_core::draw::schedule::path::Path;
use counterpoise_core::draw::schedule::{Call, Method, ScheduleError, Scheduler, Seed, floor_order};
use counterpoise_core::plan::drill::{Ball, Side, Strength};
use counterpoise_core::plan::prescription::Prescription;
use counterpoise_core::units::Millis;

/// All rows of one golden file.
pub(crate) fn of(
    method: Method,
    name: &str,
    prescription: &Prescription,
    seed: Seed,
) -> Result<String, ScheduleError> {
    let scheduler = Scheduler::by(method, prescription)?;
    Ok(match name {
        "attributes" => drawn_with_attributes(&scheduler, seed),
        _ => drawn(&scheduler, seed),
    })
}

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

/// One line a cue or blank: session, set, drill, offset, end, gap, phrases, strength, for practice, ball; then the slow
/// target and the order of a course.
fn drawn_with_attributes(scheduler: &Scheduler, seed: Seed) -> String {
    let mut lines = Vec::new();
    for session in 0..2 {
        for set in scheduler.draw(seed.of_session(session)).sets() {
            for cue in set.cues() {
                let call = cue.call();
                let phrase = call.map(Call::phrase_ids).unwrap_or_default();
                let (number, drill) = (set.number(), set.drill().name());
                let (at, end, gap) = (cue.at().0, cue.end().0, cue.gap().0);
                let strength = call.and_then(Call::strength).map_or(0, Strength::number);
                let practice = call.is_some_and(Call::is_practice);
                let ball = call.and_then(Call::ball).map_or("", Ball::name);
                lines.push(format!(
                    r#"  [{session}, {number}, "{drill}", {at}, {end}, {gap}, "{phrase}", {strength}, {practice}, "{ball}"]"#
                ));
            }
        }
    }
    let path = Path::new(seed, 3, Millis(60_000));
    for time in [0, 777, 12_345, 59_999] {
        let spot = path.at(Millis(time));
        lines.push(format!(r#"  ["dot", {time}, {}, {}]"#, spot.x, spot.y));
    }
    lines.push(format!(r#"  ["course", {:?}]"#, floor_order::order(6, &[], &mut seed.course())));
    format!("[\n{}\n]\n", lines.join(",\n"))
}
