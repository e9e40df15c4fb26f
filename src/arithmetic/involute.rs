//! The involute of an angle, tangent less angle, and the angle back from it.

use super::roots::root_between;

/// Up to here, in radians, angles are found back: pins whose centers lie farther out touch no tooth.
const MOST: f64 = 1.55;

/// The involute of an angle in radians.
pub fn involute(angle: f64) -> f64 {
    angle.tan() - angle
}

/// The angle, above zero, that has this involute.
pub fn angle_of_involute(value: f64) -> Option<f64> {
    if value > 0.0 { root_between(|angle| involute(angle) - value, 0.0, MOST) } else { None }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_angle_of_its_involute_is_the_angle() {
        for degrees in [1.0, 14.5, 20.0, 25.0, 45.0, 80.0] {
            let angle = f64::to_radians(degrees);
            let back = angle_of_involute(involute(angle)).expect("an angle");
            assert!((back - angle).abs() < 1e-12 * (1.0 + 1e-4 / angle.powi(3)), "{degrees}: {back}");
        }
        assert!((involute(f64::to_radians(20.0)) - 0.014_904_383_9).abs() < 1e-10);
        assert_eq!((angle_of_involute(0.0), angle_of_involute(-1.0), angle_of_involute(1e6)), (None, None, None));
    }
}
