//! The groove that a single point leaves: how deep its tip goes below the pitch line, and from the blank as it
//! is to the pitch diameter aimed at. Lengths in the thread's unit.

use super::tip::{Tip, below_pitch_line, tip};
use super::{CutThread, SinglePointInput};
use crate::calculators::prelude::*;
use crate::machine::as_stated;
use crate::reference::threads::{Chosen, default_classes};
use crate::suggestion::{Way, value};
use crate::threading::{GivenThread, cite_limits, lead_angle};

/// The sizes of a groove.
#[derive(Clone, Copy, Debug, Gives)]
pub struct GrooveSizes {
    /// Pitch diameter aimed at.
    #[label("Pitch diameter aimed at")]
    pub aim: FoundSize,
    /// Depth of the thread from the surface of the blank, on the radius.
    #[label("Depth of the thread")]
    pub depth: FoundExtent,
    /// Diameter at the root: minor of a screw, major of a nut.
    pub root_diameter: FoundSize,
    /// Width left on the crest, between two grooves.
    #[label("Crest width")]
    pub crest_width: FoundExtent,
}

/// The groove.
pub struct Groove {
    /// Its sizes.
    pub sizes: GrooveSizes,
    /// Diameter of the blank.
    pub blank: Size,
    /// Angle of the thread at its basic pitch diameter.
    pub lead_angle: FoundAngle,
    /// The tip.
    pub tip: Tip,
    /// 1 for a screw, -1 for a nut: which way depth takes the diameter.
    pub sign: f64,
    /// The unit of the numbers.
    pub unit: Unit,
    /// Tangent of half the angle between the flanks.
    pub slope: f64,
}

impl Groove {
    /// Works out the groove.
    pub fn find(given: &GivenThread, input: &SinglePointInput, record: &mut Record) -> Result<Self, Refusal> {
        let external = input.cuts() == CutThread::External;
        let sign = if external { 1.0 } else { -1.0 };
        let (unit, pitch) = (given.unit(), given.thread().pitch);
        let blank = input.blank_diameter(record);
        let tip = tip(given, input, record);
        let below = below_pitch_line(given, tip, record)?;
        let basic = given.pitch_diameter(record);
        let aim = aim(given, input, (external, basic), record)?;
        // Sizes that go together, where those stated do not.
        let refused = |says: &str, way| {
            let mut fields = vec![("blank_diameter", value(input.basic_diameter().get().si(), unit, way))];
            if input.pitch_diameter.is_some() {
                fields.push(("pitch_diameter", as_stated(&Size::stated(given.basics.pitch_diameter, unit))));
            }
            Err(Refusal::no_answer(says, &fields))
        };
        let slope = given.half_angle.degrees().to_radians().tan();
        let above = sign * (blank.quantity().in_unit(unit) - aim.quantity().in_unit(unit)) / 2.0;
        if above <= 0.0 {
            return if external {
                let says = "The blank must be larger than the pitch diameter, or no crests are left to cut.";
                refused(says, Way::Up)
            } else {
                let says = "The bore must be smaller than the pitch diameter, or no crests are left to cut.";
                refused(says, Way::Down)
            };
        }
        let crest = pitch / 2.0 - 2.0 * slope * above;
        if crest < -1e-9 * pitch {
            let says = "At this depth the grooves meet below the surface of the blank and the crests come out sharp. \
                Turn or bore the blank nearer to its size.";
            return refused(says, Way::Near);
        }
        let crest_width = FoundExtent::stated(crest.max(0.0), unit);
        let depth = FoundExtent::stated(above + below.quantity().value, unit);
        let formula = if external { "h = (B - E) / 2 + k" } else { "h = (E - B) / 2 + k" };
        tell!(record.step("Depth from the blank's surface", formula),
            B = blank_diameter: blank, E = aim, k = below_pitch_line: below => depth);
        let root = blank.quantity().in_unit(unit) - sign * 2.0 * depth.quantity().value;
        let root_diameter = FoundSize::stated(root, unit);
        let formula = if external { "R = B - 2 × h" } else { "R = B + 2 × h" };
        tell!(record.step("Diameter at the tip", formula),
            B = blank_diameter: blank, h = depth => root_diameter);
        if root <= 0.0 {
            return refused("The tip would reach the axis. Take a wider tip or a larger blank.", Way::Near);
        }
        let formula = if external { "c = P / 2 - tan(α) × (B - E)" } else { "c = P / 2 - tan(α) × (E - B)" };
        tell!(record.step("Width left on the crest", formula), P = pitch: given.pitch,
            α = half_flank_angle: given.half_angle, B = blank_diameter: blank, E = aim => crest_width);
        let lead_angle = lead_angle(given.lead, ("basic_pitch_diameter", basic), record);
        let sizes = GrooveSizes { aim, depth, root_diameter, crest_width };
        let groove = Self { sizes, blank, lead_angle, tip, sign, unit, slope };
        groove.warn(given, input, record);
        Ok(groove)
    }

    fn warn(&self, given: &GivenThread, input: &SinglePointInput, record: &mut Record) {
        let (basics, unit) = (given.basics, self.unit);
        let root = self.sizes.root_diameter.quantity().in_unit(unit);
        let shallow = if self.sign > 0.0 { root > basics.minor } else { root < basics.major };
        if shallow {
            notes!(record => root_shallow:
                "The tip is too wide for this thread: the root is not deep enough for the crests of the mating thread, \
                 and the two will not go together. Grind the tip narrower.");
        }
        let blank = self.blank.quantity().in_unit(unit);
        let limits = if self.sign > 0.0 {
            let limits = ExternalClass::limits(given.thread(), input.external_class.as_ref()).1.ok();
            limits.map(|limits| (limits.major_min, limits.major_max))
        } else {
            let limits = InternalClass::limits(given.thread(), input.internal_class.as_ref()).1.ok();
            limits.map(|limits| (limits.minor_min, limits.minor_max))
        };
        if limits.is_some_and(|(least, greatest)| blank < least - 1e-9 || blank > greatest + 1e-9) {
            notes!(record => blank_outside_class:
                "The blank is outside the crest limits of the class. If a screw is too large or a bore too small, turn \
                 or bore it to size first; the other way the crests come out short.");
        }
    }
}

/// The pitch diameter to aim at: as stated, else the middle of the limits, else the basic one.
fn aim(
    given: &GivenThread,
    input: &SinglePointInput,
    (external, basic): (bool, FoundSize),
    record: &mut Record,
) -> Result<FoundSize, Refusal> {
    if let Some(stated) = input.pitch_diameter {
        return Ok(step!(record, "Pitch diameter aimed at", E: aim = e, e = pitch_diameter: stated));
    }
    let Some((least, greatest)) = limits(given, input, external, record)? else {
        record.note("basic_aim", "No limits are known for this thread, so the aim is the basic pitch diameter.");
        return Ok(step!(record, "Pitch diameter aimed at", E: aim = e, e = basic_pitch_diameter: basic));
    };
    // As sizes, not as limits: the middle is of the printed ones, in whatever units the answer is.
    let (least, greatest) = (given.found(least), given.found(greatest));
    let table = format!("{}: limits of the class, as printed", given.designation.standard());
    record.look_up("Least pitch diameter", table.clone()).gives("pitch_min", least);
    record.look_up("Greatest pitch diameter", table).gives("pitch_max", greatest);
    Ok(step!(record, "Pitch diameter aimed at: the middle",
        E: aim = (a + b) / 2.0, a = pitch_min: least, b = pitch_max: greatest))
}

/// Limits of the pitch diameter of the side that is cut.
fn limits(
    given: &GivenThread,
    input: &SinglePointInput,
    external: bool,
    record: &mut Record,
) -> Result<Option<(f64, f64)>, Refusal> {
    let thread = given.thread();
    let (field, chosen, found) = if external {
        let (chosen, found) = ExternalClass::limits(thread, input.external_class.as_ref());
        let found = found.map(|limits| (limits.class, limits.tolerances, limits.pitch_min, limits.pitch_max));
        ("external_class", chosen, found)
    } else {
        let (chosen, found) = InternalClass::limits(thread, input.internal_class.as_ref());
        let found = found.map(|limits| (limits.class, limits.tolerances, limits.pitch_min, limits.pitch_max));
        ("internal_class", chosen, found)
    };
    let (class, tolerances, least, greatest) = match found {
        Ok(found) => found,
        Err(_) if chosen == Chosen::Usual => return Ok(None),
        Err(lacking) => return Err(lacking.refusal(field)),
    };
    cite_limits(&tolerances, record);
    if chosen == Chosen::Usual && !class.is_empty() {
        record.assume(field, &class, format!("No class is given: {}.", default_classes(thread).says));
    }
    Ok(Some((least, greatest)))
}
