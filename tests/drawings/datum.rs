//! Drawings of touches, places and stops, measured against work that the test knows the shape of.

use crate::{Sheet, compare, length, number, shown};
use proptest::prelude::*;
use roxmltree::Node;
use serde_json::Value;
use std::f64::consts::TAU;

/// The middle and the radius of a circle or dot in the model.
pub fn round(sheet: &Sheet, circle: Node) -> (f64, f64, f64) {
    let (x, y) = sheet.model(number(circle, "cx"), number(circle, "cy"));
    (x, y, number(circle, "r") / sheet.scale)
}

/// The ends of a line in the model.
pub fn ends(sheet: &Sheet, line: Node) -> [(f64, f64); 2] {
    [("x1", "y1"), ("x2", "y2")].map(|(x, y)| sheet.model(number(line, x), number(line, y)))
}

/// Distance of a point from the straight line through two others, and how far along it that is.
pub fn off_line(point: (f64, f64), [a, b]: [(f64, f64); 2]) -> (f64, f64) {
    let (dx, dy) = (b.0 - a.0, b.1 - a.1);
    let (px, py) = (point.0 - a.0, point.1 - a.1);
    let size = dx.hypot(dy);
    ((dx * py - dy * px) / size, (dx * px + dy * py) / size)
}

/// The corners of a path of straight lines, in the model.
pub fn corners(sheet: &Sheet, path: Node) -> Vec<(f64, f64)> {
    let d = path.attribute("d").expect("a path").replace(['M', 'L', 'Z'], " ");
    let n: Vec<f64> = d.split_whitespace().map(|n| n.parse().expect("a number")).collect();
    n.chunks(2).map(|pair| sheet.model(pair[0], pair[1])).collect()
}

fn points(of: impl IntoIterator<Item = (f64, f64)>) -> String {
    of.into_iter().map(|(x, y)| format!("{x} mm,{y} mm")).collect::<Vec<_>>().join(";")
}

fn turned((x, y): (f64, f64), degrees: f64) -> (f64, f64) {
    let (sin, cos) = degrees.to_radians().sin_cos();
    (x * cos - y * sin, x * sin + y * cos)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, ..ProptestConfig::default() })]

    #[test]
    fn the_tip_touches_the_face_or_the_shim(
        growing in any::<bool>(), tip in 0.1..30.0f64, shim in prop_oneof![Just(0.0), 0.01..5.0f64], face in -300.0..300.0f64,
    ) {
        let was = if growing { "growing" } else { "falling" };
        let query = format!("reading_was={was}&tip_diameter={tip} mm&shim={shim} mm&face_position={face} mm");
        compare("datum/touch-off", &query, |sheet, answer| {
            let (x, _, radius) = round(sheet, sheet.of_field("circle", "tip_diameter")[0]);
            let [(wall, _), _] = ends(sheet, sheet.of_field("line", "face")[0]);
            sheet.same(wall, face / 1000.0, "the face")?;
            sheet.same(x, length(&answer["result"]["set_reading"]), "the middle of the spindle")?;
            // The reading that grew reaches the tip before the face.
            prop_assert_eq!(x < wall, growing);
            sheet.same((x - wall).abs() - radius, shim / 1000.0, "between tip and face")
        })?;
    }

    #[test]
    fn the_tip_touches_both_faces(
        low in -300.0..300.0f64, width in 0.5..200.0f64, tip in 0.0..0.9f64, inside in any::<bool>(), back in any::<bool>(),
    ) {
        let tip = tip * width;
        let outwards = if inside { -tip / 2.0 } else { tip / 2.0 };
        let mut touches = [low - outwards, low + width + outwards];
        if back {
            touches.reverse();
        }
        let touched = if inside { "inside" } else { "outside" };
        let query = format!("first={} mm&second={} mm&tip_diameter={tip} mm&touched={touched}", touches[0], touches[1]);
        compare("datum/between-faces", &query, |sheet, _| {
            let mut faces: Vec<f64> = sheet.of_field("line", "face").iter().map(|face| ends(sheet, *face)[0].0).collect();
            faces.sort_by(f64::total_cmp);
            sheet.same(faces[0], low / 1000.0, "one face")?;
            sheet.same(faces[1], (low + width) / 1000.0, "the other face")?;
            for circle in sheet.of_field("circle", "tip_diameter") {
                let (x, _, radius) = round(sheet, circle);
                let near = faces.iter().map(|face| (x - face).abs()).fold(f64::INFINITY, f64::min);
                sheet.same(near, radius, "from the middle of the tip to its face")?;
            }
            Ok(())
        })?;
    }

    #[test]
    fn the_indicated_work_stands_off_the_axis_as_it_does(
        off in (-0.5..0.5f64, -0.5..0.5f64), boss in any::<bool>(), chuck in any::<bool>(), zero in -1.0..1.0f64,
    ) {
        // A tip is pressed in where the metal comes nearer: in a bore where its center is not, on a boss where it is.
        let sense = if boss { 1.0 } else { -1.0 };
        let r = [off.0, off.1, -off.0, -off.1].map(|way| zero + sense * way);
        let query = format!(
            "reading_0={} mm&reading_90={} mm&reading_180={} mm&reading_270={} mm&feature={}&turning={}",
            r[0], r[1], r[2], r[3], if boss { "boss" } else { "bore" }, if chuck { "chuck" } else { "spindle" }
        );
        compare("datum/indicate", &query, |sheet, _| {
            let plain = sheet.document.descendants().filter(|node| node.tag_name().name() == "circle");
            let plain: Vec<_> = plain.filter(|node| !node.has_attribute("data-field")).map(|node| round(sheet, node)).collect();
            let (x, y, radius) = plain.iter().copied().max_by(|a, b| a.2.total_cmp(&b.2)).expect("the work");
            let (to_x, to_y, _) = round(sheet, sheet.of_field("circle", "move")[0]);
            // What moves is at zero: the spindle, or the work.
            let axis = if chuck { (to_x, to_y) } else { (0.0, 0.0) };
            sheet.same(x - axis.0, off.0 / 1000.0, "the centre on X")?;
            sheet.same(y - axis.1, off.1 / 1000.0, "the centre on Y")?;
            let touches: Vec<_> = plain.iter().filter(|dot| dot.2 < 0.2 * radius).collect();
            prop_assert_eq!(touches.len(), 4);
            for (at, dot) in touches.into_iter().enumerate() {
                sheet.same((dot.0 - x).hypot(dot.1 - y), radius, "a touch on the work")?;
                let (along, across) = turned((dot.0 - axis.0, dot.1 - axis.1), -90.0 * at as f64);
                prop_assert!(along > 0.0);
                sheet.same(across, 0.0, "a touch off its quarter")?;
            }
            Ok(())
        })?;
    }

    #[test]
    fn the_tool_of_a_lathe_stands_on_the_surface_it_cut(
        measured in 1.0..200.0f64, part in 0.0..0.5f64, inside in any::<bool>(), counts in any::<bool>(),
    ) {
        let target = if inside { measured * (1.0 + part) } else { measured * (1.0 - part) };
        let query = format!(
            "measured_diameter={measured} mm&target_diameter={target} mm&dial={}&surface={}",
            if counts { "diameter" } else { "radius" }, if inside { "inside" } else { "outside" }
        );
        compare("datum/lathe-touch-off", &query, |sheet, _| {
            let tool = corners(sheet, sheet.of_field("path", "tool")[0]);
            let surfaces = sheet.of_field("line", "measured_diameter");
            prop_assert_eq!(surfaces.len(), 2);
            let low = surfaces.iter().map(|line| ends(sheet, *line)[0].1).fold(f64::INFINITY, f64::min);
            sheet.same(low, -measured / 2000.0, "the surface")?;
            sheet.same(tool[0].1, low, "the tip")?;
            // The rest of the tool is where no metal is.
            for corner in &tool[1..] {
                prop_assert_eq!(corner.1 > low, inside);
            }
            for line in sheet.of_field("line", "target_diameter") {
                let [(_, from), (_, to)] = ends(sheet, line);
                sheet.same(from, to, "level")?;
                sheet.same(from.abs(), target / 2000.0, "the wanted surface")?;
            }
            Ok(())
        })?;
    }

    #[test]
    fn the_circle_drawn_is_that_which_was_touched(
        center in (-200.0..200.0f64, -200.0..200.0f64), radius in 1.0..150.0f64, tip in 0.0..0.5f64, boss in any::<bool>(),
        first in 0.0..360.0f64, steps in proptest::collection::vec(40.0..150.0f64, 2..7),
    ) {
        let tip = tip * radius;
        let path = if boss { radius + tip / 2.0 } else { radius - tip / 2.0 };
        let mut towards = first;
        let mut touches = vec![towards];
        for step in steps {
            towards += step;
            touches.push(towards);
        }
        let at = |degrees: f64| {
            let (x, y) = turned((path, 0.0), degrees);
            (center.0 + x, center.1 + y)
        };
        let feature = if boss { "boss" } else { "bore" };
        let query = format!("points={}&tip_diameter={tip} mm&feature={feature}", points(touches.into_iter().map(at)));
        for id in ["datum/bore-or-boss", "geometry/circle-through"] {
            compare(id, &query, |sheet, answer| {
            let (x, y, _) = round(sheet, sheet.of_field("circle", "center")[0]);
            let by = |off: f64| prop_assert_slight(off * sheet.scale);
            by(x - center.0 / 1000.0)?;
            by(y - center.1 / 1000.0)?;
            let half_turn = answer["result"]["arc_angle"]["value"].as_f64().expect("degrees") >= 180.0;
            let whole = sheet.of_field("circle", "diameter");
            prop_assert_eq!(whole.len(), usize::from(half_turn));
            let tips = sheet.of_field("circle", "tip_diameter");
            for tip in &tips {
                let (tx, ty, r) = round(sheet, *tip);
                let away = (tx - x).hypot(ty - y) + if boss { -r } else { r };
                by(away - radius / 1000.0)?;
            }
            Ok(())
        })?;
        }
    }

    #[test]
    fn the_corner_drawn_is_that_of_the_block_or_pocket(
        corner in (-200.0..200.0f64, -200.0..200.0f64), turn in -180.0..180.0f64, between in 60.0..120.0f64, tip in 0.5..12.0f64,
        inside in any::<bool>(), along in proptest::array::uniform4(30.0..200.0f64),
    ) {
        prop_assume!((along[0] - along[1]).abs() > 10.0 && (along[2] - along[3]).abs() > 10.0);
        // Metal between the edges, or none: the tip stands beyond the edge, or before it.
        let off = if inside { tip / 2.0 } else { -tip / 2.0 };
        let on = |(x, y): (f64, f64), degrees: f64| {
            let (x, y) = turned((x, y), turn + degrees);
            (corner.0 + x, corner.1 + y)
        };
        let first = [along[0], along[1]].map(|far| on((far, off), 0.0));
        let second = [along[2], along[3]].map(|far| on((far, -off), between));
        let sides = if inside { "inside" } else { "outside" };
        let query = format!(
            "first_edge={}&second_edge={}&tip_diameter={tip} mm&sides={sides}", points(first), points(second)
        );
        compare("datum/corner", &query, |sheet, _| {
            let (x, y, _) = round(sheet, sheet.of_field("circle", "corner")[0]);
            prop_assert_slight((x - corner.0 / 1000.0) * sheet.scale)?;
            prop_assert_slight((y - corner.1 / 1000.0) * sheet.scale)?;
            for (field, degrees) in [("first_edge", turn), ("second_edge", turn + between)] {
                let [a, b] = ends(sheet, sheet.of_field("line", field)[0]);
                let apart = ((b.1 - a.1).atan2(b.0 - a.0) - degrees.to_radians()).rem_euclid(TAU);
                prop_assert!(apart.min(TAU - apart) < 1e-4, "{} runs {} rad off", field, apart);
            }
            Ok(())
        })?;
    }

    #[test]
    fn the_jaw_lies_through_both_touches(
        first in (-300.0..300.0f64, -300.0..300.0f64), away in 20.0..400.0f64, turn in -89.0..89.0f64, on_y in any::<bool>(),
        jaw in 30.0..500.0f64,
    ) {
        let (dx, dy) = turned((away, 0.0), turn + if on_y { 90.0 } else { 0.0 });
        let axis = if on_y { "y_axis" } else { "x_axis" };
        let query = format!(
            "first={} mm,{} mm&second={} mm,{} mm&along={axis}&jaw_length={jaw} mm", first.0, first.1, first.0 + dx, first.1 + dy
        );
        compare("datum/edge-angle", &query, |sheet, answer| {
            let edge = ends(sheet, sheet.of_field("line", "jaw_length")[0]);
            sheet.same((edge[1].0 - edge[0].0).hypot(edge[1].1 - edge[0].1), jaw / 1000.0, "the jaw")?;
            for field in ["first", "second"] {
                let (x, y, _) = round(sheet, sheet.of_field("circle", field)[0]);
                sheet.same(off_line((x, y), edge).0, 0.0, field)?;
            }
            // The end with the greater readings is off to the side that it is not to go to.
            let rise = if on_y { edge[0].0 - edge[1].0 } else { edge[1].1 - edge[0].1 };
            let toward = answer["result"]["tap_toward"].as_str();
            let growing = if on_y { rise > 0.0 } else { rise < 0.0 };
            prop_assert_eq!(toward, Some(if growing { "growing" } else { "falling" }));
            Ok(())
        })?;
    }

    #[test]
    fn points_keep_their_distances_when_turned_and_shifted(
        given in proptest::collection::vec((-100.0..100.0f64, -100.0..100.0f64), 2..9), turn in -359.0..359.0f64,
        origin in (-100.0..100.0f64, -100.0..100.0f64), mirror in any::<bool>(),
    ) {
        let query = format!(
            "points={}&angle={turn} deg&origin={} mm,{} mm&mirror={}",
            points(given.clone()), origin.0, origin.1, if mirror { "x" } else { "none" }
        );
        compare("datum/turn-and-shift", &query, |sheet, _| {
            let places = |field: &str| sheet.of_field("circle", field).iter().map(|dot| round(sheet, *dot)).collect::<Vec<_>>();
            let (before, after) = (places("points"), places("positions"));
            prop_assert_eq!(before.len(), given.len());
            prop_assert_eq!(after.len(), given.len());
            for (at, one) in before.iter().enumerate() {
                for (other, two) in before.iter().enumerate().skip(at + 1) {
                    let apart = (two.0 - one.0).hypot(two.1 - one.1);
                    let now = (after[other].0 - after[at].0).hypot(after[other].1 - after[at].1);
                    sheet.same(now, apart, "the distance of two points")?;
                }
            }
            Ok(())
        })?;
    }

    #[test]
    fn the_way_goes_once_through_every_place(
        given in proptest::collection::vec((1u32..200, 1u32..200), 2..14), start in any::<bool>(), finish in any::<bool>(),
    ) {
        let mut query = format!("points={}", points(given.iter().map(|(x, y)| (f64::from(*x), f64::from(*y)))));
        query += if start { "&start=0 mm,0 mm" } else { "" };
        query += if finish { "&finish=220 mm,0 mm" } else { "" };
        compare("datum/visit-order", &query, |sheet, answer| {
            prop_assert_eq!(sheet.of_field("circle", "places").len(), given.len());
            let travel: f64 = sheet.of_field("line", "way").iter().map(|leg| {
                let [a, b] = ends(sheet, *leg);
                (b.0 - a.0).hypot(b.1 - a.1)
            }).sum();
            sheet.same(travel / 20.0, length(&answer["result"]["length"]) / 20.0, "the way")
        })?;
        let query = format!("points={}", points(given.iter().map(|(x, y)| (f64::from(*x), f64::from(*y)))));
        compare("datum/move-list", &query, |sheet, answer| {
            let legs = sheet.of_field("line", "way").into_iter().chain(sheet.of_field("line", "moves.distance"));
            let travel: f64 = legs.map(|leg| {
                let [a, b] = ends(sheet, leg);
                (b.0 - a.0).hypot(b.1 - a.1)
            }).sum();
            prop_assert_eq!(sheet.of_field("circle", "moves").len(), given.len());
            let from_datum = !sheet.of_field("circle", "datum").is_empty();
            let first = if from_datum { 0.0 } else { length(&answer["result"]["moves"][0]["distance"]) };
            sheet.same((travel + first) / 20.0, length(&answer["result"]["total"]["distance"]) / 20.0, "the moves")
        })?;
    }

    #[test]
    fn the_cutter_touches_every_wall_from_the_free_side(
        cutter in 1.0..30.0f64, allowance in prop_oneof![Just(0.0), 0.01..2.0f64],
        walls in proptest::collection::vec((any::<bool>(), any::<bool>(), -200.0..200.0f64), 1..6),
    ) {
        let rows: Vec<String> = walls.iter().map(|(on_y, plus, place)| {
            format!("{},{place} mm,{}", if *on_y { "y_axis" } else { "x_axis" }, if *plus { "plus" } else { "minus" })
        }).collect();
        let query = format!("walls={}&cutter_diameter={cutter} mm&finish_allowance={allowance} mm", rows.join(";"));
        compare("datum/wall-stops", &query, |sheet, answer| {
            for (number_of, (on_y, plus, _)) in walls.iter().enumerate() {
                let count = (number_of + 1).to_string();
                let one = |tag: &str, field: &str| {
                    let all = sheet.of_field(tag, field);
                    all.into_iter().find(|node| node.attribute("data-number") == Some(&count))
                };
                let (x, y, radius) = round(sheet, one("circle", "cutter_diameter").expect("the cutter"));
                let [(wall_x, wall_y), _] = ends(sheet, one("line", "walls.place").expect("the wall"));
                let away = if *on_y { y - wall_y } else { x - wall_x };
                sheet.same(away.abs(), radius, "from the cutter's middle to the wall")?;
                prop_assert_eq!(away < 0.0, *plus);
                if allowance > 0.0 {
                    let [(rough_x, rough_y), _] = ends(sheet, one("line", "stops.rough").expect("the rough stop"));
                    let rough = if *on_y { rough_y } else { rough_x };
                    let stop = shown(answer, "stops.rough", Some(&count)).expect("the stop");
                    sheet.same(rough, length(stop), "the rough stop")?;
                }
            }
            Ok(())
        })?;
    }

    #[test]
    fn a_round_cutter_touches_the_profile_at_every_place(
        radius in 5.0..100.0f64, from in -180.0..180.0f64, sweep in 20.0..170.0f64, clockwise in any::<bool>(), left in any::<bool>(),
        cutter in 0.1..0.8f64, steps in 2.0..30.0f64,
    ) {
        let cutter = cutter * radius;
        let end = if clockwise { from - sweep } else { from + sweep };
        let (a, b) = (turned((radius, 0.0), from), turned((radius, 0.0), end));
        let query = format!(
            "from={} mm,{} mm&to={} mm,{} mm&radius={radius} mm&sense={}&cutter=ball&diameter={cutter} mm&side={}&step={} mm",
            a.0, a.1, b.0, b.1, if clockwise { "clockwise" } else { "counterclockwise" }, if left { "left" } else { "right" },
            radius * sweep.to_radians() / steps
        );
        compare("datum/stepped-profile", &query, |sheet, _| {
            let places = sheet.of_field("circle", "points");
            prop_assert!(places.len() >= 3);
            let hollow = left != clockwise;
            for place in places {
                let (x, y, _) = round(sheet, place);
                let off = if hollow { -cutter / 2.0 } else { cutter / 2.0 };
                prop_assert_slight((x.hypot(y) - (radius + off) / 1000.0) * sheet.scale)?;
            }
            Ok(())
        })?;
    }

    #[test]
    fn the_sweep_leans_as_its_ends_differ(difference in -2.0..2.0f64, sweep in 10.0..400.0f64) {
        compare("datum/tram", &format!("difference={difference} mm&sweep_diameter={sweep} mm"), |sheet, _| {
            let [a, b] = ends(sheet, sheet.of_field("line", "sweep")[0]);
            sheet.same(b.0 - a.0, sweep / 1000.0, "the sweep")?;
            sheet.same(b.1 - a.1, difference / 1000.0, "the difference")
        })?;
    }
}

/// Asserts that so many sheet units are too few to be seen.
fn prop_assert_slight(off: f64) -> Result<(), TestCaseError> {
    prop_assert!(off.abs() < 5e-3, "{off} sheet units off");
    Ok(())
}

#[test]
fn places_to_go_past_first_are_written_at_their_places() {
    let query = "points=12 mm,30 mm;48 mm,30 mm;30 mm,8 mm&backlash=0.15 mm&approach=growing";
    compare("datum/move-list", query, |sheet, answer| {
        let written: Vec<&str> = sheet.document.descendants().filter_map(|node| node.text()).collect();
        for (axis, field) in [("X", "past_x"), ("Y", "past_y")] {
            let past = answer["result"]["moves"][2][field]["text"].as_str();
            let past = past.map(|text| format!("past {axis} {text}"));
            prop_assert!(past.is_none_or(|past| written.contains(&past.as_str())), "{axis} in {written:?}");
        }
        prop_assert!(answer["result"]["moves"].as_array().is_some_and(|moves| moves.iter().any(has_past)));
        Ok(())
    })
    .expect("a drawing");
}

fn has_past(listed: &Value) -> bool {
    listed.get("past_x").is_some() || listed.get("past_y").is_some()
}
