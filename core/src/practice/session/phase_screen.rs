//! The screen of every phase: its text, its keys, and the notices that must not be missed.

use super::after_set::{AfterPhase, AfterSet};
use super::current_set::CurrentSet;
use super::event::Channel;
use super::opening::{Before, Page, health_page};
use super::partner_pages::side_page;
use super::response_questions::response_keys;
use super::routines::{leave_out_body, routine_page};
use super::screen::{Body, KeyHint, Screen, ShownCall};
use super::set::{InSet, LONGEST_PAUSE, SetPhase};
use super::sound_check::check_page;
use super::three_keys::answer_keys;
use super::{Session, State, Whole, questions};
use crate::draw::schedule::path::{EDGE, Spot};
use crate::draw::schedule::{Call, Cue};
use crate::health::readiness::Page as ReadyPage;
use crate::practice::pose;
use crate::record::{LeftOut, Mishap, Question, RoutinePart, SetEnd};
use crate::units::Millis;

/// How long a call stays on the screen: less than the least gap \[judgment\].
const CALL_SHOWN_FOR: Millis = Millis(3_000);

impl Session {
    /// The contents of the screen now. It never holds a cue before that cue's time.
    pub fn screen(&self, now: Millis) -> Screen {
        let whole = &self.whole;
        let (body, keys) = match &self.state {
            State::Before(here) => (here.body(whole), here.keys(whole)),
            State::InSet(here) => (here.body(whole, now), here.keys(whole)),
            State::AfterSet(here) => (here.body(whole, now), here.keys()),
            State::Over(over) => (over.page.clone(), over.keys(whole)),
        };
        let mut screen = Screen { place: self.place(), body, keys, notices: self.notices() };
        let keys_here = if self.wrong_key { screen.keys_here() } else { None };
        screen.notices.extend(keys_here);
        screen
    }

    /// Where in the session this is. Empty on most pages before the first set and on the last, which need the room.
    fn place(&self) -> String {
        let in_set = match &self.state {
            State::Before(here) => match here.page {
                Page::First => return "Counterpoise".to_owned(),
                Page::Ready { .. } => return here.ready_place(),
                page => matches!(page, Page::Weekly { .. }),
            },
            State::InSet(_) => true,
            State::AfterSet(here) => {
                !matches!(here.phase, AfterPhase::CoolDown { .. } | AfterPhase::LeaveOutCoolDown { .. })
            }
            State::Over(_) => false,
        };
        let number = self.set_number();
        let warm_up = if number == 1 { ", the warm-up" } else { "" };
        let place = || format!("Set {number} of {}{warm_up}", self.whole.begun.sets_planned);
        in_set.then(place).unwrap_or_default()
    }

    fn notices(&self) -> Vec<String> {
        let whole = &self.whole;
        let notes = self.state.notes();
        let close = notes.and_then(|notes| notes.closing_words);
        let mut notices: Vec<String> =
            close.iter().map(|close| format!("{}.", close.words().to_uppercase())).collect();
        if whole.not_saved {
            notices
                .push("NOT SAVED. The journal cannot be written now; it is kept and tried again.".to_owned());
        }
        let phase = if let State::InSet(here) = &self.state { Some(here.phase) } else { None };
        let is_first = matches!(&self.state, State::Before(here) if matches!(here.page, Page::First));
        if whole.is_without_output() {
            let to_do = match phase {
                Some(SetPhase::Stand { .. }) => " Plug it in again and wait a moment, or press G.",
                _ => "",
            };
            notices.push(format!("NO SOUND. The sound output was lost.{to_do}"));
        } else if whole.silent && !is_first {
            notices.push(
                match whole.mode {
                    Channel::Trainee => "NO SOUND. The calls stand on the screen only: watch it.",
                    _ => "NO SOUND. The calls stand on the screen only. Partner: turn it away from the trainee.",
                }
                .to_owned(),
            );
        }
        let Some(notes) = notes else { return notices };
        // Not while somebody listens for a call.
        let listens = matches!(phase, Some(SetPhase::Count { .. } | SetPhase::Work { .. }));
        let faltered = notes.disturbed > 0 && !listens;
        let ended = match notes.end {
            Some(SetEnd::SoundLost) => Some("The sound was lost, so the set has ended."),
            Some(SetEnd::Halted) => Some("The computer slept or stopped, so the set has ended."),
            Some(SetEnd::PausedTooLong) => {
                Some("The pause was longer than five minutes, so the set has ended.")
            }
            Some(SetEnd::Refused) => Some("No more of this set. That counts against nobody."),
            _ => None,
        };
        let of_set = [
            faltered.then_some("The sound faltered in this set. Some calls may have come late."),
            notes
                .step_lower_advised
                .then_some("That was once too much. Rest now. One step gentler next time."),
            ended,
        ];
        notices.extend(of_set.into_iter().flatten().map(str::to_owned));
        notices
    }
}

fn leave() -> KeyHint {
    KeyHint::new("S or Esc", "leave")
}

fn stop() -> KeyHint {
    KeyHint::new("S or Esc", "stop")
}

impl Before {
    fn body(&self, whole: &Whole) -> Body {
        match self.page {
            Page::First => whole.first_page(),
            Page::Cautions { part } => whole.cautions_page(part),
            Page::Health { part } => health_page(part),
            Page::Ready { sure } => self.ready_page(sure),
            Page::SameFall => self.same_fall_page(whole),
            Page::Gentler => self.gentler_page(),
            Page::Weekly { question, wait } => question_body(question, wait.is_asking()),
            Page::InPlace => whole.in_place_page(),
            Page::Partner { part } => whole.partner_page(part),
            Page::Side { part } => side_page(part),
            Page::Check { wait, .. } if wait.is_asking() => all_right(),
            Page::Check { wrong, .. } => check_page(whole, wrong),
            Page::WarmUp { item, .. } => routine_page(RoutinePart::WarmUp, item, whole),
            Page::LeaveOutWarmUp { .. } => leave_out_body(RoutinePart::WarmUp, whole),
        }
    }

    fn keys(&self, whole: &Whole) -> Vec<KeyHint> {
        match self.page {
            Page::First | Page::Cautions { .. } | Page::Gentler => {
                vec![KeyHint::new("Enter", "go on"), leave()]
            }
            Page::Health { .. } => {
                [answer_keys(|answer| ReadyPage::Body.words(answer)), vec![leave()]].concat()
            }
            Page::Ready { sure } => self.ready_keys(sure, whole.silent),
            Page::InPlace => [answer_keys(|answer| ReadyPage::Room.words(answer)), vec![leave()]].concat(),
            Page::Partner { part } => whole.partner_keys(part),
            Page::SameFall | Page::Side { .. } | Page::Check { .. } => vec![leave()],
            Page::Weekly { .. } | Page::LeaveOutWarmUp { .. } => vec![stop()],
            Page::WarmUp { .. } => vec![KeyHint::new("any other key", "leave it out?"), stop()],
        }
    }
}

impl InSet {
    fn body(&self, whole: &Whole, now: Millis) -> Body {
        let set = &self.set;
        match self.phase {
            SetPhase::Course { wait } | SetPhase::LeftOut { wait, .. } | SetPhase::Stand { wait }
                if wait.is_asking() =>
            {
                all_right()
            }
            SetPhase::Course { .. } => Body::Course { patches: whole.course.clone() },
            SetPhase::LeftOut { why, .. } => left_out_page(why),
            SetPhase::Stand { .. } => set.standing_page(whole),
            SetPhase::Count { work_starts, .. } => {
                let to_go = work_starts.map(|starts| starts - now).filter(|to_go| *to_go <= Millis(5_000));
                let number = to_go.map(|to_go| to_go.0.div_ceil(1_000).clamp(1, 5) as u8);
                Body::Count { number, standing: set.posture() }
            }
            SetPhase::Work { worked, work_starts } => set.work(whole, worked + (now - work_starts), worked),
            SetPhase::Paused { worked, since } => {
                Body::Paused { left: set.plan.work() - worked, ends_in: LONGEST_PAUSE - (now - since) }
            }
            SetPhase::Mishap { what, wait, .. } => wrong_key(
                match what {
                    Mishap::Grab => {
                        "Partner: did you grab or steady the trainee, or was there a grab for hold?"
                    }
                    Mishap::Fall => "Partner: did the trainee fall?",
                },
                wait.is_asking(),
            ),
        }
    }

    fn keys(&self, whole: &Whole) -> Vec<KeyHint> {
        match self.phase {
            SetPhase::Course { .. } | SetPhase::LeftOut { .. } => {
                vec![KeyHint::new("any key", "go on"), stop()]
            }
            SetPhase::Stand { .. } if whole.is_without_output() => {
                vec![KeyHint::new("G", "go on with the screen only"), stop()]
            }
            SetPhase::Paused { .. } if whole.is_without_output() => vec![stop()],
            SetPhase::Mishap { .. } => vec![stop()],
            SetPhase::Stand { .. } => self.set_keys(whole, true, "start"),
            SetPhase::Paused { .. } => self.set_keys(whole, true, "go on"),
            SetPhase::Count { .. } | SetPhase::Work { .. } => self.set_keys(whole, false, "pause"),
        }
    }

    /// The keys around the work of a set, most useful first: while it goes on, how to stop it.
    fn set_keys(&self, whole: &Whole, rests: bool, any: &str) -> Vec<KeyHint> {
        let partner = self.set.is_with_partner();
        let mut own = Vec::new();
        if partner {
            own.extend([KeyHint::new("G", "grabbed or steadied"), KeyHint::new("F", "fell")]);
        }
        if !rests {
            return [vec![stop()], own, vec![KeyHint::new("any other key", any)]].concat();
        }
        if whole.has_pushes(&self.set.plan) {
            own.push(KeyHint::new("R", "refuse this set"));
        }
        let any = KeyHint::new(if partner { "any other key" } else { "any key" }, any);
        [vec![any], own, vec![stop()]].concat()
    }
}

impl AfterSet {
    fn body(&self, whole: &Whole, now: Millis) -> Body {
        let rest = self.set.plan.rest();
        let resting = |left| Body::Rest { left, whole: rest, next: self.set.next_set(whole) };
        match self.phase {
            AfterPhase::Walk { sure: Some(what), wait, .. } => {
                wrong_key(&format!("Partner: \"{what}\". Is that right?"), wait.is_asking())
            }
            AfterPhase::Walk { cue, sure: None, wait } => Body::Question {
                ask: self.set.ask_for(whole, cue),
                answers: response_keys(),
                asking_again: wait.is_asking(),
            },
            AfterPhase::Ask { question, wait } => question_body(question, wait.is_asking()),
            AfterPhase::Fell { wait, .. } => question_body(Question::Fell, wait.is_asking()),
            AfterPhase::Rested { wait } if wait.is_asking() => all_right(),
            AfterPhase::Rested { .. } => resting(Millis(0)),
            AfterPhase::Rest { since, .. } => resting(rest - (now - since)),
            AfterPhase::CoolDown { item, .. } => routine_page(RoutinePart::CoolDown, item, whole),
            AfterPhase::LeaveOutCoolDown { .. } => leave_out_body(RoutinePart::CoolDown, whole),
        }
    }

    fn keys(&self) -> Vec<KeyHint> {
        match self.phase {
            AfterPhase::Fell { .. } => Vec::new(),
            AfterPhase::Ask { question, .. } if questions::must_be_answered(question) => Vec::new(),
            AfterPhase::Walk { .. }
            | AfterPhase::Ask { .. }
            | AfterPhase::Rest { .. }
            | AfterPhase::LeaveOutCoolDown { .. } => vec![stop()],
            AfterPhase::Rested { .. } => vec![KeyHint::new("any key", "next set"), stop()],
            AfterPhase::CoolDown { .. } => vec![KeyHint::new("any other key", "leave it out?"), stop()],
        }
    }
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

fn question_body(question: Question, asking_again: bool) -> Body {
    let ask = questions::words(question).to_owned();
    Body::Question { ask, answers: questions::hints(question), asking_again }
}

fn left_out_page(why: LeftOut) -> Body {
    let why = if why == LeftOut::Refused {
        "You did not want this set. That is fine, and counts against nobody."
    } else {
        "This set closes the eyes. You must hear \"open your eyes\", and the sound was not checked today or goes to an earbud."
    };
    Body::page("This set is left out", &[why], &[])
}

impl CurrentSet {
    /// The work as the screen shows it. With an earbud the trainee sees the screen too, so it shows nothing of a push.
    fn work(&self, whole: &Whole, elapsed: Millis, worked: Millis) -> Body {
        let channel = whole.channel(&self.plan);
        let item = || self.partner_item(whole, elapsed, worked);
        let (left, whole) = (self.plan.work() - elapsed, self.plan.work());
        if channel == Channel::PartnerScreen {
            return Body::Partner { item: item(), left, whole };
        }
        if let Some(spot) = self.target_spot(elapsed, worked) {
            let per_mille = |place: i32| ((place + EDGE).clamp(0, 2 * EDGE) * 1_000 / (2 * EDGE)) as u16;
            let (across_per_mille, down_per_mille) = (per_mille(spot.x), per_mille(spot.y));
            return Body::Follow { across_per_mille, down_per_mille, left, whole };
        }
        Body::Work { call: self.current_call(channel, elapsed, worked), left, whole }
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
    fn current_call(&self, channel: Channel, elapsed: Millis, worked: Millis) -> Option<ShownCall> {
        let is_now = |at: Millis| at <= elapsed && at >= worked && elapsed - at < CALL_SHOWN_FOR;
        let mut cues = self.plan.cues().iter().enumerate().rev();
        let (place, cue) = cues.find(|(_, cue)| cue.at() <= elapsed)?;
        let told_only = |call: &&Call| channel != Channel::Trainee && call.say().is_empty();
        let call = cue.call().filter(|call| is_now(cue.at()) && !told_only(call))?;
        Some(ShownCall { words: call.show().to_owned(), direction: call.direction(), cue: place as u16 })
    }

    fn stance_lines(&self) -> Vec<String> {
        let phrases = pose::phrases(&self.plan);
        phrases.into_iter().map(|phrase| phrase.words().to_owned()).collect()
    }

    /// How to stand, for a last look: without what moves and what a call asks for, which are longer than a glance.
    fn posture(&self) -> Vec<String> {
        let what_a_call_asks = self.plan.drill().instruction(self.plan.balls()).words();
        let is_long = |line: &String| {
            line == what_a_call_asks || self.plan.moves().iter().any(|moves| moves.words() == line)
        };
        self.stance_lines().into_iter().filter(|line| !is_long(line)).collect()
    }

    fn standing_page(&self, whole: &Whole) -> Body {
        let seconds = self.plan.work().0 / 1_000;
        let what = format!("{}: {seconds} seconds, after a count of five.", self.plan.drill().title());
        let partner = match (self.is_with_partner(), whole.mode) {
            (true, _) if whole.has_pushes(&self.plan) => {
                Some("Partner: stand within reach, both hands free. Ask \"ready?\". The trainee may refuse.")
            }
            (true, _) => Some("Partner: stand within reach, both hands free."),
            (false, Channel::PartnerEarbud) => Some("Partner: say each call aloud as you hear it."),
            (false, _) => None,
        };
        let never = self.plan.precautions();
        let never = (!never.is_empty()).then(|| format!("Your precautions: {never}."));
        let text = [Some(what.as_str()), never.as_deref(), partner]
            .into_iter()
            .flatten()
            .map(str::to_owned)
            .collect();
        Body::Page { title: "How to stand".to_owned(), text, items: self.stance_lines() }
    }

    fn next_set(&self, whole: &Whole) -> String {
        let next = whole.schedule.sets().get(self.index + 1);
        next.map(|set| format!("Next: set {}, {}", set.number(), set.drill().title())).unwrap_or_default()
    }
}
