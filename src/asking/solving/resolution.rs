//! Results as they are set on a readout or a dial that moves in steps. Moves are the differences of
//! the rounded places, so that they sum to them to the last count.

use super::filled_by_machine::{FilledByMachine, from_machine};
use crate::asking::describing::{Reserved, XReads, ZPlus};
use crate::quantity::{Quantity, Resolution, Setting, Unit, text};
use crate::shop::Machine;
use crate::tree::{Leaf, Node, SetTo};
use crate::working::Record;

/// The step of a readout, and how it counts.
#[derive(Clone, Copy)]
struct Grid {
    step: f64,
    unit: Unit,
    places: usize,
    z_plus: Option<ZPlus>,
    x_reads: Option<XReads>,
}

impl Grid {
    /// What a reading changes by where the quantity changes by one.
    fn counting(&self, setting: Setting) -> f64 {
        match (setting, self.z_plus, self.x_reads) {
            (Setting::Depth, Some(ZPlus::Up), _) => -1.0,
            (Setting::AcrossDiameter, _, Some(XReads::Radius)) => 0.5,
            (Setting::AcrossRadius, _, Some(XReads::Diameter)) => 2.0,
            _ => 1.0,
        }
    }

    fn set(&self, quantity: &Quantity) -> SetTo {
        let value = self.counting(quantity.kind.setting) * quantity.in_unit(self.unit);
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
pub fn apply(reserved: &Reserved, filled: &FilledByMachine, result: &mut Node, record: &mut Record) {
    let of_machine = filled.machine().map(|machine| (machine, OfReadout::of(machine)));
    let machine_resolution = of_machine.and_then(|(_, readout)| readout.resolution);
    let Some(resolution) = reserved.resolution.or(machine_resolution) else { return };
    let step = resolution.quantity();
    let places = (0..=9).find(|&places| text::round(step.value, places) == step.value).unwrap_or(9);
    let (mut settable, mut depths, mut across) = (false, false, false);
    result.each_quantity(&mut |leaf| {
        settable |= leaf.quantity.kind.setting != Setting::Never;
        depths |= leaf.quantity.kind.setting == Setting::Depth;
        across |= matches!(leaf.quantity.kind.setting, Setting::AcrossDiameter | Setting::AcrossRadius);
    });
    if !settable {
        if reserved.resolution.is_some() {
            record.note("resolution_unused", "No result here is set on a readout, so the resolution changes nothing.");
        }
        return;
    }
    if let (Some((machine, _)), None) = (of_machine, reserved.resolution) {
        record.assume("resolution", &resolution, from_machine(machine));
    }
    let mut z_plus = reserved.z_plus;
    if depths && z_plus.is_none() {
        match of_machine.and_then(|(machine, readout)| Some((machine, readout.z_plus?))) {
            Some((machine, way)) => {
                record.assume("z_plus", &way, from_machine(machine));
                z_plus = Some(way);
            }
            None => {
                record.assume("z_plus", &ZPlus::Down, "Depths are assumed to count up as the tool goes down.");
            }
        }
    }
    if !across && reserved.x_reads.is_some() {
        record
            .note("x_reads_unused", "No result here is set on a lathe's cross slide, so what X reads changes nothing.");
    }
    let grid = Grid { step: step.value, unit: step.unit, places, z_plus, x_reads: reserved.x_reads };
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

/// Sets the moves: beside two places the move between them, in lists from row to row.
fn set_moves(node: &mut Node, grid: &Grid) {
    match node {
        Node::Record(members) => {
            set_move_between(members, grid);
            members.iter_mut().for_each(|(_, node)| set_moves(node, grid));
        }
        Node::List(rows) => set_moves_of_rows(rows, grid),
        _ => {}
    }
}

/// A move that is the difference of the only two places beside it.
fn set_move_between(members: &mut [(&'static str, Node)], grid: &Grid) {
    let mut places = Vec::new();
    for (_, node) in members.iter() {
        if let Node::Quantity(Leaf { quantity, set: Some(set), .. }) = node
            && quantity.kind.setting != Setting::Move
        {
            places.push((quantity.in_unit(grid.unit), *set));
        }
    }
    let [(from, set_from), (to, set_to)] = places[..] else { return };
    let between = from - to;
    for (_, node) in members {
        let Node::Quantity(leaf) = node else { continue };
        let value = leaf.quantity.in_unit(grid.unit);
        let is_between = (value.abs() - between.abs()).abs() <= 1e-9 * (from.abs() + to.abs());
        if leaf.quantity.kind.setting == Setting::Move && is_between {
            let sign = if value * between < 0.0 { -1.0 } else { 1.0 };
            let counted = set_from.to + set_from.left_over - set_to.to - set_to.left_over;
            leaf.set = Some(grid.at(sign * (set_from.counts - set_to.counts), sign * counted));
        }
    }
}

/// In a list `dx` is the rounded `x` of its row less that of the row before; of the first row less
/// the place it comes from, rounded likewise.
fn set_moves_of_rows(rows: &mut [Node], grid: &Grid) {
    let mut before: Vec<(&'static str, SetTo)> = Vec::new();
    for row in rows {
        let Node::Record(members) = row else { continue };
        members.iter_mut().for_each(|(_, node)| set_moves(node, grid));
        let places: Vec<(&'static str, SetTo)> = members
            .iter()
            .filter_map(|(name, node)| match node {
                Node::Quantity(Leaf { set: Some(set), .. }) => Some((*name, *set)),
                _ => None,
            })
            .collect();
        for (name, node) in members {
            let Node::Quantity(leaf) = node else { continue };
            if leaf.quantity.kind.setting != Setting::Move {
                continue;
            }
            let of = |list: &[(&'static str, SetTo)]| {
                let place = name.strip_prefix('d')?;
                list.iter().find(|(name, _)| *name == place).map(|(_, set)| *set)
            };
            if let Some(place) = of(&places) {
                let value = leaf.quantity.in_unit(grid.unit);
                let from = || text::tidy((place.to + place.left_over - value) / grid.step).round();
                let moved = place.counts - of(&before).map_or_else(from, |before| before.counts);
                leaf.set = Some(grid.at(moved, value));
            }
        }
        before = places;
    }
}
