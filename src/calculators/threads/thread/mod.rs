//! The dimensions of a thread and the limits of its classes as the tables of its standard print
//! them: ASME B1.1, ISO 68-1, 724 and 965-1; pipe, Whitworth and power threads after ASME B1.20.1,
//! ISO 228-1, ISO 7-1, BS 84, ASME B1.5 and ISO 2901 to 2904.

mod acme_stress;
mod basics;
mod common_steps;
mod drawing;
mod engagement;
mod forms;
mod gauging;
mod limit_results;
mod limit_steps;
mod limits;
#[cfg(test)]
mod tests;
mod tolerances;

use crate::calculators::prelude::*;
use crate::threading::check_class;
use gauging::TaperGauging;
use limit_results::ThreadLimits;

/// The calculator.
pub struct Thread;

/// What the thread calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check_external, check = check_internal, check = engagement::check)]
pub struct ThreadInput {
    /// The thread by its designation, with or without class.
    #[label("Thread")]
    pub designation: Designation,
    /// Class of the screw. If absent, the one in the designation, or else the usual one: 2A, 6g (up to M1.4 6h), A for
    /// G, 2G for Acme, 7e for trapezoidal.
    #[label("Class of the screw")]
    pub external_class: Option<ExternalClass>,
    /// Class of the hole. If absent, the one in the designation, or else the usual one: 2B, 6H (up to M1.4 5H), 2G for
    /// Acme, 7H for trapezoidal.
    #[label("Class of the hole")]
    pub internal_class: Option<InternalClass>,
    /// Length over which screw and nut engage; Unified and metric threads only. If absent, the length that the tables
    /// of ASME B1.1 are made for, or a normal one.
    #[label("Length of engagement")]
    pub engagement: Option<Size>,
}

/// What the thread calculator gives.
#[derive(Debug, Gives)]
pub struct ThreadResult {
    /// The designation in one spelling, without class, hand and starts.
    pub designation: String,
    /// The series it belongs to: UNC, UNF, UNEF, a constant pitch such as 8-UN, UNS; coarse or fine; NPT, G, R, Rp, Rc,
    /// BSW, BSF, Acme, Tr. Absent for a metric thread in no list.
    pub series: Option<String>,
    /// True for a thread in the list of its standard, false for one that is only computed.
    #[label("In the standard's list")]
    pub standard: bool,
    /// True for a left-hand thread.
    pub left_hand: bool,
    /// Number of starts.
    pub starts: u32,
    /// Basic major diameter, as printed; of a taper thread at its gauge plane.
    pub major_diameter: FoundSize,
    /// Threads per inch, where the standard counts them.
    pub threads_per_inch: Option<f64>,
    /// Distance from one thread to the next.
    pub pitch: FoundSize,
    /// Advance in one turn: pitch times starts.
    pub lead: FoundSize,
    /// Angle of the thread at the basic pitch diameter.
    pub lead_angle: FoundAngle,
    /// Angle between the flanks, in a plane through the axis.
    pub flank_angle: FoundAngle,
    /// Basic pitch diameter, as printed; of a taper thread at its gauge plane, E1 of NPT.
    pub pitch_diameter: FoundSize,
    /// Basic minor diameter of the internal thread, as printed.
    pub minor_diameter: FoundSize,
    /// Basic minor diameter of the external thread, where clearance makes it differ: Acme, trapezoidal.
    #[label("Minor diameter of the screw")]
    pub external_minor_diameter: Option<FoundSize>,
    /// Basic major diameter of the internal thread, where clearance makes it differ: Acme, trapezoidal.
    #[label("Major diameter of the nut")]
    pub internal_major_diameter: Option<FoundSize>,
    /// Depth of the external thread, crest to root: the basic profile for UN, a rounded root for UNR and metric.
    #[label("Thread depth of the screw")]
    pub external_depth: Option<FoundSize>,
    /// Depth of the internal thread, crest to root of the basic profile.
    #[label("Thread depth of the hole")]
    pub internal_depth: Option<FoundSize>,
    /// Tensile stress area of Unified, metric and Acme threads. The strength depends on the material too.
    #[label("Tensile stress area")]
    pub stress_area: Option<FoundArea>,
    /// Lengths and diameters along a taper thread.
    #[label("")]
    pub gauging: Option<TaperGauging>,
    /// Length of engagement that the limits hold for; Unified threads, and metric ones where it is given.
    #[label("Length of engagement")]
    pub engagement: Option<FoundSize>,
    /// Group of a metric thread's length of engagement, where it is given: S (short), N (normal) or L (long).
    pub engagement_group: Option<&'static str>,
    /// Limits of size; absent where no tolerances are known for the thread.
    #[label("")]
    pub limits: Option<ThreadLimits>,
}

fn check_external(input: &ThreadInput) -> Result<(), ValidationError> {
    let designation = ("designation", &input.designation.thread);
    check_class(designation, ("external_class", input.external_class.as_ref()))
}

fn check_internal(input: &ThreadInput) -> Result<(), ValidationError> {
    let designation = ("designation", &input.designation.thread);
    check_class(designation, ("internal_class", input.internal_class.as_ref()))
}

impl Calculator for Thread {
    const ID: &'static str = "threads/thread";
    const TITLE: &'static str = "Thread dimensions and limits";
    const ABOUT: &'static str = "The basic diameters, pitch, depths and stress area of a Unified, metric, pipe, \
        Whitworth, Acme or trapezoidal thread, and the limits of size of screw and hole in their classes.";
    const TASK: Task = Task::Thread;
    // Sizes as the standard has them.
    const AT_THE_MACHINE: bool = false;
    const ANOTHER_CHECK: &'static str =
        "Try the thread with the go and no-go gauges of its class, or measure it over three wires.";
    const WORDS: &'static str = "screw, nut, bolt, tap, die, pitch diameter, minor diameter, major diameter, root, \
        crest, tolerance, class, 2A, 2B, 6g, 6H, UNC, UNF, UNEF, tpi, lead, helix, allowance, pipe thread, NPT, BSP, \
        BSPP, BSPT, Whitworth, BSW, BSF, Acme, trapezoidal, gauge length";
    const EXAMPLES: &'static [Example] = examples! {
        "A 1/4-20 stud for a winch cover and the hole it goes into, both of the usual classes.":
            designation = "1/4-20 UNC";
        "An M8x1 adjusting screw of a mill gear, close classes on both sides.":
            designation = "M8x1", external_class = "4g6g", internal_class = "5H";
        "A two-start left-hand thread of a pump spindle, in a size that no list has.":
            designation = "7/8-13 UNS-2A-LH (2 STARTS)";
        "The taper pipe thread of a pump's suction line, 1 1/2 NPT, with its gauge lengths.":
            designation = "1 1/2-11.5 NPT";
        "A parallel pipe thread G 1/2 of a drain plug, class A outside.": designation = "G 1/2 A";
        "The Acme screw of a winch brake, class 3G on both sides.":
            designation = "1-5 Acme", external_class = "3G", internal_class = "3G";
        "A 1/2-13 stud that engages seven tenths of an inch in a winch frame.":
            designation = "1/2-13 UNC", engagement = "0.7 in";
        "An M10 screw in a thin pump cover that engages 4 mm only.": designation = "M10", engagement = "4 mm";
        "A trapezoidal screw for a sluice gate of the mill.": designation = "Tr28x5";
        "An old Whitworth bolt of the mill gear.": designation = "1/2-12 BSW";
        "The taper thread on a pump's delivery pipe, R 3/4.": designation = "R 3/4";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "What is the basic pitch diameter of {designation}?" => "pitch_diameter":
            { designation = "1/4-20 UNC" | "3/8-16 UNC" | "1/2-13 UNC" | "3/4-10 UNC" | "5/16-18 UNC", units = "inch" }
            { designation = "M6" | "M8" | "M10" | "M12" | "M20", units = "metric" };
        1 "A drain plug is threaded {designation}. How large is it over the threads?" => "major_diameter":
            { designation = "G 1/4" | "G 3/8" | "G 1/2" | "G 3/4" | "G 1", units = "metric" };
        1 "You tap {designation} to class {internal_class}. How large may the hole come out from the drill at most?"
            => "limits/internal/minor_max":
            { designation = "1/4-20 UNC" | "3/8-16 UNC" | "1/2-13 UNC", internal_class = "2B" | "3B", units = "inch" };
        2 "You turn a stud for {designation}, class {external_class}. How small may it be over the crests?"
            => "limits/external/major_min":
            { designation = "1/4-20 UNC" | "3/8-16 UNC" | "1/2-13 UNC" | "3/4-10 UNC", external_class = "2A" | "3A",
              units = "inch" }
            { designation = "M8" | "M10" | "M12" | "M16", external_class = "6g" | "6h", units = "metric" };
        2 "You try a pump flange tapped {designation} with a plug gauge. How far should it go in by hand?"
            => "gauging/gauge_length":
            { designation = "1/8-27 NPT" | "1/4-18 NPT" | "1/2-14 NPT" | "3/4-14 NPT" | "1-11.5 NPT", units = "inch" };
        2 "Your winch stud is {designation}. What is its tensile stress area?" => "stress_area":
            { designation = "3/8-16 UNC" | "1/2-13 UNC" | "5/8-11 UNC" | "3/4-10 UNC", units = "inch" }
            { designation = "M8" | "M10" | "M12" | "M16", units = "metric" };
        3 "What lead angle does the tool for the pump screw {designation} have to clear?" => "lead_angle":
            { designation = "1-5 Acme" | "1-5 Acme (2 STARTS)" | "3/4-6 Acme (2 STARTS)" | "Tr28x5" | "Tr40x14P7"
              | "1 1/2-4 Acme" };
        3 "A stud is cut {designation}, class {external_class}. How far does even the largest one stay below the basic \
            size?" => "limits/external/allowance":
            { designation = "1/4-20 UNC" | "1/2-13 UNC" | "3/4-10 UNC" | "1-8 UNC", external_class = "2A",
              units = "inch" }
            { designation = "M8" | "M12" | "M20" | "M6", external_class = "6g", units = "metric" };
    };
    type Input = ThreadInput;
    type Output = ThreadResult;
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        let mut result = basics::find(&input.designation, record);
        let metric = engagement::metric(input, record);
        let limits = limits::find(input, metric.as_ref(), record)?;
        result.engagement = limits.engagement.or(metric.as_ref().map(|metric| metric.length));
        result.engagement_group = metric.map(|metric| metric.group.letter());
        result.limits = limits.both;
        result.stress_area = result.stress_area.or(acme_stress::area(input, result.limits.as_ref(), record));
        common_steps::flanks_and_spelling(&input.designation, result.flank_angle, record);
        Ok(result)
    }
}
