//! Which result of an answer a question asks for: a quantity that is worked out, not one that was
//! stated, and large enough to show at the places it is written to.

use super::draw::Draw;
use crate::asking::Answer;
use crate::budget::go_on;
use crate::quantity::{Dimension, Quantity};
use crate::refusal::Refusal;
use crate::tree::Node;

/// Results, as they are declared, among which one is chosen for an example's question.
pub const MAIN: usize = 8;

/// Rows of a list among which one is chosen.
const ROWS: usize = 12;

/// A result that is asked for.
#[derive(Clone, Debug)]
pub struct Wanted {
    /// Its place in the result, as `pick` has it.
    pub path: String,
    /// What it is.
    pub quantity: Quantity,
}

/// The path without list numbers, as the working names it.
pub fn unnumbered(path: &str) -> String {
    path.split('/').filter(|part| part.parse::<usize>().is_err()).collect::<Vec<_>>().join(".")
}

/// Every quantity of a result with its path.
pub fn quantities(result: &Node) -> Vec<(String, Quantity)> {
    let mut all = Vec::new();
    result.clone().each_leaf("", &mut |path, leaf| all.push((path.to_owned(), leaf.quantity)));
    all
}

fn shows(quantity: &Quantity) -> bool {
    let smallest = 0.1f64.powi(quantity.kind.places(quantity.unit) as i32);
    quantity.value.is_finite() && quantity.value.abs() >= 5.0 * smallest
}

/// Chooses the result to ask for among the first `most`; `None` where the answer has no quantity.
pub fn choose(answer: &Answer, most: usize, draw: &mut Draw) -> Result<Option<Wanted>, Refusal> {
    go_on()?;
    let Some(result) = answer.result() else { return Ok(None) };
    let all = quantities(result);
    let mut stated = quantities(&answer.inputs);
    for assumed in &answer.record.assumed {
        stated.extend(quantities(&Node::List(vec![assumed.value.clone()])));
    }
    // By size, so that only those as large as a result are held against it.
    let mut stated: Vec<(f64, Dimension)> =
        stated.iter().map(|(_, one)| (one.si().abs(), one.unit.row().dimension)).collect();
    stated.sort_by(|a, b| a.0.total_cmp(&b.0));
    let is_echo = |quantity: &Quantity| {
        let (size, dimension) = (quantity.si().abs(), quantity.unit.row().dimension);
        let from = stated.partition_point(|one| one.0 < size * (1.0 - 2e-9));
        let mut near = stated[from..].iter().take_while(|one| one.0 <= size * (1.0 + 2e-9));
        near.any(|one| one.1 == dimension && (one.0 - size).abs() <= 1e-9 * size)
    };
    let worth = |how: &dyn Fn(&Quantity) -> bool| -> Vec<(String, Quantity)> {
        all.iter().filter(|(_, quantity)| how(quantity)).cloned().collect()
    };
    let found = worth(&|quantity| shows(quantity) && !is_echo(quantity));
    let found = if found.is_empty() { worth(&|quantity| shows(quantity)) } else { found };
    let found = if found.is_empty() { all } else { found };
    let mut groups: Vec<String> = Vec::new();
    for (path, _) in &found {
        go_on()?;
        let group = unnumbered(path);
        if !groups.contains(&group) {
            groups.push(group);
        }
    }
    groups.truncate(most);
    let Some(group) = draw.pick(&groups) else { return Ok(None) };
    let rows: Vec<&(String, Quantity)> =
        found.iter().filter(|(path, _)| unnumbered(path) == *group).take(ROWS).collect();
    Ok(draw.pick(&rows).map(|(path, quantity)| Wanted { path: path.clone(), quantity: *quantity }))
}
