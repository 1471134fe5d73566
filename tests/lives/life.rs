//! One life of practice, drawn from one seed: a person who answers well or not, a clock that is set, sound that is lost, a
//! program that is killed. Sessions, journal, rules and pages are the program's own; no time is waited for, and no device is
//! opened. After each step it is held that nothing that was ended is lost, no lock is lost or shortened, no limit is passed,
//! and nothing is said or offered that would be refused.

use std::collections::HashSet;
use std::fs;
use std::path::Path;
use std::time::Duration;

use counterpoise::journal::{Folder, Journal, Writer};
use counterpoise_core::course::past::Barrier;
use counterpoise_core::course::progression::{at_steps, unwell_last_time};
use counterpoise_core::course::standing::{Offer, Standing, State, Surroundings};
use counterpoise_core::course::trainee::Trainee;
use counterpoise_core::draw::schedule::{Method, Schedule, Scheduler, Seed};
use counterpoise_core::health::lock::HOLD;
use counterpoise_core::health::readiness::{Item, Page};
use counterpoise_core::health::yes_no::YesNoNotSure;
use counterpoise_core::plan::prescription::Prescription;
use counterpoise_core::practice::session::screen::{Body, Screen};
use counterpoise_core::practice::session::{Effect, Event, Key, Now, Preparation, Session, question_lines};
use counterpoise_core::record::{
    Answer, Drawn, Entry, Id, Question, SessionBegun, SessionEnd, SetEnd, SetEndRow, Symptom,
};
use counterpoise_core::units::Millis;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp, ZonedDateTime};
use rand::rngs::ChaCha12Rng;
use rand::{RngExt as _, SeedableRng as _};
use tempfile::TempDir;

/// The zone changes its clocks twice a year, so that days of 23 and 25 hours are lived too.
const ZONE: &str = "America/New_York";
/// How long the program waits until the end of a set is on the disk.
const ON_DISK: Duration = Duration::from_secs(20);
/// Longer than the longest session, in looks at the screen.
const LOOKS: usize = 20_000;
/// Sound at this rate is placed exactly.
const RATE: u32 = 48_000;

/// What happened in some lives.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub(crate) struct Tally {
    /// Weeks that were lived.
    pub(crate) weeks: u64,
    /// Sessions that were begun.
    pub(crate) sessions: u64,
    /// Sets that were ended.
    pub(crate) sets: u64,
    /// Times that the program was killed.
    pub(crate) kills: u64,
    /// Times that the journal was lost.
    pub(crate) lost: u64,
    /// Times that the clock was set.
    pub(crate) clocks: u64,
    /// Locks and holds that were told of.
    pub(crate) barred: u64,
    /// Clearances.
    pub(crate) cleared: u64,
}

impl std::ops::AddAssign for Tally {
    fn add_assign(&mut self, other: Self) {
        self.weeks += other.weeks;
        self.sessions += other.sessions;
        self.sets += other.sets;
        self.kills += other.kills;
        self.lost += other.lost;
        self.clocks += other.clocks;
        self.barred += other.barred;
        self.cleared += other.cleared;
    }
}

/// What the person told that bars practice, by the table in `docs/progression.md`, and not by the rules that are tested.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Told {
    session: Id,
    what: Bar,
    /// On the clock of the wall.
    at: Timestamp,
    /// As time passes.
    time: Timestamp,
    /// The journal was lost since: another record has to know it, under another name.
    lost: bool,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Bar {
    /// Until it is cleared.
    Lock { emergency: bool },
    /// For 48 hours.
    Hold,
}

/// A life that goes on.
pub(crate) struct Life {
    random: ChaCha12Rng,
    place: TempDir,
    /// Seconds since 1970, as they pass.
    time: Timestamp,
    /// How far the clock of the wall is off.
    off: SignedDuration,
    /// What the clock showed when something was kept last.
    kept_at: Timestamp,
    prescription: Prescription,
    /// Sets whose end was on the disk before anything else happened.
    ended: Vec<(Id, u8, SetEndRow)>,
    told: Vec<Told>,
    /// The sessions of which something was cleared that was told in them (false), or whose date was set aside (true).
    cleared: HashSet<(String, bool)>,
    tally: Tally,
}

/// How a session ended for the program.
enum Left {
    Whole,
    /// It was killed: what was in the folder at that moment is all there is.
    Killed,
}

impl Life {
    /// A new life, in a folder of its own in `place`.
    pub(crate) fn new(seed: u64, place: &Path) -> Self {
        let mut random = ChaCha12Rng::seed_from_u64(seed);
        let names = ["gentle", "typical", "reach-and-look", "steps-and-rises"];
        let ready: Vec<&Prescription> = names.iter().filter_map(|name| Prescription::ready(name)).collect();
        let prescription = ready[random.random_range(0..ready.len())].clone();
        let start: Timestamp = "2026-01-05T14:00:00Z".parse().unwrap();
        let time = start + SignedDuration::from_hours(random.random_range(0..24 * 365));
        Self {
            random,
            place: tempfile::tempdir_in(place).unwrap(),
            time,
            off: SignedDuration::ZERO,
            kept_at: Timestamp::MIN,
            prescription,
            ended: Vec::new(),
            told: Vec::new(),
            cleared: HashSet::new(),
            tally: Tally::default(),
        }
    }

    /// Lives for so many weeks.
    pub(crate) fn live(mut self, weeks: u64) -> Tally {
        let end = self.time + SignedDuration::from_hours(i64::try_from(weeks).unwrap() * 7 * 24);
        while self.time < end {
            self.time += SignedDuration::from_mins(self.random.random_range(60..40 * 60));
            self.set_the_clock();
            self.lose_the_journal();
            let known = self.look();
            self.therapist(&known);
            let known = self.look();
            if self.chance(0.9) {
                self.practice(&known);
                self.look();
            }
        }
        self.tally.weeks = weeks;
        self.tally
    }

    fn chance(&mut self, share: f64) -> bool {
        self.random.random_bool(share)
    }

    fn folder(&self) -> Folder {
        Folder::open_in(self.place.path().join("data")).unwrap()
    }

    /// What the clock on the wall shows.
    fn wall(&self) -> ZonedDateTime {
        self.time.saturating_add(self.off).unwrap().to_zoned_datetime(TimeZone::get(ZONE).unwrap())
    }

    fn set_the_clock(&mut self) {
        if self.chance(0.03) {
            self.tally.clocks += 1;
            let hours = self.random.random_range(-24 * 40..24 * 40);
            self.off =
                if self.chance(0.5) { SignedDuration::from_hours(hours) } else { SignedDuration::ZERO };
        }
    }

    /// The journal is deleted by somebody, or its file is emptied. What was practiced is gone; what bars practice is not.
    fn lose_the_journal(&mut self) {
        let file = self.folder().journal_file();
        if !file.exists() || !self.chance(0.01) {
            return;
        }
        self.tally.lost += 1;
        self.ended.clear();
        for told in &mut self.told {
            told.lost = true;
        }
        if self.chance(0.5) {
            fs::remove_file(&file).unwrap();
        } else {
            fs::write(&file, "").unwrap();
        }
    }

    /// What anybody who looks sees, and what must hold of it.
    fn look(&mut self) -> Trainee {
        let journal = Journal::look(&self.folder()).unwrap();
        let contents = journal.contents().unwrap();
        assert_eq!(contents.misfits, [], "every line fits");
        for (session, number, end) in &self.ended {
            let session = contents.sessions.iter().find(|one| one.id == *session).expect("a session is lost");
            let set = session.sets.iter().find(|set| set.start.number == *number).expect("a set is lost");
            assert_eq!(set.end.as_ref(), Some(end), "the end of a set is lost");
        }
        let known = journal.trainee().unwrap();
        self.holds_for(&known);
        known
    }

    fn holds_for(&self, known: &Trainee) {
        let now = self.wall();
        let standing = Standing::of(known, &self.prescription, &now);
        let (state, said) = (standing.state(), standing.lines(None).join(" "));
        let barred = known.barriers(&now);
        for told in &self.told {
            let session = told.session.to_string();
            let lifted = self.cleared.contains(&(session.clone(), false));
            match told.what {
                Bar::Lock { emergency } => {
                    let locked = barred
                        .locks
                        .iter()
                        .any(|lock| lock.session == session && (!emergency || lock.what.is_emergency()));
                    let locked = locked || told.lost && state.is_locked();
                    assert!(locked || lifted, "a lock is lost: {told:?}");
                    assert!(!locked || state.is_locked(), "{state}: {said}");
                }
                Bar::Hold => {
                    // A clock that was set back shortens nothing.
                    let since = now.timestamp().duration_since(told.at);
                    let set_aside = self.cleared.contains(&(session, true));
                    let passed = self.time.duration_since(told.time);
                    let runs = if set_aside { passed < HOLD && self.off.is_zero() } else { since < HOLD };
                    assert!(!runs || state.is_barred(), "a hold is shortened ({since:#}): {told:?}: {state}");
                }
            }
        }
        if state.is_locked() {
            assert!(!said.contains("Next:") && standing.next_day().is_none(), "{said}");
        }
        let offers = standing.offers(known, &self.prescription, Surroundings::default());
        let practice =
            offers.iter().any(|offer| matches!(offer, Offer::Practice { .. } | Offer::Gentler { .. }));
        assert!(!practice || state.is_open() || state == State::ToAnswer, "{state}: {offers:?}");
        assert!(
            !state.is_barred()
                || !offers.iter().any(|offer| matches!(offer, Offer::Track | Offer::Assess(_)))
        );
    }

    /// Clears what can be cleared, now and then.
    fn therapist(&mut self, known: &Trainee) {
        let now = self.wall();
        let lifts: Vec<_> = known.clearable(&now).into_iter().map(|one| one.lifted).collect();
        if lifts.is_empty() || !self.chance(0.25) {
            return;
        }
        let some = self.random.random_range(1..=lifts.len());
        let (mut journal, _) = Journal::open(self.folder().lock().unwrap()).unwrap();
        journal.keep_clearance(&now, "K. L.", "seen", &lifts[..some]).unwrap();
        let cleared = lifts[..some].iter().filter(|one| one.what.is_told() || one.what == Barrier::Date);
        // Which of several locks it was that is known under another name nobody can say.
        let is_lock = |told: &Told| matches!(told.what, Bar::Lock { .. });
        self.told.retain(|told| !is_lock(told) || some < lifts.len() && !told.lost);
        self.cleared.extend(cleared.map(|one| (one.session.clone(), one.what == Barrier::Date)));
        self.tally.cleared += 1;
    }

    /// Tries to practice, as the command does.
    fn practice(&mut self, known: &Trainee) {
        let wall = self.wall();
        let standing = Standing::of(known, &self.prescription, &wall);
        let may = matches!(standing.state(), State::Due | State::ToFinish | State::RestDay);
        if standing.state() == State::ToAnswer {
            self.answer_what_was_missed(known);
        }
        if !may {
            return;
        }
        let folder = self.folder();
        let (journal, _) = Journal::open(folder.lock().unwrap()).unwrap();
        let next = &standing.next;
        let seed = Seed::from_bytes(self.random.random());
        let draw = |steps: &[Option<u8>]| {
            let today = at_steps(&self.prescription, steps);
            let scheduler = Scheduler::by(Method::NEWEST, &today).unwrap();
            let schedule = scheduler.draw(seed).from_set(next.first_set);
            (scheduler, schedule)
        };
        let (scheduler, schedule) = draw(&next.steps);
        if schedule.sets().is_empty() {
            return;
        }
        let gentler = Some(next.gentler()).filter(|lower| *lower != next.steps).map(|steps| draw(&steps));
        let after_fall = Some(draw(&next.after_fall(&self.prescription)));
        let whole = schedule.sets().len() + usize::from(next.first_set) - 1;
        let begun = self.begun(&wall, &schedule, seed, whole);
        let session = Session::new(scheduler, schedule, begun, None).unwrap().prepare(Preparation {
            decided: Some(next.decided(&self.prescription, &known.past, false, whole)),
            gentler,
            after_fall,
            grab_lately: known.past.has_grab_near(wall.date()),
            unwell_last_time: unwell_last_time(&known.past),
            known_fall: known.past.known_fall(),
            weekly: known.past.is_new_week(wall.date()),
            suitability_known: known.fitness.suitability.is_some(),
            tried_out: None,
        });
        let id = Id::of(&format!("{}", self.random.random::<u128>()));
        let kill_at = if self.chance(0.06) { self.random.random_range(0..700) } else { usize::MAX };
        let writer = Writer::start(journal, id).unwrap();
        if matches!(self.run(session, id, writer, kill_at), Left::Killed) {
            self.tally.kills += 1;
        }
    }

    fn begun(&self, wall: &ZonedDateTime, schedule: &Schedule, seed: Seed, whole: usize) -> SessionBegun {
        SessionBegun {
            begun: wall.into(),
            title: self.prescription.title().to_owned(),
            digest: self.prescription.digest(),
            sets_planned: u8::try_from(whole).unwrap(),
            precautions: Vec::new(),
            drawn: Some(Drawn {
                seed,
                seed_given: false,
                method: schedule.method().number(),
                voice: "lower".to_owned(),
                device: None,
            }),
        }
    }

    fn answer_what_was_missed(&mut self, known: &Trainee) {
        let Some(last) = known.past.to_ask_about() else { return };
        let Ok(session) = Id::try_from(last.id.clone()) else { return };
        let at = self.wall();
        let (mut journal, _) = Journal::open(self.folder().lock().unwrap()).unwrap();
        let mut open = last.open_questions();
        while let Some(question) = open.pop() {
            let keys = question.keys();
            // Mostly nothing happened.
            let fine = keys.iter().find(|(key, ..)| *key == 'N' || *key == 'n');
            let (.., answer) = match fine {
                Some(fine) if self.chance(0.8) => *fine,
                _ => keys[self.random.random_range(0..keys.len())],
            };
            match answer {
                Answer::FellThen(Some(fell)) if fell.may_be_yes() => {
                    open.extend([Question::Head, Question::FallHurt]);
                }
                Answer::UnwellThen(Some(unwell)) if unwell.may_be_yes() => open.push(Question::Symptom),
                _ => {}
            }
            journal.keep_answer(&at, session, answer).unwrap();
        }
    }

    /// The session to its end, or until it is killed.
    fn run(&mut self, mut session: Session, id: Id, mut writer: Writer, kill_at: usize) -> Left {
        let well = [0.999, 0.99, 0.9][self.random.random_range(0..3)];
        let mut at = Millis(0);
        let mut events = vec![Event::Sound { device: Some("simulated".to_owned()) }];
        let mut cues: Vec<(u32, u16, u64)> = Vec::new();
        let mut told = Tellings::default();
        for look in 0..LOOKS {
            for event in std::mem::take(&mut events) {
                let now = Now { at, wall: self.wall() };
                let (next, effects) = session.on(&now, event);
                session = next;
                for effect in effects {
                    match effect {
                        Effect::Leave => {
                            assert_eq!(writer.close().not_saved, 0);
                            self.remember(id, &told);
                            return Left::Whole;
                        }
                        Effect::Hush => cues.clear(),
                        Effect::Begin { count, cues: placed, from, .. } => {
                            let work_starts = at + Millis(1_000 * count.len() as u32);
                            let zero = work_starts.0.saturating_sub(from.0);
                            cues = placed
                                .iter()
                                .filter(|(_, cue)| !cue.is_blank())
                                .map(|(place, cue)| (zero + cue.at().0, *place, u64::from(cue.at().0) * 48))
                                .collect();
                            events.push(Event::Placed { work_starts });
                        }
                        Effect::Record(entry) => {
                            told.hear(&entry);
                            let end = match &entry {
                                Entry::SetEnded { set, end } => Some((*set, end.clone())),
                                _ => None,
                            };
                            let begins = matches!(entry, Entry::SessionBegun(_));
                            self.tally.sessions += u64::from(begins);
                            // Each entry is on the disk before the next, so that a life is lived again as it was.
                            assert!(writer.keep_and_wait(&self.wall(), entry, ON_DISK));
                            self.kept_at = self.wall().timestamp();
                            if let Some((set, end)) = end {
                                self.tally.sets += 1;
                                self.ended.push((id, set, end));
                            }
                        }
                        _ => {}
                    }
                }
            }
            if look == kill_at {
                self.kill(writer);
                self.remember(id, &told);
                return Left::Killed;
            }
            let screen = session.screen(at);
            let step = self.random.random_range(100..1_900);
            at = at + Millis(step);
            self.time += SignedDuration::from_millis(i64::from(step));
            let gap = if self.chance(0.000_2) { 9_000 } else { step };
            events.push(Event::Tick { gap: Millis(gap) });
            let heard = |(when, ..): &(u32, u16, u64)| *when + 600 <= at.0;
            for (_, cue, frame) in cues.extract_if(.., |cue| heard(cue)).collect::<Vec<_>>() {
                events.push(Event::Heard { cue, wanted: frame, began: frame, rate: RATE });
            }
            if self.chance(0.000_4) {
                events.push(Event::SoundLost);
                cues.clear();
            } else if self.chance(0.01) {
                events.push(Event::SoundBack);
            }
            if self.chance(0.000_2) {
                events.push(Event::Close);
            }
            events.extend(self.press(&screen, well).map(Event::Key));
        }
        panic!("the session never ends: {:?}", session.screen(at));
    }

    /// The power of the program is gone: what lies in the folder now is all that is left.
    fn kill(&mut self, writer: Writer) {
        let (data, left) = (self.place.path().join("data"), self.place.path().join("left"));
        fs::create_dir(&left).unwrap();
        for file in fs::read_dir(&data).unwrap().map(Result::unwrap) {
            fs::copy(file.path(), left.join(file.file_name())).unwrap();
        }
        drop(writer);
        fs::remove_dir_all(&data).unwrap();
        fs::rename(&left, &data).unwrap();
    }

    fn remember(&mut self, session: Id, told: &Tellings) {
        let (at, time) = (self.kept_at, self.time);
        let bars = told.bars();
        self.tally.barred += bars.len() as u64;
        self.told.extend(bars.into_iter().map(|what| Told { session, what, at, time, lost: false }));
    }

    /// What the person presses at this screen; mostly nothing while something goes on.
    fn press(&mut self, screen: &Screen, well: f64) -> Option<Key> {
        let hints: Vec<char> = screen.keys.iter().filter_map(|hint| letter(&hint.key)).collect();
        match &screen.body {
            Body::Question { ask, answers, .. } => {
                let fine = fine(ask).filter(|_| self.random.random_bool(well));
                let all: Vec<char> = answers.iter().filter_map(|hint| letter(&hint.key)).collect();
                let any = || if all.is_empty() { '\n' } else { all[0] };
                let picked = if all.is_empty() { any() } else { all[self.random.random_range(0..all.len())] };
                Some(key(fine.unwrap_or(picked)))
            }
            Body::Emergency { .. } => Some(Key::Char(if self.chance(0.5) { 'l' } else { 'x' })),
            Body::Page { text, .. } => {
                let good = text.iter().find_map(|line| fine(line)).filter(|good| hints.contains(good));
                match good {
                    Some(good) if self.random.random_bool(well) => Some(key(good)),
                    Some(_) => Some(key(['y', 'n', 'u'][self.random.random_range(0..3)])),
                    None if self.chance(0.3) => Some(Key::Enter),
                    None => None,
                }
            }
            Body::Paused { .. } => self.chance(0.3).then_some(Key::Enter),
            Body::Rest { left, .. } => (left.0 == 0 && self.chance(0.5)).then_some(Key::Enter),
            _ if self.chance(0.001) => {
                Some(Key::Char(['s', '.', 'g', 'f', 'x'][self.random.random_range(0..5)]))
            }
            _ => None,
        }
    }
}

/// The key that a hint names.
fn letter(key: &str) -> Option<char> {
    match key {
        "Enter" => Some('\n'),
        one if one.chars().count() == 1 => one.chars().next().map(|c| c.to_ascii_lowercase()),
        _ => None,
    }
}

fn key(letter: char) -> Key {
    if letter == '\n' { Key::Enter } else { Key::Char(letter) }
}

/// The key of the good answer to this question.
fn fine(ask: &str) -> Option<char> {
    if ask.ends_with("Is that right?") || ask.starts_with("Leave out") {
        return Some('y');
    }
    if ask.starts_with("Do you have any of these?") {
        return Some('n');
    }
    let of_items = Item::ALL.iter().find(|item| item.question() == ask);
    let of_pages = Page::ALL.iter().find(|page| page.question() == ask);
    let good = of_items.map(|item| item.answer_if(true)).or_else(|| of_pages.map(|page| page.good()));
    if let Some(good) = good {
        return Some(match good {
            YesNoNotSure::Yes => 'y',
            _ => 'n',
        });
    }
    let is = |question: Question| question_lines(question).first().is_some_and(|words| words == ask);
    let question = Question::ALL.iter().copied().find(|question| is(*question))?;
    match question {
        Question::Grabbed | Question::Unwell | Question::Fell | Question::FallHurt | Question::Head => {
            Some('n')
        }
        other => other.keys().first().map(|(key, ..)| key.to_ascii_lowercase()),
    }
}

/// What was told in a session, as far as it bars practice.
#[derive(Debug, Default)]
struct Tellings {
    ready: Vec<(Item, YesNoNotSure)>,
    fell: bool,
    hurt: Option<YesNoNotSure>,
    head: Option<YesNoNotSure>,
    symptom: Option<Symptom>,
    unwell: bool,
    grabbed_alone: bool,
}

impl Tellings {
    fn hear(&mut self, entry: &Entry) {
        match entry {
            Entry::Readied { rows } => self.ready = rows.iter().map(|row| (row.item, row.answer)).collect(),
            Entry::SetEnded { end, .. } => self.fell |= end.why == SetEnd::Fell,
            Entry::SessionEnded { why, .. } => {
                self.fell |= *why == SessionEnd::Fell;
                self.unwell |= *why == SessionEnd::Unwell;
                self.grabbed_alone |= *why == SessionEnd::Grabbed;
            }
            Entry::Answered(row) => match row.answer {
                Answer::Fell(Some(fell)) => self.fell |= fell.may_be_yes(),
                Answer::FallHurt(hurt) => self.hurt = hurt,
                Answer::Head(head) => self.head = head,
                Answer::Symptom(symptom) => self.symptom = symptom,
                _ => {}
            },
            _ => {}
        }
    }

    /// By the table in `docs/progression.md`.
    fn bars(&self) -> Vec<Bar> {
        let told = |item: Item| self.ready.iter().any(|(of, said)| *of == item && !item.is_good(*said));
        let mut bars = Vec::new();
        for item in [Item::Chest, Item::Breath, Item::Nerve, Item::Faint] {
            bars.extend(told(item).then_some(Bar::Lock { emergency: item != Item::Faint }));
        }
        bars.extend(told(Item::Head).then_some(Bar::Lock { emergency: false }));
        bars.extend(told(Item::FallHurt).then_some(Bar::Lock { emergency: false }));
        if self.fell {
            let harmless = [self.hurt, self.head].iter().all(|said| *said == Some(YesNoNotSure::No));
            bars.push(if harmless { Bar::Hold } else { Bar::Lock { emergency: false } });
        }
        if matches!(self.symptom, Some(Symptom::Chest | Symptom::Breath)) {
            bars.push(Bar::Lock { emergency: true });
        }
        bars.extend((self.unwell || self.grabbed_alone).then_some(Bar::Hold));
        bars
    }
}
