//! Every screen of the app as a practice comes to it, one after the other: any key shows the next, Ctrl-C ends.
//!
//! ```text
//! cargo run --example screens              from the first
//! cargo run --example screens -- 7         from the seventh
//! cargo run --example screens -- --plain   as plain lines
//! cargo run --example screens -- --print   all of them at once as plain lines, with their numbers
//! ```
//!
//! For whoever changes how a screen looks: run it at 80 by 24, in a full-screen window, and stand 3 m away.
// A test takes this file as a module of its own.
#![allow(unreachable_pub)]

use std::time::Duration;

use counterpoise::display::plain::{Lines, Plain};
use counterpoise::display::terminal::{Terminal, watch_signals};
use counterpoise::display::{Face, Input};
use counterpoise_core::draw::schedule::{Method, Scheduler, Seed, SetPlan};
use counterpoise_core::plan::prescription::Prescription;
use counterpoise_core::practice::missed::Missed;
use counterpoise_core::practice::session::screen::{Body, Item, Moment, Screen};
use counterpoise_core::practice::session::{Channel, Effect, Event, Key, Now, Session};
use counterpoise_core::record::{Drawn, Entry, Question, SessionBegun};
use counterpoise_core::units::Millis;

fn main() -> std::io::Result<()> {
    watch_signals()?;
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let screens = screens();
    if arguments.iter().any(|argument| argument == "--print") {
        let mut lines = Lines::default();
        for (number, screen) in (1..).zip(&screens) {
            println!("== {number}");
            lines.after(screen).iter().for_each(|line| println!("{line}"));
        }
        return Ok(());
    }
    let mut face = if arguments.iter().any(|argument| argument == "--plain") {
        Face::Plain(Plain::start())
    } else {
        Face::Screen(Terminal::enter()?)
    };
    let first = arguments.iter().find_map(|argument| argument.parse::<usize>().ok()).unwrap_or(1);
    for screen in screens.iter().skip(first - 1) {
        loop {
            face.show(screen)?;
            match face.poll(Duration::from_millis(100)) {
                Input::Key(_) => break,
                Input::Close => return Ok(()),
                Input::Nothing => {}
            }
        }
    }
    Ok(())
}

/// Pushes and steps with a partner.
const PARTNER: &[u8] = include_bytes!("../tests/data/partner.toml");
/// Two balls, a floor course and a slow target.
const COURSE: &[u8] = include_bytes!("../tests/data/course.toml");
/// The person's own patches.
const PATCHES: [&str; 4] = ["blue mat", "floor", "thick mat", "carpet"];

/// The screens of a practice alone, walked from its first page to its last, with what can go wrong on the way, and then the
/// other ways in which it can end.
pub fn screens() -> Vec<Screen> {
    let mut walk = Walk::new();
    for page in ["\n", "\n", "\n", "n", "n", "n", "n", "n", "n", "n", "n", "n", "y", "g"] {
        walk.keys(page).see();
    }
    walk.wait(30_000).see();
    for page in [" ", "y", " "] {
        walk.keys(page).see();
    }
    walk.wait(4_000).see();
    walk.wait(3_000).see();
    for _ in 0..4 {
        walk.wait_for_a_call().see();
    }
    walk.keys(" ").see();
    walk.wait(1_500).keys(" ").wait(70_000).see();
    walk.wait(90_000).see();
    for key in [" ", "n", "0", "2", "1"] {
        walk.keys(key).see();
    }
    walk.keys("n").wait(18_000).see();
    walk.wait(50_000).see();
    walk.wait(90_000).see();
    walk.keys("  ").see();
    walk.on(Event::SoundLost);
    walk.see();
    walk.on(Event::SoundBack);
    walk.keys(" ").wait(12_000).on(Event::NotSaved);
    walk.see();
    walk.keys("s").see();
    walk.keys("n").see();
    walk.keys("1").see();
    [about_the_last_practice(), walk.seen, with_a_partner(), over_a_course(), with_an_earbud(), other_ends()]
        .concat()
}

/// What the next start asks of a practice whose answers are not whole.
fn about_the_last_practice() -> Vec<Screen> {
    let day = "2026-11-25".parse().expect("it is a date");
    let mut missed = Missed::new(day, day, &[Question::FellThen, Question::UnwellThen]);
    let mut seen = Vec::new();
    for key in "uuuu6".chars() {
        seen.push(missed.screen());
        missed.key(Key::Char(key));
    }
    seen
}

/// A practice with a partner who reads the screen: the pages for both, every drill in turn, and what can go wrong.
pub fn with_a_partner() -> Vec<Screen> {
    let mut walk = Walk::over(PARTNER, Channel::PartnerScreen);
    // Health, today, what is in place, the pages for the partner, and what is on each side.
    for page in "\n\n\nnnnnnnnnny\n\n\ny420g".chars() {
        walk.keys(&page.to_string()).see();
    }
    // The warm-up set is alone.
    walk.keys(" y ").wait(70_000).keys("n021n").wait(60_000).keys(" ").see();
    // Pushes: paused, a grab that was none, then a grab.
    walk.keys(" ").see();
    walk.see_what_comes(40_000);
    for key in ["p", "g", "n"] {
        walk.keys(key).see();
    }
    walk.wait(2_000).keys(" ").see_what_comes(60_000);
    walk.keys("g").see();
    walk.keys("y").see();
    walk.keys("n").see();
    walk.note_responses();
    for key in ["0", "2", "1", "n"] {
        walk.keys(key).see();
    }
    // Steps that the trainee hears.
    walk.see_set();
    walk.keys(" ").see();
    walk.seen
}

/// Two balls, then the course, then the target on the screen; with a partner who reads it.
fn over_a_course() -> Vec<Screen> {
    let mut walk = Walk::over(COURSE, Channel::PartnerScreen);
    for page in "\n\n\nnnnnnnnnnyy\n\n\ny420g".chars() {
        walk.keys(&page.to_string()).see();
    }
    walk.keys(" y ").wait(70_000).keys("n021n");
    (0..3).for_each(|_| walk.see_set());
    walk.seen
}

/// A set of pushes from its start to its end: what is planned, and every HOLD with the work done at it, in milliseconds.
///
/// # Panics
/// If the walk does not come to that set.
pub fn holds_of_a_set_of_pushes(seed: u8) -> (SetPlan, Vec<(u32, Screen)>) {
    let mut walk = Walk::seeded(PARTNER, Channel::PartnerScreen, seed);
    walk.keys("\n\n\nnnnnnnnnny\n\n\ny420g y ").wait(70_000).keys("n021n").wait(60_000).keys("  ");
    let (mut plan, mut holds) = (None, Vec::new());
    loop {
        walk.wait(100);
        match walk.screen() {
            Screen { body: Body::Count { .. }, .. } => {}
            screen @ Screen { body: Body::Partner { .. }, .. } => {
                plan =
                    plan.or_else(|| walk.sets.iter().find(|set| Some(set.number()) == walk.begun).cloned());
                if let Body::Partner { item: None, left, whole } = screen.body {
                    holds.push((whole.0 - left.0, screen));
                }
            }
            _ => break,
        }
    }
    (plan.expect("the set has begun"), holds)
}

/// With an earbud the trainee may see the screen, and nothing of a push stands there.
fn with_an_earbud() -> Vec<Screen> {
    let mut walk = Walk::over(PARTNER, Channel::PartnerEarbud);
    walk.keys("\n\n\nnnnnnnnnny\n\n\ny420g y ").wait(70_000).keys("n021n").wait(60_000).keys("  ");
    walk.see_what_comes(90_000);
    // What comes after the first page.
    walk.seen.split_off(1)
}

/// The last page of every other end.
fn other_ends() -> Vec<Screen> {
    let set = "\n\n\nnnnnnnnnnyg y ";
    let after_work = |keys: &str| {
        let mut walk = Walk::new();
        walk.keys(set).wait(70_000).keys(keys);
        walk.screen()
    };
    let mut finished = Walk::new();
    finished.keys(&set[..set.len() - 1]);
    for _ in 0..3 {
        finished.keys(" ").wait(70_000).keys("n021n").wait(70_000).keys(" ");
    }
    finished.keys("y");
    let mut not_today = Walk::new();
    not_today.keys("\n\n\ny");
    // A careful answer: once more where it would lock, what follows, one by one after a page, and what it comes to.
    let mut chest = Walk::new();
    chest.keys("\n\n\nnn").see();
    chest.keys("y").see();
    chest.keys("y").see();
    chest.keys("h").see();
    let mut tired = Walk::new();
    tired.keys("\n\n\nnnnnnnnnynnnnynny").see();
    let mut ill = Walk::new();
    ill.keys("\n\n\nnnnnnyyuynyyyyyynnyyyyyn").see();
    let mut unanswered = Walk::new();
    unanswered.keys(set).wait(300_000);
    let mut cut_off = Walk::new();
    cut_off.keys(set).wait(20_000).on(Event::SoundLost);
    let mut asleep = Walk::new();
    asleep.keys(set).wait(20_000).on(Event::Tick { gap: Millis(60_000) });
    let mut silent = Walk::new();
    silent.on(Event::Sound { device: None });
    silent.keys("\n\nnn");
    let ends = [&finished, &not_today, &unanswered, &cut_off, &asleep, &silent].map(Walk::screen);
    let seen = [chest.seen, tired.seen, ill.seen].concat();
    [&ends[..], &seen, &["yn", "yy", "yyn", "yynn", "ynn", "sn2", "sn3", "sn11", "sn16"].map(after_work)]
        .concat()
}

/// A session that is walked through, and the screens that were seen.
struct Walk {
    session: Option<Session>,
    at: Millis,
    seen: Vec<Screen>,
    /// The number of the set that was begun last.
    begun: Option<u8>,
    /// The sets as they were drawn.
    sets: Vec<SetPlan>,
}

impl Walk {
    /// The first page is seen, and a sound output is there.
    fn new() -> Self {
        Self::of(Prescription::ready("gentle").expect("it is a ready one"), 7, |session| session)
    }

    /// The same of another prescription, with a partner.
    fn over(file: &[u8], channel: Channel) -> Self {
        Self::seeded(file, channel, 7)
    }

    fn seeded(file: &[u8], channel: Channel, seed: u8) -> Self {
        let prescription = Prescription::read("partner.toml", file).expect("it is within the limits");
        let patches: Vec<String> = PATCHES.map(str::to_owned).to_vec();
        Self::of(&prescription, seed, |session| {
            session.with_partner(channel, None).over_patches(&patches, &[])
        })
    }

    fn of(prescription: &Prescription, seed: u8, with: impl FnOnce(Session) -> Session) -> Self {
        let scheduler = Scheduler::new(prescription).expect("it has a schedule");
        let seed = Seed::from_bytes([seed; 32]);
        let schedule = scheduler.draw(seed);
        let begun = SessionBegun {
            begun: (&jiff::ZonedDateTime::now()).into(),
            title: prescription.title().to_owned(),
            digest: prescription.digest(),
            sets_planned: schedule.sets().len() as u8,
            precautions: Vec::new(),
            drawn: Some(Drawn {
                seed,
                seed_given: true,
                method: Method::NEWEST.number(),
                voice: "lower".to_owned(),
                device: None,
            }),
        };
        let sets = schedule.sets().to_vec();
        let session = Session::new(scheduler, schedule, begun, Some("112".to_owned())).map(with);
        let mut walk = Self { session, at: Millis(0), seen: Vec::new(), begun: None, sets };
        walk.see();
        walk.on(Event::Sound { device: Some("an example".to_owned()) });
        walk
    }

    fn on(&mut self, event: Event) {
        let now = Now { at: self.at, wall: jiff::ZonedDateTime::now() };
        let (session, effects) = self.session.take().expect("there is always one").on(&now, event);
        self.session = Some(session);
        self.begun = effects.iter().find_map(begun).or(self.begun);
        if effects.iter().any(|effect| matches!(effect, Effect::Begin { .. })) {
            self.on(Event::Placed { work_starts: self.at + Millis(6_000) });
        }
    }

    fn keys(&mut self, keys: &str) -> &mut Self {
        for key in keys.chars() {
            self.on(Event::Key(if key == '\n' { Key::Enter } else { Key::Char(key) }));
        }
        self
    }

    fn wait(&mut self, length: u32) -> &mut Self {
        for _ in 0..length / 100 {
            self.at = self.at + Millis(100);
            self.on(Event::Tick { gap: Millis(100) });
        }
        self
    }

    fn screen(&self) -> Screen {
        self.session.as_ref().expect("there is always one").screen(self.at)
    }

    fn wait_for_a_call(&mut self) -> &mut Self {
        let call = |walk: &Self| match walk.screen().body {
            Body::Work { call, .. } => call.map(|call| call.cue),
            _ => None,
        };
        let before = call(self);
        for _ in 0..400 {
            if call(self).is_some_and(|now| Some(now) != before) {
                break;
            }
            self.wait(100);
        }
        self
    }

    fn see(&mut self) {
        self.seen.push(self.screen());
    }

    /// Every screen that differs by more than a running time, or a call or an item, for so long.
    fn see_what_comes(&mut self, length: u32) {
        let mut before = None;
        for _ in 0..length / 100 {
            self.wait(100);
            let what = kind(&self.screen().body);
            if before.as_ref() != Some(&what) {
                self.see();
            }
            before = Some(what);
        }
    }

    /// The next set from the rest before it, and the questions after it at once.
    fn see_set(&mut self) {
        self.wait(60_000).see();
        self.keys(" ").see();
        if matches!(self.screen().body, Body::Course { .. }) {
            self.keys(" ").see();
        }
        self.keys(" ").see_what_comes(100_000);
        self.keys("n021n").see();
    }

    /// One of each response, as long as the partner is asked.
    fn note_responses(&mut self) {
        for key in ["1", "-", "2", "0", "3", "1"] {
            if !matches!(&self.screen().body, Body::Question { ask, .. } if ask.contains("What happened?")) {
                break;
            }
            self.keys(key).see();
        }
    }
}

/// The number of the set that this begins.
fn begun(effect: &Effect) -> Option<u8> {
    match effect {
        Effect::Record(Entry::SetBegun { set, .. }) => Some(set.number),
        _ => None,
    }
}

/// What stands there, without what runs by itself.
fn kind(body: &Body) -> String {
    match body {
        Body::Work { call, .. } => format!("{call:?}"),
        Body::Partner { item: Some(Item { words, cue, moment, .. }), .. } => {
            // The seconds of the countdown are one another's like, but for what stands beside them.
            let near = matches!(moment, Moment::In(seconds) if *seconds < 5);
            format!("{words} {cue} {near} {:?}", std::mem::discriminant(moment))
        }
        Body::Partner { item: None, .. } => "hold".to_owned(),
        Body::Follow { across_per_mille, .. } => format!("{}", across_per_mille / 200),
        Body::Count { .. } => "count".to_owned(),
        other => format!("{:?}", std::mem::discriminant(other)),
    }
}
