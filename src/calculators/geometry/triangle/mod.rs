//! A triangle from any three of its sides and angles that fix it: plane trigonometry, computed so that needles and
//! nearly right angles keep their digits (Kahan 2014), checked against handbook examples and random triangles in high
//! precision.

mod drawing;
mod refusal;
mod solve;
mod steps;

use crate::calculators::prelude::*;

/// The calculator.
pub struct Triangle;

/// What the triangle calculator asks for: exactly three of the six, one of them a side.
#[derive(Clone, Copy, Debug, Asks)]
#[asks(check = check)]
pub struct TriangleInput {
    /// Side a, opposite angle A.
    #[label("Side a")]
    pub side_a: Option<Size>,
    /// Side b, opposite angle B.
    #[label("Side b")]
    pub side_b: Option<Size>,
    /// Side c, opposite angle C; the longest side where angle C is the right angle.
    #[label("Side c")]
    pub side_c: Option<Size>,
    /// Angle A, between sides b and c.
    #[label("Angle A")]
    pub angle_a: Option<CornerAngle>,
    /// Angle B, between sides a and c.
    #[label("Angle B")]
    pub angle_b: Option<CornerAngle>,
    /// Angle C, between sides a and b; 90 deg in a right triangle.
    #[label("Angle C")]
    pub angle_c: Option<CornerAngle>,
}

/// One triangle.
#[derive(Debug, Gives)]
pub struct TriangleSolution {
    /// Side a, opposite angle A.
    #[label("Side a")]
    pub side_a: FoundSize,
    /// Side b, opposite angle B.
    #[label("Side b")]
    pub side_b: FoundSize,
    /// Side c, opposite angle C.
    #[label("Side c")]
    pub side_c: FoundSize,
    /// Angle A.
    #[label("Angle A")]
    pub angle_a: FoundCornerAngle,
    /// Angle B.
    #[label("Angle B")]
    pub angle_b: FoundCornerAngle,
    /// Angle C.
    #[label("Angle C")]
    pub angle_c: FoundCornerAngle,
    /// Area.
    pub area: FoundArea,
    /// Length around it.
    pub perimeter: FoundSize,
    /// Height over side a.
    #[label("Height over side a")]
    pub height_a: FoundSize,
    /// Height over side b.
    #[label("Height over side b")]
    pub height_b: FoundSize,
    /// Height over side c.
    #[label("Height over side c")]
    pub height_c: FoundSize,
    /// Radius of the circle that touches all sides from inside.
    #[label("Radius of the circle inside")]
    pub inscribed_radius: FoundSize,
    /// Radius of the circle through the corners.
    #[label("Radius through the corners")]
    pub circumscribed_radius: FoundSize,
}

/// What the triangle calculator gives.
#[derive(Debug, Gives)]
pub struct TriangleResult {
    /// Every triangle that has the three, the one with the longest third side first.
    #[label("Triangles", "triangle")]
    pub solutions: Vec<TriangleSolution>,
}

fn check(input: &TriangleInput) -> Result<(), ValidationError> {
    refusal::unless_three(input)
}

impl Calculator for Triangle {
    const ID: &'static str = "geometry/triangle";
    const TITLE: &'static str = "Triangle";
    const ABOUT: &'static str = "From any three sides and angles, right or oblique: all sides and angles, area, heights, \
        and the circles inside and through the corners. Where two triangles fit, both.";
    const TASK: Task = Task::LayOut;
    // Sides and angles of a figure; nothing is set by them alone.
    const AT_THE_MACHINE: bool = false;
    const ANOTHER_CHECK: &'static str =
        "The angles add up to 180°, and the longest side lies opposite the largest angle. Draw it to scale.";
    const WORDS: &'static str = "right triangle, oblique, trigonometry, sine, cosine, tangent, hypotenuse, pythagoras, \
        law of sines, law of cosines, side and angle, height, inscribed circle, circumscribed circle, area";
    const EXAMPLES: &'static [Example] = examples! {
        "A gusset for the mill bracket: 3 in up, 4 in out, a right angle between them.":
            side_a = "3 in", side_b = "4 in", angle_c = "90 deg";
        "Three pin centers of a winch plate, 80, 65 and 52 mm apart: what are the angles?":
            side_a = "80 mm", side_b = "65 mm", side_c = "52 mm";
        "A brace of 90 mm reaches from the end of a 120 mm rail, which meets the wall at 40°. Two triangles fit.":
            side_a = "90 mm", side_b = "120 mm", angle_a = "40 deg";
        "A sloped face of 2.5 in between angles of 35° and 60°.":
            side_c = "2.5 in", angle_a = "35 deg", angle_b = "60 deg";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "A gusset is {side_a} up and {side_b} out, with a right angle between. How long is the slope?"
            => "solutions/0/side_c":
            { side_a = "3 in" | "2 in" | "2-1/2 in", side_b = "4 in" | "5 in" | "6 in", angle_c = "90 deg" }
            { side_a = "60 mm" | "80 mm" | "45 mm", side_b = "90 mm" | "120 mm", angle_c = "90 deg" };
        1 "A right triangle has the slope {side_c} and the angle {angle_a} at its foot. How high does it rise?"
            => "solutions/0/side_a":
            { side_c = "5 in" | "8 in" | "10 in", angle_a = "15 deg" | "30 deg" | "37 deg", angle_c = "90 deg" }
            { side_c = "100 mm" | "150 mm" | "200 mm", angle_a = "20 deg" | "30 deg" | "45 deg", angle_c = "90 deg" };
        2 "Two holes lie {side_b} and {side_c} from a third, at {angle_a} to each other. How far apart are the two?"
            => "solutions/0/side_a":
            { side_b = "2 in" | "3 in", side_c = "2-1/2 in" | "4 in", angle_a = "50 deg" | "75 deg" | "110 deg" }
            { side_b = "50 mm" | "70 mm", side_c = "60 mm" | "90 mm", angle_a = "40 deg" | "65 deg" | "120 deg" };
        2 "Three pins are {side_a}, {side_b} and {side_c} apart. What is the angle opposite the first distance?"
            => "solutions/0/angle_a":
            { side_a = "8 in" | "7 in", side_b = "9 in" | "6 in", side_c = "10 in" | "5 in" }
            { side_a = "80 mm" | "70 mm", side_b = "65 mm" | "60 mm", side_c = "52 mm" | "40 mm" };
        3 "A {side_c} face lies between angles of {angle_a} and {angle_b}. How high is the corner above the face?"
            => "solutions/0/height_c":
            { side_c = "2-1/2 in" | "4 in", angle_a = "35 deg" | "50 deg", angle_b = "60 deg" | "45 deg" }
            { side_c = "60 mm" | "100 mm", angle_a = "35 deg" | "50 deg", angle_b = "60 deg" | "45 deg" };
        3 "A pin is to touch all three sides of a pocket {side_a}, {side_b} and {side_c} long. What radius has it?"
            => "solutions/0/inscribed_radius":
            { side_a = "3 in" | "5 in", side_b = "4 in" | "6 in", side_c = "5 in" | "6 in" }
            { side_a = "30 mm" | "45 mm", side_b = "40 mm" | "60 mm", side_c = "50 mm" | "55 mm" };
    };
    type Input = TriangleInput;
    type Output = TriangleResult;
    const CONTEXT: &'static [&'static str] = &[
        "sides {solutions/0/side_a}, {solutions/0/side_b}, {solutions/0/side_c}",
        "angles {solutions/0/angle_a}, {solutions/0/angle_b}, {solutions/0/angle_c}",
    ];
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "sines, cosines and areas of plane triangles");
        let found = solve::solve(&input.given())?;
        let solutions = steps::tell(&input.given(), &found, record);
        if solutions.len() > 1 {
            record.note(
                "two_triangles",
                "Two triangles have these sizes: the angle does not lie between the two sides. Look at the part to see \
                 which it is: the first has the longer third side.",
            );
        }
        if solutions.iter().any(|one| one.inscribed_radius.si() < one.perimeter.si() * 1e-3) {
            record.note(
                "needle",
                "This triangle is nearly a straight line: a small error in one size moves the others a lot.",
            );
        }
        Ok(TriangleResult { solutions })
    }
}

impl TriangleInput {
    /// The sides and the angles, a first.
    fn given(&self) -> ([Option<Size>; 3], [Option<CornerAngle>; 3]) {
        ([self.side_a, self.side_b, self.side_c], [self.angle_a, self.angle_b, self.angle_c])
    }
}
