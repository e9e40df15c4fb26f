//! Results as they are set on a readout or a dial that moves in steps. Moves are the differences of
//! the rounded places, so that they sum to them to the last count.

use super::machine;
use super::reserved::{Reserved, ZPlus};
use crate::quantity::{Quantity, Resolution, Setting, Unit, text};
use crate::shop::Machine;
use crate::tree::{Leaf, Node, SetTo};
use crate::working::Record;

/// The step of a readout.
#[derive(Clone, Copy)]
struct Grid {
    step: f64,
    unit: Unit,
    places: usize,
    z_sign: f64,
}

impl Grid {
    fn set(&self, quantity: &Quantity) -> SetTo {
        let sign = if quantity.kind.setting == Setting::Depth { self.z_sign } else { 1.0 };
        let value = sign * quantity.in_unit(self.unit);
        // Tidied, so that a half count is a half although its double lies a hair off.
        self.at(text::tidy(value / self.step).round(), value)
    }

    fn at(&self, counts: f64, value: f64) -> SetTo {
        let to = text::tidy(counts * self.step);
        // Twelve decimals are far below any readout and above the noise of the subtraction.
        let left_over = text::round(value - to, 12);
        SetTo { counts, to, left_over, unit: self.unit, places: self.places }
    }
}

/// Puts `set_to` and `left_over` on every length that is set, if a resolution was stated or the
/// machine has one.
pub fn apply(reserved: &Reserved, result: &mut Node, record: &mut Record) {
    let of_machine = reserved.stood_in.machine().map(|machine| (machine, OfReadout::of(machine)));
    let machine_resolution = of_machine.and_then(|(_, readout)| readout.resolution);
    let Some(resolution) = reserved.resolution.or(machine_resolution) else { return };
    let step = resolution.quantity();
    let places = (0..=9).find(|&places| text::round(step.value, places) == step.value).unwrap_or(9);
    let (mut settable, mut depths) = (false, false);
    result.each_quantity(&mut |leaf| {
        settable |= leaf.quantity.kind.setting != Setting::Never;
        depths |= leaf.quantity.kind.setting == Setting::Depth;
    });
    if !settable {
        if reserved.resolution.is_some() {
            record.note("resolution_unused", "No result here is set on a readout, so the resolution changes nothing.");
        }
        return;
    }
    if let (Some((machine, _)), None) = (of_machine, reserved.resolution) {
        record.assume("resolution", &resolution, machine::says(machine));
    }
    let mut z_plus = reserved.z_plus;
    if depths && z_plus.is_none() {
        match of_machine.and_then(|(machine, readout)| Some((machine, readout.z_plus?))) {
            Some((machine, way)) => {
                record.assume("z_plus", &way, machine::says(machine));
                z_plus = Some(way);
            }
            None => {
                record.assume("z_plus", &ZPlus::Down, "Depths are taken to count upwards as the tool goes down.");
            }
        }
    }
    let z_sign = if z_plus == Some(ZPlus::Up) { -1.0 } else { 1.0 };
    let grid = Grid { step: step.value, unit: step.unit, places, z_sign };
    result.each_quantity(&mut |leaf| {
        // A move that stands beside no place is set by itself.
        if leaf.quantity.kind.setting != Setting::Never {
            leaf.set = Some(grid.set(&leaf.quantity));
        }
    });
    set_moves(result, &grid);
}

/// What a machine's readout is like.
#[derive(Clone, Copy)]
struct OfReadout {
    resolution: Option<Resolution>,
    z_plus: Option<ZPlus>,
}

impl OfReadout {
    /// Read again from their text, which was checked when the shop's file was read.
    fn of(machine: &Machine) -> Self {
        let z_plus = match machine.field("z_plus") {
            Some("up") => Some(ZPlus::Up),
            Some("down") => Some(ZPlus::Down),
            _ => None,
        };
        Self { resolution: machine.field("resolution").and_then(|text| Resolution::read(text).ok()), z_plus }
    }
}

/// Sets the moves of every list: `dx` is the rounded `x` of its row less that of the row before,
/// the first from zero.
fn set_moves(node: &mut Node, grid: &Grid) {
    match node {
        Node::Record(members) => members.iter_mut().for_each(|(_, node)| set_moves(node, grid)),
        Node::List(rows) => {
            let mut before: Vec<(&'static str, f64)> = Vec::new();
            for row in rows {
                set_moves(row, grid);
                let Node::Record(members) = row else { continue };
                let places: Vec<(&'static str, f64)> = members
                    .iter()
                    .filter_map(|(name, node)| match node {
                        Node::Quantity(Leaf { set: Some(set), .. }) => Some((*name, set.counts)),
                        _ => None,
                    })
                    .collect();
                for (name, node) in members {
                    let Node::Quantity(leaf) = node else { continue };
                    if leaf.quantity.kind.setting != Setting::Move {
                        continue;
                    }
                    let of = |list: &[(&'static str, f64)]| {
                        let place = name.strip_prefix('d')?;
                        list.iter().find(|(name, _)| *name == place).map(|(_, counts)| *counts)
                    };
                    if let Some(counts) = of(&places) {
                        let moved = counts - of(&before).unwrap_or(0.0);
                        leaf.set = Some(grid.at(moved, leaf.quantity.in_unit(grid.unit)));
                    }
                }
                before = places;
            }
        }
        _ => {}
    }
}
