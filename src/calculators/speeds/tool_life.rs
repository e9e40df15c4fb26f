//! Tool life after Taylor, V × T^n = C: life from speed and speed from life, the constants from two
//! tests, and the lives of greatest output and least cost.

use crate::calculators::prelude::*;
use crate::working::formula::Symbol;
use uom::si::f64::Time;

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
    /// Time to change the tool, 0 where a new one stands ready; greatest output and least cost need it.
    pub change_time: Option<IdleTime>,
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

rules! { check_values(ToolLifeInput) {
    never(|input| input.exponent_of_tests().is_some_and(|exponent| !(exponent > 1e-3 && exponent < 1.0)),
        Code::Conflict, first_life = "5 min", second_life = "41 min"):
        "The faster of two tests must have the shorter life, and by more than the speeds differ.";
    never(|input| input.exponent.is_some_and(|exponent| exponent.get() >= 1.0), Code::ValueOutOfRange,
        exponent = "0.125"):
        "The exponent is below 1: 0.1 to 0.15 for high-speed steel, 0.2 to 0.3 for carbide.";
    needs(edge_cost => hourly_rate = "60"): "The least cost needs edge_cost and hourly_rate.";
    needs(hourly_rate => edge_cost = "5"): "The least cost needs edge_cost and hourly_rate.";
    needs(edge_cost => change_time = "2 min"): "The least cost needs the time to change the tool.";
    not_both(cutting_speed, tool_life): "A speed gives its life, or a life its speed: give one of them.";
    never(|input| input.change_time.is_some_and(|change| change.si() == 0.0) && input.edge_cost.is_none()
            && input.cutting_speed.is_none() && input.tool_life.is_none(), Code::Conflict,
        change_time = "2 min", edge_cost = "5", hourly_rate = "60"):
        "A change that takes no time sets no speed by itself: give edge_cost and hourly_rate too, or a time above 0.";
    never(|input| input.cutting_speed.is_none() && input.tool_life.is_none() && input.change_time.is_none()
            && input.first_speed.is_none(), Code::FieldMissing,
        cutting_speed = "100 ft/min", tool_life = "60 min", change_time = "2 min"):
        "Give a cutting speed, a tool life, or the time to change the tool.";
} }

/// Refuses constants and tests that are not whole, or that contradict each other.
fn check(input: &ToolLifeInput) -> Result<(), ValidationError> {
    let constants = stated!(input: speed_for_one_minute = "200 ft/min", exponent = "0.125");
    let tests = stated!(input: first_speed = "160 m/min", first_life = "5 min", second_speed = "100 m/min",
        second_life = "41 min");
    let of_tests = to_leave_out(&tests);
    if !of_tests.is_empty() && !to_leave_out(&constants).is_empty() {
        return Err(rule_broken(Code::Conflict, "Give the constants or two tests, not both.", &of_tests));
    }
    let missing = if of_tests.is_empty() { to_give(&constants) } else { to_give(&tests) };
    if !missing.is_empty() {
        let says = "Give speed_for_one_minute and exponent, or two tests with speed and life.";
        return Err(rule_broken(Code::FieldMissing, says, &missing));
    }
    check_values(input)
}

impl ToolLifeInput {
    /// The speeds of both tests and the lives.
    fn tests(&self) -> Option<(CuttingSpeed, CuttingSpeed, WorkTime, WorkTime)> {
        Some((self.first_speed?, self.second_speed?, self.first_life?, self.second_life?))
    }

    fn exponent_of_tests(&self) -> Option<f64> {
        let (first, second, short, long) = self.tests()?;
        Some((first.get() / second.get()).si().ln() / (long.get() / short.get()).si().ln())
    }
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
    /// The speed for a life: the step that gives `field`.
    fn speed(
        &self,
        (of, life): (&'static str, impl Symbol<Value = Time> + Into<Shown> + Copy),
        field: &'static str,
        record: &mut Record,
    ) -> FoundCuttingSpeed {
        step!(record, "Cutting speed for that life", V: (field) = C * power(t1 / T, n),
            C = speed_for_one_minute: self.constant, t1 = "constant:one_minute": minute(), T = (of): life,
            n = exponent: self.exponent)
    }
}

impl Calculator for ToolLife {
    const ID: &'static str = "speeds/tool-life";
    const TITLE: &'static str = "Tool life";
    const ABOUT: &'static str = "How long a tool lasts at a cutting speed, or the speed for a wanted life, by Taylor's law; \
        its constants from two tests, and the lives of greatest output and least cost.";
    const TASK: Task = Task::Cut;
    const ANOTHER_CHECK: &'static str =
        "Note the minutes of a few edges up to the same wear: they are the law for this work and tool.";
    const WORDS: &'static str = "Taylor, wear, minutes, exponent, economic speed, least cost, production, edge";
    const EXAMPLES: &'static [Example] = examples! {
        "A high-speed steel tool for winch shafts that would last one minute at 200 ft/min, run at 100 ft/min.":
            speed_for_one_minute = "200 ft/min", exponent = "0.125", cutting_speed = "100 ft/min",
            change_time = "3 min", edge_cost = "2", hourly_rate = "60";
        "A pump maker's carbide lasted 5 min at 160 m/min and 41 min at 100 m/min; what speed gives 30 min?":
            first_speed = "160 m/min", first_life = "5 min", second_speed = "100 m/min", second_life = "41 min",
            tool_life = "30 min";
    };
    type Input = ToolLifeInput;
    type Output = ToolLifeResult;
    const LEADS: &'static [&'static str] = &["cutting_speed", "tool_life"];

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("taylor_law", "speed times life to the power of n is constant");
        record.caution(cautions::TOOL_LIFE);
        let law = find_law(input, record)?;
        let tool_life = match input.cutting_speed {
            Some(speed) => Some(life(&law, speed, record)?),
            None => None,
        };
        let cutting_speed = input.tool_life.map(|life| law.speed(("tool_life", life), "cutting_speed", record));
        // Where a change takes no time, the shorter the life the greater the output, without a greatest.
        let none = input.change_time.is_some_and(|change| change.si() == 0.0);
        if none {
            notes!(record => no_change_time:
                "A change that takes no time sets no limit to the speed of the greatest output; what edges cost does.");
        }
        let output = input.change_time.filter(|_| !none).map(|change| {
            record.source("taylor_law", "lives of greatest output and least cost follow from it");
            let life: FoundWorkTime = step!(record, "Tool life of the greatest output",
                T: life_for_output = (1.0 / n - 1.0) * tc, n = exponent: law.exponent, tc = change_time: change);
            (life, law.speed(("life_for_output", life), "speed_for_output", record))
        });
        let costs = input.change_time.zip(input.edge_cost.zip(input.hourly_rate));
        let cost = costs.map(|(change, (edge, rate))| {
            let life: FoundWorkTime = step!(record, "Tool life of the least cost",
                T: life_for_cost = (1.0 / n - 1.0) * (tc + h * Ce / R), n = exponent: law.exponent,
                tc = change_time: change, h = "constant:one_hour": WorkTime::stated(1.0, Unit::Hour),
                Ce = edge_cost: edge.get(), R = hourly_rate: rate.get());
            (life, law.speed(("life_for_cost", life), "speed_for_cost", record))
        });
        let (life_for_output, speed_for_output) = output.unzip();
        let (life_for_cost, speed_for_cost) = cost.unzip();
        Ok(ToolLifeResult {
            speed_for_one_minute: law.constant,
            exponent: law.exponent,
            tool_life,
            cutting_speed,
            life_for_output,
            speed_for_output,
            life_for_cost,
            speed_for_cost,
        })
    }
}

/// The law with the constants stated or found; records the steps that give `speed_for_one_minute` and
/// `exponent`.
fn find_law(input: &ToolLifeInput, record: &mut Record) -> Result<Law, Refusal> {
    if let Some((constant, exponent)) = input.speed_for_one_minute.zip(input.exponent) {
        let (field, exponent) = ("speed_for_one_minute", exponent.get());
        record.choose("The constant", "as stated").with("C", field, constant).gives(field, constant.found());
        record.choose("The exponent", "as stated").with("n", "exponent", exponent).gives("exponent", exponent);
        return Ok(Law { constant: constant.found(), exponent });
    }
    let Some((first, second, short, long)) = input.tests() else {
        return Err(Refusal::no_answer("Two tests are needed.", &[("first_speed", "160 m/min".to_owned())]));
    };
    let exponent: f64 = step!(record, "The exponent", n: exponent = ln(V1 / V2) / ln(T2 / T1),
        V1 = first_speed: first, V2 = second_speed: second, T1 = first_life: short, T2 = second_life: long);
    let constant = step!(record, "The constant", C: speed_for_one_minute = V1 * power(T1 / t1, n),
        V1 = first_speed: first, T1 = first_life: short, t1 = "constant:one_minute": minute(), n = exponent);
    Ok(Law { constant, exponent })
}

/// The life at a cutting speed.
fn life(law: &Law, speed: CuttingSpeed, record: &mut Record) -> Result<FoundWorkTime, Refusal> {
    let life: FoundWorkTime = step!(record, "Tool life at that speed", T: tool_life = t1 * power(C / V, 1.0 / n),
        t1 = "constant:one_minute": minute(), C = speed_for_one_minute: law.constant, V = cutting_speed: speed,
        n = exponent: law.exponent);
    if (1e-6..1e12).contains(&life.si()) {
        return Ok(life);
    }
    let says =
        "That lies so far from the constants that no tool life comes out; the law holds near the tested speeds only.";
    Err(Refusal::no_answer(says, &[("cutting_speed", crate::machine::as_stated(&speed))]))
}
