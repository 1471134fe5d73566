//! One fold, whichever way the lines come.
