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
    /// The unit of the number.
    pub unit: Unit,
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
                format!("\"{}\" is not a result's name, a colon and its value.", shown(said)),
            ));
        };
        let written = read(value, "0.152 in").map_err(|unread| wrong(unread.code, unread.says))?;
        let Some(unit) = written.unit else {
            return Err(wrong(Code::UnitMissing, format!("\"{}\" has no unit.", shown(value.trim()))));
        };
        let path = name.trim().replace('.', "/");
        let (is, measures) = (declared(entry), unit.row().dimension);
        match is.iter().find(|(known, _)| *known == in_first_rows(&path)) {
            Some((_, kind)) if kind.dimension() == measures => Ok(Self { path, value: written.value, unit }),
            Some((_, kind)) => {
                let is = kind.dimension().words();
                let says = format!("{path} is {is}, which {} does not measure.", unit.spelling());
                Err(refuse(Code::UnitWrong, says, good_value(entry, &path, kind)))
            }
            None => {
                let says = format!("There is no quantity \"{}\" in the result.", shown(&path));
                // Rather one that the unit measures.
                let alike = |(_, kind): &&(String, &KindRow)| kind.dimension() == measures;
                let names = is.iter().filter(alike).map(|(known, _)| known.as_str()).collect::<Vec<_>>();
                let near = nearest(&path, names.iter().copied()).or(names.first().copied());
                let near = is.iter().find(|(known, _)| Some(known.as_str()) == near).or(is.first());
                let good = near.map(|(path, kind)| good_value(entry, path, kind));
                Err(refuse(Code::NotFound, says, good.unwrap_or_default()))
            }
        }
    }

    /// Its value in SI units.
    pub fn si(&self) -> f64 {
        self.unit.to_si(self.value)
    }

    /// The quantity at the goal's path.
    pub fn of(&self, result: &Node) -> Option<Quantity> {
        quantity_at(result, &self.path)
    }
}

fn quantity_at(result: &Node, path: &str) -> Option<Quantity> {
    match result.at(path)? {
        Node::Quantity(leaf) => Some(leaf.quantity),
        _ => None,
    }
}

/// Every quantity that a calculator may give, by its path; of lists that of the first row.
fn declared(entry: &Entry) -> Vec<(String, &'static KindRow)> {
    fn walk(shape: Shape, path: &str, out: &mut Vec<(String, &'static KindRow)>) {
        match shape {
            Shape::Found(kind) => out.push((path.to_owned(), kind)),
            Shape::Record(members) => members.iter().for_each(|member| {
                let path = if path.is_empty() { member.name.to_owned() } else { format!("{path}/{}", member.name) };
                walk(member.of.shape, &path, out);
            }),
            Shape::List(item) | Shape::Rows(item) => walk(item.shape, &format!("{path}/0"), out),
            single => out.extend(single.kind().map(|kind| (path.to_owned(), kind))),
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
                    let measures = kind.map(|(_, kind)| kind.dimension());
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
            ("trains/0/ratio:4 mm", Code::NotFound, "trains/0/lead:1.5 mm"),
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
