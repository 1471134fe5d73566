//! Is every screen of a practice whole in a usual terminal, and large in a large one? The screens are those that the
//! example `screens` walks through: every page, question, rest and end.

use counterpoise::display::view;
use counterpoise_core::practice::session::screen::{Body, Screen};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

#[path = "../../examples/screens.rs"]
#[expect(dead_code, reason = "only the walk is used here")]
pub(crate) mod example;

fn drawn(screen: &Screen, width: u16, height: u16) -> String {
    let area = Rect::new(0, 0, width, height);
    let mut buffer = Buffer::empty(area);
    view::draw_in(screen, area, &mut buffer);
    let row = |row: Rect| row.columns().map(|cell| buffer[(cell.x, cell.y)].symbol()).collect::<String>();
    area.rows().map(|r| row(r).trim_end().to_owned()).collect::<Vec<_>>().join("\n")
}

/// Everything that stands on a page or a question, in the order in which it is read; `None` for what is drawn large.
fn texts(screen: &Screen) -> Option<Vec<String>> {
    let body: Vec<String> = match &screen.body {
        Body::Page { title, text, items } => [title].into_iter().chain(text).chain(items).cloned().collect(),
        Body::Question { answers, .. } if answers.is_empty() => return None,
        Body::Question { ask, answers, .. } => {
            let answers = answers.iter().flat_map(|answer| [answer.key.clone(), answer.does.clone()]);
            [ask.clone()].into_iter().chain(answers).collect()
        }
        _ => return None,
    };
    let keys = screen.keys.iter().map(|key| format!("{}: {}", key.key, key.does));
    Some(screen.notices.iter().cloned().chain([screen.place.clone()]).chain(body).chain(keys).collect())
}

#[test]
fn the_walk_comes_to_every_page_question_and_end() {
    let screens = example::screens();
    let titles: Vec<&str> = screens
        .iter()
        .filter_map(|screen| match &screen.body {
            Body::Page { title, .. } => Some(title.as_str()),
            Body::Question { ask, .. } => Some(ask.as_str()),
            _ => None,
        })
        .collect();
    for title in [
        "Gentle start at the counter",
        "While you practice, page 1 of 2",
        "Your health, page 1 of 2",
        "Your health, page 2 of 2",
        "Have you had chest pain or a tight chest since last time?",
        "Have you had chest pain or a tight chest since last time? You answered: yes. Is that right?",
        "Ready today, 7 of 8",
        "Ready today, 8 of 8",
        "Gentler today",
        "Which word do you hear?",
        "How to stand",
        "Did you have to grab hold, or nearly fall?",
        "Apart from the hand that rests there, how often did you hold on?",
        "How hard was it, at its hardest?",
        "How steady were you?",
        "Do you feel unwell?",
        "Why did you stop?",
        "Did you fall?",
        "Are you hurt?",
        "Did you hit your head?",
        "Did you fall in the practice on Wednesday, November 25?",
        "Were you hurt in that fall?",
        "Did you feel unwell in the practice on Wednesday, November 25?",
        "What felt wrong?",
        "Are you all right? Press any key.",
        "Well done",
        "Not today",
        "Leave out the warm-up?",
        "Sit down now",
        "Nobody answered",
        "We stop here",
    ] {
        assert!(titles.contains(&title), "{title} in {titles:#?}");
    }
    for kind in [
        |body: &Body| matches!(body, Body::Count { number: None, .. }),
        |body: &Body| matches!(body, Body::Count { number: Some(_), .. }),
        |body: &Body| matches!(body, Body::Work { call: None, .. }),
        |body: &Body| matches!(body, Body::Work { call: Some(_), .. }),
        |body: &Body| matches!(body, Body::Paused { .. }),
        |body: &Body| matches!(body, Body::Emergency { .. }),
        |body: &Body| matches!(body, Body::Rest { left, .. } if left.0 > 0),
        |body: &Body| matches!(body, Body::Rest { left, .. } if left.0 == 0),
    ] {
        assert!(screens.iter().any(|screen| kind(&screen.body)));
    }
}

#[test]
fn no_screen_of_a_practice_is_cut_at_80_by_24() {
    for screen in example::screens() {
        assert_whole(&screen);
        // After a wrong key too.
        let keys_here = screen.keys_here();
        let notices = screen.notices.iter().cloned().chain(keys_here).collect();
        assert_whole(&Screen { notices, ..screen });
    }
}

fn assert_whole(screen: &Screen) {
    let shown = drawn(screen, 80, 24);
    assert!(!shown.contains("(more"), "{shown}");
    let Some(texts) = texts(screen) else { return };
    let words: Vec<&str> = shown.split_whitespace().collect();
    let mut from = 0;
    for word in texts.iter().flat_map(|text| text.split_whitespace()) {
        let found = words[from..].iter().position(|shown| *shown == word);
        from += found.unwrap_or_else(|| panic!("{word:?} of {texts:?} is not in its place in\n{shown}")) + 1;
    }
}

/// What is drawn large consists of block signs: a letter or a digit in a cell is a small one.
#[test]
fn every_screen_of_a_practice_is_large_at_200_by_60() {
    for screen in example::screens() {
        let shown = drawn(&screen, 200, 60);
        assert!(!shown.contains(char::is_alphanumeric), "{screen:?}\n{shown}");
    }
}

/// The partner must not see what comes before its lead: neither that a cue is near, nor that a blank is, nor that nothing
/// comes any more. Cell by cell, over whole sets of pushes, every HOLD is the same as one made by hand, whose time left
/// is all that it has in common with the set.
#[test]
fn hold_looks_the_same_whether_a_cue_a_blank_or_nothing_is_coming() {
    let (mut before_cue, mut before_blank, mut before_nothing) = (0, 0, 0);
    for seed in 0..5 {
        let (plan, holds) = example::holds_of_a_set_of_pushes(seed);
        let at = |elapsed: u32| plan.cues().iter().find(|cue| cue.at().0 > elapsed);
        let first = &holds[0].1;
        for (elapsed, screen) in &holds {
            let Body::Partner { item: None, left, whole } = &screen.body else {
                unreachable!("it is a HOLD")
            };
            let by_hand =
                Screen { body: Body::Partner { item: None, left: *left, whole: *whole }, ..first.clone() };
            let area = Rect::new(0, 0, 80, 24);
            let [mut shown, mut wanted] = [Buffer::empty(area), Buffer::empty(area)];
            view::draw_in(screen, area, &mut shown);
            view::draw_in(&by_hand, area, &mut wanted);
            assert_eq!(shown, wanted, "seed {seed}, after {elapsed} ms");
            assert_eq!(left.0, plan.work().0 - elapsed, "the time left is that of the set, whatever comes");
            match at(*elapsed) {
                Some(cue) if cue.is_blank() => before_blank += 1,
                Some(_) => before_cue += 1,
                None => before_nothing += 1,
            }
        }
    }
    assert!(
        before_cue > 500 && before_blank > 50 && before_nothing > 50,
        "{before_cue} {before_blank} {before_nothing}"
    );
}
