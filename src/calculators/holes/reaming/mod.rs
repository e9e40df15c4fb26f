//! The hole before a reamer, the drill for it, and the limits of a reamer for a class of hole: stock from charts, holes
//! after ISO 286, reamers by the rule of DIN 1420.

mod drill;
mod limits;
mod questions;

use crate::calculators::prelude::*;
use crate::machine::Stock;
use crate::reference::drills::DrillSystem;
use crate::reference::hole_class::HoleClass;
use crate::reference::material_name::WorkMaterial;
use crate::reference::materials::MaterialGroup;
use crate::shop::{DrillsFrom, tell_reamer};
use drill::ReamingDrill;
use limits::{NewReamerLimits, ReamedHoleLimits};

/// The calculator.
pub struct ReamedHole;

choice! {
    /// Whether the reamer runs in a `machine` or is turned by `hand`.
    ReamerKind {
        /// In a spindle.
        Machine = "machine",
        /// With a wrench.
        Hand = "hand",
    }
}

/// What the reamed hole calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct ReamedHoleInput {
    /// Nominal diameter of the hole and the reamer.
    #[label("Diameter of the hole")]
    pub diameter: Size,
    /// Whether a machine or a hand turns the reamer: machine or hand.
    #[label("Kind of reamer")]
    #[absent("machine", "A machine reamer is assumed. A hand reamer wants less stock.")]
    pub reamer: Option<ReamerKind>,
    /// Work material; a hand reamer wants more stock in tough and light metals.
    #[label("Work material")]
    pub material: Option<WorkMaterial>,
    /// Class of the hole after ISO 286, such as H7.
    #[label("Class of the hole")]
    pub hole_class: Option<HoleClass>,
    /// Diameter of the reamer as measured, to compare with its limits; needs the class of the hole.
    #[label("Reamer as measured")]
    pub reamer_measured: Option<Size>,
    /// Drills at hand: any of fraction, number, letter, metric; if absent every one of the drawer, or of the tables the
    /// inch ones for a size in inches and metric for one in millimeters.
    #[label("Drill systems")]
    pub systems: Option<Vec<DrillSystem>>,
    /// Which drills to choose from: those in the shop's drawer, or all of the tables; shop if one with drills is set.
    #[label("Choose from")]
    pub from: Option<DrillsFrom>,
}

/// What the reamed hole calculator gives.
#[derive(Debug, Gives)]
pub struct ReamedHoleResult {
    /// The drill to use; absent where none leaves the right stock.
    pub drill: Option<ReamingDrill>,
    /// The stock to leave.
    #[group]
    pub stock: Option<Stock>,
    /// Every drill that leaves the right stock, smallest first.
    #[label("Drills that fit", "drill")]
    pub drills: Vec<ReamingDrill>,
    /// Limits of the hole.
    #[label("Hole")]
    #[needs(hole_class)]
    pub hole: Option<ReamedHoleLimits>,
    /// Limits of a new reamer for the hole.
    #[label("New reamer")]
    #[needs(hole_class)]
    pub new_reamer: Option<NewReamerLimits>,
    /// What the measured reamer is good for.
    #[label("Your reamer")]
    #[needs(hole_class, reamer_measured)]
    pub verdict: Option<&'static str>,
}

rules! { check(ReamedHoleInput) {
    needs(reamer_measured => hole_class = "H7", reamer_measured = "leave out"):
        "Limits of a reamer need the class of the hole: give that too.";
    never(|input| input.systems.as_ref().is_some_and(Vec::is_empty), Code::ValueEmpty, systems = "number"):
        "No drill system is named; leave the field out for the usual ones.";
} }

impl Calculator for ReamedHole {
    const ID: &'static str = "holes/reaming";
    const TITLE: &'static str = "Drill and limits for a reamed hole";
    const ABOUT: &'static str = "The stock to leave for a hand or machine reamer, the drill that leaves it, and the limits of \
        the hole and of a new reamer for it.";
    const TASK: Task = Task::MakeTheHole;
    const ANOTHER_CHECK: &'static str =
        "Ream a trial hole in a scrap of the same metal and try it with the go and no-go ends of a plug gauge.";
    const WORDS: &'static str = "reamer drill, ream, undersize, reaming allowance, H7, dowel hole, DIN 1420, reamer limits, \
        hand reamer, chucking reamer";
    const EXAMPLES: &'static [Example] = examples! {
        "A dowel hole of 10 mm H7 in a pump flange, finished with a machine reamer.":
            diameter = "10 mm", reamer = "machine", hole_class = "H7", systems = "metric", from = "tables";
        "A 1/2 in bushing hole in a winch bracket of 6061, reamed by hand.":
            diameter = "1/2 in", reamer = "hand", material = "6061";
        "An old 12 mm reamer measures 12.009 mm: is it still good for H7 in a mill gear hub?":
            diameter = "12 mm", hole_class = "H7", reamer_measured = "12.009 mm";
    };
    const EXERCISES: &'static [Exercise] = questions::QUESTIONS;
    type Input = ReamedHoleInput;
    type Output = ReamedHoleResult;
    const LEADS: &'static [&'static str] = &["drill/name|drill_high", "drill/stock_left"];
    const CONTEXT: &'static [&'static str] = &[
        "hole {drill_low} to {drill_high}", "{drill/stock_left} of stock left", "hole {hole/least} to {hole/greatest}",
    ];

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.cautions(&[cautions::TURNING_SPINDLE, cautions::DRILLING, cautions::REAMING]);
        record.source("geometry", "the hole before reaming is the reamer less the stock");
        let diameter = input.diameter;
        tell_reamer(&diameter, record);
        let stock = stock(input, record);
        let (drill, drills) = match &stock {
            Some(stock) => drill::choose(input, stock, record)?,
            None => (None, Vec::new()),
        };
        let limits = input.hole_class.map(|class| limits::find(input, class, record)).transpose()?;
        if stock.is_none() && limits.is_none() {
            let says =
                "The tables of reaming stock have no row for this diameter. Give the class of the hole for its limits.";
            return Err(Refusal::no_answer(says, &[("diameter", "0.5 in".into()), ("hole_class", "H7".into())]));
        }
        let (hole, new_reamer) = limits.unzip();
        let verdict = input.reamer_measured.zip(hole.as_ref().zip(new_reamer.as_ref()));
        let verdict = verdict.map(|(measured, limits)| limits::judge(measured, limits, record));
        Ok(ReamedHoleResult { drill, stock, drills, hole, new_reamer, verdict })
    }
}

/// The stock for the kind of reamer.
fn stock(input: &ReamedHoleInput, record: &mut Record) -> Option<Stock> {
    match input.reamer(record) {
        ReamerKind::Machine => {
            notes!(record => more_in_tough_metal: "In tough or gummy metal leave the larger stock: a reamer that rubs goes \
                dull and cuts large. A trade course leaves less than this chart, 0.2 to 0.3 mm or 0.008 to 0.012 in from 5 \
                to 20 mm.");
            Stock::for_machine(input.diameter, record)
        }
        ReamerKind::Hand => {
            let group = input.material.map(|WorkMaterial(material)| material.group);
            let is_more = matches!(group, Some(MaterialGroup::M | MaterialGroup::N | MaterialGroup::S));
            notes!(record => less_by_other_practice: "The table is that of a trade course. Other shops leave only 0.03 to \
                0.08 mm, or 0.001 to 0.003 in, for a hand reamer; with that the reamer turns easily, but the hole before \
                it must be clean and straight.");
            Stock::for_hand(input.diameter, is_more, record)
        }
    }
}
