//! Speed of tapping and the feed that goes with it: kinematics; the feed is the thread's lead times the
//! turns, and nothing else.

use crate::calculators::{Calculator, Example, Task};
use crate::cautions;
use crate::declared::{Asks, Gives};
use crate::machine::{
    CutDiameter, Limit, RangePoint, Spindle, Tooling, cutting_speed_at, exact_speed, fall, tell_limits,
};
use crate::quantity::{
    CuttingSpeed, FoundCuttingSpeed, FoundFeedPerRev, FoundFeedRate, FoundPercentage, FoundSize, FoundSpindleSpeed,
    Percentage, SiValue, Size, SpindleSpeed, Unit, text,
};
use crate::reference::cutting_speeds::{Operation, ToolMaterial};
use crate::reference::material_name::WorkMaterial;
use crate::reference::threads::Designation;
use crate::refusal::Refusal;
use crate::sources::Trust;
use crate::working::Record;
use validator::ValidationError;

/// The calculator.
pub struct Tapping;

/// What the tapping calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct TappingInput {
    /// Designation of the thread, such as 1/4-20 UNC or M8.
    pub thread: Designation,
    /// Cutting speed wanted at the thread's size; from the tables for material and tool_material if absent.
    pub cutting_speed: Option<CuttingSpeed>,
    /// Work material by short name, designation, number or words, such as 4140 annealed; forces and power need it.
    pub material: Option<WorkMaterial>,
    /// What the tool is made of: hss, cobalt, carbide or coated_carbide; needed where speed or feed comes from the tables.
    pub tool_material: Option<ToolMaterial>,
    /// Which point of a published range is taken: low, middle or high; low if absent.
    pub range_point: Option<RangePoint>,
    /// Slowest speed to be used; no limit if absent.
    pub slowest: Option<SpindleSpeed>,
    /// Fastest speed to be used, by the machine, the chuck, the holder or the tool; no limit if absent.
    pub fastest: Option<SpindleSpeed>,
    /// The speeds that gears or pulleys give, in any order; any speed if absent. Those outside slowest to fastest are left out.
    pub available: Option<Vec<SpindleSpeed>>,
    /// How far above the exact speed the speed chosen may be, in percent of the exact speed; 0 if absent.
    pub may_exceed: Option<Percentage>,
}

/// What the tapping calculator gives.
#[derive(Debug, Gives)]
pub struct TappingResult {
    /// Spindle speed to set.
    pub spindle_speed: FoundSpindleSpeed,
    /// Speed that gives the cutting speed exactly.
    pub exact_speed: FoundSpindleSpeed,
    /// Cutting speed at the spindle speed to set.
    pub cutting_speed: FoundCuttingSpeed,
    /// Feed rate that the thread makes at that spindle speed.
    pub feed_rate: FoundFeedRate,
    /// Feed per turn: the lead of the thread.
    pub feed_per_rev: FoundFeedPerRev,
    /// The limits that do not allow the exact speed.
    pub limited_by: Vec<Limit>,
    /// By how much the spindle speed is below the exact one.
    pub speed_fall: Option<FoundPercentage>,
    /// A speed at or below the exact one whose feed rate is a round number; absent where the machine has steps.
    pub round_speed: Option<FoundSpindleSpeed>,
    /// That round feed rate.
    pub round_feed_rate: Option<FoundFeedRate>,
}

fn check(input: &TappingInput) -> Result<(), ValidationError> {
    input.tooling().check(None)?;
    input.spindle().check()
}

impl TappingInput {
    fn tooling(&self) -> Tooling {
        Tooling {
            material: self.material,
            tool: self.tool_material,
            point: self.range_point,
            cutting_speed: self.cutting_speed,
            operation: Operation::Tapping,
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

/// Size and lead, with their steps.
fn size_and_lead(thread: &Designation, record: &mut Record) -> (Size, FoundSize, FoundFeedPerRev) {
    let basis = &thread.thread;
    if let Some(provenance) = basis.provenance {
        let trust = Trust::named(provenance.trust).unwrap_or(Trust::FromMemory);
        record.source_trusted(provenance.source, format!("series, {}", basis.designation), trust);
    }
    let size = Size::stated(basis.diameter, thread.unit());
    let lead = FoundSize::stated(text::tidy(basis.lead()), thread.unit());
    let named = || thread.text();
    record.look_up("Size", "as the designation says it").with("T", "thread", named()).gives("size", size);
    record
        .look_up("Lead", "the pitch that the designation says, times its starts")
        .with("T", "thread", named())
        .gives("lead", lead);
    let unit = match thread.unit() {
        Unit::Inch => Unit::InchPerRev,
        _ => Unit::MillimetrePerRev,
    };
    let feed = FoundFeedPerRev::stated(text::tidy(basis.lead()), unit);
    record.step("Feed per turn", "f = P").with("P", "lead", lead).gives("feed_per_rev", feed);
    (size, lead, feed)
}

/// A speed whose feed rate is a round number.
fn round(
    input: &TappingInput,
    exact: FoundSpindleSpeed,
    lead: FoundSize,
    record: &mut Record,
) -> Option<(FoundSpindleSpeed, FoundFeedRate)> {
    let fastest = input.fastest.map_or(f64::INFINITY, |fastest| fastest.get().si());
    if input.available.is_some() {
        return None;
    }
    let unit = match input.thread.unit() {
        Unit::Inch => Unit::InchPerMinute,
        _ => Unit::MillimetrePerMinute,
    };
    let greatest = unit.of_si(lead.get().si() * exact.get().si().min(fastest));
    let place = 10f64.powi(greatest.log10().floor() as i32 - 1);
    // A double's rounding must not take a whole place off.
    let rate = text::tidy((greatest / place * (1.0 + 1e-12)).floor() * place);
    let rate = FoundFeedRate::stated(rate, unit);
    let speed = FoundSpindleSpeed::of(rate.get() / lead.get());
    if input.slowest.is_some_and(|slowest| speed.get() < slowest.get()) {
        return None;
    }
    record
        .look_up(
            "A round feed rate at or below that of the exact speed",
            "cut to two figures, not above the fastest speed",
        )
        .with("n", "exact_speed", exact)
        .with("P", "lead", lead)
        .gives("round_feed_rate", rate);
    record
        .step("Its spindle speed", "n = vf / P")
        .with("vf", "round_feed_rate", rate)
        .with("P", "lead", lead)
        .gives("round_speed", speed);
    Some((speed, rate))
}

impl Calculator for Tapping {
    const ID: &'static str = "speeds/tapping";
    const TITLE: &'static str = "Tapping speed and feed";
    const ABOUT: &'static str = "Spindle speed for a tap, as the machine has it, the feed rate that its lead makes, and \
        a speed at which that feed rate is a round number.";
    const TASK: Task = Task::Thread;
    const ANOTHER_CHECK: &'static str =
        "Try the thread with a plug gauge or with the screw itself, and count the turns it goes in.";
    const WORDS: &'static [&'static str] = &["tap", "thread", "rigid tapping", "rpm", "lead", "pitch", "feed rate"];
    const EXAMPLES: &'static [Example] = &[
        Example {
            says: "A 1/4-20 tap in a 1018 winch bracket on the bench mill.",
            fields: &[
                ("thread", "1/4-20 UNC"),
                ("material", "1018"),
                ("tool_material", "hss"),
                ("available", "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm"),
            ],
        },
        Example {
            says: "An M8 tap in a pump cover of 6061, at any speed up to 600 rpm.",
            fields: &[
                ("thread", "M8"),
                ("material", "6061"),
                ("tool_material", "hss"),
                ("range_point", "low"),
                ("slowest", "112 rpm"),
                ("fastest", "600 rpm"),
                ("may_exceed", "0 percent"),
            ],
        },
        Example { says: "An M10 tap at 8 m/min.", fields: &[("thread", "M10"), ("cutting_speed", "8 m/min")] },
    ];
    type Input = TappingInput;
    type Output = TappingResult;

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("kinematics", "a tap advances its lead in each turn");
        for caution in [cautions::STARTING_POINT, cautions::TURNING_SPINDLE, cautions::TAPPING, cautions::SPEED_LIMIT] {
            record.caution(caution);
        }
        record.note(
            "overrides_locked",
            "The feed is the lead times the turns: feed and spindle overrides stay at 100 percent, and the spindle must \
             be able to stop and turn back at this speed.",
        );
        let tooling = input.tooling();
        tooling.warn(record);
        let (size, lead, feed_per_rev) = size_and_lead(&input.thread, record);
        let across = CutDiameter { of: "size", size };
        let wanted = tooling.speed(record)?;
        let exact = exact_speed(wanted, across, record)?;
        let chosen = input.spindle().choose(exact, record);
        let spindle_speed =
            chosen.speed.ok_or_else(|| input.spindle().no_speed((exact, chosen.above), &wanted.speed, across))?;
        let cutting_speed = cutting_speed_at("cutting_speed", ("spindle_speed", spindle_speed), across, record);
        let feed_rate = FoundFeedRate::of(lead.get() * spindle_speed.get());
        record
            .step("Feed rate", "vf = P × n")
            .with("P", "lead", lead)
            .with("n", "spindle_speed", spindle_speed)
            .gives("feed_rate", feed_rate);
        let round = round(input, exact, lead, record);
        let share = 1.0 - (spindle_speed.get() / exact.get()).si();
        let speed_fall =
            fall("speed_fall", ("exact_speed", exact.into()), ("spindle_speed", spindle_speed.into()), share, record);
        tell_limits(&chosen.limited_by, &[("n", "exact_speed", exact.into())], record);
        Ok(TappingResult {
            spindle_speed,
            exact_speed: exact,
            cutting_speed,
            feed_rate,
            feed_per_rev,
            limited_by: chosen.limited_by,
            speed_fall,
            round_speed: round.map(|(speed, _)| speed),
            round_feed_rate: round.map(|(_, rate)| rate),
        })
    }
}
