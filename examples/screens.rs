//! Every screen of the app with made-up values, one after the other: any key shows the next, Ctrl-C ends.
//!
//! ```text
//! cargo run --example screens              from the first
//! cargo run --example screens -- 7         from the seventh
//! cargo run --example screens -- --plain   as plain lines
//! ```
//!
//! For whoever changes how a screen looks: run it at 80 by 24, in a full-screen window, and stand 3 m away.

use std::time::Duration;

use counterpoise::direction::Direction;
use counterpoise::display::plain::{Lines, Plain};
use counterpoise::display::terminal::{Terminal, watch_signals};
use counterpoise::display::{Face, Input};
use counterpoise::millis::Millis;
use counterpoise::session::screen::{Body, KeyHint, Screen, Shown};

fn main() -> std::io::Result<()> {
    watch_signals()?;
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let screens = screens();
    if arguments.iter().any(|argument| argument == "--print") {
        let mut lines = Lines::default();
        screens.iter().flat_map(|screen| lines.after(screen)).for_each(|line| println!("{line}"));
        return Ok(());
    }
    let mut face = if arguments.iter().any(|argument| argument == "--plain") {
        Face::Plain(Plain::start())
    } else {
        Face::Screen(Terminal::enter()?)
    };
    let first = arguments.iter().find_map(|argument| argument.parse::<usize>().ok()).unwrap_or(1);
    for screen in screens.iter().skip(first - 1) {
        loop {
            face.show(screen)?;
            match face.poll(Duration::from_millis(100)) {
                Input::Key(_) => break,
                Input::Close => return Ok(()),
                Input::Nothing => {}
            }
        }
    }
    Ok(())
}

fn hints(pairs: &[(&str, &str)]) -> Vec<KeyHint> {
    pairs.iter().map(|(key, does)| KeyHint { key: (*key).into(), does: (*does).into() }).collect()
}

fn texts(lines: &[&str]) -> Vec<String> {
    lines.iter().map(|line| (*line).into()).collect()
}

fn screen(body: Body, keys: &[(&str, &str)]) -> Screen {
    let place = "Set 2 of 3: reaching along the counter".into();
    Screen { place, body, keys: hints(keys), notices: vec![] }
}

fn page(title: &str, text: &[&str], items: &[&str], keys: &[(&str, &str)]) -> Screen {
    let body = Body::Page { title: title.into(), text: texts(text), items: texts(items) };
    Screen { place: "Counterpoise".into(), ..screen(body, keys) }
}

fn question(ask: &str, answers: &[(&str, &str)], asking_again: bool) -> Screen {
    screen(
        Body::Question { ask: ask.into(), answers: hints(answers), asking_again },
        &[("any other key", "skip this question")],
    )
}

fn work(call: Option<(&str, Direction)>, left: u32) -> Screen {
    let call = call.map(|(words, direction)| Shown { words: words.into(), direction, cue: 0 });
    let body = Body::Work { call, left: Millis(left * 1000), whole: Millis(60_000) };
    screen(body, &[("Esc or S", "stop"), ("any other key", "pause")])
}

fn screens() -> Vec<Screen> {
    let stop = [("Esc or S", "stop"), ("any other key", "pause")];
    let mut all = vec![
        page(
            "At the counter, first month",
            &[
                "3 sets, about 7 minutes with the rests.",
                "Your therapist's advice, local rules and licensed practice come first.",
                "You may ignore any call and hold on. Nothing is lost.",
                "Stop at once for chest pain or pressure, bad shortness of breath, dizziness, a cold sweat, feeling \
                 sick, or bad pain.",
            ],
            &[
                "Keep both feet flat unless the call says heels.",
                "Stay within a hand's reach of the counter.",
            ],
            &[("Enter", "go on"), ("Esc or S", "leave")],
        ),
        page(
            "Your health",
            &["None of these is true of me, or my clinician knows and agreed to this practice:"],
            &[
                "a heart or blood pressure condition, or chest pain",
                "blackouts, fainting or dizziness",
                "a recent fall with pain or trouble walking",
                "a recent fracture or operation",
                "weak bones (osteoporosis), or a bone broken by a small knock",
                "a stroke, Parkinson's or multiple sclerosis",
                "an inner ear (balance organ) or nerve condition",
                "blood thinners",
                "sedatives, opioids or other medicine that makes you drowsy",
                "sight that glasses do not correct",
                "a joint replacement whose limits you do not know",
                "trouble following spoken or written instructions",
            ],
            &[("A", "all of this is so"), ("X", "not so, or not sure"), ("Esc or S", "leave")],
        ),
        question(
            "Which word do you hear?",
            &[
                ("1", "window"),
                ("2", "garden"),
                ("3", "kettle"),
                ("4", "butter"),
                ("0", "I heard nothing"),
                ("R", "say another one"),
                ("G", "go on and watch the screen as well"),
            ],
            false,
        ),
        page(
            "How to stand",
            &["60 seconds. After the key there is a count of five to get into place."],
            &["Face the counter.", "Feet apart.", "Keep one hand on the counter."],
            &[("any key", "begin"), ("Esc or S", "stop")],
        ),
    ];
    for number in [None, Some(5), Some(1)] {
        let standing = texts(&["Face the counter.", "Feet apart.", "Keep one hand on the counter."]);
        all.push(screen(Body::Count { number, standing }, &stop));
    }
    all.extend([
        work(None, 47),
        work(Some(("REACH FORWARD RIGHT", Direction::ForwardRight)), 34),
        work(Some(("LEAN LEFT", Direction::Left)), 25),
        work(Some(("REACH FORWARD", Direction::Forward)), 18),
        work(Some(("HEELS UP", Direction::Up)), 8),
        screen(
            Body::Paused { left: Millis(34_000), ends_in: Millis(283_000) },
            &[("any key", "go on, with a count"), ("Esc or S", "stop")],
        ),
        question("Did you have to grab hold, or nearly fall?", &[("Y", "yes"), ("N", "no")], false),
        question(
            "How hard was it at its hardest?",
            &[("1", "very easy"), ("2", "easy"), ("3", "somewhat hard"), ("4", "hard"), ("5", "very hard")],
            true,
        ),
    ]);
    for left in [42, 0] {
        let next = "Next: set 3, reaching along the counter".into();
        let body = Body::Rest { left: Millis(left * 1000), whole: Millis(60_000), next };
        all.push(screen(body, &[("any key", "begin the next set"), ("Esc or S", "stop")]));
    }
    let mut unsaved = page(
        "Well done",
        &["That was the last set. Sit down for a while and drink some water."],
        &[],
        &[("any key", "leave")],
    );
    unsaved.notices = texts(&[
        "NOT SAVED: the disk is full. The practice goes on; what is done is kept in memory and tried again.",
    ]);
    all.push(unsaved);
    all
}
