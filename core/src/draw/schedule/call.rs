//! What one cue calls, for two channels: what the trainee hears and sees, and what the partner is told in advance.
//!
//! How to deliver a cue. `at` is [`Cue::at`](super::Cue::at), from the start of the set's work:
//!
//! | channel | when | what |
//! | --- | --- | --- |
//! | the trainee's ear | `at` | [`Call::utterances`]: the call, part after part; then the count and the end of a span at their own offsets. Nothing where [`Call::say`] is empty: pushes come unannounced |
//! | the trainee's screen | `at` | [`Call::show`], in capitals, with the arrow of [`Call::direction`]; nothing where `say` is empty |
//! | the partner, screen or earbud | `at` - [`Call::lead`] | [`Call::partner_phrases`]: what to do, toward which place, where the hand goes, how firmly, which ball; empty in the form alone |
//! | the partner | `at` | the moment itself: a push is recorded as asked, since nobody knows when it came |
//!
//! A blank has no call: to the partner it looks like any other moment. If a pause, a stop or a
//! fault breaks off a span, [`Span::close`] is spoken at once; [`Cue::until`](super::Cue::until) is when it would have ended.

use crate::plan::direction::Direction;
use crate::plan::drill::{self, Action, Ball, Facing, Form, Instruction, Span, Strength, Target};
use crate::plan::phrase::Phrase;
use crate::plan::place::{Place, Room};
use crate::units::Millis;

/// What a cue calls.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Call {
    pub(super) action: Action,
    pub(super) direction: Direction,
    pub(super) say: Vec<Phrase>,
    pub(super) tell: Vec<Instruction>,
    pub(super) hand: Option<Phrase>,
    pub(super) show: String,
    pub(super) span: Option<Span>,
    pub(super) strength: Option<Strength>,
    pub(super) practice: bool,
    pub(super) ball: Option<Ball>,
    pub(super) lead: Millis,
}

/// One phrase that the trainee hears, with its time.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Utterance {
    /// Its start, measured from the cue; `None` if it follows the previous phrase directly.
    pub after: Option<Millis>,
    /// The phrase that is spoken.
    pub phrase: Phrase,
}

impl Call {
    /// The call of a target in this form, before anything is drawn for it.
    pub(super) fn of(target: &Target, form: Form, lead: Millis) -> Self {
        let say: Vec<Phrase> = target.say.into_iter().collect();
        let tell = match (form, target.tell) {
            (Form::Alone, _) => Vec::new(),
            // The partner may have to say it: with an earbud the trainee hears nothing of the app.
            (Form::Partner, None) => say.iter().map(|phrase| Instruction::Words(*phrase)).collect(),
            (Form::Partner, Some(tell)) => {
                let toward =
                    (target.direction != Direction::InPlace).then_some(Instruction::Toward(target.direction));
                [Some(Instruction::Words(tell)), toward, target.hand.map(Instruction::Words)]
                    .into_iter()
                    .flatten()
                    .collect()
            }
        };
        Self {
            action: target.action,
            direction: target.direction,
            say,
            hand: target.hand.filter(|hand| tell.contains(&Instruction::Words(*hand))),
            tell,
            show: target.words().to_uppercase(),
            span: target.span,
            strength: None,
            practice: false,
            ball: None,
            lead: if form == Form::Partner { lead } else { Millis(0) },
        }
    }

    /// Makes a push one for practice: the gentlest, and announced.
    pub(super) fn make_practice(&mut self, gentlest: Strength) {
        if self.practice {
            return;
        }
        self.practice = true;
        let drawn = self.strength.replace(gentlest).map(|drawn| Instruction::Words(drawn.phrase()));
        for told in &mut self.tell {
            if Some(&*told) == drawn.as_ref() {
                *told = Instruction::Words(gentlest.phrase());
            }
        }
        self.tell.insert(0, Instruction::Words(Phrase::own("tell.practice")));
    }

    /// What the call asks for.
    pub fn action(&self) -> Action {
        self.action
    }
    /// The direction, seen from the trainee.
    pub fn direction(&self) -> Direction {
        self.direction
    }
    /// What is called to the trainee at the cue, one after another; empty where nothing audible goes with it.
    pub fn say(&self) -> &[Phrase] {
        &self.say
    }
    /// What the screen shows, in capitals: what is called, or what the partner does.
    pub fn show(&self) -> &str {
        &self.show
    }
    /// Its duration and its end, for a call that lasts.
    pub fn span(&self) -> Option<Span> {
        self.span
    }
    /// How firm a push is.
    pub fn strength(&self) -> Option<Strength> {
        self.strength
    }
    /// Whether it is one of the two pushes that open a session's pushes at the gentlest and are announced as practice.
    pub fn is_practice(&self) -> bool {
        self.practice
    }
    /// Which of two balls to catch.
    pub fn ball(&self) -> Option<Ball> {
        self.ball
    }
    /// The instruction to the partner, before directions are replaced by places of the room.
    pub fn tell(&self) -> &[Instruction] {
        &self.tell
    }
    /// Where the partner's hand goes.
    pub fn hand(&self) -> Option<Phrase> {
        self.hand
    }
    /// How long before the cue the partner is told; 0 alone.
    pub fn lead(&self) -> Millis {
        self.lead
    }

    /// The phrases for the partner, in order. A direction becomes the place of the room that lies there, if that is
    /// known for a trainee with this facing.
    pub fn partner_phrases(&self, room: Room, facing: Facing) -> Vec<Phrase> {
        self.partner_phrases_with(|direction| room.place_toward(facing, direction).map(Place::phrase))
    }

    /// The phrases for the partner if the room is not known: with directions, without places.
    pub fn partner_phrases_without_room(&self) -> Vec<Phrase> {
        self.partner_phrases_with(|_| None)
    }

    fn partner_phrases_with(&self, place: impl Fn(Direction) -> Option<Phrase>) -> Vec<Phrase> {
        let say = |tell: &Instruction| match *tell {
            Instruction::Words(phrase) => phrase,
            Instruction::Toward(direction) => {
                place(direction).unwrap_or_else(|| drill::direction_phrase(direction))
            }
        };
        self.tell.iter().map(say).collect()
    }

    /// Everything that the trainee hears, up to the end of its span.
    pub fn utterances(&self) -> Vec<Utterance> {
        let call = self.say.iter().enumerate();
        let mut spoken: Vec<Utterance> = call
            .map(|(part, &phrase)| Utterance { after: (part == 0).then_some(Millis(0)), phrase })
            .collect();
        if let Some(span) = self.span {
            let seconds = |number: u8| Millis::from_secs(u32::from(span.count + 1 - number));
            let count =
                (1..=span.count).filter(|number| seconds(*number) < span.length).map(|number| Utterance {
                    after: Some(span.length - seconds(number)),
                    phrase: Phrase::own(&format!("count.{number}")),
                });
            spoken.extend(count);
            spoken.push(Utterance { after: Some(span.length), phrase: span.close });
        }
        spoken
    }

    /// The ids of the phrases called, joined by `+`; if nothing is called, those for the partner.
    pub fn phrase_ids(&self) -> String {
        joined(self.named().iter().map(|phrase| phrase.id()), "+")
    }

    /// Every phrase that may be spoken for it, so that it can be loaded: call, count, end, and the partner's phrases
    /// without places. The phrases for the room's places are loaded separately.
    pub fn phrases(&self) -> Vec<Phrase> {
        let told = self.partner_phrases_without_room();
        self.utterances().into_iter().map(|spoken| spoken.phrase).chain(told).collect()
    }

    fn named(&self) -> Vec<Phrase> {
        if self.say.is_empty() { self.partner_phrases_without_room() } else { self.say.clone() }
    }
}

pub(super) fn joined<'a>(texts: impl Iterator<Item = &'a str>, by: &str) -> String {
    texts.collect::<Vec<_>>().join(by)
}
