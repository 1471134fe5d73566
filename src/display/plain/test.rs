use super::*;
use counterpoise_core::plan::direction::Direction;
use counterpoise_core::practice::session::screen::ShownCall;

fn screen(body: Body) -> Screen {
    let keys = vec![KeyHint { key: "S or Esc".into(), does: "stop".into() }];
    Screen { place: "Set 1 of 3".into(), body, keys, notices: vec![] }
}

fn work(call: Option<u16>, left: u32) -> Screen {
    let call = call.map(|cue| ShownCall { words: "REACH LEFT".into(), direction: Direction::Left, cue });
    screen(Body::Work { call, left: Millis(left * 1000), whole: Millis(90_000) })
}

fn count(number: Option<u8>) -> Screen {
    screen(Body::Count { number, standing: vec!["Feet together.".into()] })
}

fn said(screens: &[Screen]) -> String {
    let mut lines = Lines::default();
    screens.iter().flat_map(|screen| lines.after(screen)).collect::<Vec<_>>().join("\n")
}

#[test]
fn a_set_is_said_in_order_and_each_thing_once() {
    let mut set = vec![count(None), count(Some(2)), count(Some(2)), count(Some(1))];
    set.extend([work(None, 90), work(None, 89), work(Some(0), 80), work(Some(0), 79), work(None, 77)]);
    set.extend([work(Some(1), 70), work(Some(2), 66), work(None, 60), work(None, 59)]);
    let rest =
        |left| screen(Body::Rest { left: Millis(left), whole: Millis(60_000), next: "Next: set 2.".into() });
    set.extend([rest(60_000), rest(59_000), rest(30_000), rest(29_900), rest(0), rest(0)]);
    insta::assert_snapshot!(said(&set), @r#"
    Set 1 of 3
    Feet together.
    GET READY
    Keys: S or Esc: stop
    2
    1
    LISTEN
    1 min 30 s left
    REACH LEFT (left)
    REACH LEFT (left)
    REACH LEFT (left)
    1 min left
    1 min of rest left
    Next: set 2.
    30 s of rest left
    REST OVER
    "#);
}

#[test]
fn a_call_that_still_stands_after_a_pause_is_not_said_again() {
    let paused = |ends| screen(Body::Paused { left: Millis(70_000), ends_in: Millis(ends) });
    let pause = [
        work(Some(3), 70),
        paused(120_000),
        paused(119_000),
        paused(89_000),
        count(Some(1)),
        work(Some(3), 70),
    ];
    assert_eq!(said(&pause).matches("REACH LEFT (left)").count(), 1);
    assert_eq!(said(&pause).matches("the set ends in").count(), 2);
    assert_eq!(said(&[work(Some(0), 9), count(None), work(Some(1), 9)]).matches("REACH LEFT").count(), 2);
    let rest = screen(Body::Rest { left: Millis(0), whole: Millis(0), next: String::new() });
    assert_eq!(
        said(&[work(Some(0), 9), rest, work(Some(0), 9)]).matches("REACH LEFT").count(),
        2,
        "another set"
    );
}

#[test]
fn a_notice_is_said_when_it_comes_and_again_only_when_it_comes_back() {
    let mut bad = work(None, 90);
    bad.notices = vec!["NOT SAVED".into()];
    let good = work(None, 90);
    let all = said(&[bad.clone(), bad.clone(), good, bad]);
    assert_eq!(all.matches("NOTICE: NOT SAVED").count(), 2);
}

#[test]
fn a_question_is_asked_once_with_its_answers() {
    let ask = |asking_again| {
        let answer = |key: &str, does: &str| KeyHint { key: key.into(), does: does.into() };
        let answers = vec![answer("1", "very easy"), answer("10", "too hard")];
        Screen {
            place: String::new(),
            keys: vec![],
            ..screen(Body::Question { ask: "How was that?".into(), answers, asking_again })
        }
    };
    insta::assert_snapshot!(said(&[ask(false), ask(false), ask(true), ask(true)]), @r#"

    How was that?
    1    very easy
    10   too hard
    Are you all right? Press any key.
    "#);
}

#[test]
fn an_emergency_is_said_once_the_number_first_and_the_keys_when_they_change() {
    let page = |key: &str, does: &str| Screen {
        place: String::new(),
        keys: vec![KeyHint::new(key, does)],
        ..screen(Body::Emergency { number: None, text: vec!["Sit down.".into()] })
    };
    let (spoken, hushed) = (page("any key", "stop the voice"), page("L", "leave this page"));
    insta::assert_snapshot!(said(&[spoken.clone(), spoken, hushed.clone(), hushed]), @r#"

    CALL YOUR LOCAL EMERGENCY NUMBER
    Sit down.
    Keys: any key: stop the voice
    Keys: L: leave this page
    "#);
}

#[test]
fn a_line_is_one_key_or_none() {
    assert_eq!(key("\n"), Some(Key::Enter));
    assert_eq!(key("\r\n"), Some(Key::Enter));
    assert_eq!(key("y\n"), Some(Key::Char('y')));
    assert_eq!(key(" y \r\n"), Some(Key::Char('y')));
    assert_eq!(key("é"), Some(Key::Char('é')), "the last line may have no end");
    assert_eq!(key("ESC\n"), Some(Key::Escape));
    assert_eq!(key("\u{1b}\n"), Some(Key::Escape));
    assert_eq!(key("Stop\n"), Some(Key::Char('S')));
    for line in ["yes\n", "no\n", "11\n", "y y\n", "   \n"] {
        assert_eq!(key(line), None, "{line:?}");
    }
}

#[test]
fn a_line_without_an_end_does_not_fill_the_memory_and_answers_nothing() {
    let long = "y".repeat(100_000);
    let mut input = io::Cursor::new(format!("n\n{long}\ny"));
    let mut lines = Vec::new();
    while let Some(line) = line(&mut input).unwrap() {
        lines.push(line);
    }
    assert_eq!(lines.len(), 3);
    assert_eq!(lines[1].len() as u64, LONGEST);
    let keys = lines.iter().map(|line| key(&String::from_utf8_lossy(line)));
    assert!(keys.eq([Some(Key::Char('n')), None, Some(Key::Char('y'))]), "the last line may have no end");
}

#[test]
fn are_you_all_right_is_said_once_with_nothing_else() {
    let body = Body::Question { ask: words::ALL_RIGHT.into(), answers: vec![], asking_again: true };
    assert_eq!(said(&[Screen { place: String::new(), keys: vec![], ..screen(body) }]), words::ALL_RIGHT);
}

#[test]
fn a_held_enter_key_is_one_line_at_a_terminal_and_a_script_is_taken_at_its_word() {
    let start = Instant::now();
    let taken = |mut held: Option<Gate>, key: Key| {
        let times = [0, 500, 530, 560, 1_500].map(|ms| start + Duration::from_millis(ms));
        times.map(|now| counts(&mut held, key, now))
    };
    assert_eq!(taken(Some(Gate::default()), Key::Enter), [true, false, false, false, true]);
    assert_eq!(taken(Some(Gate::default()), Key::Char('a')), [true; 5], "each is a line of its own");
    assert_eq!(taken(None, Key::Enter), [true; 5]);
}
