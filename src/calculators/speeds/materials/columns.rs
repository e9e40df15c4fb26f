//! The working of a search: one step for each column, as every number must be what a step gives.

use super::{MaterialForce, MaterialRow, MaterialSpeed};
use crate::calculators::prelude::*;

/// A step for each of the columns that has anything in it.
macro_rules! tell {
    ($record:ident, $what:literal, $table:expr, $list:ident: $of:ty { $($field:ident $(.$form:ident())?),+ }) => {
        $(
            let column: Vec<$of> = $list.iter().filter_map(|row| Option::from(row.$field $(.$form())?)).collect();
            if !column.is_empty() {
                $record.look_up($what, $table).gives(concat!(stringify!($list), ".", stringify!($field)), column);
            }
        )+
    };
}

const MATERIALS: &str = "materials.csv";
const SPEEDS: &str = "cutting_speeds.csv";
const FORCES: &str = "cutting_forces.csv";
const MATERIALS_FOUND: &str = "materials.csv, rows that match every word";
const SPEEDS_FOUND: &str = "cutting_speeds.csv, rows for the material at its middle hardness";
const FORCES_FOUND: &str = "cutting_forces.csv, rows of the material";

/// The steps of every column.
pub fn tell(rows: &[MaterialRow], speeds: &[MaterialSpeed], forces: &[MaterialForce], record: &mut Record) {
    tell!(record, "From the table", MATERIALS_FOUND, rows: &'static str {
        id, name, us_designation, en_designation, group.as_str(), condition, machinability_source, machinability_trust,
        unit_power_source, unit_power_trust
    });
    tell!(record, "From the table", SPEEDS_FOUND, speeds: &'static str { material, operation, tool_material });
    if !speeds.is_empty() {
        let named: Vec<&'static str> = speeds.iter().map(|row| if row.named { "true" } else { "false" }).collect();
        record.look_up("From the table", SPEEDS_FOUND).gives("speeds.named", named);
    }
    tell!(record, "From the table", SPEEDS_FOUND, speeds: &'static str { source, trust });
    tell!(record, "From the table", FORCES_FOUND, forces: &'static str { material, family.as_str(), source, trust });
    tell!(record, "Brinell hardness, lowest", MATERIALS, rows: f64 { hardness_low });
    tell!(record, "Brinell hardness, highest", MATERIALS, rows: f64 { hardness_high });
    tell!(record, "Machinability", MATERIALS, rows: FoundPercentage { machinability });
    tell!(record, "Unit power, lowest", MATERIALS, rows: FoundUnitPower { unit_power_low });
    tell!(record, "Unit power, highest", MATERIALS, rows: FoundUnitPower { unit_power_high });
    tell!(record, "Cutting speeds, lowest", SPEEDS, speeds: FoundCuttingSpeed { low });
    tell!(record, "Cutting speeds, highest", SPEEDS, speeds: FoundCuttingSpeed { high });
    tell!(record, "Specific cutting force on a chip of 1 mm by 1 mm", FORCES, forces: FoundSpecificForce { kc11 });
    tell!(record, "Exponent of that force", FORCES, forces: f64 { exponent });
}
