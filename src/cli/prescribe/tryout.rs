//! A supervised try-out: a therapist watches single drills and steps, notes what was seen, and unlocks them. It may run
//! locked drills, since watching them is its purpose. Locks after a mishap, holds and every hard limit apply as in practice.

use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};

use jiff::civil::Date;

use super::{Console, not_written};
use crate::cli::face;
use crate::cli::missed;
use crate::cli::practice::{Stage, check_saved, patches, perform};
use crate::cli::standing::{self, Position};
use crate::cli::{Failure, source};
use crate::clock::Clock;
use crate::display::Face;
use crate::journal::folder::write_beside;
use crate::journal::{Folder, Journal};
use crate::settings::Settings;
use counterpoise_core::blocks::Block;
use counterpoise_core::course::past::PastSession;
use counterpoise_core::course::progression::unwell_last_time;
use counterpoise_core::draw::schedule::Scheduler;
use counterpoise_core::plan::caution::{self, Contents, Surface};
use counterpoise_core::plan::drill::{Drill, Form, UnlockName};
use counterpoise_core::plan::prescription::field::SequenceName;
use counterpoise_core::plan::prescription::{
    Draft, DraftDrill, Narrowing, Prescription, Reason, Seal, Unlock,
};
use counterpoise_core::practice::session::{Channel, Preparation, Session};
use counterpoise_core::record::{
    Drawn, Id, Response, Seen, SeenRow, SessionBegun, SessionRecord, SetEnd, TriedOut,
};
use counterpoise_core::words::Printable;

/// The options of a try-out.
pub(super) struct Options<'a> {
    pub named: &'a str,
    pub silent: bool,
    pub plain: bool,
}

/// The drill and step to try.
struct Trial {
    plan: DraftDrill,
    partner: String,
    warmed_up: bool,
    /// The unlocks that it needs.
    needs: Vec<UnlockName>,
    prescription: Prescription,
    /// As it is written.
    text: String,
}

const WHAT_IT_IS: [&str; 2] = [
    "A try-out is for the therapist in the room. It may run drills and steps that are locked, because watching them is what unlocks them. Stay within reach, with a fixed support at hand.",
    "Everything else still applies: locks and holds after a mishap, every hard limit, the limits from the suitability answers, and today's questions. It is saved in the journal as a try-out and does not count as practice.",
];

pub(super) fn run<W: Write>(
    options: &Options<'_>,
    folder: &Folder,
    today: Date,
    console: &mut Console<'_, W>,
) -> Result<(), Failure> {
    if Prescription::ready(options.named).is_some() {
        return Err(Failure::new(
            format!(
                "\"{}\" is a ready prescription, but a try-out writes unlocks into the person's own one",
                options.named
            ),
            format!("Make one first: counterpoise prescribe --from {}", options.named),
        ));
    }
    let file = PathBuf::from(options.named);
    let source = source::named(options.named)?;
    let draft = Draft::of(&source.prescription);
    // What the program in use rules out is not tried either.
    let program = source::in_use(folder)?;
    let bound = source.prescription.within(program.map(|p| p.prescription.precautions()).unwrap_or_default());
    let asked = Draft { precautions: bound.precautions().iter().collect(), ..draft.clone() };
    console.show(&WHAT_IT_IS.map(Block::line))?;
    console.show(&caution::blocks(Surface::TryOut, Contents::Of(&source.prescription)))?;
    console.say(&format!("For: {}", draft.title))?;
    console.say("Who is watching? Your name, initials or role. Without it the try-out does not start.")?;
    let watched_by = console.read()?.map(|line| line.trim().to_owned()).unwrap_or_default();
    if watched_by.is_empty() {
        return Err(Failure::new(
            "nobody was named as watching, and nothing was tried",
            "A try-out is for a therapist in the room.",
        ));
    }
    let trial = loop {
        match choose(&asked, &watched_by, today, console) {
            Ok(trial) => break trial,
            Err(failure) if console.keyboard => {
                console.say(&format!("Not possible: {}.", failure.fact()))?;
                console.say(&format!("Hint: {}", failure.hint()))?;
            }
            Err(failure) => return Err(failure),
        }
    };
    let id = run_session(options, folder, &trial, &watched_by, console)?;
    let record = Journal::look(folder)?.find(&id.to_string())?;
    let done = sum_up(&record, &trial, console)?;
    let mut seen = Vec::new();
    for (what, question) in [
        (Seen::Feet, "What did the feet do? Use your own words; press Enter to skip."),
        (Seen::Support, "What did the person hold on to, and when?"),
        (Seen::InWords, "Did you see anything else?"),
    ] {
        console.say(question)?;
        let words = console.read()?.map(|line| line.trim().to_owned()).unwrap_or_default();
        let words: String = Printable::of(&words).chars().take(LONGEST).collect();
        if !words.is_empty() {
            seen.push(SeenRow { what, words });
        }
    }
    keep_seen(folder, id, &seen)?;
    if trial.needs.is_empty() {
        return console.say("This needs no unlock. What you saw is saved.");
    }
    if !done {
        return console.say("The set was not completed, or something went wrong in it, so nothing is unlocked. What you saw is saved.");
    }
    let mut unlocked = draft.clone();
    let mut names = Vec::new();
    for name in &trial.needs {
        let with =
            if trial.partner.is_empty() { "alone".to_owned() } else { format!("with {}", trial.partner) };
        console.say(&format!("Unlock \"{name}\" ({}) {with} for this person, watched by {watched_by} on {today}? (Y yes; Enter no)", name.why()))?;
        if console.yes()? {
            add(&mut unlocked, *name, &trial.partner, &watched_by, today);
            names.push(*name);
        }
    }
    if names.is_empty() {
        return console.say("Nothing was unlocked. What you saw is saved.");
    }
    unlocked.issued_on = unlocked.issued_on.max(today);
    write_over(&unlocked.to_toml_over(&source.bytes), &file)?;
    let words: Vec<&str> = names.iter().map(|name| name.name()).collect();
    keep_seen(folder, id, &[SeenRow { what: Seen::Unlocked, words: words.join(", ") }])?;
    console.say(&format!("Unlocked and written: {} ({}).", words.join(", "), file.display()))?;
    console.say(&format!("To use it in practice, add the step or direction with: counterpoise prescribe --from {0}. Then: counterpoise use {0}", file.display()))
}

/// The most characters of what was seen \[judgment: a few lines\].
const LONGEST: usize = 500;

fn keep_seen(folder: &Folder, id: Id, seen: &[SeenRow]) -> Result<(), Failure> {
    if seen.is_empty() {
        return Ok(());
    }
    Ok(Journal::open(folder.lock()?)?.0.keep_seen(&Clock::real().wall(), id, seen)?)
}

fn write_over(text: &str, file: &Path) -> Result<(), Failure> {
    let text = Seal::append(text);
    Prescription::read(&file.display().to_string(), text.as_bytes())?;
    // Only a regular file is replaced, not a folder or a device.
    if !fs::symlink_metadata(file).is_ok_and(|found| found.is_file()) {
        return Err(Failure::new(
            format!("{} is no longer a file; nothing was unlocked", file.display()),
            "What you saw is saved. Write the unlock with: counterpoise prescribe --from FILE",
        ));
    }
    write_beside(file, text.as_bytes()).map_err(|error| not_written(file, &error))
}

fn add(draft: &mut Draft, name: UnlockName, partner: &str, watched_by: &str, on: Date) {
    draft.unlocks.retain(|other| other.name != name || other.partner != partner);
    draft.unlocks.push(Unlock {
        name,
        watched_by: watched_by.to_owned(),
        on,
        partner: partner.to_owned(),
        therapist_present: false,
    });
}

fn not_begun() -> Failure {
    Failure::new("the try-out did not start", "Start again: counterpoise prescribe --try --from FILE")
}

/// Asks what to try, and checks it with the unlocks that this watching may give.
fn choose<W: Write>(
    draft: &Draft,
    watched_by: &str,
    today: Date,
    console: &mut Console<'_, W>,
) -> Result<Trial, Failure> {
    console.choose("Which drill?", Drill::all().iter().map(|drill| drill.title().to_owned()))?;
    let drill = &Drill::all()[pick(console, Drill::all().len())?];
    let form = match drill.forms() {
        [only] => *only,
        forms => {
            console.show(&[Block::item("1 alone, 2 with a partner")])?;
            forms[pick(console, forms.len())?]
        }
    };
    let mut partner = String::new();
    if form == Form::Partner {
        console.say("With which partner? A name or initials. An unlock applies with this partner only.")?;
        console.read()?.ok_or_else(not_begun)?.trim().clone_into(&mut partner);
        if partner.is_empty() {
            return Err(Failure::new("the partner was not named", "Type a name or initials."));
        }
    }
    let prescribed = draft.drills.iter().find(|plan| plan.drill.name() == drill.name() && plan.form == form);
    let mut plan = prescribed.cloned().unwrap_or_else(|| DraftDrill::new(drill, form));
    let steps = (1..).zip(plan.ladder().steps()).map(|(number, step)| {
        let names: Vec<&str> = plan.ladder().unlocks(number).map(UnlockName::name).collect();
        let locked =
            if names.is_empty() { String::new() } else { format!("  [locked: {}]", names.join(", ")) };
        format!("{}{locked}", step.stance_text(drill.facings()[0], None))
    });
    console.choose("Which step?", steps)?;
    plan.step = pick(console, plan.ladder().steps().len())? as i64 + 1;
    plan.ceiling = plan.step;
    let offered: Vec<&str> = plan.offered().map(|target| target.name.as_str()).collect();
    let calls = offered.iter().map(|name| {
        let listed = if plan.directions.iter().any(|other| other == name) { " (Enter)" } else { "" };
        format!("{name}{listed}")
    });
    console
        .choose("Which calls? Type numbers, such as: 1 3. Enter alone takes those marked (Enter).", calls)?;
    let line = console.read()?.ok_or_else(not_begun)?;
    if !line.trim().is_empty() {
        let place =
            |word: &str| word.parse::<usize>().ok()?.checked_sub(1).filter(|place| *place < offered.len());
        let places: Option<Vec<usize>> =
            line.split([' ', ',']).map(str::trim).filter(|word| !word.is_empty()).map(place).collect();
        let places = places.ok_or_else(|| {
            Failure::new(
                format!("\"{}\" is not one of the choices", line.trim()),
                "Type numbers from the list.",
            )
        })?;
        plan.directions = places.into_iter().map(|place| offered[place].to_owned()).collect();
        if plan.gap_ms[0] < i64::from(plan.shortest_gap().0) {
            let usual = DraftDrill::new(drill, form);
            (plan.gap_ms, plan.work_ms) = (plan.usual_gaps(), plan.work_ms.max(usual.work_ms));
        }
    }
    plan.weights = None;
    plan.sequence = SequenceName::Open;
    plan.longest_streak = None;
    plan.tidy();
    plan.sets = if plan.reaches_a_spell() { 2 } else { 1 };
    if plan.reaches_a_spell() && plan.tested_hold_ms.is_none() {
        plan.tested_hold_ms = Some(ask_tested_hold(console)?);
    }
    for need in plan.needs() {
        console.say(&format!("Is this in place? {} (Y yes; Enter no)", need.sentence()))?;
        if !console.yes()? {
            return Err(Failure::new(
                format!("a {need} is not in place"),
                "Put it in place first, or choose another step.",
            ));
        }
        if !plan.confirmed.contains(&need) {
            plan.confirmed.push(need);
        }
    }
    console.say("Has this person warmed up today? If so, the warm-up set is left out. (Y yes; Enter no)")?;
    let warmed_up = console.yes()?;
    let asked = Draft {
        title: format!("Try-out: {}", drill.title()).chars().take(80).collect(),
        issued_by: watched_by.to_owned(),
        issued_on: today,
        drills: vec![plan.clone()],
        unlocks: Vec::new(),
        // With the day of today it would cover what was answered since the program was issued.
        accepted_because: None,
        ..draft.clone()
    };
    admit(asked, plan, partner, warmed_up)
}

/// Unlocks, for this watching only, what the gate says is locked. Every other refusal of the gate stays a refusal.
fn admit(mut asked: Draft, plan: DraftDrill, partner: String, warmed_up: bool) -> Result<Trial, Failure> {
    let mut needs = Vec::new();
    loop {
        let name = match asked.admit() {
            Ok(prescription) => {
                let of_it = |one: &&Narrowing| one.drill.name() == plan.drill.name();
                if let Some(narrowing) = prescription.narrowings().iter().find(of_it) {
                    return Err(Failure::new(
                        format!("the person's precautions rule it out: {narrowing}").trim_end_matches('.'),
                        "Try something that they leave, or change the precautions first.",
                    ));
                }
                let text = asked.to_toml();
                return Ok(Trial { plan, partner, warmed_up, needs, prescription, text });
            }
            Err(refusal) => match refusal.reason() {
                Reason::Locked { unlock, .. }
                | Reason::LockedStep { unlock, .. }
                | Reason::UnlockPartner { unlock, .. }
                    if !needs.contains(unlock) =>
                {
                    *unlock
                }
                _ => return Err(Failure::new(refusal.fact(), refusal.hint())),
            },
        };
        needs.push(name);
        let watched_by = asked.issued_by.clone();
        let on = asked.issued_on;
        add(&mut asked, name, &partner, &watched_by, on);
        // It applies while the therapist is present, and is not written before a yes.
        for unlock in &mut asked.unlocks {
            unlock.therapist_present = true;
        }
    }
}

/// Asks how long the person was seen to hold the stance, in milliseconds.
fn ask_tested_hold<W: Write>(console: &mut Console<'_, W>) -> Result<i64, Failure> {
    console.say("How many seconds was this person seen to hold this stance, hands hovering? Up to 30.")?;
    let line = console.read()?.ok_or_else(not_begun)?;
    let seconds: Option<f64> = line.trim().parse().ok().filter(|seconds| (0.0..=120.0).contains(seconds));
    let seconds = seconds.ok_or_else(|| {
        Failure::new(
            format!("\"{}\" is not a number of seconds from 0 to 120", line.trim()),
            "Type a number, such as 9.",
        )
    })?;
    Ok((seconds * 1000.0).round() as i64)
}

fn pick<W: Write>(console: &mut Console<'_, W>, many: usize) -> Result<usize, Failure> {
    let line = console.read()?.ok_or_else(not_begun)?;
    let number: Option<usize> = line.trim().parse().ok();
    number.filter(|number| (1..=many).contains(number)).map(|number| number - 1).ok_or_else(|| {
        Failure::new(
            format!("\"{}\" is not one of the choices", line.trim()),
            format!("Type a number from 1 to {many}."),
        )
    })
}

/// Runs the session, and returns its id in the journal.
fn run_session<W: Write>(
    options: &Options<'_>,
    folder: &Folder,
    trial: &Trial,
    watched_by: &str,
    console: &mut Console<'_, W>,
) -> Result<Id, Failure> {
    let settings = Settings::load(folder)?;
    let mut journal = standing::open(folder, console.out)?;
    let clock = Clock::real();
    let mut known = standing::known(&journal)?;
    let mut asked_on = None;
    if let Some(last) = known.past.to_ask_about() {
        let face = asked_on.insert(face::open(options.plain, "prescribe --try")?);
        missed::ask(last, &mut journal, face, &clock)?;
        known = standing::known(&journal)?;
    }
    // The day and the amount of practice do not matter, since it does not count as practice. Locks and holds do.
    let position = Position::of(folder, &known, &trial.prescription, None, &clock.wall())?;
    position.allow_any()?;
    let next = &position.standing.next;
    let place = trial.prescription.drills().len() - 1;
    // The warm-up is always at its first step; of all others the person's own limits hold here too.
    if place > 0 && next.steps[place].map(i64::from) != Some(trial.plan.step) {
        let reasons: Vec<String> = next.reasons.iter().map(ToString::to_string).collect();
        return Err(Failure::new(
            format!(
                "the suitability answers or the balance tests rule out step {} of this drill",
                trial.plan.step
            ),
            reasons.last().cloned().unwrap_or_default(),
        ));
    }
    let seed = source::seed(None)?;
    let scheduler = Scheduler::new(&trial.prescription)?;
    let whole = scheduler.draw(seed);
    let sets_planned = whole.sets().len() as u8;
    let built_in = trial.prescription.drills()[0].line() == 0;
    let schedule = if built_in && trial.warmed_up { whole.from_set(2) } else { whole };
    let patches = patches(&settings, &schedule, folder)?;
    let begun = SessionBegun {
        begun: (&clock.wall()).into(),
        title: trial.prescription.title().to_owned(),
        digest: trial.prescription.digest(),
        sets_planned,
        precautions: trial.prescription.precautions().iter().collect(),
        drawn: Some(Drawn {
            seed,
            seed_given: false,
            method: schedule.method().number(),
            voice: settings.voice.name().to_owned(),
            device: None,
        }),
    };
    let phrases = Session::phrases(&schedule);
    let last_course = journal.contents()?.last_course().to_vec();
    let mut session = Session::new(scheduler, schedule, begun, settings.emergency_number.clone())
        .ok_or_else(not_begun)?
        .also_calling(settings.contact.as_deref())
        .prepare(Preparation {
            unwell_last_time: unwell_last_time(&known.past),
            known_fall: known.past.known_fall(),
            grab_lately: known.past.has_grab_near(clock.wall().date()),
            weekly: false,
            suitability_known: known.fitness.suitability.is_some(),
            tried_out: Some(TriedOut { watched_by: watched_by.to_owned(), partner: trial.partner.clone() }),
            ..Preparation::default()
        });
    if trial.plan.form == Form::Partner {
        session = session.with_partner(Channel::PartnerScreen, settings.sides);
    }
    if !patches.is_empty() {
        session = session.over_patches(&patches, &last_course);
    }
    let face: Face = asked_on.map_or_else(|| face::open(options.plain, "prescribe --try"), Ok)?;
    let stage = Stage {
        voice: settings.voice,
        phrases,
        device: None,
        silent: options.silent,
        earbud: false,
        text: trial.text.as_bytes(),
    };
    let (id, done) = perform(session, face, journal, clock, settings, folder, &stage)?;
    check_saved(&done, folder)?;
    console.plain = done.plain;
    Ok(id)
}

/// Prints what the journal has of it. Returns whether every set was completed with nothing gone wrong.
fn sum_up<W: Write>(
    record: &SessionRecord,
    trial: &Trial,
    console: &mut Console<'_, W>,
) -> Result<bool, Failure> {
    let of_it = record.sets.iter().filter(|set| {
        set.start.drill == trial.plan.drill.name() && i64::from(set.start.step) == trial.plan.step
    });
    let whole =
        of_it.clone().filter(|set| set.end.as_ref().is_some_and(|end| end.why == SetEnd::Completed)).count();
    let noted = of_it.clone().flat_map(|set| &set.responses).filter_map(|row| row.response);
    let mut responses: Vec<String> = Vec::new();
    for response in Response::ALL {
        let many = noted.clone().filter(|other| other == response).count();
        if many > 0 {
            responses.push(format!("{response} {many}"));
        }
    }
    console.say(&format!(
        "Tried: {}, step {}. Sets completed: {whole} of {}.",
        trial.plan.drill.title(),
        trial.plan.step,
        trial.plan.sets
    ))?;
    if !responses.is_empty() {
        console.say(&format!("Noted after the pushes: {}.", responses.join(", ")))?;
    }
    let answers = record.answers.iter();
    let answers =
        answers.map(|row| Block::item(format!("{}: {}", row.answer.question(), row.answer.words())));
    console.show(&answers.collect::<Vec<_>>())?;
    Ok(whole as i64 == trial.plan.sets
        && PastSession::from_record(record).is_some_and(|session| session.is_fine()))
}
