//! The pages before the first set, the screen of every phase, and the last page: what stands there, and what the
//! keys of the first pages do.

use super::questions;
use super::screen::{Body, KeyHint, Screen, Shown};
use super::{Effect, Effects, Key, LONGEST_PAUSE, Now, Phase, SHOWN_FOR, Session, TONES, Wait, say};
use crate::drill::Trains;
use crate::millis::Millis;
use crate::phrase::Phrase;
use crate::record::{Entry, Question, SessionEnd, SetEnd};
use crate::standing;

/// The words of the sound check.
const CHECK_WORDS: [&str; 4] = ["check.window", "check.garden", "check.kettle", "check.butter"];

/// Reasons to see a clinician first (trial exclusions and public-health lists, read or second-hand), as many to a page
/// as are drawn large on a large screen.
const CLINICIAN: [&[&str]; 2] = [
    &[
        "a heart or blood pressure condition",
        "chest pain, blackouts, fainting or dizziness",
        "a recent fall with pain or trouble walking",
        "a recent fracture or operation",
        "weak bones (osteoporosis), easily broken",
        "a stroke, Parkinson's or multiple sclerosis",
    ],
    &[
        "an inner ear (balance) or nerve condition",
        "blood thinners",
        "medicine that makes you drowsy",
        "sight that glasses do not correct",
        "a new joint whose limits you do not know",
        "trouble following what is said or written",
    ],
];

/// Ready today (public-health guidance, read; in our own words), to a page as above.
const READY: [&[&str]; 2] = [
    &[
        "I feel well: no pain, no dizziness, not ill.",
        "No fall, no knock to the head and no faint since last time.",
        "No alcohol today, and no new medicine that makes me drowsy.",
        "Firm shoes, glasses if I need them, hearing aids in.",
    ],
    &[
        "The counter is fixed. Nothing near me slides, tips, or is hot or sharp.",
        "The floor is dry and clear, the light good.",
        "Behind me: 1.5 m of clear floor, or a wall.",
        "A phone, water and a firm chair within reach.",
    ],
];

/// The words of a phrase: what is said around the sets stands on the pages in the same words.
fn words(id: &str) -> String {
    Phrase::own(id).words().to_owned()
}

fn hint(key: &str, does: &str) -> KeyHint {
    KeyHint { key: key.to_owned(), does: does.to_owned() }
}

fn page(title: &str, text: &[&str], items: &[&str]) -> Body {
    let own = |lines: &[&str]| lines.iter().map(|line| (*line).to_owned()).collect();
    Body::Page { title: title.to_owned(), text: own(text), items: own(items) }
}

impl Session {
    /// A key on one of the pages before the first set.
    pub(super) fn page(&mut self, now: &Now, key: Key, effects: &mut Effects) {
        let (yes, no) = (key.is('a'), key.is('x'));
        let on = key == Key::Enter || key == Key::Char(' ');
        match self.phase {
            _ if key.stops() => {
                self.end(now, SessionEnd::StoppedOther, effects);
                effects.push(Effect::Leave);
            }
            Phase::First if on => self.phase = Phase::Cautions,
            Phase::Cautions if on => {
                self.begun.at = now.wall.clone();
                self.recorded = true;
                effects.push(Effect::Record(Entry::SessionBegun(self.begun.clone())));
                self.phase = Phase::Health { part: 0 };
            }
            Phase::Health { part } if yes && part + 1 < CLINICIAN.len() => {
                self.phase = Phase::Health { part: part + 1 };
            }
            Phase::Ready { part } if yes && part + 1 < READY.len() => {
                self.phase = Phase::Ready { part: part + 1 };
            }
            Phase::Health { .. } | Phase::Ready { .. } if yes || no => {
                let health = matches!(self.phase, Phase::Health { .. });
                let question = if health { Question::Clinician } else { Question::Ready };
                effects.push(Effect::Record(Entry::Answered {
                    set: None,
                    question,
                    answer: Some(u8::from(yes)),
                }));
                match (yes, health) {
                    (false, _) => self.end(now, SessionEnd::NotToday, effects),
                    (true, true) => self.phase = Phase::Ready { part: 0 },
                    (true, false) if self.silent => self.stand(now, effects),
                    (true, false) => self.check(now, 0, false, effects),
                }
            }
            Phase::Check { tries, .. } => self.checked(now, key, tries, effects),
            _ => {}
        }
    }

    fn check(&mut self, now: &Now, tries: u8, wrong: bool, effects: &mut Effects) {
        self.phase = Phase::Check { tries, wrong, wait: Wait::from(now.at) };
        let said = self.check_answer(tries);
        effects.push(Effect::Hush);
        if self.begun.voice == TONES {
            effects.extend((0..=said).map(|_| say(CHECK_WORDS[0])));
        } else {
            effects.extend([say("check.ask"), say(CHECK_WORDS[usize::from(said)])]);
        }
    }

    /// Which of the four answers is right, from 0. Drawn for the session, and another one at every try.
    fn check_answer(&self, tries: u8) -> u8 {
        (self.schedule.check_word(4) + tries) % 4
    }

    fn checked(&mut self, now: &Now, key: Key, tries: u8, effects: &mut Effects) {
        let keep = |right: bool| {
            let question = Question::SoundCheck;
            Effect::Record(Entry::Answered { set: None, question, answer: Some(u8::from(right)) })
        };
        match key {
            Key::Char(c @ '1'..='4') if c as u8 - b'1' == self.check_answer(tries) => {
                effects.push(keep(true));
                self.stand(now, effects);
            }
            Key::Char('0'..='4') => {
                effects.push(keep(false));
                self.check(now, tries.wrapping_add(1), true, effects);
            }
            _ if key.is('r') => self.check(now, tries.wrapping_add(1), false, effects),
            _ if key.is('g') => {
                effects.push(keep(false));
                self.stand(now, effects);
            }
            _ => {}
        }
    }

    /// What stands on the screen now. It never holds a cue before that cue's time.
    pub fn screen(&self, now: Millis) -> Screen {
        Screen { place: self.place(), body: self.body(now), keys: self.keys(), notices: self.notices() }
    }

    /// Where in the session this is. Empty on most pages before the first set and on the last, which need the room.
    fn place(&self) -> String {
        let number = self.plan.number();
        match self.phase {
            Phase::First => "Counterpoise".to_owned(),
            Phase::Cautions
            | Phase::Health { .. }
            | Phase::Ready { .. }
            | Phase::Check { .. }
            | Phase::Over { .. } => String::new(),
            _ => {
                let warm_up = if number == 1 { ", the warm-up" } else { "" };
                format!("Set {number} of {}{warm_up}", self.begun.sets_planned)
            }
        }
    }

    fn body(&self, now: Millis) -> Body {
        match self.phase {
            Phase::First => self.first_page(),
            Phase::Cautions => self.cautions_page(),
            Phase::Health { part } => page(
                &format!("Your health, page {} of {}", part + 1, CLINICIAN.len()),
                &["Is any of these true of you? What your clinician knows of and agreed to does not count."],
                CLINICIAN[part],
            ),
            Phase::Ready { part } => page(
                &format!("Ready today, page {} of {}", part + 1, READY.len()),
                &["All of this is true today:"],
                READY[part],
            ),
            Phase::Check { wait, .. } if wait.again > 0 => Self::all_right(),
            Phase::Check { wrong, .. } => self.check_page(wrong),
            Phase::Stand { wait } if wait.again > 0 => Self::all_right(),
            Phase::Stand { .. } => self.standing_page(),
            Phase::Count { work_starts, .. } => {
                let to_go = work_starts.map(|starts| starts - now).filter(|to_go| *to_go <= Millis(5_000));
                let number = to_go.map(|to_go| to_go.0.div_ceil(1_000).clamp(1, 5) as u8);
                Body::Count { number, standing: self.posture() }
            }
            Phase::Work { worked, work_starts } => {
                let elapsed = worked + (now - work_starts);
                Body::Work {
                    call: self.shown(elapsed, worked),
                    left: self.plan.work() - elapsed,
                    whole: self.plan.work(),
                }
            }
            Phase::Paused { worked, since } => {
                Body::Paused { left: self.plan.work() - worked, ends_in: LONGEST_PAUSE - (now - since) }
            }
            Phase::Ask { question, wait } => Body::Question {
                ask: questions::words(question).0.to_owned(),
                answers: questions::hints(question),
                asking_again: wait.again > 0,
            },
            Phase::Rest { wait: Some(wait), .. } if wait.again > 0 => Self::all_right(),
            Phase::Rest { since, .. } => Body::Rest {
                left: self.plan.rest() - (now - since),
                whole: self.plan.rest(),
                next: self.next_set(),
            },
            Phase::Over { end } => self.last_page(end),
        }
    }

    /// The call whose moment has come, for a few seconds; none from before a pause.
    fn shown(&self, elapsed: Millis, worked: Millis) -> Option<Shown> {
        let is_now = |at: Millis| at <= elapsed && at >= worked && elapsed - at < SHOWN_FOR;
        let mut cues = self.plan.cues().iter().enumerate().rev();
        let (place, cue) = cues.find(|(_, cue)| cue.at() <= elapsed)?;
        let call = cue.call().filter(|_| is_now(cue.at()))?;
        Some(Shown { words: call.show().to_owned(), direction: call.direction(), cue: place as u16 })
    }

    fn standing(&self) -> Vec<String> {
        let phrases = standing::phrases(&self.plan);
        phrases.into_iter().map(|phrase| phrase.words().to_owned()).collect()
    }

    /// How to stand, for a last look: without what a call asks for, which is longer than a glance.
    fn posture(&self) -> Vec<String> {
        let what_a_call_asks = self.plan.drill().instruction().words();
        self.standing().into_iter().filter(|line| line != what_a_call_asks).collect()
    }

    fn all_right() -> Body {
        Body::Question {
            ask: "Are you all right? Press any key.".to_owned(),
            answers: Vec::new(),
            asking_again: true,
        }
    }

    fn first_page(&self) -> Body {
        let sets = self.schedule.sets();
        let work: Millis = sets.iter().fold(Millis(0), |sum, set| sum + set.work());
        let rest: Millis = sets.iter().rev().skip(1).fold(Millis(0), |sum, set| sum + set.rest());
        let set_up = Millis::from_secs(30 * sets.len() as u32);
        let minutes = (work + rest + set_up).0.div_ceil(60_000);
        let trains = if sets.iter().all(|set| set.drill().trains() == Trains::Voluntary) {
            "A called movement trains a movement you choose. Only a real push, tug or slip trains a reaction, and \
             nothing here promises to prevent falls."
        } else {
            "Nothing here promises to prevent falls."
        };
        let mut text = vec![
            match sets.len() {
                1 => format!("One set, about {minutes} minutes."),
                number => format!("{number} sets, about {minutes} minutes with the rests."),
            },
            "Your therapist's advice, local rules and licensed practice come first.".to_owned(),
            trains.to_owned(),
        ];
        if self.begun.seed_given {
            text.insert(
                1,
                "This practice uses a given seed: somebody could know its calls beforehand.".to_owned(),
            );
        }
        Body::Page { title: self.begun.title.clone(), text, items: Vec::new() }
    }

    fn cautions_page(&self) -> Body {
        let mut items: Vec<String> = Vec::new();
        for caution in self.schedule.sets().iter().flat_map(|set| set.drill().cautions()) {
            if !items.contains(caution) {
                items.push(caution.clone());
            }
        }
        let text = vec![words("practice.ignore"), words("practice.stop-list")];
        Body::Page { title: "While you practice".to_owned(), text, items }
    }

    fn check_page(&self, wrong: bool) -> Body {
        let tones = self.begun.voice == TONES;
        let answers = if tones {
            ["one", "two", "three", "four"].map(str::to_owned).to_vec()
        } else {
            let words = CHECK_WORDS.into_iter().filter_map(Phrase::named);
            words.map(|phrase| phrase.words().to_owned()).collect::<Vec<_>>()
        };
        let ask = if tones { "How many double tones do you hear?" } else { "Which word do you hear?" };
        let ask =
            if wrong { format!("That was another one. Turn the sound up. {ask}") } else { ask.to_owned() };
        let mut answers: Vec<KeyHint> =
            (1..).zip(answers).map(|(key, word)| hint(&format!("{key}"), &word)).collect();
        answers.push(hint("0", "I heard nothing"));
        answers.push(hint("R", "say another one"));
        answers.push(hint("G", "go on and watch the screen as well"));
        Body::Question { ask, answers, asking_again: false }
    }

    fn standing_page(&self) -> Body {
        let seconds = self.plan.work().0 / 1_000;
        let what = format!("{}: {seconds} seconds, after a count of five.", self.plan.drill().title());
        Body::Page { title: "How to stand".to_owned(), text: vec![what], items: self.standing() }
    }

    fn next_set(&self) -> String {
        let next = self.schedule.sets().get(self.set + 1);
        next.map(|set| format!("Next: set {}, {}", set.number(), set.drill().title())).unwrap_or_default()
    }

    fn last_page(&self, end: SessionEnd) -> Body {
        match end {
            SessionEnd::Finished => {
                page("Well done", &["That was the last set. Sit down for a while and drink some water."], &[])
            }
            SessionEnd::NotToday => self.with_number(page(
                "Not today",
                &[
                    "Do not practice now.",
                    "If it is about your health, talk to your clinician or therapist before you start. If it is about \
                     the room, put it right and open Counterpoise again.",
                    "For chest pain, sudden weakness or trouble speaking, call your local emergency number now.",
                ],
                &[],
            )),
            SessionEnd::Unwell => self.with_number(page(
                "Sit down now",
                &[
                    "For chest pain or pressure, bad shortness of breath, new weakness or numbness, or trouble speaking: \
                     call your local emergency number now.",
                    "If it does not pass within five minutes, call for help. Talk to a clinician before you practice \
                     again.",
                ],
                &[],
            )),
            SessionEnd::NotAnswered => self.with_number(page(
                "Nobody answered",
                &[
                    "If you have fallen: lie still and catch your breath.",
                    "If you are hurt or cannot get up, call your local emergency number, or call out for help. A knock \
                     to the head while you take blood thinners needs a doctor, even if you feel well.",
                    "The practice has ended. What you did is kept.",
                ],
                &[],
            )),
            SessionEnd::Grabbed | SessionEnd::StoppedUnsteady => page(
                "We stop here",
                &[
                    "Sit down and rest. To hold on was right.",
                    "No more practice today. Tell your therapist, and start with something gentler next time.",
                ],
                &[],
            ),
            SessionEnd::StoppedOther | SessionEnd::Closed | SessionEnd::Interrupted => {
                page("We stop here", &["What you did is kept. This counts against nobody."], &[])
            }
        }
    }

    /// The same page, with the number to call where the person has given one.
    fn with_number(&self, mut body: Body) -> Body {
        if let (Some(number), Body::Page { items, .. }) = (&self.emergency, &mut body) {
            items.push(format!("Your emergency number: {number}"));
        }
        body
    }

    fn keys(&self) -> Vec<KeyHint> {
        match self.phase {
            Phase::First | Phase::Cautions => vec![hint("Enter", "go on"), hint("S or Esc", "leave")],
            Phase::Health { .. } => {
                vec![hint("A", "none"), hint("X", "one or more"), hint("S or Esc", "leave")]
            }
            Phase::Ready { .. } => {
                vec![hint("A", "all true"), hint("X", "not all"), hint("S or Esc", "leave")]
            }
            Phase::Check { .. } => vec![hint("S or Esc", "leave")],
            Phase::Stand { .. } if self.sound_lost && !self.silent => {
                vec![hint("G", "go on with the screen only"), hint("S or Esc", "stop")]
            }
            Phase::Stand { .. } => vec![hint("any key", "start"), hint("S or Esc", "stop")],
            Phase::Count { .. } | Phase::Work { .. } => {
                vec![hint("S or Esc", "stop"), hint("any other key", "pause")]
            }
            Phase::Paused { .. } if self.sound_lost && !self.silent => vec![hint("S or Esc", "stop")],
            Phase::Paused { .. } => vec![hint("any key", "go on"), hint("S or Esc", "stop")],
            Phase::Ask { question: Question::WhyStopped, .. } => Vec::new(),
            Phase::Ask { .. } | Phase::Rest { wait: None, .. } => vec![hint("S or Esc", "stop")],
            Phase::Rest { wait: Some(_), .. } => vec![hint("any key", "next set"), hint("S or Esc", "stop")],
            Phase::Over { .. } => vec![hint("any key", "leave")],
        }
    }

    fn notices(&self) -> Vec<String> {
        let mut notices = Vec::new();
        if self.not_saved {
            notices
                .push("NOT SAVED. The journal cannot be written now; it is kept and tried again.".to_owned());
        }
        if self.sound_lost && !self.silent {
            let to_do = match self.phase {
                Phase::Stand { .. } => " Plug it in again and wait a moment, or press G.",
                _ => "",
            };
            notices.push(format!("NO SOUND. The sound output was lost.{to_do}"));
        } else if self.silent && self.phase != Phase::First {
            notices.push("NO SOUND. The calls stand on the screen only: watch it.".to_owned());
        }
        // Not while somebody listens for a call.
        if self.disturbed > 0 && !matches!(self.phase, Phase::Count { .. } | Phase::Work { .. }) {
            notices.push("The sound faltered in this set. Some calls may have come late.".to_owned());
        }
        match self.remark {
            Some(SetEnd::SoundLost) => notices.push("The sound was lost, so the set has ended.".to_owned()),
            Some(SetEnd::Slept) => notices.push("The computer slept, so the set has ended.".to_owned()),
            Some(SetEnd::PausedTooLong) => {
                notices.push("The pause was longer than five minutes, so the set has ended.".to_owned());
            }
            _ => {}
        }
        notices
    }
}
