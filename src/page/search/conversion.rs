//! A size in another unit: the one asked for, else that of the other system.

use super::phrase::{Meaning, Phrase, is_filler};
use crate::quantity::{Dimension, System, Unit, Written, text};

/// Decimals that are shown: a millionth of an inch or of a millimeter is finer than anybody measures.
const PLACES: usize = 6;

/// One size in several units.
#[derive(Debug)]
pub struct Conversion {
    /// The size as it was stated, with its unit.
    pub stated: String,
    /// The same in other units, each with whether it is rounded.
    pub others: Vec<(String, bool)>,
    /// Whether the unit to convert to was named: then it is all that is asked.
    pub is_asked: bool,
}

/// The conversion that a phrase asks for: its one size into a unit that stands beside it; without one, where the size is
/// all there is, into the units of the systems.
pub fn of(phrase: &Phrase) -> Option<Conversion> {
    let mut sizes = phrase.pieces.iter().filter_map(|piece| Some((piece, piece.size()?)));
    let (piece, written) = sizes.next()?;
    if sizes.next().is_some() || phrase.pieces.iter().filter(|piece| piece.is_value()).count() > 1 {
        return None;
    }
    let from = written.unit?;
    let mut units = phrase.pieces.iter().rev().filter_map(|piece| match piece.meaning {
        Meaning::Unit(unit) => Some(unit),
        _ => None,
    });
    // `25.4 mm in tpi`: the last is meant, the word before it joins.
    let wanted = units.find(|to| are_alike(from, *to));
    let stated = match piece.meaning {
        Meaning::Quantity(_) => piece.text.clone(),
        _ => format!("{} = {}", piece.text, shown(&written, from)?.0),
    };
    if let Some(to) = wanted {
        return Some(Conversion { stated, others: vec![shown(&written, to)?], is_asked: true });
    }
    let is_alone = phrase.pieces.iter().all(|one| one.is_value() || is_filler(&one.text));
    let mut others: Vec<Unit> =
        [System::Inch, System::Metric].into_iter().filter_map(|system| in_system(from, system)).collect();
    others.retain(|unit| *unit != from);
    let others: Vec<_> = others.into_iter().filter_map(|unit| shown(&written, unit)).collect();
    (is_alone && !others.is_empty()).then_some(Conversion { stated, others, is_asked: false })
}

/// The unit of a system for what `unit` measures; threads in an inch stand for a length.
fn in_system(unit: Unit, system: System) -> Option<Unit> {
    match (unit.row().dimension, system) {
        (Dimension::ThreadCount, System::Inch) => Some(Unit::Inch),
        (Dimension::ThreadCount, System::Metric) => Some(Unit::Millimetre),
        _ => unit.counterpart(system),
    }
}

fn are_alike(from: Unit, to: Unit) -> bool {
    let of = |unit: Unit| match unit.row().dimension {
        Dimension::ThreadCount => Dimension::Length,
        other => other,
    };
    of(from) == of(to)
}

/// A size in a unit, and whether it is rounded.
fn shown(written: &Written, to: Unit) -> Option<(String, bool)> {
    let from = written.unit?;
    let exact = |value: f64| if from == to { value } else { text::tidy(to.of_si(from.to_si(value))) };
    let (value, rounded) = (exact(written.value), text::round(exact(written.value), PLACES));
    if !value.is_finite() || (rounded == 0.0 && value != 0.0) {
        return None;
    }
    let mut says = text::full(rounded);
    // A tolerance has no meaning in threads of an inch, which are counted.
    let counted = [from, to].contains(&Unit::ThreadsPerInch);
    if let Some((plus, minus)) = written.tolerance.filter(|_| !counted) {
        let [plus, minus] = [plus, minus].map(|side| text::full(text::round(exact(side), PLACES)));
        says.push_str(&if plus == minus { format!(" ±{plus}") } else { format!(" +{plus} -{minus}") });
    }
    says.push_str(to.row().suffix);
    Some((says, rounded != value))
}
