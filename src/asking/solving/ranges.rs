//! A list or a range in place of one value, `1/4 in..1 in step 1/16 in` or `118 deg|135 deg`: the
//! same calculator is asked once for each case, and the answer is a table.

use super::answer::{Answer, Body, Row};
use super::calculation::one;
use super::filled_by_machine::FilledByMachine;
use super::system::system_of;
use crate::asking::describing::{Reserved, describe_entry};
use crate::calculators::Entry;
use crate::fields::{Fields, Given};
use crate::quantity::{Written, read, shown, text};
use crate::refusal::{Code, Refusal, Wrong};
use crate::tree::{Leaf, Node};
use crate::working::Record;
use std::borrow::Cow;

/// The most rows of an answer.
pub const MOST_ROWS: usize = 500;

/// The most values that all rows of an answer hold together, so that no table outgrows memory.
const MOST_VALUES: usize = 100_000;

/// The fields of a request that hold more than one value, each with its cases.
pub type Ranges = Vec<(usize, Vec<String>)>;

/// Finds the fields that hold a list or a range; `None` if there is none.
pub fn ranges_of(fields: &Fields) -> Result<Option<Ranges>, Refusal> {
    let (mut ranges, mut wrongs) = (Ranges::new(), Vec::new());
    for (at, (name, value)) in fields.0.iter().enumerate() {
        let Given::Text(text) = value else { continue };
        // A list given as JSON text is one value, whatever its words hold.
        if text.trim_start().starts_with(['[', '{']) {
            continue;
        }
        if text.contains('|') {
            ranges.push((at, text.split('|').map(|case| case.trim().to_owned()).collect()));
        } else if text.contains("..") {
            match range(text) {
                Ok(cases) => ranges.push((at, cases)),
                Err((code, says)) => wrongs.push(Wrong::new(name, code, says, "1/4 in..1 in step 1/16 in")),
            }
        }
    }
    let rows = ranges.iter().fold(1, |rows: usize, (_, cases)| rows.saturating_mul(cases.len()));
    if rows > MOST_ROWS && wrongs.is_empty() {
        for (at, cases) in &ranges {
            let says = match rows {
                usize::MAX => format!("These ranges ask for far too many rows; at most {MOST_ROWS} are allowed."),
                _ => format!(
                    "These ranges ask for {rows} rows ({} from this field); at most {MOST_ROWS} are allowed.",
                    cases.len()
                ),
            };
            wrongs.push(Wrong::new(&fields.0[*at].0, Code::ValueOutOfRange, says, "a wider step"));
        }
    }
    if wrongs.is_empty() { Ok((!ranges.is_empty()).then_some(ranges)) } else { Err(Refusal(wrongs)) }
}

/// The cases of `from..to step by`.
fn range(text: &str) -> Result<Vec<String>, (Code, String)> {
    let unreadable = |says: String| (Code::ValueUnreadable, says);
    let (from, rest) = text.split_once("..").unwrap_or((text, ""));
    let Some((to, step)) = rest.split_once("step") else {
        return Err(unreadable(format!("\"{}\" is a range without a step.", shown(text))));
    };
    let part = |text: &str| read(text.trim(), "1 in").map_err(|unread| (unread.code, unread.says));
    let (from, to, step) = (part(from)?, part(to)?, part(step)?);
    // One unit may stand for all three; it is taken from the end that has it.
    let unit = from.unit.or(to.unit).or(step.unit);
    let in_unit = |written: Written| match (written.unit.or(unit), unit) {
        (Some(own), Some(unit)) if own.row().dimension == unit.row().dimension && own.row().zero == unit.row().zero => {
            Ok(if own == unit { written.value } else { text::tidy(unit.of_si(own.to_si(written.value))) })
        }
        (None, None) => Ok(written.value),
        _ => Err(unreadable(format!("The parts of \"{}\" measure different things.", shown(text)))),
    };
    let (from, to, step) = (in_unit(from)?, in_unit(to)?, in_unit(step)?.abs());
    if step == 0.0 {
        return Err((Code::ValueOutOfRange, "The step of a range cannot be 0.".into()));
    }
    let steps = ((to - from).abs() / step + 1e-9).floor();
    if steps >= MOST_ROWS as f64 {
        return Err((
            Code::ValueOutOfRange,
            format!("This range has {} values; at most {MOST_ROWS} are allowed.", steps + 1.0),
        ));
    }
    let suffix = unit.map(|unit| format!(" {}", unit.row().ascii)).unwrap_or_default();
    let value = |at: usize| text::tidy(from + (to - from).signum() * step * at as f64);
    Ok((0..=steps as usize).map(|at| format!("{}{suffix}", text::full(value(at)))).collect())
}

/// Asks every case.
pub fn answer(
    entry: &'static Entry,
    fields: &Fields,
    ranges: Ranges,
    reserved: &Reserved,
    filled: &FilledByMachine,
) -> Result<Answer, Refusal> {
    if let Some(field) = reserved.solve_for.as_deref().or(reserved.correct.as_deref()) {
        let says = "To solve backwards give one value, not a range.";
        let ranged = fields.0[ranges[0].0].0.as_ref();
        return Err(Refusal(vec![
            Wrong::new(ranged, Code::Conflict, says, ranges[0].1.first().cloned().unwrap_or_default()),
            Wrong::new(if reserved.correct.is_some() { "correct" } else { "solve_for" }, Code::Conflict, says, field),
        ]));
    }
    let mut reserved = reserved.clone();
    let mut whole = Record::new(false);
    let mut rows = Vec::new();
    let mut first_refusal = None;
    let mut values = 0;
    let count: usize = ranges.iter().map(|(_, cases)| cases.len()).product();
    for number in 0..count {
        let mut case = fields.clone();
        let mut rest = number;
        let mut names = Vec::new();
        // The last field named changes fastest, as the columns of a table would be read.
        for (at, cases) in ranges.iter().rev() {
            case.0[*at].1 = Given::Text(Cow::Owned(cases[rest % cases.len()].clone()));
            names.push(case.0[*at].0.to_string());
            rest /= cases.len();
        }
        names.reverse();
        let answered = one(entry, &case, &reserved, filled, false);
        let known = |name: &str| describe_entry(entry)?.fields.iter().find(|f| f.name == name).map(|f| f.name.as_str());
        let outcome = match answered {
            Ok(answer) => {
                if reserved.units.is_none() {
                    system_of(None, &answer.inputs, filled, &mut whole);
                    reserved.units = Some(answer.system);
                }
                merge(&mut whole, answer.record);
                match answer.body {
                    Body::Result(result) => {
                        values += result.leaves();
                        if values > MOST_VALUES {
                            return Err(too_much(fields, &ranges, number));
                        }
                        Ok((answer.inputs, result))
                    }
                    _ => continue,
                }
            }
            Err(refusal) if refusal.is_of_time() => return Err(refusal),
            Err(refusal) => {
                first_refusal.get_or_insert_with(|| refusal.clone());
                Err(refusal.0)
            }
        };
        let varied = names.iter().filter_map(|name| {
            let name = known(name)?;
            let node = match &outcome {
                Ok((inputs, _)) => inputs.member(name).cloned(),
                Err(_) => None,
            };
            let said = case.0.iter().find(|(key, _)| key == name).map(|(_, value)| value.said()).unwrap_or_default();
            Some((name, node.unwrap_or(Node::Text(said.into(), None))))
        });
        rows.push(Row { varied: varied.collect(), outcome });
    }
    if let (Some(refusal), true) = (first_refusal, rows.iter().all(|row| row.outcome.is_err())) {
        return Err(refusal);
    }
    let difference = match rows.as_slice() {
        [Row { outcome: Ok((_, first)), .. }, Row { outcome: Ok((_, second)), .. }] => difference(first, second),
        _ => None,
    };
    let inputs = common_inputs(&rows, &ranges, fields);
    let system = reserved.units.unwrap_or(crate::quantity::System::Metric);
    Ok(Answer { entry, system, inputs, body: Body::Rows(rows, difference), record: whole, link: None })
}

/// The refusal of a table that would hold more than [`MOST_VALUES`].
fn too_much(fields: &Fields, ranges: &Ranges, rows: usize) -> Refusal {
    let wrong = |(at, _): &(usize, Vec<String>)| {
        let says = format!("This table would hold more than {MOST_VALUES} values: it is full after {rows} rows.");
        Wrong::new(&fields.0[*at].0, Code::ValueOutOfRange, says, "a wider step")
    };
    Refusal(ranges.iter().map(wrong).collect())
}

/// The inputs that are the same in every case.
fn common_inputs(rows: &[Row], ranges: &Ranges, fields: &Fields) -> Node {
    let ranged: Vec<&str> = ranges.iter().map(|(at, _)| fields.0[*at].0.as_ref()).collect();
    let answered = rows.iter().find_map(|row| row.outcome.as_ref().ok());
    match answered {
        Some((Node::Record(members), _)) => {
            Node::Record(members.iter().filter(|(name, _)| !ranged.contains(name)).cloned().collect())
        }
        _ => Node::Record(Vec::new()),
    }
}

/// Takes over what a case has on record that is not there yet.
fn merge(whole: &mut Record, record: Record) {
    for assumed in record.assumed {
        if assumed.field != "units" && !whole.assumed.iter().any(|a| a.field == assumed.field && a.says == assumed.says)
        {
            whole.assumed.push(assumed);
        }
    }
    for (into, from) in [(&mut whole.notes, record.notes), (&mut whole.cautions, record.cautions)] {
        for remark in from {
            if !into.iter().any(|known| known.code == remark.code && known.says == remark.says) {
                into.push(remark);
            }
        }
    }
    for used in record.sources {
        if !whole.sources.iter().any(|known| known.source.key == used.source.key && known.place == used.place) {
            whole.sources.push(used);
        }
    }
}

/// The second result less the first, quantity by quantity where both have one.
fn difference(first: &Node, second: &Node) -> Option<Node> {
    match (first, second) {
        (Node::Quantity(a), Node::Quantity(b)) if a.quantity.unit == b.quantity.unit => {
            let value = text::tidy(b.quantity.value - a.quantity.value);
            let mut quantity = a.quantity;
            quantity.value = if value.abs() < a.quantity.value.abs() * 1e-14 { 0.0 } else { value };
            Some(Node::Quantity(Leaf { quantity, name: None, set: None, range: None }))
        }
        (Node::Number(a), Node::Number(b)) => Some(Node::Number(text::tidy(b - a))),
        (Node::Record(a), Node::Record(_)) => {
            let members: Vec<_> =
                a.iter().filter_map(|(name, node)| Some((*name, difference(node, second.member(name)?)?))).collect();
            (!members.is_empty()).then_some(Node::Record(members))
        }
        (Node::List(a), Node::List(b)) if a.len() == b.len() => {
            let items: Option<Vec<_>> = a.iter().zip(b).map(|(a, b)| difference(a, b)).collect();
            items.filter(|items| !items.is_empty()).map(Node::List)
        }
        _ => None,
    }
}
