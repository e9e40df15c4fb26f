//! Sine, cosine and tangent of angles in degrees. The angle is folded to a quadrant before radians
//! come in, so that the rational values (0, ±1/2, ±1; Niven's theorem says there are no others) are
//! exact and nothing else is touched.

/// Sine and cosine of `degrees`.
pub fn sin_cos(degrees: f64) -> (f64, f64) {
    let turn = degrees.rem_euclid(360.0);
    // rem_euclid can round a tiny negative angle up to a full turn.
    let turn = if turn >= 360.0 { 0.0 } else { turn };
    let folded = if (degrees.abs()) < 45.0 { degrees } else { turn };
    let quadrant = (folded / 90.0).round();
    let rest = folded - quadrant * 90.0;
    let (sin, cos) = first_octants(rest);
    match quadrant.rem_euclid(4.0) as u8 {
        0 => (sin, cos),
        1 => (cos, -sin),
        2 => (-sin, -cos),
        _ => (-cos, sin),
    }
}

/// Sine and cosine for -45°..=45°.
fn first_octants(degrees: f64) -> (f64, f64) {
    let (sin, cos) = degrees.to_radians().sin_cos();
    if degrees == 0.0 {
        (0.0, 1.0)
    } else if degrees.abs() == 30.0 {
        (0.5f64.copysign(degrees), cos)
    } else {
        (sin, cos)
    }
}

/// Sine of `degrees`.
pub fn sin(degrees: f64) -> f64 {
    sin_cos(degrees).0 + 0.0
}

/// Cosine of `degrees`.
pub fn cos(degrees: f64) -> f64 {
    sin_cos(degrees).1 + 0.0
}

/// Tangent of `degrees`; infinite where the cosine is zero, so callers bound their angles first.
pub fn tan(degrees: f64) -> f64 {
    let (sin, cos) = sin_cos(degrees);
    if degrees.rem_euclid(90.0) == 45.0 { (sin / cos).signum() } else { sin / cos }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rational_values_are_exact() {
        for turn in [-720.0, -360.0, 0.0, 360.0, 720.0] {
            assert_eq!(sin_cos(turn), (0.0, 1.0));
            assert_eq!(cos(turn + 90.0), 0.0);
            assert_eq!(sin(turn + 180.0), 0.0);
            assert_eq!(cos(turn + 180.0), -1.0);
            assert_eq!(sin(turn + 270.0), -1.0);
            assert_eq!(cos(turn + 60.0), 0.5);
            assert_eq!(sin(turn + 210.0), -0.5);
        }
    }

    #[test]
    fn a_tiny_angle_is_not_snapped_to_zero() {
        assert!((sin(1e-7) - 1e-7f64.to_radians()).abs() < 1e-24);
        assert!((sin(-1e-7) + 1e-7f64.to_radians()).abs() < 1e-24);
        assert!(cos(90.0 + 1e-7) != 0.0);
    }

    #[test]
    fn it_agrees_with_the_library_everywhere() {
        for step in -4000..4000 {
            let degrees = f64::from(step) * 0.37;
            let (sin, cos) = sin_cos(degrees);
            let (s, c) = degrees.to_radians().sin_cos();
            assert!((sin - s).abs() < 4e-15 && (cos - c).abs() < 4e-15, "{degrees}");
            assert!((sin.hypot(cos) - 1.0).abs() < 1e-15);
        }
    }

    #[test]
    fn forty_five_degrees_has_a_tangent_of_one() {
        assert_eq!(tan(45.0), 1.0);
        assert_eq!(tan(135.0), -1.0);
        assert_eq!(tan(0.0), 0.0);
    }
}
