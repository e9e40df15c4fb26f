//! What can be wrong with a request: a code, the field, what is wrong in words, a value to try.
//! Knows no status codes; the service gives them as its last step.

use crate::quantity::Unread;
use serde::Serialize;
use serde::ser::{SerializeStruct, Serializer};
use std::borrow::Cow;
use validator::{ValidationError, ValidationErrors};

macro_rules! codes {
    ($($(#[doc = $doc:literal])* $name:ident = $text:literal;)*) => {
        /// What is wrong. The field is data beside it, not part of the code.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
        pub enum Code { $($(#[doc = $doc])* $name,)* }

        impl Code {
            /// Every code.
            pub const ALL: &[Code] = &[$(Code::$name,)*];

            /// The code as it is sent.
            pub const fn as_str(self) -> &'static str {
                match self { $(Code::$name => $text,)* }
            }

            /// What the code means, in a sentence.
            pub const fn about(self) -> &'static str {
                match self { $(Code::$name => concat!($($doc),*).trim_ascii(),)* }
            }
        }
    };
}

codes! {
    /// The request itself cannot be read: broken JSON, percent-encoding or UTF-8.
    RequestUnreadable = "request_unreadable";
    /// The calculator has no such field.
    FieldUnknown = "field_unknown";
    /// A field that is needed is not there.
    FieldMissing = "field_missing";
    /// A field is there more than once.
    FieldRepeated = "field_repeated";
    /// A field is there without a value.
    ValueEmpty = "value_empty";
    /// The value is not of the form this field takes.
    ValueUnreadable = "value_unreadable";
    /// The value can be meant in more than one way.
    ValueAmbiguous = "value_ambiguous";
    /// The value lies outside its bounds.
    ValueOutOfRange = "value_out_of_range";
    /// A number stands without its unit.
    UnitMissing = "unit_missing";
    /// The unit is not known here.
    UnitUnknown = "unit_unknown";
    /// The unit measures something else.
    UnitWrong = "unit_wrong";
    /// The unit has the right dimension but belongs to another kind of quantity.
    KindWrong = "kind_wrong";
    /// Fields contradict each other, or one lacks another it depends on.
    Conflict = "conflict";
    /// What was named is not in the tables.
    NotFound = "not_found";
    /// The inputs are sound, but no answer exists for them.
    NoAnswer = "no_answer";
    /// Known, but not offered here.
    NotOffered = "not_offered";
    /// The answer takes longer to work out than a request may.
    TooMuchWork = "too_much_work";
}

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
    /// Something wrong with the top-level field `field`.
    pub fn new(field: &str, code: Code, says: impl Into<String>, try_this: impl Into<String>) -> Self {
        Self { field: format!("/{field}"), code, says: says.into(), try_this: Some(try_this.into()) }
    }

    /// A value that could not be read, at `field`.
    pub fn unread(field: &str, unread: Unread) -> Self {
        Self::new(field, code_named(unread.code), unread.says, unread.try_this)
    }
}

/// The code whose text is `text`.
pub fn code_named(text: &str) -> Code {
    Code::ALL.iter().copied().find(|code| code.as_str() == text).unwrap_or(Code::ValueUnreadable)
}

/// All that is wrong with a request.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Refusal(pub Vec<Wrong>);

impl Refusal {
    /// One thing wrong.
    pub fn one(wrong: Wrong) -> Self {
        Self(vec![wrong])
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
    fn codes_are_unique_and_explained() {
        let mut seen = std::collections::HashSet::new();
        for code in Code::ALL {
            assert!(seen.insert(code.as_str()));
            assert!(code.about().ends_with('.'), "{}", code.as_str());
            assert_eq!(code_named(code.as_str()), *code);
        }
    }
}
