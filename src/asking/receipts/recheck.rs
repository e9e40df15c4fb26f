//! An old answer asked again: whether it would be the same today, and if not, which version, data or
//! shop made the difference. The answer itself says all that is needed; nothing is remembered.

use super::difference_cause::{DifferenceCause, difference_causes};
use super::given_by::GivenBy;
use crate::asking::describing::Form;
use crate::asking::solving::{ask, link};
use crate::calculators::{Entry, find};
use crate::fields::Fields;
use crate::json::ToJson;
use crate::quantity::shown;
use crate::refusal::{Code, Refusal, Wrong};
use serde::{Deserialize, Serialize};
use serde_json::{Map, Value};

/// Most differences that are listed one by one.
const MOST_DIFFERENCES: usize = 100;

/// Members of an answer that are compared; the rest are words about them.
const COMPARED: [&str; 10] =
    ["inputs", "assumed", "result", "rows", "difference", "roots", "correction", "notes", "cautions", "trust"];

/// What has become of an answer.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Verdict {
    /// It would be the same.
    Same,
    /// It would be another.
    Differs,
    /// The same request would be refused.
    Refused,
}

/// One place at which the answers differ.
#[derive(Debug, Serialize)]
pub struct Difference {
    /// The place in the answer, a JSON Pointer.
    pub at: String,
    /// What stood there; absent if nothing did.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub was: Option<Value>,
    /// What stands there today; absent if nothing does.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub now: Option<Value>,
}

/// An answer held against today's.
#[derive(Debug, Serialize)]
pub struct Rechecked {
    /// The calculator.
    pub calculator: &'static str,
    /// What has become of it.
    pub verdict: Verdict,
    /// What it was given by.
    pub was: GivenBy,
    /// What answers today.
    pub now: GivenBy,
    /// How many places differ.
    pub count: usize,
    /// The places, the first of them if they are many.
    pub differences: Vec<Difference>,
    /// What made the difference, as far as the answer tells.
    pub because: Vec<DifferenceCause>,
    /// Why it would be refused.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub errors: Vec<Wrong>,
    /// The address that gives today's answer.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub link: Option<String>,
}

/// Rechecks `old`, an answer as it was given.
pub fn recheck(old: &Value) -> Result<Rechecked, Refusal> {
    let refuse =
        |field: &str, code, says: String, try_this: &str| Err(Refusal::one(Wrong::new(field, code, says, try_this)));
    let Some(id) = old["calculator"].as_str() else {
        return refuse(
            "calculator",
            Code::FieldMissing,
            "This is not an answer of this service: it names no calculator.".into(),
            "leave out",
        );
    };
    let Some(entry) = find(id) else {
        let says = format!("There is no calculator {} today.", shown(id));
        return refuse("calculator", Code::NotFound, says, "leave out");
    };
    let fields = match request(entry, old) {
        Ok(fields) => fields,
        Err(wrong) => return Err(Refusal::one(wrong)),
    };
    let link = link(entry, &fields);
    let (was, now) = (GivenBy::of(old), GivenBy::today());
    let whole = |verdict, errors| Rechecked {
        calculator: entry.id,
        verdict,
        was: was.clone(),
        now: now.clone(),
        count: 0,
        differences: Vec::new(),
        because: Vec::new(),
        errors,
        link: link.clone(),
    };
    let answered = ask(entry, fields, Form::Json);
    let new = match &answered {
        Ok((answer, _)) => answer.value(),
        // Nothing is known yet of whether it would be refused.
        Err(refusal) if refusal.is_of_time() => return Err(refusal.clone()),
        Err(refusal) => {
            let mut rechecked = whole(Verdict::Refused, refusal.0.clone());
            rechecked.because = difference_causes(old, &Value::Null, &was, &now);
            return Ok(rechecked);
        }
    };
    let mut differences = Differences::default();
    for member in COMPARED {
        let (was, now) = (compared(old.get(member), member), compared(new.get(member), member));
        differences.compare(&format!("/{member}"), was.as_ref(), now.as_ref());
    }
    if differences.count == 0 {
        return Ok(whole(Verdict::Same, Vec::new()));
    }
    let mut rechecked = whole(Verdict::Differs, Vec::new());
    rechecked.count = differences.count;
    rechecked.differences = differences.list;
    rechecked.because = difference_causes(old, &new, &was, &now);
    Ok(rechecked)
}

/// What an old answer asks: by its link, or by its inputs where it has none.
fn request(entry: &Entry, old: &Value) -> Result<Fields<'static>, Wrong> {
    let mut fields = match old.get("link") {
        Some(Value::String(link)) => {
            let (path, query) = link.split_once('?').unwrap_or((link, ""));
            let own = format!("/v1/{}", entry.id);
            let read = Fields::of_query(query).filter(|_| path == own);
            read.map(|fields| fields.owned()).ok_or_else(|| {
                let says = format!("\"{}\" is not a link to {}.", shown(link), entry.id);
                Wrong::new("link", Code::ValueUnreadable, says, format!("{own}?…"))
            })?
        }
        Some(other) => {
            let says = format!("A link is text, not {}.", shown(&other.to_string()));
            return Err(Wrong::new("link", Code::ValueUnreadable, says, format!("/v1/{}?…", entry.id)));
        }
        None => of_inputs(old)?,
    };
    // The steps are held against each other where the old answer has some.
    fields.0.retain(|(name, _)| name != "working");
    if old["working"].as_array().is_none_or(Vec::is_empty) {
        fields.0.push(("working".into(), crate::fields::Given::Truth(false)));
    }
    Ok(fields)
}

/// The inputs of an answer without a link, in the system it is written in.
fn of_inputs(old: &Value) -> Result<Fields<'static>, Wrong> {
    let unasked = |says: &str| Wrong::new("link", Code::FieldMissing, says, "the link as the answer had it");
    if !old["result"].is_object() || old["correction"].is_object() {
        return Err(unasked("An answer with several results can be asked again only by its link."));
    }
    let mut fields = Fields::deserialize(&old["inputs"])
        .map(|fields| fields.owned())
        .map_err(|_| unasked("The answer has neither a link nor inputs, so it cannot be asked again."))?;
    let assumed = |name: &str| {
        let mut all = old["assumed"].as_array().into_iter().flatten();
        all.find(|assumed| assumed["field"] == name)
    };
    if assumed("units").is_none()
        && let Some(system) = system_of(&old["result"])
    {
        fields.0.push(("units".into(), crate::fields::Given::Text(system.into())));
    }
    // What a machine stood in for was no input.
    if let Some(Value::String(_)) = old["shop"].get("hash") {
        fields.0.retain(|(name, _)| assumed(name).is_none());
    }
    Ok(fields)
}

/// The system of the first length in a result.
fn system_of(result: &Value) -> Option<&'static str> {
    match result {
        Value::Object(map) => match map.get("unit").and_then(Value::as_str).filter(|_| map.contains_key("value")) {
            Some(unit) => crate::quantity::Unit::named(unit)?.system().map(|system| system.as_str()),
            None => map.values().find_map(system_of),
        },
        Value::Array(list) => list.iter().find_map(system_of),
        _ => None,
    }
}

/// A member as it is compared: remarks by their codes alone, and nothing of words and rounded texts.
fn compared(value: Option<&Value>, member: &str) -> Option<Value> {
    let value = value?;
    if member == "notes" || member == "cautions" {
        let codes = value.as_array().into_iter().flatten().map(|remark| remark["code"].clone());
        return Some(codes.collect());
    }
    Some(without_words(value))
}

fn without_words(value: &Value) -> Value {
    match value {
        Value::Object(map) => {
            let kept = map.iter().filter(|(name, _)| !matches!(name.as_str(), "text" | "says"));
            Value::Object(kept.map(|(name, value)| (name.clone(), without_words(value))).collect::<Map<_, _>>())
        }
        Value::Array(list) => list.iter().map(without_words).collect(),
        other => other.clone(),
    }
}

#[derive(Default)]
struct Differences {
    count: usize,
    list: Vec<Difference>,
}

impl Differences {
    fn compare(&mut self, at: &str, was: Option<&Value>, now: Option<&Value>) {
        match (was, now) {
            (Some(Value::Object(was)), Some(Value::Object(now))) => {
                let names = was.keys().chain(now.keys().filter(|name| !was.contains_key(*name)));
                for name in names {
                    let part = name.replace('~', "~0").replace('/', "~1");
                    self.compare(&format!("{at}/{part}"), was.get(name), now.get(name));
                }
            }
            (Some(Value::Array(was)), Some(Value::Array(now))) => {
                for number in 0..was.len().max(now.len()) {
                    self.compare(&format!("{at}/{number}"), was.get(number), now.get(number));
                }
            }
            // 5 and 5.0 are one number.
            (Some(Value::Number(was)), Some(Value::Number(now))) if was.as_f64() == now.as_f64() => {}
            (was, now) if was == now => {}
            (was, now) => {
                self.count += 1;
                if self.list.len() < MOST_DIFFERENCES {
                    self.list.push(Difference { at: at.to_owned(), was: was.cloned(), now: now.cloned() });
                }
            }
        }
    }
}
