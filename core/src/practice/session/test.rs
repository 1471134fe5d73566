//! The course of a session, event by event, without a clock, a screen or a sound.

use jiff::ZonedDateTime;
use proptest::prelude::*;

use super::opening::Page;
use super::screen::Body;
use super::set::InSet;
use super::{ANSWER_WAIT, Effect, Event, Key, Now, REPEAT_WAIT, Session, State};
use crate::draw::schedule::{Method, Scheduler, Seed, SetPlan};
use crate::health::readiness::Asked;
use crate::plan::phrase::Phrase;
use crate::plan::precaution::{Precaution, Precautions};
use crate::plan::prescription::Prescription;
use crate::record::{
    Answer, AnswerRow, Delivery, DeliveryRow, Disturbance, Drawn, Effort, Entry, Heard, Numbered, Question,
    SessionBegun, SessionEnd, SetEnd, Symptom,
};
use crate::units::Millis;

mod any_events;
mod emergency_page;
mod last_questions;
mod partner;
mod ready;
mod wrong_key;

/// A session with the moment it has come to, and everything that it asked for.
struct Walk {
    session: Option<Session>,
    at: Millis,
    effects: Vec<Effect>,
}

impl Walk {
    fn new(device: Option<&str>) -> Self {
        Self::spoken_by("lower", device)
    }

    fn spoken_by(voice: &str, device: Option<&str>) -> Self {
        let mut walk = Self::over(Prescription::ready("gentle").unwrap(), voice, |session| session);
        walk.on(Event::Sound { device: device.map(str::to_owned) });
        walk
    }

    fn over(prescription: &Prescription, voice: &str, with: impl Fn(Session) -> Session) -> Self {
        let scheduler = Scheduler::new(prescription).unwrap();
        let seed = Seed::from_bytes([41; 32]);
        let schedule = scheduler.draw(seed);
        let begun = SessionBegun {
            begun: (&wall()).into(),
            title: prescription.title().to_owned(),
            digest: prescription.digest(),
            sets_planned: schedule.sets().len() as u8,
            precautions: Vec::new(),
            drawn: Some(Drawn {
                seed,
                seed_given: false,
                method: Method::NEWEST.number(),
                voice: voice.to_owned(),
                device: None,
            }),
        };
        let session = Session::new(scheduler, schedule, begun, Some("112".to_owned())).map(with);
        Self { session, at: Millis(0), effects: Vec::new() }
    }

    fn session(&self) -> &Session {
        self.session.as_ref().unwrap()
    }

    fn on(&mut self, event: Event) -> Vec<Effect> {
        let now = Now { at: self.at, wall: wall() };
        let (session, effects) = self.session.take().unwrap().on(&now, event);
        self.session = Some(session);
        self.effects.extend(effects.clone());
        for effect in &effects {
            if let Effect::Begin { count, .. } = effect {
                let work_starts = self.at + Millis(1_000 * count.len() as u32);
                self.on(Event::Placed { work_starts });
            }
        }
        effects
    }

    fn keys(&mut self, keys: &str) -> &mut Self {
        for key in keys.chars() {
            let key = match key {
                '\n' => Key::Enter,
                '\u{1b}' => Key::Escape,
                '.' => Key::Other,
                letter => Key::Char(letter),
            };
            self.on(Event::Key(key));
            // One Enter goes through all pages of cautions.
            while key == Key::Enter && self.is_on_a_further_page_of_cautions() {
                self.on(Event::Key(Key::Enter));
            }
        }
        self
    }

    fn is_on_a_further_page_of_cautions(&self) -> bool {
        let Body::Page { title, .. } = self.body() else { return false };
        title.starts_with("While you practice, page ") && !title.starts_with("While you practice, page 1 ")
    }

    fn wait(&mut self, length: Millis) -> &mut Self {
        let until = self.at + length;
        while self.at < until {
            self.at = (self.at + Millis(100)).min(until);
            self.on(Event::Tick { gap: Millis(100) });
        }
        self
    }

    /// To the page that says how to stand for the first set.
    fn walk_to_the_counter(&mut self) -> &mut Self {
        let silent = self.session.as_ref().unwrap().is_silent();
        self.keys("\n\nnnnnnnnnny");
        // Past the warm-up, which comes after the sound check.
        if silent { self.keys(".y") } else { self }
    }

    /// Past the sound check, unheard, and the warm-up.
    fn past_the_check(&mut self) -> &mut Self {
        self.keys("g.y")
    }

    fn body(&self) -> Body {
        self.session.as_ref().unwrap().screen(self.at).body
    }

    fn entries(&self) -> Vec<&Entry> {
        self.effects
            .iter()
            .filter_map(|effect| if let Effect::Record(entry) = effect { Some(entry) } else { None })
            .collect()
    }

    /// What is asked.
    fn asks(&self) -> String {
        match self.body() {
            Body::Question { ask, .. } => ask,
            other => panic!("{other:?}"),
        }
    }

    /// The numbers of the answers that were kept to this question.
    fn numbers(&self, question: Question) -> Vec<Option<u8>> {
        let answers = self.entries().into_iter().filter_map(|entry| match entry {
            Entry::Answered(row) if row.answer.question() == question => Some(row.answer.number()),
            _ => None,
        });
        answers.collect()
    }

    fn set_ends(&self) -> Vec<(u8, SetEnd)> {
        self.entries()
            .into_iter()
            .filter_map(
                |entry| if let Entry::SetEnded { set, end } = entry { Some((*set, end.why)) } else { None },
            )
            .collect()
    }

    fn ends(&self) -> Vec<SessionEnd> {
        self.entries()
            .into_iter()
            .filter_map(|entry| if let Entry::SessionEnded { why, .. } = entry { Some(*why) } else { None })
            .collect()
    }

    fn said(&self, id: &str) -> usize {
        let phrase = Phrase::named(id).unwrap();
        self.effects.iter().filter(|effect| **effect == Effect::Say(phrase)).count()
    }

    fn plan(&self) -> SetPlan {
        match &self.session().state {
            State::InSet(here) => here.set.plan.clone(),
            State::AfterSet(here) => here.set.plan.clone(),
            State::Before(_) | State::Over(_) => self.set_drawn(self.session().set_number()).clone(),
        }
    }

    /// A set as it was drawn.
    fn set_drawn(&self, number: u8) -> &SetPlan {
        &self.session().whole.schedule.sets()[usize::from(number) - 1]
    }

    /// The page before the first set.
    fn page(&self) -> Option<Page> {
        if let State::Before(here) = &self.session().state { Some(here.page) } else { None }
    }

    /// What is asked of readiness; `None` on other pages.
    fn asked(&self) -> Option<Asked> {
        match &self.session().state {
            State::Before(here) if matches!(here.page, Page::Ready { .. }) => here.ready.asked(),
            _ => None,
        }
    }

    /// The set that is made ready, worked at or paused.
    fn in_set(&self) -> Option<&InSet> {
        if let State::InSet(here) = &self.session().state { Some(here) } else { None }
    }
}

fn wall() -> ZonedDateTime {
    "2026-11-02T09:30:00+00:00[UTC]".parse().unwrap()
}

#[test]
fn a_whole_session_is_three_sets_each_asked_about() {
    let mut walk = Walk::new(None);
    walk.walk_to_the_counter();
    for set in 0..3 {
        walk.keys(".").wait(Millis(5_000 + 60_000 + 100)).keys("n021n");
        if set < 2 {
            walk.wait(Millis(60_100)).keys(".");
        }
    }
    assert_eq!(walk.said("end.done"), 1);
    walk.keys(".y");
    assert_eq!(walk.set_ends(), [1, 2, 3].map(|set| (set, SetEnd::Completed)));
    assert_eq!(walk.ends(), [SessionEnd::Finished]);
    let planned: usize = {
        let scheduler = Scheduler::new(Prescription::ready("gentle").unwrap()).unwrap();
        let schedule = scheduler.draw(Seed::from_bytes([41; 32]));
        schedule.sets().iter().flat_map(SetPlan::cues).filter(|cue| !cue.is_blank()).count()
    };
    let shown =
        walk.entries().into_iter().filter(|entry| matches!(entry, Entry::CueDelivered { .. })).count();
    assert_eq!(shown, planned, "without sound, every cue is kept as shown");
    let effort = Entry::answered(Some(2), Answer::Effort(Effort::numbered(4)));
    assert_eq!(walk.entries().into_iter().filter(|entry| **entry == effort).count(), 1, "easy is 4 of 10");
}

#[test]
fn nothing_goes_on_by_itself() {
    let mut walk = Walk::new(Some("a device"));
    walk.wait(Millis(600_000));
    assert!(
        walk.entries().is_empty(),
        "the first page waits, and nothing is kept of somebody who only looked"
    );
    walk.walk_to_the_counter();
    walk.keys("g").wait(Millis(260_000));
    assert!(
        !walk.effects.iter().any(|effect| matches!(effect, Effect::Begin { .. })),
        "a set starts by a key"
    );
}

#[test]
fn what_stays_unanswered_is_asked_again_twice_and_then_the_guidance_is_spoken() {
    let mut walk = Walk::new(None);
    walk.walk_to_the_counter();
    walk.wait(ANSWER_WAIT - Millis(100));
    assert_eq!(walk.said("ask.all-right"), 0);
    walk.wait(Millis(100));
    assert_eq!(walk.said("ask.all-right"), 1);
    walk.wait(REPEAT_WAIT);
    assert_eq!(walk.said("ask.all-right"), 2);
    walk.wait(REPEAT_WAIT - Millis(100));
    assert_eq!((walk.said("fall.guidance"), walk.ends().len()), (0, 0));
    walk.wait(Millis(100));
    assert_eq!(walk.said("fall.guidance"), 1);
    assert_eq!(walk.ends(), [SessionEnd::NotAnswered]);
    let Body::Page { items, .. } = walk.body() else { panic!("{:?}", walk.body()) };
    assert_eq!(items, ["Your emergency number: 112"]);
}

#[test]
fn the_key_that_says_i_am_all_right_answers_nothing_else() {
    let mut walk = Walk::new(None);
    walk.walk_to_the_counter();
    walk.wait(ANSWER_WAIT).keys(".");
    assert!(matches!(walk.body(), Body::Page { .. }), "still how to stand");
    walk.keys(".");
    assert!(matches!(walk.body(), Body::Count { .. }));
}

#[test]
fn a_sound_check_that_nobody_answers_is_a_question_like_any_other() {
    let mut walk = Walk::new(Some("a device"));
    walk.walk_to_the_counter();
    assert!(matches!(walk.body(), Body::Question { .. }));
    walk.wait(ANSWER_WAIT);
    assert_eq!(walk.said("ask.all-right"), 1);
    walk.keys("1");
    let checks = |walk: &Walk| {
        let entries = walk.entries();
        entries
            .iter()
            .filter(
                |entry| matches!(entry, Entry::Answered(row) if matches!(row.answer, Answer::SoundCheck(_))),
            )
            .count()
    };
    assert_eq!(checks(&walk), 0, "the key said only that somebody is there");
    walk.wait(ANSWER_WAIT + REPEAT_WAIT + REPEAT_WAIT);
    assert_eq!((walk.said("fall.guidance"), walk.ends()), (1, vec![SessionEnd::NotAnswered]));
}

#[test]
fn a_pause_keeps_the_time_draws_the_next_gap_afresh_and_ends_after_five_minutes() {
    let mut walk = Walk::new(None);
    walk.walk_to_the_counter();
    walk.keys(".").wait(Millis(5_000 + 20_000)).keys("x");
    let Body::Paused { left, .. } = walk.body() else { panic!("{:?}", walk.body()) };
    assert_eq!(left, Millis(40_000));
    let before = walk.plan();
    walk.keys("x");
    assert!(matches!(walk.body(), Body::Paused { .. }), "a key that bounces does not go on");
    walk.wait(Millis(1_000)).keys("x");
    assert!(matches!(walk.body(), Body::Count { .. }), "a count again, before the work goes on");
    let after = walk.plan();
    let called = before.cues().iter().filter(|cue| cue.at() <= Millis(20_000)).count();
    assert_eq!(after.cues()[..called], before.cues()[..called]);
    if let Some(next) = after.cues().get(called) {
        assert!(next.at() >= Millis(20_000 + 5_000), "never sooner than the shortest gap after the pause");
    }
    walk.wait(Millis(6_000)).keys("x").wait(Millis(299_000));
    assert!(matches!(walk.body(), Body::Paused { .. }), "not yet");
    walk.wait(Millis(1_000));
    assert_eq!(walk.set_ends(), [(1, SetEnd::PausedTooLong)]);
}

#[test]
fn a_grab_ends_the_session_and_only_a_fall_and_unwell_are_still_asked() {
    let mut walk = Walk::new(None);
    walk.walk_to_the_counter();
    walk.keys(".").wait(Millis(65_100)).keys("y");
    assert_eq!(walk.asks(), "Did you fall?");
    walk.keys("n");
    assert_eq!(walk.asks(), "Do you feel unwell?");
    walk.keys("n");
    assert_eq!(walk.ends(), [SessionEnd::Grabbed]);
}

/// A person alone can say "I fell" wherever the practice stops: in a set, in the rest, in the warm-up and in the cool-down,
/// after a near fall, and after an interruption.
#[test]
fn whether_a_person_alone_fell_is_asked_at_every_stop_near_fall_and_interruption() {
    type To = fn(&mut Walk);
    let places: [(&str, To); 7] = [
        ("the warm-up", |walk| _ = walk.keys("\n\nnnnnnnnnnys")),
        ("getting ready", |walk| _ = walk.walk_to_the_counter().keys("s")),
        ("the work", |walk| _ = walk.walk_to_the_counter().keys(".").wait(Millis(12_000)).keys("\u{1b}")),
        ("a pause", |walk| _ = walk.walk_to_the_counter().keys(".").wait(Millis(12_000)).keys(".s")),
        ("the rest", |walk| {
            walk.walk_to_the_counter().keys(".").wait(Millis(65_100)).keys("n021n").keys("s");
        }),
        ("a near fall", |walk| _ = walk.walk_to_the_counter().keys(".").wait(Millis(65_100)).keys("y")),
        ("an interruption", |walk| {
            walk.walk_to_the_counter().keys(".").wait(Millis(12_000));
            walk.on(Event::Tick { gap: Millis(2_001) });
        }),
    ];
    for (place, to) in places {
        let asked = || {
            let mut walk = Walk::new(None);
            to(&mut walk);
            assert_eq!(walk.asks(), "Did you fall?", "{place}");
            walk
        };
        for (keys, fell) in [("y", 1), ("u", 2)] {
            let mut walk = asked();
            walk.keys(keys);
            assert_eq!((walk.asks().as_str(), walk.said("fall.guidance")), ("Are you hurt?", 1), "{place}");
            walk.keys("n");
            assert_eq!(walk.asks(), "Did you hit your head?", "{place}");
            walk.keys("u");
            assert_eq!(walk.ends(), [SessionEnd::Fell], "{place}");
            assert_eq!(walk.numbers(Question::Fell), [Some(fell)], "{place}");
            assert_eq!(walk.numbers(Question::FallHurt), [Some(0)], "{place}");
            assert_eq!(walk.numbers(Question::Head), [Some(2)], "{place}");
        }
        for (key, kept) in [("n", Some(0)), ("\n", None)] {
            let mut walk = asked();
            walk.keys(key);
            assert_eq!((walk.ends(), walk.numbers(Question::Fell)), (vec![], vec![kept]), "{place}");
            let next = match place {
                "a near fall" => "Do you feel unwell?",
                "an interruption" => "Did you have to grab hold, or nearly fall?",
                _ => "Why did you stop?",
            };
            assert_eq!(walk.asks(), next, "{place}");
        }
        let mut left = asked();
        left.wait(ANSWER_WAIT + REPEAT_WAIT + REPEAT_WAIT);
        assert_eq!(left.ends(), [SessionEnd::NotAnswered], "{place}");
        let mut fallen = asked();
        fallen.keys("y").on(Event::Close);
        assert_eq!(fallen.ends(), [SessionEnd::Fell], "{place}: a terminal that is closed then too");
    }
    // It is not asked twice of one set, and it is asked again of the rest after it.
    let mut walk = Walk::new(None);
    walk.walk_to_the_counter().keys(".").wait(Millis(65_100)).keys("yns");
    assert_eq!(walk.asks(), "Why did you stop?");
}

#[test]
fn feeling_unwell_ends_the_session_with_what_to_do() {
    let mut walk = Walk::new(None);
    walk.walk_to_the_counter();
    walk.keys(".").wait(Millis(65_100)).keys("n021y");
    assert_eq!(
        (walk.ends().len(), walk.said("end.unwell")),
        (0, 1),
        "what to do is said before anything is asked"
    );
    walk.keys("6");
    assert_eq!(walk.ends(), [SessionEnd::Unwell]);
}

#[test]
fn what_feels_wrong_is_asked_by_one_key_and_the_signs_of_heart_and_stroke_say_call_now() {
    for (key, title, kept) in [
        ('1', "CALL 112", Some(1)),
        ('2', "CALL 112", Some(2)),
        ('3', "CALL 112", Some(3)),
        ('4', "Sit or lie down now", Some(4)),
        ('5', "Sit down now", Some(5)),
        ('6', "Sit down now", Some(6)),
        ('\n', "Sit down now", None),
        ('s', "Sit down now", None),
        ('\u{1b}', "Sit down now", None),
    ] {
        let mut walk = Walk::new(None);
        walk.walk_to_the_counter();
        walk.keys(".").wait(Millis(12_000)).keys("sn1");
        let Body::Question { ask, .. } = walk.body() else { panic!("{:?}", walk.body()) };
        assert_eq!(ask, "Sit down now. What feels wrong?");
        walk.keys(&key.to_string());
        let shown = match walk.body() {
            Body::Emergency { number, .. } => format!("CALL {}", number.unwrap()),
            Body::Page { title, items, .. } => {
                assert_eq!(items, ["Your emergency number: 112"]);
                title
            }
            other => panic!("{key:?}: {other:?}"),
        };
        assert_eq!((shown.as_str(), walk.ends()), (title, vec![SessionEnd::Unwell]), "{key:?}");
        let answered = |entry: &Entry| match entry {
            Entry::Answered(AnswerRow { answer: Answer::Symptom(symptom), .. }) => {
                Some(symptom.map(Symptom::number))
            }
            _ => None,
        };
        assert_eq!(walk.entries().into_iter().find_map(answered), Some(kept), "{key:?}");
    }
    // A terminal that is closed then is no practice that may be finished.
    let mut walk = Walk::new(None);
    walk.walk_to_the_counter();
    walk.keys(".").wait(Millis(12_000)).keys("sn1");
    walk.on(Event::Close);
    assert_eq!(walk.ends(), [SessionEnd::Unwell]);
}

#[test]
fn any_reason_to_see_a_clinician_or_to_wait_ends_it_before_it_begins() {
    // Illness is the fourth of the page about the body, the counter the first of the room.
    for keys in [
        "\n\ny",
        "\n\nu",
        "\n\nny",
        "\n\nnu",
        "\n\nnnnnnnnnynnnynnn",
        "\n\nnnnnnnnnunnnunnn",
        "\n\nnnnnnnnnnnnyyyyyyyyyy",
        "\n\nnnnnnnnnnuuyyyyyyyyyy",
    ] {
        let mut walk = Walk::new(None);
        walk.keys(keys);
        assert_eq!(walk.ends(), [SessionEnd::NotToday], "{keys:?}");
        walk.keys(".");
        assert_eq!(walk.effects.last(), Some(&Effect::Leave));
    }
}

#[test]
fn a_stop_asks_why_and_something_else_counts_against_nobody() {
    for (why, end) in
        [("16", SessionEnd::Unwell), ("2", SessionEnd::StoppedUnsteady), ("3", SessionEnd::StoppedOther)]
    {
        for stop in ['s', '\u{1b}'] {
            let mut walk = Walk::new(None);
            walk.walk_to_the_counter();
            walk.keys(".").wait(Millis(12_000)).keys(&format!("{stop}n{why}"));
            assert_eq!((walk.set_ends(), walk.ends()), (vec![(1, SetEnd::Stopped)], vec![end]));
        }
    }
}

#[test]
fn the_sound_check_takes_only_the_word_that_was_said() {
    let mut walk = Walk::new(Some("a device"));
    walk.walk_to_the_counter();
    let right = walk.session().whole.schedule.check_word(4);
    walk.keys(&((right + 1) % 4 + 1).to_string());
    assert!(matches!(walk.body(), Body::Question { .. }), "another word is said");
    walk.keys(&((right + 1) % 4 + 1).to_string());
    assert!(matches!(walk.body(), Body::Page { .. }), "the second word is another one");
    let answers =
        [Heard::Another, Heard::TheWord].map(|heard| Entry::answered(None, Answer::SoundCheck(Some(heard))));
    assert!(answers.iter().all(|answer| walk.entries().contains(&answer)));
}

/// What is counted by ear is what the screen takes for right, at every try.
#[test]
fn in_tones_the_sound_check_is_counted() {
    let (mut walk, mut counts) = (Walk::spoken_by("tones", Some("a device")), Vec::new());
    walk.walk_to_the_counter();
    for _ in 0..4 {
        let Body::Question { ask, .. } = walk.body() else { panic!("{:?}", walk.body()) };
        assert!(ask.contains("How many double tones"), "{ask}");
        let since = walk.effects.iter().rposition(|effect| *effect == Effect::Hush).unwrap();
        let said = &walk.effects[since + 1..];
        assert!(said.iter().all(|effect| *effect == said[0]), "nothing else sounds that would be counted");
        counts.push(said.len());
        walk.keys("r");
    }
    let right = counts[0];
    counts.sort_unstable();
    assert_eq!(counts, [1, 2, 3, 4]);
    walk.effects.clear();
    walk.keys(&(right % 4 + 1).to_string());
    assert!(
        matches!(walk.body(), Body::Question { .. }),
        "after four the first comes again, and this is not it"
    );
    walk.keys(&(right % 4 + 1).to_string());
    assert!(matches!(walk.body(), Body::Page { .. }));
    let tones = walk.effects.iter().filter(|effect| matches!(effect, Effect::Say(_))).count();
    assert_eq!(tones, right % 4 + 1 + 1, "the check, and one that says: press a key");
}

#[test]
fn sound_lost_in_a_set_ends_it_and_the_next_one_waits_for_sound_or_for_consent() {
    let mut walk = Walk::new(Some("a device"));
    walk.walk_to_the_counter();
    walk.past_the_check().keys(".").wait(Millis(15_000));
    let effects = walk.on(Event::SoundLost);
    assert_eq!(effects[0], Effect::Hush);
    assert_eq!(walk.set_ends(), [(1, SetEnd::SoundLost)]);
    walk.keys("n021n").wait(Millis(60_100)).keys("..");
    assert!(matches!(walk.body(), Body::Page { .. }), "no set without sound that nobody agreed to");
    walk.keys("g.");
    assert!(matches!(walk.body(), Body::Count { .. }));
    assert!(walk.session.as_ref().unwrap().is_silent());
}

/// A sound server that stalls again and again.
#[test]
fn a_sound_that_comes_and_goes_gives_one_notice_after_a_set_and_none_is_counted_too_often() {
    let mut walk = Walk::new(Some("a device"));
    walk.walk_to_the_counter();
    walk.past_the_check().keys(".").wait(Millis(15_000));
    for _ in 0..70_000 {
        walk.session = walk.session.take().map(|session| {
            let now = Now { at: walk.at, wall: wall() };
            session.on(&now, Event::SoundDisturbed(Disturbance::Stuttered)).0
        });
    }
    let _ = walk.on(Event::SoundLost);
    let said = |effects: &[Effect]| effects.iter().filter(|effect| matches!(effect, Effect::Say(_))).count();
    let first = walk.on(Event::SoundBack);
    assert!(said(&first) > 0, "{first:?}");
    for _ in 0..5 {
        let _ = walk.on(Event::SoundLost);
        let again = walk.on(Event::SoundBack);
        assert_eq!(said(&again), 0, "{again:?}");
    }
    let notices = walk.session.as_ref().unwrap().screen(walk.at).notices;
    assert_eq!(notices.iter().filter(|one| one.starts_with("The sound")).count(), 2, "{notices:?}");
}

/// What happened in the gap nobody knows: only the work until the tick before it was watched, and only the calls in it.
#[test]
fn more_than_two_seconds_between_two_ticks_end_a_set_as_interrupted_with_the_work_until_then() {
    let gap = |gap| Event::Tick { gap: Millis(gap) };
    let begun = |device| {
        let mut walk = Walk::new(device);
        walk.walk_to_the_counter();
        if device.is_some() { walk.past_the_check() } else { &mut walk }.keys(".").wait(Millis(15_000));
        walk
    };
    let mut walk = begun(None);
    walk.at = walk.at + Millis(2_000);
    walk.on(gap(2_000));
    assert!(matches!(walk.body(), Body::Work { .. }), "exactly two seconds");
    let shown = |walk: &Walk| {
        walk.entries().iter().filter(|entry| matches!(entry, Entry::CueDelivered { .. })).count()
    };
    let before = shown(&walk);
    walk.at = walk.at + Millis(40_000);
    let effects = walk.on(gap(40_000));
    assert_eq!(effects[0], Effect::Hush, "what sounds stops at once");
    assert_eq!(shown(&walk), before, "nothing of what nobody saw was shown");
    let ended = walk.entries().into_iter().find_map(|entry| match entry {
        Entry::SetEnded { set, end } => Some((*set, end.why, end.worked_ms)),
        _ => None,
    });
    assert_eq!(ended, Some((1, SetEnd::Halted, 12_000)));
    assert_eq!(SetEnd::Halted.name(), "interrupted: the computer slept or stopped");
    let notices = walk.session().screen(walk.at).notices;
    assert!(notices.iter().any(|one| one == "The computer slept or stopped, so the set has ended."));

    // A computer that sleeps may stop the session's own clock as well.
    let mut asleep = begun(Some("a device"));
    asleep.on(gap(3_600_000));
    assert_eq!(asleep.set_ends(), [(1, SetEnd::Halted)]);
    // In the count, and in a pause, the set has begun too.
    let mut counting = Walk::new(None);
    counting.walk_to_the_counter().keys(".").on(gap(2_001));
    assert_eq!(counting.set_ends(), [(1, SetEnd::Halted)]);
    let mut paused = begun(None);
    paused.keys(".").on(gap(2_001));
    assert_eq!(paused.set_ends(), [(1, SetEnd::Halted)]);
    // Before the first set, nothing has to end.
    let mut before = Walk::new(None);
    before.walk_to_the_counter().on(gap(60_000));
    assert_eq!(before.set_ends(), []);
    assert_eq!(before.ends(), []);
}

#[test]
fn sound_that_falters_in_a_set_is_kept_and_said_after_it() {
    let notice = |walk: &Walk| {
        let notices = walk.session.as_ref().unwrap().screen(walk.at).notices;
        notices.iter().any(|notice| notice.starts_with("The sound faltered"))
    };
    let mut walk = Walk::new(Some("a device"));
    walk.walk_to_the_counter();
    assert_eq!(walk.on(Event::SoundDisturbed(Disturbance::Stuttered)), [], "nothing is called yet");
    walk.past_the_check().keys(".").wait(Millis(15_000));
    let effects = walk.on(Event::SoundDisturbed(Disturbance::Stuttered));
    let kept = Entry::disturbed(1, Millis(10_000), Disturbance::Stuttered);
    assert_eq!(effects, [Effect::Record(kept)]);
    assert!(matches!(walk.body(), Body::Work { .. }), "the set goes on");
    assert!(!notice(&walk), "nothing to read while a call may come");
    walk.wait(Millis(60_000));
    assert!(matches!(walk.body(), Body::Question { .. }) && notice(&walk));
    walk.keys("n021n").wait(Millis(60_100)).keys("..");
    assert!(!notice(&walk), "the next set is another one");
}

#[test]
fn heard_is_kept_as_the_renderer_reports_it() {
    let mut walk = Walk::new(Some("a device"));
    walk.walk_to_the_counter();
    walk.past_the_check().keys(".").wait(Millis(15_000));
    walk.on(Event::Heard { cue: 0, wanted: 48_000, began: 48_007, rate: 48_000 });
    let delivered = walk.entries().into_iter().filter_map(|entry| match entry {
        Entry::CueDelivered { how, .. } => Some(how.clone()),
        _ => None,
    });
    let delivered: Vec<_> = delivered.collect();
    assert_eq!(delivered.len(), 1, "nothing is kept as heard because it was planned");
    let how = Delivery::Heard { wanted: 48_000, began: 48_007, rate: 48_000 };
    assert_eq!(delivered[0], DeliveryRow::new(0, how));
}

#[test]
fn closing_keeps_what_was_done() {
    let mut walk = Walk::new(None);
    walk.walk_to_the_counter();
    walk.keys(".").wait(Millis(20_000));
    walk.on(Event::Close);
    assert_eq!((walk.set_ends(), walk.ends()), (vec![(1, SetEnd::Closed)], vec![SessionEnd::Closed]));
    assert_eq!(walk.effects.last(), Some(&Effect::Leave));
}

#[test]
fn every_phrase_that_is_named_in_the_session_exists() {
    let files = [
        include_str!("../session.rs"),
        include_str!("after_set.rs"),
        include_str!("mishap.rs"),
        include_str!("opening.rs"),
        include_str!("questions.rs"),
        include_str!("response_questions.rs"),
        include_str!("routines.rs"),
        include_str!("set.rs"),
        include_str!("sound_check.rs"),
        include_str!("patience.rs"),
    ];
    let mut named = 0;
    for word in files.iter().flat_map(|file| file.split('"')) {
        let group = word.split('.').next().unwrap_or_default();
        let groups = [
            "count", "check", "practice", "set", "rest", "pause", "end", "ask", "fall", "partner", "left-out",
        ];
        let is_id =
            word.contains('.') && word.chars().all(|c| c.is_ascii_lowercase() || "-.0123456789".contains(c));
        if groups.contains(&group) && is_id && !word.ends_with('.') {
            assert!(Phrase::named(word).is_some(), "{word}");
            named += 1;
        }
    }
    assert!(named > 30, "{named}");
    assert!((1..=10).all(|set| Phrase::named(&format!("set.{set}")).is_some()));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, ..ProptestConfig::default() })]

    /// Whatever keys come, whenever they come: no cue stands on the screen before its time or after a hush, a set
    /// that has begun ends exactly once, a session ends at most once, and nothing is done after the end.
    #[test]
    fn no_course_of_events_breaks_a_promise(
        steps in prop::collection::vec((prop::sample::select(vec!['\n', 'u', 's', 'y', 'n', 'n', '0', '1', '2', '6', '.', 'g']), 0_u32..40_000), 1..60),
        silent in any::<bool>(),
        start in any::<bool>(),
    ) {
        let mut walk = Walk::new((!silent).then_some("a device"));
        if start {
            walk.walk_to_the_counter();
        }
        for (key, wait) in steps {
            if walk.effects.contains(&Effect::Leave) {
                break;
            }
            let until = walk.at + Millis(wait);
            while walk.at < until {
                walk.at = (walk.at + Millis(250)).min(until);
                walk.on(Event::Tick { gap: Millis(100) });
                if let Body::Work { call: Some(call), left, whole } = walk.body() {
                    let elapsed = whole - left;
                    let plan = walk.plan();
                    let cue = &plan.cues()[usize::from(call.cue)];
                    prop_assert!(cue.at() <= elapsed && elapsed - cue.at() < Millis(3_000));
                }
            }
            walk.keys(&key.to_string());
        }
        let begun = walk.entries().into_iter().filter(|entry| matches!(entry, Entry::SetBegun { .. })).count();
        walk.on(Event::Close);
        prop_assert_eq!(walk.set_ends().len(), begun);
        prop_assert!(walk.ends().len() <= 1);
        let end = walk.entries().into_iter().position(|entry| matches!(entry, Entry::SessionEnded { .. }));
        prop_assert!(end.is_none_or(|end| end + 1 == walk.entries().len()));
    }
}

#[test]
fn precautions_are_said_and_shown_and_leave_out_what_they_rule_out() {
    let precautions = Precautions::of(&[Precaution::LeftArmDown, Precaution::NoLeftWeight]);
    let within = Prescription::ready("gentle").unwrap().within(precautions);
    let walk_to_the_check = |prescription: &Prescription| {
        let mut walk = Walk::over(prescription, "lower", |session| session);
        walk.on(Event::Sound { device: Some("a device".to_owned()) });
        walk.walk_to_the_counter().keys("g");
        walk
    };
    let mut free = walk_to_the_check(Prescription::ready("gentle").unwrap());
    free.wait(Millis(180_100));
    assert_eq!(
        (free.said("warm-up.march"), free.said("warm-up.shoulders"), free.said("warm-up.toes")),
        (1, 1, 1)
    );
    assert_eq!(free.said("precaution.left-arm"), 0);

    let mut walk = walk_to_the_check(&within);
    walk.wait(Millis(80_000));
    for left_out in ["warm-up.march", "warm-up.shoulders", "warm-up.sway", "warm-up.hips"] {
        assert_eq!(walk.said(left_out), 0, "{left_out}");
    }
    for left in ["warm-up.begin", "warm-up.toes", "warm-up.knees", "warm-up.end"] {
        assert_eq!(walk.said(left), 1, "{left}");
    }
    let shown = |walk: &Walk| {
        let Body::Page { title, text, items } = walk.body() else { panic!("{:?}", walk.body()) };
        assert_eq!(title, "How to stand");
        (text.join(" "), items.join(" "))
    };
    let never = "Your precautions: no weight on the left leg alone; left arm stays down.";
    assert!(
        shown(&walk).0.contains(never) && shown(&walk).1.contains("Your hands and feet stay where they are.")
    );
    assert_eq!((walk.said("precaution.left-arm"), walk.said("precaution.left-weight")), (1, 1));
    assert_eq!((walk.said("precaution.right-arm"), walk.said("moves.nothing")), (0, 1));
    walk.keys(".").wait(Millis(65_100)).keys("n021n").wait(Millis(60_100)).keys(".");
    let (text, items) = shown(&walk);
    assert!(
        text.contains(never) && items.contains("Only your right hand moves. Your left hand rests."),
        "{items}"
    );
    assert_eq!((walk.said("moves.right-hand"), walk.said("precaution.left-arm")), (1, 1));
    assert!(Session::phrases(&walk.session().whole.schedule).contains(&Precaution::LeftArmDown.phrase()));
    walk.keys(".").wait(Millis(65_100)).keys("n021n").wait(Millis(60_100)).keys(".");
    walk.keys(".").wait(Millis(65_100)).keys("n021n");
    assert_eq!(walk.said("cool-down.begin"), 1);
    walk.wait(Millis(120_000));
    assert_eq!(
        (walk.said("cool-down.calves"), walk.said("cool-down.sit"), walk.said("cool-down.end")),
        (0, 1, 1)
    );
}
