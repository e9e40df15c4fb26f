//! Solving backwards: the input that gives a wanted result, by bracketing on the same calculator;
//! and the correction of an input by a result that was measured.

use super::answer::{Answer, Body, Correction, Root};
use super::calculation::one;
use super::filled_by_machine::FilledByMachine;
use super::goal::{Goal, good_goal};
use super::target::Target;
use crate::arithmetic::roots;
use crate::asking::describing::Reserved;
use crate::budget::go_on;
use crate::calculators::Entry;
use crate::fields::{Fields, Given};
use crate::quantity::{Quantity, System, shown, text};
use crate::refusal::{Code, Refusal, Wrong};
use crate::tree::Node;
use std::borrow::Cow;

/// The fields with `value`, in SI units, put in for the target.
fn with_value(fields: &Fields, target: &Target, si: f64, system: System) -> Fields<'static> {
    let (unit, _) = target.kind.written_in(system);
    let mut changed: Fields<'static> = Fields(
        fields
            .0
            .iter()
            .filter(|(name, _)| name != target.field)
            .map(|(name, value)| (Cow::Owned(name.to_string()), value.owned()))
            .collect(),
    );
    changed.0.push((
        Cow::Borrowed(target.field),
        Given::Object(vec![
            (Cow::Borrowed("value"), Given::Number(unit.of_si(si))),
            (Cow::Borrowed("unit"), Given::Text(Cow::Borrowed(unit.spelling()))),
        ]),
    ));
    changed
}

/// Every value of `field` that gives the wanted result.
pub fn solve(
    entry: &'static Entry,
    fields: &Fields,
    field: &str,
    reserved: &Reserved,
    filled: &FilledByMachine,
) -> Result<Answer, Refusal> {
    let target = Target::named(entry, field, "solve_for")?;
    let goal = Goal::read(reserved.wanted.as_deref().unwrap_or_default(), "wanted", entry)?;
    if let Some((_, given)) = fields.0.iter().find(|(name, _)| *name == target.field) {
        let says = format!("{field} is to be found, so it cannot be stated too.");
        let wrongs = [(target.field, "leave out".to_owned()), ("solve_for", given.said())];
        return Err(Refusal(
            wrongs.iter().map(|(name, _)| Wrong::new(name, Code::Conflict, says.clone(), "leave out")).collect(),
        ));
    }
    let system = reserved.units.or(goal.unit.system()).unwrap_or(System::Metric);
    let found = values(entry, fields, &target, &goal, system)?;
    let mut roots = Vec::new();
    let mut record = None;
    let mut reserved = reserved.clone();
    reserved.units = Some(system);
    for value in found {
        let unit = target.kind.written_in(system).0;
        let value = unit.to_si(text::tidy(unit.of_si(value)));
        let answer = one(entry, &with_value(fields, &target, value, system), &reserved, filled, false)?;
        let Body::Result(result) = answer.body else { continue };
        let node = answer.inputs.member(target.field).cloned();
        record.get_or_insert(answer.record);
        roots.push(Root { value: node.unwrap_or(Node::Number(value)), inputs: answer.inputs, result });
    }
    let inputs = match roots.first().map(|root| &root.inputs) {
        Some(Node::Record(members)) => {
            Node::Record(members.iter().filter(|(name, _)| *name != target.field).cloned().collect())
        }
        _ => Node::Record(Vec::new()),
    };
    let mut record = record.unwrap_or_default();
    record.note(
        "solved_backwards",
        "Found by trying the same calculator with many values and closing in on each change of sign.",
    );
    Ok(Answer { entry, system, inputs, body: Body::Roots(roots), record, link: None })
}

/// The correction of `field` by a result that was measured.
pub fn correct(
    entry: &'static Entry,
    fields: &Fields,
    field: &str,
    reserved: &Reserved,
    filled: &FilledByMachine,
) -> Result<Answer, Refusal> {
    let target = Target::named(entry, field, "correct")?;
    let goal = Goal::read(reserved.measured.as_deref().unwrap_or_default(), "measured", entry)?;
    let answer = one(entry, fields, reserved, filled, reserved.working.unwrap_or(true))?;
    let Body::Result(result) = answer.body else { return Err(Refusal::default()) };
    let Some(Node::Quantity(intended)) = answer.inputs.member(target.field) else {
        let says = format!("{field} is to be corrected, so it must be stated as it was meant to be.");
        return Err(Refusal::one(Wrong::new(target.field, Code::FieldMissing, says, target.kind.example)));
    };
    let found = values(entry, fields, &target, &goal, answer.system).map_err(|refusal| {
        Refusal(
            refusal
                .0
                .into_iter()
                .map(|wrong| Wrong { field: wrong.field.replace("/wanted", "/measured"), ..wrong })
                .collect(),
        )
    })?;
    let meant = intended.quantity.si();
    let nearest = found.into_iter().min_by(|a, b| (a - meant).abs().total_cmp(&(b - meant).abs())).unwrap_or(meant);
    let (unit, _) = target.kind.written_in(answer.system);
    let quantity = |si: f64| -> Node {
        Quantity { value: text::tidy(unit.of_si(si)), unit, kind: target.kind, tolerance: None }.into()
    };
    let correction = Correction {
        field: target.field.to_owned(),
        intended: quantity(meant),
        as_made: quantity(nearest),
        change: quantity(meant - nearest),
        result,
    };
    let mut record = answer.record;
    record.note(
        "correction",
        "The change is what to add to the input as it really was. It holds if nothing but that input was off.",
    );
    Ok(Answer {
        entry,
        system: answer.system,
        inputs: answer.inputs,
        body: Body::Correction(Box::new(correction)),
        record,
        link: None,
    })
}

/// Every value of the target, in SI units, at which the goal's result has the goal's value.
fn values(
    entry: &'static Entry,
    fields: &Fields,
    target: &Target,
    goal: &Goal,
    system: System,
) -> Result<Vec<f64>, Refusal> {
    let not_filled = FilledByMachine::default();
    let quick = Reserved { units: Some(system), ..Reserved::default() };
    let mut first_refusal: Option<Refusal> = None;
    let mut is_answered = false;
    let wanted = goal.si();
    let mut tried: Vec<(f64, f64)> = Vec::new();
    for value in target.tries() {
        match one(entry, &with_value(fields, target, value, system), &quick, &not_filled, false) {
            Ok(answer) => {
                is_answered = true;
                let found = answer.result().and_then(|result| goal.of(result));
                tried.extend(found.map(|quantity| (value, quantity.si() - wanted)));
            }
            Err(refusal) if refusal.is_of_time() => return Err(refusal),
            Err(refusal) => {
                first_refusal.get_or_insert(refusal);
            }
        }
    }
    let asked_as = "wanted";
    if tried.is_empty() {
        return Err(match first_refusal {
            Some(refusal) if !is_answered => refusal,
            _ => {
                let says = format!("With these inputs there is no \"{}\" in the result.", shown(&goal.path));
                Refusal::one(Wrong::new(asked_as, Code::NotFound, says, good_goal(entry).unwrap_or_default()))
            }
        });
    }
    // What is not found for want of time is refused below.
    let off = |value: f64| -> f64 {
        one(entry, &with_value(fields, target, value, system), &quick, &not_filled, false)
            .ok()
            .and_then(|answer| goal.of(answer.result()?).map(|quantity| quantity.si() - wanted))
            .unwrap_or(f64::NAN)
    };
    let near_enough = |value: f64| off(value).abs() <= wanted.abs() * 1e-9 + 1e-12;
    let mut found: Vec<f64> = Vec::new();
    for pair in tried.windows(2) {
        go_on()?;
        let ((low, at_low), (high, at_high)) = (pair[0], pair[1]);
        if at_low == 0.0 {
            found.push(low);
        }
        if at_low * at_high < 0.0
            && let Some(root) = roots::root_between(off, low, high)
            // A jump over the wanted value is no root.
            && near_enough(root)
        {
            found.push(root);
        }
    }
    if let Some((value, off)) = tried.last()
        && *off == 0.0
    {
        found.push(*value);
    }
    found.extend(touching(&tried, &off, near_enough)?);
    go_on()?;
    found.sort_by(f64::total_cmp);
    found.dedup_by(|a, b| (*a - *b).abs() <= (a.abs() + b.abs()) * 1e-9);
    if !found.is_empty() {
        // Where a step holds the wanted value over a stretch, its two ends say so.
        if found.len() > 8 {
            found = vec![found[0], found[found.len() - 1]];
        }
        return Ok(found);
    }
    let (least, greatest) = tried.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), (_, off)| {
        (low.min(off + wanted), high.max(off + wanted))
    });
    let says_of = |si: f64| format!("{} {}", text::full(text::round(goal.unit.of_si(si), 4)), goal.unit.spelling());
    let says = format!(
        "No {} gives {} of {}; it was found between {} and {}.",
        target.field,
        goal.path,
        says_of(wanted),
        says_of(least),
        says_of(greatest)
    );
    let inside = says_of((least + greatest) / 2.0);
    Err(Refusal::one(Wrong::new(asked_as, Code::NoAnswer, says, format!("{}:{inside}", goal.path))))
}

/// Roots where the result only touches the wanted value: the least distance between two tries.
fn touching(
    tried: &[(f64, f64)],
    off: &impl Fn(f64) -> f64,
    near_enough: impl Fn(f64) -> bool,
) -> Result<Vec<f64>, Refusal> {
    let mut found = Vec::new();
    for three in tried.windows(3) {
        let [(low, a), (_, b), (high, c)] = [three[0], three[1], three[2]];
        // Near a touch the distance falls with the square: the middle one is well below its neighbours.
        let dips = a * b > 0.0 && b * c > 0.0 && b.abs() < a.abs().min(c.abs()) && b.abs() < a.abs().max(c.abs()) / 2.0;
        if !dips {
            continue;
        }
        let (mut low, mut high) = (low, high);
        for _ in 0..60 {
            go_on()?;
            let (first, second) = (low + (high - low) * 0.381_966, high - (high - low) * 0.381_966);
            if off(first).abs() < off(second).abs() { high = second } else { low = first }
        }
        if near_enough((low + high) / 2.0) {
            found.push((low + high) / 2.0);
        }
    }
    Ok(found)
}
