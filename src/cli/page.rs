//! A report's blocks as plain text for a terminal of 80 columns, or as one HTML file. Not what is in them (`page`).

pub(super) mod html;
pub(super) mod text;
