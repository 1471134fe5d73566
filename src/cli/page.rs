//! How are a report's blocks written? As plain text for a terminal of 80 columns, or as one HTML file.

pub(super) mod html;
pub(super) mod text;
