//! Declarations as data: the fields of what a calculator asks for and gives, each with its sentence, type,
//! default and bounds, written once in a struct that derives `Asks` or `Gives`. The reader, the schema, the
//! tree, the catalogue, the page and the columns of tables all follow from it.

mod choice;
mod default;
mod label;
mod notes;
mod read;
mod rules;
mod shape;

pub use shop_reckoner_derive::{Asks, Gives, step};

pub use default::{HasUnit, OfText};
pub use label::{capital, in_sentence, label, label_of, one_after_another, said_word};
pub(crate) use notes::notes;
pub use read::{needed, put, read};
pub(crate) use rules::stated;
pub use rules::{HasSize, Rule, Stated, add_broken, first_broken, to_give, to_leave_out};
pub use shape::{FieldType, Shape, TypeFacts, choice_schema, whole};

use crate::tree::{IntoTree, Node};
use serde::de::{Error, MapAccess};
use utoipa::openapi::RefOr;
use utoipa::openapi::schema::{AdditionalProperties, ArrayBuilder, ObjectBuilder, Schema};

/// Named schemas.
pub type Schemas = Vec<(String, RefOr<Schema>)>;

/// What is taken where a field is not given.
#[derive(Clone, Copy, Debug)]
pub struct Absent {
    /// The value in words.
    pub shown: &'static str,
    /// Why.
    pub reason: &'static str,
    /// The value, where it does not depend on other fields; a zero like another field's in inches.
    pub taken: fn() -> Option<Node>,
}

/// One field of a declaration.
#[derive(Clone, Copy, Debug)]
pub struct Member {
    /// Its name.
    pub name: &'static str,
    /// What a person calls it.
    pub label: &'static str,
    /// What a person calls one row of it, where it is a list.
    pub row: &'static str,
    /// What it is, in a sentence, with its default and what it needs.
    pub about: &'static str,
    /// Whether it may be absent.
    pub optional: bool,
    /// Its type.
    pub of: &'static TypeFacts,
    /// Its default, where it has one.
    pub absent: Option<Absent>,
    /// What the description says of it beside its type.
    pub narrowed: Option<Narrowed>,
    /// Fields without which a result is absent.
    pub needs: Needs,
    /// Those without which the group that it stands in is absent.
    pub group_needs: Needs,
}

/// What must be given: of each list at least one field.
pub type Needs = &'static [&'static [&'static str]];

/// What holds for one field and not for its type.
#[derive(Clone, Copy, Debug)]
pub enum Narrowed {
    /// The least and the greatest of a count.
    Count(u32, u32),
    /// The form of words.
    Pattern(&'static str),
}

/// A struct as data.
#[derive(Debug)]
pub struct Declaration {
    /// The name of its schema.
    pub name: &'static str,
    /// What it is, in a sentence.
    pub about: &'static str,
    /// Whether its schema says that there are no other fields.
    pub closed: bool,
    /// Its fields in declared order, those of groups among them.
    pub members: &'static [Member],
}

/// A struct that is declared.
pub trait Declared {
    /// The struct as data.
    const DECLARATION: Declaration;

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
    const NONE: Member = Member {
        name: "",
        label: "",
        row: "",
        about: "",
        optional: true,
        of: &<bool as FieldType>::TYPE,
        absent: None,
        narrowed: None,
        needs: &[],
        group_needs: &[],
    };
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

/// The members of a group that may be absent as a whole, for want of what it needs; `COUNT` is their number.
pub const fn optional<const COUNT: usize>(members: &[Member], needs: Needs) -> [Member; COUNT] {
    let mut all = joined::<COUNT>(&[members]);
    let mut at = 0;
    while at < COUNT {
        all[at].optional = true;
        if !needs.is_empty() {
            all[at].group_needs = needs;
        }
        at += 1;
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

/// A declaration's values as a tree.
pub fn tree_of<T: Declared>(value: &T) -> Node {
    let mut members = Vec::with_capacity(T::DECLARATION.members.len());
    value.push_tree(&mut members);
    Node::Record(members)
}

impl Declaration {
    /// Its schema.
    pub fn schema(&self) -> RefOr<Schema> {
        let mut object = ObjectBuilder::new().description(Some(self.about));
        for member in self.members {
            object = object.property(member.name, member.property());
            if !member.optional {
                object = object.required(member.name);
            }
        }
        object.additional_properties(self.closed.then_some(AdditionalProperties::FreeForm(false))).into()
    }

    /// Adds the schemas that its own refers to.
    pub fn collect(&self, parts: &mut Schemas) {
        self.members.iter().for_each(|member| member.of.collect(parts));
    }
}

impl Member {
    /// Its schema, or the reference to it.
    pub fn schema(&self) -> RefOr<Schema> {
        match (self.narrowed, self.of.shape, self.of.referred()) {
            (Some(Narrowed::Count(least, most)), ..) => whole(least, Some(most)),
            (Some(Narrowed::Pattern(pattern)), _, RefOr::T(Schema::Object(mut object))) => {
                object.pattern = Some(pattern.to_owned());
                RefOr::T(Schema::Object(object))
            }
            (_, Shape::List(item), _) => ArrayBuilder::new().items(item.referred()).into(),
            (_, _, schema) => schema,
        }
    }

    /// The same with its own sentence.
    pub fn property(&self) -> RefOr<Schema> {
        let about = Some(self.about.to_owned());
        match self.schema() {
            RefOr::T(Schema::Object(object)) => ObjectBuilder::from(object).description(about).into(),
            RefOr::T(Schema::Array(array)) => ArrayBuilder::from(array).description(about).into(),
            RefOr::Ref(mut reference) => {
                reference.description = self.about.to_owned();
                RefOr::Ref(reference)
            }
            other => other,
        }
    }
}
