//! Lengths and diameters along a taper thread with their steps: NPT by the formulas of
//! ASME B1.20.1, R by the recalled lengths of ISO 7-1.

use crate::declared::Gives;
use crate::quantity::{FoundGaugeSize, FoundSize, Unit};
use crate::reference::threads::{self, Designation, Npt};
use crate::sources::Trust;
use crate::working::{Constant, Record};

/// Lengths and diameters along a taper thread, from its small end.
#[derive(Debug, Gives)]
pub struct TaperGauging {
    /// Taper of the diameter on the length: 1 in 16.
    pub taper: f64,
    /// Length from the small end to the gauge plane: hand-tight engagement, L1 of NPT.
    pub gauge_length: FoundGaugeSize,
    /// How far the gauge length may be off, either way; R only.
    pub gauge_length_tolerance: Option<FoundGaugeSize>,
    /// Pitch diameter at the gauge plane, E1 of NPT.
    pub gauge_pitch_diameter: FoundGaugeSize,
    /// Pitch diameter at the small end, E0.
    pub small_end_pitch_diameter: FoundGaugeSize,
    /// Minor diameter at the small end, K0.
    pub small_end_minor_diameter: FoundGaugeSize,
    /// Length of effective thread, L2; of R the least useful thread.
    pub effective_length: FoundGaugeSize,
    /// Pitch diameter at the end of the effective thread, E2.
    pub effective_pitch_diameter: Option<FoundGaugeSize>,
    /// Length of wrench make-up of the internal thread, L3.
    pub wrench_length: Option<FoundGaugeSize>,
    /// Pitch diameter at its end, E3.
    pub wrench_pitch_diameter: Option<FoundGaugeSize>,
    /// Length of the vanishing thread, V.
    pub vanish_length: Option<FoundGaugeSize>,
    /// Length of the whole external thread, L4.
    pub overall_length: Option<FoundGaugeSize>,
    /// Length of thread with full crests, L5.
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

/// The taper as a step.
fn taper(record: &mut Record) -> f64 {
    record.look_up("Taper of the diameter", "1 in 16, of every taper pipe thread").gives("gauging.taper", 1.0 / 16.0);
    1.0 / 16.0
}

/// The pitch diameters that the printed ones come from: E0, E1.
pub fn npt_diameters(npt: &Npt, size: FoundSize, pitch: FoundSize, record: &mut Record) {
    record
        .look_up("Length of hand-tight engagement, L1", "table of ASME B1.20.1")
        .with("D", "size", size)
        .gives("gauging.gauge_length", inches(npt.row.hand_tight_length_in));
    record
        .step("Pitch diameter at the small end in full, E0", "E0 = D - (k × D / I + c) × P")
        .with("D", "size", size)
        .constant("k", &E0_SHARE)
        .with("I", "constant:inch", FoundSize::stated(1.0, Unit::Inch))
        .constant("c", &E0_BASE)
        .with("P", "pitch", pitch)
        .gives("small_end_exact", inches(npt.small_end_exact));
    record
        .step("Pitch diameter at the gauge plane in full, E1", "E1 = E0 + L1 / 16")
        .with("E0", "small_end_exact", inches(npt.small_end_exact))
        .with("L1", "gauging.gauge_length", inches(npt.row.hand_tight_length_in))
        .gives("pitch_diameter_exact", FoundSize::stated(npt.hand_tight_exact, Unit::Inch));
}

/// Lengths and diameters along NPT.
pub fn npt_gauging(npt: &Npt, size: FoundSize, pitch: FoundSize, record: &mut Record) -> TaperGauging {
    let taper = taper(record);
    let e0 = inches(npt.small_end_exact);
    let mut printed = |what: &'static str, rule, from: (&'static str, FoundGaugeSize), field: &'static str, value| {
        record.look_up(what, rule).with("x", from.0, from.1).gives(field, inches(value));
        inches(value)
    };
    let e1 = inches(npt.hand_tight_exact);
    let gauge = printed(
        "Pitch diameter at the gauge plane, E1",
        FIVE,
        ("pitch_diameter_exact", e1),
        "gauging.gauge_pitch_diameter",
        npt.hand_tight,
    );
    let small = printed(
        "Pitch diameter at the small end, E0",
        FIVE,
        ("small_end_exact", e0),
        "gauging.small_end_pitch_diameter",
        npt.small_end,
    );
    let minor = printed(
        "Minor diameter at the small end, K0",
        "E0 less 0.8 of the pitch, to 0.00001 in",
        ("small_end_exact", e0),
        "gauging.small_end_minor_diameter",
        npt.small_end_minor,
    );
    let l2 = inches(npt.effective_length_exact);
    record
        .step("Length of effective thread in full, L2", "L2 = (k × D / I + c) × P")
        .constant("k", &L2_SHARE)
        .with("D", "size", size)
        .with("I", "constant:inch", FoundSize::stated(1.0, Unit::Inch))
        .constant("c", &L2_BASE)
        .with("P", "pitch", pitch)
        .gives("effective_length_exact", l2);
    let mut printed = |what: &'static str, rule: &'static str, field: &'static str, value: f64| {
        record
            .look_up(what, rule)
            .with("E0", "small_end_exact", e0)
            .with("L2", "effective_length_exact", l2)
            .with("P", "pitch", pitch)
            .gives(field, inches(value));
        inches(value)
    };
    let effective_length =
        printed("Length of effective thread, L2", FOUR, "gauging.effective_length", npt.effective_length);
    let effective = printed(
        "Pitch diameter at its end, E2",
        "E0 and a sixteenth of L2, to 0.00001 in",
        "gauging.effective_pitch_diameter",
        npt.effective,
    );
    let wrench_length = printed(
        "Length of wrench make-up, L3",
        "three pitches, to 0.0001 in",
        "gauging.wrench_length",
        npt.wrench_length,
    );
    let wrench = printed(
        "Pitch diameter at its end, E3",
        "E0 less a sixteenth of three pitches, to 0.00001 in",
        "gauging.wrench_pitch_diameter",
        npt.wrench,
    );
    let vanish = printed(
        "Length of the vanishing thread, V",
        "3.47 pitches, to 0.0001 in",
        "gauging.vanish_length",
        npt.vanish_length,
    );
    let overall = printed(
        "Length of the whole external thread, L4",
        "L2 and 3.47 pitches, to 0.0001 in",
        "gauging.overall_length",
        npt.overall_length,
    );
    let full = printed(
        "Length of thread with full crests, L5",
        "L2 less two pitches, to 0.0001 in",
        "gauging.full_length",
        npt.full_length,
    );
    record.source(VANISH.source, VANISH.place);
    record.note(
        "taper_gauging",
        "An NPT thread is gauged by how far a ring or plug goes on by hand, one turn either way; its diameters alone \
         do not prove it. Joints need sealant.",
    );
    TaperGauging {
        taper,
        gauge_length: inches(npt.row.hand_tight_length_in),
        gauge_length_tolerance: None,
        gauge_pitch_diameter: gauge,
        small_end_pitch_diameter: small,
        small_end_minor_diameter: minor,
        effective_length,
        effective_pitch_diameter: Some(effective),
        wrench_length: Some(wrench_length),
        wrench_pitch_diameter: Some(wrench),
        vanish_length: Some(vanish),
        overall_length: Some(overall),
        full_length: Some(full),
    }
}

/// Lengths and diameters along R; `None` for a thread that has none.
pub fn r_gauging(designation: &Designation, record: &mut Record) -> Option<TaperGauging> {
    let thread = &designation.thread;
    let row = threads::taper_row(&thread.size).filter(|_| thread.series.as_deref() == Some("R"))?;
    let basics = threads::basics(thread);
    let trust = Trust::named(&row.trust).unwrap_or(Trust::FromMemory);
    record.source_trusted(&row.source, "gauge length, its tolerance and useful thread", trust);
    let taper = taper(record);
    let mm = |value: f64| FoundGaugeSize::stated(value, Unit::Millimetre);
    let table = "ISO 7-1, recalled, not compared with the standard";
    let mut from_table = |what: &'static str, field: &'static str, value: f64| {
        record.look_up(what, table).with("T", "designation", designation.text()).gives(field, mm(value));
        mm(value)
    };
    let gauge_length = from_table("Gauge length", "gauging.gauge_length", row.gauge_length_mm);
    let tolerance =
        from_table("Its tolerance, either way", "gauging.gauge_length_tolerance", row.gauge_length_tolerance_mm);
    let effective_length = from_table("Least useful thread", "gauging.effective_length", row.useful_thread_mm);
    let gauge = mm(basics.pitch_diameter);
    record
        .step("Pitch diameter at the gauge plane", "x = E")
        .with("E", "pitch_diameter", gauge)
        .gives("gauging.gauge_pitch_diameter", gauge);
    let mut along =
        |what: &'static str, formula: &'static str, from: (&'static str, f64), field: &'static str, value: f64| {
            record
                .step(what, formula)
                .with("E", from.0, mm(from.1))
                .with("L", "gauging.gauge_length", gauge_length)
                .gives(field, mm(value));
            mm(value)
        };
    let gauge_at = ("pitch_diameter", basics.pitch_diameter);
    let back = row.gauge_length_mm / 16.0;
    let small = along(
        "Pitch diameter at the small end",
        "x = E - L / 16",
        gauge_at,
        "gauging.small_end_pitch_diameter",
        basics.pitch_diameter - back,
    );
    let minor = along(
        "Minor diameter at the small end",
        "x = E - L / 16",
        ("minor_diameter", basics.minor),
        "gauging.small_end_minor_diameter",
        basics.minor - back,
    );
    Some(TaperGauging {
        taper,
        gauge_length,
        gauge_length_tolerance: Some(tolerance),
        gauge_pitch_diameter: gauge,
        small_end_pitch_diameter: small,
        small_end_minor_diameter: minor,
        effective_length,
        effective_pitch_diameter: None,
        wrench_length: None,
        wrench_pitch_diameter: None,
        vanish_length: None,
        overall_length: None,
        full_length: None,
    })
}
