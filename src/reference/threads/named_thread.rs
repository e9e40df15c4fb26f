//! A thread as a request names it: `1/4-20 UNC-2A`, `#10-32`, `M8x1-6g`, `G 1/2 A`, `Tr20x4`; read
//! by the rules of its standard, written back in one spelling.

use super::{DesignationError, ErrorKind, Thread, ThreadSystem, read};
use crate::declared::{FieldType, Shape, TypeFacts};
use crate::quantity::{FoundSize, System, Unit, text};
use crate::refusal::{Code, Unread, carry};
use crate::tree::{IntoTree, Node};
use serde::de::{Deserialize, Deserializer, Error, Visitor};
use std::fmt;
use utoipa::openapi::RefOr;
use utoipa::openapi::schema::{ObjectBuilder, Schema, Type};
use utoipa::{PartialSchema, ToSchema};

/// A designation that is always right, for where no better one can be shown.
const GOOD: &str = "1/4-20 UNC";

/// A screw thread named by its designation.
#[derive(Clone, Debug, PartialEq)]
pub struct Designation {
    /// The thread.
    pub thread: Thread,
}

impl Designation {
    /// Reads a designation.
    pub fn read(text: &str) -> Result<Self, Unread> {
        match read(text) {
            Ok(thread) => Ok(Self { thread }),
            Err(error) => {
                let mut unread = Unread::from(error);
                if read(&unread.try_this).is_err() {
                    unread.try_this = GOOD.into();
                }
                Err(unread)
            }
        }
    }

    /// The whole designation in one spelling, with classes, hand and starts; it reads back as the
    /// same thread.
    pub fn text(&self) -> String {
        let thread = &self.thread;
        let by_lead = matches!(thread.system, ThreadSystem::Metric | ThreadSystem::Trapezoidal);
        let mut text = match (thread.system, thread.starts) {
            (ThreadSystem::Metric, 2..) => {
                let lead = text::full(text::tidy(thread.lead()));
                format!("{}xPh{lead}P{}", thread.size, thread.pitch)
            }
            (ThreadSystem::Trapezoidal, 2..) => {
                let lead = text::full(text::tidy(thread.lead()));
                format!("{}x{lead}P{}", thread.size, thread.pitch)
            }
            _ => thread.designation.clone(),
        };
        let mut classes: Vec<&str> =
            [&thread.internal_class, &thread.external_class].into_iter().filter_map(Option::as_deref).collect();
        // An Acme class is one for both sides.
        classes.dedup();
        if !classes.is_empty() {
            text.push(if thread.system == ThreadSystem::PipeParallel { ' ' } else { '-' });
            text.push_str(&classes.join("/"));
        }
        if thread.left_hand {
            text.push_str("-LH");
        }
        if !by_lead && thread.starts > 1 {
            text.push_str(&format!(" ({} STARTS)", thread.starts));
        }
        text
    }

    /// The unit that the thread's standard is written in.
    pub fn unit(&self) -> Unit {
        if self.thread.system.in_inches() { Unit::Inch } else { Unit::Millimetre }
    }

    /// A length of the thread as a result.
    pub fn found(&self, value: f64) -> FoundSize {
        FoundSize::stated(value, self.unit())
    }

    /// The standard that the thread is made by.
    pub fn standard(&self) -> &'static str {
        self.thread.system.standard()
    }

    /// For a thread in no list of its standard: so much, and the listed ones nearest to it.
    pub fn unlisted(&self) -> Option<String> {
        (!self.thread.standard).then(|| {
            format!(
                "{} is not in the lists of its standard; its sizes come from the standard's formulas. The nearest \
                 listed are {}.",
                self.thread.designation,
                self.thread.nearest.join(", ")
            )
        })
    }
}

impl From<DesignationError> for Unread {
    fn from(error: DesignationError) -> Self {
        let code = match error.kind {
            ErrorKind::Empty => Code::ValueEmpty,
            ErrorKind::Unreadable => Code::ValueUnreadable,
            ErrorKind::Ambiguous | ErrorKind::PitchMissing => Code::ValueAmbiguous,
            ErrorKind::NotOffered => Code::NotOffered,
            ErrorKind::SeriesMismatch | ErrorKind::ClassUnknown | ErrorKind::ClassWithoutData => Code::NotFound,
            ErrorKind::OutOfRange | ErrorKind::EngagementUnusable => Code::ValueOutOfRange,
        };
        Unread { code, says: sentence(&error.says), try_this: printable(&error.try_this) }
    }
}

/// Words as a sentence, with what was quoted free of characters that print nothing.
fn sentence(words: &str) -> String {
    let words = printable(words).replace('`', "\"");
    let mut letters = words.chars();
    let mut sentence: String = letters.next().into_iter().flat_map(char::to_uppercase).chain(letters).collect();
    if !sentence.ends_with('.') {
        sentence.push('.');
    }
    sentence
}

fn printable(text: &str) -> String {
    text.chars().map(|c| if c.is_control() { '\u{fffd}' } else { c }).collect()
}

impl IntoTree for Designation {
    fn tree(&self) -> Option<Node> {
        let system = if self.thread.system.in_inches() { System::Inch } else { System::Metric };
        Some(Node::Text(self.text().into(), Some(system)))
    }
}

impl<'de> Deserialize<'de> for Designation {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(DesignationVisitor)
    }
}

struct DesignationVisitor;

impl Visitor<'_> for DesignationVisitor {
    type Value = Designation;

    fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
        write!(f, "a thread designation such as \"{GOOD}\"")
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<Self::Value, E> {
        Designation::read(text).map_err(carry)
    }
}

impl FieldType for Designation {
    const TYPE: TypeFacts = TypeFacts::named::<Self>(Shape::Words);
}

impl PartialSchema for Designation {
    fn schema() -> RefOr<Schema> {
        ObjectBuilder::new()
            .schema_type(Type::String)
            .min_length(Some(2))
            // Every designation says at least one number, if only as ½.
            .pattern(Some("[0-9¼½¾⅛⅜⅝⅞]"))
            .description(Some(
                "A thread by its designation: size and threads per inch, or M with diameter and pitch; NPT, G, R, Rp, \
                 Rc, BSW, BSF, Acme, Tr; series, class, LH and starts may follow. In an address # is written %23, or \
                 No. stands for it. Several may be separated by |.",
            ))
            .examples(["1/4-20 UNC-2A", "No.10-32", "M8x1-6g", "1/4-18 NPT", "G 1/2 A", "1-5 Acme-2G", "Tr20x4"])
            .into()
    }
}

impl ToSchema for Designation {}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::reference::threads;
    use proptest::prelude::*;

    #[test]
    fn a_designation_is_written_in_one_spelling() {
        for (text, written) in [
            ("1/4-20", "1/4-20 UNC"),
            ("No.10-32 unf 2b", "#10-32 UNF-2B"),
            ("1/2-13 UNC-2A/2B LH", "1/2-13 UNC-2B/2A-LH"),
            ("m8 x 1 6g", "M8x1-6g"),
            ("M16xPh4P2-6H", "M16xPh4P2-6H"),
            ("M20x0.7 3 starts", "M20xPh2.1P0.7"),
            ("3/4-16 2 starts", "3/4-16 UNF (2 STARTS)"),
            ("1/4-20 UNRC", "1/4-20 UNRC"),
            ("npt 1-1/2", "1 1/2-11.5 NPT"),
            ("g1/2a", "G 1/2 A"),
            ("1/2 BSPP B", "G 1/2 B"),
            ("rc 3/4", "Rc 3/4"),
            ("1/4 bsw", "1/4-20 BSW"),
            ("1/2-12 whit", "1/2-12 BSW"),
            ("1-5 ACME 2g LH", "1-5 Acme-2G-LH"),
            ("2.875-0.4P-0.8L-ACME-2G", "2 7/8-2.5 Acme-2G (2 STARTS)"),
            ("tr 20 x 4 - 7e", "Tr20x4-7e"),
            ("Tr40x14(P7)-7H/7e LH", "Tr40x14P7-7H/7e-LH"),
        ] {
            assert_eq!(Designation::read(text).unwrap().text(), written);
        }
    }

    #[test]
    fn a_refusal_carries_its_code_and_a_designation_that_reads() {
        for (text, code) in [
            ("", Code::ValueEmpty),
            ("1/4", Code::ValueAmbiguous),
            ("1/4-20 UNF", Code::NotFound),
            ("MJ8x1", Code::NotOffered),
            ("M8,5x1", Code::ValueAmbiguous),
            ("1/4-900", Code::ValueOutOfRange),
            ("screw", Code::ValueUnreadable),
            ("M8x1-9z\u{7}value_empty\u{7}", Code::ValueUnreadable),
        ] {
            let unread = Designation::read(text).unwrap_err();
            assert_eq!(unread.code, code, "{text:?}: {}", unread.says);
            assert!(Designation::read(&unread.try_this).is_ok(), "{text:?}: {}", unread.try_this);
            assert!(!unread.says.contains(char::is_control) && unread.says.ends_with('.'), "{}", unread.says);
        }
    }

    #[test]
    fn every_listed_thread_reads_back_as_itself() {
        let unified = threads::unified_rows().iter().map(threads::UnifiedRow::designation);
        let metric = threads::metric_rows().iter().map(|row| row.designation.clone());
        let pipe = threads::parallel_rows().iter().map(|row| format!("G {}", row.size));
        let npt = threads::npt_rows().iter().map(|row| format!("{}-{} NPT", row.size, row.threads_per_inch));
        let whitworth =
            threads::whitworth_rows().iter().map(|row| format!("{}-{} {}", row.size, row.threads_per_inch, row.series));
        let acme = threads::acme_rows().iter().map(|row| format!("{}-{} Acme", row.size, row.threads_per_inch));
        let power = threads::trapezoidal_rows().iter().map(|row| row.designation.clone());
        for name in unified.chain(metric).chain(pipe).chain(npt).chain(whitworth).chain(acme).chain(power) {
            let designation = Designation::read(&name).unwrap();
            assert_eq!(Designation::read(&designation.text()), Ok(designation));
        }
    }

    fn holds(text: &str) {
        match Designation::read(text) {
            Ok(designation) => {
                let written = designation.text();
                assert_eq!(Designation::read(&written), Ok(designation), "{text:?} was written {written:?}");
            }
            Err(unread) => {
                assert!(Designation::read(&unread.try_this).is_ok(), "{text:?}: {}", unread.try_this);
                assert!(!unread.says.chars().any(char::is_control), "{text:?}: {}", unread.says);
            }
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(2000))]

        #[test]
        fn any_pipe_whitworth_or_power_thread_that_reads_is_written_so_that_it_reads_back(
            size in "([0-9]{1,2}/[0-9]{1,2}|[0-9] [0-9]{1,2}/[0-9]{1,2}|[0-9]{1,3}|[0-9]?\\.[0-9]{1,4})",
            pitch in "(|-[0-9]{1,2}(\\.5)?)",
            name in "(NPT|BSW|BSF|Whitworth|Acme|BSP|BSPT|BSPP)",
            front in "(G|R|Rp|Rc|Tr)",
            by in "(|x[0-9]{1,2}(\\.5)?|x[0-9]{1,2}P[0-9])",
            tail in "(| A| B|-[2-4]G|-[78]e|-8c|-7H|-7H/8e)(-LH)?( [1-4] starts)?",
        ) {
            holds(&format!("{size}{pitch} {name}{tail}"));
            holds(&format!("{front}{size}{by}{tail}"));
        }

        #[test]
        fn any_text_is_read_or_refused(text in any::<String>()) {
            holds(&text);
        }

        #[test]
        fn any_text_of_designation_characters_is_read_or_refused(
            text in "[M#0-9./ -]{1,6}[-x ][0-9./]{1,5}[ -]?[A-Za-z0-9/() ,½×]{0,14}"
        ) {
            holds(&text);
        }

        #[test]
        fn any_unified_thread_that_reads_is_written_so_that_it_reads_back(
            size in "(#[0-9]{1,2}|[0-9]{1,2}/[0-9]{1,2}|[0-9] [0-9]{1,2}/[0-9]{1,2}|[0-9]{1,2}|[0-9]?\\.[0-9]{1,4})",
            pitch in "[0-9]{1,2}(\\.5)?",
            tail in "( UNC| UNF| UNS| UN| UNRS)?(-[123][AB])?(-LH)?( [1-4] starts)?",
        ) {
            holds(&format!("{size}-{pitch}{tail}"));
        }

        #[test]
        fn any_metric_thread_that_reads_is_written_so_that_it_reads_back(
            size in "[0-9]{1,3}(\\.[0-9]{1,2})?",
            pitch in "(|x[0-9](\\.[0-9]{1,3})?|xPh[0-9]P[0-9](\\.[0-9])?)",
            tail in "(-[3-9][e-h]|-[4-8][GH]|-6H/6g|-4g6g)?(-LH)?( [1-4] starts)?",
        ) {
            holds(&format!("M{size}{pitch}{tail}"));
        }
    }
}
