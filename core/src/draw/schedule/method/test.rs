use std::fmt::Write as _;

use super::{Method, UnknownMethod};
use crate::plan::drill::{Drill, Part, Span, Target};
use crate::plan::phrase::Phrase;
use crate::plan::prescription::Digest;

/// The drills as method 1 reads them, frozen. A drill that is added since is the next method's.
const DRAWN_BY_1: &str = include_str!("../../../../../tests/data/drawn-by-1.txt");

#[test]
fn a_number_leads_to_its_method_and_no_other_number_does() {
    for method in Method::ALL {
        assert_eq!(Method::try_from(method.number()), Ok(*method));
        assert_eq!(serde_json::to_string(method).unwrap(), method.number().to_string());
    }
    let numbers: Vec<u32> = Method::ALL.iter().map(|method| method.number()).collect();
    assert_eq!(numbers, (1..=numbers.len() as u32).collect::<Vec<_>>());
    for number in [0, numbers.len() as u32 + 1, u32::MAX] {
        let unknown = Method::try_from(number).unwrap_err();
        assert_eq!(unknown, UnknownMethod(number));
        assert!(unknown.to_string().starts_with(&format!("drawn by method {number}; this version knows 1")));
    }
}

/// All of a drill that decides what is drawn, or when. Words may change.
fn meaning(drill: &Drill) -> String {
    let ids = |phrase: Option<Phrase>| phrase.map_or("-", |phrase| phrase.id()).to_owned();
    let facings: Vec<&str> = drill.facings().iter().map(|facing| facing.name()).collect();
    let mut text = format!("{} {facings:?} {} {}\n", drill.name(), drill.lead().0, drill.is_walking());
    for Target { name, direction, action, say, tell, hand, span } in drill.targets() {
        let span = span.map(|Span { length, close, count }| format!("{} {} {count}", length.0, close.id()));
        let said = [*say, *tell, *hand].map(ids).join(" ");
        let _ = writeln!(text, "call {name}: {direction} {action} {said} {}", span.unwrap_or_default());
    }
    for Part { kind, phrase, action, directions } in drill.parts() {
        let action = action.map_or("-", |action| action.name());
        let directions: Vec<&str> = directions.iter().map(|direction| direction.name()).collect();
        let _ = writeln!(text, "part {kind}: {} {action} {}", phrase.id(), directions.join(" "));
    }
    for step in drill.ladder() {
        let _ = writeln!(text, "step {} {} {}", step.stance, step.surface, step.parts);
    }
    text
}

#[test]
fn the_drills_that_method_1_reads_mean_what_they_meant() {
    let frozen: Vec<&str> = DRAWN_BY_1.lines().filter(|line| !line.starts_with('#')).collect();
    assert_eq!(frozen.len(), 18);
    for line in frozen {
        let (digest, name) = line.split_once("  ").unwrap();
        let text = meaning(Drill::named(name).unwrap());
        assert_eq!(Digest::of(text.as_bytes()).to_string(), digest, "{name} is now:\n{text}");
    }
}
