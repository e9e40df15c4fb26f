//! The working of a triangle: what is given stands as it is, what is not by its formula; then area, heights and circles.

use super::TriangleSolution;
use super::solve::{Case, Found, GivenSizes, case_of};
use crate::calculators::prelude::*;

const SIDES: [&str; 3] = ["side_a", "side_b", "side_c"];
const ANGLES: [&str; 3] = ["angle_a", "angle_b", "angle_c"];
const FOUND_SIDES: [&str; 3] = ["solutions.side_a", "solutions.side_b", "solutions.side_c"];
const FOUND_ANGLES: [&str; 3] = ["solutions.angle_a", "solutions.angle_b", "solutions.angle_c"];
const SIDE: [&str; 3] = ["a", "b", "c"];
const ANGLE: [&str; 3] = ["α", "β", "γ"];
const CAPITAL: [&str; 3] = ["A", "B", "C"];

/// A column of all triangles.
struct Columns<'a> {
    found: &'a [Found],
    sides: [Vec<FoundSize>; 3],
    angles: [Vec<FoundCornerAngle>; 3],
    record: &'a mut Record,
}

/// The triangles with their steps.
pub fn tell(given: &GivenSizes, found: &[Found], record: &mut Record) -> Vec<TriangleSolution> {
    let side = |of: usize| match given.0[of] {
        Some(side) => vec![side.found(); found.len()],
        None => found.iter().map(|one| FoundSize::of_si(one.sides[of])).collect(),
    };
    let angle = |of: usize| match given.1[of] {
        Some(angle) => vec![angle.found(); found.len()],
        None => found.iter().map(|one| FoundCornerAngle::stated(one.angles[of], Unit::Degree)).collect(),
    };
    let mut columns = Columns { found, sides: [0, 1, 2].map(side), angles: [0, 1, 2].map(angle), record };
    columns.tell_given(given);
    columns.tell_found(case_of(given));
    columns.tell_rest(given.1.iter().position(Option::is_some))
}

impl Columns<'_> {
    fn tell_given(&mut self, (sides, angles): &GivenSizes) {
        for of in 0..3 {
            if let Some(side) = sides[of] {
                let step = self.record.choose(format!("Side {}", SIDE[of]), "as given").with(SIDE[of], SIDES[of], side);
                step.gives(FOUND_SIDES[of], self.sides[of].clone());
            }
            if let Some(angle) = angles[of] {
                let step = self.record.choose(format!("Angle {}", CAPITAL[of]), "as given");
                step.with(ANGLE[of], ANGLES[of], angle).gives(FOUND_ANGLES[of], self.angles[of].clone());
            }
        }
    }

    fn tell_found(&mut self, case: Case) {
        match case {
            Case::Sides => (0..3).for_each(|of| self.angle_by_sides(of)),
            Case::Between(at) => {
                let (p, q) = ((at + 1) % 3, (at + 2) % 3);
                let formula = format!(
                    "{} = √(({p} - {q})^2 + 4 × {p} × {q} × (sin({} / 2))^2)",
                    SIDE[at],
                    ANGLE[at],
                    p = SIDE[p],
                    q = SIDE[q]
                );
                self.step(format!("Side {}", SIDE[at]), formula, &[p, q], &[at], (true, at));
                self.angle_by_angle(p, at);
                self.angle_by_angle(q, at);
            }
            Case::Angles(third, side) => {
                let (p, q) = ((third + 1) % 3, (third + 2) % 3);
                let formula = format!("{} = π - {} - {}", ANGLE[third], ANGLE[p], ANGLE[q]);
                self.step(format!("Angle {}", CAPITAL[third]), formula, &[], &[p, q], (false, third));
                for of in (0..3).filter(|of| *of != side) {
                    let formula = format!("{} = {} × sin({}) / sin({})", SIDE[of], SIDE[side], ANGLE[of], ANGLE[side]);
                    self.step(format!("Side {}", SIDE[of]), formula, &[side], &[of, side], (true, of));
                }
            }
            Case::Opposite { at, other, third } => {
                self.third_side(at, other, third);
                self.angle_by_angle(other, at);
                self.angle_by_angle(third, at);
            }
        }
    }

    /// A step over columns: the sides and the angles it takes, and whether it gives a side, and which.
    fn step(&mut self, what: String, formula: String, sides: &[usize], angles: &[usize], gives: (bool, usize)) {
        let mut step = self.record.step(what, formula);
        for of in sides {
            step = step.with(SIDE[*of], FOUND_SIDES[*of], self.sides[*of].clone());
        }
        for of in angles {
            step = step.with(ANGLE[*of], FOUND_ANGLES[*of], self.angles[*of].clone());
        }
        match gives {
            (true, of) => step.gives(FOUND_SIDES[of], self.sides[of].clone()),
            (false, of) => step.gives(FOUND_ANGLES[of], self.angles[of].clone()),
        }
    }

    /// By half the angle, which keeps the digits of a needle.
    fn angle_by_sides(&mut self, of: usize) {
        let (p, q) = (SIDE[(of + 1) % 3], SIDE[(of + 2) % 3]);
        let c = SIDE[of];
        let formula = format!(
            "{} = 2 × atan(√(({c} - {p} + {q}) × ({c} + {p} - {q}) / (({p} + {q} + {c}) × ({p} + {q} - {c}))))",
            ANGLE[of]
        );
        self.step(format!("Angle {}", CAPITAL[of]), formula, &[0, 1, 2], &[], (false, of));
    }

    /// An angle by its side and a known angle: half of it, in the triangle that its sine and cosine make.
    fn angle_by_angle(&mut self, of: usize, known: usize) {
        let (x, a, y) = (SIDE[of], SIDE[known], SIDE[3 - of - known]);
        let alpha = ANGLE[known];
        let formula = format!("{} = 2 × atan({x} × sin({alpha}) / ({a} + {y} - {x} × cos({alpha})))", ANGLE[of]);
        self.step(format!("Angle {}", CAPITAL[of]), formula, &[0, 1, 2], &[known], (false, of));
    }

    /// The third side beside an angle and the side opposite it: one or two.
    fn third_side(&mut self, at: usize, other: usize, third: usize) {
        let names = [("longer_third_side", "+"), ("shorter_third_side", "-")];
        let (a, b, angle) = (SIDE[at], SIDE[other], ANGLE[at]);
        let one = |column: &[FoundSize]| column.first().copied();
        let (Some(opposite), Some(beside)) = (one(&self.sides[at]), one(&self.sides[other])) else { return };
        let Some(known) = self.angles[at].first().copied() else { return };
        let lengths = self.sides[third].clone();
        for ((name, sign), length) in names.iter().zip(&lengths) {
            // Where the opposite side just reaches, it stands square on the third.
            let is_right = self.found[0].angles[other] == 90.0;
            let reach = format!(" {sign} √({a}^2 - ({b} × sin({angle}))^2)");
            let formula = format!("s = {b} × cos({angle}){}", if is_right { "" } else { &reach });
            let mut step =
                self.record.step(format!("Third side, {}", if *sign == "+" { "far" } else { "near" }), formula);
            if !is_right {
                step = step.with(a, SIDES[at], opposite);
            }
            let step = step.with(b, SIDES[other], beside);
            step.with(angle, ANGLES[at], known).gives(name, *length);
        }
        let mut step = self.record.choose(format!("Side {}", SIDE[third]), "every one that is more than nothing");
        for ((name, _), (symbol, length)) in names.iter().zip(["s", "t"].iter().zip(&lengths)) {
            step = step.with(symbol, name, *length);
        }
        step.gives(FOUND_SIDES[third], lengths);
    }

    /// Area, perimeter, heights and circles.
    fn tell_rest(self, known: Option<usize>) -> Vec<TriangleSolution> {
        let Self { found, sides, angles, record } = self;
        let [a, b, c] = &sides;
        let lengths =
            |of: fn(&Found) -> f64| -> Vec<FoundSize> { found.iter().map(|one| FoundSize::of_si(of(one))).collect() };
        let perimeter = lengths(|one| one.sides.iter().sum());
        tell!(record.step("Length around", "u = a + b + c"), a = "solutions.side_a": a.clone(),
            b = "solutions.side_b": b.clone(), c = "solutions.side_c": c.clone()
            => "solutions.perimeter": perimeter.clone());
        let area: Vec<FoundArea> = found.iter().map(|one| FoundArea::of_si(one.area)).collect();
        match known {
            Some(at) => {
                let (p, q) = ((at + 1) % 3, (at + 2) % 3);
                let formula = format!("F = {} × {} × sin({}) / 2", SIDE[p], SIDE[q], ANGLE[at]);
                let mut step = record.step("Area", formula).with(ANGLE[at], FOUND_ANGLES[at], angles[at].clone());
                for of in [p, q] {
                    step = step.with(SIDE[of], FOUND_SIDES[of], sides[of].clone());
                }
                step.gives("solutions.area", area.clone());
            }
            None => tell!(record.step("Area", "F = √((a + b + c) × (b + c - a) × (c + a - b) × (a + b - c)) / 4"),
                a = "solutions.side_a": a.clone(), b = "solutions.side_b": b.clone(), c = "solutions.side_c": c.clone()
                => "solutions.area": area.clone()),
        }
        let heights = [0, 1, 2].map(|of: usize| -> Vec<FoundSize> {
            found.iter().map(|one| FoundSize::of_si(2.0 * one.area / one.sides[of])).collect()
        });
        for (of, field) in ["solutions.height_a", "solutions.height_b", "solutions.height_c"].into_iter().enumerate() {
            let formula = format!("h = 2 × F / {}", SIDE[of]);
            let step = record.step(format!("Height over side {}", SIDE[of]), formula);
            let step = step.with("F", "solutions.area", area.clone());
            step.with(SIDE[of], FOUND_SIDES[of], sides[of].clone()).gives(field, heights[of].clone());
        }
        let inside = lengths(|one| 2.0 * one.area / one.sides.iter().sum::<f64>());
        tell!(record.step("Circle inside", "r = 2 × F / u"), F = "solutions.area": area.clone(),
            u = "solutions.perimeter": perimeter.clone() => "solutions.inscribed_radius": inside.clone());
        let around = lengths(|one| {
            let [a, b, c] = one.sides;
            (a / (4.0 * one.area)) * b * c
        });
        tell!(record.step("Circle through the corners", "R = a × b × c / (4 × F)"), a = "solutions.side_a": a.clone(),
            b = "solutions.side_b": b.clone(), c = "solutions.side_c": c.clone(), F = "solutions.area": area.clone()
            => "solutions.circumscribed_radius": around.clone());
        (0..found.len())
            .map(|at| TriangleSolution {
                side_a: sides[0][at],
                side_b: sides[1][at],
                side_c: sides[2][at],
                angle_a: angles[0][at],
                angle_b: angles[1][at],
                angle_c: angles[2][at],
                area: area[at],
                perimeter: perimeter[at],
                height_a: heights[0][at],
                height_b: heights[1][at],
                height_c: heights[2][at],
                inscribed_radius: inside[at],
                circumscribed_radius: around[at],
            })
            .collect()
    }
}
