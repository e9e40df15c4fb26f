//! The centre of a bore or a boss from touches round it: exact through three, least squares through
//! more, with what is left over and how far an error of a touch moves the centre.

mod circle;
mod drawing;
mod hold;
mod seen;
mod steps;

use crate::arithmetic::touching::Feature;
use crate::calculators::prelude::*;
use crate::declared::HasUnit;

/// The calculator.
pub struct BoreOrBoss;

/// What the bore or boss calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct BoreOrBossInput {
    /// Where the middle of the tip was at each touch, x and y; three or more, best spread all round.
    pub points: Points,
    /// Diameter of the tip; 0 if absent: the places lie on the wall itself.
    #[absent("0", like = points, "The places are taken to lie on the wall itself; the centre is right with any tip, the diameter only with its own.")]
    pub tip_diameter: Option<Extent>,
    /// What was touched: a bore, from the inside, or a boss, from the outside. Needed with a tip diameter.
    pub feature: Option<Feature>,
    /// How far a touch may be off, as one standard deviation.
    #[absent(
        "0.0005 in or 0.01 mm",
        value = self.usual_error(),
        "About what a careful touch repeats to; touch one face a few times to see what yours does."
    )]
    pub touch_error: Option<Size>,
}

/// What the bore or boss calculator gives.
#[derive(Debug, Gives)]
pub struct BoreOrBossResult {
    /// Where the centre is.
    pub center: BoreOrBossCenter,
    /// Diameter of the bore or boss.
    pub diameter: FoundSize,
    /// How far each touch lies from the circle found, outside positive, in the order given; all 0 for three touches.
    pub residuals: Vec<FoundDifference>,
    /// Greatest residual less least; absent for three touches, which leave nothing over.
    pub out_of_round: Option<FoundExtent>,
    /// How far an error of touch_error in every touch moves the centre, as one standard deviation, in the direction that suffers most.
    pub center_uncertainty: FoundExtent,
    /// The arc that the touches span: a full turn less the widest gap between neighbours.
    pub arc_angle: FoundAngle,
    /// How far that arc of the tip's path rises over its chord: a short rise is a weak hold on the centre.
    pub arc_height: FoundExtent,
}

/// A centre's place.
#[derive(Debug, Gives)]
pub struct BoreOrBossCenter {
    /// Where it is on X.
    pub x: FoundPlace,
    /// Where it is on Y.
    pub y: FoundPlace,
}

impl BoreOrBossInput {
    /// The tip's diameter in metres.
    pub(super) fn tip(&self) -> f64 {
        self.tip_diameter.map_or(0.0, |tip| tip.get().si())
    }

    fn usual_error(&self) -> Size {
        match self.points.unit().system() {
            Some(System::Metric) => Size::stated(0.01, Unit::Millimetre),
            _ => Size::stated(0.0005, Unit::Inch),
        }
    }
}

rules! { check(BoreOrBossInput) {
    never(|input| input.points.0.len() < 3, Code::ValueOutOfRange, points = "1 in,0 in;0 in,1 in;-1 in,0 in;0 in,-1 in"):
        "A circle needs three touches or more.";
    never(|input| input.tip() > 0.0 && input.feature.is_none(), Code::Conflict, feature = "bore", tip_diameter = "leave out"):
        "With a tip diameter the size depends on what was touched: a bore from the inside or a boss from the outside.";
} }

impl Calculator for BoreOrBoss {
    const ID: &'static str = "datum/bore-or-boss";
    const TITLE: &'static str = "Centre of a bore or boss";
    const ABOUT: &'static str = "Centre and diameter of a bore or boss from three or more touches, what each touch is \
        off by, and how surely the centre is known.";
    const TASK: Task = Task::FindZero;
    const ANOTHER_CHECK: &'static str =
        "Sweep it with an indicator in the spindle: at the centre the needle stands still.";
    const WORDS: &'static [&'static str] = &[
        "circle",
        "hole centre",
        "three points",
        "least squares",
        "edge finder",
        "probe",
        "pick up a hole",
        "roundness",
    ];
    const EXAMPLES: &'static [Example] = examples! {
        "Four touches with a 0.200 in tip inside the bearing bore of a winch frame.":
            points = "3.1502 in,2.0000 in;2.0003 in,3.1497 in;0.8499 in,2.0004 in;1.9999 in,0.8501 in",
            tip_diameter = "0.200 in", feature = "bore", touch_error = "0.0005 in";
        "Only a third of a broken pump flange is left: three touches with a 10 mm tip round its rim.":
            points = "105 mm,0 mm;90.93 mm,52.5 mm;52.5 mm,90.93 mm", tip_diameter = "10 mm", feature = "boss";
    };
    type Input = BoreOrBossInput;
    type Output = BoreOrBossResult;
    const LEADS: &'static [&'static str] = &["center/x", "center/y"];
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        let result = steps::solve(input, record)?;
        record.caution(cautions::TOUCHING);
        record.caution(cautions::TURNING_SPINDLE);
        Ok(result)
    }
}
