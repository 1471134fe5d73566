use proptest::prelude::*;

use super::*;
use crate::direction::Direction;
use crate::display::plain::Lines;
use crate::drill::{Drill, Part};
use crate::phrase::Phrase;

fn hint(key: &str, does: &str) -> KeyHint {
    KeyHint { key: key.into(), does: does.into() }
}

fn screen(body: Body) -> Screen {
    let keys = vec![hint("S or Esc", "stop"), hint("any other key", "pause")];
    Screen { place: "Set 2 of 3".into(), body, keys, notices: vec![] }
}

fn work(call: Option<(&str, Direction)>) -> Screen {
    let call = call.map(|(words, direction)| Shown { words: words.into(), direction, cue: 4 });
    screen(Body::Work { call, left: Millis(34_000), whole: Millis(90_000) })
}

fn rendered(screen: &Screen, width: u16, height: u16) -> Buffer {
    let area = Rect::new(0, 0, width, height);
    let mut buffer = Buffer::empty(area);
    draw_in(screen, area, &mut buffer);
    buffer
}

fn text(buffer: &Buffer) -> String {
    let row = |row: Rect| row.columns().map(|cell| buffer[(cell.x, cell.y)].symbol()).collect::<String>();
    buffer.area.rows().map(|r| row(r).trim_end().to_owned()).collect::<Vec<_>>().join("\n")
}

/// One of every kind.
fn each_kind() -> Vec<Screen> {
    let page = Body::Page {
        title: "Before you begin".into(),
        text: vec!["Stand where you can hold on with both hands.".into(), "Shoes on, floor dry.".into()],
        items: vec!["a counter in front".into(), "a chair behind".into()],
    };
    let ask = |asking_again| Body::Question {
        ask: "How was that?".into(),
        answers: vec![hint("1", "very easy"), hint("2", "easy"), hint("10", "too hard")],
        asking_again,
    };
    let mut noticed = screen(page.clone());
    noticed.notices = vec!["NOT SAVED: the disk is full.".into()];
    vec![
        screen(page),
        noticed,
        screen(ask(false)),
        screen(ask(true)),
        screen(Body::Question { ask: words::ALL_RIGHT.into(), answers: vec![], asking_again: true }),
        screen(Body::Count { number: None, standing: vec!["Feet together.".into()] }),
        screen(Body::Count { number: Some(3), standing: vec!["Feet together.".into()] }),
        work(None),
        work(Some(("REACH LEFT", Direction::Left))),
        screen(Body::Paused { left: Millis(34_000), ends_in: Millis(110_000) }),
        screen(Body::Rest { left: Millis(42_000), whole: Millis(60_000), next: "Next: set 3 of 3.".into() }),
        screen(Body::Rest { left: Millis(0), whole: Millis(60_000), next: "Next: set 3 of 3.".into() }),
    ]
}

#[test]
fn a_call_fills_the_screen() {
    insta::assert_snapshot!(text(&rendered(&work(Some(("REACH BACKWARD RIGHT", Direction::BackRight))), 80, 24)), @r#"
    Set 2 of 3



                 ██▀▀█▄  ██▀▀▀▀  ▄█▀▀█▄  ▄█▀▀█▄  ██  ██
                 ██▄▄█▀  ██▄▄▄   ██  ██  ██      ██▄▄██
                 ██▀█▄   ██      ██▀▀██  ██  ▄▄  ██  ██
                 ▀▀  ▀▀  ▀▀▀▀▀▀  ▀▀  ▀▀   ▀▀▀▀   ▀▀  ▀▀
     ██▀▀█▄  ▄█▀▀█▄  ▄█▀▀█▄  ██  ██  ██   ██ ▄█▀▀█▄  ██▀▀█▄  ██▀▀█▄   ▟█▄
     ██▄▄█▀  ██  ██  ██      ██▄█▀   ██ ▄ ██ ██  ██  ██▄▄█▀  ██  ██    ▀██▄
     ██  ██  ██▀▀██  ██  ▄▄  ██ ▀█▄  ███▀███ ██▀▀██  ██▀█▄   ██  ██      ▀██▄▄█
     ▀▀▀▀▀   ▀▀  ▀▀   ▀▀▀▀   ▀▀  ▀▀  ▀▀   ▀▀ ▀▀  ▀▀  ▀▀  ▀▀  ▀▀▀▀▀         ████▌
                 ██▀▀█▄   ▀██▀   ▄█▀▀█▄  ██  ██  ▀▀██▀▀                   ▀▀▀▀▀▘
                 ██▄▄█▀    ██    ██ ▄▄▄  ██▄▄██    ██
                 ██▀█▄     ██    ██  ██  ██  ██    ██
                 ▀▀  ▀▀   ▀▀▀▀    ▀▀▀▀   ▀▀  ▀▀    ▀▀




    ████████████████████████░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░  34 s left
    ████████████████████████░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░

    S or Esc: stop    any other key: pause
    "#);
    insta::assert_snapshot!(text(&rendered(&work(Some(("REACH LEFT", Direction::Left))), 80, 24)), @r#"
    Set 2 of 3

                   ███████▌    █████████    ▐█████▌     ▐█████▌    ███   ███
                   ███   ███   ███         ███   ███   ███   ███   ███   ███
                   ███   ███   ███         ███   ███   ███         ███   ███
                   ███████▌    ███████▌    ███   ███   ███         █████████
                   ██████      ███         █████████   ███         ███   ███
                   ███ ▐██▌    ███         ███   ███   ███   ███   ███   ███
        ▄▟▌        ███   ███   █████████   ███   ███    ▐█████▌    ███   ███
      ▄███▙▄▄▄▄▄▄▖
     ████████████▌       ███         █████████   █████████   █████████
      ▀███▛▀▀▀▀▀▀▘       ███         ███         ███            ███
        ▀▜▌              ███         ███         ███            ███
                         ███         ███████▌    ███████▌       ███
                         ███         ███         ███            ███
                         ███         ███         ███            ███
                         █████████   █████████   ███            ███



    ████████████████████████░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░  34 s left
    ████████████████████████░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░

    S or Esc: stop    any other key: pause
    "#);
}

#[test]
fn between_calls_it_says_listen() {
    insta::assert_snapshot!(text(&rendered(&work(None), 80, 24)), @r#"
    Set 2 of 3







                  ██       ▀██▀   ▄█▀▀█▄  ▀▀██▀▀  ██▀▀▀▀  ██▄  ██
                  ██        ██    ▀█▄▄▄     ██    ██▄▄▄   ██▀█▄██
                  ██        ██    ▄▄  ██    ██    ██      ██  ▀██
                  ▀▀▀▀▀▀   ▀▀▀▀    ▀▀▀▀     ▀▀    ▀▀▀▀▀▀  ▀▀   ▀▀








    ████████████████████████░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░  34 s left
    ████████████████████████░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░

    S or Esc: stop    any other key: pause
    "#);
}

#[test]
fn pages_questions_and_rests_are_read_from_the_top() {
    let all = each_kind();
    insta::assert_snapshot!(text(&rendered(&all[1], 60, 16)), @r#"
     NOT SAVED: the disk is full.

    Set 2 of 3
    Before you begin

    Stand where you can hold on with both hands.

    Shoes on, floor dry.

    - a counter in front

    - a chair behind



    S or Esc: stop    any other key: pause
    "#);
    insta::assert_snapshot!(text(&rendered(&all[3], 60, 14)), @r#"
    Set 2 of 3
    Are you all right? Press any key.

    How was that?

     1     very easy

     2     easy

     10    too hard



    S or Esc: stop    any other key: pause
    "#);
    insta::assert_snapshot!(text(&rendered(&all[10], 60, 14)), @r#"
    Set 2 of 3

    █████   ██████   ████   ██████             ███   ████
    ██  ██  ██      ██  ██    ██              ████  ██  ██
    ██  ██  ██      ██        ██             ██ ██      ██
    █████   █████    ████     ██            ██  ██    ███
    ████    ██          ██    ██            ███████  ██
    ██ ██   ██      ██  ██    ██                ██  ██  ██
    ██  ██  ██████   ████     ██               ████ ██████


    Next: set 3 of 3.
    █████████████████████████░░░░░░░░░░░░  42 s of rest left
    S or Esc: stop    any other key: pause
    "#);
}

#[test]
fn what_is_small_loses_blank_rows_first() {
    insta::assert_snapshot!(text(&rendered(&each_kind()[0], 50, 9)), @r#"
    Set 2 of 3
    Before you begin

    Stand where you can hold on with both hands.

    Shoes on, floor dry.
    - a counter in front
    - a chair behind
    S or Esc: stop    any other key: pause
    "#);
}

/// 20 minutes of arc is the height of a capital that reads well (ISO 9241-3, as quoted in secondary sources [memory]);
/// from 3 m that is 17.5 mm [derived]. A laptop of 14 inches is 310 mm wide, so a cell of 80 columns is 3.9 mm wide
/// and twice as high [derived]: 7.7 mm, and three rows are 23 mm.
#[test]
fn every_call_is_read_from_three_meters_at_80_by_24() {
    let arc = (20.0_f64 / 60.0).to_radians().tan() * 3000.0;
    let row = 2.0 * 310.0 / 80.0;
    let mut seen = 0;
    for cue in Phrase::all().filter(|phrase| phrase.is_cue()) {
        for direction in Direction::ALL.iter().copied() {
            let words = cue.words().to_uppercase();
            let buffer = rendered(&work(Some((&words, direction))), 80, 24);
            for word in words.split_whitespace() {
                let half_rows = big::capitals(word, &buffer).expect("each word stands there large and whole");
                assert!(half_rows >= 7, "{words}: {half_rows} half rows");
                assert!(f64::from(half_rows) / 2.0 * row >= arc, "{words}: {row} mm a row, {arc} mm wanted");
            }
            seen += 1;
        }
    }
    assert!(seen > 0);
}

/// A call of several parts stands there whole, as large as a short one must.
#[test]
fn every_combined_call_is_read_from_three_meters_at_80_by_24() {
    let drill = Drill::named("combined-reaches").expect("it is built in");
    let most = usize::from(drill.ladder().iter().map(|step| step.parts).max().expect("a ladder has steps"));
    let mut seen = 0;
    for target in drill.targets() {
        for chosen in 0..1_u32 << drill.parts().len() {
            let parts: Vec<&Part> = (0..drill.parts().len())
                .filter(|place| chosen >> place & 1 == 1)
                .map(|place| &drill.parts()[place])
                .collect();
            let twice = parts.windows(2).any(|pair| pair[0].kind == pair[1].kind);
            if twice || parts.len() >= most || parts.iter().any(|part| !part.suits(target.direction)) {
                continue;
            }
            let said =
                [target.words()].into_iter().chain(parts.iter().map(|part| part.phrase.words().to_owned()));
            let words = said.collect::<Vec<_>>().join(", ").to_uppercase();
            let buffer = rendered(&work(Some((&words, target.direction))), 80, 24);
            for word in words.split_whitespace() {
                let half_rows = big::capitals(word, &buffer).expect("each word stands there large and whole");
                assert!(half_rows >= 7, "{words}: {half_rows} half rows");
            }
            seen += 1;
        }
    }
    assert!(seen > 80, "{seen}");
}

#[test]
fn the_arrow_tells_the_direction_at_80_by_24() {
    let drawn: Vec<String> = Direction::ALL
        .iter()
        .map(|to| text(&rendered(&work(Some(("REACH BACKWARD RIGHT", *to))), 80, 24)))
        .collect();
    for (i, one) in drawn.iter().enumerate() {
        assert!(!drawn[..i].contains(one), "{:?}", Direction::ALL[i]);
    }
}

#[test]
fn there_is_no_color() {
    use ratatui::style::Color;
    for screen in each_kind() {
        for cell in rendered(&screen, 80, 24).content() {
            assert_eq!((cell.fg, cell.bg), (Color::Reset, Color::Reset));
        }
    }
}

/// Signs at the edges of a word, and the name of the direction, which the screen draws, do not count.
fn plain_words(lines: &[String]) -> Vec<String> {
    let said = lines.iter().map(|line| line.split(" (").next().unwrap_or_default());
    let word = |word: &str| word.trim_matches(|c: char| !c.is_alphanumeric()).to_owned();
    let labels = ["Keys", "NOTICE"];
    said.flat_map(str::split_whitespace)
        .map(word)
        .filter(|w| !w.is_empty() && !labels.contains(&w.as_str()))
        .collect()
}

#[test]
fn the_screen_and_the_plain_lines_carry_the_same_words() {
    // The smallest of these draws pages as text, the largest in letters.
    for (width, height) in [(80, 24), (100, 40), (200, 60)] {
        for screen in each_kind() {
            let buffer = rendered(&screen, width, height);
            let small = text(&buffer);
            let small: Vec<_> = plain_words(&[small.replace(['█', '░'], " ")]);
            let said = plain_words(&Lines::default().after(&screen));
            for word in &said {
                assert!(
                    small.contains(word) || big::find(word, &buffer).is_some(),
                    "{word} of {screen:?}\n{}",
                    text(&buffer)
                );
            }
            let only_drawn = |word: &&String| word.chars().all(char::is_alphanumeric) && !said.contains(word);
            let unsaid: Vec<_> = small.iter().filter(only_drawn).collect();
            assert!(unsaid.is_empty(), "{unsaid:?} of {screen:?}");
        }
    }
}

#[test]
fn a_roomy_screen_is_large_throughout() {
    for screen in each_kind() {
        let small = text(&rendered(&screen, 200, 60));
        let letters = small.chars().filter(|c| c.is_alphanumeric()).count();
        assert_eq!(letters, 0, "{small}");
    }
}

/// As a person of 80 would have it: nothing of what must be read is cut at the usual size.
#[test]
fn a_page_of_eighteen_rows_is_whole_at_80_by_24() {
    let items: Vec<String> = (1..=16).map(|i| format!("reason number {i}")).collect();
    let body = Body::Page { title: "Your health".into(), text: vec!["None is true.".into()], items };
    let shown = text(&rendered(&screen(body), 80, 24));
    for i in 1..=16 {
        assert!(shown.contains(&format!("- reason number {i}")), "{shown}");
    }
    assert!(!shown.contains("larger"), "{shown}");
}

fn any_words() -> impl Strategy<Value = String> {
    prop_oneof![Just(String::new()), "[A-Za-z ]{0,40}", ".{0,30}", "[A-Z]{60}"]
}

fn any_hints() -> impl Strategy<Value = Vec<KeyHint>> {
    proptest::collection::vec((any_words(), any_words()).prop_map(|(key, does)| KeyHint { key, does }), 0..5)
}

fn any_body() -> impl Strategy<Value = Body> {
    let list = || proptest::collection::vec(any_words(), 0..6);
    let time = || any::<u32>().prop_map(Millis);
    let call = (any_words(), 0..Direction::ALL.len(), any::<u16>()).prop_map(|(words, to, cue)| Shown {
        words,
        direction: Direction::ALL[to],
        cue,
    });
    prop_oneof![
        (any_words(), list(), list()).prop_map(|(title, text, items)| Body::Page { title, text, items }),
        (any_words(), any_hints(), any::<bool>()).prop_map(|(ask, answers, asking_again)| Body::Question {
            ask,
            answers,
            asking_again
        }),
        (any::<Option<u8>>(), list()).prop_map(|(number, standing)| Body::Count { number, standing }),
        (proptest::option::of(call), time(), time()).prop_map(|(call, left, whole)| Body::Work {
            call,
            left,
            whole
        }),
        (time(), time()).prop_map(|(left, ends_in)| Body::Paused { left, ends_in }),
        (time(), time(), any_words()).prop_map(|(left, whole, next)| Body::Rest { left, whole, next }),
    ]
}

proptest! {
    #[test]
    fn no_size_and_no_screen_breaks_it(
        place in any_words(),
        body in any_body(),
        keys in any_hints(),
        notices in proptest::collection::vec(any_words(), 0..4),
        (x, y) in (0..4_u16, 0..4_u16),
        (width, height) in prop_oneof![(0..100_u16, 0..40_u16), (0..8_u16, 0..8_u16)],
    ) {
        let screen = Screen { place, body, keys, notices };
        let area = Rect::new(x, y, width, height);
        let mut buffer = Buffer::empty(Rect::new(0, 0, x + width + 1, y + height + 1));
        draw_in(&screen, area, &mut buffer);
        let outside = buffer.area.positions().filter(|&cell| !area.contains(cell));
        for cell in outside {
            prop_assert_eq!(buffer[cell].symbol(), " ", "nothing is drawn outside the area");
        }
        let mut lines = Lines::default();
        lines.after(&screen);
        prop_assert!(lines.after(&screen).is_empty(), "nothing is said twice");
    }
}
