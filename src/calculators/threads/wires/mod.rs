//! A thread measured over three wires: the best wire and those that can be used, the measurement for a
//! pitch diameter and for the limits of a class, and from a measurement back to the pitch diameter and
//! the infeed left (Machinery's Handbook, measuring screw threads; contact derived).

mod contact;
mod drawing;
mod limits;
mod over;
mod steps;

use crate::calculators::prelude::*;
use crate::reference::threads::basics;
use crate::threading::{check_class, given_thread};
use steps::{FittingWires, Wires as Found};

/// The calculator.
pub struct Wires;

choice! {
    /// How the lead angle counts: `none` leaves it out, `lead_angle` adds the handbook's correction, `contact` finds where the wire touches the flanks.
    WireCorrection {
        /// It is left out.
        Off = "none",
        /// The handbook's correction.
        LeadAngle = "lead_angle",
        /// Where the wire touches the flanks.
        Contact = "contact",
    }
}

/// What the wires calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check_thread, check = check_measured)]
pub struct WiresInput {
    /// The thread by its designation, with or without class. External and parallel threads only.
    pub thread: Designation,
    /// Class of the screw. If absent, the one in the designation, or else the usual one.
    #[label("Class of the screw")]
    pub class: Option<ExternalClass>,
    /// Diameter of the wires. If absent, the best wire.
    pub wire_diameter: Option<Size>,
    /// Pitch diameter to find the reading for.
    #[absent("the basic one", value = Size::stated(basics(&self.thread.thread).pitch_diameter_exact, self.thread.unit()),
        "The basic pitch diameter of the thread, before rounding.")]
    #[label("Pitch diameter to cut to")]
    pub pitch_diameter: Option<Size>,
    /// How the lead angle counts: none, lead_angle or contact. If absent: contact above 5 deg; below, lead_angle for
    /// Acme and trapezoidal threads and none for the others.
    #[label("How the lead angle counts")]
    pub correction: Option<WireCorrection>,
    /// What the micrometer reads over the wires on the thread as it is now.
    #[label("Reading over the wires")]
    pub measured_over_wires: Option<Size>,
    /// Angle of the compound slide from the direction of the cross slide, for the infeed left.
    #[absent("29.5 deg", "The usual setting for 60 degree threads: half a degree less than the flank.")]
    pub compound_angle: Option<EdgeAngle>,
}

/// Limits of a class, on the pitch diameter and over the wires.
#[derive(Debug, Gives)]
pub struct WireLimits {
    /// Class.
    pub class: String,
    /// Greatest pitch diameter.
    #[label("Pitch diameter, greatest")]
    pub pitch_max: FoundUpperLimit,
    /// Least pitch diameter.
    #[label("Pitch diameter, least")]
    pub pitch_min: FoundLowerLimit,
    /// Greatest reading over the wires.
    #[label("Over the wires, greatest")]
    pub over_wires_max: FoundUpperLimit,
    /// Least reading over the wires.
    #[label("Over the wires, least")]
    pub over_wires_min: FoundLowerLimit,
}

/// What a measurement says of the thread as it stands.
#[derive(Debug, Gives)]
pub struct WireReading {
    /// Pitch diameter by the reading.
    #[label("Pitch diameter measured")]
    pub pitch_diameter: FoundSize,
    /// Pitch diameter to aim at: the middle of the limits, or without limits the one to find the reading for.
    #[label("Pitch diameter to aim at")]
    pub aim: FoundSize,
    /// Whether it is `above`, `within` or `below` the limits; absent where there are none.
    #[label("Measured, against the limits")]
    pub against_limits: Option<&'static str>,
    /// Infeed left on the cross slide, on the radius; negative where too much is cut already.
    #[label("Infeed left, on the radius")]
    pub infeed_left: FoundDifference,
    /// The same along the compound slide.
    #[label("Infeed left, on the compound")]
    pub compound_infeed_left: FoundDifference,
}

/// What the wires calculator gives.
#[derive(Debug, Gives)]
pub struct WiresResult {
    #[group]
    pub wires: FittingWires,
    /// What the lead angle adds to the reading.
    #[label("Added by the lead angle")]
    pub lead_share: FoundDifference,
    /// Reading over the wires for the pitch diameter given, or else the basic one. Cut to between the limits, not to
    /// this.
    #[label("Over the wires")]
    pub over_wires: FoundSize,
    /// The limits of the class; absent where none are known.
    #[label("")]
    pub limits: Option<WireLimits>,
    /// What the reading says; only where one is given.
    #[label("")]
    pub reading: Option<WireReading>,
}

rules! { check_kind(WiresInput) {
    never(|input| input.thread.thread.is_taper(), Code::Conflict, thread = "G 1/2 A"):
        "The pitch diameter of a taper thread changes along it, and three wires rock on it. Gauge it with a ring.";
    never(|input| !input.thread.thread.has_external(), Code::Conflict, thread = "G 1/2 A"):
        "Wires measure external threads; Rp is an internal one.";
} }

fn check_thread(input: &WiresInput) -> Result<(), ValidationError> {
    check_kind(input)?;
    check_class(("thread", &input.thread.thread), ("class", input.class.as_ref()))
}

rules! { check_measured(WiresInput) {
    needs(compound_angle => measured_over_wires = "0.28 in", compound_angle = "leave out"):
        "The compound angle is for the infeed left: give the reading over the wires too, or leave the angle out.";
    never(|input| input.compound_angle.is_some_and(|angle| angle.degrees() > 80.0), Code::ValueOutOfRange,
        compound_angle = "29.5 deg"):
        "More than 80 degrees from the cross slide, the compound slide hardly feeds in.";
} }

impl Calculator for Wires {
    const ID: &'static str = "threads/wires";
    const TITLE: &'static str = "Thread over wires";
    const ABOUT: &'static str = "The best wires for a thread, the micrometer reading over three of them for its pitch \
        diameter and the limits of its class, and from a reading the infeed that is left.";
    const TASK: Task = Task::Thread;
    const ANOTHER_CHECK: &'static str =
        "Measure the pitch diameter with a thread micrometer, or try the ring gauges of the class.";
    const WORDS: &'static str = "three wires, thread wires, best wire, pitch diameter, measure thread, micrometer, \
        over pins, infeed, compound, Acme, 3 wires";
    const EXAMPLES: &'static [Example] = examples! {
        "A 1/4-20 stud for a winch cover, class 2A, over 0.032 in wires; the micrometer reads 0.2800 in.":
            thread = "1/4-20 UNC", class = "2A", wire_diameter = "0.032 in", measured_over_wires = "0.2800 in",
            compound_angle = "29.5 deg";
        "A two-start Acme screw of a mill gear at a pitch diameter of 0.895 in; the wires are set by where they touch.":
            thread = "1-5 Acme (2 STARTS)", pitch_diameter = "0.895 in", correction = "contact";
        "A trapezoidal pump spindle with its best wires.": thread = "Tr28x5-7e";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "You measure {thread} over three wires. Which diameter is best for them?" => "best_wire":
            { thread = "1/4-20 UNC" | "3/8-16 UNC" | "1/2-13 UNC" | "5/8-11 UNC" | "3/4-10 UNC" | "1-8 UNC",
              units = "inch" }
            { thread = "M8" | "M10" | "M12" | "M16" | "M20" | "M24", units = "metric" };
        1 "Which is the smallest wire that still stands above the crests of {thread}?" => "smallest_wire":
            { thread = "1/4-20 UNC" | "1/2-13 UNC" | "3/4-10 UNC", units = "inch" }
            { thread = "M10" | "M16" | "M24", units = "metric" };
        2 "You cut a stud {thread}, class {class}, and have {wire_diameter} wires. What may the micrometer read at \
            most?"
            => "limits/over_wires_max":
            { thread = "1/4-20 UNC", class = "2A" | "3A", wire_diameter = "0.032 in" | "0.029 in", units = "inch" }
            { thread = "1/2-13 UNC", class = "2A" | "3A", wire_diameter = "0.045 in" | "0.048 in", units = "inch" }
            { thread = "3/4-10 UNC", class = "2A" | "3A", wire_diameter = "0.06 in" | "0.055 in", units = "inch" }
            { thread = "M10", class = "6g", wire_diameter = "0.895 mm" | "0.9 mm", units = "metric" }
            { thread = "M12", class = "6g", wire_diameter = "1.1 mm" | "1 mm", units = "metric" };
        2 "The micrometer reads {measured_over_wires} over {wire_diameter} wires on a stud of {thread}. What is its \
            pitch diameter?" => "reading/pitch_diameter":
            { thread = "1/4-20 UNC", wire_diameter = "0.032 in",
              measured_over_wires = "0.28 in" | "0.275 in" | "0.272 in",
              units = "inch" }
            { thread = "1/2-13 UNC", wire_diameter = "0.045 in",
              measured_over_wires = "0.525 in" | "0.52 in" | "0.518 in",
              units = "inch" }
            { thread = "M12", wire_diameter = "1.1 mm", measured_over_wires = "12.7 mm" | "12.65 mm" | "12.75 mm",
              units = "metric" };
        3 "You aim at the middle of class {class}; over {wire_diameter} wires your {thread} stud reads \
            {measured_over_wires}. How much is left to feed in on the cross slide, on the \
            radius?" => "reading/infeed_left":
            { thread = "1/4-20 UNC", class = "2A", wire_diameter = "0.032 in",
              measured_over_wires = "0.28 in" | "0.285 in" | "0.29 in", units = "inch" }
            { thread = "1/2-13 UNC", class = "2A", wire_diameter = "0.045 in",
              measured_over_wires = "0.53 in" | "0.525 in" | "0.54 in", units = "inch" };
        3 "Over {wire_diameter} wires your {thread} stud reads {measured_over_wires}; you aim at the middle of class \
            {class}. What do you feed in on the compound, set over {compound_angle}?" => "reading/compound_infeed_left":
            { thread = "3/4-10 UNC", class = "2A", wire_diameter = "0.06 in",
              measured_over_wires = "0.8 in" | "0.79 in" | "0.785 in", compound_angle = "29.5 deg" | "29 deg",
              units = "inch" }
            { thread = "M12", class = "6g", wire_diameter = "1.1 mm",
              measured_over_wires = "12.8 mm" | "12.9 mm" | "13 mm",
              compound_angle = "29.5 deg", units = "metric" };
    };
    type Input = WiresInput;
    type Output = WiresResult;
    const LEADS: &'static [&'static str] =
        &["reading/infeed_left", "limits/over_wires_min|over_wires", "limits/over_wires_max"];
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.caution(cautions::TURNING_SPINDLE);
        let given = given_thread(&input.thread, "thread", record);
        let wires = Found::find(given, input, record)?;
        let pitch_diameter = input.pitch_diameter(record);
        let (over_wires, lead_share) = wires.over_wires(pitch_diameter, record)?;
        let limits = wires.limits(input.class.as_ref(), record)?;
        if let Some(limits) = &limits
            && over_wires.get().si() > limits.over_wires_max.get().si() + 1e-12
        {
            record.note(
                "over_wires_above_class",
                format!(
                    "This reading over the wires is above the greatest of class {}: a screw cut to it is too large. \
                     Cut to between the least and greatest reading of the class.",
                    limits.class
                ),
            );
        }
        let aim = (pitch_diameter, limits.as_ref());
        let reading = input.measured_over_wires.map(|over| wires.reading(over, input, aim, record)).transpose()?;
        record.note(
            "wire_use",
            "Use three wires of the same diameter and a light, even touch: too much force squeezes fine threads, and \
             any difference between the wires shows in the reading.",
        );
        Ok(WiresResult { wires: wires.fit, lead_share, over_wires, limits, reading })
    }
}
