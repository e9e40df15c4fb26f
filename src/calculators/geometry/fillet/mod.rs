//! An arc of a given radius that blends two lines, a line and a circle, or two circles: every one there is, with its
//! center, the places where it touches, and where the cutter stands there.

mod corner;
mod drawing;
mod rounds;
mod rules;
mod tell;

use crate::arithmetic::directions::BlendSide;
use crate::arithmetic::plane::{ReadoutPoint, TwoCircles, check_circles};
use crate::calculators::prelude::*;

/// The calculator.
pub struct Fillet;

/// What the blend radius calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct FilletInput {
    /// Radius of the arc.
    pub radius: Size,
    /// Angle between two edges at their corner; readings then count from the corner, with the first edge along +X.
    #[label("Angle at the corner")]
    pub corner_angle: Option<CornerAngle>,
    /// X and Y of two points on the first line.
    #[label("First line", "first line, point")]
    pub first_line: Option<Points>,
    /// X and Y of two points on the second line.
    #[label("Second line", "second line, point")]
    pub second_line: Option<Points>,
    /// A circle beside the first line, or two circles.
    #[group]
    pub circles: TwoCircles,
    /// Length of the shorter edge, from the corner; a radius that runs past its end is refused.
    #[label("Shorter edge")]
    pub edge_length: Option<Size>,
    /// Diameter of the cutter that mills the arc.
    #[label("Cutter")]
    pub cutter_diameter: Option<Size>,
    /// Which way the arc is cut, as a hollow inside or as a rounded corner outside; needed with a cutter.
    #[label("Inside or outside")]
    pub side: Option<BlendSide>,
}

/// What the blend radius calculator gives.
#[derive(Debug, Gives)]
pub struct FilletResult {
    /// Every arc of the radius that touches both, that between two lines as they were given first.
    #[label("Arcs", "arc")]
    pub fillets: Vec<FilletArc>,
    /// Where the lines meet.
    #[label("Corner")]
    pub corner: Option<ReadoutPoint>,
    /// Radius on which the cutter's center runs.
    #[label("Cutter center's radius")]
    pub cutter_path_radius: Option<FoundExtent>,
}

/// An arc that touches both.
#[derive(Clone, Debug, Gives)]
pub struct FilletArc {
    /// Where it lies.
    #[label("Lies")]
    pub lies: String,
    /// Its center.
    #[label("Center")]
    pub center: ReadoutPoint,
    /// Where it touches the first line, or the first of two circles.
    #[label("Touches the first at")]
    pub first: ReadoutPoint,
    /// Where it touches the second line or the circle.
    #[label("Touches the second at")]
    pub second: ReadoutPoint,
    /// From the one tangent point to the other, straight across.
    #[label("Between tangent points")]
    pub across: FoundExtent,
    /// The angle of the arc at its center.
    #[label("Angle of the arc")]
    pub arc_angle: FoundAngle,
    /// From the corner to each tangent point; of two lines.
    #[label("Corner to tangent point")]
    pub to_tangents: Option<FoundExtent>,
    /// From the corner to the arc, along the line that halves it; of two lines.
    #[label("Corner to arc")]
    pub to_arc: Option<FoundExtent>,
    /// The cutter's center where the arc begins on the first; needs the cutter diameter and the side.
    #[label("Cutter at the first")]
    pub first_cutter: Option<ReadoutPoint>,
    /// The cutter's center where the arc ends on the second; needs the cutter diameter and the side.
    #[label("Cutter at the second")]
    pub second_cutter: Option<ReadoutPoint>,
}

fn check(input: &FilletInput) -> Result<(), ValidationError> {
    rules::check_parts(input)?;
    check_circles(&input.circles)
}

impl Calculator for Fillet {
    const ID: &'static str = "geometry/fillet";
    const TITLE: &'static str = "Radius that blends two edges";
    const ABOUT: &'static str = "An arc of a given radius that touches two lines, a line and a circle, or two circles: \
        center, tangent points, and where the cutter stands at each.";
    const TASK: Task = Task::LayOut;
    const ANOTHER_CHECK: &'static str = "Hold a radius gauge to the arc. Measure from the corner, or from a pin in \
        each tangent point, to the other tangent point.";
    const WORDS: &'static str = "fillet, corner radius, blend radius, round a corner, inside corner, tangent arc, \
        tangent point, arc center, radius between two circles, gusset";
    const EXAMPLES: &'static [Example] = examples! {
        "The inside corner of a gusset, 60° between its edges, gets a 1/2 in radius from a 3/4 in end mill.":
            radius = "1/2 in", corner_angle = "60 deg", edge_length = "3 in", cutter_diameter = "3/4 in", side = "inside";
        "Two edges of a winch plate, two points on each, are to meet in a 12 mm radius, rounded with a 10 mm cutter.":
            radius = "12 mm", first_line = "20 mm,0 mm;90 mm,0 mm", second_line = "10 mm,20 mm;40 mm,80 mm",
            cutter_diameter = "10 mm", side = "outside";
        "A 1 in radius runs from the edge of a pump foot into its 3 in boss.":
            radius = "1 in", first_line = "-5 in,0 in;5 in,0 in", first_center = "0 in,1 in", first_diameter = "3 in";
        "A 60 mm radius joins the hub and the eye of a lever.":
            radius = "60 mm", first_center = "0 mm,0 mm", first_diameter = "50 mm", second_center = "90 mm,0 mm",
            second_diameter = "30 mm";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "Two edges meet at {corner_angle}. A {radius} radius blends them. How far from the corner does it begin?"
            => "fillets/0/to_tangents":
            { radius = "1/4 in" | "3/8 in" | "1/2 in", corner_angle = "90 deg" | "60 deg" | "120 deg" }
            { radius = "6 mm" | "10 mm" | "12 mm", corner_angle = "90 deg" | "60 deg" | "120 deg" };
        2 "A gusset's edges meet at {corner_angle} in a {radius} radius. How far is it from the sharp corner to the arc?"
            => "fillets/0/to_arc":
            { radius = "1/4 in" | "1/2 in" | "3/4 in", corner_angle = "45 deg" | "60 deg" | "75 deg" }
            { radius = "8 mm" | "12 mm" | "20 mm", corner_angle = "45 deg" | "60 deg" | "75 deg" };
        2 "A {radius} radius blends the edge through {first_line} and the edge through {second_line}. Where is its center \
           on X?" => "fillets/0/center/x":
            { radius = "1/4 in" | "1/2 in", first_line = "1 in,0 in;5 in,0 in" | "2 in,0.5 in;6 in,0.5 in",
              second_line = "0 in,1 in;0 in,4 in" | "0 in,1 in;1 in,4 in" }
            { radius = "6 mm" | "10 mm", first_line = "20 mm,0 mm;90 mm,0 mm",
              second_line = "0 mm,20 mm;0 mm,80 mm" | "10 mm,20 mm;40 mm,80 mm" };
        3 "A {radius} radius joins a hub of {first_diameter} at {first_center} and an eye of {second_diameter} at \
           {second_center}, outside both, on the left from hub to eye. Where is its center on Y?"
            => "fillets/0/center/y":
            { radius = "2 in" | "3 in", first_center = "0 in,0 in", first_diameter = "2 in" | "3 in",
              second_center = "4 in,0 in" | "5 in,0 in", second_diameter = "1 in" }
            { radius = "60 mm" | "80 mm", first_center = "0 mm,0 mm", first_diameter = "50 mm" | "60 mm",
              second_center = "90 mm,0 mm" | "100 mm,0 mm", second_diameter = "30 mm" };
    };
    type Input = FilletInput;
    type Output = FilletResult;
    const LEADS: &'static [&'static str] = &["fillets/0/center/x", "fillets/0/center/y"];
    const CONTEXT: &'static [&'static str] = &[
        "{fillets/0/to_tangents} from corner to tangent point",
        "{fillets/0/to_arc} from corner to arc",
        "{fillets/0/lies}",
    ];
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source(
            "geometry",
            "an arc that touches has its center a radius from the line, and on the line of centers",
        );
        let (blends, corner) = match (input.corner_angle, &input.first_line, &input.second_line) {
            (Some(angle), ..) => (corner::at_angle(input, angle, record)?, None),
            (_, Some(first), Some(second)) => corner::of_lines(input, first, second, record)?,
            (_, Some(line), None) => (rounds::at_line(input, line, record)?, None),
            _ => (rounds::at_circles(input, record)?, None),
        };
        let (fillets, cutter_path_radius) = tell::tell(input, blends, record)?;
        if fillets.len() > 1 {
            record.note(
                "choose",
                "Every arc of this radius that touches both is listed. Find yours by where it lies, and compare it with \
                 the drawing.",
            );
        }
        Ok(FilletResult { fillets, corner, cutter_path_radius })
    }
}
