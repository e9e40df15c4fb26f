//! Limits of a thread before plating, so that it keeps its limits after: a coat on the flanks changes the
//! pitch diameter by twice its thickness over the sine of half the flank angle. Derived.

mod limits;

use crate::calculators::{Calculator, Example, Task};
use crate::declared::{Asks, Gives};
use crate::quantity::{Extent, FoundExtent, FoundLowerLimit, FoundUpperLimit};
use crate::reference::threads::{ClassOf, Designation, ExternalClass, InternalClass};
use crate::refusal::{Code, Refusal, rule_broken};
use crate::suggestion::{Way, value};
use crate::threading::given_thread;
use crate::working::Record;
use limits::{after, before};
use validator::ValidationError;

/// The calculator.
pub struct Plated;

crate::choice! {
    /// Which side of the thread is plated: the `external` screw or the `internal` nut.
    PlatedSide {
        /// The screw.
        External = "external",
        /// The nut.
        Internal = "internal",
    }
}

crate::choice! {
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
#[asks(check = check_thread, check = check_thickness)]
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
    /// What the plated thread may reach: basic or class; basic if absent.
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
}

fn check_thread(input: &PlatedInput) -> Result<(), ValidationError> {
    let thread = &input.thread.thread;
    let clash = match input.side {
        PlatedSide::External => {
            ClassOf::clash(thread, input.external_class.as_ref()).map(|clash| ("external_class", clash))
        }
        PlatedSide::Internal => {
            ClassOf::clash(thread, input.internal_class.as_ref()).map(|clash| ("internal_class", clash))
        }
    };
    if let Some((field, clash)) = clash {
        let fields = [("thread", clash.thread.as_str()), (field, clash.class.as_str())];
        return Err(rule_broken(Code::Conflict, clash.says, &fields));
    }
    let other = match input.side {
        PlatedSide::External => input.internal_class.as_ref().map(|_| "internal_class"),
        PlatedSide::Internal => input.external_class.as_ref().map(|_| "external_class"),
    };
    match other {
        None => Ok(()),
        Some(field) => {
            let says = format!("{field} is the class of the side that is not plated.");
            Err(rule_broken(
                Code::Conflict,
                says,
                &[(field, "leave out"), ("side", if field == "internal_class" { "internal" } else { "external" })],
            ))
        }
    }
}

fn check_thickness(input: &PlatedInput) -> Result<(), ValidationError> {
    let (least, greatest) = (input.thickness_min.quantity(), input.thickness_max.quantity());
    if least.si() <= greatest.si() {
        return Ok(());
    }
    let stated = |quantity: crate::quantity::Quantity| value(quantity.si(), quantity.unit, Way::Near);
    Err(rule_broken(
        Code::Conflict,
        "thickness_min is above thickness_max.",
        &[("thickness_min", &stated(greatest)), ("thickness_max", &stated(least))],
    ))
}

impl Calculator for Plated {
    const ID: &'static str = "threads/plated";
    const TITLE: &'static str = "Thread before plating";
    const ABOUT: &'static str = "The limits to cut a thread to before it is plated, so that a coat of the thickness \
        stated leaves it within its limits.";
    const TASK: Task = Task::Thread;
    const ANOTHER_CHECK: &'static str =
        "Gauge the thread before plating by the limits here, and after it by those of its class.";
    const WORDS: &'static [&'static str] = &[
        "plating",
        "zinc",
        "coating",
        "pre-plate",
        "galvanized",
        "allowance",
        "pitch diameter",
        "thickness",
        "anodizing",
    ];
    const EXAMPLES: &'static [Example] = &[
        Example {
            says: "A 1/2-13 winch stud of class 2A that is to be zinc plated, two to three ten-thousandths thick.",
            fields: &[
                ("thread", "1/2-13 UNC"),
                ("side", "external"),
                ("external_class", "2A"),
                ("thickness_min", "0.0002 in"),
                ("thickness_max", "0.0003 in"),
                ("may_reach", "basic"),
            ],
        },
        Example {
            says: "An M10 hole of a pump cover, plated with 5 to 8 micrometres.",
            fields: &[
                ("thread", "M10"),
                ("side", "internal"),
                ("internal_class", "6H"),
                ("thickness_min", "5 um"),
                ("thickness_max", "8 um"),
            ],
        },
    ];
    type Input = PlatedInput;
    type Output = PlatedResult;
    const LEADS: &'static [&'static str] = &["before/pitch_max", "before/pitch_min"];

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source(
            "geometry",
            "a coat on both flanks moves the pitch line by its thickness over the sine of half their angle",
        );
        let given = given_thread(&input.thread, "thread", record);
        let reach = record.or_assume(
            input.may_reach,
            "may_reach",
            PlatedLimit::Basic,
            "A coat may use up the allowance of the class, so that the thread still goes into a basic gauge.",
        );
        let limits = after(&given, input, reach, record)?;
        let unit = given.unit();
        let factor = 4.0 / (2.0 * given.half_angle.degrees().to_radians().sin());
        let change = |thickness: Extent| FoundExtent::stated(factor * thickness.quantity().in_unit(unit), unit);
        let (least, greatest) = (change(input.thickness_min), change(input.thickness_max));
        for (what, thickness, of, field, found) in [
            (
                "What the thinnest coat changes the pitch diameter by",
                input.thickness_min,
                "thickness_min",
                "pitch_change_min",
                least,
            ),
            (
                "What the thickest coat changes the pitch diameter by",
                input.thickness_max,
                "thickness_max",
                "pitch_change_max",
                greatest,
            ),
        ] {
            record
                .step(what, "Δ = 2 × t / sin(α)")
                .with("t", of, thickness)
                .with("α", "half_flank_angle", given.half_angle)
                .gives(field, found);
        }
        let before = before(&limits, input, (least, greatest), unit, record)?;
        record.note(
            "plating_uneven",
            "A coat grows thicker on crests and edges than in roots, and a long or deep thread gets less inside: the \
             plater's own experience comes first, and a trial piece is measured before and after.",
        );
        Ok(PlatedResult {
            class: limits.class,
            pitch_change_min: least,
            pitch_change_max: greatest,
            after: limits.limits,
            before,
        })
    }
}
