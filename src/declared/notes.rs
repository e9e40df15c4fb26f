//! Notes as rows.

/// Puts notes on record, each with its code: `notes!(record => one_side: "…"; measure_again: "…");`.
macro_rules! notes {
    ($record:expr => $($code:ident: $says:expr);+ $(;)?) => {{ $($record.note(stringify!($code), $says);)+ }};
}
pub(crate) use notes;
