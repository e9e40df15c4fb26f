//! Steps for places visited one after the other: the moves between them on one axis, and what a
//! column of them comes to in all.

use crate::quantity::{Found, FoundMove, FoundPlace, Kind, SiValue};
use crate::working::Record;

/// One axis of a list of places: what the steps call its columns.
#[derive(Clone, Copy, Debug)]
pub struct AxisColumns {
    /// The symbol of a place.
    pub symbol: &'static str,
    /// The column of places.
    pub places: &'static str,
    /// What the step gives that looks up the places before.
    pub before: &'static str,
    /// The column of moves.
    pub moves: &'static str,
}

/// The move to each place from the one before it; to the first from `first`, which `named` says
/// what it is.
pub fn find_moves(
    places: &[FoundPlace],
    (first, named): (FoundPlace, &str),
    axis: AxisColumns,
    record: &mut Record,
) -> Vec<FoundMove> {
    let AxisColumns { symbol, places: of, before: before_field, moves: field } = axis;
    let before: Vec<FoundPlace> = std::iter::once(first).chain(places.iter().copied()).take(places.len()).collect();
    let moves: Vec<FoundMove> =
        places.iter().zip(&before).map(|(at, from)| FoundMove::of(at.get() - from.get())).collect();
    record
        .look_up("Place before it", format!("the row above; {named} for the first"))
        .with(symbol, of, places.to_vec())
        .gives(before_field, before.clone());
    record
        .step("Move from the place before", format!("d = {symbol} - b"))
        .with(symbol, of, places.to_vec())
        .with("b", before_field, before)
        .gives(field, moves.clone());
    moves
}

/// The sum of a column, `of`, as `field`.
pub fn find_sum<K: Kind>(
    what: &'static str,
    parts: &[Found<K>],
    of: &'static str,
    field: &'static str,
    record: &mut Record,
) -> Found<K> {
    let sum = Found::of(K::Si::from_si(parts.iter().map(|part| part.get().si()).sum()));
    record.step(what, "S = sum(p)").with("p", of, parts.to_vec()).gives(field, sum);
    sum
}
