//! The question on each page, and what the answer means for practice.

use super::super::form_page::{DrillField, PrescriptionField};

pub(super) const fn prescription_question(whole: PrescriptionField) -> &'static str {
    match whole {
        PrescriptionField::Title => "What is it called? The person sees this at the start of each practice.",
        PrescriptionField::IssuedBy => "Who issues it? The name appears on the hand-out and in the report.",
        PrescriptionField::IssuedOn => "On which day is it issued?",
        PrescriptionField::Days => {
            "On how many days a week does this person practice? One session a day; a missed day is never made up by doing two."
        }
        PrescriptionField::Weeks => "For how many weeks?",
        PrescriptionField::Review => {
            "After how many sessions does a therapist review it? An overdue review never blocks practice; it only stops stepping up."
        }
        PrescriptionField::Rest => "How long is the rest after each set, at least? The app offers a chair.",
        PrescriptionField::Order => "In which order do the drills come?",
        PrescriptionField::Effort => {
            "Above what effort, 0 to 10, does nothing step up? Rises and quick steps may reach 8 unless you lower this."
        }
        PrescriptionField::Accepted => {
            "If the suitability answers say \"a clinician first\", why may this person still start? It lifts no other limit."
        }
    }
}

pub(super) const fn drill_question(ask: DrillField) -> &'static str {
    match ask {
        DrillField::Form => "Is it practiced alone or with a partner within reach?",
        DrillField::Directions => {
            "What may be called? More directions are harder to guess. Those marked \"watched first\" are locked until somebody has watched them."
        }
        DrillField::Weights => {
            "How often is each called compared with the others? One number for each, in the order listed; uneven numbers are easier to guess."
        }
        DrillField::Step => "At which step of its ladder does it start?",
        DrillField::Ceiling => {
            "Up to which step may practice go by itself? It makes one change at a time, after two clean sessions."
        }
        DrillField::Sets => "How many sets a session? More sets mean more calls.",
        DrillField::Work => "How long is one set?",
        DrillField::Recover => {
            "How long is the quiet time at the end of a set? It is for recovering from the last call."
        }
        DrillField::Gap => {
            "How long may it be from one call to the next: shortest and longest? A wide range is harder to predict; longer waits mean fewer calls."
        }
        DrillField::Shape => "Are short waits more frequent than long ones?",
        DrillField::Rate => {
            "How much more often do short waits come? 0.1 is hardly more often, 5 is nearly always."
        }
        DrillField::Blanks => {
            "How many moments stay silent on purpose? They keep the longest wait from giving the next call away."
        }
        DrillField::Sequence => "In which order do the directions come?",
        DrillField::Slack => "By how many calls may a direction differ from an equal share?",
        DrillField::Streak => "How often may one direction come in a row, at most?",
        DrillField::Strength => {
            "How firm are the pushes? One number, or the gentlest and the firmest. Use this scale, not a force: no forces are published for partners at home."
        }
        DrillField::Balls => "How many balls are in play?",
        DrillField::Spell => "How long does a call such as a hold last?",
        DrillField::Hold => {
            "One of the steps is in tandem or on one leg. How long was this person timed holding it, hands hovering? A hold in practice lasts at most 80 % of that."
        }
        DrillField::Confirmed => "Is this in place where the person practices? The app asks again each time.",
    }
}
