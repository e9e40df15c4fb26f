//! Parallel and Woodruff keys with their depths, from data/keys.csv: ASME B17.1 and B17.2, ISO 773, ISO 3912, DIN 6888.

use super::{by_name, rows_of, source_key};
use crate::quantity::{FoundSize, Size, Unit, shown};
use crate::refusal::{Code, Unread};
use std::sync::LazyLock;

crate::choice! {
    /// The form of a key: `parallel`, a straight bar, or `woodruff`, a half moon.
    KeyKind {
        /// A straight bar of square or rectangular section.
        Parallel = "parallel",
        /// A half moon in a seat cut by a disk.
        Woodruff = "woodruff" | "Woodruff",
    }
}

crate::choice! {
    /// The standard of a key: `inch`, ASME B17; `iso`, ISO 773 and ISO 3912; or `din`, DIN 6885-1 and DIN 6888.
    KeyStandard {
        /// ASME B17.1 and B17.2.
        Inch = "inch",
        /// ISO 773 and ISO 3912.
        Iso = "iso" | "metric",
        /// DIN 6885-1 and DIN 6888.
        Din = "din",
    }
}

crate::choice! {
    /// Section of an inch parallel key: `square`, or `rectangular`, which is lower.
    KeyShape {
        /// As high as it is wide.
        Square = "square",
        /// Lower than it is wide.
        Rectangular = "rectangular",
    }
}

/// A key of a standard.
#[derive(Debug)]
pub struct Key {
    /// Parallel or Woodruff.
    pub kind: KeyKind,
    standard: KeyStandard,
    /// Of an inch parallel key.
    pub shape: Option<KeyShape>,
    /// Width and height, or the number of an inch Woodruff key.
    pub name: &'static str,
    /// The shafts it belongs to, over and up to and including, in `unit`.
    pub shafts: Option<(f64, f64)>,
    width: f64,
    height: f64,
    cutter_diameter: Option<f64>,
    shaft_depth: Option<f64>,
    hub_depth: Option<f64>,
    depth_tolerance: Option<f64>,
    /// The unit of its sizes.
    pub unit: Unit,
    /// Key of the source.
    pub source: &'static str,
    /// How far it can be trusted.
    pub trust: &'static str,
}

#[derive(serde::Deserialize)]
struct Row {
    kind: KeyKind,
    standard: KeyStandard,
    shape: Option<KeyShape>,
    name: String,
    over: Option<f64>,
    to: Option<f64>,
    width: f64,
    height: f64,
    cutter_diameter: Option<f64>,
    shaft_depth: Option<f64>,
    hub_depth: Option<f64>,
    depth_tolerance: Option<f64>,
    unit: String,
    source: String,
    trust: String,
}

static KEYS: LazyLock<Vec<Key>> = LazyLock::new(|| {
    let key = |row: Row| Key {
        kind: row.kind,
        standard: row.standard,
        shape: row.shape,
        name: row.name.leak(),
        shafts: row.over.zip(row.to),
        width: row.width,
        height: row.height,
        cutter_diameter: row.cutter_diameter,
        shaft_depth: row.shaft_depth,
        hub_depth: row.hub_depth,
        depth_tolerance: row.depth_tolerance,
        unit: Unit::named(&row.unit).unwrap_or(Unit::Inch),
        source: source_key(&row.source),
        trust: row.trust.leak(),
    };
    rows_of(include_str!("../../data/keys.csv")).map(key).collect()
});

/// The keys of a kind and a standard, from small to large. For parallel keys ISO and DIN are the same.
pub fn keys(kind: KeyKind, standard: KeyStandard) -> impl Iterator<Item = &'static Key> {
    let of = match (kind, standard) {
        (KeyKind::Parallel, KeyStandard::Din) => KeyStandard::Iso,
        _ => standard,
    };
    KEYS.iter().filter(move |key| key.kind == kind && key.standard == of)
}

/// What differs by a rounding alone is the same.
const SAME: f64 = 1e-9;

impl Key {
    fn found(&self, size: f64) -> FoundSize {
        FoundSize::stated(size, self.unit)
    }

    /// Its width.
    pub fn width(&self) -> FoundSize {
        self.found(self.width)
    }

    /// Its height, the greatest where it has limits.
    pub fn height(&self) -> FoundSize {
        self.found(self.height)
    }

    /// Diameter of a Woodruff key and of its cutter.
    pub fn cutter_diameter(&self) -> Option<FoundSize> {
        self.cutter_diameter.map(|size| self.found(size))
    }

    /// Depth of the seat in the shaft; an inch parallel key is half its height deep.
    pub fn shaft_depth(&self) -> Option<FoundSize> {
        self.shaft_depth.map(|size| self.found(size))
    }

    /// Depth of the seat in the hub.
    pub fn hub_depth(&self) -> Option<FoundSize> {
        self.hub_depth.map(|size| self.found(size))
    }

    /// How much deeper the seat in the shaft may be.
    pub fn depth_tolerance(&self) -> Option<FoundSize> {
        self.depth_tolerance.map(|size| self.found(size))
    }

    /// Whether the depths count from the corners of the slot, not from the top of the round.
    pub fn counts_from_corners(&self) -> bool {
        self.unit == Unit::Inch
    }

    /// Whether the standard has it for that shaft; `None` where it says nothing about shafts.
    pub fn is_for(&self, shaft: Size) -> Option<bool> {
        let (over, to) = self.shafts?;
        let size = shaft.quantity().in_unit(self.unit);
        Some(size > over + SAME && size <= to + SAME)
    }

    /// Whether a request means this key.
    pub fn is_called(&self, name: &KeyName) -> bool {
        let same = |a: f64, b: f64| (a - b).abs() < SAME;
        let scale = match name.unit {
            Some(unit) if unit != self.unit => Size::stated(1.0, unit).quantity().in_unit(self.unit),
            _ => 1.0,
        };
        if self.kind == KeyKind::Woodruff && self.counts_from_corners() {
            return name.height.is_none() && self.name.parse().is_ok_and(|number| same(number, name.first));
        }
        same(self.width, name.first * scale) && name.height.is_none_or(|height| same(self.height, height * scale))
    }

    /// How far its width is from what a request says first.
    pub fn off(&self, name: &KeyName) -> f64 {
        let number = self.name.parse().unwrap_or(self.width);
        (number - name.first).abs()
    }
}

/// A key as a request names it: by its width, by width and height, or by its number.
#[derive(Clone, Debug)]
pub struct KeyName {
    text: String,
    first: f64,
    /// The height, where it is named.
    pub height: Option<f64>,
    unit: Option<Unit>,
}

impl KeyName {
    /// Reads `1/4`, `1/4 x 3/16`, `8x7`, `8 mm x 7 mm`, `404`, `No. 404`.
    pub fn read(text: &str) -> Result<Self, Unread> {
        let good = || {
            let says = format!("\"{}\" is not a key: give its width and height, or its number.", shown(text));
            Unread::new(Code::ValueUnreadable, says, "1/4 x 1/4")
        };
        let said = text.trim().to_lowercase().replace(['×', '*'], "x").replace("no.", "").replace(['#', '"'], "");
        let unit = match (said.contains("mm"), said.contains("in")) {
            (true, false) => Some(Unit::Millimetre),
            (false, true) => Some(Unit::Inch),
            (false, false) => None,
            _ => return Err(good()),
        };
        let said = said.replace("mm", "").replace("inch", "").replace("in", "");
        let number = |part: &str| {
            let part = part.trim();
            let plain = part.starts_with(|c: char| c.is_ascii_digit() || c == '.')
                && part.ends_with(|c: char| c.is_ascii_digit());
            if !plain {
                return Err(good());
            }
            Ok(Size::read(&format!("{part} in")).map_err(|_| good())?.quantity().value)
        };
        let mut parts = said.split('x');
        let first = number(parts.next().unwrap_or_default())?;
        let height = parts.next().map(number).transpose()?;
        if parts.next().is_some() {
            return Err(good());
        }
        Ok(Self { text: text.trim().to_owned(), first, height, unit })
    }

    /// As it was given.
    pub fn name(&self) -> String {
        self.text.clone()
    }
}

by_name!(KeyName, "A key by its width, its width and height or its number: 1/4, 1/4 x 3/16, 8 x 7, 404.", "1/4 x 1/4");

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_key_has_a_source_and_is_found_by_its_own_name() {
        for key in KEYS.iter() {
            assert!(crate::sources::source(key.source).is_some(), "{key:?}");
            let name = KeyName::read(key.name).expect("its own name");
            let found: Vec<_> = keys(key.kind, key.standard).filter(|other| other.is_called(&name)).collect();
            assert_eq!(found.len(), 1, "{key:?} is also {found:?}");
        }
    }

    #[test]
    fn the_shafts_of_parallel_keys_follow_one_another_without_a_gap() {
        for (standard, shape) in [
            (KeyStandard::Inch, Some(KeyShape::Square)),
            (KeyStandard::Inch, Some(KeyShape::Rectangular)),
            (KeyStandard::Iso, None),
        ] {
            let shafts: Vec<(f64, f64)> = keys(KeyKind::Parallel, standard)
                .filter(|key| key.shape == shape)
                .filter_map(|key| key.shafts)
                .collect();
            assert!(shafts.len() > 15 && shafts.windows(2).all(|pair| pair[0].1 == pair[1].0), "{shafts:?}");
        }
    }

    #[test]
    fn metric_depths_leave_what_their_standard_leaves_over_the_key() {
        for key in KEYS.iter().filter(|key| key.unit == Unit::Millimetre) {
            let (Some(shaft), Some(hub)) = (key.shaft_depth, key.hub_depth) else { panic!("{key:?}") };
            let over = shaft + hub - key.height;
            assert!(over > 0.15 && over < 0.55, "{key:?} leaves {over}");
        }
    }

    #[test]
    fn keys_are_read_as_drawings_write_them() {
        for (text, first, height) in [
            ("1/4", 0.25, None),
            ("1/4 x 3/16 in", 0.25, Some(0.1875)),
            ("8x7", 8.0, Some(7.0)),
            ("8 mm × 7 mm", 8.0, Some(7.0)),
            ("No. 404", 404.0, None),
            ("#202.5", 202.5, None),
        ] {
            let read = KeyName::read(text).expect(text);
            assert_eq!((read.first, read.height), (first, height), "{text}");
        }
        for text in ["", "x", "8x", "8x7x6", "key", "-8x7", "8 mm x 1/4 in"] {
            assert!(KeyName::read(text).is_err(), "{text}");
        }
    }
}
