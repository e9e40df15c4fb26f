//! Lengths and diameters along a taper thread with their steps: NPT by the formulas of
//! ASME B1.20.1, R by the recalled lengths of ISO 7-1.

use crate::calculators::prelude::*;
use crate::reference::threads::{Basics, Npt, Provenance, taper_row};
use crate::threading::{INCH, cite_row};
use crate::working::known_steps;

/// Lengths and diameters along a taper thread, from its small end.
#[derive(Debug, Gives)]
pub struct TaperGauging {
    /// Taper of the diameter on the length: 1 in 16.
    #[label("Taper on the diameter")]
    pub taper: f64,
    /// Length from the small end to the gauge plane: hand-tight engagement, L1 of NPT.
    pub gauge_length: FoundGaugeSize,
    /// Tolerance of the gauge length, either way; R only.
    #[label("Gauge length, tolerance")]
    pub gauge_length_tolerance: Option<FoundGaugeSize>,
    /// Pitch diameter at the gauge plane, E1 of NPT.
    #[label("Pitch diameter, gauge plane")]
    pub gauge_pitch_diameter: FoundGaugeSize,
    /// Pitch diameter at the small end, E0.
    #[label("Pitch diameter, small end")]
    pub small_end_pitch_diameter: FoundGaugeSize,
    /// Minor diameter at the small end, K0.
    #[label("Minor diameter, small end")]
    pub small_end_minor_diameter: FoundGaugeSize,
    /// Length of effective thread, L2; for R the least useful thread.
    #[label("Effective thread length")]
    pub effective_length: FoundGaugeSize,
    /// Pitch diameter at the end of the effective thread, E2.
    #[label("Pitch diameter, effective end")]
    pub effective_pitch_diameter: Option<FoundGaugeSize>,
    /// Length of wrench make-up of the internal thread, L3.
    #[label("Wrench make-up length")]
    pub wrench_length: Option<FoundGaugeSize>,
    /// Pitch diameter at the end of the wrench make-up, E3.
    #[label("Pitch diameter, wrench end")]
    pub wrench_pitch_diameter: Option<FoundGaugeSize>,
    /// Length of the vanishing thread, V.
    #[label("Vanishing thread length")]
    pub vanish_length: Option<FoundGaugeSize>,
    /// Length of the whole external thread, L4.
    #[label("Overall thread length")]
    pub overall_length: Option<FoundGaugeSize>,
    /// Length of thread with full crests, L5.
    #[label("Full-crest thread length")]
    pub full_length: Option<FoundGaugeSize>,
}

const FIVE: &str = "as ASME B1.20.1 prints it: to 0.00001 in";
const FOUR: &str = "as ASME B1.20.1 prints it: to 0.0001 in";

const fn constant(of: &'static str, value: f64) -> Constant {
    Constant { of, value, source: "asme_b1_20_1", place: "formulas of the basic dimensions" }
}

const E0_SHARE: Constant = constant("constant:e0_share", 0.05);
const E0_BASE: Constant = constant("constant:e0_base", 1.1);
const L2_SHARE: Constant = constant("constant:l2_share", 0.8);
const L2_BASE: Constant = constant("constant:l2_base", 6.8);
const VANISH: Constant = constant("constant:vanishing_pitches", 3.47);
/// Height of the thread over the pitch.
pub const HEIGHT: Constant = constant("constant:height_share", 0.8);

fn inches(value: f64) -> FoundGaugeSize {
    FoundGaugeSize::stated(value, Unit::Inch)
}

/// The taper, of every taper pipe thread.
const TAPER: f64 = 1.0 / 16.0;

fn taper(record: &mut Record) {
    known_steps! { record;
        look_up "Taper of the diameter", "1 in 16, of every taper pipe thread" => "gauging.taper", TAPER;
    }
}

/// The pitch diameters that the printed ones come from: E0, E1.
pub fn npt_diameters(npt: &Npt, record: &mut Record) {
    known_steps! { record;
        look_up "Length of hand-tight engagement, L1", "table of ASME B1.20.1", D = "size"
            => "gauging.gauge_length", inches(npt.row.hand_tight_length_in);
        step "Pitch diameter at the small end in full, E0", "E0 = D - (k × D / I + c) × P",
            D = "size", k = const: E0_SHARE, I = "constant:inch": INCH, c = const: E0_BASE, P = "pitch"
            => "small_end_exact", inches(npt.small_end_exact);
        step "Pitch diameter at the gauge plane in full, E1", "E1 = E0 + L1 / 16",
            E0 = "small_end_exact", L1 = "gauging.gauge_length"
            => "pitch_diameter_exact", FoundSize::stated(npt.hand_tight_exact, Unit::Inch);
    }
}

/// Lengths and diameters along NPT.
pub fn npt_gauging(npt: &Npt, record: &mut Record) -> TaperGauging {
    taper(record);
    known_steps! { record;
        look_up "Pitch diameter at the gauge plane, E1", FIVE, x = "pitch_diameter_exact"
            => "gauging.gauge_pitch_diameter", inches(npt.hand_tight);
        look_up "Pitch diameter at the small end, E0", FIVE, x = "small_end_exact"
            => "gauging.small_end_pitch_diameter", inches(npt.small_end);
        look_up "Minor diameter at the small end, K0", "E0 less 0.8 of the pitch, to 0.00001 in", x = "small_end_exact"
            => "gauging.small_end_minor_diameter", inches(npt.small_end_minor);
        step "Length of effective thread in full, L2", "L2 = (k × D / I + c) × P",
            k = const: L2_SHARE, D = "size", I = "constant:inch": INCH, c = const: L2_BASE, P = "pitch"
            => "effective_length_exact", inches(npt.effective_length_exact);
        look_up "Length of effective thread, L2", FOUR,
            E0 = "small_end_exact", L2 = "effective_length_exact", P = "pitch"
            => "gauging.effective_length", inches(npt.effective_length);
        look_up "Pitch diameter at its end, E2", "E0 and a sixteenth of L2, to 0.00001 in",
            E0 = "small_end_exact", L2 = "effective_length_exact", P = "pitch"
            => "gauging.effective_pitch_diameter", inches(npt.effective);
        look_up "Length of wrench make-up, L3", "three pitches, to 0.0001 in",
            E0 = "small_end_exact", L2 = "effective_length_exact", P = "pitch"
            => "gauging.wrench_length", inches(npt.wrench_length);
        look_up "Pitch diameter at its end, E3", "E0 less a sixteenth of three pitches, to 0.00001 in",
            E0 = "small_end_exact", L2 = "effective_length_exact", P = "pitch"
            => "gauging.wrench_pitch_diameter", inches(npt.wrench);
        look_up "Length of the vanishing thread, V", "3.47 pitches, to 0.0001 in",
            E0 = "small_end_exact", L2 = "effective_length_exact", P = "pitch"
            => "gauging.vanish_length", inches(npt.vanish_length);
        look_up "Length of the whole external thread, L4", "L2 and 3.47 pitches, to 0.0001 in",
            E0 = "small_end_exact", L2 = "effective_length_exact", P = "pitch"
            => "gauging.overall_length", inches(npt.overall_length);
        look_up "Length of thread with full crests, L5", "L2 less two pitches, to 0.0001 in",
            E0 = "small_end_exact", L2 = "effective_length_exact", P = "pitch"
            => "gauging.full_length", inches(npt.full_length);
    }
    record.source(VANISH.source, VANISH.place);
    record.note(
        "taper_gauging",
        "Gauge an NPT thread by how far a ring or plug goes on by hand, one turn either way; its diameters alone do \
         not prove it. Joints need sealant.",
    );
    TaperGauging {
        taper: TAPER,
        gauge_length: inches(npt.row.hand_tight_length_in),
        gauge_length_tolerance: None,
        gauge_pitch_diameter: inches(npt.hand_tight),
        small_end_pitch_diameter: inches(npt.small_end),
        small_end_minor_diameter: inches(npt.small_end_minor),
        effective_length: inches(npt.effective_length),
        effective_pitch_diameter: Some(inches(npt.effective)),
        wrench_length: Some(inches(npt.wrench_length)),
        wrench_pitch_diameter: Some(inches(npt.wrench)),
        vanish_length: Some(inches(npt.vanish_length)),
        overall_length: Some(inches(npt.overall_length)),
        full_length: Some(inches(npt.full_length)),
    }
}

/// Lengths and diameters along R; `None` for a thread that has none.
pub fn r_gauging(designation: &Designation, basics: &Basics, record: &mut Record) -> Option<TaperGauging> {
    let thread = &designation.thread;
    let row = taper_row(&thread.size).filter(|_| thread.series.as_deref() == Some("R"))?;
    let from = Provenance { source: &row.source, trust: &row.trust };
    cite_row(from, "gauge length, its tolerance and useful thread", record);
    taper(record);
    let mm = |value: f64| FoundGaugeSize::stated(value, Unit::Millimetre);
    let gauging = TaperGauging {
        taper: TAPER,
        gauge_length: mm(row.gauge_length_mm),
        gauge_length_tolerance: Some(mm(row.gauge_length_tolerance_mm)),
        gauge_pitch_diameter: mm(basics.pitch_diameter),
        small_end_pitch_diameter: mm(basics.pitch_diameter - row.gauge_length_mm / 16.0),
        small_end_minor_diameter: mm(basics.minor - row.gauge_length_mm / 16.0),
        effective_length: mm(row.useful_thread_mm),
        effective_pitch_diameter: None,
        wrench_length: None,
        wrench_pitch_diameter: None,
        vanish_length: None,
        overall_length: None,
        full_length: None,
    };
    for (what, field, value) in [
        ("Gauge length", "gauging.gauge_length", gauging.gauge_length),
        ("Its tolerance, either way", "gauging.gauge_length_tolerance", mm(row.gauge_length_tolerance_mm)),
        ("Least useful thread", "gauging.effective_length", gauging.effective_length),
    ] {
        known_steps! { record;
            look_up what, "ISO 7-1, from memory, not compared with the standard", T = "designation": designation.text()
                => field, value;
        }
    }
    known_steps! { record;
        step "Pitch diameter at the gauge plane", "x = E", E = "pitch_diameter"
            => "gauging.gauge_pitch_diameter", gauging.gauge_pitch_diameter;
        step "Pitch diameter at the small end", "x = E - L / 16", E = "pitch_diameter", L = "gauging.gauge_length"
            => "gauging.small_end_pitch_diameter", gauging.small_end_pitch_diameter;
        step "Minor diameter at the small end", "x = E - L / 16", E = "minor_diameter", L = "gauging.gauge_length"
            => "gauging.small_end_minor_diameter", gauging.small_end_minor_diameter;
    }
    Some(gauging)
}
