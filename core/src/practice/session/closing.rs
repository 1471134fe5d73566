//! The last page: how the practice ended, and what to do now.

use super::current_set::{CurrentSet, Notes};
use super::screen::{Body, KeyHint};
use super::whole::MOST_GRABS;
use super::{Effect, Key, State, Turn, Whole};
use crate::health::lock::Lock;
use crate::record::{Entry, Mishap, SessionEnd, Stamp, Symptom};
use crate::units::Millis;

/// Chest, breath, and the signs of a stroke.
fn is_emergency(symptom: Symptom) -> bool {
    symptom.lock().is_some_and(Lock::is_emergency)
}

/// The session is over; what it does is on its last page.
#[derive(Debug)]
pub(super) struct Over {
    /// The number of the set that was last made ready, or would have been.
    pub(super) number: u8,
    pub(super) notes: Notes,
    pub(super) page: Body,
    /// What speaks on an emergency page; `None` on any other page.
    alarm: Option<Alarm>,
}

/// An emergency page is spoken until a key hushes it. That key never leaves the page; only a key of its own does.
#[derive(Debug, Clone, Copy)]
enum Alarm {
    /// It is spoken, and again at this moment.
    Spoken { next: Millis },
    /// A key hushed it, or there is no sound.
    Hushed,
}

impl Over {
    pub(super) fn new(number: u8, notes: Notes, page: Body, turn: &Turn<'_>) -> Self {
        // With the next tick, so that the page is on the screen before anything is said.
        let spoken = Alarm::Spoken { next: turn.now.at };
        let alarm = match page {
            Body::Emergency { .. } => Some(if turn.whole.has_output() { spoken } else { Alarm::Hushed }),
            _ => None,
        };
        Self { number, notes, page, alarm }
    }

    pub(super) fn tick(mut self: Box<Self>, turn: &mut Turn<'_>) -> State {
        if let Some(Alarm::Spoken { next }) = &mut self.alarm
            && turn.now.at >= *next
        {
            *next = turn.now.at + turn.whole.contacts.repeated_after();
            turn.effects.push(Effect::Warn(turn.whole.contacts.aloud()));
        }
        State::Over(self)
    }

    pub(super) fn key(mut self: Box<Self>, key: Key, turn: &mut Turn<'_>) -> State {
        match self.alarm {
            Some(Alarm::Spoken { .. }) => {
                turn.hush();
                self.alarm = Some(Alarm::Hushed);
            }
            Some(Alarm::Hushed) if key.is('v') && turn.whole.has_output() => {
                self.alarm = Some(Alarm::Spoken { next: turn.now.at });
            }
            Some(Alarm::Hushed) if !key.is('l') => {}
            Some(Alarm::Hushed) | None => turn.effects.extend([Effect::Hush, Effect::Leave]),
        }
        State::Over(self)
    }

    pub(super) fn keys(&self, whole: &Whole) -> Vec<KeyHint> {
        let leave = KeyHint::new("L", "leave this page");
        match self.alarm {
            Some(Alarm::Spoken { .. }) => vec![KeyHint::new("any key", "stop the voice; this page stays")],
            Some(Alarm::Hushed) if whole.has_output() => vec![KeyHint::new("V", "say it again"), leave],
            Some(Alarm::Hushed) => vec![leave],
            None => vec![KeyHint::new("any key", "leave")],
        }
    }
}

impl CurrentSet {
    /// Ends the session after this set. `symptom`: what felt wrong, where it was answered.
    pub(super) fn end_session(
        mut self,
        end: SessionEnd,
        symptom: Option<Symptom>,
        turn: &mut Turn<'_>,
    ) -> State {
        let end = if turn.whole.ended_by == Some(Mishap::Fall) { SessionEnd::Fell } else { end };
        self.note_the_rest(turn);
        turn.record(Entry::SessionEnded { at: Stamp::from(&turn.now.wall), why: end });
        let page = turn.whole.last_page(end, symptom);
        State::Over(Box::new(Over::new(self.number(), self.notes, page, turn)))
    }
}

impl Whole {
    pub(super) fn last_page(&self, end: SessionEnd, symptom: Option<Symptom>) -> Body {
        match end {
            SessionEnd::Finished if self.grabs > 0 => Body::page(
                "Well done",
                &[
                    "That was the last set. Sit down for a while and drink some water.",
                    "There was a grab. Tell your therapist, and start one step gentler next time.",
                ],
                &[],
            ),
            SessionEnd::Finished => {
                Body::page("Well done", &["That was the last set. Sit down for a while and drink some water."], &[])
            }
            SessionEnd::NotToday => self.with_number(Body::page(
                    "Not today",
                    &[
                        "Do not practice now.",
                        "If it is about your health, talk to your clinician or therapist before you start. If it is about \
                         the room, put it right and open Counterpoise again.",
                        "For chest pain, sudden weakness or trouble speaking, call your local emergency number now.",
                    ],
                    &[],
                )),
            SessionEnd::Unwell if symptom.is_some_and(is_emergency) => self.contacts.page(None),
            SessionEnd::Unwell if symptom == Some(Symptom::Faint) => self.with_number(Body::page(
                "Sit or lie down now",
                &[
                    "If you fainted, hit your head, or do not feel well within five minutes: call your local emergency number.",
                    "See a clinician before you practice again. Practice is locked until then.",
                ],
                &[],
            )),
            SessionEnd::Unwell => self.with_number(Body::page(
                "Sit down now",
                &[
                    "For chest pain or pressure, bad shortness of breath, new weakness or numbness, or trouble speaking: \
                     call your local emergency number now.",
                    "If it does not pass within five minutes, call for help. Talk to a clinician before you practice \
                     again.",
                ],
                &[],
            )),
            SessionEnd::NotAnswered => self.with_number(Body::page(
                "Nobody answered",
                &[
                    "If you have fallen: lie still and catch your breath.",
                    "If you are hurt or cannot get up, call your local emergency number, or call out for help. A knock \
                     to the head while you take blood thinners needs a doctor, even if you feel well.",
                    "The practice has ended. What you did is kept.",
                ],
                &[],
            )),
            SessionEnd::Fell => self.with_number(Body::page(
                "We stop here",
                &[
                    "Catch your breath before you get up. If you are hurt or cannot get up, call your local emergency \
                     number, or call out for help. A knock to the head while you take blood thinners needs a doctor, even \
                     if you feel well.",
                    "No more practice today. Tell your therapist before the next one.",
                ],
                &[],
            )),
            SessionEnd::Grabbed if self.grabs >= MOST_GRABS => Body::page(
                "We stop here",
                &[
                    "There were two grabs. Sit down and rest.",
                    "No more practice today. Tell your therapist, and start with something gentler next time.",
                ],
                &[],
            ),
            SessionEnd::Grabbed | SessionEnd::StoppedUnsteady => Body::page(
                "We stop here",
                &[
                    "Sit down and rest. To hold on was right.",
                    "No more practice today. Tell your therapist, and start with something gentler next time.",
                ],
                &[],
            ),
            SessionEnd::StoppedOther | SessionEnd::Closed | SessionEnd::Interrupted => {
                Body::page("We stop here", &["What you did is kept. This counts against nobody."], &[])
            }
        }
    }

    /// The same page, with whom to call as far as the person has said.
    pub(super) fn with_number(&self, mut body: Body) -> Body {
        if let Body::Page { items, .. } = &mut body {
            items.extend(self.contacts.lines());
        }
        body
    }
}
