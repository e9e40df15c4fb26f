//! The laws that the limits of every thread obey, listed or not: the greatest above the least,
//! internal at or above external, a closer class inside a wider one.

mod common;

use common::asked;
use proptest::prelude::*;
use serde_json::Value;
use shop_reckoner::calculators::find;

fn limits(thread: &str, external: Option<&str>, internal: Option<&str>) -> Option<Value> {
    let mut query = format!("designation={thread}");
    for (field, class) in [("external_class", external), ("internal_class", internal)] {
        if let Some(class) = class {
            query.push_str(&format!("&{field}={class}"));
        }
    }
    let answer = asked(find("threads/thread").expect("the calculator"), &query).ok()?;
    let limits = answer["result"]["limits"].clone();
    (!limits.is_null()).then_some(limits)
}

fn of(limits: &Value, path: &str) -> Option<f64> {
    path.split('.').try_fold(limits, |at, name| at.get(name))?["value"].as_f64()
}

/// Greatest above least, and a screw that goes into its nut.
fn holds(limits: &Value) -> Result<(), String> {
    for side in ["external", "internal"] {
        for name in ["major", "pitch", "minor"] {
            let at = |end: &str| of(limits, &format!("{side}.{name}_{end}"));
            if let (Some(greatest), Some(least)) = (at("max"), at("min"))
                && greatest <= least
            {
                return Err(format!("{side} {name}: greatest {greatest}, least {least}"));
            }
        }
    }
    for name in ["major", "pitch", "minor"] {
        let outside = of(limits, &format!("external.{name}_max"));
        let inside = of(limits, &format!("internal.{name}_min"));
        // The Unified minor diameters of nuts are rounded to three places.
        let slack = if name == "minor" { 0.000_501 } else { 1e-9 };
        if let (Some(outside), Some(inside)) = (outside, inside)
            && outside > inside + slack
        {
            return Err(format!("{name}: external up to {outside}, internal from {inside}"));
        }
    }
    Ok(())
}

/// The zone of the closer class on the pitch diameter is no wider than that of the wider one, and
/// does not leave it on the side of wear.
fn closer_is_inside(thread: &str, classes: &[&str], side: &str) -> Result<(), String> {
    let zone = |class: &str| {
        let (external, internal) = if side == "external" { (Some(class), None) } else { (None, Some(class)) };
        let limits = limits(thread, external, internal)?;
        Some((of(&limits, &format!("{side}.pitch_min"))?, of(&limits, &format!("{side}.pitch_max"))?))
    };
    let zones: Vec<(f64, f64)> = classes.iter().filter_map(|class| zone(class)).collect();
    for pair in zones.windows(2) {
        let ((least, greatest), (wider_least, wider_greatest)) = (pair[0], pair[1]);
        if greatest - least > wider_greatest - wider_least + 1e-9 {
            return Err(format!("{thread} {side}: {zones:?}"));
        }
        let leaves = if side == "external" { least < wider_least - 1e-9 } else { greatest > wider_greatest + 1e-9 };
        if leaves {
            return Err(format!("{thread} {side}: {zones:?}"));
        }
    }
    Ok(())
}

fn any_thread() -> impl Strategy<Value = String> {
    prop_oneof![
        (1u32..=64, 4u32..=48).prop_map(|(size, tpi)| format!("{}-{tpi} ", size as f64 / 16.0).trim_end().to_owned()),
        (4u32..300, 1u32..24).prop_map(|(size, pitch)| format!("M{size}x{}", f64::from(pitch) / 4.0)),
        (4u32..96, 1u32..16).prop_map(|(size, tpi)| format!("{}-{tpi} Acme", f64::from(size) / 16.0)),
        (8u32..300, 1u32..20).prop_map(|(size, pitch)| format!("Tr{size}x{pitch}")),
        prop::sample::select(vec!["G 1/8", "G 1/4", "G 3/8", "G 1/2", "G 3/4", "G 1", "G 2", "G 6"])
            .prop_map(str::to_owned),
    ]
}

fn classes(thread: &str) -> (&'static [&'static str], &'static [&'static str]) {
    match thread {
        text if text.starts_with('M') => (&["4h", "6h"], &["4H", "5H", "6H", "7H", "8H"]),
        text if text.starts_with("Tr") => (&["7e", "8e"], &["7H", "8H", "9H"]),
        text if text.starts_with('G') => (&["A", "B"], &[]),
        text if text.ends_with("Acme") => (&["4G", "3G", "2G"], &["4G", "3G", "2G"]),
        _ => (&["3A", "2A", "1A"], &["3B", "2B", "1B"]),
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 600, ..ProptestConfig::default() })]

    #[test]
    fn the_greatest_is_above_the_least_and_a_screw_goes_into_its_nut(thread in any_thread()) {
        if let Some(limits) = limits(&thread, None, None) {
            prop_assert_eq!(holds(&limits), Ok(()), "{}", thread);
        }
    }

    #[test]
    fn a_closer_class_lies_inside_a_wider_one(thread in any_thread()) {
        let (external, internal) = classes(&thread);
        prop_assert_eq!(closer_is_inside(&thread, external, "external"), Ok(()));
        prop_assert_eq!(closer_is_inside(&thread, internal, "internal"), Ok(()));
    }
}

#[test]
fn a_broken_law_is_noticed() {
    let mut wrong = limits("M8", None, None).expect("limits");
    assert_eq!(holds(&wrong), Ok(()));
    wrong["external"]["pitch_max"]["value"] = 9.0.into();
    assert!(holds(&wrong).is_err());
    assert!(closer_is_inside("M8", &["6h", "4h"], "external").is_err());
}

#[test]
fn a_taper_thread_grows_by_a_sixteenth_of_its_length() {
    for thread in ["1/8 NPT", "1 1/2 NPT", "24 NPT", "R 1/2", "R 2"] {
        let answer = asked(find("threads/thread").expect("the calculator"), &format!("designation={thread}"))
            .unwrap_or_else(|refusal| panic!("{thread}: {refusal:?}"));
        let gauging = &answer["result"]["gauging"];
        let value = |name: &str| gauging[name]["value"].as_f64().expect("a number");
        let grown = value("gauge_pitch_diameter") - value("small_end_pitch_diameter");
        assert!((grown - value("gauge_length") / 16.0).abs() < 1.01e-5, "{thread}: {grown}");
        assert!(value("effective_length") > value("gauge_length"), "{thread}");
    }
}

/// A lead angle is by its definition that of the basic pitch diameter: M10 has 3.028°, whoever is asked and whatever
/// pitch diameter within the tolerance is cut.
#[test]
fn one_thread_has_one_lead_angle() {
    let angle = |id: &str, query: &str| {
        let answer =
            asked(find(id).expect("the calculator"), query).unwrap_or_else(|refusal| panic!("{id}: {refusal:?}"));
        answer["result"]["lead_angle"]["value"].as_f64().unwrap_or_else(|| panic!("{id}: no angle"))
    };
    let basic = 10.0 - 1.5 * 3f64.sqrt() * 3.0 / 8.0;
    let exact = (1.5 / (std::f64::consts::PI * basic)).atan().to_degrees();
    for (id, query) in [
        ("threads/thread", "designation=M10"),
        ("threads/single-point", "thread=M10&external_class=6g&tip_flat=0.1 mm"),
        ("threads/single-point", "thread=M10&pitch_diameter=9 mm&tip_flat=0.2 mm"),
    ] {
        assert!((angle(id, query) - exact).abs() < 1e-9, "{id}?{query}");
    }
}
