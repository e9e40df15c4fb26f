//! Which way angles are measured and holes are counted: from the X or the Y axis, counterclockwise
//! or clockwise, and what that makes of sine and cosine.

use crate::quantity::angle;

crate::choice! {
    /// Where an angle is 0: along the positive X axis (`x_axis`) or the positive Y axis (`y_axis`).
    AngleFrom {
        /// Along +X.
        XAxis = "x_axis",
        /// Along +Y.
        YAxis = "y_axis",
    }
}

crate::choice! {
    /// Which way round, seen with X to the right and Y up: `counterclockwise` or `clockwise`.
    Sense {
        /// From +X towards +Y.
        Counterclockwise = "counterclockwise",
        /// From +Y towards +X.
        Clockwise = "clockwise",
    }
}

crate::choice! {
    /// From which side every place is approached: with the reading `growing` or `falling` on the last bit of the way.
    Approach {
        /// The reading grows.
        Growing = "growing",
        /// The reading falls.
        Falling = "falling",
    }
}

crate::choice! {
    /// Which side of a corner or an arc is cut: `inside`, a hollow with the cutter in it, or `outside`, a corner with the cutter around it.
    BlendSide {
        /// A hollow: the cutter runs within it.
        Inside = "inside",
        /// An outside corner: the cutter runs around it.
        Outside = "outside",
    }
}

/// How angles are measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Convention {
    /// Where an angle is 0.
    pub from: AngleFrom,
    /// Which way it grows.
    pub sense: Sense,
}

impl Convention {
    /// X and Y of the point at `degrees` on a circle of radius one.
    pub fn point(self, degrees: f64) -> (f64, f64) {
        let (sin, cos) = angle::sin_cos(degrees);
        match (self.from, self.sense) {
            (AngleFrom::XAxis, Sense::Counterclockwise) => (cos, sin),
            (AngleFrom::XAxis, Sense::Clockwise) => (cos, -sin),
            (AngleFrom::YAxis, Sense::Counterclockwise) => (-sin, cos),
            (AngleFrom::YAxis, Sense::Clockwise) => (sin, cos),
        }
    }

    /// The formulas of that point's X and Y on a circle of radius R about X, Y.
    pub fn point_formulas(self) -> (&'static str, &'static str) {
        match (self.from, self.sense) {
            (AngleFrom::XAxis, Sense::Counterclockwise) => ("x = X + R × cos(θ)", "y = Y + R × sin(θ)"),
            (AngleFrom::XAxis, Sense::Clockwise) => ("x = X + R × cos(θ)", "y = Y - R × sin(θ)"),
            (AngleFrom::YAxis, Sense::Counterclockwise) => ("x = X - R × sin(θ)", "y = Y + R × cos(θ)"),
            (AngleFrom::YAxis, Sense::Clockwise) => ("x = X + R × sin(θ)", "y = Y + R × cos(θ)"),
        }
    }

    /// How far a point lies along the axis where angles are 0, and how far across it, towards where
    /// they grow.
    pub fn along_across<T: std::ops::Neg<Output = T>>(self, x: T, y: T) -> (T, T) {
        match (self.from, self.sense) {
            (AngleFrom::XAxis, Sense::Counterclockwise) => (x, y),
            (AngleFrom::XAxis, Sense::Clockwise) => (x, -y),
            (AngleFrom::YAxis, Sense::Counterclockwise) => (y, -x),
            (AngleFrom::YAxis, Sense::Clockwise) => (y, x),
        }
    }

    /// The formulas of [`Self::along_across`] for the point x, y about the center X, Y.
    pub fn along_across_formulas(self) -> (&'static str, &'static str) {
        match (self.from, self.sense) {
            (AngleFrom::XAxis, Sense::Counterclockwise) => ("u = x - X", "v = y - Y"),
            (AngleFrom::XAxis, Sense::Clockwise) => ("u = x - X", "v = Y - y"),
            (AngleFrom::YAxis, Sense::Counterclockwise) => ("u = y - Y", "v = X - x"),
            (AngleFrom::YAxis, Sense::Clockwise) => ("u = y - Y", "v = x - X"),
        }
    }
}

/// The angle in degrees of a point so far along the axis where angles are 0 and so far across it,
/// and the formula that suits it: always the arc tangent of the smaller over the larger. Exact on
/// the axes; the point is not the center.
pub fn angle_of(along: f64, across: f64) -> (f64, &'static str) {
    let small = |ratio: f64| ratio.atan().to_degrees();
    match (across.abs() <= along.abs(), along > 0.0, across > 0.0) {
        (true, true, _) => (small(across / along), "α = atan(v / u)"),
        (true, false, _) => (180.0 + small(across / along), "α = π + atan(v / u)"),
        (false, _, true) => (90.0 - small(along / across), "α = π / 2 - atan(u / v)"),
        (false, _, false) => (-90.0 - small(along / across), "α = -π / 2 - atan(u / v)"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const ALL: [Convention; 4] = [
        Convention { from: AngleFrom::XAxis, sense: Sense::Counterclockwise },
        Convention { from: AngleFrom::XAxis, sense: Sense::Clockwise },
        Convention { from: AngleFrom::YAxis, sense: Sense::Counterclockwise },
        Convention { from: AngleFrom::YAxis, sense: Sense::Clockwise },
    ];

    #[test]
    fn a_quarter_turn_lands_on_the_next_axis() {
        let at = |at: usize, degrees: f64| {
            let (x, y) = ALL[at].point(degrees);
            (x + 0.0, y + 0.0)
        };
        assert_eq!([at(0, 0.0), at(0, 90.0)], [(1.0, 0.0), (0.0, 1.0)]);
        assert_eq!([at(1, 0.0), at(1, 90.0)], [(1.0, 0.0), (0.0, -1.0)]);
        assert_eq!([at(2, 0.0), at(2, 90.0)], [(0.0, 1.0), (-1.0, 0.0)]);
        assert_eq!([at(3, 0.0), at(3, 90.0)], [(0.0, 1.0), (1.0, 0.0)]);
    }

    #[test]
    fn the_angle_of_a_point_is_the_angle_it_was_put_at() {
        for convention in ALL {
            for degrees in -179..=180 {
                let (x, y) = convention.point(f64::from(degrees));
                let (along, across) = convention.along_across(x, y);
                let (found, _) = angle_of(along, across);
                let turned = (found - f64::from(degrees)).rem_euclid(360.0);
                assert!((turned - 180.0).abs() > 180.0 - 1e-12, "{degrees} {found}");
            }
        }
        assert_eq!(angle_of(-2.0, 0.0).0, 180.0);
        assert_eq!(angle_of(0.0, -2.0).0, -90.0);
        assert_eq!(angle_of(3.0, 3.0).0, 45.0);
    }
}
