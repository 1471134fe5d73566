//! One set: how it is prepared, started, paused and ended. However it is interrupted, a call that lasts (such as closed
//! eyes) is closed aloud.

use super::after_set::{AfterFell, AfterSet};
use super::current_set::CurrentSet;
use super::event::{Channel, Effect, Key};
use super::{State, Turn, Wait, Whole};
use crate::plan::drill::Action;
use crate::plan::phrase::Phrase;
use crate::practice::pose;
use crate::record::{Disturbance, Entry, LeftOut, Mishap, SessionEnd, SetEnd};
use crate::units::Millis;

/// How long a pause may last before the set ends \[judgment\].
pub const LONGEST_PAUSE: Millis = Millis(300_000);
/// The longest time between two ticks in a set. After a longer one the computer slept, or the program was stopped: what
/// was called when nobody knows, so the set is over \[judgment\].
pub const LONGEST_GAP: Millis = Millis(2_000);
/// A second key this soon after the one that paused goes on with nothing: hands on a keyboard bounce \[judgment\].
const SETTLE: Millis = Millis(1_000);
/// The spoken count: five seconds to get into place.
const COUNT: [&str; 5] = ["count.5", "count.4", "count.3", "count.2", "count.1"];

/// A set on its way from the way to stand to its end.
#[derive(Debug)]
pub(super) struct InSet {
    pub(super) set: CurrentSet,
    pub(super) phase: SetPhase,
}

#[derive(Debug, Clone, Copy)]
pub(super) enum SetPhase {
    Course { wait: Wait },
    LeftOut { why: LeftOut, wait: Wait },
    Stand { wait: Wait },
    Count { worked: Millis, work_starts: Option<Millis> },
    Work { worked: Millis, work_starts: Millis },
    Paused { worked: Millis, since: Millis },
    Mishap { what: Mishap, worked: Option<Millis>, wait: Wait },
}

impl State {
    /// Makes a set ready: it may be left out, and a floor course is laid first.
    pub(super) fn make_ready(index: usize, turn: &mut Turn<'_>) -> Self {
        let here =
            InSet { set: CurrentSet::new(index, turn.whole), phase: SetPhase::Stand { wait: turn.wait() } };
        turn.hush();
        if here.is_unheard(turn.whole) {
            return here.leave_out_unheard(turn);
        }
        let next_patch = turn.whole.calls_for(&here.set.plan, |action| action == Action::NextPatch);
        if !next_patch || turn.whole.course.is_empty() || turn.whole.course_shown {
            return here.stand(turn);
        }
        turn.whole.course_shown = true;
        turn.record(Entry::Course { patches: turn.whole.course.clone() });
        turn.effects.extend(here.set.plan.drill().prepare().map(Effect::Say));
        turn.say("practice.any-key");
        here.to(SetPhase::Course { wait: turn.wait() })
    }

    pub(super) fn placed(mut self, at: Millis) -> Self {
        if let Self::InSet(here) = &mut self
            && let SetPhase::Count { work_starts: work_starts @ None, .. } = &mut here.phase
        {
            *work_starts = Some(at);
        }
        self
    }

    /// Kept while calls are placed or called: only then does it change when one is heard.
    pub(super) fn disturbed(mut self, how: Disturbance, turn: &mut Turn<'_>) -> Self {
        if let Self::InSet(here) = &mut self
            && let SetPhase::Count { .. } | SetPhase::Work { .. } = here.phase
            && let Some(at) = here.worked(turn.now.at)
        {
            here.set.notes.disturbed = here.set.notes.disturbed.saturating_add(1);
            turn.record(Entry::disturbed(here.set.number(), at, how));
        }
        self
    }

    /// Ends the current set if there was no tick for too long.
    pub(super) fn after_gap(self, gap: Millis, turn: &mut Turn<'_>) -> Self {
        let known = std::mem::replace(&mut turn.whole.last_tick, turn.now.at);
        if gap > LONGEST_GAP { self.break_off_at(known, SetEnd::Halted, turn) } else { self }
    }

    pub(super) fn break_off(self, why: SetEnd, turn: &mut Turn<'_>) -> Self {
        self.break_off_at(turn.now.at, why, turn)
    }

    /// Ends the current set for a technical reason, with the work done until `at`. While it is asked whether somebody fell
    /// nothing is called anyway, and the answer comes first.
    fn break_off_at(self, at: Millis, why: SetEnd, turn: &mut Turn<'_>) -> Self {
        match self {
            Self::InSet(here) if !matches!(here.phase, SetPhase::Mishap { .. }) => match here.worked(at) {
                Some(worked) => {
                    turn.hush();
                    here.end_set(worked, why, turn)
                }
                None => Self::InSet(here),
            },
            state => state,
        }
    }
}

impl InSet {
    pub(super) fn to(self, phase: SetPhase) -> State {
        State::InSet(Box::new(Self { phase, ..self }))
    }

    fn stay(self) -> State {
        State::InSet(Box::new(self))
    }

    pub(super) fn wait(&mut self) -> Option<&mut Wait> {
        match &mut self.phase {
            SetPhase::Course { wait }
            | SetPhase::LeftOut { wait, .. }
            | SetPhase::Stand { wait }
            | SetPhase::Mishap { wait, .. } => Some(wait),
            SetPhase::Count { .. } | SetPhase::Work { .. } | SetPhase::Paused { .. } => None,
        }
    }

    /// Elapsed work of the set that is begun and not ended.
    pub(super) fn worked(&self, now: Millis) -> Option<Millis> {
        match self.phase {
            SetPhase::Count { worked, .. } | SetPhase::Paused { worked, .. } => Some(worked),
            SetPhase::Mishap { worked, .. } => worked,
            SetPhase::Work { worked, work_starts } => {
                Some((worked + (now - work_starts)).min(self.set.plan.work()))
            }
            SetPhase::Course { .. } | SetPhase::LeftOut { .. } | SetPhase::Stand { .. } => None,
        }
    }

    pub(super) fn tick(mut self, turn: &mut Turn<'_>) -> State {
        let now = turn.now.at;
        match self.phase {
            SetPhase::Count { worked, work_starts: Some(work_starts) } if now >= work_starts => {
                Self { phase: SetPhase::Work { worked, work_starts }, ..self }.tick(turn)
            }
            SetPhase::Work { worked, work_starts } => {
                let (elapsed, work) = (worked + (now - work_starts), self.set.plan.work());
                self.set.deliver_due_cues(elapsed.min(work), turn);
                if elapsed >= work { self.end_set(work, SetEnd::Completed, turn) } else { self.stay() }
            }
            SetPhase::Paused { worked, since } if now - since >= LONGEST_PAUSE => {
                self.end_set(worked, SetEnd::PausedTooLong, turn)
            }
            _ => self.stay(),
        }
    }

    pub(super) fn key(mut self, key: Key, turn: &mut Turn<'_>) -> State {
        let mishap = self.mishap_of(key);
        let no_output = turn.whole.is_without_output();
        let refuses = key.is('r') && turn.whole.has_pushes(&self.set.plan);
        match (self.phase, mishap) {
            (SetPhase::Mishap { what, worked, .. }, _) => self.confirm_mishap(what, worked, key, turn),
            _ if key.stops() => self.stop(turn),
            (SetPhase::Course { .. }, _) => self.stand(turn),
            (SetPhase::LeftOut { .. }, _) => self.set.go_on(turn),
            (SetPhase::Stand { .. }, None | Some(Mishap::Grab)) if no_output => {
                if !key.is('g') {
                    return self.stay();
                }
                turn.whole.silent = true;
                if self.is_unheard(turn.whole) { self.leave_out_unheard(turn) } else { self.stay() }
            }
            (_, Some(what)) => self.ask_about_mishap(what, turn),
            (SetPhase::Stand { .. } | SetPhase::Paused { .. }, None) if refuses => self.refuse(turn),
            (SetPhase::Stand { .. }, None) => {
                self.set.decide_practice(turn.whole);
                let (plan, whole) = (&self.set.plan, &turn.whole);
                turn.record(Entry::set_begun(&turn.now.wall, plan, whole.channel(plan), whole.room()));
                self.begin(Millis(0), turn)
            }
            (SetPhase::Count { .. } | SetPhase::Work { .. }, None) => self.pause(turn),
            (SetPhase::Paused { since, .. }, None) if turn.now.at - since < SETTLE || no_output => {
                self.stay()
            }
            (SetPhase::Paused { worked, .. }, None) => self.resume(worked, turn),
        }
    }

    /// A set that closes the eyes needs sound that the trainee heard today: "open your eyes" must be heard, and not only
    /// in a partner's ear.
    fn is_unheard(&self, whole: &Whole) -> bool {
        let unheard = whole.silent || !whole.sound_heard || whole.mode == Channel::PartnerEarbud;
        unheard && whole.calls_for(&self.set.plan, Action::closes_eyes)
    }

    fn leave_out_unheard(self, turn: &mut Turn<'_>) -> State {
        self.leave_out(LeftOut::SoundNotHeard, "left-out.no-sound", turn)
    }

    fn leave_out(self, why: LeftOut, say: &str, turn: &mut Turn<'_>) -> State {
        self.set.leave_out(why, turn);
        turn.say(say);
        self.to(SetPhase::LeftOut { why, wait: turn.wait() })
    }

    /// Says how to stand for the next set, and waits for a key.
    fn stand(self, turn: &mut Turn<'_>) -> State {
        let (drill, plan) = (self.set.plan.drill(), &self.set.plan);
        let another = turn.whole.in_place.replace(drill.name()) != Some(drill.name());
        if turn.whole.begun.in_tones() {
            // In tones they would be ten of the same; the words are on the screen.
            turn.say("practice.any-key");
        } else {
            if self.set.index == 0 {
                for id in ["practice.hello", "practice.advice", "practice.ignore", "practice.stop-list"] {
                    turn.say(id);
                }
                turn.effects.extend(plan.precautions().iter().map(|one| Effect::Say(one.phrase())));
            }
            turn.say(&format!("set.{}", plan.number()));
            turn.effects.extend(drill.prepare().filter(|_| another).map(Effect::Say));
            turn.effects.extend(pose::phrases(plan).into_iter().map(Effect::Say));
            let pushes = turn.whole.has_pushes(plan);
            turn.say(if pushes { "partner.ask-ready" } else { "practice.any-key" });
        }
        self.to(SetPhase::Stand { wait: turn.wait() })
    }

    fn begin(mut self, worked: Millis, turn: &mut Turn<'_>) -> State {
        let count = COUNT.into_iter().filter_map(Phrase::named).collect();
        let cues = self.set.plan.cues().iter().enumerate().skip(self.set.next_cue);
        let cues = cues.map(|(place, cue)| (place as u16, cue.clone())).collect();
        self.set.notes.closing_words = None;
        turn.hush();
        turn.say("practice.place");
        turn.effects.push(Effect::Begin {
            count,
            cues,
            from: worked,
            channel: turn.whole.channel(&self.set.plan),
            room: turn.whole.room(),
            facing: self.set.plan.facing(),
        });
        self.to(SetPhase::Count { worked, work_starts: None })
    }

    fn pause(mut self, turn: &mut Turn<'_>) -> State {
        let worked = self.worked(turn.now.at).unwrap_or_default();
        self.set.deliver_due_cues(worked, turn);
        turn.hush();
        self.set.close_span(worked, turn);
        turn.say("pause.on");
        self.to(SetPhase::Paused { worked, since: turn.now.at })
    }

    /// After a pause the next moment is drawn afresh; the remaining work time is kept.
    fn resume(mut self, worked: Millis, turn: &mut Turn<'_>) -> State {
        let (set, seed) = (&mut self.set, turn.whole.schedule.seed());
        set.pauses += 1;
        set.plan = turn.whole.scheduler.after_pause(seed, &set.plan, set.pauses, worked, set.next_cue);
        set.decide_practice(turn.whole);
        turn.record(Entry::replanned(set.pauses, worked, &set.plan, turn.whole.room()));
        self.begin(worked, turn)
    }

    /// The trainee declines the set, or the rest of it.
    fn refuse(self, turn: &mut Turn<'_>) -> State {
        turn.hush();
        match self.worked(turn.now.at) {
            Some(worked) => self.end_set(worked, SetEnd::Refused, turn),
            None => self.leave_out(LeftOut::Refused, "left-out.refused", turn),
        }
    }

    /// Ends the set, and goes on to what is asked after it.
    pub(super) fn end_set(mut self, worked: Millis, why: SetEnd, turn: &mut Turn<'_>) -> State {
        self.record_end(worked, why, turn);
        if why == SetEnd::Halted {
            turn.say("end.halted");
            return AfterSet::ask_fell(self.set, AfterFell::Questions, turn);
        }
        turn.say("set.over");
        AfterSet::begin(self.set, turn)
    }

    pub(super) fn record_end(&mut self, worked: Millis, why: SetEnd, turn: &mut Turn<'_>) {
        if matches!(self.phase, SetPhase::Work { .. }) {
            self.set.deliver_due_cues(worked, turn);
            self.set.close_span(worked, turn);
        }
        turn.record(Entry::set_ended(self.set.number(), &turn.now.wall, worked, why));
        self.set.notes.end = Some(why);
    }

    /// Ends the set if one is going on, and asks nothing. What was asked of the partner and not noted is kept as such, and
    /// a mishap that nobody denied too.
    fn leave(mut self, why: SetEnd, turn: &mut Turn<'_>) -> CurrentSet {
        if let SetPhase::Mishap { what, worked, .. } = self.phase {
            self.set.keep_mishap(what, worked, turn);
        }
        if let Some(worked) = self.worked(turn.now.at) {
            self.record_end(worked, why, turn);
        }
        self.set.note_the_rest(turn);
        self.set
    }

    pub(super) fn stop(self, turn: &mut Turn<'_>) -> State {
        turn.hush();
        AfterSet::ask_fell(self.leave(SetEnd::Stopped, turn), AfterFell::WhyStopped, turn)
    }

    pub(super) fn end(self, why: SetEnd, end: SessionEnd, turn: &mut Turn<'_>) -> State {
        self.leave(why, turn).end_session(end, None, turn)
    }
}
