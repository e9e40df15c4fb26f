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
    /// What is made of the lead angle: `none` takes the groove as rings, `lead_angle` adds the handbook's correction, `contact` finds where the wire touches the flanks.
    WireCorrection {
        /// Nothing.
        Off = "none",
        /// The correction by the square of the lead angle's tangent.
        LeadAngle = "lead_angle",
        /// The contact itself.
        Contact = "contact",
    }
}

/// What the wires calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check_thread, check = check_measured)]
pub struct WiresInput {
    /// The thread by its designation, with or without class; an external thread that is not taper.
    pub thread: Designation,
    /// Class of the screw; if absent the one in the designation, else the usual one.
    pub class: Option<ExternalClass>,
    /// Diameter of the wires; the best wire if absent.
    pub wire_diameter: Option<Size>,
    /// Pitch diameter to find the measurement for.
    #[absent("the basic one", value = Size::stated(basics(&self.thread.thread).pitch_diameter_exact, self.thread.unit()),
        "The basic pitch diameter of the thread, before it is rounded as tables print it.")]
    pub pitch_diameter: Option<Size>,
    /// The lead angle's share: none, lead_angle or contact; if absent contact above 5 deg, else lead_angle for Acme and
    /// trapezoidal threads and none for the others.
    pub correction: Option<WireCorrection>,
    /// What the micrometer reads over the three wires on the thread as it stands.
    pub measured_over_wires: Option<Size>,
    /// Angle between the compound slide and the cross slide's direction, for the infeed left.
    #[absent("29.5 deg", "The usual setting for 60 degree threads: half a degree less than the flank.")]
    pub compound_angle: Option<EdgeAngle>,
}

/// Limits of a class, on the pitch diameter and over the wires.
#[derive(Debug, Gives)]
pub struct WireLimits {
    /// Class.
    pub class: String,
    /// Greatest pitch diameter.
    pub pitch_max: FoundUpperLimit,
    /// Least pitch diameter.
    pub pitch_min: FoundLowerLimit,
    /// Greatest measurement over the wires.
    pub over_wires_max: FoundUpperLimit,
    /// Least measurement over the wires.
    pub over_wires_min: FoundLowerLimit,
}

/// What a measurement says of the thread as it stands.
#[derive(Debug, Gives)]
pub struct WireReading {
    /// Pitch diameter that was measured.
    pub pitch_diameter: FoundSize,
    /// Pitch diameter to aim at: the middle of the limits, without limits that of the request.
    pub aim: FoundSize,
    /// `above`, `within` or `below` the limits; absent where there are none.
    pub against_limits: Option<&'static str>,
    /// Infeed left on the cross slide, on the radius, to the aim; negative where too much is off.
    pub infeed_left: FoundDifference,
    /// The same along the compound slide at its angle.
    pub compound_infeed_left: FoundDifference,
}

/// What the wires calculator gives.
#[derive(Debug, Gives)]
pub struct WiresResult {
    #[group]
    pub wires: FittingWires,
    /// What the lead angle adds to the measurement.
    pub lead_share: FoundDifference,
    /// Measurement over the wires for the pitch diameter asked for, else the basic one, which is not what to cut to: that
    /// is between the limits.
    pub over_wires: FoundSize,
    /// The limits of the class; absent where the thread has none here.
    pub limits: Option<WireLimits>,
    /// What the measurement says; only where one is stated.
    pub reading: Option<WireReading>,
}

rules! { check_kind(WiresInput) {
    never(|input| input.thread.thread.is_taper(), Code::Conflict, thread = "G 1/2 A"):
        "A taper thread has no one pitch diameter along it: three wires rock on it, and it is gauged by a ring.";
    never(|input| !input.thread.thread.has_external(), Code::Conflict, thread = "G 1/2 A"):
        "Rp is an internal thread, and wires measure external ones.";
} }

fn check_thread(input: &WiresInput) -> Result<(), ValidationError> {
    check_kind(input)?;
    check_class(("thread", &input.thread.thread), ("class", input.class.as_ref()))
}

rules! { check_measured(WiresInput) {
    needs(compound_angle => measured_over_wires = "0.28 in", compound_angle = "leave out"):
        "compound_angle is for the infeed that a measurement leaves: it needs measured_over_wires.";
    never(|input| input.compound_angle.is_some_and(|angle| angle.degrees() > 80.0), Code::ValueOutOfRange,
        compound_angle = "29.5 deg"):
        "A compound slide more than 80 degrees from the cross slide hardly feeds in.";
} }

impl Calculator for Wires {
    const ID: &'static str = "threads/wires";
    const TITLE: &'static str = "Thread over wires";
    const ABOUT: &'static str = "The best wires for a thread, the measurement over three of them for its pitch diameter \
        and the limits of its class, and from a measurement the infeed that is left.";
    const TASK: Task = Task::Thread;
    const ANOTHER_CHECK: &'static str =
        "Measure the pitch diameter with a thread micrometer, or try the ring gauges of the class.";
    const WORDS: &'static str = "three wires, thread wires, best wire, pitch diameter, measure thread, micrometer, \
        over pins, infeed, compound, Acme, 3 wires";
    const NEAR: &'static str = "dovetail";
    const EXAMPLES: &'static [Example] = examples! {
        "A 1/4-20 stud for a winch cover, class 2A, over 0.032 in wires; the micrometer reads 0.2800 in.":
            thread = "1/4-20 UNC", class = "2A", wire_diameter = "0.032 in", measured_over_wires = "0.2800 in",
            compound_angle = "29.5 deg";
        "A two-start Acme screw of a mill gear at the pitch diameter it was measured with, by its contact.":
            thread = "1-5 Acme (2 STARTS)", pitch_diameter = "0.895 in", correction = "contact";
        "A trapezoidal pump spindle with its best wires.": thread = "Tr28x5-7e";
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
                    "over_wires belongs to a pitch diameter above the greatest of class {}: a screw cut to it is too \
                     large. Cut to between over_wires_min and over_wires_max of limits.",
                    limits.class
                ),
            );
        }
        let aim = (pitch_diameter, limits.as_ref());
        let reading = input.measured_over_wires.map(|over| wires.reading(over, input, aim, record)).transpose()?;
        record.note(
            "wire_use",
            "Use three wires of one diameter, and press as for a gauge of this size: too much presses fine threads in, \
             and the deeper the groove the more a difference of wires counts.",
        );
        Ok(WiresResult { wires: wires.fit, lead_share, over_wires, limits, reading })
    }
}
