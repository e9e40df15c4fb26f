//! A screw as a request names it: its size alone, `M8`, `1/4`, `No.10`, or its whole thread, `1/4-20 UNC`, `M8x1`.

use crate::declared::{FieldType, Shape, TypeFacts};
use crate::quantity::{FoundSize, System, Unit, shown};
use crate::reference::threads::{Designation, ThreadSystem, decimal, inch_text, number_size, plain_inches};
use crate::refusal::{Code, Unread, carry};
use crate::tree::{IntoTree, Node};
use serde::de::{Deserialize, Deserializer};
use utoipa::openapi::RefOr;
use utoipa::openapi::schema::{ObjectBuilder, Schema, Type};
use utoipa::{PartialSchema, ToSchema};

/// The greatest number size, and the largest screw.
const LAST_NUMBER: u32 = 12;
const LARGEST_INCHES: f64 = 6.0;
const LARGEST_MILLIMETERS: f64 = 150.0;

/// A screw's size.
#[derive(Clone, Debug, PartialEq)]
pub struct ScrewSize {
    /// The size in one spelling: `M8`, `1/4`, `#10`.
    pub name: String,
    /// Its nominal diameter.
    pub diameter: f64,
    /// The unit of that.
    pub unit: Unit,
}

impl ScrewSize {
    /// Reads a size or a thread.
    pub fn read(text: &str) -> Result<Self, Unread> {
        let said = text.trim();
        if said.is_empty() {
            let says = "This is empty.".to_owned();
            return Err(Unread { code: Code::ValueEmpty, says, try_this: "M8".into() });
        }
        if let Some(size) = alone(said)? {
            return Ok(size);
        }
        let thread = Designation::read(said).map_err(|unread| match unread.code {
            Code::ValueUnreadable => Unread {
                says: format!("\"{}\" is no screw. Give its size or its thread.", shown(said)),
                try_this: "M8".into(),
                ..unread
            },
            _ => unread,
        })?;
        let name = thread.thread.size.clone();
        match thread.thread.system {
            ThreadSystem::Unified | ThreadSystem::Metric => {
                Ok(Self { name, diameter: thread.thread.diameter, unit: thread.unit() })
            }
            _ => Err(Unread {
                code: Code::NotOffered,
                says: format!(
                    "Holes are listed here for Unified and metric screws. {} is another kind of thread.",
                    thread.text()
                ),
                try_this: if thread.unit() == Unit::Inch { "1/4-20 UNC" } else { "M8" }.into(),
            }),
        }
    }

    /// Its nominal diameter as a result.
    pub fn found(&self) -> FoundSize {
        FoundSize::stated(self.diameter, self.unit)
    }
}

/// A size without a pitch; `None` where the text has to be a thread.
fn alone(said: &str) -> Result<Option<ScrewSize>, Unread> {
    let lower = said.to_ascii_lowercase();
    let number = ["#", "no.", "no ", "number "].into_iter().find_map(|word| lower.strip_prefix(word)).map(str::trim);
    if let Some(number) = number.and_then(|digits| digits.parse::<u32>().ok()) {
        if number > LAST_NUMBER {
            return Err(Unread {
                code: Code::NotFound,
                says: format!("Number sizes of screws end at No.{LAST_NUMBER}."),
                try_this: "No.10".into(),
            });
        }
        let diameter = number_size(number);
        return Ok(Some(ScrewSize { name: format!("#{number}"), diameter, unit: Unit::Inch }));
    }
    if let Some(diameter) = lower.strip_prefix('m').and_then(decimal) {
        if !(diameter > 0.0 && diameter <= LARGEST_MILLIMETERS) {
            let says = format!("Screws of up to M{LARGEST_MILLIMETERS} are known here.");
            return Err(Unread { code: Code::ValueOutOfRange, says, try_this: "M8".into() });
        }
        return Ok(Some(ScrewSize { name: format!("M{diameter}"), diameter, unit: Unit::Millimetre }));
    }
    if let Some(size) = lower.strip_suffix("mm").map(str::trim_end)
        && size.bytes().all(|byte| byte.is_ascii_digit() || byte == b'.')
    {
        return ScrewSize::read(&format!("M{size}")).map(Some);
    }
    let inches = ["inch", "in", "\""].into_iter().find_map(|unit| lower.strip_suffix(unit)).map(str::trim_end);
    let Some(size) = plain_inches(inches.unwrap_or(&lower)) else { return Ok(None) };
    if inches.is_none() && !lower.contains('/') {
        let says = format!("\"{}\" may be a number, inches or millimeters. Say which.", shown(said));
        let try_this = match size.fract() == 0.0 {
            true if size <= f64::from(LAST_NUMBER) => format!("No.{size}"),
            true if size <= LARGEST_MILLIMETERS => format!("M{size}"),
            false if size < LARGEST_INCHES && size > 0.0 => format!("{size} in"),
            _ => "M8".to_owned(),
        };
        return Err(Unread { code: Code::ValueAmbiguous, says, try_this });
    }
    if !(size > 0.0 && size <= LARGEST_INCHES) {
        let says = format!("Screws of up to {LARGEST_INCHES} in are known here.");
        return Err(Unread { code: Code::ValueOutOfRange, says, try_this: "1/4".into() });
    }
    Ok(Some(ScrewSize { name: inch_text(size), diameter: size, unit: Unit::Inch }))
}

impl IntoTree for ScrewSize {
    fn tree(&self) -> Option<Node> {
        let (text, system) = match self.unit {
            // A whole inch alone would be read as a number.
            Unit::Inch if !self.name.contains('/') && !self.name.starts_with('#') => {
                (format!("{} in", self.name), System::Inch)
            }
            Unit::Inch => (self.name.clone(), System::Inch),
            _ => (self.name.clone(), System::Metric),
        };
        Some(Node::Text(text.into(), Some(system)))
    }
}

impl<'de> Deserialize<'de> for ScrewSize {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        Self::read(&String::deserialize(deserializer)?).map_err(carry)
    }
}

impl FieldType for ScrewSize {
    const TYPE: TypeFacts = TypeFacts::named::<Self>(Shape::Words);
}

impl PartialSchema for ScrewSize {
    fn schema() -> RefOr<Schema> {
        ObjectBuilder::new()
            .schema_type(Type::String)
            .min_length(Some(2))
            .pattern(Some("[0-9¼½¾⅛⅜⅝⅞]"))
            .description(Some(
                "A Unified or metric screw: its size, M8, 1/4, No.10, 1 in, or its whole thread. In an address # is \
                 written %23, or No. stands for it. Several may be separated by |.",
            ))
            .examples(["M8", "1/4", "No.10", "1/4-20 UNC"])
            .into()
    }
}

impl ToSchema for ScrewSize {}
