//! Columns: what the rows of a list have in one place, as a step shows it.

use super::Shown;
use crate::quantity::{Found, Kind};

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
