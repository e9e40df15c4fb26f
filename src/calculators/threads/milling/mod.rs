//! Milling a thread on a helix: the circle of the cutter's middle, its feed, the rise in a turn and
//! along the entry, how far the cutter spoils the flank, the direction of the path. Kinematics and plane
//! geometry, derived.

mod cuts;
mod drawing;
mod entry;
mod path;
mod rules;
mod set_up;

use crate::calculators::{Calculator, Draw, Example, Task};
use crate::cautions;
use crate::declared::{Asks, Gives};
use crate::fields::Count;
use crate::machine::{Limit, Spindle, tell_limits};
use crate::quantity::{
    CuttingSpeed, FeedPerTooth, FoundAngle, FoundCuttingSpeed, FoundExtent, FoundFeedRate, FoundSize,
    FoundSpindleSpeed, FoundWorkTime, Percentage, Size, SpindleSpeed,
};
use crate::reference::threads::Designation;
use crate::refusal::Refusal;
use crate::threading::given_thread;
use crate::working::Record;

/// The calculator.
pub struct ThreadMilling;

crate::choice! {
    /// Which side is threaded: `internal`, a hole, or `external`, a stud.
    ThreadedSide {
        /// A hole.
        Internal = "internal",
        /// A stud.
        External = "external",
    }
}

crate::choice! {
    /// Which way the tooth meets the thread: `climb` with the feed of the work, `conventional` against it.
    ThreadMillingWay {
        /// With the feed of the work: chip thick first, thin last.
        Climb = "climb",
        /// Against it: chip thin first, thick last.
        Conventional = "conventional",
    }
}

crate::choice! {
    /// Which way round the cutter's middle goes, seen along the spindle from above: `counterclockwise` or `clockwise`.
    PathTurn {
        /// Against the hands of a clock.
        Counterclockwise = "counterclockwise",
        /// With the hands of a clock.
        Clockwise = "clockwise",
    }
}

crate::choice! {
    /// Which way the cutter goes along the axis: `up` towards the spindle, or `down` away from it.
    PathTravel {
        /// Towards the spindle.
        Up = "up",
        /// Away from it.
        Down = "down",
    }
}

/// What the thread milling calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = rules::check_thread, check = rules::check_sizes)]
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
    /// Climb or conventional milling; climb if absent.
    pub way: Option<ThreadMillingWay>,
    /// Diameter of the hole or stud before threading; the basic minor diameter of a hole, the basic major diameter of a
    /// stud if absent.
    pub start_diameter: Option<Size>,
    /// Diameter that the tips cut to; the basic major diameter in a hole, the basic minor diameter on a stud if absent.
    pub contour_diameter: Option<Size>,
    /// Number of cuts, 1 to 20; 1 if absent.
    pub passes: Option<Count<1, 20>>,
    /// Length of the thread; turns and time need it.
    pub length: Option<Size>,
    /// Length of the toothed part of the cutter; a cutter with one row of teeth if absent. Needs length.
    pub cutting_length: Option<Size>,
    /// Slowest speed to be used; no limit if absent.
    pub slowest: Option<SpindleSpeed>,
    /// Fastest speed to be used, by the machine, the holder or the cutter; no limit if absent.
    pub fastest: Option<SpindleSpeed>,
    /// The speeds that gears or pulleys give, in any order; any speed if absent.
    pub available: Option<Vec<SpindleSpeed>>,
    /// How far above the exact speed the speed chosen may be, in percent of the exact speed; 0 if absent.
    pub may_exceed: Option<Percentage>,
}

impl ThreadMillingInput {
    fn spindle(&self) -> Spindle<'_> {
        Spindle {
            slowest: self.slowest,
            fastest: self.fastest,
            available: self.available.as_deref(),
            may_exceed: self.may_exceed,
        }
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
    /// Spindle speed to set.
    pub spindle_speed: FoundSpindleSpeed,
    /// Spindle speed for the cutting speed wanted.
    pub exact_speed: FoundSpindleSpeed,
    /// Cutting speed at the spindle speed to set.
    pub cutting_speed: FoundCuttingSpeed,
    /// Feed rate of the tips along the thread.
    pub edge_feed_rate: FoundFeedRate,
    /// Feed rate of the cutter's middle in the last cut.
    pub center_feed_rate: FoundFeedRate,
    /// Diameter of the circle of the cutter's middle in the last cut.
    pub path_diameter: FoundSize,
    /// How far the cutter moves along its axis in one turn of the path.
    pub rise_per_turn: FoundSize,
    /// Angle of the helix of the cutter's middle.
    pub path_angle: FoundAngle,
    /// Which way round the cutter's middle goes, seen from above with the cutter turning clockwise: counterclockwise or
    /// clockwise.
    pub path_turns: PathTurn,
    /// Which way it goes along the axis meanwhile: up or down.
    pub path_travels: PathTravel,
    /// How far it moves along the axis on the way in, in the same direction; the way out takes as much again.
    pub entry_rise: FoundSize,
    /// Diameter of the half circle that leads from the middle of a hole onto the path; holes only.
    pub entry_arc_diameter: Option<FoundSize>,
    /// Length of the straight way that leads onto the path of a stud from clear of it; studs only.
    pub entry_length: Option<FoundSize>,
    /// Largest cutter that goes into the hole; holes only.
    pub greatest_cutter: Option<FoundSize>,
    /// How much the cutter takes off each flank too much at the pitch line, along the axis, since it is not a point.
    pub flank_overcut: FoundExtent,
    /// How much larger the pitch diameter of a hole, or smaller that of a stud, comes out for it.
    pub pitch_error: FoundExtent,
    /// Turns of the path in one cut; needs length.
    pub turns: Option<f64>,
    /// Time in the cut for all cuts, entries left out; needs length.
    pub cutting_time: Option<FoundWorkTime>,
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
    const WORDS: &'static [&'static str] = &[
        "thread mill",
        "helical",
        "helix",
        "interpolation",
        "pitch per turn",
        "center feed",
        "climb",
        "left-hand",
        "single point",
        "rotary table",
        "arc entry",
    ];
    const EXAMPLES: &'static [Example] = &[
        Example {
            says: "An M16x1.5 hole in a pump cover, milled with a cutter of 10 mm and three teeth in two cuts.",
            fields: &[
                ("thread", "M16x1.5"),
                ("side", "internal"),
                ("cutter_diameter", "10 mm"),
                ("teeth", "3"),
                ("cutting_speed", "80 m/min"),
                ("feed_per_tooth", "0.05 mm/tooth"),
                ("way", "climb"),
                ("passes", "2"),
                ("length", "20 mm"),
                ("cutting_length", "21 mm"),
                ("fastest", "3000 rpm"),
            ],
        },
        Example {
            says: "A left-hand 1-8 stud for a winch on the mill's steps, with a single row of teeth.",
            fields: &[
                ("thread", "1-8 UNC-LH"),
                ("side", "external"),
                ("cutter_diameter", "1/2 in"),
                ("teeth", "4"),
                ("cutting_speed", "100 ft/min"),
                ("feed_per_tooth", "0.002 in/tooth"),
                ("way", "conventional"),
                ("start_diameter", "0.996 in"),
                ("contour_diameter", "0.85 in"),
                ("passes", "3"),
                ("length", "1.25 in"),
                ("slowest", "112 rpm"),
                ("available", "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm"),
                ("may_exceed", "5 percent"),
            ],
        },
    ];
    type Input = ThreadMillingInput;
    type Output = ThreadMillingResult;
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.caution(cautions::STARTING_POINT);
        record.caution(cautions::TURNING_SPINDLE);
        record.caution(cautions::MILLING);
        record.source("kinematics", "middle and tips of a cutter on a circle turn together about the thread's axis");
        record.source("geometry", "helix of the thread, half circle and tangent onto a circle, contact of two circles");
        let given = given_thread(&input.thread, "thread", record);
        let way = record.or_assume(
            input.way,
            "way",
            ThreadMillingWay::Climb,
            "Climb milling is usual where the machine has no play.",
        );
        if way == ThreadMillingWay::Climb {
            record.caution(cautions::CLIMB_MILLING);
        }
        let set = set_up::speed(input, record)?;
        let sizes = path::sizes(&given, input, record);
        let cut = cuts::find(input, &sizes, set.edge_feed_rate, record);
        let helix = path::helix(&given, input, &sizes, way, record);
        let entry = entry::find(&given, input, &sizes, &helix, record);
        let spoilt = path::overcut(&given, input, &sizes, record)?;
        let time = cuts::time(&given, input, &cut, record)?;
        record.note(
            "first_piece",
            "Gauge the first piece: half of what its pitch diameter lacks goes onto the radius of the path. A tip that is \
             narrower than the thread's own flat must go deeper than the basic contour, a blunter one less deep.",
        );
        if input.thread.thread.starts > 1 {
            record.note(
                "starts",
                "With one row of teeth each start is a helix of its own, begun a share of a turn round from the one before; a \
                 cutter with rows at the pitch cuts all of them at once.",
            );
        }
        tell_limits(&set.limited_by, &[("n", "exact_speed", set.exact_speed.into())], record);
        Ok(ThreadMillingResult {
            spindle_speed: set.spindle_speed,
            exact_speed: set.exact_speed,
            cutting_speed: set.cutting_speed,
            edge_feed_rate: set.edge_feed_rate,
            center_feed_rate: cut.center_feed_rate,
            path_diameter: sizes.path,
            rise_per_turn: given.lead,
            path_angle: helix.angle,
            path_turns: helix.turns,
            path_travels: helix.travels,
            entry_rise: entry.rise,
            entry_arc_diameter: entry.arc_diameter,
            entry_length: entry.length,
            greatest_cutter: sizes.greatest_cutter,
            flank_overcut: spoilt.flank,
            pitch_error: spoilt.pitch_diameter,
            turns: time.as_ref().map(|time| time.turns),
            cutting_time: time.as_ref().map(|time| time.time),
            cuts: cut.rows,
            limited_by: set.limited_by,
        })
    }
}
