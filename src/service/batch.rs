//! `POST /v1/batch`: many requests to any calculators in one, each answered or refused in its place.

use super::json_items;
use super::metrics;
use super::problem::Problem;
use super::shared_refusals::unknown_calculator_problem;
use crate::asking::{Answer, Form, RESERVED, ask};
use crate::budget::{ONE_OF_MANY, begin_next};
use crate::calculators::find;
use crate::fields::{Fields, Given, nearest};
use crate::json::Json;
use crate::quantity::shown;
use crate::refusal::{Code, Refusal, Wrong};
use std::borrow::Cow;
use std::sync::Arc;

/// What an item has of its own.
const OWN: [&str; 3] = ["id", "calculator", "inputs"];

/// An item's own name, given back with its answer.
enum Id {
    Text(String),
    Number(i64),
}

/// The greatest whole number that every reader of JSON keeps.
const GREATEST: f64 = 9_007_199_254_740_991.0;

impl Id {
    fn write(id: Option<Self>, json: &mut Json) {
        match id {
            Some(Self::Text(text)) => json.member("id", &text),
            Some(Self::Number(number)) => json.member("id", &number),
            None => {}
        }
    }
}

/// How items are answered where the query states reserved fields, which hold for every item that does not state its
/// own.
pub fn answering(query: Fields<'static>) -> Result<json_items::Answer, Refusal> {
    query.check_count()?;
    let names = Form::Json.names();
    let mut wrongs = Vec::new();
    for (at, (name, _)) in query.0.iter().enumerate() {
        if !names.contains(&name.as_ref()) {
            let says = format!(
                "A batch takes no {} in its address; it takes {}, for every item.",
                shown(name),
                names.join(", ")
            );
            let near = nearest(name, names.iter().copied()).unwrap_or("leave out");
            wrongs.push(Wrong::new(name, Code::FieldUnknown, says, near));
        } else if query.0[..at].iter().any(|(before, _)| before == name) {
            wrongs.push(repeated(name));
        }
    }
    if wrongs.is_empty() {
        Ok(Arc::new(move |item, json| answer(item, &query, json)))
    } else {
        Err(Refusal::of_many(wrongs))
    }
}

fn repeated(name: &str) -> Wrong {
    Wrong::new(name, Code::FieldRepeated, format!("{} is given more than once.", shown(name)), "leave out")
}

/// Answers one item, or says why not.
fn answer(item: Result<&str, &str>, query: &Fields<'static>, json: &mut Json) {
    json.object(|json| match answered(item, query) {
        Ok((id, answer)) => {
            Id::write(id, json);
            json.member("answer", &answer);
        }
        Err((id, problem)) => {
            Id::write(id, json);
            json.name("problem").serialized(&problem);
        }
    });
}

fn answered(item: Result<&str, &str>, query: &Fields<'static>) -> Result<(Option<Id>, Answer), (Option<Id>, Problem)> {
    let unreadable = |says: String| {
        let try_this = r#"{"calculator": "holes/drill-point", "inputs": {"diameter": "0.5 in"}}"#;
        let problem = Problem::refused(Refusal::one(Wrong {
            field: String::new(),
            code: Code::RequestUnreadable,
            says,
            try_this: Some(try_this.into()),
        }));
        (None, problem)
    };
    let item = item.map_err(|says| unreadable(says.to_owned()))?;
    let fields: Fields = serde_json::from_str(item)
        .map_err(|error| unreadable(format!("This is not a JSON object of a calculator and inputs: {error}.")))?;
    let mut item = Item::of(fields, query)?;
    let calculator = item.calculator.trim();
    let Some(entry) = find(calculator) else { return Err((item.id, unknown_calculator_problem(calculator))) };
    let begun = begin_next(ONE_OF_MANY);
    let answered = ask(entry, std::mem::take(&mut item.fields), Form::Json);
    metrics::asked(entry, Form::Json, answered.as_ref().err(), begun.elapsed());
    match answered {
        Ok((answer, _)) => Ok((item.id, answer)),
        Err(refusal) => Err((item.id.take(), Problem::refused(item.at_home(refusal)))),
    }
}

/// One item of a batch.
struct Item<'a> {
    id: Option<Id>,
    calculator: Cow<'a, str>,
    fields: Fields<'a>,
    /// The reserved fields that stand beside the inputs.
    beside: Vec<String>,
}

impl<'a> Item<'a> {
    fn of(mut members: Fields<'a>, query: &Fields<'a>) -> Result<Self, (Option<Id>, Problem)> {
        members.check_count().map_err(|refusal| (None, Problem::refused(refusal)))?;
        let mut wrongs = Vec::new();
        for (at, (name, _)) in members.0.iter().enumerate() {
            if members.0[..at].iter().any(|(before, _)| before == name) {
                wrongs.push(repeated(name));
            }
        }
        let mut wrong = |field: &str, code, says: &str, try_this: &str| {
            wrongs.push(Wrong::new(field, code, says, try_this));
        };
        let id = match members.take("id") {
            None => None,
            Some(Given::Text(text)) => Some(Id::Text(text.into_owned())),
            Some(Given::Number(number)) if number.fract() == 0.0 && number.abs() <= GREATEST => {
                Some(Id::Number(number as i64))
            }
            Some(other) => {
                let says = format!("Give the id as text or a whole number below 2^53, not {}.", other.said());
                wrong("id", Code::ValueUnreadable, &says, "A1");
                None
            }
        };
        let calculator = match members.take("calculator") {
            Some(Given::Text(text)) => text,
            Some(other) => {
                let says = format!("Name the calculator in words, not by {}.", other.said());
                wrong("calculator", Code::ValueUnreadable, &says, "holes/drill-point");
                Cow::default()
            }
            None => {
                let says = "Name the calculator by its topic and name.";
                wrong("calculator", Code::FieldMissing, says, "holes/drill-point");
                Cow::default()
            }
        };
        let mut fields = match members.take("inputs") {
            Some(Given::Object(fields)) => Fields(fields),
            Some(other) => {
                let says = format!("Give inputs as an object of fields, not {}.", other.said());
                wrong("inputs", Code::ValueUnreadable, &says, r#"{"diameter": "0.5 in"}"#);
                Fields::default()
            }
            None => {
                let says = "Give inputs, an object of the calculator's fields.";
                wrong("inputs", Code::FieldMissing, says, r#"{"diameter": "0.5 in"}"#);
                Fields::default()
            }
        };
        let mut beside = Vec::new();
        for (name, value) in members.0 {
            if RESERVED.contains(&name.as_ref()) {
                beside.push(name.to_string());
                fields.0.push((name, value));
            } else if !OWN.contains(&name.as_ref()) {
                let names = [&OWN[..], Form::Json.names()].concat();
                let says = format!("An item has no {}; it has {}.", shown(&name), names.join(", "));
                let near = nearest(&name, names.into_iter()).unwrap_or("leave out");
                wrong(&name, Code::FieldUnknown, &says, near);
            }
        }
        if !wrongs.is_empty() {
            return Err((id, Problem::refused(Refusal::of_many(wrongs))));
        }
        for (name, value) in &query.0 {
            if !fields.0.iter().any(|(own, _)| own == name) {
                beside.push(name.to_string());
                fields.0.push((name.clone(), value.clone()));
            }
        }
        Ok(Self { id, calculator, fields, beside })
    }

    /// A refusal whose pointers are into the item.
    fn at_home(&self, mut refusal: Refusal) -> Refusal {
        for wrong in &mut refusal.0 {
            let top = wrong.field.split('/').nth(1).unwrap_or_default();
            if !wrong.field.is_empty() && !self.beside.iter().any(|name| name == top) {
                wrong.field = format!("/inputs{}", wrong.field);
            }
        }
        refusal
    }
}
