//! What the description says of the service as a whole, and of its topics.

use super::service_addresses::TAG;
use crate::asking::described;
use serde_json::{Value, json};

const ABOUT: &str = "The arithmetic of a machine shop: drills, patterns, arcs, threads, speeds. Every answer carries its \
    inputs as understood, what was assumed, the working, sources and cautions. Starting points, not settings: the tool \
    maker's data, the machine's manual and qualified people come first.\n\nA quantity is a text with its unit, such as \
    `0.5 in`, `1-1/2 in`, `12.7mm`, `12°30'`, `2.000 ±0.001 in`; in JSON also an object. What a field of a JSON request is, its parameter says in full. Where several stand in place \
    of one, parted by `|`, or a range such as `1/4 in..1 in step 1/16 in`, the answer has `rows` in place of `result`; \
    so for counts and words, though words are held here to one of the list, so that clients know them. Lists are \
    parted by commas in a query.\n\nAnswers are of four kinds, told apart by what they have: `result`; `rows`; `roots` \
    (with `solve_for`); `correction` beside `result` (with `correct`). Other forms of an answer have its address with \
    `.txt`, `.csv` or `.svg` behind it, and are described once for each topic.\n\nA refusal is a problem document (RFC \
    9457) that names every wrong field, what is wrong with it, and a value to try: 400 where the request cannot be \
    read, 422 where it can and is wrong. After 429 and 503 the same request may be sent again, in as many seconds as \
    Retry-After says. Answers carry an ETag, and If-None-Match is heeded (304). There are no accounts and no keys.\n\n\
    Under `/v1`, addresses, fields and their meanings are only added to, so a client should pass over what it does not \
    know. What will be removed is first marked `deprecated` here, then stays for six months and is answered with a \
    `Deprecation` header; nothing is deprecated today (`/guide/versions`).\n\nThis description in parts, one for \
    each topic: `/openapi`.";

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
