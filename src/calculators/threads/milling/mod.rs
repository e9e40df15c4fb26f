//! Milling a thread on a helix: the circle of the cutter's middle, its feed, the rise in a turn and
//! along the entry, how far the cutter spoils the flank, the direction of the path. Kinematics and plane
//! geometry, derived.

mod cuts;
mod drawing;
mod entry;
mod path;
mod rules;
mod set_up;

use crate::calculators::prelude::*;
use crate::machine::{Limit, Screws, SpindleLimits};
use crate::reference::threads::basics;
use crate::threading::given_thread;
use cuts::CutTime;
use entry::WayIn;
use path::{Helix, Spoilt};
use set_up::SetUp;

/// The calculator.
pub struct ThreadMilling;

choice! {
    /// Which side is threaded: `internal`, a hole, or `external`, a stud.
    ThreadedSide {
        /// A hole.
        Internal = "internal",
        /// A stud.
        External = "external",
    }
}

choice! {
    /// Which way the tooth meets the thread: `climb` with the feed of the work, `conventional` against it.
    ThreadMillingWay {
        /// With the feed of the work: chip thick first, thin last.
        Climb = "climb",
        /// Against it: chip thin first, thick last.
        Conventional = "conventional",
    }
}

choice! {
    /// Which way round the cutter's middle goes, seen along the spindle from above: `counterclockwise` or `clockwise`.
    PathTurn {
        /// Against the hands of a clock.
        Counterclockwise = "counterclockwise",
        /// With the hands of a clock.
        Clockwise = "clockwise",
    }
}

choice! {
    /// Which way the cutter goes along the axis: `up` towards the spindle, or `down` away from it.
    PathTravel {
        /// Towards the spindle.
        Up = "up",
        /// Away from it.
        Down = "down",
    }
}

choice! {
    /// How the cutter comes onto the path in a hole: on a `half_circle` from its middle, or on an `arc_45`, which begins just clear of the wall 45 degrees before the path.
    ThreadMillingEntry {
        /// Half a circle, a quarter turn round the thread's axis.
        HalfCircle = "half_circle",
        /// An arc over an eighth of a turn round the thread's axis.
        Arc45 = "arc_45",
    }
}

/// What the thread milling calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = rules::check_thread, check = rules::check_sizes, check = rules::check_entry)]
pub struct ThreadMillingInput {
    /// The thread by its designation: Unified, metric, G or Whitworth.
    pub thread: Designation,
    /// Which side is threaded: internal or external.
    pub side: ThreadedSide,
    /// Diameter of the cutter over the tips of its teeth.
    pub cutter_diameter: Size,
    /// Teeth round the cutter, 1 to 40; rows along it do not count.
    pub teeth: Count<1, 40>,
    /// Cutting speed wanted at the tips.
    pub cutting_speed: CuttingSpeed,
    /// Feed per tooth wanted where the tips cut.
    pub feed_per_tooth: FeedPerTooth,
    /// Climb or conventional milling.
    #[absent("climb", "Climb milling is usual where the machine has no play.")]
    pub way: Option<ThreadMillingWay>,
    /// Diameter of the hole or stud before threading; the basic minor diameter of a hole, the basic major diameter of a
    /// stud if absent.
    pub start_diameter: Option<Size>,
    /// Diameter that the tips cut to; the basic major diameter in a hole, the basic minor diameter on a stud if absent.
    pub contour_diameter: Option<Size>,
    /// How the cutter comes onto the path in a hole: half_circle or arc_45; holes only.
    #[absent("half_circle", "The half circle from the middle of the hole is the gentlest way in.")]
    pub entry: Option<ThreadMillingEntry>,
    /// Number of cuts, 1 to 20.
    #[absent("1", "One cut, as short threads in soft metal allow.")]
    pub passes: Option<Count<1, 20>>,
    /// Length of the thread; turns and time need it.
    pub length: Option<Size>,
    /// Length of the toothed part of the cutter; a cutter with one row of teeth if absent. Needs length.
    pub cutting_length: Option<Size>,
    /// The speeds that the machine has.
    #[group]
    pub spindle: SpindleLimits,
    /// The screws of the table.
    #[group]
    pub screws: Screws,
}

impl ThreadMillingInput {
    fn internal(&self) -> bool {
        self.side == ThreadedSide::Internal
    }

    /// The diameter before threading and the one that the tips cut to, as stated or as the thread has them.
    fn diameters(&self) -> (Size, Size) {
        let basics = basics(&self.thread.thread);
        let (start, contour) =
            if self.internal() { (basics.minor, basics.major) } else { (basics.major, basics.minor) };
        let or = |stated: Option<Size>, usual| stated.unwrap_or(Size::stated(usual, self.thread.unit()));
        (or(self.start_diameter, start), or(self.contour_diameter, contour))
    }
}

/// One cut.
#[derive(Debug, Gives)]
pub struct ThreadCut {
    /// Its number.
    pub number: u32,
    /// How deep it cuts below the start diameter, on the radius.
    pub depth: FoundSize,
    /// Diameter that the tips cut to.
    pub contour_diameter: FoundSize,
    /// Diameter of the circle of the cutter's middle.
    pub path_diameter: FoundSize,
    /// Feed rate of the cutter's middle.
    pub center_feed_rate: FoundFeedRate,
}

/// What the thread milling calculator gives.
#[derive(Debug, Gives)]
pub struct ThreadMillingResult {
    /// What is set on the machine.
    #[group]
    pub set: SetUp,
    /// Feed rate of the cutter's middle in the last cut.
    pub center_feed_rate: FoundFeedRate,
    /// Diameter of the circle of the cutter's middle in the last cut.
    pub path_diameter: FoundSize,
    /// The helix.
    #[group]
    pub helix: Helix,
    /// The way in.
    #[group]
    pub way_in: WayIn,
    /// Largest cutter that goes into the hole; holes only.
    pub greatest_cutter: Option<FoundSize>,
    /// What the cutter spoils.
    #[group]
    pub spoilt: Spoilt,
    /// How long it takes.
    #[group]
    pub time: CutTime,
    /// The cuts.
    pub cuts: Vec<ThreadCut>,
    /// The limits of the machine that do not allow the exact speed.
    pub limited_by: Vec<Limit>,
}

impl Calculator for ThreadMilling {
    const ID: &'static str = "threads/milling";
    const TITLE: &'static str = "Thread milling";
    const ABOUT: &'static str = "The helix for milling a thread with a turning cutter: the circle and the feed of its \
        middle, the rise in a turn and on the way in, the direction, the cuts, and what the cutter does to the flanks.";
    const TASK: Task = Task::Thread;
    const ANOTHER_CHECK: &'static str =
        "Mill a first thread in scrap and try a gauge or the mating part in it before the work is cut.";
    const WORDS: &'static str = "thread mill, helical, helix, interpolation, pitch per turn, center feed, climb, \
        left-hand, single point, rotary table, arc entry";
    const EXAMPLES: &'static [Example] = examples! {
        "An M16x1.5 hole in a pump cover, milled with a cutter of 10 mm and three teeth in two cuts.":
            thread = "M16x1.5", side = "internal", cutter_diameter = "10 mm", teeth = "3", cutting_speed = "80 m/min",
            feed_per_tooth = "0.05 mm/tooth", way = "climb", passes = "2", length = "20 mm", cutting_length = "21 mm",
            fastest = "3000 rpm";
        "An M24x1.5 hole in a pump casing, entered on an arc of 45 degrees.":
            thread = "M24x1.5", side = "internal", cutter_diameter = "16 mm", teeth = "4", cutting_speed = "80 m/min",
            feed_per_tooth = "0.05 mm/tooth", entry = "arc_45";
        "A left-hand 1-8 stud for a winch on the mill's steps, with a single row of teeth.":
            thread = "1-8 UNC-LH", side = "external", cutter_diameter = "1/2 in", teeth = "4",
            cutting_speed = "100 ft/min", feed_per_tooth = "0.002 in/tooth", way = "conventional",
            start_diameter = "0.996 in", contour_diameter = "0.85 in", passes = "3", length = "1.25 in",
            slowest = "112 rpm", available = "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm",
            may_exceed = "5 percent", backlash = "0.006 in";
    };
    type Input = ThreadMillingInput;
    type Output = ThreadMillingResult;
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.caution(cautions::TURNING_SPINDLE);
        record.caution(cautions::MILLING);
        record.source("kinematics", "middle and tips of a cutter on a circle turn together about the thread's axis");
        record.source("geometry", "helix of the thread, half circle and tangent onto a circle, contact of two circles");
        let given = given_thread(&input.thread, "thread", record);
        let way = input.way(record);
        input.screws.warn(way == ThreadMillingWay::Climb, record);
        let (set, held) = set_up::speed(input, record)?;
        let sizes = path::sizes(input, record);
        let (cuts, center_feed_rate) = cuts::find(input, &sizes, set.edge_feed_rate, record);
        let helix = path::helix(&given, input, &sizes, way, record);
        let way_in = entry::find(&given, input, &sizes, &helix, record);
        let spoilt = path::overcut(&given, input, &sizes, record)?;
        let time = cuts::time(&given, input, &cuts, record)?;
        notes!(record => first_piece:
            "Gauge the first piece: half of what its pitch diameter lacks goes onto the radius of the path. A tip that \
             is narrower than the thread's own flat must go deeper than the basic contour, a blunter one less deep.");
        if input.thread.thread.starts > 1 {
            notes!(record => starts:
                "With one row of teeth each start is a helix of its own, begun a share of a turn round from the one \
                 before; a cutter with rows at the pitch cuts all of them at once.");
        }
        let limited_by = held.tell(None, record);
        let path::Sizes { path: path_diameter, greatest_cutter, .. } = sizes;
        Ok(ThreadMillingResult {
            set,
            center_feed_rate,
            path_diameter,
            helix,
            way_in,
            greatest_cutter,
            spoilt,
            time,
            cuts,
            limited_by,
        })
    }
}
