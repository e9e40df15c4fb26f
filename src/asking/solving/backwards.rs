//! Solving backwards: the input that gives a wanted result, by bracketing on the same calculator;
//! and the correction of an input by a result that was measured.

use super::answer::{Answer, Body, Correction, Root};
use super::calculation::one;
use super::filled_by_machine::FilledByMachine;
use super::goal::{Goal, good_goal};
use super::target::Target;
use super::way_out::system_of;
use crate::arithmetic::all_roots::{Tried, Zero};
use crate::asking::describing::Reserved;
use crate::budget::go_on;
use crate::calculators::Entry;
use crate::fields::{Fields, Given};
use crate::quantity::{Quantity, System, Unit, shown, text};
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

/// The most values that are listed.
const MOST_ROOTS: usize = 24;

/// An end of a stretch as text, rounded into it: down for `side` 1, up for -1.
fn inward(quantity: Quantity, side: f64) -> String {
    let places = quantity.kind.places(quantity.unit);
    Quantity { value: side * text::round_down(side * quantity.value, places), ..quantity }.text()
}

/// The zeros nearest to 0, rising, as many as are listed.
fn nearest_to_zero(mut zeros: Vec<Zero>) -> Vec<Zero> {
    zeros.sort_by(|a, b| a.nearest(0.0).abs().total_cmp(&b.nearest(0.0).abs()));
    zeros.truncate(MOST_ROOTS);
    zeros.sort_by(|a, b| a.least().total_cmp(&b.least()));
    zeros
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
        let says = format!("{field} is what to find, so do not give it.");
        let wrongs = [(target.field, "leave out".to_owned()), ("solve_for", given.said())];
        return Err(Refusal(
            wrongs.iter().map(|(name, _)| Wrong::new(name, Code::Conflict, says.clone(), "leave out")).collect(),
        ));
    }
    let system = reserved
        .units
        .or(goal.unit.and_then(Unit::system))
        .or_else(|| system_of(entry, fields))
        .unwrap_or(System::Metric);
    let found = values(entry, fields, &target, &goal, system)?;
    let mut roots = Vec::new();
    let mut record = None;
    let mut reserved = reserved.clone();
    reserved.units = Some(system);
    let more = found.len().saturating_sub(MOST_ROOTS);
    let mut notes = Vec::new();
    for zero in nearest_to_zero(found) {
        let unit = target.kind.written_in(system).0;
        let answer_at = |at: f64| {
            let value = unit.to_si(text::tidy(unit.of_si(at)));
            one(entry, &with_value(fields, &target, value, system), &reserved, filled, false)
        };
        let input = |answer: &Answer| answer.inputs.member(target.field).cloned();
        // What is rounded may fall beside the end of a stretch; a hair inside it does not.
        let at_end = |at: f64, inside: f64| {
            let answer = answer_at(at)?;
            if goal.is_met(answer.result()) { Ok(answer) } else { answer_at(inside) }
        };
        let (answer, up_to) = match zero {
            Zero::At(at) => (answer_at(at)?, None),
            Zero::Along(from, to) => {
                let hair = (to - from) * 1e-6;
                (at_end(from, from + hair)?, input(&at_end(to, to - hair)?))
            }
        };
        let value = input(&answer).unwrap_or(Node::Number(zero.least()));
        let Body::Result(result) = answer.body else { continue };
        record.get_or_insert(answer.record);
        if let (Node::Quantity(from), Some(Node::Quantity(to))) = (&value, &up_to) {
            let (from, to) = (inward(from.quantity, -1.0), inward(to.quantity, 1.0));
            notes.push(format!("Every {field} from {from} to {to} gives it, not only these two."));
        }
        roots.push(Root { value, up_to, inputs: answer.inputs, result });
    }
    let inputs = match roots.first().map(|root| &root.inputs) {
        Some(Node::Record(members)) => {
            Node::Record(members.iter().filter(|(name, _)| *name != target.field).cloned().collect())
        }
        _ => Node::Record(Vec::new()),
    };
    let mut record = record.unwrap_or_default();
    for says in notes {
        record.note("every_value_between", says);
    }
    if more > 0 {
        record.note("more_values", format!("{more} more values give it; the {MOST_ROOTS} nearest to 0 are listed."));
    }
    record.note(
        "solved_backwards",
        "Found by trying many values in the same calculator and closing in on those that give the result.",
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
        let says = format!("Give {field} as it was meant to be; it is what gets corrected.");
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
    let nearest = found.into_iter().map(|zero| zero.nearest(meant));
    let nearest = nearest.min_by(|a, b| (a - meant).abs().total_cmp(&(b - meant).abs())).unwrap_or(meant);
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
    record.note("correction", "Add the change to the input as it really was. It holds if nothing else was off.");
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
) -> Result<Vec<Zero>, Refusal> {
    let not_filled = FilledByMachine::default();
    let quick = Reserved { units: Some(system), ..Reserved::default() };
    let mut first_refusal: Option<Refusal> = None;
    let mut is_answered = false;
    let wanted = goal.si();
    let mut tried: Vec<(f64, f64)> = Vec::new();
    for value in target.tries() {
        let mut off = f64::NAN;
        match one(entry, &with_value(fields, target, value, system), &quick, &not_filled, false) {
            Ok(answer) => {
                is_answered = true;
                off = answer.result().and_then(|result| goal.of(result)).map_or(f64::NAN, |is| is - wanted);
            }
            Err(refusal) if refusal.is_of_time() => return Err(refusal),
            Err(refusal) => {
                first_refusal.get_or_insert(refusal);
            }
        }
        tried.push((value, off));
    }
    let asked_as = "wanted";
    if tried.iter().all(|(_, off)| off.is_nan()) {
        return Err(match first_refusal {
            Some(refusal) if !is_answered => refusal,
            _ => {
                let says = format!("With these inputs there is no \"{}\" in the result.", shown(&goal.path));
                Refusal::one(Wrong::new(asked_as, Code::NotFound, says, good_goal(entry).unwrap_or_default()))
            }
        });
    }
    let (least, greatest) = tried.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), (_, off)| {
        (low.min(off + wanted), high.max(off + wanted))
    });
    let off = |value: f64| -> f64 {
        one(entry, &with_value(fields, target, value, system), &quick, &not_filled, false)
            .ok()
            .and_then(|answer| goal.of(answer.result()?).map(|is| is - wanted))
            .unwrap_or(f64::NAN)
    };
    let (near, noise) = (goal.within(), wanted.abs() * 1e-14);
    let found = Tried { f: &off, at: tried, near, noise }.zeros();
    // What was not found for want of time is refused.
    go_on()?;
    if !found.is_empty() {
        return Ok(found);
    }
    let says = format!(
        "No {} gives {} of {}; what it gives lies between {} and {}.",
        target.field,
        goal.path,
        goal.said(wanted),
        goal.said(least),
        goal.said(greatest)
    );
    let inside = goal.said((least + greatest) / 2.0);
    Err(Refusal::one(Wrong::new(asked_as, Code::NoAnswer, says, format!("{}:{inside}", goal.path))))
}
