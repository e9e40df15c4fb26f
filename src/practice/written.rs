//! Questions and marked answers as JSON.

use super::question::Question;
use super::request::Checked;
use crate::asking::Sources;
use crate::quantity::{Quantity, text};
use crate::working::StepIn;
use serde::ser::{Serialize, SerializeMap, Serializer};
use serde_json::json;

impl Question {
    /// The fields that make the same question again, beside the answer.
    pub fn recipe_fields(&self) -> Vec<(&'static str, String)> {
        let recipe = &self.recipe;
        let mut fields = vec![("calculator", recipe.entry.id.to_owned()), ("seed", recipe.seed.to_string())];
        if let Some(from) = &recipe.from {
            fields.push(("from", from.clone()));
            if recipe.vary {
                fields.push(("vary", "true".to_owned()));
            }
        }
        if let Some(machine) = &recipe.machine {
            fields.push(("machine", machine.clone()));
        }
        fields
    }

    fn write<M: SerializeMap>(&self, map: &mut M) -> Result<(), M::Error> {
        let recipe = &self.recipe;
        map.serialize_entry("calculator", recipe.entry.id)?;
        map.serialize_entry("seed", &recipe.seed)?;
        if let Some(from) = &recipe.from {
            map.serialize_entry("from", from)?;
            map.serialize_entry("vary", &recipe.vary)?;
        }
        if let Some(machine) = &recipe.machine {
            map.serialize_entry("machine", machine)?;
        }
        map.serialize_entry("text", &self.text)?;
        map.serialize_entry("asks_for", &self.wanted.path)?;
        map.serialize_entry("unit", self.wanted.quantity.unit.spelling())?;
        let inputs: serde_json::Map<String, serde_json::Value> =
            self.fields.iter().map(|(name, value)| (name.clone(), json!(value))).collect();
        map.serialize_entry("inputs", &inputs)
    }
}

impl Serialize for Question {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(None)?;
        self.write(&mut map)?;
        map.end()
    }
}

/// A quantity as an answer repeats it.
pub fn stated(quantity: &Quantity) -> serde_json::Value {
    json!({"value": text::tidy(quantity.value), "unit": quantity.unit.spelling(), "text": quantity.text()})
}

impl Serialize for Checked {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let Self { question, marked } = self;
        let record = &question.answer.record;
        let expected = question.wanted.quantity;
        let mut map = serializer.serialize_map(None)?;
        question.write(&mut map)?;
        let answered = &marked.answered;
        let said = format!("{}{}", text::full(answered.value), answered.unit.row().suffix);
        map.serialize_entry(
            "answered",
            &json!({"value": answered.value, "unit": answered.unit.spelling(), "text": said}),
        )?;
        map.serialize_entry("right", &marked.right)?;
        if let Some(slip) = &marked.slip {
            map.serialize_entry("slip", &json!({"code": slip.code, "says": slip.says}))?;
        }
        map.serialize_entry("expected", &stated(&expected))?;
        map.serialize_entry("allowed", &allowed_words(marked.allowed, &expected))?;
        let steps: Vec<StepIn> = record.steps.iter().map(|step| StepIn(step, question.answer.system)).collect();
        map.serialize_entry("working", &steps)?;
        map.serialize_entry("notes", &record.notes)?;
        map.serialize_entry("cautions", &record.cautions)?;
        map.serialize_entry("sources", &Sources(&record.sources))?;
        map.serialize_entry("trust", record.trust().as_str())?;
        map.end()
    }
}

/// How far an answer may be off, as a quantity.
pub fn allowed_words(allowed: f64, expected: &Quantity) -> serde_json::Value {
    let value = text::rough(allowed);
    let said = format!("±{}{}", text::full(value), expected.unit.row().suffix);
    json!({"value": value, "unit": expected.unit.spelling(), "text": said})
}
