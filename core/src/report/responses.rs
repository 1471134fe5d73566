//! What followed pushes: counts and shares by drill, direction and side, with exact intervals where there are enough.

use serde::Serialize;

use super::material::PeriodSessions;
use super::{FEWEST_FOR_SHARE, form_words};
use crate::course::trend::{Slope, slope};
use crate::draw::predictability::Interval;
use crate::record::Response;

/// Everything that was noted.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Responses {
    /// Pushes whose response was noted.
    pub noted: usize,
    /// Pushes that a partner was asked for and whose response was not noted, those of sets that were cut off included.
    pub not_noted: usize,
    /// All together; then by drill, by direction, by side.
    pub groups: Vec<Group>,
    /// The share of "feet in place" or "one step", a practice, over practices; `None` with too few.
    pub trend: Option<Slope>,
}

/// What followed the pushes of one kind.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Group {
    /// `all`, `drill`, `direction` or `side`.
    pub by: &'static str,
    /// The drill, direction or side that `by` names.
    pub name: String,
    /// Feet in place.
    pub in_place: usize,
    /// One recovery step.
    pub one_step: usize,
    /// Two or more steps.
    pub more_steps: usize,
    /// Touched something for support.
    pub touched: usize,
    /// Grabbed, or steadied by the partner.
    pub grabbed: usize,
    /// Falls.
    pub fell: usize,
    /// In place or one step, of all that were noted.
    pub one_step_or_better: Option<Share>,
    /// Two or more steps.
    pub two_or_more: Option<Share>,
    /// Touched, grabbed, steadied or fell.
    pub support: Option<Share>,
}

/// A share with its exact 95 % interval (Clopper and Pearson 1934). Only from [`FEWEST_FOR_SHARE`] observations on.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Share {
    /// How many of them, 0 to `of`.
    pub count: usize,
    /// The number of observations.
    pub of: usize,
    /// Their share, 0 to 1.
    pub share: f64,
    /// The lower end of the 95 % interval, 0 to 1.
    pub low: f64,
    /// The upper end of the 95 % interval, 0 to 1.
    pub high: f64,
}

impl Share {
    /// `None` where there are too few.
    ///
    /// ```
    /// use counterpoise_core::report::Share;
    /// assert!(Share::of(5, 9).is_none());
    /// let half = Share::of(5, 10).unwrap();
    /// assert!((half.low - 0.187).abs() < 5e-4 && (half.high - 0.813).abs() < 5e-4);
    /// ```
    pub fn of(count: usize, of: usize) -> Option<Self> {
        let Interval { share, low, high, .. } = Interval::of(count, of);
        (of >= FEWEST_FOR_SHARE).then_some(Self { count, of, share, low, high })
    }
}

impl Group {
    /// In place or one step.
    pub fn good(&self) -> usize {
        self.in_place + self.one_step
    }

    /// Touched, grabbed, steadied or fell.
    pub fn supported(&self) -> usize {
        self.touched + self.grabbed + self.fell
    }

    fn new(by: &'static str, name: &str, responses: &[Response]) -> Self {
        let count = |wanted: Response| responses.iter().filter(|response| **response == wanted).count();
        let of = responses.len();
        let (in_place, one_step) = (count(Response::InPlace), count(Response::OneStep));
        let more_steps = count(Response::MoreSteps);
        let (touched, grabbed, fell) =
            (count(Response::Touched), count(Response::Grabbed), count(Response::Fell));
        Self {
            by,
            name: name.to_owned(),
            in_place,
            one_step,
            more_steps,
            touched,
            grabbed,
            fell,
            one_step_or_better: Share::of(in_place + one_step, of),
            two_or_more: Share::of(more_steps, of),
            support: Share::of(touched + grabbed + fell, of),
        }
    }
}

impl Responses {
    pub(super) fn of(inside: &PeriodSessions<'_>) -> Self {
        let mut all: Vec<Response> = Vec::new();
        let mut not_noted = 0;
        let mut by: Vec<(&'static str, String, Vec<Response>)> = Vec::new();
        let mut shares = Vec::new();
        for practice in &inside.practices {
            let before = all.len();
            let sets =
                practice.sessions.iter().flat_map(|(session, more)| session.sets.iter().zip(&more.sets));
            for (set, extra) in sets {
                for (direction, response) in &extra.responses {
                    let Some(response) = *response else {
                        not_noted += 1;
                        continue;
                    };
                    all.push(response);
                    let drill = format!("{}, {}", set.drill, form_words(set.form));
                    let mut keys = vec![("drill", drill)];
                    keys.extend(direction.map(|direction| ("direction", direction.name().to_owned())));
                    keys.extend(extra.side.map(|side| ("side", format!("{} foot ahead", side.name()))));
                    for (kind, name) in keys {
                        match by.iter_mut().find(|(other, named, _)| *other == kind && *named == name) {
                            Some((.., found)) => found.push(response),
                            None => by.push((kind, name, vec![response])),
                        }
                    }
                }
            }
            let noted = &all[before..];
            if !noted.is_empty() {
                let good = noted.iter().filter(|response| **response <= Response::OneStep).count();
                shares.push(good as f64 / noted.len() as f64);
            }
        }
        let order = |kind: &str| ["drill", "direction", "side"].iter().position(|other| *other == kind);
        by.sort_by(|a, b| order(a.0).cmp(&order(b.0)).then_with(|| a.1.cmp(&b.1)));
        let groups = if all.is_empty() {
            Vec::new()
        } else {
            let first = Group::new("all", "all pushes", &all);
            let others = by.iter().map(|(kind, name, responses)| Group::new(kind, name, responses));
            std::iter::once(first).chain(others).collect()
        };
        let trend = slope(&shares);
        Self { noted: all.len(), not_noted, groups, trend }
    }
}
