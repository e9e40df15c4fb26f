//! The next larger threads for a hole whose thread is stripped: those whose drill takes away what is left of the
//! old thread, with the metal that stays beside them (lists and limits of the standards; percentage as
//! Machinery's Handbook counts it).

mod bore;
mod drawing;
mod hole;
mod rows;

use crate::calculators::prelude::*;
use crate::reference::drills::DrillSystem;
use crate::reference::threads::ThreadFamily;
use crate::shop::{DrillsFrom, drills_from, of_tables};
use hole::{check_families, check_hole, check_wall, clean_diameter, is_measured};
use rows::Hole;

/// The calculator.
pub struct Rescue;

choice! {
    /// Which threads to choose from: `common` ones, whose taps are easy to get, or `all` that are listed.
    RescueLists {
        /// Coarse and fine series, first choices.
        Common = "common",
        /// Constant-pitch and third-choice threads too.
        All = "all",
    }
}

/// What rescuing a hole asks for.
#[derive(Debug, Asks)]
#[asks(check = check_hole, check = check_families, check = check_wall)]
pub struct RescueInput {
    /// The thread that was in the hole. Give this, the hole's widest diameter, or both.
    #[label("Old thread")]
    pub thread: Option<Designation>,
    /// Widest diameter measured in the stripped hole, where it is torn out larger than the old thread.
    #[label("Widest diameter of the hole")]
    pub hole_diameter: Option<Size>,
    /// Families of threads to choose from; Acme and trapezoidal are not offered.
    #[absent("unified and metric", value = vec![ThreadFamily::Unified, ThreadFamily::Metric],
        "Screws of these families are easy to get.")]
    #[label("Thread families", "family")]
    pub families: Option<Vec<ThreadFamily>>,
    /// Whether to choose from common threads or from all that are listed.
    #[absent("common", "Coarse, fine and first-choice threads, whose taps are easy to get.")]
    #[label("Common threads or all")]
    pub lists: Option<RescueLists>,
    /// Height of thread wanted, as a percentage of the full height.
    #[absent("75 percent", "Common practice for cutting taps: more thread adds little strength and a lot of torque.")]
    #[label("Thread percentage wanted")]
    pub thread_percent: Option<ThreadPercent>,
    /// Distance from the hole's center to the nearest edge, or to the rim of the nearest other hole.
    #[label("Hole center to the edge")]
    pub edge_distance: Option<Size>,
    /// Metal that must stay between the new thread and that edge. If absent, half of the old hole's diameter. Give the
    /// distance to the edge too.
    #[label("Least wall to keep")]
    pub least_wall: Option<Extent>,
    /// Systems of drill sizes to choose from: fraction, number, letter, metric.
    #[absent("all", value = DrillSystem::ALL.to_vec(),
        "Drills of every system are looked at.")]
    #[label("Drill systems", "drill system")]
    pub systems: Option<Vec<DrillSystem>>,
    /// Which drills to choose from: those in the shop's drawer, or all of the tables; shop if one with drills is set.
    #[label("Choose drills from")]
    pub from: Option<DrillsFrom>,
    /// Most threads to list, 1 to 30.
    #[absent("10", "The ten smallest that clean up are listed.")]
    #[label("How many threads")]
    pub count: Option<Count<1, 30>>,
}

/// A larger thread for the hole.
#[derive(Debug, Gives)]
pub struct RescueRow {
    /// The thread by its designation.
    #[label("Designation")]
    pub thread: String,
    /// Its family.
    pub family: &'static str,
    /// Its basic major diameter.
    pub major_diameter: FoundSize,
    /// Its pitch.
    pub pitch: FoundSize,
    /// Whether it has the pitch and flank angle of the old thread; absent where that is not given.
    #[label("Same pitch as the old thread")]
    pub pitch_kept: Option<bool>,
    /// The stock drill for tapping it.
    #[label("Tap drill")]
    pub drill: String,
    /// Its diameter.
    #[label("Tap drill diameter")]
    pub drill_diameter: FoundSize,
    /// Whether that drill is in the shop's drawer; only where drills are chosen from it.
    #[label("Drill in the drawer")]
    pub drill_owned: Option<bool>,
    /// How much larger the hole may come out before it passes the greatest minor diameter of the usual class; absent
    /// without limits.
    #[label("Hole may come out larger by")]
    pub room: Option<FoundDifference>,
    /// Height of thread that the drill leaves; absent for taper and Rp threads, whose drill comes from a table.
    #[label("Thread percentage")]
    pub thread_percent: Option<FoundThreadPercent>,
    /// How much larger the drill is than the diameter it has to clean up.
    #[label("Larger than the old hole by")]
    pub clears_by: FoundExtent,
    /// Metal left between the new thread and the edge; negative where it breaks out.
    pub wall_left: Option<FoundDifference>,
    /// Whether that is at least the wall that must stay.
    #[label("Enough wall left")]
    pub wall_enough: Option<bool>,
}

/// What rescuing a hole gives.
#[derive(Debug, Gives)]
pub struct RescueResult {
    /// Diameter at which the old thread is gone; the drill must reach it.
    #[label("Old thread gone at")]
    pub clean_diameter: FoundSize,
    /// The smallest thread that cleans up and leaves enough wall, if possible with a drill at hand; absent where none
    /// does.
    #[label("Thread to take")]
    pub thread: Option<String>,
    /// Threads that clean up, smallest first.
    #[label("Larger threads", "thread")]
    pub candidates: Vec<RescueRow>,
}

impl Calculator for Rescue {
    const ID: &'static str = "threads/rescue";
    const TITLE: &'static str = "Stripped thread";
    const ABOUT: &'static str = "The next larger threads for a hole whose thread is stripped: those whose drill takes the \
        old thread away, their drills, and the wall that is left.";
    const TASK: Task = Task::Thread;
    const ANOTHER_CHECK: &'static str =
        "Start the new tap in the drilled hole by hand, and measure the wall that is left before tapping.";
    const WORDS: &'static str = "stripped thread, oversize, repair a hole, torn out, larger thread, next size up, \
        retap, wall thickness, boss, damaged thread, thread insert";
    const EXAMPLES: &'static [Example] = examples! {
        "A 1/4-20 hole torn out of a winch cover, 0.4 in from its edge.":
            thread = "1/4-20 UNC", edge_distance = "0.4 in";
        "An M8 hole in a pump flange, torn out to 8.3 mm; metric taps only, all that are listed, metric drills.":
            thread = "M8", hole_diameter = "8.3 mm", families = "metric", lists = "all",
            thread_percent = "70 percent", edge_distance = "11 mm", least_wall = "5 mm", systems = "metric",
            from = "tables", count = "6";
        "A drain hole of a mill gear case, 21.5 mm at its widest, for a plug with a pipe thread.":
            hole_diameter = "21.5 mm", families = "pipe_parallel,npt,pipe_taper";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "The {thread} hole in a winch cover is stripped. At what diameter is the old thread all \
            gone?" => "clean_diameter":
            { thread = "1/4-20 UNC" | "5/16-18 UNC" | "3/8-16 UNC" | "#10-24 UNC", families = "unified", units = "inch",
              from = "tables" }
            { thread = "M6" | "M8" | "M10", families = "metric", units = "metric", from = "tables" };
        2 "The {thread} hole is stripped and you go to the next larger coarse or fine inch thread whose drill cleans \
            it up, for {thread_percent} of thread. How large is that drill?" => "candidates/0/drill_diameter":
            { thread = "1/4-20 UNC" | "5/16-18 UNC" | "3/8-16 UNC" | "#10-24 UNC", thread_percent = "75 percent",
              families = "unified", systems = "fraction,number,letter", from = "tables", units = "inch" };
        2 "The {thread} hole in a pump flange is torn out to {hole_diameter}. What is the major diameter of the next \
            common metric thread that cleans it up?" => "candidates/0/major_diameter":
            { thread = "M8", hole_diameter = "8.1 mm" | "8.3 mm" | "8.6 mm", families = "metric", systems = "metric",
              from = "tables", units = "metric" }
            { thread = "M10", hole_diameter = "10.2 mm" | "10.6 mm" | "11 mm", families = "metric", systems = "metric",
              from = "tables", units = "metric" };
        2 "The {thread} hole is stripped, {edge_distance} from center to the edge. The next larger coarse or fine inch \
            thread goes in. How much wall is left?" => "candidates/0/wall_left":
            { thread = "1/4-20 UNC", edge_distance = "0.4 in" | "0.5 in" | "3/8 in", families = "unified",
              systems = "fraction,number,letter", from = "tables", units = "inch" }
            { thread = "3/8-16 UNC", edge_distance = "0.5 in" | "0.6 in" | "3/4 in", families = "unified",
              systems = "fraction,number,letter", from = "tables", units = "inch" };
        3 "The {thread} hole sits {edge_distance} from the edge and is stripped. Take the next larger common metric \
            thread: how much wall is left?" => "candidates/0/wall_left":
            { thread = "M6" | "M8", edge_distance = "10 mm" | "12 mm" | "15 mm", families = "metric",
              systems = "metric",
              from = "tables", units = "metric" };
    };
    type Input = RescueInput;
    type Output = RescueResult;
    const LEADS: &'static [&'static str] = &["thread"];
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.caution(cautions::SPOILED_HOLE);
        record.caution(cautions::DRILLING);
        record.caution(cautions::TAPPING);
        record.caution(cautions::TURNING_SPINDLE);
        let clean = clean_diameter(input, record);
        let families = input.families(record);
        let lists = input.lists(record);
        let wanted = input.thread_percent(record);
        if input.thread_percent.is_none() {
            record.source("common_practice", "three quarters of the full height for cutting taps");
        }
        let all = drills_from(input.from, record)?;
        let systems = input.systems(record);
        let count = input.count(record).get() as usize;
        let least_wall = input.edge_distance.map(|_| {
            if input.least_wall.is_none() {
                record.source("common_practice", "half of the hole's diameter as the least wall");
            }
            let half = Extent::stated(clean.quantity().value / 2.0, clean.quantity().unit);
            let says = "Half of the hole's diameter, a rule of thumb without a source: steel may do with less, a \
                casting needs more.";
            record.or_assume(input.least_wall, "least_wall", half, says)
        });
        let hole = Hole {
            clean,
            measured: is_measured(input, clean),
            wanted,
            edge: input.edge_distance.zip(least_wall),
            old: input.thread.as_ref(),
            drills: all.of_systems(&systems),
            others: (all.from == DrillsFrom::Shop).then(|| of_tables(&systems)),
        };
        let candidates = rows::find(&hole, &families, lists, count, record);
        if candidates.is_empty() {
            let stated = stated!(input:
                thread = "M8", hole_diameter = "8.3 mm", systems = "leave out", families = "unified,metric");
            let stated = stated.into_iter().filter(|(_, _, is)| *is).map(|(field, good, _)| (field, good.into()));
            return Err(Refusal::no_answer(
                "No thread of these families has a drill of these systems that takes the old thread away.",
                &stated.collect::<Vec<_>>(),
            ));
        }
        let mut fitting = candidates.iter().filter(|row| row.wall_enough != Some(false));
        let first = fitting.clone().find(|row| row.drill_owned != Some(false)).or_else(|| fitting.next());
        let missing: Vec<String> = candidates
            .iter()
            .filter(|row| row.drill_owned == Some(false))
            .map(|row| format!("{} for {}", row.drill, row.thread))
            .collect();
        if !missing.is_empty() {
            record.note("drill_not_owned", format!("Not in the drawer: {}.", missing.join(", ")));
        }
        let thread = first.map(|row| row.thread.clone());
        match &thread {
            Some(thread) => record
                .look_up(
                    "The thread to take",
                    "the smallest that leaves enough wall, if possible with a drill at \
                    hand; of two of one size the commoner",
                )
                .gives("thread", thread.clone()),
            None => notes!(record => wall_too_thin:
                "None of these leaves enough wall. Plug, weld or bush the hole, and cut the old thread again."),
        }
        notes!(record =>
            wire_insert: "A wire insert keeps the old screw. It needs its own tap and drill: take their sizes from the \
             maker of the insert.";
            mating_part: "The larger screw also needs a larger clearance hole in the part it holds, and more room for \
                its head.";
            drill_an_old_hole: "A drill follows a torn hole. Clamp the work, indicate the hole true under the spindle, \
             and feed slowly; a core drill or an end mill runs truer than a two-lip drill.");
        Ok(RescueResult { clean_diameter: clean, thread, candidates })
    }
}
