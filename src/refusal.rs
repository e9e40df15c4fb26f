//! What can be wrong with a request: a code, the field, what is wrong in words, a value to try.
//! Knows no status codes; the service gives them as its last step.

mod code;
mod unread;

pub use code::Code;
use serde::Serialize;
use serde::ser::{SerializeStruct, Serializer};
use std::borrow::Cow;
pub(crate) use unread::carried;
pub use unread::{Unread, carry};
use validator::{ValidationError, ValidationErrors};

/// One thing that is wrong.
#[derive(Clone, Debug, PartialEq)]
pub struct Wrong {
    /// A JSON Pointer (RFC 6901) to the field; empty where it is the request as a whole.
    pub field: String,
    /// What kind of wrong.
    pub code: Code,
    /// What is wrong, in words.
    pub says: String,
    /// A value that would be right, if one can be shown.
    pub try_this: Option<String>,
}

impl Serialize for Wrong {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut wrong = serializer.serialize_struct("Wrong", 4)?;
        wrong.serialize_field("field", &self.field)?;
        wrong.serialize_field("code", self.code.as_str())?;
        wrong.serialize_field("says", &self.says)?;
        match &self.try_this {
            Some(value) => wrong.serialize_field("try", value)?,
            None => wrong.skip_field("try")?,
        }
        wrong.end()
    }
}

impl Wrong {
    /// Something wrong with the field `field`, by its path.
    pub fn new(field: &str, code: Code, says: impl Into<String>, try_this: impl Into<String>) -> Self {
        Self { field: format!("/{}", cut(field)), code, says: says.into(), try_this: Some(try_this.into()) }
    }

    /// A value that could not be read, at `field`.
    pub fn unread(field: &str, unread: Unread) -> Self {
        Self::new(field, unread.code, unread.says, unread.try_this)
    }
}

/// Longest place that is shown whole, in bytes.
const LONGEST_PLACE: usize = 128;

/// A place as it is shown: one longer than any of ours is cut, so that no answer repeats it at length.
fn cut(place: &str) -> Cow<'_, str> {
    if place.len() <= LONGEST_PLACE {
        return Cow::Borrowed(place);
    }
    Cow::Owned(place.chars().take(LONGEST_PLACE / 2).chain(['…']).collect())
}

/// A JSON Pointer (RFC 6901) through `places`, from the outermost inwards.
pub(crate) fn pointer<'p>(places: impl Iterator<Item = &'p str>) -> String {
    places.flat_map(|place| ["/".to_owned(), cut(place).replace('~', "~0").replace('/', "~1")]).collect()
}

/// Most wrongs that one refusal names.
const MOST_NAMED: usize = 50;

/// All that is wrong with a request.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Refusal(pub Vec<Wrong>);

impl Refusal {
    /// One thing wrong.
    pub fn one(wrong: Wrong) -> Self {
        Self(vec![wrong])
    }

    /// All of these; of very many the first, and how many more there are.
    pub fn of_many(mut wrongs: Vec<Wrong>) -> Self {
        let more = wrongs.len().saturating_sub(MOST_NAMED);
        if more > 0 {
            wrongs.truncate(MOST_NAMED);
            let says = format!("{more} more fields are wrong, too many to list.");
            wrongs.push(Wrong { field: String::new(), code: Code::TooLarge, says, try_this: None });
        }
        Self(wrongs)
    }

    /// Whether the time was up: it says nothing of the inputs, so nothing may stand in for it.
    pub fn is_of_time(&self) -> bool {
        self.0.iter().any(|wrong| wrong.code == Code::TooMuchWork)
    }

    /// All that is wrong, in one line of words.
    pub fn words(&self) -> String {
        let one = |wrong: &Wrong| {
            let field = wrong.field.trim_start_matches('/');
            let way_out = wrong.try_this.as_ref().map(|value| format!(" Try {value}.")).unwrap_or_default();
            if field.is_empty() {
                format!("{}{way_out}", wrong.says)
            } else {
                format!("{field}: {}{way_out}", wrong.says)
            }
        };
        self.0.iter().map(one).collect::<Vec<_>>().join(" ")
    }

    /// The inputs in `fields` are sound one by one, but no answer exists: one error for each field,
    /// each with a value that would give one.
    pub fn no_answer(says: &str, fields: &[(&str, String)]) -> Self {
        Self(fields.iter().map(|(field, value)| Wrong::new(field, Code::NoAnswer, says, value)).collect())
    }
}

/// A rule between fields that is broken, for a validator's schema function: `fields` are pairs of a
/// field and a value to try.
pub fn rule_broken(code: Code, says: impl Into<Cow<'static, str>>, fields: &[(&'static str, &str)]) -> ValidationError {
    let mut error = ValidationError::new(code.as_str());
    error.message = Some(says.into());
    for (field, value) in fields {
        error.add_param(Cow::Borrowed(field), value);
    }
    error
}

/// The code whose text is `text`: the validator's errors hold theirs as text, as [`between`] gave it.
fn code_named(text: &str) -> Code {
    Code::ALL.iter().copied().find(|code| code.as_str() == text).unwrap_or(Code::ValueUnreadable)
}

impl From<ValidationErrors> for Refusal {
    fn from(errors: ValidationErrors) -> Self {
        let mut wrongs = Vec::new();
        for error in errors.field_errors().into_values().flatten() {
            let mut fields: Vec<_> = error.params.iter().collect();
            fields.sort_by(|a, b| a.0.cmp(b.0));
            for (field, value) in fields {
                let says = error.message.clone().unwrap_or_default();
                let value = value.as_str().unwrap_or_default();
                wrongs.push(Wrong::new(field, code_named(&error.code), says, value));
            }
        }
        Self(wrongs)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_code_goes_through_the_validator() {
        for code in Code::ALL {
            let mut errors = ValidationErrors::new();
            errors.add("__all__", rule_broken(*code, "Too deep.", &[("depth", "1 in")]));
            assert_eq!(Refusal::from(errors), Refusal::one(Wrong::new("depth", *code, "Too deep.", "1 in")));
        }
    }
}
