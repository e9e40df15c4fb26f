//! The responses that many operations share, each said once: what is unchanged, and every refusal with its
//! status. Which operations can give which is said by the sets below, and nowhere else.

use super::parts::reference;
use crate::service::problem::MEDIA_TYPE;
use serde_json::{Map, Value, json};

/// Status, or a range of them, with its name, and when it is given.
type Shared = (&'static str, &'static str, &'static str);

const SHARED: &[Shared] = &[
    ("304", "Unchanged", "The answer is still the one whose ETag stands in If-None-Match. It is not sent again."),
    ("404", "NotThere", "There is nothing of that name. The nearest names are given."),
    ("422", "WrongFields", "The request can be read and is wrong: every wrong field, with a value to try."),
    ("429", "TooMany", "Too many requests from here at once: ask again later."),
    (
        "503",
        "Busy",
        "No answer now: the work takes longer than a request may (too_much_work), there is no place for it at the \
         moment (busy: ask again later), or the service is stopping.",
    ),
    (
        "4XX",
        "NotTaken",
        "The request is not taken as it is sent: it cannot be read (400: broken JSON, percent-encoding or UTF-8), it \
         took too long (408), its body is too large (413; tables and lines \
         of JSON have no limit but for each row or line), its address is too long (414: send the fields as JSON by \
         POST), its body is of a media type or in a Content-Encoding that is not read here (415), or its headers are \
         too large (431).",
    ),
];

/// The statuses after which the same request may be sent again, at a time that the answer says.
const AGAIN_LATER: &[&str] = &["429", "503"];

/// What any operation can give.
pub const ANY: &[&str] = &["429", "503", "4XX"];
/// What is read by GET can give this too.
pub const READ: &[&str] = &["304"];
/// What reads fields can give these too.
pub const READS_FIELDS: &[&str] = &["422"];
/// What is named in the address can be missing.
pub const NAMED: &[&str] = &["404"];

/// The responses of an operation beside its answer, by status.
pub fn responses(sets: &[&[&str]]) -> Map<String, Value> {
    let is_given = |(status, ..): &&Shared| sets.iter().any(|set| set.contains(status));
    let one = |(status, name, _): &Shared| ((*status).to_owned(), reference("responses", name));
    SHARED.iter().filter(is_given).map(one).collect()
}

/// The responses themselves, for the components.
pub fn shared() -> Value {
    let one = |(status, name, about): &Shared| {
        let mut response = json!({ "description": about });
        if AGAIN_LATER.contains(status) {
            response["headers"] = json!({"Retry-After": reference("headers", "Retry-After")});
        }
        if status.starts_with('3') {
            response["headers"] = json!({"ETag": reference("headers", "ETag")});
        } else {
            response["content"] = json!({MEDIA_TYPE: {"schema": reference("schemas", "Problem")}});
        }
        ((*name).to_owned(), response)
    };
    SHARED.iter().map(one).collect::<Map<_, _>>().into()
}

/// The headers of responses.
pub fn headers() -> Value {
    json!({
        "ETag": {
            "description": "The tag of the answer: sent back in If-None-Match it saves sending the same again.",
            "schema": {"type": "string"} },
        "Retry-After": {
            "description": "In how many seconds to ask again.", "schema": {"type": "integer", "minimum": 0} },
    })
}
