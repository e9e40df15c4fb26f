//! Drawings of spots, tapped holes and center holes, measured by their geometry.

use crate::datum::corners;
use crate::{compare, length};
use proptest::prelude::*;

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, ..ProptestConfig::default() })]

    #[test]
    fn the_spot_has_its_mouth_and_its_depth(
        mouth in 0.5..30.0f64, angle in 30.0..170.0f64, flat in 0.0..0.6f64, drill in 0.2..2.0f64,
    ) {
        let query = format!(
            "mouth={mouth} mm&spot_angle={angle} deg&tip_flat={} mm&drill={} mm", flat * mouth, drill * mouth
        );
        compare("holes/spot-drill", &query, |sheet, answer| {
            let spot = corners(sheet, sheet.of_field("path", "spot")[0]);
            let depth = length(&answer["result"]["spot_depth"]);
            sheet.same(spot[3].0 - spot[0].0, mouth / 1000.0, "the mouth")?;
            sheet.same(spot[2].0 - spot[1].0, flat * mouth / 1000.0, "the flat")?;
            sheet.same(-spot[1].1, depth, "the depth")?;
            let slope = (spot[1].0 - spot[0].0).atan2(spot[0].1 - spot[1].1).to_degrees();
            prop_assert!((2.0 * slope - angle).abs() < 0.6, "{slope} for {angle}");
            Ok(())
        })?;
    }

    #[test]
    fn the_tapped_hole_is_as_deep_as_answered(
        threads in 2.0..30.0f64, chamfer in 1.0..10.0f64, extra in 0.5..5.0f64, point in 90.0..150.0f64,
        thickness in prop_oneof![Just(None), (60.0..120.0f64).prop_map(Some)],
    ) {
        let part = thickness.map_or_else(String::new, |thickness| format!("&thickness={thickness} mm"));
        let query = format!(
            "thread=M8&full_threads={threads}&chamfer_threads={chamfer}&extra_turns={extra}&drill=6.8 mm\
             &point_angle={point} deg{part}"
        );
        compare("holes/tapped-blind", &query, |sheet, answer| {
            let hole = corners(sheet, sheet.of_field("path", "drill")[0]);
            let result = &answer["result"];
            sheet.same(hole[4].0 - hole[0].0, 0.0068, "the drill")?;
            sheet.same(-hole[1].1, length(&result["full_depth"]), "full diameter")?;
            sheet.same(-hole[2].1, length(&result["tip_depth"]), "the tip")?;
            for line in sheet.of_field("line", "major") {
                let [top, end] = crate::datum::ends(sheet, line);
                sheet.same(top.0.abs(), 0.004, "half the thread")?;
                sheet.same(-end.1, threads * 0.00125, "full thread")?;
            }
            Ok(())
        })?;
    }

    #[test]
    fn the_center_hole_has_a_cone_of_60_degrees(cone in 3.3..6.7f64, pilot in 3.0..6.0f64) {
        let query = format!("size=A 3.15&cone={cone} mm&pilot_length={pilot} mm");
        compare("holes/centre-drill", &query, |sheet, answer| {
            let hole = corners(sheet, sheet.of_field("path", "center_hole")[0]);
            sheet.same(hole[6].0 - hole[0].0, cone / 1000.0, "the mouth")?;
            sheet.same(-hole[3].1, length(&answer["result"]["tip_depth"]), "the tip")?;
            sheet.same((hole[1].0 - hole[0].0) * 3f64.sqrt(), -hole[1].1, "the flank")
        })?;
    }
}
