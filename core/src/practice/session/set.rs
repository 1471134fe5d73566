//! One set: how it is prepared, started, paused and ended, and which cues were delivered. However it is interrupted, a
//! call that lasts (such as closed eyes) is closed aloud.

use super::event::{Channel, Effect, Now};
use super::{Effects, Phase, Session, Wait, say};
use crate::draw::schedule::path::Path;
use crate::draw::schedule::{Call, Cue};
use crate::plan::drill::Action;
use crate::plan::phrase::Phrase;
use crate::plan::prescription::DrillPlan;
use crate::practice::pose;
use crate::record::{Delivery, Disturbance, Entry, LeftOut, LeftOutRow, SetEnd, Stamp};
use crate::units::Millis;

/// The spoken count: five seconds to get into place.
const COUNT: [&str; 5] = ["count.5", "count.4", "count.3", "count.2", "count.1"];

impl Session {
    /// Makes the next set ready: it may be left out, and a floor course is laid first.
    pub(super) fn make_ready(&mut self, now: &Now, effects: &mut Effects) {
        self.plan = self.schedule.sets()[self.set].clone();
        (self.pauses, self.next_cue, self.disturbed, self.set_end, self.closing_words) =
            (0, 0, 0, None, None);
        self.path = Path::new(self.schedule.seed(), self.plan.number(), self.plan.work());
        (self.left_out, self.step_lower_advised) = (None, false);
        self.noted_pushes.clear();
        effects.push(Effect::Hush);
        if self.leave_out_if_unheard(now, effects) {
            return;
        }
        if self.calls_for(|action| action == Action::NextPatch)
            && !self.course.is_empty()
            && !self.course_shown
        {
            self.course_shown = true;
            effects.push(Effect::Record(Entry::Course { patches: self.course.clone() }));
            effects.extend(self.plan.drill().prepare().map(Effect::Say));
            effects.push(say("practice.any-key"));
            self.phase = Phase::Course { wait: Wait::from(now.at) };
        } else {
            self.stand(now, effects);
        }
    }

    /// A set that closes the eyes needs sound that the trainee heard today: "open your eyes" must be heard, and not only
    /// in a partner's ear. Whether it was left out.
    pub(super) fn leave_out_if_unheard(&mut self, now: &Now, effects: &mut Effects) -> bool {
        let unheard = self.silent || !self.sound_heard || self.mode == Channel::PartnerEarbud;
        let unheard = unheard && self.calls_for(Action::closes_eyes);
        if unheard {
            self.leave_out(now, LeftOut::SoundNotHeard, effects);
            effects.push(say("left-out.no-sound"));
            self.phase = Phase::LeftOut { wait: Wait::from(now.at) };
        }
        unheard
    }

    pub(super) fn leave_out(&mut self, now: &Now, why: LeftOut, effects: &mut Effects) {
        let (set, at) = (self.plan.number(), Stamp::from(&now.wall));
        effects.push(Effect::Record(Entry::SetLeftOut(LeftOutRow { set, at, why })));
        self.left_out = Some(why);
    }

    /// Whether such an action is among what the set may call, called this time or not.
    pub(super) fn calls_for(&self, is: fn(Action) -> bool) -> bool {
        let plans = self.scheduler.prescription().drills();
        let here = (self.plan.drill().name(), self.plan.form());
        let same = plans.iter().filter(|plan| (plan.drill().name(), plan.form()) == here);
        same.flat_map(DrillPlan::targets).any(|target| is(target.action))
    }

    /// Says how to stand for the next set, and waits for a key.
    pub(super) fn stand(&mut self, now: &Now, effects: &mut Effects) {
        self.phase = Phase::Stand { wait: Wait::from(now.at) };
        let drill = self.plan.drill();
        let another = self.in_place.replace(drill.name()) != Some(drill.name());
        if self.begun.in_tones() {
            // In tones they would be ten of the same; the words are on the screen.
            effects.push(say("practice.any-key"));
            return;
        }
        if self.set == 0 {
            effects.extend(
                ["practice.hello", "practice.advice", "practice.ignore", "practice.stop-list"].map(say),
            );
        }
        effects.push(say(&format!("set.{}", self.plan.number())));
        effects.extend(drill.prepare().filter(|_| another).map(Effect::Say));
        effects.extend(pose::phrases(&self.plan).into_iter().map(Effect::Say));
        effects.push(say(if self.has_pushes() { "partner.ask-ready" } else { "practice.any-key" }));
    }

    pub(super) fn begin_set(&mut self, now: &Now, effects: &mut Effects) {
        effects.push(Effect::Record(Entry::set_begun(&now.wall, &self.plan, self.channel(), self.room())));
        self.begin(Millis(0), effects);
    }

    fn begin(&mut self, worked: Millis, effects: &mut Effects) {
        let count = COUNT.into_iter().filter_map(Phrase::named).collect();
        let cues = self.plan.cues().iter().enumerate().skip(self.next_cue);
        let cues = cues.map(|(place, cue)| (place as u16, cue.clone())).collect();
        self.closing_words = None;
        effects.extend([
            Effect::Hush,
            say("practice.place"),
            Effect::Begin {
                count,
                cues,
                from: worked,
                channel: self.channel(),
                room: self.room(),
                facing: self.plan.facing(),
            },
        ]);
        self.phase = Phase::Count { worked, work_starts: None };
    }

    pub(super) fn pause(&mut self, now: &Now, worked: Millis, effects: &mut Effects) {
        self.deliver_due_cues(worked, effects);
        effects.push(Effect::Hush);
        self.close_span(worked, effects);
        effects.push(say("pause.on"));
        self.phase = Phase::Paused { worked, since: now.at };
    }

    /// After a pause the next moment is drawn afresh; the remaining work time is kept.
    pub(super) fn resume(&mut self, worked: Millis, effects: &mut Effects) {
        self.pauses += 1;
        self.plan =
            self.scheduler.after_pause(self.schedule.seed(), &self.plan, self.pauses, worked, self.next_cue);
        effects.push(Effect::Record(Entry::replanned(self.pauses, worked, &self.plan, self.room())));
        self.begin(worked, effects);
    }

    /// "Open your eyes": what lasts is closed at once and aloud when it is broken off, and the words stay on the screen.
    pub(super) fn close_span(&mut self, worked: Millis, effects: &mut Effects) {
        let mut begun = self.plan.cues().iter().take(self.next_cue);
        let lasts = begun.rfind(|cue| cue.until().is_some_and(|until| worked < until));
        if let Some(span) = lasts.and_then(Cue::call).and_then(Call::span) {
            effects.push(Effect::Say(span.close));
            self.closing_words = Some(span.close);
        }
    }

    /// Ends the current set for a technical reason. While it is asked whether somebody fell
    /// nothing is called anyway, and the answer comes first.
    pub(super) fn break_off(&mut self, now: &Now, why: SetEnd, effects: &mut Effects) {
        if let Some(worked) = self.worked(now).filter(|_| !matches!(self.phase, Phase::Mishap { .. })) {
            effects.push(Effect::Hush);
            self.end_set(now, worked, why, effects);
        }
    }

    /// Elapsed work of the set that is begun and not ended.
    pub(super) fn worked(&self, now: &Now) -> Option<Millis> {
        match self.phase {
            Phase::Count { worked, .. } | Phase::Paused { worked, .. } => Some(worked),
            Phase::Mishap { worked, .. } => worked,
            Phase::Work { worked, work_starts } => {
                Some((worked + (now.at - work_starts)).min(self.plan.work()))
            }
            _ => None,
        }
    }

    /// Ends the set, and goes on to what is asked after it.
    pub(super) fn end_set(&mut self, now: &Now, worked: Millis, why: SetEnd, effects: &mut Effects) {
        self.record_set_end(now, worked, why, effects);
        effects.push(say("set.over"));
        self.ask_after_set(now, effects);
    }

    /// Ends the set if one is going on, and asks nothing. What was asked of the partner and not noted is kept as such.
    pub(super) fn leave_set(&mut self, now: &Now, why: SetEnd, effects: &mut Effects) {
        self.keep_unconfirmed(effects);
        if let Some(worked) = self.worked(now) {
            self.record_set_end(now, worked, why, effects);
        }
        self.note_the_rest(effects);
    }

    pub(super) fn record_set_end(&mut self, now: &Now, worked: Millis, why: SetEnd, effects: &mut Effects) {
        if matches!(self.phase, Phase::Work { .. }) {
            self.deliver_due_cues(worked, effects);
            self.close_span(worked, effects);
        }
        effects.push(Effect::Record(Entry::set_ended(self.plan.number(), &now.wall, worked, why)));
        self.set_end = Some(why);
    }

    /// The trainee declines the set, or the rest of it.
    pub(super) fn refuse(&mut self, now: &Now, effects: &mut Effects) {
        effects.push(Effect::Hush);
        if let Some(worked) = self.worked(now) {
            self.end_set(now, worked, SetEnd::Refused, effects);
        } else {
            self.leave_out(now, LeftOut::Refused, effects);
            effects.push(say("left-out.refused"));
            self.phase = Phase::LeftOut { wait: Wait::from(now.at) };
        }
    }

    /// Counts what is due by now. Without sound, keeps what the screen has begun to show; with a partner, what the
    /// partner's screen has asked for.
    pub(super) fn deliver_due_cues(&mut self, elapsed: Millis, effects: &mut Effects) {
        while let Some(cue) = self.plan.cues().get(self.next_cue).filter(|cue| cue.at() <= elapsed) {
            let place = self.next_cue as u16;
            if let Some(call) = cue.call() {
                let (at, unheard) = (elapsed, self.silent || call.say().is_empty());
                let how = match self.channel() {
                    Channel::Trainee if self.silent => Some(Delivery::Shown { at }),
                    Channel::PartnerScreen if unheard => Some(Delivery::Asked { at }),
                    // What sounds is kept when it is heard.
                    Channel::Trainee | Channel::PartnerScreen | Channel::PartnerEarbud => None,
                };
                effects.extend(how.map(|how| self.delivered(place, how)));
            }
            self.next_cue += 1;
        }
    }

    /// A cue was heard to its end: by the trainee, or by a partner with an earbud, who was asked by it.
    pub(super) fn heard(&self, cue: u16, (wanted, began): (u64, u64), rate: u32, effects: &mut Effects) {
        let how = if self.mode == Channel::PartnerEarbud {
            let at = u128::from(began) * 1_000 / u128::from(rate.max(1));
            Delivery::Asked { at: Millis(u32::try_from(at).unwrap_or(u32::MAX)) }
        } else {
            Delivery::Heard { wanted, began, rate }
        };
        effects.push(self.delivered(cue, how));
    }

    fn delivered(&self, cue: u16, how: Delivery) -> Effect {
        Effect::Record(Entry::delivered(self.plan.number(), cue, how))
    }

    /// Kept while calls are placed or called: only then does it change when one is heard.
    pub(super) fn sound_disturbed(&mut self, now: &Now, how: Disturbance, effects: &mut Effects) {
        let placed = matches!(self.phase, Phase::Count { .. } | Phase::Work { .. });
        if let Some(at) = self.worked(now).filter(|_| placed) {
            self.disturbed += 1;
            effects.push(Effect::Record(Entry::disturbed(self.plan.number(), at, how)));
        }
    }
}
