//! Everything that is tested from outside the crates: the program as people run it, its library, its pages. One program of
//! tests, because to build one takes far less time than to build twenty. Not what counts or changes something of the whole
//! process (`tests/heap.rs`, `tests/killed.rs`): the tests here run beside each other.

#[path = "../history/eventful.rs"]
mod eventful;
#[path = "../history/mod.rs"]
mod history;
#[path = "../history/lived.rs"]
mod lived;
mod run;
#[path = "../history/standings.rs"]
mod standings;

mod assess;
mod cautions;
mod cli;
mod collected;
mod emergency;
mod evidence;
mod fitness;
mod loudness;
mod moving;
mod old_journals;
mod overview;
mod pages;
mod positive;
mod prescribing;
mod reading_age;
mod readme;
mod report;
mod safety;
mod screens;
mod setup;
mod sheet;
mod standing;
mod stopped;
mod surroundings;
mod terminal;
mod told;
mod track;
mod trainee;
