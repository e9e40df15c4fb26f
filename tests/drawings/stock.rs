//! Drawings of stock: sections by their area, bars by what comes from them.

use crate::datum::corners;
use crate::{compare, length};
use proptest::prelude::*;

/// The area inside a closed path.
fn area(corners: &[(f64, f64)]) -> f64 {
    let next = corners.iter().cycle().skip(1);
    corners.iter().zip(next).map(|(a, b)| a.0 * b.1 - b.0 * a.1).sum::<f64>().abs() / 2.0
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 30, ..ProptestConfig::default() })]

    #[test]
    fn a_section_of_straight_sides_has_the_area_answered(
        width in 1.0..300.0f64, height in 1.0..300.0f64, wall in 0.02..0.45f64, form in 0..5usize,
    ) {
        let wall = wall * width.min(height);
        let sizes = [
            format!("form=square&width={width} mm"),
            format!("form=hexagon&width={width} mm"),
            format!("form=octagon&width={width} mm"),
            format!("form=rectangular_tube&width={width} mm&height={height} mm&wall={wall} mm"),
            format!("form=angle&width={width} mm&height={height} mm&wall={wall} mm"),
        ];
        compare("stock/mass", &format!("density=7.85 g/cm3&{}", sizes[form]), |sheet, answer| {
            let paths = sheet.document.descendants().filter(|node| node.tag_name().name() == "path");
            let closed = paths.filter(|node| node.attribute("d").is_some_and(|d| d.ends_with('Z')));
            let mut areas: Vec<f64> = closed.map(|path| area(&corners(sheet, path))).collect();
            areas.sort_by(|a, b| b.total_cmp(a));
            // The hole of a tube is the smaller of two outlines.
            let drawn = areas[0] - areas.get(1).filter(|_| form == 3).copied().unwrap_or(0.0);
            let expected = answer["result"]["section_area"]["value"].as_f64().expect("an area") / 1e6;
            let off = (drawn.sqrt() - expected.sqrt()).abs() * sheet.scale;
            prop_assert!(off < 0.5, "{} m² drawn, {} m² in the answer", drawn, expected);
            Ok(())
        })?;
    }

    #[test]
    fn every_bar_is_as_long_as_it_is(
        long in 50.0..900.0f64, short in 50.0..900.0f64, number in 1..9u32, kerf in 0.0..4.0f64,
    ) {
        let query = format!("pieces={long} mm,{number};{short} mm,3&bars=1200 mm;3000 mm&kerf={kerf} mm");
        compare("stock/cut-list", &query, |sheet, answer| {
            let rows = answer["result"]["cut_bars"].as_array().expect("rows");
            let bars = sheet.of_field("path", "cut_bars");
            prop_assert_eq!(bars.len(), rows.len().min(10));
            for (bar, row) in bars.into_iter().zip(rows) {
                let corners = corners(sheet, bar);
                sheet.same(corners[1].0 - corners[0].0, length(&row["length"]), "a bar")?;
            }
            Ok(())
        })?;
    }
}
