//! Steps whose values are known before they are told, such as the sums that a standard prints, as rows.

use super::StepDraft;

impl StepDraft<'_> {
    /// A symbol that stands for what an earlier step gave in the field `of`.
    pub fn recall(self, symbol: &'static str, of: &'static str) -> Self {
        let earlier = self.record.steps.iter().rev().find(|step| step.field == of).map(|step| step.gives.clone());
        debug_assert!(earlier.is_some() || !self.record.keep_working, "no earlier step gives {of}");
        match earlier {
            Some(value) => self.with(symbol, of, value),
            None => self,
        }
    }
}

/// Puts steps on record, one a row: `step` with words and formula or `look_up` with words and table; its symbols,
/// each with the earlier step's field that it stands for (`D = "size"`), with a field and its value
/// (`W = "wire": wire`), or with a constant (`k = const: HEIGHT`); and after the arrow the field that it gives with
/// its value. Where the value can be computed from the formula as it stands, `step!` does both.
macro_rules! known_steps {
    (@of $draft:ident, $symbol:ident, const, $constant:expr) => {
        $draft.constant(stringify!($symbol), &$constant)
    };
    (@of $draft:ident, $symbol:ident, $of:tt, $value:expr) => {
        $draft.with(stringify!($symbol), $of, $value)
    };
    (@of $draft:ident, $symbol:ident, $of:tt) => {
        $draft.recall(stringify!($symbol), $of)
    };
    ($record:ident; $($kind:ident $what:expr, $how:expr $(, $symbol:ident = $of:tt $(: $value:expr)?)*
        => $field:expr, $gives:expr;)*) => {
        {
            $(
                let draft = $record.$kind($what, $how);
                $(let draft = $crate::working::known_steps!(@of draft, $symbol, $of $(, $value)?);)*
                draft.gives($field, $gives);
            )*
        }
    };
}

pub(crate) use known_steps;
