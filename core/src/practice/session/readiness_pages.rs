//! The readiness pages of a session: their keys and screens, and what the verdict does to the session. The questions
//! themselves are in `health::readiness`.

use super::screen::{Body, KeyHint};
use super::{Effect, Effects, Key, Now, Phase, Session, say};
use crate::draw::schedule::path::Path;
use crate::draw::schedule::{Schedule, Scheduler, SetPlan};
use crate::health::lock::Lock;
use crate::health::readiness::{Check, Page, Reply, Today, Verdict};
use crate::plan::phrase::Phrase;
use crate::record::{Answer, Decided, Entry, SessionEnd, TriedOut};

/// Reasons on the last page: as many as fit beside the advice \[judgment\].
const REASONS: usize = 3;

/// What is known of the person before today's questions.
#[derive(Debug, Default)]
pub struct Preparation {
    /// What progression decided, to be kept.
    pub decided: Option<Decided>,
    /// The same session one step lower, for a day that calls for it; `None` if it is that already.
    pub gentler: Option<(Scheduler, Schedule)>,
    /// The person felt unwell in the last practice, and has not reported since that it passed.
    pub unwell_last_time: bool,
    /// It is the first practice of a week, and not the first of all: how the week was is asked.
    pub weekly: bool,
    /// The questions about suitability were answered, so that the pages about health are not needed.
    pub suitability_known: bool,
    /// Who is watching, for a supervised try-out.
    pub tried_out: Option<TriedOut>,
}

impl Session {
    /// The same session, knowing this of the person.
    #[must_use]
    pub fn prepare(mut self, preparation: Preparation) -> Self {
        let harder = |set: &SetPlan| !set.conditions().support.is_resting();
        let today = Today {
            // The pages for the partner are the session's own (`partner_pages`).
            partner: false,
            harder: self.schedule.sets().iter().any(harder),
            unwell_last_time: preparation.unwell_last_time,
        };
        self.ready = Check::new(today);
        self.preparation = preparation;
        self
    }

    /// The same session, with the person's name on its first page. `is_new`: nothing was set up yet, and the
    /// first page says how.
    #[must_use]
    pub fn named(mut self, name: Option<&str>, is_new: bool) -> Self {
        self.name = name.map(str::to_owned);
        self.is_new = is_new;
        self
    }

    /// After the cautions, once the session is kept: what was decided, then the pages about health, unless known.
    pub(super) fn begin_pages(&mut self, effects: &mut Effects) {
        effects.extend(self.preparation.tried_out.take().map(|tried| Effect::Record(Entry::TriedOut(tried))));
        effects
            .extend(self.preparation.decided.take().map(|decided| Effect::Record(Entry::Decided(decided))));
        let known = self.preparation.suitability_known;
        self.phase = if known { Phase::Ready { sure: false } } else { Phase::Health { part: 0 } };
    }

    pub(super) fn ready_key(&mut self, now: &Now, sure: bool, key: Key, effects: &mut Effects) {
        let (yes, no) = match sure {
            true => (key.is('y'), key.is('n')),
            false => (key.is('a'), key.is('x')),
        };
        match (sure, yes, no) {
            (true, true, _) => self.reply(now, Reply::No, effects),
            (true, _, true) => self.phase = Phase::Ready { sure: false },
            (false, true, _) => self.reply(now, Reply::Yes, effects),
            // What would lock is asked once more: a wrong key must not send anybody to a clinician.
            (false, _, true) if self.would_lock() => self.phase = Phase::Ready { sure: true },
            (false, _, true) => self.reply(now, Reply::No, effects),
            _ if key.is('v') && !sure && self.ready.item().is_none() => self.read_aloud(effects),
            _ => {}
        }
    }

    /// Reads the page aloud, once more from its beginning at each press.
    fn read_aloud(&self, effects: &mut Effects) {
        let ids = self.ready.spoken_ids();
        effects.push(Effect::Hush);
        effects.extend(ids.iter().filter_map(|id| Phrase::named(id)).map(Effect::Say));
        effects.push(say("ready.intro"));
    }

    fn would_lock(&self) -> bool {
        let mut after = self.ready.clone();
        after.reply(Reply::No);
        after.readiness().locks.len() > self.ready.readiness().locks.len()
    }

    fn reply(&mut self, now: &Now, reply: Reply, effects: &mut Effects) {
        self.phase = Phase::Ready { sure: false };
        effects.push(Effect::Hush);
        self.ready.reply(reply);
        if self.ready.page().is_some() {
            return;
        }
        self.keep_readiness(effects);
        let verdict = self.ready.readiness().verdict;
        let answer = Answer::Ready(Some((verdict != Verdict::NotToday).into()));
        effects.push(Effect::Record(Entry::answered(None, answer)));
        match verdict {
            Verdict::Go => self.after_readiness(now, effects),
            Verdict::Gentler => {
                if let Some((scheduler, schedule)) = self.preparation.gentler.take() {
                    self.lower(scheduler, schedule);
                }
                self.phase = Phase::Gentler;
            }
            Verdict::NotToday => self.end(now, SessionEnd::NotToday, effects),
        }
    }

    /// What was answered so far is kept, also when the practice is left in the middle of it.
    pub(super) fn keep_readiness(&mut self, effects: &mut Effects) {
        if !self.ready_kept && !self.ready.answers().is_empty() {
            self.ready_kept = true;
            effects.push(Effect::Record(Entry::readied(self.ready.answers())));
        }
    }

    /// No set has begun: the whole session is the gentler one.
    fn lower(&mut self, scheduler: Scheduler, schedule: Schedule) {
        let Some(plan) = schedule.sets().first().cloned() else { return };
        self.path = Path::new(schedule.seed(), plan.number(), plan.work());
        self.plan = plan;
        self.scheduler = scheduler;
        self.schedule = schedule;
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
                let part = if page == Some(Page::Body) { 1 } else { 2 };
                let title = format!("Ready today, page {part} of 2");
                Body::page(&title, &[page.map_or("", Page::intro)], &self.ready.lines())
            }
        }
    }

    pub(super) fn ready_keys(&self, sure: bool) -> Vec<KeyHint> {
        let leave = KeyHint::new("S or Esc", "leave");
        if sure || self.ready.item().is_some() {
            return vec![leave];
        }
        let mut keys = vec![KeyHint::new("A", "all true"), KeyHint::new("X", "not all")];
        if !self.silent {
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
    pub(super) fn not_today_page(&self) -> Option<Body> {
        let readiness = self.ready.readiness();
        if readiness.verdict != Verdict::NotToday {
            return None;
        }
        let emergency = readiness.locks.iter().copied().any(Lock::is_emergency);
        let reasons = readiness.reasons.iter().filter(|reason| reason.verdict == Verdict::NotToday);
        let text = reasons.take(REASONS).map(ToString::to_string).collect();
        let title = if emergency { "Sit down now" } else { "Not today" };
        Some(Body::Page { title: title.to_owned(), text, items: Vec::new() })
    }
}
