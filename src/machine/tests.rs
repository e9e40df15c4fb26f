//! Speeds and feeds chosen for machines with limits, steps, both or none.

use super::*;
use crate::quantity::{CuttingSpeed, FeedRate, FoundFeedRate, FoundSpindleSpeed, Percentage, Size, SpindleSpeed, kind};
use crate::working::Record;
use proptest::prelude::*;

/// The mill of Tern Point Works.
const STEPS: [f64; 8] = [112.0, 160.0, 224.0, 315.0, 450.0, 630.0, 900.0, 1250.0];

fn rpm(value: f64) -> SpindleSpeed {
    SpindleSpeed::stated(value, Unit::Rpm)
}

fn percent(value: f64) -> Option<Percentage> {
    Some(Percentage::stated(value, Unit::Percent))
}

fn feed(value: f64) -> FeedRate {
    FeedRate::stated(value, Unit::MillimetrePerMinute)
}

fn chosen(spindle: SpindleLimits, exact: f64) -> (ChosenSpeed, Record) {
    let mut record = Record::new(true);
    let chosen = spindle.choose(FoundSpindleSpeed::stated(exact, Unit::Rpm), &mut record);
    (chosen, record)
}

fn speed(chosen: &ChosenSpeed) -> f64 {
    chosen.speed.quantity().in_unit(Unit::Rpm)
}

fn neighbours(chosen: &ChosenSpeed) -> [Option<f64>; 2] {
    [chosen.below, chosen.above].map(|step| step.map(|step| step.quantity().value))
}

#[test]
fn a_machine_without_limits_runs_at_the_exact_speed() {
    let (chosen, record) = chosen(SpindleLimits::default(), 534.76);
    assert_eq!((speed(&chosen), neighbours(&chosen)), (534.76, [None, None]));
    assert!(chosen.limited_by.is_empty() && record.notes.is_empty() && record.assumed.is_empty());
}

#[test]
fn the_step_below_is_taken_unless_the_one_above_is_near_enough() {
    let steps = STEPS.map(rpm);
    // 900 rpm is 17.8 percent above 764 rpm.
    for (may_exceed, expected) in [(None, 630.0), (percent(17.0), 630.0), (percent(18.0), 900.0)] {
        let (chosen, record) =
            chosen(SpindleLimits { available: Some(steps.to_vec()), may_exceed, ..SpindleLimits::default() }, 764.0);
        assert_eq!(speed(&chosen), expected);
        assert_eq!(neighbours(&chosen), [Some(630.0), Some(900.0)]);
        assert_eq!(chosen.limited_by, [Limit::Available]);
        assert_eq!(record.notes.iter().any(|note| note.code == "above_exact"), expected == 900.0);
    }
}

#[test]
fn a_step_that_is_the_exact_speed_is_taken_and_nothing_limits() {
    let steps = STEPS.map(rpm);
    for exact in [450.0, 450.0 * (1.0 - 1e-12), 450.0 * (1.0 + 1e-12)] {
        let spindle =
            SpindleLimits { available: Some(steps.to_vec()), may_exceed: percent(50.0), ..SpindleLimits::default() };
        let (chosen, _) = chosen(spindle, exact);
        assert_eq!((speed(&chosen), neighbours(&chosen)), (450.0, [Some(450.0), Some(630.0)]));
        assert!(chosen.limited_by.is_empty());
    }
}

fn first_caution(record: &Record) -> Option<&'static str> {
    record.cautions.first().map(|caution| caution.code)
}

#[test]
fn below_the_slowest_step_the_slowest_is_given_and_warned_of() {
    let steps = STEPS.map(rpm);
    let spindle = SpindleLimits { available: Some(steps.to_vec()), ..SpindleLimits::default() };
    let (chosen, record) = chosen(spindle, 80.0);
    assert_eq!((speed(&chosen), neighbours(&chosen)), (112.0, [None, Some(112.0)]));
    assert_eq!(first_caution(&record), Some("too_fast"));
    assert!(record.cautions[0].says.contains("112 rpm, is 40 percent above"), "{}", record.cautions[0].says);
}

#[test]
fn the_slowest_limit_is_taken_with_a_caution_unless_it_may_exceed() {
    for (may_exceed, caution) in [(None, Some("too_fast")), (percent(9.9), Some("too_fast")), (percent(10.0), None)] {
        let spindle = SpindleLimits { slowest: Some(rpm(110.0)), may_exceed, ..SpindleLimits::default() };
        let (chosen, record) = chosen(spindle, 100.0);
        assert_eq!((speed(&chosen), neighbours(&chosen)), (110.0, [None, Some(110.0)]));
        assert_eq!((chosen.limited_by, first_caution(&record)), (vec![Limit::Slowest], caution));
    }
}

#[test]
fn no_step_above_the_fastest_is_ever_given() {
    let steps = STEPS.map(rpm);
    for (exact, expected) in [(112.0, 105.0), (80.0, 80.0), (900.0, 105.0)] {
        let spindle =
            SpindleLimits { available: Some(steps.to_vec()), fastest: Some(rpm(105.0)), ..SpindleLimits::default() };
        let (chosen, record) = chosen(spindle, exact);
        assert_eq!((speed(&chosen), first_caution(&record)), (expected, Some("no_speed_allowed")));
    }
}

#[test]
fn the_fastest_limit_holds_whatever_may_be_exceeded() {
    let steps = STEPS.map(rpm);
    let limit = SpindleLimits { fastest: Some(rpm(1000.0)), may_exceed: percent(300.0), ..SpindleLimits::default() };
    let (any, record) = chosen(limit.clone(), 1500.0);
    assert_eq!((speed(&any), any.limited_by), (1000.0, vec![Limit::Fastest]));
    assert!(record.notes.iter().any(|note| note.code == "may_exceed_without_effect"));
    let (stepped, record) = chosen(SpindleLimits { available: Some(steps.to_vec()), ..limit }, 1500.0);
    assert_eq!((speed(&stepped), stepped.limited_by), (900.0, vec![Limit::Fastest, Limit::Available]));
    assert!(record.notes.iter().any(|note| note.code == "steps_left_out"));
}

#[test]
fn a_machine_whose_limits_contradict_is_refused_with_values_that_work() {
    let steps = STEPS.map(rpm);
    let cases = [
        SpindleLimits { slowest: Some(rpm(900.0)), fastest: Some(rpm(100.0)), ..SpindleLimits::default() },
        SpindleLimits { available: Some(Vec::new()), ..SpindleLimits::default() },
        SpindleLimits { available: Some(steps.to_vec()), fastest: Some(rpm(100.0)), ..SpindleLimits::default() },
        SpindleLimits { available: Some(steps.to_vec()), slowest: Some(rpm(2000.0)), ..SpindleLimits::default() },
        SpindleLimits {
            available: Some(steps.to_vec()),
            slowest: Some(rpm(120.0)),
            fastest: Some(rpm(150.0)),
            ..SpindleLimits::default()
        },
    ];
    for case in cases {
        let error = case.check_machine().unwrap_err();
        assert!(!error.params.is_empty());
        for (field, value) in &error.params {
            let value = SpindleSpeed::read(value.as_str().unwrap()).unwrap_or(rpm(112.0));
            let one = [value];
            let mended = match field.as_ref() {
                "slowest" => SpindleLimits { slowest: Some(value), ..case.clone() },
                "fastest" => SpindleLimits { fastest: Some(value), ..case.clone() },
                _ => SpindleLimits { available: Some(one.to_vec()), ..case.clone() },
            };
            assert!(mended.check_machine().is_ok(), "{field}={value:?} does not mend {case:?}");
        }
    }
}

#[test]
fn the_feed_is_at_or_below_the_one_asked_for() {
    let list = [160.0, 25.0, 40.0, 100.0, 63.0].map(feed);
    let wanted = |value: f64| FoundFeedRate::stated(value, Unit::MillimetrePerMinute);
    let choose = |feeds: Feeds, value: f64| {
        let chosen = feeds.choose(wanted(value), &mut Record::new(true));
        (chosen.rate.quantity().in_unit(Unit::MillimetrePerMinute), chosen.limited_by)
    };
    let steps = Feeds::of(None, Some(&list));
    assert_eq!(choose(steps, 90.0), (63.0, vec![Limit::AvailableFeeds]));
    assert_eq!(choose(steps, 63.0), (63.0, vec![]));
    // Slower than the slowest step is by hand.
    assert_eq!(choose(steps, 20.0), (20.0, vec![Limit::AvailableFeeds]));
    let both = Feeds { fastest: Some(feed(120.0)), ..steps };
    assert_eq!(choose(both, 500.0), (100.0, vec![Limit::FastestFeed, Limit::AvailableFeeds]));
    assert_eq!(choose(Feeds { available: None, ..both }, 500.0), (120.0, vec![Limit::FastestFeed]));
    assert_eq!(choose(Feeds::default(), 500.0), (500.0, vec![]));
    assert!(Feeds { fastest: Some(feed(20.0)), ..steps }.check_machine().is_err());
}

#[test]
fn a_speed_beyond_every_spindle_is_refused_with_values_that_work() {
    let speed = CuttingSpeed::read("900 m/s").unwrap();
    let tiny = Size::read("0.001 mm").unwrap();
    let refusal = exact_speed(speed.into(), tiny.into(), &mut Record::new(true)).unwrap_err();
    assert_eq!(refusal.0.len(), 2);
    for wrong in refusal.0 {
        let value = wrong.try_this.unwrap();
        let mended = match wrong.field.as_str() {
            "/diameter" => exact_speed(speed.into(), Size::read(&value).unwrap().into(), &mut Record::new(true)),
            _ => exact_speed(CuttingSpeed::read(&value).unwrap().into(), tiny.into(), &mut Record::new(true)),
        };
        assert!(mended.is_ok(), "{} = {value}", wrong.field);
    }
}

#[test]
fn a_value_to_try_is_rounded_the_safe_way() {
    assert_eq!(to_try::<kind::SpindleSpeed>(534.76 / 60.0, Unit::Rpm, Toward::Less).as_deref(), Some("534 rpm"));
    assert_eq!(to_try::<kind::Size>(0.0123456, Unit::Millimetre, Toward::More).as_deref(), Some("12.4 mm"));
    assert_eq!(to_try::<kind::Size>(1e9, Unit::Millimetre, Toward::More), None);
}

proptest! {
    #[test]
    fn the_speed_chosen_is_one_the_machine_has_and_the_best_allowed(
        list in prop::collection::vec(1.0..5000.0f64, 1..12),
        exact in 1.0..6000.0f64,
        slowest in prop::option::of(1.0..5000.0f64),
        fastest in prop::option::of(1.0..5000.0f64),
        over in 0.0..60.0f64,
    ) {
        let available: Vec<SpindleSpeed> = list.iter().copied().map(rpm).collect();
        let spindle = SpindleLimits {
            slowest: slowest.map(rpm),
            fastest: fastest.map(rpm),
            available: Some(available.clone()),
            may_exceed: percent(over),
        };
        prop_assume!(spindle.check_machine().is_ok());
        let (chosen, _) = chosen(spindle, exact);
        let usable: Vec<f64> = list
            .into_iter()
            .filter(|step| slowest.is_none_or(|s| *step >= s) && fastest.is_none_or(|f| *step <= f))
            .collect();
        let highest = exact * (1.0 + over / 100.0);
        let speed = speed(&chosen);
        prop_assert!(usable.iter().any(|step| (step - speed).abs() < 1e-9 * speed), "not a step");
        let slowest_step = usable.iter().copied().fold(f64::INFINITY, f64::min);
        prop_assert!(speed <= highest * (1.0 + 1e-8) || speed <= slowest_step * (1.0 + 1e-8));
        let nearer = usable.iter().any(|step| *step > speed * (1.0 + 1e-8) && *step <= exact);
        prop_assert!(!nearer, "a faster step is below the exact speed");
        let [below, above] = neighbours(&chosen);
        prop_assert!(below.is_none_or(|step| step <= exact * (1.0 + 1e-8)));
        prop_assert!(above.is_none_or(|step| step >= exact));
        prop_assert!(!usable.iter().any(|step| below.is_some_and(|b| *step > b) && above.is_some_and(|a| *step < a)));
    }
}
