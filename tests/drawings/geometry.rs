//! Drawings of figures: sides, corners and flats measured against the sizes asked for.

use crate::datum::{corners, ends, off_line, round};
use crate::{compare, length};
use proptest::prelude::*;

/// Distance of a point from the nearest place between two others.
fn distance(point: (f64, f64), [a, b]: [(f64, f64); 2]) -> f64 {
    let (off, along) = off_line(point, [a, b]);
    let past = (along - (b.0 - a.0).hypot(b.1 - a.1)).max(-along).max(0.0);
    off.hypot(past)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, ..ProptestConfig::default() })]

    #[test]
    fn the_sides_of_a_triangle_are_as_long_as_they_are(
        a in 5.0..200.0f64, b in 5.0..200.0f64, part in 0.05..0.95f64, angle in 10.0..170.0f64, by in 0..3usize,
    ) {
        let c = (a - b).abs() + part * (a + b - (a - b).abs());
        let query = [
            format!("side_a={a} mm&side_b={b} mm&side_c={c} mm"),
            format!("side_a={a} mm&side_b={b} mm&angle_c={angle} deg"),
            format!("side_c={a} mm&angle_a={} deg&angle_b={} deg", angle * part, (180.0 - angle) * part),
        ];
        compare("geometry/triangle", &query[by], |sheet, answer| {
            let solution = &answer["result"]["solutions"][0];
            let mut drawn = Vec::new();
            for side in ["side_a", "side_b", "side_c"] {
                let [from, to] = ends(sheet, sheet.of_field("line", side)[0]);
                sheet.same((to.0 - from.0).hypot(to.1 - from.1), length(&solution[side]), side)?;
                drawn.push([from, to]);
            }
            // The corner opposite side a is where b and c meet.
            let (height, _) = off_line(drawn[1][0], drawn[0]);
            let other = off_line(drawn[1][1], drawn[0]).0;
            let height = if height.abs() > other.abs() { height } else { other };
            // Off a side that is short on the sheet a height is read as much less sharply.
            let sides = ["side_a", "side_b", "side_c"].map(|side| length(&solution[side]));
            let share = sides[0] / sides.into_iter().fold(0.0, f64::max);
            sheet.same(height.abs() * share, length(&solution["height_a"]) * share, "the height over side a")
        })?;
    }

    #[test]
    fn both_triangles_share_the_angle(b in 20.0..200.0f64, angle in 10.0..80.0f64, part in 0.1..0.9f64) {
        let low = b * angle.to_radians().sin();
        let query = format!("side_a={} mm&side_b={b} mm&angle_a={angle} deg", low + part * (b - low));
        compare("geometry/triangle", &query, |sheet, answer| {
            prop_assert_eq!(answer["result"]["solutions"].as_array().map(Vec::len), Some(2));
            let both: Vec<_> = sheet.of_field("line", "side_b").into_iter().map(|line| ends(sheet, line)).collect();
            prop_assert_eq!(both.len(), 2);
            for (one, other) in both[0].iter().zip(&both[1]) {
                sheet.same((one.0 - other.0).hypot(one.1 - other.1), 0.0, "side b of both")?;
            }
            Ok(())
        })?;
    }

    #[test]
    fn the_corners_of_a_keyseat_lie_on_the_shaft(shaft in 8.5..400.0f64, worn in 0.0..0.02f64) {
        let query = format!("shaft_diameter={shaft} mm&measured_diameter={} mm", shaft * (1.0 - worn));
        compare("geometry/keyseat", &query, |sheet, answer| {
            let si = |field: &str| answer["result"][field]["value"].as_f64().unwrap_or(f64::NAN) / 1000.0;
            let radius = shaft * (1.0 - worn) / 2000.0;
            let sides: Vec<_> = sheet.of_field("line", "depth_at_side").into_iter().map(|line| ends(sheet, line)).collect();
            prop_assert_eq!(sides.len(), 2);
            for [one, other] in sides {
                let (top, low) = if one.1 > other.1 { (one, other) } else { (other, one) };
                sheet.same(top.0.hypot(top.1), radius, "a corner of the slot")?;
                sheet.same(top.1 - low.1, si("depth_at_side"), "a side of the slot")?;
                sheet.same(radius - low.1, si("depth_from_top"), "the bottom of the slot")?;
            }
            Ok(())
        })?;
    }

    #[test]
    fn the_pins_of_a_gear_touch_its_flanks_and_lie_in_two_of_its_spaces(
        teeth in 8u32..80, module in 0.5..8.0f64, part in 1.6..1.9f64, shift in 0.0..0.4f64,
    ) {
        let query = format!(
            "teeth={teeth}&module={module} mm&pin_diameter={} mm&shift={} mm&depth=full", part * module, shift * module
        );
        compare("geometry/spur-gear", &query, |sheet, answer| {
            let si = |field: &str| length(&answer["result"][field]);
            let pins: Vec<_> = sheet.of_field("circle", "pins").into_iter().map(|pin| round(sheet, pin)).collect();
            prop_assert_eq!(pins.len(), 2);
            let apart = (pins[0].0 - pins[1].0).hypot(pins[0].1 - pins[1].1);
            sheet.same(apart + si("pins"), si("over_pins"), "over the pins")?;
            let turn = (pins[0].1.atan2(pins[0].0) - pins[1].1.atan2(pins[1].0)).rem_euclid(std::f64::consts::TAU);
            let spaces = turn * f64::from(teeth) / std::f64::consts::TAU;
            prop_assert!((spaces - spaces.round()).abs() < 0.02, "{} spaces apart", spaces);
            // Nothing of the gear lies inside of a pin, and its flanks come up to it.
            let gear = corners(sheet, sheet.of_field("path", "gear")[0]);
            for (x, y, r) in pins {
                let reach = (0..gear.len()).map(|at| distance((x, y), [gear[at], gear[(at + 1) % gear.len()]]));
                let nearest = reach.fold(f64::INFINITY, f64::min);
                prop_assert!((nearest - r).abs() < 0.03 * module / 1000.0, "{} m from the flank, radius {}", nearest, r);
            }
            Ok(())
        })?;
    }

    #[test]
    fn a_flat_ends_on_the_round_or_on_the_next_flat(
        diameter in 5.0..200.0f64, flats in 1..9u32, part in 0.02..0.9f64,
    ) {
        let depth = diameter / 2.0 * part;
        let query = format!("diameter={diameter} mm&flats={flats}&depth={depth} mm");
        compare("geometry/flat-on-round", &query, |sheet, answer| {
            let lines: Vec<_> = sheet.of_field("line", "flat_width").into_iter().map(|line| ends(sheet, line)).collect();
            prop_assert_eq!(lines.len(), flats as usize);
            let meet = answer["result"]["flats_meet"] == true;
            for (at, [from, to]) in lines.iter().enumerate() {
                sheet.same(off_line((0.0, 0.0), [*from, *to]).0.abs(), diameter / 2000.0 - depth / 1000.0, "a flat")?;
                if meet {
                    let next = lines[(at + 1) % lines.len()];
                    let gap = [*from, *to].into_iter().flat_map(|end| next.map(|other| (end.0 - other.0).hypot(end.1 - other.1)));
                    sheet.same(gap.fold(f64::INFINITY, f64::min), 0.0, "between two flats")?;
                } else {
                    sheet.same(from.0.hypot(from.1), diameter / 2000.0, "the end of a flat")?;
                }
            }
            Ok(())
        })?;
    }

    #[test]
    fn the_holes_and_arms_of_an_index_plate_lie_at_their_angles(divisions in 41u32..200, circle in 15u32..70) {
        let query = format!("divisions={divisions}&worm_ratio=40&plates={circle}&methods=simple");
        compare("geometry/dividing-head", &query, |sheet, answer| {
            let way = &answer["result"]["ways"][0];
            let holes = way["holes"].as_f64().expect("holes");
            let dots = sheet.document.descendants().filter(|node| node.tag_name().name() == "circle").count();
            prop_assert!(dots >= circle as usize, "{} dots", dots);
            for (arm, hole) in sheet.of_field("line", "sector_arm").into_iter().zip([0.0, holes]) {
                let [_, (x, y)] = ends(sheet, arm);
                let (sin, cos) = (std::f64::consts::TAU * hole / f64::from(circle)).sin_cos();
                // From twelve o'clock, clockwise.
                sheet.same(x * cos - y * sin, 0.0, "arm")?;
                prop_assert!(x * sin + y * cos > 0.0);
            }
            Ok(())
        })?;
    }

    #[test]
    fn every_line_drawn_touches_both_circles(
        x in -200.0..200.0f64, y in -200.0..200.0f64, first in 5.0..80.0f64, second in 5.0..80.0f64,
        away in 1.05..4.0f64, turn in 0.0..360.0f64,
    ) {
        let (sin, cos) = turn.to_radians().sin_cos();
        let by = away * (first + second) / 2.0;
        let query = format!(
            "first_center={x} mm,{y} mm&first_diameter={first} mm&second_center={} mm,{} mm&second_diameter={second} mm",
            x + by * cos, y + by * sin
        );
        compare("geometry/tangents", &query, |sheet, _| {
            let lines = sheet.of_field("line", "tangents");
            prop_assert_eq!(lines.len(), 4);
            for field in ["first_diameter", "second_diameter"] {
                let (cx, cy, r) = round(sheet, sheet.of_field("circle", field)[0]);
                for line in &lines {
                    let (off, _) = off_line((cx, cy), ends(sheet, *line));
                    sheet.same(off.abs(), r, field)?;
                }
            }
            Ok(())
        })?;
    }

    #[test]
    fn every_blend_drawn_has_its_center_a_radius_from_both(
        radius in 2.0..40.0f64, off in -60.0..60.0f64, diameter in 10.0..120.0f64, turn in 0.0..360.0f64,
    ) {
        let (sin, cos) = turn.to_radians().sin_cos();
        prop_assume!(off.abs() < diameter / 2.0 + 2.0 * radius - 0.5);
        let on = |along: f64| format!("{} mm,{} mm", along * cos - off * sin, along * sin + off * cos);
        let query = format!(
            "radius={radius} mm&first_center=0 mm,0 mm&first_diameter={diameter} mm&first_line={};{}", on(-50.0), on(50.0)
        );
        compare("geometry/fillet", &query, |sheet, answer| {
            let centers = sheet.of_field("circle", "fillets.center");
            prop_assert_eq!(answer["result"]["fillets"].as_array().map(Vec::len), Some(centers.len()));
            let line = ends(sheet, sheet.of_field("line", "first_line")[0]);
            let (cx, cy, r) = round(sheet, sheet.of_field("circle", "first_diameter")[0]);
            for center in centers {
                let (x, y, _) = round(sheet, center);
                sheet.same(off_line((x, y), line).0.abs(), radius / 1000.0, "the line")?;
                let away = (x - cx).hypot(y - cy);
                let near = [r + radius / 1000.0, (r - radius / 1000.0).abs()];
                let near = near.into_iter().min_by(|a, b| (a - away).abs().total_cmp(&(b - away).abs()));
                sheet.same(away, near.unwrap_or_default(), "the circle")?;
            }
            Ok(())
        })?;
    }
}
