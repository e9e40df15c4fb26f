//! The slips, each against what it gives by arithmetic of the test's own.

use super::{mark, of_answer};
use std::f64::consts::PI;

/// A slip: the calculator, the inputs, the result asked for, and what the slip gives.
type Slip<'s> = (&'s str, &'s str, &'s str, f64, &'s str);

#[track_caller]
fn slips(code: &str, cases: &[Slip]) {
    for (id, from, path, value, unit) in cases {
        let question = of_answer(id, from, path);
        let marked = mark(&question, &format!("{value:.9e} {unit}"));
        let right = question.wanted.amount.text();
        assert!(!marked.right, "{id}?{from}: {path} = {value} {unit} is right? {right}");
        let found: Vec<&str> = marked.slips.iter().map(|slip| slip.code).collect();
        assert!(found.contains(&code), "{id}?{from}: {path} = {value} {unit} is {found:?}; right is {right}");
    }
}

fn tan(degrees: f64) -> f64 {
    degrees.to_radians().tan()
}

fn sin(degrees: f64) -> f64 {
    degrees.to_radians().sin()
}

fn cos(degrees: f64) -> f64 {
    degrees.to_radians().cos()
}

const DRILL: &str = "diameter=1/2 in&point_angle=118 deg&full_depth=3/4 in";
const CIRCLE: &str = "diameter=4 in&holes=6&start_angle=20 deg";
const TIME: &str =
    "operation=drilling&length=50 mm&feed_rate=60 mm/min&diameter=15 mm&point_angle=118 deg&depth_to=full_diameter";
const MILL: &str = "diameter=1/2 in&teeth=4&cutting_speed=70 ft/min&feed_per_tooth=0.002 in/tooth&radial_depth=0.25 in&axial_depth=0.25 in";

#[test]
fn a_wrong_unit_or_system_is_seen() {
    slips(
        "wrong_unit",
        &[
            ("holes/drill-point", DRILL, "point_length", 0.25 / tan(59.0), "mm"),
            ("holes/drill-point", DRILL, "point_length", 25.4 * 0.25 / tan(59.0), "in"),
            ("patterns/bolt-circle", CIRCLE, "positions/1/x", 2.0 * cos(80.0) * 25.4, "in"),
            // The 12 inches of a foot left out.
            (
                "speeds/spindle-speed",
                "cutting_speed=70 ft/min&diameter=1/2 in",
                "exact_speed",
                70.0 / (PI * 0.5),
                "rpm",
            ),
            // The 1000 millimeters of a meter left out.
            ("speeds/spindle-speed", "cutting_speed=18 m/min&diameter=40 mm", "exact_speed", 18.0 / (PI * 40.0), "rpm"),
            ("speeds/hand-feed", "feed_rate=3.6 in/min&travel_per_turn=0.1 in", "time_per_turn", 0.1 / 3.6, "s"),
            (
                "speeds/as-run",
                "spindle_speed=630 rpm&diameter=1/2 in&feed_rate=5 in/min&teeth=4",
                "cutting_speed",
                PI * 0.5 * 630.0,
                "ft/min",
            ),
            (
                "speeds/surface-finish",
                "nose_radius=0.8 mm&feed_per_rev=0.2 mm/rev&method=usual",
                "theoretical_height",
                0.04 / (8.0 * 0.8) * 1000.0,
                "uin",
            ),
            // A power asked for, a torque answered.
            ("speeds/hand-feed", "feed_rate=3.6 in/min&travel_per_turn=0.1 in", "time_per_turn", 36.0, "rpm"),
            // A bar of 1/2 in on a speed in meters: its half taken as millimeters.
            (
                "speeds/spindle-speed",
                "cutting_speed=18 m/min&diameter=1/2 in",
                "exact_speed",
                18000.0 / (PI * 0.5),
                "rpm",
            ),
        ],
    );
}

#[test]
fn degrees_for_radians_are_seen() {
    slips(
        "degrees_for_radians",
        &[
            // Radius of an arc: length over the angle, which was left in degrees.
            ("geometry/arc", "arc_length=9 in&angle=210 deg", "solutions/0/radius", 9.0 / 210.0, "in"),
            // The pocket calculator set to radians.
            ("holes/drill-point", DRILL, "point_length", 0.25 / 59f64.tan(), "in"),
            ("holes/drill-point", DRILL, "tip_depth", 0.75 + 0.25 / 59f64.tan(), "in"),
            ("patterns/bolt-circle", CIRCLE, "positions/1/x", 2.0 * 80f64.cos(), "in"),
            ("patterns/bolt-circle", CIRCLE, "positions/2/y", 2.0 * 140f64.sin(), "in"),
            ("datum/tram", "difference=0.003 in&sweep_diameter=8 in", "tilt", 0.003 / 8.0, "deg"),
            (
                "datum/edge-angle",
                "first=0 in,0.100 in&second=5 in,0.112 in&along=x_axis",
                "angle",
                (0.012f64 / 5.0).atan(),
                "deg",
            ),
            (
                "speeds/entry",
                "way=ramp&depth=3/8 in&feed_rate=4 in/min&ramp_angle=3 deg",
                "down_feed_rate",
                (4.0 * 3f64.sin()).abs(),
                "in/min",
            ),
        ],
    );
}

#[test]
fn a_radius_for_a_diameter_is_seen() {
    slips(
        "radius_for_diameter",
        &[
            ("patterns/bolt-circle", CIRCLE, "positions/1/x", 4.0 * cos(80.0), "in"),
            ("patterns/bolt-circle", CIRCLE, "positions/1/y", 1.0 * sin(80.0), "in"),
            ("holes/drill-point", DRILL, "point_length", 0.5 / tan(59.0), "in"),
            ("holes/drill-point", DRILL, "tip_depth", 0.75 + 0.125 / tan(59.0), "in"),
            (
                "speeds/spindle-speed",
                "cutting_speed=70 ft/min&diameter=1/2 in",
                "exact_speed",
                840.0 / (PI * 0.25),
                "rpm",
            ),
            (
                "speeds/as-run",
                "spindle_speed=630 rpm&diameter=1/2 in&feed_rate=5 in/min&teeth=4",
                "cutting_speed",
                PI * 0.25 * 630.0 / 12.0,
                "ft/min",
            ),
            ("speeds/milling", MILL, "spindle_speed", 840.0 / (PI * 0.25), "rpm"),
            (
                "speeds/surface-finish",
                "nose_radius=0.8 mm&feed_per_rev=0.2 mm/rev&method=usual",
                "theoretical_height",
                0.04 / (8.0 * 1.6) * 1000.0,
                "um",
            ),
            ("speeds/cutting-time", TIME, "travel", 50.0 + 15.0 / tan(59.0), "mm"),
            // A whole tip taken off where half of it belongs.
            (
                "datum/touch-off",
                "reading_was=growing&tip_diameter=0.200 in&face_position=0 in",
                "set_reading",
                -0.2,
                "in",
            ),
            (
                "datum/between-faces",
                "first=-0.100 in&second=3.104 in&tip_diameter=0.200 in&touched=outside",
                "width",
                3.104,
                "in",
            ),
            (
                "datum/wall-stops",
                "walls=x_axis,10 mm,minus;x_axis,70 mm,plus&cutter_diameter=12 mm&finish_allowance=0.3 mm",
                "stops/0/finish",
                22.0,
                "mm",
            ),
            (
                "datum/lathe-touch-off",
                "measured_diameter=1.2620 in&target_diameter=1.2500 in&dial=diameter",
                "infeed_left",
                0.006,
                "in",
            ),
            (
                "datum/lathe-touch-off",
                "measured_diameter=39.46 mm&target_diameter=40 mm&dial=radius&surface=inside",
                "infeed_left",
                0.54,
                "mm",
            ),
            (
                "datum/bore-or-boss",
                "points=1 in,0 in;0 in,1 in;-1 in,0 in;0 in,-1 in&tip_diameter=0.2 in&feature=bore",
                "diameter",
                1.1,
                "in",
            ),
            ("geometry/arc", "chord=21 mm&height=6 mm", "solutions/0/radius", 2.0 * 12.1875, "mm"),
            ("geometry/arc", "radius=10 mm&chord=12 mm", "solutions/0/height", 20.0 - (400.0f64 - 36.0).sqrt(), "mm"),
        ],
    );
}

#[test]
fn an_included_angle_for_its_half_is_seen() {
    slips(
        "included_angle",
        &[
            ("holes/drill-point", DRILL, "point_length", 0.25 / tan(29.5), "in"),
            ("holes/drill-point", "diameter=1/2 in&point_angle=82 deg", "point_length", 0.25 / tan(82.0), "in"),
            // tan 118° is negative, and most drop the sign.
            ("holes/drill-point", DRILL, "point_length", -0.25 / tan(118.0), "in"),
            ("speeds/cutting-time", TIME, "travel", 50.0 + 7.5 / tan(29.5), "mm"),
            // Best wire: half the pitch over the cosine of half the thread's angle.
            ("threads/wires", "thread=1/4-20 UNC&wire_diameter=0.032 in", "best_wire", 0.025 / cos(60.0), "in"),
        ],
    );
}

#[test]
fn a_forgotten_drill_point_is_seen() {
    slips(
        "drill_point_forgotten",
        &[
            ("holes/drill-point", DRILL, "tip_depth", 0.75, "in"),
            (
                "holes/drill-point",
                "diameter=8.5 mm&point_angle=135 deg&thickness=12 mm&breakthrough=1 mm",
                "travel",
                13.0,
                "mm",
            ),
            // Zeroed at the lips the point does not count.
            (
                "holes/drill-point",
                "diameter=8.5 mm&point_angle=135 deg&thickness=12 mm&breakthrough=1 mm&zeroed_at=lips",
                "travel",
                13.0 + 4.25 / tan(67.5),
                "mm",
            ),
            ("speeds/cutting-time", TIME, "travel", 50.0, "mm"),
            ("speeds/cutting-time", TIME, "cutting_time", 50.0 / 60.0, "min"),
        ],
    );
}

#[test]
fn an_angle_from_the_wrong_zero_is_seen() {
    slips(
        "angle_zero",
        &[
            ("patterns/bolt-circle", CIRCLE, "positions/0/x", 2.0 * sin(20.0), "in"),
            ("patterns/bolt-circle", CIRCLE, "positions/1/y", 2.0 * sin(40.0), "in"),
            ("patterns/bolt-circle", CIRCLE, "positions/1/angle", 10.0, "deg"),
            (
                "datum/turn-and-shift",
                "points=3 in,1 in&angle=30 deg",
                "positions/0/x",
                3.0 * cos(30.0) + sin(30.0),
                "in",
            ),
            // The lead angle in place of the cutting edge angle.
            (
                "speeds/turning",
                "diameter=40 mm&depth_of_cut=1 mm&cutting_speed=60 m/min&feed_per_rev=0.2 mm/rev&cutting_edge_angle=60 deg",
                "chip_thickness",
                0.2 * sin(30.0),
                "mm",
            ),
            (
                "datum/edge-angle",
                "first=0 in,0.100 in&second=5 in,0.600 in&along=x_axis",
                "angle",
                90.0 - 0.1f64.atan().to_degrees(),
                "deg",
            ),
        ],
    );
}

#[test]
fn a_feed_a_tooth_for_a_feed_a_turn_is_seen() {
    let turns = 840.0 / (PI * 0.5);
    slips(
        "feed_per_tooth",
        &[
            ("speeds/milling", MILL, "feed_rate", 0.002 * turns, "in/min"),
            ("speeds/milling", MILL, "feed_rate", 0.002 * turns * 16.0, "in/min"),
            ("speeds/milling", MILL, "removal_rate", 0.25 * 0.25 * 0.002 * turns, "in3/min"),
            (
                "speeds/as-run",
                "spindle_speed=630 rpm&diameter=1/2 in&feed_rate=5 in/min&teeth=4",
                "feed_per_tooth",
                5.0 / 630.0,
                "in/tooth",
            ),
            (
                "speeds/as-run",
                "spindle_speed=630 rpm&diameter=1/2 in&feed_rate=5 in/min&teeth=4",
                "feed_per_rev",
                5.0 / 630.0 / 4.0,
                "in/rev",
            ),
            // The right number with the other's unit.
            (
                "speeds/as-run",
                "spindle_speed=630 rpm&diameter=1/2 in&feed_rate=5 in/min&teeth=4",
                "feed_per_tooth",
                5.0 / 630.0 / 4.0,
                "in/rev",
            ),
        ],
    );
}

#[test]
fn signs_points_and_other_results_are_seen() {
    // Before a face at zero the other side and the other sign are one: the likelier is told.
    slips(
        "wrong_side",
        &[(
            "datum/touch-off",
            "reading_was=growing&tip_diameter=0.200 in&face_position=0 in",
            "set_reading",
            0.1,
            "in",
        )],
    );
    slips("decimal_point", &[("holes/drill-point", DRILL, "point_length", 2.5 / tan(59.0), "in")]);
    // The height of the other arc: the same size of another place in the list.
    slips("place_in_list", &[("geometry/arc", "radius=10 mm&chord=12 mm", "solutions/0/height", 18.0, "mm")]);
}
