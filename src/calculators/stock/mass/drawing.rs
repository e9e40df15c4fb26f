//! The section of the stock with its sizes.

use super::{ONE, StockForm, StockMassInput, StockMassResult};
use crate::calculators::prelude::*;
use crate::drawing::{Beside, Drawing, Ink, Point, on_circle, words};

/// Draws an answer: the section about zero.
pub fn draw(input: &StockMassInput, result: &StockMassResult) -> Drawing {
    let mut about = words!("The section of {}, {} in area": input.form.words(), result.section_area);
    if let Some(weight) = result.mass_per_length {
        about = about.then("; it weighs ").value(weight);
    }
    if let Some(total) = result.total_mass {
        about = about.then(", all the pieces ").value(total);
    }
    let mut drawing = Drawing::new("Section of the stock", about.then("."));
    match input.form {
        StockForm::Round | StockForm::Tube => round(&mut drawing, input),
        StockForm::Square | StockForm::Hexagon | StockForm::Octagon => polygon(&mut drawing, input),
        StockForm::Rectangle | StockForm::RectangularTube => rectangle(&mut drawing, input),
        StockForm::Angle => angle(&mut drawing, input),
    }
    drawing
}

/// A dimension below or beside whatever ends at `from`.
fn beside(from: f64, by: f64) -> Beside {
    Beside { from, by }
}

fn round(drawing: &mut Drawing, input: &StockMassInput) {
    let diameter = input.diameter.unwrap_or(ONE);
    let radius = diameter.si() / 2.0;
    drawing.circle(Ink::Outline, (0.0, 0.0), radius).of("diameter");
    drawing.cross((0.0, 0.0), radius);
    drawing.across((-radius, 0.0), (radius, 0.0), beside(-radius, -24.0), diameter).of("diameter");
    let inside = match (input.bore, input.wall) {
        (Some(bore), _) => bore.si() / 2.0,
        (None, Some(wall)) => radius - wall.si(),
        (None, None) => return,
    };
    let hole = drawing.circle(Ink::Outline, (0.0, 0.0), inside);
    if let Some(bore) = input.bore {
        hole.of("bore");
        drawing.across((-inside, 0.0), (inside, 0.0), beside(radius, 24.0), bore).of("bore");
    } else if let Some(wall) = input.wall {
        drawing.across((inside, 0.0), (radius, 0.0), beside(radius, 24.0), wall).of("wall");
    }
}

fn polygon(drawing: &mut Drawing, input: &StockMassInput) {
    let width = input.width.unwrap_or(ONE);
    let sides = input.form.sides().unwrap_or(4);
    let half = width.si() / 2.0;
    let step = 360.0 / f64::from(sides);
    let out = half / crate::quantity::angle::cos(step / 2.0);
    let corners: Vec<Point> =
        (0..sides).map(|at| on_circle((0.0, 0.0), out, step / 2.0 + step * f64::from(at))).collect();
    drawing.closed(Ink::Outline, corners);
    drawing.across((-half, 0.0), (half, 0.0), beside(-out, -24.0), width).of("width");
}

fn rectangle(drawing: &mut Drawing, input: &StockMassInput) {
    let width = input.width.unwrap_or(ONE);
    let silent = &mut Record::of_result_alone();
    let (height, field) = match input.form {
        StockForm::Rectangle => (input.thickness.unwrap_or(ONE), "thickness"),
        _ => (input.height(silent), "height"),
    };
    let (x, y) = (width.si() / 2.0, height.si() / 2.0);
    drawing.block(Ink::Outline, (-x, -y), (x, y));
    drawing.across((-x, -y), (x, -y), beside(-y, -24.0), width).of("width");
    drawing.upright((x, -y), (x, y), beside(x, 24.0), height).of(field);
    if let (StockForm::RectangularTube, Some(wall)) = (input.form, input.wall) {
        let t = wall.si();
        drawing.block(Ink::Outline, (t - x, t - y), (x - t, y - t));
        drawing.across((x - t, y), (x, y), beside(y, 24.0), wall).of("wall");
    }
}

fn angle(drawing: &mut Drawing, input: &StockMassInput) {
    let (width, wall) = (input.width.unwrap_or(ONE), input.wall.unwrap_or(ONE));
    let height = input.height(&mut Record::of_result_alone());
    let (w, h, t) = (width.si(), height.si(), wall.si());
    drawing.closed(Ink::Outline, vec![(0.0, 0.0), (w, 0.0), (w, t), (t, t), (t, h), (0.0, h)]);
    drawing.across((0.0, 0.0), (w, 0.0), beside(0.0, -24.0), width).of("width");
    drawing.upright((0.0, 0.0), (0.0, h), beside(0.0, -24.0), height).of("height");
    drawing.upright((w, 0.0), (w, t), beside(w, 24.0), wall).of("wall");
}
