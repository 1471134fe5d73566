use super::*;
use crate::draw::schedule::sample;
use crate::plan::direction::Direction;
use crate::plan::drill::Ball;
use crate::plan::place::Place;

const RATE: SampleRate = SampleRate::HZ_48000;
/// The work starts at frame 1,000.
const START: Frame = Frame(1_000);
/// How long every sound lasts: half a second, and an odd frame.
const LONG: u64 = 24_001;
const KITCHEN: Ear = Ear::Partner {
    room: Room { left: Some(Place::Window), right: Some(Place::Door), behind: None },
    facing: Facing::CounterAhead,
};

fn placed(cues: &[Cue], ear: Ear) -> Vec<(u64, String)> {
    let cues = (0..).zip(cues);
    place(cues, ear, (START, START), RATE, |_| Some(Frames(LONG)))
        .into_iter()
        .map(|placed| (placed.at.0, name(placed)))
        .collect()
}

fn name(placed: Placed) -> String {
    let sound = match placed.sound {
        Sound::Say(phrase) => phrase.id(),
        Sound::Now => "NOW",
    };
    format!("{} {sound} {:?}", placed.cue, placed.part)
}

fn sounds(list: &[(u64, &str)]) -> Vec<(u64, String)> {
    list.iter().map(|(at, what)| (*at, (*what).to_owned())).collect()
}

/// The frame of so many milliseconds of work: 48 a millisecond (the contract of a cue sheet).
const fn ms(ms: u64) -> u64 {
    START.0 + 48 * ms
}

#[test]
fn a_call_is_on_its_frame_and_its_parts_follow_120_ms_after_each_other() {
    let cues = [sample::at(5_001, Some(sample::call(&["reach.left", "part.low", "part.step"])))];
    let after = |parts: u64| ms(5_001) + parts * (LONG + 48 * 120);
    let wanted =
        [(after(0), "0 reach.left Moment"), (after(1), "0 part.low Rest"), (after(2), "0 part.step Rest")];
    assert_eq!(placed(&cues, Ear::Trainee), sounds(&wanted));
}

#[test]
fn a_span_is_counted_to_its_end_for_whoever_listens() {
    let cues = [sample::at(4_000, Some(sample::hold(10, 3, 3_000))), sample::at(20_000, None)];
    let counted = [
        (ms(11_000), "0 count.1 After"),
        (ms(12_000), "0 count.2 After"),
        (ms(13_000), "0 count.3 After"),
        (ms(14_000), "0 hold.end After"),
    ];
    let trainee = [&[(ms(4_000), "0 hold.still Moment")][..], &counted].concat();
    assert_eq!(placed(&cues, Ear::Trainee), sounds(&trainee));
    let partner = [&[(ms(1_000), "0 hold.still Rest"), (ms(4_000), "0 NOW Moment")][..], &counted].concat();
    assert_eq!(placed(&cues, KITCHEN), sounds(&partner));
}

#[test]
fn a_call_without_a_lead_is_told_at_its_moment() {
    let cues = [sample::at(4_000, Some(sample::hold(5, 0, 0)))];
    let wanted = [(ms(4_000), "0 hold.still Moment"), (ms(9_000), "0 hold.end After")];
    assert_eq!(placed(&cues, KITCHEN), sounds(&wanted));
}

#[test]
fn nobody_but_the_partner_hears_of_a_push() {
    let cues = [
        sample::at(12_345, Some(sample::push(Direction::Left, "hand.right-hip", 1))),
        sample::at(30_000, None),
        sample::at(48_000, Some(sample::push(Direction::Forward, "hand.shoulder-blade", 2))),
    ];
    assert_eq!(placed(&cues, Ear::Trainee), []);
    let told = |at: u64, cue: u16, words: [&str; 4]| {
        let then = |nth: u64| ms(at) - 48 * 6_000 + nth * (LONG + 48 * 120);
        let words = (0..).zip(words).map(move |(nth, word)| (then(nth), format!("{cue} {word} Rest")));
        words.chain([(ms(at), format!("{cue} NOW Moment"))]).collect::<Vec<_>>()
    };
    let wanted = [
        told(12_345, 0, ["tell.push", "toward.window", "hand.right-hip", "strength.1"]),
        told(48_000, 2, ["tell.push", "toward.counter", "hand.shoulder-blade", "strength.2"]),
    ];
    assert_eq!(placed(&cues, KITCHEN), wanted.concat());
}

#[test]
fn the_ball_to_catch_is_named_to_the_trainee_on_the_screen_channel_only() {
    let cues = [sample::at(9_000, Some(sample::toss(Ball::Small)))];
    assert_eq!(placed(&cues, Ear::Trainee), sounds(&[(ms(9_000), "0 ball.small Moment")]));
    let last = placed(&cues, KITCHEN).pop();
    assert_eq!(last, Some((ms(9_000), "0 NOW Moment".to_owned())), "the partner names it");
}

#[test]
fn nothing_sounds_before_the_work_goes_on_and_nothing_moves_the_moment() {
    let push = sample::push(Direction::Left, "hand.right-hip", 1);
    let cue = sample::at(12_000, Some(push));
    let from = Frame(ms(9_000));
    let placed = place([(0, &cue)], KITCHEN, (START, from), RATE, |_| Some(Frames(LONG)));
    assert_eq!(placed[0].at, from);
    assert_eq!((placed[4].at, placed[4].sound), (Frame(ms(12_000)), Sound::Now));
}

#[test]
fn what_has_no_clip_is_left_out_and_holds_nothing_up() {
    let cue = sample::at(5_000, Some(sample::call(&["reach.left", "part.low"])));
    let without = |sound: Sound| (sound != Sound::Say(Phrase::own("reach.left"))).then_some(Frames(9));
    let placed = place([(3, &cue)], Ear::Trainee, (START, START), RATE, without);
    assert_eq!(placed.iter().map(|placed| (placed.cue, placed.at.0)).collect::<Vec<_>>(), [(3, ms(5_000))]);
}

#[test]
fn every_phrase_that_is_placed_is_among_those_to_be_loaded() {
    for call in [
        sample::call(&["reach.left", "part.low"]),
        sample::hold(10, 3, 3_000),
        sample::push(Direction::Left, "hand.right-hip", 1),
        sample::toss(Ball::Big),
    ] {
        for ear in [Ear::Trainee, KITCHEN] {
            let to_load = phrases(&call, ear);
            let cue = sample::at(9_000, Some(call.clone()));
            for placed in place([(0, &cue)], ear, (START, START), RATE, |_| Some(Frames(LONG))) {
                let loaded = match placed.sound {
                    Sound::Say(phrase) => to_load.contains(&phrase),
                    Sound::Now => true,
                };
                assert!(loaded, "{placed:?}");
            }
        }
    }
}
