//! `POST /v1/recheck`: old answers in; for each, whether it would be the same today, and what made the
//! difference.

use super::json_items::Answer;
use super::problem::Problem;
use crate::asking::recheck;
use crate::fields::Fields;
use crate::json::Json;
use crate::quantity::shown;
use crate::refusal::{Code, Refusal, Wrong};
use serde_json::Value;
use std::sync::Arc;

/// How answers are rechecked. An old answer says itself how it was asked, so the query says nothing.
pub fn answering(query: Fields<'static>) -> Result<Answer, Refusal> {
    query.check_count()?;
    let wrong = |name: &str| {
        let says = format!("A recheck takes no {}: it asks again exactly what was asked.", shown(name));
        Wrong::new(name, Code::FieldUnknown, says, "leave out")
    };
    let wrongs: Vec<Wrong> = query.0.iter().map(|(name, _)| wrong(name)).collect();
    if wrongs.is_empty() { Ok(Arc::new(answer)) } else { Err(Refusal::of_many(wrongs)) }
}

/// Rechecks one answer, given by itself or as a batch gave it.
fn answer(item: Result<&str, &str>, json: &mut Json) {
    let mut id = None;
    let outcome = item.map_err(str::to_owned).and_then(|item| {
        serde_json::from_str::<Value>(item).map_err(|error| format!("This is not a JSON object: {error}."))
    });
    let outcome = match outcome {
        Ok(mut item) => {
            let of_batch = item.get("answer").is_some() || item.get("problem").is_some();
            id = item.get("id").filter(|id| of_batch && (id.is_string() || id.is_number())).cloned();
            let answer = if of_batch { item["answer"].take() } else { item };
            match answer {
                Value::Object(_) => recheck(&answer),
                Value::Null => Err(unreadable("There is no answer here to recheck.".into())),
                _ => Err(unreadable("An answer is a JSON object.".into())),
            }
        }
        Err(says) => Err(unreadable(says)),
    };
    json.object(|json| {
        if let Some(id) = id {
            json.name("id").serialized(&id);
        }
        match outcome {
            Ok(rechecked) => json.name("recheck").serialized(&rechecked),
            Err(refusal) => json.name("problem").serialized(&Problem::refused(refusal)),
        }
    });
}

fn unreadable(says: String) -> Refusal {
    let try_this = Some("an answer as it was given".to_owned());
    Refusal::one(Wrong { field: String::new(), code: Code::RequestUnreadable, says, try_this })
}
