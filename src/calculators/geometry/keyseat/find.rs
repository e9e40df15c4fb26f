//! The key: the one that is named, or that of the standard for the shaft.

use super::{KeyseatInput, KeyseatResult};
use crate::calculators::prelude::*;
use crate::reference::keys::{Key, KeyKind, KeyName, KeyShape, KeyStandard, keys};

/// The key asked about; what was assumed goes on record.
pub fn find(input: &KeyseatInput, kind: KeyKind, record: &mut Record) -> Result<&'static Key, Refusal> {
    let standard = input.standard.unwrap_or_else(|| {
        let in_inches = input.shaft_diameter.quantity().unit.system() == Some(System::Inch);
        let (standard, says) = match (in_inches, kind) {
            (true, _) => (KeyStandard::Inch, "The shaft is in inches: its key is assumed to follow ASME B17."),
            (false, KeyKind::Parallel) => (KeyStandard::Iso, "The shaft is in millimeters: ISO 773, as DIN 6885-1."),
            (false, KeyKind::Woodruff) => (
                KeyStandard::Iso,
                "The shaft is in millimeters: ISO 3912 is assumed. DIN 6888 has other depths for some keys; look at the \
                 drawing.",
            ),
        };
        record.assume("standard", &standard, says);
        standard
    });
    if input.fit.is_some() && standard == KeyStandard::Inch {
        let says = "The fits normal, close and free are those of metric keys.";
        return Err(Refusal::no_answer(says, &[("fit", "leave out".to_owned()), ("standard", "iso".to_owned())]));
    }
    let parallel_inch = kind == KeyKind::Parallel && standard == KeyStandard::Inch;
    if input.shape.is_some() && !parallel_inch {
        let says = "Only inch parallel keys come square or rectangular.";
        return Err(Refusal::no_answer(says, &[("shape", "leave out".to_owned()), ("standard", "inch".to_owned())]));
    }
    // A name with a height says itself whether the key is square.
    let says_shape = input.key.as_ref().is_some_and(|key| key.height.is_some());
    let shape = input.shape.or_else(|| {
        (parallel_inch && !says_shape).then(|| {
            let says = "A square key is assumed; the standard prefers it for shafts up to 6-1/2 in.";
            record.assume("shape", &KeyShape::Square, says);
            KeyShape::Square
        })
    });
    let all: Vec<&'static Key> = keys(kind, standard).filter(|key| shape.is_none() || key.shape == shape).collect();
    match &input.key {
        Some(name) => named(name, &all),
        None if kind == KeyKind::Woodruff => {
            let says = "The standard gives several Woodruff keys for a shaft: name the one on the drawing.";
            Err(Refusal::no_answer(says, &[("key", middle(&all))]))
        }
        None => for_shaft(input.shaft_diameter, &all),
    }
}

fn middle(all: &[&'static Key]) -> String {
    all.get(all.len() / 3).map_or("404", |key| key.name).to_owned()
}

fn named(name: &KeyName, all: &[&'static Key]) -> Result<&'static Key, Refusal> {
    let found: Vec<&'static Key> = all.iter().copied().filter(|key| key.is_called(name)).collect();
    match found.as_slice() {
        [one] => Ok(one),
        [] => {
            let near = all.iter().min_by(|a, b| a.off(name).total_cmp(&b.off(name)));
            let says = format!(
                "The tables have no key \"{}\" of this form and standard; all stand at /v1/tables/keys.",
                shown(&name.name())
            );
            Err(Refusal::no_answer(&says, &[("key", near.map_or("1/4 x 1/4", |key| key.name).to_owned())]))
        }
        [first, ..] => {
            let names: Vec<&str> = found.iter().map(|key| key.name).collect();
            let says = format!("Several keys are so wide: {}. Give the height too.", names.join(", "));
            Err(Refusal::no_answer(&says, &[("key", first.name.to_owned())]))
        }
    }
}

fn for_shaft(shaft: Size, all: &[&'static Key]) -> Result<&'static Key, Refusal> {
    if let Some(key) = all.iter().find(|key| key.is_for(shaft) == Some(true)) {
        return Ok(key);
    }
    let shafts = |key: Option<&&'static Key>| key.and_then(|key| key.shafts).unwrap_or_default();
    let ((over, smallest), (_, to)) = (shafts(all.first()), shafts(all.last()));
    let unit = all.first().map_or(Unit::Inch, |key| key.unit);
    let size = |value: f64| format!("{} {}", text::full(value), unit.row().ascii);
    let says = format!("The table has keys of this form for shafts over {} up to {}.", size(over), size(to));
    let near = if shaft.quantity().in_unit(unit) > to { to } else { smallest };
    Err(Refusal::no_answer(&says, &[("shaft_diameter", size(near))]))
}

/// Refuses a key that the shaft has no room for.
pub fn check_room(input: &KeyseatInput, key: &Key, result: &KeyseatResult, shaft: f64) -> Result<(), Refusal> {
    let depth = result.depth_from_top.si();
    if result.depth_at_side.si() > 0.0 && 2.0 * depth < shaft {
        return Ok(());
    }
    no_room(input, key)
}

/// The shaft has no room for the key.
pub fn no_room<T>(input: &KeyseatInput, key: &Key) -> Result<T, Refusal> {
    let says = format!("A {} key is too large for this shaft: its seat would reach the middle.", key.name);
    let larger = crate::suggestion::value(
        4.0 * key.width().si().max(key.height().si()),
        input.shaft_diameter.quantity().unit,
        crate::suggestion::Way::Up,
    );
    Err(Refusal::no_answer(&says, &[("shaft_diameter", larger)]))
}
