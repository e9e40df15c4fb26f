//! Basic profile of the 60 degree thread: exact ratios of the fundamental triangle
//! (ISO 68-1, ASME B1.1), and the basic diameters as ISO 724 and ASME B1.1 print them.

use super::rounding::{half_even, half_up};
use super::{System, Thread};

/// Square root of three.
const ROOT_3: f64 = 1.732_050_807_568_877_2;

/// Height of the fundamental triangle over the pitch: √3/2.
pub const TRIANGLE_HEIGHT: f64 = ROOT_3 / 2.0;
/// Major less pitch diameter over the pitch: 2 · 3H/8 = 3√3/8 (0.649519).
pub const TO_PITCH_DIAMETER: f64 = 3.0 * ROOT_3 / 8.0;
/// Major less minor diameter of the internal thread over the pitch: 2 · 5H/8 = 5√3/8 (1.082532).
pub const TO_MINOR_DIAMETER: f64 = 5.0 * ROOT_3 / 8.0;
/// Major less minor diameter of the metric external thread with a root of radius H/6, over the
/// pitch: 2 · 17H/24 = 17√3/24 (1.226869).
pub const TO_ROUNDED_ROOT: f64 = 17.0 * ROOT_3 / 24.0;
/// Diametral height of a thread of 100 percent as the percentage of thread counts it, over the
/// pitch: 2 · 3H/4 = 3√3/4 (1.299038).
pub const FULL_THREAD: f64 = 3.0 * ROOT_3 / 4.0;
/// Major diameter less that of the metric stress area, over the pitch: mean of pitch diameter
/// and rounded root, 13√3/24 (0.938194).
pub const METRIC_STRESS: f64 = 13.0 * ROOT_3 / 24.0;
/// The same for Unified threads: pitch diameter less 3H/8, 9√3/16 (0.974279; printed 0.9743).
pub const UNIFIED_STRESS: f64 = 9.0 * ROOT_3 / 16.0;

/// Basic dimensions of a thread, in its own unit (inch or millimetre; areas in its square).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Basics {
    /// Basic major diameter as printed: 3 places in mm, 4 in inches.
    pub major: f64,
    /// Basic pitch diameter as printed: 3 places in mm, 4 in inches.
    pub pitch_diameter: f64,
    /// Basic minor diameter of the internal thread as printed.
    pub minor: f64,
    /// Pitch diameter before rounding.
    pub pitch_diameter_exact: f64,
    /// Minor diameter of the internal thread before rounding.
    pub minor_exact: f64,
    /// Height of the fundamental triangle, H.
    pub triangle_height: f64,
    /// Tensile stress area, not rounded.
    pub stress_area: f64,
    /// Diameter whose circle is the stress area, not rounded.
    pub stress_diameter: f64,
    /// Advance in one turn: pitch times starts.
    pub lead: f64,
}

/// Basic dimensions of a thread.
pub fn basics(thread: &Thread) -> Basics {
    let (d, p) = (thread.diameter, thread.pitch);
    let pitch_diameter_exact = d - TO_PITCH_DIAMETER * p;
    let minor_exact = d - TO_MINOR_DIAMETER * p;
    let stress = match thread.system {
        System::Unified => UNIFIED_STRESS,
        System::Metric => METRIC_STRESS,
    };
    let stress_diameter = d - stress * p;
    Basics {
        major: printed(thread.system, d),
        pitch_diameter: printed(thread.system, pitch_diameter_exact),
        minor: printed(thread.system, minor_exact),
        pitch_diameter_exact,
        minor_exact,
        triangle_height: TRIANGLE_HEIGHT * p,
        stress_area: std::f64::consts::FRAC_PI_4 * stress_diameter * stress_diameter,
        stress_diameter,
        lead: p * f64::from(thread.starts),
    }
}

/// A basic diameter as the tables print it.
fn printed(system: System, value: f64) -> f64 {
    match system {
        System::Unified => half_even(value * 1e4) as f64 / 1e4,
        System::Metric => half_up(value * 1e3) as f64 / 1e3,
    }
}

#[cfg(test)]
mod tests {
    use super::super::read;
    use super::*;

    #[test]
    fn ratios_are_the_printed_ones() {
        // Machinery's Handbook, 27th ed., p. 1734, and ISO 68-1: six printed places.
        for (ratio, printed) in [
            (TRIANGLE_HEIGHT, 0.866_025),
            (TO_PITCH_DIAMETER, 0.649_519),
            (TO_MINOR_DIAMETER, 1.082_532),
            (TO_ROUNDED_ROOT, 1.226_869),
            (FULL_THREAD, 1.299_038),
            (METRIC_STRESS, 0.938_194),
        ] {
            assert!((ratio - printed).abs() <= 5.01e-7, "{ratio} {printed}");
        }
        assert!((UNIFIED_STRESS - 0.9743).abs() < 5e-5);
    }

    #[test]
    fn basic_diameters_are_those_of_the_published_tables() {
        // ASME B1.1, table of UNC (2B minimum pitch diameter is the basic one);
        // ISO 965 table as transcribed in threadlib: 6H minima are the basic diameters.
        let quarter = basics(&read("1/4-20 UNC").unwrap());
        assert_eq!(quarter.pitch_diameter, 0.2175);
        let m8 = basics(&read("M8").unwrap());
        assert_eq!((m8.pitch_diameter, m8.minor), (7.188, 6.647));
        let m36 = basics(&read("M36").unwrap());
        assert_eq!((m36.pitch_diameter, m36.minor), (33.402, 31.670));
    }

    #[test]
    fn unified_stress_area_agrees_with_the_printed_relation() {
        // ASME B1.1 appendix B: 0.7854 (D - 0.9743 / n) squared; its constants have four places.
        for (text, d, n) in [("1/4-20", 0.25, 20.0), ("1-8", 1.0, 8.0), ("#10-32", 0.19, 32.0)] {
            let exact = basics(&read(text).unwrap()).stress_area;
            let across: f64 = d - 0.9743 / n;
            let printed = across * across * 7854.0 / 1e4;
            assert!((exact / printed - 1.0).abs() < 5e-5, "{text} {exact} {printed}");
        }
    }

    #[test]
    fn two_starts_lead_twice_the_pitch() {
        assert_eq!(basics(&read("M16xPh4P2").unwrap()).lead, 4.0);
    }
}
