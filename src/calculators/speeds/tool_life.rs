//! Tool life after Taylor, V × T^n = C: life from speed and speed from life, the constants from one test and a known
//! exponent or from two tests, and the lives of greatest output and least cost; for another feed and depth of cut by the
//! extended law, V × T^n × f^a × d^b = C.

use crate::calculators::prelude::*;
use crate::suggestion::{Way, value};
use crate::working::formula::Symbol;
use uom::si::f64::Time;

/// The calculator.
pub struct ToolLife;

/// What the tool life calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct ToolLifeInput {
    /// The constant C of Taylor's law, the cutting speed at which the tool lasts one minute; found from tests if absent.
    #[label("Speed for one minute (C)")]
    pub speed_for_one_minute: Option<CuttingSpeed>,
    /// The exponent n of Taylor's law, below 1; found from two tests if absent. One test needs it.
    #[label("Exponent (n)")]
    pub exponent: Option<PlainNumber>,
    /// Cutting speed for which to find the tool life.
    pub cutting_speed: Option<CuttingSpeed>,
    /// Tool life for which to find the cutting speed.
    pub tool_life: Option<WorkTime>,
    /// Cutting speed of the first test.
    #[label("First test, cutting speed")]
    pub first_speed: Option<CuttingSpeed>,
    /// Tool life of the first test.
    #[label("First test, tool life")]
    pub first_life: Option<WorkTime>,
    /// Cutting speed of the second test.
    #[label("Second test, cutting speed")]
    pub second_speed: Option<CuttingSpeed>,
    /// Tool life of the second test.
    #[label("Second test, tool life")]
    pub second_life: Option<WorkTime>,
    /// Feed of the tests or of the constant; needed with the feed of the cut and the feed exponent.
    #[label("Feed of the tests")]
    pub tested_feed: Option<ChipThickness>,
    /// Feed of the cut per revolution or per tooth, as a length; the feed of the tests if absent.
    #[label("Feed of the cut")]
    pub feed: Option<ChipThickness>,
    /// The exponent a of the feed in V T^n f^a d^b = C.
    #[label("Feed exponent (a)")]
    pub feed_exponent: Option<PlainNumber>,
    /// Depth of cut of the tests or of the constant; needed with the depth of cut and the depth exponent.
    #[label("Depth of cut of the tests")]
    pub tested_depth: Option<Size>,
    /// Depth of the cut; the depth of the tests if absent.
    pub depth_of_cut: Option<Size>,
    /// The exponent b of the depth of cut in V T^n f^a d^b = C.
    #[label("Depth exponent (b)")]
    pub depth_exponent: Option<PlainNumber>,
    /// Time to change the tool, 0 where a new one stands ready; highest output and lowest cost need it.
    #[label("Time to change the tool")]
    pub change_time: Option<IdleTime>,
    /// Cost of a cutting edge; lowest cost needs it.
    #[label("Cost of a cutting edge")]
    pub edge_cost: Option<PlainNumber>,
    /// Cost of the machine and its operator for an hour, in the same money; lowest cost needs it.
    #[label("Cost of an hour")]
    pub hourly_rate: Option<PlainNumber>,
}

/// What the tool life calculator gives.
#[derive(Debug, Gives)]
pub struct ToolLifeResult {
    /// The constant C of Taylor's law.
    #[label("Speed for one minute (C)")]
    pub speed_for_one_minute: FoundCuttingSpeed,
    /// The constant for the feed and depth of this cut, where they are not those of the tests.
    #[label("C for this feed and depth")]
    pub speed_for_one_minute_here: Option<FoundCuttingSpeed>,
    /// The exponent n of Taylor's law.
    #[label("Exponent (n)")]
    pub exponent: f64,
    /// Tool life at the cutting speed given.
    #[needs(cutting_speed)]
    pub tool_life: Option<FoundWorkTime>,
    /// Cutting speed for the tool life given.
    #[needs(tool_life)]
    pub cutting_speed: Option<FoundCuttingSpeed>,
    /// Tool life for the highest output.
    #[label("Life for highest output")]
    #[needs(change_time)]
    pub life_for_output: Option<FoundWorkTime>,
    /// Cutting speed for the highest output.
    #[label("Speed for highest output")]
    #[needs(change_time)]
    pub speed_for_output: Option<FoundCuttingSpeed>,
    /// Tool life for the lowest cost.
    #[label("Life for lowest cost")]
    #[needs(change_time, edge_cost, hourly_rate)]
    pub life_for_cost: Option<FoundWorkTime>,
    /// Cutting speed for the lowest cost.
    #[label("Speed for lowest cost")]
    #[needs(change_time, edge_cost, hourly_rate)]
    pub speed_for_cost: Option<FoundCuttingSpeed>,
}

rules! { check_values(ToolLifeInput) {
    never(|input| input.feed_exponent.is_some_and(|exponent| exponent.get() > 1.0), Code::ValueOutOfRange,
        feed_exponent = "0.5"): "The feed exponent is at most 1.";
    never(|input| input.depth_exponent.is_some_and(|exponent| exponent.get() > 1.0), Code::ValueOutOfRange,
        depth_exponent = "0.15"): "The depth exponent is at most 1.";
    never(|input| input.exponent.is_some_and(|exponent| exponent.get() >= 1.0), Code::ValueOutOfRange,
        exponent = "0.125"):
        "The exponent is below 1: 0.1 to 0.15 for high-speed steel, 0.2 to 0.3 for carbide.";
    needs(edge_cost => hourly_rate = "60"): "For the lowest cost, give both the cost of a cutting edge and the cost of an hour.";
    needs(hourly_rate => edge_cost = "5"): "For the lowest cost, give both the cost of a cutting edge and the cost of an hour.";
    needs(edge_cost => change_time = "2 min"): "For the lowest cost, give the time to change the tool too.";
    not_both(cutting_speed, tool_life): "Give the cutting speed or the tool life, not both; one follows from the other.";
    never(|input| input.change_time.is_some_and(|change| change.si() == 0.0) && input.edge_cost.is_none()
            && input.cutting_speed.is_none() && input.tool_life.is_none(), Code::Conflict,
        change_time = "2 min", edge_cost = "5", hourly_rate = "60"):
        "With no time to change the tool, give the cost of a cutting edge and of an hour too, or give a time above 0.";
    never(|input| input.cutting_speed.is_none() && input.tool_life.is_none() && input.change_time.is_none()
            && input.first_speed.is_none(), Code::FieldMissing,
        cutting_speed = "100 ft/min", tool_life = "60 min", change_time = "2 min"):
        "Give a cutting speed, a tool life, or the time to change the tool.";
} }

/// Refuses constants and tests that are not whole, or that contradict each other.
fn check(input: &ToolLifeInput) -> Result<(), ValidationError> {
    let constants = stated!(input: speed_for_one_minute = "200 ft/min", exponent = "0.125");
    let first = stated!(input: first_speed = "160 m/min", first_life = "5 min");
    let second = stated!(input: second_speed = "100 m/min", second_life = "41 min");
    let given = |fields: &[Stated]| !to_leave_out(fields).is_empty();
    let tests = [first, second].concat();
    if input.speed_for_one_minute.is_some() && given(&tests) {
        return Err(rule_broken(Code::Conflict, "Give the constant or the tests, not both.", &to_leave_out(&tests)));
    }
    if input.exponent.is_some() && given(&second) {
        let says = "The exponent follows from two tests: give one test and the exponent, or two tests.";
        let mut ways = to_leave_out(&second);
        ways.push(("exponent", "leave out"));
        return Err(rule_broken(Code::Conflict, says, &ways));
    }
    let missing = match (given(&first) || given(&second), input.exponent.is_some()) {
        (false, _) => to_give(&constants),
        (true, true) => to_give(&first),
        (true, false) => to_give(&tests),
    };
    if !missing.is_empty() {
        let says = "Give the constant and the exponent, one test and the exponent, or two tests with speed and life.";
        return Err(rule_broken(Code::FieldMissing, says, &missing));
    }
    for (fields, says) in [
        (
            stated!(input: tested_feed = "0.25 mm", feed = "0.4 mm", feed_exponent = "0.5"),
            "For another feed, give the feed of the tests, the feed of the cut and the feed exponent.",
        ),
        (
            stated!(input: tested_depth = "2 mm", depth_of_cut = "3 mm", depth_exponent = "0.15"),
            "For another depth, give the depth of cut of the tests, the depth of cut and the depth exponent.",
        ),
    ] {
        let missing = to_give(&fields);
        if given(&fields) && !missing.is_empty() {
            return Err(rule_broken(Code::FieldMissing, says, &missing));
        }
    }
    check_tests(input)?;
    check_values(input)
}

/// Refuses two tests that no exponent below 1 joins; one of a quarter does with the lives to try.
fn check_tests(input: &ToolLifeInput) -> Result<(), ValidationError> {
    let is_wrong = input.exponent_of_tests().is_some_and(|exponent| !(exponent > 1e-3 && exponent < 1.0));
    let Some((first, second, short, long)) = input.tests().filter(|_| is_wrong) else { return Ok(()) };
    let says = "The faster test must have the shorter tool life, by a larger ratio than that of the speeds.";
    let faster = (first.get() / second.get()).si();
    if (faster - 1.0).abs() < 0.01 {
        let twice = value(2.0 * first.get().si(), second.quantity().unit, Way::Near);
        return Err(rule_broken(Code::Conflict, says, &[("second_speed", &twice)]));
    }
    let longer = faster.powi(4);
    let [first_life, second_life] = [long.get().si() / longer, short.get().si() * longer];
    let ways = [("first_life", first_life, short), ("second_life", second_life, long)];
    let ways = ways.map(|(field, life, like)| (field, value(life, like.quantity().unit, Way::Near)));
    rule_broken_by(says, &ways)
}

fn rule_broken_by(says: &'static str, ways: &[(&'static str, String)]) -> Result<(), ValidationError> {
    let ways: Vec<(&str, &str)> = ways.iter().map(|(field, good)| (*field, good.as_str())).collect();
    Err(rule_broken(Code::Conflict, says, &ways))
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
    /// The field of the constant.
    of: &'static str,
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
            C = (self.of): self.constant, t1 = "constant:one_minute": minute(), T = (of): life,
            n = exponent: self.exponent)
    }
}

impl Calculator for ToolLife {
    const ID: &'static str = "speeds/tool-life";
    const TITLE: &'static str = "Tool life";
    const ABOUT: &'static str = "How long a tool lasts at a cutting speed, or the speed for a wanted life, by Taylor's law; \
        its constants from two tests, and the lives for highest output and lowest cost.";
    const TASK: Task = Task::Cut;
    const ANOTHER_CHECK: &'static str =
        "Note the minutes of a few edges up to the same wear: they give the law for this work and tool.";
    const WORDS: &'static str = "Taylor, wear, minutes, exponent, economic speed, least cost, production, edge";
    const EXAMPLES: &'static [Example] = examples! {
        "A high-speed steel tool for winch shafts that would last one minute at 200 ft/min, run at 100 ft/min.":
            speed_for_one_minute = "200 ft/min", exponent = "0.125", cutting_speed = "100 ft/min",
            change_time = "3 min", edge_cost = "2", hourly_rate = "60";
        "A pump maker's carbide lasted 5 min at 160 m/min and 41 min at 100 m/min; what speed gives 30 min?":
            first_speed = "160 m/min", first_life = "5 min", second_speed = "100 m/min", second_life = "41 min",
            tool_life = "30 min";
        "One edge lasted 20 min at 90 m/min in a pump shaft; the exponent is known, and feed and depth are to be larger.":
            first_speed = "90 m/min", first_life = "20 min", exponent = "0.25", cutting_speed = "80 m/min",
            tested_feed = "0.25 mm", feed = "0.4 mm", feed_exponent = "0.5", tested_depth = "2 mm",
            depth_of_cut = "3 mm", depth_exponent = "0.15";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "A high-speed steel tool would last one minute at {speed_for_one_minute}; its Taylor exponent is {exponent}. How long does \
            it last at {cutting_speed}?" => "tool_life":
            { speed_for_one_minute = "180 ft/min" | "200 ft/min", exponent = "0.125",
              cutting_speed = "100 ft/min" | "110 ft/min" | "120 ft/min" }
            { speed_for_one_minute = "55 m/min" | "60 m/min", exponent = "0.125",
              cutting_speed = "30 m/min" | "32 m/min" | "36 m/min" };
        2 "A tool would last one minute at {speed_for_one_minute}, with a Taylor exponent of {exponent}. What cutting speed lets it \
            last {tool_life}?" => "cutting_speed":
            { speed_for_one_minute = "180 ft/min" | "200 ft/min", exponent = "0.125", tool_life = "30 min" | "60 min" | "90 min",
              units = "inch" }
            { speed_for_one_minute = "240 m/min" | "300 m/min", exponent = "0.25", tool_life = "15 min" | "30 min" | "45 min",
              units = "metric" };
        2 "An edge lasted {first_life} at {first_speed} in a pump shaft; the Taylor exponent is {exponent}. How long does one last at \
            {cutting_speed}?" => "tool_life":
            { first_life = "15 min" | "20 min", first_speed = "90 m/min" | "100 m/min", exponent = "0.25",
              cutting_speed = "80 m/min" | "110 m/min" }
            { first_life = "15 min" | "20 min", first_speed = "300 ft/min", exponent = "0.25",
              cutting_speed = "250 ft/min" | "350 ft/min" };
        3 "Edges lasted {first_life} at {first_speed} and {second_life} at {second_speed}. What cutting speed lets one last \
            {tool_life}?" => "cutting_speed":
            { first_life = "5 min" | "6 min", first_speed = "160 m/min", second_life = "40 min" | "45 min",
              second_speed = "100 m/min", tool_life = "15 min" | "20 min" | "30 min", units = "metric" }
            { first_life = "5 min" | "6 min", first_speed = "500 ft/min", second_life = "40 min" | "45 min",
              second_speed = "320 ft/min", tool_life = "15 min" | "20 min" | "30 min", units = "inch" };
        3 "Changing the tool takes {change_time}. Its Taylor exponent is {exponent}. What tool life gives the highest output?"
            => "life_for_output":
            { change_time = "1 min" | "2 min" | "3 min" | "4 min", exponent = "0.125" | "0.2" | "0.25",
              speed_for_one_minute = "300 ft/min" };
    };
    type Input = ToolLifeInput;
    type Output = ToolLifeResult;
    const LEADS: &'static [&'static str] = &["cutting_speed", "tool_life"];

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("taylor_law", "speed times life to the power of n is constant");
        record.caution(cautions::TOOL_LIFE);
        let tested = find_law(input, record)?;
        let law = for_this_cut(input, &tested, record);
        let tool_life = match input.cutting_speed {
            Some(speed) => Some(life(&law, speed, record)?),
            None => None,
        };
        let cutting_speed = input.tool_life.map(|life| law.speed(("tool_life", life), "cutting_speed", record));
        // Where a change takes no time, the shorter the life the greater the output, without a greatest.
        let none = input.change_time.is_some_and(|change| change.si() == 0.0);
        if none {
            notes!(record => no_change_time:
                "With no time to change the tool, the highest output has no best speed; the cost of edges sets the limit.");
        }
        let output = input.change_time.filter(|_| !none).map(|change| {
            record.source("taylor_law", "lives for highest output and lowest cost follow from it");
            let life: FoundWorkTime = step!(record, "Tool life for the highest output",
                T: life_for_output = (1.0 / n - 1.0) * tc, n = exponent: law.exponent, tc = change_time: change);
            (life, law.speed(("life_for_output", life), "speed_for_output", record))
        });
        let costs = input.change_time.zip(input.edge_cost.zip(input.hourly_rate));
        let cost = costs.map(|(change, (edge, rate))| {
            let life: FoundWorkTime = step!(record, "Tool life for the lowest cost",
                T: life_for_cost = (1.0 / n - 1.0) * (tc + h * Ce / R), n = exponent: law.exponent,
                tc = change_time: change, h = "constant:one_hour": WorkTime::stated(1.0, Unit::Hour),
                Ce = edge_cost: edge.get(), R = hourly_rate: rate.get());
            (life, law.speed(("life_for_cost", life), "speed_for_cost", record))
        });
        let (life_for_output, speed_for_output) = output.unzip();
        let (life_for_cost, speed_for_cost) = cost.unzip();
        Ok(ToolLifeResult {
            speed_for_one_minute: tested.constant,
            speed_for_one_minute_here: (law.of != tested.of).then_some(law.constant),
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
        return Ok(Law { of: field, constant: constant.found(), exponent });
    }
    if let (Some(first), Some(short), Some(exponent)) = (input.first_speed, input.first_life, input.exponent) {
        let exponent = exponent.get();
        record.choose("The exponent", "as stated").with("n", "exponent", exponent).gives("exponent", exponent);
        return Ok(of_test(first, short, exponent, record));
    }
    let Some((first, second, short, long)) = input.tests() else {
        return Err(Refusal::no_answer("Two tests are needed.", &[("first_speed", "160 m/min".to_owned())]));
    };
    let exponent: f64 = step!(record, "The exponent", n: exponent = ln(V1 / V2) / ln(T2 / T1),
        V1 = first_speed: first, V2 = second_speed: second, T1 = first_life: short, T2 = second_life: long);
    Ok(of_test(first, short, exponent, record))
}

/// The law of one test with its exponent.
fn of_test(first: CuttingSpeed, short: WorkTime, exponent: f64, record: &mut Record) -> Law {
    let constant = step!(record, "The constant", C: speed_for_one_minute = V1 * power(T1 / t1, n),
        V1 = first_speed: first, T1 = first_life: short, t1 = "constant:one_minute": minute(), n = exponent);
    Law { of: "speed_for_one_minute", constant, exponent }
}

/// The law for the feed and the depth of this cut.
fn for_this_cut(input: &ToolLifeInput, tested: &Law, record: &mut Record) -> Law {
    const HERE: &str = "speed_for_one_minute_here";
    let feeds = input.tested_feed.zip(input.feed).zip(input.feed_exponent);
    let depths = input.tested_depth.zip(input.depth_of_cut).zip(input.depth_exponent);
    let tested_constant = tested.constant;
    let constant = match (feeds, depths) {
        (None, None) => return Law { of: tested.of, constant: tested_constant, exponent: tested.exponent },
        (Some(((f0, f), a)), None) => step!(record, "The constant at this feed", Ch: (HERE) = C * power(f0 / f, a),
            C = speed_for_one_minute: tested_constant, f0 = tested_feed: f0, f = feed: f, a = feed_exponent: a.get()),
        (None, Some(((d0, d), b))) => step!(record, "The constant at this depth", Ch: (HERE) = C * power(d0 / d, b),
            C = speed_for_one_minute: tested_constant, d0 = tested_depth: d0, d = depth_of_cut: d,
            b = depth_exponent: b.get()),
        (Some(((f0, f), a)), Some(((d0, d), b))) => step!(record, "The constant at this feed and depth",
            Ch: (HERE) = C * power(f0 / f, a) * power(d0 / d, b), C = speed_for_one_minute: tested_constant,
            f0 = tested_feed: f0, f = feed: f, a = feed_exponent: a.get(), d0 = tested_depth: d0, d = depth_of_cut: d,
            b = depth_exponent: b.get()),
    };
    record.source("taylor_law", "with feed and depth: V T^n f^a d^b is constant");
    Law { of: HERE, constant, exponent: tested.exponent }
}

/// The life at a cutting speed.
fn life(law: &Law, speed: CuttingSpeed, record: &mut Record) -> Result<FoundWorkTime, Refusal> {
    let life: FoundWorkTime = step!(record, "Tool life at that speed", T: tool_life = t1 * power(C / V, 1.0 / n),
        t1 = "constant:one_minute": minute(), C = (law.of): law.constant, V = cutting_speed: speed,
        n = exponent: law.exponent);
    if (1e-6..1e12).contains(&life.si()) {
        return Ok(life);
    }
    let says = "The cutting speed is too far from the tested speeds to give a tool life; the law holds near them only.";
    // At the constant itself the tool lasts a minute, whatever the exponent.
    let unit = speed.quantity().unit;
    let good = CuttingSpeed::stated(law.constant.quantity().in_unit(unit), unit);
    Err(Refusal::no_answer(says, &[("cutting_speed", crate::machine::as_stated(&good))]))
}
