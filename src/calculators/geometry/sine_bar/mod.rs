//! The stack of gauge blocks under a sine bar for an angle or a taper, and back; what an indicator over the part says of
//! its true angle. Plane trigonometry, checked against printed sine bar tables and an arbitrary-precision library.

mod blocks;
mod drawing;

use crate::calculators::prelude::*;
use crate::gauge_blocks::BlocksAtHand;
use blocks::BarBlocks;

/// The calculator.
pub struct SineBar;

/// What the sine bar calculator asks for: the bar, and an angle, a taper or a stack.
#[derive(Debug, Asks)]
#[asks(check = check, check = blocks::check)]
pub struct SineBarInput {
    /// Distance between the centers of the two rolls.
    #[label("Center distance of the rolls")]
    pub bar_length: Size,
    /// Angle of the bar to the plate.
    pub angle: Option<CornerAngle>,
    /// Taper on the diameter, for its included angle.
    #[label("Taper over its length")]
    pub taper: Option<Size>,
    /// The length over which the taper is stated.
    #[label("Length of the taper")]
    #[absent("a foot", value = FOOT, "The taper is taken to be stated per foot.")]
    pub taper_length: Option<Size>,
    /// Height of the stack, or the difference of two.
    #[label("Height of the stack, given")]
    pub stack: Option<GaugeSize>,
    /// Stack under the low roll, where both need blocks.
    #[label("Stack under the low roll")]
    #[absent("0", like = bar_length, "The low roll stands on the plate.")]
    pub low_stack: Option<Extent>,
    /// What the indicator reads at the end above the stack less what it reads at the other.
    #[label("Indicator, high end less low end")]
    pub indicated: Option<Difference>,
    /// How far the indicator goes along the plate between the two.
    #[label("Indicator goes")]
    pub indicated_over: Option<Size>,
    /// The gauge blocks at hand.
    #[group]
    pub at_hand: BlocksAtHand,
}

const FOOT: Size = Size::stated(12.0, Unit::Inch);

/// What the sine bar calculator gives.
#[derive(Debug, Gives)]
pub struct SineBarResult {
    /// Height of the stack, or the difference of two.
    #[label("Height of the stack")]
    pub height: FoundGaugeSize,
    /// Stack under the high roll.
    #[label("Stack under the high roll")]
    pub high_stack: FoundGaugeSize,
    /// Angle of the bar to the plate.
    #[label("Angle of the bar")]
    pub bar_angle: FoundCornerAngle,
    /// What one minute of angle changes the stack by.
    #[label("Stack for one minute of angle")]
    pub height_per_minute: FoundGaugeSize,
    /// Angle that the part really has; needs what the indicator reads and how far it goes.
    #[label("Angle of the part")]
    #[needs(indicated, indicated_over)]
    pub part_angle: Option<FoundAngle>,
    /// The height at which the indicator would read the same at both ends; needs what it reads and how far it goes.
    #[label("Height that makes it level")]
    #[needs(indicated, indicated_over)]
    pub level_height: Option<FoundPlace>,
    /// The blocks of the stack, and the angle that they set.
    #[group]
    #[needs(set | own)]
    pub blocks: Option<BarBlocks>,
}

const ONE_OF: &str = "Give the angle, the taper or the height of the stack, one of them.";

rules! { check(SineBarInput) {
    one_of(angle = "30 deg", taper = "0.6 in", stack = "2.5 in"): ONE_OF;
    not_both(angle, taper): ONE_OF;
    not_both(angle, stack): ONE_OF;
    not_both(taper, stack): ONE_OF;
    never(|input| input.taper_length.is_some() && input.taper.is_none(), Code::Conflict, taper_length = "leave out"):
        "The length of a taper matters only with the taper.";
    needs(indicated => indicated_over = "3 in"): "What the indicator reads needs how far it goes along the plate.";
    needs(indicated_over => indicated = "0.0005 in", indicated_over = "leave out"):
        "How far the indicator goes needs what it reads.";
    smaller(stack < bar_length, stack = "0.5 in"): "The stack must be lower than the rolls are apart.";
    smaller(indicated < indicated_over, indicated = "0.0005 in"):
        "The indicator must rise less than it goes along the plate.";
    never(|input| input.angle.is_some_and(|angle| angle.degrees() >= 90.0), Code::ValueOutOfRange, angle = "30 deg"):
        "A sine bar stands at less than 90°; set a steep angle by what it lacks of 90°.";
    // Twice the arc tangent of half the taper.
    never(|input| input.taper.is_some_and(|taper| {
            2.0 * input.taper_length.unwrap_or(FOOT).si() <= taper.si()
        }), Code::ValueOutOfRange, taper = "0.6 in"): "The taper must be less than twice its length: 90° is too steep.";
} }

impl Calculator for SineBar {
    const ID: &'static str = "geometry/sine-bar";
    const TITLE: &'static str = "Sine bar";
    const ABOUT: &'static str = "The stack of gauge blocks that sets a sine bar or plate to an angle or a taper, the \
        angle of a stack, and the true angle of a part from what an indicator reads over it.";
    const TASK: Task = Task::Check;
    // Blocks on a plate; no machine is set.
    const AT_THE_MACHINE: bool = false;
    const ANOTHER_CHECK: &'static str = "Set the complement from a square, or turn the bar end for end: a bar that is \
        true reads the same.";
    const WORDS: &'static str = "sine plate, sine vise, gauge blocks, stack, height, angle setting, inspection, taper \
        angle, slip gauges, sine table";
    const EXAMPLES: &'static [Example] = examples! {
        "A 5 in sine bar for the 30° face of a mill wedge.": bar_length = "5 in", angle = "30 deg";
        "A winch taper of 0.6 in in a foot, on a 5 in bar.":
            bar_length = "5 in", taper = "0.6 in", taper_length = "12 in";
        "A small angle on a 100 mm bar with 20 mm under the low roll.":
            bar_length = "100 mm", angle = "0.5 deg", low_stack = "20 mm";
        "A pump key on a 100 mm bar and a stack of 17.4 mm reads 0.01 mm high over the stack in 60 mm.":
            bar_length = "100 mm", stack = "17.4 mm", indicated = "0.01 mm", indicated_over = "60 mm";
        "A mill gib of 7° 15' on a 5 in bar, wrung up from the 81-piece set; the 0.1009 in block is in use.":
            bar_length = "5 in", angle = "7.25 deg", set = "inch_81", missing = "0.1009 in", most_blocks = "6";
        "A pump wedge of 12.8° on a 100 mm bar, with own blocks between 2 mm wear blocks.":
            bar_length = "100 mm", angle = "12.8 deg", wear_block = "2 mm",
            own = "1.005 mm,1.05 mm,1.1 mm,1.15 mm,2 mm,5 mm,10 mm,20 mm";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "You set a {bar_length} sine bar to {angle}. How high is the stack?" => "height":
            { bar_length = "5 in" | "10 in", angle = "9 deg" | "12 deg" | "15 deg" | "30 deg" }
            { bar_length = "100 mm" | "200 mm", angle = "7 deg" | "12 deg" | "20 deg" | "30 deg" };
        1 "The stack under a {bar_length} bar is {stack}. What is the angle?" => "bar_angle":
            { bar_length = "5 in", stack = "1 in" | "1.25 in" | "2.5 in" }
            { bar_length = "100 mm", stack = "10 mm" | "25 mm" | "50 mm" };
        2 "A taper of {taper} in {taper_length} lies on a {bar_length} bar. What stack brings its top level?" => "height":
            { taper = "1/2 in" | "5/8 in" | "3/4 in", taper_length = "12 in", bar_length = "5 in" }
            { taper = "1 mm" | "2 mm", taper_length = "20 mm" | "30 mm", bar_length = "100 mm" };
        3 "On a {bar_length} bar at {angle} the indicator reads {indicated} more at the end over the stack, \
            {indicated_over} along. What stack makes it level?" => "level_height":
            { bar_length = "5 in", angle = "10 deg" | "15 deg", indicated = "0.001 in" | "0.002 in",
              indicated_over = "2 in" | "3 in" }
            { bar_length = "100 mm", angle = "10 deg" | "15 deg", indicated = "0.01 mm" | "0.03 mm",
              indicated_over = "50 mm" | "60 mm" };
    };
    type Input = SineBarInput;
    type Output = SineBarResult;
    const LEADS: &'static [&'static str] = &["level_height", "high_stack"];
    const CONTEXT: &'static [&'static str] =
        &["{block_count} blocks", "bar at {bar_angle}", "part {part_angle}", "one minute is {height_per_minute}"];
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "right triangle on the line between the rolls");
        let bar_length = input.bar_length;
        let (bar_angle, height) = find_setting(input, record);
        let low_stack = input.low_stack(record);
        let high_stack: FoundGaugeSize = step!(record, "Stack under the high roll",
            s: high_stack = u + h, u = low_stack, h = height);
        let height_per_minute: FoundGaugeSize = step!(record, "Stack for one minute of angle",
            m: height_per_minute = L * cos(θ) * π / (180.0 * 60.0), L = bar_length, θ = bar_angle);
        let mut result = SineBarResult {
            height,
            high_stack,
            bar_angle,
            height_per_minute,
            part_angle: None,
            level_height: None,
            blocks: None,
        };
        if let (Some(indicated), Some(indicated_over)) = (input.indicated, input.indicated_over) {
            let part_angle: FoundAngle = step!(record, "Angle of the part: the bar's less what is too steep",
                φ: part_angle = θ - atan(e / d), θ = bar_angle, e = indicated, d = indicated_over);
            let level_height: FoundPlace = step!(record, "Height that makes its top level",
                k: level_height = L * sin(φ), L = bar_length, φ = part_angle);
            (result.part_angle, result.level_height) = (Some(part_angle), Some(level_height));
        }
        if input.at_hand.is_named() {
            result.blocks = Some(blocks::find(input, &result, low_stack, record)?);
        }
        if bar_angle.degrees() > 45.0 {
            record.note(
                "steep",
                "Above 45° a small error of the stack turns the bar a lot, and most makers advise against more than 60°. \
                 Set the complement from an angle plate instead.",
            );
        }
        Ok(result)
    }
}

/// The angle of the bar, and the height of its stack.
fn find_setting(input: &SineBarInput, record: &mut Record) -> (FoundCornerAngle, FoundGaugeSize) {
    let bar_length = input.bar_length;
    if let Some(stack) = input.stack {
        tell!(record.choose("Height of the stack", "as given"), h = stack => height: stack.found());
        let bar_angle: FoundCornerAngle = step!(record, "Angle of the bar",
            θ: bar_angle = asin(h / L), h = stack, L = bar_length);
        return (bar_angle, stack.found());
    }
    let bar_angle: FoundCornerAngle = match (input.angle, input.taper) {
        (None, Some(taper)) => {
            let taper_length = input.taper_length(record);
            step!(record, "Included angle of the taper",
                θ: bar_angle = 2.0 * atan(t / (2.0 * l)), t = taper, l = taper_length)
        }
        (angle, _) => {
            let angle = angle.unwrap_or(CornerAngle::stated(30.0, Unit::Degree));
            tell!(record.choose("Angle of the bar", "as given"), θ = angle => bar_angle: angle.found());
            angle.found()
        }
    };
    let height: FoundGaugeSize =
        step!(record, "Height of the stack", h: height = L * sin(θ), L = bar_length, θ = bar_angle);
    (bar_angle, height)
}
