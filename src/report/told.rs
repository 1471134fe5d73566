//! The report in words, tables and pictures: one screen, or everything. Not how they are set.

use super::ratings::{Line, Ratings};
use super::trend::Slope;
use super::{Group, Report, Share};
use crate::page::{Block, Chart, Plot, Table};

/// Six hours, in milliseconds.
const SIX_HOURS_MS: u64 = 6 * 3_600_000;

/// Everything, in reading order.
pub fn blocks(report: &Report) -> Vec<Block> {
    let mut blocks = vec![Block::Heading(title(report))];
    blocks.extend(summary(report).into_iter().map(Block::Text));
    weeks(report, &mut blocks);
    responses(report, &mut blocks);
    ratings(report, &mut blocks);
    let list = |heading: &str, head: &[&str], rows: Vec<Vec<String>>, none: &str, blocks: &mut Vec<Block>| {
        blocks.push(Block::Heading(heading.to_owned()));
        if rows.is_empty() {
            blocks.push(Block::Text(none.to_owned()));
        } else {
            let head = head.iter().map(|cell| (*cell).to_owned()).collect();
            blocks.push(Block::Table(Table { title: heading.to_owned(), head, rows }));
        }
    };
    let events = report.events.iter().map(|event| vec![event.day.to_string(), event.what.clone()]).collect();
    let none = "Nothing of the kind was told or kept.";
    list("Stops, symptoms, locks and changes", &["day", "what"], events, none, &mut blocks);
    let ladder = report.ladder.iter().map(|change| {
        let from = change.from.map_or("-".to_owned(), |step| step.to_string());
        vec![change.day.to_string(), change.drill.clone(), from, change.to.to_string(), change.why.join(" ")]
    });
    let none = "No step was kept in this period.";
    list(
        "Steps, and why each changed",
        &["day", "drill", "from", "to", "why"],
        ladder.collect(),
        none,
        &mut blocks,
    );
    let tests = report.tests.iter().map(|line| {
        let results: Vec<String> =
            line.results.iter().map(|(day, result)| format!("{result} ({day})")).collect();
        vec![line.test.to_owned(), results.join(", "), format!("{} {}", line.finding, line.change.join(" "))]
    });
    let none = "No balance test was kept.";
    list(
        "Balance tests",
        &["test", "results", "against published values, and its own noise"],
        tests.collect(),
        none,
        &mut blocks,
    );
    let used = report.prescriptions.iter();
    let used = used.map(|used| {
        vec![used.from.to_string(), used.title.clone(), used.sessions.to_string(), short(&used.digest)]
    });
    let none = "None was practiced.";
    list(
        "Prescriptions practiced",
        &["from", "title", "sessions", "digest"],
        used.collect(),
        none,
        &mut blocks,
    );
    blocks.push(Block::Heading("How to read this".to_owned()));
    blocks.extend(report.remarks.iter().map(|remark| Block::Text((*remark).to_owned())));
    blocks.push(Block::Text(
        "Ratings are the person's own, and run lower than therapists' [read]. The list of responses is ours and no validated scale. \
         Shares have exact 95 % intervals (Clopper and Pearson); slopes are Theil and Sen's."
            .to_owned(),
    ));
    blocks
}

/// What the report is of.
pub fn title(report: &Report) -> String {
    let period = report.period;
    format!("{}: {} to {}", report.prescription.title, period.since, period.until)
}

/// What a therapist looks at first: it stands on one screen.
pub fn summary(report: &Report) -> Vec<String> {
    let dose = &report.dose;
    let minutes = dose.active_ms / 60_000;
    let mut said = Vec::new();
    if !report.barred.is_empty() {
        said.push(format!("NOW: {}", report.barred.join(" ")));
    }
    let mut practice = format!(
        "Practice: {} of {} days, {} of {} sets, {minutes} min of work, {} calls; {:.1} of 6 hours.",
        dose.days,
        dose.days_prescribed,
        dose.sets,
        dose.sets_prescribed,
        dose.cues,
        dose.active_ms.min(SIX_HOURS_MS) as f64 / 3_600_000.0,
    );
    for (count, what) in [
        (dose.sets_broken_off, "Sets broken off"),
        (dose.interrupted, "Sessions interrupted"),
        (dose.corrected, "Corrected"),
        (dose.set_aside, "Set aside"),
        (dose.by_hand, "Typed in by hand"),
        (dose.silent, "Without sound"),
        (dose.sound_disturbed, "Disturbances of the sound"),
        (dose.seed_given, "With a given seed, so not unpredictable"),
    ] {
        if count > 0 {
            practice += &format!(" {what}: {count}.");
        }
    }
    said.push(practice);
    said.push(match report.responses.groups.first() {
        None => "Pushes: none noted.".to_owned(),
        Some(all) => format!(
            "Pushes: {} noted, {} not; one step or better {}{}; two or more steps {}; support or worse {}.",
            report.responses.noted,
            report.responses.not_noted,
            share(all.one_step_or_better, all.in_place + all.one_step),
            trend(report.responses.trend.map(hundredfold), " points of 100"),
            share(all.two_or_more, all.more_steps),
            share(all.support, all.touched + all.grabbed + all.fell),
        ),
    });
    said.push(own_ratings(&report.ratings));
    said.push(match report.events.last() {
        None => "Stops, symptoms, locks: none.".to_owned(),
        Some(last) => {
            format!(
                "Stops, symptoms, locks and changes: {}; the last on {}: {}.",
                report.events.len(),
                last.day,
                last.what
            )
        }
    });
    let changes = report.ladder.iter().filter(|change| change.from.is_some());
    said.push(match changes.clone().next_back() {
        None => "Steps: no change.".to_owned(),
        Some(last) => {
            let from = last.from.unwrap_or(last.to);
            let way = if last.to > from { "up" } else { "down" };
            format!(
                "Steps: {} changes; the last on {}: {} {way} to step {}.",
                changes.count(),
                last.day,
                last.drill,
                last.to
            )
        }
    });
    for line in &report.tests {
        if let Some((day, result)) = line.results.last() {
            said.push(format!("{}: {result} ({day}). {}", line.test, line.finding));
        }
    }
    let review = report.review;
    let due = if review.is_due { " A review is due: nothing steps up before it." } else { "" };
    said.push(format!(
        "Review: practice {} of the {} before the next look, {} days{}.{due}",
        review.sessions,
        review.due_after,
        review.days,
        match report.prescription.issued_by.as_str() {
            "" => String::new(),
            by => format!(" since {by} issued it"),
        },
    ));
    if let Some(because) = &report.accepted_because {
        said.push(format!(
            "Accepted by whoever issued it, although suitability says a clinician first: {because}"
        ));
    }
    said.push(format!("How well its calls can be foreseen: {}", report.foreseen));
    said
}

/// What the person said, or that nothing was said.
fn own_ratings(ratings: &Ratings) -> String {
    let near: u32 = ratings.near_falls.values.iter().sum();
    let daily = match (ratings.falls_told, near) {
        (0, 0) => String::new(),
        (falls, near) => format!(" In daily life: {falls} falls told, {near} near falls."),
    };
    if ratings.effort.values.is_empty() && ratings.steadiness.values.is_empty() {
        return format!("Own ratings: nothing was said.{daily}");
    }
    format!(
        "Own ratings, median of sessions: effort (0 to 10) {}{}; steadiness (1 steady, 5 lost balance) {}{}; times held on {}{}.{daily}",
        median(&ratings.effort),
        trend(ratings.effort.trend, ""),
        median(&ratings.steadiness),
        trend(ratings.steadiness.trend, ""),
        median(&ratings.held_on),
        trend(ratings.held_on.trend, ""),
    )
}

fn weeks(report: &Report, blocks: &mut Vec<Block>) {
    blocks.push(Block::Heading("Week by week".to_owned()));
    let rows: Vec<Vec<String>> = report
        .dose
        .weeks
        .iter()
        .map(|week| {
            vec![
                week.week.clone(),
                week.from.to_string(),
                format!("{} of {}", week.days, week.days_prescribed),
                week.sets.to_string(),
                (week.active_ms / 60_000).to_string(),
                week.cues.to_string(),
            ]
        })
        .collect();
    let most = report.dose.weeks.iter().map(|week| week.days).max().unwrap_or(0);
    if most > 0 {
        let counts = report.dose.weeks.iter().map(|week| (week.week.clone(), week.days as u32)).collect();
        let asked = report.dose.weeks.iter().map(|week| week.days_prescribed).max().unwrap_or(0);
        blocks.push(Block::Chart(Chart {
            title: "Days with practice, of the seven of a week".to_owned(),
            words: format!(
                "{} weeks; practice on {} days, {} prescribed.",
                report.dose.weeks.len(),
                report.dose.days,
                report.dose.days_prescribed
            ),
            across: "ISO week",
            plot: Plot::Counts { counted: "days", counts, top: 7, level: ("prescribed", u32::from(asked)) },
        }));
    }
    let head = ["week", "from", "days", "sets", "minutes", "calls"].map(str::to_owned).to_vec();
    blocks.push(Block::Table(Table { title: "Practice by ISO week".to_owned(), head, rows }));
}

fn responses(report: &Report, blocks: &mut Vec<Block>) {
    blocks.push(Block::Heading("What followed pushes".to_owned()));
    if report.responses.groups.is_empty() {
        blocks.push(Block::Text("No response was noted: pushes need a partner and an unlock.".to_owned()));
        return;
    }
    let row = |group: &Group| {
        vec![
            group.name.clone(),
            group.in_place.to_string(),
            group.one_step.to_string(),
            group.more_steps.to_string(),
            group.touched.to_string(),
            group.grabbed.to_string(),
            group.fell.to_string(),
        ]
    };
    let head = ["pushes", "in place", "1 step", "2 or more", "touched", "grabbed", "fell"];
    blocks.push(Block::Table(Table {
        title: "Responses by drill, direction and side (grabbed: or steadied by the partner)".to_owned(),
        head: head.map(str::to_owned).to_vec(),
        rows: report.responses.groups.iter().map(row).collect(),
    }));
    let row = |group: &Group| {
        vec![
            group.name.clone(),
            share(group.one_step_or_better, group.in_place + group.one_step),
            share(group.two_or_more, group.more_steps),
            share(group.support, group.touched + group.grabbed + group.fell),
        ]
    };
    blocks.push(Block::Table(Table {
        title: "Their shares, with 95 % intervals where there are enough".to_owned(),
        head: ["pushes", "one step or better", "two or more", "support or worse"].map(str::to_owned).to_vec(),
        rows: report.responses.groups.iter().map(row).collect(),
    }));
    if report.responses.not_noted > 0 {
        let text = format!("{} pushes were not noted, which is never fine.", report.responses.not_noted);
        blocks.push(Block::Text(text));
    }
}

fn ratings(report: &Report, blocks: &mut Vec<Block>) {
    blocks.push(Block::Heading("Own ratings, session by session".to_owned()));
    let values = |line: &Line| match line.values.is_empty() {
        true => "not said".to_owned(),
        false => line.values.iter().map(ToString::to_string).collect::<Vec<_>>().join(" "),
    };
    let row = |name: &str, line: &Line| {
        let slope = line.trend.map_or_else(|| "too few sessions".to_owned(), slope_words);
        vec![name.to_owned(), median(line), slope, values(line)]
    };
    let ratings = &report.ratings;
    blocks.push(Block::Table(Table {
        title: "Hardest or worst of each session".to_owned(),
        head: ["what", "median", "slope a session", "each session, in order"].map(str::to_owned).to_vec(),
        rows: vec![
            row("effort, 0 to 10", &ratings.effort),
            row("steadiness, 1 to 5", &ratings.steadiness),
            row("held on, times", &ratings.held_on),
        ],
    }));
    blocks.push(Block::Table(Table {
        title: "Once a week, of daily life".to_owned(),
        head: ["what", "median", "slope a week", "each week, in order"].map(str::to_owned).to_vec(),
        rows: vec![
            row("nearly fell, times", &ratings.near_falls),
            row("sure of balance, 1 to 5", &ratings.confidence),
            row("sore, 0 to 3", &ratings.soreness),
        ],
    }));
    if ratings.not_said > 0 {
        blocks.push(Block::Text(format!("{} questions were passed over.", ratings.not_said)));
    }
}

fn share(share: Option<Share>, count: usize) -> String {
    match share {
        None => count.to_string(),
        Some(Share { count, share, low, high, .. }) => {
            format!("{count} ({:.0} %, {:.0}-{:.0})", share * 100.0, low * 100.0, high * 100.0)
        }
    }
}

/// The first digits of a digest tell files apart.
fn short(digest: &str) -> String {
    digest.trim_start_matches("sha256:").chars().take(12).collect()
}

fn median(line: &Line) -> String {
    line.median.map_or_else(|| "not said".to_owned(), |median| format!("{median}"))
}

fn hundredfold(slope: Slope) -> Slope {
    Slope { slope: slope.slope * 100.0, low: slope.low * 100.0, high: slope.high * 100.0, ..slope }
}

fn slope_words(slope: Slope) -> String {
    format!("{:+.2} ({:+.2} to {:+.2})", slope.slope, slope.low, slope.high)
}

/// Only what can be told from no change is called a change.
fn trend(slope: Option<Slope>, unit: &str) -> String {
    match slope {
        Some(slope) if slope.low > 0.0 || slope.high < 0.0 => {
            format!(" ({}{unit} a session)", slope_words(slope))
        }
        Some(_) => " (no clear trend)".to_owned(),
        None => String::new(),
    }
}
