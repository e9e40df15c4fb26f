//! `machine=mill`: the machine's fields stand in for those that the calculator has and the request
//! does not state, each put on record.

use crate::asking::describing::describe_entry;
use crate::calculators::Entry;
use crate::fields::{Fields, Given, nearest};
use crate::quantity::shown;
use crate::refusal::{Code, Refusal, Wrong};
use crate::shop::{self, FEEDS_OF_THE_TABLE, MACHINE_FIELDS, Machine};
use crate::tree::Node;
use crate::working::{Assumed, Record};

/// The machine of that name, or why there is none.
pub fn machine_named(name: &str) -> Result<&'static Machine, Wrong> {
    let Some(shop) = shop::installed() else {
        return Err(Wrong::new(
            "machine",
            Code::NotOffered,
            "This service knows no machines: it was not started with --shop and a file that lists them. State the \
             machine's own fields instead.",
            "leave out",
        ));
    };
    if let Some(machine) = shop.machine(name) {
        return Ok(machine);
    }
    let names: Vec<&str> = shop.machines.iter().map(|machine| machine.name.as_str()).collect();
    let says = match names.as_slice() {
        [] => format!("{} lists no machines.", shop.name),
        names => format!("{} has no machine \"{}\"; its machines are {}.", shop.name, shown(name), names.join(", ")),
    };
    let lower = name.to_lowercase();
    let near = nearest(&lower, names.iter().copied()).or(names.first().copied()).unwrap_or("leave out");
    Err(Wrong::new("machine", Code::NotFound, says, near))
}

/// Where a value comes from that a machine stood in for.
pub fn from_machine(machine: &Machine) -> String {
    let shop = shop::installed().map_or("the shop", |shop| shop.name.as_str());
    format!("From the machine {} of {shop}.", machine.name)
}

/// The machine a request names, and which of its fields stand in for the request's.
#[derive(Clone, Debug, Default)]
pub struct FilledByMachine {
    named: bool,
    machine: Option<&'static Machine>,
    fields: Vec<&'static str>,
}

impl FilledByMachine {
    /// Adds to `fields` those of the machine that it names.
    pub fn fill(entry: &Entry, fields: &mut Fields) -> Self {
        let said = |wanted: &str| fields.0.iter().find(|(name, _)| name == wanted).map(|(_, value)| value.said());
        let Some(name) = said("machine") else { return Self::default() };
        // What is to be found is not to be filled in.
        let sought = said("solve_for");
        let Ok(machine) = machine_named(name.trim()) else { return Self { named: true, ..Self::default() } };
        let Some(described) = describe_entry(entry) else { return Self::default() };
        let mut filled = Vec::new();
        let asks = |name: &str| described.fields.iter().any(|field| field.name == name);
        // A quill is not fed by the table's feeds, nor where the request lists feeds of its own.
        let by_quill = asks("quill_feeds");
        let lists_feeds = fields.0.iter().any(|(stated, _)| stated == "available_feeds");
        for (name, value) in &machine.fields {
            let of_the_table = by_quill && FEEDS_OF_THE_TABLE.contains(name);
            let asked_for = asks(name) && !of_the_table && !(lists_feeds && *name == "quill_feeds");
            let is_sought = sought.as_deref().is_some_and(|sought| sought.trim() == *name);
            if asked_for && !is_sought && !fields.0.iter().any(|(stated, _)| stated == name) {
                fields.0.push(((*name).into(), Given::Text(value.as_str().into())));
                filled.push(*name);
            }
        }
        Self { named: true, machine: Some(machine), fields: filled }
    }

    /// The machine.
    pub fn machine(&self) -> Option<&'static Machine> {
        self.machine
    }

    /// Whether the field `name` was stated by the request itself.
    pub fn stated(&self, name: &str) -> bool {
        !self.fields.contains(&name)
    }

    /// Puts on record what stood in, as it was understood.
    pub fn tell(&self, inputs: &Node, record: &mut Record) {
        let Some(machine) = self.machine else { return };
        for field in &self.fields {
            if let Some(value) = inputs.member(field) {
                record.assumed.push(Assumed { field, value: value.clone(), says: from_machine(machine).into() });
            }
        }
    }

    /// Notes a machine that changed nothing; after all else is on record.
    pub fn tell_unused(&self, record: &mut Record) {
        if self.machine.is_some() && self.fields.is_empty() && !record.assumed.iter().any(|a| a.field == "resolution") {
            record.note("machine_unused", "Nothing here depends on the machine, so it changes nothing.");
        }
    }

    /// A refusal as the caller must see it: a field that stood in is said to be the machine's, and
    /// where the machine is unknown its fields are not said to be missing.
    pub fn explain(&self, mut refusal: Refusal) -> Refusal {
        let field = |wrong: &Wrong| wrong.field.split('/').nth(1).unwrap_or_default().to_owned();
        if self.named && self.machine.is_none() {
            refusal.0.retain(|wrong| {
                wrong.code != Code::FieldMissing || !MACHINE_FIELDS.iter().any(|known| known.name == field(wrong))
            });
        }
        let Some(machine) = self.machine.filter(|_| !refusal.is_of_time()) else { return refusal };
        for wrong in &mut refusal.0 {
            if !self.stated(&field(wrong)) {
                wrong.says = format!("{} {} State it to use another.", wrong.says, from_machine(machine));
            }
        }
        refusal
    }
}
