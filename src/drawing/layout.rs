//! Laying a drawing on its sheet: one scale for both axes, found so that shapes and the words round
//! them fill the width; letters have the same size at every scale.

use super::annotate;
use super::area::Area;
use super::sheet::{Item, Sheet, Tag};
use super::spot::{HEIGHT, MARGIN, Spot, Text, WIDTH};
use super::{Drawing, Shape};
use crate::budget::go_on;
use crate::quantity::System;
use crate::refusal::Refusal;

/// A sheet laid out: the items, and where the model's zero lies.
pub struct LaidOut {
    pub items: Vec<Item>,
    /// Sheet units to a meter.
    pub scale: f64,
    /// Where the model's zero lies.
    pub zero: Spot,
    pub width: f64,
    pub height: f64,
}

/// Lays out a drawing.
pub fn lay_out(drawing: &Drawing, system: System) -> Result<LaidOut, Refusal> {
    let texts = drawing.marks.iter().map(|mark| Some(Text::of(&mark.words.as_ref()?.text(system))));
    let texts: Vec<Option<Text>> = texts.collect();
    let model = extent(drawing);
    let (wide, high) = ((model.right - model.left).max(1e-12), (model.bottom - model.top).max(1e-12));
    let (room_x, room_y) = (WIDTH - 2.0 * MARGIN, HEIGHT - 2.0 * MARGIN);
    let largest = (room_x / wide).min(room_y / high);
    let (over, mut sheet) = fit(drawing, &texts, largest, false)?;
    if over > 0.0 || sheet.scale < 0.45 * largest {
        let (turned_over, turned) = fit(drawing, &texts, largest, true)?;
        if turned.scale > 1.2 * sheet.scale || turned_over < over - 5.0 {
            sheet = turned;
        }
    }
    let bounds = sheet.bounds;
    let width = WIDTH.max(bounds.right - bounds.left + 2.0 * MARGIN);
    let zero = ((width - bounds.left - bounds.right) / 2.0, MARGIN - bounds.top);
    let height = bounds.bottom - bounds.top + 2.0 * MARGIN;
    Ok(LaidOut { scale: sheet.scale, zero, width, height, items: sheet.items })
}

/// The largest scale at which all fits, or nearly. Words keep their size and jump from place to place,
/// so what they need beside the shapes is known only at a scale. With it, how far the sheet is overfilled.
fn fit(drawing: &Drawing, texts: &[Option<Text>], largest: f64, turned: bool) -> Result<(f64, Sheet), Refusal> {
    let scales = (0..28).map(|step| largest * 0.96f64.powi(step));
    for scale in scales.clone() {
        if let Some(sheet) = fill(drawing, texts, scale, turned, 0.0)? {
            return Ok((sheet.over(), sheet));
        }
    }
    let (mut least, mut best) = (f64::INFINITY, Sheet::new(largest, turned));
    for scale in scales {
        if let Some(sheet) = fill(drawing, texts, scale, turned, least.next_down())? {
            (least, best) = (sheet.over(), sheet);
        }
    }
    Ok((least, best))
}

/// What the shapes cover, in the model, y downwards.
fn extent(drawing: &Drawing) -> Area {
    let mut shapes = Sheet::new(1.0, false);
    let mut all = Area::NONE;
    for mark in &drawing.marks {
        match &mark.shape {
            Shape::Path { points, .. } => points.iter().for_each(|p| all.take_in((p.0, -p.1), 0.0)),
            Shape::Leg { from, to, .. } => [from, to].iter().for_each(|p| all.take_in((p.0, -p.1), 0.0)),
            Shape::Circle { centre, radius, .. } => all.take_in((centre.0, -centre.1), *radius),
            Shape::Arc { centre, radius, from, sweep, ink } => {
                let before = shapes.bounds;
                shapes.bounds = Area::NONE;
                shapes.arc(*ink, (centre.0, -centre.1), *radius, *from, *sweep, Tag::default());
                // The arc's bounds have a line's width round them.
                let one = shapes.bounds;
                all.take_in((one.left + 1.0, one.top + 1.0), 0.0);
                all.take_in((one.right - 1.0, one.bottom - 1.0), 0.0);
                shapes.bounds = before;
            }
            Shape::Dot { at } | Shape::Cross { at, .. } => all.take_in((at.0, -at.1), 0.0),
            _ => {}
        }
    }
    all
}

/// Puts everything on a sheet of that scale: shapes first, so that words keep clear of them. `None` as soon as it is
/// overfilled by more than `most`, since what is put on a sheet never makes it smaller.
fn fill(
    drawing: &Drawing,
    texts: &[Option<Text>],
    scale: f64,
    turned: bool,
    most: f64,
) -> Result<Option<Sheet>, Refusal> {
    let mut sheet = Sheet::new(scale, turned);
    for mark in &drawing.marks {
        annotate::shape(&mut sheet, mark);
    }
    for (mark, text) in drawing.marks.iter().zip(texts) {
        let Some(text) = text else { continue };
        if sheet.over() > most {
            return Ok(None);
        }
        go_on()?;
        annotate::words(&mut sheet, mark, text);
    }
    Ok((sheet.over() <= most).then_some(sheet))
}
