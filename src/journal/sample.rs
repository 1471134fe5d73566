//! Sessions made up for tests: lines in an order in which a session makes them.

use proptest::prelude::*;

use super::{Folder, Journal};
use counterpoise_core::draw::schedule::Seed;
use counterpoise_core::health::readiness::Item;
use counterpoise_core::health::yes_no::YesNoNotSure;
use counterpoise_core::plan::direction::Direction;
use counterpoise_core::plan::drill::{Action, Ball, Facing, Form, SecondTask};
use counterpoise_core::plan::prescription::Digest;
use counterpoise_core::record::sample::set_row;
use counterpoise_core::record::{
    Advice, AdviceRow, Answer, Channel, Contents, CueRow, Decided, Decision, Delivery, Disturbance, Drawn,
    Entry, FORMAT, Given, Id, LeftOut, LeftOutRow, Line, Mishap, MishapRow, Question, Response, ResponseRow,
    RoutineEnd, RoutinePart, RoutineRow, SessionBegun, SessionEnd, SessionRecord, SetEnd, SetEndRow, SetRow,
    Stamp, instant,
};
use counterpoise_core::units::Millis;
use counterpoise_core::words::Printable;

pub(crate) use counterpoise_core::record::sample::moment;

pub(crate) fn id(byte: u8) -> Id {
    Id::from_bytes([byte; 16])
}

pub(crate) fn open(folder: &Folder) -> Journal {
    Journal::open(folder.lock().unwrap()).unwrap().0
}

pub(crate) fn begun(at: Stamp) -> Entry {
    Entry::SessionBegun(SessionBegun {
        begun: at,
        title: "=Month, \"one\"".into(),
        digest: Digest::of(b"a prescription"),
        sets_planned: 2,
        precautions: Vec::new(),
        drawn: Some(Drawn {
            seed: Seed::from_bytes([7; 32]),
            seed_given: false,
            method: 1,
            voice: "lower".into(),
            device: Some("ALSA: default".into()),
        }),
    })
}

pub(crate) fn cue(place: u16, at_ms: u32, gap_ms: u32, blank: bool) -> CueRow {
    CueRow {
        cue: place,
        at_ms,
        gap_ms,
        blank,
        action: (!blank).then_some(Action::Reach),
        direction: (!blank).then_some(Direction::ForwardLeft),
        phrase: (!blank).then(|| "reach.forward-left".into()),
        until_ms: None,
        strength: None,
        ball: None,
        tell: None,
        practice: false,
    }
}

pub(crate) fn set(number: u8, at: Stamp) -> Entry {
    let set = SetRow { number, begun: at, ..set_row() };
    let cues = vec![cue(0, 6_123, 6_123, false), cue(1, 13_000, 6_877, true), cue(2, 21_500, 8_500, false)];
    Entry::SetBegun { set, cues }
}

pub(crate) fn heard(set: u8, cue: u16, wanted: u64, began: u64) -> Entry {
    Entry::delivered(set, cue, Delivery::Heard { wanted, began, rate: 48_000 })
}

pub(crate) fn asked(set: u8, cue: u16, at: u32) -> Entry {
    Entry::delivered(set, cue, Delivery::Asked { at: Millis(at) })
}

pub(crate) fn responded(set: u8, cue: u16, response: Option<Response>) -> Entry {
    Entry::Responded { set, response: ResponseRow { cue, response } }
}

pub(crate) fn push(place: u16, at_ms: u32, gap_ms: u32, strength: u8) -> CueRow {
    CueRow {
        action: Some(Action::Push),
        direction: Some(Direction::Left),
        phrase: Some("tell.push+where.left+hand.right-hip".into()),
        strength: Some(strength),
        tell: Some("tell.push+toward.window+hand.right-hip+strength.1".into()),
        practice: place < 2,
        ..cue(place, at_ms, gap_ms, false)
    }
}

/// A session with a partner: one set of three pushes that ended with a grab, one refused.
pub(crate) fn with_partner() -> Vec<Entry> {
    let Entry::SetBegun { mut set, .. } = set(1, moment(400_000)) else { unreachable!("as it is made") };
    (set.form, set.channel, set.drill) = (Form::Partner, Some(Channel::PartnerScreen), "pushes".into());
    set.facing = Some(Facing::CounterLeft);
    let cues = vec![push(0, 14_000, 14_000, 1), push(1, 30_000, 16_000, 1), push(2, 44_000, 14_000, 2)];
    vec![
        begun(moment(0)),
        Entry::Course { patches: ["mat", "rug", "=floor"].map(str::to_owned).to_vec() },
        Entry::Routine(RoutineRow { part: RoutinePart::WarmUp, at: moment(380_000), how: RoutineEnd::Done }),
        Entry::SetBegun { set, cues },
        asked(1, 0, 14_010),
        asked(1, 1, 30_002),
        asked(1, 2, 44_015),
        Entry::Mishap(MishapRow { set: 1, at_ms: 45_500, what: Mishap::Grab, cue: Some(2) }),
        responded(1, 2, Some(Response::Grabbed)),
        set_ended(1, moment(445_500), 45_500, SetEnd::Grabbed),
        Entry::Advised(AdviceRow { set: 1, advice: Advice::OneStepLower }),
        responded(1, 0, Some(Response::OneStep)),
        responded(1, 1, None),
        Entry::SetLeftOut(LeftOutRow { set: 2, at: moment(600_000), why: LeftOut::Refused }),
        Entry::Routine(RoutineRow {
            part: RoutinePart::CoolDown,
            at: moment(610_000),
            how: RoutineEnd::Skipped,
        }),
        Entry::SessionEnded { at: moment(620_000), why: SessionEnd::Finished },
    ]
}

pub(crate) fn disturbed(set: u8, at_ms: u32) -> Entry {
    Entry::disturbed(set, Millis(at_ms), Disturbance::Stuttered)
}

pub(crate) fn set_ended(set: u8, at: Stamp, worked_ms: u32, why: SetEnd) -> Entry {
    Entry::SetEnded { set, end: SetEndRow { at, worked_ms, why } }
}

/// The answer with this number.
pub(crate) fn said(question: Question, answer: Option<u8>) -> Answer {
    Answer::from_number(question, answer).unwrap()
}

pub(crate) fn answer(set: Option<u8>, question: Question, answer: Option<u8>) -> Entry {
    Entry::answered(set, said(question, answer))
}

pub(crate) fn decided(decision: Decision, seen_before_ms: Option<i64>) -> Entry {
    let given = Given { drill: "counter-reach".into(), form: Form::Alone, step: 3, ladder: None };
    Entry::Decided(Decided {
        decision,
        reasons: vec!["Two clean sessions in a row.".into(), "=Everything else stays.".into()],
        gentler: true,
        first_set: 1,
        sets_whole: 2,
        seen_before: seen_before_ms.map(instant),
        given: vec![given],
    })
}

pub(crate) fn readied(answers: &[(Item, YesNoNotSure)]) -> Entry {
    Entry::readied(answers)
}

/// A session of two sets: one whole and heard, one with a pause, partly heard, stopped.
pub(crate) fn session() -> Vec<Entry> {
    vec![
        begun(moment(0)),
        answer(None, Question::Ready, Some(1)),
        set(1, moment(60_000)),
        heard(1, 0, 293_904, 293_904),
        heard(1, 2, 1_032_000, 1_032_048),
        set_ended(1, moment(107_000), 47_000, SetEnd::Completed),
        answer(Some(1), Question::HeldOn, Some(2)),
        answer(Some(1), Question::Effort, Some(5)),
        answer(Some(1), Question::Steadiness, None),
        set(2, moment(200_000)),
        heard(2, 0, 293_904, 293_904),
        Entry::Replanned {
            set: 2,
            pause: 1,
            paused_at_ms: 9_000,
            cues: vec![
                cue(0, 6_123, 6_123, false),
                cue(1, 14_001, 5_001, false),
                cue(2, 20_002, 6_001, false),
            ],
        },
        heard(2, 1, 672_048, 672_048),
        disturbed(2, 14_250),
        set_ended(2, moment(230_000), 15_000, SetEnd::Stopped),
        answer(Some(2), Question::HeldOn, Some(0)),
        answer(Some(2), Question::Effort, Some(7)),
        Entry::SessionEnded { at: moment(240_000), why: SessionEnd::StoppedOther },
    ]
}

/// These entries of one session as a computer writes them. The same entries have the same ids.
pub(crate) fn told(id: Id, entries: &[Entry]) -> Vec<Line> {
    let lines = (0..).zip(entries).map(|(counter, entry)| {
        let is_begun = matches!(entry, Entry::SessionBegun(_));
        let own = Id::of(&format!("{id} {counter} {entry:?}"));
        let (id, session) = (if is_begun { id } else { own }, Some(id));
        let at_ms = entries.iter().find_map(|entry| match entry {
            Entry::SessionBegun(start) => Some(start.begun.ms()),
            _ => None,
        });
        Line {
            id,
            writer: session.unwrap(),
            counter,
            at_ms: at_ms.unwrap_or(0),
            format: FORMAT,
            session,
            entry: entry.clone().into(),
        }
    });
    lines.collect()
}

/// Keeps the beginning of a session's entries, one commit each.
pub(crate) fn keep(journal: &mut Journal, id: &Id, entries: &[Entry]) {
    for line in told(*id, entries) {
        super::lines::insert(&journal.db, &line).unwrap();
    }
    journal.summarize();
}

/// The journal as it is exported.
pub(crate) fn exported(journal: &Journal) -> Vec<u8> {
    let mut out = Vec::new();
    super::export::json(journal, &mut out).unwrap();
    out
}

/// A journal that is nowhere on the disk, with the lock of nobody.
pub(crate) fn in_memory() -> Journal {
    let path = std::path::PathBuf::from("memory");
    let (db, guard) = (super::in_memory(&path).unwrap(), super::Guard::Nothing);
    Journal { db, path, lock: None, in_practice: true, guard }
}

/// What these entries come to, with the ends that are missing.
pub(crate) fn expected(id: &Id, entries: &[Entry]) -> SessionRecord {
    let all = |entries: &[Entry]| Contents::of(told(*id, entries)).sessions.remove(0);
    let mut entries = entries.to_vec();
    if all(&entries).end.is_none() {
        entries.extend(all(&entries).interruption());
    }
    all(&entries)
}

/// Any session: texts, times, numbers and ends of every kind; cut off anywhere.
pub(crate) fn any_session() -> impl Strategy<Value = (Id, Vec<Entry>)> {
    let sets = prop::collection::vec(any_set(), 0..4);
    let answers = prop::collection::vec(
        (prop::option::of(1_u8..4), prop::sample::select(Question::ALL), prop::option::of(0_u8..11)),
        0..8,
    );
    let why = prop::sample::select(SessionEnd::ALL);
    let facts = (any_text(), prop::option::of(any_text()), any::<bool>(), any::<u32>(), 3_u8..11);
    (
        any::<[u8; 16]>(),
        0_i64..40_000_000_000,
        facts,
        sets,
        answers,
        any_around(),
        why,
        any::<prop::sample::Index>(),
    )
        .prop_map(
            |(
                id,
                start,
                (title, device, seed_given, method, sets_planned),
                sets,
                answers,
                around,
                why,
                cut,
            )| {
                let mut lines = vec![Entry::SessionBegun(SessionBegun {
                    begun: moment(start),
                    title,
                    digest: Digest::of(&id),
                    sets_planned,
                    precautions: Vec::new(),
                    drawn: Some(Drawn {
                        seed: Seed::from_bytes([id[0]; 32]),
                        seed_given,
                        method,
                        voice: "tones".into(),
                        device,
                    }),
                })];
                for (number, set) in (1..).zip(sets) {
                    lines.extend(set_lines(number, start + i64::from(number) * 200_000, set));
                }
                for (set, question, number) in answers {
                    let (least, most) = question.limits();
                    let number = number.map(|number| least + number % (most - least + 1));
                    lines.push(answer(set, question, number));
                }
                lines.extend(around);
                lines.push(Entry::SessionEnded { at: moment(start + 1_000_000), why });
                lines.truncate(1 + cut.index(lines.len()));
                (Id::from_bytes(id), lines)
            },
        )
}

/// Any text that an import lets in.
fn any_text() -> impl Strategy<Value = String> {
    ".{0,12}".prop_map(|text| Printable::of(&text).to_string())
}

/// What is kept around the sets, each at most once.
fn any_around() -> impl Strategy<Value = Vec<Entry>> {
    let mishap = (1_u8..11, 0_u32..120_000, prop::sample::select(Mishap::ALL));
    let routine = (prop::sample::select(RoutinePart::ALL), prop::sample::select(RoutineEnd::ALL));
    let left_out = (4_u8..11, prop::sample::select(LeftOut::ALL));
    let course = prop::collection::vec(any_text(), 3..9);
    let ready = prop::collection::vec(
        (prop::sample::select(Item::ALL), prop::sample::select(YesNoNotSure::ALL)),
        0..9,
    );
    let decision = prop::option::of((prop::sample::select(Decision::ALL), prop::option::of(0_i64..9_000)));
    (
        (ready, decision),
        prop::option::of(mishap),
        prop::option::of(routine),
        prop::option::of(left_out),
        prop::option::of(course),
        any::<bool>(),
    )
        .prop_map(|((ready, decision), mishap, routine, left_out, course, advised)| {
            let ready = (!ready.is_empty()).then(|| readied(&ready));
            let decision = decision.map(|(decision, seen)| decided(decision, seen));
            let mishap =
                mishap.map(|(set, at_ms, what)| Entry::Mishap(MishapRow { set, at_ms, what, cue: None }));
            let routine =
                routine.map(|(part, how)| Entry::Routine(RoutineRow { part, at: moment(1_000), how }));
            let left_out =
                left_out.map(|(set, why)| Entry::SetLeftOut(LeftOutRow { set, at: moment(2_000), why }));
            let course = course.map(|patches| Entry::Course { patches });
            let advice = AdviceRow { set: 1, advice: Advice::OneStepLower };
            let advised = advised.then_some(Entry::Advised(advice));
            [decision, ready, mishap, routine, left_out, course, advised].into_iter().flatten().collect()
        })
}

type AnySet = (bool, Vec<(u32, bool, Option<(u64, u64)>)>, Option<u16>, SetEnd);

fn any_set() -> impl Strategy<Value = AnySet> {
    let frames = prop::option::of((0_u64..6_000_000, 0_u64..6_000_000));
    let cues = prop::collection::vec((4_000_u32..47_000, any::<bool>(), frames), 2..6);
    (any::<bool>(), cues, prop::option::of(1_u16..900), prop::sample::select(SetEnd::ALL))
}

fn set_lines(number: u8, at: i64, (partner, cues, pause, why): AnySet) -> Vec<Entry> {
    let mut lines = vec![set(number, moment(at))];
    let Some(Entry::SetBegun { set, cues: planned }) = lines.first_mut() else { unreachable!() };
    set.form = if partner { Form::Partner } else { Form::Alone };
    *planned = (0..).zip(&cues).map(|(place, (gap, blank, _))| cue(place, *gap, *gap, *blank)).collect();
    set.channel = partner.then_some(Channel::PartnerEarbud);
    set.facing = (!partner).then_some(Facing::WallAhead);
    set.second_task = partner.then_some(SecondTask::Count);
    for (nth, cue) in planned.iter_mut().enumerate().filter(|(nth, cue)| (nth % 2 == 1) && !cue.blank) {
        let next = push(cue.cue, cue.at_ms, cue.gap_ms, 1 + (nth % 4) as u8);
        *cue = CueRow { until_ms: Some(cue.at_ms + 900), ball: Some(Ball::Small), ..next };
    }
    let again = planned.clone();
    for (place, (_, _, frames)) in (0..).zip(&cues) {
        lines.extend(frames.map(|(wanted, began)| heard(number, place, wanted, began)));
        if frames.is_none() && partner {
            let response = Response::numbered(place as u8 % 7);
            lines.extend([asked(number, place, 5_000), responded(number, place, response)]);
        }
    }
    let disturbances = cues.iter().filter(|(gap, ..)| gap % 3 == 0);
    lines.extend(disturbances.map(|(gap, ..)| disturbed(number, *gap)));
    lines.extend(pause.map(|pause| Entry::Replanned {
        set: number,
        pause,
        paused_at_ms: 9_000,
        cues: again,
    }));
    lines.push(set_ended(number, moment(at + 90_000), 47_000, why));
    lines
}
