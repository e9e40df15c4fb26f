//! Drawings of patterns, measured against places that the test works out by itself.

use crate::datum::{ends, round};
use crate::{Sheet, compare, length, number};
use proptest::prelude::*;
use serde_json::Value;

/// Every hole is drawn at the place and in the size that the answer gives.
fn holes_lie_as_answered(sheet: &Sheet, answer: &Value, diameter: f64) -> Result<(), TestCaseError> {
    let positions = answer["result"]["positions"].as_array().expect("positions");
    let circles = sheet.of_field("circle", "positions");
    prop_assert_eq!(circles.len(), positions.len());
    for (circle, place) in circles.iter().zip(positions) {
        prop_assert_eq!(number(*circle, "data-number"), place["number"].as_f64().expect("a number"));
        let (x, y, radius) = round(sheet, *circle);
        sheet.same(x, length(&place["x"]), "x")?;
        sheet.same(y, length(&place["y"]), "y")?;
        sheet.same(2.0 * radius, diameter, "hole")?;
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, ..ProptestConfig::default() })]

    #[test]
    fn rows_of_holes_are_where_they_were_put(
        columns in 2u32..9, rows in 2u32..7, pitch in (2.0..60.0f64, 2.0..60.0f64), turn in -200.0..200.0f64,
        center in (-90.0..90.0f64, -90.0..90.0f64), part in 0.1..0.9f64,
    ) {
        let hole = part * pitch.0.min(pitch.1);
        let query = format!(
            "columns={columns}&rows={rows}&pitch_x={} mm&pitch_y={} mm&rotation={turn} deg&center_x={} mm&center_y={} mm\
             &hole_diameter={hole} mm",
            pitch.0, pitch.1, center.0, center.1
        );
        compare("patterns/rectangular", &query, |sheet, answer| {
            holes_lie_as_answered(sheet, answer, hole / 1000.0)?;
            // The middle of all is where it was put, and hole 2 lies along the turned row.
            let all: Vec<_> = sheet.of_field("circle", "positions").iter().map(|circle| round(sheet, *circle)).collect();
            let count = all.len() as f64;
            sheet.same(all.iter().map(|hole| hole.0).sum::<f64>() / count, center.0 / 1000.0, "middle on x")?;
            sheet.same(all.iter().map(|hole| hole.1).sum::<f64>() / count, center.1 / 1000.0, "middle on y")?;
            let (sin, cos) = turn.to_radians().sin_cos();
            sheet.same(all[1].0 - all[0].0, pitch.0 * cos / 1000.0, "along x")?;
            sheet.same(all[1].1 - all[0].1, pitch.0 * sin / 1000.0, "along y")
        })?;
    }

    #[test]
    fn staggered_holes_lie_a_pitch_from_their_neighbors(
        columns in 2u32..8, rows in 2u32..7, pitch in 2.0..60.0f64, fewer in any::<bool>(), back in any::<bool>(),
    ) {
        let query = format!(
            "pitch={pitch} mm&columns={columns}&rows={rows}&second_row={}&numbering={}&hole_diameter={} mm",
            if fewer { "one_fewer" } else { "same" }, if back { "back_and_forth" } else { "rows" }, 0.7 * pitch
        );
        compare("patterns/triangular-pitch", &query, |sheet, answer| {
            holes_lie_as_answered(sheet, answer, 0.7 * pitch / 1000.0)?;
            let all: Vec<_> = sheet.of_field("circle", "positions").iter().map(|circle| round(sheet, *circle)).collect();
            for (at, one) in all.iter().enumerate() {
                let others = all.iter().enumerate().filter(|(other, _)| *other != at);
                let near = others.map(|(_, other)| (one.0 - other.0).hypot(one.1 - other.1)).fold(f64::INFINITY, f64::min);
                sheet.same(near, pitch / 1000.0, "to the nearest")?;
            }
            Ok(())
        })?;
    }

    #[test]
    fn holes_around_a_rectangle_lie_on_its_sides(
        size in (20.0..300.0f64, 20.0..300.0f64), columns in 2u32..9, rows in 2u32..9,
    ) {
        let query = format!("length={} mm&width={} mm&columns={columns}&rows={rows}&hole_diameter=1 mm", size.0, size.1);
        compare("patterns/around-rectangle", &query, |sheet, answer| {
            holes_lie_as_answered(sheet, answer, 0.001)?;
            for circle in sheet.of_field("circle", "positions") {
                let (x, y, _) = round(sheet, circle);
                let off = x.abs().min((x - size.0 / 1000.0).abs()).min(y.abs()).min((y - size.1 / 1000.0).abs());
                sheet.same(off, 0.0, "off the sides")?;
            }
            Ok(())
        })?;
    }

    #[test]
    fn a_row_and_an_arc_of_holes_are_where_the_answer_puts_them(
        holes in 2u32..12, pitch in 2.0..60.0f64, turn in -200.0..200.0f64, clockwise in any::<bool>(),
    ) {
        let query = format!("holes={holes}&pitch={pitch} mm&rotation={turn} deg&hole_diameter={} mm", 0.5 * pitch);
        compare("patterns/in-line", &query, |sheet, answer| holes_lie_as_answered(sheet, answer, pitch / 2000.0))?;
        let sense = if clockwise { "clockwise" } else { "counterclockwise" };
        let query = format!(
            "diameter={} mm&holes={holes}&chord={pitch} mm&middle_angle={turn} deg&hole_order={sense}&hole_diameter={} mm",
            6.0 * pitch, 0.5 * pitch
        );
        compare("patterns/pitch-arc", &query, |sheet, answer| {
            holes_lie_as_answered(sheet, answer, pitch / 2000.0)?;
            let all: Vec<_> = sheet.of_field("circle", "positions").iter().map(|circle| round(sheet, *circle)).collect();
            for pair in all.windows(2) {
                sheet.same((pair[1].0 - pair[0].0).hypot(pair[1].1 - pair[0].1), pitch / 1000.0, "chord")?;
            }
            Ok(())
        })?;
    }

    #[test]
    fn the_stops_of_a_rotary_table_lie_at_their_angles(holes in 2u32..40, radius in 5.0..300.0f64) {
        let query = format!("holes={holes}&worm_ratio=90&radius={radius} mm");
        compare("geometry/rotary-table", &query, |sheet, _| {
            let lines = sheet.of_field("line", "table");
            prop_assert_eq!(lines.len(), holes as usize);
            for (at, line) in lines.iter().enumerate() {
                let [_, (x, y)] = ends(sheet, *line);
                let (sin, cos) = (std::f64::consts::TAU * at as f64 / f64::from(holes)).sin_cos();
                sheet.same(x, radius * cos / 1000.0, "x")?;
                sheet.same(y, radius * sin / 1000.0, "y")?;
            }
            Ok(())
        })?;
    }
}
