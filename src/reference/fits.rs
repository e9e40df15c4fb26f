//! Limits and fits after ISO 286: the grades, the fundamental deviations of shafts and holes, and the rules by which both
//! give the limits of a tolerance class. The tables are the rule; the standard's formulas only explain them.

use super::source_key;
use crate::sources::Trust;
use std::fmt;
use std::sync::LazyLock;

/// The grades in order, as the tables name them.
const GRADES: [&str; 20] =
    ["01", "0", "1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "11", "12", "13", "14", "15", "16", "17", "18"];

/// The letters of deviations, in the order of the standard.
const LETTERS: [&str; 28] = [
    "a", "b", "c", "cd", "d", "e", "ef", "f", "fg", "g", "h", "js", "j", "k", "m", "n", "p", "r", "s", "t", "u", "v",
    "x", "y", "z", "za", "zb", "zc",
];

/// A tolerance class such as H7 or g6.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ToleranceClass {
    letter: usize,
    grade: usize,
    /// Whether it is of a hole: in capital letters.
    pub is_hole: bool,
}

/// A row of a table: sizes over the one and up to and including the other, with what stands in its columns.
#[derive(Debug)]
struct Band {
    over: f64,
    to: f64,
    columns: Vec<(&'static str, f64)>,
    recalled: &'static str,
    source: &'static str,
    trust: Trust,
}

/// The limits of a class at a size, in micrometers from the size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ClassLimits {
    /// Upper limit deviation.
    pub upper: f64,
    /// Lower limit deviation.
    pub lower: f64,
    /// Width of the tolerance grade.
    pub width: f64,
    /// The deviation that the letter gives, with what the standard adds to it for a hole.
    pub fundamental: f64,
    /// What the standard adds to the deviation of a hole of a fine grade; 0 elsewhere.
    pub delta: f64,
    /// Whether the letter gives the upper one of the two.
    pub from_above: bool,
    /// The size band of the grade, over and up to and including, in millimeters.
    pub band: (f64, f64),
    /// Key of the source.
    pub source: &'static str,
    /// How far it can be relied on.
    pub trust: Trust,
}

fn bands(table: &'static str) -> Vec<Band> {
    let mut reader = csv::Reader::from_reader(table.as_bytes());
    let names: Vec<&'static str> =
        reader.headers().map(|names| names.iter().map(|name| &*name.to_owned().leak()).collect()).unwrap_or_default();
    let at = |row: &csv::StringRecord, name: &str| {
        names.iter().position(|known| *known == name).and_then(|at| row.get(at)).unwrap_or_default().to_owned()
    };
    let number = |text: String| text.parse::<f64>().ok();
    let band = |row: csv::StringRecord| Band {
        over: number(at(&row, "over_mm")).unwrap_or(f64::NAN),
        to: number(at(&row, "to_mm")).unwrap_or(f64::NAN),
        columns: names.iter().zip(row.iter()).filter_map(|(name, text)| Some((*name, text.parse().ok()?))).collect(),
        recalled: at(&row, "recalled").leak(),
        source: source_key(&at(&row, "source")),
        trust: Trust::named(&at(&row, "trust")).unwrap_or(Trust::FromMemory),
    };
    reader.records().map(|row| band(row.expect("the tables are compiled in and read by the tests"))).collect()
}

static GRADE_BANDS: LazyLock<Vec<Band>> = LazyLock::new(|| bands(include_str!("../../data/iso286_grades.csv")));
static SHAFT_BANDS: LazyLock<Vec<Band>> = LazyLock::new(|| bands(include_str!("../../data/iso286_shafts.csv")));
static HOLE_BANDS: LazyLock<Vec<Band>> = LazyLock::new(|| bands(include_str!("../../data/iso286_holes.csv")));

impl Band {
    fn of(all: &'static [Band], size: f64) -> Option<&'static Band> {
        all.iter().find(|band| band.over < size && size <= band.to)
    }

    fn get(&self, column: &str) -> Option<f64> {
        self.columns.iter().find(|(name, _)| *name == column).map(|(_, value)| *value)
    }
}

impl fmt::Display for ToleranceClass {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let letter = LETTERS[self.letter];
        let letter = if self.is_hole { letter.to_uppercase() } else { letter.to_owned() };
        write!(f, "{letter}{}", GRADES[self.grade])
    }
}

impl ToleranceClass {
    /// Reads `H7`, `g6`, `js5` or `JS5`; nothing else.
    pub fn read(text: &str) -> Option<Self> {
        let letters = text.trim_end_matches(|c: char| c.is_ascii_digit());
        let grade = GRADES.iter().position(|grade| *grade == &text[letters.len()..])?;
        let lower = letters.to_lowercase();
        let is_hole = letters == letters.to_uppercase();
        if !is_hole && letters != lower {
            return None;
        }
        Some(Self { letter: LETTERS.iter().position(|letter| *letter == lower)?, grade, is_hole })
    }

    /// The letter in small letters.
    pub fn letter(&self) -> &'static str {
        LETTERS[self.letter]
    }

    /// The grade as the standard writes it, `IT7`.
    pub fn grade(&self) -> String {
        format!("IT{}", GRADES[self.grade])
    }

    /// The same letter and grade of the other part.
    pub fn mirrored(&self) -> Self {
        Self { is_hole: !self.is_hole, ..*self }
    }

    /// The number of the grade: 7 for IT7, -1 for IT01.
    fn number(&self) -> i32 {
        self.grade as i32 - 1
    }

    /// The limits at a size in millimeters, or why there are none.
    pub fn limits(&self, size: f64) -> Result<ClassLimits, String> {
        if !(size > 0.0 && size <= 3150.0) {
            return Err("ISO 286 has limits for sizes above 0 and up to 3150 mm.".to_owned());
        }
        let grades = Band::of(&GRADE_BANDS, size).ok_or("ISO 286 has no grades at this size.")?;
        let column = self.grade();
        let none = |why: &str| format!("ISO 286 has no {self} at {size} mm: {why}");
        if size <= 1.0 && self.number() >= 14 {
            return Err(none("IT14 and coarser begin above 1 mm."));
        }
        let width = grades.get(&column).ok_or_else(|| none("the grade has no width at this size."))?;
        let (fundamental, delta, from_above, row) = self.fundamental(size, width).map_err(|why| none(&why))?;
        let recalled = grades.recalled.split(' ').any(|name| name == column);
        let trust = if recalled { Trust::FromMemory } else { grades.trust.max(row.trust) };
        let source = if row.trust > grades.trust { row.source } else { grades.source };
        let (upper, lower) = match self.letter() {
            "js" => (width / 2.0, -width / 2.0),
            _ if from_above => (fundamental, fundamental - width),
            _ => (fundamental + width, fundamental),
        };
        let band = (grades.over, grades.to);
        Ok(ClassLimits { upper, lower, width, fundamental, delta, from_above, band, source, trust })
    }

    /// The deviation that the letter gives, what of it is the standard's addition, and whether it is the upper one.
    fn fundamental(&self, size: f64, width: f64) -> Result<(f64, f64, bool, &'static Band), String> {
        let letter = self.letter();
        let number = self.number();
        let all: &'static [Band] = if self.is_hole && size <= 500.0 { &HOLE_BANDS } else { &SHAFT_BANDS };
        let row = Band::of(all, size).ok_or("no row of the table has this size.")?;
        let from_above = (self.letter < 11) != self.is_hole;
        if letter == "js" {
            return Ok((width / 2.0, 0.0, true, row));
        }
        if size <= 1.0 && (matches!(letter, "a" | "b") || self.is_hole && letter == "n" && number > 8) {
            return Err("it begins above 1 mm.".to_owned());
        }
        let missing = || self.why_missing(number);
        if !self.is_hole || size > 500.0 {
            let column = match (letter, number) {
                ("j", 5 | 6) => "j5_j6",
                ("j", 7) => "j7",
                ("j", 8) => "j8",
                ("k", 4..=7) => "k4_k7",
                ("k", _) => "k_other",
                _ => letter,
            };
            if self.is_hole && letter == "k" && number > 8 {
                return Err(missing());
            }
            let value = row.get(column).ok_or_else(missing)?;
            let value = if self.is_hole && value != 0.0 { -value } else { value };
            return Ok((value, 0.0, from_above, row));
        }
        if self.letter < 11 {
            return Ok((row.get(&letter.to_uppercase()).ok_or_else(missing)?, 0.0, false, row));
        }
        // The one size and class that the standard takes out of its rule.
        if *self == (Self { letter: 14, grade: 7, is_hole: true }) && row.over >= 250.0 && row.to <= 315.0 {
            return Ok((-9.0, 0.0, true, row));
        }
        let upper = letter.to_uppercase();
        let (column, takes_delta) = match letter {
            "j" => (format!("J{number}"), false),
            "k" | "m" | "n" if number > 8 => (format!("{upper}_gt8"), false),
            "k" | "m" | "n" => (format!("{upper}_le8"), true),
            _ => (upper, number <= 7),
        };
        let value = row.get(&column).ok_or_else(missing)?;
        if !takes_delta || size <= 3.0 {
            return Ok((value, 0.0, true, row));
        }
        let delta = row.get(&format!("delta_IT{number}"));
        let delta = delta.ok_or("the standard prints no addition for grades below IT3.")?;
        Ok((value + delta, delta, true, row))
    }

    fn why_missing(&self, number: i32) -> String {
        match (self.letter(), self.is_hole) {
            ("t", _) => "t and T begin above 24 mm.".into(),
            ("v", _) => "v and V begin above 14 mm.".into(),
            ("y", _) => "y and Y begin above 18 mm.".into(),
            ("cd" | "ef" | "fg", _) => "it ends at 10 mm.".into(),
            ("k", true) if number > 8 => "K is coarser than IT8 only up to 3 mm.".into(),
            ("j", _) => "j and J are made in a few grades only; js and JS in all.".into(),
            _ => "the table has no deviation there.".into(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn limits(size: f64, class: &str) -> Result<(f64, f64), String> {
        let class = ToleranceClass::read(class).unwrap_or_else(|| panic!("{class}"));
        class.limits(size).map(|limits| (limits.upper, limits.lower))
    }

    #[test]
    fn printed_limits_come_out() {
        // ISO 286-2:1988/Cor.1:2006, and the footnote's example of table 15.3 of Machine Drawing.
        for (size, class, upper, lower) in [
            (335.0, "A13", 2090.0, 1200.0),
            (100.0, "E8", 126.0, 72.0),
            (300.0, "f9", -56.0, -186.0),
            (24.0, "P7", -14.0, -35.0),
        ] {
            assert_eq!(limits(size, class), Ok((upper, lower)), "{size} {class}");
        }
    }

    #[test]
    fn a_class_is_read_as_the_standard_writes_it() {
        for text in ["H7", "g6", "js5", "JS13", "za6", "ZC11", "H01", "h0"] {
            assert_eq!(ToleranceClass::read(text).map(|class| class.to_string()).as_deref(), Some(text));
        }
        for text in ["", "7", "H", "H19", "Js6", "i6", "q7", "H07", "H7 ", "é6", "hH6"] {
            assert_eq!(ToleranceClass::read(text), None, "{text}");
        }
    }

    #[test]
    fn the_tables_are_whole() {
        for bands in [&*GRADE_BANDS, &*SHAFT_BANDS, &*HOLE_BANDS] {
            assert_eq!(bands[0].over, 0.0);
            assert!(bands.windows(2).all(|pair| pair[0].to == pair[1].over));
            assert!(bands.iter().all(|band| !band.source.is_empty()));
        }
    }

    #[test]
    fn what_the_standard_has_not_is_refused() {
        let none = [(0.8, "a11"), (20.0, "t6"), (12.0, "v6"), (12.0, "cd8"), (40.0, "K9"), (0.0, "H7"), (-3.0, "h6")];
        for (size, class) in none {
            assert!(limits(size, class).is_err(), "{size} {class}");
        }
    }
}
