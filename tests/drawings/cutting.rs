//! Drawings of ball noses, ways into the work and what a feed leaves, measured by their geometry.

use crate::datum::{corners, ends, round};
use crate::{compare, length};
use proptest::prelude::*;

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, ..ProptestConfig::default() })]

    #[test]
    fn the_diameter_that_cuts_ends_on_the_ball(
        diameter in 0.5..50.0f64, depth in 0.001..0.5f64, tilt in 0.0..80.0f64, step in 0.02..0.9f64,
    ) {
        let query = format!(
            "diameter={diameter} mm&axial_depth={} mm&tilt={tilt} deg&stepover={} mm", depth * diameter, step * diameter
        );
        compare("speeds/ball-nose", &query, |sheet, answer| {
            let [a, b] = ends(sheet, sheet.of_field("line", "effective_diameter")[0]);
            let radius = diameter / 2000.0;
            for (x, y) in [a, b] {
                sheet.same(x.hypot(y - radius), radius, "from the middle of the ball")?;
            }
            sheet.same((b.0 - a.0).hypot(b.1 - a.1), length(&answer["result"]["effective_diameter"]), "that cuts")?;
            let surface = corners(sheet, sheet.of_field("path", "surface")[0]);
            // Between two passes nothing stands higher than the cusp.
            let step = step * diameter / 1000.0;
            let between = surface.iter().filter(|(x, _)| (-step..=0.0).contains(x)).map(|(_, y)| *y);
            sheet.same(between.fold(0.0, f64::max), length(&answer["result"]["cusp_height"]), "the cusp")
        })?;
    }

    #[test]
    fn every_groove_has_the_shape_of_the_nose(radius in 0.05..10.0f64, part in 0.001..2.0f64) {
        let query = format!("nose_radius={radius} mm&feed_per_rev={} mm/rev", part * radius);
        compare("speeds/surface-finish", &query, |sheet, answer| {
            let (radius, feed) = (radius / 1000.0, part * radius / 1000.0);
            let surface = corners(sheet, sheet.of_field("path", "surface")[0]);
            for (x, y) in &surface {
                let over = x - (x / feed).round() * feed;
                sheet.same(over.hypot(y - radius), radius, "from the middle of the nose")?;
            }
            let peak = surface.iter().map(|(_, y)| *y).fold(0.0, f64::max);
            sheet.same(peak, length(&answer["result"]["theoretical_height"]), "the peak")?;
            for (x, y) in corners(sheet, sheet.of_field("path", "nose")[0]) {
                sheet.same(x.hypot(y - radius), radius, "the nose")?;
            }
            Ok(())
        })?;
    }

    #[test]
    fn by_the_usual_rule_the_grooves_stand_as_high_as_it_says(radius in 0.05..10.0f64, part in 0.001..2.0f64) {
        let query = format!("nose_radius={radius} mm&feed_per_rev={} mm/rev&method=usual", part * radius);
        compare("speeds/surface-finish", &query, |sheet, answer| {
            let surface = corners(sheet, sheet.of_field("path", "surface")[0]);
            let peak = surface.iter().map(|(_, y)| *y).fold(0.0, f64::max);
            sheet.same(peak, length(&answer["result"]["theoretical_height"]), "the peak")
        })?;
    }

    #[test]
    fn the_way_of_a_ramp_is_as_long_as_answered(depth in 0.5..20.0f64, slope in 1.0..30.0f64, slot in 0.2..30.0f64) {
        let query = format!(
            "way=ramp&depth={depth} mm&feed_rate=100 mm/min&ramp_angle={slope} deg&slot_length={} mm", slot * depth
        );
        compare("speeds/entry", &query, |sheet, answer| {
            let passes = answer["result"]["passes"].as_f64().expect("passes");
            // A single slope is a line.
            let one = sheet.of_field("line", "slope_length").into_iter().map(|line| ends(sheet, line).to_vec());
            let more = sheet.of_field("path", "slope_length").into_iter().map(|path| corners(sheet, path));
            let drawn: Vec<Vec<(f64, f64)>> = one.chain(more).collect();
            prop_assert_eq!(drawn.len(), usize::from(passes <= 40.0));
            let Some(way) = drawn.first() else { return Ok(()) };
            let long: f64 = way.windows(2).map(|pair| (pair[1].0 - pair[0].0).hypot(pair[1].1 - pair[0].1)).sum();
            // The flat pass is the floor.
            let expected = length(&answer["result"]["path_length"]) - length(&answer["inputs"]["slot_length"]);
            let whole = (long - expected).abs() * sheet.scale < 0.05;
            prop_assert!(whole, "{long} m drawn, {expected} m in the answer");
            Ok(())
        })?;
    }

    #[test]
    fn the_cutter_of_a_helix_touches_the_wall(cutter in 1.0..30.0f64, hole in 1.05..3.0f64, pitch in 0.05..0.5f64, depth in 0.2..4.0f64) {
        let query = format!(
            "way=helix&depth={} mm&feed_rate=100 mm/min&diameter={cutter} mm&hole_diameter={} mm&pitch={} mm",
            depth * cutter, hole * cutter, pitch * cutter
        );
        compare("speeds/entry", &query, |sheet, _| {
            let (x, y, radius) = round(sheet, sheet.of_field("circle", "diameter")[0]);
            let (hole_x, hole_y, wide) = round(sheet, sheet.of_field("circle", "hole_diameter")[0]);
            sheet.same((x - hole_x).hypot(y - hole_y) + radius, wide, "to the wall")
        })?;
    }
}
