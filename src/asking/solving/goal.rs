//! The result that is wanted or was measured, as `point_length:0.152 in` says it.

use super::calculation::one;
use super::filled_by_machine::FilledByMachine;
use crate::asking::describing::Reserved;
use crate::budget::go_on;
use crate::calculators::Entry;
use crate::declared::Shape;
use crate::fields::{Fields, nearest};
use crate::quantity::{KindRow, Quantity, Unit, read, shown, text};
use crate::refusal::{Code, Refusal, Wrong};
use crate::tree::Node;

/// The result that an input is to give.
pub struct Goal {
    /// Its path in the result.
    pub path: String,
    /// Its number.
    pub value: f64,
    /// The unit of the number; a count has none.
    pub unit: Option<Unit>,
}

/// A result of the calculator's first example that has one, as `wanted` and `measured` name it.
pub fn good_goal(entry: &'static Entry) -> Option<String> {
    entry.examples.iter().find_map(|example| {
        let fields = Fields::of_texts(example.fields.iter().copied());
        let answer = one(entry, &fields, &Reserved::default(), &FilledByMachine::default(), false).ok()?;
        let (path, quantity) = answer.result()?.first_quantity()?;
        Some(written(&path, &quantity))
    })
}

/// The same of the result at `path`, or what its kind has for a good value.
fn good_value(entry: &'static Entry, path: &str, kind: &KindRow) -> String {
    let found = entry.examples.iter().find_map(|example| {
        let fields = Fields::of_texts(example.fields.iter().copied());
        let answer = one(entry, &fields, &Reserved::default(), &FilledByMachine::default(), false).ok()?;
        Some(written(path, &quantity_at(answer.result()?, path)?))
    });
    found.unwrap_or_else(|| format!("{path}:{}", kind.example))
}

/// A goal as a request has it.
pub fn written(path: &str, quantity: &Quantity) -> String {
    format!("{path}:{} {}", text::full(text::round(quantity.value, 4)), quantity.unit.spelling())
}

impl Goal {
    /// Reads a goal; `asked_as` is the field that has it.
    pub fn read(said: &str, asked_as: &'static str, entry: &'static Entry) -> Result<Self, Refusal> {
        let refuse = |code: Code, says: String, good: String| {
            // Without time nothing good is found to show.
            go_on().err().unwrap_or_else(|| Refusal::one(Wrong::new(asked_as, code, says, good)))
        };
        let wrong = |code: Code, says: String| refuse(code, says, good_goal(entry).unwrap_or_default());
        let Some((name, value)) = said.split_once(':') else {
            return Err(wrong(
                Code::ValueUnreadable,
                format!("\"{}\" is not a result's name, a colon and a value.", shown(said)),
            ));
        };
        let written = read(value, "0.152 in").map_err(|unread| wrong(unread.code, unread.says))?;
        let path = name.trim().replace('.', "/");
        let is = declared(entry);
        let measures = written.unit.map(|unit| unit.row().dimension);
        let number = text::full(written.value);
        let goal = |unit| Ok(Self { path: path.clone(), value: written.value, unit });
        match (is.iter().find(|(known, _)| *known == in_first_rows(&path)), written.unit) {
            (Some((_, Some(kind))), Some(unit)) if measures == Some(kind.dimension()) => goal(Some(unit)),
            (Some((_, Some(kind))), Some(unit)) => {
                let is = kind.dimension().words();
                let says = format!("{path} is {is}, which {} does not measure.", unit.spelling());
                Err(refuse(Code::UnitWrong, says, good_value(entry, &path, kind)))
            }
            (Some((_, Some(kind))), None) => match kind.only_unit().filter(|_| written.value.abs() > 1.0) {
                None if written.value != 0.0 => {
                    let unit = kind.example.rsplit(' ').next().unwrap_or_default();
                    let says = format!("\"{}\" has no unit.", shown(value.trim()));
                    Err(refuse(Code::UnitMissing, says, format!("{path}:{number} {unit}")))
                }
                unit => goal(unit.or(Some(kind.metric.0))),
            },
            (Some((_, None)), None) => goal(None),
            (Some((_, None)), Some(unit)) => {
                let says = format!("{path} is a plain number; leave the unit {} out.", unit.spelling());
                Err(refuse(Code::UnitWrong, says, format!("{path}:{number}")))
            }
            (None, _) => {
                let says = format!("There is no quantity \"{}\" in the result.", shown(&path));
                // Rather one that the unit measures.
                let alike = |(_, kind): &&(String, Option<&KindRow>)| kind.map(KindRow::dimension) == measures;
                let names = is.iter().filter(alike).map(|(known, _)| known.as_str()).collect::<Vec<_>>();
                let near = nearest(&path, names.iter().copied()).or(names.first().copied());
                let near = is.iter().find(|(known, _)| Some(known.as_str()) == near).or(is.first());
                let good = near.map(|(path, kind)| match kind {
                    Some(kind) => good_value(entry, path, kind),
                    None => format!("{path}:{number}"),
                });
                Err(refuse(Code::NotFound, says, good.unwrap_or_default()))
            }
        }
    }

    /// Its value in SI units.
    pub fn si(&self) -> f64 {
        self.unit.map_or(self.value, |unit| unit.to_si(self.value))
    }

    /// What is at the goal's path, in SI units.
    pub fn of(&self, result: &Node) -> Option<f64> {
        match result.at(&self.path)? {
            Node::Quantity(leaf) => Some(leaf.quantity.si()),
            Node::Count(count) => Some(*count as f64),
            Node::Number(number) => Some(*number),
            _ => None,
        }
    }

    /// How far from its value counts as meeting it.
    pub fn within(&self) -> f64 {
        self.si().abs() * 1e-9 + 1e-12
    }

    /// Whether `result` has its value.
    pub fn is_met(&self, result: Option<&Node>) -> bool {
        result.and_then(|result| self.of(result)).is_some_and(|is| (is - self.si()).abs() <= self.within())
    }

    /// An amount in SI units as the goal's value was said.
    pub fn said(&self, si: f64) -> String {
        let rounded = |value: f64| text::full(text::round(value, 4));
        self.unit.map_or_else(|| rounded(si), |unit| format!("{} {}", rounded(unit.of_si(si)), unit.spelling()))
    }
}

fn quantity_at(result: &Node, path: &str) -> Option<Quantity> {
    match result.at(path)? {
        Node::Quantity(leaf) => Some(leaf.quantity),
        _ => None,
    }
}

/// A result's path and its kind; a plain number has none.
type Declared = (String, Option<&'static KindRow>);

/// Every quantity and number that a calculator may give, by its path; of lists that of the first row.
fn declared(entry: &Entry) -> Vec<Declared> {
    fn walk(shape: Shape, path: &str, out: &mut Vec<Declared>) {
        match shape {
            Shape::Found(kind) => out.push((path.to_owned(), Some(kind))),
            Shape::Count { .. } | Shape::Number => out.push((path.to_owned(), None)),
            Shape::Record(members) => members.iter().for_each(|member| {
                let path = if path.is_empty() { member.name.to_owned() } else { format!("{path}/{}", member.name) };
                walk(member.of.shape, &path, out);
            }),
            Shape::List(item) | Shape::Rows(item) => walk(item.shape, &format!("{path}/0"), out),
            single => out.extend(single.kind().map(|kind| (path.to_owned(), Some(kind)))),
        }
    }
    let mut out = Vec::new();
    walk(Shape::Record(entry.output.members), "", &mut out);
    out
}

/// A path with every row made the first.
fn in_first_rows(path: &str) -> String {
    let first = |part| if str::parse::<usize>(part).is_ok() { "0" } else { part };
    path.split('/').map(first).collect::<Vec<_>>().join("/")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::budget::Budget;
    use crate::calculators::REGISTER;
    use std::time::Duration;

    #[test]
    fn every_quantity_of_every_example_is_declared_with_what_it_measures() {
        for entry in REGISTER {
            let declared = declared(entry);
            for example in entry.examples {
                let fields = Fields::of_texts(example.fields.iter().copied());
                let answer = one(entry, &fields, &Reserved::default(), &FilledByMachine::default(), false).unwrap();
                answer.result().unwrap().clone().each_leaf("", &mut |path, leaf| {
                    let kind = declared.iter().find(|(known, _)| *known == in_first_rows(path));
                    let measures = kind.and_then(|(_, kind)| *kind).map(KindRow::dimension);
                    assert_eq!(measures, Some(leaf.quantity.unit.row().dimension), "{} {path}", entry.id);
                });
            }
        }
    }

    #[test]
    fn a_wrong_name_or_unit_is_refused_before_anything_is_tried() {
        let entry = crate::calculators::find("threads/change-gears").unwrap();
        for (said, code, good) in [
            ("wanted_leed:4 mm", Code::NotFound, "wanted_lead:1.5 mm"),
            // A plain number can be wanted, so that its name is known; only the unit is wrong.
            ("trains/0/ratio:4 mm", Code::UnitWrong, "trains/0/ratio:4"),
            ("trains/0/train:4 mm", Code::NotFound, "trains/0/lead:1.5 mm"),
            ("trains/7/lead:4 deg", Code::UnitWrong, "trains/7/lead:4 mm"),
        ] {
            let wrong = &Goal::read(said, "wanted", entry).err().unwrap().0[0];
            assert_eq!((wrong.code, wrong.try_this.as_deref()), (code, Some(good)), "{said}: {wrong:?}");
            let spent = Budget::of(Duration::ZERO);
            spent.give_up();
            let wrong = &spent.spend(|| Goal::read(said, "wanted", entry)).err().unwrap().0[0];
            assert_eq!(wrong.code, Code::TooMuchWork, "{said}");
        }
    }
}
