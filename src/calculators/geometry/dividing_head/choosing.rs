//! Which ways an answer has: those of the methods named, else the simplest that is exact; and what to mind with them.

use super::moves::{IndexMethod, Move, Wanted, compound, differential, direct, nearest_simple, simple};
use super::{DividingHeadInput, allows};
use crate::calculators::prelude::*;
use crate::reference::index_plates::{PlateSide, usual_gears};

/// The ways, the simplest first.
pub fn choose(input: &DividingHeadInput, wanted: &Wanted, record: &mut Record) -> Result<Vec<Move>, Refusal> {
    let named = |method| allows(input, method);
    let mut ways: Vec<Move> = Vec::new();
    if named(IndexMethod::Direct) != Some(false) {
        ways.extend(input.direct_holes.and_then(|holes| direct(wanted, holes.get())));
    }
    let by_direct_alone = input.methods.as_ref().is_some_and(|all| all.iter().all(|one| *one == IndexMethod::Direct));
    if by_direct_alone {
        return if ways.is_empty() { Err(no_direct(input)) } else { Ok(ways) };
    }
    let plates = plates(input, record);
    if named(IndexMethod::Simple) != Some(false) {
        let exact = simple(wanted, &plates);
        let is_last = exact.is_empty() && named(IndexMethod::Simple) == Some(true) && ways.is_empty();
        ways.extend(if is_last { nearest_simple(wanted, &plates) } else { exact });
    }
    // Where none are named, the harder ways are for what the easier cannot do.
    let look = |method, ways: &[Move]| named(method).unwrap_or(ways.is_empty());
    let (by_two, by_gears) = (look(IndexMethod::Compound, &ways), look(IndexMethod::Differential, &ways));
    if by_two {
        ways.extend(compound(wanted, &plates, false)?);
    }
    if let Some(divisions) = wanted.divisions.filter(|_| by_gears) {
        ways.extend(differential(wanted, divisions, &plates, &gears(input, record))?);
    }
    if ways.is_empty() && named(IndexMethod::Simple).is_none() {
        ways.extend(nearest_simple(wanted, &plates));
    }
    let has_exact = ways.iter().any(|way| way.worm == wanted.turns());
    if by_two && !has_exact {
        ways.extend(compound(wanted, &plates, true)?);
    }
    match ways.is_empty() {
        true => Err(none(wanted)),
        false => Ok(ways),
    }
}

/// The plates to choose from, with their source.
fn plates(input: &DividingHeadInput, record: &mut Record) -> Vec<PlateSide> {
    let plates = input.plates(record);
    if let Some(row) = plates.row() {
        record.source_of_row(row.source(), "index_plates.csv, circles of the plates", &row.trust);
    }
    plates.sides
}

/// The gears to choose from, those of the usual set with their source.
fn gears(input: &DividingHeadInput, record: &mut Record) -> Vec<u32> {
    if let Some(own) = &input.gears {
        return own.clone();
    }
    let Some((gears, row)) = usual_gears() else { return Vec::new() };
    record.assume(
        "gears",
        &gears,
        "The usual change gears of a dividing head, from memory: look at what came with yours.",
    );
    record.source_of_row(row.source(), "index_plates.csv, change gears", &row.trust);
    gears
}

fn no_direct(input: &DividingHeadInput) -> Refusal {
    let holes = input.direct_holes.map_or(24, Count::get);
    let divides: Vec<String> = (2..=holes).filter(|n| holes.is_multiple_of(*n)).map(|n| n.to_string()).collect();
    let says = match input.divisions {
        Some(_) => format!("A direct plate of {holes} holes divides into {} only.", divides.join(", ")),
        None => format!("No hole of a direct plate of {holes} holes lies at that angle."),
    };
    Refusal::no_answer(&says, &[("methods", "direct,simple".into())])
}

fn none(wanted: &Wanted) -> Refusal {
    let says = match wanted.divisions {
        Some(_) => "These methods do not make the step with these plates and gears.",
        None => "These methods do not make this angle with these plates.",
    };
    Refusal::no_answer(says, &[("methods", "simple".into())])
}

/// What to mind with these ways.
pub fn tell(ways: &[Move], exact: bool, record: &mut Record) {
    record.caution(cautions::TURNING_SPINDLE);
    record.caution(cautions::MILLING);
    record.caution((
        "lock_spindle",
        "Unlock the spindle of the head before you index and lock it before each cut; stop the cutter or draw it clear \
         of the work first.",
    ));
    let has = |method| ways.iter().any(|way| way.method == method);
    notes!(record => crank_one_way:
        "Turn the crank one way only. If it goes past the hole, go back half a turn and come up to the hole again, so \
         that the play of the worm does not matter.");
    if ways.iter().any(|way| way.first.is_some() && way.method != IndexMethod::Direct) {
        notes!(record => sector_arms:
            "Set the sector arms over the holes to move and one more: the hole with the pin is not counted. After each \
             step turn the arms up to the pin.");
    }
    if has(IndexMethod::Direct) {
        notes!(record => worm_out:
            "For direct indexing take the worm out of mesh and turn the spindle by hand to the hole of its own plate.");
    }
    if has(IndexMethod::Compound) {
        notes!(record => two_circles:
            "Compound: with the pin in the first circle, turn the crank by the first movement. Then leave the pin in, \
             withdraw the stop pin behind the plate, which must stand in the second circle, and turn crank and plate \
             together by the second movement. It is easy to miscount: mark the holes.");
    }
    if has(IndexMethod::Differential) {
        notes!(record => plate_turns:
            "Differential: withdraw the stop pin behind the plate, or the plate cannot turn. The gears go from the \
             spindle, which takes the first driver, to the worm gear shaft. The head must stand level, and no gears can \
             be used for a helix meanwhile.";
            idlers_by_trial:
            "The idlers are those of the usual head. Turn the crank and look: the plate must turn with it or against \
             it as said here; if not, put one idler in or take one out.");
    }
    if !exact {
        record.caution((
            "step_adds_up",
            "The step is not exact, and what it is off adds up from step to step. Set each place from zero by the table, \
             and ask whether the part allows it before you cut.",
        ));
    }
}
