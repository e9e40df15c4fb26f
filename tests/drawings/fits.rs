//! Drawings of fits: the bands of hole and shaft stand where the limits are, over the nominal size.

use crate::datum::{corners, ends};
use crate::{Sheet, compare, length};
use proptest::prelude::*;
use serde_json::Value;

/// The band of a part reaches from its smallest to its largest size.
fn band(sheet: &Sheet, answer: &Value, part: &str) -> Result<(), TestCaseError> {
    let paths = sheet.of_field("path", part);
    prop_assert_eq!(paths.len(), 2);
    for path in paths {
        let y = corners(sheet, path).into_iter().map(|(_, y)| y);
        let (low, high) = y.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), y| (low.min(y), high.max(y)));
        sheet.same(low, length(&answer["result"][part]["least"]), "the smallest")?;
        sheet.same(high, length(&answer["result"][part]["greatest"]), "the largest")?;
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, ..ProptestConfig::default() })]

    #[test]
    fn the_bands_of_an_iso_fit_are_its_limits(
        size in 1.5..500.0f64, hole in 0usize..6, shaft in 0usize..8,
    ) {
        let hole = ["H7", "H8", "K7", "P7", "JS9", "F8"][hole];
        let shaft = ["h6", "g6", "f7", "c11", "js5", "k6", "s6", "u7"][shaft];
        let size = (size * 1000.0).round() / 1000.0;
        compare("fits/limits", &format!("fit={size} mm {hole}/{shaft}&units=metric"), |sheet, answer| {
            for part in ["hole", "shaft"] {
                band(sheet, answer, part)?;
            }
            let [a, b] = ends(sheet, sheet.of_field("line", "size")[0]);
            sheet.same(a.1, size / 1000.0, "the nominal size")?;
            sheet.same(b.1, size / 1000.0, "the nominal size")
        })?;
    }

    #[test]
    fn the_bands_of_an_inch_fit_are_its_limits(size in 0.01..19.0f64, at in 0usize..9, on_shaft in any::<bool>()) {
        let class = ["RC1", "RC5", "RC9", "LC3", "LC11", "LT4", "LN2", "FN2", "FN5"][at];
        let basis = if on_shaft { "shaft" } else { "hole" };
        let size = (size * 1000.0).round() / 1000.0;
        compare("fits/running", &format!("size={size} in&class={class}&basis={basis}&units=inch"), |sheet, answer| {
            band(sheet, answer, "hole")?;
            band(sheet, answer, "shaft")
        })?;
    }
}
