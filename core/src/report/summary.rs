//! What a therapist looks at first, short enough for one screen. The whole report is in `whole_report`.

use super::answers::open_topics;
use super::figures::{median, percent_points, share, trend};
use super::ratings::Ratings;
use super::{Clearing, Consequence, Incident, Kind, Report};
use crate::blocks::{About, Block};
use crate::health::assessment::Verdict;
use crate::words::counted;

/// One paragraph of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Paragraph {
    /// What it says.
    pub block: Block,
    /// The most lines it may take on one screen.
    pub max_lines: usize,
    /// Whether it may be dropped when the screen is full.
    pub is_optional: bool,
}

/// What a therapist looks at first, in reading order.
pub fn summary(report: &Report) -> Vec<Paragraph> {
    let paragraph = |max_lines, is_optional, about: &str, text| {
        let about = About { about: about.to_owned(), text, is_urgent: false };
        Paragraph { block: Block::About(about), max_lines, is_optional }
    };
    let required = |max_lines, about: &str, text| paragraph(max_lines, false, about, text);
    let mut said = vec![required(3, "Falls, grabs, near falls, symptoms", incidents(report))];
    if let Some(last) = report.program_changes.iter().rfind(|one| one.is_replacement()) {
        said.push(required(2, "Program changed", format!("{}: {}", last.day_words(), last.words())));
    }
    if !report.barred.is_empty() {
        let about = About { about: "NOW".to_owned(), text: report.barred.join(" "), is_urgent: true };
        said.push(Paragraph { block: Block::About(about), max_lines: 2, is_optional: false });
    }
    if !report.not_good.is_empty() {
        said.push(required(1, "Answers that were not good", not_good(report)));
    }
    if let Some(state) = report.state {
        said.push(paragraph(3, true, "State", state.to_therapist().to_owned()));
    }
    said.push(required(3, "Practice", practice(report)));
    said.push(required(2, "Pushes", pushes(report)));
    let (about, ratings) = own_ratings(&report.ratings);
    said.push(required(2, about, ratings));
    said.push(match report.events.last() {
        None => paragraph(1, true, "Stops, symptoms, locks", "none.".to_owned()),
        Some(last) => paragraph(
            1,
            true,
            "Stops, symptoms, locks and changes",
            format!("{}; the last on {}: {}.", report.events.len(), last.day, last.what),
        ),
    });
    said.push(paragraph(2, true, "Steps", steps(report)));
    if !report.tests.is_empty() {
        said.push(required(2, "Balance tests", tests(report)));
    }
    said.push(required(1, "Review", review(report)));
    if let Some(because) = &report.accepted_because {
        let text = format!(
            "Suitability asks for a clinician first; the person who issued the prescription accepts this: {because}"
        );
        said.push(Paragraph { block: Block::Text(text), max_lines: 2, is_optional: true });
    }
    said.push(paragraph(4, true, "How predictable its calls are", report.foreseen.clone()));
    said
}

/// How many of each kind, and of how many sets it is not known; then of each kind one with what followed: the last that
/// waits for a clearance, else the last.
fn incidents(report: &Report) -> String {
    let kinds = [(Kind::Fall, "fall"), (Kind::Grab, "grab or near fall"), (Kind::Unwell, "symptom")];
    let of = |(kind, noun): (Kind, &'static str)| {
        let all: Vec<&Incident> = report.incidents.iter().filter(|one| one.kind == kind).collect();
        (!all.is_empty()).then_some((noun, all))
    };
    let found: Vec<(&str, Vec<&Incident>)> = kinds.into_iter().filter_map(of).collect();
    let counts: Vec<String> = found.iter().map(|(noun, all)| format!("{noun} {}", all.len())).collect();
    let unknown = match report.unanswered.len() {
        0 => String::new(),
        sets => format!("; not asked or not said after {}", counted(sets, "set")),
    };
    let one = |(noun, all): &(&str, Vec<&Incident>)| {
        let last = all.last()?;
        let open = all.iter().rfind(|one| one.is_open());
        let shown = open.unwrap_or(last);
        let which = if open.is_some_and(|open| open != last) { "last not cleared" } else { "last" };
        let lasting = shown.followed.iter().filter(|one| one.standing != Clearing::EndsByItself);
        let (open, cleared): (Vec<&Consequence>, Vec<&Consequence>) =
            lasting.partition(|one| one.standing == Clearing::NotCleared);
        let lasting: Vec<String> = [open, cleared].concat().into_iter().map(Consequence::words).collect();
        let followed = if lasting.is_empty() { String::new() } else { format!(": {}", lasting.join("; ")) };
        Some(format!(" The {which} {noun}: {}, {} ({}){followed}.", shown.day, shown.what, shown.place))
    };
    let counts = if counts.is_empty() { "none reported".to_owned() } else { counts.join(", ") };
    format!("{counts}{unknown}.{}", found.iter().filter_map(one).collect::<String>())
}

/// How many, which topics wait for a clearance, and the last.
fn not_good(report: &Report) -> String {
    let count = report.not_good.len();
    let open = open_topics(&report.not_good);
    let open = if open.is_empty() { String::new() } else { format!(" not cleared: {};", open.join(", ")) };
    let Some(last) = report.not_good.last() else { return format!("{count}.") };
    format!(
        "{count};{open} the last on {}, {}. What it led to: {}.",
        last.day,
        last.said(),
        last.consequences()
    )
}

fn practice(report: &Report) -> String {
    let dose = &report.dose;
    let hours = match dose.session_ms {
        0 if dose.length_unknown > 0 => "not known".to_owned(),
        length => format!("{:.1} of 6 hours", length as f64 / 3_600_000.0),
    };
    let mut said = format!(
        "{}, {}, {}; {} min of work; with rests {hours}; {}.",
        of("day", dose.days, dose.days_prescribed, " prescribed"),
        of("full session", dose.sessions_whole, dose.days_prescribed, ""),
        of("set", dose.sets, dose.sets_prescribed, ""),
        dose.active_ms / 60_000,
        counted(usize::try_from(dose.cues).unwrap_or(usize::MAX), "call"),
    );
    if let Some(end) = report.prescription.ends_on.filter(|end| *end < report.period.until) {
        said += &format!(" The program ended on {end}.");
    }
    let besides: Vec<String> = [
        (dose.seed_given, "predictable by a given seed"),
        (dose.interrupted, "interrupted"),
        (dose.sets_broken_off, "sets cut short"),
        (dose.sets_left_out, "sets left out"),
        (dose.corrected, "corrected"),
        (dose.set_aside, "set aside"),
        (dose.tried_out, "try-outs"),
        (dose.by_hand, "typed in"),
        // A practice that is typed in never has a known length.
        (dose.length_unknown.saturating_sub(dose.by_hand), "of unknown length"),
        (dose.silent, "without sound"),
        (dose.sound_disturbed, "sound disturbed"),
    ]
    .into_iter()
    .filter(|(count, _)| *count > 0)
    .map(|(count, what)| format!("{what} {count}"))
    .collect();
    if !besides.is_empty() {
        said += &format!(" Of these: {}.", besides.join(", "));
    }
    said
}

/// "3 of 9 days"; more than was prescribed, or where nothing was: "9 days (3 prescribed)", with this word.
fn of(noun: &str, count: usize, prescribed: u32, word: &str) -> String {
    if count as u32 <= prescribed {
        format!("{count} of {}", counted(prescribed as usize, noun))
    } else {
        format!("{} ({prescribed}{word})", counted(count, noun))
    }
}

fn pushes(report: &Report) -> String {
    let responses = &report.responses;
    match responses.groups.first() {
        None if responses.not_noted == 0 => "none.".to_owned(),
        None => format!("{}, none of them noted.", responses.not_noted),
        Some(all) => format!(
            "{} noted, {} not; support or worse {}; one step or better {}{}; two or more steps {}.",
            responses.noted,
            responses.not_noted,
            share(all.support, all.supported()),
            share(all.one_step_or_better, all.good()),
            trend(responses.trend.map(percent_points), " points of 100 a session"),
            share(all.two_or_more, all.more_steps),
        ),
    }
}

/// The person's own ratings, or that there are none.
fn own_ratings(ratings: &Ratings) -> (&'static str, String) {
    let near: u32 = ratings.near_falls.values.iter().sum();
    let daily = match (ratings.falls_told, near) {
        (0, 0) => String::new(),
        (falls, near) => {
            let (falls, near) = (counted(falls, "fall"), counted(near as usize, "near fall"));
            format!("daily life: {falls}, {near} reported; ")
        }
    };
    if ratings.effort.values.is_empty() && ratings.steadiness.values.is_empty() {
        return ("Own ratings", format!("{daily}none given."));
    }
    let text = format!(
        "{daily}effort {} (of 10){}; steadiness {} (5: lost balance){}; times held on {}{}.",
        median(&ratings.effort),
        trend(ratings.effort.trend, ""),
        median(&ratings.steadiness),
        trend(ratings.steadiness.trend, ""),
        median(&ratings.held_on),
        trend(ratings.held_on.trend, ""),
    );
    ("Own ratings, median, slope", text)
}

fn steps(report: &Report) -> String {
    let changes = report.ladder.iter().filter(|change| change.from.is_some());
    match changes.clone().next_back() {
        None => "no change.".to_owned(),
        Some(last) => {
            let from = last.from.unwrap_or(last.to);
            let way = if last.to > from { "up" } else { "down" };
            let times = changes.count();
            let times = counted(times, "change");
            format!("{times}; the last on {}: {} {way} to step {}.", last.day, last.drill, last.to)
        }
    }
}

/// The latest of each test, by what it is worth.
fn tests(report: &Report) -> String {
    let of = |(verdict, words): (Verdict, &str)| {
        let lines = report.tests.iter().filter(|line| line.verdict == verdict);
        let latest = lines.filter_map(|line| Some(format!("{} {}", line.test, line.results.last()?.1)));
        let latest: Vec<String> = latest.collect();
        (!latest.is_empty()).then(|| format!("{words} {}", latest.join(", ")))
    };
    let all =
        [(Verdict::Below, "below cut-off"), (Verdict::NotBelow, "not below"), (Verdict::NoNorm, "no norm")];
    format!("{}.", all.into_iter().filter_map(of).collect::<Vec<_>>().join("; "))
}

fn review(report: &Report) -> String {
    let review = report.review;
    let since = match report.prescription.issued_by.as_str() {
        "" => "the first practice".to_owned(),
        by => format!("{by} issued it"),
    };
    let (count, after) = (review.sessions, counted(usize::from(review.due_after), "practice"));
    let days = counted(usize::try_from(review.days).unwrap_or(0), "day");
    if review.is_due {
        format!(
            "DUE, nothing steps up before it. It was planned after {after}; there have been {count}, in {days} since \
             {since}."
        )
    } else {
        format!("after {after}; so far {count}, in {days} since {since}.")
    }
}
