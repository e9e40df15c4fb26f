//! An arc of a circle from any two of its sizes: plane geometry of circle, chord and segment,
//! checked against textbook examples and an arbitrary-precision library.

use crate::calculators::prelude::*;
use measured::LegGauge;

mod angle;
mod drawing;
mod measured;
mod refusal;
mod steps;

/// The calculator.
pub struct Arc;

/// What the arc calculator asks for: exactly two of the six sizes, or three points, or a gauge.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct ArcInput {
    /// Two of its sizes.
    #[group]
    pub sizes: ArcSizes,
    /// Three points along the arc in place of its sizes, X and Y of each: one end, a point between, the other end.
    #[label("Three points along it", "point")]
    pub points: Option<Points>,
    /// A gauge with legs, in place of its sizes.
    #[group]
    pub gauge: LegGauge,
}

/// The sizes of an arc, of which two make it.
#[derive(Clone, Copy, Debug, Default, Asks)]
pub struct ArcSizes {
    /// Radius of the circle.
    pub radius: Option<Size>,
    /// Straight distance between the ends of the arc.
    pub chord: Option<Size>,
    /// Greatest distance of the arc from its chord; more than the radius where the arc is more than half a circle.
    pub height: Option<Size>,
    /// Length along the arc.
    pub arc_length: Option<Size>,
    /// Angle that the arc spans at the center: above 0 and below 360 deg.
    #[label("Central angle")]
    pub angle: Option<ArcAngle>,
    /// Area between arc and chord.
    pub segment_area: Option<Area>,
}

/// What the arc calculator gives.
#[derive(Debug, Gives)]
pub struct ArcResult {
    /// Every arc that has the two sizes, the one of the smallest angle first.
    #[label("Arcs", "arc")]
    pub solutions: Vec<ArcSolution>,
}

/// One arc.
#[derive(Debug, Gives)]
pub struct ArcSolution {
    /// Radius of the circle.
    pub radius: FoundSize,
    /// Straight distance between the ends.
    pub chord: FoundSize,
    /// Greatest distance of the arc from its chord.
    pub height: FoundSize,
    /// Length along the arc.
    pub arc_length: FoundSize,
    /// Angle at the center.
    #[label("Central angle")]
    pub angle: FoundArcAngle,
    /// Area between arc and chord.
    pub segment_area: FoundArea,
}

impl ArcSizes {
    /// The sizes given, with their names.
    pub fn given(&self) -> Vec<(&'static str, Quantity)> {
        let Self { radius, chord, height, arc_length, angle, segment_area } = self;
        let lengths = [("radius", radius), ("chord", chord), ("height", height), ("arc_length", arc_length)];
        let lengths = lengths.map(|(name, size)| (name, size.as_ref().map(Measure::quantity)));
        let others = [
            ("angle", angle.as_ref().map(Measure::quantity)),
            ("segment_area", segment_area.as_ref().map(Measure::quantity)),
        ];
        lengths.into_iter().chain(others).filter_map(|(name, quantity)| Some((name, quantity?))).collect()
    }
}

fn check(input: &ArcInput) -> Result<(), ValidationError> {
    let given = input.sizes.given();
    let others = usize::from(input.points.is_some()) + usize::from(input.gauge.is_given());
    if others == 0 {
        return refusal::unless_two(&given);
    }
    if others > 1 || !given.is_empty() {
        let mut ways: Vec<(&'static str, &str)> = given.iter().map(|(name, _)| (*name, "leave out")).collect();
        let of_gauge = [("leg_spacing", input.gauge.leg_spacing.is_some()), ("rise", input.gauge.rise.is_some())];
        let others = of_gauge.into_iter().chain([("points", input.points.is_some())]);
        ways.extend(others.filter(|(_, given)| *given).map(|(name, _)| (name, "leave out")));
        let says = "Give two sizes of the arc, or three points along it, or what a gauge shows: one of these only.";
        return Err(rule_broken(Code::Conflict, says, &ways));
    }
    measured::check_points(input.points.as_ref())?;
    measured::check_gauge(&input.gauge)
}

impl Calculator for Arc {
    const ID: &'static str = "geometry/arc";
    const TITLE: &'static str = "Arc, chord and segment";
    const ABOUT: &'static str = "From any two of radius, chord, height, arc length, central angle and segment area, \
        from three points along it, or from a gauge with legs on a broken part: all six sizes.";
    const TASK: Task = Task::LayOut;
    // Sides and angles of a figure; nothing is set by them alone.
    const AT_THE_MACHINE: bool = false;
    const ANOTHER_CHECK: &'static str =
        "Lay a straightedge as long as the chord across the arc and measure the height at its middle.";
    const WORDS: &'static str = "radius, chord, height, rise, sagitta, segment, arc length, central angle, circle, \
        bend, bend radius, radius gauge, \
        spherometer, straightedge and depth rod, broken pulley";
    const EXAMPLES: &'static [Example] = examples! {
        "A broken pulley rim: the chord over a piece is 21 mm and the rim rises 6 mm above it. What was the radius?":
            chord = "21 mm", height = "6 mm";
        "A flat 12 mm wide is milled along a shaft of 10 mm radius: how deep is the cut? Two arcs fit.":
            radius = "10 mm", chord = "12 mm";
        "A brake band of 9 in is to wrap 210° of a winch drum: what drum does it fit?":
            arc_length = "9 in", angle = "210 deg";
        "Oil covers 1.2 in² of the end wall of a gear case bored to 2 in radius: how deep does it stand?":
            radius = "2 in", segment_area = "1.2 in2";
        "A guard is rolled from a 250 mm strip so that it stands 60 mm high.":
            height = "60 mm", arc_length = "250 mm";
        "A piece of a flywheel's rim under a two-leg gauge: legs 4 in apart with 1/4 in ball tips rise 0.2113 in.":
            leg_spacing = "4 in", rise = "0.2113 in", leg_tip_radius = "0.125 in", surface = "raised", legs = "two";
        "Three points scribed along a cracked fan shroud, read on the mill.":
            points = "0 mm,0 mm;60 mm,25 mm;140 mm,10 mm";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "A broken pulley rim: over a chord of {chord} the rim rises {height}. What was its radius?"
            => "solutions/0/radius":
            { chord = "20 mm" | "30 mm" | "50 mm" | "80 mm", height = "3 mm" | "5 mm" | "6 mm" }
            { chord = "2 in" | "3 in" | "4 in", height = "1/4 in" | "3/8 in" | "1/2 in" };
        1 "A brake band is to wrap {angle} of a drum of {radius} radius. How long is it along the arc?"
            => "solutions/0/arc_length":
            { radius = "3 in" | "4 in" | "4-1/2 in", angle = "180 deg" | "210 deg" | "270 deg" }
            { radius = "80 mm" | "100 mm" | "120 mm", angle = "180 deg" | "210 deg" | "270 deg" };
        2 "You mill a flat {chord} wide along a shaft of {radius} radius, less than half through. How deep is the cut?"
            => "solutions/0/height":
            { radius = "10 mm" | "12.5 mm" | "20 mm", chord = "8 mm" | "10 mm" | "12 mm" }
            { radius = "1/2 in" | "3/4 in" | "1 in", chord = "3/8 in" | "1/2 in" | "5/8 in" };
        2 "A guard of {radius} radius spans {angle}. How far apart are its ends, straight across?" => "solutions/0/chord":
            { radius = "6 in" | "8 in" | "10 in", angle = "60 deg" | "75 deg" | "90 deg" | "120 deg" }
            { radius = "150 mm" | "200 mm" | "250 mm", angle = "60 deg" | "75 deg" | "90 deg" | "120 deg" };
        3 "A flat goes {height} deep into a shaft of {radius} radius. How wide does it come out?" => "solutions/0/chord":
            { radius = "10 mm" | "15 mm" | "20 mm", height = "1 mm" | "2 mm" | "3 mm" }
            { radius = "1/2 in" | "3/4 in" | "1 in", height = "1/16 in" | "1/8 in" | "3/16 in" };
        3 "A two-leg gauge with sharp legs {leg_spacing} apart shows {rise} on a piece of a rim. What was its radius?"
            => "solutions/0/radius":
            { leg_spacing = "2 in" | "3 in" | "4 in", rise = "1/16 in" | "1/8 in" | "0.2 in" }
            { leg_spacing = "50 mm" | "80 mm" | "100 mm", rise = "2 mm" | "3 mm" | "5 mm" };
        3 "A worn cam: the chord is {chord} and the radius {radius}, and less than half the circle is left. What angle            does the arc span?" => "solutions/0/angle":
            { radius = "30 mm" | "40 mm" | "50 mm", chord = "30 mm" | "40 mm" | "50 mm" }
            { radius = "2 in" | "2-1/2 in" | "3 in", chord = "2 in" | "2-1/2 in" | "3 in" };
    };
    type Input = ArcInput;
    type Output = ArcResult;
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "chord, height, length and area of an arc by its radius and its central angle");
        let sizes = match &input.points {
            Some(points) => measured::by_points(points, record)?,
            None if input.gauge.is_given() => measured::by_gauge(&input.gauge, record)?,
            None => input.sizes,
        };
        let degrees = angle::angles(&sizes);
        if degrees.is_empty() {
            return Err(refusal::none_exists(&sizes.given()));
        }
        let solutions = steps::find_arcs(&sizes, &degrees, record);
        notes(&sizes, &solutions, record);
        Ok(ArcResult { solutions })
    }
}

/// What to know about the answer.
fn notes(input: &ArcSizes, solutions: &[ArcSolution], record: &mut Record) {
    if solutions.len() > 1 {
        record.note(
            "two_arcs",
            "Two arcs have these sizes. Look at the part to see which it is: the first spans less of its circle.",
        );
    }
    let Some(first) = solutions.first() else { return };
    let shallow = (first.height.get() / first.chord.get()).value < 0.05;
    if shallow && input.height.is_some() && (input.chord.is_some() || input.arc_length.is_some()) {
        record.note(
            "shallow_height",
            "The height is small beside the chord: a height off by one percent puts the radius off by one percent \
             too. Measure the height with an indicator, or over a longer chord.",
        );
    }
    if shallow && input.chord.is_some() && input.arc_length.is_some() {
        record.note(
            "nearly_straight",
            "Chord and arc length are nearly equal, and everything else rests on their small difference. Measure \
             the height instead.",
        );
    }
    let near_half = solutions.iter().any(|arc| (arc.angle.degrees() - 180.0).abs() < 10.0);
    if near_half && input.radius.is_some() && input.chord.is_some() {
        record.note(
            "near_half_circle",
            "Near half a circle the chord hardly changes with the angle: a small error in either size moves the \
             height and the angle a lot.",
        );
    }
}

/// A column of a size given, kept as it was stated.
pub fn column<K: Kind>(given: &Measure<K>, rows: usize) -> Vec<Found<K>> {
    vec![given.found(); rows]
}
