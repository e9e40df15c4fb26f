//! The drill before the reamer: one whose hole, as large as holes usually come out, leaves the right stock.

use super::ReamedHoleInput;
use crate::calculators::prelude::*;
use crate::machine::Stock;
use crate::reference::drills::{Drill, DrillSystem};
use crate::shop::{DrillsFrom, drills_from};
use crate::suggestion::{Way, value};
use crate::threading::usual_oversize;

/// A drill with the stock that it leaves.
#[derive(Clone, Debug, Gives)]
pub struct ReamingDrill {
    /// The trade's name for the drill.
    #[label("")]
    pub name: &'static str,
    /// Its diameter.
    #[label("Drill size")]
    pub diameter: FoundSize,
    /// The hole expected from it, as much larger as holes usually come out.
    #[label("Hole expected")]
    pub hole: FoundSize,
    /// Stock that is left on the diameter.
    #[label("Stock left")]
    pub stock_left: FoundExtent,
}

impl ReamingDrill {
    fn of(drill: &'static Drill, goal: Size) -> Self {
        let size = drill.found();
        let unit = goal.quantity().unit;
        let hole = unit.of_si(size.get().si() + usual_oversize(size).get().si());
        let stock = goal.quantity().value - hole;
        Self {
            name: drill.name,
            diameter: size,
            hole: FoundSize::stated(text::tidy(hole), unit),
            stock_left: FoundExtent::stated(text::tidy(stock.max(0.0)), unit),
        }
    }
}

/// The drill to take, and all that would do.
pub fn choose(
    input: &ReamedHoleInput,
    stock: &Stock,
    record: &mut Record,
) -> Result<(Option<ReamingDrill>, Vec<ReamingDrill>), Refusal> {
    let all = drills_from(input.from, record)?;
    let is_inch = input.diameter.quantity().unit.system() == Some(System::Inch);
    let (own, says) = match (all.from, is_inch) {
        (DrillsFrom::Shop, _) => (DrillSystem::ALL.to_vec(), "Every drill in the drawer is at hand."),
        (_, true) => (
            vec![DrillSystem::Fraction, DrillSystem::Number, DrillSystem::Letter],
            "Inch drills for a size in inches; name metric too if they are at hand.",
        ),
        (_, false) => (
            vec![DrillSystem::Metric],
            "Metric drills for a size in millimeters; name more systems if they are at hand.",
        ),
    };
    let systems = record.or_assume(input.systems.clone(), "systems", own, says);
    let goal = input.diameter;
    let (least, most) = (stock.stock_low.get().si(), stock.stock_high.get().si());
    let at_hand: Vec<(&'static Drill, ReamingDrill)> =
        all.of_systems(&systems).into_iter().map(|drill| (drill, ReamingDrill::of(drill, goal))).collect();
    let fits = |(_, row): &&(&'static Drill, ReamingDrill)| {
        let left = row.stock_left.get().si();
        left >= least * (1.0 - 1e-9) && left <= most * (1.0 + 1e-9)
    };
    let rows: Vec<(&'static Drill, ReamingDrill)> = at_hand.iter().filter(fits).cloned().collect();
    record.source(
        "common_practice",
        "a drill cuts about a hundredth of its diameter oversize, from 0.03 to 0.08 mm or \
        0.001 to 0.003 in",
    );
    for (drill, _) in &rows {
        record.source_trusted(drill.source, "diameters of stock drills", drill.trust);
    }
    let drills: Vec<ReamingDrill> = rows.into_iter().map(|(_, row)| row).collect();
    if drills.is_empty() {
        note_nearest(&at_hand, (least, goal), record);
        return Ok((None, drills));
    }
    tell!(record.look_up("Drills that leave the right stock", format!("{} of the systems", all.place())),
        a = "stock_low": stock.stock_low, b = "stock_high": stock.stock_high => drills.name);
    tell!(record.look_up("Their diameters", "tables of stock drills") => drills.diameter);
    tell!(record.look_up("Their holes", "a hundredth of the diameter larger, at least 0.03 mm or 0.001 in and at most \
        0.08 mm or 0.003 in"), d = drills.diameter => drills.hole);
    tell!(record.step("Stock that each leaves", "s = D - h"), D = diameter: goal, h = drills.hole => drills.stock_left);
    let middle = (least + most) / 2.0;
    let off = |row: &&ReamingDrill| (row.stock_left.get().si() - middle).abs();
    let chosen = drills.iter().min_by(|a, b| off(a).total_cmp(&off(b))).cloned();
    if let Some(drill) = &chosen {
        let rule = "the one nearest to the middle of the stock";
        tell!(record.choose("Stock of the drill to take", rule), s = drills.stock_left => "drill.stock_left": drill.stock_left);
        tell!(record.choose("Its diameter", "that of the same drill"), d = drills.diameter => "drill.diameter": drill.diameter);
        tell!(record.choose("Its hole", "that of the same drill"), h = drills.hole => "drill.hole": drill.hole);
        tell!(record.look_up("Its name", "that of the same drill") => "drill.name": drill.name);
    }
    Ok((chosen, drills))
}

/// Says which drills come nearest where none leaves the right stock.
fn note_nearest(at_hand: &[(&'static Drill, ReamingDrill)], (least, goal): (f64, Size), record: &mut Record) {
    let left = |row: &ReamingDrill| row.stock_left.get().si();
    let rows = || at_hand.iter().map(|(_, row)| row);
    let more = rows().filter(|row| left(row) > least).min_by(|a, b| left(a).total_cmp(&left(b)));
    let less = rows().filter(|row| left(row) < least && left(row) > 0.0).max_by(|a, b| left(a).total_cmp(&left(b)));
    let said =
        |row: &ReamingDrill| format!("{} leaves {}", row.name, value(left(row), goal.quantity().unit, Way::Near));
    let nearest: Vec<String> = [more, less].into_iter().flatten().map(said).collect();
    let nearest = if nearest.is_empty() { String::new() } else { format!(" The nearest: {}.", nearest.join("; ")) };
    let says = format!(
        "No drill at hand leaves the right stock. Drill smaller and open the hole with a boring tool or a core drill to the \
         size given, or name more drill systems.{nearest}"
    );
    record.note("no_drill", says);
}
