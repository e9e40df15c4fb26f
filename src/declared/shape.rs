//! What the type of a field says of itself: the form it takes, its schema, and what a table makes of it.

use super::{Member, Schemas};
use crate::quantity::{Found, Kind, KindRow, Measure, System, kind};
use std::borrow::Cow;
use utoipa::openapi::schema::{KnownFormat, ObjectBuilder, Schema, SchemaFormat, Type};
use utoipa::openapi::{Ref, RefOr};
use utoipa::{PartialSchema, ToSchema};

/// The type of a field as data.
#[derive(Debug)]
pub struct TypeFacts {
    /// The name of its schema; none where the schema stands in its place.
    pub name: Option<fn() -> Cow<'static, str>>,
    /// What it is.
    pub shape: Shape,
    /// Its schema.
    pub schema: fn() -> RefOr<Schema>,
    /// The schema of the text that a query takes for it, where its own has other forms too.
    pub text: Option<fn() -> RefOr<Schema>>,
    /// Adds the schemas that its own refers to.
    pub parts: fn(&mut Schemas),
}

/// What a type is.
#[derive(Clone, Copy, Debug)]
pub enum Shape {
    /// A quantity asked for.
    Quantity(&'static KindRow),
    /// A quantity that may be asked for in another way too, such as by a name; its kind, if it is of one alone.
    QuantityOrName(Option<&'static KindRow>),
    /// A quantity found.
    Found(&'static KindRow),
    /// One of these words.
    Choice(&'static [&'static str]),
    /// A whole number within bounds.
    Count {
        /// The least.
        least: u32,
        /// The greatest, where there is one.
        most: Option<u32>,
    },
    /// A number without a unit.
    Number,
    /// True or false.
    Truth,
    /// Words.
    Words,
    /// A place on two axes.
    Point,
    /// Several of them.
    Points,
    /// A list of single values.
    List(&'static TypeFacts),
    /// A list of objects that a query states as rows of text.
    Rows(&'static TypeFacts),
    /// Named members.
    Record(&'static [Member]),
}

/// A type that a field can have.
pub trait FieldType {
    /// The type as data.
    const TYPE: TypeFacts;
}

impl Shape {
    /// The kind of the quantity that is asked for.
    pub const fn kind(&self) -> Option<&'static KindRow> {
        match self {
            Shape::Quantity(row) => Some(row),
            Shape::QuantityOrName(row) => *row,
            _ => None,
        }
    }

    /// The members of its objects, where it is a list of objects.
    pub const fn rows(&self) -> Option<&'static [Member]> {
        match self {
            Shape::List(TypeFacts { shape: Shape::Record(members), .. })
            | Shape::Rows(TypeFacts { shape: Shape::Record(members), .. }) => Some(members),
            _ => None,
        }
    }

    /// The members of its object or of each of its objects.
    pub const fn members(&self) -> &'static [Member] {
        match (self, self.rows()) {
            (Shape::Record(members), _) => members,
            (_, Some(members)) => members,
            _ => &[],
        }
    }

    /// The kind of the quantities that are asked for, one or several.
    pub fn kind_within(&self) -> Option<&'static KindRow> {
        match self {
            Shape::Point | Shape::Points => Some(kind::Place::ROW),
            Shape::List(item) => item.shape.kind(),
            single => single.kind(),
        }
    }

    /// The form of a field of this shape, one of [`crate::asking::FORMS`].
    pub const fn form(&self) -> &'static str {
        match self {
            Shape::Quantity(_) => "quantity",
            Shape::Choice(_) => "choice",
            Shape::Count { .. } => "count",
            Shape::Number => "number",
            Shape::Truth => "truth",
            Shape::List(_) => "list",
            Shape::Points | Shape::Rows(_) => "objects",
            Shape::QuantityOrName(_) | Shape::Found(_) | Shape::Words | Shape::Point | Shape::Record(_) => "words",
        }
    }
}

impl TypeFacts {
    /// The facts of a type that has a schema of its own.
    pub const fn named<T: ToSchema + PartialSchema>(shape: Shape) -> Self {
        Self { name: Some(T::name), shape, schema: T::schema, text: None, parts: T::schemas }
    }

    /// The facts of a type whose schema stands in its place.
    pub const fn plain(shape: Shape, schema: fn() -> RefOr<Schema>) -> Self {
        Self { name: None, shape, schema, text: None, parts: |_| {} }
    }

    /// The same with a text form of its own.
    pub const fn with_text(self, text: fn() -> RefOr<Schema>) -> Self {
        Self { text: Some(text), ..self }
    }

    /// The schema, or the reference to it.
    pub fn referred(&self) -> RefOr<Schema> {
        match self.name {
            Some(name) => Ref::from_schema_name(name()).into(),
            None => (self.schema)(),
        }
    }

    /// Adds its schema, if it has a name, and all that the schema refers to.
    pub fn collect(&self, parts: &mut Schemas) {
        if let Shape::List(item) = self.shape {
            item.collect(parts);
        }
        if let Some(name) = self.name {
            parts.push((name().into_owned(), (self.schema)()));
            (self.parts)(parts);
        }
    }
}

impl<K: Kind> FieldType for Measure<K> {
    const TYPE: TypeFacts = TypeFacts::named::<Self>(Shape::Quantity(K::ROW))
        .with_text(|| Ref::from_schema_name(crate::quantity::text_name(K::ROW)).into());
}

impl<K: Kind> FieldType for Found<K> {
    const TYPE: TypeFacts = TypeFacts::named::<Self>(Shape::Found(K::ROW));
}

impl<T: FieldType> FieldType for Vec<T> {
    const TYPE: TypeFacts = TypeFacts::plain(Shape::List(&T::TYPE), || Schema::default().into());
}

impl FieldType for System {
    const TYPE: TypeFacts = TypeFacts::named::<Self>(Shape::Choice(&["inch", "metric"]));
}

impl FieldType for u32 {
    const TYPE: TypeFacts = TypeFacts::plain(Shape::Count { least: 0, most: None }, || whole(0, None));
}

impl FieldType for f64 {
    const TYPE: TypeFacts = TypeFacts::plain(Shape::Number, || {
        let format = SchemaFormat::KnownFormat(KnownFormat::Double);
        ObjectBuilder::new().schema_type(Type::Number).format(Some(format)).into()
    });
}

impl FieldType for bool {
    const TYPE: TypeFacts = TypeFacts::plain(Shape::Truth, || ObjectBuilder::new().schema_type(Type::Boolean).into());
}

impl FieldType for String {
    const TYPE: TypeFacts = WORDS;
}

impl FieldType for &'static str {
    const TYPE: TypeFacts = WORDS;
}

const WORDS: TypeFacts = TypeFacts::plain(Shape::Words, || ObjectBuilder::new().schema_type(Type::String).into());

/// The schema of a whole number.
pub fn whole(least: u32, most: Option<u32>) -> RefOr<Schema> {
    ObjectBuilder::new()
        .schema_type(Type::Integer)
        .format(Some(SchemaFormat::KnownFormat(KnownFormat::Int32)))
        .minimum(Some(least))
        .maximum(most)
        .into()
}

/// The schema of a choice of words.
pub fn choice_schema(about: &str, words: &[&'static str]) -> RefOr<Schema> {
    ObjectBuilder::new()
        .schema_type(Type::String)
        .enum_values(Some(words.to_vec()))
        .description(Some(about.trim_ascii()))
        .into()
}
