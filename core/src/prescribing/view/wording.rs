//! What each page asks, in words, and what the answer means for practice. Not what can be typed.

use super::super::form_page::{Ask, Whole};

pub(super) const fn of_whole(whole: Whole) -> &'static str {
    match whole {
        Whole::Title => "What is it called? The person sees this at the start of each practice.",
        Whole::IssuedBy => "Who issues it? It stands on the hand-out and in the report.",
        Whole::IssuedOn => "On which day is it issued?",
        Whole::Days => {
            "On how many days a week does this person practice? One session a day; missed days are never doubled."
        }
        Whole::Weeks => "For how many weeks?",
        Whole::Review => {
            "After how many sessions does a therapist look again? Overdue never blocks practice; it only stops stepping up."
        }
        Whole::Rest => "How long is the rest after each set, at least? A chair is offered.",
        Whole::Order => "In which order do the drills come?",
        Whole::Effort => {
            "Above which effort, 0 to 10, does nothing step up? Rises and quick steps may be 8 unless you lower this."
        }
        Whole::Accepted => {
            "Where the answers about suitability say \"a clinician first\": why may this person begin all the same? It lifts no other limit."
        }
    }
}

pub(super) const fn of_drill(ask: Ask) -> &'static str {
    match ask {
        Ask::Form => "Is it practiced alone or with a partner within reach?",
        Ask::Directions => {
            "What may be called? More directions are harder to guess. What is marked is locked until somebody has watched it."
        }
        Ask::Weights => {
            "How often is each called beside the others? One number for each, in the order above; uneven ones are easier to guess."
        }
        Ask::Step => "At which step of its ladder does it start?",
        Ask::Ceiling => {
            "Up to which step may practice go by itself? It moves one change at a time, after two clean sessions."
        }
        Ask::Sets => "How many sets a session? More sets are more calls.",
        Ask::Work => "How long is one set?",
        Ask::Recover => {
            "How long is the quiet time that ends a set? It is for coming back from the last call."
        }
        Ask::Gap => {
            "How long may it be from one call to the next: shortest and longest? A wide range is harder to foresee; longer waits mean fewer calls."
        }
        Ask::Shape => "Are short waits more frequent than long ones?",
        Ask::Rate => "How much more often do short waits come? 0.1 is hardly, 5 is nearly always.",
        Ask::Blanks => {
            "How many moments stay silent on purpose? They keep the longest wait from giving itself away."
        }
        Ask::Sequence => "How do directions follow each other?",
        Ask::Slack => "By how many may a direction's count stray from an equal share?",
        Ask::Streak => "How often may one direction come in a row, at most?",
        Ask::Strength => {
            "How firm are the pushes? One number, or the gentlest and the firmest. Never a force: none is published for partners at home."
        }
        Ask::Balls => "How many balls are in play?",
        Ask::Spell => "How long does what lasts last?",
        Ask::Hold => {
            "Some step is in tandem or on one leg. How long was this person seen to hold it, hands hovering? A spell lasts 80 % of it at most."
        }
        Ask::Confirmed => "Is this in place where the person practices? The app asks for it again each time.",
    }
}
