//! An answer's working gone through again with one thing misunderstood, step by step, to what it
//! would have come to.

use super::formula::{Formula, Misread, Symbol};
use crate::budget::go_on;
use crate::working::{By, Step};
use std::collections::HashMap;

/// The values, in SI units, of the fields that come out otherwise, by their paths without list numbers.
pub type Changed = HashMap<String, Vec<f64>>;

/// Goes through the steps, as far as there is time: whoever uses it asks for that at the end. What no formula gives, such as a choice among a machine's speeds, stays as
/// it is, unless it is the choice of a value that has changed or half of an angle.
pub fn replay(steps: &[Step], misread: Misread) -> Changed {
    let mut changed = Changed::new();
    for step in steps {
        if go_on().is_err() {
            break;
        }
        let Some(shown) = step.gives().numbers() else { continue };
        let values = match step.by() {
            By::Formula => evaluated(step, shown.len(), misread, &changed),
            By::Choice => chosen(step, &shown, &changed),
            By::Table => looked_up(step, &shown, misread),
        };
        if let Some(values) = values
            && !same(&values, &shown)
        {
            changed.insert(step.field().to_owned(), values);
        }
    }
    changed
}

fn same(a: &[f64], b: &[f64]) -> bool {
    let near = |(a, b): (&f64, &f64)| (a - b).abs() <= 1e-9 * a.abs().max(b.abs()) + 1e-13;
    a.len() == b.len() && a.iter().zip(b).all(near)
}

/// What the formula of a step gives.
pub fn evaluated(step: &Step, rows: usize, misread: Misread, changed: &Changed) -> Option<Vec<f64>> {
    let symbols: Vec<Symbol> = step
        .symbols()
        .filter_map(|(symbol, of, value)| {
            let shown = value.numbers()?;
            let values = changed.get(of).filter(|values| values.len() == shown.len()).cloned().unwrap_or(shown);
            Some(Symbol { symbol, values, is_angle: value.is_angle() })
        })
        .collect();
    Formula::read(step.formula())?.values(&symbols, misread, step.gives().is_angle(), rows)
}

/// A half of an angle that a table gives, misread.
fn looked_up(step: &Step, shown: &[f64], misread: Misread) -> Option<Vec<f64>> {
    let factor = match misread {
        Misread::WholeForHalf => 2.0,
        Misread::HalfOfHalf => 0.5,
        _ => return None,
    };
    let is_half = step.gives().is_angle() && step.field().split(['.', '_']).any(|word| word == "half");
    is_half.then(|| shown.iter().map(|angle| angle * factor).collect())
}

/// What a choice gives where the value it chose has changed.
fn chosen(step: &Step, shown: &[f64], changed: &Changed) -> Option<Vec<f64>> {
    let (_, of, _) = step.symbols().find(|(_, _, value)| value.numbers().is_some_and(|n| same(&n, shown)))?;
    changed.get(of).filter(|values| values.len() == shown.len()).cloned()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::asking::{Form, ask};
    use crate::calculators::REGISTER;
    use crate::fields::{Fields, Given};

    fn steps(id: &str, fields: &[(&str, &str)]) -> Vec<Step> {
        let entry = crate::calculators::find(id).unwrap();
        let fields = fields.iter().map(|(name, value)| ((*name).into(), Given::Text((*value).into()))).collect();
        ask(entry, Fields(fields), Form::Json).unwrap().0.record.steps
    }

    #[test]
    fn every_formula_of_every_example_is_read_and_gives_what_it_shows() {
        let (mut seen, mut wrong) = (0, Vec::new());
        for entry in REGISTER {
            for example in entry.examples {
                for step in steps(entry.id, example.fields).iter().filter(|step| step.by() == By::Formula) {
                    let Some(shown) = step.gives().numbers() else { continue };
                    let values = evaluated(step, shown.len(), Misread::Nothing, &Changed::new());
                    let near = |(a, b): (&f64, &f64)| (a - b).abs() <= 1e-9 * a.abs().max(b.abs()) + 1e-12;
                    if !values.as_ref().is_some_and(|values| values.iter().zip(&shown).all(near)) {
                        wrong.push(format!("{}: {} gives {values:?}, {shown:?} is shown", entry.id, step.formula()));
                    }
                    seen += 1;
                }
            }
        }
        assert!(wrong.is_empty() && seen > 500, "{seen} formulas:\n{}", wrong.join("\n"));
    }

    #[test]
    fn a_misread_formula_carries_on_to_what_follows() {
        // The point of a 1/2 in drill of 118°, 3/4 in deep: with the whole angle in place of the half the point is
        // 0.25 / tan 118° = -0.1329 in long and the tip 0.6171 in deep.
        let steps = steps("holes/drill-point", &[("diameter", "1/2 in"), ("full_depth", "3/4 in")]);
        let changed = replay(&steps, Misread::WholeForHalf);
        let point = 0.25 / 118f64.to_radians().tan();
        assert!((changed["point_length"][0] / 0.0254 - point).abs() < 1e-9, "{changed:?}");
        assert!((changed["tip_depth"][0] / 0.0254 - (0.75 + point)).abs() < 1e-9, "{changed:?}");
        let changed = replay(&steps, Misread::CalculatorInRadians);
        let point = 0.25 / 59f64.tan();
        assert!((changed["point_length"][0] / 0.0254 - point).abs() < 1e-9, "{changed:?}");
        assert!(replay(&steps, Misread::DegreesForRadians).is_empty());
    }
}
