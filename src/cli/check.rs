//! The `check` command: explains a prescription in plain words, or refuses it with place, value and limit.

use serde::Serialize;

use super::page::Output;
use super::source::{self, Source};
use super::{Failure, Format};
use crate::journal::Folder;
use crate::settings::Settings;
use counterpoise_core::blocks::Block;
use counterpoise_core::draw::predictability::{Foresight, findings};
use counterpoise_core::draw::schedule::Scheduler;
use counterpoise_core::plan::caution::{Contents, Surface};
use counterpoise_core::plan::counts::CueCounts;
use counterpoise_core::plan::explanation::{self, Explanation};
use counterpoise_core::plan::precaution::Precaution;
use counterpoise_core::practice::emergency::LOCAL_NUMBER;
use counterpoise_core::units::Millis;

/// The options of `check`.
#[derive(Debug, Clone, clap::Args)]
#[command(after_help = "Examples:\n  \
    counterpoise check gentle           a ready prescription\n  \
    counterpoise check balance.toml     a file; an error names the line and the limit\n  \
    counterpoise check --handout balance.toml   a sheet for the person who practices")]
pub(super) struct Arguments {
    /// A ready prescription or a file [default: the one in use, else gentle]
    #[arg(value_name = "PRESCRIPTION")]
    prescription: Option<String>,
    /// Print a sheet for the person who practices
    #[arg(long, conflicts_with = "format")]
    handout: bool,
    /// Output format
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
}

const WHOM_TO_CALL: &str = "Whom to call";

#[derive(Serialize)]
struct Check<'a> {
    schema: &'static str,
    prescription: Name<'a>,
    sets: u32,
    session_ms: Millis,
    active_ms: Millis,
    days_a_week: u8,
    weeks: u8,
    weeks_to_six_hours: u32,
    weeks_to_six_hours_active: u32,
    calls: Calls,
    foreseen: String,
    warnings: Vec<String>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    precautions: Vec<Precaution>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    left_out: Vec<String>,
    parts: Vec<Part>,
}

#[derive(Serialize)]
struct Name<'a> {
    title: &'a str,
    digest: String,
}

/// Real cues in a session: the mean, and the range of 95 sessions in 100.
#[derive(Serialize)]
struct Calls {
    mean_thousandths: u32,
    low: u16,
    high: u16,
}

#[derive(Serialize)]
struct Part {
    heading: String,
    lines: Vec<String>,
}

pub(super) fn run(
    arguments: &Arguments,
    folder: impl FnOnce() -> Result<Folder, Failure>,
) -> Result<Output, Failure> {
    let folder = folder();
    let unknown_number = folder.as_ref().ok().and_then(unknown_number);
    let Source { prescription, .. } = source::find(arguments.prescription.as_deref(), || folder)?;
    // A prescription that cannot be drawn must not pass the check.
    let scheduler = Scheduler::new(&prescription)?;
    let counts = CueCounts::of(&prescription);
    let explanation = Explanation::of(&prescription, &counts);
    if arguments.handout {
        return Ok(page(explanation.handout()));
    }
    let foresight = Foresight::of(&prescription, &scheduler, &counts);
    let summary = findings::summary(&foresight);
    let cautions: Vec<String> = findings::cautions(&foresight).iter().map(ToString::to_string).collect();
    let named = arguments.prescription.as_deref().map_or(String::new(), |name| format!(" {name}"));
    let more = format!("More: counterpoise audit{named}");
    let foreseen =
        explanation::Part { heading: "Can anybody predict it?".into(), lines: vec![summary.clone(), more] };
    let parts = explanation.parts_with(Some(foreseen), cautions.clone());
    match arguments.format {
        Format::Text => {
            let number =
                unknown_number.map(|lines| explanation::Part { heading: WHOM_TO_CALL.into(), lines });
            Ok(page(parts.into_iter().chain(number).collect()))
        }
        Format::Json => {
            let dose = explanation.dose();
            let (low, high) = counts.range();
            let check = Check {
                schema: "counterpoise.check/1",
                prescription: Name { title: prescription.title(), digest: prescription.digest().to_string() },
                sets: prescription.drills().iter().map(|plan| u32::from(plan.sets())).sum(),
                session_ms: dose.session,
                active_ms: dose.active,
                days_a_week: dose.days_a_week,
                weeks: dose.weeks,
                weeks_to_six_hours: dose.weeks_by_session(),
                weeks_to_six_hours_active: dose.weeks_by_active(),
                calls: Calls { mean_thousandths: (counts.mean() * 1000.0).round() as u32, low, high },
                foreseen: summary,
                precautions: prescription.precautions().iter().collect(),
                left_out: prescription.narrowings().iter().map(ToString::to_string).collect(),
                warnings: explanation
                    .warnings()
                    .iter()
                    .map(ToString::to_string)
                    .chain(cautions)
                    .chain(unknown_number.map(|lines| lines.concat()))
                    .collect(),
                parts: parts
                    .into_iter()
                    .map(|part| Part { heading: part.heading, lines: part.lines })
                    .collect(),
            };
            Output::json_of(&check, Surface::Check, Contents::Of(&prescription))
        }
    }
}

/// What the person's settings lack: a number to call, where they exist.
fn unknown_number(folder: &Folder) -> Option<Vec<String>> {
    let lacks = match Settings::load(folder) {
        Ok(settings) if !folder.settings_file().exists() || settings.emergency_number.is_some() => {
            return None;
        }
        Ok(_) => "The emergency number is unknown.".to_owned(),
        Err(error) => format!("The emergency number is unknown: {error}."),
    };
    let then =
        format!(" In an emergency the page says: call {LOCAL_NUMBER}. To enter it: counterpoise setup");
    Some(vec![lacks + &then])
}

fn page(parts: Vec<explanation::Part>) -> Output {
    let blocks = parts.into_iter().flat_map(|part| Block::section(part.heading, part.lines));
    blocks.collect::<Vec<_>>().into()
}
