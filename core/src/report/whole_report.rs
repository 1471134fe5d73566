//! The whole report in words, tables and charts.

use super::changes::short;
use super::figures::{median, share, slope_words};
use super::ratings::Line;
use super::summary::summary;
use super::{Consequence, Counts, Group, NotGood, ProgramChange, Report, Unanswered};
use crate::blocks::{Block, Chart, Plot, Table};
use crate::words::counted;

/// Everything, in reading order.
pub fn blocks(report: &Report) -> Vec<Block> {
    let mut blocks = vec![Block::Heading(title(report))];
    incidents(report, &mut blocks);
    if !report.program_changes.is_empty() {
        blocks.push(Block::Heading("Changes of the program".to_owned()));
        let row = |one: &ProgramChange| vec![one.day_words(), one.words()];
        let rows = report.program_changes.iter().map(row).collect();
        let title = "Which program came into use, who issued it, and in what it is harder or easier";
        blocks.push(Block::Table(Table::new(title, &["day", "program"], rows)));
    }
    blocks.extend(summary(report).into_iter().map(|said| said.block));
    if !report.prescription.precautions.is_empty() {
        let precautions: Vec<&str> = report.prescription.precautions.iter().map(|one| one.name()).collect();
        blocks.push(Block::Text(format!("Precautions, in every practice: {}.", precautions.join("; "))));
    }
    not_good(report, &mut blocks);
    weeks(report, &mut blocks);
    responses(report, &mut blocks);
    ratings(report, &mut blocks);
    let list = |heading: &str, head: &[&str], rows: Vec<Vec<String>>, none: &str, blocks: &mut Vec<Block>| {
        blocks.push(Block::Heading(heading.to_owned()));
        if rows.is_empty() {
            blocks.push(Block::Text(none.to_owned()));
        } else {
            blocks.push(Block::Table(Table::new(heading, head, rows)));
        }
    };
    let events = report.events.iter().map(|event| vec![event.day.to_string(), event.what.clone()]).collect();
    let none = "Nothing of this kind was reported or recorded.";
    list("Stops, symptoms, locks and changes", &["day", "what"], events, none, &mut blocks);
    let ladder = report.ladder.iter().map(|change| {
        let from = change.from.map_or("-".to_owned(), |step| step.to_string());
        let words = format!("{}: {}", change.drill, change.why.join(" "));
        vec![change.day.to_string(), from, change.to.to_string(), words.trim_end_matches(": ").to_owned()]
    });
    let none = "No step was recorded in this period.";
    list(
        "Steps, and why each changed",
        &["day", "from", "to", "drill, and why"],
        ladder.collect(),
        none,
        &mut blocks,
    );
    let tests = report.tests.iter().map(|line| {
        let results: Vec<String> =
            line.results.iter().map(|(day, result)| format!("{result} ({day})")).collect();
        let words = format!("{}. {} {}", results.join(", "), line.finding, line.change.join(" "));
        vec![line.test.to_owned(), words.trim_end().to_owned()]
    });
    let none = "No balance test was recorded.";
    list(
        "Balance tests",
        &["test", "results, compared with published values and the noise of the test"],
        tests.collect(),
        none,
        &mut blocks,
    );
    let used = report.prescriptions.iter();
    let used = used.map(|used| {
        vec![used.from.to_string(), used.sessions.to_string(), short(&used.digest), used.title.clone()]
    });
    let none = "No prescription was practiced.";
    list(
        "Prescriptions practiced",
        &["from", "sessions", "digest", "title"],
        used.collect(),
        none,
        &mut blocks,
    );
    if let Some(kept) = &report.as_kept {
        let right = Counts::new(&report.dose, &report.responses, &report.ratings);
        let table = kept.table(&right);
        blocks.push(Block::Heading(table.title.clone()));
        blocks.push(Block::Table(table));
    }
    blocks.push(Block::Heading("How to read this".to_owned()));
    blocks.extend(report.remarks.iter().map(|remark| Block::Text((*remark).to_owned())));
    blocks.push(Block::Text(
        "Ratings are the person's own. In one study of steadiness they ran lower than therapists' (Front Rehabil Sci \
         2023;4:1096171, 10 people [read, abstract]). The list of responses is our own, not a validated \
         scale. Shares have exact 95 % intervals (Clopper and Pearson); slopes are Theil and Sen's."
            .to_owned(),
    ));
    blocks
}

/// What the report is of.
pub fn title(report: &Report) -> String {
    let period = report.period;
    format!("{}: {} to {}", report.prescription.title, period.since, period.until)
}

/// "3 of 3"; where nothing is prescribed, the count alone.
fn of(count: usize, prescribed: u32) -> String {
    if prescribed == 0 { count.to_string() } else { format!("{count} of {prescribed}") }
}

/// What went wrong, what followed, and of which sets it is not known.
fn incidents(report: &Report, blocks: &mut Vec<Block>) {
    blocks.push(Block::Heading("Falls, grabs, near falls and symptoms".to_owned()));
    if report.incidents.is_empty() {
        blocks.push(Block::Text("None was reported or recorded in this period.".to_owned()));
    } else {
        let rows = report.incidents.iter().map(|one| {
            let followed: Vec<String> = one.followed.iter().map(Consequence::words).collect();
            let followed = if followed.is_empty() { "nothing".to_owned() } else { followed.join("; ") };
            vec![one.day.to_string(), format!("{} ({}). What followed: {followed}.", one.what, one.place)]
        });
        let title = "What happened, where, what followed, and whether it was cleared";
        blocks.push(Block::Table(Table::new(
            title,
            &["day", "what, where, and what followed"],
            rows.collect(),
        )));
    }
    if !report.unanswered.is_empty() {
        let row = |set: &Unanswered| {
            let words = format!("{}: grab or near fall {}, felt unwell {}", set.place, set.grab, set.unwell);
            vec![set.day.to_string(), words]
        };
        blocks.push(Block::Table(Table::new(
            "Sets of which it is not known",
            &["day", "set, and what is known"],
            report.unanswered.iter().map(row).collect(),
        )));
    }
}

/// Every answer that was not good, and what it led to.
fn not_good(report: &Report, blocks: &mut Vec<Block>) {
    blocks.push(Block::Heading("Answers that were not good".to_owned()));
    if report.not_good.is_empty() {
        let none = "Every answer about suitability and before practice was good, or none was given.";
        blocks.push(Block::Text(none.to_owned()));
        return;
    }
    let row = |one: &NotGood| {
        let words = format!("{}. What it led to: {}.", one.said(), one.consequences());
        vec![one.day.to_string(), one.asked.to_string(), words]
    };
    blocks.push(Block::Table(Table::new(
        "About suitability and before practice, what each led to, and whether it was cleared or accepted",
        &["day", "asked", "answer, and what it led to"],
        report.not_good.iter().map(row).collect(),
    )));
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
                of(week.days, week.days_prescribed),
                of(week.sessions_whole, week.days_prescribed),
                of(week.sets, week.sets_prescribed),
                (week.active_ms / 60_000).to_string(),
                (week.session_ms / 60_000).to_string(),
                week.cues.to_string(),
            ]
        })
        .collect();
    let most = report.dose.weeks.iter().map(|week| week.days).max().unwrap_or(0);
    if most > 0 {
        let counts = report.dose.weeks.iter().map(|week| (week.week.clone(), week.days as u32)).collect();
        let asked = report.dose.weeks.iter().map(|week| week.days_prescribed).max().unwrap_or(0);
        blocks.push(Block::Chart(Chart {
            title: "Days with practice in each week".to_owned(),
            words: format!(
                "{}; practice on {}, {} prescribed.",
                counted(report.dose.weeks.len(), "week"),
                counted(report.dose.days, "day"),
                report.dose.days_prescribed
            ),
            across: "ISO week",
            plot: Plot::Counts { counted: "days", counts, top: 7, level: ("prescribed", asked) },
        }));
    }
    let head = ["week", "from", "days", "full", "sets", "work", "total", "calls"];
    let title = "Practice by ISO week: days, full sessions and sets of those prescribed; minutes of work and with rests";
    blocks.push(Block::Table(Table::new(title, &head, rows)));
}

/// The group's name without ", with a partner": every push is with a partner.
fn name(group: &Group) -> String {
    group.name.trim_end_matches(", with a partner").to_owned()
}

fn responses(report: &Report, blocks: &mut Vec<Block>) {
    blocks.push(Block::Heading("What followed pushes".to_owned()));
    if report.responses.groups.is_empty() {
        blocks.push(Block::Text("No response was noted: pushes need a partner and an unlock.".to_owned()));
        return;
    }
    let row = |group: &Group| {
        vec![
            name(group),
            group.in_place.to_string(),
            group.one_step.to_string(),
            group.more_steps.to_string(),
            group.touched.to_string(),
            group.grabbed.to_string(),
            group.fell.to_string(),
        ]
    };
    let head = ["pushes", "in place", "1 step", "2 or more", "touched", "grabbed", "fell"];
    blocks.push(Block::Table(Table::new(
        "Responses by drill, direction and side (grabbed: or steadied by the partner)",
        &head,
        report.responses.groups.iter().map(row).collect(),
    )));
    let row = |group: &Group| {
        vec![
            name(group),
            share(group.one_step_or_better, group.good()),
            share(group.two_or_more, group.more_steps),
            share(group.support, group.supported()),
        ]
    };
    blocks.push(Block::Table(Table::new(
        "Shares, with 95 % intervals where there are enough pushes",
        &["pushes", "one step or better", "two or more", "support or worse"],
        report.responses.groups.iter().map(row).collect(),
    )));
    if report.responses.not_noted > 0 {
        let text = format!("Pushes not noted: {}. They never count as fine.", report.responses.not_noted);
        blocks.push(Block::Text(text));
    }
}

fn ratings(report: &Report, blocks: &mut Vec<Block>) {
    blocks.push(Block::Heading("Own ratings, practice by practice".to_owned()));
    let values = |line: &Line| match line.values.is_empty() {
        true => "no answer".to_owned(),
        false => line.values.iter().map(ToString::to_string).collect::<Vec<_>>().join(" "),
    };
    let row = |name: &str, line: &Line| {
        let slope = line.trend.map_or_else(|| "too few".to_owned(), slope_words);
        let middle = line.median.map_or_else(|| "-".to_owned(), |_| median(line));
        vec![name.to_owned(), middle, slope, values(line)]
    };
    let ratings = &report.ratings;
    blocks.push(Block::Table(Table::new(
        "Hardest or worst of each practice",
        &["what", "median", "slope a practice", "each practice, in order"],
        vec![
            row("effort, 0 to 10", &ratings.effort),
            row("steadiness, 1 to 5", &ratings.steadiness),
            row("held on, times", &ratings.held_on),
        ],
    )));
    blocks.push(Block::Table(Table::new(
        "Once a week, about daily life: near falls, confidence in balance, soreness",
        &["what", "median", "slope a week", "each week, in order"],
        vec![
            row("near falls, times", &ratings.near_falls),
            row("confidence, 1 to 5", &ratings.confidence),
            row("soreness, 0 to 3", &ratings.soreness),
        ],
    )));
    if ratings.not_said > 0 {
        blocks.push(Block::Text(format!(
            "Skipped without an answer: {}.",
            counted(ratings.not_said, "question")
        )));
    }
}
