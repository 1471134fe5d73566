//! The cautions of a drill: what each says, when it applies, and what it forbids, as data. So a test can hold every caution
//! against every action of the same session.

use serde::Deserialize;

use super::action::Action;
use super::conditions::{LadderStep, Stance, Support};
use super::target::{Part, Target};
use super::{Drill, Ladder};
use crate::plan::direction::Direction;
use crate::words;

/// What a caution can forbid, and what an action can ask for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Movement {
    /// A foot leaves its place: a step, walking, or one that a push may bring.
    LiftFoot,
    /// The heels leave the floor.
    LiftHeels,
    /// No hand rests on the support.
    LetGo,
    /// Bending down.
    Bend,
    /// Touching or grasping a thing.
    Grasp,
    /// Standing up.
    StandUp,
    /// Turning the head or the trunk.
    Turn,
    /// Closing the eyes.
    CloseEyes,
    /// Going faster.
    Hurry,
}

words! {
    Movement {
        LiftFoot => "lift a foot",
        LiftHeels => "lift the heels",
        LetGo => "let go",
        Bend => "bend down",
        Grasp => "touch or grasp",
        StandUp => "stand up",
        Turn => "turn",
        CloseEyes => "close the eyes",
        Hurry => "hurry",
    }
}

/// A caution of a drill.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DrillCaution {
    /// One or two sentences.
    pub(super) text: String,
    /// It is about these actions only; empty: about everything that is done in the session.
    #[serde(default)]
    pub(super) actions: Vec<Action>,
    /// It is about these directions only; empty: about all.
    #[serde(default)]
    pub(super) directions: Vec<Direction>,
    /// It is about these stances only; empty: about all.
    #[serde(default)]
    pub(super) stances: Vec<Stance>,
    /// What it says not to do. Every caution must say so, if only that it forbids nothing.
    pub(super) forbids: Vec<Movement>,
}

impl DrillCaution {
    /// Its text.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// Whether it applies where these targets are called in these stances.
    pub(crate) fn applies(&self, targets: &[Target], stances: impl IntoIterator<Item = Stance>) -> bool {
        let called = |target: &Target| {
            (self.actions.is_empty() || self.actions.contains(&target.action))
                && (self.directions.is_empty() || self.directions.contains(&target.direction))
        };
        let stood = |stance| self.stances.contains(&stance);
        targets.iter().any(called) && (self.stances.is_empty() || stances.into_iter().any(stood))
    }

    /// The first call of a drill that asks for something it forbids, at any step of any ladder.
    pub fn contradiction<'a>(&self, drill: &'a Drill) -> Option<(Movement, &'a Target)> {
        let about = |target: &&Target| self.actions.is_empty() || self.actions.contains(&target.action);
        let asked = |target| {
            let steps = drill.ladders().iter().flat_map(Ladder::steps);
            steps.flat_map(move |step| movements(target, drill.parts(), *step))
        };
        drill.targets().iter().filter(about).find_map(|target| {
            let found = asked(target).find(|movement| self.forbids.contains(movement))?;
            Some((found, target))
        })
    }

    /// What it forbids of these movements, if it is about everything that is done in the session.
    pub fn contradicts_any(&self, moves: &[Movement]) -> Vec<Movement> {
        let forbids = self.forbids.iter().copied().filter(|_| self.actions.is_empty());
        forbids.filter(|forbidden| moves.contains(forbidden)).collect()
    }

    /// Whether its text names what it is about. A reader cannot know from `actions` that it says nothing about the others.
    pub(super) fn names_its_actions(&self) -> bool {
        let text = self.text.to_lowercase();
        self.actions.iter().all(|action| action.named_by().iter().any(|word| text.contains(word)))
    }
}

/// Everything that a call asks for, or may bring, at this step.
fn movements(target: &Target, parts: &[Part], step: LadderStep) -> Vec<Movement> {
    let mut all = target.action.movements().to_vec();
    let parts = parts.iter().filter(|part| part.suits(target.direction));
    for part in parts {
        all.extend(part.action.iter().flat_map(|action| action.movements()));
        all.extend(match part.kind.as_str() {
            "turn" => Some(Movement::Turn),
            "step" => Some(Movement::LiftFoot),
            _ => Some(Movement::Bend),
        });
    }
    // What a partner holds out is there to be touched.
    if target.action == Action::Reach && target.tell.is_some() {
        all.push(Movement::Grasp);
    }
    if matches!(step.support, Support::Hovering | Support::Beside) {
        all.push(Movement::LetGo);
    }
    if matches!(step.stance, Stance::OneLeg | Stance::Walking) {
        all.push(Movement::LiftFoot);
    }
    all
}

impl Action {
    /// What the person does in it, or may have to do.
    pub const fn movements(self) -> &'static [Movement] {
        match self {
            Self::Shift | Self::Reach | Self::Hold | Self::Follow | Self::Watch => &[],
            Self::RaiseHeels => &[Movement::LiftHeels],
            // A push or a moving base may take a step to recover from.
            Self::Step
            | Self::NarrowStance
            | Self::Push
            | Self::Nudge
            | Self::Tug
            | Self::Slide
            | Self::Tilt
            | Self::Stop
            | Self::NextPatch => &[Movement::LiftFoot],
            Self::TurnRound | Self::GoRound => &[Movement::LiftFoot, Movement::Turn],
            Self::ChangePace => &[Movement::LiftFoot, Movement::Hurry],
            Self::BlindSteps => &[Movement::LiftFoot, Movement::CloseEyes],
            Self::Rise => &[Movement::StandUp],
            Self::TurnHead | Self::Touch => &[Movement::Turn],
            Self::CloseEyes => &[Movement::CloseEyes],
            Self::Toss | Self::Throw => &[Movement::LetGo, Movement::Grasp],
        }
    }

    /// Words by which a caution names it.
    const fn named_by(self) -> &'static [&'static str] {
        match self {
            Self::Shift => &["shift"],
            Self::RaiseHeels => &["heel"],
            Self::Reach => &["reach"],
            Self::Step => &["step"],
            Self::Rise => &["rise", "stand"],
            Self::Hold => &["hold"],
            Self::NarrowStance => &["feet together"],
            Self::TurnHead | Self::Touch | Self::TurnRound => &["turn"],
            Self::CloseEyes | Self::BlindSteps => &["eyes"],
            Self::Follow | Self::Watch => &["follow"],
            Self::Push | Self::Nudge => &["push"],
            Self::Tug => &["pull"],
            Self::Toss | Self::Throw => &["ball"],
            Self::Slide | Self::Tilt => &["base"],
            Self::Stop => &["stop"],
            Self::ChangePace => &["pace"],
            Self::GoRound => &["around"],
            Self::NextPatch => &["patch"],
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::plan::caution::of_drills;
    use crate::plan::drill::{Drill, Flaw};
    use crate::plan::prescription::Prescription;

    /// What contradicts what, when these drills are in one session.
    fn contradictions(drills: &[&Drill]) -> Vec<String> {
        let pairs = drills.iter().flat_map(|one| drills.iter().map(move |other| (one, other)));
        let found = pairs.flat_map(|(one, other)| {
            one.cautions().iter().filter_map(move |caution| {
                let (movement, call) = caution.contradiction(other)?;
                let (text, name) = (caution.text(), other.name());
                Some(format!("\"{text}\" forbids to {movement}: {name}, {}", call.name))
            })
        });
        found.collect()
    }

    /// The drill of weight shifts with one caution more.
    fn planted(caution: &str) -> Result<Drill, Flaw> {
        let shift = include_str!("../../../../presets/drills/counter-shift.toml");
        let text = shift.replacen("cautions = [\n", &format!("cautions = [\n{caution},\n"), 1);
        Drill::from_toml("counter-shift", &text).map_err(|error| error.flaw().clone())
    }

    /// Any two drills may be in one session, so every caution is held against every action there is.
    #[test]
    fn no_caution_contradicts_an_action_of_the_same_session() {
        let all: Vec<&Drill> = Drill::all().iter().collect();
        assert_eq!(contradictions(&all), Vec::<String>::new());
    }

    /// What the test above is for: this sentence was shown before quick steps, pushes and marching on the spot.
    #[test]
    fn both_feet_on_the_floor_beside_steps_pushes_and_walking_is_caught() {
        let drill =
            planted(r#"{ text = "Keep both feet on the floor.", forbids = ["lift a foot"] }"#).unwrap();
        assert_eq!(contradictions(&[&drill]), Vec::<String>::new(), "weight shifts alone");
        for other in ["quick-steps", "pushes", "counter-walk", "moving-base", "combined-reaches"] {
            let found = contradictions(&[&drill, Drill::named(other).unwrap()]);
            assert!(found.len() == 1 && found[0].contains("both feet"), "{other}: {found:?}");
        }
        let drill =
            planted(r#"{ text = "Hold on to something fixed.", forbids = ["touch or grasp"] }"#).unwrap();
        for other in ["catching", "following"] {
            assert_eq!(contradictions(&[&drill, Drill::named(other).unwrap()]).len(), 1, "{other}");
        }
    }

    #[test]
    fn a_drill_that_contradicts_itself_or_hides_what_a_caution_is_about_or_forbids_is_refused() {
        let found = planted(r#"{ text = "Heels down.", forbids = ["lift the heels"] }"#).unwrap_err();
        assert!(matches!(found, Flaw::Contradiction { .. }), "{found}");
        let found = planted(r#"{ text = "Hold on.", forbids = ["let go"] }"#);
        assert!(found.is_ok(), "a hand rests at each of its steps: {found:?}");
        let found =
            planted(r#"{ text = "Keep both feet on the floor.", actions = ["shift"], forbids = [] }"#);
        assert!(
            matches!(found, Err(Flaw::Unnamed(_))),
            "it would be read as being about everything: {found:?}"
        );
        let found = planted(r#"{ text = "Take care." }"#).unwrap_err();
        assert!(found.to_string().contains("forbids"), "{found}");
    }

    #[test]
    fn only_what_a_prescription_contains_is_said() {
        let all = of_drills(Prescription::ready("steps-and-rises").unwrap());
        let titles: Vec<&str> = all.iter().map(|drill| drill.title).collect();
        assert_eq!(titles, ["Weight shifts at the counter", "Steady holds", "Quick steps", "Fast rises"]);
        let holds = &all[1].lines;
        assert!(!holds.iter().any(|line| line.contains("one leg")), "nobody stands on one leg: {holds:?}");
        assert!(all[2].lines.iter().any(|line| line.contains("step forward")));
    }
}
