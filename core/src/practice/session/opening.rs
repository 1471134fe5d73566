//! The pages before the first set, and what their keys do. The partner's pages are in `partner_pages`, the sound check
//! in `sound_check`.

use super::after_set::{AfterFell, AfterSet};
use super::closing::Over;
use super::current_set::{CurrentSet, Notes};
use super::questions::{Reply, reply};
use super::screen::Body;
use super::three_keys::answer_of;
use super::{Channel, Effect, Key, State, Turn, Wait, Whole};
use crate::draw::schedule::{Schedule, Scheduler};
use crate::health::readiness::{Check, Page as ReadyPage};
use crate::plan::caution::{self, CLINICIAN, Caution, Contents, OfDrill, Statement, Surface};
use crate::plan::drill::{Need, Trains};
use crate::plan::phrase::Phrase;
use crate::plan::prescription::DrillPlan;
use crate::practice::routine::Routine;
use crate::record::{
    Answer, Decided, Entry, Question, RoutineEnd, RoutinePart, SessionEnd, Stamp, TriedOut, YesNoNotSure,
};
use crate::units::Millis;
use jiff::civil::Date;

/// Reasons to see a clinician first on one page: as many as are drawn large on a large screen \[derived: `tests/program/screens.rs`\].
const REASONS_ON_A_PAGE: usize = 6;

/// What a cue toward the back needs (judgment).
const BEHIND: &str = "A wall or a second counter is within half a step behind me.";

/// The characters of cautions on the page that has the stop list too: as many as are drawn large on a large screen
/// \[derived: `tests/program/screens.rs`\].
const BESIDE_THE_STOP_LIST: usize = 240;
/// The same on each page that follows \[derived\].
const ON_A_PAGE: usize = 420;

/// The words of a phrase: pages show the same words that are spoken.
fn words(id: &str) -> String {
    Phrase::own(id).words().to_owned()
}

/// A fall that is known already: a fall reported before practice may be the same.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct KnownFall {
    /// The day of the practice in which it happened, or before which it was reported.
    pub day: Date,
    /// It happened in the practice.
    pub in_practice: bool,
}

/// What is known of the person before today's questions.
#[derive(Debug, Default)]
#[expect(clippy::struct_excessive_bools, reason = "each is a fact of its own")]
pub struct Preparation {
    /// What progression decided, to be kept.
    pub decided: Option<Decided>,
    /// The same session one step lower, for a day that calls for it; `None` if it is that already.
    pub gentler: Option<(Scheduler, Schedule)>,
    /// The same session for a day on which a fall is told that is no reason to rest: one step lower, without what needs an
    /// unlock, tosses and wall throws. `None` if [`Preparation::gentler`] is that already.
    pub after_fall: Option<(Scheduler, Schedule)>,
    /// There was a grab in the last 28 days, so that the first one today is the second.
    pub grab_lately: bool,
    /// The person felt unwell in the last practice, and has not reported since that it passed.
    pub unwell_last_time: bool,
    /// It is the first practice of a week, and not the first of all: how the week was is asked.
    pub weekly: bool,
    /// The questions about suitability were answered, so that the pages about health are not needed.
    pub suitability_known: bool,
    /// The last fall that is known since the last practice began.
    pub known_fall: Option<KnownFall>,
    /// Who is watching, for a supervised try-out.
    pub tried_out: Option<TriedOut>,
}

/// The session before its first set.
#[derive(Debug)]
pub(super) struct Before {
    pub(super) page: Page,
    /// What is known of the person.
    pub(super) preparation: Preparation,
    /// Today's questions.
    pub(super) ready: Check,
    /// Their answers are kept.
    pub(super) ready_kept: bool,
}

#[derive(Debug, Clone, Copy)]
pub(super) enum Page {
    First,
    Cautions {
        part: usize,
    },
    Health {
        part: usize,
    },
    /// `sure`: the answer that would lock, asked once more.
    Ready {
        sure: Option<YesNoNotSure>,
    },
    SameFall,
    Gentler,
    Weekly {
        question: Question,
        wait: Wait,
    },
    InPlace,
    Partner {
        part: usize,
    },
    Side {
        part: usize,
    },
    Check {
        tries: u8,
        wrong: bool,
        wait: Wait,
    },
    WarmUp {
        item: usize,
        since: Millis,
    },
    /// A key was pressed in this sentence of the warm-up: it is asked whether to leave out the rest.
    LeaveOutWarmUp {
        item: usize,
        since: Millis,
    },
}

impl Before {
    pub(super) fn turn_to(mut self: Box<Self>, page: Page) -> State {
        self.page = page;
        State::Before(self)
    }

    pub(super) fn wait(&mut self) -> Option<&mut Wait> {
        match &mut self.page {
            Page::Weekly { wait, .. } | Page::Check { wait, .. } => Some(wait),
            _ => None,
        }
    }

    pub(super) fn tick(self: Box<Self>, turn: &mut Turn<'_>) -> State {
        match self.page {
            Page::WarmUp { item, since } => self.advance_warm_up(item, since, turn),
            Page::LeaveOutWarmUp { item, since } if turn.is_unanswered(since) => self.warm_up(item, turn),
            _ => State::Before(self),
        }
    }

    pub(super) fn key(self: Box<Self>, key: Key, turn: &mut Turn<'_>) -> State {
        let answer = answer_of(key);
        let on = key == Key::Enter || key == Key::Char(' ');
        match self.page {
            Page::Weekly { question, .. } => self.weekly_key(question, key, turn),
            Page::WarmUp { .. } | Page::LeaveOutWarmUp { .. } if key.stops() => self.stop(turn),
            Page::WarmUp { item, .. } => {
                turn.asks_to_leave_out();
                self.turn_to(Page::LeaveOutWarmUp { item, since: turn.now.at })
            }
            Page::LeaveOutWarmUp { item, .. } => {
                turn.hush();
                match key.is('y') {
                    true => Self::end_warm_up(RoutineEnd::Skipped, turn),
                    false => self.warm_up(item, turn),
                }
            }
            _ if key.stops() => {
                let over = self.end(SessionEnd::StoppedOther, turn);
                turn.effects.push(Effect::Leave);
                over
            }
            Page::First if on => self.turn_to(Page::Cautions { part: 0 }),
            Page::Cautions { part } if on && part + 1 < turn.whole.cautions().len() => {
                self.turn_to(Page::Cautions { part: part + 1 })
            }
            Page::Cautions { .. } if on => {
                turn.whole.begun.begun = Stamp::from(&turn.now.wall);
                turn.record(Entry::SessionBegun(turn.whole.begun.clone()));
                self.begin_pages(turn)
            }
            Page::Health { part }
                if answer == Some(YesNoNotSure::No) && part + 1 < CLINICIAN.len() / REASONS_ON_A_PAGE =>
            {
                self.turn_to(Page::Health { part: part + 1 })
            }
            Page::Health { .. } if answer.is_some() => self.confirm(Answer::ClinicianFirst(answer), turn),
            Page::Ready { sure } => self.ready_key(sure, key, turn),
            Page::SameFall => self.same_fall_key(key, turn),
            Page::Gentler if on => self.after_readiness(turn),
            Page::InPlace if answer.is_some() => self.confirm(Answer::InPlace(answer), turn),
            Page::Partner { part } => self.partner_key(part, key, turn),
            Page::Side { part } => self.side_key(part, key, turn),
            Page::Check { tries, .. } => self.check_key(key, tries, turn),
            _ => State::Before(self),
        }
    }

    /// Keeps the answer. After the good one the next pages come; after another, there is no practice today.
    pub(super) fn confirm(self: Box<Self>, answer: Answer, turn: &mut Turn<'_>) -> State {
        turn.record(Entry::answered(None, answer));
        match answer {
            Answer::ClinicianFirst(Some(YesNoNotSure::No)) => self.turn_to(Page::Ready { sure: None }),
            Answer::PartnerReady(Some(YesNoNotSure::Yes)) if turn.whole.room.is_none() => {
                self.turn_to(Page::Side { part: 0 })
            }
            Answer::PartnerReady(Some(YesNoNotSure::Yes)) => self.after_pages(turn),
            Answer::InPlace(Some(YesNoNotSure::Yes)) => self.meet_the_partner(turn),
            _ => self.end(SessionEnd::NotToday, turn),
        }
    }

    /// The person is ready: once a week how the week was, then what must be in place, then the partner.
    pub(super) fn after_readiness(mut self: Box<Self>, turn: &mut Turn<'_>) -> State {
        if std::mem::take(&mut self.preparation.weekly) {
            return self.ask_weekly(Some(Question::WEEKLY[0]), turn);
        }
        if turn.whole.in_place_today().is_empty() {
            return self.meet_the_partner(turn);
        }
        self.turn_to(Page::InPlace)
    }

    fn ask_weekly(self: Box<Self>, question: Option<Question>, turn: &mut Turn<'_>) -> State {
        match question {
            Some(question) => self.turn_to(Page::Weekly { question, wait: turn.wait() }),
            None => self.after_readiness(turn),
        }
    }

    fn weekly_key(self: Box<Self>, question: Question, key: Key, turn: &mut Turn<'_>) -> State {
        match reply(question, key) {
            Reply::Answer(answer) => {
                turn.hush();
                turn.record(Entry::answered(None, answer));
                let next = Question::WEEKLY.into_iter().skip_while(|asked| *asked != question).nth(1);
                self.ask_weekly(next, turn)
            }
            Reply::Stop => self.stop(turn),
            Reply::Nothing => State::Before(self),
        }
    }

    /// The pages for the partner, where there is one.
    fn meet_the_partner(self: Box<Self>, turn: &mut Turn<'_>) -> State {
        let alone = turn.whole.mode == Channel::Trainee;
        if alone { self.after_pages(turn) } else { self.turn_to(Page::Partner { part: 0 }) }
    }

    /// After the pages: the sound check, or the warm-up where there is no sound to check.
    pub(super) fn after_pages(self: Box<Self>, turn: &mut Turn<'_>) -> State {
        if turn.whole.silent { self.begin_warm_up(turn) } else { self.check(0, false, turn) }
    }

    /// Stopped after the pages: why is asked as after a set.
    fn stop(self: Box<Self>, turn: &mut Turn<'_>) -> State {
        turn.hush();
        self.break_off_warm_up(turn);
        AfterSet::ask_fell(CurrentSet::new(0, turn.whole), AfterFell::WhyStopped, turn)
    }

    pub(super) fn close(self: Box<Self>, turn: &mut Turn<'_>) -> State {
        self.break_off_warm_up(turn);
        self.end(SessionEnd::Closed, turn)
    }

    fn break_off_warm_up(&self, turn: &mut Turn<'_>) {
        if let Page::WarmUp { .. } | Page::LeaveOutWarmUp { .. } = self.page {
            turn.routine_over(RoutinePart::WarmUp, RoutineEnd::BrokenOff);
        }
    }

    pub(super) fn end(mut self: Box<Self>, end: SessionEnd, turn: &mut Turn<'_>) -> State {
        // Nothing is kept before the cautions were read.
        if !matches!(self.page, Page::First | Page::Cautions { .. }) {
            self.keep_readiness(turn);
            turn.record(Entry::SessionEnded { at: Stamp::from(&turn.now.wall), why: end });
        }
        let page = match self.not_today_page(turn.whole) {
            Some(page) if end == SessionEnd::NotToday => page,
            _ => turn.whole.last_page(end, None),
        };
        let number = turn.whole.schedule.sets()[0].number();
        State::Over(Box::new(Over::new(number, Notes::default(), page, turn)))
    }
}

pub(super) fn health_page(part: usize) -> Body {
    Body::page(
        &format!("Your health, page {} of {}", part + 1, CLINICIAN.len() / REASONS_ON_A_PAGE),
        &["Do you have any of these? Leave out what your clinician has agreed to."],
        &CLINICIAN[part * REASONS_ON_A_PAGE..][..REASONS_ON_A_PAGE],
    )
}

impl Whole {
    /// What this session's drills cannot do without, as sentences that must be true today.
    fn in_place_today(&self) -> Vec<&'static str> {
        let sets = self.schedule.sets().iter();
        let needs = sets.flat_map(|set| set.drill().needs(set.form(), set.conditions()));
        let mut sentences: Vec<&str> =
            needs.filter(|need| *need != Need::Partner).map(Need::sentence).collect();
        let plans = self.scheduler.prescription().drills().iter();
        if plans.flat_map(DrillPlan::targets).any(|target| target.direction.is_backward()) {
            sentences.push(BEHIND);
        }
        sentences.sort_unstable();
        sentences.dedup();
        sentences
    }

    pub(super) fn in_place_page(&self) -> Body {
        Body::page("In place today", &[ReadyPage::Room.question()], &self.in_place_today())
    }

    pub(super) fn first_page(&self) -> Body {
        let sets = self.schedule.sets();
        let work: Millis = sets.iter().fold(Millis(0), |sum, set| sum + set.work());
        let rest: Millis = sets.iter().rev().skip(1).fold(Millis(0), |sum, set| sum + set.rest());
        let set_up = Millis::from_secs(30 * sets.len() as u32);
        let around = [Routine::warm_up(), Routine::cool_down()]
            .map(|routine| routine.within(self.precautions()).lasts())
            .into_iter()
            .fold(Millis(0), |sum, lasts| sum + lasts);
        let minutes = (work + rest + set_up + around).0.div_ceil(60_000);
        let mut text = vec![match sets.len() {
            1 => format!("One set, about {minutes} minutes with a warm-up and a cool-down."),
            number => {
                format!("{number} sets, about {minutes} minutes with warm-up, rests and cool-down.")
            }
        }];
        text.extend(self.always());
        if self.begun.seed_given() {
            text.insert(1, "Its seed was given: somebody may know its calls.".to_owned());
        }
        let title = match &self.name {
            Some(name) => format!("{name}: {}", self.begun.title),
            None => self.begun.title.clone(),
        };
        if self.is_new {
            text.push(
                "The first time here? Leave, and say who you are and whom to call: counterpoise setup"
                    .to_owned(),
            );
        }
        Body::Page { title, text, items: Vec::new() }
    }

    /// What is said before each practice.
    fn statements(&self) -> impl Iterator<Item = Statement> {
        let all = caution::statements(Surface::Practice, Contents::Of(self.scheduler.prescription()));
        all.map(|(_, statement)| statement)
    }

    /// What of it is on the first page. The stop list and when to see a clinician first are on the pages after it, beside what
    /// each drill asks.
    fn always(&self) -> impl Iterator<Item = String> {
        let voluntary = self.schedule.sets().iter().all(|set| set.drill().trains() == Trains::Voluntary);
        self.statements().filter_map(move |statement| match statement.caution {
            Caution::StopList | Caution::Clinician => None,
            Caution::NoPromise if voluntary => Some(caution::WHAT_IT_IS.to_owned()),
            _ => Some(statement.text),
        })
    }

    /// The cautions of each drill, beginning with its name, page by page. What several drills say is said once.
    fn cautions(&self) -> Vec<Vec<String>> {
        let (mut pages, mut room, mut said) = (vec![Vec::new()], BESIDE_THE_STOP_LIST, Vec::new());
        let mut items = Vec::new();
        for OfDrill { title, mut lines } in caution::of_drills(self.scheduler.prescription()) {
            lines.retain(|line| !said.contains(line));
            said.extend_from_slice(&lines);
            if !lines.is_empty() {
                items.push(format!("{title}: {}", lines.join(" ")));
            }
        }
        let first = self.statements().find(|statement| statement.caution == Caution::Clinician);
        for item in items.into_iter().chain(first.map(|statement| statement.text)) {
            if item.len() > room {
                pages.push(Vec::new());
                room = ON_A_PAGE;
            }
            room = room.saturating_sub(item.len());
            pages.last_mut().expect("there is a first page").push(item);
        }
        pages
    }

    pub(super) fn cautions_page(&self, part: usize) -> Body {
        let pages = self.cautions();
        let title = match pages.len() {
            1 => "While you practice".to_owned(),
            count => format!("While you practice, page {} of {count}", part + 1),
        };
        let text =
            if part == 0 { vec![words("practice.ignore"), words("practice.stop-list")] } else { Vec::new() };
        Body::Page { title, text, items: pages.into_iter().nth(part).unwrap_or_default() }
    }
}
