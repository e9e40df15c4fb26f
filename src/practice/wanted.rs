//! Which result of an answer a question asks for: a quantity that is worked out, not one that was
//! stated, and large enough to show at the places it is written to.

use super::draw::Draw;
use crate::asking::Answer;
use crate::quantity::Quantity;
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
pub fn choose(answer: &Answer, most: usize, draw: &mut Draw) -> Option<Wanted> {
    let all = quantities(answer.result()?);
    let mut stated = quantities(&answer.inputs);
    for assumed in &answer.record.assumed {
        stated.extend(quantities(&Node::List(vec![assumed.value.clone()])));
    }
    let is_echo = |quantity: &Quantity| {
        stated.iter().any(|(_, one)| {
            one.unit.row().dimension == quantity.unit.row().dimension
                && (one.si().abs() - quantity.si().abs()).abs() <= 1e-9 * quantity.si().abs()
        })
    };
    let worth = |how: &dyn Fn(&Quantity) -> bool| -> Vec<(String, Quantity)> {
        all.iter().filter(|(_, quantity)| how(quantity)).cloned().collect()
    };
    let found = worth(&|quantity| shows(quantity) && !is_echo(quantity));
    let found = if found.is_empty() { worth(&|quantity| shows(quantity)) } else { found };
    let found = if found.is_empty() { all } else { found };
    let mut groups: Vec<String> = Vec::new();
    for (path, _) in &found {
        let group = unnumbered(path);
        if !groups.contains(&group) {
            groups.push(group);
        }
    }
    groups.truncate(most);
    let group = draw.pick(&groups)?;
    let rows: Vec<&(String, Quantity)> =
        found.iter().filter(|(path, _)| unnumbered(path) == *group).take(ROWS).collect();
    draw.pick(&rows).map(|(path, quantity)| Wanted { path: path.clone(), quantity: *quantity })
}
