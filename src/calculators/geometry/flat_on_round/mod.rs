//! Flats milled on round work: how deep, how wide they come out, and what a caliper reads; plane geometry of the chord,
//! checked against lines and circles in high precision.

mod drawing;
mod rules;

use crate::calculators::prelude::*;

/// The calculator.
pub struct FlatOnRound;

/// What the flat on round calculator asks for: the round, how many flats, and one size of a flat.
#[derive(Debug, Asks)]
#[asks(check = rules::check, check = rules::check_sizes)]
pub struct FlatOnRoundInput {
    /// Diameter of the round work, as measured.
    pub diameter: Size,
    /// How many flats, equally spaced: 1 for a single flat, 2 for opposite flats, 4 for a square, 6 for a hexagon.
    #[label("Number of flats")]
    #[absent("1", "A single flat is milled.")]
    pub flats: Option<Count<1, 24>>,
    /// Depth of each flat below the top of the round.
    #[label("Depth of cut")]
    pub depth: Option<Size>,
    /// Width of a flat.
    #[label("Width of the flat")]
    pub width: Option<Size>,
    /// What a micrometer reads from the flat to the far side of the round.
    #[label("From the flat to the far side")]
    pub remaining: Option<Size>,
    /// What a caliper reads across two opposite flats; for an even number of flats.
    pub across_flats: Option<Size>,
}

/// What the flat on round calculator gives.
#[derive(Debug, Gives)]
pub struct FlatOnRoundResult {
    /// Depth of each flat, from the top of the round.
    #[label("Depth of cut from the top")]
    pub set_depth: FoundDepthSetting,
    /// Width of a flat as it comes out.
    #[label("Width of the flat")]
    pub flat_width: FoundSize,
    /// What a micrometer reads from the first flat to the far side of the round.
    #[label("From the flat to the far side")]
    pub to_far_side: FoundSize,
    /// What a caliper reads across opposite flats; only for an even number.
    #[label("Across flats")]
    pub between_flats: Option<FoundSize>,
    /// Size across the corners, which is that of the round where the flats do not meet; only from three flats on.
    pub across_corners: Option<FoundSize>,
    /// Whether the flats meet in sharp corners; only from three flats on.
    #[label("Flats meet")]
    pub flats_meet: Option<bool>,
    /// The depth at which the flats just meet; only from three flats on.
    #[label("Depth at which the flats meet")]
    pub meeting_depth: Option<FoundExtent>,
    /// The angle to turn the work by from flat to flat; only where there is more than one.
    #[label("Turn from flat to flat")]
    pub turn: Option<FoundCornerAngle>,
}

impl Calculator for FlatOnRound {
    const ID: &'static str = "geometry/flat-on-round";
    const TITLE: &'static str = "Hexagon or square on a shaft";
    const ABOUT: &'static str = "How deep to mill one or several flats on round work for a width, a size across flats or \
        what is to remain, and what each of them comes out to.";
    const TASK: Task = Task::LayOut;
    const ANOTHER_CHECK: &'static str = "Mill the first flat a little high, measure from it to the far side with a \
        micrometer, and take off the rest.";
    const WORDS: &'static str = "mill a flat, wrench flats, hexagon on a shaft, square end, set screw flat, D shaft, \
        chord, depth of flat, across flats, spindle flat";
    const EXAMPLES: &'static [Example] = examples! {
        "A set screw in a mill pulley needs a flat 3/8 in wide on a 1 in shaft.":
            diameter = "1 in", width = "3/8 in";
        "A winch spindle of 25 mm gets two wrench flats, 22 mm across.":
            diameter = "25 mm", flats = "2", across_flats = "22 mm";
        "A square of 20 mm across flats on a 25 mm valve stem.":
            diameter = "25 mm", flats = "4", across_flats = "20 mm";
        "A D shaft of 12 mm with 10.5 mm left.": diameter = "12 mm", remaining = "10.5 mm";
        "Six flats 1/16 in deep on a 1-1/4 in pump plug.": diameter = "1-1/4 in", flats = "6", depth = "1/16 in";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "A D shaft of {diameter} is to have {remaining} left from the flat to the far side. How deep do you mill?"
            => "set_depth":
            { diameter = "1/2 in" | "3/4 in" | "1 in", remaining = "7/16 in" | "15/32 in" }
            { diameter = "12 mm" | "16 mm" | "20 mm", remaining = "10.5 mm" | "11 mm" };
        1 "You mill a flat {depth} deep on a {diameter} shaft. How wide does it come out?" => "flat_width":
            { diameter = "1 in" | "1-1/2 in" | "2 in", depth = "0.05 in" | "0.1 in" | "1/8 in" }
            { diameter = "25 mm" | "40 mm" | "50 mm", depth = "1 mm" | "2 mm" | "3 mm" };
        2 "A set screw needs a flat {width} wide on a {diameter} shaft. How deep is it below the top?" => "set_depth":
            { diameter = "1 in" | "1-1/4 in" | "1-1/2 in", width = "1/4 in" | "3/8 in" | "1/2 in" }
            { diameter = "20 mm" | "25 mm" | "30 mm", width = "6 mm" | "8 mm" | "10 mm" };
        2 "{flats} flats, {across_flats} across, go on a {diameter} spindle. How deep is each below the top?"
            => "set_depth":
            { flats = "2" | "4" | "6", diameter = "1 in" | "1-1/8 in", across_flats = "7/8 in" | "15/16 in" }
            { flats = "2" | "4" | "6", diameter = "25 mm" | "28 mm", across_flats = "22 mm" | "24 mm" };
        3 "On a {diameter} plug you mill {flats} flats until they just meet. How deep is that?" => "meeting_depth":
            { flats = "4" | "6" | "8", diameter = "1 in" | "1-1/4 in" | "2 in", depth = "0.05 in" }
            { flats = "4" | "6" | "8", diameter = "25 mm" | "30 mm" | "50 mm", depth = "1 mm" };
    };
    type Input = FlatOnRoundInput;
    type Output = FlatOnRoundResult;
    const LEADS: &'static [&'static str] = &["set_depth"];
    const CONTEXT: &'static [&'static str] =
        &["{flat_width} wide", "{to_far_side} to the far side", "{between_flats} across flats", "turn {turn}"];
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "chord and height of a circle; corners of a regular polygon");
        record.caution(cautions::MILLING);
        let flats = input.flats(record).get();
        let diameter = input.diameter;
        let set_depth = find_depth(input, record);
        let to_far_side: FoundSize = step!(record, "From the flat to the far side",
            h: to_far_side = D - f, D = diameter, f = set_depth);
        let between_flats: Option<FoundSize> = flats
            .is_multiple_of(2)
            .then(|| step!(record, "Across flats", s: between_flats = D - 2.0 * f, D = diameter, f = set_depth));
        let turn: Option<FoundCornerAngle> =
            (flats > 1).then(|| step!(record, "Turn from flat to flat", θ: turn = radians(2.0 * π / n), n = flats));
        let mut result = FlatOnRoundResult {
            set_depth,
            flat_width: FoundSize::of_si(0.0),
            to_far_side,
            between_flats,
            across_corners: None,
            flats_meet: None,
            meeting_depth: None,
            turn,
        };
        find_corners(&mut result, diameter, record);
        record.note(
            "from_the_top",
            "The depth counts from the highest line of the round: touch it with the cutter there, and measure the round \
             itself, not its nominal size.",
        );
        Ok(result)
    }
}

/// The depth below the top, whichever size it comes from.
fn find_depth(input: &FlatOnRoundInput, record: &mut Record) -> FoundDepthSetting {
    let diameter = input.diameter;
    if let Some(width) = input.width {
        return step!(record, "Depth of the chord's arc",
            f: set_depth = squared(w) / (2.0 * (D + root(squared(D) - squared(w)))), w = width, D = diameter);
    }
    if let Some(remaining) = input.remaining {
        return step!(record, "Depth below the top", f: set_depth = D - h, D = diameter, h = remaining);
    }
    if let Some(across_flats) = input.across_flats {
        return step!(record, "Depth below the top", f: set_depth = (D - s) / 2.0, D = diameter, s = across_flats);
    }
    let depth = input.depth.unwrap_or(diameter);
    let found = FoundDepthSetting::stated(depth.quantity().value, depth.quantity().unit);
    tell!(record.choose("Depth below the top", "as given"), f = depth => set_depth: found);
    found
}

/// How wide the flats come out, and whether they meet.
fn find_corners(result: &mut FlatOnRoundResult, diameter: Size, record: &mut Record) {
    let set_depth = result.set_depth;
    let Some(turn) = result.turn.filter(|turn| turn.degrees() < 180.0) else {
        result.flat_width = step!(record, "Width of the flat",
            w: flat_width = 2.0 * root(f * (D - f)), f = set_depth, D = diameter);
        return;
    };
    let meeting_depth: FoundExtent = step!(record, "Depth at which the flats meet",
        m: meeting_depth = D * squared(sin(θ / 4.0)), D = diameter, θ = turn);
    // What differs by a rounding alone meets.
    let flats_meet = set_depth.si() >= meeting_depth.si() * (1.0 - 1e-12);
    tell!(record.look_up("Whether the flats meet", "they do where they are as deep as that, or deeper")
        => flats_meet: column(&[flats_meet], |meet| *meet));
    let (flat_width, across_corners): (FoundSize, FoundSize) = if flats_meet {
        (
            step!(record, "Width of the flat, between sharp corners",
                w: flat_width = (D - 2.0 * f) * tan(θ / 2.0), D = diameter, f = set_depth, θ = turn),
            step!(record, "Across the sharp corners",
                C: across_corners = (D - 2.0 * f) / cos(θ / 2.0), D = diameter, f = set_depth, θ = turn),
        )
    } else {
        tell!(record.choose("Across the corners", "round between the flats"), D = diameter
            => across_corners: diameter.found());
        let flat_width = step!(record, "Width of the flat",
            w: flat_width = 2.0 * root(f * (D - f)), f = set_depth, D = diameter);
        (flat_width, diameter.found())
    };
    if flats_meet && set_depth.si() > meeting_depth.si() * (1.0 + 1e-9) {
        record.note(
            "below_the_round",
            "The flats meet inside the round: the corners come out smaller than the round was.",
        );
    }
    (result.meeting_depth, result.flats_meet) = (Some(meeting_depth), Some(flats_meet));
    (result.flat_width, result.across_corners) = (flat_width, Some(across_corners));
}
