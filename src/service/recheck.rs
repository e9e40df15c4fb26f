//! `POST /v1/recheck`: old answers in; for each, whether it would be the same today, and what made the
//! difference.

use super::problem::Problem;
use crate::asking::recheck;
use crate::refusal::{Code, Refusal, Wrong};
use serde_json::{Map, Value, json};

/// Rechecks one answer, given by itself or as a batch gave it.
pub fn answer(item: Result<&str, &str>) -> Vec<u8> {
    let mut out = Map::new();
    let outcome = item.map_err(str::to_owned).and_then(|item| {
        serde_json::from_str::<Value>(item).map_err(|error| format!("This is not a JSON object: {error}."))
    });
    let outcome = match outcome {
        Ok(mut item) => {
            let of_batch = item.get("answer").is_some() || item.get("problem").is_some();
            if let Some(id) = item.get("id").filter(|id| of_batch && (id.is_string() || id.is_number())) {
                out.insert("id".into(), id.clone());
            }
            let answer = if of_batch { item["answer"].take() } else { item };
            match answer {
                Value::Object(_) => recheck(&answer),
                Value::Null => Err(unreadable("Here is no answer to recheck.".into())),
                _ => Err(unreadable("An answer is a JSON object.".into())),
            }
        }
        Err(says) => Err(unreadable(says)),
    };
    let (name, value) = match outcome {
        Ok(rechecked) => ("recheck", serde_json::to_value(rechecked).unwrap_or_default()),
        Err(refusal) => ("problem", json!(Problem::refused(refusal))),
    };
    out.insert(name.into(), value);
    serde_json::to_vec(&out).unwrap_or_default()
}

fn unreadable(says: String) -> Refusal {
    let try_this = Some("an answer as it was given".to_owned());
    Refusal::one(Wrong { field: String::new(), code: Code::RequestUnreadable, says, try_this })
}
