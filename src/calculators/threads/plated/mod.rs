//! Limits of a thread before plating, so that it keeps its limits after: a coat on the flanks changes the
//! pitch diameter by twice its thickness over the sine of half the flank angle. Derived.

mod limits;
mod root_and_gauge;

use crate::calculators::prelude::*;
use crate::threading::{COAT_MOVES, check_class, check_thickness, coat_changes, given_thread};
use limits::{after, before};
use root_and_gauge::{GoGauge, RootLimits, go_gauge, root_limits};

/// The calculator.
pub struct Plated;

choice! {
    /// Which side of the thread is plated: the `external` screw or the `internal` nut.
    PlatedSide {
        /// The screw.
        External = "external",
        /// The nut.
        Internal = "internal",
    }
}

choice! {
    /// What the plated thread may reach: the `basic` profile, using up the allowance of its class, or only the limits of its `class`.
    PlatedLimit {
        /// The basic profile.
        Basic = "basic",
        /// The limits of the class.
        Class = "class",
    }
}

/// What the plating calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check_side, check = check_coat)]
pub struct PlatedInput {
    /// The thread by its designation, with or without class.
    pub thread: Designation,
    /// Which side is plated: external (screw) or internal (nut).
    #[label("Side plated")]
    pub side: PlatedSide,
    /// Class of the screw. If absent, the one in the designation, or else the usual one.
    #[label("Class of the screw")]
    pub external_class: Option<ExternalClass>,
    /// Class of the nut. If absent, the one in the designation, or else the usual one.
    #[label("Class of the nut")]
    pub internal_class: Option<InternalClass>,
    /// Thinnest coat, on each surface.
    #[label("Coat, thinnest")]
    pub thickness_min: Extent,
    /// Thickest coat, on each surface.
    #[label("Coat, thickest")]
    pub thickness_max: Extent,
    /// What the plated thread may reach: basic or class.
    #[absent("basic", "The coat may use up the allowance of the class; the thread still passes a basic go gauge.")]
    #[label("After plating it may reach")]
    pub may_reach: Option<PlatedLimit>,
}

/// Limits of pitch diameter and crest diameter at one time.
#[derive(Debug, Gives)]
pub struct PlatedLimits {
    /// Greatest pitch diameter.
    #[label("Pitch diameter, greatest")]
    pub pitch_max: FoundUpperLimit,
    /// Least pitch diameter.
    #[label("Pitch diameter, least")]
    pub pitch_min: FoundLowerLimit,
    /// Greatest crest diameter: major of a screw, minor of a nut.
    #[label("Crest diameter, greatest")]
    pub crest_max: FoundUpperLimit,
    /// Least crest diameter.
    #[label("Crest diameter, least")]
    pub crest_min: FoundLowerLimit,
}

/// What the plating calculator gives.
#[derive(Debug, Gives)]
pub struct PlatedResult {
    /// Class of the side that is plated; absent for a nut of pipe thread G.
    pub class: Option<String>,
    /// How much the thinnest coat changes the pitch diameter.
    #[label("The thinnest coat changes it by")]
    pub pitch_change_min: FoundExtent,
    /// How much the thickest coat changes the pitch diameter.
    #[label("The thickest coat changes it by")]
    pub pitch_change_max: FoundExtent,
    /// Limits that must hold after plating.
    #[label("After plating")]
    pub after: PlatedLimits,
    /// Limits to cut to before plating.
    #[label("Before plating")]
    pub before: PlatedLimits,
    /// The root, which the coat fills too.
    #[label("")]
    pub root: RootLimits,
    /// The go gauge before and after plating: a ring for a screw, a plug for a nut. Unified and metric threads only.
    pub go_gauge: Option<GoGauge>,
}

fn check_side(input: &PlatedInput) -> Result<(), ValidationError> {
    let thread = ("thread", &input.thread.thread);
    let (external, internal) = (input.external_class.as_ref(), input.internal_class.as_ref());
    let (field, side, stated) = match input.side {
        PlatedSide::External => {
            check_class(thread, ("external_class", external))?;
            ("internal_class", "internal", internal.is_some())
        }
        PlatedSide::Internal => {
            check_class(thread, ("internal_class", internal))?;
            ("external_class", "external", external.is_some())
        }
    };
    if !stated {
        return Ok(());
    }
    let says = format!("The {side} side is not plated: leave its class out, or plate that side.");
    Err(rule_broken(Code::Conflict, says, &[(field, "leave out"), ("side", side)]))
}

fn check_coat(input: &PlatedInput) -> Result<(), ValidationError> {
    check_thickness(input.thickness_min, input.thickness_max)
}

impl Calculator for Plated {
    const ID: &'static str = "threads/plated";
    const TITLE: &'static str = "Thread before plating";
    const ABOUT: &'static str =
        "The limits to cut a thread to before plating, so that it is within its limits with the coat on.";
    const TASK: Task = Task::Thread;
    // Sizes before and after plating.
    const AT_THE_MACHINE: bool = false;
    const ANOTHER_CHECK: &'static str =
        "Gauge the thread to these limits before plating, and to those of its class after plating.";
    const WORDS: &'static str = "plating, zinc, coating, pre-plate, galvanized, allowance, pitch diameter, \
        thickness, anodizing";
    const EXAMPLES: &'static [Example] = examples! {
        "A 1/2-13 winch stud of class 2A, to be zinc plated two to three ten-thousandths thick.":
            thread = "1/2-13 UNC", side = "external", external_class = "2A", thickness_min = "0.0002 in",
            thickness_max = "0.0003 in", may_reach = "basic";
        "An M10 hole of a pump cover, to be plated 5 to 8 micrometers thick.":
            thread = "M10", side = "internal", internal_class = "6H", thickness_min = "5 µm", thickness_max = "8 µm";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "Your {thread} winch stud gets up to {thickness_max} of zinc a side. By how much does its pitch diameter \
            grow?"
            => "pitch_change_max":
            { thread = "1/2-13 UNC" | "3/8-16 UNC", side = "external", thickness_min = "0.0002 in",
              thickness_max = "0.0003 in" | "0.0004 in" | "0.0005 in" | "0.0006 in", units = "inch" }
            { thread = "M10" | "M12", side = "external", thickness_min = "5 µm",
              thickness_max = "8 µm" | "10 µm" | "12 µm", units = "metric" };
        2 "Your {thread} stud, class {external_class}, is plated {thickness_min} to {thickness_max} a side and may \
            then reach the basic size. What is the greatest pitch diameter to cut it to?" => "before/pitch_max":
            { thread = "1/2-13 UNC" | "3/8-16 UNC" | "5/8-11 UNC" | "1/4-20 UNC", side = "external",
              external_class = "2A",
              thickness_min = "0.0002 in", thickness_max = "0.0003 in" | "0.0004 in", may_reach = "basic",
              units = "inch" }
            { thread = "M10" | "M12" | "M16", side = "external", external_class = "6g", thickness_min = "5 µm",
              thickness_max = "8 µm" | "10 µm", may_reach = "basic", units = "metric" };
        2 "An {thread} hole of a pump cover, class {internal_class}, gets {thickness_min} to {thickness_max} of nickel \
            a side. What is the least pitch diameter to tap it to?" => "before/pitch_min":
            { thread = "M8" | "M10" | "M12", side = "internal", internal_class = "6H", thickness_min = "5 µm",
              thickness_max = "8 µm" | "10 µm", units = "metric" };
        2 "How large may a {thread} stud of class {external_class} be over its crests before {thickness_min} to \
            {thickness_max} of zinc a side, if it may reach the basic size afterwards?" => "before/crest_max":
            { thread = "1/2-13 UNC" | "3/8-16 UNC" | "3/4-10 UNC", side = "external", external_class = "2A",
              thickness_min = "0.0002 in", thickness_max = "0.0003 in" | "0.0005 in", may_reach = "basic",
              units = "inch" };
        3 "A {thread} stud must stay within class {external_class} with its coat of {thickness_min} to {thickness_max} \
            a side on. What is the least pitch diameter to cut it to?" => "before/pitch_min":
            { thread = "1/2-13 UNC" | "5/8-11 UNC", side = "external", external_class = "2A" | "3A",
              thickness_min = "0.0002 in" | "0.0001 in", thickness_max = "0.0003 in", may_reach = "class",
              units = "inch" };
    };
    type Input = PlatedInput;
    type Output = PlatedResult;
    const LEADS: &'static [&'static str] = &["before/pitch_max", "before/pitch_min"];

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", COAT_MOVES);
        let given = given_thread(&input.thread, "thread", record);
        let reach = input.may_reach(record);
        let (class, after, root) = after(&given, input, reach, record)?;
        let coat = (input.thickness_min, input.thickness_max);
        let (pitch_change_min, pitch_change_max) = coat_changes(&given, coat, "changes the pitch diameter by", record);
        let before = before(&given, &after, input, (pitch_change_min, pitch_change_max), record)?;
        let root = root_limits(&given, input, root, record);
        let go_gauge = go_gauge(&given, input, (&before, &after), record);
        Ok(PlatedResult { class, pitch_change_min, pitch_change_max, after, before, root, go_gauge })
    }
}
