//! What each page asks, in words, and what the answer means for practice. Not what can be typed.

use super::super::form_page::{DrillField, PrescriptionField};

pub(super) const fn prescription_question(whole: PrescriptionField) -> &'static str {
    match whole {
        PrescriptionField::Title => "What is it called? The person sees this at the start of each practice.",
        PrescriptionField::IssuedBy => "Who issues it? It stands on the hand-out and in the report.",
        PrescriptionField::IssuedOn => "On which day is it issued?",
        PrescriptionField::Days => {
            "On how many days a week does this person practice? One session a day; missed days are never doubled."
        }
        PrescriptionField::Weeks => "For how many weeks?",
        PrescriptionField::Review => {
            "After how many sessions does a therapist look again? Overdue never blocks practice; it only stops stepping up."
        }
        PrescriptionField::Rest => "How long is the rest after each set, at least? A chair is offered.",
        PrescriptionField::Order => "In which order do the drills come?",
        PrescriptionField::Effort => {
            "Above which effort, 0 to 10, does nothing step up? Rises and quick steps may be 8 unless you lower this."
        }
        PrescriptionField::Accepted => {
            "Where the answers about suitability say \"a clinician first\": why may this person begin all the same? It lifts no other limit."
        }
    }
}

pub(super) const fn drill_question(ask: DrillField) -> &'static str {
    match ask {
        DrillField::Form => "Is it practiced alone or with a partner within reach?",
        DrillField::Directions => {
            "What may be called? More directions are harder to guess. What is marked is locked until somebody has watched it."
        }
        DrillField::Weights => {
            "How often is each called beside the others? One number for each, in the order above; uneven ones are easier to guess."
        }
        DrillField::Step => "At which step of its ladder does it start?",
        DrillField::Ceiling => {
            "Up to which step may practice go by itself? It moves one change at a time, after two clean sessions."
        }
        DrillField::Sets => "How many sets a session? More sets are more calls.",
        DrillField::Work => "How long is one set?",
        DrillField::Recover => {
            "How long is the quiet time that ends a set? It is for coming back from the last call."
        }
        DrillField::Gap => {
            "How long may it be from one call to the next: shortest and longest? A wide range is harder to foresee; longer waits mean fewer calls."
        }
        DrillField::Shape => "Are short waits more frequent than long ones?",
        DrillField::Rate => "How much more often do short waits come? 0.1 is hardly, 5 is nearly always.",
        DrillField::Blanks => {
            "How many moments stay silent on purpose? They keep the longest wait from giving itself away."
        }
        DrillField::Sequence => "How do directions follow each other?",
        DrillField::Slack => "By how many may a direction's count stray from an equal share?",
        DrillField::Streak => "How often may one direction come in a row, at most?",
        DrillField::Strength => {
            "How firm are the pushes? One number, or the gentlest and the firmest. Never a force: none is published for partners at home."
        }
        DrillField::Balls => "How many balls are in play?",
        DrillField::Spell => "How long does what lasts last?",
        DrillField::Hold => {
            "Some step is in tandem or on one leg. How long was this person seen to hold it, hands hovering? A spell lasts 80 % of it at most."
        }
        DrillField::Confirmed => {
            "Is this in place where the person practices? The app asks for it again each time."
        }
    }
}
