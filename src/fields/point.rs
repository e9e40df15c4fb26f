//! Points of a plane as a request states them: `1.5 in,0 in` as text or `{"x": …, "y": …}` in JSON,
//! and lists of them, in text separated by semicolons.

use crate::declared::{FieldType, Shape, TypeFacts};
use crate::quantity::{Place, shown};
use crate::refusal::{Code, Unread, carry};
use crate::tree::{IntoTree, Node};
use serde::de::value::MapAccessDeserializer;
use serde::de::{Deserialize, Deserializer, Error, IgnoredAny, MapAccess, SeqAccess, Visitor};
use std::fmt;
use utoipa::openapi::schema::{AdditionalProperties, ArrayBuilder, ObjectBuilder, OneOfBuilder, Schema, Type};
use utoipa::openapi::{Ref, RefOr};
use utoipa::{PartialSchema, ToSchema};

/// A point to show where nothing better is known.
const EXAMPLE: &str = "1.5 in,2 in";
const EXAMPLES: &str = "0 in,0 in;1 in,0 in";

/// Most points of one list.
pub const MOST_POINTS: usize = 1000;

/// A place on two axes.
#[derive(Clone, Copy, Debug)]
pub struct Point {
    /// On the X axis.
    pub x: Place,
    /// On the Y axis.
    pub y: Place,
}

impl IntoTree for Point {
    fn tree(&self) -> Option<Node> {
        let members = [("x", self.x.tree()?), ("y", self.y.tree()?)];
        Some(Node::Record(members.into()))
    }
}

/// A list of points, in the order given.
#[derive(Clone, Debug)]
pub struct Points(pub Vec<Point>);

impl IntoTree for Points {
    fn tree(&self) -> Option<Node> {
        self.0.tree()
    }
}

fn unread(code: Code, says: String, try_this: impl Into<String>) -> Unread {
    Unread { code, says, try_this: try_this.into() }
}

impl Point {
    /// Reads `x,y`.
    pub fn read(text: &str) -> Result<Self, Unread> {
        let parts: Vec<&str> = text.split(',').map(str::trim).collect();
        let [x_text, y_text] = parts[..] else {
            let says =
                format!("\"{}\" is not a point: give two lengths, X and Y, separated by one comma.", shown(text));
            return Err(unread(Code::ValueUnreadable, says, EXAMPLE));
        };
        let (x, y) = (Place::read(x_text), Place::read(y_text));
        let good = |part: &Result<Place, Unread>, text: &str| match part {
            Ok(_) => text.to_owned(),
            Err(error) => error.try_this.clone(),
        };
        let whole = format!("{},{}", good(&x, x_text), good(&y, y_text));
        let named = |axis: &str, error: Unread| unread(error.code, format!("{axis}: {}", error.says), whole.clone());
        match (x, y) {
            (Ok(x), Ok(y)) => Ok(Self { x, y }),
            (Err(error), _) => Err(named("x", error)),
            (_, Err(error)) => Err(named("y", error)),
        }
    }
}

impl Points {
    /// Reads `x,y;x,y;…`.
    pub fn read(text: &str) -> Result<Self, Unread> {
        let mut points = Vec::new();
        for (at, part) in text.split(';').enumerate() {
            let point = Point::read(part).map_err(|error| {
                let says = format!("Point {}: {}", at + 1, error.says);
                unread(error.code, says, "")
            })?;
            push(&mut points, point)?;
        }
        Ok(Self(points))
    }
}

fn push(points: &mut Vec<Point>, point: Point) -> Result<(), Unread> {
    if points.len() == MOST_POINTS {
        let says = format!("At most {MOST_POINTS} points are read.");
        return Err(unread(Code::ValueOutOfRange, says, ""));
    }
    points.push(point);
    Ok(())
}

impl<'de> Deserialize<'de> for Point {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(PointVisitor)
    }
}

struct PointVisitor;

impl<'de> Visitor<'de> for PointVisitor {
    type Value = Point;

    fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
        write!(f, "a point such as \"{EXAMPLE}\"")
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<Point, E> {
        Point::read(text).map_err(carry)
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Point, A::Error> {
        let refuse = |code, says: String| carry::<A::Error>(unread(code, says, EXAMPLE));
        let (mut x, mut y) = (None, None);
        while let Some(key) = map.next_key::<String>()? {
            let axis = match key.as_str() {
                "x" => &mut x,
                "y" => &mut y,
                other => {
                    map.next_value::<IgnoredAny>()?;
                    let says = format!("\"{}\" is not part of a point; give x and y.", shown(other));
                    return Err(refuse(Code::ValueUnreadable, says));
                }
            };
            if axis.is_some() {
                return Err(refuse(Code::ValueUnreadable, format!("{key} is given more than once.")));
            }
            *axis = Some(map.next_value::<Place>()?);
        }
        match (x, y) {
            (Some(x), Some(y)) => Ok(Point { x, y }),
            _ => Err(refuse(Code::FieldMissing, "A point needs both x and y.".into())),
        }
    }
}

impl<'de> Deserialize<'de> for Points {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(PointsVisitor)
    }
}

struct PointsVisitor;

impl<'de> Visitor<'de> for PointsVisitor {
    type Value = Points;

    fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
        write!(f, "points such as \"{EXAMPLES}\"")
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<Points, E> {
        Points::read(text).map_err(carry)
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<Points, A::Error> {
        let mut points = Vec::new();
        while let Some(point) = list.next_element::<Point>()? {
            push(&mut points, point).map_err(carry::<A::Error>)?;
        }
        if points.is_empty() {
            return Err(carry(unread(Code::ValueEmpty, "The list has no points.".into(), "")));
        }
        Ok(Points(points))
    }

    fn visit_map<A: MapAccess<'de>>(self, map: A) -> Result<Points, A::Error> {
        Point::deserialize(MapAccessDeserializer::new(map)).map(|point| Points(vec![point]))
    }
}

impl FieldType for Point {
    const TYPE: TypeFacts =
        TypeFacts::named::<Self>(Shape::Point).with_text(|| Ref::from_schema_name("PointText").into());
}

impl PartialSchema for Point {
    fn schema() -> RefOr<Schema> {
        OneOfBuilder::new()
            .item(Ref::from_schema_name("PointText"))
            .item(Ref::from_schema_name("PointValue"))
            .description(Some("A point: its places on the X and the Y axis."))
            .examples([serde_json::json!(EXAMPLE), serde_json::json!({"x": "1.5 in", "y": "2 in"})])
            .into()
    }
}

impl ToSchema for Point {
    fn schemas(parts: &mut Vec<(String, RefOr<Schema>)>) {
        let place = || Ref::from_schema_name(Place::name());
        let text = ObjectBuilder::new()
            .schema_type(Type::String)
            .pattern(Some("^[^,|]+,[^,|]+(?:\\|[^,|]+,[^,|]+)*$"))
            .description(Some(
                "A point: X and Y, each a length, separated by a comma; or several points separated by |.",
            ))
            .examples([serde_json::json!(EXAMPLE)]);
        let object = ObjectBuilder::new()
            .property("x", place())
            .property("y", place())
            .required("x")
            .required("y")
            .additional_properties(Some(AdditionalProperties::FreeForm(false)))
            .description(Some("A point: its places on the X and the Y axis, as an object."));
        parts.push(("PointText".into(), text.into()));
        parts.push(("PointValue".into(), object.into()));
        parts.push((Place::name().into_owned(), Place::schema()));
        Place::schemas(parts);
    }
}

impl FieldType for Points {
    const TYPE: TypeFacts =
        TypeFacts::named::<Self>(Shape::Points).with_text(|| Ref::from_schema_name("PointsText").into());
}

impl PartialSchema for Points {
    fn schema() -> RefOr<Schema> {
        OneOfBuilder::new()
            .item(Ref::from_schema_name("PointsText"))
            .item(
                ArrayBuilder::new()
                    .items(Ref::from_schema_name(Point::name()))
                    .min_items(Some(1))
                    .max_items(Some(MOST_POINTS))
                    .description(Some("The same as a list.")),
            )
            .description(Some("Points, in the order given."))
            .examples([serde_json::json!(EXAMPLES)])
            .into()
    }
}

impl ToSchema for Points {
    fn schemas(parts: &mut Vec<(String, RefOr<Schema>)>) {
        let text = ObjectBuilder::new()
            .schema_type(Type::String)
            .pattern(Some("^[^,;]+,[^,;]+(?:;[^,;]+,[^,;]+)*$"))
            .description(Some("Points separated by semicolons, each X and Y separated by a comma."))
            .examples([serde_json::json!(EXAMPLES)]);
        parts.push(("PointsText".into(), text.into()));
        parts.push((Point::name().into_owned(), Point::schema()));
        Point::schemas(parts);
    }
}

#[cfg(test)]
#[path = "point_tests.rs"]
mod tests;
