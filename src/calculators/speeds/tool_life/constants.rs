//! The constants of the law: as stated, or from two tests.

use super::{Law, ToolLifeInput, minute};
use crate::calculators::prelude::*;

/// Refuses constants and tests that are not whole, or that contradict each other.
pub fn check(input: &ToolLifeInput) -> Result<(), ValidationError> {
    let constants = stated!(input: speed_for_one_minute = "200 ft/min", exponent = "0.125");
    let tests = stated!(input: first_speed = "160 m/min", first_life = "5 min", second_speed = "100 m/min",
        second_life = "41 min");
    let of_tests = to_leave_out(&tests);
    if !of_tests.is_empty() && !to_leave_out(&constants).is_empty() {
        return Err(rule_broken(Code::Conflict, "Give the constants or two tests, not both.", &of_tests));
    }
    let missing = if of_tests.is_empty() { to_give(&constants) } else { to_give(&tests) };
    if !missing.is_empty() {
        let says = "Give speed_for_one_minute and exponent, or two tests with speed and life.";
        return Err(rule_broken(Code::FieldMissing, says, &missing));
    }
    if let (Some(first), Some(second), Some(short), Some(long)) =
        (input.first_speed, input.second_speed, input.first_life, input.second_life)
    {
        let (faster, longer) = (first.get() / second.get(), long.get() / short.get());
        let exponent = faster.si().ln() / longer.si().ln();
        if !(exponent > 1e-3 && exponent < 1.0) {
            let says = "The faster of two tests must have the shorter life, and by more than the speeds differ.";
            return Err(rule_broken(Code::Conflict, says, &[("first_life", "5 min"), ("second_life", "41 min")]));
        }
    }
    Ok(())
}

/// The law with the constants stated or found; records the steps that give `speed_for_one_minute` and
/// `exponent`.
pub fn law(input: &ToolLifeInput, record: &mut Record) -> Result<Law, Refusal> {
    if let Some((constant, exponent)) = input.speed_for_one_minute.zip(input.exponent) {
        let (field, exponent) = ("speed_for_one_minute", exponent.get());
        record.choose("The constant", "as stated").with("C", field, constant).gives(field, constant.found());
        record.choose("The exponent", "as stated").with("n", "exponent", exponent).gives("exponent", exponent);
        return Ok(Law { constant: constant.found(), exponent });
    }
    let (Some(first), Some(second), Some(short), Some(long)) =
        (input.first_speed, input.second_speed, input.first_life, input.second_life)
    else {
        return Err(Refusal::no_answer("Two tests are needed.", &[("first_speed", "160 m/min".to_owned())]));
    };
    let exponent: f64 = step!(record, "The exponent", n: exponent = ln(V1 / V2) / ln(T2 / T1),
        V1 = first_speed: first, V2 = second_speed: second, T1 = first_life: short, T2 = second_life: long);
    let constant = step!(record, "The constant", C: speed_for_one_minute = V1 * power(T1 / t1, n),
        V1 = first_speed: first, T1 = first_life: short, t1 = "constant:one_minute": minute(), n = exponent);
    Ok(Law { constant, exponent })
}
