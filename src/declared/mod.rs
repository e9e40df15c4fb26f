//! Declarations as data: the fields of what a calculator asks for and gives, each with its sentence, type,
//! default and bounds, written once in a struct that derives `Asks` or `Gives`. The reader, the schema, the
//! tree, the catalogue, the page and the columns of tables all follow from it.

mod choice;
mod default;
mod read;
mod rules;
mod shape;

pub use default::{HasUnit, OfText};
pub use read::{needed, put, read};
pub use rules::{Rule, HasSize, first_broken, validated};
pub use shape::{FieldType, Shape, TypeFacts, choice_schema, whole};

use crate::tree::{IntoTree, Node};
use serde::de::{Error, MapAccess};
use std::borrow::Cow;
use utoipa::openapi::schema::{AdditionalProperties, ArrayBuilder, ObjectBuilder, Schema};
use utoipa::openapi::{Ref, RefOr};

/// Named schemas.
pub type Schemas = Vec<(String, RefOr<Schema>)>;

/// What is taken where a field is not given.
#[derive(Clone, Copy, Debug)]
pub struct Absent {
    /// The value in words.
    pub shown: &'static str,
    /// Why.
    pub reason: &'static str,
}

/// One field of a declaration.
#[derive(Clone, Copy, Debug)]
pub struct Member {
    /// Its name.
    pub name: &'static str,
    /// What it is, in a sentence, with its default.
    pub about: &'static str,
    /// Whether it may be absent.
    pub optional: bool,
    /// Its type.
    pub of: &'static TypeFacts,
    /// Its default, where it has one.
    pub absent: Option<Absent>,
    /// The least and the greatest of a count whose type has no bounds.
    pub bounds: Option<(u32, u32)>,
}

/// A struct as data.
pub trait Declared {
    /// The name of its schema.
    const NAME: &'static str;
    /// What it is, in a sentence.
    const ABOUT: &'static str;
    /// Whether its schema says that there are no others.
    const CLOSED: bool;
    /// Its fields in declared order, those of groups among them.
    const MEMBERS: &'static [Member];

    /// Appends its fields as a tree; what is absent is left out.
    fn push_tree(&self, members: &mut Vec<(&'static str, Node)>);
}

/// A declaration that is read from a request, field by field in any order.
pub trait Asked: Declared + Sized {
    /// A place for each field.
    type Places: Default;
    /// The names of its fields.
    const NAMES: &'static [&'static str];

    /// Reads the next value into the place of the field numbered `at`.
    fn put<'de, A: MapAccess<'de>>(places: &mut Self::Places, at: usize, map: &mut A) -> Result<(), A::Error>;

    /// The whole, once every field there is was read.
    fn end<E: Error>(places: Self::Places) -> Result<Self, E>;
}

/// How many members the parts have together.
pub const fn count(parts: &[&[Member]]) -> usize {
    let (mut all, mut at) = (0, 0);
    while at < parts.len() {
        all += parts[at].len();
        at += 1;
    }
    all
}

/// The members of all parts, one after the other; `COUNT` is [`count`].
pub const fn joined<const COUNT: usize>(parts: &[&[Member]]) -> [Member; COUNT] {
    const NONE: Member = Member { name: "", about: "", optional: true, of: &<bool as FieldType>::TYPE, absent: None, bounds: None };
    let mut all = [NONE; COUNT];
    let (mut part, mut to) = (0, 0);
    while part < parts.len() {
        let mut at = 0;
        while at < parts[part].len() {
            all[to] = parts[part][at];
            to += 1;
            at += 1;
        }
        part += 1;
    }
    all
}

/// The names of members.
pub const fn names<const COUNT: usize>(members: &[Member]) -> [&'static str; COUNT] {
    let mut all = [""; COUNT];
    let mut at = 0;
    while at < members.len() {
        all[at] = members[at].name;
        at += 1;
    }
    all
}

/// Appends a field of a tree, unless it is absent.
pub fn push(members: &mut Vec<(&'static str, Node)>, name: &'static str, value: &impl IntoTree) {
    if let Some(node) = value.tree() {
        members.push((name, node));
    }
}

/// A declaration as a tree.
pub fn tree_of<T: Declared>(value: &T) -> Node {
    let mut members = Vec::with_capacity(T::MEMBERS.len());
    value.push_tree(&mut members);
    Node::Record(members)
}

/// The schema of a declaration.
pub fn schema_of<T: Declared>() -> RefOr<Schema> {
    object(T::ABOUT, T::MEMBERS, T::CLOSED)
}

fn object(about: &str, members: &[Member], closed: bool) -> RefOr<Schema> {
    let mut object = ObjectBuilder::new().description(Some(about));
    for member in members {
        object = object.property(member.name, member.property());
        if !member.optional {
            object = object.required(member.name);
        }
    }
    object.additional_properties(closed.then_some(AdditionalProperties::FreeForm(false))).into()
}

impl Member {
    /// The name of its type's schema; none where that stands in its place.
    pub fn schema_name(&self) -> Option<Cow<'static, str>> {
        self.of.name.map(|name| name())
    }

    /// Its schema with its own sentence.
    pub fn property(&self) -> RefOr<Schema> {
        let (of, about) = (self.of, self.about);
        if let Some((least, most)) = self.bounds {
            return described(whole(least, Some(most)), about);
        }
        if let Some(name) = of.name {
            return Ref::builder().ref_location_from_schema_name(name()).description(Some(about)).build().into();
        }
        if let Shape::List(item) = of.shape {
            return ArrayBuilder::new().items(item.referred()).description(Some(about)).into();
        }
        described((of.schema)(), about)
    }
}

fn described(schema: RefOr<Schema>, about: &str) -> RefOr<Schema> {
    match schema {
        RefOr::T(Schema::Object(mut object)) => {
            object.description = Some(about.to_owned());
            RefOr::T(Schema::Object(object))
        }
        other => other,
    }
}

/// The schemas that a declaration refers to.
pub fn schemas_of<T: Declared>(parts: &mut Schemas) {
    T::MEMBERS.iter().for_each(|member| member.of.collect(parts));
}
