//! A thread's tolerance class as a request names it (`2A`, `6g`, `2B`, `6H`), the class that
//! counts where several could, and whose fault it is where a class has no limits.

use super::{
    DesignationError, MetricClass, Thread, ThreadSystem, UNIFIED_EXTERNAL_CLASSES, UNIFIED_INTERNAL_CLASSES,
    UnifiedClass, acme, default_classes, external_limits, internal_limits, read_for, trapezoidal,
};
use crate::declared::{FieldType, Shape, TypeFacts};
use crate::quantity::pattern::listed;
use crate::refusal::{Code, Unread, carry};
use crate::tree::{IntoTree, Node};
use serde::de::{Deserialize, Deserializer, Error, Visitor};
use std::borrow::Cow;
use std::fmt;
use utoipa::openapi::RefOr;
use utoipa::openapi::schema::{ObjectBuilder, Schema, Type};
use utoipa::{PartialSchema, ToSchema};

/// A class of external or of internal threads.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ClassOf<const INTERNAL: bool> {
    text: String,
}

/// A class of external threads: 1A to 3A, 6g.
pub type ExternalClass = ClassOf<false>;
/// A class of internal threads: 1B to 3B, 6H.
pub type InternalClass = ClassOf<true>;

/// How the class that counts was found.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Chosen {
    /// It has a field of its own.
    Field,
    /// The designation names it.
    Designation,
    /// Neither names one: the usual class.
    Usual,
}

/// Thread and class contradict each other.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Clash {
    /// Why.
    pub says: String,
    /// The same thread in a way that goes with the class; none where that would be another family's.
    pub thread: Option<String>,
    /// A class that would go with the thread.
    pub class: String,
}

/// No limits for a class that was asked for.
#[derive(Clone, Debug, PartialEq)]
pub struct Lacking {
    /// True if another class in the same field would have limits; false if the thread must change.
    pub in_class: bool,
    /// What is wrong and a value to try.
    pub unread: Unread,
}

impl<const INTERNAL: bool> ClassOf<INTERNAL> {
    const SIDE: &'static str = if INTERNAL { "internal" } else { "external" };
    /// The classes of this side by families, in words.
    const CLASSES: &'static str = if INTERNAL {
        "Unified 1B, 2B, 3B; metric grade 4 to 8 with G or H, as 6H; Acme 2G, 3G, 4G; trapezoidal 7H, 8H, 9H"
    } else {
        "Unified 1A, 2A, 3A; metric grade 4, 6 or 8 with e, f, g or h, as 6g, or with another grade from 3 to 9 for the \
         pitch diameter before it, as 5g6g; Acme 2G, 3G, 4G; trapezoidal 7e, 8e, 8c, 9c; pipe G A, B"
    };

    /// Reads a class of this side, of whatever system has it.
    pub fn read(text: &str) -> Result<Self, Unread> {
        let text = text.trim();
        if let Some(text) = ThreadSystem::ALL.into_iter().find_map(|system| read_for(system, INTERNAL, text).ok()) {
            return Ok(Self { text });
        }
        if let Some(unread) = Self::centralizing(text) {
            return Err(unread);
        }
        let unified = UnifiedClass::read(text);
        // The digit of a Unified class is 1 to 3, the grade of a metric one 3 to 9.
        let is_unified = unified.is_ok() || text.starts_with(['1', '2']);
        let example = match (is_unified, INTERNAL) {
            (true, true) => "2B",
            (true, false) => "2A",
            (false, true) => "6H",
            (false, false) => "6g",
        };
        let read = if is_unified {
            unified.map(|class| class.text())
        } else {
            MetricClass::read(text).map(|class| class.text())
        };
        let said = read.map_err(|error| {
            let unread = Unread::from(error);
            let says = format!("{} Classes of {} threads: {}.", unread.says, Self::SIDE, Self::CLASSES);
            // Which of them fits is the thread's matter; without a class its usual one is taken.
            Unread { says, try_this: "leave out".into(), ..unread }
        })?;
        let says = format!("{said} is not a class of {} threads; those are {}.", Self::SIDE, Self::CLASSES);
        Err(Unread { code: Code::NotFound, says, try_this: example.into() })
    }

    /// Refuses the classes of centralizing Acme threads as what they are.
    fn centralizing(text: &str) -> Option<Unread> {
        let is_one = matches!(text.to_ascii_uppercase().as_str(), "2C" | "3C" | "4C");
        is_one.then(|| Unread {
            code: Code::NotOffered,
            says: format!(
                "\"{text}\" is a class of centralizing Acme threads, which are not offered; general purpose Acme \
                 threads have 2G, 3G and 4G."
            ),
            try_this: "2G".into(),
        })
    }

    /// The class as its standard writes it.
    pub fn as_str(&self) -> &str {
        &self.text
    }

    fn named_in(thread: &Thread) -> Option<&str> {
        if INTERNAL { thread.internal_class.as_deref() } else { thread.external_class.as_deref() }
    }

    fn usual(thread: &Thread) -> Option<&'static str> {
        let usual = default_classes(thread);
        if INTERNAL { usual.internal } else { usual.external }
    }

    /// The class that counts: of the field, else of the designation, else the usual one; `None`
    /// where the thread's system has no class on this side.
    pub fn counting(thread: &Thread, field: Option<&Self>) -> Option<(Self, Chosen)> {
        let of = |text: &str| Self { text: text.to_owned() };
        match (field, Self::named_in(thread), Self::usual(thread)) {
            (Some(class), _, _) => Some((class.clone(), Chosen::Field)),
            (None, Some(named), _) => Some((of(named), Chosen::Designation)),
            (None, None, usual) => usual.map(|usual| (of(usual), Chosen::Usual)),
        }
    }

    /// What speaks against the class of the field beside this thread.
    pub fn clash(thread: &Thread, field: Option<&Self>) -> Option<Clash> {
        let class = field?;
        let usual = Self::usual(thread).unwrap_or("leave out");
        if read_for(thread.system, INTERNAL, &class.text).is_err() {
            let of = ThreadSystem::ALL.into_iter().find(|system| read_for(*system, INTERNAL, &class.text).is_ok());
            let of = of.unwrap_or(ThreadSystem::Unified);
            return Some(Clash {
                says: format!(
                    "{} is a class of {} threads, but {} is not one{}.",
                    class.text,
                    of.words(),
                    thread.designation,
                    Self::offered(thread.system)
                ),
                thread: None,
                class: usual.into(),
            });
        }
        let named = Self::named_in(thread)?;
        (named != class.text).then(|| Clash {
            says: format!("The designation names class {named}, but the class given is {}.", class.text),
            thread: Some(thread.designation.clone()),
            class: named.into(),
        })
    }

    /// The classes that a family of threads has on this side, as the end of a sentence.
    fn offered(system: ThreadSystem) -> String {
        let classes = match (system, INTERNAL) {
            (ThreadSystem::Unified, true) => UNIFIED_INTERNAL_CLASSES.join(", "),
            (ThreadSystem::Unified, false) => UNIFIED_EXTERNAL_CLASSES.join(", "),
            (ThreadSystem::Metric, true) => "a grade from 4 to 8 with G or H, as 6H".into(),
            (ThreadSystem::Metric, false) => {
                "a grade of 4, 6 or 8 with e, f, g or h, as 6g, or with a grade from 3 to 9 for the pitch diameter before \
                 it, as 3g4g"
                    .into()
            }
            (ThreadSystem::PipeParallel, false) => "A, B".into(),
            (ThreadSystem::Acme, _) => acme::CLASSES.join(", "),
            (ThreadSystem::Trapezoidal, true) => trapezoidal::INTERNAL.join(", "),
            (ThreadSystem::Trapezoidal, false) => trapezoidal::EXTERNAL.join(", "),
            _ => return String::new(),
        };
        format!("; its classes are {classes}")
    }

    /// Who has to change where `error` says that there are no limits for a class asked for.
    pub fn lacking(thread: &Thread, chosen: Chosen, error: DesignationError) -> Lacking {
        let has_limits = if INTERNAL {
            internal_limits(thread, Self::usual(thread), None).is_ok()
        } else {
            external_limits(thread, Self::usual(thread), None).is_ok()
        };
        let in_class = has_limits && chosen == Chosen::Field;
        let mut unread = Unread::from(error);
        if !in_class && has_limits {
            unread.try_this = format!("{}-{}", thread.designation, unread.try_this);
        }
        Lacking { in_class, unread }
    }
}

impl<const INTERNAL: bool> IntoTree for ClassOf<INTERNAL> {
    fn tree(&self) -> Option<Node> {
        Some(Node::Text(self.text.clone().into(), None))
    }
}

impl<'de, const INTERNAL: bool> Deserialize<'de> for ClassOf<INTERNAL> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(ClassVisitor::<INTERNAL>)
    }
}

struct ClassVisitor<const INTERNAL: bool>;

impl<const INTERNAL: bool> Visitor<'_> for ClassVisitor<INTERNAL> {
    type Value = ClassOf<INTERNAL>;

    fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
        write!(f, "a class of {} threads such as \"{}\"", Self::Value::SIDE, if INTERNAL { "6H" } else { "6g" })
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<Self::Value, E> {
        ClassOf::read(text).map_err(carry)
    }
}

impl<const INTERNAL: bool> FieldType for ClassOf<INTERNAL> {
    const TYPE: TypeFacts = TypeFacts::named::<Self>(Shape::Words);
}

impl<const INTERNAL: bool> PartialSchema for ClassOf<INTERNAL> {
    fn schema() -> RefOr<Schema> {
        let (pattern, about, examples) = if INTERNAL {
            let pattern = "(?:[1-3]B|[2-4]G|[4-8][GH]|9H|[4-8]G[4-8]G|[4-8]H[4-8]H)";
            let about = "1B, 2B, 3B; grade with G or H, as 6H; 2G, 3G, 4G for Acme; 7H, 8H, 9H for trapezoidal";
            (pattern, about, ["2B", "6H"])
        } else {
            let pattern =
                "(?:[1-3]A|[2-4]G|[AB]|7e|8c|9c|[468][e-h]|[3-9]e[468]e|[3-9]f[468]f|[3-9]g[468]g|[3-9]h[468]h)";
            let about = "1A, 2A, 3A; grade with e, f, g or h, as 6g or 5g6g; A, B for G; 2G, 3G, 4G for Acme; 7e, 8e, \
                         8c, 9c for trapezoidal";
            (pattern, about, ["2A", "6g"])
        };
        ObjectBuilder::new()
            .schema_type(Type::String)
            .pattern(Some(listed(pattern)))
            .description(Some(format!("A class of {} threads: {about}; or several parted by |.", Self::SIDE)))
            .examples(examples)
            .into()
    }
}

impl<const INTERNAL: bool> ToSchema for ClassOf<INTERNAL> {
    fn name() -> Cow<'static, str> {
        Cow::Borrowed(if INTERNAL { "InternalClass" } else { "ExternalClass" })
    }
}

#[cfg(test)]
mod tests {
    use super::super::{ErrorKind, read};
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn a_class_is_read_and_the_other_sides_is_refused() {
        assert_eq!(ExternalClass::read("2a").unwrap().as_str(), "2A");
        assert_eq!(ExternalClass::read(" 6g6g ").unwrap().as_str(), "6g");
        assert_eq!(InternalClass::read("6H").unwrap().as_str(), "6H");
        let refused = |unread: Unread| (unread.code, unread.try_this);
        assert_eq!(refused(ExternalClass::read("2B").unwrap_err()), (Code::NotFound, "2A".into()));
        assert_eq!(refused(InternalClass::read("6h").unwrap_err()), (Code::NotFound, "6H".into()));
        // A class of centralizing Acme threads, which are another standard's part.
        assert_eq!(refused(InternalClass::read("2C").unwrap_err()), (Code::NotOffered, "2G".into()));
        assert_eq!(refused(InternalClass::read("2D").unwrap_err()).0, Code::NotFound);
        assert_eq!(refused(ExternalClass::read("6c").unwrap_err()).0, Code::NotFound);
    }

    #[test]
    fn the_field_comes_before_the_designation_and_the_usual_class_last() {
        let thread = read("M8-6g").unwrap();
        let field = ExternalClass::read("6g").unwrap();
        assert_eq!(ExternalClass::counting(&thread, Some(&field)).unwrap().1, Chosen::Field);
        assert_eq!(ExternalClass::counting(&thread, None).unwrap().1, Chosen::Designation);
        let (class, chosen) = InternalClass::counting(&thread, None).unwrap();
        assert_eq!((class.as_str(), chosen), ("6H", Chosen::Usual));
    }

    #[test]
    fn a_class_that_contradicts_the_thread_is_a_clash_with_a_way_out() {
        let clash = |thread: &str, class: &str| {
            ExternalClass::clash(&read(thread).unwrap(), Some(&ExternalClass::read(class).unwrap()))
        };
        assert_eq!(clash("M8-6g", "6g"), None);
        for (thread, class) in [("M8", "2A"), ("1/4-20", "6g"), ("M8-6g", "6h"), ("1/4-20 UNC-2A", "3A")] {
            let found = clash(thread, class).unwrap();
            assert!(found.thread.as_ref().is_none_or(|thread| clash(thread, class).is_none()), "{found:?}");
            assert_eq!(clash(thread, &found.class), None, "{found:?}");
        }
    }

    #[test]
    fn where_limits_lack_the_value_to_try_has_them() {
        let lacking = |thread: &str, chosen| {
            let thread = read(thread).unwrap();
            let error = external_limits(&thread, Some("8g"), None).unwrap_err();
            assert_eq!(error.kind, ErrorKind::ClassWithoutData);
            ExternalClass::lacking(&thread, chosen, error)
        };
        let field = lacking("M3", Chosen::Field);
        assert!(field.in_class);
        let class = Some(field.unread.try_this.as_str());
        assert!(external_limits(&read("M3").unwrap(), class, None).is_ok(), "{field:?}");
        for found in [lacking("M3-8g", Chosen::Designation), lacking("M400x6", Chosen::Field)] {
            assert!(!found.in_class);
            let thread = read(&found.unread.try_this).unwrap();
            assert!(external_limits(&thread, None, None).is_ok(), "{found:?}");
        }
    }

    proptest! {
        #[test]
        fn any_text_is_a_class_or_refused_with_one(text in any::<String>(), near in "[0-9]?[A-Za-z]?[0-9]?[a-zA-Z]?") {
            for text in [&text, &near] {
                if let Err(unread) = ExternalClass::read(text) {
                    let way_out = unread.try_this.as_str();
                    prop_assert!(way_out == "leave out" || ExternalClass::read(way_out).is_ok());
                }
                if let Ok(class) = InternalClass::read(text) {
                    prop_assert_eq!(InternalClass::read(class.as_str()), Ok(class));
                }
            }
        }

        #[test]
        fn every_class_of_the_published_pattern_is_read(
            outside in "([1-3]A|[2-4]G|[AB]|7e|8c|9c|[468][e-h]|[3-9]e[468]e|[3-9]f[468]f|[3-9]g[468]g|[3-9]h[468]h)",
            inside in "([1-3]B|[2-4]G|9H|[4-8][GH]|[4-8]G[4-8]G|[4-8]H[4-8]H)",
        ) {
            prop_assert!(ExternalClass::read(&outside).is_ok());
            prop_assert!(InternalClass::read(&inside).is_ok());
        }
    }
}
