//! Another drill, thread or material of the same list.

use super::super::draw::Draw;
use crate::reference::drills::{drills, named};
use crate::reference::materials::{materials, search};
use crate::reference::threads::{acme_rows, metric_rows, npt_rows, trapezoidal_rows, unified_rows};

/// Threads of a bench, from and to, in millimetres.
const BENCH: (f64, f64) = (2.8, 31.0);

/// Another name of its list; `None` where the name stands in none or is more than a name.
pub fn other(kind: &str, name: &str, draw: &mut Draw) -> Option<String> {
    match kind {
        "Designation" => thread(name, draw),
        "DrillDiameter" | "DrillName" => drill(name, draw),
        "WorkMaterial" => material(name, draw),
        _ => drill(name, draw).or_else(|| material(name, draw)),
    }
}

/// A drill of the same system, not far from it in size.
fn drill(name: &str, draw: &mut Draw) -> Option<String> {
    let known = named(name)?;
    let near: Vec<&str> = drills()
        .iter()
        .filter(|drill| drill.system == known.system)
        .filter(|drill| (0.6..=1.6).contains(&(drill.diameter / known.diameter)))
        .map(|drill| drill.name)
        .collect();
    draw.pick(&near).map(|name| (*name).to_owned())
}

/// A material of the same group of ISO 513.
fn material(name: &str, draw: &mut Draw) -> Option<String> {
    let [known] = search(name)[..] else { return None };
    let alike: Vec<&str> =
        materials().iter().filter(|material| material.group == known.group).map(|material| material.id).collect();
    draw.pick(&alike).map(|id| (*id).to_owned())
}

/// A thread of the same series, of a size that fits on a bench.
fn thread(name: &str, draw: &mut Draw) -> Option<String> {
    let of_bench = |diameter: f64| (BENCH.0..=BENCH.1).contains(&diameter);
    let mut all: Vec<(&str, String)> = Vec::new();
    for row in unified_rows().iter().filter(|row| row.same_thread_as.is_none() && of_bench(row.diameter_in * 25.4)) {
        all.push((&row.series, row.designation()));
    }
    for row in metric_rows().iter().filter(|row| row.choice == 1 && of_bench(row.diameter_mm)) {
        all.push((&row.series, row.designation.clone()));
    }
    all.extend(npt_rows().iter().filter(|row| of_bench(row.outside_diameter_in * 25.4)).map(|row| {
        ("NPT", format!("{}-{} NPT", row.size, row.threads_per_inch))
    }));
    let acme = acme_rows().iter().filter(|row| of_bench(row.diameter_in * 25.4));
    all.extend(acme.map(|row| ("Acme", format!("{}-{} Acme", row.size, row.threads_per_inch))));
    let trapezoidal = trapezoidal_rows().iter().filter(|row| of_bench(row.diameter_mm));
    all.extend(trapezoidal.map(|row| ("Tr", row.designation.clone())));
    let bare = |text: &str| text.replace(' ', "").to_lowercase();
    // `1/2-13` stands for `1/2-13 UNC`.
    let known = all.iter().find(|(series, text)| {
        bare(text) == bare(name) || text.strip_suffix(series).is_some_and(|text| bare(text) == bare(name))
    });
    let series = known?.0;
    let alike: Vec<&String> = all.iter().filter(|(other, _)| *other == series).map(|(_, text)| text).collect();
    draw.pick(&alike).map(|text| (*text).clone())
}
