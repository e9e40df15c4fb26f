//! Drawings of holes for screws, measured by their geometry: clearance holes and slots, counterbores, countersinks and
//! step drills.

use crate::datum::corners;
use crate::{compare, length, number};
use proptest::prelude::*;

const SCREWS: [&str; 8] = ["M3", "M8", "M12", "M24", "1/4", "No.10", "1/2", "1 in"];

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, ..ProptestConfig::default() })]

    #[test]
    fn the_slot_is_as_wide_and_long_as_answered(at in 0usize..8, part in 0.2..4.0f64, slotted in any::<bool>()) {
        let screw = SCREWS[at];
        let slot = if slotted { format!("&adjustment={} mm", 10.0 * part) } else { String::new() };
        compare("holes/clearance", &format!("screw={screw}&from=tables{slot}"), |sheet, answer| {
            let hole = length(&answer["result"]["hole_diameter"]);
            if slotted {
                let sides = sheet.of_field("line", "slot_width");
                let apart = (number(sides[0], "y1") - number(sides[1], "y1")).abs() / sheet.scale;
                sheet.same(apart, hole, "width")?;
                let long = (number(sides[0], "x2") - number(sides[0], "x1")).abs() / sheet.scale;
                return sheet.same(long + hole, length(&answer["result"]["slot_length"]), "length");
            }
            let circle = sheet.of_field("circle", "hole_diameter")[0];
            sheet.same(2.0 * number(circle, "r") / sheet.scale, hole, "hole")
        })?;
    }

    #[test]
    fn the_counterbore_stands_in_the_part_as_answered(at in 0usize..8, below in 0.0..1.0f64, through in any::<bool>()) {
        let screw = SCREWS[at];
        let thickness = if through { "&thickness=60 mm" } else { "" };
        let query = format!("screw={screw}&from=tables&below={} mm{thickness}", 5.0 * below);
        compare("holes/counterbore", &query, |sheet, answer| {
            for wall in sheet.of_field("path", "counterbore") {
                let points = corners(sheet, wall);
                sheet.same(2.0 * points[1].0.abs(), length(&answer["result"]["diameter"]), "diameter")?;
                sheet.same(-points[2].1, length(&answer["result"]["depth"]), "depth")?;
                sheet.same(2.0 * points[3].0.abs(), length(&answer["result"]["hole_diameter"]), "hole")?;
            }
            Ok(())
        })?;
    }

    #[test]
    fn the_countersink_has_the_angle_of_the_tool(
        diameter in 1.0..60.0f64, angle in 40.0..130.0f64, part in 0.1..0.9f64, bored in any::<bool>(), ball in 0.2..0.8f64,
    ) {
        let hole = if bored { format!("&hole_diameter={} mm", part * diameter) } else { format!("&tip_flat={} mm", 0.2 * part * diameter) };
        let least = if bored { part } else { 0.2 * part };
        let ball = diameter * (least + (1.0 - least) * ball) / (angle / 2.0).to_radians().cos();
        let query = format!("diameter={diameter} mm&point_angle={angle} deg{hole}&ball_diameter={ball} mm");
        compare("holes/countersink", &query, |sheet, answer| {
            for wall in sheet.of_field("path", "countersink") {
                let points = corners(sheet, wall);
                let slope = ((points[1].0 - points[2].0) / (points[1].1 - points[2].1)).abs().atan().to_degrees();
                let seen = (0.1 / sheet.scale / (points[1].1 - points[2].1).abs()).to_degrees();
                prop_assert!((slope - angle / 2.0).abs() < seen, "a side at {slope} of {angle}");
            }
            let circle = sheet.of_field("circle", "ball_diameter")[0];
            let (_, middle) = sheet.model(number(circle, "cx"), number(circle, "cy"));
            let top = middle + number(circle, "r") / sheet.scale;
            // The face is where the walls begin.
            let face = corners(sheet, sheet.of_field("path", "countersink")[0])[0].1;
            sheet.same(top - face, length(&answer["result"]["ball_above"]), "ball")
        })?;
    }

    #[test]
    fn a_step_drill_is_drawn_with_both_diameters(
        small in 1.0..20.0f64, ratio in 1.1..2.5f64, long in 0.5..3.0f64, deep in 0.0..2.0f64, angle in 60.0..180.0f64,
    ) {
        let query = format!(
            "diameter={small} mm&step_diameter={} mm&step_length={} mm&step_angle={angle} deg&step_floor={} mm",
            small * ratio, small * long, small * deep
        );
        compare("holes/drill-point", &query, |sheet, answer| {
            let outline = corners(sheet, sheet.of_field("path", "drill")[0]);
            let lowest = outline.iter().map(|(_, y)| *y).fold(f64::INFINITY, f64::min);
            sheet.same(-lowest, length(&answer["result"]["tip_depth"]), "tip")?;
            let widest = outline.iter().map(|(x, _)| x.abs()).fold(0.0, f64::max);
            sheet.same(2.0 * widest, length(&answer["inputs"]["step_diameter"]), "large diameter")?;
            let large = outline.iter().filter(|(x, _)| (x.abs() - widest).abs() * sheet.scale < 0.01);
            let begins = large.map(|(_, y)| *y).fold(f64::INFINITY, f64::min);
            sheet.same(-begins, length(&answer["inputs"]["step_floor"]), "large diameter's depth")
        })?;
    }
}
