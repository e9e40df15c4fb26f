//! Where a cutter's axis stops at straight walls, for the rough and the finishing cut: half the
//! cutter and the allowance off the wall, on the side away from the metal.

mod drawing;

use crate::arithmetic::touching::Axis;
use crate::calculators::prelude::*;
use crate::suggestion::{Way, value};

/// The calculator.
pub struct WallStops;

choice! {
    /// On which side of a wall the metal stays: `plus`, where readings are larger, or `minus`.
    MaterialSide {
        /// Towards larger readings.
        Plus = "plus",
        /// Towards smaller readings.
        Minus = "minus",
    }
}

/// A wall.
#[derive(Clone, Debug, Asks)]
pub struct Wall {
    /// The axis that the wall stands across, X or Y.
    #[label("Axis")]
    pub axis: Axis,
    /// Reading at which the finished wall should stand.
    #[label("Reading")]
    pub place: Place,
    /// On which side of the wall the metal stays: plus, where readings are larger, or minus.
    #[label("Metal on the side")]
    pub material_side: MaterialSide,
}

impl Wall {
    /// As a request states it.
    fn row(&self) -> String {
        let place = self.place.quantity();
        let number = text::full(place.value);
        format!("{},{number} {},{}", self.axis.as_str(), place.unit.row().ascii, self.material_side.as_str())
    }
}

/// The walls, in the order given.
pub type Walls = Rows<Wall>;

/// What the wall stops ask for.
#[derive(Debug, Asks)]
pub struct WallStopsInput {
    /// The walls: axis, reading, and the side on which the metal stays.
    #[label("Walls", "wall")]
    pub walls: Walls,
    /// Diameter that the cutter really cuts.
    #[label("Cutter diameter")]
    pub cutter_diameter: Size,
    /// What the rough cut leaves on every wall.
    #[label("Left for the finishing cut")]
    #[absent("0", like = cutter_diameter, "Nothing is left for a finishing cut, so both stops are the same.")]
    pub finish_allowance: Option<Extent>,
}

/// What the wall stops give.
#[derive(Debug, Gives)]
pub struct WallStopsResult {
    /// The stops, one for each wall, in the order given.
    #[label("Stops", "wall")]
    pub stops: Vec<WallStop>,
}

/// The stops at one wall.
#[derive(Debug, Gives)]
pub struct WallStop {
    /// Number of the wall.
    #[label("Number")]
    pub number: u32,
    /// The axis on which the stop is read.
    #[label("Axis")]
    pub axis: &'static str,
    /// Reading at which the rough cut stops.
    #[label("Rough stop")]
    pub rough: FoundPlace,
    /// Reading at which the finishing cut stops.
    #[label("Finishing stop")]
    pub finish: FoundPlace,
}

impl Calculator for WallStops {
    const ID: &'static str = "datum/wall-stops";
    const TITLE: &'static str = "Stops at walls";
    const ABOUT: &'static str = "The readings at which the cutter stops at the walls of a pocket, a boss, a slot or a \
        shoulder, for the rough and the finishing cut.";
    const TASK: Task = Task::LayOut;
    const ANOTHER_CHECK: &'static str = "Measure after the rough cut: the allowance must be left on each wall.";
    const WORDS: &'static str = "pocket, boss, slot, shoulder, cutter radius, offset, finish pass, end mill, step over";
    const EXAMPLES: &'static [Example] = examples! {
        "A pocket 60 mm by 40 mm in a pump body, cut with a 12 mm end mill, 0.3 mm left for the finishing cut.":
            walls = "x_axis,10 mm,minus;x_axis,70 mm,plus;y_axis,15 mm,minus;y_axis,55 mm,plus",
            cutter_diameter = "12 mm", finish_allowance = "0.3 mm";
        "A tongue 1.250 in wide left standing on a mill's slide, cut on both sides with a 3/4 in end mill.":
            walls = "y_axis,0.500 in,plus;y_axis,1.750 in,minus", cutter_diameter = "3/4 in",
            finish_allowance = "0.010 in";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "The right wall of a pocket is to stand at X 70 mm. You finish it with a {cutter_diameter} end mill. At \
           which X does the table stop?" => "stops/0/finish":
            { walls = "x,70 mm,plus", cutter_diameter = "6 mm" | "10 mm" | "12 mm" | "16 mm" | "20 mm" };
        1 "A shoulder is to stand at X 1.250 in, with the metal on the side of smaller readings. At which X does a \
           {cutter_diameter} end mill stop for the finishing cut?" => "stops/0/finish":
            { walls = "x,1.250 in,minus", cutter_diameter = "1/4 in" | "3/8 in" | "1/2 in" | "5/8 in" | "3/4 in" };
        2 "The left wall of a pocket is to stand at X 10 mm. A {cutter_diameter} end mill leaves {finish_allowance} \
           for the finishing cut. At which X does the rough cut stop?" => "stops/0/rough":
            { walls = "x,10 mm,minus", cutter_diameter = "10 mm" | "12 mm" | "16 mm",
              finish_allowance = "0.2 mm" | "0.3 mm" | "0.5 mm" };
        2 "The far wall of a slot is to stand at Y 3.500 in, metal beyond it. A {cutter_diameter} end mill leaves \
           {finish_allowance} to finish. At which Y does the rough cut stop?" => "stops/0/rough":
            { walls = "y,3.500 in,plus", cutter_diameter = "3/8 in" | "1/2 in" | "3/4 in",
              finish_allowance = "0.010 in" | "0.015 in" | "0.020 in" };
        3 "A tongue is to stand from Y 0.500 in to Y 1.750 in. A {cutter_diameter} end mill cuts both sides and \
           leaves {finish_allowance} on each. At which Y does the rough cut stop on the far side?" => "stops/1/rough":
            { walls = "y,0.500 in,plus;y,1.750 in,minus", cutter_diameter = "1/2 in" | "5/8 in" | "3/4 in",
              finish_allowance = "0.010 in" | "0.020 in" };
        3 "A pocket runs from X 15 mm to X 55 mm. A {cutter_diameter} end mill roughs it with {finish_allowance} left \
           on each wall. At which X does the rough cut stop on the right?" => "stops/1/rough":
            { walls = "x,15 mm,minus;x,55 mm,plus", cutter_diameter = "12 mm" | "16 mm" | "20 mm",
              finish_allowance = "0.3 mm" | "0.5 mm" };
    };
    type Input = WallStopsInput;
    type Output = WallStopsResult;
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "the center of a cutter that touches a wall is half its diameter off the wall");
        let diameter = input.cutter_diameter;
        let allowance = input.finish_allowance(record);
        fits(input, allowance)?;
        let walls = &input.walls.0;
        let away = |wall: &Wall| if wall.material_side == MaterialSide::Plus { -1.0 } else { 1.0 };
        let stops = walls.iter().zip(1..).map(|(wall, number)| {
            let finish = FoundPlace::of(wall.place.get() + away(wall) * diameter.get() / 2.0);
            let rough = FoundPlace::of(finish.get() + away(wall) * allowance.get());
            WallStop { number, axis: wall.axis.as_str(), rough, finish }
        });
        let (stops, away): (Vec<WallStop>, Shown) = (stops.collect(), column(walls, away));
        tell!(record.look_up("Walls", "every whole number from 1, in the order given") => stops.number);
        tell!(record.choose("Axes", "in the order given"),
            a = "walls.axis": column(walls, |wall| wall.axis.as_str()) => stops.axis);
        tell!(record.look_up("Away from the metal", "1 where it is on the minus side, -1 where it is on the plus side"),
            m = "walls.material_side": column(walls, |wall| wall.material_side.as_str()) => away: away.clone());
        tell!(record.step("Stop of the finishing cut", "f = w + k × D / 2"),
            w = walls.place, k = away: away.clone(), D = cutter_diameter: diameter => stops.finish);
        tell!(record.step("Stop of the rough cut", "r = f + k × a"),
            f = stops.finish, k = away, a = finish_allowance: allowance => stops.rough);
        notes! { record =>
            cutter_as_it_cuts: "Take the diameter from a trial cut: a cutter that is reground or runs out cuts a \
                different one. Measure after the rough cut, and correct the finishing stops by half of the error in \
                width.";
            one_side: "Approach every stop from the side of the cut and lock the axis there, so that backlash does \
                not let the cutter pull itself in.";
        }
        record.caution(cautions::MILLING);
        record.caution(cautions::TURNING_SPINDLE);
        Ok(WallStopsResult { stops })
    }
}

/// Refuses a cutter, or an allowance, for which there is no room between walls that face each other.
fn fits(input: &WallStopsInput, allowance: Extent) -> Result<(), Refusal> {
    let (diameter, unit) = (input.cutter_diameter.si(), input.cutter_diameter.quantity().unit);
    for axis in [Axis::XAxis, Axis::YAxis] {
        let mut walls: Vec<(usize, &Wall)> = (1..).zip(&input.walls.0).filter(|(_, wall)| wall.axis == axis).collect();
        walls.sort_by(|a, b| a.1.place.si().total_cmp(&b.1.place.si()));
        for pair in walls.windows(2) {
            let [(low, from), (high, to)] = pair else { continue };
            if (from.material_side, to.material_side) != (MaterialSide::Minus, MaterialSide::Plus) {
                continue;
            }
            // Without the noise of the subtraction.
            let room = text::round(to.place.si() - from.place.si(), 12);
            let apart = |size: f64| size > room * (1.0 + 1e-12) + 1e-15;
            let otherwise = "If they do not face each other, ask for one at a time.";
            if apart(diameter) {
                let says = format!(
                    "Walls {low} and {high} face each other, and the cutter does not fit between them. {otherwise}"
                );
                let smaller = if room > 1e-6 { value(room, unit, Way::Down) } else { "a smaller cutter".to_owned() };
                return Err(Refusal::no_answer(&says, &[("cutter_diameter", smaller), ("walls", from.row())]));
            }
            if apart(diameter + 2.0 * allowance.si()) {
                let says = format!(
                    "Walls {low} and {high} face each other, with too little room for the allowance on both. \
                     {otherwise}"
                );
                let less = value(text::round((room - diameter) / 2.0, 12), allowance.quantity().unit, Way::Down);
                let smaller = value(diameter / 2.0, unit, Way::Down);
                return Err(Refusal::no_answer(&says, &[("finish_allowance", less), ("cutter_diameter", smaller)]));
            }
        }
    }
    Ok(())
}
