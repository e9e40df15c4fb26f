//! The constants of the law: as stated, or from two tests.

use super::{Law, ToolLifeInput, minute};
use crate::quantity::{FoundCuttingSpeed, SiValue};
use crate::refusal::{Code, Refusal, rule_broken};
use crate::working::Record;
use validator::ValidationError;

/// Refuses constants and tests that are not whole, or that contradict each other.
pub fn check(input: &ToolLifeInput) -> Result<(), ValidationError> {
    let constants = [
        ("speed_for_one_minute", "200 ft/min", input.speed_for_one_minute.is_some()),
        ("exponent", "0.125", input.exponent.is_some()),
    ];
    let tests = [
        ("first_speed", "160 m/min", input.first_speed.is_some()),
        ("first_life", "5 min", input.first_life.is_some()),
        ("second_speed", "100 m/min", input.second_speed.is_some()),
        ("second_life", "41 min", input.second_life.is_some()),
    ];
    let any = |list: &[(&'static str, &'static str, bool)]| list.iter().any(|(_, _, given)| *given);
    let lacking = |list: &[(&'static str, &'static str, bool)]| -> Vec<(&'static str, &'static str)> {
        list.iter().filter(|(_, _, given)| !given).map(|(field, value, _)| (*field, *value)).collect()
    };
    if any(&constants) && any(&tests) {
        let given: Vec<(&'static str, &str)> =
            tests.iter().filter(|(_, _, given)| *given).map(|(field, _, _)| (*field, "leave out")).collect();
        return Err(rule_broken(Code::Conflict, "Give the constants or two tests, not both.", &given));
    }
    let missing = if any(&tests) { lacking(&tests) } else { lacking(&constants) };
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
        record
            .choose("The constant", "as stated")
            .with("C", "speed_for_one_minute", constant)
            .gives("speed_for_one_minute", constant.found());
        record
            .choose("The exponent", "as stated")
            .with("n", "exponent", exponent.get())
            .gives("exponent", exponent.get());
        return Ok(Law { constant: constant.found(), exponent: exponent.get() });
    }
    let (Some(first), Some(second), Some(short), Some(long)) =
        (input.first_speed, input.second_speed, input.first_life, input.second_life)
    else {
        return Err(Refusal::no_answer("Two tests are needed.", &[("first_speed", "160 m/min".to_owned())]));
    };
    let exponent = (first.get() / second.get()).si().ln() / (long.get() / short.get()).si().ln();
    record
        .step("The exponent", "n = ln(V1 / V2) / ln(T2 / T1)")
        .with("V1", "first_speed", first)
        .with("V2", "second_speed", second)
        .with("T1", "first_life", short)
        .with("T2", "second_life", long)
        .gives("exponent", exponent);
    let value = first.get().si() * (short.get().si() / 60.0).powf(exponent);
    let constant = FoundCuttingSpeed::of(SiValue::from_si(value));
    record
        .step("The constant", "C = V1 × (T1 / t1) ^ n")
        .with("V1", "first_speed", first)
        .with("T1", "first_life", short)
        .with("t1", "constant:one_minute", minute())
        .with("n", "exponent", exponent)
        .gives("speed_for_one_minute", constant);
    Ok(Law { constant, exponent })
}
