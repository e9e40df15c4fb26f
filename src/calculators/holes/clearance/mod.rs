//! The hole that a screw passes through, the drill for it, and a slot where the screw is to be adjusted (holes after
//! ISO 273 and ASME B18.2.8; the slot is plane geometry).

mod drawing;

use crate::calculators::prelude::*;
use crate::fastening::{HoleFit, ScrewAndFit, ThroughHole, clearance_of};

/// The calculator.
pub struct Clearance;

/// What the clearance hole calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct ClearanceInput {
    /// The screw and its hole.
    #[group]
    pub hole: ScrewAndFit,
    /// How far the screw is to be moved along a slot; give it for a slot in place of a round hole.
    pub adjustment: Option<Size>,
    /// Diameter of the end mill that cuts the slot, where it is narrower than the slot.
    #[label("End mill for the slot")]
    pub cutter_diameter: Option<Size>,
}

/// A hole of one fit.
#[derive(Debug, Gives)]
pub struct ClearanceFit {
    /// The fit.
    pub fit: HoleFit,
    /// Least diameter of the hole.
    #[label("Hole")]
    pub diameter: FoundSize,
    /// Greatest diameter of the hole.
    #[label("Hole, greatest")]
    pub greatest: FoundUpperLimit,
}

/// A slot for an adjustment.
#[derive(Debug, Gives)]
pub struct Slot {
    /// Width of the slot, that of the clearance hole; needs the adjustment.
    pub slot_width: FoundSize,
    /// Length of the slot over its round ends; needs the adjustment.
    pub slot_length: FoundSize,
}

/// How a narrower end mill cuts the slot.
#[derive(Debug, Gives)]
pub struct SlotMoves {
    /// How far the end mill's center goes along the slot, from end to end.
    #[label("End mill goes along")]
    pub cutter_travel: FoundExtent,
    /// How far its center goes to each side of the slot's middle line.
    #[label("End mill goes to each side")]
    pub cutter_offset: FoundExtent,
}

/// What the clearance hole calculator gives.
#[derive(Debug, Gives)]
pub struct ClearanceResult {
    /// The hole and its drill.
    #[group]
    pub hole: ThroughHole,
    /// How far each of two holes may be off its place where both parts have this hole.
    #[label("Each hole off its place, both clear")]
    pub off_place: FoundExtent,
    /// How far each hole may be off its place where the other part is tapped.
    #[label("Each hole off its place, one tapped")]
    pub off_place_tapped: FoundExtent,
    /// The slot.
    #[group]
    #[needs(adjustment)]
    pub slot: Option<Slot>,
    /// The moves of a narrower end mill.
    #[group]
    #[needs(adjustment, cutter_diameter)]
    pub moves: Option<SlotMoves>,
    /// The holes of the three fits.
    #[label("Holes by fit", "fit")]
    pub fits: Vec<ClearanceFit>,
}

rules! { check(ClearanceInput) {
    needs(cutter_diameter => adjustment = "10 mm", cutter_diameter = "leave out"):
        "The end mill is for a slot: give how far the screw is to be moved too.";
} }

impl Calculator for Clearance {
    const ID: &'static str = "holes/clearance";
    const TITLE: &'static str = "Clearance hole for a screw";
    const ABOUT: &'static str = "The close, medium or free hole that a screw passes through, its limits, the drill for it, \
        and the slot for a screw that is to be adjusted.";
    const TASK: Task = Task::MakeTheHole;
    const ANOTHER_CHECK: &'static str =
        "Drop the screw through: it falls of its own weight. A pin of the greatest size does not go in.";
    const WORDS: &'static str = "clearance hole, clearance, through hole, bolt hole, screw hole, free fit, close fit, \
        normal fit, loose fit, slot, slotted hole, adjustment slot, body drill, ISO 273, B18.2.8";
    const EXAMPLES: &'static [Example] = examples! {
        "The hole for an M12 screw in a winch foot.": screw = "M12", fit = "medium", from = "tables";
        "A 1/4-20 screw through a pump cover whose holes were laid out by hand.":
            screw = "1/4-20 UNC", fit = "free", systems = "fraction,number,letter";
        "A motor of the mill slides 20 mm in slots for M8 screws; an 8 mm end mill cuts them.":
            screw = "M8", adjustment = "20 mm", cutter_diameter = "8 mm";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "What is the {fit} hole for an {screw} screw?" => "hole_diameter":
            { screw = "M5" | "M6" | "M8" | "M10" | "M12" | "M16", fit = "close" | "medium" | "free", from = "tables" };
        1 "Which drill makes the {fit} hole for a {screw} screw? Give its size." => "drill/diameter":
            { screw = "1/4" | "5/16" | "3/8" | "1/2", fit = "close" | "medium" | "free", units = "inch", from = "tables" };
        2 "How large may the {fit} hole for an {screw} screw come out?" => "hole_max":
            { screw = "M6" | "M8" | "M10" | "M12", fit = "close" | "medium", from = "tables" };
        2 "A bracket is to slide {adjustment} under an {screw} screw. How long is the slot over its ends, of medium fit?"
            => "slot_length":
            { screw = "M6" | "M8" | "M10", adjustment = "10 mm" | "15 mm" | "25 mm", fit = "medium", from = "tables" };
        3 "Two plates both have {fit} holes for {screw} screws. How far may each hole be off its place?" => "off_place":
            { screw = "M6" | "M8" | "M12", fit = "medium" | "free", from = "tables" };
        3 "A slot of medium fit for {screw} and {adjustment} of adjustment is cut with a {cutter_diameter} end mill. How far            does its center go along the slot?" => "cutter_travel":
            { screw = "M8" | "M10", adjustment = "20 mm" | "30 mm", cutter_diameter = "6 mm" | "8 mm", from = "tables" };
    };
    type Input = ClearanceInput;
    type Output = ClearanceResult;
    const LEADS: &'static [&'static str] = &["slot_width|drill/name", "slot_length|hole_diameter", "drill/diameter"];
    const CONTEXT: &'static [&'static str] =
        &["{slot_length} long", "hole {hole_diameter} to {hole_max}", "by {hole_standard}"];
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.caution(cautions::DRILLING);
        record.caution(cautions::TURNING_SPINDLE);
        let row = clearance_of(&input.hole.screw)?;
        let hole = input.hole.hole(record)?;
        record.source("geometry", "what two holes around one screw may be out by; a slot between two round ends");
        let (play, hole_diameter) = (hole.play, hole.hole_diameter);
        let off_place: FoundExtent = step!(record, "Each of two clearance holes", e: off_place = p / 2.0, p = play);
        let off_place_tapped: FoundExtent = step!(record, "A clearance hole and a tapped one, each",
            t: off_place_tapped = p / 4.0, p = play);
        let fits: Vec<ClearanceFit> = HoleFit::ALL
            .into_iter()
            .map(|fit| {
                let hole = row.hole(fit as usize);
                ClearanceFit { fit, diameter: hole.least, greatest: hole.greatest }
            })
            .collect();
        let table = || format!("{}, row {}", row.standard, row.screw);
        tell!(record.look_up("Fits", table()) => "fits.fit": column(&fits, |row| row.fit.as_str()));
        tell!(record.look_up("Their holes", table()) => fits.diameter);
        tell!(record.look_up("Their greatest holes", table()) => fits.greatest);
        let slot = input.adjustment.map(|adjustment| slot(hole_diameter, adjustment, record));
        let moves = match (&slot, input.cutter_diameter) {
            (Some(slot), Some(cutter)) => Some(moves(slot, cutter, record)?),
            _ => None,
        };
        Ok(ClearanceResult { hole, off_place, off_place_tapped, slot, moves, fits })
    }
}

fn slot(hole_diameter: FoundSize, adjustment: Size, record: &mut Record) -> Slot {
    notes!(record => slot_washer:
        "A head bears on little metal over a slot. Put a thick washer under it that covers the slot.");
    let slot_width: FoundSize = step!(record, "Width of the slot", w: slot_width = H, H = hole_diameter);
    let slot_length: FoundSize = step!(record, "Length of the slot over its ends",
        l: slot_length = H + a, H = hole_diameter, a = adjustment);
    Slot { slot_width, slot_length }
}

fn moves(slot: &Slot, cutter_diameter: Size, record: &mut Record) -> Result<SlotMoves, Refusal> {
    let (slot_width, slot_length) = (slot.slot_width, slot.slot_length);
    if cutter_diameter.get().si() > slot_width.get().si() + 1e-9 {
        let says = format!("The end mill is wider than the slot, which is {} wide.", slot_width.quantity().text());
        let good = crate::suggestion::value(
            slot_width.get().si() * 0.9,
            slot_width.quantity().unit,
            crate::suggestion::Way::Down,
        );
        return Err(Refusal::no_answer(&says, &[("cutter_diameter", good)]));
    }
    let cutter_travel: FoundExtent = step!(record, "How far the end mill's center goes along",
        t: cutter_travel = l - D, l = slot_length, D = cutter_diameter);
    let cutter_offset: FoundExtent = step!(record, "How far it goes to each side",
        o: cutter_offset = not_negative((w - D) / 2.0), w = slot_width, D = cutter_diameter);
    Ok(SlotMoves { cutter_travel, cutter_offset })
}
