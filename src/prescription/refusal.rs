//! placeholder

/// placeholder
#[derive(Debug)]
pub enum Refusal {}
