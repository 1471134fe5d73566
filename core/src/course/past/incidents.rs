//! What went wrong in a set or a session: a fall, a grab or near fall, feeling unwell, balance lost. Locks, progression and
//! reports ask here, and nothing else decides it.

use serde::{Deserialize, Serialize};

use super::{FallAnswers, Past, PastSession, PastSet};
use crate::health::lock::Lock;
use crate::health::readiness::Readiness;
use crate::plan::drill::Form;
use crate::practice::session::KnownFall;
use crate::record::{
    Mishap, Question, Response, SessionEnd, SetEnd, Steadiness, WhyStopped, YesNo, YesNoNotSure,
};

/// The falls and grabs of one session, as far as they leave a part of the program out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub struct Incidents {
    /// A fall, in it or in daily life since the one before.
    pub fell: bool,
    /// Grabs and near falls in it, a push counted once.
    pub grabs: u8,
}

impl Incidents {
    /// The more of both.
    #[must_use]
    pub fn or(self, other: Self) -> Self {
        Self { fell: self.fell || other.fell, grabs: self.grabs.max(other.grabs) }
    }
}

/// Somebody who is not sure may have.
fn may_be_yes(answer: Option<YesNoNotSure>) -> bool {
    answer.is_some_and(YesNoNotSure::may_be_yes)
}

impl Past {
    /// The last fall that is known since the last practice began, and not as one that was known before.
    pub fn known_fall(&self) -> Option<KnownFall> {
        let from = self.sessions.iter().rposition(PastSession::is_practice).unwrap_or(0);
        self.sessions[from..].iter().rev().find_map(|session| {
            // One that was set aside may be somebody else's.
            if session.discounted {
                return None;
            }
            let known = |in_practice| KnownFall { day: session.day, in_practice };
            match session.fell() {
                true => Some(known(true)),
                false => session.reports_new_fall().then(|| known(false)),
            }
        })
    }

    /// The last practice, where its answers are not whole: what happened in it is asked before anything else. What
    /// happened before it was asked before it.
    pub fn to_ask_about(&self) -> Option<&PastSession> {
        let moved = |session: &&PastSession| !session.sets.is_empty() || !session.open_questions().is_empty();
        self.sessions.iter().rev().find(moved).filter(|session| !session.open_questions().is_empty())
    }
}

impl PastSet {
    /// The person fell, or is not sure.
    pub fn fell(&self) -> bool {
        self.had(Mishap::Fall) || may_be_yes(self.fell_said)
    }

    /// The person grabbed hold, was steadied or nearly fell. That a lower step was advised is no grab.
    pub fn near_fall(&self) -> bool {
        self.grabbed == Some(YesNo::Yes) || self.had(Mishap::Grab)
    }

    /// How many grabs and near falls: those that a partner noted or reported, and one at least where any answer says so.
    pub fn grabs(&self) -> u8 {
        let noted = self.responses.iter().filter(|response| **response == Some(Response::Grabbed)).count();
        (noted as u8).saturating_add(self.grabs_by_key).max(self.near_fall().into())
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

    /// The questions after a set were asked of it.
    fn was_asked_about(&self) -> bool {
        matches!(
            self.end,
            Some(
                SetEnd::Completed
                    | SetEnd::PausedTooLong
                    | SetEnd::SoundLost
                    | SetEnd::Slept
                    | SetEnd::Halted
            )
        )
    }

    /// It was passed over whether the person fell, and nothing else says it.
    fn is_fall_open(&self) -> bool {
        self.fell_said.is_none() && (self.fell_asked || self.was_asked_about() && !self.is_grab_known())
    }

    /// Nothing went wrong in it, and nothing that would say so was left unsaid.
    fn is_fine(&self) -> bool {
        let wrong = self.fell() || self.near_fall() || self.lost_balance() || self.advised_lower;
        !wrong && self.is_grab_known() && self.unwell == Some(YesNo::No)
    }
}

impl PastSession {
    /// The person fell, in a set, between two, or before one that was then not begun, or is not sure.
    pub fn fell(&self) -> bool {
        self.end == Some(SessionEnd::Fell)
            || may_be_yes(self.told.fell)
            || may_be_yes(self.told.fell_then)
            || self.sets.iter().any(PastSet::fell)
            || self.before_set.iter().any(|(_, what)| *what == Mishap::Fall)
    }

    /// A fall was reported before it that is not said to be one that was known already.
    pub fn reports_new_fall(&self) -> bool {
        self.fell_before() && self.same_fall != Some(YesNoNotSure::Yes)
    }

    /// What a fall in it locks; nothing after one that did no harm. No answer does not mean that it did none.
    pub fn fall_locks(&self) -> Vec<Lock> {
        let FallAnswers { hurt, head, .. } = self.told;
        if !self.fell() {
            return Vec::new();
        }
        match (hurt, head) {
            // Where both were one question.
            (None, None) if self.hurt == Some(YesNo::No) => Vec::new(),
            (Some(YesNoNotSure::No), Some(YesNoNotSure::No)) => Vec::new(),
            (Some(YesNoNotSure::No), Some(_)) => vec![Lock::HeadKnock],
            (_, head) if may_be_yes(head) => vec![Lock::FallHurt, Lock::HeadKnock],
            _ => vec![Lock::FallHurt],
        }
    }

    /// The questions about it that the next start asks: it was cut off, or what must be known was passed over. A fall that
    /// is known is not asked again, nor is what it did: that it was not said locks.
    pub fn open_questions(&self) -> Vec<Question> {
        let moved = !self.sets.is_empty() || !self.ready.is_empty() && self.is_cut_off();
        if !moved || self.by_hand || self.discounted {
            return Vec::new();
        }
        let fall_open = self.is_cut_off()
            || self.doubtful
            || self.told.asked && self.told.fell.is_none()
            || self.sets.iter().any(PastSet::is_fall_open);
        let unwell_open = self.is_cut_off()
            || self.doubtful
            || self.sets.iter().any(|set| set.was_asked_about() && set.unwell.is_none())
            || self.end == Some(SessionEnd::StoppedOther) && self.why_stopped.is_none();
        let fall = fall_open && !self.fell() && self.told.fell_then.is_none();
        let unwell = unwell_open && !self.felt_unwell() && self.unwell_then.is_none();
        let open = [(fall, Question::FellThen), (unwell, Question::UnwellThen)];
        open.into_iter().filter(|(is, _)| *is).map(|(_, question)| question).collect()
    }

    /// Nobody answered, or it ended before anything could be asked: what happened then is not known.
    fn is_cut_off(&self) -> bool {
        matches!(
            self.end,
            None | Some(SessionEnd::Interrupted | SessionEnd::NotAnswered | SessionEnd::Closed)
        )
    }

    /// The person reported a fall in daily life, on the pages before it.
    pub fn fell_before(&self) -> bool {
        Readiness::of(&self.ready).fell
    }

    /// What went wrong in it, as it is right now and as it was before any correction.
    pub fn incidents(&self) -> Incidents {
        let in_sets: usize = self.sets.iter().map(|set| usize::from(set.grabs())).sum();
        let grabs = (in_sets + self.grabs_before_sets().count()).max(self.near_fall().into());
        let now = Incidents { fell: self.fell() || self.reports_new_fall(), grabs: grabs.min(255) as u8 };
        now.or(self.incidents_before)
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
            || may_be_yes(self.unwell_then)
            || self.sets.iter().any(PastSet::felt_unwell)
    }

    /// The person stopped because of feeling unsteady.
    pub fn stopped_unsteady(&self) -> bool {
        self.end == Some(SessionEnd::StoppedUnsteady) || self.why_stopped == Some(WhyStopped::Unsteady)
    }

    /// Nothing went wrong in it, and nothing that would say so was left unsaid.
    pub fn is_fine(&self) -> bool {
        let wrong = self.fell() || self.near_fall() || self.felt_unwell() || self.stopped_unsteady();
        !wrong && !self.doubtful && self.sets.iter().all(PastSet::is_fine)
    }
}

#[cfg(test)]
mod test {
    use crate::course::past::PastSession;
    use crate::course::past::sample::{at, clean, past, prescription};
    use crate::health::lock::Lock;
    use crate::health::readiness::Item;
    use crate::record::{
        Mishap, Question, Response, SessionEnd, SetEnd, Steadiness, WhyStopped, YesNo, YesNoNotSure,
    };

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
        let forms: [(Wrong, Change); 21] = [
            (FELL, |session| session.end = Some(SessionEnd::Fell)),
            (FELL, |session| session.before_set = vec![(2, Mishap::Fall)]),
            (FELL, |session| session.sets[1].end = Some(SetEnd::Fell)),
            (FELL, |session| session.sets[1].mishaps = vec![Mishap::Fall]),
            (FELL, |session| session.sets[1].responses = vec![None, Some(Response::Fell)]),
            (FELL, |session| session.sets[1].fell_said = Some(YesNoNotSure::Yes)),
            (FELL, |session| session.sets[1].fell_said = Some(YesNoNotSure::NotSure)),
            (FELL, |session| session.told.fell = Some(YesNoNotSure::NotSure)),
            (FELL, |session| session.told.fell_then = Some(YesNoNotSure::NotSure)),
            (NEAR, |session| session.end = Some(SessionEnd::Grabbed)),
            (NEAR, |session| session.before_set = vec![(2, Mishap::Grab)]),
            (NEAR, |session| session.sets[1].end = Some(SetEnd::Grabbed)),
            (NEAR, |session| session.sets[1].mishaps = vec![Mishap::Grab]),
            (NEAR, |session| session.sets[1].responses = vec![Some(Response::Grabbed)]),
            (NEAR, |session| session.sets[1].grabbed = Some(YesNo::Yes)),
            (UNWELL, |session| session.end = Some(SessionEnd::Unwell)),
            (UNWELL, |session| session.why_stopped = Some(WhyStopped::Unwell)),
            (UNWELL, |session| session.sets[1].unwell = Some(YesNo::Yes)),
            (UNWELL, |session| session.unwell_then = Some(YesNoNotSure::NotSure)),
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
    fn a_fall_locks_unless_it_is_said_that_it_hurt_nothing_and_not_the_head() {
        use Lock::{FallHurt, HeadKnock};
        use YesNoNotSure::{No, NotSure, Yes};
        for (hurt, head, locks) in [
            (Some(No), Some(No), &[][..]),
            (Some(No), Some(Yes), &[HeadKnock]),
            (Some(No), Some(NotSure), &[HeadKnock]),
            (Some(No), None, &[FallHurt]),
            (Some(Yes), Some(No), &[FallHurt]),
            (Some(NotSure), Some(No), &[FallHurt]),
            (Some(Yes), Some(NotSure), &[FallHurt, HeadKnock]),
            (None, Some(No), &[FallHurt]),
            (None, Some(Yes), &[FallHurt, HeadKnock]),
            (None, None, &[FallHurt]),
        ] {
            let fell = session(|session| session.end = Some(SessionEnd::Fell));
            let fell = fell.but(|session| (session.told.hurt, session.told.head) = (hurt, head));
            assert_eq!(fell.fall_locks(), locks, "{hurt:?} {head:?}");
            assert_eq!(fell.but(|session| session.end = Some(SessionEnd::Finished)).fall_locks(), []);
        }
        // Where both were one question.
        for (hurt, locks) in
            [(Some(YesNo::No), &[][..]), (Some(YesNo::Yes), &[FallHurt]), (None, &[FallHurt])]
        {
            let fell = session(|session| session.end = Some(SessionEnd::Fell));
            assert_eq!(fell.but(|session| session.hurt = hurt).fall_locks(), locks, "{hurt:?}");
        }
    }

    /// Not answered, killed, frozen, no power: nobody knows what happened, whatever was said before.
    #[test]
    fn a_practice_whose_answers_are_not_whole_is_asked_about_until_they_are() {
        let both = [Question::FellThen, Question::UnwellThen];
        let ends =
            [None, Some(SessionEnd::Interrupted), Some(SessionEnd::NotAnswered), Some(SessionEnd::Closed)];
        for end in ends {
            let cut = session(|_| {}).but(|session| session.end = end);
            assert_eq!(cut.open_questions(), both, "{end:?}");
            let said_before = cut.clone().but(|session| session.sets[1].fell_said = Some(YesNoNotSure::No));
            assert_eq!(said_before.open_questions(), both, "{end:?}: it says nothing of what came after it");
            let in_warm_up = cut.clone().but(|session| {
                session.sets.clear();
                session.ready = vec![(Item::Light, YesNoNotSure::Yes)];
            });
            assert_eq!(in_warm_up.open_questions(), both, "{end:?}");
            let on_the_pages = in_warm_up.but(|session| session.ready.clear());
            assert_eq!(on_the_pages.open_questions(), [], "{end:?}: nobody has moved");
            for fell in [YesNoNotSure::No, YesNoNotSure::NotSure, YesNoNotSure::Yes] {
                let said = cut.clone().but(|session| session.told.fell_then = Some(fell));
                assert_eq!(said.open_questions(), [Question::UnwellThen]);
                assert_eq!(said.fell(), fell.may_be_yes());
                let said = said.but(|session| session.unwell_then = Some(fell));
                assert_eq!((said.open_questions(), said.felt_unwell()), (vec![], fell.may_be_yes()));
            }
            let known = cut.clone().but(|session| session.sets[0].fell_said = Some(YesNoNotSure::Yes));
            assert_eq!(known.open_questions(), [Question::UnwellThen], "what is known is not asked again");
            let not_of_this = [
                cut.clone().but(|session| session.by_hand = true),
                cut.but(|session| session.discounted = true),
            ];
            assert!(not_of_this.iter().all(|session| session.open_questions().is_empty()));
        }
        // Ended in order, with something passed over.
        type Row<'a> = (&'a [Question], fn(&mut PastSession));
        let over: [Row<'_>; 7] = [
            (&[], |_| {}),
            (&[Question::FellThen], |session| session.sets[1].grabbed = None),
            (&[Question::UnwellThen], |session| session.sets[1].unwell = None),
            (&[Question::FellThen], |session| {
                session.sets[1].fell_asked = true;
                (session.end, session.why_stopped) =
                    (Some(SessionEnd::StoppedOther), Some(WhyStopped::Other));
            }),
            (&[], |session| {
                (session.sets[1].fell_asked, session.sets[1].fell_said) = (true, Some(YesNoNotSure::No));
                (session.end, session.why_stopped) =
                    (Some(SessionEnd::StoppedOther), Some(WhyStopped::Other));
            }),
            (&[Question::UnwellThen], |session| session.end = Some(SessionEnd::StoppedOther)),
            (&[], |session| {
                (session.sets[1].grabbed, session.sets[1].responses) = (None, vec![Some(Response::OneStep)]);
            }),
        ];
        for (nth, (open, change)) in over.into_iter().enumerate() {
            assert_eq!(session(change).open_questions(), open, "{nth}");
        }
    }

    #[test]
    fn only_the_last_practice_is_asked_about_since_what_was_before_it_was_asked_before_it() {
        let of =
            |day, end| clean(&prescription(), &at(day), &[1, 2, 2]).but(|session| session.end = Some(end));
        let day = |sessions: Vec<PastSession>| past(sessions).to_ask_about().map(|session| session.day.day());
        let (cut, whole) = (SessionEnd::Interrupted, SessionEnd::Finished);
        assert_eq!(day(vec![]), None);
        assert_eq!(day(vec![of(2, cut)]), Some(2));
        assert_eq!(day(vec![of(2, cut), of(4, cut)]), Some(4));
        assert_eq!(day(vec![of(2, cut), of(4, whole)]), None);
        let not_today = of(4, SessionEnd::NotToday).but(|session| session.sets.clear());
        assert_eq!(day(vec![of(2, cut), not_today]), Some(2), "nobody has moved since");
    }

    #[test]
    fn a_fall_that_is_reported_again_is_counted_once_unless_it_is_a_new_one() {
        use YesNoNotSure::{No, NotSure, Yes};
        let practice = |day| clean(&prescription(), &at(day), &[1, 2, 2]);
        let reported = |day, same| {
            practice(day).but(|session| {
                session.sets.clear();
                session.ready = vec![(Item::Fall, Yes)];
                session.same_fall = same;
            })
        };
        let fell = practice(2).but(|session| session.end = Some(SessionEnd::Fell));
        let known = |sessions: Vec<PastSession>| {
            past(sessions).known_fall().map(|known| (known.day.day(), known.in_practice))
        };
        assert_eq!(known(vec![practice(2)]), None);
        assert_eq!(known(vec![fell.clone()]), Some((2, true)));
        assert_eq!(known(vec![fell.clone(), practice(6)]), None, "there was a practice since");
        assert_eq!(known(vec![fell.clone(), reported(5, Some(Yes))]), Some((2, true)));
        for new in [Some(No), Some(NotSure), None] {
            assert_eq!(known(vec![fell.clone(), reported(5, new)]), Some((5, false)), "{new:?}");
            assert!(reported(5, new).incidents().fell, "{new:?}: a new one leaves a part of the program out");
        }
        assert!(!reported(5, Some(Yes)).incidents().fell, "the one before has done so");
        let aside = fell.but(|session| session.discounted = true);
        assert_eq!(known(vec![aside]), None, "somebody else's");
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
