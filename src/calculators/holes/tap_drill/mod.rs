//! The hole before tapping: the exact size for a percentage of thread, the stock drills near it
//! against the class's limits, and the drill that a table prints (limits after ASME B1.1, ISO 965-1,
//! ISO 228-1, ASME B1.5, ISO 2903; forming taps as tap makers print it).

mod choice;
mod drawing;
mod height;
mod rules;
mod steps;
mod taper;
#[cfg(test)]
mod tests;
mod thread;

use crate::calculators::prelude::*;
use crate::reference::drills::{Drill, DrillSystem};
use crate::reference::threads::{ThreadSystem, published_tap_drill};
use crate::shop::{DrillsFrom, drills_from, tell_tap};
use choice::Choice;
use rules::{check_class, check_kind, check_systems};
use std::ops::Range;
use steps::Hole;
use thread::{limits, size_and_pitch};

/// The calculator.
pub struct TapDrill;

choice! {
    /// How the tap makes the thread: `cutting` takes chips, `forming` presses the metal out and needs a larger hole.
    TapKind {
        /// The tap cuts.
        Cutting = "cutting",
        /// The tap forms.
        Forming = "forming",
    }
}

/// What the tap drill calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check_class, check = check_systems, check = check_kind)]
pub struct TapDrillInput {
    /// The thread by its designation, with or without class.
    pub thread: Designation,
    /// Height of thread wanted, as a share of the full height; if absent 75 percent for a cutting tap, 65 for a
    /// forming one, 100 for Acme and trapezoidal threads. Taper threads have none.
    #[label("Height of thread")]
    pub thread_percent: Option<ThreadPercent>,
    /// Class of the thread in the hole; if absent the one in the designation, else the usual one: 2B, 6H (up to M1.4
    /// 5H), 2G for Acme, 7H for trapezoidal.
    #[label("Class of the hole")]
    pub internal_class: Option<InternalClass>,
    /// Kind of tap: cutting, or forming for Unified and metric threads.
    #[absent("cutting", "A cutting tap is assumed, the more common kind.")]
    #[label("Kind of tap")]
    pub tap: Option<TapKind>,
    /// Drills at hand: any of fraction, number, letter, metric; if absent every one of the drawer, or of the
    /// tables the inch ones for an inch thread and metric for a metric one.
    #[label("Drill systems")]
    pub systems: Option<Vec<DrillSystem>>,
    /// How much larger than the drill the hole comes out.
    #[absent("0", value = Extent::stated(0.0, self.thread.unit()),
        "The hole is assumed to come out as large as the drill. Most drills cut larger, so measure a trial hole.")]
    #[label("Drill cuts large by")]
    pub expected_oversize: Option<Extent>,
    /// Which drills to choose from: those in the shop's drawer, or all of the tables; shop if one with drills is set.
    #[label("Choose from")]
    pub from: Option<DrillsFrom>,
}

/// Limits of the minor diameter, which is the hole that is left between the crests.
#[derive(Debug, Gives)]
pub struct MinorLimits {
    /// Class; absent for pipe threads G, which have one without a letter.
    #[label("Class of the limits")]
    pub class: Option<String>,
    /// Least minor diameter.
    #[label("Minor diameter, least")]
    pub minor_min: FoundLowerLimit,
    /// Greatest minor diameter.
    #[label("Minor diameter, greatest")]
    pub minor_max: FoundUpperLimit,
}

/// A stock drill for the hole.
#[derive(Debug, Gives)]
pub struct TapDrillRow {
    /// The trade's name for the drill.
    #[label("Drill")]
    pub name: &'static str,
    /// Its system: fraction, number, letter or metric.
    pub system: &'static str,
    /// Its diameter.
    #[label("Drill size")]
    pub diameter: FoundSize,
    /// The hole expected from it: its diameter and what it cuts large by.
    #[label("Hole")]
    pub hole_diameter: FoundSize,
    /// The height of thread that the hole leaves; absent for taper threads.
    #[label("Height of thread")]
    pub thread_percent: Option<FoundThreadPercent>,
    /// Whether the hole lies within the class's limits; absent for a forming tap and where there are no limits.
    #[label("Within the class")]
    pub within_class: Option<bool>,
    /// Room that the hole leaves up to the greatest minor diameter; negative where it is larger. Absent without limits.
    #[label("Room to the limit")]
    pub room: Option<FoundDifference>,
}

/// The stock drill to take.
#[derive(Debug, Gives)]
pub struct TapDrillChosen {
    /// The trade's name for the drill.
    #[label("")]
    pub name: &'static str,
    /// Its diameter.
    #[label("Size")]
    pub diameter: FoundSize,
    /// The height of thread that its hole leaves; absent for taper threads.
    #[label("Height of thread")]
    pub thread_percent: Option<FoundThreadPercent>,
    /// Room that its hole leaves up to the greatest minor diameter; absent for a forming tap and without limits.
    #[label("Room to the limit")]
    pub room: Option<FoundDifference>,
    /// How much larger than the drill a hole usually comes out, for which that room has to do; absent where
    /// what the drill cuts large by is given, and where there is hardly any room.
    pub usual_oversize: Option<FoundExtent>,
}

/// The drill that a table prints for the thread.
#[derive(Debug, Gives)]
pub struct TapDrillPublished {
    /// The trade's name for the drill.
    #[label("")]
    pub name: &'static str,
    /// Its diameter.
    #[label("Size")]
    pub diameter: FoundSize,
    /// The hole expected from it: its diameter and what it cuts large by.
    #[label("Hole")]
    pub hole_diameter: FoundSize,
    /// The height of thread that its hole leaves; absent for taper threads.
    #[label("Height of thread")]
    pub thread_percent: Option<FoundThreadPercent>,
    /// Whether the hole lies within the class's limits; absent where there are none.
    #[label("Within the class")]
    pub within_class: Option<bool>,
}

/// What the tap drill calculator gives.
#[derive(Debug, Gives)]
pub struct TapDrillResult {
    /// The drill for exactly the height of thread wanted: the hole less what the drill cuts large by.
    #[label("Drill for this height")]
    pub drill_diameter: FoundSize,
    /// The hole for exactly the percentage wanted; for NPT the minor diameter at the small end, K0.
    #[label("Hole for this height")]
    pub hole_diameter: FoundSize,
    /// Limits of the minor diameter of the tapped hole; absent where the standard has none for the thread.
    #[label("")]
    pub minor_limits: Option<MinorLimits>,
    /// The stock drill whose hole lies within the class, with room for the usual oversize unless
    /// another is given, and comes nearest to the percentage; without limits to keep, the one nearest to the percentage. Absent
    /// where no stock drill will do.
    #[label("Stock drill")]
    pub drill: Option<TapDrillChosen>,
    /// The drill that a table prints for a pipe or Whitworth thread, and what it leaves.
    #[label("Drill a table prints")]
    pub published: Option<TapDrillPublished>,
    /// The stock drills near, smallest first: all whose hole lies within the class, and the next ones around the
    /// exact size.
    #[label("Stock drills near", "drill")]
    pub candidates: Vec<TapDrillRow>,
}

/// How many drills on each side of the exact size are listed whatever the class says.
const AROUND: usize = 3;

/// Which of so many drills are the next ones around a size that so many are below.
fn around(below: usize, drills: usize) -> Range<usize> {
    below.saturating_sub(AROUND).min(drills)..(below + AROUND).min(drills)
}

/// The drills to list: those within the class and the next ones around the exact hole. A hole that
/// leaves no thread or more than the full height is none.
fn candidates(hole: &Hole, mut drills: Vec<&'static Drill>) -> Vec<&'static Drill> {
    drills.retain(|drill| (1e-9..=1.0 + 1e-9).contains(&hole.share(drill)));
    let next = around(drills.iter().filter(|drill| hole.of(drill) <= hole.exact).count(), drills.len());
    let kept = |(at, drill): &(usize, &'static Drill)| next.contains(at) || hole.within(drill) == Some(true);
    drills.into_iter().enumerate().filter(kept).map(|(_, drill)| drill).collect()
}

impl Calculator for TapDrill {
    const ID: &'static str = "holes/tap-drill";
    const TITLE: &'static str = "Tap drill";
    const ABOUT: &'static str = "The hole for a percentage of thread with a cutting or forming tap, the stock drills \
        near it, and which of them keep within the class of the thread.";
    const TASK: Task = Task::MakeTheHole;
    const ANOTHER_CHECK: &'static str =
        "Try the hole with pins of the least and the greatest minor diameter: the first goes in, the second does not.";
    const WORDS: &'static str = "tapping, tapped hole, tapping drill, tap size, percent of thread, thread engagement, \
        form tap, roll tap, minor diameter, 2B, 6H, UNC, UNF, metric, NPT, pipe tap, BSP, Whitworth, Acme, tap";
    const EXAMPLES: &'static [Example] = examples! {
        "A hole for a 1/4-20 stud in a winch housing, with three quarters of the thread.":
            thread = "1/4-20 UNC", thread_percent = "75 percent";
        "An M8 hole in a pump flange of class 6H; the drill is known to cut 0.05 mm large.":
            thread = "M8", internal_class = "6H", tap = "cutting", systems = "metric,letter",
            expected_oversize = "0.05 mm";
        "An M6 forming tap for an aluminum mill gear cover.": thread = "M6", tap = "forming", from = "tables";
        "A hole for a 1/2 NPT plug in a pump casing, tapped without reaming.": thread = "1/2-14 NPT";
        "A drain hole G 1/2 in a mill gear case.": thread = "G 1/2";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "You tap {thread} in a pump cap with a cutting tap and want {thread_percent} of the thread. Which stock drill            do you take?" => "drill/diameter":
            { thread = "1/4-20 UNC" | "5/16-18 UNC" | "3/8-16 UNC" | "1/2-13 UNC", thread_percent = "75 percent",
              from = "tables" }
            { thread = "M6" | "M8" | "M10" | "M12", thread_percent = "75 percent", from = "tables" };
        1 "You tap {thread} in a drain boss. What size of hole does the table give?" => "published/diameter":
            { thread = "G 1/8" | "G 1/4" | "G 3/8" | "G 1/2" | "G 3/4", from = "tables" };
        2 "What hole leaves exactly {thread_percent} of the thread for a cutting tap, {thread}?" => "hole_diameter":
            { thread = "M6" | "M8" | "M10", thread_percent = "60 percent" | "70 percent" | "80 percent", from = "tables" }
            { thread = "1/4-20 UNC" | "3/8-16 UNC" | "1/2-13 UNC",
              thread_percent = "60 percent" | "70 percent" | "80 percent", from = "tables" };
        2 "The hole for {thread} is measured before tapping. How large may it be for class {internal_class}?"
            => "minor_limits/minor_max":
            { thread = "1/4-20 UNC" | "3/8-16 UNC" | "1/2-13 UNC", internal_class = "2B" | "3B", from = "tables" }
            { thread = "M6" | "M8" | "M10" | "M12", internal_class = "6H", from = "tables" };
        2 "A forming tap makes {thread} in an aluminum cover, {thread_percent} of the thread. What hole does it need?"
            => "hole_diameter":
            { thread = "M4" | "M5" | "M6" | "M8", tap = "forming", thread_percent = "65 percent", from = "tables" }
            { thread = "#8-32 UNC" | "#10-32 UNF" | "1/4-20 UNC", tap = "forming", thread_percent = "65 percent",
              from = "tables" };
        3 "Your drills cut {expected_oversize} large. Which drill diameter would leave exactly {thread_percent} of an            {thread} thread?" => "drill_diameter":
            { thread = "M6" | "M8" | "M10", thread_percent = "70 percent" | "75 percent",
              expected_oversize = "0.05 mm" | "0.1 mm", from = "tables" };
    };
    type Input = TapDrillInput;
    type Output = TapDrillResult;
    const LEADS: &'static [&'static str] = &["drill/name|published/name", "drill/room", "drill_diameter"];
    const CONTEXT: &'static [&'static str] = &[
        "{drill/thread_percent|published/thread_percent} thread",
        // There is room only where the drill's hole lies within the class.
        "within {minor_limits/class} · {drill/room} room",
    ];
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.caution(cautions::DRILLING);
        record.caution(cautions::TAPPING);
        record.caution(cautions::TURNING_SPINDLE);
        let system = input.thread.thread.system;
        let tap = input.tap(record);
        let (usual, why) = match tap {
            TapKind::Cutting if matches!(system, ThreadSystem::Acme | ThreadSystem::Trapezoidal) => {
                (100.0, "The basic minor diameter: an Acme or trapezoidal nut is cut to its full height.")
            }
            TapKind::Cutting => {
                (75.0, "Common practice for cutting taps: more thread adds little strength and much torque.")
            }
            TapKind::Forming => {
                (65.0, "Common practice for forming taps; the tap maker's size for the material comes first.")
            }
        };
        tell_tap(&input.thread.thread, record);
        let all = drills_from(input.from, record)?;
        let (own, says) = if all.from == DrillsFrom::Shop {
            (DrillSystem::ALL.to_vec(), "Every drill in the drawer is at hand.")
        } else if !system.in_inches() {
            (vec![DrillSystem::Metric], "Metric drills for a metric thread; name more systems if they are at hand.")
        } else {
            let inch = vec![DrillSystem::Fraction, DrillSystem::Number, DrillSystem::Letter];
            (inch, "Inch drills for an inch thread; name metric too if they are at hand.")
        };
        let systems = record.or_assume(input.systems.clone(), "systems", own, says);
        let drills = all.of_systems(&systems);
        let oversize = input.expected_oversize(record);
        if input.thread.thread.is_taper() {
            return taper::solve(&input.thread, drills, all.place(), oversize, record);
        }
        let wanted =
            record.or_assume(input.thread_percent, "thread_percent", ThreadPercent::stated(usual, Unit::Percent), why);
        let minor_limits = limits(&input.thread, input.internal_class.as_ref(), record)?;
        let sizes = size_and_pitch(&input.thread, record);
        let hole = Hole::find(&input.thread, sizes, tap, wanted, oversize, minor_limits.as_ref(), record)?;
        let found = candidates(&hole, drills);
        let rows = hole.rows(&found, all.place(), record);
        let limited = tap == TapKind::Cutting && minor_limits.is_some();
        if rows.is_empty() {
            let says = format!("Of the {}, none of the systems named would leave a thread in this hole.", all.place());
            record.note("no_stock_drill", says);
        } else if limited && !rows.iter().any(|row| row.within_class == Some(true)) {
            let says = format!(
                "Of the {}, none of the systems named leaves a hole within the class; look at others, or bore or ream \
                 the hole.",
                all.place()
            );
            record.note("no_drill_within_class", says);
        }
        let printed = published_tap_drill(&input.thread.thread);
        let choice = Choice {
            wanted,
            limited,
            stated_oversize: input.expected_oversize.is_some(),
            printed: printed.map(|printed| printed.drill.as_str()),
        };
        let drill = choice.take(&rows, record);
        let published = printed.map(|printed| hole.published(printed, &input.thread, record));
        Ok(TapDrillResult {
            drill_diameter: hole.drill_diameter,
            hole_diameter: hole.hole_diameter,
            minor_limits,
            drill,
            published,
            candidates: rows,
        })
    }
}
