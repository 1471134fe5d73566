use super::super::{Cue, Scheduler, Seed};
use super::*;
use crate::plan::direction::Direction;
use crate::units::Millis;

const OPEN: &str = include_str!("../../../../../tests/golden/open.toml");
const COVERED: &str = include_str!("../../../../../tests/golden/covered.toml");

fn drawn(text: &str) -> (Prescription, Schedule) {
    let prescription =
        Prescription::read("test.toml", text.as_bytes()).expect("the file is within the limits");
    let scheduler = Scheduler::new(&prescription).expect("its tables can be built");
    let schedule = scheduler.draw(Seed::from_bytes([5; 32]));
    (prescription, schedule)
}

/// The rule that is found broken after `spoil` changed a session that was right.
fn after(text: &str, spoil: impl FnOnce(&mut Schedule)) -> Fault {
    let (prescription, mut schedule) = drawn(text);
    assert_eq!(inspect(&prescription, &schedule), Ok(()));
    spoil(&mut schedule);
    inspect(&prescription, &schedule).expect_err("the session was spoiled")
}

fn rule(text: &str, spoil: impl FnOnce(&mut Vec<Cue>)) -> Rule {
    match after(text, |schedule| spoil(&mut schedule.sets[0].cues)) {
        Fault::Cue { set: 1, rule, .. } => rule,
        other => panic!("another fault: {other}"),
    }
}

/// Moves a cue and all after it.
fn delay(cues: &mut [Cue], from: usize, by: i64) {
    cues[from].gap.0 = (i64::from(cues[from].gap.0) + by) as u32;
    for cue in &mut cues[from..] {
        cue.at.0 = (i64::from(cue.at.0) + by) as u32;
    }
}

fn first_call(cues: &[Cue]) -> usize {
    cues.iter().position(|cue| !cue.is_blank()).expect("there are calls")
}

#[test]
fn each_broken_rule_about_a_cue_is_found() {
    assert_eq!(rule(OPEN, |cues| cues[1].at.0 += 1), Rule::Offset);
    assert_eq!(rule(OPEN, |cues| cues[1].gap.0 += 1), Rule::Offset);
    assert_eq!(
        rule(OPEN, |cues| {
            let by = 4_699 - i64::from(cues[1].gap.0);
            delay(cues, 1, by);
        }),
        Rule::GapRange
    );
    assert_eq!(
        rule(OPEN, |cues| {
            let by = 9_200 - i64::from(cues[0].gap.0);
            delay(cues, 0, by);
        }),
        Rule::GapRange,
        "the greatest itself is not reached"
    );
    assert_eq!(
        rule(OPEN, |cues| {
            let (gap, last) = (Millis(9_000), cues.last().expect("there are cues").clone());
            let mut cue = cues[first_call(cues)].clone();
            cue.at = last.at;
            for _ in 0..3 {
                cue.at = cue.at + gap;
                cue.gap = gap;
                cues.push(cue.clone());
            }
            // Make the directions differ, so that the time is what is found.
            for index in 1..cues.len() {
                let other = cues.iter().find(|other| {
                    other.call().map(Call::direction) != cues[index - 1].call().map(Call::direction)
                        && !other.is_blank()
                });
                cues[index].call = other.expect("there are two directions").call.clone();
            }
        }),
        Rule::Late
    );
    assert_eq!(rule(OPEN, |cues| cues[0..2].iter_mut().for_each(|cue| cue.call = None)), Rule::TwoBlanks);
    assert_eq!(
        rule(OPEN, |cues| {
            let call = first_call(cues);
            cues[call].call.as_mut().expect("a call").direction = Direction::Back;
        }),
        Rule::Target
    );
    assert_eq!(
        rule(OPEN, |cues| {
            let call = first_call(cues);
            cues[call].call.as_mut().expect("a call").show.push('!');
        }),
        Rule::Target
    );
    assert_eq!(
        rule(OPEN, |cues| {
            let call = cues[first_call(cues)].call.clone();
            cues.iter_mut().filter(|cue| !cue.is_blank()).for_each(|cue| cue.call.clone_from(&call));
        }),
        Rule::Streak
    );
}

#[test]
fn each_broken_rule_about_a_session_is_found() {
    assert!(matches!(after(OPEN, |s| s.sets[2].number = 4), Fault::Number { place: 3, number: 4 }));
    assert!(matches!(after(OPEN, |s| s.sets.truncate(4)), Fault::Missing { .. }));
    assert!(matches!(after(OPEN, |s| s.sets[1].rest = Millis(1)), Fault::Conditions { set: 2 }));
    assert!(matches!(after(OPEN, |s| s.sets[0].step = 2), Fault::Conditions { set: 1 }));
    assert!(matches!(after(OPEN, |s| s.sets[0].side = Some(Side::Left)), Fault::Conditions { set: 1 }));
    assert!(matches!(after(OPEN, |s| s.sets[0].cues.truncate(1)), Fault::TooFewCues { set: 1, cues: 0 | 1 }));
    assert!(matches!(
        after(COVERED, |s| {
            let more = s.sets[1].clone();
            s.sets.push(SetPlan { number: s.sets.len() as u8 + 1, ..more });
        }),
        Fault::TooManyCues { .. }
    ));
    let swapped = after(OPEN, |s| {
        let (first, second) = s.sets.split_at_mut(1);
        std::mem::swap(&mut first[0].drill, &mut second[0].drill);
    });
    assert!(
        matches!(swapped, Fault::Stray { .. } | Fault::Conditions { .. } | Fault::Cue { .. }),
        "{swapped}"
    );
}

#[test]
fn a_direction_called_too_rarely_is_found() {
    // Of two directions of the drill's sets, one takes the other's place, where no streak comes of it.
    let uneven = after(COVERED, |schedule| {
        let sets = &mut schedule.sets[1..];
        let (left, right) = (Direction::Left, Direction::Right);
        let call =
            sets.iter().flat_map(|set| &set.cues).find_map(|cue| cue.call().filter(|c| c.direction == left));
        let call = call.expect("left is called").clone();
        for cue in sets.iter_mut().flat_map(|set| &mut set.cues) {
            if cue.call().is_some_and(|call| call.direction == right) {
                cue.call = Some(call.clone());
            }
        }
    });
    assert!(matches!(uneven, Fault::Uneven { .. } | Fault::Cue { rule: Rule::Streak, .. }), "{uneven}");
}

#[test]
fn a_fault_is_told_in_words() {
    let fault = Fault::Cue { set: 2, cue: 0, rule: Rule::Late };
    assert_eq!(fault.to_string(), "set 2, cue 0: it comes after the recovery time has started");
}
