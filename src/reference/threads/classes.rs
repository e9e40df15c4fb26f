//! Tolerance classes: 1A to 3B (ASME B1.1), grade with position, such as 6g or 5g6g (ISO 965-1),
//! A and B (ISO 228-1), 2G to 4G (ASME B1.5), and the class taken where none is named.

use super::error::{DesignationError, ErrorKind};
use super::metric_tolerances::{external_grades, internal_grades};
use super::{Thread, ThreadSystem};

/// External Unified classes.
pub const UNIFIED_EXTERNAL_CLASSES: [&str; 3] = ["1A", "2A", "3A"];
/// Internal Unified classes.
pub const UNIFIED_INTERNAL_CLASSES: [&str; 3] = ["1B", "2B", "3B"];
/// How metric classes are built, in words.
pub const METRIC_CLASSES: &str = "external: pitch diameter grade 3 to 9, major diameter grade 4, \
     6 or 8, position e, f, g or h; internal: grades 4 to 8, position G or H";

/// A Unified class.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct UnifiedClass {
    /// 1 (loose), 2 (usual) or 3 (close).
    pub number: u8,
    /// True for B, internal threads.
    pub internal: bool,
}

/// A metric class.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct MetricClass {
    /// Grade of the pitch diameter.
    pub pitch_grade: u8,
    /// Grade of the crest diameter: major of a screw, minor of a nut.
    pub crest_grade: u8,
    /// Position of the tolerance zone: e, f, g, h outside; G, H inside.
    pub position: char,
}

impl UnifiedClass {
    /// Reads `2A` or `2b`.
    pub fn read(text: &str) -> Result<Self, DesignationError> {
        let mut letters = text.trim().chars();
        let class = match (letters.next(), letters.next(), letters.next()) {
            (Some(number @ '1'..='3'), Some(side), None) => match side.to_ascii_uppercase() {
                'A' => Some((number, false)),
                'B' => Some((number, true)),
                _ => None,
            },
            _ => None,
        };
        match class {
            Some((number, internal)) => Ok(Self { number: number as u8 - b'0', internal }),
            None => Err(unknown(
                format!(
                    "`{text}` is not a Unified class; external classes are 1A, 2A, 3A, internal \
                     ones 1B, 2B, 3B"
                ),
                "2A",
                &["1A", "2A", "3A", "1B", "2B", "3B"],
            )),
        }
    }

    /// `2A`.
    pub fn text(self) -> String {
        format!("{}{}", self.number, if self.internal { 'B' } else { 'A' })
    }
}

impl MetricClass {
    /// Reads `6g`, `5g6g` or `6H`; the case of the letter says which side it is for.
    pub fn read(text: &str) -> Result<Self, DesignationError> {
        let letters: Vec<char> = text.trim().chars().collect();
        let (pitch, crest) = match letters[..] {
            [grade, position] => ((grade, position), (grade, position)),
            [g1, p1, g2, p2] => ((g1, p1), (g2, p2)),
            _ => return Err(not_metric(text, "a metric class is a grade and a letter")),
        };
        if pitch.1 != crest.1 {
            return Err(not_metric(
                text,
                "both letters must be the same here, since limits for two positions are not offered",
            ));
        }
        let grade = |c: char| c.to_digit(10).unwrap_or(0) as u8;
        let class = Self { pitch_grade: grade(pitch.0), crest_grade: grade(crest.0), position: pitch.1 };
        match class.position {
            'e'..='h' if !(3..=9).contains(&class.pitch_grade) => {
                Err(not_metric(text, "the pitch diameter of an external thread has grades 3 to 9"))
            }
            'e'..='h' if ![4, 6, 8].contains(&class.crest_grade) => {
                Err(not_metric(text, "the major diameter of an external thread has only grades 4, 6 and 8"))
            }
            'G' | 'H' if !(4..=8).contains(&class.pitch_grade) => {
                Err(not_metric(text, "the pitch diameter of an internal thread has grades 4 to 8"))
            }
            'G' | 'H' if !(4..=8).contains(&class.crest_grade) => {
                Err(not_metric(text, "the minor diameter of an internal thread has grades 4 to 8"))
            }
            'e'..='h' | 'G' | 'H' => Ok(class),
            'a'..='d' => Err(DesignationError::new(
                ErrorKind::ClassWithoutData,
                format!("`{text}`: no deviations are known here for position {}; e, f, g and h are", class.position),
                "6g",
            )),
            _ => Err(not_metric(text, "the letter is e, f, g or h for an external thread, G or H for an internal one")),
        }
    }

    /// True for G and H, internal threads.
    pub fn internal(self) -> bool {
        self.position.is_ascii_uppercase()
    }

    /// `6g`, or `5g6g` where the grades differ.
    pub fn text(self) -> String {
        let (pitch, crest, position) = (self.pitch_grade, self.crest_grade, self.position);
        if pitch == crest { format!("{pitch}{position}") } else { format!("{pitch}{position}{crest}{position}") }
    }
}

pub(super) fn unknown(says: String, example: &str, nearest: &[&str]) -> DesignationError {
    let mut error = DesignationError::new(ErrorKind::ClassUnknown, says, example);
    error.nearest = nearest.iter().map(ToString::to_string).collect();
    error
}

fn not_metric(text: &str, why: &str) -> DesignationError {
    let internal = text.chars().any(|c| c.is_ascii_uppercase());
    let examples = if internal { ["6H", "5H", "6G"] } else { ["6g", "5g6g", "6h"] };
    unknown(format!("`{text}`: {why}"), examples[0], &examples)
}

/// The classes taken where none is named, and why.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Classes {
    /// External class; absent where the system has none.
    pub external: Option<&'static str>,
    /// Internal class; absent where the system has none.
    pub internal: Option<&'static str>,
    /// Why these.
    pub says: &'static str,
}

/// The classes of general work: 2A and 2B; 6g and 6H, up to M1.4 6h and 5H; 2G; 7e and 7H; A for
/// pipe threads G. Where a metric pitch is too fine for the usual internal grade, the coarsest
/// grade that exists for it.
pub fn default_classes(thread: &Thread) -> Classes {
    let both = |external, internal, says| Classes { external: Some(external), internal: Some(internal), says };
    match thread.system {
        ThreadSystem::Unified => both("2A", "2B", "2A and 2B are the usual classes of general work"),
        ThreadSystem::Metric => metric_defaults(thread),
        ThreadSystem::PipeParallel => {
            Classes { external: Some("A"), internal: None, says: "A is the closer of the two classes, A and B" }
        }
        ThreadSystem::Acme => both("2G", "2G", "2G is the usual class of general purpose threads"),
        ThreadSystem::Trapezoidal => both("7e", "7H", "7e and 7H are the usual classes of medium quality"),
        ThreadSystem::Npt | ThreadSystem::PipeTaper | ThreadSystem::Whitworth => {
            Classes { external: None, internal: None, says: "this kind of thread has no classes here" }
        }
    }
}

fn metric_defaults(thread: &Thread) -> Classes {
    let small = thread.diameter <= 1.4;
    let external = if small { "6h" } else { "6g" };
    let grades = internal_grades(thread.pitch);
    let (internal, says) = match small {
        false if grades.contains(&6) => ("6H", "6g and 6H are the usual classes of general work"),
        true if grades.contains(&5) => ("5H", "up to M1.4 the usual classes are 6h and 5H"),
        _ if grades.contains(&5) => ("5H", "no internal grade 6 exists at so fine a pitch; 5 is the coarsest"),
        _ => ("4H", "no internal grade above 4 exists at so fine a pitch"),
    };
    Classes { external: Some(external), internal: Some(internal), says }
}

/// Metric classes of one grade that exist at a pitch, for a refusal to name.
pub(super) fn metric_classes_at(pitch: f64, internal: bool) -> Vec<String> {
    if internal {
        let grades = internal_grades(pitch).iter();
        return grades.map(|grade| format!("{grade}H")).collect();
    }
    let grades = external_grades(pitch).iter();
    grades.filter(|grade| [4, 6, 8].contains(*grade)).map(|grade| format!("{grade}g")).collect()
}
