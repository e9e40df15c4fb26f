//! Marking: what a shop rounds to is right and more is not, by the kind of what is asked for.

use super::{mark, of_answer, question, verdict};
use shop_reckoner::calculators::REGISTER;
use shop_reckoner::fields::Given;
use shop_reckoner::practice::{Question, accepted};
use shop_reckoner::refusal::Refusal;

fn refused(question: &Question, answer: Given) -> (String, &'static str) {
    let Refusal(wrongs) = question.mark(&answer).expect_err("a refusal");
    (wrongs[0].says.clone(), wrongs[0].code.as_str())
}

#[test]
fn the_rounding_of_a_shop_is_right_and_more_is_not() {
    // 0.25 in / tan 59° = 0.150215 in = 3.8155 mm.
    let point = of_answer("holes/drill-point", "diameter=1/2 in&point_angle=118 deg", "point_length");
    for right in ["0.1502 in", "0.150 in", "0.15 in", "3.815 mm", "3.82 mm", "0.15021 in", "150 thou"] {
        assert_eq!(verdict(&point, right), "right", "{right}");
    }
    for wrong in ["0.151 in", "0.149 in", "3.8 mm", "0.16 in"] {
        assert_eq!(verdict(&point, wrong), "wrong", "{wrong}");
    }
    // 70 ft/min over π × 1/2 in: 534.76 rpm, within 1 %.
    let speed = of_answer("speeds/spindle-speed", "cutting_speed=70 ft/min&diameter=1/2 in", "exact_speed");
    for (answer, marked) in [("535 rpm", "right"), ("540 rpm", "right"), ("530 rpm", "right"), ("541 rpm", "wrong")] {
        assert_eq!(verdict(&speed, answer), marked, "{answer}");
    }
    // A limit is to its last place: 1/4-20 UNC-2A has its greatest pitch diameter at 0.2164 in (ASME B1.1).
    let limit = of_answer("threads/thread", "designation=1/4-20 UNC-2A", "limits/external/pitch_max");
    for (answer, marked) in [("0.2164 in", "right"), ("0.216 in", "wrong"), ("0.2165 in", "wrong")] {
        assert_eq!(verdict(&limit, answer), marked, "{answer}");
    }
    // A reading is wanted to its last place, or to half a step of the readout where that is stated.
    let touch = "reading_was=growing&tip_diameter=0.200 in&face_position=1.2345 in";
    let reading = of_answer("datum/touch-off", touch, "set_reading");
    for (answer, marked) in [("1.1345 in", "right"), ("1.135 in", "wrong"), ("1.134 in", "wrong")] {
        assert_eq!(verdict(&reading, answer), marked, "{answer}");
    }
    let reading = of_answer("datum/touch-off", &format!("{touch}&resolution=0.001 in"), "set_reading");
    assert_eq!(verdict(&reading, "1.135 in"), "right");
    let tilt = of_answer("datum/edge-angle", "first=0 in,0.100 in&second=5 in,0.112 in&along=x_axis", "angle");
    // atan(0.012 / 5) = 0.1375°, which is 8' 15".
    for (answer, marked) in [
        ("0.1375 deg", "right"),
        ("0.138 deg", "right"),
        ("0.14 deg", "right"),
        ("0.15 deg", "wrong"),
        ("0°8'15\"", "right"),
    ] {
        assert_eq!(verdict(&tilt, answer), marked, "{answer}");
    }
}

#[test]
fn an_answer_needs_its_unit_and_a_zero_does_not() {
    let point = of_answer("holes/drill-point", "diameter=1/2 in&point_angle=118 deg", "point_length");
    let (says, code) = refused(&point, Given::Text("0.1502".into()));
    assert_eq!(code, "unit_missing");
    assert!(says.contains("0.1502 in") && says.contains("0.1502 mm"), "{says}");
    assert_eq!(refused(&point, Given::Number(0.1502)).1, "unit_missing");
    assert_eq!(refused(&point, Given::Text("a bit".into())).1, "value_unreadable");
    assert_eq!(refused(&point, Given::Text(" ".into())).1, "value_empty");
    assert_eq!(refused(&point, Given::Text("0.15 furlongs".into())).1, "unit_unknown");
    assert_eq!(refused(&point, Given::Text("0.15 ±0.01 in".into())).1, "value_unreadable");
    assert_eq!(verdict(&point, "0"), "wrong");
    let object = |value: f64, unit: &'static str| {
        Given::Object(vec![("value".into(), Given::Number(value)), ("unit".into(), Given::Text(unit.into()))])
    };
    assert!(point.mark(&object(0.1502, "in")).expect("marked").right);
    assert_eq!(refused(&point, object(0.1502, "cubit")).1, "value_unreadable");
}

#[test]
fn what_counts_as_right_is_said_and_is_right() {
    let said = |question: &Question| {
        (question.closeness().words(&question.wanted.amount), accepted(&question.wanted.amount, question.room()))
    };
    let speed = of_answer("speeds/spindle-speed", "cutting_speed=50 ft/min&diameter=0.4 in", "exact_speed");
    // 600 / (0.4 π) = 477.46 rpm.
    let words = ("within 1%, or rounded to two digits".to_owned(), "from 473 to 482 rpm".to_owned());
    assert_eq!(said(&speed), words);
    for (answer, marked) in [("477 rpm", "right"), ("480 rpm", "right"), ("473 rpm", "right"), ("483 rpm", "wrong")] {
        assert_eq!(verdict(&speed, answer), marked, "{answer}");
    }
    let point = of_answer("holes/drill-point", "diameter=1/2 in&point_angle=118 deg", "point_length");
    assert_eq!(said(&point), ("within ±0.0005 in".to_owned(), "from 0.1498 to 0.1507 in".to_owned()));
}

/// The number at the edge of what is accepted is right, and one beyond it is not, for every calculator.
#[test]
fn nothing_beyond_the_interval_is_right() {
    for entry in REGISTER {
        for seed in 0..4 {
            let question = question(entry, seed);
            let (right, room) = (question.wanted.amount, question.room());
            let Some(quantity) = right.quantity() else {
                assert_eq!(room, 0.0);
                for off in [-1.0, 1.0] {
                    assert!(!mark(&question, &format!("{}", right.si() + off)).right, "{}", question.text);
                }
                continue;
            };
            for (share, is_right) in [(0.999, true), (-0.999, true), (1.01, false), (-1.01, false)] {
                let value = quantity.unit.of_si(right.si() + share * room);
                let answer = format!("{value:.14e} {}", quantity.unit.row().ascii);
                assert_eq!(mark(&question, &answer).right, is_right, "{}: {} {answer}", entry.id, question.text);
            }
            // Nothing is marked more loosely than by a twentieth, unless its last place is coarser.
            let half_place = 0.5 * 0.1f64.powi(quantity.kind.places(quantity.unit) as i32);
            let half_place = half_place * quantity.unit.row().factor;
            let most = (right.si().abs() / 20.0).max(half_place).max(1.3e-5);
            assert!(room <= most * (1.0 + 1e-9), "{}: {}", entry.id, question.text);
            let says = accepted(&right, room);
            assert!(says.starts_with("from ") && says.contains(" to "), "{says}");
        }
    }
}
