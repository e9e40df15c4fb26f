//! Steps for places visited one after the other: the moves between them on one axis, and how far
//! the tool has gone in all.

use crate::quantity::{Found, FoundMove, FoundPlace, Kind, SiValue};
use crate::working::Record;

/// One axis of a list of places: what the steps call its columns.
#[derive(Clone, Copy, Debug)]
pub struct Axis {
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
pub fn write_moves(
    places: &[FoundPlace],
    (first, named): (FoundPlace, &str),
    axis: Axis,
    record: &mut Record,
) -> Vec<FoundMove> {
    let Axis { symbol, places: of, before: before_field, moves: field } = axis;
    let before: Vec<FoundPlace> = std::iter::once(first).chain(places.iter().copied()).take(places.len()).collect();
    let moves: Vec<FoundMove> =
        places.iter().zip(&before).map(|(at, from)| FoundMove::of(at.get() - from.get())).collect();
    record
        .look_up("Place before it", format!("row above in {of}; {named} for the first"))
        .with(symbol, of, places.to_vec())
        .gives(before_field, before.clone());
    record
        .step("Move from the place before", format!("d = {symbol} - b"))
        .with(symbol, of, places.to_vec())
        .with("b", before_field, before)
        .gives(field, moves.clone());
    moves
}

/// What the steps of a running sum call its columns.
#[derive(Clone, Copy, Debug)]
pub struct Sum {
    /// What is added up, such as `Distance`.
    pub what: &'static str,
    /// The column of parts.
    pub parts: &'static str,
    /// What the step gives that looks up the sum so far.
    pub before: &'static str,
    /// The column of sums.
    pub running: &'static str,
    /// The sum of all.
    pub total: &'static str,
}

/// The sum of a column, by a running sum whose every row can be followed.
pub fn write_sum<K: Kind>(parts: &[Found<K>], sum: Sum, record: &mut Record) -> Found<K> {
    let mut at = 0.0;
    let mut before = Vec::with_capacity(parts.len());
    let mut running = Vec::with_capacity(parts.len());
    for part in parts {
        before.push(Found::<K>::of(K::Si::from_si(at)));
        at += part.get().si();
        running.push(Found::<K>::of(K::Si::from_si(at)));
    }
    let total = Found::of(K::Si::from_si(at));
    record
        .look_up(format!("{} before it", sum.what), format!("row above in {}; 0 for the first", sum.running))
        .with("p", sum.parts, parts.to_vec())
        .gives(sum.before, before.clone());
    record
        .step(format!("{} so far", sum.what), "r = b + p")
        .with("b", sum.before, before)
        .with("p", sum.parts, parts.to_vec())
        .gives(sum.running, running.clone());
    record
        .choose(format!("{} in all", sum.what), "the last row")
        .with("r", sum.running, running)
        .gives(sum.total, total);
    total
}
