//! Taps, reamers, gauge blocks and change gears, as the shop's file lists them.

use super::reader::{Reader, Text, Value, quoted};
use crate::quantity::{Size, shown, text};
use crate::reference::drill_diameter::DrillDiameter;
use crate::reference::threads::{self, Thread};
use crate::refusal::{Code, Unread};
use toml::de::DeValue;

const ONCE: &str = "leaving one of them out";

fn twice(reader: &mut Reader, key: &str, text: &Text) {
    reader.fault(text.span.clone(), key, format!("\"{}\" is listed twice.", shown(text.text)), ONCE);
}

/// Reads `taps` or `forming_taps`: thread designations.
pub fn taps(reader: &mut Reader, key: &str, value: &Value) -> Vec<Thread> {
    let mut taps: Vec<Thread> = Vec::new();
    for text in reader.texts(key, value, "[\"1/4-20 UNC\", \"M8\"]") {
        match threads::read(text.text) {
            Ok(thread) => {
                let same = |tap: &Thread| tap.designation == thread.designation && tap.left_hand == thread.left_hand;
                if taps.iter().any(same) {
                    twice(reader, key, &text);
                }
                taps.push(thread);
            }
            Err(error) => reader.fault(text.span, key, format!("{}.", error.says), quoted(&error.try_this)),
        }
    }
    taps
}

/// Reads `reamers`: sizes, or the trade's names for them.
pub fn reamers(reader: &mut Reader, value: &Value) -> Vec<DrillDiameter> {
    let mut reamers: Vec<DrillDiameter> = Vec::new();
    for text in reader.texts("reamers", value, "[\"1/4 in\", \"8 mm\"]") {
        match DrillDiameter::read(text.text) {
            Ok(reamer) => {
                let size = |reamer: &DrillDiameter| (reamer.size.quantity().si() * 1e9).round();
                if reamers.iter().any(|before| size(before) == size(&reamer)) {
                    twice(reader, "reamers", &text);
                }
                reamers.push(reamer);
            }
            Err(unread) => reader.fault(text.span, "reamers", unread.says, quoted(&unread.try_this)),
        }
    }
    reamers
}

/// Reads `gauge_blocks`: lengths, singly or in runs. A set can hold two of a length.
pub fn gauge_blocks(reader: &mut Reader, value: &Value) -> Vec<Size> {
    let mut blocks = Vec::new();
    for text in reader.texts("gauge_blocks", value, "[\"1.005 mm\", \"1.01 mm to 1.49 mm by 0.01 mm\"]") {
        match run(text.text) {
            Ok(run) => blocks.extend(run),
            Err(unread) => reader.fault(text.span, "gauge_blocks", unread.says, quoted(&unread.try_this)),
        }
    }
    blocks
}

/// Longer than any set of gauge blocks.
const MOST: f64 = 500.0;

fn run(said: &str) -> Result<Vec<Size>, Unread> {
    let refuse = |says: String| {
        Err(Unread { code: Code::ValueUnreadable, says, try_this: "1.01 mm to 1.49 mm by 0.01 mm".into() })
    };
    let Some((from, rest)) = said.split_once(" to ") else { return Ok(vec![Size::read(said)?]) };
    let Some((to, by)) = rest.split_once(" by ") else {
        return refuse(format!("\"{}\" gives no step.", shown(said)));
    };
    let (from, to, by) = (Size::read(from)?.quantity(), Size::read(to)?.quantity(), Size::read(by)?.quantity());
    let steps = (to.si() - from.si()) / by.si();
    let whole = steps.round();
    if !(0.0..=MOST).contains(&whole) || (steps - whole).abs() > 1e-6 {
        return refuse(format!("The steps of \"{}\" do not end at its last length.", shown(said)));
    }
    let step = by.in_unit(from.unit);
    Ok((0..=whole as u32).map(|at| Size::stated(text::tidy(from.value + f64::from(at) * step), from.unit)).collect())
}

/// Fewest and most teeth of a change gear.
const TEETH: std::ops::RangeInclusive<u32> = 8..=400;

/// Reads `change_gears`: numbers of teeth. A set can hold two of a size.
pub fn change_gears(reader: &mut Reader, value: &Value) -> Vec<u32> {
    let good = "[20, 40, 127]";
    let DeValue::Array(items) = value.get_ref() else {
        reader.wrong_kind("change_gears", value, "a list of whole numbers", good);
        return Vec::new();
    };
    if items.is_empty() {
        let says = "This list is empty; leave the key out where there is nothing.";
        reader.fault(value.span(), "change_gears", says, good);
    }
    let mut gears = Vec::new();
    for item in items {
        let DeValue::Integer(number) = item.get_ref() else {
            reader.wrong_kind("change_gears", item, "a whole number", "40");
            continue;
        };
        match number.as_str().replace('_', "").parse() {
            Ok(teeth) if TEETH.contains(&teeth) => gears.push(teeth),
            _ => {
                let says = format!("A change gear has {} to {} teeth, not {number}.", TEETH.start(), TEETH.end());
                reader.fault(item.span(), "change_gears", says, "40");
            }
        }
    }
    gears
}
