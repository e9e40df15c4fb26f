//! Inputs and results without their types: a tree of quantities, counts and words that unit
//! conversion, resolution, tables and pages walk alike.

use crate::json::{Json, ToJson};
use crate::quantity::{Found, Kind, Measure, Quantity, System, Unit, text};
use std::borrow::Cow;

/// What a readout or dial is set to, in the resolution's own unit.
#[derive(Clone, Copy, Debug)]
pub struct SetTo {
    /// Whole counts of the resolution.
    pub counts: f64,
    /// The setting.
    pub to: f64,
    /// The value less the setting.
    pub left_over: f64,
    /// The resolution's unit.
    pub unit: Unit,
    /// Decimals that the resolution has.
    pub places: usize,
}

/// The range that tolerances on inputs cause, in the quantity's unit.
#[derive(Clone, Debug)]
pub struct Range {
    /// Worst case below the value, as a positive amount.
    pub minus: f64,
    /// Worst case above the value.
    pub plus: f64,
    /// Root-sum-square.
    pub root_sum_square: f64,
    /// The input that matters most, by its path.
    pub most_from: String,
    /// `derivatives` or `corners`.
    pub method: &'static str,
}

/// A quantity in a tree, with what hangs on it.
#[derive(Clone, Debug)]
pub struct Leaf {
    /// The quantity.
    pub quantity: Quantity,
    /// The name it was asked by, such as a drill's.
    pub name: Option<Cow<'static, str>>,
    /// How it is set on a machine, where a resolution was stated.
    pub set: Option<SetTo>,
    /// The range that tolerances cause, where an input has one.
    pub range: Option<Box<Range>>,
}

/// One node.
#[derive(Clone, Debug)]
pub enum Node {
    /// A quantity.
    Quantity(Leaf),
    /// A plain number, such as teeth in cut.
    Number(f64),
    /// A count.
    Count(i64),
    /// Yes or no.
    Truth(bool),
    /// Words; a designation also tells which system it belongs to.
    Text(Cow<'static, str>, Option<System>),
    /// A list.
    List(Vec<Node>),
    /// Named members, in order.
    Record(Vec<(&'static str, Node)>),
}

/// Turns into a tree; `None` is absent.
pub trait IntoTree {
    /// The node, or `None` where there is nothing.
    fn tree(&self) -> Option<Node>;
}

impl From<Quantity> for Node {
    fn from(quantity: Quantity) -> Self {
        Node::Quantity(Leaf { quantity, name: None, set: None, range: None })
    }
}

impl<K: Kind> IntoTree for Measure<K> {
    fn tree(&self) -> Option<Node> {
        Some(self.quantity().into())
    }
}

impl<K: Kind> IntoTree for Found<K> {
    fn tree(&self) -> Option<Node> {
        Some(self.quantity().into())
    }
}

impl<T: IntoTree> IntoTree for Option<T> {
    fn tree(&self) -> Option<Node> {
        self.as_ref().and_then(IntoTree::tree)
    }
}

impl<T: IntoTree> IntoTree for Vec<T> {
    fn tree(&self) -> Option<Node> {
        Some(Node::List(self.iter().filter_map(IntoTree::tree).collect()))
    }
}

impl IntoTree for u32 {
    fn tree(&self) -> Option<Node> {
        Some(Node::Count(i64::from(*self)))
    }
}

impl IntoTree for f64 {
    fn tree(&self) -> Option<Node> {
        Some(Node::Number(text::tidy(*self)))
    }
}

impl IntoTree for bool {
    fn tree(&self) -> Option<Node> {
        Some(Node::Truth(*self))
    }
}

impl IntoTree for String {
    fn tree(&self) -> Option<Node> {
        Some(Node::Text(self.clone().into(), None))
    }
}

impl IntoTree for &'static str {
    fn tree(&self) -> Option<Node> {
        Some(Node::Text(Cow::Borrowed(self), None))
    }
}

impl Node {
    /// How many single values it holds.
    pub fn leaves(&self) -> usize {
        match self {
            Node::List(items) => items.iter().map(Node::leaves).sum(),
            Node::Record(members) => members.iter().map(|(_, node)| node.leaves()).sum(),
            _ => 1,
        }
    }

    /// The system of the first quantity or designation in it that has one. A zero, which may have been
    /// written without a unit, decides only where nothing else does.
    pub fn system(&self) -> Option<System> {
        self.system_where(|value| value != 0.0).or_else(|| self.system_where(|_| true))
    }

    fn system_where(&self, counts: fn(f64) -> bool) -> Option<System> {
        match self {
            Node::Quantity(leaf) if counts(leaf.quantity.value) => leaf.quantity.unit.system(),
            Node::Text(_, system) => *system,
            Node::List(items) => items.iter().find_map(|item| item.system_where(counts)),
            Node::Record(members) => members.iter().find_map(|(_, node)| node.system_where(counts)),
            _ => None,
        }
    }

    /// Calls `act` on every quantity.
    pub fn each_quantity(&mut self, act: &mut impl FnMut(&mut Leaf)) {
        match self {
            Node::Quantity(leaf) => act(leaf),
            Node::List(items) => items.iter_mut().for_each(|item| item.each_quantity(act)),
            Node::Record(members) => members.iter_mut().for_each(|(_, node)| node.each_quantity(act)),
            _ => {}
        }
    }

    /// Calls `act` on every quantity with its path below `path`, parts parted by strokes.
    pub fn each_leaf(&mut self, path: &str, act: &mut impl FnMut(&str, &mut Leaf)) {
        let join = |name: &str| if path.is_empty() { name.to_owned() } else { format!("{path}/{name}") };
        match self {
            Node::Quantity(leaf) => act(path, leaf),
            Node::List(items) => {
                items.iter_mut().enumerate().for_each(|(at, item)| item.each_leaf(&join(&at.to_string()), act));
            }
            Node::Record(members) => members.iter_mut().for_each(|(name, node)| node.each_leaf(&join(name), act)),
            _ => {}
        }
    }

    /// The member `name` of a record.
    pub fn member(&self, name: &str) -> Option<&Node> {
        match self {
            Node::Record(members) => members.iter().find(|(key, _)| *key == name).map(|(_, node)| node),
            _ => None,
        }
    }

    /// What stands at a path of members and numbers, parted by strokes.
    pub fn at(&self, path: &str) -> Option<&Node> {
        path.split('/').try_fold(self, |node, part| node.step(part))
    }

    /// The first quantity, with its path.
    pub fn first_quantity(&self) -> Option<(String, Quantity)> {
        let mut found = None;
        self.clone().each_leaf("", &mut |path, leaf| {
            found.get_or_insert_with(|| (path.to_owned(), leaf.quantity));
        });
        found
    }

    /// The member `name` of a record, or the item of that number of a list.
    pub fn step(&self, name: &str) -> Option<&Node> {
        match self {
            Node::List(items) => name.parse::<usize>().ok().and_then(|at| items.get(at)),
            _ => self.member(name),
        }
    }
}

impl ToJson for Leaf {
    fn write(&self, json: &mut Json) {
        let Quantity { value, unit, tolerance, .. } = self.quantity;
        json.object(|json| {
            json.quantity(value, unit, |out| self.quantity.write_text(out));
            if let Some((plus, minus)) = tolerance {
                json.member("plus", &plus);
                json.member("minus", &minus);
            }
            json.member_if_some("name", self.name.as_ref());
            if let Some(range) = &self.range {
                json.member("least", &text::tidy(value - range.minus));
                json.member("greatest", &text::tidy(value + range.plus));
                json.member("plus_minus", range.as_ref());
            }
            if let Some(set) = &self.set {
                let mut part = |name, value: f64, places: usize| {
                    json.name(name).object(|json| {
                        json.quantity(value, set.unit, |out| {
                            text::write_fixed(out, value, places);
                            out.extend_from_slice(set.unit.row().suffix.as_bytes());
                        });
                    });
                };
                part("set_to", set.to, set.places);
                part("left_over", set.left_over, set.places + 2);
            }
        });
    }
}

impl ToJson for Range {
    fn write(&self, json: &mut Json) {
        json.object(|json| {
            json.name("worst_case").object(|json| {
                json.member("minus", &self.minus);
                json.member("plus", &self.plus);
            });
            json.member("root_sum_square", &self.root_sum_square);
            json.member("most_from", &self.most_from);
            json.member("method", self.method);
        });
    }
}

/// Named members as an object.
pub fn write_record(members: &[(&'static str, Node)], json: &mut Json) {
    json.object(|json| members.iter().for_each(|(name, node)| json.member(name, node)));
}

impl ToJson for Node {
    fn write(&self, json: &mut Json) {
        match self {
            Node::Quantity(leaf) => leaf.write(json),
            Node::Number(value) => value.write(json),
            Node::Count(count) => count.write(json),
            Node::Truth(truth) => truth.write(json),
            Node::Text(text, _) => text.write(json),
            Node::List(items) => items.write(json),
            Node::Record(members) => write_record(members, json),
        }
    }
}
