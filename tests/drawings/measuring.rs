//! Drawings of zones and gauges, measured against what the test reckons by itself.

use crate::datum::{corners, round};
use crate::{compare, length};
use proptest::prelude::*;

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, ..ProptestConfig::default() })]

    #[test]
    fn a_hole_lies_in_its_zone_where_the_verdict_says_so(
        zone in 0.02..2.0f64, off in (-1.0..1.0f64, -1.0..1.0f64), extra in 0.0..0.5f64, place in (-50.0..50.0f64, -50.0..50.0f64),
    ) {
        let query = format!(
            "zone={zone} mm&basic_x={} mm&basic_y={} mm&measured_x={} mm&measured_y={} mm&mmc_size=10 mm\
             &measured_size={} mm&feature=hole",
            place.0, place.1, place.0 + off.0 * zone, place.1 + off.1 * zone, 10.0 + extra * zone
        );
        compare("measure/position-error", &query, |sheet, answer| {
            let (x, y, _) = round(sheet, sheet.of_field("circle", "holes")[0]);
            sheet.same(x, off.0 * zone / 1000.0, "off in X")?;
            sheet.same(y, off.1 * zone / 1000.0, "off in Y")?;
            let (_, _, zone_radius) = round(sheet, sheet.of_field("circle", "zone")[0]);
            sheet.same(zone_radius, zone / 2000.0, "the zone")?;
            // The dashed square's corners lie on the zone.
            let allowed = zone * (1.0 + extra) / 2.0;
            let out = off.0.hypot(off.1) * zone;
            if (out - allowed).abs() > 1e-6 {
                let says = if out < allowed { "within" } else { "outside" };
                prop_assert_eq!(&answer["result"]["verdict"], says);
            }
            Ok(())
        })?;
    }

    #[test]
    fn gauges_lie_inside_the_part_s_limits(
        least in 1.0..100.0f64, band in 0.005..1.0f64, share in 1.0..50.0f64, wear in 0.0..20.0f64, hole in any::<bool>(),
    ) {
        let query = format!(
            "feature={}&least={least} mm&greatest={} mm&gauge_share={share} percent&wear_share={wear} percent",
            if hole { "hole" } else { "shaft" }, least + band
        );
        compare("measure/gauge-makers", &query, |sheet, answer| {
            let across = |field: &str| {
                let points = corners(sheet, sheet.of_field("path", field)[0]);
                let places = points.iter().map(|(x, _)| *x);
                (places.clone().fold(f64::INFINITY, f64::min), places.fold(f64::NEG_INFINITY, f64::max))
            };
            let (from, to) = across("part");
            for (band, names) in [("go", ["go_least", "go_greatest"]), ("no_go", ["no_go_least", "no_go_greatest"])] {
                let (low, high) = across(band);
                let [least, greatest] = names.map(|name| length(&answer["result"][name]));
                sheet.same(low, least, names[0])?;
                sheet.same(high, greatest, names[1])?;
                prop_assert!(low >= from - 1e-9 && high <= to + 1e-9, "{} is outside of the part", band);
            }
            Ok(())
        })?;
    }
}
