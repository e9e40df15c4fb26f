//! The limits of a hole and a shaft by ANSI B4.1, with their steps and sources.

use super::pair::{FittedPair, HOLE, PartLimits, Paths, SHAFT, pair, tell_sizes};
use crate::quantity::{FoundSize, Size, Unit, text};
use crate::reference::inch_fits::{InchFitClass, InchFitRow, row, rows};
use crate::refusal::Refusal;
use crate::sources::Trust;
use crate::working::{Record, known_steps};

crate::choice! {
    /// Which part begins at the nominal size: the `hole`, or the `shaft`, such as bought ground bar.
    FitBasis {
        /// The smallest hole has the nominal size.
        Hole = "hole",
        /// The largest shaft has the nominal size.
        Shaft = "shaft",
    }
}

impl InchFitRow {
    /// How far a fit of that basis lies from the table's, in thousandths: with a basic shaft both parts move until the
    /// largest shaft has the nominal size.
    pub fn moved(&self, basis: FitBasis) -> f64 {
        if basis == FitBasis::Shaft { -self.shaft_limits.0 } else { 0.0 }
    }
}

/// The row of a class at a size in the field `size`; refused where the standard has none there.
pub fn inch_row(class: InchFitClass, size: Size) -> Result<&'static InchFitRow, Refusal> {
    let inches = size.quantity().in_unit(Unit::Inch);
    row(class, inches).ok_or_else(|| {
        let (first, last) = (rows(class).next(), rows(class).next_back());
        let (over, to) = (first.map_or(0.0, |row| row.over), last.map_or(0.0, |row| row.to));
        let (near, other) = if inches > to { (to, "5 in") } else { (over, "1 in") };
        let says = if inches > to {
            format!("ANSI B4.1 has {} up to {near} in; this size is larger.", class.as_str())
        } else {
            format!("ANSI B4.1 has {} over {near} in only; this size is smaller.", class.as_str())
        };
        // The next class of the same sort that has every size.
        let wider = match class {
            InchFitClass::Lt3 => InchFitClass::Lt1,
            InchFitClass::Lt4 => InchFitClass::Lt2,
            _ => InchFitClass::Fn2,
        };
        let try_class = if inches > to { vec![] } else { vec![("class", wider.as_str().to_owned())] };
        Refusal::no_answer(&says, &[vec![("size", other.to_owned())], try_class].concat())
    })
}

/// The limits of a fit of that class at a size.
pub fn inch_pair(
    (size, class, basis): (Size, InchFitClass, FitBasis),
    record: &mut Record,
) -> Result<FittedPair, Refusal> {
    let row = inch_row(class, size)?;
    let inches = size.quantity().in_unit(Unit::Inch);
    let band = format!("{} over {} to {} in", class.as_str(), row.over, row.to);
    record.source_trusted(row.source, band.clone(), row.trust);
    if size.quantity().unit == Unit::Millimetre {
        record.note("size_in_millimeters", "ANSI B4.1 counts sizes in inches; the size is converted exactly.");
    }
    record.note("at_20_degrees", "The limits hold at 68 °F (20 °C): let the part cool before you measure.");
    let moved = row.moved(basis);
    let symbol = |symbol: &'static str| (!symbol.is_empty() && moved == 0.0).then(|| symbol.to_owned());
    let part = |class, (upper, lower): (f64, f64)| {
        let inch = |thou: f64| text::tidy((thou + moved) / 1000.0);
        PartLimits::of(class, inches, (inch(upper), inch(lower)), Unit::Inch)
    };
    let hole = part(symbol(row.hole), (row.hole_upper, 0.0));
    let shaft = part(symbol(row.shaft), row.shaft_limits);
    known_steps! { record;
        look_up "Nominal size", "as given" => "size", FoundSize::stated(inches, Unit::Inch);
    }
    let table = if basis == FitBasis::Hole {
        format!("ANSI B4.1, {band}")
    } else {
        record.source_trusted("ansi_b41_recalled", "the rule for fits with a basic shaft", Trust::FromMemory);
        format!("ANSI B4.1, {band}, both parts moved by the shaft's upper limit, so that it becomes 0")
    };
    tell(&hole, &HOLE, &table, record);
    tell(&shaft, &SHAFT, &table, record);
    Ok(pair(Some(hole), Some(shaft), record))
}

fn tell(part: &PartLimits, paths: &Paths, table: &str, record: &mut Record) {
    if let Some(class) = &part.class {
        known_steps! { record; look_up "Tolerance class", table.to_owned() => paths.class, class.clone(); }
    }
    known_steps! { record;
        look_up "Upper deviation", table.to_owned() => paths.upper, part.upper_deviation;
        look_up "Lower deviation", table.to_owned() => paths.lower, part.lower_deviation;
        step "Width of the tolerance", "T = e - i", e = (paths.upper), i = (paths.lower)
            => paths.tolerance, part.tolerance;
    }
    tell_sizes(part, paths, record);
}
