//! What went wrong in a set or a session: a fall, a grab or near fall, feeling unwell, balance lost. Locks, progression and
//! reports ask here, and nothing else decides it.

use super::{PastSession, PastSet};
use crate::plan::drill::Form;
use crate::record::{Mishap, SessionEnd, Steadiness, WhyStopped, YesNo};

impl PastSet {
    /// The person fell.
    pub fn fell(&self) -> bool {
        self.had(Mishap::Fall)
    }

    /// The person grabbed hold, was steadied or nearly fell. That a lower step was advised is no grab.
    pub fn near_fall(&self) -> bool {
        self.grabbed == Some(YesNo::Yes) || self.had(Mishap::Grab)
    }

    fn had(&self, what: Mishap) -> bool {
        self.mishaps.contains(&what)
            || self.responses.contains(&Some(what.response()))
            || self.end == Some(what.set_end())
    }

    /// The person felt unwell after it.
    pub fn felt_unwell(&self) -> bool {
        self.unwell == Some(YesNo::Yes)
    }

    /// Balance was lost, by the person's own rating.
    pub fn lost_balance(&self) -> bool {
        self.steadiness == Some(Steadiness::LostBalance)
    }

    /// It is known whether there was a grab or a near fall. Where a partner notes each push, there is no question about it.
    pub fn is_grab_known(&self) -> bool {
        self.grabbed.is_some() || !self.responses.is_empty() || !self.mishaps.is_empty()
    }

    /// Nothing went wrong in it, and nothing that would say so was left unsaid.
    fn is_fine(&self) -> bool {
        let wrong = self.fell() || self.near_fall() || self.lost_balance() || self.advised_lower;
        !wrong && self.is_grab_known() && self.unwell == Some(YesNo::No)
    }
}

impl PastSession {
    /// The person fell, in a set, between two, or before one that was then not begun.
    pub fn fell(&self) -> bool {
        self.end == Some(SessionEnd::Fell)
            || self.sets.iter().any(PastSet::fell)
            || self.before_set.iter().any(|(_, what)| *what == Mishap::Fall)
    }

    /// The sets before which there was a grab, and that were then not begun.
    pub fn grabs_before_sets(&self) -> impl Iterator<Item = u8> {
        self.before_set.iter().filter(|(_, what)| *what == Mishap::Grab).map(|(set, _)| *set)
    }

    /// The person grabbed hold, was steadied or nearly fell.
    pub fn near_fall(&self) -> bool {
        self.end == Some(SessionEnd::Grabbed)
            || self.sets.iter().any(PastSet::near_fall)
            || self.grabs_before_sets().next().is_some()
    }

    /// The person grabbed hold or nearly fell with nobody near.
    pub fn near_fall_alone(&self) -> bool {
        self.sets.iter().any(|set| set.form == Form::Alone && set.near_fall())
            || (self.end == Some(SessionEnd::Grabbed) && self.is_alone())
    }

    /// The person felt unwell.
    pub fn felt_unwell(&self) -> bool {
        self.end == Some(SessionEnd::Unwell)
            || self.why_stopped == Some(WhyStopped::Unwell)
            || self.sets.iter().any(PastSet::felt_unwell)
    }

    /// The person stopped because of feeling unsteady.
    pub fn stopped_unsteady(&self) -> bool {
        self.end == Some(SessionEnd::StoppedUnsteady) || self.why_stopped == Some(WhyStopped::Unsteady)
    }

    /// Nothing went wrong in it, and nothing that would say so was left unsaid.
    pub fn is_fine(&self) -> bool {
        let wrong = self.fell() || self.near_fall() || self.felt_unwell() || self.stopped_unsteady();
        !wrong && self.sets.iter().all(PastSet::is_fine)
    }
}

#[cfg(test)]
mod test {
    use crate::course::past::PastSession;
    use crate::course::past::sample::{at, clean, prescription};
    use crate::record::{Mishap, Response, SessionEnd, SetEnd, Steadiness, WhyStopped, YesNo};

    fn session(change: fn(&mut PastSession)) -> PastSession {
        clean(&prescription(), &at(2), &[1, 2, 2]).but(change)
    }

    #[test]
    fn each_thing_that_goes_wrong_is_seen_in_every_form_and_taken_for_nothing_else() {
        type Wrong = [bool; 4];
        type Change = fn(&mut PastSession);
        const FELL: Wrong = [true, false, false, false];
        const NEAR: Wrong = [false, true, false, false];
        const UNWELL: Wrong = [false, false, true, false];
        const UNSTEADY: Wrong = [false, false, false, true];
        let forms: [(Wrong, Change); 16] = [
            (FELL, |session| session.end = Some(SessionEnd::Fell)),
            (FELL, |session| session.before_set = vec![(2, Mishap::Fall)]),
            (FELL, |session| session.sets[1].end = Some(SetEnd::Fell)),
            (FELL, |session| session.sets[1].mishaps = vec![Mishap::Fall]),
            (FELL, |session| session.sets[1].responses = vec![None, Some(Response::Fell)]),
            (NEAR, |session| session.end = Some(SessionEnd::Grabbed)),
            (NEAR, |session| session.before_set = vec![(2, Mishap::Grab)]),
            (NEAR, |session| session.sets[1].end = Some(SetEnd::Grabbed)),
            (NEAR, |session| session.sets[1].mishaps = vec![Mishap::Grab]),
            (NEAR, |session| session.sets[1].responses = vec![Some(Response::Grabbed)]),
            (NEAR, |session| session.sets[1].grabbed = Some(YesNo::Yes)),
            (UNWELL, |session| session.end = Some(SessionEnd::Unwell)),
            (UNWELL, |session| session.why_stopped = Some(WhyStopped::Unwell)),
            (UNWELL, |session| session.sets[1].unwell = Some(YesNo::Yes)),
            (UNSTEADY, |session| session.end = Some(SessionEnd::StoppedUnsteady)),
            (UNSTEADY, |session| session.why_stopped = Some(WhyStopped::Unsteady)),
        ];
        for (nth, (wrong, change)) in forms.into_iter().enumerate() {
            let session = session(change);
            let seen =
                [session.fell(), session.near_fall(), session.felt_unwell(), session.stopped_unsteady()];
            assert_eq!((seen, session.is_fine()), (wrong, false), "{nth}");
        }
    }

    #[test]
    fn only_a_session_in_which_nothing_went_wrong_and_nothing_was_left_unsaid_is_fine() {
        assert!(session(|_| {}).is_fine());
        let not_fine: [fn(&mut PastSession); 4] = [
            |session| session.sets[0].steadiness = Some(Steadiness::LostBalance),
            |session| session.sets[0].advised_lower = true,
            |session| session.sets[0].unwell = None,
            |session| session.sets[0].grabbed = None,
        ];
        for (nth, change) in not_fine.into_iter().enumerate() {
            assert!(!session(change).is_fine(), "{nth}");
        }
        let noted: fn(&mut PastSession) = |session| {
            session.sets[0].grabbed = None;
            session.sets[0].responses = vec![Some(Response::OneStep)];
            session.sets[0].held_on = None;
        };
        assert!(session(noted).is_fine(), "a partner who notes each push is asked nothing more");
    }
}
