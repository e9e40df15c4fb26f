//! What the readout is to show while an edge finder or a cutter touches a face, so that the face has
//! the place wanted: half the tip's diameter, and a shim's thickness, towards where it came from.

mod drawing;

use crate::arithmetic::touching::ReadingWas;
use crate::calculators::prelude::*;

/// The calculator.
pub struct TouchOff;

/// What the touch-off calculator asks for.
#[derive(Debug, Asks)]
pub struct TouchOffInput {
    /// Whether the reading was growing or falling as the tip came up to the face.
    #[label("Reading while approaching")]
    pub reading_was: ReadingWas,
    /// Diameter of the edge finder's tip, or of the cutter used to touch.
    #[label("Tip or cutter diameter")]
    pub tip_diameter: Extent,
    /// Thickness of a shim or gauge block between the tip and the face.
    #[label("Shim thickness")]
    #[absent("0", like = tip_diameter, "The tip is assumed to touch the face itself.")]
    pub shim: Option<Extent>,
    /// Reading that the face should have.
    #[label("Reading wanted at the face")]
    #[absent("0", like = tip_diameter, "The face is assumed to be the datum.")]
    pub face_position: Option<Place>,
}

/// What the touch-off calculator gives.
#[derive(Debug, Gives)]
pub struct TouchOffResult {
    /// What to set the readout to while the tip still touches.
    #[label("Set the readout to")]
    pub set_reading: FoundPlace,
    /// Distance of the spindle's center from the face at the touch: half the tip and the shim.
    #[label("Spindle center to face")]
    pub spindle_from_face: FoundExtent,
    /// What the readout shows with the spindle lifted and moved over the face.
    #[label("Reading over the face")]
    pub over_face: FoundPlace,
}

impl Calculator for TouchOff {
    const ID: &'static str = "datum/touch-off";
    const TITLE: &'static str = "Touch off a face";
    const ABOUT: &'static str = "What to set the readout to while an edge finder or a cutter touches a face, with or \
        without a shim, so that the face gets the reading you want.";
    const TASK: Task = Task::FindZero;
    const ANOTHER_CHECK: &'static str =
        "Come up to the face again from the same side: the reading must repeat within one step of the readout.";
    const WORDS: &'static str = "edge finder, zero, datum, pick up an edge, wiggler, shim, feeler, set the readout, \
        offset, digital readout, DRO, edge";
    const EXAMPLES: &'static [Example] = examples! {
        "An edge finder with a 0.200 in tip came up to the left face of a winch plate, the reading growing.":
            reading_was = "growing", tip_diameter = "0.200 in", face_position = "0 in";
        "A 10 mm end mill standing still touches a 0.5 mm shim on the far face of a pump foot, which is 80 mm from the datum; the reading was falling.":
            reading_was = "falling", tip_diameter = "10 mm", shim = "0.5 mm", face_position = "80 mm";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "A {tip_diameter} edge finder comes up to a face with the reading {reading_was}. What do you set the \
           readout to so that the face is zero?" => "set_reading":
            { tip_diameter = "0.200 in" | "0.250 in" | "0.500 in", reading_was = "growing" | "falling" }
            { tip_diameter = "4 mm" | "6 mm" | "10 mm", reading_was = "growing" | "falling" };
        1 "A {tip_diameter} end mill, standing still, touches a face without a shim. How far is the spindle's center \
           from the face?" => "spindle_from_face":
            { tip_diameter = "3/8 in" | "1/2 in" | "5/8 in" | "3/4 in", reading_was = "growing" }
            { tip_diameter = "6 mm" | "12 mm" | "16 mm", reading_was = "growing" };
        2 "The left face of a winch plate is to read {face_position}. A {tip_diameter} edge finder touches it from \
           outside, the reading {reading_was}. What do you set?" => "set_reading":
            { face_position = "1.000 in" | "1.500 in" | "2.250 in", tip_diameter = "0.200 in" | "0.500 in",
              reading_was = "growing" }
            { face_position = "20 mm" | "25 mm" | "40 mm", tip_diameter = "4 mm" | "10 mm", reading_was = "growing" };
        2 "A {tip_diameter} end mill, standing still, just drags a {shim} shim on the edge that is to be zero. The \
           reading was {reading_was}. What do you set the readout to?" => "set_reading":
            { tip_diameter = "1/4 in" | "3/8 in" | "1/2 in", shim = "0.002 in" | "0.010 in",
              reading_was = "growing" | "falling" }
            { tip_diameter = "6 mm" | "10 mm" | "12 mm", shim = "0.1 mm" | "0.5 mm",
              reading_was = "growing" | "falling" };
        3 "The far face of a pump foot is to read {face_position}. A {tip_diameter} end mill, standing still, drags a \
           {shim} shim on it, and the reading was {reading_was}. What do you set?" => "set_reading":
            { face_position = "2.500 in" | "3.125 in" | "4.000 in", tip_diameter = "3/8 in" | "1/2 in",
              shim = "0.005 in" | "0.010 in", reading_was = "falling" }
            { face_position = "60 mm" | "80 mm" | "95 mm", tip_diameter = "10 mm" | "12 mm",
              shim = "0.1 mm" | "0.5 mm", reading_was = "falling" };
    };
    type Input = TouchOffInput;
    type Output = TouchOffResult;
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "a round tip's axis is half its diameter from the face it touches");
        let tip_diameter = input.tip_diameter;
        let shim = input.shim(record);
        let face = input.face_position(record);
        let spindle_from_face: FoundExtent = step!(record, "Spindle center to the face: half the tip and the shim",
            r: spindle_from_face = d / 2.0 + s, d = tip_diameter, s = shim);
        let set_reading: FoundPlace = match input.reading_was {
            ReadingWas::Growing => step!(record, "Reading to set: it was growing, so the face reads more",
                z: set_reading = F - r, F = face_position: face, r = spindle_from_face),
            ReadingWas::Falling => step!(record, "Reading to set: it was falling, so the face reads less",
                z: set_reading = F + r, F = face_position: face, r = spindle_from_face),
        };
        let over_face = face.found();
        record
            .choose("Reading with the spindle over the face", "the same as that of the face")
            .with("F", "face_position", face)
            .gives("over_face", over_face);
        record.note(
            "look",
            "To check, lift the tip, move until the readout shows the reading of the face, and look: the spindle must \
             stand over the edge. If it is a whole tip away, the reading was changing the other way.",
        );
        record.note(
            "play",
            "Set the reading before anything moves. With dials in place of scales, approach every place from the side \
             you touched the face from, so that the backlash stays taken up.",
        );
        if shim.get().si() > 0.0 {
            record.note("shim_drags", "The shim must just drag. A pinched shim springs the tool and the work apart.");
        }
        record.caution(cautions::TOUCHING);
        record.caution(cautions::TURNING_SPINDLE);
        Ok(TouchOffResult { set_reading, spindle_from_face, over_face })
    }
}
