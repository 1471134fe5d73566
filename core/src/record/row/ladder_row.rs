//! Which step of which ladder a set was on, kept from version 2 on: without it a row is on version 1, as every row was.

use serde::{Deserialize, Serialize};

use crate::plan::drill::Ladder;

/// A version of a drill's ladder and one of its steps.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LadderRow {
    /// The version, from 2.
    pub version: u8,
    /// The key of the step, which never changes.
    pub key: String,
}

impl LadderRow {
    /// Of this step, from 1; `None` on version 1.
    pub fn of(ladder: &Ladder, step: u8) -> Option<Self> {
        let key = ladder.keys().get(usize::from(step) - 1)?.clone();
        (ladder.version() > 1).then(|| Self { version: ladder.version(), key })
    }
}

#[cfg(test)]
mod test {
    use super::LadderRow;
    use crate::plan::drill::{Form, trial};
    use crate::record::Given;

    #[test]
    fn version_1_is_kept_as_it_always_was_and_a_later_one_by_name() {
        let drill = trial::with_second().find(|drill| drill.name() == "counter-reach").unwrap();
        let row = |ladder: usize| Given {
            drill: "counter-reach".to_owned(),
            form: Form::Alone,
            step: 3,
            ladder: LadderRow::of(&drill.ladders()[ladder], 3),
        };
        let [first, second] = [0, 1].map(|ladder| serde_json::to_string(&row(ladder)).unwrap());
        assert_eq!(first, r#"{"drill":"counter-reach","form":"alone","step":3,"ladder":null}"#);
        let without = first.replace(",\"ladder\":null", "");
        assert_eq!(serde_json::from_str::<Given>(&without).unwrap(), row(0), "as every row was");
        assert_eq!(
            second,
            r#"{"drill":"counter-reach","form":"alone","step":3,"ladder":{"version":2,"key":"semi-tandem-one-hand"}}"#
        );
        for (text, ladder) in [(&first, 0), (&second, 1)] {
            assert_eq!(serde_json::from_str::<Given>(text).unwrap(), row(ladder));
        }
    }
}
