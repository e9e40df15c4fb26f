//! Stacks of gauge blocks: the fewest blocks for seeded heights of whole sets, held against the least number for every
//! height; no block twice; what is refused names heights that can be made.

mod common;

use common::{asked, root};
use serde_json::Value;
use shop_reckoner::calculators::find;
use shop_reckoner::refusal::Refusal;

fn answer(query: &str) -> Result<Value, Refusal> {
    asked(find("geometry/gauge-blocks").expect("the calculator"), query)
}

/// A set as its table has it, in units of a ten-millionth of its own.
struct Set {
    name: &'static str,
    unit: &'static str,
    sizes: Vec<usize>,
    /// The step that every size is a multiple of, in the same units.
    step: usize,
}

fn set(name: &'static str, step: usize) -> Set {
    let text = std::fs::read_to_string(root().join("data/gauge_block_sets.csv")).expect("the table");
    let mut sizes = Vec::new();
    let whole = |text: &str| (text.parse::<f64>().expect("a number") * 1e7).round() as usize;
    for row in text.lines().filter(|row| row.starts_with(&format!("{name},"))) {
        let cells: Vec<&str> = row.split(',').collect();
        if cells[7] == "stack" {
            sizes.extend((0..cells[6].parse().expect("a count")).map(|at| whole(cells[3]) + at * whole(cells[5])));
        }
    }
    Set { name, unit: if name.starts_with("inch") { "in" } else { "mm" }, sizes, step }
}

/// The least number of blocks for every height up to `end`, in steps.
fn least(set: &Set, end: usize) -> Vec<u8> {
    let mut count = vec![u8::MAX; end + 1];
    count[0] = 0;
    for size in set.sizes.iter().map(|size| size / set.step).filter(|size| *size <= end) {
        for height in (size..=end).rev() {
            count[height] = count[height].min(count[height - size].saturating_add(1));
        }
    }
    count
}

fn blocks(answer: &Value, list: &str, unit: f64) -> Vec<usize> {
    let rows = answer["result"][list].as_array().expect("a list");
    rows.iter().map(|row| (row["size"]["value"].as_f64().expect("a size") * unit).round() as usize).collect()
}

#[test]
fn a_stack_has_as_few_blocks_as_any_and_none_twice() {
    let mut seed = 20_u64;
    for (name, step) in [
        ("inch_81", 1000),
        ("inch_36", 1000),
        ("inch_28_thin", 500),
        ("metric_112", 5000),
        ("metric_88", 5000),
        ("metric_45", 10_000),
    ] {
        let set = set(name, step);
        let end = 9 * set.sizes.iter().max().expect("sizes") / 5 / step;
        let count = least(&set, end);
        for _ in 0..60 {
            seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            let at = 1 + (seed >> 33) as usize % end;
            let height = (at * step) as f64 / 1e7;
            let units = if set.unit == "in" { "inch" } else { "metric" };
            let query = format!("height={height} {}&set={}&units={units}", set.unit, set.name);
            match answer(&query) {
                Ok(answer) => {
                    let first = blocks(&answer, "blocks", 1e7);
                    assert_eq!(first.len(), usize::from(count[at]), "{query}");
                    let mut left = set.sizes.clone();
                    for stack in [first, blocks(&answer, "second_blocks", 1e7)] {
                        assert!(stack.is_sorted_by(|a, b| a >= b), "{query}: the thickest at the bottom");
                        for size in &stack {
                            let at = left.iter().position(|one| one == size);
                            left.swap_remove(at.unwrap_or_else(|| panic!("{query}: {size} is used twice")));
                        }
                        assert!(stack.is_empty() || stack.iter().sum::<usize>() == at * step, "{query}");
                    }
                }
                Err(refusal) => {
                    assert!(count[at] > 10, "{query}: {refusal:?}");
                    let field = refusal.0[0].field.trim_start_matches('/').to_owned();
                    let good = refusal.0[0].try_this.clone().expect("a value to try");
                    let again = if field == "height" {
                        format!("height={good}&set={}", set.name)
                    } else {
                        format!("{query}&{field}={good}")
                    };
                    assert!(answer(&again).is_ok(), "{query}: {good} is refused too");
                }
            }
        }
    }
}

#[test]
fn a_height_that_cannot_be_made_is_refused_with_the_nearest() {
    let says = |query: &str| answer(query).expect_err(query).0.remove(0);
    let wrong = says("height=0.0601 in&set=inch_81");
    assert!(wrong.says.contains("0.05 in and 0.1 in"), "{}", wrong.says);
    assert_eq!(wrong.try_this.as_deref(), Some("0.05 in"));
    let wrong = says("height=58.3457 mm&set=metric_112");
    assert!(wrong.says.contains("58.3455 mm and 58.346 mm"), "{}", wrong.says);
    let wrong = says("height=58.345 mm&set=metric_112&most_blocks=3");
    assert_eq!((wrong.field.as_str(), wrong.try_this.as_deref()), ("/most_blocks", Some("4")));
    let wrong = says("height=17 mm&own=1 mm,2 mm,5 mm,10 mm,20 mm&missing=2 mm");
    assert!(wrong.says.contains("16 mm and 20 mm"), "{}", wrong.says);
}

#[test]
fn wear_blocks_stand_on_both_ends_and_the_blocks_of_the_set_between() {
    let answer = answer("height=2.1437 in&set=inch_83&wear_block=0.05 in&units=inch").expect("a stack");
    let stack = blocks(&answer, "blocks", 1e4);
    assert_eq!((stack[0], stack[stack.len() - 1]), (500, 500));
    assert_eq!(stack.iter().sum::<usize>(), 21_437);
    assert!(stack[1..stack.len() - 1].is_sorted_by(|a, b| a >= b));
}

#[test]
fn what_was_assumed_is_said_and_what_is_recalled_is_marked() {
    let metric = answer("height=58.345 mm").expect("a stack");
    assert_eq!(metric["assumed"][0]["value"], "metric_87");
    let inch = answer("height=1.3787 in").expect("a stack");
    assert_eq!(inch["assumed"][0]["value"], "inch_81");
    let trusts = |answer: &Value| answer["sources"].to_string().contains("from memory");
    assert!(trusts(&inch) && !trusts(&metric));
}

#[test]
fn a_sine_bar_takes_the_nearest_stack_and_says_what_it_sets() {
    let bar = find("geometry/sine-bar").expect("the calculator");
    let answer = asked(bar, "bar_length=5 in&angle=30.1 deg&set=inch_81&units=inch").expect("an answer");
    let result = &answer["result"];
    let (height, stack) = (&result["height"]["value"], &result["stack_height"]["value"]);
    let off = stack.as_f64().expect("a height") - height.as_f64().expect("a height");
    assert!(off.abs() <= 0.000_05 + 1e-12, "{off}");
    let seconds = result["error_seconds"].as_f64().expect("seconds");
    let per_minute = result["height_per_minute"]["value"].as_f64().expect("a height");
    assert!((seconds - off / per_minute * 60.0).abs() < 1e-3, "{seconds}");
    let refused = asked(bar, "bar_length=5 in&angle=0.1 deg&set=inch_81").expect_err("no block is so thin");
    assert_eq!(refused.0[0].field, "/low_stack");
    let good = refused.0[0].try_this.as_deref().expect("a value to try");
    assert!(asked(bar, &format!("bar_length=5 in&angle=0.1 deg&set=inch_81&low_stack={good}")).is_ok());
}
