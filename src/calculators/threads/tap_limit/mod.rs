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
    /// The thread by its designation: Unified or metric, with or without class.
    pub thread: Designation,
    /// Class of the tapped hole. If absent, the one in the designation, or else the usual one.
    #[label("Class of the hole")]
    pub internal_class: Option<InternalClass>,
    /// How the taps are marked: h_limit, d_limit or iso_class. If absent, as the taps to compare are; without any,
    /// h_limit for Unified and iso_class for metric threads.
    #[label("How the taps are marked")]
    pub marking: Option<TapMarking>,
    /// Only these taps, by their marking: H3 or GH3, L1, D5, ISO 2. If absent, those within the class and the ones next
    /// to them.
    #[label("Taps to compare", "tap")]
    pub taps: Option<Vec<Tap>>,
    /// How much larger the hole's pitch diameter comes out than the tap's, as trials show; negative where the material
    /// springs back.
    #[absent("0", value = Difference::stated(0.0, self.thread.unit()),
        "The hole is assumed to come out the size of the tap; a trial piece shows how much larger it is.")]
    #[label("Hole larger than the tap by")]
    pub expected_oversize: Option<Difference>,
    /// Thinnest coat that the thread gets afterwards, on each surface. Give the thickest too.
    #[label("Coat, thinnest")]
    pub thickness_min: Option<Extent>,
    /// Thickest coat that it gets, on each surface. Give the thinnest too.
    #[label("Coat, thickest")]
    pub thickness_max: Option<Extent>,
}

/// A tap and the thread that it leaves.
#[derive(Debug, Gives)]
pub struct TapRow {
    /// The marking on it.
    #[label("Marking")]
    pub name: String,
    /// Least pitch diameter of the tap.
    #[label("Pitch diameter of the tap, least")]
    pub pitch_min: FoundSize,
    /// Greatest pitch diameter of the tap.
    #[label("Pitch diameter of the tap, greatest")]
    pub pitch_max: FoundSize,
    /// Least pitch diameter of the finished thread, with the oversize and the thickest coat.
    #[label("Pitch diameter of the hole, least")]
    pub hole_min: FoundSize,
    /// Greatest pitch diameter of the finished thread, with the oversize and the thinnest coat.
    #[label("Pitch diameter of the hole, greatest")]
    pub hole_max: FoundSize,
    /// How far the smallest such thread stays above the least limit; negative where it falls below.
    #[label("Above the least limit by")]
    pub room_below: FoundDifference,
    /// How far the largest such thread stays below the greatest limit; negative where it goes above.
    #[label("Below the greatest limit by")]
    pub room_above: FoundDifference,
    /// Whether every tap so marked leaves the thread within its class.
    pub within_class: bool,
}

/// What the tap limit calculator gives.
#[derive(Debug, Gives)]
pub struct TapLimitResult {
    /// Class of the tapped hole.
    #[label("Class of the hole")]
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
            "Limits of ground taps are given for Unified and metric threads only, not for {}.",
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
        let says = format!("Taps for {} are marked another way.", input.thread.thread.designation);
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
        return Err(rule_broken(Code::ValueEmpty, "Name at least one tap, or leave the field out.", &[("taps", good)]));
    };
    if taps.len() > 20 {
        return Err(rule_broken(Code::ValueOutOfRange, "Up to 20 taps can be compared.", &[("taps", good)]));
    }
    let marking = first.0.marking;
    if taps.iter().any(|tap| tap.0.marking != marking) {
        let says = "Compare taps with one kind of marking at a time.";
        return Err(rule_broken(Code::Conflict, says, &[("taps", &first.0.text())]));
    }
    if !marking.suits(system) {
        let says = format!("{} is not a marking of taps for {}.", first.0.text(), input.thread.thread.designation);
        return Err(rule_broken(Code::Conflict, says, &[("thread", marking.thread()), ("taps", good)]));
    }
    match input.marking {
        Some(said) if said != marking => {
            let says = format!("{} is not {}.", first.0.text(), said.words());
            Err(rule_broken(Code::Conflict, says, &[("marking", marking.as_str()), ("taps", good)]))
        }
        _ => Ok(()),
    }
}

fn check_coat(input: &TapLimitInput) -> Result<(), ValidationError> {
    let lacks = |field: &'static str, other: Extent| {
        let says = "Give both the thinnest and the thickest coat.";
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
        of a tapped hole within its class, allowing for the oversize it cuts and a coat put on later.";
    const TASK: Task = Task::Thread;
    const ANOTHER_CHECK: &'static str =
        "Tap a hole in scrap of the same material and try the go and no-go plugs in it.";
    const WORDS: &'static str = "tap, H limit, L limit, D limit, GH3, oversize tap, pitch diameter, 2B, 3B, 6H, 6G, \
        plating, go gauge, ground thread";
    const EXAMPLES: &'static [Example] = examples! {
        "A 1/4-20 hole of class 2B in a winch drum; trials show that taps cut half a thousandth over.":
            thread = "1/4-20 UNC", internal_class = "2B", expected_oversize = "0.0005 in";
        "Two taps in the drawer for a 3/8-16 hole of class 3B in a pump cover: will either do?":
            thread = "3/8-16 UNC", internal_class = "3B", taps = "H3,H5";
        "An M10 hole of class 6H in a mill gear that is to be plated with 5 to 8 micrometers.":
            thread = "M10", marking = "d_limit", thickness_min = "5 µm", thickness_max = "8 µm";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "A ground {thread} tap is marked {taps}. How large can its own pitch diameter be at most?"
            => "taps/0/pitch_max":
            { thread = "1/4-20 UNC" | "3/8-16 UNC" | "1/2-13 UNC" | "5/16-18 UNC", taps = "H3" | "H5" | "H2",
              units = "inch" }
            { thread = "M8" | "M10" | "M12", taps = "D4" | "D5" | "D6", units = "metric" };
        1 "You tap {thread} to class {internal_class} in a pump cover. What is the greatest pitch diameter of the \
            hole?" => "pitch_max":
            { thread = "1/4-20 UNC" | "3/8-16 UNC" | "1/2-13 UNC", internal_class = "2B" | "3B", units = "inch" }
            { thread = "M6" | "M8" | "M10", internal_class = "6H" | "6G", units = "metric" };
        2 "Trials show that taps cut {expected_oversize} over. You tap {thread} to class {internal_class} with one \
            marked {taps}. How far below the greatest limit does the largest hole stay?" => "taps/0/room_above":
            { thread = "1/4-20 UNC" | "3/8-16 UNC" | "1/2-13 UNC", internal_class = "2B", taps = "H3" | "H5",
              expected_oversize = "0.0005 in" | "0.001 in", units = "inch" };
        2 "You tap {thread} to class {internal_class} with a tap marked {taps} that cuts to size. How far below the \
            greatest limit does the largest hole stay?"
            => "taps/0/room_above":
            { thread = "M6" | "M8" | "M10" | "M12", internal_class = "6H", taps = "ISO 2", expected_oversize = "0 mm",
              units = "metric" }
            { thread = "M6" | "M8" | "M10" | "M12", internal_class = "6G", taps = "ISO 3", expected_oversize = "0 mm",
              units = "metric" };
        2 "A hole tapped {thread}, class {internal_class}, gets plated {thickness_min} to {thickness_max} a side. What \
            pitch diameter do you tap to at least?" => "pitch_min_before":
            { thread = "1/4-20 UNC" | "3/8-16 UNC" | "1/2-13 UNC", internal_class = "2B", thickness_min = "0.0002 in",
              thickness_max = "0.0003 in" | "0.0004 in", units = "inch" }
            { thread = "M8" | "M10" | "M12", internal_class = "6H", thickness_min = "5 µm",
              thickness_max = "8 µm" | "10 µm",
              units = "metric" };
        3 "A {thread} hole of class {internal_class} gets a coat of {thickness_min} to {thickness_max} a side. By how \
            many H limits must the tap be larger?" => "steps_up":
            { thread = "1/4-20 UNC" | "5/16-18 UNC" | "3/8-16 UNC", internal_class = "2B", thickness_min = "0.0002 in",
              thickness_max = "0.0003 in" | "0.0004 in" | "0.0005 in" };
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
            "A tap from a list is a starting point: what it cuts depends on its wear, the material, the fluid and how \
             true it runs. Try it in scrap of the same material and gauge the hole.",
        );
        Ok(TapLimitResult { class, hole: hole.limits, found })
    }
}
