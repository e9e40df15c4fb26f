//! The hole before tapping and the thread round it, seen along the axis: the thread as a thin arc of
//! three quarters, open at the upper right, as ISO 6410-1 draws it.

use super::{TapDrillInput, TapDrillResult};
use crate::drawing::{Beside, Drawing, Ink, Words};
use crate::quantity::SiValue;
use crate::reference::threads::{ThreadSystem, basics};

/// Draws an answer.
pub fn draw(input: &TapDrillInput, result: &TapDrillResult) -> Drawing {
    let thread = &input.thread;
    // Of a taper thread, the diameter at its gauge plane.
    let size = thread.found(basics(&thread.thread).major);
    let field = if thread.thread.system == ThreadSystem::Npt { "thread_diameter" } else { "size" };
    let mut about = Words::of(format!("The hole before tapping {}: ", thread.text()))
        .value(result.hole_diameter)
        .then(" in diameter inside a thread of ")
        .value(size);
    if let Some(drill) = &result.drill {
        about = about.then(format!("; the stock drill is {}, ", drill.name)).value(drill.diameter);
    }
    let mut drawing = Drawing::new("Hole and thread along the axis", about.then("."));
    let (hole, major) = (result.hole_diameter.get().si() / 2.0, size.get().si() / 2.0);
    drawing.circle(Ink::Outline, (0.0, 0.0), hole).of("hole_diameter");
    drawing.arc(Ink::Thin, (0.0, 0.0), major, 100.0, 270.0).of(field);
    drawing.cross((0.0, 0.0), major);
    let above = Beside { from: major, by: 22.0 };
    drawing.across((-major, 0.0), (major, 0.0), above, Words::of("thread Ø ").value(size)).of(field);
    let below = Beside { from: -major, by: -22.0 };
    let words = Words::of("hole Ø ").value(result.hole_diameter);
    drawing.across((-hole, 0.0), (hole, 0.0), below, words).of("hole_diameter");
    if let Some(drill) = &result.drill {
        drawing.label((-0.43 * hole, 0.4 * hole), Words::of(format!("drill {}", drill.name)));
    }
    drawing
}
