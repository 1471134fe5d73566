use super::*;
use crate::audio::desk::{self, CueEvent, Desk};

const RATE: SampleRate = SampleRate::HZ_48000;

fn events(desk: &mut Desk) -> Vec<CueEvent> {
    std::iter::from_fn(|| desk.poll()).collect()
}

/// A second of a 500 Hz square wave after `onset` silent samples: loud, and easy to see.
fn buzz(onset: usize) -> Clip {
    let wave = (0..48_000).map(|n| if n / 48 % 2 == 0 { 8_000 } else { -8_000 });
    Clip::new(std::iter::repeat_n(0, onset).chain(wave).collect::<Vec<i16>>())
}

#[test]
fn a_cue_starts_on_its_frame_and_none_sounds_beside_it() {
    let (mut desk, mut renderer) = desk::pair(RATE);
    desk.play(1, Clip::new(vec![20_000]), Frame(40_000));
    let mut out = vec![1; 48_000];
    renderer.render(&mut out);
    assert_eq!(out.iter().position(|&s| s != 0), Some(40_000));
    assert_eq!(out.iter().filter(|&&s| s != 0).count(), 1);
    let at = Frame(40_000);
    assert_eq!(
        events(&mut desk),
        [CueEvent::Started { id: 1, wanted: at, at }, CueEvent::Finished { id: 1 }]
    );
}

#[test]
fn the_onset_of_a_clip_lands_on_the_frame_not_its_first_sample() {
    let (mut desk, mut renderer) = desk::pair(RATE);
    desk.play(1, buzz(80), Frame(10_000));
    let mut out = vec![0; 12_000];
    renderer.render(&mut out);
    assert_eq!(out.iter().position(|&s| s != 0), Some(10_000));
}

#[test]
fn the_block_size_never_changes_what_is_heard_or_told() {
    let play = |blocks: &[usize]| {
        let (mut desk, mut renderer) = desk::pair(RATE);
        // Seven cues overlap: three of them must wait for a voice. The last begins at once, and late.
        for (id, at) in (0..).zip([30_000, 30_001, 40_000, 40_000, 41_000, 42_000, 190_000, 7]) {
            desk.play(id, buzz(id as usize * 13), Frame(at));
        }
        let (mut out, mut reports, mut sizes) = (vec![9; 288_000], Vec::new(), blocks.iter().cycle());
        let mut rest = &mut out[..];
        while !rest.is_empty() {
            let (block, later) = rest.split_at_mut((*sizes.next().unwrap()).min(rest.len()));
            renderer.render(block);
            reports.extend(events(&mut desk));
            rest = later;
        }
        // Within a block, reports come voice by voice.
        reports.sort_by_key(|events| format!("{events:?}"));
        (out, reports)
    };
    let whole = play(&[288_000]);
    assert_eq!(whole.1.len(), 16);
    let late = |event: &&CueEvent| matches!(event, CueEvent::Started { wanted, at, .. } if at != wanted);
    assert_eq!(whole.1.iter().filter(late).count(), 4, "{:?}", whole.1);
    for size in [1, 7, 256, 682, 1024, 1365, 96_000] {
        assert!(play(&[size]) == whole, "blocks of {size}");
    }
    assert!(play(&[1, 1365, 7, 96_000, 256, 682, 1024]) == whole, "a mixture of blocks");
}

#[test]
fn a_late_cue_starts_at_once_and_says_so() {
    let (mut desk, mut renderer) = desk::pair(RATE);
    renderer.render(&mut [0; 500]);
    desk.play(1, buzz(20), Frame(10));
    let mut out = [0; 100];
    renderer.render(&mut out);
    assert_eq!(events(&mut desk), [CueEvent::Started { id: 1, wanted: Frame(10), at: Frame(520) }]);
    assert_eq!(out.iter().position(|&s| s != 0), Some(20));
}

#[test]
fn sounds_add_up_and_stop_at_full_scale() {
    let (mut desk, mut renderer) = desk::pair(RATE);
    for (id, size) in (0..).zip([30_000, 10_000, -4_000]) {
        desk.play(id, Clip::new(vec![size, size / 10]), Frame(2));
    }
    let mut out = [0; 5];
    renderer.render(&mut out);
    assert_eq!(out, [0, 0, 28_767, 3_600, 0], "32,767 after the first two, less 4,000");
}

#[test]
fn a_hush_is_silent_within_5_ms_without_a_click() {
    // A 200 Hz sine: its own steps are small, so that a click would show.
    let sine = |n: usize| ((n as f64 * std::f64::consts::TAU / 240.0).sin() * 16_000.0) as i16;
    let (mut desk, mut renderer) = desk::pair(RATE);
    desk.play(1, Clip::new((0..48_000).map(sine).collect::<Vec<_>>()), Frame(100));
    let mut out = vec![0; 5_060 + 4_800];
    let (before, after) = out.split_at_mut(5_060);
    renderer.render(before);
    desk.hush();
    renderer.render(after);
    assert!(after[240..].iter().all(|&s| s == 0), "silent from 5 ms on");
    assert!(after[..200].iter().any(|&s| s.unsigned_abs() > 1_000), "and not cut off before");
    let step = out.windows(2).map(|w| w[0].abs_diff(w[1])).max().unwrap();
    // The sine's own largest step is 419; the fade adds at most 16,000 / 240.
    assert!(step <= 419 + 67, "{step}");
    let onset = Frame(100);
    assert_eq!(
        events(&mut desk),
        [CueEvent::Started { id: 1, wanted: onset, at: onset }],
        "begun, and not finished"
    );
}

#[test]
fn what_is_played_through_outlasts_a_hush_and_not_a_stop() {
    for stop in [false, true] {
        let (mut desk, mut renderer) = desk::pair(RATE);
        // Sounding, in the renderer's hands, and at the desk.
        for at in [100, 60_000, 48_000 * 90] {
            desk.play_through(at as u32, Clip::new(vec![900; 48_000]), Frame(at));
        }
        renderer.render(&mut [0; 1_000]);
        if stop {
            desk.stop();
        } else {
            desk.hush();
        }
        let mut out = vec![0; 48_000];
        let mut heard = Vec::new();
        for _ in 0..92 {
            renderer.render(&mut out);
            heard.extend(events(&mut desk));
        }
        let started =
            |event: &&CueEvent| matches!(event, CueEvent::Started { wanted, at, .. } if wanted == at);
        let ends = heard.iter().filter(|event| matches!(event, CueEvent::Finished { .. })).count();
        assert_eq!((heard.iter().filter(started).count(), ends), if stop { (1, 0) } else { (3, 3) });
    }
}

#[test]
fn what_a_hush_finds_waiting_is_never_reported_as_started() {
    let (mut desk, mut renderer) = desk::pair(RATE);
    for id in 0..100 {
        // In the renderer's hands, in the queue, and at the desk.
        desk.play(id, buzz(0), Frame(480 + u64::from(id) * 48_000));
    }
    renderer.render(&mut [0; 100]);
    desk.hush();
    desk.play(1_000, buzz(0), Frame(9_000));
    let mut out = vec![0; 48_000 * 3];
    renderer.render(&mut out);
    let at = Frame(9_000);
    assert_eq!(
        events(&mut desk),
        [CueEvent::Started { id: 1_000, wanted: at, at }, CueEvent::Finished { id: 1_000 }]
    );
    assert_eq!(out.iter().position(|&s| s != 0), Some(8_900));
}

#[test]
fn a_hush_before_the_onset_of_a_sounding_clip_reports_nothing() {
    let (mut desk, mut renderer) = desk::pair(RATE);
    desk.play(1, buzz(200), Frame(1_000));
    renderer.render(&mut [0; 900]);
    desk.hush();
    renderer.render(&mut [0; 4_800]);
    assert_eq!(events(&mut desk), []);
}

#[test]
fn any_number_of_cues_can_be_asked_for_and_each_starts_on_its_frame() {
    let (mut desk, mut renderer) = desk::pair(RATE);
    // Thirty minutes, a cue every half second, asked for all at once: only the next 64 leave the desk.
    let frame = |id: u32| Frame(10_000 + u64::from(id) * 24_000);
    for id in 0..3_600 {
        desk.play(id, Clip::new(vec![100; 9]), frame(id));
    }
    let (mut block, mut next) = (vec![0; 9_600], 0);
    while renderer.now() < frame(3_600) {
        renderer.render(&mut block);
        for event in events(&mut desk) {
            match event {
                CueEvent::Started { id, wanted, at } => {
                    assert_eq!((id, wanted, at), (next, frame(id), frame(id)));
                    next += 1;
                }
                CueEvent::Finished { id } => assert_eq!(id + 1, next),
            }
        }
    }
    assert_eq!(next, 3_600);
}

#[test]
fn more_cues_at_once_than_fit_wait_at_the_desk_and_say_that_they_are_late() {
    let (mut desk, mut renderer) = desk::pair(RATE);
    for id in 0..200 {
        desk.play(id, Clip::new(vec![1_000; 4]), Frame(100));
    }
    let (mut on_time, mut started) = (0, 0);
    for _ in 0..20 {
        renderer.render(&mut [0; 480]);
        for event in events(&mut desk) {
            if let CueEvent::Started { wanted, at, .. } = event {
                started += 1;
                on_time += u32::from(wanted == at);
            }
        }
    }
    assert_eq!((on_time, started), (VOICES as u32, 200));
}
