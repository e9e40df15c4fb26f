//! The dimensions of a Unified inch or metric M thread and the limits of its classes, after
//! ASME B1.1, ISO 68-1, ISO 724 and ISO 965-1, as their tables print them.

mod drawing;

use super::thread_basics;
use super::thread_limits::{self, ThreadLimits};
use crate::calculators::{Calculator, Draw, Example, Task};
use crate::quantity::{FoundAngle, FoundArea, FoundSize};
use crate::reference::thread_class::{ClassOf, ExternalClass, InternalClass};
use crate::reference::thread_designation::Designation;
use crate::refusal::{Code, Refusal, between};
use crate::working::Record;
use serde::Deserialize;
use utoipa::ToSchema;
use validator::{Validate, ValidationError};

/// The calculator.
pub struct Thread;

/// What the thread calculator asks for.
#[derive(Debug, Deserialize, Validate, ToSchema)]
#[serde(deny_unknown_fields)]
#[validate(schema(function = "check_external"), schema(function = "check_internal"))]
pub struct ThreadInput {
    /// The thread by its designation, with or without class.
    pub designation: Designation,
    /// Class of the screw; if absent the one in the designation, else 2A, 6g or, up to M1.4, 6h.
    pub external_class: Option<ExternalClass>,
    /// Class of the hole; if absent the one in the designation, else 2B, 6H or, up to M1.4, 5H.
    pub internal_class: Option<InternalClass>,
}

crate::tree!(ThreadInput { designation, external_class, internal_class });

/// What the thread calculator gives.
#[derive(Debug, ToSchema)]
pub struct ThreadResult {
    /// The designation in one spelling, without class, hand and starts.
    pub designation: String,
    /// The series it belongs to: UNC, UNF, UNEF, a constant pitch such as 8-UN, UNS; coarse or fine. Absent for a
    /// metric thread in no list.
    pub series: Option<String>,
    /// True for a thread in the list of its standard, false for one that is only computed.
    pub standard: bool,
    /// True for a left-hand thread.
    pub left_hand: bool,
    /// Number of starts.
    pub starts: u32,
    /// Basic major diameter, as printed.
    pub major_diameter: FoundSize,
    /// Threads in one inch; Unified only.
    pub threads_per_inch: Option<f64>,
    /// Distance from one thread to the next.
    pub pitch: FoundSize,
    /// Advance in one turn: pitch times starts.
    pub lead: FoundSize,
    /// Angle of the thread at the basic pitch diameter.
    pub lead_angle: FoundAngle,
    /// Basic pitch diameter, as printed.
    pub pitch_diameter: FoundSize,
    /// Basic minor diameter, that of the internal thread, as printed.
    pub minor_diameter: FoundSize,
    /// Depth of the external thread, crest to root: the basic profile for UN, a rounded root for UNR and metric.
    pub external_depth: FoundSize,
    /// Depth of the internal thread, crest to root of the basic profile.
    pub internal_depth: FoundSize,
    /// Tensile stress area. It says nothing of strength without the material.
    pub stress_area: FoundArea,
    /// Limits of size; absent where the standard has no tolerances for the thread.
    pub limits: Option<ThreadLimits>,
}

crate::tree!(ThreadResult {
    designation,
    series,
    standard,
    left_hand,
    starts,
    major_diameter,
    threads_per_inch,
    pitch,
    lead,
    lead_angle,
    pitch_diameter,
    minor_diameter,
    external_depth,
    internal_depth,
    stress_area,
    limits
});

fn check_external(input: &ThreadInput) -> Result<(), ValidationError> {
    check(&input.designation, "external_class", input.external_class.as_ref())
}

fn check_internal(input: &ThreadInput) -> Result<(), ValidationError> {
    check(&input.designation, "internal_class", input.internal_class.as_ref())
}

fn check<const INTERNAL: bool>(
    designation: &Designation,
    field: &'static str,
    class: Option<&ClassOf<INTERNAL>>,
) -> Result<(), ValidationError> {
    match ClassOf::clash(&designation.thread, class) {
        None => Ok(()),
        Some(clash) => {
            let fields = [("designation", clash.thread.as_str()), (field, clash.class.as_str())];
            Err(between(Code::Conflict, clash.says, &fields))
        }
    }
}

impl Calculator for Thread {
    const ID: &'static str = "threads/thread";
    const TITLE: &'static str = "Thread dimensions and limits";
    const ABOUT: &'static str = "The basic diameters, pitch, depths and stress area of a Unified or metric thread, and \
        the limits of size of its external and internal class.";
    const TASK: Task = Task::Thread;
    const WORDS: &'static [&'static str] = &[
        "screw",
        "nut",
        "bolt",
        "tap",
        "die",
        "pitch diameter",
        "minor diameter",
        "major diameter",
        "root",
        "crest",
        "tolerance",
        "class",
        "2A",
        "2B",
        "6g",
        "6H",
        "UNC",
        "UNF",
        "UNEF",
        "tpi",
        "lead",
        "helix",
        "allowance",
    ];
    const EXAMPLES: &'static [Example] = &[
        Example {
            says: "A 1/4-20 stud for a winch cover and the hole it goes into, both of the usual classes.",
            fields: &[("designation", "1/4-20 UNC")],
        },
        Example {
            says: "An M8x1 adjusting screw of a mill gear, close classes on both sides.",
            fields: &[("designation", "M8x1"), ("external_class", "4g6g"), ("internal_class", "5H")],
        },
        Example {
            says: "A two-start left-hand thread of a pump spindle, in a size that no list has.",
            fields: &[("designation", "7/8-13 UNS-2A-LH (2 STARTS)")],
        },
    ];
    type Input = ThreadInput;
    type Output = ThreadResult;
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        let thread = &input.designation.thread;
        let basics = thread_basics::find(&input.designation, record);
        let limits = thread_limits::find(input, record)?;
        thread_basics::respelled(&input.designation, record);
        Ok(ThreadResult {
            designation: thread.designation.clone(),
            series: thread.series.clone(),
            standard: thread.standard,
            left_hand: thread.left_hand,
            starts: thread.starts,
            major_diameter: basics.major_diameter,
            threads_per_inch: thread.threads_per_inch,
            pitch: basics.pitch,
            lead: basics.lead,
            lead_angle: basics.lead_angle,
            pitch_diameter: basics.pitch_diameter,
            minor_diameter: basics.minor_diameter,
            external_depth: basics.external_depth,
            internal_depth: basics.internal_depth,
            stress_area: basics.stress_area,
            limits,
        })
    }
}
