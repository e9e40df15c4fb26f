//! Hardness of steel from one scale to the others and to tensile strength, by every table that covers it, with the
//! range where the tables differ; never outside a table (copies of ASTM E140, SAE J417 and ISO 18265).

use crate::calculators::prelude::*;
use crate::reference::hardness::{Converted, Scale, convert, covered};

/// The calculator.
pub struct Hardness;

/// What the hardness calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check, check = check_one)]
pub struct HardnessInput {
    /// Rockwell C hardness.
    #[label("Rockwell C (HRC)")]
    pub rockwell_c: Option<PlainNumber>,
    /// Rockwell B hardness.
    #[label("Rockwell B (HRB)")]
    pub rockwell_b: Option<PlainNumber>,
    /// Vickers hardness, load 1 kgf or more.
    #[label("Vickers (HV)")]
    pub vickers: Option<PlainNumber>,
    /// Brinell hardness, 10 mm ball and 3000 kgf.
    #[label("Brinell (HB)")]
    pub brinell: Option<PlainNumber>,
    /// Tensile strength in place of a hardness.
    pub tensile_strength: Option<TensileStrength>,
}

/// What one table says.
#[derive(Debug, Gives)]
pub struct HardnessByTable {
    /// The table.
    pub table: &'static str,
    /// Rockwell C.
    #[label("HRC")]
    pub rockwell_c: Option<f64>,
    /// Rockwell B.
    #[label("HRB")]
    pub rockwell_b: Option<f64>,
    /// Vickers.
    #[label("HV")]
    pub vickers: Option<u32>,
    /// Brinell.
    #[label("HB")]
    pub brinell: Option<u32>,
    /// Tensile strength.
    pub tensile_strength: Option<FoundTensileStrength>,
    /// Whether its rows are recalled.
    pub from_memory: bool,
}

/// What the tables give on a scale.
#[derive(Debug, Gives)]
pub struct HardnessSpan {
    /// The least of the tables.
    pub least: f64,
    /// The greatest of the tables.
    pub greatest: f64,
}

/// What the tables give as a strength.
#[derive(Debug, Gives)]
pub struct TensileSpan {
    /// The least of the tables.
    pub least: FoundTensileStrength,
    /// The greatest of the tables.
    pub greatest: FoundTensileStrength,
}

/// What the hardness calculator gives.
#[derive(Debug, Gives)]
pub struct HardnessResult {
    /// Rockwell C by all tables.
    #[label("HRC")]
    pub rockwell_c: Option<HardnessSpan>,
    /// Rockwell B by all tables.
    #[label("HRB")]
    pub rockwell_b: Option<HardnessSpan>,
    /// Vickers by all tables.
    #[label("HV")]
    pub vickers: Option<HardnessSpan>,
    /// Brinell by all tables.
    #[label("HB")]
    pub brinell: Option<HardnessSpan>,
    /// Tensile strength by all tables; an estimate.
    #[label("Tensile strength, about")]
    pub tensile_strength: Option<TensileSpan>,
    /// What each table says.
    #[label("By table", "table")]
    pub by_table: Vec<HardnessByTable>,
}

const ONE: &str = "Give one hardness, or the tensile strength.";

rules! { check(HardnessInput) {
    one_of(rockwell_c = "58", rockwell_b = "90", vickers = "240", brinell = "228", tensile_strength = "770 MPa"): ONE;
} }

fn check_one(input: &HardnessInput) -> Result<(), ValidationError> {
    let all = stated!(input: rockwell_c, rockwell_b, vickers, brinell, tensile_strength);
    let given = to_leave_out(&all);
    if given.len() > 1 {
        return Err(rule_broken(Code::Conflict, "Give only one of them; the others are worked out.", &given[1..]));
    }
    Ok(())
}

impl Calculator for Hardness {
    const ID: &'static str = "measure/hardness";
    const TITLE: &'static str = "Hardness conversion";
    const ABOUT: &'static str = "Rockwell, Vickers and Brinell hardness of steel from one to the others and to tensile \
        strength, by each table that covers it, with the range where they differ.";
    const TASK: Task = Task::Check;
    const AT_THE_MACHINE: bool = false;
    const ANOTHER_CHECK: &'static str = "Test a block of known hardness on the same day, and try a file: it skates \
        above about 60 HRC and bites below.";
    const WORDS: &'static str = "HRC, HRB, HV, HB, HBW, BHN, Rockwell, Brinell, Vickers, tensile strength, heat treat, \
        hardened, ksi, MPa, conversion";
    const EXAMPLES: &'static [Example] = examples! {
        "A winch pawl is to be 45 HRC; the portable tester only reads Brinell.": rockwell_c = "45";
        "A pump shaft of 4140 tests 302 HB: what is that on the Rockwell C scale, and about how strong is it?":
            brinell = "302";
        "A mild steel bracket tests 80 HRB.": rockwell_b = "80";
        "A gear of a winch tests 400 HV.": vickers = "400";
        "A certificate of a stud gives 1000 MPa of tensile strength.": tensile_strength = "1000 MPa";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "A pawl tests {rockwell_c} HRC. What is that on the Vickers scale by ASTM E140?" => "by_table/0/vickers":
            { rockwell_c = "30" | "40" | "45" | "50" | "55" | "60" };
        2 "A shaft tests {vickers} HV. What is that on the Brinell scale by ASTM E140?" => "by_table/0/brinell":
            { vickers = "286" | "302" | "336" | "372" | "434" };
        2 "A shaft tests {brinell} HB. About how strong is it at least?" => "tensile_strength/least":
            { brinell = "241" | "262" | "285" | "302" | "331", units = "metric" };
        3 "A stud is certified for {tensile_strength}. What Brinell hardness goes with it by ASTM E140?"
            => "by_table/0/brinell":
            { tensile_strength = "800 MPa" | "900 MPa" | "1000 MPa" | "1200 MPa" };
    };
    type Input = HardnessInput;
    type Output = HardnessResult;
    const LEADS: &'static [&'static str] = &["vickers/least|brinell/least", "tensile_strength/least"];
    const CONTEXT: &'static [&'static str] = &[
        "{rockwell_c/least} to {rockwell_c/greatest} HRC",
        "{rockwell_b/least} to {rockwell_b/greatest} HRB",
        "{vickers/least} to {vickers/greatest} HV",
        "{brinell/least} to {brinell/greatest} HB",
        "{tensile_strength/least} to {tensile_strength/greatest}",
    ];

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        let asked = asked(input);
        let all = convert(asked.scale, asked.value);
        if all.is_empty() {
            return Err(asked.refusal());
        }
        for one in &all {
            for (source, trust) in &one.sources {
                record.source_of_row(source, one.table, trust);
            }
        }
        let by_table: Vec<HardnessByTable> = all.iter().map(row).collect();
        record
            .look_up("Tables that cover it", "hardness tables")
            .with("h", asked.field, asked.shown)
            .gives("by_table.table", column(&by_table, |row| row.table));
        let linear = "each table, linear between its rows, to the digits that it prints";
        tell!(record.look_up("Whether their rows are recalled", "hardness tables") => by_table.from_memory);
        let mut span = |what: &'static str, fields: [&'static str; 3], of: &dyn Fn(&HardnessByTable) -> Option<f64>| {
            let (least, greatest) = extremes(by_table.iter().filter_map(of))?;
            record.look_up(what, linear).gives(fields[0], column(&by_table, of));
            for (field, is, rule) in [(fields[1], least, "the least"), (fields[2], greatest, "the greatest")] {
                record.choose(what, rule).with("h", fields[0], column(&by_table, of)).gives(field, is);
            }
            Some(HardnessSpan { least, greatest })
        };
        let c = ["by_table.rockwell_c", "rockwell_c.least", "rockwell_c.greatest"];
        let b = ["by_table.rockwell_b", "rockwell_b.least", "rockwell_b.greatest"];
        let v = ["by_table.vickers", "vickers.least", "vickers.greatest"];
        let h = ["by_table.brinell", "brinell.least", "brinell.greatest"];
        let rockwell_c = span("Rockwell C", c, &|row| row.rockwell_c);
        let rockwell_b = span("Rockwell B", b, &|row| row.rockwell_b);
        let vickers = span("Vickers", v, &|row| row.vickers.map(f64::from));
        let brinell = span("Brinell", h, &|row| row.brinell.map(f64::from));
        let tensile_strength = match input.tensile_strength {
            Some(strength) => Some(tell_given(strength, record)),
            None => tell_tensile(&by_table, record),
        };
        tell_limits(&all, record);
        Ok(HardnessResult { rockwell_c, rockwell_b, vickers, brinell, tensile_strength, by_table })
    }
}

/// What was asked about.
struct AskedHardness {
    scale: Scale,
    field: &'static str,
    /// On the scale of the tables.
    value: f64,
    shown: Shown,
    /// The unit of a tensile strength.
    unit: Option<Unit>,
}

impl AskedHardness {
    fn refusal(&self) -> Refusal {
        let (least, most) = covered(self.scale);
        let near = if self.value < least { least } else { most };
        let (least, most, near) = match self.unit {
            Some(unit) => {
                let stated = |mpa: f64, way| crate::suggestion::value(mpa * 1e6, unit, way);
                use crate::suggestion::Way;
                let way = if near == least { Way::Up } else { Way::Down };
                (stated(least, Way::Near), stated(most, Way::Near), stated(near, way))
            }
            None => (text::full(least), text::full(most), text::full(near)),
        };
        let says = format!(
            "The tables run from {least} to {most} on this scale, and nothing is guessed outside them. Test on a scale \
             that fits the metal."
        );
        Refusal::no_answer(&says, &[(self.field, near)])
    }
}

fn asked(input: &HardnessInput) -> AskedHardness {
    let numbers = [
        (Scale::RockwellC, "rockwell_c", input.rockwell_c),
        (Scale::RockwellB, "rockwell_b", input.rockwell_b),
        (Scale::Vickers, "vickers", input.vickers),
        (Scale::Brinell, "brinell", input.brinell),
    ];
    if let Some((scale, field, number)) = numbers.into_iter().find_map(|(a, b, number)| Some((a, b, number?.get()))) {
        return AskedHardness { scale, field, value: number, shown: number.into(), unit: None };
    }
    let strength = input.tensile_strength.unwrap_or(TensileStrength::stated(0.0, Unit::Megapascal));
    let (value, unit) = (text::tidy(strength.si() / 1e6), Some(strength.quantity().unit));
    AskedHardness { scale: Scale::Tensile, field: "tensile_strength", value, shown: strength.into(), unit }
}

fn row(one: &Converted) -> HardnessByTable {
    let strength = |mpa: f64| FoundTensileStrength::stated(mpa, Unit::Megapascal);
    HardnessByTable {
        table: one.table,
        rockwell_c: one.on(Scale::RockwellC),
        rockwell_b: one.on(Scale::RockwellB),
        vickers: one.on(Scale::Vickers).map(|number| number as u32),
        brinell: one.on(Scale::Brinell).map(|number| number as u32),
        tensile_strength: one.on(Scale::Tensile).map(strength),
        from_memory: one.is_from_memory(),
    }
}

/// The least and the greatest, if there is any.
fn extremes(values: impl Iterator<Item = f64>) -> Option<(f64, f64)> {
    values.fold(None, |both, value| match both {
        None => Some((value, value)),
        Some((least, most)) => Some((f64::min(least, value), f64::max(most, value))),
    })
}

/// The strength that was asked about, as it was given.
fn tell_given(strength: TensileStrength, record: &mut Record) -> TensileSpan {
    for field in ["tensile_strength.least", "tensile_strength.greatest"] {
        let step = record.choose("Tensile strength", "as given").with("s", "tensile_strength", strength);
        step.gives(field, strength.found());
    }
    TensileSpan { least: strength.found(), greatest: strength.found() }
}

fn tell_tensile(by_table: &[HardnessByTable], record: &mut Record) -> Option<TensileSpan> {
    let (least, greatest) =
        extremes(by_table.iter().filter_map(|row| row.tensile_strength).map(|found| found.quantity().value))?;
    let [least, greatest] = [least, greatest].map(|mpa| FoundTensileStrength::stated(mpa, Unit::Megapascal));
    let all = || column(by_table, |row| row.tensile_strength);
    let linear = "each table, linear between its rows";
    record.look_up("Tensile strength", linear).gives("by_table.tensile_strength", all());
    let step = record.choose("Tensile strength, least", "the least").with("s", "by_table.tensile_strength", all());
    step.gives("tensile_strength.least", least);
    let step =
        record.choose("Tensile strength, greatest", "the greatest").with("s", "by_table.tensile_strength", all());
    step.gives("tensile_strength.greatest", greatest);
    record.caution(cautions::STRENGTH_FROM_HARDNESS);
    Some(TensileSpan { least, greatest })
}

fn tell_limits(all: &[Converted], record: &mut Record) {
    if all.iter().any(Converted::is_from_memory) {
        record.note(
            "recalled",
            "Some rows are recalled from the standard and not compared with it; the list says of which table. Do not \
             accept or reject a part by those.",
        );
    }
    if all.len() > 1 {
        record.note("tables_differ", "The tables differ. Where you must be on the safe side, take the end that is.");
    }
    notes!(record =>
        approximate: "A converted hardness is approximate, by a few points either way. Where the drawing names a scale, \
            test on that scale, and state the table with a converted value.";
        which_metals: "The tables are for carbon, alloy and tool steels. They do not hold for austenitic stainless \
            steel, cast iron, brass, aluminum or carbide, nor for a case or plating thinner than ten times the dent.");
}
