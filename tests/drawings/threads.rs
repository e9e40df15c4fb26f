//! Drawings of threads over wires, their taps and their rescue, measured by their geometry.

use crate::datum::{corners, ends, off_line, round};
use crate::{compare, length};
use proptest::prelude::*;
use roxmltree::Node;

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, ..ProptestConfig::default() })]

    #[test]
    fn the_wires_rest_on_the_flanks(at in 0usize..9, part in 0.02..0.98f64) {
        let (thread, half) = [
            ("1/4-20", 30.0), ("1/2-13", 30.0), ("1-8", 30.0), ("M8", 30.0), ("M64", 30.0), ("M100x2", 30.0), ("1-5 Acme", 14.5),
            ("Tr28x5", 15.0), ("1/4-20 UNC", 30.0),
        ][at];
        // A wire that fits the thread, found by asking for those that do.
        let entry = shop_reckoner::calculators::find("threads/wires").expect("wires");
        let fits = crate::asked(entry, &format!("thread={thread}&correction=none")).expect("an answer");
        let (least, most) = (length(&fits["result"]["smallest_wire"]), length(&fits["result"]["largest_wire"]));
        let wire = (least + (most - least) * part) * 1000.0;
        compare("threads/wires", &format!("thread={thread}&correction=none&wire_diameter={wire} mm"), |sheet, answer| {
            let over = length(&answer["result"]["over_wires"]);
            let profile = corners(sheet, sheet.of_field("path", "profile")[0]);
            let tilted = |pair: &&[(f64, f64)]| pair[0].1 != pair[1].1;
            let flanks: Vec<[(f64, f64); 2]> =
                profile.windows(2).filter(tilted).map(|pair| [pair[0], pair[1]]).collect();
            prop_assert!(flanks.len() >= 4);
            for [a, b] in &flanks {
                let slope = ((b.0 - a.0) / (b.1 - a.1)).abs().atan().to_degrees();
                prop_assert!((slope - half).abs() < 1e-2, "a flank at {slope}");
            }
            for circle in sheet.of_field("circle", "wire_diameter") {
                let (x, y, radius) = round(sheet, circle);
                sheet.same(y.abs() + radius, over / 2.0, "over the wires")?;
                if y > 0.0 {
                    // A flank counts where it is, not where it would go on to.
                    let beside = flanks.iter().filter_map(|[a, b]| {
                        let (off, along) = off_line((x, y), [*a, *b]);
                        let seen = 0.05 / sheet.scale;
                        (-seen..=(b.0 - a.0).hypot(b.1 - a.1) + seen).contains(&along).then_some(off.abs())
                    });
                    let near = beside.fold(f64::INFINITY, f64::min);
                    prop_assert!(((near - radius) * sheet.scale).abs() < 0.02, "{near} from a flank, {radius} thick");
                }
            }
            Ok(())
        })?;
    }

    #[test]
    fn the_band_of_each_tap_lies_to_that_of_the_class_as_its_thread_does(
        thread in prop_oneof![Just("1/4-20 UNC"), Just("3/8-16 UNC"), Just("M10"), Just("M6x1"), Just("1-8 UNC")],
        over in -0.02..0.05f64,
    ) {
        compare("threads/tap-limit", &format!("thread={thread}&expected_oversize={over} mm"), |sheet, answer| {
            let spans = |path: Node| {
                let x: Vec<f64> = corners(sheet, path).into_iter().map(|(x, _)| x).collect();
                (x.iter().copied().fold(f64::INFINITY, f64::min), x.iter().copied().fold(f64::NEG_INFINITY, f64::max))
            };
            let result = &answer["result"];
            let (least, greatest) = spans(sheet.of_field("path", "class")[0]);
            sheet.same(least, length(&result["pitch_min"]), "the least limit")?;
            sheet.same(greatest, length(&result["pitch_max"]), "the greatest limit")?;
            let taps = result["taps"].as_array().expect("taps");
            let bands = sheet.of_field("path", "taps");
            prop_assert_eq!(bands.len(), taps.len());
            for (band, tap) in bands.into_iter().zip(taps) {
                let (from, to) = spans(band);
                sheet.same(from, length(&tap["hole_min"]), "the smallest thread")?;
                sheet.same(to, length(&tap["hole_max"]), "the largest thread")?;
                let is_within = from >= least - 1e-9 && to <= greatest + 1e-9;
                prop_assert_eq!(Some(is_within), tap["within_class"].as_bool());
                prop_assert_eq!(band.has_attribute("stroke-dasharray"), !is_within);
            }
            Ok(())
        })?;
    }

    #[test]
    fn the_drill_of_a_rescue_clears_the_old_thread_and_the_wall_stands_outside_the_new(
        hole in 3.0..30.0f64, edge in 1.0..4.0f64,
    ) {
        let query = format!("hole_diameter={hole} mm&edge_distance={} mm", edge * hole);
        compare("threads/rescue", &query, |sheet, answer| {
            let (_, _, clean) = round(sheet, sheet.of_field("circle", "clean_diameter")[0]);
            let drills = sheet.of_field("circle", "candidates.drill_diameter");
            prop_assert_eq!(drills.len(), usize::from(answer["result"]["candidates"][0].is_object()));
            let Some(drill) = drills.first() else { return Ok(()) };
            prop_assert!(round(sheet, *drill).2 >= clean - 1e-9);
            let [(near, _), _] = ends(sheet, sheet.of_field("line", "edge")[0]);
            sheet.same(near, edge * hole / 1000.0, "the edge")
        })?;
    }
}
