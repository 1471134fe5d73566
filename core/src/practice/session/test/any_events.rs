//! Events of every kind, in any order and at any time.

use proptest::prelude::*;

use super::super::State;
use super::super::event::{Channel, Event, Key};
use super::partner::PUSHES;
use super::{Effect, Walk};
use crate::plan::prescription::Prescription;
use crate::record::{Disturbance, Entry};
use crate::units::Millis;

/// Keys are as frequent as everything else together: most of a session is made of them.
fn any_event() -> impl Strategy<Value = Event> {
    let keys = "axsynrgf0123456.".chars().map(Key::Char).chain([Key::Enter, Key::Escape, Key::Other]);
    let device = prop::option::of(Just("a device".to_owned()));
    let heard = (0_u16..20, any::<u64>(), any::<u64>(), any::<u32>());
    prop_oneof![
        16 => prop::sample::select(keys.collect::<Vec<_>>()).prop_map(Event::Key),
        8 => (0_u32..2_500).prop_map(|gap| Event::Tick { gap: Millis(gap) }),
        1 => device.prop_map(|device| Event::Sound { device }),
        1 => any::<u32>().prop_map(|ms| Event::Placed { work_starts: Millis(ms) }),
        1 => heard.prop_map(|(cue, wanted, began, rate)| Event::Heard { cue, wanted, began, rate }),
        1 => prop::sample::select(Disturbance::ALL).prop_map(Event::SoundDisturbed),
        1 => Just(Event::SoundLost),
        1 => Just(Event::SoundBack),
        1 => Just(Event::NotSaved),
        1 => Just(Event::Saved),
        1 => Just(Event::Close),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 128, ..ProptestConfig::default() })]

    #[test]
    fn every_event_in_every_state_has_a_result_and_what_is_over_has_one_end(
        set in 0_u8..4,
        channel in prop::sample::select(Channel::ALL),
        events in prop::collection::vec((any_event(), 0_u32..100_000), 0..80),
    ) {
        let prescription = Prescription::read("test.toml", PUSHES.as_bytes()).unwrap();
        let mut walk = Walk::over(&prescription, "lower", |session| session.with_partner(channel, None));
        // From the first page, or from the way to stand for a set.
        if set > 0 {
            walk.walk_to_set(set);
        }
        let mut was_over = false;
        for (event, wait) in events {
            walk.at = walk.at + Millis(wait);
            let is_heard = matches!(event, Event::Heard { .. });
            let effects = walk.on(event);
            let _ = walk.session().screen(walk.at);
            let kept = |entry: fn(&Entry) -> bool| walk.entries().into_iter().filter(|one| entry(one)).count();
            let begun = kept(|entry| matches!(entry, Entry::SessionBegun(_)));
            let sets = [
                kept(|entry| matches!(entry, Entry::SetBegun { .. })),
                kept(|entry| matches!(entry, Entry::SetEnded { .. })),
            ];
            let is_over = matches!(walk.session().state, State::Over(_));
            prop_assert!(is_over || !was_over, "it is over for good");
            prop_assert_eq!(walk.ends().len(), if is_over { begun } else { 0 });
            prop_assert!(!is_over || sets[0] == sets[1], "{:?}", sets);
            prop_assert!(!was_over || is_heard || !effects.iter().any(|effect| matches!(effect, Effect::Record(_))));
            was_over = is_over;
        }
    }
}
