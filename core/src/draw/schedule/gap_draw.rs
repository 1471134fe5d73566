//! One draw from the table of gaps.

use rand::Rng;

use super::chance::below;
use crate::plan::gaps::GapTable;
use crate::units::Millis;

/// One gap of this table.
pub fn draw(table: &GapTable, rng: &mut impl Rng) -> Millis {
    table.gap_at(below(rng, table.total()))
}

#[cfg(test)]
mod test;
