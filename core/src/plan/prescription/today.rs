//! The same prescription at the ladder steps of one day, as progression and the person's limits allow. It only
//! narrows: no step above a ceiling, no more sets and no more work than prescribed.

use super::{DrillPlan, Prescription};
use crate::units::Millis;

/// When drills are left out, the warm-up takes their place up to so many sets \[judgment\].
const MOST_WARM_UP_SETS: u8 = 3;

impl Prescription {
    /// This prescription with drill `i` at step `steps[i]`; `None` leaves a drill out, and sets of the warm-up take its
    /// place as far as they fit. The digest stays that of the file.
    ///
    /// `None` if that is not within the prescription: a step above the drill's ceiling, another number of drills, or a
    /// first drill that is not the warm-up at its first step. A step below the one to start at is gentler, and allowed.
    ///
    /// ```
    /// use counterpoise_core::plan::prescription::Prescription;
    /// let gentle = Prescription::ready("gentle").unwrap();
    /// let later = gentle.at_steps(&[Some(1), Some(2)]).unwrap();
    /// assert_eq!(later.drills()[1].step(), 2);
    /// assert!(gentle.at_steps(&[Some(1), Some(4)]).is_none(), "the ceiling is 3");
    /// ```
    pub fn at_steps(&self, steps: &[Option<u8>]) -> Option<Self> {
        if steps.len() != self.drills.len() || steps.first() != Some(&Some(1)) {
            return None;
        }
        let mut today = self.clone();
        today.drills.clear();
        let mut spare_sets = 0;
        let mut spare_work = Millis(0);
        for (plan, step) in self.drills.iter().zip(steps) {
            match step {
                Some(step) if (1..=plan.ceiling).contains(step) => {
                    today.drills.push(DrillPlan { step: *step, ..plan.clone() });
                }
                Some(_) => return None,
                None => {
                    spare_sets += plan.sets;
                    spare_work = spare_work + Millis(plan.work.0 * u32::from(plan.sets));
                }
            }
        }
        let warm_up = &mut today.drills[0];
        while spare_sets > 0 && spare_work >= warm_up.work && warm_up.sets < MOST_WARM_UP_SETS {
            warm_up.sets += 1;
            spare_sets -= 1;
            spare_work = spare_work - warm_up.work;
        }
        Some(today)
    }
}

#[cfg(test)]
mod test {
    use crate::draw::schedule::{Scheduler, Seed};
    use crate::plan::drill::Drill;
    use crate::plan::prescription::Prescription;
    use crate::units::Millis;

    #[test]
    fn a_lower_step_is_never_more_dangerous_than_a_higher_one() {
        // What the gate checked from the first step to the ceiling then holds below the first step too.
        for drill in Drill::all() {
            for (at, lower) in drill.ladder().iter().enumerate() {
                for higher in &drill.ladder()[at..] {
                    let unlocks: Vec<_> = higher.unlocks().collect();
                    assert!(lower.unlocks().all(|unlock| unlocks.contains(&unlock)), "{}", drill.name());
                    let needs: Vec<_> = higher.needs().collect();
                    assert!(lower.needs().all(|need| needs.contains(&need)), "{}", drill.name());
                    assert!(higher.stance.is_spell() || !lower.stance.is_spell(), "{}", drill.name());
                }
            }
        }
    }

    #[test]
    fn no_step_is_above_a_ceiling_or_below_the_first_and_the_warm_up_stays() {
        for (name, prescription) in Prescription::all_ready() {
            let same: Vec<Option<u8>> = prescription.drills().iter().map(|plan| Some(plan.step())).collect();
            assert!(prescription.at_steps(&same).is_some(), "{name}");
            for (place, plan) in prescription.drills().iter().enumerate().skip(1) {
                let mut steps = same.clone();
                steps[place] = Some(plan.ceiling());
                assert!(prescription.at_steps(&steps).is_some(), "{name}");
                steps[place] = Some(plan.ceiling() + 1);
                assert!(prescription.at_steps(&steps).is_none(), "{name}");
                steps[place] = Some(0);
                assert!(prescription.at_steps(&steps).is_none(), "{name}");
            }
            for first in [None, Some(0), Some(2)] {
                let mut steps = same.clone();
                steps[0] = first;
                assert!(prescription.at_steps(&steps).is_none(), "{name}");
            }
            assert!(prescription.at_steps(&same[1..]).is_none(), "{name}");
        }
    }

    #[test]
    fn every_step_of_every_ready_prescription_can_be_drawn() {
        for (name, prescription) in Prescription::all_ready() {
            for (place, plan) in prescription.drills().iter().enumerate().skip(1) {
                for step in (1..=plan.ceiling()).map(Some).chain([None]) {
                    let mut steps: Vec<Option<u8>> =
                        prescription.drills().iter().map(|plan| Some(plan.step())).collect();
                    steps[place] = step;
                    let today = prescription.at_steps(&steps).unwrap();
                    let schedule =
                        Scheduler::new(&today).unwrap().draw(Seed::from_hex(&"5a".repeat(32)).unwrap());
                    assert!(!schedule.sets().is_empty(), "{name}");
                    let work = |p: &Prescription| -> u32 {
                        p.drills().iter().map(|plan| u32::from(plan.sets()) * plan.work().0).sum()
                    };
                    assert!(work(&today) <= work(prescription), "{name}");
                }
            }
        }
    }

    #[test]
    fn the_warm_up_takes_the_place_of_what_is_left_out() {
        // gentle: one set of shifts and two of reaches, a minute each.
        let alone = Prescription::ready("gentle").unwrap().at_steps(&[Some(1), None]).unwrap();
        assert_eq!((alone.drills().len(), alone.drills()[0].sets()), (1, 3));
        assert_eq!(alone.drills()[0].work(), Millis(60_000));
    }
}
