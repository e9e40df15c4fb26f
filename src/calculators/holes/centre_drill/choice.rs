//! The cone that is wanted, and the smallest center drill of a kind that makes it.

use super::CentreDrillInput;
use crate::calculators::prelude::*;
use crate::reference::center_drills::{CenterDrill, CenterDrillKind, CenterDrillName, center_drills, center_hole};
use crate::suggestion::{Way, value};

/// The cone that is wanted.
pub struct Wanted {
    /// Its field, and the cone; none where only a center drill is named.
    cone: Option<(&'static str, FoundSize)>,
    unit: Unit,
}

impl Wanted {
    /// As asked for, or for the work by the course's table.
    pub fn of(input: &CentreDrillInput, record: &mut Record) -> Result<Self, Refusal> {
        let unit = |size: Size| size.quantity().unit;
        if let Some(cone) = input.cone {
            let found = FoundSize::stated(cone.quantity().value, unit(cone));
            return Ok(Self { cone: Some(("cone", found)), unit: unit(cone) });
        }
        let Some(work) = input.work_diameter else {
            let unit = input.size.map_or(Unit::Inch, |CenterDrillName(drill)| drill.unit);
            return Ok(Self { cone: None, unit });
        };
        let Some(row) = center_hole(work.quantity().in_unit(Unit::Millimetre)) else {
            let says = "The table of cones ends at work of 100 mm. For larger and heavier work give the cone wanted.";
            let most = value(0.1, unit(work), Way::Down);
            return Err(Refusal::no_answer(says, &[("work_diameter", most)]));
        };
        record.source_of_row("centring_course", "cone by the diameter of the work", &row.trust);
        let cone = FoundSize::stated(row.cone_mm, Unit::Millimetre);
        let table = format!("center_holes.csv, work over {} to {} mm", row.work_over_mm, row.work_up_to_mm);
        tell!(record.look_up("Cone for the work", table), w = work_diameter: work => "cone_for_work": cone);
        notes!(record => heavy_work: "The cone is for work of usual weight. Heavy work and deep cuts want the next larger one.");
        Ok(Self { cone: Some(("cone_for_work", cone)), unit: unit(work) })
    }

    /// The cone that a center drill is to make: the one wanted, or the largest that it makes.
    pub fn cone(&self, drill: &'static CenterDrill, record: &mut Record) -> Result<FoundSize, Refusal> {
        let largest = drill.found(text::tidy(drill.largest_cone()));
        if drill.cone_end.is_none() {
            record.source("common_practice", "a center drill goes in to nine tenths of its body at most");
        }
        tell!(record.look_up("Largest cone that it makes", format!("center_drills.csv, row {}, or 0.9 of the body", drill.name))
            => "largest_cone": largest);
        let Some((of, cone)) = self.cone else {
            tell!(record.choose("Cone", "the largest, as none is asked for"), c = "largest_cone": largest
                => "cone_diameter": largest);
            return Ok(largest);
        };
        let (pilot, size) = (drill.found(drill.pilot), cone.get().si());
        let is_too_large = size > largest.get().si() * (1.0 + 1e-9);
        if is_too_large || size <= pilot.get().si() {
            let ends = if is_too_large { "largest cone" } else { "pilot" };
            let bound = if is_too_large { largest } else { pilot };
            let way = if is_too_large { Way::Down } else { Way::Up };
            let times = if is_too_large { 1.0 } else { 1.2 };
            let to_try = value(bound.get().si() * times, self.unit, way);
            let says = format!("The {ends} of {} is {}.", drill.name, value(bound.get().si(), self.unit, Way::Near));
            let field = if of == "cone" { "cone" } else { "size" };
            let to_try = if of == "cone" { to_try } else { "leave out".to_owned() };
            return Err(Refusal::no_answer(&says, &[(field, to_try)]));
        }
        tell!(record.choose("Cone", "as wanted"), c = (of): cone => "cone_diameter": cone);
        Ok(cone)
    }
}

/// The center drill at hand, else the smallest of the kind that makes the cone.
pub fn choose(input: &CentreDrillInput, wanted: &Wanted, record: &mut Record) -> Result<&'static CenterDrill, Refusal> {
    if let Some(CenterDrillName(drill)) = input.size {
        tell!(record.choose("Center drill", "the one at hand"), n = size: drill.name => "name": drill.name);
        return Ok(drill);
    }
    let (kind, says) = match wanted.unit.system() {
        Some(System::Metric) => (CenterDrillKind::A, "Kind A, the plain metric one, for a size in millimeters."),
        _ => (CenterDrillKind::Plain, "The plain inch kind for a size in inches."),
    };
    let kind = record.or_assume(input.kind, "kind", kind, says);
    let (of, cone) = wanted.cone.unwrap_or(("cone", FoundSize::stated(0.0, Unit::Inch)));
    let of_kind = || center_drills().iter().filter(|drill| drill.kind == kind);
    let size = cone.get().si();
    let largest = |drill: &CenterDrill| drill.found(drill.largest_cone()).get().si();
    let makes =
        |drill: &&CenterDrill| largest(drill) * (1.0 + 1e-9) >= size && drill.found(drill.pilot).get().si() < size;
    if let Some(drill) = of_kind().find(makes) {
        tell!(record.look_up("Center drill", "center_drills.csv: the smallest of its kind that makes the cone"),
            C = (of): cone => "name": drill.name);
        return Ok(drill);
    }
    let most = of_kind().map(largest).fold(0.0, f64::max);
    let least = of_kind().map(|drill| drill.found(drill.pilot).get().si()).fold(f64::INFINITY, f64::min);
    let (way, bound) = if size > most { (Way::Down, most) } else { (Way::Up, least * 1.5) };
    let says = format!("No center drill of this kind makes a cone of {}.", value(size, wanted.unit, Way::Near));
    let field = if of == "cone" { ("cone", value(bound, wanted.unit, way)) } else { ("kind", "a".to_owned()) };
    Err(Refusal::no_answer(&says, &[field]))
}

/// The least length that the standard gives the pilot, so that the first depth is not too deep.
pub fn pilot_length(drill: &'static CenterDrill, record: &mut Record) -> Option<Size> {
    let (least, most) = drill.pilot_length?;
    let length = Size::stated(least, drill.unit);
    let says = if least < most {
        "The least that the standard allows is taken, so that the cone does not come out too large. Measure yours."
    } else {
        "As its standard gives it, recalled. Measure yours."
    };
    record.assume("pilot_length", &length, says);
    Some(length)
}
