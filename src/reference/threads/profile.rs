//! Basic profile of the 60 degree thread: exact ratios of the fundamental triangle
//! (ISO 68-1, ASME B1.1), and the basic diameters of every system as its tables print them.

use super::npt::npt;
use super::rounding::{half_even, half_up};
use super::{Thread, ThreadSystem};

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

/// Cotangent of half the 55 degree flank angle, to the last digit of a double.
const COT_27_30: f64 = 1.920_982_126_971_166;
/// Height of a Whitworth thread over the pitch: two thirds of the triangle, cot 27.5°/3 (0.640327).
pub const WHITWORTH_HEIGHT: f64 = COT_27_30 / 3.0;
/// Basic dimensions of a thread, in its own unit (inch or millimeter; areas in its square).
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
    /// Tensile stress area, not rounded; Unified and metric only.
    pub stress_area: Option<f64>,
    /// Advance in one turn: pitch times starts.
    pub lead: f64,
}

/// Height of a pipe thread in whole micrometers: 0.640327 of the rounded pitch.
pub(super) fn height_um(pitch: f64) -> i64 {
    half_up(WHITWORTH_HEIGHT * pitch * 1000.0)
}

/// Major, pitch and minor diameter before rounding. Of a taper thread: at the plane that gauges it.
fn exact(thread: &Thread) -> (f64, f64, f64) {
    let (d, p) = (thread.diameter, thread.pitch);
    match thread.system {
        ThreadSystem::Unified | ThreadSystem::Metric => (d, d - TO_PITCH_DIAMETER * p, d - TO_MINOR_DIAMETER * p),
        ThreadSystem::Npt => {
            let at = npt(thread).map_or(d, |npt| npt.hand_tight_exact);
            (at + 0.8 * p, at, at - 0.8 * p)
        }
        ThreadSystem::PipeParallel | ThreadSystem::PipeTaper => {
            let height = height_um(p) as f64 / 1000.0;
            (d, d - height, d - 2.0 * height)
        }
        ThreadSystem::Whitworth => (d, d - WHITWORTH_HEIGHT * p, d - 2.0 * WHITWORTH_HEIGHT * p),
        ThreadSystem::Acme | ThreadSystem::Trapezoidal => (d, d - p / 2.0, d - p),
    }
}

/// Basic dimensions of a thread.
pub fn basics(thread: &Thread) -> Basics {
    let (major, pitch_diameter_exact, minor_exact) = exact(thread);
    let stress = match thread.system {
        ThreadSystem::Unified => Some(UNIFIED_STRESS),
        ThreadSystem::Metric => Some(METRIC_STRESS),
        _ => None,
    };
    let stress_area = stress.map(|ratio| {
        let across = thread.diameter - ratio * thread.pitch;
        std::f64::consts::FRAC_PI_4 * across * across
    });
    Basics {
        major: printed(thread.system, major),
        pitch_diameter: printed(thread.system, pitch_diameter_exact),
        minor: printed(thread.system, minor_exact),
        pitch_diameter_exact,
        minor_exact,
        triangle_height: thread.pitch / 2.0 / (thread.system.flank_angle() / 2.0).to_radians().tan(),
        stress_area,
        lead: thread.lead(),
    }
}

/// A basic diameter as the tables print it.
fn printed(system: ThreadSystem, value: f64) -> f64 {
    match system {
        ThreadSystem::Unified => half_even(value * 1e4) as f64 / 1e4,
        ThreadSystem::Npt => half_even(value * 1e5) as f64 / 1e5,
        _ if system.in_inches() => half_up(value * 1e4) as f64 / 1e4,
        _ => half_up(value * 1e3) as f64 / 1e3,
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
            let exact = basics(&read(text).unwrap()).stress_area.unwrap();
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
