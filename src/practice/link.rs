//! What a question is made of where it is made of an answer: the link or the query that asked for it.

use crate::asking::{RESERVED, describe_entry};
use crate::calculators::{Entry, find};
use crate::fields::{Fields, Given, nearest};
use crate::quantity::shown;
use crate::refusal::{Code, Refusal, Wrong};

/// The reserved fields that a question keeps; the others say how an answer is written.
const KEPT: &[&str] = &["units", "machine", "resolution"];

/// Reserved fields that ask for something else than one calculation.
const OTHERWISE: &[&str] = &["solve_for", "wanted", "measured", "correct"];

/// A link taken apart.
#[derive(Clone, Debug)]
pub struct Link {
    /// The calculator that the address names, if there is an address before the query.
    pub entry: Option<&'static Entry>,
    /// The fields.
    pub fields: Vec<(String, String)>,
}

fn refuse(code: Code, says: impl Into<String>) -> Refusal {
    Refusal::one(Wrong::new("from", code, says, GOOD))
}

const GOOD: &str = "/v1/holes/drill-point?diameter=1/2 in&full_depth=3/4 in";

impl Link {
    /// Reads `/v1/topic/calculator?field=value&…` or the part behind its question mark.
    pub fn read(text: &str) -> Result<Self, Refusal> {
        let text = text.trim();
        let (address, query) = match text.split_once('?') {
            Some((address, query)) => (Some(address), query),
            None if text.starts_with(['/', 'h']) && !text.contains('=') => (Some(text), ""),
            None => (None, text),
        };
        let entry = address.filter(|address| !address.is_empty()).map(named).transpose()?;
        let query = query.split('#').next().unwrap_or_default();
        let Some(Fields(given)) = Fields::of_query(query) else {
            return Err(refuse(Code::ValueUnreadable, "The link is not well percent-encoded UTF-8."));
        };
        let mut fields: Vec<(String, String)> = Vec::new();
        for (name, value) in given {
            let Given::Text(value) = value else { continue };
            if OTHERWISE.contains(&name.as_ref()) {
                let says = format!("A question asks for the result of its inputs; {name} asks the other way round.");
                return Err(refuse(Code::NotOffered, says));
            }
            // A page's form sends its empty fields too.
            let meant =
                !value.trim().is_empty() && (!RESERVED.contains(&name.as_ref()) || KEPT.contains(&name.as_ref()));
            if meant {
                fields.push((name.into_owned(), value.into_owned()));
            }
        }
        Ok(Self { entry, fields })
    }
}

/// The calculator that an address names.
fn named(address: &str) -> Result<&'static Entry, Refusal> {
    let mut parts = address.trim_end_matches('/').rsplit('/');
    let (name, topic) = (parts.next().unwrap_or_default(), parts.next().unwrap_or_default());
    let name = [".txt", ".csv", ".svg"].iter().find_map(|form| name.strip_suffix(form)).unwrap_or(name);
    let id = format!("{topic}/{name}");
    find(&id).ok_or_else(|| {
        let ids = crate::calculators::REGISTER.iter().map(|entry| entry.id);
        let near = nearest(&id, ids).unwrap_or("holes/drill-point");
        let says = format!("The link is to \"{}\", which is no calculator.", shown(&id));
        Refusal::one(Wrong::new("from", Code::NotFound, says, format!("/v1/{near}?…")))
    })
}

/// Refuses fields that hold more than one value.
pub fn check_single(entry: &'static Entry, fields: &[(String, String)]) -> Result<(), Refusal> {
    let lists = describe_entry(entry).map(|described| described.fields.as_slice()).unwrap_or_default();
    let several = fields.iter().find(|(name, value)| {
        let is_single = lists.iter().any(|field| field.name == *name && (field.is_quantity() || field.form != "words"));
        is_single && (value.contains('|') || value.contains("..")) && !value.trim_start().starts_with(['[', '{'])
    });
    match several {
        Some((name, _)) => Err(refuse(
            Code::NotOffered,
            format!("{name} holds several values; a question has one value in each field."),
        )),
        None => Ok(()),
    }
}
