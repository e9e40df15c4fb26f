//! Speed and feed of countersinking: a share of the drilling speed at the largest diameter cut, which
//! is common practice against chatter.

use crate::calculators::{Calculator, Example, Task};
use crate::cautions;
use crate::declared::{Asks, Gives};
use crate::machine::{FeedStep, Limit, RangePoint, Spindle, Tooling, TurnCut, WantedSpeed, check_turn, tell_limits};
use crate::quantity::{
    CuttingSpeed, FeedPerRev, FeedRate, FoundCuttingSpeed, FoundFeedPerRev, FoundFeedRate, FoundPercentage,
    FoundSpindleSpeed, Override, Percentage, SiValue, Size, SpindleSpeed, Unit, text,
};
use crate::reference::cutting_speeds::{Operation, ToolMaterial};
use crate::reference::material_name::WorkMaterial;
use crate::refusal::Refusal;
use crate::working::Record;
use validator::ValidationError;

/// The calculator.
pub struct Countersinking;

/// What the countersinking calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct CountersinkingInput {
    /// Largest diameter that is cut.
    pub diameter: Size,
    /// Cutting speed wanted at the largest diameter; from the tables for material and tool_material if absent.
    pub cutting_speed: Option<CuttingSpeed>,
    /// Work material by short name, designation, number or words, such as 4140 annealed; forces and power need it.
    pub material: Option<WorkMaterial>,
    /// What the tool is made of: hss, cobalt, carbide or coated_carbide; needed where speed or feed comes from the tables.
    pub tool_material: Option<ToolMaterial>,
    /// Which point of a published range is taken: low, middle or high; low if absent.
    pub range_point: Option<RangePoint>,
    /// Share of the drilling speed that is taken where cutting_speed is absent; 25 percent if absent.
    pub speed_share: Option<Override>,
    /// Feed per turn wanted; from the feed tables if absent.
    pub feed_per_rev: Option<FeedPerRev>,
    /// Slowest speed to be used; no limit if absent.
    pub slowest: Option<SpindleSpeed>,
    /// Fastest speed to be used, by the machine, the chuck, the holder or the tool; no limit if absent.
    pub fastest: Option<SpindleSpeed>,
    /// The speeds that gears or pulleys give, in any order; any speed if absent. Those outside slowest to fastest are left out.
    pub available: Option<Vec<SpindleSpeed>>,
    /// How far above the exact speed the speed chosen may be, in percent of the exact speed; 0 if absent.
    pub may_exceed: Option<Percentage>,
    /// Fastest feed rate to be used; no limit if absent.
    pub fastest_feed: Option<FeedRate>,
    /// The feeds that the machine has, all a turn or all a minute, in any order; any feed if absent.
    pub available_feeds: Option<Vec<FeedStep>>,
}

/// What the countersinking calculator gives.
#[derive(Debug, Gives)]
pub struct CountersinkingResult {
    /// Spindle speed to set.
    pub spindle_speed: FoundSpindleSpeed,
    /// Speed that gives the cutting speed exactly.
    pub exact_speed: FoundSpindleSpeed,
    /// Cutting speed at the spindle speed to set.
    pub cutting_speed: FoundCuttingSpeed,
    /// Feed rate at that spindle speed.
    pub feed_rate: FoundFeedRate,
    /// Feed per turn to set.
    pub feed_per_rev: FoundFeedPerRev,
    /// The limits that do not allow the exact speed or the feed asked for.
    pub limited_by: Vec<Limit>,
    /// By how much the spindle speed is below the exact one.
    pub speed_fall: Option<FoundPercentage>,
    /// By how much the feed rate is below the one asked for.
    pub feed_fall: Option<FoundPercentage>,
}

fn check(input: &CountersinkingInput) -> Result<(), ValidationError> {
    let feed = ("feed_per_rev", "0.005 in/rev", input.feed_per_rev.is_some());
    input.tooling().check(Some(feed))?;
    check_turn(&input.spindle(), input.fastest_feed.as_ref(), input.available_feeds.as_deref())
}

impl CountersinkingInput {
    fn tooling(&self) -> Tooling {
        Tooling {
            material: self.material,
            tool: self.tool_material,
            point: self.range_point,
            cutting_speed: self.cutting_speed,
            operation: Operation::Drilling,
        }
    }

    fn spindle(&self) -> Spindle<'_> {
        Spindle {
            slowest: self.slowest,
            fastest: self.fastest,
            available: self.available.as_deref(),
            may_exceed: self.may_exceed,
        }
    }
}

fn speed(input: &CountersinkingInput, record: &mut Record) -> Result<WantedSpeed, Refusal> {
    let drilling = input.tooling().speed(record)?;
    if input.cutting_speed.is_some() {
        if input.speed_share.is_some() {
            record.note("share_without_effect", "speed_share matters only where the speed comes from the tables.");
        }
        return Ok(drilling);
    }
    record.source("common_practice", "countersinking at a quarter to a half of the drilling speed");
    let share = record.or_assume(
        input.speed_share,
        "speed_share",
        Override::stated(25.0, Unit::Percent),
        "A quarter of the drilling speed keeps most countersinks from chattering; up to a half is in use.",
    );
    let quantity = drilling.speed.quantity();
    let speed = CuttingSpeed::stated(text::tidy(quantity.value * share.get().si()), quantity.unit);
    record
        .step("Cutting speed of countersinking", "V = k × Vd")
        .with("k", "speed_share", share)
        .with("Vd", drilling.of, drilling.speed)
        .gives("countersinking_cutting_speed", speed);
    Ok(WantedSpeed { of: "countersinking_cutting_speed", speed })
}

impl Calculator for Countersinking {
    const ID: &'static str = "speeds/countersinking";
    const TITLE: &'static str = "Countersinking speed and feed";
    const ABOUT: &'static str = "Spindle speed and feed for a countersink or counterbore: a share of the drilling speed \
        at the largest diameter it cuts, as the machine has it.";
    const TASK: Task = Task::MakeTheHole;
    const ANOTHER_CHECK: &'static str = "Put the screw in and feel across its head with a straightedge.";
    const WORDS: &'static [&'static str] =
        &["countersink", "counterbore", "chamfer", "deburr", "chatter", "rpm", "spot face", "flat head"];
    const EXAMPLES: &'static [Example] = &[
        Example {
            says: "A countersink opens a hole in a 1018 winch plate to 3/4 in on the bench mill.",
            fields: &[
                ("diameter", "3/4 in"),
                ("material", "1018"),
                ("tool_material", "hss"),
                ("available", "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm"),
            ],
        },
        Example {
            says: "A 12 mm countersink in 6061 covers of a pump at a half of the drilling speed.",
            fields: &[
                ("diameter", "12 mm"),
                ("material", "6061"),
                ("tool_material", "hss"),
                ("range_point", "middle"),
                ("speed_share", "50 percent"),
                ("slowest", "112 rpm"),
                ("fastest", "1250 rpm"),
                ("may_exceed", "10 percent"),
                ("fastest_feed", "300 mm/min"),
                ("available_feeds", "0.1 mm/rev,0.2 mm/rev"),
            ],
        },
        Example {
            says: "A counterbore of 18 mm at a speed and a feed that are known.",
            fields: &[("diameter", "18 mm"), ("cutting_speed", "8 m/min"), ("feed_per_rev", "0.1 mm/rev")],
        },
    ];
    type Input = CountersinkingInput;
    type Output = CountersinkingResult;

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("kinematics", "cutting speed and feed rate of a turning tool");
        for caution in
            [cautions::STARTING_POINT, cautions::TURNING_SPINDLE, cautions::COUNTERSINKING, cautions::SPEED_LIMIT]
        {
            record.caution(caution);
        }
        let tooling = input.tooling();
        tooling.warn(record);
        let wanted = speed(input, record)?;
        let size = input.diameter.get().si();
        let feed = tooling.feed(input.feed_per_rev, "feed_per_rev", Operation::Countersinking, Some(size), record)?;
        let cut = TurnCut {
            wanted,
            across: input.diameter.into(),
            feed: ("feed_per_rev", feed),
            spindle: input.spindle(),
            fastest_feed: input.fastest_feed,
            available_feeds: input.available_feeds.as_deref(),
        };
        let set = cut.set(record)?;
        tell_limits(&set.limited_by, &set.held, record);
        Ok(CountersinkingResult {
            spindle_speed: set.spindle_speed,
            exact_speed: set.exact_speed,
            cutting_speed: set.cutting_speed,
            feed_rate: set.feed_rate,
            feed_per_rev: set.feed_per_rev,
            limited_by: set.limited_by,
            speed_fall: set.speed_fall,
            feed_fall: set.feed_fall,
        })
    }
}
