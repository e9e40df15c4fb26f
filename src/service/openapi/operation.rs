//! One operation of the description: put together from its words, its parameters, its body and what it
//! answers.

use super::parts::reference;
use super::refusals::{self, responses};
use serde_json::{Map, Value, json};

/// An operation.
pub struct Operation(Map<String, Value>);

impl Operation {
    /// An operation under `tag`, with its words.
    pub fn new(tag: &str, id: &str, summary: &str, about: &str) -> Self {
        let words = [("operationId", id), ("summary", summary), ("description", about)];
        let words = words.into_iter().map(|(name, text)| (name.to_owned(), json!(text)));
        Self(std::iter::once(("tags".to_owned(), json!([tag]))).chain(words).collect())
    }

    /// With these parameters.
    pub fn parameters(mut self, parameters: Vec<Value>) -> Self {
        if !parameters.is_empty() {
            self.0.insert("parameters".to_owned(), parameters.into());
        }
        self
    }

    /// With a body that must be sent, by media type; what it is, its schema says.
    pub fn body(mut self, content: Value) -> Self {
        self.0.insert("requestBody".to_owned(), json!({"required": true, "content": content}));
        self
    }

    /// Answered with `ok`, or with what any operation and these sets can give.
    pub fn answers(mut self, ok: Value, sets: &[&[&str]]) -> Value {
        let mut all = Map::from_iter([("200".to_owned(), ok)]);
        all.extend(responses(&[sets, &[refusals::ANY]].concat()));
        self.0.insert("responses".to_owned(), all.into());
        self.0.into()
    }

    /// The same for what is read by GET, whose answers have a tag that If-None-Match may name.
    pub fn reads(mut self, ok: Value, sets: &[&[&str]]) -> Value {
        if let Value::Array(parameters) = self.0.entry("parameters").or_insert_with(|| json!([])) {
            parameters.push(reference("parameters", "If-None-Match"));
        }
        self.answers(tagged(ok), &[sets, &[refusals::READ]].concat())
    }
}

/// A response with the tag of its bytes; one that is referred to has it where it stands.
pub fn tagged(mut response: Value) -> Value {
    if response.get("$ref").is_none() {
        response["headers"] = json!({"ETag": reference("headers", "ETag")});
    }
    response
}

/// The parameter that names what the caller has.
pub fn if_none_match() -> Value {
    let about = "The ETag of an answer that the caller has: where it is still the same, it is not sent again (304).";
    // Any text is heeded, so none is unsound.
    json!({"name": "If-None-Match", "in": "header", "description": about, "schema": {"type": "string"}})
}
