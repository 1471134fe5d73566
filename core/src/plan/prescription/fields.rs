//! The table of a prescription's fields: one row each. Reading, the gate, writing, the guided form and
//! `docs/prescription.md` go by it. To add a field, add a row; what it means for other fields is a rule of the gate.

use jiff::civil::Date;

use super::field::{Field, Place, Sheet, Source, choice};
use super::limits;
use super::value::{DrillOrder, GapShape, SequenceName, Typed, Value};
use crate::plan::drill::{Drill, Form, Need, UnlockName};
use crate::plan::health_topic::Topic;
use crate::plan::precaution::Precaution;

/// For each section: its values as a struct, and a static for each row, in `row`. A row is
/// `name: type = default, "what it is", { what else is known }`; without a default the field must be there.
macro_rules! table {
    ($($(#[$about:meta])* $sheet:ident at $place:ident {
        $($name:ident: $type:ty $(= $default:expr)?, $what:literal, { $($said:tt)* };)+
        $(+ $extra:ident: $inner:ty, $extra_doc:literal;)*
    })+) => {
        /// The rows of the table.
        #[allow(non_upper_case_globals, reason = "a row bears the name that its field has in the file")]
        pub mod row {
            use super::*;
            $($(
                #[doc = $what]
                pub static $name: Field = Field {
                    name: stringify!($name),
                    kind: <$type as Typed>::KIND,
                    needed: { let defaults: &[&str] = &[$(stringify!($default))?]; defaults.is_empty() },
                    what: $what,
                    $($said)*
                    ..Field::at(Place::$place)
                };
            )+)+
        }

        impl Field {
            /// Every field of every section, in the order in which they are written.
            pub const ALL: &[&Self] = &[$($(&row::$name,)+)+];

            /// The field with this name.
            pub fn named(name: &str) -> Option<&'static Self> {
                Self::ALL.iter().copied().find(|field| field.name == name)
            }
        }

        $(
            $(#[$about])*
            #[derive(Debug, Clone, PartialEq, Eq)]
            pub struct $sheet {
                $(#[doc = $what] pub $name: $type,)+
                $(#[doc = $extra_doc] pub $extra: Vec<$inner>,)*
            }

            impl $sheet {
                /// Takes each field, or what it is if it is left out.
                pub(super) fn from<S: Source>(source: &mut S) -> Result<Self, S::Error> {
                    $(
                        let given: Option<$type> = source.take(&row::$name)?;
                        let default = given$(.or(Some($default)))?;
                        let $name = default.ok_or_else(|| source.missing(&row::$name))?;
                    )+
                    Ok(Self { $($name,)+ $($extra: Vec::new(),)* })
                }
            }

            impl Sheet for $sheet {
                const FIELDS: &[&Field] = &[$(&row::$name,)+];

                fn blank() -> Self {
                    $(let $name: $type = None$(.or(Some($default)))?.unwrap_or_else(Typed::blank);)+
                    Self { $($name,)+ $($extra: Vec::new(),)* }
                }

                fn value(&self, field: &Field) -> Option<Value> {
                    match field.name {
                        $(stringify!($name) => self.$name.value(),)+
                        _ => None,
                    }
                }

                fn set(&mut self, field: &Field, value: Option<Value>) -> bool {
                    match field.name {
                        $(stringify!($name) => {
                            let Ok(value) = value.map_or_else(|| Ok(Typed::blank()), Typed::of) else { return false };
                            self.$name = value;
                        })+
                        _ => return false,
                    }
                    true
                }
            }
        )+
    };
}

table! {
    /// A prescription as it is written, whether or not the values are within the limits.
    Draft at Top {
        schema: String, "the format", {
            bounds: "exactly as in the example", example: "\"counterpoise.prescription/1\"",
        };
        title: String, "what it is called", {
            characters: Some(1), example: "\"At the counter\"", rank: 1, is_first: true, label: "Title",
            question: "What is it called? The person sees this at the start of each practice.",
        };
        issued_by: String = String::new(), "who wrote it", {
            characters: Some(0), rank: 2, is_first: true, label: "Issued by",
            question: "Who issues it? The name appears on the hand-out and in the report.",
            prompt: "Type a name, initials or a place; - clears it", unset: "nobody yet",
            clears: &["-", "none", "no"],
        };
        issued_on: Date, "the day it was written", {
            bounds: "a date", rank: 3, is_first: true, label: "Issued on",
            question: "On which day is it issued?",
            why: "Anything watched must have been watched on or before this day.",
        };
        days_a_week: i64 = 3, "sessions a week, one a day", {
            limit: Some(limits::DAYS_A_WEEK), note: "one session a day", rank: 4, is_first: true, is_dose: true,
            label: "Days a week",
            question: "On how many days a week does this person practice? One session a day; a missed day is never made up by doing two.",
        };
        weeks: i64 = 12, "length of the program", {
            limit: Some(limits::WEEKS), rank: 5, is_first: true, is_dose: true, label: "Weeks",
            question: "For how many weeks?",
        };
        review_after_sessions: i64 = 12, "after this many sessions a therapist looks again; an overdue review never blocks practice", {
            limit: Some(limits::REVIEW_AFTER_SESSIONS), note: "then a therapist reviews it",
            rank: 6, is_first: true, label: "Review after",
            question: "After how many sessions does a therapist review it? An overdue review never blocks practice; it only stops stepping up.",
            said: "{} sessions",
        };
        rest_ms: i64 = 60_000, "shortest rest after a set", {
            limit: Some(limits::REST), note: "after every set, with a chair at hand",
            rank: 7, is_first: true, is_dose: true, label: "Rest after a set",
            question: "How long is the rest after each set, at least? The app offers a chair.",
        };
        order: DrillOrder = DrillOrder::AsWritten, "`\"as written\"` or `\"drawn\"`", {
            note: "of the drills; the warm-up stays first",
            choices: &[
                choice("as written", "as listed", "as listed", ""),
                choice("drawn", "drawn for each session, the warm-up first", "drawn for each session; the warm-up stays first, walking last", ""),
            ],
            rank: 8, is_first: true, is_dose: true, label: "Order of the drills",
            question: "In which order do the drills come?",
        };
        precautions: Vec<Precaution> = Vec::new(), "what this person must not do: `\"no step with the left leg\"`, `\"no step with the right leg\"`, `\"no weight on the left leg alone\"`, `\"no weight on the right leg alone\"`, `\"left arm stays down\"`, `\"right arm stays down\"`, `\"no head turns or looking up\"`, `\"nothing backward\"`, `\"no bending or twisting\"`", {
            left_out: "none", bounds: "from this list, each only once; refused where they leave none of the drills",
            origin: "which limb a call uses: judgment", example: "[\"left arm stays down\"]",
            note: "never asked of this person", rank: 10, is_first: true, label: "Precautions",
            question: "Is there something that this person must not do? It is never called, in any practice.",
            why: "Anything on this list also leaves out pushes, balls and moving bases.",
            prompt: "The numbers of all that apply, such as: 1 5; or: none", unset: "none",
            clears: &["none", "no"],
        };
        effort_at_most: i64 = limits::EFFORT.most.into(), "effort on the 0-10 scale above which nothing steps up, in any drill; with 6, rises and quick steps, which are meant to be vigorous, may be 8", {
            place: Place::Limits, limit: Some(limits::EFFORT), note: "of 10; nothing steps up above it",
            rank: 9, is_first: true, label: "Steps up only if effort was at most",
            question: "Above what effort, 0 to 10, does nothing step up? Rises and quick steps may reach 8 unless you lower this.",
            said: "{} of 10",
        };
        accepted_because: Option<String> = None, "an older form of `[[accepts]]`: why the person may begin although answers about suitability, given before `issued_on`, say \"a clinician first\"", {
            place: Place::Suitability, left_out: "nothing is accepted this way", characters: Some(1),
            bounds: "refused where `issued_by` names nobody; covers no answer given on or after `issued_on`, and no chest pain, blackout, dizziness or fall that still hurts",
            label: "Accepted despite \"a clinician first\"",
        };
        + drills: DraftDrill, "The drills. A built-in warm-up is not among them.";
        + unlocks: Unlock, "What somebody has watched, in the order of the file.";
        + accepts: Accept, "The topics of suitability that are accepted, in the order of the file.";
    }

    /// One drill of a prescription as it is written. Times are in milliseconds.
    DraftDrill at Drill {
        drill: &'static Drill, "the name of a drill, such as `\"counter-reach\"`; all of them are listed below", {
            example: "\"counter-reach\"",
        };
        ladder: Option<i64> = None, "the version of the drill's ladder on which `step` and `ceiling` are counted; every drill has version 1", {
            left_out: "`1`", bounds: "a version that the drill has", example: "1",
            note: "version of the drill's ladder", rank: 4, label: "Version of its ladder",
            question: "On which version of its ladder are its steps counted? With another one it starts at the first step again.",
            prompt: "The number of a version",
        };
        named_steps: Option<Vec<String>> = None, "from ladder version 2 on: keys of semi-tandem steps with one hand that this person may come to although the limits of the person end at feet together", {
            left_out: "none",
            bounds: "a step of this ladder, each only once; refused where `issued_by` names nobody", origin: "judgment",
            example: "[\"semi-tandem-one-hand\"]", note: "allowed to this person by name", rank: 7,
            label: "Steps allowed by name",
            question: "Which steps may this person come to although the answers about health limit practice to feet together?",
            prompt: "The numbers of these steps; or: none", unset: "none", clears: &["none", "no"],
        };
        form: Form = Form::Alone, "`\"alone\"` or `\"partner\"`, as the drill offers", {
            choices: &[
                choice("alone", "alone", "alone", ""),
                choice("partner", "with a partner", "with a partner", ""),
            ],
            rank: 1, is_first: true, label: "Alone or with a partner",
            question: "Is it practiced alone or with a partner within reach?",
        };
        sets: i64, "sets a session", {
            limit: Some(limits::SETS), rank: 8, is_first: true, label: "Sets",
            question: "How many sets a session? More sets mean more calls.",
        };
        work_ms: i64, "length of a set", {
            limit: Some(limits::WORK), note: "one set", rank: 9, is_first: true, label: "One set lasts",
            question: "How long is one set?",
        };
        recover_ms: i64 = 5_000, "quiet time that ends a set", {
            limit: Some(limits::RECOVER), is_ruled: true, bounds: "2000 to `work_ms`",
            note: "quiet time at its end", rank: 10, label: "Quiet time at its end",
            question: "How long is the quiet time at the end of a set? It is for recovering from the last call.",
        };
        step: i64 = 1, "ladder step to start at", {
            bounds: "the drill's ladder", note: "of the drill's ladder; 1 is the gentlest", rank: 5, is_first: true,
            label: "Starts at step", question: "At which step of its ladder does it start?", prompt: "A step",
        };
        ceiling: i64 = step, "highest step", {
            left_out: "same as `step`", bounds: "`step` to the drill's ladder",
            origin: "one change at a time: small ladders in trials", note: "practice never goes past this step",
            rank: 6, is_first: true, label: "May go up to step",
            question: "Up to which step may practice go by itself? It makes one change at a time, after two clean sessions.",
            prompt: "A step",
        };
        gap_ms: [i64; 2], "shortest and longest gap; after a call that lasts, counted from its end", {
            bounds: "from the least gap of the slowest call (below) to 60000, at least 1000 apart; two calls and `recover_ms` fit in `work_ms`; with a partner, the shortest gap less `recover_ms` leaves time to tell the partner",
            origin: "2.2 s: BMC Geriatrics 2020, 01650-4, table 2 [derived]; time to reset: judgment; 5 to 15 s: common practice, no source; ends: judgment",
            pair: "the shortest gap and the longest", example: "[5000, 15000]",
            note: "from one moment to the next", rank: 11, is_first: true, label: "Time between calls",
            question: "How long may it be from one call to the next: shortest and longest? A wide range is harder to predict; longer waits mean fewer calls.",
            why: "Up to 2.2 s to regain balance, plus time to reset. Longer is no harder to predict.",
            prompt: "Two numbers of seconds, such as: 5 15",
        };
        shape: GapShape = GapShape::Flat, "`\"flat\"`: shorter gaps more often, so that waiting reveals as little as possible; `\"even\"`: all equally often", {
            choices: &[
                choice("flat", "shorter waits more often", "shorter waits more often, so that waiting gives away as little as possible (usual)", "shorter gaps more often"),
                choice("even", "all waits equally often", "all waits equally often: no single moment is a better guess than another", "all gaps equally often"),
            ],
            rank: 12, label: "Short or long waits", question: "Are short waits more frequent than long ones?",
        };
        rate_thousandths: Option<i64> = None, "how steeply `flat` falls", {
            left_out: "`1250`", limit: Some(limits::RATE_THOUSANDTHS), note: "how steeply that falls", rank: 13,
            label: "How often waits are short",
            question: "How much more often do short waits come? 0.1 is hardly more often, 5 is nearly always.",
            unset: "1.25",
        };
        blank_per_mille: i64 = 100, "chance, in thousandths, that a moment stays silent; never two in a row", {
            limit: Some(limits::BLANKS), note: "moments that stay silent, of 1000", rank: 14,
            label: "Silent moments",
            question: "How many moments stay silent on purpose? They keep the longest wait from giving the next call away.",
        };
        directions: Vec<String>, "what may be called: directions, or the drill's names for its calls", {
            bounds: "at least one, each only once, from those that the drill has", rank: 2, is_first: true,
            label: "What is called",
            question: "What may be called? More directions are harder to guess. Those marked \"watched first\" are locked until somebody has watched them.",
            prompt: "The numbers of all that may be called, such as: 1 2 4; or: all",
        };
        weights: Option<Vec<i64>> = None, "only with `sequence = \"open\"`: how often each is called, relative to the others", {
            left_out: "all `1`", limit: Some(limits::WEIGHT), bounds: "1 to 100 each",
            note: "how often each, compared with the others", rank: 3, label: "How often each is called",
            question: "How often is each called compared with the others? One number for each, in the order listed; uneven numbers are easier to guess.",
            prompt: "Such as: 2 1 1; or: even", unset: "all equally often", clears: &["even", "none"],
        };
        sequence: SequenceName = SequenceName::Open, "`\"open\"`: each drawn independently; `\"covered\"`: all about equally often", {
            choices: &[
                choice("open", "each drawn separately", "each drawn separately: counting reveals nothing (usual)", "each drawn anew"),
                choice("covered", "each about equally often", "each about equally often: an equal share of practice, and a little easier to guess", "each about equally often"),
            ],
            rank: 15, label: "Order of directions", question: "In which order do the directions come?",
        };
        slack: Option<i64> = None, "`covered` only: how far a count may stray from an equal share", {
            left_out: "`1`", limit: Some(limits::SLACK), is_ruled: true, note: "how far a count may differ",
            rank: 16, label: "Allowed difference",
            question: "By how many calls may a direction differ from an equal share?", unset: "1",
        };
        longest_streak: Option<i64> = None, "how often one direction may come in a row", {
            left_out: "`2`; `3` with two directions", limit: Some(limits::STREAK), is_ruled: true,
            bounds: "1 to 3; with two directions 3 or 4; none with one",
            note: "the most of one direction in a row", rank: 17, label: "One direction in a row",
            question: "How often may one direction come in a row, at most?", said: "{} at most",
            unset: "the usual number",
        };
        strength: Option<[i64; 2]> = None, "only with pushes: the gentlest and the firmest, 1 to 4 (`barely`, `lightly`, `clearly`, `firmly`)", {
            left_out: "`[1, 1]`",
            bounds: "at most 2 at home and 1 apart; 3 and 4 only with the unlock `pushes` and `therapist_present = true`",
            origin: "judgment: no force is published for partners at home, and none is asked for",
            pair: "the gentlest and the firmest", example: "[1, 1]",
            note: "the gentlest and the firmest push, 1 to 4", rank: 18, label: "How firm pushes are",
            question: "How firm are the pushes? One number, or the gentlest and the firmest. Use this scale, not a force: no forces are published for partners at home.",
            prompt: "Such as: 1; or: 1 2", unset: "1",
        };
        balls: Option<i64> = None, "only with throws by a partner: with 2, one is named aloud as it leaves the hand", {
            left_out: "`1`", limit: Some(limits::BALLS), rank: 19, label: "Balls",
            question: "How many balls are in play?", prompt: "1 or 2", unset: "1",
        };
        spell_ms: Option<i64> = None, "duration of a call that lasts: a hold, closed eyes, a rise, a stop", {
            left_out: "the drill's own value", limit: Some(limits::SPELL),
            bounds: "3000 to 30000; closed eyes 10000", note: "duration of a hold", rank: 20,
            label: "Duration of a hold", question: "How long does a call such as a hold last?",
            prompt: "Seconds; or: own, for the drill's own duration", unset: "the drill's own duration",
            clears: &["own", "none"],
        };
        tested_hold_ms: Option<i64> = None, "only for steps in tandem or on one leg: how long somebody saw this person hold it; a call that lasts then takes at most 80 % of this", {
            left_out: "refused where a step needs it", limit: Some(limits::TESTED_HOLD),
            note: "how long this person was timed holding it", rank: 21, is_first: true, label: "Tested hold",
            question: "One of the steps is in tandem or on one leg. How long was this person timed holding it, hands hovering? A hold in practice lasts at most 80 % of that.",
            unset: "not timed yet",
        };
        confirmed: Vec<Need> = Vec::new(), "what is in place where the person practices: `\"free stretch\"`, `\"chair against a wall\"`, `\"own soft base\"`", {
            left_out: "nothing", bounds: "refused if a drill needs something that is not listed",
            origin: "judgment", note: "in place where the person practices", rank: 22, is_first: true,
            label: "In place at home",
            question: "Is this in place where the person practices? The app asks again each time.",
            prompt: "The numbers of what is in place; or: none", unset: "nothing confirmed yet",
            clears: &["none", "no"],
        };
    }

    /// A topic of the questions about suitability that somebody accepts: its lock is lifted, its limits stay.
    Accept at Accept {
        topic: Topic, "the topic of the question about suitability; the topics are listed below", {
            bounds: "one that can be accepted, each only once; refused where `issued_by` names nobody", origin: "judgment",
            example: "\"blood pressure\"",
        };
        who: String, "who accepts it: a name, initials or a role", {
            characters: Some(1),
        };
        when: Date, "the day; a later yes to the topic is asked about once more", {
            bounds: "not after `issued_on`",
        };
    }

    /// A named danger that somebody watched this person master.
    Unlock at Unlock {
        name: UnlockName, "the danger: `\"pushes\"`, `\"surface\"`, `\"walking\"`, `\"backward\"`, `\"eyes-closed\"`, `\"second-task\"` or `\"one-leg\"`", {
            origin: "judgment",
        };
        watched_by: String, "who watched: initials or a role", {
            characters: Some(1),
        };
        on: Date, "the day", {
            bounds: "not after `issued_on`",
        };
        partner: String = String::new(), "with whom; empty for practice alone", {
            characters: Some(0), note: "empty: practice alone",
        };
        therapist_present: bool = false, "if `true`, the unlock is valid only while the therapist is there", {
            left_out: "`false`", note: "valid only while the therapist is there",
        };
    }
}
