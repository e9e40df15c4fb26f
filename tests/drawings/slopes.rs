//! Drawings of stacks and slopes: blocks to their thickness, faces and slides at their angles.

use crate::datum::{corners, ends};
use crate::{compare, length};
use proptest::prelude::*;

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]

    #[test]
    fn each_block_stands_on_the_one_below(tenths in 5000..40_000u32, wear in any::<bool>()) {
        let wear = if wear { "&wear_block=0.05 in" } else { "" };
        let query = format!("height={} in&set=inch_81{wear}", f64::from(tenths) / 1e4);
        compare("geometry/gauge-blocks", &query, |sheet, answer| {
            let blocks = answer["result"]["blocks"].as_array().expect("blocks");
            let drawn = sheet.of_field("path", "blocks");
            prop_assert_eq!(drawn.len(), blocks.len());
            let mut from = 0.0;
            for (path, block) in drawn.into_iter().zip(blocks) {
                let corners = corners(sheet, path);
                let (low, high) = (corners[0].1, corners[2].1);
                sheet.same(low, from, "the foot of a block")?;
                sheet.same(high - low, length(&block["size"]), "a block")?;
                from = high;
            }
            sheet.same(from, length(&answer["result"]["stack_height"]), "the stack")
        })?;
    }

    #[test]
    fn the_face_slopes_in_each_view_as_it_does(front in -70.0..70.0f64, side in -70.0..70.0f64) {
        let query = format!("front_angle={front} deg&side_angle={side} deg");
        compare("geometry/compound-angle", &query, |sheet, answer| {
            for field in ["front_angle", "side_angle", "true_angle"] {
                let [from, to] = ends(sheet, sheet.of_field("line", field)[0]);
                let slope = (to.1 - from.1).atan2(to.0 - from.0).to_degrees();
                let expected = answer["result"][field]["value"].as_f64().expect("an angle");
                prop_assert!((slope - expected).abs() < 0.05, "{field}: {slope} for {expected}");
            }
            Ok(())
        })?;
    }

    #[test]
    fn the_slide_goes_in_and_along(angle in 1.0..80.0f64) {
        compare("geometry/compound-feed", &format!("dial=1 mm&scale_angle={angle} deg"), |_, _| Ok(()))?;
    }
}
