//! What a person sees while touching work to find zero, in words that hold however the axes are
//! wired, and the lines that touches lie on.

use crate::declared::{HasUnit, said_word};
use crate::fields::{Point, Points};
use crate::quantity::{Extent, Place, SiValue, Unit};
use crate::working::{Record, Shown, StepDraft};

crate::choice! {
    /// Whether the reading was `growing` or `falling` as the tip came up to the face.
    ReadingWas {
        /// It grew.
        Growing = "growing",
        /// It fell.
        Falling = "falling",
    }
}

crate::choice! {
    /// Where the tip stood as it touched: `outside`, as on a block, or `inside`, as in a slot or a pocket.
    Touched {
        /// Outside the work.
        Outside = "outside",
        /// Inside a slot or a pocket.
        Inside = "inside",
    }
}

crate::choice! {
    /// What is round: a `bore`, touched or swept from inside, or a `boss` or any shaft, from outside.
    Feature {
        /// A hole.
        Bore = "bore",
        /// A shaft.
        Boss = "boss",
    }
}

crate::choice! {
    /// An axis: `x_axis` or `y_axis`.
    Axis {
        /// X.
        XAxis = "x_axis" | "x",
        /// Y.
        YAxis = "y_axis" | "y",
    }
}

impl Axis {
    /// The axis that a line of so much X and Y runs nearer to.
    pub fn nearer(x: f64, y: f64) -> Self {
        if y.abs() <= x.abs() { Axis::XAxis } else { Axis::YAxis }
    }

    /// How far a line of so much X and Y goes along the axis, and how far across it,
    /// counterclockwise, seen with X to the right and Y up.
    pub fn along_across(self, x: f64, y: f64) -> (f64, f64) {
        match self {
            Axis::XAxis => (x, y),
            Axis::YAxis => (y, -x),
        }
    }
}

/// The angle in degrees, above -90 to 90, of a line that goes so far along an axis and so far
/// across it, whichever end it is followed from; and the formula that suits it. Exact on the axes.
pub fn line_angle(along: f64, across: f64) -> (f64, &'static str) {
    if across.abs() <= along.abs() {
        ((across / along).atan().to_degrees() + 0.0, "α = atan(v / u)")
    } else if along == 0.0 || (along > 0.0) == (across > 0.0) {
        (90.0 - (along / across).atan().to_degrees(), "α = π / 2 - atan(u / v)")
    } else {
        (-90.0 - (along / across).atan().to_degrees(), "α = -π / 2 - atan(u / v)")
    }
}

/// A tip's diameter in meters; one that is not named has none.
pub fn across(tip: Option<Extent>) -> f64 {
    tip.map_or(0.0, |tip| tip.get().si())
}

/// A point in meters.
pub fn metres(point: &Point) -> (f64, f64) {
    (point.x.get().si(), point.y.get().si())
}

/// What is known on X and on Y, and the names under which the record has both.
#[derive(Clone, Debug)]
pub struct Pair<T> {
    /// The two names.
    pub of: [&'static str; 2],
    /// The two values.
    pub on: [T; 2],
}

impl StepDraft<'_> {
    /// Two symbols, that of X and that of Y.
    pub fn with_pair<T: Clone + Into<Shown>>(self, [x, y]: [&'static str; 2], pair: &Pair<T>) -> Self {
        self.with(x, pair.of[0], pair.on[0].clone()).with(y, pair.of[1], pair.on[1].clone())
    }
}

/// The columns of a list of points.
pub fn columns(points: &[Point]) -> [Vec<Place>; 2] {
    [points.iter().map(|point| point.x).collect(), points.iter().map(|point| point.y).collect()]
}

/// Puts one touch of a list on record under names of its own; `from` names the list's columns.
pub fn take(
    points: &[Point],
    at: usize,
    from: [&'static str; 2],
    to: [&'static str; 2],
    record: &mut Record,
) -> Pair<Place> {
    let columns = columns(points);
    let list = match from[0].split('.').next() {
        None | Some("points") => String::new(),
        Some(list) => format!(" on the {}", said_word(list)),
    };
    for (on, axis) in ["X", "Y"].into_iter().enumerate() {
        record
            .look_up(format!("{axis} of touch {}{list}", at + 1), "its row")
            .with("t", from[on], columns[on].as_slice())
            .gives(to[on], columns[on][at]);
    }
    Pair { of: to, on: columns.map(|column| column[at]) }
}

impl HasUnit for Points {
    fn unit(&self) -> Unit {
        unit_of(&self.0)
    }
}

/// The unit of the first length of the points that is not zero, which alone needs no unit.
pub fn unit_of(points: &[Point]) -> Unit {
    let stated = |place: &Place| place.quantity().value != 0.0;
    let places = points.iter().flat_map(|point| [point.x, point.y]);
    places.clone().find(stated).or(places.clone().next()).map_or(Unit::Inch, |place| place.quantity().unit)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_has_one_angle_from_either_end() {
        for degrees in -89..=90 {
            let (sin, cos) = f64::from(degrees).to_radians().sin_cos();
            for end in [1.0, -1.0] {
                let (found, _) = line_angle(end * cos, end * sin);
                // Straight across, either end is as good.
                assert!((found - f64::from(degrees)).abs() < 1e-12 || degrees == 90, "{degrees} {found}");
            }
        }
        assert_eq!(line_angle(0.0, -2.0).0, 90.0);
        assert_eq!(line_angle(-3.0, 3.0).0, -45.0);
        assert!(line_angle(-3.0, 0.0).0.is_sign_positive());
    }

    #[test]
    fn the_axes_follow_each_other_counterclockwise() {
        assert_eq!(Axis::XAxis.along_across(2.0, 1.0), (2.0, 1.0));
        assert_eq!(Axis::YAxis.along_across(-1.0, 2.0), (2.0, 1.0));
        assert_eq!(Axis::nearer(1.0, -1.0), Axis::XAxis);
        assert_eq!(Axis::nearer(-1.0, 1.5), Axis::YAxis);
    }

    #[test]
    fn a_bare_zero_does_not_decide_the_unit() {
        let points = crate::fields::Points::read("0,0;10 mm,0").expect("points");
        assert_eq!(unit_of(&points.0), Unit::Millimetre);
    }
}
