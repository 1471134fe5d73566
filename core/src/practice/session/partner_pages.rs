//! The pages for the partner before the first set: where hands go and never go, what each drill asks of the partner,
//! whether the partner is ready, and what is on each side of the trainee.

use super::event::{Effect, Key};
use super::opening::{Before, Page};
use super::screen::{Body, KeyHint};
use super::three_keys::{answer_keys, answer_of};
use super::{State, Turn, Whole};
use crate::health::readiness::Page as ReadyPage;
use crate::plan::place::Place;
use crate::plan::prescription::DrillPlan;
use crate::record::Answer;

/// Where hands go and never go \[judgment\]: no trial of pushes at home by a partner exists.
const HANDS: &[&str] = &[
    "On a hip or a shoulder blade: the flat hand, press, and let go.",
    "Never on the neck, the chest or the head. Never a pull on the arm.",
    "Somebody sways too far: steady at the hips and guide down. Do not catch.",
    "Eyes on the person at the push, not on the screen.",
];

/// Ready today, for the partner \[judgment\].
const READY: &[&str] = &[
    "I am well, sober and steady on my feet today.",
    "I stand within reach, both hands free, shoes firm.",
    "I know where my hands may go.",
    "The trainee may refuse anything, at any time. Then it is over.",
];

/// The keys of the places, from 1.
const KEYS: [char; 9] = ['1', '2', '3', '4', '5', '6', '7', '8', '9'];

/// After the page about hands comes one for each drill, then what must be true today.
fn last_part(whole: &Whole) -> usize {
    1 + whole.partner_drills().len()
}

impl Before {
    pub(super) fn partner_key(self: Box<Self>, part: usize, key: Key, turn: &mut Turn<'_>) -> State {
        if part < last_part(turn.whole) {
            let on = key == Key::Enter || key == Key::Char(' ');
            return self.turn_to(Page::Partner { part: part + usize::from(on) });
        }
        match answer_of(key) {
            Some(answer) => self.confirm(Answer::PartnerReady(Some(answer)), turn),
            None => State::Before(self),
        }
    }

    /// One key each for left, right and behind. They are kept, and not asked again; what is skipped is asked next time.
    pub(super) fn side_key(self: Box<Self>, part: usize, key: Key, turn: &mut Turn<'_>) -> State {
        let place = match key {
            Key::Enter => {
                turn.whole.room = None;
                return self.after_pages(turn);
            }
            Key::Char('0') => None,
            Key::Char(digit) => match KEYS.iter().zip(Place::ALL).find(|(key, _)| **key == digit) {
                Some((_, place)) => Some(*place),
                None => return State::Before(self),
            },
            Key::Escape | Key::Other => return State::Before(self),
        };
        let room = turn.whole.room.get_or_insert_default();
        match part {
            0 => room.left = place,
            1 => room.right = place,
            _ => room.behind = place,
        }
        if part < 2 {
            return self.turn_to(Page::Side { part: part + 1 });
        }
        turn.effects.push(Effect::KeepRoom(turn.whole.room()));
        self.after_pages(turn)
    }
}

impl Whole {
    pub(super) fn partner_page(&self, part: usize) -> Body {
        if part == 0 {
            return Body::page("For the partner: hands", &[], HANDS);
        }
        if let Some(drill) = self.partner_drills().get(part - 1) {
            let does: Vec<&str> = drill.partner_does().iter().map(String::as_str).collect();
            return Body::page(&format!("For the partner: {}", drill.title()), &[], &does);
        }
        let watched = self.supervised_partners();
        let with = format!("I am the partner with whom it was watched: {}.", watched.join(" or "));
        let with = (!watched.is_empty()).then_some(with.as_str());
        let items: Vec<&str> = READY.iter().copied().chain(with).collect();
        Body::page("The partner, today", &["Partner: is all of this true today?"], &items)
    }

    /// The partners with whom this session's drills were supervised; empty where no supervision was needed.
    fn supervised_partners(&self) -> Vec<String> {
        let plans = self.scheduler.prescription().drills().iter().map(DrillPlan::partners);
        let mut bound = plans.filter(|partners| !partners.is_empty());
        let Some(first) = bound.next() else { return Vec::new() };
        let mut all: Vec<String> = first.to_vec();
        for partners in bound {
            all.retain(|partner| partners.contains(partner));
        }
        all
    }

    pub(super) fn partner_keys(&self, part: usize) -> Vec<KeyHint> {
        let leave = KeyHint::new("S or Esc", "leave");
        if part < last_part(self) {
            vec![KeyHint::new("Enter", "go on"), leave]
        } else {
            [answer_keys(|answer| ReadyPage::Partner.words(answer)), vec![leave]].concat()
        }
    }
}

pub(super) fn side_page(part: usize) -> Body {
    let side = ["on your left", "on your right", "behind you"][part.min(2)];
    let places = KEYS.iter().zip(Place::ALL);
    let mut answers: Vec<KeyHint> =
        places.map(|(key, place)| KeyHint::new(&key.to_string(), place.name())).collect();
    answers.push(KeyHint::new("0", "none of these"));
    answers.push(KeyHint::new("Enter", "skip this"));
    let ask = format!("Trainee, facing the counter: what is {side}?");
    Body::Question { ask, answers, asking_again: false }
}
