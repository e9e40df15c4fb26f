//! Tapers: by name, per foot, as a ratio, as an angle, or by two diameters and a length; with what the compound slide,
//! the tailstock and a dial along a test bar are set to. Plane geometry, checked against printed tables.

mod drawing;
mod rules;
mod steps;

use crate::calculators::prelude::*;
use crate::reference::tapers::TaperName;

/// The calculator.
pub struct Taper;

/// What the taper calculator asks for: one statement of the taper, and what is known of its ends.
#[derive(Clone, Copy, Debug, Asks)]
#[asks(check = rules::check)]
pub struct TaperInput {
    /// A standard taper by its name.
    #[label("Standard taper")]
    pub standard: Option<TaperName>,
    /// Taper on the diameter in one foot.
    #[label("Taper per foot")]
    pub per_foot: Option<Size>,
    /// Length over which the diameter grows by one: 20 for a taper of 1 in 20.
    #[label("One in")]
    pub ratio: Option<PlainNumber>,
    /// Angle between the two sides.
    #[label("Included angle")]
    pub included_angle: Option<CornerAngle>,
    /// Angle between a side and the axis.
    #[label("Angle to the axis")]
    pub half_angle: Option<CornerAngle>,
    /// Diameter of the large end.
    #[label("Large end")]
    pub large_diameter: Option<Size>,
    /// Diameter of the small end.
    #[label("Small end")]
    pub small_diameter: Option<Size>,
    /// Length along the axis between the two ends.
    #[label("Length of the taper")]
    pub length: Option<Size>,
    /// Length of the whole work between the centers.
    #[label("Work between centers")]
    pub between_centers: Option<Size>,
    /// How far the slide or the carriage goes along a test bar.
    #[label("Travel along a test bar")]
    pub bar_travel: Option<Size>,
}

/// What the taper calculator gives.
#[derive(Debug, Gives)]
pub struct TaperResult {
    /// Angle between a side and the axis, for the compound slide.
    #[label("Compound slide, from the axis")]
    pub slide_angle: FoundCornerAngle,
    /// What the slide is turned by where its scale counts from the cross slide.
    #[label("Compound slide, from the cross slide")]
    pub from_cross_slide: FoundCornerAngle,
    /// Angle between the two sides.
    #[label("Included angle")]
    pub full_angle: FoundCornerAngle,
    /// Growth of the diameter in one foot.
    #[label("Taper per foot")]
    pub taper_per_foot: FoundGaugeSize,
    /// Length over which the diameter grows by one.
    #[label("One in")]
    pub one_in: f64,
    /// Diameter of the large end, where it is known.
    #[label("Large end")]
    pub large_end: Option<FoundSize>,
    /// Diameter of the small end, where it is known.
    #[label("Small end")]
    pub small_end: Option<FoundSize>,
    /// Length between the ends, where it is known.
    #[label("Length of the taper")]
    pub taper_length: Option<FoundSize>,
    /// How far the tailstock is set over.
    #[label("Set the tailstock over by")]
    #[needs(between_centers)]
    pub set_over: Option<FoundSize>,
    /// What a dial on the compound slide reads on the bar as the slide goes.
    #[label("Dial on the slide reads")]
    #[needs(bar_travel)]
    pub slide_dial: Option<FoundGaugeSize>,
    /// What a dial on the carriage reads on a bar set over, as the carriage goes.
    #[label("Dial on the carriage reads")]
    #[needs(bar_travel)]
    pub carriage_dial: Option<FoundGaugeSize>,
}

impl Calculator for Taper {
    const ID: &'static str = "geometry/taper";
    const TITLE: &'static str = "Taper";
    const ABOUT: &'static str = "A taper by name, per foot, as a ratio, an angle or two diameters and a length: all of \
        these, the compound slide, the tailstock's offset, and a dial along a test bar.";
    const TASK: Task = Task::Turn;
    const ANOTHER_CHECK: &'static str = "Blue a gauge or the mating part lightly, seat it with a part turn, and look where \
        the blue goes.";
    const WORDS: &'static str = "Morse taper, Jarno, Brown & Sharpe, taper per foot, compound slide, tailstock offset, \
        set over, taper attachment, included angle, half angle, steep taper, pipe taper, cone";
    const EXAMPLES: &'static [Example] = examples! {
        "A Morse 3 shank for the mill's drill chuck: what is the compound turned by, and what does a dial show over 2 in?":
            standard = "Morse 3", bar_travel = "2 in";
        "A winch drum axle tapers from 1-1/2 in to 1-1/4 in over 6 in; it is 9 in long between centers.":
            large_diameter = "1-1/2 in", small_diameter = "1-1/4 in", length = "6 in", between_centers = "9 in";
        "A pump spindle of 1 in 20, 30 mm at the large end, 80 mm long.":
            ratio = "20", large_diameter = "30 mm", length = "80 mm";
        "A cone of 60° runs from a point out to 25 mm; how long is it from 5 mm on?":
            included_angle = "60 deg", large_diameter = "25 mm", small_diameter = "5 mm";
        "A plug of 0.6 in per foot, 0.7 in at the small end, 2 in long.":
            per_foot = "0.6 in", small_diameter = "0.7 in", length = "2 in";
        "A bevel of 5° to the axis on a 40 mm valve seat, 12 mm long.":
            half_angle = "5 deg", large_diameter = "40 mm", length = "12 mm";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "A cone has an included angle of {included_angle}. What is the compound slide turned by from the axis?"
            => "slide_angle":
            { included_angle = "20 deg" | "30 deg" | "60 deg" | "90 deg" };
        1 "A taper runs 1 in {ratio} and is {large_diameter} at the large end. What is it after {length}?" => "small_end":
            { ratio = "16" | "20", large_diameter = "1 in" | "1-1/4 in", length = "2 in" | "4 in" }
            { ratio = "10" | "20", large_diameter = "30 mm" | "40 mm", length = "50 mm" | "80 mm" };
        2 "A shaft tapers from {large_diameter} to {small_diameter} over {length}. What taper is that per foot?"
            => "taper_per_foot":
            { large_diameter = "1-1/2 in" | "2 in", small_diameter = "1-1/4 in" | "1 in", length = "4 in" | "6 in",
              units = "inch" };
        2 "A shaft of {between_centers} between centers gets a taper of {per_foot} per foot. How far is the tailstock set \
            over?" => "set_over":
            { per_foot = "1/2 in" | "0.6 in" | "1 in", between_centers = "8 in" | "9 in" | "12 in" };
        3 "You set the compound slide for {standard} with a dial on a test bar. What must it read over {bar_travel} of the \
            slide?" => "slide_dial":
            { standard = "Morse 2" | "Morse 3" | "Jarno 8" | "B&S 9", bar_travel = "1 in" | "2 in" }
            { standard = "Metric 80" | "7/24 No. 40", bar_travel = "20 mm" | "40 mm" };
    };
    type Input = TaperInput;
    type Output = TaperResult;
    const CONTEXT: &'static [&'static str] = &[
        "{taper_per_foot} per foot", "set over {set_over}", "dial on the slide {slide_dial}",
        "{large_end} to {small_end}",
    ];
    const LEADS: &'static [&'static str] = &["slide_angle"];
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "right triangle of the axis and half the growth of the diameter");
        record.cautions(cautions::ON_THE_LATHE);
        let result = steps::find(input, record)?;
        if input.between_centers.is_some() {
            record.note(
                "set_over",
                "Work set over runs skewed on its centers: use ball centers or recut the center holes, and keep the \
                 offset small. The shop rule, half the taper times the length, gives a little more than this.",
            );
        }
        record.note(
            "tool_height",
            "Set the tool exactly at center height. Off it, a straight cut comes out hollow and the taper wrong.",
        );
        Ok(result)
    }
}
