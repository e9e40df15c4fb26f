//! How long each peck is: the first, the second and the smallest in diameters of the drill, and each between them
//! smaller than the one before.

use super::{PecksInput, Retract};
use crate::calculators::prelude::*;
use crate::reference::material_name::WorkMaterial;
use crate::reference::materials::{Material, MaterialGroup};
use crate::suggestion::{Way, value};

/// Most pecks that are listed.
const MOST: usize = 200;

/// A peck.
#[derive(Debug, Gives)]
pub struct Peck {
    /// Its number.
    #[label("No.")]
    pub number: u32,
    /// How far it goes.
    #[label("Length")]
    pub length: FoundExtent,
    /// Depth of the tip at its end, below the face.
    #[label("Go to")]
    pub depth: FoundDepthSetting,
    /// What to do then: break the chips, clear them, or nothing where the hole is done.
    #[label("Then")]
    pub then: &'static str,
}

/// The pecks that a request means.
pub struct Plan {
    first: Size,
    next: Size,
    smallest: Size,
    shrink: Percentage,
    unit: Unit,
}

/// Depth up to which chips may be broken only, in diameters.
const BREAK_TO: f64 = 3.0;

/// A material whose chips break and fall out: cast iron, non-ferrous metal, or steel that cuts freely.
fn cuts_freely(material: &Material) -> bool {
    match material.group {
        MaterialGroup::K | MaterialGroup::N => true,
        MaterialGroup::P => material.machinability.as_ref().is_some_and(|share| share.value >= 70.0),
        MaterialGroup::M | MaterialGroup::S | MaterialGroup::H => false,
    }
}

impl Plan {
    /// What is stated, else what tips and common practice say.
    pub fn of(input: &PecksInput, record: &mut Record) -> Self {
        let Quantity { value: across, unit, .. } = input.diameter.size.quantity();
        let material = input.material.map(|WorkMaterial(material)| material);
        let is_small = input.diameter.size.quantity().in_unit(Unit::Millimetre) < 3.0;
        let all_stated = input.first_peck.is_some() && input.next_peck.is_some() && input.smallest_peck.is_some();
        let (words, first) = match (material.map(cuts_freely), is_small) {
            (Some(true), false) => ("2 diameters at first, then 1, down to a half", 2.0),
            (Some(true), true) => ("a drill below 3 mm pecks 1 diameter at first, then a half, down to a quarter", 1.0),
            (Some(false), _) => ("in this metal 1 diameter at first, then a half, down to a quarter", 1.0),
            (None, _) => (
                "as no work material is given, the short pecks of tough metal: 1 diameter at first, then a half, \
                down to a quarter",
                1.0,
            ),
        };
        let [next, smallest] = [first / 2.0, first / 4.0];
        if !all_stated {
            record.source("drill_maker_tips", "first step of 2 diameters, holes to that depth in one step");
            record.source("common_practice", "later pecks in diameters, shorter in tough metal and with small drills");
        }
        let says = format!("By tips and common practice, {words}.");
        let size = |times: f64| Size::stated(text::tidy(times * across), unit);
        let first = record.or_assume(input.first_peck, "first_peck", size(first), says.clone());
        let next = record.or_assume(input.next_peck, "next_peck", size(next), says.clone());
        // A second peck of one's own may be smaller than the usual smallest.
        let usual = size(smallest);
        let usual = if usual.get() > next.get() { next } else { usual };
        let smallest = record.or_assume(input.smallest_peck, "smallest_peck", usual, says);
        Self { first, next, smallest, shrink: input.shrink(record), unit: input.depth.quantity().unit }
    }

    /// How long the peck of that number may be, in the unit of the depth.
    fn length(&self, number: usize) -> f64 {
        let of = |size: Size| size.quantity().in_unit(self.unit);
        match number {
            0 | 1 => of(self.first),
            _ => (of(self.next) * (1.0 - self.shrink.get().si()).powi(number as i32 - 2)).max(of(self.smallest)),
        }
    }

    /// The pecks down to the depth.
    pub fn pecks(&self, input: &PecksInput, record: &mut Record) -> Result<Vec<Peck>, Refusal> {
        let goal = input.depth.quantity().value;
        let retract = input.retract(record);
        let across = input.diameter.size.quantity().in_unit(self.unit);
        let mut pecks: Vec<Peck> = Vec::new();
        let (mut at, mut starts) = (0.0, Vec::new());
        while goal - at > 1e-9 * goal {
            if pecks.len() == MOST {
                return Err(self.too_many(input));
            }
            let number = pecks.len() + 1;
            let left = text::tidy(goal - at);
            let most = self.length(number);
            // The last two share what is left, so that no peck is a sliver that only rubs.
            let is_sliver = left > most && left < 1.5 * most;
            let length = text::tidy(if is_sliver { left / 2.0 } else { most.min(left) });
            let end = if length >= left * (1.0 - 1e-9) { goal } else { text::tidy(at + length) };
            let is_shallow = retract == Retract::Break && end <= BREAK_TO * across * (1.0 + 1e-9);
            let then = match (end >= goal, is_shallow) {
                (true, _) => "the hole is done",
                (false, true) => "break the chips",
                (false, false) => CLEAR,
            };
            starts.push(FoundExtent::stated(at, self.unit));
            pecks.push(Peck {
                number: number as u32,
                length: FoundExtent::stated(text::tidy(end - at), self.unit),
                depth: FoundDepthSetting::stated(end, self.unit),
                then,
            });
            at = end;
        }
        self.tell(&pecks, starts, retract, record);
        note(&pecks, input, retract, record);
        Ok(pecks)
    }

    fn tell(&self, pecks: &[Peck], starts: Vec<FoundExtent>, retract: Retract, record: &mut Record) {
        let list = "a, then b and each smaller by the share r, not below c; what is left at the end in one or two";
        tell!(record.look_up("Numbers", "one after the other") => "pecks.number": column(pecks, |peck| peck.number));
        tell!(record.look_up("Lengths", list), a = first_peck: self.first, b = next_peck: self.next,
            c = smallest_peck: self.smallest, r = shrink: self.shrink => "pecks.length": column(pecks, |peck| peck.length));
        let came_from = starts.clone();
        tell!(record.look_up("Depths before", "of the peck before; 0 at first") => "depth_before": starts);
        tell!(record.step("Depths", "z = b + l"), b = "depth_before": came_from,
            l = "pecks.length": column(pecks, |peck| peck.length) => "pecks.depth": column(pecks, |peck| peck.depth));
        let rule = "with break down to three diameters the chips are broken, else cleared";
        tell!(record.look_up("What to do then", rule), r = retract: retract.as_str()
            => "pecks.then": column(pecks, |peck| peck.then));
    }

    fn too_many(&self, input: &PecksInput) -> Refusal {
        let unit = input.depth.quantity().unit;
        let larger = value(input.depth.get().si() / MOST as f64 * 2.0, unit, Way::Up);
        let shallower = value(self.smallest.get().si() * MOST as f64 / 2.0, unit, Way::Down);
        let says = format!("That is more than {MOST} pecks. Take larger pecks, or a shallower hole.");
        let mut ways = vec![("depth", shallower)];
        for (field, given) in [("smallest_peck", input.smallest_peck), ("next_peck", input.next_peck)] {
            ways.extend(given.map(|_| (field, larger.clone())));
        }
        Refusal::no_answer(&says, &ways)
    }
}

const CLEAR: &str = "clear the chips";

fn note(pecks: &[Peck], input: &PecksInput, retract: Retract, record: &mut Record) {
    let [.., last] = pecks else { return };
    if pecks.len() == 1 {
        notes!(record => one_step: "One step is enough for a hole as shallow as this. Watch the chips all the same.");
    } else if retract == Retract::Break && pecks.iter().any(|peck| peck.then == CLEAR) {
        notes!(record => clear_when_deep: "Below three diameters the drill comes out of the hole each time, since broken \
            chips no longer climb out by themselves.");
    }
    notes!(record => keep_feeding: "Set the depths from where the tip touched the face. On the way back slow down about 1 mm \
        before the last depth, since chips may have fallen in, and never let the drill rub at the bottom.");
    if last.number > 1 && input.depth.get().si() > 6.0 * input.diameter.size.get().si() {
        notes!(record => long_drill: "Start a hole as deep as this with a short drill, so that the long one follows it \
            straight.");
    }
}
