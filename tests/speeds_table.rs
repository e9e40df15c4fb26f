//! The table of cutting speeds as the calculators take it: every cell of operation, tool and material is printed, and
//! held against its neighbors. What does not fit them stands in tests/speeds/exceptions.csv with its reason.

mod common;

use common::{golden, root};
use shop_reckoner::quantity::Unit;
use shop_reckoner::reference::cutting_speeds::{Operation, SpeedRow, Standing, ToolMaterial, speeds_for, standing};
use shop_reckoner::reference::materials::{Material, materials};
use std::collections::BTreeMap;
use std::fmt::Write;

const OPERATIONS: &[Operation] = &[
    Operation::Turning,
    Operation::TurningRough,
    Operation::TurningFinish,
    Operation::Boring,
    Operation::Threading,
    Operation::Milling,
    Operation::Drilling,
    Operation::Reaming,
    Operation::Tapping,
];

const TOOLS: &[ToolMaterial] =
    &[ToolMaterial::Hss, ToolMaterial::Cobalt, ToolMaterial::Carbide, ToolMaterial::CoatedCarbide];

/// Materials of one kind, softer first: none may be cut faster than the one before it.
const FAMILIES: &[&[&str]] = &[
    &["1010", "1018", "1045-normalised", "1045-quenched"],
    &["1030", "1040", "1045-normalised", "1060", "1095"],
    &["s235", "s355", "e295", "e335", "e360"],
    &["4130", "4140-annealed", "4140-prehardened"],
    &["4340-annealed", "4340-quenched"],
    &["8620", "20mncr5", "18crnimo7-6"],
    &["w1", "o1", "d2"],
    &["304", "17-4ph"],
    &["grey-iron-20", "grey-iron-25", "grey-iron-35", "grey-iron-45"],
    &["ductile-iron-60", "ductile-iron-80"],
    &["c36000", "c26000", "c95400"],
    &["ti-grade-2", "ti-6al-4v"],
    &["n04400", "n07718-solution-treated", "n07718-aged"],
];

/// How many times as fast as what is taken another source may be before it needs a reason.
const MOST: f64 = 3.0;

/// Another source that is slower must be within this of what is taken.
const LEAST: f64 = 2.0 / 3.0;

fn word(operation: Operation) -> String {
    operation.words().replace(' ', "_")
}

fn rows(material: &Material, operation: Operation, tool: ToolMaterial) -> Vec<&'static SpeedRow> {
    speeds_for(material, operation, Some(tool))
}

fn cell(material: &Material, operation: Operation, tool: ToolMaterial) -> Option<Standing> {
    standing(&rows(material, operation, tool))
}

fn feet(speed: shop_reckoner::quantity::CuttingSpeed) -> f64 {
    speed.quantity().in_unit(Unit::FootPerMinute)
}

fn low(material: &Material, operation: Operation, tool: ToolMaterial) -> Option<f64> {
    cell(material, operation, tool).map(|stands| feet(stands.low.low))
}

fn named(id: &str) -> &'static Material {
    materials().iter().find(|material| material.id == id).unwrap_or_else(|| panic!("no material {id}"))
}

/// What does not fit: which check, which cell and against what, with the two speeds in feet a minute.
type Misfits = BTreeMap<(String, String, String, String, String), (f64, f64)>;

fn misfits() -> Misfits {
    let mut found = Misfits::new();
    let mut note = |check: &str, operation: Operation, tool: ToolMaterial, id: &str, against: &str, speeds| {
        let key = (check.into(), word(operation), tool.as_str().into(), id.into(), against.into());
        found.insert(key, speeds);
    };
    let over = |one: f64, other: f64| one > other * (1.0 + 1e-9);
    for &operation in OPERATIONS {
        for &tool in TOOLS {
            for pair in FAMILIES.iter().flat_map(|family| family.windows(2)) {
                let speeds = (low(named(pair[0]), operation, tool), low(named(pair[1]), operation, tool));
                if let (Some(softer), Some(harder)) = speeds
                    && over(harder, softer)
                {
                    note("harder_is_slower", operation, tool, pair[1], pair[0], (harder, softer));
                }
            }
            for material in materials() {
                let Some(taken) = low(material, operation, tool) else { continue };
                let slower_tools = &TOOLS[..TOOLS.iter().position(|one| *one == tool).unwrap_or(0)];
                for &other in slower_tools {
                    if let Some(speed) = low(material, operation, other)
                        && over(speed, taken)
                    {
                        note("better_tool_is_faster", operation, tool, material.id, other.as_str(), (taken, speed));
                    }
                }
                for row in rows(material, operation, tool) {
                    let other = feet(row.low);
                    if over(other, taken * MOST) || over(taken * LEAST, other) {
                        note("second_source_is_near", operation, tool, material.id, row.source, (taken, other));
                    }
                }
                if operation == Operation::Drilling {
                    let turned = low(material, Operation::Turning, tool)
                        .or_else(|| low(material, Operation::TurningRough, tool));
                    if let Some(turned) = turned
                        && over(taken, turned)
                    {
                        note("drilling_is_slower", operation, tool, material.id, "turning", (taken, turned));
                    }
                }
            }
        }
    }
    found
}

#[derive(serde::Deserialize)]
struct Exception {
    check: String,
    operation: String,
    tool_material: String,
    material: String,
    against: String,
    reason: String,
}

#[test]
fn what_does_not_fit_its_neighbors_has_a_reason() {
    let mut reader = csv::Reader::from_path(root().join("tests/speeds/exceptions.csv")).expect("the exceptions");
    let mut left = misfits();
    let mut wrong = String::new();
    for row in reader.deserialize() {
        let one: Exception = row.expect("a row of exceptions");
        assert!(one.reason.len() > 20, "{}: {} has no reason", one.check, one.material);
        let key = (one.check, one.operation, one.tool_material, one.material, one.against);
        if left.remove(&key).is_none() {
            writeln!(wrong, "no longer needed: {key:?}").unwrap();
        }
    }
    for ((check, operation, tool, material, against), (one, other)) in left {
        writeln!(wrong, "{check},{operation},{tool},{material},{against},  {one:.0} against {other:.0}").unwrap();
    }
    assert!(wrong.is_empty(), "\n{wrong}");
}

#[test]
fn the_table_is_the_committed_one() {
    let mut out =
        String::from("# Cutting speeds in ft/min as they stand: low-high, trust, and the sources of both ends.\n");
    let mut empty = 0;
    for &operation in OPERATIONS {
        for &tool in TOOLS {
            writeln!(out, "\n{} with {}", operation.words(), tool.as_str().replace('_', " ")).unwrap();
            for material in materials() {
                let Some(stands) = cell(material, operation, tool) else {
                    empty += 1;
                    continue;
                };
                let (low, high) = (feet(stands.low.low), feet(stands.high.high));
                let trust = stands.low.trust.max(stands.high.trust);
                let sources = if stands.low.source == stands.high.source {
                    stands.low.source.to_owned()
                } else {
                    format!("{} {}", stands.low.source, stands.high.source)
                };
                let differ = stands.faster.map_or(String::new(), |row| {
                    format!("  over it {:.0}-{:.0} {}", feet(row.low), feet(row.high), row.source)
                });
                writeln!(out, "  {:<24}{low:>5.0}-{high:<5.0} {trust}, {sources}{differ}", material.id).unwrap();
            }
        }
    }
    writeln!(out, "\nempty cells: {empty}").unwrap();
    golden("tests/speeds/table.txt", &out);
}

fn turned(id: &str) -> (f64, f64) {
    let material = named(id);
    let stands = cell(material, Operation::Turning, ToolMaterial::Hss).unwrap_or_else(|| panic!("{id}"));
    (feet(stands.low.low), feet(stands.high.high))
}

#[test]
fn hard_metals_are_turned_with_high_speed_steel_as_slowly_as_the_handbook_says() {
    for (id, most) in [
        ("ti-6al-4v", 40.0),
        ("ti-grade-2", 90.0),
        // At 340 HB; 45 to 65 holds for the rest of this list.
        ("4340-quenched", 40.0),
        ("4140-prehardened", 60.0),
        ("d2", 45.0),
        ("h13", 65.0),
        ("m2", 65.0),
        ("s7", 70.0),
        ("17-4ph", 50.0),
        ("15-5ph", 50.0),
        ("n07718-aged", 20.0),
    ] {
        let (low, high) = turned(id);
        assert!(high <= most + 1e-9 && low > 0.0, "{id}: {low} to {high}");
    }
    assert_eq!(turned("ti-6al-4v"), (40.0, 40.0));
    assert_eq!(turned("17-4ph").1, 50.0);
    assert_eq!(turned("d2"), (45.0, 45.0));
}

#[test]
fn the_lathe_column_of_the_university_sheet_is_gone() {
    for material in materials() {
        for &tool in TOOLS {
            for operation in [Operation::Turning, Operation::TurningRough, Operation::TurningFinish, Operation::Boring]
            {
                assert!(rows(material, operation, tool).iter().all(|row| row.source != "university_sheet"));
            }
        }
    }
}

#[test]
fn where_sources_differ_by_more_than_a_third_the_slower_stands() {
    let third = 2.0 / 3.0 * (1.0 - 1e-9);
    for material in materials() {
        for &operation in OPERATIONS {
            for &tool in TOOLS {
                let rows = rows(material, operation, tool);
                let Some(stands) = standing(&rows) else { continue };
                let taken = (feet(stands.low.low), feet(stands.high.high));
                assert!(taken.0 <= taken.1, "{} {operation:?} {tool:?}", material.id);
                for row in &rows {
                    let other = (feet(row.low), feet(row.high));
                    assert!(
                        other.0 >= taken.0 * third && other.1 >= taken.1 * third,
                        "{} {operation:?} {tool:?}: {taken:?} is taken, {other:?} stands in {}",
                        material.id,
                        row.source
                    );
                    let differs = taken.0 < other.0 * third || taken.1 < other.1 * third;
                    assert!(
                        !differs || stands.faster.is_some(),
                        "{} {operation:?}: the difference is not said",
                        material.id
                    );
                }
            }
        }
    }
}
