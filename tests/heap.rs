//! Does the audio side ever touch the heap? Every allocation and every release on the rendering thread is counted.
#![allow(unsafe_code)]

use std::alloc::{GlobalAlloc, Layout, System};
use std::cell::Cell;

use counterpoise::audio::{Bank, Clip, CueEvent, Desk, Frame, Renderer, SampleRate, Voice, desk};

struct Counting;

thread_local! {
    static TOUCHES: Cell<u64> = const { Cell::new(0) };
}

fn touched() {
    TOUCHES.with(|touches| touches.set(touches.get() + 1));
}

// SAFETY: every call goes on to the system's allocator unchanged; the counter itself allocates nothing.
unsafe impl GlobalAlloc for Counting {
    unsafe fn alloc(&self, layout: Layout) -> *mut u8 {
        touched();
        unsafe { System.alloc(layout) }
    }

    unsafe fn dealloc(&self, pointer: *mut u8, layout: Layout) {
        touched();
        unsafe { System.dealloc(pointer, layout) }
    }

    unsafe fn realloc(&self, pointer: *mut u8, layout: Layout, size: usize) -> *mut u8 {
        touched();
        unsafe { System.realloc(pointer, layout, size) }
    }
}

#[global_allocator]
static COUNTING: Counting = Counting;

fn touches(work: impl FnOnce()) -> u64 {
    let before = TOUCHES.get();
    work();
    TOUCHES.get() - before
}

/// Renders `frames` in blocks of `block`, reads the reports, and counts what rendering alone did to the heap.
fn crank(desk: &mut Desk, renderer: &mut Renderer, frames: usize, block: usize) -> (u64, Vec<CueEvent>) {
    let (mut out, mut events, mut count) = (vec![0; block], Vec::new(), 0);
    for _ in 0..frames / block {
        count += touches(|| renderer.render(&mut out));
        events.extend(std::iter::from_fn(|| desk.poll()));
    }
    (count, events)
}

#[test]
fn the_counter_counts() {
    assert_eq!(touches(|| drop(std::hint::black_box(vec![1_u8; 9]))), 2);
}

#[test]
fn rendering_never_touches_the_heap() {
    let (mut desk, mut renderer) = desk::pair(SampleRate::HZ_48000);
    let mut bank =
        Some(Bank::load(SampleRate::HZ_48000, Voice::Lower, ["reach.left", "reach.right"]).unwrap());
    let word = |bank: &Option<Bank>, id| bank.as_ref().unwrap().get(id).unwrap();
    // On time, overlapping, late, more than four at once, far ahead.
    for (id, at) in (0..).zip([9_000, 9_000, 9_500, 10_000, 10_001, 10_002, 3, 90_000, 48_000 * 100]) {
        let name = if id % 2 == 0 { "reach.left" } else { "reach.right" };
        desk.play(id, word(&bank, name), Frame(at));
    }
    // Nobody else holds these clips when they end: the last handle must not be dropped on the audio side.
    desk.play(100, Clip::new(vec![700; 96]), Frame(20_000));
    bank = None;
    assert!(bank.is_none());
    let (count, events) = crank(&mut desk, &mut renderer, 480_000, 480);
    assert_eq!((count, events.len()), (0, 18), "{events:?}");

    // A hush with one sounding and one waiting, then the desk goes first.
    for (id, ahead) in [(200, 0), (201, 30_000)] {
        desk.play(id, Clip::new(vec![700; 48_000]), desk.now() + counterpoise::audio::Frames(ahead));
    }
    let (count, _) = crank(&mut desk, &mut renderer, 4_800, 1365);
    assert_eq!(count, 0);
    desk.hush();
    let (count, events) = crank(&mut desk, &mut renderer, 48_000, 1365);
    assert_eq!((count, events), (0, vec![]));
    desk.play(202, Clip::new(vec![700; 48_000]), desk.now());
    drop(desk);
    let mut out = [0; 1024];
    assert_eq!(touches(|| (0..200).for_each(|_| renderer.render(&mut out))), 0);
}
