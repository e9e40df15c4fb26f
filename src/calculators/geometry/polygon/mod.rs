//! A regular polygon from any one of its sizes: plane geometry, checked against a handbook's table of polygons and
//! corners in the complex plane.

mod drawing;

use crate::calculators::prelude::*;

/// The calculator.
pub struct Polygon;

/// What the polygon calculator asks for: how many sides, and one size.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct PolygonInput {
    /// How many sides, 3 to 360.
    #[label("Number of sides")]
    pub sides: Count<3, 360>,
    /// Diameter of the circle inside that touches the sides: of an even number of sides the size across flats.
    #[label("Across flats, circle inside")]
    pub inside_diameter: Option<Size>,
    /// Diameter of the circle through the corners: of an even number of sides the size across corners.
    #[label("Across corners, circle outside")]
    pub corner_diameter: Option<Size>,
    /// Length of a side.
    #[label("Length of a side")]
    pub side: Option<Size>,
    /// What a caliper reads from one flat to what lies opposite: a flat, or a corner where the number of sides is odd.
    #[label("Caliper from a flat")]
    pub caliper: Option<Size>,
}

/// What the polygon calculator gives.
#[derive(Debug, Gives)]
pub struct PolygonResult {
    /// Diameter of the circle that touches the sides; across flats of an even number of sides.
    #[label("Across flats, circle inside")]
    pub inside_diameter: FoundSize,
    /// Diameter of the circle through the corners, which is the least round stock; across corners of an even number of
    /// sides.
    #[label("Across corners, least round stock")]
    pub corner_diameter: FoundSize,
    /// Length of a side.
    #[label("Length of a side")]
    pub side: FoundSize,
    /// What a caliper reads from one flat to what lies opposite: a flat, or a corner where the number of sides is odd.
    #[label("Caliper from a flat")]
    pub caliper: FoundSize,
    /// Depth of each flat, milled into round stock of the size across corners.
    #[label("Depth of each flat")]
    pub flat_depth: FoundExtent,
    /// Angle from one side to the next, which the work is turned by.
    #[label("Turn from side to side")]
    pub turn: FoundCornerAngle,
    /// Angle between two sides, inside.
    #[label("Angle at a corner")]
    pub corner_angle: FoundCornerAngle,
    /// Area.
    pub area: FoundArea,
    /// Length around it.
    pub perimeter: FoundSize,
}

const ONE_SIZE: &str = "Give one size: across flats, across corners, the length of a side or what the caliper reads.";

rules! { check(PolygonInput) {
    one_of(inside_diameter = "1 in", corner_diameter = "1 in", side = "0.5 in", caliper = "1 in"): ONE_SIZE;
    not_both(inside_diameter, corner_diameter): ONE_SIZE;
    not_both(inside_diameter, side): ONE_SIZE;
    not_both(inside_diameter, caliper): ONE_SIZE;
    not_both(corner_diameter, side): ONE_SIZE;
    not_both(corner_diameter, caliper): ONE_SIZE;
    not_both(side, caliper): ONE_SIZE;
} }

impl Calculator for Polygon {
    const ID: &'static str = "geometry/polygon";
    const TITLE: &'static str = "Regular polygon";
    const ABOUT: &'static str = "Hexagon, square, octagon and any other: across flats and corners, side, the round stock \
        it needs, how deep each flat is milled, and what a caliper reads, from any one size.";
    const TASK: Task = Task::LayOut;
    const ANOTHER_CHECK: &'static str =
        "Measure across each pair of flats: they agree where the work was turned by equal angles.";
    const WORDS: &'static str = "hexagon, hex, square, octagon, pentagon, across flats, across corners, wrench flats, \
        nut, bar for a hexagon, number of sides, inscribed circle, circumscribed circle";
    const EXAMPLES: &'static [Example] = examples! {
        "A winch nut is 1-1/2 in across flats: what round bar does it take, and how deep are the flats?":
            sides = "6", inside_diameter = "1-1/2 in";
        "The largest square in 30 mm bar for a valve key.": sides = "4", corner_diameter = "30 mm";
        "A five-lobed knob has sides of 20 mm.": sides = "5", side = "20 mm";
        "A caliper reads 38 mm from a flat of a five-sided hydrant nut to the corner opposite.":
            sides = "5", caliper = "38 mm";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "A hexagon is {inside_diameter} across flats. How far is it across corners?" => "corner_diameter":
            { sides = "6", inside_diameter = "1/2 in" | "3/4 in" | "1 in" | "1-1/2 in" }
            { sides = "6", inside_diameter = "13 mm" | "19 mm" | "24 mm" | "36 mm" };
        1 "You mill the largest square from {corner_diameter} round bar. How wide is it across flats?"
            => "inside_diameter":
            { sides = "4", corner_diameter = "3/4 in" | "1 in" | "1-1/2 in" }
            { sides = "4", corner_diameter = "20 mm" | "25 mm" | "40 mm" };
        2 "A polygon of {sides} sides, {inside_diameter} across flats, comes from the least round bar. How deep is each \
            flat?" => "flat_depth":
            { sides = "6" | "8", inside_diameter = "1 in" | "1-1/4 in" | "2 in" }
            { sides = "6" | "8", inside_diameter = "24 mm" | "30 mm" | "46 mm" };
        3 "A five-sided nut has sides of {side}. What does the caliper read from a flat to the corner opposite?"
            => "caliper":
            { sides = "5", side = "1/2 in" | "3/4 in" | "1 in" } { sides = "5", side = "12 mm" | "16 mm" | "20 mm" };
    };
    type Input = PolygonInput;
    type Output = PolygonResult;
    const LEADS: &'static [&'static str] = &["corner_diameter"];
    const CONTEXT: &'static [&'static str] =
        &["{inside_diameter} across flats", "side {side}", "flats {flat_depth} deep", "turn {turn}"];
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "right triangle of center, corner and middle of a side");
        record.caution(cautions::MILLING);
        let sides = input.sides.get();
        let turn: FoundCornerAngle = step!(record, "Turn from side to side",
            θ: turn = radians(2.0 * π / n), n = sides);
        let is_odd = !sides.is_multiple_of(2);
        let inside_diameter: FoundSize = match (input.inside_diameter, input.corner_diameter, input.side, input.caliper)
        {
            (Some(flats), ..) => {
                let found = flats.found();
                tell!(record.choose("Circle inside", "as given"), d = inside_diameter: flats => inside_diameter: found);
                found
            }
            (_, Some(corners), ..) => step!(record, "Circle inside, from the corners",
                d: inside_diameter = C * cos(θ / 2.0), C = corner_diameter: corners, θ = turn),
            (_, _, Some(side), _) => step!(record, "Circle inside, from the side",
                d: inside_diameter = a / tan(θ / 2.0), a = side, θ = turn),
            (_, _, _, Some(caliper)) if is_odd => step!(record, "Circle inside, from flat to corner",
                d: inside_diameter = 2.0 * m * cos(θ / 2.0) / (1.0 + cos(θ / 2.0)), m = caliper, θ = turn),
            (_, _, _, caliper) => {
                let flats = caliper.unwrap_or(Size::stated(1.0, Unit::Inch));
                tell!(record.choose("Circle inside", "the caliper reads from flat to flat"), m = caliper: flats
                    => inside_diameter: flats.found());
                flats.found()
            }
        };
        let d = inside_diameter;
        let corner_diameter: FoundSize = step!(record, "Circle through the corners",
            C: corner_diameter = d / cos(θ / 2.0), d = inside_diameter, θ = turn);
        let side: FoundSize = step!(record, "Side", a: side = d * tan(θ / 2.0), d = inside_diameter, θ = turn);
        let caliper: FoundSize = if is_odd {
            step!(record, "From a flat to the corner opposite", m: caliper = (d + C) / 2.0,
                d = inside_diameter, C = corner_diameter)
        } else {
            tell!(record.choose("From a flat to the flat opposite", "an even number of sides"), d = inside_diameter
                => caliper: d);
            d
        };
        let flat_depth: FoundExtent = step!(record, "Depth of each flat in that bar",
            f: flat_depth = (C - d) / 2.0, C = corner_diameter, d = inside_diameter);
        let corner_angle: FoundCornerAngle = step!(record, "Angle at a corner",
            φ: corner_angle = radians(π) - θ, θ = turn);
        let perimeter: FoundSize = step!(record, "Length around", u: perimeter = n * a, n = sides, a = side);
        let area: FoundArea = step!(record, "Area", A: area = u * d / 4.0, u = perimeter, d = inside_diameter);
        record
            .note("sharp_corners", "These are sharp corners. Take stock a little larger if they must come out sharp.");
        Ok(PolygonResult {
            inside_diameter,
            corner_diameter,
            side,
            caliper,
            flat_depth,
            turn,
            corner_angle,
            area,
            perimeter,
        })
    }
}
