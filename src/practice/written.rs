//! Questions, marked answers and the course as JSON.

use super::course::TOPICS;
use super::marking::accepted;
use super::question::{Question, levels};
use super::request::Checked;
use super::wanted::Amount;
use crate::asking::Sources;
use crate::json::ToJson;
use crate::quantity::text;
use crate::working::StepIn;
use serde::ser::{Serialize, SerializeMap, Serializer};
use serde_json::{Value, json};

impl Question {
    /// The fields that make the same question again, beside the answer.
    pub fn recipe_fields(&self) -> Vec<(&'static str, String)> {
        let recipe = &self.recipe;
        let mut fields = vec![("calculator", recipe.entry.id.to_owned()), ("seed", recipe.seed.to_string())];
        fields.extend(recipe.level.map(|level| ("level", level.to_string())));
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
        if let Some(level) = recipe.level {
            map.serialize_entry("level", &level)?;
        }
        if let Some(from) = &recipe.from {
            map.serialize_entry("from", from)?;
            map.serialize_entry("vary", &recipe.vary)?;
        }
        if let Some(machine) = &recipe.machine {
            map.serialize_entry("machine", machine)?;
        }
        map.serialize_entry("text", &self.text)?;
        map.serialize_entry("asks_for", &self.wanted.path)?;
        map.serialize_entry("unit", self.wanted.amount.spelling())?;
        map.serialize_entry("right_within", &self.closeness().words(&self.wanted.amount))?;
        let inputs: serde_json::Map<String, Value> =
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

fn stated(amount: &Amount) -> Value {
    json!({"value": amount.value(), "unit": amount.spelling(), "text": amount.text()})
}

impl Serialize for Checked {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let Self { question, marked } = self;
        let record = &question.answer.record;
        let expected = question.wanted.amount;
        let mut map = serializer.serialize_map(None)?;
        question.write(&mut map)?;
        let answered = &marked.answered;
        let unit = answered.unit.map_or("", |unit| unit.spelling());
        map.serialize_entry("answered", &json!({"value": answered.value, "unit": unit, "text": answered.said}))?;
        map.serialize_entry("right", &marked.right)?;
        for (name, slip) in ["slip", "second_slip"].into_iter().zip(&marked.slips) {
            map.serialize_entry(name, &json!({"code": slip.code, "says": slip.says}))?;
        }
        map.serialize_entry("expected", &stated(&expected))?;
        map.serialize_entry("allowed", &allowed_words(question))?;
        map.serialize_entry("accepted", &accepted(&expected, question.room()))?;
        let steps = record.steps.iter().map(|step| StepIn(step, question.answer.system).value());
        map.serialize_entry("working", &steps.collect::<Vec<_>>())?;
        map.serialize_entry("notes", &record.notes.value())?;
        map.serialize_entry("cautions", &record.cautions.value())?;
        map.serialize_entry("sources", &Sources(&record.sources).value())?;
        map.serialize_entry("trust", record.trust().as_str())?;
        map.end()
    }
}

/// How far an answer may be off, as a quantity.
pub fn allowed_words(question: &Question) -> Value {
    let amount = question.wanted.amount;
    let room = question.room();
    let value = text::rough(amount.quantity().map_or(room, |quantity| room / quantity.unit.row().factor));
    let said = format!("±{}{}", text::full(value), amount.suffix());
    json!({"value": value, "unit": amount.spelling(), "text": said})
}

/// The course.
pub fn course() -> Value {
    let topics = TOPICS.iter().map(|topic| {
        let calculators =
            topic.entries().map(|entry| json!({"calculator": entry.id, "title": entry.title, "levels": levels(entry)}));
        json!({
            "topic": topic.word,
            "title": topic.title,
            "about": topic.about,
            "calculators": calculators.collect::<Vec<_>>(),
            "why": {"question": topic.why, "answer": topic.because},
        })
    });
    json!({"version": crate::VERSION, "data_version": crate::data_version(), "topics": topics.collect::<Vec<_>>()})
}
