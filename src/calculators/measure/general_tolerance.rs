//! Limits of a size or an angle that has no tolerance of its own on the drawing, ISO 2768-1, and whether what was
//! measured is within them (table 1 seen in part, the rest recalled).

use crate::arithmetic::measured::MeasuredWithin;
use crate::arithmetic::verdict::{Verdict, tell_verdict};
use crate::calculators::prelude::*;
use crate::reference::general_tolerances::{GeneralClass, GeneralTolerance, Toleranced, cell, cells};
use crate::suggestion::{Way, value};

/// The calculator.
pub struct GeneralToleranceLimits;

/// What the general tolerance calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct GeneralToleranceInput {
    /// Size on the drawing.
    #[label("Size on the drawing")]
    pub size: Option<Size>,
    /// What the size is of: linear, or radius for outside radii and chamfers.
    #[label("Size of")]
    #[absent("linear", "The size is taken as a length, a diameter or a step, not as a radius or chamfer.")]
    pub size_of: Option<Toleranced>,
    /// Class in the title block: f, m, c or v.
    #[absent("m", "Class m, medium, is the most common on drawings; look in the title block.")]
    pub class: Option<GeneralClass>,
    /// Angle on the drawing.
    #[label("Angle on the drawing")]
    pub angle: Option<ArcAngle>,
    /// Shorter side of the angle.
    #[label("Shorter side of the angle")]
    pub shorter_side: Option<Size>,
    /// Size that was measured, to be judged.
    #[label("Size measured")]
    pub measured_size: Option<Size>,
    /// How far off the measured size may be.
    #[group]
    pub within: MeasuredWithin,
    /// Angle that was measured, to be judged.
    #[label("Angle measured")]
    pub measured_angle: Option<ArcAngle>,
}

/// What the general tolerance calculator gives.
#[derive(Debug, Gives)]
pub struct GeneralToleranceResult {
    /// Tolerance, plus or minus.
    #[label("Tolerance, plus or minus")]
    #[needs(size)]
    pub tolerance: Option<FoundExtent>,
    /// The least size allowed.
    #[label("Least size")]
    #[needs(size)]
    pub least: Option<FoundLowerLimit>,
    /// The greatest size allowed.
    #[label("Greatest size")]
    #[needs(size)]
    pub greatest: Option<FoundUpperLimit>,
    /// What is left to the nearer limit; negative if beyond.
    #[label("Left to the nearer limit")]
    #[needs(size, measured_size)]
    pub left: Option<FoundDifference>,
    /// Whether the measured size passes.
    #[needs(size, measured_size)]
    pub verdict: Option<Verdict>,
    /// Tolerance of the angle, plus or minus.
    #[label("Tolerance of the angle, plus or minus")]
    #[needs(angle, shorter_side)]
    pub angle_tolerance: Option<FoundAngle>,
    /// The least angle allowed.
    #[needs(angle, shorter_side)]
    pub least_angle: Option<FoundAngle>,
    /// The greatest angle allowed.
    #[needs(angle, shorter_side)]
    pub greatest_angle: Option<FoundAngle>,
    /// Whether the measured angle passes.
    #[needs(angle, shorter_side, measured_angle)]
    pub angle_verdict: Option<Verdict>,
}

rules! { check(GeneralToleranceInput) {
    one_of(size = "25 mm", angle = "45 deg"): "Give the size or the angle on the drawing.";
    needs(angle => shorter_side = "20 mm"): "The tolerance of an angle goes by the length of its shorter side.";
    needs(shorter_side => angle = "45 deg", shorter_side = "leave out"):
        "A shorter side matters only for an angle: give the angle too.";
    needs(measured_size => size = "25 mm", measured_size = "leave out"): "A measured size is judged against a size: give that too.";
    never(|input| input.within.uncertainty.is_some() && input.measured_size.is_none(), Code::Conflict,
        measured_size = "25.1 mm", uncertainty = "leave out"): "How far off the measurement may be needs the measured size.";
    needs(measured_angle => angle = "45 deg", measured_angle = "leave out"):
        "A measured angle is judged against an angle: give that too.";
} }

impl Calculator for GeneralToleranceLimits {
    const ID: &'static str = "measure/general-tolerance";
    const TITLE: &'static str = "General tolerances";
    const ABOUT: &'static str = "The limits of a length, radius, chamfer or angle without a tolerance of its own, by \
        ISO 2768-1, and whether a measured one passes.";
    const TASK: Task = Task::Check;
    const AT_THE_MACHINE: bool = false;
    const ANOTHER_CHECK: &'static str =
        "Measure again from the other side, or with another tool: close to a limit the tool's own error decides.";
    const WORDS: &'static str = "untoleranced dimensions, ISO 2768, 2768-m, 2768-mK, title block tolerance, open \
        tolerance, plus minus, medium, fine, coarse, general tolerance, chamfer tolerance, angle tolerance";
    const EXAMPLES: &'static [Example] = examples! {
        "A winch bracket is drawn 80 mm wide, title block ISO 2768-m; the caliper says 80.25 mm, good to 0.03 mm.":
            size = "80 mm", class = "m", measured_size = "80.25 mm", uncertainty = "0.03 mm";
        "A pump foot has a 45° face with a shorter side of 25 mm, class c, and measures 45.6°.":
            angle = "45 deg", shorter_side = "25 mm", class = "c", measured_angle = "45.6 deg";
        "A chamfer of 2 mm on a valve stem, drawn to the fine class.": size = "2 mm", size_of = "radius", class = "f";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "A winch bracket is drawn {size}, and the title block says class {class}. What is the tolerance, plus or \
            minus?" => "tolerance":
            { size = "5 mm" | "25 mm" | "80 mm" | "150 mm" | "500 mm", class = "f" | "m" | "c", units = "metric" };
        2 "A pump foot is drawn {size}, class {class}. What is the most it may measure?" => "greatest":
            { size = "12 mm" | "40 mm" | "200 mm", class = "m" | "c" | "v", units = "metric" };
        2 "A face is drawn at {angle} with a shorter side of {shorter_side}, class {class}. What is the least angle \
            allowed?" => "least_angle":
            { angle = "30 deg" | "45 deg" | "60 deg", shorter_side = "8 mm" | "30 mm" | "100 mm", class = "m" | "c" };
        3 "A bracket is drawn {size}, class {class}, and measures {measured_size}. How much is left to the nearer limit, \
            minus if it is out?" => "left":
            { size = "80 mm", class = "m", measured_size = "80.2 mm" | "79.75 mm" | "80.4 mm", units = "metric" }
            { size = "25 mm", class = "f", measured_size = "25.08 mm" | "24.85 mm" | "24.95 mm", units = "metric" };
    };
    type Input = GeneralToleranceInput;
    type Output = GeneralToleranceResult;
    const LEADS: &'static [&'static str] = &["tolerance|angle_tolerance"];
    const CONTEXT: &'static [&'static str] =
        &["{least} to {greatest}", "{least_angle} to {greatest_angle}", "{verdict}", "{angle_verdict}"];

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        let class = input.class(record);
        let mut found = GeneralToleranceResult {
            tolerance: None,
            least: None,
            greatest: None,
            left: None,
            verdict: None,
            angle_tolerance: None,
            least_angle: None,
            greatest_angle: None,
            angle_verdict: None,
        };
        if let Some(size) = input.size {
            find_limits(input, (size, class), &mut found, record)?;
        }
        if let (Some(angle), Some(side)) = (input.angle, input.shorter_side) {
            find_angles(input, (angle, side, class), &mut found, record)?;
        }
        record.source("iso_2768_1", "what general tolerances apply to, and what they are for");
        notes!(record =>
            not_for: "Do not use these for a size with its own tolerance, a size in brackets, which is for information, \
                or a size in a box, which is exact. They hold only where the drawing calls for ISO 2768.";
            not_rejected: "By the standard a part outside its general tolerance is not rejected if it still does its \
                job, unless the drawing or the order says otherwise. The buyer decides, not the shop.");
        Ok(found)
    }
}

/// The cell for a size, or a refusal with the nearest size or class that has one.
fn find_cell(
    of: &'static str,
    (field, size): (&'static str, Size),
    class: GeneralClass,
    record: &mut Record,
) -> Result<&'static GeneralTolerance, Refusal> {
    let Some(cell) = cell(of, class, size.si()) else {
        let nearest = cells(of, class).next().zip(cells(of, class).last());
        let mut ways = Vec::with_capacity(2);
        if let Some((first, last)) = nearest {
            // The first range of class v begins above 3 mm.
            let least = if first.over == 0.0005 { first.over } else { first.over * 1.01 };
            let good = if size.si() <= first.over { (least, Way::Up) } else { (last.up_to.unwrap_or(1.0), Way::Down) };
            ways.push((field, value(good.0, size.quantity().unit, good.1)));
        }
        let others = [GeneralClass::M, GeneralClass::F, GeneralClass::C, GeneralClass::V];
        let other = others.into_iter().find(|other| self::cell(of, *other, size.si()).is_some());
        ways.extend(other.map(|other| ("class", other.as_str().to_owned())));
        let says =
            "ISO 2768-1 has no tolerance for this size in this class: the drawing must state one beside the size.";
        return Err(Refusal::no_answer(says, &ways));
    };
    let place = match cell.up_to {
        Some(up_to) => format!(
            "{of}, class {}, over {} to {} mm",
            cell.class,
            text::full(text::tidy(cell.over * 1e3)),
            text::full(text::tidy(up_to * 1e3))
        ),
        None => format!("{of}, class {}, over {} mm", cell.class, text::full(text::tidy(cell.over * 1e3))),
    };
    record.source_of_row(cell.source, place, &cell.trust);
    Ok(cell)
}

fn find_limits(
    input: &GeneralToleranceInput,
    (size, class): (Size, GeneralClass),
    found: &mut GeneralToleranceResult,
    record: &mut Record,
) -> Result<(), Refusal> {
    let of = input.size_of(record);
    let cell = find_cell(of.as_str(), ("size", size), class, record)?;
    let tolerance = FoundExtent::stated(text::tidy(cell.tolerance * 1e3), Unit::Millimetre);
    tell!(record.look_up("Tolerance of the size", format!("ISO 2768-1, {}, class {}", of.as_str(), class.as_str())),
        n = size => tolerance);
    // In the standard's unit, so that the limits are rounded inward in inches however the size was stated.
    let millimeters = |si: f64| text::tidy(Unit::Millimetre.of_si(si));
    let least = FoundLowerLimit::stated(millimeters(size.si() - cell.tolerance), Unit::Millimetre);
    tell!(record.step("Least size", "l = n - t"), n = size, t = tolerance => least);
    let greatest = FoundUpperLimit::stated(millimeters(size.si() + cell.tolerance), Unit::Millimetre);
    tell!(record.step("Greatest size", "g = n + t"), n = size, t = tolerance => greatest);
    if let Some(measured_size) = input.measured_size {
        let left: FoundDifference = step!(record, "Left to the nearer limit",
            d: left = t - abs(m - n), t = tolerance, m = measured_size, n = size);
        let uncertainty = input.within.off_by(record);
        found.verdict = Some(tell_verdict(record, ["left", "verdict"], left, ("uncertainty", uncertainty)));
        found.left = Some(left);
    }
    (found.tolerance, found.least, found.greatest) = (Some(tolerance), Some(least), Some(greatest));
    Ok(())
}

fn find_angles(
    input: &GeneralToleranceInput,
    (angle, shorter_side, class): (ArcAngle, Size, GeneralClass),
    found: &mut GeneralToleranceResult,
    record: &mut Record,
) -> Result<(), Refusal> {
    let cell = find_cell("angle", ("shorter_side", shorter_side), class, record)?;
    let angle_tolerance = FoundAngle::stated(text::tidy(cell.tolerance), Unit::Degree);
    tell!(record.look_up("Tolerance of the angle", format!("ISO 2768-1, angles, class {}", class.as_str())),
        s = shorter_side => angle_tolerance);
    let least_angle: FoundAngle = step!(record, "Least angle",
        l: least_angle = a - t, a = angle, t = angle_tolerance);
    let greatest_angle: FoundAngle = step!(record, "Greatest angle",
        g: greatest_angle = a + t, a = angle, t = angle_tolerance);
    if let Some(measured_angle) = input.measured_angle {
        let off = (measured_angle.degrees() - angle.degrees()).abs();
        let angle_left = FoundAngle::stated(text::tidy(angle_tolerance.quantity().value - off), Unit::Degree);
        tell!(record.step("Left to the nearer limit of the angle", "d = t - abs(m - a)"),
            t = angle_tolerance, m = measured_angle, a = angle => angle_left);
        let verdict = tell_verdict(record, ["angle_left", "angle_verdict"], angle_left, ("constant:exact", 0.0));
        found.angle_verdict = Some(verdict);
    }
    found.angle_tolerance = Some(angle_tolerance);
    found.least_angle = Some(least_angle);
    found.greatest_angle = Some(greatest_angle);
    Ok(())
}
