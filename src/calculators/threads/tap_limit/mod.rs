//! Which ground tap leaves a hole's pitch diameter within its class: H, L and D limits after ASME
//! B94.9 and the classes of ISO 2857, with the oversize that a tap cuts and the coat that is still to
//! come on the flanks.

mod drawing;
mod finished;
mod rows;
mod tap;
mod zones;

use crate::calculators::prelude::*;
use crate::reference::threads::TapMarking;
use crate::shop::tell_tap;
use crate::suggestion::{Way, value};
use crate::threading::{check_class, check_thickness, given_thread, side_limits};
use rows::FoundTaps;
pub use tap::Tap;
use zones::HoleLimits;

/// The calculator.
pub struct TapLimit;

/// What the tap limit calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check_thread, check = check_marking, check = check_coat)]
pub struct TapLimitInput {
    /// The thread by its designation, Unified or metric, with or without class.
    pub thread: Designation,
    /// Class of the tapped hole; if absent the one in the designation, else the usual one.
    pub internal_class: Option<InternalClass>,
    /// How the taps to list are marked: h_limit, d_limit or iso_class; if absent as taps says, else h_limit for Unified
    /// and iso_class for metric threads.
    pub marking: Option<TapMarking>,
    /// Only these taps, by what is marked on them: H3 or GH3, L1, D5, ISO 2. If absent, those within the class and the
    /// ones beside them.
    pub taps: Option<Vec<Tap>>,
    /// How much larger the pitch diameter of the hole comes out than the tap's own, as trials show; negative where the
    /// material springs back.
    #[absent("0", value = Difference::stated(0.0, self.thread.unit()),
        "The hole is taken to come out as large as the tap; a trial piece shows by how much it does not.")]
    pub expected_oversize: Option<Difference>,
    /// Least thickness of a coat that the thread gets afterwards, on each surface; with thickness_max.
    pub thickness_min: Option<Extent>,
    /// Greatest thickness of that coat; with thickness_min.
    pub thickness_max: Option<Extent>,
}

/// A tap and the thread that it leaves.
#[derive(Debug, Gives)]
pub struct TapRow {
    /// What is marked on it.
    pub name: String,
    /// Least pitch diameter of the tap.
    pub pitch_min: FoundSize,
    /// Greatest pitch diameter of the tap.
    pub pitch_max: FoundSize,
    /// Least pitch diameter of the finished thread: with the oversize, and after the thickest coat.
    pub hole_min: FoundSize,
    /// Greatest pitch diameter of the finished thread: with the oversize, and after the thinnest coat.
    pub hole_max: FoundSize,
    /// How far the smallest such thread stays above the least limit; negative where it falls below.
    pub room_below: FoundDifference,
    /// How far the largest such thread stays below the greatest limit; negative where it goes above.
    pub room_above: FoundDifference,
    /// Whether every tap so marked leaves the thread within its class.
    pub within_class: bool,
}

/// What the tap limit calculator gives.
#[derive(Debug, Gives)]
pub struct TapLimitResult {
    /// Class of the tapped hole.
    pub class: String,
    #[group]
    pub hole: HoleLimits,
    #[group]
    pub found: FoundTaps,
}

fn check_thread(input: &TapLimitInput) -> Result<(), ValidationError> {
    let thread = &input.thread.thread;
    if TapMarking::usual(thread.system).is_none() {
        let says = format!(
            "Limits of ground taps are known here for Unified and metric threads, not for {}.",
            thread.designation
        );
        return Err(rule_broken(Code::NotOffered, says, &[("thread", "1/4-20 UNC")]));
    }
    check_class(("thread", thread), ("internal_class", input.internal_class.as_ref()))
}

fn check_marking(input: &TapLimitInput) -> Result<(), ValidationError> {
    let system = input.thread.thread.system;
    let Some(usual) = TapMarking::usual(system) else { return Ok(()) };
    if let Some(marking) = input.marking
        && !marking.suits(system)
    {
        let says = format!("Taps for {} are not marked so.", input.thread.thread.designation);
        let fields = [("thread", marking.thread()), ("marking", usual.as_str())];
        return Err(rule_broken(Code::Conflict, says, &fields));
    }
    let Some(taps) = &input.taps else { return Ok(()) };
    let good = match input.marking.unwrap_or(usual) {
        TapMarking::HLimit => "H3",
        TapMarking::DLimit => "D5",
        TapMarking::IsoClass => "ISO 2",
    };
    let Some(first) = taps.first() else {
        return Err(rule_broken(Code::ValueEmpty, "taps names none.", &[("taps", good)]));
    };
    if taps.len() > 20 {
        return Err(rule_broken(Code::ValueOutOfRange, "Up to 20 taps can be compared.", &[("taps", good)]));
    }
    let marking = first.0.marking;
    if taps.iter().any(|tap| tap.0.marking != marking) {
        let says = "Taps of one marking can be compared at a time.";
        return Err(rule_broken(Code::Conflict, says, &[("taps", &first.0.text())]));
    }
    if !marking.suits(system) {
        let says = format!("{} is no tap for {}.", first.0.text(), input.thread.thread.designation);
        return Err(rule_broken(Code::Conflict, says, &[("thread", marking.thread()), ("taps", good)]));
    }
    match input.marking {
        Some(said) if said != marking => {
            let says = format!("{} is not marked by {}.", first.0.text(), said.as_str());
            Err(rule_broken(Code::Conflict, says, &[("marking", marking.as_str()), ("taps", good)]))
        }
        _ => Ok(()),
    }
}

fn check_coat(input: &TapLimitInput) -> Result<(), ValidationError> {
    let lacks = |field: &'static str, other: Extent| {
        let says = "A coat has a least and a greatest thickness: state both.";
        let stated = value(other.quantity().si(), other.quantity().unit, Way::Near);
        Err(rule_broken(Code::FieldMissing, says, &[(field, &stated)]))
    };
    match (input.thickness_min, input.thickness_max) {
        (Some(least), Some(greatest)) => check_thickness(least, greatest),
        (Some(one), None) => lacks("thickness_max", one),
        (None, Some(one)) => lacks("thickness_min", one),
        (None, None) => Ok(()),
    }
}

impl Calculator for TapLimit {
    const ID: &'static str = "threads/tap-limit";
    const TITLE: &'static str = "Tap for a class";
    const ABOUT: &'static str = "Which ground tap, by its H, L or D limit or its ISO class, leaves the pitch diameter \
        of a tapped hole within its class, with the oversize expected and before plating.";
    const TASK: Task = Task::Thread;
    const ANOTHER_CHECK: &'static str =
        "Tap a hole in scrap of the same material and try the go and the no-go plug in it.";
    const WORDS: &'static str = "tap, H limit, L limit, D limit, GH3, oversize tap, pitch diameter, 2B, 3B, 6H, 6G, \
        plating, go gauge, ground thread";
    const EXAMPLES: &'static [Example] = examples! {
        "A 1/4-20 hole of class 2B in a winch drum, where trials show that taps cut half a thousandth over.":
            thread = "1/4-20 UNC", internal_class = "2B", expected_oversize = "0.0005 in";
        "Two taps in the drawer for a 3/8-16 hole of class 3B in a pump cover: will either do?":
            thread = "3/8-16 UNC", internal_class = "3B", taps = "H3,H5";
        "An M10 hole of class 6H in a mill gear that is to be plated with 5 to 8 micrometres.":
            thread = "M10", marking = "d_limit", thickness_min = "5 um", thickness_max = "8 um";
    };
    type Input = TapLimitInput;
    type Output = TapLimitResult;
    const LEADS: &'static [&'static str] = &["listed_tap", "middle_tap"];
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.caution(cautions::TAPPING);
        let given = given_thread(&input.thread, "thread", record);
        let field = ("internal_class", input.internal_class.as_ref());
        let limits = side_limits(&given, field, "class", record).map_err(|(_, wrong)| Refusal::one(wrong))?;
        let hole = zones::hole(&given, &limits, input, record);
        let marking = zones::marking(&given, input, record);
        let class = limits.class.unwrap_or_default();
        let found = rows::taps(&given, (&hole, &class), marking, input, record)?;
        tell_tap(given.thread(), record);
        record.note(
            "gauge_first",
            "A tap by the list is a beginning: what it cuts depends on its wear, the material, the fluid and how truly it \
             is held. Try it in a scrap piece of the same material and gauge the hole.",
        );
        Ok(TapLimitResult { class, hole: hole.limits, found })
    }
}
