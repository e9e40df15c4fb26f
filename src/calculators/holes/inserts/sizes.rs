//! The drill, the tap's sizes and the depths for an insert.

use super::InsertsInput;
use crate::calculators::prelude::*;
use crate::reference::insert_drills::insert_drill;
use crate::reference::tap_chamfers::TapChamfer;
use crate::threading::GivenThread;

/// What is drilled and tapped.
#[derive(Debug, Gives)]
pub struct TapSizes {
    /// Drill for a cutting tap, by its name; absent where the list has none or yours has no name.
    #[label("Drill")]
    pub drill_name: Option<&'static str>,
    /// Diameter of the drill.
    #[label("Drill size")]
    pub drill_diameter: FoundSize,
    /// Hole for a forming tap in place of that; absent where the list has none.
    #[label("Hole for a forming tap")]
    pub forming_hole: Option<FoundSize>,
    /// Least minor diameter of the tapped hole.
    #[label("Minor diameter, least")]
    pub minor_min: FoundLowerLimit,
    /// Least pitch diameter of the tapped hole.
    #[label("Pitch diameter, least")]
    pub pitch_min: FoundLowerLimit,
    /// Least major diameter of the tapped hole.
    #[label("Major diameter, least")]
    pub major_min: FoundLowerLimit,
}

/// How deep to drill and to tap.
#[derive(Debug, Gives)]
pub struct Depths {
    /// Depth of the drill at full diameter, below the face.
    #[label("Drill depth at full diameter")]
    pub full_depth: FoundDepthSetting,
    /// Depth that the tap's end may reach, one pitch above that.
    #[label("Tap depth, at most")]
    pub tap_depth: FoundDepthSetting,
    /// Depth of full thread.
    #[label("Depth of full thread")]
    pub thread_depth: FoundExtent,
    /// Nominal length of the insert.
    #[label("Length of the insert")]
    pub length: FoundExtent,
}

impl TapSizes {
    /// By the form of the thread and the lists of drills.
    pub fn find(input: &InsertsInput, given: &GivenThread, record: &mut Record) -> Self {
        let (size, pitch) = (given.size, given.pitch);
        record.source("sti_thread_form", "diameters of the tapped hole from size and pitch");
        let (diameter, triangle) = (size.quantity().value, 3f64.sqrt() * pitch.quantity().value);
        let least = |eighths: f64| given.stated::<kind::LowerLimit>(text::tidy(diameter + eighths * triangle / 8.0));
        let (minor_min, pitch_min, major_min) = (least(1.0), least(3.0), least(6.0));
        tell!(record.step("Least minor diameter", "k = D + √(3) × P / 8"), D = size, P = pitch => minor_min);
        tell!(record.step("Least pitch diameter", "e = D + 3 × √(3) × P / 8"), D = size, P = pitch => pitch_min);
        tell!(record.step("Least major diameter", "m = D + 3 × √(3) × P / 4"), D = size, P = pitch => major_min);
        notes!(record => greatest_by_the_gauge: "Only the least diameters are given: the greatest come from the insert maker's \
            gauge and the class of the tap.");
        let (drill_name, drill_diameter) = drill(input, (given, minor_min), record);
        let forming_hole = insert_drill(given.thread(), true).map(|row| {
            record.source_trusted(row.source, "holes for forming taps", row.trust);
            let hole = FoundSize::stated(row.diameter, row.unit);
            tell!(record.look_up("Hole for a forming tap", format!("insert_drills.csv, {}", row.thread))
                => forming_hole: hole);
            hole
        });
        Self { drill_name, drill_diameter, forming_hole, minor_min, pitch_min, major_min }
    }
}

/// The drill used, else the one in the list, else one for three quarters of the thread.
fn drill(
    input: &InsertsInput,
    (given, minor_min): (&GivenThread, FoundLowerLimit),
    record: &mut Record,
) -> (Option<&'static str>, FoundSize) {
    if let Some(DrillDiameter { size, drill }) = input.drill {
        let Quantity { value, unit, .. } = size.quantity();
        let found = FoundSize::stated(value, unit);
        tell!(record.choose("Diameter of the drill", "as used"), d = (DRILL): size => drill_diameter: found);
        let name = drill.map(|drill| drill.name);
        if let Some(name) = name {
            tell!(record.look_up("Its name", "table of drills") => "drill_name": name);
        }
        return (name, found);
    }
    if let Some(row) = insert_drill(given.thread(), false) {
        record.source_trusted(row.source, "drills for the taps of inserts", row.trust);
        let found = FoundSize::stated(row.diameter, row.unit);
        let table = format!("insert_drills.csv, {}", row.thread);
        tell!(record.look_up("Drill for a cutting tap", table.clone()) => "drill_name": row.drill);
        tell!(record.look_up("Its diameter", table) => drill_diameter: found);
        return (Some(row.drill), found);
    }
    notes!(record => not_in_the_list: "The list has no drill for this thread. The size given is a tenth of the pitch above the \
        least minor diameter, as the drills of the list are: take the next stock drill, and ask the maker of the insert.");
    record.source("common_practice", "a drill a little above the least minor diameter");
    let found =
        step!(record, "Size of the drill", d: drill_diameter = k + P / 10.0, k = minor_min, P = pitch: given.pitch);
    (None, found)
}

const DRILL: &str = "drill";

impl Depths {
    /// By the notes of the standards; gives what a bottoming tap saves, in meters, too.
    pub fn find(input: &InsertsInput, given: &GivenThread, record: &mut Record) -> (Self, f64) {
        record.source("asme_b18_29", "full thread and least drilled depth");
        let (size, pitch) = (given.size, given.pitch);
        let length: FoundExtent = match input.insert_length {
            Some(insert_length) => {
                let Quantity { value, unit, .. } = insert_length.quantity();
                let found = FoundExtent::stated(value, unit);
                tell!(record.choose("Length of the insert", "as asked for"), L = insert_length => length: found);
                found
            }
            None => {
                let usual = PlainNumber::stated(1.5);
                let says = "Inserts are made 1, 1.5, 2, 2.5 and 3 diameters long; 1.5 is common in aluminum.";
                let times = record.or_assume(input.diameters, "diameters", usual, says).get();
                step!(record, "Length of the insert", L: length = n * D, n = diameters: times, D = size)
            }
        };
        let thread_depth: FoundExtent =
            step!(record, "Depth of full thread", T: thread_depth = L + P, L = length, P = pitch);
        let chamfer = input.tap_chamfer(record);
        let in_inches = given.thread().system.in_inches();
        let millimetres = size.quantity().in_unit(Unit::Millimetre);
        // Metric taps to 8 mm by the standard, inch taps to 3/8 in by a tool maker's tip.
        let has_center = millimetres <= if in_inches { 9.525 } else { 8.0 } + 1e-9;
        let what = "Least depth at full diameter";
        let full_depth: FoundDepthSetting = match (chamfer, has_center) {
            (TapChamfer::Bottoming, _) => {
                step!(record, what, G: full_depth = L + 2.0 * P + P + P, L = length, P = pitch)
            }
            (_, true) => {
                if in_inches {
                    record.source("tap_depth_tip", "center points of taps to 3/8 in");
                }
                notes!(record => center_point: "Half the diameter is added for the center point of a plug tap of this \
                    size. A tap without one needs that much less.");
                step!(record, what, G: full_depth = L + D / 2.0 + 4.0 * P + P + P, L = length, D = size, P = pitch)
            }
            (_, false) => step!(record, what, G: full_depth = L + 4.0 * P + P + P, L = length, P = pitch),
        };
        let tap_depth: FoundDepthSetting =
            step!(record, "Depth that the tap's end may reach", b: tap_depth = G - P, G = full_depth, P = pitch);
        let bottoming = length.get().si() + 4.0 * pitch.get().si();
        let saved = full_depth.get().si() - bottoming;
        (Self { full_depth, tap_depth, thread_depth, length }, saved)
    }
}
