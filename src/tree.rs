//! Inputs and results without their types: a tree of quantities, counts and words that unit
//! conversion, resolution, tables and pages walk alike.

use crate::quantity::{Found, Kind, Measure, Quantity, System, Unit, text};
use serde::ser::{Serialize, SerializeMap, SerializeSeq, Serializer};
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

impl Serialize for Leaf {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(None)?;
        let Quantity { value, unit, tolerance, .. } = self.quantity;
        map.serialize_entry("value", &value)?;
        map.serialize_entry("unit", unit.spelling())?;
        let mut text = String::with_capacity(24);
        self.quantity.write_text(&mut text);
        map.serialize_entry("text", &text)?;
        if let Some((plus, minus)) = tolerance {
            map.serialize_entry("plus", &plus)?;
            map.serialize_entry("minus", &minus)?;
        }
        if let Some(name) = &self.name {
            map.serialize_entry("name", name)?;
        }
        if let Some(range) = &self.range {
            map.serialize_entry("least", &text::tidy(value - range.minus))?;
            map.serialize_entry("greatest", &text::tidy(value + range.plus))?;
            map.serialize_entry("plus_minus", range)?;
        }
        if let Some(set) = &self.set {
            let part = |value: f64, places: usize| SetPart { value, unit: set.unit, places };
            map.serialize_entry("set_to", &part(set.to, set.places))?;
            map.serialize_entry("left_over", &part(set.left_over, set.places + 2))?;
        }
        map.end()
    }
}

impl Serialize for Range {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        #[derive(serde::Serialize)]
        struct WorstCase {
            minus: f64,
            plus: f64,
        }
        let mut map = serializer.serialize_map(Some(4))?;
        map.serialize_entry("worst_case", &WorstCase { minus: self.minus, plus: self.plus })?;
        map.serialize_entry("root_sum_square", &self.root_sum_square)?;
        map.serialize_entry("most_from", &self.most_from)?;
        map.serialize_entry("method", self.method)?;
        map.end()
    }
}

/// A setting or its remainder, as written.
struct SetPart {
    value: f64,
    unit: Unit,
    places: usize,
}

impl Serialize for SetPart {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut text = crate::quantity::text::fixed(self.value, self.places);
        text.push_str(self.unit.row().suffix);
        let mut map = serializer.serialize_map(Some(3))?;
        map.serialize_entry("value", &self.value)?;
        map.serialize_entry("unit", self.unit.spelling())?;
        map.serialize_entry("text", &text)?;
        map.end()
    }
}

impl Serialize for Node {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self {
            Node::Quantity(leaf) => leaf.serialize(serializer),
            Node::Number(value) => serializer.serialize_f64(*value),
            Node::Count(count) => serializer.serialize_i64(*count),
            Node::Truth(truth) => serializer.serialize_bool(*truth),
            Node::Text(text, _) => serializer.serialize_str(text),
            Node::List(items) => {
                let mut list = serializer.serialize_seq(Some(items.len()))?;
                for item in items {
                    list.serialize_element(item)?;
                }
                list.end()
            }
            Node::Record(members) => {
                let mut map = serializer.serialize_map(Some(members.len()))?;
                for (name, node) in members {
                    map.serialize_entry(name, node)?;
                }
                map.end()
            }
        }
    }
}
