//! What the description says of the service as a whole, and of its topics.

use super::service_addresses::TAG;
use crate::asking::described;
use serde_json::{Value, json};

const ABOUT: &str = "The arithmetic of a machine shop: drills, patterns, arcs, threads, speeds. Every answer carries its \
    inputs as understood, what was assumed, the working, sources and cautions. Answers are starting points, not settings: \
    the tool maker's data, the machine's manual and qualified people come first.\n\nWrite a quantity as text with its \
    unit, such as `0.5 in`, `1-1/2 in`, `12.7mm`, `12°30'` or `2.000 ±0.001 in`; in JSON it may also be an object. The \
    parameter of a field describes it in full, its JSON property in short. For a table of answers give several values, \
    separated by `|`, or a range such as `1/4 in..1 in step 1/16 in`: the answer then has `rows` in place of `result`. \
    The service reads several words in one field too; the schemas list single words, so that clients get them as a type. \
    In a query, separate the items of a list by commas.\n\nAn answer has one of `result`, `rows` and `roots` (with \
    `solve_for`), and `correction` beside `result` (with `correct`). For another form add `.txt`, `.csv` or `.svg` to the \
    address; these are described once for each topic.\n\nA refusal is a problem document (RFC 9457). It names every \
    wrong field, says what is wrong, and shows a value to try: 400 if the request cannot be read, 422 if it can but is \
    wrong. After 429 or 503 send the same request again in as many seconds as Retry-After says. Answers carry an ETag; \
    If-None-Match gives 304. There are no accounts and no keys.\n\nUnder `/v1`, addresses, fields and their meanings \
    are only added to, so a client should ignore what it does not know. What will be removed is first marked `deprecated` \
    here, stays for six months, and is answered with a `Deprecation` header. Nothing is deprecated today \
    (`/guide/versions`).\n\nThis description is also served by topic: `/openapi`.";

/// The part of the description before its addresses.
pub fn info() -> Value {
    json!({
        "title": "Shop Reckoner",
        "version": crate::VERSION,
        "summary": "The arithmetic of a machine shop",
        "description": ABOUT,
        // Whoever runs a service of it is to be asked first; no address holds for all of them.
        "contact": {"name": "Whoever runs this service"},
        "license": {"name": "MIT OR Apache-2.0", "identifier": "MIT OR Apache-2.0"},
    })
}

/// What is said of a tag: the titles of the topic's calculators.
pub fn tag(name: &str) -> String {
    if name == TAG {
        return "The service itself: its calculators, tables, practice, many requests in one, description and health."
            .to_owned();
    }
    let of_topic = described().iter().filter(|described| described.entry.address().0 == name);
    let titles: Vec<&str> = of_topic.map(|described| described.entry.title).collect();
    format!("{}.", titles.join(", "))
}
