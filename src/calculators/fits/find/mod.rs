//! Which preferred fit to take for a job in words or for clearances that are wanted: ISO 286 or ANSI B4.1, on the hole or on
//! the shaft.

mod candidates;

use crate::calculators::prelude::*;
use crate::fitting::{FitBasis, FitKind};
use crate::reference::preferred_fits::{FitJob, FitStandard};
use candidates::{Wanted, candidates};

/// The calculator.
pub struct FindFit;

/// What the fit finder asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct FindFitInput {
    /// The nominal size of hole and shaft.
    #[label("Nominal size")]
    pub size: Size,
    /// What the fit is to do.
    pub job: Option<FitJob>,
    /// The least clearance wanted; negative is interference.
    #[label("Least clearance wanted")]
    pub least_clearance: Option<Difference>,
    /// The most clearance wanted; negative is interference.
    #[label("Most clearance wanted")]
    pub greatest_clearance: Option<Difference>,
    /// Which part begins at the nominal size: hole, as a reamer makes it, or shaft, such as bought ground bar.
    #[label("Basic part")]
    #[absent("hole", "The hole is basic, as a reamer makes it; with bought ground shafting take the shaft.")]
    pub basis: Option<FitBasis>,
    /// Whose fits: iso or ansi.
    #[absent(
        "iso",
        "The fits of ISO 286 are listed, for sizes in inches too; for the inch fits of ANSI B4.1 take ansi."
    )]
    pub standard: Option<FitStandard>,
}

/// A fit that may do.
#[derive(Debug, Gives)]
pub struct FitFound {
    /// Its classes or its name.
    #[label("Fit")]
    pub name: String,
    /// Least clearance; negative is interference.
    pub least_clearance: FoundFineDifference,
    /// Most clearance; negative is interference.
    #[label("Most clearance")]
    pub greatest_clearance: FoundFineDifference,
    /// Whether it always has clearance, always interference, or either.
    pub kind: FitKind,
    /// Whether it keeps within the clearances wanted; where any are.
    #[label("Keeps within")]
    pub within: Option<bool>,
    /// Largest hole.
    #[label("Hole, largest")]
    pub hole_greatest: FoundFineUpperLimit,
    /// Smallest hole.
    #[label("Hole, smallest")]
    pub hole_least: FoundFineLowerLimit,
    /// Largest shaft.
    #[label("Shaft, largest")]
    pub shaft_greatest: FoundFineUpperLimit,
    /// Smallest shaft.
    #[label("Shaft, smallest")]
    pub shaft_least: FoundFineLowerLimit,
    /// What it is for.
    #[label("Good for")]
    pub good_for: &'static str,
}

/// What the fit finder gives.
#[derive(Debug, Gives)]
pub struct FindFitResult {
    /// The fits, best first: those within the clearances wanted, of them the one with the widest tolerances, then
    /// those nearest to it; without clearances from loose to tight.
    #[label("Fits", "fit")]
    pub fits: Vec<FitFound>,
}

rules! { check(FindFitInput) {
    one_of(job = "running", greatest_clearance = "0.05 mm", least_clearance = "0.01 mm"): "Name the job, or a clearance that is wanted.";
    never(|input| input.least_clearance.zip(input.greatest_clearance).is_some_and(|(least, most)| least.si() > most.si()),
        Code::Conflict, least_clearance = "leave out", greatest_clearance = "leave out"):
        "The least clearance must not be more than the most.";
} }

impl Calculator for FindFit {
    const ID: &'static str = "fits/find";
    const TITLE: &'static str = "Which fit to take";
    const ABOUT: &'static str = "The preferred ISO or inch fits for a job, such as running or pressing, or for the clearance \
        that is wanted, with what hole and shaft may measure.";
    const TASK: Task = Task::Check;
    const AT_THE_MACHINE: bool = false;
    const ANOTHER_CHECK: &'static str = "Ask for the fit by its name: its limits must come out the same.";
    const WORDS: &'static str = "choose a fit, which fit, preferred fits, sliding, running clearance, bushing play, press fit, \
        location fit, hole basis, shaft basis, tap fit, push fit, drive fit, shrink";
    const EXAMPLES: &'static [Example] = examples! {
        "A winch shaft of 30 mm is to run in a bushing.": size = "30 mm", job = "running";
        "A pump spigot of 50 mm needs 0.01 to 0.06 mm of play, and the bar is bought ground.":
            size = "50 mm", least_clearance = "0.01 mm", greatest_clearance = "0.06 mm", basis = "shaft";
        "A mill gear is to be driven on a 1-1/2 in shaft.": size = "1.5 in", job = "driving", standard = "ansi";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "A {size} shaft is to run closely in its bushing, by ISO. How much play does the preferred fit leave at most?"
            => "fits/0/greatest_clearance":
            { size = "20 mm" | "25 mm" | "30 mm" | "40 mm" | "60 mm", job = "running" };
        1 "A {size} dowel slides by hand, by ISO. How small may the shaft of the preferred fit be?"
            => "fits/0/shaft_least":
            { size = "8 mm" | "12 mm" | "16 mm" | "25 mm", job = "sliding" };
        2 "You want no more than {greatest_clearance} and no less than {least_clearance} of play on {size}. With the fit \
           easiest to make, how large may the hole be?" => "fits/0/hole_greatest":
            { size = "30 mm" | "40 mm", least_clearance = "0.005 mm" | "0.01 mm", greatest_clearance = "0.1 mm" | "0.12 mm" }
            { size = "1 in" | "1.5 in", least_clearance = "0.001 in", greatest_clearance = "0.005 in" | "0.006 in",
              standard = "ansi" };
        3 "Bought ground bar of {size} is to slide by hand in a block. By ISO, what is the largest hole of the fit you take?"
            => "fits/0/hole_greatest":
            { size = "12 mm" | "16 mm" | "20 mm" | "25 mm", job = "sliding", basis = "shaft" };
    };
    type Input = FindFitInput;
    type Output = FindFitResult;
    const LEADS: &'static [&'static str] = &["fits/0/name"];
    const CONTEXT: &'static [&'static str] = &[
        "{fits/0/least_clearance} to {fits/0/greatest_clearance}",
        "hole {fits/0/hole_least} to {fits/0/hole_greatest}",
        "shaft {fits/0/shaft_least} to {fits/0/shaft_greatest}",
    ];

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        let basis = input.basis(record);
        let standard = input.standard(record);
        let wanted = Wanted::of(input);
        let fits = candidates(input.size, (standard, basis), &wanted, record)?;
        if wanted.has_clearance() && !fits.iter().any(|fit| fit.within == Some(true)) {
            record.note_first(
                "none_within",
                "No preferred fit keeps within the clearances wanted; the nearest are listed. State the limits of both \
                 parts by themselves, or measure and match them.",
            );
        } else if wanted.has_clearance() {
            record.note(
                "widest_first",
                "Of the fits within, the one with the widest tolerances is first: it is the easiest to make.",
            );
        } else {
            record.note(
                "from_close_to_wide",
                "Several may do: take a wider one for heat, dirt, speed, length or poor alignment. What the job was made \
                 to before, or the maker of the part, comes first.",
            );
        }
        record.note("at_20_degrees", "The limits hold at 20 °C (68 °F): let the part cool before you measure.");
        Ok(FindFitResult { fits })
    }
}
