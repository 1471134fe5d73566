//! Sessions made up for tests: lines in an order in which a session makes them.

use proptest::prelude::*;

use super::{Folder, Journal};
use counterpoise_core::draw::schedule::Seed;
use counterpoise_core::health::readiness::Item;
use counterpoise_core::plan::direction::Direction;
use counterpoise_core::plan::drill::{
    Action, Ball, Facing, Form, SecondTask, Side, Stance, Support, Surface, Vision,
};
use counterpoise_core::plan::prescription::Digest;
use counterpoise_core::record::{
    Advice, AdviceRow, AnswerRow, Channel, CueRow, Decision, DecisionRow, Delivery, DeliveryRow, Disturbance,
    DisturbanceRow, GivenRow, LeftOut, LeftOutRow, Line, Mishap, MishapRow, Question, ReadyRow, Response,
    ResponseRow, RoutineEnd, RoutinePart, RoutineRow, SessionEnd, SessionId, SessionRecord, SessionRow,
    SetEnd, SetEndRow, SetRow, Stamp,
};
use counterpoise_core::units::Millis;

pub(crate) fn id(byte: u8) -> SessionId {
    SessionId::from_bytes([byte; 16])
}

pub(crate) fn open(folder: &Folder) -> Journal {
    Journal::open(folder.lock().unwrap()).unwrap().0
}

/// `ms` after half past nine in New York on the second of November, 2026.
pub(crate) fn moment(ms: i64) -> Stamp {
    Stamp::try_from("2026-11-02T09:30:00-05:00[America/New_York]".to_owned()).unwrap().plus(ms)
}

pub(crate) fn begun(at: Stamp) -> Line {
    Line::SessionBegun(SessionRow {
        begun: at,
        title: "=Month, \"one\"".into(),
        digest: Digest::of(b"a prescription").to_string(),
        seed: Seed::from_bytes([7; 32]).to_string(),
        seed_given: false,
        method: 1,
        voice: "lower".into(),
        device: Some("ALSA: default".into()),
        sets_planned: 2,
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

pub(crate) fn set(number: u8, at: Stamp) -> Line {
    let set = SetRow {
        number,
        begun: at,
        drill: "counter-reach".into(),
        form: Form::Alone,
        step: 3,
        stance: Stance::SemiTandem,
        side: Some(Side::Left),
        surface: Surface::Firm,
        support: Support::OneHand,
        vision: Vision::Open,
        channel: Some(Channel::Trainee),
        facing: Some(Facing::CounterAhead),
        second_task: None,
        work_ms: 47_000,
        recover_ms: 5_000,
        rest_ms: 61_000,
        ladder: None,
    };
    let cues = vec![cue(0, 6_123, 6_123, false), cue(1, 13_000, 6_877, true), cue(2, 21_500, 8_500, false)];
    Line::SetBegun { set, cues }
}

pub(crate) fn heard(set: u8, cue: u16, wanted: u64, began: u64) -> Line {
    Line::CueDelivered { set, how: DeliveryRow::new(cue, Delivery::Heard { wanted, began, rate: 48_000 }) }
}

pub(crate) fn asked(set: u8, cue: u16, at: u32) -> Line {
    Line::CueDelivered { set, how: DeliveryRow::new(cue, Delivery::Asked { at: Millis(at) }) }
}

pub(crate) fn responded(set: u8, cue: u16, response: Option<Response>) -> Line {
    Line::Responded { set, response: ResponseRow { cue, response } }
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
pub(crate) fn with_partner() -> Vec<Line> {
    let Line::SetBegun { mut set, .. } = set(1, moment(400_000)) else { unreachable!("as it is made") };
    (set.form, set.channel, set.drill) = (Form::Partner, Some(Channel::PartnerScreen), "pushes".into());
    set.facing = Some(Facing::CounterLeft);
    let cues = vec![push(0, 14_000, 14_000, 1), push(1, 30_000, 16_000, 1), push(2, 44_000, 14_000, 2)];
    vec![
        begun(moment(0)),
        Line::Course { patches: ["mat", "rug", "=floor"].map(str::to_owned).to_vec() },
        Line::Routine(RoutineRow { part: RoutinePart::WarmUp, at: moment(380_000), how: RoutineEnd::Done }),
        Line::SetBegun { set, cues },
        asked(1, 0, 14_010),
        asked(1, 1, 30_002),
        asked(1, 2, 44_015),
        Line::Mishap(MishapRow { place: 7, set: 1, at_ms: 45_500, what: Mishap::Grab, cue: Some(2) }),
        responded(1, 2, Some(Response::Grabbed)),
        set_ended(1, moment(445_500), 45_500, SetEnd::Grabbed),
        Line::Advised(AdviceRow { place: 10, set: 1, advice: Advice::OneStepLower }),
        responded(1, 0, Some(Response::OneStep)),
        responded(1, 1, None),
        Line::SetLeftOut(LeftOutRow { set: 2, at: moment(600_000), why: LeftOut::Refused }),
        Line::Routine(RoutineRow {
            part: RoutinePart::CoolDown,
            at: moment(610_000),
            how: RoutineEnd::Skipped,
        }),
        Line::SessionEnded { at: moment(620_000), why: SessionEnd::Finished },
    ]
}

pub(crate) fn disturbed(place: u32, set: u8, at_ms: u32) -> Line {
    Line::SoundDisturbed { set, what: DisturbanceRow { place, at_ms, how: Disturbance::Stuttered } }
}

pub(crate) fn set_ended(set: u8, at: Stamp, worked_ms: u32, why: SetEnd) -> Line {
    Line::SetEnded { set, end: SetEndRow { at, worked_ms, why } }
}

pub(crate) fn answer(place: u32, set: Option<u8>, question: Question, answer: Option<u8>) -> Line {
    Line::Answered(AnswerRow { place, set, question, answer })
}

pub(crate) fn decided(decision: Decision, seen_before_ms: Option<i64>) -> Line {
    let given = GivenRow { drill: "counter-reach".into(), form: Form::Alone, step: 3, ladder: None };
    Line::Decided(DecisionRow {
        decision,
        reasons: vec!["Two clean sessions in a row.".into(), "=Everything else stays.".into()],
        gentler: true,
        first_set: 1,
        sets_whole: 2,
        seen_before_ms,
        given: vec![given],
    })
}

pub(crate) fn readied(answers: &[(Item, bool)]) -> Line {
    let row = |(item, is_true): &(Item, bool)| ReadyRow { item: *item, is_true: *is_true };
    Line::Readied { rows: answers.iter().map(row).collect() }
}

/// A session of two sets: one whole and heard, one with a pause, partly heard, stopped.
pub(crate) fn session() -> Vec<Line> {
    vec![
        begun(moment(0)),
        answer(1, None, Question::Ready, Some(1)),
        set(1, moment(60_000)),
        heard(1, 0, 293_904, 293_904),
        heard(1, 2, 1_032_000, 1_032_048),
        set_ended(1, moment(107_000), 47_000, SetEnd::Completed),
        answer(6, Some(1), Question::HeldOn, Some(2)),
        answer(7, Some(1), Question::Effort, Some(5)),
        answer(8, Some(1), Question::Steadiness, None),
        set(2, moment(200_000)),
        heard(2, 0, 293_904, 293_904),
        Line::Replanned {
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
        disturbed(13, 2, 14_250),
        set_ended(2, moment(230_000), 15_000, SetEnd::Stopped),
        answer(14, Some(2), Question::HeldOn, Some(0)),
        answer(15, Some(2), Question::Effort, Some(7)),
        Line::SessionEnded { at: moment(240_000), why: SessionEnd::StoppedOther },
    ]
}

pub(crate) fn keep(journal: &mut Journal, id: &SessionId, lines: &[Line]) {
    for line in lines {
        journal.commit(id, line, super::keep::Try::First).unwrap();
    }
}

/// A journal that is nowhere on the disk, with the lock of nobody.
pub(crate) fn in_memory() -> Journal {
    let mut db = rusqlite::Connection::open_in_memory().unwrap();
    super::schema::migrate(&mut db).unwrap();
    Journal { db, path: "memory".into(), lock: None }
}

/// What these lines make of an empty journal.
pub(crate) fn expected(id: &SessionId, lines: &[Line]) -> SessionRecord {
    let mut journal = in_memory();
    keep(&mut journal, id, lines);
    super::interrupted::close(&mut journal.db).unwrap();
    journal.find("last").unwrap()
}

/// Any session: texts, times, numbers and ends of every kind; cut off anywhere.
pub(crate) fn any_session() -> impl Strategy<Value = (SessionId, Vec<Line>)> {
    let sets = prop::collection::vec(any_set(), 0..4);
    let answers = prop::collection::vec(
        (prop::option::of(1_u8..4), prop::sample::select(Question::ALL), prop::option::of(0_u8..11)),
        0..8,
    );
    let why = prop::sample::select(SessionEnd::ALL);
    let facts = (".{0,12}", prop::option::of(".{0,12}"), any::<bool>(), any::<u32>(), 0_u8..11);
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
                let mut lines = vec![Line::SessionBegun(SessionRow {
                    begun: moment(start),
                    title,
                    digest: Digest::of(&id).to_string(),
                    seed: Seed::from_bytes([id[0]; 32]).to_string(),
                    seed_given,
                    method,
                    voice: "tones".into(),
                    device,
                    sets_planned,
                })];
                for (number, set) in (1..).zip(sets) {
                    lines.extend(set_lines(number, start + i64::from(number) * 200_000, set));
                }
                for (place, (set, question, said)) in (0..).zip(answers) {
                    lines.push(answer(place, set, question, said));
                }
                lines.extend(around);
                lines.push(Line::SessionEnded { at: moment(start + 1_000_000), why });
                lines.truncate(1 + cut.index(lines.len()));
                (SessionId::from_bytes(id), lines)
            },
        )
}

/// What is kept around the sets, each at most once.
fn any_around() -> impl Strategy<Value = Vec<Line>> {
    let mishap =
        (any::<u8>(), any::<u32>(), prop::sample::select(Mishap::ALL), prop::option::of(any::<u16>()));
    let routine = (prop::sample::select(RoutinePart::ALL), prop::sample::select(RoutineEnd::ALL));
    let left_out = (11_u8..20, prop::sample::select(LeftOut::ALL));
    let course = prop::collection::vec(".{0,12}", 3..9);
    let ready = prop::collection::vec((prop::sample::select(Item::ALL), any::<bool>()), 0..9);
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
            let mishap = mishap
                .map(|(set, at_ms, what, cue)| Line::Mishap(MishapRow { place: 900, set, at_ms, what, cue }));
            let routine =
                routine.map(|(part, how)| Line::Routine(RoutineRow { part, at: moment(1_000), how }));
            let left_out =
                left_out.map(|(set, why)| Line::SetLeftOut(LeftOutRow { set, at: moment(2_000), why }));
            let course = course.map(|patches| Line::Course { patches });
            let advice = AdviceRow { place: 901, set: 1, advice: Advice::OneStepLower };
            let advised = advised.then_some(Line::Advised(advice));
            [decision, ready, mishap, routine, left_out, course, advised].into_iter().flatten().collect()
        })
}

type AnySet = (bool, Vec<(u32, bool, Option<(u64, u64)>)>, Option<u16>, SetEnd);

fn any_set() -> impl Strategy<Value = AnySet> {
    let frames = prop::option::of((0_u64..6_000_000, 0_u64..6_000_000));
    let cues = prop::collection::vec((4_000_u32..60_000, any::<bool>(), frames), 2..6);
    (any::<bool>(), cues, prop::option::of(1_u16..900), prop::sample::select(SetEnd::ALL))
}

fn set_lines(number: u8, at: i64, (partner, cues, pause, why): AnySet) -> Vec<Line> {
    let mut lines = vec![set(number, moment(at))];
    let Some(Line::SetBegun { set, cues: planned }) = lines.first_mut() else { unreachable!() };
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
    let disturbances = (0..).zip(&cues).filter(|(_, (gap, ..))| gap % 3 == 0);
    lines.extend(
        disturbances.map(|(place, (gap, ..))| disturbed(100 + 10 * u32::from(number) + place, number, *gap)),
    );
    lines.extend(pause.map(|pause| Line::Replanned { set: number, pause, paused_at_ms: 9_000, cues: again }));
    lines.push(set_ended(number, moment(at + 90_000), 47_000, why));
    lines
}
