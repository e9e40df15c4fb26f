//! The hole for a helical coil insert: drill, tap size and depths after the notes of ASME B18.29.1 and B18.29.8M; the
//! thread form and most drills are recalled.

mod sizes;

use crate::calculators::prelude::*;
use crate::reference::tap_chamfers::TapChamfer;
use crate::reference::threads::ThreadSystem;
use crate::suggestion::{Way, value};
use crate::threading::{BelowTheHole, BlindBottom, given_thread};
use sizes::{Depths, TapSizes};

/// The calculator.
pub struct Inserts;

/// What the insert calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check_thread, check = check)]
pub struct InsertsInput {
    /// Thread of the screw that goes into the insert, Unified or metric.
    #[label("Thread of the screw")]
    pub thread: Designation,
    /// Length of the insert in diameters of the screw: 1, 1.5, 2, 2.5 or 3; if absent 1.5.
    #[label("Length in diameters")]
    pub diameters: Option<PlainNumber>,
    /// Nominal length of the insert, in place of that.
    #[label("Length of the insert")]
    pub insert_length: Option<Size>,
    /// Kind of tap: plug or bottoming.
    #[label("Kind of tap")]
    #[absent("plug", "A plug tap is assumed; it needs the deeper hole.")]
    pub tap_chamfer: Option<TapChamfer>,
    /// Drill that is used, in place of the one in the list.
    #[label("Drill used")]
    pub drill: Option<DrillDiameter>,
    /// The drill's point and the part.
    #[group]
    pub bottom: BlindBottom,
}

/// What the insert calculator gives.
#[derive(Debug, Gives)]
pub struct InsertsResult {
    /// What is drilled and tapped.
    #[group]
    pub sizes: TapSizes,
    /// How deep.
    #[group]
    pub depths: Depths,
    /// How deep the drill's tip goes, and what is left.
    #[group]
    pub below: BelowTheHole,
}

fn check_thread(input: &InsertsInput) -> Result<(), ValidationError> {
    let thread = &input.thread.thread;
    if !matches!(thread.system, ThreadSystem::Unified | ThreadSystem::Metric) || thread.starts > 1 {
        let says = "Helical coil inserts are made for Unified and metric threads with one start.";
        return Err(rule_broken(Code::Conflict, says, &[("thread", "M8")]));
    }
    let least = input.thread.found(thread.diameter + 3f64.sqrt() / 8.0 * thread.pitch);
    match input.drill {
        Some(drill) if drill.size.get().si() < least.get().si() * (1.0 - 1e-9) => {
            let says = "This drill is below the least minor diameter of the thread for the insert: the tap would jam. The \
                drill is larger than for the same thread without an insert.";
            let larger = value(least.get().si(), input.thread.unit(), Way::Up);
            Err(rule_broken(Code::Conflict, says, &[("drill", &larger)]))
        }
        _ => Ok(()),
    }
}

rules! { check(InsertsInput) {
    not_both(diameters, insert_length): "Give the length of the insert or its length in diameters, not both.";
    never(|input| input.diameters.is_some_and(|times| !(0.5..=5.0).contains(&times.get())),
        Code::ValueOutOfRange, diameters = "1.5"): "Inserts are 1 to 3 diameters long; from 0.5 to 5 are taken.";
    never(|input| input.tap_chamfer == Some(TapChamfer::Taper), Code::NotOffered, tap_chamfer = "plug"):
        "The standard has depths for plug and bottoming taps.";
} }

impl Calculator for Inserts {
    const ID: &'static str = "holes/inserts";
    const TITLE: &'static str = "Hole for a helical coil insert";
    const ABOUT: &'static str = "The drill and the tap for a helical coil insert in a Unified or metric hole, how deep to \
        drill and to tap, and how much floor is left.";
    const TASK: Task = Task::MakeTheHole;
    const ANOTHER_CHECK: &'static str =
        "Try the tapped hole with the plug gauge of the insert's maker before you put the insert in.";
    const WORDS: &'static str = "wire thread insert, helical coil, thread repair, STI, screw thread insert, \
        stripped thread, insert tap, tang";
    const EXAMPLES: &'static [Example] = examples! {
        "A stripped 1/4-20 hole in an aluminum winch housing gets an insert of 1-1/2 diameters.":
            thread = "1/4-20 UNC", diameters = "1.5", tap_chamfer = "plug", thickness = "1-1/4 in", floor = "1/8 in";
        "M8 inserts of 12 mm in a pump cover, tapped with a bottoming tap after an 8.4 mm drill.":
            thread = "M8", insert_length = "12 mm", tap_chamfer = "bottoming", drill = "8.4 mm", point_angle = "118 deg";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "An insert for {thread} is {diameters} diameters long. How long is that?" => "length":
            { thread = "1/4-20 UNC" | "5/16-18 UNC" | "3/8-16 UNC", diameters = "1" | "1.5" | "2" }
            { thread = "M6" | "M8" | "M10", diameters = "1" | "1.5" | "2" };
        1 "Which drill does the list give for an insert of {thread}?" => "drill_diameter":
            { thread = "1/4-20 UNC" | "5/16-18 UNC" | "3/8-16 UNC" | "1/2-13 UNC" }
            { thread = "M5" | "M6" | "M8" | "M10" };
        2 "An insert for {thread} is {insert_length} long. How deep must the full thread be?" => "thread_depth":
            { thread = "1/4-20 UNC" | "3/8-16 UNC", insert_length = "3/8 in" | "1/2 in" | "3/4 in" }
            { thread = "M6" | "M8" | "M10", insert_length = "12 mm" | "15 mm" | "20 mm" };
        3 "The insert for {thread} is {insert_length} long, and you have a {tap_chamfer} tap. How deep must you drill at full \
           diameter?" => "full_depth":
            { thread = "M6" | "M8" | "M10", insert_length = "12 mm" | "15 mm", tap_chamfer = "plug" | "bottoming" }
            { thread = "1/2-13 UNC", insert_length = "1/2 in" | "3/4 in", tap_chamfer = "plug" | "bottoming" };
    };
    type Input = InsertsInput;
    type Output = InsertsResult;
    const LEADS: &'static [&'static str] = &["drill_name|drill_diameter", "tip_depth"];
    const CONTEXT: &'static [&'static str] =
        &["tip {tip_depth} deep", "tap {tap_depth} deep", "{floor_left} of floor left"];

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.cautions(&[cautions::DRILLING, cautions::TAPPING, cautions::TURNING_SPINDLE, cautions::SPOILED_HOLE]);
        let given = given_thread(&input.thread, "thread", record);
        let sizes = TapSizes::find(input, &given, record);
        let (depths, saved_by_bottoming) = Depths::find(input, &given, record);
        let length = depths.length.get().si();
        let shallower = |lacking: f64| {
            let (size, mut ways) = (given.size.get().si(), Vec::with_capacity(2));
            let shorter = [2.5, 2.0, 1.5, 1.0].into_iter().find(|times| times * size <= length - lacking);
            ways.extend(shorter.map(|times| match input.insert_length {
                Some(_) => ("insert_length", value(times * size, given.unit(), Way::Near)),
                None => ("diameters", text::full(times)),
            }));
            if input.tap_chamfer != Some(TapChamfer::Bottoming) && saved_by_bottoming >= lacking {
                ways.push(("tap_chamfer", TapChamfer::Bottoming.as_str().to_owned()));
            }
            ways
        };
        let found = sizes.drill_diameter.quantity();
        let drill = ("drill_diameter", Size::stated(found.value, found.unit));
        let below = input.bottom.below(drill, depths.full_depth, shallower, record)?;
        notes!(record => tang: "Put the insert in until its top is between three quarters and one and a half pitches below \
            the face, break the tang off, and take it out of the hole.");
        Ok(InsertsResult { sizes, depths, below })
    }
}
