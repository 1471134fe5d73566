use proptest::prelude::*;

use super::*;
use crate::display::big;
use crate::display::plain::Lines;
use counterpoise_core::plan::direction::Direction;
use counterpoise_core::plan::drill::{Ball, Drill, Form, Strength};
use counterpoise_core::plan::phrase::Phrase;
use counterpoise_core::plan::place::Place;
use counterpoise_core::practice::emergency::Contacts;
use counterpoise_core::practice::session::screen::{Item, Moment, ShownCall};

fn hint(key: &str, does: &str) -> KeyHint {
    KeyHint { key: key.into(), does: does.into() }
}

fn screen(body: Body) -> Screen {
    let keys = vec![hint("S or Esc", "stop"), hint("any other key", "pause")];
    Screen { place: "Set 2 of 3".into(), body, keys, notices: vec![] }
}

fn work(call: Option<(&str, Direction)>) -> Screen {
    let call = call.map(|(words, direction)| ShownCall { words: words.into(), direction, cue: 4 });
    screen(Body::Work { call, left: Millis(34_000), whole: Millis(90_000) })
}

fn partner(item: Option<Item>) -> Screen {
    Screen {
        keys: vec![hint("G", "grabbed"), hint("F", "fell"), hint("S or Esc", "stop")],
        ..screen(Body::Partner { item, left: Millis(34_000), whole: Millis(90_000) })
    }
}

fn push(moment: Moment) -> Item {
    Item {
        words: "PUSH".into(),
        toward: Some("toward the window".into()),
        hand: Some("hand on the right hip".into()),
        strength: Some("barely".into()),
        practice: true,
        ball: None,
        direction: Direction::Left,
        moment,
        cue: 2,
    }
}

fn toss(moment: Moment) -> Item {
    Item {
        words: "THROW".into(),
        toward: Some("high, to the right".into()),
        hand: None,
        strength: None,
        practice: false,
        ball: Some(Ball::Small),
        direction: Direction::HighRight,
        ..push(moment)
    }
}

/// Every moment of an item.
const MOMENTS: [Moment; 7] =
    [Moment::In(7), Moment::In(6), Moment::In(5), Moment::In(4), Moment::In(3), Moment::LookUp, Moment::Now];

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
        partner(None),
        screen(Body::Follow {
            across_per_mille: 300,
            down_per_mille: 900,
            left: Millis(34_000),
            whole: Millis(60_000),
        }),
        screen(Body::Course { patches: vec!["blue mat".into(), "floor".into(), "thick mat".into()] }),
        screen(Body::Paused { left: Millis(34_000), ends_in: Millis(110_000) }),
        screen(Body::Rest { left: Millis(42_000), whole: Millis(60_000), next: "Next: set 3 of 3.".into() }),
        screen(Body::Rest { left: Millis(0), whole: Millis(60_000), next: "Next: set 3 of 3.".into() }),
        screen(Body::Emergency {
            number: Some("112".into()),
            text: vec!["Sit down.".into(), "Unlock the door if you can reach it safely.".into()],
        }),
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

/// Any number that the settings accept: the word, and the number or each part of it.
#[test]
fn whom_to_call_is_read_from_three_meters_and_everything_under_it_is_whole() {
    for (number, large) in [
        (Some("112"), &["CALL", "112"][..]),
        (Some("911"), &["CALL", "911"]),
        (Some("+44 (0)20-7946.0000"), &["CALL", "+44", "(0)20-7946.0000"]),
        (Some("+44020794600001234567"), &["CALL", "+4402", "07946", "00001", "23456", "7"]),
        (None, &["CALL", "YOUR", "LOCAL", "EMERGENCY", "NUMBER"]),
    ] {
        let contacts = Contacts {
            emergency: number.map(str::to_owned),
            other: Some("Katharina, next door, 555 010 0100 1234".to_owned()),
        };
        let keys = vec![hint("any key", "stop the voice; this page stays")];
        let first = Some(
            "Your chest hurts or feels tight. If it was over before today, call your doctor today instead.",
        );
        let body = contacts.page(first);
        let Body::Emergency { text: lines, .. } = &body else { unreachable!() };
        let screen = Screen { place: String::new(), keys, ..screen(body.clone()) };
        for (width, height) in [(80, 24), (120, 40)] {
            let buffer = rendered(&screen, width, height);
            for word in large {
                let capitals = big::capitals(word, &buffer);
                assert!(capitals.is_some_and(|half_rows| half_rows >= 7), "{word}\n{}", text(&buffer));
            }
            let shown = text(&buffer).split_whitespace().collect::<Vec<_>>().join(" ");
            for line in lines {
                assert!(shown.contains(line.as_str()), "{line} in\n{}", text(&buffer));
            }
            assert!(shown.ends_with("any key: stop the voice; this page stays"), "{shown}");
        }
    }
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
    insta::assert_snapshot!(text(&rendered(&all[13], 60, 14)), @r#"
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
    for words in every_call() {
        for direction in Direction::ALL.iter().copied() {
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

/// Every call by itself, and every combination of parts that a drill can add to one.
fn every_call() -> Vec<String> {
    let cues = Phrase::all().filter(|phrase| phrase.is_cue()).map(|phrase| phrase.words().to_uppercase());
    let combined = Drill::all().iter().flat_map(|drill| {
        let called = drill.targets().iter().filter_map(|target| target.say);
        called.flat_map(|call| {
            combinations(drill)
                .into_iter()
                .map(move |parts| format!("{}{parts}", call.words()).to_uppercase())
        })
    });
    cues.chain(combined).collect()
}

/// The parts that a drill can add to a call at its hardest step, in every way, at most one of a kind.
fn combinations(drill: &Drill) -> Vec<String> {
    let most = drill.ladder().iter().map(|step| usize::from(step.parts)).max().unwrap_or(1);
    let parts = drill.parts();
    let chosen = |bits: u32| {
        parts.iter().enumerate().filter(move |(bit, _)| bits >> bit & 1 == 1).map(|(_, part)| part)
    };
    let allowed = |bits: &u32| {
        let mut kinds: Vec<&str> = chosen(*bits).map(|part| part.kind.as_str()).collect();
        let count = kinds.len();
        kinds.dedup();
        kinds.len() == count && count < most
    };
    let words = |bits: u32| chosen(bits).map(|part| format!(", {}", part.phrase.words())).collect();
    (0..1_u32 << parts.len()).filter(allowed).map(words).collect()
}

/// As above: `LOOK UP`, `NOW`, `HOLD`, and everything that any drill can have a partner do, toward any place, with any
/// hand, at any strength, for practice or not, with either ball and any parts.
#[test]
fn every_word_to_a_partner_is_read_from_three_meters_at_80_by_24() {
    let tall = |word: &str, buffer: &Buffer, of: &str| {
        let half_rows = big::capitals(word, buffer);
        assert!(half_rows.is_some_and(|rows| rows >= 7), "{word} of {of}: {half_rows:?}\n{}", text(buffer));
    };
    tall("HOLD", &rendered(&partner(None), 80, 24), "hold");
    let places: Vec<String> = Place::ALL.iter().map(|place| place.phrase().words().to_owned()).collect();
    let mut seen = 0;
    for item in every_item(&places) {
        for moment in [Moment::In(7), Moment::In(3), Moment::LookUp, Moment::Now] {
            let buffer = rendered(&partner(Some(Item { moment, ..item.clone() })), 80, 24);
            let shown: Vec<String> = match moment {
                Moment::LookUp => vec!["LOOK UP".into()],
                Moment::In(seconds @ ..5) if item.hand.is_some() => {
                    [words::hand(&item), vec![seconds.to_string()]].concat()
                }
                Moment::In(seconds) => [words::task(&item), vec![seconds.to_string()]].concat(),
                Moment::Now => [words::task(&item), vec!["NOW".into()]].concat(),
            };
            for word in shown.iter().flat_map(|text| text.split_whitespace()) {
                tall(&word.to_uppercase(), &buffer, &format!("{item:?}"));
            }
            seen += 1;
        }
    }
    assert!(seen > 1_000, "{seen}");
}

/// What any drill can have a partner do: each target with the longest and the shortest of everything else.
fn every_item(places: &[String]) -> Vec<Item> {
    let mut items = Vec::new();
    for drill in Drill::all().iter().filter(|drill| drill.forms().contains(&Form::Partner)) {
        for target in drill.targets() {
            let said = target.tell.or(target.say).expect("somebody is told").words();
            let combined = combinations(drill);
            let combined = combined.iter().max_by_key(|parts| parts.len()).expect("at least none");
            let words = format!("{said}{combined}").to_uppercase();
            let strengths = (1..=4).filter_map(Strength::new).map(|strength| strength.to_string());
            let strengths: Vec<_> =
                if target.action.is_push() { strengths.map(Some).collect() } else { vec![None] };
            let mut toward: Vec<Option<String>> = vec![None];
            if target.tell.is_some() && target.direction != Direction::InPlace {
                let there =
                    counterpoise_core::plan::drill::direction_phrase(target.direction).words().to_owned();
                toward = places.iter().cloned().chain([there]).map(Some).collect();
            }
            for (toward, strength) in
                toward.iter().flat_map(|toward| strengths.iter().map(move |strength| (toward, strength)))
            {
                let toss = target.action.is_toss();
                for (practice, ball) in
                    [(false, None), (target.action.is_push(), toss.then_some(Ball::Small))]
                {
                    items.push(Item {
                        words: words.clone(),
                        toward: toward.clone(),
                        hand: target.hand.map(|hand| hand.words().to_owned()),
                        strength: strength.clone(),
                        practice,
                        ball,
                        direction: target.direction,
                        moment: Moment::Now,
                        cue: 0,
                    });
                }
            }
        }
    }
    items
}

#[test]
fn a_partner_reads_what_and_where_then_how_and_then_looks_up() {
    let shown = |moment| text(&rendered(&partner(Some(push(moment))), 80, 24));
    insta::assert_snapshot!(shown(Moment::In(7)), @r#"
      Set 2 of 3


            ▗▟▌                      ██▀▀█▄  ██  ██  ▄█▀▀█▄  ██  ██
          ▄▟██▌                      ██▄▄█▀  ██  ██  ▀█▄▄▄   ██▄▄██
        ▄█████▙▄▄▄▄▄▄▄▄▖             ██      ██  ██  ▄▄  ██  ██  ██
       ████████████████▌             ▀▀       ▀▀▀▀    ▀▀▀▀   ▀▀  ▀▀
        ▀█████▛▀▀▀▀▀▀▀▀▘
          ▀▜██▌
            ▝▜▌              ▀▀██▀▀  ▄█▀▀█▄  ██   ██ ▄█▀▀█▄  ██▀▀█▄  ██▀▀█▄
                               ██    ██  ██  ██ ▄ ██ ██  ██  ██▄▄█▀  ██  ██
                               ██    ██  ██  ███▀███ ██▀▀██  ██▀█▄   ██  ██
                               ▀▀     ▀▀▀▀   ▀▀   ▀▀ ▀▀  ▀▀  ▀▀  ▀▀  ▀▀▀▀▀
       ████████████                      ▀▀██▀▀  ██  ██  ██▀▀▀▀
       ████    ████                        ██    ██▄▄██  ██▄▄▄
               ████                        ██    ██  ██  ██
             ████                          ▀▀    ▀▀  ▀▀  ▀▀▀▀▀▀
           ████              ██   ██  ▀██▀   ██▄  ██ ██▀▀█▄  ▄█▀▀█▄  ██   ██
           ████              ██ ▄ ██   ██    ██▀█▄██ ██  ██  ██  ██  ██ ▄ ██
           ████              ███▀███   ██    ██  ▀██ ██  ██  ██  ██  ███▀███
                             ▀▀   ▀▀  ▀▀▀▀   ▀▀   ▀▀ ▀▀▀▀▀    ▀▀▀▀   ▀▀   ▀▀


      G: grabbed    F: fell    S or Esc: stop
    "#);
    insta::assert_snapshot!(shown(Moment::In(3)), @r#"
      Set 2 of 3

                               █ █ ▟▀▙ █▖▐▌█▀▙     ▟▀▙ █▖▐▌    ▀█▀ █ █ █▀▀
            ▗▟▌                █▄█ █ █ █▜▟▌█ █     █ █ █▜▟▌     █  █▄█ █▄▖
          ▄▟██▌                █ █ █▀█ █ ▜▌█ █     █ █ █ ▜▌     █  █ █ █
        ▄█████▙▄▄▄▄▄▄▄▄▖       ▀ ▀ ▀ ▀ ▀ ▝▘▀▀▘     ▝▀▘ ▀ ▝▘     ▀  ▀ ▀ ▀▀▀
       ████████████████▌           █▀▙ ▝█▘ ▟▀▙ █ █ ▀█▀     █ █ ▝█▘ █▀▙
        ▀█████▛▀▀▀▀▀▀▀▀▘           █▄▛  █  █▗▄ █▄█  █      █▄█  █  █▄▛
          ▀▜██▌                    █▜▖  █  █ █ █ █  █      █ █  █  █
            ▝▜▌                    ▀ ▀ ▝▀▘ ▝▀▘ ▀ ▀  ▀      ▀ ▀ ▝▀▘ ▀


                                         █▀▙ ▟▀▙ █▀▙ █▀▀ █   █ █
         ████████                        █▄▛ █ █ █▄▛ █▄▖ █   ▜▄▛
       ████    ████                      █ █ █▀█ █▜▖ █   █    █
               ████                      ▀▀▘ ▀ ▀ ▀ ▀ ▀▀▀ ▀▀▀  ▀
           ██████
               ████
       ████    ████          █▀▀ ▟▀▙ █▀▙     █▀▙ █▀▙ ▟▀▙ ▟▀▙ ▀█▀ ▝█▘ ▟▀▙ █▀▀
         ████████            █▄▖ █ █ █▄▛     █▄▛ █▄▛ █ █ █    █   █  █   █▄▖
                             █   █ █ █▜▖     █   █▜▖ █▀█ █ ▄  █   █  █ ▄ █
                             ▀   ▝▀▘ ▀ ▀     ▀   ▀ ▀ ▀ ▀ ▝▀▘  ▀  ▝▀▘ ▝▀▘ ▀▀▀

      G: grabbed    F: fell    S or Esc: stop
    "#);
    insta::assert_snapshot!(shown(Moment::LookUp), @r#"
      Set 2 of 3



            ████              ████████        ████████      ████    ████
            ████            ████    ████    ████    ████    ████    ████
            ████            ████    ████    ████    ████    ████  ████
            ████            ████    ████    ████    ████    ████████
            ████            ████    ████    ████    ████    ████  ████
            ████            ████    ████    ████    ████    ████    ████
            ████████████      ████████        ████████      ████    ████

                            ████    ████    ██████████
                            ████    ████    ████    ████
                            ████    ████    ████    ████
                            ████    ████    ██████████
                            ████    ████    ████
                            ████    ████    ████
                              ████████      ████




      G: grabbed    F: fell    S or Esc: stop
    "#);
    assert_eq!(shown(Moment::LookUp), text(&rendered(&partner(Some(toss(Moment::LookUp))), 80, 24)));
}

#[test]
fn what_a_partner_is_told_is_on_the_screen_and_in_the_plain_lines() {
    for item in [push(Moment::Now), toss(Moment::Now)] {
        let mut lines = Lines::default();
        let told = MOMENTS.map(|moment| partner(Some(Item { moment, ..item.clone() })));
        let said: Vec<String> = told.iter().flat_map(|screen| lines.after(screen)).collect();
        for (width, height) in [(80, 24), (120, 40)] {
            let drawn: Vec<Buffer> = told.iter().map(|screen| rendered(screen, width, height)).collect();
            let all = [words::task(&item), words::hand(&item), vec!["LOOK UP".into(), "NOW".into()]].concat();
            for word in all.iter().flat_map(|text| text.split_whitespace()) {
                let word = word.to_uppercase();
                assert!(drawn.iter().any(|buffer| big::find(&word, buffer).is_some()), "{word}");
                let in_lines = said.iter().any(|line| line.to_uppercase().contains(&word));
                assert!(in_lines, "{word} in {said:#?}");
            }
        }
        assert_eq!(said.iter().filter(|line| line.contains(&item.words)).count(), 1, "{said:#?}");
    }
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
        // A slow target has no words, and the lines say that it needs the screen.
        for screen in each_kind().iter().filter(|screen| !matches!(screen.body, Body::Follow { .. })) {
            let buffer = rendered(screen, width, height);
            let small = text(&buffer);
            let small: Vec<_> = plain_words(&[small.replace(['█', '░'], " ")]);
            let said = plain_words(&Lines::default().after(screen));
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
    let call = (any_words(), 0..Direction::ALL.len(), any::<u16>()).prop_map(|(words, to, cue)| ShownCall {
        words,
        direction: Direction::ALL[to],
        cue,
    });
    let moment = prop_oneof![any::<u8>().prop_map(Moment::In), Just(Moment::LookUp), Just(Moment::Now)];
    let told = proptest::collection::vec(proptest::option::of(any_words()), 3);
    let ball = proptest::option::of(prop_oneof![Just(Ball::Big), Just(Ball::Small)]);
    let item = (any_words(), told, any::<bool>(), ball, 0..Direction::ALL.len(), moment).prop_map(
        |(words, told, practice, ball, to, moment)| {
            let [toward, hand, strength] = told.try_into().expect("three of them");
            Item {
                words,
                toward,
                hand,
                strength,
                practice,
                ball,
                direction: Direction::ALL[to],
                moment,
                cue: 1,
            }
        },
    );
    prop_oneof![
        (proptest::option::of(item), time(), time()).prop_map(|(item, left, whole)| Body::Partner {
            item,
            left,
            whole
        }),
        (any::<u16>(), any::<u16>(), time(), time()).prop_map(|(across, down, left, whole)| Body::Follow {
            across_per_mille: across,
            down_per_mille: down,
            left,
            whole
        }),
        list().prop_map(|patches| Body::Course { patches }),
        (any_words(), list(), list()).prop_map(|(title, text, items)| Body::Page { title, text, items }),
        (proptest::option::of(any_words()), list())
            .prop_map(|(number, text)| Body::Emergency { number, text }),
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
