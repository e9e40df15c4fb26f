//! Speed, feed and stock of reaming: kinematics, published speeds, and half the drilling speed where
//! none is published for reaming (US War Department, TM 1-420).

use crate::calculators::{Calculator, Example, Task};
use crate::cautions;
use crate::declared::{Asks, Gives};
use crate::machine::{FeedStep, Limit, RangePoint, Spindle, Tooling, TurnCut, WantedSpeed, check_turn, tell_limits};
use crate::quantity::{
    CuttingSpeed, FeedPerRev, FeedRate, FoundCuttingSpeed, FoundExtent, FoundFeedPerRev, FoundFeedRate,
    FoundPercentage, FoundSize, FoundSpindleSpeed, Percentage, SiValue, Size, SpindleSpeed, Unit, text,
};
use crate::reference::cutting_speeds::{Operation, ToolMaterial};
use crate::reference::drilling::reaming_stock;
use crate::reference::material_name::WorkMaterial;
use crate::refusal::Refusal;
use crate::shop::tell_reamer;
use crate::working::{Constant, Record};
use validator::ValidationError;

/// The calculator.
pub struct Reaming;

/// The share of the drilling speed where no reaming speed is published.
const HALF: Constant = Constant {
    of: "constant:share_of_drilling_speed",
    value: 0.5,
    source: "tm1_420",
    place: "paragraph 37, reaming at about half the drilling speed",
};

/// What the reaming calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct ReamingInput {
    /// Diameter of the reamer.
    pub diameter: Size,
    /// Cutting speed wanted at the diameter; from the tables for material and tool_material if absent.
    pub cutting_speed: Option<CuttingSpeed>,
    /// Work material by short name, designation, number or words, such as 4140 annealed; forces and power need it.
    pub material: Option<WorkMaterial>,
    /// What the tool is made of: hss, cobalt, carbide or coated_carbide; needed where speed or feed comes from the tables.
    pub tool_material: Option<ToolMaterial>,
    /// Which point of a published range is taken: low, middle or high; low if absent.
    pub range_point: Option<RangePoint>,
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

/// What the reaming calculator gives.
#[derive(Debug, Gives)]
pub struct ReamingResult {
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
    /// Stock on the diameter to leave for machine reaming, from; absent outside the chart.
    pub stock_low: Option<FoundExtent>,
    /// Stock on the diameter to leave, to.
    pub stock_high: Option<FoundExtent>,
    /// Least diameter of the hole before reaming.
    pub drill_low: Option<FoundSize>,
    /// Greatest diameter of the hole before reaming.
    pub drill_high: Option<FoundSize>,
}

fn check(input: &ReamingInput) -> Result<(), ValidationError> {
    let feed = ("feed_per_rev", "0.010 in/rev", input.feed_per_rev.is_some());
    input.tooling().check(Some(feed))?;
    check_turn(&input.spindle(), input.fastest_feed.as_ref(), input.available_feeds.as_deref())
}

impl ReamingInput {
    fn tooling(&self) -> Tooling {
        Tooling {
            material: self.material,
            tool: self.tool_material,
            point: self.range_point,
            cutting_speed: self.cutting_speed,
            operation: Operation::Reaming,
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

/// The cutting speed: stated, published for reaming, or half of that published for drilling.
fn speed(tooling: &Tooling, record: &mut Record) -> Result<WantedSpeed, Refusal> {
    let own = tooling.speed(record);
    let drilling = Tooling { operation: Operation::Drilling, ..*tooling };
    let Err(refusal) = own else { return own };
    let Ok(drilling) = drilling.speed(record) else { return Err(refusal) };
    let quantity = drilling.speed.quantity();
    let speed = CuttingSpeed::stated(text::tidy(quantity.value * HALF.value), quantity.unit);
    record
        .step("Cutting speed of reaming", "V = k × Vd")
        .constant("k", &HALF)
        .with("Vd", drilling.of, drilling.speed)
        .gives("reaming_cutting_speed", speed);
    record.note(
        "half_of_drilling",
        "No reaming speed is published for this material and tool: half the drilling speed is taken. A third to two thirds \
         are in use.",
    );
    Ok(WantedSpeed { of: "reaming_cutting_speed", speed })
}

/// The stock to leave, and the hole before reaming.
struct Stock {
    low: FoundExtent,
    high: FoundExtent,
    drill_low: FoundSize,
    drill_high: FoundSize,
}

fn stock(diameter: &Size, record: &mut Record) -> Option<Stock> {
    let Some((low, high)) = reaming_stock(diameter.get().si()) else {
        record.note("no_stock", "The chart of reaming stock has no row for this diameter.");
        return None;
    };
    record.source("reamer_chart", "stock on the diameter by size of hole");
    let (low, high) = (FoundExtent::stated(low, Unit::Inch), FoundExtent::stated(high, Unit::Inch));
    const TABLE: &str = "reaming_stock.csv; a diameter on an edge belongs to the smaller band";
    record.look_up("Stock on the diameter, from", TABLE).with("D", "diameter", *diameter).gives("stock_low", low);
    record.look_up("Stock on the diameter, to", TABLE).with("D", "diameter", *diameter).gives("stock_high", high);
    let mut hole = |what: &'static str, field: &'static str, (of, stock): (&'static str, FoundExtent)| {
        let found = FoundSize::of(diameter.get() - stock.get());
        record.step(what, "d = D - s").with("D", "diameter", *diameter).with("s", of, stock).gives(field, found);
        found
    };
    let drill_low = hole("Least hole before reaming", "drill_low", ("stock_high", high));
    let drill_high = hole("Greatest hole before reaming", "drill_high", ("stock_low", low));
    Some(Stock { low, high, drill_low, drill_high })
}

impl Calculator for Reaming {
    const ID: &'static str = "speeds/reaming";
    const TITLE: &'static str = "Reaming speed and feed";
    const ABOUT: &'static str = "Spindle speed and feed for a machine reamer, as the machine has them, and the stock to \
        leave for it.";
    const TASK: Task = Task::MakeTheHole;
    const ANOTHER_CHECK: &'static str =
        "Try plug gauges at both ends: a larger mouth says that reamer and hole were not in line.";
    const WORDS: &'static [&'static str] = &["reamer", "ream", "stock", "allowance", "rpm", "feed", "fit", "dowel"];
    const EXAMPLES: &'static [Example] = &[
        Example {
            says: "A 1/2 in high-speed steel machine reamer finishes a bushing hole in a 1018 winch bracket on the bench mill.",
            fields: &[
                ("diameter", "1/2 in"),
                ("material", "1018"),
                ("tool_material", "hss"),
                ("available", "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm"),
            ],
        },
        Example {
            says: "A 10 mm reamer in bearing bronze of a pump bush, within what the mill's quill has.",
            fields: &[
                ("diameter", "10 mm"),
                ("material", "c93200"),
                ("tool_material", "hss"),
                ("range_point", "low"),
                ("slowest", "112 rpm"),
                ("fastest", "630 rpm"),
                ("may_exceed", "0 percent"),
                ("fastest_feed", "250 mm/min"),
                ("available_feeds", "0.1 mm/rev,0.2 mm/rev,0.3 mm/rev"),
            ],
        },
        Example {
            says: "A 6 mm reamer at a speed and a feed that are known.",
            fields: &[("diameter", "6 mm"), ("cutting_speed", "10 m/min"), ("feed_per_rev", "0.15 mm/rev")],
        },
    ];
    type Input = ReamingInput;
    type Output = ReamingResult;

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("kinematics", "cutting speed and feed rate of a turning tool");
        for caution in [cautions::STARTING_POINT, cautions::TURNING_SPINDLE, cautions::REAMING, cautions::SPEED_LIMIT] {
            record.caution(caution);
        }
        let tooling = input.tooling();
        tooling.warn(record);
        let size = input.diameter;
        tell_reamer(&size, record);
        let wanted = speed(&tooling, record)?;
        let feed =
            tooling.feed(input.feed_per_rev, "feed_per_rev", Operation::Reaming, Some(size.get().si()), record)?;
        let cut = TurnCut {
            wanted,
            across: size.into(),
            feed: ("feed_per_rev", feed),
            spindle: input.spindle(),
            fastest_feed: input.fastest_feed,
            available_feeds: input.available_feeds.as_deref(),
        };
        let set = cut.set(record)?;
        let stock = stock(&size, record);
        tell_limits(&set.limited_by, &set.held, record);
        Ok(ReamingResult {
            spindle_speed: set.spindle_speed,
            exact_speed: set.exact_speed,
            cutting_speed: set.cutting_speed,
            feed_rate: set.feed_rate,
            feed_per_rev: set.feed_per_rev,
            limited_by: set.limited_by,
            speed_fall: set.speed_fall,
            feed_fall: set.feed_fall,
            stock_low: stock.as_ref().map(|stock| stock.low),
            stock_high: stock.as_ref().map(|stock| stock.high),
            drill_low: stock.as_ref().map(|stock| stock.drill_low),
            drill_high: stock.as_ref().map(|stock| stock.drill_high),
        })
    }
}
