//! What stock weighs: section, length, pieces and density, from textbook densities and plane geometry; checked against
//! stockists' weights by the foot and sections cut into triangles by an arbitrary-precision library.

mod drawing;
mod form;
mod section;

use crate::calculators::prelude::*;
use crate::reference::stock_material::StockMaterial;
pub use form::StockForm;

/// The calculator.
pub struct StockMass;

/// What the stock mass calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check, check = form::check_sizes)]
pub struct StockMassInput {
    /// What the stock is made of: a grade, or a word such as brass that covers several.
    pub material: Option<StockMaterial>,
    /// Density of the material, where you know it.
    pub density: Option<Density>,
    /// Form of the stock.
    pub form: StockForm,
    /// Outside diameter of round stock, of a tube or of a ring.
    #[label("Outside diameter")]
    pub diameter: Option<Size>,
    /// Inside diameter of a tube or a ring. Give this or the wall.
    #[label("Inside diameter")]
    pub bore: Option<Size>,
    /// Wall of a tube, or thickness of the legs of an angle.
    #[label("Wall")]
    pub wall: Option<Size>,
    /// Width of the section: across flats, of a flat or plate, or of an angle's first leg.
    #[label("Width or across flats")]
    pub width: Option<Size>,
    /// Height of a rectangular tube, or of an angle's second leg.
    #[absent("the width", value = self.width.unwrap_or(ONE), "Both sides are assumed equal.")]
    #[label("Height or second leg")]
    pub height: Option<Size>,
    /// Thickness of a rectangle: a flat, a plate or a sheet.
    pub thickness: Option<Size>,
    /// Length of one piece; of a ring, how wide it is.
    #[label("Length of a piece")]
    pub length: Option<Size>,
    /// How many pieces.
    #[label("Number of pieces")]
    #[absent("1", "One piece is weighed.")]
    pub pieces: Option<Count<1, 1_000_000>>,
}

/// A size where there is none: the rules refuse before it counts.
const ONE: Size = Size::stated(1.0, Unit::Inch);

/// What the stock mass calculator gives.
#[derive(Debug, Gives)]
pub struct StockMassResult {
    /// Weight of all the pieces, by the greatest density that the material may have.
    #[label("Weight of all")]
    #[needs(length, material | density)]
    pub total_mass: Option<FoundMass>,
    /// Weight of one piece.
    #[label("Weight of one piece")]
    #[needs(length, material | density)]
    pub piece_mass: Option<FoundMass>,
    /// Weight of all the pieces by the least density; only where the material's density is a range.
    #[label("Weight of all, at least")]
    pub least_mass: Option<FoundMass>,
    /// Weight of the stock for each length of it.
    #[label("Weight for each length")]
    #[needs(material | density)]
    pub mass_per_length: Option<FoundMassPerLength>,
    /// Area of the section.
    #[label("Area of the section")]
    pub section_area: FoundArea,
    /// The density that the weights rest on, the greatest of a range.
    #[label("Density used")]
    #[needs(material | density)]
    pub density_used: Option<FoundDensity>,
}

rules! { check(StockMassInput) {
    not_both(material, density): "Give the material or its density, not both.";
} }

/// A piece that not everybody can lift safely, in kilograms.
const HEAVY: f64 = 15.0;

impl Calculator for StockMass {
    const ID: &'static str = "stock/mass";
    const TITLE: &'static str = "Weight of stock";
    const ABOUT: &'static str = "What bar, tube, plate or a ring weighs: a piece, all the pieces and each foot or meter, \
        by material or by density. Solved backwards it gives the length that weighs so much.";
    const TASK: Task = Task::LayOut;
    // A weight sets no machine.
    const AT_THE_MACHINE: bool = false;
    const ANOTHER_CHECK: &'static str = "Weigh a short offcut and multiply by the lengths.";
    const WORDS: &'static str = "weight, mass, bar, tube, pipe, plate, sheet, flat, hexagon, angle iron, ring, disc, \
        density, weight per foot, weight per meter, heavy, lift, price by weight";
    const EXAMPLES: &'static [Example] = examples! {
        "Four winch shafts of 2 in 1018, 18 in long: can one person carry them?":
            material = "1018", form = "round", diameter = "2 in", length = "18 in", pieces = "4";
        "A bronze bushing blank for a mill pump, 80 mm outside, 50 mm bore, 120 mm long.":
            material = "bronze", form = "tube", diameter = "80 mm", bore = "50 mm", length = "120 mm";
        "A drawing gives only the density: 25 mm hexagon of 8.5 g/cm³, 3 m long.":
            density = "8.5 g/cm3", form = "hexagon", width = "25 mm", length = "3 m";
        "A bracket of 3 x 2 x 1/4 in steel angle, 10 ft of it.":
            material = "s235", form = "angle", width = "3 in", height = "2 in", wall = "1/4 in", length = "10 ft";
        "A base plate of aluminum, 12 mm thick, 400 by 300 mm.":
            material = "6061", form = "rectangle", width = "300 mm", thickness = "12 mm", length = "400 mm";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "A {length} length of {diameter} round 1018 comes off the rack. What does it weigh?" => "total_mass":
            { form = "round", material = "1018", diameter = "1 in" | "1-1/2 in" | "2 in" | "3 in",
              length = "12 in" | "18 in" | "36 in" }
            { form = "round", material = "1018", diameter = "25 mm" | "40 mm" | "50 mm" | "80 mm",
              length = "300 mm" | "500 mm" | "1000 mm" };
        1 "What does {width} square 6061 weigh by the foot or meter?" => "mass_per_length":
            { form = "square", material = "6061", width = "1 in" | "1-1/4 in" | "2 in", units = "inch" }
            { form = "square", material = "6061", width = "20 mm" | "25 mm" | "40 mm", units = "metric" };
        2 "You order {pieces} plates of S235, {width} by {length} and {thickness} thick. What do they weigh together?"
            => "total_mass":
            { form = "rectangle", material = "s235", width = "6 in" | "8 in", length = "12 in" | "16 in",
              thickness = "1/2 in" | "3/4 in", pieces = "2" | "4" | "6" }
            { form = "rectangle", material = "s235", width = "150 mm" | "200 mm", length = "300 mm" | "400 mm",
              thickness = "10 mm" | "16 mm" | "20 mm", pieces = "2" | "4" | "6" };
        2 "A tube of 316 has {diameter} outside and a {wall} wall. What does {length} of it weigh?" => "total_mass":
            { form = "tube", material = "316", diameter = "2 in" | "3 in", wall = "1/8 in" | "1/4 in",
              length = "24 in" | "48 in" }
            { form = "tube", material = "316", diameter = "60 mm" | "80 mm", wall = "3 mm" | "5 mm",
              length = "500 mm" | "2000 mm" };
        3 "{pieces} hexagon nuts' blanks, {width} across flats and {length} long, come from C36000 brass. How heavy is \
            the box?" => "total_mass":
            { form = "hexagon", material = "c36000", width = "3/4 in" | "1 in" | "1-1/4 in", length = "5/8 in" | "1 in",
              pieces = "50" | "100" | "200" }
            { form = "hexagon", material = "c36000", width = "19 mm" | "24 mm" | "30 mm", length = "16 mm" | "25 mm",
              pieces = "50" | "100" | "200" };
    };
    type Input = StockMassInput;
    type Output = StockMassResult;
    const LEADS: &'static [&'static str] = &["total_mass", "mass_per_length", "section_area"];
    const CONTEXT: &'static [&'static str] =
        &["one piece {piece_mass}", "{mass_per_length}", "at least {least_mass}", "density {density_used}"];
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "areas of circle, rectangle and regular polygon");
        let section_area = section::find_area(input, record);
        let Some((density_used, least_density)) = find_density(input, record) else {
            return Ok(StockMassResult {
                total_mass: None,
                piece_mass: None,
                least_mass: None,
                mass_per_length: None,
                section_area,
                density_used: None,
            });
        };
        let mass_per_length: FoundMassPerLength = step!(record, "Weight of each length",
            q: mass_per_length = A * ρ, A = section_area, ρ = density_used);
        let mut result = StockMassResult {
            total_mass: None,
            piece_mass: None,
            least_mass: None,
            mass_per_length: Some(mass_per_length),
            section_area,
            density_used: Some(density_used),
        };
        record.note(
            "nominal",
            "This is the weight of the nominal size with sharp corners. Rolled and drawn stock may be a few percent off.",
        );
        let Some(length) = input.length else { return Ok(result) };
        let pieces = input.pieces(record).get();
        let piece_mass: FoundMass = step!(record, "Weight of one piece",
            m: piece_mass = q * L, q = mass_per_length, L = length);
        let total_mass: FoundMass = step!(record, "Weight of all pieces",
            M: total_mass = m * n, m = piece_mass, n = pieces);
        result.least_mass = least_density.map(|least_density| {
            step!(record, "The same by the least density",
                l: least_mass = M * e / ρ, M = total_mass, e = least_density, ρ = density_used)
        });
        (result.piece_mass, result.total_mass) = (Some(piece_mass), Some(total_mass));
        if piece_mass.si() >= HEAVY {
            record.caution((
                "heavy",
                "One piece weighs more than many people can lift safely (15 kg, 33 lb). Get help or a hoist, and watch \
                 your fingers and your feet.",
            ));
        }
        Ok(result)
    }
}

/// The density to weigh by, and the least where it is a range; none where neither material nor density is given.
fn find_density(input: &StockMassInput, record: &mut Record) -> Option<(FoundDensity, Option<FoundDensity>)> {
    let Some(material) = &input.material else {
        let density = input.density?;
        tell!(record.choose("Density", "as given"), ρ = density => density_used: density.found());
        return Some((density.found(), None));
    };
    let (low, high) = material.range_of((|row| row.density, "density"), record);
    let in_grams = |density: f64| FoundDensity::stated(density / 1000.0, Unit::GramPerCubicCentimetre);
    let (least, greatest) = (in_grams(low), in_grams(high));
    let rows = format!("material_physical.csv, rows {}", material.listed());
    tell!(record.look_up("Density, the greatest of the rows", rows.clone()) => density_used: greatest);
    if low == high {
        return Some((greatest, None));
    }
    tell!(record.look_up("The least of them", rows) => least_density: least);
    let says = if material.covers.len() > 1 {
        format!(
            "The name covers {}. The weight is by the heaviest of them; name the grade for a closer one.",
            material.listed()
        )
    } else {
        "The density of this material is published as a range. The weight is by the greatest.".to_owned()
    };
    record.note("density_range", says);
    Some((greatest, Some(least)))
}
