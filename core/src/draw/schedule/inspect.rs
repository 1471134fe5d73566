//! Whether a drawn session is within everything that its prescription says. Every session is checked in debug
//! builds and tests.
//!
//! This reads the prescription and the session only. It uses no function that the drawing uses, so that a mistake there
//! cannot hide itself here. It does not apply to a session with sets left out on purpose, or replanned after a pause.

use crate::plan::drill::{Form, Side, Target};
use crate::plan::prescription::{DrillOrder, DrillPlan, Prescription, Sequence};

use super::{Call, Cue, Schedule, SetPlan};

mod danger;

pub use danger::Danger;

/// What is wrong with a session. `set` is the set's number, `cue` the place in the set, from 0, blanks counted.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum Fault {
    /// Sets are not numbered 1, 2, 3 ...
    #[error("the set in place {place} has the number {number}")]
    Number {
        /// Its place in the session, from 1.
        place: usize,
        /// The number that it has.
        number: u8,
    },
    /// Sets that belong to no drill of the prescription, or come out of order.
    #[error("set {set} does not belong to any drill that is due there")]
    Stray {
        /// The number of the set.
        set: u8,
    },
    /// Sets are missing although the session's 40 cues are not used up.
    #[error("sets are missing, with only {cues} cues in the session")]
    Missing {
        /// How many real cues it has.
        cues: usize,
    },
    /// There are more than 40 real cues.
    #[error("the session has {cues} cues; the most is 40")]
    TooManyCues {
        /// How many real cues it has.
        cues: usize,
    },
    /// A safety rule about a whole set or session.
    #[error("set {set}: {danger}")]
    Danger {
        /// The number of the set.
        set: u8,
        /// The rule that is broken.
        danger: Danger,
    },
    /// Work, recovery, rest, step, conditions, form, facing or side differ from the prescription.
    #[error("set {set}: its conditions are not those prescribed")]
    Conditions {
        /// The number of the set.
        set: u8,
    },
    /// There are fewer than two real cues.
    #[error("set {set} has {cues} cues; the least is 2")]
    TooFewCues {
        /// The number of the set.
        set: u8,
        /// How many real cues it has.
        cues: usize,
    },
    /// A rule about one cue is broken.
    #[error("set {set}, cue {cue}: {rule}")]
    Cue {
        /// The number of the set.
        set: u8,
        /// Its place in the set, from 0, blanks counted.
        cue: usize,
        /// The rule that is broken.
        rule: Rule,
    },
    /// One of the calls comes too rarely or too often.
    #[error("the sets from {set} on: {name} comes {times} times; {least} to {most} are allowed")]
    Uneven {
        /// The first set of the drill.
        set: u8,
        /// What the prescription calls it.
        name: String,
        /// How often it comes.
        times: usize,
        /// The least that is allowed.
        least: usize,
        /// The most that is allowed.
        most: usize,
    },
}

/// A rule about one cue.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum Rule {
    /// The offset is the sum of the gaps.
    #[error("its offset is not the sum of the gaps")]
    Offset,
    /// The gap is in the prescribed range.
    #[error("its gap is outside the prescribed range")]
    GapRange,
    /// The gap is long enough for the action before and after it.
    #[error("its gap is too short for the action")]
    ActionGap,
    /// Nothing comes after work less recovery.
    #[error("it comes after the recovery time has started")]
    Late,
    /// Two blanks never come in a row.
    #[error("it is a second blank in a row")]
    TwoBlanks,
    /// Blanks come only where they are prescribed.
    #[error("it is a blank, and none are prescribed")]
    BlankNotAllowed,
    /// Only prescribed targets are called, in their own words.
    #[error("it calls something that is not prescribed, or in different words")]
    Target,
    /// Nothing runs on beyond the longest streak.
    #[error("it comes too often in a row")]
    Streak,
    /// A rule of safety.
    #[error(transparent)]
    Safety(#[from] Danger),
}

/// Checks a whole session against its prescription.
///
/// # Errors
/// The first fault found.
pub fn inspect(prescription: &Prescription, schedule: &Schedule) -> Result<(), Fault> {
    let sets = schedule.sets();
    for (place, set) in (1..).zip(sets) {
        if usize::from(set.number()) != place {
            return Err(Fault::Number { place, number: set.number() });
        }
        if set.rest() != prescription.rest() {
            return Err(Fault::Conditions { set: set.number() });
        }
    }
    let cues = sets.iter().map(real_cues).sum::<usize>();
    if cues > 40 {
        return Err(Fault::TooManyCues { cues });
    }
    let prescribed: usize = prescription.drills().iter().map(|plan| usize::from(plan.sets())).sum();
    if sets.len() < prescribed && cues < 39 {
        return Err(Fault::Missing { cues });
    }
    let plans: Vec<&DrillPlan> = prescription.drills().iter().collect();
    blocks(prescription.order(), true, &plans, sets)?;
    danger::inspect(prescription, sets)
}

/// Takes the sets of one drill off the front, for each drill that may be due, and goes on with the rest.
fn blocks(order: DrillOrder, warm_up: bool, plans: &[&DrillPlan], sets: &[SetPlan]) -> Result<(), Fault> {
    let Some(first) = sets.first() else { return Ok(()) };
    let due = if warm_up || order == DrillOrder::AsWritten { plans.len().min(1) } else { plans.len() };
    let standing = plans.iter().any(|plan| !danger::walks(plan.drill()));
    let mut found = Err(Fault::Stray { set: first.number() });
    for index in 0..due {
        let plan = plans[index];
        // In an order that is drawn, walking comes after everything else.
        let too_soon = due > 1 && standing && danger::walks(plan.drill());
        if plan.drill().name() != first.drill().name() || too_soon {
            continue;
        }
        let (block, after) = sets.split_at(sets.len().min(usize::from(plan.sets())));
        let others: Vec<&DrillPlan> =
            plans.iter().enumerate().filter(|&(other, _)| other != index).map(|(_, &plan)| plan).collect();
        found = drill(plan, block).and_then(|()| blocks(order, false, &others, after));
        if found.is_ok() {
            break;
        }
    }
    found
}

/// Checks all sets of one drill.
fn drill(plan: &DrillPlan, sets: &[SetPlan]) -> Result<(), Fault> {
    let mut called: Vec<&Target> = Vec::new();
    for (nth, set) in sets.iter().enumerate() {
        conditions(plan, nth, set)?;
        moments(plan, set)?;
        for (cue, call) in set.cues().iter().enumerate().filter_map(|(i, c)| Some((i, c.call()?))) {
            let fault = |rule| Fault::Cue { set: set.number(), cue, rule };
            let target = plan.targets().iter().find(|target| is_of(call, target, set));
            called.push(target.ok_or_else(|| fault(Rule::Target))?);
            if let Some(longest) = plan.longest_streak() {
                let longest = usize::from(longest);
                let mut latest = called.iter().rev().take(longest + 1);
                if called.len() > longest && latest.all(|earlier| Some(*earlier) == target) {
                    return Err(fault(Rule::Streak));
                }
            }
        }
    }
    if let Sequence::Covered { slack } = plan.sequence() {
        let kinds = plan.targets().len();
        let least = (called.len() / kinds).saturating_sub(usize::from(slack));
        let most =
            called.len() / kinds + usize::from(!called.len().is_multiple_of(kinds)) + usize::from(slack);
        for target in plan.targets() {
            let times = called.iter().filter(|called| **called == target).count();
            if times < least || times > most {
                let set = sets[0].number();
                return Err(Fault::Uneven { set, name: target.name.clone(), times, least, most });
            }
        }
    }
    Ok(())
}

/// Whether this call is for the target, in the target's words, whatever attributes are drawn in addition.
fn is_of(call: &Call, target: &Target, set: &SetPlan) -> bool {
    let said = call.say().first().copied();
    let same = target.direction == call.direction() && target.action == call.action();
    let words = match (call.ball(), target.say) {
        (Some(ball), None) => said == Some(ball.phrase()),
        (None, say) => said == say,
        (Some(_), Some(_)) => false,
    };
    let shown = match said {
        None => target.tell.is_some_and(|tell| call.show().starts_with(&tell.words().to_uppercase())),
        Some(_) => {
            let all: Vec<&str> = call.say().iter().map(|phrase| phrase.words()).collect();
            all.join(", ").to_uppercase() == call.show()
        }
    };
    let calls = call.say().iter().all(|phrase| phrase.is_cue());
    let told = (set.form() == Form::Partner) != call.tell().is_empty();
    same && words && shown && calls && told && target.span == call.span()
}

fn conditions(plan: &DrillPlan, nth: usize, set: &SetPlan) -> Result<(), Fault> {
    let two_sided = ["semi-tandem", "tandem", "one leg"].contains(&plan.conditions().stance.name());
    let side = match (two_sided, nth % 2) {
        (false, _) => None,
        (true, 0) => Some(Side::Left),
        (true, _) => Some(Side::Right),
    };
    let facings = plan.drill().facings();
    let facing = facings[if two_sided { nth / 2 } else { nth } % facings.len()];
    let same = set.drill().name() == plan.drill().name()
        && set.form() == plan.form()
        && set.step() == plan.step()
        && set.step() <= plan.ceiling()
        && set.ladder() == plan.ladder()
        && set.conditions() == plan.conditions()
        && set.work() == plan.work()
        && set.recover() == plan.recover()
        && set.side() == side
        && set.facing() == facing
        && set.balls() == plan.balls();
    if same { Ok(()) } else { Err(Fault::Conditions { set: set.number() }) }
}

/// Checks the offsets, gaps, blanks and targets of one set.
fn moments(plan: &DrillPlan, set: &SetPlan) -> Result<(), Fault> {
    let mut elapsed = 0;
    for (index, cue) in set.cues().iter().enumerate() {
        let before = index.checked_sub(1).map(|before| &set.cues()[before]);
        let gap = cue.gap();
        elapsed += gap.0;
        let span = cue.call().and_then(Call::span).map_or(0, |span| span.length.0);
        let neighbors = [before, Some(cue)].into_iter().flatten().filter_map(Cue::call);
        let rule = if cue.at().0 != elapsed {
            Rule::Offset
        } else if gap < plan.gaps().least() || gap >= plan.gaps().greatest() {
            Rule::GapRange
        } else if neighbors.into_iter().any(|call| gap < danger::shortest_gap(call, set.drill())) {
            Rule::ActionGap
        } else if elapsed + span + plan.recover().0 > plan.work().0 {
            Rule::Late
        } else if cue.is_blank() && before.is_some_and(Cue::is_blank) {
            Rule::TwoBlanks
        } else if cue.is_blank() && plan.blank_per_mille() == 0 {
            Rule::BlankNotAllowed
        } else if let Some(danger) = danger::of_cue(plan, set, index) {
            Rule::Safety(danger)
        } else {
            elapsed += span;
            continue;
        };
        return Err(Fault::Cue { set: set.number(), cue: index, rule });
    }
    let cues = real_cues(set);
    if cues < 2 { Err(Fault::TooFewCues { set: set.number(), cues }) } else { Ok(()) }
}

fn real_cues(set: &SetPlan) -> usize {
    set.cues().iter().filter(|cue| !cue.is_blank()).count()
}

#[cfg(test)]
mod test;
