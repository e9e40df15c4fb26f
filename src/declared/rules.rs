//! Rules rule_broken fields as rows: when each is broken, its words and its ways out.

use crate::quantity::{Kind, Measure, SiValue};
use crate::refusal::{Code, rule_broken};
use validator::{ValidationError, ValidationErrors};

/// A rule rule_broken the fields of `I`.
pub struct Rule<I: 'static> {
    /// Whether it is broken.
    pub broken: fn(&I) -> bool,
    /// What kind of wrong that is.
    pub code: Code,
    /// What is wrong, in words.
    pub says: &'static str,
    /// Each field that it binds, with a value that would be right.
    pub ways: &'static [(&'static str, &'static str)],
}

/// The refusal of the first rule that is broken.
pub fn first_broken<I>(rules: &[Rule<I>], input: &I) -> Result<(), ValidationError> {
    match rules.iter().find(|rule| (rule.broken)(input)) {
        Some(rule) => Err(rule_broken(rule.code, rule.says, rule.ways)),
        None => Ok(()),
    }
}

/// Adds what a check found to what others did.
pub fn add_broken(errors: &mut Option<ValidationErrors>, found: Result<(), ValidationError>) {
    if let Err(error) = found {
        errors.get_or_insert_default().add("__all__", error);
    }
}

/// What can be larger or smaller, if it is there.
pub trait HasSize {
    /// Its size in SI units.
    fn size(&self) -> Option<f64>;
}

impl<K: Kind> HasSize for Measure<K> {
    fn size(&self) -> Option<f64> {
        Some(self.get().si())
    }
}

impl HasSize for u32 {
    fn size(&self) -> Option<f64> {
        Some(f64::from(*self))
    }
}

impl<T: HasSize> HasSize for Option<T> {
    fn size(&self) -> Option<f64> {
        self.as_ref().and_then(HasSize::size)
    }
}

/// A field, a value to try for it, and whether it is given.
pub type Stated = (&'static str, &'static str, bool);

/// Fields of an input, with values to try where those are told: `stated!(input: width = "40 mm", pitch)`.
macro_rules! stated {
    ($input:ident: $($field:ident $(= $value:literal)?),+) => {
        [$((stringify!($field), concat!($($value)?), $input.$field.is_some())),+]
    };
}
pub(crate) use stated;

/// Those of the fields that are given, to be left out.
pub fn to_leave_out(fields: &[Stated]) -> Vec<(&'static str, &'static str)> {
    fields.iter().filter(|(_, _, given)| *given).map(|(field, ..)| (*field, "leave out")).collect()
}

/// Those of the fields that are missing, with the values to try.
pub fn to_give(fields: &[Stated]) -> Vec<(&'static str, &'static str)> {
    fields.iter().filter(|(_, _, given)| !given).map(|(field, value, _)| (*field, *value)).collect()
}

/// Declares `fn $check(&$input) -> Result<(), ValidationError>` from rows; the first that is broken is refused:
///
/// - `not_both(a, b): "…"`: at most one of them; the way out is to leave one out;
/// - `one_of(a = "1 in", b = "2 in"): "…"`: at least one of them, with values to try;
/// - `needs(a => b = "1 in"): "…"`: with `a` also `b`; other ways out may follow, such as `a = "leave out"`;
/// - `needs_any(a => b | c, a = "leave out", b = "1 in"): "…"`: with `a` also `b` or `c`;
/// - `smaller(a < b, c = "1 in"): "…"`, `at_most(a <= b, c = "1 in"): "…"`: sizes, where both are there;
/// - `never(|input| condition, Code::Conflict, a = "1 in"): "…"`: any other condition.
#[macro_export]
macro_rules! rules {
    ($vis:vis $check:ident($input:ty) { $($kind:ident($($row:tt)*): $says:expr;)* }) => {
        $vis fn $check(input: &$input) -> Result<(), validator::ValidationError> {
            const RULES: &[$crate::declared::Rule<$input>] =
                &[$($crate::rules!(@ $input, $says, $kind, $($row)*)),*];
            $crate::declared::first_broken(RULES, input)
        }
    };
    (@ $input:ty, $says:expr, not_both, $a:ident, $b:ident) => {
        $crate::rules!(@row $says, Conflict, |input: &$input| input.$a.is_some() && input.$b.is_some(),
            $a = "leave out", $b = "leave out")
    };
    (@ $input:ty, $says:expr, one_of, $($a:ident = $value:expr),+) => {
        $crate::rules!(@row $says, FieldMissing, |input: &$input| $(input.$a.is_none())&&+, $($a = $value),+)
    };
    (@ $input:ty, $says:expr, needs, $a:ident => $b:ident = $value:expr $(, $c:ident = $other:expr)*) => {
        $crate::rules!(@row $says, Conflict, |input: &$input| input.$a.is_some() && input.$b.is_none(),
            $b = $value $(, $c = $other)*)
    };
    (@ $input:ty, $says:expr, needs_any, $a:ident => $($b:ident)|+ $(, $c:ident = $value:expr)+) => {
        $crate::rules!(@row $says, Conflict, |input: &$input| input.$a.is_some() && $(input.$b.is_none())&&+
            $(, $c = $value)+)
    };
    (@ $input:ty, $says:expr, smaller, $a:ident < $b:ident $(, $c:ident = $value:expr)+) => {
        $crate::rules!(@row $says, Conflict, |input: &$input| {
            use $crate::declared::HasSize;
            input.$a.size().zip(input.$b.size()).is_some_and(|(a, b)| a >= b)
        } $(, $c = $value)+)
    };
    (@ $input:ty, $says:expr, at_most, $a:ident <= $b:ident $(, $c:ident = $value:expr)+) => {
        $crate::rules!(@row $says, Conflict, |input: &$input| {
            use $crate::declared::HasSize;
            input.$a.size().zip(input.$b.size()).is_some_and(|(a, b)| a > b)
        } $(, $c = $value)+)
    };
    (@ $input:ty, $says:expr, never, |$name:ident| $condition:expr, Code::$code:ident $(, $a:ident = $value:expr)+) => {
        $crate::rules!(@row $says, $code, |$name: &$input| $condition $(, $a = $value)+)
    };
    (@row $says:expr, $code:ident, $broken:expr $(, $a:ident = $value:expr)+) => {
        $crate::declared::Rule {
            broken: $broken,
            code: $crate::refusal::Code::$code,
            says: $says,
            ways: &[$((stringify!($a), $value)),+],
        }
    };
}
