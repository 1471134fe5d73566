//! The prescription as a sheet for the person who practices: when, what, how to stand, when to stop, whom to call.
//! Figures of guessing and a shortfall of dose are left out; they are for the person who prescribes (`explain`).

use super::{Explanation, Part, count, decimal};
use crate::plan::caution::Surface;
use crate::plan::drill::Form;
use crate::plan::limb;
use crate::plan::phrase::Phrase;
use crate::plan::prescription::{DrillOrder, DrillPlan};

/// A line to be filled in by hand.
const BLANK: &str = "______________________";

pub(super) fn parts(explanation: &Explanation<'_>) -> Vec<Part> {
    let mut parts = vec![when(explanation)];
    parts.extend(drills(explanation, false));
    parts.extend([moments(explanation), progress(explanation), stop()]);
    parts.extend(care(explanation, Surface::Handout));
    parts.push(Part {
        heading: "Numbers to keep beside the counter".into(),
        lines: vec![format!("Emergency: {BLANK}"), format!("Therapist: {BLANK}")],
    });
    parts
}

/// Only what is done this week, without what comes later.
pub(super) fn week(explanation: &Explanation<'_>) -> Vec<Part> {
    drills(explanation, true).chain([moments(explanation)]).chain(care(explanation, Surface::Sheet)).collect()
}

fn drills<'a>(explanation: &Explanation<'a>, is_week: bool) -> impl Iterator<Item = Part> + use<'a> {
    let plans = explanation.prescription.drills().iter().enumerate();
    plans.map(move |(nth, plan)| drill(nth, plan, is_week))
}

fn when(explanation: &Explanation<'_>) -> Part {
    let prescription = explanation.prescription;
    let by = match prescription.issued_by() {
        "" => String::new(),
        by => format!("From {by}, "),
    };
    let minutes = (explanation.dose().session.as_secs_f64() / 60.0).ceil();
    Part {
        heading: prescription.title().to_owned(),
        lines: vec![
            format!("{by}{}.", prescription.issued_on()),
            format!(
                "Practice on {} a week, for {}. Once a day at most. If you miss a day, do not do two on another.",
                count(prescription.days_a_week().into(), "day"),
                count(prescription.weeks().into(), "week"),
            ),
            format!(
                "One practice takes about {minutes} minutes with its rests, and a few more to warm up and cool down."
            ),
            format!("After each set rest for at least {}. Have a chair at hand.", prescription.rest()),
        ],
    }
}

fn drill(nth: usize, plan: &DrillPlan, is_week: bool) -> Part {
    let drill = plan.drill();
    let facing = drill.facings()[0];
    let mut lines = vec![drill.about().to_owned()];
    lines.push(format!("{} of {}, {}.", count(plan.sets().into(), "set"), plan.work(), with(plan)));
    lines.push(format!(
        "{}: {} {}.",
        if is_week { "This week" } else { "At first" },
        plan.conditions().posture().to_lowercase(),
        plan.conditions().stance_text(facing, None)
    ));
    if !is_week
        && nth > 0
        && let Some((_, last)) = plan.reachable().last().filter(|(step, _)| *step > plan.step())
    {
        lines.push(format!(
            "Later, one small change at a time, at most: {} {}.",
            last.posture().to_lowercase(),
            last.stance_text(facing, None)
        ));
    }
    let mut words: Vec<String> = Vec::new();
    for word in plan.targets().iter().map(|target| format!("\"{}\"", target.words())) {
        if !words.contains(&word) {
            words.push(word);
        }
    }
    let silent = plan.targets().iter().all(|target| target.say.is_none());
    let who = if silent { "You hear nothing before it. Your partner is told" } else { "You hear" };
    lines.push(format!("{who}: {}.", words.join(", ")));
    let moves = limb::phrases(plan.targets(), plan.parts(), plan.conditions());
    lines.extend(moves.iter().map(|said| said.words().to_owned()));
    if let Some((gentlest, firmest)) = plan.strength() {
        let up_to = if gentlest == firmest { "" } else { "up to " };
        lines.push(format!("How firm: {up_to}{firmest}. That is {}.", firmest.sensation()));
    }
    if plan.form() == Form::Partner {
        lines.extend(drill.partner_does().iter().map(|does| format!("For your partner: {does}")));
    }
    lines.push(format!(
        "You need: {}. Behind you: {}. Within reach: {}.",
        drill.kit().join(", "),
        drill.behind(),
        drill.fixed_support()
    ));
    lines.extend(plan.cautions().map(|caution| format!("Take care: {caution}")));
    let name = if nth == 0 {
        format!("1. {}, to warm up", drill.title())
    } else {
        format!("{}. {}", nth + 1, drill.title())
    };
    Part { heading: name, lines }
}

fn with(plan: &DrillPlan) -> String {
    match (plan.form(), plan.partners()) {
        (Form::Alone, _) => "alone".into(),
        (Form::Partner, []) => "with a partner within reach".into(),
        (Form::Partner, partners) => format!("only with {}, within reach", partners.join(" or ")),
    }
}

fn moments(explanation: &Explanation<'_>) -> Part {
    let mean = explanation.counts.mean().round();
    let mut lines = vec![
        format!(
            "About {} calls in a practice. Nobody knows when the next one will come or what it will be. That is the point.",
            decimal(mean)
        ),
        "Sometimes nothing comes for a while. That is on purpose; keep standing and wait.".into(),
    ];
    if explanation.prescription.order() == DrillOrder::Drawn {
        lines.push("After the warm-up the order changes from day to day.".into());
    }
    Part { heading: "How it surprises you".into(), lines }
}

fn progress(explanation: &Explanation<'_>) -> Part {
    let prescription = explanation.prescription;
    let mut lines = vec![
        "Before each practice you are asked how you are. Answer honestly; \"not today\" is a good answer too.".into(),
        "After two good practices one thing becomes a little harder. After a bad one it becomes easier. You may always choose something gentler, but never something harder.".into(),
        format!("After {} your therapist looks at it with you. Bring the memory stick or the computer.", count(prescription.review_after_sessions().into(), "practice")),
    ];
    for unlock in prescription.unlocks() {
        let with =
            if unlock.partner.is_empty() { String::new() } else { format!(" with {}", unlock.partner) };
        let there = if unlock.therapist_present { " Only while your therapist is there." } else { "" };
        lines.push(format!(
            "Because {}, do it{with} only as {} watched it on {}: with {}.{there}",
            unlock.name.why(),
            unlock.watched_by,
            unlock.on,
            unlock.name.safeguard(),
        ));
    }
    Part { heading: "How it goes on".into(), lines }
}

fn phrase_text(id: &str) -> String {
    Phrase::named(id).expect("the fixed phrases are built in, as a test proves").words().to_owned()
}

pub(super) fn stop() -> Part {
    let lines = vec![
        phrase_text("practice.stop-list"),
        "Call the emergency number for chest pain, a faint, sudden weakness, numbness, or trouble speaking or seeing.".into(),
        "After a fall do not get up at once. See first whether something hurts. If it does, or you hit your head, call for help.".into(),
        phrase_text("practice.ignore"),
    ];
    Part { heading: "Stop".into(), lines }
}

fn care(explanation: &Explanation<'_>, surface: Surface) -> [Part; 2] {
    let mut parts = explanation.caution_parts(surface, "Take care");
    // The stop list stands in its own part.
    parts[0].lines.retain(|line| *line != stop().lines[0]);
    let precautions = explanation.prescription.precautions().iter();
    parts[0].lines.splice(0..0, precautions.map(|one| one.phrase().words().to_owned()));
    parts[0].lines.insert(
        0,
        "Shoes on, light on, floor clear, phone within reach, pets and children out of the room.".into(),
    );
    parts
}
