//! Milling on the machine of Tern Point Works, and laws that hold for every cut.

use super::*;
use crate::fields::{Fields, Given};
use crate::refusal::Code;
use proptest::prelude::*;
use validator::Validate;

const BENCH: &str = "diameter=1/2 in&teeth=4&cutting_speed=70 ft/min&feed_per_tooth=0.002 in/tooth\
    &radial_depth=0.250 in&axial_depth=0.250 in";
const STEPS: &str = "&available=112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm";

fn solved(query: &str) -> Result<(MillingResult, Record), Refusal> {
    let pair = |pair: &str| {
        let (name, value) = pair.split_once('=').unwrap_or((pair, ""));
        (name.to_owned().into(), Given::Text(value.to_owned().into()))
    };
    let input: MillingInput = Fields(query.split('&').map(pair).collect()).read(|_| None)?;
    input.validate()?;
    let mut record = Record::new(true);
    Ok((Milling::solve(&input, &mut record)?, record))
}

fn answer(query: &str) -> (MillingResult, Record) {
    solved(query).unwrap_or_else(|refusal| panic!("{query}: {refusal:?}"))
}

fn has_note(record: &Record, code: &str) -> bool {
    record.notes.iter().any(|note| note.code == code)
}

/// The query with one field changed.
fn with(query: &str, field: &str, value: &str) -> String {
    let prefix = format!("{field}=");
    let mut parts: Vec<String> =
        query.split('&').filter(|part| !part.starts_with(&prefix)).map(str::to_owned).collect();
    parts.push(format!("{field}={value}"));
    parts.join("&")
}

#[test]
fn the_bench_mill_cuts_at_450_rpm() {
    let (result, record) = answer(&format!("{BENCH}{STEPS}"));
    // 12 × 70 / (π × 0.5) rpm; 4 × 0.002 × 450 in/min; 0.25 × 0.25 × 3.6 in³/min.
    assert_eq!(result.speed.exact_speed.quantity().in_unit(Unit::Rpm), text::tidy(1680.0 / std::f64::consts::PI));
    assert_eq!(result.speed.spindle_speed.quantity().text(), "450.0 rpm");
    assert_eq!(result.feed_rate.unwrap().quantity().in_unit(Unit::InchPerMinute), 3.6);
    assert_eq!(result.removal_rate.unwrap().quantity().in_unit(Unit::CubicInchPerMinute), 0.225);
    assert_eq!(result.speed.cutting_speed.quantity().in_system(crate::quantity::System::Inch).text(), "58.9 ft/min");
    assert_eq!(result.engagement_angle.unwrap().degrees(), 90.0);
    assert_eq!(result.teeth_in_cut, Some(1.0));
    assert_eq!(result.limited_by, [Limit::Available]);
    let cautions: Vec<_> = record.cautions.iter().map(|caution| caution.code).collect();
    assert_eq!(cautions, ["turning_spindle", "milling", "speed_limit"]);
}

#[test]
fn only_climb_milling_brings_its_caution_and_each_way_its_side() {
    let (_, climb) = answer(&format!("{BENCH}&way=climb"));
    let (_, conventional) = answer(&format!("{BENCH}&way=conventional"));
    let warned = |record: &Record| record.cautions.iter().any(|caution| caution.code == "climb_milling");
    assert!(warned(&climb) && has_note(&climb, "climb_side"));
    assert!(!warned(&conventional) && has_note(&conventional, "conventional_side"));
}

#[test]
fn a_slot_may_be_stated_in_another_unit_but_no_cut_is_wider_than_the_cutter() {
    let (slot, record) = answer(&with(BENCH, "radial_depth", "12.7 mm"));
    assert_eq!(slot.engagement_angle.unwrap().degrees(), 180.0);
    assert!(has_note(&record, "full_slot"));
    let refusal = solved(&with(BENCH, "radial_depth", "0.501 in")).unwrap_err();
    let fields: Vec<_> = refusal.0.iter().map(|wrong| wrong.field.as_str()).collect();
    assert_eq!((fields, refusal.0[0].code), (vec!["/diameter", "/radial_depth"], Code::Conflict));
}

#[test]
fn teeth_are_counted_from_1_to_100() {
    for (teeth, good) in [("0", false), ("1", true), ("100", true), ("101", false)] {
        assert_eq!(solved(&with(BENCH, "teeth", teeth)).is_ok(), good, "{teeth}");
    }
}

#[test]
fn holding_the_chip_stops_at_three_times_the_feed() {
    let light = with(BENCH, "radial_depth", "0.005 in");
    let (free, record) = answer(&with(&light, "hold_chip", "greatest"));
    assert_eq!(text::tidy(free.feed_per_tooth.unwrap().quantity().value), 0.006);
    assert!(has_note(&record, "feed_factor_bounded"));
    assert_eq!(record.trust().as_str(), "common practice");
    let (unbound, record) = answer(&with(BENCH, "hold_chip", "greatest"));
    assert_eq!(text::tidy(unbound.feed_per_tooth.unwrap().quantity().value), 0.002);
    assert!(!has_note(&record, "feed_factor_bounded"));
    assert_eq!(record.trust().as_str(), "standard");
}

#[test]
fn a_feed_limit_thins_the_chip_and_says_so() {
    let (result, record) = answer(&format!("{BENCH}{STEPS}&fastest_feed=1.8 in/min"));
    assert_eq!(text::tidy(result.feed_per_tooth.unwrap().quantity().value), 0.001);
    assert_eq!(result.limited_by, [Limit::Available, Limit::FastestFeed]);
    assert!(has_note(&record, "feed_limited"));
}

/// A known speed is not withheld because the machine does not have it: the nearest is given, and the first caution says
/// what that means.
#[test]
fn where_no_speed_or_feed_will_do_the_nearest_is_given_with_a_caution() {
    let wide = with(&with(BENCH, "diameter", "6 in"), "radial_depth", "1 in");
    let first = |record: &Record| record.cautions[0].code;
    for limits in [STEPS, "&slowest=112 rpm", "&available=112 rpm,30 rpm&slowest=112 rpm"] {
        let (result, record) = answer(&format!("{wide}{limits}"));
        assert_eq!(text::tidy(result.speed.exact_speed.quantity().in_unit(Unit::Rpm) * 10.0).round(), 446.0);
        assert_eq!(result.speed.spindle_speed.quantity().text(), "112.0 rpm", "{limits}");
        assert_eq!(first(&record), "too_fast", "{limits}");
        assert!(record.cautions[0].says.contains("151 percent above"), "{}", record.cautions[0].says);
    }
    // A chuck's limit is not broken for a machine that has no slower step.
    let (result, record) = answer(&format!("{BENCH}{STEPS}&fastest=105 rpm"));
    assert_eq!(result.speed.spindle_speed.quantity().text(), "105.0 rpm");
    assert_eq!((first(&record), result.limited_by), ("no_speed_allowed", vec![Limit::Fastest, Limit::Available]));
    // 4.28 in/min wanted of a table that feeds no slower than 40 in/min.
    for more in ["", "&hold_chip=mean"] {
        let (result, record) = answer(&format!("{BENCH}{STEPS}&available_feeds=40 in/min,80 in/min{more}"));
        assert_eq!(first(&record), "feed_by_hand");
        assert_eq!(result.limited_by, [Limit::Available, Limit::AvailableFeeds]);
        assert!(result.feed_rate.unwrap().quantity().in_unit(Unit::InchPerMinute) < 8.0);
    }
}

#[test]
fn speed_and_feed_need_no_depths_and_a_speed_needs_no_feed() {
    let bare = "diameter=1/2 in&teeth=4&cutting_speed=70 ft/min&feed_per_tooth=0.002 in/tooth";
    let (result, record) = answer(&format!("{bare}{STEPS}"));
    assert_eq!(result.feed_rate.unwrap().quantity().in_unit(Unit::InchPerMinute), 3.6);
    assert!(result.removal_rate.is_none() && result.mean_chip.is_none() && result.engagement_angle.is_none());
    assert!(record.steps.iter().all(|step| step.field() != "removal_rate"));
    let (result, _) = answer("diameter=2 in&cutting_speed=70 ft/min");
    assert!(result.feed_rate.is_none() && result.speed.spindle_speed.si() > 0.0);
}

#[test]
fn a_speed_that_is_set_makes_its_cutting_speed_and_stands_against_the_table() {
    let set = "diameter=1/2 in&teeth=4&spindle_speed=450 rpm&material=4140 annealed&tool_material=hss";
    let (result, record) = answer(set);
    // π × 0.5 × 450 / 12.
    let speed = result.speed.cutting_speed.quantity().in_unit(Unit::FootPerMinute);
    assert!((speed - std::f64::consts::PI * 225.0 / 12.0).abs() < 1e-9, "{speed}");
    let notes: Vec<_> = record.notes.iter().map(|note| note.code).collect();
    assert!(notes.iter().any(|code| ["within_published", "speed_below_published"].contains(code)), "{notes:?}");
    let (_, fast) = answer(&with(set, "spindle_speed", "4000 rpm"));
    assert_eq!(fast.notes[0].code, "above_published");
    let (_, slow) = answer(&with(set, "spindle_speed", "50 rpm"));
    assert_eq!(slow.notes[0].code, "speed_below_published");
    assert!(solved(&format!("{set}&cutting_speed=70 ft/min")).is_err());
}

#[test]
fn screws_with_play_are_warned_of_whatever_the_way() {
    let warned = |query: &str| answer(query).1.cautions.iter().any(|caution| caution.code == "climb_milling");
    for way in ["", "&way=conventional", "&way=climb"] {
        assert!(warned(&format!("{BENCH}&backlash=0.15 mm{way}")), "{way}");
    }
    assert!(!warned(&format!("{BENCH}&backlash=0 mm&way=conventional")));
}

/// A 10° edge leaves a chip of sin 10° of the feed: the whole of that is given back, and no more.
#[test]
fn a_high_feed_cutter_gets_its_whole_feed_and_no_other_edge_does() {
    let held = |edge: &str, wide: &str| {
        let cut = with(&with(BENCH, "radial_depth", &format!("{wide} in")), "hold_chip", "greatest");
        let (result, _) = answer(&format!("{cut}&cutting_edge_angle={edge} deg"));
        result.feed_per_tooth.unwrap().quantity().in_unit(Unit::InchPerTooth) / 0.002
    };
    let near = |a: f64, b: f64| (a - b).abs() < 1e-9 * b;
    assert!(near(held("10", "0.25"), 1.0 / 10f64.to_radians().sin()));
    assert!(near(held("15", "0.25"), 1.0 / 15f64.to_radians().sin()));
    // A light cut on top is not made up for.
    assert!(near(held("10", "0.005"), 1.0 / 10f64.to_radians().sin()));
    assert!(near(held("9", "0.25"), 3.0) && near(held("45", "0.005"), 3.0));
}

/// The tables' feed of a table that has a step inside the range and one below it: the one inside is taken.
#[test]
fn a_step_inside_the_published_range_goes_before_one_below_it() {
    let query = "diameter=3/8 in&teeth=4&cutting_speed=70 ft/min&material=1018&tool_material=hss";
    let (free, _) = answer(query);
    let wanted = free.feed_rate.unwrap().quantity().in_unit(Unit::InchPerMinute);
    let steps = |share: f64| format!("{query}&available_feeds={} in/min,{} in/min", wanted * 0.5, wanted * share);
    let (inside, _) = answer(&steps(1.2));
    assert!((inside.feed_rate.unwrap().quantity().in_unit(Unit::InchPerMinute) / wanted - 1.2).abs() < 1e-9);
    let (below, record) = answer(&steps(9.0));
    assert!((below.feed_rate.unwrap().quantity().in_unit(Unit::InchPerMinute) / wanted - 0.5).abs() < 1e-9);
    assert_eq!(record.notes[0].code, "feed_below_published");
    assert!(record.notes[0].says.contains("50 percent of the lowest published"), "{}", record.notes[0].says);
}

proptest! {
    #[test]
    fn chips_are_in_order_and_the_volume_is_what_the_teeth_cut(
        diameter in 0.5..200.0f64,
        share in 0.001..1.0f64,
        teeth in 1u32..=100,
        feed in 0.001..0.5f64,
        edge in 10.0..90.0f64,
        depth in 0.1..50.0f64,
    ) {
        let query = format!(
            "diameter={diameter} mm&teeth={teeth}&cutting_speed=30 m/min&feed_per_tooth={feed} mm/tooth\
             &radial_depth={} mm&axial_depth={depth} mm&cutting_edge_angle={edge} deg",
            diameter * share
        );
        let (result, _) = answer(&query);
        let (mean, greatest) = (result.mean_chip.unwrap().get().si(), result.greatest_chip.unwrap().get().si());
        let feed = result.feed_per_tooth.unwrap().get().si();
        prop_assert!(0.0 < mean && mean < greatest && greatest <= feed * (1.0 + 1e-12));
        // The area of the mean chip along the rim is the area that a tooth takes: feed times width.
        let radius = diameter / 2000.0;
        let sine = edge.to_radians().sin();
        let taken = mean * radius * result.engagement_angle.unwrap().get().si() / sine;
        let stated = feed * diameter * share / 1000.0;
        prop_assert!((taken - stated).abs() < 1e-9 * stated, "{taken} {stated}");
    }

    #[test]
    fn a_held_chip_is_as_thick_as_the_feed_asked_for(share in 0.15..1.0f64, edge in 60.0..90.0f64, mean in any::<bool>()) {
        let hold = if mean { "mean" } else { "greatest" };
        let query = format!(
            "diameter=20 mm&teeth=3&cutting_speed=30 m/min&feed_per_tooth=0.05 mm/tooth&radial_depth={} mm\
             &axial_depth=5 mm&cutting_edge_angle={edge} deg&hold_chip={hold}",
            20.0 * share
        );
        let (result, record) = answer(&query);
        // Where the factor would go beyond its bound, the chip is thinner and a note says so.
        prop_assume!(!has_note(&record, "feed_factor_bounded"));
        let chip = if mean { result.mean_chip } else { result.greatest_chip }.unwrap();
        prop_assert!((chip.quantity().in_unit(Unit::Millimetre) - 0.05).abs() < 1e-12);
    }

    #[test]
    fn no_cut_panics_or_gives_what_is_no_number(
        diameter in 1e-9..1e6f64,
        share in 1e-12..1.0f64,
        speed in 1e-6..60_000.0f64,
        feed in 1e-9..100.0f64,
        edge in 1e-9..90.0f64,
        hold in prop::sample::select(vec!["none", "greatest", "mean"]),
    ) {
        let query = format!(
            "diameter={diameter} mm&teeth=100&cutting_speed={speed} m/min&feed_per_tooth={feed} mm&radial_depth={} mm\
             &axial_depth=1 mm&cutting_edge_angle={edge} deg&hold_chip={hold}",
            diameter * share
        );
        if let Ok((result, _)) = solved(&query) {
            let values = [
                result.feed_rate.unwrap().get().si(),
                result.feed_per_tooth.unwrap().get().si(),
                result.mean_chip.unwrap().get().si(),
                result.greatest_chip.unwrap().get().si(),
                result.removal_rate.unwrap().get().si(),
                result.teeth_in_cut.unwrap(),
            ];
            prop_assert!(values.iter().all(|value| value.is_finite() && *value >= 0.0), "{query}: {values:?}");
        }
    }
}

#[test]
fn the_bench_mill_takes_a_quarter_horsepower_for_its_step() {
    let query =
        format!("{BENCH}{STEPS}&material=4140 annealed&tool_material=hss&spindle_power=1.5 kW&efficiency=85 percent");
    let (result, record) = answer(&query);
    let taken = result.power.expect("a power");
    assert_eq!(result.speed.exact_speed.quantity().in_system(crate::quantity::System::Inch).text(), "534.8 rpm");
    assert_eq!(result.speed.spindle_speed.quantity().text(), "450.0 rpm");
    assert_eq!(result.feed_rate.unwrap().quantity().in_system(crate::quantity::System::Inch).text(), "3.60 in/min");
    assert_eq!(
        result.removal_rate.unwrap().quantity().in_system(crate::quantity::System::Inch).text(),
        "0.225 in³/min"
    );
    // 0.725 hp·min/in³ × 0.225 in³/min × 1.40 × 1.10.
    assert_eq!(taken.power.quantity().in_system(crate::quantity::System::Inch).text(), "0.25 hp");
    let load = taken.load.load.expect("a load").get().si();
    assert!((0.145..0.155).contains(&load), "{load}");
    assert!(has_note(&record, "methods_differ") && has_note(&record, "force_families"));
    assert_eq!(record.trust(), crate::sources::Trust::FromMemory);
}

#[test]
fn a_cut_beyond_the_motor_says_how_much_less_deep_it_would_have_to_be() {
    let query =
        format!("{BENCH}&material=4140-annealed&spindle_power=100 W&efficiency=100 percent&base_speed=1000 rpm");
    let (result, record) = answer(&query);
    assert_eq!(result.limited_by, [Limit::Power]);
    let taken = result.power.expect("power");
    let (power, available) = (taken.power.get().si(), taken.load.power_available.expect("power").get().si());
    let fall = result.depth_fall.expect("a fall").get().si();
    assert!((power * (1.0 - fall) - available).abs() < 1e-9 * power);
    assert!(has_note(&record, "too_much_power") && has_note(&record, "below_base_speed"));
}

#[test]
fn a_cut_with_one_side_at_the_rim_is_the_same_by_its_offset() {
    let (rim, _) = answer(BENCH);
    let (off, _) = answer(&with(BENCH, "cut_offset", "0.125 in"));
    assert!((rim.mean_chip.unwrap().get() / off.mean_chip.unwrap().get()).si() - 1.0 < 1e-12);
    assert!((rim.engagement_angle.unwrap().degrees() - off.engagement_angle.unwrap().degrees()).abs() < 1e-9);
    let (centred, _) = answer(&with(BENCH, "cut_offset", "0"));
    assert!((centred.engagement_angle.unwrap().degrees() - 60.0).abs() < 1e-9);
    assert!(solved(&with(BENCH, "cut_offset", "0.2 in")).is_err());
}

#[test]
fn a_ball_nose_is_reckoned_where_it_cuts() {
    let (result, _) = answer(&format!("{}&corner_radius=0.25 in", with(BENCH, "axial_depth", "0.05 in")));
    // 2 √(0.05 (0.5 - 0.05)) = 0.3 in.
    let across = result.effective_diameter.expect("a diameter").quantity().in_unit(Unit::Inch);
    assert!((across - 0.3).abs() < 1e-12);
    assert!(
        (result.speed.exact_speed.quantity().in_unit(Unit::Rpm) - 70.0 * 12.0 / (std::f64::consts::PI * 0.3)).abs()
            < 1e-6
    );
    let (deep, _) = answer(&format!("{BENCH}&corner_radius=0.25 in"));
    assert!(deep.effective_diameter.is_none());
    assert!(solved(&format!("{BENCH}&corner_radius=0.3 in")).is_err());
}

#[test]
fn without_material_there_is_no_power_and_without_speed_no_answer() {
    let (result, record) = answer(&format!("{BENCH}&spindle_power=1.5 kW"));
    assert!(result.power.is_none() && has_note(&record, "power_needs_material"));
    let refusal = solved("diameter=1/2 in&teeth=4&radial_depth=0.1 in&axial_depth=0.1 in").unwrap_err();
    let mut fields: Vec<&str> = refusal.0.iter().map(|wrong| wrong.field.as_str()).collect();
    fields.sort_unstable();
    // The feed may be left out.
    assert_eq!(fields, ["/cutting_speed"], "never a metal that is not named");
}
