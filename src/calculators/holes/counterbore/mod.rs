//! The counterbore for a screw's head: diameter, depth, pilot and the hole through (heads and counterbores after ISO 4762,
//! DIN 7984, ISO 4014, DIN 974, ASME B18.3 and B18.2.1).

mod drawing;
mod head;
mod width;

use crate::calculators::prelude::*;
use crate::fastening::{ScrewAndFit, ThroughHole};
use crate::suggestion::{Way, value};

/// The calculator.
pub struct Counterbore;

choice! {
    /// The kind of head: a `socket` head, a `low_socket` head, or a `hexagon` turned by a socket wrench.
    HeadKind {
        /// Socket head cap screw.
        Socket = "socket",
        /// The same with a low head.
        LowSocket = "low_socket" | "low",
        /// Hexagon head.
        Hexagon = "hexagon" | "hex",
    }
}

choice! {
    /// The washer under the head: `none`, or a `flat` one of the standard.
    WasherKind {
        /// No washer.
        None = "none",
        /// A flat washer.
        Flat = "flat",
    }
}

/// What the counterbore calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct CounterboreInput {
    /// The screw and the hole through.
    #[group]
    pub hole: ScrewAndFit,
    /// Kind of head: socket, low socket or hexagon.
    #[label("Kind of head")]
    #[absent("socket", "A socket head cap screw is assumed.")]
    pub head: Option<HeadKind>,
    /// How far the head is to lie below the face.
    #[label("Head below the face by")]
    #[absent("0", value = Extent::stated(0.0, self.hole.screw.unit), "The highest head of the standard comes flush.")]
    pub below: Option<Extent>,
    /// Diameter of the head as measured.
    #[label("Head diameter, measured")]
    pub head_diameter: Option<Size>,
    /// Height of the head as measured.
    #[label("Head height, measured")]
    pub head_height: Option<Size>,
    /// Washer under the head: none or flat.
    #[absent("none", "The head is assumed to bear on the metal.")]
    pub washer: Option<WasherKind>,
    /// Thickness of the washer; of a spring washer pressed flat.
    pub washer_thickness: Option<Size>,
    /// Outside diameter of the washer.
    #[label("Washer diameter")]
    pub washer_diameter: Option<Size>,
    /// Outside diameter of the socket wrench.
    #[label("Wrench diameter, outside")]
    pub wrench_diameter: Option<Size>,
    /// Room all round what goes in. If absent that of the standard, or 0.8 mm (1/32 in).
    #[label("Room all round")]
    pub room: Option<Extent>,
    /// Thickness of the part.
    #[label("Thickness of the part")]
    pub thickness: Option<Size>,
}

/// What the counterbore calculator gives.
#[derive(Debug, Gives)]
pub struct CounterboreResult {
    /// Diameter of the counterbore.
    #[label("Counterbore")]
    pub diameter: FoundSize,
    /// Depth of its flat floor below the face.
    #[label("Counterbore depth")]
    pub depth: FoundDepthSetting,
    /// Room all round the widest of head, washer and wrench.
    #[label("Room around the head")]
    pub room_around: FoundDifference,
    /// The standard that gives the diameter; absent where it comes from the room.
    #[label("Standard of the counterbore")]
    pub standard: Option<&'static str>,
    /// The hole through and its drill.
    #[group]
    pub hole: ThroughHole,
    /// The pilot that turns freely in the hole, for a piloted tool.
    #[label("Largest pilot")]
    pub pilot_diameter: FoundSize,
    /// Metal left under the head; needs the thickness of the part.
    #[needs(thickness)]
    pub left_under_head: Option<FoundExtent>,
}

rules! { check(CounterboreInput) {
    needs_any(washer_diameter => washer | washer_thickness, washer_diameter = "leave out", washer = "flat"):
        "This is the diameter of a washer: say which washer, or how thick it is.";
} }

impl Calculator for Counterbore {
    const ID: &'static str = "holes/counterbore";
    const TITLE: &'static str = "Counterbore for a screw head";
    const ABOUT: &'static str = "Diameter and depth of the counterbore for a socket or hexagon head, flush or below, with \
        washer and wrench, the drill through, the pilot, and the metal left under the head.";
    const TASK: Task = Task::MakeTheHole;
    const ANOTHER_CHECK: &'static str = "Put the screw in and lay a straightedge across: it must not rock on the head.";
    const WORDS: &'static str = "counterbore, cap screw, socket head, allen screw, hex head, hexagon head, spot face, \
        spotface, piloted counterbore, pilot, recess, flush, washer, DIN 974, B18.3";
    const EXAMPLES: &'static [Example] = examples! {
        "An M8 cap screw flush in a winch side plate 20 mm thick.": screw = "M8", head = "socket", thickness = "20 mm";
        "A 1/4 in cap screw 1/32 in below the face of a pump cover, in a close hole.":
            screw = "1/4", fit = "close", below = "1/32 in", systems = "fraction,number,letter", from = "tables";
        "A hexagon head M10 with a flat washer in a mill bed; the socket wrench is 22 mm over its outside.":
            screw = "M10", head = "hexagon", washer = "flat", wrench_diameter = "22 mm", room = "1 mm";
        "An M6 screw with a spring washer 1.6 mm thick and 11.8 mm wide; its head measures 10.2 by 5.9 mm.":
            screw = "M6", washer_thickness = "1.6 mm", washer_diameter = "11.8 mm", head_diameter = "10.2 mm",
            head_height = "5.9 mm";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "What size of counterbore does an {screw} socket head cap screw need?" => "diameter":
            { screw = "M5" | "M6" | "M8" | "M10" | "M12", head = "socket", from = "tables" };
        1 "How deep is the counterbore for an {screw} socket head that comes flush?" => "depth":
            { screw = "M5" | "M6" | "M8" | "M10" | "M12", head = "socket", from = "tables" }
            { screw = "1/4" | "5/16" | "3/8" | "1/2", head = "socket", units = "inch", from = "tables" };
        2 "A {screw} socket head is to lie {below} below the face. How deep is the counterbore?" => "depth":
            { screw = "M6" | "M8" | "M10", below = "0.5 mm" | "1 mm" | "2 mm", from = "tables" }
            { screw = "1/4" | "3/8" | "1/2", below = "1/32 in" | "1/16 in", units = "inch", from = "tables" };
        2 "A low {screw} socket head comes flush in a plate {thickness} thick. How much metal is left under it?"
            => "left_under_head":
            { screw = "M6" | "M8" | "M10", head = "low_socket", thickness = "10 mm" | "12 mm" | "15 mm", from = "tables" };
        3 "A flat washer goes under the {screw} socket head, which comes flush. How deep is the counterbore?" => "depth":
            { screw = "M6" | "M8" | "M10" | "M12", washer = "flat", from = "tables" };
        3 "A {wrench_diameter} socket wrench has to reach an {screw} hexagon head, with {room} all round. What size of            counterbore?" => "diameter":
            { screw = "M8" | "M10", head = "hexagon", wrench_diameter = "20 mm" | "22 mm" | "24 mm", room = "1 mm" | "1.5 mm",
              from = "tables" };
    };
    type Input = CounterboreInput;
    type Output = CounterboreResult;
    const LEADS: &'static [&'static str] = &["diameter", "depth", "drill/name"];
    const CONTEXT: &'static [&'static str] =
        &["hole {hole_diameter}", "by {standard}", "{left_under_head} left under the head"];
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.cautions(&[cautions::DRILLING, cautions::COUNTERSINKING, cautions::TURNING_SPINDLE]);
        let hole = input.hole.hole(record)?;
        let head = input.head(record);
        let sizes = head::sizes(input, head, record)?;
        let (diameter, standard) = width::width(input, head, &sizes, record)?;
        let room_around: FoundDifference = step!(record, "Room around the widest of them",
            r: room_around = (D - w) / 2.0, D = diameter, w = "widest": sizes.widest);
        if room_around.get().si() < -1e-9 {
            notes!(record => head_too_wide:
                "What goes in is wider than the counterbore of the standard: give the room that you want all round.");
        }
        let below = input.below(record);
        let head_height = sizes.height;
        let depth: FoundDepthSetting = match sizes.washer_thickness {
            Some(washer_thickness) => step!(record, "Depth of the floor",
                t: depth = k + s + b, k = head_height, s = washer_thickness, b = below),
            None => step!(record, "Depth of the floor", t: depth = k + b, k = head_height, b = below),
        };
        let (of, runs_in) = match &hole.drill {
            Some(drill) => ("drill.diameter", drill.diameter),
            None => ("hole_diameter", hole.hole_diameter),
        };
        let unit = input.hole.screw.unit;
        let play = FoundExtent::stated(if unit == Unit::Inch { 0.002 } else { 0.05 }, unit);
        record.source("common_practice", "a pilot 0.05 mm (0.002 in) under its hole, so that it turns and takes oil");
        let pilot_diameter: FoundSize = step!(record, "The pilot that turns freely in the hole",
            p: pilot_diameter = d - c, d = (of): runs_in, c = "constant:pilot_play": play);
        let left_under_head = match input.thickness {
            Some(thickness) => Some(left(input, thickness, depth, record)?),
            None => None,
        };
        Ok(CounterboreResult { diameter, depth, room_around, standard, hole, pilot_diameter, left_under_head })
    }
}

/// The metal under the head; a counterbore that goes through is refused.
fn left(
    input: &CounterboreInput,
    thickness: Size,
    depth: FoundDepthSetting,
    record: &mut Record,
) -> Result<FoundExtent, Refusal> {
    if depth.get().si() >= thickness.get().si() {
        let says = format!("The counterbore is {} deep and would come through the part.", depth.quantity().text());
        let good = value(depth.get().si() * 1.5, thickness.quantity().unit, Way::Up);
        return Err(Refusal::no_answer(&says, &[("thickness", good)]));
    }
    let left_under_head: FoundExtent = step!(record, "Metal left under the head",
        l: left_under_head = T - t, T = thickness, t = depth);
    if left_under_head.get().si() < input.hole.screw.found().get().si() / 2.0 {
        notes!(record => thin_under_head:
            "Less metal is left under the head than half the screw's diameter. Check that it carries the load.");
    }
    Ok(left_under_head)
}
