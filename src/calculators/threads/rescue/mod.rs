//! The next larger threads for a hole whose thread is spoiled: those whose drill takes away what is left of the
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
    /// Which threads to choose from: `common` ones, whose taps a shop has or gets, or `all` that are listed.
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
    /// The thread that was in the hole; this, hole_diameter or both.
    pub thread: Option<Designation>,
    /// The largest diameter measured in the spoiled hole, where it is torn out wider than the old thread was.
    pub hole_diameter: Option<Size>,
    /// Families to choose from: any but the power threads.
    #[absent("unified and metric", value = vec![ThreadFamily::Unified, ThreadFamily::Metric],
        "Screws of these families are had everywhere.")]
    pub families: Option<Vec<ThreadFamily>>,
    /// Whether to choose from common threads or from all that are listed.
    #[absent("common", "Threads of the coarse and fine series and of first choice, whose taps are easily had.")]
    pub lists: Option<RescueLists>,
    /// Height of thread wanted, as a share of the full height.
    #[absent("75 percent", "Common practice for cutting taps: more thread adds little strength and much torque.")]
    pub thread_percent: Option<ThreadPercent>,
    /// Distance from the hole's axis to the nearest edge or to the rim of the nearest other hole.
    pub edge_distance: Option<Size>,
    /// Metal that has to stay between the new thread and that edge; half of the old hole's diameter if absent. With
    /// edge_distance.
    pub least_wall: Option<Extent>,
    /// Drills at hand: any of fraction, number, letter, metric.
    #[absent("all", value = DrillSystem::ALL.to_vec(),
        "A hole has to be rescued with what there is: every drill is looked at.")]
    pub systems: Option<Vec<DrillSystem>>,
    /// Which drills to choose from: those in the shop's drawer, or all of the tables; shop if one with drills is set.
    pub from: Option<DrillsFrom>,
    /// Most threads listed, 1 to 30.
    #[absent("10", "The ten smallest that clean up.")]
    pub count: Option<Count<1, 30>>,
}

/// A larger thread for the hole.
#[derive(Debug, Gives)]
pub struct RescueRow {
    /// The thread by its designation.
    pub thread: String,
    /// Its family.
    pub family: &'static str,
    /// Its basic major diameter.
    pub major_diameter: FoundSize,
    /// Its pitch.
    pub pitch: FoundSize,
    /// Whether it has the pitch and the flanks of the old thread; absent where that is not named.
    pub pitch_kept: Option<bool>,
    /// The stock drill before tapping.
    pub drill: String,
    /// Its diameter.
    pub drill_diameter: FoundSize,
    /// Whether that drill is in the shop's drawer; only where drills are chosen from one.
    pub drill_owned: Option<bool>,
    /// Room that its hole leaves up to the greatest minor diameter of the usual class; absent without limits.
    pub room: Option<FoundDifference>,
    /// The height of thread that the drill leaves; absent for taper and Rp threads, whose drill is a table's.
    pub thread_percent: Option<FoundThreadPercent>,
    /// How much larger the drill is than what has to go: on the diameter, 0 where it just takes it away.
    pub clears_by: FoundExtent,
    /// Metal left between the new thread and the edge; negative where it breaks out. Only with edge_distance.
    pub wall_left: Option<FoundDifference>,
    /// Whether that is enough.
    pub wall_enough: Option<bool>,
}

/// What rescuing a hole gives.
#[derive(Debug, Gives)]
pub struct RescueResult {
    /// Diameter that the drill has to reach for the old thread to be gone.
    pub clean_diameter: FoundSize,
    /// The smallest thread that cleans up and leaves wall enough, of those whose drill is at hand if any is; absent
    /// where none does.
    pub thread: Option<String>,
    /// Threads that clean up, the smallest first.
    pub candidates: Vec<RescueRow>,
}

impl Calculator for Rescue {
    const ID: &'static str = "threads/rescue";
    const TITLE: &'static str = "Spoiled thread";
    const ABOUT: &'static str = "The next larger threads for a hole whose thread is stripped: those whose drill takes the \
        old thread away, their drills, and the wall that is left.";
    const TASK: Task = Task::Thread;
    const ANOTHER_CHECK: &'static str =
        "Try the new tap's taper in the drilled hole by hand, and measure the wall that is left before tapping.";
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
            let says = "Half of the hole's diameter, a rule of the trade without a source: steel bears less, a casting \
                wants more.";
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
                "No thread of these lists and families has a drill of these systems that takes the old thread away.",
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
            record.note("drill_not_owned", format!("Drill not owned: {}.", missing.join(", ")));
        }
        let thread = first.map(|row| row.thread.clone());
        match &thread {
            Some(thread) => record
                .look_up("The thread to take", "the smallest that leaves wall enough, of those whose drill is at hand if any is, of one size the commoner")
                .gives("thread", thread.clone()),
            None => notes!(record => wall_too_thin:
                "None of these leaves the wall that has to stay: plug the hole, weld it up or bush it, and cut the old \
                 thread again."),
        }
        notes!(record =>
            wire_insert: "A wire insert keeps the old screw. Its tap and its drill are of sizes of their own, for which \
             no published table is at hand here, so none is computed: the maker of the insert states them.";
            mating_part: "The larger screw also wants a larger clearance hole in the part that it holds, and its head more \
             room.";
            drill_an_old_hole: "A drill follows a torn hole: clamp the work, pick up the hole's own axis with the \
             spindle, and go in slowly; a core drill or an end mill runs truer than two lips.");
        Ok(RescueResult { clean_diameter: clean, thread, candidates })
    }
}
