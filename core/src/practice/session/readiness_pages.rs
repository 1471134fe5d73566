//! The readiness pages of a session: their keys and screens, and what the verdict does to the session. The questions
//! themselves are in `health::readiness`.

use super::opening::{Before, Page, Preparation};
use super::screen::{Body, KeyHint};
use super::{Effect, Key, State, Turn, Whole};
use crate::draw::schedule::SetPlan;
use crate::health::readiness::{Check, Contact, Page as ReadyPage, Reply, Today, Verdict};
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
        self.turn_to(if known { Page::Ready { sure: false } } else { Page::Health { part: 0 } })
    }

    pub(super) fn ready_key(self: Box<Self>, sure: bool, key: Key, turn: &mut Turn<'_>) -> State {
        let (yes, no) = match sure {
            true => (key.is('y'), key.is('n')),
            false => (key.is('a'), key.is('x')),
        };
        match (sure, yes, no) {
            (true, true, _) => self.reply(Reply::No, turn),
            (true, _, true) => self.turn_to(Page::Ready { sure: false }),
            (false, true, _) => self.reply(Reply::Yes, turn),
            // What would lock is asked once more: a wrong key must not send anybody to a clinician.
            (false, _, true) if self.would_lock() => self.turn_to(Page::Ready { sure: true }),
            (false, _, true) => self.reply(Reply::No, turn),
            _ => {
                if key.is('v') && !sure && self.ready.item().is_none() {
                    self.read_aloud(turn);
                }
                State::Before(self)
            }
        }
    }

    /// Reads the page aloud, once more from its beginning at each press.
    fn read_aloud(&self, turn: &mut Turn<'_>) {
        let ids = self.ready.spoken_ids();
        turn.hush();
        turn.effects.extend(ids.iter().filter_map(|id| Phrase::named(id)).map(Effect::Say));
        turn.say("ready.intro");
    }

    fn would_lock(&self) -> bool {
        let mut after = self.ready.clone();
        after.reply(Reply::No);
        after.readiness().locks.len() > self.ready.readiness().locks.len()
    }

    fn reply(mut self: Box<Self>, reply: Reply, turn: &mut Turn<'_>) -> State {
        turn.hush();
        self.ready.reply(reply);
        if self.ready.page().is_some() {
            return self.turn_to(Page::Ready { sure: false });
        }
        self.keep_readiness(turn);
        let verdict = self.ready.readiness().verdict;
        turn.record(Entry::answered(None, Answer::Ready(Some((verdict != Verdict::NotToday).into()))));
        match verdict {
            Verdict::Go => self.after_readiness(turn),
            Verdict::Gentler => {
                // No set has begun: the whole session is the gentler one.
                if let Some(gentler) = self.preparation.gentler.take() {
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

    /// A page as a whole, one sentence of it, or the question whether that was the right key.
    pub(super) fn ready_page(&self, sure: bool) -> Body {
        match (self.ready.item(), self.ready.page()) {
            (Some(item), _) if sure => Body::Question {
                ask: format!("Not true: \"{}\" Is that right?", item.sentence()),
                answers: vec![KeyHint::new("Y", "yes, it is not true"), KeyHint::new("N", "no, wrong key")],
                asking_again: false,
            },
            (Some(item), _) => Body::Question {
                ask: item.sentence().to_owned(),
                answers: vec![KeyHint::new("A", "true"), KeyHint::new("X", "not true")],
                asking_again: false,
            },
            (None, page) => {
                let part = if page == Some(ReadyPage::Body) { 1 } else { 2 };
                let title = format!("Ready today, page {part} of 2");
                Body::page(&title, &[page.map_or("", ReadyPage::intro)], &self.ready.lines())
            }
        }
    }

    pub(super) fn ready_keys(&self, sure: bool, silent: bool) -> Vec<KeyHint> {
        let leave = KeyHint::new("S or Esc", "leave");
        if sure || self.ready.item().is_some() {
            return vec![leave];
        }
        let mut keys = vec![KeyHint::new("A", "all true"), KeyHint::new("X", "not all")];
        if !silent {
            keys.push(KeyHint::new("V", "read it aloud"));
        }
        keys.push(leave);
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
