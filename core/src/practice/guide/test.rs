use proptest::prelude::*;

use super::{ALONE_LIMIT, Effect, Event, FIT, Guide, Kept, LEAD_IN, Phase, stages};
use crate::health::assessment::{Company, Dated, Reading, Sex, Test};
use crate::health::readiness::{Asked, Item};
use crate::health::yes_no::YesNoNotSure;
use crate::plan::precaution::{Precaution, Precautions};
use crate::practice::session::Key;
use crate::practice::session::screen::Body;
use crate::record::Numbered;
use crate::units::Millis;

/// A guide with a clock that only goes when it is told to.
struct Walk {
    guide: Guide,
    now: Millis,
    effects: Vec<Effect>,
}

impl Walk {
    fn new(test: Test) -> Self {
        Self { guide: Guide::new(Some(test), Some("112".to_owned())), now: Millis(0), effects: Vec::new() }
    }

    fn on(&mut self, event: Event) {
        let effects = self.guide.on(self.now, event);
        // The shell places what is timed at once; it is heard a moment later.
        if effects.iter().any(|effect| matches!(effect, Effect::Time(_))) {
            self.guide.on(self.now, Event::Placed { zero: self.now + Millis(50) });
        }
        self.effects.extend(effects);
    }

    /// Each letter a key; a full stop is Enter.
    fn keys(&mut self, keys: &str) -> &mut Self {
        for letter in keys.chars() {
            self.on(Event::Key(if letter == '.' { Key::Enter } else { Key::Char(letter) }));
        }
        self
    }

    /// Fit for a test today: none of what is asked, and the room is as it should be.
    fn fit(&mut self) -> &mut Self {
        self.keys("nnnnnnny")
    }

    fn wait(&mut self, ms: u32) -> &mut Self {
        let until = self.now + Millis(ms);
        while self.now < until {
            self.now = (self.now + Millis(20)).min(until);
            self.on(Event::Tick);
        }
        self
    }

    /// Until "begin" is heard.
    fn begin(&mut self) -> &mut Self {
        self.keys(".").wait(LEAD_IN.0 + 50)
    }

    fn reading(&self) -> Option<Reading> {
        match self.guide.phase {
            Phase::Result { reading } => Some(reading),
            _ => None,
        }
    }

    fn value(&self) -> Option<u32> {
        self.reading().expect("a result").value()
    }

    fn said(&self, id: &str) -> usize {
        let says = |effect: &&Effect| matches!(effect, Effect::Say(phrase) if phrase.id() == id);
        self.effects.iter().filter(says).count()
    }

    fn kept(&self) -> Vec<Kept> {
        let kept = |effect: &Effect| match effect {
            Effect::Keep(kept) => Some(*kept),
            _ => None,
        };
        self.effects.iter().filter_map(kept).collect()
    }
}

#[test]
fn every_phrase_that_is_named_exists() {
    // Seven ways to stand, ten numbers, and what begins and ends.
    let ids: Vec<&str> = Guide::phrases().iter().map(|phrase| phrase.id()).collect();
    for test in Test::ALL {
        assert!(stages(*test).iter().all(|stage| ids.contains(&stage.phrase)), "{test}");
    }
    for id in ["assess.begin", "assess.half-time", "assess.stop", "assess.last-number", "count.1", "count.10"]
    {
        assert!(ids.contains(&id), "{id}");
    }
}

#[test]
fn alone_it_counts_aloud_and_stops_by_itself_and_the_last_number_is_keyed_in() {
    let mut walk = Walk::new(Test::OneLeg);
    walk.keys("n").fit().keys(".");
    let Some(Effect::Time(said)) = walk.effects.iter().find(|effect| matches!(effect, Effect::Time(_)))
    else {
        panic!("{:?}", walk.effects)
    };
    let said: Vec<(u32, &str)> = said.iter().map(|(at, phrase)| (at.0, phrase.words())).collect();
    let lead_in =
        [(0, "five"), (1_000, "four"), (2_000, "three"), (3_000, "two"), (4_000, "one"), (5_000, "begin")];
    assert_eq!(said[..6], lead_in);
    assert_eq!((said[6], said[14], said.len()), ((6_000, "one"), (14_000, "nine"), 16));
    assert_eq!(said[15], (15_000, "And stop. Hold on, and rest."), "on its time, like every number");
    walk.wait(50 + LEAD_IN.0 + ALONE_LIMIT.0 - 60).keys("  ");
    assert!(matches!(walk.guide.phase, Phase::Watch { .. }), "a key stops nothing");
    walk.wait(100);
    assert_eq!(walk.guide.phase, Phase::HeldIt);
    walk.keys("n");
    assert_eq!(walk.said("assess.last-number"), 1);
    walk.keys("10.");
    assert!(matches!(walk.guide.phase, Phase::Number { wrong: true, .. }), "then it was held to the end");
    walk.keys("7.");
    assert_eq!(walk.value(), Some(70));
    walk.keys("k");
    let kept = Kept {
        reading: Reading::new(Test::OneLeg, Some(70)).unwrap(),
        age: None,
        sex: None,
        company: Company::Alone,
        stances: None,
    };
    assert_eq!(walk.kept(), [kept]);
    let mut whole = Walk::new(Test::OneLeg);
    whole.keys("n").fit().begin().wait(10_050).keys("y");
    assert_eq!(whole.value(), Some(100));
}

#[test]
fn with_somebody_a_key_stops_the_watch_to_the_tenth() {
    for (held, value) in [(4_000, 40), (4_990, 49), (5_000, 50), (44_980, 449)] {
        let mut walk = Walk::new(Test::OneLeg);
        walk.keys("y").fit().begin().wait(held).keys(" ");
        assert_eq!(walk.value(), Some(value), "{held}");
    }
    let mut walk = Walk::new(Test::OneLeg);
    walk.keys("y").fit().begin().wait(45_020);
    assert_eq!(walk.value(), Some(450), "it stops by itself at 45 s");
    let mut bounced = Walk::new(Test::OneLeg);
    bounced.keys("y").fit().begin().wait(200).keys(" ");
    assert!(matches!(bounced.guide.phase, Phase::Watch { .. }), "the press that began it does not end it");
    let mut early = Walk::new(Test::OneLeg);
    early.keys("y").fit().keys(".").wait(2_000).keys(" ");
    assert!(matches!(early.guide.phase, Phase::Watch { .. }), "nothing is measured before \"begin\"");
}

#[test]
fn four_stages_end_at_the_first_that_is_not_held() {
    for (held_stages, key_at, value) in [(0, 3_000, 0), (1, 3_000, 0), (2, 9_900, 99)] {
        let mut walk = Walk::new(Test::FourStage);
        walk.keys("y").fit();
        for _ in 0..held_stages {
            walk.begin().wait(10_020);
            assert_eq!(walk.guide.phase, Phase::SetUp);
        }
        walk.begin().wait(key_at).keys(" ");
        assert_eq!(walk.value(), Some(value), "{held_stages} stages");
    }
    let mut all = Walk::new(Test::FourStage);
    all.keys("n").fit();
    for _ in 0..4 {
        all.begin().wait(10_050).keys("y");
    }
    assert_eq!((all.kept().len(), all.said("assess.heel-to-toe")), (1, 1));
    let Body::Page { title, text, .. } = all.guide.screen(all.now, false).body else { panic!() };
    assert!(
        title == "Done" && text.iter().any(|line| line.starts_with("Reaches the published cut-off")),
        "{text:?}"
    );
}

/// Heel to toe is the result: it is kept before the stance after it begins. The stances before it are kept with the stop.
#[test]
fn stances_that_were_held_are_kept_when_the_next_is_stopped() {
    let after = |held: usize| {
        let mut walk = Walk::new(Test::FourStage);
        walk.keys("y").fit();
        for _ in 0..held {
            walk.begin().wait(10_020);
        }
        walk
    };
    let kept =
        |walk: &Walk| walk.kept().iter().map(|kept| (kept.reading.value(), kept.stances)).collect::<Vec<_>>();
    for (held, before, then) in [
        (0, vec![], vec![]),
        (1, vec![], vec![(Some(0), Some(1))]),
        (2, vec![], vec![(Some(0), Some(2))]),
        (3, vec![(Some(100), Some(3))], vec![(Some(100), Some(3))]),
    ] {
        assert_eq!(kept(&after(held)), before, "{held}: before the next stance");
        for begun in [false, true] {
            let mut stopped = after(held);
            if begun {
                stopped.begin().wait(2_000);
            }
            stopped.keys("s");
            assert_eq!(kept(&stopped), then, "{held}");
            let Body::Page { text, .. } = stopped.guide.screen(stopped.now, false).body else { panic!() };
            let says = if held == 0 { "Nothing of this test was kept." } else { "Kept: " };
            assert!(text[0].starts_with(says), "{text:?}");
            let mut closed = after(held);
            closed.on(Event::Close);
            assert_eq!(kept(&closed), then, "{held}: a closed terminal");
        }
    }
}

#[test]
fn a_result_ends_with_what_it_means_for_practice_together_with_the_other_tests() {
    let last = |others: &[Dated], held: u32| {
        let mut walk = Walk::new(Test::OneLeg);
        walk.guide = walk.guide.knowing(others, None, "2026-11-02".parse().unwrap());
        walk.keys("y").fit().begin().wait(held).keys(" ");
        let Body::Page { text, .. } = walk.guide.screen(walk.now, false).body else { panic!() };
        text.last().cloned().unwrap()
    };
    let slow = Dated {
        day: "2026-11-01".parse().unwrap(),
        reading: Reading::new(Test::TimedUpAndGo, Some(140)).unwrap(),
        age: None,
        sex: None,
        company: Company::WithSomebody,
    };
    assert_eq!(last(&[], 8_000), "For practice: no limit from balance tests.");
    assert!(last(&[], 3_000).ends_with("One hand always rests on the counter."));
    assert!(last(std::slice::from_ref(&slow), 8_000).ends_with("One hand always rests on the counter."));
    assert!(last(&[slow], 3_000).ends_with("Both hands always rest on the counter."));
}

#[test]
fn a_wrong_key_shows_once_which_keys_count_and_never_while_a_stance_is_held() {
    let mut walk = Walk::new(Test::OneLeg);
    let notices = |walk: &Walk| walk.guide.screen(walk.now, false).notices;
    walk.keys("q");
    assert_eq!(notices(&walk), ["Keys here: Y, N, S or Esc."]);
    walk.keys("n").fit();
    assert_eq!(notices(&walk), [""; 0]);
    walk.begin().keys("qq");
    assert_eq!(notices(&walk), [""; 0]);
}

#[test]
fn rises_are_counted_for_thirty_seconds_and_the_table_needs_age_and_sex() {
    let mut walk = Walk::new(Test::ChairStand);
    walk.keys("n").fit().keys("17.");
    assert!(matches!(walk.guide.phase, Phase::Number { wrong: true, .. }));
    walk.keys("72.").keys("m").begin().wait(29_900).keys(" ");
    assert!(matches!(walk.guide.phase, Phase::Watch { .. }), "a key does not end it");
    walk.wait(200).keys("61.");
    assert!(matches!(walk.guide.phase, Phase::Number { wrong: true, .. }), "nobody rises so often");
    walk.keys("1x11.").keys("k");
    let kept = walk.kept()[0];
    assert_eq!((kept.reading.value(), kept.sex, kept.age), (Some(11), Some(Sex::Male), "72".parse().ok()));
}

#[test]
fn timed_walking_and_rising_are_led_only_with_somebody_to_hold_the_key() {
    for test in [Test::TimedUpAndGo, Test::FiveRises] {
        let mut alone = Walk::new(test);
        alone.keys("n");
        assert_eq!(alone.guide.phase, Phase::NeedsSomebody);
        alone.fit().keys(".");
        assert!(alone.guide.is_over(), "there is no way on");
        let mut walk = Walk::new(test);
        walk.keys("y").fit().begin().wait(11_800).keys("x");
        assert_eq!(walk.value(), Some(118));
        let mut endless = Walk::new(test);
        endless.keys("y").fit().begin().wait(180_020);
        assert_eq!(endless.value(), None, "so long is \"unable\"");
    }
}

#[test]
fn once_more_and_discard_keep_nothing() {
    let mut walk = Walk::new(Test::OneLeg);
    walk.keys("y").fit().begin().wait(3_000).keys(" ").keys("r");
    assert_eq!(walk.guide.phase, Phase::SetUp);
    walk.begin().wait(8_000).keys(" ");
    assert_eq!((walk.value(), walk.kept().len()), (Some(80), 0));
    walk.keys("d");
    assert!(walk.guide.is_over() && walk.kept().is_empty());
    let mut chosen = Guide::new(None, None);
    for key in ['2', 'y', 'n', 'u'] {
        chosen.on(Millis(0), Event::Key(Key::Char(key)));
    }
    assert_eq!(chosen.phase, Phase::NotToday, "somebody is not sure whether breath was short");
}

#[test]
fn before_a_test_the_same_is_asked_singly_as_before_practice_and_only_good_answers_go_on() {
    let answers = YesNoNotSure::KEYS;
    for (nth, asked) in FIT.iter().enumerate() {
        for (key, _, answer) in answers {
            let mut walk = Walk::new(Test::OneLeg);
            walk.keys("y");
            FIT[..nth].iter().for_each(|before| {
                let (key, ..) = answers.iter().find(|(.., answer)| *answer == before.good()).unwrap();
                walk.keys(&key.to_string());
            });
            assert_eq!(walk.guide.phase, Phase::Fit { asked: nth });
            walk.keys(&key.to_string());
            assert_eq!(walk.guide.phase == Phase::NotToday, *answer != asked.good(), "{asked:?}: {answer}");
        }
    }
    assert!(FIT.starts_with(&Item::SINGLY.map(Asked::One)));
}

#[test]
fn a_stop_ends_the_test_at_once_says_what_to_do_and_keeps_nothing() {
    let mut walk = Walk::new(Test::OneLeg);
    walk.keys("y").fit().begin().wait(3_000);
    walk.on(Event::Key(Key::Escape));
    assert_eq!(
        (walk.guide.phase.clone(), walk.effects.last()),
        (Phase::Stopped { stances: 0 }, Some(&Effect::Hush))
    );
    let Body::Page { text, items, .. } = walk.guide.screen(walk.now, false).body else { panic!() };
    assert!(
        text.join(" ").contains("local emergency number") && items.join(" ").contains("112"),
        "{text:?} {items:?}"
    );
    let mut closed = Walk::new(Test::OneLeg);
    closed.keys("y").fit().begin().wait(3_000).keys(" ");
    closed.on(Event::Close);
    assert!(closed.guide.is_over() && closed.kept().is_empty(), "a closed terminal is never a yes");
}

#[test]
fn the_watch_shows_big_digits_down_and_then_up() {
    let mut walk = Walk::new(Test::OneLeg);
    walk.keys("n").fit().keys(".");
    let number = |walk: &Walk| match walk.guide.screen(walk.now, false).body {
        Body::Count { number, .. } => number,
        body => panic!("{body:?}"),
    };
    assert_eq!(number(&walk), None, "it is not heard yet");
    walk.wait(60);
    assert_eq!(number(&walk), Some(5));
    walk.wait(1_000);
    assert_eq!(number(&walk), Some(4));
    walk.wait(4_000);
    assert_eq!(number(&walk), Some(0));
    walk.wait(7_000);
    assert_eq!(number(&walk), Some(7));
}

fn event() -> impl Strategy<Value = Event> {
    prop_oneof![
        6 => prop::sample::select("yna kdrxfms0123456789".chars().collect::<Vec<_>>()).prop_map(|c| Event::Key(Key::Char(c))),
        2 => Just(Event::Key(Key::Enter)),
        1 => Just(Event::Key(Key::Other)),
        3 => Just(Event::Tick),
        1 => Just(Event::Placed { zero: Millis(0) }),
    ]
}

proptest! {
    #[test]
    fn whatever_is_pressed_only_its_key_or_a_stance_that_was_held_keeps_a_result_and_nothing_timed_runs_alone(
        events in prop::collection::vec((event(), 0_u32..20_000), 0..80),
        only in prop::option::of(prop::sample::select(Test::ALL)),
    ) {
        let mut guide = Guide::new(only, None);
        let mut now = Millis(0);
        for (event, passed) in events {
            now = now + Millis(passed);
            let before = guide.phase.clone();
            let effects = guide.on(now, event);
            for effect in &effects {
                match effect {
                    Effect::Keep(kept) => {
                        let is_keyed = event == Event::Key(Key::Char('k'))
                            && before == Phase::Result { reading: kept.reading };
                        let is_stopped = matches!(event, Event::Key(key) if key.stops())
                            && matches!((kept.stances, kept.reading.value()), (Some(1 | 2), Some(0)));
                        let is_held = (kept.stances, kept.reading.value()) == (Some(3), Some(100))
                            && matches!(before, Phase::Watch { .. } | Phase::HeldIt);
                        prop_assert!(is_keyed || is_stopped || is_held, "{:?} {:?} {:?}", event, before, kept);
                        prop_assert!(kept.company == Company::WithSomebody || !kept.reading.test().needs_helper());
                    }
                    Effect::Time(_) => {
                        prop_assert!(guide.company == Company::WithSomebody || !guide.test.needs_helper());
                        guide.on(now, Event::Placed { zero: now });
                        break;
                    }
                    _ => {}
                }
            }
            let screen = guide.screen(now, false);
            prop_assert!(guide.is_over() || !screen.keys.is_empty(), "there is always a way out");
        }
    }
}

#[test]
fn a_test_that_a_precaution_rules_out_is_not_led() {
    for test in Test::ALL {
        for one in Precaution::ALL {
            let precautions = Precautions::of(&[*one]);
            let mut named = Walk::new(*test);
            named.guide = named.guide.within(precautions);
            let mut chosen = Walk::new(*test);
            chosen.guide = Guide::new(None, None).within(precautions);
            let nth = Test::ALL.iter().position(|other| other == test).unwrap() + 1;
            chosen.keys(&nth.to_string());
            let is_out = test.ruled_out_by().has(*one);
            for walk in [&mut named, &mut chosen] {
                assert_eq!(walk.guide.phase == Phase::RuledOut, is_out, "{test} {one}");
                assert_eq!(walk.guide.phase == Phase::WhoIsThere, !is_out, "{test} {one}");
                if is_out {
                    let Body::Page { text, .. } = walk.guide.screen(walk.now, false).body else {
                        panic!("a page")
                    };
                    assert!(text[0].contains(one.name()), "{}", text[0]);
                    walk.keys("y").fit().keys("..k");
                    assert!(walk.kept().is_empty() && walk.said("assess.chair") == 0);
                }
            }
        }
    }
    // Rises are done with the arms crossed on the chest, and the leg to stand on is chosen freely.
    assert!(Test::ChairStand.ruled_out_by().has(Precaution::RightArmDown));
    assert!(Test::OneLeg.ruled_out_by().has(Precaution::NoLeftWeight));
}
