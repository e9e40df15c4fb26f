//! The rows of data/checks: every answer against a value from outside the project, to the last
//! digit that its source prints.

mod common;

use common::{Check, asked, checks, golden, root};
use serde_json::Value;
use shop_reckoner::calculators::REGISTER;
use shop_reckoner::reference::threads::{ThreadSystem, read};
use shop_reckoner::verification::KINDS;
use std::collections::{BTreeMap, HashMap};

/// What the answer has at the row's field, or why there is nothing.
fn found<'v>(answer: &'v Value, field: &str) -> Result<&'v Value, String> {
    let mut at = &answer["result"];
    let mut walked = String::new();
    // The slash of a name such as 27/64 parts nothing.
    let mut named = false;
    let parts = field.trim_start_matches('/').split(|c| {
        named = (named || c == '[') && c != ']';
        c == '/' && !named
    });
    for part in parts {
        // `candidates[name=#7]` is the row of that name.
        let next = match part.split_once('[') {
            Some((list, wanted)) => {
                let (key, value) = wanted.trim_end_matches(']').split_once('=').ok_or("bad selector")?;
                let rows = at[list].as_array().ok_or_else(|| format!("{walked}/{list} is no list"))?;
                rows.iter().find(|row| row[key] == value)
            }
            None => match part.parse::<usize>() {
                Ok(number) => at.get(number),
                Err(_) => at.get(part),
            },
        };
        walked = format!("{walked}/{part}");
        at = next.ok_or_else(|| format!("nothing at {walked}"))?;
    }
    Ok(at)
}

/// Compares; the error says how they differ.
fn compare(check: &Check, value: &Value) -> Result<(), String> {
    if check.tolerance.is_empty() {
        let is = match value {
            Value::String(text) => text.clone(),
            other => other.to_string(),
        };
        return if is == check.expected { Ok(()) } else { Err(format!("is {is}, not {}", check.expected)) };
    }
    let (is, unit) = match value {
        Value::Object(_) => (value["value"].as_f64(), value["unit"].as_str().unwrap_or("")),
        other => (other.as_f64(), ""),
    };
    let is = is.ok_or_else(|| format!("{value} is no number"))?;
    let ascii = |unit: &str| unit.replace('³', "3").replace('²', "2").replace('µ', "u");
    if ascii(unit) != ascii(&check.unit) {
        return Err(format!("is in {unit}, not {}", check.unit));
    }
    let expected: f64 = check.expected.parse().map_err(|_| format!("{} is no number", check.expected))?;
    let tolerance: f64 = check.tolerance.parse().map_err(|_| format!("{} is no tolerance", check.tolerance))?;
    // A tolerance of half a printed digit is itself a double; the last bits are no difference.
    let slack = tolerance * (1.0 + 1e-9) + expected.abs() * 4.0 * f64::EPSILON;
    if (is - expected).abs() <= slack { Ok(()) } else { Err(format!("is {is}, not {expected} ±{tolerance}")) }
}

fn answers() -> impl FnMut(&Check) -> Result<Value, String> {
    let mut kept: HashMap<(String, String), Result<Value, String>> = HashMap::new();
    move |check| {
        kept.entry((check.calculator.clone(), check.inputs.clone()))
            .or_insert_with(|| asked(check.entry(), &check.inputs).map_err(|refusal| format!("refused: {refusal:?}")))
            .clone()
    }
}

#[test]
fn every_answer_agrees_with_its_outside_value() {
    let mut answer = answers();
    let mut failures = Vec::new();
    let mut counts: BTreeMap<(String, String), usize> = BTreeMap::new();
    for check in checks() {
        *counts.entry((check.calculator.clone(), check.kind.clone())).or_default() += 1;
        let outcome = answer(&check).and_then(|answer| compare(&check, found(&answer, &check.field)?));
        if let Err(says) = outcome {
            failures.push(format!("{} {}?{} {}: {says}", check.line, check.calculator, check.inputs, check.field));
        }
    }
    let lines: Vec<String> =
        counts.iter().map(|((calculator, kind), count)| format!("{calculator}: {count} {kind}\n")).collect();
    golden("data/checks/counts.txt", &lines.concat());
    assert!(failures.is_empty(), "{} of the checks fail:\n{}", failures.len(), failures.join("\n"));
}

#[test]
fn every_calculator_has_at_least_five_outside_checks() {
    let checks = checks();
    for entry in REGISTER {
        let outside = checks.iter().filter(|check| check.calculator == entry.id && check.is_outside()).count();
        assert!(outside >= 5, "{} has {outside} outside checks", entry.id);
    }
}

#[test]
fn a_changed_expected_value_is_noticed_in_every_row() {
    let mut answer = answers();
    for check in checks() {
        let Ok(answer) = answer(&check) else { continue };
        let Ok(value) = found(&answer, &check.field) else { continue };
        let mut changed = check.clone();
        if check.tolerance.is_empty() {
            changed.expected.push('x');
        } else {
            let expected: f64 = check.expected.parse().expect("a number");
            let tolerance: f64 = check.tolerance.parse().expect("a tolerance");
            let shift = (3.0 * tolerance).max(expected.abs() * 1e-12);
            changed.expected = format!("{}", expected + shift);
        }
        assert!(compare(&changed, value).is_err(), "{}: a change goes unnoticed", check.line);
    }
}

#[test]
fn every_check_is_of_a_known_kind_and_names_its_source() {
    for check in checks() {
        assert!(KINDS.contains(&check.kind.as_str()), "{}: kind {}", check.line, check.kind);
        assert!(shop_reckoner::sources::source(&check.source).is_some(), "{}: source {}", check.line, check.source);
        assert!(!check.place.is_empty(), "{}: no place in the source", check.line);
        if check.kind == "library" {
            let script = check.place.split_whitespace().find(|word| word.starts_with("tests/checks/"));
            let script = script.unwrap_or_else(|| panic!("{}: no script named", check.line));
            let script = script.trim_end_matches([',', ';', ':']);
            assert!(common::root().join(script).exists(), "{}: no {script}", check.line);
        }
    }
}

/// What the checks do not cover, by family of threads.
const NOT_COVERED: [(ThreadSystem, &str, &str); 8] = [
    (
        ThreadSystem::Unified,
        "Unified",
        "tolerances for an engagement of one's own have no printed value, only the formula; UNJ",
    ),
    (
        ThreadSystem::Metric,
        "metric",
        "positions a to d, and two positions in one class; most lengths of engagement are recalled",
    ),
    (ThreadSystem::Npt, "NPT", "L1 (data, from a reprint); gauge tolerances"),
    (ThreadSystem::PipeParallel, "G", "the tolerances, which are data from the same source as the sizes"),
    (ThreadSystem::PipeTaper, "R, Rp, Rc", "the lengths are recalled; no limits"),
    (ThreadSystem::Whitworth, "BSW, BSF", "the sizes are held against a drawn profile only; no tolerances"),
    (ThreadSystem::Acme, "Acme", "classes 3G and 4G beyond the allowance; centralizing and stub threads"),
    (ThreadSystem::Trapezoidal, "trapezoidal", "tolerances, recalled and compared with nothing"),
];

/// The family that a row's thread belongs to.
fn family(check: &Check) -> Option<ThreadSystem> {
    let of = |field: &str| check.inputs.split('&').find_map(|pair| pair.strip_prefix(field));
    read(of("designation=").or_else(|| of("thread="))?).ok().map(|thread| thread.system)
}

/// Whether the answer rounds to the number printed.
fn is_exact(check: &Check, value: &Value) -> bool {
    let places = check.expected.split_once('.').map_or(0, |(_, places)| places.len() as i32);
    let is = value["value"].as_f64().or_else(|| value.as_f64()).unwrap_or(f64::NAN);
    let printed: f64 = check.expected.parse().unwrap_or(f64::NAN);
    // Half a place is a tie that the source may settle either way.
    (is - printed).abs() <= 0.5 * 10f64.powi(-places) * (1.0 + 1e-6)
}

#[test]
fn the_evidence_of_threads_is_counted_as_it_is() {
    let mut answer = answers();
    let mut counts: HashMap<&str, [usize; 4]> = HashMap::new();
    let rows = checks();
    let of_threads =
        rows.iter().filter(|check| ["threads/thread", "threads/tap-limit"].contains(&check.calculator.as_str()));
    for check in of_threads.filter(|check| !check.tolerance.is_empty()) {
        let system = family(check).unwrap_or_else(|| panic!("{}: {} has no thread", check.line, check.inputs));
        let (_, name, _) = NOT_COVERED.into_iter().find(|(one, _, _)| *one == system).expect("every family is listed");
        let count = counts.entry(name).or_default();
        match check.kind.as_str() {
            "published" => {
                count[0] += 1;
                let answer = answer(check).unwrap_or_else(|says| panic!("{}: {says}", check.line));
                let value = found(&answer, &check.field).unwrap_or_else(|says| panic!("{}: {says}", check.line));
                if is_exact(check, value) {
                    count[1] += 1;
                } else if compare(check, value).is_ok() {
                    count[2] += 1;
                }
            }
            "from memory" => count[3] += 1,
            _ => {}
        }
    }
    let notes = std::fs::read_to_string(root().join("data/checks/README.md")).expect("the README of the checks");
    let (_, table) = notes.split_once("## Left out, and why").expect("the table of cells left out");
    let left_out = |name: &str| table.lines().filter(|line| line.starts_with(&format!("| {name} |"))).count();
    let mut text = String::from(
        "\n| family | printed | exact | near | neither | recalled, not counted | cells left out as misprints or unclear | not covered |\n\
         |---|---|---|---|---|---|---|---|\n",
    );
    for (_, name, lacks) in NOT_COVERED {
        let [printed, exact, near, recalled] = counts.get(name).copied().unwrap_or_default();
        let neither = printed - exact - near;
        let left_out = left_out(name);
        text.push_str(&format!(
            "| {name} | {printed} | {exact} | {near} | {neither} | {recalled} | {left_out} | {lacks} |\n"
        ));
    }
    text.push('\n');
    let path = "data/README.md";
    let readme = std::fs::read_to_string(root().join(path)).expect("the README of the data");
    let (begin, end) = ("<!-- evidence of threads: begin -->\n", "<!-- evidence of threads: end -->");
    let (before, rest) = readme.split_once(begin).expect("where the table begins");
    let (_, after) = rest.split_once(end).expect("where it ends");
    golden(path, &format!("{before}{begin}{text}{end}{after}"));
}

#[test]
fn the_hard_cells_of_the_thread_tables_come_out_of_the_service() {
    let thread = shop_reckoner::calculators::find("threads/thread").expect("the calculator");
    // Each needs a step of the rounding that is easily left out; printed as the checks cite them, or recalled.
    for (designation, field, printed) in [
        ("1/4-20 UNC-2B", "/limits/internal/pitch_max", 0.2224),
        ("5/8-11 UNC-2A", "/limits/external/allowance", 0.0016),
        ("#10-24 UNC-2B", "/limits/internal/minor_min", 0.145),
        ("#10-24 UNC-2B", "/limits/internal/minor_max", 0.156),
        ("1-3/4-5 UNC-2B", "/limits/internal/minor_min", 1.534),
        ("1-3/4-5 UNC-2B", "/limits/internal/minor_max", 1.568),
        ("M4x0.5-6g", "/limits/external/pitch_max", 3.655),
        ("M4x0.5-6g", "/limits/external/pitch_min", 3.580),
        ("M6-6G", "/limits/internal/pitch_min", 5.376),
        ("M6-6G", "/limits/internal/pitch_max", 5.526),
        ("1 1/2-11.5 NPT", "/gauging/gauge_pitch_diameter", 1.82234),
        ("G 1/2", "/minor_diameter", 18.631),
    ] {
        let answer = asked(thread, &format!("designation={designation}")).expect("an answer");
        let value = found(&answer, field).unwrap_or_else(|says| panic!("{designation}: {says}"));
        assert_eq!(value["value"].as_f64(), Some(printed), "{designation} {field}");
    }
    let answer = asked(thread, "designation=1-5 Acme&external_class=3G&internal_class=3G").expect("an answer");
    assert_eq!(answer["result"]["stress_area"]["text"], "0.5354 in²");
}
