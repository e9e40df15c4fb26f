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
    /// What the reading did while the tip came up to the face: growing or falling.
    pub reading_was: ReadingWas,
    /// Diameter of the edge finder's tip, or of the cutter that touches.
    pub tip_diameter: Extent,
    /// Thickness of a shim or gauge block between tip and face.
    #[absent("0", like = tip_diameter, "The tip is taken to touch the face.")]
    pub shim: Option<Extent>,
    /// The reading that the face itself is to have.
    #[absent("0", like = tip_diameter, "The face is taken to be the datum.")]
    pub face_position: Option<Place>,
}

/// What the touch-off calculator gives.
#[derive(Debug, Gives)]
pub struct TouchOffResult {
    /// What to make the readout show while the tip still touches: where the middle of the spindle is then.
    pub set_reading: FoundPlace,
    /// How far the middle of the spindle is from the face at the touch: half the tip and the shim.
    pub spindle_from_face: FoundExtent,
    /// What the readout shows once the spindle is lifted and moved to stand over the face.
    pub over_face: FoundPlace,
}

impl Calculator for TouchOff {
    const ID: &'static str = "datum/touch-off";
    const TITLE: &'static str = "Touch off a face";
    const ABOUT: &'static str = "What to set the readout to while an edge finder or a cutter touches a face, with or \
        without a shim, so that the face gets the reading it is to have.";
    const TASK: Task = Task::FindZero;
    const ANOTHER_CHECK: &'static str =
        "Come up to the face again from the same side: the reading must return within the step of the readout.";
    const WORDS: &'static str = "edge finder, zero, datum, pick up an edge, wiggler, shim, feeler, set the readout, \
        offset, digital readout, DRO, edge";
    const EXAMPLES: &'static [Example] = examples! {
        "An edge finder with a 0.200 in tip came up to the left face of a winch plate, the reading growing.":
            reading_was = "growing", tip_diameter = "0.200 in", face_position = "0 in";
        "A 10 mm end mill standing still touches a 0.5 mm shim on the far face of a pump foot, which is 80 mm from the datum; the reading was falling.":
            reading_was = "falling", tip_diameter = "10 mm", shim = "0.5 mm", face_position = "80 mm";
    };
    type Input = TouchOffInput;
    type Output = TouchOffResult;
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "a round tip's axis is half its diameter from the face it touches");
        let tip_diameter = input.tip_diameter;
        let shim = input.shim(record);
        let face = input.face_position(record);
        let spindle_from_face: FoundExtent = step!(record, "Middle of the spindle from the face",
            r: spindle_from_face = d / 2.0 + s, d = tip_diameter, s = shim);
        let set_reading: FoundPlace = match input.reading_was {
            ReadingWas::Growing => step!(record, "The reading would have to grow further to reach the face",
                z: set_reading = F - r, F = face_position: face, r = spindle_from_face),
            ReadingWas::Falling => step!(record, "The reading would have to fall further to reach the face",
                z: set_reading = F + r, F = face_position: face, r = spindle_from_face),
        };
        let over_face = face.found();
        record
            .choose("Reading with the spindle over the face", "the face's own")
            .with("F", "face_position", face)
            .gives("over_face", over_face);
        record.note(
            "look",
            "Lift the tip, move on until the readout shows over_face, and look: the spindle must stand over the edge. \
             If it stands a whole tip away, the reading did the other thing.",
        );
        record.note(
            "play",
            "Set the reading before anything moves. With dials in place of scales, come up to every place from the \
             side from which the face was touched, so that the play of the screw stays taken up.",
        );
        if shim.get().si() > 0.0 {
            record.note("shim_drags", "The shim must just drag; pinched, it springs tool and work apart by more.");
        }
        record.caution(cautions::TOUCHING);
        record.caution(cautions::TURNING_SPINDLE);
        Ok(TouchOffResult { set_reading, spindle_from_face, over_face })
    }
}
