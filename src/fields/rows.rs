//! Lists of richer objects: in JSON a list of objects; in a query rows separated by semicolons, their
//! parts by commas in the order in which the object declares them, or the JSON itself as text.

use super::given::Given;
use crate::declared::{Asked, FieldType, Shape, TypeFacts};
use crate::refusal::{Code, Unread, carry};
use crate::tree::{IntoTree, Node};
use serde::de::{Deserialize, Deserializer};
use std::borrow::Cow;
use utoipa::openapi::schema::{ArrayBuilder, ObjectBuilder, OneOfBuilder, Schema, Type};
use utoipa::openapi::{Ref, RefOr};
use utoipa::{PartialSchema, ToSchema};

/// Most rows of one list.
pub const MOST_ROWS: usize = 1000;

/// The name by which the reader knows that a text is to be parted into rows.
pub(super) const NAME: &str = "Rows";

/// A list of objects, in the order given.
#[derive(Clone, Debug)]
pub struct Rows<T>(pub Vec<T>);

#[derive(serde::Deserialize)]
#[serde(rename = "Rows")]
struct Listed<T>(Vec<T>);

impl<'de, T: Deserialize<'de>> Deserialize<'de> for Rows<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let Listed(rows) = Listed::deserialize(deserializer)?;
        let refuse = |code, says: String| Err(carry(Unread { code, says, try_this: String::new() }));
        match rows.len() {
            0 => refuse(Code::ValueEmpty, "The list is empty.".into()),
            len if len > MOST_ROWS => refuse(Code::ValueOutOfRange, format!("At most {MOST_ROWS} rows are read.")),
            _ => Ok(Self(rows)),
        }
    }
}

/// A text as rows: JSON where it begins like JSON.
pub(super) fn parted(text: &str) -> Result<Given<'_>, String> {
    let text = text.trim();
    if text.starts_with(['[', '{']) {
        let read: Given = serde_json::from_str(text)
            .map_err(|error| format!("This starts like JSON, but it cannot be read: {error}."))?;
        return Ok(as_list(&read).unwrap_or(read));
    }
    // A semicolon at the end ends the last row and begins no other.
    let rows = text.strip_suffix(';').unwrap_or(text).split(';');
    Ok(Given::List(rows.map(|row| Given::Text(Cow::Borrowed(row.trim()))).collect()))
}

/// One object as a list of one.
pub(super) fn as_list<'a>(given: &Given<'a>) -> Option<Given<'a>> {
    matches!(given, Given::Object(_)).then(|| Given::List(vec![given.clone()]))
}

/// The parts of a row by the names of the object's fields; an empty part is not given.
pub(super) fn named<'a>(row: &'a str, fields: &'static [&'static str]) -> Result<Given<'a>, String> {
    let parts: Vec<&str> = row.split(',').map(str::trim).collect();
    if parts.len() > fields.len() {
        let order = fields.join(", ");
        return Err(format!("A row has at most {} parts, separated by commas: {order}.", fields.len()));
    }
    let given = fields.iter().zip(parts).filter(|(_, part)| !part.is_empty());
    Ok(Given::Object(given.map(|(name, part)| ((*name).into(), Given::Text(part.into()))).collect()))
}

impl<T: IntoTree> IntoTree for Rows<T> {
    fn tree(&self) -> Option<Node> {
        self.0.tree()
    }
}

/// What the text of a query is, from the names of the parts.
fn about<T: Asked>() -> String {
    format!("Rows separated by semicolons; in each, separated by commas: {}.", T::NAMES.join(", "))
}

fn text<T: Asked>() -> ObjectBuilder {
    ObjectBuilder::new().schema_type(Type::String).min_length(Some(1)).description(Some(about::<T>()))
}

impl<T: Asked + FieldType + ToSchema> FieldType for Rows<T> {
    const TYPE: TypeFacts = TypeFacts::named::<Self>(Shape::Rows(&T::TYPE)).with_text(|| text::<T>().into());
}

impl<T: Asked + ToSchema> PartialSchema for Rows<T> {
    fn schema() -> RefOr<Schema> {
        OneOfBuilder::new()
            .item(text::<T>())
            .item(
                ArrayBuilder::new()
                    .items(Ref::from_schema_name(T::name()))
                    .min_items(Some(1))
                    .max_items(Some(MOST_ROWS))
                    .description(Some("The same as a list of objects.")),
            )
            .description(Some(about::<T>()))
            .into()
    }
}

impl<T: Asked + ToSchema> ToSchema for Rows<T> {
    fn name() -> Cow<'static, str> {
        format!("{}{NAME}", T::name()).into()
    }

    fn schemas(parts: &mut Vec<(String, RefOr<Schema>)>) {
        parts.push((T::name().into_owned(), T::schema()));
        T::schemas(parts);
    }
}

#[cfg(test)]
mod tests {
    use super::super::Fields;
    use super::*;
    use crate::quantity::Place;
    use crate::refusal::Refusal;

    #[derive(Debug, serde::Deserialize)]
    #[serde(deny_unknown_fields)]
    struct Tool {
        name: String,
        reading: Place,
        note: Option<String>,
    }

    #[derive(Debug, serde::Deserialize)]
    struct Input {
        tools: Rows<Tool>,
    }

    fn read(fields: &Fields) -> Result<Vec<(String, f64, Option<String>)>, Refusal> {
        let input: Input = fields.read(|_| Some("T1,1 in"))?;
        Ok(input.tools.0.into_iter().map(|tool| (tool.name, tool.reading.quantity().value, tool.note)).collect())
    }

    fn query(text: &str) -> Result<Vec<(String, f64, Option<String>)>, Refusal> {
        read(&Fields(vec![("tools".into(), Given::Text(text.into()))]))
    }

    #[test]
    fn rows_of_a_query_and_objects_of_json_read_alike() {
        let wanted = [("T1".to_owned(), 1.25, None), ("2".to_owned(), -3.0, Some("long".to_owned()))];
        let json = r#"[{"name": "T1", "reading": "1.25 in"}, {"name": "2", "reading": "-3 in", "note": "long"}]"#;
        let object = format!("{{\"tools\": {json}}}");
        let body: Fields = serde_json::from_str(&object).unwrap();
        assert_eq!(read(&body).unwrap(), wanted);
        for text in ["T1,1.25 in;2,-3 in,long", " T1 , 1.25 in ; 2, -3 in, long ;", json] {
            assert_eq!(query(text).unwrap(), wanted, "{text}");
        }
        for one in [r#"{"tools": {"name": "T1", "reading": "1 in"}}"#, r#"{"tools": "T1,1 in"}"#] {
            assert_eq!(read(&serde_json::from_str(one).unwrap()).unwrap().len(), 1);
        }
    }

    #[test]
    fn a_wrong_row_is_refused_where_it_stands() {
        for (text, field, code) in [
            ("T1,1 in;T2,2", "/tools/1/reading", "unit_missing"),
            ("T1;T2,2 in", "/tools/0/reading", "field_missing"),
            ("T1,1 in,x,y", "/tools/0", "value_unreadable"),
            (",1 in", "/tools/0/name", "field_missing"),
            ("T1,1 in;;T2,1 in", "/tools/1", "value_empty"),
            ("[]", "/tools", "value_empty"),
            ("[1,", "/tools", "value_unreadable"),
            ("[1]", "/tools/0", "value_unreadable"),
            (r#"[{"name": "T1", "reading": "1 in", "colour": "red"}]"#, "/tools/0/colour", "field_unknown"),
        ] {
            let wrong = &query(text).unwrap_err().0[0];
            assert_eq!((wrong.field.as_str(), wrong.code.as_str()), (field, code), "{text}: {wrong:?}");
        }
        assert_eq!(query(&"T,1 in;".repeat(MOST_ROWS + 1)).unwrap_err().0[0].code.as_str(), "value_out_of_range");
    }
}
