//! A sheet: what is put on it, at one scale for both axes, and where words are least in the way.

use super::area::{Area, Spots};
use super::spot::{HEIGHT, MARGIN, Spot, Text, WIDTH, on_circle};
use super::{Ink, On, Point, Reach};
use std::rc::Rc;

/// Which field a drawn item shows.
#[derive(Clone, Copy, Debug, Default)]
pub struct Tag {
    pub field: Option<&'static str>,
    pub number: Option<u32>,
}

/// What is drawn, in sheet units.
#[derive(Clone, Debug)]
pub enum Item {
    Path {
        spots: Vec<Spot>,
        closed: bool,
        ink: Ink,
        tag: Tag,
    },
    Circle {
        centre: Spot,
        radius: f64,
        ink: Ink,
        tag: Tag,
    },
    Arc {
        centre: Spot,
        radius: f64,
        from: f64,
        sweep: f64,
        ink: Ink,
        tag: Tag,
    },
    Dot {
        at: Spot,
        tag: Tag,
    },
    /// An arrow's head: its tip and the direction it points to.
    Head {
        tip: Spot,
        towards: Spot,
    },
    Text {
        middle: Spot,
        lines: Rc<[String]>,
        turned: bool,
    },
    /// What follows, to the next end, is a dimension measured between two spots, or the reading of one.
    Begin {
        a: Spot,
        b: Spot,
        tag: Tag,
        on: Option<On>,
    },
    End,
}

/// A sheet being filled.
pub struct Sheet {
    /// Sheet units to a meter.
    pub scale: f64,
    /// What is drawn; y counts downwards from the model's zero.
    pub items: Vec<Item>,
    /// What all items and words cover.
    pub bounds: Area,
    /// Whether the words of upright dimensions stand along their lines.
    pub turned: bool,
    words: Vec<Area>,
    /// Spots along what is drawn, and how much words should keep off them.
    lines: Spots,
}

impl Sheet {
    pub(super) fn new(scale: f64, turned: bool) -> Self {
        Self { scale, turned, items: Vec::new(), bounds: Area::NONE, words: Vec::new(), lines: Spots::default() }
    }

    /// How far it is overfilled, in the direction in which it is more so.
    pub fn over(&self) -> f64 {
        let Area { left, top, right, bottom } = self.bounds;
        (right - left - WIDTH + 2.0 * MARGIN).max(bottom - top - HEIGHT + 2.0 * MARGIN)
    }

    /// A point of the model on the sheet.
    pub fn spot(&self, (x, y): Point) -> Spot {
        (x * self.scale, -y * self.scale)
    }

    /// A length of the model or of the sheet on the sheet.
    pub fn reach(&self, reach: Reach) -> f64 {
        match reach {
            Reach::Sheet(units) => units,
            Reach::Model(metres) => metres * self.scale,
        }
    }

    /// Adds a line from spot to spot.
    pub fn path(&mut self, ink: Ink, spots: Vec<Spot>, closed: bool, tag: Tag) {
        for pair in spots.windows(2) {
            let ((ax, ay), (bx, by)) = (pair[0], pair[1]);
            let steps = ((bx - ax).hypot(by - ay) / 5.0).ceil().clamp(1.0, 120.0);
            for step in 0..=steps as usize {
                let part = step as f64 / steps;
                self.lines.add((ax + (bx - ax) * part, ay + (by - ay) * part), weight(ink));
            }
        }
        spots.iter().for_each(|spot| self.bounds.take_in(*spot, 1.0));
        self.items.push(Item::Path { spots, closed, ink, tag });
    }

    /// Adds a thin line.
    pub fn thin(&mut self, a: Spot, b: Spot) {
        self.path(Ink::Thin, vec![a, b], false, Tag::default());
    }

    /// Adds an arc, or a circle if it is a whole turn.
    pub fn arc(&mut self, ink: Ink, centre: Spot, radius: f64, from: f64, sweep: f64, tag: Tag) {
        let steps = (radius * sweep.abs().to_radians() / 5.0).ceil().clamp(8.0, 160.0);
        for step in 0..=steps as usize {
            let spot = on_circle(centre, radius, from + sweep * step as f64 / steps);
            self.lines.add(spot, weight(ink));
            self.bounds.take_in(spot, 1.0);
        }
        // The outermost spots of an arc lie at quarter turns, which the steps may miss.
        for quarter in (0..8).map(|quarter| f64::from(quarter) * 90.0) {
            if (quarter - from).rem_euclid(360.0) <= sweep || (from - quarter).rem_euclid(360.0) <= -sweep {
                self.bounds.take_in(on_circle(centre, radius, quarter), 1.0);
            }
        }
        self.items.push(if sweep.abs() >= 360.0 {
            Item::Circle { centre, radius, ink, tag }
        } else {
            Item::Arc { centre, radius, from, sweep, ink, tag }
        });
    }

    /// Adds an arrow's head.
    pub fn head(&mut self, tip: Spot, towards: Spot) {
        self.bounds.take_in(tip, 3.0);
        self.items.push(Item::Head { tip, towards });
    }

    /// Adds words round `middle`.
    pub fn write(&mut self, middle: Spot, text: &Text) {
        self.write_turned(middle, text, false);
    }

    /// Adds words round `middle`, level or a quarter turn to the left.
    pub fn write_turned(&mut self, middle: Spot, text: &Text, turned: bool) {
        let area = text.area(middle, turned);
        self.words.push(area);
        self.bounds.take_in((area.left, area.top), 0.0);
        self.bounds.take_in((area.right, area.bottom), 0.0);
        self.items.push(Item::Text { middle, lines: text.lines.clone(), turned });
    }

    /// How bad it would be to write into `area`: other words first, then lines.
    pub fn crowding(&self, area: &Area) -> f64 {
        let words: f64 = self.words.iter().map(|other| area.shared(other)).sum();
        words * 10.0 + self.lines.within(area)
    }

    /// How many words a line from a to b would strike through.
    pub fn words_crossed(&self, a: Spot, b: Spot) -> f64 {
        self.words.iter().filter(|words| words.is_crossed(a, b)).count() as f64
    }

    /// Whether other words are in the way.
    pub fn is_taken(&self, area: &Area) -> bool {
        self.words.iter().any(|other| area.shared(other) > 0.0)
    }

    /// The middle among `middles`, best first, where words of that size are least in the way.
    pub fn choose(&self, width: f64, height: f64, middles: &[Spot]) -> usize {
        let later = |at: usize| at as f64 * 0.4;
        let cost = |at: usize| self.crowding(&Area::round(middles[at], width, height)) + later(at);
        least(0..middles.len(), later, cost).unwrap_or(0)
    }
}

/// The first of those that cost least. What they cost `at_least` is soon known and spares most of the work.
pub fn least(
    among: impl Iterator<Item = usize>,
    at_least: impl Fn(usize) -> f64,
    cost: impl Fn(usize) -> f64,
) -> Option<usize> {
    let best = among.fold(None, |best: Option<(f64, usize)>, at| match best {
        Some((least, _)) if at_least(at) >= least => best,
        _ => Some((cost(at), at))
            .filter(|(cost, _)| best.is_none_or(|(least, _)| cost.total_cmp(&least).is_lt()))
            .or(best),
    });
    best.map(|(_, at)| at)
}

/// How much words should keep off a line.
fn weight(ink: Ink) -> f64 {
    if ink == Ink::Outline { 2.5 } else { 1.0 }
}
