//! How deep a countersink goes for a diameter, a flat head or the chamfer of a thread, from where it touched, and how a ball
//! measures it (plane geometry of the cone; heads after ISO 10642, ISO 2009, ASME B18.3 and B18.6.3).

mod cone;
mod drawing;
mod mouth;
mod rules;

use crate::calculators::prelude::*;
use crate::reference::screws::ScrewSize;
use cone::Cone;
use rules::{check_tool, check_wanted};

/// The calculator.
pub struct Countersink;

choice! {
    /// A flat head: `socket`, slotted or crossed `machine`, inch `machine_100`, or the older, smaller `din_7991`.
    FlatHead {
        /// Socket head.
        Socket = "socket",
        /// Slotted or cross-recessed.
        Machine = "machine",
        /// The inch one of 100 degrees.
        Machine100 = "machine_100",
        /// The older metric socket head.
        Din7991 = "din_7991",
    }
}

choice! {
    /// What touched at zero: the tip on the `face`, or the cone on the hole's `edge`.
    ZeroedOn {
        /// The tip on the face.
        Face = "face",
        /// The cone on the edge of the hole.
        Edge = "edge",
    }
}

/// What the countersink calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check_wanted, check = check_tool)]
pub struct CountersinkInput {
    /// Diameter wanted at the face.
    #[label("Diameter wanted")]
    pub diameter: Option<Size>,
    /// The flat-head screw to sit in it.
    pub screw: Option<ScrewSize>,
    /// Kind of flat head.
    #[label("Kind of head")]
    #[absent("socket", "A socket flat head is assumed; slotted and cross-recessed heads differ.")]
    pub head: Option<FlatHead>,
    /// How far the head lies below the face.
    #[label("Head below the face by")]
    #[absent("0", value = Extent::stated(0.0, self.unit()), "The largest head of the standard comes flush.")]
    pub below: Option<Extent>,
    /// Thread whose hole is chamfered.
    #[label("Thread to chamfer for")]
    pub thread: Option<Designation>,
    /// How far the quill went, to find the diameter.
    #[label("Quill travel given")]
    pub quill_travel: Option<Extent>,
    /// Angle of the tool; that of the head if absent, else 90 degrees.
    #[label("Angle of the tool")]
    pub point_angle: Option<PointAngle>,
    /// Hole that is countersunk.
    #[label("Hole there is")]
    pub hole_diameter: Option<DrillDiameter>,
    /// What touched at zero: face or edge; the hole's edge if absent.
    #[label("Zero set on")]
    pub touched: Option<ZeroedOn>,
    /// Flat at the tool's tip.
    #[label("Flat at the tip")]
    #[absent("0", value = Extent::stated(0.0, self.unit()), "The tool is assumed to end in a sharp tip.")]
    pub tip_flat: Option<Extent>,
    /// Radius at the tip, in place of a flat.
    #[label("Radius at the tip")]
    pub tip_radius: Option<Size>,
    /// Ball that measures the countersink.
    #[label("Measuring ball")]
    pub ball_diameter: Option<Size>,
}

/// The chamfer that is left around a hole.
#[derive(Debug, Gives)]
pub struct Chamfer {
    /// Width of the chamfer on one side.
    pub chamfer_width: FoundExtent,
    /// Depth of the chamfer.
    pub chamfer_depth: FoundExtent,
}

/// What the countersink calculator gives.
#[derive(Debug, Gives)]
pub struct CountersinkResult {
    /// How far the quill goes from the touch.
    #[label("Quill travel from the touch")]
    pub travel: FoundDepthSetting,
    /// Diameter at the face.
    #[label("Countersink")]
    pub mouth_diameter: FoundSize,
    /// Depth of the tip below the face.
    #[label("Tip below the face")]
    pub tip_depth: FoundExtent,
    /// The chamfer.
    #[group]
    #[needs(hole_diameter)]
    pub chamfer: Option<Chamfer>,
    /// How far the smallest head lies below.
    #[label("Smallest head lies below by")]
    pub head_below_most: Option<FoundExtent>,
    /// Ball's top above the face; negative below.
    #[needs(ball_diameter)]
    #[label("Ball stands above by")]
    pub ball_above: Option<FoundDifference>,
}

impl CountersinkInput {
    /// The unit of what is wanted.
    fn unit(&self) -> Unit {
        let screw = self.screw.as_ref().map(|screw| screw.unit);
        let thread = || self.thread.as_ref().map(Designation::unit);
        let given = || self.diameter.map(|size| size.quantity().unit);
        screw
            .or_else(thread)
            .or_else(given)
            .or(self.quill_travel.map(|size| size.quantity().unit))
            .unwrap_or(Unit::Inch)
    }
}

impl Calculator for Countersink {
    const ID: &'static str = "holes/countersink";
    const TITLE: &'static str = "Countersink depth";
    const ABOUT: &'static str = "How far the quill goes for a countersink of a diameter, for a flat-head screw or for a chamfer \
        before tapping, and how a ball measures it.";
    const TASK: Task = Task::MakeTheHole;
    const ANOTHER_CHECK: &'static str =
        "Measure across the countersink with a caliper, or lay the screw in and feel its rim.";
    const WORDS: &'static str = "countersink, chamfer, flat head, flathead, deburr, 82 degree, 90 degree, 100 degree, bevel, \
        countersunk screw, screw head, ISO 10642, DIN 7991, center ball";
    const EXAMPLES: &'static [Example] = examples! {
        "An M6 socket flat head flush in a winch cover, the cone touching the edge of its 6.6 mm hole.":
            screw = "M6", head = "socket", hole_diameter = "6.6 mm", touched = "edge";
        "A 1/4 in slotted flat head, 0.010 in below a pump cover; a 1/2 in ball measures it.":
            screw = "1/4", head = "machine", below = "0.010 in", hole_diameter = "17/64", ball_diameter = "0.4 in";
        "A tool of 90° with a flat of 1 mm marks a center of 8 mm in solid bar.":
            diameter = "8 mm", point_angle = "90 deg", tip_flat = "1 mm", touched = "face";
        "The hole for M8 in a mill bracket is chamfered before tapping.": thread = "M8", hole_diameter = "6.8 mm";
        "A 60° tool with a tip of 0.5 mm radius went 3 mm into the face: how large is the mark?":
            quill_travel = "3 mm", point_angle = "60 deg", tip_radius = "0.5 mm";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "A sharp {point_angle} tool touches the solid face. How far down is it for a mark of {diameter}?" => "travel":
            { diameter = "1/4 in" | "3/8 in" | "1/2 in", point_angle = "90 deg" | "82 deg" | "60 deg" }
            { diameter = "6 mm" | "8 mm" | "10 mm" | "12 mm", point_angle = "90 deg" | "60 deg" };
        1 "How large is the countersink for an {screw} socket flat head to come flush?" => "mouth_diameter":
            { screw = "M4" | "M5" | "M6" | "M8" | "M10", head = "socket" };
        2 "A 90 degree tool touches the edge of a {hole_diameter} hole. How far does it go to open it to {diameter}?"
            => "travel":
            { diameter = "10 mm" | "12 mm" | "14 mm", hole_diameter = "5 mm" | "6.6 mm" | "8 mm", point_angle = "90 deg" }
            { diameter = "3/8 in" | "1/2 in" | "5/8 in", hole_diameter = "1/4 in" | "5/16 in", point_angle = "90 deg" };
        2 "The tool of {point_angle} has a flat of {tip_flat} and touches the face. How far down for {diameter}?" => "travel":
            { diameter = "8 mm" | "10 mm" | "12 mm", tip_flat = "0.5 mm" | "1 mm" | "2 mm", point_angle = "90 deg" };
        3 "A {screw} slotted flat head is to lie {below} below the face. How large is the countersink?" => "mouth_diameter":
            { screw = "#8" | "#10" | "1/4", head = "machine", below = "0.005 in" | "0.01 in" | "0.02 in", units = "inch" };
        3 "The quill went {quill_travel} from the edge of a {hole_diameter} hole with a 90 degree tool. How large is the            countersink?" => "mouth_diameter":
            { quill_travel = "1 mm" | "1.5 mm" | "2 mm", hole_diameter = "5 mm" | "6.6 mm" | "9 mm", point_angle = "90 deg" };
    };
    type Input = CountersinkInput;
    type Output = CountersinkResult;
    const LEADS: &'static [&'static str] = &["travel", "mouth_diameter"];
    const CONTEXT: &'static [&'static str] =
        &["to {mouth_diameter} across", "ball {ball_above} above the face", "smallest head {head_below_most} below"];
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.cautions(&[cautions::COUNTERSINKING, cautions::TURNING_SPINDLE]);
        record.source("geometry", "right triangle of the cone, and a ball that touches it");
        let row = mouth::head_row_of(input, record)?;
        let cone = Cone::of(input, row, record)?;
        let mouth_diameter = mouth::mouth(input, &cone, row, record)?;
        let tip_depth = cone.tip_depth(mouth_diameter, record)?;
        let chamfer = match &cone.hole {
            Some(hole) => Some(chamfer(mouth_diameter, *hole, &cone, record)?),
            None => None,
        };
        let travel: FoundDepthSetting = match (&chamfer, cone.touched) {
            (Some(chamfer), ZeroedOn::Edge) => {
                let chamfer_depth = chamfer.chamfer_depth;
                step!(record, "Travel from the hole's edge", z: travel = c, c = chamfer_depth)
            }
            _ => step!(record, "Travel from the face", z: travel = t, t = tip_depth),
        };
        let head_below_most = mouth::smallest_head(input, &cone, mouth_diameter, row, record);
        let ball_above = match input.ball_diameter {
            Some(ball) => Some(cone.ball(ball, mouth_diameter, record)?),
            None => None,
        };
        Ok(CountersinkResult { travel, mouth_diameter, tip_depth, chamfer, head_below_most, ball_above })
    }
}

/// The chamfer around a hole; a hole as large as the countersink is refused.
fn chamfer(
    mouth_diameter: FoundSize,
    hole_diameter: Size,
    cone: &Cone,
    record: &mut Record,
) -> Result<Chamfer, Refusal> {
    let point_angle = cone.angle;
    let chamfer_width: FoundExtent = step!(record, "Width of the chamfer",
        e: chamfer_width = not_negative((C - H) / 2.0), C = mouth_diameter, H = hole_diameter);
    let chamfer_depth: FoundExtent = step!(record, "Depth of the chamfer",
        c: chamfer_depth = e / tan(σ / 2.0), e = chamfer_width, σ = point_angle);
    Ok(Chamfer { chamfer_width, chamfer_depth })
}
