//! Which drills of the tables are nearest to a diameter: fraction, number and letter sizes after
//! ASME B94.11M, metric sizes after BS 328 and ISO 235.

use crate::calculators::prelude::*;
use crate::machine::as_stated;
use crate::reference::drills::{Drill, DrillSystem};
use crate::shop::{DrillsFrom, DrillsToChoose, drills_from};
use crate::suggestion::{Way, value};

mod name;
#[cfg(test)]
mod tests;

pub use name::DrillName;

/// The calculator.
pub struct DrillSize;

choice! {
    /// Which drills to list: the `nearest`, whether smaller or larger, those at or `under` the size, or those at or `over` it.
    DrillSide {
        /// Smaller or larger.
        Nearest = "nearest",
        /// At or below the size.
        Under = "under",
        /// At or above the size.
        Over = "over",
    }
}

/// What the drill size calculator asks for: a diameter, a drill's name or two limits.
#[derive(Debug, Asks)]
#[asks(check = check, check = check_limits)]
pub struct DrillSizeInput {
    /// Diameter to find drills for.
    pub diameter: Option<DrillDiameter>,
    /// Name of a drill, to find its size and the drills nearest to it.
    #[label("Name of the drill")]
    pub name: Option<DrillName>,
    /// Least size, for the drills between two limits.
    #[label("Least size")]
    pub least: Option<Size>,
    /// Greatest size.
    #[label("Greatest size")]
    pub greatest: Option<Size>,
    /// Systems of sizes to look in: fraction, number, letter, metric.
    #[label("Drill systems")]
    #[absent("all", value = DrillSystem::ALL.to_vec(), "Drills of every system are looked at.")]
    pub systems: Option<Vec<DrillSystem>>,
    /// Whether the drills may be on either side of the size: nearest, under or over.
    #[label("Smaller or larger")]
    #[absent("nearest", "The drills may be smaller or larger than the size.")]
    pub side: Option<DrillSide>,
    /// How many drills to list, 1 to 50.
    #[absent("5", "Five drills are listed.")]
    #[label("How many drills")]
    #[bounds(1, 50)]
    pub count: Option<u32>,
    /// Which drills to choose from: those in the shop's drawer, or all of the tables; shop if one with drills is set.
    #[label("Choose from")]
    pub from: Option<DrillsFrom>,
}

/// A drill near the size.
#[derive(Debug, Gives)]
pub struct NearDrill {
    /// The drill's name.
    #[label("Drill")]
    pub name: &'static str,
    /// The system it belongs to.
    pub system: DrillSystem,
    /// Its nominal diameter.
    pub diameter: FoundSize,
    /// Its diameter less the one asked for; negative for a smaller drill.
    #[label("Larger by")]
    pub difference: FoundDifference,
    /// Room up to the greatest size.
    #[label("Room to the greatest size")]
    pub room: Option<FoundExtent>,
}

/// What the drill size calculator gives.
#[derive(Debug, Gives)]
pub struct DrillSizeResult {
    /// The drills, nearest first; of drills equally near, the smaller first.
    pub drills: Vec<NearDrill>,
}

rules! { check(DrillSizeInput) {
    never(|input| input.diameter.is_none() && input.name.is_none() && input.least.is_none() && input.greatest.is_none(),
        Code::FieldMissing, diameter = "0.4 in", name = "No.7"): "Give a diameter or the name of a drill.";
    not_both(diameter, name): "Give a diameter or the name of a drill, not both.";
    never(|input| input.diameter.is_some() && input.least.or(input.greatest).is_some(), Code::Conflict,
        diameter = "leave out"): "Give a diameter or two limits, not both.";
    never(|input| input.name.is_some() && input.least.or(input.greatest).is_some(), Code::Conflict, name = "leave out"):
        "Give the name of a drill or two limits, not both.";
    never(|input| input.side.is_some() && input.least.or(input.greatest).is_some(), Code::Conflict, side = "leave out"):
        "Between two limits there is no smaller or larger side: leave it out.";
    at_most(least <= greatest, least = "0.4 in", greatest = "0.42 in"): "The least size is above the greatest.";
    never(|input| input.count.is_some_and(|count| !(1..=50).contains(&count)), Code::ValueOutOfRange, count = "5"):
        "From 1 to 50 drills can be listed.";
    never(|input| input.systems.as_ref().is_some_and(Vec::is_empty), Code::ValueEmpty,
        systems = "fraction,number,letter"): "No drill system is named; leave the field out for all of them.";
} }

/// One limit needs the other.
fn check_limits(input: &DrillSizeInput) -> Result<(), ValidationError> {
    let (field, given, by, says) = match (input.least, input.greatest) {
        (Some(least), None) => ("greatest", least, 1.05, "Between two limits: give the greatest size too."),
        (None, Some(greatest)) => ("least", greatest, 0.95, "Between two limits: give the least size too."),
        _ => return Ok(()),
    };
    let good = value(by * given.get().si(), given.quantity().unit, Way::Near);
    Err(rule_broken(Code::FieldMissing, says, &[(field, &good)]))
}

/// What is nearer than this is the same size.
const PICOMETRE: f64 = 1e-12;

/// The size asked for.
struct Wanted {
    size: Size,
    /// The drill it was named as.
    drill: Option<&'static Drill>,
    /// The field it was asked by.
    field: &'static str,
    /// The limits between which a drill has to be.
    limits: Option<(Size, Size)>,
}

impl Wanted {
    /// How far a drill is from the size, in whole picometres, so that equal sizes compare as equal
    /// whatever their unit.
    fn off(&self, drill: &Drill) -> i64 {
        ((drill.size().get() - self.size.get()).si() * 1e12).round() as i64
    }

    fn difference(&self, drill: &Drill) -> FoundDifference {
        if self.off(drill) == 0 {
            return FoundDifference::of(SiValue::from_si(0.0));
        }
        FoundDifference::of(drill.size().get() - self.size.get())
    }

    /// The size asked for: as stated, that of the drill named, or the middle of the limits.
    fn of(input: &DrillSizeInput) -> Result<Self, Refusal> {
        Ok(match (input.diameter, input.name, input.least.zip(input.greatest)) {
            (Some(DrillDiameter { size, drill }), ..) => Self { size, drill, field: "diameter", limits: None },
            (_, Some(DrillName(drill)), _) => {
                Self { size: drill.size(), drill: Some(drill), field: "name", limits: None }
            }
            (.., Some((least, greatest))) => {
                let unit = least.quantity().unit;
                let middle = (least.quantity().value + greatest.quantity().in_unit(unit)) / 2.0;
                Self { size: Size::stated(middle, unit), drill: None, field: "least", limits: Some((least, greatest)) }
            }
            _ => return Err(Refusal::no_answer("Give a size.", &[("diameter", "0.4 in".into())])),
        })
    }

    fn takes(&self, drill: &Drill, side: DrillSide) -> bool {
        if let Some((least, greatest)) = self.limits {
            let size = drill.size().get().si();
            return size >= least.get().si() - PICOMETRE && size <= greatest.get().si() + PICOMETRE;
        }
        match side {
            DrillSide::Nearest => true,
            DrillSide::Under => self.off(drill) <= 0,
            DrillSide::Over => self.off(drill) >= 0,
        }
    }
}

/// No drill lies between the limits: the next larger one, the tables, or other systems.
fn refuse_none_between(wanted: &Wanted, all: DrillsToChoose, of_systems: &[&'static Drill]) -> Refusal {
    let says = format!("Of the {}, none of these systems lies between the limits.", all.place());
    let mut ways = Vec::with_capacity(3);
    let over = of_systems.iter().find(|drill| wanted.off(drill) > 0);
    ways.extend(over.map(|drill| ("greatest", as_stated(&drill.size()))));
    if all.from == DrillsFrom::Shop {
        ways.push(("from", DrillsFrom::Tables.as_str().to_owned()));
    }
    let other = all.drills.iter().find(|drill| wanted.takes(drill, DrillSide::Nearest));
    ways.extend(other.map(|drill| ("systems", drill.system.as_str().to_owned())));
    if ways.is_empty() {
        let last = of_systems.last().map_or_else(|| "0.4 in".to_owned(), |drill| as_stated(&drill.size()));
        ways.push(("least", last));
    }
    Refusal::no_answer(&says, &ways)
}

fn refuse_none(wanted: &Wanted, side: DrillSide, all: DrillsToChoose, of_systems: &[&'static Drill]) -> Refusal {
    let (where_it_is, end) = match side {
        DrillSide::Nearest => ("there", None),
        DrillSide::Under => ("at or below that size", of_systems.first()),
        DrillSide::Over => ("at or above that size", of_systems.last()),
    };
    let says = format!("Of the {}, none of these systems is {where_it_is}.", all.place());
    let mut ways = Vec::with_capacity(4);
    if let Some(drill) = end {
        let size = if wanted.field == "name" { drill.name.to_owned() } else { as_stated(&drill.size()) };
        ways.push((wanted.field, size));
        ways.push(("side", DrillSide::Nearest.as_str().to_owned()));
    }
    if all.from == DrillsFrom::Shop {
        ways.push(("from", DrillsFrom::Tables.as_str().to_owned()));
    }
    let other = all.drills.iter().find(|drill| wanted.takes(drill, side));
    ways.extend(other.map(|drill| ("systems", drill.system.as_str().to_owned())));
    Refusal::no_answer(&says, &ways)
}

impl Calculator for DrillSize {
    const ID: &'static str = "holes/drill-size";
    const TITLE: &'static str = "Drill sizes";
    const ABOUT: &'static str = "The fraction, number, letter and metric drills nearest to a diameter or a drill, or between two \
        limits, and by how much each is larger or smaller.";
    const TASK: Task = Task::MakeTheHole;
    const ANOTHER_CHECK: &'static str =
        "Measure the drill with a micrometer across the margins at its point, not on the shank.";
    const WORDS: &'static str = "drill chart, number drill, letter drill, wire gauge, fractional, metric drill, \
        decimal equivalent, nearest drill, substitute, drill gauge, between limits";
    const EXAMPLES: &'static [Example] = examples! {
        "The number 7 drill has gone missing; which metric drills stand in for it in a pump cover?":
            name = "No.7", systems = "metric", count = "3", from = "tables";
        "A winch pin of 0.4 in needs a hole no smaller: the next inch drills at or over that size.":
            diameter = "0.4 in", systems = "fraction,number,letter", side = "over", count = "4";
        "A hole of 8.5 to 8.7 mm in a mill bracket: which drills of any system lie between the limits?":
            least = "8.5 mm", greatest = "8.7 mm", from = "tables";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "The print calls for a {name} drill. What size is that?" => "drills/0/diameter":
            { name = "No.7" | "No.21" | "No.29" | "No.36" | "letter F" | "letter I" | "letter Q" | "27/64",
              units = "inch", from = "tables" };
        1 "The drawing says {diameter}, and there are only metric drills in the drawer. Which comes nearest?"
            => "drills/0/diameter":
            { diameter = "0.201 in" | "0.257 in" | "0.266 in" | "5/16 in" | "27/64 in", systems = "metric",
              units = "metric", from = "tables" };
        2 "A reamer leaves {diameter}. Which inch drill is the next one under it?" => "drills/0/diameter":
            { diameter = "0.4 in" | "0.3125 in" | "0.2505 in" | "0.376 in", systems = "fraction,number,letter",
              side = "under", units = "inch", from = "tables" };
        2 "A winch pin of {diameter} has to drop through. Which fraction drill is the next one over it?"
            => "drills/0/diameter":
            { diameter = "0.4 in" | "0.33 in" | "0.52 in" | "0.61 in", systems = "fraction", side = "over",
              units = "inch", from = "tables" };
        2 "The hole may be {least} to {greatest}. Which inch drill is nearest to the middle?" => "drills/0/diameter":
            { least = "0.2 in" | "0.205 in", greatest = "0.215 in" | "0.22 in", systems = "fraction,number,letter",
              units = "inch", from = "tables" };
        3 "The {name} drill is lost. The nearest metric drill stands in for it: how much larger does it cut?"
            => "drills/0/difference":
            { name = "No.7" | "No.10" | "No.25" | "letter F" | "letter U", systems = "metric", units = "inch",
              from = "tables" };
    };
    type Input = DrillSizeInput;
    type Output = DrillSizeResult;

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        let wanted = Wanted::of(input)?;
        let systems = input.systems(record);
        let side = if wanted.limits.is_some() { DrillSide::Nearest } else { input.side(record) };
        let count = input.count(record);
        let all = drills_from(input.from, record)?;
        let from = all.of_systems(&systems);
        let mut near: Vec<&'static Drill> = from.iter().copied().filter(|drill| wanted.takes(drill, side)).collect();
        // The sort is stable: what is equally near stays in the order of the tables.
        near.sort_by_key(|drill| {
            let is_other = !wanted.drill.is_some_and(|named| std::ptr::eq(named, *drill));
            (wanted.off(drill).abs(), is_other)
        });
        let between = near.len();
        near.truncate(count as usize);
        if near.is_empty() && wanted.limits.is_some() {
            return Err(refuse_none_between(&wanted, all, &from));
        }
        if near.is_empty() {
            return Err(refuse_none(&wanted, side, all, &from));
        }
        let of = record_wanted(&wanted, record);
        let drills = record_drills((&wanted, of), &near, (all.place(), &from), record);
        if wanted.limits.is_some() && between > drills.len() {
            let says = format!("{between} drills lie between the limits; those listed are nearest to their middle.");
            record.note("more_between", says);
        }
        Ok(DrillSizeResult { drills })
    }
}

/// Records the diameter of the drill named; gives the field that the size asked for stands under.
fn record_wanted(wanted: &Wanted, record: &mut Record) -> &'static str {
    if let Some((least, greatest)) = wanted.limits {
        let middle = wanted.size.found();
        tell!(record.step("Middle of the limits", "D = (a + b) / 2"), a = least, b = greatest => middle);
        return "middle";
    }
    let Some(drill) = wanted.drill else { return "diameter" };
    record.source_trusted(drill.source, format!("diameter of the {} drill", drill.name), drill.trust);
    if wanted.field == "diameter" {
        return "diameter";
    }
    tell!(record.look_up("Diameter of the drill named", format!("drill sizes, row {}", drill.name))
        => named_diameter: drill.found());
    "named_diameter"
}

fn record_drills(
    (wanted, of): (&Wanted, &'static str),
    near: &[&'static Drill],
    (place, from): (&'static str, &[&'static Drill]),
    record: &mut Record,
) -> Vec<NearDrill> {
    if let (Some(first), Some(last)) = (from.first(), from.last())
        && (wanted.off(first) > 0 || wanted.off(last) < 0)
    {
        let says = format!(
            "The size lies outside the drills of these systems, which run from {} to {}.",
            first.name, last.name
        );
        record.note("outside_table", says);
    }
    record.note("nominal", "Sizes are nominal; a drill as a rule cuts a little larger than it measures.");
    for drill in near {
        record.source_trusted(drill.source, "nominal diameters of the drills listed", drill.trust);
    }
    let row = |drill: &&'static Drill| NearDrill {
        name: drill.name,
        system: drill.system,
        diameter: drill.found(),
        difference: wanted.difference(drill),
        room: wanted.limits.map(|(_, greatest)| {
            FoundExtent::of(SiValue::from_si((greatest.get().si() - drill.size().get().si()).max(0.0)))
        }),
    };
    let drills: Vec<NearDrill> = near.iter().map(row).collect();
    let near = format!("{place} of the systems, sorted by distance from D");
    tell!(record.look_up("Drills nearest to the size", near), D = (of): wanted.size
        => "drills.name": column(&drills, |drill| drill.name));
    let rows = "drill sizes, rows of those names";
    tell!(record.look_up("Their systems", rows) => "drills.system": column(&drills, |drill| drill.system.as_str()));
    tell!(record.look_up("Their diameters", rows) => drills.diameter);
    let step = record.step("What each is larger than the size", "Δ = d - D");
    tell!(step, d = drills.diameter, D = (of): wanted.size => drills.difference);
    if let Some((_, greatest)) = wanted.limits {
        notes!(record => room_for_oversize:
            "A drill as a rule cuts larger than it measures: take one that leaves room up to the greatest size.");
        tell!(record.step("What the hole may still come out larger", "r = b - d"),
            b = greatest, d = drills.diameter => drills.room);
    }
    drills
}
