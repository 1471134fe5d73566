//! What is true for the whole session, whatever it is doing.

use super::event::Channel;
use crate::draw::schedule::{Schedule, Scheduler, SetPlan};
use crate::plan::drill::{Action, Drill, Form};
use crate::plan::place::Room;
use crate::plan::precaution::Precautions;
use crate::plan::prescription::DrillPlan;
use crate::practice::emergency::Contacts;
use crate::record::{Mishap, SessionBegun};
use crate::units::Millis;

/// With a partner the first grab leads to a rest, the second ends the session; one in the 28 days before counts as the
/// first \[judgment\].
pub(super) const MOST_GRABS: u8 = 2;

#[derive(Debug)]
#[expect(clippy::struct_excessive_bools, reason = "each is a fact that can hold whatever is going on")]
pub(super) struct Whole {
    pub(super) scheduler: Scheduler,
    pub(super) schedule: Schedule,
    pub(super) begun: SessionBegun,
    /// Whom to call; a number is never assumed.
    pub(super) contacts: Contacts,
    /// The person's name, if set: shown on the first page, so that nobody practices under another name.
    pub(super) name: Option<String>,
    /// Nothing was set up yet.
    pub(super) is_new: bool,
    /// Whether there is a partner, and by which channel the partner gets the cues.
    pub(super) mode: Channel,
    /// What is on each side; `None` was never asked.
    pub(super) room: Option<Room>,
    /// The floor course of the day; empty where there is none.
    pub(super) course: Vec<String>,
    pub(super) course_shown: bool,
    /// The drill of the last set that was made ready, whose kit is in place.
    pub(super) in_place: Option<&'static str>,
    pub(super) silent: bool,
    /// Whether the sound check was answered with the right word.
    pub(super) sound_heard: bool,
    pub(super) sound_lost: bool,
    /// After which set it was said that the sound is back.
    pub(super) sound_back_said: Option<u8>,
    pub(super) not_saved: bool,
    /// The pushes that the partner was asked for so far.
    pub(super) pushes_given: usize,
    /// Grabs with a partner.
    pub(super) grabs: u8,
    /// There was one in the 28 days before: the first one today is the second.
    pub(super) grab_lately: bool,
    /// What ends the session after what must still be asked.
    pub(super) ended_by: Option<Mishap>,
    /// The moment of the last tick: until then the practice is known to have gone on.
    pub(super) last_tick: Millis,
}

impl Whole {
    pub(super) fn count(&mut self, what: Mishap) {
        self.grabs += u8::from(what == Mishap::Grab);
        if what == Mishap::Fall {
            self.ended_by = Some(what);
        } else if self.grabs + u8::from(self.grab_lately) >= MOST_GRABS {
            self.ended_by.get_or_insert(what);
        }
    }

    pub(super) fn open_sound(&mut self, device: Option<String>) {
        self.silent = device.is_none();
        if let Some(drawn) = &mut self.begun.drawn {
            drawn.device = device;
        }
    }

    /// There is an output, even if it is lost at the moment or nobody wants to hear the calls.
    pub(super) fn has_output(&self) -> bool {
        self.begun.drawn.as_ref().is_some_and(|drawn| drawn.device.is_some())
    }

    /// The sound output was lost, and nobody has said to go on without.
    pub(super) fn is_without_output(&self) -> bool {
        self.sound_lost && !self.silent
    }

    /// What the person must not do.
    pub(super) fn precautions(&self) -> Precautions {
        self.scheduler.prescription().precautions()
    }

    /// Whose ear and eye the cues of this set go to. Without sound, the screen replaces the earbud.
    pub(super) fn channel(&self, plan: &SetPlan) -> Channel {
        match (plan.form(), self.mode) {
            (Form::Alone, _) | (Form::Partner, Channel::Trainee) => Channel::Trainee,
            (Form::Partner, Channel::PartnerEarbud) if !self.silent => Channel::PartnerEarbud,
            (Form::Partner, _) => Channel::PartnerScreen,
        }
    }

    pub(super) fn room(&self) -> Room {
        self.room.unwrap_or_default()
    }

    /// Whether such an action is among what the set may call, called this time or not.
    pub(super) fn calls_for(&self, plan: &SetPlan, is: fn(Action) -> bool) -> bool {
        let plans = self.scheduler.prescription().drills();
        let here = (plan.drill().name(), plan.form());
        let same = plans.iter().filter(|plan| (plan.drill().name(), plan.form()) == here);
        same.flat_map(DrillPlan::targets).any(|target| is(target.action))
    }

    /// Whether somebody pushes in it: then the trainee is asked first, and the partner notes what happened.
    pub(super) fn has_pushes(&self, plan: &SetPlan) -> bool {
        self.calls_for(plan, Action::is_push)
    }

    /// Every drill with a partner in this session, once.
    pub(super) fn partner_drills(&self) -> Vec<&'static Drill> {
        let mut drills: Vec<&'static Drill> = Vec::new();
        for set in self.schedule.sets().iter().filter(|set| set.form() == Form::Partner) {
            if drills.iter().all(|drill| drill.name() != set.drill().name()) {
                drills.push(set.drill());
            }
        }
        drills
    }
}
