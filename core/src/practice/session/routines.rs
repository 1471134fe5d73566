//! The warm-up and the cool-down within a session: sentence after sentence until they end or a key skips them.

use super::event::{Effect, Now};
use super::screen::Body;
use super::{Effects, Phase, Session, say};
use crate::practice::routine::Routine;
use crate::record::{Entry, RoutineEnd, RoutinePart, RoutineRow, SessionEnd, Stamp};
use crate::units::Millis;

fn routine(part: RoutinePart) -> &'static Routine {
    match part {
        RoutinePart::WarmUp => Routine::warm_up(),
        RoutinePart::CoolDown => Routine::cool_down(),
    }
}

impl Session {
    pub(super) fn begin_routine(&mut self, now: &Now, part: RoutinePart, effects: &mut Effects) {
        self.closing_words = None;
        effects.push(Effect::Hush);
        if part == RoutinePart::CoolDown {
            effects.push(say("end.done"));
        }
        self.say_item(now, part, 0, effects);
    }

    fn say_item(&mut self, now: &Now, part: RoutinePart, item: usize, effects: &mut Effects) {
        match routine(part).items().get(item) {
            Some(next) => {
                effects.push(Effect::Say(next.phrase));
                self.phase = Phase::Routine { part, item, since: now.at };
            }
            None => self.end_routine(now, part, RoutineEnd::Done, effects),
        }
    }

    pub(super) fn advance_routine(
        &mut self,
        now: &Now,
        part: RoutinePart,
        item: usize,
        since: Millis,
        effects: &mut Effects,
    ) {
        let lasts = routine(part).items().get(item).map_or(Millis(0), |item| item.lasts);
        if now.at - since >= lasts {
            self.say_item(now, part, item + 1, effects);
        }
    }

    pub(super) fn skip_routine(&mut self, now: &Now, part: RoutinePart, effects: &mut Effects) {
        effects.push(Effect::Hush);
        self.end_routine(now, part, RoutineEnd::Skipped, effects);
    }

    fn end_routine(&mut self, now: &Now, part: RoutinePart, how: RoutineEnd, effects: &mut Effects) {
        effects.push(Effect::Record(Entry::Routine(RoutineRow { part, at: Stamp::from(&now.wall), how })));
        match part {
            RoutinePart::WarmUp => self.make_ready(now, effects),
            RoutinePart::CoolDown => self.end(now, SessionEnd::Finished, effects),
        }
    }

    /// The practice is left in it.
    pub(super) fn break_off_routine(&self, now: &Now, effects: &mut Effects) {
        if let Phase::Routine { part, .. } = self.phase {
            let (at, how) = (Stamp::from(&now.wall), RoutineEnd::BrokenOff);
            effects.push(Effect::Record(Entry::Routine(RoutineRow { part, at, how })));
        }
    }

    pub(super) fn routine_page(part: RoutinePart, item: usize) -> Body {
        let routine = routine(part);
        let sentence = routine.items().get(item).map(|item| item.phrase.words().to_owned());
        Body::Page {
            title: routine.title().to_owned(),
            text: sentence.into_iter().collect(),
            items: Vec::new(),
        }
    }
}
