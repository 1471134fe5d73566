//! The readiness questions of a session: their keys and screens, and what the verdict does to the session. The questions
//! themselves are in `health::readiness`.

use super::opening::{Before, Page, Preparation};
use super::screen::{Body, KeyHint};
use super::three_keys::{answer_keys, answer_of, asked_singly};
use super::{Effect, Key, State, Turn, Whole};
use crate::draw::schedule::SetPlan;
use crate::health::readiness::{Asked, Check, Contact, Item, Readiness, Today, Verdict};
use crate::health::yes_no::YesNoNotSure;
use crate::plan::phrase::Phrase;
use crate::record::{Answer, Entry, SessionEnd};

/// Reasons on the last page: as many as fit beside the advice \[judgment\].
const REASONS: usize = 3;
/// The sentences ask about the days since the last practice too \[judgment\].
const OVER_BEFORE_TODAY: &str = "If it was over before today, call your doctor today instead.";

impl Before {
    /// Before any of it was asked.
    pub(super) fn new(preparation: Preparation, whole: &Whole) -> Self {
        let harder = |set: &SetPlan| !set.conditions().support.is_resting();
        let ready = Check::new(Today {
            // The pages for the partner are the session's own (`partner_pages`).
            partner: false,
            harder: whole.schedule.sets().iter().any(harder),
            unwell_last_time: preparation.unwell_last_time,
        });
        Self { page: Page::First, preparation, ready, ready_kept: false }
    }

    /// After the cautions, once the session is kept: what was decided, then the pages about health, unless known.
    pub(super) fn begin_pages(mut self: Box<Self>, turn: &mut Turn<'_>) -> State {
        let tried = self.preparation.tried_out.take().map(Entry::TriedOut);
        let decided = self.preparation.decided.take().map(Entry::Decided);
        turn.effects.extend(tried.into_iter().chain(decided).map(Effect::Record));
        let known = self.preparation.suitability_known;
        self.turn_to(if known { Page::Ready { sure: None } } else { Page::Health { part: 0 } })
    }

    #[expect(clippy::match_same_arms, reason = "in the order in which they are asked")]
    pub(super) fn ready_key(
        self: Box<Self>,
        sure: Option<YesNoNotSure>,
        key: Key,
        turn: &mut Turn<'_>,
    ) -> State {
        match (sure, answer_of(key)) {
            (Some(answer), Some(YesNoNotSure::Yes)) => self.reply(answer, turn),
            (Some(_), Some(YesNoNotSure::No)) => self.turn_to(Page::Ready { sure: None }),
            // What would lock is asked once more: a wrong key must not send anybody to a clinician.
            (None, Some(answer)) if self.would_lock(answer) => {
                turn.hush();
                self.turn_to(Page::Ready { sure: Some(answer) })
            }
            (None, Some(answer)) => self.reply(answer, turn),
            _ => {
                if key.is('v') && sure.is_none() {
                    self.read_aloud(turn);
                }
                State::Before(self)
            }
        }
    }

    /// Reads aloud what is asked, once more from its beginning at each press.
    fn read_aloud(&self, turn: &mut Turn<'_>) {
        let ids = self.ready.spoken_ids();
        if ids.is_empty() {
            return;
        }
        turn.hush();
        turn.effects.extend(ids.iter().filter_map(|id| Phrase::named(id)).map(Effect::Say));
        turn.say("ready.keys");
    }

    fn would_lock(&self, answer: YesNoNotSure) -> bool {
        let mut after = self.ready.clone();
        after.reply(answer);
        after.readiness().locks.len() > self.ready.readiness().locks.len()
    }

    fn reply(mut self: Box<Self>, answer: YesNoNotSure, turn: &mut Turn<'_>) -> State {
        turn.hush();
        self.ready.reply(answer);
        if self.ready.asked().is_some() {
            return self.turn_to(Page::Ready { sure: None });
        }
        self.keep_readiness(turn);
        if self.asks_same_fall() {
            return self.turn_to(Page::SameFall);
        }
        self.after_answers(turn)
    }

    /// Everything is answered: what it comes to.
    pub(super) fn after_answers(mut self: Box<Self>, turn: &mut Turn<'_>) -> State {
        let Readiness { verdict, fell, .. } = self.ready.readiness();
        turn.record(Entry::answered(None, Answer::Ready(Some((verdict != Verdict::NotToday).into()))));
        match verdict {
            Verdict::Go => self.after_readiness(turn),
            Verdict::Gentler => {
                // No set has begun: the whole session is the gentler one.
                let after_fall = self.preparation.after_fall.take().filter(|_| fell);
                if let Some(gentler) = after_fall.or(self.preparation.gentler.take()) {
                    // Of an interrupted practice nothing may be left that is allowed.
                    if gentler.1.sets().is_empty() {
                        return self.end(SessionEnd::NotToday, turn);
                    }
                    (turn.whole.scheduler, turn.whole.schedule) = gentler;
                }
                self.turn_to(Page::Gentler)
            }
            Verdict::NotToday => self.end(SessionEnd::NotToday, turn),
        }
    }

    /// What was answered so far is kept, also when the practice is left in the middle of it.
    pub(super) fn keep_readiness(&mut self, turn: &mut Turn<'_>) {
        if !self.ready_kept && !self.ready.answers().is_empty() {
            self.ready_kept = true;
            turn.record(Entry::readied(self.ready.answers()));
        }
    }

    /// Which question of how many, above a question; a page says it in its title.
    pub(super) fn ready_place(&self) -> String {
        let (place, count) = self.ready.place();
        match self.ready.asked() {
            Some(Asked::One(_)) => format!("Ready today, {place} of {count}"),
            _ => String::new(),
        }
    }

    /// A question by itself, a page, or the question whether that was the right key.
    pub(super) fn ready_page(&self, sure: Option<YesNoNotSure>) -> Body {
        match (self.ready.asked(), sure) {
            (Some(Asked::One(item)), Some(answer)) => Body::Question {
                ask: format!("{} You answered: {}. Is that right?", item.question(), said(item, answer)),
                answers: vec![KeyHint::new("Y", "yes, that is right"), KeyHint::new("N", "no, wrong key")],
                asking_again: false,
            },
            (Some(Asked::One(item)), None) => asked_singly(item),
            (Some(Asked::Page(page)), _) => {
                let (place, count) = self.ready.place();
                let title = format!("Ready today, {place} of {count}");
                Body::page(&title, &[page.question()], &self.ready.lines())
            }
            (None, _) => Body::page("", &[], &[]),
        }
    }

    pub(super) fn ready_keys(&self, sure: Option<YesNoNotSure>, silent: bool) -> Vec<KeyHint> {
        let mut keys = match self.ready.asked() {
            Some(Asked::Page(page)) => answer_keys(|answer| page.words(answer)),
            _ => Vec::new(),
        };
        if !silent && sure.is_none() && !self.ready.spoken_ids().is_empty() {
            keys.push(KeyHint::new("V", "read it aloud"));
        }
        keys.push(KeyHint::new("S or Esc", "leave"));
        keys
    }

    pub(super) fn gentler_page(&self) -> Body {
        let reasons: Vec<String> =
            self.ready.readiness().reasons.iter().take(REASONS).map(ToString::to_string).collect();
        let text = reasons.into_iter().chain(["Stop whenever you like.".to_owned()]).collect();
        Body::Page { title: "Gentler today".to_owned(), text, items: Vec::new() }
    }

    /// Why not today, and whom to call: chest and stroke signs first, in their own words.
    pub(super) fn not_today_page(&self, whole: &Whole) -> Option<Body> {
        let readiness = self.ready.readiness();
        if readiness.verdict != Verdict::NotToday {
            return None;
        }
        if let Some(sign) = readiness.reasons.iter().find(|reason| reason.contact == Contact::Emergency) {
            let first = format!("{} {OVER_BEFORE_TODAY}", sign.fact());
            return Some(whole.contacts.page(Some(&first)));
        }
        let reasons = readiness.reasons.iter().filter(|reason| reason.verdict == Verdict::NotToday);
        let text = reasons.take(REASONS).map(ToString::to_string).collect();
        let page = Body::Page { title: "Not today".to_owned(), text, items: Vec::new() };
        Some(whole.with_number(page))
    }
}

/// The answer as it is asked once more.
fn said(item: Item, answer: YesNoNotSure) -> String {
    match answer {
        YesNoNotSure::NotSure => format!("{answer}, which counts as {}", item.answer_if(false)),
        YesNoNotSure::Yes | YesNoNotSure::No => answer.to_string(),
    }
}
