//! The course of a session with a partner: pages, channels, pushes, what is noted of them, grabs, falls, refusals, and
//! that what lasts is closed however it is broken off.

use proptest::prelude::*;

use super::super::opening::Page;
use super::super::screen::{Body, Item, Moment};
use super::super::set::SetPhase;
use super::super::{ANSWER_WAIT, Channel, Effect, Event, LONGEST_PAUSE, Preparation, REPEAT_WAIT};
use super::Walk;
use crate::draw::schedule::Cue;
use crate::plan::direction::Direction;
use crate::plan::drill::{Facing, Strength};
use crate::plan::place::{Place, Room};
use crate::plan::prescription::Prescription;
use crate::record::{
    Advice, AdviceRow, Answer, Delivery, Entry, LeftOut, LeftOutRow, Mishap, MishapRow, Response, RoutineEnd,
    RoutinePart, SessionEnd, SetEnd, SetEndRow, YesNoNotSure,
};
use crate::units::Millis;

const ROOM: Room = Room { left: Some(Place::Window), right: Some(Place::Door), behind: Some(Place::Table) };

pub(super) const PUSHES: &str = r#"
schema = "counterpoise.prescription/1"
title = "Pushes"
issued_on = 2026-11-02
days_a_week = 3
weeks = 12
review_after_sessions = 12

[[drills]]
drill = "pushes"
form = "partner"
sets = 3
work_ms = 110000
gap_ms = [15000, 30000]
blank_per_mille = 200
directions = ["left", "right", "forward"]
strength = [1, 2]

[[unlocks]]
name = "pushes"
watched_by = "therapist"
partner = "Kim"
on = 2026-11-02
"#;

/// Called changes with spells of closed eyes, and quick steps that a partner watches.
const EYES: &str = r#"
schema = "counterpoise.prescription/1"
title = "Eyes closed"
issued_on = 2026-11-02
days_a_week = 3
weeks = 12
review_after_sessions = 12

[[drills]]
drill = "called-changes"
form = "alone"
sets = 1
work_ms = 100000
gap_ms = [9000, 16000]
directions = ["eyes closed", "lean left", "lean right"]

[[drills]]
drill = "quick-steps"
form = "partner"
sets = 1
work_ms = 60000
gap_ms = [9000, 16000]
directions = ["forward", "left", "right"]

[[unlocks]]
name = "eyes-closed"
watched_by = "therapist"
on = 2026-11-02
"#;

fn walk(text: &str, channel: Channel, device: Option<&str>, room: Option<Room>) -> Walk {
    let prescription = Prescription::read("test.toml", text.as_bytes()).unwrap();
    let mut walk = Walk::over(&prescription, "lower", |session| session.with_partner(channel, room));
    walk.on(Event::Sound { device: device.map(str::to_owned) });
    walk
}

impl Walk {
    /// To the first page for the partner.
    fn walk_to_the_partner(&mut self) -> &mut Self {
        self.keys("\n");
        while matches!(self.page(), Some(Page::Cautions { .. })) {
            self.keys("\n");
        }
        self.keys("nnnnnnnnny");
        while matches!(self.page(), Some(Page::InPlace)) {
            self.keys("y");
        }
        self
    }

    /// Past the pages and, if there is sound, the check, to how to stand for the set `number`, whose key is not pressed.
    pub(super) fn walk_to_set(&mut self, number: u8) -> &mut Self {
        self.walk_to_the_partner();
        while matches!(self.page(), Some(Page::Partner { .. })) {
            self.keys("\ny");
        }
        if matches!(self.page(), Some(Page::Check { .. })) {
            let right = self.session().whole.schedule.check_word(4) + 1;
            self.keys(&right.to_string());
        }
        self.keys(".y");
        // The warm-up set, alone.
        for _ in 1..number {
            self.keys(".").wait(Millis(65_100)).keys("n021n").wait(Millis(60_100)).keys(".");
        }
        self
    }

    fn pushes(&self) -> Vec<(u16, Cue)> {
        let plan = self.plan();
        let cues = (0..).zip(plan.cues().to_vec());
        cues.filter(|(_, cue)| cue.call().is_some_and(|call| call.action().is_push())).collect()
    }

    /// Waits until the work has come this far.
    fn work_to(&mut self, at: Millis) -> &mut Self {
        for _ in 0..4_000 {
            if self.in_set().and_then(|here| here.worked(self.at)) >= Some(at) {
                break;
            }
            self.wait(Millis(50));
        }
        self
    }

    fn item(&self) -> Option<Item> {
        match self.body() {
            Body::Partner { item, .. } => item,
            body => panic!("{body:?}"),
        }
    }

    fn kept(&self, is: impl Fn(&Entry) -> bool) -> usize {
        self.entries().into_iter().filter(|entry| is(entry)).count()
    }

    fn responses(&self) -> Vec<(u8, u16, Option<Response>)> {
        let responses = self.entries().into_iter().filter_map(|entry| match entry {
            Entry::Responded { set, response } => Some((*set, response.cue, response.response)),
            _ => None,
        });
        responses.collect()
    }
}

fn pushes() -> Walk {
    walk(PUSHES, Channel::PartnerScreen, Some("a device"), Some(ROOM))
}

#[test]
fn before_the_first_set_the_partner_reads_where_hands_go_and_says_who_it_is() {
    let mut walk = pushes();
    walk.walk_to_the_partner();
    let Body::Page { title, items, .. } = walk.body() else { panic!("{:?}", walk.body()) };
    assert_eq!(title, "For the partner: hands");
    for word in [
        "hip",
        "shoulder blade",
        "press, and let go",
        "neck",
        "chest",
        "head",
        "pull on the arm",
        "Do not catch",
    ] {
        assert!(items.iter().any(|item| item.contains(word)), "{word}");
    }
    walk.keys("\n");
    let Body::Page { title, items, .. } = walk.body() else { panic!("{:?}", walk.body()) };
    assert_eq!((title.as_str(), items.len()), ("For the partner: Unannounced pushes", 4));
    walk.keys("\n");
    let Body::Page { items, .. } = walk.body() else { panic!("{:?}", walk.body()) };
    assert!(items.iter().any(|item| item.contains("watched: Kim.")), "{items:?}");
    walk.keys("n");
    let no = Entry::answered(None, Answer::PartnerReady(Some(YesNoNotSure::No)));
    assert_eq!((walk.kept(|entry| *entry == no), walk.ends()), (1, vec![SessionEnd::NotToday]));
}

#[test]
fn what_is_on_each_side_is_asked_once_by_one_key_each_and_kept() {
    let mut asked = walk(PUSHES, Channel::PartnerScreen, None, None);
    asked.walk_to_the_partner().keys("\n\ny");
    assert!(asked.asks().contains("on your left"));
    asked.keys("1");
    assert!(asked.asks().contains("on your right"));
    asked.keys("x2");
    assert!(asked.asks().contains("behind you"));
    asked.keys("0");
    let room = Room { left: Some(Place::Window), right: Some(Place::Door), behind: None };
    assert!(asked.effects.contains(&Effect::KeepRoom(room)));
    assert_eq!(asked.session().whole.room(), room);

    let mut skipped = walk(PUSHES, Channel::PartnerScreen, None, None);
    skipped.walk_to_the_partner().keys("\n\ny1\n");
    assert!(!skipped.effects.iter().any(|effect| matches!(effect, Effect::KeepRoom(_))));
    assert!(matches!(skipped.body(), Body::Page { .. }), "the warm-up: {:?}", skipped.body());
}

#[test]
fn the_partner_reads_what_to_do_from_its_lead_on_and_looks_up_two_seconds_before() {
    let mut walk = pushes();
    walk.walk_to_set(2).keys(".");
    let (place, cue) = walk.pushes()[0].clone();
    let call = cue.call().unwrap().clone();
    walk.work_to(cue.at() - call.lead() - Millis(200));
    assert_eq!(walk.item(), None, "HOLD until the lead");
    walk.work_to(cue.at() - call.lead() + Millis(100));
    let item = walk.item().unwrap();
    assert_eq!((item.words.as_str(), item.cue, item.practice), ("PUSH", place, true));
    assert_eq!(item.strength.as_deref(), Some("barely"));
    let (toward, hand) = match item.direction {
        Direction::Left => ("toward the counter", "hand on the right hip"),
        Direction::Right => ("toward the table", "hand on the left hip"),
        _ => ("toward the door", "hand on a shoulder blade"),
    };
    assert_eq!(walk.plan().facing().name(), "counter at the left");
    assert_eq!((item.toward.as_deref(), item.hand.as_deref()), (Some(toward), Some(hand)));
    assert_eq!(item.moment, Moment::In(call.lead().0.div_ceil(1_000) as u8));
    walk.work_to(cue.at() - Millis(2_000));
    assert_eq!(walk.item().unwrap().moment, Moment::LookUp);
    walk.work_to(cue.at());
    assert_eq!(walk.item().unwrap().moment, Moment::Now);
    walk.work_to(cue.at() + Millis(2_000));
    assert_eq!(walk.item(), None);
    let asked = walk.entries().into_iter().find_map(|entry| match entry {
        Entry::CueDelivered { set: 2, how } => Some(how.clone()),
        _ => None,
    });
    let asked = asked.unwrap();
    let at = Millis(asked.asked_ms.unwrap());
    assert!(asked.cue == place && at >= cue.at() && at - cue.at() < Millis(200), "{asked:?}");
}

/// Nothing audible goes before a push, and with an earbud nothing of it stands on the screen.
#[test]
fn the_trainee_learns_nothing_of_a_push() {
    for (channel, device) in
        [(Channel::PartnerScreen, Some("a device")), (Channel::PartnerEarbud, Some("a device"))]
    {
        let mut walk = walk(PUSHES, channel, device, Some(ROOM));
        walk.walk_to_set(2).keys(".").wait(Millis(6_000));
        let begun = walk.effects.len();
        let Some(Effect::Begin { cues, channel: begins, room, .. }) =
            walk.effects.iter().rev().find(|effect| matches!(effect, Effect::Begin { .. }))
        else {
            panic!("it has begun")
        };
        assert_eq!((*begins, *room), (channel, ROOM));
        assert!(cues.iter().filter_map(|(_, cue)| cue.call()).all(|call| call.say().is_empty()));
        let last = walk.pushes().last().unwrap().1.at() + Millis(3_000);
        while walk.at < last {
            walk.wait(Millis(250));
            match walk.body() {
                Body::Partner { .. } => assert_eq!(channel, Channel::PartnerScreen),
                Body::Work { call: None, .. } => assert_eq!(channel, Channel::PartnerEarbud),
                body => panic!("{body:?}"),
            }
        }
        assert!(
            !walk.effects[begun..]
                .iter()
                .any(|effect| matches!(effect, Effect::Say(_) | Effect::Begin { .. }))
        );
    }
}

#[test]
fn an_earbud_that_said_now_is_kept_as_asked_and_without_sound_the_screen_stands_in() {
    let mut earbud = walk(PUSHES, Channel::PartnerEarbud, Some("an earbud"), Some(ROOM));
    earbud.walk_to_set(2).keys(".");
    let (place, cue) = earbud.pushes()[0].clone();
    earbud.work_to(cue.at() + Millis(100));
    let of_set_two = |entry: &Entry| matches!(entry, Entry::CueDelivered { set: 2, .. });
    assert_eq!(earbud.kept(of_set_two), 0, "only what was heard to its end");
    let frames = u64::from(cue.at().0) * 48;
    earbud.on(Event::Heard { cue: place, wanted: frames, began: frames + 48, rate: 48_000 });
    let asked = Entry::delivered(2, place, Delivery::Asked { at: cue.at() + Millis(1) });
    assert_eq!(earbud.kept(|entry| *entry == asked), 1);

    let mut silent = walk(PUSHES, Channel::PartnerEarbud, None, Some(ROOM));
    silent.walk_to_set(2).keys(".").wait(Millis(6_000));
    assert_eq!(silent.item(), None);
    let notices = silent.session().screen(silent.at).notices;
    assert!(notices.iter().any(|notice| notice.contains("turn it away from the trainee")), "{notices:?}");
}

#[test]
fn after_a_set_the_partner_walks_through_its_pushes_one_key_each() {
    let mut walk = pushes();
    walk.walk_to_set(2).keys(".").wait(Millis(116_000));
    let places: Vec<u16> = walk.pushes().iter().map(|(place, _)| *place).collect();
    assert!((2..=6).contains(&places.len()));
    assert!(
        walk.asks().starts_with(&format!("Partner: push 1 of {}, toward the ", places.len())),
        "{}",
        walk.asks()
    );
    let keys = ["0", "1", "2", "3", "-", "\n"];
    for (key, _) in keys.iter().zip(&places) {
        walk.keys("9").keys(key);
    }
    let noted = [Response::InPlace, Response::OneStep, Response::MoreSteps, Response::Touched].map(Some);
    let noted = noted.into_iter().chain([None, None]);
    let expected: Vec<_> = places.iter().zip(noted).map(|(place, response)| (2, *place, response)).collect();
    assert_eq!(walk.responses(), expected);
    assert!(walk.asks().starts_with("Apart from the hand"), "the partner noted grabs: {}", walk.asks());
}

#[test]
fn the_first_grab_brings_a_rest_and_advice_and_the_second_ends_the_session() {
    let mut walk = pushes();
    walk.walk_to_set(2).keys(".");
    let (place, cue) = walk.pushes()[1].clone();
    walk.work_to(cue.at() + Millis(1_500)).keys("g");
    assert!(walk.asks().contains("grab"), "{}", walk.asks());
    assert_eq!(walk.set_ends().len(), 1, "asked once more before anything follows");
    walk.keys("n");
    assert!(matches!(walk.body(), Body::Paused { .. }), "the wrong key");
    assert_eq!(walk.kept(|entry| matches!(entry, Entry::Mishap(_))), 0);
    walk.keys("gy");
    assert_eq!(walk.asks(), "Did you fall?");
    walk.keys("n");
    assert_eq!(walk.set_ends().last(), Some(&(2, SetEnd::Grabbed)));
    let kept = |entry: &Entry| matches!(entry, Entry::Mishap(MishapRow { set: 2, what: Mishap::Grab, cue: Some(cue), .. }) if *cue == place);
    assert_eq!(walk.kept(kept), 1);
    assert_eq!(walk.responses(), [(2, place, Some(Response::Grabbed))]);
    let advice = Entry::Advised(AdviceRow { set: 2, advice: Advice::OneStepLower });
    assert_eq!((walk.kept(|entry| *entry == advice), walk.said("partner.step-lower")), (1, 1));
    assert!(walk.asks().starts_with("Partner: push 1 of 2"), "the grab is noted already: {}", walk.asks());
    walk.keys("1").keys("021n");
    assert!(matches!(walk.body(), Body::Rest { .. }), "a rest, and the session goes on");
    let notices = |walk: &Walk| walk.session().screen(walk.at).notices;
    assert!(notices(&walk).iter().any(|notice| notice.contains("gentler next time")), "{:?}", notices(&walk));

    walk.wait(Millis(60_100)).keys(".");
    assert_eq!(notices(&walk), Vec::<String>::new());
    walk.keys(".").wait(Millis(116_000));
    walk.keys("4");
    assert!(walk.asks().contains("grabbed or steadied"));
    walk.keys("n").keys("4y");
    assert_eq!(walk.asks(), "Did you fall?");
    walk.keys("n");
    assert!(walk.asks().contains("unwell"), "only that is still asked: {}", walk.asks());
    let pushes = walk.pushes().len();
    assert_eq!(
        walk.responses().iter().filter(|(set, ..)| *set == 3).count(),
        pushes,
        "the others are not noted"
    );
    walk.keys("n");
    assert_eq!(walk.ends(), [SessionEnd::Grabbed]);
}

#[test]
fn where_a_grab_was_in_the_last_28_days_the_first_one_today_ends_the_session() {
    let prescription = Prescription::read("test.toml", PUSHES.as_bytes()).unwrap();
    let mut walk = Walk::over(&prescription, "lower", |session| {
        let lately = Preparation { grab_lately: true, ..Preparation::default() };
        session.prepare(lately).with_partner(Channel::PartnerScreen, Some(ROOM))
    });
    walk.on(Event::Sound { device: None });
    walk.walk_to_set(2).keys(".");
    let (_, cue) = walk.pushes()[1].clone();
    walk.work_to(cue.at() + Millis(1_500)).keys("gy");
    assert!(walk.asks().contains("Did you fall"), "the end, with its questions: {}", walk.asks());
    walk.keys("n");
    assert!(walk.asks().contains("unwell"), "only that is still asked: {}", walk.asks());
    walk.keys("n");
    assert_eq!(walk.ends(), [SessionEnd::Grabbed]);
}

#[test]
fn a_fall_ends_the_session_with_the_guidance_whichever_key_tells_of_it() {
    for by_walk in [false, true] {
        let mut walk = pushes();
        walk.walk_to_set(2).keys(".");
        if by_walk {
            walk.wait(Millis(116_000)).keys("5");
        } else {
            let (_, cue) = walk.pushes()[0].clone();
            walk.work_to(cue.at() + Millis(1_000)).keys("F");
        }
        assert_eq!((walk.said("fall.guidance"), walk.ends().len()), (0, 0), "asked once more");
        walk.keys("xy");
        assert_eq!(walk.said("fall.guidance"), 1);
        assert_eq!(walk.asks(), "Are you hurt?", "that it was a fall is known");
        walk.keys("s");
        assert_eq!(walk.asks(), "Are you hurt?", "what decides what follows is answered first");
        walk.keys("y");
        assert_eq!(walk.asks(), "Did you hit your head?");
        walk.keys("sn");
        assert_eq!(walk.ends(), [SessionEnd::Fell]);
        let hurt = Entry::answered(Some(2), Answer::FallHurt(Some(YesNoNotSure::Yes)));
        assert_eq!(walk.kept(|entry| *entry == hurt), 1);
        assert!(walk.responses().iter().any(|(_, _, response)| *response == Some(Response::Fell)));
        let Body::Page { items, .. } = walk.body() else { panic!("{:?}", walk.body()) };
        assert_eq!(items, ["Your emergency number: 112"]);
    }
}

#[test]
fn a_fall_that_nobody_takes_back_is_kept_as_one() {
    let fallen = || {
        let mut walk = pushes();
        walk.walk_to_set(2).keys(".").wait(Millis(20_000)).keys("f");
        walk
    };
    let mut unanswered = fallen();
    unanswered.wait(ANSWER_WAIT + REPEAT_WAIT + REPEAT_WAIT);
    assert_eq!((unanswered.ends(), unanswered.said("fall.guidance")), (vec![SessionEnd::Fell], 1));
    let mut closed = fallen();
    closed.on(Event::Close);
    assert_eq!(closed.ends(), [SessionEnd::Fell]);
    let mut stopped = fallen();
    stopped.keys("snn");
    assert_eq!(stopped.ends(), [SessionEnd::Fell]);
    let mut lost = fallen();
    lost.on(Event::SoundLost);
    assert!(lost.asks().contains("fall"), "the answer comes first");
    for walk in [unanswered, closed, stopped] {
        assert_eq!(
            walk.kept(|entry| matches!(entry, Entry::Mishap(MishapRow { what: Mishap::Fall, .. }))),
            1
        );
        assert_eq!(walk.set_ends().len(), 2);
    }
}

#[test]
fn a_wrong_key_while_the_sound_went_ends_the_set_as_the_loss_would_have() {
    let mut walk = pushes();
    walk.walk_to_set(2).keys(".").wait(Millis(20_000)).keys("g");
    walk.on(Event::SoundLost);
    assert_eq!(walk.set_ends().len(), 1);
    walk.keys("n");
    assert_eq!(walk.set_ends().last(), Some(&(2, SetEnd::SoundLost)));
}

/// The floor course is drawn from the person's patches, never in the last order, and shown before it is walked.
#[test]
fn a_floor_course_is_laid_in_an_order_that_is_not_the_last_one() {
    let text = include_str!("../../../../../tests/data/course.toml");
    let prescription = Prescription::read("course.toml", text.as_bytes()).unwrap();
    let patches = ["mat", "rug", "cushion"].map(str::to_owned);
    let over = |last: Vec<String>| {
        let mut walk = Walk::over(&prescription, "lower", |session| {
            session.with_partner(Channel::PartnerScreen, Some(ROOM)).over_patches(&patches, &last)
        });
        walk.on(Event::Sound { device: None });
        walk
    };
    let mut last = Vec::new();
    for _ in 0..2 {
        let mut walk = over(last.clone());
        walk.walk_to_the_partner().keys("\n\n\n\ny").keys(".y");
        for _ in 0..8 {
            if matches!(walk.body(), Body::Course { .. }) {
                break;
            }
            let whole = walk.plan().work() + Millis(5_100);
            walk.keys(".").wait(whole).keys("n021n").wait(Millis(60_100)).keys(".");
        }
        let Body::Course { patches: shown } = walk.body() else { panic!("{:?}", walk.body()) };
        assert_ne!(shown, last);
        let mut sorted = shown.clone();
        sorted.sort();
        assert_eq!(sorted, ["cushion", "mat", "rug"]);
        assert_eq!(walk.kept(|entry| *entry == Entry::Course { patches: shown.clone() }), 1);
        walk.keys(".");
        assert!(matches!(walk.body(), Body::Page { title, .. } if title == "How to stand"));
        last = shown;
    }
}

#[test]
fn getting_into_place_can_go_wrong_too() {
    let mut walk = pushes();
    walk.walk_to_set(2).keys("gn");
    assert!(matches!(walk.body(), Body::Page { .. }), "still how to stand");
    walk.keys("gyn");
    assert_eq!(
        walk.kept(|entry| matches!(
            entry,
            Entry::SetLeftOut(LeftOutRow { set: 2, why: LeftOut::Grabbed, .. })
        )),
        1
    );
    walk.keys("n");
    assert!(matches!(walk.body(), Body::Rest { .. }));
}

#[test]
fn the_trainee_may_refuse_a_set_before_it_or_in_a_pause_and_nothing_is_pushed_after_that() {
    let mut walk = pushes();
    walk.walk_to_set(2);
    assert_eq!(walk.said("partner.ask-ready"), 1);
    let began = walk.effects.len();
    walk.keys("r");
    assert_eq!(
        walk.kept(|entry| matches!(
            entry,
            Entry::SetLeftOut(LeftOutRow { set: 2, why: LeftOut::Refused, .. })
        )),
        1
    );
    assert!(!walk.effects[began..].iter().any(|effect| matches!(effect, Effect::Begin { .. })));
    walk.keys(".");
    assert_eq!(walk.session().set_number(), 3, "the next set, which may be refused as well");

    walk.keys(".").wait(Millis(7_000)).keys("r");
    assert!(matches!(walk.body(), Body::Paused { .. }), "in a set any other key pauses");
    let began = walk.effects.len();
    walk.keys("r");
    assert_eq!(walk.set_ends().last(), Some(&(3, SetEnd::Refused)));
    walk.keys("021n");
    assert!(matches!(walk.body(), Body::Rest { .. }), "it counts against nobody, and the session goes on");
    assert!(!walk.effects[began..].iter().any(|effect| matches!(effect, Effect::Begin { .. })));
}

/// A set that was refused, or left after one push, does not use the pushes for practice up: they are the first two that are
/// given, at the gentlest, and the partner is told so.
#[test]
fn the_first_two_pushes_that_are_given_are_for_practice_whichever_set_was_refused() {
    let practice = |walk: &Walk| -> Vec<bool> {
        let pushes = walk.pushes();
        for (_, cue) in &pushes {
            let call = cue.call().unwrap();
            let told: Vec<&str> =
                call.partner_phrases(ROOM, Facing::CounterAhead).iter().map(|one| one.id()).collect();
            assert_eq!(told.first() == Some(&"tell.practice"), call.is_practice(), "{told:?}");
            let strength = call.strength().unwrap();
            assert!(!call.is_practice() || strength == Strength::GENTLEST, "{strength}");
            assert_eq!(told.iter().filter(|id| id.starts_with("strength.")).count(), 1, "{told:?}");
            assert!(told.contains(&strength.phrase().id()), "{told:?}");
        }
        pushes.iter().map(|(_, cue)| cue.call().unwrap().is_practice()).collect()
    };
    let begun = |walk: &Walk| match walk
        .entries()
        .into_iter()
        .rev()
        .find(|entry| matches!(entry, Entry::SetBegun { .. }))
    {
        Some(Entry::SetBegun { cues, .. }) => cues.iter().filter(|cue| cue.practice).count(),
        other => panic!("{other:?}"),
    };
    let mut given = pushes();
    given.walk_to_set(2).keys(".");
    assert_eq!(practice(&given)[..2], [true, true]);

    let mut refused = pushes();
    refused.walk_to_set(2).keys("r.").keys(".");
    assert_eq!(refused.session().set_number(), 3);
    let found = practice(&refused);
    assert!(found[..2] == [true, true] && !found[2..].contains(&true), "{found:?}");
    assert_eq!(begun(&refused), 2, "and it is kept so");

    // After one push the set is refused in a pause: one is left.
    let mut one = pushes();
    one.walk_to_set(2).keys(".");
    let (_, first) = one.pushes()[0].clone();
    one.work_to(first.at() + Millis(500)).keys(".r");
    assert_eq!(one.set_ends().last(), Some(&(2, SetEnd::Refused)));
    one.keys("0021n").wait(Millis(60_100)).keys("..");
    assert_eq!(one.session().set_number(), 3);
    let found = practice(&one);
    assert!(found[0] && !found[1..].contains(&true), "{found:?}");
}

/// Walks to the middle of the first spell of closed eyes.
fn eyes_closed() -> Walk {
    let mut walk = walk(EYES, Channel::PartnerScreen, Some("a device"), Some(ROOM));
    walk.walk_to_set(2).keys(".").wait(Millis(5_500));
    let plan = walk.plan();
    let closes = plan.cues().iter().find(|cue| cue.call().is_some_and(|call| call.action().closes_eyes()));
    let closes = closes.expect("this seed has one").clone();
    walk.work_to(closes.at() + Millis(2_000));
    walk.effects.clear();
    walk
}

fn first_words(effects: &[Effect]) -> Vec<&str> {
    let words = effects.iter().filter_map(|effect| match effect {
        Effect::Say(phrase) => Some(phrase.id()),
        Effect::Hush => Some("hush"),
        _ => None,
    });
    words.take(2).collect()
}

#[test]
fn closed_eyes_are_opened_aloud_and_on_the_screen_however_the_spell_is_broken_off() {
    type Break = fn(&mut Walk);
    let events: [(&str, Break); 6] = [
        ("pause", |walk| _ = walk.keys(".")),
        ("stop", |walk| _ = walk.keys("s")),
        ("escape", |walk| _ = walk.keys("\u{1b}")),
        ("sound loss", |walk| _ = walk.on(Event::SoundLost)),
        ("sleep", |walk| _ = walk.on(Event::Tick { gap: Millis(2_001) })),
        ("close", |walk| _ = walk.on(Event::Close)),
    ];
    for (what, event) in events {
        let mut walk = eyes_closed();
        event(&mut walk);
        assert_eq!(first_words(&walk.effects), ["hush", "eyes.open"], "{what}");
        let notices = walk.session().screen(walk.at).notices;
        assert_eq!(notices.first().map(String::as_str), Some("OPEN YOUR EYES."), "{what}: {notices:?}");
    }
    // A pause goes on, and with it the words go.
    let mut walk = eyes_closed();
    walk.keys(".").wait(Millis(1_500)).keys(".");
    assert!(walk.session().screen(walk.at).notices.is_empty());
}

#[test]
fn a_grab_and_a_fall_close_what_lasts_as_well() {
    for key in ["g", "f"] {
        let text = EYES
            .replace("form = \"alone\"", "form = \"partner\"")
            .replace("drill = \"called-changes\"", "drill = \"interrupted-walking\"");
        let text = text
            .replace(
                "directions = [\"eyes closed\", \"lean left\", \"lean right\"]",
                "confirmed = [\"free stretch\"]\ndirections = [\"stop\"]",
            )
            .replace(
                "name = \"eyes-closed\"\nwatched_by = \"therapist\"",
                "name = \"walking\"\npartner = \"Kim\"\nwatched_by = \"therapist\"",
            );
        let text = text.replacen("gap_ms = [9000, 16000]", "gap_ms = [13000, 20000]", 1);
        let mut walk = walk(&text, Channel::PartnerScreen, Some("a device"), Some(ROOM));
        walk.walk_to_set(2).keys(".").wait(Millis(5_500));
        let stop =
            walk.plan().cues().iter().find(|cue| cue.until().is_some()).expect("a called stop").clone();
        walk.work_to(stop.at() + Millis(1_000));
        walk.effects.clear();
        walk.keys(key);
        let close = stop.call().unwrap().span().unwrap().close;
        assert_eq!(first_words(&walk.effects), ["hush", close.id()]);
    }
}

#[test]
fn eyes_are_never_closed_where_nobody_heard_the_sound_today() {
    let mut unheard = walk(EYES, Channel::PartnerScreen, Some("a device"), Some(ROOM));
    unheard
        .walk_to_the_partner()
        .keys("\n\nyg.y")
        .keys(".")
        .wait(Millis(65_100))
        .keys("n021n")
        .wait(Millis(60_100))
        .keys(".");
    let left_out = |entry: &Entry| {
        matches!(entry, Entry::SetLeftOut(LeftOutRow { set: 2, why: LeftOut::SoundNotHeard, .. }))
    };
    assert_eq!(unheard.kept(left_out), 1);
    unheard.keys(".");
    assert_eq!(unheard.session().set_number(), 3);
    let mut silent = walk(EYES, Channel::PartnerScreen, None, Some(ROOM));
    silent.walk_to_set(2);
    assert_eq!(silent.kept(left_out), 1);
    let mut earbud = walk(EYES, Channel::PartnerEarbud, Some("an earbud"), Some(ROOM));
    earbud.walk_to_set(2);
    assert_eq!(earbud.kept(left_out), 1, "the trainee would not hear it");
}

#[test]
fn the_warm_up_and_the_cool_down_are_said_and_left_out_only_after_a_question() {
    let kept = |walk: &Walk, part, how| {
        walk.kept(|entry| matches!(entry, Entry::Routine(row) if (row.part, row.how) == (part, how)))
    };
    let mut walk = pushes();
    walk.walk_to_the_partner().keys("\n\ny");
    let right = walk.session().whole.schedule.check_word(4) + 1;
    walk.keys(&right.to_string());
    let Body::Page { title, .. } = walk.body() else { panic!("{:?}", walk.body()) };
    assert_eq!((title.as_str(), walk.said("warm-up.begin")), ("Warm-up", 1));
    // Whichever key it is, it only asks. Without a yes the sentence is said again, and the rest follows.
    for (asks, key) in [(1, "."), (2, "\n"), (3, "y")] {
        walk.keys(key);
        let Body::Question { ask, .. } = walk.body() else { panic!("{:?}", walk.body()) };
        assert_eq!((ask.as_str(), walk.said("ask.leave-out")), ("Leave out the warm-up?", asks));
        if asks < 3 {
            walk.keys("n");
        } else {
            walk.wait(Millis(15_000));
        }
        assert!(matches!(walk.body(), Body::Page { title, .. } if title == "Warm-up"));
        assert_eq!(walk.said("warm-up.begin"), 1 + asks);
    }
    assert_eq!(kept(&walk, RoutinePart::WarmUp, RoutineEnd::Skipped), 0);
    walk.wait(Millis(180_100));
    assert_eq!((walk.said("warm-up.end"), kept(&walk, RoutinePart::WarmUp, RoutineEnd::Done)), (1, 1));
    assert!(matches!(walk.body(), Body::Page { title, .. } if title == "How to stand"));
    walk.keys(".").wait(Millis(65_100)).keys("n021n");
    for _ in 0..3 {
        walk.wait(Millis(60_100)).keys(".r");
    }
    walk.keys(".");
    assert_eq!((walk.said("end.done"), walk.said("cool-down.begin")), (1, 1));
    walk.keys(".y");
    assert_eq!(kept(&walk, RoutinePart::CoolDown, RoutineEnd::Skipped), 1);
    assert_eq!(walk.ends(), [SessionEnd::Finished]);
}

#[test]
fn another_drill_gets_its_kit_and_its_time() {
    let mut walk = walk(EYES, Channel::PartnerScreen, Some("a device"), Some(ROOM));
    walk.walk_to_set(2);
    assert!(walk.said("drill.called-changes") == 1);
    let mut walk = pushes();
    walk.walk_to_set(2);
    assert_eq!(walk.said("prepare.partner"), 1);
    walk.keys("r.");
    assert_eq!(walk.said("prepare.partner"), 1, "the next set is of the same drill");
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 32, ..ProptestConfig::default() })]

    /// Whatever keys come, whenever they come: there is always a way out; what lasts is closed before anything else is
    /// done; after a refusal nothing is placed until a set is begun anew; every push of a set that ended is noted or
    /// kept as not noted; a set that has begun ends exactly once, and a session at most once.
    #[test]
    fn no_course_of_events_with_a_partner_breaks_a_promise(
        steps in prop::collection::vec((prop::sample::select(vec!['\n', 'u', '.', '.', 's', 'y', 'n', 'n', '0', '1', '4', '5', '-', 'g', 'f', 'r']), 0_u32..30_000), 1..70),
        eyes in any::<bool>(),
        earbud in any::<bool>(),
        start in any::<bool>(),
    ) {
        let channel = if earbud { Channel::PartnerEarbud } else { Channel::PartnerScreen };
        let text = if eyes { EYES } else { PUSHES };
        let mut walk = walk(text, channel, Some("a device"), Some(ROOM));
        if start {
            walk.walk_to_set(2).keys(".");
        }
        for (key, wait) in steps {
            if walk.effects.contains(&Effect::Leave) {
                break;
            }
            let until = walk.at + Millis(wait);
            while walk.at < until {
                walk.wait(Millis(250).min(until - walk.at));
                if let Body::Partner { item: Some(item), left, whole } = walk.body() {
                    let plan = walk.plan();
                    let cue = &plan.cues()[usize::from(item.cue)];
                    let lead = cue.call().unwrap().lead();
                    prop_assert!(cue.at() - lead <= whole - left, "no word before its lead");
                }
            }
            let before = walk.effects.len();
            let open = walk.open_span();
            walk.keys(&key.to_string());
            let done = &walk.effects[before..];
            if let Some(close) = open.filter(|_| !done.is_empty()) {
                prop_assert_eq!(first_words(done), ["hush", close.id()], "{}", key);
            }
            let refused = done.iter().position(|effect| matches!(
                effect,
                Effect::Record(Entry::SetLeftOut(_) | Entry::SetEnded { end: SetEndRow { why: SetEnd::Refused, .. }, .. })
            ));
            let begins = done.iter().position(|effect| matches!(effect, Effect::Begin { .. }));
            prop_assert!(refused.is_none() || begins.is_none());
            let screen = walk.session().screen(walk.at);
            let answers = matches!(&screen.body, Body::Question { answers, .. } if !answers.is_empty());
            let all_right = matches!(&screen.body, Body::Question { asking_again: true, .. });
            prop_assert!(!screen.keys.is_empty() || answers || all_right, "no way out of {:?}", screen);
        }
        let mut left = walk;
        // A way out of anywhere, without closing the program.
        for key in ["n", "s", "3", "n", ".", "s", "3", "."] {
            if !left.effects.contains(&Effect::Leave) {
                left.wait(Millis(100)).keys(key);
            }
        }
        if !left.effects.contains(&Effect::Leave) {
            left.wait(LONGEST_PAUSE + ANSWER_WAIT + REPEAT_WAIT + REPEAT_WAIT).keys(".");
        }
        left.on(Event::Close);
        let begun = left.kept(|entry| matches!(entry, Entry::SetBegun { .. }));
        prop_assert_eq!(left.set_ends().len(), begun);
        prop_assert!(left.ends().len() <= 1);
        let end = left.entries().into_iter().position(|entry| matches!(entry, Entry::SessionEnded { .. }));
        prop_assert!(end.is_none_or(|end| end + 1 == left.entries().len()));
        let mut noted: Vec<_> = left.responses().iter().map(|(set, cue, _)| (*set, *cue)).collect();
        let all = noted.len();
        noted.sort_unstable();
        noted.dedup();
        prop_assert_eq!(noted.len(), all, "no push is noted twice");
        for (set, cues) in left.asked_pushes() {
            for cue in cues {
                prop_assert!(noted.contains(&(set, cue)), "push {} of set {} has no response", cue, set);
            }
        }
    }
}

impl Walk {
    /// The words that must close what lasts now.
    fn open_span(&self) -> Option<crate::plan::phrase::Phrase> {
        let SetPhase::Work { worked, work_starts } = self.in_set()?.phase else { return None };
        let elapsed = worked + (self.at - work_starts);
        let plan = self.plan();
        let mut cues = plan.cues().iter();
        let lasts =
            cues.find(|cue| cue.at() <= elapsed && cue.until().is_some_and(|until| elapsed < until))?;
        Some(lasts.call()?.span()?.close)
    }

    /// The pushes that the partner's screen asked for, set by set.
    fn asked_pushes(&self) -> Vec<(u8, Vec<u16>)> {
        let mut asked: Vec<(u8, Vec<u16>)> = Vec::new();
        for entry in self.entries() {
            match entry {
                Entry::SetBegun { set, .. } => asked.push((set.number, Vec::new())),
                Entry::CueDelivered { set, how } if how.asked_ms.is_some() => {
                    let push = self
                        .set_drawn(*set)
                        .cues()
                        .iter()
                        .filter_map(Cue::call)
                        .any(|call| call.action().is_push());
                    if let Some((_, cues)) = asked.last_mut().filter(|_| push) {
                        cues.push(how.cue);
                    }
                }
                _ => {}
            }
        }
        asked
    }
}
