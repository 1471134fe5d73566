//! What stands on the screen while a test is led.

use jiff::civil::Date;

use super::{FIT, Guide, HEEL_TO_TOE, LEAD_IN, NumberPrompt, Phase};
use crate::health::assessment::{Company, Dated, NO_SINGLE_TEST, Reading, Test, score, tests_below_cut_off};
use crate::health::bounds::Bounds;
use crate::health::readiness::{Asked, Page, Today};
use crate::practice::session::screen::{Body, KeyHint, Screen};
use crate::practice::session::three_keys::{answer_keys, asked_singly};
use crate::units::Millis;

/// What a test needs of the room.
const ROOM: &[&str] = &[
    "A counter or wall is in reach.",
    "The floor is dry and clear.",
    "I wear firm shoes.",
    "A phone is in reach.",
];

/// Alone, and in company.
const BESIDE: &str = "Somebody stands beside you, ready to steady you.";

impl Guide {
    /// The screen at `now`. `not_kept`: the journal could not keep the last result.
    pub fn screen(&self, now: Millis, not_kept: bool) -> Screen {
        let (body, keys) = self.page(now);
        let notices =
            if not_kept { vec!["NOT SAVED. Write the result down.".to_owned()] } else { Vec::new() };
        let mut screen = Screen { place: String::new(), body, keys, notices };
        let keys_here = if self.wrong_key { screen.keys_here() } else { None };
        screen.notices.extend(keys_here);
        screen
    }

    fn page(&self, now: Millis) -> (Body, Vec<KeyHint>) {
        let key = |key: &str, does: &str| KeyHint::new(key, does);
        let leave = || key("S or Esc", "leave");
        let stop = || key("S or Esc", "stop");
        let question = |ask: &str, answers: Vec<KeyHint>| Body::Question {
            ask: ask.to_owned(),
            answers,
            asking_again: false,
        };
        match &self.phase {
            Phase::Choose | Phase::Left => {
                let tests = (1..).zip(Test::ALL);
                let answers = tests.map(|(nth, test)| key(&nth.to_string(), chosen(*test))).collect();
                (question("Which balance test?", answers), vec![leave()])
            }
            Phase::WhoIsThere => {
                let ask = "Is somebody beside you, who can steady you and press a key?";
                (question(ask, vec![key("Y", "yes"), key("N", "no, I am alone")]), vec![leave()])
            }
            Phase::RuledOut => {
                let because = self.test.ruled_out_by() & self.precautions;
                let text = format!("Your program rules this test out: {because}.");
                let body = Body::page("Another test", &[&text, "Choose another one, or leave."], &[]);
                (body, vec![key("any key", "go on"), leave()])
            }
            Phase::NeedsSomebody => {
                let text =
                    "This test is timed by somebody else's key. Ask somebody to come, or take another test.";
                (Body::page("With somebody only", &[text], &[]), vec![key("any key", "go on"), leave()])
            }
            Phase::Fit { asked } => match FIT[*asked] {
                Asked::One(item) => (asked_singly(item), vec![leave()]),
                Asked::Page(page) => {
                    let lines = if page == Page::Room { ROOM.to_vec() } else { page.lines(Today::default()) };
                    let body = Body::page("Before a test", &[page.question()], &lines);
                    (body, [answer_keys(|answer| page.words(answer)), vec![leave()]].concat())
                }
            },
            Phase::NotToday => (self.not_today(), vec![key("any key", "leave")]),
            Phase::Number { asked, typed, wrong } => (
                question(
                    &asked_words(*asked, typed, *wrong),
                    vec![key("0 to 9", "type it"), key("X", "type it again")],
                ),
                vec![key("Enter", "that is right"), stop()],
            ),
            Phase::Sex => {
                let ask = "The table has two columns. Which one?";
                (question(ask, vec![key("F", "female"), key("M", "male")]), vec![leave()])
            }
            Phase::SetUp => (self.set_up_page(), vec![key("Enter", "begin"), stop()]),
            Phase::Watch { zero } => self.watch(now, *zero),
            Phase::HeldIt => {
                let ask = "Did you hold it to the end, with free hands and still feet?";
                (question(ask, vec![key("Y", "yes"), key("N", "no, I stopped before")]), vec![stop()])
            }
            Phase::Result { reading } => (
                self.result(*reading),
                vec![key("K", "keep it"), key("R", "once more"), key("D", "discard it"), stop()],
            ),
            Phase::Kept { before } => {
                let known = before.map(|reading| self.result_lines(reading)).unwrap_or_default();
                let done =
                    ["It is in the journal.", "Sit down for a while. Show the results to your therapist."];
                let text: Vec<&str> = done.into_iter().chain(known.iter().map(String::as_str)).collect();
                (Body::page("Done", &text, &[]), vec![key("any key", "go on"), leave()])
            }
            Phase::Stopped { stances } => (self.stopped(*stances), vec![key("any key", "go on"), leave()]),
        }
    }

    fn set_up_page(&self) -> Body {
        let stage = self.stages()[self.stage];
        let mut lines = stage.lines.to_vec();
        if self.company == Company::WithSomebody {
            lines.insert(0, BESIDE);
        }
        lines.push(match (self.company, self.test) {
            (Company::Alone, Test::ChairStand) => "Listen: it counts 5 to 1, then says begin, and stop.",
            (Company::Alone, _) => {
                "Listen: it counts 5 to 1, then aloud, and stops by itself. Remember the last number you held."
            }
            _ => "It counts 5 to 1 and says begin.",
        });
        Body::page(stage.title, &[], &lines)
    }

    fn not_today(&self) -> Body {
        self.with_number(
            "Not today",
            &[
                "Take the test on another day.",
                "For chest pain, sudden weakness or trouble speaking: sit down and call your local emergency number now. \
                 After a fall, a faint or a knock to the head, see a clinician first.",
            ],
        )
    }

    fn stopped(&self, stances: usize) -> Body {
        let kept = match stances {
            0 => "Nothing of this test was kept. Sit down and rest.".to_owned(),
            held if held <= HEEL_TO_TOE => format!(
                "Kept: {held} of 4 stances held, and heel to toe held for 0 s. The next test replaces it. Sit down and rest."
            ),
            held => format!("Kept: {held} of 4 stances held, heel to toe among them. Sit down and rest."),
        };
        self.with_number(
            "We stop here",
            &[
                &kept,
                "For chest pain or pressure, bad shortness of breath, new weakness or numbness, or trouble speaking: call \
                 your local emergency number now.",
                "After a fall: if you are hurt or cannot get up, call. A knock to the head while you take blood thinners \
                 needs a doctor, even if you feel well.",
            ],
        )
    }

    /// A page with the number to call, where the person has given one.
    fn with_number(&self, title: &str, text: &[&str]) -> Body {
        let lines = self.contacts.lines();
        let items: Vec<&str> = lines.iter().map(String::as_str).collect();
        Body::page(title, text, &items)
    }

    /// Big digits: down to "begin", then up.
    fn watch(&self, now: Millis, zero: Option<Millis>) -> (Body, Vec<KeyHint>) {
        let stop = KeyHint::new("S or Esc", "stop, and keep nothing");
        let stage = self.stages()[self.stage];
        let standing = vec![stage.title.to_owned()];
        let begun = zero.map(|zero| zero + LEAD_IN);
        let number = match begun {
            Some(begun) if now >= begun => Some(((now - begun).min(self.limit()).0 / 1_000) as u8),
            Some(begun) if now >= begun - LEAD_IN => Some((begun - now).0.div_ceil(1_000) as u8),
            _ => None,
        };
        let runs = begun.is_some_and(|begun| now >= begun);
        let watched = self.company == Company::WithSomebody && self.test != Test::ChairStand;
        let keys =
            if runs && watched { vec![KeyHint::new("any key", "stop the watch"), stop] } else { vec![stop] };
        (Body::Count { number, standing }, keys)
    }

    fn result(&self, reading: Reading) -> Body {
        Body::Page { title: reading.to_string(), text: self.result_lines(reading), items: Vec::new() }
    }

    /// The result against its cut-off, and last what it means for practice, together with the other tests.
    fn result_lines(&self, reading: Reading) -> Vec<String> {
        let mut text = vec![score(reading, self.age, self.sex).sentence(self.test)];
        if reading.value().is_none() {
            text.push("It took longer than this test is timed here: \"unable\" would be kept.".to_owned());
        }
        text.push(NO_SINGLE_TEST.to_owned());
        let (mut results, reviewed, day) = self.known.clone().unwrap_or((Vec::new(), None, Date::MAX));
        let Self { age, sex, company, .. } = *self;
        results.push(Dated { day, reading, age, sex, company });
        text.push(Bounds::said_of_tests(tests_below_cut_off(&results, reviewed)));
        text
    }
}

fn chosen(test: Test) -> &'static str {
    match test {
        Test::FourStage => "four ways to stand, 10 seconds each",
        Test::OneLeg => "stand on one leg",
        Test::ChairStand => "rises from a chair in 30 seconds",
        Test::TimedUpAndGo => "up, 3 meters and back (with somebody)",
        Test::FiveRises => "five rises from a chair (with somebody)",
    }
}

fn asked_words(asked: NumberPrompt, typed: &str, wrong: bool) -> String {
    let ask = match asked {
        NumberPrompt::Age => "How old are you, in years?",
        NumberPrompt::Rises => "How often did you rise?",
        NumberPrompt::LastNumber => "Which number did you hear last while you still held it? 0 if none.",
    };
    let typed = if typed.is_empty() { "..." } else { typed };
    let wrong = if wrong { "That cannot be. " } else { "" };
    format!("{wrong}{ask} {typed}")
}
