//! Work materials with what is published of them: hardness, machinability, cutting speeds, unit power
//! and specific cutting force, each number with its source and trust.

use crate::calculators::prelude::*;
use crate::machine::tell_material;
use crate::reference::cutting_speeds::{SpeedRow, all_speeds_for};
use crate::reference::material_aliases::{Relation, alias};
use crate::reference::materials::{ForceFamily, Material, MaterialGroup, materials, search};

mod columns;

/// The calculator.
pub struct Materials;

/// What the materials search asks for.
#[derive(Debug, Asks)]
pub struct MaterialsInput {
    /// Short name, AISI, UNS or EN designation, or plain words, such as 1018, C45, 1.4301 or brass; near ones are listed too. Every material if absent.
    #[label("Name or words")]
    pub search: Option<String>,
    /// Only materials of this ISO 513 group: P steel, M stainless steel, K cast iron, N non-ferrous, S heat-resistant, H hardened; every group if absent.
    #[label("ISO 513 group")]
    pub group: Option<MaterialGroup>,
}

/// A material.
#[derive(Debug, Gives)]
pub struct MaterialRow {
    /// Short name, which other calculators read.
    #[label("Short name")]
    pub id: &'static str,
    /// What it is.
    #[label("What it is")]
    pub name: &'static str,
    /// AISI, UNS or ASTM designation.
    #[label("US designation")]
    pub us_designation: Option<&'static str>,
    /// EN designation and number; near grades are not equal grades.
    #[label("EN designation")]
    pub en_designation: Option<&'static str>,
    /// ISO 513 group.
    #[label("ISO 513 group")]
    pub group: MaterialGroup,
    /// Condition, such as annealed or cold drawn.
    pub condition: &'static str,
    /// Brinell hardness, lowest.
    #[label("Hardness HB, lowest")]
    pub hardness_low: Option<f64>,
    /// Brinell hardness, highest.
    #[label("Hardness HB, highest")]
    pub hardness_high: Option<f64>,
    /// Machinability, in percent of AISI B1112 steel; for copper alloys, in percent of C36000 brass.
    pub machinability: Option<FoundPercentage>,
    /// Source of the machinability.
    #[label("Source of machinability")]
    pub machinability_source: Option<&'static str>,
    /// How far the machinability can be relied on.
    #[label("Trust in machinability")]
    pub machinability_trust: Option<&'static str>,
    /// Unit power with a sharp tool at a feed of 0.012 in, lowest.
    #[label("Unit power, lowest")]
    pub unit_power_low: FoundUnitPower,
    /// The same, highest.
    #[label("Unit power, highest")]
    pub unit_power_high: FoundUnitPower,
    /// Source of the unit power.
    #[label("Source of unit power")]
    pub unit_power_source: &'static str,
    /// How far the unit power can be relied on.
    #[label("Trust in unit power")]
    pub unit_power_trust: &'static str,
}

/// A published range of cutting speed.
#[derive(Debug, Gives)]
pub struct MaterialSpeed {
    /// The material's short name.
    pub material: &'static str,
    /// The kind of cut.
    pub operation: &'static str,
    /// What the tool is made of; a bimetal band for sawing.
    #[label("Tool material")]
    pub tool_material: &'static str,
    /// Lowest cutting speed; the highest too where one is printed.
    #[label("Cutting speed, lowest")]
    pub low: FoundCuttingSpeed,
    /// Highest cutting speed.
    #[label("Cutting speed, highest")]
    pub high: FoundCuttingSpeed,
    /// Whether the source names the material or its class.
    #[label("Named by the source")]
    pub named: bool,
    /// Where it is published.
    pub source: &'static str,
    /// How far it can be relied on.
    pub trust: &'static str,
}

/// A published specific cutting force, kc = kc1.1 / h^mc with h in millimeters.
#[derive(Debug, Gives)]
pub struct MaterialForce {
    /// The material's short name.
    pub material: &'static str,
    /// Family of tables it comes from; families disagree.
    #[label("Family of tables")]
    pub family: ForceFamily,
    /// kc1.1, the specific force on a chip of 1 mm by 1 mm.
    #[label("Specific force kc1.1")]
    pub kc11: FoundSpecificForce,
    /// The exponent mc.
    #[label("Exponent mc")]
    pub exponent: f64,
    /// Where it is published.
    pub source: &'static str,
    /// How far it can be relied on.
    pub trust: &'static str,
}

/// What the materials search gives.
#[derive(Debug, Gives)]
pub struct MaterialsResult {
    /// The materials found.
    #[label("Materials", "material")]
    pub rows: Vec<MaterialRow>,
    /// Cutting speeds published for them.
    #[label("Cutting speeds", "speed")]
    pub speeds: Vec<MaterialSpeed>,
    /// Specific cutting forces published; calculators use the first.
    #[label("Cutting forces", "force")]
    pub forces: Vec<MaterialForce>,
}

fn stated(text: &'static str) -> Option<&'static str> {
    (!text.is_empty()).then_some(text)
}

impl MaterialRow {
    fn of(material: &Material) -> Self {
        let cited = material.machinability.as_ref();
        let (low, high) = material.unit_power;
        let power = |value| FoundUnitPower::stated(value, Unit::HorsepowerMinutePerCubicInch);
        Self {
            id: material.id,
            name: material.name,
            us_designation: stated(material.us),
            en_designation: stated(material.en),
            group: material.group,
            condition: material.condition,
            hardness_low: material.hardness.map(|(low, _)| low),
            hardness_high: material.hardness.map(|(_, high)| high),
            machinability: cited.map(|cited| FoundPercentage::stated(cited.value, Unit::Percent)),
            machinability_source: cited.map(|cited| cited.source),
            machinability_trust: cited.map(|cited| cited.trust.as_str()),
            unit_power_low: power(low),
            unit_power_high: power(high),
            unit_power_source: material.unit_power_cited.source,
            unit_power_trust: material.unit_power_cited.trust.as_str(),
        }
    }
}

impl MaterialSpeed {
    fn of(material: &'static str, row: &SpeedRow) -> Self {
        Self {
            material,
            operation: row.operation.words(),
            tool_material: row.tool.map_or("bimetal", |tool| tool.as_str()),
            low: row.low.found(),
            high: row.high.found(),
            named: row.named,
            source: row.source,
            trust: row.trust.as_str(),
        }
    }
}

impl Calculator for Materials {
    const ID: &'static str = "speeds/materials";
    const TITLE: &'static str = "Materials";
    const ABOUT: &'static str = "What is published about a work material: its names, hardness, machinability, cutting \
        speeds by operation and tool, unit power and specific cutting force, each with its source.";
    const TASK: Task = Task::Cut;
    const ANOTHER_CHECK: &'static str =
        "Try a file on the work: if it skates, the work is harder than the soft grades of the table.";
    const WORDS: &'static str = "steel, stainless, cast iron, aluminium, brass, AISI, UNS, EN, hardness, \
        machinability, sfm, kc, bronze, tool steel, titanium";
    const EXAMPLES: &'static [Example] = examples! {
        "A winch pinion is to be made of annealed 4140: what do the tables have for it?":
            search = "4140 annealed";
        "The stainless steels that a pump shaft could be made of.":
            search = "stainless", group = "M";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "The saw tag says {search}. How easy is it to machine by the table, in percent of free-cutting steel B1112?"
            => "rows/0/machinability":
            { search = "1018" | "1117" | "12L14" | "4140 annealed" | "8620" | "303" | "304" | "410" };
        1 "By the table of unit power, how much power does {search} take at most for each cubic inch a minute?"
            => "rows/0/unit_power_high":
            { search = "1018" | "12L14" | "4140 annealed" | "304" | "C36000" | "6061", units = "inch" };
        2 "By the table, what is the specific force of {search} on a chip 1 mm thick and 1 mm wide?" => "forces/0/kc11":
            { search = "1018" | "12L14" | "4140 annealed" | "304" | "C36000" | "6061",
              units = "metric" };
    };
    type Input = MaterialsInput;
    type Output = MaterialsResult;

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        let mut found: Vec<&'static Material> = match &input.search {
            Some(text) => search(text),
            None => materials().iter().collect(),
        };
        found.retain(|material| input.group.is_none_or(|group| material.group == group));
        if found.is_empty() {
            return Err(nothing(input));
        }
        record.source("common_practice", "designations listed together, and hardness");
        for material in &found {
            tell_material(material, record);
        }
        let rows: Vec<MaterialRow> = found.iter().map(|material| MaterialRow::of(material)).collect();
        let mut speeds = Vec::new();
        let mut forces = Vec::new();
        for material in &found {
            for row in all_speeds_for(material) {
                record.source_trusted(row.source, row.place, row.trust);
                speeds.push(MaterialSpeed::of(material.id, row));
            }
            for force in &material.forces {
                let cited = &force.kc11;
                record.source_trusted(cited.source, cited.place, cited.trust);
                forces.push(MaterialForce {
                    material: material.id,
                    family: force.family,
                    kc11: FoundSpecificForce::stated(cited.value, Unit::NewtonPerSquareMillimetre),
                    exponent: force.mc,
                    source: cited.source,
                    trust: cited.trust.as_str(),
                });
            }
            let cited = &material.unit_power_cited;
            record.source_trusted(cited.source, cited.place, cited.trust);
            if let Some(cited) = &material.machinability {
                record.source_trusted(cited.source, cited.place, cited.trust);
            }
        }
        columns::tell(&rows, &speeds, &forces, record);
        record.note(
            "near_grades",
            "Designations of two countries listed together are near each other, not equal; go by the certificate.",
        );
        Ok(MaterialsResult { rows, speeds, forces })
    }
}

fn nothing(input: &MaterialsInput) -> Refusal {
    let mut wrongs = Vec::new();
    if let Some(text) = &input.search {
        let known = alias(text).filter(|alias| alias.relation == Relation::Known);
        let says = match known {
            Some(known) => format!("{} is known, {}, but the tables have no values for it.", known.name, known.says),
            None => "No material of the tables matches all of these words.".to_owned(),
        };
        wrongs.push(Wrong::new("search", Code::NotFound, says, "leave out"));
    }
    if input.group.is_some() {
        wrongs.push(Wrong::new("group", Code::NotFound, "None of the materials found is in this group.", "leave out"));
    }
    Refusal(wrongs)
}
