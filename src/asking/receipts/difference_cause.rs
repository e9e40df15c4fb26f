//! What made an old answer differ from today's: another version, other rows of a source, another file
//! of the shop, or a hand.

use super::given_by::GivenBy;
use crate::quantity::shown;
use crate::reference::versions::from_source;
use serde::Serialize;
use serde_json::Value;

/// What made a difference.
#[derive(Debug, Serialize)]
pub struct DifferenceCause {
    /// What it is: `data`, `version`, `shop`, or `altered` where nothing of ours has changed.
    pub what: &'static str,
    /// In words.
    pub says: String,
    /// The source whose rows changed.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub source: Option<String>,
    /// The places in it that the answer rests on.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub places: Vec<String>,
    /// The tables in which rows from it stand.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub tables: Vec<&'static str>,
    /// The step of the working at which the answers part.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub step: Option<String>,
    /// What it was.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub was: Option<Value>,
    /// What it is today.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub now: Option<Value>,
}

impl DifferenceCause {
    fn new(what: &'static str, says: impl Into<String>) -> Self {
        let (source, step, was, now) = (None, None, None, None);
        Self { what, says: says.into(), source, places: Vec::new(), tables: Vec::new(), step, was, now }
    }
}

/// What made the difference.
pub fn difference_causes(old: &Value, new: &Value, was: &GivenBy, now: &GivenBy) -> Vec<DifferenceCause> {
    let mut found = Vec::new();
    let (version, data) = (was.version != now.version, was.data_version != now.data_version);
    if version {
        let says = format!("The service has changed from version {} to {}.", shown(&was.version), now.version);
        let (before, after) = (Some(was.version.clone().into()), Some(now.version.clone().into()));
        found.push(DifferenceCause { was: before, now: after, ..DifferenceCause::new("version", says) });
    }
    if was.shop != now.shop {
        let hash = |by: &GivenBy| by.shop.clone().map(Value::from);
        let says = "The shop's file has changed, or one of the two answers was made without a shop.";
        found.push(DifferenceCause { was: hash(was), now: hash(now), ..DifferenceCause::new("shop", says) });
    }
    if data {
        let by_source = changed_sources(old, new);
        if by_source.is_empty() && !version {
            let says = "The tables have changed, but no row that this answer rests on.";
            found.push(DifferenceCause::new("data", says));
        }
        found.extend(by_source);
    }
    found.extend(first_step_apart(old, new, data));
    if found.is_empty() {
        let says = "Neither the service nor its tables nor a shop's file has changed: the answer is not as it was \
                    given.";
        found.push(DifferenceCause::new("altered", says));
    }
    found
}

/// The sources whose rows are others than they were.
fn changed_sources(old: &Value, new: &Value) -> Vec<DifferenceCause> {
    let mut found: Vec<DifferenceCause> = Vec::new();
    let listed = |answer: &Value| answer["sources"].as_array().cloned().unwrap_or_default();
    let (old_sources, new_sources) = (listed(old), listed(new));
    for source in &old_sources {
        let key = source["key"].as_str().unwrap_or_default();
        let was = source["data_version"].as_str();
        let rows = from_source(key);
        let now = rows.map(|rows| rows.version.as_str());
        if key.is_empty() || was.is_none() || was == now {
            continue;
        }
        let place = source["where"].as_str().unwrap_or_default().to_owned();
        if let Some(known) = found.iter_mut().find(|known| known.source.as_deref() == Some(key)) {
            known.places.push(place);
            continue;
        }
        let tables = rows.map(|rows| rows.tables.clone()).unwrap_or_default();
        let says = match rows {
            Some(_) => format!("Rows from the source {} have changed, in {}.", shown(key), tables.join(", ")),
            None => format!("No table has rows from the source {} any more.", shown(key)),
        };
        let (was, now) = (was.map(Value::from), now.map(Value::from));
        let cause = DifferenceCause::new("data", says);
        found.push(DifferenceCause { source: Some(key.to_owned()), places: vec![place], tables, was, now, ..cause });
    }
    let is_listed = |list: &[Value], key: &Value| list.iter().any(|source| source["key"] == *key);
    for source in new_sources.iter().filter(|source| !is_listed(&old_sources, &source["key"])) {
        let key = source["key"].as_str().unwrap_or_default();
        let tables = from_source(key).map(|rows| rows.tables.clone()).unwrap_or_default();
        let says = format!("Today's answer also rests on the source {key}.");
        let places = source["where"].as_str().map(str::to_owned).into_iter().collect();
        found.push(DifferenceCause {
            source: Some(key.to_owned()),
            places,
            tables,
            ..DifferenceCause::new("data", says)
        });
    }
    found
}

/// The first step of the working that gives something else than it did: looked up in a table, it is the
/// row that changed; computed from the same values, it is the formula.
fn first_step_apart(old: &Value, new: &Value, data: bool) -> Option<DifferenceCause> {
    let (old_steps, new_steps) = (old["working"].as_array()?, new["working"].as_array()?);
    let (was, now) = old_steps.iter().zip(new_steps).find(|(was, now)| {
        let apart = |name: &str| was[name] != now[name];
        apart("gives") || apart("formula") || apart("by")
    })?;
    // From the same values a formula gives something else only if the service has changed.
    let by_values = was["by"] == "table" || (was["formula"] == now["formula"] && was["with"] != now["with"]);
    let what = match (by_values && data, old["version"] != new["version"]) {
        (true, _) => "data",
        (false, true) => "version",
        // Nothing of ours has changed that could have done it.
        (false, false) => return None,
    };
    let step = now["what"].as_str().unwrap_or_default();
    let says = if was["by"] == "table" {
        format!("The answers differ from this look-up on: {step}, {}.", now["formula"].as_str().unwrap_or_default())
    } else if was["formula"] != now["formula"] {
        format!("The answers differ because this formula has changed: {step}.")
    } else {
        format!("The answers differ from this step on: {step}.")
    };
    let gives = |step: &Value| Some(step["gives"].clone());
    let cause = DifferenceCause::new(what, says);
    Some(DifferenceCause { step: Some(step.to_owned()), was: gives(was), now: gives(now), ..cause })
}
