//! Another drill, thread or material of the same list.

use super::super::draw::Draw;
use crate::reference::drills::{drills, named};
use crate::reference::materials::{materials, search};
use crate::reference::threads::{
    acme_rows, metric_rows, npt_rows, parallel_rows, trapezoidal_rows, unified_rows, whitworth_rows,
};
use std::sync::LazyLock;

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

/// Every listed thread of a size that fits on a bench, with its series.
static BENCH_THREADS: LazyLock<Vec<(String, String)>> = LazyLock::new(bench_threads);

fn bench_threads() -> Vec<(String, String)> {
    let of_bench = |diameter: f64| (BENCH.0..=BENCH.1).contains(&diameter);
    let inches = |diameter: f64| of_bench(diameter * 25.4);
    let mut all: Vec<(String, String)> = Vec::new();
    let unified = unified_rows().iter().filter(|row| row.same_thread_as.is_none() && inches(row.diameter_in));
    all.extend(unified.map(|row| (row.series.clone(), row.designation())));
    let metric = metric_rows().iter().filter(|row| row.choice == 1 && of_bench(row.diameter_mm));
    all.extend(metric.map(|row| (row.series.clone(), row.designation.clone())));
    let npt = npt_rows().iter().filter(|row| inches(row.outside_diameter_in));
    all.extend(npt.map(|row| ("NPT".into(), format!("{}-{} NPT", row.size, row.threads_per_inch))));
    let acme = acme_rows().iter().filter(|row| inches(row.diameter_in));
    all.extend(acme.map(|row| ("Acme".into(), format!("{}-{} Acme", row.size, row.threads_per_inch))));
    let trapezoidal = trapezoidal_rows().iter().filter(|row| of_bench(row.diameter_mm));
    all.extend(trapezoidal.map(|row| ("Tr".into(), row.designation.clone())));
    for row in parallel_rows().iter().filter(|row| of_bench(row.major_mm)) {
        all.extend(["G", "R"].map(|series| (series.into(), format!("{series} {}", row.size))));
    }
    let whitworth = whitworth_rows().iter().filter(|row| inches(row.diameter_in));
    all.extend(
        whitworth.map(|row| (row.series.clone(), format!("{}-{} {}", row.size, row.threads_per_inch, row.series))),
    );
    all
}

/// A thread of the same series, with the class, hand and starts that were stated.
fn thread(name: &str, draw: &mut Draw) -> Option<String> {
    let all = &*BENCH_THREADS;
    let bare = |text: &str| text.replace(' ', "").to_lowercase();
    let wanted = bare(name);
    // What stands behind a designation is kept; it begins with a mark, or 1/2 would be found in 1/2-13.
    let rest = |text: &str| -> Option<usize> {
        let rest = wanted.strip_prefix(&bare(text))?;
        (rest.is_empty() || rest.starts_with(['-', '('])).then_some(rest.len())
    };
    let whole = all.iter().filter_map(|(series, text)| Some((series, rest(text)?))).min_by_key(|(_, rest)| *rest);
    // `1/2-13` stands for `1/2-13 UNC`.
    let short = || {
        let named =
            |(series, text): &&(String, String)| text.strip_suffix(series.as_str()).is_some_and(|t| bare(t) == wanted);
        all.iter().find(named).map(|(series, _)| (series, 0))
    };
    let (series, behind) = whole.or_else(short)?;
    let marks = name.char_indices().rev().filter(|(_, c)| *c != ' ').map(|(at, _)| at);
    let from = behind.checked_sub(1).and_then(|last| marks.clone().nth(last)).unwrap_or(name.len());
    let behind = if name[..from].ends_with(' ') { format!(" {}", &name[from..]) } else { name[from..].to_owned() };
    let alike: Vec<&String> = all.iter().filter(|(other, _)| other == series).map(|(_, text)| text).collect();
    draw.pick(&alike).map(|text| format!("{text}{behind}"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn another_name_is_of_the_same_list() {
        let mut draw = Draw::new(1, "names");
        for (name, begins, ends) in [
            ("1/4-20 UNC", "", " UNC"),
            ("M8", "M", ""),
            ("Tr28x5-7e", "Tr", "-7e"),
            ("1-5 Acme (2 STARTS)", "", " Acme (2 STARTS)"),
            ("1/2-12 BSW", "", " BSW"),
            ("G 1/2", "G ", ""),
            ("1/2-13", "", " UNC"),
        ] {
            let others: Vec<String> = (0..8).filter_map(|_| other("Designation", name, &mut draw)).collect();
            assert_eq!(others.len(), 8, "{name}");
            assert!(others.iter().any(|other| other != name), "{name}");
            for other in others {
                assert!(other.starts_with(begins) && other.ends_with(ends), "{name}: {other}");
                assert!(crate::reference::threads::read(&other).is_ok(), "{name}: {other}");
            }
        }
        for name in ["No.7", "F"] {
            assert!((0..8).filter_map(|_| other("DrillName", name, &mut draw)).all(|other| named(&other).is_some()));
        }
        assert_eq!(other("Designation", "7/8-13 UNS-2A-LH (2 STARTS)", &mut draw), None);
    }
}
