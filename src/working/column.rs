//! Columns: what the rows of a list have in one place, as a step shows it; and steps written with each thing named once.

use super::Shown;
use crate::quantity::{Found, Kind, Measure};

/// What can stand in a column.
pub trait InColumn: Sized {
    /// A column of such.
    fn shown(column: Vec<Self>) -> Shown;
}

/// One column of the rows; a row that has nothing there is passed over.
pub fn column<R, C: InColumn>(rows: &[R], of: impl Fn(&R) -> C) -> Shown {
    C::shown(rows.iter().map(of).collect())
}

macro_rules! as_shown {
    ($($of:ty),*) => {
        $(impl InColumn for $of {
            fn shown(column: Vec<Self>) -> Shown {
                column.into()
            }
        })*
    };
}

as_shown!(f64, String, &'static str);

impl<K: Kind> InColumn for Found<K> {
    fn shown(column: Vec<Self>) -> Shown {
        column.into()
    }
}

impl<K: Kind> InColumn for Measure<K> {
    fn shown(column: Vec<Self>) -> Shown {
        column.as_slice().into()
    }
}

impl InColumn for u32 {
    fn shown(column: Vec<Self>) -> Shown {
        Shown::Numbers(column.into_iter().map(f64::from).collect())
    }
}

impl InColumn for bool {
    fn shown(column: Vec<Self>) -> Shown {
        Shown::Texts(column.into_iter().map(|truth| if truth { "true" } else { "false" }.into()).collect())
    }
}

impl<C: InColumn> InColumn for Option<C> {
    fn shown(column: Vec<Self>) -> Shown {
        C::shown(column.into_iter().flatten().collect())
    }
}

/// Ends a step that [`step!`](crate::declared::step) cannot compute, since it looks something up, chooses, or runs over
/// lists; each symbol and what the step gives is named once:
///
/// ```ignore
/// tell!(record.step("Their holes", "h = d + o"),
///     d = candidates.diameter, o = expected_oversize: oversize => candidates.hole_diameter);
/// ```
///
/// `d = candidates.diameter` is that field of each of the `candidates`, a variable; `o = expected_oversize: oversize`
/// is any other value, `o = expected_oversize` the variable of that name; so with what the step gives. A
/// path is written in quotes, a field that an expression names in parentheses.
#[macro_export]
macro_rules! tell {
    (@of $field:ident) => { stringify!($field) };
    (@of ($of:expr)) => { $of };
    (@of $of:literal) => { $of };
    (@ ($draft:expr) => $list:ident.$field:ident) => {
        $draft.gives(
            concat!(stringify!($list), ".", stringify!($field)),
            $crate::working::column(&$list, |row| Clone::clone(&row.$field)),
        )
    };
    (@ ($draft:expr) => $of:tt: $value:expr) => { $draft.gives($crate::tell!(@of $of), $value) };
    (@ ($draft:expr) => $field:ident) => { $draft.gives(stringify!($field), $field) };
    (@ ($draft:expr), $($rest:tt)+) => { $crate::tell!(@ ($draft) $($rest)+) };
    (@ ($draft:expr) $symbol:ident = $list:ident.$field:ident $($rest:tt)+) => {
        $crate::tell!(@ ($draft.with(
            stringify!($symbol),
            concat!(stringify!($list), ".", stringify!($field)),
            $crate::working::column(&$list, |row| Clone::clone(&row.$field)),
        )) $($rest)+)
    };
    (@ ($draft:expr) $symbol:ident = $of:tt: $value:expr, $($rest:tt)+) => {
        $crate::tell!(@ ($draft.with(stringify!($symbol), $crate::tell!(@of $of), $value)) $($rest)+)
    };
    (@ ($draft:expr) $symbol:ident = $of:tt: $value:expr => $($rest:tt)+) => {
        $crate::tell!(@ ($draft.with(stringify!($symbol), $crate::tell!(@of $of), $value)) => $($rest)+)
    };
    (@ ($draft:expr) $symbol:ident = $field:ident $($rest:tt)+) => {
        $crate::tell!(@ ($draft.with(stringify!($symbol), stringify!($field), $field)) $($rest)+)
    };
    ($draft:expr => $($rest:tt)+) => { $crate::tell!(@ ($draft) => $($rest)+) };
    ($draft:expr, $($rest:tt)+) => { $crate::tell!(@ ($draft) $($rest)+) };
}
