//! Tool life after Taylor, V × T^n = C: life from speed and speed from life, the constants from two
//! tests, and the lives of greatest output and least cost.

use crate::calculators::{Calculator, Example, Task};
use crate::cautions;
use crate::declared::{Asks, Gives};
use crate::fields::PlainNumber;
use crate::quantity::{CuttingSpeed, FoundCuttingSpeed, FoundWorkTime, SiValue, Unit, WorkTime};
use crate::refusal::{Code, Refusal, rule_broken};
use crate::working::{Record, Shown};
use validator::ValidationError;

mod constants;

/// The calculator.
pub struct ToolLife;

/// What the tool life calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct ToolLifeInput {
    /// The constant C: the cutting speed at which the tool lasts one minute; from two tests if absent.
    pub speed_for_one_minute: Option<CuttingSpeed>,
    /// The exponent n, below 1; from two tests if absent.
    pub exponent: Option<PlainNumber>,
    /// Cutting speed whose tool life is wanted.
    pub cutting_speed: Option<CuttingSpeed>,
    /// Tool life whose cutting speed is wanted.
    pub tool_life: Option<WorkTime>,
    /// Cutting speed of a first test.
    pub first_speed: Option<CuttingSpeed>,
    /// Tool life of the first test.
    pub first_life: Option<WorkTime>,
    /// Cutting speed of a second test.
    pub second_speed: Option<CuttingSpeed>,
    /// Tool life of the second test.
    pub second_life: Option<WorkTime>,
    /// Time to change the tool; greatest output and least cost need it.
    pub change_time: Option<WorkTime>,
    /// Cost of a cutting edge; least cost needs it.
    pub edge_cost: Option<PlainNumber>,
    /// Cost of the machine and its operator for an hour, in the same money; least cost needs it.
    pub hourly_rate: Option<PlainNumber>,
}

/// What the tool life calculator gives.
#[derive(Debug, Gives)]
pub struct ToolLifeResult {
    /// The constant C.
    pub speed_for_one_minute: FoundCuttingSpeed,
    /// The exponent n.
    pub exponent: f64,
    /// Tool life at cutting_speed.
    pub tool_life: Option<FoundWorkTime>,
    /// Cutting speed for tool_life.
    pub cutting_speed: Option<FoundCuttingSpeed>,
    /// Tool life of the greatest output.
    pub life_for_output: Option<FoundWorkTime>,
    /// Cutting speed of the greatest output.
    pub speed_for_output: Option<FoundCuttingSpeed>,
    /// Tool life of the least cost.
    pub life_for_cost: Option<FoundWorkTime>,
    /// Cutting speed of the least cost.
    pub speed_for_cost: Option<FoundCuttingSpeed>,
}

fn check(input: &ToolLifeInput) -> Result<(), ValidationError> {
    constants::check(input)?;
    if let Some(exponent) = input.exponent
        && exponent.get() >= 1.0
    {
        let says = "The exponent is below 1: 0.1 to 0.15 for high-speed steel, 0.2 to 0.3 for carbide.";
        return Err(rule_broken(Code::ValueOutOfRange, says, &[("exponent", "0.125")]));
    }
    if input.edge_cost.is_some() != input.hourly_rate.is_some() {
        let (field, value) = if input.edge_cost.is_some() { ("hourly_rate", "60") } else { ("edge_cost", "5") };
        return Err(rule_broken(Code::Conflict, "The least cost needs edge_cost and hourly_rate.", &[(field, value)]));
    }
    if input.edge_cost.is_some() && input.change_time.is_none() {
        return Err(rule_broken(
            Code::Conflict,
            "The least cost needs the time to change the tool.",
            &[("change_time", "2 min")],
        ));
    }
    if input.cutting_speed.is_some() && input.tool_life.is_some() {
        let ways = [("cutting_speed", "leave out"), ("tool_life", "leave out")];
        return Err(rule_broken(
            Code::Conflict,
            "A speed gives its life, or a life its speed: give one of them.",
            &ways,
        ));
    }
    let asked = input.cutting_speed.is_some() || input.tool_life.is_some() || input.change_time.is_some();
    if !asked && input.first_speed.is_none() {
        let ways = [("cutting_speed", "100 ft/min"), ("tool_life", "60 min"), ("change_time", "2 min")];
        return Err(rule_broken(
            Code::FieldMissing,
            "Give a cutting speed, a tool life, or the time to change the tool.",
            &ways,
        ));
    }
    Ok(())
}

/// One minute, the life that the constant C belongs to.
fn minute() -> FoundWorkTime {
    FoundWorkTime::stated(1.0, Unit::Minute)
}

/// The law with its constants as found.
struct Law {
    constant: FoundCuttingSpeed,
    exponent: f64,
}

impl Law {
    /// The life at a speed of SI units.
    fn life(&self, speed: f64) -> f64 {
        60.0 * (self.constant.get().si() / speed).powf(1.0 / self.exponent)
    }

    /// The speed for a life: the step that gives `field`.
    fn speed(
        &self,
        (of, life): (&'static str, Shown),
        si: f64,
        field: &'static str,
        record: &mut Record,
    ) -> FoundCuttingSpeed {
        let value = self.constant.get().si() * (60.0 / si).powf(self.exponent);
        let speed = FoundCuttingSpeed::of(SiValue::from_si(value));
        record
            .step("Cutting speed for that life", "V = C × (t1 / T) ^ n")
            .with("C", "speed_for_one_minute", self.constant)
            .with("t1", "constant:one_minute", minute())
            .with("T", of, life)
            .with("n", "exponent", self.exponent)
            .gives(field, speed);
        speed
    }
}

fn beyond(field: &'static str, value: &str) -> Refusal {
    let says =
        "That lies so far from the constants that no tool life comes out; the law holds near the tested speeds only.";
    Refusal::no_answer(says, &[(field, value.to_owned())])
}

impl Calculator for ToolLife {
    const ID: &'static str = "speeds/tool-life";
    const TITLE: &'static str = "Tool life";
    const ABOUT: &'static str = "How long a tool lasts at a cutting speed, or the speed for a wanted life, by Taylor's law; \
        its constants from two tests, and the lives of greatest output and least cost.";
    const TASK: Task = Task::Cut;
    const ANOTHER_CHECK: &'static str =
        "Note the minutes of a few edges up to the same wear: they are the law for this work and tool.";
    const WORDS: &'static [&'static str] =
        &["Taylor", "wear", "minutes", "exponent", "economic speed", "least cost", "production", "edge"];
    const EXAMPLES: &'static [Example] = &[
        Example {
            says: "A high-speed steel tool for winch shafts that would last one minute at 200 ft/min, run at 100 ft/min.",
            fields: &[
                ("speed_for_one_minute", "200 ft/min"),
                ("exponent", "0.125"),
                ("cutting_speed", "100 ft/min"),
                ("change_time", "3 min"),
                ("edge_cost", "2"),
                ("hourly_rate", "60"),
            ],
        },
        Example {
            says: "A pump maker's carbide lasted 5 min at 160 m/min and 41 min at 100 m/min; what speed gives 30 min?",
            fields: &[
                ("first_speed", "160 m/min"),
                ("first_life", "5 min"),
                ("second_speed", "100 m/min"),
                ("second_life", "41 min"),
                ("tool_life", "30 min"),
            ],
        },
    ];
    type Input = ToolLifeInput;
    type Output = ToolLifeResult;
    const LEADS: &'static [&'static str] = &["cutting_speed", "tool_life"];

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("taylor_law", "speed times life to the power of n is constant");
        record.caution(cautions::TOOL_LIFE);
        let law = constants::law(input, record)?;
        let tool_life = match input.cutting_speed {
            None => None,
            Some(speed) => {
                let life = law.life(speed.get().si());
                if !(1e-6..1e12).contains(&life) {
                    let near = crate::machine::as_stated(&speed);
                    return Err(beyond("cutting_speed", &near));
                }
                let life = FoundWorkTime::of(SiValue::from_si(life));
                record
                    .step("Tool life at that speed", "T = t1 × (C / V) ^ (1 / n)")
                    .with("t1", "constant:one_minute", minute())
                    .with("C", "speed_for_one_minute", law.constant)
                    .with("V", "cutting_speed", speed)
                    .with("n", "exponent", law.exponent)
                    .gives("tool_life", life);
                Some(life)
            }
        };
        let cutting_speed =
            input.tool_life.map(|life| law.speed(("tool_life", life.into()), life.get().si(), "cutting_speed", record));
        let factor = 1.0 / law.exponent - 1.0;
        let mut result = ToolLifeResult {
            speed_for_one_minute: law.constant,
            exponent: law.exponent,
            tool_life,
            cutting_speed,
            life_for_output: None,
            speed_for_output: None,
            life_for_cost: None,
            speed_for_cost: None,
        };
        let Some(change) = input.change_time else { return Ok(result) };
        record.source("taylor_law", "lives of greatest output and least cost follow from it");
        let life = FoundWorkTime::of(SiValue::from_si(factor * change.get().si()));
        record
            .step("Tool life of the greatest output", "T = (1 / n - 1) × tc")
            .with("n", "exponent", law.exponent)
            .with("tc", "change_time", change)
            .gives("life_for_output", life);
        let speed = law.speed(("life_for_output", life.into()), life.get().si(), "speed_for_output", record);
        result.life_for_output = Some(life);
        result.speed_for_output = Some(speed);
        if let Some((edge, rate)) = input.edge_cost.zip(input.hourly_rate) {
            let hour = WorkTime::stated(1.0, Unit::Hour);
            let seconds = factor * (change.get().si() + hour.get().si() * edge.get() / rate.get());
            let life = FoundWorkTime::of(SiValue::from_si(seconds));
            record
                .step("Tool life of the least cost", "T = (1 / n - 1) × (tc + h × Ce / R)")
                .with("n", "exponent", law.exponent)
                .with("tc", "change_time", change)
                .with("h", "constant:one_hour", hour)
                .with("Ce", "edge_cost", edge.get())
                .with("R", "hourly_rate", rate.get())
                .gives("life_for_cost", life);
            let speed = law.speed(("life_for_cost", life.into()), life.get().si(), "speed_for_cost", record);
            result.life_for_cost = Some(life);
            result.speed_for_cost = Some(speed);
        }
        Ok(result)
    }
}
