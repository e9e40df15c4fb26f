//! The working of a search: one step for each column, as every number must be what a step gives.

use super::{MaterialForce, MaterialRow, MaterialSpeed};
use crate::calculators::prelude::*;

/// The steps of every column.
pub fn tell(rows: &[MaterialRow], speeds: &[MaterialSpeed], forces: &[MaterialForce], record: &mut Record) {
    let mut texts = |field: &'static str, column: Vec<&'static str>| {
        if !column.is_empty() {
            let table = if field.starts_with("speeds") {
                "cutting_speeds.csv, rows that serve the material at its middle hardness"
            } else if field.starts_with("forces") {
                "cutting_forces.csv, rows of the material"
            } else {
                "materials.csv, rows that have every word"
            };
            record.look_up("From the table", table).gives(field, column);
        }
    };
    macro_rules! words {
        ($($list:ident . $name:ident => $field:literal $map:expr),* $(,)?) => {
            $(texts($field, $list.iter().filter_map($map).collect());)*
        };
    }
    words! {
        rows.id => "rows.id" |row| Some(row.id),
        rows.name => "rows.name" |row| Some(row.name),
        rows.us => "rows.us_designation" |row| row.us_designation,
        rows.en => "rows.en_designation" |row| row.en_designation,
        rows.group => "rows.group" |row| Some(row.group.as_str()),
        rows.condition => "rows.condition" |row| Some(row.condition),
        rows.source => "rows.machinability_source" |row| row.machinability_source,
        rows.trust => "rows.machinability_trust" |row| row.machinability_trust,
        rows.source => "rows.unit_power_source" |row| Some(row.unit_power_source),
        rows.trust => "rows.unit_power_trust" |row| Some(row.unit_power_trust),
        speeds.material => "speeds.material" |row| Some(row.material),
        speeds.operation => "speeds.operation" |row| Some(row.operation),
        speeds.tool => "speeds.tool_material" |row| Some(row.tool_material),
        speeds.named => "speeds.named" |row| Some(if row.named { "true" } else { "false" }),
        speeds.source => "speeds.source" |row| Some(row.source),
        speeds.trust => "speeds.trust" |row| Some(row.trust),
        forces.material => "forces.material" |row| Some(row.material),
        forces.family => "forces.family" |row| Some(row.family.as_str()),
        forces.source => "forces.source" |row| Some(row.source),
        forces.trust => "forces.trust" |row| Some(row.trust),
    }
    numbers(rows, speeds, forces, record);
}

fn numbers(rows: &[MaterialRow], speeds: &[MaterialSpeed], forces: &[MaterialForce], record: &mut Record) {
    const TABLE: &str = "materials.csv";
    let hardness: Vec<f64> = rows.iter().filter_map(|row| row.hardness_low).collect();
    if !hardness.is_empty() {
        record.look_up("Brinell hardness, from", TABLE).gives("rows.hardness_low", hardness);
        let hardness: Vec<f64> = rows.iter().filter_map(|row| row.hardness_high).collect();
        record.look_up("Brinell hardness, to", TABLE).gives("rows.hardness_high", hardness);
    }
    let machinability: Vec<FoundPercentage> = rows.iter().filter_map(|row| row.machinability).collect();
    if !machinability.is_empty() {
        record.look_up("Machinability", TABLE).gives("rows.machinability", machinability);
    }
    let power: Vec<FoundUnitPower> = rows.iter().map(|row| row.unit_power_low).collect();
    record.look_up("Unit power, from", TABLE).gives("rows.unit_power_low", power);
    let power: Vec<FoundUnitPower> = rows.iter().map(|row| row.unit_power_high).collect();
    record.look_up("Unit power, to", TABLE).gives("rows.unit_power_high", power);
    if !speeds.is_empty() {
        let low: Vec<FoundCuttingSpeed> = speeds.iter().map(|row| row.low).collect();
        record.look_up("Cutting speeds, from", "cutting_speeds.csv").gives("speeds.low", low);
        let high: Vec<FoundCuttingSpeed> = speeds.iter().map(|row| row.high).collect();
        record.look_up("Cutting speeds, to", "cutting_speeds.csv").gives("speeds.high", high);
    }
    let kc: Vec<FoundSpecificForce> = forces.iter().map(|row| row.kc11).collect();
    record.look_up("Specific cutting force at a chip of 1 mm by 1 mm", "cutting_forces.csv").gives("forces.kc11", kc);
    let exponents: Vec<f64> = forces.iter().map(|row| row.exponent).collect();
    record.look_up("Its exponent", "cutting_forces.csv").gives("forces.exponent", exponents);
}
