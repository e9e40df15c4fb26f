//! How much larger than its drill a hole usually comes out, for which a tap drill needs room inside the class.
//! Common practice.

use crate::quantity::{FoundDifference, FoundExtent, FoundSize, System, Unit, text};
use crate::working::{Constant, Record};

/// Share of a drill's diameter that its hole is usually larger by.
const SHARE: Constant = Constant {
    of: "constant:oversize_share",
    value: 0.01,
    source: "common_practice",
    place: "a drill cuts about a hundredth of its diameter oversize, from 0.03 to 0.08 mm or 0.001 to 0.003 in",
};

/// The least and the greatest of it, in the unit that the drill is made in.
fn bounds(drill: FoundSize) -> (FoundExtent, FoundExtent) {
    match drill.quantity().unit.system() {
        Some(System::Metric) => {
            (FoundExtent::stated(0.03, Unit::Millimetre), FoundExtent::stated(0.08, Unit::Millimetre))
        }
        _ => (FoundExtent::stated(0.001, Unit::Inch), FoundExtent::stated(0.003, Unit::Inch)),
    }
}

/// What a hole leaves up to the greatest minor diameter, without the noise below the last digit of a size.
pub fn room_left(greatest: f64, hole: f64, unit: Unit) -> FoundDifference {
    FoundDifference::stated(text::round(greatest - hole, 15), unit)
}

/// How much larger the hole of a drill usually comes out.
pub fn usual_oversize(drill: FoundSize) -> FoundExtent {
    let (least, most) = bounds(drill);
    let of = drill.quantity();
    let (least, most) = (least.quantity().in_unit(of.unit), most.quantity().in_unit(of.unit));
    FoundExtent::stated((SHARE.value * of.value).clamp(least, most), of.unit)
}

/// The same on record, as the step that gives `gives` for the drill whose diameter stands in `of`.
pub fn tell_usual_oversize((of, drill): (&'static str, FoundSize), gives: &'static str, record: &mut Record) {
    let (least, most) = bounds(drill);
    record
        .step("How much larger its hole usually comes out", "o = min(max(f × d, a), b)")
        .with("d", of, drill)
        .constant("f", &SHARE)
        .with("a", "constant:least_oversize", least)
        .with("b", "constant:greatest_oversize", most)
        .gives(gives, usual_oversize(drill));
}
