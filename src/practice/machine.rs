//! The shop's machine that a question is asked on: it stands in for those fields of the question that it has.

use super::sentence::{LONGEST, said};
use crate::calculators::Entry;
use crate::declared::{in_sentence, label_of};
use crate::quantity::read;
use crate::refusal::Refusal;
use crate::shop::{self, MACHINE_FIELDS, Machine};

/// Fields of a machine that every request may carry: they make no question one of that machine.
const OF_REQUEST: [&str; 2] = ["resolution", "z_plus"];

/// A question on a machine.
pub struct On {
    /// The machine.
    pub machine: &'static Machine,
    /// The fields with the machine in place of what it has.
    pub fields: Vec<(String, String)>,
}

impl On {
    /// The sentence, and the machine behind it with what it has of the question where the sentence itself does not say it.
    pub fn told(&self, entry: &Entry, sentence: &str, pattern: &str) -> String {
        let machine = self.machine;
        let asks = |name: &str| entry.input.members.iter().any(|member| member.name == name);
        let unsaid =
            |name: &str| asks(name) && !OF_REQUEST.contains(&name) && !pattern.contains(&format!("{{{name}}}"));
        let has = machine.fields.iter().filter(|(name, _)| unsaid(name)).map(|(name, value)| {
            format!("{} {}", in_sentence(&label_of(entry.input.members, name)), said(entry, name, value))
        });
        let has: Vec<String> = has.collect();
        let long = format!("{sentence} This is on the {}: {}.", machine.name, has.join("; "));
        if has.is_empty() || long.chars().count() + 40 > LONGEST {
            return format!("{sentence} This is on the {}.", machine.name);
        }
        long
    }
}

/// The machine for a question: the one that is named, or the shop's own that the calculator speaks of most, if it has any
/// of the question's fields. A name that no machine has is refused.
pub fn chosen(entry: &Entry, fields: &[(String, String)], named: Option<&str>) -> Result<Option<On>, Refusal> {
    let machine = match named {
        Some(name) => Some(crate::asking::machine_named(name.trim()).map_err(Refusal::one)?),
        None => own(entry, fields),
    };
    let Some(machine) = machine else { return Ok(None) };
    let is_machines = |name: &str| machine.field(name).is_some();
    if !fields.iter().any(|(name, _)| is_machines(name) && !OF_REQUEST.contains(&name.as_str())) {
        return Ok(None);
    }
    let has = |name: &str| MACHINE_FIELDS.iter().any(|field| field.name == name);
    let kept = fields.iter().filter(|(name, _)| !has(name)).cloned();
    let fields = kept.chain([("machine".to_owned(), machine.name.clone())]).collect();
    Ok(Some(On { machine, fields }))
}

/// The machine of the shop that a calculator speaks of most, among those that have one of the fields.
fn own(entry: &Entry, fields: &[(String, String)]) -> Option<&'static Machine> {
    let fits = |machine: &&Machine| {
        let mut names = machine.fields.iter().map(|(name, _)| *name).filter(|name| !OF_REQUEST.contains(name));
        names.any(|name| fields.iter().any(|(known, _)| known == name))
    };
    let examples = entry.examples.iter().map(|example| example.says);
    let said: Vec<&str> = [entry.title, entry.about].into_iter().chain(examples).chain(entry.each_word()).collect();
    let said = said.join(" ").to_lowercase();
    let named = |machine: &Machine| said.matches(&machine.name.to_lowercase()).count();
    // The first of those that are named equally often.
    shop::installed()?.machines.iter().filter(fits).rev().max_by_key(|machine| named(machine))
}

/// The smallest step of the readout, in meters, where it is known.
pub fn step(fields: &[(String, String)], machine: Option<&str>) -> Option<f64> {
    let stated = |wanted: &str| fields.iter().find(|(name, _)| name == wanted).map(|(_, value)| value.as_str());
    let of_machine = || shop::installed()?.machine(machine.or_else(|| stated("machine"))?)?.field("resolution");
    let written = read(stated("resolution").or_else(of_machine)?, "0.0005 in").ok()?;
    Some(written.unit?.to_si(written.value))
}
