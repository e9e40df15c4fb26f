//! The middle and the width of a block or a slot from a touch on each of its two faces: the tip's
//! diameter falls out of the middle and is part of the width.

mod drawing;

use crate::arithmetic::touching::Touched;
use crate::calculators::{Calculator, Draw, Example, Task};
use crate::cautions;
use crate::declared::{Asks, Gives};
use crate::quantity::{Extent, FoundPlace, FoundSize, Place, SiValue, TINY};
use crate::refusal::{Code, Refusal, Wrong, rule_broken};
use crate::suggestion::{Way, value};
use crate::working::Record;
use validator::ValidationError;

/// The calculator.
pub struct BetweenFaces;

/// What the between faces calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct BetweenFacesInput {
    /// The reading while the tip touched the first face.
    pub first: Place,
    /// The reading on the same axis while it touched the second face.
    pub second: Place,
    /// Diameter of the tip; 0 if absent: the readings are those of the faces themselves.
    pub tip_diameter: Option<Extent>,
    /// Where the tip stood: outside, on a block, or inside, in a slot. Needed with a tip diameter.
    pub touched: Option<Touched>,
    /// The reading that the middle is to have; 0 if absent.
    pub center_position: Option<Place>,
}

/// What the between faces calculator gives.
#[derive(Debug, Gives)]
pub struct BetweenFacesResult {
    /// The middle between the faces, on the readings as they stand.
    pub center: FoundPlace,
    /// The width of the block or the slot.
    pub width: FoundSize,
    /// What to make the readout show while the tip is still at the second face, so that the middle gets its reading.
    pub set_here: FoundPlace,
}

fn check(input: &BetweenFacesInput) -> Result<(), ValidationError> {
    let has_tip = input.tip_diameter.is_some_and(|tip| tip.get().si() > 0.0);
    if has_tip && input.touched.is_none() {
        return Err(rule_broken(
            Code::Conflict,
            "With a tip diameter the width depends on where the tip stood: outside, on a block, or inside, in a slot.",
            &[("touched", "outside"), ("tip_diameter", "leave out")],
        ));
    }
    Ok(())
}

/// Refuses readings that leave no width.
fn check_width(input: &BetweenFacesInput, width: f64) -> Result<(), Refusal> {
    if width >= TINY {
        return Ok(());
    }
    let unit = input.second.quantity().unit;
    let apart = (input.second.get() - input.first.get()).si();
    let tip = input.tip_diameter.map_or(0.0, |tip| tip.get().si());
    let (way, usual) = if apart < 0.0 { (-1.0, Way::Down) } else { (1.0, Way::Up) };
    let farther = value(input.first.get().si() + way * (2.0 * tip).max(0.0254), unit, usual);
    let mut wrongs = Vec::new();
    let mut wrong = |field: &str, says: &str, try_this: String| {
        wrongs.push(Wrong::new(field, Code::Conflict, says, try_this));
    };
    if tip == 0.0 || input.touched == Some(Touched::Inside) {
        wrong("second", "Both readings are the same: there is no width between them.", farther);
    } else {
        let says = "The readings lie no farther apart than the tip's diameter, which leaves nothing for a block.";
        wrong("second", says, farther);
        wrong("touched", says, "inside".into());
        let smaller = value(apart.abs() / 2.0, unit, Way::Down);
        wrong("tip_diameter", says, smaller);
    }
    Err(Refusal(wrongs))
}

impl Calculator for BetweenFaces {
    const ID: &'static str = "datum/between-faces";
    const TITLE: &'static str = "Middle between two faces";
    const ABOUT: &'static str = "The middle and the width of a block or a slot from a touch on each face, and what to \
        set the readout to at the second face so that the middle is zero.";
    const TASK: Task = Task::FindZero;
    const ANOTHER_CHECK: &'static str =
        "Sweep both faces with an indicator in the spindle: at the middle it reads the same on both.";
    const WORDS: &'static [&'static str] =
        &["centre", "center", "midpoint", "halve", "edge finder", "width", "slot", "block", "vise", "two touches"];
    const EXAMPLES: &'static [Example] = &[
        Example {
            says: "A winch foot was touched on both sides with a 0.200 in tip; its middle is to be zero.",
            fields: &[
                ("first", "-0.100 in"),
                ("second", "3.104 in"),
                ("tip_diameter", "0.200 in"),
                ("touched", "outside"),
            ],
        },
        Example {
            says: "A keyway in a pump coupling was touched on both walls with a 4 mm tip; its middle is to read 30 mm.",
            fields: &[
                ("first", "41.35 mm"),
                ("second", "33.27 mm"),
                ("tip_diameter", "4 mm"),
                ("touched", "inside"),
                ("center_position", "30 mm"),
            ],
        },
    ];
    type Input = BetweenFacesInput;
    type Output = BetweenFacesResult;
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "two touches with one round tip from opposite sides");
        let (first, second) = (input.first, input.second);
        let unit = second.quantity().unit;
        let tip = record.or_assume(
            input.tip_diameter,
            "tip_diameter",
            Extent::stated(0.0, unit),
            "The readings are taken to be those of the faces themselves; the middle is right with any tip, the width \
             only with its diameter.",
        );
        let apart = second.get() - first.get();
        let (what, formula, width) = match input.touched {
            Some(Touched::Outside) => ("Width: the tip stood outside", "w = abs(b - a) - d", apart.abs() - tip.get()),
            Some(Touched::Inside) => ("Width: the tip stood inside", "w = abs(b - a) + d", apart.abs() + tip.get()),
            None => ("Width", "w = abs(b - a)", apart.abs()),
        };
        check_width(input, width.si())?;
        let center = FoundPlace::of((first.get() + second.get()) / 2.0);
        record
            .step("Middle", "m = (a + b) / 2")
            .with("a", "first", first)
            .with("b", "second", second)
            .gives("center", center);
        let width = FoundSize::of(width);
        let step = record.step(what, formula).with("a", "first", first).with("b", "second", second);
        let step = if input.touched.is_some() { step.with("d", "tip_diameter", tip) } else { step };
        step.gives("width", width);
        let wanted = record.or_assume(
            input.center_position,
            "center_position",
            Place::stated(0.0, unit),
            "The middle is taken to be the datum.",
        );
        let set_here = FoundPlace::of(wanted.get() + apart / 2.0);
        record
            .step("Reading to enter at the second face", "z = C + (b - a) / 2")
            .with("C", "center_position", wanted)
            .with("a", "first", first)
            .with("b", "second", second)
            .gives("set_here", set_here);
        record.note(
            "play",
            "The two faces are come up to from opposite sides. With dials in place of scales the play of the screw goes \
             into the width in full and into the middle by half.",
        );
        record.note("check_width", "Check the width with a caliper: it shows a wrong tip or a touch on a burr.");
        record.caution(cautions::TOUCHING);
        record.caution(cautions::TURNING_SPINDLE);
        Ok(BetweenFacesResult { center, width, set_here })
    }
}
