//! The few shapes a drawing is made of, in model coordinates: meters, x to the right, y upwards.
//! What is written on it is quantities, so that it is in the system asked for and rounded as its
//! kind is written. Laying it on the sheet and writing it as SVG is done here once for all.

mod annotate;
mod area;
mod features;
mod layout;
mod reading;
mod sheet;
mod spot;
mod straight;
mod svg;
mod way;
mod words;

use crate::quantity::System;
use crate::refusal::Refusal;
pub use features::{direction, middle, on_circle, span};
use std::borrow::Cow;
pub use way::free_side;
pub(crate) use words::words;
pub use words::{Words, Written, gaps};

/// A point of the model, in meters.
pub type Point = (f64, f64);

/// Every how many of so many features of one kind words can stand, about thirty in all.
pub fn every(count: usize) -> usize {
    [1, 2, 5, 10, 20, 25, 50].into_iter().find(|every| count / every <= 30).unwrap_or(100)
}

/// How a line is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ink {
    /// A visible edge.
    Outline,
    /// A thin line.
    Thin,
    /// A center line, chain-dotted.
    Centre,
    /// Dashed: an edge that is hidden or another possibility.
    Dashed,
    /// No line, a tinted area: material.
    Tint,
}

/// Where a straight dimension's line runs: at a model coordinate and so many sheet units from it.
#[derive(Clone, Copy, Debug)]
pub struct Beside {
    /// The coordinate across the dimension, in meters.
    pub from: f64,
    /// Sheet units from there: to the right or upwards if positive.
    pub by: f64,
}

/// Which length a straight dimension measures.
#[derive(Clone, Copy, Debug)]
enum Measured {
    Across(Beside),
    Upright(Beside),
    Along(f64),
}

/// The axis on which a place is read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum On {
    X,
    Y,
}

/// A length on the sheet or in the model.
#[derive(Clone, Copy, Debug)]
pub enum Reach {
    /// Sheet units, whatever the scale.
    Sheet(f64),
    /// Meters, to scale.
    Model(f64),
}

#[derive(Clone, Debug)]
enum Shape {
    Path { points: Vec<Point>, closed: bool, ink: Ink },
    Circle { centre: Point, radius: f64, ink: Ink },
    Arc { centre: Point, radius: f64, from: f64, sweep: f64, ink: Ink },
    Dot { at: Point },
    Cross { at: Point, radius: f64 },
    Dimension { a: Point, b: Point, measured: Measured },
    Reading { at: Point, on: On, line: Beside },
    Leg { from: Point, to: Point, ink: Ink },
    Angle { centre: Point, from: f64, sweep: f64, reach: Reach },
    Turning { centre: Point, from: f64, sweep: f64, reach: Reach },
    Radius { centre: Point, radius: f64, directions: Vec<f64> },
    Leader { at: Point, towards: f64 },
    Label { at: Point, clear: f64, towards: Option<f64>, freely: bool, may_be_left_out: bool },
    Direction { at: Point, towards: f64 },
}

/// One shape with its words, and which field of the answer it shows.
#[derive(Clone, Debug)]
pub struct Mark {
    shape: Shape,
    words: Option<Words>,
    field: Option<&'static str>,
    number: Option<u32>,
}

impl Mark {
    /// Shows `field` of the inputs or of the result.
    pub fn of(&mut self, field: &'static str) -> &mut Self {
        self.field = Some(field);
        self
    }

    /// Is the one of that number in a list.
    pub fn number(&mut self, number: u32) -> &mut Self {
        self.number = Some(number);
        self
    }
}

/// Where a drawing is to stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stands {
    /// By itself: carries its own colors for day, night and print.
    Alone,
    /// In a page, which gives it its colors.
    InPage,
}

/// A drawing.
#[derive(Clone, Debug)]
pub struct Drawing {
    title: Cow<'static, str>,
    about: Words,
    marks: Vec<Mark>,
}

impl Drawing {
    /// An empty drawing with its title and, for who cannot see it, what it shows.
    pub fn new(title: impl Into<Cow<'static, str>>, about: Words) -> Self {
        Self { title: title.into(), about, marks: Vec::new() }
    }

    /// The drawing as SVG, written in `system`.
    pub fn svg(&self, system: System, stands: Stands) -> Result<String, Refusal> {
        Ok(svg::write(&self.title, &self.about.text(system), &layout::lay_out(self, system)?, stands))
    }

    fn put(&mut self, shape: Shape) -> &mut Mark {
        self.marks.push(Mark { shape, words: None, field: None, number: None });
        let last = self.marks.len() - 1;
        &mut self.marks[last]
    }

    fn put_with(&mut self, shape: Shape, words: impl Into<Words>) -> &mut Mark {
        let mark = self.put(shape);
        mark.words = Some(words.into());
        mark
    }

    /// A straight line.
    pub fn line(&mut self, ink: Ink, from: Point, to: Point) -> &mut Mark {
        self.put(Shape::Path { points: vec![from, to], closed: false, ink })
    }

    /// Straight lines from point to point.
    pub fn path(&mut self, ink: Ink, points: Vec<Point>) -> &mut Mark {
        self.put(Shape::Path { points, closed: false, ink })
    }

    /// The same, back to the first point.
    pub fn closed(&mut self, ink: Ink, points: Vec<Point>) -> &mut Mark {
        self.put(Shape::Path { points, closed: true, ink })
    }

    /// A straight way from place to place, with an arrow's head in its middle where there is room.
    pub fn leg(&mut self, ink: Ink, from: Point, to: Point) -> &mut Mark {
        self.put(Shape::Leg { from, to, ink })
    }

    /// The same with words beside it that tell its length.
    pub fn leg_of(&mut self, ink: Ink, from: Point, to: Point, words: impl Into<Words>) -> &mut Mark {
        self.put_with(Shape::Leg { from, to, ink }, words)
    }

    /// A circle.
    pub fn circle(&mut self, ink: Ink, centre: Point, radius: f64) -> &mut Mark {
        self.put(Shape::Circle { centre, radius, ink })
    }

    /// An arc from the direction `from`, in degrees counter-clockwise from +X, over `sweep` degrees.
    pub fn arc(&mut self, ink: Ink, centre: Point, radius: f64, from: f64, sweep: f64) -> &mut Mark {
        self.put(Shape::Arc { centre, radius, from, sweep, ink })
    }

    /// A point, as a dot of the same size at every scale.
    pub fn dot(&mut self, at: Point) -> &mut Mark {
        self.put(Shape::Dot { at })
    }

    /// Center lines crossing at a point, a little longer than `radius`.
    pub fn cross(&mut self, at: Point, radius: f64) -> &mut Mark {
        self.put(Shape::Cross { at, radius })
    }

    /// A dimension from left to right.
    pub fn across(&mut self, a: Point, b: Point, line: Beside, words: impl Into<Words>) -> &mut Mark {
        self.put_with(Shape::Dimension { a, b, measured: Measured::Across(line) }, words)
    }

    /// A dimension from bottom to top.
    pub fn upright(&mut self, a: Point, b: Point, line: Beside, words: impl Into<Words>) -> &mut Mark {
        self.put_with(Shape::Dimension { a, b, measured: Measured::Upright(line) }, words)
    }

    /// A dimension of the straight distance, its line `by` sheet units to the left of the way from a to b.
    pub fn along(&mut self, a: Point, b: Point, by: f64, words: impl Into<Words>) -> &mut Mark {
        self.put_with(Shape::Dimension { a, b, measured: Measured::Along(by) }, words)
    }

    /// A reading on X, at the end of a line that leaves the place downwards or upwards.
    pub fn x_reading(&mut self, at: Point, line: Beside, words: impl Into<Words>) -> &mut Mark {
        self.put_with(Shape::Reading { at, on: On::X, line }, words)
    }

    /// A reading on Y, at the end of a line that leaves the place to the left or to the right.
    pub fn y_reading(&mut self, at: Point, line: Beside, words: impl Into<Words>) -> &mut Mark {
        self.put_with(Shape::Reading { at, on: On::Y, line }, words)
    }

    /// An angle at `centre`, from a direction over a sweep in degrees.
    pub fn angle(&mut self, centre: Point, from: f64, sweep: f64, reach: Reach, words: impl Into<Words>) -> &mut Mark {
        self.put_with(Shape::Angle { centre, from, sweep, reach }, words)
    }

    /// A radius, in the direction of `directions` where its words are least in the way.
    pub fn radius(&mut self, centre: Point, radius: f64, directions: Vec<f64>, words: impl Into<Words>) -> &mut Mark {
        self.put_with(Shape::Radius { centre, radius, directions }, words)
    }

    /// An arrow along an arc: which way something turns.
    pub fn turning(&mut self, centre: Point, from: f64, sweep: f64, reach: Reach) -> &mut Mark {
        self.put(Shape::Turning { centre, from, sweep, reach })
    }

    /// Words with a line to what they name, leaving it in the direction `towards`.
    pub fn leader(&mut self, at: Point, towards: f64, words: impl Into<Words>) -> &mut Mark {
        self.put_with(Shape::Leader { at, towards }, words)
    }

    /// Words centerd on a point.
    pub fn label(&mut self, at: Point, words: impl Into<Words>) -> &mut Mark {
        self.put_with(Shape::Label { at, clear: 0.0, towards: None, freely: false, may_be_left_out: false }, words)
    }

    /// Words beside a feature that reaches `clear` meters from `at`, in the direction `towards`; left
    /// out where they would touch others.
    pub fn note_beside(&mut self, at: Point, clear: f64, towards: f64, words: impl Into<Words>) -> &mut Mark {
        let towards = Some(towards);
        self.put_with(Shape::Label { at, clear, towards, freely: false, may_be_left_out: true }, words)
    }

    /// The same, never left out.
    pub fn note_kept(&mut self, at: Point, clear: f64, towards: f64, words: impl Into<Words>) -> &mut Mark {
        let towards = Some(towards);
        self.put_with(Shape::Label { at, clear, towards, freely: false, may_be_left_out: false }, words)
    }

    /// The same, turned to another side where words or lines are in the way.
    pub fn note_near(&mut self, at: Point, clear: f64, towards: f64, words: impl Into<Words>) -> &mut Mark {
        let towards = Some(towards);
        self.put_with(Shape::Label { at, clear, towards, freely: true, may_be_left_out: false }, words)
    }

    /// A straight arrow that begins at `at`: which way something moves.
    pub fn direction(&mut self, at: Point, towards: f64, words: impl Into<Words>) -> &mut Mark {
        self.put_with(Shape::Direction { at, towards }, words)
    }
}
