//! What a question asks for: a quantity or a count of the result, chosen where the question is made of an answer, and
//! the drill whose name may be given instead.

use super::draw::Draw;
use crate::asking::Answer;
use crate::budget::go_on;
use crate::quantity::{Dimension, Quantity, text};
use crate::reference::drills::{self, Drill};
use crate::refusal::Refusal;
use crate::tree::Node;

/// Results, as they are declared, among which one is chosen for an example's question.
pub const MAIN: usize = 8;

/// Rows of a list among which one is chosen.
const ROWS: usize = 12;

/// What is right.
#[derive(Clone, Copy, Debug)]
pub enum Amount {
    /// A quantity.
    Quantity(Quantity),
    /// A count.
    Count(i64),
}

impl Amount {
    /// The amount that a node of a result is.
    pub fn of(node: &Node) -> Option<Self> {
        match node {
            Node::Quantity(leaf) => Some(Self::Quantity(leaf.quantity)),
            Node::Count(count) => Some(Self::Count(*count)),
            _ => None,
        }
    }

    /// In SI units; a count as it is.
    pub fn si(&self) -> f64 {
        match self {
            Self::Quantity(quantity) => quantity.si(),
            Self::Count(count) => *count as f64,
        }
    }

    /// So much in SI units in its own unit.
    pub fn of_si(&self, si: f64) -> f64 {
        self.quantity().map_or(si, |quantity| quantity.unit.of_si(si))
    }

    /// The quantity, unless it is a count.
    pub fn quantity(&self) -> Option<&Quantity> {
        match self {
            Self::Quantity(quantity) => Some(quantity),
            Self::Count(_) => None,
        }
    }

    /// The number.
    pub fn value(&self) -> f64 {
        self.quantity().map_or(self.si(), |quantity| text::tidy(quantity.value))
    }

    /// The unit as an answer spells it; empty for a count.
    pub fn spelling(&self) -> &'static str {
        self.quantity().map_or("", |quantity| quantity.unit.spelling())
    }

    /// The unit behind a number, with its space.
    pub fn suffix(&self) -> &'static str {
        self.quantity().map_or("", |quantity| quantity.unit.row().suffix)
    }

    /// What it measures; nothing for a count.
    pub fn dimension(&self) -> Option<Dimension> {
        self.quantity().map(|quantity| quantity.unit.row().dimension)
    }

    /// As the trade writes it.
    pub fn text(&self) -> String {
        self.with_si(self.si())
    }

    /// Another amount of the same kind, as the trade writes it.
    pub fn with_si(&self, si: f64) -> String {
        match self {
            Self::Quantity(quantity) => Quantity { value: quantity.unit.of_si(si), ..*quantity }.text(),
            Self::Count(_) => text::full(si),
        }
    }
}

/// A result that is asked for.
#[derive(Clone, Debug)]
pub struct Wanted {
    /// Its place in the result, as `pick` has it.
    pub path: String,
    /// What it is.
    pub amount: Amount,
    /// The drill whose size it is, if the question does not name that itself.
    pub drill: Option<&'static Drill>,
}

impl Wanted {
    /// What stands at a path of an answer's result.
    pub fn at(path: &str, fields: &[(String, String)], answer: &Answer) -> Option<Self> {
        let result = answer.result()?;
        let amount = Amount::of(result.at(path)?)?;
        let is_named = |drill: &Drill| {
            fields.iter().any(|(_, value)| drills::named(value).is_some_and(|named| std::ptr::eq(named, drill)))
        };
        let drill = drill_beside(result, path, &amount).filter(|drill| !is_named(drill));
        Some(Self { path: path.to_owned(), amount, drill })
    }
}

/// The drill that a size belongs to: it is named beside its diameter.
fn drill_beside(result: &Node, path: &str, amount: &Amount) -> Option<&'static Drill> {
    let (beside, last) = path.rsplit_once('/')?;
    if !["diameter", "drill_diameter"].contains(&last) {
        return None;
    }
    let Node::Record(members) = result.at(beside)? else { return None };
    let mut named = members.iter().filter_map(|(_, node)| match node {
        Node::Text(words, _) => drills::named(words),
        _ => None,
    });
    named.find(|drill| (drill.millimetres() / 1e3 - amount.si()).abs() < 1e-9)
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

/// Chooses the path to ask for among the first `most` results: a quantity that is worked out, not one that was stated, and
/// large enough to show at the places it is written to; `None` where the answer has no quantity.
pub fn choose(answer: &Answer, most: usize, draw: &mut Draw) -> Result<Option<String>, Refusal> {
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
    let worth = |how: &dyn Fn(&Quantity) -> bool| -> Vec<String> {
        all.iter().filter(|(_, quantity)| how(quantity)).map(|(path, _)| path.clone()).collect()
    };
    let found = worth(&|quantity| shows(quantity) && !is_echo(quantity));
    let found = if found.is_empty() { worth(&|quantity| shows(quantity)) } else { found };
    let found = if found.is_empty() { worth(&|_| true) } else { found };
    let mut groups: Vec<String> = Vec::new();
    for path in &found {
        go_on()?;
        let group = unnumbered(path);
        if !groups.contains(&group) {
            groups.push(group);
        }
    }
    groups.truncate(most);
    let Some(group) = draw.pick(&groups) else { return Ok(None) };
    let rows: Vec<&String> = found.iter().filter(|path| unnumbered(path) == *group).take(ROWS).collect();
    Ok(draw.pick(&rows).map(|path| (*path).clone()))
}
