//! The power of a cut by both published ways side by side, unit power with its factors of feed and wear and specific
//! cutting force, or by a force, a specific force or a unit power that the request states.

use crate::calculators::prelude::*;
use crate::machine::{
    Limit, Load, Motor, ProcessFactor, Removal, compare_methods, specific_force, tell_limits, tell_material, unit_power,
};
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
#[asks(check = check)]
pub struct CuttingPowerInput {
    /// Work material by short name, designation, number or words, such as 4140 annealed; not needed where unit power, specific force or cutting force is given.
    #[label("Work material")]
    pub material: Option<WorkMaterial>,
    /// Operation, which decides the factors for wear and for the process; needed with the work material.
    pub operation: Option<PowerOperation>,
    /// Metal removed in a minute; not needed with a cutting force.
    #[label("Metal removal rate")]
    pub removal_rate: Option<RemovalRate>,
    /// Feed as a length: per tooth in milling, per revolution in turning and drilling. A factor of the material's unit power depends on it.
    #[label("Feed per tooth or revolution")]
    pub feed: Option<ChipThickness>,
    /// Thickness of the chip, the mean one in milling; the feed if absent.
    #[label("Chip thickness")]
    pub chip: Option<ChipThickness>,
    /// Spindle speed of the cut; the torque needs it.
    pub spindle_speed: Option<SpindleSpeed>,
    /// Sharp or working.
    #[label("Wear of the tool")]
    #[absent("working", "A working tool is assumed, between sharp and worn out.")]
    pub tool_state: Option<ToolState>,
    /// Unit power of this cut, as measured or from the tool maker, in place of the material's; no factor is applied to it.
    pub unit_power: Option<UnitPower>,
    /// Specific cutting force of this cut, in place of the material's; no factor is applied to it.
    #[label("Specific cutting force")]
    pub specific_force: Option<SpecificForce>,
    /// Cutting force, as measured; its power needs the cutting speed.
    pub cutting_force: Option<CuttingForce>,
    /// Cutting speed, for the power of the cutting force.
    pub cutting_speed: Option<CuttingSpeed>,
    /// The motor of the spindle.
    #[group]
    pub motor: Motor,
}

/// What the power calculator gives.
#[derive(Debug, Gives)]
pub struct CuttingPowerResult {
    /// Power at the tool by unit power; by specific force, or by cutting force, where there is no unit power.
    #[label("Power at the tool")]
    pub power: FoundPower,
    /// Power at the tool by specific cutting force.
    #[needs(material | specific_force, removal_rate)]
    pub power_by_specific_force: Option<FoundPower>,
    /// Power at the tool by the cutting force.
    #[label("Power by cutting force")]
    #[needs(cutting_force, cutting_speed)]
    pub power_by_force: Option<FoundPower>,
    /// How much more or less power the specific cutting force gives than unit power does, as a share of the latter.
    #[label("Difference of the two methods")]
    #[needs(material | unit_power, material | specific_force, removal_rate)]
    pub difference: Option<FoundDeviation>,
    /// Specific cutting force at that chip.
    #[label("Specific cutting force")]
    #[needs(material | specific_force)]
    pub specific_force: Option<FoundSpecificForce>,
    /// Torque at the spindle for the power.
    #[label("Torque at the spindle")]
    #[needs(spindle_speed)]
    pub torque: Option<FoundTorque>,
    /// What it asks of the motor.
    #[group]
    pub load: Load,
    /// The power, where the cut takes more than the spindle has.
    pub limited_by: Vec<Limit>,
    /// How much less the depth of cut must be for the power available.
    #[label("Reduce depth of cut by")]
    pub depth_fall: Option<FoundPercentage>,
}

rules! { check(CuttingPowerInput) {
    needs(material => operation = "milling"): "With a work material, give the operation too.";
    needs(material => removal_rate = "0.225 in3/min"): "With a work material, give the metal removal rate too.";
    needs(material => feed = "0.002 in"): "With a work material, give the feed too; its unit power depends on it.";
    needs(unit_power => removal_rate = "0.225 in3/min"): "With a unit power, give the metal removal rate too.";
    needs(specific_force => removal_rate = "0.225 in3/min"):
        "With a specific cutting force, give the metal removal rate too.";
    needs(cutting_force => cutting_speed = "70 ft/min"): "With a cutting force, give the cutting speed too.";
    needs(cutting_speed => cutting_force = "500 N", cutting_speed = "leave out"):
        "A cutting speed needs a cutting force; leave it out with unit power or specific cutting force.";
    one_of(material = "4140-annealed", unit_power = "0.7 hp.min/in3", specific_force = "2000 N/mm2", cutting_force = "500 N"):
        "Give a work material, or the unit power, the specific cutting force or the cutting force of the cut.";
} }

impl Calculator for Power {
    const ID: &'static str = "speeds/power";
    const TITLE: &'static str = "Cutting power";
    const ABOUT: &'static str = "The power that a cut takes, by unit power and by specific cutting force side by side, with \
        the torque and the load on the motor.";
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
        "A dynamometer under a winch bracket shows 800 N at 60 m/min.":
            cutting_force = "800 N", cutting_speed = "60 m/min", spindle_power = "1.5 kW";
        "A tool maker gives 0.8 hp for a cubic inch a minute, and 2200 N/mm2, for a cut in a pump shaft.":
            unit_power = "0.8 hp.min/in3", specific_force = "2200 N/mm2", removal_rate = "1.2 in3/min",
            spindle_speed = "450 rpm";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "The metal takes {unit_power}, and the cut removes {removal_rate}. What power does it need at the tool?" => "power":
            { unit_power = "0.3 hp·min/in³" | "0.6 hp·min/in³" | "0.75 hp·min/in³" | "0.9 hp·min/in³",
              removal_rate = "0.5 in³/min" | "1 in³/min" | "1.5 in³/min", units = "inch" };
        1 "The chip pushes on the tool with {cutting_force} at {cutting_speed}. What power is that at the tool?" => "power":
            { cutting_force = "100 lbf" | "200 lbf" | "250 lbf", cutting_speed = "80 ft/min" | "100 ft/min" | "120 ft/min",
              units = "inch" }
            { cutting_force = "500 N" | "800 N" | "1200 N", cutting_speed = "25 m/min" | "30 m/min" | "60 m/min",
              units = "metric" };
        2 "A cut removes {removal_rate} with a specific cutting force of {specific_force}. What power does it need at the \
            tool?" => "power":
            { removal_rate = "10 cm³/min" | "15 cm³/min" | "20 cm³/min",
              specific_force = "1500 N/mm²" | "2000 N/mm²" | "2500 N/mm²", units = "metric" };
        2 "The metal takes {unit_power}, and the cut removes {removal_rate} at {spindle_speed}. What torque is on the spindle?" => "torque":
            { unit_power = "0.6 hp·min/in³" | "0.75 hp·min/in³", removal_rate = "0.5 in³/min" | "1 in³/min",
              spindle_speed = "160 rpm" | "224 rpm" | "315 rpm", units = "inch" };
        2 "{efficiency} of the motor's power reaches the tool. The metal takes {unit_power}, and the cut removes {removal_rate}. \
            What power does it draw from the motor?" => "motor_power":
            { efficiency = "75 percent" | "80 percent" | "85 percent", unit_power = "0.6 hp·min/in³" | "0.75 hp·min/in³",
              removal_rate = "0.5 in³/min" | "1 in³/min" | "1.5 in³/min", units = "inch" };
        3 "A {spindle_power} motor gives {efficiency} of its power to the tool. A cut removes {removal_rate} at \
            {specific_force}. What share of the available power does it take?" => "load":
            { spindle_power = "1.5 kW", efficiency = "75 percent" | "80 percent" | "85 percent",
              removal_rate = "10 cm³/min" | "15 cm³/min" | "20 cm³/min",
              specific_force = "1500 N/mm²" | "2000 N/mm²" | "2500 N/mm²" };
    };
    type Input = CuttingPowerInput;
    type Output = CuttingPowerResult;

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        if let Some(material) = &input.material {
            tell_material(material.0, record);
        }
        record.source("kinematics", "power is torque times turns, force times speed, and specific force times volume");
        let by_unit = by_unit_power(input, record);
        let by_specific = by_specific_force(input, record);
        if let Some((unit, (_, specific))) = by_unit.zip(by_specific) {
            compare_methods(unit, specific, record);
        }
        let by_force = input.cutting_force.zip(input.cutting_speed).map(|(force, speed)| {
            step!(record, "Power at the tool by the cutting force", P3: power_by_force = F * V,
                F = cutting_force: force, V = cutting_speed: speed)
        });
        if input.material.is_none() && (input.operation.is_some() || input.feed.is_some() || input.tool_state.is_some())
        {
            record.note(
                "material_only",
                "Operation, feed, chip thickness and wear of the tool change nothing without a work material.",
            );
        }
        let power = main_power(by_unit, by_specific.map(|(_, power)| power), by_force, record)?;
        let difference = by_unit.zip(by_specific).map(|(unit, (_, specific))| {
            step!(record, "How much more or less that gives", δ: difference = P2 / P1 - ratio(1.0),
                P2 = power_by_specific_force: specific, P1 = power: unit)
        });
        let speed = input.spindle_speed.map(|speed| speed.found());
        let torque = input.spindle_speed.map(|speed| {
            step!(record, "Torque at the spindle", M: torque = P / (2.0 * π * n), P = power, n = spindle_speed: speed)
        });
        let load = input.motor.load(power, speed, record);
        let depth_fall = load.depth_fall(record);
        record.caution(cautions::FORCES);
        let mut limited_by = Vec::new();
        load.limit(&mut limited_by);
        tell_limits(&limited_by, &[("P", "power", power.into())], record);
        Ok(CuttingPowerResult {
            power,
            power_by_specific_force: by_specific.map(|(_, power)| power),
            power_by_force: by_force,
            difference,
            specific_force: by_specific.map(|(force, _)| force),
            torque,
            load,
            limited_by,
            depth_fall,
        })
    }
}

/// By unit power: the one stated, or the material's with its factors.
fn by_unit_power(input: &CuttingPowerInput, record: &mut Record) -> Option<FoundPower> {
    let rate = input.removal_rate?;
    if let Some(unit) = input.unit_power {
        return Some(step!(record, "Power at the cutter by the given unit power", P: power = u * Q,
            u = unit_power: unit, Q = removal_rate: rate));
    }
    let (material, feed) = input.material.as_ref().zip(input.feed)?;
    let removal = Removal {
        rate: rate.found(),
        feed_of: "feed",
        feed: feed.into(),
        feed_si: feed.si(),
        wear: if input.tool_state(record) == ToolState::Sharp { "sharp" } else { input.factors().0 },
    };
    Some(unit_power(material, &removal, record))
}

/// By specific cutting force: the one stated, or the material's at the chip.
fn by_specific_force(input: &CuttingPowerInput, record: &mut Record) -> Option<(FoundSpecificForce, FoundPower)> {
    let rate = input.removal_rate?;
    let force = match input.specific_force {
        Some(stated) => {
            let step = record.choose("Specific cutting force", "as stated").with("kc", "specific_force", stated);
            step.gives("specific_force", stated.found());
            stated.found()
        }
        None => {
            let (material, feed) = input.material.as_ref().zip(input.feed)?;
            let chip = match input.chip {
                Some(chip) => chip,
                None => {
                    let says = "The chip is assumed to be as thick as the feed, as with an edge square to it; in milling \
                                it is thinner.";
                    record.assume("chip", &feed, says);
                    feed
                }
            };
            specific_force(material, ("chip", chip.found()), input.factors().1, record)?
        }
    };
    let power = step!(record, "Power at the tool by specific cutting force", P: power_by_specific_force = kc * Q,
        kc = specific_force: force, Q = removal_rate: rate);
    Some((force, power))
}

/// The power that the spindle must have: the first there is.
fn main_power(
    by_unit: Option<FoundPower>,
    by_specific: Option<FoundPower>,
    by_force: Option<FoundPower>,
    record: &mut Record,
) -> Result<FoundPower, Refusal> {
    if let Some(power) = by_unit {
        return Ok(power);
    }
    let first = [("power_by_specific_force", by_specific), ("power_by_force", by_force)];
    let Some((of, power)) = first.into_iter().find_map(|(of, power)| Some((of, power?))) else {
        let ways = [("unit_power", "0.7 hp.min/in3".to_owned())];
        return Err(Refusal::no_answer("No power can be found from these fields.", &ways));
    };
    record.choose("Power at the tool", "the only one there is").with("P", of, power).gives("power", power);
    Ok(power)
}

impl CuttingPowerInput {
    /// The name in the table of wear factors, and the factor on the specific force.
    fn factors(&self) -> (&'static str, &'static ProcessFactor) {
        self.operation.unwrap_or(PowerOperation::Turning).factors()
    }
}
