//! Which prescription on a memory stick should be used, and which stick is written to? A prescription is used only after a
//! yes.

use std::io::{self, IsTerminal, Write};

use super::Failure;
use super::page::{Output, show};
use super::standing;
use crate::clock::Clock;
use crate::handover::{self, Place, StickFile};
use crate::journal::{Folder, Journal};
use counterpoise_core::blocks::Block;
use counterpoise_core::draw::schedule::Scheduler;
use counterpoise_core::plan::prescription::{Digest, Prescription};

/// A usable prescription on a stick.
struct Offer {
    place: String,
    found: StickFile,
    prescription: Prescription,
}

/// When the app starts: offers prescriptions on a stick that were never in use and never declined. It does not ask if
/// nobody can answer.
pub(super) fn offer(folder: &Folder) -> Result<(), Failure> {
    let named = std::env::var_os(handover::VARIABLE).is_some_and(|value| !value.is_empty());
    if !(named || io::stdin().is_terminal() && io::stdout().is_terminal()) {
        return Ok(());
    }
    let out = &mut io::stdout().lock();
    let (offers, refused) = look(&handover::places());
    let mut stopped = !refused.is_empty();
    print_refused(&refused, out)?;
    if !offers.is_empty() {
        let (mut journal, _) = Journal::open(folder.lock()?)?;
        let known: Vec<Digest> = journal.changes()?.into_iter().map(|row| row.digest).collect();
        let fresh: Vec<Offer> =
            offers.into_iter().filter(|offer| !known.contains(&offer.prescription.digest())).collect();
        let offered = fresh.len();
        let fresh = usable(fresh, folder, &journal, out)?;
        stopped |= fresh.len() < offered;
        if !fresh.is_empty() {
            stopped = false;
            choose(&fresh, &mut journal, out)?;
        }
    }
    if stopped && !named {
        show(&[Block::line("Press Enter to go on without it.")], out)?;
        read()?;
    }
    Ok(())
}

/// `use --from-stick`: offers every usable prescription, even one that was declined before.
pub(super) fn take(folder: &Folder, out: &mut impl Write) -> Result<Output, Failure> {
    let places = sticks()?;
    let (offers, refused) = look(&places);
    print_refused(&refused, out)?;
    if offers.is_empty() {
        let names: Vec<&str> = places.iter().map(|place| place.name.as_str()).collect();
        return Err(Failure::new(
            format!("there is no prescription to use on the memory stick {}", names.join(" or ")),
            format!(
                "Put it at the top of the stick or in the folder \"{}\", with a name that ends in .toml",
                handover::FOLDER
            ),
        ));
    }
    let mut journal = standing::open(folder, out)?;
    let offers = usable(offers, folder, &journal, out)?;
    if !offers.is_empty() && choose(&offers, &mut journal, out)? {
        Ok(Output::NOTHING)
    } else {
        Err(Failure::new(
            "nothing was taken from the memory stick",
            "The prescription in use has not changed.",
        ))
    }
}

/// The only memory stick that is plugged in.
pub(super) fn one_stick() -> Result<Place, Failure> {
    let mut places = sticks()?;
    if places.len() > 1 {
        let names: Vec<String> = places.iter().map(|place| place.path.display().to_string()).collect();
        return Err(Failure::new(
            format!("there are several memory sticks: {}", names.join(", ")),
            format!("Take the others out, or name one: {}={}", handover::VARIABLE, names[0]),
        ));
    }
    Ok(places.remove(0))
}

/// Writes a file to the only stick, and says where.
pub(super) fn put(stem: &str, ending: &str, bytes: &[u8]) -> Result<Vec<Block>, Failure> {
    let place = one_stick()?;
    let path = place.put(stem, ending, bytes).map_err(|error| {
        Failure::new(
            format!("the memory stick {} cannot be written: {error}", place.name),
            "No partial file was kept. Free some space on it, or check whether it is write-protected.",
        )
    })?;
    let written = format!("Written: {}", path.display());
    Ok(vec![Block::line(written), Block::line("Eject the stick before you take it out.")])
}

fn sticks() -> Result<Vec<Place>, Failure> {
    let places = handover::places();
    if places.is_empty() {
        return Err(Failure::new(
            "no memory stick was found",
            format!(
                "Put it in, wait until the computer shows it, and try again; or name its folder: {}=/path/to/it",
                handover::VARIABLE
            ),
        ));
    }
    Ok(places)
}

fn look(places: &[Place]) -> (Vec<Offer>, Vec<(String, StickFile)>) {
    let (mut offers, mut refused) = (Vec::new(), Vec::new());
    for place in places {
        for found in place.prescriptions() {
            match &found.read {
                Ok(prescription) => {
                    let prescription = prescription.clone();
                    offers.push(Offer { place: place.name.clone(), found, prescription });
                }
                Err(_) => refused.push((place.name.clone(), found)),
            }
        }
    }
    (offers, refused)
}

fn print_refused(refused: &[(String, StickFile)], out: &mut impl Write) -> Result<(), Failure> {
    for (place, found) in refused {
        let Err(why) = &found.read else { continue };
        let file = found.path.file_name().unwrap_or_default().to_string_lossy();
        let fact = format!("On the memory stick {place}, {file} cannot be used: {why}.");
        show(&[Block::line(fact), Block::line(format!("Hint: {}", why.hint()))], out)?;
    }
    Ok(())
}

/// Those that may replace the program in use. Why another one may not is printed.
fn usable(
    offers: Vec<Offer>,
    folder: &Folder,
    journal: &Journal,
    out: &mut impl Write,
) -> Result<Vec<Offer>, Failure> {
    let (known, now) = (standing::known(journal)?, Clock::real().wall());
    let mut usable = Vec::new();
    for offer in offers {
        let asked = (offer.found.bytes.as_slice(), &offer.prescription);
        match standing::may_replace(folder, &known, asked, &now) {
            Ok(()) => usable.push(offer),
            Err(why) => {
                let fact = format!("On the memory stick {}: {}.", offer.place, why.fact());
                show(&[Block::line(fact), Block::line(format!("Hint: {}", why.hint()))], out)?;
            }
        }
    }
    Ok(usable)
}

/// Asks which prescription to use, and asks for a yes. A no is saved, so that the next start does not ask again.
fn choose(offers: &[Offer], journal: &mut Journal, out: &mut impl Write) -> Result<bool, Failure> {
    let named = |offer: &Offer| {
        let prescription = &offer.prescription;
        let by = if prescription.issued_by().is_empty() {
            "an unnamed author".to_owned()
        } else {
            prescription.issued_by().to_owned()
        };
        format!(
            "\"{}\", from {by}, issued {} (digest {})",
            prescription.title(),
            prescription.issued_on(),
            prescription.digest().short()
        )
    };
    let offer = if let [only] = offers {
        only
    } else {
        let ask = "Prescriptions on the memory stick. Which one is for the person who practices here?";
        let choice = |(number, offer): (u32, &Offer)| Block::Choice(number.to_string(), named(offer));
        let mut question = vec![Block::line(ask)];
        question.extend((1..).zip(offers).map(choice));
        question.push(Block::line("Type a number, or press Enter for none of them."));
        show(&question, out)?;
        let number: Option<usize> = read()?.and_then(|line| line.trim().parse().ok());
        let Some(offer) = number.and_then(|number| offers.get(number.checked_sub(1)?)) else {
            return Ok(false);
        };
        offer
    };
    let ask = format!("On the memory stick {}: {}. Use it from now on?", offer.place, named(offer));
    show(&[Block::line(ask), Block::line("Y yes   N no   Enter not now")], out)?;
    let answer = read()?.unwrap_or_default().trim().to_lowercase();
    let source = offer.found.path.display().to_string();
    let now = Clock::real().wall();
    match answer.as_str() {
        "y" | "yes" => {
            Scheduler::new(&offer.prescription)?;
            journal.adopt(&offer.found.bytes, &source, &now)?;
            show(&[Block::line(format!("In use now: {} ({source}).", offer.prescription.title()))], out)?;
            Ok(true)
        }
        "n" | "no" => {
            journal.decline(&offer.found.bytes, &source, &now)?;
            Ok(false)
        }
        _ => Ok(false),
    }
}

/// Reads a line; `None` at the end of input.
fn read() -> Result<Option<String>, Failure> {
    let mut line = String::new();
    let read = io::stdin().read_line(&mut line).map_err(|error| {
        Failure::new(
            format!("the answer cannot be read: {error}"),
            "Nothing was taken from the memory stick.",
        )
    })?;
    Ok((read > 0).then_some(line))
}
