//! The `practice` command: opens screen, sound and journal, and runs one session.

use std::io::{self, IsTerminal};

use super::page::show;
use super::standing::{self, Position};
use super::{Failure, face, handover, missed, partner, sounding, source};
use crate::audio::Voice;
use crate::clock::Clock;
use crate::display::Face;
use crate::display::terminal;
use crate::entropy;
use crate::journal::{Folder, Journal, Writer};
use crate::practice::{self, Outcome, RoomSound, World};
use crate::settings::{PATCHES_EXAMPLE, Settings};
use counterpoise_core::blocks::Block;
use counterpoise_core::course::progression::{Decision, at_steps, unwell_last_time};
use counterpoise_core::course::standing::State;
use counterpoise_core::course::trainee::PartnerFit;
use counterpoise_core::draw::schedule::floor_order::{FEWEST, MOST};
use counterpoise_core::draw::schedule::{Method, Schedule, Scheduler, Seed};
use counterpoise_core::health::suitability::{Effect, Suitability};
use counterpoise_core::plan::drill::Form;
use counterpoise_core::plan::phrase::Phrase;
use counterpoise_core::plan::place::Room;
use counterpoise_core::plan::prescription::Prescription;
use counterpoise_core::practice::session::screen::Body;
use counterpoise_core::practice::session::{Channel, Preparation, Session};
use counterpoise_core::record::{Drawn, Id, SessionBegun};

/// The options of `practice`.
#[derive(Debug, Clone, Default, clap::Args)]
#[command(after_help = "Examples:\n  \
    counterpoise practice                   the prescription in use, else the gentle one\n  \
    counterpoise practice typical --sets 2  the first two sets of a ready prescription\n  \
    counterpoise practice FILE --partner screen  with a partner, who reads the screen\n  \
    counterpoise practice --gentler         one step lower than planned, any time you like\n  \
    counterpoise practice --plain           as lines of text, for a screen reader\n\n\
    It starts at the step that \"counterpoise next\" shows. Practice once a day. After a lock or a hold it says whom to call.")]
#[expect(clippy::struct_excessive_bools, reason = "each is a flag of the command line")]
pub struct Arguments {
    /// A ready prescription or a file [default: the one in use, else gentle]
    #[arg(value_name = "PRESCRIPTION")]
    pub prescription: Option<String>,
    /// Replay the session of this seed (64 hexadecimal digits); it is then no longer unpredictable
    #[arg(long, value_name = "HEX")]
    pub seed: Option<String>,
    /// Only the first N sets
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u8).range(1..))]
    pub sets: Option<u8>,
    /// The voice
    #[arg(long, value_parser = ["lower", "higher", "tones"])]
    pub voice: Option<String>,
    /// The sound output, as `counterpoise equipment` lists it
    #[arg(long, value_name = "ID")]
    pub device: Option<String>,
    /// With a partner, who reads the screen or wears an earbud that nobody else hears
    #[arg(long, value_name = "BY", value_parser = ["screen", "earbud"])]
    pub partner: Option<String>,
    /// Plain lines instead of a full screen
    #[arg(long)]
    pub plain: bool,
    /// One step lower than planned; there is no option to make it harder
    #[arg(long)]
    pub gentler: bool,
    /// Practice today, although today is a free day
    #[arg(long = "move")]
    pub move_here: bool,
    /// No sound: calls on the screen only
    #[arg(long)]
    pub silent: bool,
}

/// Runs one practice.
///
/// # Errors
/// If it cannot begin, or part of it could not be saved.
///
/// # Panics
/// Never: a prescription has at least its warm-up set.
#[expect(clippy::too_many_lines, reason = "what is refused, in its order, before anything opens")]
pub fn run(arguments: &Arguments, folder: &Folder) -> Result<(), Failure> {
    if arguments.prescription.is_none() {
        handover::offer(folder)?;
    }
    let source = source::for_person(arguments.prescription.as_deref(), folder)?;
    let seed = source::seed(arguments.seed.as_deref())?;
    let settings = Settings::load(folder)?;
    // Problems with the journal are printed now, before anybody stands at the counter.
    let mut journal = standing::open(folder, &mut io::stderr())?;
    if let Some(note) = standing::altered(&journal, folder)?.filter(|_| arguments.prescription.is_none()) {
        let _ = show(&[note], &mut io::stderr());
    }
    let method = match &arguments.seed {
        Some(_) => source::method(seed, &journal)?,
        None => Method::NEWEST,
    };
    let clock = Clock::real();
    let mut known = standing::known(&journal)?;
    let named = arguments.prescription.as_deref();
    let mut position = Position::of(folder, &known, &source.prescription, named, &clock.wall())?;
    // Lines that were typed ahead belong to the session as well, so one face serves both.
    let mut asked_on = None;
    // Where nothing may begin anyway, why comes first.
    if let Some(last) = known.past.to_ask_about().filter(|_| !position.standing.state().is_barred()) {
        terminal::watch_signals().map_err(|error| face::no_terminal(&error))?;
        missed::ask(last, &mut journal, asked_on.insert(face::open(arguments.plain, "practice")?), &clock)?;
        known = standing::known(&journal)?;
        position = Position::of(folder, &known, &source.prescription, named, &clock.wall())?;
    }
    // Whatever else was answered, and before anything is drawn for one.
    let for_partner = source.prescription.drills().iter().any(|plan| plan.form() == Form::Partner);
    if arguments.partner.is_some() && for_partner && !position.standing.state().is_barred() {
        if known.partner_fit() == PartnerFit::NotAsked {
            terminal::watch_signals().map_err(|error| face::no_terminal(&error))?;
            let mut face = asked_on.take().map_or_else(|| face::open(arguments.plain, "practice"), Ok)?;
            partner::ask(&mut journal, &mut face, &clock)?;
            asked_on = Some(face);
            known = standing::known(&journal)?;
            position = Position::of(folder, &known, &source.prescription, named, &clock.wall())?;
        }
        partner::must_suit(&known)?;
    }
    let next = &position.standing.next;
    let stands = position.standing.state();
    let may_begin = stands.is_open() || stands == State::RestDay && arguments.move_here;
    if !may_begin && stands.is_rest() {
        drop(asked_on);
        return rest(arguments.plain, &position);
    }
    if !may_begin {
        return Err(position.refusal());
    }
    let steps = if arguments.gentler { next.gentler() } else { next.steps.clone() };
    let asked_for = at_steps(&source.prescription, &steps);
    position.within_program(&known, &asked_for, &clock.wall())?;
    let (scheduler, whole) = draw(&source.prescription, &steps, method, seed)?;
    let sets_whole = whole.sets().len();
    let sets = arguments.sets.map_or(sets_whole, usize::from);
    let lower = if arguments.gentler { None } else { Some(next.gentler()).filter(|lower| *lower != steps) };
    let after_fall = next.after_fall(&source.prescription);
    let after_fall = Some(after_fall)
        .filter(|after| Some(after) != lower.as_ref() && (lower.is_some() || *after != steps));
    let drawn = |steps: Vec<Option<u8>>| draw(&source.prescription, &steps, method, seed);
    let (lower, after_fall) = (lower.map(drawn).transpose()?, after_fall.map(drawn).transpose()?);
    let today = |whole: Schedule| whole.only_first(sets).from_set(next.first_set);
    let sets_planned = sets.min(sets_whole) as u8;
    let schedule = today(whole);
    let [gentler, after_fall] =
        [lower, after_fall].map(|drawn| drawn.map(|(scheduler, whole)| (scheduler, today(whole))));
    if schedule.sets().is_empty() {
        return Err(Failure::new(
            "the interrupted practice has no sets left",
            "See what comes next: counterpoise next",
        ));
    }
    let alone = known.fitness.suitability.as_ref().filter(|_| for_partner).and_then(why_alone);
    let title = source.prescription.title();
    let partner = partner(arguments.partner.as_deref(), &schedule, title, alone)?;
    if partner == Some(Channel::PartnerEarbud) && arguments.silent {
        return Err(Failure::new(
            "--partner earbud needs sound, and --silent turns it off",
            "Leave out --silent, or let the partner read: --partner screen",
        ));
    }
    let voice = sounding::voice(arguments.voice.as_deref(), &settings, partner);
    let patches = patches(&settings, &schedule, folder)?;
    let mut phrases = Session::phrases(&schedule);
    let others = gentler.iter().chain(&after_fall);
    phrases.extend(others.flat_map(|(_, schedule)| Session::phrases(schedule)));
    let begun = SessionBegun {
        begun: (&clock.wall()).into(),
        title: source.prescription.title().to_owned(),
        digest: source.prescription.digest(),
        sets_planned,
        precautions: source.prescription.precautions().iter().collect(),
        drawn: Some(Drawn {
            seed,
            seed_given: arguments.seed.is_some(),
            method: schedule.method().number(),
            voice: voice.name().to_owned(),
            device: None,
        }),
    };
    let mut session = Session::new(scheduler, schedule, begun, settings.emergency_number.clone())
        .expect("the schedule has a set, as was seen above");
    session = session.prepare(Preparation {
        decided: Some(next.decided(&source.prescription, &known.past, arguments.gentler, sets_whole)),
        gentler,
        after_fall,
        grab_lately: known.past.has_grab_near(clock.wall().date()),
        unwell_last_time: unwell_last_time(&known.past),
        known_fall: known.past.known_fall(),
        weekly: known.past.is_new_week(clock.wall().date()),
        suitability_known: known.fitness.suitability.is_some(),
        tried_out: None,
    });
    session = session.also_calling(settings.contact.as_deref());
    session = session.named(settings.name.as_deref(), !folder.settings_file().exists());
    if let Some(channel) = partner {
        session = session.with_partner(channel, settings.sides);
    }
    if !patches.is_empty() {
        session = session.over_patches(&patches, journal.contents()?.last_course());
    }
    let stage = Stage {
        voice,
        phrases,
        device: arguments.device.as_deref(),
        silent: arguments.silent,
        earbud: partner == Some(Channel::PartnerEarbud),
        text: &source.bytes,
    };
    let face = asked_on.map_or_else(|| face::open(arguments.plain, "practice"), Ok)?;
    let done = perform(session, face, journal, clock, settings, folder, &stage)?.1;
    check_saved(&done, folder)?;
    let _ = show(&what_is_next(folder, &source.prescription, named)?, &mut io::stdout());
    Ok(())
}

/// A page of its own on a day without practice: all is well, and there is nothing to do.
fn rest(plain: bool, position: &Position) -> Result<(), Failure> {
    let mut lines = position.lines();
    let heading = lines.remove(0);
    lines.extend(position.moved());
    if plain || !(io::stdin().is_terminal() && io::stdout().is_terminal()) {
        let page: Vec<Block> = std::iter::once(heading).chain(lines).map(Block::line).collect();
        return Ok(show(&page, &mut io::stdout())?);
    }
    let lines: Vec<&str> = lines.iter().map(String::as_str).collect();
    face::read("practice", [Body::page(&heading, &lines, &[])])
}

/// Where the person stands after the practice, and what the next one will be.
fn what_is_next(
    folder: &Folder,
    prescription: &Prescription,
    named: Option<&str>,
) -> Result<Vec<Block>, Failure> {
    let known = standing::known(&Journal::look(folder)?)?;
    let position = Position::of(folder, &known, prescription, named, &Clock::real().wall())?;
    let standing = &position.standing;
    let mut page: Vec<Block> = position.lines().into_iter().map(Block::line).collect();
    if standing.state().is_next_known() {
        page.push(Block::line(match standing.next.then {
            Decision::Up => "Next time: one thing gets a little harder.",
            Decision::Down => "Next time: a little easier.",
            _ => "Next time: the same steps.",
        }));
        page.extend(standing.about_steps().into_iter().map(Block::item));
    }
    page.extend(position.offered().map(Block::line));
    Ok(page)
}

/// What a session is performed with.
pub(super) struct Stage<'a> {
    /// The voice, or tones.
    pub voice: Voice,
    /// The phrases that the session may say.
    pub phrases: Vec<Phrase>,
    /// The sound output; `None` is the one of the settings.
    pub device: Option<&'a str>,
    /// Whether sound is off.
    pub silent: bool,
    /// Whether the sound goes to a partner's earbud.
    pub earbud: bool,
    /// The prescription as it is written, to be kept with the practice.
    pub text: &'a [u8],
}

/// Runs the session with screen, sound and journal, and returns its id in the journal.
pub(super) fn perform(
    session: Session,
    mut face: Face,
    journal: Journal,
    clock: Clock,
    settings: Settings,
    folder: &Folder,
    stage: &Stage<'_>,
) -> Result<(Id, Outcome), Failure> {
    let id = entropy::id().map_err(|error| no_random_numbers(&error))?;
    terminal::watch_signals().map_err(|error| face::no_terminal(&error))?;
    // The first page is shown while the sound is opened and the clips are decoded.
    face.show(&session.screen(clock.now())).map_err(|error| face::no_terminal(&error))?;
    let device = stage.device.or(settings.device.as_deref());
    let sound = if stage.silent { Ok(None) } else { sounding::open(device, stage.voice, &stage.phrases) };
    let sound = match sound {
        Ok(sound) => sound,
        Err(failure) if stage.device.is_some() => return Err(failure),
        Err(_) => None,
    };
    let text = journal.unkept_text(stage.text)?;
    let mut writer = Writer::start(journal, id)?;
    if let Some(text) = text {
        writer.keep_outside(&clock.wall(), text);
    }
    let settings_device = settings.device.clone();
    let keep_room = keep_room(settings, folder.clone());
    let room = match &sound {
        Some(sound) if stage.earbud => sounding::room_sound(sound.device_id(), settings_device, stage.voice),
        _ => RoomSound::Same,
    };
    let close_requested = terminal::close_requested;
    let world = World { face, sound, room, clock, writer, keep_room, close_requested };
    Ok((id, practice::run(world, session)))
}

/// The whole session of this seed at these steps.
fn draw(
    prescription: &Prescription,
    steps: &[Option<u8>],
    method: Method,
    seed: Seed,
) -> Result<(Scheduler, Schedule), Failure> {
    let scheduler = Scheduler::by(method, &at_steps(prescription, steps))?;
    let whole = scheduler.draw(seed);
    Ok((scheduler, whole))
}

/// How the partner gets the instructions. A partner is needed if, and only if, there are sets with a partner.
/// `alone`: why what there is for a partner was left out.
fn partner(
    by: Option<&str>,
    schedule: &Schedule,
    title: &str,
    alone: Option<String>,
) -> Result<Option<Channel>, Failure> {
    let with = schedule.sets().iter().find(|set| set.form() == Form::Partner);
    match (by, with) {
        (None, None) => Ok(None),
        (Some("earbud"), Some(_)) => Ok(Some(Channel::PartnerEarbud)),
        (Some(_), Some(_)) => Ok(Some(Channel::PartnerScreen)),
        (None, Some(set)) => Err(Failure::new(
            format!("\"{title}\" needs a partner: {}", set.drill().title().to_lowercase()),
            "With your partner next to you, add --partner screen, or --partner earbud if the partner wears one.",
        )),
        (Some(_), None) if alone.is_some() => Err(Failure::new(
            format!("no practice with a partner now: {}", alone.unwrap_or_default()),
            "Answer the questions again, with your partner: counterpoise suitability --partner",
        )),
        (Some(by), None) => Err(Failure::new(
            format!("there is nothing for a partner to do in \"{title}\""),
            format!("Leave out --partner {by}, or choose a prescription that has drills with a partner."),
        )),
    }
}

/// Which answer about suitability leaves practice alone only; where none says so, the partner was not asked about.
fn why_alone(suitability: &Suitability) -> Option<String> {
    suitability.bounds().filter(|bounds| bounds.limits.alone)?;
    let is_alone = |effect: &Effect| matches!(effect, Effect::Within(bounds) if bounds.limits.alone);
    let mut because = suitability.because.iter().zip(suitability.reasons());
    let why = because.find(|((.., effect), _)| is_alone(effect)).map(|(_, reason)| reason);
    let why = why.unwrap_or_else(|| "the questions about your partner were not answered".to_owned());
    Some(why.trim_end_matches('.').to_owned())
}

/// The person's patches, where the session has a floor course.
pub(super) fn patches(
    settings: &Settings,
    schedule: &Schedule,
    folder: &Folder,
) -> Result<Vec<String>, Failure> {
    if !schedule.sets().iter().any(|set| set.drill().is_over_patches()) {
        return Ok(Vec::new());
    }
    if settings.patches.is_empty() {
        return Err(Failure::new(
            "this practice has a floor course, but the settings name no patches",
            format!(
                "Name {FEWEST} to {MOST} patches in {}, for example: {PATCHES_EXAMPLE}",
                folder.settings_file().display()
            ),
        ));
    }
    Ok(settings.patches.clone())
}

/// Writes the sides of the room into the settings. If that fails, the question is asked again next time.
fn keep_room(settings: Settings, folder: Folder) -> Box<dyn FnMut(Room)> {
    Box::new(move |room| {
        let settings = Settings { sides: Some(room), ..settings.clone() };
        let _ = settings.save(&folder);
    })
}

/// Reports entries that could not be saved, and a screen that failed, once the terminal is restored.
pub(super) fn check_saved(outcome: &Outcome, folder: &Folder) -> Result<(), Failure> {
    if outcome.kept.not_saved > 0 {
        let what = match outcome.kept.not_saved {
            1 => "NOT SAVED: 1 entry of this practice is not in the journal".to_owned(),
            entries => format!("NOT SAVED: {entries} entries of this practice are not in the journal"),
        };
        let hint = match (&outcome.kept.rescue, &outcome.kept.lost) {
            (Some(file), _) if file.parent() == Some(folder.path()) => format!(
                "What is missing is in {}. Free some disk space and start Counterpoise again; it will add it to the journal.",
                file.display()
            ),
            (Some(file), _) => format!(
                "What is missing is in {0}. Once the disk works again, add it with: counterpoise journal import {0}",
                file.display()
            ),
            (None, Some(why)) => format!("It could not be written anywhere else either: {why}."),
            (None, None) => {
                "Free some disk space, and tell your therapist that this practice was not saved.".to_owned()
            }
        };
        return Err(Failure::new(what, hint));
    }
    if let Err(error) = &outcome.face {
        return Err(Failure::new(
            format!("the screen could no longer be drawn ({error})"),
            "The practice has ended. What was done is saved. See: counterpoise journal show last",
        ));
    }
    Ok(())
}

fn no_random_numbers(error: &io::Error) -> Failure {
    Failure::new(
        format!("no random numbers are available from the system ({error})"),
        "Restart the computer and try again.",
    )
}

#[cfg(test)]
mod test {
    use super::{Suitability, partner, why_alone};
    use counterpoise_core::draw::schedule::{Scheduler, Seed};
    use counterpoise_core::health::bounds::Bounds;
    use counterpoise_core::health::suitability::Outcome;
    use counterpoise_core::plan::prescription::Prescription;

    #[test]
    fn a_refusal_of_practice_with_a_partner_names_why() {
        let of = |bounds| Suitability { outcome: Outcome::GoAhead(bounds), because: Vec::new() };
        assert_eq!(why_alone(&of(Bounds::OPEN)), None);
        let why = why_alone(&of(Bounds::ALONE));
        assert_eq!(why.as_deref(), Some("the questions about your partner were not answered"));
        let schedule = Scheduler::new(Prescription::ready("gentle").unwrap()).unwrap();
        let schedule = schedule.draw(Seed::from_bytes([1; 32]));
        let refused = |why| partner(Some("screen"), &schedule, "Mine", why).unwrap_err().fact().to_owned();
        assert!(refused(why).contains("your partner were not answered"));
        assert!(refused(None).contains("nothing for a partner to do in \"Mine\""));
    }
}
