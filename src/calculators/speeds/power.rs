//! The power of a cut by both published ways side by side: unit power with its factors of feed and wear,
//! and specific cutting force.

use crate::calculators::prelude::*;
use crate::machine::{Limit, Motor, ProcessFactor, Removal, cut_power, tell_limits};
use crate::reference::material_name::WorkMaterial;

/// The calculator.
pub struct Power;

choice! {
    /// The operation, which decides the factors: `turning`, `finish_turning`, `boring`, `parting`, `milling`, `face_milling` or `drilling`.
    PowerOperation {
        /// Rough turning and facing.
        Turning = "turning",
        /// Finish turning.
        FinishTurning = "finish_turning",
        /// Boring.
        Boring = "boring",
        /// Parting and grooving.
        Parting = "parting",
        /// Milling with an end mill or a slab mill.
        Milling = "milling",
        /// Milling with a face mill.
        FaceMilling = "face_milling",
        /// Drilling.
        Drilling = "drilling",
    }
}

choice! {
    /// How worn the tool is: `sharp`, or `working`, as tools are between grindings.
    ToolState {
        /// New or newly ground.
        Sharp = "sharp",
        /// In use.
        Working = "working",
    }
}

const fn process(value: f64, place: &'static str) -> ProcessFactor {
    ProcessFactor { of: "constant:process_factor", value, source: "process_factor_memory", place }
}

const OUTSIDE: ProcessFactor = process(1.0, "outside turning is the base of the factors");
const INSIDE: ProcessFactor = process(1.2, "factor of inside turning, drilling and milling");
const GROOVE: ProcessFactor = process(1.3, "factor of parting and grooving");

impl PowerOperation {
    /// The row of the table of wear factors, and the factor on the specific force.
    fn factors(self) -> (&'static str, &'static ProcessFactor) {
        match self {
            Self::Turning => ("turning_rough", &OUTSIDE),
            Self::FinishTurning => ("turning_finish", &OUTSIDE),
            Self::Boring => ("turning_rough", &INSIDE),
            Self::Parting => ("turning_rough", &GROOVE),
            Self::Milling => ("end_milling", &INSIDE),
            Self::FaceMilling => ("face_milling", &INSIDE),
            Self::Drilling => ("drilling", &INSIDE),
        }
    }
}

/// What the power calculator asks for.
#[derive(Debug, Asks)]
pub struct CuttingPowerInput {
    /// Work material by short name, designation, number or words, such as 4140 annealed.
    pub material: WorkMaterial,
    /// Operation, which decides the factors of wear and of the process.
    pub operation: PowerOperation,
    /// Metal removed in a minute.
    pub removal_rate: RemovalRate,
    /// Feed, a tooth in milling and a turn in turning and drilling, as a length; the factor of unit power goes by it.
    pub feed: ChipThickness,
    /// Thickness of the chip, the mean one in milling.
    #[absent(
        "the feed",
        value = self.feed,
        "The chip is taken to be as thick as the feed, as with an edge square to it; in milling it is thinner."
    )]
    pub chip: Option<ChipThickness>,
    /// Spindle speed of the cut.
    pub spindle_speed: SpindleSpeed,
    /// Sharp or working.
    #[absent("working", "The tool is taken as working, between sharp and worn out.")]
    pub tool_state: Option<ToolState>,
    /// The motor of the spindle.
    #[group]
    pub motor: Motor,
}

/// What the power calculator gives.
#[derive(Debug, Gives)]
pub struct CuttingPowerResult {
    /// Power at the tool by unit power.
    pub power: FoundPower,
    /// Power at the tool by specific cutting force.
    pub power_by_specific_force: Option<FoundPower>,
    /// How much more or less the second way gives, as a share of the first.
    pub difference: Option<FoundDeviation>,
    /// Specific cutting force at that chip.
    pub specific_force: Option<FoundSpecificForce>,
    /// Torque at the spindle by unit power.
    pub torque: FoundTorque,
    /// Power that the motor gives for the power at the tool.
    pub motor_power: FoundPower,
    /// Power that the spindle has at its speed; needs spindle_power.
    pub power_available: Option<FoundPower>,
    /// Power of the cut as a share of the power available; needs spindle_power.
    pub load: Option<FoundPercentage>,
    /// Power, where the cut takes more than the spindle has.
    pub limited_by: Vec<Limit>,
    /// By how much the depth of cut would have to fall for the power available.
    pub depth_fall: Option<FoundPercentage>,
}

impl Calculator for Power {
    const ID: &'static str = "speeds/power";
    const TITLE: &'static str = "Cutting power";
    const ABOUT: &'static str = "The power that a cut takes, by unit power and by specific cutting force side by side, with \
        the torque and what it asks of the motor.";
    const TASK: Task = Task::Cut;
    const ANOTHER_CHECK: &'static str =
        "Read the machine's load meter, where it has one, idle and in the cut: the difference is what the cut takes.";
    const WORDS: &'static str = "horsepower, kilowatt, torque, unit power, kc, specific cutting force, motor, stall";
    const EXAMPLES: &'static [Example] = examples! {
        "The bench mill takes 0.225 in3/min off a winch bracket of annealed 4140 at 450 rpm.":
            material = "4140 annealed", operation = "milling", removal_rate = "0.225 in3/min", feed = "0.002 in",
            chip = "0.0013 in", spindle_speed = "450 rpm", spindle_power = "1.5 kW", efficiency = "85 percent";
        "A lathe of 5 kW roughs a 304 pump shaft with a sharp tool, below the base speed of its drive.":
            material = "304", operation = "turning", removal_rate = "20 cm3/min", feed = "0.25 mm",
            spindle_speed = "300 rpm", tool_state = "sharp", spindle_power = "5 kW", base_speed = "500 rpm";
    };
    type Input = CuttingPowerInput;
    type Output = CuttingPowerResult;

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("kinematics", "power is torque times turns, and specific force times volume");
        record.caution(cautions::STARTING_POINT);
        crate::machine::tell_material(input.material.0, record);
        let chip = input.chip(record).found();
        let state = input.tool_state(record);
        let (wear, process) = input.operation.factors();
        let speed = input.spindle_speed.found();
        let removal = Removal {
            rate: input.removal_rate.found(),
            feed_of: "feed",
            feed: input.feed.into(),
            feed_si: input.feed.si(),
            wear: if state == ToolState::Sharp { "sharp" } else { wear },
        };
        let mut held = Vec::new();
        let work = (Some(&input.material), &input.motor);
        let Some(power) = cut_power(work, &removal, ("chip", chip, process), speed, &mut held, record) else {
            let ways = [("material", "4140-annealed".to_owned())];
            return Err(Refusal::no_answer("The material has no unit power.", &ways));
        };
        let difference = power.by_force.map(|by_force| {
            step!(record, "How much more or less that is", δ: difference = P2 / P1 - ratio(1.0),
                P2 = power_by_specific_force: by_force, P1 = power: power.power)
        });
        let mut limited_by = Vec::new();
        power.load.limit(&mut limited_by);
        tell_limits(&limited_by, &held, record);
        Ok(CuttingPowerResult {
            power: power.power,
            power_by_specific_force: power.by_force,
            difference,
            specific_force: power.force,
            torque: power.torque,
            motor_power: power.load.motor_power,
            power_available: power.load.power_available,
            load: power.load.load,
            limited_by,
            depth_fall: power.depth_fall,
        })
    }
}
