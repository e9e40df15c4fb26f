//! How deep a spot drill goes for a mouth or a chamfer, and where the drill that follows touches first: plane geometry of
//! two cones.

mod drawing;

use crate::calculators::prelude::*;
use crate::suggestion::{Way, value};

/// The calculator.
pub struct SpotDrill;

/// What the spot drill calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check, check = check_size)]
pub struct SpotDrillInput {
    /// Diameter that the mouth of the spot is to have.
    #[label("Mouth wanted")]
    pub mouth: Option<Size>,
    /// Width of the chamfer that is to be left round the hole, on the face; needs the drill.
    #[label("Chamfer wanted")]
    pub chamfer: Option<Size>,
    /// Drill that follows, as a length or by its name.
    #[label("Drill that follows")]
    pub drill: Option<DrillDiameter>,
    /// Included angle of the spot drill.
    #[absent("90 deg", "A 90° spot drill is assumed; look at the tool.")]
    pub spot_angle: Option<PointAngle>,
    /// Included angle of the point of the drill that follows.
    #[label("Point angle of the drill")]
    #[absent("118 deg", "118° is the general-purpose point; look at the drill.")]
    pub point_angle: Option<PointAngle>,
    /// Width of the flat or chisel edge at the tip of the spot drill, as seen from the side.
    #[label("Flat at the tip")]
    #[absent("0", value = Extent::stated(0.0, Unit::Millimetre), "The tip is assumed sharp. A flat tip needs less depth: measure the first spot.")]
    pub tip_flat: Option<Extent>,
    /// Full diameter of the spot drill, which the mouth cannot be larger than.
    #[label("Spot drill diameter")]
    pub spot_diameter: Option<Size>,
}

/// What the spot drill calculator gives.
#[derive(Debug, Gives)]
pub struct SpotDrillResult {
    /// Depth of the spot drill's tip below the face.
    pub spot_depth: FoundDepthSetting,
    /// Diameter of the mouth on the face.
    pub mouth_diameter: FoundSize,
    /// What the drill that follows leaves.
    #[group]
    #[needs(drill)]
    pub after: Option<AfterDrilling>,
}

/// What the drill that follows finds and leaves.
#[derive(Debug, Gives)]
pub struct AfterDrilling {
    /// Where the drill touches first: its center, its lips, or both together.
    #[label("Drill touches first with its")]
    pub touches_with: &'static str,
    /// Width of the chamfer left round the hole, on the face; absent where the drill takes the whole mouth away.
    #[label("Chamfer left")]
    pub chamfer_left: Option<FoundExtent>,
    /// Depth of that chamfer below the face.
    #[label("Depth of the chamfer")]
    pub chamfer_depth: Option<FoundExtent>,
}

impl SpotDrillInput {
    fn mouth_si(&self) -> Option<f64> {
        let of_chamfer = || Some(self.drill?.size.get().si() + 2.0 * self.chamfer?.get().si());
        self.mouth.map(|mouth| mouth.get().si()).or_else(of_chamfer)
    }
}

rules! { check(SpotDrillInput) {
    one_of(mouth = "0.3 in", chamfer = "0.02 in"): "Give the mouth of the spot, or the chamfer to be left.";
    not_both(mouth, chamfer): "Give the mouth of the spot or the chamfer to be left, not both.";
    needs(chamfer => drill = "1/4 in"): "The chamfer is left round the hole of the drill: give the drill too.";
    never(|input| input.mouth_si().zip(input.tip_flat).is_some_and(|(mouth, flat)| flat.get().si() >= mouth),
        Code::Conflict, tip_flat = "0 in"): "The flat at the tip must be smaller than the mouth.";
} }

/// The mouth cannot be larger than the spot drill.
fn check_size(input: &SpotDrillInput) -> Result<(), ValidationError> {
    let (Some(mouth), Some(full)) = (input.mouth_si(), input.spot_diameter) else { return Ok(()) };
    let full = full.get().si();
    if mouth <= full * (1.0 + 1e-9) {
        return Ok(());
    }
    let larger = input.spot_diameter.map_or(Unit::Inch, |size| size.quantity().unit);
    let larger = value(mouth, larger, Way::Up);
    let mut ways = vec![("spot_diameter", larger.as_str())];
    let around = full - input.drill.map_or(0.0, |drill| drill.size.get().si());
    let smaller = match (input.mouth, input.chamfer) {
        (Some(mouth), _) => Some(("mouth", value(full, mouth.quantity().unit, Way::Down))),
        (None, Some(chamfer)) if around > 0.0 => {
            Some(("chamfer", value(around / 2.0, chamfer.quantity().unit, Way::Down)))
        }
        _ => None,
    };
    ways.extend(smaller.as_ref().map(|(field, value)| (*field, value.as_str())));
    let says = "The spot drill is smaller than the mouth. Take a larger spot drill or a smaller mouth.";
    Err(rule_broken(Code::Conflict, says, &ways))
}

impl Calculator for SpotDrill {
    const ID: &'static str = "holes/spot-drill";
    const TITLE: &'static str = "Spot drill depth";
    const ABOUT: &'static str = "How deep to spot so that the mouth has the diameter wanted or the chamfer is left round the \
        hole, and whether the drill that follows starts on its center or on its lips.";
    const TASK: Task = Task::MakeTheHole;
    const ANOTHER_CHECK: &'static str = "Measure the mouth of the first spot with calipers before you drill.";
    const WORDS: &'static str = "spotting drill, spot depth, chamfer, countersink depth, starting drill, pilot, cone, 90, \
        120, 142, deburr";
    const EXAMPLES: &'static [Example] = examples! {
        "A 90° spot drill leaves a chamfer of 0.02 in round the holes for 1/4 in drills in a winch bracket.":
            chamfer = "0.02 in", drill = "1/4 in", spot_angle = "90 deg", point_angle = "118 deg",
            spot_diameter = "1/2 in";
        "A 120° spot with a mouth of 5 mm for an 8 mm drill in a pump flange; the tip has a flat of 0.3 mm.":
            mouth = "5 mm", drill = "8 mm", spot_angle = "120 deg", tip_flat = "0.3 mm";
        "A mark to be seen on a mill gear blank: a spot 3 mm wide.": mouth = "3 mm";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "A {spot_angle} spot drill is to leave a mouth of {mouth}. How deep does its tip go?" => "spot_depth":
            { spot_angle = "90 deg", mouth = "0.25 in" | "0.3 in" | "0.375 in" | "0.5 in" }
            { spot_angle = "90 deg" | "120 deg", mouth = "5 mm" | "6 mm" | "8 mm" | "10 mm" };
        1 "A {drill} drill follows, and a chamfer of {chamfer} is to be left round the hole. How wide is the mouth?"
            => "mouth_diameter":
            { drill = "1/4 in" | "3/8 in" | "1/2 in", chamfer = "0.01 in" | "0.02 in" | "0.03 in" }
            { drill = "6 mm" | "8 mm" | "10 mm", chamfer = "0.3 mm" | "0.5 mm" | "1 mm" };
        2 "A {spot_angle} spot drill leaves a chamfer of {chamfer} round a {drill} hole. How deep does its tip go?"
            => "spot_depth":
            { spot_angle = "90 deg", drill = "1/4 in" | "3/8 in" | "1/2 in", chamfer = "0.01 in" | "0.02 in" }
            { spot_angle = "90 deg" | "120 deg", drill = "6 mm" | "8 mm" | "10 mm", chamfer = "0.5 mm" | "1 mm" };
        3 "The {spot_angle} spot drill has a flat of {tip_flat} at its tip. How deep does it go for a mouth of {mouth}?"
            => "spot_depth":
            { spot_angle = "90 deg", tip_flat = "0.02 in" | "0.03 in", mouth = "0.3 in" | "0.4 in" }
            { spot_angle = "90 deg" | "120 deg", tip_flat = "0.3 mm" | "0.5 mm", mouth = "6 mm" | "9 mm" };
    };
    type Input = SpotDrillInput;
    type Output = SpotDrillResult;
    const LEADS: &'static [&'static str] = &["spot_depth"];
    const CONTEXT: &'static [&'static str] =
        &["mouth {mouth_diameter}", "{chamfer_left} of chamfer left", "the drill starts on its {touches_with}"];
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "right triangle of the cone: half the width over the tangent of half the angle");
        record.cautions(&[cautions::DRILLING, cautions::TURNING_SPINDLE]);
        let spot_angle = input.spot_angle(record);
        let tip_flat = input.tip_flat(record);
        let mouth_diameter: FoundSize = match (input.mouth, input.chamfer, input.drill) {
            (Some(mouth), ..) => {
                let Quantity { value, unit, .. } = mouth.quantity();
                let found = FoundSize::stated(value, unit);
                tell!(record.choose("Mouth", "as asked for"), m = mouth => mouth_diameter: found);
                found
            }
            (None, Some(chamfer), Some(drill)) => step!(record, "Mouth: the hole and the chamfer on both sides",
                m: mouth_diameter = d + 2.0 * c, d = drill: drill.size, c = chamfer),
            _ => return Err(Refusal::no_answer("Give a mouth.", &[("mouth", "0.3 in".into())])),
        };
        let spot_depth: FoundDepthSetting = step!(record, "Depth of the spot drill's tip",
            z: spot_depth = (m - w) / (2.0 * tan(α / 2.0)), m = mouth_diameter, w = tip_flat, α = spot_angle);
        let after = input.drill.map(|drill| after(input, drill, (mouth_diameter, spot_angle), record));
        Ok(SpotDrillResult { spot_depth, mouth_diameter, after })
    }
}

/// What the drill that follows finds and leaves.
fn after(
    input: &SpotDrillInput,
    drill: DrillDiameter,
    (mouth, spot_angle): (FoundSize, PointAngle),
    record: &mut Record,
) -> AfterDrilling {
    let point_angle = input.point_angle(record);
    let off = spot_angle.get().si() - point_angle.get().si();
    let touches_with = match off {
        ..-1e-9 => {
            notes!(record => lips_first: "The spot is narrower than the drill's point, so the drill's lips touch before its \
                center. A high-speed steel drill stands that if you feed it gently; the lips of a carbide drill can \
                chip. To start on the center, spot with an angle at least as large as the drill's.");
            "lips"
        }
        1e-9.. => "center",
        _ => "center and lips together",
    };
    record
        .look_up(
            "Where the drill touches first",
            "its center where the spot's angle is larger, its lips where it is smaller",
        )
        .with("α", "spot_angle", spot_angle)
        .with("σ", "point_angle", point_angle)
        .gives("touches_with", touches_with);
    if mouth.get().si() <= drill.size.get().si() * (1.0 + 1e-12) {
        notes!(record => no_chamfer: "The drill takes the whole mouth away, so no chamfer is left. Deburr the hole.");
        return AfterDrilling { touches_with, chamfer_left: None, chamfer_depth: None };
    }
    let chamfer_left: FoundExtent = step!(record, "Chamfer left on the face",
        e: chamfer_left = (m - d) / 2.0, m = mouth_diameter: mouth, d = drill: drill.size);
    let chamfer_depth: FoundExtent = step!(record, "Its depth",
        f: chamfer_depth = e / tan(α / 2.0), e = chamfer_left, α = spot_angle);
    notes!(record => as_large_as_the_drill: "The chamfer is for a hole as large as its drill. If the drill cuts large, \
        the chamfer comes out that much smaller.");
    AfterDrilling { touches_with, chamfer_left: Some(chamfer_left), chamfer_depth: Some(chamfer_depth) }
}
