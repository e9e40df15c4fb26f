//! How wide and how high what goes into the counterbore is: head, washer and wrench.

use super::{CounterboreInput, HeadKind, WasherKind};
use crate::calculators::prelude::*;
use crate::fastening::not_listed;
use crate::reference::screws::{HeadRow, head_row, washer_row};

/// What goes into the counterbore.
pub struct Sizes {
    /// Height of the head, `head_height`.
    pub height: FoundSize,
    /// Thickness of the washer, `washer_thickness`.
    pub washer_thickness: Option<FoundSize>,
    /// The widest of all, `widest`.
    pub widest: FoundSize,
    /// Across the flats of a hexagon.
    pub flats: Option<f64>,
    /// Whether all of it is of the standard.
    pub is_standard: bool,
}

/// The sizes of the standard, or as measured, on record.
pub fn sizes(input: &CounterboreInput, head: HeadKind, record: &mut Record) -> Result<Sizes, Refusal> {
    let screw = &input.hole.screw;
    let row = head_row(head.as_str(), screw);
    let row = match (row, input.head_diameter, input.head_height) {
        (Ok(row), ..) => Some(row),
        (Err(_), Some(_), Some(_)) => None,
        (Err(nearest), ..) => return Err(not_listed(&format!("{} head", said(head)), screw, &nearest)),
    };
    if let Some(row) = row.filter(|_| input.head_diameter.is_none() || input.head_height.is_none()) {
        record.source_of_row(&row.source, format!("{}: {} head, {}", row.screw, said(head), row.standard), &row.trust);
    }
    let unit = screw.unit;
    let of_row = |of: fn(&HeadRow) -> Option<f64>| row.and_then(of).map(|size| FoundSize::stated(size, unit));
    let table = || row.map_or_else(String::new, |row| format!("{}, row {}", row.standard, row.screw));
    let head_diameter = match (input.head_diameter, of_row(|row| Some(row.diameter))) {
        (Some(measured), _) => measured.found(),
        (None, Some(head_diameter)) => {
            let what = if head == HeadKind::Hexagon { "Over the corners of the head" } else { "Diameter of the head" };
            tell!(record.look_up(what, table()) => head_diameter);
            head_diameter
        }
        (None, None) => screw.found(),
    };
    let height = match (input.head_height, of_row(|row| row.height)) {
        (Some(measured), _) => measured.found(),
        (None, Some(head_height)) => {
            tell!(record.look_up("Height of the head", table()) => head_height);
            head_height
        }
        (None, None) => screw.found(),
    };
    if head == HeadKind::Socket && input.head_diameter.is_none() {
        notes!(record => knurled_heads:
            "Sizes are those of plain heads. Knurled heads are a few tenths of a millimeter larger: measure yours.");
    }
    if head == HeadKind::Hexagon && input.head_height.is_none() {
        notes!(record => nominal_height:
            "The height of a hexagon head is nominal. A head may stand a little higher: measure yours if it must not.");
    }
    let washer = washer(input, record)?;
    let mut parts = vec![("a", "head_diameter", head_diameter)];
    parts.extend(washer.diameter.map(|outside| ("b", "washer_diameter", outside)));
    parts.extend(input.wrench_diameter.map(|wrench| ("c", "wrench_diameter", wrench.found())));
    let widest = parts
        .iter()
        .map(|(.., size)| *size)
        .fold(head_diameter, |widest, size| if size.get().si() > widest.get().si() { size } else { widest });
    let mut step = record.choose("The widest of what goes in", "the largest of them");
    for (symbol, of, size) in parts {
        step = step.with(symbol, of, size);
    }
    step.gives("widest", widest);
    Ok(Sizes {
        height,
        washer_thickness: washer.thickness,
        widest,
        flats: row.and_then(|row| row.flats),
        is_standard: input.head_diameter.is_none() && input.wrench_diameter.is_none() && washer.is_standard,
    })
}

/// A kind of head in words.
pub fn said(head: HeadKind) -> &'static str {
    match head {
        HeadKind::Socket => "socket",
        HeadKind::LowSocket => "low socket",
        HeadKind::Hexagon => "hexagon",
    }
}

struct Washer {
    diameter: Option<FoundSize>,
    thickness: Option<FoundSize>,
    is_standard: bool,
}

fn washer(input: &CounterboreInput, record: &mut Record) -> Result<Washer, Refusal> {
    let screw = &input.hole.screw;
    let kind = if input.washer_thickness.is_some() && input.washer.is_none() {
        WasherKind::None
    } else {
        input.washer(record)
    };
    let (measured_diameter, measured_thickness) =
        (input.washer_diameter.map(|size| size.found()), input.washer_thickness.map(|size| size.found()));
    if kind == WasherKind::None {
        if measured_thickness.is_some() && measured_diameter.is_none() {
            notes!(record => washer_width:
                "The washer is assumed to be no wider than the head. Measure it: many spring washers are wider.");
        }
        let is_standard = measured_diameter.is_none();
        return Ok(Washer { diameter: measured_diameter, thickness: measured_thickness, is_standard });
    }
    if let (Some(diameter), Some(thickness)) = (measured_diameter, measured_thickness) {
        return Ok(Washer { diameter: Some(diameter), thickness: Some(thickness), is_standard: false });
    }
    let row = washer_row(screw).map_err(|nearest| not_listed("flat washer", screw, &nearest))?;
    record.source_of_row(&row.source, format!("{}: washer, {}", row.screw, row.standard), &row.trust);
    let table = || format!("{}, row {}", row.standard, row.screw);
    let washer_diameter = FoundSize::stated(row.outside, screw.unit);
    let washer_thickness = FoundSize::stated(row.thickness, screw.unit);
    if measured_diameter.is_none() {
        tell!(record.look_up("Diameter of the washer", table()) => washer_diameter);
    }
    if measured_thickness.is_none() {
        tell!(record.look_up("Greatest thickness of the washer", table()) => washer_thickness);
    }
    Ok(Washer {
        diameter: measured_diameter.or(Some(washer_diameter)),
        thickness: measured_thickness.or(Some(washer_thickness)),
        is_standard: measured_diameter.is_none(),
    })
}
