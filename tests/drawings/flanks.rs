//! Drawings of circles between flanks: each must touch the lines that it is drawn against.

use crate::datum::{corners, off_line, round};
use crate::{Sheet, compare, length};
use proptest::prelude::*;

/// A circle touches the straight line through two corners.
fn touches(sheet: &Sheet, (x, y, radius): (f64, f64, f64), line: [(f64, f64); 2]) -> Result<(), TestCaseError> {
    sheet.same(off_line((x, y), line).0.abs(), radius, "from the middle of the circle to its flank")
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, ..ProptestConfig::default() })]

    #[test]
    fn the_bar_touches_both_flanks_of_its_vee(
        diameter in 1.0..200.0f64, vee in 30.0..140.0f64, wide in 1.05..3.0f64, faced in any::<bool>(),
    ) {
        let face = if faced { format!("&groove_width={} mm", wide * diameter) } else { String::new() };
        compare("geometry/v-block", &format!("diameter={diameter} mm&vee_angle={vee} deg{face}"), |sheet, answer| {
            let bar = round(sheet, sheet.of_field("circle", "diameter")[0]);
            let vee = corners(sheet, sheet.of_field("path", "vee")[0]);
            touches(sheet, bar, [vee[1], vee[2]])?;
            touches(sheet, bar, [vee[2], vee[3]])?;
            sheet.same(bar.1 - vee[2].1, length(&answer["result"]["center_height"]), "center above vertex")
        })?;
    }

    #[test]
    fn the_pins_touch_flank_and_flat_of_a_dovetail(
        male in any::<bool>(), flank in 40.0..75.0f64, pin in 2.0..20.0f64, deep in 1.05..2.0f64, wide in 4.0..12.0f64,
    ) {
        let half = if male { "male" } else { "female" };
        let query = format!(
            "half={half}&flank_angle={flank} deg&pin_diameter={pin} mm&depth={} mm&corner_width={} mm", deep * pin, (wide + 4.0) * pin
        );
        compare("geometry/dovetail", &query, |sheet, answer| {
            let outline = corners(sheet, sheet.of_field("path", "dovetail")[0]);
            let pins: Vec<_> = sheet.of_field("circle", "pin_diameter").iter().map(|pin| round(sheet, *pin)).collect();
            prop_assert_eq!(pins.len(), 2);
            for (pin, flank) in pins.iter().zip([[outline[1], outline[2]], [outline[3], outline[4]]]) {
                touches(sheet, *pin, flank)?;
                sheet.same(pin.1, pin.2, "the pin on the flat")?;
            }
            let outside = if male { 1.0 } else { -1.0 };
            let reading = pins[1].0 - pins[0].0 + outside * 2.0 * pins[0].2;
            sheet.same(reading, length(&answer["result"]["reading"]), "reading")
        })?;
    }

    #[test]
    fn rolls_and_balls_touch_their_taper(
        angle in 0.5..20.0f64, roll in 4.0..20.0f64, low in 30.0..80.0f64, blocks in 20.0..90.0f64, apart in 1.5..6.0f64,
    ) {
        let high = low + roll + 2.0 * blocks * angle.to_radians().tan();
        let query = format!(
            "taper=plug&roll_diameter={roll} mm&over_low={} mm&over_high={high} mm&blocks={blocks} mm", low + roll
        );
        compare("geometry/rolls-and-balls", &query, |sheet, _| {
            let plug = corners(sheet, sheet.of_field("path", "plug")[0]);
            let rolls = sheet.of_field("circle", "roll_diameter");
            prop_assert_eq!(rolls.len(), 4);
            for roll in rolls {
                let roll = round(sheet, roll);
                let flank = if roll.0 > 0.0 { [plug[1], plug[2]] } else { [plug[3], plug[0]] };
                touches(sheet, roll, flank)?;
            }
            Ok(())
        })?;
        let (small, large) = (roll, roll + 2.0 * apart);
        let deep = apart / angle.to_radians().sin() + 1.0 + apart;
        let query = format!(
            "taper=hole&small_ball={small} mm&large_ball={large} mm&large_ball_depth=1 mm&small_ball_depth={} mm", deep + apart
        );
        compare("geometry/rolls-and-balls", &query, |sheet, _| {
            let walls: Vec<_> = sheet.of_field("path", "wall").iter().map(|wall| corners(sheet, *wall)).collect();
            for ball in ["small_ball", "large_ball"] {
                let ball = round(sheet, sheet.of_field("circle", ball)[0]);
                for wall in &walls {
                    touches(sheet, ball, [wall[0], wall[1]])?;
                }
            }
            Ok(())
        })?;
    }

    #[test]
    fn a_measured_arc_is_drawn_as_answered(spacing in 10.0..200.0f64, part in 0.02..0.45f64, tip in 0.0..3.0f64) {
        let query = format!(
            "leg_spacing={spacing} mm&rise={} mm&leg_tip_radius={tip} mm&surface=hollow", part * spacing
        );
        compare("geometry/arc", &query, |sheet, answer| {
            let arcs = sheet.of_field("path", "arc_length");
            prop_assert_eq!(arcs.len(), 1);
            let radius = length(&answer["result"]["solutions"][0]["radius"]) * 1000.0;
            let half = spacing / 2.0;
            let (rise, to_tips) = (part * spacing, radius - tip);
            prop_assert!((to_tips - (half * half + rise * rise) / (2.0 * rise)).abs() < 1e-6 * to_tips);
            Ok(())
        })?;
    }
}
