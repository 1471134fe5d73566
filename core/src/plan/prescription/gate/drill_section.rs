//! The gate for one `[[drills]]` section: what must fit the drill, and what must fit together within a set.

use super::safety::Steps;
use super::{Gate, words};
use crate::plan::direction::Direction;
use crate::plan::drill::{Drill, Form, Ladder, Target};
use crate::plan::prescription::fields::{Field, RawDrill};
use crate::plan::prescription::limits;
use crate::plan::prescription::refusal::{Reason, Refusal};
use crate::plan::prescription::set_counts::redraw_share_above;
use crate::plan::prescription::{DrillPlan, GapRange, Sequence, Shape, Unlock};
use crate::units::Millis;

// A field that is left out takes its default.
const DEFAULT_RECOVER: Millis = Millis(5_000);
const DEFAULT_RATE: u32 = 1_250;
const DEFAULT_BLANKS: u16 = 100;

impl Gate<'_> {
    pub(super) fn drill(&self, raw: RawDrill, unlocks: &[Unlock]) -> Result<DrillPlan, Refusal> {
        let Some(drill) = self.drills.iter().find(|drill| drill.name() == raw.drill.value) else {
            return Err(self.unknown_word(&raw.drill, self.drills.iter().map(Drill::name)));
        };
        let ladder = self.ladder(raw.ladder.as_ref(), drill)?;
        let named_steps = self.named_steps(raw.named_steps, ladder)?;
        let form = self.form(raw.form, drill)?;
        let directions = raw.directions.line;
        let targets = self.targets(raw.directions, drill, form)?;
        let sequence = self.sequence(raw.sequence.as_ref(), raw.slack, targets.len())?;
        let sets = self.within_field(&raw.sets, limits::SETS)?;
        let work = Millis(self.within_field(&raw.work_ms, limits::WORK)?);
        let recover = self.recover(raw.recover_ms, work)?;
        let step = raw.step.as_ref().map_or(Ok(1), |step| self.step(step, drill, ladder))?;
        let ceiling = self.ceiling(raw.ceiling.as_ref(), step, drill, ladder)?;
        let strength = self.strength(raw.strength, drill, &targets, unlocks)?;
        let balls = self.balls(raw.balls, drill, &targets)?;
        let targets = self.spells(raw.spell_ms.as_ref(), targets)?;
        let steps = Steps {
            drill,
            ladder,
            step,
            ceiling,
            field: raw.ceiling.as_ref().or(raw.step.as_ref()),
            line: raw.line,
        };
        let partners = self.watched_partners(form, &targets, directions, &steps, unlocks)?;
        let confirmed = self.confirmed(raw.confirmed, &targets, &steps)?;
        let tested_hold = self.tested_hold(form, &targets, directions, &steps, sets, raw.tested_hold_ms)?;
        let gaps = self.gaps(&raw.gap_ms, raw.shape, raw.rate_thousandths, &targets, drill, work, recover)?;
        let lead = if form == Form::Partner { drill.lead() } else { Millis(0) };
        self.lead(&raw.gap_ms, lead, gaps, recover, &targets)?;
        let watched = Millis(u32::from(sets) * work.0);
        if targets.iter().any(|target| target.action.needs_screen()) && watched > limits::WATCHING {
            let reason = Reason::WatchLong { drill: drill.name().to_owned(), work: watched };
            return Err(self.refuse(raw.sets.line, reason));
        }
        let blank_per_mille = self.within(raw.blank_per_mille, limits::BLANKS)?.unwrap_or(DEFAULT_BLANKS);
        let plan = DrillPlan {
            drill,
            ladder,
            named_steps,
            form,
            sets,
            work,
            recover,
            step,
            ceiling,
            gaps,
            blank_per_mille,
            weights: self.weights(raw.weights, sequence, targets.len())?,
            longest_streak: self.streak(raw.longest_streak, targets.len())?,
            targets,
            sequence,
            strength,
            balls,
            tested_hold,
            confirmed,
            partners,
            line: raw.line,
        };
        if let Some(field) =
            raw.sequence.filter(|_| sequence != Sequence::Open && !plan.has_equal_durations())
        {
            return Err(self.refuse(field.line, Reason::CoveredUneven));
        }
        match redraw_share_above(limits::REDRAW_MOST, &plan) {
            None => Ok(plan),
            Some(share) => {
                let (per_million, pushes) = ((share * 1e6).round() as u32, plan.has_pushes());
                Err(self.refuse(raw.gap_ms.line, Reason::Redraws { per_million, pushes }))
            }
        }
    }

    fn form(&self, raw: Option<Field<String>>, drill: &'static Drill) -> Result<Form, Refusal> {
        let Some(field) = raw else { return Ok(Form::Alone) };
        let forms = [Form::Alone, Form::Partner];
        let Some(form) = forms.into_iter().find(|form| form.name() == field.value) else {
            return Err(self.unknown_word(&field, forms.map(Form::name).into_iter()));
        };
        if drill.forms().contains(&form) {
            return Ok(form);
        }
        let offered = drill.forms().iter().map(|form| form.name()).collect::<Vec<_>>().join(", ");
        Err(self
            .refuse(field.line, Reason::Form { form: form.name(), drill: drill.name().to_owned(), offered }))
    }

    fn targets(
        &self,
        raw: Field<Vec<String>>,
        drill: &'static Drill,
        form: Form,
    ) -> Result<Vec<Target>, Refusal> {
        let Field { name: field, value: names, line } = raw;
        if names.is_empty() {
            return Err(self.refuse(line, Reason::EmptyList { field }));
        }
        let mut targets: Vec<Target> = Vec::with_capacity(names.len());
        for name in names {
            let offered = || drill.targets().iter().map(|target| target.name.as_str());
            let Some(target) = drill.targets().iter().find(|target| target.name == name) else {
                let Some(direction) = Direction::from_name(&name) else {
                    return Err(self.unknown_word(&Field { name: field, value: name, line }, offered()));
                };
                let (drill, known) = (drill.name().to_owned(), words(offered()));
                let reason = Reason::Direction { direction: direction.name(), drill, known };
                return Err(self.refuse(line, reason));
            };
            if targets.iter().any(|earlier| earlier.name == name) {
                return Err(self.refuse(line, Reason::Twice { field, entry: name }));
            }
            if form == Form::Alone && target.action.needs_partner() {
                return Err(self.refuse(line, Reason::NeedsPartner { entry: name }));
            }
            targets.push(target.clone());
        }
        Ok(targets)
    }

    fn sequence(
        &self,
        raw: Option<&Field<String>>,
        slack: Option<Field<i64>>,
        directions: usize,
    ) -> Result<Sequence, Refusal> {
        let covered = match raw {
            None => false,
            Some(field) => match field.value.as_str() {
                "open" => false,
                "covered" if directions == 1 => return Err(self.refuse(field.line, Reason::CoveredOne)),
                "covered" => true,
                _ => return Err(self.unknown_word(field, ["open", "covered"].into_iter())),
            },
        };
        match slack {
            Some(slack) if !covered => {
                Err(self
                    .refuse(slack.line, Reason::OnlyWith { field: "slack", with: "sequence = \"covered\"" }))
            }
            Some(slack) if slack.value == 0 => Err(self.refuse(slack.line, Reason::ExactBalance)),
            slack if covered => Ok(Sequence::Covered {
                slack: self.within(slack, limits::SLACK)?.unwrap_or(limits::SLACK.least as u8),
            }),
            _ => Ok(Sequence::Open),
        }
    }

    fn weights(
        &self,
        raw: Option<Field<Vec<i64>>>,
        sequence: Sequence,
        directions: usize,
    ) -> Result<Vec<u32>, Refusal> {
        let Some(Field { name, value, line }) = raw else { return Ok(vec![1; directions]) };
        if sequence != Sequence::Open {
            return Err(self.refuse(line, Reason::OnlyWith { field: name, with: "sequence = \"open\"" }));
        }
        if value.len() != directions {
            return Err(self.refuse(line, Reason::WeightCount { weights: value.len(), directions }));
        }
        value
            .into_iter()
            .map(|value| self.within_field(&Field { name, value, line }, limits::WEIGHT))
            .collect()
    }

    fn streak(&self, raw: Option<Field<i64>>, directions: usize) -> Result<Option<u8>, Refusal> {
        let Some(field) = raw else { return Ok(limits::default_streak(directions)) };
        match (directions, field.value) {
            (1, value) => Err(self.refuse(field.line, Reason::StreakOfOne { value })),
            (2, 1) => Err(self.refuse(field.line, Reason::StreakNoChoice)),
            (2, 2) => Err(self.refuse(field.line, Reason::StreakGuessable)),
            _ => self.within_field(&field, limits::streak(directions)).map(Some),
        }
    }

    fn recover(&self, raw: Option<Field<i64>>, work: Millis) -> Result<Millis, Refusal> {
        let Some(field) = raw else { return Ok(DEFAULT_RECOVER) };
        let (line, value) = (field.line, field.value);
        if value > i64::from(work.0) {
            return Err(self.refuse(line, Reason::RecoverLong { value, work: work.0.into() }));
        }
        self.within_field(&field, limits::RECOVER).map(Millis)
    }

    /// Without a version it is the first, which every file from before has.
    fn ladder(&self, raw: Option<&Field<i64>>, drill: &'static Drill) -> Result<&'static Ladder, Refusal> {
        let Some(&Field { value, line, .. }) = raw else { return Ok(&drill.ladders()[0]) };
        drill.ladder_version(value).ok_or_else(|| {
            let known =
                drill.ladders().iter().map(|ladder| format!("{} ({})", ladder.version(), ladder.name()));
            let (drill, known) = (drill.name().to_owned(), known.collect::<Vec<_>>().join(", "));
            self.refuse(line, Reason::LadderVersion { value, drill, known })
        })
    }

    fn named_steps(&self, raw: Option<Field<Vec<String>>>, ladder: &Ladder) -> Result<Vec<String>, Refusal> {
        let Some(Field { name, value, line }) = raw else { return Ok(Vec::new()) };
        if ladder.version() == 1 {
            return Err(self.refuse(line, Reason::OnlyWith { field: name, with: "`ladder` = 2 or above" }));
        }
        let known = || ladder.keys().iter().zip(ladder.steps()).filter(|(_, step)| step.can_be_named());
        for (place, key) in value.iter().enumerate() {
            if !known().any(|(other, _)| other == key) {
                let field = Field { name, value: key.clone(), line };
                return Err(self.unknown_word(&field, known().map(|(key, _)| key.as_str())));
            }
            if value[..place].contains(key) {
                return Err(self.refuse(line, Reason::Twice { field: name, entry: key.clone() }));
            }
        }
        Ok(value)
    }

    fn step(&self, field: &Field<i64>, drill: &'static Drill, ladder: &Ladder) -> Result<u8, Refusal> {
        let steps = ladder.steps().len();
        let &Field { name: field, value, line } = field;
        if usize::try_from(value).is_ok_and(|value| (1..=steps).contains(&value)) {
            return Ok(value as u8);
        }
        Err(self.refuse(line, Reason::Ladder { field, value, drill: drill.name().to_owned(), steps }))
    }

    /// Without a ceiling, practice stays at its first step.
    fn ceiling(
        &self,
        raw: Option<&Field<i64>>,
        step: u8,
        drill: &'static Drill,
        ladder: &Ladder,
    ) -> Result<u8, Refusal> {
        let Some(field) = raw else { return Ok(step) };
        let ceiling = self.step(field, drill, ladder)?;
        if ceiling < step {
            let reason = Reason::CeilingBelowStep { ceiling: ceiling.into(), step: step.into() };
            return Err(self.refuse(field.line, reason));
        }
        Ok(ceiling)
    }

    #[expect(clippy::too_many_arguments, reason = "each is a field, or what a field must fit")]
    fn gaps(
        &self,
        raw: &Field<Vec<i64>>,
        shape: Option<Field<String>>,
        rate: Option<Field<i64>>,
        targets: &[Target],
        drill: &'static Drill,
        work: Millis,
        recover: Millis,
    ) -> Result<GapRange, Refusal> {
        let &[least, greatest] = raw.value.as_slice() else {
            return Err(self.refuse(raw.line, Reason::GapPair { count: raw.value.len() }));
        };
        let parts = drill.parts().iter().filter_map(|part| part.action);
        let actions = targets.iter().map(|target| target.action).chain(parts);
        let slowest =
            actions.max_by_key(|action| action.shortest_gap()).expect("a plan has at least one target");
        let shortest = slowest.shortest_gap().0;
        let shortest_span = targets.iter().map(Target::duration).min().unwrap_or_default();
        let needed =
            least.saturating_add(shortest_span.0.into()).saturating_mul(2).saturating_add(recover.0.into());
        let broken = if least >= greatest {
            Some(Reason::GapReversed { least, greatest })
        } else if least < i64::from(shortest) {
            Some(Reason::GapShort { value: least, action: slowest.name(), least: shortest })
        } else if greatest > i64::from(limits::GREATEST_GAP.0) {
            Some(Reason::GapLong { value: greatest })
        } else if greatest - least < i64::from(limits::GAP_WIDTH.0) {
            Some(Reason::GapNarrow { value: greatest - least })
        } else if needed > i64::from(work.0) {
            Some(Reason::GapTooLongForSet {
                least,
                span: shortest_span > Millis(0),
                needed,
                work: work.0.into(),
            })
        } else {
            None
        };
        match broken {
            Some(reason) => Err(self.refuse(raw.line, reason)),
            None => {
                Ok(GapRange::checked(Millis(least as u32), Millis(greatest as u32), self.shape(shape, rate)?))
            }
        }
    }

    fn shape(&self, raw: Option<Field<String>>, rate: Option<Field<i64>>) -> Result<Shape, Refusal> {
        let flat = match raw {
            None => true,
            Some(field) => match field.value.as_str() {
                "flat" => true,
                "even" => false,
                _ => return Err(self.unknown_word(&field, ["flat", "even"].into_iter())),
            },
        };
        match rate {
            Some(rate) if !flat => {
                Err(self.refuse(rate.line, Reason::OnlyWith { field: rate.name, with: "shape = \"flat\"" }))
            }
            rate if flat => Ok(Shape::Flat {
                rate_thousandths: self.within(rate, limits::RATE_THOUSANDTHS)?.unwrap_or(DEFAULT_RATE),
            }),
            _ => Ok(Shape::Even),
        }
    }
}

/// One set of weight shifts with both hands resting, for a prescription that does not begin with a warm-up.
pub(super) fn built_in_warm_up() -> DrillPlan {
    let drill = Drill::named("counter-shift").expect("the built-in warm-up drill is there, as a test proves");
    let directions = [Direction::Left, Direction::Right, Direction::Forward];
    let targets: Vec<Target> = directions
        .into_iter()
        .filter_map(|direction| drill.targets().iter().find(|target| target.direction == direction).cloned())
        .collect();
    DrillPlan {
        drill,
        ladder: &drill.ladders()[0],
        named_steps: Vec::new(),
        form: Form::Alone,
        sets: 1,
        work: Millis(60_000),
        recover: DEFAULT_RECOVER,
        step: 1,
        ceiling: 1,
        gaps: GapRange::checked(
            Millis(5_000),
            Millis(15_000),
            Shape::Flat { rate_thousandths: DEFAULT_RATE },
        ),
        blank_per_mille: DEFAULT_BLANKS,
        weights: vec![1; targets.len()],
        targets,
        sequence: Sequence::Open,
        longest_streak: Some(2),
        strength: None,
        balls: 1,
        tested_hold: None,
        confirmed: Vec::new(),
        partners: Vec::new(),
        line: 0,
    }
}
