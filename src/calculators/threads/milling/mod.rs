//! Milling a thread on a helix: the circle of the cutter's center, its feed, the rise in a turn and
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
    /// What is threaded: `internal` for a hole, `external` for a stud.
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
    /// Which way round the cutter's center goes, seen from above: `counterclockwise` or `clockwise`.
    PathTurn {
        /// Counterclockwise.
        Counterclockwise = "counterclockwise",
        /// Clockwise.
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
    /// How the cutter comes onto the path in a hole: on a `half_circle` from the center, or on an `arc_45`, which begins just clear of the wall 45 degrees before the path.
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
    /// What is threaded: internal (hole) or external (stud).
    #[label("Hole or stud")]
    pub side: ThreadedSide,
    /// Diameter of the cutter over the tips of its teeth.
    pub cutter_diameter: Size,
    /// Teeth round the cutter, 1 to 40; count one row only.
    #[label("Teeth of the cutter")]
    pub teeth: Count<1, 40>,
    /// Cutting speed wanted at the tips.
    pub cutting_speed: CuttingSpeed,
    /// Feed per tooth wanted where the tips cut.
    pub feed_per_tooth: FeedPerTooth,
    /// Climb or conventional milling.
    #[absent("climb", "Climb milling is usual where the machine has no backlash.")]
    #[label("Climb or conventional")]
    pub way: Option<ThreadMillingWay>,
    /// Diameter of the hole or stud before threading. If absent, the basic minor diameter of a hole, the basic major
    /// diameter of a stud.
    #[label("Diameter before threading")]
    pub start_diameter: Option<Size>,
    /// Diameter that the tips cut to. If absent, the basic major diameter in a hole, the basic minor diameter on a
    /// stud.
    #[label("Diameter the tips cut to")]
    pub contour_diameter: Option<Size>,
    /// How the cutter comes onto the path in a hole: half_circle or arc_45; holes only.
    #[absent("half_circle", "The half circle from the center of the hole is the gentlest way in.")]
    #[label("Way onto the path")]
    pub entry: Option<ThreadMillingEntry>,
    /// Number of cuts, 1 to 20.
    #[absent("1", "One cut will do for short threads in soft metal.")]
    #[label("Number of cuts")]
    pub passes: Option<Count<1, 20>>,
    /// Length of the thread, for turns and time.
    #[label("Length of the thread")]
    pub length: Option<Size>,
    /// Length of the toothed part of the cutter. If absent, one row of teeth. Give the length of the thread too.
    #[label("Toothed length of the cutter")]
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
    #[label("Diameter the tips cut to")]
    pub contour_diameter: FoundSize,
    /// Diameter of the circle that the cutter's center runs on.
    #[label("Diameter of the path")]
    pub path_diameter: FoundSize,
    /// Feed rate of the cutter's center.
    #[label("Feed of the cutter's center")]
    pub center_feed_rate: FoundFeedRate,
}

/// What the thread milling calculator gives.
#[derive(Debug, Gives)]
pub struct ThreadMillingResult {
    /// What is set on the machine.
    #[group]
    pub set: SetUp,
    /// Feed rate of the cutter's center in the last cut.
    #[label("Feed of the cutter's center")]
    pub center_feed_rate: FoundFeedRate,
    /// Diameter of the circle that the cutter's center runs on in the last cut.
    #[label("Diameter of the path")]
    pub path_diameter: FoundSize,
    /// The helix.
    #[group]
    pub helix: Helix,
    /// The way in.
    #[group]
    pub way_in: WayIn,
    /// Largest cutter that goes into the hole; holes only.
    #[label("Largest cutter that goes in")]
    pub greatest_cutter: Option<FoundSize>,
    /// What the cutter spoils.
    #[group]
    pub spoilt: Spoilt,
    /// How long it takes.
    #[group]
    pub time: CutTime,
    /// The cuts.
    #[label("Cuts", "cut")]
    pub cuts: Vec<ThreadCut>,
    /// The limits of the machine that do not allow the exact speed.
    pub limited_by: Vec<Limit>,
}

impl Calculator for ThreadMilling {
    const ID: &'static str = "threads/milling";
    const TITLE: &'static str = "Thread milling";
    const ABOUT: &'static str = "The helix for milling a thread with a rotating cutter: the circle its center runs on \
        and its feed, the rise in a turn and on the way in, the direction, the cuts, and the error on the flanks.";
    const TASK: Task = Task::Thread;
    const ANOTHER_CHECK: &'static str = "Mill a thread in scrap first and try a gauge or the mating part in it.";
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
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "You mill {thread} in a pump cover with a {cutter_diameter} cutter, tips out to the full major diameter. \
            What circle does the center of the cutter run on?" => "path_diameter":
            { thread = "M16x1.5" | "M20x1.5" | "M18x1.5", side = "internal", cutter_diameter = "10 mm" | "12 mm",
              teeth = "3", cutting_speed = "30 m/min", feed_per_tooth = "0.05 mm/tooth", units = "metric" }
            { thread = "3/4-16 UNF" | "7/8-14 UNF" | "1-12 UNF", side = "internal",
              cutter_diameter = "1/2 in" | "3/8 in",
              teeth = "4", cutting_speed = "80 ft/min", feed_per_tooth = "0.002 in/tooth", units = "inch" };
        1 "You mill {thread}, and the cutter goes once round. How far does it move along the axis meanwhile?"
            => "rise_per_turn":
            { thread = "M24x1.5" | "M30x2" | "M30x3.5" | "M24x3", side = "internal",
              cutter_diameter = "12 mm", teeth = "3", cutting_speed = "30 m/min", feed_per_tooth = "0.05 mm/tooth",
              units = "metric" }
            { thread = "1-8 UNC" | "1-12 UNF" | "1 1/2-6 UNC" | "7/8-14 UNF", side = "internal",
              cutter_diameter = "1/2 in", teeth = "4", cutting_speed = "80 ft/min", feed_per_tooth = "0.002 in/tooth",
              units = "inch" };
        2 "The cutter comes onto the path of {thread} on a half circle from the center of the hole. How far must it \
            move along the axis on the way?" => "entry_rise":
            { thread = "M16x1.5" | "M20x2" | "M24x3" | "M30x3.5", side = "internal", cutter_diameter = "8 mm",
              teeth = "3",
              cutting_speed = "30 m/min", feed_per_tooth = "0.05 mm/tooth", entry = "half_circle", units = "metric" }
            { thread = "1-8 UNC" | "1-12 UNF" | "3/4-10 UNC" | "3/4-16 UNF", side = "internal",
              cutter_diameter = "1/2 in",
              teeth = "4", cutting_speed = "80 ft/min", feed_per_tooth = "0.002 in/tooth", entry = "half_circle",
              units = "inch" };
        2 "A stud {thread} is turned to {start_diameter}. Your {cutter_diameter} cutter takes it down to \
            {contour_diameter}. What circle does its center run on?" => "path_diameter":
            { thread = "1-8 UNC", side = "external", cutter_diameter = "1/2 in" | "3/4 in" | "5/8 in",
              start_diameter = "0.996 in", contour_diameter = "0.85 in" | "0.848 in", teeth = "4",
              cutting_speed = "80 ft/min", feed_per_tooth = "0.002 in/tooth", units = "inch" }
            { thread = "M24x1.5", side = "external", cutter_diameter = "12 mm" | "16 mm" | "20 mm",
              start_diameter = "23.9 mm", contour_diameter = "22.2 mm" | "22.1 mm", teeth = "4",
              cutting_speed = "30 m/min", feed_per_tooth = "0.05 mm/tooth", units = "metric" };
        2 "A {cutter_diameter} thread mill with {teeth} teeth cuts at {cutting_speed} and {feed_per_tooth} on a \
            variable-speed head. What is the feed at the tips?" => "edge_feed_rate":
            { thread = "M24x1.5", side = "internal", cutter_diameter = "12 mm" | "16 mm", teeth = "3" | "4",
              cutting_speed = "25 m/min" | "30 m/min", feed_per_tooth = "0.05 mm/tooth" | "0.04 mm/tooth",
              units = "metric" };
        3 "In a hole {thread} the tips of a {cutter_diameter} cutter, {teeth} teeth, cut out to the full major \
            diameter at {cutting_speed} and {feed_per_tooth}. What feed do you set for its \
            center?" => "center_feed_rate":
            { thread = "M24x1.5" | "M20x1.5" | "M30x2", side = "internal", cutter_diameter = "12 mm" | "10 mm",
              teeth = "3",
              cutting_speed = "25 m/min" | "30 m/min", feed_per_tooth = "0.05 mm/tooth", units = "metric" };
        3 "A hole bored to {start_diameter} is threaded out to {contour_diameter} in {passes} cuts that take equal \
            metal. How deep does the first one go?" => "cuts/0/depth":
            { thread = "M24x3", side = "internal", cutter_diameter = "12 mm", teeth = "3", cutting_speed = "30 m/min",
              feed_per_tooth = "0.05 mm/tooth", start_diameter = "20.8 mm" | "20.9 mm" | "21 mm",
              contour_diameter = "24 mm", passes = "2" | "4" | "3", units = "metric" };
    };
    type Input = ThreadMillingInput;
    type Output = ThreadMillingResult;
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.caution(cautions::TURNING_SPINDLE);
        record.caution(cautions::MILLING);
        record.source("kinematics", "center and tips of a cutter on a circle turn together about the thread's axis");
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
            "Gauge the first piece, and change the radius of the path by half of what the pitch diameter is off. A tip \
             narrower than the flat of the thread must go deeper than the basic diameter, a blunter one less deep.");
        if input.thread.thread.starts > 1 {
            notes!(record => starts:
                "With one row of teeth, mill each start on its own helix, begun one turn divided by the starts further \
                 round. A cutter with rows at the pitch cuts all starts at once.");
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
