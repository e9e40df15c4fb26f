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
    /// Short name, AISI, UNS or EN designation, number or plain words, such as 1018, C45, 1.4301 or brass, near ones too; every material if absent.
    pub search: Option<String>,
    /// Only materials of this group after ISO 513: P steel, M stainless steel, K cast iron, N non-ferrous, S heat-resistant, H hardened; every group if absent.
    pub group: Option<MaterialGroup>,
}

/// A material.
#[derive(Debug, Gives)]
pub struct MaterialRow {
    /// The short name, as other calculators take it for material.
    pub id: &'static str,
    /// What it is.
    pub name: &'static str,
    /// AISI, UNS or ASTM designation.
    pub us_designation: Option<&'static str>,
    /// EN designation and number; near grades are not equal grades.
    pub en_designation: Option<&'static str>,
    /// Group after ISO 513.
    pub group: MaterialGroup,
    /// Condition.
    pub condition: &'static str,
    /// Brinell hardness, from.
    pub hardness_low: Option<f64>,
    /// Brinell hardness, to.
    pub hardness_high: Option<f64>,
    /// Machinability: of AISI B1112, for copper alloys of C36000.
    pub machinability: Option<FoundPercentage>,
    /// Who says so of the machinability.
    pub machinability_source: Option<&'static str>,
    /// How far the machinability can be relied on.
    pub machinability_trust: Option<&'static str>,
    /// Unit power with a sharp tool at a feed of 0.012 in, from.
    pub unit_power_low: FoundUnitPower,
    /// Unit power, to.
    pub unit_power_high: FoundUnitPower,
    /// Who says so of the unit power.
    pub unit_power_source: &'static str,
    /// How far the unit power can be relied on.
    pub unit_power_trust: &'static str,
}

/// A published range of cutting speed.
#[derive(Debug, Gives)]
pub struct MaterialSpeed {
    /// The material's short name.
    pub material: &'static str,
    /// The operation.
    pub operation: &'static str,
    /// What the tool is made of; a bimetal band for sawing.
    pub tool_material: &'static str,
    /// Lower end; equal to the upper where the source prints one value.
    pub low: FoundCuttingSpeed,
    /// Upper end.
    pub high: FoundCuttingSpeed,
    /// Whether the source names the material or only its class.
    pub named: bool,
    /// Who says so.
    pub source: &'static str,
    /// How far it can be relied on.
    pub trust: &'static str,
}

/// A published specific cutting force, kc = kc1.1 / h^mc with h in millimetres.
#[derive(Debug, Gives)]
pub struct MaterialForce {
    /// The material's short name.
    pub material: &'static str,
    /// The family of tables; families disagree.
    pub family: ForceFamily,
    /// kc1.1, the force at a chip of 1 mm by 1 mm.
    pub kc11: FoundSpecificForce,
    /// The exponent mc.
    pub exponent: f64,
    /// Who says so.
    pub source: &'static str,
    /// How far it can be relied on.
    pub trust: &'static str,
}

/// What the materials search gives.
#[derive(Debug, Gives)]
pub struct MaterialsResult {
    /// The materials found.
    pub rows: Vec<MaterialRow>,
    /// Cutting speeds published for them.
    pub speeds: Vec<MaterialSpeed>,
    /// Specific cutting forces published for them, the one that calculators take first.
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
    const ABOUT: &'static str = "What is published of a work material: its names, hardness, machinability, cutting \
        speeds by operation and tool, unit power and specific cutting force, each with its source.";
    const TASK: Task = Task::Cut;
    const ANOTHER_CHECK: &'static str =
        "Try a file on the work: where it skates, the work is harder than a soft row of the table supposes.";
    const WORDS: &'static str = "steel, stainless, cast iron, aluminium, brass, AISI, UNS, EN, hardness, \
        machinability, sfm, kc, bronze, tool steel, titanium";
    const EXAMPLES: &'static [Example] = examples! {
        "What is known of annealed 4140, of which a winch pinion is to be made.":
            search = "4140 annealed";
        "The stainless steels that a pump shaft could be of.":
            search = "stainless", group = "M";
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
        record.source("common_practice", "designations that stand side by side, and hardness");
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
            "Designations of two countries that stand side by side are near each other, not equal; go by the certificate.",
        );
        Ok(MaterialsResult { rows, speeds, forces })
    }
}

fn nothing(input: &MaterialsInput) -> Refusal {
    let mut wrongs = Vec::new();
    if let Some(text) = &input.search {
        let known = alias(text).filter(|alias| alias.relation == Relation::Known);
        let says = match known {
            Some(known) => format!("{} is known, {}, but the tables have nothing of it.", known.name, known.says),
            None => "No material of the table has all of these words.".to_owned(),
        };
        wrongs.push(Wrong::new("search", Code::NotFound, says, "leave out"));
    }
    if input.group.is_some() {
        wrongs.push(Wrong::new("group", Code::NotFound, "No material found is of this group.", "leave out"));
    }
    Refusal(wrongs)
}
