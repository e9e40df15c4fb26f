//! A dovetail measured over or between two pins: plane geometry of the pin in an acute corner, checked against lines in
//! the complex plane and constants of handbooks.

mod drawing;
mod rules;

use crate::calculators::prelude::*;

/// The calculator.
pub struct Dovetail;

choice! {
    /// Which half of a dovetail: the `male` slide, measured over two pins, or the `female` way, measured between them.
    DovetailHalf {
        /// The slide that stands up, wide at its top.
        Male = "male",
        /// The groove, narrow at its mouth.
        Female = "female",
    }
}

/// What the dovetail calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = rules::check)]
pub struct DovetailInput {
    /// Which half: the male slide or the female way.
    #[label("Half")]
    pub half: DovetailHalf,
    /// Angle between a flank and the flat that the pins lie on.
    #[absent("60 deg", "The flanks are assumed to stand at 60°; 45, 50 and 55° are made too: measure it.")]
    #[label("Angle of the flanks")]
    pub flank_angle: Option<Angle>,
    /// Diameter of the two pins.
    #[label("Pins")]
    pub pin_diameter: Size,
    /// Width wanted between the sharp corners in which the pins lie: at the foot of a male slide, at the floor of a female way.
    #[label("Width at the pins' corners")]
    pub corner_width: Option<Size>,
    /// Width wanted at the other face, in place of that: across the top of a male slide, across the mouth of a female way. It needs the depth.
    #[label("Width at the other face")]
    pub face_width: Option<Size>,
    /// Depth of the dovetail, from the flat with the pins to the other face.
    #[label("Depth")]
    pub depth: Option<Size>,
    /// What a caliper or gauge blocks read now, over the pins of a male or between those of a female.
    #[label("Reading now")]
    pub reading_now: Option<Size>,
}

/// What the dovetail calculator gives.
#[derive(Debug, Gives)]
pub struct DovetailResult {
    /// What to read over the pins of a male or between those of a female for the width wanted.
    #[label("Reading wanted")]
    #[needs(corner_width | face_width)]
    pub reading: Option<FoundSize>,
    /// Metal still to take off in all, across both flanks, negative if too much is gone.
    #[label("To take off in all")]
    #[needs(corner_width | face_width, reading_now)]
    pub to_take_off: Option<FoundDifference>,
    /// Width between the sharp corners in which the pins lie: as wanted, or as measured where none is.
    #[label("Width at the pins' corners")]
    pub corner_width: FoundSize,
    /// Width at the other face.
    #[label("Width at the other face")]
    #[needs(depth)]
    pub face_width: Option<FoundSize>,
    /// How high above the flat a pin touches the flank.
    #[label("Pin touches the flank at")]
    pub contact_height: FoundExtent,
    /// From the corner to the far side of the pin.
    #[label("Corner to far side of pin")]
    pub pin_reach: FoundSize,
}

impl Calculator for Dovetail {
    const ID: &'static str = "geometry/dovetail";
    const TITLE: &'static str = "Dovetail over pins";
    const ABOUT: &'static str = "What to read over or between two pins in a dovetail for its width, and the width from \
        such a reading, with what is still to take off.";
    const TASK: Task = Task::Check;
    const ANOTHER_CHECK: &'static str = "Measure over pins of another size: both must give the same width.";
    const WORDS: &'static str = "dovetail slide, gib, dovetail way, over pins, between pins, rolls, slide fit";
    const EXAMPLES: &'static [Example] = examples! {
        "The slide of a small milling fixture: 60°, 2 in at its foot, checked over 1/2 in pins; it reads 3.3812 in now.":
            half = "male", flank_angle = "60 deg", pin_diameter = "0.5 in", corner_width = "2 in", depth = "0.625 in",
            reading_now = "3.3812 in";
        "The way of a mill gear slide: 55°, 60 mm across its mouth and 16 mm deep, measured between 12 mm pins.":
            half = "female", flank_angle = "55 deg", pin_diameter = "12 mm", face_width = "60 mm", depth = "16 mm";
        "An old slide reads 94.15 mm over 10 mm pins: what is it wide?":
            half = "male", pin_diameter = "10 mm", reading_now = "94.15 mm", depth = "12 mm";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "A male dovetail of {flank_angle} is {corner_width} wide at its foot. What do you read over {pin_diameter} pins?"
            => "reading":
            { half = "male", flank_angle = "60°", corner_width = "1-1/2 in" | "2 in" | "3 in", pin_diameter = "3/8 in" | "1/2 in" }
            { half = "male", flank_angle = "60°" | "55°", corner_width = "40 mm" | "50 mm" | "80 mm", pin_diameter = "8 mm" | "10 mm" };
        1 "A female dovetail of {flank_angle} is {corner_width} wide at its floor. What do you read between {pin_diameter} \
           pins?" => "reading":
            { half = "female", flank_angle = "60°", corner_width = "3 in" | "4 in", pin_diameter = "3/8 in" | "1/2 in" }
            { half = "female", flank_angle = "60°" | "55°", corner_width = "80 mm" | "100 mm", pin_diameter = "8 mm" | "10 mm" };
        2 "A male dovetail of {flank_angle} is {face_width} across its top and {depth} deep. How wide is its foot?"
            => "corner_width":
            { half = "male", flank_angle = "60°", face_width = "3 in" | "3-1/2 in", depth = "1/2 in" | "3/4 in", pin_diameter = "3/8 in" }
            { half = "male", flank_angle = "60°" | "55°", face_width = "80 mm" | "100 mm", depth = "15 mm" | "20 mm", pin_diameter = "10 mm" };
        2 "A slide of {flank_angle} reads {reading_now} over {pin_diameter} pins. How wide is it at its foot?" => "corner_width":
            { half = "male", flank_angle = "60°", reading_now = "3.375 in" | "2.9 in", pin_diameter = "3/8 in" | "1/2 in" }
            { half = "male", flank_angle = "60°", reading_now = "94.2 mm" | "80.5 mm", pin_diameter = "10 mm" | "12 mm" };
        3 "A slide of {flank_angle} is to be {corner_width} wide at its foot. Over {pin_diameter} pins it reads {reading_now}. \
           How much comes off in all?" => "to_take_off":
            { half = "male", flank_angle = "60°", corner_width = "2 in", pin_diameter = "1/2 in", reading_now = "3.381 in" | "3.4 in" }
            { half = "male", flank_angle = "60°", corner_width = "50 mm", pin_diameter = "10 mm", reading_now = "77.6 mm" | "78 mm" };
    };
    type Input = DovetailInput;
    type Output = DovetailResult;
    const LEADS: &'static [&'static str] = &["reading", "corner_width"];
    const CONTEXT: &'static [&'static str] =
        &["{to_take_off} to take off in all", "{corner_width} at the pins' corners"];
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "a pin in an acute corner touches both its sides; its center lies on the half angle");
        let flank = input.flank_angle(record);
        let pin = input.pin_diameter;
        let contact_height: FoundExtent = step!(record, "Where a pin touches the flank, above the flat",
            t: contact_height = d / 2.0 * (1.0 + cos(α)), d = pin_diameter: pin, α = flank_angle: flank);
        rules::pins_fit(input, contact_height)?;
        let pin_reach: FoundSize = step!(record, "From the corner to the far side of the pin",
            k: pin_reach = d / 2.0 * (1.0 + 1.0 / tan(α / 2.0)), d = pin_diameter: pin, α = flank_angle: flank);
        let corner_width = find_corner(input, flank, pin_reach, record)?;
        let wanted = input.corner_width.or(input.face_width).is_some();
        let reading = match (wanted, input.half) {
            (false, _) => None,
            (true, DovetailHalf::Male) => Some(step!(record, "Over the pins",
                M: reading = w + 2.0 * k, w = corner_width, k = pin_reach)),
            (true, DovetailHalf::Female) => Some(find_between(input, corner_width, pin_reach, record)?),
        };
        let to_take_off = match (reading, input.reading_now) {
            (Some(reading), Some(measured)) => Some(match input.half {
                DovetailHalf::Male => step!(record, "Still to take off, both flanks together",
                    x: to_take_off = m - M, m = reading_now: measured, M = reading),
                DovetailHalf::Female => step!(record, "Still to take off, both flanks together",
                    x: to_take_off = M - m, M = reading, m = reading_now: measured),
            }),
            _ => None,
        };
        let face_width = match input.depth {
            Some(depth) => Some(find_face(input, depth, flank, corner_width, record)?),
            None => None,
        };
        tell(to_take_off, record);
        Ok(DovetailResult { reading, to_take_off, corner_width, face_width, contact_height, pin_reach })
    }
}

/// The width at the pins' corners: as wanted, from the other face, or as measured.
fn find_corner(
    input: &DovetailInput,
    flank: Angle,
    reach: FoundSize,
    record: &mut Record,
) -> Result<FoundSize, Refusal> {
    const WHAT: &str = "Width at the pins' corners";
    if let Some(width) = input.corner_width {
        record.choose(WHAT, "as wanted").with("w", "corner_width", width).gives("corner_width", width.found());
        return Ok(width.found());
    }
    if let (Some(face), Some(depth)) = (input.face_width, input.depth) {
        if input.half == DovetailHalf::Female {
            return Ok(step!(record, WHAT, w: corner_width = f + 2.0 * h / tan(α),
                f = face_width: face, h = depth, α = flank_angle: flank));
        }
        rules::leaves_width(face.si() - 2.0 * depth.si() / angle::tan(flank.degrees()), ("face_width", face))?;
        return Ok(step!(record, WHAT, w: corner_width = f - 2.0 * h / tan(α),
            f = face_width: face, h = depth, α = flank_angle: flank));
    }
    let measured = input.reading_now.unwrap_or(input.pin_diameter);
    if input.half == DovetailHalf::Female {
        return Ok(step!(record, WHAT, w: corner_width = m + 2.0 * k, m = reading_now: measured, k = pin_reach: reach));
    }
    rules::leaves_width(measured.si() - 2.0 * reach.si(), ("reading_now", measured))?;
    Ok(step!(record, WHAT, w: corner_width = m - 2.0 * k, m = reading_now: measured, k = pin_reach: reach))
}

fn find_between(
    input: &DovetailInput,
    corner_width: FoundSize,
    pin_reach: FoundSize,
    record: &mut Record,
) -> Result<FoundSize, Refusal> {
    rules::pins_apart(input, corner_width, pin_reach)?;
    Ok(step!(record, "Between the pins", M: reading = w - 2.0 * k, w = corner_width, k = pin_reach))
}

fn find_face(
    input: &DovetailInput,
    depth: Size,
    flank: Angle,
    corner_width: FoundSize,
    record: &mut Record,
) -> Result<FoundSize, Refusal> {
    const WHAT: &str = "Width at the other face";
    if let Some(face) = input.face_width {
        record.choose(WHAT, "as wanted").with("f", "face_width", face).gives("face_width", face.found());
        return Ok(face.found());
    }
    if input.half == DovetailHalf::Male {
        return Ok(
            step!(record, WHAT, f: face_width = w + 2.0 * h / tan(α), w = corner_width, h = depth, α = flank_angle: flank),
        );
    }
    rules::leaves_mouth(input, corner_width.si() - 2.0 * depth.si() / angle::tan(flank.degrees()), depth)?;
    Ok(step!(record, WHAT, f: face_width = w - 2.0 * h / tan(α), w = corner_width, h = depth, α = flank_angle: flank))
}

fn tell(to_take_off: Option<FoundDifference>, record: &mut Record) {
    match to_take_off.map(|left| left.si()) {
        Some(left) if left < -1e-9 => record.note_first(
            "too_far",
            "More is gone than was to come off. Check reading, pins and angle; a gib or a new mating half may take it up.",
        ),
        Some(left) if left > 1e-9 => record.note(
            "half_a_side",
            "Where both flanks are cut, each gives half of what is to come off. Moved level, toward the flank, the \
             table goes just that far.",
        ),
        _ => {}
    }
    notes!(record =>
        sharp_corners: "Widths count to the sharp corners, where flank and flat would meet, whatever relief is cut there.";
        angle_counts: "Measure the angle of the flanks first: a wrong angle shifts the reading, and pins of two sizes show it.");
    record.caution(cautions::MILLING);
}
