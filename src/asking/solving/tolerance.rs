//! Tolerances on inputs, carried to every numeric result by asking the same calculator again with
//! changed inputs.

use crate::arithmetic::propagation::{MOST_INPUTS, Outcome, Toleranced, propagate};
use crate::budget::go_on;
use crate::calculators::Entry;
use crate::fields::Fields;
use crate::quantity::{System, text};
use crate::refusal::{Code, Refusal, Wrong};
use crate::tree::{Leaf, Node, Range};
use crate::working::Record;

/// Puts on each quantity of `result` the range that the tolerances of `inputs` cause.
pub fn apply(
    entry: &'static Entry,
    inputs: &Node,
    system: System,
    result: &mut Node,
    record: &mut Record,
) -> Result<(), Refusal> {
    if !is_toleranced(inputs) {
        return Ok(());
    }
    let mut toleranced: Vec<(String, Toleranced)> = Vec::new();
    inputs.clone().each_leaf("", &mut |path, leaf| {
        if let Some((plus, minus)) = leaf.quantity.tolerance
            && plus + minus > 0.0
        {
            toleranced.push((path.to_owned(), Toleranced { value: leaf.quantity.value, plus, minus }));
        }
    });
    if toleranced.len() > MOST_INPUTS {
        let (path, _) = &toleranced[MOST_INPUTS];
        let says = format!("At most {MOST_INPUTS} inputs can have a tolerance.");
        return Err(Refusal::one(Wrong::new(path, Code::ValueOutOfRange, says, "a value without a tolerance")));
    }
    let values: Vec<Toleranced> = toleranced.iter().map(|(_, value)| *value).collect();
    let propagated = propagate(&values, |point| {
        go_on().ok()?;
        let mut at = 0;
        let mut moved = inputs.clone();
        moved.each_leaf("", &mut |_, leaf| {
            let has = leaf.quantity.tolerance.is_some_and(|(plus, minus)| plus + minus > 0.0);
            leaf.quantity.tolerance = None;
            leaf.name = None;
            if has {
                leaf.quantity.value = point[at];
                at += 1;
            }
        });
        let mut solved = (entry.solve)(&Fields::of_inputs(&moved), &mut Record::new(false)).ok()?;
        solved.result.each_leaf("", &mut |_, leaf| leaf.quantity = leaf.quantity.in_system(system));
        Some(outcome(&solved.result))
    })
    .map_err(|point| {
        if let Err(refusal) = go_on() {
            return refusal;
        }
        let wrongs =
            toleranced.iter().zip(&point).filter(|((_, input), at)| input.value != **at).map(|((path, _), at)| {
                let says = format!("Within the tolerances there is no answer at {}.", text::full(text::tidy(*at)));
                Wrong::new(path, Code::NoAnswer, says, "a smaller tolerance")
            });
        Refusal(wrongs.collect())
    })?;
    // A derivative that was not found for want of time would pass for one that is not there.
    go_on()?;
    let mut spreads = propagated.spreads.into_iter();
    result.each_leaf("", &mut |path, leaf| {
        // Results and spreads come in the same order; those that change are left out of the spreads.
        if let Some((_, spread)) = spreads.clone().find(|(known, _)| known == path) {
            leaf.range = Some(Box::new(Range {
                minus: text::rough(spread.minus),
                plus: text::rough(spread.plus),
                root_sum_square: text::rough(spread.root_sum_square),
                most_from: toleranced[spread.most_from].0.clone(),
                method: spread.method.as_str(),
            }));
            while spreads.next().is_some_and(|(known, _)| known != path) {}
        }
    });
    let mut fields: Vec<String> = propagated.changes.iter().map(|path| without_numbers(path)).collect();
    fields.dedup();
    if !fields.is_empty() {
        record.note(
            "changes_within_tolerance",
            format!("Within the tolerances these change, or come and go: {}.", fields.join(", ")),
        );
    }
    record
        .source("jcgm_100", "5.1.2 and 5.1.4: root-sum-square of what each input does; worst case is their plain sum");
    Ok(())
}

/// Whether any quantity in it has a tolerance; most requests have none and are spared the rest.
pub fn is_toleranced(node: &Node) -> bool {
    match node {
        Node::Quantity(leaf) => leaf.quantity.tolerance.is_some_and(|(plus, minus)| plus + minus > 0.0),
        Node::List(items) => items.iter().any(is_toleranced),
        Node::Record(members) => members.iter().any(|(_, node)| is_toleranced(node)),
        _ => false,
    }
}

/// A path without list numbers.
fn without_numbers(path: &str) -> String {
    path.split('/').filter(|part| part.parse::<usize>().is_err()).collect::<Vec<_>>().join(".")
}

/// A result as numbers and words by path.
fn outcome(result: &Node) -> Outcome {
    fn walk(node: &Node, path: &str, out: &mut Outcome) {
        let join = |name: &str| if path.is_empty() { name.to_owned() } else { format!("{path}/{name}") };
        match node {
            Node::Quantity(Leaf { quantity, .. }) => out.numbers.push((path.to_owned(), quantity.value)),
            Node::Record(members) => members.iter().for_each(|(name, node)| walk(node, &join(name), out)),
            Node::List(items) => {
                items.iter().enumerate().for_each(|(at, node)| walk(node, &join(&at.to_string()), out))
            }
            Node::Text(words, _) => out.words.push((path.to_owned(), words.to_string())),
            Node::Count(count) => out.words.push((path.to_owned(), count.to_string())),
            Node::Truth(truth) => out.words.push((path.to_owned(), truth.to_string())),
            Node::Number(_) => {}
        }
    }
    let mut out = Outcome::default();
    walk(result, "", &mut out);
    out
}
