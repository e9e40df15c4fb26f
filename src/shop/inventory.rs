//! What a shop owns: read once from its file, and installed for the whole process.

use super::fault::Faults;
use super::machines::{self, Machine};
use super::pieces;
use super::reader::{self, Reader, Value};
use crate::quantity::Size;
use crate::reference::drill_diameter::DrillDiameter;
use crate::reference::drills::Drill;
use crate::reference::threads::Thread;
use sha2::{Digest, Sha256};
use std::path::Path;
use std::sync::OnceLock;
use toml::de::DeTable;

/// What a shop owns, as its file says. Gauge blocks are read and checked; no calculator chooses from them
/// yet.
#[derive(Debug)]
pub struct Shop {
    /// The shop's name.
    pub name: String,
    /// The beginning of a SHA-256 over the file.
    pub hash: String,
    /// Its machines, by name.
    pub machines: Vec<Machine>,
    /// The drills in the drawer, smallest first.
    pub drills: Vec<&'static Drill>,
    /// Its taps, by the thread they cut.
    pub taps: Vec<Thread>,
    /// Those that form the thread without a chip.
    pub forming_taps: Vec<Thread>,
    /// Its reamers.
    pub reamers: Vec<DrillDiameter>,
    /// Its gauge blocks, piece by piece.
    pub gauge_blocks: Vec<Size>,
    /// Teeth of its change gears, piece by piece.
    pub change_gears: Vec<u32>,
}

impl Shop {
    /// Reads the text of a shop's file; all that is wrong with it is said at once.
    pub fn read(text: &str) -> Result<Self, Faults> {
        let hash = Sha256::digest(text).iter().take(6).map(|byte| format!("{byte:02x}")).collect();
        reader::read(text, owned).map(|shop| Self { hash, ..shop })
    }

    /// Reads a shop's file; the error says which file, which line and why.
    pub fn load(path: &Path) -> Result<Self, String> {
        let name = path.display();
        let text = std::fs::read_to_string(path).map_err(|error| format!("--shop {name}: {error}"))?;
        Self::read(&text).map_err(|faults| format!("--shop {name}:\n{faults}"))
    }

    /// The machine of that name.
    pub fn machine(&self, name: &str) -> Option<&Machine> {
        self.machines.iter().find(|machine| machine.name == name)
    }
}

const KEYS: &[&str] =
    &["name", "machines", "drills", "taps", "forming_taps", "reamers", "gauge_blocks", "change_gears"];

/// What the table of a file says the shop owns; the hash is left to the caller.
fn owned(reader: &mut Reader, table: &DeTable) -> Shop {
    let mut shop = Shop {
        name: String::new(),
        hash: String::new(),
        machines: Vec::new(),
        drills: Vec::new(),
        taps: Vec::new(),
        forming_taps: Vec::new(),
        reamers: Vec::new(),
        gauge_blocks: Vec::new(),
        change_gears: Vec::new(),
    };
    if !table.keys().any(|key| key.get_ref() == "name") {
        reader.fault(0..0, "name", "The shop has no name.", "name = \"Tern Point Works\"");
    }
    for (key, value) in table {
        match key.get_ref().as_ref() {
            "name" => shop.name = name(reader, value),
            "machines" => shop.machines = machines::read(reader, value),
            "drills" => shop.drills = super::drawer::read(reader, value),
            "taps" => shop.taps = pieces::taps(reader, "taps", value),
            "forming_taps" => shop.forming_taps = pieces::taps(reader, "forming_taps", value),
            "reamers" => shop.reamers = pieces::reamers(reader, value),
            "gauge_blocks" => shop.gauge_blocks = pieces::gauge_blocks(reader, value),
            "change_gears" => shop.change_gears = pieces::change_gears(reader, value),
            other => reader.unknown(key.span(), other, other, KEYS),
        }
    }
    shop
}

fn name(reader: &mut Reader, value: &Value) -> String {
    let good = "\"Tern Point Works\"";
    let Some(name) = reader.text("name", value, good) else { return String::new() };
    let name = name.text.trim();
    if name.is_empty() || name.chars().count() > 60 || name.chars().any(char::is_control) {
        reader.fault(value.span(), "name", "A shop's name has 1 to 60 characters, on one line.", good);
    }
    name.to_owned()
}

static SHOP: OnceLock<Shop> = OnceLock::new();

/// Makes `shop` the one that this process answers for. It is set once, before the first request;
/// a second one is given back.
pub fn install(shop: Shop) -> Result<(), Box<Shop>> {
    SHOP.set(shop).map_err(Box::new)
}

/// The shop that this process answers for, if a file was given.
pub fn installed() -> Option<&'static Shop> {
    SHOP.get()
}
