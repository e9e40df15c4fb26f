//! Inch fits after ANSI B4.1, running and sliding, located, driven and shrunk: what the hole and the shaft may measure, and
//! what they leave.

mod drawing;

use crate::calculators::prelude::*;
use crate::fitting::{FitBasis, FittedPair, inch_pair};
use crate::reference::inch_fits::InchFitClass;

/// The calculator.
pub struct InchFit;

/// What the inch fits calculator asks for.
#[derive(Debug, Asks)]
pub struct InchFitInput {
    /// The nominal size of hole and shaft.
    #[label("Nominal size")]
    pub size: Size,
    /// Class of fit by ANSI B4.1: RC sliding and running, LC, LT and LN located, FN driven and shrunk.
    #[label("Class of fit")]
    pub class: InchFitClass,
    /// Which part begins at the nominal size: hole, or shaft such as bought ground bar.
    #[label("Basic part")]
    #[absent("hole", "The hole is basic, as a reamer makes it; with bought ground shafting take the shaft.")]
    pub basis: Option<FitBasis>,
}

/// What the inch fits calculator gives.
#[derive(Debug, Gives)]
pub struct InchFitResult {
    /// The hole, the shaft and the clearance that they leave.
    #[group]
    pub pair: FittedPair,
}

/// What a class is not for.
fn tell_use(class: InchFitClass, record: &mut Record) {
    let name = class.as_str();
    let (code, says) = match &name[..2] {
        "RC" if name == "RC1" || name == "RC2" => (
            "for_sliding",
            "RC1 and RC2 slide and turn by hand. They are not for a shaft that runs, and large ones seize when they \
             warm up.",
        ),
        "RC" if name == "RC3" => (
            "little_heat",
            "RC3 is for slow speeds and light loads. Take a wider class where the shaft gets warmer than its housing.",
        ),
        "RC" => (
            "room_for_oil",
            "Leave a way for the oil. Take a wider class where the shaft gets much warmer than its housing.",
        ),
        "LC" => (
            "parts_stand_still",
            "LC fits are for parts that stand still and come apart by hand, not for a running shaft.",
        ),
        "LT" => (
            "either_way",
            "A pair may come out loose or tight. Where every pair must be alike, measure and match them.",
        ),
        "LN" => (
            "no_drive_by_friction",
            "LN fits locate. Use a key or a pin for torque: they are not meant to carry it by friction.",
        ),
        _ => (
            "check_the_hub",
            "FN fits are for steel hubs with thick walls. The holding force and the stress in the hub depend on its wall: \
             work them out before you press.",
        ),
    };
    record.note(code, says);
}

impl Calculator for InchFit {
    const ID: &'static str = "fits/running";
    const TITLE: &'static str = "Inch fits, running to pressed";
    const ABOUT: &'static str = "What a hole and a shaft may measure for a class of ANSI B4.1, from a sliding fit to a \
        force fit, and the clearance or interference that they leave.";
    const TASK: Task = Task::Check;
    const AT_THE_MACHINE: bool = false;
    const ANOTHER_CHECK: &'static str =
        "Measure both parts at the same temperature, and set the micrometer on a block of the nominal size.";
    const WORDS: &'static str = "running fit, sliding fit, RC5, LC2, LN2, FN2, press fit inch, shrink fit, drive fit, \
        locational fit, ANSI B4.1, journal, bushing clearance, class of fit, force fit, inch fit";
    const EXAMPLES: &'static [Example] = examples! {
        "A 1-1/2 in winch shaft is to run in a bronze bushing, RC5.": size = "1.5 in", class = "RC5";
        "A mill gear is driven on a 2 in shaft of ground bar, FN2.": size = "2 in", class = "FN2", basis = "shaft";
        "A pump's bearing cap is located on a 4 in spigot, LC3.": size = "4 in", class = "LC3";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "A {size} shaft runs in its bushing, {class}. How small may the shaft be?" => "shaft/least":
            { size = "0.5 in" | "0.75 in" | "1 in" | "1.5 in" | "2 in", class = "RC4" | "RC5" | "RC7" };
        1 "A {size} bore is made for a fit of class {class}. How large may it be?" => "hole/greatest":
            { size = "0.5 in" | "1 in" | "1.5 in" | "3 in", class = "RC4" | "LC3" | "LN2" | "FN2" };
        2 "A winch shaft of {size} runs with class {class}. How much play is there at most?" => "greatest_clearance":
            { size = "0.75 in" | "1 in" | "1.5 in" | "2.5 in", class = "RC3" | "RC5" | "RC6" | "RC8" };
        2 "A gear of {size} bore is driven on, {class}. What is the clearance at its least? Interference is negative."
            => "least_clearance":
            { size = "1 in" | "1.5 in" | "2 in" | "3 in", class = "FN1" | "FN2" | "FN3" };
        3 "Ground bar of {size} is to run, {class}, and the shaft stays as bought. What size do you bore to aim at?"
            => "hole/middle":
            { size = "0.75 in" | "1 in" | "1.25 in" | "2 in", class = "RC5" | "RC7", basis = "shaft" };
    };
    type Input = InchFitInput;
    type Output = InchFitResult;
    const LEADS: &'static [&'static str] = &["hole/greatest"];
    const CONTEXT: &'static [&'static str] = &[
        "hole {hole/least} to {hole/greatest}",
        "shaft {shaft/least} to {shaft/greatest}",
        "{kind}, {least_clearance} to {greatest_clearance}",
    ];
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        let basis = input.basis(record);
        let pair = inch_pair((input.size, input.class, basis), record)?;
        tell_use(input.class, record);
        Ok(InchFitResult { pair })
    }
}
