//! The forms that stock comes in, and which sizes each is made of.

use super::StockMassInput;
use crate::calculators::prelude::*;

choice! {
    /// Form of stock: `round` bar or disc, `tube` or ring, `square`, `rectangle` (flat, plate or sheet), `rectangular_tube`, `hexagon`, `octagon`, or `angle`.
    StockForm {
        /// Round bar, or a disc.
        Round = "round" | "bar" | "disc",
        /// Round tube, pipe or ring.
        Tube = "tube" | "pipe" | "ring",
        /// Square bar.
        Square = "square",
        /// Flat bar, plate or sheet.
        Rectangle = "rectangle" | "rectangular" | "flat" | "plate" | "sheet",
        /// Square or rectangular tube.
        RectangularTube = "rectangular_tube" | "square_tube",
        /// Hexagon bar.
        Hexagon = "hexagon" | "hex",
        /// Octagon bar.
        Octagon = "octagon",
        /// Angle with equal or unequal legs.
        Angle = "angle",
    }
}

/// A size by its field and its label, with a value to try.
type FormSize = (&'static str, &'static str, &'static str);

const DIAMETER: FormSize = ("diameter", "outside diameter", "2 in");
const BORE: FormSize = ("bore", "inside diameter", "1.5 in");
const WALL: FormSize = ("wall", "wall", "0.25 in");
const WIDTH: FormSize = ("width", "width", "1 in");
const HEIGHT: FormSize = ("height", "height", "1 in");
const THICKNESS: FormSize = ("thickness", "thickness", "0.5 in");
const ALL: [FormSize; 6] = [DIAMETER, BORE, WALL, WIDTH, HEIGHT, THICKNESS];

impl StockForm {
    /// The sizes it must have, and those it may have.
    const fn sizes(self) -> (&'static [FormSize], &'static [FormSize]) {
        match self {
            Self::Round => (&[DIAMETER], &[]),
            Self::Tube => (&[DIAMETER], &[BORE, WALL]),
            Self::Square | Self::Hexagon | Self::Octagon => (&[WIDTH], &[]),
            Self::Rectangle => (&[WIDTH, THICKNESS], &[]),
            Self::RectangularTube | Self::Angle => (&[WIDTH, WALL], &[HEIGHT]),
        }
    }

    /// What a person calls it.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Round => "round stock",
            Self::Tube => "a tube",
            Self::Square => "square stock",
            Self::Rectangle => "a rectangle",
            Self::RectangularTube => "a rectangular tube",
            Self::Hexagon => "a hexagon",
            Self::Octagon => "an octagon",
            Self::Angle => "an angle",
        }
    }

    /// How many sides a regular polygon of this form has.
    pub const fn sides(self) -> Option<u32> {
        match self {
            Self::Square => Some(4),
            Self::Hexagon => Some(6),
            Self::Octagon => Some(8),
            _ => None,
        }
    }
}

/// The sizes given make up the form and leave metal between them.
pub fn check_sizes(input: &StockMassInput) -> Result<(), ValidationError> {
    let given = |(name, ..): &FormSize| match *name {
        "diameter" => input.diameter,
        "bore" => input.bore,
        "wall" => input.wall,
        "width" => input.width,
        "height" => input.height,
        _ => input.thickness,
    };
    let (needed, may) = input.form.sizes();
    let form = input.form.words();
    let mut lacks: Vec<FormSize> = needed.iter().copied().filter(|size| given(size).is_none()).collect();
    if input.form == StockForm::Tube && input.bore.is_none() && input.wall.is_none() {
        lacks.push(WALL);
    }
    if !lacks.is_empty() {
        let labels: Vec<&str> = lacks.iter().map(|(_, label, _)| *label).collect();
        let ways: Vec<(&'static str, &str)> = lacks.iter().map(|(name, _, good)| (*name, *good)).collect();
        let says = format!("The weight of {form} needs the {}.", labels.join(" and the "));
        return Err(rule_broken(Code::FieldMissing, says, &ways));
    }
    let fits = |size: &&FormSize| needed.iter().chain(may).any(|(name, ..)| *name == size.0);
    let stray: Vec<&FormSize> = ALL.iter().filter(|size| given(size).is_some() && !fits(size)).collect();
    if !stray.is_empty() {
        let labels: Vec<&str> = stray.iter().map(|(_, label, _)| *label).collect();
        let ways: Vec<(&'static str, &str)> = stray.iter().map(|(name, ..)| (*name, "leave out")).collect();
        let says = format!("The section of {form} has no {}.", labels.join(" and no "));
        return Err(rule_broken(Code::Conflict, says, &ways));
    }
    hollow(input)
}

rules! { hollow(StockMassInput) {
    not_both(bore, wall): "Give the inside diameter or the wall of the tube, not both.";
    smaller(bore < diameter, bore = "leave out"): "The inside diameter must be smaller than the outside diameter.";
    never(|input| input.form == StockForm::Tube && too_thick(input.wall, input.diameter, 2.0), Code::Conflict,
        wall = "0.05 in"): "Twice the wall must be less than the outside diameter; solid stock is the form round.";
    never(|input| input.form == StockForm::RectangularTube
            && (too_thick(input.wall, input.width, 2.0) || too_thick(input.wall, input.height, 2.0)), Code::Conflict,
        wall = "0.05 in"): "Twice the wall must be less than both sides; solid stock is the form rectangle.";
    never(|input| input.form == StockForm::Angle
            && (too_thick(input.wall, input.width, 1.0) || too_thick(input.wall, input.height, 1.0)), Code::Conflict,
        wall = "0.05 in"): "The wall of an angle must be thinner than both legs are wide.";
} }

fn too_thick(wall: Option<Size>, side: Option<Size>, walls: f64) -> bool {
    wall.zip(side).is_some_and(|(wall, side)| walls * wall.si() >= side.si())
}
