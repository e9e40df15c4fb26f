//! Whether the table of a machine travels far enough for the holes of a pattern: the travel that they need, where zero
//! has to lie on it, and the holes that are not reached.

use super::hole::PatternHole;
use crate::declared::{Asks, Gives, one_after_another};
use crate::quantity::{Extent, FoundDifference, FoundExtent, FoundPlace, Size};
use crate::refusal::{Code, rule_broken};
use crate::tell;
use crate::working::{Record, column};
use validator::ValidationError;

/// How far a machine's table travels, and where zero lies on it.
#[derive(Clone, Copy, Debug, Asks)]
pub struct TableTravel {
    /// Table travel on X; with it the answer says which holes are reached.
    #[label("Table travel, X")]
    pub travel_x: Option<Size>,
    /// Table travel on Y; with it the answer says which holes are reached.
    #[label("Table travel, Y")]
    pub travel_y: Option<Size>,
    /// Travel left of zero, to lower X. Needs the table travel.
    #[label("Travel left of zero")]
    pub travel_left: Option<Extent>,
    /// Travel in front of zero, to lower Y. Needs the table travel.
    #[label("Travel in front of zero")]
    pub travel_front: Option<Extent>,
}

/// Whether the table reaches the holes.
#[derive(Clone, Debug, Gives)]
pub struct TableReach {
    /// Whether every hole is reached in one setting: yes, if zero is placed for it, after moving the part, or no.
    #[label("All holes in one setting")]
    pub in_one_setting: &'static str,
    /// The travel on X.
    #[label("X")]
    pub x: Option<AxisReach>,
    /// The travel on Y.
    #[label("Y")]
    pub y: Option<AxisReach>,
    /// Holes that are not reached with zero where it is.
    #[label("Holes out of reach", "hole out of reach")]
    pub out_of_reach: Vec<HoleOutOfReach>,
}

/// What the holes need of the travel on one axis.
#[derive(Clone, Debug, Gives)]
pub struct AxisReach {
    /// Travel from the lowest hole to the highest.
    #[label("travel needed")]
    pub needed: FoundExtent,
    /// Travel left over; negative where it falls short.
    #[label("travel left over")]
    pub spare: FoundDifference,
    /// Least travel that zero must have to its left, on Y in front; negative where zero may lie off the travel. Absent where the holes do not fit.
    #[label("travel below zero, at least")]
    pub zero_least: Option<FoundDifference>,
    /// Most travel that zero may have to its left, on Y in front. Absent where the holes do not fit.
    #[label("travel below zero, at most")]
    pub zero_most: Option<FoundDifference>,
    /// How far the part with its zero must move to the right, on Y to the back; negative the other way, 0 where it can stay. Needs where zero lies on the travel.
    #[label("move the part by")]
    pub zero_move: Option<FoundDifference>,
}

/// A hole that the table does not reach.
#[derive(Clone, Debug, Gives)]
pub struct HoleOutOfReach {
    /// Its number.
    #[label("Number")]
    pub number: u32,
    /// Past which end of the travel it lies: left, right, front or back.
    #[label("Past the end on the")]
    pub side: &'static str,
    /// How far past that end.
    #[label("Past it by")]
    pub beyond: FoundExtent,
}

/// Less than this, in meters, is rounding.
const ROUNDING: f64 = 1e-9;

impl TableTravel {
    /// Refuses a place of zero without the travel, or off it.
    pub fn check(&self) -> Result<(), ValidationError> {
        let axes = [
            (self.travel_x, self.travel_left, "travel_x", "travel_left", "20 in"),
            (self.travel_y, self.travel_front, "travel_y", "travel_front", "8 in"),
        ];
        for (travel, below, travel_field, field, good) in axes {
            let Some(below) = below else { continue };
            let Some(travel) = travel else {
                let says = "Where zero lies on the travel needs the table travel on that axis too.";
                return Err(rule_broken(Code::Conflict, says, &[(travel_field, good), (field, "leave out")]));
            };
            if below.get() > travel.get() {
                let says = "Zero lies on the travel: give at most the whole table travel of that axis.";
                return Err(rule_broken(Code::Conflict, says, &[(field, "0 in")]));
            }
        }
        Ok(())
    }

    /// Whether the holes are reached; nothing without a travel. The places of the holes are on record.
    pub fn find_reach(&self, holes: &[PatternHole], record: &mut Record) -> Option<TableReach> {
        let xs: Vec<FoundPlace> = holes.iter().map(|hole| hole.x).collect();
        let ys: Vec<FoundPlace> = holes.iter().map(|hole| hole.y).collect();
        let on_x = self.travel_x.map(|travel| Axis { names: &X, travel, below: self.travel_left, places: xs });
        let on_y = self.travel_y.map(|travel| Axis { names: &Y, travel, below: self.travel_front, places: ys });
        let axes: Vec<&Axis> = on_x.iter().chain(&on_y).collect();
        if axes.is_empty() || holes.is_empty() {
            return None;
        }
        let reach = |axis: &Option<Axis>, record: &mut Record| axis.as_ref().map(|axis| axis.reach(record));
        let (x, y) = (reach(&on_x, record), reach(&on_y, record));
        let out_of_reach: Vec<HoleOutOfReach> = axes.iter().flat_map(|axis| axis.out_of_reach(holes)).collect();
        tell_out_of_reach(&out_of_reach, &axes, holes, record);
        let found: Vec<&AxisReach> = x.iter().chain(&y).collect();
        let placed = axes.iter().all(|axis| axis.below.is_some());
        let in_one_setting = if found.iter().any(|axis| axis.zero_least.is_none()) {
            "no"
        } else if !out_of_reach.is_empty() {
            "after moving the part"
        } else if placed {
            "yes"
        } else {
            "if zero is placed for it"
        };
        record
            .look_up("All holes in one setting", "no where the travel falls short; else by where zero lies on it")
            .gives("reach.in_one_setting", in_one_setting);
        note(self, &found, &axes, &out_of_reach, record);
        Some(TableReach { in_one_setting, x, y, out_of_reach })
    }
}

/// What the working calls the values of one axis.
struct Names {
    letter: &'static str,
    travel: &'static str,
    below: &'static str,
    places: &'static str,
    lowest: [&'static str; 2],
    highest: [&'static str; 2],
    found: [&'static str; 5],
    sides: [&'static str; 2],
}

const X: Names = Names {
    letter: "X",
    travel: "travel_x",
    below: "travel_left",
    places: "positions.x",
    lowest: ["Lowest hole on X", "lowest_x"],
    highest: ["Highest hole on X", "highest_x"],
    found: ["reach.x.needed", "reach.x.spare", "reach.x.zero_least", "reach.x.zero_most", "reach.x.zero_move"],
    sides: ["left", "right"],
};

const Y: Names = Names {
    letter: "Y",
    travel: "travel_y",
    below: "travel_front",
    places: "positions.y",
    lowest: ["Lowest hole on Y", "lowest_y"],
    highest: ["Highest hole on Y", "highest_y"],
    found: ["reach.y.needed", "reach.y.spare", "reach.y.zero_least", "reach.y.zero_most", "reach.y.zero_move"],
    sides: ["front", "back"],
};

struct Axis {
    names: &'static Names,
    travel: Size,
    below: Option<Extent>,
    places: Vec<FoundPlace>,
}

impl Axis {
    fn reach(&self, record: &mut Record) -> AxisReach {
        let (names, travel) = (self.names, self.travel);
        let end = |of: fn(f64, f64) -> f64| self.places.iter().map(FoundPlace::si).reduce(of).unwrap_or_default();
        let (low, high) = (FoundPlace::of_si(end(f64::min)), FoundPlace::of_si(end(f64::max)));
        let lowest = record.step(names.lowest[0], "l = least(p)").with("p", names.places, self.places.clone());
        lowest.gives(names.lowest[1], low);
        let highest = record.step(names.highest[0], "h = greatest(p)").with("p", names.places, self.places.clone());
        highest.gives(names.highest[1], high);
        let needed = FoundExtent::of_si((high.si() - low.si()).max(0.0));
        let step = record.step("Travel that the holes need", "n = h - l").with("h", names.highest[1], high);
        step.with("l", names.lowest[1], low).gives(names.found[0], needed);
        let spare = FoundDifference::of_si(travel.si() - needed.si());
        let step = record.step("Travel left over", "s = t - n").with("t", names.travel, travel);
        step.with("n", names.found[0], needed).gives(names.found[1], spare);
        if spare.si() < -ROUNDING {
            return AxisReach { needed, spare, zero_least: None, zero_most: None, zero_move: None };
        }
        let (least, most) = (FoundDifference::of_si(-low.si()), FoundDifference::of_si(travel.si() - high.si()));
        let step = record.step("Least travel below zero, down to the lowest hole", "a = 0 - l");
        step.with("l", names.lowest[1], low).gives(names.found[2], least);
        let step = record.step("Most travel below zero, up to the highest hole", "b = t - h");
        step.with("t", names.travel, travel).with("h", names.highest[1], high).gives(names.found[3], most);
        let zero_move = self.below.map(|below| {
            let up = (least.si() - below.si()).max(0.0) + (most.si() - below.si()).min(0.0);
            let up = FoundDifference::of_si(if up.abs() <= ROUNDING { 0.0 } else { up });
            let step = record
                .step("How far the part must move to the right, on Y to the back", "m = max(a - c, 0) + min(b - c, 0)");
            let step = step.with("a", names.found[2], least).with("b", names.found[3], most);
            step.with("c", names.below, below).gives(names.found[4], up);
            up
        });
        AxisReach { needed, spare, zero_least: Some(least), zero_most: Some(most), zero_move }
    }

    /// The lower and the upper end of the travel as the readout shows them, where zero lies on it.
    fn ends(&self) -> Option<[f64; 2]> {
        let below = self.below?.si();
        Some([-below, self.travel.si() - below])
    }

    fn out_of_reach(&self, holes: &[PatternHole]) -> Vec<HoleOutOfReach> {
        let Some([low, high]) = self.ends() else { return Vec::new() };
        let mut out = Vec::new();
        for (hole, place) in holes.iter().zip(&self.places) {
            let past = [low - place.si(), place.si() - high];
            for (side, past) in self.names.sides.into_iter().zip(past) {
                if past > ROUNDING {
                    out.push(HoleOutOfReach { number: hole.number, side, beyond: FoundExtent::of_si(past) });
                }
            }
        }
        out
    }
}

fn tell_out_of_reach(rows: &[HoleOutOfReach], axes: &[&Axis], holes: &[PatternHole], record: &mut Record) {
    if rows.is_empty() {
        return;
    }
    record
        .look_up("Holes out of reach", "those past an end of the travel")
        .gives("reach.out_of_reach.number", column(rows, |row| row.number));
    record
        .look_up("Past which end", "left and right on X, front and back on Y")
        .gives("reach.out_of_reach.side", column(rows, |row| row.side));
    let of = |row: &HoleOutOfReach| {
        let axis = axes.iter().find(|axis| axis.names.sides.contains(&row.side))?;
        let at = holes.iter().position(|hole| hole.number == row.number)?;
        let [low, high] = axis.ends()?;
        let end = if axis.names.sides[0] == row.side { low } else { high };
        Some((axis.places[at], FoundPlace::of_si(end)))
    };
    let (places, ends): (Vec<FoundPlace>, Vec<FoundPlace>) = rows.iter().filter_map(of).unzip();
    record.look_up("Reading of that hole", "on the axis of the end").gives("out_of_reach_hole", places.clone());
    record
        .look_up("Reading at the end of the travel", "from zero, by the travel left of it or in front of it")
        .gives("end_of_travel", ends.clone());
    tell!(record.step("Past the end by", "d = abs(p - e)"), p = out_of_reach_hole: places, e = end_of_travel: ends
        => ("reach.out_of_reach.beyond"): column(rows, |row| row.beyond));
}

fn note(travel: &TableTravel, found: &[&AxisReach], axes: &[&Axis], out: &[HoleOutOfReach], record: &mut Record) {
    let short: Vec<&str> = axes
        .iter()
        .zip(found)
        .filter(|(_, axis)| axis.zero_least.is_none())
        .map(|(axis, _)| axis.names.letter)
        .collect();
    if !short.is_empty() {
        let mut says = format!(
            "The table travels too little on {}: set the part up twice, each time from the same zero.",
            one_after_another(&short, "and")
        );
        if let ([x, y], Some(along), Some(across)) = (found, travel.travel_x, travel.travel_y)
            && x.needed.si() <= across.si() + ROUNDING
            && y.needed.si() <= along.si() + ROUNDING
        {
            says.push_str(" Turned a quarter turn on the table, all holes fit.");
        }
        record.note("travel_short", says);
    } else if !out.is_empty() {
        record.note("move_part", "Move the part as stated, and pick up zero again. Then all holes are reached.");
    }
    if !out.is_empty() {
        let mut numbers: Vec<u32> = out.iter().map(|row| row.number).collect();
        numbers.sort_unstable();
        numbers.dedup();
        const MOST_NAMED: usize = 12;
        let mut named: Vec<String> = numbers.iter().take(MOST_NAMED).map(u32::to_string).collect();
        if numbers.len() > MOST_NAMED {
            named.push(format!("{} more", numbers.len() - MOST_NAMED));
        }
        let holes = if numbers.len() == 1 { "hole" } else { "holes" };
        record.note(
            "out_of_reach",
            format!("Not reached from this setting: {holes} {}.", one_after_another(&named, "and")),
        );
    }
    let off = |(axis, found): (&&Axis, &&AxisReach)| {
        let (least, most) = (found.zero_least?.si(), found.zero_most?.si());
        Some(most < -ROUNDING || least > axis.travel.si() + ROUNDING)
    };
    if axes.iter().zip(found).filter_map(off).any(|off| off) {
        record.note(
            "zero_off_travel",
            "Zero itself lies off the travel in the setting that reaches all holes. Set the readout from a hole or an \
             edge that is reached.",
        );
    }
    if axes.len() == 1 {
        record.note(
            "one_axis",
            format!("Only {} is checked; give the table travel of the other axis too.", axes[0].names.letter),
        );
    }
}
