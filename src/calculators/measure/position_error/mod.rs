//! How far holes or studs are out of position against their zone, with the bonus at maximum material condition and the
//! uncertainty of the measurement: plane geometry and the rules of ASME Y14.5.

mod drawing;
mod steps;

use crate::arithmetic::measured::{HoleOrShaft, MeasuredWithin};
use crate::arithmetic::verdict::Verdict;
use crate::calculators::prelude::*;
use steps::{Taken, find_zones, judge};

/// The calculator.
pub struct PositionError;

/// A hole or stud, where the drawing has it and where it was measured.
#[derive(Clone, Debug, Asks)]
pub struct MeasuredHole {
    /// X on the drawing.
    #[label("Drawing X")]
    pub basic_x: Place,
    /// Y on the drawing.
    #[label("Drawing Y")]
    pub basic_y: Place,
    /// X that was measured.
    #[label("Measured X")]
    pub measured_x: Place,
    /// Y that was measured.
    #[label("Measured Y")]
    pub measured_y: Place,
    /// Diameter that was measured.
    #[label("Measured diameter")]
    pub measured_size: Option<Size>,
}

/// The measured holes, in the order given.
pub type MeasuredHoles = Rows<MeasuredHole>;

/// What the position error asks for.
#[derive(Debug, Asks)]
#[asks(check = check, check = check_places, check = check_sizes)]
pub struct PositionErrorInput {
    /// Diameter of the round zone on the drawing.
    #[label("Zone diameter")]
    pub zone: Option<Size>,
    /// Tolerance of each coordinate, plus or minus, in place of a zone.
    #[label("Plus or minus on each axis")]
    pub plus_minus: Option<Size>,
    /// X of the hole on the drawing.
    #[label("Drawing X")]
    pub basic_x: Option<Place>,
    /// Y of the hole on the drawing.
    #[label("Drawing Y")]
    pub basic_y: Option<Place>,
    /// X of the hole as measured.
    #[label("Measured X")]
    pub measured_x: Option<Place>,
    /// Y of the hole as measured.
    #[label("Measured Y")]
    pub measured_y: Option<Place>,
    /// Diameter as measured, for the bonus.
    #[label("Measured diameter")]
    pub measured_size: Option<Size>,
    /// Several holes in place of one.
    #[label("Several holes", "hole")]
    pub holes: Option<MeasuredHoles>,
    /// Smallest hole or largest stud allowed, for a zone with the circled M.
    #[label("Diameter at maximum material")]
    pub mmc_size: Option<Size>,
    /// Largest hole or smallest stud allowed.
    #[label("Diameter at least material")]
    pub lmc_size: Option<Size>,
    /// A hole, or a shaft such as a stud.
    #[label("Hole or shaft")]
    pub feature: Option<HoleOrShaft>,
    /// How far off each measured coordinate may be.
    #[group]
    pub within: MeasuredWithin,
}

/// A hole or stud against its zone.
#[derive(Debug, Gives)]
pub struct JudgedHole {
    /// Number of the hole, in the order given.
    #[label("Number")]
    pub number: u32,
    /// How far it is off in X.
    #[label("Off in X")]
    pub x: FoundDifference,
    /// How far it is off in Y.
    #[label("Off in Y")]
    pub y: FoundDifference,
    /// Twice how far it is off.
    pub position_error: FoundExtent,
    /// What its diameter adds to the zone.
    pub bonus: Option<FoundExtent>,
    /// The zone with the bonus.
    #[label("Zone with bonus")]
    pub allowed: Option<FoundSize>,
    /// What is left, on the diameter of a zone or on the worse axis; negative if out.
    pub left: FoundDifference,
    /// Whether it is in position.
    pub verdict: Verdict,
}

/// What the position error gives.
#[derive(Debug, Gives)]
pub struct PositionErrorResult {
    /// Whether all are in position.
    #[needs(measured_x | holes)]
    pub verdict: Option<Verdict>,
    /// The greatest position error, as a diameter.
    #[needs(measured_x | holes)]
    pub position_error: Option<FoundExtent>,
    /// The least that is left; negative if one is out.
    #[label("Least that is left")]
    #[needs(measured_x | holes)]
    pub left: Option<FoundDifference>,
    /// Each hole against its zone.
    #[label("Holes", "hole")]
    #[needs(measured_x | holes)]
    pub holes: Option<Vec<JudgedHole>>,
    /// Plus or minus on each axis that stays inside the zone.
    #[label("Plus or minus inside the zone")]
    #[needs(zone)]
    pub plus_minus_inside: Option<FoundExtent>,
    /// The round zone through the corners of the square.
    #[label("Round zone around the square")]
    #[needs(plus_minus)]
    pub zone_around: Option<FoundSize>,
    /// The round zone inside the square.
    #[label("Round zone inside the square")]
    #[needs(plus_minus)]
    pub zone_inside: Option<FoundSize>,
}

rules! { check(PositionErrorInput) {
    one_of(zone = "0.2 mm", plus_minus = "0.1 mm"): "Give the diameter of the zone, or the tolerance of each axis.";
    not_both(zone, plus_minus): "Give the round zone or the tolerance of each axis, not both.";
    never(|input| input.plus_minus.is_some() && input.mmc_size.is_some(), Code::Conflict, mmc_size = "leave out"):
        "A bonus at maximum material goes with a round zone only.";
    needs(mmc_size => feature = "hole"): "Say whether it is a hole or a shaft: a hole's bonus grows with it, a stud's as it shrinks.";
    needs(lmc_size => mmc_size = "10 mm", lmc_size = "leave out"): "The least material limit matters only for a bonus.";
    needs(measured_size => mmc_size = "10 mm", measured_size = "leave out"):
        "A measured diameter matters only for a bonus: give the diameter at maximum material too.";
    never(|input| input.within.uncertainty.is_some() && input.measured_x.is_none() && input.holes.is_none(),
        Code::Conflict, uncertainty = "leave out", measured_x = "10.05 mm"):
        "How far off the measurement may be matters only for a measured hole.";
    never(|input| input.lmc_size.zip(input.mmc_size).is_some_and(|(lmc, mmc)| match input.feature {
            Some(HoleOrShaft::Shaft) => lmc.get() >= mmc.get(),
            _ => lmc.get() <= mmc.get(),
        }), Code::Conflict, lmc_size = "leave out", mmc_size = "leave out"):
        "At least material a hole is larger, and a stud smaller, than at maximum material.";
} }

/// Either the four places of one hole, or a list, or none.
fn check_places(input: &PositionErrorInput) -> Result<(), ValidationError> {
    let one = stated!(input: basic_x = "25 mm", basic_y = "40 mm", measured_x = "25.05 mm", measured_y = "39.96 mm");
    let missing = to_give(&one);
    if input.holes.is_some() && missing.len() < one.len() {
        let says = "Give the places of one hole, or the list of several, not both.";
        return Err(rule_broken(Code::Conflict, says, &to_leave_out(&one)));
    }
    if missing.is_empty() || missing.len() == one.len() {
        return Ok(());
    }
    Err(rule_broken(Code::FieldMissing, "A hole needs X and Y on the drawing, and X and Y as measured.", &missing))
}

/// With a bonus every hole needs its diameter, and without one none has one.
fn check_sizes(input: &PositionErrorInput) -> Result<(), ValidationError> {
    let rows = input.holes.as_ref().map_or(&[][..], |holes| &holes.0);
    let with = rows.iter().filter(|row| row.measured_size.is_some()).count();
    if input.mmc_size.is_some() && input.measured_x.is_some() && input.measured_size.is_none() {
        let says = "The bonus goes by the measured diameter: give it, or leave out the diameter at maximum material.";
        let ways = [("measured_size", "10.05 mm"), ("mmc_size", "leave out")];
        return Err(rule_broken(Code::FieldMissing, says, &ways));
    }
    if input.mmc_size.is_some() && with < rows.len() {
        let says = "The bonus goes by the measured diameter: give it as the fifth part of every row.";
        let good = "25 mm, 40 mm, 25.05 mm, 39.96 mm, 10.05 mm";
        return Err(rule_broken(Code::FieldMissing, says, &[("holes", good), ("mmc_size", "leave out")]));
    }
    if input.mmc_size.is_none() && with > 0 {
        let says = "Measured diameters matter only for a bonus: give the diameter at maximum material too.";
        return Err(rule_broken(Code::Conflict, says, &[("mmc_size", "10 mm")]));
    }
    Ok(())
}

impl Calculator for PositionError {
    const ID: &'static str = "measure/position-error";
    const TITLE: &'static str = "Position error of holes";
    const ABOUT: &'static str = "How far holes or studs are out of position, with the bonus at maximum material, and \
        what is left of a round zone or a plus-and-minus tolerance.";
    const TASK: Task = Task::Check;
    const AT_THE_MACHINE: bool = false;
    const ANOTHER_CHECK: &'static str = "At maximum material try a gauge: a plate with pins at the exact places, each as \
        large as the smallest hole less the zone, must drop in.";
    const WORDS: &'static str = "true position, GD&T, position tolerance, feature control frame, MMC, bonus, circled M, \
        basic dimension, inspection, hole location, coordinate tolerance";
    const EXAMPLES: &'static [Example] = examples! {
        "A hole in a winch bracket, measured on the mill's readout.":
            zone = "0.014 in", basic_x = "1.000 in", basic_y = "1.500 in", measured_x = "1.004 in",
            measured_y = "1.497 in";
        "The same with a zone of 0.010 in and the circled M.":
            zone = "0.010 in", basic_x = "1.000 in", basic_y = "1.500 in", measured_x = "1.004 in",
            measured_y = "1.497 in", measured_size = "0.502 in", mmc_size = "0.499 in", lmc_size = "0.504 in",
            feature = "hole", uncertainty = "0.0005 in";
        "Three holes of a pump flange, 0.2 mm zone, no bonus.": zone = "0.2 mm",
            holes = "40 mm,0 mm,40.05 mm,0.04 mm;-20 mm,34.641 mm,-20.02 mm,34.70 mm;-20 mm,-34.641 mm,-20.07 mm,-34.55 mm";
        "An older drawing of a pump foot has 0.1 mm either way on each axis: what round zone is that?":
            plus_minus = "0.1 mm";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "An old print gives {plus_minus} either way on each axis. What round zone goes through the corners?"
            => "zone_around":
            { plus_minus = "0.005 in" | "0.010 in" | "0.003 in" } { plus_minus = "0.1 mm" | "0.05 mm" | "0.2 mm" };
        1 "The position zone of a bracket's holes is {zone}. What is that as plus or minus on each axis, to be safe?"
            => "plus_minus_inside":
            { zone = "0.010 in" | "0.014 in" | "0.028 in" } { zone = "0.2 mm" | "0.3 mm" | "0.5 mm" };
        2 "A hole belongs at X {basic_x}, Y {basic_y}, and measures X {measured_x}, Y {measured_y}; its zone is {zone}. \
            What is its position error?" => "position_error":
            { zone = "0.014 in", basic_x = "1.000 in", basic_y = "1.500 in", measured_x = "1.003 in" | "0.996 in",
              measured_y = "1.504 in" | "1.497 in" }
            { zone = "0.2 mm", basic_x = "25 mm", basic_y = "40 mm", measured_x = "25.03 mm" | "24.94 mm",
              measured_y = "40.04 mm" | "39.92 mm" };
        3 "The smallest {feature} allowed is {mmc_size}, and this one measures {measured_size}. It belongs at X {basic_x}, \
            Y {basic_y}, is at X {measured_x}, Y {measured_y}, and has a zone of {zone} with the circled M. What is left?"
            => "left":
            { feature = "hole", zone = "0.010 in", mmc_size = "0.499 in", measured_size = "0.502 in" | "0.500 in",
              basic_x = "1.000 in", basic_y = "1.500 in", measured_x = "1.004 in" | "0.997 in",
              measured_y = "1.503 in" | "1.496 in" }
            { feature = "hole", zone = "0.2 mm", mmc_size = "10 mm", measured_size = "10.1 mm" | "10.05 mm",
              basic_x = "25 mm", basic_y = "40 mm", measured_x = "25.08 mm" | "24.94 mm",
              measured_y = "40.06 mm" | "39.92 mm" };
    };
    type Input = PositionErrorInput;
    type Output = PositionErrorResult;
    const LEADS: &'static [&'static str] = &["position_error|zone_around|plus_minus_inside"];
    const CONTEXT: &'static [&'static str] = &["{verdict}", "{left} left", "plus or minus {plus_minus_inside}"];
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "twice the distance from the true place; the diagonal of a square");
        let zones = find_zones(input, record);
        let mut found = PositionErrorResult {
            verdict: None,
            position_error: None,
            left: None,
            holes: None,
            plus_minus_inside: zones.plus_minus_inside,
            zone_around: zones.around,
            zone_inside: zones.inside,
        };
        if let Some(taken) = Taken::of(input) {
            judge(input, &taken, &mut found, record);
        }
        if input.plus_minus.is_some() {
            record.note(
                "square",
                "A plus-and-minus square lets a corner be 1.41 times as far off as a side. The round zone around it is \
                 only for a buyer who agrees to it; the drawing as it stands asks for the square.",
            );
        }
        Ok(found)
    }
}
