//! What is drawn for a call in addition to its direction: how firm a push is, which of two balls, which parts. Each
//! has its own random stream, so that none shifts another.

use rand::rngs::ChaCha12Rng;

use super::call::{Call, joined};
use super::chance::below;
use super::seed::Seed;
use crate::plan::drill::{Ball, Instruction, Part, Strength};
use crate::plan::phrase::Phrase;
use crate::plan::prescription::{DrillPlan, limits};

/// The random streams of one set.
pub(super) struct Extras<'a> {
    plan: &'a DrillPlan,
    strengths: ChaCha12Rng,
    balls: ChaCha12Rng,
    parts: ChaCha12Rng,
}

impl<'a> Extras<'a> {
    pub(super) fn new(seed: Seed, set: u8, plan: &'a DrillPlan) -> Self {
        Self { plan, strengths: seed.strengths(set), balls: seed.balls(set), parts: seed.parts(set) }
    }

    /// Adds what is drawn to a call. `pushes` counts the session's pushes before it.
    pub(super) fn add(&mut self, call: &mut Call, pushes: &mut usize) {
        if call.action.is_push() {
            self.push(call, *pushes);
            *pushes += 1;
        }
        if call.action.is_toss() && self.plan.balls() == 2 {
            self.ball(call);
        }
        if !self.plan.parts().is_empty() {
            self.combine(call);
        }
    }

    /// One draw among the strengths allowed. The first pushes of a session are the gentlest whatever was drawn, and
    /// the partner is told that they are for practice.
    fn push(&mut self, call: &mut Call, before: usize) {
        let (gentlest, firmest) = self.plan.strength().unwrap_or((Strength::GENTLEST, Strength::GENTLEST));
        let drawn = below(&mut self.strengths, u64::from(firmest.number() - gentlest.number()) + 1);
        call.practice = before < limits::PRACTICE_PUSHES;
        let firmer = if call.practice { 0 } else { drawn as u8 };
        let strength = Strength::new(gentlest.number() + firmer).unwrap_or(gentlest);
        call.strength = Some(strength);
        call.tell.push(Instruction::Words(strength.phrase()));
        if call.practice {
            call.tell.insert(0, Instruction::Words(Phrase::own("tell.practice")));
        }
    }

    /// One draw: which ball is to be caught. It is named to the trainee as it leaves the hand.
    fn ball(&mut self, call: &mut Call) {
        let ball = if below(&mut self.balls, 2) == 0 { Ball::Big } else { Ball::Small };
        call.ball = Some(ball);
        call.say = vec![ball.phrase()];
        call.show = ball.phrase().words().to_uppercase();
        call.tell.push(Instruction::Words(ball.phrase()));
    }

    /// How many parts: one draw, evenly from the call alone to as many as the step allows and suit the direction. Then
    /// for each part one draw among the kinds that are left and one among that kind's. They are spoken in the order of
    /// the file.
    fn combine(&mut self, call: &mut Call) {
        let suitable: Vec<&Part> =
            self.plan.parts().iter().filter(|part| part.suits(call.direction)).collect();
        let mut kinds: Vec<&str> = suitable.iter().map(|part| part.kind.as_str()).collect();
        kinds.dedup();
        let most = usize::from(self.plan.conditions().parts - 1).min(kinds.len());
        let count = below(&mut self.parts, most as u64 + 1) as usize;
        let mut chosen = Vec::new();
        for _ in 0..count {
            let kind = kinds.swap_remove(below(&mut self.parts, kinds.len() as u64) as usize);
            let same: Vec<usize> =
                (0..suitable.len()).filter(|place| suitable[*place].kind == kind).collect();
            chosen.push(same[below(&mut self.parts, same.len() as u64) as usize]);
        }
        chosen.sort_unstable();
        let added = chosen.into_iter().map(|place| suitable[place].phrase);
        call.say.extend(added.clone());
        call.show = joined(call.say.iter().map(|phrase| phrase.words()), ", ").to_uppercase();
        if !call.tell.is_empty() {
            call.tell.extend(added.map(Instruction::Words));
        }
    }
}
