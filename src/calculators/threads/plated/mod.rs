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
    /// What the thread may reach once it is plated: the `basic` profile, which the allowance of its class is left for, or no more than its `class`.
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
    /// Which side is plated: external or internal.
    pub side: PlatedSide,
    /// Class of a screw; if absent the one in the designation, else the usual one.
    pub external_class: Option<ExternalClass>,
    /// Class of a nut; if absent the one in the designation, else the usual one.
    pub internal_class: Option<InternalClass>,
    /// Least thickness of the coat, on each surface.
    pub thickness_min: Extent,
    /// Greatest thickness of the coat, on each surface.
    pub thickness_max: Extent,
    /// What the plated thread may reach: basic or class.
    #[absent(
        "basic",
        "A coat may use up the allowance of the class, so that the thread still goes into a basic gauge."
    )]
    pub may_reach: Option<PlatedLimit>,
}

/// Limits of pitch diameter and crest diameter at one time.
#[derive(Debug, Gives)]
pub struct PlatedLimits {
    /// Greatest pitch diameter.
    pub pitch_max: FoundUpperLimit,
    /// Least pitch diameter.
    pub pitch_min: FoundLowerLimit,
    /// Greatest crest diameter: major of a screw, minor of a nut.
    pub crest_max: FoundUpperLimit,
    /// Least crest diameter.
    pub crest_min: FoundLowerLimit,
}

/// What the plating calculator gives.
#[derive(Debug, Gives)]
pub struct PlatedResult {
    /// Class of the side that is plated; absent for a nut of pipe thread G.
    pub class: Option<String>,
    /// What the thinnest coat changes the pitch diameter by.
    pub pitch_change_min: FoundExtent,
    /// What the thickest coat changes the pitch diameter by.
    pub pitch_change_max: FoundExtent,
    /// Limits that must hold after plating.
    pub after: PlatedLimits,
    /// Limits to cut to before plating.
    pub before: PlatedLimits,
    /// The root, which the coat fills too.
    pub root: RootLimits,
    /// The ring that a screw, or the plug that a hole, must go with, before and after plating; Unified and metric
    /// threads only.
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
    let says = format!("{field} is the class of the side that is not plated.");
    Err(rule_broken(Code::Conflict, says, &[(field, "leave out"), ("side", side)]))
}

fn check_coat(input: &PlatedInput) -> Result<(), ValidationError> {
    check_thickness(input.thickness_min, input.thickness_max)
}

impl Calculator for Plated {
    const ID: &'static str = "threads/plated";
    const TITLE: &'static str = "Thread before plating";
    const ABOUT: &'static str = "The limits to cut a thread to before it is plated, so that a coat of the thickness \
        stated leaves it within its limits.";
    const TASK: Task = Task::Thread;
    // Sizes before and after plating.
    const AT_THE_MACHINE: bool = false;
    const ANOTHER_CHECK: &'static str =
        "Gauge the thread before plating by the limits here, and after it by those of its class.";
    const WORDS: &'static str = "plating, zinc, coating, pre-plate, galvanized, allowance, pitch diameter, \
        thickness, anodizing";
    const EXAMPLES: &'static [Example] = examples! {
        "A 1/2-13 winch stud of class 2A that is to be zinc plated, two to three ten-thousandths thick.":
            thread = "1/2-13 UNC", side = "external", external_class = "2A", thickness_min = "0.0002 in",
            thickness_max = "0.0003 in", may_reach = "basic";
        "An M10 hole of a pump cover, plated with 5 to 8 micrometres.":
            thread = "M10", side = "internal", internal_class = "6H", thickness_min = "5 um", thickness_max = "8 um";
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
