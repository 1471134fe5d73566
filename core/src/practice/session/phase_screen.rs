//! The screen of every phase: its text, its keys, and the notices that must not be missed.

use super::event::Channel;
use super::screen::{Body, KeyHint, Screen, ShownCall};
use super::{LONGEST_PAUSE, Phase, Session, questions};
use crate::draw::schedule::path::{EDGE, Spot};
use crate::draw::schedule::{Call, Cue};
use crate::practice::pose;
use crate::record::{LeftOut, Mishap, Question, RoutinePart, SetEnd};
use crate::units::Millis;

/// How long a call stays on the screen.
const CALL_SHOWN_FOR: Millis = Millis(3_000);

impl Session {
    /// The contents of the screen now. It never holds a cue before that cue's time.
    pub fn screen(&self, now: Millis) -> Screen {
        Screen { place: self.place(), body: self.body(now), keys: self.keys(), notices: self.notices() }
    }

    /// Where in the session this is. Empty on most pages before the first set and on the last, which need the room.
    fn place(&self) -> String {
        let number = self.plan.number();
        match self.phase {
            Phase::First => "Counterpoise".to_owned(),
            Phase::Course { .. }
            | Phase::LeftOut { .. }
            | Phase::Stand { .. }
            | Phase::Count { .. }
            | Phase::Work { .. }
            | Phase::Paused { .. }
            | Phase::Mishap { .. }
            | Phase::Walk { .. }
            | Phase::Ask { .. }
            | Phase::Rest { .. } => {
                let warm_up = if number == 1 { ", the warm-up" } else { "" };
                format!("Set {number} of {}{warm_up}", self.begun.sets_planned)
            }
            Phase::Cautions { .. }
            | Phase::Health { .. }
            | Phase::Ready { .. }
            | Phase::Gentler
            | Phase::InPlace
            | Phase::Partner { .. }
            | Phase::Side { .. }
            | Phase::Check { .. }
            | Phase::Routine { .. }
            | Phase::Over { .. } => String::new(),
        }
    }

    fn body(&self, now: Millis) -> Body {
        match self.phase {
            Phase::First => self.first_page(),
            Phase::Cautions { part } => self.cautions_page(part),
            Phase::Health { part } => Self::health_page(part),
            Phase::Ready { sure } => self.ready_page(sure),
            Phase::Gentler => self.gentler_page(),
            Phase::InPlace => self.in_place_page(),
            Phase::Partner { part } => self.partner_page(part),
            Phase::Side { part } => Self::side_page(part),
            Phase::Routine { part, item, .. } => Self::routine_page(part, item),
            Phase::Check { wait, .. }
            | Phase::Course { wait }
            | Phase::LeftOut { wait }
            | Phase::Stand { wait }
            | Phase::Rest { wait: Some(wait), .. }
                if wait.again > 0 =>
            {
                Self::all_right()
            }
            Phase::Check { wrong, .. } => self.check_page(wrong),
            Phase::Course { .. } => Body::Course { patches: self.course.clone() },
            Phase::LeftOut { .. } => self.left_out_page(),
            Phase::Stand { .. } => self.standing_page(),
            Phase::Count { work_starts, .. } => {
                let to_go = work_starts.map(|starts| starts - now).filter(|to_go| *to_go <= Millis(5_000));
                let number = to_go.map(|to_go| to_go.0.div_ceil(1_000).clamp(1, 5) as u8);
                Body::Count { number, standing: self.posture() }
            }
            Phase::Work { worked, work_starts } => self.work(worked + (now - work_starts), worked),
            Phase::Paused { worked, since } => {
                Body::Paused { left: self.plan.work() - worked, ends_in: LONGEST_PAUSE - (now - since) }
            }
            Phase::Mishap { what, wait, .. } => Self::wrong_key(
                match what {
                    Mishap::Grab => {
                        "Partner: did you grab or steady the trainee, or was there a grab for hold?"
                    }
                    Mishap::Fall => "Partner: did the trainee fall?",
                },
                wait.again > 0,
            ),
            Phase::Walk { sure: Some(what), wait, .. } => {
                Self::wrong_key(&format!("Partner: \"{what}\". Is that right?"), wait.again > 0)
            }
            Phase::Walk { cue, sure: None, wait } => Body::Question {
                ask: self.ask_for(cue),
                answers: Self::response_keys(),
                asking_again: wait.again > 0,
            },
            Phase::Ask { question, wait } => Body::Question {
                ask: questions::words(question).to_owned(),
                answers: questions::hints(question),
                asking_again: wait.again > 0,
            },
            Phase::Rest { since, .. } => Body::Rest {
                left: self.plan.rest() - (now - since),
                whole: self.plan.rest(),
                next: self.next_set(),
            },
            Phase::Over { end } => self.last_page(end),
        }
    }

    /// The work as the screen shows it. With an earbud the trainee sees the screen too, so it shows nothing of a push.
    fn work(&self, elapsed: Millis, worked: Millis) -> Body {
        let (left, whole) = (self.plan.work() - elapsed, self.plan.work());
        if self.channel() == Channel::PartnerScreen {
            return Body::Partner { item: self.partner_item(elapsed, worked), left, whole };
        }
        if let Some(spot) = self.target_spot(elapsed, worked) {
            let per_mille = |place: i32| ((place + EDGE).clamp(0, 2 * EDGE) * 1_000 / (2 * EDGE)) as u16;
            let (across_per_mille, down_per_mille) = (per_mille(spot.x), per_mille(spot.y));
            return Body::Follow { across_per_mille, down_per_mille, left, whole };
        }
        Body::Work { call: self.current_call(elapsed, worked), left, whole }
    }

    /// Where the slow target is, while a call says to watch it. Its path is that of the whole set.
    fn target_spot(&self, elapsed: Millis, worked: Millis) -> Option<Spot> {
        let on = |cue: &Cue| {
            cue.at() >= worked && cue.at() <= elapsed && cue.until().is_some_and(|until| elapsed < until)
        };
        let watch = |cue: &&Cue| cue.call().is_some_and(|call| call.action().needs_screen());
        self.plan.cues().iter().filter(watch).find(|cue| on(cue))?;
        Some(self.path.at(elapsed))
    }

    /// The call whose moment has come, for a few seconds; none from before a pause.
    fn current_call(&self, elapsed: Millis, worked: Millis) -> Option<ShownCall> {
        let is_now = |at: Millis| at <= elapsed && at >= worked && elapsed - at < CALL_SHOWN_FOR;
        let mut cues = self.plan.cues().iter().enumerate().rev();
        let (place, cue) = cues.find(|(_, cue)| cue.at() <= elapsed)?;
        let told_only = |call: &&Call| self.channel() != Channel::Trainee && call.say().is_empty();
        let call = cue.call().filter(|call| is_now(cue.at()) && !told_only(call))?;
        Some(ShownCall { words: call.show().to_owned(), direction: call.direction(), cue: place as u16 })
    }

    fn stance_lines(&self) -> Vec<String> {
        let phrases = pose::phrases(&self.plan);
        phrases.into_iter().map(|phrase| phrase.words().to_owned()).collect()
    }

    /// How to stand, for a last look: without what a call asks for, which is longer than a glance.
    fn posture(&self) -> Vec<String> {
        let what_a_call_asks = self.plan.drill().instruction(self.plan.balls()).words();
        self.stance_lines().into_iter().filter(|line| line != what_a_call_asks).collect()
    }

    fn all_right() -> Body {
        Body::Question {
            ask: "Are you all right? Press any key.".to_owned(),
            answers: Vec::new(),
            asking_again: true,
        }
    }

    fn wrong_key(ask: &str, asking_again: bool) -> Body {
        let answers = vec![KeyHint::new("Y", "yes"), KeyHint::new("N", "no, wrong key")];
        Body::Question { ask: ask.to_owned(), answers, asking_again }
    }

    fn standing_page(&self) -> Body {
        let seconds = self.plan.work().0 / 1_000;
        let what = format!("{}: {seconds} seconds, after a count of five.", self.plan.drill().title());
        let partner = match (self.is_with_partner(), self.mode) {
            (true, _) if self.has_pushes() => {
                Some("Partner: stand within reach, both hands free. Ask \"ready?\". The trainee may refuse.")
            }
            (true, _) => Some("Partner: stand within reach, both hands free."),
            (false, Channel::PartnerEarbud) => Some("Partner: say each call aloud as you hear it."),
            (false, _) => None,
        };
        let text = [Some(what.as_str()), partner].into_iter().flatten().map(str::to_owned).collect();
        Body::Page { title: "How to stand".to_owned(), text, items: self.stance_lines() }
    }

    fn left_out_page(&self) -> Body {
        let why = if self.left_out == Some(LeftOut::Refused) {
            "You did not want this set. That is fine, and counts against nobody."
        } else {
            "This set closes the eyes. You must hear \"open your eyes\", and the sound was not checked today or goes to an earbud."
        };
        Body::page("This set is left out", &[why], &[])
    }

    fn next_set(&self) -> String {
        let next = self.schedule.sets().get(self.set + 1);
        next.map(|set| format!("Next: set {}, {}", set.number(), set.drill().title())).unwrap_or_default()
    }

    fn keys(&self) -> Vec<KeyHint> {
        match self.phase {
            Phase::First | Phase::Cautions { .. } | Phase::Gentler => {
                vec![KeyHint::new("Enter", "go on"), KeyHint::new("S or Esc", "leave")]
            }
            Phase::Health { .. } => {
                vec![
                    KeyHint::new("A", "none"),
                    KeyHint::new("X", "one or more"),
                    KeyHint::new("S or Esc", "leave"),
                ]
            }
            Phase::Ready { sure } => self.ready_keys(sure),
            Phase::InPlace => {
                vec![
                    KeyHint::new("A", "all true"),
                    KeyHint::new("X", "not all"),
                    KeyHint::new("S or Esc", "leave"),
                ]
            }
            Phase::Partner { part } => self.partner_keys(part),
            Phase::Side { .. } | Phase::Check { .. } => vec![KeyHint::new("S or Esc", "leave")],
            Phase::Routine { part: RoutinePart::WarmUp, .. } => {
                vec![KeyHint::new("any key", "go on to the practice"), KeyHint::new("S or Esc", "stop")]
            }
            Phase::Routine { part: RoutinePart::CoolDown, .. } => {
                vec![KeyHint::new("any key", "end it"), KeyHint::new("S or Esc", "stop")]
            }
            Phase::Course { .. } | Phase::LeftOut { .. } => {
                vec![KeyHint::new("any key", "go on"), KeyHint::new("S or Esc", "stop")]
            }
            Phase::Stand { .. } if self.sound_lost && !self.silent => {
                vec![KeyHint::new("G", "go on with the screen only"), KeyHint::new("S or Esc", "stop")]
            }
            Phase::Stand { .. } => self.set_keys("start"),
            Phase::Count { .. } | Phase::Work { .. } => self.set_keys("pause"),
            Phase::Paused { .. } if self.sound_lost && !self.silent => vec![KeyHint::new("S or Esc", "stop")],
            Phase::Paused { .. } => self.set_keys("go on"),
            Phase::Ask { question: Question::WhyStopped | Question::Hurt, .. } => Vec::new(),
            Phase::Mishap { .. }
            | Phase::Walk { .. }
            | Phase::Ask { .. }
            | Phase::Rest { wait: None, .. } => {
                vec![KeyHint::new("S or Esc", "stop")]
            }
            Phase::Rest { wait: Some(_), .. } => {
                vec![KeyHint::new("any key", "next set"), KeyHint::new("S or Esc", "stop")]
            }
            Phase::Over { .. } => vec![KeyHint::new("any key", "leave")],
        }
    }

    /// The keys around the work of a set, most useful first: while it goes on, how to stop it.
    fn set_keys(&self, any: &str) -> Vec<KeyHint> {
        let (stop, partner) = (KeyHint::new("S or Esc", "stop"), self.is_with_partner());
        let mut own = Vec::new();
        if partner {
            own.extend([KeyHint::new("G", "grabbed or steadied"), KeyHint::new("F", "fell")]);
        }
        if matches!(self.phase, Phase::Stand { .. } | Phase::Paused { .. }) {
            if self.has_pushes() {
                own.push(KeyHint::new("R", "refuse this set"));
            }
            let any = KeyHint::new(if partner { "any other key" } else { "any key" }, any);
            [vec![any], own, vec![stop]].concat()
        } else {
            [vec![stop], own, vec![KeyHint::new("any other key", any)]].concat()
        }
    }

    fn notices(&self) -> Vec<String> {
        let mut notices: Vec<String> =
            self.closing_words.iter().map(|close| format!("{}.", close.words().to_uppercase())).collect();
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
            notices.push(
                match self.mode {
                    Channel::Trainee => "NO SOUND. The calls stand on the screen only: watch it.",
                    _ => "NO SOUND. The calls stand on the screen only. Partner: turn it away from the trainee.",
                }
                .to_owned(),
            );
        }
        // Not while somebody listens for a call.
        if self.disturbed > 0 && !matches!(self.phase, Phase::Count { .. } | Phase::Work { .. }) {
            notices.push("The sound faltered in this set. Some calls may have come late.".to_owned());
        }
        if self.step_lower_advised {
            notices.push("That was once too much. Rest now. One step gentler next time.".to_owned());
        }
        match self.set_end {
            Some(SetEnd::SoundLost) => notices.push("The sound was lost, so the set has ended.".to_owned()),
            Some(SetEnd::Slept) => notices.push("The computer slept, so the set has ended.".to_owned()),
            Some(SetEnd::PausedTooLong) => {
                notices.push("The pause was longer than five minutes, so the set has ended.".to_owned());
            }
            Some(SetEnd::Refused) => {
                notices.push("No more of this set. That counts against nobody.".to_owned());
            }
            _ => {}
        }
        notices
    }
}
