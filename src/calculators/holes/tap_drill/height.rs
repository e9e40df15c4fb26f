//! What counts as the full height of a thread in a tapped hole: three quarters of the triangle of 60
//! degree threads (Machinery's Handbook), the height of others, and what a forming tap presses up.

use super::TapKind;
use crate::calculators::prelude::*;
use crate::reference::threads::{FULL_THREAD, ThreadSystem, basics};
use crate::working::StepDraft;

/// What a forming tap leaves of the diameter for a full thread, over the pitch.
pub const FORMING: Constant = Constant {
    of: "constant:forming_factor",
    value: 0.68,
    source: "forming_practice",
    place: "hole is the diameter less 0.68 of the pitch for the full height",
};

/// What counts as the full height of a thread, on the diameter.
#[derive(Clone, Copy)]
pub enum Full {
    /// Three quarters of the 60 degree triangle on each side.
    Triangle,
    /// What a forming tap presses up.
    Forming,
    /// The height of a 55 degree thread on each side.
    Height(FoundSize),
    /// Half the pitch on each side: Acme and trapezoidal.
    Pitch,
}

impl Full {
    pub fn of(designation: &Designation, tap: TapKind, pitch: FoundSize, record: &mut Record) -> Self {
        let thread = &designation.thread;
        match (tap, thread.system) {
            (TapKind::Forming, _) => Full::Forming,
            (TapKind::Cutting, ThreadSystem::Acme | ThreadSystem::Trapezoidal) => Full::Pitch,
            (TapKind::Cutting, ThreadSystem::Unified | ThreadSystem::Metric | ThreadSystem::Npt) => Full::Triangle,
            (TapKind::Cutting, ThreadSystem::PipeParallel | ThreadSystem::PipeTaper | ThreadSystem::Whitworth) => {
                let height = designation.found(thread.diameter - basics(thread).pitch_diameter_exact);
                tell!(record.look_up("Height of the thread",
                    "0.640327 of the pitch: 55 degrees; of pipe threads to 0.001 mm"),
                    P = pitch => height);
                Full::Height(height)
            }
        }
    }

    /// The full height on the diameter, in the thread's unit.
    pub fn amount(self, pitch: f64) -> f64 {
        match self {
            Full::Triangle => FULL_THREAD * pitch,
            Full::Forming => FORMING.value * pitch,
            Full::Height(height) => 2.0 * height.quantity().value,
            Full::Pitch => pitch,
        }
    }

    /// A step whose formula has the full height in the place of `#`.
    pub fn step<'r>(
        self,
        what: &'static str,
        formula: &str,
        pitch: FoundSize,
        record: &'r mut Record,
    ) -> StepDraft<'r> {
        let height = match self {
            Full::Triangle => "3 / 4 × √(3) × P",
            Full::Forming => "F × P",
            Full::Height(_) => "2 × h1",
            Full::Pitch => "P",
        };
        let step = record.step(what, formula.replace('#', height));
        match self {
            Full::Height(height) => step.with("h1", "height", height),
            Full::Forming => step.with("P", "pitch", pitch).constant("F", &FORMING),
            Full::Triangle | Full::Pitch => step.with("P", "pitch", pitch),
        }
    }
}
